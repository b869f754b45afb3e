"""What a message takes back in its own words: 'steer 5,360, no sorry, 5,460'.

This file decides which figure stands in the place of an earlier one of the same message, and
which of two names, positions or states is meant. Whether a message takes back what an earlier
one said is decided in `corrections`.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from domain.reading.figures import Figure, token_at
from domain.reading.tokens import BREAK, MARK, NO_GROUPS, NUMBER, TIME, WORD, Token

FILLER = {"glue": "filler"}
"""What a word says that was taken back, or that takes back."""

SAID = (
    "axle",
    "vehicle",
    "whole",
    "end",
    "corner",
    "side",
    "ordinal",
    "odometer",
    "trip_meter",
    "unit",
    "subject",
    "name",
)
"""Classes of term that say which figure is put right: '..., sorry, drive 6,890'."""

ALIKE_TERMS = (
    frozenset(("axle", "vehicle", "whole", "end", "name")),
    frozenset(("subject",)),
    frozenset(("odometer", "trip_meter")),
    frozenset(("corner", "side")),
    frozenset(("bars",)),
    frozenset(("level",)),
    frozenset(("full",)),
    frozenset(("product",)),
    frozenset(("event",)),
)
"""Classes of term of which one can be said in the place of another."""

LABELS = ALIKE_TERMS[:3]
"""Those of them that name a figure."""

STATES = ALIKE_TERMS[4:7]
"""Those of them that say the same wherever they stand."""

STARTS_ANEW = frozenset(("time", "event", "hitch", "missed", "missed_verb", "full"))
"""Classes of term with which something else is told, and nothing explained."""

NEAR = 3
"""Tokens from a figure to the word that says what it is, at most."""

FARTHEST = 12
"""Tokens of an explanation: 'no hang on I had the jockey wheel down'."""

ALIKE = (0.5, 2.0)
NEARLY = (0.8, 1.25)
ONE_DIGIT = (9.0, 11.0)
"""What a figure put right is to the one before: about as large, or one digit longer or shorter;
behind an explanation or a mere pause ('5,210, hang on, 5,120'), nearly as large."""


def take_back_words(tokens: Sequence[Token], switch: Mapping[str, str]) -> bool:
    """Keep the second of two names, positions or states that words for a slip stand between.

    Whether there were any. 'hooked up the camper, i mean the flatdeck', 'steer 7,160, oops
    that's drive', 'bars on, no sorry off'. Where neither a figure nor a hitch is told, the
    message corrects an earlier one. `switch` has the words for on and off.
    """
    if not any(token.kind is NUMBER or "hitch" in token.senses for token in tokens):
        return False
    taken = False
    for index in range(1, len(tokens)):
        if not takes_back(tokens, index) or takes_back(tokens, index - 1):
            continue
        at = next((at for at in range(index + 1, len(tokens)) if not is_small(tokens, at)), None)
        first = next((at for at in range(index - 1, -1, -1) if not is_small(tokens, at)), None)
        if at is None or first is None:
            continue
        said, meant = tokens[first].senses, tokens[at].senses
        if "name" in said and "name" in meant:  # the verb is beside the first
            behind = token_at(tokens, at + 1)
            if behind is not None and "says_so" in behind.groups:
                continue  # 'wait, the flatdeck is still on'
            tokens[first].senses, tokens[at].senses, taken = meant, FILLER, True
        elif _names_alike(said, meant) and "copula" not in tokens[index].senses.get("glue", ""):
            if _end_of(tokens, at) is None:
                tokens[first].senses, taken = FILLER, True  # the figure is beside the second
        elif _restated(tokens, index, switch):
            taken = True
    return taken


def takes_back(tokens: Sequence[Token], index: int) -> bool:
    """Whether a word takes back what was said; 'no' where it denies nothing that follows."""
    token = tokens[index]
    if "takes_back" in token.groups:
        return True
    if "no_alone" not in token.groups:
        return False
    behind = token_at(tokens, index + 1)
    return behind is not None and (
        behind.raw == ","
        or "takes_back" in behind.groups
        or "pronoun" in behind.groups
        or not LEADS_ON.isdisjoint(behind.senses.get("glue", "").split())
    )


LEADS_ON = frozenset(("function", "copula"))
"""Kinds of small words behind a 'no' that is said by itself: 'no the camper', 'no that's'."""


