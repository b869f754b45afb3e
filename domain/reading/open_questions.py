"""Answers to a question that Drawbar has open.

This file decides whether a message picks one of the choices ('the second', '2', 'trailer
axles'), gives the figure that was in doubt ('neither, 33.8'), or has nothing to do with it. A
message that does not answer is read as if nothing had been asked.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from domain.choices import AS_TYPED, english
from domain.entries import POSITIONS, Entry, Observation, Weighing
from domain.quantities import Quantity
from domain.reading.events_picked import by_event, by_total, had_no_trailer
from domain.reading.figures import Figure
from domain.reading.gauge_doubts import is_of_other_gauge, may_show
from domain.reading.how_it_stood import stood_alone
from domain.reading.label import Label
from domain.reading.mistakes import are_slips
from domain.reading.other_goods import buys_something_else
from domain.reading.phrasebook import Phrasebook
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, NUMBER, WORD
from domain.verdicts import Ask, Choice, Facts

LONGEST = 12


def picked(scene: Scene, asked: Ask) -> Facts | None:
    """The entries of the choice that a message picks, or with the figure that it gives."""
    tokens = [token for token in scene.tokens if token.kind in (WORD, NUMBER)]
    if not tokens or len(tokens) > LONGEST or not asked.choices:
        return None
    by_figure = _by_figure(scene, asked)
    if by_figure is not None or _states_another(scene, asked):
        return by_figure
    chosen = by_position(scene, asked) or _by_size(scene, asked) or _by_unit(scene, asked)
    if chosen is None:
        chosen = _by_rig(scene, asked) or _by_fullness(scene, asked) or _by_product(scene, asked)
        chosen = chosen or by_event(scene, asked) or by_total(scene, asked)
        chosen = chosen or _by_name(scene, asked) or _by_whole(scene, asked)
        chosen = chosen or (_by_gauge(scene, asked) if "subject" in scene.by_class else None)
        chosen = chosen or _by_words(scene, asked)
    if chosen is None and len(asked.choices) == 1 and _agrees(scene):
        chosen = asked.choices[0]
    return Facts(chosen.entries) if chosen is not None else None


def _states_another(scene: Scene, asked: Ask) -> bool:
    """'full tank 12,410 miles, 34.8 gal': a figure of that unit that nobody asked about."""
    if len(scene.figures) < SEVERAL:
        return False
    units = {figure.unit for figure in asked.figures}
    known = {figure.value for figure in asked.figures}
    return any(figure.unit in units and figure.value not in known for figure in scene.live)


SEVERAL = 2


def _words(scene: Scene) -> list[str]:
    words = re.findall(r"[\w.]+", scene.text.casefold().replace("'", ""))
    book = scene.book
    known = (book.words, book.memberships)
    return [
        book.aliases.get(word)
        or (not any(word in table for table in known) and _meant(book, word))
        or word
        for word in words
    ]


def _meant(book: Phrasebook, word: str) -> str | None:
    """The word that an unknown one is short for, or a slip of."""
    return book.spelled_out(word) or book.respelled.get(word)


def _agrees(scene: Scene) -> bool:
    words = _words(scene)
    agreed = bool(words) and words[0] in scene.book.groups["agrees"]
    return agreed and len(words) <= 4 and not scene.figures


def by_position(scene: Scene, asked: Ask) -> Choice | None:
    """'the second', 'option 2', '1', 'first one'; a last is the last, where there are any."""
    if not asked.choices:
        return None
    words, groups, places = _words(scene), scene.book.groups, scene.book.keys["choice"]
    one = groups["one"]
    rest = [word for word in words if word not in groups["answer_filler"] or word in one]
    picks = [word for word in rest if word in places and word not in one]
    if len(picks) == 2 and picks[1] == "1":
        picks.pop()  # '2nd 1'
    if not picks and len(rest) == 1 and rest[0] in one:
        picks = rest
    others = [word for word in rest if word not in places]
    if len(picks) == 1 and not others:
        index = int(places[picks[0]])
        return asked.choices[index] if index < len(asked.choices) else None
    if rest and rest[0] in groups["last_choice"] and len(rest) <= 2:
        return asked.choices[-1]
    if rest and rest[0] in groups["first_choice"] and len(rest) <= 2:
        return asked.choices[0]
    return None


def _by_size(scene: Scene, asked: Ask) -> Choice | None:
    """'the middle one', 'the lower', 'the bigger number'."""
    groups = scene.book.groups
    of_both = scene.phrase_said("of_both") or ""
    rest = set(_words(scene)) - groups["answer_filler"] - groups["figure_word"]
    rest -= set(of_both.split())
    if len(rest) != 1:
        return None
    if rest <= groups["middle_one"] and len(asked.choices) == 3:
        return asked.choices[1]
    if not rest <= groups["lower_one"] | groups["higher_one"]:
        return None
    sized = [
        (values[0], choice)
        for choice in asked.choices
        if (values := _values(choice.entries, asked.about) or values_of(choice.entries))
    ]
    if len(sized) != len(asked.choices) or len({value for value, _ in sized}) < 2:
        return None
    sized.sort(key=lambda pair: pair[0])
    return sized[0][1] if rest <= groups["lower_one"] else sized[-1][1]


def values_of(entries: tuple[Entry, ...]) -> list[float]:
    """Every figure that entries have."""
    found: list[float] = []
    for entry in entries:
        for name in FIELDS:
            value = getattr(entry, name, None)
            if isinstance(value, Quantity):
                found.append(value.value)
        if isinstance(entry, Weighing):
            found.extend(load.value for load in entry.loads.values())
    return found


def with_figure(entry: Entry, value: Figure) -> Entry:
    """An entry with another figure in the place of its own, in its unit where none was said."""
    if isinstance(entry, Weighing):
        loads = {
            where: Quantity(value.value, value.unit or load.unit)
            for where, load in entry.loads.items()
        }
        return replace(entry, loads=loads)
    for name in FIELDS:
        before = getattr(entry, name, None)
        if isinstance(before, Quantity) and value.unit in (None, before.unit):
            change = {name: Quantity(value.value, before.unit)}
            return replace(entry, **change)  # type: ignore[arg-type]
    return entry


FIELDS = ("odometer", "volume", "cost", "unit_price", "value")
"""Fields of an entry that have a figure."""


def _by_unit(scene: Scene, asked: Ask) -> Choice | None:
    """'kilos', 'dollars', 'gallons': the choice whose figure has that unit, and no other has.

    'no, it was 25.2 gal' gives that figure anew.
    """
    units = set()
    for token in scene.tokens:
        if token.kind is not WORD or "answer_filler" in token.groups:
            continue
        senses = token.senses
        if "unit" in senses:
            units.add(senses["unit"])
        elif "money" in senses:
            units.add(senses["money"])
        else:
            return None
    units.update(each.unit for each in scene.figures if each.unit and each.claimed is None)  # '$30'
    if len(units) != 1:
        return None
    unit = units.pop()
    matching = [choice for choice in asked.choices if unit in _units(choice.entries, scene)]
    if len(matching) != 1:
        return None
    (choice,) = matching
    said = [figure for figure in scene.figures if figure.claimed is None and figure.unit == unit]
    if len(said) != 1 or any(_same(said[0].value, each) for each in values_of(choice.entries)):
        return choice
    return replace(choice, entries=tuple(with_figure(each, said[0]) for each in choice.entries))


def _units(entries: tuple[Entry, ...], scene: Scene) -> set[str]:
    found: set[str] = set()
    for entry in entries:
        for name in ("odometer", "volume", "cost", "unit_price", "value", "distance"):
            value = getattr(entry, name, None)
            if isinstance(value, Quantity):
                found.add(value.unit)
        if isinstance(entry, Weighing):
            found.update(load.unit for load in entry.loads.values())
    dollars = {"USD"} if scene.context.currency in found else set()
    return found | dollars


def _by_rig(scene: Scene, asked: Ask) -> Choice | None:
    """'that was with the camper on': the choice in which the rig stood so, and no other."""
    rigs = [{getattr(entry, "rig", None) for entry in choice.entries} for choice in asked.choices]
    if any(len(each) != 1 or None in each for each in rigs):
        return None
    said = {key.split()[0] for _, _, key in scene.find("rig")}
    if not scene.unknown_words():  # 'Unhitched at Larkspur Flats' tells of later
        said |= {HITCHED_OR_NOT[key.split()[0]] for _, _, key in scene.find("hitch")}
    stood = stood_alone(scene) or ("solo" if had_no_trailer(scene) else None)
    stood = stood or (said.pop() if len(said) == 1 else None)
    if stood is None and _with_trailer(scene):
        stood = "hitched"
    stood = stood or _on_or_off(scene)
    if stood == "solo" and not any("solo" in rig for rig in rigs):
        stood = "trailer"
    if stood is None and set().union(*rigs) == {"solo", "trailer"}:
        named = {key for _, _, key in scene.find("vehicle")}
        stood = ALONE.get(named.pop()) if len(named) == 1 else None
    fitting = [choice for choice, rig in zip(asked.choices, rigs, strict=True) if stood in rig]
    return fitting[0] if len(fitting) == 1 else None


def _on_or_off(scene: Scene) -> str | None:
    """'it was still on the truck', 'off the truck': how the trailer stood."""
    switch = scene.book.keys["switch"]
    for index, _, _ in scene.find("vehicle", "truck"):
        before = [word for token in scene.tokens[:index] for word in token.text.split()]
        said = next((switch[word] for word in before[-2:] if word in switch), None)
        if said is not None:
            return HITCHED_OR_NOT[said]
    return None


ALONE = {"truck": "solo", "trailer": "trailer"}
"""How a vehicle stood that is named as the one on the scale."""

HITCHED_OR_NOT = {"hitched": "hitched", "unhitched": "solo"}
"""How the rig stood when that had been done to the trailer."""


def _by_fullness(scene: Scene, asked: Ask) -> Choice | None:
    """'yep, to the brim', 'it wasn't full': the fill that was full, or the one that was not.

    Where only one is offered, fullness is not what the question is about.
    """
    if len(asked.choices) < 2:
        return None
    fills = [{getattr(entry, "full", None) for entry in choice.entries} for choice in asked.choices]
    said = {key for _, _, key in scene.find("full")}
    if not said or not all(each in ({True}, {False}) for each in fills):
        return None
    denied = not scene.book.groups["denies"].isdisjoint(_words(scene))
    full = "false" not in said and not denied
    fitting = [choice for choice, each in zip(asked.choices, fills, strict=True) if full in each]
    return fitting[0] if len(fitting) == 1 else None


def _by_product(scene: Scene, asked: Ask) -> Choice | None:
    """'diesel exhaust fluid': the fill of what is named, and no other."""
    said = {key for _, _, key in scene.find("product")}
    fitting = [
        choice
        for choice in asked.choices
        if {getattr(entry, "product", None) for entry in choice.entries} == said
    ]
    return fitting[0] if len(said) == 1 and len(fitting) == 1 else None


def _by_gauge(scene: Scene, asked: Ask) -> Choice | None:
    """'tire', 'the hub temp': the reading of what is named, and no other."""
    if not all(
        token.kind is MARK or "subject" in token.senses or "answer_filler" in token.groups
        for token in scene.tokens
    ):
        return None
    said = {key.split()[0] for _, _, key in scene.find("subject")}
    fitting = [
        choice
        for choice in asked.choices
        if {entry.subject for entry in choice.entries if isinstance(entry, Observation)} == said
    ]
    return fitting[0] if len(said) == 1 and len(fitting) == 1 else None


def _with_trailer(scene: Scene) -> bool:
    towed = scene.has("vehicle", "trailer") or bool(scene.named("trailer"))
    on = scene.book.keys["switch"]
    return towed and any(
        "with" in token.groups or on.get(token.text) == "hitched" for token in scene.tokens
    )


def _by_name(scene: Scene, asked: Ask) -> Choice | None:
    """'the camper': the choice that is of what is named, and no other, where no more is said."""
    named = {*scene.named("truck"), *scene.named("trailer")}
    if not named or not _speaks_of_rig_alone(scene):
        return None
    fitting = [
        choice
        for choice in asked.choices
        if any(named & {entry.truck, entry.trailer} for entry in choice.entries)
    ]
    return fitting[0] if len(fitting) == 1 < len(asked.choices) else None


def _speaks_of_rig_alone(scene: Scene) -> bool:
    return all(
        token.kind is MARK
        or not OF_THE_RIG.isdisjoint(token.senses)
        or "answer_filler" in token.groups
        for token in scene.tokens
    )


def _by_whole(scene: Scene, asked: Ask) -> Choice | None:
    """'everything on the scale', 'that's truck and trailer': the one that is all of the rig."""
    whole = [
        choice
        for choice in asked.choices
        if any(isinstance(entry, Weighing) and "gross" in entry.loads for entry in choice.entries)
    ]
    if len(whole) != 1 or len(asked.choices) < 2:
        return None
    said = [token for _, token, _ in scene.find("whole", "gross")]
    if not (said or scene.has("rig", "hitched")) or scene.has("hitch") or "?" in scene.text:
        return None
    if any("money_total" in token.groups for token in said):
        return None  # 'so, to sum up'
    return whole[0] if _speaks_of_rig_alone(scene) else None


