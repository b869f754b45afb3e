"""Questions that Drawbar can answer, and what they name.

This file decides whether a message asks the logbook something, and which topic it asks for. A
question needs a form (a question word, a question mark, 'show me', or a bare topic such as
'week') and words of the trade; what one person asks another ('how much does the dog weigh',
'how was your week') has the form without the trade, and is talk.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from domain.context import MASS_UNIT
from domain.quantities import Quantity
from domain.reading import times
from domain.reading.cargo import Spot, find_spots, noun_from
from domain.reading.figures import DISTANCE, LENGTH, MASS, Figure
from domain.reading.phrasebook import ASKING_CLASS, TOPIC_CLASS, Phrasebook, find_overlapping
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, NUMBER, WORD, Token
from domain.verdicts import Question

BARE_TOPICS = {
    "week": "week",
    "weekly": "week",
    "this week": "week",
    "weekly summary": "week",
    "week summary": "week",
    "trip": "trip",
    "this trip": "trip",
    "last trip": "trip",
    "trip summary": "trip",
    "summary": "period",
    "this month": "period",
    "last month": "period",
    "this year": "period",
    "last year": "period",
    "ratings": "ratings",
    "help": "help",
    "commands": "help",
    "mpg": "economy",
    "economy": "economy",
    "fuel economy": "economy",
    "range": "range",
    "weights": "weight",
    "weight": "weight",
    "margins": "margin",
    "margin": "margin",
    "tongue weight": "tongue",
    "pin weight": "tongue",
    "nose weight": "tongue",
    "upkeep": "upkeep",
}
"""Topics that a message of that phrase alone asks for."""

OTHERS = frozenset(
    ["you", "u", "ur", "your", "youre", "yours", "he", "hes", "his", "him", "they", "them", "their", "theyre", "dog", "cat", "baby", "kid", "doctor", "mom", "mum", "dad", "uncle", "aunt", "grandma", "grandpa", "guys", "everyone", "anyone", "anybody"]
)
"""Whose weight, cost or week is no business of the log."""

TO_DRAWBAR = frozenset(
    (
        "can you show",
        "can you give me",
        "can you tell me",
        "do you have",
        "can you pull up",
        "do you know",
        "could you show",
    )
)


@dataclass(slots=True)
class _Asked:
    """What a message has that bears on its topic."""

    topics: dict[str, set[str]]
    forms: set[str]
    form: bool
    words: frozenset[str]
    text: str
    ours: bool
    strangers: int
    other: bool
    distance: Figure | None
    mass: Figure | None


def read_question(scene: Scene, book: Phrasebook) -> Question | None:
    """The question that a message asks, or None."""
    words, _ = scene.split_words()
    asking = find_overlapping(words[:LOOK_FOR_FORM], book.overlapping[ASKING_CLASS])
    marked = "?" in scene.text
    if not (asking or marked or words[0] in OPENS or words[0] in MOVING_ORDERS):
        if len(words) > LONGEST_ORDER or ORDERING.isdisjoint(words):
            return None
    topics: dict[str, set[str]] = {}
    for start, end, keys in find_overlapping(words, book.overlapping[TOPIC_CLASS]):
        for key in keys.split():
            topics.setdefault(key, set()).add(" ".join(words[start:end]))
    for _, token, _ in scene.find("whole", "tongue"):
        topics.setdefault("tongue", set()).add(token.text)
    if not topics and words[0] not in MOVING_ORDERS:
        return None
    asked = _look(scene, words, topics, asking)
    if (
        words[0] in MOVING_ORDERS
        and asked.mass is not None
        and _orders_move(scene, book, asked.mass)
    ):
        return _question(scene, book, "whatif", asked)
    bare = _bare_topic(scene)
    if bare is not None:
        return _question(scene, book, bare, asked)
    if not (asked.form or marked):
        return None
    topic = _topic(scene, asked)
    return _question(scene, book, topic, asked) if topic else None


MOVING_ORDERS = frozenset(("add", "move", "shift", "remove", "slide"))


def _orders_move(scene: Scene, book: Phrasebook, mass: Figure) -> bool:
    """'add 600 lb four feet ahead of the trailer axle': a weight and a place, and no thing."""
    named = noun_from(scene, mass.end + 1 if _is_of(scene, mass.end) else mass.end)
    return mass.dimension == MASS and named is None and bool(find_spots(scene, book))


def _is_of(scene: Scene, index: int) -> bool:
    return index < len(scene.tokens) and scene.tokens[index].text == "of"


LOOK_FOR_FORM = 8
"""Words: a question says so near its beginning, or by its mark."""

LONGEST_ORDER = 9
OPENS = frozenset(("say", "suppose", "plan", "over", "if", "planning", "recap", "sum"))


def _bare_topic(scene: Scene) -> str | None:
    words = [
        token
        for token in scene.tokens
        if token.kind is not MARK and token.senses.get("glue") != "filler"
    ]
    return BARE_TOPICS.get(" ".join(token.text for token in words)) if len(words) <= 3 else None


def _look(
    scene: Scene,
    words: list[str],
    topics: dict[str, set[str]],
    asking: list[tuple[int, int, str]],
) -> _Asked:
    known = frozenset(words)
    live = [figure for figure in scene.figures if figure.claimed is None]
    opening = {
        key for start, _, keys in asking if _opens(scene, words, start) for key in keys.split()
    }
    masses = [f for f in live if f.dimension == MASS]
    masses = masses or [f for f in live if f.dimension is None and f.value >= 100]
    return _Asked(
        topics=topics,
        forms={key for _, _, keys in asking for key in keys.split()},
        form=bool(opening) or _is_order(scene, topics) or _supposes(words, topics),
        words=known,
        text=f" {' '.join(words)} ",
        ours=bool(known & {"we", "us", "our", "i", "my", "me", "rig", "were"})
        or scene.has("vehicle")
        or scene.has("name"),
        strangers=_strangers(scene, words, topics),
        other=bool(known & OTHERS)
        and not any(phrase in f" {' '.join(words)} " for phrase in TO_DRAWBAR),
        distance=next((f for f in live if f.dimension == DISTANCE), None),
        mass=masses[0] if masses else None,
    )


def _opens(scene: Scene, words: list[str], start: int) -> bool:
    """Whether nothing but small words stands before the question word."""
    return all(
        word
        in (
            "so",
            "ok",
            "and",
            "hey",
            "but",
            "okay",
            "um",
            "uh",
            "well",
            "now",
            "just",
            "drawbar",
            "also",
            "btw",
            "then",
            "with",
            "the",
            "on",
            "yo",
            "hi",
            "please",
            "pls",
            "quick",
            "question",
            "alright",
        )
        or not word.isalpha()
        for word in words[:start]
    ) or (start == 1 and words[start] not in AUXILIARIES)


AUXILIARIES = frozenset(("are", "is", "does", "can", "will"))
"""Words that ask only where they stand first: 'odometer is 48,211' states."""


def _supposes(words: list[str], topics: dict[str, set[str]]) -> bool:
    return bool(topics.keys() & {"whatif", "plan"}) and words[0] in (
        "say",
        "suppose",
        "if",
        "plan",
        "planning",
    )


def _strangers(scene: Scene, words: list[str], topics: dict[str, set[str]]) -> int:
    """Words that neither the phrasebook's terms nor the topics know."""
    told = {word for phrases in topics.values() for phrase in phrases for word in phrase.split()}
    return sum(
        1
        for token in scene.tokens
        if token.kind is WORD and not token.senses and token.text not in told | SMALL
    )


