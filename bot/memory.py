"""What was used for a moment goes back to the system.

Drawing a picture takes some megabytes for a tenth of a second. The GNU C library keeps such
pieces once the first were given back: its bound for taking a piece from the system by itself
rises with every piece (mallopt(3), 'dynamic mmap threshold'), and later ones leave holes that
grow for hours. A bound that is set stays where it is, and holes are given back when told to.
Where the C library is another, nothing is done about either.

A picture's parts know each other, so that only a search of all that there is finds them to be
done with (gc, 'cyclic garbage'), and Python searches all but rarely. What stays for good is put
aside first (gc.freeze), and the rest is soon searched.
"""

from __future__ import annotations

import ctypes
import gc
import platform

_MMAP_THRESHOLD, _ARENA_MAX = -3, -8
"""What mallopt calls its options, as in malloc.h."""

BIG = 256 * 1024
"""Bytes from which a piece is taken from the system by itself, and goes back to it when done."""

ARENAS = 2
"""Heaps at most: Python lets one thread at a time ask for memory, so that more only leave holes."""


def set_aside_what_stays() -> None:
    """What there is now stays: it is not searched again, and what is big goes back when done."""
    gc.collect()
    gc.freeze()
    if _IS_GNU:
        _libc().mallopt(_MMAP_THRESHOLD, BIG)
        _libc().mallopt(_ARENA_MAX, ARENAS)


def give_back_what_is_free() -> None:
    """Search what is done with, and give back the holes between small pieces (malloc_trim(3)).

    Takes some tens of milliseconds.
    """
    gc.collect()
    if _IS_GNU:
        _libc().malloc_trim(0)


_IS_GNU = platform.libc_ver()[0] == "glibc"


def _libc() -> ctypes.CDLL:
    return ctypes.CDLL(None)
