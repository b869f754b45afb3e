"""The order in which a message's possible meanings are tried, and what decides between them.

An answer to an open question comes first, then a note, a question, a correction, and last the
facts. Facts are read kind by kind, those with the surest marks first; a figure that one kind
has taken is not offered to the next. The first doubt ends the reading: it is asked about.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from dataclasses import fields, replace
from datetime import date
from functools import partial
from itertools import pairwise

from domain.context import MASS_UNIT, Context
from domain.doubts import kinds_in_doubt, picked
from domain.entries import (
    KIND_NAMES,
    Cargo,
    Correction,
    Entry,
    Hitch,
    Odometer,
    Weighing,
)
from domain.quantities import Quantity
from domain.reading.answers import answer_of
from domain.reading.asides import is_told_for_sure, without_asides
from domain.reading.asked_whether import asks_whether
from domain.reading.checks import read_checks
from domain.reading.corrected_places import told_where
from domain.reading.corrected_products import corrected_product
from domain.reading.corrected_times import NAMING, SAYS_WHEN, time_meant
from domain.reading.corrected_trailers import trailer_meant
from domain.reading.corrections import STAR, may_put_right, read_corrections
from domain.reading.corrections_beside import corrects_and_more, undone
from domain.reading.denied_figures import leave_denied, leave_told
from domain.reading.doubts import Doubt
from domain.reading.explanation import explanation
from domain.reading.figures import MASS
from domain.reading.finding_questions import LEAST_OF_A_RIG, asked_last, find_question
from domain.reading.fragments import STOP, as_list
from domain.reading.fullness_beside import fullness_beside
from domain.reading.heard_loads import as_meant
from domain.reading.hitches import read_hitches
from domain.reading.label import Label
from domain.reading.lexer import clean
from domain.reading.loads import makes_gross
from domain.reading.meanings import meaning_first, meaning_of_figures
from domain.reading.notes import read_note, recalls
from domain.reading.passes import heads_loads
from domain.reading.phrasebook import Phrasebook
from domain.reading.questions import only_tells, read_question
from domain.reading.readers import WAKES, read_figures
from domain.reading.run_ons import LONGEST_SAID, is_sure, rest_of_run_on
from domain.reading.said_once import in_order, placed
from domain.reading.scene import Scene
from domain.reading.spans import read_span
from domain.reading.standing import read_standing
from domain.reading.tables import unfold
from domain.reading.times import has_times
from domain.reading.tokens import NUMBER
from domain.reading.told_and_asked import asked_tail, done_head, is_told, may_ask_besides, told_head
from domain.reading.told_faults import TOLD_FAULTS
from domain.reading.undoing import takes_out, undo_of
from domain.reading.weighings import is_permitted
from domain.verdicts import PAGE, Ask, Facts, Question, Silent, Verdict

SILENT = Silent()

YEAR = re.compile(r"(?:19|20)\d\d")

ADDING = frozenset(("event", "hitch", "check_item", "full"))
"""Classes of term that say more than the answer to a question asks for."""

CORRECTING = frozenset(("correction", "takes_out"))
"""Classes of term that may correct what was logged."""

PUTS_RIGHT = frozenset(("contrasts", "no_alone", "opens_correction", "marks_meant", "entry_noun"))
"""Groups of words of which one stands where one product is put in the place of another."""

FACTUAL = frozenset(
    ("full", "check_item", "hitch", "correction", "name", "vehicle", "reported", "rig")
)
"""Classes of term that can make a fact without a figure."""


def read(text: str, context: Context, book: Phrasebook) -> Verdict:
    """What a message is: facts, a question, a doubt or talk. Raises nothing for any text."""
    cleaned = clean(text)
    if " 2 " in cleaned:
        cleaned = book.patterns["two_for_to"].sub(_spelled_out, cleaned)
    standing = read_standing(cleaned, context, book.standing) if book.standing else None
    if standing is not None:
        if isinstance(standing, Question) and standing.form == PAGE:
            standing = _of_days(standing, Scene(cleaned, context, book))
        if standing is not None and not _answers(cleaned, context, book):
            return standing
    said = cleaned
    if "\n" in cleaned and context.asked is None:
        said, *more = unfold(cleaned, partial(heads_loads, book)) or [cleaned]
        if more:
            return _rows([said, *more], context, book)
    return meaning_first(cleaned, _told(Scene(said, context, book), context), book)


def _spelled_out(match: re.Match[str]) -> str:
    """'wants to ' of 'wants 2 '."""
    return f"{match[1]} to "


def _told(scene: Scene, context: Context) -> Verdict:
    """The verdict on a message: on it as it stands, on its fragments as a list, or on a clause.

    A clause of a long one is read alone where it tells something for sure.
    """
    verdict = _verdict(scene, context)
    if STOP in scene.text and isinstance(verdict, (Silent, Ask)):
        listed = as_list(scene.text)
        told = None if listed is None else _verdict(Scene(listed, context, scene.book), context)
        if isinstance(told, Facts):
            scene.decided(lambda: f"its stops only part fragments: {listed!r}")
            return told
    amid = _amid_talk(scene, context) if isinstance(verdict, Silent) else None
    if amid is not None:
        return amid
    if len(scene.tokens) <= LONGEST_SAID or not isinstance(verdict, Silent):
        return verdict
    rest = rest_of_run_on(scene)
    told = verdict if rest is None else _verdict(Scene(rest, context, scene.book), context)
    if not is_sure(told):
        return verdict
    scene.decided(lambda: f"all before {rest!r} is talk")
    return told


def _amid_talk(scene: Scene, context: Context) -> Verdict | None:
    """What a message tells for sure without the talk at its ends."""
    for text in without_asides(scene):
        told = _verdict(Scene(text, context, scene.book), context)
        if is_told_for_sure(scene, told, text):
            scene.decided(partial("all but {!r} is talk".format, text))
            return told
    return None


def _of_days(question: Question, scene: Scene) -> Question | None:
    """A report of the days named after it; None where what is named are no days: it is talk."""
    if question.item is None:
        return question
    if YEAR.fullmatch(question.item):
        year = int(question.item)
        return replace(question, item=None, since=date(year, 1, 1), until=date(year, 12, 31))
    since, until = read_span(scene)
    return None if since is None else replace(question, item=None, since=since, until=until)


def _answers(text: str, context: Context, book: Phrasebook) -> bool:
    """Whether a message answers the open question, where there is one."""
    asked = context.asked
    return asked is not None and answer_of(Scene(text, context, book), asked) is not None


def _rows(rows: Sequence[str], context: Context, book: Phrasebook) -> Verdict:
    """The lines of a log, each read as a message; one in doubt leaves the whole in doubt."""
    entries: list[Entry] = []
    for row in rows:
        verdict = _verdict(Scene(row, context, book), context)
        if not isinstance(verdict, Facts):
            return verdict
        entries.extend(verdict.entries)
    return Facts(tuple(entries))


def _verdict(scene: Scene, context: Context) -> Verdict:
    if not scene.tokens:
        return SILENT
    if context.asked is not None:
        answer = answer_of(scene, context.asked) or _answer_first(scene, context.asked)
        if answer is not None and not _tells_another(scene, context.asked, answer):
            return _with_what_else(scene, context, answer)
    classes = scene.by_class
    if not SURE.isdisjoint(classes):
        sure = _surely_told(scene)
        if sure is not None:
            return sure
    if only_tells(scene):
        return _put_right(scene) or _facts(scene)
    question = find_question(scene)
    if question is None:
        told = _told_and_asked(scene, None) if may_ask_besides(scene) else None
        if told is not None:
            return told
    else:
        asked = _asked(scene, question)
        if asked is not None:
            return asked
    if "product" in classes and not PUTS_RIGHT.isdisjoint(scene.groups):
        product = corrected_product(scene)
        if product is not None:
            return Facts((product,))
    if "name" in classes and not scene.figures:
        trailer = trailer_meant(scene)
        if trailer is not None:
            return Facts((trailer,))
    if (
        not scene.figures
        and FACTUAL.isdisjoint(scene.by_class)
        and TOLD_FAULTS.isdisjoint(scene.groups)
    ):
        return asked_last(scene) or _of_what_was_told(scene)
    if asks_whether(scene) and not _states_loads(scene):
        return SILENT
    put_right = _put_right(scene)
    if put_right is not None:
        return put_right
    if not _only_asks(scene):
        return _facts(scene)
    asked = _facts(scene) if "meaning_word" in scene.groups else SILENT
    return asked if isinstance(asked, Question) else SILENT


SURE = frozenset(("note", "takes_out", "correction", "reported"))
"""Classes of term of which one stands in what is told whatever its words could ask."""


def _surely_told(scene: Scene) -> Facts | Silent | None:
    """A note, an undo, or what was read or said wrongly; None where it is another matter."""
    if "note" in scene.by_class:
        note = read_note(scene)
        if note is not None:
            return Facts((note,))
        if recalls(scene):
            return SILENT
    undoes = "takes_out" in scene.by_class or scene.has("correction", "undo")
    if undoes and takes_out(scene):
        return Facts((undo_of(scene),))
    corrections = read_corrections(scene) if "reported" in scene.by_class else ()
    return Facts(corrections) if corrections else None


def _asked(scene: Scene, question: Question) -> Verdict | None:
    """The question, or what is told with it; None where it is told in the form of a question."""
    if "contrasts" in scene.groups and "?" not in scene.text:
        corrections = read_corrections(scene)
        if corrections:
            return Facts(corrections)  # 'that was the trip meter not the odometer'
    if _states_reading(scene) or _tells_what(scene):
        return None
    told = _told_and_asked(scene, question)
    return told or (None if _states_loads(scene) else question)


def _put_right(scene: Scene) -> Facts | None:
    """What was logged that a message corrects, with what else it tells."""
    if not may_put_right(scene):
        return None
    corrects = not CORRECTING.isdisjoint(scene.by_class) or scene.text[-1] == STAR
    mixed = corrects_and_more(scene, _facts) if corrects else None
    if mixed is None and scene.live and "full" in scene.by_class:
        mixed = fullness_beside(scene, _facts)
        if mixed is not None:
            return mixed
    if mixed is not None and undone(mixed):
        return mixed
    corrections = read_corrections(scene)
    if corrections and not (mixed is not None and _has_more(mixed, corrections)):
        return Facts(corrections)
    if mixed is None and corrects and "contrasts" in scene.groups:
        leave_denied(scene)
    if mixed is None and "told_before" in scene.groups:
        leave_told(scene)
    return mixed


def _has_more(told: Facts, corrections: Sequence[Correction]) -> bool:
    """Whether all that is put right is told, and something besides."""
    more = len(told.entries) > len(corrections)
    return more and all(each in told.entries for each in corrections)


def _of_what_was_told(scene: Scene) -> Facts | Silent:
    """'that fill was yesterday', 'my last weighing was at Pell': when it was, or where."""
    if SAYS_WHEN.isdisjoint(scene.groups):
        return SILENT
    dated = not NAMING.isdisjoint(scene.groups) and has_times(scene)
    found = (time_meant(scene) if dated else None) or told_where(scene)
    return SILENT if found is None else Facts((found,))


def _answer_first(scene: Scene, asked: Ask) -> Facts | None:
    """'def. who buys 2.4 gal of diesel': a sentence answers, and what follows is talk."""
    _, end = scene.sentence_of(0)
    if end == len(scene.tokens):
        return None
    cut = scene.tokens[end - 1].end
    unasked = replace(scene.context, asked=None)
    talk = Scene(clean(scene.text[cut:]), unasked, scene.book)
    if not isinstance(_verdict(talk, unasked), Silent):
        return None
    return answer_of(Scene(scene.text[:cut], scene.context, scene.book), asked)


def _tells_another(scene: Scene, asked: Ask, answer: Facts) -> bool:
    """'ball 10000 lb', 'hitch 12000': a figure of something else that is told whole.

    What picks a choice is an answer, and so is the field in doubt by itself: '48,388'.
    """
    if picked(answer.entries, asked):
        return False
    unasked = replace(scene.context, asked=None)
    own = _verdict(Scene(scene.text, unasked, scene.book), unasked)
    if not isinstance(own, Facts):
        return False
    if _events(own.entries) - _events(answer.entries) and _events(answer.entries):
        return True  # 'got there 52,409', where the reading on leaving is in doubt
    meant = kinds_in_doubt(asked) | {Correction}
    return not any(type(entry) in meant or hasattr(entry, asked.about) for entry in own.entries)


def _events(entries: Sequence[Entry]) -> set[str]:
    return {each.event for each in entries if isinstance(each, Odometer) and each.event}


def _with_what_else(scene: Scene, context: Context, answer: Facts) -> Facts:
    """'arrived, 48,611' settles the odometer that was asked about, and says what happened there."""
    if not any(not ADDING.isdisjoint(token.senses) for token in scene.tokens):
        return answer
    unasked = replace(context, asked=None)
    own = _verdict(Scene(scene.text, unasked, scene.book), unasked)
    said: Sequence[Entry] = ()
    if isinstance(own, Facts):
        # 'not full' corrects nothing here, and 'hitched up' tells how it stood on the scale.
        weighed = any(isinstance(entry, Weighing) for entry in answer.entries)
        aside = (Correction, Hitch) if weighed else Correction
        said = [entry for entry in own.entries if not isinstance(entry, aside)]
    elif isinstance(own, Ask) and own.choices:
        said = own.choices[0].entries
    entries = list(answer.entries)
    for each in said:
        alike = [index for index, entry in enumerate(entries) if type(entry) is type(each)]
        if alike:
            entries[alike[0]] = _completed(entries[alike[0]], each)
        elif isinstance(own, Facts):
            entries.append(each)
    return Facts(tuple(entries))


def _completed(entry: Entry, said: Entry) -> Entry:
    """An entry with the fields that it leaves open and that was said of it anew."""
    open_fields = {
        each.name: getattr(said, each.name)
        for each in fields(entry)
        if getattr(entry, each.name) is None and getattr(said, each.name) is not None
    }
    return replace(entry, **open_fields) if open_fields else entry


def _states_loads(scene: Scene) -> bool:
    """Two labelled loads are a statement, whatever is asked after them."""
    if len(scene.figures) < LOADS_TOLD:
        return False
    bound = [
        figure
        for figure in scene.live
        if isinstance(figure.label, Label)
        and (figure.label.places_load or figure.label.vehicle or figure.label.rating)
        and figure.value >= 100
    ]
    first = scene.tokens[0].groups
    told = "asks_first" not in first or ("opens_relative" in first and "?" not in scene.text)
    return len(bound) >= LOADS_TOLD and told


LOADS_TOLD = 2
"""Labelled loads that are told, and not asked about."""


def _tells_what(scene: Scene) -> bool:
    """'what I paid was 88.40': a clause and its figure; who asks puts the verb first."""
    if "?" in scene.text or len(scene.tokens) < SHORTEST_TOLD:
        return False
    first, second = scene.tokens[:2]
    subject = second.groups & {"pronoun", "article"} or "name" in second.senses
    if "asks_indirectly" not in first.groups or not subject:
        return first.kind is NUMBER and _is_what(scene)
    return any(
        figure.start > 2 and "was" in scene.tokens[figure.start - 1].groups for figure in scene.live
    )


def _is_what(scene: Scene) -> bool:
    """'7,120 is what the camper weighs': a figure at the head, and what it is of."""
    figure = next(iter(scene.live), None)
    if figure is None or figure.start or figure.end == len(scene.tokens):
        return False
    *copula, word = scene.tokens[figure.end].text.split() or [""]
    return bool(copula) and word in scene.book.groups["asks_indirectly"]


SHORTEST_TOLD = 4
"""Tokens: 'what I paid was' and how much."""


def _states_reading(scene: Scene) -> bool:
    """'let's see odometer reads 72,704': what it reads is told, and nothing asked."""
    return (
        bool(scene.figures)
        and "?" not in scene.text
        and any(
            isinstance(figure.label, Label)
            and figure.label.field == "odometer"
            and figure.value >= LEAST_OF_A_RIG
            for figure in scene.live
        )
    )