SMALL = frozenset(
    ["what", "whats", "how", "hows", "much", "many", "far", "when", "whens", "which", "where", "is", "are", "was", "were", "do", "does", "did", "can", "could", "will", "would", "should", "any", "show", "me", "give", "tell", "list", "get", "see", "again", "right", "now", "please", "pls", "lately", "today", "anyway", "look", "looks", "looking", "work", "works", "going", "say", "says", "said", "come", "came", "think", "thing", "things", "number", "figure", "figures", "current", "currently", "so", "far", "yet", "whole", "recent", "recently", "kind", "sort", "time", "across", "she", "last", "with", "til", "till", "on"]
)


SUMMARIES = frozenset(
    (
        "trip figures",
        "trip numbers",
        "weeks figures",
        "sum up",
        "trip so far",
        "summary",
        "recap",
        "report",
        "totals",
        "weekly summary",
        "trip summary",
        "week summary",
        "rundown",
        "overview",
        "tally",
        "breakdown",
        "wrap up",
        "trip totals",
        "weeks summary",
    )
)


def _is_order(scene: Scene, topics: dict[str, set[str]]) -> bool:
    """'june summary pls', 'trip totals', 'mpg with the camper': a short order without a verb."""
    if len(scene.tokens) > 10 or any(
        f.claimed is None and f.value > 31 and f.dimension is not None and f.dimension != DISTANCE
        for f in scene.figures
    ):
        return False
    told = {phrase for phrases in topics.values() for phrase in phrases}
    strangers = sum(
        1
        for token in scene.tokens
        if token.kind is WORD
        and not token.senses
        and token.text not in SMALL | {word for phrase in told for word in phrase.split()}
    )
    if told & SUMMARIES:
        return strangers == 0
    return (
        strangers == 0
        and not any(figure.claimed is None for figure in scene.figures)
        and bool(
            told & (ECONOMY_STRONG | {"gcwr", "gvwr", "payload", "over gcwr"})
            or (topics.keys() & {"margin"}
            and scene.has("rating"))
        )
        and len(scene.tokens) <= 6
    )


