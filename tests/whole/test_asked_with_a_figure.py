"""Questions that hold a figure against the rig, and what is asked of the road, by chat."""

from __future__ import annotations

import pytest

from tests.whole.chatting import replies

RIG = [
    "truck Juniper gvwr 11500 gcwr 27000 front axle 5600 rear axle 7000 tank 34 gal diesel",
    "trailer flatdeck gvwr 12000 axles 2x6000",
    "hitch rating 14000, hitch tongue rating 1400",
    "ball 12000 lb",
    "solo: steer 5280 drive 4620",
    "hitched the flatdeck",
    "4960 6100 8480 19540",
    "48211, 31.4 gal at 3.899, full",
    "48502, 21.9 gal, full",
    "48790, 24.4 gal at 3.959, full",
]
ASKED = [
    "is 11% tongue ok",
    "is 18% tongue ok",
    "is a 1,240 lb tongue too much",
    "is our tongue over 1,000 lb",
    "is 5,640 on the steer axle over",
    "are we under 11,500",
    "are we under 20,000",
    "could we pull a 13,000 lb trailer",
    "would 500 more on the deck put us over",
    "how much lighter would we be without 60 gallons of water",
    "how heavy is the camper",
    "best mpg weve had",
    "how far since the last fill",
    "what did i pay per gallon last time",
    "600 lb of sugar in the bed",
    "what does juniper weigh with nothing on",
    "how much does the truck weigh without the flatdeck",
    "what was the front axle before we hooked up",
    "whats the flatdeck weigh empty",
    "what did the flatdeck weigh in june 2020",
    "what do we weigh today",
    "can we get to Wells on a quarter tank, its 96 miles",
    "can we do 96 miles on a full tank",
    "can i throw 300 lb of sugar in the bed",
    "what if the sugar goes on the flatdeck",
    "what if we load 12 hives at 80 lb each",
    "what if i take the sugar off",
    "what would dumping 40 gallons of grey do for the tongue",
    "what if we put a 200 lb cooler in front of the axle",
    "would the flatdeck be legal at 12,500",
    "what if the drive axle was 7,150",
    "how many gallons to Wells and back, 96 miles each way",
    "what tongue weight do we need for 9,640",
    "we've gone 200 miles on this tank how much farther",
    "which side is heavier",
    "what does the rig weigh without the camper",
    "how heavy were we last summer",
    "6 bags of 50 lb feed in the bed",
    "49010",
    "how many miles since the last fill",
    "how far have we come since we left",
    "steer 5180 drive 7120 trailer 8980, are we over?",
    "solo steer left 2480 right 2600 drive left 2310 right 2310",
    "are we heavier on one side",
]


