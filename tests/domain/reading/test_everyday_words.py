"""Words that people text about other things too: weather, school, films, phones and houses.

Each message here is invented. What looks like an entry and is none gets silence; beside it stand
messages of the same words that are meant for the log.
"""

from __future__ import annotations

import pytest

from domain.entries import Cargo, Check, Entry, Hitch, Observation, Odometer, Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road

TALK = (
    # Marks at school, shares of something, and steps of a treadmill are no slope.
    "the essay is 40% of my grade",
    "15% of the grade is attendance",
    "a 5% grade bonus for handing it in early",
    # What is posted, what others drove, and what counts gears.
    "it's a 30 mph zone past the school",
    "they put up a 45 mph speed limit by us",
    "a five speed manual is all i can drive",
    "going 75 mph on that road is silly",
    "the car was doing 70 mph when it left the road",
    "my new disk spins at 7200rpm and the drive is still slow to copy",
    # Weather as it is reported, expected, or enjoyed.
    "the wind is expected to be 20 mph on sunday",
    "average wind 9 mph, humidity 40 percent",
    "weather 28 degrees",
    "when it's 85 degrees out all anybody wants is a swim and a lemonade",
    "2 flat whites with oat milk",
    "meet us at 3 Amb Lane",
    # Figures that no gauge shows, and gauges that are something else.
    "i need a usb 3.0 hub",
    "if trans hits 230 stop, its 217 miles home",
    "my exam is at 230, its at 217 main",
    "oil on canvas 40x50",
    "the transmission rate is 200",
    "the oil pump went in my 98 hatchback",
    # A house number is no axle's rating.
    "a rated place to eat at 118 Rosewood Drive",
    # Years, and letters that mean something else.
    "Spring Ball 2019 at the school",
    "see you all at #wc2018",
    "29,400 atm",
    "my upload atm is about 12000",
    # Things that break at home and in a pocket.
    "my battery is dead",
    "the low fuel light came on",
    "the car's battery died",
    "the lamp on my desk is out",
    "nothing shocks me in this town",
    "light up ladies",
    "a countdown chain for when i move out",
    "still connected to a load of old machines",
    # Bodies, beds and films.
    "ten pounds of trouble on her back",
    "a 30lb weight rolled off my bed",
    "a 20 lb turkey in the kitchen",
    "since the first trailer i was hooked",
    # What was taken out stands there no more; what a tyre is called is no figure of the log.
    "took 300 lb of feed out of the bed",
    "moved 250 lb of tools out of the trailer",
    "ordered new tires today, LT265/70R17",
    "hey abc967 and atf967 are both my old names",
)


@pytest.mark.parametrize("text", TALK)
def test_everyday_words_of_talk_are_no_entries(text: str, reads: Reader) -> None:
    assert isinstance(reads(text), Silent)
    assert isinstance(reads(text, on_the_road()), Silent)


def gauge(subject: str, value: float, unit: str, position: str | None = None) -> Observation:
    return Observation(subject=subject, value=Quantity(value, unit), position=position)


LOGGED: tuple[tuple[str, tuple[Entry, ...]], ...] = (
    ("7% grade on the way down", (gauge("grade", 7, "%"),)),
    ("wind speed 28 mph", (gauge("wind", 28, "mph"),)),
    ("crosswinds 35 mph over the flats", (gauge("wind", 35, "mph"),)),
    ("93 degrees out", (gauge("ambient", 93, "degF"),)),
    (
        "its 91 out, trans 204",
        (gauge("ambient", 91, "degF"), gauge("transmission", 204, "degF")),
    ),
    ("doing 58 mph, egt 1,050", (gauge("speed", 58, "mph"), gauge("exhaust", 1_050, "degF"))),
    ("left hub hot 180", (gauge("hub", 180, "degF", "left"),)),
    ("right trailer hub is smoking hot, 240", (gauge("hub", 240, "degF", "trailer right"),)),
    ("trans running warm at 219", (gauge("transmission", 219, "degF"),)),
    (
        "if the trans hits 230 we pull over, its at 214 right now",
        (gauge("transmission", 214, "degF"),),
    ),
    ("if coolant goes over 225 we stop. its 209", (gauge("coolant", 209, "degF"),)),
    (
        "front tires and rear tires 65 and 80 psi",
        (gauge("tyre", 65, "psi", "front"), gauge("tyre", 80, "psi", "rear")),
    ),
    ("slushbox 212", (gauge("transmission", 212, "degF"),)),
    ("aired up the camper left rear, 75 lbs", (gauge("tyre", 75, "psi", "trailer left rear"),)),
    ("trailer battery died", (Check(item="trailer battery", state="fault"),)),
    (
        "brake controler showing an error",
        (Check(item="brake controller", state="fault"),),
    ),
    ("lug nut sheared off", (Check(item="lug nut", state="fault"),)),
    ("awning is out", (Check(item="awning", state="done"),)),
    ("dust cap missing", (Check(item="dust cap", state="fault"),)),
    ("wheel studs torqued down", (Check(item="wheel studs", state="done"),)),
)


