"""Corrections: 'make that 5,230', 'I meant drive not trailer', 'scratch that'.

This file decides when a message mends an earlier one, and whether it undoes it, swaps two
fields, mends the place or the fullness of a tank, or puts one figure in place of another. Which
field is meant is decided in `corrected_fields`; which entry it mends is for the logbook to
find. A correction of something that is no business of the log ('I meant tuesday') is talk.
"""

from __future__ import annotations

from domain.entries import Correction
from domain.reading.corrected_fields import field_of, field_of_label, fits_field, value_of
from domain.reading.figures import DURATION, MONEY, Figure, follows_odometer
from domain.reading.labels import Label
from domain.reading.scene import PLAN, REQUEST, Scene
from domain.reading.tokens import MARK, NUMBER, TIME, WORD

OF_THE_LOG = frozenset(
    ("vehicle", "name", "weigh_cue", "fuel_cue", "odometer", "axle", "correction", "ticket")
)
WHY = frozenset(("opens_correction", "log_entry", "marks_mistake", "of_fill"))
"""What says why an entry is taken back: something of the log, or a word for the slip."""

SHORTEST = 8
BARELY, LEAST_BARE = 2, 30
"""Tokens of 'make that 99', and the least that it is said of: fewer are pizzas and people."""
MOST_OF_PLACE = 12
"""Tokens of 'it was Cobblewick not Drybone Fork, sorry'."""

LONGEST = 24
"""Tokens: a correction is short; a long message that says 'sorry' is a statement."""


def read_correction(scene: Scene) -> Correction | None:
    """The correction that a message is, or None."""
    tokens = scene.tokens
    if not tokens or len(tokens) > LONGEST:
        return None
    if scene.has("correction") and is_misdirected(scene):
        return None
    if scene.has("correction", "undo") and _undoes(scene):
        return Correction(action="undo")
    live = [figure for figure in scene.figures if figure.claimed is None]
    if len(live) == 1 and "*" in (tokens[0].raw, tokens[-1].raw):
        return _amend(scene, live[0], field_of(scene, live[0]), None)
    if len(live) == 1 and _only_refuses(scene, live[0]):
        return _amend(scene, live[0], field_of(scene, live[0]), None)
    if not (scene.has("correction") or scene.has("reported")):
        return _full_or_partial(scene) if not live and scene.has("full") else None
    if any(token.raw == "?" for token in tokens):
        return None
    return _full_or_partial(scene) or _swapped(scene) or _place(scene) or _amended(scene, live)


ENTRY_SENSES = frozenset(("weigh_cue", "fuel_cue", "odometer", "hitch", "ticket"))
"""What an entry may be called: a weighing, a fill, an odometer reading."""


def takes_out(scene: Scene) -> bool:
    """'that last one's wrong, delete it', 'take the last fill out': what was logged last goes."""
    last = wrong = named = takes = False
    out = any("out_of_log" in token.groups for token in scene.tokens)
    for token in scene.tokens:
        way = "undo" if token.senses.get("correction") == "undo" else token.senses.get("takes_out")
        takes = takes or way in ("undo", "entry") or (way is not None and out)
        wrong = wrong or (way is None and "correction" in token.senses)
        last = last or token.senses.get("ordinal") == "last"
        entry = "log_entry" in token.groups or not ENTRY_SENSES.isdisjoint(token.senses)
        named = named or entry
        if not (
            entry
            or way is not None
            or token.kind is MARK
            or token.senses.keys() & {"glue", "ordinal", "correction"}
            or token.groups & {"before_undo", "points_back", "its_tank"}
        ):
            return False
    return takes and (wrong or (last and named)) and scene.tokens[-1].raw != "?"


def is_misdirected(scene: Scene) -> bool:
    """'sorry wrong person. delete that msg': it was meant for another chat."""
    return scene.phrase_said("misdirected") is not None


