"""Every occasion on which something is said, in whatever language is in force.

A season of texts fills a logbook once; what is kept of each text, what is asked by topic, every
doubt, correction and trouble can then be answered again and again from it.
"""

from __future__ import annotations

import tempfile
import tomllib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from datetime import UTC, datetime, timedelta
from functools import cache, partial
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from bot.answers import asking, correcting, dispatch, setup, shared, trouble
from bot.answers.answer import Answer
from bot.answers.brief import brief
from bot.answers.shared import Sharer
from bot.conversation import Conversation
from bot.demo import messages
from bot.messages import Message
from bot.photos.reader import NO_TICKET, REFUSED, TOO_SLOW
from bot.phrasebook import phrasebook
from bot.shared_data import read_toml
from bot.sight import NO_PHOTOS, NO_READER
from bot.store import standing
from bot.store.database import open_store
from domain import corrections
from domain.context import (
    DISTANCE_UNIT,
    ECONOMY_UNIT,
    MASS_UNIT,
    PRESSURE_UNIT,
    SHORT_LENGTH_UNIT,
    SPEED_UNIT,
    TEMPERATURE_UNIT,
    VOLUME_UNIT,
    Context,
)
from domain.corrections import Amended, Unclear, Withdrawn
from domain.entries import POSITIONS, Cargo, Check, Entry, Note, Observation, Rating, Weighing
from domain.log import Log, Logged, Preferences
from domain.quantities import Quantity, economy_to
from domain.reading import read
from domain.verdicts import PICTURE, Ask, Choice, Question
from tests.gallery.scenes import SCENES

Occasion = tuple[str, Callable[[], Answer]]
ZONE = "America/Boise"
QUESTIONS = (
    "what if I put 600 lb in the bed",
    "what if I put 600 lb 4 ft ahead of the trailer axle",
    "what if the skid steer moves 2 ft forward",
    "how much more can I put in the bed",
    "how much more can we load on the trailer",
    "where must 4,000 lb go for 12 % tongue",
    "4 chains 3/8 grade 70 on 9,200 lb",
    "how many straps for 5,000 lb",
    "how many chains for a 9,000 lb tractor",
    "are two 3/8 chains enough for 12,000 lb",
    "can we make 300 miles on this tank",
    "can we make 900 miles on this tank",
    "how much def do we use",
    "tire date codes?",
    "gvwr?",
    "payload left?",
)


@dataclass(frozen=True, slots=True)
class Season:
    """A logbook after a season, and when that was."""

    log: Log
    now: datetime


@cache
def season() -> Season:
    """The demo's season and the gallery's texts, kept in one logbook."""
    at = datetime(2026, 4, 1, tzinfo=UTC)

    def clock() -> datetime:
        return at

    with tempfile.TemporaryDirectory() as folder:
        store = open_store(Path(folder) / "log.db")
        chat = Conversation(
            store, lambda text, context: read(text, context, phrasebook()), clock, Preferences()
        )
        try:
            for message in _texts():
                at = message.sent_at
                chat.take(message)
            with store.look() as session:
                return Season(standing.log(session, 1), at + timedelta(hours=1))
        finally:
            store.close()


def _texts() -> Iterator[Message]:
    last: Message | None = None
    for last in messages(read_toml("demo/season.toml"), ZoneInfo(ZONE)):
        yield last
    assert last is not None
    told = tomllib.loads(SCENES["en"].read_text(encoding="utf-8"))["scene"]
    for number, each in enumerate(told, start=1):
        at = last.sent_at + timedelta(minutes=20 * number)
        yield replace(last, id=f"scene {number}", text=str(each["text"]), sent_at=at)


UNITS_OF = {
    "lb": MASS_UNIT,
    "mi": DISTANCE_UNIT,
    "ft": SHORT_LENGTH_UNIT,
    "in": SHORT_LENGTH_UNIT,
    "gal": VOLUME_UNIT,
    "degF": TEMPERATURE_UNIT,
    "psi": PRESSURE_UNIT,
    "mph": SPEED_UNIT,
}
"""What each unit of the season is where it is lived by somebody else."""


@cache
def season_of(preferences: Preferences) -> Season:
    """The season as it would be texted in other units and other money."""
    told = season()
    entries = [replace(each, entry=_restated(each.entry, preferences)) for each in told.log]
    return Season(Log(entries), told.now)


def _restated(value: Any, preferences: Preferences) -> Any:
    """A record with every quantity in it in a chat's own units and money."""
    if isinstance(value, Quantity):
        return _in_units(value, preferences)
    if isinstance(value, Mapping):
        return {name: _restated(each, preferences) for name, each in value.items()}
    if is_dataclass(value) and not isinstance(value, type):
        stated = {each.name: getattr(value, each.name) for each in fields(value)}
        return replace(
            value, **{name: _restated(each, preferences) for name, each in stated.items()}
        )
    return value


