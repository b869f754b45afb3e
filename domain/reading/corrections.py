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
from domain.reading.figures import PRICE, VOLUME, Figure
from domain.reading.labels import Label
from domain.reading.scene import Scene
from domain.reading.tokens import MARK, NUMBER, TIME, WORD

OPENING = frozenset(
    (
        "make that",
        "make it",
        "i meant",
        "meant",
        "i meant to say",
        "correction",
        "typo",
        "oops",
        "whoops",
        "ooops",
        "woops",
        "my bad",
        "my mistake",
        "no wait",
        "sorry",
        "sry",
        "mistyped",
        "fat fingered",
        "fat finger",
        "wrong",
        "change",
        "change that to",
        "change it to",
        "fix",
        "misread",
        "i misread",
        "i misread it",
        "transposed",
        "swapped",
        "actually",
        "nope",
        "wait",
        "hang on",
        "hold on",
        "mistake",
        "misheard",
        "amend",
        "amend that to",
        "correct to",
        "correct that to",
        "edit",
        "update",
        "read it wrong",
        "i typed it wrong",
        "my typo",
        "correcting",
    )
)
"""Words that open a correction, once a field or a figure follows."""

RESTATING = frozenset(
    (
        "should be",
        "shouldve been",
        "should have been",
        "shoulda been",
        "should of been",
        "should say",
        "should read",
        "was supposed to be",
        "it was actually",
        "was actually",
        "is actually",
        "supposed to be",
    )
)
"""Words that put another figure in a field's place."""

STRONG = frozenset(("make that", "make it", "correction", "typo", "change that to", "change it to", "my typo", "amend that to", "correct that to", "no wait"))
CONTRAST = frozenset(("not", "instead of", "rather than"))
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
WORD_FIELDS = {
    "price": "unit_price",
    "ppg": "unit_price",
    "cost": "cost",
    "total": "gross",
    "volume": "volume",
    "fuel": "volume",
    "diesel": "volume",
    "place": "place",
    "miles": "odometer",
    "mileage": "odometer",
    "payload": "payload",
}


def read_correction(scene: Scene) -> Correction | None:
    """The correction that a message is, or None."""
    tokens = scene.tokens
    if not tokens or len(tokens) > LONGEST:
        return None
    if scene.has("correction", "undo") and _undoes(scene):
        return Correction(action="undo")
    if tokens[0].raw == "*" and any(token.kind is NUMBER for token in tokens):
        return _starred(scene)
    if not scene.has("correction"):
        return None
    return _full_or_partial(scene) or _swap(scene) or _place(scene) or _amended(scene)


def _undoes(scene: Scene) -> bool:
    """An undo stands alone or says why; with figures of its own it is something else."""
    index, token, _ = next(scene.find("correction", "undo"))
    if any(figure.claimed is None and figure.value >= 20 for figure in scene.figures):
        return False
    before = scene.tokens[:index]
    if any("talk" in each.senses for each in before if each.text not in ("you", "can you", "please")):
        return False
    allowed = all(
        "glue" in each.senses or "correction" in each.senses or each.kind is MARK or each.text in ("no", "can you", "please")
        for each in before
    )
    return allowed and not _object_elsewhere(scene, index)


def _object_elsewhere(scene: Scene, index: int) -> bool:
    """'scratch that itch', 'ignore that guy': the word behind makes it something else."""
    following = scene.tokens[index + 1] if index + 1 < len(scene.tokens) else None
    if following is None or following.kind is not WORD:
        return False
    if not following.senses:
        return following.text not in ("entry", "entries", "message", "msg", "reading", "text")
    return "talk" in following.senses and following.senses["talk"].split()[0] == "other"


def _starred(scene: Scene) -> Correction | None:
    for figure in scene.figures:
        return _amend(scene, figure, _field(scene, figure), None)
    return None


def _full_or_partial(scene: Scene) -> Correction | None:
    """'that last fill was only partial actually'."""
    if any(figure.claimed is None for figure in scene.figures):
        return None
    subject = any(
        token.text in ("fill", "fillup", "fill up", "tank", "last one", "fuel", "last fill")
        for token in scene.tokens
    )
    restated = any(token.text in ("actually", "sorry", "oops", "correction", "was", "not", "i meant", "should be", "wasnt", "really") for token in scene.tokens)
    pointed = any(token.text in ("that", "last", "it", "the") for token in scene.tokens)
    if not restated:
        return None
    for _, token, key in scene.find("full"):
        words = token.text.split()
        if subject and (pointed or len(scene.tokens) <= 6) and words:
            return Correction(action="amend", field="full", value=key == "true")
    return None


def _swap(scene: Scene) -> Correction | None:
    """'I meant drive not trailer': both sides name a position."""
    if any(figure.claimed is None for figure in scene.figures):
        return None
    split = next(
        (index for index, token in enumerate(scene.tokens) if token.text in CONTRAST), None
    )
    if split is None:
        return None
    before = [label for label in scene.labels if label.end <= split]
    after = [label for label in scene.labels if label.start > split]
    if not before or not after:
        return None
    first, second = _label_field(before[-1]), _label_field(after[0])
    if first and second and first != second and _only_known(scene):
        if scene.tokens[0].text in CONTRAST:
            first, second = second, first
        return Correction(action="amend", field=first, was=second)
    return None


