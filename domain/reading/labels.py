"""Labels: which words of a message name one thing, as in 'trailer left rear'.

A label is a run of words that name one thing: a place on the rig, a field of the log, a gauge or
a rating. This file decides which words belong to one label; what they name together is decided in
`label`, which figure it belongs to in `pairing`, and whether it can name that figure at all in
`label_fit`.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from itertools import pairwise
from operator import attrgetter

from domain.reading.as_one import leave_together, rig_as_one, truck_as_one
from domain.reading.ball_sizes import end_of_size, has_size
from domain.reading.everyday_words import EVERYDAY, is_everyday, names_trailer
from domain.reading.figures import Figure
from domain.reading.label import NAMING, Label, extend, make_label
from domain.reading.left_or_leaving import is_leaving
from domain.reading.phrasebook import APOSTROPHES
from domain.reading.tokens import BREAK, NUMBER, WORD, Token


def find_labels(
    tokens: Sequence[Token],
    naming: frozenset[int],
    figures: Sequence[Figure],
    groups: frozenset[str],
) -> list[Label]:
    """Every label of a message, in order; words that belong to a figure are not labels.

    `naming` are the places of words that labels are made of, of which there is one at least, and
    `groups` those of all the message's words.
    """
    taken: set[int] = set()
    for figure in figures:
        taken.update(range(figure.start, figure.end))
    labels: list[Label] = []
    current: Label | None = None
    everyday = not groups.isdisjoint(EVERYDAY)
    aside = 0  # where what is said in brackets ends
    for index in range(min(naming), len(tokens)):
        if (current is None and index not in naming) or index < aside:
            continue  # most words begin no label
        token = tokens[index]
        senses = token.senses
        if token.raw == "(" and current is not None and current.end == index:
            aside = _end_of_brackets(tokens, index, current, figures)
            if aside:
                current.end = aside
                current.of_both = current.whole == "gross" and _join_both(tokens[index:aside])
                continue
        if index in taken:
            if current is not None:
                ordinal = _axle_number(tokens, index, current, figures)
                if ordinal is None and _counts_its_axles(tokens, index, current):
                    current.end = index + 1
                elif ordinal is None:
                    current = None
                else:
                    current.to_ordinal = ordinal if current.ordinal else None
                    current.ordinal, current.end = current.ordinal or ordinal, index + 1
            continue
        if (
            index in naming
            # 'car and caravan together' names no vehicle
            and (senses.get("rig") != "hitched" or "as_one" in token.groups)
            and not ("side" in senses and is_leaving(tokens, index))
            and not ("rating_subject" in senses and _is_seen_to(tokens, index))
            and not (everyday and is_everyday(tokens, index, figures, groups))
        ):
            if (
                current is not None
                and current.end >= index - 2
                and _joins(tokens, current.end, index, current)
                and extend(current, token, of=index > current.end)
            ):
                current.end = index + 1
                continue
            if (
                current is not None
                and "ticket" in senses
                and _is_printed_there(tokens, current, index)
            ):
                current.end = index + 1
                continue
            current = make_label(index)
            if index and "its" in tokens[index - 1].groups and senses.get("whole") != "tongue":
                current.vehicle = _named_last(labels)
            if extend(current, token):
                current.compound = _is_compound(tokens, index)
                current.aside = _is_aside(tokens, index)
                labels.append(current)
                if has_size(token):
                    current.end = end_of_size(tokens, index)
            else:
                current = None
        elif current is not None and token.raw in "()" and _explains(tokens, index, current):
            current.end = index + 1
        elif current is not None and not (
            (
                (not JOINING.isdisjoint(token.groups) or _goes_on(token, current))
                and index - current.end <= 1
            )
            or (current.wheel and _joins_axles(tokens, index, current))
        ):
            current = None
    if "rear_or_right" in groups:
        _rear_alone(tokens, figures, labels)
    if len(labels) >= LEAST_PAIR:
        labels = _listed_apart(tokens, labels)
        if "on_it" in groups:
            _on_trip_meter(tokens, labels)
        _rear_of_trailer(tokens, labels)
        if "front" in groups and "of" in groups:
            _front_of_trailer(tokens, labels)
        if len(labels) >= 2 * LEAST_PAIR:
            _told_with_comma(tokens, labels)
            if _front_behind_head(tokens, figures, labels):
                _rear_of_trailer(tokens, labels)
    labels = [
        label
        for label in labels
        if label.ordinal is None or not (label.only_ordinal and _counts_alone(tokens, label))
    ]
    if len(labels) < LEAST_PAIR:
        return labels
    if labels[0].only_axles and _heads_behind(figures, labels):
        labels = labels[1:]
    labels = truck_as_one(tokens, figures, labels)
    if "and" in groups:
        leave_together(tokens, figures, labels)
    return rig_as_one(tokens, labels)


JOINING = frozenset(("joins_label", "off_of"))
"""Groups of small words between the words of a label: 'gross on the slip', 'total off the slip'."""


def _is_printed_there(tokens: Sequence[Token], label: Label, index: int) -> bool:
    """'sum on the slip 6,200': where the load stands on paper, and no number of the ticket."""
    led = index == label.end + 1 and bool(tokens[label.end].groups & {"on_the", "off_of"})
    return led and bool(label.places_load)


def _counts_its_axles(tokens: Sequence[Token], index: int, current: Label) -> bool:
    """'the truck's two axles': how many there are stands within what they are called."""
    behind = tokens[index + 1] if index + 1 < len(tokens) else None
    if behind is None or "axle_noun" not in behind.senses:
        return False
    owned = tokens[index - 1].raw[-2:-1] in APOSTROPHES and current.end == index
    return owned and current.only_vehicle


