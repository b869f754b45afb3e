"""Corrections: 'make that 5,230', 'I meant drive not trailer', 'scratch that'.

This file decides when a message mends an earlier one, which field it names, and the value meant
and the value that was wrong. Which entry it mends is for the logbook to find. A correction of
something that is no business of the log ('I meant tuesday') is talk.
"""

from __future__ import annotations

from domain.context import (
    DISTANCE_UNIT,
    MASS_UNIT,
    TEMPERATURE_UNIT,
    VOLUME_UNIT,
    Context,
)
from domain.entries import Correction
from domain.quantities import Quantity
from domain.reading.figures import (
    DISTANCE,
    DURATION,
    LENGTH,
    MONEY,
    PRESSURE,
    PRICE,
    TEMPERATURE,
    VOLUME,
    Figure,
)
from domain.reading.labels import Label
from domain.reading.scene import PLAN, REQUEST, Scene
from domain.reading.tokens import MARK, TIME, WORD


LONGEST = 24
"""Tokens: a correction is short; a long message that says 'sorry' is a statement."""

FIELD_OF_CLASS = (
    ("odometer", "odometer"),
    ("trip_meter", "distance"),
    ("ticket", "ticket"),
    ("fee", "cost"),
    ("dash", "dash_economy"),
)
UNIT_FIELDS = {"gal": "volume", "L": "volume", "gal_imp": "volume"}


def read_correction(scene: Scene) -> Correction | None:
    """The correction that a message is, or None."""
    tokens = scene.tokens
    if not tokens or len(tokens) > LONGEST:
        return None
    if scene.has("correction", "undo") and _undoes(scene):
        return Correction(action="undo")
    live = [figure for figure in scene.figures if figure.claimed is None]
    if len(live) == 1 and "*" in (tokens[0].raw, tokens[-1].raw):
        return _amend(scene, live[0], _field(scene, live[0]), None)
    if not (scene.has("correction") or scene.has("reported")):
        return _full_or_partial(scene) if not live and scene.has("full") else None
    if any(token.raw == "?" for token in tokens):
        return None
    return _full_or_partial(scene) or _swapped(scene) or _place(scene) or _amended(scene, live)


def _undoes(scene: Scene) -> bool:
    """An undo stands alone or says why; with figures of its own it is something else."""
    index, _, _ = next(scene.find("correction", "undo"))
    if any(figure.claimed is None and figure.value >= 1000 for figure in scene.figures):
        return False
    before = scene.tokens[:index]
    if any("talk" in each.senses for each in before if "before_undo" not in each.groups):
        return False
    allowed = all(
        "glue" in each.senses
        or "correction" in each.senses
        or each.kind is MARK
        or "before_undo" in each.groups
        for each in before
    )
    return allowed and not _object_elsewhere(scene, index)


def _object_elsewhere(scene: Scene, index: int) -> bool:
    """'scratch that itch', 'ignore that guy': the word behind makes it something else."""
    following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
    if following is None or following.kind is not WORD:
        return False
    if not following.senses:
        return "log_entry" not in following.groups
    if "talk" in following.senses and following.senses["talk"].split()[0] == "other":
        return True
    further = scene.tokens[index + 2] if index + 2 < len(scene.tokens) else None
    return (
        "article" in following.groups
        and further is not None
        and further.kind is WORD
        and not further.senses
    )


def _full_or_partial(scene: Scene) -> Correction | None:
    """'that last fill was only partial actually', 'my mistake, it did get full'."""
    if any(figure.claimed is None for figure in scene.figures) or not scene.has("full"):
        return None
    words = {word for token in scene.tokens for word in token.text.split()}
    of_fill = words & scene.book.groups["of_fill"]
    pointed = words & scene.book.groups["points_back"]
    restated = any("opens_correction" in token.groups for token in scene.tokens) or bool(
        words & scene.book.groups["restates_fill"]
    )
    if not (of_fill and pointed and restated) and not (restated and len(scene.tokens) <= 6):
        return None
    if _strangers(scene) > 1:
        return None
    for index, _, key in scene.find("full"):
        before = {token.text for token in scene.tokens[:index]}
        denied = key == "true" and bool(before & scene.book.groups["denies"])
        return Correction(action="amend", field="full", value=key == "true" and not denied)
    return None


def _swapped(scene: Scene) -> Correction | None:
    """'I meant drive not trailer', 'i said steer but meant drive': two positions, no figure."""
    if any(figure.claimed is None for figure in scene.figures):
        return None
    named = [(label, field) for label in scene.labels if (field := _label_field(label))]
    if len(named) < 2 or named[0][1] == named[1][1]:
        return None
    (first, meant), (second, was) = named[0], named[1]
    if _wrong_before(scene, first.start) and not _wrong_before(scene, second.start, first.end):
        meant, was = was, meant
    elif not _wrong_before(scene, second.start, first.end):
        return None
    if _strangers(scene) > 1:
        return None
    return Correction(action="amend", field=meant, was=was)


