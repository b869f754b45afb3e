"""Odometer readings, and what happened where they were taken.

This file decides when a figure is the odometer: by its label, by its unit and size, or because
it follows on from the last reading the chat knows; and which of leaving, arriving and turning
round goes with it. A reading below the last, or far above it, is asked about.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Sequence
from itertools import pairwise
from operator import attrgetter
from typing import Literal, cast

from domain.choices import ChoiceLabel
from domain.context import Context
from domain.entries import Entry, Odometer
from domain.quantities import Quantity, converted
from domain.reading.claimed_dates import is_bare_year
from domain.reading.doubts import Doubt
from domain.reading.figures import BARE_STEP, DISTANCE, NEXT_READING, Figure, follows_odometer
from domain.reading.label import Label
from domain.reading.logged_late import is_of_earlier_day
from domain.reading.scene import Scene
from domain.reading.switched_at import switched_at
from domain.reading.tokens import NUMBER, WORD, Token
from domain.reading.work_logged import WORK
from domain.verdicts import Choice

LEAST, LARGEST = 100, 2_000_000
"""Miles or kilometres: what an odometer that is read out shows, at least and less than."""

FARTHEST_EVENT = 14
"""Words, and what parts them, between a reading and what happened there."""

TURNED = 3
"""Words: so much nearer is turning round than leaving or arriving, as it says more."""

Event = Literal["depart", "arrive", "turnaround"]


def read_odometers(scene: Scene) -> list[Odometer] | Doubt:
    """The odometer readings that a message states, a doubt about one, or none."""
    readings: list[Odometer] = []
    leg = _leg(scene)
    for figure in scene.live:
        if figure.role is not None or figure.dimension not in (None, DISTANCE):
            continue
        if not LEAST <= figure.value < LARGEST:
            continue
        if figure.foreign is not None and not _tells_of_others(scene, figure):
            continue
        event = _event(scene, figure)
        if not (figure in leg or _is_odometer(scene, figure, event)):
            continue
        value = _quantity(scene.context, figure)
        reading = Odometer(
            odometer=value,
            event=event,
            words=(("odometer", scene.words_between(figure.start, figure.end)),),
        )

        def again(odometer: Quantity, event: Event | None = event) -> Odometer:
            return Odometer(odometer=odometer, event=event)

        doubt = odometer_doubt(scene, value, again)
        if doubt is not None:
            return doubt
        figure.role = "odometer"
        readings.append(reading)
    return readings


def _is_odometer(scene: Scene, figure: Figure, event: Event | None) -> bool:
    label = figure.label
    if isinstance(label, Label):
        if label.field == "odometer":
            known = scene.context.odometer
            follows = known is not None and 0 <= figure.value - known.value <= BARE_STEP
            named = not label.compound and _surely_odometer(scene, label)
            return follows or named
        # 'greased the bearings 51,700': where work is logged, a gauge's name reads nothing
        served = label.subject is not None and (
            scene.has("check_done") or not WORK.isdisjoint(scene.groups)
        )
        if label.bound is figure and not (label.only_vehicle or served):
            return False
        if label.axle or label.wheel or label.whole:
            return False
    if figure.value < 1000 or is_bare_year(figure):
        return False
    known = scene.context.odometer
    follows = known is not None and 0 <= figure.value - known.value <= BARE_STEP
    told = event is not None or scene.has("hitch") or _stops_there(scene, figure)
    if figure.dimension == DISTANCE:
        few = known is None and _little_else(scene, figure)
        return follows or (figure.value >= 10_000 and (told or few))
    if not _odometer_form(figure):
        return False
    rounded = figure.value % ROUND == 0
    if follows:
        plain = _little_else(scene, figure) or _logs_work(scene, figure)
        return told or (not rounded and plain) or switched_at(scene, figure) is not None
    exact = figure.value >= 5_000 and not (figure.token.said.scaled or rounded)
    # Far below the last reading it is another thing; a little below, one was read wrongly.
    mistaken = event is not None and known is not None and figure.value >= known.value / 2
    apart = known is None or (mistaken and figure.value < known.value)
    return apart and told and exact and _strangers(scene) <= 2 and _only_one(scene)


def _tells_of_others(scene: Scene, figure: Figure) -> bool:
    """'home safe 51,744 ponies all fine': behind what it read at home, how everybody is."""
    if not figure.start or "event" not in scene.by_class:
        return False
    tokens, before = scene.tokens, figure.start - 1
    while before in scene.unknown and tokens[before].raw[0].isupper():
        before -= 1  # 'got to Sagebrush Downs 165,340 ponies are good'
    if before < 0 or "event" not in tokens[before].senses:
        return False
    behind = tokens[figure.end + 1 : figure.end + 2]
    told = any(not HOW_THEY_ARE.isdisjoint(token.groups) for token in behind)
    return told and follows_odometer(figure.value, scene.context)


HOW_THEY_ARE = frozenset(("every_one", "auxiliary"))
"""Groups of words behind a noun of which something is told: 'ponies all', 'dogs are'."""


def _stops_there(scene: Scene, figure: Figure) -> bool:
    """'stopped to water the horses 48,330'; 'stopped at 48330 Elm' is somebody's address."""
    if scene.phrase_said("stops_there") is None:
        return False
    behind = scene.tokens[figure.end : figure.end + 1]
    named = bool(behind) and behind[0].kind is WORD and behind[0].raw[0].isupper()
    return not (named and figure.start and "at" in scene.tokens[figure.start - 1].groups)


