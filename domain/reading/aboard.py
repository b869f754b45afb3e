"""Who was in the truck.

This file decides how many people a message puts aboard ('3 kids + 2 adults', 'me, Wren and the
two little ones'), and which of its words name them: such a name is no place.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.beside import HEADS
from domain.reading.everyday_words import comes_along
from domain.reading.scene import Scene
from domain.reading.tokens import NUMBER, WORD, Token

MOST_ABOARD = 12

ONE = frozenset(("a_thing", "one"))
"""Groups of what counts one person: 'a kid', 'one kid'."""

PAIR = 2

Party = list[tuple[int, int]]
"""Where each of a list of people stands: start, end (exclusive)."""


def people_aboard(scene: Scene) -> int | None:
    """People in the truck: '5 of us', '3 kids + 2 adults', 'just me', 'me and Wren'."""
    if "oneself" not in scene.groups and "aboard" not in scene.by_class:
        return None
    tokens = scene.tokens
    total = in_all = said_at = 0
    uncounted: set[int] = set()
    nobody = False
    party = _party(scene)
    for index, token, key in scene.find("aboard"):
        before = tokens[index - 1] if index else None
        if before is not None and ("pet" in before.groups or _is_age(tokens, index)):
            continue  # '2 dogs aboard', 'two girls aged 4 and 7 aboard'
        if before is not None and index > 1 and _is_said_to_be_in(before):
            if any(start <= index - 1 < end for start, end in party):
                continue  # 'me and my two cousins in the truck': counted with the others
            before = tokens[index - 2]  # '4 guys in the truck'
        nobody = nobody or key == "0"
        if key != "people":
            total += int(key)
        elif before is not None and _counts(before):
            counted = int(before.value)
            total += counted
            if "aboard_or_place" in token.groups:
                in_all, said_at = counted, index
        elif before is not None and before.groups & ONE and _is_one(tokens, index):
            total += 1  # 'two adults and a kid', 'one aboard'
        elif "one_aboard" in token.groups and any(start <= index < end for start, end in party):
            total += 1  # 'me and the baby'
        elif counted := _counted_behind(tokens, index):
            total += counted
        else:
            uncounted.add(index)
    if total and "at_the_wheel" in scene.groups:
        total += any(_drives_them(tokens, index) for index, _, _ in scene.find("aboard"))
    listed = any(start <= said_at < end for start, end in party)  # '3 kids + 2 aboard'
    twice = in_all == total - in_all or (party and in_all >= len(party))
    if in_all and twice and not listed:
        return in_all  # 'missus and me in it so 2 in the truck' says twice who is in it
    total += sum(_more_than_one(tokens, start) for start, _ in party)
    if uncounted.isdisjoint(start for start, _ in party):  # and not 'me and the kids'
        total += sum("aboard" not in tokens[start].senses for start, _ in party)
    if not total and any(
        _with_pet(tokens, index) or _is_in_it(tokens, index) for index in range(len(tokens))
    ):
        return 1
    return total or (0 if nobody else None)


def _drives_them(tokens: Sequence[Token], index: int) -> bool:
    """'driver and 2 kids', 'driver plus a passenger': who drives is one more than are counted."""
    index -= index > 0 and _is_said_to_be_in(tokens[index - 1])
    if index < SHORTEST_COUNT:
        return False
    driver, joins, count = tokens[index - SHORTEST_COUNT : index]
    counted = _counts(count) or not ONE.isdisjoint(count.groups)
    return "at_the_wheel" in driver.groups and "and" in joins.groups and counted


SHORTEST_COUNT = 3
"""Tokens of 'driver and two' before whom it counts."""


def _is_one(tokens: Sequence[Token], index: int) -> bool:
    """Whether one is counted: 'a kid', 'one aboard'; 'the one aboard' is of something else."""
    if "one_aboard" in tokens[index].groups:
        behind = tokens[index + 1] if index + 1 < len(tokens) else None  # 'a baby goat'
        return behind is None or bool(behind.senses) or not behind.raw[0].islower()
    led = index > 1 and "article" in tokens[index - 2].groups
    return "aboard_word" in tokens[index].groups and not led


def _counted_behind(tokens: Sequence[Token], index: int) -> int:
    """'people: 2', '/ crew 2 /': how many, where a mark leads to it, or to both; else none."""
    behind = tokens[index + 1 : index + 3]
    if behind and "counted_crew" in tokens[index].groups and _stand_apart(tokens, index):
        return int(behind[0].value)
    if len(behind) < 2 or behind[0].raw not in HEADS or not _counts(behind[1]):
        return 0
    return int(behind[1].value)


def _stand_apart(tokens: Sequence[Token], index: int) -> bool:
    """Whether a word for people and a count stand between marks or figures."""
    before, behind = tokens[:index][-1:], tokens[index + 2 : index + 3]
    opens = all(each.kind is not WORD for each in before)
    return opens and _counts(tokens[index + 1]) and all(each.kind is not WORD for each in behind)


def _is_said_to_be_in(token: Token) -> bool:
    """'guys', where 'in the truck' behind it says that they are aboard."""
    return "talk" in token.senses and "aboard" not in token.senses


def _with_pet(tokens: Sequence[Token], index: int) -> bool:
    """'me and the dog': one of the two is counted."""
    if "oneself" not in tokens[index].groups:
        return False
    near = tokens[index + 1 : index + 4]
    behind = [each for each in near if "article" not in each.groups and each.kind is not NUMBER]
    return len(behind) > 1 and "and" in behind[0].groups and "pet" in behind[1].groups


def _is_in_it(tokens: Sequence[Token], index: int) -> bool:
    """'8,260 with me in it', 'just the pickup and me': oneself, and nobody else."""
    if "oneself" not in tokens[index].groups or index < 1:
        return False
    before, behind = tokens[max(0, index - 2) : index], tokens[index + 1 : index + 3]
    if len(before) > 1 and not VEHICLES.isdisjoint(before[0].senses) and "and" in before[1].groups:
        return True
    if len(behind) < 2 or "in" not in behind[0].groups:
        return False
    return "it_or_them" in behind[1].groups or not VEHICLES.isdisjoint(behind[1].senses)


VEHICLES = frozenset(("vehicle", "name", "rig"))
"""Classes of term for what somebody sits in."""


def companions(scene: Scene) -> set[int]:
    """Where the words stand that name who came along."""
    return {index for start, end in _party(scene) for index in range(start, end)}


def _party(scene: Scene) -> Party:
    """People who are listed and joined by 'and', with oneself or a count among them."""
    if "oneself" not in scene.groups and "aboard" not in scene.by_class:
        return []
    tokens = scene.tokens
    for start in range(len(tokens)):
        if start == 0 or _leads(tokens[start - 1]):
            party = _listed(tokens, start)
            oneself = any("oneself" in tokens[first].groups for first, _ in party)
            counted = any(_is_counted(tokens[first]) for first, _ in party)
            if oneself or (counted and len(party) == PAIR):  # and not 'Elk Fork, 4 of us and Ida'
                return party
    return []


def _listed(tokens: Sequence[Token], start: int) -> Party:
    """The list that begins there, up to who stands behind the last 'and'; else nobody."""
    party: Party = []
    at, joined, last = start, False, False
    while at < len(tokens):
        while at < len(tokens) and ("article" in tokens[at].groups or _counts(tokens[at])):
            at += 1
        end = _person_end(tokens, at)
        if end == at:
            break
        party.append((at, end))
        at, last = _behind_ages(tokens, end), joined
        end = at
        while at < len(tokens) and (
            "and" in tokens[at].groups or (tokens[at].raw == "," and not joined)
        ):
            joined = joined or "and" in tokens[at].groups
            at += 1
        if at == end:
            break
    return party if last and len(party) >= PAIR else []


def _behind_ages(tokens: Sequence[Token], start: int) -> int:
    """'my two boys (9 and 12)', 'the girls aged 4 and 7': where how old they are ends."""
    at = start
    if at == len(tokens) or not (tokens[at].raw == "(" or "tells_age" in tokens[at].groups):
        return start
    at += 1
    while at < len(tokens) and (
        tokens[at].kind is NUMBER or tokens[at].raw in ",)" or "and" in tokens[at].groups
    ):
        at += 1
        if tokens[at - 1].raw == ")":
            return at
    return start if tokens[start].raw == "(" else at


def _is_age(tokens: Sequence[Token], index: int) -> bool:
    """Whether what stands right before a word is the last of some ages."""
    begins = range(max(0, index - LONGEST_AGES), index)
    return any(
        _behind_ages(tokens, at) == index
        for at in begins
        if "tells_age" in tokens[at].groups or tokens[at].raw == "("
    )


LONGEST_AGES = 7
"""Tokens: 'aged 6, 8 and 11'."""


def _person_end(tokens: Sequence[Token], start: int) -> int:
    """Where one of a list ends: 'me', 'little ones', 'wife', 'Wren Alder'."""
    end = start
    if end < len(tokens) and (
        _is_counted(tokens[end]) or _is_workmate(tokens, end) or comes_along(tokens, end)
    ):
        return end + 1
    while end < len(tokens) and _is_somebody(tokens[end]):
        end += 1
    return end


def _is_workmate(tokens: Sequence[Token], index: int) -> bool:
    """'the two apprentices': several whom no phrase knows, and a count before them."""
    token = tokens[index]
    strange = token.kind is WORD and not token.senses and token.text.endswith("s")
    strange = strange and "pet" not in token.groups
    return strange and index > 0 and _counts(tokens[index - 1])


def _leads(token: Token) -> bool:
    """Whether a list can begin behind a token: a mark, a small word such as 'with', or 'solo'."""
    return token.kind is not WORD or not LEADING.isdisjoint(token.senses)


LEADING = frozenset(("glue", "rig", "level", "bars"))
"""Classes of term behind which a list of people can begin."""


def _counts(token: Token) -> bool:
    return token.kind is NUMBER and token.decimals == 0 and 1 <= token.value <= MOST_ABOARD


def _is_counted(token: Token) -> bool:
    return "oneself" in token.groups or "aboard" in token.senses


def _more_than_one(tokens: Sequence[Token], start: int) -> int:
    """'me and the two apprentices': how many more than one the counted are."""
    before = tokens[start - 1] if start else None
    plain = start < len(tokens) and not _is_counted(tokens[start])
    return int(before.value) - 1 if before is not None and plain and _counts(before) else 0


def _is_somebody(token: Token) -> bool:
    named = not token.senses and token.raw[0].isupper()
    return token.kind is WORD and (named or "family" in token.groups)