OF_THE_RIG = frozenset(("glue", "whole", "vehicle", "name", "rig", "weigh_cue", "aboard"))
"""Classes of term with which one says what stood on a scale."""


def _by_words(scene: Scene, asked: Ask) -> Choice | None:
    """The one choice whose label (or entries) the message's words fit, and no other."""
    said = set(_words(scene))
    words = said - scene.book.groups["answer_filler"] - scene.book.groups["agrees"]
    words -= {word for _, token, _ in scene.find("weigh_cue") for word in token.text.split()}
    if not words or _hitches(scene):
        return None
    if scene.book.patterns["as_typed"].search(scene.text):
        typed = [choice for choice in asked.choices if _as_typed(choice)]
        return typed[0] if len(typed) == 1 else None
    # 'just the truck': what tells it from 'truck and trailer' is the small word.
    return _best_fit(scene, asked, words) or _best_fit(
        scene, asked, words | (said & scene.book.groups["alone_word"])
    )


def _hitches(scene: Scene) -> bool:
    """'hooked up the camper': what was done to a trailer tells nothing of what was weighed."""
    for index, _, _ in scene.find("hitch"):
        behind = scene.tokens[index + 1 : index + 3]
        if behind and behind[0].groups & {"article", "our"}:
            behind = behind[1:]
        if behind and not OBJECTS.isdisjoint(behind[0].senses):
            return True
    return False


