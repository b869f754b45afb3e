"""Tickets and receipts of invented scales and stations, drawn with what they say.

Each layout is a function from a seeded source of chance to a sheet and the entries that a careful
person would keep of it. The letters are those that Pillow ships: set as they come, set in cells of
one width as a till prints them, or as the dots of a matrix printer.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from PIL import Image, ImageDraw, ImageFont

from domain.entries import Entry, Fill, Weighing
from domain.quantities import Quantity

INK, PAPER = 35, 247
ZONE = ZoneInfo("America/Boise")

Style = Callable[["Sheet", float, float, str, int], float]


class Sheet:
    """A sheet of paper that is printed on from top to bottom."""

    def __init__(self, width: int, height: int) -> None:
        self.picture = Image.new("L", (width, height), PAPER)
        self.pen = ImageDraw.Draw(self.picture)
        self.width = width

    def left(self, x: float, y: float, text: str, size: int, style: Style | None = None) -> None:
        """Text that begins at x."""
        (style or plain)(self, x, y, text, size)

    def right(self, x: float, y: float, text: str, size: int, style: Style | None = None) -> None:
        """Text that ends at x."""
        style = style or plain
        style(self, x - width_of(text, size, style), y, text, size)

    def middle(self, y: float, text: str, size: int, style: Style | None = None) -> None:
        """Text in the middle of the sheet."""
        style = style or plain
        style(self, (self.width - width_of(text, size, style)) / 2, y, text, size)

    def rule(self, y: float, left: float = 40) -> None:
        """A line across the sheet."""
        self.pen.line((left, y, self.width - left, y), fill=INK, width=2)


def plain(sheet: Sheet, x: float, y: float, text: str, size: int) -> float:
    """Letters as they come."""
    sheet.pen.text((x, y), text, font=ImageFont.load_default(size), fill=INK)
    return width_of(text, size, plain)


def typed(sheet: Sheet, x: float, y: float, text: str, size: int) -> float:
    """Letters in cells of one width, as a till prints them."""
    font, cell = ImageFont.load_default(size), size * 0.66
    for index, letter in enumerate(text):
        sheet.pen.text((x + cell * (index + 0.5), y), letter, font=font, fill=INK, anchor="ma")
    return cell * len(text)


def dotted(sheet: Sheet, x: float, y: float, text: str, size: int) -> float:
    """The dots of a matrix printer: Pillow's small letters, each dot drawn round."""
    font = ImageFont.load_default_imagefont()
    text = f" {text}"  # the first letter of this font may begin left of its place
    _, _, wide, high = font.getbbox(text)
    small = Image.new("1", (int(wide), int(high)))
    ImageDraw.Draw(small).text((0, 0), text, font=font, fill=1)
    pitch = size / 11
    for row in range(small.height):
        for column in range(small.width):
            if small.getpixel((column, row)):
                left, top = x + column * pitch, y + row * pitch
                sheet.pen.ellipse((left, top, left + pitch, top + pitch), fill=INK)
    return small.width * pitch


def width_of(text: str, size: int, style: Style) -> float:
    """How wide a text is in a style."""
    if style is typed:
        return size * 0.66 * len(text)
    if style is dotted:
        return float(ImageFont.load_default_imagefont().getbbox(text)[2]) * size / 11
    return float(ImageFont.load_default(size).getlength(text))


@dataclass(frozen=True, slots=True)
class Drawn:
    """A sheet, and what a careful person would keep of it."""

    sheet: Image.Image
    entries: tuple[Entry, ...]
    units: str = "us"
    currency: str = "USD"


PLACES = (
    "CLOVER GRADE", "WILLOW BEND", "TWO ELDERS", "PINE HOLLOW", "STONY FORD", "HEATHER FLAT",
    "LARK MEADOW", "OLD ORCHARD",
)  # fmt: skip


def axles_of(chance: random.Random) -> tuple[int, int, int]:
    """The loads of a pickup and its trailer, as a platform rounds them."""
    return (
        chance.randrange(4600, 5600, 20),
        chance.randrange(4800, 7600, 20),
        chance.randrange(3800, 13800, 20),
    )


def moment_of(chance: random.Random) -> datetime:
    """When it was printed: a minute of the summer of 2026."""
    return datetime(
        2026, chance.randint(5, 9), chance.randint(1, 28), chance.randint(6, 20),
        chance.randint(0, 59), tzinfo=ZONE,
    )  # fmt: skip


def hitched(
    axles: tuple[int, int, int], unit: str, at: datetime, ticket: str | None = None
) -> Weighing:
    """A pass of the whole rig."""
    names = ("steer", "drive", "trailer", "gross")
    loads = (*axles, sum(axles))
    return Weighing(
        rig="hitched", at=at, ticket=ticket,
        loads={name: Quantity(float(load), unit) for name, load in zip(names, loads, strict=True)},
    )  # fmt: skip


def bought(
    product: str, volume: float, price: float, at: datetime, money: str = "USD", unit: str = "gal",
    odometer: Quantity | None = None,
) -> Fill:  # fmt: skip
    """A fill whose total is what volume and price make."""
    return Fill(
        product=product, at=at, volume=Quantity(volume, unit), odometer=odometer,
        unit_price=Quantity(price, f"{money}/{unit}"),
        cost=Quantity(round(volume * price + 1e-9, 2), money),
    )  # fmt: skip


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
    return Drawn(sheet.picture, (hitched(axles, "lb", at, ticket),))


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
    return Drawn(sheet.picture, (hitched(axles, "kg", at, number),), "metric", "EUR")


Layout = Callable[[random.Random], Drawn]

LAYOUTS: tuple[Layout, ...] = (
    axle_table, labels_above, reweigh, pump_receipt, metric_receipt, two_products, odometer_on_it,
    weighbridge,
)  # fmt: skip
