"""Two names with one figure: 'steer and drive 12,240', 'truck and trailer 19,660'.

This file decides when two labels beside each other name one load, and makes one label of them.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise, takewhile

from domain.reading.figures import TONS, Figure
from domain.reading.label import NAMING, Label
from domain.reading.tokens import NUMBER, WORD, Token


def truck_as_one(
    tokens: Sequence[Token], figures: Sequence[Figure], labels: list[Label]
) -> list[Label]:
    """'steer+drive 12,240': two axles with one figure are the truck as one."""
    for first, second in pairwise(labels):
        if second.start - first.end != 1 or not _are_trucks_axles(tokens, first, second):
            continue
        if "and" not in tokens[first.end].groups and tokens[first.end].raw != "/":
            continue
        if tokens[first.end].raw == "/" and _heads_columns(tokens, second):
            continue
        starts = sorted(figure.start for figure in figures if figure.claimed is None)
        following = next((label.start for label in labels if label.start > second.start), 1 << 30)
        if "together" in tokens[min(second.end, len(tokens) - 1)].groups:
            following = 1 << 30
        between = [start for start in starts if second.end <= start < following][:2]
        if len(between) == 2 and _are_joined(tokens, *between):
            continue  # 'fronts and rears 5,180 and 6,920'
        between = between[:1]
        before = [start for start in starts if start < first.start]
        if len(between) == 1 or (not between and before):
            first.axle, first.end_of, first.vehicle = None, None, "truck"
            first.end = second.end
            first.aside = False  # 'with the steers and drives together' is what was weighed
            labels.remove(second)
            _absorb_together(tokens, first, labels)
            break
    return labels


def leave_together(tokens: Sequence[Token], figures: Sequence[Figure], labels: list[Label]) -> None:
    """'steer 5,180, drive + trailer 16,740': what two of another vehicle bear is no one's load.

    The figure may stand before both: '16,740 on the drive and trailer, 5,180 steer'.
    """
    for first, second in pairwise(labels):
        joined = tokens[first.end : second.start]
        if len(joined) == WITH_ARTICLE and "article" in joined[1].groups:
            joined = joined[:1]  # 'on the drive and the trailer'
        if len(joined) != 1 or "and" not in joined[0].groups or not _are_apart(first, second):
            continue
        others = [label.start for label in labels if label.start > second.start]
        others = [at for at in others if "together" not in tokens[at].groups]
        end = min(others, default=len(tokens))
        behind = [label for label in labels if label.start == end]
        own = [
            each
            for each in figures
            if second.end <= each.start < end
            and not any(_leads_to(tokens, each, label) for label in behind)
        ]
        named = {label.end for label in labels} if own else set()
        before = [f for f in figures if _leads_to(tokens, f, first)]
        if before and _has_its_own(tokens, second):
            continue
        own += [f for f in before if f.start not in named]
        if len(own) == 1 and own[0].value >= LEAST_OF_BOTH:
            first.axle = first.end_of = first.vehicle = None
            first.whole, first.end, first.of_both = "ignored", second.end, True
            labels.remove(second)
            _absorb_together(tokens, first, labels)
            return


def _has_its_own(tokens: Sequence[Token], label: Label) -> bool:
    """'6,210 back and the camper has 8,900 on its axles': the second is told with its load."""
    behind = tokens[label.end : label.end + 2]
    has = [token.kind is WORD and "copula" in token.senses.get("glue", "") for token in behind[:1]]
    return has == [True] and behind[-1].kind is NUMBER


WITH_ARTICLE = 2
"""Tokens: 'and the'."""


def _are_apart(first: Label, second: Label) -> bool:
    """The truck's drive axle and its trailer, whichever is named first."""
    drive, trailer = (second, first) if first.vehicle else (first, second)
    named = trailer.vehicle == "trailer" and (trailer.only_vehicle or trailer.only_its_axles)
    behind = drive.axle == "drive" or (drive.only_end and drive.end_of == "rear")
    return named and behind and not drive.vehicle


