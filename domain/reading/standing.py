"""Standing matters: reminders, what the odometer is worth, the walk-round and its list.

This file decides what a message means that sets or asks after something lasting. Such
messages are short orders, so each is read as a whole or not at all; the patterns and their
words are data (`shared/phrasebook/standing.en.toml`, the upkeep and walk-round tables). The
upkeep and walk-round modules of `domain` say which ratings and checks these become.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from domain.context import Context
from domain.entries import Check, Entry, Odometer, Rating
from domain.odometer import BELIEVABLE_FACTOR
from domain.quantities import Quantity
from domain.reading.pattern_words import Bits, Pieces, bits_of, cut_parts, pieces_of
from domain.upkeep import DONE_AT, DUE_IN, DUE_IN_DAYS, UpkeepTable
from domain.verdicts import CHANGE, PAGE, PICTURE, Facts, Question, Verdict
from domain.walkround import SUBJECT, PointsTable

DAYS = {"day": 1.0, "week": 7.0, "month": 365.25 / 12, "year": 365.25}
MAX_COMPILED = 4096
TRAILER = "{trailer}"

NUMBER = r"\d(?:[\d,.]{0,12}\d)?"
GROUPED = re.compile(r"\d{1,3}(?:([.,])\d{3})(?:\1\d{3})*")


@dataclass(frozen=True, slots=True, eq=False)
class StandingWords:
    """The patterns with what they mean, everything in braces filled in but the trailers.

    They go in the order in which they are tried, and have a bit each: `words` are those that can
    match a message with a word, `first` those that can begin with it, `named` have a trailer, and
    `of_trailers` begin with one. `letters` are those that the others begin with: what begins
    otherwise is another matter, and most of what people text is. `numbers` are those in words, and
    `thousands` stand behind a number; `trailers` are words for one that has no name, and `works`
    the upkeep that a verb and its object stand for.
    """

    patterns: Sequence[tuple[str, str]]
    words: Bits
    first: Bits
    of_trailers: int
    named: int
    letters: frozenset[str]
    units: Mapping[str, str]
    volumes: Mapping[str, str]
    numbers: Mapping[str, float]
    thousands: tuple[str, ...]
    trailers: tuple[str, ...]
    works: Mapping[str, str]


def standing_words_from(
    table: Mapping[str, Any], upkeep: UpkeepTable, points: PointsTable
) -> StandingWords:
    """The patterns from their table and the words of upkeep and walk-round; raises KeyError."""
    units = {word: unit for unit, words in table["unit"].items() for word in words}
    volumes = {word: unit for unit, words in table["volume"].items() for word in words}
    numbers = {word: float(number) for number, words in table["number"].items() for word in words}
    thousands = tuple(table["thousands"])
    works = {word: chore for chore, words in table["work"].items() for word in words}
    number = f"{NUMBER}(?: ?(?:{_any_of(thousands)}))?"
    chores = [word for chore in upkeep.chores for word in chore.words]
    filled = {
        **table["part"],
        "upkeep": f"(?P<upkeep>{_any_of(chores)})",
        "point": f"(?P<point>{_any_of(point.name for point in points.points)})",
        "whole": f"(?:{_any_of(points.whole)})",
        "count": f"(?P<count>{number}|{_any_of(numbers)})",
        "shown": f"(?P<shown>{number})",
        "true": f"(?P<true>{number})",
        "unit": f"(?P<unit>{_any_of(units)})",
        "more_count": f"(?P<more_count>{number}|{_any_of(numbers)})",
        "more_unit": f"(?P<more_unit>{_any_of(units)})",
        "volume": f"(?P<volume>{_any_of(volumes)})",
        "language": f"(?P<item>{_any_of(table['languages'])})",
        "reading": r"(?:,? (?:at |odo )?(?P<reading>\d{2,3}[,. ]?\d{3})(?: miles| mi| km)?)?",
        "work": f"(?P<work>{_any_of(works)})",
        "due": r"(?P<due>\d{2,3}[,. ]?\d{3})(?: miles| mi| km)?",
        "then": r"(?P<then>\d{1,3}[,.]?\d{3})(?: ?(?:miles|mi|km|millas))?",
    }
    cut = cut_parts(filled, {"trailer": TRAILER_PIECES})
    written = [(name, pattern) for name in (*_FACTS, *_ASKED) for pattern in table[name]]
    pieces = [pieces_of(pattern, cut) for _, pattern in written]
    first = bits_of([each.opening for each in pieces])
    words = bits_of([each.words for each in pieces])
    return StandingWords(
        patterns=[(name, _filled(pattern, filled)) for name, pattern in written],
        words=words,
        first=first,
        of_trailers=first.of(TRAILER),
        named=words.of(TRAILER) | words.of(f"{TRAILER},") | words.of(f"{TRAILER};"),
        letters=frozenset(word[0] for word in first.by_word if word != TRAILER),
        units=units,
        volumes=volumes,
        numbers=numbers,
        thousands=thousands,
        trailers=tuple(table["trailers"]),
        works=works,
    )


TRAILER_PIECES = Pieces(*[frozenset((TRAILER,))] * 4)
"""What a trailer may be called: a word or several, each of which stands as a trailer."""


def read_standing(text: str, context: Context, words: StandingWords) -> Verdict | None:
    """What a message sets or asks that lasts; None where it is another matter."""
    called = called_by(context.trailers, words)
    first = text.partition(" ")[0].casefold()
    if first not in called.opening and (first.isalpha() or first[:1] not in called.letters):
        return None  # before anything is made of it: most messages are another matter
    if text.endswith(("...", "…")):
        return None  # 'in english...': somebody goes on talking
    said = " ".join(text.casefold().replace("’", "'").replace("'", "").split()).strip(AROUND)
    fitting = fitting_patterns(said, words, called)
    if not fitting:
        return None
    trailers = _trailers(context, words)
    names = tuple(trailers)
    while fitting:
        name, pattern = words.patterns[(fitting & -fitting).bit_length() - 1]
        fitting &= fitting - 1  # but for the lowest
        found = _compiled(pattern, names).fullmatch(said)
        if found is None:
            continue
        if name in _ASKED:
            return Question(text=text, **{**found.groupdict(), **_ASKED[name]})
        trailer = trailers.get(found.groupdict().get("trailer") or "")
        entries = _FACTS[name](found, context, words, trailer)
        return Facts(tuple(entries)) if entries else None
    return None


def fitting_patterns(said: str, words: StandingWords, called: Called) -> int:
    """The bits of the patterns that have each word of a message, and begin with its first."""
    parts = said.split(" ")
    fitting = words.first.of(parts[0])
    if said.startswith(called.names):
        fitting |= words.of_trailers
    for part in reversed(parts):  # from the end, as most begin like one, and go on otherwise
        if not fitting:
            return 0
        own = words.words.of(part)
        fitting &= own | words.named if part.rstrip(PARTING) in called.words else own
    return fitting


PARTING = ",;"
"""Marks that may stand behind a trailer."""

AROUND = " .?!¿¡"
"""Marks that may stand before or behind such a message."""


@lru_cache(maxsize=MAX_COMPILED)
def called_by(names: tuple[str, ...], words: StandingWords) -> Called:
    """What trailers go by in a chat, and how what sets something lasting begins there."""
    folded = [name.casefold().replace("'", "") for name in (*names, *words.trailers) if name]
    of_name = frozenset(" ".join(folded).split(" "))
    return Called(
        names=tuple(folded),
        words=of_name,
        opening=of_name.union(words.first.by_word),
        letters=words.letters.union([name[0] for name in folded], AROUND, [""]),
    )


@dataclass(frozen=True, slots=True)
class Called:
    """What trailers go by, and every word of it.

    `opening` are the words that such a message begins with, and `letters` how another may that is
    no word by itself: 'odo:'.
    """

    names: tuple[str, ...]
    words: frozenset[str]
    opening: frozenset[str]
    letters: frozenset[str]


@lru_cache(maxsize=MAX_COMPILED)
def _compiled(pattern: str, trailers: tuple[str, ...]) -> re.Pattern[str]:
    """A pattern for a chat's trailers; compiled once, as the same chats text again and again."""
    return re.compile(pattern.replace("{trailer}", f"(?P<trailer>{_any_of(trailers)})"))


