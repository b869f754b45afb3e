"""The words that a rating is told in, and is kept with.

This file decides which words of a message are a rating's own. Of tyres they say whose those are
and at which end; of a trailer or a hitch, that it rests on a pin.
"""

from __future__ import annotations

from domain.entries import COUPLING, WordsOf
from domain.reading.figures import Figure
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tow_ratings import pin_said

TYRES = "tyres"


def rated_words(scene: Scene, figure: Figure, subject: str) -> WordsOf:
    """The figure's own words, and those that say what of its subject is rated."""
    value = ("value", scene.words_between(figure.start, figure.end))
    if subject in ("trailer", "hitch"):
        pin = pin_said(scene, figure, subject)
        return (value,) if pin is None else (value, (COUPLING, pin))
    return (value, ("subject", _which_tyres(scene, figure))) if subject == TYRES else (value,)


def _which_tyres(scene: Scene, figure: Figure) -> str:
    """What the figure's clause says of its tyres, and not of another figure's.

    'trailer tires front' and 'rear' of 'trailer tires front 65 rear 70' are of one figure each,
    and both are a trailer's.
    """
    start, end = scene.clause_of(figure.start)
    named = isinstance(figure.label, Label) and figure.label.vehicle is not None
    taken: set[int] = set()
    for other in scene.figures:
        if other is not figure:
            taken.update(range(other.start, other.end))
            if isinstance(other.label, Label):
                whole = named or other.label.rating is not None
                taken.update(
                    index
                    for index in range(other.label.start, other.label.end)
                    if whole or not ENDS.isdisjoint(scene.tokens[index].senses)
                )
    own = [index for index in range(start, end) if index not in taken]
    return " ".join(scene.words_between(index, index + 1) for index in own)


ENDS = frozenset(("end", "axle", "corner"))
"""Classes of term for where the tyres of one figure are."""


def is_cargo(scene: Scene, figure: Figure) -> bool:
    """'sticker on the camper says cargo 1,846', 'says 1,846 for cargo': what it lets one carry."""
    lead = scene.tokens[figure.end : figure.end + 1]
    led = any("for" in token.groups for token in lead)
    beside = scene.tokens[max(0, figure.start - 1) : figure.end + 1 + led]
    return any("cargo_word" in token.groups for token in (*beside[:1], *beside[-1:][:led]))
