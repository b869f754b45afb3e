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
from domain.reading.asked import LAST_DAY, Asked, Topics
from domain.reading.certainty import asks_aside, certainty_of
from domain.reading.figures import DISTANCE, MASS, Figure, mean_kilometres
from domain.reading.help_topics import asks_how_it_works, may_ask_help
from domain.reading.of_a_body import STEPS
from domain.reading.particulars import question_of, told_for
from domain.reading.phrasebook import ASKING_CLASS, TOPIC_CLASS, find_overlapping
from domain.reading.plain_loads import means_the_rig, names_what_is_asked
from domain.reading.plain_questions import YEARS, may_be_plain, plain_topic
from domain.reading.scene import Scene
from domain.reading.short_questions import asks_if_enough, may_be_short, read_short, with_fields
from domain.reading.spots import find_spots
from domain.reading.things import noun_from
from domain.reading.times import written_dates
from domain.reading.tokens import MARK, NO_GROUPS, NUMBER, TIME
from domain.reading.topics import topic_of
from domain.verdicts import Question

LOOK_FOR_FORM = 16
"""Words: a question says so near its beginning, or by its mark."""

LONGEST_ORDER, LONGEST_BARE, LONGEST_RATING_ORDER = 14, 3, 6
"""Words of an order, of a bare topic, and of a rating asked for without a verb."""

OF_THE_ROAD = frozenset(("plan", "range", "distance"))
"""Topics in which a k is for kilometres, where roads are measured so."""

WANTS, NEEDS = "wants", "needs"
LOADS = frozenset(("weight", "margin", "tongue", "ratings"))
"""Forms in which people are asked for things, too, and the topics in which they are questions.

What is needed may be of the road, where fuel or a summary is named.
"""

AXLES = frozenset(("surely_axle", "axle_alone"))
"""Groups of words that name an axle and nothing else."""

MOST_ORDER_TOKENS = 14


def _is_put_to_somebody(scene: Scene) -> bool:
    """'what does your camper weigh, Pruett?': with a name that is nobody's of the chat."""
    said = scene.tokens[:-1] if scene.tokens[-1].raw == "?" else scene.tokens
    if len(said) < SHORTEST_CALL or said[-2].raw != "," or len(said) - 1 not in scene.unknown:
        return False
    called = said[-1].raw[0].isupper() and not said[-1].raw.isupper()
    return called and any("of_other_rig" in token.groups for token in said)


SHORTEST_CALL = 4
"""Tokens of a question with a name behind its comma."""


def read_question(scene: Scene) -> Question | None:
    """The question that a message asks, or None."""
    book = scene.book
    words = scene.words()
    marked = "?" in scene.text
    brief = may_be_short(scene, words)
    if not (marked or brief or _may_ask(scene, words)):
        return None
    if words[0] in book.groups["asks_people"]:
        return None  # 'shall we weigh the van on Friday'
    if "counts_steps" in scene.groups and STEPS in [figure.claimed for figure in scene.figures]:
        return None  # 'my step counter says 11,140, do I get a gross weight'
    if words[0] == "*" and words[-1] != "*":
        return None  # '*week' mends what was texted to people
    if _is_put_to_somebody(scene):
        return None
    moving = words[0] in book.groups["orders_move"]
    formed = marked or moving or words[0] in book.groups["opens_order"]
    ordered = _may_be_order(scene, words)
    plain = may_be_plain(scene, words)
    short = read_short(scene) if brief else None
    if short is None and marked and asks_if_enough(scene):
        short = {"topic": "tiedown"}
    known = formed or ordered or plain or short is not None
    if not known and book.asking.isdisjoint(words):
        return None
    topics = _topics(scene, words)
    if not (topics or moving or plain or short is not None or _may_mean_topic(scene, words)):
        return None
    asking = _asking(scene, words, marked=marked)
    wanted = not (known or asking)
    if wanted and book.groups["asks_aside"].isdisjoint(words):
        return None
    helps = bool(asking) and may_ask_help(scene, words)
    if asking and _heard_weigh(scene, words):
        topics.setdefault("weight", set()).update(book.groups["heard_for_weigh"])
    if (marked or asking) and any(f.dimension == MASS for f in scene.figures):
        supposed = book.groups["supposes_load"].intersection(words)
        if supposed:  # 'if I sling another 150 kg in, what happens'
            topics.setdefault("whatif", set()).update(supposed)
    if short is not None:
        asked = _look(scene, words, topics, asking, 0)
        return with_fields(question_of(scene, short["topic"], asked), short, scene)
    if not (topics or moving or plain or helps):
        return None
    certainty = certainty_of(scene, topics)
    if wanted and not certainty:
        return None
    asked = _look(scene, words, topics, asking, certainty)
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


