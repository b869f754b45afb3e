"""Receipts of invented pumps, in layouts of our own."""

from __future__ import annotations

import random

from PIL import Image

from domain.quantities import Quantity
from tests.photos.drawn import PLACES, Drawn, Layout, bought, moment_of
from tests.photos.sheets import PAPER, Sheet, plain, typed


def pump_receipt(chance: random.Random) -> Drawn:
    """A till's narrow strip: volume, price and total of diesel."""
    at, volume = moment_of(chance), round(chance.uniform(14, 38), 3)
    price = round(chance.uniform(3.2, 4.9), 2) + 0.009
    price = round(price, 3)
    fill = bought("diesel", volume, price, at)
    assert fill.cost is not None
    sheet = Sheet(620, 1120)
    style = typed
    sheet.middle(40, chance.choice(PLACES), 40, style)
    sheet.middle(92, "TRAVEL STOP", 34, style)
    sheet.middle(138, f"{chance.randint(100, 990)} RIVER ROAD", 26, style)
    y = 210
    rows = (
        (f"{at:%m/%d/%Y}", f"{at:%H:%M}"), ("RECEIPT", str(chance.randint(1000, 9999))),
        ("PUMP NO", str(chance.randint(1, 16))), ("PRODUCT", "DIESEL"),
        ("GALLONS", f"{volume:.3f}"), ("PRICE/GAL", f"${price:.3f}"),
        ("FUEL TOTAL", f"${fill.cost.value:.2f}"),
    )  # fmt: skip
    for left, right in rows:
        sheet.left(40, y, left, 30, style)
        sheet.right(580, y, right, 30, style)
        y += 56
    sheet.rule(y + 10)
    sheet.left(40, y + 30, "CARD ENDING", 26, style)
    sheet.right(580, y + 30, str(chance.randint(1000, 9999)), 26, style)
    sheet.left(40, y + 75, "AUTH NO", 26, style)
    sheet.right(580, y + 75, str(chance.randint(100000, 999999)), 26, style)
    sheet.middle(y + 160, "THANK YOU", 32, style)
    sheet.middle(y + 205, "DRIVE WITH CARE", 26, style)
    return Drawn(sheet.picture, (fill,))


def metric_receipt(chance: random.Random) -> Drawn:
    """A receipt in litres and euros, day first."""
    at, litres = moment_of(chance), round(chance.uniform(38, 96), 2)
    price = round(chance.uniform(1.45, 1.99), 3)
    fill = bought("diesel", litres, price, at, "EUR", "L")
    assert fill.cost is not None
    sheet = Sheet(700, 960)
    sheet.middle(45, f"{chance.choice(PLACES).title()} Fuels", 42)
    sheet.middle(105, f"{at:%d.%m.%Y}  {at:%H:%M}", 28)
    sheet.rule(160)
    y = 190
    rows = (
        ("Diesel", ""), ("Pump", str(chance.randint(1, 12))), ("Litres", f"{litres:.2f}"),
        ("Price per litre", f"EUR {price:.3f}"), ("Total", f"EUR {fill.cost.value:.2f}"),
    )  # fmt: skip
    for left, right in rows:
        sheet.left(60, y, left, 32)
        if right:
            sheet.right(640, y, right, 32)
        y += 60
    sheet.rule(y + 5)
    sheet.left(60, y + 25, "Paid by card", 28)
    sheet.middle(y + 130, "Come again", 28)
    return Drawn(sheet.picture, (fill,), "metric", "EUR")


def two_products(chance: random.Random) -> Drawn:
    """Diesel and exhaust fluid in a table: quantity, price and amount side by side."""
    at = moment_of(chance)
    diesel = bought(
        "diesel", round(chance.uniform(12, 36), 3), round(chance.uniform(3.2, 4.9), 3), at
    )
    fluid = bought("def", round(chance.uniform(1.5, 6), 3), round(chance.uniform(3.6, 4.9), 3), at)
    sheet = Sheet(900, 980)
    sheet.middle(45, f"{chance.choice(PLACES)} TRUCK STOP", 40)
    sheet.left(50, 120, f"{at:%m/%d/%Y} {at:%H:%M}", 28)
    sheet.left(50, 165, f"Invoice {chance.randint(10000, 99999)}", 28)
    sheet.rule(225)
    sheet.left(50, 245, "PRODUCT", 28)
    for x, heading in ((430, "GALLONS"), (640, "PRICE"), (850, "AMOUNT")):
        sheet.right(x, 245, heading, 28)
    sheet.rule(290)
    y, total = 312, 0.0
    for name, fill in (("DIESEL", diesel), ("DEF", fluid)):
        assert fill.volume is not None
        assert fill.unit_price is not None
        assert fill.cost is not None
        sheet.left(50, y, name, 30)
        sheet.right(430, y, f"{fill.volume.value:.3f}", 30)
        sheet.right(640, y, f"{fill.unit_price.value:.3f}", 30)
        sheet.right(850, y, f"{fill.cost.value:.2f}", 30)
        total += fill.cost.value
        y += 58
    sheet.rule(y + 8)
    sheet.left(50, y + 26, "SALE TOTAL", 34)
    sheet.right(850, y + 26, f"${total:.2f}", 34)
    sheet.middle(y + 160, "Drive rested. Arrive whole.", 26)
    return Drawn(sheet.picture, (diesel, fluid))


