"""Labels, and which figure each belongs to.

This file decides what 'trailer left rear' names and whether the figure before or behind it is
meant. A label is a run of words that name one thing; labels and figures alternate, and the
cheapest pairing of neighbours wins: punctuation between costs, a colon or 'is' or 'on the'
speaks for a pair, and people keep to one order within a message. It does not decide what is
kept; that takes the figures' plausibility and the chat's context.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from domain.reading.figures import (
    DISTANCE,
    ECONOMY,
    LENGTH,
    MASS,
    MONEY,
    PRESSURE,
    ROTATION,
    SHARE,
    SPEED,
    TEMPERATURE,
    VOLUME,
    Figure,
)
from domain.reading.phrasebook import Senses
from domain.reading.tokens import BREAK, MARK, WORD, Token

LABEL_CLASSES = (
    "axle",
    "end",
    "side",
    "corner",
    "ordinal",
    "vehicle",
    "name",
    "axle_noun",
    "whole",
    "odometer",
    "trip_meter",
    "dash",
    "subject",
    "rating",
    "rating_subject",
    "ticket",
    "fee",
)


class Label:
    """What a run of words names: a place on the rig, a field, a gauge or a rating."""

    __slots__ = (
        "aside",
        "axle",
        "bound",
        "compound",
        "end",
        "end_of",
        "field",
        "name",
        "ordinal",
        "rating",
        "rating_subject",
        "side",
        "start",
        "subject",
        "vehicle",
        "wheel",
        "whole",
    )

    def __init__(self, start: int) -> None:
        self.start = start
        self.end = start + 1
        self.axle: str | None = None
        self.end_of: str | None = None
        self.side: str | None = None
        self.ordinal: int | None = None
        self.vehicle: str | None = None
        self.name: str | None = None
        self.whole: str | None = None
        self.wheel: str | None = None
        self.field: str | None = None
        self.subject: str | None = None
        self.rating: str | None = None
        self.rating_subject: str | None = None
        self.bound: Figure | None = None
        self.compound = False
        self.aside = False

    @property
    def places(self) -> bool:
        """Whether it names a place on the rig that can carry a load."""
        return bool(
            self.axle
            or self.end_of
            or self.side
            or self.ordinal
            or self.vehicle
            or self.whole
            or self.wheel
        )

    @property
    def only_vehicle(self) -> bool:
        """Whether it names a vehicle and nothing on it."""
        return bool(self.vehicle) and not (
            self.axle
            or self.end_of
            or self.side
            or self.ordinal
            or self.wheel
            or self.subject
            or self.rating
            or self.field
        )


def find_labels(tokens: Sequence[Token], figures: Sequence[Figure]) -> list[Label]:
    """Every label of a message, in order; words that belong to a figure are not labels."""
    taken = [False] * len(tokens)
    for figure in figures:
        for index in range(figure.start, figure.end):
            taken[index] = True
    labels: list[Label] = []
    current: Label | None = None
    for index, token in enumerate(tokens):
        if taken[index]:
            figure_ordinal = _axle_number(tokens, index, current, figures)
            if figure_ordinal is not None and current is not None:
                current.ordinal = figure_ordinal
                current.end = index + 1
            else:
                current = None
            continue
        senses = token.senses
        if senses and _names_something(senses) and not _is_leaving(tokens, index):
            if (
                current is not None
                and current.end >= index - 2
                and _joins(tokens, current.end, index)
                and _extend(current, token, of=index > current.end)
            ):
                current.end = index + 1
                continue
            current = Label(index)
            if _extend(current, token):
                current.compound = _is_compound(tokens, index)
                current.aside = _is_aside(tokens, index)
                labels.append(current)
            else:
                current = None
        elif current is not None and not (
            "joins_label" in token.groups and index - current.end <= 1
        ):
            current = None
    _rear_alone(tokens, labels)
    return _truck_as_one(tokens, figures, labels)


def _rear_alone(tokens: Sequence[Token], labels: Sequence[Label]) -> None:
    """'frnt 5020 rr 6310': one 'rr' without other corners is the rear, not the right rear."""
    corners = [label for label in labels if label.side]
    if len(corners) == 1 and "rear_or_right" in tokens[corners[0].start].groups:
        corners[0].side = None


def _truck_as_one(
    tokens: Sequence[Token], figures: Sequence[Figure], labels: list[Label]
) -> list[Label]:
    """'steer+drive 12,240': two axles with one figure are the truck as one."""
    starts = sorted(figure.start for figure in figures if figure.claimed is None)
    for first, second in pairwise(labels):
        if (first.axle, second.axle) != ("steer", "drive") or second.start - first.end != 1:
            continue
        if "and" not in tokens[first.end].groups and tokens[first.end].raw != "/":
            continue
        following = next((label.start for label in labels if label.start > second.start), 1 << 30)
        between = [start for start in starts if second.end <= start < following]
        before = [start for start in starts if start < first.start]
        if len(between) == 1 or (not between and before):
            first.axle, first.vehicle, first.end = None, "truck", second.end
            labels.remove(second)
            break
    return labels


_NAMING = frozenset(LABEL_CLASSES)


def _names_something(senses: Senses) -> bool:
    return not _NAMING.isdisjoint(senses)


def _is_leaving(tokens: Sequence[Token], index: int) -> bool:
    """'left at 48,211' is no side; 'left 2,640', 'left front' and 'left side' are."""
    senses = tokens[index].senses
    if "side" not in senses or "event" not in senses:
        return False
    following = tokens[index + 1] if index + 1 < len(tokens) else None
    if following is None or following.kind is not WORD:
        return False
    beside = following.senses.keys() & (_NAMING | {"check_item", "unit"})
    return not beside and "behind_side" not in following.groups


def _is_aside(tokens: Sequence[Token], index: int) -> bool:
    """'with the gooseneck on': it says how the rig stood, and carries no figure."""
    before = index - 1
    if before >= 1 and "our" in tokens[before].groups:
        before -= 1
    if before < 0:
        return False
    # 'hitched the flatdeck, 48011'
    return "hitch" in tokens[before].senses or "tows" in tokens[before].groups


def _is_compound(tokens: Sequence[Token], index: int) -> bool:
    """'debit pin', 'fish tank': a noun before the label makes it another thing's name."""
    before = tokens[index - 1] if index else None
    return (
        before is not None
        and before.kind is WORD
        and not before.senses
        and before.raw.islower()
        and not before.possessive
    )


