"""What of a message's fills a test looks at: product, volume and cost."""

from __future__ import annotations

from domain.entries import Fill
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road

Told = tuple[str | None, float | None, float | None]


def told(text: str, reads: Reader) -> list[Told]:
    """Product, volume and cost of each fill that a message states, and nothing besides."""
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), text
    fills = [each for each in verdict.entries if isinstance(each, Fill)]
    assert len(fills) == len(verdict.entries)
    return [
        (
            each.product,
            each.volume.value if each.volume else None,
            each.cost.value if each.cost else None,
        )
        for each in fills
    ]
