"""Makers' limits, off door labels, data plates, balls and manuals.

This file decides which figures are ratings and whose. A word such as GVWR says so itself; an
axle, a tongue or a ball is rated where the message speaks of a label, a maximum or a rating,
or names a GVWR beside them.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.context import MASS_UNIT, VOLUME_UNIT
from domain.entries import COUPLING, Rating, WordsOf
from domain.quantities import Quantity
from domain.reading.claims import is_bare_year
from domain.reading.doubts import Doubt
from domain.reading.figures import FORCE, LENGTH, MASS, PRESSURE, VOLUME, Figure
from domain.reading.label import Label
from domain.reading.labels import AXLE_NUMBER
from domain.reading.positions import axles_counted
from domain.reading.scene import Scene
from domain.reading.stamped_pairs import hitched_how, part_before, stamped_pairs
from domain.reading.tank_sizes import (
    further_tanks,
    is_listed_tank,
    is_pumped,
    is_tank_size,
    of_another,
)
from domain.reading.tokens import NUMBER
from domain.reading.tyre_ratings import (
    how_mounted,
    is_tyre_load,
    is_tyre_pressure,
    load_index_pairs,
)
from domain.reading.whose_plate import is_trailers, leads_plate, which_trailer

NAMING = frozenset(("rating", "rating_cue", "rating_subject", "axle_noun"))
"""Classes of term that a rating is named with; a tank's size needs none."""

TRUCK_RATINGS = frozenset(
    ("gcwr", "gawr_front", "gawr_rear", "payload", "tank", "wheelbase", "overhang")
)
LEAST_STAMPED = 1000
"""Pounds or kilograms: less is no maker's limit of a hitch or an axle."""

TYRES = "tyres"
STAMPED = frozenset(("ball", "coupler", "ball mount", "pin box", "chains"))
MASS_KG = (90.0, 40_000.0)
TONGUE_KG = (20.0, 4_500.0)
TANK_L = (20.0, 600.0)
LOAD_INDEX = (50, 180)


def read_ratings(scene: Scene) -> list[Rating] | Doubt:
    """The ratings that a message states, a doubt about one, or none."""
    tank = is_tank_size(scene)
    named = tank or scene.has("subject", "tyre") or _is_plate(scene)
    if NAMING.isdisjoint(scene.by_class) and not named:
        return []
    _settle_weighed(scene)
    found: list[Rating] = []
    framed = _framed(scene)
    pairs = stamped_pairs(scene)
    indexes = load_index_pairs(scene)
    for figure in scene.live_figures():
        if figure.role is not None:
            continue
        framed_here = framed and not _weighed_since(scene, figure)
        if framed_here and _is_dry(scene, figure):
            scene.claim(figure, "what it weighs dry")
            continue
        rating = pairs.get(figure.start)
        if figure.start in indexes:
            rating = TYRES, "load_index"
        rating = rating or _rating(scene, figure, framed=framed_here, tank=tank)
        if rating is None or _is_year(scene, figure, rating[1]):
            continue
        subject, name = rating
        value = _value(scene, figure, name)
        if value is None:
            continue
        if name == "tank" and isinstance(value, Quantity):
            for other in further_tanks(scene, figure):
                value = Quantity(value.value + other.value, value.unit)
                other.role = "rating"
        if isinstance(value, Quantity) and _implausible(name, value):
            if isinstance(figure.label, Label) and figure.label.rating:
                return Doubt("rating", "implausible", (value,))
            continue
        trailer = which_trailer(scene, figure) if subject == "trailer" else None
        alike = [
            each.value
            for each in found
            if (each.subject, each.rating, each.trailer) == (subject, name, trailer)
        ]
        weighs = name in ONE_EACH or figure.dimension in (MASS, PRESSURE)
        if weighs and _repeated(alike, name, value):
            figure.role = "rating"
            continue
        if alike and name in ONE_EACH and isinstance(value, Quantity):
            given = [each for each in alike if isinstance(each, Quantity)]
            return Doubt("rating", "two_said", (*given, value))
        figure.role = "rating"
        found.append(
            Rating(
                subject=subject,
                rating=name,
                trailer=trailer,
                value=value,
                note=indexes.get(figure.start) or _note(scene, figure, name),
                words=_words(scene, figure, subject),
            )
        )
    return found


