"""What wakes the readers of facts: one that sleeps would have read nothing."""

from __future__ import annotations

from collections import Counter

import pytest

from bot.phrasebook import book_for
from domain.context import Context
from domain.reading.lexer import clean
from domain.reading.readers import TICKETED, WAKES, Reader, read_figures
from domain.reading.scene import Scene
from tests.corpora import Case, cases, corpora
from tests.domain.reading.chats import on_the_road

EVERYTHING = TICKETED.union(*WAKES.values())


@pytest.fixture(scope="module")
def said() -> list[Case]:
    """Every message of the corpora."""
    return [case for name in corpora() for case in cases(name)]


def scene_of(text: str, context: Context) -> Scene | None:
    """A message taken apart; None where nothing of it is a token."""
    scene = Scene(clean(text), context, book_for(context))
    return scene if scene.tokens else None


def state_of(scene: Scene) -> list[tuple[object, ...]]:
    """All that a reader can change of the figures."""
    return [
        (each.role, each.claimed, each.value, each.unit, each.dimension) for each in scene.figures
    ]


def test_a_reader_that_sleeps_would_have_read_nothing(said: list[Case]) -> None:
    asleep: Counter[Reader] = Counter()
    for case in said:
        scene = scene_of(case.text, case.context)
        if scene is None:
            continue
        words, before = scene.said_and_measured(), state_of(scene)
        for reader in [reader for reader in WAKES if words.isdisjoint(WAKES[reader])]:
            assert not reader(scene), (case.text, reader.__name__)
            assert state_of(scene) == before, (case.text, reader.__name__)
            asleep[reader] += 1
    assert asleep.keys() == WAKES.keys()
    assert min(asleep.values()) > len(said) / 10


def test_readers_that_are_all_awake_read_what_the_woken_ones_do(said: list[Case]) -> None:
    def read(case: Case, *, all_awake: bool) -> object:
        scene = scene_of(case.text, case.context)
        if scene is None:
            return None
        return read_figures(scene, EVERYTHING if all_awake else scene.said_and_measured())

    for case in said[::4]:
        assert read(case, all_awake=True) == read(case, all_awake=False), case.text


@pytest.mark.parametrize(
    ("text", "awake"),
    [
        ("see you at supper", set()),
        ("tongue 980 lb", {"read_ratings", "read_cargo", "read_weighings"}),
        ("hitched the camper", {"read_hitches"}),
        ("61 psi", {"read_observations"}),
        ("31.4 gal", {"read_fills"}),
    ],
)
def test_a_word_or_a_figure_of_its_kind_wakes_a_reader(text: str, awake: set[str]) -> None:
    scene = scene_of(text, on_the_road())
    assert scene is not None
    said = scene.said_and_measured()
    woken = {reader.__name__ for reader in WAKES if not said.isdisjoint(WAKES[reader])}
    assert awake <= woken
    assert awake or not woken
