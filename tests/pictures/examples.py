"""Pictures to look at and to measure: as they come, with the longest of everything, with gaps."""

from __future__ import annotations

from dataclasses import replace

from bot.answers.pictures import (
    Bar,
    EconomyPicture,
    Fact,
    MarginsPicture,
    Part,
    Picture,
    Point,
    RigPicture,
    Section,
    Series,
    State,
    Tick,
    WeekPicture,
)
from bot.answers.scale_pictures import margins_picture, rig_picture
from bot.answers.which_weighing import last_weighed
from domain.entries import Rating
from domain.log import Preferences
from tests.domain.day_at_the_scale import three_passes_two_fills
from tests.domain.scale_house import Ticket, flatdeck, juniper, lb, truck_ratings

US = Preferences(units="us", time_zone="America/Boise")

LONG_NAME = "Great-grandmother Wilhelmina's second travelling honey house"
UNBROKEN = "Bienenwanderwagenanhängerzugfahrzeug" * 2
LONG_VERDICT = (
    "Over, if barely: fifth wheel tongue by 104,980 lb, trailer axles' GAWR by 108,880 lb "
    "and 14 more. Count it as over. Don't tow it like this. "
) * 3
CAUTION = "Door label, manual, local law and a licensed mechanic govern."


def rig_of_ticket(ticket: Ticket) -> RigPicture:
    told = last_weighed(ticket.log, US, None)
    assert told is not None
    return rig_picture(told, US)


def margins_of_ticket(ticket: Ticket) -> MarginsPicture:
    told = last_weighed(ticket.log, US, None)
    assert told is not None
    return margins_picture(told, US)


def near_and_over() -> Ticket:
    """Steer near, drive over, the rest inside."""
    ratings = truck_ratings(gvwr=10000, gawr_front=5250, gawr_rear=4400, gcwr=19000)
    return (
        Ticket(*ratings, *flatdeck())
        .hitched()
        .weighs(steer=5100, drive=4480, trailer=8020)
        .weighs(steer=4700, drive=3640, rig="solo")
    )


def fifth_wheel() -> Ticket:
    """Three axles under a gooseneck, each weighed by itself."""
    trailer = [
        Rating(subject="trailer", trailer="flatdeck", rating="gvwr", value=lb(21000)),
        Rating(
            subject="trailer", trailer="flatdeck", rating="gawr", value=lb(7000), note="3 axles"
        ),
        Rating(subject="fifth wheel", rating="tow", value=lb(24000)),
    ]
    return (
        Ticket(*juniper(), *trailer)
        .hitched()
        .weighs(steer=5100, drive=6980, trailer_1=5200, trailer_2=5340, trailer_3=5100)
        .weighs(steer=5000, drive=3840, rig="solo")
    )


def extreme_bar(name: str, state: State, used: float, doubt: float) -> Bar:
    return Bar(
        name=name,
        load="107,360 lb",
        against="of 102,380 lb fifth wheel tongue value",
        left="104,980 lb over",
        state=state,
        used=used,
        doubt=doubt,
    )


def extreme_rig() -> RigPicture:
    axles = tuple(extreme_bar(f"Axle {each}", "over", 1000.0, 5.0) for each in (1, 2, 3))
    sums = tuple(extreme_bar(each, "near", 0.0, 0.0) for each in ("Truck", LONG_NAME, UNBROKEN))
    return RigPicture(
        title=LONG_NAME,
        verdict=LONG_VERDICT,
        when="Wednesday 30 September 12:59 pm",
        truck=LONG_NAME,
        trailer_name=UNBROKEN,
        pin=True,
        axles=3,
        steer=extreme_bar("Eje de dirección", "inside", 0.5, 0.0),
        drive=extreme_bar("Eje de tracción", "near", 0.99, 0.0),
        tongue=extreme_bar("Peso en el perno rey", "over", 2.0, 1.0),
        trailer=axles,
        sums=sums,
        caution=CAUTION * 3,
    )


def extreme_margins() -> MarginsPicture:
    shares = ((9.0, 3.0), (1.5, 0.9), (1.001, 0.01), (1.0, 0.0), (0.99, 0.3), (0.5, 0.01), (0, 0))
    states: tuple[State, ...] = ("over", "over", "over", "near", "near", "inside", "inside")
    bars = tuple(
        extreme_bar(name, state, used, doubt)
        for (used, doubt), state, name in zip(
            shares, states, (LONG_NAME, UNBROKEN, *"ABCDE"), strict=True
        )
    )
    return MarginsPicture(
        title="Margins",
        verdict=LONG_VERDICT,
        when="Wed 30 Sep 12:59 pm",
        bars=bars,
        inside="queda",
        outside="sobre",
        line="límite",
        notes=(LONG_VERDICT, f"Not given: {UNBROKEN}."),
        caution=CAUTION,
    )


def points(count: int, middle: float, half: float) -> tuple[Point, ...]:
    return tuple(
        Point(
            at=number / max(count - 1, 1),
            value=middle + (number % 5 - 2) * half,
            low=middle + (number % 5 - 3) * half,
            high=middle + (number % 5 - 1) * half,
        )
        for number in range(count)
    )


def series(name: str, middle: float, half: float, count: int = 15) -> Series:
    return Series(
        name=name,
        figure=f"{middle:.1f} ± {half:.1f} mpg",
        grounds=f"{count} tanks, 1,234 mi",
        value=middle,
        low=middle - half,
        high=middle + half,
        points=points(count, middle, half),
    )


