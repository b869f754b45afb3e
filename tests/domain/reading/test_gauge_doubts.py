"""A gauge that shows what none can is asked about, and a figure answers."""

from __future__ import annotations

from dataclasses import replace

import pytest

from domain.entries import Observation
from domain.quantities import Quantity
from domain.verdicts import Ask, Facts
from tests.domain.reading.chats import Reader, on_the_road

HOT = Observation(subject="transmission", value=Quantity(210, "degF"))
SOFT = Observation(subject="tyre", value=Quantity(48, "psi"), position="trailer left rear")


def _asked(text: str, reads: Reader) -> Ask:
    asked = reads(text, on_the_road())
    assert isinstance(asked, Ask), asked
    assert asked.about == "observation"
    return asked


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("trans 2100", [210, 2100]),
        ("left rear camper tire 480 psi", [48, 480]),
        ("coolant 800", [800]),
        ("trans 2100 at 52,400", []),
    ],
)
def test_a_digit_too_many_may_have_slipped_in(
    text: str, values: list[float], reads: Reader
) -> None:
    entries = [each.entries for each in _asked(text, reads).choices]
    assert [entry.value.value for (entry,) in entries if isinstance(entry, Observation)] == values


@pytest.mark.parametrize(
    ("text", "offered"),
    [
        ("trans 2100", Quantity(210, "degF")),
        ("trans 1000", Quantity(100, "degC")),
        ("coolant 980", Quantity(98, "degC")),
    ],
)
def test_a_metric_chat_is_offered_what_may_be_shown(
    text: str, offered: Quantity, reads: Reader
) -> None:
    asked = reads(text, on_the_road(units="metric"))
    assert isinstance(asked, Ask)
    entry, _ = [each.entries[0] for each in asked.choices]
    assert isinstance(entry, Observation)
    assert entry.value == offered


@pytest.mark.parametrize(
    ("text", "answer", "read"),
    [
        ("trans 2100", "210", HOT),
        ("trans 2100", "sorry, 212", replace(HOT, value=Quantity(212, "degF"))),
        ("trans 2100", "trans was 212", replace(HOT, value=Quantity(212, "degF"))),
        ("left rear camper tire 480 psi", "48", SOFT),
        ("left rear camper tire 480 psi", "LR 62", replace(SOFT, value=Quantity(62, "psi"))),
    ],
)
def test_a_figure_completes_the_reading(
    text: str, answer: str, read: Observation, reads: Reader
) -> None:
    context = replace(on_the_road(), asked=_asked(text, reads))
    assert reads(answer, context) == Facts((read,))


@pytest.mark.parametrize(
    ("text", "answer"),
    [
        ("trans 2100", "coolant 210"),
        ("trans 2100", "see you in 20"),
        ("trans 2100", "be there in 45"),
        ("trans 2100", "31.2 gal"),
        ("left rear camper tire 480 psi", "RF 65"),
        ("left rear camper tire 480 psi", "back in 10"),
        ("left rear camper tire 480 psi", "3 more"),
    ],
)
def test_what_is_of_something_else_is_read_as_if_nothing_had_been_asked(
    text: str, answer: str, reads: Reader
) -> None:
    context = replace(on_the_road(), asked=_asked(text, reads))
    assert reads(answer, context) == reads(answer, on_the_road())
