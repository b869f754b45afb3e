"""Whether a message speaks of a label: then plain places with their figures are rated, not weighed.

This file decides it by words for labels and limits, by a GVWR beside the places, and by figures
in the steps that makers round to. Which rating a figure is, is decided in `ratings`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import Figure
from domain.reading.label import ENDS, Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, NUMBER

LEAST_STAMPED = 1000
"""Pounds or kilograms: less is no maker's limit of a hitch or an axle."""


def is_framed(scene: Scene) -> bool:
    """Whether plain places in this message are ratings: it speaks of a label, or of a GVWR."""
    if len(scene.figures) >= FEWEST_WEIGHED and _are_weighed(scene):
        return False
    if "weigh_cue" in scene.by_class and "rating_cue" not in scene.by_class:
        named = [label for label in scene.labels if label.rating and label.bound]
        return len(named) >= 2
    if any(_is_strong(scene, index) for index, _, _ in scene.find("rating_cue")):
        return True
    if "labelled_part" in scene.groups and not _off_step(scene):
        return True
    if "on_receiver" in scene.groups:
        return True
    if any(_is_capped(scene, figure) for figure in scene.figures):
        return True
    if any(_says_gawr(scene, label) for label in scene.labels) or is_plate(scene):
        return True
    if _beside_tyres(scene) or _beside_kerb(scene):
        return True
    if "on_the_door" in scene.groups and _heads_limits(scene):
        return True
    return any(
        (
            label.rating in ("gvwr", "gcwr", "gawr", "gtm", "gawr_front", "gawr_rear", "payload")
            or (label.rating_subject and not _rests_there(scene, label) and not _off_step(scene))
            or (label.rating == "tow" and _is_plated(scene, label))
        )
        and label.bound is not None
        and label.bound.value >= LEAST_STAMPED
        for label in scene.labels
    )


def _heads_limits(scene: Scene) -> bool:
    """'door: front 5,600 rear 7,050': both ends of the truck, in the steps that makers round to."""
    heading = next((at for at, token in enumerate(scene.tokens) if token.raw in ":-–"), 0)
    if not any("on_the_door" in token.groups for token in scene.tokens[:heading][:LONGEST_HEADING]):
        return False
    bound = [each for each in scene.labels if each.bound is not None]
    ends = {each.end_of for each in bound if each.only_end}
    stepped = all(each.bound and not each.bound.value % LABEL_STEP for each in bound)
    return ends == {"front", "rear"} and stepped


def _rests_there(scene: Scene, label: Label) -> bool:
    """'ball weight on the truck hitch 1,240 lb': what rests on a part, and no limit of it."""
    return label.whole == "tongue" and "whole" in scene.tokens[label.start].senses


def _is_plated(scene: Scene, label: Label) -> bool:
    """'braked tow 3,500, towball download 350': in words that only makers use, or on a part."""
    return scene.has("rating_subject") or "plated_tow" in scene.tokens[label.start].groups


def _off_step(scene: Scene) -> bool:
    """'steer 5,180 drive 6,900, ball is stamped 10,000': axles as a scale shows them."""
    return any(
        label.axle and label.bound and label.bound.value % LABEL_STEP for label in scene.labels
    )


FEWEST_WEIGHED = 3
"""Figures: two axles and a limit."""


def _are_weighed(scene: Scene) -> bool:
    """'steer 5,160 drive 6,820 trailer 9,240, gcwr 24,000': loads of a rig beside its limit.

    They make the gross that is told, or none of them is in the steps that makers round to.
    """
    bound = [label for label in scene.labels if label.bound is not None and not label.rating]
    axles = [label for label in bound if label.axle and not label.vehicle]
    towed = [label for label in bound if label.vehicle == "trailer" and not label.axle]
    if len(axles) != len(AXLES) or len(towed) > 1:
        return False
    named = [scene.tokens[label.start] for label in axles]
    if not all("axle_or_word" in token.groups for token in named):
        return False  # 'front axle 3,525, rear axle 3,915, gvwr 6,900' is on a door
    loads = [label.bound.value for label in (*axles, *towed) if label.bound]
    whole = [label.bound.value for label in bound if label.whole == "gross" and label.bound]
    if any(abs(sum(loads) - gross) <= SAME * gross for gross in whole):
        return True
    return all(load % LABEL_STEP for load in loads)


AXLES = ("steer", "drive")
SAME = 0.003