def odometer_on_it(chance: random.Random) -> Drawn:
    """A receipt with the odometer written on it by hand."""
    at, volume = moment_of(chance), round(chance.uniform(14, 36), 3)
    price, miles = round(chance.uniform(3.2, 4.9), 3), chance.randint(21000, 98999)
    fill = bought("diesel", volume, price, at, odometer=Quantity(float(miles), "mi"))
    assert fill.cost is not None
    sheet = Sheet(700, 1040)
    sheet.middle(40, f"{chance.choice(PLACES)} FUEL STOP", 38)
    sheet.left(50, 110, f"{at:%m/%d/%Y}", 28)
    sheet.right(650, 110, f"{at:%H:%M}", 28)
    y = 180
    rows = (
        ("Fuel", "Diesel"), ("Volume", f"{volume:.3f} gal"), ("Price", f"${price:.3f}/gal"),
        ("Total", f"${fill.cost.value:.2f}"),
    )  # fmt: skip
    for left, right in rows:
        sheet.left(50, y, left, 32)
        sheet.right(650, y, right, 32)
        y += 60
    hand = Sheet(640, 120)
    x = 10.0
    for letter in f"odo {miles}":
        x += plain(hand, x, 20 + chance.uniform(-5, 5), letter, 54 + chance.randint(-4, 4)) + 3
    written = hand.picture.rotate(
        chance.uniform(-4, 4), fillcolor=PAPER, resample=Image.Resampling.BICUBIC
    )
    sheet.picture.paste(written, (30, y + 60))
    sheet.middle(y + 260, "Thank you, travel well", 26)
    return Drawn(sheet.picture, (fill,))


def labels_over_figures(chance: random.Random) -> Drawn:
    """A strip with each figure below its label."""
    at = moment_of(chance)
    volume, price = round(chance.uniform(14, 38), 3), round(chance.uniform(3.2, 4.9), 3)
    fill = bought("diesel", volume, price, at)
    assert fill.cost is not None
    sheet = Sheet(560, 960)
    sheet.middle(30, f"{chance.choice(PLACES)} FUEL", 38)
    rows = (
        ("DATE AND TIME", f"{at:%m/%d/%Y} {at:%H:%M}"), ("PUMP", str(chance.randint(1, 12))),
        ("PRODUCT", "DIESEL NO 2"), ("GALLONS", f"{volume:.3f}"),
        ("PRICE PER GALLON", f"${price:.3f}"), ("TOTAL SALE", f"${fill.cost.value:.2f}"),
    )  # fmt: skip
    for index, (label, figure) in enumerate(rows):
        sheet.left(40, 120 + 120 * index, label, 24)
        sheet.left(40, 154 + 120 * index, figure, 40)
    return Drawn(sheet.picture, (fill,))


def all_in_a_line(chance: random.Random) -> Drawn:
    """A till that puts volume and price on one line, with a short year."""
    at = moment_of(chance)
    volume, price = round(chance.uniform(14, 38), 3), round(chance.uniform(3.2, 4.9), 3)
    fill = bought("diesel", volume, price, at)
    assert fill.cost is not None
    sheet = Sheet(640, 640)
    sheet.middle(30, f"{chance.choice(PLACES)} FUEL CO", 34, typed)
    sheet.left(40, 110, f"{at:%m/%d/%y} {at:%H:%M}", 28, typed)
    sheet.left(40, 190, f"PUMP# {chance.randint(1, 9)}  DSL", 28, typed)
    sheet.left(40, 240, f"{volume:.3f}G @ ${price:.3f}/G", 28, typed)
    for y, name in ((300, "TOTAL"), (360, "DEBIT")):
        sheet.left(40, y, name, 28, typed)
        sheet.right(600, y, f"${fill.cost.value:.2f}", 28, typed)
    sheet.left(40, 420, f"CARD XXXXXXXX{chance.randint(1000, 9999)}", 28, typed)
    return Drawn(sheet.picture, (fill,))


def cents_a_litre(chance: random.Random) -> Drawn:
    """A receipt whose price is in cents, with the tax that is in the total."""
    at, litres = moment_of(chance), round(chance.uniform(40, 90), 2)
    cents = chance.randint(1600, 2200) / 10
    fill = bought("diesel", litres, round(cents / 100, 4), at, "AUD", "L")
    assert fill.cost is not None
    sheet = Sheet(640, 640)
    sheet.middle(30, f"{chance.choice(PLACES)} SERVICE", 38)
    sheet.left(40, 110, f"{at:%d/%m/%Y} {at:%H:%M}", 28)
    rows = (
        ("Diesel", f"{litres:.2f} L"), ("Price", f"{cents:.1f} c/L"),
        ("Total", f"${fill.cost.value:.2f}"), ("GST incl", f"${fill.cost.value / 11:.2f}"),
    )  # fmt: skip
    for index, (name, figure) in enumerate(rows):
        sheet.left(40, 200 + 64 * index, name, 32)
        sheet.right(600, 200 + 64 * index, figure, 32)
    return Drawn(sheet.picture, (fill,), "metric", "AUD")


PUMP_RECEIPTS: tuple[Layout, ...] = (
    pump_receipt, metric_receipt, two_products, odometer_on_it, labels_over_figures,
    all_in_a_line, cents_a_litre,
)  # fmt: skip
