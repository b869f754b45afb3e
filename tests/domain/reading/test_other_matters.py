"""Hitching and cargo in other words, and what is no matter of the rig's in words like its own."""

from __future__ import annotations

from typing import Any, Literal

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
    Weighing,
)
from domain.quantities import Quantity
from domain.verdicts import Facts, Question, Silent
from tests.domain.driving_log import gal
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.scale_house import lb


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "the trailer's on and chains are crossed",
            (Hitch(action="hitched"), Check(item="chains", state="done")),
        ),
        (
            "the flatdeck's off now and the bed's empty",
            (Hitch(action="unhitched", trailer="flatdeck"),),
        ),
        (
            "camper came off the ball at 48,140",
            (
                Hitch(action="unhitched", trailer="camper"),
                Odometer(odometer=Quantity(48_140, "mi")),
            ),
        ),
        (
            "left the camper with dad",
            (Hitch(action="unhitched", trailer="camper"),),
        ),
        (
            "hooked up, not the flatdeck, the camper",
            (Hitch(action="hitched", trailer="camper"),),
        ),
        (
            "dropped the camper and weighed only it, 7,420",
            (
                Hitch(action="unhitched", trailer="camper"),
                Weighing(loads={"gross": lb(7_420)}, rig="trailer", trailer="camper"),
            ),
        ),
    ],
)
def test_which_trailer_is_on_or_off(text: str, entries: tuple[Entry, ...], reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts(entries)


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        (
            "generator 120 lb, compressor 85, both in the bed",
            [("generator", 120, "bed"), ("compressor", 85, "bed")],
        ),
        (
            "cooler 60 lb and the toolbox 140 er 145 lb, both in the bed",
            [("cooler", 60, "bed"), ("toolbox", 145, "bed")],
        ),
        (
            "extractor 340 lb, uncapper 95, both over the axles",
            [("extractor", 340, "over axles"), ("uncapper", 95, "over axles")],
        ),
        ("two horses in, 1,050 lb each", [("horses", 2_100, None)]),
    ],
)
def test_a_list_of_cargo(
    text: str, stated: list[tuple[str, float, str | None]], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert [
        (entry.item, entry.value, entry.position)
        for entry in verdict.entries
        if isinstance(entry, Cargo)
    ] == [(item, lb(value), position) for item, value, position in stated]


def test_what_is_on_a_trailer_is_not_hitched(reads: Reader) -> None:
    verdict = reads("the anvil is on the flatdeck now, 260 lb, ahead of the axle", on_the_road())
    assert isinstance(verdict, Facts)
    assert [type(entry) for entry in verdict.entries] == [Cargo]


def test_places_named_in_a_row_and_then_their_loads(reads: Reader) -> None:
    both = Weighing(loads={"trailer": lb(9_520), "gross": lb(20_340)}, rig="hitched")
    text = "just the trailer's axles and the total before they waved me off, 9,520 and 20,340"
    assert reads(text, on_the_road()) == Facts((both,))


@pytest.mark.parametrize(
    "text",
    [
        # weather by the day
        "gonna be 94 fri and 99 saturday, wind 15 to 25, lets go sunday",
        "frost tonight, low of 28, wind 20",
        "winds 20 to 30 tonight cover the tomatoes",
        "sunday high of 88, wind 15 mph, good for spraying",
        # prices of parts and repairs
        "dryer drum bearing is toast, 104.20 for the part",
        "washer bearing went, 88 for a new one",
        "lawnmower hub cracked, 64.50 plus shipping",
        "fridge coolant leak, 180 for the guy to come",
        # things that are counted, and of another trade
        "pulled 33 frames today, moisture read 17.4",
        "picked 41 frames clean, wax weighed 12 lb",
        "checked 14 frames, no mites",
        "lost 2 frames in the wind",
        # sums of money that grow
        "the raffle jackpot's at 20,340, we bought 5",
        "school fund hit 48,300, we put in 25",
        # other people's rigs, and what they want for them
        "his flatdeck weighs 2,180 empty and he wants 4,500 for it, should we?",
        "the guy wants 6,500 for a gooseneck that weighs 5,200, yes or no?",
        # trailers that tow nothing
        "the trailer for that movie is off the charts",
        "camper's on craigslist for 8,000",
        "three turkeys in, 22 lb each",
    ],
)
def test_what_is_no_matter_of_the_rig(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def psi(value: float, position: str) -> Observation:
    return Observation(subject="tyre", value=Quantity(value, "psi"), position=position)


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        ("filled both tanks, 19 gal front and 18 rear", Fill(volume=gal(37), full=True)),
        (
            "filled both tanks, 19 gal front, 18 rear, odo 48,211",
            Fill(volume=gal(37), odometer=Quantity(48_211, "mi"), full=True),
        ),
        ("filled both tanks, 20.1 gal main, 12 gal aux", Fill(volume=gal(32.1), full=True)),
    ],
)
def test_what_went_into_each_tank_is_one_fill(text: str, entry: Fill, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((entry,))


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "tire psi all 80 on the trailer, 65 front 75 rear on the truck",
            (psi(80, "trailer"), psi(65, "front"), psi(75, "rear")),
        ),
        (
            "tires 65 front and 70 rear on the truck, 80 on the trailer",
            (psi(65, "front"), psi(70, "rear"), psi(80, "trailer")),
        ),
    ],
)
def test_the_vehicle_behind_its_figures_has_the_tyres(
    text: str, entries: tuple[Entry, ...], reads: Reader
) -> None:
    assert reads(text, on_the_road()) == Facts(entries)


