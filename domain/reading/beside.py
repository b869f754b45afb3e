"""What stands right beside a number: its unit, its currency, or a price per volume.

This file decides whether the word or sign before or behind a number is its unit or its money,
in the chat's own gallons, degrees and dollars. It does not know what the figure is for.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from domain.context import Context
from domain.reading.dearest_fuel import PESOS, dearest
from domain.reading.figures import (
    DIMENSION_OF,
    DISTANCE,
    MONEY,
    PRESSURE,
    PRICE,
    TEMPERATURE,
    Figure,
    heads_gauge,
    token_at,
    unit_key,
)
from domain.reading.mixed_numbers import add_coins, add_part, add_part_behind
from domain.reading.pressing_pounds import TYRE_PSI, presses
from domain.reading.tokens import CENTS, MARK, MILLS, NUMBER, WORD, Token, make_number

CURRENCY_MARKS = {"$": "", "£": "GBP", "€": "EUR"}
"""A dollar is the chat's own dollar."""


DOLLARS = ("USD", "CAD", "AUD", "NZD", "SGD", "HKD")


LEADING = frozenset((*CURRENCY_MARKS, "-", "−", "money", "minus_word"))
"""Marks, classes of term and groups of words that say what the figure behind them is of."""


def counts_in_thousands(tokens: Sequence[Token], figure: Figure, context: Context) -> bool:
    """'$60.750', 'a 1.290': money of a currency whose litre costs thousands has no mills."""
    if dearest(context.currency) < 1000:
        return False
    before, after = token_at(tokens, figure.start - 1), token_at(tokens, figure.end)
    return (before is not None and (before.raw == "$" or "at_alone" in before.groups)) or (
        after is not None and "money" in after.senses
    )


def read_money_before(figure: Figure, tokens: Sequence[Token], context: Context) -> None:
    """The currency or minus sign right before a number."""
    before = tokens[figure.start - 1]
    money = before.senses.get("money")
    if money is None and before.kind is WORD:
        if "minus_word" in before.groups and figure.whole:
            figure.negative = True  # 'minus 18 out here'
            figure.start -= 1
        elif "per_volume" in before.senses:
            _price_under_its_unit(figure, tokens, context)
        return
    if before.raw in CURRENCY_MARKS:
        own = context.currency if context.currency in PESOS else _dollar(context)
        figure.unit = CURRENCY_MARKS[before.raw] or own
        figure.dimension, figure.marked = MONEY, True
        figure.start -= 1
    elif money == "local":
        if before.text != "r" or context.currency == "ZAR":
            figure.unit, figure.dimension, figure.marked = context.currency, MONEY, True
            figure.start -= 1
    elif money is not None and money not in ("cents", "pence"):
        figure.unit, figure.dimension, figure.marked = _currency(before, context), MONEY, True
        figure.start -= 1
        if "one_coin" in before.groups:
            _coin_before(figure, tokens)
    elif "coins_per_litre" in before.groups:
        figure.unit = before.senses["money"]  # 'C/L 198.9'
        _price_per(figure, "L", context)
        figure.start -= 1
    elif before.kind is MARK and before.raw in "-−":
        further = token_at(tokens, figure.start - 2)
        glued = before.end == figure.token.start
        apart = further is None or further.end < before.start or further.raw in ":="
        if glued and apart:
            figure.negative = True
            figure.start -= 1


def _price_under_its_unit(figure: Figure, tokens: Sequence[Token], context: Context) -> None:
    """'EUR/L 1.789', 'R/L 22.35': the currency and the volume are told before the price."""
    start, volume = figure.start, tokens[figure.start - 1].senses["per_volume"]
    ahead, mark = token_at(tokens, start - 3), token_at(tokens, start - 2)
    if mark is None or not CURRENCY_MARKS.get(mark.raw, mark.raw):
        return  # whose dollar, the amount may tell
    if ahead is not None and ahead.kind is NUMBER:
        return  # '3.899 EUR/l 24.6'
    figure.start -= 1
    read_money_before(figure, tokens, context)
    if figure.dimension == MONEY:
        _price_per(figure, volume, context)
    else:
        figure.start = start


