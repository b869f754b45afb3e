"""Spanish as it is read: numbers in words, letters with accents or without, what answers show."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, timedelta

import pytest

from bot.phrasebook import phrasebook
from domain.context import Context
from domain.entries import Cargo, Check, Correction, Fill, Hitch, Observation, Odometer, Rating
from domain.quantities import Quantity
from domain.reading import read
from domain.reading.lexer import tokenize
from domain.reading.sums import summed
from domain.reading.tokens import NUMBER
from domain.verdicts import PICTURE, Facts, Question, Silent, Verdict
from tests.domain.reading.chats import SENT_AT, chat


def reads(text: str, context: Context | None = None) -> Verdict:
    return read(text, context or chat(), phrasebook("es"))


# Cardinals by the Real Academia's orthography of numerals (Ortografía de la lengua española,
# 2010, chapter VIII), from memory; pairs of digits as people read a scale: common practice.
@pytest.mark.parametrize(
    ("said", "figure"),
    [
        ("cinco mil doscientos ochenta", 5280),
        ("nueve mil", 9000),
        ("mil doscientos", 1200),
        ("mil cien", 1100),
        ("veintiún mil trescientos cuarenta", 21340),
        ("treinta y un mil quinientos", 31500),
        ("cincuenta y dos ochenta", 5280),
        ("sesenta y nueve cuarenta", 6940),
        ("novecientos ochenta y cinco", 985),
        ("9 mil 200", 9200),
    ],
)
def test_a_number_in_words_is_the_figure_that_they_make(said: str, figure: float) -> None:
    tokens = tokenize(f"motriz {said} libras", phrasebook("es"))
    assert [each.value for each in tokens if each.kind is NUMBER] == [figure]


def test_decimals_in_words_stand_behind_the_point_or_the_comma() -> None:
    for said in ("treinta y uno punto cuatro", "treinta y uno coma cuatro"):
        verdict = reads(f"cargamos {said} galones")
        assert isinstance(verdict, Facts)
        (fill,) = verdict.entries
        assert isinstance(fill, Fill)
        assert fill.volume == Quantity(31.4, "gal")


def test_words_that_add_up_are_one_number_and_others_stay_apart() -> None:
    assert summed([30, "and", 1, "point", 4]) == [(31, 0, 3), ("point", 3, 4), (4, 4, 5)]
    assert summed([50, "and", 2, 80]) == [(52, 0, 3), (80, 3, 4)]
    assert summed([48.0, "thousand", 200, 11]) == [
        (48.0, 0, 1),
        ("thousand", 1, 2),
        (211, 2, 4),
    ]


@pytest.mark.parametrize("text", ["enganché el remolque", "enganche el remolque"])
def test_an_accent_may_be_left_out(text: str) -> None:
    verdict = reads(text)
    assert isinstance(verdict, Facts)
    assert [type(each) for each in verdict.entries] == [Hitch]


def test_an_odometer_grouped_by_a_dot_is_whole() -> None:
    verdict = reads("odómetro 52.480 km", chat(units="metric"))
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Odometer)
    assert entry.odometer == Quantity(52480, "km")


@pytest.mark.parametrize(
    "text",
    [
        "camioneta Juniper gvwr 11500 eje delantero 5600 eje trasero 7000",
        "remolque flatdeck gvwr 12000 ejes 2x6000",
        "dirección 5280 motriz 6940 remolque 9840",
        "sola: dirección 4980 motriz 3860",
        "48211, 31 gal a 3.899, lleno",
        "odómetro 48211, 31 gal, lleno",
        "enganchado flatdeck, salida, 48011",
        "casa 48655",
        "que sean 5230",
        "motriz era 6940",
        "deshacer",
        "gcwr 27000",
        "carga útil 3180",
        "límite arrastre 16000",
        "límite enganche 14000",
        "límite lanza 1400",
        "tanque 34 gal diésel",
        "tanque def 5 gal",
        "camioneta distancia entre ejes 160 pulg, voladizo 52 pulg",
        "y si pongo 600 lb en la caja",
        "márgenes",
        "ayuda",
        "idioma inglés",
        "invitar",
        "invitar lector",
        "quitar 2",
        "muéstrame el equipo",
        "¿cuánto pesamos?",
        "¿estamos excedidos?",
        "¿rendimiento?",
        "¿cómo nos fue esta semana?",
    ],
)
def test_what_answers_show_as_an_example_is_read(text: str) -> None:
    known = chat(odometer=Quantity(48000, "mi"), truck="Juniper", trailers=("flatdeck",))
    assert not isinstance(reads(text, known), Silent)


@pytest.mark.parametrize(
    ("text", "entry"),
    [
        ("aceite cada 10.000 km", ("every", Quantity(10000, "km"))),
        ("aceite cada 10 mil km", ("every", Quantity(10000, "km"))),
        ("último cambio de aceite a los 41.000", ("done_at", Quantity(41000, "km"))),
        ("engrasar baleros del remolque cada 15,000 km", ("every", Quantity(15000, "km"))),
        ("tanque de urea 18,9 litros", ("def_tank", Quantity(18.9, "L"))),
        ("tanque def 5 gal", ("def_tank", Quantity(5, "gal"))),
    ],
)
def test_figures_of_standing_matters_are_grouped_and_parted_as_people_write_them(
    text: str, entry: tuple[str, Quantity]
) -> None:
    verdict = reads(text, chat(units="metric", trailers=("flatdeck",)))
    assert isinstance(verdict, Facts)
    (rating,) = verdict.entries
    assert isinstance(rating, Rating)
    assert (rating.rating, rating.value) == entry


def test_what_was_done_at_a_reading_with_a_point_for_thousands_is_no_temperature() -> None:
    verdict = reads("cambié el aceite 41.000", chat(units="metric", trailers=("flatdeck",)))
    assert isinstance(verdict, Facts)
    assert verdict.entries == (
        Check(item="aceite", state="done"),
        Odometer(odometer=Quantity(41000, "km")),
    )


@pytest.mark.parametrize(
    ("text", "pressures"),
    [
        ("llantas de la traila a 65 libras", [65]),
        ("llantas a 60 libras adelante y 75 atrás", [60, 75]),
        ("cargué 4 llantas, 100 libras, en la caja", []),
        ("4 llantas 100 libras en la caja", []),
    ],
)
def test_pounds_that_a_tyre_holds_are_a_pressure(text: str, pressures: list[float]) -> None:
    verdict = reads(text)
    read_ones = verdict.entries if isinstance(verdict, Facts) else ()
    found = [each.value for each in read_ones if isinstance(each, Observation)]
    assert found == [Quantity(value, "psi") for value in pressures]


@pytest.mark.parametrize("text", ["MMA del coche 3.050", "MMA del coche 3,05"])
def test_a_rating_with_decimals_is_in_tonnes_where_kilograms_are_meant(text: str) -> None:
    verdict = reads(text, chat(units="metric", truck="Juniper"))
    assert isinstance(verdict, Facts)
    (rating,) = verdict.entries
    assert isinstance(rating, Rating)
    assert rating.value == Quantity(3.05, "t")


@pytest.mark.parametrize(
    ("text", "topic"),
    [
        ("muéstrame", "weight"),
        ("enséñame el dibujo", "weight"),
        ("¿me enseñas la gráfica?", "weight"),
        ("quiero ver el equipo", "weight"),
        ("muéstrame los márgenes por favor", "margin"),
        ("dibuja el consumo", "economy"),
        ("a ver la semana pasada", "week"),
    ],
)
def test_a_picture_is_asked_for(text: str, topic: str) -> None:
    verdict = reads(text)
    assert isinstance(verdict, Question)
    assert (verdict.topic, verdict.form) == (topic, PICTURE)


@pytest.mark.parametrize(
    "text",
    ["enséñame a manejar", "enséñame la foto del bebé", "a ver", "dibujo", "muéstrame tu perro"],
)
def test_people_show_each_other_other_things(text: str) -> None:
    assert reads(text) == Silent()


@pytest.mark.parametrize(
    ("text", "position"),
    [
        ("¿y si quito 400 lb de la caja?", "caja"),
        ("si pongo 200 lb en la punta", "punta"),
        ("¿y si saco 200 lb de la cabina?", "cabina"),
        ("¿y si paso 600 lb de la caja al remolque?", "caja"),
        (
            "¿y si pongo 300 lb 2 pies detrás de los ejes del remolque?",
            "detras de ejes del remolque",
        ),
    ],
)
def test_where_a_load_is_taken_from_or_put(text: str, position: str) -> None:
    verdict = reads(text, chat(truck="Juniper", trailers=("flatdeck",)))
    assert isinstance(verdict, Question)
    assert (verdict.topic, verdict.item, verdict.position) == ("whatif", None, position)


def test_a_load_ahead_of_the_trailers_axle_keeps_its_place() -> None:
    text = "cargamos el generador, 210 lb, 4 pies delante del eje del remolque"
    verdict = reads(text, chat(truck="Juniper", trailers=("flatdeck",)))
    assert isinstance(verdict, Facts)
    (cargo,) = verdict.entries
    assert isinstance(cargo, Cargo)
    assert (cargo.position, cargo.distance) == ("delante del eje del remolque", Quantity(4, "ft"))


@pytest.mark.parametrize(
    ("text", "subject", "rating"),
    [
        ("la bola admite 100 kg de carga vertical", "ball", "tongue"),
        ("el enganche aguanta 640 kg de lanza", "hitch", "tongue"),
        ("el enganche aguanta 6400 kg", "hitch", "tow"),
    ],
)
def test_what_a_part_carries_is_told_from_what_it_tows(
    text: str, subject: str, rating: str
) -> None:
    verdict = reads(text, chat(units="metric"))
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Rating)
    assert (entry.subject, entry.rating) == (subject, rating)


@pytest.mark.parametrize(
    ("text", "litres"), [("puse 2 litros y medio de urea", 2.5), ("10 litros de adblue", 10)]
)
def test_a_half_behind_the_unit_counts(text: str, litres: float) -> None:
    verdict = reads(text, chat(units="metric"))
    assert isinstance(verdict, Facts)
    (fill,) = verdict.entries
    assert isinstance(fill, Fill)
    assert fill.volume == Quantity(litres, "L")


@pytest.mark.parametrize(
    ("text", "ratings"),
    [
        ("el enganche aguanta 14000 y 1400 de lengua", {"tow": 14_000, "tongue": 1_400}),
        ("enganche: 12000 libras y 1200 en la lengua", {"tow": 12_000, "tongue": 1_200}),
    ],
)
def test_the_tongue_goes_by_the_name_that_it_has_on_the_border(
    text: str, ratings: dict[str, float]
) -> None:
    verdict = reads(text)
    assert isinstance(verdict, Facts)
    assert {each.rating: each.value for each in verdict.entries if isinstance(each, Rating)} == {
        name: Quantity(value, "lb") for name, value in ratings.items()
    }


@pytest.mark.parametrize(
    ("text", "axles"),
    [
        ("remolque dos ejes de 6000", 2),
        ("remolque 2 ejes de 6000 libras", 2),
        ("tres ejes de 6000", 3),
    ],
)
def test_how_many_axles_stands_before_their_name(text: str, axles: int) -> None:
    verdict = reads(text)
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Rating)
    assert (entry.rating, entry.value, entry.note) == (
        "gawr",
        Quantity(6000, "lb"),
        f"{axles} axles",
    )


def test_the_hub_of_a_wheel_is_no_tyre() -> None:
    verdict = reads("se calentó la masa de la rueda derecha, 190 grados", chat(truck="Juniper"))
    assert isinstance(verdict, Facts)
    (entry,) = verdict.entries
    assert isinstance(entry, Observation)
    assert (entry.subject, entry.position) == ("hub", "right")


METRIC = chat(units="metric", currency="EUR", language="es", trailers=("camper",))


def rated(subject: str, rating: str, kilograms: float, trailer: str | None = None) -> Rating:
    """A rating in kilograms."""
    return Rating(subject=subject, rating=rating, value=Quantity(kilograms, "kg"), trailer=trailer)


@pytest.mark.parametrize(
    ("text", "ratings"),
    [
        ("gawr eje delantero 1850", [rated("truck", "gawr_front", 1850)]),
        ("GAWR eje trasero 2300 kg", [rated("truck", "gawr_rear", 2300)]),
        ("eje trasero gawr 2300", [rated("truck", "gawr_rear", 2300)]),
        ("gawr del eje delantero 1850 kg", [rated("truck", "gawr_front", 1850)]),
        (
            "MMA 3500, MMA eje 1 1750, MMA eje 2 2100",
            [
                rated("truck", "gvwr", 3500),
                rated("truck", "gawr_front", 1750),
                rated("truck", "gawr_rear", 2100),
            ],
        ),
        ("límite enganche lanza 250", [rated("hitch", "tongue", 250)]),
        ("límite de peso en la lanza 250 kg", [rated("hitch", "tongue", 250)]),
        ("límite eje remolque 1500", [rated("trailer", "gawr", 1500)]),
        (
            "límite enganche 3500 lanza 350",
            [rated("hitch", "tow", 3500), rated("hitch", "tongue", 350)],
        ),
        ("carga máxima vertical 100 kg", [rated("truck", "tongue", 100)]),
        ("límite de lanza del camper 120 kg", [rated("trailer", "tongue", 120, trailer="camper")]),
    ],
)
def test_a_plate_is_a_limit_and_no_weighing(text: str, ratings: list[Rating]) -> None:
    assert reads(text, METRIC) == Facts(tuple(ratings))


@pytest.mark.parametrize(
    "text",
    [
        "pesamos: eje delantero 1850, eje trasero 2300",
        "eje delantero 1850 kg y eje trasero 2300 kg en la báscula",
        "peso en la lanza 140 kg",
    ],
)
def test_what_a_scale_shows_is_no_limit(text: str) -> None:
    verdict = reads(text, METRIC)
    assert isinstance(verdict, Facts)
    assert not any(isinstance(each, Rating) for each in verdict.entries)


@pytest.mark.parametrize(
    "text",
    [
        "el límite en la autopista es 120",
        "máximo a las 8 en casa",
        "límite de peso en el ascensor 450 kg",
        "sin límite de gb por 20 al mes",
        "me dio 1850 de límite en la tarjeta",
        "el gawr no lo encuentro",
        "eje de la cuestión, 3 puntos",
        "límite de edad 18",
        "máximo 4 por persona",
        "la mma del sábado empieza a las 10",
    ],
)
def test_limits_of_other_things_are_talk(text: str) -> None:
    assert reads(text, METRIC) == Silent()


def test_a_thing_named_with_of_keeps_both_its_words() -> None:
    verdict = reads("caja de herramientas 35 kg en la batea", METRIC)
    assert verdict == Facts(
        (Cargo(item="caja de herramientas", value=Quantity(35, "kg"), position="batea"),)
    )


def test_dotted_loads_that_are_put_right_are_tonnes() -> None:
    assert reads("el eje trasero era 1.680 no 1.860", METRIC) == Facts(
        (
            Correction(
                action="amend", field="drive", value=Quantity(1.68, "t"), was=Quantity(1.86, "t")
            ),
        )
    )


def test_the_unit_of_two_products_is_said_once() -> None:
    read = replace(METRIC, odometer=Quantity(51_200, "km"))
    verdict = reads("62 litros de diesel y 10 de adblue, odómetro 51.402", read)
    assert verdict == Facts(
        (
            Fill(product="diesel", volume=Quantity(62, "L"), odometer=Quantity(51_402, "km")),
            Fill(product="def", volume=Quantity(10, "L")),
        )
    )


def test_a_limit_of_speed_is_no_speed() -> None:
    assert reads("el límite de velocidad es 120", METRIC) == Silent()
    assert isinstance(reads("velocidad 95", METRIC), Facts)


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ("hora y media", 1.5),
        ("una hora y media", 1.5),
        ("dos horas y cuarto", 2.25),
        ("tres cuartos de hora", 0.75),
    ],
)
def test_how_long_ago_it_was(said: str, hours: float) -> None:
    verdict = reads(f"cargué 40 litros de diesel hace {said}", chat(units="metric"))
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry.at, datetime)
    assert SENT_AT - entry.at == timedelta(hours=hours)
