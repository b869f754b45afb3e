"""What a picture shows, in words, for those who do not see it.

This file decides the order in which a picture is told: what it is, the verdict, then every
figure that it shows. The words are the picture's own, so that they are in its language.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

from bot.answers.pictures import (
    Bar,
    EconomyPicture,
    MarginsPicture,
    Picture,
    RigPicture,
    Section,
    WeekPicture,
)


def alt_text(picture: Picture) -> str:
    """A picture in words, in one paragraph."""
    said = (each.rstrip(".") for each in _TOLD[type(picture)](picture))
    return " ".join(f"{each}." for each in said if each)


def _rig(picture: RigPicture) -> Iterable[str]:
    rig = [each for each in (picture.truck, picture.trailer_name) if each]
    loads = (picture.steer, picture.drive, picture.tongue, *picture.trailer, *picture.sums)
    return (
        f"{picture.title}, {picture.when}: {', '.join(rig)}",
        picture.verdict,
        *(_bar(each) for each in loads if each),
        picture.caution,
    )


def _margins(picture: MarginsPicture) -> Iterable[str]:
    return (
        f"{picture.title}, {picture.when}",
        picture.verdict,
        *(_bar(each) for each in picture.bars),
        *picture.notes,
        picture.caution,
    )


def _bar(bar: Bar) -> str:
    return f"{bar.name}: {' '.join(filter(None, (bar.load, bar.against)))}, {bar.left}"


def _economy(picture: EconomyPicture) -> Iterable[str]:
    return (
        f"{picture.title}, {picture.days}",
        picture.headline,
        *(
            f"{each.name}: {', '.join(filter(None, (each.figure, each.grounds)))}"
            for each in picture.series
        ),
        *picture.notes,
    )


def _week(picture: WeekPicture) -> Iterable[str]:
    return (
        f"{picture.title}, {picture.days}",
        picture.verdict,
        ", ".join((picture.total, *(f"{each.name} {each.figure}" for each in picture.parts))),
        *(_section(each) for each in picture.sections),
        picture.caution,
    )


def _section(section: Section) -> str:
    facts = [
        ", ".join(filter(None, (f"{each.name} {each.figure}", each.remark)))
        for each in section.facts
    ]
    bar = [_bar(section.bar)] if section.bar else []
    return f"{section.title}: {'; '.join((*facts, *bar, *section.lines))}"


_TOLD: Mapping[type[Picture], Callable[[Any], Iterable[str]]] = {
    RigPicture: _rig,
    MarginsPicture: _margins,
    EconomyPicture: _economy,
    WeekPicture: _week,
}