@pytest.mark.parametrize(("text", "entries"), LOGGED)
def test_the_same_words_of_the_rig_are_entries(
    text: str, entries: tuple[Entry, ...], reads: Reader
) -> None:
    verdict = reads(text, on_the_road(trailers=("flatdeck",)))
    assert isinstance(verdict, Facts)
    assert verdict.entries == entries


RATED: tuple[tuple[str, tuple[tuple[str, str, Quantity], ...]], ...] = (
    (
        "gross vehicle wait rating of twelve thousand pounds",
        (("truck", "gvwr", Quantity(12_000, "lb")),),
    ),
    ("the trucks tank is 34 gal", (("truck", "tank", Quantity(34, "gal")),)),
    ("new ball today, stamped 8,000 lb", (("ball", "tow", Quantity(8_000, "lb")),)),
    (
        "the coupler's rated for a 12,500 lb trailer",
        (("coupler", "tow", Quantity(12_500, "lb")),),
    ),
    (
        "GCM 6,200 kg, towing 3,000 kg",
        (("truck", "gcwr", Quantity(6_200, "kg")), ("truck", "tow", Quantity(3_000, "kg"))),
    ),
    (
        "handbook: 7,200 lb is the most it can tow",
        (("truck", "tow", Quantity(7_200, "lb")),),
    ),
    (
        "TYRE AND LOADING INFORMATION\nSEATING CAPACITY TOTAL 6 FRONT 3 REAR 3\n"
        "COMBINED WEIGHT OF OCCUPANTS AND CARGO SHOULD NEVER EXCEED 1,610 LBS",
        (("truck", "payload", Quantity(1_610, "lb")),),
    ),
    (
        "camper sticker: weight of cargo should never exceed 1,400 lbs",
        (("trailer", "payload", Quantity(1_400, "lb")),),
    ),
    (
        "flatdeck plate: GVWR 9,950 LB, GAWR 5,200 LB each, built 2017",
        (("trailer", "gvwr", Quantity(9_950, "lb")), ("trailer", "gawr", Quantity(5_200, "lb"))),
    ),
)


def ratings_in(text: str, reads: Reader) -> list[tuple[str, str, Quantity | float]]:
    """The ratings that a message gives, and it gives nothing else."""
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    ratings = [entry for entry in verdict.entries if isinstance(entry, Rating)]
    assert len(ratings) == len(verdict.entries)
    return [(each.subject, each.rating, each.value) for each in ratings]


@pytest.mark.parametrize(("text", "rated"), RATED)
def test_ratings_off_labels_and_plates(
    text: str, rated: tuple[tuple[str, str, Quantity], ...], reads: Reader
) -> None:
    assert tuple(ratings_in(text, reads)) == rated


PLACARDS: tuple[tuple[str, tuple[tuple[str, str, Quantity], ...]], ...] = (
    (
        "door sticker says 60 psi front 75 rear",
        (
            ("tyres", "pressure", Quantity(60, "psi")),
            ("tyres", "pressure", Quantity(75, "psi")),
        ),
    ),
    (
        "GVWR 8,900 LB WITH TIRES ST225/75R15 AT 65 PSI COLD",
        (("tyres", "pressure", Quantity(65, "psi")), ("truck", "gvwr", Quantity(8_900, "lb"))),
    ),
    (
        "camper tires are load range D, 2,540 lb at 65 psi",
        (
            ("tyres", "tyre_load", Quantity(2_540, "lb")),
            ("tyres", "pressure", Quantity(65, "psi")),
        ),
    ),
    (
        "towbar rated 2,500 kg with 150 on the ball",
        (("hitch", "tow", Quantity(2_500, "kg")), ("hitch", "tongue", Quantity(150, "kg"))),
    ),
    ("towball max 200 kg", (("hitch", "tongue", Quantity(200, "kg")),)),
    ("towball rating 3500 kg", (("ball", "tow", Quantity(3_500, "kg")),)),
    ("towball rating 350 kg", (("hitch", "tongue", Quantity(350, "kg")),)),
    (
        "weight distributing: 10,000 lb max gross trailer weight, 1,000 lb tongue",
        (("hitch", "tow", Quantity(10_000, "lb")), ("hitch", "tongue", Quantity(1_000, "lb"))),
    ),
    (
        "truck payload 2,210, camper payload 1,350",
        (
            ("truck", "payload", Quantity(2_210, "lb")),
            ("trailer", "payload", Quantity(1_350, "lb")),
        ),
    ),
)


