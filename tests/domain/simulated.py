"""Years of driving with a known truth: what really burnt, and what a family would have texted.

A drive burns its mode's litres a kilometre, more or less by wind and grades; the pump clicks
off early or late; the odometer shows whole miles. Some fills are partial, some were never
logged (and sometimes nobody says so), some lack the odometer, and messages come late.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta

import numpy as np

from domain.entries import Entry, Fill, Hitch, Odometer
from domain.log import Log, Logged
from domain.modes import SOLO
from domain.quantities import Quantity

START = datetime(2024, 1, 6, 14, 0, tzinfo=UTC)
TANK_GALLONS = 34.0


@dataclass(frozen=True)
class Habits:
    """How the family drives and texts. Shares are of fills; `road` is of each drive's fuel."""

    days: int = 365
    road: float = 0.07
    click_off: float = 0.3
    partial: float = 0.12
    missed_and_said: float = 0.04
    missed_unsaid: float = 0.01
    without_odometer: float = 0.04
    late: float = 0.2


@dataclass
class Life:
    """The truth and the log: gallons a mile by mode, and by fill time the true burn and miles."""

    truth: dict[str, float]
    entries: list[Logged[Entry]] = field(default_factory=list)
    burnt_by: dict[datetime, float] = field(default_factory=dict)
    miles_by: dict[datetime, float] = field(default_factory=dict)
    unsaid: list[datetime] = field(default_factory=list)

    @property
    def log(self) -> Log:
        return Log(self.entries)

    @property
    def now(self) -> datetime:
        return max(each.at for each in self.entries) + timedelta(hours=1)


def live(seed: int, habits: Habits | None = None) -> Life:
    """One life of a truck, drawn from a seed."""
    return _Driver(np.random.default_rng(seed), habits or Habits()).life()


class _Driver:
    def __init__(self, rng: np.random.Generator, habits: Habits) -> None:
        self.rng = rng
        self.habits = habits
        truth = {
            SOLO: 1 / rng.uniform(14, 20),
            "flatdeck": 1 / rng.uniform(9, 13),
            "camper": 1 / rng.uniform(8, 12),
        }
        self.lived = Life(truth)
        self.at = START
        self.miles = float(rng.uniform(20_000, 80_000))
        self.burnt = 0.0
        self.room = 5.0
        self.missed = False

    def life(self) -> Life:
        end = START + timedelta(days=self.habits.days)
        self.stop_for_fuel()
        while self.at < end:
            self.at += timedelta(hours=float(self.rng.uniform(20, 120)))
            choices = (SOLO, "flatdeck", "camper")
            mode = str(self.rng.choice(choices, p=(0.5, 0.3, 0.2)))
            self.outing(mode)
        self._arrive_late()
        return self.lived

    def outing(self, mode: str) -> None:
        if mode != SOLO:
            self._log(Hitch(action="hitched", trailer=mode))
        self._log(Odometer(odometer=self._shown(), event="depart"))
        for _ in range(int(self.rng.integers(1, 5))):
            self._drive(mode, float(self.rng.uniform(25, 130)))
            if self.room > self.rng.uniform(10, 26):
                self.stop_for_fuel()
        self._log(Odometer(odometer=self._shown(), event="arrive", place="home"))
        if mode != SOLO:
            self._log(Hitch(action="unhitched", trailer=mode))

    def stop_for_fuel(self) -> None:
        habits, rng = self.habits, self.rng
        self.at += timedelta(minutes=40)
        partial = rng.random() < habits.partial
        level = rng.normal(0.0, habits.click_off)
        gallons = self.room * float(rng.uniform(0.3, 0.7)) if partial else self.room + level
        self.room -= gallons
        kind = rng.random()
        if kind < habits.missed_and_said + habits.missed_unsaid:
            if kind < habits.missed_and_said:
                self.missed = True
            else:
                self.lived.unsaid.append(self.at)
            return
        shown = None if rng.random() < habits.without_odometer else self._shown()
        self.lived.burnt_by[self.at] = self.burnt
        self.lived.miles_by[self.at] = self.miles
        self._log(
            Fill(
                odometer=shown,
                volume=Quantity(round(gallons * float(rng.uniform(0.995, 1.005)), 2), "gal"),
                full=False if partial else (True if rng.random() < 0.5 else None),
                missed=True if self.missed else None,
                unit_price=Quantity(round(float(rng.uniform(3.5, 4.5)), 3), "USD/gal"),
            )
        )
        self.missed = False

    def _drive(self, mode: str, miles: float) -> None:
        # Stops before the tank runs dry, as people do.
        miles = min(miles, max(5.0, (TANK_GALLONS - 2 - self.room) / self.lived.truth[mode]))
        road = max(0.5, float(self.rng.normal(1.0, self.habits.road)))
        gallons = miles * self.lived.truth[mode] * road
        self.at += timedelta(hours=miles / 50)
        self.miles += miles
        self.burnt += gallons
        self.room += gallons

    def _shown(self) -> Quantity:
        return Quantity(float(int(self.miles)), "mi")

    def _log(self, entry: Entry) -> None:
        key = len(self.lived.entries) + 1
        self.lived.entries.append(Logged(entry=entry, at=self.at, by="Ana", key=key))

    def _arrive_late(self) -> None:
        """Some messages reach the log long after they happened: their keys say so."""
        for index, each in enumerate(self.lived.entries):
            if self.rng.random() < self.habits.late and isinstance(each.entry, Fill):
                key = each.key + 100_000
                self.lived.entries[index] = Logged(
                    entry=each.entry, at=each.at, by=each.by, key=key
                )
