"""`drawbar serve` as it is started: both networks, a signal to stop, nothing lost."""

from __future__ import annotations

import asyncio
import os
import re
import signal
import sys
import time
from asyncio.subprocess import PIPE, Process
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

import aiohttp
import pytest

from tests.networks.matrix.homeserver import PASSWORD, Homeserver, free_port
from tests.networks.matrix.people import Nio, Seen, joined, say
from tests.networks.telegram.bot_api import TOKEN, BotApi
from tests.networks.telegram.people import WREN
from tests.networks.telegram.serving import FAST, until

STOP_SECONDS = 5.0
START_SECONDS = 40.0
CODE = re.compile(r"to be the owner: (\S+)")


class Service:
    """The program as a process of its own, with what it says."""

    def __init__(self, process: Process) -> None:
        self._process = process
        self.said: list[str] = []

    async def says(self, wanted: str) -> str:
        """Wait for a line with these words."""
        stream = self._process.stdout
        assert stream is not None
        async with asyncio.timeout(START_SECONDS):
            while line := (await stream.readline()).decode():
                self.said.append(line)
                if wanted in line:
                    return line
        raise AssertionError(f"it ended without {wanted!r}: {self.said}")

    async def stop(self) -> float:
        """Stop it as systemd does; the seconds that this took."""
        begun = time.monotonic()
        self._process.send_signal(signal.SIGTERM)
        assert await self._process.wait() == 0
        return time.monotonic() - begun


@asynccontextmanager
async def service(environment: dict[str, str], *words: str) -> AsyncIterator[Service]:
    kept = {name: value for name, value in os.environ.items() if not name.startswith("DRAWBAR_")}
    process = await asyncio.create_subprocess_exec(
        Path(sys.executable).parent / "drawbar",
        "serve",
        *words,
        env={**kept, **environment},
        stdout=PIPE,
    )
    try:
        yield Service(process)
    finally:
        if process.returncode is None:
            process.kill()
            await process.wait()


@pytest.fixture
async def api() -> AsyncIterator[BotApi]:
    async with BotApi(FAST) as api:
        yield api


@pytest.mark.parametrize("by", ["environment", "file"])
async def test_both_networks_are_served_and_a_stop_loses_nothing(
    by: str, homeserver: Homeserver, api: BotApi, tmp_path: Path
) -> None:
    name = f"drawbar-served-by-{by}"
    bot = homeserver.register(name)
    wren = Nio(homeserver.url, homeserver.register(f"wren-{by}"))
    settings = {
        "DRAWBAR_DATABASE": str(tmp_path / "logbook.db"),
        "DRAWBAR_TELEGRAM_TOKEN": TOKEN,
        "DRAWBAR_TELEGRAM_API": api.url,
        "DRAWBAR_MATRIX_HOMESERVER": homeserver.url,
        "DRAWBAR_MATRIX_USER": bot,
        "DRAWBAR_MATRIX_PASSWORD": PASSWORD,
        "DRAWBAR_MATRIX_FOLDER": str(tmp_path / "keys"),
        "DRAWBAR_MATRIX_OWNERS": wren.user,
        "DRAWBAR_HEALTH_PORT": str(free_port()),
    }
    health = f"http://127.0.0.1:{settings['DRAWBAR_HEALTH_PORT']}"
    words: tuple[str, ...] = ()
    if by == "file":
        words = ("--config", str(written(settings, tmp_path / "drawbar.toml")))
        settings = {}
    room = api.private(WREN)
    await wren.log_in()
    async with service(settings, *words) as drawbar:
        found = CODE.search(await drawbar.says("to be the owner"))
        assert any("Telegram" in line for line in drawbar.said)
        assert any(f"Matrix as {bot}" in line for line in drawbar.said)
        assert found is not None
        await api.says(room, WREN, found[1])
        await until(lambda: "keeps the logbook" in shown(api), START_SECONDS)
        await api.says(room, WREN, "invite")
        await until(lambda: "Code for one more chat" in shown(api), START_SECONDS)
        (code,) = re.findall(r"Code for one more chat: (\S{9})", shown(api))
        house = await wren.create_room(bot)
        await wren.screen.wait_for(joined(bot, house))
        await say(wren, house, code)
        await wren.screen.wait_for(lambda seen: says(seen, "keeps the logbook", bot))
        await say(wren, house, "odo 48211")
        await wren.screen.wait_for(lambda seen: says(seen, "48,211", bot))
        assert await asked(f"{health}/live") == "alive\n"
        assert await asked(f"{health}/ready") == "ready\n"
        assert 'drawbar_messages_read_total{verdict="facts"} 1.0' in await asked(
            f"{health}/metrics"
        )
        await api.says(room, WREN, "odo 48300")
        assert await drawbar.stop() < STOP_SECONDS
    await say(wren, house, "odo 48400")
    async with service(settings, *words) as drawbar:
        await api.says(room, WREN, "how far today?")
        await wren.screen.wait_for(lambda seen: says(seen, "48,400", bot))
        await until(lambda: shown(api).count("48,300") == 1, START_SECONDS)
        assert await drawbar.stop() < STOP_SECONDS
    await wren.leave()


async def asked(address: str) -> str:
    async with aiohttp.ClientSession() as web, web.get(address) as answer:
        return await answer.text()


def shown(api: BotApi) -> str:
    """All that the bot said on Telegram."""
    return "\n".join(each.text for each in api.shown)


def says(seen: Seen, words: str, bot: str) -> bool:
    return seen.sender == bot and words in seen.text


def written(settings: dict[str, str], file: Path) -> Path:
    """The same settings as a TOML file."""
    tables: dict[str, list[str]] = {"": [], "telegram": [], "matrix": [], "health": []}
    for name, value in settings.items():
        first, _, rest = name.removeprefix("DRAWBAR_").lower().partition("_")
        table, key = (first, rest) if first in tables else ("", first)
        told = f'["{value}"]' if key == "owners" else f'"{value}"'
        tables[table].append(f"{key} = {told}")
    blocks = ([f"[{name}]"] * bool(name) + lines for name, lines in tables.items())
    text = "\n".join(line for block in blocks for line in block)
    file.write_text(text)
    file.chmod(0o600)
    return file
