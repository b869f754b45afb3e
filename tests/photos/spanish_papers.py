"""Tickets and receipts in Spanish, of invented scales and pumps in several countries.

As in the other layouts the letters are Pillow's own, which have no accents; tills print none.
"""

from __future__ import annotations

import random
from dataclasses import replace

from domain.entries import Weighing
from domain.quantities import Quantity
from tests.photos.drawn import Drawn, Layout, axles_of, bought, hitched, moment_of
from tests.photos.sheets import INK, Sheet, dotted, typed

PUEBLOS = (
    "EL TREBOL", "LOS SAUCES", "DOS ABUELAS", "PINAR HONDO", "VADO PEDREGOSO", "LLANO DEL BREZO",
    "LA ALONDRA", "HUERTO VIEJO",
)  # fmt: skip

MONTHS = ("enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre")


def with_points(figure: float, places: int = 0) -> str:
    """A figure as Spain and Argentina print it: 1.480 and 61,30."""
    return f"{figure:,.{places}f}".translate(str.maketrans(",.", ".,"))


def kilograms(chance: random.Random, share: float) -> tuple[int, int, int]:
    steer, drive, trailer = (round(load * share / 20) * 20 for load in axles_of(chance))
    return steer, drive, trailer


def in_spanish(drawn: Drawn) -> Drawn:
    return replace(drawn, language="es")


def boleto(chance: random.Random) -> Drawn:
    """A Mexican public scale: axles by name, kilograms grouped by commas."""
    axles, at = kilograms(chance, 0.45), moment_of(chance)
    sheet = Sheet(820, 960)
    sheet.middle(40, "BASCULA PUBLICA", 40)
    sheet.middle(95, chance.choice(PUEBLOS), 34)
    sheet.left(50, 170, f"FECHA {at:%d/%m/%Y}", 28)
    sheet.right(770, 170, f"HORA {at:%H:%M}", 28)
    sheet.left(50, 215, f"FOLIO {chance.randint(100000, 999999)}", 28)
    sheet.rule(270)
    y = 300
    names = ("EJE DELANTERO", "EJES MOTRICES", "EJES REMOLQUE", "PESO BRUTO")
    for name, load in zip(names, (*axles, sum(axles)), strict=True):
        sheet.left(50, y, name, 34)
        sheet.right(770, y, f"{load:,} kg", 34)
        y += 66
    sheet.rule(y)
    sheet.middle(y + 60, "Conserve este boleto con sus papeles.", 24)
    return in_spanish(Drawn(sheet.picture, (hitched(axles, "kg", at),), "metric", "MXN"))


def tabla_de_ejes(chance: random.Random) -> Drawn:
    """A border scale's table in pounds, its unit in the heading."""
    axles, at = axles_of(chance), moment_of(chance)
    sheet = Sheet(820, 900)
    sheet.middle(50, f"BASCULA {chance.choice(PUEBLOS)}", 38)
    sheet.left(60, 130, f"FECHA {at:%m/%d/%Y}", 28)
    sheet.right(760, 130, f"HORA {at:%H:%M}", 28)
    sheet.left(60, 175, f"BOLETO NO {chance.randint(10000, 99999)}", 28)
    sheet.rule(230)
    sheet.left(60, 250, "EJE", 30)
    sheet.right(760, 250, "PESO (LB)", 30)
    sheet.rule(295)
    y = 315
    for name, load in zip(("DIRECCION", "TRACCION", "REMOLQUE"), axles, strict=True):
        sheet.left(60, y, name, 34)
        sheet.right(760, y, f"{load:,}", 34)
        y += 62
    sheet.rule(y)
    sheet.left(60, y + 18, "PESO BRUTO", 38)
    sheet.right(760, y + 18, f"{sum(axles):,}", 38)
    sheet.middle(y + 120, "Pesado en plataforma de tres secciones.", 24)
    return in_spanish(Drawn(sheet.picture, (hitched(axles, "lb", at),)))


