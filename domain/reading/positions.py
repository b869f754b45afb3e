"""The place on the rig that a labelled load was on.

This file decides positions from labels alone: 'axle 3', 'left rear' under a heading, the parts
that a label leaves open and the one before it closes. Loads without a label are placed in
`bare_loads`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.entries import POSITIONS, SINGLE_AXLES, SUM_TOLERANCE
from domain.reading.claimed_forms import COUNT_OF_AXLES
from domain.reading.figures import Figure
from domain.reading.label import AXLE_AT, Label
from domain.reading.loads import bears_apart
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, WORD

IN_ORDER = ("steer", "drive", "trailer")
TRUCKS_OWN = set(IN_ORDER[:2])


def place(scene: Scene, figures: Sequence[Figure], rig: str | None = None) -> dict[str, Figure]:
    """Positions for labelled figures; a part that a label leaves open comes from the one before.

    `rig` is how it stood, where that is said.
    """
    if len(figures) >= MIDDLE + 1:
        _settle_middle(scene, figures)
    if len(figures) > MIDDLE + 1 and "axle_noun" in scene.by_class:
        _settle_group(scene, figures)
    header = _header(scene, figures)
    numbered = [
        figure.label
        for figure in figures
        if isinstance(figure.label, Label) and figure.label.ordinal and figure.label.wheel
    ]
    if numbered and header is None and len(numbered) < len(figures):
        numbered += _counted_on(figures, numbered)
    axles = len({label.ordinal for label in numbered})
    ahead, towed = _numbered_through(numbered) if numbered else (0, 0)
    placed: dict[str, Figure] = {}
    vehicle = header.vehicle if header else None
    axle: str | None = None
    ends_on_trailer = header is not None and header.vehicle == "trailer"
    in_trailer_series = False
    alone = axles > 1 and _truck_by_itself(figures)
    for figure in figures:
        label = figure.label
        position: str | None
        if not isinstance(label, Label) or label.whole == "ignored" or is_absent(scene, label):
            continue
        if label.vehicle == "truck":
            in_trailer_series = ends_on_trailer = False
        if label.vehicle == "rig" and label.only_vehicle:
            ours = _weighs_our_rig(scene, label, figure)
            ours = ours or _is_told_whole(scene, label, figure, figures)
            position = "gross" if ours else None
        elif label.whole:
            position = _whole_position(scene, label, figures)
        elif label.to_ordinal:  # 'axles three and four'
            position = "truck" if label.to_ordinal == LAST_OF_TRUCK else "trailer"
        elif label.ordinal and label.vehicle != "trailer" and not in_trailer_series:
            announced = alone or _trailer_announced(scene, label)
            announced = announced or (bool(label.side) and _truck_told(figures))
            announced = announced or (label.ordinal in (1, 2) and placed.keys() >= TRUCKS_OWN)
            position = None if announced else _axle_by_number(label, axles)
            if position is None and (vehicle == "trailer" or announced):
                position = f"trailer_{label.ordinal}"
                in_trailer_series = True
            axle = position
        else:
            own = label.axle or ("steer" if label.end_of == "front" else None)
            own = own or ("drive" if label.end_of == "rear" else None)
            if label.vehicle == "trailer" or (in_trailer_series and label.ordinal):
                position = _trailer_position(label)
                if position in placed and label.end_of == "rear" and not label.side:
                    position = next((name for name in SINGLE_AXLES if name not in placed), None)
                if ahead and label.ordinal and label.wheel:
                    position = "trailer" if towed == 1 else f"trailer_{label.ordinal - ahead}"
                # 'trailer axles front 3,880 middle 3,940 rear 3,860'
                ends = label.end_of == "front" and not label.side
                in_trailer_series |= bool(label.ordinal or label.heads_axles or ends)
                ends_on_trailer = ends_on_trailer or bool(label.side and label.end_of)
                axle = position
            elif in_trailer_series and label.end_of == "rear" and not label.axle:
                position = next((name for name in SINGLE_AXLES if name not in placed), None)
            elif (
                ends_on_trailer
                and own
                and label.vehicle is None
                and not (_of_truck(scene, label) or _told_of_trailer(figures, label))
            ):
                position = _trailer_position(label)
            elif label.wheel == "axle" and not (own or label.vehicle or label.side):
                position = "trailer"
            elif label.vehicle == "truck" and not own:
                position = None if rig == "trailer" else "truck"  # that was not on the scale
            elif own:
                position, axle = own, own
            elif label.side and (axle := _axle_over(scene, label) or axle):
                position = axle
            elif label.side and (ends_on_trailer or rig == "trailer" or _beside_tongue(figures)):
                position = "trailer"
            elif label.side:
                position = _axle_behind(scene, figures)
            else:
                position = None
        if position and label.side and not label.whole and position != "truck":
            axle, position = position, f"{position}_{label.side}"
        if position in POSITIONS and position not in placed:
            placed[position] = figure
    return _parts_of_trailer(scene, placed) if placed.keys() == {*IN_ORDER} else placed


def _settle_group(scene: Scene, figures: Sequence[Figure]) -> None:
    """'steers 5,020 drives 7,400, tandem: front 3,310 rear 3,450': both of the truck's are told."""
    named = {
        each.label.axle
        for each in figures
        if isinstance(each.label, Label)
        and "trucks_axle" in scene.tokens[each.label.end - 1].groups
    }
    for label in scene.labels if named == TRUCKS_OWN else ():
        if label.only_axles and label.bound is None:
            label.vehicle = "trailer"


