"""The figures of a message, in order.

This file decides which tokens make one number: digits in groups (118 240), a range, a count of
equal loads (2 x 4,520). Units and money are read by `beside`, other owners by `claims`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from domain.context import Context
from domain.reading.beside import (
    LEADING,
    MEASURING,
    counts_in_thousands,
    read_fraction_after,
    read_money_before,
    read_price_of_each,
    read_unit_after,
)
from domain.reading.claimed_forms import COUNT_OF_AXLES
from domain.reading.claims import OWNING, find_claim
from domain.reading.digit_pairs import join_pairs
from domain.reading.figures import (
    DIMENSION_OF,
    MASS,
    ROTATION,
    TEMPERATURE,
    VOLUME,
    Figure,
    follows_odometer,
    make_figure,
    token_at,
    unit_key,
)
from domain.reading.pump_decimals import has_pump_decimals
from domain.reading.superseded import came_from, is_put_right
from domain.reading.tokens import MARK, NUMBER, Token, make_number

RANGE_RATIO = 1.35


RANGE_TOP = 1000
"""A stated range is narrow, and of temperatures, pressures, speeds: bigger pairs are a list."""


RANGE_OF_LOADS = 1.1
"""So little a scale wobbles, at most."""

WIND_RATIO = 4.0
"""Gusts are that much more than a wind that is told in a range: '10 to 35 mph'."""

IN_THOUSANDS = frozenset(("exhaust", "engine_speed"))
"""Gauges that show thousands: 'EGT 1,150 to 1,220', '1,900 to 2,200 rpm'."""


def _widest(tokens: Sequence[Token], figure: Figure, top: Token, *, both: bool) -> float:
    """What the upper end of a range is to the lower, at most; 0 where it is too high for one."""
    before = tokens[max(0, figure.start - FARTHEST_GAUGE) : figure.start]
    gauges = {token.senses.get("subject", "").split(" ")[0] for token in before}
    if top.value >= RANGE_TOP and any("whole" in token.senses for token in before):
        return RANGE_OF_LOADS  # 'tongue came in 1,050 to 1,080'
    if top.value >= RANGE_TOP and not both and gauges.isdisjoint(IN_THOUSANDS):
        after = token_at(tokens, figure.end + 2)
        told_in = DIMENSION_OF.get(unit_key(after) or "")
        thing = told_in == MASS and OF_RIG.isdisjoint(each for t in before for each in t.senses)
        if told_in not in (ROTATION, TEMPERATURE) and not thing:
            return 0.0
    blows = any(token.senses.get("subject", "").startswith("wind") for token in before[-2:])
    return WIND_RATIO if blows else RANGE_RATIO


OF_RIG = frozenset(
    ("axle", "axle_noun", "correction", "name", "rating", "reported", "vehicle", "weigh_cue")
)
"""Classes of term before two loads of a rig; a thing's weight may be a range: 'log 4,500-5,000'."""

FARTHEST_GAUGE = 4
"""Tokens from a range back to the name of its gauge: 'EGT was anywhere from 1,150 to 1,220'."""


def find_figures(
    tokens: Sequence[Token], numbers: Sequence[int], context: Context, said: frozenset[str]
) -> list[Figure]:
    """Every number of a message as a figure, in order.

    `numbers` are where they stand, and `said` are the classes of term, the groups and the marks
    that stand in the message.
    """
    figures: list[Figure] = []
    last: Figure | None = None
    owning = said & OWNING
    led, measured = not LEADING.isdisjoint(said), not MEASURING.isdisjoint(said)
    for index in numbers:
        if last is not None and index < last.end:
            continue
        figure = _figure(tokens, index, context, last, led=led, measured=measured)
        if figure.value >= LEAST_COUNTED and figure.end < len(tokens):
            _count_behind(figure, tokens)
        if last is not None:
            if last.count and figure.start <= last.counted_to:
                figure.claimed = COUNT_OF_AXLES
            if figure.dimension == VOLUME and "of" in said:
                _part_of_whole(tokens, last, figure)
        find_claim(figure, tokens, context, last, said, owning)
        figures.append(figure)
        last = figure
    return figures


def _figure(
    tokens: Sequence[Token],
    index: int,
    context: Context,
    last: Figure | None,
    *,
    led: bool,
    measured: bool,
) -> Figure:
    """The figure that begins with a number.

    The message has what may stand before a figure if `led`, and behind one if `measured`.
    """
    token, behind = tokens[index], index + 1
    count = len(tokens)
    figure = make_figure(token, index, behind)
    if token.decimals == GROUP or (behind < count and tokens[behind].kind is NUMBER):
        _join_groups(figure, tokens, context)
    if led and index > (last.end if last else 0):
        read_money_before(figure, tokens, context)
    beyond = figure.end + 1
    if beyond < count and tokens[beyond].kind is NUMBER:
        _range_or_product(figure, tokens)
    if measured and figure.end < count:
        read_unit_after(figure, tokens, context)
    if figure.end < count:
        after = tokens[figure.end]
        if after.kind is NUMBER or "and" in after.groups:
            read_fraction_after(figure, tokens, context)
    if last is not None and last.dimension == VOLUME:
        read_price_of_each(figure, tokens, context, last)
    return figure