FUEL = frozenset(
    (
        "fuel",
        "diesel",
        "gas",
        "petrol",
        "gallons",
        "gallon",
        "litres",
        "liters",
        "tank",
        "def",
        "fillups",
        "fuelling",
    )
)
MARGIN_STRONG = frozenset(
    (
        "over on anything",
        "over anywhere",
        "over on any",
        "overweight",
        "overloaded",
        "margin",
        "margins",
        "headroom",
        "within limits",
        "under the limit",
        "over the limit",
        "payload left",
        "maxed out",
        "too heavy",
        "over any limits",
        "inside the limits",
        "near the limit",
        "tightest",
        "capacity left",
        "overweight on",
        "to spare",
        "limit",
        "limits",
        "over on",
        "exceeding",
        "exceed",
        "in the red",
    )
)
RATING_WORDS = frozenset(
    (
        "ratings are missing",
        "missing ratings",
        "what ratings",
        "plate say",
        "plate says",
        "sticker say",
        "sticker says",
        "payload sticker",
        "sticker number",
        "kerbweight",
        "train weight",
        "gross train weight",
        "gvwr",
        "gcwr",
        "gawr",
        "payload",
        "gvm",
        "gcm",
        "mtplm",
        "tow rating",
        "towing capacity",
        "tow capacity",
        "rated",
        "rating",
        "ratings",
        "load index",
        "atm",
        "gtm",
        "max tongue",
        "tongue rating",
        "tank size",
        "tank hold",
        "curb weight",
        "rated for",
        "door sticker",
        "plate",
        "capacity",
        "limits on file",
    )
)
ECONOMY_STRONG = frozenset(
    (
        "thirsty",
        "litres per hundred",
        "liters per hundred",
        "litres a hundred",
        "mpg",
        "fuel economy",
        "fuel mileage",
        "gas mileage",
        "l/100km",
        "l/100",
        "fuel consumption",
        "miles per gallon",
        "consumption",
        "economy",
        "fuel efficiency",
        "to the gallon",
        "kilometres per litre",
        "litres per 100",
    )
)
RANGE_STRONG = frozenset(
    (
        "till were empty",
        "until were empty",
        "till we run dry",
        "until we run dry",
        "how far can we go",
        "how far can i go",
        "how far can we get",
        "how far can i get",
        "on whats left",
        "fuel left",
        "left in the tank",
        "before we need fuel",
        "before i need fuel",
        "until empty",
        "till empty",
        "to empty",
        "enough fuel",
        "enough diesel",
        "before we run dry",
        "without stopping",
        "without filling",
        "how much fuel is left",
        "fuel do we have left",
        "fuel do we have",
        "far can this tank",
        "dte",
        "distance to empty",
        "before we fill",
        "enough in the tank",
        "before we have to fill",
        "before fuel",
        "before refuelling",
        "before refueling",
        "range",
        "gas left",
        "diesel left",
        "before filling",
        "run out of fuel",
        "enough gas",
        "how far will",
        "on the tank",
        "fuel to get",
        "next fuel stop",
        "before we have to stop",
    )
)
WHATIF_STRONG = frozenset(
    (
        "what if",
        "what happens if",
        "what happens to",
        "if we put",
        "if i put",
        "if we move",
        "if i move",
        "if we add",
        "if i add",
        "if we slide",
        "if we load",
        "if i load",
        "if we shift",
        "suppose",
        "how much more can",
        "where should",
        "where must",
        "where do i put",
        "where do we put",
        "can i add",
        "can we add",
        "could we add",
        "could i add",
        "can i put",
        "can we put",
        "can we carry",
        "can i carry",
        "can we load",
        "can i load",
        "how much can",
    )
)
HOW_MANY = frozenset(
    ("how many", "how much", "enough", "need", "will", "do", "is", "are", "hold", "for")
)


def _topic(scene: Scene, asked: _Asked) -> str | None:
    topics, words, text = asked.topics, asked.words, asked.text
    trade = _trade(scene)
    if "help" in topics and _asks_help(scene, asked):
        return "help"
    if asked.other and not trade:
        return None
    if "tiedown" in topics and _asks_tiedown(scene, asked):
        return "tiedown"
    if "whatif" in topics and _asks_whatif(scene, asked):
        return "whatif"
    if _asks_plan(scene, asked):
        return "plan"
    if "range" in topics and _asks_range(scene, asked):
        return "range"
    if (
        words & {"empty"}
        and words & {"miles", "km", "kms"}
        and words & {"till", "until", "to", "before"}
    ):
        return "range"
    if "left" in words and words & {"tank"} and words & {"miles", "km", "kms", "far", "range"}:
        return "range"
    if "upkeep" in topics and _asks_upkeep(scene, asked):
        return "upkeep"
    if _asks_margin(scene, asked):
        return "margin"
    if "tongue" in topics and not topics.keys() & {"ratings"} and _tongue_meant(asked):
        return "tongue"
    if "ratings" in topics and _asks_ratings(scene, asked):
        return "ratings"
    if "economy" in topics and (
        topics["economy"] & ECONOMY_STRONG
        or (
            words & {"burning", "using", "drinking"}
            and (words & FUEL or "per" in words or "100" in words)
        )
        or (
            {"mileage", "milage"} & words
            and asked.ours
            and not words & {"odometer", "odo"}
            and not asked.other
        )
    ):
        return "economy"
    if "cost" in topics and _asks_cost(scene, asked):
        return "cost"
    if "trip" in topics and _asks_summary(scene, asked, "trip"):
        return "trip"
    if "weight" in topics and _asks_weight(scene, asked):
        return "weight"
    if "distance" in topics and _asks_distance(scene, asked):
        return "distance"
    if ("week" in topics or " week " in text) and _asks_summary(scene, asked, "week"):
        return "period" if " last week " in text else "week"
    if "period" in topics and _asks_summary(scene, asked, "period"):
        return "period"
    if "how did we do" in text or "how are we doing" in text:
        since, _ = times.read_span(scene)
        if since is not None:
            return "period"
    return None


