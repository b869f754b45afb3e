"""Pictures are drawn apart, once, and never keep back the words."""

from __future__ import annotations

import asyncio
import gc
import logging
import subprocess
import sys
import threading
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace

import pytest
from matplotlib.backends.backend_agg import RendererAgg

from bot.answers.answer import Answer
from bot.answers.pictures import Picture
from bot.delivery import Delivery
from bot.messages import Drawn, Letter
from bot.pictures.drawing import png
from bot.pictures.studio import KEPT, Studio
from bot.store import journal, outbox
from bot.store.database import Store
from tests.letters import Letters
from tests.pictures.examples import week
from tests.store.logbooks import HOME, START


async def delivered(store: Store, *pictures: Picture | None, studio: Studio | None) -> list[Letter]:
    """The letters of answers with these pictures."""
    with store.work() as session:
        for number, picture in enumerate(pictures):
            row = journal.open_chat(session, "test", f"chat {number}", HOME, START)
            answer = Answer(headline="572 mi.", picture=picture)
            outbox.queue(session, row.id, answer, START)
        session.commit()
    album = Letters("test")
    with ThreadPoolExecutor(1) as worker:
        await Delivery(store, {"test": album}, lambda: START, worker, studio=studio).deliver()
    return album.kept


async def test_a_letter_takes_its_picture_along_with_its_words(store: Store) -> None:
    studio = Studio()
    plain, shown = await delivered(store, None, week(), studio=studio)
    studio.close()
    assert plain.picture is None
    assert shown.picture is not None
    assert shown.picture.alt == week().alt
    assert shown.picture.png.startswith(b"\x89PNG")
    width, height = shown.picture.size
    assert (width, height % 3) == (1080, 0)


async def test_without_a_studio_the_words_go_alone(store: Store) -> None:
    (letter,) = await delivered(store, week(), studio=None)
    assert letter.picture is None
    assert letter.answer.picture == week()


async def test_a_picture_that_fails_is_logged_and_the_words_go_alone(
    store: Store, caplog: pytest.LogCaptureFixture
) -> None:
    def spilt(picture: Picture) -> bytes:
        raise OSError("no ink")

    studio = Studio(draw=spilt)
    with caplog.at_level(logging.ERROR):
        (letter,) = await delivered(store, week(), studio=studio)
    studio.close()
    assert letter.picture is None
    assert letter.answer.headline == "572 mi."
    assert "can't be drawn" in caplog.text


async def test_a_picture_that_takes_too_long_is_left_out() -> None:
    done = threading.Event()

    def slowly(picture: Picture) -> bytes:
        done.wait()
        return b""

    studio = Studio(draw=slowly, patience=0.02)
    assert await studio.drawn(week()) is None
    done.set()
    studio.close()


async def test_the_same_picture_is_drawn_once_and_apart_from_the_loop() -> None:
    drawn_in: list[str] = []

    def noted(picture: Picture) -> bytes:
        drawn_in.append(threading.current_thread().name)
        return b"ink"

    studio = Studio(draw=noted)
    found = await asyncio.gather(*(studio.drawn(week()) for _ in range(5)))
    assert found == [Drawn(png=b"ink", alt=week().alt)] * 5
    assert len(drawn_in) == 1
    assert drawn_in[0] != threading.current_thread().name
    for number in range(KEPT):
        await studio.drawn(replace(week(), total=f"{number} mi"))
    await studio.drawn(week())
    assert len(drawn_in) == KEPT + 2
    studio.close()


def test_nothing_that_chats_loads_the_library_that_draws() -> None:
    code = (
        "import sys, bot.wiring, bot.cli, bot.answers.dispatch;"
        "sys.exit('matplotlib' in sys.modules or 'PIL' in sys.modules)"
    )
    subprocess.run([sys.executable, "-c", code], check=True, timeout=60)


def test_what_a_picture_was_drawn_on_goes_at_once() -> None:
    """Eight megabytes for each, and a week's pictures are drawn one upon the other."""

    def grounds() -> int:
        return sum(isinstance(each, RendererAgg) for each in gc.get_objects())

    png(week())
    gc.collect()
    gc.disable()
    try:
        before = grounds()
        png(week())
        assert grounds() == before
    finally:
        gc.enable()
