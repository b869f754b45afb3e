"""What an error of the Bot API means for the answer that was being sent.

This file decides which errors leave no doubt that nothing arrived. It repeats nothing.
"""

from __future__ import annotations

from datetime import timedelta

import httpx
from telegram.error import (
    BadRequest,
    ChatMigrated,
    Conflict,
    Forbidden,
    InvalidToken,
    RetryAfter,
    TelegramError,
)

from bot.messages import MovedTo, NotSent, Outcome, Refused, Unknown

BEFORE_SENDING = (
    httpx.ConnectError,
    httpx.ConnectTimeout,
    httpx.PoolTimeout,
    httpx.ProxyError,
    httpx.LocalProtocolError,
    httpx.UnsupportedProtocol,
    RuntimeError,
)
"""Errors before a request is on its way (the last: the connection was closed, as Drawbar stops).

Any other of httpx's may come after.
"""


def outcome_of(error: TelegramError) -> Outcome:
    """What is known of an answer whose sending raised this.

    A server's 500 may come after the message was sent: the Bot API server's own source gives one
    where 'sent message was immediately deleted', and one for whatever is under way as it
    restarts (tdlib/telegram-bot-api, Client.cpp). A 502 or 504 is a proxy's before it.
    """
    match error:
        case ChatMigrated():
            return MovedTo(str(error.new_chat_id))
        case RetryAfter():
            return NotSent(trouble(error), wait_of(error))
        case Forbidden() | BadRequest():
            return Refused(trouble(error))
        case InvalidToken() | Conflict():
            return NotSent(trouble(error))
        case _ if isinstance(error.__cause__, BEFORE_SENDING):
            return NotSent(trouble(error))
        case _:
            return Unknown(trouble(error))


def wait_of(error: TelegramError) -> timedelta:
    """How long Telegram asks to be left alone; no time where it asks nothing."""
    if not isinstance(error, RetryAfter):
        return timedelta()
    wait = error.retry_after
    return wait if isinstance(wait, timedelta) else timedelta(seconds=wait)


def trouble(error: TelegramError) -> str:
    """The trouble in a few words, without anything that could hold the token or a text.

    Only a refusal's own description is passed on, which tells of chat and rights.
    """
    match error:
        case InvalidToken():
            return "Telegram does not accept the token"
        case Conflict():
            return "another program uses the same Telegram token"
        case RetryAfter():
            return "Telegram wants fewer messages"
        case BadRequest() | Forbidden():
            return error.message.partition(". Parsing")[0]
        case _ if isinstance(error.__cause__, httpx.HTTPError):
            return f"no connection to Telegram ({type(error.__cause__).__name__})"
        case _:
            return "Telegram's server has trouble"