ORDERING = frozenset(
    word
    for phrase in (
        *BARE_TOPICS,
        *SUMMARIES,
        *ECONOMY_STRONG,
        "gcwr",
        "gvwr",
        "payload",
        "margin",
        "gross",
    )
    for word in phrase.split()
) - {"to", "the", "per", "last", "this", "so", "up"}
"""One of these stands in every order; without one, a short statement is not looked at further."""


def _trade(scene: Scene) -> bool:
    """Whether the message has words that only someone who tows uses, or the chat's own names."""
    return (
        scene.has("name")
        or scene.has("vehicle", "trailer")
        or scene.has("rating")
        or scene.has("axle_noun")
        or scene.has("odometer")
        or bool(ECONOMY_STRONG & {token.text for token in scene.tokens})
    )


def _tongue_meant(asked: _Asked) -> bool:
    """The trailer's tongue, and not the one in a mouth or a pin on a map."""
    sure = {
        "tongue weight",
        "pin weight",
        "nose weight",
        "hitch weight",
        "ball weight",
        "noseweight",
        "towball weight",
        "tongue percentage",
        "tongue share",
        "pin percentage",
        "toungue weight",
        "tounge weight",
        "pushing down on",
    }
    if asked.topics["tongue"] & sure:
        return True
    ours = asked.ours or bool(asked.words & {"pounds", "lbs", "lb", "kg", "kilos"})
    return (
        ours
        and asked.strangers <= 1
        and bool(
            asked.words
            & {
                "heavy",
                "much",
                "weigh",
                "weight",
                "percent",
                "percentage",
                "enough",
                "light",
                "lbs",
                "pounds",
                "kg",
                "share",
                "many",
                "lb",
            }
        )
    )


def _asks_help(scene: Scene, asked: _Asked) -> bool:
    """'how do i log a weigh in' and its like; 'how do i look' asks a person."""
    phrases = asked.topics["help"]
    log_words = scene.by_class.keys() & {
        "weigh_cue",
        "fuel_cue",
        "odometer",
        "rating",
        "correction",
        "note",
        "vehicle",
        "axle",
        "check_item",
        "hitch",
        "whole",
        "product",
        "ticket",
    }
    recording = asked.words & {
        "log",
        "record",
        "enter",
        "text",
        "send",
        "undo",
        "fix",
        "correct",
        "ticket",
        "delete",
        "weigh",
        "fill",
        "fillup",
    }
    sure = {
        "how do i log",
        "how do we log",
        "what can you do",
        "what can i send",
        "what can i ask",
        "how to log",
        "how do i tell you",
        "what can i text",
        "commands",
        "what do you understand",
        "what do i text you",
        "what should i text",
        "what kind of things",
        "how can i log",
        "how would i log",
        "how do i undo",
    }
    if phrases & sure:
        return asked.strangers <= 1 or bool(log_words)
    return bool(log_words and (recording or phrases - {"help"})) and asked.strangers <= 2


def _asks_tiedown(scene: Scene, asked: _Asked) -> bool:
    marked = "?" in asked.text and bool(
        asked.words & {"chains", "straps", "chain", "strap", "binders"}
    )
    many = (
        marked
        or "how many" in asked.text
        or asked.words & {"enough", "need", "hold", "wll", "secure", "many", "plenty", "sufficient"}
    )
    return bool(many) and (
        asked.mass is not None
        or asked.words
        & {"skid", "tractor", "load", "excavator", "machine", "hay", "deck", "trailer"}
        != frozenset()
    )


