"""Frozen records that are made soon are as frozen, and as alike, as those made slowly."""

from __future__ import annotations

import copy
import pickle
from dataclasses import FrozenInstanceError, dataclass, field, fields, replace

import pytest

from domain.entries import Fill, ImpossibleEntry, Weighing
from domain.frozen import changed, soon_made
from domain.quantities import Quantity
from domain.verdicts import Question

FILLED = Fill(product="diesel", volume=Quantity(31.2, "gal"), full=True)


def test_every_field_is_what_was_given_or_its_default() -> None:
    given = {"product": "diesel", "volume": Quantity(31.2, "gal"), "full": True}
    for each in fields(Fill):
        assert getattr(FILLED, each.name) == given.get(each.name, each.default)


def test_a_record_refuses_to_be_changed_once_it_is_made() -> None:
    with pytest.raises(FrozenInstanceError):
        FILLED.full = False  # type: ignore[misc]
    with pytest.raises(FrozenInstanceError):
        del FILLED.full
    with pytest.raises((AttributeError, TypeError)):
        FILLED.colour = "red"  # type: ignore[attr-defined]
    assert type(FILLED) is Fill


def test_records_are_compared_hashed_copied_and_pickled_as_before() -> None:
    alike = Fill(product="diesel", volume=Quantity(31.2, "gal"), full=True)
    assert alike == FILLED
    assert hash(alike) == hash(FILLED)
    assert replace(FILLED, full=None) == Fill(product="diesel", volume=Quantity(31.2, "gal"))
    assert copy.deepcopy(FILLED) == FILLED
    assert pickle.loads(pickle.dumps(FILLED)) == FILLED
    assert repr(alike).startswith("Fill(")


def test_what_is_asked_for_by_name_or_not_at_all_stays_so() -> None:
    assert Question("weight").topic == "weight"
    with pytest.raises(TypeError):
        Fill("diesel")  # type: ignore[call-arg, arg-type]
    with pytest.raises(TypeError):
        Weighing()  # type: ignore[call-arg]


def test_what_a_record_makes_sure_of_it_still_does() -> None:
    with pytest.raises(ImpossibleEntry):
        Weighing(loads={})


def test_a_field_with_a_factory_is_refused() -> None:
    @dataclass(frozen=True, slots=True)
    class Listed:
        loads: list[float] = field(default_factory=list)

    with pytest.raises(TypeError, match=r"Listed\.loads has a factory"):
        soon_made(Listed)


def test_a_changed_record_is_what_replacing_its_fields_makes() -> None:
    assert changed(FILLED, full=None) == replace(FILLED, full=None) != FILLED
    with pytest.raises(TypeError):
        changed(FILLED, colour="red")
    with pytest.raises(ImpossibleEntry):
        changed(Weighing(loads={"gross": Quantity(9_000, "lb")}), loads={"nowhere": FILLED.volume})
