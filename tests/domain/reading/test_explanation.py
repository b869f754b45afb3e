"""Why a message was read as it was, told to somebody who has not read the code."""

from __future__ import annotations

import pytest

from bot.shared_data import read_toml
from domain.reading import explain
from domain.reading.explanation import TALK
from domain.reading.phrasebook import Phrasebook
from tests.domain.reading.chats import on_the_road

OF_WHOLE_MESSAGES = frozenset(("advert", "vehicle"))
"""Kinds of talk that become another: all of an advert is somebody else's, and so is his vehicle."""


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("trans usually sits about 190 on that hill", "of what is usual"),
        ("we'll weigh tomorrow, maybe 19,400", "a plan or a wish"),
        ("my cousin's rig was 21,300", "of somebody else or their rig"),
    ],
)
def test_what_is_left_aside_is_told_with_its_reason(text: str, told: str, book: Phrasebook) -> None:
    assert told in explain(text, on_the_road(), book)


def test_every_kind_of_talk_has_its_reason() -> None:
    kinds = read_toml("phrasebook/en.toml")["talk"].keys()
    assert kinds - OF_WHOLE_MESSAGES == TALK.keys()
