"""Makers' limits, off door labels, data plates, balls and manuals.

This file decides which figures are ratings and whose. A word such as GVWR says so itself; an
axle, a tongue or a ball is rated where the message speaks of a label, a maximum or a rating,
or names a GVWR beside them.
"""

from __future__ import annotations

from dataclasses import replace

from domain.entries import Rating
from domain.quantities import Quantity
from domain.reading.allowed import ALLOWS, is_allowed
from domain.reading.axle_pairs import axle_pairs
from domain.reading.axle_sizes import is_axle_size, is_per_axle, is_rated_axle
from domain.reading.beside_limits import is_past_limit, is_what_we_have, loads_beside_limits
from domain.reading.doubts import Doubt
from domain.reading.figures import LENGTH, MASS, PRESSURE, VOLUME, Figure
from domain.reading.fluid_tanks import holds_fluid, is_fluid_tank, tanks_in_turn
from domain.reading.framing import (
    LABEL_STEP,
    LEAST_STAMPED,
    end_behind,
    is_framed,
    is_plate,
    rated_behind,
    weighed_since,
    whole_of,
)
from domain.reading.label import ENDS as ENDS_OF_TRUCK
from domain.reading.label import Label
from domain.reading.rated_words import TYRES, is_cargo, rated_words
from domain.reading.rating_notes import COUNTS, axles_of, note_of
from domain.reading.rating_values import (
    ONE_EACH,
    TOLD_ONCE,
    is_implausible,
    is_reading,
    is_repeated,
    is_year_of_make,
    leave_said_again,
    mass_unit,
    value_of,
)
from domain.reading.scene import Scene
from domain.reading.stamped_pairs import part_before, stamped_pairs
from domain.reading.tank_sizes import (
    further_tanks,
    is_listed_tank,
    is_pumped,
    is_tank_size,
    lasts_somebody,
    of_another,
    tanks_alike,
)
from domain.reading.tokens import NUMBER
from domain.reading.tow_ratings import HITCH_KINDS, pulls_so_much, tows_by_hitch
from domain.reading.tyre_ratings import (
    is_tyre_load,
    is_tyre_placard,
    is_tyre_pressure,
    load_index_pairs,
)
from domain.reading.unladen import is_dry, is_unladen, weighs_unladen
from domain.reading.weighed_not_rated import is_train, settle_weighed, weigh_together
from domain.reading.whose_plate import (
    ends_on_trailer,
    has_own_limit,
    is_beside_trailers,
    is_of_trailer,
    is_trailers,
    leads_plate,
    of_another_thing,
    rates_trailer_alone,
    rests_on_trailer,
    tells_what_is_towed,
    which_trailer,
)

NAMING = frozenset(("rating", "rating_cue", "rating_subject", "axle_noun"))
"""Classes of term that a rating is named with; a tank's size needs none."""

SAYS_LIMIT = ALLOWS | {"on_the_door"}
"""Groups of words that say what is allowed, or where limits are stuck."""

OF_HITCH = HITCH_KINDS | {"ball"}
"""Groups of words for a hitch of some kind, and for its ball."""

TRUCK_RATINGS = frozenset(
    ("gcwr", "gawr_front", "gawr_rear", "payload", "tank", "wheelbase", "overhang")
)

STAMPED = frozenset(("ball", "coupler", "ball mount", "pin box", "chains"))


