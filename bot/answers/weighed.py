"""One weighing as it is told to a phone in the cold.

This file decides which figures of a weighing a person sees, in which order, and what is left
out so that it is short: the verdict, five rows of weights, the tightest margins, the notes
that matter, one caution. The arithmetic is `domain`'s; which weighing is meant, and what was
asked of it, is decided in `weights.py`.
"""

from __future__ import annotations

from collections.abc import Container, Sequence
from dataclasses import dataclass

from bot.answers.answer import Answer, Row
from bot.answers.language import marked, say, say_count
from bot.answers.limits import (
    BY_SOLO,
    CAUTION,
    STOP,
    STOP_SOLO,
    about_text,
    by_coupling,
    help_note,
    margin_rows,
    mass_text,
    missing_note,
    share_note,
    share_text,
    to_unit,
    unknown_note,
    unweighed_note,
    verdict,
    with_doubt,
)
from bot.answers.plain import as_text
from bot.answers.put_where import is_on_truck
from bot.answers.terms import term
from bot.answers.words import figure, listed, number, sentence
from bot.reference import references
from domain.bounds import NEEDS_AXLES, margins, tongue_share, unjudged
from domain.carried import Change
from domain.countries import Country, country_of
from domain.entries import SINGLE_AXLES, Cargo
from domain.log import Log, Preferences
from domain.margins import Margin, Near, Over, Share, Unknown, governing
from domain.passes import Session
from domain.rig import Rig, rig_of
from domain.uncertainty import Measured, spread
from domain.wanted import LOADED_BY, PLATES, Wanted, missing
from domain.weighing import Weights, imbalances, weigh

READS_LOW = marked("Tongue reads low with the bars on; a pass with them off puts that right.")
TOO_MUCH = marked("The bars lift the truck's rear beyond the steer axle's own weight; ease them.")
MISFIT = marked("The truck weighs less hitched than alone: not the same load. Reweigh both.")
BOARDED = marked(
    "Loaded on the truck between the passes: {loads}. The tongue is off by it; reweigh both."
)
DRIFT = marked("The load changed between bars on and off; the later pass counts. Reweigh both.")

LINES, LINES_OVER = 11, 13
LONGEST, LONGEST_NEAR, LONGEST_OVER = 500, 600, 650
"""Lines and characters that a weighing may take: with room, near a rating, over one."""

FEW = 3
"""Margins that are told where there is room; more only where they are over or near."""

MOST_MISSING = 2
"""Missing ratings that one line names; the rest are counted."""

WORTH_A_WORD = 9.0
"""A correction between passes below this many kilograms (a division) is not mentioned."""

LOPSIDED = 0.1
"""Sides or axles that differ by more than this share are pointed out; no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """One weighing with the rig that it was of, and its margins, tightest first."""

    rig: Rig
    weights: Weights
    margins: tuple[Margin, ...]
    changes: tuple[Change, ...]
    country: Country
    boarded: tuple[Cargo, ...] = ()
    """What was put on the truck between its pass alone and that of the rig."""

    @property
    def on_pin(self) -> bool:
        """Whether the trailer rests on a pin, and not on a ball."""
        return self.rig.coupling == "pin"

    @property
    def share(self) -> Share | None:
        """The tongue's share beside what is customary where it is towed."""
        return tongue_share(self.rig, self.weights, self.country)

    @property
    def missing(self) -> tuple[Wanted, ...]:
        """The ratings that bound something weighed and were never given."""
        return missing(self.rig, self.weights, self.country)

    @property
    def unjudged(self) -> tuple[Unknown, ...]:
        """The limits that bear on the rig as it stood, and could not be held to it."""
        return unjudged(self.weights.session, self.governing)

    @property
    def governing(self) -> tuple[Margin, ...]:
        """The margins without those that only say another over again."""
        return governing(self.margins)


def weighed(log: Log, preferences: Preferences, session: Session, trailer: str | None) -> Weighed:
    """A session with its passes brought together, held against the rig that it was of."""
    rig = rig_of(log, session.ended, trailer=trailer or session.trailer)
    weights, changes = weigh(log, session, rig, references().densities)
    found = margins(rig, weights, references().load_index)
    return Weighed(
        rig=rig,
        weights=weights,
        margins=found,
        changes=changes,
        country=country_of(preferences.currency),
        boarded=_boarded(log, weights),
    )


