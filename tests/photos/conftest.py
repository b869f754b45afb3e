"""One recogniser for all the photos that a process of the tests looks at."""

from __future__ import annotations

import pytest

from bot.photos.recognition import Recogniser


@pytest.fixture(scope="session")
def recogniser() -> Recogniser:
    return Recogniser()
