"""What a question names: its span, rig, load, place, thing and figures.

This file fills in a question whose topic is known. What the topic has no use for stays empty;
names, places and things are kept in the words of the message.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from domain.context import MASS_UNIT
from domain.quantities import Quantity
from domain.reading.asked import Asked
from domain.reading.figures import ECONOMY, LENGTH, MASS, MONEY, SHARE, VOLUME, Figure
from domain.reading.how_many import MOST_ALIKE, how_many
from domain.reading.journeys import destination_of, origin_of
from domain.reading.scene import Scene
from domain.reading.short_questions import part_looked_after
from domain.reading.spans import names_year, read_span
from domain.reading.spots import Spot, find_spots, said_length
from domain.reading.talk import OTHER_VEHICLE
from domain.reading.things import noun_from
from domain.reading.times import has_times
from domain.reading.tokens import NO_GROUPS, NUMBER, WORD, Token
from domain.verdicts import JUDGED, MORE, OF_TRIP, Question

DATED_TOPICS = frozenset(("cost", "distance", "period", "economy", "trip", "weight", "margin"))
OTHERWISE_MEANT = frozenset(
    (
        "glue",
        "hitch",
        "aboard",
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
        "correction",
    )
)
"""Classes of term that are no thing to be moved."""


def _position(scene: Scene, spots: list[Spot]) -> str | None:
    """The place that something goes to: the first behind a verb of moving."""
    if not spots:
        return None
    moves = scene.book.groups["moves"] | scene.book.groups["goes"]
    verbs = [i for i, token in enumerate(scene.tokens) if _last_word(token) in moves]
    spots = [spot for spot in spots if not _is_felt(scene, spot)]
    behind = [
        spot
        for spot in spots
        if any(verb < spot.start for verb in verbs) and spot.lead not in scene.book.groups["off"]
    ]
    if behind:
        return behind[0].words
    return spots[0].words if spots else None


def _is_felt(scene: Scene, spot: Spot) -> bool:
    """'what happens to the tongue': nothing is put there."""
    before = scene.tokens[max(0, spot.start - 1) : spot.start]
    to = scene.book.groups["to"]
    return spot.lead in to and any("has_effect" in token.groups for token in before)


def question_of(scene: Scene, topic: str, asked: Asked) -> Question:
    """A question of that topic with everything that it names."""
    supposed = topic in SUPPOSES and asked.mass is not None and _is_supposed(scene, asked.mass)
    topic = "margin" if supposed else topic
    since, until = _span(scene, topic)
    destination = destination_of(scene) if topic == "plan" else None
    mass = asked.mass if topic in OF_A_LOAD else None
    more = topic == "whatif" and mass is None and asks_how_much_more(asked)
    form = JUDGED if supposed else MORE if more else None
    spots = find_spots(scene) if topic == "whatif" else []
    position = _position(scene, spots)
    return Question(
        "margin" if more else topic,
        distance=_distance(scene, topic, asked, spots),
        value=_mass(scene, mass) if mass is not None else _held_against(scene, topic),
        truck=next(iter(scene.named("truck")), None),
        trailer=next(iter(scene.named("trailer")), None),
        rating=_rating_asked(scene, topic),
        field=_field(scene, topic) if topic in OF_A_FIELD else None,
        item=_named_item(scene, topic, mass, asked),
        position=position,
        product=_product(scene) if topic == "cost" else None,
        since=origin_of(scene) if destination else since,
        until=destination or until,
        form=form or (_form(scene, topic, asked) if since is None else None),
        text=scene.text,
    )


def asks_how_much_more(asked: Asked) -> bool:
    """'how much more can we load on the flatdeck': what is left is asked for, and no load named."""
    capacity = asked.phrased("whatif", "asks_capacity") or asked.phrased("margin", "asks_capacity")
    return capacity and not asked.says("if")


OF_A_LOAD = frozenset(("whatif", "tiedown", "margin", "weight", "tongue"))
OF_A_FIELD = frozenset(("weight", "margin", "whatif"))
"""Topics whose question names a load or an axle, and those that may name how heavy it is."""


def _held_against(scene: Scene, topic: str) -> Quantity | None:
    """'is 9.8 mpg normal', 'how far on half a tank': a figure of the topic's own kind."""
    if topic == "range":
        return fuel_told(scene)
    kind = HELD_AGAINST.get(topic)
    for figure in scene.figures:
        if kind is not None and figure.claimed is None and figure.dimension == kind:
            return _quantity(figure)
    return None


HELD_AGAINST = {"economy": ECONOMY, "cost": MONEY, "tongue": SHARE, "whatif": VOLUME}


def volume_told(scene: Scene) -> Quantity | None:
    """The volume that a question names: '60 gallons of water', 'ten gallons'."""
    for figure in scene.figures:
        if figure.dimension == VOLUME and figure.unit:
            return Quantity(figure.value, figure.unit)
    return None


