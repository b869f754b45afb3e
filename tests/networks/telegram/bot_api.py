"""A stand-in for Telegram's Bot API server, on this machine, that insists on the documented limits.

The limits stand in limits.py; here are updates and their offsets, webhook calls, methods, and what
goes wrong with them. People are played by plain calls: `says`, `edits`, `taps`.
"""

from __future__ import annotations

import asyncio
import json
import re
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from enum import Enum, auto
from io import BytesIO
from types import TracebackType
from typing import Any, Self
from urllib.parse import urlsplit

import aiohttp
from aiohttp import web
from PIL import Image

from bot.networks.telegram.settings import Pace
from tests.networks.telegram.limits import (
    BURST,
    COMMAND,
    INVISIBLE,
    JSON,
    LARGEST_DOCUMENT,
    LARGEST_FILE,
    LARGEST_PHOTO,
    LONGEST_ABOUT,
    LONGEST_CAPTION,
    LONGEST_COMMAND_TEXT,
    LONGEST_DESCRIPTION,
    LONGEST_SIDES,
    LONGEST_TEXT,
    MOST_COMMANDS,
    MOST_UPDATES,
    REACTIONS,
    SECRET,
    STEEPEST,
    WEBHOOK_PORTS,
    Bucket,
    Refusal,
    at_most,
    button,
    parsed,
    units,
)

TOKEN = "123456:stand-in_token-for-tests"
BOT = {"id": 123456, "is_bot": True, "first_name": "Drawbar", "username": "drawbar_bot"}


class Trouble(Enum):
    """What can go wrong with a call."""

    DROPPED_BEFORE = auto()
    DROPPED_AFTER = auto()
    FAILED_BEFORE = auto()
    FAILED_AFTER = auto()
    FLOOD = auto()

    @property
    def carries_out(self) -> bool:
        return self in (Trouble.DROPPED_AFTER, Trouble.FAILED_AFTER)


@dataclass
class Room:
    """A chat as Telegram keeps it."""

    id: int
    type: str
    title: str = ""
    blocked: bool = False
    moved_to: int | None = None
    reactions: bool = True
    topics: set[int] = field(default_factory=set)
    messages: dict[int, JSON] = field(default_factory=dict)

    @property
    def described(self) -> JSON:
        name = {"first_name": self.title} if self.type == "private" else {"title": self.title}
        return {"id": self.id, "type": self.type, **name}


@dataclass(frozen=True)
class Shown:
    """A message of the bot as people see it."""

    chat: int
    id: int
    text: str
    raw: str
    buttons: tuple[tuple[str, str], ...] = ()
    reply_to: int | None = None
    thread: int | None = None
    picture: bytes = b""


