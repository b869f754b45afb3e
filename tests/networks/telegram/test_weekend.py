"""The demonstration's weekend, lived on Telegram by two groups at once, while calls fail."""

from __future__ import annotations

import asyncio
import random
from contextlib import suppress
from dataclasses import dataclass, replace
from itertools import cycle
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from sqlalchemy import select

from bot.answers.answer import Answer
from bot.demo import NETWORK, messages
from bot.messages import Delivered, Letter, Outcome
from bot.networks.telegram.rendering import rendered
from bot.networks.telegram.settings import Webhook
from bot.settings import Settings, settings
from bot.shared_data import read_toml
from bot.store.database import Store, open_store
from bot.store.outbox import QUEUED, SENT, UNCERTAIN, answer_from_record
from bot.store.tables import ChatRow, MessageRow, OutboxRow
from bot.wiring import drawbar
from tests.networks.telegram.bot_api import BotApi, Room, Trouble
from tests.networks.telegram.limits import parsed
from tests.networks.telegram.people import HIVES, THEO, WREN
from tests.networks.telegram.serving import FAST, telegram, until
from tests.networks.telegram.test_webhook import SECRET, URL, free_port

ORCHARD = -1002
PEOPLE = {"Wren": WREN, "Theo": THEO}
SCENARIO = read_toml("demo/weekend.toml")
ZONE = ZoneInfo(SCENARIO["time_zone"])
WEEKEND = SCENARIO["message"]
FRIDAY = [each for each in WEEKEND if each["at"].date() == WEEKEND[0]["at"].date()]


@dataclass(frozen=True)
class Owed:
    """An answer as the outbox has it after the weekend, and what of it Telegram shows."""

    chat: int
    answer: Answer
    message: str | None
    state: str
    doubtful: int

    @property
    def seen(self) -> list[str]:
        if self.answer.quiet and self.message and self.message.isdecimal():
            return [f"✍ on {self.message}"]
        return [parsed(part.html) for part in rendered(self.answer)]


def chosen(folder: Path) -> Settings:
    told = settings(
        database=str(folder / "logbook.db"),
        units=SCENARIO["units"],
        currency=SCENARIO["currency"],
        time_zone=SCENARIO["time_zone"],
    )
    return replace(told, open_to_all=True)


def outbox(store: Store) -> list[Owed]:
    with store.look() as session:
        rows = session.execute(
            select(OutboxRow, ChatRow.chat, MessageRow.message)
            .join(ChatRow, ChatRow.id == OutboxRow.chat_id)
            .outerjoin(MessageRow, MessageRow.id == OutboxRow.message_id)
            .order_by(OutboxRow.id)
        ).all()
    return [
        Owed(int(chat), answer_from_record(row.body), message, row.state, row.doubtful)
        for row, chat, message in rows
    ]


async def lived(api: BotApi, folder: Path, webhook: Webhook | None) -> list[Owed]:
    """Let both groups live their days; what the outbox holds once nothing waits any more."""
    told = chosen(folder)
    async with drawbar(told, [], [telegram(api, webhook)]) as running:
        serving = asyncio.create_task(running.serve())
        await asyncio.gather(
            live(api, api.group(HIVES, "Hives"), WEEKEND),
            live(api, api.group(ORCHARD, "Orchard"), FRIDAY),
        )
        await api.everything_is_received()
        store = open_store(told.database)
        await until(lambda: all(each.state != QUEUED for each in outbox(store)), 30, every=0.2)
        serving.cancel()
        with suppress(asyncio.CancelledError):
            await serving
    owed = outbox(store)
    store.close()
    return owed


def full_name(person: dict[str, Any]) -> str:
    """What Telegram calls someone; the week says who logged what."""
    return " ".join(filter(None, (person["first_name"], person.get("last_name"))))


async def live(api: BotApi, group: Room, told: list[dict[str, Any]]) -> None:
    for each in told:
        at = each["at"].replace(tzinfo=ZONE)
        await api.says(group, PEOPLE[each["by"]], each["text"], date=at.timestamp())


class Heard:
    """A network that never fails, and keeps what was sent."""

    name = NETWORK
    once_by_key = False

    def __init__(self) -> None:
        self.answers: list[Answer] = []

    async def send(self, letter: Letter) -> Outcome:
        self.answers.append(letter.answer)
        return Delivered()


@pytest.fixture(scope="module")
def expected(tmp_path_factory: pytest.TempPathFactory) -> list[Answer]:
    """The weekend's answers where nothing fails and nobody is in between."""
    heard = Heard()

    async def replay() -> None:
        async with drawbar(chosen(tmp_path_factory.mktemp("plain")), [heard]) as running:
            for message in messages(SCENARIO, ZONE):
                await running.take(replace(message, name=full_name(PEOPLE[message.name])))

    asyncio.run(replay())
    return heard.answers


def check_seen(owed: list[Owed], seen: list[str]) -> None:
    """What a chat saw is what it was owed, in order; only what is of unknown fate may miss."""
    left = list(seen)
    for each in owed:
        for text in each.seen:
            times = 0
            most = 1 + (each.answer.urgent and each.doubtful > 0)
            while left and left[0] == text and times < most:
                left.pop(0)
                times += 1
            assert times or each.state == UNCERTAIN, text
    assert left == []


@pytest.mark.parametrize("way", ["polling", "webhook"])
async def test_a_weekend_of_which_one_call_in_five_fails_brings_every_answer_in_order(
    tmp_path: Path, expected: list[Answer], way: str
) -> None:
    chance, kinds = random.Random(20260523), cycle(Trouble)
    failed: list[Trouble] = []

    def trouble(method: str) -> Trouble | None:
        if chance.randrange(5):
            return None
        failed.append(next(kinds))
        return failed[-1]

    webhook = None
    async with BotApi(FAST, trouble) as api:
        if way == "webhook":
            webhook = Webhook(url=URL, port=free_port(), secret=SECRET)
            api.reach = f"http://127.0.0.1:{webhook.port}"
        owed = await lived(api, tmp_path, webhook)
    assert set(failed) == set(Trouble)
    for group in (HIVES, ORCHARD):
        told = [each for each in owed if each.chat == group]
        assert [each.answer for each in told] == expected[: len(told)]
        assert {each.state for each in told} <= {SENT, UNCERTAIN}
        check_seen(told, [text for chat, text in api.seen if chat == group])
    assert len([each for each in owed if each.chat == HIVES]) == len(expected)
