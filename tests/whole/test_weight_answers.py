"""What is said about weight: each figure recomputed by other means than the answer's own.

The answers are held against NumPy least squares over all passes at once, against moments
taken by hand, and against subtraction on the ticket.
"""

from __future__ import annotations

import re
from datetime import timedelta

import numpy as np
import pytest

from bot.answers.answer import Answer, Row
from bot.answers.dispatch import kept_answer, question_answer
from bot.answers.loading import whatif_answer
from bot.answers.plain import as_text
from bot.answers.ratings import ratings_answer
from bot.answers.tiedowns import tiedown_answer
from bot.answers.upkeep import tyre_age_answer
from bot.answers.weighed import LINES, LINES_OVER, LONGEST, LONGEST_NEAR, LONGEST_OVER
from bot.answers.weights import (
    changes_told,
    judged_answer,
    margin_answer,
    tongue_answer,
    weighing_answer,
    weight_answer,
)
from domain.entries import Cargo, Rating, Weighing
from domain.log import Preferences
from domain.quantities import Quantity
from domain.verdicts import HEAVIEST, JUDGED, MORE, Question
from tests.domain.day_at_the_scale import least_squares, three_passes_two_fills, tongue_doubt
from tests.domain.scale_house import START, Ticket, flatdeck, juniper, lb, truck_ratings

US = Preferences(units="us", time_zone="America/Boise")
METRIC = Preferences(units="metric", time_zone="Australia/Hobart")


def weighed(ticket: Ticket, preferences: Preferences = US) -> Answer:
    """The answer to the last weighing."""
    last = ticket.log.of(Weighing)[-1]
    return weighing_answer(ticket.log, preferences, START, last)


def figure(answer: Answer, label: str) -> str:
    return next(row.figure for row in answer.rows if row.label == label)


def remark(answer: Answer, label: str) -> str:
    return next(row.remark for row in answer.rows if row.label == label)


def amount(text: str) -> float:
    found = re.search(r"-?[\d,]+(?:\.\d+)?", text)
    assert found is not None
    return float(found.group().replace(",", ""))


def words(answer: Answer) -> str:
    rows = [f"{row.label} {row.figure} {row.remark}" for row in answer.rows]
    return "\n".join([answer.headline, *rows, *answer.notes, *answer.choices])


def test_a_rig_with_all_ratings_three_passes_and_two_fills() -> None:
    answer = weighed(three_passes_two_fills())
    expected = least_squares()
    tongue = figure(answer, "Tongue")
    stated = float(tongue.partition("±")[2])
    assert amount(tongue) == pytest.approx(expected["tongue"], abs=5)
    assert stated == pytest.approx(tongue_doubt(), abs=6)
    of = remark(answer, "Tongue").partition("of")[2]
    assert amount(of) == pytest.approx(expected["trailer"], abs=10)
    share = 100 * expected["tongue"] / expected["trailer"]
    assert amount(remark(answer, "Tongue")) == pytest.approx(share, abs=0.06)
    assert amount(figure(answer, "Gross")) == 5100 + 4480 + 8160
    assert "Passes corrected: fuel 140 lb, people 150 lb." in answer.notes
    assert answer.headline.startswith("Inside every rating given. Tightest: steer axle, 500 lb")
    assert "Not given" not in words(answer)


def test_the_tongue_is_told_with_its_share_its_range_and_its_limit() -> None:
    answer = tongue_answer(three_passes_two_fills().log, US, START, Question(topic="tongue"))
    expected = least_squares()
    assert amount(answer.headline) == pytest.approx(expected["tongue"], abs=5)
    left = 1400 - expected["tongue"]
    assert amount(figure(answer, "Hitch tongue")) == pytest.approx(left, abs=10)
    assert "10-15 %" in words(answer)


def test_without_a_solo_pass_the_tongue_is_not_guessed() -> None:
    ticket = Ticket(*juniper(), *flatdeck()).hitched().weighs(steer=5100, drive=4480, trailer=8020)
    answer = tongue_answer(ticket.log, US, START, Question(topic="tongue"))
    assert answer.headline == "The tongue hasn't been weighed."
    assert "truck alone" in words(answer)
    assert all(row.label != "Tongue" for row in weighed(ticket).rows)


def at_the_limits(by: float) -> Ticket:
    """Every axle and the gross off their limits by so much; all rated at the ticket."""
    ratings = truck_ratings(gvwr=9580, gawr_front=5100, gawr_rear=4480, gcwr=17600)
    return (
        Ticket(*ratings, *flatdeck())
        .hitched()
        .weighs(steer=5100 + by, drive=4480 + by, trailer=8020)
    )


def rated(room: float) -> Ticket:
    """A ticket on which every rating lies so many pounds above its load."""
    ratings = truck_ratings(
        gawr_front=5100 + room, gawr_rear=4480 + room, gvwr=9580 + room, gcwr=17600 + room
    )
    axles = Rating(subject="trailer", rating="gawr", value=lb((8020 + room) / 2), note="2 axles")
    return Ticket(*ratings, axles).hitched().weighs(steer=5100, drive=4480, trailer=8020)


def test_over_by_a_pound_inside_by_a_pound_and_within_the_doubt_are_three_answers() -> None:
    """Three platforms of 20 lb divisions carry the gross: each within its tolerance of 20 lb,
    its repeatability of half that, and its last digit (HB 44 2.20 Table 6, from memory)."""
    platform = (20**2 / 3 + 10**2 / 3 + 10**2 / 3) ** 0.5
    doubt = round(2.2 * platform * 3**0.5, -1)

    over, inside, within = (weighed(rated(room)) for room in (-1, 1, 20))
    assert over.headline == (
        "Over, if barely: drive axle by 1 lb, steer axle by 1 lb and 3 more. "
        "Count it as over. Don't tow it like this."
    )
    assert {row.figure for row in over.rows if "over" in row.figure} == {"1 lb over"}
    assert inside.headline == (f"Too close to call: GCWR, 1 lb left, good only to ±{doubt:.0f} lb.")
    assert within.headline == (
        f"Too close to call: GCWR, 20 lb left, good only to ±{doubt:.0f} lb."
    )
    for answer, room in ((inside, "1 lb left"), (within, "20 lb left")):
        tight = [row for row in answer.rows if "left" in row.figure]
        assert {row.figure for row in tight} == {room}
        assert all(row.remark.endswith("too close to call") for row in tight)
    for answer in (inside, within):
        assert "Inside every rating" not in words(answer)