class BotApi:
    """The server. Use as `async with`; `trouble` is asked before each call of a method."""

    def __init__(
        self,
        pace: Pace | None = None,
        trouble: Callable[[str], Trouble | None] = lambda method: None,
    ) -> None:
        self.trouble = trouble
        self.rooms: dict[int, Room] = {}
        self.shown: list[Shown] = []
        self.signs: list[tuple[int, int, str]] = []
        self.seen: list[tuple[int, str]] = []
        self.calls: list[tuple[str, JSON]] = []
        self.taps_answered: set[str] = set()
        self.files: dict[str, bytes] = {}
        self.commands: dict[str, list[JSON]] = {}
        self.descriptions: dict[str, list[str]] = {}
        self.refused: list[JSON] = []
        self.pending: list[JSON] = []
        self.webhook: JSON | None = None
        self.reach: str | None = None
        self.token = TOKEN
        self.refuses_markup = False
        self.refuses_pictures = False
        self._pace = pace or Pace()
        self._overall = Bucket(self._pace.overall_a_second, self._pace.overall_a_second)
        self._groups: dict[int, Bucket] = {}
        self._chats: dict[int, Bucket] = {}
        self._news = asyncio.Condition()
        self._next_update, self._next_message = 7001, 1
        self._callers: dict[int, asyncio.Task[None]] = {}
        app = web.Application()
        # Bot API, Making requests: 'We support GET and POST HTTP methods.'
        app.router.add_route("*", "/bot{token}/{method}", self._called)
        app.router.add_get("/file/bot{token}/{path:.+}", self._file)
        self._runner = web.AppRunner(app, access_log=None, shutdown_timeout=0.001)

    async def __aenter__(self) -> Self:
        await self._runner.setup()
        site = web.TCPSite(self._runner, "127.0.0.1", 0)
        await site.start()
        host, port = self._runner.addresses[0][:2]
        self.url = f"http://{host}:{port}"
        self._web = aiohttp.ClientSession()
        return self

    async def __aexit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        for task in self._callers.values():
            task.cancel()
        await asyncio.gather(*self._callers.values(), return_exceptions=True)
        await self._web.close()
        await self._runner.cleanup()

    async def stop(self) -> None:
        """Be gone, as a server without power."""
        await self._runner.cleanup()

    # People.

    def private(self, person: JSON) -> Room:
        return self.rooms.setdefault(
            person["id"], Room(person["id"], "private", person["first_name"])
        )

    def group(self, number: int, title: str, type: str = "supergroup") -> Room:
        return self.rooms.setdefault(number, Room(number, type, title))

    async def says(self, room: Room, person: JSON, text: str, **more: Any) -> int:
        """A person writes; the message's id."""
        return await self._posted(room, person, {"text": text} | more)

    async def shows(
        self, room: Room, person: JSON, picture: bytes, caption: str = "", **more: Any
    ) -> int:
        """A person sends a picture, in two sizes as Telegram makes them."""
        assert units(caption) <= LONGEST_CAPTION
        name = f"picture{len(self.files)}"
        self.files[name] = picture
        sizes = [
            {"file_id": f"{name}-small", "file_unique_id": "s", "width": 90, "height": 60},
            {
                "file_id": name, "file_unique_id": "b", "width": 1280, "height": 960,
                "file_size": len(picture),
            },
        ]  # fmt: skip
        return await self._posted(room, person, {"photo": sizes, "caption": caption or None} | more)

    async def edits(self, room: Room, message: int, text: str, at: int) -> None:
        """A person edits a message of theirs."""
        room.messages[message] |= {"text": text, "edit_date": at}
        await self._happened(room, {"edited_message": room.messages[message]})

    async def taps(self, person: JSON, shown: Shown, data: str) -> str:
        """A person taps a button; the query's id."""
        query = f"q{self._next_update}"
        room = self.rooms[shown.chat]
        await self._happened(
            room,
            {
                "callback_query": {
                    "id": query, "from": person, "chat_instance": "1", "data": data,
                    "message": room.messages[shown.id],
                }
            },
        )  # fmt: skip
        return query

    async def becomes_supergroup(self, room: Room, number: int) -> Room:
        """A group grows; both service messages come (Message.migrate_to_chat_id)."""
        new = self.group(number, room.title)
        room.moved_to = number
        person = {"id": 1, "is_bot": False, "first_name": "Telegram"}
        await self._posted(room, person, {"migrate_to_chat_id": number})
        await self._posted(new, person, {"migrate_from_chat_id": room.id})
        return new

    async def _posted(self, room: Room, person: JSON, content: JSON) -> int:
        number = self._next_message
        self._next_message += 1
        at = int(content.pop("date", time.time()))
        content = {key: value for key, value in content.items() if value is not None}
        room.messages[number] = {
            "message_id": number, "date": at, "chat": room.described, "from": person, **content,
        }  # fmt: skip
        await self._happened(room, {"message": room.messages[number]})
        return number

    async def _happened(self, room: Room, what: JSON) -> None:
        await self.update({"update_id": self._next_update, **what}, room.id)

    async def update(self, update: JSON, lane: int = 0) -> None:
        """Anything at all that Telegram might hand over."""
        self._next_update = update["update_id"] + 1
        # As it is now: later edits must not change what is handed over again.
        self.pending.append(json.loads(json.dumps(update)) | {"lane": lane})
        async with self._news:
            self._news.notify_all()

    # Handing over: setWebhook says 'we will repeat the request'; one at a time in each chat is
    # how the Bot API server's WebhookActor.cpp keeps its queues.

    def _call(self) -> None:
        for update in self.pending:
            caller = self._callers.get(update["lane"])
            if caller is None or caller.done():
                self._callers[update["lane"]] = asyncio.create_task(self._hand(update["lane"]))

    async def _hand(self, lane: int) -> None:
        while waiting := [each for each in self.pending if each["lane"] == lane]:
            # The answer may get lost on its way back, too.
            lost = self.trouble("webhook") is not None
            if await self.knock(without_lane(waiting[0])) // 100 == 2 and not lost:
                self.pending.remove(waiting[0])
            else:
                await asyncio.sleep(0.01)

    async def knock(self, update: JSON, **headers: str) -> int:
        """Call the webhook; the status of the answer, 0 where nobody is there."""
        if self.webhook is None or self.reach is None:
            return 0
        given = {"X-Telegram-Bot-Api-Secret-Token": self.webhook["secret_token"]} | headers
        address = self.reach + urlsplit(self.webhook["url"]).path
        try:
            async with self._web.post(address, json=update, headers=given) as answer:
                return answer.status
        except aiohttp.ClientError:
            return 0

    async def everything_is_received(self) -> None:
        """Until no update waits."""
        async with self._news:
            while self.pending:
                if self.webhook is not None:
                    self._call()
                try:
                    await asyncio.wait_for(self._news.wait(), 0.02)
                except TimeoutError:
                    continue

    # The server's side.

    async def _called(self, request: web.Request) -> web.StreamResponse:
        method = request.match_info["method"]
        told = {
            key: value.file.read() if isinstance(value, web.FileField) else _value(key, str(value))
            for key, value in (await request.post()).items()
        }
        if request.match_info["token"] != self.token:
            return web.json_response(Refusal(401, "Unauthorized").body, status=401)
        trouble = self.trouble(method)
        try:
            if trouble is Trouble.FLOOD:
                raise Refusal(429, "Too Many Requests: retry after 1", retry_after=1)
            if trouble is None or trouble.carries_out:
                self.calls.append((method, told))
                result = await getattr(self, f"_{method}")(**told)
            else:
                result = None
        except Refusal as refusal:
            self.refused.append(refusal.body)
            return web.json_response(refusal.body, status=refusal.code)
        if trouble in (Trouble.DROPPED_BEFORE, Trouble.DROPPED_AFTER):
            assert request.transport is not None
            request.transport.abort()
        elif trouble is not None:
            return web.Response(status=502, text="<html>Bad Gateway</html>")
        return web.json_response({"ok": True, "result": result})

    async def _getMe(self) -> JSON:  # noqa: N802
        return {**BOT, "can_join_groups": True, "can_read_all_group_messages": True}

    async def _getUpdates(  # noqa: N802
        self,
        offset: int = 0,
        limit: int = MOST_UPDATES,
        timeout: float = 0,  # noqa: ASYNC109 - the API's own name
        allowed_updates: Iterable[str] = (),
    ) -> list[JSON]:
        """'Confirmed as soon as getUpdates is called with an offset higher than its update_id'."""
        if self.webhook is not None:
            raise Refusal(409, "Conflict: can't use getUpdates method while webhook is active")
        until = time.monotonic() + timeout
        async with self._news:
            self.pending = [each for each in self.pending if each["update_id"] >= offset]
            self._news.notify_all()
            while not self.pending and (left := until - time.monotonic()) > 0:
                try:
                    await asyncio.wait_for(self._news.wait(), left)
                except TimeoutError:
                    break
            return [without_lane(each) for each in self.pending[: min(limit, MOST_UPDATES)]]

    async def _setWebhook(  # noqa: N802
        self, url: str, secret_token: str = "", allowed_updates: Iterable[str] = ()
    ) -> bool:
        address = urlsplit(url)
        if address.scheme != "https":
            raise Refusal(
                400, "Bad Request: bad webhook: An HTTPS URL must be provided for webhook"
            )
        if (address.port or 443) not in WEBHOOK_PORTS:
            raise Refusal(
                400,
                "Bad Request: bad webhook: Webhook can be set up only on ports 80, 88, 443 or 8443",
            )
        if not re.fullmatch(SECRET, secret_token):
            raise Refusal(400, "Bad Request: secret token contains unallowed characters")
        self.webhook = {"url": url, "secret_token": secret_token}
        return True

    async def _deleteWebhook(self) -> bool:  # noqa: N802
        self.webhook = None
        return True

    async def _sendMessage(  # noqa: N802
        self,
        chat_id: int,
        text: str,
        parse_mode: str | None = None,
        reply_markup: JSON | None = None,
        reply_parameters: JSON | None = None,
        message_thread_id: int | None = None,
        link_preview_options: JSON | None = None,
    ) -> JSON:
        room = self._room(chat_id)
        self._hold_to_pace(room)
        if self.refuses_markup and (parse_mode or reply_markup):
            raise Refusal(400, "Bad Request: can't parse entities")
        seen = parsed(text) if parse_mode == "HTML" else text
        if not seen.strip(INVISIBLE):
            raise Refusal(400, "Bad Request: message text is empty")
        if units(seen) > LONGEST_TEXT:
            raise Refusal(400, "Bad Request: message is too long")
        return self._show(
            room, seen, text, reply_markup, reply_parameters, message_thread_id, {"text": seen}
        )

    async def _sendPhoto(  # noqa: N802
        self,
        chat_id: int,
        photo: bytes,
        caption: str = "",
        parse_mode: str | None = None,
        reply_markup: JSON | None = None,
        reply_parameters: JSON | None = None,
        message_thread_id: int | None = None,
    ) -> JSON:
        room = self._room(chat_id)
        self._hold_to_pace(room)
        if self.refuses_pictures or len(photo) > LARGEST_PHOTO:
            raise Refusal(400, "Bad Request: IMAGE_PROCESS_FAILED")
        width, height = Image.open(BytesIO(photo)).size
        if width + height > LONGEST_SIDES or max(width / height, height / width) > STEEPEST:
            raise Refusal(400, "Bad Request: PHOTO_INVALID_DIMENSIONS")
        seen = parsed(caption) if parse_mode == "HTML" else caption
        if units(seen) > LONGEST_CAPTION:
            raise Refusal(400, "Bad Request: message caption is too long")
        size = {"file_id": "sent", "file_unique_id": "sent", "width": width, "height": height}
        content = {"photo": [size], "caption": seen}
        return self._show(
            room, seen, caption, reply_markup, reply_parameters, message_thread_id, content, photo
        )

    async def _sendDocument(  # noqa: N802
        self,
        chat_id: int,
        document: bytes,
        caption: str = "",
        parse_mode: str | None = None,
        reply_markup: JSON | None = None,
        reply_parameters: JSON | None = None,
        message_thread_id: int | None = None,
    ) -> JSON:
        room = self._room(chat_id)
        self._hold_to_pace(room)
        if self.refuses_pictures or len(document) > LARGEST_DOCUMENT:
            raise Refusal(400, "Bad Request: file is too big")
        seen = parsed(caption) if parse_mode == "HTML" else caption
        if units(seen) > LONGEST_CAPTION:
            raise Refusal(400, "Bad Request: message caption is too long")
        content = {"document": {"file_id": "sent", "file_unique_id": "sent"}, "caption": seen}
        return self._show(
            room, seen, caption, reply_markup, reply_parameters, message_thread_id, content,
            document,
        )  # fmt: skip

    def _show(
        self,
        room: Room,
        seen: str,
        raw: str,
        reply_markup: JSON | None,
        reply_parameters: JSON | None,
        message_thread_id: int | None,
        content: JSON,
        picture: bytes = b"",
    ) -> JSON:
        """Put a message into its chat, under what holds for every kind of it."""
        if message_thread_id is not None and message_thread_id not in room.topics:
            raise Refusal(400, "Bad Request: message thread not found")
        reply = (reply_parameters or {}).get("message_id")
        if reply is not None and reply not in room.messages:
            if not (reply_parameters or {}).get("allow_sending_without_reply"):
                raise Refusal(400, "Bad Request: message to be replied not found")
            reply = None
        buttons = tuple(
            button(each) for row in (reply_markup or {}).get("inline_keyboard", []) for each in row
        )
        number = self._next_message
        self._next_message += 1
        self.shown.append(
            Shown(room.id, number, seen, raw, buttons, reply, message_thread_id, picture)
        )
        self.seen.append((room.id, seen))
        message = {
            "message_id": number, "date": int(time.time()), "chat": room.described,
            "from": BOT, **content,
        }  # fmt: skip
        if message_thread_id is not None:
            message |= {"message_thread_id": message_thread_id, "is_topic_message": True}
        room.messages[number] = message
        return message

    async def _setMessageReaction(  # noqa: N802
        self, chat_id: int, message_id: int, reaction: list[JSON]
    ) -> bool:
        room = self._room(chat_id)
        if message_id not in room.messages:
            raise Refusal(400, "Bad Request: message to react not found")
        if len(reaction) > 1:
            raise Refusal(400, "Bad Request: REACTIONS_TOO_MANY")
        if not room.reactions or reaction[0].get("emoji") not in REACTIONS:
            raise Refusal(400, "Bad Request: REACTION_INVALID")
        sign = chat_id, message_id, reaction[0]["emoji"]
        if sign not in self.signs:
            self.signs.append(sign)
            self.seen.append((chat_id, f"{sign[2]} on {message_id}"))
        return True

    async def _answerCallbackQuery(self, callback_query_id: str) -> bool:  # noqa: N802
        self.taps_answered.add(callback_query_id)
        return True

    async def _setMyCommands(  # noqa: N802
        self, commands: list[JSON], language_code: str = ""
    ) -> bool:
        if len(commands) > MOST_COMMANDS:
            raise Refusal(400, "Bad Request: BOT_COMMANDS_TOO_MUCH")
        for each in commands:
            if not re.fullmatch(COMMAND, each["command"]):
                raise Refusal(400, "Bad Request: BOT_COMMAND_INVALID")
            if not 1 <= len(each["description"]) <= LONGEST_COMMAND_TEXT:
                raise Refusal(400, "Bad Request: BOT_COMMAND_DESCRIPTION_INVALID")
        self.commands[_own(language_code)] = commands
        return True

    async def _setMyDescription(  # noqa: N802
        self, description: str, language_code: str = ""
    ) -> bool:
        self.descriptions.setdefault(_own(language_code), []).append(description)
        return at_most(description, LONGEST_DESCRIPTION)

    async def _setMyShortDescription(  # noqa: N802
        self, short_description: str, language_code: str = ""
    ) -> bool:
        self.descriptions.setdefault(_own(language_code), []).append(short_description)
        return at_most(short_description, LONGEST_ABOUT)

    async def _getFile(self, file_id: str) -> JSON:  # noqa: N802
        if file_id not in self.files:
            raise Refusal(400, "Bad Request: invalid file_id")
        size = len(self.files[file_id])
        if size > LARGEST_FILE:
            raise Refusal(400, "Bad Request: file is too big")
        return {
            "file_id": file_id, "file_unique_id": file_id, "file_size": size,
            "file_path": f"photos/{file_id}",
        }  # fmt: skip

    async def _file(self, request: web.Request) -> web.Response:
        name = request.match_info["path"].removeprefix("photos/")
        if request.match_info["token"] != self.token or name not in self.files:
            raise web.HTTPNotFound
        return web.Response(body=self.files[name])

    def _room(self, number: int) -> Room:
        room = self.rooms.get(number)
        if room is None:
            raise Refusal(400, "Bad Request: chat not found")
        if room.blocked and room.type == "private":
            raise Refusal(403, "Forbidden: bot was blocked by the user")
        if room.blocked:
            raise Refusal(403, f"Forbidden: bot was kicked from the {room.type} chat")
        if room.moved_to is not None:
            raise Refusal(
                400,
                "Bad Request: group chat was upgraded to a supergroup chat",
                migrate_to_chat_id=room.moved_to,
            )
        return room

    def _hold_to_pace(self, room: Room) -> None:
        """Bots FAQ, 'My bot is hitting limits'; ResponseParameters.retry_after is whole seconds."""
        limits = [
            self._overall,
            self._chats.setdefault(room.id, Bucket(BURST, self._pace.chat_a_second)),
        ]
        if room.type != "private":
            a_minute = self._pace.group_a_minute
            limits.append(self._groups.setdefault(room.id, Bucket(a_minute, a_minute / 60)))
        wait = max(each.take() for each in limits)
        if wait > 0:
            seconds = int(wait) + 1
            raise Refusal(429, f"Too Many Requests: retry after {seconds}", retry_after=seconds)


def _own(language: str) -> str:
    """A two-letter ISO 639-1 code, or none: for users whose language has nothing of its own."""
    if not re.fullmatch(r"(?:[a-z]{2})?", language):
        raise Refusal(400, "Bad Request: invalid language_code")
    return language


def without_lane(update: JSON) -> JSON:
    return {key: value for key, value in update.items() if key != "lane"}


TEXTS = {
    "callback_query_id", "caption", "description", "file_id", "language_code", "parse_mode",
    "secret_token", "short_description", "text", "url",
}  # fmt: skip


def _value(name: str, text: str) -> Any:
    """A form's value: text, or 'a JSON-serialized' object, list or number."""
    return text if name in TEXTS else json.loads(text)
