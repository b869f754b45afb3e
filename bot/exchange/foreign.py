"""A row of somebody else's table as entries, or why it is none.

This file decides how a cell is read as a figure with its unit, a day, a yes or a name, and
which entries the cells of a row make together: loads a weighing, fuel a fill, an odometer
alone a reading. A cell that can't be read stops its row; nothing is guessed. It does not know
what the logbook holds already.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime, time
from typing import Any

from bot.exchange.columns import LOAD, Cell
from bot.exchange.headings import MONEY_SIGNS, OWN_MONEY, Column, HeadingWords
from bot.exchange.numerals import plain_numerals
from domain.context import DISTANCE_UNIT, ECONOMY_UNIT, MASS_UNIT, VOLUME_UNIT
from domain.entries import Entry, Fill, Odometer, Weighing
from domain.log import Preferences
from domain.quantities import Quantity
from domain.reading import Phrasebook
from domain.reading.lexer import clean, tokenize
from domain.reading.tokens import NUMBER, WORD

HUNDREDTHS: Mapping[str, str | None] = {"cents": None, "pence": "GBP"}
"""Small money, and the currency that it is a hundredth of; None for the logbook's own."""

FILL_FIGURES = ("volume", "unit_price", "cost", "distance", "odometer", "dash_economy")
NAMES = ("place", "truck", "trailer", "note", "ticket", "by")
TRUTHS = ("full", "missed")
_NUMERIC_DATE = re.compile(r"(\d{1,2})[./-](\d{1,2})[./-](\d{4}|\d{2})(?!\d)")
_CLOCK = re.compile(r"(\d{1,2}):(\d{2})(?::\d{2}(?:\.\d+)?)?\s*([ap])?\.?m?", re.IGNORECASE)


class Unreadable(ValueError):
    """A cell that can't be read; the sentence names its column and what stands there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What a row says: its entries, and who told it where a column does."""

    entries: tuple[Entry, ...]
    by: str = ""


