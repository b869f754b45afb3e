"""Numbers in every way that people type and say them.

Words are spelt by num2words, a library that knows nothing of this reader. The figure is put
into a message that leaves no doubt what it is of, and read back from the entry.
"""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from domain.context import Context, Units
from domain.entries import Fill, Observation, Odometer, Weighing
from domain.quantities import Quantity
from domain.verdicts import Facts, Verdict
from tests.domain.reading import spoken
from tests.domain.reading.chats import Reader, chat

HYPHENS = st.sampled_from([str, spoken.plain])


def odometer(verdict: Verdict) -> float:
    """The reading that a verdict holds, and nothing else."""
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Odometer), entry
    return entry.odometer.value


def volume(verdict: Verdict) -> Quantity:
    """What a verdict says went into the tank, and nothing else."""
    assert isinstance(verdict, Facts), verdict
    (entry,) = verdict.entries
    assert isinstance(entry, Fill), entry
    assert entry.volume is not None
    assert entry == Fill(product="diesel", volume=entry.volume)
    return entry.volume


def says(words: str, reads: Reader) -> float:
    return odometer(reads(f"odometer {words}"))


@given(number=st.integers(100, 99_999), hyphens=HYPHENS)
@example(number=19_460, hyphens=spoken.plain)
@example(number=20_005, hyphens=str)
@example(number=100, hyphens=str)
def test_a_number_said_in_full(number: int, hyphens: spoken.Spelling, reads: Reader) -> None:
    """'nineteen thousand four hundred and sixty', with the 'and' and without."""
    assert says(hyphens(spoken.full(number)), reads) == number
    assert says(hyphens(spoken.full_without_and(number)), reads) == number


@given(number=st.integers(100, 99_999).filter(spoken.said_in_pairs), hyphens=HYPHENS)
@example(number=19_460, hyphens=spoken.plain)
@example(number=48_211, hyphens=str)
@example(number=5_140, hyphens=spoken.plain)
@example(number=10_006, hyphens=str)
@example(number=5_105, hyphens=str)
def test_a_number_said_in_pairs(number: int, hyphens: spoken.Spelling, reads: Reader) -> None:
    """'nineteen four sixty', 'fifty-one forty', 'forty-eight two eleven'."""
    assert says(hyphens(spoken.pairs(number)), reads) == number


@given(number=st.integers(100, 99_999))
@example(number=2_416)
@example(number=10_006)
def test_a_number_said_digit_by_digit(number: int, reads: Reader) -> None:
    """'two four one six'; a nought is 'oh' or 'zero'."""
    words = spoken.digit_by_digit(number)
    assert says(words, reads) == number
    assert says(words.replace("oh", "zero"), reads) == number


@given(number=st.integers(1_100, 9_999).filter(spoken.said_in_hundreds), hyphens=HYPHENS)
@example(number=5_300, hyphens=str)
@example(number=5_340, hyphens=spoken.plain)
def test_a_number_said_in_hundreds(number: int, hyphens: spoken.Spelling, reads: Reader) -> None:
    """'fifty-three hundred', 'fifty-three hundred and forty'."""
    words = hyphens(spoken.hundreds(number))
    assert says(words, reads) == number
    assert says(words.replace(" and ", " "), reads) == number


@given(number=st.integers(1_000, 99_999))
@example(number=19_460)
@example(number=19_000)
def test_a_number_half_in_words(number: int, reads: Reader) -> None:
    """'19 thousand 460'."""
    assert says(spoken.mixed(number), reads) == number


@given(tenths=st.integers(10, 999), say=st.sampled_from(["{}k", "{} k", "{} thousand", "{}K"]))
@example(tenths=92, say="{}k")
@example(tenths=120, say="{} thousand")
def test_a_number_in_thousands(tenths: int, say: str, reads: Reader) -> None:
    """'9.2k', '12 thousand'."""
    whole, tenth = divmod(tenths, 10)
    digits = f"{whole}.{tenth}" if tenth else str(whole)
    assert says(say.format(digits), reads) == pytest.approx(tenths * 100)


@given(whole=st.integers(1, 99), tenth=st.integers(1, 9), hyphens=HYPHENS)
@example(whole=9, tenth=2, hyphens=str)
def test_thousands_said_with_a_point(
    whole: int, tenth: int, hyphens: spoken.Spelling, reads: Reader
) -> None:
    """'nine point two k'."""
    words = hyphens(spoken.point(whole, str(tenth)))
    assert says(f"{words} k", reads) == 1000 * whole + 100 * tenth
    assert says(f"{words} thousand", reads) == 1000 * whole + 100 * tenth


