"""Figures that give way to the one behind them: 'guessed 9,000, it was 9,460'.

What was guessed, feared or so some time ago is no fact beside what is: 'if trans hits 230 i pull
over, its at 217', 'was 48,010 when I last texted, its 48,164 now', 'thirty one, well, 31.4
exactly'. This file decides which figure stands for which. A slip that is put right is decided
in `taken_back`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from domain.reading.figures import DISTANCE, VOLUME, Figure, token_at
from domain.reading.taken_back import (
    FILLER,
    SAID,
    measured_so,
    named_behind,
    named_so,
    refers_back,
    says,
)
from domain.reading.tokens import MARK, NO_GROUPS, NUMBER, TIME, WORD, Token

GIVES_WAY = frozenset(
    ("as_it_is", "to_be_exact", "brings_to", "but", "says_better", "roughly", "changes_to")
)
"""Groups of words of which one stands beside a figure that another gives way to."""

KEPT = frozenset((*SAID, "axle_noun", "weigh_cue", "fuel_cue", "ticket", "product", "full"))
"""Classes of term that still say something where what they stand beside gave way."""

FARTHEST = 14
"""Tokens between two figures, at most."""

REACH = 7
"""Tokens from the word that makes a figure unreal to the figure, at most."""

ALIKE = (0.5, 2.0)
NEARLY = (0.88, 1.14)
"""What a figure is to the one that gives way to it, and to a rounder one that was said first."""


def supersede(
    tokens: Sequence[Token], figures: Sequence[Figure], odometer: float | None = None
) -> bool:
    """Put what is in the place of what was guessed, feared or so before. Whether there was any.

    `odometer` is the last reading, which is no news where another one follows.
    The second figure is claimed; the words between say no more, but for what they name.
    """
    found = False
    live = [each for each in figures if each.claimed is None and each.value > 0]
    for at in range(1, len(live)):
        first, second = live[at - 1], live[at]
        if not measured_so(first, second) or second.start - first.end > FARTHEST:
            continue
        if _named_apart(tokens, first, second) or refers_back(tokens, first):
            continue
        start = _start_of_unreal(tokens, live, at, odometer)
        if start is None and len(live) > FEWEST_BESIDE:
            start = _start_of_denied(tokens, first, second)
        if start is None:
            continue
        same = live[at - 2] if at > 1 else None
        if same is not None and same.value == second.value and not _named(tokens, first):
            first.claimed = "a figure that was misread"
        else:
            first.value, first.token, first.foreign = second.value, second.token, None
            if second.dimension is not None:
                first.unit, first.dimension = second.unit, second.dimension
        second.claimed = "a figure in the place of a supposed one"
        unsay(tokens, start, first.end, second.end)
        found = True
    return found


def _named_apart(tokens: Sequence[Token], first: Figure, second: Figure) -> bool:
    """'it weighed 5,310 up front and 6,930 on the rear': each has a name of its own behind it.

    Or before it: 'this morning front 5,400, back 6,640'.
    """
    before = _name_before(tokens, first)
    if before is not None and _name_before(tokens, second) not in (None, before):
        return True
    behind = _name_behind(tokens, first)
    return behind is not None and _name_behind(tokens, second) not in (None, behind)


def _name_before(tokens: Sequence[Token], figure: Figure) -> str | None:
    """What a place is called right before a figure, or before 'was'."""
    for token in reversed(tokens[max(0, figure.start - 2) : figure.start]):
        if not PLACES.isdisjoint(token.senses):
            return token.text
        if "copula" not in token.senses.get("glue", "").split():
            return None
    return None


def _name_behind(tokens: Sequence[Token], figure: Figure) -> str | None:
    """What a place is called right behind a figure, across its unit and small words."""
    for token in tokens[figure.end : figure.end + NEAREST]:
        if not PLACES.isdisjoint(token.senses):
            return token.text
        if "glue" not in token.senses:
            return None
    return None


NEAREST = 3
"""Tokens behind a figure in which its name stands: 'on the rear'."""

PLACES = frozenset(("axle", "end", "vehicle", "name", "side", "corner"))
"""Classes of term that name where a load was."""

FEWEST_BESIDE = 2
"""Figures: no more than a wrong one and the right one mend what an earlier message said."""


def _start_of_denied(tokens: Sequence[Token], first: Figure, second: Figure) -> int | None:
    """'not 31.2 but 32.1 gal, 48,340': where what is denied begins; None where nothing is."""
    before, between = token_at(tokens, first.start - 1), tokens[first.end : second.start]
    denied = before is not None and "contrasts" in before.groups
    ratio = second.value / first.value
    if not denied or not between or not ALIKE[0] < ratio < ALIKE[1]:
        return None
    small = all("glue" in token.senses or token.raw == "," for token in between)
    return first.start - 1 if small and any("but" in t.groups for t in between) else None


def unsay(tokens: Sequence[Token], start: int, between: int, end: int) -> None:
    """Leave out what made the first figure unreal, and what leads to the second."""
    for index in range(start, end):
        token = tokens[index]
        small = not token.senses and not token.groups.isdisjoint(SMALL)
        if small or (
            index >= between and token.kind not in (MARK, TIME) and KEPT.isdisjoint(token.senses)
        ):
            token.senses, token.groups = FILLER, NO_GROUPS
        elif not (UNSAID.isdisjoint(token.senses) or _of_others(token)):
            own = {key: said for key, said in token.senses.items() if key not in UNSAID}
            token.senses = own or FILLER


UNSAID = frozenset(("talk", "correction"))
"""Classes of term that made the figure unreal: 'gross was supposed to be 20,000'."""

SMALL = frozenset(("small_word", "guessed_at", "back_then", "supposes_so", "changes_to"))
"""Groups of words that no phrase of the log knows, and that say no more then."""


def _start_of_unreal(
    tokens: Sequence[Token], live: Sequence[Figure], at: int, odometer: float | None
) -> int | None:
    """Where the words begin that make a figure give way to the next; None where it does not."""
    first, second = live[at - 1], live[at]
    ratio = second.value / first.value
    if _rolled_past(tokens, first, second):
        return first.end
    if came_from(tokens, first.start) and _to_next(tokens, first, second):
        return max(0, first.start - FARTHEST_VERB)
    floor = live[at - 2].end if at > 1 else 0
    start = _clause_start(tokens, first.start, max(floor, first.start - REACH))
    before = tokens[start : first.start]
    if _rounder(tokens, first, second) and NEARLY[0] < ratio < NEARLY[1]:
        return start if any(_is_guess(token) for token in before) else first.end
    if not ALIKE[0] < ratio < ALIKE[1]:
        return None
    lead = list(_lead(tokens, second))
    names = [token for token in lead if says(token)]
    names += named_behind(tokens, first.end, second.end)
    if not all(named_so(tokens, first, name) for name in names):
        return None
    behind = token_at(tokens, second.end)
    ahead = [token for token in (*lead, behind) if token is not None]
    brought = any("brings_to" in token.groups for token in lead)  # 'was 52, pumped it to 80'
    if not (names or brought or any("as_it_is" in token.groups for token in ahead)):
        return None
    said = (*before, *tokens[first.end : second.start - len(lead)])
    if any(_is_guess(token) for token in said) or any(
        "supposes_so" in token.groups for token in before
    ):
        return start
    if odometer is not None and first.value == odometer < second.value:
        return start
    then = any("back_then" in token.groups for token in said) or (
        any("was_then" in token.groups for token in before)
        and (brought or any("now_word" in token.groups for token in ahead))
    )
    told = any("event" in token.senses or token.kind is TIME for token in said)
    poured = first.dimension == VOLUME  # what went in yesterday is no less so today
    return start if then and not (told or poured) else None


def came_from(tokens: Sequence[Token], number: int) -> bool:
    """'tongue dropped from 1,340': whether a number is what something was before it changed."""
    before = tokens[max(0, number - FARTHEST_VERB) : number]
    if not before or "from" not in before[-1].groups:
        return False
    return any("changes_to" in token.groups for token in before[:-1])


def is_put_right(tokens: Sequence[Token], number: int) -> bool:
    """'change 51,234 to 51,243', 'fix my last fill from 24.6 to 26.4': before it changed.

    Between the verb and the number stand no more than the field and small words.
    """
    for token in reversed(tokens[max(0, number - FARTHEST_VERB) : number]):
        if "changes_field" in token.groups:
            return True
        if token.groups.isdisjoint(LEADS_TO_FIELD) and token.senses.keys().isdisjoint(FIELDS):
            return False
    return False


LEADS_TO_FIELD = frozenset(
    ("article", "our", "from", "points_back", "volume_word", "price_word", "cost_word")
)
FIELDS = frozenset(
    ("axle", "axle_noun", "odometer", "trip_meter", "whole", "vehicle", "fee", "fuel_cue")
)
"""Groups of words and classes of term between a verb and the figure that it changes."""

FARTHEST_VERB = 4
"""Tokens from a verb of change to the number behind 'from': 'went up from 5,020'."""


def _to_next(tokens: Sequence[Token], first: Figure, second: Figure) -> bool:
    """'from 1,340 down to 1,180': whether a figure is told as what it came to."""
    between = tokens[first.end : second.start]
    if not between or len(between) > FEWEST_BESIDE:
        return False
    if not between[-1].groups & {"to", "down_to"}:
        return False
    if not (first.value % THOUSAND or second.value % THOUSAND):
        return False  # 'gross went from 52,000 to 58,000 after the raise'
    return ALIKE[0] < second.value / first.value < ALIKE[1] and all(
        "changes_to" in token.groups for token in between[:-1]
    )


def _rolled_past(tokens: Sequence[Token], first: Figure, second: Figure) -> bool:
    """'rolled 53k on the way in, 53,004 right now': a round number of miles, and what it is now."""
    round_enough = first.value >= THOUSAND and first.value % THOUSAND == 0
    if not round_enough or not 0 < second.value - first.value < THOUSAND:
        return False
    if first.dimension not in (None, DISTANCE) or any(
        "axle" in token.senses or "whole" in token.senses for token in tokens
    ):
        return False
    between = tokens[first.end : second.start]
    if any("event" in token.senses for token in between):
        return False  # 'hit 53,000 at the county line, got home 53,044'
    beside = (*between[-2:], *tokens[second.end : second.end + 1])
    return any("as_it_is" in token.groups for token in beside)


THOUSAND = 1_000


def _rounder(tokens: Sequence[Token], first: Figure, second: Figure) -> bool:
    """'eleven tonnes, well, 11.2 t exactly': the second says more digits of the same.

    What is named up to the mark behind the first one is it: '48,300 on the dial, 48,306 exactly'.
    """
    ahead = second.start - 1
    while ahead > first.end and "copula" in tokens[ahead].senses.get("glue", "").split():
        ahead -= 1
    around = (token_at(tokens, ahead), token_at(tokens, second.end))
    between = tokens[first.end : second.start]
    exact = any(token is not None and "to_be_exact" in token.groups for token in around)
    guessed = token_at(tokens, first.start - 1)
    read = any(token is not None and "as_it_is" in token.groups for token in around)
    exact = exact or (
        guessed is not None
        and ("roughly" in guessed.groups or (read and "apart_from_limit" in guessed.groups))
    )
    if not (exact or any("says_better" in token.groups for token in between)):
        return False
    mark = next((at for at, token in enumerate(between) if token.kind is MARK), 0)
    if all(says(token) or not NAMES.isdisjoint(token.senses) for token in between[:mark]):
        between = between[mark:]
    small = all(
        token.kind is MARK or "glue" in token.senses or (read and "as_it_is" in token.groups)
        for token in between
    )
    joined = any("join" in token.senses.get("glue", "").split() for token in between)
    return small and not joined and _digits(first) < _digits(second)


NAMES = frozenset(("glue", "product"))
"""Classes of term that may also stand between a figure and the mark behind it."""


def _digits(figure: Figure) -> int:
    """The digits of a figure up to the last that is no nought."""
    return len(f"{figure.value:.10g}".replace(".", "").rstrip("0"))


def _lead(tokens: Sequence[Token], second: Figure) -> Iterator[Token]:
    """The words right before a figure, back to a mark or another figure."""
    for index in range(second.start - 1, max(second.start - REACH, 0) - 1, -1):
        token = tokens[index]
        if token.kind is not WORD:
            return
        known = "glue" in token.senses or says(token) or not LEADS.isdisjoint(token.groups)
        if not known and LEADING.isdisjoint(token.senses):
            return
        yield token


LEADS = frozenset(("as_it_is", "brings_to"))
"""Groups of words that may stand right before what is."""

LEADING = frozenset(("weigh_cue", "fuel_cue"))
"""Classes of term that may lead to what is: 'the scale says', 'she took'."""


def _clause_start(tokens: Sequence[Token], index: int, floor: int) -> int:
    """Where the clause of a token begins, not before `floor`."""
    start = index
    while start > floor and not (tokens[start - 1].ends_sentence or tokens[start - 1].raw in ",("):
        start -= 1
    return start


def _of_others(token: Token) -> bool:
    """'his odo was 48,010, its 51,000 now': whose it is holds for both."""
    return "other" in token.senses.get("talk", "").split()


def _is_guess(token: Token) -> bool:
    return "guessed_at" in token.groups or "guess" in token.senses.get("talk", "").split()


def _named(tokens: Sequence[Token], figure: Figure) -> bool:
    """Whether a name for it stands right beside a figure."""
    beside = (token_at(tokens, figure.start - 1), token_at(tokens, figure.end))
    return any(token is not None and token.kind is not NUMBER and says(token) for token in beside)
