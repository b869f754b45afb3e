"""How long reading takes: a message, a long message, and beside two general extractors.

Times are of the processor, so that what else runs on the machine counts little; they are
printed and none is asserted. Messages whose date goes to dateparser are counted apart, as that
library takes most of their time.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator, Sequence
from functools import partial
from statistics import median, quantiles
from types import FrameType
from typing import Any

import pytest

from bot.phrasebook import phrasebook
from domain.context import Context
from domain.reading import Phrasebook, read
from domain.records import Record
from tests.bench import peers
from tests.bench.figures import Figures
from tests.corpora import Case, cases, run
from tests.domain.reading.chats import on_the_road
from tests.domain.reading.test_robustness import RUNS

ROUNDS = 7
LEAST_ROUND = 0.5
"""In ms: a look at the clock of a thread can cost microseconds, and is no reading."""

SIZES = (1 << 10, 1 << 12, 1 << 14, 1 << 16)
AIM_MEDIAN, AIM_P99, AIM_LONG = 0.1, 1.0, 50.0
"""What is aimed at, in ms: a message, one in a hundred, and 64 KiB."""

PATIENCE = 500.0
"""In ms: after a message that took longer no longer one is tried."""

Say = Callable[[str], None]


@pytest.fixture
def say(capsys: pytest.CaptureFixture[str]) -> Say:
    """Print a line past the capture."""

    def speak(line: str) -> None:
        with capsys.disabled():
            print("\n" + line, end="")

    return speak


@pytest.fixture(scope="module")
def book() -> Phrasebook:
    """The phrasebook, and dateparser's tables, both loaded once."""
    loaded = phrasebook()
    for case in cases("open"):
        read(case.text, case.context, loaded)
    return loaded


def milliseconds(work: Callable[[], object], rounds: int = ROUNDS) -> float:
    """The median time of some rounds; of what is short, each does as much as fills a round."""
    laps = max(1, int(LEAST_ROUND / timed(work, 1)))
    return median([timed(work, laps) for _ in range(rounds)])


def timed(work: Callable[[], object], laps: int) -> float:
    """How long it takes, in ms, where it is done so many times between two looks at the clock."""
    start = time.thread_time()
    for _ in range(laps):
        work()
    return 1000 * (time.thread_time() - start) / laps


def enters_dateparser(text: str, context: Context, book: Phrasebook) -> bool:
    """Whether reading a message calls dateparser, as the interpreter's profiler sees it."""
    entered = False

    def watch(frame: FrameType, event: str, argument: Any) -> None:
        nonlocal entered
        entered = entered or "dateparser" in frame.f_globals.get("__name__", "")

    sys.setprofile(watch)
    try:
        read(text, context, book)
    finally:
        sys.setprofile(None)
    return entered


def bytecodes(text: str, context: Context, book: Phrasebook) -> int:
    """How many bytecodes reading a message runs: the same on every machine, however fast."""
    count = 0

    def watch(frame: FrameType, event: str, argument: Any) -> Callable[..., Any]:
        nonlocal count
        frame.f_trace_opcodes = True
        count += event == "opcode"
        return watch

    before = sys.gettrace()
    sys.settrace(watch)
    try:
        read(text, context, book)
    finally:
        sys.settrace(before)
    return count


def line(name: str, taken: Sequence[float]) -> str:
    """Median, 99th percentile and most of some times in ms."""
    high = quantiles(taken, n=100)[98] if len(taken) > 1 else taken[0]
    return (
        f"{name:<34}{len(taken):4} messages: median {median(taken):7.3f} ms, "
        f"p99 {high:7.3f} ms, most {max(taken):7.3f} ms"
    )


@pytest.mark.bench
def test_the_time_to_read_a_message_of_the_open_corpus(
    book: Phrasebook, say: Say, figures: Figures
) -> None:
    plain: list[float] = []
    dated: list[float] = []
    for case in cases("open"):
        taken = milliseconds(partial(read, case.text, case.context, book))
        (dated if enters_dateparser(case.text, case.context, book) else plain).append(taken)
    assert len(plain) + len(dated) == 220
    say(line("reading", plain) + f" (aim {AIM_MEDIAN} and {AIM_P99})")
    figures.note("reading a message: median", median(plain), "ms", f"{AIM_MEDIAN} ms, aimed at")
    high = quantiles(plain, n=100)[98]
    figures.note("reading a message: one in a hundred", high, "ms", f"{AIM_P99} ms, aimed at")
    if dated:
        say(line("reading, with dateparser", dated))


