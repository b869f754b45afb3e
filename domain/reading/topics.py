"""Which topic a question asks for.

Each topic has one small rule, and the rules are tried in the order of `RULES`; the first that
holds names the topic. A rule looks at the phrases of its topic, at single words, at what the
message names and at how many words nobody knows; the words themselves are data. The forms of a
question, and what it names, are no matter of this file.
"""

from __future__ import annotations

from collections.abc import Callable

from domain.reading.asked import Asked
from domain.reading.cargo import find_spots, said_length
from domain.reading.evidence import (
    names_axle,
    names_rating,
    names_rig,
    names_whole,
    speaks_trade,
)
from domain.reading.figures import LENGTH, MASS
from domain.reading.particulars import destination_of, goes_between_places
from domain.reading.scene import Scene
from domain.reading.spans import read_span
from domain.reading.tokens import TIME

LOGGED_CLASSES = frozenset(
    ("weigh_cue", "odometer", "rating", "axle", "axle_noun", "product", "ticket", "subject")
)
"""Classes of term for what is logged: who asks for help with the log names one."""

ASKS_HOW_MUCH = frozenset(("what", "how_much"))
"""Forms of a question that asks for a figure."""

ASKS_LOAD = frozenset(("what", "how", "how_much", "show"))
"""Forms of a question in which a mere axle asks for its load."""

ASKS_WHAT = frozenset(("what", "are_we", "show"))
"""Forms of 'what is'."""

LEFT_OF = frozenset(("how_much", "how_far"))
"""Forms of a question that asks what is left of a rating."""

ASKS_RATING = frozenset(("what", "show"))
"""Forms of a question that asks for a rating by an everyday name."""

LONGEST_LIST = 6
"""Words, each counted once, of a request for every rating."""

ORDERS = frozenset(("show", "are_we"))
"""Forms in which a summary is asked for: 'give me the summary', 'can i get a summary'."""

MOST_NAMED = 3
"""Words that nobody knows: what a load is called has no more."""

Rule = Callable[[Scene, Asked], bool]


def topic_of(scene: Scene, asked: Asked) -> str | None:
    """The topic that is asked for, or None where it is talk."""
    return next((topic for topic, asks in RULES if asks(scene, asked)), None)


def _help(scene: Scene, asked: Asked) -> bool:
    """What can be texted, and how something is logged; 'how do i look' asks a person."""
    if "help" not in asked.topics:
        return False
    if asked.phrased("help", "whole_help") and _nothing_beside(scene, asked):
        return True
    told = asked.phrased("help", "surely_help") and not asked.stands("logs_in")
    texts = asked.phrased("help", "texts_drawbar") and "what" in asked.forms
    thing = asked.stands("logged_thing")
    logged = thing or not LOGGED_CLASSES.isdisjoint(scene.by_class)
    if told or (texts and asked.says("may_text")):
        return asked.strangers <= 1 or logged
    mended = asked.says("mends") and (thing or scene.has("odometer") or scene.has("rating"))
    return asked.strangers == 0 and (mended or (logged and asked.stands("records")))


def _nothing_beside(scene: Scene, asked: Asked) -> bool:
    """Whether a message asks for help and for nothing else: 'what can you do about it' does."""
    phrases = {word for phrase in asked.topics["help"] for word in phrase.split()}
    beside = scene.book.groups["beside_help"]
    return all(word in phrases or word in beside or not word.isalpha() for word in asked.words)


def _of_others(scene: Scene, asked: Asked) -> bool:
    """What is asked of other people, without a word of the trade, is talk."""
    return asked.other and not speaks_trade(scene)


def _tiedown(scene: Scene, asked: Asked) -> bool:
    if "tiedown" not in asked.topics:
        return False
    many = (
        ("?" in asked.text and asked.says("lashing"))
        or asked.runs("how_many")
        or asked.says("asks_lashing")
        or ("how" in asked.forms and asked.phrased("tiedown", "ties_down"))
    )
    return many and (asked.mass is not None or asked.says("lashed"))


