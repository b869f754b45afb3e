"""Questions that Drawbar can answer.

This file decides whether a message asks the logbook something. A question needs a form (a
question word, a question mark, 'show me', or a bare topic such as 'week') and words of the
trade; what one person asks another ('how much does the dog weigh', 'how was your week') has the
form without the trade, and is talk. Which topic it asks for, and what it names, are decided in
`topics` and `particulars`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.printed import has_digit
from domain.reading.asked import Asked, Topics
from domain.reading.cargo import find_spots, noun_from
from domain.reading.figures import DISTANCE, MASS, Figure, mean_kilometres
from domain.reading.help_topics import asks_how_it_works, may_ask_help
from domain.reading.particulars import question_of, told_for
from domain.reading.phrasebook import ASKING_CLASS, TOPIC_CLASS, find_overlapping
from domain.reading.plain_questions import may_be_plain, plain_topic
from domain.reading.scene import Scene
from domain.reading.tokens import MARK
from domain.reading.topics import topic_of
from domain.verdicts import Question

LOOK_FOR_FORM = 16
"""Words: a question says so near its beginning, or by its mark."""

LONGEST_ORDER, LONGEST_BARE, LONGEST_RATING_ORDER = 9, 3, 6
"""Words of an order, of a bare topic, and of a rating asked for without a verb."""

OF_THE_ROAD = frozenset(("plan", "range", "distance"))
"""Topics in which a k is for kilometres, where roads are measured so."""

LENGTHS_OF_ROAD = ("mi", "km")

MOST_ORDER_TOKENS = 10
LAST_DAY = 31
"""A short order may hold a date; a bigger figure with a unit is a statement."""


def read_question(scene: Scene) -> Question | None:
    """The question that a message asks, or None."""
    book = scene.book
    words = scene.words()
    marked = "?" in scene.text
    asking = _asking(scene, words, marked=marked)
    if words[0] in book.groups["asks_people"]:
        return None  # 'shall we weigh the van on Friday'
    if words[0] == "*" and words[-1] != "*":
        return None  # '*week' mends what was texted to people
    moving = words[0] in book.groups["orders_move"]
    formed = asking or marked or moving or words[0] in book.groups["opens_order"]
    ordered = len(words) <= LONGEST_ORDER and not book.groups["order_word"].isdisjoint(words)
    plain = may_be_plain(scene, words)
    helps = bool(asking) and may_ask_help(scene, words)
    if not (formed or ordered or plain):
        return None
    topics: dict[str, set[str]] = {}
    for start, end, keys in find_overlapping(words, book.overlapping[TOPIC_CLASS]):
        for key in keys.split():
            topics.setdefault(key, set()).add(" ".join(words[start:end]))
    for _, token, _ in scene.find("axle"):
        if "surely_axle" in token.groups:
            topics.setdefault("weight", set()).add(token.text)
    for _, token, _ in scene.find("whole", "tongue"):
        topics.setdefault("tongue", set()).add(token.text)
    asks = marked or bool(asking)  # 'if I sling another 150 kg in, what happens'
    if asks and words[0] in book.groups["if"] and any(f.dimension == MASS for f in scene.figures):
        topics.setdefault("whatif", set()).add(words[0])
    if not (topics or moving or plain or helps):
        return None
    asked = _look(scene, words, topics, asking)
    if moving and asked.mass is not None and _orders_move(scene, asked.mass):
        return question_of(scene, "whatif", asked)
    bare = _bare_topic(scene)
    if bare is not None:
        return question_of(scene, bare, asked)
    if helps and asks_how_it_works(scene, asked):
        return question_of(scene, "help", asked)
    topic = plain_topic(scene, asked) if plain else None
    topic = topic or _topic_by_form(scene, words, asked, marked=marked)
    return question_of(scene, topic, asked) if topic else None


def _topic_by_form(scene: Scene, words: Sequence[str], asked: Asked, *, marked: bool) -> str | None:
    """The topic of a message that has the form of a question."""
    if not asked.topics or not (asked.form or marked):
        return None
    supposing = not marked and words[0] in scene.book.groups["if"]
    if supposing and not find_overlapping(words, scene.book.overlapping[ASKING_CLASS]):
        return None  # 'if the scale's open we'll weigh'
    return topic_of(scene, asked)


def _asking(scene: Scene, words: Sequence[str], *, marked: bool) -> Sequence[tuple[int, int, str]]:
    """The forms of a question: 'when i looked, ...' and 'what a day' are none."""
    found = find_overlapping(words[:LOOK_FOR_FORM], scene.book.overlapping[ASKING_CLASS])
    return [each for each in found if not _tells(scene, words, each, marked=marked)]


def _tells(scene: Scene, words: Sequence[str], form: tuple[int, int, str], *, marked: bool) -> bool:
    """Whether a question word begins a clause that tells something, or calls something out."""
    start, end, keys = form
    groups = scene.book.groups
    if end >= len(words) or end - start > 1:
        return False
    if words[start] in groups["calls_out"] and words[end] in groups["a_thing"]:
        return scene.tokens[scene.owners()[start]].raw.isalpha()  # and not 'what's a ...'
    clause = keys == "when" and words[end] in groups["pronoun"] and not marked
    return clause and groups["when_due"].isdisjoint(words[end + 1 : end + 3])


def _orders_move(scene: Scene, mass: Figure) -> bool:
    """'add 600 lb four feet ahead of the trailer axle': a weight and a place, and no thing."""
    behind = mass.end
    if behind < len(scene.tokens) and "of" in scene.tokens[behind].groups:
        behind += 1
    named = noun_from(scene, behind)
    return mass.dimension == MASS and named is None and bool(find_spots(scene))


def _bare_topic(scene: Scene) -> str | None:
    """The topic that a message of one phrase asks for."""
    words = [
        token
        for token in scene.tokens
        if token.kind is not MARK and token.senses.get("glue") != "filler"
    ]
    if len(words) > LONGEST_BARE:
        return None
    return scene.book.keys["bare_topic"].get(" ".join(token.text for token in words))


def _look(
    scene: Scene,
    words: Sequence[str],
    topics: Topics,
    asking: Sequence[tuple[int, int, str]],
) -> Asked:
    groups = scene.book.groups
    known = frozenset(words)
    text = f" {' '.join(words)} "
    live = [figure for figure in scene.figures if figure.claimed is None]
    opens = any(_opens(scene, words, start) for start, _, _ in asking)
    if scene.context.units == "metric" and topics.keys() & OF_THE_ROAD:
        for figure in live:
            mean_kilometres(figure)
    masses = [f for f in live if f.dimension == MASS]
    masses = masses or [f for f in live if f.dimension is None and f.value >= 100]
    # '4 straps rated 3,333 lb for 6,600 lb': the rating is not the load.
    masses = [f for f in masses if not _follows_stamp(scene, f)] or masses
    strangers = _strangers(scene, topics)
    return Asked(
        book=scene.book,
        topics=topics,
        forms={key for _, _, keys in asking for key in keys.split()},
        form=opens or _is_order(scene, topics, strangers) or _supposes(scene, words, topics),
        words=known,
        text=text,
        ours=not groups["ours"].isdisjoint(known) or scene.has("vehicle") or scene.has("name"),
        strangers=strangers,
        other=not groups["other_people"].isdisjoint(_without_opinion(scene, words))
        and not any(phrase in text for phrase in groups["asks_drawbar"])
        and not _requested(scene, words),
        distance=_way(scene, live),
        mass=masses[0] if masses else None,
    )


def _without_opinion(scene: Scene, words: Sequence[str]) -> Sequence[str]:
    """'is the nose weight about right you think': who is asked so of the rig is Drawbar."""
    groups = scene.book.groups
    if groups["thinks"].isdisjoint(words) or not _of_trade(scene):
        return words
    return [
        word
        for word, following in zip(words, (*words[1:], ""), strict=True)
        if not (word in groups["addressed"] and following in groups["thinks"])
    ]


def _of_trade(scene: Scene) -> bool:
    """Whether a load or a limit is named by words that mean nothing else."""
    tongue = any("surely_tongue_asked" in token.groups for token in scene.tokens)
    return tongue or scene.has("rating") or scene.has("axle_noun", "axle")


def _requested(scene: Scene, words: Sequence[str]) -> bool:
    """'could you total up June', 'pull up our last weigh, would you': Drawbar is the one asked."""
    groups = scene.book.groups
    for index, word in enumerate(words[1:], start=1):
        if word not in groups["addressed"] or words[index - 1] not in groups["may"]:
            continue
        behind = [each for each in words[index + 1 :] if each not in groups["polite"]]
        if not any(map(str.isalpha, behind)) or behind[0] in groups["drawbar_does"]:
            return groups["other_people"].isdisjoint((*words[:index], *behind))
    return False


def _way(scene: Scene, live: Sequence[Figure]) -> Figure | None:
    """The distance that a question names, also 'ninety more miles'."""
    for figure in live:
        if figure.dimension is None and figure.end + 1 < len(scene.tokens):
            behind = scene.tokens[figure.end + 1].senses.get("unit")
            if "still_more" in scene.tokens[figure.end].groups and behind in LENGTHS_OF_ROAD:
                figure.unit, figure.dimension = behind, DISTANCE
    return next((f for f in live if f.dimension == DISTANCE and not told_for(scene, f)), None)


def _follows_stamp(scene: Scene, figure: Figure) -> bool:
    return figure.start > 0 and "stamped" in scene.tokens[figure.start - 1].groups


def _opens(scene: Scene, words: Sequence[str], start: int) -> bool:
    """Whether nothing but small words stands before the question word, or a clause that asks.

    'been meaning to ask what mpg we get', 'before i answer, how far will the tank take us'.
    """
    groups = scene.book.groups
    before = words[:start]
    if all(word in groups["before_question"] or not word.isalpha() for word in before):
        return True
    if start == 1:
        return words[start] not in groups["auxiliary"]
    if any(map(has_digit, before)):
        return False  # 'filled 31 gal, how far now' states something
    said = f" {' '.join(before)} "
    leads = any(f" {phrase} " in said for phrase in groups["leads_question"])
    return leads or (before[-1] == "," and words[start] in groups["asks_indirectly"])


def _supposes(scene: Scene, words: Sequence[str], topics: Topics) -> bool:
    supposes = scene.book.groups["supposes"]
    ours = len(words) > 1 and words[0] in scene.book.groups["ours"] and words[1] in supposes
    return bool(topics.keys() & {"whatif", "plan"}) and (words[0] in supposes or ours)


def _strangers(scene: Scene, topics: Topics) -> int:
    """Words that neither the phrasebook's terms nor the topics know."""
    told = {word for phrases in topics.values() for phrase in phrases for word in phrase.split()}
    return sum(
        1
        for token in (scene.tokens[index] for index in scene.unknown_words())
        if token.text not in told and "small_word" not in token.groups
    )


def _is_order(scene: Scene, topics: Topics, strangers: int) -> bool:
    """'june summary pls', 'trip totals', 'mpg with the camper': a short order without a verb."""
    if strangers or len(scene.tokens) > MOST_ORDER_TOKENS:
        return False
    quoted = any(f.claimed is not None and f.claimed.startswith("'") for f in scene.figures)
    if quoted or "upkeep" in topics:
        return False  # 'summary of ch 5', 'report due mon'
    live = [figure for figure in scene.figures if figure.claimed is None]
    if any(f.value > LAST_DAY and f.dimension not in (None, DISTANCE) for f in live):
        return False
    groups = scene.book.groups
    if not groups["plain_is"].isdisjoint(scene.words()):
        return False  # 'our mpg is down' tells something
    told = {phrase for phrases in topics.values() for phrase in phrases}
    if told & groups["summary"]:
        return True
    if live or len(scene.tokens) > LONGEST_RATING_ORDER:
        return False
    named = groups["surely_economy"] | groups["rating_order"] | groups["surely_cost"]
    named |= groups["weight_order"] | groups["everyday_economy"]
    return bool(told & named) or ("margin" in topics and scene.has("rating"))
