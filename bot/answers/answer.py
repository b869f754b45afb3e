"""An answer as a value, before any network has dressed it.

Everything a person sees is one of these: a headline that says the verdict first, rows of
figures, short notes, and choices where something is asked back. A network renders it;
nothing else decides what it says.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bot.answers.pictures import Picture
from bot.report.value import Report


@dataclass(frozen=True, slots=True)
class Row:
    """One aligned line: a label and its figure, with a remark where one is owed."""

    label: str
    figure: str
    remark: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What is said back: verdict first, then the figures, then the notes, then any choices.

    `quiet`: it says no more than that something was kept, and a sign on the message does as
    well. `urgent`: something is over its limit; better said twice than not at all. `picture`
    shows what the words tell, where a network shows pictures; nothing is told by it alone.
    `document` is what was asked to be printed, and goes along as a file.
    """

    headline: str
    rows: tuple[Row, ...] = ()
    notes: tuple[str, ...] = ()
    choices: tuple[str, ...] = ()
    quiet: bool = False
    urgent: bool = False
    picture: Picture | None = None
    document: Report | None = None


def joined(answers: Sequence[Answer]) -> Answer:
    """Several answers to one message as one: their sentences, then all figures and notes.

    A note that two of them share is said once; raises ValueError where there are none.
    """
    if not answers:
        raise ValueError("nothing to say")
    return Answer(
        headline=" ".join(each.headline for each in answers),
        rows=tuple(row for each in answers for row in each.rows),
        notes=tuple(dict.fromkeys(note for each in answers for note in each.notes)),
        choices=tuple(choice for each in answers for choice in each.choices),
        quiet=all(each.quiet for each in answers),
        urgent=any(each.urgent for each in answers),
        picture=next((each.picture for each in answers if each.picture is not None), None),
        document=next((each.document for each in answers if each.document is not None), None),
    )
