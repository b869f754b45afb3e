"""Answers about weight: to a weighing just kept, and to what is asked of the last one.

This file decides which weighing an answer is about, and what leads when one load, one rating
or the tongue is asked for. How a whole weighing is told is decided in `weighed.py`. No answer
calls a rig safe: it is inside every rating given, or it is not.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime
from math import log as log_of

from bot.answers.alone import alone_answer, empty_told
from bot.answers.answer import Answer
from bot.answers.as_of import (
    as_of_notes,
    axles_note,
    is_of_another_day,
    stale_notes,
    when_note,
)
from bot.answers.journeys import asked_span, heaviest_rows
from bot.answers.language import marked, say
from bot.answers.limits import (
    BY_SOLO,
    CAUTION,
    PARTS,
    STOP,
    UNWEIGHED,
    by_coupling,
    kilograms_text,
    limit_name,
    limit_text,
    margin_row,
    margin_rows,
    mass_text,
    missing_note,
    missing_rating,
    over_text,
    share_note,
    share_text,
    subjects_asked,
    unknown_note,
    with_doubt,
)
from bot.answers.measures import local
from bot.answers.ratings import ratings_answer
from bot.answers.scale_pictures import is_complete, margins_picture, rig_picture
from bot.answers.sides import sides_answer
from bot.answers.since import since_answer, since_pass
from bot.answers.terms import term
from bot.answers.weighed import (
    MISFIT,
    READS_LOW,
    Weighed,
    bars_rows,
    boarded_note,
    change_notes,
    judging_note,
    odds_note,
    scaled_note,
    short_answer,
    stop_of,
    tongue_name,
    weighed,
)
from bot.answers.weighed import (
    headline as verdict_on,
)
from bot.answers.which_weighing import asked_weighing, last_weighed, no_weighing
from bot.answers.words import day, figure, listed, moment, number, sentence
from bot.reference import references
from domain.account import heaviest
from domain.bounds import load_of
from domain.context import MASS_UNIT
from domain.driving import driving
from domain.entries import SINGLE_AXLES, Rating, Weighing
from domain.log import Log, Logged, Preferences
from domain.margins import Margin, Over, Share, Unknown, judged
from domain.passes import first_weighed, session_of, with_axles
from domain.quantities import MASSES, Quantity
from domain.rig import STANDS_FOR
from domain.uncertainty import Measured, exact, spread
from domain.verdicts import Question
from domain.wanted import LOADED_BY, Wanted

PAYLOAD = marked("Payload goes with truck GVWR until the curb weight is given.")


def weighing_answer(
    log: Log, preferences: Preferences, now: datetime, logged_weighing: Logged[Weighing]
) -> Answer:
    """What to say to a weighing just kept: verdict, weights, and the tightest margins.

    One that is entered late is answered with the passes of its own day.
    """
    session = session_of(log, logged_weighing)
    if session is None:
        return no_weighing(preferences)
    session = with_axles(log, session)
    told = weighed(log, preferences, session, logged_weighing.entry.trailer)
    loads = set(LOADED_BY.values()) & set(told.weights.loads)
    new = first_weighed(log, logged_weighing, loads)
    since = since_pass(log, told, logged_weighing.key, preferences)
    first = (
        [when_note(session, preferences)] if is_of_another_day(session, now, preferences) else []
    )
    first += [] if session.axles_at is None else [axles_note(session.axles_at, preferences)]
    answer = short_answer(told, _unit(preferences), first=first, since=since, new=new)
    return replace(answer, picture=rig_picture(told, preferences)) if is_complete(told) else answer


def over_on(log: Log, preferences: Preferences, ratings: Sequence[Rating]) -> Answer | None:
    """What ratings told after the scale make of the last weighing; None where it is not over."""
    trailer = next((each.trailer for each in ratings if each.trailer), None)
    told = last_weighed(log, preferences, trailer)
    if told is None:
        return None
    over = [
        each
        for each in told.governing
        if isinstance(each, Over) and any(_is_limit(each, rating) for rating in ratings)
    ]
    if not over:
        return None
    session, unit = told.weights.session, _unit(preferences)
    headline = say(
        "Over when weighed {when}: {limits}.",
        when=moment(session.ended, preferences),
        limits=over_text(over, unit),
    )
    stop = [say("Don't tow it like that.")] if session.road is not None else []
    return Answer(headline=headline, notes=(" ".join([*stop, say(CAUTION)]),), urgent=True)


def _is_limit(margin: Margin, rating: Rating) -> bool:
    """Whether a limit is what a rating says; that of tyres goes by the axle that they bear."""
    limit = margin.limit
    own = rating.rating in (limit.rating, *STANDS_FOR.get(limit.rating, ()))
    return limit.subject == rating.subject and (own or limit.subject in PARTS["tyres"])


def weight_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What the rig weighs: the load asked for, or all of the last weighing."""
    alone = alone_answer(log, preferences, question)
    if alone is not None:
        return alone
    told = asked_weighing(log, preferences, now, question)
    if isinstance(told, Answer):
        return told
    sides = sides_answer(told, preferences, question)
    if sides is not None:
        return sides
    since = as_of_notes(log, told.weights.session, preferences)
    bare = isinstance(question.value, Quantity) and not (question.trailer or question.truck)
    field = question.field or ("gross" if bare else "")  # 'are we under 20,000 lb'
    load = load_of(told.weights, LOADS.get(field, field))
    meant = _limits_at(told, question.value) if bare and not question.field else ()
    if meant:
        stale = stale_notes(log, told.weights.session, preferences, now)
        return _left_of(told, meant, (), _unit(preferences), stale)
    if load is None:
        answer = short_answer(told, _unit(preferences), first=since)
        of_it = empty_told(log, preferences, question)
        of_it = of_it or _of_vehicle(told, question, _unit(preferences))
        return replace(answer, headline=" ".join(filter(None, (of_it, answer.headline))))
    unit = _unit(preferences)
    than = _held_against(load, question, unit)
    said = f"{_load_name(field)} {mass_text(load, unit)}{than}."
    asked = _asked(told, question)
    return Answer(
        headline=" ".join(filter(None, (said, _warning(told, asked)))),
        rows=margin_rows(asked, unit),
        notes=(*since, say(CAUTION)),
    )