def _part_of_whole(tokens: Sequence[Token], part: Figure, whole: Figure) -> None:
    """'33 of the 36 gallons': the first is so many gallons, and the other what there could be."""
    between = [each for each in tokens[part.end : whole.start] if "article" not in each.groups]
    joined = [each.text.split(" ")[0] for each in between] == ["of"]
    if joined and part.dimension is None and part.value < whole.value:
        part.unit, part.dimension = whole.unit, VOLUME
        whole.claimed = "what there could be of it"


PAIRED = 2
"""Digits of half a load: '52 60'."""

GROUP = 3
"""Digits of a group of thousands."""

LEAST_COUNTED = 500
"""Pounds or kilograms: of less there are so many for another reason than an axle each."""


def _count_behind(figure: Figure, tokens: Sequence[Token]) -> None:
    """'7,000 each x2', '6000 lb x 2', '3500 (x3)': so many axles of the load before."""
    at = figure.end
    first = tokens[at]
    if not (first.raw[0] in COUNTING or "each_one" in first.groups):
        return
    for group, mark in (("each_one", None), (None, "(")):
        token = token_at(tokens, at)
        at += token is not None and (token.raw == mark or group in token.groups)
    sign, number = token_at(tokens, at), token_at(tokens, at + 1)
    if sign is None:
        return
    if _TIMES.fullmatch(sign.raw):
        figure.count, figure.counted_to = int(sign.raw[1]), at
    elif sign.raw in TIMES and number is not None and _is_count(number):
        figure.count, figure.counted_to = int(number.value), at + 1


TIMES = "xX×"
_THREE_DIGITS = re.compile(r"\d{3}(?:[.,]\d{1,2})?")
COUNTING = f"{TIMES}("
_TIMES = re.compile("[x×][2-6]", re.IGNORECASE)


def _is_count(token: Token) -> bool:
    return token.kind is NUMBER and token.decimals == 0 and 2 <= token.value <= MOST_AXLES


def _numbers_axles(tokens: Sequence[Token], index: int) -> bool:
    """'trailer axle 1 980 kg, trailer axle 2 1010 kg': the numbers of axles, and no thousands."""
    if index == 0 or not _is_axle_number(tokens, index):
        return False
    return any(_is_axle_number(tokens, other) for other in range(1, len(tokens)) if other != index)


def _is_axle_number(tokens: Sequence[Token], index: int) -> bool:
    token = tokens[index]
    small = token.kind is NUMBER and token.decimals == 0 and token.value <= MOST_AXLES
    named = index > 1 and "axle" in tokens[index - 2].senses  # 'steer ax 5 180 lb'
    return small and not named and tokens[index - 1].senses.get("axle_noun") == "axle"


MOST_AXLES = 6


def _join_groups(figure: Figure, tokens: Sequence[Token], context: Context) -> None:
    """Digits grouped by spaces (118 240), or by a dot (19.460 kg)."""
    token = figure.token
    after = tokens[figure.end] if figure.end < len(tokens) else None
    if (
        after is not None
        and after.kind is NUMBER
        and not (token.said.spoken or after.said.spoken or token.decimals or token.grouped)
        and token.raw.isdigit()
        and len(token.raw) <= 3
        and token.raw[0] != "0"
        and _THREE_DIGITS.fullmatch(after.raw)
        and after.start == token.end + 1
    ):
        joined = token.value * 1000 + after.value
        unit = unit_key(token_at(tokens, figure.end + 1))
        named = _is_reading(tokens, figure)
        named = named or (context.odometer is None and _reads_first(figure.start, joined, tokens))
        if _numbers_axles(tokens, figure.start):
            return
        if (
            named
            or _group_is_likely(joined, len(token.raw), unit, context)
            or _is_restated(tokens, figure.start)
        ):
            raw = f"{token.raw} {after.raw}"
            merged = make_number("", raw, token.start, after.end, joined, after.decimals)
            merged.grouped = True
            figure.token, figure.value = merged, joined
            figure.end += 1
    elif len(token.raw) == PAIRED and figure.start and figure.start + 1 < len(tokens):
        join_pairs(figure, tokens)
    elif (
        token.decimals == GROUP
        and not token.said.spoken
        and token.value < 1000
        and "," not in token.raw
    ):
        unit = unit_key(after)
        if (
            unit in ("kg", "lb", "km", "rpm")
            or (unit is None and counts_in_thousands(tokens, figure, context))
            or (
                unit is None
                and context.odometer is not None
                and follows_odometer(token.value * 1000, context)
                and not has_pump_decimals(tokens, figure)
            )
        ):
            value = float(round(token.value * 1000))
            merged = make_number("", token.raw, token.start, token.end, value)
            merged.grouped = True
            figure.token, figure.value = merged, merged.value


