"""The demonstration's weekend, lived in encrypted rooms, with restarts in the middle."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator, Iterator
from contextlib import asynccontextmanager, suppress
from dataclasses import dataclass, replace
from datetime import timedelta
from pathlib import Path

import pytest
from sqlalchemy import select, update

from bot.answers.answer import Answer
from bot.messages import Delivered, Letter, Message, Outcome
from bot.networks.matrix.dressing import KEPT, content_of
from bot.networks.matrix.network import Matrix
from bot.networks.matrix.settings import MatrixSettings
from bot.settings import Settings, settings
from bot.shared_data import read_toml
from bot.sight import NotRead
from bot.store.database import Store, open_store
from bot.store.outbox import QUEUED, SENT, answer_from_record
from bot.store.tables import ChatRow, MessageRow, OutboxRow
from bot.wiring import Drawbar, drawbar, now
from tests.networks.matrix.conftest import numbers
from tests.networks.matrix.homeserver import PASSWORD, Homeserver
from tests.networks.matrix.people import Mautrix, Nio, Person, Seen, edit, joined, react, say
from tests.store.logbooks import queue_due

SCENARIO = read_toml("demo/weekend.toml")
WEEKEND = SCENARIO["message"]
SATURDAY = next(place for place, each in enumerate(WEEKEND) if "Saltlick" in each["text"])
TICKET = b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 200
WITHIN = 90.0
WEEK, PHOTO = "204 mi", "Is this what the photo says?"
OFFER = "Code for one more chat: "


@dataclass(frozen=True, slots=True)
class Owed:
    """An answer as the outbox has it: to which room, on which message, and how it stands."""

    room: str
    message: str | None
    state: str
    answer: Answer

    @property
    def seen(self) -> str:
        """What a person is to see of it."""
        if self.answer.quiet and self.message:
            return f"{KEPT} {self.message}"
        return str(content_of(self.answer)["body"])


class Heard:
    """A network that never fails, and keeps what was sent."""

    name = "plain"
    once_by_key = True

    def __init__(self) -> None:
        self.answers: list[Answer] = []

    async def send(self, letter: Letter) -> Outcome:
        self.answers.append(letter.answer)
        return Delivered()


async def soon(seconds: float) -> None:
    """A pause cut short, so that the test need not wait."""
    await asyncio.sleep(min(seconds, 0.2))


class Eyes:
    """Reads one ticket, and no other picture."""

    async def read(
        self, picture: bytes, caption: str = "", language: str = "en"
    ) -> tuple[str, bool]:
        if picture != TICKET:
            raise NotRead("That is no ticket.", worth_telling=True)
        return "scale at Saltlick: steer 4510 drive 6730 trailer 10130", True


@dataclass
class Household:
    """Drawbar on a database and an account of its own, and the family's clients."""

    told: Settings
    account: MatrixSettings
    store: Store
    running: Drawbar | None = None
    _serving: asyncio.Task[None] | None = None

    async def start(self) -> Drawbar:
        self.running = await drawbar(
            self.told, [], [Matrix(self.account, rest=soon)], Eyes()
        ).__aenter__()
        self._serving = asyncio.create_task(self.running.serve())
        return self.running

    async def stop(self) -> None:
        if self._serving is not None and self.running is not None:
            self._serving.cancel()
            with suppress(asyncio.CancelledError):
                await self._serving
            await self.running.__aexit__(None, None, None)
            self._serving = None

    def outbox(self) -> list[Owed]:
        """All that Drawbar has had to say, in order."""
        with self.store.look() as session:
            rows = session.execute(
                select(OutboxRow, ChatRow.chat, MessageRow.message)
                .join(ChatRow, ChatRow.id == OutboxRow.chat_id)
                .outerjoin(MessageRow, MessageRow.id == OutboxRow.message_id)
                .order_by(OutboxRow.id)
            ).all()
        return [
            Owed(chat, message, row.state, answer_from_record(row.body))
            for row, chat, message in rows
        ]

    def a_week_passes(self) -> int:
        """Let the summary that is due within a week leave now; how many there were."""
        count = queue_due(self.store, now() + timedelta(days=8))
        with self.store.work() as session:
            waiting = update(OutboxRow).where(OutboxRow.state == QUEUED)
            session.execute(waiting.values(due_at=now()))
            session.commit()
        return count


async def until_sent(household: Household, headline: str, times: int = 1) -> list[Owed]:
    """The outbox, once an answer stands in it that often and none waits."""
    found: list[Owed] = []
    async with asyncio.timeout(WITHIN):
        while True:
            found = await asyncio.to_thread(household.outbox)
            wanted = [each for each in found if headline in each.answer.headline]
            if len(wanted) >= times and all(each.state != QUEUED for each in found):
                return found
            await asyncio.sleep(0.05)


def seen(person: Person, room: str, user: str) -> list[str]:
    """What a person saw of Drawbar in a room, in order."""

    def words(each: Seen) -> str:
        relates = each.content.get("m.relates_to") or {}
        return f"{each.text} {relates['event_id']}" if each.type == "m.reaction" else each.text

    return [
        words(each)
        for each in person.screen.shown
        if (each.room, each.sender) == (room, user)
        and each.type in ("m.reaction", "m.room.message")
    ]


