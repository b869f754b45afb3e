"""The figures of a message: each number with its unit, and what claims it.

This file decides what a number's own surroundings say of it: the unit or currency beside it,
that it is a range or a price per volume, or that a neighbour claims it for something that is
no business of a logbook (an exit, a room, a telephone, a date, eggs). What it stands for in
the log is decided later, from labels and context.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from domain.context import Context
from domain.quantities import Quantity
from domain.reading.tokens import BREAK, MARK, NUMBER, PHONE, TIME, WORD, Token

MASS, VOLUME, DISTANCE, TEMPERATURE, PRESSURE, SPEED = (
    "mass",
    "volume",
    "distance",
    "temperature",
    "pressure",
    "speed",
)
ROTATION, LENGTH, DURATION, SHARE, MONEY, PRICE, ECONOMY, FORCE = (
    "rotation",
    "length",
    "duration",
    "share",
    "money",
    "price",
    "economy",
    "force",
)

DIMENSION_OF = {
    "lb": MASS,
    "kg": MASS,
    "t": MASS,
    "ton": MASS,
    "gal": VOLUME,
    "gal_imp": VOLUME,
    "L": VOLUME,
    "mi": DISTANCE,
    "km": DISTANCE,
    "degF": TEMPERATURE,
    "degC": TEMPERATURE,
    "degree": TEMPERATURE,
    "psi": PRESSURE,
    "kPa": PRESSURE,
    "bar": PRESSURE,
    "mph": SPEED,
    "km/h": SPEED,
    "rpm": ROTATION,
    "ft": LENGTH,
    "in": LENGTH,
    "m": LENGTH,
    "cm": LENGTH,
    "mm": LENGTH,
    "h": DURATION,
    "min": DURATION,
    "%": SHARE,
    "mi/gal": ECONOMY,
    "L/100km": ECONOMY,
    "km/L": ECONOMY,
    "kN": FORCE,
}

CURRENCY_MARKS = {"$": "", "£": "GBP", "€": "EUR"}
"""A dollar is the chat's own dollar."""

DOLLARS = ("USD", "CAD", "AUD", "NZD", "SGD", "HKD")


RANGE_RATIO = 1.35
RANGE_TOP = 1000
"""A stated range is narrow, and of temperatures, pressures, speeds: bigger pairs are a list."""

YEARS = range(1980, 2100)


class Figure:
    """A number and what its neighbours say of it.

    `unit` is a contract symbol or currency code or None, `dimension` what it measures; `claimed`
    says who else owns the number; `foreign` is an unknown noun that it counts. `start` and `end`
    are token indexes, the unit and currency included, end exclusive.
    """

    __slots__ = (
        "claimed",
        "count",
        "dimension",
        "end",
        "foreign",
        "label",
        "low",
        "marked",
        "negative",
        "role",
        "start",
        "token",
        "unit",
        "value",
    )

    def __init__(self, token: Token, start: int, end: int) -> None:
        self.token = token
        self.value = token.value
        self.start = start
        self.end = end
        self.unit: str | None = None
        self.dimension: str | None = None
        self.low: float | None = None
        self.count: int | None = None
        self.claimed: str | None = None
        self.foreign: str | None = None
        self.label: object | None = None
        self.role: str | None = None
        self.negative = False
        self.marked = False

    @property
    def whole(self) -> bool:
        """Whether it is a whole number, written without decimals."""
        return self.token.decimals == 0


def find_figures(tokens: Sequence[Token], context: Context) -> list[Figure]:
    """Every number of a message as a figure, in order."""
    figures: list[Figure] = []
    index, count = 0, len(tokens)
    while index < count:
        token = tokens[index]
        if token.kind is not NUMBER:
            index += 1
            continue
        figure = _figure(tokens, index, context, figures[-1] if figures else None)
        figures.append(figure)
        index = figure.end
    return figures


def _figure(tokens: Sequence[Token], index: int, context: Context, last: Figure | None) -> Figure:
    figure = Figure(tokens[index], index, index + 1)
    _join_groups(figure, tokens, context)
    _money_before(figure, tokens, context, last.end if last else 0)
    _range_or_product(figure, tokens)
    _unit_after(figure, tokens, context)
    _fraction_after(figure, tokens)
    _claim(figure, tokens, context, last)
    return figure


def _at(tokens: Sequence[Token], index: int) -> Token | None:
    return tokens[index] if 0 <= index < len(tokens) else None


