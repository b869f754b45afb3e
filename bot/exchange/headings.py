"""What the columns of somebody else's table mean.

This file decides which field and unit a heading names, by the phrasebook's vocabulary and the
few words that only headings use (`headings.en.toml` in `shared/phrasebook`, and those of other
languages), and settles a heading that could mean two things by the cells below it and the columns
beside it. It does not build entries.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from bot.exchange.columns import LOAD, Cell
from bot.exchange.numerals import POINT, plain_numerals
from bot.shared_data import names, read_toml
from domain.quantities import DISTANCES, VOLUMES
from domain.reading import Phrasebook
from domain.reading.fill_roles import TRIP_LIMIT
from domain.reading.lexer import clean, tokenize
from domain.reading.phrasebook import split_words
from domain.reading.tokens import NUMBER, WORD, Token

FOLDER = "phrasebook"
HEADINGS = "headings"
"""What the file of headings is called, before its language."""

BY_CLASS: Mapping[str, str] = {
    "odometer": "odometer",
    "trip_meter": "distance",
    "dash": "dash_economy",
    "ticket": "ticket",
    "fee": "cost",
    "full": "full",
    "note": "note",
}
"""Classes of the phrasebook that name a field by themselves."""

OF_LOADS = {"axle", "axle_noun", "side", "vehicle", "whole"}
"""Classes whose words alone make the heading of a load."""

MONEY_SIGNS: Mapping[str, str] = {"£": "GBP", "€": "EUR"}
OWN_MONEY = "$"
"""Whose dollar it is, the logbook says."""


_BARE = re.compile(r"[$£€]?\s*([0-9]+(?:\.[0-9]+)?)")
"""A figure at the start of a cell, as far as telling figures from names needs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column: what it may mean, its units as far as its heading says, and where it stands.

    `fields` holds one name once it is settled, and none where the heading names nothing.
    `per` is the volume of a price per volume. `negated` is a yes that means no.
    """

    index: int
    title: str
    fields: tuple[str, ...]
    unit: str | None = None
    money: str | None = None
    per: str | None = None
    negated: bool = False


@dataclass(frozen=True, slots=True)
class HeadingWords:
    """The words of headings, by field, and the words for yes and no."""

    fields: Mapping[tuple[str, ...], tuple[str, ...]]
    yes: Mapping[str, bool]


def has_words(language: str) -> bool:
    """Whether headings of a language are known."""
    wanted = f"{HEADINGS}.{language}.toml"
    return any(name.rpartition("/")[2] == wanted for name in names(FOLDER, ".toml"))


def heading_words(language: str) -> HeadingWords:
    """The vocabulary of headings from the shared data; raises NoSuchData."""
    data = read_toml(f"{FOLDER}/{HEADINGS}.{language}.toml")
    fields: dict[tuple[str, ...], tuple[str, ...]] = {}
    for field, phrases in data["field"].items():
        for phrase in phrases:
            words = split_words(phrase)
            fields[words] = (*fields.get(words, ()), field)
    yes = {word: key == "true" for key, words in data["yes"].items() for word in words}
    return HeadingWords(fields, yes)


def read_headings(
    titles: Sequence[str],
    rows: Sequence[Sequence[Cell]],
    book: Phrasebook,
    words: HeadingWords,
    decimal: str = POINT,
) -> tuple[Column, ...]:
    """What each column means, settled by what stands in it.

    `decimal` is the sign before the decimals of a number that could be read both ways.
    """
    columns = [_column(index, title, book, words) for index, title in enumerate(titles)]
    sure = {each.fields[0] for each in columns if len(each.fields) == 1}
    filled = "volume" in sure or any("volume" in each.fields for each in columns)
    settled: list[Column] = []
    taken: set[str] = set()
    for column in columns:
        cells = [row[column.index] for row in rows if column.index < len(row)]
        figures = [
            plain_numerals(cell, decimal) if isinstance(cell, str) else cell
            for cell in cells
            if cell not in (None, "")
        ]
        field = _settle(column, figures, sure, filled)
        settled.append(replace(column, fields=(field,) if field and field not in taken else ()))
        taken |= {field} if field else set()
    return tuple(settled)


def _column(index: int, title: str, book: Phrasebook, words: HeadingWords) -> Column:
    tokens = tokenize(clean(title), book)
    column = Column(index=index, title=title, fields=())
    rest: list[Token] = []
    for token in tokens:
        sign = token.raw.strip()
        if "per_volume" in token.senses:
            column = replace(column, per=token.senses["per_volume"])
        elif "unit" in token.senses and token.text != "in" and (token.text,) not in words.fields:
            column = replace(column, unit=token.senses["unit"])
        elif "money" in token.senses:
            column = replace(column, money=token.senses["money"])
        elif sign in MONEY_SIGNS or sign == OWN_MONEY:
            column = replace(column, money=MONEY_SIGNS.get(sign, OWN_MONEY))
        elif token.kind in (WORD, NUMBER):
            rest.append(token)
    negated = any(token.senses.get("full") == "false" for token in rest)
    return replace(column, fields=_meanings(column, rest, words), negated=negated)


def _meanings(column: Column, rest: Sequence[Token], words: HeadingWords) -> tuple[str, ...]:
    phrase = tuple(word for token in rest for word in split_words(token.text))
    if column.per:
        return ("unit_price",)
    if not phrase:
        return _by_unit(column)
    named = words.fields.get(phrase, ())
    loads = _load(rest)
    known = tuple(BY_CLASS[each] for token in rest for each in token.senses if each in BY_CLASS)
    found = (*named, *loads) or known or words.fields.get(phrase[:1], ())
    return tuple(dict.fromkeys(found))


def _by_unit(column: Column) -> tuple[str, ...]:
    unit = column.unit or ""
    if unit in VOLUMES:
        return ("volume",)
    if unit in DISTANCES:
        return ("odometer", "distance")
    if "/" in unit:
        return ("dash_economy",)
    return ("cost",) if column.money else ()


def _load(rest: Sequence[Token]) -> tuple[str, ...]:
    """The position of a load that a heading names: an axle, one of a trailer's, or a sum."""
    if any(token.kind == WORD and not token.senses.keys() & OF_LOADS for token in rest):
        return ()
    senses = {name: key for token in rest for name, key in token.senses.items()}
    numbers = [token.text for token in rest if token.kind == NUMBER]
    numbers += [senses["ordinal"]] if "ordinal" in senses else []
    side = f"_{senses['side']}" if "side" in senses else ""
    if "axle" in senses:
        return (f"{senses['axle']}{side}{LOAD}",)
    if senses.get("vehicle") == "trailer" and numbers and numbers[0] in ("1", "2", "3"):
        return (f"trailer_{numbers[0]}{side}{LOAD}",)
    if senses.get("vehicle") in ("truck", "trailer"):
        return (f"{senses['vehicle']}{side}{LOAD}",)
    if senses.get("whole") in ("gross", "tongue"):
        return (f"{senses['whole']}{LOAD}",)
    return ()


def _settle(column: Column, cells: Sequence[Cell], sure: set[str], filled: bool) -> str | None:
    options = column.fields
    if len(options) < 2:
        return options[0] if options else None
    figures = [figure for cell in cells if (figure := _figure(cell)) is not None]
    numeric = len(figures) * 2 > len(cells)
    if set(options) == {"odometer", "distance"}:
        far = max(figures, default=0) > TRIP_LIMIT and "odometer" not in sure
        return "odometer" if far else "distance"
    if "cost" in options:
        return "cost" if filled else next(each for each in options if each != "cost")
    of_numbers = [each for each in options if each == "volume" or each.endswith(LOAD)]
    others = [each for each in options if each not in of_numbers]
    ranked = [*of_numbers, *others] if numeric else [*others, *of_numbers]
    return ranked[0]


def _figure(cell: Cell) -> float | None:
    if isinstance(cell, int | float) and not isinstance(cell, bool):
        return cell
    found = _BARE.match(str(cell).strip())
    return float(found[1]) if found else None
