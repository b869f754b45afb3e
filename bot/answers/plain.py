"""An answer as plain text, for every place that shows no more than that.

This file decides the layout: the headline, figures aligned in columns, notes, and choices
with the numbers by which they are picked. It does not know what an answer says.
"""

from __future__ import annotations

from bot.answers.answer import Answer, Row


def as_text(answer: Answer) -> str:
    """The answer as lines of text, without a newline at the end."""
    lines = [answer.headline, *_columns(answer.rows), *answer.notes]
    lines += [f"  {number}  {choice}" for number, choice in enumerate(answer.choices, start=1)]
    return "\n".join(lines)


def _columns(rows: tuple[Row, ...]) -> list[str]:
    label = max((len(row.label) for row in rows), default=0)
    # A long text among figures would push all of them to the right; only short ones align.
    figure = max((len(row.figure) for row in rows), default=0)
    align = ">" if figure <= LONGEST_FIGURE else "<"
    return [
        f"  {row.label:<{label}}  {row.figure:{align}{figure}}  {row.remark}".rstrip()
        for row in rows
    ]


LONGEST_FIGURE = 14
