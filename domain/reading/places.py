"""Where it happened: the place that a message names.

This file decides which words are a place: a name behind 'at' or 'arrived', a ticket's heading,
or capitalized words beside the figures that mean nothing else. Places are kept as typed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from domain.reading.aboard import companions
from domain.reading.dearest_fuel import DEAREST
from domain.reading.everyday_words import hitches_ours
from domain.reading.figures import DISTANCE, MONEY, PRICE, VOLUME, Figure
from domain.reading.how_it_stood import is_of_trailer
from domain.reading.odometers import is_ahead
from domain.reading.other_goods import OTHER_GOODS
from domain.reading.phrasebook import APOSTROPHES
from domain.reading.scene import Scene
from domain.reading.taken_back import is_small, takes_back
from domain.reading.talk import GUESS, OTHER, PLAN, REQUEST
from domain.reading.tokens import BREAK, CENTS, MARK, NUMBER, TIME, WORD, Token
from domain.reading.who_texts import texter

LONGEST = 4
LEAST_BREAKS = 3
"""Line breaks: a ticket has at least as many."""
LONGEST_HEADING = 8
NO_PLACE = frozenset(("axle_noun", "passes", "product", "bars"))
"""Classes of words that head figures."""

SAYS = frozenset(("axle", "whole", "rig", "unit", "subject", "rating", "full", "aboard", "level"))
"""Classes of words that say something of the log, and are in no name of a business."""


def read_places(scene: Scene) -> list[tuple[int, str]]:
    """The places that a message names, as typed and without 'the', each with where it stands.

    Of those that nothing leads to there is one at most, and its place is of all that is stated.
    """
    heading = _heading(scene) if BREAK in scene.kinds else None
    if heading is not None:
        return [(0, heading)]
    led = list(_led_to(scene)) if "leads_to_place" in scene.groups else []
    if led:
        led = _fills_named(scene) or led
    if "home" not in scene.groups:
        return led or _standing_alone(scene)
    homes = [home for home in _homes(scene) if not led or _is_read_at(scene, home)]
    if homes and not led and all(_is_read_at(scene, home) for home in homes):
        led = stops_named(scene, _filled(scene))  # 'Dorset 24.1 gal, home 51,544'
    return sorted([*led, *((home, "home") for home in homes)]) or _standing_alone(scene)


def _homes(scene: Scene) -> list[int]:
    """Where home stands, and one is there: 'left home 51,300, back home 51,410'."""
    events = scene.find("event")
    homes = (index for index, token, _ in events if "home" in token.groups)
    return [at for at in homes if not _is_elsewhere(scene, at)]


def _is_read_at(scene: Scene, home: int) -> bool:
    """'left home 51,240, arrived Pell 51,410': what was read at home is told in its clause."""
    start, end = scene.clause_of(home)
    own = [each for each in scene.figures if start <= each.start < end]
    return len(own) == 1 and own[0].role == "odometer"


def _fills_named(scene: Scene) -> list[tuple[int, str]]:
    """The names before the figures of several fills, where each has one."""
    filled = _filled(scene)
    return stops_named(scene, filled) if len(filled) > 1 else []


def _filled(scene: Scene) -> list[Figure]:
    return [each for each in scene.figures if each.role == "fill" and each.dimension == VOLUME]


def stops_named(scene: Scene, volumes: Sequence[Figure]) -> list[tuple[int, str]]:
    """'Dorset 21.2 gal, Harlow 51,620 24.6 gal': the name before each stop's figures.

    None where one of them has no name, or all are told in capitals.
    """
    found: list[tuple[int, str]] = []
    for volume in [] if scene.text.isupper() else volumes:
        end = volume.start
        for figure in reversed(scene.figures):
            end = figure.start if figure.end == end and figure.claimed is None else end
        if end and scene.tokens[end - 1].raw == ":":
            end -= 1
        start = end
        while start and _may_name_stop(scene.tokens[start - 1]):
            start -= 1
        if not any(at in scene.unknown for at in range(start, end)):
            return []
        found.append((start, scene.words_between(start, end)))
    return found


def _may_name_stop(token: Token) -> bool:
    known = not token.groups.isdisjoint(NAMES_NONE) or _is_of_family(token)
    return token.kind is WORD and _is_a_name(token) and not known and _is_name(token, first=True)


def _is_elsewhere(scene: Scene, index: int) -> bool:
    """Whether home is where one is bound, or where the dog stayed, or what was left there."""
    elsewhere = is_ahead(scene, index) or _comes(scene, index) or _of_pet(scene, index)
    return elsewhere or _is_so_far(scene, index) or _is_of_goods(scene, index)


def _is_of_goods(scene: Scene, index: int) -> bool:
    """'left the hives home today': where goods are, of which no figure is told.

    So is a trailer of which none was weighed: 'left the camper at home, truck only 8,140'.
    """
    start, _ = scene.clause_of(index)
    ahead = scene.tokens[start:index]
    left = any(
        "leaves_it" in each.groups or ("leads_to_place" in each.groups and "event" in each.senses)
        for each in ahead
    )
    if left and any(map(_is_goods, ahead)):
        return True
    return any(figure.role == "load" for figure in scene.figures) and is_of_trailer(scene, index)


def _is_so_far(scene: Scene, index: int) -> bool:
    """'212 mi from home': how far from it one is."""
    if not index or "from" not in scene.tokens[index - 1].groups:
        return False
    return any(each.end == index - 1 and each.dimension == DISTANCE for each in scene.figures)


def _comes(scene: Scene, index: int) -> bool:
    """'21.4 gal coming home': where one is on the way to."""
    words = scene.tokens[index].text.split()
    before = scene.tokens[index - 1].groups if index else frozenset()
    return "clause_behind" in before or words[0] in scene.book.groups["clause_behind"]


def _led_to(scene: Scene) -> Iterator[tuple[int, str]]:
    """'fuelled at Elm Creek ..., weighed at Dry Fork ...': what leads to each place, and it."""
    tokens = scene.tokens
    for index, token in enumerate(tokens):
        if "leads_to_place" not in token.groups or token.kind is not WORD:
            continue
        if _of_pet(scene, index) or _of_another_fill(scene, index):
            continue
        if len(scene.figures) >= FEWEST_COMPARED and _of_another_price(scene, index):
            continue
        if scene.talk[index] in (OTHER, PLAN, REQUEST):
            continue  # 'see you at supper', 'would have been cheaper in town'
        if "event" in token.senses and index and "to" in tokens[index - 1].groups:
            continue  # 'added 5 gal to get to town'
        if "until_one_comes" in scene.groups and _is_until(scene, index):
            continue
        start = index + 1
        while start < len(tokens) and "before_name" in tokens[start].groups:
            start += 1
        start = _behind_part(tokens, start)
        end = _name_end(tokens, start)
        if end == start + 1 and (_is_money(tokens[start]) or _is_of_family(tokens[start])):
            continue  # 'paid in pesos', 'picked it up from Dad'
        if end > start and "event" in token.senses and _is_goods(tokens[start]):
            continue  # 'left the hives home today'
        if "sent_from" in token.groups and tokens[end : end + 1] and tokens[end].raw == ":":
            continue  # 'fwd from Ned: ...'
        if end > start and not _is_no_destination(tokens[start], alone=end == start + 1):
            right = _put_right(tokens, end)
            yield index, scene.words_between(*(right or (start, end)))
            if right:
                return


def _is_until(scene: Scene, index: int) -> bool:
    """'put 10 gal in til i get to town': where one is not yet, as nothing was read there."""
    start, end = scene.clause_of(index)
    ahead = any("until_one_comes" in token.groups for token in scene.tokens[start:index])
    return ahead and not any(index < figure.start < end for figure in scene.figures)


FEWEST_COMPARED = 3
"""Figures where two prices are compared: each of them, and what was pumped."""


def _of_another_price(scene: Scene, index: int) -> bool:
    """'paid 3.769 here 27.4 gal, it was 3.59 in Pell': where fuel was dearer, or less so."""
    start, end = scene.clause_of(index)
    own = [each for each in scene.figures if start <= each.start < end]
    others = [each for each in scene.figures if each not in own]
    priced = own and all(_is_price(each) for each in own)
    pumped = any(each.dimension == VOLUME for each in others)
    return bool(priced and pumped and any(_is_price(each) for each in others))


def _is_price(figure: Figure) -> bool:
    priced = figure.dimension in (None, MONEY, PRICE) and figure.token.decimals >= CENTS
    return priced and figure.value < DEAREST


def _of_another_fill(scene: Scene, index: int) -> bool:
    """'didn't log the one in Pell. 23.8 gal here': where a fill was that nobody logged."""
    if "missed" not in scene.by_class and "missed_verb" not in scene.by_class:
        return False
    start, end = scene.clause_of(index)
    ahead = scene.tokens[start:index]
    missed = any("missed" in each.senses for each in ahead) or (
        any("missed_verb" in each.senses for each in ahead)
        and any("fill_noun" in each.groups for each in ahead)
    )
    return missed and not any(start <= figure.start < end for figure in scene.figures)


