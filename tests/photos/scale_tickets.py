"""Tickets of invented scales, in layouts of our own."""

from __future__ import annotations

import random

from domain.entries import Weighing
from domain.quantities import Quantity
from tests.photos.drawn import PLACES, Drawn, Layout, axles_of, hitched, moment_of
from tests.photos.sheets import INK, Sheet, dotted


def axle_table(chance: random.Random) -> Drawn:
    """A scale's ticket: axles in a table with a right-aligned column under its unit."""
    axles, at, ticket = axles_of(chance), moment_of(chance), str(chance.randint(100000, 999999))
    sheet = Sheet(820, 1080)
    sheet.middle(50, f"{chance.choice(PLACES)} PUBLIC SCALE", 40)
    sheet.middle(105, f"{chance.randint(100, 990)} Mill Lane", 26)
    sheet.middle(140, "Telephone 555-0142", 26)
    sheet.left(60, 210, f"DATE {at:%m/%d/%Y}", 28)
    sheet.right(760, 210, f"TIME {at:%H:%M}", 28)
    sheet.left(60, 255, f"TICKET NO {ticket}", 28)
    sheet.rule(310)
    sheet.left(60, 330, "AXLE", 30)
    sheet.right(760, 330, "WEIGHT (LB)", 30)
    sheet.rule(375)
    y = 395
    for name, load in zip(("STEER AXLE", "DRIVE AXLE", "TRAILER AXLE"), axles, strict=True):
        sheet.left(60, y, name, 34)
        sheet.right(760, y, f"{load:,}", 34)
        y += 62
    sheet.rule(y)
    sheet.left(60, y + 18, "GROSS WEIGHT", 38)
    sheet.right(760, y + 18, f"{sum(axles):,}", 38)
    sheet.middle(y + 150, "Weighed on a platform of four pads.", 24)
    sheet.middle(y + 185, "Keep this ticket with your papers.", 24)
    return Drawn(sheet.picture, (hitched(axles, "lb", at),))


