"""What a scale's ticket says beside the loads: its number and the fee."""

from __future__ import annotations

from collections.abc import Sequence

from domain.entries import SUM_TOLERANCE, Entry, Weighing
from domain.frozen import changed
from domain.quantities import Quantity
from domain.reading.figures import MONEY, VOLUME, Figure
from domain.reading.label import AXLE_AT, Label
from domain.reading.other_goods import buys_something_else, spent_on_another
from domain.reading.scene import Scene
from domain.reading.tokens import BREAK, MARK, NUMBER, WORD


def with_particulars(scene: Scene, entries: list[Entry], ticket: str | None) -> list[Entry]:
    """Entries, the first pass among them with the fee and the number of its ticket."""
    kinds = list(map(type, entries))
    if Weighing in kinds:
        fee, figure = fee_of(scene)
        if figure is not None:
            figure.role = "fee"
        if fee is not None or ticket is not None:
            first = kinds.index(Weighing)
            entries[first] = changed(entries[first], cost=fee, ticket=ticket)
    return entries


def fee_of(scene: Scene) -> tuple[Quantity | None, Figure | None]:
    """What the weighing cost, where money is named and no fuel is bought with it."""
    live = scene.live
    priced = MONEY in [figure.dimension for figure in live]
    if not priced and "fee" not in scene.by_class and "costs_one" not in scene.groups:
        return None, None
    for figure in live:
        if not (figure.role is None and _is_named_fee(figure)) or _is_for_fuel(scene, figure):
            continue
        if not spent_on_another(scene, figure):
            return _paid(scene, figure), figure
    if any(_is_price(scene, figure) for figure in live):
        return None, None  # what was weighed is paid for by its weight
    for figure in live:
        if figure.role is not None or not may_be_fee(scene, figure):
            continue
        if _is_for_fuel(scene, figure):
            continue
        # A printed line may have any word before its sum.
        if "\n" in scene.text or not buys_something_else(scene, figure):
            return _paid(scene, figure), figure
    return None, None


def _is_for_fuel(scene: Scene, figure: Figure) -> bool:
    """'paid 95 for fuel', '$95 diesel': what else was paid for on the way."""
    behind = scene.tokens[figure.end : figure.end + 3]
    thing = next((each for each in behind if "glue" not in each.senses), None)
    return thing is not None and "plain_fuel" in thing.groups


def may_be_fee(scene: Scene, figure: Figure) -> bool:
    """'cost 13.50', '$13.50', 'fee 13.50': whether a figure says what a scale asked."""
    if figure.dimension == MONEY or _is_named_fee(figure):
        return True
    paid = figure.start > 0 and "costs_one" in scene.tokens[figure.start - 1].groups
    return paid and figure.dimension is None and figure.value <= DEAREST_WEIGH


DEAREST_WEIGH = 50
"""What no public scale asks of a pickup, in its own money; common practice, no source."""


def _is_named_fee(figure: Figure) -> bool:
    return isinstance(figure.label, Label) and figure.label.field == "fee"


def _paid(scene: Scene, figure: Figure) -> Quantity:
    unit = figure.unit if figure.dimension == MONEY else None
    return Quantity(figure.value, unit or scene.context.currency)


def _is_price(scene: Scene, figure: Figure) -> bool:
    """'4.63 TONS @ $18.50': so much for each ton."""
    before = scene.tokens[max(0, figure.start - 1)]
    further = scene.tokens[max(0, figure.start - 2)]
    return figure.dimension == MONEY and "price_word" in before.groups and "unit" in further.senses