@pytest.fixture(scope="module")
def said(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    texts = ["trailer camper gvwr 9500 axles 2x5000", *RIG, *ASKED]
    told = replies(texts, tmp_path_factory.mktemp("figure") / "log.db")
    return {text: "\n".join(lines) for text, lines in zip(texts, told, strict=True)}


def test_a_share_is_held_against_what_is_customary(said: dict[str, str]) -> None:
    """A trailer that is pulled rests 10 to 15 % on the hitch: common practice, no source."""
    assert "11 % is customary. Customary is 10-15 %." in said["is 11% tongue ok"]
    assert "18 % is more than is customary." in said["is 18% tongue ok"]


def test_a_load_that_is_told_is_held_against_its_limit(said: dict[str, str]) -> None:
    """1,400 less 1,240 lb is 160; 5,640 is 40 over 5,600; 13,000 is 1,000 over 12,000."""
    tongue = said["is a 1,240 lb tongue too much"]
    assert tongue.startswith("1,240 lb against the hitch tongue: 160 lb left of 1,400 lb.")
    steer = said["is 5,640 on the steer axle over"]
    assert steer.startswith("5,640 lb against the steer axle: 40 lb over of 5,600 lb.")
    pulled = said["could we pull a 13,000 lb trailer"]
    assert pulled.startswith("13,000 lb against the ball: 1,000 lb over of 12,000 lb.")
    assert "Not given: truck's tow rating." in pulled


def test_a_load_is_told_beside_a_figure_of_its_size(said: dict[str, str]) -> None:
    """4,960 and 6,100 less 5,280 and 4,620 are 1,160 on the tongue; the gross is 19,540."""
    tongue = said["is our tongue over 1,000 lb"]
    assert tongue.startswith("Tongue 1,160 lb, 160 lb more than 1,000 lb.")
    assert said["are we under 20,000"].startswith("Gross 19,540 lb, 460 lb less than 20,000 lb.")


def test_a_figure_that_is_a_limit_asks_what_is_left_of_it(said: dict[str, str]) -> None:
    """The truck at 11,060 has 440 left of its 11,500: the gross of 19,540 is no matter of it."""
    assert said["are we under 11,500"].startswith("Truck GVWR: 440 lb left of 11,500 lb")


def test_a_load_on_the_deck_is_on_the_trailer(said: dict[str, str]) -> None:
    told = said["would 500 more on the deck put us over"]
    assert told.startswith("500 lb more on the trailer")


def test_what_is_left_behind_makes_lighter(said: dict[str, str]) -> None:
    """60 gal of water at 8.34 lb each, as fresh water weighs, are 501 lb."""
    told = said["how much lighter would we be without 60 gallons of water"]
    assert told.startswith("501 lb less on the trailer")


def test_a_trailer_that_was_never_weighed_is_named(said: dict[str, str]) -> None:
    assert said["how heavy is the camper"].startswith("No weighing with the camper yet.")


def test_the_best_tank_and_the_worst_are_told(said: dict[str, str]) -> None:
    """291 mi on 21.9 gal are 13.3 mpg, 288 on 24.4 are 11.8."""
    told = said["best mpg weve had"]
    assert told.startswith("Best tank: 13.3 ")
    assert "Worst tank" in told
    assert "11.8 " in told
    assert "Too close" not in told


def test_the_road_since_the_fill_needs_a_reading(said: dict[str, str]) -> None:
    """49,010 less 48,790 is 220 miles; less 48,211, where the trailer was on, 799."""
    assert said["how far since the last fill"].startswith("No odometer reading since the fill")
    assert said["how many miles since the last fill"].startswith("220 mi since the fill on")
    assert "799 mi" in said["how far have we come since we left"]


def test_the_last_price_is_that_of_the_last_fill(said: dict[str, str]) -> None:
    assert "$3.959/gal" in said["what did i pay per gallon last time"]


def test_loads_told_before_the_question_are_weighed(said: dict[str, str]) -> None:
    """5,180 and 7,120 are 12,300 lb of truck, 800 over its GVWR; the drive axle is 120 over."""
    told = said["steer 5180 drive 7120 trailer 8980, are we over?"]
    assert told.startswith("Over: ")
    assert "120 lb over  of 7,000 lb" in told


def test_the_truck_alone_is_the_pass_without_a_trailer(said: dict[str, str]) -> None:
    """5,280 and 4,620 are 9,900 lb; as it tows it weighs 11,060."""
    assert said["what does juniper weigh with nothing on"].startswith("Juniper 9,900 lb, without")
    bare = said["how much does the truck weigh without the flatdeck"]
    assert bare.startswith("Truck 9,900 lb, without a trailer.")
    before = said["what was the front axle before we hooked up"]
    assert before.startswith("Steer 5,280 lb, without a trailer.")


def test_an_empty_trailer_is_no_loaded_one(said: dict[str, str]) -> None:
    told = said["whats the flatdeck weigh empty"]
    assert told.startswith("What the trailer weighs empty wasn't given.")


def test_days_that_are_over_are_asked_about_themselves(said: dict[str, str]) -> None:
    assert said["what did the flatdeck weigh in june 2020"].startswith("No weighing from 1 Jun")
    assert "19,540 lb" in said["what do we weigh today"]


def test_the_fuel_that_is_told_is_what_is_left(said: dict[str, str]) -> None:
    """A quarter of 34 gal is 8.5, some 106 mi at 12.5 mpg; 3.4 gal of that are the reserve."""
    told = said["can we get to Wells on a quarter tank, its 96 miles"]
    assert told.startswith("No: 96 mi would run into the reserve")
    assert said["can we do 96 miles on a full tank"].startswith("Yes: 96 mi")


def test_more_of_a_load_is_put_beside_it_and_the_load_itself_is_moved(
    said: dict[str, str],
) -> None:
    more = said["can i throw 300 lb of sugar in the bed"]
    assert more.startswith("300 lb more in the bed")
    assert "Sugar moved" not in more


def test_so_many_that_weigh_so_much_each_are_a_load_together(said: dict[str, str]) -> None:
    """12 hives of 80 lb are 960, 6 bags of 50 lb are 300."""
    assert said["what if we load 12 hives at 80 lb each"].startswith("960 lb more")
    assert "300 lb" in said["6 bags of 50 lb feed in the bed"]


def test_a_load_since_the_weighing_is_in_no_figure_that_it_could_be_taken_off(
    said: dict[str, str],
) -> None:
    told = said["what if i take the sugar off"]
    assert told.startswith("Sugar was loaded after the weighing, so this is without it. Close:")
    moved = said["what if the sugar goes on the flatdeck"]
    assert moved.startswith("600 lb more on the trailer")


def test_what_the_tongue_feels_is_not_put_there(said: dict[str, str]) -> None:
    """40 gal of water are 334 lb."""
    told = said["what would dumping 40 gallons of grey do for the tongue"]
    assert told.startswith("334 lb less on the trailer")


def test_a_place_beside_an_axle_wants_its_distance(said: dict[str, str]) -> None:
    told = said["what if we put a 200 lb cooler in front of the axle"]
    assert told.startswith("How far from the trailer axle is that?")


def test_a_weight_that_a_trailer_would_have_is_no_load_on_it(said: dict[str, str]) -> None:
    told = said["would the flatdeck be legal at 12,500"]
    assert told.startswith("12,500 lb against the trailer GVWR: 500 lb over of 12,000 lb.")


def test_sides_are_told_where_wheels_were_weighed(said: dict[str, str]) -> None:
    """2,480 and 2,310 are 4,790 lb on the left; 2,600 and 2,310 are 4,910 on the right."""
    assert said["which side is heavier"].startswith("No side was weighed by itself.")
    told = said["are we heavier on one side"]
    assert told.startswith("Left 4,790 lb, right 4,910 lb. 120 lb more on the right.")


def test_the_rig_without_its_trailer_is_the_truck(said: dict[str, str]) -> None:
    assert said["what does the rig weigh without the camper"].startswith("Truck 9,900 lb, without")


def test_a_season_that_is_over_has_its_own_weighings(said: dict[str, str]) -> None:
    assert said["how heavy were we last summer"].startswith("No weighing from ")


def test_a_load_that_is_supposed_is_judged_and_not_put_on(said: dict[str, str]) -> None:
    told = said["what if the drive axle was 7,150"]
    assert told.startswith("7,150 lb against the drive axle: 150 lb over of 7,000 lb.")


def test_what_is_customary_of_a_trailers_weight_is_told(said: dict[str, str]) -> None:
    """10 and 15 % of 9,640 lb are 964 and 1,446."""
    assert (
        "Of 9,640 lb that is 964 lb to 1,446 lb." in said["what tongue weight do we need for 9,640"]
    )


def test_miles_that_lie_behind_are_no_longer_in_the_tank(said: dict[str, str]) -> None:
    """34 gal less 200 mi at some 12.5 mpg are 18; all of them go 425 mi, a tenth kept 180 more."""
    told = said["we've gone 200 miles on this tank how much farther"]
    assert told.startswith("About 180 mi to the reserve")
    assert "of 34 gal" in told


def test_a_way_that_is_told_each_way_is_driven_twice(said: dict[str, str]) -> None:
    told = said["how many gallons to Wells and back, 96 miles each way"]
    assert told.startswith("192 mi towing the flatdeck")
