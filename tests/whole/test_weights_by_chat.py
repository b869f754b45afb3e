"""A day at the scale through the real conversation: ratings, three passes, two fills, questions.

The figures are recomputed from the texted ones with NumPy, not with Drawbar's own functions.
"""

from __future__ import annotations

import re
from pathlib import Path

import numpy as np
import pytest

from bot.answers.answer import Answer
from bot.answers.plain import as_text
from bot.conversation import Conversation
from bot.store import outbox
from bot.store.database import open_store
from bot.wiring import reader
from domain.log import Preferences
from tests.store.logbooks import START, as_told

RIG = [
    "truck Juniper gvwr 11500 gcwr 27000 front axle 5600 rear axle 7000 payload 3500 "
    "tank 34 gal diesel",
    "Juniper curb weight 8000",
    "Juniper tow rating 15000",
    "trailer flatdeck gvwr 12000 axles 2x6000",
    "hitch label: max trailer 14,000 max tongue 1,400",
    "hitched flatdeck",
]
PASSES = [
    "bars on, 2 aboard: steer 5100 drive 4480 trailer 8160",
    "12 gal diesel",
    "bars off, 2 aboard: steer 4740 drive 5080 trailer 8000",
    "8 gal diesel",
    "solo, just me: steer 5060 drive 3580",
]
GALLON = 0.8325 * 3.785411784 / 0.45359237
PERSON = 68 / 0.45359237


class Chat:
    """Messages ten minutes apart through the reader, the store and back out."""

    def __init__(self, folder: Path) -> None:
        self._store = open_store(folder / "logbook.db")
        preferences = Preferences(units="us", time_zone="America/Boise")
        self._conversation = Conversation(self._store, reader(), lambda: START, preferences)
        self._minutes = 0

    def says(self, text: str) -> Answer | None:
        """What is answered to a message; None where it is talk."""
        self._minutes += 10
        self._conversation.receive(as_told(text, self._minutes))
        with self._store.work() as session:
            parcels = outbox.heads(session)
            for each in parcels:
                outbox.mark_sent(session, each.key)
        return parcels[-1].answer if parcels else None

    def told(self, text: str) -> Answer:
        """What is answered to a message that must have an answer."""
        answer = self.says(text)
        assert answer is not None, text
        assert len(as_text(answer)) <= 900, text
        return answer

    def day(self) -> list[Answer]:
        """The answers to the rig and to its weighings."""
        return [self.told(text) for text in (*RIG, *PASSES)]


@pytest.fixture
def chat(tmp_path: Path) -> Chat:
    return Chat(tmp_path)


def figures(answer: Answer) -> dict[str, str]:
    return {row.label: row.figure for row in answer.rows}


def amount(text: str) -> float:
    found = re.search(r"[\d,]+(?:\.\d+)?", text)
    assert found is not None
    return float(found.group().replace(",", ""))


def least_squares() -> dict[str, float]:
    """Truck alone as on the road, tongue, trailer, and what the bars move, from all readings."""
    rows = np.array([[1, 1, 0, -1], [1, 1, 0, 0], [1, 0, 0, 0], [0, -1, 1, 1], [0, -1, 1, 0]])
    readings = np.array(
        [
            5100 + 4480,
            4740 + 5080 - 12 * GALLON,
            5060 + 3580 - 20 * GALLON + PERSON,
            8160,
            8000,
        ]
    )
    # The tongue comes from the passes without bars; those with bars tell what the bars move.
    weight = np.diag([1.0, 1e3, 1e3, 1.0, 1e3])
    found, *_ = np.linalg.lstsq(weight @ rows, weight @ readings, rcond=None)
    return dict(zip(("truck", "tongue", "trailer", "moved"), map(float, found), strict=True))