@dataclass(frozen=True, slots=True)
class Reader:
    """Reads the rows of one table, whose columns are known."""

    columns: Sequence[Column]
    book: Phrasebook
    words: HeadingWords
    preferences: Preferences
    day_first: bool = field(default=False)
    decimal: str = field(default=".")

    def read(self, row: Sequence[Cell]) -> Said:
        """What a row says; raises Unreadable."""
        cells = {
            column.fields[0]: (column, row[column.index])
            for column in self.columns
            if column.fields and column.index < len(row) and row[column.index] not in (None, "")
        }
        loads = {
            name.removesuffix(LOAD): self._quantity(*cells[name], MASS_UNIT)
            for name in cells
            if name.endswith(LOAD)
        }
        figures: dict[str, Any] = {
            name: self._figure(name, *cells[name]) for name in FILL_FIGURES if name in cells
        }
        if not loads and not figures:
            raise Unreadable("no figure in it")
        common: dict[str, Any] = {
            name: str(cells[name][1]).strip() for name in NAMES if name in cells
        }
        by = common.pop("by", "")
        ticket = common.pop("ticket", None)
        common["at"] = self._when(cells)
        entries: list[Entry] = []
        if loads:
            own = {"ticket": ticket, **self._stance(cells, loads)}
            if not self._bought(figures):
                own["cost"] = figures.pop("cost", None)
            entries.append(Weighing(loads=loads, **own, **common))
        if self._bought(figures):
            own = {name: self._truth(*cells[name]) for name in TRUTHS if name in cells}
            own["product"] = self._product(cells)
            entries.append(Fill(**figures, **own, **common))
        elif "odometer" in figures:
            entries.append(Odometer(odometer=figures["odometer"], **common))
        if not entries:
            raise Unreadable("neither a weighing nor a fill")
        return Said(entries=tuple(entries), by=by)

    def _bought(self, figures: Mapping[str, Any]) -> bool:
        return "volume" in figures or ("cost" in figures and "unit_price" in figures)

    def _stance(
        self, cells: Mapping[str, tuple[Column, Cell]], loads: Mapping[str, Quantity]
    ) -> dict[str, Any]:
        """How the rig stood: as said, or hitched where the trailer's axles stand beside others."""
        said: dict[str, Any] = {}
        for name in ("rig", "bars"):
            if name in cells:
                said[name] = self._sense(name, *cells[name])
        if "aboard" in cells:
            said["aboard"] = int(self._number(*cells["aboard"])[0])
        if "rig" not in said and any(each.startswith("trailer") for each in loads):
            said["rig"] = "hitched" if {"steer", "drive", "truck", "gross"} & set(loads) else None
        return said

    def _sense(self, name: str, column: Column, cell: Cell) -> str:
        text = str(cell).strip().casefold()
        if name == "bars" and text in self.words.yes:
            return "on" if self.words.yes[text] else "off"
        keys = [
            key
            for token in tokenize(clean(str(cell)), self.book)
            for sense, key in token.senses.items()
            if sense == name
        ]
        if not keys:
            raise self._unreadable(column, cell)
        return str(keys[0]).split()[0]

    def _product(self, cells: Mapping[str, tuple[Column, Cell]]) -> str | None:
        if "product" not in cells:
            return None
        column, cell = cells["product"]
        try:
            return self._sense("product", column, cell)
        except Unreadable:
            return str(cell).strip().casefold()

    def _truth(self, column: Column, cell: Cell) -> bool:
        found = cell if isinstance(cell, bool) else self.words.yes.get(str(cell).strip().casefold())
        if found is None:
            raise self._unreadable(column, cell)
        return found is not column.negated

    def _figure(self, name: str, column: Column, cell: Cell) -> Quantity:
        if name == "cost":
            return self._money(column, cell)
        if name == "unit_price":
            cost = self._money(column, cell)
            return Quantity(cost.value, f"{cost.unit}/{column.per or self._volume_unit()}")
        usual = {"volume": VOLUME_UNIT, "dash_economy": ECONOMY_UNIT}.get(name, DISTANCE_UNIT)
        return self._quantity(column, cell, usual)

    def _volume_unit(self) -> str:
        """The unit of the table's volumes, which its prices are for."""
        said = [each.unit for each in self.columns if each.fields == ("volume",) and each.unit]
        return self._own(said[0] if said else VOLUME_UNIT[self.preferences.units])

    def _own(self, unit: str) -> str:
        """A gallon is the logbook's own."""
        imperial = self.preferences.units == "imperial"
        return re.sub(r"\bgal\b", "gal_imp", unit) if imperial else unit

    def _quantity(self, column: Column, cell: Cell, usual: Mapping[str, str]) -> Quantity:
        value, unit, _ = self._number(column, cell)
        return Quantity(value, self._own(unit or column.unit or usual[self.preferences.units]))

    def _money(self, column: Column, cell: Cell) -> Quantity:
        value, _, money = self._number(column, cell)
        money = money or column.money or OWN_MONEY
        if money in HUNDREDTHS:
            return Quantity(value / 100, HUNDREDTHS[money] or self.preferences.currency)
        return Quantity(value, money if len(money) == 3 else self.preferences.currency)

    def _number(self, column: Column, cell: Cell) -> tuple[float, str | None, str | None]:
        """The one number of a cell, with its unit and money where the cell says them."""
        if isinstance(cell, bool | date):
            raise self._unreadable(column, cell)
        if isinstance(cell, int | float):
            value, unit, money = float(cell), None, None
        else:
            value, unit, money = self._parsed(column, str(cell))
        if value < 0:
            raise Unreadable(f"{column.title} is below zero ({cell})")
        return value, unit, money

    def _parsed(self, column: Column, text: str) -> tuple[float, str | None, str | None]:
        plain = plain_numerals(text.strip(), self.decimal)
        tokens = tokenize(clean(plain), self.book)
        numbers = [token for token in tokens if token.kind == NUMBER]
        signs = {token.raw.strip() for token in tokens}
        senses = [token.senses for token in tokens if token.kind != NUMBER]
        known = [each for each in senses if each.keys() & {"unit", "money", "per_volume"}]
        words = [token for token in tokens if token.kind == WORD]
        if len(numbers) != 1 or len(words) > len(known):
            raise self._unreadable(column, text)
        unit = next((each["unit"] for each in known if "unit" in each), None)
        money = next((each["money"] for each in known if "money" in each), None)
        sign = next((MONEY_SIGNS[each] for each in signs if each in MONEY_SIGNS), None)
        value = numbers[0].value
        return (-value if plain.startswith(("-", "−", "(")) else value), unit, sign or money

    def _when(self, cells: Mapping[str, tuple[Column, Cell]]) -> datetime | date:
        if "at" not in cells:
            raise Unreadable("no date in it")
        column, cell = cells["at"]
        clock = cells["time"][1] if "time" in cells else None
        if isinstance(cell, datetime):
            found: datetime | date = cell if cell.time() != time() else cell.date()
        elif isinstance(cell, date):
            found = cell
        else:
            found = self._day(column, str(cell).strip())
        if clock is not None and not isinstance(found, datetime):
            found = datetime.combine(found, self._clock(cells["time"][0], clock))
        return found

    def _clock(self, column: Column, cell: Cell) -> time:
        if isinstance(cell, datetime):
            return cell.time()
        found = _CLOCK.search(str(cell))
        try:
            if found is None:
                raise self._unreadable(column, cell)
            hour, minute = int(found[1]), int(found[2])
            if found[3]:
                hour = hour % 12 + (12 if found[3].casefold() == "p" else 0)
            return time(hour, minute)
        except ValueError as error:
            raise self._unreadable(column, cell) from error

    def _day(self, column: Column, text: str) -> datetime | date:
        try:
            found = datetime.fromisoformat(text)
        except ValueError:
            found = self._worded_day(column, text)
        return found if _CLOCK.search(text) else found.date()

    def _worded_day(self, column: Column, text: str) -> datetime:
        import dateparser

        order = "DMY" if self.day_first else "MDY"
        found = dateparser.parse(
            text,
            languages=[self.book.language],
            settings={"DATE_ORDER": order, "REQUIRE_PARTS": ["day", "month", "year"]},
        )
        if found is None:
            raise self._unreadable(column, text)
        return found

    def _unreadable(self, column: Column, cell: Cell) -> Unreadable:
        return Unreadable(f"{column.title} is {str(cell)!r}, which can't be read")


def day_first(
    columns: Sequence[Column], rows: Sequence[Sequence[Cell]], *, otherwise: bool
) -> bool:
    """Whether 3/4/2026 is the third of April here, by the table's other dates."""
    for column in columns:
        if column.fields != ("at",):
            continue
        cells = [str(row[column.index]) for row in rows if column.index < len(row)]
        dates = [found for cell in cells if (found := _NUMERIC_DATE.match(cell.strip()))]
        if any(int(found[1]) > 12 for found in dates):
            return True
        if any(int(found[2]) > 12 for found in dates):
            return False
    return otherwise