def _of_pet(scene: Scene, index: int) -> bool:
    """'dog stayed home in protest': where an animal is, and why."""
    if "pet" not in scene.groups:
        return False
    start, _ = scene.clause_of(index)
    return any("pet" in token.groups for token in scene.tokens[start:index])


def _behind_part(tokens: list[Token], start: int) -> int:
    """'at the top of Harrow Pass': where the name begins that a part of a place is of."""
    part = tokens[start : start + 3]
    if len(part) < 3 or "no_destination" not in part[0].groups or "of" not in part[1].groups:
        return start
    return start + 2 if part[2].raw[0].isupper() and part[0].raw[0].islower() else start


def _is_no_destination(token: Token, *, alone: bool) -> bool:
    """'at most', 'at the top of the grade', 'from cans'; 'at Top Hat Fuel' is a name."""
    if "container" in token.groups:
        return token.raw[0].islower()
    if alone and "sort_of_place" in token.groups and token.raw[0].islower():
        return True  # 'at the public weighbridge'
    return "no_destination" in token.groups and (alone or token.raw[0].islower())


def _is_of_family(token: Token) -> bool:
    return "family" in token.groups and not token.possessive


def _is_goods(token: Token) -> bool:
    return not token.groups.isdisjoint(LEFT_BEHIND) and token.raw[0].islower()


