"""Nothing that people write is lost or taken in the wrong order."""

from __future__ import annotations

import asyncio

import pytest

from bot.answers.answer import Answer
from bot.answers.language import languages
from bot.answers.menu import introductions
from bot.messages import (
    Delivered,
    Edited,
    Event,
    Letter,
    Message,
    Moved,
    NetworkRefused,
    NotFetched,
)
from bot.wiring import reader
from domain.context import Context
from domain.entries import Correction
from domain.verdicts import Facts, Question, Silent, Verdict
from tests.networks.telegram.bot_api import BotApi, Trouble
from tests.networks.telegram.people import HIVES, THEO, WREN
from tests.networks.telegram.serving import AT, Taken, served, telegram, until


def texts(events: list[Event]) -> list[str]:
    return [event.text for event in events if isinstance(event, Message)]


async def test_what_people_write_is_taken_in_order(api: BotApi, host: Taken) -> None:
    hives = api.group(HIVES, "Hives")
    async with served(telegram(api), host):
        for number in range(5):
            await api.says(hives, WREN, f"message {number}")
        await api.everything_is_received()
    assert texts(host.events) == [f"message {number}" for number in range(5)]


async def test_what_was_written_while_drawbar_was_off_is_taken(api: BotApi, host: Taken) -> None:
    await api.says(api.private(WREN), WREN, "filled up, 48011, 31.4 gal")
    async with served(telegram(api), host):
        await api.everything_is_received()
    assert texts(host.events) == ["filled up, 48011, 31.4 gal"]


async def test_a_message_that_was_not_taken_through_comes_again_after_a_restart(
    api: BotApi, host: Taken
) -> None:
    hives = api.group(HIVES, "Hives")
    await api.says(hives, WREN, "steer 4380")
    await api.says(hives, WREN, "drive 7060")
    host.free.clear()
    async with served(telegram(api), host):
        await until(lambda: host.begun)
    assert host.events == []
    host.free.set()
    async with served(telegram(api), host):
        await api.everything_is_received()
    assert texts(host.events) == ["steer 4380", "drive 7060"]


async def test_what_was_taken_does_not_come_again_after_a_restart(api: BotApi, host: Taken) -> None:
    for _ in range(3):
        async with served(telegram(api), host):
            await api.says(api.private(WREN), WREN, "steer 4380")
            await api.everything_is_received()
    assert texts(host.events) == ["steer 4380"] * 3


async def test_one_chat_does_not_wait_for_another(api: BotApi, host: Taken) -> None:
    slow, quick = api.group(HIVES, "Hives"), api.private(THEO)
    held = asyncio.Event()

    class HeldUp(Taken):
        async def take(self, event: Event) -> None:
            self.begun.append(event)
            if isinstance(event, Message) and event.chat == str(HIVES):
                await held.wait()
            self.events.append(event)

    held_up = HeldUp()
    await api.says(slow, WREN, "slow one")
    await api.says(slow, WREN, "slow two")
    await api.says(quick, THEO, "quick one")
    async with served(telegram(api), held_up):
        await until(lambda: held_up.events)
        assert texts(held_up.events) == ["quick one"]
        assert texts(held_up.begun) == ["slow one", "quick one"]
        held.set()
        await api.everything_is_received()
    assert texts(held_up.events) == ["quick one", "slow one", "slow two"]


UNREADABLE = [
    pytest.param({"message": {"text": "secret ticket"}}, id="a message without its fields"),
    pytest.param({"message": "secret ticket"}, id="a message that is none"),
    pytest.param({"callback_query": {"id": "1", "data": "secret ticket"}}, id="a tap by nobody"),
]


@pytest.mark.parametrize("what", UNREADABLE)
async def test_an_update_that_can_not_be_read_holds_up_nobody(
    api: BotApi, host: Taken, caplog: pytest.LogCaptureFixture, what: dict[str, object]
) -> None:
    await api.says(api.private(WREN), WREN, "before")
    await api.update({"update_id": 7100, **what})
    await api.says(api.private(WREN), WREN, "after")
    async with served(telegram(api), host):
        await api.everything_is_received()
    assert texts(host.events) == ["before", "after"]
    assert "Telegram update 7100 can't be read" in caplog.text
    assert "secret ticket" not in caplog.text


async def test_a_message_that_drawbar_fails_on_is_tried_again_and_then_passed_over(
    api: BotApi, host: Taken, caplog: pytest.LogCaptureFixture
) -> None:
    def fail(event: Event) -> None:
        if isinstance(event, Message) and event.text == "poison":
            raise ValueError(event.text)

    host.before = fail
    await api.says(api.private(WREN), WREN, "poison")
    await api.says(api.private(THEO), THEO, "steer 4380")
    async with served(telegram(api), host):
        await api.everything_is_received()
    assert texts(host.begun).count("poison") == 3
    assert set(texts(host.events)) == {"steer 4380"}
    assert "ValueError" in caplog.text
    assert "poison" not in [record.getMessage() for record in caplog.records]


