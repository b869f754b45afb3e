"""When a message says that something happened.

This file decides which words tell a time and what moment they mean, counted from when the
message was sent and in the chat's zone. Clock times, dates and 'yesterday' are worked out
here, how long ago it was in `ago`. Numeric dates are month first for US units, day first otherwise.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from domain.context import Context
from domain.reading.ago import read_ago
from domain.reading.figures import VOLUME
from domain.reading.scene import Scene
from domain.reading.tokens import NO_GROUPS, NUMBER, TIME, WORD, Token

_CLOCK = re.compile(
    r"(?P<hour>\d{1,2})(?:[:.](?P<minute>\d\d))?(?::\d\d)?\s?(?P<half>[ap])?\.?m?\.?(?:o'?clock)?$",
    re.IGNORECASE,
)
_ISO = re.compile(
    r"(\d{4})[-/.](\d\d?)[-/.](\d\d?)(?:[T ](\d\d):(\d\d)(?::\d\d)?(Z|[+-]\d\d:?\d\d)?)?$"
)
_NUMERIC = re.compile(r"(\d\d?)[/.-](\d\d?)[/.-](\d{2,4})$")
# A ball of 2 5/16 in is no day of May: a digit stands alone before the fraction.
_SLASHED = re.compile(r"(?<![\d/.])(?<!^\d[ -])(?<![\s(,]\d[ -])(\d\d?)/(\d\d?)(?![\d/.])")
NOON = (12, 0)


@dataclass(frozen=True, slots=True)
class When:
    """A day, and a clock time on it where one was said."""

    day: date
    clock: tuple[int, int] | None

    def moment(self, zone: ZoneInfo | None, context: Context) -> datetime | date:
        """The aware moment, or the day where no clock time was said."""
        if self.clock is None:
            return self.day
        hour, minute = self.clock
        tzinfo = zone or context.sent_at.tzinfo
        return datetime(self.day.year, self.day.month, self.day.day, hour, minute, tzinfo=tzinfo)


def zone_of(context: Context) -> ZoneInfo | None:
    """The chat's time zone, or None where it is unset or unknown."""
    if not context.time_zone:
        return None
    try:
        return ZoneInfo(context.time_zone)
    except (ZoneInfoNotFoundError, ValueError):
        return None


def local_time(context: Context) -> datetime:
    """When the message was sent, by the chat's own clock."""
    zone = zone_of(context)
    return context.sent_at.astimezone(zone) if zone else context.sent_at


def has_times(scene: Scene) -> bool:
    """Whether any word or sign of the message tells a time."""
    return (
        "time" in scene.by_class
        or TIME in scene.kinds
        or "ago" in scene.groups
        or scene.book.patterns["datelike"].search(scene.text) is not None
    )


def read_when(scene: Scene) -> datetime | date | None:
    """The moment that a message which tells a time gives for what it states, or None."""
    zone = zone_of(scene.context)
    local = local_time(scene.context)
    passed = read_ago(scene, local)
    if passed is not None:
        return passed
    found = find_when(scene, local)
    if found is None:
        return None
    return found.moment(zone, scene.context)


def whens_by_part(scene: Scene) -> list[tuple[int, datetime | date]]:
    """Where parts of a message have times of their own: a token of each, and its moment.

    Parts are sentences, and of one with several clock times what stands around each.
    Empty unless two parts tell different times; then what is stated in one happened then.
    """
    if "time" not in scene.by_class and TIME not in scene.kinds:
        return []
    told = [
        index
        for index, token in enumerate(scene.tokens)
        if token.kind is TIME or "time" in token.senses
    ]
    if len(told) < SEVERAL:
        return []
    timed = sorted({scene.sentence_of(index) for index in told})
    zone, local = zone_of(scene.context), local_time(scene.context)
    found = [
        (start, when.moment(zone, scene.context))
        for start, end in timed
        for start, when in _whens_within(scene, local, start, end)
    ]
    return found if len({moment for _, moment in found}) > 1 else []