def is_small(tokens: Sequence[Token], index: int) -> bool:
    """Whether a mark, an article, a hesitation or another word that takes back stands there."""
    token = tokens[index]
    return (
        token.kind is MARK
        or token.senses.get("glue") == "filler"
        or bool(token.groups & {"article", "takes_back", "no_alone"})
    )


def _names_alike(said: Mapping[str, str], meant: Mapping[str, str]) -> bool:
    return any(not kind.isdisjoint(said) and not kind.isdisjoint(meant) for kind in LABELS)


def _restated(tokens: Sequence[Token], cue: int, switch: Mapping[str, str]) -> bool:
    """Put a position or a state behind a word for a slip in the place of the one before it."""
    at = next((at for at in range(cue, len(tokens)) if not _passed(tokens, at)), None)
    if at is None:
        return False
    meant, end = tokens[at].senses, _end_of(tokens, at)
    if (word := _switch_at(tokens, at)) in switch and end is not None:
        meant = {"bars": ON_OR_OFF[switch[word]]}
    for kind in ALIKE_TERMS:
        if kind.isdisjoint(meant) or (end is None and kind not in STATES):
            continue
        before = range(cue - 1, -1, -1)
        first = next((k for k in before if not kind.isdisjoint(tokens[k].senses)), None)
        if first is None or (kind in LABELS and not _has_figure(tokens, first, cue)):
            continue
        tokens[first].senses = {term: key for term, key in meant.items() if term in kind}
        for token in tokens[cue : end or at + 1]:
            if token.kind is WORD:
                token.senses = FILLER
        return True
    return False


def _switch_at(tokens: Sequence[Token], at: int) -> str:
    """The word that may switch something; 'they were off' is of what was, and nobody leaves."""
    *copula, word = tokens[at].text.split() or [""]
    return "" if copula and "pronoun" not in tokens[at - 1].groups else word


def _passed(tokens: Sequence[Token], at: int) -> bool:
    """What may stand between a word for a slip and what is meant: 'no sorry they were off'."""
    token = tokens[at]
    said = "correction" in token.senses or "says_again" in token.groups
    return said or is_small(tokens, at)


ON_OR_OFF = {"hitched": "on", "unhitched": "off"}


def _end_of(tokens: Sequence[Token], at: int) -> int | None:
    """Where what stands there ends with a mark or the message; None where more is said of it.

    A noun that was said before is said again with it: 'left tire 62, sorry, right tire'.
    """
    end = at + 1
    said = {token.text for token in tokens[:at]}
    while end < len(tokens) and (
        "axle_noun" in tokens[end].senses
        or "one" in tokens[end].groups
        or (tokens[end].kind is WORD and tokens[end].text in said)
    ):
        end += 1
    if end >= len(tokens) or tokens[end].ends_sentence or tokens[end].raw == ")":
        return end
    behind = token_at(tokens, end + 1)
    ends = tokens[end].raw == "," and (behind is None or behind.kind is not NUMBER)
    return end if ends else None


def _has_figure(tokens: Sequence[Token], first: int, cue: int) -> bool:
    """Whether the label is of a figure: '7,160 steer, no', 'steer is 7,160, no'."""
    if any(token.kind is NUMBER for token in tokens[first:cue]):
        return True
    return any(token.kind is NUMBER for token in tokens[max(0, first - NEAR) : first])


