"""A message taken apart into tokens.

This file decides where a word, a number, a clock time or a telephone number begins and ends,
and which phrase of the phrasebook stands there. It does not decide what a number is of; it
only says how it was written (grouped, with decimals, spoken), which later speaks for or
against a meaning.
"""

from __future__ import annotations

import re
import unicodedata

from domain.reading.phrasebook import APOSTROPHES, VOWELS, Phrasebook, Senses, fold
from domain.reading.spoken import compose_spoken
from domain.reading.tokens import (
    BREAK,
    MARK,
    NO_GROUPS,
    NO_SENSES,
    NUMBER,
    PHONE,
    TIME,
    WORD,
    Token,
)

MAX_READ = 4_096
"""Characters: the longest message that a network carries; of a longer one the rest is not read."""


_PATTERN = re.compile(
    r"""
    [^\S\n]*+(?:
      (?P<times>(?<=\d)[x×](?=\d)|(?<=\d\ )[x×](?=\ ?\d))
    | (?P<word>[^\W\d_]+(?:['’`\u00b4][^\W\d_]+)*(?:\d+(?![\d]*[.,]\d))?)
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
    | (?P<mark>\.(?:\ ?\.)+|[^\s])
    )
    """,
    re.VERBOSE | re.IGNORECASE,
)


_INVISIBLE = re.compile("[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufe0f\ufeff]")


_LETTERS_DIGITS = re.compile(r"([^\W\d_]+)(\d+)$")


MARKS_BETWEEN_LETTERS = "-\u2010\u2011\u2013"


def clean(text: str) -> str:
    """A message without what can't be seen, in one form of Unicode."""
    if text.isascii():
        return text[:MAX_READ]
    return _INVISIBLE.sub("", unicodedata.normalize("NFKC", text[:MAX_READ]))[:MAX_READ]


def tokenize(text: str, book: Phrasebook, names: Senses | None = None) -> list[Token]:
    """The tokens of a cleaned message; `names` are the chat's own (truck, trailers), folded."""
    tokens = compose_spoken(_lex(text, book), book)
    return _find_phrases(tokens, book, names or NO_SENSES)


def _lex(text: str, book: Phrasebook) -> list[Token]:
    tokens: list[Token] = []
    append = tokens.append
    folded = text.casefold()
    marks = book.marks if len(folded) == len(text) else None
    match_mark = marks.match if marks is not None else _NOTHING.match
    # Where the last mark of the phrasebook ended: what the pattern finds inside it is passed over.
    ended = 0
    # White space at the end holds no token, and the pattern would try it from each place.
    for match in _PATTERN.finditer(text.rstrip()):
        kind = match.lastgroup
        if kind is None:
            continue
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
        if not plain and len(raw) > 2 and raw[-2] in APOSTROPHES and raw[-1] in "sS":
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
    """The value of a number as typed; a lone dot before three digits may be a group."""
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
                name = next((names[word] for word in token.text.split() if word in names), None)
            if name is not None:
                token.senses = {**token.senses, "name": name}
        token.groups = memberships.get(token.text, NO_GROUPS)
        append(token)
        index += width
    return result
