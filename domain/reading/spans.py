"""The span of days that a question names.

This file decides what 'since June 1', 'last month', 'from 1 to 15 March', 'this year' and 'the
past two weeks' mean, counted from the day the message was sent. An open end is None: the span
runs to now. It does not know what is asked of the span.
"""

from __future__ import annotations

import re
from calendar import monthrange
from collections.abc import Mapping, Sequence
from datetime import date, datetime, timedelta

from domain.reading.ago import count_of
from domain.reading.lexer import TEXT
from domain.reading.phrasebook import Phrasebook
from domain.reading.scene import Scene
from domain.reading.times import (
    find_when,
    local_time,
    month_day,
    ordered_date,
    written_dates,
)
from domain.reading.tokens import NO_GROUPS, TIME

YEAR = re.compile(r"20\d\d")
DAY = re.compile(r"\d\d?")
DAYS = {"day": 1, "week": 7, "month": 30, "year": 365}


def read_span(scene: Scene) -> tuple[date | None, date | None]:
    """The span that a question names: 'since June 1', 'last month', 'june', 'this year'."""
    local = local_time(scene.context)
    today = local.date()
    text = f" {' '.join(map(TEXT, scene.tokens))} "
    groups = scene.book.groups
    since = _stands(text, groups["since"])
    written = written_dates(scene) if TIME in scene.kinds else []
    both = _two_dates(scene, local, written)
    if both is not None:
        return both
    if len(written) == 1 and written[0] <= today:
        open_ended = since or _stands(text, groups["from"])
        return written[0], None if open_ended else written[0]
    named = _named_span(text, today, groups)
    if named is not None:
        return (named[0], None) if since else named
    month = _season(scene, today) or _whole_month(scene, local)
    month = month or _quarter_or_year(scene.book, text, today)
    if month is not None:
        return (month[0], None) if since else month
    found = find_when(scene, local, asked=True)
    if found is not None:
        if since or _stands(text, groups["from"]):
            return found.day, None
        return found.day, found.day
    if since or _stands(text, groups["past_or_last"]):
        return _past_span(scene.book, text, today)
    return None, None


def _two_dates(scene: Scene, local: datetime, written: Sequence[date]) -> tuple[date, date] | None:
    """'from 1 March to 15 March', '9/1 to 9/14', 'June 3 to 9', '2026-05-01 to 2026-05-31'."""
    if len(written) == 2:
        return (written[0], written[1]) if written[0] <= written[1] else None
    match = scene.book.patterns["span"].search(scene.text)
    if match is None:
        return _named_days(scene, local)
    groups = match.groups()
    years = [int(token.text) for token in scene.tokens if YEAR.fullmatch(token.text)]
    first = _day_of(groups[0:6], scene, local, years[0] if years else None)
    if first is None:
        return None
    if groups[12] is not None:
        try:
            second: date | None = first.replace(day=int(groups[12]))
        except ValueError:
            return None
    else:
        second = _day_of(groups[6:12], scene, local, years[-1] if years else None)
    if second is not None and first > second and len(years) == 1:
        first = _day_of(groups[0:6], scene, local, second.year - 1)  # 'Dec 20 to Jan 5, 2026'
    if first is None or second is None or second < first:
        return None
    return first, second


def _named_days(scene: Scene, local: datetime) -> tuple[date, date] | None:
    """'monday to thursday', 'June 5 through today': a day on either side of such a word."""
    if "spans_to" not in scene.groups or not scene.has("time"):
        return None
    for index, token in enumerate(scene.tokens):
        if "spans_to" in token.groups:
            first = find_when(scene, local, (0, index), asked=True)
            last = find_when(scene, local, (index + 1, len(scene.tokens)), asked=True)
            if last is None:
                continue
            day = first.day if first else _same_month(scene, index, last.day)
            if day is not None and day <= last.day:
                return day, last.day
    return None


def _same_month(scene: Scene, index: int, last: date) -> date | None:
    """'the 3rd to the 17th of June', '1 to 15 June': the day before, of the month behind."""
    text = scene.tokens[index - 1].text
    match = scene.book.patterns["day_of_month"].fullmatch(text)
    day = int(match[1]) if match else int(text) if DAY.fullmatch(text) else 0
    return last.replace(day=day) if 0 < day <= last.day else None


def _day_of(
    groups: tuple[str | None, ...], scene: Scene, local: datetime, year: int | None
) -> date | None:
    """A date from a day's groups: day and month, month and day, or two numbers.

    Without a year it is the last such day.
    """
    day_first, month_behind, month_first, day_behind, one, other = groups
    if one is not None and other is not None:
        found = ordered_date(int(one), int(other), year or local.year, scene.context)
    else:
        name = month_behind or month_first or ""
        try:
            month = int(scene.book.keys["month"][name.casefold()])
            found = date(year or local.year, month, int(day_first or day_behind or 0))
        except ValueError:
            return None
    if found is not None and year is None and found > local.date():
        found = found.replace(year=found.year - 1)
    return found


def _stands(text: str, phrases: frozenset[str]) -> bool:
    """Whether one of the phrases stands in a text that has a space at either end."""
    return any(f" {phrase} " in text for phrase in phrases)


def _begins(text: str, phrases: frozenset[str]) -> bool:
    """Whether a word of the text begins like one of the phrases: 'last months'."""
    return any(f" {phrase}" in text for phrase in phrases)


