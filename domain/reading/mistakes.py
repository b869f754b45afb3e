"""Which figure of a correction is the mistaken one, and that there is one.

This file decides which words mark a mistake and which what is meant ('i typed 5,630 but its
5,360', '24.6 i said? its 26.4', "122.43, you've got 132.43"), and whether a figure looks like a
slip of another. What is mended is decided in `corrections`.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.reading.figures import VOLUME, Figure, token_at
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.superseded import is_put_right
from domain.reading.taken_back import refers_back, was_told
from domain.reading.then_and_now import points
from domain.reading.tokens import MARK, Token


def wrong_before(scene: Scene, index: int, floor: int = 0) -> bool:
    """Whether a word that marks the mistake stands close before a token."""
    for other in range(index - 1, max(floor, index - 5) - 1, -1):
        token = scene.tokens[other]
        if "marks_mistake" in token.groups:
            return True
        if "marks_meant" in token.groups or token.raw == "?":
            return False
    return False


def value_and_mistake(
    scene: Scene, figures: Sequence[Figure]
) -> tuple[Figure | None, Figure | None]:
    """'31.4 not 34.1', 'not 34.1, 31.4', 'i typed 5,630 but its 5,360': what is meant, and not."""
    if len(figures) == 1:
        return figures[0], None
    first, second = figures
    if _of_two_things(first, second):
        return None, None  # 'steer 5,180, not bad, drive 6,940'
    between = scene.tokens[first.end : second.start]
    if any("another" in token.groups for token in between):
        return None, None  # 'put in 20 gallons, then another 4.6'
    restated = bool(between) and "restates" in between[-1].groups
    if restated and first.dimension and second.dimension not in (None, first.dimension):
        return None, None  # 'humidity 43 percent, wind should be 8 mph'
    if restated and not any(token.kind is MARK for token in between):
        return second, first  # '61.2 should be 62.1', 'the 61.2 i sent should be 62.1'
    if _is_and_was(scene, between):
        return first, second
    if _became(scene, between, first, second):
        return second, first
    if _was_and_is(scene, first, second) or _found_wrong(between):
        return second, first
    if "changes_field" in scene.groups and is_put_right(scene.tokens, first.start):
        told = (len(between) == 1 and "to" in between[0].groups) or points(between)
        return (second, first) if told else (None, None)
    if wrong_before(scene, second.start, first.end):
        return (None, None) if _denied(between) else (first, second)
    if wrong_before(scene, first.start) or _said_then_meant(between):
        return (None, None) if _is_paid_for(first, second, between) else (second, first)
    return None, None


def _is_paid_for(first: Figure, second: Figure, between: Sequence[Token]) -> bool:
    """'I put in 21.4 gallons, came to 68.27': what went in, and what it cost.

    About as much that is told to be so instead, or that looks like a slip of it, is what went in:
    'I put 21.4 gallons but it was 26', 'I put in 21.4 gallons, 24.1'.
    """
    if first.dimension != VOLUME or second.dimension == VOLUME:
        return False
    if any("cost_word" in token.groups for token in between[-2:]):
        return True
    instead = any(token.raw == "?" or token.groups & {"marks_meant", "was"} for token in between)
    low, high = sorted((first.value, second.value))
    about = high < ABOUT_AS_MUCH * low
    return not (instead and about) and not like_slip(second, first)


ABOUT_AS_MUCH = 2
"""What fuel costs is more than twice its volume where it is told in gallons; a slip is less."""


def _was_and_is(scene: Scene, first: Figure, second: Figure) -> bool:
    """'odo was 48,410, should be 48,140': a slip, and what it ought to have been.

    'tongue was 900, should be 1,200' is advice: only what is typed alike is put right so. Of what
    has the same digits, or where a correction is announced, it may be said: 'they should be'.
    """
    between = scene.tokens[first.end : second.start]
    before = scene.tokens[first.start - 1] if first.start else None
    if before is None or "was" not in before.groups or not like_slip(second, first):
        return False
    alike = sorted(first.token.raw) == sorted(second.token.raw)
    if not alike and second.value % ROUND == 0:
        return False
    said = [token for token in between if token.kind is not MARK and "unit" not in token.senses]
    if (alike or "surely_corrects" in scene.groups) and said and "says_again" in said[0].groups:
        del said[0]
    now = "correction" in scene.by_class and any("now_word" in token.groups for token in said)
    return len(said) == 1 and (now or "restates" in said[0].groups)


ROUND = 50
"""What a target is told in, and hardly what a scale or a pump shows."""


def _found_wrong(between: Sequence[Token]) -> bool:
    """'51,402 was wrong, its 51,420': said of the first, and behind it what it is."""
    said = any("found_wrong" in token.groups for token in between[:2])
    return said and not between[-1].groups.isdisjoint(("marks_meant", "restates", "was"))


def _of_two_things(first: Figure, second: Figure) -> bool:
    """Whether two figures have names of their own, and different ones."""
    one, other = first.label, second.label
    if not (isinstance(one, Label) and isinstance(other, Label)):
        return False
    if not first.end <= other.start < second.start or other.field == "ticket":
        return False  # 'drive is 6,480 on the ticket, i wrote 6,840'
    names = [
        (
            label.axle,
            label.end_of,
            label.side,
            label.vehicle,
            label.whole,
            label.field,
            label.subject,
        )
        for label in (one, other)
    ]
    return first.value != second.value and names[0] != names[1]


def _is_and_was(scene: Scene, between: Sequence[Token]) -> bool:
    """'Amend: drive 6,420, was 6,240': what is meant, and behind it what it was."""
    said = [token for token in between if token.kind is not MARK]
    first = scene.tokens[0]
    opens = "correction" in first.senses and "marks_mistake" not in first.groups
    return opens and len(said) == 1 and "was_so" in said[0].groups


def _became(scene: Scene, between: Sequence[Token], slip: Figure, meant: Figure) -> bool:
    """'correction: gross 21,480 -> 24,180', 'steer 5,160 to 5,610, typo': a slip, and to what."""
    if "surely_corrects" not in scene.groups or not between:
        return False
    if "to" not in between[0].groups:
        return points(between)
    return len(between) == 1 and like_slip(meant, slip)


def _denied(between: Sequence[Token]) -> bool:
    """'7.04 is not 7.10': two figures told apart, and none put right."""
    return len(between) > 1 and "was" in between[0].groups and "contrasts" in between[1].groups


def _said_then_meant(between: Sequence[Token]) -> bool:
    """'24.6 i said? its 26.4': the mistake, who made it, and what it is."""
    at = next((i for i, token in enumerate(between) if "marks_mistake" in token.groups), None)
    if at is None:
        return False
    return any("marks_meant" in token.groups or token.raw == "?" for token in between[at + 1 :])


def asks_back(scene: Scene) -> bool:
    """Whether a question mark ends no more than what was said wrongly: 'did i say 31? 34'."""
    at = next(index for index, token in enumerate(scene.tokens) if token.raw == "?")
    asked = scene.tokens[slice(*scene.sentence_of(at))]
    return at + 1 < len(scene.tokens) and any("marks_mistake" in token.groups for token in asked)


def by_drawbar(scene: Scene) -> bool:
    """Whether it is Drawbar that is said to have it wrong: 'you've got 132.43'."""
    return any("drawbars" in token.groups for token in scene.tokens)


