"""The stand-in server, and a host that takes events."""

from __future__ import annotations

from collections.abc import AsyncIterator

import pytest

from tests.networks.telegram.bot_api import BotApi
from tests.networks.telegram.serving import FAST, Taken


@pytest.fixture
async def api() -> AsyncIterator[BotApi]:
    async with BotApi(FAST) as api:
        yield api


@pytest.fixture
def host() -> Taken:
    return Taken()
