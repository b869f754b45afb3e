"""How limits, margins and loads are named and written, wherever they appear.

This file decides what each rating is called, why it matters and where it stands, what
usually helps when it is exceeded, and how many digits of a load are worth writing. It does
not know which of them an answer shows.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import assert_never

from bot.answers.answer import Row
from bot.answers.examples import DUAL_TYRES
from bot.answers.language import marked, say, say_count
from bot.answers.terms import term
from bot.answers.words import listed, number, rounded, sentence
from bot.phrasebook import asked_words
from domain.asked_words import first_said
from domain.bounds import FACTS, NEEDS_SOLO, NEEDS_WHEELS
from domain.entries import SINGLE_AXLES
from domain.margins import (
    Clear,
    Limit,
    Margin,
    Near,
    Over,
    Share,
    Unknown,
    share_allowed,
    too_close,
)
from domain.quantities import Quantity
from domain.rig import HITCH_CHAIN, Key
from domain.uncertainty import Measured, spread, worth
from domain.verdicts import Question
from domain.wanted import Wanted


@dataclass(frozen=True, slots=True)
class Told:
    """A rating in words: its name, why it matters, where it is written."""

    name: str
    why: str
    where: str


DOOR, PLATE = marked("door label"), marked("data plate on its frame")
MANUAL, SIDEWALL = marked("owner's manual or towing guide"), marked("load index on the sidewall")
PLACARD, STAMP = marked("tyre placard"), marked("stamped on each part")
RATINGS: Mapping[Wanted, Told] = {
    ("truck", "gvwr"): Told(marked("truck GVWR"), marked("bounds the loaded truck"), DOOR),
    ("truck", "gcwr"): Told(marked("GCWR"), marked("bounds truck and trailer together"), MANUAL),
    ("truck", "gawr_front"): Told(
        marked("front axle's GAWR"), marked("bounds the steer axle"), DOOR
    ),
    ("truck", "gawr_rear"): Told(marked("rear axle's GAWR"), marked("bounds the drive axle"), DOOR),
    ("truck", "payload"): Told(
        marked("payload"), marked("bounds people, cargo and tongue"), PLACARD
    ),
    ("truck", "tow"): Told(
        marked("truck's tow rating"), marked("bounds the trailer's weight"), MANUAL
    ),
    ("trailer", "gvwr"): Told(marked("trailer GVWR"), marked("bounds the loaded trailer"), PLATE),
    ("trailer", "gawr"): Told(
        marked("trailer axles' GAWR"), marked("bounds each trailer axle"), PLATE
    ),
    ("hitch", "tow"): Told(marked("hitch rating"), marked("bounds the pull"), STAMP),
    ("hitch", "tongue"): Told(
        marked("hitch's tongue rating"), marked("bounds the tongue"), marked("receiver's label")
    ),
    ("trailer tyres", "load"): Told(
        marked("trailer tyres"), marked("bound the trailer's axles"), SIDEWALL
    ),
    ("truck tyres", "load"): Told(
        marked("truck tyres"), marked("bound the truck's axles"), SIDEWALL
    ),
}
"""Every rating that is wanted, in words."""

LIMITS = {
    ("truck", "gawr_front"): marked("steer axle"),
    ("truck", "gawr_rear"): marked("drive axle"),
    ("trailer", "gawr"): marked("trailer axle"),
    ("trailer", "gtm"): marked("trailer GTM"),
    ("hitch", "tow"): marked("hitch"),
    ("hitch", "tongue"): marked("hitch tongue"),
    ("truck", "tow"): marked("tow rating"),
    ("truck", "tongue"): marked("truck's tongue rating"),
    ("trailer", "tongue"): marked("trailer's tongue rating"),
    ("truck tyres", "front"): marked("front tyres"),
    ("truck tyres", "rear"): marked("rear tyres"),
}
"""What a limit is called beside its load, where that is not the rating's own name; a part of
the hitch chain goes by the part's name."""

LIMITS_OF_A_PIN = {
    ("hitch", "tongue"): marked("hitch pin"),
    ("truck", "tongue"): marked("truck's pin rating"),
    ("trailer", "tongue"): marked("trailer's pin rating"),
}
"""What a limit of the tongue is called where a pin rests on the truck."""

