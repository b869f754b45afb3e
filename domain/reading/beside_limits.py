"""A load and its limit in one breath: 'steer 5,160, rated 5,250', 'drive 6,820 of 7,000'.

This file decides which of two figures was weighed and which is the limit, and which rating that
limit is. A limit of several axles together is no rating that a label has, and one that is 'allowed'
may be the law's: both are left aside.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from copy import copy
from itertools import pairwise

from domain.reading.allowed import is_allowed
from domain.reading.figures import MASS, Figure
from domain.reading.framing import LABEL_STEP, end_behind
from domain.reading.label import AXLE_AT, PLACES, Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, NUMBER, WORD, Token
from domain.reading.whose_plate import is_of_trailer

LIMITING = frozenset(("of", "against_limit", "allows"))
"""Groups of words, beside those for a rating, of which one stands between a load and its limit."""

SAYS_LIMIT = LIMITING | {"labelled_part"}
"""Groups of words of which one says that there is a limit."""

LEAST = 90
"""Pounds or kilograms: no load of a rig beside its limit is less."""

RATED = frozenset(("rating_cue", "rating"))
"""Classes of term of which one says that there is a limit."""

ALIKE = (0.65, 2.5)
"""A limit over its load, wide on purpose: an axle may be empty, or overloaded."""

MOST_BETWEEN = 7
"""Tokens from a load to its limit."""

AXLE_LIMITS = {"steer": "gawr_front", "drive": "gawr_rear"}


def loads_beside_limits(scene: Scene) -> Mapping[int, tuple[str, str]]:
    """Subject and rating of each limit that stands beside its load, by where it starts.

    The load has its role from here on, and a limit that is no rating is claimed.
    """
    if not scene.labels or (
        SAYS_LIMIT.isdisjoint(scene.groups) and RATED.isdisjoint(scene.by_class)
    ):
        return {}
    found: dict[int, tuple[str, str]] = {}
    rated = "rating" in scene.by_class
    figures = [each for each in scene.live if each.dimension in (None, MASS)]
    for first, second in pairwise(figures):
        label = first.label
        if first.role or second.role:
            continue
        if rated and first.value < second.value and _is_apart(scene, first):
            _weigh_beyond(scene, first, second)
        if not isinstance(label, Label):
            if rated:
                _weigh_of_whole(scene, first, second)
            continue
        own = _limit_before(scene, first, second) if rated else None
        if own is not None:
            own.rating = _rating_of_end(label) if own.rating == "gawr" else own.rating
            second.label = None if second.label is own else second.label
            label, own.bound, first.label = own, first, own
        if second.label is not None and label.only_vehicle:
            label = _of_its_axles(scene, label, first, second)
        if label.rating in WEIGHED_OF and _alike(first, second):
            _weigh_rated(scene, label, first, second)
        elif label.rating == "gawr" and first.start not in found:
            limits = _gawr_of_axle(scene, label, first, second)
            if limits is not None:
                second.role = "load"
                found[first.start] = limits
                continue
        if label.rating and _is_used(scene, first, second):
            second.label = copy(label)
            second.label.bound = second
            scene.claim(first, "what was used of a limit")
            continue
        if not _is_a_load(label) or (label.only_vehicle and not _is_held_against(scene)):
            if _bears_on_rated(scene, label, first, second):
                label.wheel, first.role = "axle", "load"
            continue
        if _is_limit_of_each(scene, label, first, second):
            first.role = "load"
            found[second.start] = "trailer", "gawr"
        elif second.value < first.value and _is_apart(scene, second):
            first.role = "load"
            scene.claim(second, "how far from a limit")
        elif not _alike(first, second):
            continue
        elif _is_limit(scene, first, second):
            first.role = "load"
            rating = _rating_of(scene, label)
            if rating is not None and not is_allowed(scene, second):
                found[second.start] = rating
            elif not (isinstance(second.label, Label) and second.label.rating):
                scene.claim(second, "what is allowed")
        elif _weighed_behind(scene, first, second):
            second.label = copy(label)
            second.label.bound, second.role = second, "load"
    return found


def _of_its_axles(scene: Scene, label: Label, load: Figure, limit: Figure) -> Label:
    """'camper 9,240 on the axles, rated for 10,160': the axles are of the load before them."""
    axles = limit.label
    if not isinstance(axles, Label) or not axles.only_axles or label.vehicle != "trailer":
        return label
    led = scene.tokens[load.end : axles.start][:LED]
    if axles.start > limit.start or not any(token.groups & LEADS for token in led):
        return label  # 'trailer 7,000 lb axles gvwr 14,000'
    axles.vehicle, axles.name, axles.bound = label.vehicle, label.name, load
    load.label, label.bound, limit.label = axles, None, None
    return axles


LEADS = frozenset(("on_the", "on_or_in"))
LED = 2
"""Tokens from a load to what bears it: 'on the', 'is on the'."""


def _gawr_of_axle(
    scene: Scene, limits: Label, limit: Figure, load: Figure
) -> tuple[str, str] | None:
    """'gawr 7,050, drive 6,880': a limit that is of no end yet, and the axle held against it.

    A plate has both of its limits in the steps that makers round to.
    """
    axle = load.label
    if not isinstance(axle, Label) or not _is_a_load(axle) or axle.only_vehicle or axle.whole:
        return None
    free = limits.end_of is None and limits.axle is None and limits.end <= limit.start
    stepped = not load.value % LABEL_STEP and not axle.axle
    near = load.value <= MOST_OVER * limit.value and _alike(load, limit)
    if stepped or not (free and near) or end_behind(scene, limit):
        return None
    before = next((each for each in scene.live if 0 <= limits.start - each.end <= 1), None)
    if before is not None and before.label and before.role is None:
        return None  # 'trailer axles 9,240 gawr 5,200 steer 4,980'
    if limits.vehicle == "trailer" and axle.ordinal:
        axle.vehicle = limits.vehicle
    return _rating_of(scene, axle)


MOST_OVER = 1.1
"""How many times its limit a load may be that is held against it, where nothing else says so."""


def _is_limit_of_each(scene: Scene, label: Label, load: Figure, limit: Figure) -> bool:
    """'trailer axles 9,240 rated 5,080 each': what the axles bear, and one of them may."""
    behind = scene.tokens[limit.end : limit.end + 1]
    if not label.only_its_axles or not any("each_one" in token.groups for token in behind):
        return False
    both = AXLES * limit.value / load.value
    return (
        label.vehicle == "trailer"
        and ALIKE[0] <= both <= ALIKE[1]
        and _is_limit(scene, load, limit)
    )


def _bears_on_rated(scene: Scene, label: Label, load: Figure, limit: Figure) -> bool:
    """'camper 9,240, axles rated 5,080 each': what a scale shows of it, held against its axles."""
    if label.vehicle != "trailer" or not load.value % LABEL_STEP or "each_one" not in scene.groups:
        return False
    rated = isinstance(limit.label, Label) and limit.label.rating == "gawr"
    behind = scene.tokens[limit.end : limit.end + 1]
    each = any("each_one" in token.groups for token in behind)
    return rated and each and ALIKE[0] <= AXLES * limit.value / load.value <= ALIKE[1]


AXLES = 2
"""Of a trailer, at least, that several are told of."""


def _limit_before(scene: Scene, limit: Figure, load: Figure) -> Label | None:
    """'hitch says 1,500 max tongue, ours is 1,040': the label that ends the clause of a limit."""
    if "rating" not in scene.tokens[limit.end].senses:
        return None
    label = next((each for each in scene.labels if each.start == limit.end), None)
    if label is None or label.bound not in (None, load):
        return None
    if not (is_what_we_have(scene, load) or scene.tokens[label.end].raw in PARTS):
        return None  # 'steer 5,180 gawr - 5,600'
    known = label.rating in WEIGHED_OF or (label.rating == "gawr" and _rating_of_end(limit.label))
    return label if known else None


PARTS = frozenset(",;/")
"""Marks that part a limit from what is told behind it."""


def _rating_of_end(label: object) -> str | None:
    """'rear is 7,250 gawr, ours is 6,940', 'trailer axle 5,200 gawr': an axle's limit."""
    if not isinstance(label, Label) or label.side:
        return None
    if label.vehicle == "trailer":
        return "gawr" if label.wheel == "axle" else None
    return AXLE_LIMITS.get(label.axle or AXLE_AT.get(label.end_of or "", ""))


