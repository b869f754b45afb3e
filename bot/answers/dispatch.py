"""Which function answers what.

This file is the table of contents of the answers: one line a kind of entry, one line a topic
of question, and the rule by which a message that states several things gets one reply. It
words nothing itself beyond naming what else was kept.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from typing import cast

from bot.answers import (
    ahead,
    fuel,
    last_told,
    loading,
    looked_at,
    meanings,
    ratings,
    routine,
    setup,
    spans,
    tiedowns,
    trips,
    upkeep,
    weights,
)
from bot.answers.answer import Answer, joined
from bot.answers.brief import brief
from bot.answers.by_plate import over_plate
from bot.answers.language import say
from bot.answers.words import listed
from bot.report.asking import report_answer
from domain.economy import RECENT
from domain.entries import (
    Cargo,
    Check,
    Entry,
    Fill,
    Hitch,
    Note,
    Observation,
    Odometer,
    Rating,
    Weighing,
)
from domain.log import EVERYTHING, NOTHING, Log, Logged, Preferences, Reach
from domain.quantities import MASSES, Quantity
from domain.verdicts import (
    AGE,
    BEST,
    CARGO,
    CHANGE,
    DONE,
    FAULTS,
    GAUGE,
    HEAVIEST,
    JUDGED,
    LAST_FILL,
    MORE,
    OF_TRIP,
    PAGE,
    PICTURE,
    READING,
    RULE,
    Question,
)

Group = Sequence[Logged[Entry]]
KindAnswer = Callable[[Log, Preferences, datetime, Group], tuple[Answer, Group]]
"""The answer to entries of one kind out of one message, and those of them that it speaks of."""

TopicAnswer = Callable[[Log, Preferences, datetime, Question], Answer]


def _weighed(
    log: Log, preferences: Preferences, now: datetime, group: Group
) -> tuple[Answer, Group]:
    last = cast(Logged[Weighing], group[-1])
    return weights.weighing_answer(log, preferences, now, last), group


def _filled(
    log: Log, preferences: Preferences, now: datetime, group: Group
) -> tuple[Answer, Group]:
    fills = cast(Sequence[Logged[Fill]], group)
    first = next((each for each in fills if each.entry.product != "def"), fills[0])
    return fuel.fill_answer(log, preferences, now, first), (first,)


def _rated(log: Log, preferences: Preferences, now: datetime, group: Group) -> tuple[Answer, Group]:
    entries = [cast(Rating, each.entry) for each in group]
    standing = upkeep.standing_answer(log, entries)
    if standing is not None:
        return standing, group
    return rating_answer(
        log, preferences, entries, setup.ratings_kept(log, preferences, entries)
    ), group


def rating_answer(
    log: Log, preferences: Preferences, ratings: Sequence[Rating], kept: Answer
) -> Answer:
    """What was kept, behind what it makes of the last weighing."""
    over = weights.over_on(log, preferences, ratings)
    return kept if over is None else joined([over, kept])


def _loaded(
    log: Log, preferences: Preferences, now: datetime, group: Group
) -> tuple[Answer, Group]:
    loaded = [cast(Cargo, each.entry) for each in group]
    return routine.cargo_kept(loaded, over_plate(log, preferences, loaded)), group


def _checked(
    log: Log, preferences: Preferences, now: datetime, group: Group
) -> tuple[Answer, Group]:
    return upkeep.checks_answer(log, preferences, now, cast(Sequence[Logged[Check]], group)), group


def _read_off(
    log: Log, preferences: Preferences, now: datetime, group: Group
) -> tuple[Answer, Group]:
    first, keys = min(each.at for each in group), {each.key for each in group}
    before = [
        each.entry
        for each in log.of(Observation)
        if first - A_DAY <= each.at <= first and each.key not in keys
    ]
    read = [cast(Observation, each.entry) for each in group]
    return routine.observations_kept(read, before), group


def _hitched(
    log: Log, preferences: Preferences, now: datetime, group: Group
) -> tuple[Answer, Group]:
    last = group[-1]
    earlier = [each for each in log.of(Hitch) if (each.at, each.key) < (last.at, last.key)]
    before = earlier[-1].entry if earlier else None
    return routine.hitch_kept(cast(Hitch, last.entry), before), group[-1:]


def _odometer(
    log: Log, preferences: Preferences, now: datetime, group: Group
) -> tuple[Answer, Group]:
    return routine.odometer_kept(cast(Odometer, group[-1].entry)), group[-1:]


def _noted(log: Log, preferences: Preferences, now: datetime, group: Group) -> tuple[Answer, Group]:
    return routine.note_kept(cast(Note, group[0].entry)), group[:1]


KINDS: Mapping[type[Entry], KindAnswer] = {
    Weighing: _weighed,
    Fill: _filled,
    Rating: _rated,
    Cargo: _loaded,
    Check: _checked,
    Observation: _read_off,
    Hitch: _hitched,
    Odometer: _odometer,
    Note: _noted,
}
"""Who answers each kind; the first kind in this order that a message states leads its reply."""


def _help(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    return setup.help_answer(preferences)


def _margin(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What is left; of a trailer and a load that is told, what is left with it on."""
    load = question.value
    told = isinstance(load, Quantity) and load.unit in MASSES
    if told and question.trailer and not (question.field or question.rating):
        return loading.whatif_answer(log, preferences, now, question)
    return weights.margin_answer(log, preferences, now, question)