@given(
    whole=st.integers(1, 99),
    decimals=st.text("0123456789", min_size=1, max_size=3),
    hyphens=HYPHENS,
)
@example(whole=12, decimals="84", hyphens=str)
@example(whole=31, decimals="05", hyphens=spoken.plain)
def test_a_decimal_said_digit_by_digit(
    whole: int, decimals: str, hyphens: spoken.Spelling, reads: Reader
) -> None:
    """'twelve point eight four gallons'."""
    words = hyphens(spoken.point(whole, decimals))
    found = volume(reads(f"{words} gallons of diesel"))
    assert found.unit == "gal"
    assert found.value == pytest.approx(float(f"{whole}.{decimals}"))


@given(hundredths=st.integers(100, 9_999).filter(lambda each: each % 10))
@example(hundredths=1_284)
def test_a_decimal_as_num2words_says_it(hundredths: int, reads: Reader) -> None:
    words = spoken.full_decimal(hundredths)
    found = volume(reads(f"{words} gallons of diesel"))
    assert found.unit == "gal"
    assert found.value == pytest.approx(hundredths / 100)


@given(number=st.integers(2, 99), hyphens=HYPHENS)
@example(number=31, hyphens=spoken.plain)
def test_a_small_number_in_words(number: int, hyphens: spoken.Spelling, reads: Reader) -> None:
    words = hyphens(spoken.full(number))
    assert volume(reads(f"{words} gallons of diesel")).value == number


SEPARATORS = {
    "none": "",
    "comma": ",",
    "space": " ",
    "no-break space": "\u00a0",
    "narrow no-break space": "\u202f",
    "thin space": "\u2009",
    "apostrophe": "'",
    "curly apostrophe": "\u2019",
}
"""Between thousands, as keyboards and scale printers of the world write them."""


@pytest.mark.parametrize("separator", SEPARATORS.values(), ids=SEPARATORS.keys())
@given(number=st.integers(1_000, 99_999))
@example(number=19_460)
@example(number=5_005)
def test_thousands_set_apart(separator: str, number: int, reads: Reader) -> None:
    written = f"{number:,d}".replace(",", separator)
    assert says(f"{written} miles", reads) == number
    if number < 60_000 or not separator.isspace():
        assert says(written, reads) == number


def test_a_space_in_a_high_odometer(reads: Reader) -> None:
    assert says("60 040", reads) == 60_040


@pytest.mark.parametrize("separator", SEPARATORS.values(), ids=SEPARATORS.keys())
@given(
    number=st.integers(3_000, 39_999),
    unit=st.sampled_from(["", " lb", "lb", " lbs", "#", " pounds"]),
)
@example(number=19_460, unit="#")
def test_a_gross_with_thousands_set_apart(
    separator: str, unit: str, number: int, reads: Reader
) -> None:
    written = f"{number:,d}".replace(",", separator)
    verdict = reads(f"gross {written}{unit}")
    assert verdict == Facts((Weighing(loads={"gross": Quantity(number, "lb")}),))


@given(number=st.integers(1_500, 20_000))
@example(number=19_460)
def test_a_point_between_thousands_of_kilograms(number: int, reads: Reader) -> None:
    """19.460 kg on a continental ticket is no 19 kg."""
    written = f"{number:,d}".replace(",", ".")
    verdict = reads(f"gross {written} kg", chat(units="metric"))
    assert verdict == Facts((Weighing(loads={"gross": Quantity(number, "kg")}),))


@given(tenths=st.integers(50, 1_200))
@example(tenths=314)
def test_a_comma_before_decimals(tenths: int, reads: Reader) -> None:
    """31,4 L."""
    written = f"{tenths // 10},{tenths % 10}"
    assert volume(reads(f"diesel {written} L", chat(units="metric"))) == Quantity(tenths / 10, "L")


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("gross 9340#", 9_340),
        ("gross 9,340lbs", 9_340),
        ("gross 9.2k lbs", 9_200),
        ("gross nine point two k", 9_200),
        ("gross 19460.", 19_460),
        ("gross: 19460lb", 19_460),
        ("gross=19,460", 19_460),
        ("gross \uff11\uff19\uff14\uff16\uff10", 19_460),
        ("gross nineteen thousand 460", 19_460),
        ("gross 19 thousand four hundred and sixty", 19_460),
        ("gross twenty-three thousand", 23_000),
        ("gross 23 thou", 23_000),
    ],
)
def test_a_weight_as_it_is_typed(text: str, value: float, reads: Reader) -> None:
    assert reads(text) == Facts((Weighing(loads={"gross": Quantity(value, "lb")}),))


