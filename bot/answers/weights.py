"""Answers about weight: what stood on the scale, what is left, what the tongue carries.

This file decides which figures of a weighing a person sees, in which order and words. The
arithmetic is `domain`'s. An answer leads with a limit that is exceeded, else with the
tightest one, and never calls a rig safe: it is inside every rating given, or it is not.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from bot.answers.answer import Answer, Row
from bot.answers.words import figure, listed, moment, number, rounded, sentence
from bot.reference import references
from domain.carried import Change, corrected
from domain.context import MASS_UNIT
from domain.entries import Weighing
from domain.log import Log, Logged, Preferences
from domain.margins import (
    Clear,
    Margin,
    Missing,
    Near,
    Over,
    Share,
    Unknown,
    margins,
    missing,
    tongue_share,
    too_close,
)
from domain.quantities import Quantity
from domain.rig import Rig, rig_of
from domain.uncertainty import Measured, spread, worth
from domain.verdicts import Question
from domain.weighing import Weights, latest_session, weights_of

LIMITS = {
    ("truck", "gvwr"): "truck GVWR",
    ("truck", "gcwr"): "GCWR",
    ("truck", "gawr_front"): "steer axle",
    ("truck", "gawr_rear"): "drive axle",
    ("truck", "payload"): "payload",
    ("truck", "tow"): "truck's tow rating",
    ("truck", "tongue"): "truck's tongue rating",
    ("trailer", "gvwr"): "trailer GVWR",
    ("trailer", "gawr"): "trailer axle",
    ("hitch", "tow"): "hitch",
    ("hitch", "tongue"): "hitch tongue",
    ("trailer tyres", "load"): "trailer tyres",
    ("truck tyres", "load"): "truck tyres",
}
"""What each limit is called; a part of the hitch chain goes by its own name."""

WHY = {
    ("truck", "gvwr"): "bounds the loaded truck; door label",
    ("truck", "gcwr"): "bounds truck and trailer together; owner's manual or towing guide",
    ("truck", "gawr_front"): "bounds the steer axle; door label",
    ("truck", "gawr_rear"): "bounds the drive axle; door label",
    ("truck", "payload"): "bounds people, cargo and tongue; tyre placard on the door post",
    ("truck", "tow"): "bounds the trailer's weight; owner's manual or towing guide",
    ("trailer", "gvwr"): "bounds the loaded trailer; data plate on its frame",
    ("trailer", "gawr"): "bounds each trailer axle; data plate on the frame",
    ("hitch", "tow"): "bounds the pull; stamped on receiver, ball and coupler",
    ("hitch", "tongue"): "bounds the tongue; label on the receiver",
    ("trailer tyres", "load"): "bound the trailer's axles; load index on the sidewall",
    ("truck tyres", "load"): "bound the truck's axles; load index on the sidewall",
}
"""Why a rating matters, and where it is written."""

HELPS = {
    "steer": "move load back in the bed, and have the hitch set up",
    "drive": "move trailer load back a little or bed load forward, or leave some behind",
    "truck": "take load out of the bed, or off the tongue",
    "gross": "leave load behind, or make a second trip",
    "trailer": "drain water tanks, take load off the trailer, or make a second trip",
    "trailer_1": "move load between the axles, or take some off the trailer",
    "trailer_2": "move load between the axles, or take some off the trailer",
    "trailer_3": "move load between the axles, or take some off the trailer",
    "trailer weight": "drain water tanks, take load off the trailer, or make a second trip",
    "tongue": "move trailer load back a little, but keep the share in its range",
    "payload": "take load out of the truck, or off the tongue",
}
"""What usually helps when a load is over; common practice, no source."""

DERIVED = ("tongue", "trailer weight", "payload")
"""Loads that are differences of readings, and are rounded to what they are good for."""

CAUTION = "From your own figures. Door label, data plate, maker's manual and local law govern."
STOP = "Don't tow it like this."
NO_WEIGHING = Answer(
    headline="No weighing yet.",
    notes=("Text the scale's figures, such as: steer 5280 drive 6940 trailer 9840.",),
)
MOST_MARGINS = 6
"""Margins that one answer lists; the rest have more room and are counted."""


def weighing_answer(
    log: Log, preferences: Preferences, now: datetime, logged_weighing: Logged[Weighing]
) -> Answer:
    """What to say to a weighing just kept: its weights, margins, and the ratings missing."""
    return _weighed(log.until(logged_weighing.at), preferences, logged_weighing.entry.trailer)


def weight_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What the rig weighs: the figure asked for, or all of the last weighing."""
    return _weighed(log, preferences, question.trailer)


