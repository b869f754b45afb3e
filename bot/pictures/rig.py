"""The rig at the scale, drawn: the side view with its loads, then every load under its limit.

This file decides the shapes: a pickup that heads left, a trailer behind its ball or over its
bed, as many axles as the trailer has, all on the scale's line. They are signs and no likeness.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.answers.pictures import Bar, RigPicture
from bot.pictures.gauge import gauge
from bot.pictures.palette import LOOKS
from bot.pictures.sheet import INNER, MARGIN, PLAIN, RIGHT, SMALL, Point, Sheet

TALL = 76.0
"""From the roof down to the ground."""

WHEEL = 12.5
TRUCK: Sequence[Point] = (
    (0, 14), (0, 33), (4, 37), (34, 40), (50, 62), (54, 64), (92, 64), (96, 61), (98, 40),
    (150, 40), (150, 14),
)  # fmt: skip
"""The truck's outline from its front bumper on: how far back, how far above the ground."""

WINDOW: Sequence[Point] = ((41, 41), (53, 58), (70, 58), (70, 41))
REAR_WINDOW: Sequence[Point] = ((74, 41), (74, 58), (91, 58), (92, 41))
FRONT, STEER, DRIVE, REAR = MARGIN + 4, 32.0, 118.0, 150.0
BALL = FRONT + REAR + 8
COUPLING = FRONT + REAR + 27
"""Below the coupling, and clear of the drive axle."""

TRAILER_FRONT, TRAILER_REAR = 212.0, RIGHT - 2
AXLES_AT = 290.0
BETWEEN = 27.0
"""Between two of the trailer's axles; more where each has a figure of its own."""

BETWEEN_WEIGHED = 43.0


def draw_rig(sheet: Sheet, picture: RigPicture) -> None:
    """The picture on an empty sheet."""
    sheet.head(picture.title, picture.when, picture.verdict)
    _side_view(sheet, picture)
    loads = (picture.steer, picture.drive, picture.tongue, *picture.trailer, *picture.sums)
    for bar in loads:
        if bar is not None:
            gauge(sheet, bar)
    sheet.foot(picture.caution)


def _side_view(sheet: Sheet, picture: RigPicture) -> None:
    scheme = sheet.scheme
    has_truck = picture.steer is not None or picture.drive is not None
    top = sheet.y
    if has_truck:
        room = INNER if not picture.trailer_name else INNER / 2 - 10
        sheet.text(FRONT, top, picture.truck, size=SMALL, colour=scheme.soft, width=room)
    sheet.text(
        RIGHT,
        top,
        picture.trailer_name,
        size=SMALL,
        colour=scheme.soft,
        align="right",
        width=INNER / 2 - 10,
    )
    ground = top + 12 + TALL
    if picture.trailer_name:
        _trailer(sheet, picture, ground)
    if has_truck:
        _truck(sheet, picture, ground)
    sheet.line((MARGIN, ground + 1), (RIGHT, ground + 1), colour=scheme.ink, width=2)
    sheet.y = ground + 6
    _figures(sheet, picture)
    sheet.y += PLAIN + SMALL + 17


def _truck(sheet: Sheet, picture: RigPicture, ground: float) -> None:
    scheme = sheet.scheme
    for points, fill in (
        (TRUCK, scheme.body),
        (WINDOW, scheme.ground),
        (REAR_WINDOW, scheme.ground),
    ):
        sheet.shape([(FRONT + x, ground - y) for x, y in points], fill=fill)
    if picture.trailer_name and not picture.pin:
        sheet.line((FRONT + REAR, ground - 18), (BALL, ground - 18), width=4)
    for at, bar in ((STEER, picture.steer), (DRIVE, picture.drive)):
        _wheel(sheet, FRONT + at, ground, bar)


def _trailer(sheet: Sheet, picture: RigPicture, ground: float) -> None:
    scheme, drive = sheet.scheme, FRONT + DRIVE
    if picture.pin:
        neck = ((drive - 10, 72), (drive + 66, 72), (drive + 66, 18), (drive + 58, 18))
        outline = (*neck, (drive + 46, 54), (drive - 10, 54))
        sheet.shape([(x, ground - y) for x, y in outline], fill=scheme.body)
        sheet.box(drive + 60, ground - 72, TRAILER_REAR - drive - 60, 54, fill=scheme.body)
        sheet.box(drive - 3, ground - 55, 6, 17, fill=scheme.ink)
    else:
        sheet.line((BALL, ground - 22), (TRAILER_FRONT, ground - 22), colour=scheme.body, width=5)
        sheet.mark(BALL, ground - 22, "o", size=8, fill=scheme.ink)
        width = TRAILER_REAR - TRAILER_FRONT
        sheet.box(TRAILER_FRONT, ground - 60, width, 42, fill=scheme.body)
    for place, bar in zip(_axle_places(picture), _axle_bars(picture), strict=True):
        _wheel(sheet, place, ground, bar)


def _axle_places(picture: RigPicture) -> list[float]:
    """Where each of the trailer's axles is."""
    apart = BETWEEN_WEIGHED if len(picture.trailer) > 1 else BETWEEN
    half = apart * (picture.axles - 1) / 2
    first = min(AXLES_AT, TRAILER_REAR - WHEEL - 6 - half) - half
    return [first + apart * number for number in range(picture.axles)]


def _axle_bars(picture: RigPicture) -> list[Bar | None]:
    """The load of each axle; of all of them where they were weighed together."""
    if len(picture.trailer) == picture.axles:
        return list(picture.trailer)
    return [next(iter(picture.trailer), None)] * picture.axles


def _wheel(sheet: Sheet, x: float, ground: float, bar: Bar | None) -> None:
    """A wheel, with its state's colour and mark in the hub."""
    scheme = sheet.scheme
    y = ground - WHEEL
    sheet.mark(x, y, "o", size=2 * WHEEL, fill=scheme.ground, edge=scheme.ground)
    sheet.mark(x, y, "o", size=2 * WHEEL - 4, fill=scheme.track, edge=scheme.ink)
    if bar is not None and bar.state != "unrated":
        look = LOOKS[bar.state]
        sheet.mark(x, y, look.mark, size=11, fill=look.colour)


def _figures(sheet: Sheet, picture: RigPicture) -> None:
    """Each load below the place where it weighs, the tongue's below the coupling."""
    places = _axle_places(picture) if picture.trailer_name else []
    if len(picture.trailer) != len(places):
        places = [sum(places) / len(places)]
    weighed = [
        (FRONT + STEER, picture.steer),
        (FRONT + DRIVE, picture.drive),
        (min([COUPLING, *((FRONT + DRIVE + each) / 2 for each in places[:1])]), picture.tongue),
        *zip(places, picture.trailer, strict=False),
    ]
    shown = [(at, bar) for at, bar in weighed if bar is not None]
    ends = [2 * MARGIN - 8, *(at for at, _ in shown), 2 * RIGHT + 8]
    for number, (at, bar) in enumerate(shown, start=1):
        left = ends[number - 1] if number > 1 else ends[0] - at
        right = ends[number + 1] if number < len(shown) else ends[-1] - at
        width = min(at - left, right - at) - 5
        value = bar.load.rpartition(" ")[0]
        sheet.text(at, sheet.y, value, bold=True, align="center", width=width, whole=True)
        sheet.text(
            at,
            sheet.y + PLAIN + 4,
            bar.name.casefold(),
            size=SMALL,
            colour=sheet.scheme.soft,
            align="center",
            width=width,
        )
