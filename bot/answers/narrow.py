"""An answer's figures in columns on a narrow screen, for every network that is read on phones.

This file decides how rows stand in a fixed-width block that a phone does not wrap. It does not
know what an answer says, nor how a network marks such a block.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterator

from bot.answers.answer import Row
from bot.answers.plain import LONGEST_FIGURE

WIDTH = 34
"""Characters of a fixed-width line on a narrow phone; common practice, no source."""


def figures(rows: tuple[Row, ...]) -> Iterator[str]:
    """Rows as aligned lines of at most 34 characters.

    What does not fit beside its label or its figure stands below.
    """
    figure = max((len(row.figure) for row in rows if len(row.figure) <= LONGEST_FIGURE), default=0)
    fitting = [row for row in rows if len(row.label) + 2 + max(len(row.figure), figure) <= WIDTH]
    label = max((len(row.label) for row in fitting), default=0)
    width = label + 2 + figure
    for row in rows:
        beside = f"{row.label:<{label}}  {row.figure:>{figure}}"
        if len(beside) > WIDTH:
            yield from textwrap.wrap(row.label, WIDTH)
            yield from _below(row.figure, width)
            yield from _below(row.remark, width)
        elif len(f"{beside}  {row.remark}") > WIDTH:
            yield beside
            yield from _below(row.remark, width)
        else:
            yield f"{beside}  {row.remark}".rstrip()


def _below(text: str, width: int) -> Iterator[str]:
    """A figure or a remark under its row: to the right, a longer text indented."""
    lines = textwrap.wrap(text, WIDTH - 2)
    if len(lines) == 1 and len(lines[0]) + 2 <= width:
        yield f"{lines[0]:>{width}}"
    else:
        yield from (f"  {line}" for line in lines)