@pytest.mark.parametrize("text", ["bin it please", "take that last one back would you"])
def test_the_last_entry_is_taken_back(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((Correction(action="undo"),))


def test_a_state_may_stand_before_its_part(reads: Reader) -> None:
    assert reads("fixed, ground wire", on_the_road()) == Facts(
        (Check(item="ground wire", state="done"),)
    )


@pytest.mark.parametrize(
    "text",
    [
        "that was 31.8 gal the first time",
        "it was 120.5 litres last time",
        "camper's on and it's hilarious",
        "her camper weighs 5,200, think we could pull it?",
        "Wendell's odometer rolled over 300,000 last week",
        "if we ever buy a bigger one it'd be 9,900 gvwr, thoughts?",
        "delete that, wrong chat",
        "hitched our wagon to a lost cause",
        "Orla snores at 2,300 rpm",
        "what does your camper weigh, Tobias?",
        "omg 48,300 people there",
        "put 15 kg from the front locker over the axle",
    ],
)
def test_what_is_no_new_fact_of_the_rig(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


def test_the_weather_says_nothing_against_a_trailer_that_is_on(reads: Reader) -> None:
    assert reads("camper's on and it's raining", on_the_road()) == Facts(
        (Hitch(action="hitched", trailer="camper"),)
    )


@pytest.mark.parametrize(
    ("text", "item", "value"),
    [
        ("32 hives on, about 110 lb a hive", "hives", 3_520),
        ("two horses in, 1,100 lb per horse", "horses", 2_200),
    ],
)
def test_so_much_for_each_of_what_was_counted(
    text: str, item: str, value: float, reads: Reader
) -> None:
    assert reads(text, on_the_road()) == Facts((Cargo(item=item, value=lb(value)),))


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("safety chains on, heading out 48,218", "safety chains"),
        ("coupler latched, pulling out at 48,218", "coupler"),
        ("hitch pinned. 48,218 leaving", "hitch"),
    ],
)
def test_a_part_that_was_looked_at_is_not_rated(text: str, item: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts(
        (
            Check(item=item, state="done"),
            Odometer(odometer=Quantity(48_218, "mi"), event="depart"),
        )
    )


@pytest.mark.parametrize("text", ["undo, wrong chat", "ignore that last one, wrong chat lol, undo"])
def test_undo_is_said_to_the_log_whatever_else_went_astray(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((Correction(action="undo"),))


def test_a_decimal_comma_may_stand_before_a_comma(reads: Reader) -> None:
    assert reads("47,3 L, €78,90, full", on_the_road()) == Facts(
        (Fill(volume=Quantity(47.3, "L"), cost=Quantity(78.9, "EUR"), full=True),)
    )


@pytest.mark.parametrize(
    ("text", "position"),
    [
        ("what happens if I move the generator to the bed", "bed"),
        ("what if we slid the extractor to the nose", "nose"),
    ],
)
def test_what_if_something_moved_that_nobody_weighed(
    text: str, position: str, reads: Reader
) -> None:
    asked = reads(text, on_the_road())
    assert isinstance(asked, Question)
    assert (asked.topic, asked.position) == ("whatif", position)


def test_where_a_thing_is_left_is_no_part_of_its_name(reads: Reader) -> None:
    asked = reads("what if we leave the 700 lb quad home", on_the_road())
    assert isinstance(asked, Question)
    assert (asked.topic, asked.item) == ("whatif", "quad")


@pytest.mark.parametrize("both", ["truck and trailer together", "pickup plus trailer combined"])
def test_both_vehicles_with_one_figure_are_the_gross(both: str, reads: Reader) -> None:
    assert reads(f"scale says 18,480 for {both}", on_the_road()) == Facts(
        (Weighing(loads={"gross": lb(18_480)}, rig="hitched"),)
    )


def test_hitched_over_the_loads_of_a_trailer_that_is_on_is_how_it_stood(reads: Reader) -> None:
    text = "wheel pads, hitched. steer 5210 drive 6120 trailer 9020"
    loads = {"steer": lb(5_210), "drive": lb(6_120), "trailer": lb(9_020)}
    weighed = Weighing(loads=loads, rig="hitched")
    assert reads(text, on_the_road(hitched=True)) == Facts((weighed,))
    assert reads(text, on_the_road(hitched=False)) == Facts((Hitch(action="hitched"), weighed))


def test_what_is_counted_behind_a_k_is_no_part_of_the_load(reads: Reader) -> None:
    loads = {"steer": lb(5_300), "drive": lb(6_200), "trailer": lb(9_100)}
    assert reads("steer 5300 drive 6200 trailer 9.1k 2 of us in the cab", on_the_road()) == Facts(
        (Weighing(loads=loads, rig="hitched", aboard=2),)
    )


def test_a_wind_is_told_in_a_wide_range(reads: Reader) -> None:
    assert reads("crosswind 15 to 35 mph", on_the_road()) == Facts(
        (Observation(subject="wind", value=Quantity(35, "mph", 15)),)
    )


@pytest.mark.parametrize("heading", ["aboard", "on board", "cargo"])
def test_a_manifest_has_a_heading(heading: str, reads: Reader) -> None:
    assert reads(f"{heading}: hay 1,150 lb, feed 400 lb", on_the_road()) == Facts(
        (Cargo(item="hay", value=lb(1_150)), Cargo(item="feed", value=lb(400)))
    )


def test_the_k_behind_thousands_is_kilometres(reads: Reader) -> None:
    chat = on_the_road(units="metric", odometer=Quantity(48_010, "km"))
    assert reads("forty-eight thousand two hundred and six k on the odometer", chat) == Facts(
        (Odometer(odometer=Quantity(48_206, "km")),)
    )


@pytest.mark.parametrize(
    "text",
    [
        "tongue was 1,140 not 1,410, the paper had a big fold in it",
        "I was chatting with Lorraine when I wrote that, the tongue was 1,140 and not 1,410",
    ],
)
def test_a_correction_may_have_its_reason_beside_it(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts(
        (Correction(action="amend", field="tongue", value=lb(1_140), was=lb(1_410)),)
    )


def test_a_rent_that_is_put_right_is_none_of_the_logs(reads: Reader) -> None:
    assert reads("rent is 1,140 not 1,410, the landlord is a crook", on_the_road()) == Silent()


@pytest.mark.parametrize(
    ("text", "event", "place"),
    [
        ("home at last, odometer 48,222, and I'm off to bed", "arrive", "home"),
        ("we're home, odometer 48,222, off to bed", "arrive", "home"),
        ("48,222 and we just left", "depart", None),
        ("dad says write 48,222 n we just left", "depart", None),
    ],
)
def test_where_nobody_drives_to_is_no_departure(
    text: str, event: Literal["arrive", "depart"] | None, place: str | None, reads: Reader
) -> None:
    assert reads(text, on_the_road()) == Facts(
        (Odometer(odometer=Quantity(48_222, "mi"), event=event, place=place),)
    )


def test_what_stood_on_the_weighbridge_by_itself(reads: Reader) -> None:
    assert reads("Whole camper on the weighbridge by itself, 5,280", on_the_road()) == Facts(
        (Weighing(loads={"gross": lb(5_280)}, rig="trailer", trailer="camper"),)
    )


def test_another_s_lorry_is_not_ours(reads: Reader) -> None:
    text = "Camilla's lorry is plated at 7.5 tonnes and she still can't reverse it"
    assert reads(text, on_the_road()) == Silent()


def test_the_truck_unhitched_is_the_truck_where_no_trailer_is_named(reads: Reader) -> None:
    wheels = {"steer_left": lb(2_610), "steer_right": lb(2_570),
              "drive_left": lb(3_190), "drive_right": lb(3_240)}  # fmt: skip
    text = "truck unhitched: LF 2610 RF 2570 LR 3190 RR 3240"
    assert reads(text, on_the_road()) == Facts((Weighing(loads=wheels, rig="solo"),))
    assert reads("flatdeck on the scale, truck unhitched: 4,200", on_the_road()) == Facts(
        (Weighing(loads={"gross": lb(4_200)}, rig="trailer", trailer="flatdeck"),)
    )


@pytest.mark.parametrize(
    "text",
    [
        "lol my step counter says 9,640, do I get a gross weight too",
        "pedometer: 12,300, total",
        "my watch says 9,840 steps, gross",
        "heart rate 140, gross",
        "11,140, is that gross?",
    ],
)
def test_what_a_body_did_is_no_load(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "planning to set off Friday with the flatdeck, maybe 280 miles first day",
        "plan is to do 280 miles the first day with the flatdeck",
        "our plan is 280 miles with the flatdeck",
        "planning 280 miles with the flatdeck",
    ],
)
def test_a_plan_that_is_told_asks_nothing(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "plan 280 miles with the flatdeck",
        "planning 280 miles with the flatdeck, how much fuel",
        "can you plan 280 miles with the flatdeck",
    ],
)
def test_a_plan_that_is_wanted_does(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question), verdict
    assert (verdict.topic, verdict.trailer) == ("plan", "flatdeck")


@pytest.mark.parametrize("text", ["hooked up", "ok hooked up!", "all hooked up and ready"])
def test_where_nothing_is_hitched_hooked_up_says_it_is(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road(hitched=False))
    assert verdict == Facts((Hitch(action="hitched"),))


@pytest.mark.parametrize(
    "text", ["hooked up lol", "they hooked up", "hooked up the wifi", "hooked up with a friend"]
)
def test_people_and_things_are_hooked_up_too(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road(hitched=False)), Silent)


