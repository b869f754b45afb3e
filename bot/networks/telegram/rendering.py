"""An answer in Telegram's dress.

This file decides how an answer looks on a phone: the verdict bold, figures aligned in a block
that a narrow screen does not wrap, choices as buttons, and where a long answer is cut. It does
not know what an answer says, nor how it is sent.
"""

from __future__ import annotations

import html
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from bot.answers.answer import Answer
from bot.answers.narrow import figures

LONGEST = 4096
"""UTF-16 units in a message, after entities parsing (Bot API, sendMessage)."""

LONGEST_CAPTION = 1024
"""UTF-16 units below a picture, after entities parsing (Bot API, sendPhoto)."""

LONGEST_LABEL = 48
"""Characters of a button, which stands alone in its row; common practice, no source."""

HEADLINE, FIGURES, NOTE = "<b>{}</b>", "<pre>{}</pre>", "{}"


@dataclass(frozen=True, slots=True)
class Part:
    """A message's worth of an answer: as HTML, plain, and the labels of its buttons.

    The plain text names the choices with their numbers, for where no button can be shown.
    """

    html: str
    plain: str
    buttons: tuple[str, ...] = ()

    @property
    def fits_below_a_picture(self) -> bool:
        """Whether a picture's caption may be as long; the plain text is never the shorter one."""
        return units(self.plain) <= LONGEST_CAPTION


def rendered(answer: Answer) -> tuple[Part, ...]:
    """The answer as messages of at most 4,096 units each, cut at lines; choices on the last."""
    choices = [f"  {number}  {_cut(each)}" for number, each in enumerate(answer.choices, start=1)]
    room = LONGEST - sum(units(line) + 1 for line in choices)
    *others, last = _packed(list(_lines(answer)), room)
    return (
        *(Part(_html(lines), _plain(lines)) for lines in others),
        Part(
            _html(last),
            "\n".join([_plain(last), *choices]),
            tuple(_cut(each) for each in answer.choices),
        ),
    )


def units(text: str) -> int:
    """The length of a text in UTF-16 units, as Telegram counts."""
    return len(text.encode("utf-16-le", "surrogatepass")) // 2


Line = tuple[str, str]
"""A style and a text without a newline."""


def _lines(answer: Answer) -> Iterator[Line]:
    yield from ((HEADLINE, line) for line in answer.headline.splitlines())
    yield from ((FIGURES, line) for line in figures(answer.rows))
    yield from ((NOTE, line) for note in answer.notes for line in note.splitlines())


def _packed(lines: list[Line], room: int) -> list[list[Line]]:
    """Lines put together while they fit, each part's end between two lines where it can be."""
    parts: list[list[Line]] = [[]]
    free = room
    for style, whole in lines:
        for text in _pieces(whole, room):
            if parts[-1] and units(text) + 1 > free:
                parts.append([])
                free = room
            parts[-1].append((style, text))
            free -= units(text) + 1
    return parts


def _pieces(text: str, room: int) -> Iterator[str]:
    """A line in pieces that fit, cut at spaces where there are any."""
    while units(text) + 1 > room:
        # No character has more than two units, so this many are sure to fit.
        most = (room - 1) // 2
        cut = text.rfind(" ", 1, most) + 1 or most
        yield text[:cut].rstrip()
        text = text[cut:].lstrip()
    yield text


def _html(lines: list[Line]) -> str:
    return "\n".join(
        style.format(html.escape("\n".join(text for _, text in run)))
        for style, run in groupby(lines, key=lambda line: line[0])
    )


def _plain(lines: list[Line]) -> str:
    return "\n".join(text for _, text in lines)


def _cut(label: str) -> str:
    label = " ".join(label.split())
    if len(label) <= LONGEST_LABEL:
        return label
    head = label[: LONGEST_LABEL - 1]
    return f"{head[: head.rfind(' ')] if ' ' in head else head}…"