def pesaje(chance: random.Random) -> Drawn:
    """A Spanish cooperative's printer of dots: kilograms grouped by points."""
    axles, at = kilograms(chance, 0.4), moment_of(chance)
    sheet = Sheet(900, 860)
    sheet.left(50, 40, f"COOPERATIVA {chance.choice(PUEBLOS)}", 40, dotted)
    sheet.left(50, 110, f"FECHA {at:%d/%m/%Y}  {at:%H:%M}", 36, dotted)
    sheet.left(50, 165, f"PESADA {chance.randint(1000, 9999)}", 36, dotted)
    y = 260
    names = ("EJE DELANTERO", "EJE TRASERO", "EJES CARAVANA", "TOTAL")
    for name, load in zip(names, (*axles, sum(axles)), strict=True):
        sheet.left(50, y, name, 40, dotted)
        sheet.right(850, y, f"{with_points(load)} kg", 40, dotted)
        y += 76
    return in_spanish(Drawn(sheet.picture, (hitched(axles, "kg", at),), "metric", "EUR"))


def dos_pesadas(chance: random.Random) -> Drawn:
    """Two passes, one below the other."""
    first, at = kilograms(chance, 0.45), moment_of(chance)
    second = (first[0] + 60, first[1] - 100, first[2] + 40)
    sheet = Sheet(760, 1200)
    sheet.middle(40, f"BASCULA {chance.choice(PUEBLOS)}", 36)
    sheet.left(50, 110, f"Fecha: {at:%d/%m/%Y}", 28)
    sheet.right(710, 110, f"Hora: {at:%H:%M}", 28)
    y = 190
    for heading, axles in (("PRIMERA PESADA", first), ("SEGUNDA PESADA", second)):
        sheet.left(50, y, heading, 34)
        sheet.rule(y + 48)
        y += 65
        names = ("Direccion", "Traccion", "Remolque", "Bruto")
        for name, load in zip(names, (*axles, sum(axles)), strict=True):
            sheet.left(70, y, name, 32)
            sheet.right(690, y, f"{load} kg", 32)
            y += 56
        y += 60
    both = (hitched(first, "kg", at), hitched(second, "kg", at))
    return in_spanish(Drawn(sheet.picture, both, "metric", "MXN"))