def test_ratings_that_a_pass_cannot_be_held_to_are_counted_and_named() -> None:
    """Without the truck alone nobody knows the trailer's weight, and a verdict leaves it out."""
    rig = Ticket(*juniper(), *flatdeck()).hitched().weighs(steer=5100, drive=4480, trailer=8020)
    answer = weighed(rig)
    # By hand: trailer GVWR, tow rating, hitch, hitch tongue want the truck alone.
    assert answer.headline.startswith("Inside every rating that could be judged; 4 could not. ")
    assert (
        "A pass of the truck alone would give the tongue weight, and judge trailer GVWR, "
        "tow rating and 2 more." in answer.notes
    )
    asked = margin_answer(rig.log, US, START, Question(topic="margin"))
    assert asked.headline == answer.headline
    assert (
        "A pass of the truck alone would give the tongue weight, and judge trailer GVWR, "
        "tow rating, hitch and hitch tongue." in asked.notes
    )
    alone = weighed(rig.weighs("solo", steer=5000, drive=3500))
    assert alone.headline.startswith("Inside every rating given. ")
    assert "judge" not in words(alone)


def test_a_tongue_weighed_later_is_told_beside_the_axles_and_their_day() -> None:
    rig = Ticket(*juniper(), *flatdeck()).hitched().weighs(steer=5100, drive=4480, trailer=11600)
    rig.later(days=3).weighs(None, tongue=900)
    answer = weighed(rig)
    # By hand: 11,600 on the axles and 900 on the ball are 500 over the trailer's 12,000.
    assert answer.headline.startswith("Over: trailer GVWR by 500 lb.")
    assert figure(answer, "Gross") == "21,180 lb"
    assert "Axles as weighed Sat 11 Jul 8:20 am." in answer.notes
    asked = margin_answer(rig.log, US, START, Question(topic="margin"))
    assert asked.headline == answer.headline
    assert {"Weighed Tue 14 Jul 8:30 am.", "Axles as weighed Sat 11 Jul 8:20 am."} <= {*asked.notes}
    rig.later(days=1).loads("water", 400, "trailer")
    assert any(
        each.startswith("Loaded since")
        for each in margin_answer(rig.log, US, START, Question(topic="margin")).notes
    )
    rig.later(days=3).weighs(None, tongue=950)
    changed = changes_told(rig.log, US, START, Question(topic="changes"))
    assert (changed.headline, figure(changed, "Tongue")) == (
        "Changed since Tue 14 Jul 8:30 am:",
        "+50 lb",
    )


def test_a_tongue_by_itself_names_the_rating_that_it_lacks() -> None:
    trailer = Rating(subject="trailer", trailer="flatdeck", rating="gvwr", value=lb(12000))
    answer = weighed(Ticket(trailer).weighs(None, tongue=450))
    assert answer.headline == "Tongue 450 lb. No rating given can be judged by that alone."
    assert "Not given: hitch's tongue rating." in answer.notes
    stamped = Rating(subject="ball", rating="tongue", value=lb(600))
    rated = weighed(Ticket(trailer, stamped).weighs(None, tongue=450))
    assert "Not given" not in words(rated)


def test_where_nothing_was_weighed_it_is_said_how_to() -> None:
    answer = margin_answer(Ticket(*juniper()).log, US, START, Question(topic="margin"))
    assert answer.headline == "No weighing yet."
    assert "each axle on a plate of its own; then the truck alone" in answer.notes[-1]


def test_reminders_are_no_ratings() -> None:
    told = [
        Rating(subject="oil", rating="every", value=Quantity(5000, "mi")),
        Rating(subject="oil", rating="done_at", value=Quantity(46000, "mi")),
        Rating(subject="walk-round", rating="hive straps", value=1.0),
    ]
    answer = ratings_answer(Ticket(*told).log, US, START, Question(topic="ratings"))
    assert answer.headline == "No ratings given yet."
    both = Ticket(*told, *truck_ratings(gvwr=11500, gcwr=27000)).log
    assert ratings_answer(both, US, START, Question(topic="ratings")).headline == "2 ratings given."


def test_a_truck_by_itself_is_not_told_what_a_trailer_would_want() -> None:
    answer = weighed(Ticket(*juniper(), *flatdeck()).weighs("solo", steer=5000, drive=3500))
    assert answer.headline.startswith("Inside every rating given. ")
    assert "judge" not in words(answer)


def test_ratings_that_were_given_and_cannot_be_judged_are_not_called_missing() -> None:
    trailer = Rating(subject="trailer", trailer="flatdeck", rating="gvwr", value=lb(12000))
    rig = Ticket(trailer).hitched().weighs(steer=5100, drive=4480, trailer=8020)
    assert weighed(rig).headline == "Gross 17,600 lb. No rating given can be judged by that alone."
    assert (
        "A pass of the truck alone would give the tongue weight, and judge trailer GVWR."
        in weighed(rig).notes
    )
    bare = Ticket().hitched().weighs(steer=5100, drive=4480, trailer=8020)
    assert weighed(bare).headline == "Gross 17,600 lb. No rating given to hold it against."


def test_a_margin_that_the_scale_can_tell_is_close_then_clear_or_surely_over() -> None:
    assert weighed(at_the_limits(-100)).headline.startswith("Close: ")
    assert weighed(at_the_limits(-600)).headline.startswith("Inside every rating that could be")
    surely = weighed(at_the_limits(+400))
    assert surely.headline.startswith("Over: drive axle by 400 lb, truck GVWR by 800 lb")
    assert "What usually helps" in words(surely)
    assert "local law" in words(surely)


def test_what_helps_is_never_said_against_the_tongues_share() -> None:
    """A drive axle over with the tongue light: load moved back would make it sway."""
    ticket = Ticket(*juniper(), *flatdeck()).hitched()
    ticket.weighs(steer=4700, drive=7060, trailer=8200)
    ticket.weighs("solo", steer=4800, drive=6380)
    said = words(weighed(ticket))
    assert "it may sway. Move trailer load forward." in said
    assert "move bed load forward" in said
    assert "trailer load back" not in said


def test_a_heavy_truck_with_a_light_tongue_is_not_told_to_lighten_the_tongue() -> None:
    ticket = Ticket(*juniper(), *flatdeck()).hitched()
    ticket.weighs(steer=5190, drive=6740, trailer=8620)
    ticket.weighs("solo", steer=5210, drive=6520)
    said = words(weighed(ticket))
    assert "it may sway. Move trailer load forward." in said
    assert "take load out of the bed" in said
    assert "off the tongue" not in said


