"""'the back at 1,605': an axle's load, where 'we were back at 1605' tells an hour.

This file decides when a phrase of coming back is the rear end of a vehicle and 'at' instead. It
must be settled before an hour is looked for, which 'at' leads to.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.phrasebook import Phrasebook
from domain.reading.tokens import NO_GROUPS, NO_SENSES, NUMBER, WORD, Token, make_token

WEIGHED = frozenset(("axle", "axle_noun", "end", "vehicle", "name", "whole", "weigh_cue"))
"""Classes of term of which one stands in a message that tells the load of an end."""

LEAST_LOAD = 400
"""Pounds or kilograms: less is no load of an axle."""


def settle_rears(tokens: list[Token], book: Phrasebook) -> bool:
    """Part each phrase of coming back that is an end and its load; whether there were any."""
    found = [
        index
        for index, token in enumerate(tokens)
        if "rear_or_return" in token.groups and _is_end(tokens, index)
    ]
    for index in reversed(found):
        phrase = tokens[index]
        end, _, lead = phrase.text.rpartition(" ")
        parted = phrase.start + len(end)
        tokens[index : index + 1] = [
            _word(end, phrase.start, parted, book),
            _word(lead, phrase.end - len(lead), phrase.end, book),
        ]
    return bool(found)


def _is_end(tokens: Sequence[Token], index: int) -> bool:
    """Whether an article or its like stands before, and a load behind."""
    article = tokens[index - 1] if index else None
    behind = tokens[index + 1] if index + 1 < len(tokens) else None
    if article is None or behind is None or behind.kind is not NUMBER:
        return False
    if "article" not in article.groups:
        parts = article.kind is not WORD or _parts(article)
        return parts and _goes_on(tokens, index, behind)
    if behind.value < LEAST_LOAD:
        return False
    before = tokens[index - 2] if index > 1 else None
    return before is None or before.kind is not WORD or _parts(before)


def _goes_on(tokens: Sequence[Token], index: int, load: Token) -> bool:
    """'steer at 5,580. back at 6,560': an axle was told right before, and no hour has as many."""
    ahead = tokens[max(0, index - FARTHEST) : index]
    told = any(not AXLES.isdisjoint(token.senses) for token in ahead)
    return told and any(token.kind is NUMBER for token in ahead) and LAST_HOUR < load.value < MOST


AXLES = frozenset(("axle", "end"))
FARTHEST = 5
"""Tokens back to the axle before: 'steer at 5,580 lb.'"""

LAST_HOUR, MOST = 2_400, 20_000
"""What no hour is written as, and pounds or kilograms that no axle bears."""


def _parts(before: Token) -> bool:
    """Whether a load may follow: somebody goes 'round the back at 1605'."""
    return "unit" in before.senses or not before.groups.isdisjoint(JOINING)


JOINING = frozenset(("and", "but", "with"))
"""Groups of words that join one load to the next."""


def _word(text: str, start: int, end: int, book: Phrasebook) -> Token:
    term = book.words.get(text, NO_SENSES), book.memberships.get(text, NO_GROUPS)
    return make_token(WORD, text, text, start, end, term)
