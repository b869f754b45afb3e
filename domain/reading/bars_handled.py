"""What was done with the spread bars: 'hooked the bars back up', 'dropped the bars'.

This file decides, before labels are looked for, that such a verb says whether the bars were on or
off, and that no trailer was unhitched by it; and that 'without' behind 'with bars', or 'then off'
behind 'bars on', is of the bars.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from domain.reading.figures import LEAST_LOAD
from domain.reading.label import PLACES
from domain.reading.tokens import BREAK, MARK, NO_GROUPS, NUMBER, Token

if TYPE_CHECKING:
    from domain.reading.scene import Scene

HANDLED = frozenset(("puts_bars_on", "takes_bars_off"))
"""Groups of verbs of which one says whether the bars are on or off."""

THEN = frozenset(("bars_then_on", "bars_then_off"))
"""Groups of words that are of the bars where the bars are named before."""

BESIDE_BARS = HANDLED | THEN | {"absent", "with"}
"""With them, groups of words that say so beside the bars."""

AGAIN = frozenset(("bars_word", "of_bars"))
"""Groups of words of which one may say again how the bars were."""

FARTHEST_VERB = 3
"""Tokens from the verb to the bars, over what stands between them: 'released the spring bars'."""


def settle_bars_handled(scene: Scene) -> None:
    """Give bars that are put on or taken off the sense of it."""
    found = False
    for index, token in enumerate(scene.tokens):
        if "bars_word" in token.groups and "bars" not in token.senses:
            if "axle" in scene.by_class and "rating" not in scene.by_class:
                _leave_hitch(scene, index)
            found = _settle_verb(scene, index) or _settle_behind(scene, index) or found
    if found:
        scene.index_terms()


def _settle_verb(scene: Scene, bars: int) -> bool:
    for verb in range(bars - 1, max(-1, bars - 1 - FARTHEST_VERB), -1):
        token = scene.tokens[verb]
        if not HANDLED.isdisjoint(token.groups):
            on = "puts_bars_on" in token.groups
            scene.tokens[bars].senses = {"bars": "on" if on else "off"}
            if "hitch" in token.senses:
                token.senses = {"glue": "function"}
            return True
        if "absent" in token.groups and "contrasts" not in token.groups:
            scene.tokens[bars].senses, token.senses = {"bars": "off"}, {"glue": "function"}
            return True
        if "with" in token.groups and "axle" in scene.by_class:
            scene.tokens[bars].senses = {"bars": "on"}
            return True
        if "article" not in token.groups:
            return False
    return False


def _leave_hitch(scene: Scene, bars: int) -> None:
    """'with the weight distribution hitch, steer 4,860': beside axles it is no limit of the hitch.

    Its words are those of a plate, 'weight distributing 10,000', which has no axles.
    """
    behind = scene.tokens[bars + 1 : bars + 2]
    if behind and behind[0].senses.get("rating_subject") == "hitch":
        scene.tokens[bars].groups -= {"by_bars"}
        behind[0].senses = {"glue": "function"}


def _settle_behind(scene: Scene, bars: int) -> bool:
    """'load bars back on': how they were stands right behind them."""
    behind = scene.tokens[bars + 1 : bars + 3]
    if len(behind) > 1 and "back_word" in behind[0].groups:
        del behind[0]  # 'bars back off'
    for key in ("on", "off") if behind else ():
        if f"bars_then_{key}" in behind[0].groups:
            scene.tokens[bars].senses, behind[0].senses = {"bars": key}, {"glue": "function"}
            return True
    return False


def settle_bars_again(scene: Scene) -> None:
    """'no bars: 4,760 7,480. bars: 5,180 6,960', 'bars off 4,680 ... hooked them up and got 5,040'.

    Behind loads with the bars off, they are on where they head loads, and where they were hooked;
    'with them tight' says so, too.
    """
    tokens, found = scene.tokens, False
    off = scene.by_class["bars"][0]
    for index in range(off + 1, len(tokens) - 1):
        token, behind = tokens[index], tokens[index + 1]
        if "bars" in token.senses:
            continue
        heads = "bars_word" in token.groups and behind.raw == ":"
        if heads and tokens[off].senses["bars"] == "off":
            token.senses, found = {"bars": "on"}, True
        elif "of_bars" in behind.groups and not HANDLED.isdisjoint(token.groups):
            token.senses = {"bars": "on" if "puts_bars_on" in token.groups else "off"}
            behind.senses, behind.groups, found = {"glue": "filler"}, NO_GROUPS, True
        elif "of_bars" in token.groups:
            found = _settle_them(tokens, index) or found
    if found:
        scene.index_terms()


def _settle_them(tokens: Sequence[Token], them: int) -> bool:
    """'with them on', 'em slack': how they were; 'without them 4,460 7,180' says so by itself."""
    lead, behind = tokens[them - 1], tokens[them + 1]
    led = next((key for group, key in LED if group in lead.groups), None)
    for key in ("on", "off"):
        if f"bars_then_{key}" in behind.groups and (led or _opens_clause(lead)):
            tokens[them].senses, behind.senses = {"bars": key}, {"glue": "filler"}
            behind.groups = tokens[them].groups = NO_GROUPS
            return True
    if led and _heads_load(behind):
        lead.senses, tokens[them].senses = {"bars": led}, {"glue": "filler"}
        lead.groups = tokens[them].groups = NO_GROUPS
        return True
    return False


LED = (("absent", "off"), ("with", "on"))
"""Groups of words before 'them', and how bars are that they lead to."""


def settle_without_bars(scene: Scene) -> None:
    """'with bars 5,180, without 4,860': whatever stands without them, its bars are off."""
    on = next((index for index, _, key in scene.find("bars", "on")), None)
    if on is None or len(scene.by_class["bars"]) > 1:
        return
    for index in range(on + 1, len(scene.tokens)):
        token = scene.tokens[index]
        if "without_bars" in token.groups and _beside_load(scene, index):
            token.senses = {"bars": "off"}
            scene.index_terms()
            return


def settle_bars_then(scene: Scene) -> None:
    """'bars on 5,040 6,180 6,890, then off 4,580 6,860 6,670': the bars are named once for both."""
    tokens = scene.tokens
    told = scene.by_class["bars"][0]
    other = "off" if tokens[told].senses["bars"] == "on" else "on"
    loads = [at for at in scene.numbers if tokens[at].value >= LEAST_LOAD]
    for index in range(loads[0] + 1 if loads else len(tokens), len(tokens) - 1):
        token = tokens[index]
        if f"bars_then_{other}" in token.groups and _opens_clause(tokens[index - 1]):
            behind = next((tokens[at].value for at in loads if at > index), 0.0)
            alike = 1 / ALIKE < behind / tokens[loads[0]].value < ALIKE
            if alike and _heads_load(tokens[index + 1]):
                token.senses = {"bars": other}
                scene.index_terms()
                return


ALIKE = 1.5
"""How many times as heavy a place may be with the bars off; common practice, no source."""


def _heads_load(behind: Token) -> bool:
    placed = not PLACES.isdisjoint(behind.senses)
    return placed or behind.kind is NUMBER or behind.raw == ":"


def _opens_clause(before: Token) -> bool:
    return before.kind in (MARK, BREAK) or "then" in before.groups


def _beside_load(scene: Scene, index: int) -> bool:
    """Whether a load stands right behind a word, or right before it at the end of its sentence."""
    tokens = scene.tokens
    if index + 1 == len(tokens) or tokens[index + 1].ends_sentence:
        return tokens[index - 1].kind is NUMBER
    return tokens[index + 1].kind is NUMBER
