"""The walk-round: what was checked, and what was found at fault.

This file decides when a part of the rig and a state of it make a check. Both must be said, in
one clause; a plan to check, or a question about it, is none.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Mapping, Sequence
from operator import attrgetter
from typing import Literal

from domain.entries import EVERY_ONE, MENDED, Check, WordsOf
from domain.reading.fault_before import (
    excepted_from_good,
    fault_of_part_before,
    is_hot,
    is_missing,
    is_of_part_before,
    is_part_of_next,
    named_behind_none,
    replaced_before,
    says_none,
)
from domain.reading.figures import VOLUME
from domain.reading.other_parts import end_of_name, is_blown_about, nearly_went
from domain.reading.scene import Scene
from domain.reading.talk import NEGATION, OTHER
from domain.reading.tokens import MARK, NUMBER, WORD, Token
from domain.reading.told_faults import TOLD_FAULTS, read_told_faults
from domain.reading.whose_part import ELSEWHERE, OF_A_RIG, is_elsewhere
from domain.reading.work_logged import WORK, worked_on

PLACING = frozenset(("side", "corner", "end", "vehicle", "name", "ordinal", "axle_noun"))
"""What may stand before an item and belongs to its name: 'left marker light'."""


REACH = 5
MOST_UNKNOWN = 6
"""Words that no phrase knows: more of them, and the message is about something else."""

State = Literal["done", "fault"]


def read_checks(scene: Scene) -> list[Check]:
    """The checks that a message states."""
    found: list[Check] = []
    items = list(scene.by_class.get("check_item", ()))
    used: set[int] = set()
    elsewhere = not ELSEWHERE.isdisjoint(scene.groups)
    excepting = "excepts" in scene.groups
    states: dict[int, tuple[State, int]] = {}
    for number, index in enumerate(items):
        if index in used or not _talk_allows(scene, index) or _is_label(scene, index):
            continue
        if "subject" in scene.tokens[index].senses and any(
            figure.role == "observation" for figure in scene.figures
        ):
            continue
        if "thing" in scene.tokens[index].senses and any(f.role == "cargo" for f in scene.figures):
            continue
        if "dispenser" in scene.tokens[index].groups and _pumps_fuel(scene):
            continue
        if _is_where(scene, index):
            continue
        limit = items[number + 1] if number + 1 < len(items) else len(scene.tokens)
        state = _state(scene, index, limit) or _told_of_all(scene, index)
        end = index + 1
        if state is None and not WORK.isdisjoint(scene.groups):
            worked = worked_on(scene, index)
            if worked is not None:
                state, end = ("done", index), worked
        if state is None and "off_already" in scene.tokens[index].groups:
            state = "done", index  # 'gas off'
        start = _start_of_name(scene, index)
        if excepting and (state is None or (state[1] < start and _is_excepted(scene, start))):
            excepted = excepted_from_good(scene, index)
            state = None if excepted is None else ("fault", excepted)
        if state is None:
            continue
        if end == index + 1 and end in scene.unknown:
            end = end_of_name(scene, index, state[1])
            if end > index + 1 and _is_compound(scene, index):
                continue
        if state[0] == "done" and "only_faults" in scene.tokens[index].groups:
            continue  # 'weighed on the pads, all good'
        if end == limit and end in items and not scene.tokens[index].senses.keys() & {"vehicle"}:
            continue
        if _everyday(scene, index, start, state[1], found):
            continue
        if elsewhere and is_elsewhere(scene, index, state[1]):
            continue
        if state[0] == "fault":
            behind = items[number + 1] if number + 1 < len(items) else None
            if is_part_of_next(scene, index, state[1], behind):
                continue
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
    start = _start_of_name(scene, index)
    while start and "article" in scene.tokens[start - 1].groups:
        start -= 1
    before = scene.tokens[max(0, start - 2) : start]
    if not before or "at" not in before[-1].groups:
        return False
    return len(before) == 1 or "looks_over" not in before[0].groups


def _pumps_fuel(scene: Scene) -> bool:
    """'the first pump was broken, 28.8 gallons': beside a volume it is a station's."""
    return any(figure.dimension == VOLUME for figure in scene.figures)


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
    for run in _runs(scene) if found and len(scene.by_class["check_item"]) > len(found) else ():
        told = [states[index] for index in run if index in states]
        first = states.get(run[0])
        last = told[-1] if told else None
        before = first is not None and first[0] == "done" and first[1] < run[0]
        behind = last is not None and last[0] == "done" and last[1] > run[-1]
        for index in run if before or behind else ():
            if index not in found and _talk_allows(scene, index) and not _is_label(scene, index):
                name = _name(scene, _start_of_name(scene, index), index + 1)
                found[index] = Check(item=name, state="done")
    return [found[index] for index in sorted(found)]


