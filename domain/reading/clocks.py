"""Clock times that look like other numbers: '7.50 this morning', 'at seven thirty', 'ten past six'.

This file decides which numbers of a message are an hour, before anything takes them for a figure.
Such a token becomes a time of the form '7:30', with 'a' or 'p' behind it where half of the day is
said. What moment that means is decided in `times`.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from itertools import takewhile

from domain.reading.phrasebook import Phrasebook
from domain.reading.tokens import BREAK, MARK, NUMBER, TIME, WORD, Token, make_token

_POINTED = re.compile(r"(\d{1,2})\.([0-5]\d)$")
_TOGETHER = re.compile(r"(\d{1,2})([0-5]\d)$")
LAST_HOUR, NOON = 23, 12

WRITTEN = (0, 2)
"""Decimals that an hour is written with: '7' and '7.50'."""

MINUTES_ASIDE = frozenset(("past", "to", "around", "half_hour", "sets_off"))
"""Groups of which one tells minutes, or leads an hour: 'ten past six', 'half seven', 'off 7.15'."""

HAPPENED = frozenset(("event", "hitch"))
"""Classes of term that say what the rig did: right behind it may stand an hour ('left 7.15')."""

HAPPENED_OR_DAY = HAPPENED | {"time", "weigh_cue"}
"""Classes of what stands before 'at seven thirty': something that happened, or its day."""

TELLS_HOURS = MINUTES_ASIDE | HAPPENED | {"morning", "evening"}
"""Groups and classes of which one stands where an hour does, unless a word of hours follows it."""

MEASURED = frozenset(
    ("subject", "axle", "whole", "unit", "end", "side", "corner", "odometer", "trip_meter", "dash")
) | frozenset(("rating", "moving", "product", "gauge_short", "axle_noun", "money", "tank", "bars"))
"""Classes of what stands 'at' a figure, and at no hour: 'trans at two ten this morning'."""

TOWED = frozenset(("vehicle", "name"))
"""Classes of what has a figure too, unless it was towed: 'left with the camper at seven'."""

COUNTED = frozenset(("unit", "money", "per_volume", "aboard"))
"""Classes of what no hour has behind it."""

BOUGHT_BELOW = 5
"""What a gallon may cost: 'filled up at 3.50 this morning' names its price."""


def settle_clocks(
    text: str,
    tokens: list[Token],
    numbers: Sequence[int],
    book: Phrasebook,
    said: AbstractSet[str],
) -> bool:
    """Make times of the numbers that are hours; whether there were any.

    `numbers` are where they stand, and `said` are the classes and groups of the message's words.
    """
    changed = not said.isdisjoint(MINUTES_ASIDE) and _settle_led(text, tokens, book, said)
    if changed:
        numbers = [index for index, token in enumerate(tokens) if token.kind is NUMBER]
    happened = not HAPPENED.isdisjoint(said)
    joined = 0  # tokens that are part of a time before
    until = 0
    for number in numbers:
        index = number - joined
        token = tokens[index]
        if token.value >= PAST_MIDNIGHT or token.decimals not in WRITTEN or index < until:
            continue
        clock = _hour_of(token)
        if clock is None:
            continue
        half, end = _half_of_day(tokens, index + 1, book)
        if _counts_hours(tokens, index):
            end += 1  # '1430 hrs'
        if half or end > index + 1 or _is_told(tokens, index, clock, book, then=happened):
            hour, minute = clock
            _become_time(tokens, index, end, f"{hour}:{minute:02}{half if hour <= NOON else ''}")
            joined, until, changed = joined + end - index - 1, index + 1, True
    return changed


def _settle_led(text: str, tokens: list[Token], book: Phrasebook, said: AbstractSet[str]) -> bool:
    past = _settle_past_hour(text, tokens, book)
    if "sets_off" not in said:
        return past
    if "hitch" in said and _settle_and_off(tokens, book):
        return True
    return ("sets_off" in tokens[0].groups and _settle_off(tokens, book)) or past


def _settle_and_off(tokens: Sequence[Token], book: Phrasebook) -> bool:
    """'hitched the flatdeck and off, 51,231': behind a trailer put on, one leaves.

    What was unhooked 'and off' is off the hitch itself; so no such word tells who left.
    """
    settled = False
    for index in range(2, len(tokens)):
        token, joins, ahead = tokens[index], tokens[index - 1], tokens[index - 2]
        if "sets_off" not in token.groups or "and" not in joins.groups:
            continue
        if ahead.text in book.keys["switch"]:
            continue  # 'on and off'
        if _hitched_before(tokens, index) and _ends_there(tokens, index + 1):
            token.senses, settled = {**token.senses, "event": "depart"}, True
    return settled


def _hitched_before(tokens: Sequence[Token], index: int) -> bool:
    """Whether what was done to a trailer last, in that clause, is that it was put on."""
    for token in reversed(tokens[:index]):
        if token.ends_sentence or token.raw == ",":
            return False
        if "hitch" in token.senses:
            return token.senses["hitch"].startswith("hitched")
    return False


def _ends_there(tokens: Sequence[Token], index: int) -> bool:
    """Whether nothing is said there but when or where: 'and off at 51,231', 'and off to Pell'."""
    behind = tokens[index] if index < len(tokens) else None
    return behind is None or behind.kind is not WORD or not behind.groups.isdisjoint(SAYS_WHERE)


SAYS_WHERE = frozenset(("at_alone", "to"))
"""Groups of words behind 'off' with which it is told when one left, or where to."""


def _settle_off(tokens: list[Token], book: Phrasebook) -> bool:
    """'off 6.40 51,312', 'off at half six, 51,312': whether one set off then, and there.

    What one set off at stands right behind it, and what the odometer read behind that.
    """
    first, hour = tokens[0], 1
    if len(tokens) < SHORTEST_OFF:
        return False
    hour += "at_alone" in tokens[hour].groups
    token = tokens[hour]
    half, end = _half_of_day(tokens, hour + 1, book)
    behind = list(takewhile(lambda each: each.kind is not NUMBER, tokens[end:]))
    read = tokens[end + len(behind)] if end + len(behind) < len(tokens) else None
    if read is None or read.value < PAST_MIDNIGHT or len(behind) > FARTHEST_READ:
        return False
    if any(not BOUGHT_OR_COUNTED.isdisjoint(token.senses) for token in behind):
        return False  # 'off 6.40 litres, 51,312'
    clock = _hour_of(token) if token.kind is NUMBER else None
    pointed = clock is not None and token.decimals > 0 and clock[0] >= BOUGHT_BELOW
    if not (token.kind is TIME or pointed or (clock is not None and half)):
        return False
    first.senses = {**first.senses, "event": "depart"}
    if clock is not None:
        half = half if clock[0] <= NOON else ""
        _become_time(tokens, hour, end, f"{clock[0]}:{clock[1]:02}{half}")
    return True


SHORTEST_OFF = 3
"""Tokens of 'off', when and where."""

FARTHEST_READ = 6
"""Tokens between the hour and the reading: 'from Pell with the caravan,'."""


def _settle_past_hour(text: str, tokens: list[Token], book: Phrasebook) -> bool:
    """'quarter past six', 'half past 4', 'ten to nine', 'at half seven'."""
    match = book.patterns["past_hour"].search(text)
    if match is None:
        return False
    said = match[3].casefold()
    written = book.numbers.get(said, said)
    hour = int(written) if written.isdigit() else 0
    inside = [
        index
        for index, token in enumerate(tokens)
        if match.start() < token.end and token.start < match.end()
    ]
    following = tokens[inside[-1] + 1] if inside and inside[-1] + 1 < len(tokens) else None
    counts = following is not None and not COUNTED.isdisjoint(following.senses)
    if not 1 <= hour <= NOON or not inside or counts:
        return False
    if match[2] is None and not _stands_as_time(tokens, inside[0], inside[-1] + 1, book):
        return False
    minutes = int(book.keys["minutes"][match[1].casefold()])
    if match[2] is not None and match[2].casefold() not in book.groups["past"]:
        hour, minutes = (hour - 1) % NOON or NOON, 60 - minutes
    half, end = _half_of_day(tokens, inside[-1] + 1, book)
    _become_time(tokens, inside[0], end, f"{hour}:{minutes:02}{half}")
    return True


def _stands_as_time(tokens: Sequence[Token], start: int, end: int, book: Phrasebook) -> bool:
    """'set off half six', 'about half six', 'half six last night': what tells an hour."""
    if end < len(tokens) and _is_part_of_day(tokens[end]):
        return True
    if not start:
        return False
    before = tokens[start - 1]
    around = "around" in before.groups or _ends_around(before, book)
    return around or not HAPPENED.isdisjoint(before.senses)


def _ends_around(token: Token, book: Phrasebook) -> bool:
    """'scaled at', 'pulled in at': one phrase."""
    return token.text.endswith(tuple(f" {word}" for word in book.groups["around"]))


PAST_MIDNIGHT = 2400
"""No clock shows as much, and most loads are more."""


def _hour_of(token: Token) -> tuple[int, int] | None:
    """The hour and minute that a number could be: '7', '7.50', '1430', 'seven thirty'."""
    if token.decimals == 0 and 1 <= token.value <= NOON and not token.said.scaled:
        return int(token.value), 0
    if token.said.in_digits:
        hour, minute = divmod(int(token.value), 100)
        return (hour, minute) if 1 <= hour <= NOON and minute < 60 else None
    written = (_POINTED if token.decimals else _TOGETHER).match(token.raw)
    if written is None or token.said.spoken or int(written[1]) > LAST_HOUR:
        return None
    return int(written[1]), int(written[2])


def _half_of_day(tokens: Sequence[Token], index: int, book: Phrasebook) -> tuple[str, int]:
    """'a' or 'p' as 'am', 'p m' or 'in the afternoon' say, and where that ends; else ''."""
    words = ""
    for end in range(index, min(index + LONGEST_HALF, len(tokens))):
        words = f"{words} {tokens[end].text}".lstrip()
        half = book.keys["half_day"].get(words)
        if half is not None:
            return half[0], end + 1
    return "", index


LONGEST_HALF = 3
"""Tokens: 'in the afternoon'."""


def _is_told(
    tokens: Sequence[Token], index: int, clock: tuple[int, int], book: Phrasebook, *, then: bool
) -> bool:
    """Whether what stands around a number says that it is an hour.

    `then` is whether the message tells of something that happened.
    """
    token = tokens[index]
    before = tokens[index - 1] if index else None
    after = tokens[index + 1] if index + 1 < len(tokens) else None
    happened_then = then and before is not None and _happened_there(tokens, index - 1)
    read = happened_then and token.decimals > 0 and after is not None and after.kind is NUMBER
    if happened_then and after is not None and "odometer" in after.senses and _is_together(token):
        further = tokens[index + 2] if index + 2 < len(tokens) else None
        return further is not None and further.kind is not WORD  # 'arrived 1715 odo 51,408'
    if after is not None and not (_may_follow(after) or read):
        return False  # and 'rolled out 6.20 51,215' has the odometer's reading behind it
    if before is None or before.kind in (MARK, BREAK):
        return after is not None and _is_part_of_day(after) and not _is_together(token)
    if "around" in before.groups:
        lead = index - 2
    elif " " in before.text and _ends_around(before, book):
        lead = index - 1
    elif not happened_then:
        # 'left the yard in Pell 7.10 this morning'
        day = after is not None and _is_part_of_day(after)
        return day and (_only_happened(tokens, index) or _only_placed(tokens, index, clock))
    else:
        day = after is not None and _is_part_of_day(after)  # 'got to Pell 2.30 this afternoon'
        # 'set off 7.15 from home'
        pointed = token.decimals > 0 and (day or clock[0] >= BOUGHT_BELOW)
        pointed = pointed or (day and token.said.in_digits)  # 'left six fifteen this morning'
        return pointed or (token.raw[0] == "0" and _is_together(token))
    if after is not None and _is_part_of_day(after) and _is_plain_hour(tokens, lead, index):
        return True
    if lead > 0 and "one_of_them" in tokens[lead].groups and tokens[lead - 1].kind is NUMBER:
        return False  # 'left trailer hub at 172 others around 120'
    start = _clause_start(tokens, index - 1)
    happened = any("event" in each.senses for each in tokens[start : lead + 1])
    happened = happened or (lead >= 0 and "hitch" in tokens[lead].senses)
    if lead >= 0 and not _leads(tokens, lead, index, clock, happened=happened):
        return False
    if _is_together(token) and (token.raw[0] == "0" or (after is not None and after.raw == ":")):
        return True  # 'weighed at 0650', 'scaled at 1430: steer 5,280'
    days = (*tokens[max(0, index - 4) : index - 1], *tokens[index + 1 : index + 2])
    if token.decimals and clock[0] < BOUGHT_BELOW and not happened:
        days = tuple(each for each in days if _is_part_of_day(each))  # 'today at 3.59'
    if any(each.kind is TIME or "time" in each.senses for each in days):
        return not _is_together(token)
    if lead < 0 or "weigh_cue" in tokens[lead].senses:
        priced = lead < 0 and clock[0] < BOUGHT_BELOW
        happened = happened or (not priced and _loads_follow(tokens, lead, index))
        return happened and not _is_together(token)
    if token.said.in_digits and not happened:
        behind = takewhile(lambda each: not _parts(each), tokens[index : index + LONGEST_CLAUSE])
        happened = any("event" in each.senses for each in behind)
    full = token.decimals == 0 and clock[1] == 0 and len(token.raw) < FOUR_DIGITS
    full = full and not _is_to_the_minute(tokens, index + 1)
    # 'hitched around 7, left at 7:30': an hour beside another clock, and no odometer's or price.
    return happened and not (full and all(each.kind is not TIME for each in tokens))


def _happened_there(tokens: Sequence[Token], at: int) -> bool:
    """'left 7.15', 'set off from Dubbleton 7.15', 'left the yard 7.15': it happened at a place."""
    named = at
    while at > 0 and _is_named(tokens[at]):
        at -= 1
    if 0 < at < named and not LEADING.isdisjoint(tokens[at].groups):
        at -= 1
    return not HAPPENED.isdisjoint(tokens[at].senses)


def _only_happened(tokens: Sequence[Token], index: int) -> bool:
    """Whether a clause tells of coming or going before a pointed number, and of nothing bought."""
    ahead = tokens[_clause_start(tokens, index) : index]
    told = {each for token in ahead for each in token.senses}
    return tokens[index].decimals > 0 and "event" in told and told.isdisjoint(BOUGHT)


BOUGHT = frozenset(("product", "fuel_cue", "money"))
"""Classes of what a pointed number may be a volume or the price of."""

BOUGHT_OR_COUNTED = BOUGHT | COUNTED


def _only_placed(tokens: Sequence[Token], index: int, clock: tuple[int, int]) -> bool:
    """'out of Kelby 6.40 this morning': before a pointed number a name, and how one stood to it."""
    ahead = tokens[_clause_start(tokens, index) : index]
    pointed = tokens[index].decimals > 0 and clock[0] >= BOUGHT_BELOW
    named = any(token.kind is WORD and not token.senses for token in ahead)
    return pointed and named and all(map(_is_of_place, ahead))


def _is_of_place(token: Token) -> bool:
    return _is_named(token) or not token.groups.isdisjoint(OF_A_PLACE)


OF_A_PLACE = frozenset(("leads_to_place", "article", "of", "out"))
"""Groups of the small words that may stand before a place."""


LEADING = frozenset(("article", "from"))
"""Groups of what may stand between an event and its place: 'left the yard', 'set off from it'."""


def _is_named(token: Token) -> bool:
    """Whether a word is no more than a name, or what one calls a place."""
    return token.kind is WORD and not token.senses


def _is_plain_hour(tokens: Sequence[Token], lead: int, index: int) -> bool:
    """'6,880 on the drives around eight this morning': too small for all but a price."""
    token = tokens[index]
    before = set(tokens[lead].senses) if lead >= 0 else set()
    return token.decimals == 0 and token.value <= NOON and before.isdisjoint(PRICED)


PRICED = frozenset(("unit", "product", "fuel_cue", "money"))


def _loads_follow(tokens: Sequence[Token], lead: int, index: int) -> bool:
    """'weighed at twelve fifteen, gross 21,480', and not 'tongue weighed at eleven twenty'."""
    whose = tokens[lead - 1] if lead > 0 else None
    if whose is not None and not (MEASURED | TOWED).isdisjoint(whose.senses):
        return False
    behind = tokens[index + 1 : index + LONGEST_CLAUSE]
    return any(each.kind is NUMBER and each.value >= LEAST_TOGETHER for each in behind)


LEAST_TOGETHER = 1300
"""More than any hour and its minutes."""


def _counts_hours(tokens: Sequence[Token], index: int) -> bool:
    after = tokens[index + 1] if index + 1 < len(tokens) else None
    return len(tokens[index].raw) == FOUR_DIGITS and (
        after is not None and after.senses.get("unit") == "h" and _is_together(tokens[index])
    )


FOUR_DIGITS = 4


def _is_to_the_minute(tokens: Sequence[Token], behind: int) -> bool:
    """'at 7 sharp', and not 'at 7 sharp corners'."""
    sharp = "to_the_minute" in tokens[behind].groups if behind < len(tokens) else False
    return sharp and not any(map(_is_named, tokens[behind + 1 : behind + 2]))


def _may_follow(after: Token) -> bool:
    if after.kind is MARK:
        return after.raw in ",.;:!?)-–—"
    return after.kind not in (NUMBER, TIME) and COUNTED.isdisjoint(after.senses)


def _is_part_of_day(token: Token) -> bool:
    return not token.groups.isdisjoint(("morning", "evening"))


def _is_together(token: Token) -> bool:
    """'1430', typed: a load or a reading as well as an hour."""
    return len(token.raw) > 2 and token.raw.isdigit()


def _leads(
    tokens: Sequence[Token], at: int, index: int, clock: tuple[int, int], *, happened: bool
) -> bool:
    """Whether what stands before 'at' may have an hour behind it."""
    lead = tokens[at]
    classes = lead.senses.keys()
    if lead.kind is NUMBER:  # 'trailer 9,430 at 9 last night', 'on July 9 at nine fifteen'
        behind = tokens[index + 1 : index + 2]
        dated = any("month" in each.senses.get("time", "") for each in tokens[index - 3 : index])
        return dated or (clock[0] >= BOUGHT_BELOW and any(map(_is_part_of_day, behind)))
    if "fuel_cue" in classes:
        return clock[0] >= BOUGHT_BELOW
    if HAPPENED_OR_DAY.isdisjoint(classes):
        if not TOWED.isdisjoint(classes):
            return happened
        return MEASURED.isdisjoint(classes) and lead.senses.get("glue") != "copula"
    return True


def _parts(token: Token) -> bool:
    return token.ends_sentence or token.raw == ","


def _clause_start(tokens: Sequence[Token], index: int) -> int:
    start = max(0, index - LONGEST_CLAUSE)
    parting = [at for at in range(start, index) if _parts(tokens[at])]
    return parting[-1] + 1 if parting else start


LONGEST_CLAUSE = 30
"""Tokens: what is farther away says nothing of an hour."""


def _become_time(tokens: list[Token], start: int, end: int, clock: str) -> None:
    """Put one time in the place of the tokens that tell it."""
    first, last = tokens[start], tokens[end - 1]
    token = make_token(TIME, clock, first.raw, first.start, last.end)
    token.glued = first.glued
    tokens[start:end] = [token]
