"""A message taken apart: its tokens, figures and labels, and which of its words are mere talk.

This file decides what the later steps look at, and which stretches of a message state nothing:
plans, guesses, negations, requests, and what is said of other people and their rigs. A cue
speaks for its own clause, from where it stands; a guess for the whole clause. It does not
decide what the rest means.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence

from domain.context import Context
from domain.reading.clocks import settle_clocks
from domain.reading.figure_search import find_figures
from domain.reading.figures import BARE_STEP, Figure
from domain.reading.labels import NAMING, Label, find_labels
from domain.reading.lexer import tokenize
from domain.reading.names import Names, names_of
from domain.reading.pairing import bind
from domain.reading.phrasebook import Phrasebook, fold
from domain.reading.printed_lines import leave_headings
from domain.reading.taken_back import take_back_figures, take_back_words
from domain.reading.tokens import BREAK, MARK, NO_GROUPS, NUMBER, WORD, Token

PLAN, GUESS, NEGATION, OTHER, REQUEST = "plan", "guess", "negation", "other", "request"
OTHER_VEHICLE = "vehicle"

SHORT_CLAUSE = 3
FARTHEST_OWNER = 3
"""Tokens: so near its start a heading says whose the lines below it are."""
NEAR = 3
"""Tokens from a rig or a person to where they are: 'the couple parked next to us'."""

TOWED = frozenset(("name", "vehicle", "rig"))
"""Classes of term that can stand for a trailer."""

THINGS = frozenset(("name", "vehicle", "rig", "check_item", "talk"))
"""Classes of term that somebody else may have one of."""

SUBJECTS = frozenset(("talk", "vehicle"))
"""Classes of term that somebody else, or his rig, may be said with."""

TAKING_BACK = frozenset(("takes_back", "no_alone", "hesitates"))
"""Groups of words that take back what a message said before."""

CORNER_OF_TRAILER = "_trailer"
PUTS_DOWN = frozenset(("axle", "vehicle", "name"))
"""Classes of what puts a load down on a scale."""

MARKS = "./-"
"""Marks of which something may own a number that is typed to them."""

LEAST_REGULAR = 10
"""Gallons or litres: 'REG 17 GAL' is petrol, 'REG 4L' a plate."""

ADVERT = "advert"
HOT = 50
"""Degrees: an engine that is running is hotter, in either unit."""
LEAST_INITIALS, LEAST_PAIRS, LEAST_LOAD = 3, 2, 400


class Scene:
    """One message with everything that reading it needs."""

    __slots__ = (
        "_clause_ends",
        "_live",
        "_sentence_ends",
        "_unknown",
        "_words",
        "book",
        "by_class",
        "context",
        "figures",
        "groups",
        "kinds",
        "labels",
        "names",
        "order",
        "talk",
        "text",
        "tokens",
        "trace",
    )

    def __init__(
        self, text: str, context: Context, book: Phrasebook, trace: list[str] | None = None
    ) -> None:
        self.trace = trace
        self._words: list[str] | None = None
        self._live: list[Figure] | None = None
        self._clause_ends: list[int] | None = None
        self._sentence_ends: list[int] | None = None
        self.text = text
        self.context = context
        self.book = book
        self.names: Names = names_of(context, book)
        self.tokens: list[Token] = tokenize(text, book, self.names)
        self.groups: frozenset[str] = frozenset().union(*[token.groups for token in self.tokens])
        self.by_class: dict[str, list[int]] = {}
        self._unknown: list[int] = []
        self.kinds: set[str] = set()
        if context.units != "us":
            self._settle_vans()
        self._index()
        if NUMBER in self.kinds and settle_clocks(text, self.tokens, book, self.groups):
            self._index()
        if "initial" in self.by_class:
            self._read_initials()
        if "corner" in self.by_class:
            self._settle_corners()
        if "gauge_short" in self.by_class:
            self._read_gauges()
        if "aboard" in self.by_class and NUMBER in self.kinds:
            self._settle_pence()
        if "bars" in self.by_class:
            self._settle_bars()
        if "fuel_or_register" in self.groups:
            self._settle_regular()
        if "correction" in self.by_class:
            self._settle_put_down()
        if not TOWED.isdisjoint(self.by_class):
            self._settle_apart()
        taking_back = not TAKING_BACK.isdisjoint(self.groups)
        if taking_back and take_back_words(self.tokens, book.keys["switch"]):
            self._index()
        self.figures: list[Figure] = []
        if NUMBER in self.kinds:
            self._find_figures()
        if self.figures and self._unknown:
            self._correct_spelling(book)
        if taking_back and self.figures:
            self._take_back()
        self.labels: list[Label] = []
        if not NAMING.isdisjoint(self.by_class):
            self.labels = find_labels(self.tokens, self.figures, self.groups)
        self.order: str | None = None
        if self.figures and self.labels:
            pairing = bind(self.tokens, self.figures, self.labels)
            self.order = pairing.order if pairing else None
            if pairing is not None:
                self.decided(pairing.told)
        if self.figures and BREAK in self.kinds:
            leave_headings(self.tokens, self.figures, context)
        self.talk: list[str | None] = self._talk()

    def _index(self) -> None:
        """Note which classes of term stand where, and the words that no phrase knows."""
        by_class: dict[str, list[int]] = {}
        unknown: list[int] = []
        for index, token in enumerate(self.tokens):
            if token.senses:
                for term_class in token.senses:
                    if term_class in by_class:
                        by_class[term_class].append(index)
                    else:
                        by_class[term_class] = [index]
            elif token.kind is WORD:
                unknown.append(index)
        self.by_class, self._unknown = by_class, unknown
        self.kinds = {token.kind for token in self.tokens}

    def _read_initials(self) -> None:
        """'S 5,180 D 6,240 T 8,860 G 20,280': letters are labels where three stand by loads."""
        tokens = self.tokens
        if "left_letter" in self.groups:
            self._read_sides()
        beside = [
            index
            for index in self.by_class.get("initial", ())
            if index + 1 < len(tokens) and _load_follows(tokens, index + 1)
        ]
        if len(beside) < LEAST_INITIALS:
            return
        for index in beside:
            key = tokens[index].senses["initial"].split()[0]
            term_class = {"trailer": "vehicle", "gross": "whole"}.get(key, "axle")
            tokens[index].senses = {term_class: key}
        self._index()

    def _read_sides(self) -> None:
        """'Steer L 2,560 R 2,610': letters are sides where they stand in pairs, line by line."""
        tokens = self.tokens
        found = {
            side: [
                index
                for index, token in enumerate(tokens[:-1])
                if token.text in self.book.groups[group] and _load_follows(tokens, index + 1)
            ]
            for side, group in (("left", "left_letter"), ("right", "right_letter"))
        }
        if len(found["left"]) != len(found["right"]) or len(found["left"]) < LEAST_PAIRS:
            return
        for side, indexes in found.items():
            for index in indexes:
                tokens[index].senses = {"side": side}
        self._index()

    def _settle_corners(self) -> None:
        """'TLF 2,410 TRF 2,450 TLR 2,520': beside other corners of a trailer, one more of them."""
        corners = [key for _, _, key in self.find("corner")]
        if not any(key.endswith(CORNER_OF_TRAILER) for key in corners):
            return
        for token in self.tokens:
            if token.raw.casefold() in self.book.groups["trailer_or_corner"]:
                token.senses = {"corner": f"left_rear{CORNER_OF_TRAILER}"}
        self._index()

    def _read_gauges(self) -> None:
        """'trans 194, water 201': beside another gauge, an everyday word is one too; else none."""
        tokens = self.tokens
        for index in self.by_class["gauge_short"]:
            token = tokens[index]
            following = tokens[index + 1] if index + 1 < len(tokens) else None
            heats = following is not None and following.kind is NUMBER and following.value >= HOT
            if heats and "subject" in self.by_class:
                token.senses = {"subject": token.senses["gauge_short"]}
            else:
                token.senses = {
                    term_class: key
                    for term_class, key in token.senses.items()
                    if term_class != "gauge_short"
                }
        self._index()

    def _settle_vans(self) -> None:
        """Outside the US a van is a caravan, and a wagon tows."""
        for token in self.tokens:
            if "caravan" in token.groups:
                token.senses = {**token.senses, "vehicle": "trailer"}
            elif "towed_wagon" in token.groups and "name" not in token.senses:
                token.senses = {**token.senses, "vehicle": "truck"}

    def _settle_pence(self) -> None:
        """'PPL 151.9', '151.9 ppl': beside a pump's price pence per litre, and no people."""
        tokens, settled = self.tokens, False
        for index in self.by_class["aboard"]:
            token = tokens[index]
            if token.raw.casefold() not in self.book.groups["price_or_people"]:
                continue
            beside = (*tokens[max(0, index - 1) : index], *tokens[index + 1 : index + 2])
            if any(_is_in_pence(each) for each in beside):
                token.senses, settled = {"money": "pence"}, True
                token.groups |= {"coins_per_litre"}
        if settled:
            self._index()

    def _settle_bars(self) -> None:
        """'with the bars unhooked': the bars are off, and no trailer was unhooked."""
        slack = [
            index
            for index in self.by_class["bars"]
            if index + 1 < len(self.tokens) and "slack" in self.tokens[index + 1].groups
        ]
        for index in slack:
            self.tokens[index].senses = {"bars": "off"}
            self.tokens[index + 1].senses = {"glue": "function"}
        if slack:
            self._index()

    def _settle_put_down(self) -> None:
        """'the truck put down 12,120': an axle or a vehicle does so, and nobody wrote wrongly."""
        for index in self.by_class["correction"]:
            token = self.tokens[index]
            puts = index and "glue" in token.senses and token.senses["glue"] == "copula"
            if puts and not PUTS_DOWN.isdisjoint(self.tokens[index - 1].senses):
                token.senses = {"glue": "copula"}
                token.groups -= {"marks_mistake"}
                self.by_class["correction"].remove(index)
                if not self.by_class["correction"]:
                    del self.by_class["correction"]
                return

    def _settle_regular(self) -> None:
        """'18.2 gal reg 3.199': beside a volume or a pump's decimals it is a fuel."""
        tokens = self.tokens
        for index, token in enumerate(tokens):
            if "fuel_or_register" not in token.groups:
                continue
            behind = tokens[index + 1 : index + 3]
            number = behind[0] if behind and behind[0].kind is NUMBER else None
            pumped = number is not None and (
                number.decimals > 0 or (number.value >= LEAST_REGULAR and _is_volume(behind[-1]))
            )
            if pumped or (index and _is_volume(tokens[index - 1])):
                token.senses, token.groups = {"product": "gasoline"}, NO_GROUPS
        self._index()

    def _settle_apart(self) -> None:
        """'picked the camper up': a verb of hitching in two words, the trailer between them."""
        tokens, apart = self.tokens, False
        for index in self.by_class.get("rig", ()):
            token, verb = tokens[index], index - 1
            if index + 1 < len(tokens) and "axle_noun" in tokens[index + 1].senses:
                apart = _name_whose(token) or apart  # 'just the truck axles' may be hitched
                continue
            if verb > 0 and "article" in tokens[verb].groups:
                verb -= 1
            off = self.book.means(tokens[verb].text, token.text.split()[-1]) if verb >= 0 else {}
            if "hitch" in off and "hitch" in tokens[verb].senses:
                token.senses, apart = {"vehicle": "trailer"}, True  # 'dropped the trailer off'
        for index in (*self.by_class.get("name", ()), *self.by_class.get("vehicle", ())):
            verb = index - 2 if index > 1 and "article" in tokens[index - 1].groups else index - 1
            if verb < 0 or index + 1 == len(tokens) or "glue" not in tokens[index + 1].senses:
                continue
            behind = tokens[index + 2] if index + 2 < len(tokens) else None
            if behind is not None and behind.kind is WORD and "glue" not in behind.senses:
                continue  # 'took the camper off road'
            action = self.book.means(tokens[verb].text, tokens[index + 1].text).get("hitch")
            if action is not None:
                tokens[verb].senses, apart = {"hitch": action}, True
        if apart:
            self._index()

    def _find_figures(self) -> None:
        said = self.groups.union(self.by_class, [mark for mark in MARKS if mark in self.text])
        self.figures = find_figures(self.tokens, self.context, said)

    def _take_back(self) -> None:
        if take_back_figures(self.tokens, self.figures):
            self._index()

    def _correct_spelling(self, book: Phrasebook) -> None:
        """Unknown words beside a figure are tried as slips of a label."""
        for figure in self.figures:
            for index in (figure.start - 1, figure.start - 2, figure.end, figure.end + 1):
                if not 0 <= index < len(self.tokens):
                    continue
                token = self.tokens[index]
                if token.kind is WORD and not token.senses and token.text.isalpha():
                    slip = book.correction(token.text, figure.value >= LEAST_LOAD)
                    if slip is not None and not self._names_place(index, slip, book):
                        token.senses = book.correctable[slip]
                        self.by_class.setdefault("corrected", []).append(index)
                        for term_class in token.senses:
                            self.by_class.setdefault(term_class, []).append(index)
        if "corrected" in self.by_class:
            self._unknown = [index for index in self._unknown if not self.tokens[index].senses]
            self._find_figures()

    def _names_place(self, index: int, slip: str, book: Phrasebook) -> bool:
        """'Petro' amid a sentence is somebody's sign, and no slip of petrol."""
        named = self.tokens[index].raw[0].isupper() and index > 0 and not self.text.isupper()
        return named and "product" in book.correctable[slip]

    def decided(self, told: Callable[[], str]) -> None:
        """Note what decided, for someone who asks why; costs nothing otherwise."""
        if self.trace is not None:
            self.trace.append(told())

    def has(self, term_class: str, key: str | None = None) -> bool:
        """Whether a class of term (with that key) stands anywhere in the message."""
        found = self.by_class.get(term_class)
        if not found:
            return False
        return key is None or any(
            key in self.tokens[index].senses.get(term_class, "").split() for index in found
        )

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
        found = [value.partition(":") for _, _, value in self.find("name")]
        return [name for kind, _, name in found if kind == vehicle]

    def phrase_said(self, group: str, start: int = 0, end: int | None = None) -> str | None:
        """The phrase of a group that stands whole between two tokens, also across several."""
        said = f" {' '.join(token.text for token in self.tokens[start:end])} "
        return next((each for each in sorted(self.book.groups[group]) if f" {each} " in said), None)

    def stated(self, index: int) -> bool:
        """Whether what stands there is stated, and not planned, guessed, denied or hearsay."""
        return self.talk[index] is None

    def live_figures(self) -> Sequence[Figure]:
        """Figures that nobody claims and that are stated."""
        if self._live is None:
            self._live = [
                figure
                for figure in self.figures
                if figure.claimed is None and self.talk[figure.start] is None
            ]
        return self._live

    def claim(self, figure: Figure, owner: str) -> None:
        """Leave a figure aside that turns out to belong to somebody else."""
        figure.claimed, self._live = owner, None

    def unknown_words(self, *, names: bool = True) -> Sequence[int]:
        """Where words stand that no phrase knows; without capitalized ones if not `names`."""
        if names:
            return self._unknown
        return [index for index in self._unknown if self.tokens[index].raw[0].islower()]

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
                for index, token in enumerate(self.tokens)
                if token.ends_sentence or token.raw == ","
            ]
        return _around(index, self._clause_ends, len(self.tokens))

    def sentence_of(self, index: int) -> tuple[int, int]:
        """The sentence around a token: start, end (exclusive)."""
        if self._sentence_ends is None:
            self._sentence_ends = [
                index for index, token in enumerate(self.tokens) if token.ends_sentence
            ]
        return _around(index, self._sentence_ends, len(self.tokens))

    def _talk(self) -> list[str | None]:
        tokens = self.tokens
        talk: list[str | None] = [None] * len(tokens)
        if "talk" in self.by_class:
            if self.has("talk", ADVERT):
                return [OTHER] * len(tokens)
        elif "beside_us" not in self.groups and not self._names_somebody():
            return talk
        state: str | None = None
        owned = guessed = ahead = False
        clause_start = sentence_start = 0
        for index, token in enumerate(tokens):
            if token.ends_sentence:
                if token.kind is BREAK and self._heads_of_others(talk, sentence_start, index):
                    return [OTHER] * len(tokens)
                state, clause_start, owned, guessed = None, index + 1, False, False
                ahead = False
                sentence_start = index + 1
                continue
            if index == sentence_start and self._somebody(index):
                owned, state = True, OTHER
            if token.raw == "," or "parts_talk" in token.groups:
                guessing = state == GUESS and not self._figure_in(sentence_start, index)
                guessed = guessed or guessing
                state = OTHER if owned else GUESS if guessed else PLAN if ahead else None
                clause_start = index + 1
                continue
            speaks = token.possessive or "talk" in token.senses
            cue = self._cue(index, token) if speaks else None
            if "beside_us" in self.groups and self._is_beside_us(index):
                cue = OTHER
            elif state == OTHER and not owned:
                owned = self._has_one(index)
            if cue == GUESS:
                for earlier in range(clause_start, index):
                    talk[earlier] = talk[earlier] or GUESS
                if clause_start == index and self._only_guesses(index):
                    self._guess_before(talk, index - 1)
                state = GUESS
            elif cue is not None:
                state = cue
                owned = owned or "owner" in token.groups or token.possessive
                ahead = ahead or "ahead" in token.groups
            talk[index] = state
        return talk

    def _heads_of_others(self, talk: list[str | None], start: int, end: int) -> bool:
        """'The neighbor's ticket:' and a colon above lines: all that follows is somebody else's."""
        return (
            start == 0 < end and self.tokens[end - 1].raw == ":" and OTHER in talk[:FARTHEST_OWNER]
        )

    def _names_somebody(self) -> bool:
        """Whether a word may be somebody's name: it is unknown and capitalized, or owns a thing."""
        tokens = self.tokens
        for index in self._unknown:
            if tokens[index].raw[0].isupper():
                return True
        for token in tokens:  # noqa: SIM110  a loop costs half of any()
            if token.possessive:
                return True
        return False

    def _figure_in(self, start: int, end: int) -> bool:
        """Whether a figure of the log stands between: a guess behind it is of that alone."""
        return any(
            start <= figure.start < end and self._before_guess(figure.start, start)
            for figure in self.figures
        )

    def _before_guess(self, index: int, start: int) -> bool:
        return not any(
            "guess" in self.tokens[k].senses.get("talk", "").split() for k in range(start, index)
        )

    def _somebody(self, index: int) -> bool:
        """'Ned filled up 40 gal': somebody unknown does it, and not at our odometer."""
        token = self.tokens[index]
        following = self.tokens[index + 1] if index + 1 < len(self.tokens) else None
        if self.text.count("\n") > 1:
            return False  # a pasted ticket
        named = token.kind is WORD and not token.senses and token.raw[0].isupper()
        if not named or token.raw.isupper() or following is None or following.raw[0].isupper():
            return False
        behind = self.tokens[index + 2] if index + 2 < len(self.tokens) else None
        heads = behind is None or behind.kind is MARK  # 'Dunmarrow weighbridge, 6.42 t'
        acts = bool(following.senses.keys() & {"fuel_cue", "hitch"}) or (
            "somebody_does" in following.groups or ("weighs_it" in following.groups and not heads)
        )
        return acts and not self._follows_on()

    def _follows_on(self) -> bool:
        """Whether a figure follows on from the truck's odometer: whoever says it, it is ours."""
        known = self.context.odometer
        return known is not None and any(
            0 <= figure.value - known.value <= BARE_STEP for figure in self.figures
        )

    def _only_guesses(self, index: int) -> bool:
        """Whether the clause is a guess and nothing else: '..., i think'."""
        start, end = self.clause_of(index)
        return index > 0 and self.tokens[index - 1].raw == "," and end - start <= SHORT_CLAUSE

    def _guess_before(self, talk: list[str | None], comma: int) -> None:
        """'9200, i think': the guess is of the clause before."""
        start, end = self.clause_of(comma - 1) if comma else (0, 0)
        for index in range(start, end):
            talk[index] = talk[index] or GUESS

    def _cue(self, index: int, token: Token) -> str | None:
        senses = token.senses
        if token.possessive and self._owns_vehicle(index, token):
            return OTHER
        value = senses.get("talk")
        if value is None or "name" in senses:
            return None
        cue = value.split()[0]
        if "looks_shortened" in token.groups and token.raw.isalpha():
            return None
        if cue == OTHER_VEHICLE and "tow_car" in token.groups and self.context.units != "us":
            return None
        if cue == OTHER_VEHICLE:
            return OTHER if self._other_vehicle(index) else None
        following = self.tokens[index + 1] if index + 1 < len(self.tokens) else None
        if "aboard" in senses and index and self.tokens[index - 1].kind is NUMBER:
            return None
        if cue in (REQUEST, PLAN) and following is not None and "recording" in following.groups:
            return None
        if cue == PLAN and following is not None and "already_done" in following.groups:
            return None  # 'before we left'
        if cue == OTHER and "family" in token.groups and self._follows_on():
            return None  # 'dad says odo is 99412'
        if cue == NEGATION and self._absent(index):
            return None
        return cue

    def _absent(self, index: int) -> bool:
        """'without the flatdeck': nothing is denied, and one vehicle was not there."""
        behind = self.tokens[index + 1 : index + 3]
        if (
            len(behind) == 2
            and "article" in behind[0].groups
            and "absent" in self.tokens[index].groups
        ):
            behind = behind[1:]
        return bool(behind) and bool(behind[0].senses.keys() & {"vehicle", "name"})

    def _is_beside_us(self, index: int) -> bool:
        """'truck ahead of us lost a chain': another rig than ours; a trailer behind is our own."""
        senses = self.tokens[index].senses
        if "vehicle" not in senses and senses.get("talk") not in (OTHER, OTHER_VEHICLE):
            return False
        start, end = self.clause_of(index)
        near = range(index + 1, min(index + 1 + NEAR, end - 1))
        at = next((at for at in near if "beside_us" in self.tokens[at].groups), None)
        if at is None or self.tokens[at + 1].kind is not WORD:
            return False
        before, behind = self.tokens[at - 1], self.tokens[at + 1]
        if "front" in self.tokens[at].groups and "in_or_up" not in before.groups:
            return False
        if "coming_up" in self.tokens[at].groups and "to" not in behind.groups:
            return False  # 'truck next week'
        if senses.get("vehicle") == "trailer" and "behind" in self.tokens[at].groups:
            return False
        return all("glue" in token.senses or not token.senses for token in self.tokens[start:index])

    def _has_one(self, index: int) -> bool:
        """'lady had a camper on', 'lost a chain': theirs, and what follows is of it.

        Not where they tell of ours ('guy behind us flashed, trailer light out'), nor where they
        are no subject ('filled up next to a guy with a camper, 31.4 gal').
        """
        before = self.tokens[max(0, index - 2) : index]
        one = any("a_thing" in each.groups for each in before)
        if not one or THINGS.isdisjoint(self.tokens[index].senses):
            return False
        start, end = self.clause_of(index)
        clause = self.tokens[start:end]
        if any("alerts" in each.groups for each in clause):
            return False
        who = next((each for each in clause if each.senses.keys() - {"glue"}), None)
        return who is not None and not SUBJECTS.isdisjoint(who.senses)

    def _owns_vehicle(self, index: int, token: Token) -> bool:
        """'Odette's rig': a vehicle of somebody whom the chat does not know as its own."""
        if "name" in token.senses or "vehicle" in token.senses or fold(token.raw) in self.names.own:
            return False
        told = index and "glue" in self.tokens[index - 1].senses  # 'last week's ticket'
        named = not token.senses and (token.raw[0].isupper() or not told)
        for step in range(1, 4):
            if index + step >= len(self.tokens):
                return False
            following = self.tokens[index + step]
            if named and ("ticket" in following.senses or "weighed_out" in following.groups):
                return True  # 'Dale's ticket: steer ...'
            if following.senses.get("name") in self.names.own.values():
                return False
            if "vehicle" in following.senses or "talk" in following.senses:
                return True
        return False

    def _other_vehicle(self, index: int) -> bool:
        """A vehicle not the chat's: neither 'car + trailer' nor what is carried ('a tractor')."""
        if self.has("load_verb") or self.context.truck is None:
            return "vehicle" not in self.by_class
        following = self.tokens[index + 1] if index + 1 < len(self.tokens) else None
        if following is None:
            return True
        tows = "towing_tractor" in self.tokens[index].groups and "axle" in following.senses
        return not (tows or following.senses.keys() & {"vehicle", "rig"})


def _name_whose(token: Token) -> bool:
    """Make 'just the camper', said of its axles, name the vehicle and not how it stood."""
    vehicle = {"solo": "truck", "trailer": "trailer"}.get(token.senses["rig"].split()[0])
    if vehicle is None:
        return False
    named = {key: value for key, value in token.senses.items() if key == "name"}
    token.senses = named or {"vehicle": vehicle}
    return True


def _is_in_pence(token: Token) -> bool:
    """Whether a number looks like a litre's price in pence: '151.9'."""
    low, high = PENCE_A_LITRE
    return token.kind is NUMBER and token.decimals > 0 and low <= token.value <= high


PENCE_A_LITRE = (60, 400)
"""What a litre has cost at British pumps, and may; wide on purpose."""


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


def _is_volume(token: Token) -> bool:
    return token.senses.get("unit", "").split()[:1] in (["gal"], ["L"])


def _load_follows(tokens: list[Token], index: int) -> bool:
    """Whether a figure the size of a load stands here, or behind a colon."""
    if tokens[index].raw in ":=-" and index + 1 < len(tokens):
        index += 1
    return tokens[index].kind is NUMBER and tokens[index].value >= LEAST_LOAD
