"""What others do and say that is ours: who weighs us, reads our ticket out or rides along.

A word for somebody begins talk of others, as `talk` decides. This file decides where they stand
at our scale, serve us, text for us or sat with us, so that what follows is told of our rig.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise, takewhile
from typing import TYPE_CHECKING

from domain.entries import SUM_TOLERANCE
from domain.reading.beside import CURRENCY_MARKS
from domain.reading.everyday_words import hitches_ours
from domain.reading.figures import BARE_STEP
from domain.reading.theirs import is_called
from domain.reading.tokens import MARK, NUMBER, WORD, Token

if TYPE_CHECKING:
    from domain.reading.scene import Scene

NEAR = 3
"""Tokens from somebody to where they stand, and to what they say."""

PAIR = 2
"""Tokens of 'me and', before who sat with us."""

LOADED = frozenset(("axle", "vehicle", "whole", "name"))
"""Classes of term that a load is told of."""


def puts_it_with_us(scene: Scene, index: int) -> bool:
    """'someone left 200 lb of feed in the bed': whoever it was, it rides with us."""
    does = scene.tokens[index + 1 : index + 2]
    if not does or "puts_it" not in does[0].groups or "unit" not in scene.by_class:
        return False
    _, end = scene.sentence_of(index)
    return scene.phrase_said("on_our_rig", index + 2, end) is not None


def _is_of_our_rig(scene: Scene, index: int) -> bool:
    """'dad says odo is 99412', 'Grandpa hooked up the camper', 'dad filled it'."""
    ours = follows_on(scene) or hitches_ours(scene.tokens, index + 1)
    ours = ours or _fills_ours(scene, index + 1)
    return ours or is_called(scene, index) or _sat_with_us(scene, index)


def _fills_ours(scene: Scene, verb: int) -> bool:
    """'filled it up', 'topped her off': to the brim, and no more is said of what was filled.

    'Filled it with sand', 'filled it at his place' may be of anything.
    """
    if "full" not in scene.by_class or verb not in scene.by_class["full"]:
        return False
    behind = scene.tokens[verb + 1 : verb + 2]
    it = not scene.book.groups["it_or_them"].isdisjoint(scene.tokens[verb].text.split())
    return it and all(each.kind is not WORD for each in behind)


def _sat_with_us(scene: Scene, index: int) -> bool:
    """'3/4 tank, me and my dad: 21,340 gross': who was aboard, and says nothing."""
    ahead = [token for token in scene.tokens[:index] if "our" not in token.groups][-2:]
    behind = scene.tokens[index + 1 : index + 2]
    return (
        len(ahead) == PAIR
        and "oneself" in ahead[0].groups
        and "and" in ahead[1].groups
        and any(t.raw == ":" or t.kind is NUMBER or "aboard" in t.senses for t in behind)
    )


def _is_left_or_reached(scene: Scene, index: int) -> bool:
    """'heading off from Mum's 165,430', 'at grandmas, 51,260': where somebody lives is a place."""
    tokens = scene.tokens
    before = tokens[index - 1] if index else None
    led = before is not None and (
        "event" in before.senses or not before.groups.isdisjoint(LEADS_HOME)
    )
    behind = tokens[index + 1] if index + 1 < len(tokens) else None
    return led and (
        behind is None or behind.kind is not WORD or not LEADS_HOME.isdisjoint(behind.groups)
    )


LEADS_HOME = frozenset(("from", "at_alone", "to"))
"""Groups of small words between leaving or arriving and whose home it is."""


def follows_on(scene: Scene) -> bool:
    """Whether a figure follows on from the truck's odometer: whoever says it, it is ours."""
    known = scene.context.odometer
    return known is not None and any(
        0 <= figure.value - known.value <= BARE_STEP for figure in scene.figures
    )


