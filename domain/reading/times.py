"""When a message says that something happened.

This file decides which words tell a time and what moment they mean, counted from when the
message was sent and in the chat's zone. Clock times, dates and 'yesterday' are worked out
here; anything rarer goes to dateparser, which costs about a millisecond and is therefore only
called where time words stand. Numeric dates are month first for US units, day first otherwise.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from domain.context import Context
from domain.reading.scene import Scene
from domain.reading.tokens import NUMBER, TIME, WORD, Token

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
MONTHS = (
    "jan",
    "feb",
    "mar",
    "apr",
    "may",
    "jun",
    "jul",
    "aug",
    "sep",
    "oct",
    "nov",
    "dec",
)
DAYS_BACK = {
    "today": 0,
    "tonight": 0,
    "this morning": 0,
    "this afternoon": 0,
    "this evening": 0,
    "this arvo": 0,
    "arvo": 0,
    "noon": 0,
    "around noon": 0,
    "midday": 0,
    "lunchtime": 0,
    "earlier today": 0,
    "yesterday": 1,
    "yday": 1,
    "yest": 1,
    "last night": 1,
    "yesterday morning": 1,
    "yesterday afternoon": 1,
    "yesterday evening": 1,
    "the day before yesterday": 2,
    "day before yesterday": 2,
}
EVENING = frozenset(
    (
        "tonight",
        "this evening",
        "this afternoon",
        "last night",
        "yesterday evening",
        "yesterday afternoon",
        "this arvo",
        "arvo",
    )
)
MORNING = frozenset(("this morning", "yesterday morning"))
CLOCK_OF_WORD = {"noon": (12, 0), "midday": (12, 0)}

_CLOCK = re.compile(
    r"(?P<hour>\d{1,2})(?:[:.](?P<minute>\d\d))?(?::\d\d)?\s?(?P<half>[ap])?\.?m?\.?(?:o'?clock)?$",
    re.IGNORECASE,
)
_ISO = re.compile(r"(\d{4})-(\d\d?)-(\d\d?)(?:[T ](\d\d):(\d\d)(?::\d\d)?(Z|[+-]\d\d:?\d\d)?)?$")
_NUMERIC = re.compile(r"(\d\d?)[/.-](\d\d?)[/.-](\d{2,4})$")


@dataclass(frozen=True, slots=True)
class When:
    """A day, a clock time on it where one was said, and the tokens that said so."""

    day: date
    clock: tuple[int, int] | None
    tokens: frozenset[int]

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


def has_times(scene: Scene) -> bool:
    """Whether any word or sign of the message tells a time."""
    return "time" in scene.by_class or any(token.kind is TIME for token in scene.tokens)


_DATELIKE = re.compile(r"\d(?:st|nd|rd|th)\b|\d/\d|\b(?:past|to|ago)\b")


def read_when(scene: Scene) -> datetime | date | None:
    """The moment that the message gives for what it states, or None."""
    if not has_times(scene) and not _DATELIKE.search(scene.text):
        return None
    zone = zone_of(scene.context)
    sent = scene.context.sent_at
    local = sent.astimezone(zone) if zone else sent
    passed = _ago(scene, local)
    if passed is not None:
        return passed
    found = _when(scene, local)
    if found is None:
        return None
    return found.moment(zone, scene.context)


def _when(scene: Scene, local: datetime) -> When | None:
    day: date | None = None
    clock: tuple[int, int] | None = None
    used: set[int] = set()
    evening = morning = False
    for index, token in enumerate(scene.tokens):
        if scene.talk[index] in ("plan", "request", "other"):
            continue
        if token.kind is TIME:
            iso = _iso(token, local)
            if iso is not None:
                day, clock = iso[0], iso[1] or clock
                used.add(index)
                continue
            numeric = _numeric(token, scene.context, local)
            if numeric is not None:
                day = day or numeric
                used.add(index)
                continue
            read = _clock(token.raw)
            if read is not None and clock is None:
                clock = read
                used.add(index)
            continue
        key = token.senses.get("time")
        if key is None:
            if token.kind is NUMBER and clock is None:
                clock = _bare_clock(scene, index)
            continue
        kind = key.split()[0]
        if token.text in DAYS_BACK:
            day = local.date() - timedelta(days=DAYS_BACK[token.text])
            evening = evening or token.text in EVENING
            morning = morning or token.text in MORNING
            clock = clock or CLOCK_OF_WORD.get(token.text)
            used.add(index)
        elif kind == "weekday" and token.text[:3] in WEEKDAYS and _is_weekday(scene, index):
            back = (local.weekday() - WEEKDAYS.index(token.text[:3])) % 7
            day = day or local.date() - timedelta(days=back or 7)
            used.add(index)
        elif kind == "month" and (dated := _month_day(scene, index, local)) is not None:
            day = day or dated
            used.add(index)
    clock = clock or _past_hour(scene)
    dated = _slash_date(scene, local)
    if dated is not None:
        day = dated
    if day is None and (nth := _day_of_month(scene, local)) is not None:
        day = nth
    if clock is None and day is None:
        return None
    if clock is not None and evening and clock[0] < 12:
        clock = (clock[0] + 12, clock[1])
    if clock is not None and morning and clock[0] == 12:
        clock = (0, clock[1])
    if day is None and clock is not None:
        day = local.date()
        if (clock[0], clock[1]) > (local.hour, local.minute + 5):
            # A time later than now was yesterday's, unless it is a minute's slip.
            day -= timedelta(days=1)
    assert day is not None
    return When(day, clock, frozenset(used))


def _is_weekday(scene: Scene, index: int) -> bool:
    token = scene.tokens[index]
    return len(token.text) > 3 or token.raw[0].isupper() or _after_preposition(scene, index)


def _after_preposition(scene: Scene, index: int) -> bool:
    return index > 0 and scene.tokens[index - 1].text in (
        "on",
        "last",
        "since",
        "this",
        "from",
        "by",
    )


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


_PAST_HOUR = re.compile(
    r"\b(quarter|half|ten|twenty)\s+(past|after|to|til|till)\s+(\w+)", re.IGNORECASE
)
_HOURS = {
    word: number
    for number, word in enumerate(
        ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"], 1
    )
}
_MINUTES = {"quarter": 15, "half": 30, "ten": 10, "twenty": 20}


def _past_hour(scene: Scene) -> tuple[int, int] | None:
    """'quarter past six', 'half past 4', 'quarter to nine'."""
    match = _PAST_HOUR.search(scene.text)
    if match is None:
        return None
    said = match[3].casefold()
    hour = _HOURS.get(said) or (int(said) if said.isdigit() and int(said) <= 12 else None)
    if hour is None:
        return None
    for figure in scene.figures:
        if match.start() <= figure.token.start < match.end():
            figure.claimed = "a time"
    minutes = _MINUTES[match[1].casefold()]
    if match[2].casefold() in ("past", "after"):
        return hour, minutes
    return (hour - 1) % 12, 60 - minutes


def _bare_clock(scene: Scene, index: int) -> tuple[int, int] | None:
    """'last night at 9', 'yesterday around 4', '6.15 pm' read as a number and letters."""
    token = scene.tokens[index]
    before = scene.tokens[index - 1] if index else None
    after = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
    if after is not None and after.text in ("am", "pm") and token.value < 13:
        minute = round((token.value % 1) * 100) if token.decimals == 2 else 0
        hour = int(token.value) % 12 + (12 if after.text == "pm" else 0)
        return (hour, minute) if minute < 60 else None
    follows_day = (
        before is not None
        and before.text in ("at", "around", "about")
        and any(
            "time" in scene.tokens[k].senses and scene.tokens[k].text in DAYS_BACK
            for k in range(max(0, index - 3), index)
        )
    )
    afternoon = _in_the(scene, index, "afternoon")
    dawn = _in_the(scene, index, "morning")
    plain = token.decimals == 0 and 1 <= token.value <= 12
    if (
        plain
        and (follows_day or afternoon or dawn)
        and "unit" not in (after.senses if after else ())
    ):
        hour = int(token.value)
        if afternoon and hour < 12:
            hour += 12
        _claim(scene, index)
        return hour, 0
    return None


def _in_the(scene: Scene, index: int, part: str) -> bool:
    """'3 in the afternoon'."""
    words = " ".join(token.text for token in scene.tokens[index + 1 : index + 4])
    return words.startswith(f"in the {part}")


def _claim(scene: Scene, index: int) -> None:
    for figure in scene.figures:
        if figure.start <= index < figure.end:
            figure.claimed = "a time"


def _iso(token: Token, local: datetime) -> tuple[date, tuple[int, int] | None] | None:
    match = _ISO.match(token.raw)
    if match is None:
        return None
    try:
        day = date(int(match[1]), int(match[2]), int(match[3]))
    except ValueError:
        return None
    clock = (int(match[4]), int(match[5])) if match[4] else None
    return day, clock


def _numeric(token: Token, context: Context, local: datetime) -> date | None:
    match = _NUMERIC.match(token.raw)
    if match is None:
        return None
    first, second, year = int(match[1]), int(match[2]), int(match[3])
    if year < 100:
        year += 2000
    return _ordered(first, second, year, context)


def _ordered(first: int, second: int, year: int, context: Context) -> date | None:
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
    if not any(token.kind is TIME or "time" in token.senses for token in scene.tokens) and not (
        re.search(
            r"\b(?:on|since|from)\s\d\d?/\d|(?<![\d/])(?:0\d/\d\d|\d\d/0\d)(?![\d/])|^\s*\d\d?/\d\d?\s",
            scene.text,
        )
    ):
        return None
    for match in re.finditer(r"(?<![\d/.])(\d\d?)/(\d\d?)(?![\d/.])", scene.text):
        day = _ordered(int(match[1]), int(match[2]), local.year, scene.context)
        if day is not None:
            if day > local.date():
                day = day.replace(year=day.year - 1)
            for figure in scene.figures:
                if match.start() <= figure.token.start < match.end():
                    figure.claimed = "a date"
            return day
    return None


def _month_day(scene: Scene, index: int, local: datetime) -> date | None:
    """'Jul 9', '9 July', 'July 9th, 2026'; the year is the last that makes it past."""
    month = MONTHS.index(scene.tokens[index].text[:3]) + 1
    day = year = None
    for other in (index + 1, index - 1, index + 2, index - 2, index + 3):
        if not 0 <= other < len(scene.tokens):
            continue
        token = scene.tokens[other]
        number = int(token.value) if token.kind is NUMBER and token.decimals == 0 else None
        if (
            number is None
            and token.kind is WORD
            and re.fullmatch(r"\d\d?(st|nd|rd|th)", token.text)
        ):
            number = int(token.text[:-2])
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
        match = re.fullmatch(r"(\d\d?)(st|nd|rd|th)", token.text)
        if match is None or index < 1:
            continue
        before = scene.tokens[index - 1].text
        further = scene.tokens[index - 2].text if index > 1 else ""
        if before == "on the" or (before == "the" and further in ("on", "since", "from", "back")):
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


_AGO = re.compile(
    r"\b(an?|one|two|three|four|five|six|half an|a couple(?: of)?|\d{1,2})\s+"
    r"(minute|min|hour|hr|day|week|month)s?\s+ago\b",
    re.IGNORECASE,
)
_COUNT = {"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6}


def _ago(scene: Scene, local: datetime) -> datetime | date | None:
    if not scene.has("time", "ago") and "ago" not in scene.text:
        return None
    match = _AGO.search(scene.text)
    if match is None:
        return _by_dateparser(scene, local)
    said = match[1].casefold()
    unit = match[2].casefold()
    for figure in scene.figures:
        if match.start() <= figure.token.start < match.end():
            figure.claimed = "a time"
    count = 0.5 if said.startswith("half") else 2 if "couple" in said else _COUNT.get(said)
    amount = float(said) if count is None else count
    if unit in ("minute", "min"):
        return (local - timedelta(minutes=amount)).replace(microsecond=0)
    if unit in ("hour", "hr"):
        return (local - timedelta(hours=amount)).replace(microsecond=0)
    if unit == "day":
        return local.date() - timedelta(days=int(amount))
    if unit == "week":
        return local.date() - timedelta(weeks=int(amount))
    return _by_dateparser(scene, local)


def _by_dateparser(scene: Scene, local: datetime) -> date | None:
    from dateparser.search import search_dates

    found = search_dates(
        scene.text,
        languages=["en"],
        settings={
            "RELATIVE_BASE": local.replace(tzinfo=None),
            "PREFER_DATES_FROM": "past",
            "DATE_ORDER": "MDY" if scene.context.units == "us" else "DMY",
            "PARSERS": ["relative-time"],
        },
    )
    return found[0][1].date() if found else None


SINCE = re.compile(r"\bsince\b", re.IGNORECASE)


def read_span(scene: Scene) -> tuple[date | None, date | None]:
    """The span that a question names: 'since June 1', 'last month', 'june', 'this year'."""
    zone = zone_of(scene.context)
    sent = scene.context.sent_at
    local = sent.astimezone(zone) if zone else sent
    today = local.date()
    text = " " + " ".join(token.text for token in scene.tokens) + " "
    since = " since " in text
    both = _two_dates(scene, local)
    if both is not None:
        return both
    named = _named_span(text, today)
    if named is not None:
        return (named[0], None) if since else named
    month = _whole_month(scene, today)
    if month is not None:
        return (month[0], None) if since else month
    found = _when(scene, local)
    if found is not None and found.tokens | {0}:
        if since or " from " in text:
            return found.day, None
        return found.day, found.day
    if since or " past " in text or " last " in text:
        return _past_span(text, today)
    return None, None


_DAY = (
    r"(?:(\d\d?)(?:st|nd|rd|th)?\s+(?:of\s+)?({m})\w*|({m})\w*\s+(\d\d?)(?:st|nd|rd|th)?|(\d\d?)/(\d\d?))"
).format(m="|".join(MONTHS))
_SPAN = re.compile(
    rf"\b{_DAY}(?:,?\s+\d{{4}})?\s*(?:to|till|til|until|through|thru|and|-|–)\s*(?:{_DAY}|(\d\d?)(?:st|nd|rd|th)?)\b",
    re.IGNORECASE,
)


def _two_dates(scene: Scene, local: datetime) -> tuple[date, date] | None:
    """'from 1 March to 15 March', '9/1 to 9/14', 'June 3 to 9'."""
    match = _SPAN.search(scene.text)
    if match is None:
        return None
    groups = match.groups()
    first = _day_of(groups[0:6], scene.context, local)
    if first is None:
        return None
    if groups[12] is not None:
        try:
            second: date | None = first.replace(day=int(groups[12]))
        except ValueError:
            return None
    else:
        second = _day_of(groups[6:12], scene.context, local)
    if second is None or second < first:
        return None
    return first, second


def _day_of(groups: tuple[str | None, ...], context: Context, local: datetime) -> date | None:
    """A date from the groups of `_DAY`: day and month name, month name and day, or two numbers."""
    day_first, month_behind, month_first, day_behind, one, other = groups
    if one is not None and other is not None:
        found = _ordered(int(one), int(other), local.year, context)
    else:
        name = month_behind or month_first or ""
        try:
            month = MONTHS.index(name[:3].casefold()) + 1
            found = date(local.year, month, int(day_first or day_behind or 0))
        except ValueError:
            return None
    if found is not None and found > local.date():
        found = found.replace(year=found.year - 1)
    return found


def _named_span(text: str, today: date) -> tuple[date, date | None] | None:
    first = today.replace(day=1)
    monday = today - timedelta(days=today.weekday())
    if " last month" in text or " month before" in text:
        end = first - timedelta(days=1)
        return end.replace(day=1), end
    if " this month" in text or " month so far" in text or " month to date" in text:
        return first, None
    if " last week" in text and " summary" not in text.replace(" last week summary", ""):
        return monday - timedelta(days=7), monday - timedelta(days=1)
    if " last year" in text:
        return date(today.year - 1, 1, 1), date(today.year - 1, 12, 31)
    if " this year" in text or " year so far" in text or " year to date" in text or " ytd" in text:
        return date(today.year, 1, 1), None
    if " this week" in text:
        return monday, None
    if " last weekend" in text or " the weekend" in text:
        saturday = monday - timedelta(days=2)
        return saturday, saturday + timedelta(days=1)
    return None


def _whole_month(scene: Scene, today: date) -> tuple[date, date] | None:
    for index, token, key in scene.find("time"):
        if "month" not in key.split() or token.text[:3] not in MONTHS:
            continue
        if token.text in ("may", "mar", "march") and not (
            token.raw[0].isupper() or _spanned(scene, index)
        ):
            continue
        if _month_day(scene, index, datetime(today.year, today.month, today.day)) is not None:
            return None
        month = MONTHS.index(token.text[:3]) + 1
        year = today.year if month <= today.month else today.year - 1
        start = date(year, month, 1)
        following = date(year + month // 12, month % 12 + 1, 1)
        return start, following - timedelta(days=1)
    return None


def _spanned(scene: Scene, index: int) -> bool:
    return index > 0 and scene.tokens[index - 1].text in ("in", "since", "for", "during", "last")


_PAST = re.compile(
    r" (?:past|last) (\d+|two|three|four|six|few|couple of) (day|week|month|year)s? "
)


def _past_span(text: str, today: date) -> tuple[date | None, date | None]:
    match = _PAST.search(text)
    if match is None:
        return None, None
    said = match[1]
    count = (
        int(said) if said.isdigit() else {"few": 3, "couple of": 2}.get(said, _COUNT.get(said, 1))
    )
    days = {"day": 1, "week": 7, "month": 30, "year": 365}[match[2]]
    return today - timedelta(days=days * count), None
