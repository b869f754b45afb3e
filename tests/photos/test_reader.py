"""Photos are looked at in a process of their own, one at a time, and refused kindly."""

from __future__ import annotations

import asyncio
import io
import os
import random
import subprocess
import sys
from pathlib import Path

import pytest

from bot.photos.crossing import (
    LENGTH,
    NoReply,
    NotSeen,
    Ready,
    Reply,
    Seen,
    framed,
    line_of,
    reply_of,
)
from bot.photos.reader import NO_TICKET, REFUSED, TOO_SLOW, PhotoReader, surroundings
from bot.photos.worker import serve
from bot.phrasebook import book_in
from bot.sight import NO_READER, NotRead
from domain.page import Word
from tests.photos.other_things import fog
from tests.photos.pump_receipts import metric_receipt, pump_receipt
from tests.photos.wear import as_sent

WORD = Word("5,280", ((1.0, 2.0), (9.0, 2.0), (9.0, 6.5), (1.0, 6.5)), 0.97)


def receipt() -> bytes:
    return as_sent(pump_receipt(random.Random("receipt")).sheet)


async def test_two_photos_sent_at_once_are_both_read_and_a_broken_one_between_costs_neither() -> (
    None
):
    reader = PhotoReader(book_in)
    try:
        metric = as_sent(metric_receipt(random.Random("metric")).sheet)
        (text, sure), (other, _) = await asyncio.gather(reader.read(receipt()), reader.read(metric))
        assert "PRODUCT DIESEL\nGALLONS " in text
        assert "Litres " in other
        assert sure is True
        with pytest.raises(NotRead, match="can't open that picture") as broken:
            await reader.read(receipt()[:3000])
        assert broken.value.worth_telling is True
        with pytest.raises(NotRead) as unseen:
            await reader.read(as_sent(fog(random.Random(0))))
        assert (str(unseen.value), unseen.value.worth_telling) == (NO_TICKET, False)
        assert await reader.read(receipt(), "odo 48211") == (f"odo 48211\n{text}", sure)
    finally:
        await reader.close()


async def test_a_photo_that_takes_too_long_is_given_up_and_its_process_with_it() -> None:
    reader = PhotoReader(book_in, longest_look=0.001)
    with pytest.raises(NotRead) as slow:
        await reader.read(receipt())
    assert str(slow.value) == TOO_SLOW
    await reader.close()


async def test_closing_ends_what_is_being_looked_at_and_what_waits() -> None:
    reader = PhotoReader(book_in)
    waiting = [asyncio.create_task(reader.read(receipt())) for _ in range(2)]
    await asyncio.wait(waiting, timeout=0.2)
    async with asyncio.timeout(5):
        await reader.close()
        outcomes = await asyncio.gather(*waiting, return_exceptions=True)
    assert [type(outcome) for outcome in outcomes] == [NotRead, NotRead]


async def test_without_the_extra_it_is_said_kindly_that_photos_are_not_read() -> None:
    reader = PhotoReader(book_in, needed=("rapidocr", "a_library_that_is_not_here"))
    with pytest.raises(NotRead) as missing:
        await reader.read(receipt())
    assert (str(missing.value), missing.value.worth_telling) == (NO_READER, True)
    await reader.close()


def test_the_process_is_told_no_token_and_no_password() -> None:
    told = surroundings({
        "PATH": os.defpath, "DRAWBAR_TELEGRAM_TOKEN": "1:secret", "HOME": "/home/nora",
        "DATABASE_URL": "postgresql://secret",
    })  # fmt: skip
    assert sorted(told) == ["ORT_DISABLE_TELEMETRY", "PATH", "PYTHONPATH"]


OPEN_A_MODEL = """
import onnxruntime, pathlib, rapidocr
models = pathlib.Path(rapidocr.__file__).parent / "models"
onnxruntime.InferenceSession(str(next(models.glob("*_cls_*.onnx"))))
"""


def test_the_recogniser_tells_its_makers_nothing(tmp_path: Path) -> None:
    """Where it would, it keeps a number for this machine and a queue of what it is to tell."""

    def kept_by_it(name: str, told: dict[str, str]) -> list[Path]:
        home = tmp_path / name
        home.mkdir()
        environment = {**told, "HOME": str(home), "XDG_CACHE_HOME": str(home)}
        subprocess.run([sys.executable, "-c", OPEN_A_MODEL], env=environment, check=True)
        return list(home.rglob("*.db"))

    told = surroundings({"PATH": os.defpath})
    unasked = {name: text for name, text in told.items() if name != "ORT_DISABLE_TELEMETRY"}
    assert kept_by_it("unasked", unasked), "this check would not notice it"
    assert not kept_by_it("asked", told)


def test_the_process_answers_each_picture_in_turn_and_ends_with_its_input() -> None:
    huge = b"\x89PNG\r\n\x1a\n" + b"\0" * (8 * 1024 * 1024)
    answers = io.BytesIO()
    serve(io.BytesIO(framed(b"no picture") + framed(huge) + framed(receipt())), answers)
    ready, broken, large, seen = map(reply_of, answers.getvalue().splitlines())
    assert (ready, broken) == (Ready(), NotSeen("not_a_picture"))
    assert large == NotSeen("too_large")
    assert isinstance(seen, Seen)
    assert "DIESEL" in {word.text for word in seen.words}


@pytest.mark.parametrize(
    "reply", [Ready(), Seen(()), Seen((WORD, WORD)), NotSeen("too_large"), NotSeen("not_a_picture")]
)
def test_an_answer_crosses_unchanged(reply: Reply) -> None:
    assert reply_of(line_of(reply)) == reply


def test_a_picture_is_preceded_by_its_length() -> None:
    assert framed(b"abc") == LENGTH.pack(3) + b"abc"


@pytest.mark.parametrize(
    "line",
    [
        b"", b"\n", b"Segmentation fault\n", b"[]\n", b'{"ready": false}\n', b'{"words": 5}\n',
        b'{"words": [["5,280"]]}\n', b'{"words": [["a", [[1, 2]], 0.5]]}\n', b"\xff\xfe\n",
        b'{"not_seen": "rm -rf"}\n',
    ],
)  # fmt: skip
def test_what_is_no_answer_is_told_from_one(line: bytes) -> None:
    with pytest.raises(NoReply):
        reply_of(line)


@pytest.mark.parametrize("sentence", [*REFUSED.values(), NO_READER, NO_TICKET, TOO_SLOW])
def test_each_refusal_is_kind_and_says_what_to_do(sentence: str) -> None:
    assert "text me the figures" in sentence
    assert "!" not in sentence
