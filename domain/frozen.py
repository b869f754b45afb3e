"""Frozen records that are made as soon as open ones.

`dataclasses` sets each field of a frozen record past its own lock, which takes ten times as long
as setting it; an entry has up to sixteen. This file decides how the fields of one are set, and
changes nothing else: such a record is compared, printed, replaced and refused as before.
"""

from __future__ import annotations

from dataclasses import MISSING, field, fields, make_dataclass
from functools import wraps
from itertools import repeat
from typing import Any, TypeVar

Record = TypeVar("Record")


def changed(record: Record, **told: Any) -> Record:
    """A record with some of its fields told anew.

    `dataclasses.replace` looks each field over before it copies it, and takes four times as long.
    """
    names = record.__dataclass_fields__  # type: ignore[attr-defined]
    kept = dict(zip(names, map(getattr, repeat(record), names), strict=True))
    return type(record)(**{**kept, **told})


def soon_made(cls: type[Record]) -> type[Record]:
    """Let a frozen dataclass with slots set its fields while it is open; put above `dataclass`.

    Raises TypeError for one whose fields have factories, as none of ours has.
    """

    # It has the same slots, and no lock: the class of a record may be either.
    class Open(cls):  # type: ignore[valid-type, misc]
        __slots__ = ()
        __setattr__ = object.__setattr__
        __delattr__ = object.__delattr__

    parts = fields(cls)  # type: ignore[arg-type]
    for each in parts:
        if each.default_factory is not MISSING:
            raise TypeError(f"{cls.__name__}.{each.name} has a factory")
    # What it sets its fields by is an open dataclass's own way to do so.
    shape = make_dataclass(
        cls.__name__,
        [
            (each.name, Any, field(default=each.default, kw_only=each.kw_only))
            if each.default is not MISSING
            else (each.name, Any, field(kw_only=each.kw_only))
            for each in parts
        ],
    )
    set_fields = shape.__init__  # type: ignore[misc]
    unlock = object.__setattr__
    checks = getattr(cls, "__post_init__", None)

    @wraps(cls.__init__)
    def make(record: Any, *given: Any, **named: Any) -> None:
        unlock(record, "__class__", Open)
        set_fields(record, *given, **named)
        record.__class__ = cls
        if checks is not None:
            checks(record)

    setattr(cls, "__init__", make)  # noqa: B010  a method is not assigned to
    return cls
