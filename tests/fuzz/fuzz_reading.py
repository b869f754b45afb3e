"""A million spoilt messages, each of which must end in a verdict.

Run as `python -m tests.fuzz.fuzz_reading [COUNT] [--seed N]`; a seed gives the same messages
again. Messages of the corpora are torn apart and put together: words swapped, dropped and
doubled, figures, units, marks and other scripts thrown in, two messages spliced, in the chat
of any of them. A verdict must survive as JSON and each entry as a record; what is raised is
reported once a place, with the shortest message found, and makes the run fail.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
import time
import traceback
from collections import Counter
from collections.abc import Callable, Sequence

from bot.phrasebook import phrasebook
from domain.context import Context
from domain.reading import Phrasebook, read
from domain.records import entry_from_record, verdict_to_record
from domain.verdicts import Facts
from tests.corpora import cases, corpora
from tests.domain.reading.chats import chat

A_MILLION = 1_000_000
LONGEST = 400
"""Characters: runs without end are the robustness tests' business."""

SPOILS = """
0 00 1 2 3.899 5.2k 9,340 19 460 19.460 1'460 31,4 5280 48211 99999999 -4 +7 1/2 ½ 3/4 190-205
2x6000 6:40 25:61 7/11/2026 31/02 1e9 .5 5. 5..2 1,2,3 12,34,567 \u0663\u0664 \uff13\uff11 Ⅷ ² ∞

lb lbs # kg t ton mi km gal L F C ° psi kPa bar mph rpm ft in ' " m h % $ £ € ¢ p k /gal /L per
a mpg l/100km

steer drive trailer gross tongue solo hitched odo trip diesel def full partial gvwr gawr max
trans tire hub LF RR front rear left right first 2nd axle bars on off not make that scratch it
was sorry meant yesterday monday am ago how heavy what if mpg week chains torqued out half tank
ticket fee at the in and point hundred thousand oh two nineteen forty a

. , ; : ? ! * / | - – — ( ) [ ] @ & = + _ ~ ` ^ { } < > … • ✅ 👍 🚚 🐝
"""
THROWN_IN = [paragraph.split() for paragraph in SPOILS.strip().split("\n\n")]
"""Figures, units, words of the trade, and marks."""

HIDDEN = ("\u200b", "\u200f", "\u202e", "\u2066", "\ufeff", "\u00ad", "\u0301", "\x00", "\r", "\t")

Mutation = Callable[[random.Random, list[str]], None]


def _place(chance: random.Random, words: Sequence[str]) -> int:
    return chance.randrange(len(words)) if words else 0


def swap(chance: random.Random, words: list[str]) -> None:
    """Two words change places."""
    if len(words) > 1:
        one, other = _place(chance, words), _place(chance, words)
        words[one], words[other] = words[other], words[one]


def drop(chance: random.Random, words: list[str]) -> None:
    """A word is lost."""
    if words:
        del words[_place(chance, words)]


def double(chance: random.Random, words: list[str]) -> None:
    """A word is said twice."""
    if words:
        place = _place(chance, words)
        words.insert(place, words[place])


def throw_in(chance: random.Random, words: list[str]) -> None:
    """A figure, a unit, a word of the trade or a mark."""
    words.insert(_place(chance, words), chance.choice(chance.choice(THROWN_IN)))


def figure(chance: random.Random, words: list[str]) -> None:
    """A figure of any size, with any number of decimals."""
    digits = chance.randrange(10 ** chance.randrange(1, 9))
    words.insert(_place(chance, words), f"{digits / 10 ** chance.randrange(4):.10g}")


def stick(chance: random.Random, words: list[str]) -> None:
    """Two words lose the space between them."""
    if len(words) > 1:
        place = chance.randrange(len(words) - 1)
        words[place : place + 2] = [words[place] + words[place + 1]]


def misspell(chance: random.Random, words: list[str]) -> None:
    """A letter is lost, doubled or another."""
    if words:
        place = _place(chance, words)
        word = words[place]
        if word:
            at = chance.randrange(len(word))
            middle = chance.choice(("", word[at] * 2, chr(chance.randrange(33, 127))))
            words[place] = word[:at] + middle + word[at + 1 :]


def any_script(chance: random.Random, words: list[str]) -> None:
    """Characters of any script, surrogates included."""
    size, top = chance.randrange(1, 6), chance.choice((0x250, 0x3000, 0x110000))
    words.insert(_place(chance, words), "".join(chr(chance.randrange(top)) for _ in range(size)))


