"""Answers to a question that is open: which of its choices a message picks, in whatever words."""

from __future__ import annotations

import pytest

from domain.entries import Cargo, Fill, Hitch, Observation, Odometer, Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Choice, Facts, Question, Silent
from tests.domain.reading.chats import Reader, on_the_road

GALLONS = Quantity(2.4, "gal")
DIESEL, DEF = Fill(product="diesel", volume=GALLONS), Fill(product="def", volume=GALLONS)
WHICH_FLUID = Ask("product", (Choice("diesel", (DIESEL,)), Choice("DEF", (DEF,))))

POUNDS = Quantity(4210, "lb")
HITCHED = Weighing(loads={"trailer": POUNDS}, rig="hitched")
ALONE = Weighing(loads={"gross": POUNDS}, rig="trailer")
HOW_IT_STOOD = Ask(
    "weighing",
    (
        Choice("4,210 lb on its axles, hitched", (HITCHED,)),
        Choice("4,210 lb in all, unhitched", (ALONE,)),
    ),
)


@pytest.mark.parametrize(
    ("text", "fill"),
    [
        ("def, not diesel", DEF),
        ("diesel not def", DIESEL),
        ("diesel exhaust fluid", DEF),
        ("def. nobody buys 2.4 gal of diesel", DEF),
        ("DEF!! silly question", DEF),
        ("typo, second one", DEF),
        ("dad says second one", DEF),
        ("my wife said the first", DIESEL),
        ("he says def", DEF),
    ],
)
def test_which_fluid_it_was(text: str, fill: Fill, reads: Reader) -> None:
    assert reads(text, on_the_road(asked=WHICH_FLUID)) == Facts((fill,))


TYRE = Observation(subject="tyre", value=Quantity(68, "psi"), position="trailer left rear")
HUB = Observation(subject="hub", value=Quantity(68, "degF"), position="trailer left rear")
WHICH_GAUGE = Ask("subject", (Choice("tyre, 68 psi", (TYRE,)), Choice("hub, 68 °F", (HUB,))))


@pytest.mark.parametrize(
    ("text", "read"),
    [("tire", TYRE), ("the tyre", TYRE), ("tyre pressure", TYRE), ("hub temp", HUB), ("hub", HUB)],
)
def test_which_gauge_it_was(text: str, read: Observation, reads: Reader) -> None:
    assert reads(text, on_the_road(asked=WHICH_GAUGE)) == Facts((read,))


def test_another_gauge_answers_nothing(reads: Reader) -> None:
    assert reads("coolant", on_the_road(asked=WHICH_GAUGE)) == Silent()


@pytest.mark.parametrize(
    ("text", "weighing"),
    [
        ("it was still on the truck", HITCHED),
        ("off the truck", ALONE),
        ("we dropped it first", ALONE),
        ("on its own", ALONE),
        ("by itself. supper at 6", ALONE),
    ],
)
def test_how_the_trailer_stood(text: str, weighing: Weighing, reads: Reader) -> None:
    assert reads(text, on_the_road(asked=HOW_IT_STOOD)) == Facts((weighing,))


GROSS_OR_AXLES = Ask(
    "weighing",
    (
        Choice("4,210 lb gross", (Weighing(loads={"gross": POUNDS}),)),
        Choice("4,210 lb on the trailer axles", (HITCHED,)),
    ),
)


@pytest.mark.parametrize("text", ["hooked up the camper", "coupled up our camper"])
def test_what_was_done_since_picks_nothing(text: str, reads: Reader) -> None:
    context = on_the_road(asked=GROSS_OR_AXLES, hitched=False)
    assert reads(text, context) == Facts((Hitch(action="hitched", trailer="camper"),))
    assert reads("just the camper axles", context) == Facts((HITCHED,))


def test_a_question_that_is_put_first(reads: Reader) -> None:
    verdict = reads(
        "before i answer that, how far on this tank", on_the_road(asked=WHICH_FLUID, hitched=True)
    )
    assert isinstance(verdict, Question)
    assert verdict.topic == "range"