def _counted_on(figures: Sequence[Figure], numbered: Sequence[Label]) -> list[Label]:
    """'1st axle 5180 2nd axle 6900 3rd 4900': numbers that go on where axles were counted."""
    counted = max(label.ordinal or 0 for label in numbered)
    found: list[Label] = []
    for figure in figures:
        label = figure.label
        if isinstance(label, Label) and label.only_ordinal and label.ordinal == counted + 1:
            counted, label.wheel = counted + 1, numbered[-1].wheel
            label.vehicle = numbered[-1].vehicle
            found.append(label)
    return found


def _parts_of_trailer(scene: Scene, placed: dict[str, Figure]) -> dict[str, Figure]:
    """'trailer tandems 9,060, that's 4,500 front axle and 4,560 rear': axles that make the other's.

    The trailer's axles are told first, and no word is the truck's own.
    """
    trailer, front, rear = (placed[at] for at in ("trailer", "steer", "drive"))
    off = abs(front.value + rear.value - trailer.value)
    if off > SUM_TOLERANCE * trailer.value or trailer.start > min(front.start, rear.start):
        return placed
    labels = [each.label for each in (front, rear) if isinstance(each.label, Label)]
    if any("trucks_axle" in scene.tokens[label.start].groups for label in labels):
        return placed
    return {"trailer": trailer, "trailer_1": front, "trailer_2": rear}


LAST_OF_TRUCK = 2
"""Axles of a pickup; those counted behind them are its trailer's."""


def _settle_middle(scene: Scene, figures: Sequence[Figure]) -> None:
    """'front axle 3,720, middle 3,880, back 3,940': three axles in a row are a trailer's."""
    labels = [figure.label for figure in figures if isinstance(figure.label, Label)]
    for row in zip(labels, labels[1:], labels[2:], strict=False):
        front, middle, rear = row
        if middle.ordinal != MIDDLE or "middle_one" not in scene.tokens[middle.start].groups:
            continue
        ends = front.end_of == "front" or front.axle == "steer"
        ends = ends and (rear.end_of == "rear" or rear.axle == "drive")
        if not ends or any(label.side or label.whole for label in row):
            continue
        if _is_whole_rig(row):
            front.axle, middle.axle, middle.ordinal, rear.axle = *IN_ORDER[:2], None, None
            rear.vehicle, rear.wheel = "trailer", "axle"
            front.end_of = rear.end_of = None
            continue
        for number, label in enumerate(row, 1):
            label.vehicle, label.wheel, label.ordinal = "trailer", "axle", number
            label.axle = label.end_of = None


def _is_whole_rig(row: Sequence[Label]) -> bool:
    """'FRONT 5180 MIDDLE 6900 BACK 9240': too unlike for a trailer's, so they are of the rig."""
    loads = [label.bound.value for label in row if label.bound]
    named = any(label.vehicle for label in row)
    return not named and len(loads) == len(IN_ORDER) and max(loads) > UNLIKE_THREE * min(loads)


