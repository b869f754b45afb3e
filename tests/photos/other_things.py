"""Pictures that people share and that are no tickets, though most hold figures.

Each is a function from a seeded source of chance to a picture. Nothing of them is for the log.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence

from PIL import Image

from tests.photos.sheets import INK, PAPER, Sheet, typed


def _listed(
    heading: str, rows: Sequence[tuple[str, str]], foot: str = "", width: int = 760
) -> Image.Image:
    """Names on the left, what belongs to them on the right."""
    sheet = Sheet(width, 240 + 62 * len(rows))
    sheet.middle(40, heading, 40)
    for index, (left, right) in enumerate(rows):
        y = 130 + 62 * index
        sheet.left(50, y, left, 30)
        if right:
            sheet.right(width - 50, y, right, 30)
    if foot:
        sheet.middle(150 + 62 * len(rows), foot, 26)
    return sheet.picture


def bees(chance: random.Random) -> Image.Image:
    """A comb with bees on it, and no letter anywhere."""
    sheet = Sheet(900, 700)
    for row in range(14):
        for column in range(16):
            x, y = 30 + column * 56 + 28 * (row % 2), 30 + row * 48
            corners = [
                (x + 30 * math.cos(a * math.pi / 3), y + 30 * math.sin(a * math.pi / 3))
                for a in range(6)
            ]
            sheet.pen.polygon(corners, outline=INK, fill=chance.randint(150, 220))
    for _ in range(40):
        x, y = chance.randint(20, 860), chance.randint(20, 660)
        sheet.pen.ellipse((x, y, x + 44, y + 22), fill=60)
        sheet.pen.line((x + 14, y, x + 14, y + 22), fill=200, width=5)
        sheet.pen.line((x + 27, y, x + 27, y + 22), fill=200, width=5)
    return sheet.picture


def dashboard(chance: random.Random) -> Image.Image:
    """A truck's dash: odometer, range, economy, temperature."""
    sheet = Sheet(1000, 560)
    sheet.pen.rectangle((0, 0, 1000, 560), fill=25)
    for x in (220, 780):
        sheet.pen.ellipse((x - 190, 60, x + 190, 440), outline=220, width=6)
    panel = Sheet(320, 300)
    panel.middle(20, f"{chance.randint(20000, 99000)} mi", 44)
    panel.middle(90, f"RANGE {chance.randint(90, 500)} mi", 34)
    panel.middle(150, f"{chance.uniform(9, 20):.1f} MPG", 34)
    panel.middle(210, f"TRIP A {chance.uniform(20, 400):.1f}", 34)
    sheet.picture.paste(Image.eval(panel.picture, lambda light: 255 - light), (340, 130))
    return sheet.picture


def menu(chance: random.Random) -> Image.Image:
    """A diner's menu."""
    return _listed(
        "THE TRAILER DINER",
        [("Gross Big Breakfast", "$14.50"), ("Steer Burger 8 oz", "$12.99"),
         ("Diesel Coffee, bottomless", "$3.50"), ("Half Axle of Ribs", "$24.00"),
         ("Pie of the day", f"$6.{chance.randint(10, 99)}")],
        "Ask for the daily soup.",
    )  # fmt: skip


def shopping_receipt(chance: random.Random) -> Image.Image:
    """A grocer's receipt: gallons of milk, a total, a card."""
    milk, eggs = chance.randint(329, 459), chance.randint(289, 599)
    return _listed(
        "MEADOW GROCER",
        [("MILK 1 GAL", f"{milk / 100:.2f}"), ("EGGS 12 CT", f"{eggs / 100:.2f}"),
         ("2 GAL WATER @ 1.29", "2.58"), ("SUBTOTAL", f"{(milk + eggs + 258) / 100:.2f}"),
         ("TAX", "0.00"), ("TOTAL", f"${(milk + eggs + 258) / 100:.2f}"),
         ("CARD ENDING", "4411")],
        "07/11/2026 17:41",
    )  # fmt: skip


def chat(chance: random.Random) -> Image.Image:
    """A screenshot of a chat in which somebody tells of a scale."""
    sheet = Sheet(720, 1180)
    y = 40
    for index, line in enumerate((
        "hey how did it go at the scale", "he said steer was 5,280 and drive 6,140",
        "trailer axles 8,520 gross 19,940", "wow ok so we are heavy", "yeah I think so lol",
        "took 31 gal of diesel at 3.89 too", "ok see you at supper",
    )):  # fmt: skip
        left = 30 if index % 2 == 0 else 90
        sheet.pen.rounded_rectangle((left, y, left + 600, y + 110), 24, fill=215)
        sheet.left(left + 24, y + 18, line, 30)
        sheet.right(left + 570, y + 68, f"{chance.randint(1, 12)}:{chance.randint(10, 59)}", 22)
        y += 150
    return sheet.picture


def phone_list(chance: random.Random) -> Image.Image:
    """Numbers on a fridge door."""
    names = ("Vet", "Trailer shop", "Scale house", "Fuel delivery", "Neighbours", "School")
    return _listed("NUMBERS", [(name, f"555-01{chance.randint(10, 99)}") for name in names])


