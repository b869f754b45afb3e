"""The vocabulary of one language, compiled for reading.

This file decides how the phrases of a phrasebook are found in a message: words are folded
(case, apostrophes and hyphens do not count), and the longest phrase wins. It does not know
what a class of term means; the modules that read figures, labels and talk do. The phrases
themselves are data, handed in as a mapping (`shared/phrasebook/en.toml`).
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import compress, count
from typing import Any

from rapidfuzz import process
from rapidfuzz.distance import OSA

from domain.glossary import Glossary
from domain.reading.short_words import ShortWords
from domain.reading.skeletons import SHORTEST_SKELETON, VOWELS, skeleton, skeletons_of
from domain.reading.standing import StandingWords

Senses = Mapping[str, str]
"""What a phrase can mean: class of term -> key. Several keys of a class are joined by spaces."""

Term = tuple[Senses, frozenset[str]]
"""What a word or phrase can mean, and the groups that it is in."""

Phrase = tuple[tuple[str, ...], str, Term]
"""The words of a phrase, its text, and what it is."""

Phrases = Mapping[tuple[str, str], Mapping[str, Sequence[Phrase]]]
"""Two words -> the third -> the phrases that begin so, the longest first.

The last of them is the pair alone, where it is a phrase; that stands by `ALONE`, too.
"""

NUMBER_CLASS = "number"
JOINING_NUMBERS = ("a", "and")
"""Keys of number words that only join others: 'a hundred and five'."""

TOPIC_CLASS, ASKING_CLASS, SPOT_CLASS = "topic", "question_word", "spot"
OVERLAPPING = (TOPIC_CLASS, ASKING_CLASS, SPOT_CLASS)
"""Tables whose phrases may overlap with others and each other: they are not joined into tokens."""
ALIAS_CLASS = "alias"
GROUP_TABLE, KEY_TABLE, PATTERN_TABLE = "group", "key", "pattern"
KIND_TABLE = "trailer_kind"
LETTER_TABLE = "letter"
"""Letters that people type for another: 'á' may be typed 'a'. Phrases have the plain one."""
APART = (
    "misspelt",
    NUMBER_CLASS,
    ALIAS_CLASS,
    GROUP_TABLE,
    KEY_TABLE,
    PATTERN_TABLE,
    LETTER_TABLE,
    *OVERLAPPING,
)

PLURAL_CLASSES = ("check_item",)
"""Tables of things, each also known in its plural or singular."""

CORRECTABLE = frozenset(("axle", "whole", "unit", "vehicle", "odometer", "product"))
"""The classes whose words are worth correcting to, where a figure stands beside."""

CORRECTABLE_GROUP = "gauge_of_trade"
"""Gauges are corrected to, too, whose words are near no word of everyday."""

_WORD = re.compile(r"[^\W\d_]+(?:['’`\u00b4][^\W\d_]+)*\d*")
APOSTROPHES = "'’`\u00b4"
_NO_APOSTROPHES = str.maketrans("", "", APOSTROPHES)


class Groups(dict[str, frozenset[str]]):
    """Groups of words by name; a language that has no words for one has it empty."""

    def __missing__(self, name: str) -> frozenset[str]:
        return frozenset()


PhraseIndex = Mapping[str, Mapping[str, Mapping[str, Sequence[tuple[tuple[str, ...], int, str]]]]]
"""First word -> second -> third -> the phrases that begin so, their sizes and keys, longest first.