def _on_trip_meter(tokens: Sequence[Token], labels: Sequence[Label]) -> None:
    """'the trip meter had 268 miles on it': on the meter that was named, and not on the truck."""
    for before, label in pairwise(labels):
        on_it = "on_it" in tokens[label.start].groups
        if on_it and before.field == "trip_meter" and label.field == "odometer":
            label.field = "trip_meter"


LEAST_PAIR = 2
"""Labels: one alone is of nothing that several are."""


def _heads_behind(figures: Sequence[Figure], labels: Sequence[Label]) -> bool:
    """'axles 1,400 front 1,700 rear': each label stands behind its figure, the first over all."""
    starts = [figure.start for figure in figures if figure.claimed is None]
    behind = [label.start for label in labels[1:]]
    heads = starts and starts[0] - labels[0].end <= 1  # a colon
    if len(starts) != len(behind) or len(starts) < LEAST_PAIR or not heads:
        return False
    turns = [at for pair in zip(starts, behind, strict=True) for at in pair]
    return turns == sorted(turns)


def _end_of_brackets(
    tokens: Sequence[Token], index: int, label: Label, figures: Sequence[Figure]
) -> int:
    """'trailer (the two axles together) 9,900': where brackets end that say more of a label; or 0.

    What names an axle by its number alone is explained by them, and what holds a figure does not.
    """
    if label.ordinal or not (label.axle or label.vehicle or label.whole):
        return 0
    close = next((at for at in range(index, len(tokens)) if tokens[at].raw == ")"), 0)
    if not close or close + 1 == len(tokens) or close - index > LONGEST_ASIDE:
        return 0
    told = any(index < figure.start < close and figure.claimed is None for figure in figures)
    behind = tokens[close + 1]
    leads = behind.raw in ":=" or behind.raw.startswith("..")  # 'truck (2 axles) ...... 12,180'
    return close + 1 if (leads or behind.kind is NUMBER) and not told else 0


LONGEST_ASIDE = 8


def _join_both(aside: Sequence[Token]) -> bool:
    """'Gross (car + horsebox)': whether truck and trailer are joined in brackets."""
    named = {token.senses.get("name", "").partition(":")[0] for token in aside}
    named |= {token.senses.get("vehicle", "") for token in aside}
    return {"truck", "trailer"} <= named and any(
        "joins_vehicles" in token.groups for token in aside
    )


def _explains(tokens: Sequence[Token], index: int, label: Label) -> bool:
    """'AXLE 3 (TRAILER)': the brackets say again what a numbered axle is."""
    return bool(label.wheel and label.ordinal) and index <= label.end


def _counts_alone(tokens: Sequence[Token], label: Label) -> bool:
    """'scaled first, 5,180/6,600/8,220', 'second 18.8 gal': an ordinal that names no axle.

    No more does one that counts what no phrase knows: 'at the first stop, 51,250'.
    """
    following = tokens[label.end : label.end + 2]
    listed = bool(following) and following[0].raw == ","
    before = tokens[label.start - 1] if label.start else None
    if label.only_ordinal and before is not None and not STOOD.isdisjoint(before.senses):
        return True  # 'bars off first: 4,860 steer', 'drives first 6,940 then steers 5,210'
    pumped = len(following) > 1 and following[1].senses.get("unit") in VOLUMES
    if listed and label.start and "middle_one" in tokens[label.start].groups:
        listed = tokens[label.start - 1].kind is not NUMBER  # '3,710 front, 3,860 middle, ...'
    counts = bool(following) and following[0].kind is WORD and not following[0].senses
    return label.only_ordinal and (label.compound or listed or pumped or counts)


