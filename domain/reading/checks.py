"""The walk-round: what was checked, and what was found at fault.

This file decides when a part of the rig and a state of it make a check. Both must be said, in
one clause; a plan to check, or a question about it, is none.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from operator import attrgetter

from domain.entries import EVERY_ONE, MENDED, Check, WordsOf
from domain.reading.fault_before import excepted_from_good, is_part_of_next, named_behind_none
from domain.reading.figures import VOLUME
from domain.reading.listed_parts import (
    MOST_LISTED,
    is_listed,
    lists,
    shares_state_before,
    shares_state_behind,
    strange_items,
)
from domain.reading.other_parts import end_of_name, is_spare_of
from domain.reading.part_names import places, start_of_name
from domain.reading.part_states import (
    IS_SHORTENED,
    LOOKS_OVER,
    UNDONE,
    State,
    state_of_its_own,
    state_told,
    told_of_all,
)
from domain.reading.scene import Scene
from domain.reading.talk import NEGATION, OTHER
from domain.reading.tokens import MARK, NUMBER, WORD
from domain.reading.told_faults import TOLD_FAULTS, read_told_faults
from domain.reading.whose_part import ELSEWHERE, is_elsewhere, of_rig, owner_told_last
from domain.reading.work_logged import WORK, worked_on

MOST_UNKNOWN = 6
"""Words that no phrase knows: more of them, and the message is about something else."""


def read_checks(scene: Scene) -> list[Check]:
    """The checks that a message states."""
    found: list[Check] = []
    items = list(scene.by_class.get("check_item", ()))
    used: set[int] = set()
    elsewhere = not ELSEWHERE.isdisjoint(scene.groups)
    excepting, laden = "excepts" in scene.groups, not WITH.isdisjoint(scene.groups)
    of_another = owner_told_last(scene)
    states: dict[int, tuple[State, int]] = {}
    for number, index in enumerate(items):
        if index in used or not _talk_allows(scene, index) or _is_label(scene, index):
            continue
        if index < of_another:
            continue
        if "subject" in scene.tokens[index].senses and _is_gauged(scene, index):
            continue
        if "thing" in scene.tokens[index].senses and any(f.role == "cargo" for f in scene.figures):
            continue
        if "dispenser" in scene.tokens[index].groups and _pumps_fuel(scene):
            continue
        if _is_where(scene, index):
            continue
        limit = items[number + 1] if number + 1 < len(items) else len(scene.tokens)
        state = state_told(scene, index, limit) or told_of_all(scene, index)
        end = index + 1
        if state is None and not WORK.isdisjoint(scene.groups):
            worked = worked_on(scene, index)
            if worked is not None:
                state, end = ("done", index), worked
        if state is None and "off_already" in scene.tokens[index].groups:
            state = "done", index  # 'gas off'
        start = start_of_name(scene, index)
        if excepting and (state is None or (state[1] < start and _is_excepted(scene, start))):
            excepted = excepted_from_good(scene, index)
            state = None if excepted is None else ("fault", excepted)
        if state is None:
            continue
        if "spare_tyre" in scene.tokens[index].groups and is_spare_of(scene, index, state[1]):
            continue
        if end == index + 1 and end in scene.unknown:
            end = end_of_name(scene, index, state[1])
            if end > index + 1 and _is_compound(scene, index, end - 1):
                continue
        if ONLY_OTHERWISE[state[0]] in scene.tokens[index].groups:
            continue  # 'weighed on the pads, all good', 'the kid's ball is flat'
        if end == limit and end in items and _names_next(scene, index, state[0]):
            continue
        if laden and _is_aboard(scene, start, state[1]):
            continue
        if "heads_load" in scene.tokens[index].groups and _is_rearranged(scene, state[1]):
            continue
        if "fuel_signal" in scene.tokens[index].groups and _warns_of_fuel(scene, start, state[0]):
            continue
        if _everyday(scene, index, start, state[1], found):
            continue
        if elsewhere and is_elsewhere(scene, index, state[1]):
            continue
        if state[0] == "fault":
            behind = items[number + 1] if number + 1 < len(items) else None
            if is_part_of_next(scene, index, state[1], behind):
                continue
            if "leaks_out" in scene.tokens[index].groups and state in states.values():
                continue  # 'left hub weeping grease'
        used.add(index)
        states[index] = state
        righted = state[0] == "fault" and _put_right(scene, max(index, state[1]), limit)
        found.append(
            Check(
                item=named_behind_none(scene, start, end) or _name(scene, start, end),
                state="done" if righted else state[0],
                words=(*_words(scene, start, end), *_mending(scene, state)),
            )
        )
    told = [] if TOLD_FAULTS.isdisjoint(scene.groups) else read_told_faults(scene)
    return [*_with_listed(scene, dict(zip(states, found, strict=True)), states), *told]


def _names_next(scene: Scene, index: int, state: State) -> bool:
    """'coupler pin good': a part whose name goes on in the next; 'chains plug good' are two."""
    if "vehicle" in scene.tokens[index].senses:
        return False
    return state == "fault" or not is_listed(scene, index)


def _is_gauged(scene: Scene, index: int) -> bool:
    """'hubs 120, all cool': a part that was measured; 'tires 80 psi, hubs cool' tells of two."""
    start, end = scene.clause_of(index)
    own = scene.tokens[index].senses["subject"].split()[0]
    read = [figure for figure in scene.figures if figure.role == "observation"]
    alone = all(key.split()[0] == own for _, _, key in scene.find("subject"))
    return bool(read) and (alone or any(start <= figure.start < end for figure in read))


ONLY_OTHERWISE: Mapping[State, str] = {"done": "only_faults", "fault": "only_done"}
"""States, and the group of parts of which only the other one is kept."""


def _is_excepted(scene: Scene, start: int) -> bool:
    """'everything's checked except the breakaway': what was done to all was not done to it."""
    while start and "article" in scene.tokens[start - 1].groups:
        start -= 1
    before = scene.tokens[max(0, start - 2) : start]
    return bool(before) and (
        "excepts" in before[-1].groups
        or (len(before) > 1 and "excepts" in before[0].groups and "for" in before[1].groups)
    )


