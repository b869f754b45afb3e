"""A part of a record that is found when it is first asked for, and then kept."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Generic, TypeVar, overload

Part = TypeVar("Part")


class later(Generic[Part]):  # noqa: N801  it decorates as `property` does
    """What a method finds, once for each record; the record must keep no slots.

    Of the standard library, `functools.cached_property` takes a lock that is of no use here.
    """

    def __init__(self, find: Callable[[Any], Part]) -> None:
        self.find, self.name, self.__doc__ = find, find.__name__, find.__doc__

    @overload
    def __get__(self, whole: None, owner: type) -> later[Part]: ...
    @overload
    def __get__(self, whole: object, owner: type) -> Part: ...
    def __get__(self, whole: object | None, owner: type) -> later[Part] | Part:
        """Find the part, and leave it where the record's own attributes are looked up first."""
        if whole is None:
            return self
        part = self.find(whole)
        whole.__dict__[self.name] = part
        return part
