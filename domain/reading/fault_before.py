"""A fault told before the part that it is of: 'no trailer lights', 'hot hub right rear'.

This file decides which words before a part say that it is at fault although they do not elsewhere,
and when a fault before a part is another part's: 'safety pin missing on the coupler'.
"""

from __future__ import annotations

from domain.reading.scene import Scene
from domain.reading.tokens import MARK, WORD, Token


def says_none(token: Token) -> bool:
    """'no', and 'no trailer', which are the first words of 'no trailer lights'."""
    return "no_alone" in token.groups or token.senses.get("rig") == "solo"


def is_missing(scene: Scene, index: int, start: int) -> bool:
    """'no brake lights on the camper': a part whose name tells its place, and that none works.

    `start` is where its name begins.
    """
    if "has_to_work" not in scene.tokens[index].groups or not start:
        return False
    none = scene.tokens[start - 1]
    if not JOINS.isdisjoint(none.groups):
        return _joined_to_missing(scene, index, start - 2)
    if not says_none(none) or not _begins(scene, start - 1):
        return False
    placed = start < index or "no_alone" not in none.groups or " " in scene.tokens[index].text
    placed = placed or _beside_others(scene)
    behind = scene.tokens[index + 1 : scene.clause_of(index)[1]]
    return (placed or _on_vehicle(behind)) and (
        not behind or behind[0].kind is MARK or _on_vehicle(behind) or _goes_on(behind)
    )


def _joined_to_missing(scene: Scene, index: int, before: int) -> bool:
    """'no trailer brakes or lights', 'no brakes and no lights': there is none of either."""
    if before < 1 or "check_item" not in scene.tokens[before].senses:
        return False
    behind = scene.tokens[index + 1 : scene.clause_of(index)[1]]
    ends = not behind or behind[0].kind is MARK or _on_vehicle(behind)
    start = before
    while start > 0 and _singles_out(scene.tokens[start - 1]):
        start -= 1
    return ends and is_missing(scene, before, start)


def named_behind_none(scene: Scene, start: int, end: int) -> str | None:
    """'trailer lights' of 'no trailer lights', where 'no trailer' is one word; else None."""
    if "rig" not in scene.by_class or not start:
        return None
    if scene.tokens[start - 1].senses.get("rig") != "solo":
        return None
    none, _, name = scene.words_between(start - 1, end).partition(" ")
    return name if none.casefold() in scene.book.groups["no_alone"] else None


def _beside_others(scene: Scene) -> bool:
    """'lights good but no brakes', 'hitched the camper, no lights': it is the rig that is told of.

    So it is where another part is, how that is, or what was hitched.
    """
    parts = scene.by_class["check_item"]
    return len(parts) > 1 or "hitch" in scene.by_class or _is_plugged(scene)


def _is_plugged(scene: Scene) -> bool:
    return any("vague_state" not in token.groups for _, token, _ in scene.find("check_done"))


def _begins(scene: Scene, index: int) -> bool:
    """Whether nothing but small words stands before a token in its clause: 'we have no ...'.

    So it is behind 'but', 'plugged in but no trailer brakes', and behind the first of several.
    """
    start, _ = scene.clause_of(index)
    if index > start and "but" in scene.tokens[index - 1].groups:
        return True
    first = index - 1 if index and JOINS.isdisjoint(scene.tokens[index - 1].groups) else index - 2
    if first > start and "check_item" in scene.tokens[first].senses:
        return any(map(says_none, scene.tokens[start:first]))
    return all("glue" in token.senses for token in scene.tokens[start:index])


def _goes_on(behind: list[Token]) -> bool:
    """'no trailer brakes no brake lights', 'no brakes or lights': the next of them."""
    joined = not JOINS.isdisjoint(behind[0].groups)
    return any(
        says_none(token) or (joined and "check_item" in token.senses)
        for token in behind[joined : joined + 1]
    )


JOINS = frozenset(("and", "unsure_which"))
"""Groups of 'and' and 'or', between two things that there are none of."""


def _on_vehicle(behind: list[Token]) -> bool:
    """'on the camper', and nothing else but 'mate'."""
    said = [
        token
        for token in behind
        if token.kind is not MARK and (token.senses or "addresses" not in token.groups)
    ]
    vehicle = bool(said) and not ON_VEHICLE.isdisjoint(said[-1].senses)
    return vehicle and all("glue" in token.senses for token in said[:-1])


VEHICLES = frozenset(("vehicle", "name"))
ON_VEHICLE = VEHICLES | {"side", "corner"}


def is_hot(scene: Scene, index: int, fault: int) -> bool:
    """'hot hub right rear trailer': a clause begins with what no such part should be."""
    hot = "runs_hot" in scene.tokens[index].groups and "too_hot" in scene.tokens[fault].groups
    return hot and fault == index - 1 and _begins(scene, fault)