def is_what_we_have(scene: Scene, figure: Figure) -> bool:
    """'the hitch's max is 1,500 and we're at 1,180', '..., ours is 1,040': held against it."""
    lead = scene.tokens[max(0, figure.start - 3) : figure.start]
    lead = lead[:-1] if lead and "at" in lead[-1].groups else lead[-2:]
    if not lead or "we_have" not in lead[-1].groups:
        return False
    return any("ours" in token.groups for token in lead)


def _is_a_load(label: Label) -> bool:
    """Whether a label names an axle, a tongue, a vehicle or a whole that can be weighed."""
    return (label.places_load or label.only_vehicle) and not (
        label.rating or label.rating_subject or label.field or label.compound or label.only_ordinal
    )


def _is_held_against(scene: Scene) -> bool:
    """'trailer 9,260 vs 10,400 rating', and not 'price of the trailer 5,200, rated 7,000'."""
    return "against_limit" in scene.groups or scene.has("weigh_cue")


def _alike(first: Figure, second: Figure) -> bool:
    low, high = ALIKE
    return min(first.value, second.value) >= LEAST and low <= second.value / first.value <= high


def _is_apart(scene: Scene, figure: Figure) -> bool:
    """'90 under the rating': by how much a load is away from its limit."""
    behind = scene.tokens[figure.end : figure.end + 4]
    if not behind or behind[0].text.split(" ")[0] not in scene.book.groups["apart_from_limit"]:
        return False
    return any(not RATED.isdisjoint(token.senses) for token in behind[1:])


