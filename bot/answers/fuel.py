"""Answers about fuel: a fill just logged, economy by trailer, exhaust fluid.

This file decides which of the worked-out figures an answer shows and in what order. The
arithmetic is the domain's; how a figure is written is in `measures.py` and `words.py`.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from functools import reduce

from bot.answers.answer import Answer, Row
from bot.answers.examples import DEF_TANK, texted
from bot.answers.journeys import asked_span
from bot.answers.language import say
from bot.answers.measures import (
    beside_the_pump,
    cost_rows,
    dash_figure,
    dash_reads,
    distance,
    economy_figure,
    fills,
    local,
    mode_name,
    mode_phrase,
    mode_word,
    money,
    per_thousand,
    price,
    shares,
    tanks,
    the_trailer,
    volume,
)
from bot.answers.road_pictures import economy_picture
from bot.answers.terms import term
from bot.answers.words import about, day, figure, sentence
from domain.context import VOLUME_UNIT
from domain.driving import Driving, driving
from domain.economy import RECENT, Estimates, dash_bias, estimate
from domain.entries import Fill
from domain.exhaust_fluid import exhaust_fluid
from domain.fuel import DEF, NINETY, Tank, is_full, only_mode, pooled
from domain.log import Log, Logged, Preferences
from domain.modes import UNNAMED, towing
from domain.money import fill_cost, fill_volume, unit_price
from domain.quantities import Quantity
from domain.summary import Span
from domain.verdicts import Question


def no_tank() -> Answer:
    """What is said where no economy can be worked out yet."""
    return Answer(
        headline=say("No full tank to work from yet."),
        notes=(say("Economy needs two full fills with the odometer at each."),),
    )


def fill_answer(
    log: Log, preferences: Preferences, now: datetime, logged_fill: Logged[Fill]
) -> Answer:
    """What is said when a fill has been kept."""
    fill = logged_fill.entry
    driven = driving(_recent(log, now), fill.truck)
    if fill.product == DEF:
        return _def_filled(driven, fill, preferences)
    tank = driven.chain.closed_by(logged_fill)
    if tank is not None:
        return _tank_answer(driven, tank, preferences)
    bought = fill_volume(fill)
    amount = say("Fill") if bought is None else figure(_in_unit(bought, preferences), 1)
    rows = (*_cost_rows(fill, preferences), *_shown_rows(fill))
    if logged_fill in driven.chain.other:
        return Answer(
            headline=say(
                "{amount} of {product} kept, apart from the truck's fuel.",
                amount=amount,
                product=term(fill.product or ""),
            ),
            rows=rows,
        )
    if not is_full(fill):
        return Answer(
            headline=say("{amount} kept as a partial fill.", amount=amount),
            rows=rows,
            notes=(say("It counts with the next full tank."),),
        )
    return Answer(
        headline=say("{amount} kept.", amount=amount),
        rows=rows,
        notes=(_why_no_economy(driven, logged_fill),),
    )


def last_fill_answer(
    log: Log, preferences: Preferences, now: datetime, question: Question
) -> Answer:
    """The last fill of the truck's fuel, or of exhaust fluid: when, how much, and what it cost."""
    driven = driving(log, question.truck)
    def_asked = question.product == DEF
    fills = [each for each in driven.log.of(Fill) if (each.entry.product == DEF) == def_asked]
    if not fills:
        return Answer(headline=say("No fill in the log yet."))
    last = fills[-1]
    bought, cost = fill_volume(last.entry), fill_cost(last.entry)
    amount = say("Fill") if bought is None else figure(_in_unit(bought, preferences), 1)
    when = day(local(last.at, preferences))
    return Answer(
        headline=say("{money} for {amount} on {day}.", money=figure(cost), amount=amount, day=when)
        if cost
        else say("{amount} on {day}; no price told.", amount=amount, day=when),
        rows=(*_cost_rows(last.entry, preferences), *_place_rows(last.entry)),
    )


def _place_rows(fill: Fill) -> Sequence[Row]:
    return (Row(say("Place"), fill.place),) if fill.place else ()


