"""Answers to 'what if': the weights as they would be, and the rating that binds first.

This file decides how a prediction is told. Where the statics lack a length or the question
lacks a place, it says which one and how to text it. The statics are `domain`'s.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from typing import assert_never

from bot.answers import examples
from bot.answers.answer import Answer, Row
from bot.answers.as_of import stale_notes
from bot.answers.by_plate import plate_answer
from bot.answers.language import as_written, marked, say
from bot.answers.limits import (
    BY_SOLO,
    CAUTION,
    kilograms_text,
    limit_name,
    margin_rows,
    mass_text,
    share_note,
    share_text,
    to_unit,
    verdict,
    with_doubt,
)
from bot.answers.measures import short_length
from bot.answers.terms import term
from bot.answers.weighed import Weighed, tongue_name
from bot.answers.which_weighing import last_weighed, no_weighing
from bot.answers.words import about, number, rounded, sentence, unit_word
from bot.phrasebook import asked_words
from bot.reference import references
from domain.asked_load import Asked, HowMuch, Moved, Put, Taken, Unclear, WhereFor, asked
from domain.bounds import margins, tongue_share, unjudged
from domain.context import MASS_UNIT, SHORT_LENGTH_UNIT
from domain.entries import SINGLE_AXLES, Cargo
from domain.loading import (
    BehindCoupling,
    Effect,
    InBed,
    InCab,
    Lacks,
    Levers,
    OnTrailer,
    Place,
    Spread,
    effect,
    levers,
    place_for_share,
    predicted,
    room,
)
from domain.log import Log, Preferences
from domain.margins import Margin, Near, Over, governing
from domain.quantities import Quantity
from domain.uncertainty import spread
from domain.verdicts import Question
from domain.weighing import Weights

ASK_FOR = {
    "mass": (
        marked("How heavy is it? Text it with the weight, such as: {example}."),
        examples.WHAT_IF,
    ),
    "place": (marked("Where would it stand? Such as: {example}."), examples.WHAT_IF_AHEAD),
    "distance": (
        marked("How far from the trailer axle is that? Such as: {example}."),
        examples.WHAT_IF_AHEAD,
    ),
    "start": (
        marked("Where does it stand now? Text it as cargo first: {example}."),
        examples.CARGO,
    ),
    "share": (marked("For what tongue share? Such as: {example}."), examples.WHERE_FOR),
    "coupler_to_axle": (
        marked("That takes the length from coupler to trailer axle. Text it: {example}."),
        examples.COUPLER_TO_AXLE,
    ),
    "wheelbase": (
        marked("That takes the truck's wheelbase. Text it: {example}."),
        examples.WHEELBASE,
    ),
    "overhang": (
        marked(
            "That takes the hitch's lever. Weigh with the bars off and the truck alone, "
            "or text: {example}."
        ),
        examples.LEVER,
    ),
    "tongue": (BY_SOLO, ""),
}
"""What is asked back where something is lacking, and what to text."""

UNTOLD = marked("Can't tell yet. {ask}")
AS_IT_WAS = marked("As weighed, before that change.")
WORKED_OUT = marked("Worked out, not weighed")
LEARNED = marked("the hitch's lever is from your own weighing")
BARS = marked("the bars are taken to stay as they are")
SPOT_AHEAD = marked("For {share} tongue: {length} ahead of the trailer axle")
SPOT_BACK = marked("For {share} tongue: {length} back of the trailer axle")
BEYOND_AHEAD = marked(
    "That load alone can't bring the tongue to {share}; it would have to stand "
    "{length} ahead of the axle."
)
BEYOND_BACK = marked(
    "That load alone can't bring the tongue to {share}; it would have to stand "
    "{length} back of the axle."
)
LEAVE_ROOM = marked("Leave some room: a scale is only good to its division.")
FEW_MARGINS, MOST_MARGINS = 2, 3
"""Margins that are told: a few, and so many where they are over or near."""


def whatif_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The weights and margins after a change of load, how much fits, or where a load must go."""
    weighed = last_weighed(log, preferences, question.trailer)
    if weighed is None:
        return plate_answer(log, preferences, question) or no_weighing(
            preferences, question.trailer
        )
    request = asked(question, log, asked_words())
    answer = _answer(log, preferences, weighed, request)
    but = request.item if isinstance(request, Put | Taken | Moved) else ""
    stale = stale_notes(log, weighed.weights.session, preferences, now, but=but)
    return replace(answer, notes=(*stale, *answer.notes)) if answer.notes else answer