@pytest.mark.parametrize(
    ("pounds", "says"),
    [
        (1400, "it may sway. Move trailer load forward."),
        (
            300,
            "it may sway. Move trailer load forward, no further than the tongue's rating allows.",
        ),
        (150, "it may sway."),
    ],
)
def test_a_light_tongue_is_made_heavier_only_as_far_as_its_rating_allows(
    pounds: float, says: str
) -> None:
    """A ball good for 300 lb has no tenth of a trailer of 4,400 lb to give."""
    ball = Rating(subject="ball", rating="tongue", value=lb(pounds))
    ticket = Ticket(ball).hitched().weighs(steer=2800, drive=2830, trailer=4200)
    ticket.weighs("solo", steer=2880, drive=2550)
    answer = weighed(ticket)
    [note] = [each for each in answer.notes if each.startswith("Tongue share")]
    assert note.endswith(says), answer.notes


def test_nothing_is_ever_called_safe() -> None:
    for ticket in (three_passes_two_fills(), at_the_limits(-400), at_the_limits(400)):
        assert "safe" not in words(weighed(ticket)).casefold()


def not_given(answer: Answer) -> list[str]:
    return [note for note in answer.notes if note.startswith("Not given")]


def test_missing_ratings_are_named_once_and_again_only_where_it_matters() -> None:
    """They are at the first weighing; later, a label that 'inside every rating' rests on."""
    labels = truck_ratings(gvwr=11500, gcwr=27000, gawr_rear=7000, gawr_front=5600)
    ticket = Ticket(*labels).hitched().weighs(steer=5000, drive=4480, trailer=8020)
    ticket.later(days=3)
    lacking = ["Not given: trailer GVWR, hitch rating and 6 more."]
    assert not_given(weighed(ticket)) == lacking
    ticket.weighs(steer=5000, drive=4500, trailer=8100)
    assert not_given(weighed(ticket)) == lacking, "the same rig lacks the same ratings"
    ticket.later(days=3).weighs(steer=5300, drive=4500, trailer=8100)
    assert weighed(ticket).headline.startswith("Inside every rating given.")
    ticket.later(days=3).weighs(steer=5560, drive=4500, trailer=8100)
    assert weighed(ticket).headline.startswith("Close: ")
    assert not_given(weighed(ticket)) == []
    asked = margin_answer(ticket.log, US, START, Question(topic="margin"))
    assert len(not_given(asked)) == 1
    assert "hitch's tongue rating" in not_given(asked)[0]
    assert "truck tyres" in not_given(asked)[0]


def test_another_trailer_weighed_for_the_first_time_has_its_own_ratings_missed() -> None:
    ticket = Ticket(*juniper(), *flatdeck()).hitched().weighs(truck=9600, trailer=8100)
    assert not_given(weighed(ticket)) == []
    ticket.later(days=3).hitched("camper").weighs(truck=9500, trailer=7900)
    assert not_given(weighed(ticket)) == [
        "Not given: trailer GVWR, trailer axles' GAWR and 1 more."
    ]


@pytest.mark.parametrize(
    ("pounds", "note"),
    [
        (1380, "The tongue's own scale read 1,380 lb."),
        (900, "The tongue's own scale read 900 lb, the axles say otherwise; reweigh both."),
    ],
)
def test_what_the_tongues_own_scale_read_is_told_beside_the_axles(pounds: float, note: str) -> None:
    ticket = Ticket().hitched().weighs(steer=5280, drive=6940, trailer=9840)
    ticket.weighs("solo", steer=5400, drive=5400).weighs(rig=None, tongue=pounds, of="flatdeck")
    assert note in weighed(ticket).notes
    assert note in tongue_answer(ticket.log, US, START, Question(topic="tongue")).notes


def test_a_rating_that_cannot_be_judged_yet_says_what_that_takes() -> None:
    ratings = [
        Rating(subject="truck", rating=rating, value=lb(value))
        for rating, value in (("payload", 3180), ("curb", 7800))
    ]
    ticket = Ticket(*ratings).hitched().weighs(trailer=8020)
    asked = margin_answer(ticket.log, US, START, Question(topic="margin", rating="payload"))
    assert asked.headline == (
        "Payload, 3,180 lb: to say what is left I need steer and drive axles."
    )


def test_every_margin_is_listed_where_all_are_asked_for() -> None:
    ticket = three_passes_two_fills()
    listed = margin_answer(ticket.log, US, START, Question(topic="margin"))
    kept = weighed(ticket)
    rest = re.search(r"(\d+) more ratings with more room; text margins for all", words(kept))
    assert rest is not None
    shown = [row for row in kept.rows if "left" in row.figure]
    assert len(listed.rows) == len(shown) + int(rest.group(1)) == 13
    assert listed.headline == kept.headline
    assert "curb weight" not in words(kept)


def test_payload_is_said_to_go_with_the_gvwr_only_where_margins_are_asked_for() -> None:
    ticket = Ticket(*truck_ratings(gvwr=11500, payload=3500)).hitched()
    ticket.weighs(steer=5100, drive=4480, trailer=8020)
    assert "Payload goes with" not in words(weighed(ticket))
    listed = margin_answer(ticket.log, US, START, Question(topic="margin"))
    assert "Payload goes with truck GVWR until the curb weight is given." in listed.notes


def test_without_any_rating_the_weights_are_told_all_the_same() -> None:
    answer = weighed(Ticket().hitched().weighs(steer=5100, drive=4480, trailer=8020))
    assert answer.headline == "Gross 17,600 lb. No rating given to hold it against."
    assert figure(answer, "Truck") == "9,580 lb"


def test_one_load_that_is_asked_for_leads() -> None:
    log = three_passes_two_fills().log
    gross = weight_answer(log, US, START, Question(topic="weight", field="gross"))
    assert gross.headline == "Gross 17,740 lb."
    assert gross.notes == (
        "Weighed Sat 11 Jul 9:00 am.",
        "Door label, manual, local law and a licensed mechanic govern.",
    )
    trailer = weight_answer(log, US, START, Question(topic="weight", field="trailer"))
    assert amount(trailer.headline) == pytest.approx(least_squares()["trailer"], abs=10)
    drive = margin_answer(log, US, START, Question(topic="margin", field="drive"))
    tyres = 2 * 1450 / 0.45359237
    assert drive.headline == f"Rear tyres: {tyres - 4480:,.0f} lb left of {tyres:,.0f} lb."
    assert figure(drive, "Drive axle") == "2,520 lb left"
    gcwr = margin_answer(log, US, START, Question(topic="margin", rating="gcwr"))
    assert gcwr.headline.startswith("GCWR: 9,260 lb left of 27,000 lb")


def test_what_was_loaded_since_the_weighing_is_said_not_to_be_counted() -> None:
    ticket = three_passes_two_fills().loads("hives", 1680, "over axles")
    answer = weight_answer(ticket.log, US, START, Question(topic="weight"))
    assert "Loaded since, and not counted: hives 1,680 lb." in answer.notes


