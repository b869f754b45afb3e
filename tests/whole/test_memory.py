"""What was used for a moment goes back to the system, where the C library can be told to."""

from __future__ import annotations

import platform
import subprocess
import sys

import pytest

PICTURES = """
import ctypes, os, sys
from pathlib import Path
from bot.memory import give_back_what_is_free, set_aside_what_stays

if sys.argv[1] == "set":
    set_aside_what_stays()
libc = ctypes.CDLL(None)
libc.malloc.restype = ctypes.c_void_p

def piece(size):
    at = libc.malloc(ctypes.c_size_t(size))
    ctypes.memset(at, 1, size)
    return ctypes.c_void_p(at)

libc.free(piece(24_000_000))
held = []
for _ in range(4):
    big = piece(16_000_000)
    held.append(piece(1_000))
    libc.free(big)
    held.append(piece(15_000_000))
    libc.free(held.pop())
    held.append(piece(1_000))
if sys.argv[1] == "trimmed":
    give_back_what_is_free()
pages = int(Path("/proc/self/statm").read_text().split()[1])
print(pages * os.sysconf("SC_PAGE_SIZE"))
"""
"""Big pieces come and go, and small ones between them stay, as when pictures are drawn."""


def _used(how: str) -> int:
    done = subprocess.run(
        [sys.executable, "-c", PICTURES, how], capture_output=True, text=True, check=True
    )
    return int(done.stdout)


@pytest.mark.skipif(platform.libc_ver()[0] != "glibc", reason="another C library")
@pytest.mark.parametrize("how", ["set", "trimmed"])
def test_big_pieces_go_back_to_the_system_though_small_ones_stay(how: str) -> None:
    assert _used(how) < _used("as it is") - 10_000_000


CIRCLE = """
import gc, sys, weakref
from bot.memory import give_back_what_is_free, set_aside_what_stays

class Part:
    pass

stays = [Part() for _ in range(1_000)]
set_aside_what_stays()
part = Part()
part.of = part
seen = weakref.ref(part)
gc.collect(1), gc.collect(1)  # old by now: Python itself searches such seldom
del part
gc.collect(1)
old = seen() is not None
give_back_what_is_free()
print(old, seen() is None, len(stays), gc.get_freeze_count() > 1_000)
"""


def test_parts_that_know_each_other_are_found_to_be_done_with_and_what_stays_is_not_searched() -> (
    None
):
    done = subprocess.run(
        [sys.executable, "-c", CIRCLE], capture_output=True, text=True, check=True
    )
    assert done.stdout.split() == ["True", "True", "1000", "True"]