def _coin_before(figure: Figure, tokens: Sequence[Token]) -> None:
    """'a buck fifty nine', 'a buck ninety nine nine': one, hundredths, and tenths of them."""
    article = token_at(tokens, figure.start - 1)
    if article is None or "a_thing" not in article.groups or not figure.whole:
        return
    mills = figure.token.said.in_digits and 100 <= figure.value < 1000
    if not (mills or 1 <= figure.value < 100):
        return
    decimals = MILLS if mills else CENTS
    value = round(1 + figure.value / 10**decimals, decimals)
    told = make_number("", figure.token.raw, article.start, figure.token.end, value, decimals)
    figure.token, figure.value = told, told.value
    figure.start -= 1


def _currency(token: Token, context: Context) -> str:
    """The currency that a word names: 'dollars' and 'pesos' are the chat's own, if it has them."""
    money = token.senses["money"]
    if money == "local" or ("any_pesos" in token.groups and context.currency in PESOS):
        return context.currency
    return _dollar(context) if "any_dollars" in token.groups else money


def _names_currency(token: Token) -> bool:
    return token.senses.get("money") not in (None, "cents", "pence", "local")


def paid_in(tokens: Sequence[Token], context: Context) -> Context:
    """'paid in pesos, 70.4 liters, 1,682.56': the chat with the currency that a message is in."""
    for before, token in pairwise(tokens):
        if "in" in before.groups and _names_currency(token):
            return replace(context, currency=_currency(token, context))
    return context


def _dollar(context: Context) -> str:
    return context.currency if context.currency in DOLLARS else "USD"


def read_unit_after(figure: Figure, tokens: Sequence[Token], context: Context) -> None:
    """The unit, currency or price per volume behind a number."""
    at = figure.end
    token = tokens[at]
    if (
        UNITS.isdisjoint(token.senses)
        and token.raw not in UNIT_SIGNS
        and BEFORE_UNIT.isdisjoint(token.groups)
    ):
        return
    behind = tokens[at + 1] if at + 1 < len(tokens) else None
    if (
        not PASSED_TO_UNIT.isdisjoint(token.groups)
        and behind is not None
        and "unit" in behind.senses
        and "unit_or_word" not in behind.groups  # '1.4 more in'
    ):
        figure.end += 1  # '500 more pounds'
        token, behind = behind, token_at(tokens, figure.end + 1)
    if token.raw == "$" and not figure.marked and not _typed_to(behind):
        figure.unit, figure.dimension, figure.marked = _dollar(context), MONEY, True  # '60 $'
        figure.end += 1
    elif token.raw in ("€", "£") and not _heads_number(token, behind):
        figure.unit, figure.dimension, figure.marked = CURRENCY_MARKS[token.raw], MONEY, True
        figure.end += 1
    elif (
        (money := token.senses.get("money")) is not None
        and figure.dimension is None
        and (token.text != "c" or (token.raw == "c" and _priced(figure, tokens)))
        and not (money == "local" and _in_cents(behind, figure))
    ):
        _money_after(figure, money, token, context)
        _cents_after(figure, tokens)
    elif figure.marked and tokens[figure.start].raw == "$" and _names_currency(token):
        figure.unit = _currency(token, context)  # '$82.47 USD'
        figure.end += 1
    elif (unit := token.senses.get("unit")) is not None and figure.dimension is None:
        if unit == "lb" and _means_sterling(tokens, figure, context):
            figure.unit, figure.dimension, figure.marked = "GBP", MONEY, True
            figure.end += 1
            _cents_after(figure, tokens)
        elif unit == "lb" and figure.value <= TYRE_PSI[1] and presses(tokens, figure):
            figure.unit, figure.dimension = "psi", PRESSURE
            figure.end += 1
        elif _is_unit_here(token, behind, figure, tokens):
            figure.unit = own_unit(unit, context)
            figure.dimension = DIMENSION_OF[unit]
            figure.end += 1
            if figure.dimension == TEMPERATURE:
                _temperature_letter(figure, tokens)
    volume, words = _per_volume(figure, tokens) if figure.end < len(tokens) else (None, 0)
    if volume is not None:
        _price_per(figure, volume, context)
        figure.end += words
    elif figure.dimension == PRICE and figure.unit in ("pence", "cents"):
        per, what = token_at(tokens, figure.end), token_at(tokens, figure.end + 1)
        if per is not None and per.raw == "/" and what is not None and what.kind is WORD:
            figure.claimed = "a tariff"
        _price_per(figure, "L", context)


