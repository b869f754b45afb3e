"""How values that are not plain numbers or texts lie in a column.

This file decides the column form of a moment (UTC on every database) and of a quantity (a
value and its unit side by side, as stated, with the lower end where a range was stated).
It does not know which table holds them.
"""

from __future__ import annotations

from datetime import UTC, datetime
from sys import intern
from typing import Any

from sqlalchemy import DateTime, Dialect
from sqlalchemy.types import TypeDecorator

from domain.quantities import Quantity


class Moment(TypeDecorator[datetime]):
    """An aware moment, kept as UTC; SQLite has no zones, so the zone is put back on reading."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """The moment in UTC; raises ValueError for one without a zone."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise ValueError(f"{value!r} has no time zone")
        utc = value.astimezone(UTC)
        return utc.replace(tzinfo=None) if dialect.name == "sqlite" else utc

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """The kept moment, aware, in UTC."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


def quantity_values(name: str, quantity: Quantity | None) -> dict[str, Any]:
    """The columns `name`, `name_unit` and `name_low` that hold a quantity."""
    if quantity is None:
        return {}
    return {
        name: quantity.value,
        f"{name}_unit": quantity.unit,
        f"{name}_low": quantity.low,
    }


def quantity_in(row: object, name: str) -> Quantity | None:
    """The quantity that a row's columns hold, or None where nothing was stated."""
    value = getattr(row, name)
    if value is None:
        return None
    return Quantity(value, intern(getattr(row, f"{name}_unit")), getattr(row, f"{name}_low"))