def test_a_weighing_entered_late_is_held_to_the_ratings_given_since() -> None:
    late = Ticket().hitched().weighs(steer=5100, drive=4480, trailer=8020)
    first = late.log.of(Weighing)[0]
    late.later(hours=30).add(*juniper(), *flatdeck())
    late.weighs(steer=5200, drive=4600, trailer=8400)
    answer = weighing_answer(late.log, US, START, first)
    assert figure(answer, "Gross") == "17,600 lb"
    assert answer.headline.startswith("Inside every rating that could be judged; 4 could not.")


def test_bars_that_lift_too_much_are_to_be_eased() -> None:
    ticket = Ticket().hitched().weighs(bars="on", steer=3900, drive=3000, trailer=6400)
    ticket.weighs(bars="off", steer=3280, drive=4020, trailer=6000)
    ticket.weighs("solo", steer=3600, drive=2900)
    assert "ease them" in words(weighed(ticket))


def test_a_clear_axle_does_not_hide_an_overload_elsewhere() -> None:
    ticket = Ticket(*truck_ratings(gvwr=9000, gawr_rear=7000)).hitched()
    ticket.weighs(steer=5100, drive=4480, trailer=8020)
    answer = margin_answer(ticket.log, US, START, Question(topic="margin", field="drive"))
    assert "Drive axle: 2,520 lb left" in answer.headline
    assert "Don't tow it like this." in answer.headline
    assert "But over on truck GVWR." in words(answer)


def test_a_metric_logbook_is_answered_in_kilograms() -> None:
    ticket = Ticket(Rating(subject="truck", rating="gvwr", value=Quantity(3500, "kg"))).hitched()
    ticket.weighs(steer=1.48, drive=1.92, trailer=2.15, unit="t")
    answer = weighed(ticket, METRIC)
    assert figure(answer, "Gross") == "5,550 kg"
    assert figure(answer, "Truck GVWR") == "100 kg left"


def test_a_lopsided_axle_is_pointed_out() -> None:
    ticket = Ticket(*flatdeck()).hitched()
    ticket.weighs(truck=9600, trailer_left=5200, trailer_right=3800)
    assert "Trailer left carries 1,400 lb more than trailer right." in words(weighed(ticket))


def test_passes_that_do_not_belong_together_are_to_be_weighed_again() -> None:
    ticket = Ticket(*juniper(), *flatdeck()).hitched().weighs(truck=9000, trailer=8600)
    answer = weighed(ticket.weighs("solo", truck=9300))
    assert "not the same load" in words(answer)
    assert all(row.label != "Tongue" for row in answer.rows)


@pytest.mark.parametrize("gross", [8900, 9300])
def test_a_rig_no_heavier_than_its_truck_leaves_the_trailers_rating_unjudged(gross: float) -> None:
    ticket = Ticket(*juniper(), *flatdeck()).hitched().weighs(gross=gross)
    answer = weighed(ticket.weighs("solo", truck=9300).weighs(rig=None, tongue=900))
    assert "not the same load" in words(answer)
    assert figure(answer, "Tongue").startswith("900 lb")
    assert all("Trailer GVWR" not in line for line in words(answer).splitlines())


def test_an_overloaded_truck_alone_is_not_to_be_driven() -> None:
    answer = weighed(Ticket(*juniper()).weighs("solo", steer=5200, drive=7400))
    assert "Don't drive it like this." in answer.headline
    assert answer.rows[0] == Row("Truck", "12,600 lb", "steer 5,200, drive 7,400")


def test_a_light_tongue_is_told_to_sway() -> None:
    ticket = Ticket(*juniper(), *flatdeck()).hitched().weighs(truck=9000, trailer=8600)
    ticket.weighs("solo", truck=8600)
    assert "it may sway" in words(weighed(ticket))


def crowded() -> Ticket:
    """Nearly everything wrong at once."""
    ticket = Ticket(*juniper(), *flatdeck(), *truck_ratings(gvwr=9000, tow=8000)).hitched()
    ticket.weighs(bars="on", aboard=4, steer=5700, drive=7400, trailer_1=6200, trailer_2=6300)
    ticket.fills(20).weighs(bars="off", aboard=4, steer=5000, drive=8540, trailer=12_200)
    return ticket.fills(10).weighs("solo", aboard=1, steer=5500, drive=5000)


def test_a_weighing_is_read_at_a_glance() -> None:
    """Eleven lines and 500 characters; thirteen lines where something is over."""
    for ticket in (three_passes_two_fills(), *(at_the_limits(by) for by in (-600, -100, -1))):
        for each in ticket.log.of(Weighing):
            text = as_text(weighing_answer(ticket.log.until(each.at), US, START, each))
            assert len(text.splitlines()) <= LINES
            assert len(text) <= (LONGEST if text.startswith("Inside") else LONGEST_NEAR)
    for ticket in (at_the_limits(1), at_the_limits(400)):
        text = as_text(weighed(ticket))
        assert len(text.splitlines()) <= LINES_OVER
        assert len(text) <= LONGEST_OVER
    assert len(as_text(weighed(crowded())).splitlines()) <= LINES_OVER


def some_day(draw: np.random.Generator) -> Ticket:
    """Some of a rig's ratings, and up to three passes with what came between."""
    told = [each for each in (*juniper(), *flatdeck()) if draw.random() < 0.8]
    ticket = Ticket(*told).hitched()
    steer, drive, trailer = draw.uniform(4400, 5700), draw.uniform(4400, 7300), 8200.0
    tongue, moved = draw.uniform(500, 1700), draw.uniform(100, 300)
    aboard = int(draw.integers(1, 5)) if draw.random() < 0.5 else None
    ticket.weighs(bars="on", aboard=aboard, steer=steer, drive=drive, trailer=trailer)
    if draw.random() < 0.6:
        if draw.random() < 0.5:
            ticket.fills(float(draw.uniform(5, 30)))
        steer, drive, trailer = steer - moved, drive + 2 * moved, trailer - moved
        ticket.weighs(bars="off", aboard=aboard, steer=steer, drive=drive, trailer=trailer)
    if draw.random() < 0.6:
        alone = 1 if aboard else None
        ticket.weighs("solo", aboard=alone, steer=steer + 100, drive=drive - tongue)
    return ticket


def test_no_weighing_of_any_rig_takes_more_than_a_glance() -> None:
    draw = np.random.default_rng(20260714)
    for _ in range(300):
        ticket = some_day(draw)
        for each in ticket.log.of(Weighing):
            text = as_text(weighing_answer(ticket.log.until(each.at), US, START, each))
            over = text.startswith("Over")
            assert len(text.splitlines()) <= (LINES_OVER if over else LINES), text
            assert text.endswith("a licensed mechanic govern."), text


