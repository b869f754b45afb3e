"""How fast answers may follow each other, so that Telegram need not say 'too many requests'.

This file decides that an answer whose chat or group has to wait is not sent yet, so that it holds
up no other chat's: delivery comes back to it. Overall, python-telegram-bot's limiter waits; what
Telegram refuses all the same is delivery's to send again.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Coroutine
from datetime import timedelta
from typing import Any

from telegram.error import BadRequest, RetryAfter
from telegram.ext import AIORateLimiter

from bot.networks.telegram.settings import Pace

MOST_CHATS = 1000
"""Chats whose turns are remembered before those that have passed are let go."""

SPEECH = ("sendMessage", "sendPhoto")


class Paced(AIORateLimiter):
    """Lets a message go when its chat, its group and the bot may send one."""

    def __init__(self, pace: Pace) -> None:
        super().__init__(
            overall_max_rate=pace.overall_a_second,
            group_max_rate=pace.group_a_minute,
            max_retries=0,
        )
        self._chats = Turns(1, pace.chat_a_second)
        self._groups = Turns(pace.group_a_minute, pace.group_a_minute / 60)

    async def process_request(
        self,
        callback: Callable[..., Coroutine[Any, Any, Any]],
        args: Any,
        kwargs: dict[str, Any],
        endpoint: str,
        data: dict[str, Any],
        rate_limit_args: int | None,
    ) -> Any:
        """Make a call; raises RetryAfter where its chat has to wait."""
        chat = int(data["chat_id"]) if endpoint in SPEECH else None
        if chat is not None:
            self._take_turn(chat)
        try:
            return await super().process_request(
                callback, args, kwargs, endpoint, data, rate_limit_args
            )
        except BadRequest:
            # Nothing was sent; what is sent instead, at once, must not be told to wait for it.
            if chat is not None:
                for each in self._turns(chat):
                    each.give_back(chat)
            raise

    def _take_turn(self, chat: int) -> None:
        now = asyncio.get_running_loop().time()
        turns = self._turns(chat)
        wait = max(each.wait(chat, now) for each in turns)
        if wait > 0:
            raise RetryAfter(timedelta(seconds=wait))
        for each in turns:
            each.take(chat, now)

    def _turns(self, chat: int) -> tuple[Turns, ...]:
        """What a chat's messages have to keep to; groups are negative."""
        return (self._chats, self._groups) if chat < 0 else (self._chats,)


class Turns:
    """For each chat, so many messages at once, and so many a second after that."""

    def __init__(self, at_once: float, a_second: float) -> None:
        self._at_once = at_once
        self._a_second = a_second
        self._free_at: dict[int, float] = {}
        """When a chat's allowance will be whole again."""

    def wait(self, chat: int, now: float) -> float:
        """Seconds until the chat may send one more."""
        whole_in = max(self._free_at.get(chat, now) - now, 0)
        return max(whole_in - (self._at_once - 1) / self._a_second, 0)

    def take(self, chat: int, now: float) -> None:
        """The chat sends one."""
        if len(self._free_at) > MOST_CHATS:
            self._free_at = {each: at for each, at in self._free_at.items() if at > now}
        self._free_at[chat] = max(self._free_at.get(chat, now), now) + 1 / self._a_second

    def give_back(self, chat: int) -> None:
        """The chat did not send the one that it took."""
        if chat in self._free_at:
            self._free_at[chat] -= 1 / self._a_second
