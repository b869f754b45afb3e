"""Runs of number words among tokens: 'steer five one forty' holds one number.

This file decides where a dictated number begins and ends; which figure its words make is
decided in `numbers`. 'One' is a number in 'axle one' and a thing in 'the lead one'.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from domain.reading import numbers
from domain.reading.figures import TONS
from domain.reading.homophones import heard_numbers
from domain.reading.phrasebook import ALONE, PHRASES_BY, Phrasebook
from domain.reading.shared_thousands import share_thousands
from domain.reading.sums import summed
from domain.reading.tokens import CENTS, NO_GROUPS, NUMBER, UNKNOWN, WORD, Said, Token, make_number


def compose_spoken(tokens: list[Token], book: Phrasebook) -> list[Token]:
    """Runs of number words become numbers."""
    keys = book.numbers
    said = [index for index, token in enumerate(tokens) if token.text in keys]
    if not said:
        return tokens
    if "sounds_like" in book.keys:
        said = heard_numbers(tokens, said, book)
    alone = {
        *_axle_numbers(tokens, said, book),
        *_counts_of_axles(tokens, said, book),
        *_counts_of_people(tokens, said, book),
    }
    composed: list[Token] = []
    done, scaled = 0, False
    for index in said:
        # A number begins with a word for one, or with a figure before such a word.
        for start in (index - 1, index) if index else (index,):
            if start < done or not _opens_number(tokens[start], tokens, start, book):
                continue
            end = start + 1
            while (
                start not in alone
                and end not in alone
                and end < len(tokens)
                and _continues_number(tokens, start, end, book)
            ):
                end += 1
            composed += tokens[done:start]
            composed += _spoken_tokens(tokens[start:end], book)
            done = end
            scaled = scaled or composed[-1].said.scaled
    if not done:
        return tokens
    composed += tokens[done:]
    if scaled:
        share_thousands(composed)
    return composed


def _axle_numbers(tokens: Sequence[Token], said: Sequence[int], book: Phrasebook) -> list[int]:
    """'axle one fifty two forty axle two sixty eight eighty': numbers of axles, counted up."""
    before = book.groups["before_numeral"]
    found = [index for index in said if index and tokens[index - 1].text in before]
    if len(found) < SEVERAL:
        return []
    named = any(index > 1 and "axle" in tokens[index - 2].senses for index in found)
    if named or len({tokens[index - 1].text for index in found}) > 1:
        return []  # 'drive axle one two eight oh oh ... trailer axles two one oh oh oh'
    keys = [book.numbers[tokens[index].text] for index in found]
    counted = keys == [str(number) for number in range(1, len(keys) + 1)]
    parted = all(
        book.numbers.get(tokens[index + 1].text) not in NO_BEGINNING
        for index in found
        if index + 1 < len(tokens)
    )
    several = any(_is_of_several(tokens, index) for index in found)
    return found if counted and parted and not several else []


SEVERAL = 2
"""Numbers that are counted up."""


def _is_of_several(tokens: Sequence[Token], index: int) -> bool:
    """'trailer axles two one oh oh oh on the gross': of axles that are one, and no number of two.

    'Axles three and four' has one.
    """
    behind = tokens[index + 1 : index + 2]
    joined = bool(behind) and "and" in behind[0].groups
    return tokens[index - 1].text.endswith("s") and not joined


def _counts_of_axles(tokens: Sequence[Token], said: Sequence[int], book: Phrasebook) -> list[int]:
    """'gvwr sixteen thousand two seven thousand pound axles': how many axles bear that each."""
    return [
        index
        for index in said
        if book.numbers[tokens[index].text] in COUNTS
        and tokens[index].kind is WORD
        and not (index and _goes_before_digit(tokens[index - 1], book))
        and _axles_follow(tokens, index + 1, book)
    ]


COUNTS = frozenset(("2", "3", "4"))
"""How many axles of one size a trailer has."""


def _counts_of_people(tokens: Sequence[Token], said: Sequence[int], book: Phrasebook) -> list[int]:
    """'nine thousand nine hundred two of us in the truck': who is aboard, and part of no load."""
    last = len(tokens) - 1
    return [
        index
        for index in said
        if 0 < index < last
        and book.numbers[tokens[index].text] in ABOARD
        and tokens[index + 1].text not in book.numbers
        and tokens[index - 1].text in book.numbers
        and _people_follow(tokens, index + 1, book)
        and not _is_all_of_number(tokens, index, book)
    ]


ABOARD = frozenset(map(str, range(1, 10)))
"""How many ride along, in one word."""


def _is_all_of_number(tokens: Sequence[Token], index: int, book: Phrasebook) -> bool:
    """'forty two': a digit behind tens that begin the number, or behind 'axle' or 'point'."""
    before = tokens[index - 1]
    further = tokens[index - 2].text if index > 1 else ""
    return _goes_before_digit(before, book) and (
        further not in book.numbers or not book.numbers.get(before.text, "").isdigit()
    )


def _people_follow(tokens: Sequence[Token], start: int, book: Phrasebook) -> bool:
    """Whether people stand there: 'kids', 'of us', 'in the truck'."""
    words = [token.text for token in tokens[start : start + PHRASES_BY]]
    if words and "aboard" in book.terms.get(words[0], UNKNOWN)[0]:
        return True
    if len(words) < PHRASES_BY - 1:
        return False
    behind = book.phrases.get((words[0], words[1]), {})
    found = behind.get(words[-1]) or behind.get(ALONE, ())
    return any("aboard" in senses for _, _, (senses, _) in found)


def _goes_before_digit(token: Token, book: Phrasebook) -> bool:
    """'axle two', 'forty two': what the digit behind it is no count of."""
    key = book.numbers.get(token.text, "")
    open_tens = key.isdigit() and int(key) >= TWENTY and int(key) % 10 == 0
    return open_tens or key == numbers.POINT or token.text in book.groups["before_numeral"]


TWENTY = 20


def _axles_follow(tokens: Sequence[Token], start: int, book: Phrasebook) -> bool:
    """Whether the axles stand here, or a round number of pounds and the axles."""
    end = start
    while end < len(tokens) and tokens[end].kind is WORD and tokens[end].text in book.numbers:
        end += 1
    keys = [book.numbers[token.text] for token in tokens[start:end]]
    if keys and (keys[0] in GROUPING or keys[-1] not in (numbers.HUNDRED, numbers.THOUSAND)):
        return False
    if end < len(tokens) and keys and "unit" in tokens[end].senses:
        end += 1
    return end < len(tokens) and "axles" in tokens[end].groups


def _opens_number(token: Token, tokens: Sequence[Token], index: int, book: Phrasebook) -> bool:
    keys, groups = book.numbers, book.groups
    following = tokens[index + 1] if index + 1 < len(tokens) else None
    if token.kind is WORD:
        key = keys.get(token.text)
        if key is None or key == numbers.AND:
            return False
        if key == numbers.HALF:
            return _is_of_tons(tokens, index + 1, (numbers.A,), book)
        if key == numbers.THOUSAND:
            return book.adds_up
        if index and token.raw[0].isupper() and _is_named(following, keys):
            return False
        if key == numbers.HUNDRED:
            behind = [keys.get(each.text) for each in tokens[index + 1 : index + 3]]
            said = behind[1:] if behind[:1] == [numbers.AND] else behind[:1]
            return bool(said) and said[0] in _DIGIT_KEYS
        if key in (numbers.A, numbers.POINT):
            return (
                following is not None
                and following.kind is WORD
                and keys.get(following.text, "a")
                in ((numbers.HUNDRED, numbers.THOUSAND) if key == numbers.A else _DIGIT_KEYS)
                and following.text not in groups["no_numeral_first"]
            )
        if key == "1" and (following is None or not _numbered(tokens, index, book)):
            return False
        return key != "0" or token.text in groups["zero"]
    if token.kind is NUMBER and token.decimals >= 0 and following is not None:
        key = keys.get(following.text) if following.kind is WORD else None
        if key == numbers.THOUSAND:
            if token.value >= THOUSANDS:
                return False  # '20,360 grand total'
            if token.decimals == CENTS and _heads_total(tokens, index + 1):
                return False  # '$11.25 grand total $108.18'
            return following.text not in groups["k"] or not _is_rate(tokens, index + 2)
        if key in (numbers.HUNDRED, numbers.POINT):
            return token.decimals == 0
        if key == numbers.AND and token.decimals == 0:
            # '30 and a half gallons'
            later = [keys.get(each.text) for each in tokens[index + 1 : index + 4]]
            return later == [*AND_A_HALF]
        return key is not None and _half_typed(tokens, index, book)
    return False


def _heads_total(tokens: Sequence[Token], index: int) -> bool:
    """'grand total 108.18': the word for thousands counts none, where an amount is behind it."""
    behind = tokens[index + 1 : index + 3]
    if len(tokens[index].text) == 1 or len(behind) < 2 or "cost_word" not in behind[0].groups:
        return False
    return not behind[1].raw[0].isalpha()


def _is_of_tons(tokens: Sequence[Token], start: int, said: Sequence[str], book: Phrasebook) -> bool:
    """'half a tonne', 'one and a half tonnes': these words, and then a heavy unit of mass."""
    end = start + len(said)
    if end >= len(tokens) or tokens[end].senses.get("unit") not in TONS:
        return False
    return [book.numbers.get(token.text) for token in tokens[start:end]] == [*said]


AND_A_HALF = (numbers.AND, numbers.A, numbers.HALF)


THOUSANDS = 1_000
"""Of as many as this no thousands are said."""


def _half_typed(tokens: Sequence[Token], index: int, book: Phrasebook) -> bool:
    """'trailer 98 fifty': the first pair of a load in digits, and the second in a word.

    Only behind what is weighed, and where nothing counts the second: '98 fifty miles on'.
    """
    token, key = tokens[index], book.numbers.get(tokens[index + 1].text, "")
    pairs = (
        len(token.raw) == PAIR
        and key.isdigit()
        and len(key) == PAIR
        and token.value >= PAST_ANY_HOUR
    )
    if not pairs or not index or WEIGHED.isdisjoint(tokens[index - 1].senses):
        return False
    behind = tokens[index + 2 : index + 3]
    if not behind or behind[0].kind is not WORD:
        return True
    return not BEHIND_LOAD.isdisjoint(behind[0].senses)


PAIR = 2
"""Digits."""

PAST_ANY_HOUR = 25
"""'12 forty' is a time of day."""

WEIGHED = frozenset(("axle", "vehicle", "whole"))
"""Classes of term for what has a load."""

BEHIND_LOAD = WEIGHED | {"glue"}


def _numbered(tokens: Sequence[Token], index: int, book: Phrasebook) -> bool:
    """'one' is a number in 'axle one' and 'one thirty'; in 'the lead one' it is a thing."""
    keys, groups = book.numbers, book.groups
    following = tokens[index + 1]
    later = [keys.get(each.text) for each in tokens[index + 1 : index + 4]]
    if later == [numbers.AND, numbers.A, numbers.HALF]:
        return True  # 'one and a half gallons'
    if index and "ordinal" in tokens[index - 1].senses:
        return False  # 'second one thirty three ten'
    if following.kind is WORD and keys.get(following.text, "and") not in (numbers.AND, numbers.A):
        return following.text not in groups["no_numeral_second"]
    if "and" in following.groups and _is_of_tons(tokens, index + 1, AND_A_HALF, book):
        return True
    before = tokens[index - 1] if index else None
    if "money" in following.senses or "sterling" in following.groups:
        coins = tokens[index + 2 : index + 3]  # 'one pound forty six a litre'
        return bool(coins) and keys.get(coins[0].text) in _DIGIT_KEYS
    return before is not None and before.text in groups["before_numeral"]


def _is_named(following: Token | None, keys: Mapping[str, str]) -> bool:
    """'Two Elders' is a place."""
    return (
        following is not None
        and following.kind is WORD
        and following.raw[:1].isupper()
        and not following.raw.isupper()
        and following.text not in keys
    )


GROUPING = frozenset((numbers.HUNDRED, numbers.THOUSAND, numbers.POINT, numbers.HALF))
"""Words that say how many digits follow."""

NO_BEGINNING = frozenset((*GROUPING, "0"))
"""What stands inside a number, and begins none: 'drive axle one oh eight oh oh'."""

_DIGIT_KEYS = tuple(str(digit) for digit in range(100))


def _is_rate(tokens: Sequence[Token], index: int) -> bool:
    """Whether 'k' is the beginning of 'k/h', and not of '12k/1.2k'."""
    if index >= len(tokens) or tokens[index].raw != "/" or not tokens[index].glued:
        return False
    return index + 1 == len(tokens) or tokens[index + 1].kind is not NUMBER


def _continues_number(tokens: Sequence[Token], start: int, index: int, book: Phrasebook) -> bool:
    token, keys, short = tokens[index], book.numbers, book.groups["k"]
    if token.kind is WORD:
        counts = index + 1 < len(tokens) and tokens[index + 1].kind is NUMBER
        if counts and tokens[index - 1].text in short:
            return False  # 'gvwr 14k two 7k axles'
        if token.text in short and any(
            keys.get(each.text) == numbers.THOUSAND for each in tokens[start:index]
        ):
            return False  # 'fifty-one thousand two hundred k': kilometres; '... grand total'
        return token.text in keys
    if token.kind is not NUMBER or token.decimals != 0:
        return False
    said = [keys.get(each.text) for each in tokens[max(0, index - 2) : index] if each.kind is WORD]
    if said[-1:] in ([numbers.THOUSAND], [numbers.POINT]):
        return token.value < 1000 and tokens[index - 1].text not in short  # '9.1k 2 of us'
    # '48 thousand 3 hundred and 62'
    hundreds = said[-1:] == [numbers.HUNDRED] or said == [numbers.HUNDRED, numbers.AND]
    return hundreds and token.value < 100


def _composed(atoms: Sequence[numbers.Atom], book: Phrasebook) -> list[numbers.Spoken]:
    """The figures in a run of atoms; where words add up, those that do are put together first."""
    if not book.adds_up:
        return numbers.compose(atoms)
    parts = summed(atoms)
    return [
        replace(
            figure,
            start=(start := parts[figure.start][1]),
            end=(end := parts[figure.end - 1][2]),
            words=end - start,
        )
        for figure in numbers.compose([atom for atom, _, _ in parts])
    ]


def _said(
    figure: numbers.Spoken, run: Sequence[Token], atoms: Sequence[numbers.Atom], book: Phrasebook
) -> Said:
    """How the words of a run that make a figure put it."""
    words = [
        book.numbers[each.text] for each in run[figure.start : figure.end] if each.kind is WORD
    ]
    spoken = run[figure.start].kind is WORD
    ambiguous = spoken and not book.adds_up
    return Said(
        spoken=spoken,
        in_digits=figure.words > 1 and figure.decimals == 0 and GROUPING.isdisjoint(words),
        others=numbers.other_meanings(atoms[figure.start : figure.end]) if ambiguous else (),
        scaled=numbers.THOUSAND in words,
    )


def _spoken_tokens(run: Sequence[Token], book: Phrasebook) -> list[Token]:
    keys = book.numbers
    atoms: list[numbers.Atom] = []
    for at, token in enumerate(run):
        if token.kind is NUMBER:
            behind = keys.get(run[at + 1].text, "") if at + 1 < len(run) else ""
            half = at == 0 and behind.isdigit()  # 'trailer 98 fifty'
            atoms.append(int(token.value) if half else float(token.value))
        else:
            key = keys[token.text]
            atoms.append(int(key) if key.isdigit() else key)
    result: list[Token] = []
    position = 0
    for figure in _composed(atoms, book):
        result.extend(run[position : figure.start])
        first, last = run[figure.start], run[figure.end - 1]
        if figure.words == 1 and first.kind is NUMBER:
            result.append(first)
        else:
            raw = " ".join(each.raw for each in run[figure.start : figure.end])
            text = first.text if figure.words == 1 else raw
            value = float(figure.value)
            token = make_number(text, raw, first.start, last.end, value, figure.decimals)
            token.groups = book.memberships.get(text, NO_GROUPS)
            token.said = _said(figure, run, atoms, book)
            result.append(token)
        position = figure.end
    result.extend(run[position:])
    return result
