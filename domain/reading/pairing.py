"""Which figure each label belongs to.

Labels and figures alternate, and the cheapest pairing of neighbours wins: punctuation between
costs, a colon or 'is' or 'on the' speaks for a pair, and people keep to one order within a
message. This file does not decide what is kept; that takes the figures' plausibility and the
chat's context.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from functools import partial
from itertools import pairwise

from domain.reading.figures import LEAST_LOAD, MASS, Figure
from domain.reading.label import Label
from domain.reading.label_fit import PLACE_DIMENSIONS, fits
from domain.reading.link_costs import NO_LINK, link_after, link_before
from domain.reading.tokens import MARK, NUMBER, WORD, Token

UNBOUND_FIGURE = 3.0


UNBOUND_SELF_EVIDENT = 0.4


UNBOUND_LABEL = 0.6


AGAINST_ORDER = 0.9


MOST_UNLIKE = 20
"""Loads of one list differ less than this many times."""


Told = Callable[[], str]
"""What tells how labels and figures were paired, to somebody who asks why."""


def _told(order: str) -> str:
    """The decision in words."""
    return f"labels and figures: {order}"


def _told_by_cost(label_first: float, figure_first: float) -> str:
    """The decision between two orders in words, with what either would have cost."""
    order = "label first" if label_first <= figure_first else "figure first"
    return (
        f"labels and figures: {order} (cost {label_first:.1f} with the label first, "
        f"{figure_first:.1f} with the figure first; the cheaper pairing counts)"
    )


def bind(
    tokens: Sequence[Token], figures: Sequence[Figure], labels: Sequence[Label]
) -> Told | None:
    """Pair labels with figures, setting `label` and `bound`; None where there is none."""
    open_figures = [figure for figure in figures if figure.claimed is None]
    if not labels or not open_figures:
        return None
    several = len(labels) >= SHORTEST_ROW
    if several:
        _bear_loads(labels, open_figures)
    if several and _bind_columns(tokens, open_figures, labels):
        open_figures = [figure for figure in open_figures if figure.label is None]
        labels = [label for label in labels if label.bound is None]
        if not labels or not open_figures:
            return partial(_told, "a row of labels over a row of figures")
    if several and _bind_under_headings(tokens, open_figures, labels):
        open_figures = [figure for figure in open_figures if figure.label is None]
        labels = [label for label in labels if label.bound is None]
        if not labels or not open_figures:
            return partial(_told, "a heading, then each figure before its label")
    # What is said aside names no figure, and hides no label behind it.
    owners = _owners(labels, open_figures) if several else []
    naming = [
        label for label in labels if not ((label.aside or label in owners) and label.only_vehicle)
    ]
    gaps = _gaps(open_figures, naming)
    links = _links(tokens, open_figures, gaps)
    if [after for _, after in links if after is not None]:
        before_cost, pairs = _pairing(open_figures, gaps, links, label_first=True)
        after_cost, behind = _pairing(open_figures, gaps, links, label_first=False)
        pairs = pairs if before_cost <= after_cost else behind
        while pairs is not None:
            figure, label, pairs = pairs
            figure.label, label.bound = label, figure
        told = partial(_told_by_cost, before_cost, after_cost)
    else:
        _pair_with_labels_before(open_figures, gaps, links)
        told = partial(_told, "label first (no label stands behind a figure)")
    if len(open_figures) == 1:
        _bind_alone(tokens, open_figures[0], labels)
    elif several and None in [figure.label for figure in open_figures]:
        _bind_in_parts(tokens, open_figures, labels)
    elif several:
        _leave_heads(tokens, labels)
    return told


def _pair_with_labels_before(
    figures: Sequence[Figure],
    gaps: Sequence[Sequence[Label]],
    links: Sequence[tuple[float | None, float | None]],
) -> None:
    """The cheapest pairing where no label stands behind a figure: none takes that of another."""
    for figure, ahead, (before, _) in zip(figures, gaps, links, strict=False):
        if before is not None and before - UNBOUND_LABEL < _cost_alone(figure):
            figure.label, ahead[-1].bound = ahead[-1], figure


def _cost_alone(figure: Figure) -> float:
    """What it costs that a figure has no label."""
    return UNBOUND_FIGURE if figure.dimension in PLACE_DIMENSIONS else UNBOUND_SELF_EVIDENT


def _leave_heads(tokens: Sequence[Token], labels: Sequence[Label]) -> None:
    """'Juniper's 5,200 up front, 6,900 in back': the truck heads its ends, each of its figure."""
    for head, end in pairwise(labels):
        figure = head.bound
        if figure is None or end.bound is not None or not (head.only_vehicle and end.only_end):
            continue
        between = tokens[figure.end : end.start]
        others = {label.end_of for label in labels if label.only_end and label.bound is not None}
        if others - {end.end_of} and figure.end <= end.start and all(map(_joins, between)):
            figure.label, end.bound, head.bound = end, figure, None


