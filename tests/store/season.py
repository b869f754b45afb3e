"""A logbook with something in every corner, for what must carry or delete all of it."""

from __future__ import annotations

from sqlalchemy import select

from bot.store.database import Store
from bot.store.move import TABLES
from domain.entries import (
    Cargo,
    Check,
    Correction,
    Fill,
    Hitch,
    Note,
    Observation,
    Odometer,
    Rating,
    Weighing,
)
from domain.quantities import Quantity
from domain.verdicts import Ask, Choice, Facts, Verdict
from tests.store.logbooks import Scripted, as_told, lb, mi, told

Rows = dict[str, list[tuple[object, ...]]]

READING = Odometer(odometer=mi(48300))
SAID: dict[str, Verdict] = {
    "rig": Facts((Rating(subject="truck", rating="gvwr", value=lb(11500), truck="Juniper"),)),
    "weighed": Facts(
        (Weighing(loads={"steer": lb(5280), "drive": Quantity(6240, "lb", 6200)}, rig="solo"),)
    ),
    "filled": Facts((Fill(volume=Quantity(34.1, "gal"), odometer=mi(48100), full=True),)),
    "volume": Facts((Correction(action="amend", field="volume", value=Quantity(31.4, "gal")),)),
    "undo": Facts((Correction(action="undo"),)),
    "hitched": Facts((Hitch(action="hitched", trailer="flatdeck"),)),
    "hot": Facts((Observation(subject="transmission", value=Quantity(205, "degF", 190)),)),
    "hives": Facts((Cargo(item="hives", value=lb(1200), position="trailer"),)),
    "checked": Facts((Check(item="lug nuts", state="done"),)),
    "clover": Facts((Note(note="clover is in bloom at the north yard"),)),
    "odo back": Ask("odometer", (Choice("48,300 mi", (READING,)),)),
}


def a_season(store: Store, chat: str = "barn") -> None:
    """Ana and Ben text a bit of everything, correct each other, and leave a question open."""
    lines = (
        ("ana", "rig"), ("ana", "weighed"), ("ben", "filled"), ("ana", "volume"),
        ("ben", "hitched"), ("ana", "hot"), ("ben", "hives"), ("ben", "undo"),
        ("ana", "checked"), ("ana", "clover"), ("ben", "odo 48200"), ("ana", "odo back"),
    )  # fmt: skip
    told(
        store,
        *(
            as_told(text, at=number, author=author, chat=chat)
            for number, (author, text) in enumerate(lines)
        ),
        reader=Scripted(SAID),
    )


def every_row(store: Store) -> Rows:
    """What every table holds, in the order of its keys."""
    with store.look() as session:
        return {
            table.name: [
                tuple(row)
                for row in session.execute(select(table).order_by(*table.primary_key.columns))
            ]
            for table in TABLES
        }