def take_back_figures(tokens: Sequence[Token], figures: Sequence[Figure]) -> bool:
    """Put a figure behind words for a slip in the place of the earlier one that it is like.

    Whether there were any. The second is claimed; the words and what names it anew say no more.
    """
    taken = False
    live = [each for each in figures if each.claimed is each.foreign is None and each.value > 0]
    if len(live) > FEWEST_DENIED:
        live = _without_denied(tokens, live)
    for at in range(1, len(live)):
        second = live[at]
        if not DENYING.isdisjoint(tokens[second.start - 1].groups):
            continue  # '24.6 sorry, not 26.4', '24.6, sorry i put 26.4': the first is meant
        cue, explained = _cue_before(tokens, live[at - 1].end, second.start)
        if cue is None:
            first = live[at - 1] if _trails_off(tokens, live[at - 1], second) else None
        elif _was_wrong(tokens, live[at - 1]):
            continue
        else:
            first = _meant(tokens, live[:at], second, cue, explained)
        if first is None:
            continue
        first.value, first.token = second.value, second.token
        if second.dimension is not None:
            first.unit, first.dimension = second.unit, second.dimension
        second.claimed = "a figure put right on the spot"
        tokens[second.start].senses = FILLER
        for index in range(first.end if cue is None else cue, second.start):
            if tokens[index].kind is WORD:
                tokens[index].senses, tokens[index].groups = FILLER, NO_GROUPS
        taken = True
    return taken


def _without_denied(tokens: Sequence[Token], live: list[Figure]) -> list[Figure]:
    """'both fronts 240? no, front left 240, front right 235': what follows a 'no' is so.

    What was asked before it is claimed, but for what one says that one told: 'did i say 31? no'.
    """
    for index, token in enumerate(tokens[:-1]):
        if token.raw != "?" or tokens[index + 1].groups.isdisjoint(("refuses", "no_alone")):
            continue
        asked = [each for each in live if each.end <= index]
        told = any("marks_mistake" in each.groups for each in tokens[:index])
        if not asked or told or len(live) - len(asked) < len(asked):
            return live
        for each in asked:
            each.claimed = "what was asked, and denied"
        for word in tokens[:index]:
            if not PLACED.isdisjoint(word.senses):
                word.senses, word.groups = FILLER, NO_GROUPS
        return live[len(asked) :]
    return live


PLACED = ALIKE_TERMS[0] | ALIKE_TERMS[3]
"""Classes of term that place a figure, and place none where it is denied."""

FEWEST_DENIED = 2
"""Figures: one that is asked about and another in its place mend an earlier message."""

DENYING = frozenset(("not", "i_gave"))
"""Groups of words before a figure that is the wrong one."""

PASSED = frozenset(("glue", "correction", "fuel_cue", "weigh_cue", "ticket"))
"""Classes of term that may stand before a figure put right: 'actually the pump says 34.1'."""

CUES = frozenset(("takes_back", "no_alone", "hesitates", "grumbles"))
"""Groups of words that can stand before a figure put right."""

BREAKS_OFF = (1, 3)
"""Digits that a figure lacks of which no more was said: '48,1 oops hit send. 48,102'."""


def _cue_before(tokens: Sequence[Token], start: int, end: int) -> tuple[int | None, int]:
    """Where words for a slip begin between two figures, and where what explains them ends.

    The latter is nought where nothing explains it: 'wait, 5,280'; else it is the mark before the
    second figure and what names it: 'wait, the dog was on it, trailer 5,280'.
    """
    cue, explained, before_cue, parted = None, 0, 0, 0
    for index in range(end - 1, max(start, end - FARTHEST) - 1, -1):
        token = tokens[index]
        if not token.groups.isdisjoint(CUES):
            if "grumbles" in token.groups and not _alone_before(tokens, index, end):
                break  # '5,480, damn thats heavy, 5,400'
            if not explained or ("halts" in token.groups and takes_back(tokens, index)):
                cue, before_cue = index, explained
                parted = parted or index
        elif _starts_anew(token) or (not parted and "then" in token.groups):
            break  # 'oh wait also 29.8 gal'
        elif token.kind is MARK:
            parted = parted or index
        elif not PASSED.isdisjoint(token.senses) or explained or (cue is None and says(token)):
            continue
        elif not parted:
            break
        else:
            explained = parted
    return cue, before_cue