UNLIKE_THREE = 1.4
"""How many times as much as another no axle of three in a row bears; common practice, no source."""

MIDDLE = 2
"""Which of three axles the middle one is."""


def _told_of_trailer(figures: Sequence[Figure], corner: Label) -> bool:
    """'tlf 2,410 tlr 2,520 rf 2,640 trf 2,450': the trailer has a figure of its own there."""
    labels = [figure.label for figure in figures if isinstance(figure.label, Label)]
    return any(
        label.vehicle == "trailer" and (label.side, label.end_of) == (corner.side, corner.end_of)
        for label in labels
    )


def _weighs_our_rig(scene: Scene, label: Label, figure: Figure) -> bool:
    """'our rig weighs 21,140', and neither 'a rig like that' nor 'the rig cost 21,140'."""
    before = scene.tokens[label.start - 1] if label.start else None
    between = scene.tokens[label.end : figure.start]
    plain = all(token.kind is MARK or token.senses.keys() & SAID_OF_LOADS for token in between)
    return plain and scene.has("weigh_cue") and (before is None or "our" in before.groups)


SAID_OF_LOADS = frozenset(("glue", "weigh_cue"))


def _is_told_whole(scene: Scene, label: Label, figure: Figure, figures: Sequence[Figure]) -> bool:
    """'outfit 8,940 all up', 'rig 18,940, camper axles 9,390': all of it, or a part of it too.

    So it is with all its parts: 'rig 6,180, ute 3,040, van 3,140'.

    Neither what 'a combo like that' makes nor what somebody 'bought the outfit' for is.
    """
    if not _heads_its_load(scene, label, figure):
        return False
    if any(each.whole == "gross" and each.start == figure.end for each in scene.labels):
        return True
    parts = [each for each in figures if each is not figure]
    labels = [each.label for each in parts if isinstance(each.label, Label)]
    borne = all(part.axle or part.only_its_axles or part.only_axles for part in labels)
    off = abs(sum(each.value for each in parts) - figure.value)
    borne = borne or (len(labels) == len(parts) > 1 and off <= SUM_TOLERANCE * figure.value)
    return bool(labels) and borne and all(each.value < figure.value for each in parts)


def _heads_its_load(scene: Scene, label: Label, figure: Figure) -> bool:
    """Whether what is told begins with a rig, and goes on to its load."""
    between = scene.tokens[label.end : figure.start]
    if not all(token.senses.keys() & SAID_OF_LOADS for token in between):
        return False
    lead = scene.tokens[max(0, label.start - 2) : label.start]
    if lead and "our" in lead[-1].groups:
        lead = lead[:-1]
    headed = not lead or lead[-1].kind is not WORD or lead[-1].raw == ":"
    return headed or "weigh_cue" in lead[-1].senses


def _numbered_through(numbered: Sequence[Label]) -> tuple[int, int]:
    """'AXLE 2 (DRIVE), AXLE 3 (TRAILER)': how many axles are counted before the trailer's.

    That is 0 where the trailer's begin at 1. Beside it, how many are the trailer's.
    """
    towed = {label.ordinal or 0 for label in numbered if label.vehicle == "trailer"}
    own = {label.ordinal for label in numbered if label.vehicle != "trailer"}
    through = bool(own and towed) and own == set(range(1, min(towed)))
    return (len(own) if through else 0), len(towed)


def _axle_over(scene: Scene, label: Label) -> str | None:
    """'rear axle by side: left 3,420, right 3,480': the axle that heads the sides."""
    heads = [
        other
        for other in scene.labels
        if other.bound is None
        and other.end <= label.start
        and (other.axle or other.end_of or other.only_ordinal or other.vehicle == "trailer")
        and not (other.rating or other.subject or other.aside)
    ]
    if not heads:
        return None
    last = heads[-1]
    if any(
        isinstance(figure.label, Label)
        and (
            figure.label.axle
            or figure.label.end_of
            or figure.label.vehicle
            or (figure.label.ordinal and figure.label.side)
        )
        for figure in scene.figures
        if last.end <= figure.start < label.start
    ):
        return None  # another axle was named since
    if last.only_ordinal:  # 'first trailer axle 2,480 left ..., second one 2,440 left ...'
        towed = any(other.vehicle == "trailer" and other.ordinal for other in heads)
        return f"trailer_{last.ordinal}" if towed else None
    if last.vehicle == "trailer":
        return _trailer_position(last)
    return last.axle or ("steer" if last.end_of == "front" else "drive")