def _wrong_before(scene: Scene, index: int, floor: int = 0) -> bool:
    """Whether a word that marks the mistake stands close before a token."""
    for other in range(index - 1, max(floor, index - 5) - 1, -1):
        token = scene.tokens[other]
        if "marks_mistake" in token.groups:
            return True
        if "marks_meant" in token.groups:
            return False
    return False


def _place(scene: Scene) -> Correction | None:
    """'it was Cobblewick not Drybone Fork', 'wrong place, we were in Larkfold'."""
    if any(figure.claimed is None for figure in scene.figures):
        return None
    split = next(
        (index for index, token in enumerate(scene.tokens) if "contrasts" in token.groups), None
    )
    if split is not None:
        meant = _proper_name(scene, range(split - 1, -1, -1))
        was = _proper_name(scene, range(split + 1, len(scene.tokens)))
        if meant is not None and was is not None:
            return Correction(action="amend", field="place", value=meant, was=was)
    words, _ = scene.split_words()
    spoken_of = not scene.book.groups["place_word"].isdisjoint(words)
    if spoken_of or scene.has("weigh_cue") or scene.has("fuel_cue"):
        last = next(
            (
                index
                for index in range(len(scene.tokens) - 1, -1, -1)
                if "before_place_meant" in scene.tokens[index].groups
            ),
            None,
        )
        if last is not None and (name := _proper_name(scene, range(last + 1, len(scene.tokens)))):
            return Correction(action="amend", field="place", value=name)
    return None


def _proper_name(scene: Scene, indexes: range) -> str | None:
    """A run of capitalized words that are no words of the phrasebook's small talk."""
    found: list[int] = []
    for index in indexes:
        token = scene.tokens[index]
        capital = token.kind is WORD and token.raw[0].isupper() and index > 0
        plain = not token.senses or token.senses.keys() <= {
            "street",
            "subject",
            "vehicle",
            "end",
            "claim",
        }
        if capital and plain and "time" not in token.senses:
            found.append(index)
        elif found:
            break
        elif "glue" not in token.senses and token.kind is WORD:
            return None
    if not found:
        return None
    return scene.words_between(min(found), max(found) + 1)


def _amended(scene: Scene, figures: list[Figure]) -> Correction | None:
    """A figure put in place of another, with its field where one is named."""
    if not figures or len(figures) > 2 or any(token.kind is TIME for token in scene.tokens):
        return None
    value, was = _value_and_mistake(scene, figures)
    if value is None or value.foreign is not None or _strangers(scene) > 2:
        return None
    if scene.talk[value.start] in (REQUEST, PLAN):
        return None
    restates = any("restates" in token.groups for token in scene.tokens)
    opens, right = _opens(scene), _said_right(scene, value)
    if not (restates or opens or was is not None or right):
        return None
    field = _field(scene, value) or (_field(scene, was) if was else None)
    if field is None:
        strong = restates or any("surely_corrects" in token.groups for token in scene.tokens[:6])
        if not _log_sized(value, scene.context) or _strangers(scene) > 1:
            return None
        if was is None and not strong and not (opens and len(scene.tokens) <= 8):
            return None
    elif was is None and not (restates or right) and not _near_opening(scene):
        return None
    if not _fits_field(value, field):
        return None
    return _amend(scene, value, field, was)


FIELD_DIMENSIONS = {
    "volume": (VOLUME,),
    "odometer": (DISTANCE,),
    "distance": (DISTANCE,),
    "tyre": (PRESSURE,),
    "unit_price": (PRICE, MONEY),
    "cost": (MONEY,),
}
TEMPERATURE_FIELDS = frozenset(("transmission", "coolant", "oil", "exhaust", "hub", "ambient"))


def _fits_field(value: Figure, field: str | None) -> bool:
    """Whether the figure can be of the field: a tyre is not 20 ft."""
    if value.dimension is None or field is None:
        return True
    if field in TEMPERATURE_FIELDS:
        return value.dimension == TEMPERATURE
    if field in FIELD_DIMENSIONS:
        return value.dimension in FIELD_DIMENSIONS[field]
    return value.dimension not in (LENGTH, VOLUME, DISTANCE) or field in ("wind", "speed", "tank")


def _near_opening(scene: Scene) -> bool:
    """A correction that only opens like one ('sorry ...') is as short as one."""
    loads = sum(1 for figure in scene.figures if figure.claimed is None)
    return loads == 1 and len(scene.tokens) <= 14


def _said_right(scene: Scene, value: Figure) -> bool:
    """'48,362 is right': said of the figure, beside a word for the slip."""
    behind = [token.text for token in scene.tokens[value.end : value.end + 3]]
    return bool(scene.book.groups["said_right"] & set(behind))


