"""A store for letters that take pictures along."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.store.database import Store, open_store


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    opened = open_store(str(tmp_path / "drawbar.db"))
    yield opened
    opened.close()
