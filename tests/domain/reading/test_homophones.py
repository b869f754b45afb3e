"""Numbers as dictation writes them down: 'ate' for eight, 'to' for two, 'for' for four.

The sentences are invented. Each figure is one that the words around it lack a digit for; beside
them stand sentences in which the same words are the words they seem.
"""

from __future__ import annotations

import pytest

from domain.entries import Entry, Fill, Observation, Odometer, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


def weighed(**loads: float) -> Weighing:
    """A weighing of the loads given, in pounds, as the loads say that the rig stood."""
    return Weighing(
        loads={at: Quantity(load, "lb") for at, load in loads.items()},
        rig="hitched" if "trailer" in loads else None,
    )


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        (
            "thirty won point ate gallons of diesel",
            Fill(product="diesel", volume=Quantity(31.8, "gal")),
        ),
        (
            "def too point five gallons",
            Fill(product="def", volume=Quantity(2.5, "gal")),
        ),
        (
            "got twenty fore point nine gallons at three point too nine",
            Fill(volume=Quantity(24.9, "gal"), unit_price=Quantity(3.29, "USD/gal")),
        ),
        (
            "odo forty ate thousand three hundred and ate",
            Odometer(odometer=Quantity(48_308, "mi")),
        ),
        ("pin weight to thousand won hundred pounds", weighed(tongue=2_100)),
        ("tongue way is seven hundred and eighty ate", weighed(tongue=788)),
        ("hitch wait ate hundred and sixty", weighed(tongue=860)),
        (
            "steer fifty won forty drive sixty too ten trailer ate thousand won hundred",
            weighed(steer=5_140, drive=6_210, trailer=8_100),
        ),
        (
            "steer for thousand nine hundred, drive six thousand to hundred",
            weighed(steer=4_900, drive=6_200),
        ),
        ("gross is nineteen thousand ate hundred", weighed(gross=19_800)),
        ("steer fifty three too oh, drives sixty ate forty", weighed(steer=5_320, drive=6_840)),
        ("odo forty ate too sixty won", Odometer(odometer=Quantity(48_261, "mi"))),
        (
            "coolant won ninety ate",
            Observation(subject="coolant", value=Quantity(198, "degF")),
        ),
        (
            "trans temp won ninety eight going up the hill",
            Observation(subject="transmission", value=Quantity(198, "degF")),
        ),
        (
            "coolant got up to won ninety",
            Observation(subject="coolant", value=Quantity(190, "degF")),
        ),
        (
            "hub temp hit won fifteen",
            Observation(subject="hub", value=Quantity(115, "degF")),
        ),
        (
            "trans two oh ate",
            Observation(subject="transmission", value=Quantity(208, "degF")),
        ),
        (
            "trans temp one ninety ate",
            Observation(subject="transmission", value=Quantity(198, "degF")),
        ),
        (
            "trailer tires sixty ate psi",
            Observation(subject="tyre", value=Quantity(68, "psi"), position="trailer"),
        ),
        ("doing fifty too miles an hour", Observation(subject="speed", value=Quantity(52, "mph"))),
    ],
)
def test_what_sounds_like_a_digit_is_one_where_a_number_lacks_it(
    text: str, entry: Entry, reads: Reader
) -> None:
    verdict = reads(text, on_the_road(currency="USD"))
    assert isinstance(verdict, Facts), verdict
    assert verdict.entries == (entry,)


@pytest.mark.parametrize(
    "text",
    [
        "it's for two",
        "we won by 20",
        "the temp bet won ninety bucks",
        "our team won ninety to eighty",
        "ate at six",
        "they won forty to twenty",
        "the score was fifty to forty",
        "price went from fifty to hundred",
        "went to hundred mile house",
        "two of us ate, sixty for lunch",
        "thirty too many",
        "sixty for gas and ate at the diner",
        "twenty ate at our place",
        "bet two hundred and won",
        "one point for the team",
        "all twenty for free",
    ],
)
def test_elsewhere_they_are_the_words_they_seem(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)


def test_tens_behind_a_wheel_lack_the_digit_that_was_heard_as_a_word(reads: Reader) -> None:
    verdict = reads("tires left rear seventy ate right rear eighty p s i", on_the_road())
    assert isinstance(verdict, Facts)
    shown = [each.value.value for each in verdict.entries if isinstance(each, Observation)]
    assert shown == [78, 80]