def told_wrong(scene: Scene, value: Figure) -> bool:
    """'the gross has a digit off, its 21,580': what is wrong is named, and right before what is."""
    start = value.start - 1
    while start > 0 and scene.tokens[start].kind is MARK and scene.tokens[start].raw != ",":
        start -= 1
    if start < 1 or not (
        "marks_meant" in scene.tokens[start].groups
        or ("document_says" in scene.tokens[start].groups and _is_document(scene.tokens[start - 1]))
    ):
        return False
    return any(
        "found_wrong" in token.groups
        and not ("hitch" in token.senses and _of_vehicle(scene.tokens[index - 1]))
        for index, token in enumerate(scene.tokens[:start])
    )


def _is_document(token: Token) -> bool:
    """'slip says', 'receipt shows': paper that a figure stands on."""
    return "ticket" in token.senses or "fee" in token.senses or "document" in token.groups


def _of_vehicle(token: Token) -> bool:
    """'camper is off': it was taken off, and no figure of it is wrong."""
    return not token.senses.keys().isdisjoint(("vehicle", "name"))


def counts_digits(scene: Scene, figure: Figure) -> bool:
    """'two digits got flipped'."""
    behind = token_at(scene.tokens, figure.end)
    return behind is not None and "digits" in behind.groups


def said_of_a_stranger(scene: Scene, value: Figure) -> bool:
    """'dinner should have been 45 dollars': what it is said of is none of the log's."""
    return any(
        "restates" in scene.tokens[index + 1].groups
        for index in scene.unknown
        if index + 1 < value.start
    )


def is_beyond(value: Figure, was: Figure) -> bool:
    """'51,640 on the dash after I put in thirty gallons': no slip makes one of the other."""
    low, high = sorted((value.value, was.value))
    return low <= 0 or high / low > FARTHEST_OFF


FARTHEST_OFF = 1_100
"""What a figure is to its slip at most: a point that was lost, of three decimals."""


def like_slip(meant: Figure, was: Figure) -> bool:
    """Whether a figure is another with digits swapped, or with one that is wrong or missing."""
    return are_slips(meant.value, was.value)


def puts_told_right(scene: Scene, meant: Figure, was: Figure) -> bool:
    """Whether a figure may be another put right: by its digits, or as what one told oneself.

    'the 31.9 gallons i gave you? really 29.1' and 'i told you 412 on the trip meter, its 421.6'
    name what is of the log, as a volume does; 'you've got $20, it was $14' is put right only by a
    figure that looks like a slip of it.
    """
    if like_slip(meant, was):
        return True
    named = isinstance(was.label, Label) or was.dimension == VOLUME
    named = named or refers_back(scene.tokens, was)
    low, high = sorted((meant.value, was.value))
    return named and was_told(scene.tokens, was) and high < ABOUT_AS_MUCH * low


def are_slips(meant: float, was: float) -> bool:
    """Whether the digits of a number are those of another, but for two swapped or one of them."""
    one, other = (f"{each:.10g}".replace(".", "") for each in (meant, was))
    if len(one) != len(other):
        longer, shorter = sorted((one, other), key=len, reverse=True)
        cut = [longer[:at] + longer[at + 1 :] for at in range(len(longer))]
        return len(longer) >= SHORTEST_SLIP and shorter in cut
    wrong = sum(1 for digit, typed in zip(one, other, strict=True) if digit != typed)
    return len(one) >= SHORTEST_SLIP and (wrong == 1 or sorted(one) == sorted(other))


SHORTEST_SLIP = 3
"""Digits: of a shorter figure, every other one is a slip."""
