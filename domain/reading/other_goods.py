"""What a receipt lists beside the fuel: 'SCREENWASH 5L £6.99'.

This file decides which lines are of something else that comes in litres or gallons, and leaves
their figures aside. Which money is the fuel's is decided in `fill_money`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import MONEY, VOLUME, Figure
from domain.reading.scene import Scene
from domain.reading.tokens import BREAK, CENTS, WORD, Token

OTHER_GOODS = "something else on the receipt"


def leave_other_goods(scene: Scene) -> None:
    """Claim the figures of each line that begins with a noun which no phrase knows.

    Only where another line has a volume of fuel: a place can stand before a volume, too.
    """
    volumes = [figure for figure in scene.live if figure.dimension == VOLUME]
    if len(volumes) < 2:
        return
    lines = [_line_of(scene, figure) for figure in volumes]
    fuelled = [_names_fuel(scene, line) for line in lines]
    if not any(fuelled):
        return
    for volume, line, fuel in zip(volumes, lines, fuelled, strict=True):
        ahead = scene.tokens[line[0] : volume.start]
        if fuel or not _names_ware(ahead):
            continue
        for figure in scene.live:
            if line[0] <= figure.start < line[1]:
                scene.claim(figure, OTHER_GOODS)


def leave_snacks(scene: Scene) -> None:
    """'34.2 gal 135.09, 2 bags ice 5.98': of several amounts the one beside an unknown noun."""
    if not scene.unknown:
        return
    amounts = [figure for figure in scene.live if is_amount(figure)]
    if len(amounts) < 2:
        return
    others = [figure for figure in amounts if buys_something_else(scene, figure)]
    if len(others) == len(amounts):
        return
    for amount in others:
        scene.claim(amount, OTHER_GOODS)
        count = scene.figures[scene.figures.index(amount) - 1]
        if count.foreign is not None and count.dimension is None:
            scene.claim(count, OTHER_GOODS)  # 'two pies 7.50'
            count.foreign = None


def leave_fluids(scene: Scene) -> None:
    """'washer fluid 1 gal 4.99, diesel 24.1 gal 93.99': what a fluid cost that nothing burns."""
    fluids = scene.book.groups["names_fluid"]
    for figure in scene.live:
        if figure.dimension != VOLUME:
            continue
        start, end = scene.clause_of(figure.start)
        ahead = scene.tokens[max(start, figure.start - 1) : figure.start]
        if not any(_names_fluid(each, fluids) for each in ahead):
            continue
        own = [each for each in scene.live if start <= each.start < end]
        if [each.dimension for each in own].count(VOLUME) > 1:
            continue
        for each in own:
            scene.claim(each, OTHER_GOODS)


def _names_fluid(token: Token, fluids: frozenset[str]) -> bool:
    return "product" not in token.senses and token.text.rpartition(" ")[2] in fluids


def is_amount(figure: Figure) -> bool:
    """Whether a figure is money, or written as what a shop charges."""
    return figure.dimension == MONEY or (
        figure.dimension is None and figure.token.decimals == CENTS
    )


def _line_of(scene: Scene, figure: Figure) -> tuple[int, int]:
    breaks = [index for index, token in enumerate(scene.tokens) if token.kind is BREAK]
    start = max((index + 1 for index in breaks if index < figure.start), default=0)
    end = min((index for index in breaks if index >= figure.end), default=len(scene.tokens))
    return start, end


def _names_fuel(scene: Scene, line: tuple[int, int]) -> bool:
    """Whether a line names a fuel that is burnt; DEF is bought beside any."""
    return any(
        line[0] <= index < line[1] and key != "def" for index, _, key in scene.find("product")
    )


def _names_ware(ahead: Sequence[Token]) -> bool:
    """Whether words before a volume are of a thing that no phrase knows, or of another fluid."""
    return any(not token.senses or token.senses.keys() & FLUIDS for token in ahead) and all(
        token.kind is WORD and OF_FILLS.isdisjoint(token.senses) for token in ahead
    )


FLUIDS = frozenset(("check_item", "subject"))
"""Classes of term that washer fluid, oil and coolant are in."""

OF_FILLS = frozenset(("product", "fuel_cue", "odometer", "fee", "full", "per_volume", "money"))


def buys_something_else(scene: Scene, figure: Figure) -> bool:
    """'corn dogs were another $9', '$9 for corn dogs': money for what no phrase knows."""
    start, _ = scene.clause_of(figure.start)
    nouns = (at for at in range(figure.start - 1, start - 1, -1) if not _leads_to(scene, at))
    noun = next(nouns, None)
    if noun is not None and _is_strange(scene.tokens[noun]) and not _weighed_at(scene, noun):
        return True
    return (noun is None and _bought_before(scene, start)) or spent_on_another(scene, figure)


def _bought_before(scene: Scene, start: int) -> bool:
    """'bought a hat, 24 dollars': a clause of a strange thing, and then what it cost."""
    if start < SHORTEST_BUY or scene.tokens[start - 1].raw != ",":
        return False
    first, end = scene.clause_of(start - 2)
    if end - first < SHORTEST_BUY - 1 or any(first <= f.start < end for f in scene.figures):
        return False
    nouns = (at for at in range(end - 1, first, -1) if not _leads_to(scene, at))
    noun = next(nouns, None)
    if noun is None or not _is_strange(scene.tokens[noun]):
        return False
    led = scene.tokens[noun - 1].groups
    return led.isdisjoint(LEADING_TO_PLACE) or ("article" in led and not _weighed_at(scene, noun))


SHORTEST_BUY = 3
"""Tokens: 'got pie' and its comma."""


def spent_on_another(scene: Scene, figure: Figure) -> bool:
    """'$9 for corn dogs': what stands behind tells what it was for, and no phrase knows that."""
    _, end = scene.clause_of(figure.start)
    behind = scene.tokens[figure.end : end]
    if not behind or "for" not in behind[0].groups:
        return False
    thing = next((each for each in behind[1:] if "article" not in each.groups), None)
    return thing is not None and _is_strange(thing)


def _weighed_at(scene: Scene, noun: int) -> bool:
    """'scaled at the quarry $10': where it was, and no thing that somebody bought."""
    at = noun - 1
    while at > 0 and not scene.tokens[at].groups.isdisjoint(LEADING_TO_PLACE):
        at -= 1
    return at >= 0 and "weigh_cue" in scene.tokens[at].senses


LEADING_TO_PLACE = frozenset(("article", "leads_to_place"))
"""Groups of words between what was done and the name of a place."""


def _leads_to(scene: Scene, index: int) -> bool:
    token = scene.tokens[index]
    more = not token.groups.isdisjoint(LEADING)
    return token.kind is not WORD or "glue" in token.senses or more


LEADING = frozenset(("still_more", "another", "costs_one"))
"""Groups of words between a thing and what it cost: 'lunch cost another 14.50'."""


def _is_strange(token: Token) -> bool:
    known = token.senses or token.groups & OF_MONEY
    return token.kind is WORD and not known and token.raw.islower()


OF_MONEY = frozenset(
    ("cost_word", "price_word", "volume_word", "pays", "pays_for", "fuel", "asks_money")
)
"""Groups of words beside what fuel or a weighing cost."""


def named_before(scene: Scene, volume: Figure) -> bool:
    """'MILK 2 GAL': an unknown noun right before the volume on a line of its own."""
    before = scene.tokens[volume.start - 1] if volume.start else None
    further = scene.tokens[volume.start - 2] if volume.start > 1 else None
    return (
        before is not None
        and before.kind is WORD
        and not before.senses
        and before.groups.isdisjoint(HEADS_VOLUME)
        and further is not None
        and further.raw == "\n"
    )


HEADS_VOLUME = frozenset(("volume_word", "cost_word"))
"""Groups of words that say how much it is, and not of what: 'Volume 21.604 gal', 'Amount'."""
