"""What Telegram hands over, and the event that it is."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest
from telegram import Update, User

from bot.messages import Edited, Event, Message, Moved, Photo
from bot.networks.telegram.incoming import event_of, plain_words
from tests.networks.telegram.people import OTHER_BOT, THEO, WREN

ME = User(id=123456, is_bot=True, first_name="Drawbar", username="drawbar_bot")
NOW = datetime(2026, 5, 30, 14, 0, tzinfo=UTC)
SENT = 1_780_149_000
SENT_AT = datetime(2026, 5, 30, 13, 50, tzinfo=UTC)
PRIVATE = {"id": 11, "type": "private", "first_name": "Wren", "last_name": "Ash"}
GROUP = {"id": -1001, "type": "supergroup", "title": "Hives"}


def message(text: Any = "steer 4380", **more: Any) -> dict[str, Any]:
    told = {
        "message_id": 41, "date": SENT, "chat": PRIVATE, "from": WREN, "text": text
    } | more  # fmt: skip
    return {key: value for key, value in told.items() if value is not None}


def heard(**update: Any) -> Event | None:
    return event_of(Update.de_json({"update_id": 7, **update}, None), ME, NOW)


def expected(**more: Any) -> Message:
    told: dict[str, Any] = {
        "network": "telegram", "chat": "11", "id": "41", "author": "11", "name": "Wren Ash",
        "sent_at": SENT_AT, "text": "steer 4380", "private": True, "title": "Wren Ash",
    } | more  # fmt: skip
    return Message(**told)


IN_GROUP = {"chat": "-1001", "private": False, "title": "Hives"}
EARLIER = {"message_id": 40, "date": SENT - 60, "chat": GROUP, "from": THEO, "text": "gross?"}
TOPIC = {"message_thread_id": 5, "is_topic_message": True}
OPENED = {
    "message_id": 5, "date": SENT - 90, "chat": GROUP, "from": THEO,
    "forum_topic_created": {"name": "Weights", "icon_color": 7322096},
}  # fmt: skip
SIZES = [
    {"file_id": "small", "file_unique_id": "a", "width": 90, "height": 67, "file_size": 900},
    {"file_id": "large", "file_unique_id": "b", "width": 1280, "height": 960, "file_size": 90_000},
]
HUGE = {
    "file_id": "huge", "file_unique_id": "c", "width": 9000, "height": 9000, "file_size": 21 << 20
}  # fmt: skip
TICKET = {"file_id": "doc", "file_unique_id": "d", "mime_type": "image/png", "file_size": 70_000}
ANSWER = {"message_id": 60, "date": SENT, "chat": GROUP, "from": ME.to_dict(), "text": "Which?"}


@pytest.mark.parametrize(
    ("told", "event"),
    [
        (message(), expected()),
        (message(chat=GROUP), expected(**IN_GROUP)),
        (message(chat=GROUP, **{"from": THEO}), expected(**IN_GROUP, author="12", name="Theo")),
        (
            message(chat=GROUP, reply_to_message=EARLIER),
            expected(**IN_GROUP, reply_to="40"),
        ),
        (
            message(chat=GROUP, reply_to_message=OPENED, **TOPIC),
            expected(**IN_GROUP, thread="5"),
        ),
        (
            message(chat=GROUP, reply_to_message=EARLIER, **TOPIC),
            expected(**IN_GROUP, thread="5", reply_to="40"),
        ),
        (
            message(chat=GROUP, reply_to_message=EARLIER, message_thread_id=40),
            expected(**IN_GROUP, reply_to="40"),
        ),
        (message(None, photo=SIZES), expected(text="", photo=Photo(reference="large"))),
        (
            message(None, photo=[*SIZES, HUGE], caption="ticket from Saltlick"),
            expected(text="ticket from Saltlick", photo=Photo(reference="large")),
        ),
        (message(None, document=TICKET), expected(text="", photo=Photo(reference="doc"))),
        (
            message(None, document=TICKET | {"file_size": 21 << 20}, caption="steer 4380"),
            expected(),
        ),
        (message("/undo@drawbar_bot trailer"), expected(text="undo trailer")),
        (message("steer 4380", via_bot=OTHER_BOT), expected()),
    ],
    ids=lambda value: "" if isinstance(value, Message) else None,
)
def test_a_new_message_is_what_its_sender_wrote(told: dict[str, Any], event: Message) -> None:
    assert heard(message=told) == event


@pytest.mark.parametrize(
    "told",
    [
        pytest.param({"message": message(**{"from": OTHER_BOT})}, id="another bot"),
        pytest.param({"message": message(**{"from": ME.to_dict()})}, id="itself"),
        pytest.param({"message": message("/help@other_bot")}, id="a command to another bot"),
        pytest.param({"channel_post": message(**{"from": None})}, id="a channel's post"),
        pytest.param({"message": message(is_automatic_forward=True)}, id="a post passed on"),
        pytest.param({"message": message(None)}, id="neither text nor picture"),
        pytest.param(
            {"message": message(None, document=TICKET | {"mime_type": "application/pdf"})},
            id="a file that is no picture",
        ),
        pytest.param({"edited_message": message()}, id="an edit that says no time"),
        pytest.param(
            {"callback_query": {"id": "9", "from": WREN, "chat_instance": "1", "data": "1"}},
            id="a tap on a message that is gone",
        ),
        pytest.param(
            {
                "callback_query": {
                    "id": "9", "from": WREN, "chat_instance": "1", "message": ANSWER,
                    "data": "drop table",
                }
            },
            id="a tap that no button sends",
        ),
    ],
)  # fmt: skip
def test_what_is_not_for_drawbar_is_passed_over(told: dict[str, Any]) -> None:
    assert heard(**told) is None


def test_an_edit_keeps_the_first_time_and_is_told_from_others_by_its_own() -> None:
    edit = heard(edited_message=message("steer 4390", edit_date=SENT + 60))
    assert edit == Edited(
        message=expected(text="steer 4390"),
        id=str(SENT + 60),
        at=datetime(2026, 5, 30, 13, 51, tzinfo=UTC),
    )


@pytest.mark.parametrize("gone", [False, True], ids=["shown", "too old to be had"])
def test_a_tap_is_the_choices_number_in_reply_to_the_answer(gone: bool) -> None:
    answer = ANSWER | {"chat": GROUP, "date": 0 if gone else SENT}
    tap = {"id": "900", "from": THEO, "chat_instance": "1", "message": answer, "data": "2"}
    assert heard(callback_query=tap) == expected(
        **IN_GROUP, id="tap-900", author="12", name="Theo", text="2", reply_to="60", sent_at=NOW
    )


def test_a_tap_in_a_topic_stays_there() -> None:
    tap = {"id": "900", "from": THEO, "chat_instance": "1", "message": ANSWER | TOPIC, "data": "2"}
    event = heard(callback_query=tap)
    assert isinstance(event, Message)
    assert event.thread == "5"


@pytest.mark.parametrize(
    "told",
    [
        message(
            None, chat={"id": -55, "type": "group", "title": "Hives"}, migrate_to_chat_id=-1001
        ),
        message(None, chat=GROUP, migrate_from_chat_id=-55),
    ],
    ids=["said in the old group", "said in the new one"],
)
def test_a_group_that_grows_gets_another_id(told: dict[str, Any]) -> None:
    assert heard(message=told) == Moved(network="telegram", chat="-55", to="-1001")


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("/help", "help"),
        ("/HELP", "help"),
        ("/undo@drawbar_bot", "undo"),
        ("/Undo@Drawbar_Bot last two", "undo last two"),
        ("/tie_downs 24000", "tie downs 24000"),
        ("/weight\nsteer 4380", "weight steer 4380"),
        ("/start", "help"),
        ("/start XK4-P2", "XK4-P2"),
        ("/help@other_bot", None),
        ("@drawbar_bot how heavy are we?", "how heavy are we?"),
        ("@Drawbar_bot, how heavy are we?", "how heavy are we?"),
        ("@drawbar_bots how heavy are we?", "@drawbar_bots how heavy are we?"),
        ("/5 of the axle", "/5 of the axle"),
        ("4380/7060", "4380/7060"),
        ("see /help", "see /help"),
        ("/", "/"),
        ("", ""),
    ],
)
def test_a_command_is_the_words_that_it_stands_for(text: str, words: str | None) -> None:
    assert plain_words(text, "drawbar_bot") == words
