"""A homeserver for the session, and Drawbar's account on it for each test."""

from __future__ import annotations

import asyncio
import contextlib
import itertools
import time
from collections.abc import AsyncIterator, Iterator
from dataclasses import dataclass, field, replace
from datetime import timedelta
from pathlib import Path

import nio
import pytest
import pytest_asyncio

from bot.answers.answer import Answer
from bot.answers.trouble import undecryptable_answer
from bot.messages import Event, Letter, Message, NotSent
from bot.networks.matrix.network import Matrix
from bot.networks.matrix.settings import MatrixSettings
from tests.networks.matrix.homeserver import PASSWORD, Homeserver
from tests.networks.matrix.people import PATIENCE, Mautrix, Nio
from tests.networks.matrix.wire import Wire

numbers = itertools.count(1)


@pytest.fixture(scope="session")
def homeserver(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Homeserver]:
    server = Homeserver(tmp_path_factory.mktemp("homeserver"))
    server.start()
    yield server
    server.stop()


@dataclass
class Household:
    """A host that keeps what it is handed, and knows some people."""

    known: set[str] = field(default_factory=set)
    events: list[Event] = field(default_factory=list)
    changed: asyncio.Condition = field(default_factory=asyncio.Condition)

    async def take(self, event: Event) -> None:
        async with self.changed:
            self.events.append(event)
            self.changed.notify_all()

    async def knows(self, network: str, author: str) -> bool:
        return network == "matrix" and author in self.known

    async def sealed_answer(self, network: str, chat: str) -> Answer:
        return undecryptable_answer()

    async def until_said(self, text: str) -> list[Event]:
        """All that was handed over, once a message with this text was."""

        def said() -> bool:
            return any(isinstance(each, Message) and each.text == text for each in self.events)

        async with asyncio.timeout(PATIENCE), self.changed:
            await self.changed.wait_for(said)
        return list(self.events)

    async def wait_for(self, count: int) -> list[Event]:
        async with asyncio.timeout(PATIENCE), self.changed:
            await self.changed.wait_for(lambda: len(self.events) >= count)
        return list(self.events)


@dataclass
class Served:
    """Drawbar's account, being served; stopped and started again as often as a test wants."""

    settings: MatrixSettings
    host: Household
    patience: timedelta = timedelta(seconds=20)
    moment: float = field(default_factory=time.time)
    matrix: Matrix = field(init=False)
    _running: asyncio.Task[None] | None = None

    @property
    def user(self) -> str:
        return self.settings.user

    async def start(self) -> None:
        self.matrix = Matrix(self.settings, patience=self.patience, clock=lambda: self.moment)
        self._running = asyncio.create_task(self.matrix.run(self.host))

    async def connected(self) -> None:
        """Wait until it is in its rooms: a letter to none of them is refused then."""
        letter = Letter(chat="!nowhere:chat.example", answer=Answer(headline="-"), key="-")
        async with asyncio.timeout(PATIENCE):
            # There is nothing to be told of it by but trying.
            while isinstance(await self.matrix.send(letter), NotSent):  # noqa: ASYNC110
                await asyncio.sleep(0)

    async def log_in_elsewhere(self) -> tuple[str, str]:
        """Another login of the account: its token and its device."""
        client = nio.AsyncClient(self.settings.homeserver, self.user)
        login = await client.login(PASSWORD)
        await client.close()
        return str(login.access_token), str(login.device_id)

    async def end_logins(self) -> None:
        """Log all of the account's devices out, as its owner may."""
        client = nio.AsyncClient(self.settings.homeserver, self.user)
        await client.login(PASSWORD)
        await client.logout(all_devices=True)
        await client.close()

    async def stop(self) -> None:
        if self._running is not None:
            self._running.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await self._running


@pytest_asyncio.fixture
async def drawbar(homeserver: Homeserver, tmp_path: Path) -> AsyncIterator[Served]:
    user = homeserver.register(f"drawbar{next(numbers)}")
    settings = MatrixSettings(
        homeserver=homeserver.url, user=user, password=PASSWORD, folder=tmp_path / "matrix"
    )
    served = Served(settings, Household())
    await served.start()
    yield served
    await served.stop()


@pytest_asyncio.fixture
async def wren(homeserver: Homeserver, drawbar: Served, tmp_path: Path) -> AsyncIterator[Nio]:
    user = homeserver.register(f"wren{next(numbers)}")
    person = await Nio(homeserver.url, user).log_in()
    drawbar.host.known.add(user)
    yield person
    await person.leave()


@pytest_asyncio.fixture
async def theo(homeserver: Homeserver, drawbar: Served) -> AsyncIterator[Mautrix]:
    user = homeserver.register(f"theo{next(numbers)}")
    person = await Mautrix(homeserver.url, user).log_in()
    drawbar.host.known.add(user)
    yield person
    await person.leave()


@pytest_asyncio.fixture
async def wire(homeserver: Homeserver) -> AsyncIterator[Wire]:
    line = Wire(homeserver.url)
    yield line
    await line.stop()


async def behind(wire: Wire, drawbar: Served) -> None:
    """Let Drawbar reach its homeserver through the wire alone."""
    await drawbar.stop()
    drawbar.settings = replace(drawbar.settings, homeserver=await wire.start())
    await drawbar.start()
