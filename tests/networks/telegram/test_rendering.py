"""An answer as a phone shows it, within Telegram's limits."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.answers.answer import Answer, Row
from bot.answers.narrow import WIDTH, figures
from bot.networks.telegram.rendering import LONGEST, rendered
from tests.networks.telegram.limits import parsed, units

OVER = Answer(
    headline="Over: drive axle by 60 lb. Don't tow it like this.",
    rows=(
        Row("Gross", "21,340 lb"),
        Row("Truck", "11,440 lb", "steer 4,380, drive 7,060"),
        Row("Trailer axles", "9,900 lb"),
        Row("Drive axle", "60 lb over", "of 7,000 lb"),
        Row("Truck GVWR", "60 lb left", "of 11,500 lb, near"),
    ),
    notes=("2 more ratings with more room; text margins for all.",),
)
SHOWN = """\
Over: drive axle by 60 lb. Don't tow it like this.
Gross           21,340 lb
Truck           11,440 lb
  steer 4,380, drive 7,060
Trailer axles    9,900 lb
Drive axle     60 lb over
              of 7,000 lb
Truck GVWR     60 lb left
       of 11,500 lb, near
2 more ratings with more room; text margins for all."""


def test_the_verdict_is_bold_and_the_figures_stand_in_a_block() -> None:
    (part,) = rendered(OVER)
    head, rest = part.html.split("\n", 1)
    assert head == "<b>Over: drive axle by 60 lb. Don&#x27;t tow it like this.</b>"
    assert rest.startswith("<pre>Gross           21,340 lb\n")
    assert rest.endswith(
        "of 11,500 lb, near</pre>\n2 more ratings with more room; text margins for all."
    )


def test_a_phone_shows_the_figures_aligned_and_remarks_below_where_they_do_not_fit() -> None:
    (part,) = rendered(OVER)
    assert parsed(part.html) == part.plain
    assert [line.rstrip() for line in part.plain.splitlines()] == SHOWN.splitlines()


ROWS = [
    pytest.param(
        (Row("Fuel", "48.7 gal", "2 fills"), Row("Economy", "10.5 ± 0.4 mpg", "1 tank")),
        ("Fuel           48.7 gal  2 fills", "Economy  10.5 ± 0.4 mpg  1 tank"),
        id="short remarks stay beside their figures",
    ),
    pytest.param(
        (Row("Driven", "flatdeck 180 mi, solo 2 mi"), Row("Cost", "$67.45")),
        ("Driven  flatdeck 180 mi, solo 2 mi", "Cost    $67.45"),
        id="a text among figures does not push them aside",
    ),
    pytest.param(
        (Row("Trailer tyres, all of them together", "12,800 lb"), Row("Gross", "9,900 lb")),
        ("Trailer tyres, all of them", "together", "       12,800 lb", "Gross   9,900 lb"),
        id="a long label has its figure below",
    ),
    pytest.param(
        (
            Row("a trailer", "trailer flatdeck gvwr 12000 axles 2x6000"),
            Row("the truck alone", "solo: steer 4980"),
        ),
        (
            "a trailer",
            "  trailer flatdeck gvwr 12000",
            "  axles 2x6000",
            "the truck alone  solo: steer 4980",
        ),
        id="an example of several lines is indented",
    ),
    pytest.param((Row("Tank", "34 gal"),), ("Tank  34 gal",), id="one row"),
    pytest.param((), (), id="none"),
]


@pytest.mark.parametrize(("rows", "lines"), ROWS)
def test_rows_as_lines(rows: tuple[Row, ...], lines: tuple[str, ...]) -> None:
    assert tuple(figures(rows)) == lines


def test_choices_are_buttons_and_numbered_where_there_are_none() -> None:
    (part,) = rendered(Answer(headline="Which trailer?", choices=("flatdeck", "camper")))
    assert part.html == "<b>Which trailer?</b>"
    assert part.buttons == ("flatdeck", "camper")
    assert part.plain == "Which trailer?\n  1  flatdeck\n  2  camper"


@pytest.mark.parametrize(
    ("choice", "label"),
    [
        ("flatdeck\nwith sides", "flatdeck with sides"),
        ("the one that we borrowed from the neighbours across the creek last May",
         "the one that we borrowed from the neighbours…"),
        ("x" * 60, "x" * 47 + "…"),
    ],
)  # fmt: skip
def test_a_long_choice_is_cut_at_a_word(choice: str, label: str) -> None:
    (part,) = rendered(Answer(headline="Which?", choices=(choice,)))
    assert part.buttons == (label,)


WEIRD = [
    "<b>flatdeck</b>",
    "Fish & Chips",
    "&lt;script&gt;",
    "a < b > c",
    "\"quoted\" and 'quoted'",
    "</pre><a href='tg://user?id=1'>x</a>",
    "🐝🐝🐝 hives",
    "\u202egnal\u202c and \u200fright",
    "zero\u200bwidth",
    "👨‍👩‍👧‍👦",
]


@pytest.mark.parametrize("name", WEIRD)
def test_a_name_is_shown_as_it_was_given(name: str) -> None:
    answer = Answer(
        headline=f"{name} hitched.", rows=(Row(name, name, name),), notes=(name,), choices=(name,)
    )
    (part,) = rendered(answer)
    seen = parsed(part.html)
    assert seen.splitlines()[0] == f"{name} hitched."
    assert seen.splitlines()[-1] == name
    assert part.buttons == (name,)


def test_a_long_answer_is_cut_between_lines_and_the_choices_stand_under_its_end() -> None:
    answer = Answer(
        headline="Every weighing.",
        rows=tuple(Row(f"Weighing {number}", f"{number:,} lb") for number in range(1, 300)),
        notes=("That was all.",),
        choices=("more", "enough"),
    )
    parts = rendered(answer)
    assert len(parts) == 2
    assert [part.buttons for part in parts] == [(), ("more", "enough")]
    together = "\n".join(parsed(part.html) for part in parts).splitlines()
    assert together == ["Every weighing.", *figures(answer.rows), "That was all."]


words = st.text(st.characters(exclude_categories=("Cs", "Cc")), min_size=1, max_size=60)
long_words = st.builds(lambda word, times: word * times, words, st.integers(1, 200))
rows = st.builds(Row, words, words, words)
answers = st.builds(
    Answer,
    headline=long_words,
    rows=st.lists(rows, max_size=120).map(tuple),
    notes=st.lists(long_words, max_size=4).map(tuple),
    choices=st.lists(words, max_size=8).map(tuple),
)


@settings(max_examples=30)
@given(answers)
def test_whatever_an_answer_says_each_message_is_one_that_telegram_takes(answer: Answer) -> None:
    for part in rendered(answer):
        assert units(parsed(part.html)) <= LONGEST
        assert units(part.plain) <= LONGEST


@given(st.lists(rows, max_size=8).map(tuple))
def test_no_figure_is_wider_than_a_phone(rows: tuple[Row, ...]) -> None:
    assert all(len(line) <= WIDTH for line in figures(rows))