@pytest.mark.parametrize("text", ["who cares", "see you at supper. bring ice", "the other thing"])
def test_talk_answers_nothing(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road(asked=WHICH_FLUID)), Silent)


@pytest.mark.parametrize(
    ("text", "fill"),
    [
        ("the second, that bottle was nearly empty", DEF),
        ("the first, nobody spills 2.4 of the blue stuff", DIESEL),
        ("diesel, we dont run def", DIESEL),
        ("first one. def would never take that", DIESEL),
        ("not the def", DIESEL),
        ("the first obviously, the def tank holds 5", DIESEL),
        ("the first, 5 gallons is all it holds", DIESEL),
        ("first, nobody pays for that much def", DIESEL),
        ("the blue stuff", DEF),
        ("The second reading is correct.", DEF),
        ("first amount", DIESEL),
    ],
)
def test_an_answer_with_its_reason(text: str, fill: Fill, reads: Reader) -> None:
    assert reads(text, on_the_road(asked=WHICH_FLUID)) == Facts((fill,))


@pytest.mark.parametrize(
    "text", ["first, wash your hands", "the second, back by 6:30", "thats the one, he earned it"]
)
def test_what_only_begins_like_an_answer(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road(asked=WHICH_FLUID)), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "everything on the scale",
        "the whole rig was on it",
        "thats all of us, truck and trailer",
        "the lot",
    ],
)
def test_all_of_the_rig_was_on_the_scale(text: str, reads: Reader) -> None:
    asked = on_the_road(asked=GROSS_OR_AXLES)
    assert reads(text, asked) == Facts((Weighing(loads={"gross": POUNDS}),))


@pytest.mark.parametrize(
    "text", ["everything is fine here", "we should bring everything", "so to sum up, he hooked up"]
)
def test_everything_else_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road(asked=GROSS_OR_AXLES)), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "trailer axles, and its 4,120 not 4,210",
        "the trailer axles but its 4,120",
        "trailer axles. and it was 4,120 actually",
    ],
)
def test_an_answer_that_puts_the_figure_right(text: str, reads: Reader) -> None:
    mended = Weighing(loads={"trailer": Quantity(4120, "lb")}, rig="hitched")
    assert reads(text, on_the_road(asked=GROSS_OR_AXLES)) == Facts((mended,))


GALLONS_OR_DOLLARS = Ask(
    "fill",
    (
        Choice("22.5 gal", (Fill(volume=Quantity(22.5, "gal")),)),
        Choice("$22.50", (Fill(cost=Quantity(22.5, "USD")),)),
    ),
)


@pytest.mark.parametrize(
    ("text", "fill"),
    [
        ("gallons", Fill(volume=Quantity(22.5, "gal"))),
        ("22.5 gal", Fill(volume=Quantity(22.5, "gal"))),
        ("no, it was 25.2 gal", Fill(volume=Quantity(25.2, "gal"))),
        ("no its 25.2 gallons", Fill(volume=Quantity(25.2, "gal"))),
    ],
)
def test_a_unit_picks_a_choice_and_another_figure_with_it_takes_its_place(
    text: str, fill: Fill, reads: Reader
) -> None:
    assert reads(text, on_the_road(asked=GALLONS_OR_DOLLARS)) == Facts((fill,))


PRICE = Ask(
    "unit_price",
    tuple(
        Choice(f"{price}", (Fill(volume=GALLONS, unit_price=Quantity(price, "USD/gal")),))
        for price in (3.899, 38.99)
    ),
)


@pytest.mark.parametrize("text", ["the cheap one lol", "the lower of the two", "not the second"])
def test_the_one_of_two_that_is_less(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road(asked=PRICE)) == Facts(PRICE.choices[0].entries)


TOO_MUCH = Ask("volume", (Choice("95 L, as typed", (Fill(volume=Quantity(95, "L"), full=True),)),))


