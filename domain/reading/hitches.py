"""Trailers put on and taken off.

This file decides when 'hooked up' is an event. Words of the trade ('unhitched') stand alone;
everyday ones ('dropped', 'picked up') need a trailer beside them; and a rig that is merely
described while it stands on a scale ('unhooked: 8,140') was not hitched or unhitched then.
"""

from __future__ import annotations

from typing import Literal, cast

from domain.entries import Hitch
from domain.reading.described_rigs import (
    heads_loads,
    is_behind_load,
    is_hooked_to,
    is_setting,
    object_follows,
)
from domain.reading.everyday_words import names_trailer, names_truck
from domain.reading.figures import Figure
from domain.reading.how_it_stood import describes_trailer, puts_on_scale, stood_alone
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.swapped_trailers import swapped
from domain.reading.switched_at import switched_at
from domain.reading.tokens import BREAK, MARK, NUMBER, WORD, Token

REACH = 5
ONTO = 3
"""Tokens behind a verb in which its trailer stands, and behind that, what it is put on."""

Action = Literal["hitched", "unhitched"]


def read_hitches(scene: Scene) -> list[Hitch]:
    """Hitching and unhitching that a message states."""
    found: list[Hitch] = []
    for index, _, key in scene.find("hitch"):
        if not scene.stated(index):
            continue
        start, end = scene.sentence_of(index)
        if BREAK in scene.kinds and _is_field(scene, start, index):
            start, end = 0, len(scene.tokens)
        described = any(
            start <= figure.start < end and _on_a_scale(figure) for figure in scene.figures
        )
        action = key.split()[0]
        if action == "hitched" and scene.context.hitched and _stands_by_itself(scene, index):
            continue
        trailer = _trailer_near(scene, index) or _told_apart(scene, index)
        if not _is_event(scene, index, trailer=trailer, described=described):
            continue
        if found and found[-1].action == action:
            continue
        found.append(Hitch(action=cast(Action, action), trailer=_own_trailer(scene, index)))
    if found and not SHOWS.isdisjoint(scene.said):
        found = [] if _only_shown(scene) else found
    return found or swapped(scene) or _switched(scene) or _told_shortly(scene)


def _only_shown(scene: Scene) -> bool:
    """'dash says trailer disconnected', 'a trailer disconnected message': only a lamp says so."""
    start, end = scene.clause_of(scene.by_class["hitch"][0])
    said = scene.tokens[start:end]
    if any("dash" in token.senses or not WARNS.isdisjoint(token.groups) for token in said):
        return True
    first = next((token for token in said if "article" not in token.groups), None)
    return first is not None and names_truck(first) and any("tells_it" in t.groups for t in said)


WARNS = frozenset(("warns", "on_the_dash"))
"""Groups of words for what shows that something is not well."""

SHOWS = WARNS | {"dash", "tells_it"}
"""The same, the class of term for a dash, and the group of words with which a truck tells it."""


def _is_field(scene: Scene, start: int, index: int) -> bool:
    """'Vehicle: camper only, unhitched', a line of a ticket: how it stood when it was weighed."""
    return any(token.raw == ":" for token in scene.tokens[start:index])


def _stands_by_itself(scene: Scene, index: int) -> bool:
    """'wheel pads, hitched. steer 5210 ...': a trailer that is known to be on, over its loads."""
    if not any(_on_a_scale(figure) for figure in scene.figures):
        return False
    start, end = scene.clause_of(index)
    while start < index and scene.tokens[start].senses.keys() & {"name", "vehicle"}:
        start += 1  # 'camper hitched. steer 5210 ...'
    return end - start <= 2 and start == index


def _on_a_scale(figure: Figure) -> bool:
    """Whether a load is of a rig on a scale; a tongue is weighed before anything is hitched."""
    tongue = isinstance(figure.label, Label) and figure.label.whole == "tongue"
    return figure.role == "load" and not tongue