def _owners(labels: Sequence[Label], figures: Sequence[Figure]) -> list[Label]:
    """'the sticker on the truck says 11,500 lb GVWR': each limit behind its figure, whose first.

    Such vehicles name no figure of their own; each is given to the limits behind it.
    """
    limits = [label for label in labels if label.rating]
    if not limits:
        return []
    ends, starts = {each.end for each in figures}, {each.start for each in figures}
    if any(each.start not in ends or each.end in starts for each in limits):
        return []  # 'truck 10,200 gvwr 11,500'
    owners: list[Label] = []
    owner: Label | None = None
    for label in labels:
        if label.rating is None:
            owner = label if label.only_vehicle else None
        elif owner is not None and label.vehicle is None:
            label.vehicle, label.name = owner.vehicle, owner.name
            owners.append(owner)
    return owners


def _joins(token: Token) -> bool:
    """Whether a word only leads to the next: 'in', 'on the'."""
    return token.kind is WORD and "glue" in token.senses


def _bear_loads(labels: Sequence[Label], figures: Sequence[Figure]) -> None:
    """'5,220 on the front tires': tyres under which thousands stand are an axle, and no gauge.

    One of them is the side of an axle: 'left front tire 2,480, right front 2,460'.
    """
    if "tyre" not in [label.subject for label in labels]:
        return
    if any(each.dimension not in PLACE_DIMENSIONS or each.value < LEAST_BORNE for each in figures):
        return
    if len([label for label in labels if label.places and not label.whole]) < SHORTEST_ROW:
        return
    for label in labels:
        if label.subject == "tyre" and (label.end_of or label.vehicle):
            label.subject = None
            label.wheel = label.wheel if label.side else "axle"


LEAST_BORNE = 1_250
"""More than any tyre is inflated to, in kPa as well."""


def _bind_alone(tokens: Sequence[Token], load: Figure, labels: Sequence[Label]) -> None:
    """'Nose weight on Matilda with the gauge, 186 kg': one load, one name for it, however far."""
    if load.dimension != MASS:
        return
    if load.label is not None and not (isinstance(load.label, Label) and load.label.only_vehicle):
        return
    named = [
        label
        for label in labels
        if label.bound is None
        and not label.compound
        and (label.axle or label.whole == "tongue" or (label.vehicle and label.wheel == "axle"))
    ]
    if len(named) != 1:
        return
    between = tokens[named[0].end : load.start]
    if named[0].end <= load.start and not any(token.raw in ".!?" for token in between):
        load.label, named[0].bound = named[0], load