def en_casillas(chance: random.Random) -> Drawn:
    """A small label above each big figure, and a month in words."""
    axles, at = kilograms(chance, 0.45), moment_of(chance)
    sheet = Sheet(900, 860)
    sheet.left(50, 40, f"BASCULAS {chance.choice(PUEBLOS)}", 40)
    sheet.left(50, 105, f"{at.day} de {MONTHS[at.month - 1]} de {at.year}  {at:%H:%M}", 28)
    cells = (("Eje delantero", axles[0]), ("Eje trasero", axles[1]),
             ("Ejes remolque", axles[2]), ("Peso bruto", sum(axles)))  # fmt: skip
    for index, (name, load) in enumerate(cells):
        x, y = 50 + 420 * (index % 2), 200 + 240 * (index // 2)
        sheet.pen.rectangle((x - 10, y - 20, x + 370, y + 170), outline=INK, width=2)
        sheet.left(x + 10, y, name, 28)
        sheet.left(x + 10, y + 60, f"{load:,} kg", 62)
    sheet.left(50, 720, "Compare cada eje con la etiqueta de la puerta.", 24)
    return in_spanish(Drawn(sheet.picture, (hitched(axles, "kg", at),), "metric", "MXN"))


def recibo(chance: random.Random) -> Drawn:
    """A Mexican till's narrow strip, with the tax that is in the total."""
    at, litres = moment_of(chance), round(chance.uniform(40, 110), 3)
    fill = bought("diesel", litres, round(chance.uniform(23.5, 27.9), 2), at, "MXN", "L")
    assert fill.cost is not None
    assert fill.unit_price is not None
    sheet = Sheet(620, 1080)
    sheet.middle(40, "ESTACION DE SERVICIO", 34, typed)
    sheet.middle(92, chance.choice(PUEBLOS), 34, typed)
    y = 170
    rows = (
        (f"{at:%d/%m/%Y}", f"{at:%H:%M}"), ("TICKET", str(chance.randint(1000, 9999))),
        ("BOMBA", str(chance.randint(1, 16))), ("PRODUCTO", "DIESEL"),
        ("LITROS", f"{litres:.3f}"), ("PRECIO/L", f"${fill.unit_price.value:.2f}"),
        ("TOTAL", f"${fill.cost.value:,.2f}"), ("IVA", f"${fill.cost.value * 4 / 29:.2f}"),
    )  # fmt: skip
    for left, right in rows:
        sheet.left(40, y, left, 30, typed)
        sheet.right(580, y, right, 30, typed)
        y += 56
    sheet.rule(y + 10)
    sheet.left(40, y + 30, "TARJETA", 26, typed)
    sheet.right(580, y + 30, str(chance.randint(1000, 9999)), 26, typed)
    sheet.middle(y + 110, "GRACIAS POR SU COMPRA", 28, typed)
    return in_spanish(Drawn(sheet.picture, (fill,), "metric", "MXN"))


def repostaje(chance: random.Random) -> Drawn:
    """A Spanish receipt: commas before decimals, euros by their code."""
    at, litres = moment_of(chance), round(chance.uniform(38, 82), 2)
    fill = bought("diesel", litres, round(chance.uniform(1.35, 1.79), 3), at, "EUR", "L")
    assert fill.cost is not None
    assert fill.unit_price is not None
    sheet = Sheet(700, 900)
    sheet.middle(45, f"Gasolinera {chance.choice(PUEBLOS).title()}", 38)
    sheet.middle(105, f"{at:%d/%m/%Y}  {at:%H:%M}", 28)
    sheet.rule(160)
    y = 190
    rows = (
        ("Gasoleo A", ""), ("Surtidor", str(chance.randint(1, 12))),
        ("Litros", with_points(litres, 2)),
        ("Precio por litro", f"{with_points(fill.unit_price.value, 3)} EUR"),
        ("Total", f"{with_points(fill.cost.value, 2)} EUR"),
    )  # fmt: skip
    for left, right in rows:
        sheet.left(60, y, left, 32)
        if right:
            sheet.right(640, y, right, 32)
        y += 60
    sheet.rule(y + 5)
    sheet.left(60, y + 25, "Pagado con tarjeta", 28)
    sheet.middle(y + 120, "Buen viaje", 28)
    return in_spanish(Drawn(sheet.picture, (fill,), "metric", "EUR"))


def galones(chance: random.Random) -> Drawn:
    """A border pump in gallons and dollars, each figure below its label."""
    at, volume = moment_of(chance), round(chance.uniform(14, 34), 3)
    fill = bought("diesel", volume, round(chance.uniform(3.2, 4.9), 3), at)
    assert fill.cost is not None
    assert fill.unit_price is not None
    sheet = Sheet(560, 960)
    sheet.middle(30, f"COMBUSTIBLES {chance.choice(PUEBLOS)}", 30)
    rows = (
        ("FECHA Y HORA", f"{at:%m/%d/%Y} {at:%H:%M}"), ("BOMBA", str(chance.randint(1, 12))),
        ("PRODUCTO", "DIESEL"), ("GALONES", f"{volume:.3f}"),
        ("PRECIO POR GALON", f"${fill.unit_price.value:.3f}"),
        ("TOTAL", f"${fill.cost.value:.2f}"),
    )  # fmt: skip
    for index, (label, figure) in enumerate(rows):
        sheet.left(40, 120 + 120 * index, label, 24)
        sheet.left(40, 154 + 120 * index, figure, 40)
    return in_spanish(Drawn(sheet.picture, (fill,)))


def dos_productos(chance: random.Random) -> Drawn:
    """Diesel and exhaust fluid in a table: litres, price and amount side by side."""
    at = moment_of(chance)
    diesel = bought(
        "diesel", round(chance.uniform(40, 96), 2), round(chance.uniform(23.5, 27.9), 2), at,
        "MXN", "L",
    )  # fmt: skip
    fluid = bought(
        "def", round(chance.uniform(5, 18), 2), round(chance.uniform(15, 24), 2), at, "MXN", "L"
    )
    sheet = Sheet(900, 900)
    sheet.middle(45, f"PARADOR {chance.choice(PUEBLOS)}", 40)
    sheet.left(50, 120, f"{at:%d/%m/%Y} {at:%H:%M}", 28)
    sheet.left(50, 165, f"Factura {chance.randint(10000, 99999)}", 28)
    sheet.rule(225)
    sheet.left(50, 245, "PRODUCTO", 28)
    for x, heading in ((430, "LITROS"), (640, "PRECIO"), (850, "IMPORTE")):
        sheet.right(x, 245, heading, 28)
    sheet.rule(290)
    y, total = 312, 0.0
    for name, fill in (("DIESEL", diesel), ("UREA", fluid)):
        assert fill.volume is not None
        assert fill.unit_price is not None
        assert fill.cost is not None
        sheet.left(50, y, name, 30)
        sheet.right(430, y, f"{fill.volume.value:.2f}", 30)
        sheet.right(640, y, f"{fill.unit_price.value:.2f}", 30)
        sheet.right(850, y, f"{fill.cost.value:,.2f}", 30)
        total += fill.cost.value
        y += 58
    sheet.rule(y + 8)
    sheet.left(50, y + 26, "TOTAL DE LA VENTA", 34)
    sheet.right(850, y + 26, f"${total:,.2f}", 34)
    return in_spanish(Drawn(sheet.picture, (diesel, fluid), "metric", "MXN"))


def rueda_por_rueda(chance: random.Random) -> Drawn:
    """A table of wheels: left, right and total of each axle."""
    axles, at = axles_of(chance), moment_of(chance)
    sheet = Sheet(900, 860)
    sheet.middle(40, f"BASCULA {chance.choice(PUEBLOS)}", 38)
    sheet.left(50, 110, f"{at:%m/%d/%Y} {at:%H:%M}", 28)
    sheet.left(50, 200, "EJE", 28)
    for x, heading in ((430, "IZQUIERDA"), (640, "DERECHA"), (850, "TOTAL")):
        sheet.right(x, 200, heading, 28)
    loads: dict[str, Quantity] = {}
    y = 260
    names = ("DIRECCION", "TRACCION", "REMOLQUE")
    for place, name, load in zip(("steer", "drive", "trailer"), names, axles, strict=True):
        left = load // 40 * 20 - chance.randrange(0, 80, 20)
        sheet.left(50, y, name, 30)
        for x, side, figure in (
            (430, "_left", left), (640, "_right", load - left), (850, "", load),
        ):  # fmt: skip
            sheet.right(x, y, f"{figure:,}", 30)
            loads[place + side] = Quantity(float(figure), "lb")
        y += 60
    sheet.left(50, y, "PESO BRUTO LB", 30)
    sheet.right(850, y, f"{sum(axles):,}", 30)
    loads["gross"] = Quantity(float(sum(axles)), "lb")
    return in_spanish(Drawn(sheet.picture, (Weighing(rig="hitched", at=at, loads=loads),)))


def pases_en_columnas(chance: random.Random) -> Drawn:
    """Two passes in columns beside each other."""
    first, at = kilograms(chance, 0.45), moment_of(chance)
    second = (first[0] + 60, first[1] - 100, first[2] + 40)
    sheet = Sheet(860, 720)
    sheet.middle(40, f"BASCULA {chance.choice(PUEBLOS)}", 38)
    sheet.left(50, 110, f"FECHA {at:%d/%m/%Y}", 28)
    sheet.right(810, 110, f"{at:%H:%M}", 28)
    for x, heading in ((130, "EJE"), (540, "PRIMERA"), (810, "SEGUNDA")):
        sheet.right(x, 200, heading, 28)
    y = 260
    names = ("DIRECCION", "TRACCION", "REMOLQUE", "BRUTO")
    for name, one, two in zip(names, (*first, sum(first)), (*second, sum(second)), strict=True):
        sheet.left(50, y, name, 30)
        sheet.right(540, y, f"{one:,} kg", 30)
        sheet.right(810, y, f"{two:,} kg", 30)
        y += 60
    both = (hitched(first, "kg", at), hitched(second, "kg", at))
    return in_spanish(Drawn(sheet.picture, both, "metric", "MXN"))


SPANISH_PAPERS: tuple[Layout, ...] = (
    boleto, tabla_de_ejes, pesaje, dos_pesadas, en_casillas, recibo, repostaje, galones,
    dos_productos, rueda_por_rueda, pases_en_columnas,
)  # fmt: skip