def economy() -> EconomyPicture:
    mixed = replace(
        series("Mixed tanks", 12.0, 0.6),
        figure="",
        value=0.0,
        low=0.0,
        high=0.0,
        grounds="15 tanks",
    )
    return EconomyPicture(
        title="Economy",
        headline="Last tank 10.2 ± 0.4 mpg towing the flatdeck.",
        days="16 Apr to 17 Sep",
        unit="mpg, more is better",
        series=(
            series("Flatdeck", 11.4, 0.3),
            series("Camper", 9.6, 0.2),
            series("Solo", 16.0, 0.8, count=0),
            mixed,
        ),
        ticks=(Tick(at=0.1, label="May"), Tick(at=0.5, label="Jul"), Tick(at=0.9, label="Sep")),
        notes=("Bands and whiskers are right nine times in ten.",),
    )


def extreme_economy() -> EconomyPicture:
    ticks = tuple(Tick(at=each / 4, label="Sept. 2026") for each in range(5))
    return replace(
        economy(),
        headline=LONG_VERDICT,
        days="30 September 2025 to 30 September 2026",
        unit=f"L/100 km, {LONG_NAME}",
        series=(
            series(LONG_NAME, 11.4, 4.0, 60),
            replace(series(UNBROKEN, 99.0, 30.0, 1), figure="about 1,099 ± 1,030 L/100 km"),
            series("Camper", 11.4, 0.0),
            series("Solo", 12.0, 0.1),
            economy().series[-1],
        ),
        ticks=ticks,
        notes=(LONG_VERDICT, LONG_VERDICT),
    )


def week() -> WeekPicture:
    return WeekPicture(
        title="The week",
        verdict="",
        days="Mon 6 to Sun 12 Jul",
        total="572 mi",
        parts=(
            Part(name="Towed", figure="412 mi", share=412 / 572),
            Part(name="Solo", figure="160 mi", share=160 / 572),
        ),
        sections=(
            Section(
                title="Fuel",
                facts=(
                    Fact(name="Bought", figure="71.8 gal", remark="$278.84, 3 fills"),
                    Fact(name="A mile", figure="$0.36/mi", remark="full tanks"),
                ),
            ),
            Section(
                title="Economy",
                facts=(
                    Fact(name="Flatdeck", figure="11.2 ± 0.4 mpg", remark="as usual, 11.4 ± 0.2"),
                    Fact(
                        name="Solo",
                        figure="about 14 ± 1 mpg",
                        remark="worse than the usual 16.0 ± 0.8",
                    ),
                ),
            ),
            Section(
                title="At the scale",
                facts=(Fact(name="Heaviest", figure="17,740 lb", remark="Sat 11 Jul"),),
                bar=Bar(
                    name="Drive axle",
                    load="6,940 lb",
                    against="of 7,000 lb",
                    left="60 lb left",
                    state="near",
                    used=6940 / 7000,
                    doubt=0.005,
                ),
            ),
            Section(
                title="Wants attention",
                lines=(
                    "Oil change due in 300 mi and bearings overdue.",
                    "1 question of mine still open.",
                ),
            ),
            Section(title="Logged by", lines=("Wren 15, Ada 6",)),
        ),
        caution="",
    )


def extreme_week() -> WeekPicture:
    fact = Fact(name=LONG_NAME, figure="1,234,567.8 L/100 km", remark=LONG_NAME)
    bar = extreme_bar(UNBROKEN, "over", 3.0, 1.0)
    return WeekPicture(
        title=LONG_NAME,
        verdict=LONG_VERDICT,
        days=LONG_NAME,
        total="1,234,567,890 km",
        parts=(
            Part(name=LONG_NAME, figure="1,234,567,890 km", share=1.0),
            Part(name="Solo", figure="1 km", share=0.0000001),
        ),
        sections=(
            Section(title=LONG_NAME, facts=(fact, fact), bar=bar, lines=(LONG_VERDICT, UNBROKEN)),
            Section(title="Logged by", lines=(", ".join([LONG_NAME] * 5),)),
        ),
        caution=CAUTION * 2,
    )


def bare_week() -> WeekPicture:
    return WeekPicture(
        title="The week",
        verdict="",
        days="Mon 6 to Sun 12 Jul",
        total="No odometer reading",
        parts=(),
        sections=(),
        caution="",
    )


def solo() -> Ticket:
    return Ticket(*truck_ratings(gvwr=11500)).weighs(steer=4700, drive=3640)


def trailer_alone() -> Ticket:
    return Ticket(*flatdeck()).weighs(trailer=8020, tongue=1000, rig="trailer")


def unrated() -> Ticket:
    return Ticket().hitched(None).weighs(steer=4700, drive=3640, trailer=8020)


def examples() -> dict[str, Picture]:
    """Every picture, by what it shows."""
    return {
        "rig inside": rig_of_ticket(three_passes_two_fills()),
        "rig near and over": rig_of_ticket(near_and_over()),
        "rig with a fifth wheel": rig_of_ticket(fifth_wheel()),
        "rig without ratings": rig_of_ticket(unrated()),
        "truck alone": rig_of_ticket(solo()),
        "trailer alone": rig_of_ticket(trailer_alone()),
        "rig at its longest": extreme_rig(),
        "margins inside": margins_of_ticket(three_passes_two_fills()),
        "margins near and over": margins_of_ticket(near_and_over()),
        "margins with a fifth wheel": margins_of_ticket(fifth_wheel()),
        "margins without ratings": margins_of_ticket(unrated()),
        "margins at their longest": extreme_margins(),
        "economy": economy(),
        "economy at its longest": extreme_economy(),
        "week": week(),
        "week at its longest": extreme_week(),
        "week of nothing": bare_week(),
    }
