"""Answers about the trade's words: what one means, where it stands, and this rig's own figure.

This file decides what stands beside a definition. The definitions are data
(`shared/glossary`); what a figure is worth is decided where it is answered alone.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import datetime

from bot.answers import ahead, fuel, weights
from bot.answers.answer import Answer, Row
from bot.answers.language import say, spoken
from bot.answers.limits import CAUTION
from bot.answers.ratings import rating_row
from bot.answers.words import number
from bot.glossary import glossary_in
from domain.countries import country_of
from domain.glossary import FIGURES, TOPICS, Term
from domain.log import Log, Preferences
from domain.rig import Coupling, rig_of
from domain.verdicts import Question

WORKED_OUT: Mapping[str, Callable[[Log, Preferences, datetime, Question], Answer]] = {
    "weight": weights.weight_answer,
    "tongue": weights.tongue_answer,
    "margin": weights.margin_answer,
    "economy": fuel.economy_answer,
    "range": ahead.range_answer,
}
"""Who knows the figure of a term that is no rating, by its topic."""

SHARES: Mapping[str, Coupling] = {"tongue": "conventional", "pin": "pin"}
"""Terms of which a share of the trailer is customary, and the coupling that it goes with."""


def meaning_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """What the words asked about mean; of a single one also where it stands, and its figure."""
    known = glossary_in(spoken().code).terms
    terms = [known[term] for term in question.meaning]
    first, *others = terms
    if others:
        notes = (*(term.says for term in others), say(CAUTION))
    else:
        notes = (
            _where(first, question.meaning[0], preferences),
            *_worked_out(log, preferences, now, question.meaning[0]),
        )
    return Answer(headline=first.says, rows=_ratings(log, now, question), notes=notes)


def _where(term: Term, name: str, preferences: Preferences) -> str:
    """Where a term stands and what governs, with the share that is customary in the country."""
    if name not in SHARES:
        return term.where
    custom = country_of(preferences.currency).share_of(SHARES[name])
    low, high = (number(100 * each, 0) for each in (custom.low, custom.high))
    return term.where.format(low=low, high=high)


def _ratings(log: Log, now: datetime, question: Question) -> tuple[Row, ...]:
    """The rig's ratings that the words name, as far as they were given."""
    rig = rig_of(log, now)
    wanted = [figure for term in question.meaning for figure in FIGURES.get(term, ())]
    return tuple(
        rating_row(key, rating, now)
        for subject, name in wanted
        for key, rating in rig.ratings.items()
        if key[1] == name and subject in (None, key[0])
    )


def _worked_out(log: Log, preferences: Preferences, now: datetime, term: str) -> tuple[str, ...]:
    """What the log tells of the word, in a sentence."""
    if term not in TOPICS:
        return ()
    topic, field = TOPICS[term]
    asked = Question(topic=topic, field=field)
    return (WORKED_OUT[topic](log, preferences, now, asked).headline,)
