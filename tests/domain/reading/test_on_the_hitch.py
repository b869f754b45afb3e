"""What rests on a ball or a tongue beside other loads, and a truck named before its two ends."""

from __future__ import annotations

import pytest

from domain.entries import Check, Entry, Hitch, Odometer, Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road

CHAINS = Check(item="chains", state="done")
AUSTRALIA = chat(units="metric", currency="AUD", trailers=("caravan",))


def loads_of(reads: Reader, text: str, *, metric: bool) -> dict[str, Quantity]:
    verdict = reads(text, AUSTRALIA if metric else on_the_road())
    assert isinstance(verdict, Facts), text
    (weighing,) = verdict.entries
    assert isinstance(weighing, Weighing)
    return dict(weighing.loads)


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        ("ball 185, axles 2,140", {"tongue": 185, "trailer": 2140}),
        ("car front 1,210 rear 1,480, ball 185", {"steer": 1210, "drive": 1480, "tongue": 185}),
        ("caravan weighed 2,340 on the pads, ball 210", {"trailer": 2340, "tongue": 210}),
        ("caravan axles 2,310, 190 on the ball", {"trailer": 2310, "tongue": 190}),
        ("axles 1,980 and 160 on the ball", {"trailer": 1980, "tongue": 160}),
    ],
)
def test_so_little_beside_other_loads_rests_on_the_ball(
    reads: Reader, text: str, loads: dict[str, float]
) -> None:
    assert loads_of(reads, text, metric=True) == {
        position: Quantity(value, "kg") for position, value in loads.items()
    }


def test_beside_limits_it_is_a_limit(reads: Reader) -> None:
    verdict = reads("towbar max 2,500, ball 250", AUSTRALIA)
    assert isinstance(verdict, Facts)
    assert all(isinstance(each, Rating) for each in verdict.entries)


@pytest.mark.parametrize("text", ["got the van on the ball, 51,402", "51,402 with it on the ball"])
def test_a_trailer_that_is_on_the_ball_weighs_nothing_there(reads: Reader, text: str) -> None:
    verdict = reads(text, AUSTRALIA)
    entries = verdict.entries if isinstance(verdict, Facts) else ()
    assert all(isinstance(each, Hitch | Odometer) for each in entries)


@pytest.mark.parametrize(
    "text",
    [
        "Juniper's 5,200 up front, 6,900 in back, trailer's carrying 9,400",
        "truck's 5,200 in front, 6,900 in the rear, and the camper's 9,400",
        "Juniper: 5,200 up front, 6,900 in back; trailer 9,400",
    ],
)
def test_a_truck_heads_its_two_ends(reads: Reader, text: str) -> None:
    assert loads_of(reads, text, metric=False) == {
        "steer": Quantity(5200, "lb"),
        "drive": Quantity(6900, "lb"),
        "trailer": Quantity(9400, "lb"),
    }


def test_a_truck_with_one_end_told_has_its_own_load(reads: Reader) -> None:
    loads = loads_of(reads, "truck 12,100, 6,900 in back, trailer 9,400", metric=False)
    assert loads["truck"] == Quantity(12_100, "lb")


@pytest.mark.parametrize(
    "text", ["truck 0, ball 185", "camper 0 lb ball 0", "ball 185 trailer 0 kg"]
)
def test_beside_no_load_at_all_nothing_is_made_of_it(reads: Reader, text: str) -> None:
    verdict = reads(text, AUSTRALIA)
    assert not (
        isinstance(verdict, Facts) and any(isinstance(e, Weighing) for e in verdict.entries)
    )


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("Ben hooked up the camper", (Hitch(action="hitched", trailer="camper"),)),
        ("Grandpa hooked up the camper", (Hitch(action="hitched", trailer="camper"),)),
        ("finally got the camper off", (Hitch(action="unhitched", trailer="camper"),)),
        ("Mia unhitched the flatdeck", (Hitch(action="unhitched", trailer="flatdeck"),)),
        ("got the trailer on, chains crossed", (Hitch(action="hitched"), CHAINS)),
        ("got the trailer off, chains stowed", (Hitch(action="unhitched"), CHAINS)),
        ("the camper is back on", (Hitch(action="hitched", trailer="camper"),)),
    ],
)
def test_whoever_does_it_it_is_done(reads: Reader, text: str, entries: tuple[Entry, ...]) -> None:
    assert reads(text, on_the_road()) == Facts(entries)


@pytest.mark.parametrize(
    "text",
    [
        "Ben picked up his camper",
        "Grandpa hooked up his camper",
        "the neighbor hooked up the camper",
        "Ned dropped a camper off for the neighbors",
        "hooked the wrong trailer lol",
        "hooked up the wrong camper",
        "unhitched my wagon ha",
        "back on the trailer by 5",
        "back on the camper after lunch",
        "had the trailer on",
    ],
)
def test_no_trailer_was_put_on_or_taken_off(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    "text",
    [
        "swapped the flatdeck for the camper, 48,300",
        "switched the flatdeck for the camper, 48,300",
        "swapped flatdeck for camper 48,300",
    ],
)
def test_of_two_that_were_swapped_one_came_off(reads: Reader, text: str) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert [*verdict.entries] == [
        Hitch(action="unhitched", trailer="flatdeck"),
        Hitch(action="hitched", trailer="camper"),
        Odometer(odometer=Quantity(48_300, "mi")),
    ]


def test_an_old_one_that_was_swapped_puts_no_figure_right(reads: Reader) -> None:
    verdict = reads("swapped the old flatdeck for the camper, 48,300", on_the_road())
    assert isinstance(verdict, Facts)
    assert all(isinstance(entry, Hitch | Odometer) for entry in verdict.entries)


def test_a_swap_at_home_is_no_arrival(reads: Reader) -> None:
    verdict = reads("swapped the camper for the flatdeck at home 48,300", on_the_road())
    assert isinstance(verdict, Facts)
    off, on, odometer = verdict.entries
    assert isinstance(off, Hitch)
    assert isinstance(on, Hitch)
    assert (off.trailer, on.trailer) == ("camper", "flatdeck")
    assert isinstance(odometer, Odometer)
    assert odometer.event is None
