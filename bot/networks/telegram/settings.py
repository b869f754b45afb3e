"""What can be set of Telegram, and what is said of a setting that can't be right.

This file knows no library and opens nothing, so that settings can be read without either.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from urllib.parse import urlsplit

from bot.messages import NetworkRefused

SETTING = "DRAWBAR_TELEGRAM_"


@dataclass(frozen=True, slots=True, kw_only=True)
class Webhook:
    """Where Telegram calls (`url`, through your own HTTPS proxy), and where Drawbar listens.

    The path is the url's own. Without a `secret` a new one is drawn at each start.
    """

    url: str
    listen: str = "127.0.0.1"
    port: int = 8443
    secret: str | None = field(default=None, repr=False)

    @property
    def host(self) -> str:
        """Whom Telegram calls; the path is kept out, as some hide a secret in it."""
        return urlsplit(self.url).netloc

    @property
    def path(self) -> str:
        """The path that is listened on."""
        return urlsplit(self.url).path or "/"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pace:
    """How many answers may leave: to one chat a second, to one group a minute, in all a second.

    The defaults are Telegram's (Bots FAQ, 'My bot is hitting limits'): 1, 20 and 30.
    """

    chat_a_second: float = 1
    group_a_minute: float = 20
    overall_a_second: float = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class TelegramSettings:
    """The bot's token; a webhook where it is not to poll; `api` is another Bot API server."""

    token: str = field(repr=False)
    webhook: Webhook | None = None
    api: str = "https://api.telegram.org"
    pace: Pace = Pace()


TOKEN_REFUSED = (
    "The Telegram token was not accepted; take it anew from Telegram's @BotFather and set"
    f" {SETTING}TOKEN to it."
)

_TOKEN = re.compile(r"\d+:[\w-]+", re.ASCII)
_SECRET = re.compile(r"[\w-]{1,256}", re.ASCII)


def check(settings: TelegramSettings) -> None:
    """Raise NetworkRefused where a setting can't be right whatever Telegram says."""
    if not _TOKEN.fullmatch(settings.token):
        raise NetworkRefused(TOKEN_REFUSED)
    if not _is_address(settings.api, "http", "https"):
        raise NetworkRefused(
            f"{SETTING}API is {settings.api!r}; it must be the https:// address of a Bot API"
            " server. Without it Drawbar asks Telegram's own."
        )
    webhook = settings.webhook
    if webhook is None:
        return
    if not _is_address(webhook.url, "https"):
        raise NetworkRefused(
            f"{SETTING}WEBHOOK_URL is {webhook.url!r}; it must be the https:// address at which"
            " Telegram reaches Drawbar. Without it Drawbar polls."
        )
    if not 0 <= webhook.port <= 65_535:
        raise NetworkRefused(
            f"{SETTING}WEBHOOK_PORT is {webhook.port}; it must be a port from 1 to 65535."
        )
    if webhook.secret is not None and not _SECRET.fullmatch(webhook.secret):
        raise NetworkRefused(
            f"{SETTING}WEBHOOK_SECRET must be 1 to 256 letters, digits, _ or - (no accents)."
            " Without it Drawbar draws one."
        )


def _is_address(text: str, *schemes: str) -> bool:
    try:
        parts = urlsplit(text)
    except ValueError:
        return False
    return parts.scheme in schemes and bool(parts.hostname)