@pytest.mark.parametrize(("text", "rated"), PLACARDS)
def test_what_a_maker_asks_for_is_no_reading_of_a_gauge(
    text: str, rated: tuple[tuple[str, str, Quantity], ...], reads: Reader
) -> None:
    found = ratings_in(text, reads)
    assert len(found) == len(rated)
    assert all(each in found for each in rated)


def test_what_was_scaled_behind_a_label_are_loads(reads: Reader) -> None:
    verdict = reads("sticker says gvwr 11,200, then scaled 5,200 steer 6,600 drive 9,000 trailer")
    assert isinstance(verdict, Facts)
    rating, weighing = verdict.entries
    assert isinstance(rating, Rating)
    assert isinstance(weighing, Weighing)
    assert (rating.subject, rating.value) == ("truck", Quantity(11_200, "lb"))
    assert weighing.loads.keys() == {"steer", "drive", "trailer"}


HITCHED: tuple[tuple[str, Hitch | None], ...] = (
    ("tongue 640 lb, camper hitched", Hitch(action="hitched", trailer="camper")),
    ("got the wagon dropped at last", Hitch(action="unhitched")),
    (
        "unhitched and weighed just the truck, steer 4,900 drive 3,800",
        Hitch(action="unhitched"),
    ),
    # How the rig stood on the scale is no event.
    ("camper on\nsteer 5,200\ndrive 6,600\ntrailer 9,000", None),
    ("hitched and scaled, steer 5,200 drive 6,600 trailer 9,000", None),
    ("camper still hitched", None),
)