def _whens_within(
    scene: Scene, local: datetime, start: int, end: int
) -> Iterator[tuple[int, When]]:
    """'left at 6:10 with 48,050, in at 11:45 with 48,318': each clock, and the day of all.

    Without several clocks each day is of its own: '20.1 gal yesterday, 22.6 gal today'.
    """
    whole = find_when(scene, local, (start, end))
    if whole is None:
        return
    clocks = [i for i in range(start, end) if _tells_clock(scene.tokens[i])]
    if len(clocks) < SEVERAL:
        days = [i for i in range(start, end) if _tells_day(scene.tokens[i])]
        if len(days) >= SEVERAL:
            yield from _days_within(scene, local, days)
        elif clocks and days and _tell_two_things(scene, days[0], clocks[0]):
            yield from ((days[0], When(whole.day, None)), (clocks[0], whole))
        else:
            yield start, whole
        return
    last: tuple[int, int] | None = None
    for number, clock in enumerate(clocks):
        opens, closes = scene.clause_of(clock)
        opens = max(opens, clocks[number - 1] + 1) if number else opens
        closes = min([closes, *clocks[number + 1 : number + 2]])
        part = find_when(scene, local, (opens, closes))
        if part is not None:
            own = any(_tells_day(token) for token in scene.tokens[opens:closes])
            # Of another day it may be any hour.
            last = part.clock if own else _behind(scene.tokens[clock], part.clock, last)
            yield clock, When(part.day if own else whole.day, last)


def _tell_two_things(scene: Scene, day: int, clock: int) -> bool:
    """'22.1 gal this morning, 19.4 gal at 3pm': each in a clause with a figure of its own."""
    clauses = {scene.clause_of(day), scene.clause_of(clock)}
    told = {scene.clause_of(each.start) for each in scene.live}
    return len(clauses) == SEVERAL and clauses <= told


def _days_within(scene: Scene, local: datetime, days: Sequence[int]) -> Iterator[tuple[int, When]]:
    """Each day that a sentence tells, with a clock time in its own clause.

    'left Friday, got home Saturday', texted on a Saturday: one behind another day is today.
    """
    last: date | None = None
    for number, day in enumerate(days):
        opens, closes = scene.clause_of(day)
        opens = max(opens, days[number - 1] + 1) if number else opens
        closes = min([closes, *days[number + 1 : number + 2]])
        part = find_when(scene, local, (opens, closes))
        if part is None:
            continue
        today = last is not None and part.day < last and part.day + A_WEEK == local.date()
        last = local.date() if today else part.day
        yield day, When(last, part.clock)


A_WEEK = timedelta(days=7)


def _behind(
    token: Token, clock: tuple[int, int] | None, last: tuple[int, int] | None
) -> tuple[int, int] | None:
    """'left 7am, got in at 2': of an hour without its half of the day, the one that comes next."""
    if clock is None or last is None or clock >= last or _says_half(token):
        return clock
    later = clock[0] + HALF_A_DAY, clock[1]
    return later if clock[0] < HALF_A_DAY and later > last else clock


def _says_half(token: Token) -> bool:
    """Whether a clock time has its half of the day; '5.50 am' keeps it in its text alone.

    The letters of 'quarter past' and 'eight' say nothing of it.
    """
    written = token.raw[0].isdigit() and HALF_OF_DAY.search(token.raw) is not None
    return written or token.text[-1] in HALVES


HALVES = ("a", "p")

HALF_OF_DAY = re.compile(r"[ap]\.?m?|h|^0", re.IGNORECASE)
"""What says which half of the day a clock time is in: 'am', '14h', '07:00'."""

HALF_A_DAY = 12


SEVERAL = 2
"""Clock times in one sentence: each is of what is told beside it."""


def clock_told(scene: Scene) -> int | None:
    """Where the only clock time of a message stands, if it tells one."""
    clocks = [index for index, token in enumerate(scene.tokens) if _tells_clock(token)]
    return clocks[0] if len(clocks) == 1 else None


def day_told(scene: Scene, when: datetime | date | None) -> date | None:
    """The day of a moment, where a word or a date tells it beside the clock time."""
    named = any(_tells_day(token) for token in scene.tokens)
    return when.date() if named and isinstance(when, datetime) else None