STOOD = frozenset(("bars", "rig", "axle"))
"""Classes of term for how the rig stood, or an axle, behind which 'first' is the first time."""

VOLUMES = frozenset(("gal", "L", "gal_imp"))


def _named_last(labels: Sequence[Label]) -> str | None:
    """'flatdeck, its front axle 910': whose axle it is."""
    return next((label.vehicle for label in reversed(labels) if label.vehicle), None)


def _listed_apart(tokens: Sequence[Token], labels: Sequence[Label]) -> list[Label]:
    """'front back trailer' without a figure between: a list, and no trailer's back.

    So is '36 front 42 rear van 50', where each end stands behind its figure.
    """
    apart: list[Label] = []
    for label in labels:
        before = apart[-1] if apart else None
        listed = (
            before is not None
            and label.vehicle is not None
            and label.end_of not in (None, before.end_of)
            and before.only_end
            and label.end == label.start + 2
            and "end" in tokens[label.start].senses
            and (
                all(tokens[index].raw in "/,-&" for index in range(before.end, label.start))
                or _behind_figures(tokens, before, label)
            )
        )
        if listed:
            back = make_label(label.start)
            back.end_of, label.end_of, label.start = label.end_of, None, label.start + 1
            apart.append(back)
        apart.append(label)
    return apart


def _behind_figures(tokens: Sequence[Token], before: Label, label: Label) -> bool:
    around = (before.start - 1, before.end, label.end)
    return (
        before.end + 1 == label.start
        and label.end < len(tokens)
        and all(index >= 0 and tokens[index].kind is NUMBER for index in around)
    )


def _told_with_comma(tokens: Sequence[Token], labels: list[Label]) -> None:
    """'Trailer, front axle: 1,180. Trailer, back axle: 1,240': a part of what opens its line.

    One such line could be a list ('truck and trailer, steer: ...'); of one vehicle, two are none,
    and all its axles are none either: 'Tow vehicle, both axles: 2,460 kg'.
    """
    headed = [
        (head, part)
        for head, part in pairwise(labels)
        if tokens[head.end].raw == ","
        and (part.start == head.end + 1 or _are_both(tokens, head.end + 1, part.start))
        and head.only_vehicle
        and part.vehicle is None
        and (part.axle or part.end_of or part.side or part.wheel)
        and (head.start == 0 or tokens[head.start - 1].raw in ".;" or _breaks(tokens, head.start))
    ]
    for vehicle in ("truck", "trailer"):
        own = [pair for pair in headed if pair[0].vehicle == vehicle]
        printed = [part for _, part in own if part.only_its_axles or part.only_axles]
        for head, part in own if len(own) >= LEAST_PAIR or printed else ():
            part.start, part.vehicle, part.name = head.start, vehicle, head.name
            labels.remove(head)


def _are_both(tokens: Sequence[Token], start: int, end: int) -> bool:
    """'both axles'."""
    return end == start + 1 and "of_all" in tokens[start].groups


def _breaks(tokens: Sequence[Token], index: int) -> bool:
    return tokens[index - 1].kind is BREAK


def _both_ends(tokens: Sequence[Token], label: Label) -> bool:
    """'the trailer's front and rear axle'."""
    behind = tokens[label.end] if label.end < len(tokens) else None
    shared = label.end_of == "front" and not label.side
    return shared and behind is not None and "and" in behind.groups


def _front_behind_head(
    tokens: Sequence[Token], figures: Sequence[Figure], labels: Sequence[Label]
) -> bool:
    """'steer 5,010 drive 6,630, then the tandem: front axle 4,120, rear axle 4,260'.

    The truck's two axles are told, so that the front one behind what heads it is the trailer's.
    """
    for number in range(2, len(labels) - 1):
        head, label = labels[number : number + 2]
        towed = head.only_axles or (head.only_vehicle and head.vehicle == "trailer")
        if (
            not towed
            or label.vehicle
            or label.side
            or not (label.axle == "steer" or label.only_end)
        ):
            continue
        own = {each.axle for each in labels[:number]} >= {"steer", "drive"}
        told = any(head.end <= each.start < label.start for each in figures)
        lead = tokens[max(0, head.start - 2) : head.start]
        off = head.aside or any("hitch" in token.senses for token in lead)  # 'dropped the camper'
        if own and not (told or off) and "trucks_axle" not in tokens[label.start].groups:
            label.vehicle = "trailer"
            return True
    return False


