"""`drawbar read`: a line in, a JSON line out, whatever the line."""

from __future__ import annotations

import io
import json
import subprocess
import sys
from typing import Any

import pytest

from bot.read import parsed, read_lines
from tests.whole.chatting import DRAWBAR, run


def read(*lines: bytes) -> list[dict[str, Any]]:
    out = io.BytesIO()
    read_lines(io.BytesIO(b"\n".join(lines) + b"\n"), out)
    return [json.loads(line) for line in out.getvalue().decode("utf-8").splitlines()]


def test_lines_in_are_answered_one_for_one_in_order() -> None:
    context = {"hitched": True, "odometer": {"value": 48010, "unit": "mi"}}
    verdicts = read(
        b"odo 48211",
        b"",
        json.dumps({"text": "how heavy are we?", "context": context}).encode(),
        b"lovely evening",
    )
    assert [each["verdict"] for each in verdicts] == ["entry", "silent", "question", "silent"]
    assert verdicts[0]["entries"] == [
        {"kind": "odometer", "odometer": {"value": 48211, "unit": "mi"}}
    ]


def test_what_was_asked_can_be_handed_back_with_its_answer() -> None:
    (asked,) = read(b"steer 5360 drive 8820 trailer 9180 gross 24360")
    assert asked["verdict"] == "ask"
    again = json.dumps({"text": "1", "context": {"asked": asked["ask"]}}).encode()
    (settled,) = read(again)
    assert settled["entries"] == asked["ask"]["choices"][0]["entries"]


@pytest.mark.parametrize(
    "line",
    [
        b'{"text": 5}',
        b'{"sent_at": "2026-07-11T14:22:00-06:00"}',
        b'{"text": "odo 5", "context": []}',
        b'{"text": "odo 5", "context": {"units": "furlongs"}}',
        b'{"text": "odo 5", "context": {"time_zone": "Mars/Base"}}',
        b'{"text": "odo 5", "context": {"time_zone": 7}}',
        b'{"text": "odo 5", "context": {"odometer": 48010}}',
        b'{"text": "odo 5", "context": {"odometer": {"value": "far", "unit": "mi"}}}',
        b'{"text": "odo 5", "context": {"odometer": {"value": 5}}}',
        b'{"text": "odo 5", "context": {"trailers": 5}}',
        b'{"text": "odo 5", "context": {"asked": "what"}}',
        b'{"text": "odo 5", "context": {"asked": {"choices": [{"entries": [{"kind": "moon"}]}]}}}',
        b'{"text": "odo 5", "sent_at": "yesterday"}',
        b'{"text": "odo 5", "sent_at": 5}',
    ],
)
def test_an_object_that_cannot_be_used_keeps_nothing_and_says_why(line: bytes) -> None:
    (verdict,) = read(line)
    assert verdict["verdict"] == "silent"
    assert verdict["error"]


@pytest.mark.parametrize(
    "line",
    [
        b"{broken", b"[1, 2]", b'"text"', b"null", b"{}}", b"\xff\xfe\x00", b"\x00", b"[" * 5000,
        b'{"a":' * 5000, "caf\u00e9 \u2696\ufe0f".encode(), b'{"text": "lone \\ud800"}',
        b"x" * 70_000, b"   ", b"\r",
    ],
)  # fmt: skip
def test_a_line_in_no_form_at_all_still_gets_its_line(line: bytes) -> None:
    verdicts = read(line, b"odo 48211")
    assert len(verdicts) == 2
    assert verdicts[1]["verdict"] == "entry"


def test_a_carriage_return_inside_a_line_does_not_end_it() -> None:
    assert len(read(b"odo 48211\rsteer 5280", b"hi")) == 2


def test_a_moment_without_a_zone_is_in_the_chats_own() -> None:
    line = json.dumps(
        {
            "text": "x",
            "sent_at": "2026-07-11T14:22:00",
            "context": {"time_zone": "America/Boise"},
        }
    )
    _, context = parsed(line)
    assert context.sent_at.isoformat() == "2026-07-11T14:22:00-06:00"


def test_a_program_that_waits_for_each_answer_gets_it_before_it_sends_the_next() -> None:
    with subprocess.Popen(
        [DRAWBAR, "read"], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        for line, verdict in ((b"odo 48211\n", "entry"), (b"hi there\n", "silent")):
            process.stdin.write(line)
            process.stdin.flush()
            assert json.loads(process.stdout.readline())["verdict"] == verdict
        process.stdin.close()
        assert process.wait(timeout=30) == 0


def test_why_tells_on_standard_error_how_a_line_was_read() -> None:
    done = run("read", "--why", text="odo 48211\n")
    assert done.returncode == 0
    assert json.loads(done.stdout)["verdict"] == "entry"
    assert "48,211" in done.stderr or "48211" in done.stderr


HEAVY = ("pint", "numpy", "uncertainties", "asyncio", "sqlalchemy")
"""Libraries that take a tenth of a second or more to load."""

LOADING = """
import io, sys
from bot.read import read_lines
out = io.BytesIO()
read_lines(io.BytesIO(sys.argv[1].encode()), out)
print(out.getvalue().decode().splitlines()[-1])
print(*[name for name in sys.argv[2:] if name in sys.modules])
"""


@pytest.mark.parametrize(
    ("line", "verdict", "loaded"),
    [
        ("odo 48211", "entry", set()),
        ("hi there", "silent", set()),
        ("gross 11,180", "entry", {"pint", "numpy", "uncertainties"}),
    ],
)
def test_a_start_loads_no_library_that_the_message_needs_none_of(
    line: str, verdict: str, loaded: set[str]
) -> None:
    told = subprocess.run(
        [sys.executable, "-c", LOADING, line, *HEAVY],
        check=True,
        capture_output=True,
        text=True,
        timeout=60,
    )
    record, names = told.stdout.split("\n")[:2]
    assert json.loads(record)["verdict"] == verdict
    assert set(names.split()) <= loaded
