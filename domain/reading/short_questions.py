"""Questions of a few words, each understood from its first word to its last.

This file decides which question a message is that one pattern of the language knows whole, once
what is said before and behind out of politeness is taken off: 'any faults open?', 'are we under',
'what did the night cost'. Such words are everyday ones, so a word more makes it another matter.
The patterns are data (`shared/phrasebook/short.en.toml`); they see the words of a message with
the chat's own names, vehicles and numbers each under one sign. What a question names beside its
topic is filled in by `particulars`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import timedelta
from typing import Any

from domain.frozen import changed
from domain.quantities import Quantity
from domain.reading.figures import MASS, Figure
from domain.reading.how_many import how_many
from domain.reading.label import AXLE_AT
from domain.reading.phrasebook import APOSTROPHES
from domain.reading.scene import Scene
from domain.reading.short_words import ShortWords
from domain.reading.spans import read_span
from domain.reading.times import local_time
from domain.reading.tokens import MARK, NUMBER, WORD, Token
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
    READING,
    RULE,
    Question,
)

LONGEST = 24
"""Tokens: a question of few words has no more, politeness included."""

LEAST_SUPPOSED = 45.0
"""Kilograms: what is lighter, people also ask about in a kitchen."""

OWN_TRUCK, OWN_TRAILER, TRUCK, TRAILER, FIGURE = "@k", "@", "%k", "%", "#"
"""The signs under which patterns see the chat's names, other vehicles, and numbers."""

END = "."
"""What stands for the end of a sentence until it is known that nothing stands behind it."""

SHOWN_MARKS = frozenset(("/", '"', "%", "&"))
"""Marks that patterns see; the others only part words."""


def read_short(scene: Scene, words: Sequence[str]) -> Mapping[str, Any] | None:
    """The topic of such a question and what it asks of it, as fields of one; None for another.

    `words` are those of the message.
    """
    short = scene.book.short
    if short is None or len(scene.tokens) > LONGEST or short.heads.isdisjoint(words):
        return None
    marked = scene.tokens[-1].raw.endswith("?")
    if not _may_begin(scene.tokens[0], short, marked=marked):
        return None
    said = _said(scene)
    if not said:
        return None
    if said.partition(" ")[0] in short.leads:
        lead = short.lead.match(said)
        said = said[lead.end() :] if lead else said
    for each in short.fitting(said, marked=marked):
        if each.pattern.fullmatch(said) and _holds(scene, each.name, short):
            return ASKS[each.name]
    return None


def _may_begin(first: Token, short: ShortWords, *, marked: bool) -> bool:
    """Whether such a question begins with that word: most of what people text does not."""
    if first.kind is not WORD or not SIGNED.isdisjoint(first.senses):
        return True
    word = first.text.partition(" ")[0]
    return word in short.leads or bool(short.beginning(word, marked=marked))


SIGNED = frozenset(("name", "vehicle"))
"""Classes of term that patterns see a sign of."""


def with_fields(question: Question, fields: Mapping[str, Any], scene: Scene) -> Question:
    """A question with what its pattern says."""
    said = fields
    match fields.get("form"):
        case "done":
            said = {"item": part_looked_after(scene) or question.item, **said}
        case "gauge":
            said = {**_gauge(scene), **said}
        case "cargo":
            said = {**_loaded(scene), **said}
        case "of_end":
            said = {"field": _axle_of_end(scene)}
        case "judged" if isinstance(question.value, Quantity) and question.value.unit == "%":
            said = {key: value for key, value in said.items() if key != "form"}  # of no limit
    return changed(question, **said)


