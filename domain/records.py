"""Entries and verdicts as the plain data of the `read` contract, and back.

This file decides how a record looks outside the program (`drawbar read`, exports, the
journal's copies): dictionaries of strings, numbers and dictionaries, ready for JSON.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from datetime import date, datetime
from typing import Any, cast, get_args

from domain.choices import LABELS, ChoiceLabel, english
from domain.context import Context, Units
from domain.entries import KIND_NAMES, KINDS, Entry
from domain.quantities import Quantity
from domain.verdicts import Ask, Choice, Facts, Question, Silent, Verdict

Record = dict[str, Any]


class NotARecord(ValueError):
    """Plain data that is not in the form of the contract; the sentence says where."""


def entry_to_record(entry: Entry) -> Record:
    """An entry as plain data: its kind, then each field that was stated."""
    kind = KIND_NAMES[type(entry)]
    record: Record = {"kind": kind}
    for name in _FIELDS[kind]:
        value = getattr(entry, name)
        if value is not None:
            record[name] = _plain(value)
    return record


def entry_from_record(record: Mapping[str, Any]) -> Entry:
    """The entry that plain data describes; raises NotARecord, or ImpossibleEntry."""
    kind = KINDS.get(str(record.get("kind")))
    if kind is None:
        raise NotARecord(f"no such kind of entry: {record.get('kind')!r}")
    known = _FIELDS[str(record["kind"])]
    values = {name: _value(name, value) for name, value in record.items() if name in known}
    try:
        return kind(**values)
    except TypeError as error:
        raise NotARecord(f"a {record['kind']} lacks a field: {error}") from error


def verdict_to_record(verdict: Verdict) -> Record:
    """A verdict as the contract's output line."""
    match verdict:
        case Facts(entries):
            return {"verdict": "entry", "entries": [entry_to_record(entry) for entry in entries]}
        case Question():
            return {"verdict": "question", "question": _question_to_record(verdict)}
        case Ask():
            return {"verdict": "ask", "ask": ask_to_record(verdict)}
        case Silent():
            return {"verdict": "silent"}


def ask_to_record(ask: Ask, *, named: bool = False) -> Record:
    """An open question as plain data, to be handed back as context.

    `named` has beside each label what it was made of, so that it can be said in any language.
    """
    choices = [_choice(each, named=named) for each in ask.choices]
    record: Record = {"about": ask.about, "choices": choices}
    if ask.why:
        record["why"] = ask.why
    if ask.figures:
        record["figures"] = [_plain(figure) for figure in ask.figures]
    return record


def _choice(choice: Choice, *, named: bool) -> Record:
    record: Record = {
        "label": english(choice.label),
        "entries": [entry_to_record(entry) for entry in choice.entries],
    }
    if named and isinstance(choice.label, ChoiceLabel):
        parts = {each.name: getattr(choice.label, each.name) for each in fields(ChoiceLabel)}
        record["named"] = {name: _plain(value) for name, value in parts.items() if value}
    return record


def ask_from_record(record: Mapping[str, Any]) -> Ask:
    """The open question that plain data describes; raises NotARecord."""
    choices = tuple(
        Choice(
            _label(choice),
            tuple(entry_from_record(entry) for entry in choice.get("entries", ())),
        )
        for choice in record.get("choices", ())
    )
    figures = tuple(quantity_from_record(figure) for figure in record.get("figures", ()))
    return Ask(str(record.get("about", "")), choices, str(record.get("why", "")), figures)


def _label(choice: Mapping[str, Any]) -> ChoiceLabel | str:
    named = choice.get("named") or {}
    if named.get("way") not in LABELS:
        return str(choice.get("label", ""))
    figure = named.get("figure")
    return ChoiceLabel(
        way=named["way"],
        figure=quantity_from_record(figure) if figure else None,
        position=named.get("position"),
        loads=_value("loads", named.get("loads") or {}),
    )


def quantity_from_record(record: Mapping[str, Any]) -> Quantity:
    """A quantity from its plain data; raises NotARecord."""
    try:
        return Quantity(record["value"], record["unit"], record.get("low"))
    except KeyError as error:
        raise NotARecord(f"a quantity lacks {error}") from error


def context_from_record(record: Mapping[str, Any], sent_at: datetime) -> Context:
    """What the chat knows, from the contract's `context`; raises NotARecord."""

    def quantity(name: str) -> Quantity | None:
        return quantity_from_record(record[name]) if record.get(name) else None

    units = record.get("units", "us")
    if units not in get_args(Units):
        raise NotARecord(f"units are us, metric or imperial, not {units!r}")
    return Context(
        sent_at=sent_at,
        units=cast(Units, units),
        currency=str(record.get("currency") or "USD"),
        time_zone=record.get("time_zone"),
        odometer=quantity("odometer"),
        tank=quantity("tank"),
        fuel=record.get("fuel"),
        hitched=record.get("hitched"),
        truck=record.get("truck"),
        trailers=tuple(record.get("trailers") or ()),
        asked=ask_from_record(record["asked"]) if record.get("asked") else None,
        language=str(record.get("language") or "en"),
        names_by_kind=bool(record.get("names_by_kind")),
    )


def _question_to_record(question: Question) -> Record:
    names = {"since": "from", "until": "to"}
    return {
        names.get(name, name): _plain(getattr(question, name))
        for name in (each.name for each in fields(question))
        if name != "text" and getattr(question, name) not in (None, ())
    }


def _ordered_fields(kind: type[Entry]) -> tuple[str, ...]:
    own = [each.name for each in fields(kind) if each.name not in ("words", "about")]
    shared = [each.name for each in fields(Entry)]
    return tuple(
        [name for name in own if name not in shared] + [name for name in own if name in shared]
    )


_FIELDS = {name: _ordered_fields(kind) for name, kind in KINDS.items()}


def _plain(value: Any) -> Any:
    match value:
        case Quantity(amount, unit, low):
            record = {"value": _number(amount), "unit": unit}
            return record if low is None else {**record, "low": _number(low)}
        case datetime() | date():
            return value.isoformat()
        case Mapping():
            return {name: _plain(each) for name, each in value.items()}
        case tuple():
            return [_plain(each) for each in value]
        case bool() | str():
            return value
        case float() | int():
            return _number(value)
    raise TypeError(f"{value!r} has no plain form")


def _number(value: float) -> float:
    return int(value) if value % 1 == 0 else value


def _value(name: str, value: Any) -> Any:
    if name == "loads":
        return {position: quantity_from_record(load) for position, load in value.items()}
    if isinstance(value, Mapping):
        return quantity_from_record(value)
    if name == "at" and isinstance(value, str):
        return datetime.fromisoformat(value) if "T" in value else date.fromisoformat(value)
    return value
