"""Whose plate a rating is on: the truck's or a trailer's, and which trailer's.

This file decides it by the vehicles that are named before a figure. Which rating a figure is,
is decided in `ratings`.
"""

from __future__ import annotations

from itertools import pairwise

from domain.reading.everyday_words import names_trailer
from domain.reading.figures import Figure
from domain.reading.framing import LEAST_STAMPED, whole_of
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import WORD


def is_trailers(scene: Scene, figure: Figure) -> bool:
    """Whether the nearest vehicle named before the figure (or at all) is a trailer."""
    best: str | None = None
    named = {*scene.by_class.get("vehicle", ()), *scene.by_class.get("name", ())}
    for index in sorted(named):
        if index > figure.start and _has_its_own(scene, index, figure):
            break
        senses = scene.tokens[index].senses
        vehicle = senses["name"].partition(":")[0] if "name" in senses else senses["vehicle"]
        if vehicle in ("truck", "trailer"):
            if index > figure.start and best is not None:
                break
            best = vehicle
    return best == "trailer"


def is_of_trailer(scene: Scene, label: Label, figure: Figure) -> bool:
    """Whether a GVWR or what a vehicle weighs empty is a trailer's."""
    if _is_beside_train(scene, label):
        return False
    said = scene.tokens[label.start : label.end]
    own = any("trailer_rating" in token.groups for token in said)
    if own or is_trailers(scene, figure) or _is_on_tongue(scene):
        return True
    if "printed_dry" in scene.groups and any("printed_dry" in token.groups for token in said):
        # 'dry weight 6,940': a truck's is its curb weight
        return not (scene.has("vehicle", "truck") or scene.named("truck"))
    if not OF_TRAILERS.isdisjoint(scene.groups) and _bears_empty(scene, label, figure):
        return True
    return _is_beside_tongue(scene, label, figure)


def _is_beside_tongue(scene: Scene, label: Label, figure: Figure) -> bool:
    """'GVWR 9,995 and she weighed 9,240 plus 1,020 on the tongue': a truck has no tongue.

    Where nothing is told of a truck.
    """
    others = [each for each in scene.labels if each.bound is not None and each is not label]
    tongue = next((each.bound for each in others if each.whole == "tongue"), None)
    if tongue is None or not SHARE[0] < tongue.value / figure.value < SHARE[1]:
        return False
    if scene.has("vehicle", "truck") or scene.named("truck") or "rating_cue" in scene.by_class:
        return False
    return not any(each.axle or each.rating in ON_TRUCKS_LABEL for each in others)


SHARE = (0.05, 0.25)
"""Of a trailer's GVWR what rests on its tongue or pin."""


def _bears_empty(scene: Scene, label: Label, figure: Figure) -> bool:
    """'UVW 7,640 CCC 2,355 GVWR 9,995': of a trailer's plate, where nothing is said of a truck's.

    Beside an ATM a GVM is the truck's.
    """
    if scene.has("vehicle", "truck") or scene.named("truck"):
        return False
    others = [each for each in scene.labels if each.bound is not None and each is not label]
    if any(each.rating in OF_THE_TRUCK for each in others):
        return False
    return any(
        each.rating == "curb"
        and EMPTY[0] < each.bound.value / figure.value < EMPTY[1]
        and not OF_TRAILERS.isdisjoint(scene.tokens[each.start].groups)
        for each in others
        if each.bound
    )


OF_TRAILERS = frozenset(("trailer_rating", "printed_dry"))
"""Groups of words that stand on a trailer's plate, or in its brochure, and not on a truck's."""

OF_THE_TRUCK = frozenset(("gvwr", "gcwr", "gawr_front", "gawr_rear", "tow"))
"""Ratings beside one of which a GVWR is not surely a trailer's."""

ON_TRUCKS_LABEL = OF_THE_TRUCK | {"payload"}
"""Ratings beside one of which a GVWR may be the truck's, whatever is told of a tongue."""

EMPTY = (0.4, 1.0)
"""What a trailer weighs empty over its GVWR."""


def _is_beside_train(scene: Scene, label: Label) -> bool:
    """'ute 3,180, van 2,560, gvm 3,350 gcm 6,850': beside a GCWR it is of what tows, if named."""
    if label.vehicle or not (scene.has("vehicle", "truck") or scene.named("truck")):
        return False
    at = scene.labels.index(label)
    return any(each.rating == "gcwr" for each in scene.labels[at + 1 : at + 2])


def _is_on_tongue(scene: Scene) -> bool:
    """'sticker on the tongue says gvwr 11,200': where only a trailer has one."""
    return any(
        lead.groups & {"on_the", "on_or_in"} and "front_of_trailer" in place.groups
        for index in scene.by_class.get("rating_cue", ())
        for lead, place in pairwise(scene.tokens[index + 1 : index + 3])
    )


def leads_plate(scene: Scene, figure: Figure) -> bool:
    """Whether a trailer leads a figure's clause, or the plate that it is one rating of."""
    return _of_named_trailer(scene, figure) or _on_trailers_plate(scene, figure)


def _on_trailers_plate(scene: Scene, figure: Figure) -> bool:
    """'camper plate: gvwr 9,880, uvw 7,260, ccc 2,620': a sentence of a trailer and of no truck."""
    start, end = scene.sentence_of(figure.start)
    vehicles = {label.vehicle for label in scene.labels if start <= label.start < end}
    first = start + 1 if "article" in scene.tokens[start].groups else start
    return (
        "truck" not in vehicles
        and names_trailer(scene.tokens[first])
        and any(label.rating == "gvwr" and start <= label.start < end for label in scene.labels)
    )


