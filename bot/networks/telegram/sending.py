"""Answers on their way to Telegram.

This file decides what is called for an answer: a sign on the message where it is quiet, else one
message or several, in the same topic, as a reply where others write too. A picture has the words
below it where they fit, and goes before them where they don't; the Bot API has no other words for
those who do not see it. It does not wait for
better times, and it tells nothing but what became of the answer.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from telegram import (
    InlineKeyboardButton,
    InlineKeyboardMarkup,
    LinkPreviewOptions,
    ReplyParameters,
)
from telegram.constants import ParseMode, ReactionEmoji
from telegram.error import BadRequest, Forbidden, TelegramError

from bot.answers.trouble import unprinted_answer
from bot.messages import Delivered, Drawn, Letter, NotSent, Outcome, Printed, Unknown
from bot.networks.telegram.client import Client
from bot.networks.telegram.outcomes import outcome_of
from bot.networks.telegram.rendering import Part, rendered

KEPT = ReactionEmoji.WRITING_HAND
"""The sign that a message was written down; one of those that any message may carry."""

MOST_UNFINISHED = 500
NO_PREVIEW = LinkPreviewOptions(is_disabled=True)


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a letter goes: the chat, the topic, and the message that it answers."""

    chat: int
    thread: int | None
    message: int | None

    @property
    def reply(self) -> ReplyParameters | None:
        """The reply to the message; none where only one person writes (groups are negative)."""
        if self.message is None or self.chat > 0:
            return None
        return ReplyParameters(self.message, allow_sending_without_reply=True)


@dataclass(frozen=True, slots=True)
class _Post:
    """One message: words, with a picture or a document above them or neither.

    `alone` are the words where what goes with them is refused.
    """

    part: Part
    alone: Part
    picture: Drawn | None = None
    document: Printed | None = None


class Sender:
    """Sends letters, and remembers how much of a long one has arrived."""

    def __init__(self, client: Client) -> None:
        self._client = client
        self._arrived: dict[tuple[str, str], int] = {}

    async def send(self, letter: Letter) -> Outcome:
        """Send an answer once; a repeat under its key goes on after the parts that arrived."""
        place = _place(letter)
        if letter.answer.quiet and place.message is not None:
            outcome = await self._sign(place.chat, place.message)
            if outcome is not None:
                return outcome
        key = letter.chat, letter.key
        outcome = await self._send_parts(key, place, _posts(letter))
        if isinstance(outcome, NotSent | Unknown):
            self._forget_oldest()
        else:
            self._arrived.pop(key, None)
        return outcome

    async def _send_parts(
        self, key: tuple[str, str], place: _Place, posts: Sequence[_Post]
    ) -> Outcome:
        outcome: Outcome = Delivered()
        for number in range(self._arrived.get(key, 0), len(posts)):
            outcome = await self._send_post(place, posts[number], first=number == 0)
            if not isinstance(outcome, Delivered):
                return outcome
            self._arrived[key] = number + 1
        return outcome

    def _forget_oldest(self) -> None:
        while len(self._arrived) > MOST_UNFINISHED:
            del self._arrived[next(iter(self._arrived))]

    async def _sign(self, chat: int, message: int) -> Outcome | None:
        """Mark a message as kept; None where signs are not allowed or it is gone.

        A message carries one sign of a bot (Bot API, setMessageReaction): a repeat does not show.
        """
        try:
            await self._client.set_message_reaction(chat, message, KEPT)
        except (BadRequest, Forbidden):
            return None
        except TelegramError as error:
            outcome = outcome_of(error)
            return NotSent(outcome.reason) if isinstance(outcome, Unknown) else outcome
        return Delivered()

    async def _send_post(self, place: _Place, post: _Post, *, first: bool) -> Outcome:
        """Send one message; one whose picture or document is refused, without it."""
        around: dict[str, Any] = {
            "caption": post.part.html or None,
            "parse_mode": ParseMode.HTML,
            "message_thread_id": place.thread,
            "reply_parameters": place.reply if first else None,
            "reply_markup": _buttons(post.part),
        }
        try:
            if post.picture is not None:
                sent = await self._client.send_photo(place.chat, post.picture.png, **around)
            elif post.document is not None:
                file, name = post.document.pdf, post.document.name
                sent = await self._client.send_document(place.chat, file, filename=name, **around)
            else:
                return await self._send_part(place, post.part, first=first)
        except BadRequest:
            # Words alone have their own ways around what was refused.
            part = post.alone
            return await self._send_part(place, part, first=first) if part.html else Delivered()
        except TelegramError as error:
            return outcome_of(error)
        return Delivered(str(sent.message_id))

    async def _send_part(self, place: _Place, part: Part, *, first: bool) -> Outcome:
        """Send one message, in plain words and with nothing around it if its form is refused."""
        try:
            try:
                sent = await self._client.send_message(
                    place.chat,
                    part.html,
                    parse_mode=ParseMode.HTML,
                    message_thread_id=place.thread,
                    reply_parameters=place.reply if first else None,
                    reply_markup=_buttons(part),
                    link_preview_options=NO_PREVIEW,
                )
            except BadRequest as error:
                # A topic that was deleted or closed: the chat itself still takes it.
                gone = "thread" in error.message or "TOPIC" in error.message
                sent = await self._client.send_message(
                    place.chat,
                    part.plain,
                    message_thread_id=None if gone else place.thread,
                    link_preview_options=NO_PREVIEW,
                )
        except TelegramError as error:
            return outcome_of(error)
        return Delivered(str(sent.message_id))


def _place(letter: Letter) -> _Place:
    # A tap is a message to Drawbar, but none that Telegram shows.
    message = letter.reply_to if letter.reply_to and letter.reply_to.isdecimal() else None
    return _Place(
        int(letter.chat),
        int(letter.thread) if letter.thread else None,
        int(message) if message else None,
    )


def _posts(letter: Letter) -> list[_Post]:
    """The letter as messages: one with its picture if the words fit below it."""
    parts = rendered(letter.answer)
    shown = letter.picture, letter.document
    if shown == (None, None):
        return [_Post(part, part) for part in parts]
    if len(parts) == 1 and parts[0].fits_below_a_picture:
        lost = unprinted_answer(letter.answer) if letter.document else letter.answer
        return [_Post(parts[0], rendered(lost)[0], *shown)]
    nothing = Part("", "")
    return [_Post(nothing, nothing, *shown), *(_Post(part, part) for part in parts)]


def _buttons(part: Part) -> InlineKeyboardMarkup | None:
    if not part.buttons:
        return None
    return InlineKeyboardMarkup(
        [
            [InlineKeyboardButton(label, callback_data=str(number))]
            for number, label in enumerate(part.buttons, start=1)
        ]
    )