def test_a_day_at_the_scale(chat: Chat) -> None:
    solo = chat.day()[-1]
    expected = least_squares()
    rows = figures(solo)
    assert solo.headline == "Inside every rating given. Tightest: steer axle has 500 lb left."
    assert amount(rows["Gross"]) == 5100 + 4480 + 8160
    assert amount(rows["Tongue"]) == pytest.approx(expected["tongue"], abs=5)
    share = next(row.remark for row in solo.rows if row.label == "Tongue")
    assert amount(share.partition("of")[2]) == pytest.approx(expected["trailer"], abs=10)
    assert amount(rows["Bars move"]) == pytest.approx(expected["moved"], abs=5)
    assert "Passes corrected: fuel 140 lb, people 150 lb." in solo.notes
    margins = chat.told("margins")
    assert amount(figures(margins)["Truck GVWR"]) == 11500 - 5100 - 4480
    assert len(margins.rows) > len([each for each in solo.rows if "left" in each.figure])
    assert "Not given: trailer tyres and truck tyres." in margins.notes


def test_the_questions_of_that_day(chat: Chat) -> None:
    chat.day()
    expected = least_squares()
    tongue = chat.told("whats the tongue weight").headline
    stated, shown = re.findall(r"[\d,.]+(?= lb| %)", tongue)
    assert amount(stated) == pytest.approx(expected["tongue"], abs=5)
    share = 100 * expected["tongue"] / expected["trailer"]
    assert amount(shown) == pytest.approx(share, abs=0.06)
    assert "±" in tongue

    margin = chat.told("are we over?")
    assert margin.headline == "Inside every rating given. Tightest: steer axle has 500 lb left."

    whatif = figures(chat.told("what if we put 300 lb in the bed?"))
    assert amount(whatif["Drive"]) == 4480 + 300
    assert amount(whatif["Truck GVWR"]) == 11500 - 5100 - 4480 - 300

    room = chat.told("how much more can I carry on the flatdeck?").headline
    bars_off = np.array([4740, 5080]) - 12 * GALLON / 2
    lever = (5060 - 20 * GALLON / 2 + PERSON / 2 - bars_off[0]) / expected["tongue"]
    onto = expected["tongue"] / expected["trailer"]
    rooms = {
        "trailer GVWR": 12000 - expected["trailer"],
        "hitch tongue": (1400 - expected["tongue"]) / onto,
        "truck GVWR": (11500 - 9580) / onto,
        "drive axle": (7000 - 4480) / (onto * (1 + lever)),
    }
    binds = min(rooms, key=lambda name: rooms[name])
    assert binds in room
    assert amount(room) == pytest.approx(rooms[binds], abs=20)

    # Half of 2,000 lb each (49 CFR 393.106, 393.108): three make 3,000 of the 2,100 lb needed.
    tiedown = chat.told("how many straps do i need for a 4,200 lb tractor?")
    assert tiedown.headline == "At least 3 x 2 in strap."


@pytest.mark.parametrize(
    ("text", "asked", "gross"),
    [
        ("steer 5.2 t drive 4.4 t trailer 8.1 t", "beyond its rating", "17,700 lb"),
        ("steer 6900 drive 4480 trailer 8160", "wrong way round", "19,540 lb"),
        ("steer 9400 drive 4100 trailer 8160", "beyond its rating", "21,660 lb"),
    ],
    ids=["tonnes for pounds", "front and rear swapped", "more than anyone carries"],
)
def test_a_figure_that_cannot_be_right_is_asked_about_and_never_lost(
    chat: Chat, text: str, asked: str, gross: str
) -> None:
    for each in RIG:
        chat.told(each)
    assert asked in chat.told(text).headline
    assert figures(chat.told("1"))["Gross"] == gross


@pytest.mark.parametrize("text", ["steer -5280 drive 6940 trailer 9840", "steer 0 drive 6940"])
def test_a_load_below_zero_or_of_nothing_is_asked_about(chat: Chat, text: str) -> None:
    for each in RIG:
        chat.told(each)
    assert chat.told(text).headline.endswith("?")
    assert chat.told("what do we weigh right now?").headline == "No weighing yet."