def _words(scene: Scene, figure: Figure, subject: str) -> WordsOf:
    """The figure's own words; of tyres also those before them, which say whose they are.

    Of a trailer or a hitch also those that say that it rests on a pin.
    """
    value = ("value", scene.words_between(figure.start, figure.end))
    if subject in ("trailer", "hitch"):
        pin = _pin_said(scene, figure, subject)
        return (value,) if pin is None else (value, (COUPLING, pin))
    if subject != TYRES:
        return (value,)
    start, _ = scene.clause_of(figure.start)
    return ("subject", scene.words_between(start, figure.start)), value


def _pin_said(scene: Scene, figure: Figure, subject: str) -> str | None:
    """'fifth wheel gvwr 16,500', 'hitch 20k, 5k pin': what says that the trailer has a pin."""
    label = figure.label
    if isinstance(label, Label) and "pin_load" in scene.tokens[label.start].groups:
        return scene.words_between(label.start, label.end)
    part = scene.clause_of(figure.start) if subject == "hitch" else (0, None)
    return scene.phrase_said("pin_hitch", *part)


def _settle_weighed(scene: Scene) -> None:
    """'GCM on the weighbridge was 6340': what a scale shows is a load, whatever it is called."""
    if scene.has("rating_cue"):
        return
    for label in scene.labels:
        # 'the gauge reads 1,090 at the coupler'
        lead = scene.tokens[label.start - 1] if label.start else None
        behind = label.bound is not None and label.bound.end < label.start
        if label.rating_subject and behind and lead is not None and "at" in lead.groups:
            label.rating_subject, label.whole = None, "tongue"
    if not scene.has("weigh_cue"):
        return
    rated = [label for label in scene.labels if label.rating]
    if len(rated) == 1 and "as_weighed" in scene.tokens[rated[0].start].groups:
        rated[0].rating, rated[0].whole = None, "gross"


def _framed(scene: Scene) -> bool:
    """Whether plain places in this message are ratings: it speaks of a label, or of a GVWR."""
    if scene.has("weigh_cue") and not scene.has("rating_cue"):
        named = [label for label in scene.labels if label.rating and label.bound]
        return len(named) >= 2
    if any(_is_strong(scene, index) for index, _, _ in scene.find("rating_cue")):
        return True
    if any("labelled_part" in token.groups for _, token, _ in scene.find("rating_subject")):
        return True
    if "on_receiver" in scene.groups:
        return True
    if any(_is_capped(scene, figure) for figure in scene.figures):
        return True
    if any(_says_gawr(scene, label) for label in scene.labels) or _is_plate(scene):
        return True
    return any(
        (
            label.rating in ("gvwr", "gcwr", "gawr", "gtm", "gawr_front", "gawr_rear", "payload")
            or label.rating_subject
            or (label.rating == "tow" and scene.has("rating_subject"))
        )
        and label.bound is not None
        and label.bound.value >= LEAST_STAMPED
        for label in scene.labels
    )


def _is_capped(scene: Scene, figure: Figure) -> bool:
    """'front axle 5,600 max': a round figure with the word for a limit right behind it."""
    behind = scene.tokens[figure.end : figure.end + 2]
    if not behind or "caps" not in behind[0].groups or behind[-1].kind is NUMBER:
        return False
    round_enough = figure.value % LABEL_STEP == 0 and figure.value >= LEAST_STAMPED
    return round_enough and isinstance(figure.label, Label)


def _is_plate(scene: Scene) -> bool:
    """'gvw 3,500 gtw 7,000': of vehicle and train, in steps that a plate has and no scale."""
    if not scene.has("whole", "gross") or scene.has("weigh_cue"):
        return False
    wholes = [label for label in scene.labels if label.whole == "gross" and label.bound is not None]
    if any(label.vehicle == "trailer" for label in scene.labels):
        return False
    train = [each for each in wholes if _whole_of(scene, each) & scene.book.groups["combination"]]
    stepped = all(each.bound and each.bound.value % LABEL_STEP == 0 for each in wholes)
    return len(train) == 1 and len(wholes) == len(train) + 1 and stepped


