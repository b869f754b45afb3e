"""How a reading is scored against the reading that a careful person would make.

A corpus gives a message and what should be made of it, both in the form of the `read`
contract. Every message has one outcome:

    exact    the verdict and every figure and name expected, and nothing more
    part     all that was kept is right, and something stated was left out
    asked    a question back where the reading was beyond doubt
    missed   silence where something was stated or asked
    wrong    something was kept that the message does not say (the worst)
    alarm    something was kept, asked or answered from talk between people
    crash    no reading came back

This file decides what counts as the same: figures in any unit to one part in a thousand, a
time to the hour, a name by one word in common; places, tickets and notes are not judged. It
does not read messages, nor know where the corpora lie.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from domain.quantities import MixedDimensions, Quantity, UnknownUnit
from domain.records import Record

OUTCOMES = ("exact", "part", "asked", "missed", "wrong", "alarm", "crash")

NAMES = {"trailer", "truck", "position", "product", "item"}
"""Fields that are right when they share a word with what was expected."""

UNJUDGED = {"note", "place", "ticket"}
"""Fields that are neither missed nor held against a reading."""

UNASKED = {"at", "event", "item", "trailer", "truck"}
"""Fields that may be filled although the corpus does not expect them."""

TOLERANCE = 1e-3
TIME_TOLERANCE = timedelta(hours=1)


@dataclass(frozen=True, slots=True)
class Score:
    """The outcome of one message, and which fields made it."""

    outcome: str
    why: tuple[str, ...] = ()


def score(want: Record, got: Record | None) -> Score:
    """The outcome of a message; both are verdicts as records, `got` None where there is none."""
    if got is None:
        return Score("crash")
    match want["verdict"]:
        case "silent":
            return _silence(got)
        case "ask":
            return _doubt(got)
        case "question":
            return _question(want["question"], got)
    if all(entry["kind"] == "note" for entry in want["entries"]):
        return Score("exact") if got["verdict"] == "entry" and not _kept(got) else _silence(got)
    if got["verdict"] == "ask":
        return Score("asked")
    if got["verdict"] != "entry":
        return Score("missed", (got["verdict"],))
    return _facts(want["entries"], got["entries"])


def _kept(got: Record) -> list[Record]:
    """The entries of a verdict that hold more than words."""
    return [entry for entry in got.get("entries", ()) if entry["kind"] != "note"]


def _silence(got: Record) -> Score:
    if got["verdict"] == "silent":
        return Score("exact")
    if got["verdict"] == "entry" and not _kept(got):
        return Score("part", ("kept as a note",))
    return Score("alarm", (got["verdict"], *(entry["kind"] for entry in _kept(got))))


def _doubt(got: Record) -> Score:
    if got["verdict"] == "ask":
        return Score("exact")
    if _kept(got):
        return Score("wrong", ("no question back",))
    return Score("missed", (got["verdict"],))


def _question(want: Record, got: Record) -> Score:
    if got["verdict"] != "question":
        outcome = "asked" if got["verdict"] == "ask" else "wrong" if _kept(got) else "missed"
        return Score(outcome, (got["verdict"],))
    asked = got["question"]
    if asked["topic"] != want["topic"]:
        return Score("part", (f"topic {asked['topic']}",))
    judged = {name: value for name, value in want.items() if name not in UNJUDGED}
    why = [f"-{name}" for name in judged if name not in asked]
    why += [
        name
        for name, value in judged.items()
        if name in asked and not same(name, value, asked[name])
    ]
    return Score("part", tuple(why)) if why else Score("exact")


def _facts(want: Iterable[Record], got: Iterable[Record]) -> Score:
    """Each expected entry against the likest of its kind; what is left over was never said."""
    left = [entry for entry in got if entry["kind"] != "note"]
    missing: list[str] = []
    wrong: list[str] = []
    for entry in want:
        kind = entry["kind"]
        rivals = [each for each in left if each["kind"] == kind]
        if kind == "note":
            continue
        if not rivals:
            missing.append(f"-{kind}")
            continue
        compared = [(*compare(entry, each), each) for each in rivals]
        short, bad, best = min(compared, key=lambda each: (len(each[1]), len(each[0])))
        left.remove(best)
        missing += [f"-{kind}.{name}" for name in short]
        wrong += [f"{kind}.{name}" for name in bad]
    wrong += [f"+{entry['kind']}" for entry in left]
    if wrong:
        return Score("wrong", (*wrong, *missing))
    return Score("part", tuple(missing)) if missing else Score("exact")


def compare(want: Record, got: Record) -> tuple[list[str], list[str]]:
    """Fields of an expected entry that a kept one of its kind lacks, and those it has wrong."""
    expected, kept = _flat(want), _flat(got)
    missing = [name for name in expected if name not in kept]
    wrong = [
        name
        for name, value in expected.items()
        if name in kept and not same(name, value, kept[name])
    ]
    wrong += [
        name
        for name in kept
        if name not in expected and name not in UNASKED and not _follows(name, want, kept)
    ]
    return missing, wrong


def _flat(entry: Record) -> Record:
    """An entry's judged fields, each load under a name of its own."""
    fields = {
        name: value for name, value in entry.items() if name not in UNJUDGED | {"kind", "loads"}
    }
    return fields | {f"loads.{where}": load for where, load in entry.get("loads", {}).items()}


def _follows(name: str, want: Record, kept: Record) -> bool:
    """Whether a gross that was not expected is the sum of the axles that were."""
    if name != "loads.gross":
        return False
    axles = [want["loads"][axle] for axle in ("steer", "drive", "trailer") if axle in want["loads"]]
    stated = sum(_quantity(load).amount("kg") for load in axles)
    return _same_number(stated, _quantity(kept[name]).amount("kg"))


def same(name: str, want: Any, got: Any) -> bool:
    """Whether a field was read as expected."""
    if isinstance(want, Mapping):
        return isinstance(got, Mapping) and _same_quantity(_quantity(want), _quantity(got))
    if isinstance(want, bool) or isinstance(got, bool):
        return want is got
    if isinstance(want, int | float):
        bare = got["value"] if isinstance(got, Mapping) else got
        return isinstance(bare, int | float) and _same_number(want, bare)
    if name == "at":
        return _same_time(str(want), str(got))
    if name in NAMES:
        expected, found = str(want).casefold(), str(got).casefold()
        return bool(_words(expected) & _words(found)) or found in expected
    return str(want).casefold() == str(got).casefold()


def _quantity(record: Mapping[str, Any]) -> Quantity:
    return Quantity(record["value"], record["unit"])


def _same_quantity(want: Quantity, got: Quantity) -> bool:
    try:
        return _same_number(want.value, got.amount(want.unit))
    except (UnknownUnit, MixedDimensions):
        return False


def _same_number(want: float, got: float) -> bool:
    return abs(want - got) <= max(TOLERANCE * max(abs(want), abs(got)), 1e-9)


def _same_time(want: str, got: str) -> bool:
    try:
        expected, found = datetime.fromisoformat(want), datetime.fromisoformat(got)
    except ValueError:
        return False
    if expected.tzinfo is None or found.tzinfo is None:
        expected, found = expected.replace(tzinfo=None), found.replace(tzinfo=None)
    return abs(expected - found) <= TIME_TOLERANCE


def _words(text: str) -> set[str]:
    return set(re.findall(r"\w+", text))