def _may_ask(scene: Scene, words: Sequence[str]) -> bool:
    """Whether a message without a mark has a word of a question; what states a figure has fewer.

    A cheap look beforehand: most of what people text tells something.
    """
    book = scene.book
    for figure in scene.figures:
        if _is_stated(figure):
            return not book.asking_of_figures.isdisjoint(words)
    return not book.asking_unmarked.isdisjoint(words)


def _topics(scene: Scene, words: Sequence[str]) -> dict[str, set[str]]:
    """The topics that a message has phrases of, each with those phrases."""
    topics: dict[str, set[str]] = {}
    for start, end, keys in find_overlapping(words, scene.book.overlapping[TOPIC_CLASS]):
        for key in keys.split():
            topics.setdefault(key, set()).add(" ".join(words[start:end]))
    for term in ("axle", "axle_noun"):
        for _, token, _ in scene.find(term):
            if not token.groups.isdisjoint(AXLES):
                topics.setdefault("weight", set()).add(token.text)
    for _, token, _ in scene.find("whole", "tongue"):
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
    dated = figure.value <= LAST_DAY or (figure.unit is None and figure.value in YEARS)
    return figure.claimed is None and figure.dimension != DISTANCE and not dated


def _topic_by_form(scene: Scene, words: Sequence[str], asked: Asked, *, marked: bool) -> str | None:
    """The topic of a message that has the form of a question."""
    if not asked.topics or not (asked.form or marked):
        return None
    supposing = not marked and words[0] in scene.book.groups["if"]
    if supposing and not find_overlapping(words, scene.book.overlapping[ASKING_CLASS]):
        return None  # 'if the scale's open we'll weigh'
    return topic_of(scene, asked)


def _heard_weigh(scene: Scene, words: Sequence[str]) -> bool:
    """'how much does she way': the verb of a question, heard as another word."""
    groups = scene.book.groups
    if groups["heard_for_weigh"].isdisjoint(words):
        return False
    owners = scene.owners()
    for at, word in enumerate(words[2:], start=2):
        if word in groups["heard_for_weigh"] and not groups["does"].isdisjoint(words[:at]):
            subject = scene.tokens[owners[at - 1]]
            return "pronoun" in subject.groups or not SUBJECTS.isdisjoint(subject.senses)
    return False


SUBJECTS = frozenset(("name", "vehicle", "axle", "axle_noun", "rig"))
"""Classes of term for what weighs something."""


def _asking(scene: Scene, words: Sequence[str], *, marked: bool) -> Sequence[tuple[int, int, str]]:
    """The forms of a question: 'when i looked, ...' and 'what a day' are none."""
    found = find_overlapping(words[:LOOK_FOR_FORM], scene.book.overlapping[ASKING_CLASS])
    asking = [each for each in found if not _tells(scene, words, each, marked=marked)]
    if not scene.book.groups["addressed"].isdisjoint(words):
        for may_do, form in (("drawbar_does", "show"), ("may_be_asked_to", WANTS)):
            verb = _requested(scene, words, (may_do,))
            if verb is not None:
                asking.append((verb - 2, verb, form))
    groups = scene.book.groups
    first = _first(scene, words)
    inverted = words[first] in groups["may"] or words[first] in groups["does"]
    if inverted and _inverts(scene, first + 1):
        asking.append((first, first + 1, "are_we"))
    return asking


