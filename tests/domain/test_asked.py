"""What questions about load and tie-downs mean, from their words where their fields are bare."""

from __future__ import annotations

from typing import cast

import pytest

from bot.phrasebook import asked_words
from domain.asked_load import Asked, HowMuch, Moved, Put, Taken, Unclear, WhereFor, asked
from domain.asked_ties import asked_article, asked_ties
from domain.loading import BehindCoupling, InBed, InCab, OnTrailer, Spread
from domain.quantities import Quantity
from domain.verdicts import MORE, Question
from tests.domain.scale_house import Ticket, lb

FOOT = 0.3048
SKID, GENERATOR = lb(3200).amount("kg"), lb(210).amount("kg")


def meant(text: str, **said: object) -> Asked:
    ticket = Ticket().loads("skid steer", 3200, "ahead of trailer axle", 2)
    ticket.loads("generator", 210, "bed")
    question = Question(topic="whatif", text=text, **said)  # type: ignore[arg-type]
    return asked(question, ticket.log, asked_words())


def near(metres: float) -> float:
    """A length that compares equal to rounding."""
    return cast(float, pytest.approx(metres, rel=1e-4))


POUNDS = lb(600).amount("kg")
WATER = near(40 * 8.345 * 0.45359237)
"""40 US gallons at 8.345 lb, as handbooks print it of water at 4 °C; from memory."""
CASES: list[tuple[str, dict[str, object], Asked]] = [
    (
        "what if we add 600 lb four feet ahead of the trailer axle",
        {"value": lb(600), "position": "ahead of trailer axle"},
        Put("that", POUNDS, OnTrailer(near(4 * FOOT))),
    ),
    (
        "what if 600 lb 18 inches behind the coupler",
        {"value": lb(600), "position": "behind coupler"},
        Put("that", POUNDS, BehindCoupling(near(0.4572))),
    ),
    (
        "what if we put 600 lb 2 ft behind the axles",
        {"value": lb(600), "position": "behind axles"},
        Put("that", POUNDS, OnTrailer(near(-2 * FOOT))),
    ),
    ("how many lbs can i add", {"form": MORE}, HowMuch(Spread())),
    ("how many more bales can I throw on", {"form": MORE}, HowMuch(Spread())),
    ("600 lb in the bed", {"value": lb(600), "position": "bed"}, Put("that", POUNDS, InBed(0.0))),
    ("can we chuck 600 lb on the ute", {"value": lb(600)}, Put("that", POUNDS, InBed(0.0))),
    (
        "what if we load 600 lb in Juniper",
        {"value": lb(600), "truck": "Juniper"},
        Put("that", POUNDS, InBed(0.0)),
    ),
    (
        "can the truck take 600 lb on the trailer",
        {"value": lb(600)},
        Put("that", POUNDS, Spread()),
    ),
    ("600 lb in the cab", {"value": lb(600), "position": "cab"}, Put("that", POUNDS, InCab())),
    (
        "600 lb over the axles",
        {"value": lb(600), "position": "over axles"},
        Put("that", POUNDS, OnTrailer(0.0)),
    ),
    (
        "600 lb on the flatdeck",
        {"value": lb(600), "trailer": "flatdeck"},
        Put("that", POUNDS, Spread()),
    ),
    ("how much more can i carry on the flatdeck", {"trailer": "flatdeck"}, HowMuch(Spread())),
    ("how much more can i put in the bed", {"position": "bed"}, HowMuch(InBed(0.0))),
    (
        "where must the skid go for 12 % tongue",
        {"field": "tongue"},
        WhereFor("skid steer", SKID, 0.12, near(2 * FOOT)),
    ),
    (
        "what if we move the skid 2 ft forward",
        {},
        Moved("skid steer", SKID, OnTrailer(0.0), OnTrailer(near(2 * FOOT))),
    ),
    (
        "slide the skid steer back three feet",
        {},
        Moved("skid steer", SKID, OnTrailer(0.0), OnTrailer(near(-3 * FOOT))),
    ),
    (
        "what if the generator goes over the axles",
        {"item": "generator", "position": "over axles"},
        Moved("generator", GENERATOR, InBed(0.0), OnTrailer(0.0)),
    ),
    (
        "what if we take the generator off",
        {"item": "generator"},
        Taken("generator", GENERATOR, InBed(0.0)),
    ),
    (
        "what if we drain 600 lb of water over the axles",
        {"value": lb(600), "item": "water", "position": "over axles"},
        Taken("water", POUNDS, OnTrailer(0.0)),
    ),
    (
        "what if we put 40 gal of water over the axles",
        {"value": Quantity(40, "gal"), "item": "water", "position": "over axles"},
        Put("water", WATER, OnTrailer(0.0)),
    ),
    ("what if i add a mower in the bed", {"item": "mower", "position": "bed"}, Unclear("mass")),
    (
        "slide the generator to the trailer nose",
        {"item": "generator", "position": "trailer nose"},
        Unclear("distance"),
    ),
    (
        "what if we move 600 lb to the bed",
        {"value": lb(600), "position": "bed"},
        Unclear("start"),
    ),
    ("where must the skid go", {}, Unclear("share")),
    (
        "what happens to the rear axle if my brother rides along, 200 lb",
        {"value": lb(200), "field": "drive"},
        Put("that", lb(200).amount("kg"), InCab()),
    ),
    (
        "suppose aunt june comes too, 160 lb",
        {"value": lb(160)},
        Put("that", lb(160).amount("kg"), InCab()),
    ),
    (
        "what if two more adults ride along, 380 lb",
        {"value": lb(380)},
        Put("that", lb(380).amount("kg"), InCab()),
    ),
    (
        "do we have room for a 600 lb cooler",
        {"value": lb(600), "item": "cooler"},
        Put("cooler", POUNDS, Spread()),
    ),
    (
        "how much does the tongue go up if i add 600 lb in the bed",
        {"value": lb(600), "position": "bed"},
        Put("that", POUNDS, InBed(0.0)),
    ),
]


