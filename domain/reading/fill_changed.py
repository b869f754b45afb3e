"""Several figures of the last fill changed at once: 'change last fill to 24.6 gal at 3.799'.

This file decides that a message asks for it in so many words, or says what it should be, and which
field each figure is of.
One figure that is set is read in `corrections`.
"""

from __future__ import annotations

from domain.entries import Correction
from domain.reading.corrected_fields import value_of
from domain.reading.figures import MONEY, PRICE, VOLUME, Figure, follows_odometer
from domain.reading.fill_roles import price_band
from domain.reading.scene import Scene
from domain.reading.tokens import CENTS

FEWEST = 2
LONGEST = 16
"""Tokens of such a message."""

LATEST = 3
"""Tokens in which the verb stands: 'can you please change ...'."""


def fill_changed(scene: Scene) -> tuple[Correction, ...]:
    """A correction for each figure; none where the message asks for something else."""
    live = [figure for figure in scene.figures if figure.claimed is None]
    if not FEWEST <= len(live) <= len(OF_A_FILL) or len(scene.tokens) > LONGEST:
        return ()
    tokens = scene.tokens
    verbs = [at for at, token in enumerate(tokens[:LATEST]) if "changes_field" in token.groups]
    should = live[0].start - 1
    if verbs:
        named = tokens[verbs[0] + 1 : live[0].start]
    elif should > 0 and "restates" in tokens[should].groups:
        named = tokens[:should]  # 'last fill should be 26.1 gal at 3.799'
    else:
        return ()
    fill = any("fuel_cue" in token.senses or "of_fill" in token.groups for token in named)
    back = any("points_back" in token.groups for token in named)
    if not (fill and back):
        return ()
    fields = [field_by_form(scene, figure) for figure in live]
    if None in fields or len(set(fields)) < len(fields):
        return ()
    return tuple(
        Correction(
            action="amend",
            field=field,
            value=value_of(scene.context, figure, field),
            words=(("value", scene.words_between(figure.start, figure.end)),),
        )
        for figure, field in zip(live, fields, strict=True)
    )


OF_A_FILL = ("volume", "unit_price", "cost", "odometer")
"""The fields of a fill that are changed so."""


def field_by_form(scene: Scene, figure: Figure) -> str | None:
    """What a figure of a fill is, by its unit or its form."""
    if figure.dimension == VOLUME:
        return "volume"
    if figure.whole and follows_odometer(figure.value, scene.context):
        return "odometer"
    if figure.dimension not in (None, MONEY, PRICE):
        return None
    low, high = price_band(scene.context, None)
    if figure.dimension == PRICE or low <= figure.value <= high:
        return "unit_price"
    if figure.token.decimals == CENTS or figure.dimension == MONEY:
        return "cost"
    return "volume" if figure.token.decimals == 1 else None
