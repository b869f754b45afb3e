"""Telegram's updates as Drawbar's events.

This file decides what of an update counts (new and edited messages, taps on a choice, a group
that got another id) and what is passed over (channels, other bots, commands to them). Pure: the
bot's own account and the time are arguments.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import UTC, datetime

from telegram import CallbackQuery, Chat, MaybeInaccessibleMessage, Update, User
from telegram import Message as Received
from telegram.constants import FileSizeLimit

from bot.messages import Edited, Event, Message, Moved, Photo

NAME = "telegram"

_COMMAND = re.compile(r"/([a-z][a-z0-9_]*)(?:@(\w+))?(?=\s|$)\s*", re.IGNORECASE)
_CHOICE = re.compile(r"\d{1,3}", re.ASCII)


def event_of(update: Update, me: User, now: datetime) -> Event | None:
    """What happened, in Drawbar's words; None where it is not for Drawbar.

    `now` is when a tap counts as sent, as Telegram does not say.
    """
    for kind, translate in KINDS.items():
        value = getattr(update, kind)
        if value is not None:
            return translate(value, me, now)
    return None


def plain_words(text: str, username: str) -> str | None:
    """A command as the words that a person would text: '/undo@bot 2' is 'undo 2'.

    '/start', which the app sends by itself, is 'help', or the code that a link carried. The bot's
    own name before the words is left out. None for a command to another bot.
    """
    mention = re.compile(rf"@{re.escape(username)}\b[\s,:]*", re.IGNORECASE)
    text = mention.sub("", text, count=1) if mention.match(text) else text
    command = _COMMAND.match(text)
    if command is None:
        return text
    name, addressee = command[1].casefold(), command[2]
    if addressee is not None and addressee.casefold() != username.casefold():
        return None
    rest = text[command.end() :]
    if name == "start":
        return rest or "help"
    return f"{name.replace('_', ' ')} {rest}".rstrip()


def _new(received: Received, me: User, _: datetime) -> Event | None:
    chat = str(received.chat.id)
    if received.migrate_to_chat_id is not None:
        return Moved(network=NAME, chat=chat, to=str(received.migrate_to_chat_id))
    if received.migrate_from_chat_id is not None:
        return Moved(network=NAME, chat=str(received.migrate_from_chat_id), to=chat)
    return _message(received, me)


def _edited(received: Received, me: User, _: datetime) -> Event | None:
    message = _message(received, me)
    if message is None or received.edit_date is None:
        return None
    at = received.edit_date.astimezone(UTC)
    return Edited(message=message, id=str(int(at.timestamp())), at=at)


def _tapped(query: CallbackQuery, _: User, now: datetime) -> Event | None:
    offered = query.message
    if offered is None or query.from_user.is_bot or not _CHOICE.fullmatch(query.data or ""):
        return None
    return Message(
        network=NAME,
        chat=str(offered.chat.id),
        id=f"tap-{query.id}",
        author=str(query.from_user.id),
        name=query.from_user.full_name,
        sent_at=now,
        text=query.data or "",
        reply_to=str(offered.message_id),
        thread=_thread(offered),
        private=offered.chat.type == Chat.PRIVATE,
        title=_title(offered.chat, query.from_user),
    )


KINDS: dict[str, Callable[..., Event | None]] = {
    "message": _new,
    "edited_message": _edited,
    "callback_query": _tapped,
}
"""The kinds of update that Drawbar asks for, and what makes events of them."""


def _message(received: Received, me: User) -> Message | None:
    sender = received.from_user
    if sender is None or sender.is_bot or received.is_automatic_forward:
        return None
    text = plain_words(received.text or received.caption or "", me.username or "")
    photo = _photo(received)
    if text is None or not (text or photo):
        return None
    return Message(
        network=NAME,
        chat=str(received.chat.id),
        id=str(received.message_id),
        author=str(sender.id),
        name=sender.full_name,
        sent_at=received.date.astimezone(UTC),
        text=text,
        reply_to=_reply_to(received),
        thread=_thread(received),
        photo=photo,
        private=received.chat.type == Chat.PRIVATE,
        title=_title(received.chat, sender),
    )


def _title(chat: Chat, person: User) -> str:
    return chat.title or person.full_name


def _thread(received: MaybeInaccessibleMessage) -> str | None:
    # Outside of forums a thread's number only strings replies together.
    if not isinstance(received, Received) or not received.is_topic_message:
        return None
    return str(received.message_thread_id)


def _reply_to(received: Received) -> str | None:
    answered = received.reply_to_message
    # Whatever is written in a topic replies to the notice that opened it.
    if answered is None or answered.forum_topic_created is not None:
        return None
    return str(answered.message_id)


def _photo(received: Received) -> Photo | None:
    """The largest picture that a bot may fetch (Bot API, getFile: up to 20 MB)."""
    most = FileSizeLimit.FILESIZE_DOWNLOAD
    sizes = [size for size in received.photo if (size.file_size or 0) <= most]
    if sizes:
        return Photo(reference=max(sizes, key=lambda size: size.width * size.height).file_id)
    file = received.document
    if file is not None and (file.mime_type or "").startswith("image/"):
        return Photo(reference=file.file_id) if (file.file_size or 0) <= most else None
    return None
