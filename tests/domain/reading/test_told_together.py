"""Several facts of one message that keep apart: readings, volumes, torques, wind and speed."""

from __future__ import annotations

from typing import Any

import pytest

from domain.entries import (
    Cargo,
    Check,
    Correction,
    Entry,
    Fill,
    Hitch,
    Observation,
    Odometer,
    Rating,
    Weighing,
)
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def miles(reading: float) -> Quantity:
    """An odometer reading."""
    return Quantity(reading, "mi")


def fill(gallons: float, reading: float, **said: object) -> Fill:
    """A fill of so many gallons at a reading, with what else was said of it."""
    volume = Quantity(gallons, "gal")
    return Fill(volume=volume, odometer=miles(reading), **said)  # type: ignore[arg-type]


def tyre(psi: float, position: str | None = None) -> Observation:
    """A tyre's pressure."""
    return Observation(subject="tyre", value=Quantity(psi, "psi"), position=position)


def hub(degrees: float, unit: str, position: str | None = None) -> Observation:
    """A hub's heat; of no place where none is told."""
    return Observation(subject="hub", value=Quantity(degrees, unit), position=position)


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "departed 48,240, 29.4 gal at 48,402, arrived 48,610",
            [
                Odometer(odometer=miles(48_240), event="depart"),
                fill(29.4, 48_402),
                Odometer(odometer=miles(48_610), event="arrive"),
            ],
        ),
        (
            "29.4 gal 48,402 full, arrived 48,610",
            [fill(29.4, 48_402, full=True), Odometer(odometer=miles(48_610), event="arrive")],
        ),
        ("18.2 gal at 48,310 and 22.6 gal at 48,588", [fill(18.2, 48_310), fill(22.6, 48_588)]),
        ("48,310 18.2 gal, 48,588 22.6 gal", [fill(18.2, 48_310), fill(22.6, 48_588)]),
        (
            "two fills: 18.2 gal 48,310, 22.6 gal 48,588",
            [fill(18.2, 48_310), fill(22.6, 48_588)],
        ),
        (
            "front axle hubs 118 and 121, rear axle hubs 119",
            [
                hub(118, "degF", "front"),
                hub(121, "degF", "front"),
                hub(119, "degF", "rear"),
            ],
        ),
        (
            "trailer front axle tires 80, rear axle tires 62",
            [tyre(80, "trailer front"), tyre(62, "trailer rear")],
        ),
        ("half filled 15 gal 48,402", [fill(15, 48_402, full=False)]),
        (
            "replaced the right rear trailer tire, torqued to 110",
            [Check(item="right rear trailer tire", state="done")],
        ),
        ("right rear tire 62, torqued 110", [tyre(62, "right rear")]),
        (
            "headwind 25 mph doing 52 mph",
            [
                Observation(subject="wind", value=Quantity(25, "mph")),
                Observation(subject="speed", value=Quantity(52, "mph")),
            ],
        ),
        ("hubs 118 121 119 160 F", [hub(each, "degF") for each in (118, 121, 119, 160)]),
        ("hubs 48 51 49 72 C", [hub(each, "degC") for each in (48, 51, 49, 72)]),
        ("trailer tires 80 79 81 and 62", [tyre(each, "trailer") for each in (80, 79, 81, 62)]),
        (
            "trailer should read 9,640 and drive 6,780",
            [
                Correction(action="amend", field="trailer", value=Quantity(9_640, "lb")),
                Correction(action="amend", field="drive", value=Quantity(6_780, "lb")),
            ],
        ),
    ],
)
def test_each_figure_is_of_its_own_fact(text: str, entries: list[Entry], reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert list(verdict.entries) == entries


@pytest.mark.parametrize(
    ("text", "degrees"),
    [
        ("unhitched the camper, 48,233, coolant 91C", Quantity(91, "degC")),
        ("dropped the flatdeck at 48,233, coolant 194", Quantity(194, "degF")),
        ("hooked up the camper, 48,233, coolant temp 194F", Quantity(194, "degF")),
        ("uncoupled the flatdeck. 48,233. coolant 91 C", Quantity(91, "degC")),
    ],
)
def test_no_gauge_shows_what_the_odometer_does(text: str, degrees: Quantity, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    read = [each.odometer for each in verdict.entries if isinstance(each, Odometer)]
    gauged = [each for each in verdict.entries if isinstance(each, Observation)]
    assert read == [miles(48_233)]
    assert [(each.subject, each.value) for each in gauged] == [("coolant", degrees)]


@pytest.mark.parametrize(
    ("text", "subject", "value"),
    [
        ("front diff dunno, the coolant gauge says 203", "coolant", 203),
        ("the trans gauge says 203", "transmission", 203),
        ("trans pan said 203", "transmission", 203),
        ("oil temp gauge says 203", "oil", 203),
    ],
)
def test_a_gauge_says_what_is_read_off_it(
    text: str, subject: str, value: float, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Observation)
    assert (entry.subject, entry.value) == (subject, Quantity(value, "degF"))


@pytest.mark.parametrize(
    "text",
    [
        "pumped 1,200 gal out of the septic tank",
        "drained 30 gal out of the pool",
        "half filled the pool, 400 gal",
        "two fills of the trough, 18 gal each",
        "two bags of ice and 18.2 gal of milk",
        "all in it was 2,340 for the week",
        "total was 5,240 for the month",
        "hitched since 1998",
        "torqued off at 110 percent",
        "holding 55 shares",
        "the speed sign says 45",
        "fuel gauge says 40",
        "the wind forecast says 203",
        "we sold the livestock trailer for 39,701",
    ],
)
def test_figures_of_pools_wages_and_weddings_are_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("hooked the camper, heading to the lake", None),
        ("hooked the flatdeck at the yard, heading to Larkfold", "yard"),
        ("heading to Larkfold 48,211", None),
        ("filled up 30.2 gal, heading to Elk Fork", None),
        ("filled up 30.2 gal at Larkfold, headed to Elk Fork", "Larkfold"),
        ("leaving Larkfold 48,211, heading to Elk Fork", "Larkfold"),
    ],
)
def test_where_one_goes_is_not_where_it_happened(
    text: str, place: str | None, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert {each.place for each in verdict.entries} == {place}


@pytest.mark.parametrize(
    "text",
    [
        "all hooked up",
        "all hooked up and ready",
        "we're all hooked up",
        "ok all hooked up now",
        "all hooked back up",
        "all coupled",
    ],
)
def test_all_of_it_hooked_up_is_the_trailer(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road(hitched=False))
    assert verdict == Facts((Hitch(action="hitched"),))


@pytest.mark.parametrize(
    "text",
    [
        "all hooked up with wifi",
        "all hooked up at the new place",
        "are we all hooked up",
        "tv is all hooked up",
        "all hooked on that show",
        "they're all hooked up",
    ],
)
def test_what_else_is_hooked_up_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road(hitched=False)), Silent)


