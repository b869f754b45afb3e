"""What a report tells of the scale: every rating, every weighing, what was left of each limit.

This file decides what of a weighing goes into its row and which weighings are shown in full.
The arithmetic is the domain's, and the verdict is worded as in an answer.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Mapping
from datetime import datetime
from itertools import takewhile

from bot.answers.language import marked, say
from bot.answers.limits import (
    RATINGS,
    limit_name,
    limit_text,
    mass_text,
    missing_note,
    room_text,
    share_text,
    unknown_note,
    verdict,
)
from bot.answers.ratings import rating_row
from bot.answers.scale_pictures import is_complete, margin_bar, margins_picture, rig_picture
from bot.answers.terms import term
from bot.answers.weighed import Weighed, weighed
from bot.answers.words import sentence
from bot.report.grounds import Grounds
from bot.report.value import Column, Section, Table, table
from domain.bounds import load_of
from domain.countries import Country, country_of
from domain.entries import Weighing
from domain.margins import Clear, Near, Over, Unknown, too_close
from domain.passes import Session, sessions
from domain.rig import TRAILER_PARTS, Key, Rig, rig_of
from domain.wanted import Wanted, is_of_the_rig, lacking

LOADS = ("steer", "drive", "trailer", "gross")
"""Loads of a weighing that have a column each."""


HOW: Mapping[type[Over | Near | Clear], str] = {
    Over: marked("over"),
    Near: marked("near"),
    Clear: marked("inside"),
}
"""How a load stands to its limit."""


def rig_section(told: Grounds) -> Section:
    """Truck and trailers, each with its ratings and those that were never given."""
    trailers: tuple[str | None, ...] = told.trailers
    rigs = [
        rig_of(told.stood.log, told.then, truck=told.truck, trailer=trailer)
        for trailer in trailers or (None,)
    ]
    truck = told.truck or sentence(term("truck"))
    country = country_of(told.preferences.currency)
    tables = [*_ratings(told, truck, rigs[0], of_trailer=False)]
    for rig in rigs:
        if rig.trailer:
            tables += _ratings(told, rig.trailer, rig, of_trailer=True)
    return Section(
        title=say("The rig and its ratings"),
        paragraphs=tuple(filter(None, (*_lacking(rigs, truck, country), _others(told)))),
        tables=tuple(tables),
    )


def _ratings(told: Grounds, owner: str, rig: Rig, *, of_trailer: bool) -> tuple[Table, ...]:
    """The ratings of a truck with what hangs on it, or of a trailer."""
    rows = []
    for key, rating in rig.ratings.items():
        if (key[0] in TRAILER_PARTS) != of_trailer or not is_of_the_rig(key):
            continue
        row = rating_row(key, rating, told.then)
        rows.append((_name(key, row.label), row.figure, row.remark, _where(key[:2])))
    return table(
        owner,
        (
            Column(say("Rating")),
            Column(say("Figure"), "right"),
            Column(say("Remark")),
            Column(say("Where it stands")),
        ),
        rows,
    )


def _name(key: Key, otherwise: str) -> str:
    """What a rating is called on its label, where it is one of those that are wanted."""
    wanted = RATINGS.get(key[:2])
    return sentence(say(wanted.name)) if wanted and not key[2] else otherwise


def _where(wanted: Wanted) -> str:
    return sentence(say(RATINGS[wanted].where)) if wanted in RATINGS else ""


def _lacking(rigs: Iterable[Rig], truck: str, country: Country) -> Iterable[str]:
    """What was never given, of the truck once and of each trailer."""
    for number, rig in enumerate(rigs):
        found = lacking(rig, country)
        own = [each for each in found if each[0] not in TRAILER_PARTS] if not number else []
        for owner, wanted in (
            (truck, own),
            (rig.trailer, [each for each in found if each[0] in TRAILER_PARTS]),
        ):
            if owner and wanted:
                yield f"{owner}: {missing_note(wanted)}"


def _others(told: Grounds) -> str:
    """A report is of one truck; the others of the logbook are named."""
    others = [name for name in told.trucks if name != told.truck]
    if not others:
        return ""
    return say("Not in this report: {trucks}.", trucks=", ".join(others))


def weighings_section(told: Grounds) -> Section:
    """Every weighing of the days, and the last one of each rig with a picture and its margins."""
    during = takewhile(lambda session: session.ended >= told.days.start, sessions(told.stood.log))
    found = [weighed(told.driven.log, told.preferences, session, None) for session in during][::-1]
    last = {_trailer_of(each): each for each in found}
    shown = [each for each in reversed(last.values()) if each.governing]
    return Section(
        title=say("At the scale"),
        pictures=tuple(
            picture
            for each in shown
            if is_complete(each)
            for picture in (
                rig_picture(each, told.preferences),
                margins_picture(each, told.preferences),
            )
        ),
        tables=(*_weighings(told, found), *(one for each in shown for one in _margins(told, each))),
        paragraphs=tuple(dict.fromkeys(note for each in shown for note in _not_judged(each))),
    )


def _weighings(told: Grounds, found: Iterable[Weighed]) -> tuple[Table, ...]:
    unit = told.mass
    return table(
        say("Weighings, in {unit}", unit=unit),
        (
            Column(say("Date")),
            Column(say("Place")),
            Column(say("Trailer")),
            *(
                Column(sentence(say("trailer axles") if name == "trailer" else term(name)), "right")
                for name in LOADS
            ),
            Column(say("Tongue or pin"), "right"),
            Column(say("Verdict")),
        ),
        [_weighing(told, each) for each in found],
    )


def _at(each: Weighed) -> datetime:
    return each.weights.session.ended


def _trailer_of(each: Weighed) -> str | None:
    """The trailer that was behind; a pass of the truck alone says nothing of its load."""
    session = each.weights.session
    behind = session.road or "trailer" in session.passes
    return (session.trailer or term("trailer")) if behind else None


def _weighed_rig(each: Weighed) -> str:
    """Truck and trailer as they stood on the scale."""
    truck, trailer = each.rig.truck or term("truck"), _trailer_of(each)
    return say("{truck} with {trailer}", truck=truck, trailer=trailer) if trailer else truck


def _weighing(told: Grounds, each: Weighed) -> tuple[str, ...]:
    unit, weights = told.mass, each.weights
    session = weights.session
    said = verdict(each.governing, unit, stop="", unjudged=len(each.unjudged))
    loads = [load_of(weights, name) for name in LOADS]
    tongue = ""
    if weights.tongue is not None:
        tongue = _bare(mass_text(weights.tongue.load, unit, derived=True), unit)
        if weights.share is not None:
            tongue = f"{tongue} ({share_text(weights.share, doubt=False)})"
    return (
        told.day(session.ended),
        _place(told, session),
        _trailer_of(each) or term("solo"),
        *("" if load is None else _bare(mass_text(load, unit), unit) for load in loads),
        tongue,
        said.strip() if said else say("No rating given to hold it against."),
    )


def _place(told: Grounds, session: Session) -> str:
    """Where it was, which not every pass says."""
    entries = told.stood.log.of(Weighing)
    first = bisect_left(entries, session.started, key=lambda each: each.at)
    last = bisect_right(entries, session.ended, key=lambda each: each.at)
    return next((each.entry.place for each in entries[first:last] if each.entry.place), "")


def _bare(figure: str, unit: str) -> str:
    """A figure without its unit, which its table names."""
    return figure.removesuffix(unit).strip()


def _margins(told: Grounds, each: Weighed) -> tuple[Table, ...]:
    """What was left of every limit, the tightest first, and which could not be judged."""
    unit = told.mass
    rows = []
    for margin in each.governing:
        name, limit = sentence(limit_name(margin)), limit_text(margin, unit)
        if isinstance(margin, Unknown):
            wants = say("needs {wanting}", wanting=term(margin.needs))
            rows.append((name, say("not weighed"), limit, "", wants))
        else:
            load = margin_bar(margin, unit).load
            rows.append((name, load, limit, room_text(margin, unit), _how(margin)))
    return table(
        say("Margins of {rig}, {day}", rig=_weighed_rig(each), day=told.day(_at(each))),
        (
            Column(say("Limit")),
            Column(say("Load"), "right"),
            Column(sentence(term("rating")), "right"),
            Column(say("Room"), "right"),
            Column(say("How it stands")),
        ),
        rows,
    )


def _how(margin: Over | Near | Clear) -> str:
    return say("too close to call") if too_close(margin) else say(HOW[type(margin)])


def _not_judged(each: Weighed) -> tuple[str, ...]:
    """What would have to be known to judge the ratings that could not be."""
    notes = (unknown_note(each.governing), missing_note(each.missing))
    return tuple(f"{_weighed_rig(each)}: {note}" for note in notes if note)