def _first(scene: Scene, words: Sequence[str]) -> int:
    """Where a message begins, behind 'hey', 'so' and their like."""
    leads = scene.book.groups["before_question"]
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
    certainty: int,
) -> Asked:
    memberships = scene.book.memberships
    said = NO_GROUPS.union(*[memberships.get(word, NO_GROUPS) for word in words])
    text = f" {' '.join(words)} "
    live = [figure for figure in scene.figures if figure.claimed is None]
    if scene.context.units == "metric" and topics.keys() & OF_THE_ROAD:
        for figure in live:
            mean_kilometres(figure)
    masses = [f for f in live if f.dimension == MASS]
    masses = masses or [f for f in live if f.dimension is None and f.value >= 100]
    # '4 straps rated 3,333 lb for 6,600 lb': the rating is not the load.
    masses = [f for f in masses if not _is_rating(scene, f)] or masses
    noun = not live and names_what_is_asked(scene, topics)
    ordered = noun or _supposes(scene, words, topics)
    strangers = 0 if noun else max(0, _strangers(scene, topics) - certainty)
    sure = strangers == 0 and means_the_rig(scene, topics)
    if not (sure and topics.keys() & LOADS):
        summed = not said.isdisjoint(SUMMED)
        dropped = (WANTS,) if summed else (WANTS, NEEDS)  # 'i need the truck this week'
        asking = [each for each in asking if each[2] not in dropped]
    opens = any(_opens(scene, words, start) for start, _, _ in asking)
    aside = certainty > 0 and asks_aside(scene)
    may_do = ("drawbar_does", "may_be_asked_to") if sure else ("drawbar_does",)
    other = (
        "other_people" in said
        and _asks_people(scene, words, text, sure=sure)
        and not ("ratings" in topics and _said_of_drawbar(scene, text))
        and _requested(scene, words, may_do) is None
    )
    return Asked(
        book=scene.book,
        topics=topics,
        forms={
            "show" if key in (WANTS, NEEDS) else key
            for _, _, keys in asking
            for key in keys.split()
        },
        form=opens or ordered or aside or _is_order(scene, topics, strangers),
        plain=sure and not other,
        words=frozenset(words),
        text=text,
        said=said,
        ours="ours" in said or scene.has("vehicle") or scene.has("name"),
        strangers=strangers,
        certainty=certainty,
        other=other,
        distance=_way(scene, live),
        mass=masses[0] if masses else None,
    )


SUMMED = frozenset(("fuel", "summary_asked"))
"""Groups of words for what can be summed up: 'i need the week's summary'."""


def _asks_people(scene: Scene, words: Sequence[str], text: str, *, sure: bool) -> bool:
    """Whether somebody else than Drawbar is asked or spoken of."""
    groups = scene.book.groups
    people = set(_without_opinion(scene, words, sure=sure))
    for phrase in groups["asks_drawbar"]:
        if phrase in text:
            people.difference_update(phrase.split(), groups["addressed"])
    return not groups["other_people"].isdisjoint(people)


def _said_of_drawbar(scene: Scene, text: str) -> bool:
    """'all the limits you have', 'the ratings you hold for the camper': what Drawbar was told."""
    said = f"{text.rstrip(' ?.!')} "
    return any(
        said.endswith(each) or f"{each}for " in text or f"{each}on " in text
        for each in scene.book.phrases_of("held_by_drawbar")
    )


def _without_opinion(scene: Scene, words: Sequence[str], *, sure: bool) -> Sequence[str]:
    """'is the nose weight about right you think': who is asked so of the rig is Drawbar."""
    groups = scene.book.groups
    if groups["thinks"].isdisjoint(words):
        return words
    if not (sure or _of_trade(scene)):
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


