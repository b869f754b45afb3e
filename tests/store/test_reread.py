"""What could not be read waits, and is read again when the reader knows better."""

from __future__ import annotations

import pytest

from bot.reread import reread
from bot.store.database import Store
from domain.entries import Check, Odometer
from domain.verdicts import Ask, Facts
from tests.store.logbooks import Scripted, as_told, conversation, logged, mi, replies, standing

READING = Odometer(odometer=mi(48011))


@pytest.fixture
def reader(store: Store) -> Scripted:
    """A reader that has learned a text of which it could make nothing when it came."""
    done = Facts((Check(item="lug nuts", state="done"),))
    reader = Scripted({"clock says 48011": Ask("odometer"), "lugs": done})
    talk = conversation(store, reader)
    talk.receive(as_told("clock says 48011", at=0))
    talk.receive(as_told("lugs", at=5))
    reader.verdicts = {"clock says 48011": Facts((READING,))}
    return reader


def test_what_would_change_is_shown_first(store: Store, reader: Scripted) -> None:
    lines = list(reread(store, conversation(store, reader), apply=False))
    assert lines[0].endswith(": clock says 48011")
    assert lines[1:] == [
        "  odometer 48,011 mi",
        "1 of 1 message can be read by now. To let them count: drawbar reread --apply",
    ]
    assert READING not in standing(store)


def test_what_is_read_by_now_counts_from_when_it_was_texted(store: Store, reader: Scripted) -> None:
    talk = conversation(store, reader)
    assert list(reread(store, talk, apply=True))[-1].startswith("1 of 1 message read again")
    first, *_ = logged(store)
    assert (first.entry, first.at) == (READING, as_told("").sent_at)
    assert replies(store)[-1] == "Odometer 48,011 mi."
    assert list(reread(store, talk, apply=True)) == ["No message waits to be read again."]


def test_what_is_still_in_doubt_goes_on_waiting(store: Store) -> None:
    talk = conversation(store, Scripted({"odd": Ask("odometer")}))
    talk.receive(as_told("odd"))
    assert list(reread(store, talk, apply=True)) == ["0 of 1 message read again and in the log."]
    assert standing(store) == []


def test_an_answered_doubt_waits_no_more(store: Store) -> None:
    talk = conversation(store, Scripted({"odd": Ask("odometer")}))
    talk.receive(as_told("odd"))
    talk.receive(as_told("odo 48011", at=1))
    assert list(reread(store, talk, apply=False)) == ["No message waits to be read again."]
