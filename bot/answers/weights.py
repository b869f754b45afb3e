"""Answers about weight: what stood on the scale, what is left, what the tongue carries.

This file decides which figures of a weighing a person sees and in which order. The
arithmetic is `domain`'s. An answer leads with a limit that is exceeded, else with the
tightest one, and never calls a rig safe: it is inside every rating given, or it is not.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bot.answers.answer import Answer, Row
from bot.answers.limits import (
    CAUTION,
    HELPS,
    LONGEST,
    MOST_MARGINS,
    STOP,
    STOP_SOLO,
    about_text,
    length,
    limit_name,
    margin_row,
    margin_rows,
    mass_text,
    missing_note,
    share_note,
    share_text,
    to_unit,
    told,
    unknown_note,
    verdict,
    with_doubt,
)
from bot.answers.words import counted, figure, listed, moment, number, sentence
from bot.reference import references
from domain.bounds import load_of, margins, missing, tongue_share
from domain.carried import Change, corrected
from domain.context import MASS_UNIT
from domain.entries import SINGLE_AXLES, Cargo, Weighing
from domain.log import Log, Logged, Preferences
from domain.margins import Margin, Over, Share, Unknown
from domain.passes import Session, latest_session, session_of
from domain.rig import Rig, rig_of
from domain.uncertainty import Measured, spread
from domain.verdicts import Question
from domain.weighing import Weights, imbalances, weights_of

NO_WEIGHING = Answer(
    headline="No weighing yet.",
    notes=("Text the scale's figures, such as: steer 5280 drive 6940 trailer 9840.",),
)
NEEDS_SOLO = "A pass of the truck alone would give the tongue weight."
READS_LOW = "Tongue reads low with the bars on; a pass with them off puts that right."
PAYLOAD = "Payload goes with truck GVWR until the curb weight is given."
TOO_MUCH = "The bars lift the truck's rear beyond the steer axle's own weight; ease them."
MISFIT = (
    "Alone the truck weighs more than hitched: those passes don't belong together. Reweigh both."
)
DRIFT = "Bars on and bars off differ in gross by more than the scale explains; reweigh."

WORTH_A_WORD = 9.0
"""A correction between passes below this many kilograms (a division) is not mentioned."""

LOPSIDED = 0.1
"""Sides or axles that differ by more than this share are pointed out; no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """The last weighing with the rig that it was of, and its margins, tightest first."""

    rig: Rig
    weights: Weights
    margins: tuple[Margin, ...]
    changes: tuple[Change, ...]


def last_weighed(log: Log, trailer: str | None) -> Weighed | None:
    """The last weighing, of that trailer where one is named; None where there is none."""
    session = latest_session(log, trailer)
    return None if session is None else _weighed(log, session, trailer)


def _weighed(log: Log, session: Session, trailer: str | None) -> Weighed:
    rig = rig_of(log, session.ended, trailer=trailer or session.trailer)
    session, changes = corrected(log, session, rig, references().densities)
    weights = weights_of(session)
    found = margins(rig, weights, references().load_index)
    return Weighed(rig=rig, weights=weights, margins=found, changes=changes)


def weighing_answer(
    log: Log, preferences: Preferences, now: datetime, logged_weighing: Logged[Weighing]
) -> Answer:
    """What to say to a weighing just kept: its weights, margins, and the ratings missing.

    One that is entered late is answered with the passes of its own day.
    """
    session = session_of(log, logged_weighing)
    if session is None:
        return NO_WEIGHING
    return _full(_weighed(log, session, logged_weighing.entry.trailer), preferences)


def weight_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What the rig weighs: the load asked for, or all of the last weighing."""
    weighed = last_weighed(log, question.trailer)
    if weighed is None:
        return NO_WEIGHING
    since = _since_notes(log, weighed.weights.session, preferences)
    load = load_of(weighed.weights, LOADS.get(question.field or "", question.field or ""))
    if load is None:
        return _full(weighed, preferences, since)
    return Answer(
        headline=f"{_load_name(question.field or '')} {mass_text(load, _unit(preferences))}.",
        rows=margin_rows(_asked(weighed, question), _unit(preferences)),
        notes=since,
    )


LOADS = {"trailer": "trailer weight"}
"""What a question about a load means, where the scale's word means less."""


def _load_name(field: str) -> str:
    return sentence(field).replace("_", " ")


def _unit(preferences: Preferences) -> str:
    return MASS_UNIT[preferences.units]


def _since_notes(log: Log, session: Session, preferences: Preferences) -> tuple[str, ...]:
    """When it was weighed, and what was loaded since and is in no figure."""
    cargo = [each.entry for each in log.of(Cargo) if each.at > session.ended]
    loaded = [f"{each.item} {figure(each.value)}" for each in cargo]
    note = f"Loaded since, and not counted: {listed(loaded[-3:])}." if loaded else ""
    return tuple(filter(None, (f"Weighed {moment(session.ended, preferences)}.", note)))


