"""What becomes of an answer, by what Telegram says to it."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import AsyncIterator
from dataclasses import replace
from datetime import timedelta

import httpx
import pytest
from telegram.error import NetworkError, TelegramError, TimedOut

from bot.answers.answer import Answer, Row
from bot.messages import (
    Delivered,
    Drawn,
    Letter,
    MovedTo,
    NotSent,
    Outcome,
    Printed,
    Refused,
    Unknown,
)
from bot.networks.telegram.network import Telegram
from bot.networks.telegram.outcomes import outcome_of
from bot.networks.telegram.settings import Pace
from bot.pictures.drawing import png
from tests.networks.telegram.bot_api import TOKEN, BotApi, Trouble
from tests.networks.telegram.people import HIVES, WREN
from tests.networks.telegram.serving import FAST, Taken, served, telegram, until
from tests.pictures.examples import week

KEPT = Answer(headline="31.4 gal kept.", quiet=True)
ASKED = Answer(headline="Which trailer?", choices=("flatdeck", "camper"))
LONG = Answer(
    headline="Every weighing.",
    rows=tuple(Row(f"Weighing {number}", f"{number:,} lb") for number in range(1, 300)),
    choices=("more", "enough"),
)


WEEK = Drawn(png=png(week()), alt=week().alt)


@pytest.fixture
async def network(api: BotApi, host: Taken) -> AsyncIterator[Telegram]:
    api.private(WREN)
    api.group(HIVES, "Hives")
    async with served(telegram(api), host) as network:
        await until(lambda: "getUpdates" in [method for method, _ in api.calls])
        yield network


def letter(
    answer: Answer = ASKED,
    chat: int = WREN["id"],
    *,
    key: str = "drawbar-1",
    reply_to: str | None = None,
    thread: str | None = None,
) -> Letter:
    return Letter(chat=str(chat), answer=answer, key=key, reply_to=reply_to, thread=thread)


def shown(sent: Letter) -> Letter:
    """The letter with a picture."""
    return replace(sent, picture=WEEK)


def once(method: str, trouble: Trouble, after: int = 0) -> object:
    """A trouble for one call of a method, after so many that went well."""
    calls = iter([None] * after + [trouble])
    return lambda called: next(calls, None) if called == method else None


async def test_an_answer_is_delivered_under_the_id_of_the_message_with_its_buttons(
    api: BotApi, network: Telegram
) -> None:
    outcome = await network.send(letter(LONG))
    first, last = api.shown
    assert outcome == Delivered(str(last.id))
    assert first.buttons == ()
    assert last.buttons == (("more", "1"), ("enough", "2"))


async def test_in_a_group_an_answer_is_a_reply_in_the_same_topic(
    api: BotApi, network: Telegram
) -> None:
    api.rooms[HIVES].topics.add(5)
    asked = await api.says(api.rooms[HIVES], WREN, "which one?")
    await network.send(letter(chat=HIVES, reply_to=str(asked), thread="5"))
    assert [(each.reply_to, each.thread) for each in api.shown] == [(asked, 5)]


async def test_with_one_person_an_answer_is_no_reply(api: BotApi, network: Telegram) -> None:
    asked = await api.says(api.rooms[WREN["id"]], WREN, "which one?")
    await network.send(letter(reply_to=str(asked)))
    assert [each.reply_to for each in api.shown] == [None]


@pytest.mark.parametrize("reply_to", ["4711", "tap-900"], ids=["deleted since", "a tap"])
async def test_an_answer_to_what_can_not_be_replied_to_comes_all_the_same(
    api: BotApi, network: Telegram, reply_to: str
) -> None:
    assert isinstance(await network.send(letter(chat=HIVES, reply_to=reply_to)), Delivered)
    assert [each.reply_to for each in api.shown] == [None]


async def test_a_topic_that_is_gone_has_its_answer_in_the_group(
    api: BotApi, network: Telegram
) -> None:
    assert isinstance(await network.send(letter(chat=HIVES, thread="5")), Delivered)
    assert [each.thread for each in api.shown] == [None]


async def test_a_picture_has_the_words_below_it_in_one_message(
    api: BotApi, network: Telegram
) -> None:
    api.rooms[HIVES].topics.add(5)
    asked = await api.says(api.rooms[HIVES], WREN, "show me the week")
    outcome = await network.send(shown(letter(chat=HIVES, reply_to=str(asked), thread="5")))
    (post,) = api.shown
    assert outcome == Delivered(str(post.id))
    assert (post.picture, post.reply_to, post.thread) == (WEEK.png, asked, 5)
    assert post.text == "Which trailer?"
    assert post.buttons == (("flatdeck", "1"), ("camper", "2"))


async def test_words_that_do_not_fit_below_a_picture_come_after_it(
    api: BotApi, network: Telegram
) -> None:
    outcome = await network.send(shown(letter(LONG)))
    first, *others = api.shown
    assert outcome == Delivered(str(others[-1].id))
    assert (first.picture, first.text) == (WEEK.png, "")
    assert [each.picture for each in others] == [b""] * 2
    assert others[0].text.startswith("Every weighing.")


async def test_a_picture_that_is_refused_leaves_the_words(api: BotApi, network: Telegram) -> None:
    api.refuses_pictures = True
    for answer in (ASKED, LONG):
        assert isinstance(await network.send(shown(letter(answer))), Delivered)
    assert [each.text.splitlines()[0] for each in api.shown][:2] == [
        "Which trailer?",
        "Every weighing.",
    ]
    assert all(each.picture == b"" for each in api.shown)


async def test_a_picture_in_a_topic_that_is_gone_leaves_the_words_in_the_group(
    api: BotApi, network: Telegram
) -> None:
    assert isinstance(await network.send(shown(letter(chat=HIVES, thread="5"))), Delivered)
    assert [(each.text[:5], each.thread) for each in api.shown] == [("Which", None)]


async def test_a_quiet_answer_is_a_sign_on_the_message(api: BotApi, network: Telegram) -> None:
    told = await api.says(api.rooms[HIVES], WREN, "31.4 gal at 3.899")
    assert await network.send(letter(KEPT, HIVES, reply_to=str(told))) == Delivered()
    assert api.signs == [(HIVES, told, "✍")]
    assert api.shown == []


async def test_where_signs_are_not_allowed_a_quiet_answer_is_said(
    api: BotApi, network: Telegram
) -> None:
    api.rooms[HIVES].reactions = False
    told = await api.says(api.rooms[HIVES], WREN, "31.4 gal at 3.899")
    assert isinstance(await network.send(letter(KEPT, HIVES, reply_to=str(told))), Delivered)
    assert [each.text for each in api.shown] == ["31.4 gal kept."]


@pytest.mark.parametrize("reply_to", [{}, {"reply_to": "tap-900"}, {"reply_to": "4711"}])
async def test_a_quiet_answer_to_no_message_is_said(
    api: BotApi, network: Telegram, reply_to: dict[str, str]
) -> None:
    assert isinstance(await network.send(letter(KEPT, HIVES, **reply_to)), Delivered)
    assert [each.text for each in api.shown] == ["31.4 gal kept."]


async def test_a_sign_of_unknown_fate_may_be_set_again(api: BotApi, network: Telegram) -> None:
    told = await api.says(api.rooms[HIVES], WREN, "31.4 gal at 3.899")
    api.trouble = once("setMessageReaction", Trouble.DROPPED_AFTER)  # type: ignore[assignment]
    assert isinstance(await network.send(letter(KEPT, HIVES, reply_to=str(told))), NotSent)
    assert await network.send(letter(KEPT, HIVES, reply_to=str(told))) == Delivered()
    assert set(api.signs) == {(HIVES, told, "✍")}


@pytest.mark.parametrize(
    ("trouble", "outcome"),
    [
        (Trouble.FLOOD, NotSent("Telegram wants fewer messages", timedelta(seconds=1))),
        (Trouble.DROPPED_BEFORE, Unknown("no connection to Telegram (RemoteProtocolError)")),
        (Trouble.DROPPED_AFTER, Unknown("no connection to Telegram (RemoteProtocolError)")),
        (Trouble.FAILED_BEFORE, Unknown("Telegram's server has trouble")),
        (Trouble.FAILED_AFTER, Unknown("Telegram's server has trouble")),
    ],
)
async def test_whether_an_answer_may_have_arrived(
    api: BotApi, network: Telegram, trouble: Trouble, outcome: Outcome
) -> None:
    api.trouble = once("sendMessage", trouble)  # type: ignore[assignment]
    assert await network.send(letter()) == outcome
    assert len(api.shown) == trouble.carries_out


async def test_a_person_who_blocked_the_bot_is_not_tried_again(
    api: BotApi, network: Telegram
) -> None:
    api.rooms[WREN["id"]].blocked = True
    assert await network.send(letter()) == Refused("Forbidden: bot was blocked by the user")


async def test_a_group_that_put_the_bot_out_is_not_tried_again(
    api: BotApi, network: Telegram
) -> None:
    api.rooms[HIVES].blocked = True
    assert await network.send(letter(chat=HIVES)) == Refused(
        "Forbidden: bot was kicked from the supergroup chat"
    )


async def test_a_chat_that_is_gone_is_not_tried_again(network: Telegram) -> None:
    assert await network.send(letter(chat=404)) == Refused("Chat not found")


async def test_a_group_that_grew_is_known_by_its_new_id(api: BotApi, network: Telegram) -> None:
    await api.becomes_supergroup(api.group(-55, "Hives", "group"), -1002)
    assert await network.send(letter(chat=-55)) == MovedTo("-1002")


async def test_a_token_that_is_no_longer_good_leaves_answers_for_later(
    api: BotApi, network: Telegram
) -> None:
    api.token = "123456:another"
    assert isinstance(await network.send(letter()), NotSent)


async def test_a_form_that_is_refused_is_tried_in_plain_words(
    api: BotApi, network: Telegram
) -> None:
    api.refuses_markup = True
    assert isinstance(await network.send(letter()), Delivered)
    assert [each.raw for each in api.shown] == ["Which trailer?\n  1  flatdeck\n  2  camper"]
    assert api.shown[0].buttons == ()


async def test_what_is_refused_in_plain_words_too_is_not_tried_again(
    api: BotApi, network: Telegram
) -> None:
    assert await network.send(letter(Answer(headline="\u200b \n "))) == Refused(
        "Message text is empty"
    )


async def test_nothing_is_sent_where_nobody_listens(api: BotApi, network: Telegram) -> None:
    await api.stop()
    outcome = await network.send(letter())
    assert outcome == NotSent("no connection to Telegram (ConnectError)")


async def test_before_it_is_connected_nothing_is_sent(api: BotApi) -> None:
    assert await telegram(api).send(letter()) == NotSent("not connected to Telegram yet")


async def test_after_a_failure_half_way_a_repeat_sends_only_the_rest(
    api: BotApi, network: Telegram
) -> None:
    api.trouble = once("sendMessage", Trouble.FLOOD, after=1)  # type: ignore[assignment]
    assert isinstance(await network.send(letter(LONG)), NotSent)
    assert len(api.shown) == 1
    assert isinstance(await network.send(letter(LONG)), Delivered)
    assert [each.buttons for each in api.shown] == [(), (("more", "1"), ("enough", "2"))]


async def test_the_same_answer_under_another_key_is_sent_whole(
    api: BotApi, network: Telegram
) -> None:
    api.trouble = once("sendMessage", Trouble.FLOOD, after=1)  # type: ignore[assignment]
    await network.send(letter(LONG))
    await network.send(letter(LONG, key="drawbar-2"))
    assert len(api.shown) == 1 + 2


def raised(error: TelegramError, cause: Exception | None) -> TelegramError:
    error.__cause__ = cause
    return error


@pytest.mark.parametrize(
    ("error", "certain"),
    [
        (raised(TimedOut(), httpx.ConnectTimeout("")), True),
        (raised(TimedOut(), httpx.PoolTimeout("")), True),
        (raised(NetworkError("x"), httpx.ConnectError("")), True),
        (raised(NetworkError("x"), httpx.ProxyError("")), True),
        (raised(NetworkError("x"), RuntimeError("client closed")), True),
        (raised(TimedOut(), httpx.ReadTimeout("")), False),
        (raised(TimedOut(), httpx.WriteTimeout("")), False),
        (raised(NetworkError("x"), httpx.ReadError("")), False),
        (raised(NetworkError("x"), httpx.WriteError("")), False),
        (raised(NetworkError("x"), httpx.RemoteProtocolError("")), False),
        (NetworkError("Bad Gateway"), False),
        (TelegramError("Invalid server response"), False),
    ],
    ids=lambda value: f"{value!r} {value.__cause__!r}" if isinstance(value, Exception) else "",
)
def test_only_what_fails_before_sending_is_certain(error: TelegramError, certain: bool) -> None:
    """TimedOut alone says nothing: it often comes after the message did (PTB's own wiki)."""
    assert isinstance(outcome_of(error), NotSent) == certain
    assert isinstance(outcome_of(error), Unknown) != certain


async def test_many_answers_at_once_keep_to_telegrams_pace(host: Taken) -> None:
    """On a server that refuses what comes faster than its limits, none is refused."""
    pace = Pace(chat_a_second=20, group_a_minute=1200, overall_a_second=100)
    async with BotApi(pace) as api:
        api.private(WREN)
        async with served(telegram(api, pace=pace), host) as network:
            waits = [
                await until_delivered(network, letter(key=f"k{number}")) for number in range(8)
            ]
    assert sum(waits) > 0, "there were turns to wait for"
    assert api.refused == []


async def until_delivered(network: Telegram, each: Letter) -> float:
    """Send as delivery does, waiting as long as is asked; the seconds that this took."""
    waited = 0.0
    while isinstance(outcome := await network.send(each), NotSent):
        assert outcome.retry_after is not None
        waited += outcome.retry_after.total_seconds()
        await asyncio.sleep(outcome.retry_after.total_seconds())
    assert isinstance(outcome, Delivered)
    return waited


async def test_a_group_that_has_to_wait_holds_up_nobody_else(host: Taken) -> None:
    pace = Pace(chat_a_second=50, group_a_minute=2, overall_a_second=100)
    async with BotApi(pace) as api:
        api.private(WREN)
        api.group(HIVES, "Hives")
        async with served(telegram(api, pace=pace), host) as network:
            for number in range(2):
                await until_delivered(network, letter(key=f"g{number}", chat=HIVES))
            late = await network.send(letter(key="g3", chat=HIVES))
            assert isinstance(late, NotSent)
            assert late.retry_after is not None
            assert timedelta(seconds=20) < late.retry_after <= timedelta(seconds=30)
            await until_delivered(network, letter(key="k1"))
    assert api.refused == []


async def test_what_telegram_refuses_takes_no_turn_from_what_is_sent_instead(host: Taken) -> None:
    async with BotApi() as api:
        api.group(HIVES, "Hives")
        api.refuses_pictures = api.refuses_markup = True
        async with served(telegram(api, pace=Pace()), host) as network:
            assert isinstance(await network.send(shown(letter(chat=HIVES))), Delivered)
        assert [each.text[:5] for each in api.shown] == ["Which"]


async def test_without_a_pace_the_server_refuses(host: Taken) -> None:
    pace = Pace(chat_a_second=1, group_a_minute=60, overall_a_second=100)
    async with BotApi(pace) as api:
        api.private(WREN)
        async with served(telegram(api, pace=FAST), host) as network:
            outcomes = [await network.send(letter(key=f"k{number}")) for number in range(8)]
    assert NotSent("Telegram wants fewer messages", timedelta(seconds=1)) in outcomes


async def test_neither_token_nor_words_are_logged(
    api: BotApi, host: Taken, caplog: pytest.LogCaptureFixture
) -> None:
    caplog.set_level(logging.DEBUG)
    api.private(WREN)
    troubles = iter([None] * 8 + list(Trouble))
    async with served(telegram(api), host) as network:
        api.trouble = lambda method: next(troubles, None) if method == "sendMessage" else None
        for number in range(8 + len(Trouble)):
            await network.send(letter(Answer(headline="Saltlick"), key=str(number)))
        await api.says(api.rooms[WREN["id"]], WREN, "Saltlick again")
        await api.update({"update_id": 9000, "message": {"text": "Saltlick, unreadable"}})
        await api.everything_is_received()
    ours = [each for each in caplog.records if not each.name.startswith("asyncio")]
    assert TOKEN not in caplog.text
    assert not [each for each in ours if "Saltlick" in each.getMessage()]


async def test_a_document_has_the_words_below_it_in_one_message(
    api: BotApi, network: Telegram
) -> None:
    """Bot API, sendDocument: a caption of up to 1,024 units."""
    printed = Printed(pdf=b"%PDF-1.7", name="Orchard trip.pdf")
    words = Answer(headline="Report: Orchard trip.")
    outcome = await network.send(replace(letter(words), document=printed))
    (post,) = api.shown
    assert outcome == Delivered(str(post.id))
    assert (post.picture, post.text) == (printed.pdf, "Report: Orchard trip.")


async def test_a_document_that_is_refused_leaves_the_words(api: BotApi, network: Telegram) -> None:
    api.refuses_pictures = True
    printed = Printed(pdf=b"%PDF-1.7", name="Orchard trip.pdf")
    words = Answer(headline="Report: Orchard trip.")
    assert isinstance(await network.send(replace(letter(words), document=printed)), Delivered)
    (post,) = api.shown
    assert post.text.startswith("Report: Orchard trip.")
    assert "drawbar report FILE" in post.text
