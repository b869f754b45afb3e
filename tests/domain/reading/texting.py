"""Entries as people text them: a message in one of many styles, and what it states.

Each writer takes `pick`, which chooses one of a sequence (hypothesis or chance), and gives a
`Texted`: the message and the entries that a careful person would write down. A style is one
that leaves that person in no doubt. This file knows nothing of how a message is read.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal, Protocol, TypeVar

from domain.context import Context
from domain.entries import (
    Cargo,
    Check,
    Correction,
    Entry,
    Fill,
    Hitch,
    Observation,
    Odometer,
    Rating,
    Weighing,
)
from domain.quantities import Quantity
from tests.domain.reading import spoken
from tests.domain.reading.chats import ODOMETER, SENT_AT, chat, on_the_road

T = TypeVar("T")


class Pick(Protocol):
    """Chooses one of several."""

    def __call__(self, options: Sequence[T], /) -> T:
        """One of the options."""
        ...


@dataclass(frozen=True, slots=True)
class Texted:
    """A message, the chat that it was sent to, and the entries that it states, in order."""

    text: str
    entries: tuple[Entry, ...]
    context: Context


Writer = Callable[[Pick], Texted]

LABELS: Mapping[str, Sequence[str]] = {
    "steer": ("steer", "steers", "steer axle", "front axle", "stear"),
    "drive": ("drive", "drives", "drive axle", "rear axle", "drv"),
    "trailer": ("trailer", "trlr", "trailer axles", "trailer axle", "tlr"),
    "gross": ("gross", "total", "gross weight", "total weight", "all up"),
}

OPENINGS = (
    "",
    "",
    "weighed: ",
    "scale says ",
    "just scaled, ",
    "Scale: ",
    "ok so weighed, ",
)
SEPARATORS = (", ", " ", "\n", " / ", "; ", " | ", " - ", " and ")
LINKS_BEFORE = (" ", ": ", " = ", " is ", " at ", " was ", "  ")
LINKS_AFTER = (" ", " on the ", " ")

MASS_STYLES: Sequence[Callable[[int], str]] = (
    "{:d}".format,
    "{:,d}".format,
    "{:d} lb".format,
    "{:,d} lbs".format,
    "{:,d}lb".format,
    "{:d}#".format,
    lambda mass: f"{mass / 1000:g}k" if mass / 1000 * 1000 == mass else f"{mass:,d}",
)


def _shaped(pick: Pick, text: str) -> str:
    """A message as its keyboard left it."""
    return pick((text, text, text.upper(), text.capitalize()))


def _loads(pick: Pick) -> dict[str, int]:
    """A pickup and a trailer on a platform scale that shows steps of 20 lb."""
    steer = pick(range(4_000, 6_200, 20))
    drive = pick(range(4_000, 9_600, 20))
    trailer = pick(range(3_000, 15_000, 20))
    loads = {"steer": steer, "drive": drive, "trailer": trailer}
    return loads | {"gross": sum(loads.values())} if pick((True, False)) else loads


def _weighed(loads: Mapping[str, int], rig: Literal["hitched", "solo", "trailer"]) -> Weighing:
    return Weighing(loads={where: Quantity(load, "lb") for where, load in loads.items()}, rig=rig)


def weighing(pick: Pick) -> Texted:
    """Every axle with its label, in any order, the label before the figure or behind it."""
    loads = _loads(pick)
    order = pick((tuple(loads), tuple(reversed(loads))))
    write = pick(MASS_STYLES)
    separator = pick(SEPARATORS)
    if pick((True, False)):
        link = pick(LINKS_BEFORE)
        parts = [f"{pick(LABELS[where])}{link}{write(loads[where])}" for where in order]
    else:
        link = pick(LINKS_AFTER)
        parts = [f"{write(loads[where])}{link}{pick(LABELS[where][:2])}" for where in order]
    text = _shaped(pick, pick(OPENINGS) + separator.join(parts))
    return Texted(text, (_weighed(loads, "hitched"),), pick((chat(), on_the_road())))


def dictated_weighing(pick: Pick) -> Texted:
    """The same said aloud: no figure, no comma."""
    loads = {where: load for where, load in _loads(pick).items() if spoken.said_in_pairs(load)}
    if not {"steer", "drive", "trailer"} <= loads.keys():
        loads = {"steer": 5_140, "drive": 8_280, "trailer": 11_460}
    say = pick((spoken.pairs, spoken.full, spoken.full_without_and, spoken.digit_by_digit))
    words = {where: spoken.plain(say(load)) for where, load in loads.items()}
    if pick((True, False)):
        parts = [f"{pick(LABELS[where][:3])} {words[where]}" for where in loads]
    else:
        parts = [f"{words[where]} on the {pick(LABELS[where][:3])}" for where in loads]
    return Texted(" ".join(parts), (_weighed(loads, "hitched"),), chat())


def bare_weighing(pick: Pick) -> Texted:
    """Bare figures, front to back, whose sum gives the gross away."""
    loads = _loads(pick)
    if "gross" not in loads:
        loads["gross"] = sum(loads.values())
    write = pick(MASS_STYLES[:6])
    text = pick((" ", ", ", "/", " / ", "\n", " + ", " - ")).join(map(write, loads.values()))
    return Texted(text, (_weighed(loads, "hitched"),), on_the_road())


def solo_weighing(pick: Pick) -> Texted:
    """The truck by itself."""
    loads = {"steer": pick(range(4_000, 5_600, 20)), "drive": pick(range(2_800, 4_600, 20))}
    write, link, separator = pick(MASS_STYLES), pick(LINKS_BEFORE), pick(SEPARATORS)
    rows = separator.join(f"{pick(LABELS[where])}{link}{write(loads[where])}" for where in loads)
    said = pick(("solo", "solo, ", "bobtail: ", "truck only ", "no trailer: "))
    return Texted(f"{said} {rows}", (_weighed(loads, "solo"),), chat())


def split_weighing(pick: Pick) -> Texted:
    """Each axle of the trailer for itself, from the front."""
    count = pick((2, 3))
    loads = {"steer": pick(range(4_000, 6_200, 20)), "drive": pick(range(4_000, 9_600, 20))}
    axles = {f"trailer_{n}": pick(range(2_000, 6_000, 20)) for n in range(1, count + 1)}
    names = pick(
        (
            ("trailer axle 1", "trailer axle 2", "trailer axle 3"),
            ("trailer first axle", "trailer second axle", "trailer third axle"),
            ("trlr ax 1", "trlr ax 2", "trlr ax 3"),
        )
    )
    write, separator = pick(MASS_STYLES[:6]), pick((", ", "\n", "; "))
    link = pick((" ", ": ", " = ")) if names[0][-1].isalpha() else pick((": ", " = "))
    rows = [f"{where}{link}{write(load)}" for where, load in loads.items()]
    rows += [f"{n}{link}{write(load)}" for n, load in zip(names, axles.values(), strict=False)]
    return Texted(separator.join(rows), (_weighed(loads | axles, "hitched"),), on_the_road())


def wheel_weighing(pick: Pick) -> Texted:
    """The truck wheel by wheel."""
    names = pick(
        (
            ("left front", "right front", "left rear", "right rear"),
            ("LF", "RF", "LR", "RR"),
            ("left steer", "right steer", "left drive", "right drive"),
            ("front left", "front right", "rear left", "rear right"),
        )
    )
    places = ("steer_left", "steer_right", "drive_left", "drive_right")
    loads = {place: pick(range(1_600, 3_000, 20)) for place in places}
    write, link, separator = pick(MASS_STYLES[2:6]), pick((" ", ": ")), pick((", ", "\n", "; "))
    rows = separator.join(
        f"{name}{link}{write(load)}" for name, load in zip(names, loads.values(), strict=True)
    )
    stated = Weighing(loads={place: Quantity(load, "lb") for place, load in loads.items()})
    opening = pick(("wheel weights: ", "on the wheel scales, ", "truck on the pads: "))
    return Texted(opening + rows, (stated,), chat())


def whole_weighing(pick: Pick) -> Texted:
    """One figure for everything on the scale, and how the rig stood."""
    forms: Mapping[Literal["hitched", "solo"], Sequence[str]] = {
        "hitched": ("gross {} hitched", "hitched: gross {}", "weighed hitched, gross {}"),
        "solo": (
            "solo gross {}",
            "solo: {}",
            "truck only, gross {}",
            "bobtail {}",
            "weighed solo {}",
        ),
    }
    rig = pick(tuple(forms))
    form = pick(forms[rig])
    load = pick(range(7_000, 9_800, 20) if rig == "solo" else range(11_000, 26_000, 20))
    text = _shaped(pick, form.format(pick(MASS_STYLES)(load)))
    return Texted(text, (_weighed({"gross": load}, rig),), chat())


def ticket(pick: Pick) -> Texted:
    """A printed ticket as it was pasted: a heading, a date, rows in columns, a fee."""
    loads = _loads(pick)
    loads["gross"] = loads["steer"] + loads["drive"] + loads["trailer"]
    number, fee = pick(range(10_000, 99_999)), pick(range(900, 1_800, 25)) / 100
    rows = {"steer": "STEER AXLE", "drive": "DRIVE AXLE", "trailer": "TRAILER AXLE"}
    rows["gross"] = pick(("GROSS WEIGHT", "GROSS"))
    write = pick(MASS_STYLES[:5])
    lines = [pick(("CLOVER CREEK SCALE", "PUBLIC SCALE", "Dry Fork Grain Elevator"))]
    lines += [f"TICKET {number}"]
    lines += pick(((), ("07/11/2026 13:40",), ("1200 Mill Rd", "Ph 208-555-0148")))
    at = None
    if lines[-1].endswith("13:40"):
        at = SENT_AT.replace(hour=13, minute=40)
    lines += [f"{rows[where]:<16}{write(load):>12}" for where, load in loads.items()]
    lines += [f"FEE ${fee:.2f}"]
    stated = Weighing(
        rig="hitched",
        loads={where: Quantity(load, "lb") for where, load in loads.items()},
        ticket=str(number),
        cost=Quantity(fee, "USD"),
        place=lines[0],
        at=at,
    )
    return Texted("\n".join(lines), (stated,), on_the_road())


def fill(pick: Pick) -> Texted:
    """A volume, and any of product, price, total, odometer and 'full', in many orders."""
    hundredths = pick(range(800, 3_500))
    volume = hundredths / 100
    product = pick((None, "diesel"))
    amount = pick((f"{volume:g} gal", f"{volume:g}gal", f"{volume:g} gallons", f"{volume:.3f} gal"))
    parts = [amount if product is None else pick((f"{amount} diesel", f"diesel {amount}"))]
    stated = Fill(product=product, volume=Quantity(volume, "gal"))
    price = cost = odometer = full = None
    if pick((True, False)):
        price = pick(range(2_899, 5_299, 10)) / 1000
        parts[0] += pick((f" @ ${price}", f" at ${price}", f" @ {price}", f" at ${price}/gal"))
    if pick((True, False)):
        cost = round(volume * (price or 3.899), 2)
        parts.append(pick((f"${cost:.2f}", f"total ${cost:.2f}", f"${cost:.2f} total")))
    if pick((True, False)):
        odometer = pick(range(48_020, 48_700))
        parts.insert(
            pick((0, len(parts))),
            pick(
                (
                    f"odo {odometer}",
                    f"odo {odometer:,}",
                    f"odometer {odometer}",
                    f"odo: {odometer}",
                    f"{odometer:,} on the clock",
                    f"{odometer} miles",
                )
            ),
        )
    if (len(parts) == 1 and price is None and product is None) or pick((True, False)):
        full = True
        parts.append(pick(("full", "filled up", "topped off", "full tank")))
    text = _shaped(pick, pick((", ", "\n", "; ", " / ", ". ")).join(parts))
    stated = Fill(
        product=product,
        volume=stated.volume,
        unit_price=None if price is None else Quantity(price, "USD/gal"),
        cost=None if cost is None else Quantity(cost, "USD"),
        odometer=None if odometer is None else Quantity(odometer, "mi"),
        full=full,
    )
    return Texted(text, (stated,), on_the_road())


def dictated_fill(pick: Pick) -> Texted:
    """'thirty one point two gallons of diesel odometer forty eight two eleven'."""
    whole, tenth = pick(range(10, 35)), pick(range(1, 10))
    odometer = pick([reading for reading in range(48_101, 48_999) if reading % 100])
    volume = f"{spoken.point(whole, str(tenth))} gallons of diesel"
    reading = f"odometer {spoken.pairs(odometer)}"
    text = spoken.plain(" ".join(pick(((volume, reading), (reading, volume)))))
    stated = Fill(
        product="diesel",
        volume=Quantity(float(f"{whole}.{tenth}"), "gal"),
        odometer=Quantity(odometer, "mi"),
    )
    return Texted(text, (stated,), on_the_road())


def odometer(pick: Pick) -> Texted:
    """A reading with a label, or with what happened there."""
    value = int(ODOMETER.value) + pick(range(900))
    figure = pick((f"{value}", f"{value:,}", f"{value} mi", f"{value:,} miles"))
    event: Literal["depart", "arrive"] | None
    form, event = pick(
        (
            ("odo {}", None),
            ("odo: {}", None),
            ("odometer {}", None),
            ("odometer reads {}", None),
            ("odo is {}", None),
            ("odo {}.", None),
            ("leaving, {}", "depart"),
            ("leaving, odo {}", "depart"),
            ("odo {} leaving", "depart"),
            ("departing at {}", "depart"),
            ("arrived, {}", "arrive"),
            ("arrived, odo {}", "arrive"),
            ("arrived {}", "arrive"),
            ("made it, odo {}", "arrive"),
        )
    )
    text = _shaped(pick, form.format(figure))
    stated = Odometer(odometer=Quantity(value, "mi"), event=event)
    return Texted(text, (stated,), on_the_road())


GAUGES: Sequence[tuple[str, str | None, str, range, Sequence[str]]] = (
    (
        "transmission",
        None,
        "degF",
        range(150, 240),
        (
            "trans temp {}",
            "trans {}F",
            "transmission temp is {}",
            "trans temp: {} F",
            "trans at {}°",
        ),
    ),
    ("coolant", None, "degF", range(160, 230), ("coolant {}", "coolant temp {}F", "coolant at {}")),
    ("oil", None, "degF", range(160, 250), ("oil temp {}", "oil temp {}F", "oil temp: {}")),
    (
        "tyre",
        "left front",
        "psi",
        range(45, 90),
        ("left front {} psi", "LF {} psi", "LF tire {}psi"),
    ),
    (
        "tyre",
        "trailer left rear",
        "psi",
        range(45, 90),
        ("trailer left rear {} psi", "trailer left rear tire {} psi", "trailer LR {} psi"),
    ),
    (
        "hub",
        "trailer right front",
        "degF",
        range(90, 220),
        ("trailer right front hub {}F", "trailer right front hub temp {}"),
    ),
    ("exhaust", None, "degF", range(600, 1_300, 10), ("egt {}", "EGT {}F", "exhaust temp {}")),
    ("grade", None, "%", range(3, 12), ("{}% grade", "grade {}%")),
)


def observation(pick: Pick) -> Texted:
    """One or two gauges."""
    count = pick((1, 2))
    chosen = [pick(GAUGES)]
    if count == 2 and chosen[0][1] is None:
        others = [gauge for gauge in GAUGES if gauge[0] != chosen[0][0] and gauge[1] is None]
        chosen.append(pick(others))
    parts, entries = [], []
    for subject, position, unit, values, forms in chosen:
        value = pick(values)
        parts.append(pick(forms).format(value))
        entries.append(Observation(subject=subject, value=Quantity(value, unit), position=position))
    text = _shaped(pick, pick((", ", "\n", "; ")).join(parts))
    return Texted(text, tuple(entries), chat())


RATINGS: Sequence[tuple[str, str, str | None, range, Sequence[str]]] = (
    ("truck", "gvwr", None, range(9_900, 14_000, 50), ("truck gvwr", "gvwr", "GVWR")),
    ("truck", "gcwr", None, range(22_000, 40_000, 100), ("gcwr", "truck gcwr", "GCWR")),
    (
        "truck",
        "gawr_front",
        None,
        range(5_200, 7_500, 50),
        ("front gawr", "gawr front", "GAWR FRT"),
    ),
    ("truck", "gawr_rear", None, range(6_000, 9_900, 50), ("rear gawr", "gawr rear", "GAWR RR")),
    ("truck", "payload", None, range(2_200, 4_800, 10), ("payload", "payload sticker")),
    ("trailer", "gvwr", None, range(7_000, 16_000, 50), ("trailer gvwr",)),
    ("trailer", "gvwr", "flatdeck", range(7_000, 16_000, 50), ("flatdeck gvwr", "flatdeck GVWR")),
    ("hitch", "tow", None, range(10_000, 20_000, 500), ("hitch rating", "hitch is rated for")),
)


def rating(pick: Pick) -> Texted:
    """One to three ratings of the truck off its label, or one of another part."""
    chosen = [pick(RATINGS)]
    if chosen[0][0] == "truck":
        chosen += [each for each in RATINGS[1:5] if each != chosen[0] and pick((True, False))]
    link, write = pick((" ", ": ", " is ", " = ")), pick(MASS_STYLES[1:5])
    parts, entries = [], []
    taken: set[int] = set()
    for subject, name, trailer, values, labels in chosen:
        value = pick([each for each in values if each not in taken])
        taken.add(value)
        parts.append(f"{pick(labels)}{link}{write(value)}")
        entries.append(
            Rating(subject=subject, rating=name, value=Quantity(value, "lb"), trailer=trailer)
        )
    text = pick((", ", "\n", "; ")).join(parts)
    return Texted(text, tuple(entries), on_the_road())


CHECKS: Sequence[tuple[str, str, Literal["done", "fault"]]] = (
    ("lug nuts", "torqued", "done"),
    ("lug nuts", "retorqued", "done"),
    ("safety chains", "crossed", "done"),
    ("breakaway switch", "tested", "done"),
    ("brake controller", "set", "done"),
    ("trailer lights", "checked", "done"),
    ("trailer brakes", "tested", "done"),
    ("coupler", "latched", "done"),
    ("left marker light", "is out", "fault"),
    ("right brake light", "out", "fault"),
    ("left turn signal", "not working", "fault"),
    ("breakaway cable", "frayed", "fault"),
)


def check(pick: Pick) -> Texted:
    """One to three points of the walk-round."""
    count = pick((1, 2, 3))
    chosen: list[tuple[str, str, Literal["done", "fault"]]] = []
    for _ in range(count):
        each = pick(CHECKS)
        if each[0] not in [other[0] for other in chosen]:
            chosen.append(each)
    shouted = pick((True, False, False))
    text = pick((", ", "\n", ". ")).join(f"{item} {state}" for item, state, _ in chosen)
    entries = tuple(
        Check(item=item.upper() if shouted else item, state=state) for item, _, state in chosen
    )
    text = text.upper() if shouted else text
    return Texted(text, entries, on_the_road())


def correction(pick: Pick) -> Texted:
    """A figure put right, with its field or without, or taken back."""
    right = pick(range(4_000, 9_900, 10))
    digits = list(f"{right}")
    digits[1], digits[2] = digits[2], digits[1]
    was = int("".join(digits))
    pounds, slip = Quantity(right, "lb"), Quantity(was, "lb")
    if was == right:
        was, slip = right + 100, Quantity(right + 100, "lb")
    number = pick(("{:d}", "{:,d}"))
    r, w = number.format(right), number.format(was)
    axle = pick(("steer", "drive", "trailer"))
    form, stated = pick(
        (
            (f"make that {r}", Correction(action="amend", value=right)),
            (f"*{r}", Correction(action="amend", value=right)),
            (f"{r}*", Correction(action="amend", value=right)),
            (f"sorry, {r}", Correction(action="amend", value=right)),
            (f"correction: {axle} {r}", Correction(action="amend", field=axle, value=pounds)),
            (f"{axle} should be {r}", Correction(action="amend", field=axle, value=pounds)),
            (f"{axle} was {r} sorry", Correction(action="amend", field=axle, value=pounds)),
            (f"oops {axle} {r}", Correction(action="amend", field=axle, value=pounds)),
            (f"I meant {axle} {r}", Correction(action="amend", field=axle, value=pounds)),
            (f"not {w}, it was {r}", Correction(action="amend", value=right, was=was)),
            (f"that's {r} not {w}", Correction(action="amend", value=right, was=was)),
            (
                f"{axle} is {r} not {w}",
                Correction(action="amend", field=axle, value=pounds, was=slip),
            ),
            ("i meant drive not trailer", Correction(action="amend", field="drive", was="trailer")),
            ("scratch that", Correction(action="undo")),
            ("undo that last one", Correction(action="undo")),
            ("delete the last entry", Correction(action="undo")),
        )
    )
    return Texted(_shaped(pick, form), (stated,), on_the_road())


def hitch(pick: Pick) -> Texted:
    """A trailer put on or taken off."""
    trailer = pick(("flatdeck", "camper"))
    form, action = pick(
        (
            ("hitched up the {}", "hitched"),
            ("hooked up the {}", "hitched"),
            ("{} is hitched", "hitched"),
            ("hitched to the {}", "hitched"),
            ("dropped the {}", "unhitched"),
            ("unhitched the {}", "unhitched"),
            ("unhooked the {}", "unhitched"),
            ("{} is unhooked", "unhitched"),
        )
    )
    happened: Literal["hitched", "unhitched"] = "hitched" if action == "hitched" else "unhitched"
    text = _shaped(pick, form.format(trailer))
    return Texted(text, (Hitch(action=happened, trailer=trailer),), on_the_road())


def cargo(pick: Pick) -> Texted:
    """A load, its weight and where it stands."""
    item = pick(("honey", "hive boxes", "sugar", "firewood", "feed"))
    value = pick(range(100, 2_000, 10))
    where, position = pick((("in the bed", "bed"), ("over the axles", "over axles")))
    form = pick(("loaded {m} lb of {i} {w}", "{i} {m} lb {w}", "put {m} lbs of {i} {w}"))
    text = form.format(m=value, i=item, w=where)
    stated = Cargo(item=item, value=Quantity(value, "lb"), position=position)
    return Texted(text, (stated,), on_the_road())


WRITERS: Mapping[str, Writer] = {
    writer.__name__: writer
    for writer in (
        weighing,
        dictated_weighing,
        bare_weighing,
        solo_weighing,
        split_weighing,
        wheel_weighing,
        whole_weighing,
        ticket,
        fill,
        dictated_fill,
        odometer,
        observation,
        rating,
        check,
        correction,
        hitch,
        cargo,
    )
}
"""Every writer under its name."""
