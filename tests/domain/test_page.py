"""Words with their places become the rows and lines that a person reads."""

from __future__ import annotations

import math
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from domain.columns import Line, lines
from domain.page import Word, rows, seen

HEIGHT = 20.0


def word(text: str, x: float, y: float, confidence: float = 0.99, height: float = HEIGHT) -> Word:
    """A word whose left end is at x and whose middle is at y, each letter half as wide as high."""
    width, half = len(text) * height / 2, height / 2
    return Word(
        text,
        ((x, y - half), (x + width, y - half), (x + width, y + half), (x, y + half)),
        confidence,
    )


def ending(text: str, x: float, y: float, confidence: float = 0.99) -> Word:
    """A word whose right end is at x."""
    return word(text, x - len(text) * HEIGHT / 2, y, confidence)


def turned(words: Sequence[Word], degrees: float) -> list[Word]:
    """The words of a picture that was turned clockwise, their corners still as they are read."""
    turn = complex(math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))

    def moved(corner: tuple[float, float]) -> tuple[float, float]:
        point = complex(*corner) * turn
        return point.real, point.imag

    return [
        Word(each.text, tuple(moved(corner) for corner in each.corners), each.confidence)  # type: ignore[arg-type]
        for each in words
    ]


def seen_from_the_side(words: Sequence[Word], slant: float) -> list[Word]:
    """The words of a page whose upper rows slope up and whose lower rows slope down."""
    return [
        Word(
            each.text,
            tuple((x, y + slant * x * (y - 200) / 200) for x, y in each.corners),  # type: ignore[arg-type]
            each.confidence,
        )
        for each in words
    ]


def texts(words: Sequence[Word]) -> list[str]:
    return [line.text for line in lines(rows(words))]


TICKET = [
    word("STEER", 40, 100), word("AXLE", 100, 100), ending("5,280", 700, 101), word("lb", 710, 101),
    word("DRIVE", 40, 150), word("AXLE", 100, 150), ending("6,140", 700, 151), word("lb", 710, 151),
    word("TRAILER", 40, 200), word("AXLE", 120, 200), ending("8,520", 700, 201),
    word("lb", 710, 201), word("GROSS", 40, 250), ending("19,940", 700, 251), word("lb", 710, 251),
]  # fmt: skip
TICKET_LINES = [
    "STEER AXLE 5,280 lb", "DRIVE AXLE 6,140 lb", "TRAILER AXLE 8,520 lb", "GROSS 19,940 lb",
]  # fmt: skip


def test_a_label_and_its_figure_far_to_the_right_make_one_line() -> None:
    assert texts(TICKET) == TICKET_LINES


def test_words_come_in_any_order() -> None:
    assert texts(TICKET[::-1]) == TICKET_LINES


@pytest.mark.parametrize("degrees", [-180, -100, -90, -15, -7, 3, 15, 75, 90, 105, 180, 195, 270])
def test_a_ticket_reads_alike_however_the_picture_lies(degrees: float) -> None:
    assert texts(turned(TICKET, degrees)) == TICKET_LINES


@pytest.mark.parametrize("slant", [-0.04, -0.02, 0.02, 0.04])
def test_a_ticket_reads_alike_when_seen_from_the_side(slant: float) -> None:
    assert texts(seen_from_the_side(TICKET, slant)) == TICKET_LINES


def test_labels_above_their_figures_name_them() -> None:
    assert texts([
        word("Steer", 40, 100), word("axle", 100, 100), word("Drive", 400, 100),
        word("axle", 460, 100), word("5,280", 40, 150, height=40), word("lb", 160, 150, height=40),
        word("6,140", 400, 150, height=40), word("lb", 520, 150, height=40),
        word("Gross", 40, 250), word("weight", 100, 250), word("11,420", 40, 300, height=40),
        word("lb", 180, 300, height=40),
    ]) == ["Steer axle 5,280 lb, Drive axle 6,140 lb", "Gross weight 11,420 lb"]  # fmt: skip