def _whatif(scene: Scene, asked: Asked) -> bool:
    if "whatif" not in asked.topics:
        return False
    if asked.within("whatif", "supposed_move") and not asked.says("weighs_move"):
        return False  # 'moving 300 lb of hay tomorrow, ok?'
    if asked.mass is None:
        of_others = asked.other and not scene.has("name")
        if of_others or asked.strangers > MOST_NAMED:
            return False
        rated = names_rating(scene) and asked.says("against_rating")
        needs_mass = asked.within("whatif", "whatif_of_mass")
        if asked.distance is not None or rated or needs_mass or asked.stands("until_over"):
            return False
        if asked.phrased("whatif", "surely_whatif") and asked.stands("takes_load_off"):
            return asked.strangers <= MOST_NAMED  # 'what if we dump the fresh water'
    about_rig = (
        scene.has("thing")
        or any(figure.dimension == LENGTH for figure in scene.figures)
        or any(said_length(scene, spot.start) is not None for spot in find_spots(scene))
        or (scene.has("name") and (asked.mass is not None or bool(asked.forms & LEFT_OF)))
        or names_axle(scene, asked, "axle", "axle_noun")
        or scene.has("whole", "tongue")
        or asked.says("payload")
        or asked.stands("where_loaded")
    )
    if asked.mass is not None and asked.mass.dimension == MASS:
        return about_rig or names_rig(scene) or _loads_more(scene, asked) or bool(find_spots(scene))
    loaded = names_rig(scene) and (asked.mass is not None or asked.stands("onto_rig"))
    return (about_rig or loaded) and not asked.within("whatif", "weak_whatif")


def _loads_more(scene: Scene, asked: Asked) -> bool:
    """'suppose we threw the 340 lb extractor on'; to suppose a weight lost moves no load."""
    if asked.other or not asked.phrased("whatif", "surely_whatif"):
        return False
    moved = scene.has("load_verb") or asked.says("moves")
    return moved or not asked.within("whatif", "merely_supposes")


def _plan(scene: Scene, asked: Asked) -> bool:
    fuelish = asked.says("fuel", "journey_cost")
    if any("plans" in token.groups for token in scene.tokens[:2]):
        return (
            asked.distance is not None
            or (fuelish and scene.has("name"))
            or (asked.stands("plans_journey") and goes_between_places(scene))
        )
    if asked.says("tank_or_left") and asked.says("lasts"):
        return False
    if (
        asked.distance is not None
        and fuelish
        and asked.says("future")
        and not asked.phrased("range", "surely_range", "range")
    ):
        return not asked.says("make", "spent")
    if asked.distance is not None and asked.forms & LEFT_OF and asked.says("fuel"):
        between = asked.says("from") and destination_of(scene) is not None
        if between and not asked.says("tank_or_left", "gets_enough"):
            return True  # 'how much fuel to get from Elko to Wells, 50 miles'
        if asked.says("counted") and asked.stands("goes_the_way"):
            return True  # 'how many gallons to go 410 miles'
    if "plan" not in asked.topics or not fuelish or not destination_of(scene):
        return False
    if scene.has("name"):
        return True
    ahead = asked.says("asks_ahead") and not asked.says("spent", "left")
    return ahead and (asked.says("fuel") or asked.distance is not None)


def _range(scene: Scene, asked: Asked) -> bool:
    return (
        ("range" in asked.topics and _range_phrased(asked))
        or (
            asked.strangers <= 1 and all(asked.says(each) for each in ("empty", "how_far", "until"))
        )
        or all(asked.says(group) for group in ("left", "tank", "how_far"))
        or (
            bool(asked.forms & LEFT_OF)
            and all(asked.says(group) for group in ("tank", "how_far", "gets_there", "future"))
        )
    )


def _range_phrased(asked: Asked) -> bool:
    if asked.phrased("range", "surely_range"):
        return asked.strangers <= 3 and not asked.other
    if asked.phrased("range", "range"):
        return asked.strangers == 0 and not asked.stands("other_range")
    if asked.phrased("range", "makes_it"):
        return asked.distance is not None or (asked.says("fuel") and asked.ours)
    if asked.distance is not None and asked.says("fuel_in_tank"):
        return asked.says("gets_there")
    ours = asked.ours or asked.says("tank")
    return ours and asked.says("fuel") and asked.says("left")


def _upkeep(scene: Scene, asked: Asked) -> bool:
    if "upkeep" not in asked.topics or not asked.says("when_due"):
        return False
    if asked.strangers > MOST_NAMED or asked.says("summary_asked"):
        return False
    if asked.within("upkeep", "chore_done") and not asked.says("asks_when"):
        return asked.strangers == 0  # 'got my oil changed, any idea why it knocks'
    if not asked.within("upkeep", "needs_the_rig_named"):
        return True
    if not (asked.phrased("upkeep", "service") and asked.says("surely_due")):
        return False
    nothing_else = (
        bool(asked.forms)
        and asked.strangers == 0
        and not (asked.other or asked.says("day_ahead") or scene.has("time"))
        and (asked.says("service_word") or not asked.says("points_at_a_thing"))
    )
    return names_rig(scene) or nothing_else