SEVERAL = {("trailer", "gawr"): marked("trailer axles")}
"""What a limit is called that several of a kind bear together."""

ON_SIDE = {"left": marked("{limit} on the left"), "right": marked("{limit} on the right")}
"""What the half of an axle's tyres is called that bears more than the other."""

LESS_BED = marked("take load out of the bed")
LESS_TRUCK = marked("take load out of the bed, or off the tongue")
LESS_TRAILER = marked("drain water tanks, unload some, or make a second trip")
BETWEEN_AXLES = marked("move load between the trailer's axles, or take some off")
HELPS = {
    "steer": marked("move load back in the bed, and have the hitch set up again"),
    "drive": marked("move trailer load back a little or bed load forward, or leave some behind"),
    "truck": LESS_TRUCK,
    "gross": marked("leave load behind, or make a second trip"),
    "trailer": LESS_TRAILER,
    "trailer_1": BETWEEN_AXLES,
    "trailer_2": BETWEEN_AXLES,
    "trailer_3": BETWEEN_AXLES,
    "trailer weight": LESS_TRAILER,
    "coupling": LESS_TRAILER,
    "tongue": marked("move trailer load back a little, but keep the share in its range"),
    "payload": LESS_TRUCK,
}
"""What usually helps when a load is over; common practice, no source."""

OTHER_SIDE = marked("move load to the other side, or take some off")
HELPS_A_LIGHT_TONGUE = {
    "drive": marked("move bed load forward, or leave some behind"),
    "tongue": marked("leave trailer load behind; moved back, it may sway"),
    "truck": LESS_BED,
    "payload": LESS_BED,
}
"""The same where the tongue's share has none to give."""

NONE_TO_GIVE = 0.01
"""A share above the foot of its range by less than this gives none away."""

DERIVED = ("tongue", "trailer weight", "payload")
"""Loads that are differences of readings, and are rounded to what they are good for."""

CAUTION = marked("Door label, manual, local law and a licensed mechanic govern.")
STOP = marked("Don't tow it like this.")
STOP_SOLO = marked("Don't drive it like this.")


def verdict(
    found: Sequence[Margin],
    unit: str,
    *,
    derived: bool = False,
    stop: str = STOP,
    unjudged: int = 0,
) -> str | None:
    """The headline that the margins give; None where no rating can be judged.

    `derived` where the loads were worked out, so that no figure is written finer than it is;
    `unjudged` is how many of the limits given bear on the rig and could not be held to it.
    """
    over = [each for each in found if isinstance(each, Over)]
    if over:
        return f"{_over(over, unit, derived)} {say(stop)}"
    tightest = next((each for each in found if not isinstance(each, Unknown)), None)
    if tightest is None:
        return None
    limit, left = limit_name(tightest), left_text(tightest, unit, derived)
    if too_close(tightest):
        return say(
            "Too close to call: {limit}, {left} left, good only to ±{doubt}.",
            limit=limit,
            left=left,
            doubt=_doubt(tightest, unit),
        )
    if isinstance(tightest, Near):
        return say("Close: {limit}, {left} left.", limit=limit, left=left)
    if unjudged:
        return say_count(
            "Inside every rating that could be judged; {count} could not. "
            "Tightest: {limit}, {left} left.",
            "Inside every rating that could be judged; {count} could not. "
            "Tightest: {limit}, {left} left.",
            unjudged,
            limit=limit,
            left=left,
        )
    return say("Inside every rating given. Tightest: {limit}, {left} left.", limit=limit, left=left)


def _over(over: Sequence[Over], unit: str, derived: bool) -> str:
    named = over_text(over, unit, derived)
    if all(too_close(each) for each in over):
        # The ticket is what a weigh officer reads, so that a doubtful overload is an overload.
        return say("Over, if barely: {limits}. Count it as over.", limits=named)
    return say("Over: {limits}.", limits=named)


