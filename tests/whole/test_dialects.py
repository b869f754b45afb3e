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
from bot.answers.meanings import meaning_answer
from bot.answers.plain import as_text
from bot.answers.weights import tongue_answer
from bot.glossary import glossary_in
from bot.shared_data import names, shared
from domain.entries import Rating, Weighing
from domain.log import Log, Preferences
from domain.quantities import Quantity
from domain.verdicts import Question
from tests.whole.catalogues import said
from tests.whole.occasions import kept_and_asked, season_of, words_of
from tests.whole.test_answers import AT, logged

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


@pytest.mark.parametrize("dialect", [each for each in CHATS if each.startswith("en_")])
def test_no_english_answer_speaks_of_tongues_and_door_labels_abroad(dialect: str) -> None:
    """What rests on the ball is ball weight in Australia, nose weight in Britain."""
    preferences = CHATS[dialect]
    with speaking(language_of(preferences)):
        told = [*kept_and_asked(preferences, season_of(preferences))]
        texts = [text for _, answer in told for text in words_of(answer())]
        texts += words_of(setup.help_answer(preferences))
    defined = glossary_in("en").terms.values()
    asked = {text for term in defined for text in (term.says, term.where)}
    american = [each for each in texts if re.search(r"\btongue|door label", each, re.IGNORECASE)]
    assert set(american) <= asked


@pytest.mark.parametrize(
    ("currency", "customary"),
    [
        ("USD", "Customary is 10 to 15 %"),
        ("AUD", "Customary is 8 to 15 %"),
        ("GBP", "Customary is 5 to 7 %"),
        ("EUR", "Customary is 4 to 10 %"),
    ],
)
def test_what_a_nose_weight_is_comes_with_the_share_of_the_country(
    currency: str, customary: str
) -> None:
    preferences = Preferences(units="metric", currency=currency)
    with speaking(language_of(preferences)):
        answer = meaning_answer(
            Log(()), preferences, AT, Question(topic="meaning", meaning=("tongue",))
        )
    assert customary in answer.notes[0]


def nosed(tongue: float, currency: str) -> str:
    """What is said to a caravan of 1,500 kg on the axles, weighed with a gauge under its nose."""
    preferences = Preferences(units="metric", currency=currency)
    log = Log(
        logged(
            Weighing(rig="hitched", loads={"truck": kg(2400), "trailer": kg(1500)}),
            Weighing(loads={"tongue": kg(tongue)}),
        )
    )
    with speaking(language_of(preferences)):
        return as_text(tongue_answer(log, preferences, AT, Question(topic="tongue")))


@pytest.mark.parametrize(
    ("tongue", "currency", "said"),
    [
        (100, "USD", "Tongue share is low: it may sway. Move trailer load forward."),
        (100, "AUD", "Ball weight is low: it may sway. Move trailer load forward."),
        (100, "GBP", "Customary is 5-7 %; more is steadier, as far as every rating allows."),
        (140, "GBP", "Customary is 5-7 %; more is steadier, as far as every rating allows."),
        (50, "GBP", "Nose weight is low: it may snake. Move trailer load forward."),
        (220, "GBP", "Nose weight is high. Move trailer load back."),
        (160, "AUD", "Customary is 8-15 %."),
        (160, "EUR", "Customary is 4-10 %."),
        (220, "USD", "Customary is 10-15 %."),
    ],
)
def test_a_nose_weight_is_judged_by_the_custom_of_the_country(
    tongue: float, currency: str, said: str
) -> None:
    answer = nosed(tongue, currency)
    assert said in answer
    if not re.search("low|high", said):
        assert not re.search(r"share is|eight is (low|high)", answer)


def test_a_payload_is_asked_for_only_where_a_placard_states_one() -> None:
    rating = Rating(subject="truck", rating="gvwr", value=kg(3500), truck="Juniper")
    for currency, asked in (("USD", True), ("AUD", False), ("GBP", False), ("EUR", False)):
        preferences = Preferences(units="metric", currency=currency)
        with speaking(language_of(preferences)):
            answer = setup.ratings_kept(Log(logged(rating)), preferences, [rating])
        assert ("payload" in as_text(answer)) is asked, currency


@pytest.mark.parametrize(
    ("currency", "called"), [("USD", "empty weight"), ("AUD", "tare mass"), ("NZD", "tare")]
)
def test_a_trailer_has_an_empty_weight_and_no_curb_weight(currency: str, called: str) -> None:
    preferences = Preferences(units="metric", currency=currency)
    rating = Rating(subject="trailer", rating="curb", value=kg(1400), trailer="flatdeck")
    with speaking(language_of(preferences)):
        answer = setup.ratings_kept(Log(logged(rating)), preferences, [rating])
    assert answer.headline == f"Flatdeck: {called} 1,400 kg."


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
