"""What a message takes back in its own words: 'steer 5,360, no sorry, 5,460'.

This file decides which figure stands in the place of an earlier one of the same message, and
which of two names is meant. Whether a message takes back what an earlier one said is decided
in `corrections`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import Figure
from domain.reading.tokens import MARK, NO_GROUPS, NUMBER, WORD, Token

FILLER = {"glue": "filler"}
"""What a word says that was taken back, or that takes back."""

SAID = ("axle", "vehicle", "whole", "odometer", "unit", "subject", "name")
"""Classes of term that say which figure is put right: '..., sorry, drive 6,890'."""

NEAR = 3
"""Tokens from a figure to the word that says what it is, at most."""

ALIKE = (0.5, 2.0)
ONE_DIGIT = (9.0, 11.0)
"""What a figure put right is to the one before: about as large, or one digit longer or shorter."""


def take_back_words(tokens: Sequence[Token]) -> bool:
    """Keep the second of two names or axles that a word for a slip stands between.

    Whether there were any. 'hooked up the camper, i mean the flatdeck'. Where neither a figure
    nor a hitch is told, the message corrects an earlier one.
    """
    if not any(token.kind is NUMBER or "hitch" in token.senses for token in tokens):
        return False
    taken = False
    for index, token in enumerate(tokens):
        if "takes_back" not in token.groups:
            continue
        first = next((at for at in range(index - 1, -1, -1) if not _small(tokens[at])), None)
        second = next((at for at in range(index + 1, len(tokens)) if not _small(tokens[at])), None)
        if first is None or second is None:
            continue
        said, meant = tokens[first].senses, tokens[second].senses
        if "name" in said and "name" in meant:  # the verb is beside the first
            tokens[first].senses, tokens[second].senses, taken = meant, FILLER, True
        elif "axle" in said and "axle" in meant and "copula" not in token.senses.get("glue", ""):
            tokens[first].senses, taken = FILLER, True  # the figure is beside the second
    return taken


def _small(token: Token) -> bool:
    """Whether a mark, an article or another word that takes back stands there."""
    return token.kind is MARK or bool(token.groups & {"article", "takes_back", "no_alone"})


def take_back_figures(tokens: Sequence[Token], figures: Sequence[Figure]) -> bool:
    """Put a figure behind a word for a slip in the place of the earlier one that it is like.

    Whether there were any. The second is claimed; the word and what names it anew say no more.
    """
    taken = False
    for at in range(1, len(figures)):
        second = figures[at]
        cue = _cue_before(tokens, figures[at - 1].end, second.start)
        if cue is None or second.claimed is not None:
            continue
        named = [token for token in tokens[cue : second.start] if _says(token)]
        first = _meant(tokens[:cue], figures[:at], second, named)
        if first is None:
            continue
        first.value, first.token = second.value, second.token
        if second.dimension is not None:
            first.unit, first.dimension = second.unit, second.dimension
        second.claimed = "a figure put right on the spot"
        for index in range(cue, second.start):
            if tokens[index].kind is WORD:
                tokens[index].senses, tokens[index].groups = FILLER, NO_GROUPS
        taken = True
    return taken


def _cue_before(tokens: Sequence[Token], start: int, end: int) -> int | None:
    """Where words for a slip begin between two figures, where nothing else stands behind them."""
    cue = None
    for index in range(end - 1, start - 1, -1):
        token = tokens[index]
        if token.groups & {"takes_back", "no_alone"}:
            cue = index
        elif not (token.kind is MARK or "glue" in token.senses or (cue is None and _says(token))):
            break
    return cue


def _says(token: Token) -> bool:
    return token.kind is WORD and any(term_class in token.senses for term_class in SAID)


def _meant(
    said: Sequence[Token], earlier: Sequence[Figure], second: Figure, named: Sequence[Token]
) -> Figure | None:
    """The earlier figure that another one is put in the place of, amid what was `said` before."""
    for first in reversed(earlier):
        measured = first.dimension is None or second.dimension in (None, first.dimension)
        if first.claimed is not None or not measured or not _alike(first, second):
            continue
        if all(_named_so(said, first, word) for word in named):
            return first
    return None


def _alike(first: Figure, second: Figure) -> bool:
    if first.value <= 0 or second.value <= 0 or first.value == second.value:
        return False
    ratio = second.value / first.value
    low, high = ONE_DIGIT
    return ALIKE[0] < ratio < ALIKE[1] or low < ratio < high or low < 1 / ratio < high


def _named_so(tokens: Sequence[Token], figure: Figure, word: Token) -> bool:
    """Whether a word that says the same stands beside a figure, before any other figure."""
    for step in (-1, 1):
        index = figure.start - 1 if step < 0 else figure.end
        for _ in range(NEAR):
            if not 0 <= index < len(tokens) or tokens[index].kind is NUMBER:
                break
            if any(
                each in word.senses and word.senses[each] == tokens[index].senses.get(each)
                for each in SAID
            ):
                return True
            index += step
    return False
