"""What the commands have in common: where the database is, and how trouble is told.

This file decides the options of every command that works on a logbook, and that an operator's
mistake ends in one sentence and one exit status. It does not know any command.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import NoReturn, TypeVar

import click

Function = TypeVar("Function", bound=Callable[..., None])

WRONG_USE = 2
"""The exit status of a command that could not start."""

database_option = click.option(
    "--database",
    metavar="URL",
    envvar="DRAWBAR_DATABASE",
    help="A file, sqlite:///file or postgresql://user@host/name;"
    " a file in your data folder if not given.",
)

config_option = click.option(
    "--config",
    type=click.Path(dir_okay=False, path_type=Path),
    metavar="FILE",
    envvar="DRAWBAR_CONFIG",
    help="A TOML file of the settings to serve with; the environment's DRAWBAR_... come first.",
)


def logbook_options(function: Function) -> Function:
    """The options of every command that works on a logbook."""
    for option in reversed(
        (
            database_option,
            click.option("--units", metavar="UNITS", help="us, metric or imperial."),
            click.option("--currency", metavar="CODE", help="An ISO 4217 code, as USD."),
            click.option("--time-zone", metavar="ZONE", help="An IANA name, as America/Boise."),
            click.option("--language", metavar="CODE", help="What answers are in: en or es."),
        )
    ):
        function = option(function)
    return function


def run(work: Callable[[], None]) -> None:
    """Run a command; trouble with the database is told in its one sentence."""
    from bot.store.database import DatabaseTrouble

    try:
        work()
    except DatabaseTrouble as error:
        fail(error)


def fail(error: Exception) -> NoReturn:
    """Say what is wrong, and leave."""
    click.echo(str(error), err=True)
    sys.exit(WRONG_USE)