The last of them are the first two words and the first alone, where they are phrases; they stand
by `ALONE`, too, as the third word, and the first alone so as the second.
"""

ALONE = ""

PHRASES_BY = 3
"""Words by which phrases are found: one of no more stands there."""


@dataclass(frozen=True, slots=True)
class Phrasebook:
    """Single words and longer phrases with their senses, and the words for numbers.

    `words` have the senses of single ones, and `terms` their groups, too.

    `known` are the words that need no second look as they are typed (they stand in the phrases,
    in a group or in a number, and for no other word), each with its senses and groups; `plain` are
    those of letters alone, which are a word wherever they stand between spaces.
    `phrases` go by their first two words, the longest first; `heads` are the first words.
    `numerals` are the words for numbers that make one by themselves: not 'a', and not 'and'.
    `asking` are the words one of which a question has that is no order and has no mark,
    `asking_of_figures` those of them that ask whatever stands behind them, and `asking_led` the
    others, each with the words behind it with which it asks. `asking_unmarked` are words that ask
    only where no figure is stated, too; without a word of `asking_or_ordering` nothing is asked
    where one is, and without one of `asking_somehow` not even whether it is so.
    `asking_behind` are those that a question, or how politely it is asked, begins with in a
    clause; `of_the_road` are words that questions of the road are made of, `hour_words` those that
    stand beside an hour: 'am', 'hrs', 'at', and `topic_heads` those that a bare topic begins with.

    `respelled` has words with two neighbouring letters swapped or one left out, and what is meant;
    `goods` are things that are carried, which what was loaded is spelt by.

    `standing` are the patterns of messages that set something lasting, where there are any,
    `short` those of questions of few words, and `glossary` the words whose meaning can be
    asked for.
    `overlapping` holds the tables whose phrases are looked up on their own, by class.

    `groups` are words that do the same for the reader without being terms of the log;
    `memberships` says of each word which groups it is in. `keys` are tables of words that each
    mean one thing to the reader: table -> word -> key. `patterns` are regular expressions of
    the language, by name. `trailer_kinds` are words for a trailer, each with its kind.
    `letters` are those that stand for another, and `adds_up` says that the
    words of a number are added ('doscientos ochenta'), not set side by side.
    """

    language: str
    known: Mapping[str, Term]
    plain: Mapping[str, Term]
    words: Mapping[str, Senses]
    terms: Mapping[str, Term]
    phrases: Phrases
    heads: frozenset[str]
    numbers: Mapping[str, str]
    numerals: frozenset[str]
    asking: frozenset[str]
    asking_of_figures: frozenset[str]
    asking_unmarked: frozenset[str]
    asking_or_ordering: frozenset[str]
    asking_somehow: frozenset[str]
    asking_led: Mapping[str, frozenset[str]]
    asking_behind: frozenset[str]
    of_the_road: frozenset[str]
    hour_words: frozenset[str]
    topic_heads: frozenset[str]
    aliases: Mapping[str, str]
    skeletons: Mapping[str, str]
    marks: re.Pattern[str]
    openers: frozenset[str]
    correctable: Mapping[str, Senses]
    respelled: Mapping[str, str]
    keep: frozenset[str]
    goods: frozenset[str]
    overlapping: Mapping[str, PhraseIndex]
    groups: Mapping[str, frozenset[str]]
    memberships: Mapping[str, frozenset[str]]
    keys: Mapping[str, Mapping[str, str]]
    patterns: Mapping[str, re.Pattern[str]]
    letters: Mapping[int, str]
    adds_up: bool
    trailer_kinds: tuple[tuple[str, str], ...]
    standing: StandingWords | None = None
    short: ShortWords | None = None
    glossary: Glossary | None = None
    _corrections: dict[str, str | None] = field(default_factory=dict, compare=False, repr=False)
    _parted: dict[str, tuple[str, ...]] = field(default_factory=dict, compare=False, repr=False)
    _by_first: dict[str, dict[str, list[str]]] = field(
        default_factory=dict, compare=False, repr=False
    )

    def means(self, first: str, second: str) -> Senses:
        """The senses of a phrase of two words, which may stand apart in a message."""
        phrases = self.phrases.get((first, second), {}).get(ALONE, ())
        return next((senses for _, _, (senses, _) in phrases), {})

    def phrases_of(self, group: str) -> Sequence[str]:
        """The phrases of a group in their order, each between two spaces; remembered."""
        if group not in self._parted:
            self._parted[group] = tuple(f" {each} " for each in sorted(self.groups[group]))
        return self._parted[group]

    def begun_by(self, group: str, words: Iterable[str]) -> Sequence[str]:
        """Those phrases of a group that begin with one of the words, each between two spaces."""
        by_first = self._by_first.get(group)
        if by_first is None:
            by_first = self._by_first[group] = {}
            for phrase in self.phrases_of(group):
                by_first.setdefault(phrase.split(" ")[1], []).append(phrase)
        firsts = by_first.keys()
        if firsts.isdisjoint(words):
            return ()
        return [phrase for first in sorted(firsts & words) for phrase in by_first[first]]

    def spelled_out(self, word: str) -> str | None:
        """The word that an unknown one without vowels is short for: 'cmpr' is camper."""
        if VOWELS & set(word[1:]) or len(word) < SHORTEST_SKELETON or not word.isalpha():
            return None
        if word in self.keep:
            return None
        return self.skeletons.get(skeleton(word)) or self._subsequence(word)

    def _subsequence(self, word: str) -> str | None:
        """'dptd' for departed: its letters in that order, the first and last alike."""
        key = f"{word}*"
        if key not in self._corrections and len(self._corrections) < MAX_REMEMBERED:
            fits = [
                each
                for each in self.skeletons.values()
                if each[0] == word[0] and each[-1] == word[-1] and _within(word, each)
            ]
            self._corrections[key] = min(fits, key=len) if fits and len(word) > 3 else None
        return self._corrections.get(key)

    def correction(self, word: str, by_load: bool) -> str | None:
        """The label that an unknown word is a slip of, or None; remembered, as it costs 20 µs.

        A short word is one only beside a figure the size of a load (`by_load`).
        """
        if len(word) < (SHORTEST_BY_LOAD if by_load else MIN_CORRECTED):
            return None
        if word in self._corrections:
            return self._corrections[word]
        found: str | None = None
        if word not in self.keep:
            match = process.extractOne(
                word, self.correctable.keys(), scorer=OSA.distance, score_cutoff=_slips(len(word))
            )
            if match is not None and match[0][0] == word[0]:
                found = match[0]
        if len(self._corrections) < MAX_REMEMBERED:
            self._corrections[word] = found
        return found


TIMES = "x"
"""What is a mark between numbers, and else a word."""

MIN_CORRECTED, SHORTEST_BY_LOAD = 5, 4
MAX_REMEMBERED = 10_000


def _within(short: str, word: str) -> bool:
    letters = iter(word)
    return all(letter in letters for letter in short)


def _slips(length: int) -> int:
    """One wrong, missing or swapped letter in a short word, two in a long one."""
    return 2 if length >= 7 else 1


def compile_phrasebook(data: Mapping[str, Any]) -> Phrasebook:
    """A phrasebook from its tables: class of term -> key -> phrases.

    Raises KeyError where the table of number words is missing.
    """
    groups = Groups((name, _folded(words)) for name, words in data.get(GROUP_TABLE, {}).items())
    senses: dict[tuple[str, ...], dict[str, str]] = {}
    marks: set[str] = set()
    for term_class, keys in data.items():
        if not isinstance(keys, Mapping) or term_class in APART:
            continue
        for key, phrases in keys.items():
            for words in _forms(term_class, phrases):
                marks.update(word for word in words if not _is_plain(word))
                found = senses.setdefault(words, {})
                if term_class in found and key not in found[term_class].split():
                    found[term_class] += f" {key}"
                else:
                    found.setdefault(term_class, key)
    for word in groups[SAID_BY_LETTER]:
        senses[tuple(word)] = senses[(word,)]
    aliases = {
        word: canonical for canonical, words in data.get(ALIAS_CLASS, {}).items() for word in words
    }
    marks.update(word for word in aliases if not _is_plain(word))
    memberships = _memberships(groups)
    phrases = _phrases(senses, memberships)
    heads = frozenset(first for first, _ in phrases)
    single = {words[0]: meaning for words, meaning in senses.items() if len(words) == 1}
    overlapping = {name: _index(data.get(name, {})) for name in OVERLAPPING}
    numbers = {word: key for key, words in data[NUMBER_CLASS].items() for word in words}
    keys = {
        name: {word: key for key, words in table.items() for word in _folded(words)}
        for name, table in data.get(KEY_TABLE, {}).items()
    }
    asking = _asking_groups(groups).union(overlapping[ASKING_CLASS])
    asking_led = _only_led(overlapping[ASKING_CLASS])
    asking_alone = asking - (asking_led.keys() - _asking_groups(groups))
    opening_orders = groups["opens_order"] | groups["orders_move"]
    asking_or_ordering = opening_orders.union(asking, asking_led)
    asking_behind = groups["opens_clause"].union(
        phrase.split(" ")[0] for phrase in groups["when_it_suits"]
    )
    known = {
        word: (single.get(word, {}), memberships.get(word, frozenset()))
        for word in (single.keys() | heads | set(filter(_is_typed_out, {*numbers, *memberships})))
        if word not in aliases
    }
    return Phrasebook(
        language=str(data.get("language", "")),
        known=known,
        plain={word: term for word, term in known.items() if word.isalpha() and word != TIMES},
        words=single,
        terms={
            text: (single.get(text, {}), memberships.get(text, frozenset()))
            for text in {*single, *memberships}
        },
        phrases=phrases,
        heads=heads,
        aliases=aliases,
        skeletons=_skeletons(senses, data),
        numbers=numbers,
        numerals=frozenset(
            word
            for key, words in data[NUMBER_CLASS].items()
            for word in words
            if key not in JOINING_NUMBERS
        ),
        marks=_marks_pattern(marks),
        openers=frozenset(mark[0] for mark in marks if mark),
        correctable={
            words[0]: meaning
            for words, meaning in senses.items()
            if len(words) == 1
            and len(words[0]) >= MIN_CORRECTED
            and (meaning.keys() & CORRECTABLE or words[0] in groups[CORRECTABLE_GROUP])
        },
        respelled=_respelled(data),
        keep=frozenset(data.get("misspelt", {}).get("keep", ())),
        goods=frozenset(data.get("misspelt", {}).get("goods", ())).union(
            word for phrase in groups["carried_thing"] for word in phrase.split(" ")
        ),
        asking=asking,
        asking_of_figures=asking_alone,
        asking_unmarked=asking_alone | groups["order_word"] | groups["plain_head"],
        asking_or_ordering=asking_or_ordering,
        asking_somehow=asking_or_ordering.union(
            asking_behind,
            *[
                phrase.split(" ")
                for name in ASKS_WHETHER | ASKS_BESIDES
                for phrase in groups.get(name, ())
            ],
        ),
        asking_led=asking_led,
        asking_behind=asking_behind,
        of_the_road=groups["plain_word"] | groups["plain_head"],
        hour_words=frozenset(
            phrase.rpartition(" ")[2] for phrase in (*keys["half_day"], *groups["around"])
        ).union(word for word, meaning in single.items() if meaning.get("unit") == "h"),
        topic_heads=frozenset(phrase.split(" ")[0] for phrase in keys["bare_topic"]),
        overlapping=overlapping,
        groups=groups,
        memberships=memberships,
        keys=keys,
        patterns=_patterns(data),
        letters=str.maketrans(data.get(LETTER_TABLE, {})),
        adds_up="100" in data[NUMBER_CLASS],
        trailer_kinds=tuple(keys.get(KIND_TABLE, {}).items()),
    )


def _asking_groups(groups: Mapping[str, frozenset[str]]) -> frozenset[str]:
    """The words that may ask whatever stands behind them."""
    return frozenset().union(*[groups[name] for name in ("may", "does", "addressed", "asks_aside")])


def _only_led(index: PhraseIndex) -> Mapping[str, frozenset[str]]:
    """First words of phrases that are none by themselves, each with the second words of them."""
    return {first: frozenset(behind) for first, behind in index.items() if ALONE not in behind}


NOT_RESPELLED = ("misspelt", "street", "claim")
"""Tables of words that nothing is taken for a slip of: they only set figures aside."""

ASKS_WHETHER = frozenset(("inverts", "inverts_somebody", "asks_which", "room_word"))
"""Groups of words of which one stands where it is asked whether something is so."""

ASKS_BESIDES = frozenset(("opens_clause", "asks_indirectly"))
"""Groups of words of which one stands in a question behind what is told."""

SHORTEST_SWAPPED, SHORTEST_CUT = 4, 6
"""Letters: of a shorter word, one with two swapped or one left out is often another word."""


def _respelled(data: Mapping[str, Any]) -> Mapping[str, str]:
    """Each slip of a word of the language that is no word itself, and the word.

    A slip that may be of two words is none; neither are the words listed as real.
    """
    words = sorted({word for table in data.items() for word in _words_of(*table) if word.isalpha()})
    known = {*words, *data.get("misspelt", {}).get("real", ())}
    found: dict[str, str | None] = {}
    for word in words:
        for slip in _slips_of(word):
            if slip not in known:
                found[slip] = word if found.get(slip, word) == word else None
    return {slip: word for slip, word in found.items() if word is not None}


def _words_of(name: str, table: Any) -> Iterable[str]:
    """Every word of a table's phrases."""
    if name in (PATTERN_TABLE, LETTER_TABLE, *NOT_RESPELLED):
        return
    if isinstance(table, Mapping):
        for inner, phrases in table.items():
            yield from _words_of(inner, phrases)
    elif isinstance(table, Sequence) and not isinstance(table, str):
        for phrase in table:
            if isinstance(phrase, str):
                yield from split_words(phrase)


