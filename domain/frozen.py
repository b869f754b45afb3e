"""Frozen records that are made as soon as open ones.

`dataclasses` sets each field of a frozen record past its own lock, which takes ten times as long
as setting it; an entry has up to sixteen. This file decides how the fields of one are set, and
changes nothing else: such a record is compared, printed, replaced and refused as before.
"""

from __future__ import annotations

from dataclasses import MISSING, fields
from typing import Any, TypeVar

Record = TypeVar("Record")


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
    named: dict[str, Any] = {"Open": Open, "Frozen": cls, "unlock": object.__setattr__}
    asked: list[str] = []
    for each in parts:
        if each.default_factory is not MISSING:
            raise TypeError(f"{cls.__name__}.{each.name} has a factory")
        given = each.default is not MISSING
        named[f"default_{each.name}"] = each.default
        asked.append(f"{each.name}=default_{each.name}" if given else each.name)
    steps = ["unlock(self, '__class__', Open)"]
    steps += [f"self.{each.name} = {each.name}" for each in parts]
    steps.append("self.__class__ = Frozen")
    if hasattr(cls, "__post_init__"):
        steps.append("self.__post_init__()")
    by_name = "*, " if all(each.kw_only for each in parts) else ""
    lines = "\n    ".join(steps)
    exec(f"def __init__(self, {by_name}{', '.join(asked)}):\n    {lines}", named)  # noqa: S102
    setattr(cls, "__init__", named["__init__"])  # noqa: B010  a method is not assigned to
    return cls
