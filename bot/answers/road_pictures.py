"""What the pictures of driving show: economy over time, and the week on one card.

This file decides which tanks and ways of driving a picture has room for, and what of a week
goes on its card. The arithmetic is `domain`'s; how a figure is written, `measures.py`'s.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

from bot.answers.alt_text import alt_text
from bot.answers.journeys import over_first, over_notes
from bot.answers.language import date_text, say
from bot.answers.limits import mass_text
from bot.answers.measures import (
    cost_rows,
    dates,
    distance,
    economy_figure,
    economy_unit,
    economy_value,
    fills,
    local,
    mode_name,
    money,
    tanks,
    volume,
)
from bot.answers.pictures import (
    EconomyPicture,
    Fact,
    Part,
    Point,
    Section,
    Series,
    Tick,
    WeekPicture,
)
from bot.answers.scale_pictures import margin_bar
from bot.answers.words import day, listed, number
from domain.account import Heaviest
from domain.context import ECONOMY_UNIT, MASS_UNIT
from domain.driving import Driving
from domain.economy import RECENT, Estimates, as_measured, estimate
from domain.fuel import Rate, Tank, only_mode
from domain.log import Preferences
from domain.margins import Unknown
from domain.modes import SOLO, UNTOLD, towing
from domain.quantities import Quantity, economy
from domain.summary import ACTIVITY, Summary

MOST_SERIES = 4
"""Ways of driving that one picture tells apart; those with the most road."""

MOST_POINTS = 60
"""Tanks that one picture shows, the newest."""

FEW_TANKS = 3
"""Below so many tanks there is no 'over time' to show (common practice, no source)."""

MIXED = "mixed tanks"
WIDEST = 3.0
"""An interval is drawn no further than so many times its figure."""

MOST_TICKS = 5
MOST_NAMES = 4
"""Authors that a card names; the others are counted together."""


def economy_picture(
    chosen: Sequence[Tank], estimates: Estimates, headline: str, preferences: Preferences
) -> EconomyPicture | None:
    """Each tank where it was closed, and each way of driving with its interval.

    None where there are too few tanks to show anything over time.
    """
    shown = [tank for tank in chosen if tank not in estimates.set_aside][-MOST_POINTS:]
    days = [local(tank.closed.at, preferences).date() for tank in shown]
    if len(shown) < FEW_TANKS or days[0] == days[-1]:
        return None
    first, last = min(days), max(days)
    places = [(each - first) / (last - first) for each in days]
    modes = sorted(estimates.rates, key=lambda mode: -estimates.rates[mode].km)[:MOST_SERIES]
    groups: dict[str, list[Point]] = {mode: [] for mode in (*modes, MIXED)}
    for tank, at in zip(shown, places, strict=True):
        mode = only_mode(tank)
        point = _point(tank.rate, at, preferences)
        groups[mode if mode in modes else MIXED].append(point)
    series = [_series(mode, estimates.rates[mode], groups[mode], preferences) for mode in modes]
    if groups[MIXED]:
        series.append(
            Series(
                name=say("Mixed tanks"),
                figure="",
                grounds=tanks(len(groups[MIXED])),
                value=0.0,
                low=0.0,
                high=0.0,
                points=tuple(groups[MIXED]),
            )
        )
    unit, aside = ECONOMY_UNIT[preferences.units], estimates.set_aside
    unclear = [mode_name(mode) for mode in estimates.unclear][:MOST_SERIES]
    notes = (
        say("Bands and whiskers are right nine times in ten."),
        say("Too few tanks yet to tell: {modes}.", modes=listed(unclear)) if unclear else "",
        say("Left out as unlikely: {tanks}.", tanks=tanks(len(aside))) if aside else "",
    )
    better = say("less is better") if unit == "L/100km" else say("more is better")
    picture = EconomyPicture(
        title=say("Economy"),
        headline=headline,
        days=dates(first, last, last),
        unit=f"{economy_unit(preferences)}, {better}",
        series=tuple(series),
        ticks=_ticks(first, last),
        notes=tuple(filter(None, notes)),
    )
    return replace(picture, alt=alt_text(picture))


def _series(mode: str, rate: Rate, points: Sequence[Point], preferences: Preferences) -> Series:
    whole = _point(rate, 0.0, preferences)
    return Series(
        name=mode_name(mode),
        figure=economy_figure(rate, preferences),
        grounds=f"{tanks(rate.tanks)}, {distance(rate.km, preferences)}",
        value=whole.value,
        low=whole.low,
        high=whole.high,
        points=tuple(points),
    )


def _point(rate: Rate, at: float, preferences: Preferences) -> Point:
    unit = ECONOMY_UNIT[preferences.units]

    def told(per_km: float) -> float:
        return economy(Quantity(1.0, "km"), Quantity(per_km, "L"), unit).value

    ends = sorted((told(1 / rate.low), told(max(1 / rate.high, rate.rate / WIDEST))))
    return Point(at=at, value=told(rate.rate), low=ends[0], high=ends[1])


def _ticks(first: date, last: date) -> tuple[Tick, ...]:
    """The firsts of months where there are two or more of them, else the first and last day."""
    length = (last - first).days
    months = [
        each for each in (first + timedelta(days=n) for n in range(length + 1)) if each.day == 1
    ]
    step = -(-len(months) // MOST_TICKS)
    chosen = months[::step] if len(months) > 1 else [first, last]
    years = any(one.year != other.year for one, other in pairwise(chosen))
    return tuple(
        Tick(
            at=(each - first) / (last - first),
            label=_label(each, by_month=len(months) > 1, with_year=years and each.month == 1),
        )
        for each in chosen
    )


def _label(each: date, *, by_month: bool, with_year: bool) -> str:
    if not by_month:
        return date_text(each, say("d MMM"))
    return date_text(each, say("MMM y") if with_year else say("LLL"))


def week_picture(
    driven: Driving,
    told: Summary,
    top: Heaviest | None,
    attention: Sequence[str],
    preferences: Preferences,
) -> WeekPicture:
    """The week on one card; `attention` as it is said in the answer beside it."""
    last, cautions = told.days.last, over_notes(top, preferences)
    sections = (
        Section(title=say("Fuel"), facts=_fuel(told, preferences)),
        Section(title=say("Economy"), facts=_against_the_usual(driven, told, preferences)),
        _at_the_scale(top, preferences),
        Section(title=say("Wants attention"), lines=tuple(attention)),
        Section(title=say("Logged by"), lines=_logged(driven, told)),
    )
    picture = WeekPicture(
        title=say("The week"),
        verdict=over_first(top, preferences).strip(),
        days=dates(told.days.first, last, last),
        total=say("No odometer reading") if told.km is None else distance(told.km, preferences),
        parts=_parts(told, preferences),
        sections=tuple(each for each in sections if each.facts or each.bar or each.lines),
        caution=cautions[0] if cautions else "",
    )
    return replace(picture, alt=alt_text(picture))


def _fuel(told: Summary, preferences: Preferences) -> tuple[Fact, ...]:
    if not told.fills:
        return ()
    bought = Fact(name=say("Bought"), figure=volume(told.litres, preferences), remark=_bought(told))
    costs = cost_rows(told.tanks, preferences)
    return (
        bought,
        *(Fact(name=row.label, figure=row.figure, remark=say("full tanks")) for row in costs[:1]),
    )


def _at_the_scale(top: Heaviest | None, preferences: Preferences) -> Section:
    """The heaviest weighing, and the tightest margin of any."""
    unit, title = MASS_UNIT[preferences.units], say("At the scale")
    if top is None:
        return Section(title=title)
    facts: tuple[Fact, ...] = ()
    if top.gross is not None:
        when = day(local(top.at, preferences))
        facts = (Fact(name=say("Heaviest"), figure=mass_text(top.gross, unit), remark=when),)
    if top.tightest is None or isinstance(top.tightest, Unknown):
        return Section(title=title, facts=facts)
    return Section(title=title, facts=facts, bar=margin_bar(top.tightest, unit))


def _bought(told: Summary) -> str:
    count = fills(told.fills)
    return f"{money(told.spent)}, {count}" if told.spent else count


def _parts(told: Summary, preferences: Preferences) -> tuple[Part, ...]:
    """Towed and solo; the one of them that was driven, where that is all."""
    if not told.km:
        return ()
    towed = sum(km for mode, km in told.split.items() if towing(mode))
    solo = told.split.get(SOLO, 0.0)
    parts = (
        [(say("Towed"), towed), (say("Solo"), solo)]
        if towed or solo
        else [(say("Driven"), told.km)]
    )
    return tuple(
        Part(name=name, figure=distance(km, preferences), share=min(km / told.km, 1.0))
        for name, km in parts
        if km
    )


def _against_the_usual(
    driven: Driving, told: Summary, preferences: Preferences
) -> tuple[Fact, ...]:
    """Each way of driving over the week's tanks, beside what it took in the year before."""
    earlier = [
        tank
        for tank in driven.chain.tanks
        if told.days.start - RECENT <= tank.closed.at < told.days.start
    ]
    usual = estimate(earlier).rates if earlier else {}
    rates = as_measured(told.tanks)
    if not rates and told.economy is not None:
        rates = {UNTOLD: told.economy}
    return tuple(
        Fact(
            name=mode_name(mode),
            figure=economy_figure(rate, preferences),
            remark=_usually(rate, usual, mode, preferences),
        )
        for mode, rate in list(rates.items())[:MOST_SERIES]
    )


def _usually(rate: Rate, usual: Mapping[str, Rate], mode: str, preferences: Preferences) -> str:
    """The usual figure, and whether the week's differs from it by more than both are sure of."""
    known = usual.get(mode)
    if known is None:
        return say("no usual figure yet")
    value = economy_value(known, preferences)
    if rate.low > known.high:
        return say("better than the usual {economy}", economy=value)
    if rate.high < known.low:
        return say("worse than the usual {economy}", economy=value)
    return say("as usual, {economy}", economy=value)


def _logged(driven: Driving, told: Summary) -> tuple[str, ...]:
    """Who sent how much of what was logged in the week, the most first."""
    by = Counter(
        each.by or say("unnamed")
        for each in driven.log
        if told.days.covers(each.at) and isinstance(each.entry, ACTIVITY)
    )
    ranked = sorted(by.items(), key=lambda each: (-each[1], each[0].casefold()))
    named = [f"{name} {number(count, 0)}" for name, count in ranked[:MOST_NAMES]]
    rest = sum(count for _, count in ranked[MOST_NAMES:])
    if rest:
        named.append(say("others {count}", count=number(rest, 0)))
    return (", ".join(named),) if named else ()
