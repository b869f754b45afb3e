"""The stand-in is as strict as the documentation says, or the tests beside this one mean little."""

from __future__ import annotations

from typing import Any

import aiohttp
import pytest

from tests.networks.telegram.bot_api import TOKEN, BotApi
from tests.networks.telegram.limits import REACTIONS, Refusal, parsed
from tests.networks.telegram.people import HIVES, WREN


async def call(api: BotApi, method: str, **told: Any) -> tuple[int, Any]:
    form = {key: str(value) for key, value in told.items()}
    async with (
        aiohttp.ClientSession() as web,
        web.post(f"{api.url}/bot{TOKEN}/{method}", data=form) as answer,
    ):
        return answer.status, await answer.json()


async def updates(api: BotApi, offset: int = 0) -> list[int]:
    _, answer = await call(api, "getUpdates", offset=offset)
    return [each["update_id"] for each in answer["result"]]


async def test_an_update_comes_again_until_a_higher_one_is_asked_for(api: BotApi) -> None:
    """Bot API, getUpdates: offset."""
    for _ in range(3):
        await api.says(api.private(WREN), WREN, "steer 4380")
    assert await updates(api) == [7001, 7002, 7003]
    assert await updates(api, 7001) == [7001, 7002, 7003]
    assert await updates(api, 7003) == [7003]
    assert await updates(api) == [7003]
    assert await updates(api, 7004) == []


async def test_there_is_no_polling_beside_a_webhook(api: BotApi) -> None:
    await call(api, "setWebhook", url="https://drawbar.example/x", secret_token="s")
    status, _ = await call(api, "getUpdates")
    assert status == 409


@pytest.mark.parametrize(
    "text",
    [
        "a < b", "a & b", "a > b", "<h1>big</h1>", "<b>open", "</b>", "<b><i>crossed</b></i>",
        "&nbsp;", "<pre>a <b>bold</b></pre>", "<b onclick=x>x</b>", "<br/>",
    ],
)  # fmt: skip
def test_html_outside_of_the_documented_is_refused(text: str) -> None:
    """Bot API, Formatting options, HTML style."""
    with pytest.raises(Refusal, match="can't parse entities"):
        parsed(text)


@pytest.mark.parametrize(
    ("text", "seen"),
    [
        ("<b>over</b> by 60", "over by 60"),
        ("<b><i>both</i></b>", "both"),
        ("<pre>a\n b</pre>", "a\n b"),
        ("&lt;b&gt; &amp; &quot;&#x27;&#39;", "<b> & \"''"),
        ('<a href="https://x.example/">x</a>', "x"),
    ],
)
def test_documented_html_is_seen_without_its_tags(text: str, seen: str) -> None:
    assert parsed(text) == seen


WRONG = [
    pytest.param("sendMessage", {"text": "x" * 4097}, "too long", id="4,097 units"),
    pytest.param("sendMessage", {"text": "🐝" * 2049}, "too long", id="4,098 in pairs"),
    pytest.param("sendMessage", {"text": ""}, "empty", id="nothing"),
    pytest.param(
        "sendMessage",
        {
            "text": "x",
            "reply_markup": '{"inline_keyboard": [[{"text": "x", "callback_data": "%s"}]]}'
            % ("ü" * 33),
        },
        "BUTTON_DATA_INVALID",
        id="66 bytes of callback data",
    ),
    pytest.param(
        "sendMessage",
        {"text": "x", "reply_parameters": '{"message_id": 4711}'},
        "not found",
        id="a reply to nothing",
    ),
    pytest.param("sendMessage", {"text": "x", "message_thread_id": 5}, "thread", id="no topic"),
    pytest.param(
        "setMessageReaction",
        {"message_id": 1, "reaction": '[{"type": "emoji", "emoji": "✅"}]'},
        "REACTION_INVALID",
        id="a sign that is none",
    ),
    pytest.param(
        "setMessageReaction",
        {"message_id": 99, "reaction": '[{"type": "emoji", "emoji": "✍"}]'},
        "not found",
        id="a sign on nothing",
    ),
]


@pytest.mark.parametrize(("method", "told", "why"), WRONG)
async def test_a_call_beyond_the_limits_is_refused(
    api: BotApi, method: str, told: dict[str, Any], why: str
) -> None:
    await api.says(api.group(HIVES, "Hives"), WREN, "steer 4380")
    status, answer = await call(api, method, chat_id=HIVES, **told)
    assert status == 400
    assert why in answer["description"]


def test_the_signs_are_those_of_the_documentation() -> None:
    """Bot API 10.1, ReactionTypeEmoji, has 73."""
    assert len(REACTIONS) == 73
    assert "✅" not in REACTIONS
