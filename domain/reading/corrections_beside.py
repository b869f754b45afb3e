"""A sentence that corrects, beside one that states something else.

'delete that last weight, wrong ticket. right one: 5180 6540 9860', 'sorry that was 31.4. Leaving
now, 48,211': this file decides how such a message is parted. What corrects is decided in
`corrections`, what is stated by the reader.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from domain.entries import Check, Correction, Entry, Hitch, Odometer
from domain.quantities import Quantity, is_currency
from domain.reading.corrected_bare import is_clear
from domain.reading.corrections import read_corrections
from domain.reading.lexer import clean
from domain.reading.scene import Scene
from domain.reading.tokens import NUMBER, TIME, Token
from domain.reading.undoing import is_misdirected
from domain.verdicts import Facts, Silent, Verdict


def corrects_and_more(scene: Scene, facts: Callable[[Scene], Verdict]) -> Facts | None:
    """The corrections of one of two sentences, and what the other states; None where not so.

    `facts` reads what a sentence states. In one sentence what was done stands behind a comma or
    'and': 'drive was 6,860 not 6,680, and the camper's unhitched now'.
    """
    if is_misdirected(scene):
        return None
    ends = [index for index, token in enumerate(scene.tokens) if token.ends_sentence]
    cuts = [
        scene.tokens[index].end
        for index in ends
        if index + 1 < len(scene.tokens) and not _inside_number(scene.tokens[index + 1])
    ]
    if not cuts and not DONE.isdisjoint(scene.said):
        return _done_behind(scene, facts)
    if not cuts and "of_oneself" in scene.groups:
        cuts = _ends_of_excuse(scene)
    if len(cuts) != 1:
        return None
    parts = [scene.text[: cuts[0]], scene.text[cuts[0] :]]
    scenes = [_anew(Scene(clean(part), scene.context, scene.book)) for part in parts]
    corrections = [read_corrections(each) if each.tokens else () for each in scenes]
    if bool(corrections[0]) == bool(corrections[1]):
        return None
    entries: list[Entry] = []
    for each, corrected in zip(scenes, corrections, strict=True):
        if corrected:
            entries.extend(corrected)
            continue
        other = facts(each)
        if isinstance(other, Facts):
            entries.extend(other.entries)
        elif not isinstance(other, Silent) or _mends_talk(corrections, each):
            return None
    return Facts(tuple(entries))


DONE = frozenset(("hitch", "event", "check_done", "full", "tells_now"))
"""Classes of term that tell what was done, and words for how it is now."""

DONE_KINDS = (Hitch, Odometer, Check)


def _done_behind(scene: Scene, facts: Callable[[Scene], Verdict]) -> Facts | None:
    """A correction, and in the same sentence what was done: where one reads alone, and the other.

    What is corrected names what it was, so that the figure is of no other entry.
    """
    first = next(index for index, token in enumerate(scene.tokens) if _tells_done(token))
    for cut in range(first - 1, 0, -1):
        if not _joins(scene.tokens[cut]):
            continue
        head = Scene(scene.text[: scene.tokens[cut].start], scene.context, scene.book)
        corrections = read_corrections(head) if head.tokens else ()
        if len(corrections) != 1 or corrections[0].was is None:
            continue
        said = Scene(clean(scene.text[scene.tokens[cut].end :]), scene.context, scene.book)
        fullness = read_corrections(said) if "full" in said.by_class else ()
        if fullness:
            return Facts((*corrections, *fullness))
        other = facts(said)
        if isinstance(other, Facts) and all(isinstance(each, DONE_KINDS) for each in other.entries):
            return Facts((*corrections, *other.entries))
    return None


def _tells_done(token: Token) -> bool:
    return not (DONE.isdisjoint(token.senses) and DONE.isdisjoint(token.groups))


def _ends_of_excuse(scene: Scene) -> list[int]:
    """'my eyes are shot, make that 7,140': where words about oneself end that only say why."""
    commas = [index for index, token in enumerate(scene.tokens[:-1]) if token.raw == ","]
    if not commas or any(figure.start < commas[-1] for figure in scene.figures):
        return []
    if not any(is_clear(figure) for figure in scene.figures):
        return []  # 'i need chairs, make it 60'
    mends = scene.tokens[commas[-1] + 1].senses.get("correction") == "amend"
    opening = scene.tokens[:OPENING]
    excuses = any("of_oneself" in token.groups for token in opening)
    return [scene.tokens[commas[-1]].end] if mends and excuses else []


OPENING = 3
"""Tokens: so near its start an excuse says whose it is: 'hang on im going cross eyed'."""


def _joins(token: Token) -> bool:
    return token.raw == "," or "join" in token.senses.get("glue", "").split()


def undone(mixed: Facts) -> bool:
    """Whether a message takes something back, and states something in its place."""
    return len(mixed.entries) > 1 and any(
        isinstance(entry, Correction) and entry.action == "undo" for entry in mixed.entries
    )


def _anew(scene: Scene) -> Scene:
    """What stands in the place of something taken back, without 'right one:' before it."""
    head = next((i for i, t in enumerate(scene.tokens[:LONGEST_HEAD]) if t.raw == ":"), None)
    if not head or scene.phrase_said("stands_instead", 0, head) is None:
        return scene
    return Scene(scene.text[scene.tokens[head].end :], scene.context, scene.book)


LONGEST_HEAD = 6
"""Tokens: so near its start a colon ends what says that something stands in the place of it."""


def _inside_number(token: Token) -> bool:
    """'5.4.15': behind a dot without a space, digits begin no sentence."""
    return token.kind is NUMBER and token.glued


def _mends_talk(corrections: Sequence[Sequence[Correction]], talk: Scene) -> bool:
    """Whether talk says that what stands beside it mends nothing of the log.

    'scratch that. call it half past 4', 'thanks for the beer. sorry it was $35'.
    """
    one = next(each[0] for each in corrections if each)
    if one.action == "undo":
        return bool(talk.numbers) or TIME in talk.kinds
    return one.field is None and isinstance(one.value, Quantity) and is_currency(one.value.unit)