def _named_span(
    text: str, today: date, groups: Mapping[str, frozenset[str]]
) -> tuple[date, date | None] | None:
    first = today.replace(day=1)
    monday = today - timedelta(days=today.weekday())
    if _begins(text, groups["last_month"]):
        end = first - timedelta(days=1)
        return end.replace(day=1), end
    if _begins(text, groups["this_month"]):
        return first, None
    if _begins(text, groups["last_weekend"]):
        saturday = monday - timedelta(days=2)
        return saturday, saturday + timedelta(days=1)
    if _begins(text, groups["last_week"]) and not _other_summary(text, groups):
        return monday - timedelta(days=7), monday - timedelta(days=1)
    if _begins(text, groups["last_year"]):
        return date(today.year - 1, 1, 1), date(today.year - 1, 12, 31)
    if _begins(text, groups["this_year"]):
        return date(today.year, 1, 1), None
    if _begins(text, groups["this_week"]):
        return monday, None
    return None


def _other_summary(text: str, groups: Mapping[str, frozenset[str]]) -> bool:
    """A summary is asked for, and not one of last week."""
    for phrase in groups["last_week_summary"]:
        text = text.replace(f" {phrase}", "")
    return _begins(text, groups["summary_word"])


def _whole_month(scene: Scene, local: datetime) -> tuple[date, date] | None:
    for index, token, key in scene.find("time"):
        if "month" not in key.split():
            continue
        if "month_or_word" in token.groups and not (
            token.raw[0].isupper() or _spanned(scene, index)
        ):
            continue
        if month_day(scene, index, local) is not None:
            return None
        month = int(scene.book.keys["month"][token.text])
        today = local.date()
        year = today.year if month <= today.month else today.year - 1
        return _months(_year_behind(scene, index) or year, month, month)
    return None


def _season(scene: Scene, today: date) -> tuple[date, date] | None:
    """'last summer', 'since spring': the last that began, or before the one that is on."""
    seasons, words = scene.book.keys["season"], scene.words()
    if seasons.keys().isdisjoint(words):
        return None
    memberships = scene.book.memberships
    for at in range(1, len(words)):
        before = memberships.get(words[at - 1], NO_GROUPS)
        if words[at] not in seasons or before.isdisjoint(NAMES_SEASON):
            continue
        behind = [memberships.get(word, NO_GROUPS) for word in words[at + 1 : at + 2]]
        last = any("past_or_last" in each for each in (before, *behind))
        month = int(seasons[words[at]])
        if scene.context.currency in SOUTHERN:
            month = (month + 5) % 12 + 1
        year = _year_behind(scene, scene.owners()[at]) or today.year
        first = date(year, month, 1)
        if first > today:
            first = date(year - 1, month, 1)
        end = _months_on(first, 3) - timedelta(days=1)
        if last and today <= end:
            first = date(first.year - 1, month, 1)
            end = _months_on(first, 3) - timedelta(days=1)
        return first, end
    return None


NAMES_SEASON = frozenset(("past_or_last", "points_at", "since", "in", "article"))
"""Groups of words that stand before a season which is meant as days."""

SOUTHERN = frozenset(("AUD", "NZD", "ZAR", "ARS", "CLP", "UYU", "BRL"))
"""Money of countries south of the equator, where the seasons are the other way round."""


def _months_on(day: date, months: int) -> date:
    month = day.month - 1 + months
    return date(day.year + month // 12, month % 12 + 1, 1)


def _year_behind(scene: Scene, index: int) -> int | None:
    """'June 2025', 'junio de 2025'."""
    behind = scene.tokens[index + 1 : index + 3]
    if len(behind) > 1 and "of" in behind[0].groups:
        behind = behind[1:]
    return int(behind[0].text) if behind and YEAR.fullmatch(behind[0].text) else None


def _months(year: int, first: int, last: int) -> tuple[date, date]:
    return date(year, first, 1), date(year, last, monthrange(year, last)[1])


def names_year(scene: Scene) -> bool:
    """Whether a year or a quarter of one is named as the span: 'in 2025', 'Q2 totals'."""
    return scene.book.patterns["year_span"].search(scene.text.casefold()) is not None


def _quarter_or_year(book: Phrasebook, text: str, today: date) -> tuple[date, date] | None:
    """'Q2' is the last that began, 'Q4 2025' and '2025' are those of that year."""
    match = book.patterns["year_span"].search(text)
    if match is None:
        return None
    quarter, *years = match.groups()
    year = next((int(each) for each in years if each), None)
    if quarter is None:
        return None if year is None else _months(year, 1, 12)
    first = 3 * int(quarter) - 2
    begun = today.year if first <= today.month else today.year - 1
    return _months(year or begun, first, first + 2)


def _spanned(scene: Scene, index: int) -> bool:
    """'for may', 'may summary': the word beside it makes a month of one that is also a verb.

    So does a question word, where it stands last: 'how was may'.
    """
    groups = scene.book.groups
    behind = scene.tokens[index + 1].text if index + 1 < len(scene.tokens) else ""
    return (
        behind in groups["summary_asked"]
        or behind in groups["figures_asked"]
        or (index > 0 and "before_month" in scene.tokens[index - 1].groups)
        or (not behind and index > 0 and "asks_indirectly" in scene.tokens[0].groups)
    )


def _past_span(book: Phrasebook, text: str, today: date) -> tuple[date | None, date | None]:
    match = book.patterns["past_span"].search(text)
    if match is None:
        return None, None
    days = int(DAYS[book.keys["span_unit"][match[2]]] * count_of(book, match[1]))
    if days >= today.toordinal():
        return None, None  # 'the last 5280 years'
    return today - timedelta(days=days), None
