"""What a trailer may be loaded with by its plate, before any scale has said what it weighs.

This file decides when a plate tells something: GVWR and empty weight are both given, and the
load is not the truck's. It says nothing of the tongue or the axles, which only a scale tells.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.answers.answer import Answer
from bot.answers.language import marked, say
from bot.answers.limits import CAUTION, RATINGS, STOP, kilograms_text
from bot.answers.put_where import is_on_truck
from bot.phrasebook import asked_words
from domain.asked_load import HowMuch, Put, asked
from domain.context import MASS_UNIT
from domain.entries import Cargo
from domain.loading import InBed, InCab, Place
from domain.log import Log, Preferences
from domain.rig import Rig, rig_of
from domain.verdicts import Question
from domain.water import mass_of

OVER = marked("Over by the plate: {limit} by {by}; {empty} empty and {load} make {whole}.")
LEFT = marked("By the plate {by} left of {limit}: {empty} empty and {load} make {whole}.")
ONLY_A_SCALE = marked("Only a scale tells what it does to the axles.")


def plate_answer(log: Log, preferences: Preferences, question: Question) -> Answer | None:
    """What fits by the plate, or what is left of it with a load; None where it does not tell."""
    request = asked(question, log, asked_words())
    if not isinstance(request, HowMuch | Put) or not _is_on_trailer(request.place):
        return None
    rig, unit = rig_of(log, trailer=question.trailer), MASS_UNIT[preferences.units]
    plate = _plate(rig)
    if plate is None:
        return None
    gvwr, empty = plate
    if isinstance(request, Put):
        headline, over = _with_load(request.mass, gvwr, empty, unit)
    else:
        over = gvwr <= empty
        headline = say(
            "By the plate {room} fit: {limit} {gvwr} less {empty} empty.",
            room=kilograms_text(max(gvwr - empty, 0.0), unit),
            limit=_limit(),
            gvwr=kilograms_text(gvwr, unit),
            empty=kilograms_text(empty, unit),
        )
    return Answer(headline=headline, notes=(say(ONLY_A_SCALE), say(CAUTION)), urgent=over)


def over_plate(log: Log, preferences: Preferences, loaded: Sequence[Cargo]) -> str:
    """That what was loaded is too much for the trailer by its plate; '' where it is not."""
    on_it = [each for each in loaded if not is_on_truck(each)]
    masses = [mass.amount("kg") for each in on_it if (mass := mass_of(each.value)) is not None]
    plate = _plate(rig_of(log, trailer=next((each.trailer for each in on_it), None)))
    if not masses or plate is None:
        return ""
    said, over = _with_load(sum(masses), *plate, MASS_UNIT[preferences.units])
    return said if over else ""


def _plate(rig: Rig) -> tuple[float, float] | None:
    """The trailer's GVWR and what it weighs empty (kg)."""
    gvwr, empty = rig.mass("trailer", "gvwr"), rig.mass("trailer", "curb")
    return (gvwr, empty) if gvwr and empty else None


def _with_load(load: float, gvwr: float, empty: float, unit: str) -> tuple[str, bool]:
    """What is left of the GVWR with a load, in a sentence, and whether it is exceeded."""
    whole = empty + load
    over = whole > gvwr + 0.5
    said = say(
        OVER if over else LEFT,
        limit=_limit(),
        by=kilograms_text(abs(gvwr - whole), unit),
        empty=kilograms_text(empty, unit),
        load=kilograms_text(load, unit),
        whole=kilograms_text(whole, unit),
    )
    return (f"{said} {say(STOP)}" if over else said), over


def _limit() -> str:
    return say(RATINGS["trailer", "gvwr"].name)


def _is_on_trailer(place: Place) -> bool:
    return not isinstance(place, InBed | InCab)