def short_answer(
    told: Weighed,
    unit: str,
    *,
    first: Sequence[str] = (),
    since: str = "",
    new: Container[str] = (),
) -> Answer:
    """A weighing in as many lines as are read in the cold.

    `first` are notes that come before all others; `since` is what changed; `new` are the loads
    that were weighed for the first time, whose missing ratings are named once.
    """
    over, near = (sum(isinstance(each, kind) for each in told.governing) for kind in (Over, Near))
    most = min(max(over, 1), FEW)
    notes = (*first, *_must_notes(told, unit))
    judging = judging_note(told, MOST_MISSING)
    wishes = (
        unknown_note(_unknown(told, axles=True)),
        *_imbalance_notes(told.weights, unit),
        "" if over or near else since,
        _missing_note(told, new),
        "" if over or near else judging,
        *[ONE_MORE_MARGIN] * (over + near - most),
        since if over or near else "",
        *(change_notes(told.changes, unit) if not over else ()),
        judging if over or near else "",
        *_lesser_notes(told),
        *[ONE_MORE_MARGIN] * (FEW - max(over + near, most)),
    )
    whole = _Whole(told, unit)
    answer = whole.cut(most, notes)
    while most > 1 and as_text(answer).count("\n") >= LINES_OVER:
        most -= 1
        answer = whole.cut(most, notes)
    for wish in filter(None, wishes):
        margin = wish == ONE_MORE_MARGIN
        longer = whole.cut(most + margin, notes if margin else (*notes, wish))
        if _fits(longer, over, near):
            answer = longer
            most, notes = (most + 1, notes) if margin else (most, (*notes, wish))
    return answer


ONE_MORE_MARGIN = "margin"
"""A wish for the next margin, among wishes for notes."""


class _Whole:
    """A weighing's lines, worded once, to be cut to length."""

    def __init__(self, told: Weighed, unit: str) -> None:
        self._governing = told.governing
        self._headline = headline(told, unit)
        self._weights = weight_rows(told, unit)
        self._margins = margin_rows(told.governing, unit)

    def cut(self, most: int, notes: Sequence[str]) -> Answer:
        """With so many margins, and these notes."""
        return Answer(
            headline=self._headline,
            rows=(*self._weights, *self._margins[:most]),
            notes=(*_rest_notes(self._governing, most), *notes, say(CAUTION)),
            urgent=any(isinstance(each, Over) for each in self._governing),
        )


def _fits(answer: Answer, over: int, near: int) -> bool:
    lines = LINES_OVER if over else LINES
    longest = LONGEST_OVER if over else LONGEST_NEAR if near > 1 else LONGEST
    text = as_text(answer)
    return text.count("\n") < lines and len(text) <= longest


def headline(told: Weighed, unit: str) -> str:
    """The verdict; the heaviest figure where no rating can be judged."""
    weights = told.weights
    said = verdict(told.governing, unit, stop=stop_of(weights), unjudged=len(told.unjudged))
    if said is not None:
        return said
    total = sentence(_total(weights, unit))
    if told.unjudged:
        return say("{load}. No rating given can be judged by that alone.", load=total)
    return say("{load}. No rating given to hold it against.", load=total)


def stop_of(weights: Weights) -> str:
    """Not to tow it like this, or not to drive it where only the truck was weighed."""
    hitched = weights.session.road or "trailer" in weights.session.passes
    return STOP if hitched else STOP_SOLO


def _total(weights: Weights, unit: str) -> str:
    name = next(
        (each for each in ("gross", "truck", "trailer", "tongue") if each in weights.loads),
        next(iter(weights.loads)),
    )
    return f"{term(name)} {mass_text(weights.loads[name], unit)}"


PARTS = {"truck": ("steer", "drive"), "trailer": SINGLE_AXLES}
"""Loads that are told beside the one that they make up."""