def test_what_is_over_is_told_before_what_is_near_and_what_has_room() -> None:
    answer = weighed(crowded())
    assert answer.headline.startswith(
        "Over: hitch tongue by 1,250 lb, tow rating by 6,850 lb and 9"
    )
    assert [row.figure for row in answer.rows if "left" in row.figure] == []
    assert "12 more ratings, 8 over and 2 near; text margins for all." in answer.notes


def test_a_missing_rating_says_why_it_matters_and_where_it_stands() -> None:
    answer = ratings_answer(Ticket(*flatdeck()).log, US, START, Question(topic="ratings"))
    assert "door label" in words(answer)
    assert figure(answer, "Trailer GVWR") == "12,000 lb"


def test_a_date_code_is_told_with_its_week_and_age() -> None:
    """49 CFR 574.5: 2719 is week 27 of 2019, seven years before the day of these tests."""
    code = Rating(subject="tyres", trailer="flatdeck", rating="date_code", value=2719.0)
    answer = ratings_answer(Ticket(code).log, US, START, Question(topic="ratings"))
    assert answer.headline == "Trailer tyres date code: 2719, week 27 of 2019, 7 years."


def test_a_lone_date_code_is_told_once() -> None:
    code = Rating(subject="tyres", trailer="flatdeck", rating="date_code", value=2719.0)
    answer = tyre_age_answer(Ticket(code).hitched().log, US, START, Question(topic="upkeep"))
    assert as_text(answer).count("2719") == 1


def test_the_load_of_one_tyre_counts_by_whatever_name_it_was_read() -> None:
    tyres = Rating(subject="tyres", trailer="flatdeck", rating="tyre_load", value=lb(3195))
    ticket = Ticket(*flatdeck()[:2], tyres).hitched().weighs(truck=9600, trailer=8100)
    assert figure(weighed(ticket), "Trailer tyres") == "4,680 lb left"


def loaded() -> Ticket:
    reach = Rating(
        subject="trailer",
        trailer="flatdeck",
        rating="coupler_to_axle",
        value=Quantity(16, "ft"),
    )
    return (
        Ticket(*juniper(), *flatdeck(), reach)
        .loads("skid steer", 3200, "ahead of trailer axle", 2)
        .loads("generator", 210, "bed")
        .hitched()
        .weighs(steer=4980, drive=4940, trailer=8140)
        .weighs("solo", steer=5220, drive=3680)
    )


def asks(text: str, **said: object) -> Answer:
    return asks_of(loaded(), text, **said)


def asks_of(ticket: Ticket, text: str, **said: object) -> Answer:
    question = Question(topic="whatif", text=text, **said)  # type: ignore[arg-type]
    return whatif_answer(ticket.log, US, START, question)


TONGUE = 4980 + 4940 - 5220 - 3680
LEVER = (5220 - 4980) / TONGUE


def test_what_if_six_hundred_pounds_four_feet_ahead_of_the_axle() -> None:
    """Moments about the trailer's axle: a quarter of it, 150 lb, goes to the coupling."""
    answer = asks(
        "add 600 lb four feet ahead of the trailer axle",
        value=lb(600),
        distance=Quantity(4, "ft"),
        position="ahead of trailer axle",
    )
    onto = 600 * 4 / 16
    assert amount(figure(answer, "Steer")) == pytest.approx(4980 - onto * LEVER, abs=5)
    assert amount(figure(answer, "Drive")) == pytest.approx(4940 + onto * (1 + LEVER), abs=5)
    assert amount(figure(answer, "Trailer axles")) == pytest.approx(8140 + 450, abs=5)
    assert amount(figure(answer, "Tongue")) == pytest.approx(TONGUE + onto, abs=5)
    assert "lever is from your own weighing" in words(answer)
    assert len(as_text(answer).splitlines()) <= LINES


def test_how_much_more_fits_on_the_flatdeck() -> None:
    """Each rating's room over what a pound more puts on it; the least of them binds."""
    answer = asks("how much more can I carry on the flatdeck?", trailer="flatdeck")
    trailer = 8140 + TONGUE
    share = TONGUE / trailer
    rooms = {
        "hitch tongue": (1400 - TONGUE) / share,
        "trailer GVWR": 12000 - trailer,
        "drive axle": (7000 - 4940) / (share * (1 + LEVER)),
        "truck GVWR": (11500 - 9920) / share,
        "trailer axles": (12000 - 8140) / (1 - share),
        "payload": (3500 - 1920) / share,
    }
    binds = min(rooms, key=lambda name: rooms[name])
    assert amount(answer.headline) == pytest.approx(rooms[binds], abs=10)
    assert amount(answer.headline) <= rooms[binds]
    assert binds in answer.headline


def test_nothing_more_fits_on_a_rig_that_is_over_whatever_else_is_not_known() -> None:
    """5,600 + 7,100 lb are 1,200 lb over the payload, and no pass tells what is on the tongue."""
    over = Ticket(*juniper(), *flatdeck()).hitched().weighs(steer=5600, drive=7100, trailer=8140)
    answer = asks_of(over, "how much more can we carry", form=MORE)
    assert answer.headline.startswith("Nothing more. Over: payload by 1,200 lb")
    assert "licensed mechanic" in words(answer)
    under = Ticket(*juniper(), *flatdeck()).hitched().weighs(steer=4980, drive=4940, trailer=8140)
    left = asks_of(under, "how much more can we carry", form=MORE)
    assert "Tightest: steer axle, 620 lb left." in left.headline
    assert "A pass of the truck alone would give the tongue weight." in words(left)
    assert "licensed mechanic" in words(left)


def test_a_figure_without_a_load_is_held_against_the_gross() -> None:
    """4,980 + 4,940 + 8,140 lb are 18,060 lb on the ticket."""
    asked = Question(topic="weight", value=lb(18_000), text="are we under 18,000 lb")
    answer = weight_answer(loaded().log, US, START, asked)
    assert answer.headline == "Gross 18,060 lb, 60 lb more than 18,000 lb."