def _joins(tokens: Sequence[Token], start: int, end: int) -> bool:
    return all("joins_label" in tokens[index].groups for index in range(start, end))


def _axle_number(
    tokens: Sequence[Token], index: int, current: Label | None, figures: Sequence[Figure]
) -> int | None:
    """The number in 'Axle 3: 1120 kg', which is part of the label and no figure."""
    if current is None or current.end != index or not current.wheel or current.ordinal:
        return None
    for figure in figures:
        if figure.start == index:
            following = tokens[figure.end] if figure.end < len(tokens) else None
            small = figure.whole and 1 <= figure.value <= 6 and figure.unit is None
            names = following is not None and following.kind not in (WORD, BREAK)
            if small and figure.end == index + 1 and names:
                figure.claimed = "an axle's number"
                return int(figure.value)
            if small and figure.end == index + 1 and following is not None:
                nearby = any(other.start in (figure.end, figure.end + 1) for other in figures)
                if nearby:
                    figure.claimed = "an axle's number"
                    return int(figure.value)
    return None


def _extend(label: Label, token: Token, *, of: bool = False) -> bool:
    """Add a word to a label; False where it would contradict what the label names.

    `of` says that a small word stands between: 'front axle of the trailer'.
    """
    senses = token.senses
    if "together" in token.groups and (label.wheel or label.vehicle == "truck") and not label.whole:
        return label.vehicle is not None
    if of and (label.axle or label.whole) and not label.vehicle:
        if "name" in senses:
            label.vehicle, _, label.name = senses["name"].partition(":")
            return True
        if "vehicle" in senses:
            label.vehicle = senses["vehicle"]
            return True
    if "rating" in senses and label.rating is None:
        if label.whole or label.field or label.subject:
            return False
        label.rating = senses["rating"].split()[0]
        return True
    if "axle" in senses:
        if label.axle or label.end_of or label.whole or label.field or label.rating:
            return False
        label.axle = senses["axle"]
        return True
    if "corner" in senses:
        if label.side or label.end_of or label.axle or label.whole:
            return False
        label.side, _, label.end_of = senses["corner"].partition("_")
        return True
    if "side" in senses:
        if label.side or label.whole or label.rating:
            return False
        label.side = senses["side"]
        return True
    if "end" in senses:
        if label.end_of or label.axle or label.whole:
            return False
        label.end_of = senses["end"]
        return True
    if "whole" in senses:
        if label.places or label.field or label.rating:
            return False
        label.whole = senses["whole"]
        return True
    if "name" in senses:
        if label.name or label.whole or (label.vehicle and label.axle):
            return False
        vehicle, _, label.name = senses["name"].partition(":")
        if label.vehicle and label.vehicle != vehicle:
            return False
        label.vehicle = vehicle
        return True
    if "subject" in senses:
        if label.subject or label.field or label.rating or label.whole or label.axle:
            return False
        label.subject = senses["subject"].split()[0]
        return True
    if "vehicle" in senses:
        if label.vehicle or label.whole or label.axle or label.field:
            return label.vehicle == senses["vehicle"]
        label.vehicle = senses["vehicle"]
        return True
    if "axle_noun" in senses:
        if label.wheel or label.whole or label.field:
            return False
        label.wheel = senses["axle_noun"]
        return True
    if "ordinal" in senses:
        if label.ordinal or label.whole or label.field or label.axle:
            return False
        key = senses["ordinal"]
        label.ordinal = int(key) if key.isdigit() else None
        return label.ordinal is not None
    for field in ("odometer", "trip_meter", "dash", "ticket", "fee"):
        if field in senses:
            if label.places or label.subject or label.rating or label.whole:
                return False
            label.field = label.field or field
            return label.field == field
    if "rating_subject" in senses:
        if label.rating_subject:
            return False
        label.rating_subject = senses["rating_subject"]
        return True
    return False