def read_ratings(scene: Scene) -> list[Rating] | Doubt:
    """The ratings that a message states, a doubt about one, or none."""
    limits = loads_beside_limits(scene) if len(scene.figures) > 1 else {}
    tank = is_tank_size(scene)
    named = (
        bool(limits)
        or tank
        or "unladen" in scene.groups
        or scene.has("subject", "tyre")
        or is_plate(scene)
    )
    named = named or not SAYS_LIMIT.isdisjoint(scene.groups) or is_tyre_placard(scene)
    if NAMING.isdisjoint(scene.by_class) and not named and OF_HITCH.isdisjoint(scene.groups):
        return []
    settle_weighed(scene)
    found: list[Rating] = []
    framed, weighed = is_framed(scene), "weigh_cue" in scene.by_class
    pairs = {**stamped_pairs(scene), **axle_pairs(scene, framed=framed), **limits}
    if not HITCH_KINDS.isdisjoint(scene.groups):
        pairs |= tows_by_hitch(scene)
    if "product" in scene.by_class:
        pairs |= tanks_in_turn(scene)
    indexes = load_index_pairs(scene)
    for figure in scene.live:
        if figure.role is not None:
            continue
        framed_here = framed and not (weighed_since(scene, figure) or rated_behind(scene, figure))
        framed_here = framed_here or (not weighed and is_allowed(scene, figure))
        if framed_here and is_dry(scene, figure):
            scene.claim(figure, "what it weighs dry")
            continue
        rating = pairs.get(figure.start)
        if figure.start in indexes:
            rating = TYRES, "load_index"
        rating = rating or _rating(scene, figure, framed=framed_here, tank=tank)
        if rating is None or is_year_of_make(scene, figure, rating[1]) or is_reading(scene, figure):
            continue
        subject, name = rating
        value = value_of(scene, figure, name)
        if value is None:
            continue
        if name == "tank" and rating is not pairs.get(figure.start) and isinstance(value, Quantity):
            value = replace(value, value=value.value * tanks_alike(scene, figure))
            for other in further_tanks(scene, figure):
                value = Quantity(value.value + other.value, value.unit)
                other.role = "rating"
            name = "def_tank" if holds_fluid(scene, figure) else name
        if isinstance(value, Quantity) and is_implausible(name, value):
            if isinstance(figure.label, Label) and figure.label.rating:
                return Doubt("rating", "implausible", (value,))
            continue
        trailer = which_trailer(scene, figure) if subject == "trailer" else None
        alike = [
            each.value
            for each in found
            if (each.subject, each.rating, each.trailer) == (subject, name, trailer)
        ]
        weighs = name in ONE_EACH or name in TOLD_ONCE or figure.dimension in (MASS, PRESSURE)
        if weighs and is_repeated(alike, name, value):
            figure.role = "rating"
            continue
        if alike and name in ONE_EACH and isinstance(value, Quantity):
            given = [each for each in alike if isinstance(each, Quantity)]
            return Doubt("rating", "two_said", (*given, value))
        figure.role = "rating"
        if figure.end < len(scene.tokens) and scene.tokens[figure.end].kind is NUMBER:
            leave_said_again(scene, figure, value)
        found.append(
            Rating(
                subject=subject,
                rating=name,
                trailer=trailer,
                value=value,
                note=indexes.get(figure.start) or note_of(scene, figure, name),
                words=rated_words(scene, figure, subject),
            )
        )
    return found


