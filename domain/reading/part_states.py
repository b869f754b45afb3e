"""What state a part of the walk-round is told in: done, at fault, or neither.

This file decides which word near a part tells how it is, and what is told of all parts at once;
whether that is kept is decided in `checks`.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from domain.reading.fault_before import (
    comes_from,
    fault_of_part_before,
    is_hot,
    is_missing,
    is_of_part_before,
    replaced_before,
    says_none,
)
from domain.reading.listed_parts import LEADS_LIST, MOST_LISTED, is_listed, strange_items
from domain.reading.other_parts import is_blown_about, nearly_went
from domain.reading.part_names import PLACING, places, start_of_name
from domain.reading.scene import Scene
from domain.reading.talk import NEGATION, PLAN
from domain.reading.tokens import MARK, NUMBER, WORD, Token
from domain.reading.whose_part import of_rig

REACH = 5


State = Literal["done", "fault"]


def state_told(scene: Scene, index: int, limit: int) -> tuple[State, int] | None:
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
        if other > limit and not (_joined_items(scene, index, other) or is_listed(scene, index)):
            break
        if "pronoun" in token.groups:
            if "they" in token.groups and scene.talk[other] is None:
                continue  # 'checked the lights and they work'
            break  # 'a chain for when I move out'
        if not scene.by_class.keys().isdisjoint(SHOWS) and _is_on_dash(scene, other):
            return None if scene.tokens[index].groups.isdisjoint(LIT) else ("fault", other)
        own = state_of_its_own(scene.tokens[index], token)
        if own is not None:
            return own, other
        if "negation" in token.senses.get("talk", "") or "not" in token.groups or says_none(token):
            denied = True
            continue
        if "check_fault" in token.senses:
            if denied:
                return None  # 'tires not worn'
            if "level_shown" in token.groups and "shows_level" in scene.tokens[index].groups:
                return None  # 'fuel gauge is low' tells of the fuel
            if _measures(scene, other) or ("out" in token.groups and _goes_on(scene, other)):
                return None
            if "blew" in token.groups and is_blown_about(scene, other) and not of_rig(scene):
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
                return None  # 'the low tire light came on', 'marker lights stay on'
            if _tells_where(scene, other) or _leads_on(scene, other):
                continue
            if "lamp_on" in token.groups and _may_warn(scene, index):
                return None
            if scene.talk[other] == PLAN or _is_to_come(scene, index, other):
                break
            if _is_attributive(scene, other) or _measures(scene, other):
                return None
            return ("fault" if denied else "done"), other
        if token.kind is NUMBER:
            break
    if index + 1 in scene.unknown and scene.text.endswith(IS_SHORTENED, 0, scene.tokens[index].end):
        return None  # "nuts checked and the plug's stuffed": it has a state of its own
    start = start_of_name(scene, index)
    if _was_walked_round(scene, index, start):
        return "done", index
    if is_missing(scene, index, start):
        return "fault", start - 1
    for other in range(start - 1, max(-1, start - REACH), -1):
        token = scene.tokens[other]
        if token.raw == "," and _state_alone_before(scene, index, other):
            return "done", other - 1
        if token.raw == "," and (fault := fault_of_part_before(scene, index, start)):
            return "fault", fault
        if token.ends_sentence or token.raw == "," or token.groups & LEADS_TO:
            break  # 'connected to a load of ...', 'not bad for a load of ...', 'shot was clutch'
        before = "fault_only_behind" not in token.groups or is_hot(scene, index, other)
        if "check_fault" in token.senses and before:
            if other and _denies(scene.tokens[other - 1]):
                return None  # 'not bad for a load of hives', 'no loose straps'
            if is_of_part_before(scene, index, other) or nearly_went(scene, index, other):
                return None
            if "rises_from" in token.groups and not comes_from(scene, index, other):
                return None
            mended = replaced_before(scene, other)
            return ("fault", other) if mended is None else ("done", mended)
        if "check_done" in token.senses and token.groups.isdisjoint(ONLY_BEHIND):
            if other and not scene.tokens[other - 1].groups.isdisjoint(NO_STATE):
                return None  # 'at the locked gate', 'not checked the tires', 'to be checked: ...'
            if says_none(scene.tokens[start - 1]):
                return None  # 'plugged in, there is no camper plug'
            # 'haven't checked the chains', 'never greased the hubs': nothing was done
            return ("done", other) if scene.talk[other] != NEGATION else None
        if "check_item" in token.senses:
            if is_listed(scene, other):
                continue  # 'checked chains coupler lights brakes'
            break
        named = "glue" in token.senses or not PLACING.isdisjoint(token.senses)
        named = named or "of_a_tyre" in token.groups
        if not named and other < index - 1:
            break  # right before it a word may name it further: 'checked the road lights'
    return None


def _is_attributive(scene: Scene, state: int) -> bool:
    """'is a good film', 'rubbed it off with my good hankie': it is said of another thing."""
    before, behind = scene.tokens[state - 1], scene.tokens[state + 1 : state + 2]
    if "a_thing" in before.groups:
        return True
    noun = bool(behind) and state + 1 in scene.unknown
    return noun and not before.groups.isdisjoint(("article", "our"))


IS_SHORTENED = ("'s", "’s")


def _is_to_come(scene: Scene, index: int, state: int) -> bool:
    """'straps wont be tight enough': what stands between says that it is not so yet."""
    if NOT_SO_YET.isdisjoint(scene.groups):
        return False
    return any(not NOT_SO_YET.isdisjoint(each.groups) for each in scene.tokens[index + 1 : state])


NOT_SO_YET = frozenset(("yet_to_come", "guessed_at"))
"""Groups of words for what will be, or is supposed to be."""


def _denies(token: Token) -> bool:
    return "not" in token.groups or "no_alone" in token.groups


LEADS_TO = frozenset(("to", "for", "was"))
"""Groups of words behind which an item is not what a word before them is said of."""


def state_of_its_own(item: Token, token: Token) -> State | None:
    """'check engine light came on', 'propane off', 'hubs cool'."""
    for items, (words, state) in OWN_STATES.items():
        if items in item.groups and words in token.groups:
            return state
    return None


OWN_STATES: Mapping[str, tuple[str, State]] = {
    "warning_lamp": ("lamp_on", "fault"),
    "let_off": ("turned_off", "done"),
    "runs_hot": ("runs_cool", "done"),
}
"""Groups of items of which a word says otherwise than of others, the word's group, and what."""


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


