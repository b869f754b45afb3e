"""What a tyre may carry, and the pressure that its maker asks for.

This file decides which figures are those of a sidewall or of the tyres' placard: 'LT235/80R17
3,195 single 2,910 dual at 80 psi'. What a gauge shows in a tyre is read in `observations`.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping
from itertools import pairwise
from operator import attrgetter

from domain.reading.figures import MASS, PRESSURE, Figure
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, NUMBER, WORD, Token
from domain.reading.tyre_sizes import TYRE_SIZE


def is_tyre_pressure(scene: Scene, figure: Figure) -> bool:
    """'placard says 35 psi front, 40 rear': what the maker asks for, and no reading of a gauge."""
    label = figure.label
    if isinstance(label, Label) and label.rating:
        return False
    if figure.dimension is None and _may_inflate(figure) and _at_its_pressure(scene, figure):
        return True
    if figure.dimension is None:
        placed = isinstance(label, Label) and bool(label.end_of or label.axle)
        if not placed or not LEAST_PSI <= figure.value <= MOST_PSI:
            return False
        tyres = scene.has("subject", "tyre") or "tyre_placard" in scene.groups
        tyres = tyres and not scene.has("subject", "hub")
        return (tyres and _is_labelled(scene, figure)) or any(
            other.role == "rating" and other.dimension == PRESSURE for other in scene.figures
        )
    if figure.dimension != PRESSURE:
        return False
    return (
        _is_labelled(scene, figure)
        or is_tyre_placard(scene)
        or _at_its_pressure(scene, figure)
        or ("most_loaded" in scene.groups and _follows_load(scene, figure))
        or ("max" in scene.groups and _is_most(scene, figure))
    )


def _follows_load(scene: Scene, figure: Figure) -> bool:
    """'tires max load 2,830 lb, 65 psi': the pressure right behind what a tyre carries."""
    loads = [each for each in scene.figures if each.end < figure.start][-1:]
    return any(
        _stands_with_load(scene, each, figure) and is_tyre_load(scene, each) for each in loads
    )


def _is_most(scene: Scene, figure: Figure) -> bool:
    """'80 psi max', 'max 80 psi', 'max cold 80 psi': what the wall says that it may hold."""
    behind = scene.tokens[figure.end : figure.end + 2]
    before = scene.tokens[max(0, figure.start - 2) : figure.start]
    near = any("max" in token.groups for token in (*before, *behind))
    return near and all(token.kind is WORD for token in (*before[-1:], *behind[:1]))


def _is_labelled(scene: Scene, figure: Figure) -> bool:
    """Whether the figure's sentence speaks of a label, before it or as 'per the door'."""
    start, end = scene.sentence_of(figure.start)
    labels = [
        index
        for index, token, _ in scene.find("rating_cue")
        if start <= index < (end if "as_labelled" in token.groups else figure.start)
        and "tyre_label" in token.groups
    ]
    if not labels:
        return _follows_ratings(scene, figure)
    told = scene.tokens[labels[-1] : figure.start]  # 'sticker says 60, we had 58'
    return figure.dimension is not None or not any("we" in token.groups for token in told)


def _follows_ratings(scene: Scene, figure: Figure) -> bool:
    """'gvwr 11,300 front gawr 5,800 tires 80 psi': behind two limits it stands on their label.

    As such labels do (49 CFR 567.4, 571.110 S4.3; from memory).
    """
    if "weigh_cue" in scene.by_class or "airs_up" in scene.groups:
        return False
    label, before = figure.label, scene.tokens[figure.start - 1]
    if (isinstance(label, Label) and label.side) or "at" in before.groups:
        return False  # 'left rear tire 62 psi', 'tires are at 72 psi': what a gauge shows
    limits = [
        each
        for each in scene.figures
        if each.role == "rating" and each.start < figure.start and each.value >= LEAST_LIMIT
    ]
    return len(limits) >= FEWEST_LIMITS


LEAST_LIMIT, FEWEST_LIMITS = 500, 2
"""Pounds or kilograms that an axle may bear at least, and how many such limits make a label."""

LEAST_PSI, MOST_PSI = 20, 130