def _tells_day(token: Token) -> bool:
    return "time" in token.senses and "noon" not in token.groups


def _tells_clock(token: Token) -> bool:
    """'6:10', 'noon'."""
    return "noon" in token.groups or (token.kind is TIME and _clock(token.text) is not None)


def find_when(
    scene: Scene, local: datetime, span: tuple[int, int] | None = None, *, asked: bool = False
) -> When | None:
    """The day and clock time that a message (or a span of its tokens) names, zoned as `local`.

    What is planned or said of others did not happen then; in a question (`asked`) all counts.
    """
    day: date | None = None
    clock: tuple[int, int] | None = None
    evening = night = morning = unsaid = worded = False
    keys = scene.book.keys
    start, end = span or (0, len(scene.tokens))
    # Where no time stands in digits, the words that tell one are known.
    told = range(start, end) if TIME in scene.kinds else scene.by_class.get("time", ())
    for index in told:
        if not start <= index < end:
            continue
        token = scene.tokens[index]
        if not asked and scene.talk[index] in ("plan", "request", "other"):
            continue
        if token.kind is TIME:
            iso = _iso(token)
            if iso is not None:
                day, clock = iso[0], iso[1] or clock
                continue
            numeric = _numeric(token, scene.context)
            if numeric is not None:
                day = day or numeric
                continue
            read = _clock(token.text)
            if read is not None and clock is None:
                clock, unsaid = read, not _says_half(token)
            continue
        key = token.senses.get("time")
        if key is None:
            continue
        kind = key.split()[0]
        if not asked and index and "since" in scene.tokens[index - 1].groups:
            continue  # '34.2 gal since Tuesday' was pumped today
        if token.text in keys["days_back"]:
            if "noon" in token.groups:
                clock = clock or NOON  # of which day, another word says: 'noon Tuesday'
                continue
            if day is None or "late_in_day" not in token.groups:  # 'Friday arvo'
                day = local.date() - timedelta(days=int(keys["days_back"][token.text]))
            evening = evening or "evening" in token.groups
            night = night or "night" in token.groups
            morning = morning or "morning" in token.groups
            worded = True
        elif kind == "weekday" and token.text in keys["weekday"] and _is_weekday(scene, index):
            day = day or _last(int(keys["weekday"][token.text]), scene, index, local)
            worded = True
            part = scene.tokens[index + 1].groups if index + 1 < end else NO_GROUPS
            evening = evening or "late_in_day" in part  # 'Friday night at 8'
            night = night or "night" in part
            morning = morning or "early_in_day" in part
        elif kind == "month" and (dated := month_day(scene, index, local)) is not None:
            day = day or dated
    if span is None:
        day = _slash_date(scene, local) or day or _day_of_month(scene, local)
    if clock is None:
        return When(day, None) if day is not None else None
    if day is None:
        return _last_moment(clock, local, either=unsaid and span is None)
    if night and (clock[0] < LATEST_EARLY or clock[0] == HALF_A_DAY):
        after = min(day + timedelta(days=1), local.date())
        return When(after, (clock[0] % HALF_A_DAY, clock[1]))  # 'got in at 1 last night'
    early = worded and unsaid and not morning and 1 <= clock[0] < LATEST_EARLY
    if early and day == local.date():
        return _last_moment(clock, local, either=True)
    if (evening or early) and clock[0] < HALF_A_DAY:
        clock = (clock[0] + HALF_A_DAY, clock[1])
    if morning and clock[0] == HALF_A_DAY:
        clock = (0, clock[1])
    return When(day, clock)


def _last_moment(clock: tuple[int, int], local: datetime, *, either: bool) -> When:
    """The last moment with a clock time: 'weighed at 2:15', sent at 14:22.

    `either` is whether its half of the day was left unsaid, so that it may be of both.
    """
    now = local.hour, local.minute + 5  # a minute's slip is none
    other = ((clock[0] + HALF_A_DAY) % (2 * HALF_A_DAY), clock[1])
    clocks = (clock, other) if either and 1 <= clock[0] <= HALF_A_DAY else (clock,)
    today = [each for each in clocks if each <= now]
    if today:
        return When(local.date(), max(today))
    return When(local.date() - timedelta(days=1), max(clocks))  # later than now was yesterday's


