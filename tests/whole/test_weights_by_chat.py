"""A day at the scale through the command line: ratings, three passes, two fills, questions.

`drawbar chat` is run in this process, its lines piped. The figures are recomputed from the
texted ones with NumPy and with statics, not with Drawbar's own functions.
"""

from __future__ import annotations

import re
import sqlite3
from contextlib import closing
from pathlib import Path

import numpy as np
import pytest

from tests.domain.day_at_the_scale import GALLON, PERSON, least_squares, lever, tongue_doubt
from tests.whole.chatting import figures, replies

RIG = [
    "truck Juniper gvwr 11500 gcwr 27000 front axle 5600 rear axle 7000 payload 3500 "
    "tank 34 gal diesel",
    "Juniper curb weight 8000",
    "Juniper tow rating 15000",
    "trailer flatdeck gvwr 12000 axles 2x6000",
    "trailer flatdeck coupler to axle 16 ft",
    "hitch ball 20000 tongue 2000",
    "hitch label: max trailer 14,000 max tongue 1,400",
    "hitched flatdeck",
]
ON = "bars on, 2 aboard: steer 5100 drive 4480 trailer 8160"
OFF = "bars off, 2 aboard: steer 4740 drive 5080 trailer 8000"
SOLO = "solo, just me: steer 5060 drive 3580"
PASSES = [ON, "12 gal diesel", OFF, "8 gal diesel", SOLO]
WHAT_IF = "what if we add 600 lb four feet ahead of the trailer axle?"
ROOM = "how much more can I carry on the flatdeck?"
CHAINS = "are 4 chains 3/8 grade 70 enough for 9,200 lb?"
STRAPS = "how many straps do i need for a 4,200 lb tractor?"
QUESTIONS = ["margins", "whats the tongue weight", WHAT_IF, ROOM, CHAINS, STRAPS, "are we over?"]


def amount(text: str) -> float:
    found = re.search(r"[\d,]+(?:\.\d+)?", text)
    assert found is not None
    return float(found.group().replace(",", ""))


@pytest.fixture(scope="module")
def day(tmp_path_factory: pytest.TempPathFactory) -> dict[str, list[str]]:
    """The lines of the answer to each text."""
    texts = [*RIG, *PASSES, *QUESTIONS]
    return dict(zip(texts, replies(texts, tmp_path_factory.mktemp("day") / "log.db"), strict=True))


def test_the_corrected_tongue_comes_with_its_uncertainty(day: dict[str, list[str]]) -> None:
    solo, expected = day[SOLO], least_squares()
    rows = figures(solo)
    assert amount(rows["Gross"]) == 5100 + 4480 + 8160
    tongue, _, doubt = rows["Tongue"].partition("±")
    assert amount(tongue) == pytest.approx(expected["tongue"], abs=5)
    assert float(doubt) == pytest.approx(tongue_doubt(), abs=6)
    shown = next(line for line in solo if "Tongue" in line)
    share, trailer = re.findall(r"([\d.,]+) % of ([\d,]+) lb", shown)[0]
    assert float(share) == pytest.approx(100 * expected["tongue"] / expected["trailer"], abs=0.06)
    assert amount(trailer) == pytest.approx(expected["trailer"], abs=10)
    assert amount(rows["Bars move"]) == pytest.approx(expected["moved"], abs=5)
    fuel, people = round(20 * GALLON, -1), round(PERSON, -1)
    assert f"Passes corrected: fuel {fuel:.0f} lb, people {people:.0f} lb." in solo