def over_text(over: Sequence[Over], unit: str, derived: bool = False) -> str:
    """Limits that are over, and by how much: two by name, the rest counted."""
    names = [
        say("{limit} by {over}", limit=limit_name(each), over=left_text(each, unit, derived))
        for each in over[:2]
    ]
    return listed([*names, more(len(over) - 2)] if len(over) > 2 else names)


def more(count: int) -> str:
    """How many are not named: `2 more`."""
    return say_count("{count} more", "{count} more", count)


def margin_rows(
    found: Sequence[Margin], unit: str, most: int | None = None, *, derived: bool = False
) -> tuple[Row, ...]:
    """A row for each judged margin, or for so many of them, the tightest first."""
    judged = [each for each in found if not isinstance(each, Unknown)]
    return tuple(margin_row(each, unit, derived) for each in judged[:most])


def margin_row(margin: Margin, unit: str, derived: bool = False) -> Row:
    """One margin: its name, what is left or over, and of what."""
    name, of = sentence(limit_name(margin)), say("of {limit}", limit=limit_text(margin, unit))
    match margin:
        case Over():
            return Row(name, room_text(margin, unit, derived), of)
        case Near():
            remark = say("too close to call") if too_close(margin) else say("near")
            return Row(name, room_text(margin, unit, derived), f"{of}, {remark}")
        case Clear():
            return Row(name, room_text(margin, unit, derived), of)
        case Unknown(_, needs):
            wants = say("needs {wanting}", wanting=term(needs))
            return Row(name, say("not weighed"), f"{of}; {wants}")
    assert_never(margin)


def room_text(margin: Over | Near | Clear, unit: str, derived: bool = False) -> str:
    """How far the load is from the limit, and on which side: `320 lb over`, `500 lb left`."""
    amount = left_text(margin, unit, derived)
    if isinstance(margin, Over):
        return say("{amount} over", amount=amount)
    return say("{amount} left", amount=amount)


def limit_name(margin: Margin) -> str:
    """What a limit is called in a sentence; that of one side, by the axle's and the side."""
    limit = margin.limit
    axle, _, side = limit.bounds.rpartition("_")
    if side in ON_SIDE:
        return say(ON_SIDE[side], limit=_axle_limit(replace(limit, bounds=axle)))
    return _axle_limit(limit)


def _axle_limit(limit: Limit) -> str:
    if limit.bounds in SINGLE_AXLES:
        if limit.subject == "trailer tyres":
            return say("tyres of trailer axle {number}", number=limit.bounds[-1])
        return say("trailer axle {number}", number=limit.bounds[-1])
    if limit.count > 1 and (limit.subject, limit.rating) in SEVERAL:
        return say(SEVERAL[limit.subject, limit.rating])
    part = term(limit.subject)
    if limit.pin:
        of_pin = LIMITS_OF_A_PIN.get((limit.subject, limit.rating))
        return say(of_pin) if of_pin else say("{part} pin", part=part)
    name = limit_words((limit.subject, limit.rating))
    if name is not None:
        return name
    if limit.unit == "kN":
        return say("{part} {letter} value", part=part, letter=limit.rating.capitalize())
    return say("{part} tongue", part=part) if limit.rating == "tongue" else part


def limit_words(key: Wanted) -> str | None:
    """What a rating is called as a limit; None for a part that goes by its own name."""
    words = LIMITS.get(key) or (RATINGS[key].name if key in RATINGS else None)
    return None if words is None else say(words)


def tyres_name(key: Key) -> str | None:
    """What a truck's tyres are called that a rating was given for by their end."""
    subject, _, end = key
    return limit_words((subject, end)) if subject == "truck tyres" and end else None


def limit_text(margin: Margin, unit: str) -> str:
    """The rating itself, as a figure."""
    if margin.limit.unit == "kN":
        return f"{number(margin.limit.value, 1)} kN"
    return kilograms_text(margin.limit.value, unit)


def left_text(margin: Over | Near | Clear, unit: str, derived: bool = False) -> str:
    """How far the load is from the limit, without a sign."""
    if margin.limit.unit == "kN":
        return f"{number(abs(margin.left.nominal_value), 1)} kN"
    derived = derived or margin.limit.bounds in DERIVED
    return mass_text(margin.left, unit, derived=derived, absolute=True)