def _is_where(scene: Scene, index: int) -> bool:
    """'brakes tested at the gate': where it was done; 'had a look at the brakes' looks at them."""
    start = start_of_name(scene, index)
    while start and "article" in scene.tokens[start - 1].groups:
        start -= 1
    before = scene.tokens[max(0, start - 2) : start]
    if not before or "at" not in before[-1].groups:
        return False
    return len(before) == 1 or LOOKS_OVER.isdisjoint(before[0].groups)


def _pumps_fuel(scene: Scene) -> bool:
    """'the first pump was broken, 28.8 gallons': beside a volume it is a station's."""
    return any(figure.dimension == VOLUME for figure in scene.figures)


def _warns_of_fuel(scene: Scene, start: int, state: State) -> bool:
    """'took 31.8, light was on': beside a fill a light of no name tells of low fuel."""
    named = "fuel_signal" not in scene.tokens[start].groups
    return state == "done" and not named and any(each.role == "fill" for each in scene.figures)


def _is_aboard(scene: Scene, start: int, state: int) -> bool:
    """'noseweight 92 kg with the gas bottles in': how it was loaded when it was weighed."""
    if "small_state" not in scene.tokens[state].groups:
        return False
    clause, _ = scene.clause_of(start)
    loads = [each.end for each in scene.figures if each.role == "load"]
    since = max((end for end in loads if clause <= end <= start), default=clause)
    # 'with the spare on and the gas bottles in'
    led = any(not WITH.isdisjoint(token.groups) for token in scene.tokens[since:start])
    return led and bool(loads)


def _is_rearranged(scene: Scene, state: int) -> bool:
    """'got the load sorted, trailer axles now 7,400': how it lay when it was weighed."""
    weighed = any(each.role == "load" for each in scene.figures)
    return weighed and "mends_fault" in scene.tokens[state].groups


WITH = frozenset(("with", "tows"))
"""Groups of 'with' and 'w/'."""


def _words(scene: Scene, start: int, end: int) -> WordsOf:
    """'repacked all the bearings': the words that say that it is of every one of them."""
    index = start - 1
    while index > 0 and "article" in scene.tokens[index].groups:
        index -= 1
    if index < 0 or "every_one" not in scene.tokens[index].groups:
        return ()
    return ((EVERY_ONE, scene.words_between(index, end)),)


def _mending(scene: Scene, state: tuple[State, int]) -> WordsOf:
    """'lights fixed': the word that says that they were at fault, and are so no more."""
    done, at = state
    mended = done == "done" and "mends_fault" in scene.tokens[at].groups
    return ((MENDED, scene.words_between(at, at + 1)),) if mended else ()