def _slips_of(word: str) -> Iterable[str]:
    """A word with two neighbours swapped, or a letter left out; its first letter stays.

    Of a past tense two may be: 'dropd'.
    """
    if len(word) >= SHORTEST_SWAPPED:
        for at in range(1, len(word) - 1):
            yield word[:at] + word[at + 1] + word[at] + word[at + 2 :]
    if len(word) >= SHORTEST_CUT:
        for at in range(1, len(word)):
            yield word[:at] + word[at + 1 :]
        if word.endswith("ed") and word[-4] == word[-3]:
            yield f"{word[:-3]}d"


def _folded(words: Iterable[str]) -> frozenset[str]:
    """Words and phrases in the form that tokens have."""
    return frozenset(" ".join(split_words(word)) for word in words)


def _memberships(groups: Mapping[str, Iterable[str]]) -> Mapping[str, frozenset[str]]:
    """Word -> the groups that it is in; words of the same groups share one set."""
    found: dict[str, set[str]] = {}
    for name, words in groups.items():
        for word in words:
            found.setdefault(word, set()).add(name)
    shared: dict[frozenset[str], frozenset[str]] = {}
    return {
        word: shared.setdefault(frozenset(names), frozenset(names)) for word, names in found.items()
    }


def _patterns(data: Mapping[str, Any]) -> Mapping[str, re.Pattern[str]]:
    """The language's regular expressions; `{month}` stands for any of its months."""
    months = sorted(data.get("time", {}).get("month", ()), key=len, reverse=True)
    return {
        name: re.compile(pattern.replace("{month}", "|".join(months)))
        for name, pattern in data.get(PATTERN_TABLE, {}).items()
    }