def _of_truck(scene: Scene, label: Label) -> bool:
    """Whether an axle is the truck's although a trailer heads the list."""
    if label.axle is None:
        return False
    both = scene.has("vehicle", "truck") or _names_truck(scene)
    named = scene.tokens[label.start : label.end]
    return both or any("trucks_axle" in token.groups for token in named)


def _names_truck(scene: Scene) -> bool:
    """Whether the truck is named for more than what a trailer hangs on: 'hooked to Juniper'."""
    return any(
        value.startswith("truck:") and not (index and "hitch" in scene.tokens[index - 1].senses)
        for index, _, value in scene.find("name")
    )


def _trailer_announced(scene: Scene, label: Label) -> bool:
    """'then the trailer: axle one 4,660': the trailer named before numbered axles."""
    for other in scene.labels:
        if other.bound is not None or other.aside:
            continue
        if other.vehicle == "trailer" and _heads_axles(scene, other, label):
            return True
        whole = other.only_vehicle or other.only_its_axles  # 'tandem van: first axle 1,310'
        if whole and other.vehicle == "trailer":
            following = scene.tokens[other.end] if other.end < len(scene.tokens) else None
            if other.end <= label.start and following is not None and following.raw in ":,-":
                return True
            if _said_last(scene, other):
                return True
    return False


def _heads_axles(scene: Scene, trailer: Label, first: Label) -> bool:
    """'camper by wheel: axle 1 left ...', 'weighed the camper. axle 1 4,410 ...': axles alike."""
    if not trailer.all_of_vehicle or trailer.subject or trailer.rating:
        return False
    between = scene.tokens[trailer.end : first.start]
    headed = any(token.raw == ":" or token.ends_sentence for token in between)
    if not headed or len(between) > LONGEST_HEADING or _names_truck(scene):
        return False
    if _stood(scene, trailer.end) or scene.has("vehicle", "truck"):
        return False
    labels = [figure.label for figure in scene.live if isinstance(figure.label, Label)]
    values = [label.bound.value for label in labels if label.bound and label.ordinal]
    return len(values) > 1 and max(values) < NO_TRUCKS * min(values)


LONGEST_HEADING = 5
"""Tokens between a trailer that heads its axles and the first of them."""


def _said_last(scene: Scene, trailer: Label) -> bool:
    """'first axle 4,410 second axle 4,660 on the flatdeck': whose the two axles are."""
    figures = [each for each in scene.live if each.start < trailer.start]
    labels = [each.label for each in figures if isinstance(each.label, Label)]
    numbered = [label for label in labels if label.ordinal and label.wheel and not label.vehicle]
    lead = scene.tokens[max(0, trailer.start - 2) : trailer.start]
    led = any(not token.groups.isdisjoint(BELONGS) for token in lead)
    if not led or len(numbered) != len(figures):
        return False
    values = [each.value for each in figures]
    alike = len(values) == len(IN_ORDER) and max(values) < NO_TRUCKS * min(values)
    return alike or len(values) == len(IN_ORDER) - 1


def _axle_behind(scene: Scene, figures: Sequence[Figure]) -> str | None:
    """'driver side 4,480, passenger side 4,620 on the camper': whose sides they are, said last."""
    sides = [each.label for each in figures if isinstance(each.label, Label)]
    last = scene.labels[-1]
    if last.bound is not None or last.aside or last.side or last.rating:
        return None
    lead = scene.tokens[max(0, last.start - 2) : last.start]
    led = any(not token.groups.isdisjoint(BELONGS) for token in lead)
    led = led or last.start == figures[-1].end  # 'l 2,580 r 2,610 steer'
    if not led or len(sides) != 2 or not all(label.only_side for label in sides):
        return None
    if last.vehicle == "trailer":
        return _trailer_position(last)
    return last.axle or AXLE_AT.get(last.end_of or "")