def _says_gawr(scene: Scene, label: Label) -> bool:
    """'rear 3,900 and front 3,525 it says GAWR', 'front 5,200 rear 6,500 GAWR': of them all."""
    if label.bound is not None or not (label.rating or "").startswith("gawr"):
        return False
    before = scene.tokens[label.start - 1] if label.start else None
    says = before is not None and "says" in before.groups
    ends = label.end == len(scene.tokens) or scene.tokens[label.end].ends_sentence
    return says or (ends and any(figure.end == label.start for figure in scene.figures))


def _weighed_since(scene: Scene, figure: Figure) -> bool:
    """'door sticker gvwr 11,500, and she scaled 5,360 steer': behind a scale's verb are loads."""
    for index in range(figure.start - 1, -1, -1):
        token = scene.tokens[index]
        if token.senses.keys() & {"rating_cue", "rating"}:
            return False
        if "on_scale" in token.groups:
            return True
    return False


def _is_year(scene: Scene, figure: Figure, name: str) -> bool:
    """'Senior Ball 2016', '2 axles / 2018': a year, where no label stands right before it."""
    if not is_bare_year(figure) or name == "date_code" or figure.value % LABEL_STEP == 0:
        return False
    label = figure.label
    if not isinstance(label, Label) or label.start > figure.start:
        return True
    if not (label.rating or label.axle or label.end_of):
        return True
    between = scene.tokens[label.end : figure.start]
    plain = all("copula" in token.senses.get("glue", "") for token in between)
    return not plain or scene.tokens[figure.start].glued


LABEL_STEP = 50
"""Pounds or kilograms: what makers round to; a year is hardly ever a multiple of it."""


def _is_strong(scene: Scene, index: int) -> bool:
    """'plate' is a label where it says or heads something; a scale has plates too."""
    if "weak_label" not in scene.tokens[index].groups:
        return True
    if index and "rating_subject" in scene.tokens[index - 1].senses:
        return True  # 'coupler plate 14,000'
    if any(label.places_load and label.end == index for label in scene.labels):
        # 'towball max 280 kg'
        return any(figure.start == index + 1 for figure in scene.figures)
    if _limits_part(scene, index):
        return True
    if index == 0 and any(token.raw == ":" for token in scene.tokens[1 : 1 + LONGEST_HEADING]):
        return True  # 'plate on the pickup: ...'
    following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
    if following is not None and following.senses.get("whole") == "gross":
        return len(list(scene.find("whole", "gross"))) > 1  # 'plate gvw 3200 gtw 6700'
    return following is not None and (following.raw in ":-–" or "says" in following.groups)


def _limits_part(scene: Scene, index: int) -> bool:
    """'límite de peso en la lanza 250', 'limit hitch 650': the part that the limit is of."""
    if "sign_of_limit" not in scene.tokens[index].groups:
        return False
    part = index + 1
    while part < len(scene.tokens) and "joins_label" in scene.tokens[part].groups:
        part += 1
    return any(
        label.start <= part < label.end
        and label.start > index
        and (label.places_load or label.rating_subject)
        and label.bound is not None
        and label.bound.start >= label.end
        for label in scene.labels
    )


LONGEST_HEADING = 4
"""Tokens from the word for a label to the colon behind it."""


