"""Questions of the road: how far, at what economy and cost, and the sums of a trip or some days.

Each topic has one small rule, as in `load_topics`. In which order the rules are tried is
`topics`' to say.
"""

from __future__ import annotations

from domain.reading.asked import LEFT_OF, MOST_NAMED, Asked
from domain.reading.evidence import names_rig
from domain.reading.figures import MONEY
from domain.reading.journeys import destination_of, goes_between_places, tells_plan
from domain.reading.scene import Scene
from domain.reading.spans import read_span
from domain.reading.tokens import TIME

ORDERS = frozenset(("show", "are_we"))
"""Forms in which a summary is asked for: 'give me the summary', 'can i get a summary'."""


def asks_plan(scene: Scene, asked: Asked) -> bool:
    """Whether it is asked what a journey will take."""
    fuelish = asked.says("fuel", "journey_cost") or _asks_what_it_takes(asked)
    if "plans" in scene.groups and any("plans" in token.groups for token in scene.tokens[:2]):
        told = tells_plan(scene) and not fuelish
        return not told and (
            asked.distance is not None
            or (fuelish and scene.has("name"))
            or (asked.stands("plans_journey") and goes_between_places(scene))
        )
    if asked.says("tank_or_left") and asked.says("lasts"):
        return False
    paid = fuelish and not asked.says("spent")
    if paid and asked.distance is not None and any(f.dimension == MONEY for f in scene.figures):
        return True  # 'is 200 bucks enough diesel for 450 miles'
    if (
        asked.distance is not None
        and fuelish
        and asked.says("future")
        and not asked.phrased("range", "surely_range", "range")
    ):
        whether = asked.forms == {"are_we"} and not asked.says("fuel")  # 'can we run 3 miles'
        return not (whether or asked.says("make", "spent"))
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


def _asks_what_it_takes(asked: Asked) -> bool:
    """'what's it gonna take to haul 320 mi to Bluffton', where 'how long' asks for the hours."""
    return "plan" in asked.topics and asked.forms == {"what"} and asked.phrased("plan", "takes_it")


def asks_range(scene: Scene, asked: Asked) -> bool:
    """Whether it is asked how far the tank goes."""
    return (
        ("range" in asked.topics and _range_phrased(asked))
        or (asked.said >= UNTIL_EMPTY and asked.strangers <= 1)
        or asked.said >= LEFT_IN_TANK
        or (asked.said >= ENOUGH_IN_TANK and bool(asked.forms & LEFT_OF))
    )


UNTIL_EMPTY = frozenset(("empty", "how_far", "until"))
LEFT_IN_TANK = frozenset(("left", "tank", "how_far"))
ENOUGH_IN_TANK = frozenset(("tank", "how_far", "gets_there", "future"))
"""Groups of words that together ask how far the tank goes."""


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


def asks_economy(scene: Scene, asked: Asked) -> bool:
    """Whether fuel over distance is asked for."""
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


def asks_cost(scene: Scene, asked: Asked) -> bool:
    """Whether it is asked what towing or fuel has cost."""
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


def asks_trip(scene: Scene, asked: Asked) -> bool:
    """Whether the sums of a trip are asked for."""
    if "trip" not in asked.topics or not _may_sum_up(scene, asked):
        return False
    if _sums_up(scene, asked) or asked.runs("how_did_we_do"):
        return True
    so_far = "how" in asked.forms and asked.stands("so_far")
    about = so_far or _about_the_log(scene, asked) or asked.phrased("trip", "surely_trip")
    return about and asked.strangers <= 2 and asked.distance is None


def asks_distance(scene: Scene, asked: Asked) -> bool:
    """Whether it is asked how far they drove."""
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


def asks_last_week(scene: Scene, asked: Asked) -> bool:
    """Whether the sums of the week before are asked for, which is a period."""
    return asked.stands("last_week") and asks_week(scene, asked)


def asks_week(scene: Scene, asked: Asked) -> bool:
    """Whether the sums of this week are asked for."""
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


def asks_period(scene: Scene, asked: Asked) -> bool:
    """Whether the sums of some days are asked for."""
    if asked.says("yet_to_come", "coming_up", "day_ahead"):
        return False
    named = "period" in asked.topics and _may_sum_up(scene, asked)
    since, until = read_span(scene)
    spanned = since is not None
    if named and _sums_up(scene, asked) and (spanned or _of_the_log_alone(scene, asked)):
        return True
    shown = "show" in asked.forms and asked.strangers == 0
    about = asked.strangers <= 1 and not asked.other and _about_the_log(scene, asked)
    did = asked.runs("how_did_we_do") and since != until  # and not 'how did we do last night'
    return spanned and (did or (named and (shown or about)))


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
