"""In which language and by which customs an answer is written.

This file decides how a sentence becomes one of the logbook's own language, and whose
separators, days and months go with it. A message is its English sentence with named places; the
catalogues are data (`shared/language`), and English needs none. The language in force is set
once, where an answer is made (`with speaking(...)`), so that everything below it stays a
function of its arguments and of that one thing. It does not know what any message says, nor
how a text is read.

`say` fills a message in, `say_count` one with a number of things, `say_of` tells a word's senses
apart, and `marked` notes a message that stands in a table and is said later: `make messages` finds
all of them.
"""

from __future__ import annotations

import io
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from datetime import date, time
from functools import cache
from gettext import GNUTranslations, NullTranslations

from babel import Locale
from babel.dates import format_date, format_time

from bot.shared_data import names, read_text
from domain.log import Preferences

SOURCE = "en"
"""The language of the messages themselves."""

FOLDER = "language"
DIALECTS_FOLDER = "dialect"

LOCALES: Mapping[tuple[str, str], str] = {
    ("es", "USD"): "es_US",
    ("es", "MXN"): "es_MX",
    ("es", "EUR"): "es_ES",
    ("es", "ARS"): "es_AR",
    ("es", "CLP"): "es_CL",
    ("es", "COP"): "es_CO",
}
"""Whose customs a language's figures follow. The currency tells the country, and the country how
its scales, pumps and labels print a number: 19,460.5 in Mexico and the US, 19.460,5 in Spain and
Argentina (CLDR). Units would not tell them apart, Mexico and Spain both weigh in kilograms."""

ANYWHERE: Mapping[str, str] = {"en": "en", "es": "es_419"}
"""Whose customs they follow with any other currency."""


DIALECTS: Mapping[tuple[str, str], str] = {
    ("en", "AUD"): "en_AU",
    ("en", "NZD"): "en_NZ",
    ("en", "GBP"): "en_GB",
    ("es", "EUR"): "es_ES",
    ("es", "MXN"): "es_MX",
}
"""Where plates and people call a few things by words of their own: a GVWR is a GVM in Australia
and a MAM in Britain. A dialect is a catalogue of those words alone (`shared/dialect`)."""


@dataclass(frozen=True, slots=True)
class Language:
    """A language: its code (ISO 639-1), its locale's customs and its catalogue."""

    code: str
    locale: Locale
    catalogue: NullTranslations

    @property
    def decimal(self) -> str:
        """What stands before the decimals of a number."""
        return self._symbol("decimal")

    @property
    def group(self) -> str:
        """What stands between thousands."""
        return self._symbol("group")

    @property
    def day_first(self) -> bool:
        """Whether the day stands before the month in a date of figures."""
        pattern: str = self.locale.date_formats["short"].pattern
        return pattern.index("d") < pattern.index("M")

    def _symbol(self, name: str) -> str:
        symbol: str = self.locale.number_symbols["latn"][name]
        return symbol


ENGLISH = Language(SOURCE, Locale(SOURCE), NullTranslations())

_spoken: ContextVar[Language] = ContextVar("spoken", default=ENGLISH)


@contextmanager
def speaking(language: Language) -> Iterator[None]:
    """Let everything that is said meanwhile be said in a language."""
    before = _spoken.set(language)
    try:
        yield
    finally:
        _spoken.reset(before)


def spoken() -> Language:
    """The language in force."""
    return _spoken.get()


def languages() -> tuple[str, ...]:
    """The codes of the languages that there are, English first."""
    found = (name.rpartition("/")[2].partition(".")[0] for name in names(FOLDER, ".po"))
    return (SOURCE, *found)


def language_of(preferences: Preferences) -> Language:
    """The language in which a logbook is answered, with the customs that go with its currency."""
    return _language(preferences.language, preferences.currency)


def spoken_as(code: str) -> Language:
    """A language where no logbook is meant: with the customs of nowhere in particular."""
    return _language(code, "")


@cache
def _language(code: str, currency: str) -> Language:
    locale = LOCALES.get((code, currency)) or ANYWHERE.get(code, code)
    return Language(code, Locale.parse(locale), _words(code, currency))


def _words(code: str, currency: str) -> NullTranslations:
    """The catalogue of a language, under that of the country's dialect where it has one."""
    dialect = DIALECTS.get((code, currency))
    if dialect is None:
        return catalogue(code)
    words = _compiled(f"{DIALECTS_FOLDER}/{dialect}.po")
    words.add_fallback(catalogue(code))
    return words


@cache
def catalogue(code: str) -> NullTranslations:
    """The catalogue of a language, compiled once; raises NoSuchData where there is none."""
    return NullTranslations() if code == SOURCE else _compiled(f"{FOLDER}/{code}.po")


def _compiled(name: str) -> GNUTranslations:
    from babel.messages.mofile import write_mo
    from babel.messages.pofile import read_po

    compiled = io.BytesIO()
    write_mo(compiled, read_po(io.StringIO(read_text(name))))
    compiled.seek(0)
    return GNUTranslations(compiled)


def say(message: str, /, **values: object) -> str:
    """A message in the language in force, with its values in their places."""
    text = _spoken.get().catalogue.gettext(message) if message else ""
    return text.format(**values) if values else text


def say_count(one: str, many: str, count: int, /, **values: object) -> str:
    """A message about a number of things, which stands in its place `count`."""
    text = _spoken.get().catalogue.ngettext(one, many, count)
    return text.format(count=as_written(f"{count:,}"), **values)


def say_of(what: str, message: str, /) -> str:
    """A word that English has for several things: as it is said of one of them."""
    return _spoken.get().catalogue.pgettext(what, message)


def marked(message: str) -> str:
    """A message of a table, as it stands; it is said where it is shown."""
    return message


def as_written(number: str) -> str:
    """A number that is written in the English way, `19,460.5`, as the language's people do."""
    language = _spoken.get()
    if language is ENGLISH:
        return number
    return number.translate({ord(","): language.group, ord("."): language.decimal})


def date_text(when: date, pattern: str) -> str:
    """A date by a pattern of Unicode's (UTS 35), such as `EEE d MMM`: `Sat 11 Jul`."""
    return format_date(when, pattern, _spoken.get().locale)


def half_of_day(hour: int) -> str:
    """What is said after a time in twelve hours: `am`, `pm`."""
    half = format_time(time(hour), "a", locale=_spoken.get().locale)
    # Without stops: it may be the last word of a sentence.
    return "".join(each for each in half.lower() if each.isalpha())


def money_leads() -> bool:
    """Whether a currency's sign stands before the amount."""
    pattern: str = _spoken.get().locale.currency_formats["standard"].pattern
    return pattern.startswith("¤")