def _answer(log: Log, preferences: Preferences, weighed: Weighed, request: Asked) -> Answer:
    """What the weighing and the request make, or what to ask back."""
    arms = levers(weighed.rig, weighed.weights)
    if isinstance(request, Taken | Moved) and _is_loaded_since(log, weighed, request.item):
        if isinstance(request, Taken):
            return _not_weighed(weighed, request.item, preferences)
        request = Put(request.item, request.mass, request.end)
    match request:
        case Put(item, mass, place) | Taken(item, mass, place):
            sign = -1.0 if isinstance(request, Taken) else 1.0
            amount = kilograms_text(mass, MASS_UNIT[preferences.units])
            where = _where(place, preferences)
            title = (
                say("{load} less {where}", load=amount, where=where)
                if sign < 0
                else say("{load} more {where}", load=amount, where=where)
            )
            change = effect(place, arms, weighed.weights)
            return _changed(weighed, change, sign * mass, arms, title, preferences)
        case Moved(item, mass, start, end):
            way = _way(start, end, preferences)
            title = say("{item} moved {way}", item=item.capitalize(), way=way)
            change = _difference(start, end, arms, weighed.weights)
            return _changed(weighed, change, mass, arms, title, preferences)
        case HowMuch(place):
            return _room(weighed, place, arms, preferences)
        case WhereFor():
            return _spot(weighed, request, arms, preferences)
        case Unclear(lacks):
            return Answer(headline=_ask_for(lacks, preferences))
    assert_never(request)


def _is_loaded_since(log: Log, weighed: Weighed, item: str) -> bool:
    """Whether a load was put on after the weighing, so that no figure has it."""
    session = weighed.weights.session
    named = item.casefold()
    loads = [each for each in log.of(Cargo) if named in each.entry.item.casefold()]
    return bool(loads) and loads[-1].at > (session.axles_at or session.ended)


def _not_weighed(weighed: Weighed, item: str, preferences: Preferences) -> Answer:
    """What stands without a load that was put on after the weighing: the weighing itself."""
    said = verdict(weighed.governing, MASS_UNIT[preferences.units])
    return Answer(
        headline=say(
            "{item} was loaded after the weighing, so this is without it. {verdict}",
            item=sentence(item),
            verdict=said,
        ),
        rows=_tight_rows(weighed.governing, MASS_UNIT[preferences.units]),
        notes=(say(CAUTION),),
    )


def _ask_for(lacks: str, preferences: Preferences) -> str:
    message, example = ASK_FOR[lacks]
    return say(message, example=examples.texted(example, preferences))


def _difference(start: Place, end: Place, arms: Levers, weights: Weights) -> Effect | Lacks:
    there, here = effect(end, arms, weights), effect(start, arms, weights)
    if isinstance(there, Lacks):
        return there
    return here if isinstance(here, Lacks) else there - here


def _changed(
    weighed: Weighed,
    change: Effect | Lacks,
    mass: float,
    arms: Levers,
    title: str,
    preferences: Preferences,
) -> Answer:
    if isinstance(change, Lacks):
        return _untold(weighed, change, preferences)
    unit = MASS_UNIT[preferences.units]
    after = predicted(weighed.weights, change, mass)
    found = governing(margins(weighed.rig, after, references().load_index))
    unknown = unjudged(weighed.weights.session, found)
    said = verdict(found, unit, derived=True, unjudged=len(unknown))
    headline = f"{title}. {said}" if said else f"{title}."
    return Answer(
        headline=headline,
        rows=(
            *_load_rows(weighed, after, unit),
            *_tight_rows(found, unit),
        ),
        notes=_notes(weighed, after, change, arms, found),
    )