def _in_cents(behind: Token | None, figure: Figure) -> bool:
    """'pump 4 cash 40.00': the figure behind the word for money is the one in cents."""
    return behind is not None and behind.decimals == CENTS != figure.token.decimals


def _typed_to(behind: Token | None) -> bool:
    """Whether something is typed to a '$' that makes it of what follows; '1.612 $/L' is a price."""
    return behind is not None and behind.glued and "per_volume" not in behind.senses


def _per_volume(figure: Figure, tokens: Sequence[Token]) -> tuple[str | None, int]:
    """The volume that a figure is the price of, and how many words say so: '/L', '$3.89 / gal'."""
    per = tokens[figure.end]
    if "per_volume" in per.senses:
        beyond = token_at(tokens, figure.end + 1)
        if beyond is not None and beyond.kind is NUMBER:
            listed = _heads_volume(tokens, figure)  # 'gal 31.4 ppg 3.899'
        else:
            listed = _heads_price(figure, beyond) or _heads_field(figure, beyond, tokens)
        return (None, 0) if listed else (per.senses["per_volume"], 1)
    if per.raw != "/" and "per_one" not in per.groups:
        return None, 0
    unit = unit_key(token_at(tokens, figure.end + 1))
    if unit not in PUMPED or figure.dimension not in (None, MONEY):
        return None, 0
    beyond = token_at(tokens, figure.end + 2)
    if beyond is not None and (beyond.raw == "/" or beyond.kind is NUMBER):
        return None, 0
    return (None, 0) if _heads_field(figure, beyond, tokens) else (unit, 2)


def _heads_price(figure: Figure, mark: Token | None) -> bool:
    """'gal 24.6 ppg: 3.549', where '3.549 ppg' is a price."""
    return mark is not None and mark.raw == ":" and figure.dimension is None


HEADS = frozenset((":", "="))
"""Marks behind the name of a field, whose figure follows."""


def _heads_field(figure: Figure, mark: Token | None, tokens: Sequence[Token]) -> bool:
    """Whether a mark says that its unit is a field's name; '1,659 €/L = 86.93' is a price."""
    if mark is None or figure.dimension is not None or mark.raw not in HEADS:
        return False
    given = figure.start > 0 and tokens[figure.start - 1].raw == mark.raw  # 'vol=33.4 ppg=3.799'
    return given or figure.value >= BEYOND_PUMPS


UNITS = frozenset(("unit", "money", "per_volume"))
"""Classes of term that say what a figure before them is of."""

PASSED_TO_UNIT = frozenset(("still_more", "round_sum"))
"""Groups of words between a figure and its unit: '500 more pounds', '31 even gallons'."""

BEFORE_UNIT = PASSED_TO_UNIT | {"per_one"}
"""Groups of words that may stand between a figure and its unit."""

UNIT_SIGNS = frozenset(("$", "€", "£", "/"))
"""What the phrasebook has no sense for, and may be a unit or part of one."""

MEASURING = UNITS | BEFORE_UNIT | UNIT_SIGNS
"""What stands in a message where something behind a figure says what it is of."""