def _asks_whatif(scene: Scene, asked: _Asked) -> bool:
    phrases = asked.topics["whatif"]
    about_rig = (
        scene.has("thing")
        or any(figure.dimension == LENGTH for figure in scene.figures)
        or scene.has("vehicle")
        or scene.has("name")
        or scene.has("axle")
        or scene.has("whole", "tongue")
        or scene.has("axle_noun")
        or "payload" in asked.words
        or any(
            f" {spot} " in asked.text
            for spot in (
                "in the bed",
                "in bed",
                "up front",
                "on the roof",
                "in the back",
                "in the cab",
            )
        )
    )
    if asked.distance is not None and asked.mass is None:
        return False
    if asked.mass is None and scene.has("rating") and asked.words & {"over", "under", "before"}:
        return False
    if phrases <= {"if the", "room for", "can i add", "can we add"} and asked.mass is None:
        return False
    if asked.mass is not None and asked.mass.dimension == MASS:
        return about_rig or bool(phrases & WHATIF_STRONG)
    return about_rig and bool(phrases - {"if the", "suppose", "room for"})


def _asks_plan(scene: Scene, asked: _Asked) -> bool:
    future = asked.words & {
        "will",
        "would",
        "gonna",
        "going",
        "if",
        "plan",
        "planning",
        "estimate",
        "budget",
        "need",
        "take",
        "run",
        "for",
    }
    fuelish = asked.words & FUEL or asked.words & {
        "cost",
        "fillups",
        "stops",
        "spend",
        "run",
        "fill",
        "fills",
    }
    if any(token.text in ("plan", "planning", "estimate", "budget") for token in scene.tokens[:2]):
        return asked.distance is not None or (bool(fuelish) and scene.has("name"))
    if asked.words & {"tank", "left"} and asked.words & {"get", "make", "last", "carry", "another"}:
        return False
    if (
        asked.distance is not None
        and future
        and fuelish
        and not asked.topics.get("range", set()) & RANGE_STRONG
    ):
        return not asked.words & {"make"} and "spent" not in asked.words
    if "plan" in asked.topics and fuelish and scene.has("name") and _destination(scene):
        return True
    return bool(
        asked.words & FUEL
        and asked.topics.get("plan")
        and _destination(scene)
        and asked.words & {"will", "would", "gonna", "how", "much", "many"}
        and not asked.words & {"spent", "left"}
    )


def _asks_range(scene: Scene, asked: _Asked) -> bool:
    phrases = asked.topics["range"]
    if phrases & RANGE_STRONG - {"range"}:
        return asked.strangers <= 3 and not asked.other
    if "range" in phrases:
        return asked.strangers == 0 and not asked.words & {"price", "stove"}
    if phrases & {"make it", "run out"}:
        return asked.distance is not None or bool(asked.words & FUEL and asked.ours)
    if asked.distance is not None and asked.words & {"tank", "fuel", "diesel", "gas"}:
        return bool(asked.words & {"get", "make", "last", "enough", "reach", "carry", "another"})
    return (
        bool(asked.words & FUEL)
        and (asked.ours or asked.words & {"tank"} != frozenset())
        and "left" in asked.words
    )


def _asks_upkeep(scene: Scene, asked: _Asked) -> bool:
    phrases = asked.topics["upkeep"]
    timed = asked.words & {
        "when",
        "due",
        "overdue",
        "next",
        "last",
        "long",
        "time",
        "far",
        "since",
        "need",
        "whens",
        "any",
        "still",
    }
    things = phrases - {
        "oil level",
        "due",
        "overdue",
        "service",
        "serviced",
        "inspection",
        "registration",
        "oil",
        "last serviced",
        "maintenance",
        "rotation",
        "filter",
        "due for",
    }
    if things and timed:
        return True
    about = scene.has("vehicle") or scene.has("name")
    return (
        bool(
            phrases
            & {
                "service",
                "maintenance",
                "due",
                "serviced",
                "overdue",
                "oil",
                "upkeep",
                "next service",
                "due for",
                "last serviced",
            }
        )
        and about
        and bool(timed)
    )


def _asks_margin(scene: Scene, asked: _Asked) -> bool:
    phrases = asked.topics.get("margin", set())
    if not phrases:
        return False
    placed = (
        scene.has("axle")
        or scene.has("rating")
        or scene.has("axle_noun")
        or scene.has("whole")
        or scene.has("vehicle")
        or scene.has("name")
        or scene.has("weigh_cue")
        or scene.has("rating_subject")
        or (scene.has("end") and "axle" in asked.words)
    )
    if asked.other and not placed:
        return False
    if phrases & MARGIN_STRONG:
        everyday = phrases & MARGIN_STRONG <= {"limit", "limits", "to spare", "exceed"}
        return placed or (asked.ours and not everyday and asked.strangers <= 1)
    if phrases <= {"how close"}:
        return (scene.has("rating") or scene.has("axle")) and asked.strangers == 0
    if phrases & {
        "legal",
        "over",
        "under",
        "inside",
        "within",
        "close to",
        "room",
        "left on",
        "ok on",
        "good on",
        "maxed",
        "spare",
        "over weight",
        "wiggle room",
        "leeway",
        "slack",
        "cushion",
        "left before",
        "how close",
        "over anything",
    }:
        if (
            phrases == {"over"}
            or phrases == {"under"}
            or phrases == {"room"}
            or phrases == {"legal"}
        ):
            strict = placed and (
                "are_we" in asked.forms
                or scene.has("rating")
                or scene.has("axle")
                or "how_much" in asked.forms
                or "how_far" in asked.forms
            )
            lone = phrases & {"legal", "over"} and asked.text.strip(" ?").endswith(
                ("are we legal", "are we over", "we over", "we legal", "are we over yet")
            )
            return strict or bool(lone)
        return placed and asked.strangers <= 3
    return False