OBJECTS = frozenset(("name", "vehicle"))
"""Classes of term that a verb of hitching can have as its object."""


def _as_typed(choice: Choice) -> bool:
    return english(choice.label).endswith(AS_TYPED)


def _best_fit(scene: Scene, asked: Ask, words: set[str]) -> Choice | None:
    labels = [
        set(re.findall(r"[\w.]+", english(choice.label).casefold().translate(WITHOUT)))
        for choice in asked.choices
    ]
    scores = [
        sum(_names(scene, word, {*label, *_entry_words(scene, choice)}) for word in words)
        / len(words)
        for choice, label in zip(asked.choices, labels, strict=True)
    ]
    best = max(scores)
    if best < LEAST_FIT:
        return None
    fitting = [index for index, fit in enumerate(scores) if fit == best]
    return asked.choices[fitting[0]] if len(fitting) == 1 else None


LEAST_FIT = 0.6
"""The share of a message's words that a choice must have."""

WITHOUT = str.maketrans("", "", "',")


def _names(scene: Scene, word: str, own: set[str]) -> bool:
    """Whether a word is one of a choice's own, or the chat's own word for one of them."""
    senses = scene.book.words.get(word.translate(scene.book.letters), {})
    keys = {key for name in NAMING for key in senses.get(name, "").split()}
    return word in own or not own.isdisjoint(keys | {f"{key}s" for key in keys})


