"""A thing that stands on the tongue, and what bears down there: the same words tell of both.

This file decides which of the two a figure beside the tongue is: 'loaded the quad on the nose, 740'
is the quad's, and 'moved the quad back, 1,180 lb on the tongue' the tongue's.
"""

from __future__ import annotations

from domain.reading.figures import Figure
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.things import noun_from


def is_things(scene: Scene, figure: Figure, label: Label) -> bool:
    """'loaded the quad on the nose, 740': where it was put is told, and then what it weighs.

    So it is where what it weighs is told before: 'loaded the nose with 600 lb of hay'.
    """
    of = scene.tokens[figure.end : figure.end + 1]
    if any("of" in token.groups for token in of) and noun_from(scene, figure.end + 1):
        return True
    if "load_verb" not in scene.by_class or "weigh_cue" in scene.by_class:
        return False
    lead = scene.tokens[max(0, label.start - 2) : label.start]
    led = any(not token.groups.isdisjoint(("standing_on", "on_the")) for token in lead)
    parted = label.end <= figure.start and scene.tokens[figure.start - 1].raw == ","
    if not (led and parted):
        return False
    verbs = [index for index in scene.by_class["load_verb"] if index < label.start]
    return bool(verbs) and noun_from(scene, verbs[-1] + 1) is not None


def bears_down(scene: Scene, figure: Figure) -> bool:
    """'moved the quad back, 1,180 lb on the tongue': what bears down since something was moved."""
    label = figure.label
    if not isinstance(label, Label) or label.whole != "tongue" or label.start < figure.end:
        return False
    start, _ = scene.sentence_of(figure.start)
    ahead = scene.tokens[start : figure.start]
    verb = next((at for at, token in enumerate(ahead) if "moves" in token.groups), len(ahead))
    turned = any("back_word" in token.groups for token in ahead[verb:])
    return turned and ahead[-1].raw == ","