def labels_above(chance: random.Random) -> Drawn:
    """A ticket in cells: a small label above each big figure."""
    axles, at = axles_of(chance), moment_of(chance)
    sheet = Sheet(900, 900)
    sheet.left(50, 40, f"{chance.choice(PLACES)} SCALES", 44)
    sheet.left(50, 105, f"{at:%B} {at.day}, {at.year}  {at:%H:%M}", 28)
    cells = (("Steer axle", axles[0]), ("Drive axle", axles[1]),
             ("Trailer axles", axles[2]), ("Gross weight", sum(axles)))  # fmt: skip
    for index, (name, load) in enumerate(cells):
        x, y = 50 + 420 * (index % 2), 200 + 240 * (index // 2)
        sheet.pen.rectangle((x - 10, y - 20, x + 370, y + 170), outline=INK, width=2)
        sheet.left(x + 10, y, name, 28)
        sheet.left(x + 10, y + 60, f"{load:,} lb", 62)
    sheet.left(50, 720, "Driver is to check each axle against the door label.", 24)
    return Drawn(sheet.picture, (hitched(axles, "lb", at),))


def reweigh(chance: random.Random) -> Drawn:
    """A ticket of two passes, one below the other."""
    first, at = axles_of(chance), moment_of(chance)
    moved = chance.randrange(40, 300, 20)
    second = (first[0] + moved, first[1] - moved - 40, first[2] + 40)
    sheet = Sheet(760, 1240)
    sheet.middle(40, f"{chance.choice(PLACES)} WEIGH STATION", 36)
    sheet.left(50, 110, f"Date: {at:%m/%d/%Y}", 28)
    sheet.right(710, 110, f"Time: {at:%H:%M}", 28)
    y = 190
    for heading, axles in (("FIRST WEIGH", first), ("SECOND WEIGH", second)):
        sheet.left(50, y, heading, 34)
        sheet.rule(y + 48)
        y += 65
        for name, load in zip(
            ("Steer", "Drive", "Trailer", "Gross"), (*axles, sum(axles)), strict=True
        ):
            sheet.left(70, y, name, 32)
            sheet.right(690, y, f"{load} lb", 32)
            y += 56
        y += 60
    sheet.middle(y + 20, "One reweigh within the day is free.", 24)
    return Drawn(sheet.picture, (hitched(first, "lb", at), hitched(second, "lb", at)))


def weighbridge(chance: random.Random) -> Drawn:
    """A weighbridge's dots in kilograms, with points of lead between name and figure."""
    steer, drive, trailer = (round(load * 0.45 / 20) * 20 for load in axles_of(chance))
    axles, at = (steer, drive, trailer), moment_of(chance)
    number = str(chance.randint(1000, 9999))
    sheet = Sheet(900, 900)
    sheet.left(50, 40, f"{chance.choice(PLACES)} WEIGHBRIDGE", 44, dotted)
    sheet.left(50, 110, f"DATE {at:%d/%m/%Y}  {at:%H:%M}", 36, dotted)
    sheet.left(50, 165, f"TICKET {number}", 36, dotted)
    y = 260
    for name, load in zip(
        ("STEER AXLE", "DRIVE AXLE", "TRAILER AXLES", "GROSS"), (*axles, sum(axles)), strict=True
    ):
        sheet.left(50, y, name, 40, dotted)
        sheet.right(850, y, f"{load} kg", 40, dotted)
        y += 76
    sheet.left(50, y + 60, "OPERATOR 3", 34, dotted)
    return Drawn(sheet.picture, (hitched(axles, "kg", at),), "metric", "EUR")


def wheel_by_wheel(chance: random.Random) -> Drawn:
    """A table of wheels: left, right and total of each axle."""
    axles, at = axles_of(chance), moment_of(chance)
    sheet = Sheet(900, 900)
    sheet.middle(40, f"{chance.choice(PLACES)} WHEEL SCALES", 38)
    sheet.left(50, 110, f"{at:%m/%d/%Y} {at:%H:%M}", 28)
    sheet.left(50, 200, "AXLE", 28)
    for x, heading in ((430, "LEFT"), (640, "RIGHT"), (850, "TOTAL")):
        sheet.right(x, 200, heading, 28)
    loads: dict[str, Quantity] = {}
    y = 260
    for name, load in zip(("steer", "drive", "trailer"), axles, strict=True):
        left = load // 40 * 20 - chance.randrange(0, 80, 20)
        sheet.left(50, y, name.upper(), 30)
        wheels = ((430, "_left", left), (640, "_right", load - left), (850, "", load))
        for x, side, figure in wheels:
            sheet.right(x, y, f"{figure:,}", 30)
            loads[name + side] = Quantity(float(figure), "lb")
        y += 60
    sheet.left(50, y, "GROSS WEIGHT LB", 30)
    sheet.right(850, y, f"{sum(axles):,}", 30)
    loads["gross"] = Quantity(float(sum(axles)), "lb")
    return Drawn(sheet.picture, (Weighing(rig="hitched", at=at, loads=loads),))


def passes_side_by_side(chance: random.Random) -> Drawn:
    """Two passes in columns beside each other."""
    first, at = axles_of(chance), moment_of(chance)
    second = (first[0] + 100, first[1] - 140, first[2] + 40)
    sheet = Sheet(820, 760)
    sheet.middle(40, f"{chance.choice(PLACES)} SCALE", 40)
    sheet.left(50, 110, f"DATE {at:%m/%d/%Y}", 28)
    sheet.right(770, 110, f"{at:%H:%M}", 28)
    for x, heading in ((130, "AXLE"), (520, "PASS 1"), (770, "PASS 2")):
        sheet.right(x, 200, heading, 28)
    y = 260
    names = ("STEER", "DRIVE", "TRAILER", "GROSS")
    for name, one, two in zip(names, (*first, sum(first)), (*second, sum(second)), strict=True):
        sheet.left(50, y, name, 30)
        sheet.right(520, y, f"{one:,} lb", 30)
        sheet.right(770, y, f"{two:,} lb", 30)
        y += 60
    return Drawn(sheet.picture, (hitched(first, "lb", at), hitched(second, "lb", at)))


def numbered_axles(chance: random.Random) -> Drawn:
    """A weighbridge that numbers the axles from the front."""
    axles = [load // 20 * 10 for load in axles_of(chance)]
    front = axles[2] // 20 * 10
    loads, at = (axles[0], axles[1], front, axles[2] - front), moment_of(chance)
    sheet = Sheet(760, 760)
    sheet.middle(30, f"{chance.choice(PLACES)} WEIGHBRIDGE", 38)
    sheet.left(40, 110, f"{at:%d/%m/%Y} {at:%H:%M}", 28)
    rows = [(f"Axle {index + 1}", load) for index, load in enumerate(loads)]
    for index, (name, load) in enumerate((*rows, ("Total", sum(loads)))):
        sheet.left(40, 200 + 64 * index, name, 32)
        sheet.right(700, 200 + 64 * index, f"{load} kg", 32)
    places = ("steer", "drive", "trailer_1", "trailer_2", "gross")
    kept = {
        place: Quantity(float(load), "kg")
        for place, load in zip(places, (*loads, sum(loads)), strict=True)
    }
    return Drawn(sheet.picture, (Weighing(at=at, rig="hitched", loads=kept),), "metric", "EUR")


SCALE_TICKETS: tuple[Layout, ...] = (
    axle_table, labels_above, reweigh, weighbridge, wheel_by_wheel, passes_side_by_side,
    numbered_axles,
)  # fmt: skip