_PLACE_DIMENSIONS = (None, MASS)
_FIELD_DIMENSIONS: dict[str, tuple[str | None, ...]] = {
    "odometer": (None, DISTANCE),
    "trip_meter": (None, DISTANCE),
    "dash": (None, ECONOMY),
    "ticket": (None,),
    "fee": (None, MONEY),
}
SUBJECT_DIMENSIONS: dict[str, tuple[str | None, ...]] = {
    "transmission": (None, TEMPERATURE),
    "coolant": (None, TEMPERATURE),
    "oil": (None, TEMPERATURE),
    "exhaust": (None, TEMPERATURE),
    "hub": (None, TEMPERATURE),
    "ambient": (None, TEMPERATURE),
    "tyre": (None, PRESSURE),
    "speed": (None, SPEED),
    "engine_speed": (None, ROTATION),
    "grade": (None, SHARE),
    "wind": (None, SPEED),
}
_RATING_DIMENSIONS: dict[str, tuple[str | None, ...]] = {
    "tank": (None, VOLUME),
    "load_index": (None,),
    "pressure": (None, PRESSURE),
    "d_value": (None, "force"),
    "wheelbase": (None, LENGTH),
    "overhang": (None, LENGTH),
    "coupler_to_axle": (None, LENGTH),
    "deck": (LENGTH,),
    "date_code": (None,),
}


def fits(label: Label, figure: Figure, gauge: str | None = None) -> bool:
    """Whether a label can name a figure of that dimension; `gauge` is a subject said before."""
    dimension = figure.dimension
    if dimension is None and not _sized(label, figure):
        return False
    if label.aside and label.only_vehicle:
        return False
    if label.rating:
        return dimension in _RATING_DIMENSIONS.get(label.rating, _PLACE_DIMENSIONS)
    if label.field:
        return dimension in _FIELD_DIMENSIONS[label.field]
    subject = label.subject or (gauge if label.places and not label.whole else None)
    if label.subject == "tyre" and dimension in (TEMPERATURE, MASS):
        return True
    if subject:
        return dimension in SUBJECT_DIMENSIONS[subject] or (not label.subject and dimension == MASS)
    if label.whole == "gross" and dimension in (MONEY, VOLUME):
        return dimension == MONEY
    if label.places and dimension in (PRESSURE, TEMPERATURE):
        return True
    if label.places or label.rating_subject:
        return dimension in _PLACE_DIMENSIONS
    return False


BARE_SIZE = {
    "grade": (0, 40),
    "wind": (0, 150),
    "speed": (0, 130),
    "tyre": (10, 1200),
    "engine_speed": (400, 6000),
    "dash": (1, 80),
    "odometer": (100, 2_000_000),
    "load_index": (50, 180),
    "date_code": (100, 5399),
}
"""What a label without a unit can name at all: 'on the climb' is no label for 195."""


def _sized(label: Label, figure: Figure) -> bool:
    key = label.rating or label.field or label.subject
    if key not in BARE_SIZE:
        return True
    low, high = BARE_SIZE[key]
    return low <= figure.value <= high


NO_LINK = 4.0
BESIDE = 0.5
"""Cost up to which a figure stands right beside its label."""

UNBOUND_FIGURE = 3.0
UNBOUND_SELF_EVIDENT = 0.4
UNBOUND_LABEL = 0.6
AGAINST_ORDER = 0.9