def does_for_us(scene: Scene, index: int, token: Token) -> bool:
    """Whether somebody else is one who serves us, weighs us or texts, or what is theirs is ours."""
    if "family" in token.groups and _is_of_our_rig(scene, index):
        return True
    if "home_of" in token.groups and _is_left_or_reached(scene, index):
        return True
    if index and "airs_to" in scene.tokens[index - 1].groups:
        return True  # 'trailer tires 72, brought them up to 80'
    if _serves_us(scene, index) or _hands_over(scene, index) or _is_of_ours(scene, index):
        return True
    if "puts_it" in scene.groups and puts_it_with_us(scene, index):
        return True
    if "somebody_says" in scene.groups and _says_of_ours(scene, index):
        return True
    if "weigh_cue" in scene.by_class and (
        _reads_scale(scene, index) or _works_the_scale(scene, index) or _weighs_ours(scene, index)
    ):
        return True  # whoever weighs tells what ours was
    if "reads_out" in scene.groups and _reads_out_ours(scene, index):
        return True
    if "dictated_to" in scene.groups and _is_dictated_to(scene, index):
        return True
    return index > 0 and _says_who_texts(scene, index)


def are_bars(scene: Scene, index: int) -> bool:
    """'no bars, i left them in the shed: steer 3,980 ...': what was told before is meant."""
    if "bars" not in scene.by_class:
        return False
    start, end = scene.sentence_of(index)
    said = takewhile(
        lambda each: each.kind is not MARK and each.raw != ":", scene.tokens[index:end]
    )
    bars = any(start <= at < index for at in scene.by_class["bars"])
    return bars and all(each.kind is not NUMBER for each in said)


def truck_named_last(scene: Scene, index: int) -> bool:
    """'Juniper's front axle 3,120, his back axle 3,480', 'Otis was thirsty! He took 27.6 gal'.

    A name of the truck stands before, nobody is named after it, and what 'he' does or has is told.
    """
    behind = scene.tokens[index + 1 : index + 2]
    if not behind or TRUCKS.isdisjoint(behind[0].senses):
        return False
    for earlier in range(index - 1, -1, -1):
        token = scene.tokens[earlier]
        if token.senses.get("name", "").startswith("truck:"):
            return True
        person = "talk" in token.senses or (not token.senses and token.raw[0].isupper())
        if person or "name" in token.senses or "aboard" in token.senses:
            return False
    return False


TRUCKS = frozenset(("axle", "end", "odometer", "fuel_cue", "weigh_cue", "subject"))
"""Classes of term for what a truck has, or does, where it is told of by 'he' and 'his'."""


def _is_dictated_to(scene: Scene, index: int) -> bool:
    """'for ya trans 188', 'got the numbers for you steer 5,180': who is to write it down."""
    tokens = scene.tokens
    led = "dictated_to" in tokens[index].groups and index and "for" in tokens[index - 1].groups
    behind = tokens[index + 1 : index + 2]
    if not led or not behind or DICTATED.isdisjoint(behind[0].senses):
        return False
    return index == 1 or "dictated" in tokens[index - 2].groups


DICTATED = frozenset(("subject", "axle", "whole", "odometer"))
"""Classes of term that the first figure of such a message is of."""


def _is_of_ours(scene: Scene, index: int) -> bool:
    """Whether it is who sat in the truck, or parts of it: 'everyone in: ...', 'they're good'."""
    behind = scene.tokens[index + 1 : index + 2]
    if behind and "goes_in" in behind[0].groups:
        return _rode_along(scene, index)
    named = "check_item" in scene.by_class and "they" in scene.tokens[index].groups
    return named and _are_parts(scene, index)


def _are_parts(scene: Scene, index: int) -> bool:
    """'I checked the safety chains and they're good': what was looked at, and how it is."""
    start, _ = scene.sentence_of(index)
    named = any(start <= at < index for at in scene.by_class["check_item"])
    behind = scene.tokens[index + 1 : index + 1 + NEAR]
    state = next((each for each in behind if "glue" not in each.senses), None)
    return named and state is not None and not STATES.isdisjoint(state.senses)


STATES = frozenset(("check_done", "check_fault"))
"""Classes of term for how a part is."""


def _rode_along(scene: Scene, index: int) -> bool:
    """'weighed with everyone in: ...', 'kids in: ...': who sat in it; not 'the kids in bed'."""
    behind = scene.tokens[index + 2 : index + 3]
    with_us = "aboard" in scene.tokens[index].senses or (
        index > 0 and "with" in scene.tokens[index - 1].groups
    )
    return with_us and not any(token.raw[0].isalnum() for token in behind)


