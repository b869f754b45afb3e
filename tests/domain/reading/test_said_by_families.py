"""Faults, corrections and questions as families of several lands text them."""

from __future__ import annotations

import pytest

from domain.entries import Check, Correction, Observation
from domain.verdicts import Ask, Facts, Question, Silent
from tests.domain.reading.chats import Reader, on_the_road
from tests.domain.reading.test_told_at_the_scale import told


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("fuel gauge don't work no more", "fuel gauge"),
        ("gas gauge is broke", "gas gauge"),
        ("temp gauge quit working", "temp gauge"),
        ("clutch on Juniper is after starting to slip in third", "clutch"),
        ("clutch started slipping going up the grade", "clutch"),
        ("amber beacon not working", "amber beacon"),
        ("left trailer tail lite is out agian", "left trailer tail light"),
        ("brake contrller keeps cutting out on me", "brake controller"),
    ],
)
def test_what_gave_out(text: str, item: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (check,) = verdict.entries
    assert isinstance(check, Check)
    assert (check.item, check.state) == (item, "fault")


@pytest.mark.parametrize(
    "text",
    [
        "fuel gauge is low",
        "fuel gauge says half",
        "that shot was clutch",
        "he came in clutch with the win",
        "the beacon on the hill is out",
        "the clutch is good",
        "the last 1 hour was slow",
    ],
)
def test_what_sounds_like_it_is_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_lamps_that_warn_others_are_looked_after(reads: Reader) -> None:
    assert told(reads, "lug nuts torqued, chains checked, strobes good") == [
        "check item=lug nuts state=done",
        "check item=chains state=done",
        "check item=strobes state=done",
    ]


@pytest.mark.parametrize(
    "text",
    [
        "nvm that last 1 delete it",
        "delete that last 1",
        "undo the last 1",
        "delete what i just sent i sent it twice",
        "delete that i sent it twice",
    ],
)
def test_the_last_one_goes(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((Correction(action="undo"),))


@pytest.mark.parametrize("last", ["that last weight", "the last weighing", "the last one"])
def test_what_was_meant_on_the_last_one(last: str, reads: Reader) -> None:
    meant = Correction(action="amend", field="gross", was="trailer")
    assert reads(f"I meant gross not trailer on {last}", on_the_road()) == Facts((meant,))
    assert told(reads, "gross 18,940, trailer on") == ["weighing gross=18940 rig=hitched"]


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("could I add 12 bales at 55 lbs each in the bed?", "bales"),
        ("could I add 12 bales in the bed?", "bales"),
        ("can we put 8 more hives on at 70 lb each over the axle", "hives"),
        ("could I add 12 bags of feed at 55 lbs each in the bed?", "feed"),
        ("what if we load 14 hives at 90 lb each on the flatdeck", "hives"),
        ("what happens if we hang the 4 bikes, 130 lbs total, on the back bumper", "bikes"),
        ("if I put another 6 ewes on at the back, what does that do to the nose weight?", "ewes"),
        ("what if we put 300 lb in the bed", None),
    ],
)
def test_so_many_of_a_thing_are_that_thing(text: str, item: str | None, reads: Reader) -> None:
    question = reads(text, on_the_road())
    assert isinstance(question, Question)
    assert (question.topic, question.item) == ("whatif", item)
    assert question.field in (None, "tongue")


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "The gauge read 48 pounds on the left front tire.",
            ["observation position=left front subject=tyre value=48"],
        ),
        ("48 lbs on the left rear tyre", ["observation position=left rear subject=tyre value=48"]),
        (
            "tires L 50 R 49",
            [
                "observation position=left subject=tyre value=50",
                "observation position=right subject=tyre value=49",
            ],
        ),
        ("truck only 4290 fr 3870 rr", ["weighing drive=3870 rig=solo steer=4290"]),
        ("fr 4290 rr 3870, truck only", ["weighing drive=3870 rig=solo steer=4290"]),
        (
            "truck only lf 2100 fr 2190 lr 1900 rr 1870",
            ["weighing drive_left=1900 drive_right=1870 rig=solo steer_left=2100 steer_right=2190"],
        ),
        (
            "L hub 131, R hub 177",
            [
                "observation position=left subject=hub value=131",
                "observation position=right subject=hub value=177",
            ],
        ),
        ("got to the boat ramp 48,388", ["odometer event=arrive odometer=48388 place=boat ramp"]),
        ("here ya go 4700 6110 7040", ["weighing drive=6110 rig=hitched steer=4700 trailer=7040"]),
        (
            "flatdeck hubs L 131 R 177",
            [
                "observation position=trailer left subject=hub trailer=flatdeck value=131",
                "observation position=trailer right subject=hub trailer=flatdeck value=177",
            ],
        ),
        (
            "mixed em up, i meant trailer not drive",
            ["correction action=amend field=trailer was=drive"],
        ),
        (
            "straps chked and lights chkd",
            ["check item=straps state=done", "check item=lights state=done"],
        ),
        ("wicked windy, 35 out of the nw", ["observation subject=wind value=35"]),
        (
            "coolant got to 228 goin up the pass and kyle was like slow down bro",
            ["observation subject=coolant value=228"],
        ),
        (
            "trans got to 216 and my brother was like pull over",
            ["observation subject=transmission value=216"],
        ),
        ("Juniper turned 48,500 on the way to town", ["odometer odometer=48500 truck=Juniper"]),
        ("odometer just turned 48,500", ["odometer odometer=48500"]),
        (
            "Harold has just finished unhitching the camper and is pooped, so we will eat in.",
            ["hitch action=unhitched trailer=camper"],
        ),
        (
            "Harold finished unhitching the camper, so we eat in",
            ["hitch action=unhitched trailer=camper"],
        ),
        (
            "weighed the flatdeck on Friday at the boatyard, on its own, 2,180",
            ["weighing at=2026-07-10 gross=2180 place=boatyard rig=trailer trailer=flatdeck"],
        ),
        (
            "fuel was 161 dollars at tamarack corner I didn't quite fill it",
            ["fill cost=161 full=False place=tamarack corner"],
        ),
        ("fuel came to $161 at Tamarack Corner", ["fill cost=161 place=Tamarack Corner"]),
        ("filled er 22.1 gal", ["fill full=True volume=22.1"]),
        (
            "topped her off 32.7 of go juice, 48,402, 3.419",
            ["fill full=True odometer=48402 unit_price=3.419 volume=32.7"],
        ),
        (
            "took the flatdeck over the scale in Pell on its own, 3,440",
            ["weighing gross=3440 place=Pell rig=trailer trailer=flatdeck"],
        ),
        # A guess of the gauge itself is one, and so much air was put in.
        ("coolant was like 228", ["silent"]),
        ("put 48 pounds in the left front tire", ["silent"]),
        ("48 pounds of hay on the tire rack", ["silent"]),
        ("Harold has unhitched his own trailer", ["silent"]),
        ("Harold turned 50 on the way to town", ["silent"]),
        ("Juniper turned 12 today", ["silent"]),
        ("fuel for the mower was $161 at the mall", ["silent"]),
        ("oil temp 1780 for the fish fry in the yard", ["silent"]),
        ("weighed the flatdeck and the camper on the scale, on their own, 2,180", ["ask"]),
    ],
)
def test_what_they_tell(text: str, entries: list[str], reads: Reader) -> None:
    assert told(reads, text) == entries


