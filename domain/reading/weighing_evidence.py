"""How surely figures were weighed, by what stands in the message and beside each.

A weighing is kept where the evidence reaches what `weighings` asks for. This file decides what
labels, sums, units and words add to it or take from it.
"""

from __future__ import annotations

import math

from domain.context import MASS_UNIT
from domain.entries import POSITIONS
from domain.reading.aboard import people_aboard
from domain.reading.claimed_changes import CHANGE
from domain.reading.figures import LEAST_LOAD, MASS, Figure
from domain.reading.label import Label
from domain.reading.loads import SMALLER
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, WORD
from domain.reading.told_now import is_told_now


def evidence_of_pass(
    scene: Scene, placed: dict[str, Figure], rig: str | None, *, cue: bool, sums: bool
) -> float:
    """How surely the message as a whole says that these figures were weighed."""
    evidence = 3.0 if sums else 0.0
    if cue:
        evidence += 1.5
    if rig:
        evidence += 1.6 if rig != "hitched" else 1.0
    if any(figure.dimension == MASS for figure in placed.values()):
        evidence += 0.9
    wheels = not WHEELS.isdisjoint(placed)
    if wheels and (len(placed) > 2 or (len(placed) == 2 and _towed(scene))):
        evidence += 0.9
    if any(figure.token.grouped or figure.value >= 1000 for figure in placed.values()):
        evidence += 1.0
    if any(figure.role == "load" for figure in placed.values()):
        evidence += BESIDE_LIMIT
    if len(placed) == 1 and _nothing_but(scene, *placed.values()):
        evidence += NOTHING_BUT
    if len(placed) == 1 and people_aboard(scene):
        evidence += WITH_PEOPLE
    if CHANGE in [figure.claimed for figure in scene.figures]:
        evidence += NOTHING_BUT  # 'drive 7,120, up 200 from last time'
    return evidence


BESIDE_LIMIT = 0.9
"""What it adds that a load stands beside its limit, for which `beside_limits` gave it its role."""


WITH_PEOPLE = 0.6
"""What it adds that a load is told with who sat in it: 'truck 8,260, me in it'."""


WHEELS = frozenset(at for at in POSITIONS if at.endswith(("_left", "_right")))


NOTHING_BUT = 0.5
"""What it adds that a message is a place and its load, and nothing besides: 'drives 7,410'."""


def _nothing_but(scene: Scene, figure: Figure) -> bool:
    label = figure.label
    if not isinstance(label, Label) or figure.value < _least_told(scene, label):
        return False
    start, end = _told_within(scene, label, figure)
    ahead = scene.tokens[start : min(label.start, figure.start)]
    if not all(token.kind is MARK or token.groups & LEADS for token in ahead):
        return False  # 'we drive 5000'
    aside = _aside_before(scene, label, figure)
    return all(
        token.kind is MARK
        or token.senses.keys() & {"glue", "time"}
        or "of_weight" in token.groups
        or label.start <= index < label.end
        or figure.start <= index < figure.end
        or index in aside
        for index, token in enumerate(scene.tokens[start:end], start=start)
    )


def _aside_before(scene: Scene, label: Label, figure: Figure) -> range:
    """'tongue with the hives moved forward: 1,060': how it was loaded, up to the colon."""
    if scene.tokens[figure.start - 1].raw == ":":
        for index in range(label.end, figure.start):
            if "opens_aside" in scene.tokens[index].groups:
                return range(index, figure.start)
    return range(0)


LEADS = frozenset(("article", "now_word"))
"""Groups of words that may stand before a place and its load."""


def _told_within(scene: Scene, label: Label, figure: Figure) -> tuple[int, int]:
    """From where to where a place and its load are told, and nothing besides.

    One that is said to be so is told in its clause, and ends where it begins how the rig stood:
    'moved the quad back, steer is 5,180 now', 'tongue came in at 910 with the water tank full'.
    """
    whole = 0, len(scene.tokens)
    if len(scene.figures) > 1 or not is_told_now(scene, label, figure):
        return whole
    start, end = scene.clause_of(figure.start)
    everyday = "axle_or_word" in scene.tokens[label.start].groups
    if not start <= label.start or (everyday and not figure.token.grouped):
        return whole  # 'long day, drive was 5000'
    behind = scene.tokens[figure.end : figure.end + 1]
    aside = any("opens_aside" in token.groups for token in behind)
    return start, figure.end if aside else end


def _least_told(scene: Scene, label: Label) -> float:
    """What an axle or a tongue carries that is told without a word for weighing."""
    surely = "surely_tongue" in scene.tokens[label.start].groups
    if label.whole == "tongue" and surely and scene.context.trailers:
        return LEAST_ON_TONGUE[MASS_UNIT[scene.context.units]]
    return LEAST_TOLD if label.axle else math.inf