def _gauge(scene: Scene) -> Mapping[str, Any]:
    """Which gauge is asked of, in the log's word for it, and where: 'left rear'."""
    subject = next((key.split()[0] for _, _, key in scene.find("subject") if key in GAUGES), None)
    if subject is None and "pressure_word" in scene.groups:
        subject = "tyre"  # 'the psi on the left rear'
    places = [
        scene.tokens[at].senses[each].split()[0]
        for at in range(len(scene.tokens))
        for each in ("corner", "side", "end", "vehicle")
        if each in scene.tokens[at].senses
    ]
    where = " ".join(place.replace("_", " ") for place in places if place != "truck")
    parts = [
        scene.words_between(at, at + 1)
        for at, token, _ in scene.find("subject")
        if "pressure_word" not in token.groups  # 'the pressure of the tyres'
    ]
    return {"field": subject, "item": parts[0] if parts else None, "position": where or None}


GAUGES = frozenset(("tyre", "hub", "transmission", "coolant", "oil", "exhaust"))
"""What a gauge is read of that a log can be asked for; the weather is no matter of it."""


def _axle_of_end(scene: Scene) -> str | None:
    """'are we under on the rear': the truck's axle there."""
    ends = [key.split()[0] for _, _, key in scene.find("end")]
    return AXLE_AT.get(ends[0]) if ends else None


def _loaded(scene: Scene) -> Mapping[str, Any]:
    """What of the cargo is asked after: the water, or what stands in a place."""
    water = any("water" in token.groups for token in scene.tokens)
    place = next((word for word in scene.words() if word in scene.book.groups["load_place"]), None)
    return {"item": "water" if water else None, "position": place}


def part_looked_after(scene: Scene) -> str | None:
    """What was looked at or done, in its own words: 'the tow ball' of 'grease the tow ball'."""
    for term_class in LOOKED_AFTER:
        found = scene.find(term_class)
        parts = [at for at, token, _ in found if "chore_verb" not in token.groups]
        if parts:
            return max((scene.words_between(at, at + 1) for at in parts), key=len)
    return None


LOOKED_AFTER = ("check_item", "rating_subject", "whole", "axle_noun")
"""Classes of term for what is looked after, those first that mean nothing else."""


def asks_if_enough(scene: Scene) -> bool:
    """'chains are 5/16 g70, four of em. enough for 8200?': asked of the ties told before."""
    short = scene.book.short
    if short is None or "lashing" not in scene.groups or scene.tokens[-1].raw != "?":
        return False
    start, _ = scene.sentence_of(len(scene.tokens) - 2)
    told = any("lashing" in each.groups for each in scene.tokens[:start])
    if not told or not short.of_others.isdisjoint(scene.words()):
        return False
    said = _said(scene, start)
    if said is None or short.enough.pattern.fullmatch(said) is None:
        return False
    return any(figure.start >= start and _is_load(figure) for figure in scene.figures)


def _is_load(figure: Figure) -> bool:
    if figure.dimension == MASS and figure.unit:
        return Quantity(figure.value, figure.unit).amount("kg") >= LEAST_SUPPOSED
    return figure.unit is None and figure.value >= LEAST_BARE


LEAST_BARE = 400
"""A load of cargo without a unit is no less, in pounds or in kilograms."""


def _said(scene: Scene, start: int = 0) -> str | None:
    """The words as patterns see them; None where a sentence ends before the last word."""
    tokens, signed = scene.tokens[start:], not SIGNED.isdisjoint(scene.by_class)
    said = [
        token.text  # most words stand for themselves
        if token.kind is WORD
        and token.raw == token.text
        and (not signed or SIGNED.isdisjoint(token.senses))
        else _sign(token)
        for token in tokens
    ]
    if END in said:
        end = said.index(END)
        if any(token.kind is not MARK for token in tokens[end:]):
            return None
        said[end:] = [each for each in said[end:] if each != END]
    return " ".join(filter(None, said))