def _trailers(context: Context, words: StandingWords) -> Mapping[str, str | None]:
    """What trailers go by in this chat; 'the trailer' is the only one, where there is one."""
    only = context.trailers[0] if len(context.trailers) == 1 else None
    plain: dict[str, str | None] = dict.fromkeys(words.trailers, only)
    return {**plain, **{name.casefold(): name for name in context.trailers}}


def _every(
    found: re.Match[str], context: Context, words: StandingWords, trailer: str | None
) -> Sequence[Entry]:
    told = found.groupdict()
    intervals = [(found["count"], found["unit"])]
    if told.get("more_count") is not None:
        intervals.append((found["more_count"], found["more_unit"]))  # 'or 12 months'
    ratings = [
        _interval(found["upkeep"], _number(count, words), words.units[unit], trailer)
        for count, unit in intervals
    ]
    done = [] if told["then"] is None else _done_then(found, context, words, trailer)
    return [*ratings, *done]


def _once(
    found: re.Match[str], context: Context, words: StandingWords, trailer: str | None
) -> Sequence[Entry]:
    """'repack the bearings in 12,000 miles': due once, so far or so long from now."""
    count, unit = _number(found["count"], words), words.units[found["unit"]]
    if unit in DAYS:
        days = round(count * DAYS[unit])
        return [Rating(subject=found["upkeep"], rating=DUE_IN_DAYS, value=days, trailer=trailer)]
    ahead = Quantity(count, unit)
    return [Rating(subject=found["upkeep"], rating=DUE_IN, value=ahead, trailer=trailer)]