def _join_groups(figure: Figure, tokens: Sequence[Token], context: Context) -> None:
    """Digits grouped by spaces (118 240), or by a dot (19.460 kg)."""
    token = figure.token
    after = _at(tokens, figure.end)
    if (
        after is not None
        and after.kind is NUMBER
        and not (token.spoken or after.spoken or token.decimals or token.grouped)
        and token.raw.isdigit()
        and len(token.raw) <= 3
        and token.raw[0] != "0"
        and re.fullmatch(r"\d{3}(\.\d+)?", after.raw)
        and after.start == token.end + 1
    ):
        joined = token.value * 1000 + after.value
        unit = _unit_key(_at(tokens, figure.end + 1))
        if _group_is_likely(joined, len(token.raw), unit, context):
            merged = Token(NUMBER, "", f"{token.raw} {after.raw}", token.start, after.end)
            merged.value, merged.decimals, merged.grouped = joined, after.decimals, True
            figure.token, figure.value = merged, joined
            figure.end += 1
    elif token.decimals == 3 and not token.spoken and token.value < 1000 and "," not in token.raw:
        unit = _unit_key(after)
        if unit in ("kg", "lb", "km", "rpm") or (
            unit is None and context.odometer is not None and _follows(token.value * 1000, context)
        ):
            merged = Token(NUMBER, "", token.raw, token.start, token.end)
            merged.value, merged.grouped = round(token.value * 1000), True
            figure.token, figure.value = merged, merged.value


def _group_is_likely(joined: float, lead: int, unit: str | None, context: Context) -> bool:
    if unit in ("km", "mi", "kg", "lb"):
        return True
    if unit is not None:
        return False
    if context.odometer is not None and _follows(joined, context):
        return True
    return lead <= 2 and 1000 <= joined < 60_000


def _follows(value: float, context: Context) -> bool:
    """Whether a value could be the truck's next odometer reading."""
    return context.odometer is not None and 0 <= value - context.odometer.value <= NEXT_READING


NEXT_READING = 5_000
"""Miles or kilometres: further than this between two readings is a jump that is asked about."""


def _unit_key(token: Token | None) -> str | None:
    return token.senses.get("unit") if token is not None and token.kind is WORD else None


def _money_before(figure: Figure, tokens: Sequence[Token], context: Context, floor: int) -> None:
    before = _at(tokens, figure.start - 1)
    if before is None or figure.start - 1 < floor:
        return
    if before.raw in CURRENCY_MARKS:
        figure.unit = CURRENCY_MARKS[before.raw] or _dollar(context)
        figure.dimension, figure.marked = MONEY, True
        figure.start -= 1
    elif before.senses.get("money") == "local":
        if before.text != "r" or context.currency == "ZAR":
            figure.unit, figure.dimension, figure.marked = context.currency, MONEY, True
            figure.start -= 1
    elif before.senses.get("money", "cents") not in ("cents", "pence"):
        figure.unit, figure.dimension, figure.marked = before.senses["money"], MONEY, True
        figure.start -= 1
    elif before.raw in "-−" and before.kind is MARK:
        further = _at(tokens, figure.start - 2)
        glued = before.end == figure.token.start
        apart = further is None or further.end < before.start or further.raw in ":="
        if glued and apart:
            figure.negative = True
            figure.start -= 1


def _dollar(context: Context) -> str:
    return context.currency if context.currency in DOLLARS else "USD"


def _range_or_product(figure: Figure, tokens: Sequence[Token]) -> None:
    mark, other = _at(tokens, figure.end), _at(tokens, figure.end + 1)
    if mark is None or other is None or other.kind is not NUMBER:
        return
    beyond = _at(tokens, figure.end + 2)
    if mark.raw == "x" or (mark.kind is MARK and mark.raw in "x×"):
        if figure.token.decimals == 0 and 1 <= figure.value <= 6 and other.value >= 100:
            figure.count = int(figure.value)
            figure.token, figure.value = other, other.value
            figure.end += 2
        return
    dashed = mark.raw in "-–—" and not (beyond is not None and beyond.raw == mark.raw)
    chained = _at(tokens, figure.start - 1)
    dashed = dashed and not (chained is not None and chained.raw == mark.raw)
    worded = "to" in mark.groups or (
        "and_alone" in mark.groups and chained is not None and "between" in chained.groups
    )
    if (
        (dashed or worded)
        and figure.value < other.value < figure.value * RANGE_RATIO
        and (other.value < RANGE_TOP or "and_alone" in mark.groups)
        and figure.value >= 10
    ):
        figure.low = figure.value
        figure.token, figure.value = other, other.value
        figure.end += 2


