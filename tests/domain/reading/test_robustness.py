"""No text whatever makes the reader raise, and a long one costs no more than its length.

Times are printed and not asserted: a shared machine's clock is no judge (`make bench` measures).
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from domain.context import Context
from domain.entries import Fill
from domain.quantities import Quantity
from domain.records import entry_from_record, verdict_to_record
from domain.verdicts import Ask, Choice, Facts, Question, Silent, Verdict
from tests.domain.reading.chats import Reader, chat, on_the_road

CONTEXTS = st.sampled_from([chat(), on_the_road(), on_the_road(units="metric", currency="EUR")])

WORDS_OF_THE_TRADE = """
steer drive trailer gross solo hitched odo gal diesel lb kg psi k half a and point hundred
thousand two forty nineteen oh not sorry make that was is yesterday at 6:40 gvwr front rear
left right hub temp full forgot the on back first max tank ticket fee what how far over week
to from 1st 2nd 3.899 48211 5280 1,2,3 1.2.3 1'2 $ @ # % / - * . , : ; ( )
"""
OF_OTHER_SCRIPTS = (
    "\u0663\u0664 \u216b \u00b2 \u00bc \u00bd \U0001f69a \u201c \u2026 \u2014 "
    "\u00d7 \u00b0 \u00ba \u20ac \u00df \u0131 \u0130 \u017f"
)
WORDS = st.sampled_from((WORDS_OF_THE_TRADE + OF_OTHER_SCRIPTS).split())
"""What the rules look for, and what might upset them: digits, cases and marks of other scripts."""

HIDDEN = "".join(
    chr(code)
    for code in (
        0xAD,
        0xFEFF,
        *range(0x200B, 0x2010),
        *range(0x202A, 0x202F),
        *range(0x2060, 0x206A),
    )
    if code not in (0x2065,)
)
"""Marks that can't be seen: zero widths, and those that turn the direction of writing."""


def well_formed(verdict: Verdict) -> None:
    """One of the four verdicts, which survives as a record and as JSON."""
    assert isinstance(verdict, Facts | Question | Ask | Silent)
    record = json.loads(json.dumps(verdict_to_record(verdict)))
    if isinstance(verdict, Facts):
        assert tuple(map(entry_from_record, record["entries"])) == verdict.entries


@given(text=st.text(max_size=300), context=CONTEXTS)
@example(text="", context=chat())
@example(text="\x00", context=chat())
@example(text="\ud800 5280", context=chat())
@example(text="İ" * 50 + " 5280", context=chat())
@example(text="\ufdfa" * 50, context=chat())
def test_any_text_has_a_verdict(text: str, context: Context, reads: Reader) -> None:
    well_formed(reads(text, context))


@given(
    words=st.lists(WORDS | st.text(max_size=4) | st.floats().map(str), max_size=40),
    join=st.sampled_from([" ", "", "\n", ", "]),
    context=CONTEXTS,
)
@example(words=["odo", "1e308"], join=" ", context=chat())
@example(words=["gal", "inf", "diesel", "nan"], join=" ", context=chat())
@example(words=["½", "tank", "½", "hundred"], join=" ", context=chat())
def test_any_jumble_of_trade_words_has_a_verdict(
    words: list[str], join: str, context: Context, reads: Reader
) -> None:
    well_formed(reads(join.join(words), context))


@given(
    text=st.text("0123456789.,'-/: ", max_size=200),
    label=st.sampled_from(["", "odo ", "gross ", "diesel ", "make that ", "gvwr ", "lf "]),
    unit=st.sampled_from(["", " lb", " gal", " psi", "k", " thousand", "%", " at", "/"]),
    context=CONTEXTS,
)
@example(text="9" * 200, label="odo ", unit="", context=on_the_road())
@example(text="9" * 200, label="gross ", unit="k", context=on_the_road())
@example(text="0/0", label="", unit=" lb", context=chat())
@example(text="31/02/2026 25:61", label="", unit="", context=chat())
@example(text="0.0", label="diesel ", unit=" gal", context=on_the_road())
def test_any_figure_has_a_verdict(
    text: str, label: str, unit: str, context: Context, reads: Reader
) -> None:
    well_formed(reads(label + text + unit, context))


@given(text=st.text(HIDDEN, min_size=1, max_size=3), where=st.integers(0, 40))
@example(text="\u200b", where=8)
@example(text="\u202e", where=0)
def test_marks_that_can_not_be_seen_change_nothing(text: str, where: int, reads: Reader) -> None:
    message = "steer 5,280, drive 8,140, trailer 9,180"
    assert reads(message[:where] + text + message[where:]) == reads(message)


@pytest.mark.parametrize("spaces", [" ", "\n", " \n ", "\t", "\u00a0", " " * 100])
def test_empty_space_around_a_message_changes_nothing(spaces: str, reads: Reader) -> None:
    message = "steer 5,280, drive 8,140, trailer 9,180"
    assert reads(spaces + message + spaces) == reads(message)