def _load_rows(weighed: Weighed, after: Weights, unit: str) -> tuple[Row, ...]:
    rows = [
        Row(
            sentence(label),
            mass_text(after.loads[name], unit, derived=True),
            _step(weighed.weights, after, name, unit),
        )
        for name, label in (
            ("gross", term("gross")),
            ("steer", term("steer")),
            ("drive", term("drive")),
            ("trailer", say("trailer axles")),
        )
        if name in after.loads
    ]
    if after.tongue is not None:
        of = ""
        if after.share is not None:
            of = say("{share} of the trailer", share=share_text(after.share))
        rows.append(Row(tongue_name(weighed.rig), with_doubt(after.tongue.load, unit), of))
    return tuple(rows)


def _step(before: Weights, after: Weights, name: str, unit: str) -> str:
    step = to_unit((after.loads[name] - before.loads[name]).nominal_value, unit)
    return as_written(f"{step:+,.0f}") if round(step) else say("unchanged")


def _tight_rows(found: Sequence[Margin], unit: str) -> tuple[Row, ...]:
    pressing = sum(isinstance(each, Over | Near) for each in found)
    most = min(MOST_MARGINS, max(FEW_MARGINS, pressing))
    return margin_rows(found, unit, most, derived=True)


def _room(weighed: Weighed, place: Place, arms: Levers, preferences: Preferences) -> Answer:
    change = effect(place, arms, weighed.weights)
    unit = MASS_UNIT[preferences.units]
    if isinstance(change, Lacks):
        if any(isinstance(each, Over) for each in weighed.governing):
            return _nothing_more(weighed, unit)  # wherever it would go
        return _left_as_weighed(weighed, change, preferences)
    axles = sum(name in weighed.weights.loads for name in SINGLE_AXLES)
    found = room(weighed.governing, change, axles)
    if found is None:
        return Answer(headline=say("No rating given bounds that."), notes=(say(CAUTION),))
    if isinstance(found.binds, Over):
        return _nothing_more(weighed, unit)
    most = Quantity(_down(to_unit(found.mass, unit)), unit)
    after = predicted(weighed.weights, change, most.amount("kg"))
    left = governing(margins(weighed.rig, after, references().load_index))
    return Answer(
        headline=sentence(
            say(
                "{load} more {where}; {limit} binds first.",
                load=about(rounded(most)),
                where=_where(place, preferences),
                limit=limit_name(found.binds),
            )
        ),
        rows=(
            *_load_rows(weighed, after, unit),
            *_tight_rows(left, unit),
        ),
        notes=(say(LEAVE_ROOM), *_notes(weighed, after, change, arms, left)),
    )


def _left_as_weighed(weighed: Weighed, lacks: Lacks, preferences: Preferences) -> Answer:
    """What the passes that there are leave of each rating, and what would tell how much fits."""
    unit = MASS_UNIT[preferences.units]
    ask = _ask_for(lacks.what, preferences)
    unknown = unjudged(weighed.weights.session, weighed.governing)
    said = verdict(weighed.governing, unit, unjudged=len(unknown))
    if not said:
        return Answer(headline=ask)
    rows = margin_rows(weighed.governing, unit, MOST_MARGINS)
    return Answer(headline=said, rows=rows, notes=(ask, say(CAUTION)))


def _untold(weighed: Weighed, lacks: Lacks, preferences: Preferences) -> Answer:
    """What a change would do can't be told yet: what would tell, and what is left before it."""
    left = _left_as_weighed(weighed, lacks, preferences)
    if not left.rows:
        return left
    notes = (say(AS_IT_WAS), *left.notes)
    if any(isinstance(each, Over) for each in weighed.governing):
        return replace(left, notes=notes)
    ask, *others = left.notes
    return replace(left, headline=say(UNTOLD, ask=ask), notes=(say(AS_IT_WAS), *others))


def _nothing_more(weighed: Weighed, unit: str) -> Answer:
    """What a rig that is over a rating already can take."""
    over = verdict(weighed.governing, unit)
    return Answer(headline=say("Nothing more. {verdict}", verdict=over), notes=(say(CAUTION),))