def _asks_ratings(scene: Scene, asked: _Asked) -> bool:
    phrases = asked.topics["ratings"]
    if not phrases & RATING_WORDS:
        return (
            "max" in phrases and (scene.has("axle") or scene.has("whole", "tongue")) and asked.ours
        )
    if phrases <= {"rated", "rating", "ratings", "capacity", "plate", "rated for"}:
        listed = "ratings" in phrases and asked.strangers == 0 and len(asked.words) <= 6
        return (
            listed
            or _trade(scene)
            or scene.has("vehicle")
            or scene.has("rating_subject")
            or scene.has("subject", "tyre")
        )
    return True


def _asks_cost(scene: Scene, asked: _Asked) -> bool:
    phrases = asked.topics["cost"]
    if phrases & {
        "set us back",
        "set me back",
        "fuel spend",
        "fuel spending",
        "cost per mile",
        "cost a mile",
        "price per mile",
        "per mile",
        "fuel bill",
        "fuel costs",
        "fuel cost",
        "cost per km",
        "fuel money",
        "a mile",
    }:
        return not asked.other
    fuelish = bool(asked.words & FUEL) or scene.has("product")
    tank = {"tank", "fill", "fillup"} & asked.words and {
        "that",
        "last",
        "this",
        "the",
    } & asked.words
    ours = (asked.ours or bool(tank) or "damage" in asked.words) and not asked.other
    past = asked.words & {
        "damage",
        "spent",
        "paid",
        "cost",
        "spend",
        "did",
        "have",
        "costs",
        "total",
        "paying",
    }
    towed = scene.has("name") or asked.words & {"tow", "towing", "trip", "haul"}
    return bool(past) and ours and (fuelish or bool(towed))


def _asks_weight(scene: Scene, asked: _Asked) -> bool:
    if asked.other and not scene.has("name") and not scene.has("vehicle"):
        return False
    rig = (
        scene.has("vehicle")
        or scene.has("name")
        or scene.has("axle")
        or scene.has("axle_noun")
        or asked.topics["weight"]
        & {
            "last weigh",
            "weigh in",
            "scale",
            "scale ticket",
            "axle weights",
            "gross",
            "last weighing",
            "we weigh",
            "weighbridge",
            "whole combination",
            "combination",
        }
    )
    ours = asked.words & {"we", "were", "it", "our", "rig"}
    if asked.strangers > 2 or (asked.strangers and not rig):
        return False
    if "heavy" in asked.words or "heaviest" in asked.words:
        return rig or bool(ours & {"we", "were", "our", "rig"})
    return rig or bool(ours & {"we", "our", "rig"})


def _asks_distance(scene: Scene, asked: _Asked) -> bool:
    if asked.other and not scene.has("name"):
        return False
    counted = asked.words & {
        "driven",
        "many",
        "far",
        "total",
        "distance",
        "odometer",
        "odo",
        "mileage",
    }
    driven = asked.words & {
        "put",
        "done",
        "driven",
        "drive",
        "drove",
        "tow",
        "towed",
        "gone",
        "come",
        "covered",
        "odometer",
        "odo",
        "clock",
        "traveled",
        "travelled",
        "pulled",
        "went",
        "go",
        "racked",
        "did",
        "towing",
        "hauled",
        "made",
        "logged",
        "since",
    }
    plain = asked.words & {
        "miles",
        "km",
        "kms",
        "odometer",
        "odo",
        "mileage",
        "far",
        "kilometres",
        "kilometers",
        "ks",
    }
    if "far" in asked.words and not asked.words & {"miles", "km", "kms", "towed", "trailer", "odo"}:
        return (
            asked.ours
            and bool(
                driven
                & {"gone", "come", "driven", "towed", "tow", "pulled", "hauled", "drive", "go"}
            )
            and (
                scene.has("time")
                or scene.has("name")
                or "trip" in asked.words
                or "today" in asked.words
            )
        )
    return (
        bool(counted and plain and (driven or asked.words & {"odometer", "odo"}))
        and asked.strangers <= 2
    )


