"""`drawbar report`: the printable page as a file.

This file decides the command's options, and which form a file's ending means. What a report
tells is decided in `composing.py`; everything slow is imported when the command runs.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bot.operating import FILE, chat_option, home_chat, opened, run_wish
from bot.options import database_option

if TYPE_CHECKING:
    from bot.report.composing import Asked
    from bot.report.value import Paper, Report

DAY = click.DateTime(formats=["%Y-%m-%d"])
HTML, PDF = ".html", ".pdf"


@click.command()
@click.argument("file", type=FILE)
@chat_option
@click.option("--truck", metavar="NAME", help="Which truck, where the logbook has several.")
@click.option("--trip", is_flag=True, help="The last trip.")
@click.option("--since", type=DAY, metavar="DATE", help="The first day, as 2026-06-01.")
@click.option("--until", type=DAY, metavar="DATE", help="The last day; today if not given.")
@click.option("--year", type=click.IntRange(1900, 9998), metavar="YEAR", help="A calendar year.")
@click.option(
    "--paper",
    type=click.Choice(("a4", "letter")),
    help="What a PDF is printed on; letter where the logbook has US units, else a4.",
)
@database_option
def report(
    file: Path,
    name: str | None,
    truck: str | None,
    trip: bool,
    since: datetime | None,
    until: datetime | None,
    year: int | None,
    paper: Paper | None,
    database: str | None,
) -> None:
    """Write a page to print to FILE (.html or .pdf): the last 12 months, or what is asked for."""
    from bot.answers.language import language_of, speaking
    from bot.exchange.files import NotReadable
    from bot.report.composing import NothingToReport
    from bot.report.composing import report as composed
    from bot.store import journal, standing
    from bot.store.tables import LogbookRow

    def work() -> None:
        ending = file.suffix.casefold()
        if ending not in (HTML, PDF):
            raise NotReadable(f"{file.name} ends in none of {HTML}, {PDF}.")
        if file.exists():
            raise NotReadable(f"{file} is there already; nothing was written.")
        asked = _asked(trip, since, until, year, truck)
        with opened(database) as store, store.look() as session:
            home = home_chat(session, name)
            if home is None:
                raise NotReadable("There is no logbook yet.")
            log = standing.log(session, home.logbook_id)
            preferences = journal.preferences_of(session.get_one(LogbookRow, home.logbook_id))
        try:
            with speaking(language_of(preferences)):
                found = composed(log, preferences, datetime.now(UTC), asked)
        except NothingToReport as error:
            raise NotReadable(str(error)) from error
        file.write_bytes(_written(replace(found, paper=paper or found.paper), ending))
        click.echo(f"{file}: {found.title}, {found.span}.")

    run_wish(work)


def _asked(
    trip: bool,
    since: datetime | None,
    until: datetime | None,
    year: int | None,
    truck: str | None,
) -> Asked:
    """What the options ask for; raises UsageError where they ask for several things."""
    from bot.report.composing import Asked, days_of_year

    if (since is not None or until is not None) + (year is not None) + trip > 1:
        raise click.UsageError("Say one of --trip, --year, and --since with --until.")
    if year is not None:
        first, last = days_of_year(year)
        return Asked(first=first, last=last, truck=truck)
    return Asked(
        trip=trip,
        first=since.date() if since else None,
        last=until.date() if until else None,
        truck=truck,
    )


def _written(found: Report, ending: str) -> bytes:
    from bot.pictures.drawing import png
    from bot.pictures.palette import PAPER
    from bot.report.page import html
    from bot.report.paper import pdf

    draw = partial(png, scheme=PAPER)
    return html(found, draw).encode() if ending == HTML else pdf(found, draw)