def _margin(scene: Scene, asked: Asked) -> bool:
    left_of = asked.forms & LEFT_OF or asked.runs("how_close")
    till = "whatif" in asked.topics and asked.says("till_limit")
    if names_rating(scene) and (till or asked.says("spared")) and left_of and not asked.other:
        # 'how much payload do i have left', 'how much more can she carry before we bust the gvwr'
        return asked.strangers <= (2 if till else 1 if asked.ours else 0)
    phrases = asked.topics.get("margin")
    if not phrases:
        return False
    axle = names_axle(scene, asked)
    placed = (
        axle
        or names_rating(scene)
        or names_axle(scene, asked, "axle_noun")
        or names_whole(scene, asked)
        or names_rig(scene)
        or (scene.has("weigh_cue") and asked.strangers == 0)
        or scene.has("rating_subject")
        or (scene.has("end") and asked.says("axle"))
    )
    if asked.other and not placed:
        return False
    limited = names_rating(scene) or axle
    plain = phrases <= scene.book.groups["limit_word"] and limited
    what = "what" in asked.forms and asked.forms <= ASKS_WHAT
    if plain and what and not asked.says("spared"):
        return False  # 'what's the nose weight limit' asks for a rating
    if "tongue" in asked.topics and asked.within("margin", "good_on"):
        return False  # 'is the nose weight ok on the caravan' asks for its share
    sure = phrases & scene.book.groups["surely_margin"]
    if sure:
        everyday = sure <= scene.book.groups["everyday_margin"]
        if everyday:
            only_that = asked.ours and asked.strangers == 0 and phrases > sure
            return placed or only_that
        return placed or asked.strangers == 0 or (asked.says("our_rig") and asked.strangers <= 1)
    if asked.within("margin", "how_close"):
        return limited and asked.strangers == 0
    if not asked.phrased("margin", "weak_margin"):
        return False
    if len(phrases) == 1 and asked.phrased("margin", "weakest_margin"):
        if scene.has("rating_cue") and asked.strangers == 0:
            return True
        strict = limited or scene.has("rating_subject")
        formed = asked.forms & {"are_we", "how_much", "how_far"}
        vague = asked.within("margin", "room_word") and not asked.says("spared")
        asks = placed and asked.strangers <= 2 and (strict or bool(formed and not vague))
        return asks or _asks_only_that(scene, asked)
    return placed and asked.strangers <= 3


def _asks_only_that(scene: Scene, asked: Asked) -> bool:
    """'are we legal', and nothing behind it."""
    lone = asked.phrased("margin", "legal_or_over")
    return lone and asked.text.strip(" ?").endswith(tuple(scene.book.groups["are_we_over"]))


def _tongue(scene: Scene, asked: Asked) -> bool:
    """The trailer's tongue, and not the one in a mouth or a pin on a map."""
    if "tongue" not in asked.topics or "ratings" in asked.topics:
        return False
    if asked.phrased("tongue", "surely_tongue_asked"):
        return True
    ours = asked.ours or asked.says("mass_unit")
    return asked.strangers <= (1 if ours else 0) and asked.says("asks_tongue")


def _can_tow(scene: Scene, asked: Asked) -> bool:
    """'how much can Juniper tow': a rating of the truck, and nothing that is loaded."""
    told = [word for word in asked.text.split() if word.isalpha()]
    tows = bool(told) and told[-1] in scene.book.groups["tows"] and asked.says("can")
    if not tows or asked.says("still_more"):
        return False
    weighs = asked.forms & ASKS_HOW_MUCH and asked.mass is None and asked.distance is None
    truck = scene.has("vehicle", "truck") or bool(scene.named("truck"))
    return bool(weighs) and truck and asked.strangers == 0 and not asked.other