def _doubt(margin: Over | Near | Clear, unit: str) -> str:
    if margin.limit.unit == "kN":
        return f"{number(spread(margin.left), 1)} kN"
    doubt = to_unit(spread(margin.left), unit)
    return rounded(Quantity(worth(doubt, doubt), unit))


def mass_text(
    load: Measured, unit: str, *, derived: bool = False, absolute: bool = False, sign: bool = False
) -> str:
    """A load in the logbook's unit; a derived one rounded to what it is good for."""
    value = to_unit(load.nominal_value, unit)
    if derived:
        value = worth(value, to_unit(spread(load), unit))
    text = rounded(Quantity(abs(value) if absolute else value, unit))
    return f"+{text}" if sign and not text.startswith("-") else text


def kilograms_text(kilograms: float, unit: str) -> str:
    """A mass as it stands, in the logbook's unit."""
    return rounded(Quantity(kilograms, "kg").to(unit))


def about_text(load: Measured, unit: str) -> str:
    """A mass that only wants a rough figure: to the ten, without a sign."""
    return rounded(Quantity(round(abs(to_unit(load.nominal_value, unit)), -1), unit))


def with_doubt(load: Measured, unit: str) -> str:
    """A derived load with its uncertainty: `1,150 lb ±80`."""
    doubt = to_unit(spread(load), unit)
    return f"{mass_text(load, unit, derived=True)} ±{number(worth(doubt, doubt), 0)}"


def share_text(share: Measured, *, doubt: bool = True) -> str:
    """A share, to the tenth only where it is worth it, with its uncertainty: `10.5 % ±0.6`."""
    value, good = 100 * share.nominal_value, 100 * spread(share)
    places = 0 if good >= 2 else 1
    text = f"{number(value, places)} %"
    return f"{text} ±{number(max(good, 10.0**-places), places)}" if doubt else text


def to_unit(kilograms: float, unit: str) -> float:
    """A mass in the logbook's unit."""
    return Quantity(kilograms, "kg").amount(unit)


HIGH = marked("Tongue share is high. Move trailer load back.")
LOW = marked("Tongue share is low: it may sway.")
LOW_FORWARD = marked("Tongue share is low: it may sway. Move trailer load forward.")
LOW_SO_FAR = marked(
    "Tongue share is low: it may sway. Move trailer load forward, no further than the tongue's"
    " rating allows."
)
BY_SOLO = marked("A pass of the truck alone would give the tongue weight.")
SOLO_JUDGES = marked("a pass of the truck alone would give the tongue weight, and judge {limits}")
UNWEIGHED = marked("The tongue hasn't been weighed.")
OF_A_PIN = {
    BY_SOLO: marked("A pass of the truck alone would give the pin weight."),
    SOLO_JUDGES: marked("a pass of the truck alone would give the pin weight, and judge {limits}"),
    UNWEIGHED: marked("The pin hasn't been weighed."),
    LESS_TRUCK: marked("take load out of the bed, or off the pin"),
    HIGH: marked("Pin share is high. Move trailer load back."),
    LOW: marked("Pin share is low: it may sway."),
    LOW_FORWARD: marked("Pin share is low: it may sway. Move trailer load forward."),
    LOW_SO_FAR: marked(
        "Pin share is low: it may sway. Move trailer load forward, no further than the pin's"
        " rating allows."
    ),
}
"""What is said of a tongue, and the same of a trailer on a pin."""


def by_coupling(message: str, *, pin: bool) -> str:
    """A message about the tongue, or the same of a pin."""
    return OF_A_PIN.get(message, message) if pin else message


def share_note(share: Share | None, found: Sequence[Margin], *, pin: bool) -> str:
    """What to move where the tongue share is out of its customary range; '' where it is not.

    Never so much of it forward that the tongue would be over one of its own ratings.
    """
    if share is None or not share.outside:
        return ""
    note = HIGH if share.is_high else _when_low(share, found)
    return say(by_coupling(note, pin=pin))