@pytest.mark.parametrize(
    ("text", "subject"),
    [("coolent 204", "coolant"), ("collant 204", "coolant"), ("transmisson 204", "transmission")],
)
def test_a_gauge_is_known_by_a_slip_of_its_name(text: str, subject: Any, reads: Reader) -> None:
    gauged = Observation(subject=subject, value=Quantity(204, "degF"))
    assert reads(text, on_the_road()) == Facts((gauged,))


@pytest.mark.parametrize("text", ["coolest 90", "granny 90", "coolness 10"])
def test_other_words_are_no_slips_of_it(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "items", "state"),
    [
        ("found a crack in the sidewall, left trailer tire", ["left trailer tire"], "fault"),
        ("steadies down, awning out", ["steadies", "awning"], "done"),
        ("ramps down", ["ramps"], "done"),
    ],
)
def test_parts_let_down_and_cracked(text: str, items: list[str], state: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    checks = [each for each in verdict.entries if isinstance(each, Check)]
    assert [each.item for each in checks] == items
    assert {each.state for each in checks} == {state}


@pytest.mark.parametrize(
    "text",
    ["found a crack in the plaster, left bedroom wall", "feeling down", "load down by the river"],
)
def test_walls_are_cracked_and_people_down_too(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    "text",
    [
        "made it home, everyone's asleep, odometer 48,310",
        "home, unpacked, fed the bees, odo 48,310",
    ],
)
def test_home_is_reached_whatever_is_told_between(text: str, reads: Reader) -> None:
    reading = Odometer(odometer=Quantity(48_310, "mi"), event="arrive", place="home")
    assert reads(text, on_the_road()) == Facts((reading,))


def test_dawn_is_no_place(reads: Reader) -> None:
    reading = Odometer(odometer=Quantity(48_060, "mi"), event="depart", place="home")
    assert reads("left home at dawn, quiet roads, odo 48,060", on_the_road()) == Facts((reading,))


@pytest.mark.parametrize(
    ("text", "subject"),
    [
        ("hub on the trailer left rear is spicy, 164f", "hub"),
        ("trans got a bit warm on the hill, 164F", "transmission"),
    ],
)
def test_how_hot_it_was_behind_more_words(text: str, subject: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Observation)
    assert (entry.subject, entry.value) == (subject, Quantity(164, "degF"))


@pytest.mark.parametrize(
    "text",
    ["slides are out and the kettle is on", "slide out, chairs out", "both slides out, feet up"],
)
def test_slides_that_are_out_are_ready_for_no_road(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


@pytest.mark.parametrize(
    ("text", "subject", "low", "high", "unit"),
    [
        ("EGT 1,080 to 1,190", "exhaust", 1080, 1190, "degF"),
        ("egt was 980-1,140 all the way up", "exhaust", 980, 1140, "degF"),
        ("exhaust temp 1,020 to 1,110 on the climb", "exhaust", 1020, 1110, "degF"),
        ("1,900 to 2,150 rpm up the hill, trans 201", "engine_speed", 1900, 2150, "rpm"),
        ("trans 198 to 206 on the climb", "transmission", 198, 206, "degF"),
    ],
)
def test_a_gauge_that_shows_thousands_has_a_range_too(
    text: str, subject: str, low: float, high: float, unit: str, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts), verdict
    assert verdict.entries[0] == Observation(subject=subject, value=Quantity(high, unit, low))


@pytest.mark.parametrize(
    "text",
    [
        "She weighs 9,400 and cost 14000",
        "It weighs 1100 and costs 50000 to make!",
        "More than a few ants in there!",
        "It was a man in full.",
        "the cat acts like it owns the inns",
    ],
)
def test_what_a_thing_cost_and_words_that_look_short_for_ours_are_none(
    text: str, reads: Reader
) -> None:
    assert reads(text, on_the_road()) == Silent()