def _leg(scene: Scene) -> Sequence[Figure]:
    """'day 2: 48,120 to 48,420': a day's readings from and to, the first behind what is known."""
    known, figures = scene.context.odometer, scene.live
    if known is None or len(figures) < READINGS:
        return ()
    for one, other in pairwise(figures):
        joined = other.start - one.end
        if joined > 1 or (joined and "spans_road" not in scene.tokens[one.end].groups):
            continue
        if any(each.role or each.dimension not in (None, DISTANCE) for each in (one, other)):
            continue
        if isinstance(one.label, Label) and one.label.field != "odometer":
            continue
        runs = (
            0 <= one.value - known.value <= BARE_STEP and 0 < other.value - one.value <= MOST_A_DAY
        )
        if runs and one.whole and other.whole and _is_only_of_the_road(scene):
            return one, other
    return ()


READINGS = 2
MOST_A_DAY = 1_500
"""Miles or kilometres: nobody tows farther in a day."""


def _logs_work(scene: Scene, figure: Figure) -> bool:
    """'greased zerks, repacked bearings 51,210': a part, what was done to it, and the reading."""
    start, _ = scene.clause_of(figure.start)
    parts = any(start <= index < figure.start for index in scene.by_class.get("check_item", ()))
    return (
        parts
        and _strangers(scene) <= MOST_STRANGE
        and any(
            start <= index < figure.start
            and scene.stated(index)
            and "vague_state" not in scene.tokens[index].groups
            for index in scene.by_class.get("check_done", ())
        )
    ) or (parts and _names_work(scene, start, figure.start))


def _names_work(scene: Scene, start: int, end: int) -> bool:
    """'tire rotation 51,300', 'oil changed yesterday at 51,300': hardly a stranger beside it."""
    named = any(not token.groups.isdisjoint(WORK) for token in scene.tokens[start:end])
    strange = [
        at for at in scene.unknown_words(names=False) if WORK.isdisjoint(scene.tokens[at].groups)
    ]
    return named and not strange and "coming_up" not in scene.groups


MOST_STRANGE = 2


def _only_one(scene: Scene) -> bool:
    """Whether one figure could be the odometer's: of several, none is."""
    large = [each for each in scene.figures if each.dimension is None and each.value >= 1000]
    return len([each for each in large if each.claimed is None]) == 1