NAMING = ("axle", "axle_noun", "whole", "vehicle", "rig")
"""Classes of words that tell what was weighed."""


STOOD_ALONE = {"solo": "truck_alone", "trailer": "trailer_alone"}
"""The words for a truck or a trailer weighed by itself, as groups of the phrasebook."""

BESIDE_AXLES = ("t", "gross")
"""Loads that are not of the truck's own axles begin so."""


def _entry_words(scene: Scene, choice: Choice) -> set[str]:
    """Words that name what tells one choice from another."""
    words: set[str] = set()
    for entry in choice.entries:
        if isinstance(entry, Weighing):
            words.update(part for position in entry.loads for part in position.split("_"))
            if entry.rig:
                words.add(entry.rig)
            if entry.rig is None and not any(each.startswith(BESIDE_AXLES) for each in entry.loads):
                words |= scene.book.groups["truck_alone"]
            if entry.rig in STOOD_ALONE:
                words |= scene.book.groups[STOOD_ALONE[entry.rig]]
        for name in ("truck", "trailer", "action", "event", "product", "subject"):
            value = getattr(entry, name, None)
            if isinstance(value, str):
                words.update(value.casefold().split())
    return words


def _by_figure(scene: Scene, asked: Ask) -> Facts | None:
    """A figure: that of one choice picks it; a new one takes the place of the one in doubt."""
    figures = [
        figure
        for figure in scene.figures
        if figure.claimed is None and not (figure.token.said.spoken and figure.value <= 1)
    ]
    if len(figures) != 1:
        return None
    figure = figures[0]
    strangers = [
        token
        for token in scene.tokens
        if token.kind is WORD
        and not token.senses
        and not token.groups & {"answer_filler", "neither", "agrees"}
        and not any(f.start <= scene.tokens.index(token) < f.end for f in figures)
    ]
    doubted = [value for each in asked.choices for value in _values(each.entries, asked.about)]
    slip = figure.foreign is None and any(are_slips(figure.value, value) for value in doubted)
    if len(strangers) > 1 and not slip:
        return None  # '31.3 gal sorry, big thumbs' is the figure anew, whatever stands beside it
    if _is_of_another(scene, figure, asked):
        return None
    read = next((each for each in asked.choices[0].entries if isinstance(each, Observation)), None)
    gauged = read if asked.about == "observation" else None
    if gauged is not None and is_of_other_gauge(figure, gauged):
        return None
    said = [figure.value]
    if asked.about in SAID_IN_DIGITS and figure.token.said.in_digits:
        mills = asked.about == "unit_price" and figure.value >= 1000  # 'three ninety-three nine'
        said.append(figure.value / (1000 if mills else 100))
    matching = [
        choice
        for choice in asked.choices
        if any(_same(one, value) for one in said for value in _values(choice.entries, asked.about))
    ]
    if len(matching) == 1:
        return Facts(matching[0].entries)
    if matching:
        return None
    if figure.value <= len(asked.choices) and figure.whole and figure.unit is None:
        return None
    if isinstance(figure.label, Label) and _names_another(scene, figure.label, asked.about):
        return None
    if gauged is not None and not may_show(scene, figure, gauged):
        return None
    return _replaced(asked, figure.value, figure.unit)


