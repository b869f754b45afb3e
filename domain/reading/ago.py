"""How long ago a message says that something happened: 'an hour and a half ago'.

This file decides how long 'two and a half hours', '1h 20m' and 'three quarters of an hour' are,
and counts back from when the message was sent. What is rarer goes to dateparser, which costs about
a millisecond and is therefore only called where 'ago' stands. A day that is told otherwise is read
in `times`.
"""

from __future__ import annotations

import re
from datetime import date, datetime, timedelta

from domain.reading.phrasebook import Phrasebook
from domain.reading.scene import Scene

LENGTHS = {
    "minute": timedelta(minutes=1),
    "hour": timedelta(hours=1),
    "day": timedelta(days=1),
    "week": timedelta(weeks=1),
}
"""The units of time of which a part can be told."""

TO_THE_MINUTE = ("minute", "hour")
"""Units so short that a moment is meant, and no day."""

_MIXED = re.compile(r"(\d+) (\d)/(\d)")


def read_ago(scene: Scene, local: datetime) -> datetime | date | None:
    """The moment or day that a message tells by how long ago it was, zoned as `local`, or None."""
    if scene.book.groups["ago"].isdisjoint(scene.words()):
        return None
    match = scene.book.patterns["ago"].search(scene.text)
    if match is not None and _gave_way(scene, match):
        return None
    if match is None:
        return _by_dateparser(scene, local)
    unit = _unit(scene.book, match["unit"])
    scene.claim_between(match.start(), match.end(), "a time")
    if unit not in LENGTHS:
        return _by_dateparser(scene, local)
    amount = _amount(scene.book, match["amount"] or "")  # 'hace hora y media'
    passed = LENGTHS[unit] * (amount + _part(scene.book, match))
    if match["minor"]:
        passed += LENGTHS["minute"] * _amount(scene.book, match["minor"])
    then = local - passed
    return then.replace(microsecond=0) if unit in TO_THE_MINUTE else then.date()


def _unit(book: Phrasebook, said: str) -> str:
    return book.keys["span_unit"][said.casefold()]


def _part(book: Phrasebook, match: re.Match[str]) -> float:
    """'and a half', said before the unit or behind it."""
    said = match["part"] or match["more"]
    return float(book.keys["part_of_one"][said.casefold()]) if said else 0.0


def _amount(book: Phrasebook, said: str) -> float:
    """'two', 'twenty five', 'half an', '1 1/2', '2.5' as a number; 1 for what is none."""
    words = said.casefold()
    mixed = _MIXED.fullmatch(words)
    if mixed is not None:
        return int(mixed[1]) + int(mixed[2]) / int(mixed[3])
    tens = [book.numbers.get(word, "") for word in re.split(r"[ -]", words)]
    if len(tens) > 1 and all(each.isdigit() for each in tens):
        return float(sum(int(each) for each in tens))
    return count_of(book, words)


def count_of(book: Phrasebook, said: str) -> float:
    """'two', 'a couple of', 'half an', '12' as a number; 1 for what is none."""
    written = book.keys["count"].get(said) or book.numbers.get(said, said)
    return float(written) if written.replace(".", "", 1).isdigit() else 1.0


def _gave_way(scene: Scene, match: re.Match[str]) -> bool:
    """'196 an hour ago, its 208 now': what was then gave way, and its time with it."""
    said = [t for t in scene.tokens if match.start() <= t.start and t.end <= match.end()]
    return bool(said) and all(token.senses.get("glue") == "filler" for token in said)


def _by_dateparser(scene: Scene, local: datetime) -> date | None:
    from dateparser.search import search_dates

    found = search_dates(
        scene.text,
        languages=[scene.book.language],
        settings={
            "RELATIVE_BASE": local.replace(tzinfo=None),
            "PREFER_DATES_FROM": "past",
            "DATE_ORDER": "MDY" if scene.context.units == "us" else "DMY",
            "PARSERS": ["relative-time"],
        },
    )
    return found[0][1].date() if found else None