def _told_and_asked(scene: Scene, question: Question | None) -> Facts | Ask | None:
    """'steer 5,180, drive 6,900, are we over?': what is told, whose answer says what is asked."""
    if question is None:
        tail = asked_tail(scene)
        question = read_question(Scene(tail, scene.context, scene.book)) if tail else None
    head = told_head(scene, question) or done_head(scene, question)
    if head is None:
        return None
    told = _verdict(Scene(head, scene.context, scene.book), scene.context)
    match told:
        case Facts(entries) if is_told(entries, question):
            return told
        case Ask(choices=choices) if choices:
            sure = all(is_told(each.entries, question) for each in choices)
            return told if sure else None
    return None


def _only_asks(scene: Scene) -> bool:
    """A question to people states nothing, unless a statement stands before it."""
    if scene.tokens[-1].raw == "?":
        start, _ = scene.sentence_of(max(0, len(scene.tokens) - 2))
        return start == 0
    return not scene.figures and _asks_what(scene)


def _asks_what(scene: Scene) -> bool:
    """'what did the camper drop our mpg to': nothing happened, whatever its words could tell."""
    groups = scene.book.groups
    if "asks_indirectly" not in scene.groups:
        return False
    if scene.words()[0] not in groups["asks_indirectly"]:
        return False
    behind = scene.words()[1:]
    calls_out = bool(behind) and behind[0] in groups["a_thing"]  # 'what a day, unhitched'
    told = any(token.raw in ",.;:" or token.ends_sentence for token in scene.tokens)
    return not (calls_out or told)