@pytest.mark.parametrize(
    ("text", "items"),
    [
        ("I check the brakes. All is good.", ["brakes"]),
        ("I check the lights. All good.", ["lights"]),
        ("I check tires and lug nuts. All is ok", ["tires", "lug nuts"]),
        ("I inspect the coupler and chains. Everything is ok.", ["coupler", "chains"]),
        ("checking the chains. all good", ["chains"]),
        ("we check the brakes. everything is fine", ["brakes"]),
    ],
)
def test_what_was_looked_at_and_found_good_in_the_next_sentence(
    text: str, items: list[str], reads: Reader
) -> None:
    assert reads(text, on_the_road()) == Facts(
        tuple(Check(item=item, state="done") for item in items)
    )


@pytest.mark.parametrize(
    "text",
    [
        "I check my email. All is good.",
        "check the brakes please. all good?",
        "check the brakes. all good",
        "I check the brakes every morning. Life is good.",
        "I check the brakes. All is not good.",
        "I check the score. All good.",
        "can you check the brakes. all good",
    ],
)
def test_what_nobody_looked_at_is_no_check(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("boot: 30 kg of awning bits", "awning bits"),
        ("20 kg in the boot, dog food", "dog food"),
        ("put the cooler in the boot, 18 kg", "cooler"),
    ],
)
def test_what_is_in_the_boot(text: str, item: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road(units="metric"))
    assert isinstance(verdict, Facts), verdict
    (cargo,) = verdict.entries
    assert isinstance(cargo, Cargo)
    assert (cargo.item, cargo.position) == (item, "boot")