def _bind_in_parts(
    tokens: Sequence[Token], figures: Sequence[Figure], labels: Sequence[Label]
) -> None:
    """'steer's 5,260; the drive is where it hurts, 7,480; ...': one name and one load in a part."""
    if not any(label.bound is not None and label.axle for label in labels):
        return
    ends = [index for index, token in enumerate(tokens) if token.raw in ".!?;"]
    if not ends:
        return
    for start, end in pairwise([-1, *ends, len(tokens)]):
        loads = [figure for figure in figures if start < figure.start < end]
        named = [label for label in labels if start < label.start < end]
        if len(loads) != 1 or len(named) != 1 or loads[0].label is not None:
            continue
        (load,), (name,) = loads, named
        on_axle = name.axle or (name.vehicle == "trailer" and name.wheel == "axle")
        if name.bound is None and on_axle and not name.rating and load.value >= LEAST_BORNE:
            load.label, name.bound, load.foreign = name, load, None


def _bind_columns(
    tokens: Sequence[Token], figures: Sequence[Figure], labels: Sequence[Label]
) -> bool:
    """'steer/drive/trailer: 5360/8820/9180': a row of labels over a row of figures."""
    if len(labels) < SHORTEST_ROW or len(figures) < SHORTEST_ROW:
        return False
    leading = [label for label in labels if label.end <= figures[0].start]
    leading = [label for label in leading if _heads_column(label)]
    gauged = any(label.subject for label in leading)
    plain = [figure for figure in figures if gauged or figure.dimension in PLACE_DIMENSIONS]
    behind = [label for label in labels if label.start >= figures[0].end]
    apart = bool(behind) and behind[0].start >= figures[-1].end
    if not leading and apart and len(behind) == len(figures) == len(plain) >= SHORTEST_ROW:
        leading, behind = behind, []  # '5,080 / 5,700 / 9,880 steer/drive/trailer'
    elif len(leading) + len(behind) != len(labels):
        return False
    if behind:  # 'steer drive trailer 5280 6940 11140, gross 23360'
        plain = [figure for figure in plain if figure.end <= behind[0].start]
        if len(plain) == len(leading) + 1:
            plain = plain[:-1]  # 'fronts and rears 5,180 and 6,920, 9,240 for the trailer'
    if len(leading) < 2 or len(leading) != len(plain):
        return False
    if gauged and not all(map(fits, leading, plain)):
        return False
    for left, right in pairwise(leading):
        apart = plain[1].start > plain[0].end
        if apart and left.only_vehicle and right.whole == "tongue" and left.end == right.start:
            return False  # 'camper tongue 860 loaded 720 empty'
        if not all(_lists(tokens[index]) for index in range(left.end, right.start)):
            return False
    for figure, label in zip(plain, leading, strict=True):
        if label.vehicle and not label.wheel:
            label.ordinal = None  # 'trailer first, then drive, then steer'
        figure.label, label.bound = label, figure
    return True


def _heads_column(label: Label) -> bool:
    """Whether a label may stand in such a row: a place, or what an axle there may bear."""
    if label.rating:
        return label.rating.startswith("gawr")
    aside = label.aside and label.only_vehicle  # 'hooked up the camper, tongue 1,140, leaving'
    return bool(label.places) and not label.field and not aside


def _lists(token: Token) -> bool:
    """Whether a token can stand between two names of a list: a mark, 'and', 'the'."""
    return token.raw in "/|,-&" or not token.groups.isdisjoint(("and", "article", "then"))


def _bind_under_headings(
    tokens: Sequence[Token], figures: Sequence[Figure], labels: Sequence[Label]
) -> bool:
    """'hitch is rated 1,200 tongue 12,000 trailer': the label before the row is of all of it."""
    if len(labels) <= SHORTEST_ROW or len(figures) < SHORTEST_ROW:
        return False
    bound = False
    for row in _rows_before_labels(figures, labels):
        if row and row[0][1].rating == "gawr":
            row = row[1:]  # 'GVWR 11,400 GAWR 5,600 front 7,050 rear'
        if len(row) >= SHORTEST_ROW and _is_headed(tokens, figures, labels, row):
            bound = True
            for figure, label in row:
                figure.label, label.bound = label, figure
    return bound


