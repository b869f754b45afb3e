"""Corrections of a place: 'it was Cobblewick not Drybone Fork', 'wrong town, it was Larch Bend'.

This file decides whether a message puts another place in the place of one that was texted: it is
short and says nothing else, for 'not' stands between names in all kinds of talk.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.entries import Correction
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, NUMBER, WORD, Token

MOST_OF_PLACE = 14
"""Tokens of 'it was Cobblewick not Drybone Fork, sorry'."""


def place_meant(scene: Scene) -> Correction | None:
    """'that was in Cobblewick not Drybone Fork', 'wrong place, we were in Larkfold'."""
    named = _place_named(scene) if "place_word" in scene.groups else None
    if named is not None:
        return named
    if scene.figures or len(scene.tokens) > MOST_OF_PLACE or scene.text.isupper():
        return None
    split = next(
        (index for index, token in enumerate(scene.tokens) if "contrasts" in token.groups), None
    )
    if split is not None and scene.tokens[split].raw.islower():
        end = split
        while end and _small(scene.tokens[end - 1]):
            end -= 1
        start = split + 1
        while start < len(scene.tokens) and "before_place_meant" in scene.tokens[start].groups:
            start += 1
        meant, was = _name_before(scene, end), _name_from(scene, start)
        if meant and was and _only_of_places(scene, (*meant, *was), strangers=1):
            return _in_place_of(scene, meant, was)
    if "marks_mistake" in scene.groups or split is not None:
        apart = _told_apart(scene)
        if apart is not None:
            return apart
    words = scene.words()
    spoken_of = not scene.book.groups["place_word"].isdisjoint(words)
    if spoken_of or scene.has("weigh_cue") or scene.has("fuel_cue"):
        last = next(
            (
                index
                for index in range(len(scene.tokens) - 1, -1, -1)
                if "before_place_meant" in scene.tokens[index].groups
            ),
            None,
        )
        if last is None and spoken_of:  # 'wrong town - Saltlick'
            dashes = (at for at, token in enumerate(scene.tokens) if token.raw in "-–—:")
            last = next(dashes, None)
        name = _name_from(scene, last + 1) if last is not None else None
        if name and _only_of_places(scene, name):
            return Correction(
                action="amend", field="place", value=scene.words_between(name.start, name.stop)
            )
    return None


def _place_named(scene: Scene) -> Correction | None:
    """'place was Transfer Lot 4, not Ledbetter mulch yard': all of both names, for it says so."""
    tokens = scene.tokens
    at = sum(1 for token in tokens[:1] if "article" in token.groups)
    said = tokens[at : at + 2]
    if len(said) < 2 or "place_word" not in said[0].groups or "was_so" not in said[1].groups:
        return None
    split = next((i for i, token in enumerate(tokens) if "contrasts" in token.groups), None)
    if split is None or len(tokens) > MOST_OF_PLACE:
        return None
    meant = range(at + 2, split - (tokens[split - 1].raw == ","))
    was = range(split + 1, len(tokens) - (tokens[-1].kind is MARK))
    if not (_is_whole_name(scene, meant) and _is_whole_name(scene, was)):
        return None
    return _in_place_of(scene, meant, was)


def _is_whole_name(scene: Scene, words: range) -> bool:
    """Whether words can be a name: a capital begins it, and no mark and no verb is in it."""
    said = [scene.tokens[index] for index in words]
    if not 0 < len(said) <= LONGEST_NAME or not said[0].raw[0].isupper():
        return False
    return all(token.kind in (WORD, NUMBER) and "glue" not in token.senses for token in said)


LONGEST_NAME = 4
"""Words of a place: 'Transfer Lot 4'."""


def told_where(scene: Scene, *, logged: bool = False) -> Correction | None:
    """'that fill was in Alder Creek', 'my last weighing was at Pell': where the last one was.

    What is pointed back at stands first, then that it was so, then the place, and nothing more.
    An entry that is `logged` needs no word that points at it, and may be 'the one'.
    """
    tokens = scene.tokens
    if scene.figures or len(tokens) > MOST_OF_PLACE or scene.text.isupper():
        return None
    was = next((at for at, token in enumerate(tokens) if "was_then" in token.groups), 0)
    named, behind = tokens[:was], was + 1
    if " " not in tokens[was].text:  # 'was at' is one
        behind += 1
    if not named or behind >= len(tokens) or not _leads(tokens[behind - 1]):
        return None
    entry = not OF_ITS_KIND.isdisjoint(named[-1].senses) or "log_entry" in named[-1].groups
    entry = entry or (logged and "one" in named[-1].groups)
    back = logged or any(token.groups & LAST for token in named[:-1])
    small = all("glue" in each.senses or "ordinal" in each.senses for each in named[:-1])
    place = _name_from(scene, behind)
    if not (entry and back and small and place and place.stop == len(tokens)):
        return None
    return Correction(
        action="amend", field="place", value=scene.words_between(place.start, place.stop)
    )


def _leads(token: Token) -> bool:
    return "at_place" in token.groups or "was_then" in token.groups


OF_ITS_KIND = frozenset(("fuel_cue", "weigh_cue"))
"""Classes of term by which an entry is called that has a place."""

LAST = frozenset(("points_at_a_thing", "last_one", "back_then"))
"""Groups of words that point back at one entry: 'that', 'the last'."""


def _in_place_of(scene: Scene, meant: range, was: range) -> Correction:
    return Correction(
        action="amend",
        field="place",
        value=scene.words_between(meant.start, meant.stop),
        was=scene.words_between(was.start, was.stop),
    )


def _told_apart(scene: Scene) -> Correction | None:
    """'we were in Cobblewick for that one, not Saltlick', 'it was Larkfold, I put Elk Fork'.

    What entry it is of stands between the place and the mistaken one, or before both.
    """
    for index, token in enumerate(scene.tokens):
        was = _name_from(scene, index + 1) if "marks_mistake" in token.groups else None
        if not was:
            continue
        start = index
        while start and not _is_capital(scene, start - 1):
            start -= 1
        meant = _name_before(scene, start)
        named = (*meant, *was)
        said = [each for at, each in enumerate(scene.tokens) if at not in named]
        of_entry = any(
            "weigh_cue" in each.senses or not each.groups.isdisjoint(OF_AN_ENTRY) for each in said
        )
        of_us = not any("talk" in each.senses for each in said)
        if meant and of_entry and of_us and _only_of_places(scene, named):
            return _in_place_of(scene, meant, was)
    return None


OF_AN_ENTRY = frozenset(("fill_noun", "log_entry", "place_word"))
"""Groups of words that say that a place is one that was logged."""


def _small(token: Token) -> bool:
    """What may stand between a place and the 'not' behind it: 'Larkfold, sorry, not Elk Fork'."""
    return token.raw == "," or not token.groups.isdisjoint(("and_alone", "apologizes"))


def _only_of_places(scene: Scene, named: Sequence[int], strangers: int = 0) -> bool:
    """Whether a message speaks of where something was logged, and of nothing else.

    `named` are the tokens of the places, `strangers` how many words may be unknown.
    """
    strange = 0
    for index, token in enumerate(scene.tokens):
        if index in named or token.kind is MARK or not OF_A_PLACE.isdisjoint(token.senses):
            continue
        if not token.groups.isdisjoint(BESIDE_A_PLACE):
            continue
        if token.kind is not WORD or token.senses:
            return False
        strange += 1
    return strange <= strangers


BESIDE_A_PLACE = frozenset(
    ("place_word", "points_back", "fill_noun", "log_entry", "pronoun", "stands_instead")
)
"""Groups of words that such a correction may have: 'put the place down as Millbrook instead'."""

OF_A_PLACE = frozenset(
    ("glue", "correction", "reported", "weigh_cue", "fuel_cue", "ticket", "ordinal")
)
"""Classes of term that a correction of a place can have."""

NAME_SENSES = frozenset(("street", "subject", "vehicle", "end", "claim"))
"""Classes of term whose words may be part of a place's name."""


def _is_name(scene: Scene, index: int) -> bool:
    """A capitalized word amid a message that is no word of the phrasebook's small talk."""
    return _is_capital(scene, index) and scene.tokens[index].senses.keys() <= NAME_SENSES


def _is_capital(scene: Scene, index: int) -> bool:
    """Whether a word may stand beside a name: 'Tamsin Flat', and what flat means is no matter."""
    token = scene.tokens[index]
    capital = token.kind is WORD and token.raw[0].isupper() and index > 0
    return capital and "name" not in token.senses and "correction" not in token.senses


def _name_before(scene: Scene, end: int) -> range:
    start = end
    while start and _is_capital(scene, start - 1):
        start -= 1
    return _named(scene, range(start, end))


def _name_from(scene: Scene, start: int) -> range:
    end = start
    while end < len(scene.tokens) and _is_capital(scene, end):
        end += 1
    return _named(scene, range(start, end))


def _named(scene: Scene, words: range) -> range:
    """The words where one of them means nothing else; no words otherwise."""
    return words if any(_is_name(scene, index) for index in words) else range(0)