def margin_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What is left to every rating, or to the one asked about."""
    return _weighed(log, preferences, question.trailer)


def tongue_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """Tongue or pin weight and its share, or what is needed to know them."""
    return _weighed(log, preferences, question.trailer)


def _weighed(log: Log, preferences: Preferences, trailer: str | None) -> Answer:
    found = _latest(log, trailer)
    if found is None:
        return NO_WEIGHING
    rig, weights, changes = found
    unit = MASS_UNIT[preferences.units]
    all_margins = margins(rig, weights)
    return Answer(
        headline=_headline(all_margins, weights, unit),
        rows=(*_weight_rows(weights, unit), *_margin_rows(all_margins, unit)),
        notes=_notes(rig, weights, all_margins, changes, unit),
    )


def _latest(log: Log, trailer: str | None) -> tuple[Rig, Weights, tuple[Change, ...]] | None:
    session = latest_session(log, trailer)
    if session is None:
        return None
    rig = rig_of(log, session.ended, trailer=trailer or session.trailer)
    session, changes = corrected(log, session, rig, references().densities)
    return rig, weights_of(session), changes


def _headline(found: Sequence[Margin], weights: Weights, unit: str) -> str:
    over = [each for each in found if isinstance(each, Over)]
    if over:
        names = [f"{limit_name(each)} by {_left(each, unit)}" for each in over]
        close = all(too_close(each) for each in over)
        doubt = "by the ticket, " if close else ""
        return f"Over: {doubt}{listed(names[:3])}. {STOP}"
    judged = [each for each in found if not isinstance(each, Unknown)]
    if not judged:
        return f"{sentence(_total(weights, unit))}. No rating given to hold it against."
    tightest = judged[0]
    left = f"{limit_name(tightest)} has {_left(tightest, unit)} left"
    if too_close(tightest):
        return f"Too close to call: {left}, and the scale is good to ±{_doubt(tightest, unit)}."
    if isinstance(tightest, Near):
        return f"Close: {left}."
    return f"Inside every rating given. Tightest: {left}."


def _total(weights: Weights, unit: str) -> str:
    for name in ("gross", "truck", "trailer", "tongue"):
        if name in weights.loads:
            return f"{name} {_mass(weights.loads[name], unit)}"
    return "weighed in part"


def _weight_rows(weights: Weights, unit: str) -> tuple[Row, ...]:
    loads = weights.loads
    rows = [
        Row(label, _mass(loads[name], unit), remark)
        for name, label, remark in (
            ("gross", "Gross", ""),
            ("truck", "Truck", _parts(weights, ("steer", "drive"), unit)),
            ("trailer", "Trailer axles", _parts(weights, _SINGLE, unit)),
        )
        if name in loads
    ]
    rows += [
        Row(name.capitalize(), _mass(loads[name], unit))
        for name in ("steer", "drive")
        if name in loads and "truck" not in loads
    ]
    if weights.trailer is not None and weights.session.road is not None:
        rows.append(Row("Trailer", _mass(weights.trailer, unit, derived=True), "with tongue"))
    if weights.tongue is not None:
        rows.append(Row("Tongue", _with_doubt(weights.tongue.load, unit), _share(weights)))
    return tuple(rows)


_SINGLE = ("trailer_1", "trailer_2", "trailer_3")


def _parts(weights: Weights, names: Sequence[str], unit: str) -> str:
    known = [name for name in names if name in weights.loads]
    if len(known) < 2:
        return ""
    shown = (number(_amount(weights.loads[name], unit), 0) for name in known)
    if known[0] in _SINGLE:
        return " + ".join(shown)
    return ", ".join(f"{name} {value}" for name, value in zip(known, shown, strict=True))


def _share(weights: Weights) -> str:
    share = weights.share
    if share is None:
        return ""
    return f"{share.nominal_value:.1%} of the trailer, ±{spread(share):.1%}".replace("%", " %")


def _margin_rows(found: Sequence[Margin], unit: str) -> tuple[Row, ...]:
    judged = [each for each in found if not isinstance(each, Unknown)]
    return tuple(_margin_row(each, unit) for each in judged[:MOST_MARGINS])


def _margin_row(margin: Over | Near | Clear, unit: str) -> Row:
    limit = figure(Quantity(round(_to(margin.limit.value, unit)), unit))
    verdict = {Over: "OVER", Near: "near", Clear: ""}[type(margin)]
    word = "over" if isinstance(margin, Over) else "left"
    remark = f"of {limit}" + (f", {verdict}" if verdict == "near" else "")
    return Row(sentence(limit_name(margin)), f"{_left(margin, unit)} {word}", remark)


def limit_name(margin: Margin) -> str:
    """What a limit is called in a sentence."""
    limit = margin.limit
    if limit.bounds in _SINGLE:
        return f"trailer axle {limit.bounds[-1]}"
    name = LIMITS.get((limit.subject, limit.rating))
    if name is None:
        name = limit.subject + (" tongue" if limit.rating == "tongue" else "")
    return f"{name}s" if limit.count > 1 and name.endswith("axle") else name


def _notes(
    rig: Rig, weights: Weights, found: Sequence[Margin], changes: Sequence[Change], unit: str
) -> tuple[str, ...]:
    notes = [
        *_change_notes(changes, unit),
        *_help_notes(found),
        *_share_notes(tongue_share(rig, weights)),
    ]
    rest = sum(not isinstance(each, Unknown) for each in found) - MOST_MARGINS
    if rest > 0:
        notes.append(f"{rest} more ratings have more room.")
    if weights.drift is not None:
        notes.append("Bars on and off differ in gross by more than the scale explains; reweigh.")
    notes += _needs_notes(weights, found)
    notes += _missing_notes(missing(rig, weights))
    return (*notes, CAUTION)


def _change_notes(changes: Sequence[Change], unit: str) -> list[str]:
    """Fuel and people put right between passes, where it is more than a scale's division."""
    parts = [
        f"{_mass(part, unit, derived=True, absolute=True)} of {what}"
        for what, total in (("fuel", "fuel"), ("people", "people"))
        if (part := max((getattr(c, total) for c in changes), key=_size, default=None))
        and _size(part) > 9
    ]
    return [f"Corrected between passes for {listed(parts)}."] if parts else []


