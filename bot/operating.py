"""The commands of whoever keeps the database: copies, files in and out, sharing, deleting.

This file decides those commands, their options and what they print. What they do lives in
`bot/store` and `bot/exchange`, and is imported when a command runs.
"""

from __future__ import annotations

import getpass
import os
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bot.options import config_option, database_option, fail, logbook_options, run

if TYPE_CHECKING:
    from sqlalchemy.orm import Session

    from bot.exchange.importing import Plan
    from bot.store.database import Store
    from bot.store.tables import ChatRow

FILE = click.Path(dir_okay=False, path_type=Path)
THERE = click.Path(exists=True, dir_okay=False, path_type=Path)
MOST_SHOWN = 20
DAYS = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
"""Weekdays in the order of their numbers, from 0."""

chat_option = click.option(
    "--chat", "name", metavar="CHAT", help="Whose logbook, where there are several; see chats."
)


@click.command()
@click.argument("file", type=FILE)
@database_option
def backup(file: Path, database: str | None) -> None:
    """Copy the database to FILE while it is in use, and check the copy."""
    from bot.store.backup import back_up

    def work() -> None:
        copy = back_up(_address(database), file)
        click.echo(f"{copy.path}: {copy.total:,} rows, whole.")

    run(work)


@click.command()
@click.argument("file", type=THERE)
@click.option("--replace", is_flag=True, help="Replace a database that has rows; it is kept.")
@database_option
def restore(file: Path, replace: bool, database: str | None) -> None:
    """Make the database hold what a backup FILE holds."""
    from bot.store.backup import restore as put_back

    def work() -> None:
        copy = put_back(file, _address(database), datetime.now(UTC), replace=replace)
        kept = f" What was there before is {copy.kept}." if copy.kept else ""
        click.echo(f"{copy.path}: {copy.total:,} rows restored.{kept}")

    run(work)


@click.command()
@click.argument("file", type=FILE)
@chat_option
@database_option
def export(file: Path, name: str | None, database: str | None) -> None:
    """Write a logbook to FILE: .csv, .xlsx or .jsonl."""
    from bot.exchange import exporting, files

    def work() -> None:
        ending = files.format_of(file)
        if file.exists():
            raise files.NotReadable(f"{file} is there already; nothing was written.")
        with opened(database) as store, store.look() as session:
            home = home_chat(session, name)
            if home is None:
                raise files.NotReadable("There is no logbook yet.")
            found = exporting.records(session, home.logbook_id)
        file.write_bytes(exporting.written(found, ending))
        click.echo(f"{file}: {_entries(len(found))}.")

    run_wish(work)


@click.command(name="import")
@click.argument("file", type=THERE)
@click.option("--apply", "keeps", is_flag=True, help="Keep it; without, only show what would be.")
@click.option("--as", "author", metavar="NAME", help="Who told what names nobody; your login.")
@chat_option
@logbook_options
def import_(
    file: Path,
    keeps: bool,
    author: str | None,
    name: str | None,
    database: str | None,
    units: str | None,
    currency: str | None,
    time_zone: str | None,
    language: str | None,
) -> None:
    """Show what of FILE (.csv, .xlsx, .jsonl) would be kept, and why the rest not."""
    from bot.exchange import importing
    from bot.networks import terminal
    from bot.settings import settings
    from bot.store import journal

    def work() -> None:
        now = datetime.now(UTC)
        new = settings(database, units, currency, time_zone, language).preferences

        def home(session: Session) -> ChatRow:
            return home_chat(session, name) or journal.open_chat(
                session, terminal.NAME, terminal.CHAT, new, now
            )

        with opened(database) as store:
            # Nobody who texts meanwhile waits until a long file is read.
            with store.look() as session:
                told_by = author or getpass.getuser()
                plan = importing.plan(session, home(session), file, told_by)
            _show(plan)
            if not keeps:
                count = len(plan.keeps)
                click.echo(f"{_entries(count)} would be kept; nothing is yet. --apply keeps them.")
                return
            with store.work() as session:
                count = importing.apply(session, home(session), plan, now)
                click.echo(f"{_entries(count)} kept.")

    run_wish(work)


