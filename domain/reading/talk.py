"""Which stretches of a message state nothing.

Plans, guesses, negations, requests, and what is said of other people and their rigs are talk. A
cue speaks for its own clause, from where it stands; a guess for the whole clause. This file does
not decide what the rest means.
"""

from __future__ import annotations

from collections.abc import Sequence
from operator import attrgetter
from typing import TYPE_CHECKING

from domain.reading.beside import CURRENCY_MARKS
from domain.reading.everyday_words import hitches_ours, sees_to_part
from domain.reading.figures import LEAST_LOAD, VOLUME
from domain.reading.label import NAMING
from domain.reading.phrasebook import fold
from domain.reading.theirs import has_one, is_last_owner, is_somebodys
from domain.reading.tokens import BREAK, MARK, NUMBER, WORD, Token
from domain.reading.told_for_us import (
    LOADED,
    are_bars,
    does_for_us,
    follows_on,
    puts_it_with_us,
    truck_named_last,
)
from domain.reading.what_rides import are_loaded, is_other_vehicle

if TYPE_CHECKING:
    from domain.reading.scene import Scene

PLAN, GUESS, NEGATION, OTHER, REQUEST = "plan", "guess", "negation", "other", "request"
OTHER_VEHICLE = "vehicle"
ADVERT = "advert"

SHORT_CLAUSE = 3
FARTHEST_OWNER = 3
"""Tokens: so near its start a heading says whose the lines below it are."""
NEAR = 3
"""Tokens from a rig or a person to where they are: 'the couple parked next to us'."""


def talk_of(scene: Scene) -> list[str | None]:
    """For each token what kind of talk it is in; None where something is stated."""
    talking = not TALKING.isdisjoint(scene.said) or _names_somebody(scene)
    talk: list[str | None] = _talk_of(scene) if talking else [None] * len(scene.tokens)
    if "speaks_for_us" in scene.groups and scene.phrase_said("not_ours"):
        _leave_others(scene, talk)
    return talk


TALKING = frozenset(("talk", "names_price", "beside_us"))
"""A class of term and groups of words of which one stands in talk, where nobody is named."""


def _talk_of(scene: Scene) -> list[str | None]:
    tokens = scene.tokens
    talk: list[str | None] = [None] * len(tokens)
    offered = "names_price" in scene.groups and _offers(scene)
    if offered or ("talk" in scene.by_class and scene.has("talk", ADVERT)):
        return [OTHER] * len(tokens)
    besides, parted = "beside_us" in scene.groups, not PARTING.isdisjoint(scene.groups)
    turns = "speaks_for_us" in scene.groups
    owned = _somebody(scene, 0)
    state: str | None = OTHER if owned else None
    guessed = ahead = once = False
    clause_start = sentence_start = 0
    for index, token in enumerate(tokens):
        if token.ends_sentence:
            if token.kind is BREAK and _heads_of_others(scene, talk, sentence_start, index):
                return [OTHER] * len(tokens)
            clause_start = sentence_start = index + 1
            owned = _somebody(scene, sentence_start)
            state = OTHER if owned else None
            guessed = ahead = once = False
            continue
        if (
            turns
            and "speaks_for_us" in token.groups
            and (owned or state == OTHER)
            and _turns_to_us(scene, index)
        ):
            state, owned, guessed = None, False, False
            continue
        if token.raw == "," or (
            parted
            and (
                "parts_talk" in token.groups
                or (state == OTHER and "leads_clause" in token.groups and we_do(scene, index + 1))
            )
        ):
            guessing = (
                state == GUESS
                and not _ends_guess(scene, clause_start, index)
                and not _figure_in(scene, sentence_start, index)
            )
            guessed = (guessed or guessing) and not (
                _scale_says(scene, index + 1) or "refuses" in tokens[index - 1].groups
            )  # 'he swears we'd be over but nope, the rig came to 12,440'
            if state == OTHER and _row_goes_on(scene, clause_start, index):
                owned = True
            if owned and we_do(scene, index + 1):
                owned = False
            once = once and token.raw == "," and not _is_done(scene, index + 1)
            ahead = ahead and "turns_away" not in token.groups  # '... tomorrow, anyway 51,377 now'
            state = OTHER if owned else GUESS if guessed else PLAN if ahead or once else None
            clause_start = index + 1
            continue
        cue: str | None = None
        if token.possessive or "talk" in token.senses:
            cue = _cue(scene, index, token)
        if besides and _is_beside_us(scene, index):
            cue = OTHER
        elif state == OTHER and not owned:
            owned = has_one(scene, index) or _fills_hers(scene, index)
        if cue is None:
            talk[index] = state
            continue
        if cue == GUESS:
            for earlier in range(clause_start, index):
                talk[earlier] = talk[earlier] or GUESS
            if clause_start == index and _only_guesses(scene, index):
                _guess_before(scene, talk, index - 1)
            state = GUESS
        else:
            state = cue
            owned = owned or "owner" in token.groups
            owned = owned or (cue == OTHER and _stands_before_thing(scene, index))
            ahead = ahead or "ahead" in token.groups
            once = once or _came_to_nothing(scene, index)
            if token.possessive:
                owned = owned or _owns(scene, index)
                if is_last_owner(scene, index):
                    talk[clause_start:index] = [OTHER] * (index - clause_start)
        talk[index] = state
    return talk


