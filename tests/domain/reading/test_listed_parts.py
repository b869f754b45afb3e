"""Parts of the rig in lists: those that share a state, and those that no phrase knows."""

from __future__ import annotations

import pytest

from domain.entries import Check
from domain.verdicts import Facts
from tests.domain.reading.chats import Reader, on_the_road


def _parts(text: str, reads: Reader, state: str = "done") -> list[str]:
    read = reads(text, on_the_road())
    assert isinstance(read, Facts), text
    assert all(isinstance(each, Check) for each in read.entries)
    return [e.item for e in read.entries if isinstance(e, Check) and e.state == state]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("walk-round done: tyres, lights, gas, hatches", "walk-round,tyres,lights,gas,hatches"),
        ("pretrip done - hitch pin, stow box, lights", "pretrip,hitch pin,stow box,lights"),
        ("gas locker, lights, hitch lock: all checked", "gas locker,lights,hitch lock"),
        ("stow box, coupler, lights all done", "stow box,coupler,lights"),
        ("checked tyres, gas and hatches", "tyres,gas,hatches"),
        ("checked lights, mirrors and the fuel cap", "lights,mirrors,fuel cap"),
        ("walk round done lights chains breakaway", "walk round,lights,chains,breakaway"),
        ("Did the walk round: chains, plug, lights, all good", "walk round,chains,plug,lights"),
        ("checked the chains, clevises and lights", "chains,clevises,lights"),
    ],
)
def test_what_stands_amid_parts_is_one(text: str, parts: str, reads: Reader) -> None:
    assert _parts(text, reads) == parts.split(",")


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("checked the chains, bert sleeping", "chains"),
        ("checked the chains, phew", "chains"),
        ("checked the chains and the lights, tickety", "chains,lights"),
        ("checked lights, chains and ate lunch", "lights,chains"),
        ("bert checked lights, chains, and fell over", "lights,chains"),
        ("lights and chains checked, kids fed", "lights,chains"),
        ("hi bert, lights chains pin good", "lights,chains,pin"),
    ],
)
def test_what_is_told_beside_a_list_is_no_part(text: str, parts: str, reads: Reader) -> None:
    assert _parts(text, reads) == parts.split(",")


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("lights, chains good", "lights,chains"),
        ("lights, chains checked", "lights,chains"),
        ("checked lights, chains", "lights,chains"),
        ("need lights, chains good", "chains"),
        ("lights? chains good", "chains"),
        ("checked lights, chains need replacing", "lights"),
        ("checked lights, chains and pin need grease", "lights"),
    ],
)
def test_two_parts_make_a_list_where_nothing_else_is_told_of_one(
    text: str, parts: str, reads: Reader
) -> None:
    assert _parts(text, reads) == parts.split(",")


def test_a_part_of_a_list_at_fault_is_told_apart(reads: Reader) -> None:
    text = "checked the lights, chains loose"
    assert _parts(text, reads) == ["lights"]
    assert _parts(text, reads, "fault") == ["chains"]