def _skeletons(
    senses: Mapping[tuple[str, ...], Mapping[str, str]], data: Mapping[str, Any]
) -> Mapping[str, str]:
    """The skeletons of all words that phrases have."""
    tables = [words for phrase in senses for words in phrase]
    for name in OVERLAPPING:
        tables += [
            word
            for phrases in data.get(name, {}).values()
            for phrase in phrases
            for word in split_words(phrase)
        ]
    return skeletons_of(tables)


def _phrases(
    senses: Mapping[tuple[str, ...], Senses], memberships: Mapping[str, frozenset[str]]
) -> Phrases:
    found: dict[tuple[str, str], dict[str, list[Phrase]]] = {}
    for words, meaning in sorted(senses.items(), key=lambda each: -len(each[0])):
        if len(words) > 1:
            first, second, third = (*words, ALONE)[:3]
            # 'g v w r' is the word that it spells.
            text = ("" if is_spelled(words) else " ").join(words)
            term = meaning, memberships.get(text, frozenset[str]())
            behind = found.setdefault((first, second), {})
            behind.setdefault(third, []).append((words, text, term))
    for behind in found.values():
        for third in behind.keys() - {ALONE}:
            behind[third] += behind.get(ALONE, [])
    return found


def _index(keys: Mapping[str, Iterable[str]]) -> PhraseIndex:
    meanings: dict[tuple[str, ...], str] = {}
    for key, phrases in keys.items():
        for phrase in phrases:
            words = split_words(phrase)
            meanings[words] = f"{meanings[words]} {key}" if words in meanings else key
    index: dict[str, dict[str, dict[str, list[tuple[tuple[str, ...], int, str]]]]] = {}
    for words, key in sorted(meanings.items(), key=lambda each: -len(each[0])):
        first, second, third = (*words, ALONE, ALONE)[:3]
        behind = index.setdefault(first, {}).setdefault(second, {})
        behind.setdefault(third, []).append((words, len(words), key))
    for seconds in index.values():
        alone = seconds.get(ALONE, {ALONE: []})[ALONE]
        for behind in [seconds[second] for second in seconds.keys() - {ALONE}]:
            shorter = behind[ALONE] = behind.get(ALONE, []) + alone
            for third in behind.keys() - {ALONE}:
                behind[third] += shorter
    return index