def _runs(scene: Scene) -> Iterator[Sequence[int]]:
    """Items with nothing but commas and articles between them; of two, 'and' joins the last."""
    run: list[int] = []
    for index in sorted({*scene.by_class["check_item"], *_strange_items(scene)}):
        between = scene.tokens[run[-1] + 1 : _start_of_name(scene, index)] if run else ()
        # 'lights chains pins brakes all good': a plural begins no other part's name
        joined = bool(between) or (bool(run) and scene.tokens[run[-1]].text[-1:] == "s")
        if not (joined and all(each.raw == "," or each.groups & LISTING for each in between)):
            run = [index]
            continue
        run.append(index)
        if any("and" in each.groups for each in between):
            yield run
            run = []
    behind = scene.tokens[run[-1] + 1 : run[-1] + 3] if len(run) >= LEAST_LISTED else None
    if behind and "all_over" in behind[0].groups:
        behind = behind[1:]  # 'lights, brakes, chains all checked'
    if behind is not None and all(_ends_list(token) for token in behind[:1]):
        yield run


def _ends_list(token: Token) -> bool:
    """A mark, or how all of them are: 'lights, brakes, chains all good'."""
    return token.kind is MARK or "check_done" in token.senses


def _strange_items(scene: Scene) -> list[int]:
    """'chains, clevises and lights': words that no phrase knows, each alone in a list of parts."""
    listed = []
    for index in scene.unknown_words(names=False):
        before, behind = (
            scene.tokens[max(0, index - 1) : index],
            scene.tokens[index + 1 : index + 2],
        )
        opened = bool(before) and (before[0].raw == "," or "and" in before[0].groups)
        closed = not behind or behind[0].kind is not WORD or "and" in behind[0].groups
        if behind and before and _amid_plurals(before[0], scene.tokens[index], behind[0]):
            opened = closed = True
        if opened and (closed or "check_done" in behind[0].senses):
            listed.append(index)
    return listed


def _amid_plurals(before: Token, strange: Token, behind: Token) -> bool:
    """'pins' of 'lights chains pins brakes': nothing but parts, and each of them several."""
    items = "check_item" in before.senses and "check_item" in behind.senses
    return items and before.text[-1:] == strange.text[-1:] == "s"


LEAST_LISTED = 3
"""Parts with nothing but commas between them that make a list without 'and'."""


LISTING = frozenset(("and", "article"))
"""Groups of words that stand in a list."""


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


UNDONE = frozenset(("not", "to", "not_yet"))
"""Groups of words before which what puts something right has not been done."""


def _name(scene: Scene, start: int, end: int) -> str:
    """The item in the message's own words, spelled out where they were cut short: 'trlr brks'.

    So it is where they were written as they are heard: 'the breaks are checked'.
    """
    said = scene.words_between(start, end)
    if said[-2:] in IS_SHORTENED:
        return said[:-2]  # "breakaway's tested"
    tokens, other = scene.tokens[start:end], scene.book.aliases
    spelled = " ".join([token.text for token in tokens])
    heard = not other.keys().isdisjoint([token.raw.casefold() for token in tokens])
    return spelled if heard or len(spelled) > len(said) else said


IS_SHORTENED = ("'s", "’s")


def _talk_allows(scene: Scene, index: int) -> bool:
    start, end = scene.clause_of(index)
    of_others = OTHER in scene.talk[start:end]  # 'light's on in Dave's truck'
    if of_others or _asked(scene, index) or _is_order(scene, index):
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