@click.command()
@click.argument("source", metavar="FROM")
@click.argument("target", metavar="TO")
def move(source: str, target: str) -> None:
    """Copy a whole database to an empty one, and compare the two row by row."""
    from bot.store.database import open_store
    from bot.store.move import move as copy_all

    def work() -> None:
        there = open_store(source)
        try:
            here = open_store(target)
            try:
                moved = copy_all(there, here)
            finally:
                here.close()
        finally:
            there.close()
        click.echo(f"{moved.total:,} rows moved and compared. {source} is as it was.")

    run_wish(work)


@click.command()
@click.option("--person", metavar="NAME", help="A name, or network:identity.")
@click.option("--chat", "chat", metavar="CHAT", help="A chat, as network:chat.")
@click.option("--yes", is_flag=True, help="Don't ask again.")
@database_option
def forget(person: str | None, chat: str | None, yes: bool, database: str | None) -> None:
    """Delete all that a person or a chat told, for good."""
    from bot.store import forget as forgetting
    from bot.store import sharing

    def work() -> None:
        if (person is None) == (chat is None):
            raise sharing.NotShared("Say one of --person NAME and --chat CHAT.")
        with opened(database) as store:
            with store.work() as session:
                forgetting.overwrite(session)
                if person is not None:
                    row = sharing.person_named(session, person)
                    _confirm(f"{row.name} ({', '.join(sharing.identities(session, row))})", yes)
                    done = forgetting.forget_person(session, row)
                else:
                    where = sharing.chat_named(session, chat or "")
                    _confirm(sharing.name_of(where), yes)
                    done = forgetting.forget_chat(session, where)
                session.commit()
            forgetting.scrub(store)
        click.echo(f"{done.total:,} rows deleted. Backups taken before still hold them.")

    run_wish(work)


@click.command()
@database_option
def chats(database: str | None) -> None:
    """List the chats, their logbooks and what stands in them."""
    from bot.store import sharing

    def work() -> None:
        with opened(database) as store, store.look() as session:
            for each in sharing.members(session):
                click.echo(
                    f"{each.name}  logbook {each.logbook}, {each.role}, {_entries(each.entries)}"
                )

    run_wish(work)


@click.command()
@click.argument("chat")
@click.argument("other")
@click.option("--reader", is_flag=True, help="CHAT only asks and gets the weekly summary.")
@database_option
def share(chat: str, other: str, reader: bool, database: str | None) -> None:
    """Let CHAT share the logbook of the chat OTHER."""
    from bot.store import journal, sharing

    def work() -> None:
        with opened(database) as store, store.work() as session:
            joining, keeping = (sharing.chat_named(session, each) for each in (chat, other))
            role: sharing.Role = "reader" if reader else "keeper"
            sharing.join(session, joining, keeping.logbook_id, role)
            does = "reads" if joining.role == journal.READER else "keeps"
            click.echo(f"{sharing.name_of(joining)} {does} logbook {keeping.logbook_id}.")

    run_wish(work)


@click.command()
@click.argument("name")
@click.option("--also", metavar="NAME", help="Somebody who is the same person elsewhere.")
@click.option("--call", metavar="NAME", help="What to call them from now on.")
@database_option
def person(name: str, also: str | None, call: str | None, database: str | None) -> None:
    """Show who NAME is on each network; join two into one, or give them a name."""
    from bot.store import sharing

    def work() -> None:
        with opened(database) as store, store.work() as session:
            row = sharing.person_named(session, name)
            if also:
                sharing.same_person(session, row, sharing.person_named(session, also))
            if call:
                sharing.name_person(session, row, call)
            click.echo(f"{row.name}: {', '.join(sharing.identities(session, row))}")

    run_wish(work)