@pytest.mark.parametrize(("text", "said", "means"), CASES, ids=[each[0] for each in CASES])
def test_a_question_about_load_is_one_of_five_requests(
    text: str, said: dict[str, object], means: Asked
) -> None:
    assert meant(text, **said) == means


@pytest.mark.parametrize(
    ("text", "count", "material", "size", "grade"),
    [
        ("4 chains 3/8 grade 70 on 9,200 lb?", 4, "chain", "3/8", "grade 70"),
        ("are four 3/8 g70 chains enough for 9200 lb", 4, "chain", "3/8", "grade 70"),
        ("2 two inch straps on 3,000 lb", 2, "synthetic webbing", "", ""),
        ('3 x 4" straps', 3, "synthetic webbing", "4", ""),
        ("how many 1-3/4 inch straps", None, "synthetic webbing", "1-3/4", ""),
        ("six 5/16 transport chains", 6, "chain", "5/16", "grade 70"),
        ("two 1/2 nylon ropes", 2, "nylon rope", "1/2", ""),
        ("4 chains 10 mm grade 70 for 2500 kg?", 4, "chain", "10 mm", "grade 70"),
        ("how many 8mm g80 chains", None, "chain", "8 mm", "grade 80"),
        ("two 50 millimetre straps", 2, "synthetic webbing", "50 mm", ""),
        ("how do i tie it down", None, None, "", ""),
        ("whats the wll on 3/8 grade 70", None, "chain", "3/8", "grade 70"),
        ("four 10,000 lb ratchet straps on 9,000 lb", 4, "synthetic webbing", "", ""),
    ],
)
def test_tie_downs_are_read_out_of_the_words(
    text: str, count: int | None, material: str | None, size: str, grade: str
) -> None:
    found = asked_ties(Question(topic="tiedown", text=text), asked_words())
    assert (found.count, found.material, found.size, found.grade) == (count, material, size, grade)