PARTING = frozenset(("parts_talk", "leads_clause"))
"""Groups of words that a clause may begin with which goes on of something else."""


def _offers(scene: Scene) -> bool:
    """'asking $9,400': what somebody sells, and no rig of the chat."""
    for index, token in enumerate(scene.tokens):
        if "names_price" in token.groups:
            near = scene.tokens[index + 1 : index + 1 + NEAR]
            behind = [each for each in near if "glue" not in each.senses]  # 'quoted us 4,200'
            marked = bool(behind) and behind[0].raw in CURRENCY_MARKS
            price = behind[-1] if marked else next(iter(behind), token)
            if price.kind is NUMBER and price.value >= LEAST_OFFERED:
                return True
    return False


LEAST_OFFERED = 500
"""Dollars, pounds or euros that are asked for a rig, at least."""


def _came_to_nothing(scene: Scene, index: int) -> bool:
    """'we were going to fill up at the border': what was planned, and was not done."""
    if "planned_once" not in scene.tokens[index].groups:
        return False
    behind = scene.tokens[index + 1 : index + 1 + NEAR]
    if behind and "recording" in behind[0].groups and DOES.isdisjoint(behind[0].senses):
        return False  # 'meant to write down 28.4 gal'
    return any(
        not (DOES.isdisjoint(token.senses) and "full" not in token.senses) for token in behind
    )


def _is_done(scene: Scene, index: int) -> bool:
    """'meant to fill in Elm Creek, filled here instead': what was done in its place."""
    behind = scene.tokens[index : index + NEAR]
    return any(not DOES.isdisjoint(token.senses) for token in behind)


def _leave_others(scene: Scene, talk: list[str | None]) -> None:
    """'24,980 on the hay truck, not ours': the sentence in which that is said is of others."""
    for index, token in enumerate(scene.tokens):
        start, end = scene.sentence_of(index)
        if "speaks_for_us" in token.groups and scene.phrase_said("not_ours", start, index + 1):
            talk[start:end] = [OTHER] * (end - start)


def _fills_hers(scene: Scene, index: int) -> bool:
    """'my sister filled her jeep': a thing behind 'her' is hers, and no name for our truck."""
    if scene.tokens[index].text.rpartition(" ")[2] not in scene.book.groups["hers"]:
        return False
    behind = scene.tokens[index + 1 : index + 2]
    return bool(behind) and behind[0].kind is WORD and not (behind[0].senses or behind[0].groups)


