"""What a part of the rig is called: where its name begins, and whether it is of many.

This file decides which words before a part belong to its name: its side, or what it is a part of.
"""

from __future__ import annotations

from domain.reading.scene import Scene
from domain.reading.tokens import Token

PLACING = frozenset(("side", "corner", "end", "vehicle", "name", "ordinal", "axle_noun"))
"""What may stand before an item and belongs to its name: 'left marker light'."""


def start_of_name(scene: Scene, index: int) -> int:
    """Where what a part is called begins: 'left marker light', with its side."""
    start = index
    if index and not NAMED_FURTHER.isdisjoint(scene.tokens[index].groups):
        start -= _is_named_by(scene.tokens[index].groups, scene.tokens[index - 1])
    while start > 0 and places(scene.tokens[start - 1]):
        start -= 1
    return start


def _is_named_by(groups: frozenset[str], before: Token) -> bool:
    """Whether the word before a part of some groups is what it belongs to, warns of or closes."""
    if "part_of_part" in groups:  # 'gate hinge', and not 'chains pins'
        part = "check_item" in before.senses and "glue" not in before.senses
        if part and before.text[-1:] != "s":
            return True
    if "warning_lamp" in groups and not WARNED_OF.isdisjoint(before.senses):
        return True
    closes = "product" in before.senses or not CLOSED_ON.isdisjoint(before.groups)
    return closes and "closes_on" in groups


NAMED_FURTHER = frozenset(("part_of_part", "warning_lamp", "closes_on"))
"""Groups of parts that are called by the word before them, too."""

CLOSED_ON = frozenset(("names_fuel", "water"))
"""Groups of words for what is behind a door or in a locker: 'gas locker', 'fuel door'."""

WARNED_OF = frozenset(("subject", "product", "check_item"))
"""Classes of term of what a lamp of the dash warns of: 'trans warning light'."""


def places(token: Token) -> bool:
    """Whether a word before an item says where it is, and belongs to its name."""
    return not PLACING.isdisjoint(token.senses) and "glue" not in token.senses


def is_of_many(token: Token) -> bool:
    """'chains', 'plugs'; and not 'gas', 'harness', 'chassis'."""
    raw = token.raw.casefold()
    return raw.endswith("s") and len(raw) > len("gas") and not raw.endswith(("ss", "is"))
