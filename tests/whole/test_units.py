"""An answer speaks in the units of its chat, and in no others."""

from __future__ import annotations

import re

import pytest

from bot.answers.language import language_of, speaking
from domain.log import Preferences
from tests.whole.occasions import kept_and_asked, season_of, words_of

IDAHO = Preferences(time_zone="America/Boise")
AUSTRALIA = Preferences(units="metric", currency="AUD", time_zone="Australia/Perth")
BRITAIN = Preferences(units="imperial", currency="GBP", time_zone="Europe/London")
SPAIN = Preferences(units="metric", currency="EUR", time_zone="Europe/Madrid", language="es")

US = ("lb", "lbs", "pounds", "gal", "gallons", "ft", "feet", "in", "°F", "mpg", "pies", "pulg")
AMERICAN = ("mi", "miles", "millas", "mph", "psi", *US)
METRIC = ("kg", "km", "L", "m", "mm", "kPa", "°C")
FOREIGN = (
    (IDAHO, METRIC, "[€£]|AUD"),
    (AUSTRALIA, AMERICAN, r"[€£$]|USD"),
    (BRITAIN, (*US[:-3], "km", "kPa"), r"[€$]|USD"),
    (SPAIN, AMERICAN, r"[£$]|USD"),
)
"""What no answer of a chat has behind a figure, or for each of something; and whose money."""


def foreign(preferences: Preferences, units: tuple[str, ...], money: str) -> list[str]:
    """Every text of an answer that speaks in other units, or of other money."""
    unit = "|".join(units)
    strange = re.compile(rf"\d[ /]?({unit})(?!\w)|/({unit})(?!\w)|{money}")
    with speaking(language_of(preferences)):
        told = kept_and_asked(preferences, season_of(preferences))
        texts = [text for _, answer in told for text in words_of(answer())]
    assert len(texts) > 1000
    return [each for each in texts if strange.search(each)]


@pytest.mark.parametrize(("preferences", "units", "money"), FOREIGN)
def test_no_answer_speaks_in_the_units_of_another_country(
    preferences: Preferences, units: tuple[str, ...], money: str
) -> None:
    assert foreign(preferences, units, money) == []


def test_units_of_another_country_would_be_seen() -> None:
    assert foreign(AUSTRALIA, METRIC, "AUD")
    assert foreign(IDAHO, AMERICAN, r"\$")
