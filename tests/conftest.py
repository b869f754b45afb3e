"""How much random data the tests draw, by hypothesis profile, and which tests begin first.

`default` is for every day, `ci` draws the same examples each time, `fuzz` is `make fuzz`, and
`mutation` draws few, the same for every mutant (`make mutate`).
"""

from __future__ import annotations

import os

import pytest
from hypothesis import HealthCheck, settings

settings.register_profile("default", deadline=None, max_examples=60)
settings.register_profile("ci", deadline=None, max_examples=60, derandomize=True)
settings.register_profile(
    "fuzz", deadline=None, max_examples=2_000, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile("mutation", deadline=None, max_examples=10, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "default")

LONGEST = ("test_service.py", "test_tickets_and_receipts.py", "test_crash.py")
"""Files with a test that takes minutes, or half of one, the longest first."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The longest tests begin first, else one worker is at them when all others are done."""
    order = {name: place for place, name in enumerate(LONGEST)}
    items.sort(key=lambda item: order.get(item.path.name, len(order)))