def _at_its_pressure(scene: Scene, figure: Figure) -> bool:
    """'rated 3,195 lb at 80 psi': the pressure at which a tyre carries its rating."""
    before = scene.tokens[figure.start - 1] if figure.start else None
    if before is not None and _is_load_range(scene, figure.start - 1):
        return True
    return (
        before is not None
        and ("at" in before.groups or before.raw == "@" or "most_loaded" in before.groups)
        and (
            any(label.rating == "tyre_load" and label.bound for label in scene.labels)
            or any(is_tyre_load(scene, other) for other in scene.figures)
            or any(other.claimed == TYRE_SIZE for other in scene.figures)
        )
    )


def is_tyre_placard(scene: Scene) -> bool:
    """'FRONT LT275/70R18E 60 PSI REAR LT275/70R18E 65 PSI': a size at both ends, as on a door.

    Who reads a gauge tells no sizes.
    """
    if "/" not in scene.marks or "end" not in scene.by_class:
        return False
    widths = [f for f in scene.figures if f.claimed == TYRE_SIZE and f.value >= LEAST_WIDTH]
    inflated = [figure for figure in scene.figures if figure.dimension == PRESSURE]
    both = scene.has("end", "front") and scene.has("end", "rear")
    return both and min(len(widths), len(inflated)) >= BOTH_ENDS


LEAST_WIDTH, BOTH_ENDS = 100, 2
"""Millimetres of a tyre, and how many ends of a truck have one."""


def _is_load_range(scene: Scene, index: int) -> bool:
    """'ST235/80R16 E, 80 psi': the letter behind a tyre's size, as both stand on its wall."""
    if index and scene.tokens[index].raw == ",":
        index -= 1
    letter = scene.tokens[index].raw
    sized = any(
        each.claimed == TYRE_SIZE and 0 <= index - each.end <= LONGEST_RIM for each in scene.figures
    )
    return sized and len(letter) == 1 and letter.isalpha() and letter.isupper()


LONGEST_RIM = 3
"""Tokens behind the width and the aspect of a tyre: 'R16'."""


def is_tyre_load(scene: Scene, figure: Figure) -> bool:
    """'truck tires 3,640 lb at 80 psi': what one carries; no axle is weighed at one."""
    if figure.dimension not in (None, MASS) or figure.value < LEAST_TYRE_LOAD:
        return False
    if "weigh_cue" in scene.by_class:
        return False
    if not SINGLE_OR_DUAL.isdisjoint(scene.groups) and scene.has("rating", "tyre_load"):
        before = scene.tokens[figure.start - 1 : figure.start]
        if _heads_loads(scene) and any(token.groups & SINGLE_OR_DUAL for token in before):
            return True
    if "most_loaded" in scene.groups and _is_most_of_tyre(scene, figure):
        return True
    behind = scene.tokens[figure.end] if figure.end < len(scene.tokens) else None
    if _is_rated_tyre(scene, figure) or _of_other_end(scene, figure):
        return True
    both = scene.groups >= SINGLE_OR_DUAL  # 'max load 3,195 single 2,910 dual'
    if behind is None or not (both or scene.has("subject", "tyre")):
        return False
    if behind.groups & SINGLE_OR_DUAL and figure.value >= LEAST_OF_TWO:
        return True  # 'LT235/80R17 3,195 single 2,910 dual'
    at = figure.end + ("max" in behind.groups)  # '2,830 lb max at 65 psi'
    led = scene.tokens[at : at + 1]
    if not any("at" in token.groups or token.raw == "@" for token in led):
        return False
    return any(each.start == at + 1 and _may_inflate(each) for each in scene.figures)


def _is_most_of_tyre(scene: Scene, figure: Figure) -> bool:
    """'tyre plate says 80 psi and 3,195 lb max load', 'max load 3,195 at 80 psi': no payload."""
    label = figure.label
    if not isinstance(label, Label) or "most_loaded" not in scene.tokens[label.start].groups:
        return False
    if not LEAST_OF_TWO <= figure.value <= MOST_TYRE_LOAD:
        return False
    start, _ = scene.sentence_of(figure.start)
    first = min(label.start, figure.start)
    if any(_names_tyres(scene, index) for index in range(start, first)):
        return True
    if "rating_cue" not in scene.by_class and label.end == figure.start:
        # 'sticker says max load 3,412, tires 80 psi' is of the truck
        told = (each for each in scene.live if each.start > first)
        if any(_stands_with_load(scene, figure, each) for each in told):
            return True
    behind = scene.tokens[max(label.end, figure.end) :][:1]
    at_pressure = any("at" in token.groups or token.raw == "@" for token in behind)
    return at_pressure and any(_may_inflate(each) for each in scene.live if each.start > first)


