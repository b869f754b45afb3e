"""Telegram calls, and others who would like to be taken for it."""

from __future__ import annotations

import asyncio
import io
import socket

import aiohttp
import pytest

from bot.messages import Event, Message, NetworkRefused
from bot.networks.telegram.settings import TelegramSettings, Webhook, check
from bot.networks.telegram.webhook import HEADER, MOST_BYTES
from tests.networks.telegram.bot_api import TOKEN, BotApi
from tests.networks.telegram.people import WREN
from tests.networks.telegram.serving import Taken, served, telegram, until
from tests.whole.attacks import attack

URL = "https://drawbar.example:8443/telegram"
SECRET = "made-up_secret"
UPDATE = {
    "update_id": 7001,
    "message": {
        "message_id": 1, "date": 1_780_149_000, "text": "steer 4380", "from": WREN,
        "chat": {"id": 11, "type": "private", "first_name": "Wren"},
    },
}  # fmt: skip


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@pytest.fixture
def webhook(api: BotApi) -> Webhook:
    """A webhook, with the stand-in as the proxy that leads from its address to this machine."""
    webhook = Webhook(url=URL, port=free_port(), secret=SECRET)
    api.reach = f"http://127.0.0.1:{webhook.port}"
    return webhook


def texts(events: list[Event]) -> list[str]:
    return [event.text for event in events if isinstance(event, Message)]


async def test_what_telegram_calls_in_is_taken_in_order(
    api: BotApi, host: Taken, webhook: Webhook
) -> None:
    wrens = api.private(WREN)
    async with served(telegram(api, webhook), host) as network:
        for number in range(5):
            await api.says(wrens, WREN, f"message {number}")
        await api.everything_is_received()
        assert network.about() == (
            "Telegram as @drawbar_bot by webhook at drawbar.example:8443;"
            " sees all messages in groups"
        )
    assert texts(host.events) == [f"message {number}" for number in range(5)]


async def test_without_a_secret_of_ones_own_one_is_drawn(api: BotApi, host: Taken) -> None:
    port = free_port()
    api.reach = f"http://127.0.0.1:{port}"
    async with served(telegram(api, Webhook(url=URL, port=port)), host):
        await api.says(api.private(WREN), WREN, "steer 4380")
        await api.everything_is_received()
        assert api.webhook is not None
        assert len(api.webhook["secret_token"]) >= 32
    assert texts(host.events) == ["steer 4380"]


async def test_a_call_counts_only_once_its_message_was_taken(
    api: BotApi, host: Taken, webhook: Webhook
) -> None:
    host.free.clear()
    async with served(telegram(api, webhook), host):
        await until(lambda: api.webhook)
        call = asyncio.create_task(api.knock(UPDATE))
        await until(lambda: host.begun)
        assert not call.done()
        host.free.set()
        assert await call == 200
    assert texts(host.events) == ["steer 4380"]


async def test_what_drawbar_was_at_as_it_stopped_is_called_in_again(
    api: BotApi, host: Taken, webhook: Webhook
) -> None:
    await api.says(api.private(WREN), WREN, "steer 4380")
    host.free.clear()
    async with served(telegram(api, webhook), host):
        await until(lambda: api.webhook)
        receiving = asyncio.create_task(api.everything_is_received())
        await until(lambda: host.begun)
    assert host.events == []
    host.free.set()
    async with served(telegram(api, webhook), host):
        await receiving
    assert texts(host.events) == ["steer 4380"]


async def test_a_message_that_drawbar_fails_on_is_called_in_again(
    api: BotApi, host: Taken, webhook: Webhook
) -> None:
    failures = iter([True])

    def fail(event: Event) -> None:
        if next(failures, False):
            raise ValueError

    host.before = fail
    async with served(telegram(api, webhook), host):
        await until(lambda: api.webhook)
        assert await api.knock(UPDATE) == 503
        assert await api.knock(UPDATE) == 200
    assert texts(host.events) == ["steer 4380"]


FORGED = [
    pytest.param({HEADER: "wrong"}, id="another secret"),
    pytest.param({HEADER: ""}, id="none"),
    pytest.param({HEADER: SECRET[:-1]}, id="part of it"),
    pytest.param({HEADER: SECRET + "x"}, id="more than it"),
    pytest.param({HEADER: "made-up_s\u00e9cret"}, id="letters outside of ASCII"),
]


@attack("a forged webhook call", "403 without the secret, which is compared in constant time")
@pytest.mark.parametrize("headers", FORGED)
async def test_a_call_without_the_secret_is_turned_away(
    api: BotApi, host: Taken, webhook: Webhook, headers: dict[str, str]
) -> None:
    async with served(telegram(api, webhook), host):
        await until(lambda: api.webhook)
        assert await api.knock(UPDATE, **headers) == 403
    assert host.begun == []