def _leads_to(tokens: Sequence[Token], figure: Figure, label: Label) -> bool:
    """'6,900 drive', '6,900 on the drive': the label's own figure stands before it."""
    between = tokens[figure.end : label.start]
    return 0 <= label.start - figure.end <= 1 and all(t.kind is WORD for t in between)


def rig_as_one(tokens: Sequence[Token], labels: list[Label]) -> list[Label]:
    """'18,480 for truck and camper together': both vehicles with one figure are the gross."""
    for first, second in pairwise(labels):
        both = {first.vehicle, second.vehicle} == {"truck", "trailer"}
        if not (both and first.only_vehicle and second.only_vehicle):
            continue
        joined = tokens[first.end : second.start]
        behind = tokens[second.end] if second.end < len(tokens) else None
        as_one = behind is not None and "together" in behind.groups
        as_one = as_one or have_one_load(tokens, second.end) or _one_before(tokens, first.start)
        if len(joined) == WITH_ARTICLE and "article" in joined[1].groups:
            joined = joined[:1]  # 'Juniper and the camper'
        towed = len(joined) == 1 and "with" in joined[0].groups and first.vehicle == "truck"
        towed = towed and _bears_both(tokens, second.end)
        if towed or (as_one and len(joined) == 1 and "joins_vehicles" in joined[0].groups):
            first.vehicle = first.name = None
            first.whole, first.end, first.of_both = "gross", second.end, True
            labels.remove(second)
            _absorb_together(tokens, first, labels)
            break
    return labels


def _bears_both(tokens: Sequence[Token], index: int) -> bool:
    """'Juniper with Clover behind 8,640': the load is of both, and all others are a part of it."""
    while index < len(tokens) and "stands_behind" in tokens[index].groups:
        index += 1
    parts = [at for at in _loads(tokens) if at >= index][1:]
    return have_one_load(tokens, index) and all(_of_it(tokens, at) for at in parts)


def have_one_load(tokens: Sequence[Token], index: int) -> bool:
    """'vehicle + trailer 3,660 kg': one load follows two vehicles, and no row of them.

    Of several the first is theirs where the next thing said is what stood alone: 'truck and camper
    18,940, truck alone 9,820', or where the others are what an axle of it bears.
    """
    while index < len(tokens) and _says_load(tokens[index]):
        index += 1
    loads = _loads(tokens)
    if index not in loads:
        return False
    following = next((at for at in loads if at > index), len(tokens))
    behind = tokens[index + 1 : following]
    alone = any(t.senses.get("rig") in ALONE or "truck_alone" in t.groups for t in behind)
    return alone or len(loads) == 1 or _are_parts(tokens, index, loads)


def _says_load(token: Token) -> bool:
    """'is', 'came in at', 'scaled'."""
    return "weigh_cue" in token.senses or "copula" in token.senses.get("glue", "").split()


def _are_parts(tokens: Sequence[Token], whole: int, loads: Sequence[int]) -> bool:
    """'truck and trailer 25,460, 7,900 of that on the drives': all behind it are an axle's."""
    if loads[0] != whole:
        return False
    if _in_turn(tokens, *loads[:2]):
        return False
    return all(
        tokens[at].value < tokens[whole].value and (_of_axle(tokens, at) or _of_it(tokens, at))
        for at in loads[1:]
    )


def _in_turn(tokens: Sequence[Token], first: int, second: int) -> bool:
    """'truck and trailer 12,400 and 9,800 on the trailer axles': the load of each of the two."""
    joined = [token for token in tokens[first + 1 : second] if "unit" not in token.senses]
    near = tokens[second + 1 : second + FARTHEST_AXLE]
    own = any("axle" in token.senses for token in near) or _of_it(tokens, second)
    return len(joined) == 1 and "and" in joined[0].groups and not own


