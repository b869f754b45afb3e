"""What the messages that a pattern knows whole can begin with.

This file finds the letters that a pattern gives for the beginning of all that it matches. Most of
what people text begins otherwise, and need not be held against the pattern.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

Openings = Mapping[str, tuple[str, ...]]
"""What messages can begin with, by the first letter."""

_NAMED_GROUP = re.compile(r"\(\?P<\w+>")
_LETTERS = re.compile(r"(?:\\[^\w]|[^\\()|\[\].?*+{])*(?![?*{])")
_GROUP_PART = re.compile(r"\\.|[()|]")
_GROUP = "(?:"


def openings_of(patterns: Iterable[str]) -> set[str]:
    """What the patterns can begin with, as far as they give it, for text that is stripped.

    Raises ValueError where a pattern could begin with anything.
    """
    found: set[str] = set()
    for pattern in patterns:
        found.update(_openings(f"{_GROUP}{_NAMED_GROUP.sub(_GROUP, pattern)})"))
    if "" in found:
        raise ValueError("a pattern that could begin with anything")
    return {opening for opening in found if not opening[0].isspace()}


def by_letter(openings: Iterable[str]) -> Openings:
    """Openings by their first letter, without those that begin with another."""
    found: dict[str, tuple[str, ...]] = {}
    for opening in sorted(openings):  # and so the shorter of two that begin alike is first
        known = found.setdefault(opening[0], ())
        if not opening.startswith(known):
            found[opening[0]] = (*known, opening)
    return found


def _openings(pattern: str) -> Iterator[str]:
    """The letters that each way through a pattern begins with, up to what may differ."""
    if not pattern.startswith(_GROUP):
        letters = _LETTERS.match(pattern)
        yield letters[0].replace("\\", "") if letters else ""
        return
    ways, rest = _ways(pattern)
    times = rest[:1]
    for way in ways:
        if times and times in "*+{":
            yield from _openings(f"{way}(")  # what stands behind it may be the group again
        else:
            yield from _openings(way + rest.removeprefix("?"))
    if times and times in "?*":
        yield from _openings(rest[1:])


def _ways(pattern: str) -> tuple[list[str], str]:
    """The alternatives of the group that a pattern begins with, and what stands behind it."""
    begun, depth = len(_GROUP), 0
    ways: list[str] = []
    for part in _GROUP_PART.finditer(pattern):
        depth += (part[0] == "(") - (part[0] == ")")
        if (part[0] == "|" and depth == 1) or depth == 0:
            ways.append(pattern[begun : part.start()])
            begun = part.end()
        if depth == 0:
            break
    return ways, pattern[begun:]
