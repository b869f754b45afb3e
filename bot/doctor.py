"""`drawbar doctor`: what keeps Drawbar from running well, and what to do about each.

This file decides what is looked at, in which order, and the one sentence for each fault. It
mends nothing and changes nothing.
"""

from __future__ import annotations

import importlib.util
import os
import shutil
import socket
import stat
from collections.abc import Callable, Iterator, Mapping
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from email.utils import parsedate_to_datetime
from pathlib import Path

import httpx

from bot.configuration import Configuration, configuration
from bot.networks.matrix.settings import MatrixSettings
from bot.networks.telegram.settings import TelegramSettings
from bot.settings import WrongSetting, default_database
from bot.store.database import DatabaseTrouble
from bot.store.examining import examine

LEAST_FREE = 200 * 1024 * 1024
"""Bytes: a year's logbook has some ten; a backup and a rewrite need room for two more."""

MOST_DRIFT = timedelta(minutes=2)
"""More puts entries in the wrong order among those of other people."""

ASK_SECONDS = 8.0


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that was looked at: what, whether it is well, and what is to be said of it."""

    what: str
    well: bool
    said: str

    def __str__(self) -> str:
        return f"{'ok   ' if self.well else 'FAULT'}  {self.what}: {self.said}"


def findings(file: Path | None, environment: Mapping[str, str]) -> Iterator[Finding]:
    """Look at one thing after the other."""
    try:
        told = configuration(file, environment)
    except WrongSetting as error:
        yield Finding("settings", False, str(error))
        yield from _database(environment.get("DRAWBAR_DATABASE") or str(default_database()))
        return
    yield Finding("settings", True, "they can be used.")
    if file is not None:
        yield from _secrets(file)
    yield from _database(told.settings.database)
    yield from _networks(told)
    yield from _photos()


def _secrets(file: Path) -> Iterator[Finding]:
    mode = file.stat().st_mode
    secret = any(word in file.read_text(encoding="utf-8") for word in ("token =", "password ="))
    if secret and mode & (stat.S_IRGRP | stat.S_IROTH):
        yield Finding("secrets", False, f"others can read {file}. Run: chmod 600 {file}")


def _database(address: str) -> Iterator[Finding]:
    try:
        found = examine(address)
    except DatabaseTrouble as error:
        yield Finding("database", False, str(error))
        return
    if found.version is None:
        yield Finding("database", True, f"{found.shown} is made at the first start.")
    elif found.steps:
        yield Finding(
            "database",
            True,
            f"{found.shown} is sound; the next start brings it {found.steps} steps forward."
            " Back it up first.",
        )
    else:
        yield Finding("database", True, f"{found.shown} is sound and up to date.")
    if found.folder is not None:
        free = shutil.disk_usage(found.folder).free
        room = f"{free / 1024**2:,.0f} MB are free in {found.folder}"
        well = free >= LEAST_FREE
        advice = "." if well else f"; make room for {LEAST_FREE / 1024**2:,.0f} MB at the least."
        yield Finding("disk", well, room + advice)


def _networks(told: Configuration) -> Iterator[Finding]:
    if told.telegram is not None:
        yield from _telegram(told.telegram)
    if told.matrix is not None:
        yield from _matrix(told.matrix)


def _telegram(chosen: TelegramSettings) -> Iterator[Finding]:
    def judged(answer: httpx.Response) -> Finding:
        if answer.status_code in (httpx.codes.UNAUTHORIZED, httpx.codes.NOT_FOUND):
            return Finding(
                "Telegram",
                False,
                "the token is not accepted. Take it anew from @BotFather and set"
                " DRAWBAR_TELEGRAM_TOKEN to it.",
            )
        name = answer.json()["result"]["username"]
        return Finding("Telegram", True, f"reached as @{name}.")

    yield from _asked("Telegram", f"{chosen.api.rstrip('/')}/bot{chosen.token}/getMe", judged)
    hook = chosen.webhook
    if hook is not None:
        with closing(socket.socket()) as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((hook.listen, hook.port))
            except OSError as error:
                yield Finding(
                    "webhook",
                    False,
                    f"{hook.listen}:{hook.port} can't be listened on ({error.strerror})."
                    " Stop what listens there, or set DRAWBAR_TELEGRAM_WEBHOOK_PORT.",
                )


def _matrix(chosen: MatrixSettings) -> Iterator[Finding]:
    def judged(answer: httpx.Response) -> Finding:
        if not answer.is_success or "versions" not in answer.json():
            return Finding(
                "Matrix",
                False,
                f"{chosen.homeserver} answers, but not as a homeserver does. Set"
                " DRAWBAR_MATRIX_HOMESERVER to the address that clients use.",
            )
        return Finding("Matrix", True, f"{chosen.homeserver} is reached.")

    address = f"{chosen.homeserver.rstrip('/')}/_matrix/client/versions"
    yield from _asked("Matrix", address, judged)
    folder = chosen.folder
    if folder.exists() and folder.stat().st_mode & (stat.S_IRWXG | stat.S_IRWXO):
        yield Finding("Matrix keys", False, f"others can read {folder}. Run: chmod 700 {folder}")
    if folder.exists() and not os.access(folder, os.W_OK):
        yield Finding(
            "Matrix keys",
            False,
            f"{folder} can't be written to. Give it to the user that runs Drawbar.",
        )


def _asked(
    what: str, address: str, judged: Callable[[httpx.Response], Finding]
) -> Iterator[Finding]:
    """Ask a server something small; from its answer's date also what our clock is worth."""
    try:
        answer = httpx.get(address, timeout=ASK_SECONDS)
        yield judged(answer)
    except (httpx.HTTPError, httpx.InvalidURL) as error:
        # The address of a Telegram call holds the token, so only the kind of failure is told.
        reason = type(error).__name__
        yield Finding(what, False, f"it can't be reached ({reason}). See to the network and DNS.")
        return
    except (ValueError, KeyError, TypeError):
        yield Finding(what, False, "it gave an answer that makes no sense. Try again later.")
        return
    if "Date" in answer.headers:
        # RFC 9110, 5.6.7: a Date is in GMT.
        there = parsedate_to_datetime(answer.headers["Date"]).replace(tzinfo=UTC)
        drift = datetime.now(UTC) - there
        if abs(drift) > MOST_DRIFT:
            yield Finding(
                "clock",
                False,
                f"this machine's is {drift.total_seconds():+,.0f} s off from {what}'s. Let it be"
                " set from the network (timedatectl set-ntp true).",
            )


def _photos() -> Iterator[Finding]:
    if importlib.util.find_spec("rapidocr") is None:
        yield Finding(
            "photos", True, "not read; the extra `photo` brings what is needed (make serve)."
        )
    else:
        yield Finding("photos", True, "tickets and receipts are read.")