def _of_named_trailer(scene: Scene, figure: Figure) -> bool:
    """'camper sticker says cargo should never exceed 1,720': the clause begins with a trailer."""
    start, _ = scene.clause_of(figure.start)
    first = start + 1 if "article" in scene.tokens[start].groups else start
    senses = scene.tokens[first].senses
    return senses.get("name", "").startswith("trailer:") or senses.get("vehicle") == "trailer"


def _has_its_own(scene: Scene, index: int, figure: Figure) -> bool:
    """'gvwr 11,500, and she scaled 9,180 trailer': a vehicle that names another figure."""
    return any(
        label.start <= index < label.end
        and label.bound is not None
        and label.bound is not figure
        and label.bound.end <= index
        for label in scene.labels
    )


def which_trailer(scene: Scene, figure: Figure) -> str | None:
    """'flatdeck gvwr 14,000, camper gvwr 9,500': of several trailers the one named last."""
    if len(set(scene.named("trailer"))) < SEVERAL:
        return None
    last = max((each.end for each in scene.figures if each.end <= figure.start), default=0)
    ahead = [
        (index, name.partition(":")[2])
        for index, _, name in scene.find("name")
        if index < figure.start and name.startswith("trailer:")
    ]
    of_both = len({name for index, name in ahead if index >= last}) >= SEVERAL
    return ahead[-1][1] if ahead and not of_both else None


SEVERAL = 2


def is_beside_trailers(scene: Scene, figure: Figure) -> bool:
    """'MTPLM 1,800 kg, max noseweight 90 kg': on a trailer's plate, and none of what tows it."""
    rated = {_rated_as(scene, label) for label in scene.labels if label.bound is not None}
    if not rated.isdisjoint(OF_WHAT_TOWS):
        return False
    if rated.isdisjoint(OF_A_VEHICLE):
        return _names_trailers_plate(scene)
    own = "trailer_rating" in scene.groups
    if own and any(
        each.rating == "gvwr" and each.bound and _bears_empty(scene, each, each.bound)
        for each in scene.labels
    ):
        return True  # 'UVW 7,640 GVWR 9,995 max hitch weight 1,200'
    return (own and rates_trailer_alone(scene)) or is_trailers(scene, figure)


def _rated_as(scene: Scene, label: Label) -> str | None:
    """'plate says gross 3,500 kg': what a label rates, where a gross is no load on a scale."""
    if label.whole != "gross":
        return label.rating
    return "gcwr" if whole_of(scene, label) & scene.book.groups["combination"] else "gvwr"


def _names_trailers_plate(scene: Scene) -> bool:
    """'nose 150 kg max on the flatdeck plate', 'tag on the camper': and of no truck."""
    if scene.has("vehicle", "truck") or scene.named("truck"):
        return False
    for index in scene.by_class.get("rating_cue", ()):
        if "rates_it" in scene.tokens[index].groups:
            continue
        if index and names_trailer(scene.tokens[index - 1]):
            return True
        behind = scene.tokens[index + 1 : index + 4]
        thing = next((each for each in behind if not each.groups & TO_IT), None)
        if thing is not None and thing is not behind[0] and names_trailer(thing):
            return True
    return False


TO_IT = frozenset(("on_the", "on_or_in", "of", "article"))
"""Groups of words between a plate and the trailer that it is on."""


OF_A_VEHICLE, OF_WHAT_TOWS = ("gvwr", "gtm", "curb"), ("tow", "gcwr")
"""Ratings that a plate has beside a tongue's, and those that only the truck's has."""


def rates_trailer_alone(scene: Scene) -> bool:
    """'tare 1,840, atm 2,800': no truck is named, and no rating that a truck may have."""
    gross = [token for _, token, _ in scene.find("rating", "gvwr")]
    own = all("trailer_rating" in token.groups for token in gross)
    return own and not scene.has("vehicle", "truck") and not scene.named("truck")


def rests_on_trailer(scene: Scene, figure: Figure) -> bool:
    """'ATM 3,500 GTM 3,150 tare 2,480 ball 220': what a trailer's plate lets rest on the ball."""
    small = figure.value < LEAST_STAMPED and "trailer_rating" in scene.groups
    return small and is_beside_trailers(scene, figure)


def tells_what_is_towed(scene: Scene) -> bool:
    """'GCM 6,850 braked towing 3,500 ball 350': limits that only the plate of what tows has."""
    rated = {label.rating for label in scene.labels if label.bound is not None}
    return not rated.isdisjoint(OF_WHAT_TOWS)


def of_another_thing(scene: Scene, label: Label) -> bool:
    """'carrying capacity of the raft is 900 lb': of what is no part of a rig."""
    behind = scene.tokens[label.end : label.end + 3]
    if len(behind) < LEAST_OF_THING or "of" not in behind[0].groups:
        return False
    thing = behind[2] if "article" in behind[1].groups else behind[1]
    return thing.kind is WORD and not (thing.senses or thing.groups or thing.raw[0].isupper())


LEAST_OF_THING = 3
"""Tokens: 'of', 'the' and the thing."""


def ends_on_trailer(scene: Scene, figure: Figure) -> bool:
    """'cargo capacity 2,620 on the camper': whose it is, right behind the figure."""
    behind = scene.tokens[figure.end : figure.end + 3]
    if not behind or behind[0].groups.isdisjoint(("on_the", "of", "for")):
        return False
    return any(map(names_trailer, behind[1:]))


def has_own_limit(scene: Scene, figure: Figure) -> bool:
    """'hitch limit 15,000, trailer is 10,910': the hitch's own, and what is held against it."""
    hitch = [label for label in scene.labels if label.rating_subject == "hitch" and label.bound]
    said = scene.tokens[figure.start - 1 : figure.start] if figure.start else ()
    return bool(hitch) and any("is_at" in token.groups for token in said)
