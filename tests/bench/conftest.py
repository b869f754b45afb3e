"""Where benchmarks note their figures."""

from __future__ import annotations

import pytest

from tests.bench.figures import Figures


@pytest.fixture
def figures() -> Figures:
    """The figures that were measured last, to be written anew."""
    return Figures()