def _is_capped(scene: Scene, figure: Figure) -> bool:
    """'front axle 5,600 max': a round figure with the word for a limit right behind it."""
    behind = scene.tokens[figure.end : figure.end + 2]
    if not behind or "caps" not in behind[0].groups or behind[-1].kind is NUMBER:
        return False
    if not isinstance(figure.label, Label):
        return False
    if figure.label.whole == "tongue" and "max" in behind[0].groups:
        return figure.value % TONGUE_STEP == 0  # 'nose weight 100 kg max'
    return figure.value % LABEL_STEP == 0 and figure.value >= LEAST_STAMPED


def _beside_kerb(scene: Scene) -> bool:
    """'kerb 1,880 gross 2,450 train 4,250': in the steps of a plate, beside what it weighs dry."""
    if not any(label.rating == "curb" and label.bound is not None for label in scene.labels):
        return False
    wholes = [label.bound for label in scene.labels if label.whole == "gross" and label.bound]
    weighed = scene.has("weigh_cue") or scene.has("axle")
    return bool(wholes) and not weighed and all(each.value % LABEL_STEP == 0 for each in wholes)


def _beside_tyres(scene: Scene) -> bool:
    """'front tires rated 2680, rear axle 7000': round figures of axles beside rated tyres."""
    if not any(label.rating == "tyre_load" and label.bound for label in scene.labels):
        return False
    axles = [label.bound for label in scene.labels if label.axle and label.bound]
    return bool(axles) and all(each.value % LABEL_STEP == 0 for each in axles)


def is_plate(scene: Scene) -> bool:
    """'gvw 3,500 gtw 7,000': of vehicle and train, in steps that a plate has and no scale.

    In any steps where a label is told of: 'truck gross 2,520, train 4,520 on the plate'.
    """
    if "weigh_cue" in scene.by_class or not scene.has("whole", "gross"):
        return False
    wholes = [label for label in scene.labels if label.whole == "gross" and label.bound is not None]
    if any(label.vehicle == "trailer" for label in scene.labels):
        return False
    train = [each for each in wholes if whole_of(scene, each) & scene.book.groups["combination"]]
    stepped = all(each.bound and each.bound.value % LABEL_STEP == 0 for each in wholes)
    if len(train) != 1 or len(wholes) != len(train) + 1:
        return False
    return stepped or "rating_cue" in scene.by_class or _beside_limits(scene, wholes)


def _beside_limits(scene: Scene, wholes: Sequence[Label]) -> bool:
    """'kerb weight 1,480 gvw 2,020 train weight 3,070': what makers tell, or axles for more."""
    bound = [label for label in scene.labels if label.bound is not None]
    if any(label.rating in BESIDE_WHOLES for label in bound):
        return True
    axles = {label.axle: label.bound.value for label in bound if label.axle and label.bound}
    least = min(label.bound.value for label in wholes if label.bound)
    stamped = all(whole_of(scene, label) & scene.book.groups["of_a_plate"] for label in wholes)
    return stamped and axles.keys() == set(AXLES) and sum(axles.values()) > MORE * least


BESIDE_WHOLES = frozenset(("curb", "tank", "tow", "payload"))
"""Ratings that are told with those of a plate, and with no weighing."""

MORE = 1.02
"""Axles of a truck are together for more than the truck is; those weighed make it."""


def _says_gawr(scene: Scene, label: Label) -> bool:
    """'rear 3,900 and front 3,525 it says GAWR', 'front 5,200 rear 6,500 GAWR': of them all."""
    if label.bound is not None or not (label.rating or "").startswith("gawr"):
        return False
    before = scene.tokens[label.start - 1] if label.start else None
    says = before is not None and "says" in before.groups
    says = says or (label is scene.labels[0] and _heads_ends(scene, label))
    ends = label.end == len(scene.tokens) or scene.tokens[label.end].ends_sentence
    return says or (ends and any(figure.end == label.start for figure in scene.figures))


def _heads_ends(scene: Scene, label: Label) -> bool:
    """'GAWR: front 5,600 rear 7,050', 'axle limit 5,600 front, 7,050 rear': a heading of both."""
    ends = [each for each in scene.labels if each.only_end and each.bound is not None]
    if {each.end_of for each in ends} != {"front", "rear"}:
        return False
    first = min(min(each.start, each.bound.start) for each in ends if each.bound)
    return all(token.kind is MARK or token.raw == ":" for token in scene.tokens[label.end : first])


def end_behind(scene: Scene, figure: Figure) -> str | None:
    """'GAWR 5,600 front', 'gawr 5,600 front, weighed 5,120': which end a limit is of."""
    if ENDED.isdisjoint(scene.by_class):
        return None
    behind = next((each for each in scene.labels if each.start == figure.end), None)
    if behind is None or behind.rating or behind.side or behind.vehicle:
        return None
    own = behind.bound is None or behind.bound.start > behind.end
    return (behind.end_of or ENDS.get(behind.axle or "")) if own else None