def _requested(scene: Scene, words: Sequence[str], may_do: Sequence[str]) -> int | None:
    """Where the verb is of what Drawbar is asked to do: 'could you total up June'.

    Also behind what is wanted: 'pull up our last weigh, would you'; then the end of the words.
    """
    groups = scene.book.groups
    for index, word in enumerate(words[1:], start=1):
        if word not in groups["addressed"] or words[index - 1] not in groups["may"]:
            continue
        verb = index + 1
        while verb < len(words) and words[verb] in groups["polite"]:
            verb += 1
        behind = words[verb:]
        if not any(map(str.isalpha, behind)) or any(behind[0] in groups[g] for g in may_do):
            alone = groups["other_people"].isdisjoint((*words[:index], *behind))
            return verb if alone else None
    return None


def _way(scene: Scene, live: Sequence[Figure]) -> Figure | None:
    """The distance that a question names, and no other that a part of it is told for."""
    return next((f for f in live if f.dimension == DISTANCE and not told_for(scene, f)), None)


def _is_rating(scene: Scene, figure: Figure) -> bool:
    """'straps rated 3,333 lb', 'wll 800 kg', 'how many 3,333 lb straps', 'straps of 800 kg'."""
    before = scene.tokens[max(0, figure.start - LONGEST_STAMP) : figure.start]
    behind = scene.tokens[figure.end : figure.end + LONGEST_STAMP]
    if before and "stamped" in before[-1].groups:
        return True
    if behind and "lashing" in behind[0].groups:
        return True
    if len(before) > 1 and "of" in before[-1].groups and "lashing" in before[-2].groups:
        return True
    ahead = " ".join(token.text for token in before)
    after = " ".join(token.text for token in behind)
    limits = scene.book.groups["tie_limit"]
    return any(
        f" {ahead}".endswith(f" {each}") or f"{after} ".startswith(f"{each} ") for each in limits
    )


LONGEST_STAMP = 3
"""Tokens of what a working load limit is called."""


def _opens(scene: Scene, words: Sequence[str], start: int) -> bool:
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
    leads = any(f" {phrase} " in said for phrase in groups["leads_question"])
    return leads or (before[-1] == "," and words[start] in groups["asks_indirectly"])


def _supposes(scene: Scene, words: Sequence[str], topics: Topics) -> bool:
    groups = scene.book.groups
    supposes = groups["supposes"]
    if (
        not groups["supposed_move"].isdisjoint(words[:4])
        and "whatif" in topics
        and topics.keys() & LOADS
    ):
        return True  # 'we're adding 600 lb of sugar over the axles, will we be over'
    if not groups["for"].isdisjoint(words) and "tiedown" in topics:
        text = f"{' '.join(words)} "  # 'straps for 1,500 lb of hives'
        return any(text.startswith(f"{each} ") for each in topics["tiedown"])
    ours = len(words) > 1 and words[0] in groups["ours"] and words[1] in supposes
    leads = words[0] in supposes or words[_first(scene, words)] in supposes
    return bool(topics.keys() & {"whatif", "plan"}) and (leads or ours)


def _strangers(scene: Scene, topics: Topics) -> int:
    """Words that neither the phrasebook's terms nor the topics know."""
    told = {word for phrases in topics.values() for phrase in phrases for word in phrase.split()}
    return sum(
        1
        for token in (scene.tokens[index] for index in scene.unknown_words())
        if token.text not in told and token.groups.isdisjoint(SMALL)
    )


SMALL = frozenset(("small_word", "before_question", "asks_aside"))
"""Groups of words that carry no meaning of their own."""


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
    named = any(not groups[group].isdisjoint(told) for group in NAMED_ALONE)
    return named or ("margin" in topics and scene.has("rating"))


NAMED_ALONE = ("surely_economy", "rating_order", "surely_cost", "everyday_economy")
"""Groups of phrases that are an order by themselves."""