def _stands_with_load(scene: Scene, load: Figure, pressure: Figure) -> bool:
    """'maximum load 2,830 lb, tires 65 psi', 'max load 2,830 lb, max pressure 65 psi'.

    So a wall has them, one behind the other.
    """
    between = scene.tokens[load.end : pressure.start]
    if pressure.dimension != PRESSURE or not 0 < len(between) <= LONGEST_BETWEEN:
        return False
    return all(
        token.raw == "," or "tyre" in token.senses.get("subject", "") or _is_of_pressure(token)
        for token in between
    )


def _is_of_pressure(token: Token) -> bool:
    return "max" in token.groups or token.senses.get("rating") == "pressure"


LONGEST_BETWEEN = 4
"""Tokens between what a tyre carries and its pressure."""


def _is_rated_tyre(scene: Scene, figure: Figure) -> bool:
    """'the front tires are rated 2,680 lb each', on a plate 'axles 2x7000 tires 3520'.

    No axle is named behind the tyres, or the figure would be the axle's.
    """
    at: Figure | None = figure
    for _ in range(MOST_ENDS):
        if at is None:
            return False
        rated = _tyres_before(scene, at)
        if rated is not None:
            return rated
        at = _end_before(scene, at)
    return False


def _of_other_end(scene: Scene, figure: Figure) -> bool:
    """'front tires rated 2680 each, rears 3195 each': the tyres of the other end."""
    label = figure.label
    if not isinstance(label, Label) or not LEAST_OF_TWO <= figure.value <= MOST_TYRE_LOAD:
        return False
    if not any("axle_tyres" in each.groups for each in scene.tokens[label.start : label.end]):
        return False
    each = any("each_one" in token.groups for token in scene.tokens[figure.end : figure.end + 1])
    return each and any(other.rating == "tyre_load" and other.bound for other in scene.labels)


MOST_ENDS = 4
"""Ends of a truck and its trailer, one behind the other: 'tires rated 2680 front, 3195 rear'."""

FARTHEST_TYRES = 24
"""Tokens between tyres and what they are rated, at most."""


def _tyres_before(scene: Scene, figure: Figure) -> bool | None:
    """Whether tyres that are named before a figure are rated so; None where none are."""
    if not LEAST_OF_TWO <= figure.value <= MOST_TYRE_LOAD:
        return False
    start, _ = scene.clause_of(figure.start)
    start = max(start, figure.start - FARTHEST_TYRES)
    before = (index for index in range(figure.start - 1, start - 1, -1))
    tyres = next((index for index in before if _names_tyres(scene, index)), None)
    if tyres is None:
        return None
    between = scene.tokens[tyres + 1 : figure.start]
    if not between and "rating" in scene.tokens[tyres].senses:
        return True
    if any(token.kind is NUMBER for token in between):
        return None
    if any(not AXLES.isdisjoint(token.senses) for token in between):
        return False
    if any("rating_cue" in token.senses for token in between):
        return True
    return not between and any(label.rating and label.bound for label in scene.labels)


def _end_before(scene: Scene, figure: Figure) -> Figure | None:
    """'tires rated 2680 front, 3195 rear': the figure of the other end, right before this one."""
    place = bisect_left(scene.figures, figure.start, key=attrgetter("start"))
    before = scene.figures[place - 1] if place else None
    label = figure.label
    if before is None or not isinstance(label, Label) or label.start < figure.end:
        return None
    between = scene.tokens[before.end : figure.start]
    placed = all(
        (token.kind is MARK and not token.ends_sentence)
        or "end" in token.senses
        or "and" in token.groups
        for token in between
    )
    return before if label.end_of is not None and placed else None


def _names_tyres(scene: Scene, index: int) -> bool:
    """'tires', and 'drive tires', which on a scale are an axle."""
    token = scene.tokens[index]
    known = scene.book.words
    if token.senses.get("rating") == "tyre_load":
        return True
    return "tyre" in token.senses.get("subject", "").split() or (
        "axle" in token.senses
        and any(known.get(word, {}).get("subject") == "tyre" for word in token.text.split())
    )


AXLES = frozenset(("axle", "axle_noun", "whole", "odometer"))
"""Classes of term for what a figure is of that is no tyre's."""

MOST_TYRE_LOAD = 8000
"""Pounds or kilograms: no tyre of a pickup or its trailer carries more."""


def _may_inflate(figure: Figure) -> bool:
    """Whether a figure is a tyre's pressure, with its unit or of the size of one."""
    bare = figure.dimension is None and LEAST_PSI <= figure.value <= MOST_PSI
    return bare or figure.dimension == PRESSURE