def _when_low(share: Share, found: Sequence[Margin]) -> str:
    allowed = share_allowed(share, found)
    if allowed >= share.custom.low:
        return LOW_FORWARD
    return LOW_SO_FAR if allowed > share.share.nominal_value else LOW


def help_note(found: Sequence[Margin], share: Share | None, *, pin: bool) -> str:
    """What usually helps with the worst that is over, never against the tongue's share."""
    worst = next((each for each in found if isinstance(each, Over)), None)
    if worst is None:
        return ""
    light = share is not None and share.share.nominal_value < share.custom.low + NONE_TO_GIVE
    bounds = worst.limit.bounds
    if bounds.rpartition("_")[2] in ON_SIDE:
        return say("What usually helps: {advice}.", advice=say(OTHER_SIDE))
    helps = HELPS_A_LIGHT_TONGUE.get(bounds) if light else None
    advice = by_coupling(helps or HELPS[bounds], pin=pin)
    return say("What usually helps: {advice}.", advice=say(advice))


def unknown_note(found: Sequence[Margin]) -> str:
    """The ratings that can't be judged for want of a fact that no scale gives, in one line."""
    parts = [
        say("to judge {limits}, text {wanting}", limits=listed(names), wanting=_wanting(what))
        for what, names in _by_need(found).items()
        if what in FACTS
    ]
    return f"{sentence('; '.join(parts))}." if parts else ""


MOST_WISHES = 2
WEIGH_ALL = marked(
    "To judge the others: hitched, each axle on a plate of its own; then the truck alone."
)
"""What is said in place of more than so many wishes for passes."""


def unweighed_note(
    unjudged: Sequence[Unknown], most: int | None = None, *, tongue: bool = False, pin: bool = False
) -> str:
    """The ratings that want another pass over the scale, in one line, so many by name.

    `tongue` where a pass of the truck alone would give the tongue's weight besides.
    """
    parts = []
    for what, names in _by_need(unjudged).items():
        if what in FACTS:
            continue
        # What is left out is counted, and counting one takes as long as naming it.
        cut = most is not None and len(names) > most + 1
        limits = listed([*names[:most], more(len(names) - (most or 0))] if cut else names)
        if tongue and what == NEEDS_SOLO:
            parts.append(say(by_coupling(SOLO_JUDGES, pin=pin), limits=limits))
        else:
            parts.append(say("to judge {limits}: {wanting}", limits=limits, wanting=term(what)))
    if len(parts) > MOST_WISHES:
        return say(WEIGH_ALL)
    return f"{sentence('; '.join(parts))}." if parts else ""


def _by_need(found: Sequence[Margin]) -> Mapping[str, list[str]]:
    """The limits that can't be judged, by what they want."""
    needs: dict[str, list[str]] = {}
    for each in found:
        if isinstance(each, Unknown):
            needs.setdefault(each.needs, []).append(limit_name(each))
    return needs


def _wanting(fact: str) -> str:
    if fact != NEEDS_WHEELS:
        return term(fact)
    return say("{fact}, such as: {example}", fact=term(fact), example=say(DUAL_TYRES))


def missing_note(found: Sequence[Wanted], most: int | None = None) -> str:
    """The ratings that were never given, in one line, so many by name; '' where none is."""
    names = [say(RATINGS[each].name) for each in found]
    if most is not None and len(names) > most:
        names = [*names[:most], more(len(names) - most)]
    return say("Not given: {ratings}.", ratings=listed(names)) if names else ""


def missing_rating(wanted: Wanted) -> str:
    """A rating that was never given, with why it matters and where it stands."""
    told = RATINGS[wanted]
    return say(
        "Missing: {rating} ({why}; {where}).",
        rating=say(told.name),
        why=say(told.why),
        where=say(told.where),
    )


PARTS: Mapping[str, Sequence[str]] = {
    "tyres": ("truck tyres", "trailer tyres"),
    "hitch": HITCH_CHAIN,
}
"""Whose limits a part's name asks for."""


def subjects_asked(question: Question) -> Sequence[str]:
    """The parts whose limits a question asks for by their name, where it names no rating."""
    part = None if question.rating else first_said(asked_words().part, question.text)
    return PARTS[part] if part else ()