@dataclass(frozen=True, slots=True)
class Pairing:
    """How labels and figures were paired, and what either order would have cost."""

    order: str
    label_first: float
    figure_first: float

    def told(self) -> str:
        """The decision in words."""
        return (
            f"labels and figures: {self.order} (cost {self.label_first:.1f} with the label first, "
            f"{self.figure_first:.1f} with the figure first; the cheaper pairing counts)"
        )


def bind(
    tokens: Sequence[Token], figures: Sequence[Figure], labels: Sequence[Label]
) -> Pairing | None:
    """Pair labels with figures, setting `label` and `bound`; None where there is nothing to pair."""
    open_figures = [figure for figure in figures if figure.claimed is None]
    if not labels or not open_figures:
        return None
    if _bind_columns(tokens, open_figures, labels):
        return Pairing("a row of labels over a row of figures", 0.0, 0.0)
    gaps = _gaps(open_figures, labels)
    links = _links(tokens, open_figures, gaps)
    before_cost, before = _pairing(open_figures, gaps, links, label_first=True)
    after_cost, after = _pairing(open_figures, gaps, links, label_first=False)
    first = before_cost <= after_cost
    for figure, label in before if first else after:
        figure.label, label.bound = label, figure
    _bind_alone(tokens, open_figures, labels)
    return Pairing("label first" if first else "figure first", before_cost, after_cost)


def _bind_alone(
    tokens: Sequence[Token], figures: Sequence[Figure], labels: Sequence[Label]
) -> None:
    """'Nose weight on Matilda with the gauge, 186 kg': one load and one name for it, however far."""
    loads = [
        figure
        for figure in figures
        if figure.dimension == MASS
        and (
            figure.label is None or (isinstance(figure.label, Label) and figure.label.only_vehicle)
        )
    ]
    named = [
        label
        for label in labels
        if label.bound is None and not label.compound and (label.axle or label.whole == "tongue")
    ]
    if len(loads) != 1 or len(named) != 1 or len(figures) != 1:
        return
    between = tokens[named[0].end : loads[0].start]
    if named[0].end <= loads[0].start and not any(token.raw in ".!?\n" for token in between):
        loads[0].label, named[0].bound = named[0], loads[0]


def _bind_columns(
    tokens: Sequence[Token], figures: Sequence[Figure], labels: Sequence[Label]
) -> bool:
    """'steer/drive/trailer: 5360/8820/9180': a row of labels over a row of figures."""
    leading = [label for label in labels if label.end <= figures[0].start]
    leading = [label for label in leading if label.axle or label.whole or label.vehicle]
    plain = [figure for figure in figures if figure.dimension in _PLACE_DIMENSIONS]
    if len(leading) < 2 or len(leading) != len(plain) or len(leading) != len(labels):
        return False
    for left, right in pairwise(leading):
        if any(tokens[index].raw not in "/|,-&" for index in range(left.end, right.start)):
            return False
    for figure, label in zip(plain, leading, strict=True):
        figure.label, label.bound = label, figure
    return True


def _gaps(figures: Sequence[Figure], labels: Sequence[Label]) -> list[list[Label]]:
    """The labels before the first figure, between each two, and behind the last."""
    gaps: list[list[Label]] = [[] for _ in range(len(figures) + 1)]
    position = 0
    for label in labels:
        while position < len(figures) and figures[position].start < label.start:
            position += 1
        gaps[position].append(label)
    return gaps


def _links(
    tokens: Sequence[Token], figures: Sequence[Figure], gaps: Sequence[Sequence[Label]]
) -> list[tuple[float | None, float | None]]:
    """For each figure, what joining it to the label before and behind costs; None where it can't be."""
    links: list[tuple[float | None, float | None]] = []
    gauge: str | None = None
    for number, figure in enumerate(figures):
        ahead, behind = gaps[number], gaps[number + 1]
        for label in ahead:
            gauge = label.subject or gauge
        before = after = None
        if (
            ahead
            and fits(ahead[-1], figure, gauge)
            and not (ahead[-1].field == "ticket" and _heads_row(tokens, figures, number))
        ):
            before = _link_before(tokens, ahead[-1], figure)
        if behind and fits(behind[0], figure, gauge):
            after = _link_after(tokens, figure, behind[0])
        links.append((before, after))
    return links


def _heads_row(tokens: Sequence[Token], figures: Sequence[Figure], number: int) -> bool:
    """'scale ticket: 5280 6940 11140 23360': three loads in a row are the ticket's own figures."""
    row = figures[number : number + 3]
    return (
        len(row) == 3
        and all(figure.dimension in _PLACE_DIMENSIONS and figure.value >= 400 for figure in row)
        and row[1].start - row[0].end == row[2].start - row[1].end <= 1
        and all(token.kind is MARK for token in tokens[row[0].end : row[1].start])
        and max(figure.value for figure in row) < 20 * min(figure.value for figure in row)
    )