def _unit_after(figure: Figure, tokens: Sequence[Token], context: Context) -> None:
    token = _at(tokens, figure.end)
    if token is None or token.kind is BREAK:
        return
    if token.raw == "€" or token.raw == "£":
        figure.unit, figure.dimension, figure.marked = CURRENCY_MARKS[token.raw], MONEY, True
        figure.end += 1
    elif (
        (money := token.senses.get("money")) is not None
        and figure.dimension is None
        and (token.text != "c" or _priced(figure, tokens))
    ):
        _money_after(figure, money, token, context)
        _cents_after(figure, tokens)
    elif (unit := token.senses.get("unit")) is not None and figure.dimension is None:
        if unit == "lb" and _means_sterling(tokens, figure, context):
            figure.unit, figure.dimension, figure.marked = "GBP", MONEY, True
            figure.end += 1
            _cents_after(figure, tokens)
        elif _is_unit_here(token, _at(tokens, figure.end + 1), figure):
            figure.unit = _own_unit(unit, context)
            figure.dimension = DIMENSION_OF[unit]
            figure.end += 1
            _temperature_letter(figure, tokens)
    per = _at(tokens, figure.end)
    if per is not None and "per_volume" in per.senses:
        _price_per(figure, per.senses["per_volume"], context)
        figure.end += 1
    elif figure.dimension == PRICE and figure.unit in ("pence", "cents"):
        if per is not None and per.raw == "/":
            figure.claimed = "a tariff"
        _price_per(figure, "L", context)


def _means_sterling(tokens: Sequence[Token], figure: Figure, context: Context) -> bool:
    """'ninety four pounds twenty', 'for 88 pounds' in a chat that pays in sterling."""
    if context.currency != "GBP" or not _in(tokens, figure.end, "sterling"):
        return False
    after = _at(tokens, figure.end + 1)
    pence = after is not None and after.kind is NUMBER and after.value < 100
    return pence or _in(tokens, figure.start - 1, "before_money")


def _in(tokens: Sequence[Token], index: int, group: str) -> bool:
    """Whether a word of that group stands there."""
    token = _at(tokens, index)
    return token is not None and group in token.groups


def _priced(figure: Figure, tokens: Sequence[Token]) -> bool:
    """'@ 194.9c' is money, 'trans 92c' a temperature."""
    before = _at(tokens, figure.start - 1)
    after = _at(tokens, figure.end + 1)
    return (before is not None and "before_price" in before.groups) or (
        after is not None and "per_volume" in after.senses
    )


def _cents_after(figure: Figure, tokens: Sequence[Token]) -> None:
    """'a hundred and thirty six dollars fifty': the cents follow the word."""
    joined = 1 if _in(tokens, figure.end, "and_alone") else 0
    after = _at(tokens, figure.end + joined)
    named = _in(tokens, figure.end + joined + 1, "small_coin")
    if (
        figure.dimension == MONEY
        and after is not None
        and after.kind is NUMBER
        and after.decimals == 0
        and 1 <= after.value < 100
        and float(figure.value).is_integer()
        and (named or (after.spoken and not joined))
        and (named or _unit_key(_at(tokens, figure.end + 1)) is None)
    ):
        figure.value = round(figure.value + after.value / 100, 2)
        figure.end += 1 + joined + named


def _money_after(figure: Figure, money: str, token: Token, context: Context) -> None:
    if money in ("pence", "cents"):
        if token.text == "p" and not token.glued:
            return
        figure.unit, figure.dimension = money, PRICE
    else:
        if money == "local":
            money = context.currency
        figure.unit = _dollar(context) if money == "USD" else money
        figure.dimension, figure.marked = MONEY, True
    figure.end += 1


def _price_per(figure: Figure, volume: str, context: Context) -> None:
    """A price per volume: pence and cents become pounds and dollars; 'four nineteen' is 4.19."""
    currency = figure.unit if figure.dimension == MONEY and figure.unit else context.currency
    value, decimals = figure.value, figure.token.decimals
    if figure.unit in ("pence", "cents"):
        currency = "GBP" if figure.unit == "pence" else context.currency
        value = value / 100
    elif value >= 1000 and (figure.token.grouped or figure.token.spoken):
        value = value / 1000  # 1,639 a litre has a decimal comma
    elif not figure.marked and value >= 100:
        value = value / (1000 if value >= 1000 else 100)
    figure.value = round(value, max(decimals, 0) + 3)
    volume_unit = _own_unit(volume, context)
    figure.unit, figure.dimension = f"{currency}/{volume_unit}", PRICE