def _serves_us(scene: Scene, index: int) -> bool:
    """'they charged 14.25', 'the lady at the window let us roll on again': it is about our rig.

    What people give us and tell us about themselves is not.
    """
    token = scene.tokens[index]
    if token.possessive or "owner" in token.groups:
        return False
    weighed, charged = not LOADED.isdisjoint(scene.by_class), "fee" in scene.by_class
    if not (weighed or charged):
        return False
    end = _clause_figure(scene, index)
    behind = scene.tokens[index + 1 : end]
    if behind and "fee" in behind[0].senses:
        return True
    if charged and any("fee" in each.senses for each in scene.tokens[max(0, index - 2) : index]):
        return True  # 'paid the lady $14'
    if not weighed or any("fee" in each.senses for each in behind):
        return weighed
    paid = any("money" in each.senses or each.raw in CURRENCY_MARKS for each in behind)
    if paid:
        return any("asks_money" in each.groups for each in behind)
    return scene.phrase_said("serves_us", index + 1, end) is not None


def _reads_scale(scene: Scene, index: int) -> bool:
    """'the fella at the scale says 20,380': who stands there tells what ours was."""
    where = scene.tokens[index + 1 : index + 1 + NEAR]
    at = next((at for at, each in enumerate(where) if "weigh_cue" in each.senses), None)
    places = scene.book.groups["at_place"]
    if at is None or not any(each.text.split(" ")[0] in places for each in where[: at + 1]):
        return False
    says = where[at + 1 : at + 2] or scene.tokens[index + 1 + NEAR : index + 2 + NEAR]
    return bool(says) and "somebody_says" in says[0].groups


def _reads_out_ours(scene: Scene, index: int) -> bool:
    """'mom read it off the slip: steer ...', 'quarry guy says 21,300 gross, steer 4,240 ...'.

    Who reads from paper, or tells every load with the gross that they make, tells ours; somebody
    else's own is said to be theirs.
    """
    token = scene.tokens[index]
    says = scene.tokens[index + 1 : index + 2]
    if token.possessive or "owner" in token.groups or not says:
        return False
    if "reads_out" not in says[0].groups or "beside_us" in scene.groups:
        return False
    behind = scene.tokens[index + 2 : index + 2 + LONGEST_LEAD]
    printed = any(
        not FROM_PAPER.isdisjoint(one.groups) and "ticket" in other.senses
        for one, other in pairwise(behind)
    )
    told = bool(behind) and (behind[0].kind is NUMBER or behind[0].raw == ":")
    return _tells_gross(scene, index, behind) or (
        (printed or told) and _adds_up(scene, printed=printed)
    )


def _tells_gross(scene: Scene, index: int, behind: Sequence[Token]) -> bool:
    """'steer 5,210, drive 6,840, and he wrote gross 23,180': of the axles that we have told."""
    ahead = [each for each in scene.figures if each.end <= index and each.label is not None]
    said = [each for each in behind if "article" not in each.groups]
    gross = bool(said) and said[0].senses.get("whole") == "gross"
    return gross and len(ahead) >= PAIR and any(each.kind is NUMBER for each in said[1:2])


LONGEST_LEAD = 4
"""Tokens from who reads to what is read from: 'it off the slip'."""


FROM_PAPER = frozenset(("off_of", "from", "on_the"))
"""Groups of words before the paper that is read from."""


def _adds_up(scene: Scene, *, printed: bool) -> bool:
    """Whether the steer, drive and trailer loads are told, and the gross that they make.

    Of what is read from paper the gross may be left out.
    """
    loads: dict[str, float] = {}
    for label in scene.labels:
        place = label.axle or label.whole or label.vehicle
        if place is not None and label.bound is not None and not label.rating:
            loads[place] = label.bound.value
    gross = loads.pop("gross", None)
    if not loads.keys() >= {"steer", "drive", "trailer"}:
        return False
    parts = loads["steer"] + loads["drive"] + loads["trailer"]
    return printed if gross is None else abs(parts - gross) <= SUM_TOLERANCE * gross