async def shows(person: Person, room: str, user: str, outbox: list[Owed]) -> None:
    """Wait until a person saw all that was for a room; it is in order, and each once."""
    wanted = [each.seen for each in outbox if each.room == room]
    async with asyncio.timeout(WITHIN), person.screen.changed:
        await person.screen.changed.wait_for(lambda: len(seen(person, room, user)) >= len(wanted))
    assert seen(person, room, user) == wanted


async def expected(folder: Path, told: Settings) -> list[str]:
    """The weekend's answers in a chat where nothing fails, by their headlines."""
    heard = Heard()
    async with drawbar(replace(told, database=str(folder / "plain.db")), [heard]) as running:
        for number, each in enumerate(WEEKEND):
            await running.take(
                Message(
                    network=heard.name,
                    chat="hives",
                    id=str(number),
                    author=each["by"],
                    name=each["by"],
                    sent_at=now(),
                    text=each["text"],
                )
            )
    return [each.headline for each in heard.answers]


@pytest.fixture
def household(homeserver: Homeserver, tmp_path: Path) -> Iterator[Household]:
    told = settings(
        database=str(tmp_path / "logbook.db"),
        units=SCENARIO["units"],
        currency=SCENARIO["currency"],
        time_zone=SCENARIO["time_zone"],
    )
    account = MatrixSettings(
        homeserver=homeserver.url,
        user=homeserver.register(f"drawbar{next(numbers)}"),
        password=PASSWORD,
        folder=tmp_path / "matrix",
    )
    store = open_store(told.database)
    yield Household(told, account, store)
    store.close()


async def test_a_weekend_in_encrypted_rooms_with_restarts_brings_every_answer_once(
    homeserver: Homeserver, household: Household, tmp_path: Path
) -> None:
    async with family(homeserver, tmp_path) as (wren, theo):
        household.account = replace(household.account, owners=frozenset({wren.user}))
        try:
            room, reading = await live(homeserver, household, wren, theo)
        finally:
            await household.stop()
        outbox = household.outbox()
        assert {each.state for each in outbox} == {SENT}
        user = household.account.user
        await shows(wren, room, user, outbox)
        await shows(theo, room, user, outbox)
        await shows(theo, reading, user, outbox)
    plain = await expected(tmp_path, household.told)
    told = [each.answer.headline for each in outbox]
    assert told[1 : len(plain) + 1] == plain
    assert [each.answer.headline for each in outbox if each.room == reading] == [
        "This chat reads the logbook now.",
        told[-1],
    ]


async def live(
    homeserver: Homeserver, household: Household, wren: Nio, theo: Mautrix
) -> tuple[str, str]:
    """Let the weekend and what follows happen; the family's room, and the one that reads."""
    user = household.account.user
    people: dict[str, Person] = {"Wren": wren, "Theo": theo}
    running = await household.start()
    code = await running.owners_code()
    room = await wren.create_room(user, theo.user)
    await theo.join(room)
    for each in (user, theo.user):
        await wren.screen.wait_for(joined(each, room))
    await say(wren, room, str(code))
    await until_sent(household, "This chat keeps the logbook now.")

    said: dict[str, str] = {}
    for told in WEEKEND[:SATURDAY]:
        said[told["text"]] = await say(people[told["by"]], room, told["text"])
    # While Drawbar is away they go on, and then the homeserver is started again under it.
    await household.stop()
    for told in WEEKEND[SATURDAY : SATURDAY + 2]:
        said[told["text"]] = await say(people[told["by"]], room, told["text"])
    theo.pause()
    await asyncio.to_thread(homeserver.stop)
    await household.start()
    await asyncio.to_thread(homeserver.start)
    theo.resume()
    for told in WEEKEND[SATURDAY + 2 :]:
        said[told["text"]] = await say(people[told["by"]], room, told["text"])
    await until_sent(household, WEEK)

    await edit(wren, room, said["home, 48215, unhitched"], "home, 48216, unhitched")
    await until_sent(household, "Odometer now 48,216 mi")
    await wren.redact(room, said["trans temp 195 on the grade"])
    await until_sent(household, "Taken back: transmission")
    await theo.send(room, "m.room.message", await theo.upload(TICKET))
    asked = (await until_sent(household, PHOTO))[-1]
    (shown,) = await theo.screen.wait_for(lambda seen: seen.text == asked.seen)
    await react(theo, room, shown.id, "1️⃣")
    await until_sent(household, "Close: truck GVWR, 260 lb left.")

    await say(wren, room, "invite a reader")
    offer = (await until_sent(household, OFFER))[-1].answer.headline
    reading = await theo.create_room(user)
    await theo.screen.wait_for(joined(user, reading))
    await say(theo, reading, offer.removeprefix(OFFER))
    await until_sent(household, "This chat reads the logbook now.")
    assert await asyncio.to_thread(household.a_week_passes) == 1
    # The edit made it a mile more.
    await until_sent(household, "205 mi", 2)
    return room, reading


@asynccontextmanager
async def family(homeserver: Homeserver, folder: Path) -> AsyncIterator[tuple[Nio, Mautrix]]:
    """Wren and Theo, each with a client."""
    wren, theo = (homeserver.register(f"{name}{next(numbers)}") for name in ("wren", "theo"))
    first = await Nio(homeserver.url, wren).log_in()
    second = await Mautrix(homeserver.url, theo).log_in()
    try:
        yield first, second
    finally:
        await first.leave()
        await second.leave()