@pytest.mark.parametrize(
    ("text", "limit"),
    [
        ("4 straps wll 3,333 lb", Quantity(3333, "lb")),
        ("are 4 straps at 3,333 lb enough for 8,000 lb", Quantity(3333, "lb")),
        ("4 straps rated 1500 kg", Quantity(1500, "kg")),
        ("4 straps, 5000 lb wll each", Quantity(5000, "lb")),
        ("2 straps, 800 kg lashing capacity", Quantity(800, "kg")),
        ("how many 3,333 lb straps for the tractor", Quantity(3333, "lb")),
        ("are four 10,000 lb ratchet straps enough for 9,000 lb", Quantity(10_000, "lb")),
        ("4 straps on 5000 lb", None),
        ("whats the wll on 3/8 grade 70", None),
        ("what is the wll of a 10 mm chain", None),
        ("working load limit for a 3 inch strap", None),
    ],
)
def test_a_stated_working_load_limit_is_taken(text: str, limit: Quantity | None) -> None:
    assert asked_ties(Question(topic="tiedown", text=text), asked_words()).limit == limit


def test_the_cargo_has_its_length_its_kind_and_its_blocking() -> None:
    tied = asked_article(
        Question(
            topic="tiedown",
            text="how many straps for a 4,200 lb tractor 12 ft long, blocked in front",
            value=lb(4200),
            item="tractor",
        ),
        asked_words(),
    )
    assert tied is not None
    assert tied.length == pytest.approx(12 * FOOT)
    assert tied.kind == "machinery"
    assert tied.blocked
    loose = asked_article(
        Question(topic="tiedown", text="2 two inch straps, 900 lb, not blocked", value=lb(900)),
        asked_words(),
    )
    assert loose is not None
    assert loose.length is None
    assert not loose.blocked
    assert asked_article(Question(topic="tiedown", text="enough straps?"), asked_words()) is None


@pytest.mark.parametrize(
    ("text", "count", "material", "size", "grade", "run"),
    [
        ("¿bastan 4 cadenas 3/8 grado 70 para 9.200 lb?", 4, "chain", "3/8", "grade 70", "to"),
        ("tres cinchas de 2 pulgadas para 900 kg", 3, "synthetic webbing", "2", "", "to"),
        ("¿cuántas correas por encima de la carga?", None, "synthetic webbing", "", "", "over"),
        ("2 cadenas de transporte 3/8 alcanzan?", 2, "chain", "3/8", "grade 70", "to"),
        ("alcanzan 3 cadenas de 3/8?", 3, "chain", "3/8", "", "to"),
        ("6 cuerdas de nailon de 1/2", 6, "nylon rope", "1/2", "", "to"),
        ("4 sogas de nylon de 1/2", 4, "nylon rope", "1/2", "", "to"),
    ],
)
def test_tie_downs_that_a_spanish_question_names(
    text: str, count: int | None, material: str, size: str, grade: str, run: str
) -> None:
    ties = asked_ties(Question(topic="tiedown", text=text), asked_words())
    assert (ties.count, ties.material, ties.size, ties.grade) == (count, material, size, grade)
    assert ties.run.startswith(run)


def test_the_cargo_and_the_limit_of_a_spanish_question() -> None:
    text = "4 cinchas de 1.500 kg de carga de trabajo, minicargador de 3,5 metros contra el frente"
    question = Question(topic="tiedown", text=text, value=Quantity(3100, "kg"))
    article, ties = asked_article(question, asked_words()), asked_ties(question, asked_words())
    assert article is not None
    assert (article.kind, article.blocked) == ("machinery", True)
    assert article.length == pytest.approx(3.5)
    assert (ties.count, ties.limit) == (4, Quantity(1500, "kg"))


@pytest.mark.parametrize(
    "text",
    ["cuánto puedo cargar en la plataforma?", "cuánta carga le cabe", "cuanto mas puedo llevar"],
)
def test_how_much_fits_is_asked_in_spanish(text: str) -> None:
    assert meant(text) == HowMuch(Spread())