def _rating(scene: Scene, figure: Figure, *, framed: bool, tank: bool) -> tuple[str, str] | None:
    label = figure.label
    if "unladen" in scene.groups and (
        (framed and is_unladen(scene, figure)) or weighs_unladen(scene, figure)
    ):
        return "trailer" if is_trailers(scene, figure) else "truck", "curb"
    if figure.start and scene.tokens[figure.start - 1].senses.get("rating") == "load_index":
        return TYRES, "load_index"  # 'load index 121 on the camper tires'
    if is_tyre_pressure(scene, figure):
        return TYRES, "pressure"
    if is_tyre_load(scene, figure):
        return TYRES, "tyre_load"
    if not isinstance(label, Label):
        volume = figure.dimension == VOLUME and (tank or is_fluid_tank(scene, figure))
        if volume or is_listed_tank(scene, figure):
            return "truck", "tank"
        if framed and "cargo_word" in scene.groups and is_cargo(scene, figure):
            return ("trailer" if is_trailers(scene, figure) else "truck"), "payload"
        return _towed(scene, figure) or _stamped(scene, figure) or _sized(scene, figure)
    if label.rating == "tank" and (
        label.compound
        or of_another(scene, figure.start)
        or is_pumped(scene)
        or lasts_somebody(scene, label.end)
        or _was_filled(scene, label)
    ):
        return None
    if (framed or label.rating not in (None, "gawr")) and is_per_axle(scene, figure):
        return "trailer", "gawr"
    if label.rating:
        if _is_apart(scene, figure, label) or of_another_thing(scene, label):
            return None
        if _picks_one(scene, figure, label):
            return None
        if "weak_rating" in scene.tokens[label.start].groups and not framed:
            return None  # 'we tow 9,000 lb'
        if "short_rating" in scene.tokens[label.start].groups and not _surely(scene, figure, label):
            return None  # 'adsl sync atm is about 16900'
        name = label.rating
        if name == "curb" and label.start and "at_alone" in scene.tokens[label.start - 1].groups:
            return None  # 'tare 2,510, ball at tare 190'
        if name == "deck" and label.start and "on_the" in scene.tokens[label.start - 1].groups:
            return None  # 'tote on the deck 3 ft behind the nose'
        if name == "gvwr" and label.wheel == "axle" and label.start in scene.by_class["rating"]:
            name = "gawr"  # 'MMA eje 2 2.100': what an axle may bear is its own, and not the whole
        end = label.end_of or ENDS_OF_TRUCK.get(label.axle or "")
        if end is None and name == "gawr":
            end = end_behind(scene, figure)
        end = end or (ENDS.get(label.ordinal or 0) if label.rating != name else None)
        if name == "gawr" and end and label.vehicle != "trailer":
            name = f"gawr_{end}"
        return _subject(scene, label, figure, name), name
    if figure.dimension not in (None, MASS):
        return None
    if label.rating_subject in STAMPED:
        if rests_on_trailer(scene, figure):
            return "trailer", "tongue"
        if label.rating_subject == "ball" and _of_part(scene, figure) == "tongue":
            if scene.has("rating_subject", "hitch"):
                return "hitch", "tongue"  # 'towbar plate: 3,500 braked, 350 ball'
            if tells_what_is_towed(scene):
                return "truck", "tongue"
        if framed or _rated_elsewhere(scene) or _is_heavy(figure):
            part = part_before(scene, figure) if label.end <= figure.start else None
            return part or label.rating_subject, _of_part(scene, figure)
        return None
    if label.whole == "tongue" and "ball" in scene.tokens[label.start].groups:
        rating = _of_part(scene, figure)
        stamped = _is_stamped(scene) or (framed and rating == "tow")
        if stamped or pulls_so_much(scene, figure):
            return "ball", rating  # 'towball rating 3,500 kg': no ball bears as much
    if is_rated_axle(scene, figure, label):
        return "trailer", "gawr"
    if label.only_vehicle and is_axle_size(scene, figure):
        return "trailer", "gawr"
    if not framed:
        return None
    if label.wheel == "axle" and label.ordinal in ENDS and _on_trucks_plate(scene, label):
        return "truck", f"gawr_{ENDS[label.ordinal]}"
    if label.axle or (label.end_of and not label.side):
        end = label.end_of or ("front" if label.axle == "steer" else "rear")
        own = scene.tokens[label.start : label.end]
        trucks = any("trucks_axle" in token.groups for token in own)
        if label.vehicle == "trailer" or (is_trailers(scene, figure) and not trucks):
            return "trailer", "gawr"
        return "truck", f"gawr_{end}"
    if label.wheel == "axle":
        return None if weigh_together(scene, figure, label) else ("trailer", "gawr")
    if label.whole == "tongue":
        if is_beside_trailers(scene, figure):
            return "trailer", "tongue"
        between = scene.tokens[label.end : figure.start]
        if any("weigh_cue" in each.senses for each in between) or is_what_we_have(scene, figure):
            return None  # 'ball good for 8,000, tongue weighs 930'
        stamped = figure.value < LEAST_STAMPED or not figure.value % LABEL_STEP
        if not (stamped or _speaks_of_label(scene, figure) or is_allowed(scene, figure)):
            return None  # 'pin 2,260, payload 3,412': no maker's round figure
        return _part_in_clause(scene, figure) or _hitch_part(scene), "tongue"
    if label.whole == "gross":
        return None if is_train(scene, figure, label) else _whole_rated(scene, figure, label)
    if label.rating_subject == "hitch":
        return "hitch", _of_part(scene, figure)
    if label.only_vehicle and label.vehicle == "truck" and _is_gross(scene, figure):
        return "truck", "gvwr"
    if "cargo_word" in scene.groups and is_cargo(scene, figure):
        return label.vehicle or "truck", "payload"
    if label.vehicle == "trailer":
        part = part_before(scene, figure) if figure.end <= label.start else None
        if part is not None:
            return part, "tow"  # 'the coupler is rated for a 15,000 lb trailer'
        if scene.has("rating_subject", "hitch"):
            return None if has_own_limit(scene, figure) else ("hitch", "tow")
        stamped = not figure.value % LABEL_STEP or "rating_cue" in scene.by_class
        return ("trailer", "gvwr") if stamped else None  # 'camper 9,240, axles rated 5,080 each'
    return None