def _rating(scene: Scene, figure: Figure, *, framed: bool, tank: bool) -> tuple[str, str] | None:
    label = figure.label
    if framed and _is_unladen(scene, figure):
        return "trailer" if is_trailers(scene, figure) else "truck", "curb"
    if is_tyre_pressure(scene, figure):
        return TYRES, "pressure"
    if is_tyre_load(scene, figure):
        return TYRES, "tyre_load"
    if not isinstance(label, Label):
        if (figure.dimension == VOLUME and tank) or is_listed_tank(scene, figure):
            return "truck", "tank"
        return _towed(scene, figure) or _stamped(scene, figure) or _sized(scene, figure)
    if label.rating == "tank" and (
        label.compound or of_another(scene, figure.start) or is_pumped(scene)
    ):
        return None
    if label.rating:
        if "weak_rating" in scene.tokens[label.start].groups and not framed:
            return None  # 'we tow 9,000 lb'
        if "short_rating" in scene.tokens[label.start].groups and not _surely(scene, figure, label):
            return None  # 'adsl sync atm is about 16900'
        name = label.rating
        if name == "gvwr" and label.wheel == "axle" and label.start in scene.by_class["rating"]:
            name = "gawr"  # 'MMA eje 2 2.100': what an axle may bear is its own, and not the whole
        end = label.end_of or ENDS_OF_TRUCK.get(label.axle or "")
        end = end or (ENDS.get(label.ordinal or 0) if label.rating != name else None)
        if name == "gawr" and end and label.vehicle != "trailer":
            name = f"gawr_{end}"
        return _subject(scene, label, figure, name), name
    if figure.dimension not in (None, MASS):
        return None
    if label.rating_subject in STAMPED:
        if framed or _rated_elsewhere(scene) or _is_heavy(figure):
            return label.rating_subject, _of_part(scene, figure)
        return None
    if label.whole == "tongue" and _is_ball(scene, label):
        return "ball", _of_part(scene, figure)
    if _is_rated_axle(scene, figure, label):
        return "trailer", "gawr"
    if label.only_vehicle and _is_axle_size(scene, figure):
        return "trailer", "gawr"
    if not framed:
        return None
    if label.wheel == "axle" and label.ordinal in ENDS and _on_trucks_plate(scene, label):
        return "truck", f"gawr_{ENDS[label.ordinal]}"
    if label.axle or (label.end_of and not label.side):
        end = label.end_of or ("front" if label.axle == "steer" else "rear")
        if label.vehicle == "trailer" or is_trailers(scene, figure):
            return "trailer", "gawr"
        return "truck", f"gawr_{end}"
    if label.wheel == "axle":
        return "trailer", "gawr"
    if label.whole == "tongue":
        return _part_in_clause(scene, figure) or _hitch_part(scene), "tongue"
    if label.whole == "gross":
        return None if _is_train(scene, figure) else _whole_rated(scene, figure, label)
    if label.rating_subject == "hitch":
        return "hitch", _of_part(scene, figure)
    if label.vehicle == "trailer":
        part = part_before(scene, figure) if figure.end <= label.start else None
        if part is not None:
            return part, "tow"  # 'the coupler is rated for a 15,000 lb trailer'
        if scene.has("rating_subject", "hitch"):
            return "hitch", "tow"
        return "trailer", "gvwr"
    return None


def _is_train(scene: Scene, figure: Figure) -> bool:
    """'gross 20,980, gcwr 20,500': no truck alone is near its GCWR, so the rig was weighed."""
    return any(
        label.rating == "gcwr"
        and label.bound not in (None, figure)
        and label.bound.value * MOST_OF_TRAIN < figure.value
        for label in scene.labels
        if label.bound is not None
    )


MOST_OF_TRAIN = 0.8
"""What of the GCWR a truck's GVWR is at most: less would be left to tow than it weighs itself."""

ENDS_OF_TRUCK = {"steer": "front", "drive": "rear"}
ENDS = {1: "front", 2: "rear"}
"""What a plate's numbered axles are on a vehicle of two."""


def _on_trucks_plate(scene: Scene, label: Label) -> bool:
    """'GVW 3,010 kg, train weight 5,510 kg, axle 1 1,450 kg': only what tows has a train weight."""
    if label.vehicle == "trailer":
        return False
    return label.vehicle == "truck" or any(
        other.rating == "gcwr"
        or (other.whole == "gross" and _whole_of(scene, other) & scene.book.groups["combination"])
        for other in scene.labels
        if other.bound is not None
    )


def _whole_of(scene: Scene, label: Label) -> set[str]:
    return set(scene.words_between(label.start, label.end).casefold().split())