LEFT_BEHIND = frozenset(("carried_thing", "bars_word", "of_bars"))
"""Groups of words for what one may have left somewhere: 'left the bars in the shed'."""


def _is_money(token: Token) -> bool:
    return "money" in token.senses or "of_a_country" in token.groups


def _put_right(tokens: list[Token], end: int) -> tuple[int, int] | None:
    """'at Larkfold, no, Elk Fork': the name behind one that is taken back, where there is one."""
    cue = parted = False
    for index in range(end, len(tokens)):
        token = tokens[index]
        if takes_back(tokens, index):
            cue, parted = True, "halts" not in token.groups  # 'sorry Dave'
        elif token.kind is MARK or token.groups & {"leads_to_place", "says_again"}:
            parted = True
        elif not is_small(tokens, index):
            named = cue and parted and token.raw[0].isupper() and not token.senses
            return (index, _name_end(tokens, index)) if named else None
    return None


def _heading(scene: Scene) -> str | None:
    """The line of a pasted ticket that names a scale or a station.

    It is the first one, the one behind the name of the document ('WEIGHBRIDGE TICKET 2087'), or
    one that says so: 'Station: Cedar Bend Fuel'.
    """
    breaks = [index for index, token in enumerate(scene.tokens) if token.kind is BREAK]
    if len(breaks) < LEAST_BREAKS:
        return None
    lines = list(pairwise([-1, *breaks, len(scene.tokens)]))
    for start, end in lines:
        if start + 1 < end and "heads_place" in scene.tokens[start + 1].groups:
            named = start + 2
            while named < end and scene.tokens[named].raw in ":-=":
                named += 1
            if named < end and _names_business(scene, named, end):
                return scene.words_between(named, end)
    first, second = ((start + 1, end) for start, end in lines[:2])
    if any(_is_document(token) for token in scene.tokens[slice(*first)]):
        named = _names_business(scene, *second) and second[1] - second[0] > 1
        return scene.words_between(*second) if named else None
    named = any(
        token.kind is WORD and (not token.senses or "weighs_here" in token.groups)
        for token in scene.tokens[slice(*first)]
    )
    return scene.words_between(*first) if named and _may_head(scene, *first) else None


def _is_document(token: Token) -> bool:
    return "ticket" in token.senses or "document" in token.groups


