"""How long a picture takes to draw, once the library is loaded, and what drawing leaves behind.

Times are of the processor, so that what else runs on the machine counts little.
"""

from __future__ import annotations

import gc
import resource
import time
from statistics import median

import pytest

from bot.pictures.drawing import png
from tests.bench.figures import Figures
from tests.pictures.examples import examples

AIM = 0.5
"""Seconds that a picture may take."""

ROUNDS = 3
DRAWN = 60
ROOM = 60_000
"""Kilobytes that memory may grow by over so many pictures, none of which is kept."""

EVERYDAY = {name: each for name, each in examples().items() if "longest" not in name}


@pytest.mark.bench
def test_a_picture_is_drawn_in_less_than_half_a_second(
    capsys: pytest.CaptureFixture[str], figures: Figures
) -> None:
    for picture in EVERYDAY.values():
        png(picture)
    for name, picture in EVERYDAY.items():
        times = []
        for _ in range(ROUNDS):
            started = time.process_time()
            png(picture)
            times.append(time.process_time() - started)
        size = len(png(picture)) / 1000
        with capsys.disabled():
            print(f"\n{name}: {median(times) * 1000:.0f} ms, {size:.0f} kB", end="")
        if name in ("week", "rig inside"):
            took = median(times) * 1000
            figures.note(f"picture: {name}, of processor", took, "ms", f"{AIM * 1000:.0f} ms")
        assert median(times) < AIM


@pytest.mark.bench
def test_pictures_leave_no_memory_behind(
    capsys: pytest.CaptureFixture[str], figures: Figures
) -> None:
    pictures = list(EVERYDAY.values())
    for picture in pictures:
        png(picture)
    gc.collect()
    before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    for number in range(DRAWN):
        png(pictures[number % len(pictures)])
    grown = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before
    with capsys.disabled():
        print(f"\n{DRAWN} pictures: {grown} kB more", end="")
    figures.note(
        f"memory left behind by {DRAWN} pictures", grown / 1000, "MB", f"{ROOM / 1000:.0f} MB"
    )
    assert grown < ROOM