def _down(amount: float) -> float:
    """To the ten below, so that what is said to fit does fit."""
    return max(0.0, amount // 10 * 10)


def _spot(weighed: Weighed, request: WhereFor, arms: Levers, preferences: Preferences) -> Answer:
    spot = place_for_share(weighed.weights, arms, request.share, request.mass, request.standing)
    if isinstance(spot, Lacks):
        return Answer(headline=_ask_for(spot.what, preferences))
    unit = SHORT_LENGTH_UNIT[preferences.units]
    ahead = Quantity(spot.nominal_value, "m").amount(unit)
    doubt = Quantity(spread(spot), "m").amount(unit)
    share = f"{as_written(f'{100 * request.share:g}')} %"
    reach = arms.reach or 0.0
    if abs(spot.nominal_value) > reach:
        return Answer(
            headline=say(
                BEYOND_AHEAD if ahead >= 0 else BEYOND_BACK,
                share=share,
                length=f"{number(abs(ahead), 1)} {unit_word(unit)}",
            ),
            notes=(say(CAUTION),),
        )
    place = OnTrailer(spot.nominal_value)
    start = None if request.standing is None else OnTrailer(request.standing)
    change = (
        effect(place, arms, weighed.weights)
        if start is None
        else _difference(start, place, arms, weighed.weights)
    )
    length = f"{number(abs(ahead), 1)} {unit_word(unit)} ±{number(max(doubt, 0.1), 1)}"
    title = say(SPOT_AHEAD if ahead >= 0 else SPOT_BACK, share=share, length=length)
    if isinstance(change, Lacks):
        return Answer(
            headline=f"{title}.", notes=(_ask_for(change.what, preferences), say(CAUTION))
        )
    return _changed(weighed, change, request.mass, arms, title, preferences)


def _notes(
    weighed: Weighed, after: Weights, change: Effect, arms: Levers, found: Sequence[Margin]
) -> tuple[str, ...]:
    uses_lever = bool(change.tongue.nominal_value)
    basis = [
        say(WORKED_OUT),
        say(LEARNED) if uses_lever and arms.learned else "",
        say(BARS) if uses_lever and _bars_on(weighed.weights) else "",
    ]
    notes = (
        share_note(
            tongue_share(weighed.rig, after, weighed.country),
            found,
            pin=weighed.on_pin,
        ),
        f"{'; '.join(filter(None, basis))}.",
        say(CAUTION),
    )
    return tuple(filter(None, notes))


def _bars_on(weights: Weights) -> bool:
    road = weights.session.road
    return road is not None and road.bars == "on"


def _where(place: Place, preferences: Preferences) -> str:
    match place:
        case OnTrailer(0.0):
            return say("over the trailer's axles")
        case OnTrailer(ahead):
            length = short_length(abs(ahead), preferences)
            if ahead > 0:
                return say("{length} ahead of the trailer axle", length=length)
            return say("{length} behind the trailer axle", length=length)
        case BehindCoupling(0.0):
            return say("on the coupling")
        case BehindCoupling(behind):
            return say("{length} behind the coupling", length=short_length(behind, preferences))
        case Spread():
            return say("on the trailer, placed to keep its tongue share")
        case InBed(0.0):
            return say("in the bed over the drive axle")
        case InBed(ahead):
            length = short_length(abs(ahead), preferences)
            if ahead > 0:
                return say("{length} ahead of the drive axle", length=length)
            return say("{length} behind the drive axle", length=length)
        case InCab():
            return say("in the cab")
    assert_never(place)


def _way(start: Place, end: Place, preferences: Preferences) -> str:
    """A move in words; from the axle, it is a shift from wherever the load stands."""
    if start == OnTrailer(0.0) and isinstance(end, OnTrailer):
        length = short_length(abs(end.ahead), preferences)
        if end.ahead >= 0:
            return say("{length} forward", length=length)
        return say("{length} back", length=length)
    return say("and put {where}", where=_where(end, preferences))
