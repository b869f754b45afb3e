"""A message as tokens: words with their senses, numbers with their values, marks and breaks.

This file decides where a word, a number, a clock time or a telephone number begins and ends,
and which phrase of the phrasebook stands there. It does not decide what a number is of; it
only says how it was written (grouped, with decimals, spoken), which later speaks for or
against a meaning.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping, Sequence

from domain.reading import numbers
from domain.reading.phrasebook import VOWELS, Phrasebook, Senses, fold

WORD, NUMBER, MARK, BREAK, TIME, PHONE = "word", "number", "mark", "break", "time", "phone"

MAX_READ = 16_384
"""Characters: four times the longest message a network carries; what follows is not read."""

NO_SENSES: Senses = {}
NO_GROUPS: frozenset[str] = frozenset()

_PATTERN = re.compile(
    r"""
    [^\S\n]*(?:
      (?P<times>(?<=\d)[x×](?=\d)|(?<=\d\ )[x×](?=\ ?\d))
    | (?P<word>[^\W\d_]+(?:['’`´][^\W\d_]+)*(?:\d+(?![\d]*[.,]\d))?)
    | (?P<break>\n\s*)
    | (?P<time>\d{4}-\d\d?-\d\d?(?:[T ]\d\d:\d\d(?::\d\d)?(?:Z|[+-]\d\d:?\d\d)?)?(?!\d)
        | \d\d?[/.-]\d\d?[/.-](?:20)\d\d(?!\d) | (?<![\d/])\d\d?/\d\d?/\d\d(?![\d/])
        | \d\d?:\d\d(?::\d\d)?(?!\d)(?:\ ?[ap](?:\.?m\b\.?|\b))? | \d\d?\ ?[ap]\.?m\b\.?
        | \d\d?\ o'?clock\b | (?<!\d)(?:0\d|1[0-2])/20\d\d(?!\d))
    | (?P<phone>(?<![\w.,])(?:\+\d{1,3}[ -]?(?:\(0\)[ ]?)?\d[\d -]{6,13}\d
        | \(\d{2,5}\)[ ]?\d{3,4}[ -]?\d{3,4} | \d{3}[-.]\d{3}[-.]\d{4} | \d{3}[-]\d{4}
        | 0\d{3,4}[ ]\d{3}[ ]?\d{3,4} | 1[38]00[ ]\d{3}[ ]\d{3})(?![\w]))
    | (?P<fraction>(?<![\d/])\d/(?:2|3|4|8|10)(?![\d/]))
    | (?P<ordinal>\d\d?(?:st|nd|rd|th)\b)
    | (?P<number>
          \d{1,3}(?:,\d{3})+(?:\.\d+)?(?![\d])
        | \d{1,3}(?:['’]\d{3})+(?:[.,]\d+)?(?!\d)
        | \d{1,3}(?:\.\d{3}){2,}(?!\d)
        | \d{1,3}\.\d{3},\d\d?(?!\d)
        | (?<![\d,])\d+,\d\d?(?![\d,]|,\d)
        | \d+(?:\.\d+)? | (?<![\d])\.\d+)
    | (?P<mark>\.{2,}|[^\s])
    )
    """,
    re.VERBOSE | re.IGNORECASE,
)
_INVISIBLE = re.compile("[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufe0f\ufeff]")
_LETTERS_DIGITS = re.compile(r"([^\W\d_]+)(\d+)$")
MARKS_BETWEEN_LETTERS = "-‐‑–"


class Token:
    """One unit of a message. `end` is exclusive; `senses` are empty for what no phrase names.

    `groups` are the phrasebook's groups that its text is in.

    Numbers carry `value`, `decimals` (digits behind the point), `raw` as typed, and whether
    they were `spoken`, `grouped` (19,460) or typed to `glued` letters (31gal).
    """

    # Defaults on the class: most tokens are plain words, and are made by the dozen a message.
    senses: Senses = NO_SENSES
    groups: frozenset[str] = NO_GROUPS
    value: float = 0.0
    decimals: int = 0
    spoken: bool = False
    grouped: bool = False
    scaled: bool = False
    glued: bool = False
    possessive: bool = False

    def __init__(self, kind: str, text: str, raw: str, start: int, end: int) -> None:
        self.kind = kind
        self.text = text
        self.raw = raw
        self.start = start
        self.end = end

    def __repr__(self) -> str:
        """For explaining a reading."""
        return f"{self.kind} {self.raw!r}"


def clean(text: str) -> str:
    """A message without what can't be seen, in one form of Unicode."""
    if text.isascii():
        return text[:MAX_READ]
    return _INVISIBLE.sub("", unicodedata.normalize("NFKC", text[:MAX_READ]))[:MAX_READ]


def tokenize(text: str, book: Phrasebook, names: Senses | None = None) -> list[Token]:
    """The tokens of a cleaned message; `names` are the chat's own (truck, trailers), folded."""
    tokens = _compose_spoken(_lex(text, book), book)
    return _find_phrases(tokens, book, names or NO_SENSES)


def _lex(text: str, book: Phrasebook) -> list[Token]:
    tokens: list[Token] = []
    append = tokens.append
    folded = text.casefold()
    marks = book.marks if len(folded) == len(text) else None
    match_mark = marks.match if marks is not None else _NOTHING.match
    ended = 0
    """Where the last mark of the phrasebook ended: what the pattern finds inside it is passed over."""
    for match in _PATTERN.finditer(text):
        kind = match.lastgroup
        assert kind is not None  # every alternative of the pattern has a name
        position, end = match.span(kind)
        if position < ended:
            continue
        raw = match[kind]
        if kind == "word":
            following = text[end : end + 1]
            if following in "/$.+" and following and (found := match_mark(folded, position)):
                ended = _append_mark(tokens, text, found)
                continue
            _append_word(tokens, raw, position, end, book)
        elif kind == "number":
            token = Token(NUMBER, raw, raw, position, end)
            if raw.isdigit():
                token.value = float(raw)
            else:
                _value(token)
            token.glued = bool(tokens) and tokens[-1].end == position
            append(token)
        elif kind == "mark" or kind == "times":
            if found := match_mark(folded, position):
                ended = _append_mark(tokens, text, found)
                continue
            if raw in MARKS_BETWEEN_LETTERS and _joins_letters(tokens, text, position, end):
                continue
            token = Token(MARK, "x" if kind == "times" else raw, raw, position, end)
            token.glued = bool(tokens) and tokens[-1].end == position
            append(token)
        elif kind == "break":
            append(Token(BREAK, "\n", "\n", position, end))
        elif kind == "fraction":
            if found := match_mark(folded, position):
                ended = _append_mark(tokens, text, found)
                continue
            token = Token(NUMBER, raw, raw, position, end)
            top, _, bottom = raw.partition("/")
            token.value, token.decimals = int(top) / int(bottom), -1
            append(token)
        elif kind == "ordinal":
            append(Token(WORD, raw.lower(), raw, position, end))
        else:
            append(Token(TIME if kind == "time" else PHONE, raw, raw, position, end))
    return tokens


_NOTHING = re.compile(r"(?!)")


def _append_mark(tokens: list[Token], text: str, found: re.Match[str]) -> int:
    """A sign or abbreviation of the phrasebook: 'w/o', 'km/h', '#'; gives where it ends."""
    start, end = found.span()
    token = Token(WORD, found.group().rstrip("."), text[start:end], start, end)
    token.glued = bool(tokens) and tokens[-1].end == start
    tokens.append(token)
    return end


def _joins_letters(tokens: list[Token], text: str, start: int, end: int) -> bool:
    """The hyphen of 're-weighed' parts nothing."""
    return (
        bool(tokens)
        and tokens[-1].end == start
        and tokens[-1].kind is WORD
        and end < len(text)
        and text[end].isalpha()
    )


def _append_word(tokens: list[Token], raw: str, start: int, end: int, book: Phrasebook) -> None:
    plain = raw.isascii() and "'" not in raw
    text = raw.lower() if plain else fold(raw)
    text = book.aliases.get(text, text)
    known = text in book.words or text in book.phrases
    possessive = False
    if not known:
        if text[-1].isdigit():
            parts = _LETTERS_DIGITS.match(text)
            if parts and parts[1] in book.words:
                middle = end - len(parts[2])
                tokens.append(Token(WORD, parts[1], raw[: middle - start], start, middle))
                number = Token(NUMBER, parts[2], parts[2], middle, end)
                _value(number)
                tokens.append(number)
                return
        if not plain and len(raw) > 2 and raw[-2] in "'’`´" and raw[-1] in "sS":
            text, possessive = text[:-1], True
        if VOWELS.isdisjoint(text):
            text = book.spelled_out(text) or text
    token = Token(WORD, text, raw, start, end)
    if tokens and tokens[-1].end == start:
        token.glued = True
    if possessive:
        token.possessive = True
    tokens.append(token)


def _value(token: Token) -> None:
    """The value of a number as typed; a lone dot before three digits may be a group, see figures."""
    raw = token.raw
    for mark in "'’":
        raw = raw.replace(mark, "")
    if raw != token.raw:
        token.grouped = True
        raw = raw.replace(",", ".")
    elif "," in raw:
        whole, _, tail = raw.rpartition(",")
        if "." in whole:  # 1.234,5
            raw = whole.replace(".", "") + "." + tail
            token.grouped = True
        elif len(tail.split(".")[0]) == 3:
            raw = raw.replace(",", "")
            token.grouped = True
        else:
            raw = f"{whole}.{tail}"
    elif raw.count(".") > 1:
        raw = raw.replace(".", "")
        token.grouped = True
    token.value = float(raw)
    point = raw.find(".")
    token.decimals = len(raw) - point - 1 if point >= 0 else 0


def _compose_spoken(tokens: list[Token], book: Phrasebook) -> list[Token]:
    """Runs of number words become numbers."""
    keys = book.numbers
    for token in tokens:
        if token.text in keys:
            break
    else:
        return tokens
    composed: list[Token] = []
    index, count = 0, len(tokens)
    while index < count:
        token = tokens[index]
        if not _opens_number(token, tokens, index, book):
            composed.append(token)
            index += 1
            continue
        end = index + 1
        while end < count and _continues_number(tokens[end], tokens[end - 1], keys):
            end += 1
        composed.extend(_spoken_tokens(tokens[index:end], keys))
        index = end
    return composed


def _opens_number(token: Token, tokens: Sequence[Token], index: int, book: Phrasebook) -> bool:
    keys, groups = book.numbers, book.groups
    following = tokens[index + 1] if index + 1 < len(tokens) else None
    if token.kind is WORD:
        if index and token.raw[0].isupper() and _is_named(following, keys):
            return False
        key = keys.get(token.text)
        if key is None or key in (numbers.AND, numbers.HALF, numbers.THOUSAND):
            return False
        if key in (numbers.A, numbers.POINT, numbers.HUNDRED):
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
            return following.text not in groups["k"] or not _is_rate(tokens, index + 2)
        if key in (numbers.HUNDRED, numbers.POINT):
            return token.decimals == 0
        if key == numbers.AND and token.decimals == 0:
            # '30 and a half gallons'
            later = [keys.get(each.text) for each in tokens[index + 1 : index + 4]]
            return later == [numbers.AND, numbers.A, numbers.HALF]
    return False


def _numbered(tokens: Sequence[Token], index: int, book: Phrasebook) -> bool:
    """'one' is a number in 'axle one' and 'one thirty'; in 'the lead one' it is a thing."""
    keys, groups = book.numbers, book.groups
    following = tokens[index + 1]
    if following.kind is WORD and keys.get(following.text, "and") not in (numbers.AND, numbers.A):
        return following.text not in groups["no_numeral_second"]
    before = tokens[index - 1] if index else None
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


_DIGIT_KEYS = tuple(str(digit) for digit in range(100))


def _is_rate(tokens: Sequence[Token], index: int) -> bool:
    """Whether 'k' is the beginning of 'k/h'."""
    return index < len(tokens) and tokens[index].raw == "/" and tokens[index].glued


def _continues_number(token: Token, before: Token, keys: Mapping[str, str]) -> bool:
    if token.kind is WORD:
        return token.text in keys
    return (
        token.kind is NUMBER
        and before.kind is WORD
        and keys.get(before.text) in (numbers.THOUSAND, numbers.POINT)
        and token.decimals == 0
        and token.value < 1000
    )


def _spoken_tokens(run: Sequence[Token], keys: Mapping[str, str]) -> list[Token]:
    atoms: list[numbers.Atom] = []
    for token in run:
        if token.kind is NUMBER:
            atoms.append(float(token.value))
        else:
            key = keys[token.text]
            atoms.append(int(key) if key.isdigit() else key)
    result: list[Token] = []
    position = 0
    for figure in numbers.compose(atoms):
        result.extend(run[position : figure.start])
        first, last = run[figure.start], run[figure.end - 1]
        if figure.words == 1 and first.kind is NUMBER:
            result.append(first)
        else:
            token = Token(NUMBER, "", "", first.start, last.end)
            token.raw = " ".join(each.raw for each in run[figure.start : figure.end])
            token.text = first.text if figure.words == 1 else token.raw
            token.value = float(figure.value)
            token.decimals = figure.decimals
            token.spoken = first.kind is WORD
            token.scaled = any(
                each.kind is WORD and keys[each.text] == numbers.THOUSAND
                for each in run[figure.start : figure.end]
            )
            result.append(token)
        position = figure.end
    result.extend(run[position:])
    return result


def _join_names(tokens: list[Token], book: Phrasebook, names: Senses) -> list[Token]:
    """A name of several words becomes one token, whatever word for the vehicle stands in it."""
    for name, meaning in names.items():
        words = name.split()
        size = len(words)
        if size < 2:
            continue
        index = 0
        while index + size <= len(tokens):
            if all(_same_word(tokens[index + k].text, words[k], book) for k in range(size)):
                first, last = tokens[index], tokens[index + size - 1]
                token = Token(WORD, " ".join(words), first.raw, first.start, last.end)
                token.senses = {"name": meaning}
                token.possessive = last.possessive
                tokens[index : index + size] = [token]
            index += 1
    return tokens


def _same_word(text: str, word: str, book: Phrasebook) -> bool:
    """The same word, its possessive or plural, or another word for the same vehicle."""
    if text == word or text == f"{word}s":
        return True
    one, other = book.words.get(text, NO_SENSES), book.words.get(word, NO_SENSES)
    return one.get("vehicle") == other.get("vehicle") is not None


def _find_phrases(tokens: list[Token], book: Phrasebook, names: Senses) -> list[Token]:
    """Give each word its senses, joining the words of the longest phrase."""
    tokens = _join_names(tokens, book, names)
    result: list[Token] = []
    append = result.append
    known, phrases, memberships = book.words, book.phrases, book.memberships
    index, count = 0, len(tokens)
    while index < count:
        token = tokens[index]
        text = token.text
        if token.senses:
            token.groups = memberships.get(text, NO_GROUPS)
            append(token)
            index += 1
            continue
        width = 1
        seconds = phrases.get(text)
        if seconds is not None and index + 1 < count:
            for words, senses in seconds.get(tokens[index + 1].text, ()):
                size = len(words)
                if size == 2 or (
                    index + size <= count
                    and words == tuple([each.text for each in tokens[index : index + size]])
                ):
                    last = tokens[index + size - 1]
                    joined = Token(WORD, " ".join(words), token.raw, token.start, last.end)
                    joined.glued = token.glued
                    joined.senses = senses
                    token, width = joined, size
                    break
        if width == 1 and token.kind is not NUMBER:
            token.senses = known.get(text, NO_SENSES)
        if names and token.kind is WORD:
            name = names.get(token.text) or names.get(token.text.removesuffix("s"))
            if name is None and width > 1:
                name = next((names[word] for word in words if word in names), None)
            if name is not None:
                token.senses = {**token.senses, "name": name}
        token.groups = memberships.get(token.text, NO_GROUPS)
        append(token)
        index += width
    return result