def find_overlapping(words: Sequence[str], index: PhraseIndex) -> list[tuple[int, int, str]]:
    """Where phrases of a table stand among words: start, end (exclusive), keys; longest a start."""
    found: list[tuple[int, int, str]] = []
    said = (*words, ALONE, ALONE)
    for start in compress(count(), map(index.__contains__, words)):
        seconds = index[said[start]]
        behind = seconds.get(said[start + 1]) or seconds.get(ALONE)
        if behind is None:
            continue
        for phrase, size, key in behind.get(said[start + 2]) or behind[ALONE]:
            end = start + size
            if size <= PHRASES_BY or phrase == said[start:end]:
                found.append((start, end, key))
                break
    return found


def fold(word: str) -> str:
    """A word as the phrasebook knows it: without case, apostrophes or accents' variants."""
    return word.casefold().translate(_NO_APOSTROPHES)


def split_words(phrase: str) -> tuple[str, ...]:
    """A phrase of the phrasebook as the words that the lexer will give for it."""
    if phrase.isascii() and phrase.replace(" ", "").isalpha():
        return tuple(phrase.lower().split())  # most are; the others are told apart by patterns
    words: list[str] = []
    for part in unicodedata.normalize("NFKC", phrase).split():
        if _WORD.fullmatch(part) or part.isdigit() or not any(c.isalnum() for c in part):
            words.append(fold(part))
        elif re.fullmatch(r"[^\W\d_]+(?:-[^\W\d_]+)+", part):
            words.extend(fold(piece) for piece in part.split("-"))
        else:
            words.append(fold(part))
    return tuple(words)