FIELDS = {"truck": ("truck", "payload"), "trailer": ("trailer", "trailer weight", *SINGLE_AXLES)}
"""Loads that a question about a field means; any other field means itself."""


def margin_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What is left to every rating, or to the one asked about."""
    weighed = last_weighed(log, question.trailer)
    if weighed is None:
        return NO_WEIGHING
    unit = _unit(preferences)
    asked = _asked(weighed, question)
    if not asked:
        since = _since_notes(log, weighed.weights.session, preferences)
        return _full(weighed, preferences, since)
    over = any(isinstance(each, Over) for each in told(weighed.margins))
    rest = "" if over == isinstance(asked[0], Over) else _elsewhere(told(weighed.margins))
    by_label = PAYLOAD if any(each.limit.by_label for each in asked) else ""
    row = margin_row(asked[0], unit)
    return Answer(
        headline=f"{row.label}: {row.figure} {row.remark}." + (f" {STOP}" if over else ""),
        rows=margin_rows(asked[1:], unit),
        notes=tuple(filter(None, (rest, by_label, CAUTION))),
    )


def _asked(weighed: Weighed, question: Question) -> tuple[Margin, ...]:
    """The margins that a question names, by rating or by load."""
    field = question.field or ""
    loads = FIELDS.get(field, (field,))
    return tuple(
        each
        for each in weighed.margins
        if each.limit.rating == question.rating or each.limit.bounds in loads
    )


def _bounding(found: Sequence[Margin], loads: Sequence[str]) -> tuple[Margin, ...]:
    return tuple(each for each in found if each.limit.bounds in loads)


def _elsewhere(found: Sequence[Margin]) -> str:
    over = [limit_name(each) for each in found if isinstance(each, Over)]
    return f"But over on {listed(over[:3])}." if over else ""


def tongue_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """Tongue or pin weight and its share, or what is needed to know them."""
    weighed = last_weighed(log, question.trailer)
    if weighed is None:
        return NO_WEIGHING
    weights, unit = weighed.weights, _unit(preferences)
    if weights.tongue is None:
        why = NEEDS_SOLO if weights.misfit is None else MISFIT
        return Answer(headline="The tongue hasn't been weighed.", notes=(why,))
    share = tongue_share(weighed.rig, weights)
    of = f", {share_text(share.share)} of the trailer" if share else ""
    notes = [
        *_change_notes(weighed.changes, unit),
        share_note(share),
        *((READS_LOW,) if weights.tongue.reads_low else ()),
    ]
    return Answer(
        headline=f"{_tongue_name(weighed.rig)} {with_doubt(weights.tongue.load, unit)}{of}.",
        rows=(
            *_bars_rows(weights, unit),
            *margin_rows(_bounding(weighed.margins, ("tongue",)), unit),
        ),
        notes=tuple(filter(None, (*notes, _customary(share), CAUTION))),
    )


def _tongue_name(rig: Rig) -> str:
    return "Pin" if rig.coupling == "pin" else "Tongue"


def _customary(share: Share | None) -> str:
    return "" if share is None else f"Customary is {100 * share.low:.0f}-{100 * share.high:.0f} %."


def _full(weighed: Weighed, preferences: Preferences, first: Sequence[str] = ()) -> Answer:
    """All of a weighing, with notes that come before all others."""
    return _fitted(weighed, _unit(preferences), tuple(first), MOST_MARGINS)


def _fitted(weighed: Weighed, unit: str, first: tuple[str, ...], most: int) -> Answer:
    """With as many margins as a short answer holds; at the last, without the lesser notes."""
    notes = _notes(weighed, unit) if most > 1 else _help_notes(told(weighed.margins))
    answer = _listing(weighed, unit, most, (*first, *notes))
    if most == 1 or length(answer) <= LONGEST:
        return answer
    return _fitted(weighed, unit, first, most - 1)


def _listing(weighed: Weighed, unit: str, most: int, notes: Sequence[str]) -> Answer:
    weights = weighed.weights
    stop = STOP if weights.session.road or "trailer" in weights.session.passes else STOP_SOLO
    headline = verdict(told(weighed.margins), unit, stop=stop) or (
        f"{sentence(_total(weights, unit))}. No rating given to hold it against."
    )
    return Answer(
        headline=headline,
        rows=(
            *weight_rows(weighed.rig, weights, unit),
            *_bars_rows(weights, unit),
            *margin_rows(told(weighed.margins), unit, most),
        ),
        notes=(*notes, *_rest_notes(told(weighed.margins)[most:]), CAUTION),
    )


def _total(weights: Weights, unit: str) -> str:
    name = next(
        (each for each in ("gross", "truck", "trailer", "tongue") if each in weights.loads),
        next(iter(weights.loads)),
    )
    return f"{name.replace('_', ' ')} {mass_text(weights.loads[name], unit)}"


PARTS = {"truck": ("steer", "drive"), "trailer": SINGLE_AXLES}
"""Loads that are told beside the one that they make up."""


def weight_rows(rig: Rig, weights: Weights, unit: str) -> tuple[Row, ...]:
    """What stood on the scale and what follows: gross, truck, trailer axles, trailer, tongue."""
    loads = weights.loads
    truck = ("truck",) if "truck" in loads else ("steer", "drive")
    gross = ("gross",) if weights.session.road or "truck" not in loads else ()
    rows = [
        Row(
            "Trailer axles" if name == "trailer" else sentence(name),
            mass_text(loads[name], unit),
            _parts(weights, PARTS.get(name, ()), unit),
        )
        for name in (*gross, *truck, "trailer")
        if name in loads
    ]
    if weights.trailer is not None and weights.session.road is not None:
        rows.append(Row("Trailer", mass_text(weights.trailer, unit, derived=True), "with tongue"))
    if weights.tongue is not None:
        share = weights.share
        of = f"{share_text(share)} of the trailer" if share is not None else ""
        rows.append(Row(_tongue_name(rig), with_doubt(weights.tongue.load, unit), of))
    return tuple(rows)


def _parts(weights: Weights, names: Sequence[str], unit: str) -> str:
    known = [name for name in names if name in weights.loads]
    if len(known) < 2:
        return ""
    shown = [number(to_unit(weights.loads[name].nominal_value, unit), 0) for name in known]
    if known[0] in SINGLE_AXLES:
        return " + ".join(shown)
    return ", ".join(f"{name} {value}" for name, value in zip(known, shown, strict=True))


def _bars_rows(weights: Weights, unit: str) -> tuple[Row, ...]:
    bars = weights.bars
    if bars is None:
        return ()
    remark = "to the trailer's axles"
    if bars.restored is not None:
        restored = number(100 * bars.restored.nominal_value, 0)
        remark += f"; {restored} % of the steer axle restored"
    return (Row("Bars move", mass_text(bars.to_trailer, unit, derived=True), remark),)


def _notes(weighed: Weighed, unit: str) -> tuple[str, ...]:
    weights, found = weighed.weights, told(weighed.margins)
    notes = [
        *_help_notes(found),
        share_note(tongue_share(weighed.rig, weights)),
        *_imbalance_notes(weights, unit),
        *_change_notes(weighed.changes, unit),
        *_needs_notes(weights),
    ]
    if len(told(weighed.margins)) < len(weighed.margins):
        notes.append(PAYLOAD)
    notes.append(unknown_note(found) if weights.session.road else "")
    notes.append(missing_note(missing(weighed.rig, weights)))
    return tuple(filter(None, notes))


def _rest_notes(rest: Sequence[Margin]) -> list[str]:
    """The margins that were not listed, counted, with how many of them are over."""
    judged = [each for each in rest if not isinstance(each, Unknown)]
    over = sum(isinstance(each, Over) for each in judged)
    more = counted(len(judged), "more rating")
    if over:
        return [f"{more}, {over} of them over."]
    return [f"{more} with more room."] if judged else []


def _change_notes(changes: Sequence[Change], unit: str) -> list[str]:
    """Fuel and people put right between passes, where it is more than a scale's division."""
    parts = [
        f"{about_text(largest, unit)} of {what}"
        for what, each in (
            ("fuel", [change.fuel for change in changes]),
            ("people", [change.people for change in changes]),
        )
        if each and _size(largest := max(each, key=_size)) > WORTH_A_WORD
    ]
    return [f"Corrected between passes: {listed(parts)}."] if parts else []


