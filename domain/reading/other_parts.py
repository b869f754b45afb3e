"""Parts of other things than a rig, in a rig's words: 'the tire swing broke', 'the tarp blew away'.

This file decides how far a part's name goes on behind the word that the trade knows, which
things the wind moved rather than broke, and which spare thing is no wheel.
"""

from __future__ import annotations

from domain.reading.scene import Scene
from domain.reading.tokens import WORD


def end_of_name(scene: Scene, index: int, state: int) -> int:
    """'tire sensor' of 'tire sensor broke': where a part's name ends (exclusive).

    A noun that no phrase knows stands right between the part and its `state`, or before what
    that is said with: 'the light switch is broken'.
    """
    end = index + 1
    if end >= state:
        return end
    noun = scene.tokens[end]
    further = noun.kind is WORD and not noun.groups and noun.raw.islower()
    if not further or scene.book.patterns["no_noun"].fullmatch(noun.text):
        return end  # 'tires completely flat', 'brake controller keeps throwing an error'
    between = scene.tokens[end + 1 : state]
    return end + 1 if all("is_at" in token.groups for token in between) else end


def is_spare_of(scene: Scene, index: int, state: int) -> bool:
    """'strapped the spare gearbox down': a thing to spare, and not the wheel.

    What no phrase knows behind a state may be how often it was done; several of it are things,
    and so is it where something was loaded.
    """
    behind = scene.tokens[index + 1 : index + 2]
    if not behind or scene.tokens[index].text != "spare":
        return False
    thing = behind[0]
    if "gauge_of_trade" in thing.groups or "carried_thing" in thing.groups:
        return True
    strange = thing.kind is WORD and not (thing.senses or thing.groups)
    several = thing.text[-1:] == "s" or any(figure.role == "cargo" for figure in scene.figures)
    return strange and several and state < index


def is_blown_about(scene: Scene, blew: int) -> bool:
    """'the door blew open', 'the tarp blew away': the wind did it, and nothing burst."""
    behind = scene.tokens[blew + 1 : blew + 2]
    return bool(behind) and "blown_about" in behind[0].groups


def nearly_went(scene: Scene, index: int, blew: int) -> bool:
    """'blew the awning near off': what the wind all but took is there, and nothing is wrong."""
    if "blew" not in scene.tokens[blew].groups:
        return False
    behind = scene.tokens[index + 1 : index + 3]
    nearly = len(behind) > 1 and "short_of_it" in behind[0].groups
    return nearly and "blown_about" in behind[1].groups