def fuel_told(scene: Scene) -> Quantity | None:
    """The fuel that a range is asked of: 'ten gallons', 'half a tank', 'a quarter tank'."""
    told = volume_told(scene)
    if told is not None:
        return told
    for _, _, level in scene.find("level"):
        return Quantity(100 * float(level.split()[0]), "%")
    for figure in scene.figures:
        behind = scene.tokens[figure.end : figure.end + TANK_BEHIND]
        if 0 < figure.value < 1 and any("tank" in token.senses for token in behind):
            return Quantity(100 * figure.value, "%")
    return None


TANK_BEHIND = 3
"""Tokens of '3/8 of a tank' behind the figure."""


def _form(scene: Scene, topic: str, asked: Asked) -> str | None:
    """'what did this tow cost': of the trip, where no days are named; 'is 5,640 over': judged."""
    if topic in OF_A_LIMIT and asked.mass is not None:
        return JUDGED if _is_weighed_up(scene, asked.mass) else None
    return OF_TRIP if topic == "cost" and asked.says("tow_or_trip") else None


OF_A_LIMIT = frozenset(("margin", "tongue"))
"""Topics in which a load can be told and held against what bounds it."""


SUPPOSES = frozenset(("margin", "whatif"))
"""Topics in which it may be supposed what an axle or a vehicle weighs, and nothing is loaded."""


def _is_supposed(scene: Scene, mass: Figure) -> bool:
    """'if the drive axle was 7,150', 'suppose the gross is 27,400': a load, and no cargo."""
    before = scene.tokens[: mass.start]
    said = [token for token in before if "before_question" not in token.groups]
    if not any("supposes" in token.groups for token in said[:2]):
        return False
    stands = "is_at" in scene.book.memberships.get(_last_word(before[-1]), NO_GROUPS)
    named = {key for token in before for key in token.senses}
    return stands and not WEIGHED.isdisjoint(named)


WEIGHED = frozenset(("axle", "axle_noun", "whole", "vehicle", "name"))
"""Classes of term for what stands on a scale."""


def _is_weighed_up(scene: Scene, mass: Figure) -> bool:
    """'is 5,640 on the steer axle over', 'would a 1,240 lb tongue be too much'."""
    said = [token for token in scene.tokens[: mass.start] if "before_question" not in token.groups]
    inverts = bool(said) and "inverts" in said[0].groups
    stands = said[-1:] and "is_at" in said[-1].groups  # 'would the flatdeck be legal at 12,500'
    return inverts and (bool(stands) or all("article" in token.groups for token in said[1:]))


def _span(scene: Scene, topic: str) -> tuple[date | None, date | None]:
    if topic not in DATED_TOPICS:
        return None, None
    words = scene.words()
    dated = has_times(scene) or not scene.book.groups["span_word"].isdisjoint(words)
    if not (dated or names_year(scene)):
        return None, None
    return read_span(scene)


def _distance(scene: Scene, topic: str, asked: Asked, spots: Sequence[Spot]) -> Quantity | None:
    """How far: the way of a plan or a range, until what is due, the shift of a load."""
    if topic in ("range", "plan", "upkeep"):
        return _quantity(asked.distance)
    if topic == "whatif":
        length = _quantity(next((f for f in scene.figures if f.dimension == LENGTH), None))
        said = (said_length(scene, spot.start) for spot in spots)
        return length or next((each for each in said if each is not None), None)
    return None


def _quantity(figure: Figure | None) -> Quantity | None:
    if figure is None or not figure.unit:
        return None
    return Quantity(figure.value, figure.unit, figure.low)


def _mass(scene: Scene, figure: Figure) -> Quantity:
    count = how_many(scene, figure)
    unit = figure.unit or MASS_UNIT[scene.context.units]
    return Quantity(count * figure.value, unit, figure.low and count * figure.low)


def _rating(scene: Scene, spots: Sequence[Spot] = ()) -> str | None:
    """The rating that is named, and not as a place: '400 lb on the deck'."""
    for index, _, key in scene.find("rating"):
        if not any(spot.start <= index < spot.end for spot in spots):
            return key.split()[0]
    return None


LIMITS = {"steer": "gawr_front", "drive": "gawr_rear", "trailer": "gawr", "tongue": "tongue"}
"""Which rating limits a load."""


def _rating_asked(scene: Scene, topic: str) -> str | None:
    """The rating that a question names; one about ratings names it by the load it limits, too."""
    if topic == "ratings":
        named = _rating(scene)
        of = LIMITS.get(_field(scene, topic) or "") if named in (None, "gawr") else None
        return of or named
    if topic == "whatif":
        return _rating(scene, find_spots(scene))
    if topic != "margin":
        return None
    return _rating(scene) or ("gcwr" if _is_combined(scene) else None)