def is_of_part_before(scene: Scene, index: int, fault: int) -> bool:
    """'safety pin missing on the coupler': what is at fault is named before, and where it is."""
    start, _ = scene.clause_of(fault)
    led = any(not LEADS.isdisjoint(token.groups) for token in scene.tokens[fault + 1 : index])
    off = scene.tokens[fault].text.endswith(" off")
    if off and fault == start and scene.tokens[fault + 1 : index]:
        return True  # 'fell off the ramp': somebody did
    if not (led or off) or fault == start:
        return False
    before = scene.tokens[fault - 1]
    if off and before.kind is WORD:
        return True  # 'mirror came off the bracket', 'picture fell off the door'
    return "check_item" in before.senses and before.groups.isdisjoint(OF_ITS_OWN)


OF_ITS_OWN = frozenset(("of_a_tyre", "leaks_out"))
"""Groups of what is told before a fault and is not at fault itself: a tread, and lost grease."""


LEADS = frozenset(("standing_on", "of"))
"""Groups of words that lead to where it is: 'pin fell out of the coupler'."""


def is_part_of_next(scene: Scene, index: int, fault: int, behind: int | None) -> bool:
    """'tread separating on left rear tire': the tyre `behind` is at fault, and no tread besides.

    So it is with 'grease leaking out of the left hub'.
    """
    if behind is None or fault < index:
        return False
    own = scene.tokens[index].groups
    leads = {"standing_on"} if "of_a_tyre" in own else OUT_OF if "leaks_out" in own else frozenset()
    between = scene.tokens[fault + 1 : behind]
    return fault < behind and any(not leads.isdisjoint(token.groups) for token in between)


OUT_OF = frozenset(("of", "from"))
"""Groups of words that lead to what something leaks out of."""


def comes_from(scene: Scene, index: int, fault: int) -> bool:
    """'smoke from the left trailer brake', and not 'smoke from the tire fire': where it rises."""
    behind = scene.tokens[index + 1 : index + 2]
    strange = bool(behind) and behind[0].kind is WORD and index + 1 in scene.unknown
    return _begins(scene, fault) and not strange


def replaced_before(scene: Scene, fault: int) -> int | None:
    """'replaced the blown tire with the spare': what was done about a fault, before it."""
    verb = fault - 1
    while verb > 0 and "article" in scene.tokens[verb].groups:
        verb -= 1
    mends = verb >= 0 and "put_right" in scene.tokens[verb].groups and scene.stated(verb)
    return verb if mends else None


def fault_of_part_before(scene: Scene, index: int, start: int) -> int | None:
    """'found a crack in the sidewall, left trailer tire': a fault, and then what it is of."""
    behind = scene.tokens[index + 1 : index + 2]
    if scene.tokens[start - 1].raw != "," or (behind and behind[0].kind is not MARK):
        return None
    first, end = scene.clause_of(start - 2)
    if not any("of_a_tyre" in scene.tokens[at].groups for at in range(first, end)):
        return None
    faults = (at for at in range(first, end) if "check_fault" in scene.tokens[at].senses)
    return next(faults, None)


def excepted_from_good(scene: Scene, index: int) -> int | None:
    """'all good but the left marker light': where it is said that nothing else is at fault.

    So it is of the parts that are named, if no more is said: 'lights good except the left blinker'.
    What has to work is at fault then; chains may only not be hooked yet.
    """
    if "has_to_work" not in scene.tokens[index].groups:
        return None
    start, _ = scene.sentence_of(index)
    at = index - 1
    while at > start and _singles_out(scene.tokens[at]):
        at -= 1
    if at <= start or "excepts" not in scene.tokens[at].groups:
        return None
    good = at - 1 - (scene.tokens[at - 1].raw == ",")
    told = [each.text.split(" ")[0] for each in scene.tokens[max(start, good - 1) : good + 1]]
    well = good >= start and "sound_state" in scene.tokens[good].groups
    if not well:
        return None
    if scene.book.groups["all_over"].isdisjoint(told):
        ends = index + 1 == scene.clause_of(index)[1]
        parts = any("check_item" in each.senses for each in scene.tokens[start:good])
        return at if ends and parts else None
    return at


def _singles_out(token: Token) -> bool:
    """'for the left' of 'except for the left marker light'."""
    led = not token.groups.isdisjoint(("article", "for")) and "excepts" not in token.groups
    return led or not PLACES.isdisjoint(token.senses)


PLACES = frozenset(("side", "corner", "end", "vehicle", "name", "ordinal"))
"""Classes of term that say which of several parts it is."""
