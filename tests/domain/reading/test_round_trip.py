"""What is texted reads back to the entry that was meant, in every style and in other clothes.

`texting` writes random entries as people text them. Beside them stand whole messages, each
read as it is, shouted, without punctuation, over two lines, split in two messages, and amid
talk. What a careful person reads and the reader does not yet is listed, with what goes wrong;
such a line fails the tests as soon as it reads right, and then joins the others.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.records import entry_to_record
from domain.verdicts import Facts, Silent, Verdict
from tests.domain.reading import texting
from tests.domain.reading.chats import Reader, on_the_road

Records = list[dict[str, Any]]


def stated(verdict: Verdict) -> Records:
    """The entries of a verdict as records; empty where it states nothing."""
    return [entry_to_record(e) for e in verdict.entries] if isinstance(verdict, Facts) else []


@pytest.mark.parametrize("name", texting.WRITERS)
@given(data=st.data())
def test_what_is_texted_reads_back(name: str, data: st.DataObject, reads: Reader) -> None:
    def pick(options: Sequence[texting.T]) -> texting.T:
        return data.draw(st.sampled_from(options))

    texted = texting.WRITERS[name](pick)
    assert reads(texted.text, texted.context) == Facts(texted.entries), texted.text


def lb(value: float) -> dict[str, Any]:
    return {"value": value, "unit": "lb"}


def mi(value: float) -> dict[str, Any]:
    return {"value": value, "unit": "mi"}


def weighing(rig: str | None = None, **loads: float) -> dict[str, Any]:
    record: dict[str, Any] = {
        "kind": "weighing",
        "loads": {where: lb(load) for where, load in loads.items()},
    }
    return record if rig is None else {**record, "rig": rig}


def correction(**said: Any) -> dict[str, Any]:
    return {"kind": "correction", "action": "amend", **said}


UNDO = {"kind": "correction", "action": "undo"}


def note(words: str) -> dict[str, Any]:
    return {"kind": "note", "note": words}


def check(item: str, state: str) -> dict[str, Any]:
    return {"kind": "check", "item": item, "state": state}


def gauge(subject: str, value: float, unit: str, position: str | None = None) -> dict[str, Any]:
    record: dict[str, Any] = {
        "kind": "observation",
        "subject": subject,
        "value": {"value": value, "unit": unit},
    }
    return record if position is None else {**record, "position": position}


def truck_ratings(**ratings: float) -> Records:
    return [
        {"kind": "rating", "subject": "truck", "rating": name, "value": lb(value)}
        for name, value in ratings.items()
    ]


TODAY = "2026-07-11"

DIESEL = {"kind": "fill", "product": "diesel", "volume": {"value": 31.4, "unit": "gal"}}

MESSAGES: Sequence[tuple[str, Records]] = [
    (
        "steer 5,280, drive 8,140, trailer 9,180, gross 22,600",
        [weighing("hitched", steer=5280, drive=8140, trailer=9180, gross=22600)],
    ),
    (
        "5,280 steer, 8,140 drive, 9,180 trailer",
        [weighing("hitched", steer=5280, drive=8140, trailer=9180)],
    ),
    ("solo: steer 4,980, drive 3,620", [weighing("solo", steer=4980, drive=3620)]),
    (
        "bars on: steer 5,280, drive 7,940, trailer 9,380",
        [{**weighing("hitched", steer=5280, drive=7940, trailer=9380), "bars": "on"}],
    ),
    ("tongue weight 1,150 lb", [weighing(tongue=1150)]),
    ("31.4 gal diesel, odo 48,211", [{**DIESEL, "odometer": mi(48211)}]),
    (
        "odo 48,211, 31.4 gal diesel at $3.899, $122.43, full",
        [
            {
                **DIESEL,
                "odometer": mi(48211),
                "unit_price": {"value": 3.899, "unit": "USD/gal"},
                "cost": {"value": 122.43, "unit": "USD"},
                "full": True,
            }
        ],
    ),
    ("leaving, odo 48,120", [{"kind": "odometer", "odometer": mi(48120), "event": "depart"}]),
    ("arrived, 48,362", [{"kind": "odometer", "odometer": mi(48362), "event": "arrive"}]),
    (
        "hitched up the flatdeck, leaving, odo 48,120",
        [
            {"kind": "hitch", "action": "hitched", "trailer": "flatdeck"},
            {"kind": "odometer", "odometer": mi(48120), "event": "depart"},
        ],
    ),
    (
        "trans temp 198, coolant 205",
        [
            {
                "kind": "observation",
                "subject": subject,
                "value": {"value": value, "unit": "degF"},
            }
            for subject, value in (("transmission", 198), ("coolant", 205))
        ],
    ),
    (
        "truck gvwr 11,500, gcwr 27,000, payload 3,180",
        [
            {"kind": "rating", "subject": "truck", "rating": name, "value": lb(value)}
            for name, value in (("gvwr", 11500), ("gcwr", 27000), ("payload", 3180))
        ],
    ),
    (
        "lug nuts torqued, left marker light out",
        [check("lug nuts", "done"), check("left marker light", "fault")],
    ),
    (
        "loaded 1,200 lb of honey in the bed",
        [{"kind": "cargo", "item": "honey", "value": lb(1200), "position": "bed"}],
    ),
]
"""Messages with Juniper on the road, and the entries that they state."""

CORRECTIONS: Sequence[tuple[str, Records]] = [
    ("make that 5,230", [correction(value=5230)]),
    ("correction, drive 8,860", [correction(field="drive", value=lb(8860))]),
    ("scratch that", [{"kind": "correction", "action": "undo"}]),
]
"""Corrections stand at the head of a message: 'sorry' and 'make that' are talk's words too."""

