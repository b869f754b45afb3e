"""What is asked of one part, by chat: of its limits, of its age, of what it may carry yet."""

from __future__ import annotations

import pytest

from tests.whole.chatting import replies

RIG = [
    "truck Juniper gvwr 11500 gcwr 27000 front axle 5600 rear axle 7000 tank 34 gal diesel",
    "trailer flatdeck gvwr 12000 axles 2x6000",
    "trailer camper gvwr 9500 axles 2x5000",
    "hitch rating 14000, hitch tongue rating 1400",
    "solo: steer 5280 drive 4620",
    "hitched the flatdeck",
    "4960 6100 8480 19540",
    "def 2.5 gal, $14.20",
    "31 gal diesel, $120, full, at Cedar Bend",
]
ASKED = [
    "are the tires ok for this load",
    "how close is the hitch to its limit",
    "are we over on the ball",
    "how much more can the rear axle take",
    "can the rear axle take 1000 lb more",
    "limits for the camper",
    "camper axle limit?",
    "hitch limit?",
    "tow limit?",
    "how heavy is the flatdeck",
    "how heavy is juniper",
    "oil every 5000 miles",
    "when is the inspection due",
    "if we put 200 lb on the tongue",
    "how old are the tires",
    "heaviest we've ever been?",
    "heaviest the camper has been",
    "how much def did we use this year",
    "where did we last fill up",
    "flatdeck tyres load index 121",
    "are the tires ok for this load?",
    "flatdeck tyres dot 2314",
    "how old are the tires?",
]


@pytest.fixture(scope="module")
def said(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    texts = [*RIG, *ASKED]
    told = replies(texts, tmp_path_factory.mktemp("part") / "log.db")
    return {text: "\n".join(lines) for text, lines in zip(texts, told, strict=True)}


def test_a_part_whose_limits_nobody_gave_is_named_first(said: dict[str, str]) -> None:
    told = said["are the tires ok for this load"]
    assert told.startswith("Not given: trailer tyres and truck tyres.")
    assert "load index on the sidewall" in told
    assert "truck GVWR" in told
    assert told.endswith("govern.")


def test_a_part_that_was_given_leads_and_the_other_is_named(said: dict[str, str]) -> None:
    """Load index 121 is 1,450 kg (ISO 4000-1): four tyres hold 12,787 lb."""
    told = said["are the tires ok for this load?"]
    assert told.startswith("Trailer tyres: 4,307 lb left")
    assert "Not given: truck tyres." in told


@pytest.mark.parametrize("text", ["how close is the hitch to its limit", "are we over on the ball"])
def test_the_hitchs_limits_are_told_alone(said: dict[str, str], text: str) -> None:
    """11,060 lb of truck with the trailer less 9,900 without is 1,160 of 1,400 lb."""
    assert said[text].startswith("Hitch tongue: 240 lb left of 1,400 lb")
    assert "GVWR" not in said[text]


def test_what_an_axle_takes_is_put_over_it(said: dict[str, str]) -> None:
    """11,060 and 440 lb make the truck's GVWR of 11,500 before the drive axle's 900 are used."""
    assert (
        "over the drive axle; truck GVWR binds first"
        in said["how much more can the rear axle take"]
    )
    told = said["can the rear axle take 1000 lb more"]
    assert told.startswith("1,000 lb more in the bed over the drive axle. Over:")
    assert "drive axle by 100 lb" in told


def test_a_trailers_limits_are_its_own(said: dict[str, str]) -> None:
    told = said["limits for the camper"]
    assert "9,500 lb" in told
    assert "5,000 lb" in told
    assert "truck" not in told.casefold()


def test_a_parts_rating_is_told_alone(said: dict[str, str]) -> None:
    assert said["camper axle limit?"].startswith("Trailer axle: 5,000 lb, 2 axles.")
    assert said["hitch limit?"].startswith("2 ratings given.")
    assert "GVWR" not in said["hitch limit?"]
    assert said["tow limit?"].startswith("Hitch: 14,000 lb.")


def test_what_one_vehicle_weighs_is_said_first(said: dict[str, str]) -> None:
    """8,480 lb on its axles and 1,160 of tongue make the trailer's 9,640."""
    assert said["how heavy is the flatdeck"].startswith("Flatdeck 9,640 lb ±")
    assert said["how heavy is juniper"].startswith("Juniper 11,060 lb. ")


def test_what_has_no_reminder_is_told_beside_what_has(said: dict[str, str]) -> None:
    told = said["when is the inspection due"]
    assert told.startswith("No reminder set for inspection.")
    assert "oil" in told


def test_the_age_of_tyres_goes_by_their_code(said: dict[str, str]) -> None:
    assert said["how old are the tires"].startswith("No tyre's date was given.")
    assert "week 23 of 2014" in said["how old are the tires?"]
    assert "years old; have them looked at" in said["how old are the tires?"]


def test_the_heaviest_is_told_and_that_of_one_trailer(said: dict[str, str]) -> None:
    assert said["heaviest we've ever been?"].startswith("Heaviest: 19,540 lb, weighed ")
    assert said["heaviest the camper has been"].startswith("No weighing yet.")


def test_what_was_bought_is_told_where_it_was(said: dict[str, str]) -> None:
    assert "2.5 gal" in said["how much def did we use this year"]
    assert "Cedar Bend" in said["where did we last fill up"]