def _is_reading(tokens: Sequence[Token], figure: Figure) -> bool:
    """'odo is 118 640', '118 640 on the clock': the odometer is named beside both groups."""
    before, behind = figure.start - 1, figure.end + 1
    while before > 0 and _leads(tokens[before]):
        before -= 1
    while behind < len(tokens) - 1 and _leads(tokens[behind]):
        behind += 1
    beside = (token_at(tokens, before), token_at(tokens, behind))
    return any(token is not None and "odometer" in token.senses for token in beside)


def _is_restated(tokens: Sequence[Token], number: int) -> bool:
    """'odo should read 84 512': what an odometer that is named ought to have shown."""
    if not number or "restates" not in tokens[number - 1].groups:
        return False
    return any("odometer" in token.senses for token in tokens[max(0, number - 3) : number - 1])


def _leads(token: Token) -> bool:
    """Whether a small word only leads to the next: 'is', 'on the'."""
    return "glue" in token.senses and "odometer" not in token.senses


def _reads_first(index: int, joined: float, tokens: Sequence[Token]) -> bool:
    """'112 450 leaving Wattle Flat', in a chat that knows no reading yet: what happened, and it."""
    numbers = sum(1 for token in tokens if token.kind is NUMBER)
    if numbers != PARTS or joined < LEAST_DRIVEN:
        return False
    before, behind = token_at(tokens, index - 1), token_at(tokens, index + PARTS)
    return any("event" in token.senses or "hitch" in token.senses for token in tokens) and not any(
        token is not None and "unit" in token.senses and "glue" not in token.senses
        for token in (before, behind)
    )


PARTS = 2
"""Groups of digits of an odometer that is written with a space: 112 450."""

LEAST_DRIVEN = 10_000
"""Miles or kilometres: less, two figures stand side by side."""


MOST_TURNS = 6_000
"""Turns a minute that an engine makes: '2 300 rpm' is one figure."""


def _group_is_likely(joined: float, lead: int, unit: str | None, context: Context) -> bool:
    if unit in ("km", "mi", "kg", "lb"):
        return True
    if unit is not None:
        return unit == "rpm" and joined <= MOST_TURNS
    if context.odometer is not None and follows_odometer(joined, context):
        return True
    return lead <= 2 and 1000 <= joined < 60_000


def _are_sides(figure: Figure, mark: Token, other: Token) -> bool:
    """'1920x1080': a screen or a picture, whose sides are told with an x between them."""
    whole = figure.whole and other.decimals == 0 and mark.glued and other.glued
    return whole and min(figure.value, other.value) >= LEAST_SIDE


LEAST_SIDE = 100

RANGING = frozenset(("to", "and_alone"))
"""Groups of words between the ends of a range."""


def _range_or_product(figure: Figure, tokens: Sequence[Token]) -> None:
    """What a mark or a word and one more number behind a figure make of it."""
    mark, other = tokens[figure.end], tokens[figure.end + 1]
    if mark.raw == "x" or (mark.kind is MARK and mark.raw in "x×"):
        if figure.token.decimals == 0 and 1 <= figure.value <= 6 and other.value >= 100:
            figure.count = int(figure.value)
            figure.token, figure.value = other, other.value
            figure.end += 2
        elif _are_sides(figure, mark, other):
            figure.claimed, figure.end = "a size", figure.end + 2
        return
    dashed = mark.raw in "-–—"
    if not dashed and mark.groups.isdisjoint(RANGING):
        return
    beyond, chained = token_at(tokens, figure.end + 2), token_at(tokens, figure.start - 1)
    dashed = dashed and not (beyond is not None and beyond.raw == mark.raw)
    dashed = dashed and not (chained is not None and chained.raw == mark.raw)
    worded = "to" in mark.groups or (
        "and_alone" in mark.groups and chained is not None and "between" in chained.groups
    )
    if worded and (came_from(tokens, figure.start) or is_put_right(tokens, figure.start)):
        return  # 'trans climbed from 190 to 224', 'change 24.6 to 26.4'
    if (
        (dashed or worded)
        and figure.value >= 10
        and figure.value < other.value < figure.value * WIND_RATIO
        and other.value
        < figure.value * _widest(tokens, figure, other, both="and_alone" in mark.groups)
    ):
        figure.low = figure.value
        figure.token, figure.value = other, other.value
        figure.end += 2
