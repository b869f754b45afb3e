"""Entries as rows, and rows as entries.

This file decides which table holds each kind of entry, and how a record's fields become
columns: a field whose table has a `_unit` column beside it is a quantity. It does not know
which logbook an entry belongs to, nor when one is written.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from datetime import date, datetime
from sys import intern
from typing import Any

from sqlalchemy import Row

from bot.store.columns import quantity_in, quantity_values
from bot.store.tables import (
    CargoRow,
    CheckRow,
    FillRow,
    HitchRow,
    ObservationRow,
    OdometerRow,
    OwnTable,
    RatingRow,
    WeighingRow,
)
from domain.entries import KIND_NAMES, KINDS, Correction, Entry
from domain.quantities import Quantity

TABLES: Mapping[str, type[OwnTable] | None] = {
    "weighing": WeighingRow,
    "fill": FillRow,
    "odometer": OdometerRow,
    "hitch": HitchRow,
    "observation": ObservationRow,
    "rating": RatingRow,
    "cargo": CargoRow,
    "check": CheckRow,
    "note": None,
}
"""The table of each kind that is kept. A note is its common fields; a correction is no entry
of its own but a change to others."""

COMMON = tuple(each.name for each in fields(Entry))
OWN: Mapping[str, tuple[str, ...]] = {
    kind: tuple(
        each.name
        for each in fields(KINDS[kind])
        if each.name not in COMMON and each.name != "loads"
    )
    for kind in TABLES
}


_EMPTY: Mapping[str, Mapping[str, None]] = {
    kind: dict.fromkeys(each.name for each in table.rows().c if each.name != "entry_id")
    for kind, table in TABLES.items()
    if table is not None
}


def common_values(entry: Entry) -> dict[str, Any]:
    """The columns of `entries` that an entry fills by itself; raises TypeError for a correction."""
    if isinstance(entry, Correction):
        raise TypeError("a correction changes entries and is not kept as one")
    return {
        "kind": KIND_NAMES[type(entry)],
        "stated_at": entry.at.isoformat() if entry.at else None,
        "place": entry.place,
        "truck": entry.truck,
        "trailer": entry.trailer,
        "note": entry.note,
        "words": [list(pair) for pair in entry.words],
    }


def own_values(entry: Entry) -> dict[str, Any]:
    """The columns of the kind's own table, all of them, without the loads of a weighing."""
    kind = KIND_NAMES[type(entry)]
    values: dict[str, Any] = dict(_EMPTY.get(kind, {}))
    for name in OWN[kind]:
        value = getattr(entry, name)
        values |= quantity_values(name, value) if isinstance(value, Quantity) else {name: value}
    return values


def entry_in(row: Row[Any], loads: Mapping[str, Quantity]) -> Entry:
    """The entry that a row of `entries`, joined with its own table, describes."""
    kind: str = row.kind
    values: dict[str, Any] = {name: getattr(row, name) for name in COMMON if name not in _SPECIAL}
    for name in OWN[kind]:
        has_unit = getattr(row, f"{name}_unit", None) is not None
        values[name] = quantity_in(row, name) if has_unit else getattr(row, name)
    if kind == "weighing":
        values["loads"] = dict(loads)
    words = tuple((intern(field), words) for field, words in row.words)
    return KINDS[kind](at=_stated(row.stated_at), words=words, **values)


_SPECIAL = ("at", "words")


def _stated(text: str | None) -> datetime | date | None:
    if text is None:
        return None
    return datetime.fromisoformat(text) if "T" in text else date.fromisoformat(text)