LEAST_TYRE_LOAD = 500
"""Pounds or kilograms: no tyre of a pickup or its trailer carries less."""

LEAST_OF_TWO = 1000
"""Pounds or kilograms: less before 'single' or 'dual' may be what the tyres cost."""

SINGLE_OR_DUAL = frozenset(("single_tyre", "dual_tyre"))


def load_index_pairs(scene: Scene) -> Mapping[int, str]:
    """'truck tyres 121/118': where a load index starts, and how the tyre stands that it is of.

    A light truck's tyre has two, for one alone and for one of two side by side, which may bear a
    little less: 1 to 5 steps (ETRTO Standards Manual and 49 CFR 571.119 S5.1; from memory). No
    pressures of a pair go with it: who reads a gauge reads it of each tyre, or says its unit.
    """
    if "/" not in scene.text or not (scene.has("subject", "tyre") or scene.has("rating")):
        return {}
    found: dict[int, str] = {}
    gauged = scene.book.groups["temps_word"] | scene.book.groups["pressure_word"]
    live = [figure for figure in scene.figures if figure.claimed != TYRE_SIZE]
    for at, (single, dual) in enumerate(pairwise(live)):
        if dual.start == single.end + 1 and _has_speed_symbol(scene, dual):
            dual.value, dual.unit, dual.dimension = dual.token.value, None, None
        if not (_is_index(scene, single) and _is_index(scene, dual)):
            continue
        if dual.start != single.end + 1 or scene.tokens[single.end].raw != "/":
            continue
        behind = scene.tokens[dual.end : dual.end + 1]
        if not gauged.isdisjoint(scene.words_between(0, single.start).casefold().split()):
            return {}  # 'tire temps 121/118', 'tire pressure 110/108'
        in_row = behind and behind[0].raw == "/"  # 'tires 110/108/109/110'
        if in_row or (at and found.get(live[at - 1].start)):
            continue
        if LEAST_STEP <= single.value - dual.value <= MOST_STEPS:
            found[single.start], found[dual.start] = "single", "dual"
    return found


def _has_speed_symbol(scene: Scene, figure: Figure) -> bool:
    """'121/118R': the letter typed to an index says how fast the tyre may turn, and is no unit."""
    low, high = PAIRED_INDEX
    named = scene.tokens[figure.end - 1].raw in SPEED_SYMBOLS
    return named and figure.dimension is not None and low <= figure.token.value <= high


SPEED_SYMBOLS = frozenset("LMNPQRST")
"""120 to 190 km/h, as tyres of light trucks have them (UN Regulation 54, table 2; from memory)."""


def _is_index(scene: Scene, figure: Figure) -> bool:
    """Whether a figure may be a load index of a light truck's tyre, and is no gauge's."""
    low, high = PAIRED_INDEX
    if figure.dimension is not None or not figure.whole or not low <= figure.value <= high:
        return False
    label = figure.label if isinstance(figure.label, Label) else None
    return label is None or label.subject in (None, "tyre")  # 'hubs 121/118'


PAIRED_INDEX = (98, 150)
"""Load indexes that are stamped in pairs: 750 to 3,350 kg, of light trucks and their trailers."""

LEAST_STEP, MOST_STEPS = 1, 5


def how_mounted(scene: Scene, figure: Figure) -> str | None:
    """'3,195 single 2,910 dual', 'max load dual 2910': how a tyre stands that carries so much."""
    label = figure.label
    named = label.start if isinstance(label, Label) and label.rating else figure.start
    said = scene.tokens[named : figure.start] or scene.tokens[figure.start - 1 : figure.start]
    if not _heads_loads(scene):
        said = [*scene.tokens[figure.end : figure.end + 1], *scene.tokens[named : figure.start]]
    words = {word for token in said for word in token.text.split()}
    for how, group in (("single", "single_tyre"), ("dual", "dual_tyre")):
        if words & scene.book.groups[group]:
            return how
    return None


def _heads_loads(scene: Scene) -> bool:
    """'max load dual 2,910 single 3,195': how a tyre stands is said before what it carries."""
    mounted = scene.book.groups["single_tyre"] | scene.book.groups["dual_tyre"]
    first = next((each.start for each in scene.figures if each.value >= LEAST_OF_TWO), 0)
    return any(not mounted.isdisjoint(token.text.split()) for token in scene.tokens[:first])