def _facts(scene: Scene) -> Verdict:
    if "texts_back" in scene.groups and _advertises(scene):
        return SILENT
    said = scene.said_and_measured()
    figured = read_figures(scene, said) if scene.live else []
    if isinstance(figured, Doubt):
        return figured.ask()
    if figured and not WONDERING.isdisjoint(scene.groups):
        wondered = _wondered(scene, figured)
        if wondered is not None:
            return wondered
    entries = figured if said.isdisjoint(UNFIGURED) else _with_unfigured(scene, said, figured)
    if not entries:
        return _of_what_was_told(scene)
    weighed = Weighing in map(type, figured)
    unplaced = _unplaced(scene) if weighed else ()
    # Where the axles make the gross no load is missing: what is left over is of something else.
    if unplaced and not all(
        makes_gross(each.loads) for each in figured if isinstance(each, Weighing)
    ):
        meant = as_meant(scene, figured, unplaced)
        if meant is not None:
            return _facts(Scene(meant, scene.context, scene.book))
        return Ask("weighing", (), "unplaced", unplaced)
    return Facts(placed(scene, in_order(scene, entries)))


WONDERING = frozenset(("meaning_word", "unsure_which"))
"""Groups of words with which somebody says that he does not know what he tells."""

UNFIGURED = WAKES[read_hitches] | WAKES[read_checks]
"""What wakes the readers of what has no figure."""