def _ratings(scene: Scene, asked: Asked) -> bool:
    if "ratings" not in asked.topics:
        return False
    placed = names_axle(scene, asked) or scene.has("whole", "tongue")
    if not asked.phrased("ratings", "surely_ratings"):
        return placed and asked.ours and asked.phrased("ratings", "max")
    listed = asked.phrased("ratings", "lists_ratings") and "how" not in asked.forms
    if listed and asked.strangers == 0 and len(asked.words) <= LONGEST_LIST:
        return True
    if asked.within("ratings", "everyday_rating"):
        # a payload is also a message's, and atm a cash machine or 'at the moment'
        owned = asked.stands("rating_owned") and not asked.forms.isdisjoint(ASKS_RATING)
        known = asked.strangers <= (1 if asked.ours else 0) and not asked.other
        ours = (owned or not asked.forms) and known and names_rating(scene)
        return ours or names_rig(scene)
    if not asked.within("ratings", "weak_ratings"):
        return True
    return (
        speaks_trade(scene)
        or names_rig(scene)
        or placed
        or scene.has("rating_subject")
        or scene.has("subject", "tyre")
    )


def _economy(scene: Scene, asked: Asked) -> bool:
    phrases = asked.topics.get("economy")
    if not phrases or asked.stands("other_economy"):
        return False
    if asked.strangers > (MOST_NAMED if names_rig(scene) else MOST_NAMED - 1):
        return False
    if phrases & scene.book.groups["surely_economy"]:
        return True
    if phrases & scene.book.groups["everyday_economy"]:
        return _economy_of_rig(scene, asked)
    if asked.says("burns") and asked.says("fuel", "per_hundred"):
        return True
    ours = asked.ours and (
        asked.strangers == 0 or scene.has("name") or asked.says("our_rig", "were")
    )
    return ours and not asked.other and asked.says("mileage") and not asked.says("odometer")


def _economy_of_rig(scene: Scene, asked: Asked) -> bool:
    """'economy last month', 'how thirsty are we': no country's economy, and nobody's thirst."""
    if asked.other or asked.strangers > 1:
        return False
    if scene.has("name") or asked.stands("our_economy"):
        return True
    if asked.strangers:
        return False
    if names_rig(scene) or asked.says("fuel"):
        return True
    dated = asked.text.split()[0] in scene.book.groups["everyday_economy"]
    return dated and read_span(scene)[0] is not None


def _cost(scene: Scene, asked: Asked) -> bool:
    if "cost" not in asked.topics or asked.other or asked.says("yet_to_come"):
        return False
    if asked.phrased("cost", "surely_cost"):
        return True
    tank = asked.says("tank_or_fill", "tow_or_trip") and asked.says("points_at")
    fuelled = asked.says("fuel") or scene.has("product")
    towed = scene.has("name") or asked.says("tow_or_trip")
    if asked.phrased("cost", "cost_per_distance"):
        return asked.says("costs") and (asked.ours or fuelled or towed or asked.strangers == 0)
    if asked.phrased("cost", "set_back"):
        return fuelled or towed
    if asked.says("tow_or_trip") and asked.says("costs") and len(scene.tokens) <= LONGEST_COST:
        return asked.strangers == 0  # 'trip cost?', 'cost of this tow'
    in_fuel = fuelled and asked.says("money_word")
    ours = asked.ours or tank or asked.says("damage") or in_fuel
    spent = asked.says("damage", "spends") and not asked.says("asks_price")
    return in_fuel or (ours and spent and (fuelled or towed))


LONGEST_COST = 5
"""Tokens of a question that is no more than what a trip cost."""


def _trip(scene: Scene, asked: Asked) -> bool:
    if "trip" not in asked.topics or not _may_sum_up(scene, asked):
        return False
    if _sums_up(scene, asked) or asked.runs("how_did_we_do"):
        return True
    so_far = "how" in asked.forms and asked.stands("so_far")
    about = so_far or _about_the_log(scene, asked) or asked.phrased("trip", "surely_trip")
    return about and asked.strangers <= 2 and asked.distance is None


def _weight(scene: Scene, asked: Asked) -> bool:
    if "weight" not in asked.topics or (asked.other and not names_rig(scene)):
        return False
    if not asked.forms and not scene.labels and scene.figures:
        return False  # 'meet at the scale at 10?'
    if asked.within("weight", "surely_axle") and (asked.strangers or not asked.forms & ASKS_LOAD):
        return False
    if asked.within("weight", "axle_or_word"):
        named = asked.stands("drives_named") and not asked.forms.isdisjoint(ASKS_LOAD)
        return named and asked.strangers == 0  # and not 'who drives'
    gross = names_rig(scene) or asked.stands("gross_named")
    if asked.within("weight", "gross_word") and not gross:
        return False  # 'is it gross'
    rig = (
        names_rig(scene)
        or names_axle(scene, asked, "axle", "axle_noun")
        or scene.has("whole", "gross")
        or asked.phrased("weight", "surely_weight")
    )
    named = asked.ours or names_rig(scene) or names_axle(scene, asked, "axle", "axle_noun")
    if asked.strangers > 2 or (asked.strangers and not (rig and named)):
        return False
    ours = asked.says("our_rig")
    if asked.says("heavy"):
        return rig or ours or asked.says("were")
    return rig or ours


