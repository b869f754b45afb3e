"""Corrections: 'make that 5,230', 'I meant drive not trailer', 'it was Larkfold not Elk Fork'.

This file decides when a message mends an earlier one: whether it swaps two fields, mends the
place, or puts one figure in place of another. Taking an entry back is decided in `undoing`, how
full a tank was in `corrected_fullness`, which field is meant in `corrected_fields`, what names
none in `corrected_bare`; which entry is mended is for the logbook to find. A correction of
something that is no business of the log ('I meant tuesday', 'no, it was 1994') is talk.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.entries import Correction
from domain.quantities import VOLUMES
from domain.reading.amendments import amend
from domain.reading.corrected_bare import (
    MOST_BARE,
    SHORTEST,
    is_part_of_word,
    is_year,
    log_sized,
    nothing_else,
    without_field,
)
from domain.reading.corrected_bars import bars_meant
from domain.reading.corrected_by_name import NAMES_ENTRY, corrects_named, is_subject
from domain.reading.corrected_fields import (
    FORECAST,
    TEMPERATURE_FIELDS,
    field_of,
    field_of_label,
    fits_field,
    strangers,
)
from domain.reading.corrected_fullness import full_or_partial
from domain.reading.corrected_last import is_last_entry, is_of_next_fill, said_of_last
from domain.reading.corrected_places import place_meant, told_where
from domain.reading.corrected_products import corrected_product
from domain.reading.corrected_times import time_meant
from domain.reading.denied_figures import without_name
from domain.reading.figures import (
    VOLUME,
    Figure,
    follows_odometer,
    token_at,
)
from domain.reading.fill_changed import CHANGING, fill_changed
from domain.reading.label import Label
from domain.reading.left_out_fields import LEFT_OUT, left_out
from domain.reading.mistakes import (
    asks_back,
    by_drawbar,
    counts_digits,
    is_beyond,
    like_slip,
    puts_told_right,
    told_wrong,
    value_and_mistake,
    wrong_before,
)
from domain.reading.scene import Scene
from domain.reading.several_corrected import SAID_OF_ALL, several_corrected
from domain.reading.superseded import is_put_right
from domain.reading.taken_back import refers_back
from domain.reading.talk import ADVERT, GUESS, PLAN, REQUEST
from domain.reading.times import has_times
from domain.reading.tokens import MARK, TIME, WORD
from domain.reading.undoing import is_misdirected, undo_of, undoes

LONGEST = 24
"""Tokens: a correction is short; a long message that says 'sorry' is a statement."""

MOST_STRANGE = 1
"""Unknown words of a correction: '31.4 not 34.1 on the pump ticket, sorry hon'."""

STAR = "*"


def read_corrections(scene: Scene) -> tuple[Correction, ...]:
    """The corrections that a message is; none where it is something else."""
    tokens = scene.tokens
    if not tokens or len(tokens) > LONGEST:
        return ()
    if not LEFT_OUT.isdisjoint(scene.said) and len(scene.live) == 1:
        field = left_out(scene, scene.live[0])
        if field is not None:
            return (amend(scene, scene.live[0], field, None),)
    if not _may_correct(scene):
        return ()
    if scene.has("correction") and is_misdirected(scene):
        return ()
    if "talk" in scene.by_class and scene.has("talk", ADVERT):
        return ()  # 'asking price 4,800 for the trailer, i said 3,500'
    if undoes(scene):
        return (undo_of(scene),)
    live = _figures(scene)
    if "coming_up" in scene.groups and live and is_of_next_fill(scene, live[0]):
        return ()
    if not NAMES_ENTRY.isdisjoint(scene.groups) or is_subject(scene, live):
        named = corrects_named(scene, _of_the_rest)
        if named:
            return named
        of_last = said_of_last(scene, live[0]) if len(live) == 1 else None
        if of_last is not None:
            return (amend(scene, live[0], of_last, None),)
    if len(live) == 1 and _cries_out(scene, live[0]):
        return ()
    if len(live) == 1 and any(
        means(scene, live[0]) for means in (_starred, _only_refuses, _is_set, _apologizes, _means)
    ):
        return (amend(scene, live[0], field_of(scene, live[0]), None),)
    if len(live) > 1 and not scene.groups.isdisjoint(CHANGING):
        changed = fill_changed(scene)
        if changed:
            return changed
    if not _worded(scene, live):
        told = not live and scene.has("full") and "?" not in scene.text
        found = full_or_partial(scene) if told else None
    elif any(token.raw == "?" for token in tokens) and not asks_back(scene):
        return ()
    elif len(live) > 2 or (len(live) == 2 and not scene.groups.isdisjoint(SAID_OF_ALL)):
        several = several_corrected(scene, live, read_corrections)
        if several:
            return several
        found = _amended(scene, live)
    else:
        found = (
            full_or_partial(scene) or _swapped(scene) or place_meant(scene) or _amended(scene, live)
        )
        found = found or bars_meant(scene)
    return () if found is None else (found,)


def _of_the_rest(scene: Scene, logged: bool) -> tuple[Correction, ...]:
    """What a message corrects that said which entry it is about; one in the log where `logged`."""
    if "product" in scene.by_class:
        product = corrected_product(scene)
        if product is not None:
            return (product,)
    moved = time_meant(scene) if not scene.figures and has_times(scene) else None
    found = read_corrections(scene) if moved is None else (moved,)
    if found or not logged or len(scene.live) > 1:
        return found
    if not scene.live:
        placed = told_where(scene, logged=True)
        return () if placed is None else (placed,)
    field = said_of_last(scene, scene.live[0], logged=True)
    return () if field is None else (amend(scene, scene.live[0], field, None),)


def may_put_right(scene: Scene) -> bool:
    """Whether a word stands there without which a message puts nothing right."""
    if not PUTTING_RIGHT.isdisjoint(scene.said):
        return True
    return "full" in scene.by_class and (not scene.live or "entry_noun" in scene.groups)


def _may_correct(scene: Scene) -> bool:
    """Whether a word or mark stands there without which nothing is corrected.

    That a tank was full, or not, is a correction where no figure is told but that of an entry:
    'that was a partial', 'the fill at 51,402 wasnt full'.
    """
    by_word = not CORRECTING.isdisjoint(scene.by_class)
    if by_word or not scene.groups.isdisjoint(PUTS_RIGHT):
        return True
    if not scene.groups.isdisjoint(NAMES_ENTRY) and (
        "was_then" in scene.groups or ("ordinal" in scene.by_class and "is_now" in scene.groups)
    ):
        return True
    if "full" not in scene.by_class:
        return False
    figures = _figures(scene)
    return not figures or (len(figures) == 1 and "entry_noun" in scene.groups)


def _figures(scene: Scene) -> list[Figure]:
    """The figures that nothing else owns, and that count no digits."""
    found = [
        figure
        for figure in scene.figures
        if figure.claimed is None and not counts_digits(scene, figure)
    ]
    named = len(found) > 1 and "fuel_cue" in scene.by_class
    return without_name(scene, found) if named else found


PUTS_RIGHT = frozenset(("refuses", "found_wrong", "sets_field", "star", "means_it"))
"""Groups of words that may put something right without a class of term for it."""


def _worded(scene: Scene, live: Sequence[Figure]) -> bool:
    """Whether words say that something is wrong, or was, or bid to put it right."""
    if scene.has("correction") or scene.has("reported") or "found_wrong" in scene.groups:
        return True
    return _bids(scene, live)


def _bids(scene: Scene, live: Sequence[Figure]) -> bool:
    """'correct 51,234 to 51,243': whether what stood there and what is meant are told in one."""
    pair = len(live) == 2 and "changes_field" in scene.groups
    return pair and is_put_right(scene.tokens, live[0].start)


CORRECTING = frozenset(("correction", "reported", "takes_out"))
"""Classes of term that put something right."""

PUTTING_RIGHT = CORRECTING | PUTS_RIGHT | LEFT_OUT | {"was_then", "is_now"}
"""With them, all classes and groups without which no figure is corrected."""


def _starred(scene: Scene, figure: Figure) -> bool:
    """'*5,230', '48,466*': a star before or behind a figure, and no more than its label.

    Two stars are emphasis ('*sigh*'), or stand for letters that are left out.
    """
    tokens = scene.tokens
    if STAR not in (tokens[0].raw, tokens[-1].raw) or scene.text.count(STAR) > 1:
        return False
    field = field_of(scene, figure)
    sized = log_sized(figure) if field is None else fits_field(scene.context, figure, field)
    return sized and len(scene.figures) == 1 and nothing_else(scene, figure, None)


def _only_refuses(scene: Scene, figure: Figure) -> bool:
    """'no, 7,610', 'scratch that, it was 7,160', 'no, 31.4 gal': a refusal, and what it was."""
    first = scene.tokens[0]
    if "refuses" not in first.groups and first.senses.get("correction") != "undo":
        return False
    pumped = "correction" in first.senses and figure.token.decimals == 1  # 'scratch that, 24.6'
    sized = 1000 <= figure.value <= MOST_BARE or (pumped and figure.dimension is None)
    if figure.dimension != VOLUME and not sized:
        return False
    label = figure.label
    if isinstance(label, Label) and field_of_label(label) is None and figure.token.said.scaled:
        return False  # 'no the rig was 40 grand'
    named = isinstance(label, Label) and not label.only_vehicle
    fields = scene.book.keys["corrected_field"]
    if not named and is_year(scene, figure, weak=True):
        return False
    return (
        len(scene.tokens) <= SHORTEST
        and all(
            token.kind is MARK
            or "glue" in token.senses
            or token.senses.get("correction") == "undo"  # 'no scratch that, drive was 6,290'
            or token.text in fields  # 'no, the volume was 34.1 gallons'
            or figure.start <= index < figure.end
            or (isinstance(label, Label) and label.start <= index < label.end)
            for index, token in enumerate(scene.tokens[1:], 1)
        )
    )


def _is_set(scene: Scene, figure: Figure) -> bool:
    """'make the drive 6,380', 'set the odo to 48,322': a field is given another figure.

    Small words may stand before the verb; behind it stand the field and its figure, and no more.
    """
    tokens = scene.tokens
    at = next(
        (i for i, token in enumerate(tokens[:LATEST_SET]) if "sets_field" in token.groups), -1
    )
    if at < 0 or figure.start < at or len(tokens) > SHORTEST + at + LONGEST_ENTRY:
        return False
    ends = {i for i in range(figure.end, len(tokens)) if is_last_entry(tokens[i - 1], tokens[i])}
    if len(tokens) > SHORTEST + at + (LONGEST_ENTRY if ends else 0):
        return False
    label = figure.label
    named = isinstance(label, Label) and not (label.subject or label.rating or label.ordinal)
    field = field_of(scene, figure)
    if field is None:
        # 'make that last fill 24.6'
        named = figure.dimension is None and any(
            "fill_itself" in token.groups for token in tokens[at : figure.start]
        )
    elif not fits_field(scene.context, figure, field):
        return False
    if not (named or field in ("unit_price", "volume")):
        return False
    if isinstance(label, Label) and "everyday_whole" in tokens[label.start].groups:
        return False  # 'make the total 12,500'
    asked = any("asks_politely" in token.groups for token in tokens[:at])
    given = "to" in tokens[figure.start - 1].groups  # 'correct the drive to 7,640'
    if "changes_field" in tokens[at].groups and not (asked or given):
        return False  # and not 'change the oil at 52,000'
    pumped = field in (None, "unit_price", "volume")
    sized = _is_pumped(figure) if pumped else figure.value >= 100
    return sized and all(
        token.kind is MARK
        or "glue" in token.senses
        or at == index
        or figure.start <= index < figure.end
        or (isinstance(label, Label) and label.start <= index < label.end)
        or token.text in scene.book.keys["corrected_field"]
        or token.senses.get("unit") in VOLUMES
        or (index < figure.start and "fuel_cue" in token.senses)  # 'my last fill'
        or index in ends  # 'the gallons 24.2 on that last fill'
        or (bool(ends) and index > max(ends) and "asks_aside" in token.groups)
        or "stands_instead" in token.groups
        or "asks_politely" in token.groups
        or (index > figure.start and "opens_correction" in token.groups)
        for index, token in enumerate(tokens)
    )


def _cries_out(scene: Scene, figure: Figure) -> bool:
    """'coolant was 230, oops': in alarm, and nothing is mended."""
    label, tokens = figure.label, scene.tokens
    end = len(tokens) - (tokens[-1].kind is MARK)
    if not isinstance(label, Label) or label.subject is None or figure.end >= end:
        return False
    cried = "dismays" in tokens[end - 1].groups
    said = [index for index in scene.by_class.get("correction", ()) if index < end - 1]
    return cried and not said and "contrasts" not in scene.groups


def _apologizes(scene: Scene, figure: Figure) -> bool:
    """'the drive axle was 6,860, sorry': what a field was, and behind it that one is sorry.

    What is told as it is, 'gross is 11,970 - I fat fingered it', says that it was a slip.
    """
    tokens = scene.tokens
    end = len(tokens) - (tokens[-1].kind is MARK)
    end -= "addresses" in tokens[end - 1].groups  # 'sorry mate'
    if "apologizes" not in tokens[end - 1].groups or len(tokens) > SHORTEST + 3:
        return False
    before = tokens[figure.start - 1] if figure.start else None
    behind = tokens[figure.end : end]
    slip = any("own_slip" in token.groups for token in behind)
    if before is None or not (slip or "was_so" in before.groups):
        return False
    field, label = field_of(scene, figure), figure.label
    gauge = isinstance(label, Label) and label.subject is not None
    if field is None or gauge or not fits_field(scene.context, figure, field):
        return False
    own = scene.talk[figure.start] is None and not strangers(scene)
    return own and all(token.kind is MARK or "apologizes" in token.groups for token in behind)


def _means(scene: Scene, figure: Figure) -> bool:
    """'26.2 gallons i mean', 'i mean 26.2 gal': what was meant, and no more than its label."""
    tokens = scene.tokens
    ends = [tokens[0].groups, tokens[-1].groups]
    if not any("means_it" in groups for groups in ends) or len(tokens) > SHORTEST:
        return False
    if "weigh_cue" in scene.by_class:
        return False  # 'she sits at 9,140 on the scale, the trailer i mean': which was weighed
    field = field_of(scene, figure)
    sized = field is not None and fits_field(scene.context, figure, field)
    return sized and nothing_else(scene, figure, None)


LONGEST_ENTRY = 4
"""Tokens of 'on that last fill', which says of what the field is."""

LATEST_SET = 6
"""Tokens in which the verb stands that gives a field another figure."""


def _is_pumped(figure: Figure) -> bool:
    """Decimals as a pump has them: 'make the price 3.799', and not 'make the volume 12'."""
    return figure.token.decimals > 0 or figure.dimension == VOLUME


def _swapped(scene: Scene) -> Correction | None:
    """'I meant drive not trailer', 'i said steer but meant drive': two positions, no figure."""
    if any(figure.claimed is None for figure in scene.figures) or not scene.has("correction"):
        return None
    labels = scene.labels or scene.find_labels()
    named = [(label, field) for label in labels if (field := field_of_label(label))]
    if len(named) < 2 or named[0][1] == named[1][1]:
        return None
    (first, meant), (second, was) = named[0], named[1]
    if (first.subject is None, first.field is None) != (
        second.subject is None,
        second.field is None,
    ):
        return None  # "that's the camper's tire, not the truck's", 'that ticket was ours, not Ed's'
    if wrong_before(scene, first.start) and not wrong_before(scene, second.start, first.end):
        meant, was = was, meant
    elif not wrong_before(scene, second.start, first.end):
        return None
    if strangers(scene) > 1:
        return None
    return Correction(action="amend", field=meant, was=was)


def _amended(scene: Scene, figures: Sequence[Figure]) -> Correction | None:
    """A figure put in place of another, with its field where one is named."""
    if not figures or len(figures) > 2 or TIME in scene.kinds:
        return None
    value, was = value_and_mistake(scene, figures)
    if value is None or value.foreign is not None:
        return None
    if strangers(scene) > MOST_STRANGE and not _reasoned(scene, value, was):
        return None
    if was is not None and (was.value == value.value or is_beyond(value, was)):
        return None
    asked = scene.talk[value.start] == REQUEST and _asks_for_change(scene, value)
    if scene.talk[value.start] in (REQUEST, PLAN) and not asked:
        return None
    if is_part_of_word(scene, value):
        return None
    restates = _restates(scene, value)
    turned = scene.has("event") and follows_odometer(value.value, scene.context)
    if turned and was is not None and like_slip(value, was) and not value.dimension:
        return amend(scene, value, "odometer", was)  # 'arrived 51,490 not 51,409'
    if turned and was is None and not restates:
        # 'sorry, home was 86,512'; 'wrong road, turned around at 86,512' mends nothing
        said = _apologizes_first(scene) or _reads_it_anew(scene, value)
        said = said and "was_so" in scene.tokens[value.start - 1].groups
        mends = said and _says_no_reason(scene, value)
        return amend(scene, value, "odometer", None) if mends else None
    if "hearsay" in scene.groups:
        return None  # 'should be 41 degrees according to the radio'
    opens, right = _opens(scene), _said_right(scene, value) or told_wrong(scene, value)
    if not (restates or opens or was is not None or right):
        return None
    if was is None and not restates and _left_out(scene):
        return None  # 'sorry, forgot to log the last fill. odo 51,300 now'
    if was is None and not opens and _guessed(scene, value):
        return None  # 'should be roughly 30'
    told = was if was and was.dimension and not value.dimension else value
    field = (
        field_of(scene, told) or field_of(scene, value) or (field_of(scene, was) if was else None)
    )
    said = scene.has("correction") or scene.has("reported") or _bids(scene, figures)
    weak = (by_drawbar(scene) and "own_slip" not in scene.groups) or not said
    if weak and (field is None or (was and not puts_told_right(scene, value, was))):
        return None  # "it was $14, you've got $20", "rent isn't 1,200 its 1,260": said to people
    if (
        was is None
        and field in TEMPERATURE_FIELDS
        and (_alarmed(scene, value) or _calls_attention(scene, value))
    ):
        return None
    if field is None:
        return without_field(scene, value, was, opens=opens, restates=restates)
    if was is None and not (restates or right) and not _near_opening(scene):
        return None
    if was is None and not opens and field in FORECAST:
        scene.claim(value, "a forecast")
        return None  # 'wind should be 15 mph by noon'
    if is_year(scene, value) and (was is None or not isinstance(value.label, Label)):
        return None
    if not fits_field(scene.context, value, field):
        return None
    return amend(scene, value, field, was)


def _apologizes_first(scene: Scene) -> bool:
    """'sorry, home was ...', 'correction: we left at ...'."""
    return not scene.tokens[0].groups.isdisjoint(("apologizes", "surely_corrects"))


def _says_no_reason(scene: Scene, value: Figure) -> bool:
    """'sorry, it was ...'; 'sorry im late, it was ...' is sorry for something else."""
    start, _ = scene.clause_of(value.start)
    return all(
        token.kind is MARK or not token.senses.keys().isdisjoint(("correction", "glue"))
        for token in scene.tokens[:start]
    )


def _reads_it_anew(scene: Scene, value: Figure) -> bool:
    """'actually the odo was 51,320 when we left': what is taken back is what the odometer read."""
    label = value.label
    named = isinstance(label, Label) and label.field == "odometer"
    first = scene.tokens[0]
    back = "takes_back" in first.groups and "found_wrong" not in first.groups  # 'wrong road, odo'
    return named and back and "correction" in first.senses


def _left_out(scene: Scene) -> bool:
    """'forgot to log', 'never texted': what one is sorry for is that an entry is missing."""
    if "missed_verb" not in scene.by_class:
        return "missed" in scene.by_class
    return any(" " in token.text for _, token, _ in scene.find("missed_verb"))


def _asks_for_change(scene: Scene, value: Figure) -> bool:
    """'can you change the last one to 51,402': asked of Drawbar, and put in so many words."""
    politely = "asks_politely" in scene.groups and "changes_field" in scene.groups
    return politely and "to" in scene.tokens[value.start - 1].groups


def _alarmed(scene: Scene, value: Figure) -> bool:
    """'coolant was 230, oops': what a gauge showed, and behind it no more than a cry."""
    behind = [token for token in scene.tokens[value.end :] if token.kind is not MARK]
    return len(behind) == 1 and "cries_out" in behind[0].groups


def _calls_attention(scene: Scene, value: Figure) -> bool:
    """'hang on, trans is at 201': what a gauge shows now, before which somebody calls out."""
    corrected = [token for token in scene.tokens if "correction" in token.senses]
    if "bids_wait" not in scene.tokens[0].groups or len(corrected) > 1:
        return False
    return any("copula" in token.senses.get("glue", "") for token in scene.tokens[: value.start])


def _guessed(scene: Scene, value: Figure) -> bool:
    """Whether it is guessed what it should be; 'ought to be 96.40' says it of itself."""
    start, end = scene.sentence_of(value.start)
    return scene.talk[value.start] == GUESS and any(
        GUESS in token.senses.get("talk", "").split() and "restates" not in token.groups
        for token in scene.tokens[start:end]
    )


def _restates(scene: Scene, value: Figure) -> bool:
    """'should be 7,040', 'should read the drive 7,040': said of the figure, and of no person."""
    start, _ = scene.sentence_of(value.start)
    label = value.label
    for index in range(value.start - 1, start - 1, -1):
        token = scene.tokens[index]
        if "restates" in token.groups:
            before = token_at(scene.tokens, index - 1)
            own = "restates_own" in token.groups  # 'i should be back by 8', 'i should have said'
            return own or before is None or "pronoun" not in before.groups
        if not (
            token.kind is not WORD
            or token.senses.keys() & {"glue", "correction"}
            or (isinstance(label, Label) and label.start <= index < label.end)
            or token.text in scene.book.keys["corrected_field"]
        ):
            return False
    return False


def _near_opening(scene: Scene) -> bool:
    """A correction that only opens like one ('sorry ...') is as short as one."""
    loads = sum(1 for figure in scene.figures if figure.claimed is None)
    return loads == 1 and len(scene.tokens) <= 14


def _said_right(scene: Scene, value: Figure) -> bool:
    """'48,362 is right': said of the figure, beside a word for the slip."""
    behind = [token.text for token in scene.tokens[value.end : value.end + 3]]
    return bool(scene.book.groups["said_right"] & set(behind))


def _reasoned(scene: Scene, value: Figure, was: Figure | None) -> bool:
    """'tongue was 1,140 not 1,410, the paper had a fold': the clause that corrects has no stranger.

    What stands beside it says why, in whatever words.
    """
    if was is None:
        return False
    told = was if was.dimension and not value.dimension else value
    if field_of(scene, told) is None or not (
        like_slip(value, was) or refers_back(scene.tokens, was)
    ):
        return False
    first, last = sorted((value, was), key=lambda each: each.start)
    start, end = scene.clause_of(first.start)[0], scene.clause_of(last.start)[1]
    return not any(start <= index < end for index in scene.unknown_words())


def _opens(scene: Scene) -> bool:
    """Whether words for a correction stand first, or behind one word alone: 'drat, make that'."""
    following = token_at(scene.tokens, 1)
    alone = following is not None and following.kind is MARK and not scene.tokens[0].senses
    opening = scene.tokens[2 if alone else 0 :][:7]
    for token in [each for each in opening if "per_volume" not in each.senses][:5]:
        if "opens_correction" in token.groups:
            return True
        if token.kind is not WORD or token.senses.keys() & {"glue", "correction", "reported"}:
            continue
        if token.text in scene.book.keys["corrected_field"] or token.groups & ASIDE:
            continue
        if not token.senses or token.senses.keys() & {"talk", "question_word"}:
            return False
    return False


ASIDE = frozenset(("log_entry", "asks_politely"))
"""Groups of words that may stand before a correction and are none: 'can you change that entry'."""
