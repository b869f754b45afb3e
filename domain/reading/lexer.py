"""A message taken apart into tokens.

This file decides where a word, a number, a clock time or a telephone number begins and ends,
and which phrase of the phrasebook stands there. It does not decide what a number is of; it
only says how it was written (grouped, with decimals, spoken), which later speaks for or
against a meaning.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Sequence
from itertools import compress, count, pairwise
from operator import attrgetter

from domain.reading.names import NO_NAMES, Names, join_halves, join_names
from domain.reading.phrasebook import (
    ALONE,
    APOSTROPHES,
    PHRASES_BY,
    Phrase,
    Phrasebook,
    Phrases,
    fold,
)
from domain.reading.skeletons import VOWELS
from domain.reading.spoken import compose_spoken
from domain.reading.tokens import (
    BREAK,
    MARK,
    NO_GROUPS,
    PHONE,
    SENTENCE_ENDS,
    TIME,
    UNKNOWN,
    WORD,
    Number,
    Token,
    make_number,
    make_token,
)

MAX_READ = 4_096
"""Characters: the longest message that a network carries; of a longer one the rest is not read."""


_PATTERN = re.compile(
    r"""
    [^\S\n]*+(?:
      (?P<times>(?<=\d)[x×](?=\d)|(?<=\d\ )[x×](?=\ ?\d))
    | (?P<word>[^\W\d_]+(?:['’`\u00b4][^\W\d_]+)*(?:\d+(?![\d]*[.,]\d))?)
    | (?P<break>\n\s*)
    | (?=[\d(+.])(?:  # all that begins with a digit, or with a sign before one
      (?P<time>(?:\d{4}-\d\d?-\d\d?|20\d\d/\d\d?/\d\d?|20\d\d\.\d\d\.\d\d)
            (?:[T ]\d\d:\d\d(?::\d\d)?(?:Z|[+-]\d\d:?\d\d)?)?(?!\d)
        | \d\d?[/.-]\d\d?[/.-](?:20)\d\d(?!\d) | (?<![\d/])\d\d?/\d\d?/\d\d(?![\d/])
        | \d\d?:\d\d(?::\d\d)?(?!\d)(?:\ ?[ap](?:\.?m\b\.?|\b))? | \d\d?\ ?[ap]\.?m\b\.?
        | \d\d?\ o'?clock\b | (?<!\d)(?:0\d|1[0-2])/20\d\d(?!\d))
    | (?P<phone>(?<![\w.,])(?:\+\d{1,3}[ -]?(?:\(0\)[ ]?)?\d[\d -]{6,13}\d
        | \(\d{2,5}\)[ ]?\d{3,4}[ -]?\d{3,4} | \d{3}[-.]\d{3}[-.]\d{4} | \d{3}[-]\d{4}
        | 0\d{3,4}[ ]\d{3}[ ]?\d{3,4} | 1[38]00[ ]\d{3}[ ]\d{3})(?![\w]))
    | (?P<fraction>(?<![\d/])\d/(?:2|3|4|8|10)(?![\d/]))
    | (?P<ordinal>\d\d?(?:st|nd|rd|th)\b|5er\b)
    | (?P<number>
          \d{1,3}(?:,\d{3})+(?:\.\d+)?(?![\d])
        | \d{1,3}(?:['’]\d{3})+(?:[.,]\d+)?(?!\d)
        | \d{1,3}(?:\.\d{3}){2,}(?!\d)
        | \d{1,3}\.\d{3},\d\d?(?!\d)
        | (?<![\d,])\d+,\d\d?(?!\d|,\d)
        | \d+(?:\.\d+)? | (?<![\d])\.\d+))
    | (?P<mark>\.(?:\ ?\.)+|[^\s])
    )
    """,
    re.VERBOSE | re.IGNORECASE,
)


_WORD_AT = _PATTERN.groupindex["word"]

_INVISIBLE = re.compile("[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\u2066-\u2069\ufe0f\ufeff]")


_VULGAR = re.compile("(\\d+)[ \u00a0]?([\u00bc-\u00be\u2150-\u215e])")
"""A number and a fraction that is one sign: '30½'."""


_LETTERS_DIGITS = re.compile(r"([^\W\d_]+)(\d+)$")


MARKS_BETWEEN_LETTERS = "-\u2010\u2011\u2013"


def clean(text: str) -> str:
    """A message without what can't be seen, in one form of Unicode."""
    if text.isascii():
        return text[:MAX_READ]
    text = _VULGAR.sub(_with_decimals, text[:MAX_READ])
    text = unicodedata.normalize("NFKC", text).replace(FRACTION_SLASH, "/")
    return _INVISIBLE.sub("", text)[:MAX_READ]


FRACTION_SLASH = "\u2044"


def _with_decimals(match: re.Match[str]) -> str:
    """'30½' is 30.5, and not 301/2."""
    return f"{int(match[1]) + round(unicodedata.numeric(match[2]), 3):.10g}"


def tokenize(text: str, book: Phrasebook, names: Names = NO_NAMES) -> list[Token]:
    """The tokens of a cleaned message; `names` are the chat's own (truck, trailers)."""
    return take_apart(text, book, names)[0]


def take_apart(text: str, book: Phrasebook, names: Names) -> tuple[list[Token], list[str]]:
    """The tokens of a cleaned message and its words, of which a phrase or a number has several."""
    tokens = _lex(text, book)
    words = list(map(TEXT, tokens))
    joined = False
    if names.several or not book.numerals.isdisjoint(words):
        tokens = join_names(compose_spoken(tokens, book), book, names)
        words, joined = list(map(TEXT, tokens)), True
    named = not names.heard.isdisjoint(words)
    if named:
        if not names.halves.keys().isdisjoint(words):
            tokens = join_halves(tokens, book, names)
            words = list(map(TEXT, tokens))
        for token in tokens:
            if token.text in names.forms and token.kind is WORD:
                token.senses = {**token.senses, "name": names.forms[token.text]}
    tokens = _join_phrases(tokens, words, book.phrases, names if named else None)
    return tokens, " ".join(words).split(" ") if joined else words


TEXT = attrgetter("text")


def _lex(text: str, book: Phrasebook) -> list[Token]:
    """The tokens as they are typed: most are known words between spaces, and the rest is parsed.

    So are numbers, and both with a comma or a mark like it behind them.
    """
    tokens: list[Token] = []
    append, plain, openers = tokens.append, book.plain, book.openers
    marks: Marks | None = None
    start = 0
    # White space at the end holds no token, and the pattern would try it from each place.
    parts = text.rstrip().split(" ")
    rest = zip(parts, map(plain.get, parts), strict=True)
    for typed, term in rest:
        end = start + len(typed)
        if term is not None:
            append(make_token(WORD, typed, typed, start, end, term))
            start = end + 1
            continue
        alone, close, done = typed, end, start
        if typed[-1:] in PARTING:
            alone, close = typed[:-1], end - 1
            term = plain.get(alone)
        if term is not None:
            append(make_token(WORD, alone, alone, start, close, term))
            done = end
        elif alone.isalpha():
            if alone.isascii() and alone not in TIMES:
                _append_word(tokens, alone, start, close, book)
                done = end
        elif _NUMBER_ALONE.fullmatch(alone) or (
            alone in DIGITS and text[end + 1 : end + 2] not in OF_TIME
        ):
            append(_number(alone, start, close, book))
            done = end
        elif typed[:1] == "$" and _NUMBER_ALONE.fullmatch(alone, 1) and "$" not in openers:
            append(_named(MARK, "$", "$", start, start + 1, book))
            append(_number(alone[1:], start + 1, close, book))
            tokens[-1].glued = True
            done = end
        if done < end:
            marks = marks or _marks_of(text, book)
            done = _parse(text, start, end, tokens, book, marks)
            while done > end + 1:  # '5 pm', '(555) 123-4567': it goes on in what is typed behind
                end += 1 + len(next(rest)[0])
                if done < end:
                    done = _parse(text, done, end, tokens, book, marks)
        elif close < end:
            append(_mark(typed[-1], close, book))
        start = end + 1
    return tokens


DIGITS = frozenset(map(str, range(100)))
OF_TIME = frozenset("apoAPO")
"""A number of one or two digits is of a time before what begins so: '5 pm', "3 o'clock"."""

TIMES = frozenset("xX")
"""Letters that are a sign between two numbers."""

PARTING = frozenset(",;!?")
"""Marks that are of no word, number or sign before them."""

_NUMBER_ALONE = re.compile(r"(?!0\d|1[38]00)(?:\d{1,3}(?:,\d{3})+|\d+\.\d+|\d{3,})")
"""A number that is no part of a time, a date or a telephone number, whatever stands behind it."""


def _mark(raw: str, start: int, book: Phrasebook) -> Token:
    """A mark typed to what stands before it."""
    token = _named(MARK, raw, raw, start, start + 1, book)
    token.glued, token.ends_sentence = True, raw in SENTENCE_ENDS
    return token


Marks = tuple[str, Callable[[str, int], re.Match[str] | None], frozenset[str]]
"""The text in small letters, what finds a mark of the phrasebook in it, and how one can begin."""


def _marks_of(text: str, book: Phrasebook) -> Marks:
    folded = text.casefold()
    if len(folded) != len(text):  # a place in one is another in the other
        return folded, _NOTHING.match, NO_OPENERS
    return folded, book.marks.match, book.openers


def _parse(
    text: str, start: int, until: int, tokens: list[Token], book: Phrasebook, marks: Marks
) -> int:
    """Add the tokens that begin from one place to another; gives where the last of them ends."""
    append, size = tokens.append, len(text)
    folded, match_mark, openers = marks
    done = start
    before = tokens[-1].end if tokens else -1  # where the last token ended
    while done < until and (match := _PATTERN.match(text, done)) is not None:
        found_at = match.lastindex or 0
        start, end = match.span(found_at)
        if start >= until:
            return done
        done = end
        raw = match[found_at]
        if found_at == _WORD_AT:
            if end < size and text[end] in IN_MARKS and (found := match_mark(folded, start)):
                before = done = _append_mark(tokens, found, text, book)
                continue
            if text.startswith(LINK, end):
                done = end = _end_of_link(text, end)
                append(make_token(WORD, raw.lower(), text[start:end], start, end))
            else:
                _append_word(tokens, raw, start, end, book)
            before = end
            continue
        kind = match.lastgroup
        if kind == "number":
            token: Token = _number(raw, start, end, book)
            token.glued = start == before
        elif kind == "mark" or kind == "times":
            if folded[start] in openers and (found := match_mark(folded, start)):
                before = done = _append_mark(tokens, found, text, book)
                continue
            if raw in MARKS_BETWEEN_LETTERS and _joins_letters(tokens, text, start, end):
                continue
            token = _named(MARK, "x" if kind == "times" else raw, raw, start, end, book)
            token.glued = start == before
            token.ends_sentence = raw in SENTENCE_ENDS
        elif kind == "fraction":
            token = _fraction(raw, start, end, book)
        elif kind == "break":
            token = _named(BREAK, "\n", "\n", start, end, book)
            token.ends_sentence = True
        elif kind == "ordinal":
            token = _named(WORD, raw.lower(), raw, start, end, book)
        else:
            token = _named(TIME if kind == "time" else PHONE, raw, raw, start, end, book)
        append(token)
        before = end
    return done


LINK = "://"
"""What makes an address of the net of the word before it; nothing in it is a figure."""


def _end_of_link(text: str, start: int) -> int:
    """Where white space ends a link."""
    found = _WHITE.search(text, start)
    return found.start() if found else len(text)


_WHITE = re.compile(r"\s")

IN_MARKS = "/$.+"
"""What may stand inside a mark of the phrasebook that begins like a word: 'w/o', 'A$'."""

_NOTHING = re.compile(r"(?!)")
NO_OPENERS: frozenset[str] = frozenset()


def _named(kind: str, text: str, raw: str, start: int, end: int, book: Phrasebook) -> Token:
    """A token with the senses and groups that the phrasebook gives its text."""
    return make_token(kind, text, raw, start, end, book.terms.get(text, UNKNOWN))


def _append_mark(tokens: list[Token], found: re.Match[str], text: str, book: Phrasebook) -> int:
    """A sign or abbreviation of the phrasebook: 'w/o', 'km/h', '#'; gives where it ends."""
    start, end = found.span()
    mark = found.group().rstrip(".")
    mark = book.aliases.get(mark, mark)
    token = _named(WORD, mark, text[start:end], start, end, book)
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
    word = raw.lower()
    term = book.known.get(word)
    if term is None:
        _append_other_word(tokens, raw, start, end, book)
        return
    token = make_token(WORD, word, raw, start, end, term)
    token.glued = bool(tokens) and tokens[-1].end == start
    tokens.append(token)


def _append_other_word(
    tokens: list[Token], raw: str, start: int, end: int, book: Phrasebook
) -> None:
    """A word that the phrasebook does not know as typed: folded, spelled out, or taken apart."""
    plain = raw.isascii() and "'" not in raw
    text = raw.lower() if plain else fold(raw).translate(book.letters)
    text = book.aliases.get(text, text)
    possessive = False
    if text not in book.words and text not in book.heads:
        if text[-1].isdigit():
            parts = _LETTERS_DIGITS.match(text)
            if parts and parts[1] in book.words:
                middle = end - len(parts[2])
                tokens.append(_named(WORD, parts[1], raw[: middle - start], start, middle, book))
                tokens.append(_number(parts[2], middle, end, book))
                return
        if not plain and len(raw) > 2 and raw[-2] in APOSTROPHES and raw[-1] in "sS":
            text, possessive = text[:-1], True
        named = raw[0].isupper() and start > 0 and not raw.isupper()
        if text[-3:] == text[-1] * 3:
            text = _drawn_in(text, book)
        elif VOWELS.isdisjoint(text[1:]):
            text = book.spelled_out(text) or text
        elif text in book.respelled and not named:
            text = book.respelled[text]
        elif text.endswith("in") and f"{text}g" in book.words:
            text = f"{text}g"  # 'rollin'
    token = _named(WORD, text, raw, start, end, book)
    token.glued = bool(tokens) and tokens[-1].end == start
    token.possessive = possessive
    tokens.append(token)


_DRAWN_OUT = re.compile(r"([^\W\d_])\1{2,}")
"""A letter three times or more, as no word of ours has it."""


def _drawn_in(text: str, book: Phrasebook) -> str:
    """'filled upppp', 'fulllll': a word without what only draws it out, where one is known so."""
    for once in (r"\1\1", r"\1"):
        word = _DRAWN_OUT.sub(once, text)
        if word in book.terms:
            return word
    return text


def _number(raw: str, start: int, end: int, book: Phrasebook) -> Number:
    token = make_number(raw, raw, start, end)
    token.groups = book.memberships.get(raw, NO_GROUPS)
    if raw.isdigit():
        token.value = float(raw)
    elif raw[-4:-3] == "," and (digits := raw.replace(",", "")).isdigit():
        token.value, token.grouped = float(digits), True
    else:
        _value(token)
    return token


def _fraction(raw: str, start: int, end: int, book: Phrasebook) -> Number:
    top, _, bottom = raw.partition("/")
    token = make_number(raw, raw, start, end, int(top) / int(bottom), -1)
    token.groups = book.memberships.get(raw, NO_GROUPS)
    return token


def _value(token: Number) -> None:
    """The value of a number as typed; a lone dot before three digits may be a group."""
    raw = token.raw
    whole, _, tail = raw.partition(".")
    if whole.isdigit() and tail.isdigit():
        token.value, token.decimals = float(raw), len(tail)
        return
    if "'" in raw or "’" in raw:
        token.grouped = True
        raw = raw.replace("'", "").replace("’", "").replace(",", ".")
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


def _join_phrases(
    tokens: list[Token], words: Sequence[str], phrases: Phrases, names: Names | None
) -> list[Token]:
    """Make one token of each of the longest phrases; `words` are the texts of the tokens.

    `names` are there if one of them may stand in the message.
    """
    joined: list[Token] = []
    done = 0
    for start in compress(count(), map(phrases.__contains__, pairwise(words))):
        if start < done:
            continue
        behind = phrases[words[start], words[start + 1]]
        end = start + PHRASES_BY
        third = words[end - 1] if end <= len(words) else ALONE
        for phrase in behind.get(third) or behind.get(ALONE, ()):
            said = phrase[0]
            end = start + len(said)
            if len(said) <= PHRASES_BY or said == tuple(words[start:end]):
                joined += tokens[done:start]
                joined.append(_joined(tokens[start], tokens[end - 1], phrase, names))
                done = end
                break
    return joined + tokens[done:] if joined else tokens


def _joined(first: Token, last: Token, phrase: Phrase, names: Names | None) -> Token:
    words, text, term = phrase
    token = make_token(WORD, text, first.raw, first.start, last.end, term)
    token.glued = first.glued
    named = None if names is None else names.within(words, text)
    if named is not None:
        token.senses = {**token.senses, "name": named}
    return token