@pytest.mark.parametrize(
    ("text", "fill"),
    [
        ("31.2gal diesel", Fill(product="diesel", volume=Quantity(31.2, "gal"))),
        (
            "diesel 31.2 gal @ $3.899",
            Fill(
                product="diesel",
                volume=Quantity(31.2, "gal"),
                unit_price=Quantity(3.899, "USD/gal"),
            ),
        ),
        (
            "diesel 31.2 gal $121.65",
            Fill(product="diesel", volume=Quantity(31.2, "gal"), cost=Quantity(121.65, "USD")),
        ),
        ("to point five gallons of def", Fill(product="def", volume=Quantity(2.5, "gal"))),
        (
            "diesel thirty one point two gallons at three point eight nine nine",
            Fill(
                product="diesel",
                volume=Quantity(31.2, "gal"),
                unit_price=Quantity(3.899, "USD/gal"),
            ),
        ),
    ],
)
def test_a_fill_as_it_is_typed(text: str, fill: Fill, reads: Reader) -> None:
    assert reads(text) == Facts((fill,))


BRITISH = chat(units="imperial", currency="GBP", time_zone="Europe/London")


@pytest.mark.parametrize(
    "price",
    [
        "148.9p",
        "148.9p/l",
        "148.9 pence a litre",
        "£1.489",
        "148.9 p",
    ],
)
def test_pence_and_pounds_a_litre(price: str, reads: Reader) -> None:
    assert reads(f"52.3 litres diesel at {price}", BRITISH) == Facts(
        (
            Fill(
                product="diesel",
                volume=Quantity(52.3, "L"),
                unit_price=Quantity(1.489, "GBP/L"),
            ),
        )
    )


@pytest.mark.parametrize("between", ["-", "–", " to ", " - "])
@given(low=st.integers(150, 220), span=st.integers(2, 20))
@example(low=190, span=15)
def test_a_range_keeps_both_ends(between: str, low: int, span: int, reads: Reader) -> None:
    """190-205 is 205 at the most, with 190 beside it."""
    high = low + span
    verdict = reads(f"trans temp {low}{between}{high}")
    value = Quantity(high, "degF", low)
    assert verdict == Facts((Observation(subject="transmission", value=value),))


@pytest.mark.parametrize(
    ("text", "context", "unit"),
    [
        ("gross 5,240", chat(), "lb"),
        ("gross 5,240", chat(units="metric"), "kg"),
        ("gross 5,240 lb", chat(units="metric"), "lb"),
        ("gross 5,240 kg", chat(), "kg"),
    ],
)
def test_a_unit_is_what_was_said_else_the_chats(
    text: str, context: Context, unit: str, reads: Reader
) -> None:
    assert reads(text, context) == Facts((Weighing(loads={"gross": Quantity(5_240, unit)}),))


@pytest.mark.parametrize(
    ("said", "gallons"), [("30½", 30.5), ("30 ½", 30.5), ("8¾", 8.75), ("30 1/2", 30.5)]
)
def test_a_fraction_in_one_sign(said: str, gallons: float, reads: Reader) -> None:
    assert volume(reads(f"{said} gal of diesel")) == Quantity(gallons, "gal")


@pytest.mark.parametrize("said", ["10 1/2 gal", "10 gal and a half", "ten and a half gallons"])
def test_a_fraction_is_of_the_chats_own_gallon(said: str, reads: Reader) -> None:
    british = chat(units="imperial", currency="GBP")
    assert volume(reads(f"{said} of diesel", british)) == Quantity(10.5, "gal_imp")


@pytest.mark.parametrize(("units", "unit"), [("us", "degF"), ("metric", "degC")])
def test_a_fraction_is_of_the_chats_own_degree(units: Units, unit: str, reads: Reader) -> None:
    read = reads("41 1/2 degrees outside", chat(units=units))
    assert read == Facts((Observation(subject="ambient", value=Quantity(41.5, unit)),))