def _state(scene: Scene, index: int, limit: int) -> tuple[State, int] | None:
    """The first state behind the item in its sentence, else right before it ('crossed chains')."""
    denied = False
    for other in range(index + 1, min(len(scene.tokens), index + 1 + REACH)):
        token = scene.tokens[other]
        if token.ends_sentence and token.raw != "\n":
            break
        if token.kind is MARK and token.raw == ",":
            break
        if "ticks" in token.groups and _ticks_lead(scene):
            break
        if other > limit and not _joined_items(scene, index, other):
            break
        if "pronoun" in token.groups:
            if "they" in token.groups and scene.talk[other] is None:
                continue  # 'checked the lights and they work'
            break  # 'a chain for when I move out'
        own = _state_of_its_own(scene.tokens[index], token)
        if own is not None:
            return own, other
        if "negation" in token.senses.get("talk", "") or "not" in token.groups or says_none(token):
            denied = True
            continue
        if "check_fault" in token.senses:
            if denied:
                return None  # 'tires not worn'
            if _measures(scene, other) or ("out" in token.groups and _goes_on(scene, other)):
                return None
            if "blew" in token.groups and is_blown_about(scene, other) and not _of_rig(scene):
                return None
            if "out" in token.groups and "runs_out" in scene.tokens[index].groups:
                return None  # 'slides are out' in camp: ready for no road, and nothing broken
            if "out" in token.groups and "let_out" in scene.tokens[index].groups:
                return "done", other  # 'awning out'
            return "fault", other
        lowered = "goes_down" in token.groups and "let_down" in scene.tokens[index].groups
        if lowered and other == index + 1:
            return "done", other  # 'steadies down'
        if "check_done" in token.senses:
            if "comes_on" in scene.tokens[other - 1].groups:
                return None  # 'the low tire light came on'
            if _tells_where(scene, other) or _leads_on(scene, other):
                continue
            if "lamp_on" in token.groups and _is_of_fuel(scene, index):
                return None
            attributive = "a_thing" in scene.tokens[other - 1].groups  # 'is a good film'
            if attributive or _measures(scene, other):
                return None
            return ("fault" if denied else "done"), other
        if token.kind is NUMBER:
            break
    start = _start_of_name(scene, index)
    if _was_walked_round(scene, index, start):
        return "done", index
    if is_missing(scene, index, start):
        return "fault", start - 1
    for other in range(index - 1, max(-1, start - REACH), -1):
        token = scene.tokens[other]
        if token.raw == "," and _state_alone_before(scene, index, other):
            return "done", other - 1
        if token.raw == "," and (fault := fault_of_part_before(scene, index, start)):
            return "fault", fault
        if token.ends_sentence or token.raw == "," or token.groups & LEADS_TO:
            break  # 'connected to a load of ...', 'not bad for a load of ...'
        before = "fault_only_behind" not in token.groups or is_hot(scene, index, other)
        if "check_fault" in token.senses and before:
            if other and "not" in scene.tokens[other - 1].groups:
                return None  # 'not bad for a load of hives'
            if is_of_part_before(scene, index, other) or nearly_went(scene, index, other):
                return None
            mended = replaced_before(scene, other)
            return ("fault", other) if mended is None else ("done", mended)
        if "check_done" in token.senses and token.groups.isdisjoint(ONLY_BEHIND):
            if other and not scene.tokens[other - 1].groups.isdisjoint(("article", "not")):
                return None  # 'at the locked gate', 'not checked the tires yet'
            # 'haven't checked the chains', 'never greased the hubs': nothing was done
            return ("done", other) if scene.talk[other] != NEGATION else None
        if "check_item" in token.senses:
            break
        named = "glue" in token.senses or not PLACING.isdisjoint(token.senses)
        named = named or "of_a_tyre" in token.groups
        if not named and other < index - 1:
            break  # right before it a word may name it further: 'checked the road lights'
    return None


LEADS_TO = frozenset(("to", "for"))
"""Groups of words behind which an item is not what a word before them is said of."""

OWN_STATES: Mapping[str, tuple[str, State]] = {
    "warning_lamp": ("lamp_on", "fault"),
    "let_off": ("turned_off", "done"),
    "runs_hot": ("runs_cool", "done"),
}
"""Groups of items of which a word says otherwise than of others, the word's group, and what."""


def _state_of_its_own(item: Token, token: Token) -> State | None:
    """'check engine light came on', 'propane off', 'hubs cool'."""
    for items, (words, state) in OWN_STATES.items():
        if items in item.groups and words in token.groups:
            return state
    return None


def _was_walked_round(scene: Scene, index: int, start: int) -> bool:
    """'did my walk around': it was done; 'did a walk around the block' is no check."""
    if "walk_round" not in scene.tokens[index].groups or _leads_somewhere(scene, index):
        return False
    while start and scene.tokens[start - 1].groups & {"article", "our"}:
        start -= 1
    did = start - 1
    return did >= 0 and "does_it" in scene.tokens[did].groups and scene.stated(did)


def _leads_somewhere(scene: Scene, index: int) -> bool:
    behind = scene.tokens[index + 1 : index + 2]
    return bool(behind) and "article" in behind[0].groups