ENDED = frozenset(("end", "axle"))
"""Classes of term that name an end of the truck."""


def weighed_since(scene: Scene, figure: Figure) -> bool:
    """'door sticker gvwr 11,500, and she scaled 5,360 steer': behind a scale's verb are loads."""
    if not WEIGHED_ENDS.isdisjoint(scene.by_class) and _is_weighed_end(scene, figure):
        return True
    if "was_then" in scene.groups and _was_weighed(scene, figure):
        return True
    for index in range(figure.start - 1, -1, -1):
        token = scene.tokens[index]
        if token.senses.keys() & {"rating_cue", "rating"}:
            return False
        if "on_scale" in token.groups or _heads_weighed(scene, index):
            return True
    return False


def _is_weighed_end(scene: Scene, figure: Figure) -> bool:
    """'front 5,180 rear 6,940, gawr 7,050': the other end was weighed, and so was this one."""
    label = figure.label
    if not isinstance(label, Label) or not figure.value % LABEL_STEP:
        return False
    if not (label.only_end or _is_numbered(label)):
        return False
    alike = [each for each in scene.labels if each.only_end == label.only_end and each.bound]
    ends = [each.bound for each in alike if each.only_end or _is_numbered(each)]
    return len(ends) == len(AXLES) and any(each and each.role == "load" for each in ends)


WEIGHED_ENDS = frozenset(("end", "axle_noun"))
"""Classes of term that tell one of two axles from the other."""


def _is_numbered(label: Label) -> bool:
    """'front trailer axle', 'axle 2': one of a trailer's."""
    return label.wheel == "axle" and not label.axle and bool(label.end_of or label.ordinal)


def _was_weighed(scene: Scene, figure: Figure) -> bool:
    """'sticker says gvwr 9,995, tongue was 1,020': a label tells what is, and a scale what was."""
    label = figure.label
    if not isinstance(label, Label) or label.rating or not (label.places_load and label.bound):
        return False
    limits = [each for each in scene.labels if each.rating and each.bound]
    told = any(each.end <= label.start and not _was_so(scene, each) for each in limits)
    return told and bool(figure.value % LABEL_STEP) and _was_so(scene, label)


def _was_so(scene: Scene, label: Label) -> bool:
    """Whether a label and its figure are told in the past tense."""
    bound = label.bound
    between = scene.tokens[label.end : bound.start] if bound else ()
    return any("was_then" in token.groups for token in between)


def _heads_weighed(scene: Scene, index: int) -> bool:
    """'weighbridge: ute 3,180, van 2,560, gvm 3,350'."""
    behind = scene.tokens[index + 1 : index + 2]
    return "weigh_cue" in scene.tokens[index].senses and any(token.raw == ":" for token in behind)


def rated_behind(scene: Scene, figure: Figure) -> bool:
    """'trailer axles 9,240, rated 10,400': the limit has a figure of its own behind its word."""
    if isinstance(figure.label, Label) and figure.label.rating_subject:
        return False  # 'receiver 12,500, max tongue 1,250'
    cues = scene.by_class.get("rating_cue", ())
    if len(cues) != 1 or cues[0] < figure.end or "rates_it" not in scene.tokens[cues[0]].groups:
        return False
    behind = scene.tokens[cues[0] + 1 : cues[0] + 3]
    parted = any(token.raw in ",(" for token in scene.tokens[figure.end : cues[0]])
    return parted and any(token.kind is NUMBER for token in behind)


TONGUE_STEP = 5
"""Kilograms: what a ball may bear is rounded to less."""

LABEL_STEP = 50
"""Pounds or kilograms: what makers round to; a year is hardly ever a multiple of it."""