TOPICS: Mapping[str, TopicAnswer] = {
    "weight": weights.weight_answer,
    "margin": _margin,
    "tongue": weights.tongue_answer,
    "ratings": ratings.ratings_answer,
    "whatif": loading.whatif_answer,
    "tiedown": tiedowns.tiedown_answer,
    "economy": fuel.economy_answer,
    "cost": spans.cost_answer,
    "range": ahead.range_answer,
    "distance": spans.distance_answer,
    "plan": ahead.plan_answer,
    "trip": trips.trip_answer,
    "week": spans.week_answer,
    "period": spans.period_answer,
    "upkeep": upkeep.upkeep_answer,
    "help": _help,
}
"""Who answers each topic."""

SHOWN: Mapping[str, TopicAnswer] = {
    "weight": weights.rig_shown,
    "margin": weights.margins_shown,
    "economy": fuel.economy_shown,
    "week": spans.week_answer,
}
"""Who answers a wish for a picture, by its topic."""

PRINTED: Mapping[str, TopicAnswer] = {"trip": report_answer, "period": report_answer}
"""Who answers a wish for pages to print."""

COMPARED: Mapping[str, TopicAnswer] = {"weight": weights.changes_told}
"""Who answers what changed."""

OF_A_TRIP: Mapping[str, TopicAnswer] = {
    "cost": trips.trip_cost_answer,
    "distance": trips.trip_distance_answer,
}
"""Who answers what is asked of a trip and not of a span."""

OPEN_FAULTS: Mapping[str, TopicAnswer] = {"upkeep": upkeep.faults_answer}
RULES: Mapping[str, TopicAnswer] = {"tiedown": tiedowns.rule_answer}
FILLED: Mapping[str, TopicAnswer] = {
    "cost": fuel.last_fill_answer,
    "distance": spans.since_fill_answer,
}
READ: Mapping[str, TopicAnswer] = {"distance": spans.odometer_answer}
MOST: Mapping[str, TopicAnswer] = {"weight": weights.heaviest_answer}
BEST_TANKS: Mapping[str, TopicAnswer] = {"economy": fuel.best_tank_answer}
AGED: Mapping[str, TopicAnswer] = {"upkeep": upkeep.tyre_age_answer}
LOOKED_AT: Mapping[str, TopicAnswer] = {"upkeep": looked_at.done_answer}
GAUGED: Mapping[str, TopicAnswer] = {"upkeep": last_told.gauge_answer}
LOADED: Mapping[str, TopicAnswer] = {"weight": last_told.cargo_answer}
HELD_AGAINST: Mapping[str, TopicAnswer] = {
    "margin": weights.judged_answer,
    "tongue": weights.tongue_judged_answer,
}
LOADABLE: Mapping[str, TopicAnswer] = {"margin": loading.whatif_answer}
"""Who answers what is asked of one thing of a topic: the faults, the rule, the last fill, the
odometer, the heaviest weighing, the best and the worst tank, the age of the tyres, what was looked
at or done, what a gauge read, what was loaded, a load that is told, what can still be loaded."""