BETWEEN_WORDS = re.compile(r"(?<!\d)[,:;.]|[,:;.](?!\d)")
"""Punctuation, but for that inside a figure."""


def shouted(text: str) -> str:
    """In capitals."""
    return text.upper()


def unpunctuated(text: str) -> str:
    """As dictation leaves it."""
    return BETWEEN_WORDS.sub("", text)


def over_two_lines(text: str) -> str:
    """Broken where the first comma stands."""
    return text.replace(", ", "\n", 1)


def after_talk(text: str) -> str:
    """Behind talk."""
    return f"ok folks, that took a while. {text}"


def before_talk(text: str) -> str:
    """Before talk."""
    return f"{text}. the kids say hi"


CLOTHES: Sequence[Callable[[str], str]] = (
    str,
    shouted,
    unpunctuated,
    over_two_lines,
    before_talk,
    after_talk,
)
DRESSED = [
    pytest.param(text, entries, dress, id=f"{text} {dress.__name__}")
    for messages, clothes in ((MESSAGES, CLOTHES), (CORRECTIONS, CLOTHES[:-1]))
    for text, entries in messages
    for dress in clothes
]


def without_capitals(value: Any) -> Any:
    """A record, or what is in one, for comparison with one that was shouted."""
    match value:
        case dict():
            return {key: without_capitals(each) for key, each in value.items()}
        case list():
            return [without_capitals(each) for each in value]
        case str():
            return value.casefold()
    return value


@pytest.mark.parametrize(("text", "entries", "dress"), DRESSED)
def test_a_message_in_other_clothes(
    text: str, entries: Records, dress: Callable[[str], str], reads: Reader
) -> None:
    found = stated(reads(dress(text), on_the_road()))
    assert without_capitals(found) == without_capitals(entries)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("steer 5,280, drive 8,140, trailer 9,180", "31.4 gal diesel, odo 48,211"),
        ("hitched up the flatdeck", "leaving, odo 48,120"),
        ("trans temp 198", "coolant 205"),
        ("lug nuts torqued", "left marker light out"),
        ("odo 48,211", "steer 5,280, drive 8,140, trailer 9,180"),
        ("trans temp 198", "left marker light out"),
    ],
)
@pytest.mark.parametrize("between", [", ", ". ", "\n"])
def test_two_messages_in_one_state_what_they_state_apart(
    first: str, second: str, between: str, reads: Reader
) -> None:
    apart = stated(reads(first, on_the_road())) + stated(reads(second, on_the_road()))
    assert len(apart) == 2
    assert stated(reads(first + between + second, on_the_road())) == apart