ROUND = 1_000
"""Miles or kilometres: a figure so round is rather a count than what an odometer shows."""


def _surely_odometer(scene: Scene, label: Label) -> bool:
    """'just hit 30k' is one where the truck is spoken of, or the unit of a road."""
    if "weak_odometer" not in scene.tokens[label.start].groups:
        return True
    road = any(figure.dimension == DISTANCE for figure in scene.figures)
    return road or scene.has("vehicle") or bool(scene.named("truck"))


def _strangers(scene: Scene) -> int:
    """Lower-case words that no phrase knows, the name of a place aside."""
    return sum(1 for i in scene.unknown_words(names=False) if not _is_place(scene, i))


def _is_only_of_the_road(scene: Scene) -> bool:
    """Whether every word is known or one that a day on the road is told in: 'lunch stop'."""
    return all(
        _is_place(scene, i) or not scene.tokens[i].groups.isdisjoint(OF_THE_ROAD)
        for i in scene.unknown_words(names=False)
    )


OF_THE_ROAD = frozenset(("short_of_it", "on_the_way", "of_a_day"))
"""Groups of words that a day on the road is told in: 'almost home', 'lunch stop', 'day 2'."""


def _is_place(scene: Scene, index: int) -> bool:
    """'at the campground', 'at Pell woolshed'."""
    before = scene.tokens[max(0, index - 2) : index]
    return bool(before) and (
        "at" in before[-1].groups
        or (len(before) > 1 and "at_alone" in before[0].groups and "the" in before[1].groups)
        or (before[-1].raw[0].isupper() and not before[-1].senses and _is_place(scene, index - 1))
    )


def _odometer_form(figure: Figure) -> bool:
    return figure.token.decimals <= 1 and not figure.marked


def _little_else(scene: Scene, figure: Figure) -> bool:
    """A bare reading: hardly a word that the phrasebook does not know."""
    return _is_only_of_the_road(scene) and not any(
        other is not figure
        and other.role is None
        and other.claimed is None
        and not _is_of_trip(scene, other)
        for other in scene.figures
    )


def _is_of_trip(scene: Scene, figure: Figure) -> bool:
    """'trip 212.4, 51,402', 'did 212 miles, now at 51,402': how far one came."""
    if figure.value > LONGEST_TRIP:
        return False
    metered = isinstance(figure.label, Label) and figure.label.field == "trip_meter"
    before = scene.tokens[figure.start - 1] if figure.start else None
    named = before is not None and "trip_word" in before.groups
    return metered or named or figure.dimension == DISTANCE


LONGEST_TRIP = 1_500
"""Miles or kilometres: a trip meter shows less."""


def _is_next(scene: Scene, figure: Figure, index: int) -> bool:
    """Whether a reading stands right behind the word for what happened there."""
    return figure.start == index + 1 and follows_odometer(figure.value, scene.context)