SAID_IN_DIGITS = ("unit_price", "cost")
"""Fields whose point is not spoken."""


ANY_LABEL = ("observation", "rating", "value", "weighing", "cost")
"""What a question may be about whose figure any label can name."""


def _is_of_another(scene: Scene, figure: Figure, asked: Ask) -> bool:
    """'the tank only holds 36', '2,000 lb of gravel', 'dinner was $122': told of something else."""
    before = scene.tokens[max(0, figure.start - 2) : figure.start]
    if any("holds" in token.groups for token in before):
        return True
    behind = scene.tokens[figure.end : figure.end + 2]
    if asked.about in POSITIONS and len(behind) > 1 and "of" in behind[0].groups:
        return behind[1].groups.isdisjoint(("article", "our")) and not behind[1].senses
    return asked.about in SAID_IN_DIGITS and buys_something_else(scene, figure)


def _names_another(scene: Scene, label: Label, about: str) -> bool:
    """'trailer 8,160' is no answer about the steer axle."""
    if about == "cost" and "money_total" in scene.tokens[label.start].groups:
        return False  # 'total was $122.43'
    if (label.subject or label.field or label.rating) and about not in ANY_LABEL:
        return about not in (label.field, label.rating)
    named = label.axle or label.whole or (label.vehicle if label.only_vehicle else None)
    return named is not None and named != about.partition("_")[0]