def road_sign(chance: random.Random) -> Image.Image:
    """A bridge's weight limits, by axles."""
    sheet = Sheet(640, 760)
    sheet.pen.rounded_rectangle((20, 20, 620, 740), 40, outline=INK, width=12)
    sheet.middle(70, "WEIGHT LIMIT", 66)
    for index, (axles, tons) in enumerate((("2 AXLE", 15), ("3 AXLE", 22), ("GROSS", 36))):
        sheet.left(80, 220 + 150 * index, axles, 66)
        sheet.right(560, 220 + 150 * index, f"{tons + chance.randint(0, 3)} T", 66)
    return sheet.picture


def door_label(chance: random.Random) -> Image.Image:
    """A door label: ratings, and nothing that was weighed."""
    front, rear = chance.randrange(5000, 6000, 50), chance.randrange(6000, 7200, 50)
    return _listed(
        "MADE BY AN INVENTED MAKER",
        [("GVWR", "11,500 LB"), ("FRONT AXLE GAWR", f"{front:,} LB"),
         ("REAR AXLE GAWR", f"{rear:,} LB"), ("TIRES LT275/70R18", "80 PSI")],
        "THIS VEHICLE CONFORMS TO ALL STANDARDS",
    )  # fmt: skip


def tyre_placard(chance: random.Random) -> Image.Image:
    """What may be loaded, and the pressures."""
    return _listed(
        "TIRE AND LOADING INFORMATION",
        [("Seating capacity total", "5"), ("Front", "2"), ("Rear", "3"),
         ("Occupants and cargo never exceed", f"{chance.randrange(2800, 3400, 10)} lb"),
         ("Front 65 PSI", "Rear 80 PSI")],
    )  # fmt: skip


def price_board(chance: random.Random) -> Image.Image:
    """A station's prices by the road."""
    sheet = Sheet(640, 760)
    sheet.middle(50, "FUEL", 70)
    for index, name in enumerate(("REGULAR", "PREMIUM", "DIESEL", "DEF")):
        sheet.left(60, 190 + 130 * index, name, 58)
        sheet.right(580, 190 + 130 * index, f"{chance.uniform(3, 5):.3f}", 58)
    return sheet.picture


def parts_invoice(chance: random.Random) -> Image.Image:
    """A workshop's invoice: parts of axles, and money."""
    return _listed(
        "AXLE AND BRAKE WORKSHOP",
        [("2 Drive axle seal", "$28.40"), ("1 Steer damper", "$112.00"),
         ("4 Trailer bearing kit", "$96.00"), ("Gear oil 3 L", "$41.10"),
         ("Labour 2.5 h", "$275.00"), ("Total", f"${552 + chance.randint(1, 9)}.50")],
        "Invoice 20418 of 07/11/2026",
    )  # fmt: skip


def calendar(chance: random.Random) -> Image.Image:
    """A month on the wall."""
    sheet = Sheet(800, 640)
    sheet.middle(30, "JULY 2026", 48)
    for day in range(1, 32):
        place = day + 2
        sheet.left(40 + 105 * (place % 7), 130 + 95 * (place // 7), str(day), 32)
    sheet.left(60, 590, chance.choice(("move hives", "scale, then home")), 26)
    return sheet.picture


def feed_label(chance: random.Random) -> Image.Image:
    """A sack of sugar with its net weight and what is in it."""
    return _listed(
        "BEE FEED",
        [("NET WEIGHT", "50 lb"), ("GROSS WEIGHT", "51 lb"), ("Sugar", "99.9 %"),
         ("Lot", str(chance.randint(10000, 99999))), ("Best before", "05/2028")],
    )  # fmt: skip


def scale_prices(chance: random.Random) -> Image.Image:
    """What a scale house charges."""
    return _listed(
        "CERTIFIED SCALE",
        [("First weigh", "$14.50"), ("Reweigh within 24 h", f"${chance.randint(3, 5)}.00"),
         ("Per axle print", "$1.00"), ("Open", "6:00 to 22:00")],
    )  # fmt: skip


def field_notes(chance: random.Random) -> Image.Image:
    """A typed page about honey."""
    sheet = Sheet(820, 620)
    for index, line in enumerate((
        "We took off 31 supers this year,", "and the extractor ran for 412 minutes.",
        "My gross was 1,940 pounds of honey", "from 62 hives; I sold 310 jars at",
        f"$9.50 and kept {chance.randint(10, 60)} for the family.",
    )):  # fmt: skip
        sheet.left(50, 60 + 80 * index, line, 28, typed)
    return sheet.picture


def fog(chance: random.Random) -> Image.Image:
    """A morning with nothing to see."""
    return Image.linear_gradient("L").resize((800, 600)).point(lambda light: PAPER - light // 2)


OTHER_THINGS: tuple[Callable[[random.Random], Image.Image], ...] = (
    bees, dashboard, menu, shopping_receipt, chat, phone_list, road_sign, door_label, tyre_placard,
    price_board, parts_invoice, calendar, feed_label, scale_prices, field_notes, fog,
)  # fmt: skip