def _limits_at(told: Weighed, stated: Quantity | float | None) -> tuple[Margin, ...]:
    """'are we under 11,500': the limits of that very figure, which is what is asked about."""
    if not isinstance(stated, Quantity) or stated.unit not in MASSES:
        return ()
    kilograms = stated.amount("kg")
    return tuple(
        each
        for each in told.margins
        if each.limit.unit == "kg" and abs(each.limit.value - kilograms) < SAME_FIGURE
    )


SAME_FIGURE = 0.2
"""Kilograms: less than half a pound is the rounding of a figure."""


def _held_against(load: Measured, question: Question, unit: str) -> str:
    """'is the camper heavier than 7,000 lb': by how much it is, or is not; '' without a figure."""
    if not isinstance(question.value, Quantity) or question.value.unit not in MASSES:
        return ""
    more = load - question.value.amount("kg")
    stated = figure(question.value)
    if abs(more.nominal_value) < spread(more):
        return say(", too near {mass} to tell", mass=stated)
    apart = mass_text(more, unit, derived=True, absolute=True)
    if more.nominal_value > 0:
        return say(", {apart} more than {mass}", apart=apart, mass=stated)
    return say(", {apart} less than {mass}", apart=apart, mass=stated)


def _of_vehicle(told: Weighed, question: Question, unit: str) -> str:
    """What the one vehicle weighs that is named, in a sentence; '' where it is not known."""
    name = question.trailer or question.truck
    if question.field or not name:
        return ""
    load = load_of(told.weights, "trailer weight" if question.trailer else "truck")
    if load is None:
        return ""
    amount = with_doubt(load, unit) if question.trailer else mass_text(load, unit)
    return f"{sentence(name)} {amount}{_held_against(load, question, unit)}."


def heaviest_answer(
    log: Log, preferences: Preferences, now: datetime, question: Question
) -> Answer:
    """The heaviest weighing of the days asked about, else of the whole log."""
    driven = driving(log, question.truck)
    days = asked_span(question, preferences, now)
    start, end = (days.start, days.end) if days else (datetime.min.replace(tzinfo=UTC), now)
    top = heaviest(driven, start, end, references(), question.trailer)
    if top is None or top.gross is None:
        return no_weighing(preferences)
    headline = say(
        "Heaviest: {load}, weighed {when}.",
        load=mass_text(top.gross, _unit(preferences)),
        when=day(local(top.at, preferences)),
    )
    _, *rows = heaviest_rows(top, preferences)
    return Answer(headline=headline, rows=tuple(rows), notes=(say(CAUTION),))


