"""How limits, margins and loads are named and written, wherever they appear.

This file decides what each rating is called, why it matters and where it stands, what
usually helps when it is exceeded, and how many digits of a load are worth writing. It does
not know which of them an answer shows.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import assert_never

from bot.answers.answer import Row
from bot.answers.words import listed, number, rounded, sentence
from domain.bounds import FACTS
from domain.entries import SINGLE_AXLES
from domain.margins import Clear, Margin, Near, Over, Share, Unknown, too_close
from domain.quantities import Quantity
from domain.uncertainty import Measured, spread, worth
from domain.wanted import Wanted


@dataclass(frozen=True, slots=True)
class Told:
    """A rating in words: its name, why it matters, where it is written."""

    name: str
    why: str
    where: str


DOOR, PLATE, MANUAL = "door label", "data plate on its frame", "owner's manual or towing guide"
SIDEWALL = "load index on the sidewall"
RATINGS: Mapping[Wanted, Told] = {
    ("truck", "gvwr"): Told("truck GVWR", "bounds the loaded truck", DOOR),
    ("truck", "gcwr"): Told("GCWR", "bounds truck and trailer together", MANUAL),
    ("truck", "gawr_front"): Told("front axle's GAWR", "bounds the steer axle", DOOR),
    ("truck", "gawr_rear"): Told("rear axle's GAWR", "bounds the drive axle", DOOR),
    ("truck", "payload"): Told("payload", "bounds people, cargo and tongue", "tyre placard"),
    ("truck", "tow"): Told("truck's tow rating", "bounds the trailer's weight", MANUAL),
    ("trailer", "gvwr"): Told("trailer GVWR", "bounds the loaded trailer", PLATE),
    ("trailer", "gawr"): Told("trailer axles' GAWR", "bounds each trailer axle", PLATE),
    ("hitch", "tow"): Told("hitch rating", "bounds the pull", "stamped on each part"),
    ("hitch", "tongue"): Told("hitch's tongue rating", "bounds the tongue", "receiver's label"),
    ("trailer tyres", "load"): Told("trailer tyres", "bound the trailer's axles", SIDEWALL),
    ("truck tyres", "load"): Told("truck tyres", "bound the truck's axles", SIDEWALL),
}
"""Every rating that is wanted, in words."""

LIMITS = {
    ("truck", "gawr_front"): "steer axle",
    ("truck", "gawr_rear"): "drive axle",
    ("trailer", "gawr"): "trailer axle",
    ("hitch", "tow"): "hitch",
    ("hitch", "tongue"): "hitch tongue",
    ("truck", "tow"): "tow rating",
    ("truck", "tongue"): "truck's tongue rating",
    ("truck tyres", "front"): "front tyres",
    ("truck tyres", "rear"): "rear tyres",
}
"""What a limit is called beside its load, where that is not the rating's own name; a part of
the hitch chain goes by the part's name."""

LESS_BED = "take load out of the bed"
LESS_TRUCK = f"{LESS_BED}, or off the tongue"
LESS_TRAILER = "drain water tanks, unload some, or make a second trip"
BETWEEN_AXLES = "move load between the trailer's axles, or take some off"
HELPS = {
    "steer": "move load back in the bed, and have the hitch set up again",
    "drive": "move trailer load back a little or bed load forward, or leave some behind",
    "truck": LESS_TRUCK,
    "gross": "leave load behind, or make a second trip",
    "trailer": LESS_TRAILER,
    "trailer_1": BETWEEN_AXLES,
    "trailer_2": BETWEEN_AXLES,
    "trailer_3": BETWEEN_AXLES,
    "trailer weight": LESS_TRAILER,
    "coupling": LESS_TRAILER,
    "tongue": "move trailer load back a little, but keep the share in its range",
    "payload": LESS_TRUCK,
}
"""What usually helps when a load is over; common practice, no source."""

HELPS_A_LIGHT_TONGUE = {
    "drive": "move bed load forward, or leave some behind",
    "tongue": "leave trailer load behind; moved back, it may sway",
    "truck": LESS_BED,
    "payload": LESS_BED,
}
"""The same where the tongue's share has none to give."""

NONE_TO_GIVE = 0.01
"""A share above the foot of its range by less than this gives none away."""

DERIVED = ("tongue", "trailer weight", "payload")
"""Loads that are differences of readings, and are rounded to what they are good for."""

CAUTION = "Door label, manual, local law and a licensed mechanic govern."
STOP = "Don't tow it like this."
STOP_SOLO = "Don't drive it like this."