def _is_combined(scene: Scene) -> bool:
    """'my combined weight margin': what truck and trailer may weigh together."""
    words = scene.book.groups["combination"]
    return "whole" in scene.by_class and any(
        key == "gross" and not words.isdisjoint(token.text.split())
        for _, token, key in scene.find("whole")
    )


def _field(scene: Scene, topic: str) -> str | None:
    """The load that a question names: an axle, the gross, the tongue."""
    for _, _, key in scene.find("axle"):
        return key
    for index, token, key in scene.find("whole"):
        told = topic == "margin" and ("in_all" in token.groups or _is_combined(scene))
        told = told or (topic == "whatif" and _of_goods(scene, index))
        if key in ("tongue", "gross") and not told:
            return key
    for label in scene.labels or ([] if WHEELS.isdisjoint(scene.by_class) else scene.find_labels()):
        if label.end_of and label.wheel:
            return "steer" if label.end_of == "front" else "drive"
        if label.vehicle == "trailer" and label.wheel:
            return f"trailer_{label.ordinal}" if label.ordinal else "trailer"
    for index, _, _ in scene.find("vehicle", "trailer"):
        behind = scene.tokens[index + 1 : index + 2]
        if behind and behind[0].text.split(" ")[0] in scene.book.groups["axle_word"]:
            counted = scene.tokens[index - 1].senses.get("ordinal", "") if index else ""
            return f"trailer_{counted}" if counted.isdigit() else "trailer"  # 'axle weight'
    return None


WHEELS = frozenset(("axle_noun", "numbered_axle"))
"""Classes of term that make an axle of an end or of a trailer."""


def _of_goods(scene: Scene, index: int) -> bool:
    """'the 4 bikes, 130 lbs total': what all of them weigh, and no gross."""
    return any(each.end == index and each.dimension == MASS for each in scene.figures)


def _product(scene: Scene) -> str | None:
    for _, _, key in scene.find("product"):
        return key.split()[0]
    return None


def _named_item(scene: Scene, topic: str, mass: Figure | None, asked: Asked) -> str | None:
    if topic == "upkeep":
        things = asked.topics.get("upkeep", set()) - scene.book.groups["no_chore"]
        chores = things - scene.book.groups["chore_verb"]
        tended = things and not chores and not asked.says("plain_due")
        if tended and (part := part_looked_after(scene)):
            return part  # 'the ball last greased'
        things = chores or things
        if things:
            # The first that was said, the longest there: 'gear oil changed' is no 'oil changed'.
            return min(things, key=lambda each: (asked.text.find(each), -len(each)))
        return "service" if asked.says("service_word") else None
    if topic == "tiedown":
        return _tied_item(scene, mass) if mass is not None else _tied_down(scene)
    if topic == "whatif":
        return _moved_item(scene, mass or _poured(scene))
    return _part(scene) if topic in ("margin", "ratings") else None


def _poured(scene: Scene) -> Figure | None:
    """'60 gallons of fresh water': so much of a thing that is taken aboard."""
    for figure in scene.figures:
        of = scene.tokens[figure.end : figure.end + 1]
        if figure.dimension == VOLUME and any("of" in token.groups for token in of):
            return figure
    return None


def _part(scene: Scene) -> str | None:
    """'is the coupler overloaded', 'what are the tyres rated for': a part with a limit."""
    for index, token, _ in scene.find("rating_subject"):
        if "rating" not in token.senses:
            words = scene.words_between(index, index + 1).split()
            while len(words) > 1 and "rating_cue" in scene.book.words.get(words[-1].casefold(), {}):
                words.pop()  # 'the coupler rated'
            return " ".join(words)
    for index, _, key in scene.find("subject"):
        if key.split()[0] == "tyre":
            return scene.words_between(index, index + 1)
    return None


def _tied_item(scene: Scene, mass: Figure) -> str | None:
    """'a 4,200 lb tractor', 'a tractor of 4,200 lb': the thing to tie down."""
    behind = mass.end
    if behind < len(scene.tokens) and "of" in scene.tokens[behind].groups:
        behind += 1
    asks = any("asks_amount" in token.groups for token in scene.tokens[behind : behind + 1])
    item = None if asks else noun_from(scene, behind) or _compound(scene, behind)
    item = item or _named_before(scene, mass)
    if item:
        return item
    for index, token in enumerate(scene.tokens):
        if "article" in token.groups and (item := noun_from(scene, index + 1)):
            return item
    return None