def _in_units(quantity: Quantity, preferences: Preferences) -> Quantity:
    units = preferences.units
    if quantity.unit == "USD":
        return replace(quantity, unit=preferences.currency)
    if quantity.unit == "USD/gal":
        volume = VOLUME_UNIT[units]
        each = quantity.value * Quantity(1.0, volume).amount("gal")
        return Quantity(round(each, 3), f"{preferences.currency}/{volume}")
    if quantity.unit == "mi/gal":
        return economy_to(quantity, ECONOMY_UNIT[units])
    return quantity.to(UNITS_OF[quantity.unit][units]) if quantity.unit in UNITS_OF else quantity


def occasions(preferences: Preferences) -> Iterator[Occasion]:
    """Each occasion by name; what it says is worked out when it is called."""
    yield from kept_and_asked(preferences, season())
    yield from _briefs()
    yield from _doubts()
    yield from _corrected(preferences)
    yield from _shared(preferences)


def kept_and_asked(preferences: Preferences, lived: Season) -> Iterator[Occasion]:
    """Each thing that was kept of a season, and everything that can be asked of it."""
    yield from _kept(preferences, lived)
    yield from _asked(preferences, lived)


def _kept(preferences: Preferences, lived: Season) -> Iterator[Occasion]:
    log, now = lived.log, lived.now
    for each in log:
        yield (
            f"kept: {each.entry!r}",
            partial(dispatch.kept_answer, log.until(each.at), preferences, each.at, [each]),
        )
    for alone in {type(each.entry): each for each in log}.values():
        yield (
            f"alone: {alone.entry!r}",
            partial(dispatch.kept_answer, Log([alone]), preferences, now, [alone]),
        )


def _asked(preferences: Preferences, lived: Season) -> Iterator[Occasion]:
    log, now = lived.log, lived.now
    topics = [Question(topic=topic) for topic in dispatch.TOPICS]
    topics += [replace(each, trailer="flatdeck") for each in topics]
    topics += [replace(each, since=now.date() - timedelta(days=60)) for each in topics[:16]]
    topics += [Question(topic="upkeep", item=item) for item in ("oil", "walk-round", "brakes")]
    topics += [Question(topic=name, form=PICTURE) for name in dispatch.SHOWN]
    context = Context(sent_at=now, truck="Juniper", trailers=("flatdeck", "camper"), hitched=True)
    for text in QUESTIONS:
        found = read(text, context, phrasebook())
        if isinstance(found, Question):
            topics.append(found)
    for question in topics:
        for name, known in (("", log), ("nothing known, ", Log())):
            yield (
                f"{name}{question!r}",
                partial(dispatch.question_answer, known, preferences, now, question),
            )


def _briefs() -> Iterator[Occasion]:
    lb = Quantity(9840.0, "lb")
    entries: list[Entry] = [Weighing(loads={position: lb}, rig="solo") for position in POSITIONS]
    vocabulary = read_toml("phrasebook/en.toml")
    places = (None, *map(_position, vocabulary["corner"]))
    degrees = Quantity(208.0, "degF")
    entries += [
        Observation(subject=subject, value=degrees, position=place)
        for subject in vocabulary["subject"]
        for place in places
    ]
    parts = ("truck", "trailer", "truck tyres", "trailer tyres", *vocabulary["rating_subject"])
    entries += [
        Rating(subject=subject, rating=rating, value=lb)
        for subject in parts
        for rating in vocabulary["rating"]
    ]
    entries += [
        Weighing(loads={"gross": lb}, rig="trailer", bars="on", aboard=2, ticket="2291"),
        Cargo(item="Juniper", value=lb, position="front"),
        Check(item="tyres", state="fault"),
        Check(item="tyres", state="done"),
        Note(note="Juniper"),
    ]
    for each in entries:
        yield f"brief: {each!r}", partial(_in_brief, each)


def _position(corner: str) -> str:
    """A corner as the reader gives it: `trailer left front`."""
    return " ".join(sorted(corner.split("_"), key=lambda word: word != "trailer"))


def _in_brief(entry: Entry) -> Answer:
    return Answer(headline=brief(entry))