def _weigh_beyond(scene: Scene, apart: Figure, load: Figure) -> None:
    """'60 kg over its ATM, 2,560', '240 over the gvwr at 9,990': that was weighed.

    'under gcwr of 23,400' is the limit.
    """
    limits = next((each for each in scene.labels if each.rating and each.start > apart.end), None)
    if limits is None or limits.bound not in (apart, load) or limits.end > load.start:
        return
    if not leads_to_load(scene, limits, load):
        return
    vehicle = apart.label
    scene.claim(apart, "how far from a limit")
    load.label = limits.bound = None
    if isinstance(vehicle, Label) and vehicle.only_vehicle:
        load.label, vehicle.bound = vehicle, load  # 'camper came in 240 over its gvwr at 9,990'
    elif limits.rating in WEIGHED_OF:
        _name_load(scene, limits, load)


def is_past_limit(scene: Scene, limits: Label, load: Figure) -> bool:
    """'the van was 60 kg over its ATM, 2,560': so much was told before of how far it is past it."""
    ahead = scene.tokens[max(0, limits.start - 2) : limits.start]
    apart = scene.book.groups["apart_from_limit"]
    past = next((at for at, each in enumerate(ahead) if each.text.split(" ")[0] in apart), None)
    if past is None or limits.start - len(ahead) + past == 0:
        return False
    before = scene.tokens[limits.start - len(ahead) + past - 1]
    return (before.kind is NUMBER or "unit" in before.senses) and leads_to_load(scene, limits, load)


def leads_to_load(scene: Scene, limits: Label, load: Figure) -> bool:
    """Whether a mark, 'at' or 'weighed' parts what was weighed from a limit: ', which is' not."""
    between = scene.tokens[limits.end : load.start]
    if any("weigh_cue" in token.senses for token in between):
        return True
    parted = any(token.raw in PARTS or "at" in token.groups for token in between)
    states = "copula" in between[-1].senses.get("glue", "") if parted else False
    return parted and ("at" in between[-1].groups or not states)


def _is_limit(scene: Scene, load: Figure, limit: Figure) -> bool:
    """Whether a figure behind a load is said to be what that load may be."""
    label = limit.label
    if isinstance(label, Label) and not _may_limit(label, load):
        return False
    if _is_on_label(scene, limit):
        return True
    between = _plain(scene, load, limit)
    if between is None:
        return False
    said = [token for token in between if token.kind is not MARK]
    behind = scene.tokens[limit.end : limit.end + 1]
    if any(not RATED.isdisjoint(token.senses) or "labelled_part" in token.groups for token in said):
        return not _heads_next(scene, limit)
    if any(_caps(token) for token in behind):
        return True
    if isinstance(label, Label) and _leads_to_limit(scene, load, limit):
        return True
    outright = [token for token in said if not token.groups.isdisjoint(LIMITING)]
    out_of = [token.groups for token in said]
    plain = bool(out_of) and "of" in out_of[-1] and len(said) <= OUT_OF
    return plain and bool(outright) and _surely(scene, load, behind)