def _turns_to_us(scene: Scene, index: int) -> bool:
    """'the truck ahead of us was 78,400, us: 20,180', 'ours was 20,180': what follows is ours."""
    before = scene.tokens[max(0, index - NEAR) : index]
    behind = scene.tokens[index + 1 : index + 1 + NEAR]
    if not behind or any("beside_us" in token.groups for token in before):
        return False
    if behind[0].raw == ":" or (len(behind) > 1 and behind[1].raw == ":"):
        return True  # 'they weighed us again: ...'
    led = bool(before) and not before[-1].groups.isdisjoint(("to", "of"))
    said = next((each for each in behind if "copula" not in each.senses.get("glue", "")), None)
    return not led and said is not None and said.kind is NUMBER and said.value >= LEAST_LOAD


def we_do(scene: Scene, index: int) -> bool:
    """'but we got our numbers', 'so we weighed the rig': from there on it is told of us."""
    while index < len(scene.tokens) and "leads_clause" in scene.tokens[index].groups:
        index += 1
    who, does = scene.tokens[index : index + 1], scene.tokens[index + 1 : index + 2]
    if who and who[0].text in scene.book.groups["we_put"]:
        return True
    if not (who and does and "we" in who[0].groups):
        return False
    return not DOES.isdisjoint(does[0].senses) or "copula" in does[0].senses.get("glue", "").split()


def _scale_says(scene: Scene, index: int) -> bool:
    """'I guessed 23,000, and the scale says 21,640': what follows is no guess any more."""
    while index < len(scene.tokens) and scene.tokens[index].groups & {"leads_clause", "article"}:
        index += 1
    said = scene.tokens[index : index + 1]
    return bool(said) and "scale_says" in said[0].groups


DOES = frozenset(("weigh_cue", "fuel_cue", "event", "hitch", "load_verb"))
"""Classes of term with which we say what we did."""


def _row_goes_on(scene: Scene, start: int, comma: int) -> bool:
    """'the guy ahead weighed 5,340 steer, 6,900 drive': a load of the same row is his, too."""
    before, behind = scene.tokens[start:comma], scene.tokens[comma + 1 : comma + 3]
    return _tells_load(before[-2:]) and _tells_load(behind)


def _tells_load(pair: Sequence[Token]) -> bool:
    """'5,340 steer', 'steer 5,340'."""
    if len(pair) != PAIR:
        return False
    number, name = sorted(pair, key=lambda token: token.kind is not NUMBER)
    load = number.kind is NUMBER and number.value >= LEAST_LOAD
    return load and not LOADED.isdisjoint(name.senses)


PAIR = 2
"""Tokens of a load and what it is of."""


def _heads_of_others(scene: Scene, talk: list[str | None], start: int, end: int) -> bool:
    """'The neighbor's ticket:' and a colon above lines: all that follows is somebody else's."""
    return start == 0 < end and scene.tokens[end - 1].raw == ":" and OTHER in talk[:FARTHEST_OWNER]


def _names_somebody(scene: Scene) -> bool:
    """Whether a word may be somebody's name: it is unknown and does something, or owns a thing."""
    tokens = scene.tokens
    for index in scene.unknown:
        token = tokens[index]
        if token.possessive or (token.raw[0].isupper() and _somebody(scene, index)):
            return True
    return any(map(POSSESSIVE, tokens))


POSSESSIVE = attrgetter("possessive")


def _ends_guess(scene: Scene, start: int, end: int) -> bool:
    """'my turn to pay apparently, $118': said behind its clause, a guess is of that alone."""
    last = scene.tokens[end - 1].senses.get("talk", "").split()
    return GUESS in last and end - start > SHORT_CLAUSE


def _figure_in(scene: Scene, start: int, end: int) -> bool:
    """Whether a figure of the log stands between: a guess behind it is of that alone."""
    return any(
        start <= figure.start < end and _before_guess(scene, figure.start, start)
        for figure in scene.figures
    )


def _before_guess(scene: Scene, index: int, start: int) -> bool:
    return not any(
        "guess" in scene.tokens[k].senses.get("talk", "").split() for k in range(start, index)
    )