def verdict(
    found: Sequence[Margin], unit: str, *, derived: bool = False, stop: str = STOP
) -> str | None:
    """The headline that the margins give; None where no rating can be judged.

    `derived` where the loads were worked out, so that no figure is written finer than it is.
    """
    over = [each for each in found if isinstance(each, Over)]
    if over:
        return f"{_over(over, unit, derived)} {stop}"
    tightest = next((each for each in found if not isinstance(each, Unknown)), None)
    if tightest is None:
        return None
    left = f"{limit_name(tightest)} has {left_text(tightest, unit, derived)} left"
    if too_close(tightest):
        return f"Too close to call: {left}, and that is only good to ±{_doubt(tightest, unit)}."
    if isinstance(tightest, Near):
        return f"Close: {left}."
    return f"Inside every rating given. Tightest: {left}."


def _over(over: Sequence[Over], unit: str, derived: bool) -> str:
    names = [f"{limit_name(each)} by {left_text(each, unit, derived)}" for each in over[:2]]
    named = listed([*names, f"{len(over) - 2} more"] if len(over) > 2 else names)
    if all(too_close(each) for each in over):
        # The ticket is what a weigh officer reads, so that a doubtful overload is an overload.
        return f"Over, if barely: {named}. Count it as over."
    return f"Over: {named}."


def margin_rows(
    found: Sequence[Margin], unit: str, most: int | None = None, *, derived: bool = False
) -> tuple[Row, ...]:
    """A row for each judged margin, or for so many of them, the tightest first."""
    judged = [each for each in found if not isinstance(each, Unknown)]
    return tuple(margin_row(each, unit, derived) for each in judged[:most])


def margin_row(margin: Margin, unit: str, derived: bool = False) -> Row:
    """One margin: its name, what is left or over, and of what."""
    name, of = sentence(limit_name(margin)), f"of {limit_text(margin, unit)}"
    match margin:
        case Over():
            return Row(name, f"{left_text(margin, unit, derived)} over", of)
        case Near():
            remark = "too close to call" if too_close(margin) else "near"
            return Row(name, f"{left_text(margin, unit, derived)} left", f"{of}, {remark}")
        case Clear():
            return Row(name, f"{left_text(margin, unit, derived)} left", of)
        case Unknown(_, needs):
            return Row(name, "not weighed", f"{of}; needs {needs}")
    assert_never(margin)


def limit_name(margin: Margin) -> str:
    """What a limit is called in a sentence."""
    limit = margin.limit
    if limit.bounds in SINGLE_AXLES:
        part = "tyres of " if limit.subject == "trailer tyres" else ""
        return f"{part}trailer axle {limit.bounds[-1]}"
    name = limit_words((limit.subject, limit.rating))
    if name is None:
        name = limit.subject + (" tongue" if limit.rating == "tongue" else "")
        if limit.unit == "kN":
            name = f"{limit.subject} {limit.rating.capitalize()} value"
    return f"{name}s" if limit.count > 1 and name.endswith("axle") else name


def limit_words(key: Wanted) -> str | None:
    """What a rating is called as a limit; None for a part that goes by its own name."""
    return LIMITS.get(key) or (RATINGS[key].name if key in RATINGS else None)


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


def share_note(share: Share | None) -> str:
    """What to move where the tongue share is out of its customary range; '' where it is not."""
    if share is None or not share.outside:
        return ""
    low = share.share.nominal_value < share.low
    word, way = ("low: it may sway. Move", "forward") if low else ("high. Move", "back")
    return f"Tongue share is {word} trailer load {way}."


def help_note(found: Sequence[Margin], share: Share | None) -> str:
    """What usually helps with the worst that is over, never against the tongue's share."""
    worst = next((each for each in found if isinstance(each, Over)), None)
    if worst is None:
        return ""
    light = share is not None and share.share.nominal_value < share.low + NONE_TO_GIVE
    bounds = worst.limit.bounds
    helps = HELPS_A_LIGHT_TONGUE.get(bounds) if light else None
    return f"What usually helps: {helps or HELPS[bounds]}."


def unknown_note(found: Sequence[Margin]) -> str:
    """The ratings that can't be judged for want of a fact that no scale gives, in one line."""
    needs: dict[str, list[str]] = {}
    for each in found:
        if isinstance(each, Unknown) and each.needs in FACTS:
            needs.setdefault(each.needs, []).append(limit_name(each))
    parts = [f"to judge {listed(names)}, text {what}" for what, names in needs.items()]
    return f"{sentence('; '.join(parts))}." if parts else ""


def missing_note(found: Sequence[Wanted], most: int | None = None) -> str:
    """The ratings that were never given, in one line, so many by name; '' where none is."""
    names = [RATINGS[each].name for each in found]
    if most is not None and len(names) > most:
        names = [*names[:most], f"{len(names) - most} more"]
    return f"Not given: {listed(names)}." if names else ""