def _with_listed(
    scene: Scene, found: dict[int, Check], states: Mapping[int, tuple[State, int]]
) -> list[Check]:
    """The checks with those that share a state: 'checked the lights, chains and the plug'."""
    if not found:
        return []
    parts = len(scene.by_class["check_item"])
    more = parts <= MOST_LISTED and (
        bool(scene.unknown)
        or parts > len(found)
        or not scene.by_class.keys().isdisjoint(("product", "subject"))
    )
    strange = strange_items(scene) if more else {}
    for run in lists(scene, strange) if more else ():
        told = [states[index] for index in run if index in states]
        before = told[0] if told and shares_state_before(scene, run, strange) else None
        behind = told[-1] if told and shares_state_behind(scene, run) else None
        shared = (before is not None and before[0] == "done" and before[1] < run[0]) or (
            behind is not None and behind[0] == "done" and behind[1] > run[-1]
        )
        for index in run if shared else ():
            if index not in found and _talk_allows(scene, index) and not _is_label(scene, index):
                start = strange[index] if index in strange else start_of_name(scene, index)
                name = _name(scene, start, index + 1)
                found[index] = Check(item=name, state="done")
    return [found[index] for index in sorted(found)]


def _put_right(scene: Scene, last: int, limit: int) -> bool:
    """'strap loose, snugged it': what was at fault and is told mended is at fault no more."""
    if "put_right" not in scene.groups:
        return False
    until = limit if limit > last else len(scene.tokens)
    for index in range(last + 1, until):
        token = scene.tokens[index]
        if "put_right" in token.groups and scene.stated(index):
            before = scene.tokens[index - 1]
            # 'need it replaced', 'still not fixed', 'to be torqued'
            if not before.groups & UNDONE and "talk" not in before.senses:
                return True
    return False


def _name(scene: Scene, start: int, end: int) -> str:
    """The item in the message's own words, spelled out where they were cut short: 'trlr brks'.

    So it is where they were written as they are heard: 'the breaks are checked'. A part
    with a letter keeps it: the 'u' of 'u bolt' is no 'you'.
    """
    said = scene.words_between(start, end)
    if said[-2:] in IS_SHORTENED:
        return said[:-2]  # "breakaway's tested"
    tokens, other = scene.tokens[start:end], scene.book.aliases
    if len(tokens[0].raw) == 1:
        return said
    spelled = " ".join([token.text for token in tokens])
    heard = not other.keys().isdisjoint([token.raw.casefold() for token in tokens])
    return spelled if heard or len(spelled) > len(said) else said


def _talk_allows(scene: Scene, index: int) -> bool:
    start, end = scene.clause_of(index)
    of_others = OTHER in scene.talk[start:end]  # 'light's on in Dave's truck'
    if of_others or _asked(scene, index) or _is_order(scene, index) or _was_left(scene, index):
        return False
    return scene.talk[index] in (None, NEGATION)


def _is_order(scene: Scene, index: int) -> bool:
    """'leave the porch light on', 'plug the trailer in': somebody is told to do it."""
    if "tells_to" not in scene.groups:
        return False
    start, _ = scene.sentence_of(index)
    while start < index and "before_question" in scene.tokens[start].groups:
        start += 1
    behind = scene.tokens[start + 1 : start + 2]
    told = "tells_to" in scene.tokens[start].groups and bool(behind)
    return told and not behind[0].groups.isdisjoint(("article", "points_at_a_thing"))


def _was_left(scene: Scene, index: int) -> bool:
    """'left the chocks in', 'forgot to take the chocks out': it is not where it belongs."""
    if "left_so" not in scene.groups:
        return False
    start, _ = scene.clause_of(index)
    for at in range(start, index):
        token = scene.tokens[at]
        if "left_so" in token.groups:
            led = "article" in scene.tokens[at + 1].groups and at + 2 == start_of_name(scene, index)
            return led or LEFT.isdisjoint(token.senses)  # 'left marker light on' is on a side
    return False


LEFT = frozenset(("side", "event"))
"""Classes of term of what is on the left, and of who left."""


def _asked(scene: Scene, index: int) -> bool:
    start, end = scene.sentence_of(index)
    marked = end < len(scene.tokens) and scene.tokens[end].raw == "?"
    # 'are my rear tyres ok'
    return marked or {"auxiliary", "asks_first"} <= scene.tokens[start].groups