def _done_then(
    found: re.Match[str], context: Context, words: StandingWords, trailer: str | None
) -> Sequence[Entry]:
    """Done some time ago, when the odometer read so much: no reading of now."""
    shown = Quantity(_number(found["then"], words), context.odometer_unit)
    return [Rating(subject=found["upkeep"], rating=DONE_AT, value=shown, trailer=trailer)]


def _interval(upkeep: str, count: float, unit: str, trailer: str | None) -> Rating:
    if unit in DAYS:
        days = round(count * DAYS[unit])
        return Rating(subject=upkeep, rating="every_days", value=days, trailer=trailer)
    return Rating(subject=upkeep, rating="every", value=Quantity(count, unit), trailer=trailer)


def _done(
    found: re.Match[str], context: Context, words: StandingWords, trailer: str | None
) -> Sequence[Entry]:
    told = found.groupdict()
    item = words.works[told["work"]] if told.get("work") else told["upkeep"]
    check = Check(item=item, state="done", trailer=trailer)
    if found["reading"] is None:
        return [check, *_due(item, told.get("due"), context.odometer, words, trailer)]
    shown = Quantity(_number(found["reading"], words), context.odometer_unit)
    if context.odometer is not None and shown.amount("km") < context.odometer.amount("km"):
        # Nothing drives backwards: that was the reading when it was done.
        return [Rating(subject=item, rating=DONE_AT, value=shown, trailer=trailer)]
    return [check, Odometer(odometer=shown), *_due(item, told.get("due"), shown, words, trailer)]


def _due(
    item: str, due: str | None, shown: Quantity | None, words: StandingWords, trailer: str | None
) -> Sequence[Entry]:
    """'next at 56,640': due once, so far from what the odometer shows; none if it shows more."""
    if due is None or shown is None:
        return []
    ahead = _number(due, words) - shown.value
    if ahead <= 0:
        return []
    return [Rating(subject=item, rating=DUE_IN, value=Quantity(ahead, shown.unit), trailer=trailer)]


def _due_at(
    found: re.Match[str], context: Context, words: StandingWords, trailer: str | None
) -> Sequence[Entry]:
    return _due(found["upkeep"], found["due"], context.odometer, words, trailer)


def _factor(
    found: re.Match[str], context: Context, words: StandingWords, trailer: str | None
) -> Sequence[Entry]:
    shown, true = _number(found["shown"], words), _number(found["true"], words)
    low, high = BELIEVABLE_FACTOR
    if not shown or not low <= true / shown <= high:
        return []
    return [Rating(subject="odometer", rating="factor", value=round(true / shown, 4))]


def _digits(
    found: re.Match[str], context: Context, words: StandingWords, trailer: str | None
) -> Sequence[Entry]:
    return [Rating(subject="odometer", rating="digits", value=_number(found["count"], words))]