def _beside_tongue(figures: Sequence[Figure]) -> bool:
    """'nearside 690, offside 720, nose 85': the sides of what rests on its own tongue."""
    labels = [each.label for each in figures if isinstance(each.label, Label)]
    sides = sum(label.only_side for label in labels)
    return sides == len(labels) - 1 == len(IN_ORDER) - 1 and any(
        label.whole == "tongue" for label in labels
    )


NO_TRUCKS = 1.25
"""Axles more alike than so are no steer, drive and trailer axles; common practice, no source."""

BELONGS = frozenset(("on_the", "of", "standing_on"))
"""Groups of small words that lead from axles to whose they are."""


def _truck_by_itself(figures: Sequence[Figure]) -> bool:
    """'axle 1 4,560 axle 2 4,580, truck 12,100': a truck of another weight than those axles."""
    truck = [f for f in figures if isinstance(f.label, Label) and _is_whole_truck(f.label)]
    axles = [
        f.value
        for f in figures
        if isinstance(f.label, Label) and f.label.ordinal and f.label.wheel and not f.label.vehicle
    ]
    if len(truck) != 1 or len(axles) < len(IN_ORDER) - 1:
        return False
    return abs(sum(axles[:2]) - truck[0].value) > SAME * truck[0].value


def _is_whole_truck(label: Label) -> bool:
    return label.only_vehicle and label.vehicle == "truck"


SAME = 0.05
"""So near to it, two axles make a truck's weight."""


def is_absent(scene: Scene, label: Label) -> bool:
    """'no truck 15,240': what was not on the scale has no load."""
    absent = label.start > 0 and "absent" in scene.tokens[label.start - 1].groups
    return absent and label.only_vehicle


def axles_counted(scene: Scene) -> int:
    """How many axles the message speaks of: '3 axles', 'both axles'; 0 where it does not say."""
    for index, token, key in scene.find("axle_noun"):
        before = scene.tokens[max(0, index - 2) : index]
        if key == "axle" and any("pair" in each.groups for each in (*before, token)):
            return 2
    counts = [figure.value for figure in scene.figures if figure.claimed == COUNT_OF_AXLES]
    return int(counts[0]) if counts else 0


ALONE_POSITIONS = {"steer": "trailer_1", "drive": "trailer_2"}


def on_trailer_alone(placed: dict[str, Figure]) -> dict[str, Figure]:
    """A trailer by itself has a front and a back axle, and a coupling that carries the tongue."""
    moved: dict[str, Figure] = {}
    for position, figure in placed.items():
        axle, _, side = position.partition("_")
        moved[f"{ALONE_POSITIONS.get(axle, axle)}{side and f'_{side}'}"] = figure
    return moved


def _header(scene: Scene, figures: Sequence[Figure]) -> Label | None:
    """A label without a figure of its own that sets the stage: 'camper wheel weights ...'."""
    first = figures[0].start if figures else 0
    for label in scene.labels:
        if label.bound is None and label.vehicle == "trailer" and label.start < first:
            if label.rating or label.subject or label.aside or bears_apart(figures):
                continue
            following = scene.tokens[label.end] if label.end < len(scene.tokens) else None
            stood = _stood(scene, label.end)
            if stood and not (label.only_its_axles and two_axles(figures)):
                continue  # 'float on: 1,160 front ...': how the rig stood
            if scene.has("axle_noun", "wheel"):
                return label
            announced = following is not None and following.raw in ":-–—"
            if label.wheel or announced or _opens_list(scene, label, first):
                return label
    return None


def _opens_list(scene: Scene, label: Label, first: int) -> bool:
    """'camper front 3,100 ...', 'open trailer, 2 axles: ...'; not "camper's off. 5,060 front"."""
    if not all(at in scene.unknown for at in range(label.start)):
        return False
    near = first - label.end <= 2 or _counts_axles(scene, label.end, first)
    return near and not any(token.raw in ".!?;" for token in scene.tokens[label.end : first])


def _counts_axles(scene: Scene, behind: int, first: int) -> bool:
    """'camper, 2 axles: front 3,100, rear 3,240': how many it has stands before their loads."""
    if any("pair" in token.groups for token in scene.tokens[behind:first]):
        return True  # 'camper, tandem: ...'
    told = range(behind, first)
    return any(each.claimed == COUNT_OF_AXLES and each.start in told for each in scene.figures)