def _tied_down(scene: Scene) -> str | None:
    """'how should i tie down the extractor': the thing behind the verb."""
    owners, words = scene.owners(), scene.words()
    for phrase in scene.book.groups["ties_what"]:
        said = phrase.split()
        for at in range(len(words) - len(said)):
            if list(words[at : at + len(said)]) == said:
                return noun_from(scene, owners[at + len(said) - 1] + 1)
    return None


def _moved_item(scene: Scene, mass: Figure | None) -> str | None:
    """The thing that is put or moved: the noun behind the verb, or behind the mass."""
    if mass is not None:
        after = mass.end
        if after < len(scene.tokens) and "of" in scene.tokens[after].groups:
            after += 1
        end = _thing_end(scene, after)
        if end > after:
            return scene.words_between(after, end)
        named = _named_before(scene, mass) or _counted_before(scene, mass)
        if named is not None:
            return named
    moves = scene.book.groups["moves"] | scene.book.groups["if"]
    for index, token in enumerate(scene.tokens):
        if _last_word(token) not in moves:
            continue
        start = index + 1
        while start < len(scene.tokens) and scene.tokens[start].groups & {"article", "another"}:
            start += 1
        start = _behind_count(scene, start)
        end = _thing_end(scene, start)
        if end > start:
            return scene.words_between(start, end)
    return None


def _behind_count(scene: Scene, start: int) -> int:
    """'another 6 ewes', 'the 4 bikes': where the name of so many things begins."""
    counted = scene.tokens[start : start + 1]
    counts = counted and counted[0].kind is NUMBER and counted[0].value <= MOST_ALIKE
    return start + 1 if counts and counted[0].decimals <= 0 else start


def _counted_before(scene: Scene, mass: Figure) -> str | None:
    """'12 bales at 55 lbs each': the things of which each weighs so much."""
    if how_many(scene, mass) == 1:
        return None
    counts = [each for each in scene.figures if each.start < mass.start]
    start = counts[-1].end if counts else mass.start
    start += "still_more" in scene.tokens[start].groups  # '8 more hives on at 70 lb each'
    return noun_from(scene, start)


def _compound(scene: Scene, start: int) -> str | None:
    """'a 640 kg log splitter': a noun whose first word may also be an entry of the log."""
    head = scene.tokens[start : start + 1]
    if not head or "log_entry" not in head[0].groups:
        return None
    end = _thing_end(scene, start + 1)
    return scene.words_between(start, end) if end > start + 1 else None


def _named_before(scene: Scene, mass: Figure) -> str | None:
    """'the skid steer, shes 6,800 lb', 'the generator, 180 lb': a thing told before its weight.

    Only an article begins it, and a comma or what says that it weighs parts it from the figure.
    """
    says = scene.book.groups["says_its_weight"]
    end = mass.start
    while end > 0 and (scene.tokens[end - 1].raw == "," or scene.tokens[end - 1].text in says):
        end -= 1
    if end == mass.start:
        return None
    start, _ = scene.clause_of(end - 1)
    for index in range(end - 1, start - 1, -1):
        if _last_word(scene.tokens[index]) in scene.book.groups["article"]:
            lead = scene.tokens[max(start, index - 1) : index + 1]
            stands = any("standing_on" in token.groups for token in lead)
            if stands and not _is_put_on(scene, index):
                continue  # 'the quad in the bed, 310 lb'
            thing = _behind_count(scene, index + 1)
            behind = min(_thing_end(scene, thing), end)
            if behind == thing == end - 1 and not scene.tokens[thing].senses:
                behind = end  # 'a safe that's 900 lb' is one, where 'is it safe' names none
            return scene.words_between(thing, behind) if behind > thing else None
    return None


def _is_put_on(scene: Scene, index: int) -> bool:
    """'throw on a crate that's 900 lb': the small word is the verb's, before one such thing."""
    if index < LEAST_PUT or "a_thing" not in scene.tokens[index].groups:
        return False
    return _last_word(scene.tokens[index - LEAST_PUT]) in scene.book.groups["moves"]


LEAST_PUT = 2
"""Tokens of 'throw on' before the article."""


def _thing_end(scene: Scene, start: int) -> int:
    """Where the words of a thing that begins there end: 'skid steer' of 'skid steer go'."""
    end = start
    while (
        end < len(scene.tokens)
        and _thing(scene.tokens[end])
        and not scene.tokens[end].groups & {"went", "asks_lashing", "kept_lead", "not_a_thing"}
        and (end > start or "standing_on" not in scene.tokens[end].groups)
    ):
        end += 1
    return end


def _thing(token: Token) -> bool:
    if token.senses.get("talk") == OTHER_VEHICLE and len(token.senses) == 1:
        return True  # 'a 3,000 lb tractor'
    return token.kind is WORD and not token.senses.keys() & OTHERWISE_MEANT


def _last_word(token: Token) -> str:
    return token.text.rpartition(" ")[2]