ONCE_MISREAD: Sequence[tuple[str, Records]] = [
    (
        "gcwr 36,700, front gawr 6,400, rear gawr 6,700",
        truck_ratings(gcwr=36700, gawr_front=6400, gawr_rear=6700),
    ),
    (
        "hitch rated 10,000 lbs",
        [{"kind": "rating", "subject": "hitch", "rating": "tow", "value": lb(10000)}],
    ),
    (
        "just got back. five one forty on the steers, eight two eighty on the drives, "
        "eleven four sixty on the trailer",
        [weighing("hitched", steer=5140, drive=8280, trailer=11460)],
    ),
    (
        "steer 4.02k, drive 8.14k, trailer 9.18k",
        [weighing("hitched", steer=4020, drive=8140, trailer=9180)],
    ),
    (
        "10,920 lb on the trailer axles, 8,780 lb on the rear axle, 6,060 lb on the front axle",
        [weighing("hitched", trailer=10920, drive=8780, steer=6060)],
    ),
    (
        "steer 5,280, drive 8,140, trailer 9,180, last tuesday at noon",
        [
            {
                **weighing("hitched", steer=5280, drive=8140, trailer=9180),
                "at": "2026-07-07T12:00:00-06:00",
            }
        ],
    ),
    (
        "exhaust temp 960, left front 74 psi",
        [gauge("exhaust", 960, "degF"), gauge("tyre", 74, "psi", "left front")],
    ),
    (
        "Scale ticket: 5,400 steer, 8,300 drive, 8,620 trailer",
        [weighing("hitched", steer=5400, drive=8300, trailer=8620)],
    ),
    (
        "truck, wheel by wheel: steer left: 1,640, steer right: 1,940",
        [weighing(steer_left=1640, steer_right=1940)],
    ),
    (
        "ok folks, that took a while. make that 5,230",
        [correction(value=5230)],
    ),
    (
        "ok folks, that took a while. correction, drive 8,860",
        [correction(field="drive", value=lb(8860))],
    ),
    (
        "wheel weights: LF 2260#, RF 1800#, LR 2160#, RR 1800#. back around 6",
        [weighing(steer_left=2260, steer_right=1800, drive_left=2160, drive_right=1800)],
    ),
    (
        "weighed solo 7140 lb. back around 6",
        [weighing("solo", gross=7140)],
    ),
    (
        "trailer right front hub temp 145. back around 6",
        [gauge("hub", 145, "degF", "trailer right front")],
    ),
    (
        "great drive today. 5,020 / 5,520 / 13,780 / 24,320",
        [{**weighing("hitched", steer=5020, drive=5520, trailer=13780, gross=24320), "at": TODAY}],
    ),
    (
        "great drive today. loaded 330 lb of sugar in the bed",
        [{"kind": "cargo", "item": "sugar", "value": lb(330), "position": "bed", "at": TODAY}],
    ),
    (
        "great drive today. not 6860, it was 6680",
        [correction(value=6680, was=6860)],
    ),
    (
        "stopped for coffee first. departing at 48,745",
        [{"kind": "odometer", "odometer": mi(48745), "event": "depart"}],
    ),
    (
        "stopped for coffee first. 5500 lb 4500 lb 12920 lb 22920 lb",
        [weighing("hitched", steer=5500, drive=4500, trailer=12920, gross=22920)],
    ),
    (
        "gcwr 29,400, payload sticker 2,750. anyone hungry?",
        truck_ratings(gcwr=29400, payload=2750),
    ),
    (
        "trans temp 198. see you at supper",
        [gauge("transmission", 198, "degF")],
    ),
    (
        "wheel weights\nLF 2260#\nRF 1800#\nLR 2160#\nRR 1800#",
        [weighing(steer_left=2260, steer_right=1800, drive_left=2160, drive_right=1800)],
    ),
    (
        "trans temp 198. dog slept the whole way",
        [gauge("transmission", 198, "degF")],
    ),
    (
        "5280 6940 11140, gross 23360",
        [weighing("hitched", steer=5280, drive=6940, trailer=11140, gross=23360)],
    ),
    (
        "steer drive trailer 5280 6940 11140, tongue 900",
        [weighing("hitched", steer=5280, drive=6940, trailer=11140, tongue=900)],
    ),
    (
        "weighed w/out trailer 5,420 front & 4,180 rear",
        [weighing("solo", steer=5420, drive=4180)],
    ),
    (
        "hubs 112 118 121 109",
        [gauge("hub", value, "degF") for value in (112, 118, 121, 109)],
    ),
    (
        "odometer 48 thousand 3 hundred and 62",
        [{"kind": "odometer", "odometer": mi(48362)}],
    ),
    (
        "half a tank left, 48,377",
        [{"kind": "odometer", "odometer": mi(48377)}],
    ),
    (
        "loaded 14 hives at 90 lb each on the front of the deck",
        [{"kind": "cargo", "item": "hives", "value": lb(1260), "position": "front deck"}],
    ),
    (
        "6,000 lb axles on the trailer, two of them",
        [{"kind": "rating", "subject": "trailer", "rating": "gawr", "value": lb(6000)}],
    ),
    (
        "filled up, 48,211, thirty one four gallons",
        [
            {
                "kind": "fill",
                "volume": {"value": 31.4, "unit": "gal"},
                "odometer": mi(48211),
                "full": True,
            }
        ],
    ),
    (
        "i meant drive not trailer. back around 6",
        [correction(field="drive", was="trailer")],
    ),
    ("Evening folks. trans temp 198", [gauge("transmission", 198, "degF")]),
    (
        "LF 88 psi, trailer right front hub 105F",
        [gauge("tyre", 88, "psi", "left front"), gauge("hub", 105, "degF", "trailer right front")],
    ),
    (
        "just got back from the store. 5480 - 7840 - 13740 - 27060",
        [weighing("hitched", steer=5480, drive=7840, trailer=13740, gross=27060)],
    ),
    (
        "just got back from the store. five one forty on the steers eight two eighty on the "
        "drives eleven four sixty on the trailer",
        [weighing("hitched", steer=5140, drive=8280, trailer=11460)],
    ),
    (
        "odo 48,211. home by dark",
        [{"kind": "odometer", "odometer": mi(48211)}],
    ),
    ("cold one out here. 7,330*", [correction(value=7330)]),
    ("are my rear tyres ok", []),
    ("lights out at 10.30", []),
    (
        "two slips on that ticket: steer is 5,160 not 5,610 and gross is 23,080 not 23,800",
        [
            correction(field="steer", value=lb(5160), was=lb(5610)),
            correction(field="gross", value=lb(23080), was=lb(23800)),
        ],
    ),
    (
        "drive should be 6,940 and trailer should be 9,120",
        [correction(field="drive", value=lb(6940)), correction(field="trailer", value=lb(9120))],
    ),
    (
        "price should be four oh nine nine",
        [correction(field="unit_price", value={"value": 4.099, "unit": "USD/gal"})],
    ),
    ("tlr shud be 9,120", [correction(field="trailer", value=lb(9120))]),
    ("drive on that weigh ought to say 6,940", [correction(field="drive", value=lb(6940))]),
    (
        "put in 31.2 gal, no wait 32.1",
        [{"kind": "fill", "volume": {"value": 32.1, "unit": "gal"}}],
    ),
    (
        "filled up 31.2 gal at 48,377, make that 32.1",
        [
            {
                "kind": "fill",
                "volume": {"value": 32.1, "unit": "gal"},
                "odometer": mi(48377),
                "full": True,
            }
        ],
    ),
    (
        "steer 5,160 drive 6,940 trailer 9,120, sorry drive 6,490",
        [weighing("hitched", steer=5160, drive=6490, trailer=9120)],
    ),
    ("48,377 miles, oops, 48,337", [{"kind": "odometer", "odometer": mi(48337)}]),
    (
        "hitched the camper, actually the flatdeck",
        [{"kind": "hitch", "action": "hitched", "trailer": "flatdeck"}],
    ),
    ("oops wrong trailer, delete that", [UNDO]),
    ("that wasnt our reading, scrap it", [UNDO]),
    ("get rid of that last entry", [UNDO]),
    ("please remove what i just texted, it was an old ticket", [UNDO]),
    (
        "ignore the last entry. steer 5,160 drive 6,940",
        [UNDO, weighing(steer=5160, drive=6940)],
    ),
    (
        "thirty one gallons no thirty two gallons, 48,377",
        [{"kind": "fill", "volume": {"value": 32, "unit": "gal"}, "odometer": mi(48377)}],
    ),
    (
        "dropped the camper, sorry, the flatdeck",
        [{"kind": "hitch", "action": "unhitched", "trailer": "flatdeck"}],
    ),
    ("drive i mean steer 5,160, drive 6,940", [weighing(steer=5160, drive=6940)]),
    (
        "that was in Cobblewick, not Drybone Fork",
        [correction(field="place", value="Cobblewick", was="Drybone Fork")],
    ),
    ("drat, make that 7,260", [correction(value=7260)]),
    ("61.2 should be 62.1", [correction(value=62.1, was=61.2)]),
    ("oops that was 208", [correction(value=208)]),
    ("oops it was 208 not 218", [correction(value=208, was=218)]),
    (
        "no it was 31.2 gallons",
        [correction(field="volume", value={"value": 31.2, "unit": "gal"})],
    ),
    ("note to self: bleed the trailer brakes", [note("bleed the trailer brakes")]),
    ("note: the ranger locks up at nine", [note("the ranger locks up at nine")]),
]
"""Messages that were read wrongly once, and what they state."""


