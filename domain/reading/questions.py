"""Questions that Drawbar can answer.

This file decides whether a message asks the logbook something. A question needs a form (a
question word, a question mark, 'show me', or a bare topic such as 'week') and words of the
trade; what one person asks another ('how much does the dog weigh', 'how was your week') has the
form without the trade, and is talk. Which topic it asks for, and what it names, are decided in
`topics` and `particulars`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise

from domain.reading.asked import Asked
from domain.reading.figures import DISTANCE, LAST_DAY, MASS, Figure, mean_kilometres
from domain.reading.help_topics import asks_help, asks_how_it_works, may_ask_help
from domain.reading.of_a_body import STEPS
from domain.reading.particulars import question_of
from domain.reading.phrasebook import ASKING_CLASS, TOPIC_CLASS, find_overlapping
from domain.reading.plain_questions import YEARS, may_be_plain, plain_topic
from domain.reading.put_to_others import OF_PEOPLE, is_put_to_others
from domain.reading.question_forms import asking_forms
from domain.reading.scene import Scene
from domain.reading.short_questions import asks_if_enough, read_short, with_fields
from domain.reading.spots import find_spots
from domain.reading.things import noun_from
from domain.reading.times import written_dates
from domain.reading.tokens import MARK, NO_GROUPS, TIME
from domain.reading.topics import topic_of
from domain.reading.whose_part import OWNS
from domain.verdicts import Question

LONGEST_ORDER, LONGEST_BARE = 14, 3
"""Words of an order, and of a bare topic."""

OF_THE_ROAD = frozenset(("plan", "range", "distance"))
"""Topics in which a k is for kilometres, where roads are measured so."""

LOADED = ("axle", "axle_noun", "whole")
"""Classes of term for what weighs something."""

AXLES = frozenset(("surely_axle", "axle_alone"))
"""Groups of words that name an axle and nothing else."""


def read_question(scene: Scene) -> Question | None:
    """The question that a message asks, or None."""
    book = scene.book
    words = scene.words()
    if not words:
        return None
    marked = "?" in scene.text
    stated = not marked and any(map(_is_stated, scene.figures))
    if stated and book.asking_or_ordering.isdisjoint(words):
        return None  # most of what people text tells something
    first = book.memberships.get(words[0], NO_GROUPS)
    moving = "orders_move" in first
    formed = marked or moving or "opens_order" in first
    asks = book.asking_of_figures if stated else book.asking_unmarked
    may_ask = formed or _may_ask(words, asks, book.asking_led)
    if stated and not may_ask:
        return None
    short = read_short(scene, words)
    if short is None and not may_ask:
        return None
    if "asks_people" in first:
        return None  # 'shall we weigh the van on Friday'
    if "counts_steps" in scene.groups and STEPS in [figure.claimed for figure in scene.figures]:
        return None  # 'my step counter says 11,140, do I get a gross weight'
    if words[0] == "*" and words[-1] != "*":
        return None  # '*week' mends what was texted to people
    people = not OF_PEOPLE.isdisjoint(scene.groups) or not OWNS.isdisjoint(scene.text)
    if people and is_put_to_others(scene):
        return None
    ordered = _may_be_order(scene, words)
    plain = may_be_plain(scene, words)
    if short is None and marked and asks_if_enough(scene):
        short = {"topic": "tiedown"}
    known = formed or ordered or plain or short is not None
    if not known and book.asking.isdisjoint(words):
        return None
    topics = _topics(scene, words)
    if not (topics or moving or plain or short is not None or _may_mean_topic(scene, words)):
        return None
    if scene.context.units == "metric" and not OF_THE_ROAD.isdisjoint(topics):
        for figure in scene.figures:
            if figure.claimed is None:
                mean_kilometres(figure)
    if short is not None:
        asked = Asked(scene, words, topics, ())
        return with_fields(question_of(scene, short["topic"], asked), short, scene)
    asking = asking_forms(scene, words, marked=marked)
    wanted = not (known or asking)
    if wanted and book.groups["asks_aside"].isdisjoint(words):
        return None
    helps = bool(asking) and may_ask_help(scene, words)
    if asking and _heard_weigh(scene, words):
        topics.setdefault("weight", set()).update(book.groups["heard_for_weigh"])
    if scene.figures and (marked or asking) and any(f.dimension == MASS for f in scene.figures):
        supposed = book.groups["supposes_load"].intersection(words)
        if supposed:  # 'if I sling another 150 kg in, what happens'
            topics.setdefault("whatif", set()).update(supposed)
    if not (topics or moving or plain or helps):
        return None
    asked = Asked(scene, words, topics, asking)
    if wanted and not asked.certainty:
        return None
    if moving and asked.mass is not None and _orders_move(scene, asked.mass):
        return question_of(scene, "whatif", asked)
    bare = None if book.topic_heads.isdisjoint(words) else _bare_topic(scene)
    if bare is not None:
        return question_of(scene, bare, asked)
    if helps and asks_how_it_works(scene, asked):
        return question_of(scene, "help", asked)
    helped = asked.phrased("help", "surely_help") and asks_help(scene, asked)
    topic = "help" if helped else plain_topic(scene, asked) if plain else None
    topic = topic or _topic_by_form(scene, words, asked, marked=marked)
    return question_of(scene, topic, asked) if topic else None


def only_tells(scene: Scene) -> bool:
    """Whether a figure is stated, and no word or mark asks anything."""
    return (
        "?" not in scene.text
        and scene.book.asking_somehow.isdisjoint(scene.words())
        and any(map(_is_stated, scene.figures))
    )


def _may_ask(words: Sequence[str], asks: frozenset[str], led: Mapping[str, frozenset[str]]) -> bool:
    """Whether a word that asks stands in a message, or one that does with the word behind it."""
    if not asks.isdisjoint(words):
        return True
    if led.keys().isdisjoint(words):
        return False
    return any(word in led and behind in led[word] for word, behind in pairwise(words))


def _topics(scene: Scene, words: Sequence[str]) -> dict[str, set[str]]:
    """The topics that a message has phrases of, each with those phrases."""
    topics: dict[str, set[str]] = {}
    for start, end, keys in find_overlapping(words, scene.book.overlapping[TOPIC_CLASS]):
        for key in keys.split():
            topics.setdefault(key, set()).add(" ".join(words[start:end]))
    for term in LOADED:
        if term in scene.by_class:
            for _, token, key in scene.find(term):
                if not token.groups.isdisjoint(AXLES):
                    topics.setdefault("weight", set()).add(token.text)
                elif term == "whole" and "tongue" in key.split():
                    topics.setdefault("tongue", set()).add(token.text)
    if TIME in scene.kinds and len(written_dates(scene)) == BOTH_ENDS:
        topics.setdefault("period", set()).add("")  # '2026-05-01 to 2026-05-31'
    return topics


BOTH_ENDS = 2
"""Dates written out that are a span."""


def _may_mean_topic(scene: Scene, words: Sequence[str]) -> bool:
    """Whether a message has words that make a topic where they are asked, and are none alone."""
    groups = scene.book.groups
    heard = not (
        groups["heard_for_weigh"].isdisjoint(words) and groups["supposes_load"].isdisjoint(words)
    )
    return heard or may_ask_help(scene, words)


def _may_be_order(scene: Scene, words: Sequence[str]) -> bool:
    """Whether a message is short, and has a word of an order, and states no figure."""
    for figure in scene.figures:
        if _is_stated(figure):
            return False
    return len(words) <= LONGEST_ORDER and not scene.book.groups["order_word"].isdisjoint(words)


def _is_stated(figure: Figure) -> bool:
    """Whether a figure is more than a day, a year or a way to go: an order has no other."""
    if figure.claimed is not None or figure.dimension == DISTANCE:
        return False
    return figure.value > LAST_DAY and not (figure.unit is None and figure.value in YEARS)


def _topic_by_form(scene: Scene, words: Sequence[str], asked: Asked, *, marked: bool) -> str | None:
    """The topic of a message that has the form of a question."""
    if not asked.topics or not (marked or asked.form):
        return None
    supposing = not marked and words[0] in scene.book.groups["if"]
    if supposing and not find_overlapping(words, scene.book.overlapping[ASKING_CLASS]):
        return None  # 'if the scale's open we'll weigh'
    return topic_of(scene, asked)


def _heard_weigh(scene: Scene, words: Sequence[str]) -> bool:
    """'how much does she way': the verb of a question, heard as another word."""
    groups = scene.book.groups
    if groups["heard_for_weigh"].isdisjoint(words) or groups["does"].isdisjoint(words):
        return False
    owners = scene.owners()
    for at, word in enumerate(words[2:], start=2):
        if word in groups["heard_for_weigh"] and not groups["does"].isdisjoint(words[:at]):
            subject = scene.tokens[owners[at - 1]]
            return "pronoun" in subject.groups or not SUBJECTS.isdisjoint(subject.senses)
    return False


SUBJECTS = frozenset(("name", "vehicle", "axle", "axle_noun", "rig"))
"""Classes of term for what weighs something."""


def _orders_move(scene: Scene, mass: Figure) -> bool:
    """'add 600 lb four feet ahead of the trailer axle': a weight and a place, and no thing."""
    behind = mass.end
    if behind < len(scene.tokens) and "of" in scene.tokens[behind].groups:
        behind += 1
    named = noun_from(scene, behind)
    return mass.dimension == MASS and named is None and bool(find_spots(scene))


def _bare_topic(scene: Scene) -> str | None:
    """The topic that a message of one phrase asks for."""
    words: list[str] = []
    for token in scene.tokens:
        if token.kind is not MARK and token.senses.get("glue") != "filler":
            if len(words) == LONGEST_BARE:
                return None
            words.append(token.text)
    return scene.book.keys["bare_topic"].get(" ".join(words))