@pytest.mark.parametrize(("text", "hitch"), HITCHED)
def test_hitching_beside_a_weighing(text: str, hitch: Hitch | None, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    entries = verdict.entries if isinstance(verdict, Facts) else ()
    assert [entry for entry in entries if isinstance(entry, Hitch)] == ([hitch] if hitch else [])


def test_cargo_is_what_stands_there(reads: Reader) -> None:
    verdict = reads(
        "loaded the smoker, 90 lb, in the bed, and the hive stands, 210 lb, over the axles",
        on_the_road(),
    )
    assert isinstance(verdict, Facts)
    found = [(entry.item, entry.value) for entry in verdict.entries if isinstance(entry, Cargo)]
    assert found == [("smoker", Quantity(90, "lb")), ("hive stands", Quantity(210, "lb"))]


@pytest.mark.parametrize(
    ("text", "item", "distance"),
    [
        ("smoker's aboard, 62 kg, half a metre behind the coupler", "smoker", Quantity(0.5, "m")),
        ("the quad's on, 690 lb, a foot ahead of the trailer axle", "quad", Quantity(1, "ft")),
        ("loaded Ida's toolbox, 95 lb, over the axle", "Ida's toolbox", None),
    ],
)
def test_a_thing_is_there_and_so_far_from_something(
    text: str, item: str, distance: Quantity | None, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (cargo,) = verdict.entries
    assert isinstance(cargo, Cargo)
    assert (cargo.item, cargo.distance) == (item, distance)


def test_on_it_is_the_trailer_named_before(reads: Reader) -> None:
    verdict = reads("hooked the flatdeck up, supers on it at 1,300 lb", on_the_road())
    assert isinstance(verdict, Facts)
    cargo = [entry for entry in verdict.entries if isinstance(entry, Cargo)]
    assert [(each.item, each.trailer) for each in cargo] == [("supers", "flatdeck")]


def test_letters_for_something_else_are_ratings_where_the_rig_is_rated(reads: Reader) -> None:
    metric = chat(units="metric", currency="AUD", time_zone="Australia/Perth")
    verdict = reads("ATM 2,800", metric)
    assert isinstance(verdict, Facts)
    assert isinstance(reads("my line is at 12000 atm", metric), Silent)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("tires: truck 65, camper 80", [(65, None), (80, "trailer")]),
        ("tire pressures: truck 65/80, trailer 80", [(65, None), (80, None), (80, "trailer")]),
    ],
)
def test_tyres_head_what_follows(
    text: str, expected: list[tuple[float, str | None]], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    found = [each for each in verdict.entries if isinstance(each, Observation)]
    assert [(each.value.value, each.position) for each in found] == expected


@pytest.mark.parametrize(
    ("text", "event"),
    [
        ("hooked up the camper at home, 48,210", None),
        ("home, 48,210, unhitched", "arrive"),
        ("home 48,210", "arrive"),
    ],
)
def test_who_hitches_at_home_has_not_come_home(text: str, event: str | None, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (odometer,) = [each for each in verdict.entries if isinstance(each, Odometer)]
    assert odometer.event == event


@pytest.mark.parametrize(
    ("text", "positions"),
    [
        ("tire pressures rr outer 78 rr inner 71", ["right rear outer", "right rear inner"]),
        ("left rear inner tyre 68", ["left rear inner"]),
        ("outer left rear tire 66 psi", ["left rear outer"]),
        ("left rear tire 66 psi", ["left rear"]),
    ],
)
def test_of_two_wheels_side_by_side_the_one_is_kept_that_was_named(
    text: str, positions: list[str], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert [getattr(each, "position", None) for each in verdict.entries] == positions


def test_tyres_do_not_head_a_speed(reads: Reader) -> None:
    verdict = reads("tires ok, truck did 52 all the way", on_the_road())
    assert isinstance(verdict, Facts)
    assert all(isinstance(each, Check) for each in verdict.entries)


@pytest.mark.parametrize(
    ("text", "states"),
    [
        ("mirrors ✅ chains ✅ lights ❌", ["done", "done", "fault"]),
        ("chains ❌, lights ✅", ["fault", "done"]),
        ("✅ mirrors\n❌ lights\n✅ chains", ["done", "fault", "done"]),
        ("[x] mirrors\n[FAIL] breakaway battery", ["done", "fault"]),
        ("- [x] chains\n- [ ] lights", ["done"]),
    ],
)
def test_a_ticked_list_has_its_signs_before_or_behind_but_not_both(
    text: str, states: list[str], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    assert [each.state for each in verdict.entries if isinstance(each, Check)] == states


@pytest.mark.parametrize(
    ("text", "item"),
    [
        ("brake fluid low, topped up", "brake fluid"),
        ("strap loose left rear, snugged", "strap"),
        ("found one lug nut loose, torqued it to 95", "lug nut"),
        ("marker light was out, swapped the bulb", "marker light"),
        ("left trailer tire low, aired up", "left trailer tire"),
        ("coupler latch loose. fixed", "coupler latch"),
        ("awning came loose, tied it down", "awning"),
        ("trailer brakes dragging, adjusted them", "trailer brakes"),
    ],
)
def test_a_fault_that_is_told_mended_is_carried_no_further(
    text: str, item: str, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (check,) = [each for each in verdict.entries if isinstance(each, Check)]
    assert (check.item, check.state) == (item, "done")


@pytest.mark.parametrize(
    "text",
    [
        "marker light out, not fixed yet",
        "marker light out, needs replaced",
        "marker light out, should be replaced",
        "marker light out, has to be fixed",
        "marker light out, couldn't get it fixed",
        "marker light out, will get it fixed tomorrow",
        "marker light out, lug nuts torqued",
    ],
)
def test_a_fault_that_is_not_mended_yet_stays_one(text: str, reads: Reader) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    first = verdict.entries[0]
    assert isinstance(first, Check)
    assert (first.item, first.state) == ("marker light", "fault")


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("hubs after 30 miles: 112 116 115 139 left rear trailer", [112, 116, 115, 139]),
        ("trailer tires at 65, one at 48", [65, 48]),
        ("trailer tires 65 and the other 48", [65, 48]),
        ("tire rf trailer 58 psi the others 80", [58, 80]),
    ],
)
def test_none_of_the_gauges_of_a_list_is_lost(
    text: str, values: list[float], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    found = [each.value.value for each in verdict.entries if isinstance(each, Observation)]
    assert found == values


def test_a_mile_where_a_bearing_seized_is_no_temperature(reads: Reader) -> None:
    verdict = reads("broke down at mile 48,107, wheel bearing seized", on_the_road())
    assert isinstance(verdict, Facts)
    assert not [each for each in verdict.entries if isinstance(each, Observation)]


@pytest.mark.parametrize(
    ("text", "places"),
    [
        (
            "left rear outer 66 inner 65, right rear outer 65 inner 44 psi",
            ["left rear outer", "left rear inner", "right rear outer", "right rear inner"],
        ),
        ("tires: truck 38 38, trailer 50 50", [None, None, "trailer", "trailer"]),
        ("trailer tires 80 79, truck 55 56", ["trailer", "trailer", None, None]),
    ],
)
def test_each_tyre_of_a_list_stands_where_it_was_said_to(
    text: str, places: list[str | None], reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    found = [each.position for each in verdict.entries if isinstance(each, Observation)]
    assert found == places


@pytest.mark.parametrize(
    "text", ["greased everything, 48,250", "checked everything 48,250", "everything greased 48,250"]
)
def test_everything_that_was_seen_to_is_no_gross(text: str, reads: Reader) -> None:
    said = reads(text, on_the_road())
    assert said == Facts((Odometer(odometer=Quantity(48_250, "mi")),))


@pytest.mark.parametrize("text", ["everything weighed 21,400", "loaded everything, 21,400"])
def test_everything_that_was_weighed_is(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Facts((Weighing(loads={"gross": Quantity(21_400, "lb")}),))
