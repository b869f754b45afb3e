"""Numbers of a date, a year or an hour, which no figure of a log is.

This file decides when a neighbour makes a number one of these: a month, 'in', 'back around'.
Clock times in full are found in `clocks`, and what day is meant in `times`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import Figure, token_at
from domain.reading.tokens import NUMBER, WORD, Token

FIRST_YEAR, LAST_YEAR = 1980, 2099


def tells_hour(tokens: Sequence[Token], figure: Figure, after: Token | None) -> bool:
    """'back around 6', 'left at 6, filled up': an hour behind a word for coming or going."""
    if not (figure.whole and 1 <= figure.value <= LAST_HOUR) or figure.dimension is not None:
        return False
    if after is not None and after.kind is WORD and GOES_ON.isdisjoint(after.senses):
        return False
    before = token_at(tokens, figure.start - 1)
    if before is None or not before.groups & {"around", "before_day"}:
        return False
    further = token_at(tokens, figure.start - 2)
    if further is None:
        return False
    return "before_hour" in further.groups or not TELLS_HOUR.isdisjoint(further.senses)


GOES_ON = frozenset(("glue", "event", "hitch", "fuel_cue"))
"""Classes of term that no hour counts: 'left at 6 filled up 31.2 gal'."""

TELLS_HOUR = frozenset(("event", "hitch", "before_hour"))
"""Classes of term, and the group, of which one stands before an hour."""


LAST_HOUR = 12


def dates_message(tokens: Sequence[Token]) -> bool:
    """'7/9 31.4 gal': two small numbers with a slash open the message."""
    if len(tokens) < 4 or tokens[1].raw != "/":
        return False
    first, second, behind = tokens[0], tokens[2], tokens[3]
    if first.kind is not NUMBER or second.kind is not NUMBER or behind.raw == "/":
        return False
    whole = first.raw.isdigit() and second.raw.isdigit()
    return (
        whole and 1 <= first.value <= 31 and 1 <= second.value <= 31 and second.end < behind.start
    )


def is_of_date(
    tokens: Sequence[Token], figure: Figure, before: Token | None, after: Token | None
) -> bool:
    """'May 15', '15 May', 'May 15, 2026', '15 de mayo de 2026': a day or a year by its month."""
    if not figure.whole:
        return False
    if before is not None and "of" in before.groups:
        before = token_at(tokens, figure.start - 2)
    if after is not None and "of" in after.groups:
        after = token_at(tokens, figure.end + 1)
    year = is_year(figure.value)
    beside = _is_month(before) or _is_month(after)
    return (beside and (year or figure.value <= 31)) or (year and _day_before(tokens, figure))


def is_year(value: float) -> bool:
    """Whether a number can be a year that a truck or a tyre was made in."""
    return FIRST_YEAR <= value <= LAST_YEAR and value % 1 == 0


def is_year_told(tokens: Sequence[Token], figure: Figure) -> bool:
    """'in 2016', 'since 1994'; a 'gross of 1980' is a load."""
    before, further = token_at(tokens, figure.start - 1), token_at(tokens, figure.start - 2)
    if before is None or "before_year" not in before.groups or not is_bare_year(figure):
        return False
    if not before.groups.isdisjoint(SURELY_BEFORE_YEAR):
        return True
    return further is None or further.senses.keys().isdisjoint(WEIGHED)


SURELY_BEFORE_YEAR = frozenset(("in", "since"))


WEIGHED = frozenset(("axle", "axle_noun", "vehicle", "whole", "weigh_cue", "side", "end"))
"""Classes of term that have a load."""


def is_bare_year(figure: Figure) -> bool:
    """'2016': four digits without a separator or a unit."""
    typed = figure.token.raw.isdigit() and len(figure.token.raw) == YEAR_DIGITS
    return typed and figure.dimension is None and EARLIEST <= figure.value <= LATEST


YEAR_DIGITS = 4


EARLIEST, LATEST = 1900, 2039
"""Years that people speak of without a word for it."""


def _is_month(token: Token | None) -> bool:
    return token is not None and "month" in token.senses.get("time", "").split()


def _day_before(tokens: Sequence[Token], figure: Figure) -> bool:
    """'May 15, 2026': a day behind a month, and behind it perhaps a comma."""
    at = figure.start - 1
    if at >= 0 and tokens[at].raw == ",":
        at -= 1
    if at < 1 or tokens[at].kind is not NUMBER or not 1 <= tokens[at].value <= 31:
        return False
    return _is_month(tokens[at - 1])
