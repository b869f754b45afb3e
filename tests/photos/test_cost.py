"""What a photo costs: seconds, and the memory of the process that looks at it."""

from __future__ import annotations

import random
import resource
import time

import pytest

from bot.photos.reader import PhotoReader
from bot.phrasebook import book_in
from tests.photos.scale_tickets import SCALE_TICKETS
from tests.photos.wear import as_sent, folded

MOST_SECONDS, MOST_MB = 4.0, 800
"""Of one processor, so that what else runs on the machine does not count."""


@pytest.mark.bench
async def test_a_photo_is_read_in_seconds_and_the_process_stays_below_a_gigabyte() -> None:
    reader = PhotoReader(book_in)
    taken = []
    for layout in SCALE_TICKETS:
        chance = random.Random(layout.__name__)
        photo = as_sent(folded(layout(chance).sheet, chance))
        began = time.perf_counter()
        await reader.read(photo)
        taken.append(time.perf_counter() - began)
    await reader.close()
    used = resource.getrusage(resource.RUSAGE_CHILDREN)
    each = (used.ru_utime + used.ru_stime) / len(taken)
    megabytes = used.ru_maxrss / 1024
    print(
        f"\n{each:.2f} s of {MOST_SECONDS:.0f} a photo, {megabytes:.0f} MB of {MOST_MB}; by the "
        f"clock {taken[0]:.1f} s with loading, then {min(taken):.1f} to {max(taken[1:]):.1f} s"
    )
    assert each <= MOST_SECONDS
    assert megabytes <= MOST_MB