def economy_shown(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """Each mode over the last year or a span, with a picture of every tank."""
    return _economy(log, preferences, now, question, shown=True)


def economy_answer(log: Log, preferences: Preferences, now: datetime, question: Question) -> Answer:
    """The last tank, or the trailer asked about; then each mode, over the last year or a span.

    Asked about a span it is shown too.
    """
    shown = asked_span(question, preferences, now) is not None
    return _economy(log, preferences, now, question, shown=shown)


def best_tank_answer(
    log: Log, preferences: Preferences, now: datetime, question: Question
) -> Answer:
    """The tank that went furthest on its fuel, and the thirstiest, of the days or trailer asked."""
    days = asked_span(question, preferences, now)
    driven = driving(log, question.truck)
    wanted = (question.trailer or "").casefold()
    chosen = [
        tank
        for tank in driven.chain.tanks
        if (days is None or days.covers(tank.closed.at))
        and wanted in ("", (only_mode(tank) or "").casefold())
    ]
    if len(chosen) < TO_COMPARE:
        return economy_answer(log, preferences, now, question)
    by_rate = sorted(chosen, key=lambda tank: tank.rate.rate)
    best, worst = by_rate[0], by_rate[-1]
    close = best.rate.low <= worst.rate.high
    return Answer(
        headline=say("Best tank: {tank}.", tank=_tank_told(best, preferences)),
        rows=(
            Row(
                say("Worst tank"),
                economy_figure(worst.rate, preferences),
                f"{_tank_phrase(worst)}, {day(local(worst.closed.at, preferences))}".lstrip(", "),
            ),
        ),
        notes=(say("Too close to tell apart."),) if close else (),
    )


TO_COMPARE = 2
"""Tanks of which one can be the best."""


def _tank_told(tank: Tank, preferences: Preferences) -> str:
    economy = f"{economy_figure(tank.rate, preferences)} {_tank_phrase(tank)}".strip()
    return f"{economy}, {day(local(tank.closed.at, preferences))}"


def _economy(
    log: Log, preferences: Preferences, now: datetime, question: Question, *, shown: bool
) -> Answer:
    days = asked_span(question, preferences, now)
    driven = driving(_recent(log, now) if days is None else log, question.truck)
    if question.product == DEF:
        return _def_answer(driven, preferences, days)
    chosen = [tank for tank in driven.chain.tanks if days is None or days.covers(tank.closed.at)]
    if not chosen:
        return no_tank()
    estimates = estimate(chosen)
    wanted = (question.trailer or "").casefold()
    asked = next((mode for mode in estimates.rates if mode.casefold() == wanted), None)
    rows = [
        Row(
            mode_name(mode),
            economy_figure(rate, preferences),
            f"{tanks(rate.tanks)}, {distance(rate.km, preferences)}",
        )
        for mode, rate in estimates.rates.items()
    ]
    if asked is not None:
        rate = estimates.rates[asked]
        headline = sentence(
            say(
                "{economy} {how}, over {tanks} and {distance}.",
                economy=economy_figure(rate, preferences),
                how=mode_phrase(asked),
                tanks=tanks(rate.tanks),
                distance=distance(rate.km, preferences),
            )
        )
        rows = [row for row in rows if row.label != mode_name(asked)]
    elif wanted:
        headline = say(
            "Too few tanks with {trailer} to tell yet.", trailer=the_trailer(question.trailer or "")
        )
    else:
        economy = f"{economy_figure(chosen[-1].rate, preferences)} {_tank_phrase(chosen[-1])}"
        headline = say("Last tank {economy}.", economy=economy.strip())
    everything = pooled(chosen)
    if everything is not None and len(estimates.rates) > 1:
        rows.append(
            Row(say("Altogether"), economy_figure(everything, preferences), tanks(len(chosen)))
        )
    rows += _dash_rows(chosen)
    return Answer(
        headline=headline,
        rows=tuple(rows),
        notes=_estimate_notes(estimates, wanted, preferences),
        picture=economy_picture(chosen, estimates, headline, preferences) if shown else None,
    )


def _tank_answer(driven: Driving, tank: Tank, preferences: Preferences) -> Answer:
    fill = tank.closed.entry
    rows = []
    if len(tank.split) > 1:
        rows.append(Row(say("Driven"), shares(tank.split, preferences)))
    if len(tank.fills) > 1:
        last = fill_volume(fill)
        remark = fills(len(tank.fills))
        if last:
            now_in = say("{volume} now", volume=figure(_in_unit(last, preferences), 1))
            remark = f"{now_in}, {remark}"
        rows.append(Row(say("Fuel"), volume(tank.litres, preferences), remark))
    if tank.cost:
        rows.append(Row(say("Cost"), money(tank.cost)))
    rows += cost_rows([tank], preferences)
    if fill.dash_economy is not None:
        rows.append(
            Row(
                say("Dash"),
                dash_figure(fill.dash_economy, preferences),
                dash_reads(fill.dash_economy, tank.rate),
            )
        )
    mode = only_mode(tank)
    usual = estimate(driven.chain.tanks).rates.get(mode) if mode else None
    if usual is not None and usual.tanks > 1:
        rows.append(Row(say("Usual"), economy_figure(usual, preferences), tanks(usual.tanks)))
    went = say(
        "{distance} on {volume}",
        distance=distance(tank.km, preferences),
        volume=volume(tank.litres, preferences),
    )
    economy = f"{economy_figure(tank.rate, preferences)} {_tank_phrase(tank)}".strip()
    return Answer(headline=f"{sentence(economy)}: {went}.", rows=tuple(rows))


def _def_filled(driven: Driving, fill: Fill, preferences: Preferences) -> Answer:
    if fill.volume is None:
        headline = say("DEF kept, apart from the fuel.")
    else:
        amount = figure(_in_unit(fill.volume, preferences), 1)
        headline = say("{amount} of DEF kept, apart from the fuel.", amount=amount)
    return Answer(
        headline=headline,
        rows=(*_cost_rows(fill, preferences), *_def_rows(driven, preferences)),
    )


def _def_answer(driven: Driving, preferences: Preferences, days: Span | None) -> Answer:
    """How fast exhaust fluid goes, what is left, and what was poured in over the days asked."""
    rows, poured = _def_rows(driven, preferences), _poured_rows(driven, preferences, days)
    if not rows:
        return Answer(
            headline=say("Too little DEF logged to tell."),
            rows=poured,
            notes=(say("Two DEF fills with odometer readings around them will do."),),
        )
    return Answer(
        headline=say("DEF: {use}.", use=about(rows[0].figure)),
        rows=(*rows[1:], *poured),
        notes=()
        if rows[1:]
        else (
            say(
                "Text the tank's size ({example}) and a full DEF fill.",
                example=texted(DEF_TANK, preferences),
            ),
        ),
    )


def _poured_rows(driven: Driving, preferences: Preferences, days: Span | None) -> tuple[Row, ...]:
    poured = [
        each.entry.volume.amount("L")
        for each in driven.log.of(Fill)
        if each.entry.product == DEF
        and each.entry.volume
        and (days is None or days.covers(each.at))
    ]
    if not poured:
        return ()
    return (Row(say("DEF"), volume(sum(poured), preferences), fills(len(poured))),)


def _def_rows(driven: Driving, preferences: Preferences) -> tuple[Row, ...]:
    told = exhaust_fluid(driven)
    if told is None:
        return ()
    rows = [Row(say("DEF use"), per_thousand(told.rate, preferences), fills(told.fills))]
    if told.left is not None:
        rows.append(Row(say("DEF left"), about(volume(told.left, preferences))))
    return tuple(rows)


def _cost_rows(fill: Fill, preferences: Preferences) -> tuple[Row, ...]:
    cost = fill_cost(fill)
    if cost is None:
        return ()
    each = unit_price(fill, VOLUME_UNIT[preferences.units])
    return (Row(say("Cost"), figure(cost, 2), price(each) if each else ""),)


def _shown_rows(fill: Fill) -> tuple[Row, ...]:
    """What the odometer read, where no economy tells that it was kept."""
    return (Row(say("Odometer"), figure(fill.odometer)),) if fill.odometer else ()


def _why_no_economy(driven: Driving, fill: Logged[Fill]) -> str:
    if any(each.logged == fill for each in driven.track.reversals):
        return say(
            "Its odometer does not follow from the readings around it, so it has no economy."
        )
    if fill in driven.chain.unbelievable:
        return say(
            "This fuel and the road since the last full tank don't belong together: was a fill"
            " not logged, or not full? Economy starts anew here."
        )
    if fill.entry.missed:
        return say(
            "A fill before it was not logged, so economy starts anew with the next full tank."
        )
    if driven.track.km_of(fill) is None and fill.entry.distance is None:
        return say(
            "Without the odometer it has no economy; its fuel counts with the next full tank."
        )
    return say("This sets the start; economy comes with the next full tank.")


def _tank_phrase(tank: Tank) -> str:
    mode = only_mode(tank)
    if mode is not None:
        return mode_phrase(mode)
    if all(towing(each) for each in tank.split):
        return say("towing, trailers mixed") if tank.split else ""
    return say("towing and solo mixed")


def _dash_rows(chosen: Sequence[Tank]) -> list[Row]:
    """How the dash compares over the tanks that have a dash figure."""
    bias = dash_bias(chosen)
    if bias is None:
        return []
    if abs(bias.share) < NINETY * bias.sd:
        return [Row(say("Dash"), say("agrees with the pump"), tanks(bias.tanks))]
    return [Row(say("Dash"), beside_the_pump(bias.share), tanks(bias.tanks))]


def _estimate_notes(estimates: Estimates, wanted: str, preferences: Preferences) -> tuple[str, ...]:
    notes: list[str] = []
    unclear = [mode_word(mode) for mode in estimates.unclear if mode.casefold() != wanted]
    if unclear:
        apart = reduce(lambda one, other: say("{one} from {other}", one=one, other=other), unclear)
        notes.append(say("Too few tanks yet to tell {modes}.", modes=apart))
    if UNNAMED in estimates.rates or UNNAMED in estimates.unclear:
        notes.append(say("Name the trailer when you hitch up, and I keep them apart."))
    if estimates.set_aside:
        at = local(estimates.set_aside[-1].closed.at, preferences)
        notes.append(
            say("Left out as unlikely: the tank of {day}; a fill may be missing.", day=day(at))
        )
    return tuple(notes)


def _recent(log: Log, now: datetime) -> Log:
    return log.lately(now - RECENT)


def _in_unit(stated: Quantity, preferences: Preferences) -> Quantity:
    return stated.to(VOLUME_UNIT[preferences.units])