def _of_it(tokens: Sequence[Token], load: int) -> bool:
    """'7,900 of that', '7,900 lb of it'."""
    behind = [token for token in tokens[load + 1 : load + 4] if "unit" not in token.senses]
    return len(behind) > 1 and "of" in behind[0].groups and "points_at_a_thing" in behind[1].groups


def _of_axle(tokens: Sequence[Token], load: int) -> bool:
    """Whether an axle, and no other figure, stands beside a load: 'drives 7,900'."""
    behind = takewhile(_goes_on, tokens[load + 1 : load + FARTHEST_AXLE])
    ahead = takewhile(_goes_on, reversed(tokens[max(0, load - FARTHEST_AXLE) : load]))
    return any(not AXLES.isdisjoint(token.senses) for token in (*behind, *ahead))


def _goes_on(token: Token) -> bool:
    return token.kind is WORD


AXLES = frozenset(("axle", "axle_noun"))

FARTHEST_AXLE = 6
"""Tokens: '7,900 lb of that on the drives'."""


def _one_before(tokens: Sequence[Token], start: int) -> bool:
    """'just Juniper 9,060, Juniper and camper 19,140': one alone was told with its load before."""
    ahead = tokens[:start]
    alone = any(t.senses.get("rig") in ALONE or "alone_word" in t.groups for t in ahead)
    return alone and any(map(_is_load, ahead))


ALONE = ("solo", "trailer")
"""How one of the two stood on the scale without the other."""


def _is_load(token: Token) -> bool:
    return token.kind is NUMBER and token.decimals <= 0 and token.value >= LEAST_OF_BOTH


def _loads(tokens: Sequence[Token]) -> list[int]:
    """Where the numbers stand that may be what both weigh; beside tonnes no number without them."""
    indexes = range(len(tokens))
    in_tonnes = [at for at in indexes if _is_in_tonnes(tokens, at)]
    return in_tonnes or [at for at in indexes if _is_load(tokens[at])]


def _is_in_tonnes(tokens: Sequence[Token], index: int) -> bool:
    """'3.98 tonnes'."""
    token, behind = tokens[index], tokens[index + 1 : index + 2]
    tonnes = bool(behind) and behind[0].senses.get("unit") in TONS
    return tonnes and token.kind is NUMBER and 1 <= token.value <= MOST_TONNES


MOST_TONNES = 25
"""More than a pickup and its trailer weigh."""

LEAST_OF_BOTH = 1_000
"""Pounds or kilograms: no truck and trailer weigh less."""


def _are_joined(tokens: Sequence[Token], first: int, second: int) -> bool:
    """Whether nothing but 'and' or a slash stands between two figures, and their units."""
    between = tokens[first + 1 : second]
    return any("and" in token.groups or token.raw == "/" for token in between) and all(
        "and" in token.groups or token.raw == "/" or "unit" in token.senses for token in between
    )


def _are_trucks_axles(tokens: Sequence[Token], first: Label, second: Label) -> bool:
    """Steer and drive; 'front and rear' are they where it says that they stood together."""
    if (first.axle, second.axle) == ("steer", "drive"):
        return True
    behind = tokens[second.end] if second.end < len(tokens) else None
    if behind is None or "together" not in behind.groups:
        return False
    front = first.only_end and first.end_of == "front"
    return front and (second.axle == "drive" or (second.only_end and second.end_of == "rear"))


def _heads_columns(tokens: Sequence[Token], label: Label) -> bool:
    """'steer/drive/trailer': a third heading in the row, so the first two are not one."""
    behind = tokens[label.end : label.end + 2]
    return len(behind) == 2 and behind[0].raw == "/" and not NAMING.isdisjoint(behind[1].senses)


def _absorb_together(tokens: Sequence[Token], truck: Label, labels: list[Label]) -> None:
    """'steers and drives together 11,760': the word says again that they are one."""
    for label in labels:
        if label.start == truck.end and "together" in tokens[label.start].groups:
            truck.end = label.end
            labels.remove(label)
            return