RUNS: dict[str, Callable[[int], str]] = {
    "digits": lambda size: "9" * size,
    "digits behind a label": lambda size: "odo " + "9" * size,
    "digits and points": lambda size: "9." * (size // 2),
    "digits and commas": lambda size: "9," * (size // 2),
    "threes and commas": lambda size: "999," * (size // 4),
    "threes and spaces": lambda size: "999 " * (size // 4),
    "dashes": lambda size: "-" * size,
    "stars": lambda size: "*" * size,
    "newlines": lambda size: "\n" * size,
    "spaces": lambda size: "5280" + " " * size + "lb",
    "letters": lambda size: "a" * size,
    "apostrophes": lambda size: "a'" * (size // 2),
    "number words": lambda size: "forty two " * (size // 10),
    "points said": lambda size: "point five " * (size // 11),
    "ands": lambda size: "and " * (size // 4),
    "labels": lambda size: "steer " * (size // 6),
    "labels and figures": lambda size: "steer 5280 " * (size // 11),
    "misspelt labels": lambda size: "steeer 5280 " * (size // 12),
    "bare figures": lambda size: "5280 " * (size // 5),
    "fills": lambda size: "31.4 gal diesel $3.899, " * (size // 24),
    "times": lambda size: "6:40 " * (size // 5),
    "dates": lambda size: "1/2/26 " * (size // 7),
    "parts": lambda size: "lights, gas, " * (size // 13),
    "days": lambda size: "yesterday 5280 lb " * (size // 18),
    "questions": lambda size: "how heavy? " * (size // 11),
    "corrections": lambda size: "make that 5 " * (size // 12),
    "checks": lambda size: "chains crossed, " * (size // 16),
    "events": lambda size: "arrived 48211 " * (size // 14),
    "axles": lambda size: "axle 1 5280 " * (size // 12),
    "headings": lambda size: "camper: " * (size // 8),
    "gauges": lambda size: "hub 150 " * (size // 8),
    "telephones": lambda size: "+1 208 555 0148 " * (size // 16),
    "spots": lambda size: "500 lb in the bed " * (size // 18),
    "emoji": lambda size: "👍" * size,
    "ligatures": lambda size: "\ufdfa" * size,
    "hidden marks": lambda size: "\u200b" * size,
    "combining marks": lambda size: "e" + "\u0301" * size,
}
"""Messages of about a size, each the worst that one kind of character can do."""


SIZES = (1 << 10, 1 << 12)
"""Characters. Runs of 64 KiB are in the bench until reading takes a time in line with length."""


@pytest.mark.parametrize(
    "run",
    [pytest.param(run, id=name) for name, run in RUNS.items()],
)
def test_a_very_long_message_has_a_verdict(run: Callable[[int], str], reads: Reader) -> None:
    taken = []
    for size in SIZES:
        start = time.perf_counter()
        verdict = reads(run(size), on_the_road())
        taken.append(1000 * (time.perf_counter() - start))
        well_formed(verdict)
    print(f"{taken[0]:.1f} ms, four times as long {taken[1]:.1f} ms")


WHICH_VOLUME = Ask(
    "volume",
    tuple(
        Choice(f"{gallons} gal", (Fill(volume=Quantity(gallons, "gal")),))
        for gallons in (30.2, 30.9)
    ),
)


@pytest.mark.parametrize(
    ("text", "context"),
    [
        ("ball is stamped gross 8,000 F", on_the_road()),
        ("0 plate: GVWR 11,200 lb, GAWR 5,200 lb each axle", on_the_road()),
        ("GVWR 0 lb, GAWR 5,200 lb each axle", on_the_road()),
        ("how did we do over the last 5280 years", on_the_road()),
        ("30.9, no, not 30.2", on_the_road(asked=WHICH_VOLUME)),
        ("33\r.0 GAL 126.39 48,521 48,521 FULL", on_the_road()),
        ("towball stamped 3,500 ° kg", on_the_road()),
        ("campe gvwr AXLE 1 L 2380 R 2420\nTRLR AXLE 2 L 2460R 2500", on_the_road()),
    ],
)
def test_what_made_the_reader_raise_once_has_a_verdict(
    text: str, context: Context, reads: Reader
) -> None:
    assert isinstance(reads(text, context), Verdict)


@pytest.mark.parametrize(
    "text",
    [
        "drive was 6,860 \n not 6,680 sorry",
        "weighed, solo 8.40 0.00 t, hitched 4.86",
        "41 1/2 degrees outside",
        "I weigh a 71205.46 metric ton after that you, RR",
        "\n \n What can ask \u01f2\u0173 you?",
    ],
)
def test_what_the_fuzzer_found(text: str, reads: Reader) -> None:
    """Each raised once: loads compared as a set, a share of nothing, a bare degree, no words."""
    well_formed(reads(text, on_the_road()))
    well_formed(reads(text, on_the_road(units="metric", currency="EUR")))