def weight_rows(told: Weighed, unit: str) -> tuple[Row, ...]:
    """What stood on the scale and what follows: gross, truck, trailer axles, tongue, bars."""
    weights = told.weights
    loads = weights.loads
    truck = ("truck",) if "truck" in loads else ("steer", "drive")
    gross = ("gross",) if weights.session.road or "truck" not in loads else ()
    rows = [
        Row(
            sentence(load_name(name, told.rig)),
            mass_text(loads[name], unit),
            _parts(weights, PARTS.get(name, ()), unit),
        )
        for name in (*gross, *truck, "trailer")
        if name in loads
    ]
    if weights.tongue is not None:
        figure = with_doubt(weights.tongue.load, unit)
        rows.append(Row(tongue_name(told.rig), figure, _of_trailer(weights, unit)))
    return (*rows, *bars_rows(weights, unit))


def load_name(name: str, rig: Rig) -> str:
    """What a load is called: one on the trailer's axles, or on the truck by its coupling."""
    if name == "trailer":
        return say("trailer axles")
    return tongue_name(rig).lower() if name == "tongue" else term(name)


def tongue_name(rig: Rig) -> str:
    """What rests on the truck is called by its coupling."""
    return say("Pin") if rig.coupling == "pin" else say("Tongue")


def _of_trailer(weights: Weights, unit: str) -> str:
    """The tongue's share, and the trailer's weight that it is of."""
    if weights.share is None or weights.trailer is None:
        return ""
    share = share_text(weights.share, doubt=False)
    return say(
        "{share} of {load}", share=share, load=mass_text(weights.trailer, unit, derived=True)
    )


def _parts(weights: Weights, names: Sequence[str], unit: str) -> str:
    known = [name for name in names if name in weights.loads]
    if len(known) < 2:
        return ""
    shown = [number(to_unit(weights.loads[name].nominal_value, unit), 0) for name in known]
    if known[0] in SINGLE_AXLES:
        return " + ".join(shown)
    return ", ".join(f"{term(name)} {value}" for name, value in zip(known, shown, strict=True))


def bars_rows(weights: Weights, unit: str) -> tuple[Row, ...]:
    """What the bars move to the trailer's axles, and how much of the steer axle comes back."""
    bars = weights.bars
    if bars is None:
        return ()
    remark = say("to trailer")
    if bars.restored is not None:
        percent = number(100 * bars.restored.nominal_value, 0)
        remark = say("to trailer; steer {percent} % restored", percent=percent)
    return (Row(say("Bars move"), mass_text(bars.to_trailer, unit, derived=True), remark),)


def _must_notes(told: Weighed, unit: str) -> list[str]:
    """What must be said with the figures, or they would mislead."""
    notes = [
        help_note(told.governing, told.share, pin=told.on_pin),
        *_doubt_notes(told.weights, unit),
        boarded_note(told.boarded),
        scaled_note(told.weights, unit),
        share_note(told.share, told.margins, pin=told.on_pin),
    ]
    return [each for each in notes if each]


def _boarded(log: Log, weights: Weights) -> tuple[Cargo, ...]:
    """What was put on the truck between the passes whose difference is the tongue."""
    passes = weights.session.passes
    if weights.tongue is None or weights.tongue.by != "difference" or "solo" not in passes:
        return ()
    road = weights.session.road
    if road is None:
        return ()
    first, last = sorted((passes["solo"].order, road.order))
    return tuple(
        each.entry
        for each in log.of(Cargo)
        if first < (each.at, each.key) < last and is_on_truck(each.entry)
    )


def boarded_note(boarded: Sequence[Cargo]) -> str:
    """That what was put on the truck between the passes is in the tongue; '' where nothing was."""
    loads = listed([f"{each.item} {figure(each.value)}" for each in boarded])
    return say(BOARDED, loads=loads) if boarded else ""


def _unknown(told: Weighed, *, axles: bool) -> list[Unknown]:
    """Limits that want a fact: how many axles there are, of which one alone is over, or others."""
    unknown = [each for each in told.governing if isinstance(each, Unknown)]
    return [each for each in unknown if (each.needs == NEEDS_AXLES) is axles]


def _lesser_notes(told: Weighed) -> list[str]:
    """What is worth a line where there is room for it."""
    weights = told.weights
    solo = (
        weights.tongue is None
        and weights.misfit is None
        and weights.session.road is not None
        and not judging_note(told)
    )
    return [
        say(by_coupling(BY_SOLO, pin=told.on_pin)) if solo else "",
        unknown_note(_unknown(told, axles=False)) if weights.session.road else "",
    ]