def _somebody(scene: Scene, index: int) -> bool:
    """'Ned filled up 40 gal': somebody unknown does it, and not at our odometer."""
    if index == len(scene.tokens):
        return False
    token = scene.tokens[index]
    following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
    if scene.text.count("\n") > 1:
        return False  # a pasted ticket
    named = token.kind is WORD and not token.senses and token.raw[0].isupper()
    if not named or token.raw.isupper() or following is None or following.raw[0].isupper():
        return False
    behind = scene.tokens[index + 2] if index + 2 < len(scene.tokens) else None
    heads = behind is None or behind.kind is MARK  # 'Dunmarrow weighbridge, 6.42 t'
    if token.possessive and heads and "fuel_shop" in following.groups:
        return False  # "Molly's fuel stop, 21.4 gal" says where
    acts = bool(following.senses.keys() & {"fuel_cue", "hitch"}) or (
        "somebody_does" in following.groups or ("weighs_it" in following.groups and not heads)
    )
    if not acts:
        return False
    ours = follows_on(scene) or hitches_ours(scene.tokens, index + 1)
    ours = ours or ("check_done" in scene.by_class and sees_to_part(scene.tokens, index + 1))
    if behind is not None and "name" in scene.by_class:
        ours = ours or behind.senses.get("name", "").startswith("truck:")
    return not (ours or puts_it_with_us(scene, index))


def _only_guesses(scene: Scene, index: int) -> bool:
    """Whether the clause is a guess and nothing else: '..., i think'.

    '265 kg, reckon that's good' guesses whether so much will do, and not how much it is.
    """
    start, end = scene.clause_of(index)
    if not index or scene.tokens[index - 1].raw != "," or end - start > SHORT_CLAUSE:
        return False
    last = scene.tokens[end - 1]
    return "check_done" not in last.senses and last.senses.get("glue") != "filler"


def _guess_before(scene: Scene, talk: list[str | None], comma: int) -> None:
    """'9200, i think': the guess is of the clause before."""
    start, end = scene.clause_of(comma - 1) if comma else (0, 0)
    for index in range(start, end):
        talk[index] = talk[index] or GUESS


def _cue(scene: Scene, index: int, token: Token) -> str | None:
    senses = token.senses
    if token.possessive:
        stranger = not (token.senses or token.groups)
        if _owns_vehicle(scene, index, token) or (stranger and is_somebodys(scene, index)):
            return OTHER
    value = senses.get("talk")
    if value is None or ("name" in senses and "owner" not in token.groups):
        return None
    cue = value.split()[0]
    if "looks_shortened" in token.groups and token.raw.isalpha():
        return None
    if cue == OTHER_VEHICLE:
        if "tow_car" in token.groups and scene.context.units != "us":
            return None
        if any(token.text in words for words, _ in scene.names.several):
            return None  # 'boat trailer by itself, boat on it'
        return OTHER if is_other_vehicle(scene, index) else None
    following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
    counted = index > 0 and scene.tokens[index - 1].kind is NUMBER
    if counted and ("aboard" in senses or (following and "aboard" in following.senses)):
        return None  # '4 guys in the truck'
    if "planned_once" in token.groups and following is not None and "note" in following.senses:
        return None  # 'meant to log this yesterday: 28.4 gal'
    if "they_or_them" in token.groups and are_bars(scene, index):
        return None
    if "may_be_loaded" in token.groups and are_loaded(scene, index):
        return None
    if "they" in token.groups and following is not None and "restates" in following.groups:
        # 'the gallons I gave were 22.7, they ought to read 27.2'
        told = any(each.kind is NUMBER for each in scene.tokens[:index])
        if told and "correction" in following.senses:
            return None
    if "came_word" in token.groups and index and _is_weighed(scene.tokens[index - 1]):
        return None  # 'they come to 3,600 lb', 'the gross come out to 21,220' ask nobody in
    if "all_of_us" in token.groups and token.possessive:
        return None  # "we've arrived, everyone's stiff": how we are
    if cue == OTHER:
        truck = "may_be_truck" in token.groups and truck_named_last(scene, index)
        return None if truck or does_for_us(scene, index, token) else OTHER
    if cue == REQUEST and following is not None and not POLITE.isdisjoint(following.groups):
        following = next(iter(scene.tokens[index + 2 : index + 3]), None)  # 'would you please log'
    recorded = following is not None and "recording" in following.groups
    if cue in (REQUEST, PLAN) and recorded and following and not _came_to_nothing(scene, index):
        # 'gonna put the camper on'
        ahead = "hitch" in following.senses or _is_to_be_poured(scene, index + 1)
        return cue if ahead else None
    if cue == GUESS:
        if "quotes" in token.groups and _is_said(scene, index):
            return OTHER
        if "at_the_most" in token.groups and _limits(scene, index):
            return None
        dashed = "dash" in scene.by_class and _is_of_truck(scene, index - 1)
        read = "figure_word" in token.groups and _is_what_it_reads(scene, index)
        return None if dashed or read else cue  # 'truck reckons 10.8 mpg on the dash'
    if cue == PLAN:
        done = following is not None and "already_done" in following.groups  # 'before we left'
        led = index and "lets_us" in token.groups and _is_person(scene.tokens[index - 1])
        by_then = "evening" in token.groups and _was_done_by(scene, index)
        return None if done or led or by_then else cue
    return None if cue == NEGATION and _absent(scene, index) else cue


