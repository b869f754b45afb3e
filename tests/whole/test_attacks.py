"""What somebody who means harm can text, send or call; each test is a row of a table.

The table stands in DEVELOPERS.md. What is tried against one network alone is tried again, in more
forms, by that network's own tests.
"""

from __future__ import annotations

import asyncio
import io
import logging
import struct
import zlib
from collections.abc import AsyncIterator
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from html.parser import HTMLParser
from pathlib import Path

import pytest
from sqlalchemy import func, select, text

from bot.answers.answer import Answer, Row
from bot.answers.plain import as_text
from bot.cleaning import storable
from bot.exchange.files import defused
from bot.floods import AT_ONCE
from bot.messages import Delivered, Host, Letter, Message, Outcome, Photo
from bot.networks.matrix.dressing import html
from bot.networks.telegram.rendering import rendered
from bot.settings import Settings
from bot.store import standing
from bot.store.database import Store, open_store
from bot.store.tables import ChatRow, EntryRow, MessageRow
from bot.wiring import Drawbar
from domain.log import Preferences
from tests.whole.attacks import ROWS, attack, attack_table

HOME = Preferences(units="us", currency="USD", time_zone="America/Boise")
OWNER, STRANGER = "ana", "mallory"


class Line:
    """A guarded network whose far end is the test."""

    name = "line"
    once_by_key = True

    def __init__(self) -> None:
        self.said: list[Letter] = []
        self.photos: dict[str, bytes] = {}

    async def send(self, letter: Letter) -> Outcome:
        self.said.append(letter)
        return Delivered(f"a{len(self.said)}")

    async def run(self, host: Host) -> None:
        await asyncio.Event().wait()

    async def fetch(self, reference: str, most: int) -> bytes:
        return self.photos[reference][:most]

    def about(self) -> str:
        return "a line"


class Attacked:
    """A Drawbar with an owner, and what can be done to it."""

    def __init__(self, running: Drawbar, line: Line, store: Store) -> None:
        self.line = line
        self.store = store
        self._running = running
        self._count = 0

    async def text(
        self, words: str, by: str = OWNER, chat: str = "barn", photo: Photo | None = None
    ) -> list[str]:
        """Text something; the headlines that come back."""
        self._count += 1
        said = len(self.line.said)
        await self._running.take(
            Message(
                network="line",
                chat=chat,
                id=str(self._count),
                author=by,
                name=by.capitalize(),
                sent_at=datetime(2026, 7, 11, 20, 22, tzinfo=UTC) + timedelta(seconds=self._count),
                text=words,
                photo=photo,
            )
        )
        return [as_text(each.answer) for each in self.line.said[said:]]

    def kept(self) -> int:
        """How many entries stand."""
        with self.store.look() as session:
            return session.scalar(select(func.count()).select_from(EntryRow)) or 0

    def journalled(self) -> list[str]:
        with self.store.look() as session:
            return list(session.scalars(select(MessageRow.text)))


@pytest.fixture
async def attacked(tmp_path: Path) -> AsyncIterator[Attacked]:
    store = open_store(tmp_path / "logbook.db")
    line = Line()
    chosen = Settings(database="", preferences=HOME)
    async with Drawbar(store, chosen, (), [line]) as running:
        there = Attacked(running, line, store)
        await there.text(await running.owners_code() or "")
        yield there


class Shown(HTMLParser):
    """What a client shows of a message: the tags that it obeys, and the letters."""

    def __init__(self, source: str) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.letters = ""
        self.feed(source)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        assert not attrs or tag in ("pre", "code", "ol"), attrs

    def handle_data(self, data: str) -> None:
        self.letters += data


EVIL = "<img src=x onerror=alert(1)>&amp;</pre></b><a href=javascript:0>"