def _size(load: Measured) -> float:
    return abs(load.nominal_value)


def _help_notes(found: Sequence[Margin]) -> list[str]:
    over = [each for each in found if isinstance(each, Over)]
    if not over:
        return []
    return [f"What usually helps: {HELPS[over[0].limit.bounds]}."]


def _share_notes(share: Share | None) -> list[str]:
    if share is None or not share.outside:
        return []
    low = share.share.nominal_value < share.low
    word, way = ("low", "forward") if low else ("high", "back")
    return [
        f"Tongue share is {word} (customary {share.low:.0%}-{share.high:.0%}): move load {way}."
    ]


def _needs_notes(weights: Weights, found: Sequence[Margin]) -> list[str]:
    if weights.tongue is None and weights.session.road is not None:
        return ["A pass of the truck alone would give the tongue weight."]
    if weights.tongue is not None and weights.tongue.reads_low:
        return ["Tongue reads low with the bars on; a pass with them off puts that right."]
    return []


def _missing_notes(lacking: Sequence[Missing]) -> list[str]:
    if not lacking:
        return []
    names = list(dict.fromkeys(LIMITS[each.subject, each.rating] for each in lacking))
    return [f"Not given yet: {listed(names)}."]


def _left(margin: Margin, unit: str) -> str:
    if isinstance(margin, Unknown):
        return ""
    derived = margin.limit.bounds in DERIVED
    return _mass(margin.left, unit, derived=derived, absolute=True)


def _doubt(margin: Margin, unit: str) -> str:
    if isinstance(margin, Unknown):
        return ""
    return _uncertainty(margin.left, unit)


def _uncertainty(load: Measured, unit: str) -> str:
    doubt = _to(spread(load), unit)
    return rounded(Quantity(worth(doubt, doubt), unit))


def _with_doubt(load: Measured, unit: str) -> str:
    doubt = _to(spread(load), unit)
    return f"{_mass(load, unit, derived=True)} ±{number(worth(doubt, doubt), 0)}"


def _mass(load: Measured, unit: str, *, derived: bool = False, absolute: bool = False) -> str:
    value = _amount(load, unit)
    if derived:
        value = worth(value, _to(spread(load), unit))
    return rounded(Quantity(abs(value) if absolute else value, unit))


def _amount(load: Measured, unit: str) -> float:
    return _to(load.nominal_value, unit)


def _to(kilograms: float, unit: str) -> float:
    return Quantity(kilograms, "kg").amount(unit)


def ratings_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The ratings given so far, and those missing with why they matter."""
    rig = rig_of(log, now, truck=question.truck, trailer=question.trailer)
    rows = tuple(
        Row(
            sentence(" ".join(part for part in key if part).replace("_", " ")),
            figure(each.value) if isinstance(each.value, Quantity) else number(each.value),
        )
        for key, each in rig.ratings.items()
    )
    wanted = [key for key in WHY if key not in {each[:2] for each in rig.ratings}]
    return Answer(
        headline=f"{len(rows)} ratings given." if rows else "No ratings given yet.",
        rows=rows,
        notes=tuple(f"{sentence(LIMITS[key])} {WHY[key]}." for key in wanted[:4]),
    )


def when(weights: Weights, preferences: Preferences) -> str:
    """When a weighing was taken, in the logbook's own time."""
    return moment(weights.session.ended, preferences)