def _stood(scene: Scene, behind: int) -> bool:
    """Whether what follows a trailer says that it was on or off: 'camper still hooked on'."""
    tokens = scene.tokens
    while behind < len(tokens) and "now_word" in tokens[behind].groups:
        behind += 1
    return behind < len(tokens) and (
        tokens[behind].text in scene.book.keys["switch"]
        or "stands_behind" in tokens[behind].groups
        or not tokens[behind].senses.keys().isdisjoint(("hitch", "rig"))
    )


def two_axles(figures: Sequence[Figure]) -> bool:
    """Whether a front and a rear axle are told and no more, and not of which vehicle."""
    labels = [figure.label for figure in figures if isinstance(figure.label, Label)]
    axles = {label.axle for label in labels if not (label.vehicle or label.side)}
    return len(labels) == len(axles) and axles == {*IN_ORDER[:2]}


def _whole_position(scene: Scene, label: Label, figures: Sequence[Figure]) -> str:
    if label.whole == "tongue":
        return "tongue"
    for other in scene.labels:
        if other.bound is None and other.end == label.start and other.vehicle and not other.axle:
            if other.vehicle == "truck" and len(figures) > 1:
                return "truck"
            if other.vehicle == "trailer" and len(figures) > 1:
                return "trailer"
    return "gross"


def _axle_by_number(label: Label, axles: int) -> str | None:
    if not label.wheel or axles < 2 or label.ordinal is None:
        return None
    if label.ordinal <= 2:
        return IN_ORDER[label.ordinal - 1]
    if axles == 3 and label.ordinal == 3:
        return "trailer"
    return f"trailer_{label.ordinal - 2}" if label.ordinal <= 5 else None


def _trailer_position(label: Label) -> str:
    if label.ordinal:
        return f"trailer_{label.ordinal}"
    if label.end_of == "front" or label.axle == "steer":
        return "trailer_1"
    if label.end_of == "rear" or label.axle == "drive":
        return "trailer_2"
    return "trailer"


def axle_list(scene: Scene, figures: Sequence[Figure]) -> list[Figure]:
    """'trailer has 3 axles: 3,420 3,380 3,460': figures in a row behind the trailer's axles."""
    for number, figure in enumerate(figures):
        label = figure.label
        lists = (
            isinstance(label, Label)
            and label.wheel == "axle"
            and label.vehicle in (None, "trailer")
            and not (label.axle or label.end_of or label.side)
            and (label.to_ordinal or not label.ordinal)
            and label.end <= figure.start
            and (
                label.vehicle == "trailer"
                or _truck_told(figures[:number])
                or _named_before(scene, label)
                or any(other.whole == "tongue" for other in scene.labels)
            )
        )
        if not lists:
            continue
        row = [figure]
        for other in figures[number + 1 :]:
            if isinstance(other.label, Label) or other.start - row[-1].end > 1:
                break
            lighter, heavier = sorted((figure.value, other.value))
            if heavier > MOST_UNLIKE * lighter:
                break  # the gross that the axles make, or what the jack bears
            row.append(other)
        if len(row) in (2, 3):
            return row
    return []


def _truck_told(figures: Sequence[Figure]) -> bool:
    """'steer 5,420 drive 7,380, axles front to back 3,940, 4,010': the others are a trailer's."""
    named = {figure.label.axle for figure in figures if isinstance(figure.label, Label)}
    return named >= {*IN_ORDER[:2]}


MOST_UNLIKE = 2
"""One axle of a trailer bears less than so many times another; common practice, no source."""


def _named_before(scene: Scene, label: Label) -> bool:
    return any(
        other.vehicle == "trailer" and other.bound is None and other.end <= label.start
        for other in scene.labels
    )


def positions_in_order(count: int, *, solo: bool) -> tuple[str, ...] | None:
    """The positions of loads in the order in which a rig rolls over a scale; None where unclear."""
    if count == 2 and solo:
        return ("steer", "drive")
    if count == 3:
        return IN_ORDER
    if count in (4, 5):
        return ("steer", "drive", *SINGLE_AXLES[: count - 2])
    return None
