"""Every kind of answer as it was looked at and approved, on each network.

Where an answer is to read otherwise, `make gallery` writes the snapshots anew: read them, look at
the pictures, and commit both.
"""

from __future__ import annotations

import re

import pytest

from bot.answers.language import languages
from bot.answers.narrow import WIDTH
from tests.gallery.scenes import APPROVED, LONGEST, NETWORKS, path_of, scenes, snapshot, terminal

SHOWN = [
    pytest.param(language, number, id=f"{language} {each.name}")
    for language in languages()
    for number, each in enumerate(scenes(language))
]


@pytest.mark.parametrize(("network", "language"), APPROVED)
def test_answers_are_as_approved(network: str, language: str) -> None:
    approved = path_of(network, language).read_text(encoding="utf-8")
    assert snapshot(network, language) == approved


@pytest.mark.parametrize("language", languages())
def test_no_two_scenes_share_a_name(language: str) -> None:
    names = [each.name for each in scenes(language)]
    assert len(set(names)) == len(names)


@pytest.mark.parametrize(("language", "number"), SHOWN)
def test_an_answer_fits_a_phone(language: str, number: int) -> None:
    answer = scenes(language)[number].answer
    assert len(terminal(answer)) <= LONGEST
    for block in re.findall(r"<pre>(.*?)</pre>", NETWORKS["telegram"](answer), re.S):
        assert all(len(line) <= WIDTH for line in block.splitlines())


@pytest.mark.parametrize(("language", "number"), SHOWN)
def test_an_answer_neither_shouts_nor_calls_anything_safe(language: str, number: int) -> None:
    told = terminal(scenes(language)[number].answer)
    assert not re.search("[!¡]", told)
    assert not re.search(r"\b(safe(ly)?|segur[oa]s?)\b", told, re.I)
    assert not re.search("[\U0001f300-\U0001faff]", told)