LATEST_EARLY = 4
"""Few are on the road before it is light: common practice, no source."""


def _last(weekday: int, scene: Scene, index: int, local: datetime) -> date:
    """'Tuesday', 'last Tuesday': the last one before today; 'last week Tuesday': of that week."""
    back = (local.weekday() - weekday) % 7 or 7
    if scene.phrase_said("last_week", max(0, index - 3), index + 4):
        back = local.weekday() + 7 - weekday  # weeks begin on Monday (ISO 8601)
    elif scene.phrase_said("before_last", index + 1, index + 3):
        back += 7
    return local.date() - timedelta(days=back)


def _is_weekday(scene: Scene, index: int) -> bool:
    token = scene.tokens[index]
    if index and "till_then" in scene.tokens[index - 1].groups:
        return False  # 'not moving til monday'
    return len(token.text) > 3 or token.raw[0].isupper() or _after_preposition(scene, index)


def _after_preposition(scene: Scene, index: int) -> bool:
    return index > 0 and "before_day" in scene.tokens[index - 1].groups


def _clock(raw: str) -> tuple[int, int] | None:
    match = _CLOCK.match(raw.strip())
    if match is None:
        return None
    hour, minute = int(match["hour"]), int(match["minute"] or 0)
    half = (match["half"] or "").lower()
    if half == "p" and hour < 12:
        hour += 12
    if half == "a" and hour == 12:
        hour = 0
    return (hour, minute) if hour < 24 and minute < 60 else None


def written_dates(scene: Scene) -> list[date]:
    """The dates that are written out in digits with their year, in order."""
    found = (
        (_iso(token) or (None,))[0] or _numeric(token, scene.context)
        for token in scene.tokens
        if token.kind is TIME
    )
    return [day for day in found if day is not None]


def _iso(token: Token) -> tuple[date, tuple[int, int] | None] | None:
    match = _ISO.match(token.raw)
    if match is None:
        return None
    try:
        day = date(int(match[1]), int(match[2]), int(match[3]))
    except ValueError:
        return None
    clock = (int(match[4]), int(match[5])) if match[4] else None
    return day, clock


def _numeric(token: Token, context: Context) -> date | None:
    """'07/11/2026'; with dots, '11.07.2026', a day that is yet to come may be told day first."""
    match = _NUMERIC.match(token.raw)
    if match is None:
        return None
    first, second, year = int(match[1]), int(match[2]), int(match[3])
    if year < 100:
        year += 2000
    day = ordered_date(first, second, year, context)
    if "." in token.raw and day is not None and day > local_time(context).date():
        turned = ordered_date(second, first, year, context)
        return turned if turned is not None and turned < day else day
    return day


def ordered_date(first: int, second: int, year: int, context: Context) -> date | None:
    """A date from two numbers in the chat's order, or in the other where only that is a date."""
    orders = [(second, first), (first, second)]
    if context.units == "us":
        orders.reverse()
    for month, day in orders:
        try:
            return date(year, month, day)
        except ValueError:
            continue
    return None


def _slash_date(scene: Scene, local: datetime) -> date | None:
    """'7/9 at 14:20': two small numbers with a slash, beside a clock time."""
    if not has_times(scene) and not scene.book.patterns["slash_date"].search(scene.text):
        return None
    for match in _SLASHED.finditer(scene.text):
        if _is_level(scene, match) or _is_of_price(scene, match):
            continue
        day = ordered_date(int(match[1]), int(match[2]), local.year, scene.context)
        if day is not None:
            if day > local.date():
                day = day.replace(year=day.year - 1)
            if match[0] in QUARTERS and _was_long_ago(scene, day, local):
                continue  # 'filled up 1/4, 26.1 gal'
            scene.claim_between(match.start(), match.end(), "a date")
            return day
    return None


