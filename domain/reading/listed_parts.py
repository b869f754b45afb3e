"""Parts of the rig in a list: which of them stand in one, and what else is one of them.

This file decides which parts are listed, with commas or without, and which words that no phrase
knows as a part are one because they stand amid such: 'chains, gas locker, clevises and lights'.
What state they are in is decided in `part_states`, and what is kept in `checks`.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from domain.reading.part_names import is_of_many, start_of_name
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, WORD, Token

LISTING = frozenset(("and", "article"))
"""Groups of words that stand in a list."""

LEAST_LISTED, COUPLE = 3, 2
"""Parts with nothing but commas between them that make a list, amid a sentence and as one."""

MOST_LISTED = 60
"""Parts of one message: in what has more, each is looked at for itself."""

LONGEST_STRANGE = 2
"""Words of a part that no phrase knows: 'gas locker', 'stow box'."""

IS_DOING = "ing"
"""How a word of two ends that is what somebody does: 'checked the chains, Bert sleeping'."""

LEADS_LIST = frozenset((":", "-", "–", "—"))
"""Marks between a state and the parts that are all in it."""

PARTS = frozenset((",", "/", *LEADS_LIST))
"""Marks between what is listed, and between a list and what is told of it."""


def is_listed(scene: Scene, index: int) -> bool:
    """'chains coupler plug all good': one of several parts that are said without a comma.

    One before the last is of many, or the first is a walk-round, or there are four of them: no
    name is so, as 'coupler pin' and 'gas bottle strap' are.
    """
    start = end = index
    while start and "check_item" in scene.tokens[start - 1].senses:
        start -= 1
    while end + 1 < len(scene.tokens) and "check_item" in scene.tokens[end + 1].senses:
        end += 1
    ahead = scene.tokens[start:end]
    if not ahead or all("walk_round" in token.groups for token in scene.tokens[start : start + 2]):
        return False  # 'pre-trip walkaround'
    several = any(is_of_many(token) for token in ahead) or "walk_round" in ahead[0].groups
    return several or len(ahead) >= LONGEST_NAME


LONGEST_NAME = 3
"""Parts in the name of one: 'gas bottle strap'."""


def lists(scene: Scene, strange: Mapping[int, int]) -> Iterator[Sequence[int]]:
    """Items with nothing but commas, 'and' and articles between them: where each of them ends.

    `strange` has the items that no phrase knows, as `strange_items` finds them.
    """
    run: list[int] = []
    for index in sorted({*scene.by_class["check_item"], *strange}):
        start = strange[index] if index in strange else start_of_name(scene, index)
        if run and start <= run[-1]:
            run[-1] = index  # 'awning latch' is one part
            continue
        between = scene.tokens[run[-1] + 1 : start] if run else ()
        # 'lights chains pins brakes all good': a plural begins no other part's name
        joined = bool(between) or (bool(run) and is_of_many(scene.tokens[run[-1]]))
        ended = index in strange and _is_joined(scene, run)  # 'checked A and B, phew'
        listed = all(each.raw in ",/" or each.groups & LISTING for each in between)
        if joined and listed and not ended:
            run.append(index)
            continue
        if run:
            yield run
        run = [index]
    yield run


def shares_state_before(scene: Scene, run: Sequence[int], strange: Mapping[int, int]) -> bool:
    """'checked the lights, chains and the plug': where nothing is told of the last of a list.

    'checked lights, chains need replacing' tells something of the chains, and 'checked the chains,
    phew' names no other part.
    """
    behind = scene.tokens[run[-1] + 1 : run[-1] + 2]
    if _is_joined(scene, run):
        return not any(
            each.kind is not MARK and (TELLS_MORE & each.senses.keys() or each.groups & IS_YET)
            for each in behind
        )
    known = [index for index in run if index not in strange]
    return len(known) >= COUPLE and all(
        each.kind is MARK or "and" in each.groups for each in behind
    )


TELLS_MORE = frozenset(("glue", "check_fault"))
"""Classes of term of a word behind a part that tells something of that part alone."""

IS_YET = frozenset(("not_yet",))
"""The group of words for what a part needs yet."""


def shares_state_behind(scene: Scene, run: Sequence[int]) -> bool:
    """'lights, brakes, chains all good': where the last of a list is told to be so."""
    if _is_joined(scene, run):
        return True
    start, _ = scene.sentence_of(run[0])
    ahead = scene.tokens[start : start_of_name(scene, run[0])]
    opens = all("article" in each.groups for each in ahead)
    if len(run) < (COUPLE if opens else LEAST_LISTED):
        return False
    behind = scene.tokens[run[-1] + 1 : run[-1] + 3]
    if behind and "all_over" in behind[0].groups:
        behind = behind[1:]
    return all(_ends_list(token) for token in behind[:1])


def _is_joined(scene: Scene, run: Sequence[int]) -> bool:
    """Whether 'and' stands in a list."""
    return bool(run) and any("and" in each.groups for each in scene.tokens[run[0] : run[-1]])


def _ends_list(token: Token) -> bool:
    """A mark, or how all of them are."""
    return token.kind is MARK or token.raw == ":" or "check_done" in token.senses


def strange_items(scene: Scene) -> Mapping[int, int]:
    """'chains, gas locker and lights': where each part begins that no phrase knows, by its end.

    It has its place in the list for itself. So has what has a gauge, where none was read: 'oil,
    coolant, belts'.
    """
    found: dict[int, int] = {}
    for start, end in _places(scene):
        first, last = _bare(scene, start, end)
        words = scene.tokens[first:last]
        if not 0 < len(words) <= LONGEST_STRANGE or any("check_item" in t.senses for t in words):
            continue
        if not all(_may_name(scene, at) for at in range(first, last)):
            continue
        if len(words) > 1 and (words[-1].text.endswith(IS_DOING) or _is_done(scene, start, words)):
            continue
        opens = first == 0 or (first == start and scene.tokens[start - 1].ends_sentence)
        if opens and len(words) < LONGEST_STRANGE:
            continue  # at the start it takes two words to be a part
        found[last - 1] = first
    for index in scene.unknown_words(names=False):
        if index not in found and _amid_plurals(scene.tokens[index - 1 : index + 2]):
            found[index] = index
    return found


def _is_done(scene: Scene, start: int, words: Sequence[Token]) -> bool:
    """'checked the lights and ate lunch': two strange words behind 'and' tell what was done."""
    joined = start > 0 and "and" in scene.tokens[start - 1].groups
    return joined and not any(each.senses for each in words)


def _places(scene: Scene) -> Iterator[tuple[int, int]]:
    """The places of a list: what stands between commas and 'and', within a sentence."""
    start = 0
    for index, token in enumerate(scene.tokens):
        if token.raw in PARTS or token.ends_sentence or "and" in token.groups:
            yield start, index
            start = index + 1
    yield start, len(scene.tokens)


def _bare(scene: Scene, start: int, end: int) -> tuple[int, int]:
    """A place without the article before, and without what is told of all of them behind."""
    while start < end and "article" in scene.tokens[start].groups:
        start += 1
    told = end
    while told > start and _tells_state(scene.tokens[told - 1]):
        told -= 1
    return start, told


def _tells_state(token: Token) -> bool:
    return "check_done" in token.senses or "all_over" in token.groups


def _may_name(scene: Scene, index: int) -> bool:
    """Whether a word may be, or belong to, what a part is called."""
    token = scene.tokens[index]
    if token.kind is not WORD or not (token.raw[0].islower() or token.start == 0):
        return False
    if token.senses.keys() <= {"subject"} and token.senses:
        return not scene.figures
    return index in scene.unknown or (bool(token.senses) and token.senses.keys() <= NAMING)


NAMING = frozenset(("product", "fuel_cue", "claim"))
"""Classes of term of a word that may be one of a part's: 'gas locker', 'fuel cap', 'stow box'."""


def _amid_plurals(around: Sequence[Token]) -> bool:
    """'pins' of 'lights chains pins brakes': nothing but parts, and each of them several."""
    if len(around) < AMID:
        return False
    before, strange, behind = around
    items = "check_item" in before.senses and "check_item" in behind.senses
    return items and is_of_many(before) and is_of_many(strange)


AMID = 3
"""Tokens: a word, and one on either side."""