def _is_apart(scene: Scene, figure: Figure, label: Label) -> bool:
    """'60 lb under gvwr', '300 over the gawr', '1,100 of payload left': no rating, but the rest."""
    if any("of_room" in token.groups for token in scene.tokens[label.end : label.end + 1]):
        return True
    apart = scene.book.groups["apart_from_limit"]
    if figure.end >= label.start:
        if "apart_from_limit" in scene.groups and is_past_limit(scene, label, figure):
            return True
        # 'over gvwr on the truck by 240'
        beyond = label.start > 0 and scene.tokens[label.start - 1].text.split(" ")[0] in apart
        return beyond and "by_so_much" in scene.tokens[figure.start - 1].groups
    first = scene.tokens[figure.end].text.split(" ")[0]  # 'over the' may be one phrase
    return first in apart


def _picks_one(scene: Scene, figure: Figure, label: Label) -> bool:
    """'liked the 9,900 gvwr one': which of several; 'ours is the 9,900 gvwr one' is told of it."""
    before, behind = scene.tokens[max(0, figure.start - 2) : figure.start], label.end
    if len(before) < 2 or behind >= len(scene.tokens) or figure.end > label.start:
        return False
    picked = "article" in before[1].groups and "one" in scene.tokens[behind].groups
    return picked and before[0].senses.get("glue") != "copula"


def _speaks_of_label(scene: Scene, figure: Figure) -> bool:
    """Whether a label is named, or ahead of the figure a part that is rated.

    A part, or the verb that rates it, has its own figure first: 'hitch rated 12,000, tongue 1,140'.
    """
    cues = scene.by_class.get("rating_cue", ())
    if any("rates_it" not in scene.tokens[index].groups for index in cues):
        return True
    told = any(each.start < figure.start for each in scene.live)
    return not told and (bool(cues) or part_before(scene, figure) is not None)


def _is_gross(scene: Scene, figure: Figure) -> bool:
    """'truck sticker 11,500 gross': the word for the whole stands behind, and names no other."""
    return any(
        label.start == figure.end and label.whole == "gross" and label.bound is None
        for label in scene.labels
    )


ENDS = {1: "front", 2: "rear"}
"""What a plate's numbered axles are on a vehicle of two."""


def _on_trucks_plate(scene: Scene, label: Label) -> bool:
    """'GVW 3,010 kg, train weight 5,510 kg, axle 1 1,450 kg': only what tows has a train weight."""
    if label.vehicle == "trailer":
        return False
    return label.vehicle == "truck" or any(
        other.rating == "gcwr"
        or (other.whole == "gross" and whole_of(scene, other) & scene.book.groups["combination"])
        for other in scene.labels
        if other.bound is not None
    )


def _is_heavy(figure: Figure) -> bool:
    """Whether a figure is as much as a maker stamps, in whichever unit: '3.5 t', '14,000'."""
    if figure.dimension == MASS and figure.unit:
        return Quantity(figure.value, figure.unit).amount("kg") >= LEAST_PULL_KG.value
    return figure.value >= LEAST_STAMPED


def _whole_rated(scene: Scene, figure: Figure, label: Label) -> tuple[str, str]:
    """What a plate's gross is of; 'GTW' is a train's on a truck, and a trailer's elsewhere."""
    if is_trailers(scene, figure):
        return "trailer", "gvwr"
    words = whole_of(scene, label)
    if scene.book.groups["of_trailer_or_train"] & words:
        part = next((key for _, _, key in scene.find("rating_subject")), None)
        if part is not None:
            return part, "tow"
    combined = scene.book.groups["combination"] & words
    return "truck", "gcwr" if combined else "gvwr"


def _surely(scene: Scene, figure: Figure, label: Label) -> bool:
    """Whether letters that people also text for something else are a rating here."""
    if figure.dimension is not None or scene.has("rating_cue") or scene.has("name"):
        return True
    if scene.has("vehicle") or any(
        other.rating and other is not label and other.bound for other in scene.labels
    ):
        return True
    first = label.start < figure.start and not scene.unknown_words()
    return first and scene.context.units != "us"