def _is_heavy(figure: Figure) -> bool:
    """Whether a figure is as much as a maker stamps, in whichever unit: '3.5 t', '14,000'."""
    if figure.dimension == MASS and figure.unit:
        return Quantity(figure.value, figure.unit).amount("kg") >= LEAST_PULL_KG
    return figure.value >= LEAST_STAMPED


def _is_unladen(scene: Scene, figure: Figure) -> bool:
    """'camper dry 7,200 gvwr 9,800': what it weighs empty, and no limit."""
    before = scene.tokens[figure.start - 1] if figure.start else None
    mass = figure.dimension in (None, MASS) and figure.value >= LEAST_STAMPED
    return mass and before is not None and "unladen" in before.groups


def _is_dry(scene: Scene, figure: Figure) -> bool:
    """'5er gvwr 17,200, pin 3,300 dry': what a maker prints of it empty, and no scale showed."""
    behind = scene.tokens[figure.end] if figure.end < len(scene.tokens) else None
    said = behind is not None and "unladen" in behind.groups and figure.dimension in (None, MASS)
    return said and isinstance(figure.label, Label) and figure.label.whole == "tongue"


def _whole_rated(scene: Scene, figure: Figure, label: Label) -> tuple[str, str]:
    """What a plate's gross is of; 'GTW' is a train's on a truck, and a trailer's elsewhere."""
    if is_trailers(scene, figure):
        return "trailer", "gvwr"
    words = _whole_of(scene, label)
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
    load = Quantity(figure.value, figure.unit or _mass_unit(scene))
    return "tongue" if load.amount("kg") < LEAST_PULL_KG else "tow"


def _is_of_next(scene: Scene, index: int, figure: Figure) -> bool:
    """'hitch 3,500 tongue 350': whether a word is the label of a figure behind it."""
    return any(
        label.start <= index < label.end
        and label.bound is not None
        and label.bound.start > figure.start
        for label in scene.labels
    )


LEAST_PULL_KG = 450
"""What no part of a hitch is made for less to pull: 'ball max 280 kg' is what may rest on it.

The lightest class of hitches pulls 2,000 lb (SAE J684, class 1; from memory).
"""

FARTHEST_SAID = 3
"""Tokens behind a figure that may say what a part's rating is of: 'of nose weight'."""


def _is_rated_axle(scene: Scene, figure: Figure, label: Label) -> bool:
    """'6,000 lb axles on the trailer', '3 axles 7000 each': axles of a size, and none weighed."""
    behind = scene.tokens[figure.end] if figure.end < len(scene.tokens) else None
    if behind is not None and "each_one" in behind.groups and label.wheel == "axle":
        whole = figure.value >= LEAST_STAMPED and figure.dimension in (None, MASS)
        return whole and label.axle is None and not scene.has("weigh_cue")
    if figure.count and label.wheel == "axle" and label.axle is None:
        return not scene.has("weigh_cue")  # 'camper axles 6000 x 2': no two weigh the same
    return (
        figure.dimension == MASS
        and label.start == figure.end
        and label.wheel == "axle"
        and "axle_word" in scene.tokens[label.start].groups
        and not scene.has("weigh_cue")
        and len([other for other in scene.figures if other.dimension == MASS]) == 1
    )


def _is_axle_size(scene: Scene, figure: Figure) -> bool:
    """'dump trailer, 7k axles, gvwr 14k': axles of a size, with their trailer before them."""
    behind = scene.tokens[figure.end] if figure.end < len(scene.tokens) else None
    taken = any(
        label.start == figure.end
        and not label.rating
        and label.bound is not None
        and label.bound.value >= LEAST_STAMPED
        for label in scene.labels
    )
    return (
        behind is not None
        and not taken  # 'flatdeck 9,200 axles 4600 4600'
        and "axle_word" in behind.groups
        and figure.value >= LEAST_STAMPED
        and figure.dimension in (None, MASS)
        and not scene.has("weigh_cue")
    )


def _is_ball(scene: Scene, label: Label) -> bool:
    """'towball is stamped 3.5 t' is the ball's own stamp."""
    ball = "ball" in scene.tokens[label.start].groups
    stamped = any("stamped" in token.groups for token in scene.tokens)
    return stamped and ball


