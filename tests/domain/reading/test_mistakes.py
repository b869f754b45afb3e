"""Corrections in many words: who had it wrong, what is off, and what stands in its place."""

from __future__ import annotations

import pytest

from domain.entries import Check, Correction, Entry, Fill, Hitch, Odometer, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.scale_house import lb


def amend(
    field: str | None, value: Quantity | float, was: Quantity | float | None = None
) -> Correction:
    return Correction(action="amend", field=field, value=value, was=was)


@pytest.mark.parametrize(
    ("text", "correction"),
    [
        (
            "27.3 gallons I said? its 23.7",
            amend("volume", Quantity(23.7, "gal"), Quantity(27.3, "gal")),
        ),
        (
            "I said 31 gal? it was 34",
            amend("volume", Quantity(34, "gal"), Quantity(31, "gal")),
        ),
        (
            "28 gal I said? it was 32",
            amend("volume", Quantity(32, "gal"), Quantity(28, "gal")),
        ),
        (
            "I said diesel was 3.899 but its 3.799",
            amend("unit_price", Quantity(3.799, "USD/gal"), Quantity(3.899, "USD/gal")),
        ),
        ("did I say 48,310? 48,130", amend(None, 48_130, 48_310)),
        (
            "fuel cost was $104.20, you've got $140.20",
            amend("cost", Quantity(104.2, "USD"), Quantity(140.2, "USD")),
        ),
        ("gross isn't 20,430 it's 20,340", amend("gross", lb(20_340), lb(20_430))),
        (
            "the 62 psi I sent for left rear should be 72",
            amend("tyre", Quantity(72, "psi"), Quantity(62, "psi")),
        ),
        ("drive was 6,420, you put 6,240", amend("drive", lb(6_420), lb(6_240))),
        ("no scratch that, the drive was 6,420", amend("drive", lb(6_420))),
        ("nah scratch that: trailer 9,340", amend("trailer", lb(9_340))),
        ("correct my last fill to 22 gal", amend("volume", Quantity(22, "gal"))),
        ("make the last fill 22 gal", amend("volume", Quantity(22, "gal"))),
        ("correct the drive to 6,420", amend("drive", lb(6_420))),
        ("you wrote trailer 9,250 but its 9,520", amend("trailer", lb(9_520), lb(9_250))),
    ],
)
def test_what_was_said_and_what_is_meant(text: str, correction: Correction, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((correction,))


@pytest.mark.parametrize(
    ("text", "correction"),
    [
        ("gross you wrote down has a digit off, its 20,340", amend("gross", lb(20_340))),
        ("that steer weight is off, its 5,120", amend("steer", lb(5_120))),
        ("two digits got flipped in the trailer weight, its 9,520", amend("trailer", lb(9_520))),
        ("the cost you've got isnt right, its $104.20", amend("cost", Quantity(104.2, "USD"))),
        ("that last one should be 51", amend(None, 51)),
        ("psi on the right front should be 68", amend("tyre", 68)),
        ("the drive figure you have is wrong, its 6,420", amend("drive", lb(6_420))),
        ("you've got the wrong trailer weight, it's 9,520", amend("trailer", lb(9_520))),
    ],
)
def test_what_is_off_and_what_it_is(text: str, correction: Correction, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((correction,))


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        (
            "delete that last weight, wrong ticket. right one: steer 5,120 drive 6,420",
            Weighing(loads={"steer": lb(5_120), "drive": lb(6_420)}),
        ),
        (
            "ignore that last fill, it was the mower. real one: 23.7 gal",
            Fill(volume=Quantity(23.7, "gal")),
        ),
        (
            "scratch that whole weighing, dog was on it. correct one: steer 5,120 drive 6,420",
            Weighing(loads={"steer": lb(5_120), "drive": lb(6_420)}),
        ),
        (
            "delete that last odo, wrong truck. heres ours: 48,190",
            Odometer(odometer=Quantity(48_190, "mi")),
        ),
    ],
)
def test_what_stands_in_the_place_of_what_goes(text: str, entry: Entry, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((Correction(action="undo"), entry))


@pytest.mark.parametrize(
    ("text", "loads"),
    [
        (
            "steer fifty one twenty, drive sixty three... ugh, sixty four twenty",
            {"steer": lb(5_120), "drive": lb(6_420)},
        ),
        (
            "steer 5,120 drive 6,420, trailer 9,5 dang 9,520",
            {"steer": lb(5_120), "drive": lb(6_420), "trailer": lb(9_520)},
        ),
        (
            "drive 6,420 and steer 6,420.. no thats not right, steer 5,120",
            {"drive": lb(6_420), "steer": lb(5_120)},
        ),
        ("tongue 1,080 darn it 1,030", {"tongue": lb(1_030)}),
        (
            "steer 5,1.. phone died. steer 5,120 drive 6,420",
            {"steer": lb(5_120), "drive": lb(6_420)},
        ),
    ],
)
def test_a_figure_broken_off_is_said_anew(
    text: str, loads: dict[str, Quantity], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert [entry.loads for entry in verdict.entries if isinstance(entry, Weighing)] == [loads]


def test_a_message_that_left_too_soon(reads: Reader) -> None:
    reading = Odometer(odometer=Quantity(48_190, "mi"))
    for text in ("odo 48,1 oops hit send. 48,190", "odo 481.. whoops sent too early, 48,190"):
        assert reads(text, on_the_road()) == Facts((reading,))


@pytest.mark.parametrize(
    "text",
    [
        "cost was $14, you've got $20 so keep the change",
        "you've got 21 days left, I had 12",
        "you wrote 4471 for the gate, its 4417",
        "I said 6? its 7",
        "rent isn't 1,200 its 1,260",
        "humidity is 40 percent and the wind should be 9 miles per hour",
        "you have 3 missed calls, its mom",
        "the address isnt right, its 4821 orchard",
        "delete that last pic, wrong kid. right one: coming up",
        "last one should be 6 inches",
        "argh lost 40 points, 45 with the penalty",
        "but you have to do everything at double speed",
    ],
)
def test_people_put_each_other_right(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "field", "value"),
    [
        ("no the trailer was 9,640", "trailer", 9_640),
        ("no, the camper was 9,640 lb", "trailer", 9_640),
        ("nah the trailer's 9,640", "trailer", 9_640),
        ("no our trailer was 9,640", "trailer", 9_640),
        ("no the old girl was 8,780", "truck", 8_780),
    ],
)
def test_a_refusal_before_an_article_says_nothing_of_absence(
    text: str, field: str, value: float, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (correction,) = verdict.entries
    assert isinstance(correction, Correction)
    assert (correction.field, correction.value) == (field, Quantity(value, "lb"))


def test_a_refusal_of_the_rigs_weight_is_put_to_the_log(reads: Reader) -> None:
    verdict = reads("no, rig was 21,140", on_the_road())
    assert verdict == Facts((Correction(action="amend", value=21_140),))


@pytest.mark.parametrize(
    "text",
    [
        "no the trailer was red",
        "no the trailer was 14 feet",
        "no the trailer was 9,640 dollars",
        "no the trailer was 2014",
        "no the truck was a loaner",
        "no the rig was 40 grand",
        "no the house was 9,640",
    ],
)
def test_a_refusal_of_something_else_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "field", "value"),
    [
        ("hmm make the drive sixty three eighty", "drive", Quantity(6_380, "lb")),
        ("make the drive 6,380", "drive", Quantity(6_380, "lb")),
        ("make the steer 5,240 instead", "steer", Quantity(5_240, "lb")),
        ("ok make the odo 48,322", "odometer", Quantity(48_322, "mi")),
        ("set the drive to 6,380", "drive", Quantity(6_380, "lb")),
        ("make the gallons 31.4", "volume", Quantity(31.4, "gal")),
        ("make the price 3.799", "unit_price", Quantity(3.799, "USD/gal")),
        ("make the camper 9,640", "trailer", Quantity(9_640, "lb")),
        ("make the tongue 1,140 lb", "tongue", Quantity(1_140, "lb")),
        ("make the mileage 48,322", "odometer", Quantity(48_322, "mi")),
    ],
)
def test_a_field_is_given_another_figure(
    text: str, field: str, value: Quantity, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert verdict.entries == (Correction(action="amend", field=field, value=value),)


@pytest.mark.parametrize(
    "text",
    [
        "make the drive 6 hours",
        "make the drive to Larkfold",
        "make it to the trailer by 6",
        "make the trip 300 miles",
        "make the offer 12,500",
        "make the cake 9 inch",
        "make the trailer 2,000 bucks and its yours",
        "set the alarm for 5,30",
        "make the total 12,500",
        "make the trailer pretty",
    ],
)
def test_what_else_is_made_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_figures_far_apart_are_no_slip_of_each_other(reads: Reader) -> None:
    verdict = reads("it's 48,240 on the dash after I put in thirty gallons", on_the_road())
    assert isinstance(verdict, Facts), verdict
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert (fill.volume, fill.odometer) == (Quantity(30, "gal"), Quantity(48_240, "mi"))


@pytest.mark.parametrize(
    ("text", "corrections"),
    [
        (
            "make that 5,220 steer and 9,140 trailer",
            [("steer", Quantity(5_220, "lb"), None), ("trailer", Quantity(9_140, "lb"), None)],
        ),
        (
            "31.2 should've been 32.1 and price 3.799",
            [(None, 32.1, 31.2), ("unit_price", Quantity(3.799, "USD/gal"), None)],
        ),
    ],
)
def test_what_is_said_once_is_of_each_part(
    text: str, corrections: list[tuple[object, object, object]], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert [
        (each.field, each.value, each.was)
        for each in verdict.entries
        if isinstance(each, Correction)
    ] == corrections
    assert len(verdict.entries) == len(corrections)


VOLUME = amend("volume", Quantity(27.4, "gal"), Quantity(72.4, "gal"))


@pytest.mark.parametrize(
    "text",
    [
        "that fill I sent was 27.4 gallons, I fat-fingered it as 72.4",
        "27.4 gallons, I put it in as 72.4",
        "it went in as 72.4 but it was 27.4 gallons",
        "I keyed in 72.4 gallons, it was 27.4",
        "sorry I miskeyed 72.4 gallons, should be 27.4",
    ],
)
def test_how_the_slip_came_about(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((VOLUME,))


def test_so_it_is_of_the_odometer(reads: Reader) -> None:
    meant = amend("odometer", Quantity(48_310, "mi"), Quantity(48_130, "mi"))
    assert reads("odo is 48,310, I sent it as 48,130", on_the_road()) == Facts((meant,))


@pytest.mark.parametrize(
    "text",
    [
        "wait no it wasn't full, the pump quit on us",
        "actually it wasn't full, nozzle kept shutting off",
        "hang on, it wasn't filled, ran out of cash",
    ],
)
def test_why_it_was_not_full(text: str, reads: Reader) -> None:
    not_full = Correction(action="amend", field="full", value=False)
    assert reads(text, on_the_road()) == Facts((not_full,))


@pytest.mark.parametrize(
    "text",
    [
        "wait no it wasn't full of people",
        "wait it wasn't full, the campground had space",
        "the restaurant wasn't full",
    ],
)
def test_what_else_was_not_full(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


DRIVE = amend("drive", lb(6_480), lb(6_840))


@pytest.mark.parametrize(
    ("text", "done"),
    [
        (
            "drive was 6,480 not 6,840, and the camper's unhitched now",
            Hitch(action="unhitched", trailer="camper"),
        ),
        (
            "drive was 6,480 not 6,840, also dropped the camper",
            Hitch(action="unhitched", trailer="camper"),
        ),
        (
            "drive was 6,480 not 6,840 and lights are checked",
            Check(item="lights", state="done"),
        ),
        (
            "drive was 6,480 not 6,840, and we just got home, odo 48,390",
            Odometer(odometer=Quantity(48_390, "mi"), event="arrive", place="home"),
        ),
    ],
)
def test_a_correction_and_what_was_done(text: str, done: Entry, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((DRIVE, done))


@pytest.mark.parametrize(
    ("text", "correction"),
    [
        (
            "odo was 48,610, should be 48,160",
            amend("odometer", Quantity(48_160, "mi"), Quantity(48_610, "mi")),
        ),
        (
            "re: cost\nwas $91.20, should be $92.10",
            amend("cost", Quantity(92.1, "USD"), Quantity(91.2, "USD")),
        ),
        (
            "last fill was 26.4, should be 24.6 gal",
            amend("volume", Quantity(24.6, "gal"), Quantity(26.4, "gal")),
        ),
        ("trailer was 9,630, should be 9,360", amend("trailer", lb(9_360), lb(9_630))),
        ("the drive axle was 6,620, sorry", amend("drive", lb(6_620))),
        ("unit price was 3.849, my bad", amend("unit_price", Quantity(3.849, "USD/gal"))),
        ("the odo was 48,160, my mistake", amend("odometer", Quantity(48_160, "mi"))),
        ("trailer axle was 9,360, oops", amend("trailer", lb(9_360))),
        (
            "Could you change the odometer to 48,160? I misread it.",
            amend("odometer", Quantity(48_160, "mi")),
        ),
        ("can you change the gross to 21,070", amend("gross", lb(21_070))),
    ],
)
def test_what_it_was_and_what_it_should_have_been(
    text: str, correction: Correction, reads: Reader
) -> None:
    assert reads(text, on_the_road()) == Facts((correction,))


@pytest.mark.parametrize(
    "text",
    [
        "tongue was 900, should be 1,200",
        "regarding rent\nwas $980, should be $890",
        "dinner was $38, my bad",
        "the drive was 6 hours, my bad",
        "can you change the trailer tires",
        "could you set the table for 6",
    ],
)
def test_advice_dinners_and_requests_put_nothing_right(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    "text", ["change the oil at 52,000", "change the tires at 60,000", "correct the oil to 5 qt"]
)
def test_what_is_to_be_changed_is_no_figure_of_a_gauge(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()