TALK_OF_CORRECTIONS = (
    "no, that was in 1986",
    "nah it came out in 2004",
    "nope, 1997",
    "90%*",
    "*yawns* 16 more to go",
    "**best 30 minutes of my week**",
    "80*",
    "it should be fixed in 4.2.11",
    "oh wait it's 6.1.12",
    "should be 10.0.0.12",
    "no, there are actually only 3 members",
    "it's actually 400 thousand people",
    "the bus should be there in 12 minutes and the fare is $6.40",
    "wind should be around 12 mph tomorrow",
    "i should be home in spring of 2031",
    "sorry no pets, the price is $120 a night",
    "thanks for the lasagna. sorry it was $35",
    "make it for 200 bucks",
    "sorry, $2,400 for rent",
    "the band should be in Tilbury, and i want to go",
    "She went to fix her knee and ended up in Portugal",
    "Great Song But It's Welsh Not Irish",
    "GOOD MORNING NOT GOODBYE",
    "not a scratch",
    "i take that back",
    "sorry, forget it",
    "it wasnt me, forget it",
    "you were wrong, never delete it",
    "scratch that. let's say half past 5",
    "remember, no onions for me please",
    "Remember that evening? the truck was still blue",
    "remember when the truck slid into 40 gallons of paint",
    "please note that the average temperature will be 70 degrees",
    "note to self, learn to cook",
    "note that the server is down",
    "the parcel is i486* or so they say",
)
"""What people say to each other in a correction's or a note's words."""