def _is_label(scene: Scene, index: int) -> bool:
    """A part that labels a figure ('tires 65 psi') was measured, not checked."""
    place = bisect_right(scene.labels, index, key=attrgetter("start"))
    label = scene.labels[place - 1] if place else None
    if label is None or label.end <= index or label.bound is None:
        return False
    return label.bound.role not in (None, "odometer")  # 'greased the bearings 51,700'


def _all_of_clause(scene: Scene, index: int, state: int) -> bool:
    """'tongue 1,180, lights good': a clause of a part and its state beside a fact of the log."""
    start, end = scene.clause_of(index)
    words = [each for each in scene.tokens[start:end] if each.kind is WORD]
    return (
        start <= state < end
        and len(words) <= FEWEST_WORDS
        and any(figure.role for figure in scene.figures)
    )


FEWEST_WORDS = 3


def _elsewhere(scene: Scene, state: int) -> bool:
    """'straps broke on my bag': what they are of is told behind, and no phrase knows it."""
    behind = scene.tokens[state + 1 : state + 4]
    off = scene.tokens[state].text.endswith(" off")  # 'mirror fell off the wall'
    if not behind or (behind[0].groups.isdisjoint(LEADS_ELSEWHERE) and not off):
        return False
    thing = next((each for each in behind[not off :] if "article" not in each.groups), None)
    if thing is None or thing.kind is not WORD or "carried_thing" in thing.groups:
        return False
    if thing.senses and (thing.senses.keys() != ELSEWHERE_TOO or behind[-1].kind is NUMBER):
        return False  # 'marker light out in lane 4' tells where the rig stood
    place = thing.raw[0].isupper() or "roadside" in thing.groups
    return not ("at" in behind[0].groups and place)  # 'tight at Orchard Hill', 'at the rest area'


ELSEWHERE_TOO = frozenset(("claim",))
"""Classes of term that name what is no rig's: 'battery's dead on my phone'."""

LEADS_ELSEWHERE = frozenset(("at_place", "standing_on", "of", "off", "at", "over_a_thing"))
"""Groups of words that lead to what a part is of, or lies over."""


def _of_a_person(scene: Scene, index: int, start: int) -> bool:
    """'my battery is dead', 'the car's battery': what a person carries, or another car has."""
    tokens = scene.tokens
    if scene.context.units == "us" and "tow_car" in tokens[start].groups:
        return True
    before = tokens[start - 1] if start else None
    owned = before is not None and "of_a_person" in before.groups
    return owned and _is_of(scene, index, "household_part")


def _is_of(scene: Scene, index: int, group: str) -> bool:
    """Whether a part is of a group of words, in its singular or its plural."""
    token = scene.tokens[index]
    if token.text != token.raw.casefold():  # 'spare's flat'
        return group in token.groups
    text = token.text
    return not scene.book.groups[group].isdisjoint((text, f"{text}s", text.removesuffix("s")))


def _of_appliance(scene: Scene, index: int, start: int) -> bool:
    """'dryer drum bearing is toast': the part is of a thing that no phrase knows, and no rig.

    What a house has, too, is of what is carried wherever that stands: 'quad won't start battery
    dead'.
    """
    before = scene.tokens[start - 1] if start else None
    if before is None or before.kind is not WORD:
        return False
    of_thing = not OF_THINGS.isdisjoint(before.groups) and "check_item" not in before.senses
    strange = not (before.senses or before.groups) or of_thing
    strange = strange or before.senses.keys() == ELSEWHERE_TOO
    if not strange and "carried_thing" in scene.groups and _is_of(scene, index, "household_part"):
        first, _ = scene.clause_of(index)
        strange = any("carried_thing" in each.groups for each in scene.tokens[first:start])
    return strange and not of_rig(scene, index)


OF_THINGS = frozenset(("carried_thing", "counts_steps"))
"""Groups of things with parts of their own: a quad's battery, a watch's strap."""


NAMES_RIG = frozenset(("name", "vehicle", "hitch"))
"""Classes of term that name a rig, or what is done to one."""