@click.command()
@click.argument("day", type=click.Choice(DAYS, case_sensitive=False))
@click.argument("hour", type=click.IntRange(0, 23))
@chat_option
@database_option
def week(day: str, hour: int, name: str | None, database: str | None) -> None:
    """Choose the DAY and HOUR at which a logbook's weekly summary leaves."""
    from bot import schedule
    from bot.store import sharing

    def work() -> None:
        with opened(database) as store, store.work() as session:
            home = home_chat(session, name)
            if home is None:
                raise sharing.NotShared("There is no logbook yet.")
            sharing.set_week(session, home.logbook_id, DAYS.index(day), hour)
            schedule.replan(session, home.logbook_id, datetime.now(UTC))
            click.echo(f"The week's summary leaves on {day.capitalize()} at {hour}:00.")

    run_wish(work)


@click.command()
@config_option
def doctor(config: Path | None) -> None:
    """Look at settings, database, disk, clock and networks, and say what to do about each fault."""
    from bot.doctor import findings

    well = True
    for each in findings(config, os.environ):
        click.echo(str(each))
        well = well and each.well
    sys.exit(not well)


COMMANDS = (backup, restore, export, import_, move, forget, chats, share, person, week, doctor)


def _address(database: str | None) -> str:
    from bot.settings import default_database

    return database or str(default_database())


@contextmanager
def opened(database: str | None) -> Iterator[Store]:
    """The database that a command was told of, closed after it; raises DatabaseTrouble."""
    from bot.store.database import open_store

    store = open_store(_address(database))
    try:
        yield store
    finally:
        store.close()


def run_wish(work: Callable[[], None]) -> None:
    """Run a command; a wish that can't be met is told in its one sentence."""
    from bot.exchange.files import NotReadable
    from bot.settings import WrongSetting
    from bot.store.sharing import NotShared

    try:
        run(work)
    except (NotReadable, NotShared, WrongSetting, OSError) as error:
        fail(error)


def home_chat(session: Session, name: str | None) -> ChatRow | None:
    """The chat named, else the first keeper of the only logbook; None where there is none."""
    from bot.exchange.importing import home_of
    from bot.store import sharing

    if name is not None:
        chat = sharing.chat_named(session, name)
        return home_of(session, chat.logbook_id) or chat
    members = sharing.members(session)
    books = {each.logbook for each in members}
    if len(books) > 1:
        known = ", ".join(each.name for each in members)
        raise sharing.NotShared(f"There are several logbooks ({known}); say --chat.")
    return home_of(session, books.pop()) if books else None


def _show(plan: Plan) -> None:
    """Columns as they were understood, then the rows that are not kept, then those that are."""
    from bot.answers.brief import brief

    if plan.columns:
        click.echo("Columns: " + ", ".join(f"{title} = {name}" for title, name in plan.columns))
    if plan.unread:
        click.echo("Not read: " + ", ".join(plan.unread))
    for item in plan.refused:
        click.echo(f"row {item.row}: not kept. {item.why}")
    shown = plan.keeps[:MOST_SHOWN]
    for item in shown:
        if item.logged is not None:
            day = item.logged.at.strftime("%Y-%m-%d")
            click.echo(f"row {item.row}: {day} {brief(item.logged.entry)}")
    if len(plan.keeps) > len(shown):
        click.echo(f"and {len(plan.keeps) - len(shown):,} more")
    known = len(plan.items) - len(plan.keeps) - len(plan.refused)
    if known:
        click.echo(f"{_entries(known)} known already.")


def _entries(count: int) -> str:
    return f"{count:,} {'entry' if count == 1 else 'entries'}"


def _confirm(what: str, yes: bool) -> None:
    if not yes:
        click.confirm(f"Delete all that {what} told, for good?", abort=True)