def changes_told(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What changed since the weighing before the last."""
    told = asked_weighing(log, preferences, now, question)
    if isinstance(told, Answer):
        return told
    return since_answer(log, told, preferences, now)


def rig_shown(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The last weighing, with a picture of the rig."""
    told = asked_weighing(log, preferences, now, question)
    if isinstance(told, Answer):
        return told
    since = as_of_notes(log, told.weights.session, preferences)
    answer = short_answer(told, _unit(preferences), first=since)
    return replace(answer, picture=rig_picture(told, preferences))


def margins_shown(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What is left to every rating, with a picture of it where any can be judged."""
    told = asked_weighing(log, preferences, now, question)
    if isinstance(told, Answer):
        return told
    since = as_of_notes(log, told.weights.session, preferences)
    answer = _all_margins(told, _unit(preferences), since)
    picture = margins_picture(told, preferences)
    return replace(answer, picture=picture) if picture.bars else answer


LOADS = {"trailer": "trailer weight"}
"""What a question about a load means, where the scale's word means less."""


def _load_name(field: str) -> str:
    return sentence(term(field))


def _unit(preferences: Preferences) -> str:
    return MASS_UNIT[preferences.units]


FIELDS = {"truck": ("truck", "payload"), "trailer": ("trailer", "trailer weight", *SINGLE_AXLES)}
"""Loads that a question about a field means; any other field means itself."""


def margin_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What is left to every rating, or to the one asked about."""
    told = asked_weighing(log, preferences, now, question)
    if isinstance(told, Answer):
        return told
    unit = _unit(preferences)
    stale = stale_notes(log, told.weights.session, preferences, now)
    asked, lacking = _asked_or_alike(told, question)
    subjects = () if question.field else subjects_asked(question)
    if subjects:
        asked, lacking = _of_part(told, subjects)
        if lacking and not asked:
            return _not_given(told, lacking, unit, stale)
    if not asked:
        return _all_margins(told, unit, as_of_notes(log, told.weights.session, preferences))
    answer = _left_of(told, asked, lacking, unit, stale)
    at_limit = any(each in asked for each in _limits_at(told, question.value))
    beside = "" if at_limit else _beside_told(told, question, unit)
    return replace(answer, headline=f"{beside} {answer.headline}") if beside else answer


def _beside_told(told: Weighed, question: Question, unit: str) -> str:
    """'is the tongue over 1,000 lb': the load beside a figure of its size, in a sentence."""
    field = question.field or ""
    load = load_of(told.weights, field)
    stated = question.value
    if load is None or not isinstance(stated, Quantity) or stated.unit not in MASSES:
        return ""
    alike = max(load.nominal_value, stated.amount("kg")) < ALIKE * min(
        load.nominal_value, stated.amount("kg")
    )
    if not alike:
        return ""  # 'have we got 400 lb left on the drive axle'
    return f"{_load_name(field)} {mass_text(load, unit)}{_held_against(load, question, unit)}."


ALIKE = 2.0
"""Times: a figure so much off a load is what is left of it, and not the load."""


def _left_of(
    told: Weighed,
    asked: Sequence[Margin],
    lacking: Sequence[Wanted],
    unit: str,
    stale: Sequence[str],
) -> Answer:
    """What is left of the limits asked about, and where else the rig is over."""
    by_label = say(PAYLOAD) if any(each.limit.by_label for each in asked) else ""
    room = _room(asked[0], unit)
    return Answer(
        headline=" ".join(filter(None, (room, _warning(told, asked)))),
        rows=margin_rows(asked[1:], unit),
        notes=tuple(filter(None, (*stale, by_label, missing_note(lacking), say(CAUTION)))),
    )


def judged_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """Whether a load that the question tells is inside the limits that it names.

    Of a part with several, the limit counts whose own load is the likest: 1,100 lb on a hitch
    are a tongue's, 9,000 lb a trailer's.
    """
    told = last_weighed(log, preferences, question.trailer)
    load = question.value
    if told is None or not isinstance(load, Quantity):
        return ratings_answer(log, preferences, now, question)
    asked, _ = _of_part(told, () if question.field else subjects_asked(question))
    if not (asked or question.field or question.rating):
        loads = () if not question.trailer else ("trailer weight",)
        loads = ("truck",) if question.truck and not loads else loads
        asked = tuple(each for each in told.margins if each.limit.bounds in loads)
    asked = tuple(each for each in asked or _asked(told, question) if each.limit.unit == "kg")
    if not asked:
        return margin_answer(log, preferences, now, question)
    kilograms = load.amount("kg")
    lacking = [each for each in told.missing if each[1] == question.rating]
    likest = min(asked, key=lambda each: (abs(log_of(_size(each) / kilograms)), each.limit.value))
    unit = _unit(preferences)
    found = judged(likest.limit, exact(kilograms))
    row = margin_row(found, unit)
    said = say(
        "{load} against the {limit}: {left} {of}.",
        load=figure(load),
        limit=limit_name(found),
        left=row.figure,
        of=row.remark,
    )
    over = isinstance(found, Over)
    return Answer(
        headline=" ".join(filter(None, (said, say(STOP) if over else ""))),
        notes=tuple(filter(None, (missing_note(lacking), say(CAUTION)))),
    )


def tongue_judged_answer(
    log: Log, preferences: Preferences, now: datetime, question: Question
) -> Answer:
    """Whether a tongue weight that is told is inside the limits of the tongue."""
    return judged_answer(log, preferences, now, replace(question, field="tongue"))


def _size(margin: Margin) -> float:
    """What is likely under a limit, in kilograms: the load, else the limit itself."""
    if isinstance(margin, Unknown):
        return margin.limit.value
    return max(margin.load.nominal_value, 1.0)


def _of_part(
    told: Weighed, subjects: Sequence[str]
) -> tuple[tuple[Margin, ...], tuple[Wanted, ...]]:
    """The margins of a part, and its ratings that nobody gave."""
    return (
        tuple(each for each in told.margins if each.limit.subject in subjects),
        tuple(each for each in told.missing if each[0] in subjects),
    )


def _not_given(told: Weighed, lacking: Sequence[Wanted], unit: str, stale: Sequence[str]) -> Answer:
    """What is said of a part whose limits nobody gave: that, and how the rest stands."""
    return Answer(
        headline=missing_note(lacking),
        notes=(
            *(missing_rating(each) for each in lacking),
            verdict_on(told, unit),
            *stale,
            say(CAUTION),
        ),
    )


def _room(margin: Margin, unit: str) -> str:
    """What is left of a rating, in a sentence, or what it takes to tell."""
    row = margin_row(margin, unit)
    if not isinstance(margin, Unknown):
        return f"{row.label}: {row.figure} {row.remark}."
    return say(
        "{limit}, {rating}: to say what is left I need {wanting}.",
        limit=row.label,
        rating=limit_text(margin, unit),
        wanting=term(margin.needs),
    )


def _all_margins(told: Weighed, unit: str, since: Sequence[str]) -> Answer:
    """Every rating that can be judged, and what the others want."""
    by_label = say(PAYLOAD) if len(told.governing) < len(told.margins) else ""
    notes = (
        *since,
        odds_note(told.weights, unit),
        by_label,
        judging_note(told),
        unknown_note(told.governing),
        missing_note(told.missing),
        say(CAUTION),
    )
    return Answer(
        headline=verdict_on(told, unit),
        rows=margin_rows(told.governing, unit),
        notes=tuple(filter(None, notes)),
    )


def _asked(told: Weighed, question: Question) -> tuple[Margin, ...]:
    """The margins that a question names, by rating or by load."""
    field = question.field or ""
    loads = FIELDS.get(field, (field,))
    return tuple(
        each
        for each in told.margins
        if each.limit.rating == question.rating or each.limit.bounds in loads
    )


def _asked_or_alike(
    told: Weighed, question: Question
) -> tuple[tuple[Margin, ...], tuple[Wanted, ...]]:
    """The margins that a question names, and its rating where nobody gave that.

    A payload that was not given is the truck's GVWR less its curb weight, so that what is left of
    the one is what is left of the other.
    """
    asked = _asked(told, question)
    if asked or question.rating != "payload":
        return asked, ()
    alike = tuple(each for each in told.margins if (each.limit.subject, each.limit.rating) == GVWR)
    return alike, tuple(each for each in told.missing if each[1] == question.rating)


GVWR = ("truck", "gvwr")


def _warning(told: Weighed, asked: Sequence[Margin]) -> str:
    """Where else the rig is over, and not to go like that; '' where it is over nowhere."""
    over = [limit_name(each) for each in told.governing if isinstance(each, Over)]
    if not over:
        return ""
    stop = say(stop_of(told.weights))
    if any(isinstance(each, Over) for each in asked):
        return stop
    return " ".join((say("But over on {limits}.", limits=listed(over[:3])), stop))


def tongue_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """Tongue or pin weight and its share, or what is needed to know them."""
    told = asked_weighing(log, preferences, now, question)
    if isinstance(told, Answer):
        return told
    weights, unit = told.weights, _unit(preferences)
    if weights.tongue is None:
        unweighed, why = (by_coupling(each, pin=told.on_pin) for each in (UNWEIGHED, BY_SOLO))
        fit = weights.misfit is None
        return Answer(headline=say(unweighed), notes=(say(why if fit else MISFIT),))
    share = told.share
    name = tongue_name(told.rig)
    tongue, of_trailer = weights.tongue.load, _trailer_told(weights.tongue.load, question)
    beside = "" if of_trailer else _held_against(tongue, question, unit)
    load = with_doubt(tongue, unit) + beside
    headline = (
        say(
            "{name} {load}, {share} of the trailer.",
            name=name,
            load=load,
            share=share_text(share.share),
        )
        if share
        else f"{name} {load}."
    )
    bounding = [each for each in told.margins if each.limit.bounds == "tongue"]
    notes = [
        *stale_notes(log, weights.session, preferences, now),
        *change_notes(told.changes, unit),
        share_note(share, told.margins, pin=told.on_pin),
        say(READS_LOW) if weights.tongue.reads_low else "",
        boarded_note(told.boarded),
        scaled_note(weights, unit),
        " ".join(filter(None, (_share_told(share, question), _customary(share)))),
        _customary_of(share, question, unit) if of_trailer else "",
        say(CAUTION),
    ]
    return Answer(
        headline=" ".join(filter(None, (headline, _warning(told, bounding)))),
        rows=(*bars_rows(weights, unit), *margin_rows(bounding, unit)),
        notes=tuple(filter(None, notes)),
    )


def _trailer_told(tongue: Measured, question: Question) -> bool:
    """'what tongue do we need for 9,640 lb': a figure of a trailer's size, not of a tongue's."""
    told = question.value
    if not isinstance(told, Quantity) or told.unit not in MASSES:
        return False
    return told.amount("kg") > TRAILER_TO_TONGUE * tongue.nominal_value


TRAILER_TO_TONGUE = 3.0
"""Times: a trailer weighs more than so many of the tongues that rest well on a hitch."""


def _customary_of(share: Share | None, question: Question, unit: str) -> str:
    """What is customary of a trailer's weight that is told."""
    told = question.value
    if share is None or not isinstance(told, Quantity):
        return ""
    low, high = (
        kilograms_text(part * told.amount("kg"), unit)
        for part in (share.custom.low, share.custom.high)
    )
    return say("Of {mass} that is {low} to {high}.", mass=figure(told), low=low, high=high)


def _share_told(share: Share | None, question: Question) -> str:
    """'is 11 % tongue ok': where the share that is told stands to what is customary."""
    told = question.value
    if share is None or not isinstance(told, Quantity) or told.unit != "%":
        return ""
    stated = f"{number(told.value, 1 if told.value % 1 else 0)} %"
    if told.value < 100 * share.custom.low:
        return say("{share} is less than is customary.", share=stated)
    if told.value > 100 * share.custom.high:
        return say("{share} is more than is customary.", share=stated)
    return say("{share} is customary.", share=stated)


def _customary(share: Share | None) -> str:
    if share is None:
        return ""
    custom = share.custom
    low, high = number(100 * custom.low, 0), number(100 * custom.high, 0)
    if custom.more_is_steadier:
        return say(
            "Customary is {low}-{high} %; more is steadier, as far as every rating allows.",
            low=low,
            high=high,
        )
    return say("Customary is {low}-{high} %.", low=low, high=high)