@pytest.mark.parametrize(
    ("text", "litres"),
    [
        ("61.4 L at $2.119 filled to the brim", 61.4),
        ("diesel 58.8 L, $124.60, full", 58.8),
        ("filled it, 61.4 L", 61.4),
        ("as typed", 95),
    ],
)
def test_another_fill_is_not_the_one_in_doubt_because_both_were_full(
    text: str, litres: float, reads: Reader
) -> None:
    verdict = reads(text, on_the_road(asked=TOO_MUCH, tank=Quantity(80, "L")))
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert fill.volume == Quantity(litres, "L")


WHICH_TRAILER = Ask(
    "trailer",
    tuple(
        Choice(name, (Weighing(loads={"gross": POUNDS}, rig="trailer", trailer=name),))
        for name in ("flatdeck", "camper")
    ),
)


@pytest.mark.parametrize("text", ["the camper", "it was the camper", "camper"])
def test_the_trailer_that_is_named_is_the_one_meant(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road(asked=WHICH_TRAILER, hitched=False)) == Facts(
        WHICH_TRAILER.choices[1].entries
    )


def test_a_trailer_that_is_told_of_answers_nothing(reads: Reader) -> None:
    chat = on_the_road(asked=WHICH_TRAILER, hitched=False)
    assert reads("the camper smells of honey", chat) == Silent()


OVER_TANK = Ask(
    "volume",
    (
        Choice(
            "52.6 gal as typed",
            (Fill(volume=Quantity(52.6, "gal"), odometer=Quantity(48_290, "mi"), full=True),),
        ),
    ),
)


@pytest.mark.parametrize(
    "text",
    [
        "25.6 gal sorry, clumsy fingers",
        "25.6 gal, my screen is cracked badly",
        "32.6 sorry phone screen glare",
    ],
)
def test_a_slip_put_right_leaves_what_else_was_said(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road(asked=OVER_TANK))
    assert isinstance(verdict, Facts), verdict
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert fill.volume == Quantity(float(text.split(maxsplit=1)[0]), "gal")
    assert (fill.odometer, fill.full) == (Quantity(48_290, "mi"), True)


@pytest.mark.parametrize("text", ["the tank only holds 36", "25.6 jars of honey, clumsy fingers"])
def test_what_is_of_something_else_answers_nothing(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road(asked=OVER_TANK)) == Silent()


WRONG_TOTAL = Ask(
    "cost",
    (
        Choice(
            "$211.43 as sent", (Fill(volume=Quantity(30.2, "gal"), cost=Quantity(211.43, "USD")),)
        ),
    ),
)


@pytest.mark.parametrize(
    "text",
    [
        "total was $121.43",
        "$121.43 total",
        "the total came to 121.43 on the receipt, read it wrong",
    ],
)
def test_a_total_is_what_it_cost(text: str, reads: Reader) -> None:
    fill = Fill(volume=Quantity(30.2, "gal"), cost=Quantity(121.43, "USD"))
    assert reads(text, on_the_road(asked=WRONG_TOTAL)) == Facts((fill,))


def test_what_dinner_cost_is_not(reads: Reader) -> None:
    assert reads("dinner was $121.43", on_the_road(asked=WRONG_TOTAL)) == Silent()


@pytest.mark.parametrize(
    ("text", "fill"),
    [
        ("it was def lol, 2.4 gal of diesel wouldn't get us up the hill", DEF),
        ("def, 2.4 gal of diesel would be silly", DEF),
        ("diesel lol, def doesn't come in cans that small", DIESEL),
        ("the secnd one", DEF),
        ("teh scond", DEF),
    ],
)
def test_what_is_supposed_of_the_other_and_mistyped(text: str, fill: Fill, reads: Reader) -> None:
    assert reads(text, on_the_road(asked=WHICH_FLUID)) == Facts((fill,))


STEER = Ask(
    "steer",
    (
        Choice("5,190 lb", (Weighing(loads={"steer": Quantity(5190, "lb"), "drive": POUNDS}),)),
        Choice("the rest, without the steer", (Weighing(loads={"drive": POUNDS}),)),
    ),
    "implausible",
    (Quantity(5190, "lb"),),
)


