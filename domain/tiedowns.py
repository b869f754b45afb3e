"""Tie-downs: how many, and how strong together.

This file decides what 49 CFR 393.102 to 393.136 ask for an article of cargo, and what a
set of tie-downs counts for. The table of default working load limits (393.108) is handed
in. It binds commercial vehicles; for others it is a yardstick, and local law governs.
Masses are in kilograms, lengths in metres.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil
from typing import Literal

from domain.quantities import FOOT_M, POUND_KG
from domain.reference import WorkingLoad

SHORT, LONG = 5 * FOOT_M, 10 * FOOT_M
LIGHT, HEAVY = 1100 * POUND_KG, 10_000 * POUND_KG
"""Bounds of 393.110 and 393.130."""

HAIR = 1e-6
"""Lengths and masses this close to a bound are on it."""

Run = Literal["to the load", "over the load"]
"""From the trailer to the load (or back to the same side), or over it to the other side."""

COUNTED = {"to the load": 0.5, "over the load": 1.0}
"""Share of its working load limit that a tie-down counts with (393.106(d))."""

Kind = Literal["article", "vehicle", "machinery"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Article:
    """One article of cargo. `length` is None where it was not said."""

    weight: float
    length: float | None = None
    kind: Kind = "article"
    blocked: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Ties:
    """Equal tie-downs: how many, the working load limit of the weakest part (kg), their run."""

    count: int
    limit: float
    run: Run = "to the load"

    @property
    def aggregate(self) -> float:
        """What they count for together, in kg."""
        return self.count * self.limit * COUNTED[self.run]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What the rule asks: a number of tie-downs, and half the weight as their aggregate (kg).

    `by` is the paragraph that sets the number.
    """

    count: int
    aggregate: float
    by: str


def wanted(article: Article) -> Wanted:
    """What the rule asks for one article (393.106(d), 393.110, 393.128, 393.130)."""
    count, by = _count(article)
    return Wanted(count=count, aggregate=article.weight / 2, by=by)


def needed(article: Article, limit: float, run: Run) -> int:
    """How many tie-downs of one working load limit (kg) do: by number and by strength."""
    asked = wanted(article)
    return max(asked.count, ceil(asked.aggregate / (limit * COUNTED[run]) - HAIR))


def supports(ties: Ties) -> float:
    """The heaviest cargo, in kg, for which they are strong enough: twice their aggregate."""
    return 2 * ties.aggregate


def _count(article: Article) -> tuple[int, str]:
    if article.kind == "machinery" and article.weight > HEAVY + HAIR:
        return max(4, _by_length(article)), "393.130"
    if article.kind == "vehicle":
        return max(4, _by_length(article)), "393.128"
    return _by_length(article), "393.110"


def _by_length(article: Article) -> int:
    """393.110: by length and weight, one for each further ten feet or part.

    An article of unknown length counts as one of ten feet.
    """
    length = LONG if article.length is None else article.length
    if article.blocked:
        return max(1, ceil(length / LONG - HAIR))
    if length <= SHORT + HAIR and article.weight <= LIGHT + HAIR:
        return 1
    return 2 + max(0, ceil((length - LONG) / LONG - HAIR))


UNMARKED = {"chain": "grade 30", "wire rope": "6x37 fibre core"}
"""What an unmarked tie-down counts as (393.108(c) to (e))."""


def working_load(
    table: Iterable[WorkingLoad], material: str, size: str, grade: str = ""
) -> WorkingLoad | None:
    """The default limit of a chain, webbing or rope; unmarked goes by the lowest grade."""
    kind = grade or UNMARKED.get(material, "")
    for row in table:
        sizes = (row.size, f"{row.size_mm} mm")
        if row.material == material and size in sizes and row.type in (kind, ""):
            return row
    return None