@pytest.mark.parametrize(
    ("text", "checks"),
    [
        (
            "checked: chains, breakaway, plug, lights, all ok",
            [("chains", "done"), ("breakaway", "done"), ("plug", "done"), ("lights", "done")],
        ),
        (
            "walkaround done except left turn signal dead",
            [("walkaround", "done"), ("left turn signal", "fault")],
        ),
        ("torqued lugs to 110 at 48,250, all good", [("lugs", "done")]),
        ("greased zerks, repacked bearings 48,210", [("bearings", "done")]),
    ],
)
def test_what_was_seen_to_and_what_was_not_right(
    text: str, checks: list[tuple[str, str]], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    told = [(each.item, each.state) for each in verdict.entries if isinstance(each, Check)]
    assert told == checks
    read = [each.odometer for each in verdict.entries if isinstance(each, Odometer)]
    assert read == [miles(float(each)) for each in ("48250", "48210") if f"48,{each[2:]}" in text]


@pytest.mark.parametrize(
    "text",
    [
        "lights, camera, action",
        "checked the fridge, stove, heater",
        "Ned's at 48,300 on his and never changed the oil",
        "done with school, chains of emails, everything",
    ],
)
def test_lists_of_other_things_are_no_walk_round(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_each_fill_of_several_has_its_own_reading_and_price(reads: Reader) -> None:
    verdict = reads("two stops: 48,290 14.2 gal 52.80, 48,480 18.9 gal 71.10", on_the_road())
    assert verdict == Facts(
        (
            fill(14.2, 48_290, cost=Quantity(52.8, "USD")),
            fill(18.9, 48_480, cost=Quantity(71.1, "USD")),
        )
    )


def test_hitching_and_unhitching_in_the_order_in_which_they_are_told(reads: Reader) -> None:
    verdict = reads(
        "hitched flatdeck 48,260 home yard; dropped flatdeck 48,340; hitched camper 48,342",
        on_the_road(),
    )
    assert isinstance(verdict, Facts), verdict
    assert [(each.action, each.trailer) for each in verdict.entries if isinstance(each, Hitch)] == [
        ("hitched", "flatdeck"),
        ("unhitched", "flatdeck"),
        ("hitched", "camper"),
    ]
    assert [each.event for each in verdict.entries if isinstance(each, Odometer)] == [None] * 3


def test_so_many_at_so_much_weigh_it_together(reads: Reader) -> None:
    verdict = reads("8 bags @ 50 lb over the axles", on_the_road())
    assert verdict == Facts((Cargo(item="bags", value=Quantity(400, "lb"), position="over axles"),))


@pytest.mark.parametrize(
    ("text", "degrees"),
    [
        ("minus 12 out, trans at 171", -12),
        ("trans at 171, minus 12 outside", -12),
        ("it's 96 out and the trans is at 171", 96),
        ("trans 171, outside it's 41", 41),
        ("outside minus seven, trans 171", -7),
        ("leaving, 48,122, outside sixty eight degrees", 68),
        ("pulled out 48,122, fifty two out", 52),
        ("41 out, 24.2 gal, 48,122", 41),
        ("24.2 gal, 41 out, 48,122", 41),
        ("hooked up the camper, minus 20 out", -20),
    ],
)
def test_the_air_beside_other_facts(text: str, degrees: float, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert len(verdict.entries) > 1
    of_air = [
        each.value
        for each in verdict.entries
        if isinstance(each, Observation) and each.subject == "ambient"
    ]
    assert of_air == [Quantity(degrees, "degF")]
    assert {each.place for each in verdict.entries} == {None}
    assert all(each.cost is None for each in verdict.entries if isinstance(each, Fill))


@pytest.mark.parametrize(
    "text",
    [
        "minus 12 out there, wear a coat",
        "12 out of 14 done",
        "30 out 20 in at the gate",
        "left 20 out for you",
        "3 out, 5 to go",
        "the porch is lit, 40 out tomorrow",
        "we left with 31 out of 40",
        "60 out, 40 in favour",
        "outside 60 people were waiting",
        "he ran 12 out",
    ],
)
def test_what_else_is_out(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "unit", "degrees"),
    [
        ("31C out, trans 88", "degC", 88),
        ("coolant 92C, trans 88", "degC", 88),
        ("coolant 192F, trans 188", "degF", 188),
        ("trans 188, outside 31C", "degF", 188),
        ("trans 188", "degF", 188),
    ],
)
def test_one_unit_of_heat_is_meant_throughout(
    text: str, unit: str, degrees: float, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    gauged = [
        each.value
        for each in verdict.entries
        if isinstance(each, Observation) and each.subject == "transmission"
    ]
    assert gauged == [Quantity(degrees, unit)]


def weighed(loads: dict[str, float], **said: Any) -> Weighing:
    """A weighing of so many pounds, with what else was said of it."""
    return Weighing(loads={at: Quantity(load, "lb") for at, load in loads.items()}, **said)


def rated(name: str, pounds: float) -> Rating:
    """A limit of the truck."""
    return Rating(subject="truck", rating=name, value=Quantity(pounds, "lb"))


def water(gallons: float) -> Cargo:
    """Water that rode along."""
    return Cargo(item="water", value=Quantity(gallons, "gal"))


def paid(gallons: float, dollars: float) -> Fill:
    """A fill and its total."""
    return Fill(volume=Quantity(gallons, "gal"), cost=Quantity(dollars, "USD"))


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "gcwr is 26,000 but we weighed 19,740",
            [rated("gcwr", 26_000), weighed({"gross": 19_740})],
        ),
        (
            "weighed 19,740 on a gcwr of 26,000",
            [weighed({"gross": 19_740}), rated("gcwr", 26_000)],
        ),
        (
            "grossed 19,740 against a gcwr of 26,000",
            [weighed({"gross": 19_740}), rated("gcwr", 26_000)],
        ),
        ("gross 11,500, gcwr 26,000", [rated("gvwr", 11_500), rated("gcwr", 26_000)]),
    ],
)
def test_what_is_held_against_a_gcwr_was_weighed(
    text: str, entries: list[Entry], reads: Reader
) -> None:
    assert reads(text, on_the_road()) == Facts(tuple(entries))


