"""What people ask to be remembered: what is so is kept, what was is talk."""

from __future__ import annotations

import pytest

from domain.entries import Note
from domain.verdicts import Facts, Silent
from tests.domain.reading.chats import Reader, chat

KEPT = """
remember the spare is at Ted's
remember the caravan's at the shop
remember the hitch pin squeaks
remember the caravan's MOT is due in march
remember the flatdeck tarp is in the shed
remember the caravan needs to be at the shop by friday
remember: grease the hubs
"""

RECALLED = """
remember the old van in 98 when the clutch went
remember that van we had in 76
remember the old van in 98 was cheaper to run than this
remember the first caravan we ever had
remember towing the horse trailer in the snow
remember the year the axle snapped
remember what the axle weighed back then
remember the blue trailer
remember your keys to the van, it is late
remember me to the caravan club lot
"""


@pytest.mark.parametrize("text", KEPT.strip().splitlines())
def test_what_is_so_is_kept(text: str, reads: Reader) -> None:
    verdict = reads(text, chat())
    assert isinstance(verdict, Facts)
    (note,) = verdict.entries
    assert isinstance(note, Note)
    assert text.endswith(note.note or "?")


@pytest.mark.parametrize("text", RECALLED.strip().splitlines())
@pytest.mark.parametrize("units", ["us", "imperial"])
def test_what_was_is_talk(text: str, units: str, reads: Reader) -> None:
    assert reads(text, chat(units=units)) == Silent()