def _was_long_ago(scene: Scene, day: date, local: datetime) -> bool:
    """Whether nobody tells of a fill so late: then the quarters are those of a gauge."""
    fuelled = not FUELLED.isdisjoint(scene.by_class) or any(
        figure.dimension == VOLUME for figure in scene.figures
    )
    return fuelled and (local.date() - day).days > LATEST_TOLD


FUELLED = frozenset(("fuel_cue", "full"))
"""Classes of term that tell of a fill."""

LATEST_TOLD = 60
"""Days after a fill that somebody logs it."""


def _is_of_price(scene: Scene, match: re.Match[str]) -> bool:
    """'at 3.79 and 9/10': the tenths of a cent, and no tenth of September."""
    return any(
        figure.token.end < match.start() <= scene.tokens[figure.end - 1].start
        and figure.token.decimals > 0
        for figure in scene.figures
    )


QUARTERS = ("1/4", "1/2", "3/4", "1/8", "3/8", "5/8", "7/8")
"""How full a gauge shows a tank."""


HAS_LEVEL = frozenset(("fuel", "tank_word"))
"""Groups of words for what a gauge shows the level of."""


def _is_level(scene: Scene, match: re.Match[str]) -> bool:
    """'fuel 3/4', '1/2 tank', '1/2 ton of hay': how full it is or how much, and no day of March."""
    for index, token in enumerate(scene.tokens):
        if token.start == match.start() and "level" in token.senses:
            return True
        if token.start == match.start() and token.decimals == -1:
            if any("unit" in each.senses for each in scene.tokens[index + 1 : index + 2]):
                return True
            beside = scene.tokens[max(0, index - 2) : index + 4]
            at = index and "at_alone" in scene.tokens[index - 1].groups  # 'filled up at 1/4'
            if at and match[0] in QUARTERS and "fuel_cue" in scene.by_class:
                return True
            shown = (*scene.tokens[max(0, index - 3) : index], *beside)
            if match[0] in QUARTERS and any("shows_fuel" in each.groups for each in shown):
                return True  # 'gauge on 3/4'
            return any("tank" in each.senses or each.groups & HAS_LEVEL for each in beside)
    return False


def month_day(scene: Scene, index: int, local: datetime) -> date | None:
    """'Jul 9', '9 July', 'July 9th, 2026'; the year is the last that makes it past."""
    month = int(scene.book.keys["month"][scene.tokens[index].text])
    day = year = None
    for other in (index + 1, index - 1, index + 2, index - 2, index + 3):
        if not 0 <= other < len(scene.tokens):
            continue
        token = scene.tokens[other]
        number = int(token.value) if token.kind is NUMBER and token.decimals == 0 else None
        if number is None and token.kind is WORD:
            named = scene.book.patterns["day_of_month"].fullmatch(token.text)
            number = int(named[1]) if named else None
        if number is None:
            continue
        if number > 1900 and year is None and number < 2100:
            year = number
        elif 1 <= number <= 31 and day is None:
            day = number
    if day is None:
        return None
    try:
        found = date(year or local.year, month, day)
    except ValueError:
        return None
    if year is None and found > local.date():
        found = found.replace(year=found.year - 1)
    return found


def _day_of_month(scene: Scene, local: datetime) -> date | None:
    """'on the 4th': that day of this month, or of the last where it is still to come."""
    for index, token in enumerate(scene.tokens):
        if index < 1 or not token.text[:1].isdigit():
            continue
        match = scene.book.patterns["day_of_month"].fullmatch(token.text)
        if match is None:
            continue
        before = scene.tokens[index - 1].groups
        further = scene.tokens[index - 2].groups if index > 1 else NO_GROUPS
        if "on_the" in before or ("the" in before and "before_the_day" in further):
            return _latest(int(match[1]), local)
    return None


def _latest(day: int, local: datetime) -> date | None:
    month = local.date().replace(day=1)
    for _ in range(3):
        try:
            found = month.replace(day=day)
        except ValueError:
            found = None
        if found is not None and found <= local.date():
            return found
        month = (month - timedelta(days=1)).replace(day=1)
    return None
