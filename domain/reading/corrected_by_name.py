"""A correction that says which entry it is about: 'make the 51,402 fill 24.6 gal'.

This file decides that a figure or a place names an entry, and is none of what is corrected: it
stands before the entry's noun or behind it, and what is said without it corrects something.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from domain.entries import Correction
from domain.quantities import Quantity
from domain.reading.figures import MONEY, NEXT_READING, PRICE, VOLUME, Figure
from domain.reading.lexer import clean
from domain.reading.scene import Scene
from domain.reading.tokens import NUMBER

LONGEST = 18
"""Tokens of 'sorry, can you change the fill at 51,402 to 24.6 gal, i read the pump wrong'."""

NAMES_ENTRY = frozenset(("entry_noun", "one"))
"""Groups of words for an entry that is told apart by a figure, or pointed back at."""


def corrects_named(
    scene: Scene, read: Callable[[Scene, bool], tuple[Correction, ...]]
) -> tuple[Correction, ...]:
    """'the fill at 51,402 was at Pell not Dorset': read without the name, it is a correction.

    `read` is told whether what is named must be in the log.
    """
    if len(scene.tokens) > LONGEST or "?" in scene.text:
        return ()
    for (start, end), about in _names(scene):
        behind = scene.text[scene.tokens[end - 1].end :].lstrip()
        said = clean(scene.text[: scene.tokens[start].start] + behind)
        logged = _is_logged(scene, start, end, about)
        found = read(Scene(said, scene.context, scene.book), logged)
        if found and all(each.action == "amend" for each in found):
            return tuple(_of_named(each, about) for each in found)
    return ()


def _is_logged(scene: Scene, start: int, end: int, about: Quantity | float | str) -> bool:
    """'the one at 51,402', and a reading that does not go beyond the last one: it was told before.

    What names the entry stands between `start` and `end`; 'the fill at 51,402' may be a new one,
    and none is called 'the 27.4 gal fill' before it was told.
    """
    if isinstance(about, Quantity) and about.unit in OWN_FIELD:
        return True
    beside = scene.tokens[max(0, start - 1) : start] + scene.tokens[end : end + 1]
    if any("one" in token.groups for token in beside):
        return True
    known = scene.context.odometer
    return isinstance(about, float) and known is not None and about <= known.value


def _of_named(correction: Correction, about: Quantity | float | str) -> Correction:
    """The correction of what is named; 'the 24.1 gal fill should be 24.6' says what it was."""
    field = OWN_FIELD.get(about.unit) if isinstance(about, Quantity) else None
    if isinstance(about, Quantity) and field is not None:
        value = correction.value
        if correction.field is None and isinstance(value, int | float):
            value = Quantity(value, about.unit)
        if correction.was is None and correction.field in (None, field):
            return replace(correction, field=field, value=value, was=about)
    return replace(correction, about=about)


OWN_FIELD = {"gal": "volume", "gal_imp": "volume", "L": "volume"}
"""What a figure is of that names a fill by its unit."""


def _names(scene: Scene) -> Iterator[tuple[tuple[int, int], Quantity | float | str]]:
    """What names an entry, as its tokens and a value: 'the |51,402| fill', 'the |Dorset| fill'."""
    if is_subject(scene, scene.live):
        first = scene.live[0]
        yield (0, first.end), first.value
    for figure in scene.figures:
        span = _naming(scene, figure.start, figure.end)
        if span is not None and figure.claimed is None and _can_name(scene, figure):
            yield span, Quantity(figure.value, figure.unit) if figure.unit else figure.value
    for index in scene.unknown:
        span = _naming(scene, index, index + 1)
        if span is not None:
            yield span, scene.tokens[index].raw


def _naming(scene: Scene, start: int, end: int) -> tuple[int, int] | None:
    """The tokens of what names an entry: 'the |51,402| fill', 'that fill |at 51,402|'."""
    tokens = scene.tokens
    behind = end < len(tokens) and not tokens[end].groups.isdisjoint(NAMES_ENTRY)
    if behind and (start == 0 or _points(scene, start - 1)):
        return start, end
    leads = start > 2 and not tokens[start - 1].groups.isdisjoint(LEADING)
    nouns = NAMES_ENTRY if tokens[start].kind is NUMBER else ("entry_noun",)
    if leads and not tokens[start - 2].groups.isdisjoint(nouns) and _points(scene, start - 3):
        return start - 1, end
    return None


LEADING = frozenset(("at_place", "of", "from"))
"""Groups of words between an entry and what names it: 'the fill at', 'the one from'."""


def is_subject(scene: Scene, figures: Sequence[Figure]) -> bool:
    """'51,402 should be 24.6 gal', 'for 51,402 make it 24.6 gal': a reading, and what it had.

    Another reading would be put in its place: '51,402 should be 51,420'.
    """
    if len(figures) < PAIR or figures[0].start > 1:
        return False
    named, meant = figures[:PAIR]
    said = scene.tokens[named.end].groups
    if said.isdisjoint(MENDS) or meant.dimension not in OF_A_FILL or not _can_name(scene, named):
        return False
    led = named.start == 1 and not scene.tokens[0].groups.isdisjoint(("at_place", "for"))
    return led or (named.start == 0 and "surely_corrects" not in said)


PAIR = 2
OF_A_FILL = (VOLUME, MONEY, PRICE)
"""Dimensions of what an odometer's reading can name the fill of."""

MENDS = frozenset(("restates", "sets_field", "marks_meant", "was_then", "surely_corrects"))
"""Groups of words with which it begins to be said what an entry should have been."""


def _can_name(scene: Scene, figure: Figure) -> bool:
    """An odometer's reading, a volume or a sum: what an entry is told apart by."""
    if figure.dimension in (VOLUME, MONEY):
        return True
    known = scene.context.odometer
    return (
        known is not None
        and figure.unit is None
        and figure.whole
        and abs(figure.value - known.value) <= NEXT_READING
    )


def _points(scene: Scene, index: int) -> bool:
    """'the', 'that last', 'on my': the word before what is named."""
    token, groups = scene.tokens[index], scene.book.groups
    return "points_back" in token.groups or token.text.split(" ")[-1] in groups["article"]