def _may_head(scene: Scene, start: int, end: int) -> bool:
    """Whether a line is words, and few; 'wheel weights' and 'first weigh' head the figures."""
    return end - start <= LONGEST_HEADING and not any(
        token.kind in (NUMBER, TIME) or token.raw == ":" or not NO_PLACE.isdisjoint(token.senses)
        for token in scene.tokens[start:end]
    )


def _names_business(scene: Scene, start: int, end: int) -> bool:
    """Whether a line is words, one of which means nothing else."""
    line = scene.tokens[start:end]
    named = any(
        token.kind is WORD and not token.senses and token.raw[0].isupper() for token in line
    )
    said = any(not SAYS.isdisjoint(token.senses) or _is_document(token) for token in line)
    return named and not said and _may_head(scene, start, end)


def _name_end(tokens: list[Token], start: int) -> int:
    end = start
    while end < len(tokens) and end - start < LONGEST:
        if _is_name(tokens[end], first=end == start):
            end += 1
        elif _is_hyphened(tokens, end):
            end += 2
        else:
            break
    return end


def _is_hyphened(tokens: list[Token], index: int) -> bool:
    """'grain co-op': two halves of a word, each too short for a name."""
    halves = tokens[index : index + 2]
    return (
        len(halves) > 1
        and all(not (half.senses or half.groups) and half.raw.isalpha() for half in halves)
        and halves[1].start == halves[0].end + 1
        and max(len(half.raw) for half in halves) == SHORT_HALF
    )


SHORT_HALF = 2
"""Letters."""


NO_NAME = frozenset(
    (
        "against_limit",
        "behind_place",
        "half_more",
        "laden_word",
        "minus_word",
        "oneself",
        "opens_relative",
        "until",
    )
)
"""Groups of words of an amount, of those that open a clause ('at Molly's where she ...', I), of
what is said of a place ('at Dunmore closes at 5', 'in Cobblewick instead'), and before another
load: '5,220 left against 5,480'."""


def _is_name(token: Token, *, first: bool) -> bool:
    if token.kind is not WORD or "name" in token.senses or "time" in token.senses:
        return False
    if not token.groups.isdisjoint(NO_NAME):
        return False  # 'outside minus seven', 'got to half'
    if token.raw[0].isupper():
        return "unit" not in token.senses and "axle" not in token.senses
    plain = not token.senses or bool(token.senses.keys() & {"street"})
    plain = plain or (not first and "numbered_place" in token.groups)  # 'job site'
    return plain and len(token.raw) > 2


def _is_a_name(token: Token) -> bool:
    """Whether a word may name a place: a letter alone is a tyre's, or a gauge's."""
    return token.raw[0].isupper() and len(token.raw) > 1


def _standing_alone(scene: Scene) -> list[tuple[int, str]]:
    """Capitalized unknown words in a clause of their own: '30.1 gal · Two Elders'."""
    tokens = scene.tokens
    if not scene.unknown:
        return []
    named = [index for index in scene.unknown if _is_a_name(tokens[index])]
    if not named or scene.text.isupper():
        return []
    stops = _fills_named(scene) if len(named) > 1 else []
    if stops:
        return stops
    company = companions(scene)
    if "texts_here" in scene.groups:
        company = {*company, *texter(scene)}
    for index in named:
        token = tokens[index]
        if index in company:
            continue
        if _contracted(token) or _heads_a_field(tokens, index):
            continue  # 'It'd done 512', 'Evening folks.'
        if not token.groups.isdisjoint(NAMES_NONE | NO_NAME):
            continue  # 'Date: 07/11/2026' on a pasted ticket, 'Evening folks.'
        before = tokens[index - 1] if index else None
        if before is not None and before.kind is NUMBER and token.glued:
            continue  # 'Rego 1AB 2CD'
        if before is None or before.kind in (MARK, BREAK) or before.kind is NUMBER:
            end = _name_end(tokens, index)
            if not (
                _is_ware(scene, end)
                or _is_of_vehicle(tokens, end)
                or _does(tokens, index, end)
                or _is_loaded(tokens, end)
                or _tells_aside(scene, index, end)
                or _is_so(tokens, index)
            ):
                return [(0, scene.words_between(index, end))]
    return []


