"""Several corrections in one message: 'drive is 7,040 not 7,400 and trailer is 9,860 not 9,680'.

This file decides where such a message parts, and what is said once of all its parts. What each
part corrects is decided in `corrections`.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

from domain.entries import Correction
from domain.reading.amendments import amend
from domain.reading.corrected_fields import field_of, fits_field
from domain.reading.figures import Figure
from domain.reading.fill_changed import field_by_form
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, Token

Corrector = Callable[[Scene], tuple[Correction, ...]]
"""What reads the corrections of one part."""


def several_corrected(
    scene: Scene, figures: Sequence[Figure], corrector: Corrector
) -> tuple[Correction, ...]:
    """'drive is 7,040 not 7,400 and trailer is 9,860 not 9,680': each part corrects a field."""
    parts = list(_parts(scene, figures))
    found: list[Correction] = []
    should = next(
        (token.text for token in scene.tokens if not token.groups.isdisjoint(SAID_OF_ALL)), None
    )
    for part in parts if len(parts) > 1 else ():
        one = corrector(Scene(part, scene.context, scene.book))
        if not one and found and should:
            # 'trailer should read 9,640 and drive 6,780': it is said of both
            one = corrector(Scene(f"{should} {part}", scene.context, scene.book))
        elif not one and found:
            one = _of_same_fill(scene, part, found)
        if len(one) != 1 or one[0].action != "amend":
            return ()
        if one[0].field is None and one[0].was is None:
            one = _by_form(Scene(part, scene.context, scene.book), found)
            if not one:
                return ()  # nothing tells what is meant
        found += one
    return tuple(found) if len({(one.field, one.was) for one in found}) == len(found) else ()


def _of_same_fill(scene: Scene, part: str, found: Sequence[Correction]) -> tuple[Correction, ...]:
    """'fill was 31.4 not 34.1 and the price was 3.799': what else of a fill was otherwise."""
    other = Scene(part, scene.context, scene.book)
    if len(other.figures) != 1:
        return ()
    (figure,) = other.figures
    if not any("was_so" in token.groups for token in other.tokens):
        alone = all(
            figure.start <= at < figure.end or _is_mute(t) for at, t in enumerate(other.tokens)
        )
        return _by_form(other, found) if alone else ()
    field = field_of(other, figure)
    if field not in OF_A_FILL or not fits_field(scene.context, figure, field):
        return ()
    return (amend(other, figure, field, None),)


OF_A_FILL = frozenset(("volume", "unit_price", "cost", "odometer"))


def _by_form(part: Scene, found: Sequence[Correction]) -> tuple[Correction, ...]:
    """'it was 30.1 gal and 121.90', '..., and 51,420': what else of a fill, as it is written."""
    of_fill = any(each.field in OF_A_FILL for each in found)
    if not of_fill or len(part.figures) != 1:
        return ()
    (figure,) = part.figures
    field = field_by_form(part, figure)
    return () if field is None else (amend(part, figure, field, None),)


SAID_OF_ALL = frozenset(("restates", "surely_corrects"))
"""Groups of words that are said once, of each part: 'make that 5,220 steer and 9,140 trailer'."""


def _parts(scene: Scene, figures: Sequence[Figure]) -> Iterator[str]:
    """The words of a message, parted between two of its figures: by 'and', a mark or a name.

    What is behind 'not' goes with the figure before it.
    """
    done = 0
    for one, other in pairwise(figures):
        between = range(one.end, other.start)
        if any("contrasts" in scene.tokens[index].groups for index in between):
            continue
        cut = next((index for index in between if _parts_here(scene.tokens[index])), None)
        named = other.label.start if isinstance(other.label, Label) else other.start
        if cut is not None:
            yield scene.text[done : scene.tokens[cut].start]
            done = scene.tokens[cut].end
        elif one.end <= named < other.start:  # 'make that steer 5,200 drive 6,800'
            yield scene.text[done : scene.tokens[named].start]
            done = scene.tokens[named].start
    yield scene.text[done:]


def _is_mute(token: Token) -> bool:
    return token.kind is MARK or ("glue" in token.senses and "tells_now" not in token.groups)


def _parts_here(token: Token) -> bool:
    joins = "join" in token.senses.get("glue", "").split()
    return joins or token.raw == "," or token.ends_sentence