def _own_trailer(scene: Scene, index: int) -> str | None:
    """The trailer named behind the verb, where the message names several."""
    names = [(at, value.partition(":")) for at, _, value in scene.find("name")]
    trailers = [(at, name) for at, (kind, _, name) in names if kind == "trailer"]
    if len({name for _, name in trailers}) < 2:
        return None
    meant = [(at, name) for at, name in trailers if not _is_denied(scene, at)]
    if "contrasts" in scene.groups and len(meant) == 1:
        return meant[0][1]  # 'hitched up, not the flatdeck, the camper'
    behind = [name for at, name in trailers if index < at <= index + REACH]
    before = [name for at, name in trailers if index - REACH <= at < index]
    start, end = scene.clause_of(index)
    ours = [name for at, name in trailers if start <= at < end]
    if len(ours) == 1:
        return ours[0]  # 'camper unhooked, flatdeck is hooked up'
    return behind[0] if behind else before[-1] if before else None


def _told_apart(scene: Scene, index: int) -> bool:
    """'hooked up, not the flatdeck, the camper': which of two trailers it was is told behind."""
    if "contrasts" not in scene.groups:
        return False
    behind = [at for at, _, _ in scene.find("name") if index < at]
    return len(behind) > 1 and any(_is_denied(scene, at) for at in behind)


def _is_denied(scene: Scene, index: int) -> bool:
    """'not the flatdeck'."""
    before = scene.tokens[max(0, index - 2) : index]
    return any("contrasts" in token.groups for token in before)


def _switched(scene: Scene) -> list[Hitch]:
    """Clauses of a trailer and 'on' or 'off' and nothing else.

    Beside loads that is how it stood on the scale, but for a sentence of its own: "camper's off.".
    """
    named = {*scene.by_class.get("name", ()), *scene.by_class.get("vehicle", ())}
    if not named:
        return []
    switch = scene.book.keys["switch"]
    on_hitch = "on_the" in scene.groups and "rating_subject" in scene.by_class
    if not on_hitch and switch.keys().isdisjoint([token.text for token in scene.tokens]):
        return []
    found: list[Hitch] = []
    weighed = any(_on_a_scale(figure) for figure in scene.figures)
    for index in sorted(named):
        token = scene.tokens[index]
        name = token.senses.get("name", "")
        if not names_trailer(token):
            continue
        if weighed and not (token.possessive and _ends_sentence(scene, index)):
            continue
        beside = _alone_beside(scene, index)
        action = switch.get(beside.text) if beside is not None else None
        if beside is not None and "on_the" in beside.groups:
            action = "hitched"
        if action is not None and scene.stated(index):
            found.append(Hitch(action=cast(Action, action), trailer=name.partition(":")[2] or None))
    return found or _at_readings(scene)


def _at_readings(scene: Scene) -> list[Hitch]:
    """'camper on at 52,014, off at 52,190': what was done at each reading."""
    read = [figure for figure in scene.figures if figure.role in READ]
    switches = [each for figure in read if (each := switched_at(scene, figure)) is not None]
    return [
        Hitch(
            action=each.action,
            trailer=each.trailer,
            words=(("action", scene.words_between(each.at, each.at + 1)),),
        )
        for each in switches
    ]


READ = ("odometer", "fill")
"""Roles of a figure that may be an odometer's reading."""


def _told_shortly(scene: Scene) -> list[Hitch]:
    """'trailer on, lights tested': a clause of its own, where nothing was weighed."""
    if "rig" not in scene.by_class or any(_on_a_scale(figure) for figure in scene.figures):
        return []
    found: list[Hitch] = []
    for index in scene.by_class["rig"]:
        trailer, _, last = scene.tokens[index].text.partition(" ")
        action = scene.book.keys["switch"].get(last)
        whole = _ends_clause_alone(scene, index)
        known = "vehicle" in scene.book.words.get(trailer, {})
        if action is not None and known and whole and scene.stated(index):
            found.append(Hitch(action=cast(Action, action)))
        elif action is not None and known:
            return _at_readings(scene)
    return found


def _ends_clause_alone(scene: Scene, index: int) -> bool:
    """Whether a token is a clause but for the mark that ends it and 'got the' before it."""
    start, end = _between_dashes(scene, index)
    before, behind = scene.tokens[start:index], scene.tokens[index + 1 : end]
    small = all("beside_switch" in token.groups for token in before)
    return small and all(token.kind is MARK for token in behind)


def _between_dashes(scene: Scene, index: int) -> tuple[int, int]:
    """'arrived 51,611 - camper off': the clause of a token, which dashes part as commas do."""
    start, end = scene.clause_of(index)
    if DASHES.isdisjoint(scene.marks):
        return start, end
    dashes = [at for at in range(start, end) if scene.tokens[at].raw in DASHES]
    start = max((at + 1 for at in dashes if at < index), default=start)
    return start, min((at for at in dashes if at > index), default=end)