def _forms(term_class: str, phrases: Iterable[str]) -> Iterable[tuple[str, ...]]:
    """Each phrase as words, and for things its plural and singular."""
    for phrase in phrases:
        words = split_words(phrase)
        yield words
        if term_class in PLURAL_CLASSES and words[-1].isalpha() and len(words[-1]) > 4:
            last = words[-1]
            other = last[:-1] if last.endswith("s") and not last.endswith("ss") else f"{last}s"
            yield (*words[:-1], other)


SAID_BY_LETTER = "said_by_letter"
"""The group of short forms that are dictated letter by letter."""


def is_spelled(words: Sequence[str]) -> bool:
    """Whether words are the letters of one."""
    return len(words) > 1 and max(map(len, words)) == 1


def _is_typed_out(word: str) -> bool:
    """Whether a word can be no short form of another: 'rollin', 'cmpr'."""
    short = VOWELS.isdisjoint(word[1:]) or word.endswith("in")
    return word.isascii() and word.isalpha() and not short


def _is_plain(word: str) -> bool:
    return bool(_WORD.fullmatch(word)) or word.isdigit()


def _marks_pattern(marks: Iterable[str]) -> re.Pattern[str]:
    """Abbreviations and signs that the rules for words and numbers would take apart."""
    ends_open = r"(?![^\W_])"
    parts = [
        re.escape(mark) + (ends_open if mark[-1].isalnum() else "")
        for mark in sorted(marks, key=len, reverse=True)
        if mark
    ]
    return re.compile("|".join(parts) if parts else r"(?!)")