ONLY_BEHIND = frozenset(("vague_state", "done_only_behind"))
"""Groups of states that stand behind what they are of: 'check out these lights' is no check."""


def _told_of_all(scene: Scene, index: int) -> tuple[State, int] | None:
    """'I check the brakes. All is good.': what was looked at, and then how all of it is."""
    if scene.groups.isdisjoint(LOOKS_OVER) or "?" in scene.text:
        return None
    start, end = scene.sentence_of(index)
    looked = next(
        (t for t in scene.tokens[start:index] if not t.groups.isdisjoint(LOOKS_OVER)), None
    )
    if looked is None or end >= len(scene.tokens):
        return None
    first_person = not scene.tokens[start].groups.isdisjoint(("ours", "oneself"))
    if not (first_person or "looking_over" in looked.groups):
        return None  # 'check the brakes' is said to somebody
    end += scene.tokens[end].ends_sentence
    told = scene.tokens[slice(*scene.sentence_of(end))] if end < len(scene.tokens) else []
    words = [token for token in told if token.kind is WORD]
    if not words or words[0].text.split(" ")[0] not in scene.book.groups["all_over"]:
        return None
    good = [token for token in words if "check_done" in token.senses]
    plain = all("glue" in token.senses or token in good for token in words[1:])
    return ("done", scene.tokens.index(good[-1])) if good and plain else None


LOOKS_OVER = frozenset(("looks_over", "looking_over"))


def _state_alone_before(scene: Scene, index: int, comma: int) -> bool:
    """'fixed, ground wire': a message of a state and what it is of, and nothing else."""
    only = comma == 1 and index + 1 == len(scene.tokens)
    state = scene.tokens[comma - 1]
    return only and "check_done" in state.senses and "vague_state" not in state.groups


def _ticks_lead(scene: Scene) -> bool:
    """'[x] chains', a line each: the signs stand before what they are of, as the first one does."""
    first = next(index for index, token in enumerate(scene.tokens) if "ticks" in token.groups)
    return first < scene.by_class["check_item"][0]


def _tells_where(scene: Scene, index: int) -> bool:
    """'the shock on the camper is leaking': a small word before a vehicle is no state."""
    behind = scene.tokens[index + 1 : index + 3]
    if behind and "article" in behind[0].groups:
        behind = behind[1:]
    placed = bool(behind) and bool(behind[0].senses.keys() & {"vehicle", "name"})
    return placed and "vague_state" in scene.tokens[index].groups


def _leads_on(scene: Scene, index: int) -> bool:
    """'oil on canvas', 'shocks me in this room': a word that leads to something is no state."""
    if "small_state" not in scene.tokens[index].groups or index + 1 == len(scene.tokens):
        return False
    behind = scene.tokens[index + 1]
    if "end" in behind.senses:
        return True  # 'gas bottles up front'
    strange = behind.kind is WORD and not behind.senses and not behind.groups
    return strange or bool(behind.groups & LED_TO)


LED_TO = frozenset(("article", "points_at_a_thing", "from", "some"))
"""Groups of words with which what a preposition leads to begins."""


def _joined_items(scene: Scene, first: int, other: int) -> bool:
    """'chains and breakaway checked': items joined by 'and' share a state."""
    return any("and" in scene.tokens[index].groups for index in range(first, other))


def _goes_on(scene: Scene, index: int) -> bool:
    following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
    return following is not None and "goes_on" in following.groups


def _measures(scene: Scene, index: int) -> bool:
    """'lights out at 10.30', 'battery on 1 bar': a small word and a figure make no state."""
    ahead = scene.tokens[index + 1 : index + 3]
    if ahead and ahead[0].groups & {"at", "to"}:
        ahead = ahead[1:]  # 'trailer brake gain set to 6.5'
    return "vague_state" in scene.tokens[index].groups and bool(ahead) and ahead[0].kind is NUMBER


def _start_of_name(scene: Scene, index: int) -> int:
    start = index
    if index and "part_of_part" in scene.tokens[index].groups:
        before = scene.tokens[index - 1]
        start -= "check_item" in before.senses and "glue" not in before.senses  # 'gate hinge'
    while start > 0 and _places(scene.tokens[start - 1]):
        start -= 1
    return start


def _is_of_fuel(scene: Scene, index: int) -> bool:
    """'def light on', 'low fuel light on': what is left of it, and no part that was looked at."""
    before = scene.tokens[index - 1] if index else None
    return before is not None and ("product" in before.senses or "names_fuel" in before.groups)