def _rows_before_labels(
    figures: Sequence[Figure], labels: Sequence[Label]
) -> list[list[tuple[Figure, Label]]]:
    """Runs of figures with a label right behind each, and no other label between them."""
    behind = {label.start: label for label in labels}
    rows: list[list[tuple[Figure, Label]]] = [[]]
    free = 0  # how many labels stand before the figure
    for figure in figures:
        label = behind.get(figure.end)
        before = free
        while free < len(labels) and labels[free].start < figure.start:
            free += 1
        if rows[-1] and (label is None or free > before + 1):
            rows.append([])
        if label is not None:
            rows[-1].append((figure, label))
    return rows


SHORTEST_ROW = 2


def _is_headed(
    tokens: Sequence[Token],
    figures: Sequence[Figure],
    labels: Sequence[Label],
    row: Sequence[tuple[Figure, Label]],
) -> bool:
    """Whether a label without a figure of its own stands before a row, and nothing right behind."""
    first, last = row[0][0], row[-1][1]
    ahead = [label for label in labels if label.end <= first.start]
    heading = ahead[-1] if ahead else None
    if heading is None or heading.field:
        return False
    rated = heading.rating == "gawr" and _both_ends(row)  # 'GAWR 5,600 front 7,050 rear'
    if heading.rating and not rated:
        return False
    ends = rated or (heading.only_its_axles and (_both_ends(row) or _both_axles(heading, row)))
    if heading.places_load and not (ends or _both_sides(row)):
        return False
    if not rated and any(figure.end == heading.start for figure in figures):
        return False  # it is the label of the figure before
    following = tokens[last.end] if last.end < len(tokens) else None
    if following is not None and (
        following.kind is NUMBER or "copula" in following.senses.get("glue", "")
    ):
        return False  # the last label has a figure behind it
    if any(heading.end <= figure.start < first.start for figure in figures):
        return False
    return all(_fits_under(heading, label, figure) for figure, label in row)


def _both_sides(row: Sequence[tuple[Figure, Label]]) -> bool:
    """'front axle 1,310 left and 1,295 right': the heading is an axle, and the rest its wheels."""
    sides = [label.side for _, label in row if label.only_side]
    return len(sides) == len(row) == len(set(sides))


def _both_ends(row: Sequence[tuple[Figure, Label]]) -> bool:
    """'camper axles: 4,200 front, 4,400 rear': the heading is a trailer's axles, each told.

    A middle one may stand between them.
    """
    ends = [
        label.end_of or label.ordinal for _, label in row if label.only_end or label.only_ordinal
    ]
    return len(ends) == len(row) == len(set(ends))


def _both_axles(heading: Label, row: Sequence[tuple[Figure, Label]]) -> bool:
    """'truck axles on the plate: 5,580 steer and 9,340 drive': each by its name."""
    axles = {label.axle for _, label in row}
    return heading.vehicle != "trailer" and None not in axles and len(axles) == len(row)


def _fits_under(heading: Label, label: Label, figure: Figure) -> bool:
    """Whether a label can name a figure of the heading's list: a place, or a part of a hitch."""
    if label.subject or label.field:
        return False
    if label.rating:  # 'hitch rated 12,000 tow / 1,200 tongue'
        return heading.rating_subject is not None and label.rating in OF_PARTS
    again = heading.only_vehicle and heading.vehicle == label.vehicle == "trailer"
    if label.only_vehicle and not (heading.rating_subject or heading.subject or again):
        return False  # and 'camper on: 5,160 front 6,840 back 9,220 trailer' names it twice
    return fits(label, figure, heading.subject)