def _with_unfigured(
    scene: Scene, said: AbstractSet[str | None], figured: Sequence[Entry]
) -> Sequence[Entry]:
    """What figures tell, amid the hitching before it and the checks behind it.

    Of goods that were loaded it is told where they are: 'awning's in over the axle, 28 kg'.
    """
    hitches = [] if said.isdisjoint(WAKES[read_hitches]) else read_hitches(scene)
    if said.isdisjoint(WAKES[read_checks]):
        return [*hitches, *figured]
    checks = read_checks(scene)
    if checks and figured:
        loaded = [each.item for each in figured if isinstance(each, Cargo)]
        checks = [each for each in checks if each.item not in loaded]
    return [*hitches, *figured, *checks]


def _wondered(scene: Scene, figured: Sequence[Entry]) -> Verdict | None:
    """What is asked of the figures, or the doubt between them, by somebody who does not know."""
    asked = meaning_of_figures(scene, figured) if "meaning_word" in scene.groups else None
    if asked is not None:
        return asked
    torn = _torn_between(scene) if "unsure_which" in scene.groups else ()
    return Ask(_about(figured), (), "two_said", torn) if torn else None


def _advertises(scene: Scene) -> bool:
    """'Text WIN to 81010': what a service or a shop texts, whatever figures it has."""
    found = scene.book.patterns["advert"].search(scene.text)
    return found is not None and not scene.text.isupper()