def _was_wrong(tokens: Sequence[Token], figure: Figure) -> bool:
    """'51,402 was wrong, its 51,420': it was told in a message before, and is put right there.

    So it is where one says that one told it: 'I told you 58,944, I misread it, should be 58,994'.
    """
    if was_told(tokens, figure):
        return True
    behind = tokens[figure.end : figure.end + 2]
    said = len(behind) > 1 and not behind[0].groups.isdisjoint(("was", "is_now"))
    return said and "found_wrong" in behind[1].groups and figure.start <= OPENING


def was_told(tokens: Sequence[Token], figure: Figure) -> bool:
    """Whether one says that one told a figure before: 'I told you the odo was 58,944'."""
    before = tokens[max(0, figure.start - TOLD_AHEAD) : figure.start]
    return any("told_before" in token.groups for token in before) or refers_back(tokens, figure)


def refers_back(tokens: Sequence[Token], figure: Figure) -> bool:
    """'the 31.9 gallons i gave you': a figure is named as one that was told before."""
    named = figure.start and "points_back" in tokens[figure.start - 1].groups
    behind = tokens[figure.end : figure.end + TOLD_BEHIND]
    return bool(named) and any("told_before" in token.groups for token in behind)


TOLD_AHEAD = 4
"""Tokens: 'I told you the odo was' before what it was."""

TOLD_BEHIND = 2
"""Tokens: 'steer i told you' behind what it was."""

OPENING = 3
"""Tokens: a figure stands no later that is told to be wrong: 'the odo 51,402 was wrong'."""


def _alone_before(tokens: Sequence[Token], index: int, end: int) -> bool:
    """Whether nothing but marks and a name stands between a word and a figure."""
    return all(
        token.kind is MARK or says(token) or token.senses.get("glue") == "filler"
        for token in tokens[index + 1 : end]
    )


def _starts_anew(token: Token) -> bool:
    return token.kind in (TIME, BREAK) or not STARTS_ANEW.isdisjoint(token.senses)


def says(token: Token) -> bool:
    """Whether a word names what a figure is of, or its unit."""
    return token.kind is WORD and any(term_class in token.senses for term_class in SAID)


def _meant(
    tokens: Sequence[Token],
    earlier: Sequence[Figure],
    second: Figure,
    cue: int,
    explained: int,
) -> Figure | None:
    """The earlier figure that another one is put in the place of."""
    named = [token for token in tokens[explained or cue : second.start] if says(token)]
    named += named_behind(tokens, earlier[-1].end, second.end)
    cues = [token.groups for token in tokens[cue : second.start] if token.groups & CUES]
    last = earlier[-1]
    if _broken_off(tokens, last, second, cue) and all(
        named_so(tokens[:cue], last, word) for word in named
    ):
        return last
    like = NEARLY if explained or all(each & SOUNDS for each in cues) else ALIKE
    measured = [each for each in reversed(earlier) if measured_so(each, second)]
    if not named and all("hesitates" in each for each in cues):
        # As in '33.1 gallons, er, 31.3 gallons', '140 er 145 lb', and not '5,210, uh, 7,330'.
        measured = [
            each
            for each in measured
            if (second.unit and (each.unit == second.unit or each.end == cue))
            or sorted(each.token.raw) == sorted(second.token.raw)
        ]
    fitting = [
        each
        for each in measured
        if _alike(each, second, like, named=bool(named) or _said_again(tokens, each, cue))
        and all(named_so(tokens[:cue], each, word) for word in named)
    ]
    if not fitting and len(named) == 1 and "ordinal" in named[0].senses:
        return _by_place(earlier, second, named[0].senses["ordinal"])
    if explained and not named and len(fitting) > 1:
        # As in 'wait, I read the trailer wrong: 9,140'.
        hints = [token for token in tokens[cue:explained] if says(token)]
        fitting = [
            each
            for each in fitting
            if hints and all(named_so(tokens[:cue], each, word) for word in hints)
        ]
    return fitting[0] if fitting else None


def _said_again(tokens: Sequence[Token], first: Figure, cue: int) -> bool:
    """'nine eight hundred sorry nine thousand eight hundred': the same, said in other words."""
    return all(token.kind is MARK for token in tokens[first.end : cue])


