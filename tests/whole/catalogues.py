"""The catalogues of `shared/language`, kept in step with what is said.

`make messages` gathers every message: those that `say`, `say_count` and `marked` name in the
sources, the names of choices, and those of points and upkeep in the shared tables. It brings each
catalogue up to date: new messages come in empty, to be translated; those that nobody says any
more go. Whatever was translated stays, and a file whose messages are the same is written as it
was.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract
from babel.messages.pofile import read_po, write_po

from bot.answers.language import FOLDER, SOURCE, languages
from bot.reference import points_table, upkeep_table
from domain.choices import LABELS

ROOT = Path(__file__).resolve().parents[2]
KEYWORDS: dict[str, tuple[int | tuple[int, str], ...] | None] = {
    "say": None,
    "marked": None,
    "say_count": (1, 2),
    "say_of": ((1, "c"), 2),
}
WIDTH = 100
HEADER = """\
msgid ""
msgstr ""
"Language: {code}\\n"
"Plural-Forms: {plural}\\n"
"MIME-Version: 1.0\\n"
"Content-Type: text/plain; charset=utf-8\\n"
"Content-Transfer-Encoding: 8bit\\n"

"""
"""Without dates and names, so that a catalogue changes with its messages alone."""

Said = tuple[str, str | tuple[str, ...], str | None]
"""Where a message stands, the message (or the two of a number of things), and its sense."""

TABLES = "shared/reference/{}.toml"


def said() -> Catalog:
    """Every message, with where it stands."""
    found = Catalog(fuzzy=False, charset="utf-8")
    for where, message, context in sorted(_messages(), key=str):
        # Lines would change a catalogue with every edit of the sources.
        found.add(message, locations=[(where, 0)], context=context)
    return found


def _messages() -> Iterator[Said]:
    for path in sorted((ROOT / "bot").rglob("*.py")):
        source = path.read_bytes()
        if b"bot.answers.language import" not in source:
            continue
        for _, message, _, context in extract("python", io.BytesIO(source), KEYWORDS):
            yield path.relative_to(ROOT).as_posix(), message, context
    for label in LABELS.values():
        yield "domain/choices.py", label, None
    for point in points_table().points:
        yield TABLES.format("walkround"), point.name, None
    for chore in upkeep_table().chores:
        yield TABLES.format("upkeep"), chore.name, None


def path_of(code: str) -> Path:
    """Where a language's catalogue lies."""
    return ROOT / "shared" / FOLDER / f"{code}.po"


def catalogue(code: str) -> Catalog:
    """A language's catalogue as it stands."""
    with path_of(code).open("rb") as file:
        return read_po(file, locale=code)


def written(catalog: Catalog) -> str:
    """A catalogue as its file."""
    file = io.BytesIO()
    write_po(file, catalog, width=WIDTH, omit_header=True, include_lineno=False)
    header = HEADER.format(code=catalog.locale, plural=catalog.plural_forms)
    return header + file.getvalue().decode("utf-8")


def updated(code: str) -> str:
    """A language's catalogue with every message that is said, and no other."""
    catalog = catalogue(code)
    catalog.update(said(), no_fuzzy_matching=True)
    catalog.obsolete.clear()
    return written(catalog)


if __name__ == "__main__":
    for code in languages():
        if code != SOURCE:
            path_of(code).write_text(updated(code), encoding="utf-8")