def _own_unit(unit: str, context: Context) -> str:
    """A gallon is the chat's own gallon, and so is a degree."""
    if unit == "gal" and context.units == "imperial":
        return "gal_imp"
    if unit == "mi/gal" and context.units == "imperial":
        return "mi/gal_imp"
    if unit == "degree":
        return "degF" if context.units == "us" else "degC"
    return unit


def _temperature_letter(figure: Figure, tokens: Sequence[Token]) -> None:
    """'92 ° C', '195 degrees F': the letter settles the degree."""
    after = _at(tokens, figure.end)
    if figure.dimension == TEMPERATURE and after is not None and after.text in ("c", "f"):
        figure.unit = "degC" if after.text == "c" else "degF"
        figure.end += 1


def _is_unit_here(token: Token, after: Token | None, figure: Figure) -> bool:
    """Whether a word behind a number is its unit: '18 in behind', not '340 in the bed'."""
    if token.raw == "#":
        return token.glued
    if token.raw in "'\"":
        return token.glued and figure.whole
    if "unit_or_word" not in token.groups:
        return True
    if token.text in ("in", "m") and after is not None and "after_inches" in after.groups:
        return True
    if token.text == "in":
        return after is None or after.kind is not WORD
    if token.text == "m" and figure.token.scaled:
        return False
    if token.glued or after is None or after.kind is not WORD:
        return True
    return token.text in ("l", "t", "c", "f") and (token.raw.isupper() or bool(after.senses))


def _fraction_after(figure: Figure, tokens: Sequence[Token]) -> None:
    """'3.69 9/10' is 3.699, '31 1/2 gal' is 31.5."""
    after = _at(tokens, figure.end)
    if after is None or after.kind is not NUMBER or after.decimals != -1:
        return
    if after.raw == "9/10" and figure.token.decimals == 2:
        figure.value = round(figure.value + 0.009, 3)
        figure.end += 1
    elif figure.whole and figure.dimension is None and _unit_key(_at(tokens, figure.end + 1)):
        figure.value += after.value
        figure.end += 1


def _claim(figure: Figure, tokens: Sequence[Token], context: Context, last: Figure | None) -> None:
    """Find out whether a neighbour owns the number."""
    if figure.claimed is not None:
        return
    if figure.dimension == DURATION:
        figure.claimed = "a duration"
        return
    before_index = figure.start - 1
    before = _at(tokens, before_index)
    if before is not None and before.raw == "#" and figure.dimension is None:
        figure.claimed = "'#'"
        return
    if figure.token.raw[0] == "0" and figure.whole and len(figure.token.raw) > 2:
        figure.claimed = "a number with leading zeros"
        return
    if _heads_row(tokens, figure):
        return
    if _dates_message(tokens, figure):
        figure.claimed = "a date"
        return
    if _claimed_line(tokens, figure):
        figure.claimed = "a number of its line"
        return
    while before is not None and (
        before.raw in ("#", ":", ".") or "before_claimed" in before.groups
    ):
        before_index -= 1
        before = _at(tokens, before_index)
    after = _at(tokens, figure.end)
    if (
        before is not None
        and "claim" in before.senses
        and figure.dimension is None
        and not (last is not None and last.end > before_index)
    ):
        figure.claimed = f"'{before.raw}'"
    elif _beside_month(before, figure) or _beside_month(after, figure):
        figure.claimed = "a date"
    elif figure.dimension is None and _street_follows(tokens, figure.end):
        figure.claimed = "an address"
    elif figure.token.decimals == -1 and figure.dimension is None:
        figure.claimed = "a fraction"
    elif _numbers_row(tokens, figure):
        figure.claimed = "a row's number"
    elif _said_again(figure, before, last):
        figure.claimed = "said again in another unit"
    elif (
        after is not None
        and "axle_noun" in after.senses
        and figure.dimension is None
        and figure.count is None
        and figure.value <= 4
    ):
        figure.claimed = "a count of axles"
    if figure.claimed is None and after is not None and not _follows(figure.value, context):
        figure.foreign = _foreign_noun(tokens, figure.end)
        if figure.foreign and figure.dimension is None and _counts(figure, figure.foreign):
            figure.claimed = f"a count of {figure.foreign}"


def _counts(figure: Figure, noun: str) -> bool:
    """'two mares', '31 jars': a small whole number before a plural."""
    return figure.whole and figure.value < 100 and len(noun) > 3 and noun.endswith("s")