def ticket_of(scene: Scene) -> str | None:
    """The ticket's number, as typed."""
    for figure in scene.figures:
        label = figure.label
        if isinstance(label, Label) and label.field == "ticket" and figure.whole:
            if figure.token.grouped and label.start > figure.start:
                figure.label = None  # '21,220 on the ticket' is what it shows
                continue
            figure.role = "ticket"
            return _lettered(scene, figure) or _digits(figure)
    for index, _, _ in scene.find("ticket"):
        for step in (1, 2, 3):
            if index + step >= len(scene.tokens):
                break
            token = scene.tokens[index + step]
            if token.kind is BREAK:
                break
            if token.kind is WORD and any(c.isdigit() for c in token.raw):
                return token.raw
            if token.kind is WORD and (hyphened := _hyphened(scene, index + step)):
                return hyphened
            if token.kind is NUMBER:
                for number, figure in enumerate(scene.figures):
                    numbered = figure.label is None and figure.dimension != VOLUME
                    if figure.start == index + step and numbered:
                        if _sums_up(scene.figures[number:]):
                            return None
                        figure.role = "ticket"
                        return token.raw
                break
            if token.kind is not MARK:
                break
    return None


def number_said(scene: Scene) -> str | None:
    """'ticket says 40771 steer 5,280 drive 6,900 trailer 9,000': the rig's loads are all told."""
    if len(scene.figures) <= ALL_LOADS:
        return None
    for index, token, _ in scene.find("weigh_cue"):
        first = scene.book.words.get(token.text.split(" ")[0], {})
        if "scale_says" not in token.groups or "ticket" not in first:
            continue
        figure = next((each for each in scene.live if each.start > index), None)
        if figure is None or figure.label or figure.dimension or figure.token.grouped:
            continue
        plain = all(each.kind is MARK for each in scene.tokens[index + 1 : figure.start])
        if plain and figure.whole and _is_no_gross(scene, figure):
            figure.role = "ticket"
            return figure.token.raw
    return None


ALL_LOADS = 3
"""Steer, drive and trailer."""


def _is_no_gross(scene: Scene, number: Figure) -> bool:
    """Whether the rig's loads are told behind a number, and do not make it."""
    told: dict[str, float] = {}
    for each in scene.live:
        label = each.label
        if isinstance(label, Label) and not label.side and each.start > number.start:
            told[_part_of(label)] = each.value
    loads = [told[at] for at in ("steer", "drive", "trailer") if at in told]
    return len(loads) == ALL_LOADS and abs(sum(loads) - number.value) > NEARLY * number.value


def _part_of(label: Label) -> str:
    """The part of a rig that a label names, as far as a sum goes."""
    if label.vehicle == "trailer":
        return "trailer"
    return label.axle or AXLE_AT.get(label.end_of or "", "")


NEARLY = 0.25
"""So near to it the axles may be meant to make the gross."""


def _sums_up(figures: Sequence[Figure]) -> bool:
    """'scale ticket 4990 6200 11500 22690': loads with their gross, and no number before them."""
    values = [figure.value for figure in figures[:MOST_IN_A_ROW]]
    return any(
        abs(sum(values[:count]) - values[count]) <= SUM_TOLERANCE * values[count]
        for count in range(2, len(values))
    )


MOST_IN_A_ROW = 5


def _hyphened(scene: Scene, index: int) -> str | None:
    """'WB-3391', which begins at a token."""
    hyphen, number = scene.tokens[index + 1 : index + 2], scene.tokens[index + 2 : index + 3]
    if not (hyphen and number and hyphen[0].raw == "-" and hyphen[0].glued):
        return None
    whole = number[0].kind is NUMBER and number[0].start == hyphen[0].end
    return scene.words_between(index, index + 3) if whole else None


def _lettered(scene: Scene, figure: Figure) -> str | None:
    """'5582-A': a number that letters are typed to."""
    behind = scene.tokens[figure.end : figure.end + 2]
    typed = len(behind) > 1 and behind[0].raw == "-" and behind[0].glued and behind[1].glued
    if typed and behind[1].kind is WORD and behind[1].raw.isupper():
        return scene.words_between(figure.start, figure.end + 2)
    return None


def _digits(figure: Figure) -> str:
    return f"{figure.value:.0f}" if figure.token.said.spoken else figure.token.raw
