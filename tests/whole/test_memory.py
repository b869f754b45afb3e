"""What was used for a moment goes back to the system, where the C library can be told to."""

from __future__ import annotations

import platform
import subprocess
import sys

import pytest

PICTURES = """
import ctypes, os, sys
from pathlib import Path
from bot.memory import give_back_what_is_big, give_back_what_is_free

if sys.argv[1] == "set":
    give_back_what_is_big()
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