@pytest.mark.parametrize("heading", [["WEIGHT", "(LB)"], ["WEIGHT", "LB"], ["LB"], ["(lb)"]])
def test_a_unit_in_a_heading_is_that_of_the_figures_below(heading: list[str]) -> None:
    head = [word("AXLE", 40, 50)]
    x = 700 - sum(len(each) * HEIGHT / 2 for each in heading) - 8 * (len(heading) - 1)
    for each in heading:
        head.append(word(each, x, 50))
        x += len(each) * HEIGHT / 2 + 8
    assert texts([
        *head, word("STEER", 40, 100), ending("5,280", 700, 100), word("DRIVE", 40, 150),
        ending("6,140", 700, 150), word("GROSS", 40, 200), ending("11,420", 700, 200),
    ]) == ["STEER 5,280 lb", "DRIVE 6,140 lb", "GROSS 11,420 lb"]  # fmt: skip


def test_figures_side_by_side_are_told_by_their_row_and_their_columns() -> None:
    assert texts([
        word("PRODUCT", 40, 50), ending("GALLONS", 400, 50), ending("PRICE", 600, 50),
        ending("AMOUNT", 800, 50), word("DIESEL", 40, 100), ending("31.402", 400, 100),
        ending("3.899", 600, 100), ending("122.44", 800, 100), word("DEF", 40, 150),
        ending("2.510", 400, 150), ending("4.299", 600, 150), ending("10.79", 800, 150),
        word("TOTAL", 40, 200), ending("$133.23", 800, 200),
    ]) == [
        "DIESEL GALLONS 31.402, DIESEL PRICE 3.899, DIESEL AMOUNT 122.44",
        "DEF GALLONS 2.510, DEF PRICE 4.299, DEF AMOUNT 10.79",
        "TOTAL $133.23",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("one", "two"),
    [("PASS-1", "PASS-2"), ("FIRST", "SECOND"), ("1ST", "2ND")],
)
def test_the_columns_of_two_passes_are_read_one_after_the_other(one: str, two: str) -> None:
    assert texts([
        word("AXLE", 40, 50), ending(one, 400, 50), ending(two, 700, 50),
        word("STEER", 40, 100), ending("5,280", 400, 100), ending("5,380", 700, 100),
        word("GROSS", 40, 150), ending("11,420", 400, 150), ending("11,520", 700, 150),
    ]) == [one, "STEER 5,280", "GROSS 11,420", two, "STEER 5,380", "GROSS 11,520"]  # fmt: skip


def test_two_labelled_cells_of_one_row_are_kept_apart_by_a_comma() -> None:
    assert texts([
        word("DATE", 40, 50), word("07/11/2026", 90, 50), word("TIME", 500, 50),
        word("14:22", 550, 50),
    ]) == ["DATE 07/11/2026, TIME 14:22"]  # fmt: skip


def test_a_heading_that_heads_no_figures_stays_a_line() -> None:
    assert texts([
        word("FIRST", 40, 50), word("WEIGH", 100, 50), word("STEER", 40, 100),
        ending("5,280", 700, 100),
    ]) == ["FIRST WEIGH", "STEER 5,280"]  # fmt: skip


def test_an_address_below_a_name_is_no_figure_of_it() -> None:
    assert texts([
        word("TRAVEL", 100, 50), word("STOP", 170, 50), word("579", 100, 100),
        word("RIVER", 140, 100), word("ROAD", 200, 100),
    ]) == ["TRAVEL STOP", "579 RIVER ROAD"]  # fmt: skip


@pytest.mark.parametrize("gap", [8, 40])
@pytest.mark.parametrize(
    ("misread", "meant"),
    [("5,28O", "5,280"), ("l9,940", "19,940"), ("5,2B0", "5,280"), ("11,S20", "11,520")],
)
def test_a_letter_in_a_figure_is_mended_before_a_unit_and_the_figure_is_not_sure(
    misread: str, meant: str, gap: int
) -> None:
    unit = word("lb", 300 + len(misread) * HEIGHT / 2 + gap, 100)
    words = [word("STEER", 40, 100), word(misread, 300, 100), unit]
    assert lines(rows(words)) == (Line(f"STEER {meant} lb", 0.0),)