def _is_on_label(scene: Scene, limit: Figure) -> bool:
    """'hitch weight 1,140, way over the 1,000 on the sticker': a limit by where it stands."""
    behind = [
        token for token in scene.tokens[limit.end : limit.end + 3] if "article" not in token.groups
    ]
    led = bool(behind) and "on_the" in behind[0].groups
    return led and any("rating_cue" in token.senses for token in behind[1:2])


def _may_limit(label: Label, load: Figure) -> bool:
    """Whether a label of the limit leaves it the load's: 'gawr', of a tongue 'hitch rated'."""
    tongue = isinstance(load.label, Label) and load.label.whole == "tongue"
    if tongue and label.rating_subject in HOLDS_TONGUE:
        return not label.rating
    return label.rating == "gawr" and not label.places


HOLDS_TONGUE = frozenset(("hitch", "ball", "coupler"))
"""What is rated for a tongue that rests on it."""


def _is_used(scene: Scene, used: Figure, limit: Figure) -> bool:
    """'payload used 2,840 of 3,412': so much of a limit, which stands behind."""
    between = [
        each for each in scene.tokens[used.end : limit.start] if "article" not in each.groups
    ]
    of = bool(between) and "of" in between[-1].groups and len(between) <= OUT_OF
    return of and not isinstance(limit.label, Label) and used.value < limit.value


OUT_OF = 2
"""Words that say that a load is so much of its limit: 'of', 'out of'."""


def _plain(scene: Scene, load: Figure, limit: Figure) -> Sequence[Token] | None:
    """The tokens between, but for the load's own label; None where more is told there."""
    label = load.label
    between = [
        scene.tokens[index]
        for index in range(load.end, limit.start)
        if not (isinstance(label, Label) and label.start <= index < label.end)
    ]
    if not between or len(between) > MOST_BETWEEN:
        return None
    known = all(
        token.kind is MARK
        or "rating_subject" in token.senses
        or not SMALL.isdisjoint(token.senses)
        or not token.groups.isdisjoint(LIMITING)
        for token in between
    )
    return None if not known or any(token.ends_sentence for token in between) else between


SMALL = frozenset(("glue", *RATED))
"""Classes of term that may stand between a load and its limit."""


def _caps(token: Token) -> bool:
    """'a 7,000 rating', '7,000 max', '1,200 allowed'."""
    return "rating_cue" in token.senses or not token.groups.isdisjoint(("allows", "caps"))


def _heads_next(scene: Scene, limit: Figure) -> bool:
    """'max 5,250 front' names another place: what stands behind is its own label."""
    behind = scene.tokens[limit.end : limit.end + 1]
    if all(PLACES.isdisjoint(token.senses) for token in behind):
        return False
    own = next((each.bound for each in scene.labels if each.start == limit.end), None)
    return own is None or own.start < limit.end  # 'gawr 5,600 drive 6,240'


def _surely(scene: Scene, load: Figure, behind: Sequence[Token]) -> bool:
    """Whether 'of' alone is enough: of an axle or a tongue, and not of 'total 3,200 of 5,000'.

    A gross that is called so is one, too, where nothing is said of what it is held against.
    """
    label = load.label
    if not isinstance(label, Label) or (label.only_end and not _are_both_ends(scene, label)):
        return False
    if label.whole == "gross":
        said = scene.tokens[label.start].groups
        ends = not behind or behind[0].kind is MARK
        return "gross_word" in said and ends and load.value >= LEAST_GROSS
    return load.value >= LEAST_OF or label.whole == "tongue"


def _are_both_ends(scene: Scene, end: Label) -> bool:
    """'front 4,900 of 5,600, rear 6,760 of 7,050': a truck's two ends, and no rows of seats."""
    return any(
        other.only_end
        and other.end_of != end.end_of
        and other.bound
        and other.bound.value >= LEAST_OF
        for other in scene.labels
    )


LEAST_OF, LEAST_GROSS = 1_000, 2_500
"""Pounds or kilograms: an axle, and a rig."""


def _weighed_behind(scene: Scene, limit: Figure, load: Figure) -> bool:
    """'steer rated 5,250, weighed 5,160': the limit first, and then the load."""
    label = limit.label
    if not isinstance(label, Label) or isinstance(load.label, Label) or label.end > limit.start:
        return False
    rated = any("rating_cue" in each.senses for each in scene.tokens[label.end : limit.start])
    return rated and _is_weighed(scene, limit, load)