@pytest.mark.parametrize("text", TALK_OF_CORRECTIONS)
def test_talk_in_the_words_of_a_correction_gets_silence(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(("text", "entries"), ONCE_MISREAD, ids=[text for text, _ in ONCE_MISREAD])
def test_a_message_that_was_once_misread(text: str, entries: Records, reads: Reader) -> None:
    assert stated(reads(text, on_the_road())) == entries


NOT_YET: Sequence[tuple[str, Records, str]] = [
    (
        "gcwr 22000, front gawr 5200, payload 2200",
        truck_ratings(gcwr=22000, gawr_front=5200, payload=2200),
        "2200 is looked for as text and found in 22000: the order is lost",
    ),
    (
        "rear gawr 6,800, gcwr 30,300, front gawr 6,800",
        truck_ratings(gawr_rear=6800, gcwr=30300, gawr_front=6800),
        "equal figures are found at the first of them: the order is lost",
    ),
    (
        "breakaway cable frayed, right brake light out, breakaway tested",
        [
            check("breakaway cable", "fault"),
            check("right brake light", "fault"),
            check("breakaway", "done"),
        ],
        "an item is looked for as text: the order is lost",
    ),
    (
        "odometer forty eight three sixty two nine point one gallons of diesel",
        [{**DIESEL, "volume": {"value": 9.1, "unit": "gal"}, "odometer": mi(48362)}],
        "the volume swallows the odometer said before it",
    ),
    (
        "trans temp 198, back at the house soon",
        [gauge("transmission", 198, "degF")],
        "where somebody will be is kept as the place",
    ),
]
"""Messages that a careful person reads, what they state, and what goes wrong."""


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        pytest.param(text, entries, id=text, marks=pytest.mark.xfail(reason=reason))
        for text, entries, reason in NOT_YET
    ],
)
def test_a_message_that_is_not_read_yet(text: str, entries: Records, reads: Reader) -> None:
    assert stated(reads(text, on_the_road())) == entries
