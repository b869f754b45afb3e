"""A season with two trailers, texted through the real pipeline, and its answers worked out anew.

The texts of `shared/demo/season.toml` are read here a second time, with regular expressions
of their own and NumPy, and without a line of `domain`.
"""

from __future__ import annotations

import asyncio
import re
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from itertools import pairwise
from pathlib import Path
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from bot.answers.answer import Answer
from bot.demo import messages
from bot.messages import Message
from bot.settings import settings
from bot.shared_data import read_toml
from bot.wiring import drawbar
from tests.letters import Letters

ZONE = ZoneInfo("America/Boise")
FILL = re.compile(r"(?P<gallons>[\d.]+) gal")
PRICE = re.compile(r"\b(\d\.\d{3})\b")
READING = re.compile(r"\b(\d{2},?\d{3})\b")
TANK = 34.0


@dataclass
class Apart:
    """The season as this file reads it: fills, readings, stretches of road by mode."""

    fills: list[tuple[datetime, float, float, float, bool]] = field(default_factory=list)
    readings: list[tuple[datetime, float]] = field(default_factory=list)
    hitched: list[tuple[float, str]] = field(default_factory=list)

    def miles(self, start: float, end: float) -> dict[str, float]:
        """Miles by mode between two odometer readings."""
        found: dict[str, float] = {"solo": 0.0, "flatdeck": 0.0, "camper": 0.0}
        changes = [(0.0, "solo"), *self.hitched, (1e9, "solo")]
        for (since, mode), (until, _) in pairwise(changes):
            found[mode] += max(0.0, min(until, end) - max(since, start))
        return found

    def tanks(self) -> list[tuple[datetime, dict[str, float], float]]:
        """Each full tank: when it was closed, miles by mode, gallons."""
        found = []
        gallons, start = 0.0, None
        for at, odometer, amount, _, full in self.fills:
            gallons += amount
            if not full:
                continue
            if start is not None:
                found.append((at, self.miles(start, odometer), gallons))
            gallons, start = 0.0, odometer
        return found


def read_apart() -> Apart:
    apart = Apart()
    for message in read_toml("demo/season.toml")["message"]:
        text, at = message["text"], message["at"].replace(tzinfo=ZONE)
        if text.startswith(("truck", "trailer", "def", "trans")):
            continue
        reading = READING.search(text)
        if reading is None:
            continue
        odometer = float(reading[1].replace(",", ""))
        apart.readings.append((at, odometer))
        if fill := FILL.search(text):
            price = PRICE.search(text)
            assert price is not None
            full = not text.startswith("partial")
            apart.fills.append((at, odometer, float(fill["gallons"]), float(price[1]), full))
        if hitched := re.match(r"hitched the (\w+)", text):
            apart.hitched.append((odometer, hitched[1]))
        if text.endswith("unhitched"):
            apart.hitched.append((odometer, "solo"))
    return apart


@pytest.fixture(scope="module")
def apart() -> Apart:
    return read_apart()


@pytest.fixture(scope="module")
def replies(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Answer]:
    """What is answered to each question at the end of the season."""
    folder: Path = tmp_path_factory.mktemp("season")
    return asyncio.run(_season(folder))


QUESTIONS = {
    "flatdeck": "what mpg do we get pulling the flatdeck",
    "camper": "what mpg do we get pulling the camper",
    "range": "how far can we go on whats left",
    "plan": "if we drive 420 miles with the camper what will fuel run us",
    "trip": "hows the trip looking so far, fuel and miles",
    "month": "june summary pls",
}


async def _season(folder: Path) -> dict[str, Answer]:
    scenario = read_toml("demo/season.toml")
    chosen = settings(
        database=str(folder / "season.db"),
        units=scenario["units"],
        currency=scenario["currency"],
        time_zone=scenario["time_zone"],
    )
    ear = Letters("demo")
    told = list(messages(scenario, ZONE))
    found: dict[str, Answer] = {}
    async with drawbar(chosen, [ear]) as running:
        for message in told:
            await running.take(message)
        for number, (name, text) in enumerate(QUESTIONS.items()):
            before = len(ear.answers)
            await running.take(_asked(told[-1], number, text))
            assert len(ear.answers) == before + 1, text
            found[name] = ear.answers[-1]
    return found


def _asked(last: Message, number: int, text: str) -> Message:
    return Message(
        network=last.network,
        chat=last.chat,
        id=f"question {number}",
        author=last.author,
        name=last.name,
        sent_at=last.sent_at + timedelta(hours=1, minutes=number),
        text=text,
    )


def row(answer: Answer, label: str) -> str:
    return next(f"{each.figure} {each.remark}" for each in answer.rows if each.label == label)