def _is_strong(scene: Scene, index: int) -> bool:
    """'plate' is a label where it says or heads something; a scale has plates too."""
    if "weak_label" not in scene.tokens[index].groups:
        return True
    if _is_of_a_scale(scene) or _is_stood_on(scene, index):
        return False
    if index and "rating_subject" in scene.tokens[index - 1].senses:
        return True  # 'coupler plate 14,000'
    if _is_read_off(scene, index):
        return True
    following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
    if following is not None and "tells_limit" in following.groups:
        return True  # 'camper plate gives gross 9,800'
    if _of_vehicle(scene, index):
        # 'trailer plate 7,000 gross', of one figure; 'trailer plate 9,340, gross 20,100' is a scale
        return any(
            label.bound is None and (label.whole == "gross" or _is_off(scene, label, index))
            for label in scene.labels
        )
    if any(label.places_load and label.end == index for label in scene.labels):
        # 'towball max 280 kg', 'drive axle limit of 7,000'
        small = index + 1 < len(scene.tokens) and "glue" in scene.tokens[index + 1].senses
        return any(figure.start == index + 1 + small for figure in scene.figures)
    if "sign_of_limit" in scene.tokens[index].groups and _heads_places(scene, index):
        return True
    if _limits_part(scene, index):
        return True
    if index == 0 and any(token.raw == ":" for token in scene.tokens[1 : 1 + LONGEST_HEADING]):
        return True  # 'plate on the pickup: ...'
    if following is not None and following.senses.get("whole") == "gross":
        return len(list(scene.find("whole", "gross"))) > 1  # 'plate gvw 3200 gtw 6700'
    return following is not None and (following.raw in ":-–" or "says" in following.groups)


def _is_read_off(scene: Scene, plate: int) -> bool:
    """'gross train weight 5,950 on the plate': a whole in the steps that plates have."""
    lead = scene.tokens[plate - 1].groups if plate else frozenset()
    read = "from" in lead  # and nothing is weighed 'from the plate' of a scale
    return (read or not lead.isdisjoint(("on_the", "off_of"))) and any(
        label.whole == "gross"
        and label.bound is not None
        and label.bound.end == plate - 1
        and (read or label.bound.value % LABEL_STEP == 0)
        for label in scene.labels
    )


def _is_off(scene: Scene, label: Label, plate: int) -> bool:
    """'GVWR off the camper's plate': a limit, and the plate that it was read off."""
    between = scene.tokens[label.end : plate]
    small = all(not SMALL.isdisjoint(token.senses) for token in between)
    return label.rating is not None and label.end < plate and small


SMALL = frozenset(("glue", "vehicle", "name"))
"""Classes of term between a limit and the plate that it is read off."""


def _heads_places(scene: Scene, index: int) -> bool:
    """'max 5,250 front, 7,000 rear': a round figure right behind, and its place behind that."""
    figure = next((each for each in scene.figures if each.start == index + 1), None)
    if figure is None or figure.value % LABEL_STEP or figure.value < LEAST_STAMPED:
        return False
    label = figure.label
    return isinstance(label, Label) and label.places_load and label.start == figure.end


def _is_of_a_scale(scene: Scene) -> bool:
    """'steer plate 5,140 drive plate 6,940': a place and a plate, one after the other."""
    places = {label.end: label for label in scene.labels if label.axle or label.only_vehicle}
    plates = [
        places[at]
        for at, token, _ in scene.find("rating_cue")
        if at in places and "sign_of_limit" not in token.groups  # 'steer max 5,140'
    ]
    return len(plates) > 1 and any(label.axle for label in plates)


def _is_stood_on(scene: Scene, plate: int) -> bool:
    """'the flatdeck by itself on the plate: ...': a scale's, on which something was put."""
    ahead = scene.tokens[:plate]
    if ahead and "weigh_cue" in ahead[-1].senses:
        return True  # 'on the weighbridge plate'
    if not ahead or "onto" not in ahead[-1].senses.get("glue", "").split():
        return False
    return any("alone" in token.senses or "stands_there" in token.groups for token in ahead)


def _of_vehicle(scene: Scene, index: int) -> bool:
    """'trailer plate', 'plate on the trailer'; what a scale has is of no vehicle."""
    before, behind = scene.tokens[max(0, index - 1) : index], scene.tokens[index + 1 : index + 4]
    placed = behind and "onto" in behind[0].senses.get("glue", "").split()
    near = (*before, *(each for each in behind[1:] if placed))
    return any(not each.senses.keys().isdisjoint(("vehicle", "name")) for each in near)


def _limits_part(scene: Scene, index: int) -> bool:
    """'límite de peso en la lanza 250', 'limit hitch 650': the part that the limit is of."""
    if "sign_of_limit" not in scene.tokens[index].groups:
        return False
    part = index + 1
    while part < len(scene.tokens) and "joins_label" in scene.tokens[part].groups:
        part += 1
    return any(
        label.start <= part < label.end
        and label.start > index
        and (label.places_load or label.rating_subject)
        and label.bound is not None
        and label.bound.start >= label.end
        for label in scene.labels
    )


LONGEST_HEADING = 4
"""Tokens from the word for a label to the colon behind it."""


def whole_of(scene: Scene, label: Label) -> set[str]:
    """The words of a label, by which a gross is of a vehicle or of a train."""
    return set(scene.words_between(label.start, label.end).casefold().split())