POLITE = frozenset(("asks_politely", "courtesies", "polite"))
"""Groups of words that may stand before what is asked for."""


def _limits(scene: Scene, index: int) -> bool:
    """'may tow no more than 9,200': of a rating it is a limit, and elsewhere a guess."""
    start, _ = scene.clause_of(index)
    return any(not RATES.isdisjoint(token.senses) for token in scene.tokens[start:index])


RATES = frozenset(("rating", "rating_cue"))
"""Classes of term behind which a figure is a limit."""


def _is_said(scene: Scene, index: int) -> bool:
    """'and kyle was like slow down': what somebody said, where 'it was like 228' is a guess."""
    behind = scene.tokens[index + 1 : index + 1 + NEAR]
    if any(token.kind is NUMBER for token in behind):
        return False
    return index - 1 in scene.unknown or (index > 0 and _is_person(scene.tokens[index - 1]))


def _was_done_by(scene: Scene, index: int) -> bool:
    """'loaded 24 hives tonight at 95 lb each': an evening in which it has been done."""
    start, _ = scene.clause_of(index)
    return any(
        "already_done" in token.groups and "hitch" not in token.senses
        for token in scene.tokens[start:index]
    )


def _is_weighed(token: Token) -> bool:
    return "they" in token.groups or not LOADED.isdisjoint(token.senses)


def _is_to_be_poured(scene: Scene, index: int) -> bool:
    """'gonna put 30 gal in': fuel that somebody means to buy, where 'put 24.6 gal' is a record."""
    if "putting" not in scene.tokens[index].groups:
        return False
    near = (each for each in scene.figures if index < each.start <= index + NEAR)
    volume = next((each for each in near if each.dimension == VOLUME), None)
    if volume is None:
        return False
    behind = scene.tokens[volume.end : volume.end + 1]
    return volume.whole or any("into" in token.groups for token in behind)


def _is_what_it_reads(scene: Scene, index: int) -> bool:
    """'that drive figure', 'the figure': a noun, where 'i figure' is a guess."""
    before = scene.tokens[index - 1] if index else None
    if before is None:
        return False
    named = not NAMING.isdisjoint(before.senses) and "name" not in before.senses
    return named or "article" in before.groups


def _is_of_truck(scene: Scene, index: int) -> bool:
    """Whether what stands there is the truck or its dash, which guesses nothing."""
    if index < 0:
        return False
    senses = scene.tokens[index].senses
    return "dash" in senses or senses.get("vehicle") == "truck"


def _owns(scene: Scene, index: int) -> bool:
    """Whether an 's is of an owner: in "everyone's asleep, odometer 48,622" it is a verb."""
    _, end = scene.clause_of(index)
    behind = scene.tokens[index + 1 : end]
    return len(behind) != 1 or bool(behind[0].senses) or behind[0].kind is not WORD


