"""What becomes of a message that came with a photo."""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from datetime import timedelta
from typing import get_args

import pytest

from bot.answers.language import language_of, say, speaking
from bot.conversation import Conversation
from bot.intake import Intake
from bot.messages import Delivered, Edited, Lack, Letter, Message, NotFetched, Outcome, Photo
from bot.sight import NOT_FETCHED, NotRead, Sight
from bot.store.database import Store
from domain.entries import Odometer, Weighing
from domain.log import Preferences
from domain.verdicts import Facts
from tests.store.logbooks import START, Scripted, as_told, conversation, lb, mi, standing

LINES = "STEER 5280\nDRIVE 6940\nGROSS 12220"
TICKET = Weighing(loads={"steer": lb(5280), "drive": lb(6940), "gross": lb(12220)}, at=START)
BARS_ON = replace(TICKET, bars="on")
READER = Scripted(
    {
        LINES: Facts((TICKET,)),
        f"bars on\n{LINES}": Facts((BARS_ON,)),
        f"bars off\n{LINES}": Facts((replace(TICKET, bars="off"),)),
    }
)
GONE = "I can't get at that photo any more; send it again, or text me the figures."

LACKS: dict[str, Lack] = {each: each for each in get_args(Lack)}


class Line:
    """A network with photos."""

    name = "test"
    once_by_key = True

    def __init__(self) -> None:
        self.heard: list[str] = []
        self.photos = {"ticket": b"ticket", "bees": b"bees", "blurred": b"blurred"}

    async def send(self, letter: Letter) -> Outcome:
        self.heard.append(letter.answer.headline)
        return Delivered()

    async def fetch(self, reference: str, most: int) -> bytes:
        try:
            return self.photos[reference]
        except KeyError:
            raise NotFetched(LACKS.get(reference, "gone")) from None


class Eyes:
    """Reads one ticket, knows bees for none, and can't open a blur."""

    def __init__(self) -> None:
        self.languages: list[str] = []

    async def read(
        self, picture: bytes, caption: str = "", language: str = "en"
    ) -> tuple[str, bool]:
        self.languages.append(language)
        if picture != b"ticket":
            raise NotRead("no ticket", worth_telling=picture == b"blurred")
        return f"{caption}\n{LINES}" if caption else LINES, True


@pytest.fixture
def line() -> Line:
    return Line()


@pytest.fixture
def intake(store: Store, line: Line) -> Iterator[Intake]:
    with ThreadPoolExecutor(1) as pool:
        sight = Sight({"test": line}, Eyes())
        yield Intake(conversation(store, READER), {"test": line}, pool, sight=sight)


def pictured(reference: str, caption: str = "", at: float = 0) -> Message:
    told = as_told(caption, at, id="m1")
    return replace(told, photo=Photo(reference=reference), private=True)


async def test_a_ticket_and_its_caption_are_one_message(store: Store, intake: Intake) -> None:
    await intake.take(pictured("ticket", "bars on"))
    assert standing(store) == [BARS_ON]


@pytest.mark.parametrize("photo", ["bees", "blurred", "gone"])
async def test_a_caption_counts_whatever_its_photo_is(
    store: Store, intake: Intake, line: Line, photo: str
) -> None:
    await intake.take(pictured(photo, "odo 48211"))
    assert standing(store) == [Odometer(odometer=mi(48211))]
    assert line.heard == [], "one answer does; it comes from the log"


async def test_a_picture_of_bees_is_looked_at_in_silence(
    store: Store, intake: Intake, line: Line
) -> None:
    await intake.take(pictured("bees"))
    assert line.heard == []
    await intake.take(pictured("blurred"))
    assert line.heard == ["no ticket"]
    await intake.take(replace(pictured("blurred"), private=False))
    assert line.heard == ["no ticket"], "others are in the room"
    assert standing(store) == []


async def test_an_edited_caption_keeps_what_was_read_off_its_photo(
    store: Store, intake: Intake, line: Line
) -> None:
    first = pictured("ticket", "bars on")
    await intake.take(first)
    later = first.sent_at + timedelta(minutes=1)
    await intake.take(Edited(message=replace(first, text="bars off"), id="e1", at=later))
    assert standing(store) == [replace(TICKET, bars="off")]
    del line.photos["ticket"]
    again = Edited(message=replace(first, text="odo 9"), id="e2", at=later + timedelta(minutes=1))
    await intake.take(again)
    assert standing(store) == [replace(TICKET, bars="off")]
    assert line.heard == [GONE]


async def test_why_a_photo_can_not_be_had_is_said_in_the_logbooks_language(
    store: Store, line: Line
) -> None:
    spanish = Preferences(language="es")
    with ThreadPoolExecutor(1) as pool:
        talk = Conversation(store, READER, lambda: START, spanish)
        intake = Intake(talk, {"test": line}, pool, sight=Sight({"test": line}, Eyes()))
        for why in LACKS:
            await intake.take(pictured(why))
    with speaking(language_of(spanish)):
        assert line.heard == [say(NOT_FETCHED[why]) for why in LACKS.values()]
    assert all("foto" in each for each in line.heard)


async def test_a_photo_is_looked_at_in_the_words_of_the_logbooks_language(
    store: Store, line: Line
) -> None:
    eyes = Eyes()
    with ThreadPoolExecutor(1) as pool:
        talk = Conversation(store, READER, lambda: START, Preferences(language="es"))
        await Intake(talk, {"test": line}, pool, sight=Sight({"test": line}, eyes)).take(
            pictured("ticket")
        )
    assert eyes.languages == ["es"]
