"""What the one who runs Drawbar can set.

This file decides the settings, their defaults and what is said of a wrong one: its name, its
value and what was wanted. It does not open or start anything.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import cast, get_args
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from bot.answers.language import SOURCE, languages
from domain.context import Units
from domain.log import Preferences
from domain.quantities import is_currency


class WrongSetting(ValueError):
    """A setting that can't be used; the sentence names it, its value and what was wanted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """The database's address, and how a new logbook wants its figures.

    `given` names the preferences that were set rather than left to their defaults; those also
    change a logbook that is there already. `open_to_all`: a chat that was not let in gets a
    logbook of its own.
    """

    database: str
    preferences: Preferences
    given: frozenset[str] = frozenset()
    open_to_all: bool = False


def settings(
    database: str | None = None,
    units: str | None = None,
    currency: str | None = None,
    time_zone: str | None = None,
    language: str | None = None,
) -> Settings:
    """Settings from their texts, defaults for those not given; raises WrongSetting."""
    told = {
        "units": units,
        "currency": currency,
        "time_zone": time_zone,
        "language": language,
    }
    return Settings(
        database=database or str(default_database()),
        preferences=Preferences(
            units=_units(units or "us"),
            currency=_currency(currency or "USD"),
            time_zone=_time_zone(time_zone) if time_zone else local_time_zone(),
            language=_language(language) if language else SOURCE,
        ),
        given=frozenset(name for name, text in told.items() if text),
    )


def default_database() -> Path:
    """The logbook's file in the user's data folder."""
    from platformdirs import user_data_path

    return user_data_path("drawbar", appauthor=False) / "logbook.db"


def history_file() -> Path:
    """Where the terminal chat keeps the lines that were typed."""
    from platformdirs import user_state_path

    return user_state_path("drawbar", appauthor=False, ensure_exists=True) / "history"


def local_time_zone() -> str:
    """The machine's own zone by its IANA name; UTC where it tells none."""
    from tzlocal import get_localzone_name

    name = get_localzone_name() or "UTC"
    try:
        return _time_zone(name)
    except WrongSetting:
        return "UTC"


def _units(text: str) -> Units:
    if text not in get_args(Units):
        raise WrongSetting(f"--units is {text!r}; it wants us, metric or imperial.")
    return cast(Units, text)


def _currency(text: str) -> str:
    code = text.upper()
    if not is_currency(code):
        raise WrongSetting(f"--currency is {text!r}; it wants a code of three letters, as USD.")
    return code


def _language(text: str) -> str:
    if text not in languages():
        known = " or ".join(languages())
        raise WrongSetting(f"--language is {text!r}; it wants {known}.")
    return text


def _time_zone(text: str) -> str:
    try:
        ZoneInfo(text)
    except (ZoneInfoNotFoundError, ValueError, OSError) as error:
        raise WrongSetting(
            f"--time-zone is {text!r}; it wants a zone's name, as America/Boise."
        ) from error
    return text