def _is_compound(scene: Scene, index: int, noun: int) -> bool:
    """'the tire swing broke', but not 'brake lining is worn': no part of a rig nor of a truck.

    Nor is what cannot be touched: 'turn signal etiquette is dead'.
    """
    if scene.book.patterns["abstract"].fullmatch(scene.tokens[noun].text):
        return True
    of_vehicles = "of_vehicles" in scene.tokens[index].groups or of_rig(scene)
    return not of_vehicles and _is_of(scene, index, "everyday_part")


def _everyday(scene: Scene, index: int, start: int, state: int, found: list[Check]) -> bool:
    """An everyday part without a sign of the rig is talk: 'the light is out', 'door shut'."""
    if len(scene.unknown_words()) > MOST_UNKNOWN or _of_a_person(scene, index, start):
        return True
    if _of_appliance(scene, index, start) or (_elsewhere(scene, index) and not of_rig(scene)):
        return True
    if not _is_of(scene, index, "everyday_part"):
        return False
    placed = any(places(scene.tokens[at]) for at in range(start, index)) or any(
        "corner" in each.senses for each in scene.tokens[min(index, state) : max(index, state)]
    )
    several = len({scene.tokens[k].text.rstrip("s") for k in scene.by_class["check_item"]}) > 1
    rig = (
        bool(found)
        or several
        or any(
            at != state
            for key in ("name", "hitch", "weigh_cue", "rig", "bars")
            for at in scene.by_class.get(key, ())
            if scene.tokens[at].groups.isdisjoint(NO_RIG_NAMED)
        )
        or any("talk" not in each.senses for _, each, _ in scene.find("vehicle"))
        or _all_of_clause(scene, index, state)
    )
    if not rig and _elsewhere(scene, state):
        return True
    if state >= scene.sentence_of(index)[1]:
        # 'I check the brakes. All is good.': it was looked at, and found so
        return _is_of(scene, index, "household_part") and not scene.context.hitched
    counted = start > 0 and scene.tokens[start - 1].kind is NUMBER
    # 'odometer 51,252 lights checked': what is the log's counts nothing.
    counted = counted and not any(each.role and each.end == start for each in scene.figures)
    if counted and NAMES_RIG.isdisjoint(scene.by_class):
        return True  # 'picked 41 frames clean'
    strong = "vague_state" not in scene.tokens[state].groups or _is_flat(scene, index, state)
    strong = strong or state_of_its_own(scene.tokens[index], scene.tokens[state]) is not None
    hardly = not _is_of(scene, index, "household_part")
    if "heard_or_shown" in scene.tokens[index].groups and not (rig or placed):
        return True  # 'signals weak out here'
    strong = strong and (hardly or "to_the_eye" not in scene.tokens[state].groups)
    named = sum(1 for at in scene.unknown_words() if at and scene.tokens[at].raw[0].isupper())
    short = len(scene.tokens) - named <= SHORT
    words = sum(1 for t in scene.tokens if t.kind is WORD and "has_done" not in t.groups)
    towing = scene.context.hitched is True and words <= FEWEST_WORDS + 1
    # 'torqued the lugs and fuelled up 24 gal': beside what is logged it is of the same rig
    short = short or any(figure.role in ("odometer", "fill") for figure in scene.figures)
    told = (strong and (hardly or towing) and short) or (towing and _is_sound(scene, index, state))
    # 'odometer 48,052 lights checked': a part and its state, and a reading of the log beside it.
    read = strong and state == index + 1 and any(f.role == "odometer" for f in scene.figures)
    return not (rig or placed or told or read)


NO_RIG_NAMED = frozenset(("is_so", "hitches_a_trailer"))
"""Groups of words of the trade that are everybody's: 'the couch is on the porch', 'drop it'."""

SHORT = 6
"""Tokens of an everyday part and its state, the name of a place aside."""


def _is_flat(scene: Scene, index: int, state: int) -> bool:
    """'spare is flat': of a tyre it is no vague word."""
    flat = "flat_state" in scene.tokens[state].groups
    return flat and "spare_tyre" in scene.tokens[index].groups


def _is_sound(scene: Scene, index: int, state: int) -> bool:
    """'lights good': a part and that it is so, and not a word besides."""
    named = range(start_of_name(scene, index), index + 1)
    return "sound_state" in scene.tokens[state].groups and all(
        at in named
        or at == state
        or token.kind is MARK
        or ("glue" in token.senses and "points_at_a_thing" not in token.groups)
        for at, token in enumerate(scene.tokens)
    )
