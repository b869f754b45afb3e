"""Where a load that was told stands: on the truck, or on the trailer or nobody knows where."""

from __future__ import annotations

from bot.phrasebook import asked_words
from domain.entries import Cargo


def is_on_truck(cargo: Cargo) -> bool:
    """Whether it was surely put on the truck: in its bed or its cab."""
    said, places = (cargo.position or "").casefold().strip(), asked_words().place
    inside = any(places[name].search(said) for name in ("bed", "cab"))
    return inside or places["truck"].fullmatch(said) is not None