def _rear_of_trailer(tokens: Sequence[Token], labels: Sequence[Label]) -> None:
    """'trailer front axle 4,400, rear axle 4,600': both are the trailer's."""
    towed = False
    for label in labels:
        if label.vehicle == "trailer" and (label.heads_axles or _both_ends(tokens, label)):
            towed = True
        elif towed and label.axle == "drive" and label.vehicle is None:
            if "trucks_axle" not in tokens[label.start].groups:
                label.axle, label.end_of = None, "rear"
                label.vehicle, label.wheel = "trailer", "axle"
        else:
            towed = towed and (label.only_ordinal or label.only_side)


def _front_of_trailer(tokens: Sequence[Token], labels: Sequence[Label]) -> None:
    """'900 kg on the front, 1,100 on the back of the trailer': two ends of what is named last."""
    for front, rear in pairwise(labels):
        ends = front.only_end and front.end_of == "front" and rear.end_of == "rear"
        own = ends and rear.vehicle == "trailer" and not (rear.axle or rear.side or rear.wheel)
        if own and any("of" in token.groups for token in tokens[rear.start : rear.end]):
            front.vehicle, front.name = rear.vehicle, rear.name


def _rear_alone(
    tokens: Sequence[Token], figures: Sequence[Figure], labels: Sequence[Label]
) -> None:
    """'frnt 5020 rr 6310': one 'rr' without other corners is the rear, not the right rear.

    'RR tire 62', 'rr 62 psi' are of a wheel, and a wheel has its side.
    """
    corners = [label for label in labels if label.side]
    if len(corners) != 1 or "rear_or_right" not in tokens[corners[0].start].groups:
        return
    corner = corners[0]
    behind = next((figure for figure in figures if figure.start >= corner.end), None)
    of_wheel = corner.subject in OF_WHEELS or (behind is not None and behind.value < BEYOND_A_WHEEL)
    if not of_wheel:
        corner.side = None


OF_WHEELS = ("tyre", "hub")
"""Subjects that each wheel has one of."""

BEYOND_A_WHEEL = 200
"""Psi or degrees: fewer pounds or kilograms rest on no axle."""


def _is_seen_to(tokens: Sequence[Token], index: int) -> bool:
    """'safety chains on, heading out 48,211': a part that was looked at heads no figure."""
    if index + 2 >= len(tokens):
        return False
    done, behind = tokens[index + 1 : index + 3]
    return "check_done" in done.senses and (behind.raw == "," or behind.ends_sentence)


def _is_aside(tokens: Sequence[Token], index: int) -> bool:
    """'with the gooseneck on': it says how the rig stood, and carries no figure."""
    token, before = tokens[index], index - 1
    if "solo" in token.senses.get("rig", "") or token.text.startswith("with "):
        return True  # 'without the camper', 'total with camper 22,140'
    if before < 0:
        return False
    if "anybodys_vehicle" in token.groups and "per_one" in tokens[before].groups:
        return True  # '10,000 lb per vehicle'
    if "no_alone" in tokens[before].groups and "with_article" in token.groups:
        return False  # 'no the van was 1,860'
    if before and "our" in tokens[before].groups:
        before -= 1
        if "no_alone" in tokens[before].groups:
            return False  # 'no the trailer was 9,640'
    if _stands_off(tokens, before, index) or _was_taken_from(tokens, before):
        return True
    if before and tokens[before - 1].kind is NUMBER and tokens[before].groups & RESTS_ON:
        return False  # '9,880 back on the trailer', '9,240 is on the trailer'
    # 'hitched the flatdeck, 48011'
    return "hitch" in tokens[before].senses or not tokens[before].groups.isdisjoint(STANDS_BY)


RESTS_ON = frozenset(("back_on", "is_so"))
"""Groups of words between a load and the trailer that it is on."""

STANDS_BY = frozenset(("tows", "absent"))
"""Groups of words before a vehicle that is spoken of and not weighed."""


def _was_taken_from(tokens: Sequence[Token], before: int) -> bool:
    """'unhooked from the truck it's 3,120 lb': what a trailer was taken from was not weighed."""
    if "from" not in tokens[before].groups or not before:
        return False
    return "unhitched" in tokens[before - 1].senses.get("hitch", "").split()


def _stands_off(tokens: Sequence[Token], before: int, index: int) -> bool:
    """'flatdeck weighed off the ute': what a trailer stood apart from was not on the scale."""
    if "off_of" not in tokens[before].groups or names_trailer(tokens[index]):
        return False
    start = before
    while start and not tokens[start - 1].ends_sentence:
        start -= 1
    beside = tokens[before - 1] if before else None
    figured = beside is not None and (beside.kind is NUMBER or "unit" in beside.senses)
    return not figured and any(names_trailer(each) for each in tokens[start:before])