def test_the_tightest_margin_leads_and_the_rest_are_a_word_away(
    day: dict[str, list[str]],
) -> None:
    expected = least_squares()
    left = {
        "Steer axle": (5600 - 5100, 5600),
        "Drive axle": (7000 - 4480, 7000),
        "Truck GVWR": (11500 - 9580, 11500),
        "GCWR": (27000 - 17740, 27000),
        "Trailer axles": (12000 - 8160, 12000),
        "Trailer GVWR": (12000 - expected["trailer"], 12000),
        "Hitch": (14000 - expected["trailer"], 14000),
        "Hitch tongue": (1400 - expected["tongue"], 1400),
        "Tow rating": (15000 - expected["trailer"], 15000),
        "Payload": (3500 - (9580 - 8000), 3500),
    }
    listed = figures(day["margins"])
    order = sorted(left, key=lambda name: left[name][0] / left[name][1])
    assert [name for name in listed if name in left] == order
    for name, (room, _) in left.items():
        assert amount(listed[name]) == pytest.approx(room, abs=10), name
    for text in (SOLO, "margins", "are we over?"):
        assert day[text][0] == (
            f"Inside every rating given. Tightest: {order[0].lower()}, {left[order[0]][0]} lb left."
        )
    assert any("more ratings with more room; text margins for all." in each for each in day[SOLO])


def test_what_is_missing_is_named_once_and_wherever_margins_are_asked_for(
    day: dict[str, list[str]],
) -> None:
    line = "Not given: trailer tyres and truck tyres."
    assert line in day[ON]
    assert line not in day[OFF]
    assert line not in day[SOLO]
    assert line in day["margins"]


def test_each_answer_of_the_day_is_read_at_a_glance(day: dict[str, list[str]]) -> None:
    for text in (ON, OFF, SOLO):
        assert len(day[text]) <= 11
        assert len("\n".join(day[text])) <= 500


def test_the_share_and_its_range_are_told_on_asking(day: dict[str, list[str]]) -> None:
    expected = least_squares()
    tongue, share = re.findall(r"[\d,.]+(?= lb| %)", day["whats the tongue weight"][0])
    assert amount(tongue) == pytest.approx(expected["tongue"], abs=5)
    assert amount(share) == pytest.approx(100 * expected["tongue"] / expected["trailer"], abs=0.06)
    assert "Customary is 10-15 %." in day["whats the tongue weight"]


def test_what_if_puts_the_load_where_statics_puts_it(day: dict[str, list[str]]) -> None:
    """Forces and moments of truck and trailer, the wheelbase as one and the reach 16 ft."""
    w, b, reach = 1.0, lever(), 16.0
    # Unknown: steer, drive, trailer axles, coupling. Rows: truck's forces, its moments about the
    # steer axle, trailer's forces, its moments about the coupling.
    matrix = np.array([[1, 1, 0, -1], [0, w, 0, -(w + b)], [0, 0, 1, 1], [0, 0, reach, 0]])
    added = np.linalg.solve(matrix, np.array([0, 0, 600, 600 * (reach - 4)]))
    rows = figures(day[WHAT_IF])
    before = {"Steer": 5100, "Drive": 4480, "Trailer axles": 8160}
    for (name, weighed), more in zip(before.items(), added[:3], strict=True):
        assert amount(rows[name]) == pytest.approx(weighed + more, abs=10), name
    tongue = least_squares()["tongue"] + added[3]
    assert added[3] == pytest.approx(150)
    assert amount(rows["Tongue"]) == pytest.approx(tongue, abs=10)
    assert amount(rows["Hitch tongue"]) == pytest.approx(1400 - tongue, abs=10)
    said = "\n".join(day[WHAT_IF])
    assert "Inside every rating given" in said
    assert "from your own weighing" in said


def test_how_much_more_fits_is_the_least_of_all_rooms(day: dict[str, list[str]]) -> None:
    expected = least_squares()
    onto = expected["tongue"] / expected["trailer"]
    rooms = {
        "trailer GVWR": 12000 - expected["trailer"],
        "hitch tongue": (1400 - expected["tongue"]) / onto,
        "truck GVWR": (11500 - 9580) / onto,
        "drive axle": (7000 - 4480) / (onto * (1 + lever())),
    }
    binds = min(rooms, key=lambda name: rooms[name])
    assert f"{binds} binds first" in day[ROOM][0]
    assert rooms[binds] - 20 <= amount(day[ROOM][0]) <= rooms[binds]