BAD = [
    pytest.param("POST", "/telegram", b"{", 400, id="no JSON"),
    pytest.param("POST", "/telegram", b"[" * 100_000, 400, id="brackets without end"),
    pytest.param("POST", "/telegram", b"\xff\xfe\x00", 400, id="no text"),
    pytest.param("POST", "/telegram", b"[]", 400, id="no update"),
    pytest.param("POST", "/telegram", b'{"update_id": "x"}', 400, id="no number"),
    pytest.param("POST", "/telegram", b'{"update_id": 1, "message": 7}', 200, id="unreadable"),
    pytest.param("POST", "/telegram", b"x" * (MOST_BYTES + 1), 413, id="too long"),
    pytest.param("GET", "/telegram", b"", 405, id="a look"),
    pytest.param("PUT", "/telegram", b"{}", 405, id="another verb"),
    pytest.param("POST", "/", b"{}", 404, id="another path"),
]


@attack("a webhook call that is no update, or without end", "refused; nothing is read of it")
@pytest.mark.parametrize(("verb", "path", "body", "status"), BAD)
async def test_a_call_that_is_no_update_is_refused(
    api: BotApi, host: Taken, webhook: Webhook, verb: str, path: str, body: bytes, status: int
) -> None:
    async with served(telegram(api, webhook), host):
        await until(lambda: api.webhook)
        async with (
            aiohttp.ClientSession() as web,
            web.request(
                verb, f"{api.reach}{path}", data=io.BytesIO(body), headers={HEADER: SECRET}
            ) as answer,
        ):
            assert answer.status == status
    assert host.begun == []


async def test_polling_takes_down_a_webhook_that_was_left(
    api: BotApi, host: Taken, webhook: Webhook
) -> None:
    async with served(telegram(api, webhook), host):
        await until(lambda: api.webhook)
    assert api.webhook is not None
    async with served(telegram(api), host):
        await api.says(api.private(WREN), WREN, "steer 4380")
        await api.everything_is_received()
    assert api.webhook is None
    assert texts(host.events) == ["steer 4380"]


async def test_a_port_that_is_taken_is_said(api: BotApi, host: Taken, webhook: Webhook) -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", webhook.port))
        other.listen()
        with pytest.raises(NetworkRefused, match=f"WEBHOOK_PORT {webhook.port} can't be"):
            await telegram(api, webhook).run(host)


async def test_an_address_that_telegram_does_not_call_is_said(api: BotApi, host: Taken) -> None:
    wrong = Webhook(url="https://drawbar.example:9000/telegram", port=free_port())
    with pytest.raises(NetworkRefused, match=r"WEBHOOK_URL .*only on ports"):
        await telegram(api, wrong).run(host)


@pytest.mark.parametrize(
    ("settings", "named"),
    [
        (TelegramSettings(token=""), "DRAWBAR_TELEGRAM_TOKEN"),
        (TelegramSettings(token="my token"), "DRAWBAR_TELEGRAM_TOKEN"),
        (TelegramSettings(token=TOKEN, api="telegram.example"), "DRAWBAR_TELEGRAM_API"),
        (TelegramSettings(token=TOKEN, webhook=Webhook(url="http://x.example/")), "WEBHOOK_URL"),
        (TelegramSettings(token=TOKEN, webhook=Webhook(url="https://[x/")), "WEBHOOK_URL"),
        (TelegramSettings(token=TOKEN, webhook=Webhook(url="drawbar.example")), "WEBHOOK_URL"),
        (TelegramSettings(token=TOKEN, webhook=Webhook(url=URL, port=99999)), "WEBHOOK_PORT"),
        (TelegramSettings(token=TOKEN, webhook=Webhook(url=URL, secret="a b")), "WEBHOOK_SECRET"),
        (TelegramSettings(token=TOKEN, webhook=Webhook(url=URL, secret="")), "WEBHOOK_SECRET"),
    ],
)
def test_a_setting_that_can_not_be_right_is_named(settings: TelegramSettings, named: str) -> None:
    with pytest.raises(NetworkRefused, match=named) as refused:
        check(settings)
    assert settings.token not in str(refused.value) or not settings.token


def test_settings_do_not_show_what_is_secret() -> None:
    settings = TelegramSettings(token=TOKEN, webhook=Webhook(url=URL, secret=SECRET))
    assert TOKEN not in repr(settings)
    assert SECRET not in repr(settings)
