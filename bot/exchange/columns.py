"""Records of the `read` contract as rows of a table, and back.

This file decides the columns of Drawbar's own tables: a quantity takes up to three (`volume`,
`volume unit`, `volume low`), each load of a weighing likewise (`steer load`, ...), so that a
spreadsheet can compute with the figures. Beside the contract's fields stands `by`, who told
it. It does not know how a table becomes a file.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import fields
from datetime import date, datetime
from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

from domain.entries import KINDS, POSITIONS, Correction
from domain.quantities import Quantity
from domain.records import NotARecord, Record

Cell = str | float | int | bool | datetime | date | None
"""What a cell holds; None where it is empty."""

KIND, BY = "kind", "by"
UNIT, LOW, LOAD = " unit", " low", " load"
TRUE, FALSE = "true", "false"


def _shape(hint: Any) -> type:
    """The plainest type of a field: Quantity wins over a number, a choice is a text."""
    options = get_args(hint) if get_origin(hint) in (Union, UnionType) else (hint,)
    if Quantity in options:
        return Quantity
    known = [str if get_origin(each) is Literal else each for each in options]
    return next((each for each in (bool, int, float) if each in known), str)


def _shapes() -> dict[str, type]:
    found: dict[str, type] = {KIND: str, "at": str, BY: str}
    for kind in KINDS.values():
        if kind is Correction:
            continue
        hints = get_type_hints(kind)
        for each in fields(kind):
            if each.name not in ("words", "loads"):
                found.setdefault(each.name, _shape(hints[each.name]))
    return found


SHAPES: Mapping[str, type] = _shapes()
"""Every field that a record can have, loads apart, and its plainest type."""


def heading(field: str) -> str:
    """A field's name as the heading of its column."""
    return field.replace("_", " ")


def _all_columns() -> tuple[str, ...]:
    found: list[str] = []
    quantities = [f"{position}{LOAD}" for position in POSITIONS]
    plain = [name for name, shape in SHAPES.items() if shape is not Quantity]
    quantities += [heading(name) for name, shape in SHAPES.items() if shape is Quantity]
    found += [heading(name) for name in plain]
    for name in quantities:
        found += [name, name + UNIT, name + LOW]
    return tuple(found)


COLUMNS = _all_columns()
"""Every column that a table of Drawbar's can have, in order."""


def table(records: Iterable[Record]) -> tuple[list[str], list[list[Cell]]]:
    """The headings that records need, and a row for each record."""
    rows = [_cells(record) for record in records]
    used = {name for row in rows for name in row} | {KIND, "at", BY}
    headings = [name for name in COLUMNS if name in used]
    return headings, [[row.get(name) for name in headings] for row in rows]


def _cells(record: Record) -> dict[str, Cell]:
    cells: dict[str, Cell] = {}
    for name, value in record.items():
        if name == "loads":
            for position, load in value.items():
                cells |= _spread(f"{position}{LOAD}", load)
        elif isinstance(value, Mapping):
            cells |= _spread(heading(name), value)
        elif isinstance(value, bool):
            cells[heading(name)] = TRUE if value else FALSE
        else:
            cells[heading(name)] = value
    return cells


def _spread(name: str, quantity: Mapping[str, Any]) -> dict[str, Cell]:
    cells = {name: quantity["value"], name + UNIT: quantity["unit"], name + LOW: None}
    if "low" in quantity:
        cells[name + LOW] = quantity["low"]
    return {key: value for key, value in cells.items() if value is not None}


def is_own(headings: Iterable[str]) -> bool:
    """Whether a table has Drawbar's own columns."""
    found = set(headings) - {""}
    return KIND in found and found <= set(COLUMNS)


def record(row: Mapping[str, Cell]) -> Record:
    """The record that a row of Drawbar's own table holds; raises NotARecord."""
    found: Record = {}
    loads: dict[str, Any] = {}
    for name, shape in SHAPES.items():
        cell = row.get(heading(name))
        if cell is None or cell == "":
            continue
        found[name] = (
            _gathered(heading(name), row) if shape is Quantity else _plain(name, cell, shape)
        )
    for position in POSITIONS:
        if row.get(f"{position}{LOAD}") not in (None, ""):
            loads[position] = _gathered(f"{position}{LOAD}", row)
    if loads:
        found["loads"] = loads
    return found


def _gathered(name: str, row: Mapping[str, Cell]) -> Any:
    value = number(name, row.get(name))
    unit, low = row.get(name + UNIT), row.get(name + LOW)
    if unit in (None, ""):
        return value
    gathered: Record = {"value": value, "unit": str(unit)}
    return gathered if low in (None, "") else {**gathered, "low": number(name + LOW, low)}


def _plain(name: str, cell: Cell, shape: type) -> Any:
    if shape is bool:
        text = str(cell).strip().casefold()
        if text not in (TRUE, FALSE):
            raise NotARecord(f"{name} is {cell!r}; it wants true or false")
        return text == TRUE
    if shape is int:
        return int(number(name, cell))
    if shape is float:
        return number(name, cell)
    return cell.isoformat() if isinstance(cell, date) else str(cell)


def number(name: str, cell: Cell) -> float:
    """A cell's number; raises NotARecord."""
    if isinstance(cell, int | float) and not isinstance(cell, bool):
        return cell
    try:
        found = float(str(cell))
    except ValueError as error:
        raise NotARecord(f"{name} is {cell!r}; it wants a number") from error
    return int(found) if found.is_integer() else found