def _rated_elsewhere(scene: Scene) -> bool:
    return any(label.rating for label in scene.labels)


def _stamped(scene: Scene, figure: Figure) -> tuple[str, str] | None:
    """'hitch ball is stamped 12,000 lb': a part and its stamp, a few words apart."""
    if figure.dimension not in (None, MASS) or not scene.has("rating_cue"):
        return None
    start, end = scene.clause_of(figure.start)
    for index, _, key in scene.find("rating_subject"):
        if start <= index < end and (key in STAMPED or key == "hitch"):
            return key, _of_part(scene, figure)
    if "stamped" in scene.tokens[start].groups and start > 0:
        before = part_before(scene, figure)
        if before is not None:
            return before, _of_part(scene, figure)  # 'new ball, stamped 14,000 lb'
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
    if name == "payload" and of_trailer:
        return "trailer"  # 'payload of the caravan is 240'
    if name in TRUCK_RATINGS or name.startswith("gawr_"):
        return "truck"
    if label.vehicle in ("truck", "trailer") and name not in ("tow", "tongue"):
        return label.vehicle
    if name == "tongue" and label.vehicle == "trailer":
        return "trailer"  # 'caravan nose weight limit 100 kg'
    if name in ("tow", "tongue"):
        return _hitch_part(scene) if scene.has("rating_subject", "hitch") else "truck"
    if name in ("gvwr", "curb") and is_trailers(scene, figure):
        return "trailer"
    if name == "gvwr" and not scene.has("vehicle") and _axles_make(scene, figure):
        return "trailer"
    if name == "curb" and "trailer_rating" in scene.groups and _rates_trailer_alone(scene):
        return "trailer"
    return "truck"


def _rates_trailer_alone(scene: Scene) -> bool:
    """'tare 1,840, atm 2,800': no truck is named, and no rating that a truck may have."""
    gross = [token for _, token, _ in scene.find("rating", "gvwr")]
    own = all("trailer_rating" in token.groups for token in gross)
    return own and not scene.has("vehicle", "truck") and not scene.named("truck")


