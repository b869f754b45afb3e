"""Photos that come with messages: fetched, read, and their lines handed on.

This file decides how much of a photo is fetched and what is said where it can't be had. How
a picture becomes lines is decided in `bot/photos`, what those mean by the reader.
"""

from __future__ import annotations

import asyncio
from collections.abc import Mapping
from typing import Protocol

from bot.answers.language import SOURCE, marked
from bot.messages import Lack, Network, NotFetched, Photo
from bot.photos.bounds import MOST_BYTES

NO_READER = marked("I can't read photos here; text me the figures.")
NO_PHOTOS = marked("Photos don't reach me here; text me the figures.")
NOT_FETCHED: Mapping[Lack, str] = {
    "gone": marked("I can't get at that photo any more; send it again, or text me the figures."),
    "too large": marked("That photo is larger than I can take; text me the figures."),
    "out of reach": marked("I can't fetch that photo now; send it later, or text me the figures."),
    "unreadable": marked("I can't decrypt that photo; send it again, or text me the figures."),
}
"""What is said where a photo can't be had."""


class NotRead(Exception):
    """A photo of which no lines can be had; the sentence says why, kindly.

    `worth_telling` is false where the picture just isn't a ticket: people share pictures.
    """

    def __init__(self, sentence: str, *, worth_telling: bool) -> None:
        super().__init__(sentence)
        self.worth_telling = worth_telling


class Eyes(Protocol):
    """What turns a picture into lines."""

    async def read(
        self, picture: bytes, caption: str = "", language: str = SOURCE
    ) -> tuple[str, bool]:
        """What caption and picture say, and whether it is beyond doubt; raises NotRead.

        `language` is that of the chat.
        """
        ...


class Sight:
    """Fetches photos from their networks and reads them."""

    def __init__(self, networks: Mapping[str, Network], eyes: Eyes) -> None:
        self._networks = networks
        self._eyes = eyes
        # One is read while the next is fetched; others wait where they are, and take no memory.
        self._few_at_once = asyncio.Semaphore(2)

    async def read(
        self, network: str, photo: Photo, caption: str, language: str
    ) -> tuple[str, bool]:
        """What a caption and its photo say, and whether it is beyond doubt; raises NotRead.

        `language` is that of the chat.
        """
        fetch = getattr(self._networks.get(network), "fetch", None)
        if fetch is None:
            raise NotRead(NO_PHOTOS, worth_telling=True)
        async with self._few_at_once:
            try:
                picture = await fetch(photo.reference, MOST_BYTES)
            except NotFetched as error:
                raise NotRead(NOT_FETCHED[error.why], worth_telling=True) from error
            return await self._eyes.read(picture, caption, language)