@pytest.mark.parametrize("told", [True, False], ids=["in time", "too late"])
async def test_a_tap_reaches_drawbar_and_the_app_is_told(
    api: BotApi, host: Taken, told: bool
) -> None:
    api.group(HIVES, "Hives")
    asked = Answer(headline="Which trailer?", choices=("flatdeck", "camper"))
    async with served(telegram(api), host) as network:
        outcome = await network.send(Letter(chat=str(HIVES), answer=asked, key="drawbar-1"))
        (shown,) = api.shown
        if not told:
            api.trouble = lambda method: Trouble.FLOOD if method == "answerCallbackQuery" else None
        tap = await api.taps(THEO, shown, shown.buttons[1][1])
        await api.everything_is_received()
    (event,) = host.events
    assert isinstance(event, Message)
    assert (event.text, event.author) == ("2", "12")
    assert Delivered(event.reply_to or "") == outcome
    assert api.taps_answered == ({tap} if told else set())


async def test_an_edit_and_a_new_id_are_events_too(api: BotApi, host: Taken) -> None:
    group = api.group(-55, "Hives", "group")
    async with served(telegram(api), host):
        told = await api.says(group, WREN, "steer 4380")
        await api.edits(group, told, "steer 4390", at=1_780_149_060)
        await api.becomes_supergroup(group, -1002)
        await api.everything_is_received()
    kinds = [type(event) for event in host.events]
    assert kinds == [Message, Edited, Moved, Moved]


async def test_a_picture_is_fetched_by_its_reference(api: BotApi, host: Taken) -> None:
    async with served(telegram(api), host) as network:
        await api.shows(api.private(WREN), WREN, b"a ticket", caption="from Saltlick")
        await api.everything_is_received()
        (event,) = host.events
        assert isinstance(event, Message)
        assert event.photo is not None
        assert await network.fetch(event.photo.reference, 100) == b"a ticket"


@pytest.mark.parametrize(("reference", "why"), [("picture0", "too large"), ("picture7", "gone")])
async def test_a_picture_that_is_too_large_or_gone_says_so(
    api: BotApi, host: Taken, reference: str, why: str
) -> None:
    await api.shows(api.private(WREN), WREN, b"a ticket")
    async with served(telegram(api), host) as network:
        with pytest.raises(NotFetched, match=why):
            await network.fetch(reference, 4)


async def test_a_picture_that_can_not_be_had_now_is_tried_again(api: BotApi, host: Taken) -> None:
    await api.shows(api.private(WREN), WREN, b"a ticket")
    troubles = iter([Trouble.DROPPED_BEFORE, Trouble.FLOOD])
    async with served(telegram(api), host) as network:
        api.trouble = lambda method: next(troubles, None) if method == "getFile" else None
        assert await network.fetch("picture0", 100) == b"a ticket"


async def test_a_wrong_token_is_said_to_whoever_runs_drawbar(api: BotApi, host: Taken) -> None:
    api.token = "123456:another"
    with pytest.raises(NetworkRefused, match="DRAWBAR_TELEGRAM_TOKEN") as refused:
        await telegram(api).run(host)
    assert "stand-in_token" not in str(refused.value)


async def test_drawbar_waits_until_telegram_can_be_reached(api: BotApi, host: Taken) -> None:
    troubles = iter([Trouble.DROPPED_BEFORE, Trouble.FAILED_BEFORE, Trouble.FLOOD] * 3)
    api.trouble = lambda method: next(troubles, None)
    await api.says(api.private(WREN), WREN, "steer 4380")
    async with served(telegram(api), host):
        await api.everything_is_received()
    assert texts(host.events) == ["steer 4380"]


async def test_every_command_in_the_menu_is_one_that_the_chat_understands(
    api: BotApi, host: Taken
) -> None:
    async with served(telegram(api), host):
        await until(lambda: len(api.descriptions.get("es", [])) == 2)
    assert list(api.commands) == ["", "es"]
    words = [each["command"] for commands in api.commands.values() for each in commands]
    assert "ayuda" in words
    assert len(words) == len(set(words)) == 16
    read = reader()
    for language in ("en", "es"):
        context = Context(sent_at=AT, language=language)
        assert [name for name in words if isinstance(read(name, context), Silent)] == []


def test_a_word_of_the_menu_means_the_same_in_every_language() -> None:
    read = reader()
    for words in zip(*(each.menu for each in introductions()), strict=True):
        contexts = [Context(sent_at=AT, language=language) for language in languages()]
        meant = {_meant(read(word, context)) for word in words for context in contexts}
        assert len(meant) == 1, (words, meant)


def _meant(verdict: Verdict) -> str:
    match verdict:
        case Question(topic):
            return topic
        case Facts((Correction(action=action),)):
            return action
    return type(verdict).__name__


async def test_what_is_served_is_told_in_a_line(api: BotApi, host: Taken) -> None:
    network = telegram(api)
    assert network.about() == "Telegram by polling, not connected yet"
    async with served(network, host):
        assert network.about() == (
            "Telegram as @drawbar_bot by polling; sees all messages in groups"
        )
    assert network.about() == "Telegram by polling, not connected yet"