Pairs = tuple[tuple[Figure, Label], ...]


def _pairing(
    figures: Sequence[Figure],
    gaps: Sequence[Sequence[Label]],
    links: Sequence[tuple[float | None, float | None]],
    *,
    label_first: bool,
) -> tuple[float, Pairs]:
    """The cheapest pairing of neighbours that prefers one order; dynamic over the figures."""
    # Two ways to stand: the last label before the next figure is free, or used.
    free: tuple[float, Pairs] | None = (0.0, ())
    used: tuple[float, Pairs] | None = None
    against_before = 0.0 if label_first else AGAINST_ORDER
    against_after = AGAINST_ORDER if label_first else 0.0
    for number, figure in enumerate(figures):
        ahead, behind = gaps[number], gaps[number + 1]
        before, after = links[number]
        alone = UNBOUND_FIGURE if figure.dimension in (None, MASS) else UNBOUND_SELF_EVIDENT
        next_free: tuple[float, Pairs] | None = None
        next_used: tuple[float, Pairs] | None = None
        for taken, state in ((0, free), (1, used)):
            if state is None:
                continue
            cost, pairs = state
            cost += UNBOUND_LABEL * (len(ahead) - taken)
            if next_free is None or cost + alone < next_free[0]:
                next_free = (cost + alone, pairs)
            if before is not None and len(ahead) > taken:
                price = before + against_before - UNBOUND_LABEL
                if price < NO_LINK and cost + price < next_free[0]:
                    next_free = (cost + price, (*pairs, (figure, ahead[-1])))
            if after is not None:
                price = after + against_after
                if price < NO_LINK and (next_used is None or cost + price < next_used[0]):
                    next_used = (cost + price, (*pairs, (figure, behind[0])))
        free, used = next_free, next_used
    ends = [state for state in (free, used) if state is not None]
    return min(ends, key=lambda state: state[0])


def _link_before(tokens: Sequence[Token], label: Label, figure: Figure) -> float:
    """What stands between a label and the figure behind it."""
    cost = _between(tokens, label.end, figure.start)
    if label.side and not (label.axle or label.end_of or label.vehicle or label.wheel):
        if cost > BESIDE:
            return NO_LINK  # 'left Cedar Flats at 48,396'
    last = tokens[figure.start - 1] if figure.start else None
    if figure.start > label.end and last is not None:
        if last.raw in ":=":
            vague = label.end_of and not (label.axle or label.wheel or label.side)
            cost -= 1.2 if last.raw == ":" and not vague else 0.3
        elif "states" in last.groups:
            cost -= 0.6
    return cost


def _link_after(tokens: Sequence[Token], figure: Figure, label: Label) -> float:
    """What stands between a figure and the label behind it."""
    cost = _between(tokens, figure.end, label.start) + 0.1
    if label.start > figure.end:
        first = tokens[figure.end]
        second = tokens[figure.end + 1] if figure.end + 1 < label.start else None
        if "onto" in first.senses.get("glue", ""):
            cost -= 0.4 if label.only_vehicle else 1.0
        elif second is not None and "onto" in second.senses.get("glue", ""):
            cost -= 0.6
        elif first.raw in ":=" or "is_at" in first.groups:
            cost += 1.5
    following = tokens[label.end] if label.end < len(tokens) else None
    if following is not None and following.raw in ":=":
        cost += 2.0
    return cost


def _between(tokens: Sequence[Token], start: int, end: int) -> float:
    cost = 0.0
    for index in range(start, end):
        token = tokens[index]
        if token.kind is BREAK:
            cost += 2.0
        elif token.kind is MARK:
            raw = token.raw
            if raw == ",":
                cost += 1.5
            elif raw in ".!?;":
                cost += 3.0
            elif raw in "|·•—–":
                cost += 1.0
            elif raw in ":=":
                cost += 0.0
            elif raw in "/-+&@":
                cost += 0.5
            else:
                cost += 0.2
        elif token.kind is WORD:
            senses = token.senses
            if "glue" in senses:
                cost += 0.05 if senses["glue"] == "filler" else 0.15
            elif "weigh_cue" in senses or "rating_cue" in senses or "tank" in senses:
                cost += 0.15
            elif not senses:
                cost += 1.6
            else:
                cost += 1.0
        else:
            cost += 1.0
    return cost