OF_PARTS = frozenset(("tow", "tongue"))
"""Ratings that a part of a hitch has."""


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
    """What joining each figure to the label before and behind costs; None where it can't be."""
    links: list[tuple[float | None, float | None]] = []
    gauge: str | None = None
    for number, figure in enumerate(figures):
        ahead, behind = gaps[number], gaps[number + 1]
        before = after = None
        if not (ahead or behind):
            links.append((None, None))
            continue
        for label in ahead:
            gauge = label.subject or gauge
        if (
            ahead
            and fits(ahead[-1], figure, gauge)
            and not (ahead[-1].field == "ticket" and _opens_list(tokens, figures, number))
        ):
            sized = bool(behind) and behind[0].rating == "tank" and behind[0].start == figure.end
            if not (sized and ahead[-1].only_vehicle):  # 'Juniper has a 34 gallon tank'
                before = link_before(tokens, ahead[-1], figure)
        if behind and fits(behind[0], figure, gauge) and not _is_asked(tokens, figure, behind[0]):
            after = link_after(tokens, figure, behind[0])
        links.append((before, after))
    return links


def _is_asked(tokens: Sequence[Token], figure: Figure, label: Label) -> bool:
    """'step counter says 11,140, do I get a gross weight': another clause asks for the label."""
    between = tokens[figure.end : label.start]
    return len(between) >= SHORTEST_ASKED and any(
        mark.kind is MARK and "asks_first" in asks.groups and "pronoun" in who.groups
        for mark, asks, who in zip(between, between[1:], between[2:], strict=False)
    )


SHORTEST_ASKED = 3
"""Tokens: a mark, a word that asks, and who asks."""


def _opens_list(tokens: Sequence[Token], figures: Sequence[Figure], number: int) -> bool:
    """'scale ticket: 5280 6940 11140 23360': three loads in a row are the ticket's own figures.

    Figures with units count, and they stand alike: 'tkt 60233 5190/6770/9040' is a number and a
    list. So this is stricter than the row that `claims` leaves alone.
    """
    row = figures[number : number + 3]
    return (
        len(row) == 3
        and all(
            figure.dimension in PLACE_DIMENSIONS and figure.value >= LEAST_LOAD for figure in row
        )
        and row[1].start - row[0].end == row[2].start - row[1].end <= 1
        and all(token.kind is MARK for token in tokens[row[0].end : row[1].start])
        and max(figure.value for figure in row) < MOST_UNLIKE * min(figure.value for figure in row)
    )


Pairs = tuple[Figure, Label, "Pairs"] | None
"""Pairs made so far, the last one first: each holds those before it."""


def _pairing(
    figures: Sequence[Figure],
    gaps: Sequence[Sequence[Label]],
    links: Sequence[tuple[float | None, float | None]],
    *,
    label_first: bool,
) -> tuple[float, Pairs]:
    """The cheapest pairing of neighbours that prefers one order; dynamic over the figures."""
    # Two ways to stand: the last label before the next figure is free, or used.
    free: tuple[float, Pairs] = (0.0, None)
    used: tuple[float, Pairs] | None = None
    against_before = 0.0 if label_first else AGAINST_ORDER
    against_after = AGAINST_ORDER if label_first else 0.0
    for number, figure in enumerate(figures):
        ahead, behind = gaps[number], gaps[number + 1]
        before, after = links[number]
        alone = _cost_alone(figure)
        if before is None and after is None and used is None:
            free = (free[0] + UNBOUND_LABEL * len(ahead) + alone, free[1])
            continue
        next_free: tuple[float, Pairs] = (math.inf, None)
        next_used: tuple[float, Pairs] | None = None
        for taken, state in ((0, free), (1, used)):
            if state is None:
                continue
            cost, pairs = state
            cost += UNBOUND_LABEL * (len(ahead) - taken)
            if cost + alone < next_free[0]:
                next_free = (cost + alone, pairs)
            if before is not None and len(ahead) > taken:
                price = before + against_before - UNBOUND_LABEL
                if price < NO_LINK and cost + price < next_free[0]:
                    next_free = (cost + price, (figure, ahead[-1], pairs))
            if after is not None:
                price = after + against_after
                if price < NO_LINK and (next_used is None or cost + price < next_used[0]):
                    next_used = (cost + price, (figure, behind[0], pairs))
        free, used = next_free, next_used
    return free if used is None or free[0] <= used[0] else used