LEAST_TOLD, LEAST_ON_TONGUE = 1000, {"lb": 100, "kg": 45}


_AXLE_WEIGHT = {
    "steer": 1.3,
    "drive": 1.3,
    "trailer": 1.2,
    "gross": 1.5,
    "tongue": 1.5,
    "truck": 1.0,
}


def evidence_of_labels(scene: Scene, placed: dict[str, Figure]) -> float:
    """How surely labels alone say that this is a weighing."""
    total = 0.0
    for position, figure in placed.items():
        label = figure.label
        weight = _AXLE_WEIGHT.get(position, 0.8)
        if isinstance(label, Label):
            weight += _label_trust(scene, label, figure)
        if isinstance(label, Label) and label.end_of and not (label.axle or label.wheel):
            weight = 0.9
        if position == "gross" and isinstance(label, Label) and figure.value < 2000:
            weight = 0.8
        if position == "gross" and len(placed) == 1:
            weight -= _doubt_of_lone_gross(scene, figure)
        total += weight
    return total


def _doubt_of_lone_gross(scene: Scene, figure: Figure) -> float:
    """'Fees, total 23,500', 'salary is 28k gross': a lone gross among strange words is money."""
    if figure.dimension == MASS and scene.has("ticket"):
        return 0.0
    label = figure.label
    doubt = 0.35 * max(0, len(scene.unknown_words()) - 1)
    if scene.phrase_said("money_span"):
        doubt += FOR_A_TIME  # 'we grossed 21,480 at the market this season'
    behind = scene.tokens[figure.end : figure.end + 3]
    spans, leads = scene.book.keys["span_unit"], scene.book.groups["for"]
    if any(each.text in spans for each in behind) and not leads.isdisjoint(behind[0].text.split()):
        doubt += FOR_A_TIME
    by_itself = not BY_ITSELF.isdisjoint(scene.by_class)
    if isinstance(label, Label) and "money_total" in scene.tokens[label.start].groups:
        doubt += 0.0 if by_itself else 0.8  # 'truck by herself, no trailer: 8,920 total'
    return doubt


BY_ITSELF = frozenset(("alone", "rig"))
"""Classes of term that say of what vehicle a total is."""


FOR_A_TIME = 2.0
"""What speaks against a weighing that a sum is 'for the week'."""


def _label_trust(scene: Scene, label: Label, figure: Figure) -> float:
    """What the words of a label add: 'pin weight' is surer than 'pin', 'debit pin' is neither."""
    trust = 0.0
    if label.whole == "tongue":
        words = scene.words_between(label.start, label.end).split()
        in_kilos = figure.dimension == MASS and scene.context.units != "us"
        first = scene.tokens[label.start]
        sure = len(words) > 1 or "surely_tongue" in first.groups or _towed(scene)
        told = in_kilos or (figure.token.grouped and _opens(scene, label))
        sure = sure or figure.role == "load" or (told and not label.compound)
        trust += (1.0 if len(words) > 1 else 0.5) if sure else -0.6
    axles = label.vehicle == "trailer" and label.wheel == "axle"
    named = axles or "surely_axle" in scene.tokens[label.start].groups
    if named and figure.unit in SMALLER:
        trust += SURE_AXLE + IN_TONS
    elif named and figure.value >= LEAST_LOAD:
        trust += SURE_AXLE
    if label.compound:
        trust -= 1.0
    between = scene.tokens[label.end : figure.start]
    if between and "down_to" in between[-1].groups:
        trust += FELL_TO
    if between and any(
        not token.senses and token.kind is WORD and token.groups.isdisjoint(PARTS_NO_LABEL)
        for token in between
    ):
        trust -= 0.7
    return trust


def _opens(scene: Scene, label: Label) -> bool:
    """'pin 2,240 with the garage empty', 'our pin's at 2,240', and not 'rolling pin 1,200'."""
    before = scene.tokens[label.start - 1] if label.start else None
    led = label.start == 1 and before is not None and "article" in before.groups
    return before is None or before.kind is MARK or led


PARTS_NO_LABEL = frozenset(("joins_label", "time_word", "outweighs"))
"""Groups of words that may stand between a label and its load: 'the rear axle this time, 5,480'."""


FELL_TO = 0.3
"""What it adds that a load came down to what it is: 'took 300 lb out, drives down to 6,640'."""


SURE_AXLE, IN_TONS = 0.4, 1.0
"""What 'drive axle' adds to a load: nothing else is called so; and what tons on it add."""


def _towed(scene: Scene) -> bool:
    return scene.has("vehicle", "trailer") or scene.has("name") or scene.has("weigh_cue")