@pytest.mark.parametrize(
    ("text", "kind"),
    [
        ("ball 10000 lb", Rating),
        ("the ball is stamped 8000 lb", Rating),
        ("hitch tongue rating 1400", Rating),
        ("hauling 2000 lb of mulch", Cargo),
        ("mulch 2000 lb", Cargo),
    ],
)
def test_a_figure_of_another_kind_is_no_answer(text: str, kind: type, reads: Reader) -> None:
    verdict = reads(text, on_the_road(asked=STEER))
    assert isinstance(verdict, Facts)
    assert {type(entry) for entry in verdict.entries} == {kind}


@pytest.mark.parametrize("text", ["2000 lb of gravel", "got 3000 lb of stone"])
def test_so_much_of_something_is_no_axle(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road(asked=STEER))
    assert not isinstance(verdict, Facts) or not any(
        isinstance(entry, Weighing) for entry in verdict.entries
    )


@pytest.mark.parametrize("text", ["5210", "i meant 5210 lb", "5210 lb, thanks", "it was 5,210"])
def test_the_figure_anew_is_the_answer(text: str, reads: Reader) -> None:
    loads = {"steer": Quantity(5210, "lb"), "drive": POUNDS}
    assert reads(text, on_the_road(asked=STEER)) == Facts((Weighing(loads=loads),))


def test_the_field_in_doubt_told_anew_answers_whatever_kind_it_reads_as(reads: Reader) -> None:
    doubted = Fill(volume=Quantity(27.4, "gal"), odometer=Quantity(84_290, "mi"))
    asked = Ask("odometer", (Choice("84,290 mi", (doubted,)),))
    meant = Fill(volume=Quantity(27.4, "gal"), odometer=Quantity(48_290, "mi"))
    assert reads("48,290", on_the_road(asked=asked)) == Facts((meant,))


def test_arriving_answers_no_question_about_leaving(reads: Reader) -> None:
    typed, meant = (
        Odometer(odometer=Quantity(miles, "mi"), event="depart") for miles in (47_288, 48_288)
    )
    behind = Ask("odometer", (Choice("47,288", (typed,)), Choice("48,288", (meant,))))
    context = on_the_road(asked=behind)
    arrived = Odometer(odometer=Quantity(48_409, "mi"), event="arrive")
    assert reads("got there 48,409", context) == Facts((arrived,))
    anew = Odometer(odometer=Quantity(48_409, "mi"), event="depart")
    assert reads("48,409", context) == Facts((anew,))


@pytest.mark.parametrize(
    "text", ["the last one, i guess", "last one, wrong", "the first", "2", "the bigger one", "yes"]
)
def test_where_nothing_is_offered_nothing_is_picked(text: str, reads: Reader) -> None:
    unplaced = Ask("weighing", (), "unplaced", (POUNDS,))
    assert not isinstance(reads(text, on_the_road(asked=unplaced)), Facts)


@pytest.mark.parametrize(
    ("told", "answer", "kept"),
    [
        ("odo 58,402", "52,402", 52_402),
        ("odo 58,402", "no, 58,042", 58_042),
        ("odo 58,402", "thats right we drove 10k", None),
        ("odo 14502", "48,402", 48_402),
        ("odo 14502", "we did 10,000", None),
        ("48,402 274 gal", "27.4", 27.4),
        ("filled 44 gal 48,402", "46.2 gal", 46.2),
        ("48,402 62.4 gal", "243.36", None),
        ("put in 30", "$30", 30),
        ("put in 30", "30 gal", 30),
    ],
)
def test_an_answer_is_no_more_doubtful_than_what_it_answers(
    told: str, answer: str, kept: float | None, reads: Reader
) -> None:
    asked = reads(told, on_the_road())
    assert isinstance(asked, Ask)
    verdict = reads(answer, on_the_road(asked=asked))
    if kept is None:
        assert verdict == Silent()
        return
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Fill | Odometer)
    named = getattr(entry, asked.about, None) or getattr(entry, "cost", None)
    named = named or getattr(entry, "volume", None)
    assert isinstance(named, Quantity)
    assert named.value == kept