def _replaced(
    found: re.Match[str], context: Context, words: StandingWords, trailer: str | None
) -> Sequence[Entry]:
    unit = "km" if found["distance"] == "km" else context.odometer_unit
    shown = Quantity(_number(found["count"], words), unit)
    return [Rating(subject="odometer", rating="replaced", value=shown)]


def _def_tank(
    found: re.Match[str], context: Context, words: StandingWords, trailer: str | None
) -> Sequence[Entry]:
    size = Quantity(_number(found["count"], words), words.volumes[found["volume"]])
    if size.amount("L") < LEAST_FLUID:
        return []  # 'def tank 2.4 gal': what went in
    return [Rating(subject="truck", rating="def_tank", value=size)]


LEAST_FLUID = 12
"""Litres: no truck's tank for its exhaust fluid holds less; common practice, no source."""


def _point(listed: float) -> Callable[..., Sequence[Entry]]:
    def read(
        found: re.Match[str], context: Context, words: StandingWords, trailer: str | None
    ) -> Sequence[Entry]:
        return [Rating(subject=SUBJECT, rating=found["item"], value=listed)]

    return read


def _tick(
    found: re.Match[str], context: Context, words: StandingWords, trailer: str | None
) -> Sequence[Entry]:
    return [Check(item=found["point"], state="done")]


_FACTS: Mapping[str, Callable[..., Sequence[Entry]]] = {
    "every": _every,
    "once": _once,
    "factor": _factor,
    "digits": _digits,
    "replaced": _replaced,
    "def_tank": _def_tank,
    "walk_add": _point(1.0),
    "walk_drop": _point(0.0),
    "tick": _tick,
    "done": _done,
    "due_at": _due_at,
    "done_then": _done_then,
}
_ASKED: Mapping[str, dict[str, Any]] = {
    "def_asked": {"topic": "economy", "product": "def"},
    "walk_asked": {"topic": "upkeep", "item": "walk-round"},
    "invite_reader": {"topic": "invite", "field": "reader"},
    "invite_keeper": {"topic": "invite", "field": "keeper"},
    "members": {"topic": "members"},
    "remove": {"topic": "remove"},
    "answer_in": {"topic": "language"},
    "show_rig": {"topic": "weight", "form": PICTURE},
    "show_margins": {"topic": "margin", "form": PICTURE},
    "show_economy": {"topic": "economy", "form": PICTURE},
    "show_week": {"topic": "week", "form": PICTURE},
    "changed": {"topic": "weight", "form": CHANGE},
    "show": {"topic": "weight", "form": PICTURE},
    "menu_help": {"topic": "help"},
    "menu_ratings": {"topic": "ratings"},
    "menu_weight": {"topic": "weight"},
    "menu_margins": {"topic": "margin"},
    "menu_economy": {"topic": "economy"},
    "menu_trip": {"topic": "trip"},
    "menu_week": {"topic": "week"},
    "report": {"topic": "period", "form": PAGE},
    "report_trip": {"topic": "trip", "form": PAGE},
    "report_days": {"topic": "period", "form": PAGE},
}
"""What each table of patterns becomes: entries, or a question."""


def _number(written: str, words: StandingWords) -> float:
    if written in words.numbers:
        return words.numbers[written]
    thousand = next((each for each in words.thousands if written.endswith(each)), "")
    digits = written.removesuffix(thousand).rstrip().replace(" ", "")
    return _value(digits) * (1000 if thousand else 1)


def _value(digits: str) -> float:
    """5,000 and 5.000 are five thousand; 5,5 and 5.5 are five and a half."""
    if GROUPED.fullmatch(digits):
        return float(re.sub(r"[.,]", "", digits))
    whole, _, rest = digits.rpartition("," if digits.count(",") == 1 and "." not in digits else ".")
    return float(f"{re.sub('[.,]', '', whole)}.{rest}" if whole else digits.replace(",", ""))


def _any_of(words: Iterable[str]) -> str:
    """Alternatives, the longest first, as they stand."""
    ordered = sorted({word.casefold() for word in words}, key=lambda word: (-len(word), word))
    return "|".join(re.escape(word.replace("'", "")) for word in ordered)


def _filled(pattern: str, parts: Mapping[str, str]) -> str:
    for name, part in parts.items():
        pattern = pattern.replace("{" + name + "}", part)
    return pattern
