"""Numbers as people say and type them.

num2words, an independent library, spells the parts; this file decides how people put parts
together when they read out a scale, an odometer or a pump. Each style is a function from a
number to its words; it may only be used for the numbers that people say so.
"""

from __future__ import annotations

from collections.abc import Callable

from num2words import num2words

Spelling = Callable[[str], str]

DIGITS = ("oh", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine")


def plain(words: str) -> str:
    """Words without hyphens, as most dictation writes them."""
    return words.replace("-", " ")


def full(number: int) -> str:
    """19460 is 'nineteen thousand, four hundred and sixty'; the commas are not said."""
    return str(num2words(number)).replace(",", "")


def full_decimal(hundredths: int) -> str:
    """1284 hundredths are 'twelve point eight four'."""
    return str(num2words(hundredths / 100))


def full_without_and(number: int) -> str:
    """'nineteen thousand four hundred sixty', as Americans say it."""
    return full(number).replace(" and ", " ")


def mixed(number: int) -> str:
    """'19 thousand 460', as a keyboard that listens writes it."""
    thousands, rest = divmod(number, 1000)
    return f"{thousands} thousand {rest}" if rest else f"{thousands} thousand"


def digit_by_digit(number: int) -> str:
    """'one nine four six oh'."""
    return " ".join(DIGITS[int(digit)] for digit in str(number))


def hundreds(number: int) -> str:
    """5340 is 'fifty-three hundred and forty'."""
    whole, rest = divmod(number, 100)
    words = f"{num2words(whole)} hundred"
    return f"{words} and {num2words(rest)}" if rest else words


def said_in_hundreds(number: int) -> bool:
    """Whether people count a number in hundreds."""
    return 1100 <= number < 10_000 and number // 100 % 10 != 0


def pairs(number: int) -> str:
    """5140 is 'fifty-one forty', 19460 'nineteen four sixty', 48211 'forty-eight two eleven'."""
    if number < 1000:
        return _three(number)
    if number < 10_000:
        return f"{num2words(number // 100)} {_pair(number % 100)}"
    return f"{num2words(number // 1000)} {_three(number % 1000)}"


def said_in_pairs(number: int) -> bool:
    """Whether pairs leave no doubt: 'forty five sixty' is 4560, and nobody says it for 40,560."""
    if number < 1000:
        return number >= 100
    if number < 10_000:
        return number // 100 % 10 != 0
    return not (number // 1000 % 10 == 0 and number // 1000 >= 20)


def _pair(number: int) -> str:
    if number == 0:
        return "hundred"
    return f"oh {DIGITS[number]}" if number < 10 else str(num2words(number))


def _three(number: int) -> str:
    """Three digits of a bigger number: 'four sixty', 'four oh six', 'four hundred', 'oh forty'."""
    first, rest = divmod(number, 100)
    if first == 0:
        return f"oh {_pair(rest)}" if rest else "thousand"
    return f"{DIGITS[first]} {_pair(rest)}"


def point(whole: int, decimals: str) -> str:
    """12 and '84' is 'twelve point eight four'."""
    return f"{num2words(whole)} point {' '.join(DIGITS[int(digit)] for digit in decimals)}"