@pytest.mark.parametrize(
    ("load", "said", "told"),
    [
        (7200, {"field": "drive"}, "7,200 lb against the rear tyres: 807 lb over of 6,393 lb."),
        (
            6100,
            {"field": "drive"},
            "6,100 lb against the rear tyres: 293 lb left of 6,393 lb, near.",
        ),
        (
            12400,
            {"trailer": "flatdeck"},
            "12,400 lb against the trailer GVWR: 400 lb over of 12,000 lb.",
        ),
        (1300, {"item": "hitch"}, "1,300 lb against the hitch tongue: 100 lb left of 1,400 lb."),
        (9640, {"item": "hitch"}, "9,640 lb against the hitch: 4,360 lb left of 14,000 lb."),
    ],
)
def test_a_load_that_is_told_is_held_against_what_was_named(
    load: float, said: dict[str, str], told: str
) -> None:
    """The lowest rating less the load; of a hitch's two limits, the one for such a load."""
    text = f"is {load} lb ok for the {said.get('item', 'axle')}"
    asked = Question(
        topic="margin",
        form=JUDGED,
        value=Quantity(load, "lb"),
        text=text,
        **said,  # type: ignore[arg-type]
    )
    answer = judged_answer(loaded().log, US, START, asked)
    over = "over" in told
    assert answer.headline == (f"{told} Don't tow it like this." if over else told)
    assert "govern" in words(answer)


def test_where_the_skid_must_go_for_twelve_percent() -> None:
    """It stands 2 ft ahead; moving m by x shifts m x / 16 ft onto the coupling."""
    answer = asks(
        "where must the skid go for 12 % tongue?",
        item="skid",
        field="tongue",
        value=Quantity(12, "%"),
    )
    feet = 2 + (0.12 * (8140 + TONGUE) - TONGUE) * 16 / 3200
    spot = re.search(r"tongue: ([\d.]+) ft", answer.headline)
    assert spot is not None
    assert float(spot.group(1)) == pytest.approx(feet, abs=0.06)
    assert amount(remark(answer, "Tongue")) == pytest.approx(12.0, abs=0.1)


def test_cargo_in_the_log_can_be_moved_or_taken_off_by_name() -> None:
    out = asks("what if we take the generator off", item="generator")
    assert amount(figure(out, "Drive")) == pytest.approx(4940 - 210, abs=5)
    forward = asks(
        "move the skid steer 2 ft forward",
        item="skid steer",
        position="forward",
        distance=Quantity(2, "ft"),
    )
    assert amount(figure(forward, "Tongue")) == pytest.approx(TONGUE + 3200 * 2 / 16, abs=5)


def test_a_load_that_overloads_is_told_before_it_is_loaded() -> None:
    answer = asks("5000 lb over the axles", value=lb(5000), position="over axles")
    assert "Over" in answer.headline or "over:" in answer.headline
    assert "Don't tow it like this." in answer.headline
    assert "it may sway" in words(answer)


@pytest.mark.parametrize(
    ("said", "wants"),
    [
        ({"item": "mower", "position": "bed"}, "How heavy"),
        ({"item": "generator", "position": "trailer nose"}, "How far from the trailer axle"),
        ({"item": "skid", "position": "forward"}, "How far from the trailer axle"),
    ],
)
def test_what_is_lacking_is_asked_for(said: dict[str, str], wants: str) -> None:
    assert asks("what if we move it", **said).headline.startswith(wants)


def test_without_the_trailers_length_that_is_asked_for() -> None:
    ticket = Ticket(*juniper()).hitched().weighs(steer=4980, drive=4940, trailer=8140)
    ticket.weighs("solo", steer=5220, drive=3680)
    answer = asks_of(
        ticket,
        "600 lb 4 ft ahead of the axle",
        value=lb(600),
        distance=Quantity(4, "ft"),
        position="ahead of trailer axle",
    )
    assert "coupler to axle" in answer.headline


def test_what_a_change_does_that_cannot_be_told_yet_leaves_what_was_weighed() -> None:
    """4,980 + 4,940 lb leave 620 lb of the steer axle's 5,600; no pass tells the tongue."""
    ticket = Ticket(*juniper(), *flatdeck()).hitched().weighs(steer=4980, drive=4940, trailer=8140)
    answer = asks_of(ticket, "would 270 lb more put us over", value=lb(270))
    assert answer.headline.startswith("Can't tell yet. A pass of the truck alone")
    assert figure(answer, "Steer axle") == "620 lb left"
    assert answer.notes[0] == "As weighed, before that change."
    over = Ticket(*juniper(), *flatdeck()).hitched().weighs(steer=5600, drive=7100, trailer=8140)
    answer = asks_of(over, "would 270 lb more put us over", value=lb(270))
    assert answer.headline.startswith("Over: payload by 1,200 lb")
    assert "A pass of the truck alone would give the tongue weight." in answer.notes
    assert "licensed mechanic" in words(answer)


def ties(text: str, pounds: float | None, item: str | None = None) -> Answer:
    value = None if pounds is None else lb(pounds)
    question = Question(topic="tiedown", text=text, value=value, item=item)
    return tiedown_answer(Ticket().log, US, START, question)


@pytest.mark.parametrize(
    ("text", "pounds", "says"),
    [
        ("4 chains 3/8 grade 70 on 9,200 lb?", 9200, "13,200 lb counted, 4,600 lb needed"),
        ("four 3/8 g70 chains for 26,400 lb", 26400, "13,200 lb counted, 13,200 lb needed"),
        ("four 3/8 grade 70 chains on 26,420 lb", 26420, "it takes 5"),
        ("four unmarked 3/8 chains on 11,000 lb", 11000, "it takes 5"),
        ("2 straps over the load on 3,000 lb, 12 ft long?", 3000, "asks for 3"),
        ("how many straps do i need for a 4,200 lb tractor", 4200, "At least 3 x 2 in strap"),
        ("how many 3/8 g70 chains for a 14,000 lb excavator", 14000, "At least 4 x 3/8 grade 70"),
        (
            "2 two inch straps rated 3,333 lb for 6,600 lb",
            6600,
            "3,333 lb counted, 3,300 lb needed",
        ),
        ("how many 10 mm g70 chains for a 14,000 lb excavator", 14000, "4 x 10 mm grade 70 chain"),
        ("how do i tie down 1,680 lb of hives", 1680, "840 lb together"),
    ],
)
def test_tie_downs_are_counted_by_the_federal_rule(text: str, pounds: float, says: str) -> None:
    """Half of each working load limit from trailer to load, all of it over the load."""
    answer = ties(text, pounds)
    assert says in answer.headline
    assert "49 CFR 393" in words(answer)
    assert "Local law governs" in words(answer)


def test_a_size_that_nobody_named_is_in_the_measure_of_the_chat() -> None:
    question = Question(topic="tiedown", text="straps for 900 kg?", value=Quantity(900, "kg"))
    for preferences, strap in ((US, "2 in strap"), (METRIC, "50 mm strap")):
        assert strap in tiedown_answer(Ticket().log, preferences, START, question).headline


