"""What is taken out of the log by the name of what was loaded."""

from __future__ import annotations

import pytest

from domain.entries import Correction
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, on_the_road


@pytest.mark.parametrize(
    ("text", "was"),
    [
        ("scratch the water, tank was empty", "water"),
        ("undo the water please", "water"),
        ("delete the cargo", None),
        ("strike the load", None),
    ],
)
def test_what_was_loaded_is_taken_out_by_its_name(
    text: str, was: str | None, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Facts)
    (undo,) = verdict.entries
    assert isinstance(undo, Correction)
    assert (undo.action, undo.was, [kind for kind, _ in undo.words]) == ("undo", was, ["cargo"])


@pytest.mark.parametrize(
    "text",
    ["drop the load", "take the water out", "forget the water", "i scratched the load bed"],
)
def test_what_is_done_with_a_load_takes_nothing_out(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)