def _weigh_rated(scene: Scene, limits: Label, limit: Figure, load: Figure) -> None:
    """'drive axle rated 7,000 and we scaled 6,820', 'rear GAWR 7,050, we were at 6,880'."""
    if not isinstance(load.label, Label) and _is_weighed(scene, limit, load):
        _name_load(scene, limits, load)


def _weigh_of_whole(scene: Scene, load: Figure, limit: Figure) -> None:
    """'we came in at 21,300 on a 24,000 gcwr': what is held against the limit of a whole."""
    label = limit.label
    if not isinstance(label, Label) or label.rating not in WEIGHED_OF:
        return
    if label.axle or label.end_of or label.side or label.ordinal or label.wheel or label.whole:
        return
    paid = load.start > 0 and "before_money" in scene.tokens[load.start - 1].groups
    if _leads_to_limit(scene, load, limit) and not paid and _alike(load, limit):
        _name_load(scene, label, load)


def _leads_to_limit(scene: Scene, load: Figure, limit: Figure) -> bool:
    """'6,880 on a 7,050 gawr', '6,880 on the rear of a 7,050 gawr'."""
    own, label = load.label, limit.label
    start = own.end if isinstance(own, Label) and own.start >= load.end else load.end
    between = scene.tokens[start : limit.start]
    lead = [token for token in between if token.groups.isdisjoint(("article", "our"))]
    held = len(lead) == 1 and not lead[0].groups.isdisjoint(HELD_AGAINST)
    return held and isinstance(label, Label) and label.start >= limit.end


HELD_AGAINST = frozenset(("of", "on_or_in", "against_limit"))
"""Groups of words of which one alone leads from a load to the limit of a whole."""


def _name_load(scene: Scene, limits: Label, load: Figure) -> None:
    """Give a load the name of what its limit is of: an axle, the truck, or all of the rig.

    What a trailer weighs may be its axles or the whole of it: it has to be said which.
    """
    label = copy(limits)
    of = WEIGHED_OF[limits.rating or ""]
    if of == "truck" and is_of_trailer(scene, limits, load):
        return
    label.rating = label.end_of = None
    label.start = label.end = load.start
    if of in ("gross", "tongue"):
        label.whole, label.vehicle, label.name, label.rating_subject = of, None, None, None
    elif of == "truck":
        label.vehicle = of
    else:
        label.axle = of
    label.bound, load.label, load.role = load, label, "load"


WEIGHED_OF = {
    **{limit: axle for axle, limit in AXLE_LIMITS.items()},
    "gcwr": "gross",
    "gvwr": "truck",
    "tongue": "tongue",
}
"""What a load is of that is told beside a limit."""


def _is_weighed(scene: Scene, limit: Figure, load: Figure) -> bool:
    """Whether words for weighing, or 'we were at', 'ours is', lead from a limit to a load."""
    between = scene.tokens[limit.end : load.start]
    if len(between) > MOST_BETWEEN or any(token.ends_sentence for token in between):
        return False
    if any("weigh_cue" in token.senses or "actual_word" in token.groups for token in between):
        return True
    ours = any("ours" in token.groups for token in between)
    return ours and bool(between) and "we_have" in between[-1].groups and _ends(scene, load)


def _ends(scene: Scene, load: Figure) -> bool:
    """Whether no thing stands behind a load, and none of it is 'left'."""
    behind = scene.tokens[load.end : load.end + 1]
    small = all(token.kind is not WORD or "glue" in token.senses for token in behind)
    return small or any("now_word" in token.groups for token in behind)


def _rating_of(scene: Scene, label: Label) -> tuple[str, str] | None:
    """The rating that a load's limit is; None where no label states one."""
    if label.side:
        return None
    if label.vehicle == "trailer" or label.ordinal:
        several = any("axles" in each.groups for each in scene.tokens[label.start : label.end])
        one = label.wheel == "axle" or label.axle
        return ("trailer", "gawr") if one and not several else None
    end = AXLE_LIMITS.get(label.axle or "") or (
        f"gawr_{label.end_of}" if label.end_of in ("front", "rear") else None
    )
    if end is not None:
        return "truck", end
    return ("hitch", "tongue") if label.whole == "tongue" else None