def _of_part(scene: Scene, figure: Figure) -> str:
    """'hitch rated 1400 lb tongue weight': what is said behind the figure, else what it tows."""
    _, end = scene.clause_of(figure.start)
    for index in range(figure.end, min(end, figure.end + FARTHEST_SAID)):
        token = scene.tokens[index]
        if token.kind is NUMBER or _is_of_next(scene, index, figure):
            break
        if token.senses.get("whole") == "tongue" or "on_the_ball" in token.groups:
            return "tongue"
    load = Quantity(figure.value, figure.unit or mass_unit(scene))
    label = figure.label
    borne = isinstance(label, Label) and "bears_down" in scene.tokens[label.start].groups
    if borne and load.amount("kg") < MOST_BORNE_KG:
        return "tongue"  # 'max on the hitch is 1,500'
    least = LEAST_PULL_LB if load.unit == "lb" else LEAST_PULL_KG
    return "tongue" if load.amount(least.unit) < least.value else "tow"


def _is_of_next(scene: Scene, index: int, figure: Figure) -> bool:
    """'hitch 3,500 tongue 350': whether a word is the label of a figure behind it."""
    return any(
        label.start <= index < label.end
        and label.bound is not None
        and label.bound.start > figure.start
        for label in scene.labels
    )


MOST_BORNE_KG = 1_000
"""Of more that is told of 'on the hitch' it is doubtful whether it rests there."""

LEAST_PULL_KG, LEAST_PULL_LB = Quantity(450, "kg"), Quantity(2_000, "lb")
"""What no part of a hitch is made for less to pull: 'ball max 280 kg' is what may rest on it.

The lightest class of hitches pulls 2,000 lb (SAE J684, class 1; from memory); of those that are
sold by the kilogram some pull less.
"""

FARTHEST_SAID = 3
"""Tokens behind a figure that may say what a part's rating is of: 'of nose weight'."""


def _was_filled(scene: Scene, tank: Label) -> bool:
    """'fuel tank took 30 gal': what was pumped into it, and not its size."""
    return any("fuel_cue" in token.senses for token in scene.tokens[tank.end : tank.end + 1])


def _is_stamped(scene: Scene) -> bool:
    """'towball is stamped 3.5 t' is the ball's own stamp."""
    return any("stamped" in token.groups for token in scene.tokens)


def _rated_elsewhere(scene: Scene) -> bool:
    return any(label.rating for label in scene.labels)


def _stamped(scene: Scene, figure: Figure) -> tuple[str, str] | None:
    """'hitch ball is stamped 12,000 lb': a part and its stamp, a few words apart."""
    if figure.dimension not in (None, MASS) or not scene.has("rating_cue"):
        return None
    if is_what_we_have(scene, figure):
        return None
    part = _part_in_clause(scene, figure)
    if part is not None and (part in STAMPED or part == "hitch"):
        return part, _of_part(scene, figure)
    start, _ = scene.clause_of(figure.start)
    leads = "stamped" in scene.tokens[start].groups and start > 0
    if leads or any("stamped" in t.groups for t in scene.tokens[figure.end : figure.end + 1]):
        before = part_before(scene, figure)
        if before is not None:
            # 'new ball, stamped 14,000 lb', '2 5/16 ball, 10,000 stamped on it'
            return before, _of_part(scene, figure)
    return None


def _sized(scene: Scene, figure: Figure) -> tuple[str, str] | None:
    """'ball 2 inch 8000': behind the size of a ball stands what it may pull."""
    if figure.dimension not in (None, MASS) or figure.value < LEAST_STAMPED:
        return None
    size = next((each for each in scene.figures if 0 <= figure.start - each.end <= 1), None)
    if size is None or part_before(scene, size) != "ball":
        return None
    sixteenths = size.start > 0 and scene.tokens[size.start - 1].raw == "/"  # 'ball 2 5/16 25,000'
    return ("ball", "tow") if size.dimension == LENGTH or sixteenths else None


def _towed(scene: Scene, figure: Figure) -> tuple[str, str] | None:
    """'GVM 3,350, towing 3,500': beside another rating, what it tows is one too."""
    if figure.dimension not in (None, MASS) or not figure.start:
        return None
    tows = "tows_much" in scene.tokens[figure.start - 1].groups
    rated = any(label.rating and label.bound for label in scene.labels)
    return ("truck", "tow") if tows and rated else None