DASHES = frozenset("-–—")


def _tells_somebody(scene: Scene, index: int) -> bool:
    """'trailer's parked behind the shop if you need it': where it is, for whoever wants it."""
    start, end = scene.sentence_of(index)
    return scene.phrase_said("offers_it", start, end) is not None


def _ends_sentence(scene: Scene, index: int) -> bool:
    """Whether a token's clause is a whole sentence, and another one follows."""
    clause = scene.clause_of(index)
    return clause == scene.sentence_of(index) and clause[1] < len(scene.tokens)


def _alone_beside(scene: Scene, index: int) -> Token | None:
    """The one token of a clause beside another and small words; None if there are more."""
    start, end = _between_dashes(scene, index)
    # A heading parts clauses, as in 'swapped trailers: flatdeck off, camper on'.
    start = next((at for at in range(index, start, -1) if scene.tokens[at - 1].raw == ":"), start)
    # So does the odometer's reading: 'arrived 51,408 flatdeck off'.
    read = (each.end for each in scene.figures if each.role == "odometer" and each.end <= index)
    start = max(start, *read, 0)
    end = _end_before_more(scene, index, end)
    found: Token | None = None
    for position in range(start, end):
        token = scene.tokens[position]
        if position == index or "beside_switch" in token.groups or "time" in token.senses:
            continue
        if found is None and _is_on_hitch(scene, position, end):
            return scene.tokens[position]
        if found is not None and _stands_behind(scene, position, end):
            return found
        if found is not None:
            # 'caravan off at Hazel Farm': where it was parts no clause.
            placed = "at" in token.groups and position + 1 < end
            return found if placed and scene.tokens[position + 1].raw[0].isupper() else None
        found = token
    return found


def _stands_behind(scene: Scene, position: int, end: int) -> bool:
    """'got the float on behind Dusty': behind what the trailer is, and nothing else."""
    behind = scene.tokens[position + 1 : end]
    if behind and "article" in behind[0].groups:
        behind = behind[1:]
    truck = len(behind) == 1 and names_truck(behind[0])
    return truck and "behind" in scene.tokens[position].groups


def _is_on_hitch(scene: Scene, position: int, end: int) -> bool:
    """'the float is on the towbar': on what a trailer is hitched to, and nothing else."""
    token, behind = scene.tokens[position], scene.tokens[position + 1 : end]
    part = len(behind) == 1 and behind[0].senses.get("rating_subject") in HITCHED_TO
    return part and "on_the" in token.groups


HITCHED_TO = ("hitch", "ball")
"""Parts of the truck that a trailer is put on."""


def _end_before_more(scene: Scene, index: int, end: int) -> int:
    """'the trailer's on and lights are checked': where more of the log is joined with 'and'."""
    at = next((at for at in range(index, end) if "and" in scene.tokens[at].groups), end)
    behind = scene.tokens[at:end]
    logged = any(not LOGGED.isdisjoint(token.senses) for token in behind)
    named = "name" in scene.tokens[index].senses and any(_has_verb(token) for token in behind)
    strangers = [scene.tokens[unknown] for unknown in scene.unknown if at < unknown < end]
    if any("it_is" in token.groups for token in behind[1:2]):
        # "camper's on and it's hilarious" is of a film, "and it's raining" of no more than weather.
        named = named and all(token.groups for token in strangers)
    return at if logged or named or not strangers else end


def _has_verb(token: Token) -> bool:
    """'and the bed's empty', 'and lunch is ready': a sentence of its own."""
    return token.possessive or "copula" in token.senses.get("glue", "").split()


LOGGED = frozenset(("check_item", "event", "odometer", "weigh_cue", "fuel_cue"))
"""Classes of term of which one stands in what is told beside a trailer that is on or off."""


def _is_to_come(scene: Scene, index: int) -> bool:
    """'time to hook up the camper', 'dropping it friday', 'almost unhitched': it was not done."""
    before = scene.tokens[index - 1] if index else None
    if before is not None and "short_of_it" in before.groups:
        return True
    start, end = scene.clause_of(index)
    behind = scene.tokens[index + 1 : end]
    if any("ahead" in each.groups for each in (*scene.tokens[start:index], *behind)):
        return True
    if "hitches_in_time" not in scene.tokens[index].groups:
        return False
    if before is not None and "to" in before.groups:
        return True
    weekday = scene.book.keys["weekday"]
    return any(
        "day_ahead" in each.groups or "asks_for_it_behind" in each.groups or each.text in weekday
        for each in behind
    )


