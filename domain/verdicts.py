"""The four things that a message can be.

The outcomes of reading are types: facts to keep, a question to answer, a doubt to ask
about, or talk between people. Code that handles a verdict matches on all four.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from domain.choices import ChoiceLabel
from domain.entries import Entry
from domain.frozen import soon_made
from domain.quantities import Quantity

TOPICS = (
    "weight",
    "margin",
    "tongue",
    "economy",
    "cost",
    "range",
    "distance",
    "trip",
    "week",
    "period",
    "plan",
    "whatif",
    "tiedown",
    "upkeep",
    "ratings",
    "help",
)

SHARING_TOPICS = ("invite", "members", "remove")
"""What is asked about who shares the logbook, rather than about what stands in it."""

LANGUAGE_TOPICS = ("language",)
"""What is asked about the language of the answers; the question's `item` is the one wanted."""

PICTURE, PAGE, CHANGE, OF_TRIP = "picture", "page", "change", "trip"
FAULTS, RULE, LAST_FILL, READING = "faults", "rule", "fill", "reading"
HEAVIEST, AGE, MORE, DONE, JUDGED = "heaviest", "age", "more", "done", "judged"
GAUGE, CARGO, BEST = "gauge", "cargo", "best"
"""Forms in which an answer can be asked for: drawn, as pages to print, as what changed since the
last time, or of a trip; of upkeep the open faults, the tyres' age, what was done or what a gauge
read; of tie-downs the rule; of cost the last fill; of distance the odometer's reading, or how far
since the last fill; of economy the best and the worst tank; of weight the heaviest weighing or what
was loaded; of margin how much more can be loaded, or whether a load that is told is inside. Else it
is told."""


@dataclass(frozen=True, slots=True)
class Facts:
    """The message states these, beyond reasonable doubt, in the order stated."""

    entries: tuple[Entry, ...]


@soon_made
@dataclass(frozen=True, slots=True)
class Question:
    """The message asks Drawbar something, in words or in a `form` of its own.

    `since` and `until` are dates, or places in a plan. `meaning` are the terms of the glossary
    whose meaning is asked for.
    """

    topic: str
    distance: Quantity | None = None
    value: Quantity | float | None = None
    truck: str | None = None
    trailer: str | None = None
    rating: str | None = None
    field: str | None = None
    item: str | None = None
    position: str | None = None
    product: str | None = None
    since: date | str | None = None
    until: date | str | None = None
    form: str | None = None
    meaning: tuple[str, ...] = ()
    text: str = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """One complete reading of a doubtful message, and how to name it in a question back.

    A label that is a text is a name, or was said in the language of the chat.
    """

    label: ChoiceLabel | str
    entries: tuple[Entry, ...]


@dataclass(frozen=True, slots=True)
class Ask:
    """The message is meant for the log, but a figure can't be right or two readings are likely.

    `about` names the kind or field in doubt; `choices` may be empty; `why` is one of the
    reasons in the phrasebook of answers, with the `figures` in doubt.
    """

    about: str
    choices: tuple[Choice, ...] = ()
    why: str = ""
    figures: tuple[Quantity, ...] = ()


@dataclass(frozen=True, slots=True)
class Silent:
    """Talk between people. Nothing is kept."""


Verdict = Facts | Question | Ask | Silent