def test_tie_downs_count_half_of_their_working_load_limit(day: dict[str, list[str]]) -> None:
    """49 CFR 393.106(d) and 393.108: 6,600 lb a chain of grade 70, 2,000 lb a 2 in strap."""
    assert day[CHAINS][0] == (
        f"Enough by the rule: {4 * 6600 / 2:,.0f} lb counted, {9200 / 2:,.0f} lb needed."
    )
    straps = int(np.ceil(4200 / 2 / (2000 / 2)))
    assert day[STRAPS][0] == f"At least {straps} x 2 in strap."
    for text in (CHAINS, STRAPS):
        assert any("local law governs" in line.casefold() for line in day[text])


DOUBTFUL = [
    ("steer 5.2 t drive 4.4 t trailer 8.1 t", "far beyond its rating", "1", 5200 + 4400 + 8100),
    ("steer 6900 drive 4480 trailer 8160", "wrong way round", "1", 6900 + 4480 + 8160),
    ("steer 9400 drive 4100 trailer 8160", "far beyond its rating", "1", 9400 + 4100 + 8160),
    ("steer -5280 drive 6940 trailer 9840", "can't be right", "5280", 5280 + 6940 + 9840),
    ("steer 0 drive 6940 trailer 9840", "can't be right", "steer 5280 drive 6940 trailer 9840",
     5280 + 6940 + 9840),
]  # fmt: skip


HEAVY = "what do we weigh right now?"


@pytest.fixture(scope="module")
def doubts(tmp_path_factory: pytest.TempPathFactory) -> tuple[list[list[str]], list[str]]:
    """To each doubtful text: the answer, what the rig weighs, both again once it is settled.

    Beside them every text that the store holds.
    """
    folder = tmp_path_factory.mktemp("doubts")
    texts = [each for text, _, settles, _ in DOUBTFUL for each in (text, HEAVY, settles, HEAVY)]
    said = replies([*RIG, *texts], folder / "logbook.db")[len(RIG) :]
    with closing(sqlite3.connect(folder / "logbook.db")) as store:
        kept = [row[0] for row in store.execute("SELECT text FROM messages")]
    return said, kept


@pytest.mark.parametrize(
    "number",
    range(len(DOUBTFUL)),
    ids=["tonnes for pounds", "front and rear swapped", "too much", "negative", "zero"],
)
def test_a_figure_that_cannot_be_right_is_asked_about_and_never_lost(
    doubts: tuple[list[list[str]], list[str]], number: int
) -> None:
    said, kept = doubts
    text, asked, _, gross = DOUBTFUL[number]
    question, meanwhile, settled, then = said[4 * number : 4 * number + 4]
    assert asked in question[0]
    assert question[0].endswith("?")
    assert "Nothing is kept until then." in " ".join(question)
    before = f"{DOUBTFUL[number - 1][3]:,} lb" if number else None
    assert figures(meanwhile).get("Gross") == before
    assert figures(settled)["Gross"] == figures(then)["Gross"] == f"{gross:,} lb"
    assert text in kept


def test_a_tow_rating_by_the_pin_holds_no_trailer_on_a_ball(tmp_path: Path) -> None:
    """A truck maker gives two: the conventional one governs whatever hangs on a ball."""
    texts = [
        "Juniper gcwr 40000 tow rating 15000",
        "Juniper tow rating 20000 fifth wheel",
        "hitched flatdeck",
        "steer 5100 drive 4480 trailer 8160",
        "solo: steer 5060 drive 3580",
        "margins",
    ]
    margins = replies(texts, tmp_path / "log.db")[-1]
    (towed,) = [line for line in margins if line.strip().startswith("Tow rating")]
    assert towed.endswith("of 15,000 lb")