def _asks_summary(scene: Scene, asked: _Asked, topic: str) -> bool:
    if asked.other and not scene.has("name"):
        return False
    phrases = {phrase for found in asked.topics.values() for phrase in found}
    told = bool(phrases & SUMMARIES) or bool(
        asked.words & {"summary", "recap", "totals", "report", "log"}
    )
    told = told or (
        bool(asked.words & {"figures", "numbers"})
        and bool(asked.words & {"week", "weeks", "trip", "month"})
    )
    if told and asked.strangers <= 1:
        return True
    about = (
        asked.words & FUEL
        or asked.words
        & {
            "miles",
            "towing",
            "towed",
            "tow",
            "fuel",
            "mpg",
            "log",
            "numbers",
            "stats",
            "haul",
            "hauling",
        }
        or scene.has("name")
    )
    if topic == "trip":
        return (
            (
                bool(about)
                or any(
                    t
                    in (
                        "trip so far",
                        "trip total",
                        "trip totals",
                        "this tow",
                        "last tow",
                        "trip shaping up",
                        "trip going",
                        "trip coming along",
                    )
                    for t in asked.topics["trip"]
                )
            )
            and asked.strangers <= 2
            and asked.distance is None
        )
    if topic == "week":
        done = (
            "how did we do" in asked.text
            or "how are we doing" in asked.text
            or "how did the week" in asked.text
        )
        shown = "show" in asked.forms and asked.strangers == 0
        return done or shown or (bool(about) and asked.strangers <= 1)
    did = "how did we do" in asked.text or "what did we do" in asked.text
    shown = "show" in asked.forms and times.read_span(scene)[0] is not None and asked.strangers == 0
    return (
        bool(about and asked.strangers <= 1 and not asked.other and times.read_span(scene)[0])
        or did
        or shown
    )


VERBS = frozenset(["pull", "tow", "haul", "drive", "get", "go", "reach", "fill", "secure", "tie", "hold", "make", "take", "run", "do"])


def _destination(scene: Scene) -> str | None:
    """Where a plan goes: the name behind 'to'."""
    for index, token in enumerate(scene.tokens):
        if token.text not in (
            "to",
            "trip to",
            "to get to",
            "headed to",
            "heading to",
            "need to get to",
            "get to",
            "for",
        ):
            continue
        words = index + 1
        end = words
        while end < len(scene.tokens) and end - words < 3:
            following = scene.tokens[end]
            if (
                following.kind is not WORD
                or "name" in following.senses
                or "glue" in following.senses
            ):
                break
            upper = following.raw[0].isupper()
            if not upper and (following.senses or following.text in SMALL or end > words):
                break
            end += 1
        named = end > words and _capital(scene.tokens[words])
        if named or (
            end > words and token.text != "for" and scene.tokens[words].text not in MOVING | VERBS
        ):
            return scene.words_between(words, end)
    return None


def _position(scene: Scene, spots: list[Spot]) -> str | None:
    """The place that something goes to: the first behind a verb of moving."""
    verbs = [
        i
        for i, token in enumerate(scene.tokens)
        if token.text.split()[-1] in MOVING | {"go", "goes", "goin"}
    ]
    behind = [
        spot for spot in spots if any(verb < spot.start for verb in verbs) and spot.lead != "off"
    ]
    if behind:
        first = min(verb for verb in verbs)
        later = [spot for spot in behind if spot.start > first]
        return later[0].words if later else behind[0].words
    return spots[0].words if spots else None


def _origin(scene: Scene) -> str | None:
    """Where a plan starts: the name behind 'from'."""
    for index, token in enumerate(scene.tokens[:-1]):
        if token.text == "from":
            end = index + 1
            while end < len(scene.tokens) and end - index < 4 and _capital(scene.tokens[end]):
                end += 1
            return scene.words_between(index + 1, end) or None
    return None


def _capital(token: Token) -> bool:
    return token.kind is WORD and token.raw[0].isupper() and "name" not in token.senses


def _question(scene: Scene, book: Phrasebook, topic: str, asked: _Asked) -> Question:
    since, until = _span(scene, topic)
    destination = _destination(scene) if topic == "plan" else None
    mass = asked.mass if topic in ("whatif", "tiedown", "margin") else None
    spots = find_spots(scene, book) if topic == "whatif" else []
    position = _position(scene, spots)
    return Question(
        topic,
        distance=_distance(scene, topic, asked),
        value=_mass(scene, mass) if mass is not None and topic in ("whatif", "tiedown") else None,
        truck=_name(scene, "truck"),
        trailer=_name(scene, "trailer"),
        rating=_rating(scene) if topic in ("ratings", "margin") else None,
        field=_field(scene, topic) if topic in ("weight", "margin", "whatif") else None,
        item=_named_item(scene, topic, mass, asked),
        position=position,
        product=_product(scene) if topic == "cost" else None,
        since=_origin(scene) if destination else since,
        until=destination or until,
        text=scene.text,
    )


def _span(scene: Scene, topic: str) -> tuple[date | None, date | None]:
    if topic not in ("cost", "distance", "period", "economy", "trip", "weight", "margin"):
        return None, None
    if not (
        times.has_times(scene)
        or {"month", "year", "week", "weekend", "last", "past", "ytd"}
        & {w for t in scene.tokens for w in t.text.split()}
    ):
        return None, None
    return times.read_span(scene)