@pytest.mark.bench
def test_the_bytecodes_that_reading_runs(book: Phrasebook, say: Say, figures: Figures) -> None:
    """Times are of one machine; what one change costs is told from another by these."""
    run_by = [bytecodes(case.text, case.context, book) for case in cases("open")]
    assert min(run_by) > 0
    middle = median(run_by)
    say(f"bytecodes that reading runs           {len(run_by):4} messages: median {middle:,.0f}")
    figures.note("reading a message: bytecodes run, median", middle, "bytecodes")


@pytest.mark.bench
def test_the_time_to_keep_silent_on_talk(book: Phrasebook, say: Say, figures: Figures) -> None:
    """Most of what is texted in life is between people."""
    talk = cases("chatter")
    assert len(talk) == 400
    taken = [milliseconds(partial(read, case.text, case.context, book)) for case in talk]
    say(line("reading talk between people", taken))
    figures.note("reading talk between people: median", median(taken), "ms")


@pytest.mark.bench
def test_the_time_to_read_a_long_message(book: Phrasebook, say: Say, figures: Figures) -> None:
    """Ordinary messages in one, and the worst that one kind of character can do."""
    ordinary = "\n".join(case.text for case in cases("open"))
    runs = {"messages in one": lambda size: (ordinary * (size // len(ordinary) + 1))[:size], **RUNS}
    say(f"1, 4, 16 and 64 KiB in ms (aim {AIM_LONG} for 64 KiB, growth 4 a step)")
    read_all = 0
    for name, write in runs.items():
        times: list[float] = []
        for size in SIZES:
            if times and times[-1] > PATIENCE:
                break
            try:
                reading = partial(read, write(size), on_the_road(), book)
                times.append(milliseconds(reading, rounds=3))
            except Exception as error:  # noqa: BLE001  a figure that failed is printed as such
                say(f"  {name}, {size >> 10} KiB: {error!r}")
                times.append(float("nan"))
        read_all += 1
        if name == "messages in one" and len(times) == len(SIZES):
            figures.note("reading 64 KiB", times[-1], "ms", f"{AIM_LONG:.0f} ms, aimed at")
        say(f"  {name:<24}" + "".join(f"{each:10.1f}" for each in times))
    assert read_all == len(RUNS) + 1


def quantities(record: Any) -> Iterator[tuple[float, str]]:
    """Every quantity in a record, however deep."""
    if isinstance(record, dict):
        if set(record) >= {"value", "unit"}:
            yield float(record["value"]), str(record["unit"])
        else:
            for each in record.values():
                yield from quantities(each)
    elif isinstance(record, list):
        for each in record:
            yield from quantities(each)


def ours(case: Case, book: Phrasebook) -> peers.Found:
    """What Drawbar makes of a message, as the extractors give it."""
    got: Record = run(case, book).got or {}
    return set(quantities(got.get("entries", [])))


def theirs(case: Case, extract: peers.Extractor) -> peers.Found:
    """What an extractor makes of a message."""
    return extract(case.text)


@pytest.mark.bench
def test_the_reader_beside_general_extractors(book: Phrasebook, say: Say) -> None:
    """The same messages in the same run: times, and the quantities of the corpus found."""
    known = cases("open")
    expected = {
        case.text: list(quantities(case.want["entries"]))
        for case in known
        if case.want["verdict"] == "entry"
    }
    total = sum(map(len, expected.values()))
    assert total > 300
    rivals: dict[str, Callable[[Case], peers.Found]] = {"Drawbar": partial(ours, book=book)}
    rivals |= {name: partial(theirs, extract=extract) for name, extract in peers.installed()}
    for absent in {"quantulum3", "recognizers-text"} - rivals.keys():
        say(f"{absent} is not installed")
    base = 0.0
    for name, extract in rivals.items():
        for case in known[:20]:
            extract(case)
        taken, figures, whole = [], 0, 0
        for case in known:
            start = time.thread_time()
            found = extract(case)
            taken.append(1000 * (time.thread_time() - start))
            values = {value for value, _ in found}
            figures += sum(value in values for value, _ in expected.get(case.text, ()))
            whole += sum(each in found for each in expected.get(case.text, ()))
        base = base or median(taken)
        say(
            line(name, taken) + f", {median(taken) / base:6.1f} times Drawbar's; "
            f"of {total} quantities {figures} figures, {whole} with their unit"
        )