def _distance(scene: Scene, asked: Asked) -> bool:
    if "distance" not in asked.topics or (asked.other and not scene.has("name")):
        return False
    if asked.says("far") and not asked.says("measures_far"):
        dated = scene.has("time") or scene.has("name") or asked.says("trip_or_today", "since")
        return asked.ours and dated and asked.says("goes_far")
    driven = asked.says("odometer", "goes_far", "covers")
    counted = asked.says("counts_distance") and asked.says("distance_word")
    return (
        counted
        and driven
        and asked.strangers <= (2 if asked.ours or asked.forms or scene.has("time") else 0)
    )


def _last_week(scene: Scene, asked: Asked) -> bool:
    return asked.stands("last_week") and _week(scene, asked)


def _week(scene: Scene, asked: Asked) -> bool:
    if not ("week" in asked.topics or asked.stands("week")):
        return False
    if not _may_sum_up(scene, asked) or asked.stands("any_week"):
        return False
    shown = "show" in asked.forms and asked.strangers == 0
    return (
        _sums_up(scene, asked)
        or asked.runs("how_did_we_do")
        or asked.runs("how_did_the_week")
        or (asked.runs("how_looks_the_week") and asked.strangers == 0)
        or shown
        or (asked.strangers <= 1 and _about_the_log(scene, asked))
    )


def _period(scene: Scene, asked: Asked) -> bool:
    if asked.says("yet_to_come", "coming_up", "day_ahead"):
        return False
    named = "period" in asked.topics and _may_sum_up(scene, asked)
    spanned = read_span(scene)[0] is not None
    if named and _sums_up(scene, asked) and (spanned or _of_the_log_alone(scene, asked)):
        return True
    shown = "show" in asked.forms and asked.strangers == 0
    about = asked.strangers <= 1 and not asked.other and _about_the_log(scene, asked)
    asks = (named and (shown or about)) or asked.runs("how_did_we_do")
    return asks and spanned


def _of_the_log_alone(scene: Scene, asked: Asked) -> bool:
    """A summary without days: of the log, and not of a film or of the show."""
    of = asked.stands("summary_of") and not (
        _about_the_log(scene, asked) or asked.says("all_of_it")
    )
    ordered = asked.forms <= ORDERS and not asked.says("points_at_a_thing")
    return asked.strangers == 0 and ordered and not of


def _may_sum_up(scene: Scene, asked: Asked) -> bool:
    if TIME in scene.kinds and any(t.kind is TIME and ":" in t.text for t in scene.tokens):
        return False  # 'I need the car from Friday next week at 2 pm'
    return not asked.other or scene.has("name")


def _sums_up(scene: Scene, asked: Asked) -> bool:
    """A word for a summary, and hardly one that nobody knows."""
    summary = scene.book.groups["summary"]
    return asked.strangers <= 1 and (
        any(not summary.isdisjoint(phrases) for phrases in asked.topics.values())
        or asked.says("summary_asked")
        or (asked.says("figures") and asked.says("summed_span"))
    )


def _about_the_log(scene: Scene, asked: Asked) -> bool:
    return scene.has("name") or asked.says("fuel", "of_the_log")


RULES: tuple[tuple[str | None, Rule], ...] = (
    ("help", _help),
    ("ratings", _can_tow),
    ("whatif", _whatif),
    (None, _of_others),
    ("tiedown", _tiedown),
    ("plan", _plan),
    ("range", _range),
    ("upkeep", _upkeep),
    ("margin", _margin),
    ("tongue", _tongue),
    ("ratings", _ratings),
    ("economy", _economy),
    ("cost", _cost),
    ("trip", _trip),
    ("weight", _weight),
    ("distance", _distance),
    ("period", _last_week),
    ("week", _week),
    ("period", _period),
)
"""The topics in the order in which they are tried; None is talk."""