def _torn_between(scene: Scene) -> tuple[Quantity, ...]:
    """'62 psi or was it 26': two figures for one thing, by somebody who does not know which."""
    for one, other in pairwise(scene.figures):
        between = scene.tokens[one.end : other.start]
        unsure = between and all("unsure_which" in token.groups for token in between)
        same = one.unit == other.unit or None in (one.unit, other.unit)
        if (one.role or other.role) and unsure and same:
            unit = one.unit or other.unit or MASS_UNIT[scene.context.units]
            return Quantity(one.value, unit), Quantity(other.value, other.unit or unit)
    return ()


def _about(entries: Sequence[Entry]) -> str:
    """What an entry in doubt is called: its kind."""
    return KIND_NAMES[type(entries[0])]


def _unplaced(scene: Scene) -> tuple[Quantity, ...]:
    """Figures the size of a load that nothing took: a weighing without them may be misread."""
    left = [figure for figure in scene.live if figure.role is None]
    if not left:
        return ()
    unit = MASS_UNIT[scene.context.units]
    told = {figure.value for figure in scene.figures if figure.role == "load"}
    return tuple(
        Quantity(figure.value, figure.unit or unit)
        for figure in left
        if figure.value not in told  # 'one oh eight forty, yeah ten thousand eight hundred ...'
        and figure.dimension in (None, MASS)
        and figure.value >= LEAST_OF_A_RIG
        and not (
            isinstance(figure.label, Label)
            and (figure.label.whole == "ignored" or is_permitted(scene, figure.label))
        )
    )


def explain(text: str, context: Context, book: Phrasebook) -> str:
    """How a message was read, for someone who has not read the code."""
    trace: list[str] = []
    scene = Scene(clean(text), context, book, trace)
    verdict = meaning_first(scene.text, _told(scene, context), book)
    return explanation(scene, verdict, trace)