def _is_asked(scene: Scene, index: int) -> bool:
    """'are we hitched up? brakes are tested': whose clause has a question mark, it is not told."""
    _, end = scene.clause_of(index)
    return any(token.raw == "?" for token in scene.tokens[end - 1 : end + 1])


def _is_event(scene: Scene, index: int, *, trailer: bool, described: bool) -> bool:
    groups = scene.tokens[index].groups
    if _is_to_come(scene, index) or _is_asked(scene, index):
        return False
    if index + 1 < len(scene.tokens) and "since" in scene.tokens[index + 1].groups:
        return False  # 'hitched since 1998'
    if "is_so" in groups and _is_on_something(scene, index):
        return False
    if "back_on" in groups and _leads_to_trailer(scene, index):
        return False
    if "hitches_a_trailer" in groups and _tells_somebody(scene, index):
        return False
    if not trailer and _hitches_thing(scene, index):
        return False
    if trailer and (_hitches_to_thing(scene, index) or _is_no_news(scene, index)):
        return False
    if "hitches_a_trailer" in groups and not trailer:
        return False
    before = scene.tokens[index - 1] if index else None
    if before is not None and not before.groups.isdisjoint(("contrasts", "no_alone")):
        return False  # 'not hitched yet', in Scots 'no hitched yet'
    if before is not None and "check_item" in before.senses and not trailer:
        return False  # 'breakaway hooked'
    taken_off = scene.tokens[index].senses["hitch"].startswith("unhitched")
    if before is not None and "describes_rig" in before.groups:
        return False  # 'with the camper still hitched'
    people = before is not None and "hitches_people" in before.groups and not taken_off
    if people and (not trailer or _hooks_somebody(scene, index)):
        return _we_are(scene, index)
    if described and taken_off and _then_weighed(scene, index):
        return True
    if described and before is not None and "after_that" in before.groups:
        # '19,400 gross, then dropped the camper', and not 'then hitched steer 5,240'
        behind = any(each.role == "load" and each.start > index for each in scene.figures)
        last = all(token.kind is MARK for token in scene.tokens[index + 1 : index + 2])
        alone = last and "hitches_beside_more" in groups  # and not 'then hooked the bars'
        return (trailer or alone or "surely_hitches" in groups) and not behind
    if groups >= PARKED and _is_weighed_alone(scene):
        return False  # 'parked just the flatdeck on the scale, 4,380': where it was put
    if described and describes_trailer(scene, index):
        return False
    if described and (is_behind_load(scene, index) or is_hooked_to(scene, index)):
        return False  # 'grossed 21,720 hooked to the camper'
    if described:
        setting = is_setting(scene, index) or heads_loads(scene, index)
        # 'float hitched, rear axle 1,940 ...' is news where nothing was on
        news = not taken_off and scene.context.hitched is False and index < FIRST_SAID
        return trailer and (news or object_follows(scene, index)) and not setting
    if trailer:  # '1,120 lb on the ball with the camper hooked' tells how it stood
        weighed = any(figure.role == "load" for figure in scene.figures)
        told_with = before is not None and "rig" in before.senses  # 'with the camper'
        return not (weighed and (told_with or is_setting(scene, index)))
    if "surely_hitches" in groups:
        return _starts_clause(scene, index) or _and_then(scene, index)
    if "hitches_beside_more" in groups and _all_is_told(scene, index):
        return True
    if "hitches_beside_more" in groups and scene.context.hitched is False:
        told = [token for token in scene.tokens if token.kind is WORD]
        if all(token is scene.tokens[index] or "reports_done" in token.groups for token in told):
            return True  # 'hooked up and ready', where nothing was hitched
    if "hitches_beside_more" in groups and scene.figures and not _goes_with(scene, index):
        return _starts_clause(scene, index) or _on_the_way(scene, index)
    return False


def _is_weighed_alone(scene: Scene) -> bool:
    """Whether the trailer stood on the scale, and no truck with it."""
    weighed = any(figure.role == "load" for figure in scene.figures)
    return weighed and stood_alone(scene) == "trailer"