def judging_note(told: Weighed, most: int | None = None) -> str:
    """Which pass would judge what could not be; '' where the passes don't fit each other."""
    if told.weights.misfit is not None:
        return ""
    tongue = told.weights.tongue is None
    return unweighed_note(told.unjudged, most, tongue=tongue, pin=told.on_pin)


def _missing_note(told: Weighed, new: Container[str]) -> str:
    """All missing ratings: with a load weighed for the first time, else only where it matters.

    It matters where the answer says that everything is inside, and a label was not given.
    """
    pressed = any(isinstance(each, Over | Near) for each in told.governing)
    found = told.missing
    # Of a tongue by itself nothing else can be said.
    alone = set(told.weights.loads) == {"tongue"}
    matters = alone or any(
        LOADED_BY[each] in new or (each in PLATES and not pressed) for each in found
    )
    return missing_note(found, MOST_MISSING) if matters else ""


def _rest_notes(found: Sequence[Margin], most: int) -> list[str]:
    """The margins that were not listed, counted, with how many of them are over or near."""
    rest = [each for each in found if not isinstance(each, Unknown)][most:]
    over = sum(isinstance(each, Over) for each in rest)
    near = sum(isinstance(each, Near) for each in rest)
    if not rest:
        return []
    counts = [
        *([say("{count} over", count=over)] if over else []),
        *([say("{count} near", count=near)] if near else []),
    ]
    if not counts:
        more = say_count(
            "{count} more rating with more room; text margins for all.",
            "{count} more ratings with more room; text margins for all.",
            len(rest),
        )
        return [more]
    more = say_count(
        "{count} more rating, {counts}; text margins for all.",
        "{count} more ratings, {counts}; text margins for all.",
        len(rest),
        counts=listed(counts),
    )
    return [more]


def change_notes(changes: Sequence[Change], unit: str) -> list[str]:
    """Fuel and people put right between passes, where it is more than a scale's division."""
    parts = [
        f"{what} {about_text(largest, unit)}"
        for what, each in (
            (say("fuel"), [change.fuel for change in changes]),
            (say("people"), [change.people for change in changes]),
        )
        if each and _size(largest := max(each, key=_size)) > WORTH_A_WORD
    ]
    return [say("Passes corrected: {parts}.", parts=", ".join(parts))] if parts else []


def _size(load: Measured) -> float:
    return abs(load.nominal_value)


def scaled_note(weights: Weights, unit: str) -> str:
    """What the tongue's own scale read, where the tongue is told as the axles make it."""
    tongue = weights.tongue
    if tongue is None or tongue.scaled is None:
        return ""
    load = mass_text(tongue.scaled, unit)
    if tongue.at_odds:
        return say(
            "The tongue's own scale read {load}, the axles say otherwise; reweigh both.", load=load
        )
    return say("The tongue's own scale read {load}.", load=load)


def _imbalance_notes(weights: Weights, unit: str) -> list[str]:
    worst = max(imbalances(weights), key=lambda each: each.share, default=None)
    if worst is None or worst.share <= LOPSIDED:
        return []
    return [
        say(
            "{heavy} carries {load} more than {light}.",
            heavy=sentence(term(worst.heavy)),
            load=mass_text(worst.by, unit),
            light=term(worst.light),
        )
    ]


def odds_note(weights: Weights, unit: str) -> str:
    """What the axles make and the gross reads, where no scale explains both; else ''."""
    if weights.at_odds is None:
        return ""
    axles, gross = weights.at_odds
    return say(
        "The axles make {axles}, the gross reads {gross}; correct the wrong one.",
        axles=mass_text(axles, unit),
        gross=mass_text(gross, unit),
    )


def _doubt_notes(weights: Weights, unit: str) -> list[str]:
    """What is wrong with the passes, or with the bars."""
    notes = [say(DRIFT)] if weights.drift is not None else []
    notes += filter(None, [odds_note(weights, unit)])
    if weights.misfit is not None:
        return [*notes, say(MISFIT)]
    restored = weights.bars.restored if weights.bars else None
    if restored is not None and restored.nominal_value - spread(restored) > 1:
        notes.append(say(TOO_MUCH))
    if weights.tongue is not None and weights.tongue.reads_low:
        notes.append(say(READS_LOW))
    return notes
