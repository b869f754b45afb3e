"""An answer as a value, before any network has dressed it.

Everything a person sees is one of these: a headline that says the verdict first, rows of
figures, short notes, and choices where something is asked back. A network renders it;
nothing else decides what it says.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Row:
    """One aligned line: a label and its figure, with a remark where one is owed."""

    label: str
    figure: str
    remark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What is said back: verdict first, then the figures, then the notes, then any choices."""

    headline: str
    rows: tuple[Row, ...] = ()
    notes: tuple[str, ...] = ()
    choices: tuple[str, ...] = ()