def _hands_over(scene: Scene, index: int) -> bool:
    """'read the door jamb for you: gvwr 11,400': what stands behind the colon is handed to you."""
    token = scene.tokens[index]
    if not index or "you_object" not in token.groups or token.possessive:
        return False
    if ":" not in scene.text:
        return False
    behind = scene.tokens[index + 1 : _clause_figure(scene, index)]
    weighed = "weigh_cue" in scene.by_class and scene.by_class["weigh_cue"][0] < index
    led = scene.tokens[index - 1].kind is WORD or weighed  # 'got it weighed, you were right: ...'
    return led and any(each.raw == ":" for each in behind)


def _says_of_ours(scene: Scene, index: int) -> bool:
    """'he says it is 210 pounds' of what was loaded, 'dad read the ball, its stamped 10,000'."""
    if scene.tokens[index].possessive:
        return False
    behind = scene.tokens[index + 1 : index + 1 + LONGEST_LEAD + 1]
    if not behind or "somebody_says" not in behind[0].groups:
        return False
    if any("the" in token.groups for token in behind[1:2]):
        return any(not PLATED.isdisjoint(token.senses) for token in behind[2:3])
    start, _ = scene.sentence_of(index)
    loaded = any(start <= at < index for at in scene.by_class.get("load_verb", ()))
    number = next((at for at, token in enumerate(behind) if token.kind is NUMBER), 0)
    between = behind[1:number]
    return loaded and bool(between) and all(not t.groups.isdisjoint(WEIGHS_SO) for t in between)


PLATED = frozenset(("rating_subject", "rating_cue", "rating"))
"""Classes of term for what has its limit stamped on it."""

WEIGHS_SO = frozenset(("points_at_things", "was", "weighs_it", "around", "it_is", "came_word"))
"""Groups of words between who says what a thing weighs, and how much."""


def _weighs_ours(scene: Scene, index: int) -> bool:
    """'they weighed each front wheel of the truck: left 2,310': who weighs it, and not whose."""
    if "they" not in scene.tokens[index].groups or "beside_us" in scene.groups:
        return False
    behind = scene.tokens[index + 1 : index + 2 + LONGEST_LEAD]
    if not behind or "weighs_it" not in behind[0].groups:
        return False
    for token in behind[1:]:
        if not ON_SCALE.isdisjoint(token.senses):
            return True
        if token.groups.isdisjoint(("article", "each_one", "our", "both")) and not (
            token.senses.keys() & {"end", "side"}
        ):
            return False
    return False


ON_SCALE = frozenset(("axle", "axle_noun", "vehicle", "name", "rig"))
"""Classes of term for what of ours is weighed."""


def _clause_figure(scene: Scene, index: int) -> int:
    """Where the clause of a token ends, or the first number stands behind it."""
    _, end = scene.clause_of(index)
    numbers = (at for at in range(index + 1, end) if scene.tokens[at].kind is NUMBER)
    return next(numbers, end)


def _says_who_texts(scene: Scene, index: int) -> bool:
    """'its grandma', 'this is dad': who holds the phone, and whose rig it is, is not said."""
    token = scene.tokens[index]
    if token.possessive or "owner" in token.groups:
        return False
    return scene.phrase_said("says_who", max(0, index - 2), index) is not None


def _works_the_scale(scene: Scene, index: int) -> bool:
    """'the scale dude says 5,160 steer', 'the bloke at the weighbridge': a scale says who it is.

    'weighed his rig' has a verb there, and whoever owns something is asked about that.
    """
    before = scene.tokens[max(0, index - 1) : index]
    if any("weigh_cue" in each.senses and "glue" not in each.senses for each in before):
        return True
    behind = scene.tokens[index + 1 : index + 3]
    owns = "owner" in scene.tokens[index].groups or scene.tokens[index].possessive
    return (
        len(behind) > 1
        and not owns
        and "weigh_cue" in behind[0].senses
        and behind[0].text.startswith("at ")
        and "reads_out" in behind[1].groups
    )
