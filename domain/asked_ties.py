"""What a question about tie-downs means: the cargo, and the tie-downs that it names.

This file decides how the words of a `tiedown` question become an article of cargo and a set
of tie-downs: their number, kind, size and grade, a stated working load limit, and whether
they pass over the load. It works nothing out. Masses are in kilograms, lengths in metres.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from domain.asked_figures import COUNTS, asked_length, count_of
from domain.quantities import MASSES, Quantity
from domain.tiedowns import Article, Kind, Run
from domain.verdicts import Question

MATERIALS: tuple[tuple[str, str], ...] = (
    ("chain", r"chains?|binders?|cadenas?"),
    ("synthetic webbing", r"straps?|ratchets?|webbings?|cinchas?|correas?|cintas?|eslingas?"),
    ("synthetic webbing", r"matracas?"),
    ("wire rope", r"wire ropes?|steel cables?|cables?"),
    ("nylon rope", r"nylon ropes?|(?:cuerda|soga)s? de n(?:ai|[iy])l[oó]n"),
    ("polyester rope", r"polyester ropes?|(?:cuerda|soga)s? de poli[eé]ster"),
    ("manila rope", r"manila ropes?|(?:cuerda|soga)s? de manila"),
    ("polypropylene rope", r"ropes?|lines?|cuerdas?|sogas?|mecates?"),
)
"""What tie-downs are of, as the table names it, in the words of the languages that are read; an
unmarked rope counts as polypropylene (393.108(d))."""

KINDS: tuple[tuple[Kind, str], ...] = (
    ("machinery", r"tractor|skid ?steer|excavator|backhoe|loader|dozer|forklift|roller|machine"),
    ("machinery", r"tractores|minicargadora?|(?:retro)?excavadora|montacargas|m[aá]quina"),
    ("vehicle", r"car|truck|pickup|van|suv|coche|carro|auto|cami[oó]n|camioneta|furgoneta"),
)
"""Cargo that has paragraphs of its own."""

TIES = "|".join(words for _, words in MATERIALS)
INCHES = r"\s*(?:-?\s*(?:in(?:ch)?|pulg(?:adas?)?)\b|\"|'')"
SIZE = re.compile(rf"(?<![\d,.])(\d+[- ]\d/\d|\d/\d{{1,2}}|[1-4])(?={INCHES}|[\s?,.]|$)")
GRADE = re.compile(r"\b(?:grade|grado|gr\.?|g)[\s-]*(30|43|70|80|100)\b", re.I)
TRANSPORT = re.compile(r"\btransport chains?\b|\bcadenas? de transporte\b", re.I)
COUNT = re.compile(
    rf"(?<![\w/.,])(\d{{1,2}}|{'|'.join(COUNTS)})\b"
    r"(?!\s*(?:/|\"|in\b|inch|pulg|ft|feet|pies?|lb|%))"
    rf"(?=(?:\s*x)?(?:\s+[\w/.\"-]+){{0,6}}?\s+(?:{TIES})\b)",
    re.I,
)
WHOLE = r"(\d{1,3}(?:[,.]\d{3})+|\d+)\s*(lbs?|kg)?"
LIMIT = re.compile(
    rf"(?:wll|working load(?: limit)?|rated|carga de trabajo|cmu)\D{{0,12}}?{WHOLE}\b"
    rf"|{WHOLE}\s*(?:de )?(?:wll|working load|carga de trabajo)",
    re.I,
)
OVER = re.compile(
    r"\bover (?:it|the (?:top|load)|them)\b|\bthrown over\b|\bacross the top\b"
    r"|\bpor (?:encima|arriba)\b|\bsobre la carga\b",
    re.I,
)
BLOCKED = re.compile(
    r"\b(?<!not )(?<!n't )(?:blocked|against the (?:headboard|bulkhead|front))"
    r"|(?<!no )(?:\bcontra (?:el frente|la mampara|el tope))",
    re.I,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedTies:
    """The tie-downs that a question names; what it leaves open is None or ''.

    `limit` is a stated working load limit; otherwise material, size and grade look it up.
    """

    count: int | None
    material: str | None
    size: str
    grade: str
    limit: Quantity | None
    run: Run


def asked_article(question: Question) -> Article | None:
    """The cargo; None where its weight was not said."""
    weight = question.value
    if not isinstance(weight, Quantity) or weight.unit not in MASSES:
        return None
    words = f"{question.item or ''} {question.text}"
    kinds = (kind for kind, each in KINDS if re.search(rf"\b(?:{each})s?\b", words, re.I))
    return Article(
        weight=weight.amount("kg"),
        length=asked_length(question),
        kind=next(kinds, "article"),
        blocked=bool(BLOCKED.search(question.text)),
    )


def asked_ties(question: Question) -> AskedTies:
    """The tie-downs named in the words of a question."""
    text = question.text
    grade = GRADE.search(text)
    bare = GRADE.sub(" ", text)
    count = COUNT.search(bare)
    material = next(
        (name for name, words in MATERIALS if re.search(rf"\b(?:{words})\b", text, re.I)), None
    )
    marked = grade.group(1) if grade else ("70" if TRANSPORT.search(text) else "")
    return AskedTies(
        count=count_of(count.group(1)) if count else None,
        material=material,
        size=_size(bare),
        grade=f"grade {marked}" if marked else "",
        limit=_limit(text),
        run="over the load" if OVER.search(text) else "to the load",
    )


def _size(text: str) -> str:
    """A nominal size as the table writes it: 3/8, 1-3/4, or whole inches where they are said."""
    for found in SIZE.finditer(text):
        size = found.group(1).replace(" ", "-")
        inches = re.match(INCHES, text[found.end() :])
        if "/" in size or inches:
            return size
    return ""


def _limit(text: str) -> Quantity | None:
    found = LIMIT.search(text)
    if found is None:
        return None
    figure, unit = (found.group(1), found.group(2)) if found.group(1) else found.groups()[2:]
    return Quantity(float(re.sub(r"[,.]", "", figure)), "kg" if unit == "kg" else "lb")