def _heads_volume(tokens: Sequence[Token], figure: Figure) -> bool:
    """'odo 51612 gal 31.4': a unit of volume before a figure, and none of the figure before it."""
    unit, further = token_at(tokens, figure.start - 1), token_at(tokens, figure.start - 2)
    if unit is not None and "volume_word" in unit.groups:
        return True  # 'vol 27.4 ppg 3.769'
    if unit_key(unit) not in PUMPED:
        return False
    if further is None or further.kind is not NUMBER or further.value >= BEYOND_PUMPS:
        return True
    lettered = token_at(tokens, figure.start - 3)
    return lettered is not None and lettered.end == further.start  # 'DSL2 GAL 31.200 PPG 3.699'


PUMPED = ("gal", "L")
"""Units of volume that fuel is priced by."""


def read_price_of_each(
    figure: Figure, tokens: Sequence[Token], context: Context, last: Figure
) -> None:
    """'18.25 gallons of gas, 3.199 each': so much for each gallon of the volume right before."""
    each = token_at(tokens, figure.end)
    if figure.dimension not in (None, MONEY) or each is None:
        return
    if "each_one" not in each.groups or figure.value >= dearest(context.currency):
        return
    between = tokens[last.end : figure.start]
    pumped = figure.token.decimals == MILLS or any(
        "before_price" in token.groups for token in between
    )
    named = any(
        "product" in token.senses for token in tokens[max(0, last.start - 2) : figure.start]
    )
    if not (pumped or named) or any(
        token.kind is not MARK and not token.senses for token in between
    ):
        return
    _price_per(figure, last.unit or "gal", context)
    figure.end += 1


def _heads_number(sign: Token, behind: Token | None) -> bool:
    """'151.9  £75.34': a sign that is typed to the number behind it alone."""
    return not sign.glued and behind is not None and behind.glued and behind.kind is NUMBER


def _means_sterling(tokens: Sequence[Token], figure: Figure, context: Context) -> bool:
    """'ninety four pounds twenty', 'for 88 pounds' in a chat that pays in sterling."""
    if context.currency != "GBP" or not _in(tokens, figure.end, "sterling"):
        return False
    after = token_at(tokens, figure.end + 1)
    pence = after is not None and after.kind is NUMBER and after.value < 100
    return pence or _in(tokens, figure.start - 1, "before_money")


def _in(tokens: Sequence[Token], index: int, group: str) -> bool:
    """Whether a word of that group stands there."""
    token = token_at(tokens, index)
    return token is not None and group in token.groups


def _priced(figure: Figure, tokens: Sequence[Token]) -> bool:
    """'@ 194.9c' is money, and so is '78.4 L 189.9c'; 'trans 92c' is a temperature."""
    before = token_at(tokens, figure.start - 1)
    shown = figure.token.decimals == 1 and figure.value >= LEAST_COINS
    if shown and before is not None and before.senses.get("unit") == "L":
        return True
    after = token_at(tokens, figure.end + 1)
    return (before is not None and "before_price" in before.groups) or (
        after is not None and "per_volume" in after.senses
    )


LEAST_COINS = 100
"""Cents that a litre costs where they are shown with a tenth; an engine is not so hot."""


def _cents_after(figure: Figure, tokens: Sequence[Token]) -> None:
    """'a hundred and thirty six dollars fifty': the cents follow the word.

    In a price the tenth of a cent is said along: 'three dollars eighty four nine a gallon'.
    """
    if _mills_after(figure, tokens):
        return
    joined = 1 if _in(tokens, figure.end, "and_alone") else 0
    after = token_at(tokens, figure.end + joined)
    named = _in(tokens, figure.end + joined + 1, "small_coin")
    if (
        figure.dimension == MONEY
        and after is not None
        and after.kind is NUMBER
        and after.decimals == 0
        and 1 <= after.value < 100
        and float(figure.value).is_integer()
        and (named or ((after.said.spoken or _typed_cents(tokens, figure.end)) and not joined))
        and (named or unit_key(token_at(tokens, figure.end + 1)) is None)
    ):
        figure.value = round(figure.value + after.value / 100, 2)
        figure.end += 1 + joined + named