def hide(chance: random.Random, words: list[str]) -> None:
    """A character that can't be seen, inside a word."""
    if words:
        place = _place(chance, words)
        at = chance.randrange(len(words[place]) + 1)
        words[place] = words[place][:at] + chance.choice(HIDDEN) + words[place][at:]


def change_case(chance: random.Random, words: list[str]) -> None:
    """A word, or all of them, in capitals or without."""
    case = chance.choice((str.upper, str.lower, str.title, str.swapcase))
    if words and chance.random() < 0.5:
        place = _place(chance, words)
        words[place] = case(words[place])
    else:
        words[:] = map(case, words)


def break_line(chance: random.Random, words: list[str]) -> None:
    """A new line between two words."""
    words.insert(_place(chance, words), "\n")


MUTATIONS: Sequence[Mutation] = (
    swap, drop, double, throw_in, throw_in, figure, stick, misspell, any_script, hide,
    change_case, break_line,
)  # fmt: skip


def spoilt(chance: random.Random, texts: Sequence[str]) -> str:
    """A message that nobody sent."""
    words = chance.choice(texts).split(" ")
    if chance.random() < 0.2:
        other = chance.choice(texts).split(" ")
        words = words[: _place(chance, words)] + other[_place(chance, other) :]
    for _ in range(chance.randrange(1, 6)):
        chance.choice(MUTATIONS)(chance, words)
    return " ".join(words)[:LONGEST]


def survives(text: str, context: Context, book: Phrasebook) -> str:
    """Read a message and take its verdict through JSON; gives the verdict's name."""
    verdict = read(text, context, book)
    record = json.loads(json.dumps(verdict_to_record(verdict), allow_nan=False))
    if isinstance(verdict, Facts):
        back = tuple(map(entry_from_record, record["entries"]))
        if back != verdict.entries:
            raise AssertionError(f"{verdict.entries} came back as {back}")
    return str(record["verdict"])


def fuzz(count: int, seed: int) -> dict[str, tuple[str, str]]:
    """Read `count` spoilt messages; what was raised, by place: its traceback and a message."""
    chance = random.Random(seed)
    book = phrasebook()
    read("coolant at 198 up the ago long", chat(), book)  # dates load their tables once
    for each in book.short.patterns if book.short else ():
        each.pattern.match("")  # and patterns are compiled once
    known = [case for name in corpora() for case in cases(name)]
    texts, contexts = [case.text for case in known], [case.context for case in known]
    raised: dict[str, tuple[str, str]] = {}
    verdicts: Counter[str] = Counter()
    slowest, slow = 0.0, ""
    start = told = time.perf_counter()
    for number in range(1, count + 1):
        text, context = spoilt(chance, texts), chance.choice(contexts)
        before = time.thread_time()  # of the processor: what else runs on the machine counts little
        try:
            verdicts[survives(text, context, book)] += 1
        except Exception as error:  # noqa: BLE001  any failure at all is what is being looked for
            verdicts["raised"] += 1
            frame = traceback.extract_tb(error.__traceback__)[-1]
            place = f"{type(error).__name__} in {frame.name}, line {frame.lineno}"
            if place not in raised or len(text) < len(raised[place][1]):
                raised[place] = traceback.format_exc(), text
        taken = time.thread_time() - before
        if taken > slowest:
            slowest, slow = taken, text
        now = time.perf_counter()
        if now - told > 10 or number == count:
            told = now
            rate = number / (now - start)
            print(f"{number:>9,} of {count:,}, {rate:,.0f} a second, {dict(verdicts)}", flush=True)
    print(f"slowest: {1000 * slowest:.1f} ms, {slow!r}")
    return raised


def main() -> int:
    """Fuzz as the command line says; 1 where anything was raised."""
    command = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    command.add_argument("count", nargs="?", type=int, default=A_MILLION)
    command.add_argument("--seed", type=int, default=1)
    given = command.parse_args()
    raised = fuzz(given.count, given.seed)
    for place, (trace, text) in raised.items():
        print(f"\n{place}\n{text!r}\n{trace}")
    print(f"seed {given.seed}: {len(raised)} places raised")
    return 1 if raised else 0


if __name__ == "__main__":
    sys.exit(main())
