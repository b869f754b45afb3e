"""Several figures of the last fill changed at once: 'change last fill to 24.6 gal at 3.799'.

This file decides that a message asks for it in so many words, says what it should be, or tells a
fill anew beside what was wrong of it ('sorry that was 24.7 gal not 27.4 at 51,420'), and which
field each figure is of.
One figure that is set is read in `corrections`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.entries import Correction
from domain.reading.amendments import amend
from domain.reading.figures import MONEY, PRICE, VOLUME, Figure, follows_odometer
from domain.reading.fill_roles import price_band
from domain.reading.scene import Scene
from domain.reading.tokens import CENTS, MARK

FEWEST = 2
LONGEST = 16
"""Tokens of such a message."""

LATEST = 3
"""Tokens in which the verb stands: 'can you please change ...'."""

CHANGING = frozenset(
    ("changes_field", "restates", "surely_corrects", "contrasts", "opens_correction")
)
"""Groups of words of which one stands where several figures of a fill are changed."""

Told = tuple[Figure, Figure | None]
"""What a figure should be, and what it was."""


def fill_changed(scene: Scene) -> tuple[Correction, ...]:
    """A correction for each figure; none where the message asks for something else."""
    live = [figure for figure in scene.figures if figure.claimed is None]
    if len(live) < FEWEST or len(scene.tokens) > LONGEST:
        return ()
    told = _with_mistakes(scene, live)
    if len(told) < FEWEST:
        return ()  # 'fuel was 25.9 not 29.5'
    if not (_is_asked(scene, live[0]) or _is_told_anew(scene, live, told)):
        return ()
    if _names_fill(scene, told[0]):
        del told[0]
    fields = [field_by_form(scene, figure) for figure, _ in told]
    if None in fields or len(set(fields)) < len(fields):
        return ()
    fields = [
        None if was and {figure.unit, was.unit} == {None} and field == "volume" else field
        for (figure, was), field in zip(told, fields, strict=True)
    ]  # 'it was 31.4 not 34.1': what it was tells which figure is meant
    return tuple(
        amend(scene, figure, field, was) for (figure, was), field in zip(told, fields, strict=True)
    )


def _with_mistakes(scene: Scene, live: Sequence[Figure]) -> list[Told]:
    """Each figure with the one behind 'not': '24.7 gal not 27.4'."""
    told: list[Told] = []
    end = 0
    for figure in live:
        between = scene.tokens[end : figure.start]
        end = figure.end
        said = [token for token in between if token.raw != ","]
        denied = len(said) == 1 and "contrasts" in said[0].groups
        if denied and told and told[-1][1] is None and _are_alike(told[-1][0], figure):
            told[-1] = (told[-1][0], figure)
        else:
            told.append((figure, None))
    return told


def _are_alike(meant: Figure, was: Figure) -> bool:
    """'24.7 gal not 27.4', and not '24.7 gal, not 5 in the can'."""
    return meant.value <= MOST_OFF * was.value and was.value <= MOST_OFF * meant.value


MOST_OFF = 2
"""What a figure is to what was told in its place, at most."""


def _is_asked(scene: Scene, first: Figure) -> bool:
    """'change last fill to ...', 'last fill should be ...': asked for, or said, of that fill."""
    tokens = scene.tokens
    verbs = [at for at, token in enumerate(tokens[:LATEST]) if "changes_field" in token.groups]
    should = first.start - 1
    if verbs:
        named = tokens[verbs[0] + 1 : first.start]
    elif should > 0 and "restates" in tokens[should].groups:
        named = tokens[:should]  # 'last fill should be 26.1 gal at 3.799'
    else:
        return False
    fill = any("fuel_cue" in token.senses or "of_fill" in token.groups for token in named)
    return fill and any("points_back" in token.groups for token in named)


def _is_told_anew(scene: Scene, live: Sequence[Figure], told: Sequence[Told]) -> bool:
    """'make that 24.7 gal at 51,420', '24.7 gal not 27.4, 51,420': the figures, and no more."""
    named = "fuel_cue" in scene.by_class
    if not (named or any(figure.dimension == VOLUME for figure in live)):
        return False
    inside = {at for figure in live for at in range(figure.start, figure.end)}
    return (_is_mended(scene, live[0]) or any(was for _, was in told)) and all(
        at in inside
        or token.kind is MARK
        or not (SMALL.isdisjoint(token.senses) or "tells_now" in token.groups)
        or "entry_noun" in token.groups
        or token.text in scene.book.keys["corrected_field"]
        for at, token in enumerate(scene.tokens)
    )


SMALL = frozenset(("glue", "correction", "ordinal"))
"""Classes of term that say nothing of their own beside the figures of a fill."""


def _is_mended(scene: Scene, first: Figure) -> bool:
    """'make that', 'that should have been', 'sorry that was': what is told was told wrongly."""
    ahead = scene.tokens[: first.start]
    if any(not token.groups.isdisjoint(MENDS) for token in ahead):
        return True
    back = len(ahead) > 1 and "was_so" in ahead[-1].groups and "points_back" in ahead[-2].groups
    return back and any("opens_correction" in token.groups for token in ahead)


MENDS = frozenset(("changes_field", "restates", "surely_corrects"))
"""Groups of words that put right whatever stands behind them."""


def _names_fill(scene: Scene, first: Told) -> bool:
    """'the 24.6 gal was at 51,402 not 51,204': a volume that tells which fill is meant."""
    volume, was = first
    if volume.start != 1 or "article" not in scene.tokens[0].groups or was is not None:
        return False
    said = scene.tokens[volume.end].text.partition(" ")[0]  # 'was at' is one
    return volume.dimension == VOLUME and said in scene.book.groups["was_so"]


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
