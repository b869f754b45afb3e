"""A fill put right, completed, told to be full, or told beside another one."""

from __future__ import annotations

from typing import Any

import pytest

from domain.records import verdict_to_record
from domain.verdicts import Silent
from tests.domain.reading.chats import Reader, on_the_road


def told(text: str, reads: Reader) -> str:
    """What a message states, shortly: 'correction volume=24.7/27.4', or its verdict."""
    record = verdict_to_record(reads(text, on_the_road()))
    entries = record.get("entries", ())
    return "; ".join(map(_said, entries)) if entries else str(record["verdict"])


def _said(entry: dict[str, Any]) -> str:
    bare = {key: each["value"] if isinstance(each, dict) else each for key, each in entry.items()}
    if bare["kind"] == "correction":
        was = f"/{bare['was']:g}" if "was" in bare else ""
        return f"{bare.get('field', '?')}={bare['value']}{was}"
    return " ".join([bare.pop("kind"), *(f"{key}={each}" for key, each in bare.items())])


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("sorry that was 24.7 gal not 27.4 and 48,420", "volume=24.7/27.4; odometer=48420"),
        ("it was 24.7 gal not 27.4 and the odo was 48,420", "volume=24.7/27.4; odometer=48420"),
        ("last fill was 24.7 not 27.4, at 48,420", "?=24.7/27.4; odometer=48420"),
        ("last fill 24.7 gal not 27.4, cost 98.20", "volume=24.7/27.4; cost=98.2"),
        ("24.7 gal not 27.4, 48,420", "volume=24.7/27.4; odometer=48420"),
        ("24.7 not 27.4 gal and it was 3.799", "volume=24.7/27.4; unit_price=3.799"),
        ("that fill was 24.7 gal at 48,420 not 48,402", "volume=24.7; odometer=48420/48402"),
        ("oops 24.7 not 27.4, and 48,420 not 48,402", "?=24.7/27.4; ?=48420/48402"),
        ("make that 24.7 gal at 48,420", "volume=24.7; odometer=48420"),
        ("fix: 24.7 gal, 48,420", "volume=24.7; odometer=48420"),
        ("should be 24.7 gal and 48,420", "volume=24.7; odometer=48420"),
        ("sorry that was 24.7 gal at 3.799", "volume=24.7; unit_price=3.799"),
        (
            "that should have been 24.7 gal, 48,420, $96.40",
            "volume=24.7; odometer=48420; cost=96.4",
        ),
        ("the 24.6 gal was at 48,402, not 48,204", "odometer=48402/48204"),
        ("the 24.6 gallons was $98.20 not $89.20", "cost=98.2/89.2"),
        ("sorry, 24.7 gal not 27.4, and it was full", "volume=24.7/27.4; full=True"),
        ("sorry 24.7 not 27.4 and not full", "?=24.7/27.4; full=False"),
        (
            "sorry that was 24.7 gal not 27.4, now 48,420",
            "volume=24.7/27.4; odometer odometer=48420",
        ),
        (
            "sorry that was 24.7 gal not 27.4 and we're at 48,420",
            "volume=24.7/27.4; odometer odometer=48420",
        ),
        ("24.7 gal, not full, 48,420", "fill volume=24.7 odometer=48420 full=False"),
        ("need 24.7 gal not 27.4, 48,420", "silent"),
        ("sorry, 24.7 gal at 48,420", "fill volume=24.7 odometer=48420"),
        ("the 24.6 gal was at 48,402", "fill volume=24.6 odometer=48402"),
    ],
)
def test_each_figure_of_a_fill_is_put_right(reads: Reader, text: str, entries: str) -> None:
    assert told(text, reads) == entries


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("forgot the odo on that last fill, 48,402", "odometer=48402"),
        ("forgot to put the odometer on the last fill: 48,402", "odometer=48402"),
        ("last fill was missing the odo, 48,402", "odometer=48402"),
        ("didnt give the odo for that fill, 48,402", "odometer=48402"),
        ("forgot to mention the odo on that fill was 48,402", "odometer=48402"),
        ("forgot the gallons on the last one, 24.6", "volume=24.6"),
        ("forgot the price, 3.799", "unit_price=3.799"),
        ("forgot the cost of the last fill, $98.20", "cost=98.2"),
        ("forgot the odo earlier, 48,402", "odometer odometer=48402"),
        ("forgot to log the last fill, odo 48,402", "odometer odometer=48402"),
        ("forgot to log diesel, 24.6", "fill product=diesel volume=24.6"),
        ("forgot the price of hay, 12.50", "silent"),
        ("didn't stop for fuel, price was 4.29", "silent"),
    ],
)
def test_a_field_that_was_left_out_is_added(reads: Reader, text: str, entries: str) -> None:
    assert told(text, reads) == entries


@pytest.mark.parametrize(
    ("text", "full"),
    [
        ("mark that one as full", True),
        ("please mark that as full", True),
        ("can you mark that last fill as partial", False),
        ("set that fill to full", True),
        ("flag the last fill as not full", False),
        ("log that as a full tank", True),
        ("forgot to say it was full", True),
        ("forgot to say it wasn't full", False),
        ("forgot to mention that last one was only a partial", False),
    ],
)
def test_an_entry_is_marked_as_full_or_not(reads: Reader, text: str, full: bool) -> None:
    assert told(text, reads) == f"full={full}"


@pytest.mark.parametrize(
    "text",
    [
        "mark that lane as full",
        "mark the calendar, the campground is full",
        "set that to full volume",
        "set the tank to full",
        "forgot to log the fill up",
        "forgot to fill up",
        "forgot to say the campground was full",
    ],
)
def test_what_is_full_besides_is_talk(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "the last fill was actually two, 20 gal and 8 gal",
        "that last fill was two fills, 20.1 gal and 8.3 gal",
        "my last fill was in fact two, 20 gal at 48,302 and 8 gal at 48,402",
    ],
)
def test_a_fill_that_was_two_is_no_third(reads: Reader, text: str) -> None:
    assert told(text, reads) == "silent"


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("the last fill was two days ago, 24.6 gal today", "fill volume=24.6"),
        ("last fill up was a week ago, this one 30.1 gal", "fill volume=30.1"),
        ("took 31.8 gal, light was on", "fill volume=31.8"),
        (
            "31.8 gal, marker light on",
            "fill volume=31.8; check item=marker light state=done",
        ),
        (
            "24.6 diesel 2.1 def 48,402",
            "fill product=diesel volume=24.6 odometer=48402; fill product=def volume=2.1",
        ),
        (
            "24.6 diesel 95.94 2.1 def 14.99",
            "fill product=diesel volume=24.6 cost=95.94; fill product=def volume=2.1 cost=14.99",
        ),
        (
            "diesel 24.6 def 2.1 48,402",
            "fill product=diesel volume=24.6 odometer=48402; fill product=def volume=2.1",
        ),
    ],
)
def test_what_is_told_of_another_fill_is_not_of_this_one(
    reads: Reader, text: str, entries: str
) -> None:
    assert told(text, reads) == entries