def test_a_letter_is_mended_after_a_sign_of_money_and_in_a_column_of_figures() -> None:
    assert lines(rows([
        word("GALLONS", 40, 100), ending("31.4O2", 700, 100), word("PRICE", 40, 150),
        ending("$3.8g9", 700, 150), word("TOTAL", 40, 200), ending("122.44", 700, 200),
    ])) == (
        Line("GALLONS 31.402", 0.0), Line("PRICE $3.899", 0.0), Line("TOTAL 122.44", 0.99),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("seen_as", "text"),
    [
        ("DATE07/11/2026", "DATE 07/11/2026"),
        ("Date:11.07.2026", "Date: 11.07.2026"),
        ("07/11/202614:22", "07/11/2026 14:22"),
        ("202614:22", "2026 14:22"),
        ("TIME14:22:05", "TIME 14:22:05"),
        ("07/11/2026", "07/11/2026"),
        ("14:22PM", "14:22 PM"),
    ],
)
def test_a_date_seen_without_the_space_beside_it_is_a_word_of_its_own(
    seen_as: str, text: str
) -> None:
    assert texts([word(seen_as, 40, 100)]) == [text]


@pytest.mark.parametrize(
    ("seen_as", "text"),
    [("GR0SS", "GROSS"), ("Tra1ler", "Trailer"), ("AX1E", "AX1E"), ("B80S15", "B80S15"),
     ("AB0C1D", "AB0C1D"), ("DRIVE5", "DRIVE5"), ("GA5OIL", "GASOIL"),
     ("TRASER0", "TRASERO"), ("Delanter0", "Delantero"), ("EJE10", "EJE10"), ("NO10", "NO10")],
)  # fmt: skip
def test_one_digit_inside_a_word_is_the_letter_that_looks_like_it(seen_as: str, text: str) -> None:
    assert texts([word(seen_as, 40, 100)]) == [text]


def test_letters_of_a_ticket_number_stay_letters() -> None:
    assert texts([word("TICKET", 40, 100), word("NO", 110, 100), word("B80S15", 150, 100)]) == [
        "TICKET NO B80S15"
    ]


def test_a_line_is_as_sure_as_its_least_sure_word_with_a_digit() -> None:
    (line,) = lines(rows([
        word("STEER", 40, 100, 0.3), word("5,280", 300, 100, 0.91), word("lb", 370, 100, 0.2),
    ]))  # fmt: skip
    assert line == Line("STEER 5,280 lb", 0.91)


@pytest.mark.parametrize(
    ("hidden", "text"),
    [
        ("\u202e5,280\u202c", "5,280"),
        ("5\u200b,2\u200d80", "5,280"),
        ("\ufeffSTEER", "STEER"),
        ("\uff15\uff0c\uff12\uff18\uff10", "5,280"),
        ("5,\u00ad280\x00\x1b", "5,280"),
        ("\u2066lb\u2069", "lb"),
    ],
)
def test_marks_of_direction_and_what_has_no_width_leave_no_trace(hidden: str, text: str) -> None:
    assert seen(hidden) == text


def test_words_without_anything_to_see_or_any_extent_are_passed_over() -> None:
    spot = (10.0, 10.0)
    nothing = [word("\u200b\u202e", 40, 100), Word("5", (spot, spot, spot, spot), 0.9)]
    assert rows(nothing) == ()
    assert rows([]) == ()
    assert lines(()) == ()


place = st.floats(-5_000, 5_000)
corner = st.tuples(place, place)
anything = st.builds(
    Word,
    st.text(max_size=12),
    st.tuples(corner, corner, corner, corner),
    st.floats(0, 1),
)


@given(st.lists(anything, max_size=30))
def test_no_words_wherever_they_stand_are_lost_or_said_twice(words: list[Word]) -> None:
    page = rows(words)
    visible = sorted(seen(each.text) for each in words if seen(each.text))
    kept = sorted(text for row in page for cell in row for text in cell.words)
    assert all(kept.count(text) <= visible.count(text) for text in kept)
    assert all(0 <= line.confidence <= 1 for line in lines(page))