def _places(token: Token) -> bool:
    """Whether a word before an item says where it is, and belongs to its name."""
    return not PLACING.isdisjoint(token.senses) and "glue" not in token.senses


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
    if not behind or behind[0].groups.isdisjoint(LEADS_ELSEWHERE):
        return False
    thing = next((each for each in behind[1:] if "article" not in each.groups), None)
    if thing is None or thing.kind is not WORD or thing.senses or "carried_thing" in thing.groups:
        return False
    return not ("at" in behind[0].groups and thing.raw[0].isupper())  # 'tight at Orchard Hill'


LEADS_ELSEWHERE = frozenset(("at_place", "standing_on", "of", "at", "over_a_thing"))
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


def _of_appliance(scene: Scene, start: int) -> bool:
    """'dryer drum bearing is toast': the part is of a thing that no phrase knows, and no rig."""
    before = scene.tokens[start - 1] if start else None
    if before is None or before.kind is not WORD:
        return False
    strange = not (before.senses or before.groups) or "carried_thing" in before.groups
    return strange and not _of_rig(scene)


NAMES_RIG = frozenset(("name", "vehicle", "hitch"))
"""Classes of term that name a rig, or what is done to one."""


def _of_rig(scene: Scene) -> bool:
    return not OF_A_RIG.isdisjoint(scene.by_class)


def _is_compound(scene: Scene, index: int) -> bool:
    """'the tire swing broke', but not 'brake lining is worn': no part of a rig nor of a truck."""
    of_vehicles = "of_vehicles" in scene.tokens[index].groups or _of_rig(scene)
    return not of_vehicles and _is_of(scene, index, "everyday_part")


def _everyday(scene: Scene, index: int, start: int, state: int, found: list[Check]) -> bool:
    """An everyday part without a sign of the rig is talk: 'the light is out', 'door shut'."""
    if len(scene.unknown_words()) > MOST_UNKNOWN or _of_a_person(scene, index, start):
        return True
    if _of_appliance(scene, start) or (_elsewhere(scene, index) and not _of_rig(scene)):
        return True
    if not _is_of(scene, index, "everyday_part"):
        return False
    placed = any(_places(scene.tokens[at]) for at in range(start, index)) or any(
        "corner" in each.senses for each in scene.tokens[min(index, state) : max(index, state)]
    )
    several = len({scene.tokens[k].text.rstrip("s") for k in scene.by_class["check_item"]}) > 1
    rig = (
        bool(found)
        or several
        or any(
            at != state
            for key in ("name", "hitch", "weigh_cue", "rig")
            for at in scene.by_class.get(key, ())
            if "is_so" not in scene.tokens[at].groups  # 'the couch is on the porch'
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
    strong = strong or _state_of_its_own(scene.tokens[index], scene.tokens[state]) is not None
    hardly = not _is_of(scene, index, "household_part")
    named = sum(1 for at in scene.unknown_words() if at and scene.tokens[at].raw[0].isupper())
    short = len(scene.tokens) - named <= SHORT
    words = sum(1 for token in scene.tokens if token.kind is WORD)
    towing = scene.context.hitched is True and words <= FEWEST_WORDS + 1
    # 'torqued the lugs to 110 at 51,250': where work is logged, its reading stands beside it
    short = short or any(figure.role == "odometer" for figure in scene.figures)
    told = (strong and (hardly or towing) and short) or (towing and _is_sound(scene, index, state))
    # 'odometer 48,052 lights checked': a part and its state, and a reading of the log beside it.
    read = strong and state == index + 1 and any(f.role == "odometer" for f in scene.figures)
    return not (rig or placed or told or read)


SHORT = 6
"""Tokens of an everyday part and its state, the name of a place aside."""


def _is_flat(scene: Scene, index: int, state: int) -> bool:
    """'spare is flat': of a tyre it is no vague word."""
    flat = "flat_state" in scene.tokens[state].groups
    return flat and "spare_tyre" in scene.tokens[index].groups


def _is_sound(scene: Scene, index: int, state: int) -> bool:
    """'lights good': a part and that it is so, and not a word besides."""
    named = range(_start_of_name(scene, index), index + 1)
    return "sound_state" in scene.tokens[state].groups and all(
        at in named
        or at == state
        or token.kind is MARK
        or ("glue" in token.senses and "points_at_a_thing" not in token.groups)
        for at, token in enumerate(scene.tokens)
    )