def test_tie_downs_want_the_weight_of_the_cargo() -> None:
    assert ties("is one strap enough", None).headline == "How heavy is it?"


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        (lb(8_000), "Trailer 9,000 lb ±50, 1,000 lb more than 8,000 lb."),
        (lb(9_020), "Trailer 9,000 lb ±50, too near 9,020 lb to tell."),
        (lb(9_500), "Trailer 9,000 lb ±50, 500 lb less than 9,500 lb."),
    ],
)
def test_what_a_load_is_held_against_is_told_with_it(asked: Quantity, told: str) -> None:
    ticket = (
        Ticket(*flatdeck())
        .hitched()
        .weighs(steer=5100, drive=4500, trailer=8000)
        .weighs(steer=5000, drive=3600, rig="solo")
    )
    question = Question("weight", trailer="flatdeck", value=asked)
    headline = weight_answer(ticket.log, US, START, question).headline
    assert headline.startswith(told.replace("Trailer", "Flatdeck"))


def test_a_truck_alone_and_a_tongue_by_itself_are_not_yet_a_rig() -> None:
    """By hand: 8,600 lb alone and a tongue of 900 are 9,500 of 11,500 lb, 2,000 left."""
    rig = Ticket(*truck_ratings(gvwr=11500, gawr_front=5600, gawr_rear=7000), *flatdeck())
    rig.add(Rating(subject="ball", rating="tongue", value=lb(1000))).hitched()
    answer = weighed(rig.weighs("solo", steer=4980, drive=3620).weighs(None, tongue=900))
    assert re.match(
        r"Inside every rating that could be judged; \d could not. Tightest: ball tongue, 100 lb",
        answer.headline,
    )
    asked = margin_answer(rig.log, US, START, Question(topic="margin"))
    assert amount(figure(asked, "Truck GVWR")) == 2000
    assert amount(figure(asked, "Steer axle")) == 620
    assert not any(row.label == "Drive axle" for row in asked.rows)
    wanted = next(note for note in asked.notes if note.startswith("To judge"))
    assert "drive axle" in wanted
    assert "trailer GVWR" in wanted
    assert "a hitched weighing" in wanted
    assert "the truck alone" not in wanted


def test_a_side_whose_tyres_bear_too_much_is_named_with_what_helps() -> None:
    """By hand: 2,740 of 2,680 lb on the left, while both together are 130 lb inside."""
    front = Rating(
        subject="tyres", truck="Juniper", rating="tyre_load", value=lb(2680), note="front"
    )
    rig = Ticket(*truck_ratings(gvwr=11500, gawr_front=5600, gawr_rear=7000), front)
    rig.weighs("solo", steer_left=2740, steer_right=2490, drive=3620)
    answer = weighed(rig)
    assert answer.headline == "Over: front tyres on the left by 60 lb. Don't drive it like this."
    assert amount(figure(answer, "Front tyres on the left")) == 60
    assert "What usually helps: move load to the other side, or take some off." in answer.notes
    said = ratings_answer(rig.log, US, START, Question(topic="ratings"))
    assert figure(said, "Front tyres") == "2,680 lb"


def test_axles_and_a_gross_that_no_scale_explains_are_said_to_be_at_odds() -> None:
    """By hand: 5,100 + 4,480 + 8,160 are 17,740 lb, and the gross of another pass is 17,900."""
    rig = Ticket(*truck_ratings(gvwr=11500), *flatdeck()).hitched()
    rig.weighs(steer=5100, drive=4480, trailer=8160)
    assert not any("the gross reads" in note for note in weighed(rig).notes)
    answer = weighed(rig.weighs(gross=17900))
    note = "The axles make 17,740 lb, the gross reads 17,900 lb; correct the wrong one."
    assert note in answer.notes
    asked = margin_answer(rig.log, US, START, Question(topic="margin"))
    assert note in asked.notes


def test_a_gross_within_the_scales_step_is_not_at_odds() -> None:
    rig = Ticket(*truck_ratings(gvwr=11500), *flatdeck()).hitched()
    answer = weighed(rig.weighs(steer=5100, drive=4480, trailer=8160).weighs(gross=17760))
    assert not any("the gross reads" in note for note in answer.notes)


def test_a_weighing_of_another_day_tells_which() -> None:
    rig = Ticket(*truck_ratings(gvwr=11500)).weighs("solo", steer=4980, drive=3620)
    last = rig.log.of(Weighing)[-1]
    same_day = weighing_answer(rig.log, US, START + timedelta(hours=2), last)
    later = weighing_answer(rig.log, US, START + timedelta(days=4), last)
    assert not any(note.startswith("Weighed ") for note in same_day.notes)
    assert later.notes[0].startswith("Weighed Sat 11 Jul ")


@pytest.mark.parametrize(
    ("name", "note"),
    [
        ("fifth wheel", "Pin share is high. Move trailer load back."),
        ("flatdeck", "Tongue share is high. Move trailer load back."),
    ],
)
def test_what_rests_on_a_pin_is_a_pins_share(name: str, note: str) -> None:
    """By hand: 11,460 less 7,460 alone are 4,000 of 13,000 lb, nearly 31 %."""
    rig = Ticket(*truck_ratings(gvwr=14500)).hitched(name)
    rig.weighs(steer=5230, drive=6230, trailer=9000).weighs("solo", steer=4460, drive=3000)
    assert note in weighed(rig).notes


@pytest.mark.parametrize(
    ("name", "called"), [("fifth wheel", "hitch pin"), ("flatdeck", "hitch tongue")]
)
def test_a_limit_of_what_rests_on_the_truck_is_called_by_the_coupling(
    name: str, called: str
) -> None:
    """By hand: 11,460 less 7,460 alone are 4,000 lb, 400 over 3,600."""
    rig = Ticket(
        *truck_ratings(gvwr=14500), Rating(subject="hitch", rating="tongue", value=lb(3600))
    ).hitched(name)
    rig.weighs(steer=5230, drive=6230, trailer=9000).weighs("solo", steer=4460, drive=3000)
    assert f"Over: {called} by 400 lb" in weighed(rig).headline


@pytest.mark.parametrize(("name", "called"), [("fifth wheel", "pin"), ("flatdeck", "tongue")])
def test_what_wants_a_pass_or_less_load_is_called_by_the_coupling(name: str, called: str) -> None:
    """By hand: 5,230 and 6,230 lb are 11,460, 460 over 11,000."""
    rig = Ticket(*truck_ratings(gvwr=11000)).hitched(name)
    rig.weighs(steer=5230, drive=6230, trailer=9000)
    told = weighed(rig)
    helps = f"What usually helps: take load out of the bed, or off the {called}."
    assert helps in told.notes
    assert f"A pass of the truck alone would give the {called} weight." in told.notes
    tongue = tongue_answer(rig.log, US, START, Question(topic="tongue"))
    assert tongue.headline == f"The {called} hasn't been weighed."