def _sign(token: Token) -> str:
    """What patterns see of a token; nothing of most marks, and an end where one ends a sentence."""
    if token.kind is NUMBER:
        return FIGURE
    if token.kind is MARK and token.raw not in SHOWN_MARKS:
        return END if token.ends_sentence else ""
    senses = token.senses
    if not SIGNED.isdisjoint(senses):
        name, vehicle = senses.get("name"), senses.get("vehicle")
        if name is not None:
            sign = OWN_TRUCK if name.startswith("truck") else OWN_TRAILER
            return f"{token.text.split(' ')[0]} {sign}" if "rig" in senses else sign
        if vehicle != "rig":
            towed = vehicle == "trailer" and "caravan" in token.groups  # a van, where it is one
            if towed or "talk" not in senses:
                return TRUCK if vehicle == "truck" else TRAILER
    owned = token.raw[-2:-1] in APOSTROPHES and token.raw[-1] in "sS"
    return f"{token.text}s" if owned and token.text[-1] != "s" else token.text


def _holds(scene: Scene, name: str, short: ShortWords) -> bool:
    """Whether it is asked of a rig: everyday words alone do not say so."""
    if name in HERE:
        known = scene.context.truck is not None or bool(scene.context.trailers)
        heavy = all(figure.value >= LEAST_GROSS for figure in scene.figures)
        return known and heavy and (name != "period_here" or _is_past(scene))
    if name == "gauge":
        return _gauge(scene)["field"] is not None
    if name in ("mended", "checked"):
        theirs = not short.of_others.isdisjoint(scene.words())
        return not (theirs or _tells_of_us(scene)) and _is_of_rig(scene, short)
    if name == "load_supposed_bare":
        return any(figure.value >= LEAST_MORE for figure in scene.figures)
    return name not in ("load_counted", "load_supposed") or _weighs_enough(scene)


def _tells_of_us(scene: Scene) -> bool:
    """'we're hitched up, brakes tested': what we are, and then what was done; 'were the brakes'."""
    if "ours" not in scene.tokens[0].groups or scene.tokens[-1].raw == "?":
        return False
    _, end = scene.clause_of(0)
    return all(index >= end for index, _, _ in scene.find("check_item"))


def _is_past(scene: Scene) -> bool:
    """'july?', 'and june?': days of the log; a month that comes next is a plan of people's."""
    since, until = read_span(scene)
    last = until or since
    return last is not None and local_time(scene.context).date() - last < LONGEST_AGO


LONGEST_AGO = timedelta(days=183)
"""A month that was longer ago is nearer ahead: 'november?', asked in July, is of plans."""


def _is_of_rig(scene: Scene, short: ShortWords) -> bool:
    """'is the marker light fixed': a part of the rig and nothing else, and not 'is the sink'."""
    unknown = (scene.tokens[index] for index in scene.unknown)
    if any(SMALL.isdisjoint(each.groups) and each.text not in short.heads for each in unknown):
        return False
    parts = [token for _, token, _ in scene.find("check_item")]
    if all("household_part" in each.groups and "chore_word" not in each.groups for each in parts):
        return bool(parts) and not OF_RIG.isdisjoint(scene.by_class)  # 'are the lights fixed'
    return True


def _weighs_enough(scene: Scene) -> bool:
    """'will 800 lb be too much', and not 2 lb of flour; 'if we put 40 lb on the tongue'."""
    if not PLACED.isdisjoint(scene.by_class):
        return True
    loads = [
        Quantity(how_many(scene, figure) * figure.value, figure.unit)
        for figure in scene.figures
        if figure.dimension == MASS and figure.unit
    ]
    return all(load.amount("kg") >= LEAST_SUPPOSED for load in loads)


LEAST_GROSS = 1000
"""A load of a rig without a unit is no less: 'are we under 11,500'."""

LEAST_MORE = 100
"""A load without a unit that would matter is no less: 'would 500 more put us over'."""