def _numbers_row(tokens: Sequence[Token], figure: Figure) -> bool:
    """'1 Steer  1.30': a small number that opens a line with a label and a figure behind it."""
    at = figure.start - 1
    if at >= 0 and tokens[at].kind is not BREAK:
        return False
    if not (figure.whole and figure.value <= 6 and figure.dimension is None):
        return False
    label, other = _at(tokens, figure.end), _at(tokens, figure.end + 1)
    labelled = label is not None and bool(label.senses.keys() & {"axle", "vehicle", "whole", "end"})
    return labelled and other is not None and (other.kind is NUMBER or other.raw in ":=")


def _said_again(figure: Figure, before: Token | None, last: Figure | None) -> bool:
    """'5171 KG (11400 LB)': the same mass in another unit, in brackets."""
    if (
        last is None
        or last.dimension != MASS
        or figure.dimension != MASS
        or last.unit == figure.unit
    ):
        return False
    if before is None or before.raw not in "(/[" or not last.unit or not figure.unit:
        return False
    one = Quantity(last.value, last.unit).amount("kg")
    other = Quantity(figure.value, figure.unit).amount("kg")
    return abs(one - other) <= 0.02 * one


def _claimed_line(tokens: Sequence[Token], figure: Figure) -> bool:
    if figure.dimension not in (None, SHARE, MONEY):
        return False
    index = figure.start - 1
    while index >= 0 and tokens[index].kind is not BREAK:
        if tokens[index].raw in ",;" or "axle" in tokens[index].senses:
            return False
        groups = tokens[index].groups
        if "claims_line" in groups:
            taxed = "tax" in groups and not _has_fee(tokens, index)
            return figure.dimension != MONEY or taxed
        index -= 1
    return False


def _heads_row(tokens: Sequence[Token], figure: Figure) -> bool:
    """The first of three loads in a row belongs to nobody else."""
    if figure.dimension is not None or figure.value < LEAST_LOAD:
        return False
    index, found = figure.end, 1
    while index < len(tokens) and found < 3:
        if tokens[index].kind is MARK and tokens[index].raw in "/,-|":
            index += 1
            continue
        if tokens[index].kind is not NUMBER or tokens[index].value < LEAST_LOAD:
            return False
        found += 1
        index += 1
    return found == 3


LEAST_LOAD = 400


def _dates_message(tokens: Sequence[Token], figure: Figure) -> bool:
    """'7/9 31.4 gal': two small numbers with a slash open the message."""
    if figure.start not in (0, 2) or len(tokens) < 4 or tokens[1].raw != "/":
        return False
    first, second, behind = tokens[0], tokens[2], tokens[3]
    if first.kind is not NUMBER or second.kind is not NUMBER or behind.raw == "/":
        return False
    whole = first.raw.isdigit() and second.raw.isdigit()
    return (
        whole and 1 <= first.value <= 31 and 1 <= second.value <= 31 and second.end < behind.start
    )


def _has_fee(tokens: Sequence[Token], index: int) -> bool:
    """'Fee (inc GST) $33.00' is the fee."""
    while index >= 0 and tokens[index].kind is not BREAK:
        if "fee" in tokens[index].senses or tokens[index].raw == "(":
            return True
        index -= 1
    return False


def _beside_month(token: Token | None, figure: Figure) -> bool:
    return (
        token is not None
        and "time" in token.senses
        and "month" in token.senses["time"].split()
        and figure.dimension is None
        and figure.whole
        and (figure.value <= 31 or figure.value in YEARS)
    )


def _street_follows(tokens: Sequence[Token], index: int) -> bool:
    for step in range(4):
        token = _at(tokens, index + step)
        if token is None or token.kind is not WORD or "glue" in token.senses:
            return False
        if "street" in token.senses and step:
            return True
        if "unit" in token.senses:
            return False
    return False


def _foreign_noun(tokens: Sequence[Token], index: int) -> str | None:
    """The unknown noun that a figure counts: '31 jars', '2 gal of milk'."""
    token = _at(tokens, index)
    if token is not None and "of" in token.groups:
        token = _at(tokens, index + 1)
        if token is not None and "our" in token.groups:
            return None
    if (
        token is not None
        and token.kind is WORD
        and not token.senses
        and token.raw[0].islower()
        and token.text.isalpha()
        and len(token.text) > 1
    ):
        return token.text
    return None


def is_gap(token: Token) -> bool:
    """Whether a token is a mark or break that parts one statement from the next."""
    return token.kind in (BREAK, TIME, PHONE) or (token.kind is MARK and token.raw in ".!?;")
