"""A message taken apart: its tokens, figures and labels, and what stands where.

This file decides in which order a message is taken apart, and answers what later steps ask of
it. What a word means by its neighbours is decided in `settling`, what is mere talk in `talk`.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Callable, Iterator, Sequence
from operator import attrgetter

from domain.context import Context
from domain.reading.axles_in_turn import LEAST_IN_TURN, count_on
from domain.reading.beside import paid_in
from domain.reading.clocks import TELLS_HOURS, settle_clocks
from domain.reading.figure_search import find_figures
from domain.reading.figures import DIMENSION, Figure
from domain.reading.heard_gauges import gauge_meant
from domain.reading.label import NAMING, Label
from domain.reading.labels import find_labels
from domain.reading.lexer import take_apart
from domain.reading.names import Names, names_of
from domain.reading.pairing import bind
from domain.reading.phrasebook import SAID_BY_LETTER, Phrasebook
from domain.reading.printed_lines import leave_headings
from domain.reading.rear_or_return import WEIGHED, settle_rears
from domain.reading.settling import settle_vans, settle_words
from domain.reading.sides import SIDED, carry_sides, number_wheels
from domain.reading.superseded import GIVES_WAY, supersede
from domain.reading.taken_back import take_back_figures, take_back_words
from domain.reading.talk import talk_of
from domain.reading.then_and_now import leave_past
from domain.reading.tokens import BREAK, MARK, NO_GROUPS, NUMBER, SENTENCE_ENDS, WORD, Token

TAKING_BACK = frozenset(("takes_back", "no_alone", "hesitates", "grumbles"))
"""Groups of words that take back what a message said before."""

LEAST_LOAD = 400
"""Pounds or kilograms."""

GROUPS = attrgetter("groups")

ENDS = frozenset(SENTENCE_ENDS)
CLAUSE_ENDS = ENDS | {","}
"""Marks of which one stands where a message has several sentences, or several clauses."""


class Scene:
    """One message with everything that reading it needs.

    Of its `figures`, `live` are those that nobody claims and that are stated. `groups` are those of
    its words, and `said` are with them its classes of term and its marks.
    """

    __slots__ = (
        "_clause_ends",
        "_sentence_ends",
        "_words",
        "book",
        "by_class",
        "context",
        "figures",
        "groups",
        "kinds",
        "labels",
        "live",
        "marks",
        "names",
        "numbers",
        "said",
        "talk",
        "text",
        "tokens",
        "trace",
        "unknown",
    )

    figures: list[Figure]
    labels: list[Label]
    live: list[Figure]

    def __init__(
        self, text: str, context: Context, book: Phrasebook, trace: list[str] | None = None
    ) -> None:
        self.trace = trace
        self._clause_ends: list[int] | None = None
        self._sentence_ends: list[int] | None = None
        self.text = text
        self.context = context
        self.book = book
        self.names: Names = names_of(context, book)
        self.tokens, words = take_apart(text, book, self.names)
        self.groups: frozenset[str] = NO_GROUPS.union(*map(GROUPS, self.tokens))
        if "van_or_wagon" in self.groups:
            settle_vans(self)
        self.index_terms()
        self._words: list[str] | None = None if SAID_BY_LETTER in self.groups else words
        if "rear_or_return" in self.groups and not WEIGHED.isdisjoint(self.by_class):
            self._settle_rears()
        hours = self.numbers and not (
            TELLS_HOURS.isdisjoint(self.said) and book.hour_words.isdisjoint(words)
        )
        if hours and settle_clocks(text, self.tokens, self.numbers, book, self.said):
            self.index_terms()
        settle_words(self)
        taking_back = not TAKING_BACK.isdisjoint(self.groups) or ".." in text
        if taking_back and take_back_words(self.tokens, book.keys["switch"]):
            self.index_terms()
        if "money" in self.by_class and "in" in self.groups:
            self.context = paid_in(self.tokens, context)
        if self.numbers:
            self._take_figures(taking_back=taking_back)
        else:
            self.figures, self.labels, self.live = [], [], []
        self.talk: list[str | None] = talk_of(self)
        if self.numbers:
            self.live = self._stated_figures()

    def index_terms(self) -> None:
        """Note where each class of term, the numbers and the words stand that no phrase knows.

        `marks` are those that mean nothing by themselves, `kinds` of what else stands there: times,
        breaks, telephone numbers. The words are taken anew when they are next asked for.
        """
        self._words = None
        by_class: defaultdict[str, list[int]] = defaultdict(list)
        unknown: list[int] = []
        numbers: list[int] = []
        kinds: set[str] = set()
        marks: set[str] = set()
        for index, token in enumerate(self.tokens):
            if token.senses:
                for term_class in token.senses:
                    by_class[term_class].append(index)
            elif token.kind is NUMBER:
                numbers.append(index)
            elif token.kind is WORD:
                unknown.append(index)
            elif token.kind is MARK:
                marks.add(token.raw)
            else:
                kinds.add(token.kind)
        by_class.default_factory = None
        self.by_class: dict[str, list[int]] = by_class
        self.numbers = numbers
        self.unknown = unknown
        self.kinds = kinds
        self.marks = marks
        self.said: frozenset[str] = self.groups.union(by_class, marks)

    def _settle_rears(self) -> None:
        if settle_rears(self.tokens, self.book):
            self.groups = self.groups.union(*[token.groups for token in self.tokens])
            self.index_terms()

    def _take_figures(self, *, taking_back: bool) -> None:
        """Find the figures and the labels, and which of them belong together."""
        self._find_figures()
        if self.unknown:
            self._correct_spelling(self.book)
        if taking_back:
            self._take_back()
        if len(self.figures) > 1:
            self._leave_past()
            if not GIVES_WAY.isdisjoint(self.groups):
                self._supersede()
        self.labels = self.find_labels()
        if self.labels:
            if len(self.figures) >= LEAST_IN_TURN and "axle_noun" in self.by_class:
                count_on(self.tokens, self.figures, self.labels)
            told = bind(self.tokens, self.figures, self.labels)
            if told is not None:
                self.decided(told)
                if not SIDED.isdisjoint(self.by_class):
                    carry_sides(self.tokens, self.figures, self.labels)
                    if len(self.figures) > len(self.labels):
                        number_wheels(self.figures, self.labels)
        if BREAK in self.kinds:
            leave_headings(self.tokens, self.figures, self.context)

    def _find_figures(self) -> None:
        self.figures = find_figures(self.tokens, self.numbers, self.context, self.said)

    def _take_back(self) -> None:
        if take_back_figures(self.tokens, self.figures):
            self.index_terms()

    def _leave_past(self) -> None:
        if leave_past(self.tokens, self.figures, self.text, self.groups):
            self.index_terms()

    def _supersede(self) -> None:
        known = self.context.odometer
        if supersede(self.tokens, self.figures, known.value if known else None):
            self.index_terms()

    def _correct_spelling(self, book: Phrasebook) -> None:
        """Unknown words beside a figure are tried as slips of a label."""
        unknown = set(self.unknown)
        for figure in self.figures:
            near = (figure.start - 1, figure.start - 2, figure.end, figure.end + 1)
            for index in filter(unknown.__contains__, near):
                if (token := self.tokens[index]).text.isalpha():
                    slip = book.correction(token.text, figure.value >= LEAST_LOAD)
                    if slip is None and "temps_word" in self.groups:
                        slip = gauge_meant(self.tokens, index, book)
                    if slip is not None and not self._names_place(index, slip, book):
                        unknown.remove(index)
                        token.senses = book.words[slip]
                        self.by_class.setdefault("corrected", []).append(index)
                        for term_class in token.senses:
                            self.by_class.setdefault(term_class, []).append(index)
        if "corrected" in self.by_class:
            self.unknown = [index for index in self.unknown if not self.tokens[index].senses]
            self.said = self.said.union(self.by_class)
            self._find_figures()

    def _names_place(self, index: int, slip: str, book: Phrasebook) -> bool:
        """'Petro' amid a sentence is somebody's sign, and no slip of petrol."""
        named = self.tokens[index].raw[0].isupper() and index > 0 and not self.text.isupper()
        return named and "product" in book.words[slip]

    def decided(self, told: Callable[[], str]) -> None:
        """Note what decided, for someone who asks why; costs nothing otherwise."""
        if self.trace is not None:
            self.trace.append(told())

    def _stated_figures(self) -> list[Figure]:
        talk = self.talk
        return [
            figure
            for figure in self.figures
            if figure.claimed is None and talk[figure.start] is None
        ]

    def find_labels(self) -> list[Label]:
        """What runs of words name: without figures few ask for it, and it stands in no `labels`."""
        named = NAMING.intersection(self.by_class)
        if not named:
            return []
        naming = frozenset().union(*map(self.by_class.__getitem__, named))
        return find_labels(self.tokens, naming, self.figures, self.groups)

    def has(self, term_class: str, key: str | None = None) -> bool:
        """Whether a class of term (with that key) stands anywhere in the message."""
        if term_class not in self.by_class:
            return False
        if key is None:
            return True
        for index in self.by_class[term_class]:
            said = self.tokens[index].senses.get(term_class, "")
            if key == said or key in said.split():
                return True
        return False

    def said_and_measured(self) -> frozenset[str | None]:
        """What is said, and the dimensions of the figures; None is that of a bare one."""
        return self.said.union(map(DIMENSION, self.figures))

    def find(self, term_class: str, key: str | None = None) -> Iterator[tuple[int, Token, str]]:
        """The tokens of a class: index, token and key."""
        found = self.by_class.get(term_class)
        return iter(()) if found is None else self._find(found, term_class, key)

    def _find(
        self, found: Sequence[int], term_class: str, key: str | None
    ) -> Iterator[tuple[int, Token, str]]:
        for index in found:
            token = self.tokens[index]
            value = token.senses.get(term_class, "")
            if value and (key is None or key in value.split()):
                yield index, token, value

    def named(self, vehicle: str) -> list[str]:
        """The names of the chat's own trucks or trailers that the message has, in order."""
        if "name" not in self.by_class:
            return []
        kind = f"{vehicle}:"
        return [
            value.removeprefix(kind) for _, _, value in self.find("name") if value.startswith(kind)
        ]

    def phrase_said(self, group: str, start: int = 0, end: int | None = None) -> str | None:
        """The phrase of a group that stands whole between two tokens, also across several."""
        begun = self.book.begun_by(group, self._words or self.words())
        if not begun:
            return None
        said = f" {' '.join([token.text for token in self.tokens[start:end]])} "
        for each in begun:
            if each in said:
                return each[1:-1]
        return None

    def stated(self, index: int) -> bool:
        """Whether what stands there is stated, and not planned, guessed, denied or hearsay."""
        return self.talk[index] is None

    def claim(self, figure: Figure, owner: str) -> None:
        """Leave a figure aside that turns out to belong to somebody else."""
        figure.claimed = owner
        self.live = [each for each in self.live if each is not figure]

    def claim_between(self, start: int, end: int, owner: str) -> None:
        """Leave aside every figure that begins in a stretch of the text."""
        for figure in self.figures:
            if start <= figure.token.start < end:
                self.claim(figure, owner)

    def unknown_words(self, *, names: bool = True) -> Sequence[int]:
        """Where words stand that no phrase knows; without capitalized ones if not `names`."""
        if names:
            return self.unknown
        return [index for index in self.unknown if self.tokens[index].raw[0].islower()]

    def words_between(self, start: int, end: int) -> str:
        """The message's own words from one token to another (exclusive)."""
        if start >= end:
            return ""
        return self.text[self.tokens[start].start : self.tokens[end - 1].end]

    def words(self) -> Sequence[str]:
        """Every single word of the message: those of a phrase, of a number, a mark."""
        if self._words is None:
            words = " ".join([token.text for token in self.tokens]).split(" ")
            self._words = [word for word in words if word] if "" in words else words
        return self._words

    def owners(self) -> Sequence[int]:
        """The token that each of the message's words belongs to."""
        return [
            index
            for index, token in enumerate(self.tokens)
            for word in token.text.split(" ")
            if word
        ]

    def clause_of(self, index: int) -> tuple[int, int]:
        """The clause around a token, between commas and stronger marks: start, end (exclusive)."""
        if self._clause_ends is None:
            self._clause_ends = [
                index
                for index, token in (enumerate(self.tokens) if self._has_ends(CLAUSE_ENDS) else ())
                if token.ends_sentence or token.raw == ","
            ]
        return _around(index, self._clause_ends, len(self.tokens))

    def sentence_of(self, index: int) -> tuple[int, int]:
        """The sentence around a token: start, end (exclusive)."""
        if self._sentence_ends is None:
            self._sentence_ends = [
                index
                for index, token in (enumerate(self.tokens) if self._has_ends(ENDS) else ())
                if token.ends_sentence
            ]
        return _around(index, self._sentence_ends, len(self.tokens))

    def _has_ends(self, marks: frozenset[str]) -> bool:
        """Whether a line ends in the message, or one of some marks stands there."""
        return BREAK in self.kinds or not marks.isdisjoint(self.marks)


def _around(index: int, parting: Sequence[int], count: int) -> tuple[int, int]:
    """The stretch of `count` tokens that one stands in, between parting ones: start, end.

    A parting token belongs to the stretch that it ends.
    """
    after = bisect_left(parting, index)
    start = parting[after - 1] + 1 if after else 0
    if after == len(parting):
        return start, count
    end = parting[after]
    return start, end + 1 if end == index else end
