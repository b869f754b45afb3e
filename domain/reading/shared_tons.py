"""Tonnes said once for several loads: 'weighed at 5.2, 6.9 and 9.7 tonnes', 'hooked 7.4 t, solo 3'.

This file decides which short figures are in tonnes as another of the message is: those that stand
in one row before it, and those beside which is said how the rig stood.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import MASS, TONS, Figure
from domain.reading.shared_thousands import SHORT, UNLIKE, row_before
from domain.reading.tokens import Token

IN_TONS = frozenset(("weigh_cue", "rig"))
"""Classes of term of which one says that something was weighed, or how it stood."""


def share_tons(tokens: Sequence[Token], figures: Sequence[Figure]) -> None:
    """Give the unit to every short figure that it is said for."""
    tons = [
        figure
        for figure in figures
        if figure.dimension == MASS and figure.unit in TONS and figure.value
    ]
    if len({figure.unit for figure in tons}) != 1:
        return
    rows = {at for each in tons for at in row_before(tokens, each.start, each.value)}
    for figure in figures:
        short = figure.token.decimals in SHORT and figure.claimed is None
        if not short or figure.dimension is not None:
            continue
        alike = 1 / UNLIKE < figure.value / tons[0].value < UNLIKE
        if alike and (figure.start in rows or _stood(tokens, figure)):
            figure.unit, figure.dimension = tons[0].unit, MASS


def _stood(tokens: Sequence[Token], figure: Figure) -> bool:
    """Whether how the rig stood is said right before a figure, or right behind it."""
    lead = figure.start - 1
    while lead > 0 and "glue" in tokens[lead].senses:
        lead -= 1
    beside = (*tokens[max(0, lead) : figure.start], *tokens[figure.end : figure.end + 1])
    return any("rig" in token.senses for token in beside)
