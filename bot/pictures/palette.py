"""Colours, and how a state looks.

Colours of meaning are those that M. Okabe and K. Ito published as safe for colour-blind readers
(Color Universal Design, 2002, revised 2008, https://jfly.uni-koeln.de/color/). No state is told
by its colour alone: each has a mark and a hatch of its own, and its word stands beside it.

Two schemes, both on a ground of their own, so that a chat's light or dark background does not
matter: `PANEL` for a phone by day and by night, `PAPER` for print.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from bot.answers.pictures import State

ORANGE, SKY, GREEN, YELLOW = "#E69F00", "#56B4E9", "#009E73", "#F0E442"
BLUE, VERMILLION, PURPLE = "#0072B2", "#D55E00", "#CC79A7"


@dataclass(frozen=True, slots=True, kw_only=True)
class Scheme:
    """Colours by what they are for.

    `ink` and `soft` are for words, `rule` for fine lines, `track` for what a bar runs in, `edge`
    for the outline of a coloured mark, `body` for the vehicles, `series` for the ways of driving.
    """

    ground: str
    ink: str
    soft: str
    rule: str
    track: str
    edge: str
    body: str
    series: tuple[str, ...]


PANEL = Scheme(
    ground="#10181C",
    ink="#F4F6F5",
    soft="#B9C5C9",
    rule="#46555C",
    track="#27343A",
    edge="#10181C",
    body="#5E707A",
    series=(SKY, ORANGE, PURPLE, YELLOW, "#B9C5C9"),
)
PAPER = Scheme(
    ground="#FFFFFF",
    ink="#12191D",
    soft="#49555B",
    rule="#B7C0C4",
    track="#E8ECEE",
    edge="#12191D",
    body="#8D9AA1",
    series=(BLUE, VERMILLION, PURPLE, GREEN, "#49555B"),
)


@dataclass(frozen=True, slots=True)
class Look:
    """How a state is drawn: its colour, the hatch of its bar, its mark, and its word."""

    colour: str
    hatch: str
    mark: str
    word: str


LOOKS: Mapping[State, Look] = {
    "inside": Look(SKY, "", "o", "inside"),
    "near": Look(ORANGE, "////", "D", "near"),
    "over": Look(VERMILLION, "xxxx", "^", "over"),
    "unrated": Look("none", "", "o", "no rating"),
}
SERIES_MARKS = ("o", "s", "^", "D", "x")