def _same(one: float, other: float) -> bool:
    return abs(one - other) <= 1e-6 * max(abs(one), abs(other), 1.0)


def _values(entries: tuple[Entry, ...], about: str) -> list[float]:
    found = []
    for entry in entries:
        value = _field(entry, about)
        if isinstance(value, Quantity):
            found.append(value.value)
    return found


def _field(entry: Entry, about: str) -> Quantity | None:
    if isinstance(entry, Weighing) and about in entry.loads:
        return entry.loads[about]
    name = "value" if about in ("observation", "rating", "cargo") else about
    value = getattr(entry, name, None)
    return value if isinstance(value, Quantity) else None


def _replaced(asked: Ask, value: float, unit: str | None) -> Facts | None:
    """The entries of the first choice with the figure in doubt replaced, if it is of that size."""
    entries: list[Entry] = []
    changed = False
    for entry in asked.choices[0].entries:
        before = _field(entry, asked.about)
        if before is None and isinstance(entry, Weighing) and asked.about in POSITIONS:
            # The load in doubt was left out of the choice: beside the others it is like them.
            before = max(entry.loads.values(), key=lambda load: load.value, default=None)
        if before is None or changed:
            entries.append(entry)
            continue
        if not 0.05 * before.value <= value <= 20 * before.value or _as_doubtful(asked, value):
            return None
        if unit is not None and unit != before.unit:
            return None
        after = Quantity(value, before.unit)
        changed = True
        if isinstance(entry, Weighing) and asked.about in POSITIONS:
            entries.append(replace(entry, loads={**entry.loads, asked.about: after}))
        else:
            name = "value" if asked.about in ("observation", "rating", "cargo") else asked.about
            change: dict[str, Any] = {name: after}
            entries.append(replace(entry, **change))
    return Facts(tuple(entries)) if changed else None


def _as_doubtful(asked: Ask, value: float) -> bool:
    """'we drove 10k' below the last reading, '243.36' in a tank: no better than what is asked.

    Of such a doubt the first figure is what was told, and the second what it was held against.
    """
    if len(asked.figures) < SEVERAL or asked.why not in HELD_AGAINST:
        return False
    told, known = asked.figures[:SEVERAL]
    if told.unit != known.unit:
        return False
    if asked.why == "over_tank":
        return value > MUCH_MORE * told.value
    return value < known.value and not are_slips(value, told.value)


HELD_AGAINST = ("over_tank", "backwards", "jump")
"""Doubts about a figure that another one speaks against."""

MUCH_MORE = 1.5
"""So many times what was in doubt as too much puts nothing right."""
