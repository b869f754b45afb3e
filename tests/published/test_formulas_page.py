"""The worked figures of the formulas' page, each worked out again by the module that it names.

A row of a table under `| worked | given | gives |` names what is worked out, its givens (`name
figure unit`, between semicolons) and the figure that comes of them, which must agree to the last
digit printed. Every row has its function here, and every function its row.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

import pytest

from bot.reference import fuel_facts, references
from domain.bounds import margins
from domain.carried import PERSON
from domain.couplings import d_fifth_wheel, d_value, dc_value, v_value
from domain.driving import driving
from domain.economy import as_measured, estimate
from domain.entries import Entry, Fill, Rating, Weighing
from domain.fuel import NINETY, Tank, pooled
from domain.loading import (
    BehindCoupling,
    Effect,
    InBed,
    Lacks,
    Levers,
    OnTrailer,
    effect,
    levers,
    place_for_share,
)
from domain.log import Log, Logged
from domain.margins import Unknown
from domain.modes import UNTOLD
from domain.money import fill_cost
from domain.passes import latest_session
from domain.plans import plan, reach
from domain.quantities import Quantity, economy_to
from domain.rig import rig_of
from domain.tiedowns import Article, Ties, needed, supports, working_load
from domain.tyres import axle_load, tyre_load
from domain.uncertainty import exact, spread, tolerance, worth
from domain.weighing import Weights, imbalances, weights_of
from tests.domain.driving_log import Page
from tests.domain.scale_house import START
from tests.whole.documents import text_of

PAGE = text_of("shared/guide/formulas.md")
GIVEN = re.compile(r"(?P<name>\D+?) (?P<value>[\d.,]+)(?: (?P<unit>\S+))?")
Given = Mapping[str, Quantity]


def weighed(*entries: Weighing) -> Weights:
    log = Log(Logged(entry=each, at=START, key=key) for key, each in enumerate(entries))
    session = latest_session(log)
    assert session is not None
    return weights_of(session)


def three(given: Given, *names: str) -> dict[str, Quantity]:
    return {name: given[name] for name in names}


def both_passes(given: Given) -> Weights:
    """The truck alone, then the rig with slack bars."""
    alone = {"steer": given["steer alone"], "drive": given["drive alone"]}
    return weighed(
        Weighing(rig="solo", loads=alone),
        Weighing(rig="hitched", loads=three(given, "steer", "drive", "trailer")),
    )


def tongue(given: Given) -> Quantity:
    found = both_passes(given).tongue
    assert found is not None
    return Quantity(found.load.nominal_value, "kg")


def tongues_uncertainty(given: Given) -> Quantity:
    found = both_passes(given).tongue
    assert found is not None
    doubt = Quantity(spread(found.load), "kg").amount("lb")
    return Quantity(worth(doubt, doubt), "lb")


def load(name: str) -> Callable[[Given], Quantity]:
    """A load of the rig as it was weighed."""

    def found(given: Given) -> Quantity:
        entry = Weighing(rig="hitched", loads=three(given, "steer", "drive", "trailer"))
        return Quantity(weighed(entry).loads[name].nominal_value, "kg")

    return found


def trailer(given: Given) -> Quantity:
    found = both_passes(given).trailer
    assert found is not None
    return Quantity(found.nominal_value, "kg")


def tongue_share(given: Given) -> Quantity:
    found = both_passes(given).share
    assert found is not None
    return Quantity(100 * found.nominal_value, "%")


def restored(given: Given) -> Quantity:
    """The steer axle alone matters; the rest of the rig stays as it is."""
    rest = {"drive": Quantity(6000, "lb"), "trailer": Quantity(8000, "lb")}
    found = weighed(
        Weighing(rig="solo", loads={"steer": given["steer alone"], "drive": Quantity(4600, "lb")}),
        Weighing(rig="hitched", bars="off", loads={"steer": given["steer off"], **rest}),
        Weighing(rig="hitched", bars="on", loads={"steer": given["steer on"], **rest}),
    )
    assert found.bars is not None
    assert found.bars.restored is not None
    return Quantity(100 * found.bars.restored.nominal_value, "%")


def side_to_side(given: Given) -> Quantity:
    loads = {"steer_left": given["left"], "steer_right": given["right"]}
    (found,) = imbalances(weighed(Weighing(rig="solo", loads=loads)))
    return Quantity(100 * found.share, "%")


def scale_tolerance(given: Given) -> Quantity:
    return Quantity(tolerance(given["load"].value, given["division"].value), "lb")


def fuels_weight(given: Given) -> Quantity:
    density = references().densities["diesel"].nominal_value
    return Quantity(given["diesel"].amount("L") * density, "kg")


def left(subject: str, rating: str, bounds: str) -> Callable[[Given], Quantity]:
    """What is left of a rating under the load that it bounds."""

    def found(given: Given) -> Quantity:
        rated = given["rating"] if "rating" in given else given[rating]
        note = f"{given['axles'].value:.0f} axles" if "axles" in given else None
        weight = given["load"] if "load" in given else given[bounds]
        entries: list[Entry] = [
            Rating(subject=subject, rating=rating, value=rated, note=note),
            Weighing(rig="hitched", loads={bounds: weight}),
        ]
        if "gvwr" in given:
            entries.append(Rating(subject="truck", rating="gvwr", value=given["gvwr"]))
        log = Log(Logged(entry=each, at=START, key=key) for key, each in enumerate(entries))
        session = latest_session(log)
        assert session is not None
        (margin,) = (
            each
            for each in margins(rig_of(log), weights_of(session), {})
            if each.limit.rating == rating
        )
        assert not isinstance(margin, Unknown)
        return Quantity(margin.left.nominal_value, "kg")

    return found


def moved(axle: str, given: Given) -> Quantity:
    """What a tongue weight, all of it on the coupling, does to an axle of the truck."""
    arms = Levers(
        overhang=exact(given["overhang"].amount("m") / given["wheelbase"].amount("m")),
        learned=False,
        reach=None,
        wheelbase=None,
    )
    change = effect(BehindCoupling(0.0), arms, ANY)
    assert isinstance(change, Effect)
    return Quantity(given["tongue"].amount("kg") * change.on(axle).nominal_value, "kg")


def from_the_bed(given: Given) -> Quantity:
    wheelbase = given["wheelbase"].amount("m")
    arms = Levers(overhang=None, learned=False, reach=None, wheelbase=wheelbase)
    change = effect(InBed(given["ahead"].amount("m")), arms, ANY)
    assert isinstance(change, Effect)
    return Quantity(given["load"].amount("kg") * change.drive.nominal_value, "kg")


def from_the_deck(given: Given) -> Quantity:
    reach_of_it = given["to the axles"].amount("m")
    arms = Levers(overhang=exact(0.4), learned=False, reach=reach_of_it, wheelbase=None)
    change = effect(OnTrailer(given["ahead"].amount("m")), arms, ANY)
    assert isinstance(change, Effect)
    return Quantity(given["load"].amount("kg") * change.tongue.nominal_value, "kg")


def learned(given: Given) -> Quantity:
    """More on the tongue takes off the steer axle what the weighing showed that it does."""
    lighter = given["steer alone"].value - given["steer"].value
    drive = Quantity(4620 + given["tongue"].value + lighter, "lb")
    found = weighed(
        Weighing(rig="solo", loads={"steer": given["steer alone"], "drive": Quantity(4620, "lb")}),
        Weighing(
            rig="hitched",
            loads={"steer": given["steer"], "drive": drive, "trailer": Quantity(8480, "lb")},
        ),
    )
    change = effect(BehindCoupling(0.0), levers(rig_of(Log(())), found), found)
    assert isinstance(change, Effect)
    return Quantity(given["more tongue"].amount("kg") * change.steer.nominal_value, "kg")


def where_for_a_share(given: Given) -> Quantity:
    """The load is aboard, over the axles."""
    tongue_pounds, whole = given["tongue"].value, given["trailer"].value
    found = weighed(
        Weighing(
            rig="trailer",
            loads={"tongue": given["tongue"], "trailer": Quantity(whole - tongue_pounds, "lb")},
        )
    )
    arms = Levers(
        overhang=None, learned=False, reach=given["to the axles"].amount("m"), wheelbase=None
    )
    place = place_for_share(
        found, arms, given["share"].value / 100, given["load"].amount("kg"), standing=0.0
    )
    assert not isinstance(place, Lacks)
    return Quantity(place.nominal_value, "m")


def tonnes(given: Given, *names: str) -> list[float]:
    return [given[name].amount("t") for name in names]


def deck_v(given: Given) -> float:
    (axles,) = tonnes(given, "axles")
    return v_value(axles, given["deck"].amount("m"), given["to the axle"].amount("m"), "other")


def tyres(given: Given, *, car_tyre: bool = False) -> Quantity:
    one = tyre_load(references().load_index, given["index"].value)
    assert one is not None
    return Quantity(axle_load(one, int(given["tyres"].value), car_tyre=car_tyre), "kg")


def chains(given: Given) -> Ties:
    row = working_load(references().working_loads, "chain", "3/8", "grade 70")
    assert row is not None
    limit = Quantity(row.lb, "lb").amount("kg")
    return Ties(count=int(given["chains"].value), limit=limit, run="to the load")


def chains_needed(given: Given) -> float:
    cargo = Article(weight=given["cargo"].amount("kg"), length=given["length"].amount("m"))
    return needed(cargo, given["limit"].amount("kg"), "to the load")


def tanks(*driven: tuple[float, float]) -> tuple[Tank, ...]:
    """Full tanks of so many miles on so many gallons."""
    page, odometer = Page(), 10_000.0
    page.fill(0, odometer, 10)
    for hours, (miles, gallons) in enumerate(driven, 1):
        odometer += miles
        page.fill(hours, odometer, gallons)
    return page.driven.chain.tanks


def economy(given: Given) -> Quantity:
    found = pooled(tanks((given["distance"].value, given["fuel"].value)))
    assert found is not None
    return economy_to(Quantity(1 / found.rate, "km/L"), "mi/gal")


def economys_uncertainty(given: Given) -> Quantity:
    found = pooled(tanks((given["distance"].value, given["fuel"].value)))
    assert found is not None
    return economy_to(Quantity(NINETY * found.sd / found.rate**2, "km/L"), "mi/gal")


def two_tanks(given: Given) -> Quantity:
    first, then = given["distance"].value, given["distance then"].value
    found = pooled(
        tanks((first, first / given["economy"].value), (then, then / given["economy then"].value))
    )
    assert found is not None
    return economy_to(Quantity(1 / found.rate, "km/L"), "mi/gal")


def told_apart(given: Given) -> Quantity:
    page, odometer = Page(), 10_000.0
    page.fill(0, odometer, 10)
    odometer += given["solo"].value
    page.fill(1, odometer, given["solo fuel"].value)
    odometer += given["solo then"].value
    page.reads(2, odometer)
    page.hitches(2, "flatdeck")
    odometer += given["towing then"].value
    page.fill(3, odometer, given["mixed fuel"].value)
    rates = as_measured(page.driven.chain.tanks)
    (towing,) = [rate for mode, rate in rates.items() if mode != UNTOLD and rate.rate > 0.15]
    return economy_to(Quantity(1 / towing.rate, "km/L"), "mi/gal")


def a_mile(given: Given) -> Quantity:
    cost = fill_cost(Fill(volume=Quantity(21.9, "gal"), cost=given["cost"]))
    assert cost is not None
    return Quantity(cost.value / given["distance"].value, "USD/mi")


def since_full(given: Given) -> Page:
    """A full tank, and the road since; the log tells no economy."""
    page = Page()
    page.add(0, Rating(subject="truck", rating="tank", value=given["tank"]))
    page.fill(1, 10_000, 30)
    page.reads(2, 10_000 + given["since full"].value)
    return page


def fuel_left(given: Given) -> Quantity:
    driven = since_full(given).driven
    return Quantity(reach(driven, estimate(driven.chain.tanks)).left, "L")


def range_ahead(given: Given) -> Quantity:
    driven = since_full(given).driven
    return Quantity(reach(driven, estimate(driven.chain.tanks)).km, "km")


def fuel_ahead(given: Given) -> Quantity:
    driven = driving(Log(()))
    return Quantity(plan(driven, estimate(()), given["distance"].amount("km"), UNTOLD).litres, "L")


def carbon_dioxide(given: Given) -> Quantity:
    kilograms = fuel_facts().co2_kg(given["diesel"].amount("L"), "diesel")
    assert kilograms is not None
    return Quantity(kilograms, "kg")


ANY = weighed(Weighing(rig="solo", loads={"steer": Quantity(5, "t"), "drive": Quantity(4, "t")}))
WORKED: dict[str, Callable[[Given], Quantity | float]] = {
    "truck": load("truck"),
    "gross": load("gross"),
    "tongue": tongue,
    "trailer": trailer,
    "tongue share": tongue_share,
    "restored": restored,
    "side to side": side_to_side,
    "tolerance": scale_tolerance,
    "tongue's uncertainty": tongues_uncertainty,
    "fuel's weight": fuels_weight,
    "people's weight": lambda given: Quantity(PERSON * given["people"].value, "kg"),
    "left of gcwr": left("truck", "gcwr", "gross"),
    "left of gvwr": left("truck", "gvwr", "truck"),
    "left of payload": left("truck", "payload", "truck"),
    "left of trailer axles": left("trailer", "gawr", "trailer"),
    "steer axle, from the tongue": lambda given: moved("steer", given),
    "drive axle, from the tongue": lambda given: moved("drive", given),
    "drive axle, from the bed": from_the_bed,
    "tongue, from the deck": from_the_deck,
    "steer axle, learned": learned,
    "where for a share": where_for_a_share,
    "D": lambda given: d_value(*tonnes(given, "truck", "trailer")),
    "D of a fifth wheel": lambda given: d_fifth_wheel(*tonnes(given, "truck", "trailer", "pin")),
    "Dc": lambda given: dc_value(*tonnes(given, "truck", "axles")),
    "V": deck_v,
    "axle's tyres": tyres,
    "axle's car tyres": lambda given: tyres(given, car_tyre=True),
    "chains' aggregate": lambda given: Quantity(chains(given).aggregate, "kg"),
    "cargo they hold": lambda given: Quantity(supports(chains(given)), "kg"),
    "chains needed": chains_needed,
    "economy": economy,
    "economy's uncertainty": economys_uncertainty,
    "two tanks": two_tanks,
    "litres": lambda given: economy_to(given["economy"], "L/100km"),
    "towing, told apart": told_apart,
    "a mile": a_mile,
    "fuel left": fuel_left,
    "range": range_ahead,
    "fuel ahead": fuel_ahead,
    "carbon dioxide": carbon_dioxide,
}
ECONOMIES = {"mpg": "mi/gal"}


def rows() -> list[tuple[str, str, str]]:
    """The rows of every table of worked figures."""
    tables = re.findall(r"^\| worked \| given \| gives \|\n\|[-|]+\|\n((?:\|.*\n)+)", PAGE, re.M)
    cells = [line.strip("| ").split(" | ") for table in tables for line in table.splitlines()]
    return [(worked, given, gives) for worked, given, gives in cells]


def given_in(text: str) -> dict[str, Quantity]:
    """`steer 4,960 lb; tyres 2` as figures by name."""
    found = {}
    for part in text.split("; "):
        match = GIVEN.match(part)
        assert match is not None, part
        unit = match["unit"] or ""
        found[match["name"]] = Quantity(figure(match["value"]), ECONOMIES.get(unit, unit))
    return found


def figure(text: str) -> float:
    return float(text.replace(",", ""))


@pytest.mark.parametrize(("worked", "given", "gives"), rows(), ids=lambda text: str(text)[:40])
def test_a_worked_figure_is_what_the_module_gives(worked: str, given: str, gives: str) -> None:
    found = WORKED[worked](given_in(given))
    printed, _, unit = gives.partition(" ")
    unit = ECONOMIES.get(unit, unit)
    if isinstance(found, Quantity):
        found = found.value if found.unit == unit else found.amount(unit)
    places = len(printed.partition(".")[2])
    # A whole figure that ends in noughts is printed as closely as it is known: to the unit.
    assert found == pytest.approx(figure(printed), abs=0.5 * 10.0**-places + 1e-9)


def test_every_function_has_its_row() -> None:
    assert {worked for worked, _, _ in rows()} == set(WORKED)


def test_the_page_names_every_module_that_works_something_out() -> None:
    named = set(re.findall(r"`domain/(\w+)\.py`", PAGE))
    ours = {
        function.__module__.removeprefix("domain.")
        for function in globals().values()
        if callable(function) and str(getattr(function, "__module__", "")).startswith("domain.")
    }
    plumbing = {"driving", "entries", "log", "quantities", "rig"}
    assert ours - plumbing <= named