def _event(scene: Scene, figure: Figure) -> Event | None:
    """Leaving, arriving or turning round, in the figure's clause before any other."""
    if "event" not in scene.by_class:
        return None
    in_turn = _in_turn(scene, figure)
    if in_turn is not None:
        return in_turn
    found: list[tuple[int, str]] = []
    start, end = scene.sentence_of(figure.start)
    figures = [other for other in scene.figures if other.claimed is None]
    reach = FARTHEST_EVENT + TURNED
    nearby = range(max(0, figure.start - reach), min(len(scene.tokens), figure.end + reach))
    for index in scene.by_class["event"]:
        if index not in nearby:
            continue
        token = scene.tokens[index]
        if not scene.stated(index) and "home" not in token.groups:
            continue
        if "home" in token.groups and (is_ahead(scene, index) or _is_left(scene, index)):
            continue
        if "is_where" in token.groups and _tells_where(scene, index):
            continue
        if "home" in token.groups and _was_there(scene, index):
            continue
        if "left" in token.groups and _is_rest(scene, index):
            continue
        if "stops_there" in scene.groups and _stopped_since(scene, index, figure):
            continue
        behind = scene.tokens[index + 1 : index + 2]
        if behind and "no_destination" in behind[0].groups:
            continue  # 'off to bed'
        heads = bool(behind) and behind[0].kind is NUMBER and index >= figure.end
        distance = min(abs(index - figure.start), abs(index - figure.end + 1))
        low, high = min(index, figure.start), max(index, figure.end)
        parted = [token.raw for token in scene.tokens[low:high]].count(",")
        distance += (3 if len(figures) > 1 else 1) * parted
        if not start <= index < end:
            distance += 6
        kind = token.senses["event"].split()[0]
        if "home" in token.groups:
            distance += 3  # 'left home' is no arrival
        if kind == "turnaround":
            distance -= TURNED
        if heads:
            if any(_is_next(scene, each, index) for each in figures):
                continue  # 'depart 48,010 arrive 48,310'
            distance += 1
        nearest = _nearest(figures, index) if len(figures) > 1 else figure
        if nearest is not figure and nearest.role == "odometer":
            continue  # 'left at 51,300, now at 51,410': one reading has it
        if nearest is not figure and nearest.role is not None:
            distance += 1
        found.append((distance, kind))
    if not found:
        return None
    best = min(found)
    turned = best[1] == "depart" and any(kind == "turnaround" for _, kind in found)
    if turned and len(figures) == 1:
        return "turnaround"  # 'headed back at 51,302, that's our turnaround'
    alone = len(figures) == len(scene.by_class["event"]) == 1
    return cast(Event, best[1]) if best[0] <= FARTHEST_EVENT + alone * TURNED * 2 else None


def _in_turn(scene: Scene, figure: Figure) -> Event | None:
    """'left at 6:10, 48,050 showing, and pulled in at 11:45, 48,318': each its own, in turn."""
    if not 1 < len(scene.by_class["event"]) <= MOST_IN_TURN:
        return None
    events = [
        (index, key.split()[0])
        for index, _, key in scene.find("event")
        if not _is_left(scene, index)
    ]
    readings = [other for other in scene.figures if other.claimed is None]
    if len(events) != len(readings) or figure not in readings:
        return None
    turns = [
        at for event, other in zip(events, readings, strict=True) for at in (event[0], other.start)
    ]
    if turns != sorted(turns) or not all(scene.stated(index) for index, _ in events):
        return None
    return cast(Event, events[readings.index(figure)][1])


def _is_left(scene: Scene, index: int) -> bool:
    """'left home', 'set off from home': where one comes from, and no arrival."""
    before = scene.tokens[index - 1] if index else None
    if before is None or "home" not in scene.tokens[index].groups:
        return False
    return "from" in before.groups or before.senses.get("event", "").startswith("depart")


def _stopped_since(scene: Scene, index: int, figure: Figure) -> bool:
    """'left at 6:45, stopped at 8 for coffee, 51,240': what it read at the stop, and not before."""
    stops = (at for at in range(index + 1, figure.start) if _stops(scene.tokens[at]))
    return any(scene.clause_of(at)[0] > index for at in stops)


def _stops(token: Token) -> bool:
    return "stops_there" in token.groups


MOST_IN_TURN = 30
"""Events that one message tells: no day has more, and each figure looks at them all."""


def _nearest(figures: Sequence[Figure], index: int) -> Figure:
    """The figure that stands nearest to a token, the first of two."""
    behind = bisect_left(figures, index, key=attrgetter("start"))
    around = figures[max(behind - 1, 0) : behind + 1]
    return min(around, key=lambda figure: abs(figure.start - index))