def _doubts() -> Iterator[Occasion]:
    figures = (Quantity(23360.0, "lb"), Quantity(24360.0, "lb"))
    choice = Choice("Juniper", (Weighing(loads={"gross": figures[0]}),))
    abouts = (*asking.BY_FIELD, "steer", "drive", "trailer", "unit_price", "observation")
    for why in ("", *asking.BY_REASON):
        for about in abouts:
            ask = Ask(about, (choice, choice), why, figures)
            yield f"ask: {about} {why}", partial(asking.ask_answer, ask)
    ask = Ask("gross", (choice,), "does_not_sum", figures)
    yield "kept, with a doubt", lambda: asking.ask_answer(ask, kept=True)
    yield "held", asking.held_answer
    yield "stuck", lambda: asking.stuck_answer("Juniper")
    yield "still open", lambda: asking.still_open_answer(ask)


def _corrected(preferences: Preferences) -> Iterator[Occasion]:
    entries = list(season().log)
    one, other = entries[0], entries[1]
    for why in correcting.WHY_UNCLEAR:
        yield f"unclear: {why}", partial(correcting.unclear_answer, Unclear(why), preferences)
    loads = {"steer": Quantity(5280.0, "lb"), "drive": Quantity(6940.0, "lb")}
    was = Weighing(loads={**loads, "gross": Quantity(12220.0, "lb")})
    now = Weighing(loads={**was.loads, "steer": Quantity(5380.0, "lb")})
    for field in ("steer", "drive", "gross"):
        amended = Amended(Logged(entry=was, at=season().now), now, field)
        yield f"amended: {field}", partial(correcting.amended_answer, amended)
    later = replace(one, at=one.at + timedelta(days=1))
    yield "another day", partial(correcting.redated_answer, one, later, preferences)
    yield "one out", lambda: correcting.withdrawn_answer(Withdrawn((one,)))
    yield "two out", lambda: correcting.withdrawn_answer(Withdrawn((one, other), (one,)))
    yield "one back", lambda: correcting.withdrawn_answer(Withdrawn((), (one,)))
    yield "two back", lambda: correcting.withdrawn_answer(Withdrawn((), (one, other)))
    yield "read again", lambda: correcting.read_again_answer([one, other])
    yield "dropped", correcting.dropped_answer
    which = [Amended(Logged(entry=was, at=season().now), now, "steer")]
    yield "which figure", lambda: asking.ask_answer(correcting.which_figure(which), kept=True)
    assert set(correcting.WHY_UNCLEAR) == {
        corrections.NOTHING_TO_UNDO, corrections.NOTHING_FITS, corrections.NO_SUCH_FIGURE,
        corrections.WRONG_MEASURE, corrections.ALREADY_SO,
    }  # fmt: skip


def _shared(preferences: Preferences) -> Iterator[Occasion]:
    sharers = [
        Sharer(title="Juniper", network="telegram", keeps=keeps, here=keeps)
        for keeps in (True, False)
    ]
    for said in (
        shared.reader_answer, shared.stranger_answer, shared.wrong_code_answer,
        shared.has_its_own_answer, shared.last_keeper_answer, trouble.not_written_answer,
        trouble.too_long_answer, trouble.too_many_answer, trouble.not_read_answer,
        trouble.undecryptable_answer, setup.language_answer, setup.which_language_answer,
    ):  # fmt: skip
        yield said.__name__, said
    yield "help", lambda: setup.help_answer(preferences)
    for keeps, empty in ((True, True), (True, False), (False, False)):
        yield (
            f"welcome {keeps} {empty}",
            partial(shared.welcome_answer, preferences, keeps=keeps, empty=empty),
        )
        yield f"code {keeps}", partial(shared.code_answer, "2345", keeps=keeps)
    yield "members", lambda: shared.members_answer(sharers)
    yield "which member", lambda: shared.which_member_answer(sharers)
    yield "removed", lambda: shared.removed_answer(sharers[0])
    yield "undelivered", lambda: trouble.undelivered_answer("telegram", "12", "Juniper")
    for why in (NO_READER, NO_PHOTOS, NO_TICKET, TOO_SLOW, *REFUSED.values()):
        yield f"photo: {why}", partial(trouble.not_seen_answer, why)


def words_of(value: Any) -> Iterator[str]:
    """Every text that an answer shows, its picture's too."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from words_of(each)
    elif is_dataclass(value):
        for field in fields(value):
            if field.name not in HIDDEN:
                yield from words_of(getattr(value, field.name))


HIDDEN = ("state", "align", "paper", "language", "page")
"""Fields of a picture or a report that are no words to be read; a page's number is put in last."""


def names() -> set[str]:
    """The words that people gave: names, places, what they loaded or noted."""
    given: set[str] = set()
    for each in season().log:
        entry = each.entry
        told = [entry.truck, entry.trailer, entry.place, each.by]
        told += [entry.note] if isinstance(entry, Note) else []
        told += [entry.item] if isinstance(entry, Cargo | Check) else []
        told += [entry.position] if isinstance(entry, Cargo) else []
        given |= {word for text in told if text for word in text.casefold().split()}
    return given