def _subject(scene: Scene, label: Label, figure: Figure, name: str) -> str:
    """Whose rating it is."""
    if name in ("load_index", "pressure", "tyre_load", "date_code"):
        return TYRES
    if name in ("coupler_to_axle", "deck"):
        return "trailer"
    part = _part_in_clause(scene, figure) or _part_at_head(scene)
    if name in ("tow", "tongue", "d_value") and part is not None:
        return part
    if name == "tow" and "on_receiver" in scene.groups:
        return "hitch"
    if name == "d_value":
        return "hitch"  # stamped on the coupling, whichever part of it
    if name == "gawr" or any(
        "trailer_rating" in scene.tokens[index].groups for index in range(label.start, label.end)
    ):
        return "trailer"
    of_trailer = label.vehicle == "trailer" or leads_plate(scene, figure)
    of_trailer = of_trailer or (name == "payload" and ends_on_trailer(scene, figure))
    if name == "payload" and of_trailer:
        return "trailer"  # 'payload of the caravan is 240'
    if name in TRUCK_RATINGS or name.startswith("gawr_"):
        return "truck"
    if label.vehicle in ("truck", "trailer") and name not in ("tow", "tongue"):
        return label.vehicle
    if name == "tongue" and (label.vehicle == "trailer" or is_beside_trailers(scene, figure)):
        return "trailer"  # 'caravan nose weight limit 100 kg'
    if name in ("tow", "tongue"):
        return _hitch_part(scene) if scene.has("rating_subject", "hitch") else "truck"
    if name in ("gvwr", "curb") and is_of_trailer(scene, label, figure):
        return "trailer"
    if name == "gvwr" and not scene.has("vehicle") and _axles_make(scene, figure):
        return "trailer"
    if name == "curb" and "trailer_rating" in scene.groups and rates_trailer_alone(scene):
        return "truck" if "car_curb" in scene.tokens[label.start].groups else "trailer"
    return "truck"


def _axles_make(scene: Scene, gvwr: Figure) -> bool:
    """'gvwr 14,000, two axles 7,000 each': equal axles that bear the whole are a trailer's."""
    each = any(
        label.rating == "gawr" and label.bound and not label.end_of for label in scene.labels
    )
    if not (each or "axle_noun" in scene.by_class) or scene.has("axle") or scene.named("truck"):
        return False
    if gvwr.value <= 0 or axle_pairs(scene, framed=True):
        return False
    alike = each or not scene.groups.isdisjoint(("each_one", "pair"))
    shares = [
        count * each.value / gvwr.value
        for each in scene.figures
        if each is not gvwr and each.value >= LEAST_STAMPED
        for count in ((axles_of(scene, each),) if not alike else COUNTS[:2])
    ]
    return any(AXLES_OF_GVWR[0] <= share <= AXLES_OF_GVWR[1] for share in shares)


AXLES_OF_GVWR = (0.8, 1.4)
"""Equal axles together over the GVWR of a trailer: its tongue rests on the truck."""


def _part_at_head(scene: Scene) -> str | None:
    """'COUPLER', on a line of its own over what is stamped on it."""
    if len(scene.tokens) < LEAST_HEADED or not scene.tokens[1].ends_sentence:
        return None
    return scene.tokens[0].senses.get("rating_subject")


LEAST_HEADED = 4


def _part_in_clause(scene: Scene, figure: Figure) -> str | None:
    """'the ball says 10,000 and the coupler max trailer 7,000': named since the figure before."""
    parts = scene.by_class.get("rating_subject")
    if parts is None:
        return None
    start, end = scene.clause_of(figure.start)
    since, first = start, None
    if len(parts) > 1:
        since = max((each.end for each in scene.figures if each.end <= figure.start), default=start)
    for index in parts:
        if start <= index < end and not _is_of_next(scene, index, figure):
            part = scene.tokens[index].senses["rating_subject"]
            if index >= since:
                return part
            first = first or part
    return first


def _hitch_part(scene: Scene) -> str:
    for _, _, key in scene.find("rating_subject"):
        return key if key == "hitch" else "hitch"
    towing = scene.has("rating", "tow") and (scene.has("vehicle", "truck") or scene.named("truck"))
    towing = towing or "plated_tow" in scene.groups or scene.has("rating", "gcwr")
    return "truck" if towing else "hitch"
