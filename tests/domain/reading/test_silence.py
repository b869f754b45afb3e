"""Talk between people gets silence.

The talk is the English part of the chatterbot-corpus, an open data set of conversations (PyPI:
chatterbot-corpus): questions, trivia, jokes, tech support, with figures of every kind in them.
Nothing in it is meant for a logbook.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import chatterbot_corpus
import pytest
import yaml

from domain.context import Context
from domain.verdicts import Silent
from tests.domain.reading.chats import Reader, chat, on_the_road

TALK = Path(chatterbot_corpus.__file__).parent / "data" / "english"

MOST_READ = 0
"""Statements of 1,902 that may be taken for the log; this only ever falls."""


def statements() -> Iterator[str]:
    """Every statement of every conversation, once."""
    seen: set[str] = set()
    for path in sorted(TALK.glob("*.yml")):
        for conversation in yaml.safe_load(path.read_text(encoding="utf-8"))["conversations"]:
            for statement in conversation:
                text = str(statement)
                if text not in seen:
                    seen.add(text)
                    yield text


@pytest.mark.parametrize(
    "context", [chat(), on_the_road()], ids=["a chat on its first day", "Juniper on the road"]
)
def test_talk_between_people_gets_silence(context: Context, reads: Reader) -> None:
    talk = list(statements())
    read = [
        f"{type(verdict).__name__}: {text!r}"
        for text in talk
        if not isinstance(verdict := reads(text, context), Silent)
    ]
    print(f"{len(read)} of {len(talk)} statements were read")
    print(*read, sep="\n")
    assert len(talk) > 1_900
    assert len(read) <= MOST_READ