def _typed_cents(tokens: Sequence[Token], index: int) -> bool:
    """'3 bucks 79': two digits, and behind them nothing that they could count."""
    behind = token_at(tokens, index + 1)
    counts = behind is not None and (
        behind.raw == "/" or (behind.kind is WORD and not behind.senses) or behind.kind is NUMBER
    )
    return len(tokens[index].raw) == CENTS and not counts


def _mills_after(figure: Figure, tokens: Sequence[Token]) -> bool:
    """Add cents and their tenths, said or typed before 'a gallon', to the whole money."""
    after, per = token_at(tokens, figure.end), token_at(tokens, figure.end + 1)
    if after is None or per is None or after.kind is not NUMBER or "per_volume" not in per.senses:
        return False
    if figure.dimension != MONEY or not float(figure.value).is_integer():
        return False
    said = after.said.spoken and after.decimals == 0 and 100 <= after.value < 1000
    typed = after.decimals == 1 and 10 <= after.value < 100
    if said or typed:
        figure.value = round(figure.value + after.value / (1000 if said else 100), 3)
        figure.end += 1
    return said or typed


def _money_after(figure: Figure, money: str, token: Token, context: Context) -> None:
    if money in ("pence", "cents"):
        if token.text == "p" and not token.glued and context.currency != "GBP":
            return
        figure.unit, figure.dimension = money, PRICE
    else:
        figure.unit, figure.dimension, figure.marked = _currency(token, context), MONEY, True
    figure.end += 1


def _price_per(figure: Figure, volume: str, context: Context) -> None:
    """A price per volume: pence and cents become pounds and dollars; 'four nineteen' is 4.19."""
    currency = figure.unit if figure.dimension == MONEY and figure.unit else context.currency
    value, decimals = figure.value, figure.token.decimals
    if figure.unit in ("pence", "cents"):
        currency = "GBP" if figure.unit == "pence" else context.currency
        value = value / 100
    elif value >= max(1000, dearest(currency)) and (
        figure.token.grouped or figure.token.said.spoken
    ):
        value = value / 1000  # 1,639 a litre has a decimal comma
    elif not figure.marked and value >= max(100, dearest(currency)):
        if value < 1000:
            value = value / 100
        elif decimals == 0:  # and '1839.00' is a thousand times too dear, however it was meant
            value = value / 1000
    figure.value = round(value, max(decimals, 0) + 3)
    volume_unit = own_unit(volume, context)
    figure.unit, figure.dimension = f"{currency}/{volume_unit}", PRICE


def own_unit(unit: str, context: Context) -> str:
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
    after = token_at(tokens, figure.end)
    if after is not None and after.text in ("c", "f"):
        figure.unit = "degC" if after.text == "c" else "degF"
        figure.end += 1


BEYOND_PUMPS = 1000
"""Gallons or litres: more than goes into any tank of a truck."""

LONGEST_RIG = 1000
"""Inches: more than any place on a rig is from another."""