ASKS: Mapping[str, Mapping[str, Any]] = {
    "faults": {"topic": "upkeep", "form": FAULTS, "item": None},
    "faults_here": {"topic": "upkeep", "form": FAULTS, "item": None},
    "mended": {"topic": "upkeep", "form": FAULTS, "item": None},
    "unchecked_here": {"topic": "upkeep", "item": "walk-round"},
    "checked": {"topic": "upkeep", "form": DONE},
    "unchecked": {"topic": "upkeep", "item": "walk-round"},
    "due": {"topic": "upkeep"},
    "due_here": {"topic": "upkeep"},
    "tyre_pressure": {"topic": "ratings", "rating": "pressure", "item": None},
    "tyre_age": {"topic": "upkeep", "form": AGE, "item": None},
    "gauge": {"topic": "upkeep", "form": GAUGE},
    "limits_here": {"topic": "ratings"},
    "missing": {"topic": "ratings"},
    "tank_size": {"topic": "ratings", "rating": "tank"},
    "tow_rating": {"topic": "ratings", "rating": "tow"},
    "may_tow": {"topic": "ratings"},
    "tie_rules": {"topic": "tiedown", "form": RULE},
    "ties": {"topic": "tiedown"},
    "ties_here": {"topic": "tiedown"},
    "more": {"topic": "margin", "form": MORE},
    "tongue_judged": {"topic": "tongue", "form": JUDGED},
    "load_supposed_bare": {"topic": "whatif", "rating": None},
    "load_counted": {"topic": "whatif", "item": None},
    "load_supposed": {"topic": "whatif"},
    "changed": {"topic": "weight", "form": CHANGE},
    "tongue": {"topic": "tongue"},
    "tongue_here": {"topic": "tongue"},
    "judged_tow": {"topic": "margin", "form": JUDGED, "rating": "tow"},
    "judged_tow_here": {"topic": "margin", "form": JUDGED, "rating": "tow"},
    "judged": {"topic": "margin", "form": JUDGED},
    "judged_here": {"topic": "margin", "form": JUDGED},
    "margin": {"topic": "margin"},
    "margin_towing": {"topic": "margin", "rating": None},
    "margin_end_here": {"topic": "margin", "form": "of_end"},
    "margin_here": {"topic": "margin"},
    "heaviest": {"topic": "weight", "form": HEAVIEST},
    "cargo": {"topic": "weight", "form": CARGO},
    "cargo_here": {"topic": "weight", "form": CARGO},
    "weight": {"topic": "weight"},
    "weight_here": {"topic": "weight"},
    "cost_best": {"topic": "cost"},
    "last_fill": {"topic": "cost", "form": LAST_FILL},
    "trip_cost": {"topic": "cost", "form": OF_TRIP},
    "cost": {"topic": "cost"},
    "reach": {"topic": "range"},
    "reach_here": {"topic": "range"},
    "plan": {"topic": "plan"},
    "odometer": {"topic": "distance", "form": READING},
    "since_fill": {"topic": "distance", "form": LAST_FILL},
    "since_left": {"topic": "distance", "form": OF_TRIP},
    "distance": {"topic": "distance"},
    "fluid": {"topic": "economy", "product": "def"},
    "best_tank": {"topic": "economy", "form": BEST},
    "economy": {"topic": "economy"},
    "economy_here": {"topic": "economy"},
    "trip": {"topic": "trip"},
    "trip_here": {"topic": "trip"},
    "week_here": {"topic": "week"},
    "week": {"topic": "week"},
    "period": {"topic": "period"},
    "period_here": {"topic": "period"},
    "help": {"topic": "help"},
}
"""What each table of patterns asks, as fields of a question."""

OF_RIG = frozenset(("name", "vehicle"))
"""Classes of term that make a part of a house one of a rig."""

PLACED = frozenset(("axle", "axle_noun", "whole"))
"""Classes of term that say of any load that it is a rig's."""

SMALL = frozenset(("small_word", "tail_word", "now_word", "when_due"))
"""Groups of words that say when something is asked of, and not of what."""

HERE = frozenset(each for each in ASKS if each.endswith("_here")) | {"best_tank"}
"""Tables of words so everyday that only a chat which knows a rig asks it of one: 'over?'."""
