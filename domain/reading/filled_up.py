"""Whether a tank was filled up, in part, or nobody says.

This file decides it by words such as 'full', 'filled' and 'topped off', and by what makes them of
something else: a full day, a fill that was left out, a thing that is filled with a volume.
"""

from __future__ import annotations

from domain.reading.fill_roles import Draft, is_said_of
from domain.reading.scene import Scene
from domain.reading.tokens import WORD


def is_full(scene: Scene, draft: Draft, *, alone: bool) -> bool | None:
    """Filled up, partial, or not said; 'didn't fill it' outweighs the 'fill' in it."""
    found: bool | None = None
    denying = "denies" in scene.groups
    for index, token, key in scene.find("full"):
        if not (alone or is_said_of(draft, index)):
            continue
        before = scene.tokens[max(0, index - 3) : index]
        if key == "false" or (denying and any("denies" in token.groups for token in before)):
            return False
        if "level" in token.senses and scene.by_class.get("weigh_cue"):
            continue
        if "full_word" in token.groups and scene.talk[index] == "negation":
            return False
        if "fills_or_filled" in token.groups and not scene.stated(index):
            continue
        if left_out(scene, index) and ("fill_noun" in token.groups or _before_this(scene, index)):
            continue
        if "fill_noun" in token.groups and _is_of_last(scene, index):
            continue
        if "filled" in token.groups and not _ends_phrase(scene, index):
            continue
        if "full_alone" in token.groups and _is_of_a_thing(scene, index):
            continue
        if "before_it" in scene.groups and _stopped_before(scene, index):
            return False
        if draft.product != "def" and _is_of_fluid(scene, index):
            continue
        found = True
    return found


def _stopped_before(scene: Scene, index: int) -> bool:
    """'pulled the nozzle before it was full', 'quit before it clicked off': it never came to that.

    'before filling up' and 'before we topped off' tell of what came first.
    """
    start, _ = scene.clause_of(index)
    ahead = [at for at in range(start, index) if "before_it" in scene.tokens[at].groups]
    if not ahead or "fills_or_filled" in scene.tokens[index].groups:
        return False
    said = scene.tokens[ahead[-1] + 1 : index]
    alone = all("glue" in each.senses or "tank" in each.senses for each in said)
    itself = "full_alone" in scene.tokens[index].groups or any("it" in t.groups for t in said)
    return alone and itself


def left_out(scene: Scene, index: int) -> bool:
    """'forgot to log the fill up before this': another one was full, if any."""
    start, _ = scene.clause_of(index)
    return any(start <= at < index for at in scene.by_class.get("missed_verb", ()))


def _before_this(scene: Scene, index: int) -> bool:
    """'forgot to text when we filled up friday. this one is 22.1 gal': what was full is another."""
    start, end = scene.clause_of(index)
    own = any(start <= figure.start < end for figure in scene.figures)
    return not own and scene.phrase_said("this_fill", end) is not None


def _is_of_last(scene: Scene, index: int) -> bool:
    """'last fill up was a week ago, this one 30.1 gal': another fill is called so."""
    before = scene.tokens[index - 1] if index else None
    last = before is not None and before.senses.get("ordinal") == "last"
    return last and _before_this(scene, index)


def _is_of_a_thing(scene: Scene, index: int) -> bool:
    """'a full day', 'full tuition', 'full of people': something else is full."""
    before = scene.tokens[index - 1] if index else None
    following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
    if following is None or following.kind is not WORD:
        return False
    if before is not None and "a_thing" in before.groups:
        return True
    thing = not following.senses.keys() - {"rating_cue"} and following.raw[0].islower()
    return thing or "of" in following.groups


def _is_of_fluid(scene: Scene, index: int) -> bool:
    """'24.6 gal, def topped off too', 'topped off the def': another tank is full."""
    if not scene.has("product", "def"):
        return False
    behind = scene.tokens[index + 1 : index + 3]
    if behind and "article" not in behind[0].groups:
        behind = behind[:1]
    beside = [*scene.tokens[max(0, index - 1) : index], *behind]
    return any(token.senses.get("product", "").startswith("def") for token in beside)


def _ends_phrase(scene: Scene, index: int) -> bool:
    """'filled' says full unless a volume or a container follows it: 'filled 20 gal'."""
    following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
    if following is None or following.kind is not WORD or "product" in following.senses:
        return True
    further = scene.tokens[index + 2] if index + 2 < len(scene.tokens) else None
    named = index + 2 if "article" in following.groups else index + 1
    if scene.tokens[named:] and scene.tokens[named].senses.get("name", "").startswith("truck:"):
        behind = scene.tokens[named + 1 : named + 2]  # 'filled the Wattle up', and not 'with 20'
        return not (behind and "with" in behind[0].groups)
    if "at" in following.groups:
        return True  # 'filled at the co-op'
    capital = further is not None and further.kind is WORD and further.raw[0].isupper()
    return capital and "leads_to_place" in following.groups  # 'filled in Kamloops'