@attack("HTML in a name, a place or a note", "shown as the letters that it is, on both networks")
@pytest.mark.parametrize("where", ["headline", "label", "figure", "note", "choice"])
def test_html_is_shown_as_letters(where: str) -> None:
    answer = Answer(
        headline=EVIL if where == "headline" else "Over",
        rows=(Row(EVIL if where == "label" else "a", EVIL if where == "figure" else "b"),),
        notes=(EVIL,) if where == "note" else (),
        choices=(EVIL,) if where == "choice" else (),
    )
    sources = [html(answer), *(part.html for part in rendered(answer))]
    for source in sources:
        shown = Shown(source)
        assert shown.tags <= {"b", "pre", "code", "p", "strong", "ol", "li", "br"}
        if where != "choice":
            assert "onerror" in shown.letters


@attack("direction marks and zero-width characters in a figure or a name", "not seen by the reader")
async def test_characters_that_show_nothing_change_nothing(attacked: Attacked) -> None:
    await attacked.text("tra\u200biler \u202eflat\u2066deck\u202c gvwr 12\u200b000")
    with attacked.store.look() as session:
        chat = session.scalars(select(ChatRow)).one()
        (entry,) = [each.entry for each in standing.log(session, chat.logbook_id)]
    assert entry.trailer == "flatdeck"
    assert getattr(entry, "value").value == 12000  # noqa: B009


@attack("a formula as a place or a note, then an export", "a text in the sheet, not a formula")
@pytest.mark.parametrize("cell", ["=HYPERLINK(0)", "+1+1", "-2+3", "@SUM(A1)", "\t=1", "\r=1"])
def test_a_formula_is_exported_as_a_text(cell: str) -> None:
    # OWASP, CSV Injection: cells that begin with = + - @ tab or carriage return.
    assert str(defused(cell)).startswith("'")


@attack("SQL in a name", "a name like any other, or none; tables stand")
async def test_sql_is_words(attacked: Attacked) -> None:
    await attacked.text("trailer Robert'); DROP TABLE entries;-- gvwr 12000")
    await attacked.text("note: '; DELETE FROM messages; --")
    assert attacked.kept() == 2
    with attacked.store.look() as session:
        assert session.scalar(text("PRAGMA integrity_check")) == "ok"


@attack("NUL characters and halves of characters", "taken out before anything is stored")
async def test_what_no_database_holds_is_taken_out(attacked: Attacked) -> None:
    await attacked.text("odo 48211\x00 \ud800", by=OWNER)
    assert attacked.kept() == 1
    assert all("\x00" not in each for each in attacked.journalled())


@attack("a person's name of a megabyte", "cut to what a name can be")
def test_a_name_is_cut() -> None:
    sent_at = datetime(2026, 7, 11, tzinfo=UTC)
    message = Message(
        network="line", chat="barn", id="1", author="a", name="x" * 10**6, sent_at=sent_at, text=""
    )
    cleaned = storable(message)
    assert isinstance(cleaned, Message)
    assert len(cleaned.name) == 80


@attack("a message of a megabyte", "refused in a sentence; nothing of it is kept")
async def test_a_text_without_end_is_refused(attacked: Attacked) -> None:
    before = len(attacked.journalled())
    (said,) = await attacked.text("odo 48211 " * 100_000)
    assert said.startswith("That is too long for me")
    assert len(attacked.journalled()) == before


@attack(
    "a thousand messages at once from one member",
    "the first forty are taken, the rest refused in one sentence; others are served",
)
async def test_a_flood_is_stopped_and_others_are_served(attacked: Attacked) -> None:
    said = [await attacked.text(f"odo {48000 + number}") for number in range(1000)]
    refused = [words for each in said for words in each if "at once" in words]
    assert len(refused) == 1
    assert attacked.kept() < AT_ONCE + 5
    kept = attacked.kept()
    assert await attacked.text("odo 49500", by="ben") == ["Odometer 49,500 mi."]
    assert attacked.kept() == kept + 1