def _size(load: Measured) -> float:
    return abs(load.nominal_value)


def _help_notes(found: Sequence[Margin]) -> list[str]:
    over = [each for each in found if isinstance(each, Over)]
    helps = dict.fromkeys(HELPS[each.limit.bounds] for each in over)
    return [f"What usually helps: {'; '.join(list(helps)[:2])}."] if helps else []


def _imbalance_notes(weights: Weights, unit: str) -> list[str]:
    worst = max(imbalances(weights), key=lambda each: each.share, default=None)
    if worst is None or worst.share <= LOPSIDED:
        return []
    return [
        f"{sentence(worst.heavy.replace('_', ' '))} carries {mass_text(worst.by, unit)} more than "
        f"{worst.light.replace('_', ' ')}."
    ]


def _needs_notes(weights: Weights) -> list[str]:
    notes = [DRIFT] if weights.drift is not None else []
    if weights.misfit is not None:
        return [*notes, MISFIT]
    restored = weights.bars.restored if weights.bars else None
    if restored is not None and restored.nominal_value - spread(restored) > 1:
        notes.append(TOO_MUCH)
    if weights.tongue is None and weights.session.road is not None:
        return [*notes, NEEDS_SOLO]
    if weights.tongue is not None and weights.tongue.reads_low:
        return [*notes, READS_LOW]
    return notes
