"""The form of a question: by which words, and where in a message, something is asked.

This file decides whether a message asks, orders or supposes, by its grammar alone; whether what it
asks for is a matter of the log is decided in `questions`.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from domain.printed import has_digit
from domain.reading.figures import DISTANCE, LAST_DAY
from domain.reading.phrasebook import ASKING_CLASS, find_overlapping
from domain.reading.scene import Scene
from domain.reading.tokens import NUMBER

if TYPE_CHECKING:
    from domain.reading.asked import Topics

LOOK_FOR_FORM = 16
"""Words: a question says so near its beginning, or by its mark."""

LONGEST_RATING_ORDER, MOST_ORDER_TOKENS = 6, 14
"""Tokens of a rating asked for without a verb, and of an order."""

WANTS, NEEDS = "wants", "needs"
LOADS = frozenset(("weight", "margin", "tongue", "ratings"))
"""Forms in which people are asked for things, too, and the topics in which they are questions.

What is needed may be of the road, where fuel or a summary is named.
"""

Form = tuple[int, int, str]
"""The words that make a form, from one to another (exclusive), and what they ask."""


def asking_forms(scene: Scene, words: Sequence[str], *, marked: bool) -> Sequence[Form]:
    """The forms of a question: 'when i looked, ...' and 'what a day' are none."""
    found = find_overlapping(words[:LOOK_FOR_FORM], scene.book.overlapping[ASKING_CLASS])
    asking = [each for each in found if not _tells(scene, words, each, marked=marked)]
    groups = scene.book.groups
    if not (groups["addressed"].isdisjoint(words) or groups["may"].isdisjoint(words)):
        for may_do, form in (("drawbar_does", "show"), ("may_be_asked_to", WANTS)):
            verb = requested(scene, words, (may_do,))
            if verb is not None:
                asking.append((verb - 2, verb, form))
    first = _first(scene, words)
    inverted = words[first] in groups["may"] or words[first] in groups["does"]
    if inverted and _inverts(scene, first + 1):
        asking.append((first, first + 1, "are_we"))
    return asking


def _first(scene: Scene, words: Sequence[str]) -> int:
    """Where a message begins, behind 'hey', 'so' and their like."""
    leads = scene.book.groups["before_question"]
    if words[0] not in leads:
        return 0
    return next((at for at, word in enumerate(words) if word not in leads), 0)


def _inverts(scene: Scene, behind: int) -> bool:
    """Whether a subject stands behind a verb: 'could Juniper ...', 'would another 250 lb ...'."""
    owners = scene.owners()
    if behind >= len(owners):
        return False
    token = scene.tokens[owners[behind]]
    return (
        token.kind == NUMBER
        or not token.groups.isdisjoint(("article", "another", "supposed_move"))
        or not token.senses.keys().isdisjoint(("name", "vehicle", "axle"))
    )


def _tells(scene: Scene, words: Sequence[str], form: Form, *, marked: bool) -> bool:
    """Whether a question word begins a clause that tells something, or calls something out."""
    start, end, keys = form
    groups = scene.book.groups
    if end >= len(words) or end - start > 1:
        return False
    if words[start] in groups["calls_out"] and words[end] in groups["a_thing"]:
        return scene.tokens[scene.owners()[start]].raw.isalpha()  # and not 'what's a ...'
    clause = keys == "when" and words[end] in groups["pronoun"] and not marked
    return clause and groups["when_due"].isdisjoint(words[end + 1 : end + 3])


def opens(scene: Scene, words: Sequence[str], start: int) -> bool:
    """Whether nothing but small words stands before the question word, or a clause that asks.

    'been meaning to ask what mpg we get', 'before i answer, how far will the tank take us'.
    """
    groups = scene.book.groups
    before = words[:start]
    if all(word in groups["before_question"] or not word.isalpha() for word in before):
        return True
    if start == 1:
        told = words[0] in groups["points_out"]  # 'thats how bad the fuel bill is'
        return not told and words[start] not in groups["auxiliary"]
    if any(map(has_digit, before)):
        return False  # 'filled 31 gal, how far now' states something
    said = f" {' '.join(before)} "
    leads = any(phrase in said for phrase in scene.book.phrases_of("leads_question"))
    return leads or (before[-1] == "," and words[start] in groups["asks_indirectly"])


def supposes(scene: Scene, words: Sequence[str], topics: Topics) -> bool:
    """Whether something is supposed of a load or a way: 'another 300 lb in the bed'."""
    groups = scene.book.groups
    if "tiedown" in topics and not groups["for"].isdisjoint(words):
        if _supposes_load(scene, words, topics):
            return True
        text = f"{' '.join(words)} "  # 'straps for 1,500 lb of hives'
        return any(text.startswith(f"{each} ") for each in topics["tiedown"])
    if "whatif" not in topics and "plan" not in topics:
        return False
    if _supposes_load(scene, words, topics):
        return True
    supposing = groups["supposes"]
    ours = len(words) > 1 and words[0] in groups["ours"] and words[1] in supposing
    return ours or words[0] in supposing or words[_first(scene, words)] in supposing


def _supposes_load(scene: Scene, words: Sequence[str], topics: Topics) -> bool:
    """'we're adding 600 lb of sugar over the axles, will we be over'."""
    moved = not scene.book.groups["supposed_move"].isdisjoint(words[:4])
    return moved and "whatif" in topics and not LOADS.isdisjoint(topics)


