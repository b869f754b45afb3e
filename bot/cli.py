"""The command line.

This file decides the commands and their options, and turns an operator's mistake into one
sentence. What a command does lives elsewhere and is imported when the command runs, so that
each starts with no more than it needs.
"""

from __future__ import annotations

import getpass
import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from bot.operating import COMMANDS
from bot.options import config_option, fail, logbook_options, run
from bot.report.command import report

if TYPE_CHECKING:
    from bot.settings import Settings


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="drawbar", message="%(prog)s %(version)s")
def main() -> None:
    """A logbook that you text: scale readings, odometer and fuel in; weights and margins out."""


@main.command()
@logbook_options
@click.option("--as", "name", metavar="NAME", help="Who is texting; your login if not given.")
def chat(
    database: str | None,
    units: str | None,
    currency: str | None,
    time_zone: str | None,
    language: str | None,
    name: str | None,
) -> None:
    """Chat in the terminal; with piped lines, answer each and leave."""
    import asyncio

    chosen = _settings(database, units, currency, time_zone, language)
    run(lambda: asyncio.run(_chat(chosen, name or getpass.getuser())))


async def _chat(chosen: Settings, name: str) -> None:
    from bot.networks import terminal
    from bot.settings import history_file
    from bot.wiring import drawbar, now

    if terminal.is_person():
        from rich.console import Console

        console = Console(highlight=False)
        console.print(terminal.GREETING, style="dim")
        network: terminal.ShownTerminal | terminal.PipedTerminal = terminal.ShownTerminal(console)
        lines = terminal.typed_lines(history_file())
    else:
        network = terminal.PipedTerminal(sys.stdout)
        lines = terminal.piped_lines(sys.stdin)
    async with drawbar(chosen, [network]) as running:
        await running.prefer(terminal.NAME, terminal.CHAT)
        await terminal.chat(lines, name, now, running.take)


@main.command()
@config_option
def serve(config: Path | None) -> None:
    """Serve the networks that are set, until told to stop."""
    import asyncio

    from bot import logs, serving
    from bot.configuration import configuration
    from bot.messages import NetworkRefused
    from bot.settings import WrongSetting

    logs.log_to(sys.stderr)
    try:
        chosen = configuration(config, os.environ)
        run(lambda: asyncio.run(serving.serve(chosen, click.echo)))
    except (WrongSetting, NetworkRefused) as error:
        fail(error)


@main.command()
@click.option("--why", is_flag=True, help="Say on standard error how each line was read.")
def read(why: bool) -> None:
    """Show what is made of messages: lines in, JSON lines out; keeps nothing."""
    from bot.read import read_lines

    read_lines(sys.stdin.buffer, sys.stdout.buffer, sys.stderr if why else None)


@main.command()
@logbook_options
@click.option("--apply", is_flag=True, help="Let what is read by now count.")
def reread(
    database: str | None,
    units: str | None,
    currency: str | None,
    time_zone: str | None,
    language: str | None,
    apply: bool,
) -> None:
    """Read again what could not be read; shows what would change, and changes nothing."""
    chosen = _settings(database, units, currency, time_zone, language)

    def show() -> None:
        from bot.reread import reread_all

        for line in reread_all(chosen, apply):
            click.echo(line)

    run(show)


@main.command()
@click.option("--language", type=click.Choice(["en", "es"]), default="en", help="Told in which.")
def demo(language: str) -> None:
    """Replay an invented weekend through the real thing, on a throw-away logbook."""
    from bot.demo import play

    run(lambda: play(language))


def _settings(
    database: str | None,
    units: str | None,
    currency: str | None,
    time_zone: str | None,
    language: str | None,
) -> Settings:
    from bot.settings import WrongSetting, settings

    try:
        return settings(database, units, currency, time_zone, language)
    except WrongSetting as error:
        fail(error)


for command in (*COMMANDS, report):
    main.add_command(command)