@attack("a stranger texts", "one sentence, then silence; nothing is kept")
async def test_a_stranger_leaves_no_trace(attacked: Attacked) -> None:
    before = attacked.journalled()
    first = await attacked.text("odo 1", by=STRANGER, chat="lair")
    later = [await attacked.text(f"odo {n}", by=STRANGER, chat="lair") for n in range(5)]
    assert first == ["This logbook opens with a code. Text me the code if you have one."]
    assert later == [[]] * 5
    assert attacked.journalled() == before


@attack("codes tried one after another", "three answers, then waits that double up to a day")
async def test_guessing_is_slow(attacked: Attacked) -> None:
    tried = [f"ABCD-EF{n // 8 + 2}{n % 8 + 2}" for n in range(30)]
    said = [await attacked.text(code, by=STRANGER, chat="lair") for code in tried]
    assert sum(map(len, said)) == 3


@attack("a choice tapped in another chat, or of a question that is settled", "changes nothing")
async def test_a_choice_counts_where_it_was_asked(attacked: Attacked) -> None:
    await attacked.text("4960 6100 8480 19450")
    (asked,) = attacked.line.said[-1:]
    assert asked.answer.choices
    assert attacked.kept() == 0
    await attacked.text("1", by=STRANGER, chat="lair")
    assert attacked.kept() == 0
    await attacked.text("1")
    await attacked.text("1")
    assert attacked.kept() == 1


@attack(
    "an edit or a deletion of somebody else's message", "only a network can say so, for its own"
)
async def test_a_message_belongs_to_its_chat(attacked: Attacked) -> None:
    await attacked.text("odo 48211")
    (said,) = await attacked.text("undo", by=STRANGER, chat="lair")
    assert said.startswith("This logbook opens with a code")
    assert attacked.kept() == 1


@attack("a line break in a name, to forge a line of the log", "logs hold no names and no texts")
async def test_logs_hold_no_texts(attacked: Attacked, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.DEBUG)
    await attacked.text("trailer flat\nERROR root: owned gvwr 12000")
    await attacked.text("the gate code is 4711, odo 48999")
    assert "owned" not in caplog.text
    assert "4711" not in caplog.text


def bomb() -> bytes:
    """A PNG that says it has 60,000 x 60,000 pixels, in a few hundred bytes."""
    header = struct.pack(">IIBBBBB", 60_000, 60_000, 8, 0, 0, 0, 0)
    chunks = [(b"IHDR", header), (b"IDAT", zlib.compress(b"\0" * 60_001)), (b"IEND", b"")]
    out = io.BytesIO(b"\x89PNG\r\n\x1a\n")
    out.seek(0, io.SEEK_END)
    for name, data in chunks:
        out.write(struct.pack(">I", len(data)) + name + data)
        out.write(struct.pack(">I", zlib.crc32(name + data)))
    return out.getvalue()


@attack("a picture that unpacks to gigabytes", "counted before it is unpacked, and refused")
def test_a_bomb_is_not_unpacked() -> None:
    opening = pytest.importorskip("bot.photos.opening")
    with pytest.raises(opening.TooLarge):
        opening.opened(bomb())


@attack("a program, a page or a script sent as a photo", "not opened")
@pytest.mark.parametrize("data", [b"%PDF-1.7", b"<svg onload=alert(1)>", b"GIF89a", b"MZ", b""])
def test_what_is_no_photo_is_not_opened(data: bytes) -> None:
    opening = pytest.importorskip("bot.photos.opening")
    with pytest.raises(opening.NotAPicture):
        opening.opened(data)


def test_every_row_of_the_table_is_said_once() -> None:
    assert len(dict(ROWS)) == len(ROWS)
    assert attack_table().count("\n") == len(ROWS) + 2


def test_cleaning_changes_no_ordinary_message() -> None:
    message = Message(
        network="line",
        chat="barn",
        id="1",
        author="a",
        name="Añä 🐝",
        sent_at=datetime(2026, 7, 11, tzinfo=UTC),
        text="odo 48 211, 31,4 L — “full” 🐝",
    )
    assert storable(message) == message
    assert storable(replace(message, text="\ud83d\udc1d")) == replace(message, text="🐝")