def _is_compound(tokens: Sequence[Token], index: int) -> bool:
    """'debit pin', 'fish tank': a noun before the label makes it another thing's name."""
    before = tokens[index - 1] if index else None
    read = index > 1 and "odometer" in tokens[index].senses
    if read and "leads_to_place" in tokens[index - 2].groups:
        return False  # 'leaving saltlick odometer 48,790'
    return (
        before is not None
        and before.kind is WORD
        and not before.senses
        and (before.raw.islower() or before.raw.isupper())
        and not before.possessive
    )


def _joins(tokens: Sequence[Token], start: int, end: int, label: Label) -> bool:
    return all(_goes_on(tokens[index], label) for index in range(start, end))


def _goes_on(token: Token, label: Label) -> bool:
    """Whether a label goes on behind a word: 'weight on the drive', 'GVWR off the camper's'."""
    if "joins_label" in token.groups:
        return True
    return label.rating is not None and "read_off" in token.groups


def _axle_number(
    tokens: Sequence[Token], index: int, current: Label, figures: Sequence[Figure]
) -> int | None:
    """The number in 'Axle 3: 1120 kg', which is part of the label and no figure."""
    if not (current.wheel or current.vehicle):
        return None
    another = index > 0 and _joins_axles(tokens, index - 1, current)
    if not another and (current.end != index or current.ordinal):
        return None
    side = tokens[index + 1] if index + 1 < len(tokens) else None
    if not current.wheel and not (  # 'Trailer 1 left 2,830', 'trailer 1 4,860 trailer 2 4,940'
        current.only_vehicle
        and side is not None
        and ("side" in side.senses or _counts_on(tokens, index))
    ):
        return None
    place = bisect_left(figures, index, key=_starts_at)
    if place == len(figures) or figures[place].start != index:
        return None
    figure = figures[place]
    following = tokens[figure.end] if figure.end < len(tokens) else None
    small = figure.whole and 1 <= figure.value <= 6 and figure.unit is None
    if not small or figure.end != index + 1 or following is None:
        return None
    nearby = place + 1 < len(figures) and (
        figures[place + 1].start <= figure.end + 1
        or (current.wheel and _names_wheel(tokens[figure.end : figures[place + 1].start]))
    )
    if (
        nearby
        or (another and "spans_axles" in tokens[index - 1].groups)
        or following.kind not in (WORD, BREAK)
        or ("joins_label" in following.groups and any(map(names_trailer, tokens[index + 2 :][:2])))
    ):
        figure.claimed = AXLE_NUMBER
        return int(figure.value)
    return None


def _names_wheel(between: Sequence[Token]) -> bool:
    """'axle 2 left hub 165': nothing but where on the axle, and what was measured there."""
    return "subject" in between[-1].senses and all(
        not NAMING.isdisjoint(token.senses) for token in between
    )


AXLE_NUMBER = "an axle's number"
_starts_at = attrgetter("start")


def _joins_axles(tokens: Sequence[Token], index: int, current: Label) -> bool:
    """'axles three and four', 'axles 3+4': the word between the numbers of two axles."""
    joins = current.wheel and current.ordinal and current.end == index
    behind = tokens[index + 1] if index + 1 < len(tokens) else None
    joining = not JOINS_AXLES.isdisjoint(tokens[index].groups)
    return bool(joins) and joining and _is_number(behind)


JOINS_AXLES = frozenset(("joins_vehicles", "spans_axles"))
"""Groups of words between the numbers of axles: 'three and four', 'one through three'."""


def _is_number(token: Token | None) -> bool:
    return token is not None and token.kind is NUMBER


def _counts_on(tokens: Sequence[Token], index: int) -> bool:
    """Whether the word before a number is counted elsewhere too, a load behind either number."""
    word, first = tokens[index - 1].text, tokens[index].value
    return _loaded(tokens, index) and any(
        tokens[at - 1].text == word
        and {first, tokens[at].value} in ({1, 2}, {2, 3})
        and _loaded(tokens, at)
        for at in range(1, len(tokens) - 1)
        if tokens[at].kind is NUMBER
    )


def _loaded(tokens: Sequence[Token], index: int) -> bool:
    """Whether a load stands behind an axle's number, or behind a colon."""
    behind = tokens[index + 1 : index + 3]
    if behind and behind[0].raw in ":=":
        behind = behind[1:]
    return bool(behind) and behind[0].kind is NUMBER and behind[0].value >= LEAST_ON_AXLE


LEAST_ON_AXLE = 100
"""Pounds or kilograms."""