FIRST_SAID = 3
"""Tokens that a message begins with."""

PARKED = frozenset(("hitches_a_trailer", "stands_there"))
"""Groups of a word for putting a trailer anywhere, on the scale too."""


def _is_on_something(scene: Scene, index: int) -> bool:
    """'the camper is on craigslist', 'is off the charts', 'the anvil is on the flatdeck'."""
    behind = scene.tokens[index + 1 : index + 3]
    led = bool(behind) and "article" in behind[0].groups
    if led:
        behind = behind[1:]
    if not behind or behind[0].kind is not WORD:
        return False
    thing = behind[0]
    part = "rating_subject" in thing.senses or thing.senses.get("whole") == "tongue"
    if led and "behind_truck" in thing.groups:
        return _goes_on(scene, index + ON_THE_BACK)
    if led and not (names_truck(thing) or part):
        return True  # 'is off the road'
    return names_trailer(thing) or not (thing.senses or thing.groups)


ON_THE_BACK = 3
"""Tokens from 'is on' to what stands behind 'the back'."""


def _goes_on(scene: Scene, index: int) -> bool:
    """'is on the back lawn': whether a word goes on with what was said; 'and' does not."""
    behind = scene.tokens[index : index + 1]
    small = ("and_alone", "now_word")
    return any(t.kind is WORD and t.groups.isdisjoint(small) for t in behind)


def _leads_to_trailer(scene: Scene, index: int) -> bool:
    """'back on the trailer by 5': who or what is on it again; 'put back on' is said of one."""
    article, thing = scene.tokens[index + 1 : index + 3], scene.tokens[index + 2 : index + 3]
    led = bool(article) and "article" in article[0].groups
    return led and bool(thing) and names_trailer(thing[0])


def _is_no_news(scene: Scene, index: int) -> bool:
    """'hooked the wrong trailer' was put right; 'unhitched my wagon' is said of anything."""
    behind = scene.tokens[index + 1 : index + 1 + ONTO]
    at = next((at for at, token in enumerate(behind) if names_trailer(token)), 0)
    led = behind[at - 1].groups if at else frozenset()
    return "found_wrong" in led or ("of_a_person" in led and "towed_wagon" in behind[at].groups)


def _hooks_somebody(scene: Scene, index: int) -> bool:
    """'ever since the trailer I was hooked': one who is hooked, on something that he saw."""
    who = scene.tokens[index - 2] if index > 1 else None
    return who is not None and "somebody" in who.groups and not object_follows(scene, index)


def _we_are(scene: Scene, index: int) -> bool:
    """'we're hitched up and the brakes are tested': no wedding, but the rig.

    So it is without a check beside it, where nothing was on, or at a reading of our odometer.
    """
    verb = index - 1
    are = scene.tokens[verb].groups
    if WE_ARE.isdisjoint(are):
        return False
    groups = scene.tokens[index].groups
    read = any(figure.role == "odometer" for figure in scene.figures)
    if "ties_rig" not in groups and not (read and "surely_hitches" in groups):
        return False
    ours = verb > 0 and "we" in scene.tokens[verb - 1].groups
    if ours and "auxiliary" in are and "were" not in are:
        verb -= 1
    elif ours or "were" not in are:
        return False  # 'we were hitched up last week'; who texts 'were' alone means 'we're'
    if scene.tokens[-1].raw == "?" or not _opens(scene, verb):
        return False
    unhitched = scene.context.hitched is False and "surely_hitches" in groups
    return unhitched or read or "check_item" in scene.by_class


WE_ARE = frozenset(("were", "auxiliary"))
"""Groups of the verb in 'we are hitched up', and in 'we're' as it is typed without its mark."""


def _opens(scene: Scene, index: int) -> bool:
    """Whether nothing but 'okay' and its like stands before a word in its clause."""
    start, _ = scene.clause_of(index)
    return all("before_question" in token.groups for token in scene.tokens[start:index])


def _then_weighed(scene: Scene, index: int) -> bool:
    """'unhitched and weighed just the truck': one thing was done, and then the other."""
    behind = range(index + 1, min(index + REACH, len(scene.tokens) - 1))
    then = [at + 1 for at in behind if "then" in scene.tokens[at].groups]
    return _starts_clause(scene, index) and any(puts_on_scale(scene, at) for at in then)


