"""What a plate says in another country is called so in its chats.

Sources of the names, from memory: Australian Design Rules, Definitions and Vehicle Categories (GVM,
ATM, GTM); Vehicle Dimensions and Mass 2016 of New Zealand (GVM, GCM); Highway Code, Annex 6, of
Britain (maximum authorised mass); Reglamento General de Vehículos of Spain (MMA, MMC);
NOM-012-SCT-2 of Mexico (peso bruto vehicular).
"""

from __future__ import annotations

import re

import pytest
from babel.messages.pofile import read_po

from bot.answers import setup
from bot.answers.language import DIALECTS, DIALECTS_FOLDER, language_of, languages, speaking
from bot.answers.plain import as_text
from bot.shared_data import names, shared
from domain.entries import Rating
from domain.log import Log, Preferences
from domain.quantities import Quantity
from tests.whole.catalogues import said
from tests.whole.occasions import kept_and_asked, season_of, words_of
from tests.whole.test_answers import logged

CHATS = {
    dialect: Preferences(
        units="imperial" if currency == "GBP" else "metric",
        currency=currency,
        language=language,
        time_zone="UTC",
    )
    for (language, currency), dialect in DIALECTS.items()
}
AMERICAN = re.compile(r"\b(gvwr|gcwr|gawr|curb)\b", re.IGNORECASE)


def catalogue(dialect: str) -> dict[str, str]:
    with (shared() / DIALECTS_FOLDER / f"{dialect}.po").open("rb") as file:
        return {f"{each.context}: {each.id}": str(each.string) for each in read_po(file) if each.id}


def test_every_dialect_is_somebodys_and_is_of_a_language() -> None:
    found = {name.rpartition("/")[2].removesuffix(".po") for name in names(DIALECTS_FOLDER, ".po")}
    assert found == set(DIALECTS.values())
    assert {code for code, _ in DIALECTS} <= set(languages())


@pytest.mark.parametrize("dialect", CHATS)
def test_a_dialect_has_only_messages_that_are_said_and_keeps_their_places(dialect: str) -> None:
    messages = {f"{each.context}: {each.id}" for each in said() if each.id}
    words = catalogue(dialect)
    assert set(words) <= messages
    for message, text in words.items():
        assert sorted(re.findall(r"\{\w+\}", message)) == sorted(re.findall(r"\{\w+\}", text))


@pytest.mark.parametrize("dialect", CHATS)
def test_no_answer_speaks_of_american_plates_where_there_are_none(dialect: str) -> None:
    preferences = CHATS[dialect]
    with speaking(language_of(preferences)):
        told = [*kept_and_asked(preferences, season_of(preferences))]
        texts = [text for _, answer in told for text in words_of(answer())]
        texts += words_of(setup.help_answer(preferences))
    assert len(texts) > 1000
    assert [each for each in texts if AMERICAN.search(each)] == []


@pytest.mark.parametrize(
    ("dialect", "truck", "trailer"),
    [
        ("en_AU", "Juniper: GVM 3,500 kg.", "Flatdeck: ATM 3,200 kg."),
        ("en_NZ", "Juniper: GVM 3,500 kg.", "Flatdeck: GVM 3,200 kg."),
        ("en_GB", "Juniper: MAM 3,500 kg.", "Flatdeck: MAM 3,200 kg."),
        ("es_ES", "Juniper: MMA 3.500 kg.", "Flatdeck: MMA 3.200 kg."),
        ("es_MX", "Juniper: PBV 3,500 kg.", "Flatdeck: PBV 3,200 kg."),
    ],
)
def test_a_rating_is_confirmed_by_the_name_that_is_on_the_plate(
    dialect: str, truck: str, trailer: str
) -> None:
    preferences = CHATS[dialect]
    for rating, line in (
        (Rating(subject="truck", rating="gvwr", value=kg(3500), truck="Juniper"), truck),
        (Rating(subject="trailer", rating="gvwr", value=kg(3200), trailer="flatdeck"), trailer),
    ):
        with speaking(language_of(preferences)):
            answer = setup.ratings_kept(Log(logged(rating)), preferences, [rating])
        assert as_text(answer).splitlines()[0] == line


def test_a_country_without_a_dialect_speaks_its_language() -> None:
    preferences = Preferences(units="metric", currency="CAD")
    rating = Rating(subject="trailer", rating="gvwr", value=kg(3200), trailer="flatdeck")
    with speaking(language_of(preferences)):
        answer = setup.ratings_kept(Log(logged(rating)), preferences, [rating])
    assert answer.headline == "Flatdeck: GVWR 3,200 kg."


def kg(value: float) -> Quantity:
    return Quantity(value, "kg")
