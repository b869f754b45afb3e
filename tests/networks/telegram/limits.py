"""What Telegram's Bot API allows, as far as Drawbar meets it.

Beside each limit stands the section of the Bot API's documentation (10.1) that says it; 'from
memory' marks what it does not say. Wordings of refusals follow the Bot API server's own source
(tdlib/telegram-bot-api, Client.cpp).
"""

from __future__ import annotations

import html
import re
import time
from typing import Any

JSON = dict[str, Any]

LONGEST_TEXT = 4096  # sendMessage: 'after entities parsing'
LONGEST_CAPTION = 1024  # Message.caption, sendPhoto
LARGEST_DOCUMENT = 50 * 1024 * 1024  # sendDocument: document
LARGEST_PHOTO, LONGEST_SIDES, STEEPEST = 10 * 1024 * 1024, 10_000, 20  # sendPhoto: photo
LONGEST_CALLBACK = 64  # InlineKeyboardButton.callback_data, bytes
LARGEST_FILE = 20 * 1024 * 1024  # getFile
MOST_UPDATES = 100  # getUpdates: limit
MOST_COMMANDS, COMMAND, LONGEST_COMMAND_TEXT = 100, r"[a-z0-9_]{1,32}", 256  # BotCommand
LONGEST_DESCRIPTION, LONGEST_ABOUT = 512, 120  # setMyDescription, setMyShortDescription
SECRET = r"[A-Za-z0-9_-]{1,256}"  # setWebhook: secret_token
WEBHOOK_PORTS = {443, 80, 88, 8443}  # setWebhook: notes
BURST = 3  # Bots FAQ: 'we may allow short bursts'; how short is from memory

TAGS = {
    "b", "strong", "i", "em", "u", "ins", "s", "strike", "del", "span", "tg-spoiler", "a",
    "tg-emoji", "code", "pre", "blockquote",
}  # fmt: skip
INVISIBLE = " \n\t\u200b"  # from memory: what is trimmed from a text
NAMED = {"lt", "gt", "amp", "quot"}
"""Formatting options, HTML style: the tags, and the only named entities."""

EMOJI = """
❤ 👍 👎 🔥 🥰 👏 😁 🤔 🤯 😱 🤬 😢 🎉 🤩 🤮 💩 🙏 👌 🕊 🤡 🥱 🥴 😍 🐳 ❤‍🔥 🌚 🌭 💯 🤣 ⚡ 🍌 🏆
💔 🤨 😐 🍓 🍾 💋 🖕 😈 😴 😭 🤓 👻 👨‍💻 👀 🎃 🙈 😇 😨 🤝 ✍ 🤗 🫡 🎅 🎄 ☃ 💅 🤪 🗿 🆒 💘 🙉 🦄
😘 💊 🙊 😎 👾 🤷‍♂ 🤷 🤷‍♀ 😡
"""
REACTIONS = set(EMOJI.split())
"""ReactionTypeEmoji, as of Bot API 10.1."""


class Refusal(Exception):
    """An answer that is not ok (Making requests)."""

    def __init__(self, code: int, description: str, **parameters: int) -> None:
        super().__init__(description)
        self.body = {"ok": False, "error_code": code, "description": description} | (
            {"parameters": parameters} if parameters else {}
        )
        self.code = code


class Bucket:
    """A limit that lets a burst through, and then so many a second."""

    def __init__(self, burst: float, a_second: float) -> None:
        self._burst, self._a_second = burst, a_second
        self._level, self._at = 0.0, time.monotonic()

    def take(self) -> float:
        """Seconds until there is room, 0 where there is."""
        now = time.monotonic()
        self._level = max(0.0, self._level - (now - self._at) * self._a_second)
        self._at = now
        if self._level + 1 > self._burst + 0.01:
            return (self._level + 1 - self._burst) / self._a_second
        self._level += 1
        return 0.0


def units(text: str) -> int:
    """A text's length in UTF-16 units (MessageEntity: offset and length are counted so)."""
    return len(text.encode("utf-16-le")) // 2


def parsed(text: str) -> str:
    """What is seen of HTML (Formatting options, HTML style); raises Refusal where it is wrong."""
    seen: list[str] = []
    opened: list[str] = []
    for token in re.findall(r"<[^<>]*>|&[#\w]+;|[<>&]|[^<>&]+", text):
        tag = re.fullmatch(r"<(/?)([a-z-]+)((?: [a-z-]+(?:=\"[^\"]*\")?)*)>", token)
        if token in ("<", ">", "&") or (token[0] == "<" and (not tag or tag[2] not in TAGS)):
            raise Refusal(400, "Bad Request: can't parse entities: Unsupported start tag")
        if token[0] == "&":
            name = token[1:-1]
            if not name.startswith("#") and name not in NAMED:
                raise Refusal(400, "Bad Request: can't parse entities: unknown entity")
            seen.append(html.unescape(token))
        elif tag is None:
            seen.append(token)
        elif tag[1]:
            if not opened or opened.pop() != tag[2]:
                raise Refusal(400, "Bad Request: can't parse entities: Unmatched end tag")
        else:
            # 'pre and code entities can't contain other entities' but code in pre.
            if set(opened) & {"pre", "code"} and (opened[-1], tag[2]) != ("pre", "code"):
                raise Refusal(400, "Bad Request: can't parse entities: nested in pre")
            opened.append(tag[2])
    if opened:
        raise Refusal(400, "Bad Request: can't parse entities: Can't find end tag")
    return "".join(seen)


def button(button: JSON) -> tuple[str, str]:
    data = button.get("callback_data", "")
    if not 1 <= len(data.encode()) <= LONGEST_CALLBACK:
        raise Refusal(400, "Bad Request: BUTTON_DATA_INVALID")
    if not button["text"].strip():
        raise Refusal(400, "Bad Request: inline keyboard button text is empty")
    return button["text"], data


def at_most(text: str, most: int) -> bool:
    if len(text) > most:
        raise Refusal(400, "Bad Request: too long")
    return True