def _hitches_thing(scene: Scene, index: int) -> bool:
    """'dropped a glove', 'hooked the chains', 'unhooked the phone': what is no trailer."""
    behind = scene.tokens[index + 1 : index + 5]
    if not behind or "article" not in behind[0].groups:
        return False
    thing = next(
        (each for each in behind[1:] if each.kind is WORD and "unit" not in each.senses), None
    )
    return thing is not None and (
        not thing.senses or "check_item" in thing.senses or thing.senses.keys() == {"claim"}
    )


def _hitches_to_thing(scene: Scene, index: int) -> bool:
    """'hitched our wagon to a star': a wagon is also what people hitch to anything."""
    behind = scene.tokens[index + 1 : index + 1 + REACH + ONTO]
    wagon = next((at for at, each in enumerate(behind) if "towed_wagon" in each.groups), None)
    if wagon is None or not any("to" in each.groups for each in behind[wagon + 1 : wagon + 2]):
        return False
    onto = behind[wagon + 2 :]
    return not any(each.senses.keys() & {"vehicle", "name", "rating_subject"} for each in onto)


def _goes_with(scene: Scene, index: int) -> bool:
    """'coupled with the heat': beside something, and hitched to nothing."""
    behind = scene.tokens[index + 1 : index + 2]
    return any("with" in token.groups for token in behind)


def _on_the_way(scene: Scene, index: int) -> bool:
    """'at Cedar Bend, all hooked up and leaving': what happened there stands beside it."""
    start, end = scene.clause_of(index)
    told = any(start <= other < end for other in scene.by_class.get("event", ()))
    return told and index > 0 and "glue" in scene.tokens[index - 1].senses


def _and_then(scene: Scene, index: int) -> bool:
    """'got there 51,298 and unhooked': done where one came, in the same breath."""
    return "and_alone" in scene.tokens[index - 1].groups and _on_the_way(scene, index)


def _all_is_told(scene: Scene, index: int) -> bool:
    """'all hooked up', 'all hooked up and ready': the word for all of it, and nothing strange."""
    before = scene.tokens[index - 1] if index else None
    if before is None or "all_over" not in before.groups:
        return False
    start, end = scene.sentence_of(index)
    if not scene.tokens[start].groups.isdisjoint(ASKS):
        return False
    return all(
        at == index
        or token.kind is MARK
        or not BESIDE_HITCHED.isdisjoint(token.senses)
        or "ready" in token.groups
        for at, token in enumerate(scene.tokens[start:end], start)
    )


ASKS = frozenset(("auxiliary", "asks_first"))
BESIDE_HITCHED = frozenset(("glue", "time", "event", "check_item", "check_done"))
"""Classes of term that may stand beside a rig that is hooked up, and are of it."""


BEFORE_DONE = frozenset(("glue", "missed_verb"))
"""Classes of term before what was done: 'we unhitched', 'forgot to say we unhitched'."""


def _starts_clause(scene: Scene, index: int) -> bool:
    start, end = scene.clause_of(index)
    while start < index and not BEFORE_DONE.isdisjoint(scene.tokens[start].senses):
        start += 1
    if index and scene.tokens[index - 1].kind is NUMBER:
        return True  # 'hitched 51,240 unhitched 51,402'
    return start == index or end - start <= 3


def _trailer_near(scene: Scene, index: int) -> bool:
    """A trailer in the same sentence, close by: 'dropped the flatdeck', 'camper is hooked up'."""
    tokens = scene.tokens
    for at in (*scene.by_class.get("name", ()), *scene.by_class.get("vehicle", ())):
        if at == index or abs(at - index) > REACH or not names_trailer(tokens[at]):
            continue
        low, high = min(index, at), max(index, at)
        # 'the lid is off - trailer is fine' tells another thing of it
        marks = {",", *DASHES} if index < at else {","}
        parted = any(token.ends_sentence or token.raw in marks for token in tokens[low:high])
        if parted or any(each.start < high and low < each.end for each in scene.figures):
            continue
        if at + 1 == len(tokens) or PARTS_OF_ONE.isdisjoint(tokens[at + 1].senses):
            return True
    return False


PARTS_OF_ONE = frozenset(("check_item", "axle_noun"))
"""Classes of term behind a trailer that name a part of it."""