def _only_known(scene: Scene) -> bool:
    return all(token.senses or token.kind is not WORD for token in scene.tokens)


def _place(scene: Scene) -> Correction | None:
    """'it was Cobblewick not Drybone Fork': two names of places."""
    split = next(
        (index for index, token in enumerate(scene.tokens) if token.text in CONTRAST), None
    )
    if split is None or any(figure.claimed is None for figure in scene.figures):
        return None
    meant = _proper_name(scene, range(split - 1, -1, -1))
    was = _proper_name(scene, range(split + 1, len(scene.tokens)))
    if meant is None or was is None:
        return None
    return Correction(action="amend", field="place", value=meant, was=was)


def _proper_name(scene: Scene, indexes: range) -> str | None:
    """A run of capitalized words that are no words of the phrasebook's small talk."""
    found: list[int] = []
    for index in indexes:
        token = scene.tokens[index]
        capital = token.kind is WORD and token.raw[0].isupper() and index > 0
        plain = not token.senses or token.senses.keys() <= {"street", "subject", "vehicle", "end", "claim"}
        if capital and plain and "time" not in token.senses:
            found.append(index)
        elif found:
            break
        elif "glue" not in token.senses and token.kind is WORD:
            return None
    if not found:
        return None
    return scene.words_between(min(found), max(found) + 1)


def _amended(scene: Scene) -> Correction | None:
    """A figure put in place of another, with its field where one is named."""
    figures = [figure for figure in scene.figures if figure.claimed is None]
    if not figures or len(figures) > 2 or any(token.kind is TIME for token in scene.tokens):
        return None
    restates = _restates(scene)
    opens = _opens(scene)
    contrast = _contrast(scene, figures)
    if not (restates or opens or contrast):
        return None
    value = contrast[0] if contrast else figures[-1]
    was = contrast[1] if contrast else None
    if len(figures) == 2 and contrast is None:
        return None
    if value.foreign is not None or _strangers(scene) > 1:
        return None
    field = _field(scene, value) or (_field(scene, was) if was else None)
    if field is None:
        strong = any(token.text in STRONG for token in scene.tokens[:6])
        if not (strong or contrast or opens) or not _log_sized(value, scene.context):
            return None
        if was is None and not strong and not _mostly_figure(scene):
            return None
    return _amend(scene, value, field, was)


def _strangers(scene: Scene) -> int:
    return sum(
        1
        for token in scene.tokens
        if token.kind is WORD and not token.senses and token.text not in WORD_FIELDS
    )


def _log_sized(figure: Figure, context: Context) -> bool:
    """A figure that no field names must look like one of the log's, not like 'make it 7'."""
    if figure.dimension is not None:
        return figure.dimension not in ("duration", "money") or figure.value >= 10
    return figure.value >= 1000 or figure.token.decimals > 0 or (figure.value >= 100 and figure.token.spoken)


def _mostly_figure(scene: Scene) -> bool:
    return len(scene.tokens) <= 8


def _restates(scene: Scene) -> bool:
    return any(token.text in RESTATING for token in scene.tokens)


def _opens(scene: Scene) -> bool:
    for token in scene.tokens[:5]:
        if token.text in OPENING:
            return True
        if token.kind is WORD and "glue" not in token.senses and "correction" not in token.senses:
            if token.senses.keys() & {"talk", "question_word"} or not token.senses:
                return False
    return False


def _contrast(scene: Scene, figures: list[Figure]) -> tuple[Figure, Figure] | None:
    """'31.4 not 34.1', 'not 34.1, 31.4': what is meant, and what was wrong."""
    if len(figures) != 2:
        return None
    first, second = figures
    for index, token in enumerate(scene.tokens):
        if token.text not in CONTRAST:
            continue
        if first.end <= index < second.start:
            return first, second
        if index < first.start and index + 2 >= first.start:
            return second, first
    return None


def _field(scene: Scene, figure: Figure) -> str | None:
    label = figure.label
    if isinstance(label, Label):
        named = _label_field(label)
        if named == "gross" and figure.dimension == "money":
            return "cost"
        if named:
            return named
    if figure.dimension == VOLUME:
        return "volume"
    if figure.dimension == PRICE:
        return "unit_price"
    for token in scene.tokens:
        if token.text in WORD_FIELDS and token.kind is WORD:
            return WORD_FIELDS[token.text]
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


def _amend(
    scene: Scene, value: Figure, field: str | None, was: Figure | None
) -> Correction:
    return Correction(
        action="amend",
        field=field,
        value=_valued(scene.context, value, field),
        was=_valued(scene.context, was, field) if was is not None else None,
        words=(("value", scene.words_between(value.start, value.end)),),
    )


def _valued(context: Context, figure: Figure, field: str | None) -> Quantity | float:
    unit = _unit(context, figure, field)
    if unit is None:
        whole = figure.value.is_integer()
        return int(figure.value) if whole else figure.value
    return Quantity(figure.value, unit)


MASS_FIELDS = frozenset(
    ("steer", "drive", "trailer", "gross", "truck", "tongue", "gvwr", "gcwr", "gawr", "payload",
     "gawr_front", "gawr_rear", "tow", "curb")
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
    if field in ("transmission", "coolant", "oil", "exhaust", "hub", "ambient"):
        return TEMPERATURE_UNIT[context.units]
    return None