def test_a_gauge_with_a_digit_too_many_is_asked_about_whatever_it_climbs(reads: Reader) -> None:
    ask = reads("TRANS TEMP 1780 CLIMBING OUT OF THE BASIN", on_the_road())
    assert isinstance(ask, Ask)
    read = ask.choices[0].entries[0]
    assert isinstance(read, Observation)
    assert read.value.value == 178


@pytest.mark.parametrize(
    ("text", "rating", "field"),
    [
        ("WHAT IS MY COMBINED WEIGHT MARGIN", "gcwr", None),
        ("margin on train weight", "gcwr", None),
        ("gross margin?", None, "gross"),
    ],
)
def test_what_both_may_weigh_together(
    text: str, rating: str | None, field: str | None, reads: Reader
) -> None:
    question = reads(text, on_the_road())
    assert isinstance(question, Question)
    assert (question.topic, question.rating, question.field) == ("margin", rating, field)


def test_what_a_trailer_is_plated_at_is_asked(reads: Reader) -> None:
    question = reads("What's the flatdeck plated at?", on_the_road())
    assert isinstance(question, Question)
    assert (question.topic, question.trailer) == ("ratings", "flatdeck")


@pytest.mark.parametrize(
    ("text", "entries"),
    [
        (
            "Juniper's front wheels weigh 3,120, his back wheels 3,480",
            ["weighing drive=3480 steer=3120 truck=Juniper"],
        ),
        (
            "Juniper was thirsty again! He took 27.6 gallons for $118.40",
            ["fill cost=118.4 truck=Juniper volume=27.6"],
        ),
        ("Juniper is out with Kyle. He took 27.6 gallons", ["silent"]),
        ("my brother got Juniper stuck, his front axle is bent", ["silent"]),
        ("would you please record 30.6 gallons for $119.03", ["fill cost=119.03 volume=30.6"]),
        ("would you please bring 20 gallons of water", ["silent"]),
        (
            "Dear Drawbar, please put down 30.6 gallons for $119.03",
            ["fill cost=119.03 volume=30.6"],
        ),
        (
            "Ted has greased the ball and the safety chains are hooked up",
            ["check item=ball state=done", "check item=safety chains state=done"],
        ),
        ("Ted has the lights", ["silent"]),
    ],
)
def test_who_is_meant_and_what_is_asked_of_the_log(
    text: str, entries: list[str], reads: Reader
) -> None:
    assert told(reads, text) == entries