PLATE = [
    Rating(subject="trailer", trailer="flatdeck", rating="gvwr", value=lb(9990)),
    Rating(subject="trailer", trailer="flatdeck", rating="curb", value=lb(2400)),
]


def loads(pounds: float, position: str | None = None) -> Answer:
    """The answer to a load that was put on."""
    ticket = Ticket(*PLATE).hitched()
    ticket.add(Cargo(item="excavator", value=lb(pounds), position=position))
    return kept_answer(ticket.log, US, START, [ticket.log.of(Cargo)[-1]])


def test_a_load_beyond_the_trailers_plate_is_said_to_be_before_any_scale_is_near() -> None:
    """By hand: 2,400 and 7,900 are 10,300 lb, 310 over 9,990."""
    answer = loads(7900)
    assert answer.headline.startswith(
        "Over by the plate: trailer GVWR by 310 lb; 2,400 lb empty and 7,900 lb make 10,300 lb. "
        "Don't tow it like this. Loaded: excavator"
    )
    assert answer.urgent
    assert answer.notes[-1].startswith("Door label")


@pytest.mark.parametrize(("pounds", "position"), [(7500, None), (7900, "bed")])
def test_a_load_inside_the_plate_or_on_the_truck_has_no_such_word(
    pounds: float, position: str | None
) -> None:
    answer = loads(pounds, position)
    assert answer.headline.startswith("Loaded: ")
    assert not answer.urgent


@pytest.mark.parametrize(
    ("value", "head"),
    [
        (None, "By the plate 7,590 lb fit: trailer GVWR 9,990 lb less 2,400 lb empty."),
        (7000, "By the plate 590 lb left of trailer GVWR: 2,400 lb empty and 7,000 lb make 9,400 "),
        (7900, "Over by the plate: trailer GVWR by 310 lb; 2,400 lb empty and 7,900 lb make 10,"),
    ],
)
def test_before_any_weighing_the_plate_tells_what_fits(value: float | None, head: str) -> None:
    question = Question(
        topic="whatif",
        trailer="flatdeck",
        value=None if value is None else lb(value),
        text="how much can i load" if value is None else "",
    )
    answer = whatif_answer(Ticket(*PLATE).hitched().log, US, START, question)
    assert answer.headline.startswith(head)
    bare = whatif_answer(Ticket(PLATE[0]).hitched().log, US, START, question)
    assert bare.headline == "No weighing with the flatdeck yet."


def test_what_wants_many_passes_is_said_in_one_sentence() -> None:
    rig = Ticket(*juniper(), *flatdeck()).hitched().weighs(gross=19540)
    asked = margin_answer(rig.log, US, START, Question(topic="margin"))
    wanted = [note for note in asked.notes if note.startswith("To judge")]
    assert wanted == [
        "To judge the others: hitched, each axle on a plate of its own; then the truck alone."
    ]


def test_a_load_that_was_not_weighed_before_may_have_changed() -> None:
    rig = Ticket(*juniper(), *flatdeck()).hitched().weighs(steer=4960, drive=6100, rig="hitched")
    same = weighed(rig.later(days=1).weighs(steer=4960, drive=6100, trailer=8480))
    assert not any("No load has changed" in note for note in same.notes)
    again = weighed(rig.later(days=1).weighs(steer=4960, drive=6100, trailer=8480))
    assert any(note.startswith("No load has changed since") for note in again.notes)


def test_a_load_asked_about_on_a_trailer_is_put_on_it() -> None:
    """By hand: 8,480 on the axles and 1,160 on the tongue leave 2,360 of 12,000 lb."""
    rig = Ticket(*juniper(), *flatdeck()).hitched().weighs(steer=4960, drive=6100, trailer=8480)
    rig.weighs("solo", steer=5280, drive=4620)
    asked = Question(topic="margin", trailer="flatdeck", value=lb(3000))
    answer = question_answer(rig.log, US, START, asked)
    assert answer.headline.startswith("3,000 lb more on the trailer")
    assert "trailer GVWR by 640 lb" in answer.headline
    bare = question_answer(rig.log, US, START, Question(topic="margin", trailer="flatdeck"))
    assert "more on the trailer" not in bare.headline


def test_an_axle_rating_that_one_axle_would_exceed_asks_how_many_there_are() -> None:
    plate = Rating(subject="trailer", trailer="flatdeck", rating="gawr", value=lb(5200))
    rig = Ticket(*juniper(), plate).hitched()
    answer = weighed(rig.weighs(steer=4960, drive=7100, trailer=8600))
    assert answer.headline.startswith("Over: ")
    assert "To judge trailer axle, text the number of trailer axles." in answer.notes
    light = weighed(Ticket(plate).hitched().weighs(steer=4960, drive=6100, trailer=5000))
    assert not any("number of trailer axles" in note for note in light.notes)


def test_the_tightest_of_a_span_says_where_the_scale_can_not_tell() -> None:
    """By hand: 7,000 lb on a drive axle rated 7,000 leave nothing, and 6,000 leave 1,000."""

    def tightest(drive: float) -> str:
        rig = Ticket(*truck_ratings(gawr_rear=7000)).weighs("solo", steer=4980, drive=drive)
        asked = Question(topic="weight", form=HEAVIEST)
        told = question_answer(rig.log, US, START + timedelta(hours=1), asked)
        return remark(told, "Tightest")

    assert tightest(7000) == "drive axle, too close to call"
    assert tightest(6000) == "drive axle"


@pytest.mark.parametrize(("position", "said"), [("bed", True), ("over axles", False)])
def test_what_went_on_the_truck_between_the_passes_is_said_of_the_tongue(
    position: str, said: bool
) -> None:
    ticket = Ticket(*juniper(), *flatdeck()).weighs("solo", steer=5280, drive=4620)
    ticket.hitched().loads("tools", 400, position)
    answer = weighed(ticket.weighs(steer=4960, drive=6100, trailer=8480))
    # By hand: 11,060 hitched less 9,900 alone are 1,160, and 400 of them may be the tools.
    assert figure(answer, "Tongue").startswith("1,160 lb")
    note = (
        "Loaded on the truck between the passes: tools 400 lb. "
        "The tongue is off by it; reweigh both."
    )
    assert (note in answer.notes) is said
    asked = tongue_answer(ticket.log, US, START, Question(topic="tongue"))
    assert (note in asked.notes) is said