def _value_and_mistake(scene: Scene, figures: list[Figure]) -> tuple[Figure | None, Figure | None]:
    """'31.4 not 34.1', 'not 34.1, 31.4', 'i typed 5,630 but its 5,360': what is meant, and not."""
    if len(figures) == 1:
        return figures[0], None
    first, second = figures
    if _wrong_before(scene, second.start, first.end):
        return first, second
    if _wrong_before(scene, first.start):
        return second, first
    return None, None


def _strangers(scene: Scene) -> int:
    """Words that neither the phrasebook nor a correction's own words for fields know."""
    known = scene.book.keys["corrected_field"]
    return sum(
        1
        for token in scene.tokens
        if token.kind is WORD and not token.senses and token.text not in known
    )


def _log_sized(figure: Figure, context: Context) -> bool:
    """A figure that no field names must look like one of the log's, not like 'make it 7'."""
    if figure.dimension is not None:
        return figure.dimension not in (DURATION, MONEY) or figure.value >= 10
    return (
        figure.value >= 1000
        or figure.token.decimals > 0
        or (figure.value >= 100 and figure.token.spoken)
    )


def _opens(scene: Scene) -> bool:
    for token in scene.tokens[:5]:
        if "opens_correction" in token.groups:
            return True
        if token.kind is not WORD or token.senses.keys() & {"glue", "correction"}:
            continue
        if not token.senses or token.senses.keys() & {"talk", "question_word"}:
            return False
    return False


def _field(scene: Scene, figure: Figure) -> str | None:
    label = figure.label
    if isinstance(label, Label):
        named = _label_field(label)
        if named == "gross" and figure.dimension == MONEY:
            return "cost"
        if named:
            return named
    if figure.dimension == VOLUME:
        return "volume"
    if figure.dimension == PRICE:
        return "unit_price"
    for token in scene.tokens:
        if token.kind is WORD and token.text in scene.book.keys["corrected_field"]:
            return scene.book.keys["corrected_field"][token.text]
        unit = token.senses.get("unit")
        if unit in UNIT_FIELDS:
            return UNIT_FIELDS[unit]
        for term_class, field in FIELD_OF_CLASS:
            if term_class in token.senses:
                return field
    for other in scene.labels:
        if other.end <= figure.start:
            named = _label_field(other)
            if named:
                return named
    return None


def _label_field(label: Label) -> str | None:
    if label.rating:
        return label.rating
    if label.field:
        return dict(FIELD_OF_CLASS)[label.field]
    if label.whole in ("gross", "tongue"):
        return label.whole
    if label.subject:
        return label.subject
    base: str | None = label.axle
    if base is None and label.vehicle == "trailer":
        base = "trailer"
        if label.ordinal:
            base = f"trailer_{label.ordinal}"
    if base is None and label.end_of:
        base = "steer" if label.end_of == "front" else "drive"
    if base is None and label.vehicle == "truck":
        base = "truck"
    if base and label.side:
        return f"{base}_{label.side}"
    return base


def _amend(scene: Scene, value: Figure, field: str | None, was: Figure | None) -> Correction:
    return Correction(
        action="amend",
        field=field,
        value=_valued(scene.context, value, field),
        was=_valued(scene.context, was, field) if was is not None else None,
        words=(("value", scene.words_between(value.start, value.end)),),
    )


def _valued(context: Context, figure: Figure, field: str | None) -> Quantity | float:
    unit = _unit(context, figure, field)
    if field == "unit_price" and figure.token.grouped and figure.value >= 1000 and unit:
        return Quantity(figure.value / 1000, unit)
    if unit is None:
        whole = figure.value.is_integer()
        return int(figure.value) if whole else figure.value
    return Quantity(figure.value, unit)


MASS_FIELDS = frozenset(
    (
        "steer",
        "drive",
        "trailer",
        "gross",
        "truck",
        "tongue",
        "gvwr",
        "gcwr",
        "gawr",
        "payload",
        "gawr_front",
        "gawr_rear",
        "tow",
        "curb",
    )
)


def _unit(context: Context, figure: Figure, field: str | None) -> str | None:
    if figure.unit is not None and figure.unit not in ("pence", "cents"):
        if field == "unit_price" and "/" not in figure.unit:
            return f"{figure.unit}/{VOLUME_UNIT[context.units]}"
        return figure.unit
    if field is None:
        return None
    if field in MASS_FIELDS or field.startswith(("trailer_", "steer_", "drive_")):
        return MASS_UNIT[context.units]
    if field == "volume":
        return VOLUME_UNIT[context.units]
    if field in ("odometer", "distance"):
        return context.odometer.unit if context.odometer else DISTANCE_UNIT[context.units]
    if field == "unit_price":
        return f"{context.currency}/{VOLUME_UNIT[context.units]}"
    if field == "cost":
        return context.currency
    if field in TEMPERATURE_FIELDS:
        return TEMPERATURE_UNIT[context.units]
    return None