def told_of_all(scene: Scene, index: int) -> tuple[State, int] | None:
    """'I check the brakes. All is good.': what was looked at, and then how all of it is."""
    if len(scene.by_class["check_item"]) > MOST_LISTED:
        return None
    listed = _state_of_list(scene, index) or _state_ahead_of_list(scene, index)
    if listed is not None:
        return "done", listed
    if scene.groups.isdisjoint(LOOKS_OVER) or "?" in scene.text:
        return None
    start, end = scene.clause_of(index)
    said = scene.tokens[start:end]
    looked = next((t for t in said if not t.groups.isdisjoint(LOOKS_OVER)), None)
    if looked is None or end >= len(scene.tokens):
        return None
    first_person = not scene.tokens[start].groups.isdisjoint(("ours", "oneself"))
    if not (first_person or "looking_over" in looked.groups):
        return None  # 'check the brakes' is said to somebody
    end += scene.tokens[end].ends_sentence or scene.tokens[end].raw == ","
    told = scene.tokens[slice(*scene.clause_of(end))] if end < len(scene.tokens) else []
    words = [token for token in told if token.kind is WORD]
    if not words or words[0].text.split(" ")[0] not in scene.book.groups["all_over"]:
        return None
    good = [token for token in words if "check_done" in token.senses]
    plain = all("glue" in token.senses or token in good for token in words[1:])
    return ("done", scene.tokens.index(good[-1])) if good and plain else None


def _state_of_list(scene: Scene, index: int) -> int | None:
    """'chains, plug, breakaway, all good', 'lights, brakes, checked': where the state stands."""
    if len(scene.by_class["check_item"]) < FEWEST_LISTED or "check_done" not in scene.by_class:
        return None
    start, end = scene.sentence_of(index)
    while end > start and scene.tokens[end - 1].kind is MARK:
        end -= 1
    head = next((at for at in range(start, index) if scene.tokens[at].raw == ":"), None)
    if head is not None and not UNDONE & _groups_of(scene, start, head):
        start = head + 1  # 'did the walk round: chains, plug, all good'
    marks = (at for at in range(end - 1, start, -1) if _parts_list(scene.tokens[at]))
    last = next(marks, start)
    told = range(last + 1, end)
    good = [at for at in told if "check_done" in scene.tokens[at].senses]
    if not good or not _lists_parts(scene, start, last, strange=True):
        return None
    only = all(at in good or _tells_of_all(scene, at) for at in told)
    return good[-1] if only and scene.tokens[-1].raw != "?" else None


def _groups_of(scene: Scene, start: int, end: int) -> frozenset[str]:
    return frozenset().union(*(token.groups for token in scene.tokens[start:end]))


