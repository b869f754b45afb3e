"""Words that a dictated number was heard as: 'seventy too point ate litres'.

This file decides when 'to', 'for', 'won' or 'ate' stands in the place of a digit: where the words
around it make a number that lacks just that digit. Everywhere else they are the words they seem.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.numbers import AND, HALF, HUNDRED, POINT, THOUSAND, A
from domain.reading.phrasebook import Phrasebook
from domain.reading.tokens import BREAK, MARK, NO_GROUPS, NO_SENSES, NUMBER, WORD, Token

DIGITS = frozenset(str(digit) for digit in range(100))
TENS = frozenset(str(tens) for tens in range(20, 100, 10))
OPEN = TENS | {"0"}
"""What a digit can follow in one number: 'forty', 'oh'."""

BEHIND_ONE = DIGITS - frozenset("123456789")
"""What makes a number of hundreds with a one before it: 'one ninety', 'one fifteen', 'one oh'."""

SCALES = (HUNDRED, THOUSAND)

LED = frozenset(
    ("axle", "axle_noun", "whole", "odometer", "end", "side", "corner", "subject", "weigh_cue")
) | {"product"}
"""Classes of term that a figure follows right away, when it is dictated."""

MEASURED = frozenset(("unit", "money", "per_volume", "product"))
"""Classes of term that a figure stands before."""

PREPOSITIONS = frozenset(("to", "for"))
"""Groups of the words that can stand between two whole numbers: 'fifty to sixty'."""

LEADING = PREPOSITIONS | {"states"}
"""Groups of the words that no verb stands behind: 'got up to won ninety'."""


def heard_numbers(tokens: Sequence[Token], said: list[int], book: Phrasebook) -> list[int]:
    """Make number words of what was heard for one; `said` are the places of all number words.

    Gives the places with those found.
    """
    sounds, found = book.keys["sounds_like"], set[int]()
    for index in said:
        for at in (index - 1, index + 1):
            if not 0 <= at < len(tokens) or at in found or tokens[at].text not in sounds:
                continue
            again = at - 2 in found or at - 3 in found
            if _lacks_digit(tokens, at, book, again=again):
                heard = tokens[at]
                heard.text, found = sounds[heard.text], found | {at}
                heard.senses, heard.groups = NO_SENSES, NO_GROUPS
    return sorted({*said, *found}) if found else said


def _lacks_digit(tokens: Sequence[Token], at: int, book: Phrasebook, *, again: bool) -> bool:
    """Whether the number around a word lacks a digit in its place.

    `again` says that another digit of it was heard as a word.
    """
    word = tokens[at]
    before = tokens[at - 1] if at else None
    behind = tokens[at + 1] if at + 1 < len(tokens) else None
    key_before, key_behind = _key(before, book), _key(behind, book)
    small = not word.groups.isdisjoint(PREPOSITIONS)
    if key_behind == AND and _is_half(tokens, at + 2, book):
        return True  # 'put in to and a half gallons'
    if key_behind == POINT and _may_be_digit(tokens, at + 2, book):
        # 'forty ate point six', 'to point five gallons' where a clause begins
        return key_before in TENS or _opens(before)
    if key_before == POINT:
        further = tokens[at - 2] if at > 1 else None
        number = further is not None and (
            further.kind is NUMBER or _key(further, book) in DIGITS or _key(further, book) in SCALES
        )
        return number and (_ends(behind) or key_behind in DIGITS)
    if key_behind in SCALES:
        joined = key_before == AND and _key_at(tokens, at - 2, book) == THOUSAND
        if key_before == THOUSAND or joined:
            return key_behind == HUNDRED  # 'six thousand won hundred'
        if key_before in TENS:
            return key_behind == THOUSAND or not small  # 'fifty to hundred' is a range
        if not small and before is not None and "copula" in before.senses.get("glue", ""):
            return True  # 'the gross is ate thousand'
        return before is not None and (
            not LED.isdisjoint(before.senses) or (not word.senses and "vehicle" in before.senses)
        )
    if key_before in SCALES or (key_before == AND and _key_at(tokens, at - 2, book) in SCALES):
        return not word.senses and _ends(behind)  # 'four thousand three hundred and ate'
    if key_before not in OPEN:
        opens = before is not None and (
            not LEADING.isdisjoint(before.groups) or _is_led(tokens, at - 1)
        )
        if opens and not word.senses:
            return key_behind in BEHIND_ONE  # 'trans is won ninety'
        return not small and key_before in DIGITS and key_behind in DIGITS  # 'fifty three too oh'
    if behind is not None and ("unit" in behind.senses or _is_spelled_unit(tokens, at + 1, book)):
        return "unit_or_word" not in behind.groups  # 'sixty too miles an hour'
    if small:
        return False
    if key_behind in DIGITS or (_sounds(behind, book) and _key_at(tokens, at + 2, book) in DIGITS):
        return True  # 'fifty won forty', 'forty ate too sixty'
    ahead = _key_at(tokens, at - 2, book)
    ahead = _key_at(tokens, at - 3, book) if ahead == AND else ahead
    more = ahead in DIGITS or ahead in SCALES
    if key_before in TENS and _is_led(tokens, at - 2):
        # 'left rear seventy ate right rear eighty'
        return _ends(behind) or _goes_on(tokens, at + 1)
    return more and (again or not word.senses) and _ends(behind)


def _is_spelled_unit(tokens: Sequence[Token], start: int, book: Phrasebook) -> bool:
    """'seventy won p s i': a unit that is dictated letter by letter."""
    letters = " ".join([token.text for token in tokens[start : start + LETTERS]])
    return "unit" in book.words.get(letters, NO_SENSES)


LETTERS = 3
"""Of 'p s i', 'm p h', 'k p a'."""


def _is_led(tokens: Sequence[Token], index: int) -> bool:
    """Whether what is measured stands here, or it and copulas: 'left rear', 'left rear is'."""
    while index > 0 and "copula" in tokens[index].senses.get("glue", "").split():
        index -= 1  # 'trans temp hit'
    return index >= 0 and not LED.isdisjoint(tokens[index].senses)


def _goes_on(tokens: Sequence[Token], index: int) -> bool:
    """'and the right rear': whether another of what is measured is told of next."""
    if index >= len(tokens) or "and" not in tokens[index].groups:
        return False
    index += 1 + any("article" in token.groups for token in tokens[index + 1 : index + 2])
    return index < len(tokens) and not LED.isdisjoint(tokens[index].senses)


def _is_half(tokens: Sequence[Token], index: int, book: Phrasebook) -> bool:
    """'a half gallons': what is told of a number and a unit."""
    half = _key_at(tokens, index, book) == A and _key_at(tokens, index + 1, book) == HALF
    return half and index + 2 < len(tokens) and "unit" in tokens[index + 2].senses


def _key(token: Token | None, book: Phrasebook) -> str | None:
    return book.numbers.get(token.text) if token is not None and token.kind is WORD else None


def _key_at(tokens: Sequence[Token], index: int, book: Phrasebook) -> str | None:
    return _key(tokens[index], book) if 0 <= index < len(tokens) else None


def _may_be_digit(tokens: Sequence[Token], index: int, book: Phrasebook) -> bool:
    heard = index < len(tokens) and _sounds(tokens[index], book)
    return heard or _key_at(tokens, index, book) in DIGITS


def _sounds(token: Token | None, book: Phrasebook) -> bool:
    return token is not None and token.text in book.keys["sounds_like"]


def _opens(before: Token | None) -> bool:
    """Whether a number can begin behind a token: a mark, or what is measured."""
    return before is None or before.kind in (MARK, BREAK) or not LED.isdisjoint(before.senses)


def _ends(behind: Token | None) -> bool:
    """Whether a number can end before a token: at a mark, or at what it is of."""
    if behind is None or behind.kind in (MARK, BREAK):
        return True
    return not MEASURED.isdisjoint(behind.senses) or not LED.isdisjoint(behind.senses)