def requested(scene: Scene, words: Sequence[str], may_do: Sequence[str]) -> int | None:
    """Where the verb is of what Drawbar is asked to do: 'could you total up June'.

    Also behind what is wanted: 'pull up our last weigh, would you'; then the end of the words.
    """
    groups = scene.book.groups
    addressed, may = groups["addressed"], groups["may"]
    for index, word in enumerate(words[1:], start=1):
        if word not in addressed or words[index - 1] not in may:
            continue
        verb = index + 1
        while verb < len(words) and words[verb] in groups["polite"]:
            verb += 1
        for length in COURTESY:
            if " ".join(words[verb : verb + length]) in groups["courtesies"]:
                verb += length  # 'would you be a dear and sum up this trip'
                break
        behind = words[verb:]
        if not any(map(str.isalpha, behind)) or any(behind[0] in groups[g] for g in may_do):
            alone = groups["other_people"].isdisjoint((*words[:index], *behind))
            return verb if alone else None
    return None


def is_order(scene: Scene, topics: Topics) -> bool:
    """'june summary pls', 'trip totals', 'mpg with the camper': a short order without a verb."""
    if len(scene.tokens) > MOST_ORDER_TOKENS or "upkeep" in topics:
        return False  # 'report due mon'
    for figure in scene.figures:
        if figure.claimed is None:
            if figure.value > LAST_DAY and figure.dimension not in (None, DISTANCE):
                return False
        elif figure.claimed.startswith("'"):
            return False  # 'summary of ch 5'
    groups = scene.book.groups
    if not groups["plain_is"].isdisjoint(scene.words()):
        return False  # 'our mpg is down' tells something
    told = {phrase for phrases in topics.values() for phrase in phrases}
    if not told.isdisjoint(groups["summary"]):
        return True
    live = any(figure.claimed is None for figure in scene.figures)
    if live or len(scene.tokens) > LONGEST_RATING_ORDER:
        return False
    named = any(not groups[group].isdisjoint(told) for group in NAMED_ALONE)
    return named or ("margin" in topics and scene.has("rating"))


NAMED_ALONE = ("surely_economy", "rating_order", "surely_cost", "everyday_economy")
"""Groups of phrases that are an order by themselves."""

COURTESY = (3, 4, 5)
"""Words of 'be a dear and', behind which it is said what is asked for."""