def _only_refuses(scene: Scene, figure: Figure) -> bool:
    """'no, 7,610', 'no it's 7,160 on drive': a refusal, and what it was instead."""
    if "refuses" not in scene.tokens[0].groups or figure.value < 1000:
        return False
    label = figure.label
    return len(scene.tokens) <= SHORTEST and all(
        token.kind is MARK
        or "glue" in token.senses
        or figure.start <= index < figure.end
        or (isinstance(label, Label) and label.start <= index < label.end)
        for index, token in enumerate(scene.tokens[1:], 1)
    )


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
    strange = sum(1 for other in scene.unknown_words() if other > index)
    behind = scene.tokens[index + 1 :]
    if any(each.kind in (NUMBER, TIME) and each.value < 1000 for each in behind):
        return False  # 'scratch that, come at 9'
    ours = any(not OF_THE_LOG.isdisjoint(each.senses) or each.groups & WHY for each in behind)
    return allowed and strange <= (3 if ours else 1) and not _object_elsewhere(scene, index)


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
        and not further.senses.keys() & {"weigh_cue", "fuel_cue", "odometer", "hitch", "correction"}
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
        if scene.talk[index] in (PLAN, REQUEST):
            continue  # 'gonna fill up in the morning, dont wait on me'
        before = {token.text for token in scene.tokens[:index]}
        denied = key == "true" and bool(before & scene.book.groups["denies"])
        return Correction(action="amend", field="full", value=key == "true" and not denied)
    return None


def _swapped(scene: Scene) -> Correction | None:
    """'I meant drive not trailer', 'i said steer but meant drive': two positions, no figure."""
    if any(figure.claimed is None for figure in scene.figures):
        return None
    named = [(label, field) for label in scene.labels if (field := field_of_label(label))]
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
    plain = len(scene.tokens) <= MOST_OF_PLACE and len(scene.unknown_words(names=False)) <= 1
    if split is not None and plain:
        meant = _proper_name(scene, range(split - 1, -1, -1))
        was = _proper_name(scene, range(split + 1, len(scene.tokens)))
        if meant is not None and was is not None:
            return Correction(action="amend", field="place", value=meant, was=was)
    words = scene.words()
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
    turned = scene.has("event") and follows_odometer(value.value, scene.context)
    if turned and was is None and not any("restates" in token.groups for token in scene.tokens):
        return None  # 'wrong road, turned around at 86,512'
    if any("hearsay" in token.groups for token in scene.tokens):
        return None  # 'should be 41 degrees according to the radio'
    restates = any("restates" in token.groups for token in scene.tokens)
    opens, right = _opens(scene), _said_right(scene, value)
    if not (restates or opens or was is not None or right):
        return None
    field = field_of(scene, value) or (field_of(scene, was) if was else None)
    if field is None:
        strong = restates or any("surely_corrects" in token.groups for token in scene.tokens[:6])
        only = len(scene.tokens) == BARELY and "surely_corrects" in scene.tokens[0].groups
        if not (_log_sized(value) or (only and value.value >= LEAST_BARE)):
            return None
        if _strangers(scene) > 1:
            return None
        if was is None and not strong and not (opens and len(scene.tokens) <= 8):
            return None
    elif was is None and not (restates or right) and not _near_opening(scene):
        return None
    if not fits_field(value, field):
        return None
    return _amend(scene, value, field, was)


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
    return sum(1 for index in scene.unknown_words() if scene.tokens[index].text not in known)


def _log_sized(figure: Figure) -> bool:
    """A figure that no field names must look like one of the log's, not like 'make it 7'."""
    if figure.dimension is not None:
        return figure.dimension not in (DURATION, MONEY) or figure.value >= 10
    if figure.token.decimals == 2 and figure.value < 13 and round(figure.value * 100) % 5 == 0:
        return figure.value % 1 >= 0.6  # 'sorry, 7.30 not 8.30'
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
        if token.text in scene.book.keys["corrected_field"]:
            continue
        if not token.senses or token.senses.keys() & {"talk", "question_word"}:
            return False
    return False


def _amend(scene: Scene, value: Figure, field: str | None, was: Figure | None) -> Correction:
    return Correction(
        action="amend",
        field=field,
        value=value_of(scene.context, value, field),
        was=value_of(scene.context, was, field) if was is not None else None,
        words=(("value", scene.words_between(value.start, value.end)),),
    )