def _is_unit_here(
    token: Token, after: Token | None, figure: Figure, tokens: Sequence[Token]
) -> bool:
    """Whether a word behind a number is its unit: '18 in behind', not '340 in the bed'."""
    if token.raw == "#":
        return token.glued
    if token.raw in "'\"":
        return token.glued and figure.whole
    if token.senses["unit"] in PUMPED:
        if after is None or after.kind is not NUMBER:
            if _heads_field(figure, after, tokens):
                return False
            if figure.value >= BEYOND_PUMPS:
                return True
        elif figure.value >= BEYOND_PUMPS or _is_driven(tokens, figure):
            return token.glued  # 'odo 51612 gal 31.4', 'trip 311.2 gal 26.1': it heads the next
    if DIMENSION_OF.get(token.senses["unit"]) == DISTANCE and figure.token.decimals == CENTS:
        # 'total 77.10 miles 118702': money, and what the reading behind is of
        return after is None or after.kind is not NUMBER or after.value < BEYOND_PUMPS
    if "unit_or_word" not in token.groups:
        return True
    if token.text in ("in", "m", "foot") and after is not None and "after_inches" in after.groups:
        return figure.value < LONGEST_RIG  # '6,880 in back'
    if token.text == "in":
        poured = figure.start > 0 and "putting" in tokens[figure.start - 1].groups
        return not poured and (after is None or after.kind is not WORD)
    if token.text == "m" and figure.token.said.scaled:
        return False
    if token.glued or after is None or after.kind is not WORD:
        return not heads_gauge(tokens, figure)
    if token.text == "ks":
        return bool(after.senses or after.groups)  # '800 ks cost us'
    if token.text not in ("l", "t", "c", "f"):
        return "subject" in token.senses
    if token.raw.isupper() or after.senses:
        return True
    behind = tokens[figure.end + 1 : figure.end + 3]  # 'a 1.75 t mini digger', no 't shirt'
    return token.text == "t" and any("carried_thing" in each.groups for each in behind)


def _is_driven(tokens: Sequence[Token], figure: Figure) -> bool:
    """Whether the name of a meter stands before a figure, unless a reading stands before it."""
    before, shown = token_at(tokens, figure.start - 1), token_at(tokens, figure.start - 2)
    if before is None or (shown is not None and shown.value >= BEYOND_PUMPS):
        return False  # '51,980 on the clock 24 gallons 91 dollars'
    return "trip_word" in before.groups or not METERS.isdisjoint(before.senses)


METERS = frozenset(("odometer", "trip_meter"))

MILLS_WRITTEN = "9/10"
"""The tenths of a cent on American pumps."""


def _are_tenths(tokens: Sequence[Token], at: int) -> bool:
    """'nine tenths'."""
    behind = token_at(tokens, at + 1)
    return tokens[at].value == NINE and behind is not None and "tenths_word" in behind.groups


NINE = 9


def _add_mills(figure: Figure, end: int) -> None:
    """'three forty nine and nine tenths', '3.49 and nine tenths': 3.499."""
    token = figure.token
    value = round((figure.value / 100 if figure.whole else figure.value) + 0.009, 3)
    told = make_number("", token.raw, token.start, token.end, value, MILLS)
    figure.token, figure.value, figure.end = told, told.value, end


def _is_in_cents(figure: Figure) -> bool:
    """'three forty nine', '3.49': what tenths of a cent are said behind, and no '31 gallons'."""
    said = figure.whole and 100 <= figure.value < 1000 and figure.dimension in (None, MONEY)
    return said or figure.token.decimals == CENTS


def read_fraction_after(figure: Figure, tokens: Sequence[Token], context: Context) -> None:
    """'3.69 9/10' is 3.699, '31 1/2 gal' and '31 gallons and a half' are 31.5."""
    _read_fraction(figure, tokens)
    if figure.unit is not None:
        figure.unit = own_unit(figure.unit, context)


def _read_fraction(figure: Figure, tokens: Sequence[Token]) -> None:
    at = figure.end
    joined = "and" in tokens[at].groups
    if joined and at + 1 < len(tokens) and _is_in_cents(figure):  # '3.79 and 9/10'
        at += tokens[at + 1].raw == MILLS_WRITTEN or _are_tenths(tokens, at + 1)
    after = tokens[at]
    if after.kind is NUMBER and _are_tenths(tokens, at) and _is_in_cents(figure):
        _add_mills(figure, at + 2)
        return
    if after.kind is not NUMBER or after.decimals != -1:
        if joined and figure.unit is not None:
            add_part_behind(figure, tokens)
        elif joined and not add_coins(figure, tokens):
            add_part(figure, tokens, at + 1)
        return
    if after.raw == MILLS_WRITTEN and figure.token.decimals == CENTS:
        figure.value = round(figure.value + 0.009, 3)
        figure.end = at + 1
    elif figure.dimension is None:
        add_part(figure, tokens, at)