def _axles_make(scene: Scene, gvwr: Figure) -> bool:
    """'gvwr 14,000, two axles 7,000 each': equal axles that bear the whole are a trailer's."""
    each = any(label.rating == "gawr" and not label.end_of for label in scene.labels)
    if not (each or "axle_noun" in scene.by_class) or scene.has("axle") or scene.named("truck"):
        return False
    if gvwr.value <= 0:
        return False
    alike = each or not scene.groups.isdisjoint(("each_one", "pair"))
    shares = [
        count * each.value / gvwr.value
        for each in scene.figures
        if each is not gvwr and each.value >= LEAST_STAMPED
        for count in ((_axles_of(scene, each),) if not alike else COUNTS[:2])
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
    start, end = scene.clause_of(figure.start)
    for index, _, key in scene.find("rating_subject"):
        if start <= index < end:
            return key
    return None


def _hitch_part(scene: Scene) -> str:
    for _, _, key in scene.find("rating_subject"):
        return key if key == "hitch" else "hitch"
    return "truck" if scene.has("rating", "gcwr") else "hitch"


def _value(scene: Scene, figure: Figure, name: str) -> Quantity | float | None:
    if name == "load_index":
        whole = figure.whole and LOAD_INDEX[0] <= figure.value <= LOAD_INDEX[1]
        return figure.value if whole else None
    if name == "tank":
        if figure.dimension == VOLUME and figure.unit:
            return Quantity(figure.value, figure.unit)
        return Quantity(figure.value, VOLUME_UNIT[scene.context.units])
    if name == "date_code":
        whole = figure.whole and 100 <= figure.value <= 5399
        return figure.value if whole else None
    if name in ("overhang", "coupler_to_axle", "deck"):
        unit = figure.unit if figure.dimension == LENGTH else None
        return Quantity(figure.value, unit) if unit else None
    if name == "d_value":
        return Quantity(figure.value, "kN") if figure.dimension in (FORCE, None) else None
    if name == "wheelbase":
        unit = figure.unit if figure.dimension == LENGTH else None
        return Quantity(figure.value, unit or ("in" if figure.value > 60 else "m"))
    if name == "pressure":
        unit = figure.unit if figure.dimension == PRESSURE else "psi"
        return Quantity(figure.value, unit or "psi")
    if figure.dimension == MASS and figure.unit:
        return Quantity(figure.value, figure.unit)
    if figure.dimension is None and (figure.value >= 100 or name == "tongue"):
        return Quantity(figure.value, _mass_unit(scene))
    if figure.dimension is None and figure.token.decimals > 0 and _mass_unit(scene) == "kg":
        # 'MMA 3.050', 'GVM 3.5': tonnes, whichever sign stands before the decimals.
        return Quantity(figure.value, "t") if figure.value < LEAST_IN_KG else None
    return None


LEAST_IN_KG = 60
"""A rating below this, in a chat that weighs in kilograms, is in tonnes."""


def _mass_unit(scene: Scene) -> str:
    """That of the other masses in the message, else the chat's; hundreds of tonnes are none."""
    for figure in scene.figures:
        if figure.dimension == MASS and figure.unit:
            return SMALLER.get(figure.unit, figure.unit)
    return MASS_UNIT[scene.context.units]


SMALLER = {"t": "kg", "ton": "lb"}
"""What a bare figure is in beside one in tons: '3/4 ton, gvwr 10,000', 'GVM 3.5 t, GCM 7000'."""


def _implausible(name: str, value: Quantity) -> bool:
    if name == "tank":
        return not TANK_L[0] <= value.amount("L") <= TANK_L[1]
    if value.unit not in ("lb", "kg", "t", "ton"):
        return False
    low, high = TONGUE_KG if name == "tongue" else MASS_KG
    return not low <= value.amount("kg") <= high


def _repeated(alike: Sequence[Quantity | float], name: str, value: Quantity | float) -> bool:
    """A label in two units (4,990 kg / 11,000 lb) states one rating."""
    if name in ONE_EACH and value in alike:
        return True
    unit = "kPa" if name == "pressure" else "kg"
    return isinstance(value, Quantity) and any(
        isinstance(before, Quantity)
        and before.unit != value.unit
        and abs(before.amount(unit) - value.amount(unit)) < 0.02 * value.amount(unit)
        for before in alike
    )


ONE_EACH = frozenset(("gvwr", "gcwr", "gawr_front", "gawr_rear", "payload"))
"""Ratings that a vehicle has one of: whose a second figure is, nobody said."""


def _note(scene: Scene, figure: Figure, name: str) -> str | None:
    """What the figure alone does not carry: a tank's fuel, how many axles, a tow by the pin."""
    if name == "tank":
        for _, _, key in scene.find("product"):
            return key.split()[0]
    if name in ("tow", "tongue") and (how := hitched_how(scene, figure)) is not None:
        return how
    if name == "tow":
        return _by_pin(scene, figure)
    if name in ("tyre_load", "load_index"):
        return how_mounted(scene, figure)
    count = _axles_of(scene, figure) if name == "gawr" else 0
    return f"{count} axles" if count else None


def _axles_of(scene: Scene, figure: Figure) -> int:
    """How many axles bear that much each: '2 x 6000', 'two axles', 'two 5,200 lb axles'."""
    counted = figure.count or axles_counted(scene)
    if counted:
        return counted
    # '2 ejes de 6000': the label may stand between the two.
    ends = [figure.start, *([figure.label.start] if isinstance(figure.label, Label) else [])]
    before = [each for each in scene.figures if each.end in ends and each.claimed != AXLE_NUMBER]
    return next((int(each.value) for each in before if each.whole and each.value in COUNTS), 0)


COUNTS = (2, 3, 4)


def _by_pin(scene: Scene, figure: Figure) -> str | None:
    """'tow rating 20,000 fifth wheel': it holds for trailers on a pin, and for no others."""
    return scene.phrase_said("pin_hitch", *scene.clause_of(figure.start))
