"""Corrections of a time: 'that fill was yesterday', 'the weighing was at 2pm'.

This file decides whether a message says when something happened that was texted before: it points
at an entry, tells a time and says nothing else. When that was is worked out in `times`, which
entries it moves is for the logbook to find.
"""

from __future__ import annotations

from datetime import date, datetime

from domain.entries import DAY_SAID, Correction, WordsOf
from domain.reading.ago import read_ago
from domain.reading.figures import DURATION
from domain.reading.scene import Scene
from domain.reading.times import clock_told, find_when, local_time, zone_of
from domain.reading.tokens import MARK, NUMBER, TIME
from domain.reading.undoing import KIND_OF

LONGEST = 16
"""Tokens of 'oh and I forgot to say that last fill was from thursday, not today, sorry'."""

SAYS_WHEN = frozenset(("was_then", "dates_entry"))
"""Groups of words of which one stands where a time is put right."""


def time_meant(scene: Scene) -> Correction | None:
    """'that fill was yesterday', 'that was saturday's fill', 'backdate that fill to friday'."""
    tokens = scene.tokens
    if len(tokens) > LONGEST or "?" in scene.text:
        return None
    told = [index for index in range(len(tokens)) if _tells_time(scene, index)]
    if not told or not all(_is_small(scene, index) for index in range(len(tokens))):
        return None
    entry = next((i for i in range(1, len(tokens)) if not NAMING.isdisjoint(tokens[i].groups)), 0)
    if not entry or not (_was_then(scene, entry, told) or _is_dated(scene, entry, told)):
        return None
    split = next((i for i in range(told[0], len(tokens)) if "contrasts" in tokens[i].groups), None)
    value = _moment(scene, (0, split) if split else None)
    if value is None:
        return None
    was = _moment(scene, (split, len(tokens))) if split else None
    return Correction(
        action="amend",
        field="at",
        value=value.isoformat(),
        was=was.isoformat() if was else None,
        words=_words(scene, entry, told),
    )


NAMING = frozenset(("entry_noun", "logged_entry"))
"""Groups of words for an entry: one that says its kind, 'entry' and 'reading'."""

KIND_DATED = {**KIND_OF, "fee": "weighing"}
"""What kind of entry a noun of a class names; 'the weighing was' tells else what it cost."""


def _words(scene: Scene, entry: int, told: list[int]) -> WordsOf:
    """The kind that is named, the time in the message's words, and that a day is among them."""
    noun = scene.tokens[entry]
    kind = next((kind for sense, kind in KIND_DATED.items() if sense in noun.senses), None)
    said = [("value", scene.words_between(told[0], told[-1] + 1))]
    if kind:
        said.insert(0, (kind, noun.raw))
    clock = clock_told(scene)
    if any(index != clock for index in told):
        said.append((DAY_SAID, said[-1][1]))
    return tuple(said)


def _moment(scene: Scene, span: tuple[int, int] | None) -> datetime | date | None:
    local = local_time(scene.context)
    passed = read_ago(scene, local)
    if passed is not None:
        return passed
    found = find_when(scene, local, span, asked=True)
    return None if found is None else found.moment(zone_of(scene.context), scene.context)


def _tells_time(scene: Scene, index: int) -> bool:
    token = scene.tokens[index]
    if token.kind is TIME or "time" in token.senses:
        return True
    if token.kind is NUMBER:
        beside = scene.tokens[max(0, index - 2) : index + 3]
        dated = any(each.senses.get("time") == "month" or each.raw == "/" for each in beside)
        return dated or _is_duration(scene, index)
    return scene.book.patterns["day_of_month"].fullmatch(token.text) is not None


def _is_duration(scene: Scene, index: int) -> bool:
    """'2 hours ago'."""
    return "ago" in scene.groups and any(
        figure.dimension == DURATION and figure.start <= index < figure.end
        for figure in scene.figures
    )


def _is_small(scene: Scene, index: int) -> bool:
    """Whether a word tells a time, names an entry or leads to either: nothing else is said."""
    token = scene.tokens[index]
    return (
        token.kind is MARK
        or not SMALL.isdisjoint(token.senses)
        or not token.groups.isdisjoint(OF_A_TIME)
        or _tells_time(scene, index)
        or _is_duration(scene, index)
    )


OF_A_TIME = NAMING | {"dates_entry", "dates_it", "date_word", "owns_up"}
"""Groups of words of which a correction of a time is made up."""

SMALL = frozenset(("glue", "ordinal", "correction"))
"""Classes of term that say nothing of their own beside a time and an entry."""


def _was_then(scene: Scene, entry: int, told: list[int]) -> bool:
    """'that fill was yesterday', 'that was saturday's fill': what is pointed at, and when it was.

    The last one was at any time: that one takes it back needs a word for it.
    """
    tokens = scene.tokens
    was = next((i for i in range(told[0]) if "was_then" in tokens[i].groups), None)
    if not was:
        return False
    named = "entry_noun" in tokens[entry].groups  # 'that was friday's reading': of anybody
    if entry > told[0]:
        return named and entry == told[-1] + 1 and "points_at_a_thing" in tokens[was - 1].groups
    before = tokens[:entry]
    pointed = any("points_at_a_thing" in token.groups for token in before)
    named = pointed or (named and any("the" in token.groups for token in before))
    last = any("ordinal" in token.senses for token in before)
    owned = "contrasts" in scene.groups or "owns_up" in scene.groups or scene.has("correction")
    return entry <= was and named and (pointed or owned or not last)


def _is_dated(scene: Scene, entry: int, told: list[int]) -> bool:
    """'backdate that fill to friday', 'change the date of the weighing to july 9'."""
    tokens = scene.tokens
    verb = next((i for i in range(entry) if "dates_entry" in tokens[i].groups), None)
    if verb is None:
        return False
    leads = tokens[told[0] - 1].groups | tokens[told[0] - 2].groups
    dated = any("date_word" in token.groups for token in tokens[:entry])
    return entry < told[0] and (dated or not leads.isdisjoint(("to", "dates_it")))