def number(text: str) -> float:
    """The first figure of a text."""
    found = re.search(r"\d[\d,]*(?:\.\d+)?", text)
    assert found is not None, text
    return float(found[0].replace(",", ""))


def fitted(apart: Apart) -> dict[str, float]:
    """Gallons a mile by mode, by NumPy's least squares over all tanks, weighted by their size."""
    tanks = apart.tanks()
    modes = ("solo", "flatdeck", "camper")
    miles = np.array([[by_mode[mode] for mode in modes] for _, by_mode, _ in tanks])
    gallons = np.array([amount for _, _, amount in tanks])
    weight = 1 / np.sqrt(gallons)
    rates, *_ = np.linalg.lstsq(miles * weight[:, None], gallons * weight, rcond=None)
    return dict(zip(modes, rates.tolist(), strict=True))


@pytest.mark.parametrize(("trailer", "truth"), [("flatdeck", 11.4), ("camper", 9.6)])
def test_each_trailers_economy_is_the_one_worked_out_apart_and_holds_the_truth(
    replies: dict[str, Answer], apart: Apart, trailer: str, truth: float
) -> None:
    headline = replies[trailer].headline
    found = re.match(r"(?:about )?([\d.]+) ± ([\d.]+) mpg towing the (\w+)", headline)
    assert found is not None, headline
    middle, half = float(found[1]), float(found[2])
    assert found[3] == trailer
    assert middle == pytest.approx(1 / fitted(apart)[trailer], abs=0.25)
    assert abs(middle - truth) <= half + 0.05
    assert half < 0.8


def test_the_plan_is_the_distance_at_the_trailers_economy_and_the_last_price(
    replies: dict[str, Answer], apart: Apart
) -> None:
    gallons = 420 * fitted(apart)["camper"]
    price = sorted(each[3] for each in apart.fills[-3:])[1]
    headline = replies["plan"].headline
    assert headline.startswith("420 mi towing the camper: about ")
    told_gallons, told_cost = (number(part) for part in headline.split("about ")[1:])
    assert told_gallons == pytest.approx(gallons, rel=0.03)
    assert told_cost == pytest.approx(gallons * price, rel=0.03)
    assert number(row(replies["plan"], "Fuel stops")) == 1


def test_the_range_is_what_is_left_since_the_last_full_tank(
    replies: dict[str, Answer], apart: Apart
) -> None:
    _, odometer, _, _, full = apart.fills[-1]
    assert full
    rates = fitted(apart)
    last = apart.readings[-1][1]
    burnt = sum(rates[mode] * miles for mode, miles in apart.miles(odometer, last).items())
    reach = (TANK - burnt - TANK / 10) / rates["solo"]
    assert number(replies["range"].headline) == pytest.approx(reach, rel=0.04)
    assert number(row(replies["range"], "In the tank")) == pytest.approx(TANK - burnt, abs=0.8)


def test_the_last_trips_miles_and_fuel_are_right(replies: dict[str, Answer], apart: Apart) -> None:
    """From the last hitching or leaving at home to the last arrival there."""
    texts = read_toml("demo/season.toml")["message"]
    homes = [
        number(each["text"].removeprefix("home, "))
        for each in texts
        if each["text"].startswith("home")
    ]
    start, end = homes[-2], homes[-1]
    headline = replies["trip"].headline
    assert f"{end - start:.0f} mi" in headline
    rates = fitted(apart)
    gallons = sum(rates[mode] * miles for mode, miles in apart.miles(start, end).items())
    assert number(row(replies["trip"], "Fuel")) == pytest.approx(gallons, rel=0.08)


def test_a_months_miles_gallons_and_money_are_right(
    replies: dict[str, Answer], apart: Apart
) -> None:
    june = [each for each in apart.fills if each[0].month == 6]
    readings = [odometer for at, odometer in apart.readings if at.month == 6]
    earlier = [odometer for at, odometer in apart.readings if at.month < 6]
    spent = sum(gallons * price for _, _, gallons, price, _ in june)
    answer = replies["month"]
    assert f"${spent:,.2f}" in answer.headline
    assert f"{readings[-1] - earlier[-1]:,.0f} mi" in answer.headline
    assert number(row(answer, "Fuel")) == pytest.approx(sum(each[2] for each in june), abs=0.05)
    miles = apart.miles(earlier[-1], readings[-1])
    for trailer in ("flatdeck", "camper"):
        if miles[trailer]:
            assert number(row(answer, trailer.title())) == pytest.approx(miles[trailer], abs=0.5)


def test_every_answer_fits_a_phones_screen(replies: dict[str, Answer]) -> None:
    for name, answer in replies.items():
        lines = [answer.headline, *answer.rows, *answer.notes]
        assert len(lines) <= 16, name