def _contracted(token: Token) -> bool:
    """'It'd', 'She'll': a word with the beginning of its verb; 'O'Neil' and 'Molly's' are names."""
    behind = max(token.raw.rfind(mark) for mark in APOSTROPHES)
    return behind > 0 and len(token.raw) - behind <= LONGEST_VERB and not token.possessive


LONGEST_VERB = 3
"""Characters of what an apostrophe leaves of a verb, with it: 'It'll'."""


def _heads_a_field(tokens: list[Token], index: int) -> bool:
    """'Trip: 412 mi': a word that the phrasebook knows, before a colon."""
    return bool(tokens[index].groups) and index + 1 < len(tokens) and tokens[index + 1].raw == ":"


NAMES_NONE = frozenset(
    (
        "heads_field",
        "printed_word",
        "greeting",
        "permits",
        "speaks_of_people",
        "one_of_tanks",
        "cost_word",
        "by_bars",
        "asks_first",
        "tells_level",
        "tows",
        "numbered_part",
    )
)
"""Groups of words that are no place, although no term of the log either."""


def _is_of_vehicle(tokens: list[Token], end: int) -> bool:
    """'Whole camper on the scale', 'Portable pads': what it is like, and no place."""
    return end < len(tokens) and bool(tokens[end].senses.keys() & {"vehicle", "name", "axle_noun"})


def _does(tokens: list[Token], start: int, end: int) -> bool:
    """'Dale waved us in', 'Jonas fell asleep': who does something, and no place."""
    plain = sum(1 for token in tokens[start + 1 : end] if token.raw.islower())
    told = end < len(tokens) and "somebody_told" in tokens[end].groups
    hitched = end < len(tokens) and (hitches_ours(tokens, end) or _fills_ours(tokens, end))
    return plain > 1 or (plain > 0 and told) or hitched


def _is_loaded(tokens: list[Token], end: int) -> bool:
    """'Firewood loaded, 800 lb, odometer 51,302': what is carried, and no place."""
    return end < len(tokens) and "load_verb" in tokens[end].senses


def _fills_ours(tokens: list[Token], verb: int) -> bool:
    """'Odette filled Juniper', 'Odette bought a hat': who did it, before what it was done to."""
    does, behind = tokens[verb], tokens[verb + 1 : verb + 2]
    return "fuel_cue" in does.senses and any(
        "name" in token.senses or "article" in token.groups for token in behind
    )


def _tells_aside(scene: Scene, start: int, end: int) -> bool:
    """'Deputy came out with pads.', 'Honestly we feared worse.': a sentence without a figure."""
    if end >= len(scene.tokens) or scene.tokens[end].kind is not WORD:
        return False
    if scene.talk[end] == OTHER:
        return True  # 'Dave next to us scaled 26,400'
    first, last = scene.sentence_of(start)
    behind = scene.tokens[end]
    if GUESS in behind.senses.get("talk", "").split():
        return True  # 'Mia guessed 20,000'
    verb = "copula" in behind.senses.get("glue", "").split() or "pronoun" in behind.groups
    says = verb or "talk" in behind.senses
    return first == start and says and not any(first <= f.start < last for f in scene.figures)


def _is_so(tokens: list[Token], index: int) -> bool:
    """'Weather's lovely', 'Extractor's aboard': the s is a verb; 'Molly's fuel stop' is a name."""
    behind = tokens[index + 1] if index + 1 < len(tokens) else None
    if behind is None or not tokens[index].possessive or behind.kind is not WORD:
        return False
    return behind.raw[0].islower() and OF_BUSINESS.isdisjoint(behind.senses)


OF_BUSINESS = frozenset(("fuel_cue", "product", "street", "weigh_cue"))
"""Classes of words that what sells fuel or weighs is called by, too."""


def _is_ware(scene: Scene, end: int) -> bool:
    """'Antifreeze 1 gal', 'Coffee 2.19' on a receipt: what is bought, and not where."""
    listed = BREAK in scene.kinds
    return any(
        figure.start == end
        and (
            figure.claimed == OTHER_GOODS
            or (listed and figure.token.decimals == CENTS)
            or (figure.dimension == VOLUME and figure.role is None)  # 'Milk 2 gal'
        )
        for figure in scene.figures
    )