def _state_ahead_of_list(scene: Scene, index: int) -> int | None:
    """'walkaround done: chains, pin', 'checked before we left - straps, lights': where it is."""
    start, end = scene.sentence_of(index)
    before = range(start, index)
    mark = next((at for at in before if scene.tokens[at].raw in LEADS_LIST), None)
    if mark is None:
        mark = next((at for at in before if _ends_walk(scene, at)), start)
    ahead = range(start, mark + 1)
    good = [at for at in ahead if "check_done" in scene.tokens[at].senses]
    strange = not any(at in ahead for at in scene.unknown)  # 'shopping done: chains, beer'
    if not good or scene.tokens[-1].raw == "?":
        return None
    if not _lists_parts(scene, mark + 1, end, strange=strange):
        return None
    told = not scene.has("check_fault") and all(
        scene.talk[at] is None and UNDONE.isdisjoint(scene.tokens[at].groups) for at in ahead
    )
    return good[-1] if told else None


def _ends_walk(scene: Scene, at: int) -> bool:
    """'walk round done lights chains', as thumbs type it: the state of the walk-round itself."""
    walked = at > 0 and "walk_round" in scene.tokens[at - 1].groups
    return walked and "check_done" in scene.tokens[at].senses


def _lists_parts(scene: Scene, start: int, end: int, *, strange: bool) -> bool:
    """Whether there is nothing but a list of parts; some may be such that no phrase knows."""
    said = range(start, end)
    items = [at for at in said if "check_item" in scene.tokens[at].senses]
    if len(items) < FEWEST_LISTED:
        return False
    named = {at for item in items for at in range(start_of_name(scene, item), item)}
    other = [at for at in said if at not in items and at not in named and not _is_plain(scene, at)]
    if not other:
        return True
    if not strange:
        return False
    spans = [(first, last) for last, first in strange_items(scene).items() if last in said]
    amid = len(spans) <= len(items)
    return amid and all(any(first <= at <= last for first, last in spans) for at in other)


def _is_plain(scene: Scene, at: int) -> bool:
    """Whether a token stands in a list and is no part: a mark, 'and', or how all of them are."""
    token = scene.tokens[at]
    told = "check_done" in token.senses or "and" in token.groups
    return token.kind is MARK or told or token.text in scene.book.groups["all_over"]


NO_STATE = frozenset(("article", "not", "not_yet"))
"""Groups of words before a word for a state that tells none of what is behind it."""

UNDONE = frozenset(("not", "to", "not_yet"))
"""Groups of words before which something has not been done: 'not checked', 'to be checked'."""


def _parts_list(token: Token) -> bool:
    return token.kind is MARK or token.raw == ":"


def _tells_of_all(scene: Scene, index: int) -> bool:
    token = scene.tokens[index]
    return "glue" in token.senses or token.text in scene.book.groups["all_over"]


FEWEST_LISTED = 2
"""Parts of a list, behind whose last comma it is told how all of them are."""


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
    """'the shock on the camper is leaking', 'brake light on right side is out': no state."""
    behind = scene.tokens[index + 1 : index + 3]
    if behind and "article" in behind[0].groups:
        behind = behind[1:]
    if not behind:
        return False
    sided = "side" in behind[0].senses and "check_fault" in scene.by_class
    placed = sided or bool(behind[0].senses.keys() & {"vehicle", "name"})
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


def _may_warn(scene: Scene, index: int) -> bool:
    """'def light on', 'low fuel light on': what is left of it, and no part that was looked at.

    A 'trailer brake light' that is on may be the trailer's, or one of the dash, and so may a light
    be that no phrase knows: 'airbag light on'.
    """
    groups = scene.tokens[index].groups
    if "lamp_of_brakes" in groups:
        return True
    before = scene.tokens[index - 1] if index else None
    if before is None:
        return False
    named = before.kind is WORD and "glue" not in before.senses and not places(before)
    return (named and "any_lamp" in groups) or (
        "product" in before.senses or "names_fuel" in before.groups
    )


def _is_on_dash(scene: Scene, index: int) -> bool:
    """'trailer brake light on the dash': what is lit there warns."""
    token, behind = scene.tokens[index], scene.tokens[index + 1 : index + 2]
    led = "standing_on" in token.groups and bool(behind)
    return "on_the_dash" in token.groups or (led and "dash" in behind[0].senses)


SHOWS = frozenset(("dash", "odometer"))
"""Classes of term that a dash is named by."""


LIT = frozenset(("has_to_work", "warning_lamp"))
"""Groups of parts that a dash has a lamp for."""
