"""How fast answers may follow each other, so that Telegram need not say 'too many requests'.

This file decides the waits: one limit for a chat is put before python-telegram-bot's own for a
group and overall. What Telegram refuses all the same is delivery's to send again.
"""

from __future__ import annotations

import asyncio
from collections.abc import Callable, Coroutine
from typing import Any

from telegram.ext import AIORateLimiter

from bot.networks.telegram.settings import Pace

MOST_CHATS = 1000
"""Chats whose turns are remembered before those that have passed are let go."""


class Paced(AIORateLimiter):
    """Waits before each message until its chat, its group and the bot may send one."""

    def __init__(self, pace: Pace) -> None:
        super().__init__(
            overall_max_rate=pace.overall_a_second,
            group_max_rate=pace.group_a_minute,
            max_retries=0,
        )
        self._gap = 1 / pace.chat_a_second
        self._free_at: dict[object, float] = {}

    async def process_request(
        self,
        callback: Callable[..., Coroutine[Any, Any, Any]],
        args: Any,
        kwargs: dict[str, Any],
        endpoint: str,
        data: dict[str, Any],
        rate_limit_args: int | None,
    ) -> Any:
        """Make a call when its time has come."""
        if endpoint == "sendMessage":
            await self._turn(data["chat_id"])
        return await super().process_request(
            callback, args, kwargs, endpoint, data, rate_limit_args
        )

    async def _turn(self, chat: object) -> None:
        now = asyncio.get_running_loop().time()
        if len(self._free_at) > MOST_CHATS:
            self._free_at = {each: at for each, at in self._free_at.items() if at > now}
        turn = max(now, self._free_at.get(chat, now))
        self._free_at[chat] = turn + self._gap
        await asyncio.sleep(turn - now)