ASKED: Mapping[str | None, Mapping[str, TopicAnswer]] = {
    None: TOPICS,
    PICTURE: SHOWN,
    PAGE: PRINTED,
    CHANGE: COMPARED,
    OF_TRIP: OF_A_TRIP,
    FAULTS: OPEN_FAULTS,
    RULE: RULES,
    LAST_FILL: FILLED,
    READING: READ,
    HEAVIEST: MOST,
    BEST: BEST_TANKS,
    AGE: AGED,
    DONE: LOOKED_AT,
    GAUGE: GAUGED,
    CARGO: LOADED,
    JUDGED: HELD_AGAINST,
    MORE: LOADABLE,
}
"""Who answers a question, by the form in which it wants its answer."""

A_DAY = timedelta(days=1)
"""Tyres that were read so long before are the likes of one that is read now; no source."""

LATELY = 250
"""Entries of each kind, the last ones, that an answer about what is on the scale or on the road
now needs; a session at the scale holds a handful."""

REACHES: Mapping[type[Entry], Callable[[datetime, datetime], Reach]] = {
    Weighing: lambda _, last: Reach(latest=LATELY, until=last),
    Fill: lambda now, _: Reach(since=now - RECENT),
    Check: lambda _now, _last: EVERYTHING,
    Rating: lambda _, last: Reach(latest=LATELY, until=last),
    Cargo: lambda _, last: Reach(latest=LATELY, until=last),
    Observation: lambda _, last: Reach(since=last - A_DAY),
    Hitch: lambda _, last: Reach(kinds=(Hitch,), latest=LATELY, until=last),
}
"""How much of the log the answer to each kind looks at, given the time and that of what was
kept; the rest need nothing."""

TOPICS_LATELY = ("weight", "margin", "tongue", "ratings", "whatif", "tiedown", "help")
"""Topics that are about now; the others look back over the whole logbook."""


def reach_of_kept(kept: Group, now: datetime) -> Reach:
    """How much of the log the reply to a message looks at."""
    lead = _lead([each.entry for each in kept])
    reach = REACHES.get(type(lead))
    return NOTHING if reach is None else reach(now, max(each.at for each in kept))


def reach_of_question(question: Question) -> Reach:
    """How much of the log an answer looks at."""
    lately = question.topic in TOPICS_LATELY and question.form != HEAVIEST
    return Reach(latest=LATELY) if lately else EVERYTHING


def _lead(kept: Sequence[Entry]) -> Entry:
    return next(each for kind in KINDS for each in kept if isinstance(each, kind))


def kept_answer(log: Log, preferences: Preferences, now: datetime, kept: Group) -> Answer:
    """One reply to everything that one message stated."""
    lead = type(_lead([each.entry for each in kept]))
    group = [each for each in kept if isinstance(each.entry, lead)]
    answer, spoken_of = KINDS[lead](log, preferences, now, group)
    keys = {each.key for each in spoken_of}
    rest = [brief(each.entry) for each in kept if each.key not in keys]
    return also(answer, rest)


def also(answer: Answer, rest: Sequence[str]) -> Answer:
    """The answer, with what else was kept named in its first note."""
    if not rest:
        return answer
    return replace(
        answer, notes=(say("Also kept: {entries}.", entries=listed(rest)), *answer.notes)
    )


def question_answer(
    log: Log, preferences: Preferences, now: datetime, question: Question
) -> Answer:
    """The answer to a question; what its words mean goes before their figures."""
    if question.meaning:
        return meanings.meaning_answer(log, preferences, now, question)
    return ASKED[question.form][question.topic](log, preferences, now, question)