SOUNDS = frozenset(("pauses", "grumbles"))
"""Groups of sounds and pauses, which by themselves put right what is nearly the same."""


def _broken_off(tokens: Sequence[Token], first: Figure, second: Figure, cue: int) -> bool:
    """'48,1 oops hit send. 48,102', 'sixty four... ugh, sixty five forty': begun, and said anew."""
    if first.unit is not None or any(t.kind is not MARK for t in tokens[first.end : cue]):
        return False
    begun, whole = _written(first), _written(second)
    lacks = len(whole) - len(begun)
    if not BREAKS_OFF[0] <= lacks <= BREAKS_OFF[1] or begun[0] != whole[0]:
        return False
    low, high = NEARLY
    return low < int(whole[: len(begun)]) / int(begun) < high


def _trails_off(tokens: Sequence[Token], first: Figure, second: Figure) -> bool:
    """'6,8... 6,840': begun, and said anew behind a mark that leaves it open."""
    between = tokens[first.end : second.start]
    if not between or not between[0].raw.startswith(".."):
        return False
    named = between[-1]
    if len(between) > 1 and not (says(named) and named_so(tokens[: first.end], first, named)):
        return False  # and not as in 'steer 5,2.. phone died. steer 5,240'
    begun, whole = _written(first), _written(second)
    if len(begun) >= len(whole) or not whole.startswith(begun):
        return False
    # '29 gallons... 29.3' says it more exactly.
    return first.unit is None or (len(between) == 1 and int(first.value) == int(second.value))


def _written(figure: Figure) -> str:
    """The digits of a figure, without what groups them."""
    return f"{figure.value:.10g}".replace(".", "")


def _by_place(earlier: Sequence[Figure], second: Figure, key: str) -> Figure | None:
    """'5,420 7,160 9,840, oops last one's 9,480': the figure that an ordinal counts to."""
    row = [each for each in earlier if measured_so(each, second)]
    place = int(key) - 1 if key.isdigit() else -1
    first = row[place] if len(row) > max(place, 1) else None
    return first if first and _alike(first, second, ALIKE, named=False) else None


def measured_so(first: Figure, second: Figure) -> bool:
    """Whether two figures may measure the same."""
    return first.dimension is None or second.dimension in (None, first.dimension)


def named_behind(tokens: Sequence[Token], before: int, end: int) -> Sequence[Token]:
    """What names a figure behind it: '5,360 steer, wait, 7,200 drive'.

    What stands before another figure is of that one ('wait, 5,260 drive is 6,640'), unless the
    figure before, which ends at `before`, has its name behind it too.
    """
    if end < len(tokens) and says(tokens[end]):
        behind = token_at(tokens, end + 1)
        if behind is not None and "was" in behind.groups:
            behind = token_at(tokens, end + 2)
        if behind is None or behind.kind is not NUMBER or says(tokens[before]):
            return tokens[end : end + 1]
    return ()


def _alike(first: Figure, second: Figure, like: tuple[float, float], *, named: bool) -> bool:
    if first.value <= 0 or second.value <= 0:
        return False
    if first.value == second.value:
        return named  # 'trans 208, oops that's coolant. coolant 208'
    if sorted(first.token.raw) == sorted(second.token.raw):
        return True  # '1,380, wait, 1,830': typed or read in another order
    ratio = second.value / first.value
    low, high = ONE_DIGIT
    return like[0] < ratio < like[1] or low < ratio < high or low < 1 / ratio < high


def named_so(tokens: Sequence[Token], figure: Figure, word: Token) -> bool:
    """Whether a word that says the same stands beside a figure, before any other figure."""
    for step in (-1, 1):
        index = figure.start - 1 if step < 0 else figure.end
        for _ in range(NEAR):
            if not 0 <= index < len(tokens) or tokens[index].kind is NUMBER:
                break
            if any(
                each in word.senses and word.senses[each] == tokens[index].senses.get(each)
                for each in SAID
            ):
                return True
            index += step
    return False