def is_ahead(scene: Scene, index: int) -> bool:
    """'home by dark', 'enough to get us home', 'halfway home': where one has not come to yet."""
    following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
    if following is not None and (
        "until_then" in following.groups
        or (following.kind is WORD and not (following.senses or following.groups))
    ):
        return True  # and 'the home yard'
    before = scene.tokens[max(0, index - FARTHEST_AIM) : index]
    if before and ("short_of_it" in before[-1].groups or "on_the_way" in before[-1].groups):
        return True  # 'almost home', 'on the way home'
    return any(
        "to" in one.groups and "gets_there" in other.groups for one, other in pairwise(before)
    )


FARTHEST_AIM = 3
"""Tokens from 'to' to where one wants to get: 'to get us home'."""


def _tells_where(scene: Scene, index: int) -> bool:
    """'standing here pumping': where somebody does something, and nobody came."""
    before = scene.tokens[index - 1] if index else None
    return before is not None and before.kind is WORD and not before.senses


def _was_there(scene: Scene, index: int) -> bool:
    """'hooked up at home', 'swapped trailers at home': where it was done, and nobody came there."""
    before = scene.tokens[index - 1] if index else None
    if before is None or "at" not in before.groups:
        return False
    start, end = scene.sentence_of(index)
    if any(start <= other < end for other, _, _ in scene.find("hitch", "hitched")):
        return True
    return "swaps" in scene.groups and any("swaps" in t.groups for t in scene.tokens[start:index])


def _is_rest(scene: Scene, index: int) -> bool:
    """'half a tank left', 'left mirror': what is left, and on which side; nobody left."""
    behind = scene.tokens[index + 1 : index + 2]
    if behind and "check_item" in behind[0].senses and "vehicle" not in behind[0].senses:
        return True
    before = scene.tokens[index - 1] if index else None
    return before is not None and bool(
        before.senses.keys() & {"tank", "unit", "product", "level", "fuel_level"}
        or before.groups & {"fuel", "tank"}
    )


def _quantity(context: Context, figure: Figure) -> Quantity:
    if figure.dimension == DISTANCE and figure.unit:
        return Quantity(figure.value, figure.unit)
    return Quantity(figure.value, context.odometer_unit)


def odometer_doubt(
    scene: Scene, reading: Quantity, again: Callable[[Quantity], Entry]
) -> Doubt | None:
    """A reading that runs backwards or jumps; `again` builds the entry with another reading.

    What was read on an earlier day may be less than the last one.
    """
    known = scene.context.odometer
    if known is None:
        return None
    ahead = reading.amount(known.unit) - known.value
    if 0 <= ahead <= NEXT_READING:
        return None
    if -BARE_STEP <= ahead < 0 and is_of_earlier_day(scene):
        return None
    choices = [Choice(ChoiceLabel("number_as_typed", reading), (again(reading),))]
    choices.extend(
        Choice(ChoiceLabel("number", mended), (again(mended),))
        for mended in _mended(reading, known)
    )
    why = "backwards" if ahead < 0 else "jump"
    return Doubt("odometer", why, (reading, known), tuple(choices))


def _mended(reading: Quantity, known: Quantity) -> list[Quantity]:
    """Readings that two neighbouring digits swapped, or one slipped, would explain."""
    digits = f"{reading.value:.0f}"
    swapped = [
        digits[:at] + digits[at + 1] + digits[at] + digits[at + 2 :]
        for at in range(len(digits) - 1)
    ]
    slipped = [
        f"{digits[:at]}{digit}{digits[at + 1 :]}"
        for at, each in enumerate(map(int, digits))
        for digit in (each - 1, each + 1)
        if 0 <= digit <= 9
    ]
    values = map(float, dict.fromkeys(each for each in swapped + slipped if each != digits))
    mended = [
        value
        for value in values
        if 0 <= converted(value, reading.unit, known.unit) - known.value <= 600
    ]
    return [Quantity(value, reading.unit) for value in mended[:2]]