def _is_person(token: Token) -> bool:
    """'they let us': it was allowed, and done."""
    return OTHER in token.senses.get("talk", "").split()


def _stands_before_thing(scene: Scene, index: int) -> bool:
    """'my brother's truck', 'the neighbors rig': a person right before a vehicle owns it."""
    behind = scene.tokens[index + 1 : index + 2]
    return bool(behind) and not OWNED.isdisjoint(behind[0].senses)


OWNED = frozenset(("vehicle", "rig", "ticket"))
"""Classes of term that somebody else's is told of."""


def _absent(scene: Scene, index: int) -> bool:
    """'without the flatdeck': nothing is denied, and one vehicle was not there."""
    behind = scene.tokens[index + 1 : index + 3]
    if (
        len(behind) == 2
        and "article" in behind[0].groups
        and "absent" in scene.tokens[index].groups
    ):
        behind = behind[1:]
    return bool(behind) and bool(behind[0].senses.keys() & {"vehicle", "name"})


def _is_beside_us(scene: Scene, index: int) -> bool:
    """'truck ahead of us lost a chain': another rig than ours; a trailer behind is our own."""
    senses = scene.tokens[index].senses
    rig = "vehicle" in senses or senses.get("talk") in (OTHER, OTHER_VEHICLE)
    if senses and not rig:
        return False
    start, end = scene.clause_of(index)
    near = range(index + 1, min(index + 1 + NEAR, end - 1))
    at = next((at for at in near if "beside_us" in scene.tokens[at].groups), None)
    if at is None or scene.tokens[at + 1].kind is not WORD:
        return False
    acts = next((k for k in range(at + 1, end) if scene.tokens[k].groups.isdisjoint(TO_US)), at)
    told = scene.tokens[acts].groups & {"somebody_does", "weighs_it"}  # 'Dave next to us scaled'
    if not (rig or told or "aboard" in scene.tokens[at + 1].senses):
        return False  # 'the cattle pot in front of us', and not 'walked behind the fence'
    before, behind = scene.tokens[at - 1], scene.tokens[at + 1]
    if "front" in scene.tokens[at].groups and "in_or_up" not in before.groups:
        return False
    if "coming_up" in scene.tokens[at].groups and "to" not in behind.groups:
        return False  # 'truck next week'
    if senses.get("vehicle") == "trailer" and "behind" in scene.tokens[at].groups:
        return False
    return all("glue" in token.senses or not token.senses for token in scene.tokens[start:index])


TO_US = frozenset(("to", "of", "ours"))
"""Groups of words between 'next' or 'ahead' and what somebody there does."""


def _owns_vehicle(scene: Scene, index: int, token: Token) -> bool:
    """'Odette's rig': a vehicle of somebody whom the chat does not know as its own."""
    if "name" in token.senses or "vehicle" in token.senses or fold(token.raw) in scene.names.own:
        return False
    behind = scene.tokens[index + 1 : index + 2]
    if behind and "article" in behind[0].groups:
        return False  # "this one's the truck": the s is a verb
    if "talk" in token.senses and any("onto" in each.senses.get("glue", "") for each in behind):
        return False  # 'mower's in the tub': where it is, and no more
    told = index and "glue" in scene.tokens[index - 1].senses  # 'last week's ticket'
    named = not token.senses and (token.raw[0].isupper() or not told)
    for step in range(1, 4):
        if index + step >= len(scene.tokens):
            return False
        following = scene.tokens[index + step]
        if named and ("ticket" in following.senses or "weighed_out" in following.groups):
            return True  # 'Dale's ticket: steer ...'
        if named and "odometer" in following.senses:
            return not follows_on(scene)
        if following.senses.get("name") in scene.names.own.values():
            kind = "vehicle" in following.senses  # 'Odette's caravan' is hers where ours is one too
            return kind and step == 1 and named
        if "vehicle" in following.senses or "talk" in following.senses:
            return True
    return False
