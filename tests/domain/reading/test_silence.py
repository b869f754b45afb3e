"""Talk between people gets silence.

The talk is that of two open data sets, in which nothing is meant for a logbook. The English part
of the chatterbot-corpus (PyPI: chatterbot-corpus) has questions, trivia, jokes and tech support,
with figures of every kind. In the Chit-Chat Challenge of Brigham Young University (PyPI:
chitchat-dataset) students typed to each other, 258,145 times, as they do on their telephones.
"""

from __future__ import annotations

import json
from collections.abc import Iterator
from itertools import cycle, islice
from pathlib import Path

import chatterbot_corpus
import chitchat_dataset
import pytest
import yaml

from domain.context import Context
from domain.verdicts import Silent
from tests.domain.reading.chats import Reader, chat, on_the_road

TALK = Path(chatterbot_corpus.__file__).parent / "data" / "english"

MOST_READ = 0
"""Statements of 1,902 that may be taken for the log; this only ever falls."""


EVERY = 5
"""Of the students' messages one in so many is read, each in one of the two chats in turn."""

MOST_CHATTED = 16
"""Messages of 51,000 that may be taken for the log: 'week', 'help' and 'ignore that' are said alike
in any chat. This only ever falls."""


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


def typed() -> Iterator[str]:
    """Everything that the students typed, in order."""
    path = Path(chitchat_dataset.__file__).with_name("dataset.json")
    for conversation in json.loads(path.read_text(encoding="utf-8")).values():
        for turn in conversation["messages"]:
            for each in turn:
                yield each["text"]


def test_students_who_chat_get_silence(reads: Reader) -> None:
    talk = list(islice(typed(), 0, None, EVERY))
    chats = cycle([chat(), on_the_road()])
    read = [
        f"{type(verdict).__name__}: {text!r}"
        for text, context in zip(talk, chats, strict=False)
        if not isinstance(verdict := reads(text, context), Silent)
    ]
    print(f"{len(read)} of {len(talk)} messages were read")
    print(*read, sep="\n")
    assert len(talk) > 50_000
    assert len(read) <= MOST_CHATTED
