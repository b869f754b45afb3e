"""Numbers that say by how much something changed, and not what it is.

This file decides by the words beside a number that it is a step: 'lost 12 psi, now 68', 'steer
dropped 160 to 5,180', 'drive 7,120, up 200 from last time', '12 degrees hotter than the right'.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.quantities import Quantity
from domain.reading.figures import MASS, PRESSURE, TEMPERATURE, Figure, token_at
from domain.reading.tokens import MARK, NUMBER, Token

CHANGES = frozenset(
    (
        "changes_by",
        "climbs_by",
        "changes_to",
        "compares",
        "within_so_much",
        "usual_one",
        "soft_tyre",
        "outweighs",
    )
)
"""Groups of words of which one stands beside such a number."""

CHANGE = "how much it changed"

CHANGING = frozenset((PRESSURE, TEMPERATURE))
"""What a gauge shows, and what also says by how much it changed."""

MOST_GAINED = 60
"""Degrees: of more that a gearbox climbs it is told where it got to."""

LEAST_OVER = 2.0
"""What came of a change is so many times the step at least; nearer, both are readings."""


def tells_change(figure: Figure, tokens: Sequence[Token], last: Figure | None) -> bool:
    """Whether a number is by how much something changed; `last` is the figure before."""
    before, after = token_at(tokens, figure.start - 1), token_at(tokens, figure.end)
    if after is not None and "outweighs" in after.groups:
        return figure.dimension in (None, MASS) and _is_less(figure, tokens)
    apart = after is not None and not AWAY.isdisjoint(after.groups)
    if apart and after is not None and _is_apart(figure, after, token_at(tokens, figure.end + 1)):
        return True
    if figure.dimension in CHANGING and _changes(figure, before, after):
        return True
    if before is None or before.groups.isdisjoint(CHANGES):
        return False
    if after is not None and "to" in after.groups:
        reached = token_at(tokens, figure.end + 1)
        return (
            reached is not None
            and reached.kind is NUMBER
            and reached.value >= LEAST_OVER * figure.value
        )
    return last is not None and _steps_from(figure, tokens, before, last)


def _is_less(figure: Figure, tokens: Sequence[Token]) -> bool:
    """'steer's 240 lighter than last time, 4,920': beside what it is, so little is a step."""
    most = max(token.value for token in tokens if token.kind is NUMBER)
    return figure.value <= MOST_STEP and most >= LEAST_OVER * figure.value


MOST_STEP = 2_500
"""Pounds or kilograms that a load of a rig changes by from one weighing to the next."""


def _changes(figure: Figure, before: Token | None, after: Token | None) -> bool:
    """'lost 12 psi, now 68', 'trans climbed 20 degrees': by how much it changed, not what it is."""
    if before is None or (figure.dimension == TEMPERATURE and figure.value > MOST_GAINED):
        return False
    if "steps" in before.groups and after is not None and after.groups & {"from", "since"}:
        return True  # 'down 5 psi from yesterday'
    return not BY.isdisjoint(before.groups)


BY = frozenset(("changes_by", "climbs_by", "within_so_much"))
"""Groups of words before so much: 'hubs within 10 degrees of each other'."""


def _is_apart(figure: Figure, after: Token, behind: Token | None) -> bool:
    """'12 degrees hotter than the right', '30 above normal': how far apart two are.

    Of a bare figure it must be said from what, and more than so many is a reading.
    """
    gauged = figure.dimension in CHANGING
    if "soft_tyre" in after.groups:
        return figure.dimension == PRESSURE and is_short(figure)
    if "compares" in after.groups and gauged:
        return True
    small = figure.dimension is None and figure.value <= MOST_GAINED
    if behind is None or not (gauged or small):
        return False
    return ("than" if "compares" in after.groups else "usual_one") in behind.groups


def is_short(figure: Figure) -> bool:
    """'10 psi low': less than any tyre is left with, so it is what the tyre lacks."""
    return Quantity(figure.value, figure.unit or "").amount("kPa") <= MOST_LACKED


MOST_LACKED = 140.0
"""Kilopascals, about 20 psi."""

AWAY = frozenset(("compares", "past_or_short", "soft_tyre"))
"""Groups of words of which one stands behind how far apart two are."""


def _steps_from(figure: Figure, tokens: Sequence[Token], before: Token, last: Figure) -> bool:
    """'drive 7,120, up 200', '7,120 lb, down 160 from last time': what it is stands before."""
    between = tokens[last.end : figure.start - 1]
    if "steps" not in before.groups or not all(each.raw in ",(" for each in between):
        return False
    behind = token_at(tokens, figure.end)
    closed = behind is None or behind.kind is MARK or bool(behind.groups & {"from", "since"})
    return closed and last.value >= LEAST_OVER * figure.value