@pytest.mark.parametrize(
    ("text", "gallons"),
    [
        ("water 35 gal, propane full, steer 5220 drive 6940 trailer 9310", 35),
        ("fresh 35 gal, grey empty, propane full, steer 5220 drive 6940 trailer 9310", 35),
        ("water: 35 gal, propane: full. steer 5220 drive 6940 trailer 9310", 35),
        ("diesel full, water 20 gal, steer 5220 drive 6940 trailer 9310", 20),
        ("20 gal of water, steer 5220 drive 6940 trailer 9310", 20),
    ],
)
def test_water_beside_loads_rode_along_and_is_no_fuel(
    text: str, gallons: float, reads: Reader
) -> None:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), read
    assert read.entries[0] == water(gallons)
    assert isinstance(read.entries[1], Weighing)
    assert len(read.entries) == 2


@pytest.mark.parametrize("text", ["water 35 gal", "diesel full, water 20 gal"])
def test_water_of_no_known_place_is_talk(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


@pytest.mark.parametrize(
    "text",
    [
        "19.2 gal $74.80 into the main and 12.4 gal $48.31 into the aux",
        "19.2 gal for $74.80 in the main tank plus 12.4 gal for $48.31 in the aux tank",
        "main 19.2 gal $74.80, aux 12.4 gal $48.31",
    ],
)
def test_tanks_that_were_paid_for_apart(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((paid(19.2, 74.80), paid(12.4, 48.31)))


@pytest.mark.parametrize(
    ("text", "dash"),
    [
        ("hand calc 12.6 mpg, dash 13.4, 29.4 gal, 48,402", 13.4),
        ("29.4 gal, 48,402, dash says 13.4, i make it 12.6", 13.4),
        ("29.4 gal 48,402 hand calc 12.6 mpg", None),
    ],
)
def test_an_economy_that_was_worked_out_by_hand(
    text: str, dash: float | None, reads: Reader
) -> None:
    shown = None if dash is None else Quantity(dash, "mi/gal")
    assert reads(text, on_the_road()) == Facts((fill(29.4, 48_402, dash_economy=shown),))


@pytest.mark.parametrize(
    ("text", "position"),
    [
        ("hub on the left rear of the van hot, 95 C", "trailer left rear"),
        ("the hub on the right front of the caravan is hot, 95 C", "trailer right front"),
        ("hub on the left rear hot, 95 C", "left rear"),
    ],
)
def test_a_hot_hub_and_where_it_is(text: str, position: str, reads: Reader) -> None:
    told = Observation(subject="hub", value=Quantity(95, "degC"), position=position)
    assert reads(text, on_the_road(units="metric")) == Facts((told,))


WHOLE = Weighing(loads={"gross": Quantity(21_300, "lb")})


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        ("24.1 gal 48,402 then weighed 21,300", [fill(24.1, 48_402), WHOLE]),
        ("weighed 21,300 then 24.1 gal at 48,402", [WHOLE, fill(24.1, 48_402)]),
        ("fueled 24.1 gal 48,402, weighed after: 21,300", [fill(24.1, 48_402), WHOLE]),
        (
            "24.1 gal, 48,402, $93.99, scale 21,300",
            [fill(24.1, 48_402, cost=Quantity(93.99, "USD")), WHOLE],
        ),
    ],
)
def test_a_reading_beside_a_volume_is_no_load(
    text: str, entries: list[Entry], reads: Reader
) -> None:
    assert reads(text, on_the_road()) == Facts(tuple(entries))


def test_what_could_be_a_trailers_is_asked_about(reads: Reader) -> None:
    assert isinstance(reads("weighed 9,860 then 24.1 gal at 48,402", on_the_road()), Ask)
