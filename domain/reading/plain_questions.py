"""Questions of the road that are understood to the last word.

Where every word of a message is one that such questions are made of (a small word, a word of the
trade, a name, a unit, a day, a place that is gone to), what it is about decides its topic, and
its form may be anything: 'total miles towing the camper', 'just tell me our range', 'we've got
900 miles ahead, how much fuel should we figure on'. A word of any other kind makes it talk for
this file; then only the rules of `topics`, which go by the form, can find a question in it.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from domain.reading.asked import LEFT_OF, Asked, Topics, told_for
from domain.reading.evidence import names_rig
from domain.reading.figures import DISTANCE, LAST_DAY, Figure
from domain.reading.journeys import (
    destination_of,
    find_destination,
    find_origin,
    goes_between_names,
    tells_plan,
)
from domain.reading.phrasebook import TOPIC_CLASS, find_overlapping
from domain.reading.scene import Scene
from domain.reading.spans import names_year, read_span
from domain.reading.times import has_times
from domain.reading.tokens import WORD

ROAD = frozenset(
    ("economy", "cost", "range", "distance", "trip", "week", "period", "plan", "upkeep")
)
"""Topics whose own phrases are understood here."""

UNDERSTOOD = frozenset(
    ("name", "vehicle", "product", "time", "ordinal", "unit", "per_volume", "rig")
)
"""Classes of term that such a question may name."""

SINCE_WHAT = frozenset(("weigh_cue", "hitch"))
"""Classes of term that a stretch of road may begin with: 'how far since the last weigh-in'."""

YEARS = frozenset(range(2000, 2100))
"""A set, as a figure is a float, which a range would be searched for from end to end."""

LONGEST_NOUN = 9
"""Words of a question that is no sentence."""

MOST_STRANGE = 2
"""Words that are of no such question, in one that surely is."""


def may_be_plain(scene: Scene, words: Sequence[str]) -> bool:
    """Whether a message has a word that such questions are about, and no figure of something else.

    A cheap look beforehand.
    """
    for figure in scene.figures:
        if (
            figure.claimed is None
            and figure.dimension != DISTANCE
            and (figure.unit is not None or not _may_be_of_date(figure))
        ):
            return False
    return not scene.book.groups["plain_head"].isdisjoint(words)


def plain_topic(scene: Scene, asked: Asked) -> str | None:
    """The topic of a question of the road that is understood to its last word, or None."""
    if _of_people(scene) or _figures_beside(scene, asked):
        return None
    strange = _strange(scene, asked.topics)
    placed = not strange or _are_places(scene, strange)
    if placed and _plan(scene, asked):
        return "plan"
    if strange and placed:
        return "range" if _range(scene, asked) else None  # 'will it last until Quail Lake'
    if strange and len(strange) > _strangers_allowed(scene, asked, strange):
        return None
    if not _asks(scene, asked):
        return None
    for topic, asks in SUMS if _lists(scene) else RULES:
        if asks(scene, asked):
            return topic
    return None


def _strangers_allowed(scene: Scene, asked: Asked, strange: Sequence[int]) -> int:
    """Words more, where a question has its form: two beside a name, one beside our fuel."""
    if any(scene.tokens[index].senses for index in strange) or asked.says("asks_why"):
        return 0
    formed = asked.form or "?" in scene.text or bool(asked.forms & {"how_much", "show"})
    fuelled = asked.says("plain_fuel", "tank") and (asked.ours or _dated(scene, asked))
    named = scene.has("name") or asked.phrased("economy", "surely_economy")
    if not (formed or asked.says("plain_polite")):
        return 0  # 'my mpg sucks'
    return max(MOST_STRANGE if named else int(fuelled), asked.certainty)


def understands(scene: Scene) -> bool:
    """Whether every sentence of a message is made of the words of such questions alone."""
    topics: dict[str, set[str]] = {}
    words = scene.words()
    for start, end, keys in find_overlapping(words, scene.book.overlapping[TOPIC_CLASS]):
        for key in keys.split():
            topics.setdefault(key, set()).add(" ".join(words[start:end]))
    return _are_places(scene, _strange(scene, topics))


def _of_people(scene: Scene) -> bool:
    """Whether it is about other people; who is asked so, 'can you tell me', is Drawbar."""
    groups = scene.book.groups
    if groups["other_people"].isdisjoint(scene.words()):
        return False
    asks = groups["plain_requests"] | groups["plain_opens"] | groups["drawbar_does"]
    words = [*scene.words(), ""]
    return any(
        word in groups["other_people"]
        and not (
            word in groups["addressed"]
            and words[at - 1] in groups["plain_asks_you"]
            and (not words[at + 1].isalpha() or words[at + 1] in asks)
        )
        and not (word in groups["addressed"] and words[at + 1] in groups["thinks"])
        for at, word in enumerate(words)
    )


def _strange(scene: Scene, topics: Topics) -> list[int]:
    """The tokens that such questions are not made of."""
    phrases = [phrase for topic in topics if topic in ROAD for phrase in topics[topic]]
    plain, told = scene.book.of_the_road, set(" ".join(phrases).split())
    understood = UNDERSTOOD | SINCE_WHAT if "since" in scene.groups else UNDERSTOOD
    return [
        index
        for index, token in enumerate(scene.tokens)
        if token.kind is WORD
        and token.text not in plain
        and understood.isdisjoint(token.senses)
        and token.text[0].isalnum()
        and not all(word in plain or word in told for word in token.text.split(" "))
        and not scene.book.patterns["day_of_month"].fullmatch(token.text)
    ]


def _are_places(scene: Scene, strange: Sequence[int]) -> bool:
    """Whether words are the places that a journey goes between, or to."""
    places = [place for place in (find_origin(scene), find_destination(scene)) if place]
    return all(any(start <= index < end for start, end in places) for index in strange)


def _figures_beside(scene: Scene, asked: Asked) -> bool:
    """Whether a figure is neither the way to go nor part of a date: 'gas bill 84.20'."""
    return any(
        figure is not asked.distance and not told_for(scene, figure) and not _of_date(scene, figure)
        for figure in scene.figures
        if figure.claimed is None
    )


def _of_date(scene: Scene, figure: Figure) -> bool:
    dated = figure.unit is None and _may_be_of_date(figure)
    return dated and (has_times(scene) or names_year(scene))


def _may_be_of_date(figure: Figure) -> bool:
    return figure.whole and (figure.value <= LAST_DAY or figure.value in YEARS)


def _asks(scene: Scene, asked: Asked) -> bool:
    """Whether it is asked: by a mark, a question word that opens a clause, an order, a noun."""
    words = scene.words()
    if "?" in scene.text or asked.form or asked.forms & {"how_much", "how_far"}:
        return True
    groups = scene.book.groups
    opens, before = groups["plain_opens"], groups["plain_before"]
    start = next((at for at, word in enumerate(words) if word not in before), len(words) - 1)
    if words[start] in opens or words[start] in groups["plain_wants"]:
        return True
    if any(mark in ",.;" and word in opens for mark, word in pairwise(words)):
        return True
    return _is_noun(words[start:], groups["plain_states"], groups["pronoun"])


def _whether(scene: Scene, asked: Asked) -> bool:
    """Whether it is asked whether something is so: 'will the diesel last until Quail Lake'."""
    groups = scene.book.groups
    words = [",", *scene.words(), ""]
    if groups["plain_whether"].isdisjoint(words) or not asked.forms.isdisjoint(NOT_WHETHER):
        return False
    return any(
        words[at] in groups["plain_whether"] and words[at + 1] not in groups["addressed"]
        for at in range(1, len(words) - 1)
        if words[at - 1] in groups["plain_before"]
    )


NOT_WHETHER = frozenset(("how_much", "how_far", "show"))
"""Forms in which it is not asked whether something is so."""


def _is_noun(words: Sequence[str], states: frozenset[str], pronouns: frozenset[str]) -> bool:
    """Whether a message names what is asked for: 'average price we paid', 'miles today'.

    A verb is that of a clause within only where its 'we' stands before it, behind the noun.
    """
    if sum(map(str.isalpha, words)) > LONGEST_NOUN or words[0] in states or words[0] in pronouns:
        return False
    return not any(
        word in states and word not in pronouns and before not in pronouns
        for before, word in pairwise(words)
    )


def _plan(scene: Scene, asked: Asked) -> bool:
    """What a journey will take: a way to go, and fuel or its price."""
    if asked.says("plain_past", "plain_left") or asked.phrased("range", "makes_it"):
        return False
    if asked.distance is None and not asked.says("plain_plan", "plain_ahead"):
        return False
    destination = destination_of(scene)
    placed = destination is not None and (destination[0].isupper() or asked.distance is not None)
    if not placed and asked.phrased("range", "surely_range"):
        return False
    planned = asked.says("plans") and not tells_plan(scene)
    if _whether(scene, asked) and not planned:
        return False  # 'will the diesel last until Quail Lake, 130 miles'
    fuelled = asked.says("plain_fuel", "plain_money", "plain_burns")
    fuelled = fuelled or (asked.stands("pays_out") and bool(asked.forms - {"are_we"}))
    if asked.distance is None:
        planned = asked.says("plain_plan") and not asked.says("plain_is")
        between = planned and goes_between_names(scene)
        ours = asked.says("plain_fuel", "plain_burns", "tows_there") or names_rig(scene)
        return placed and (between or (fuelled and ours and asked.says("plain_ahead")))
    if asked.says("gets_there") and (asked.says("tank") or asked.stands("on_fuel")):
        return False
    ahead = asked.says("plain_ahead") or "how_much" in asked.forms
    if planned and (names_rig(scene) or placed):
        return True
    return ahead and (fuelled or asked.says("plain_stops"))


def _economy(scene: Scene, asked: Asked) -> bool:
    if asked.distance is not None or (asked.stands("other_economy") and not asked.says("our_rig")):
        return False
    if asked.phrased("economy", "surely_economy") or _per_volume(scene):
        return True
    if asked.says("plain_money"):
        return False
    burnt = asked.says("plain_fuel", "per_hundred") or names_rig(scene)
    if asked.says("plain_burns") and burnt:
        return asked.says("plain_rate")
    if "how" in asked.forms and asked.says("plain_does") and asked.stands("on_fuel"):
        return asked.topics.keys().isdisjoint(("trip", "week"))
    if asked.says("plain_better", "plain_averages") and not _far(asked):
        return asked.says("fuel") or (asked.says("plain_averages") and names_rig(scene))
    mileage = asked.phrased("economy", "mileage")
    counted = mileage and asked.says("plain_counted")
    if counted or not (mileage or asked.says("plain_economy")):
        return False
    return _of_rig(scene, asked) or (mileage and _dated(scene, asked))


def _per_volume(scene: Scene) -> bool:
    """'how many miles a gallon', 'kms to the litre'."""
    words, groups = scene.words(), scene.book.groups
    return not groups["plain_volumes"].isdisjoint(words) and any(
        word in groups["plain_volumes"]
        and words[at - 1] in groups["plain_each"]
        and not groups["plain_far"].isdisjoint(words[max(0, at - 4) : at - 1])
        for at, word in enumerate(words)
        if at > 1
    )


def _cost(scene: Scene, asked: Asked) -> bool:
    if asked.distance is not None or asked.says("yet_to_come", "plain_left"):
        return False
    summed = asked.says("total") and asked.says("plain_fuel") and not _far(asked)
    each = asked.phrased("cost", "cost_per_distance") or (asked.says("each") and _far(asked))
    priced = asked.says("plain_price") and (each or asked.ours)  # not 'the price of diesel'
    spoken = asked.says("plain_money") or asked.stands("pays_out") or summed or priced
    if not (spoken or (each and asked.says("run"))):
        return False
    if asked.says("plain_fuel") or each or scene.has("name") or scene.has("product"):
        return not asked.stands("plain_bill")
    return asked.says("tow_or_trip", "tank_or_fill") and not asked.says("asks_price")


def _range(scene: Scene, asked: Asked) -> bool:
    if asked.says("plain_past", "plain_economy") or asked.phrased("economy", "mileage"):
        return False
    if asked.phrased("range", "surely_range"):
        return True
    if asked.says("range"):
        ours = asked.ours or _of_rig(scene, asked) or _is_bare(scene)
        return ours and not asked.stands("other_range")
    fuelled = asked.says("plain_fuel", "plain_fills", "tank")
    if asked.says("plain_left") and (fuelled or asked.says("empty")):
        return True
    if asked.says("plain_left") and asked.says("plain_far") and asked.ours:
        return True
    if "how_much" in asked.forms and asked.says("plain_fuel") and asked.stands("plain_has"):
        return asked.distance is None and not asked.says("plain_counted", "plain_burns")
    if asked.says("empty") and asked.says("until") and _far(asked):
        return True
    if asked.distance is not None:
        enough = fuelled or (asked.ours and asked.says("plain_still", "plain_left"))
        if enough and _whether(scene, asked):
            return True
        made = asked.says("gets_there") and asked.says("plain_may")
        ends = asked.says("still_more", "before") or asked.phrased("range", "makes_it")
        return made and (fuelled or ends)
    if asked.forms & LEFT_OF and asked.says("tank") and _far(asked):
        return True
    soon = asked.forms & {"how_far", "how_much", "when"}
    if soon and asked.says("plain_needs") and fuelled and asked.says("until", "plain_next"):
        return True
    if asked.phrased("range", "makes_it") and asked.says("plain_far") and asked.ours:
        return asked.distance is None  # 'miles to go before we run out'
    goes = (
        asked.forms & LEFT_OF and _far(asked) and asked.says("plain_may") and asked.says("goes_far")
    )
    return bool(goes) and (names_rig(scene) or asked.says("our_rig") or fuelled)


def _distance(scene: Scene, asked: Asked) -> bool:
    if asked.distance is not None or _whether(scene, asked):
        return False
    named = asked.says("plain_far", "odometer_word")
    if not (named or (_far(asked) and asked.says("plain_driven", "since"))):
        return False  # 'how far is the sun'
    if asked.says("plain_money") or (asked.says("plain_left") and not asked.says("since")):
        return False
    if asked.says("odometer_word"):
        return True
    dated = _dated(scene, asked)
    if asked.says("plain_driven", "since"):
        return dated or _of_rig(scene, asked) or asked.says("since")
    counted = asked.says("total", "many") or "?" in scene.text
    return dated or (counted and _of_rig(scene, asked))


def _trip(scene: Scene, asked: Asked) -> bool:
    if "trip" not in asked.topics or asked.distance is not None:
        return False
    summed = asked.says("total") and not asked.says("plain_money", "plain_far")
    return summed or _lists(scene) or _sums(scene, asked)


def _week(scene: Scene, asked: Asked) -> bool:
    if "week" not in asked.topics or asked.says("past_or_last") or asked.stands("any_week"):
        return False
    return _lists(scene) or _sums(scene, asked) or asked.stands("to_date")


def _period(scene: Scene, asked: Asked) -> bool:
    if _lists(scene) or _sums(scene, asked):
        return _dated(scene, asked)
    shown = asked.forms == {"show"} and asked.says("past_or_last")
    return shown and read_span(scene)[0] is not None  # 'show the last 3 weeks'


def _sums(scene: Scene, asked: Asked) -> bool:
    """'numbers for may', 'how did the rig do this week': what came of it."""
    if asked.says("yet_to_come", "coming_up", "day_ahead"):
        return False  # 'report due monday'
    if asked.says("plain_sums"):
        return True
    rig = names_rig(scene) or asked.says("plain_measures", "towed_over")
    return rig and "how" in asked.forms and asked.says("plain_does")


def _lists(scene: Scene) -> bool:
    """'fuel and miles for the last two weeks'."""
    words, measures = scene.words(), scene.book.groups["plain_measures"]
    joined = scene.book.groups["and_alone"]
    return not joined.isdisjoint(words) and any(
        words[at] in joined and words[at - 1] in measures and words[at + 1] in measures
        for at in range(1, len(words) - 1)
    )


def _upkeep(scene: Scene, asked: Asked) -> bool:
    if asked.distance is not None or asked.says("plain_past"):
        return False
    if scene.figures and not (asked.form or "?" in scene.text):
        return False  # 'rego due in 3 weeks' tells it
    if asked.says("plain_upkeep"):
        return asked.says("plain_due", "surely_due")
    if asked.stands("needs_doing"):
        return names_rig(scene)
    if "upkeep" not in asked.topics or not asked.says("plain_due"):
        return False
    return not asked.within("upkeep", "needs_the_rig_named") or _of_rig(scene, asked)


def _is_bare(scene: Scene) -> bool:
    """'range pls': a word, and one to be polite."""
    return all(
        token.groups & {"plain_head", "plain_polite", "plain_before", "plain_left"}
        or token.kind is not WORD
        for token in scene.tokens
    )


def _dated(scene: Scene, asked: Asked) -> bool:
    if scene.has("time") or not scene.book.groups["span_word"].isdisjoint(asked.words):
        return True
    return (has_times(scene) or names_year(scene)) and read_span(scene)[0] is not None


def _far(asked: Asked) -> bool:
    return asked.says("plain_far", "odometer_word") or "how_far" in asked.forms


def _of_rig(scene: Scene, asked: Asked) -> bool:
    """Whether it is the rig's own: named, towed with, or ours by its fuel."""
    named = names_rig(scene) or scene.has("rig")
    return named or asked.says("our_rig", "plain_fuel", "tank", "tow_or_trip")


SUMS = (("trip", _trip), ("week", _week), ("period", _period))
"""The topics of what is asked of more than one thing: 'fuel and miles for the last two weeks'."""

RULES = (
    ("range", _range),
    ("upkeep", _upkeep),
    ("economy", _economy),
    ("cost", _cost),
    SUMS[0],
    ("distance", _distance),
    *SUMS[1:],
)
"""The topics in the order in which they are tried."""