def _distance(scene: Scene, topic: str, asked: _Asked) -> Quantity | None:
    """How far: the way of a plan or a range, the shift of a load."""
    if topic in ("range", "plan"):
        return _quantity(asked.distance)
    if topic == "whatif":
        return _quantity(next((f for f in scene.figures if f.dimension == LENGTH), None))
    return None


def _quantity(figure: Figure | None) -> Quantity | None:
    return Quantity(figure.value, figure.unit) if figure is not None and figure.unit else None


def _mass(scene: Scene, figure: Figure) -> Quantity:
    return Quantity(figure.value, figure.unit or MASS_UNIT[scene.context.units])


def _name(scene: Scene, vehicle: str) -> str | None:
    for _, _, value in scene.find("name"):
        kind, _, name = value.partition(":")
        if kind == vehicle:
            return name
    return None


def _rating(scene: Scene) -> str | None:
    for _, _, key in scene.find("rating"):
        return key.split()[0]
    return None


FIELD_ORDER = ("steer", "drive", "trailer", "gross", "tongue")


def _field(scene: Scene, topic: str) -> str | None:
    """The load that a question names: an axle, the gross, the tongue."""
    for _, _, key in scene.find("axle"):
        return key
    for _, token, key in scene.find("whole"):
        if key in ("tongue", "gross") and not (
            topic == "margin" and token.text in ("total", "combined")
        ):
            return key
    for label in scene.labels:
        if label.end_of and label.wheel:
            return "steer" if label.end_of == "front" else "drive"
        if label.vehicle == "trailer" and label.wheel:
            return "trailer"
    return None


def _product(scene: Scene) -> str | None:
    for _, _, key in scene.find("product"):
        return key.split()[0]
    return None


UPKEEP_THINGS = frozenset(
    (
        "due",
        "overdue",
        "service",
        "serviced",
        "last serviced",
        "next service",
        "maintenance",
        "upkeep",
        "due for",
    )
)


def _named_item(scene: Scene, topic: str, mass: Figure | None, asked: _Asked) -> str | None:
    if topic == "upkeep":
        things = asked.topics["upkeep"] - UPKEEP_THINGS
        if things:
            return max(things, key=len)
        return "service" if "service" in asked.words else None
    if topic == "tiedown":
        return _tied_item(scene, mass) if mass is not None else None
    if topic == "whatif":
        return _moved_item(scene, mass)
    return None


def _tied_item(scene: Scene, mass: Figure) -> str | None:
    """'a 4,200 lb tractor', 'a tractor of 4,200 lb': the thing to tie down."""
    behind = mass.end
    if behind < len(scene.tokens) and scene.tokens[behind].text == "of":
        behind += 1
    item = noun_from(scene, behind)
    if item:
        return item
    for index, token in enumerate(scene.tokens):
        if token.text in ("a", "the", "my", "our") and (item := noun_from(scene, index + 1)):
            return item
    return None


MOVING = frozenset(
    (
        "slide",
        "move",
        "put",
        "shift",
        "add",
        "load",
        "throw",
        "take",
        "set",
        "moved",
        "stick",
        "slid",
        "strap",
        "hang",
        "carry",
        "moving",
        "adding",
        "putting",
        "pull",
        "dump",
        "drain",
    )
)


def _moved_item(scene: Scene, mass: Figure | None) -> str | None:
    """The thing that is put or moved: the noun behind the verb, or behind the mass."""
    if mass is not None:
        after = mass.end
        if after < len(scene.tokens) and scene.tokens[after].text == "of":
            after += 1
        if after < len(scene.tokens) and _thing(scene.tokens[after]):
            end = after
            while end < len(scene.tokens) and _thing(scene.tokens[end]):
                end += 1
            return scene.words_between(after, end)
    for index, token in enumerate(scene.tokens):
        last = token.text.split()[-1]
        if last not in MOVING and not (last == "if" and index + 1 < len(scene.tokens)):
            continue
        start = index + 1
        while start < len(scene.tokens) and scene.tokens[start].text in (
            "the",
            "a",
            "an",
            "my",
            "our",
            "another",
        ):
            start += 1
        end = start
        while (
            end < len(scene.tokens)
            and _thing(scene.tokens[end])
            and scene.tokens[end].text not in ("go", "goes", "going", "sits", "went")
        ):
            end += 1
        if end > start:
            return scene.words_between(start, end)
    return None


def _thing(token: Token) -> bool:
    return (
        token.kind is WORD
        and token.kind is not NUMBER
        and not (
            token.senses.keys()
            & {
                "glue",
                "vehicle",
                "name",
                "end",
                "axle",
                "whole",
                "unit",
                "talk",
                "question_word",
                "time",
                "level",
            }
        )
    )
