"""Taking back: 'scratch that', 'take the last fill out', 'delete the fill at 48,260'.

This file decides whether a message asks for something that was texted to be taken out of the log,
and what it names it by: the kind of entry, a figure of it, or its day.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.entries import KIND_NAMES, Cargo, Correction, WordsOf
from domain.quantities import Quantity
from domain.reading.figures import VOLUME, Figure, follows_odometer
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.times import has_times, read_when
from domain.reading.tokens import MARK, NUMBER, TIME, WORD, Token

OF_THE_LOG = frozenset(
    ("vehicle", "name", "weigh_cue", "fuel_cue", "odometer", "axle", "correction", "ticket")
)
WHY = frozenset(("opens_correction", "log_entry", "marks_mistake", "of_fill"))
"""What says why an entry is taken back: something of the log, or a word for the slip."""

ENTRY_SENSES = frozenset(("weigh_cue", "fuel_cue", "odometer", "hitch", "ticket"))
"""What an entry may be called: a weighing, a fill, an odometer reading."""


def undoes(scene: Scene) -> bool:
    """Whether a message takes back what was texted last."""
    if scene.has("correction", "undo") and _says_so(scene):
        return True
    return (scene.has("takes_out") or scene.has("correction", "undo")) and takes_out(scene)


def undo_of(scene: Scene) -> Correction:
    """The undo that a message asks for, with all that it says of what is to go."""
    figure = _tells_which(scene) or (_said_wrong(scene) if scene.live else None)
    was: Quantity | float | str | None = None
    if figure is not None:
        was = Quantity(figure.value, figure.unit) if figure.unit else figure.value
    kind = kind_undone(scene)
    if was is None and CARGO in dict(kind) and "water" in scene.groups:
        was = dict(kind)[CARGO].casefold()  # and no other load that came after it
    # 'the weighing from yesterday'; 'delete that fill, it was yesterday' tells why
    dated = bool(kind) and scene.clause_of(0)[1] == len(scene.tokens) and has_times(scene)
    return Correction(action="undo", was=was, at=read_when(scene) if dated else None, words=kind)


KIND_OF = {
    "weigh_cue": "weighing",
    "fuel_cue": "fill",
    "odometer": "odometer",
    "hitch": "hitch",
    "event": "odometer",
}
"""What kind of entry a word for one names."""

CARGO = KIND_NAMES[Cargo]
CARRIED = frozenset(("water", "load_itself"))
"""Groups of words for what was loaded, which is an entry too: 'scratch the water'."""


def kind_undone(scene: Scene) -> WordsOf:
    """'scratch the fill': the kind of entry that is to go, where one is named, and its words."""
    found = [
        (kind, scene.words_between(index, index + 1))
        for term_class, kind in KIND_OF.items()
        for index in scene.by_class.get(term_class, ())
        if _is_what_goes(scene, index)
    ]
    if not CARRIED.isdisjoint(scene.groups):
        found += [
            (CARGO, scene.words_between(index, index + 1))
            for index, token in enumerate(scene.tokens)
            if not CARRIED.isdisjoint(token.groups) and _is_what_goes(scene, index)
        ]
    return tuple(found) if len({kind for kind, _ in found}) == 1 else ()


def _is_what_goes(scene: Scene, index: int) -> bool:
    """'delete the last fill', 'that fill was wrong, delete it'; not 'delete that, wrong fuel'."""
    start, _ = scene.clause_of(index)
    before = scene.tokens[start:index]
    pointed = bool(before) and all(
        "takes_out" in token.senses
        or token.senses.get("correction") == "undo"
        or token.senses.keys() & {"glue", "ordinal"}
        or token.groups & {"points_back", "last_one", "before_undo", "article"}
        or token.kind is NUMBER
        or token.senses.keys() & {"unit", "time"}
        for token in before
    )
    return pointed and "takes_out" not in scene.tokens[index].senses


def takes_out(scene: Scene) -> bool:
    """'that last one's wrong, delete it', 'delete what i just sent, it was the wrong truck'."""
    tokens = scene.tokens
    if tokens[-1].raw == "?" and "before_undo" not in tokens[0].groups:
        return False
    if _takes_out(tokens) or _tells_which(scene) is not None:
        return True
    head = next((i for i, token in enumerate(tokens) if token.raw == "," or token.ends_sentence), 0)
    reasoned = head and not tokens[head].ends_sentence
    reasoned = reasoned and (not scene.figures or _said_wrong(scene) is not None)
    return bool(reasoned) and _takes_out(tokens[:head]) and not _throws_away(scene, head)


def _said_wrong(scene: Scene) -> Figure | None:
    """'toss that last one, 24.6 gal was wrong': the figure of what goes, behind a comma."""
    if len(scene.figures) != 1 or len(scene.live) != 1:
        return None
    (figure,), tokens = scene.live, scene.tokens
    start, end = scene.clause_of(figure.start)
    if not start or any("article" not in each.groups for each in tokens[start : figure.start]):
        return None
    said = tokens[figure.end : end]
    wrong = any("found_wrong" in each.groups for each in said)
    return figure if wrong and end == len(tokens) and not scene.unknown else None


def _throws_away(scene: Scene, head: int) -> bool:
    """'throw that last one out, its gone off': a thing, where nothing of the log is told of it.

    What one may do to a thing is said of an entry where it is named, or where the reason is a slip.
    """
    asked = " ".join([token.text for token in scene.tokens[:head]]).split(" ")
    groups, why = scene.book.groups, scene.tokens[head:]
    reasoned = why and (why[0].kind is MARK or "it_is" in why[0].groups)
    if groups["throws_away"].isdisjoint(asked) or not reasoned:
        return False
    if all(each.kind is MARK or "glue" in each.senses for each in why):
        return False
    named = not (groups["entry_noun"].isdisjoint(asked) and groups["log_entry"].isdisjoint(asked))
    named = named or any(not KINDS_THEMSELVES.isdisjoint(t.groups) for t in scene.tokens[:head])
    return not named and not any(
        OF_THE_LOG & token.senses.keys() or token.groups & SLIPS for token in why
    )


SLIPS = WHY | {"denies", "ours"}
"""What says of an entry why it goes, or that it was another's: 'that wasnt ours'."""


def _is_entry(tokens: Sequence[Token], index: int) -> bool:
    """'the fill', 'the arrival', 'that hitch entry': what an entry is called, of its kind."""
    token = tokens[index]
    if not ENTRY_SENSES.isdisjoint(token.senses):
        return True
    if "event" in token.senses:
        return "reading_itself" in token.groups
    part = token.senses.get("rating_subject") == "hitch"  # by itself it is a part of the truck
    return part and index + 1 < len(tokens) and "log_entry" in tokens[index + 1].groups


def _takes_out(tokens: Sequence[Token]) -> bool:
    """Whether words ask for the last entry to go, and say nothing else."""
    last = wrong = named = takes = deletes = sent = drops = kind = strikes = False
    out = any("out_of_log" in token.groups for token in tokens)
    written = any("log_entry" in token.groups for token in tokens)  # 'drop the last entry'
    mends = any("mends" in token.groups for token in tokens)  # 'undo the last thing'
    for index, token in enumerate(tokens):
        way = "undo" if token.senses.get("correction") == "undo" else token.senses.get("takes_out")
        if way is not None and index and tokens[index - 1].groups & {"article", "denies"}:
            return False  # 'not a scratch', 'never delete it'
        takes = takes or way in ("undo", "entry") or (way is not None and (out or written))
        drops = drops or (way is not None and "drops" in token.groups)
        kind = kind or not KINDS_THEMSELVES.isdisjoint(token.groups)
        denied = "denies" in token.groups  # 'that wasnt ours, delete it'
        wrong = wrong or (way is None and ("correction" in token.senses or denied))
        last = last or token.senses.get("ordinal") == "last" or "last_one" in token.groups
        deletes = deletes or "deletes" in token.groups  # 'sorry, forget it' is talk
        sent = sent or "was_sent" in token.groups
        strikes = strikes or "strikes_out" in token.groups
        load = strikes and not CARRIED.isdisjoint(token.groups)  # 'drop the load' is no record
        of_entry = _is_entry(tokens, index)
        entry = "log_entry" in token.groups or of_entry or load
        kind = kind or load or (written and of_entry)
        named = named or entry or (mends and "sent_thing" in token.groups)
        if not (
            entry
            or way is not None
            or denied
            or _wants(tokens, index)
            or token.kind is MARK
            or token.senses.keys() & {"glue", "ordinal", "correction", "time", "product"}
            or token.groups
            & {
                "before_undo",
                "out_of_log",
                "sent_thing",
                "points_back",
                "its_tank",
                "was_sent",
                "what_was",
                "ours",
                "addresses",
            }
            or (sent and "twice" in token.groups)
        ):
            return False
    if kind and (drops or (takes and (deletes or out))):
        return True  # 'drop the fill', 'delete the fuel entry'
    return takes and (sent or (last and named) or (wrong and (last or named or deletes)))


KINDS_THEMSELVES = frozenset(("fill_itself", "reading_itself"))
"""Groups of words for an entry that are said of nothing else: 'the weighing', 'the mileage'."""


def _tells_which(scene: Scene) -> Figure | None:
    """'delete the fill at 48,260', 'remove the 8,480 reading': the figure that names an entry.

    None where the message says more than what is to go.
    """
    live = [figure for figure in scene.figures if figure.claimed is None]
    if len(live) != 1 or len(scene.tokens) > LONGEST_NAMED:
        return None
    (figure,), tokens = live, scene.tokens
    verb = next((at for at in range(figure.start) if _takes_at(tokens, at)), figure.start)
    if verb >= figure.start or not all(_leads_to_undo(tokens, at) for at in range(verb)):
        return None
    label = figure.label
    named = deletes = False
    for index in range(verb, len(tokens)):
        token = tokens[index]
        entry = "log_entry" in token.groups or _is_entry(tokens, index)
        entry = entry or (index == figure.end and "one" in token.groups)  # 'the 26.4 gal one'
        labels = isinstance(label, Label) and label.start <= index < label.end
        named, deletes = named or entry or labels, deletes or "deletes" in token.groups
        told = figure.start <= index < figure.end or entry or labels or index == verb
        ends = token.kind is MARK and index >= figure.end
        small = {"glue", "ordinal", "moving"} & token.senses.keys() or ends
        if token.groups & {"we", "pronoun"}:
            return None  # 'scrap the 1,500 we bought'
        if not (told or small or "points_back" in token.groups):
            return None
    sized = figure.value >= LEAST_NAMED and (
        deletes or follows_odometer(figure.value, scene.context)
    )
    return figure if named or sized or (deletes and figure.dimension == VOLUME) else None


LONGEST_NAMED = 12
"""Tokens of 'can you please delete the last weighing of 8,480 lb'."""

LEAST_NAMED = 1_000
"""A figure that names an entry by itself; of less one also deletes lines and photos."""


def _takes(token: Token) -> bool:
    """'delete', 'get rid of'; 'scratch that' has its object, and what follows stands instead."""
    undoes_alone = token.senses.get("correction") == "undo" and " " not in token.text
    return token.senses.get("takes_out") == "entry" or undoes_alone


def _takes_at(tokens: Sequence[Token], index: int) -> bool:
    """Whether a token asks for something to go: 'delete', or 'take' with 'out' behind it."""
    behind = tokens[index + 1]
    parted = "takes_out" in tokens[index].senses and "out_of_log" in behind.groups
    return parted or _takes(tokens[index])


def _leads_to_undo(tokens: Sequence[Token], index: int) -> bool:
    """'could you please ...', 'i need to ...': what stands before what is asked for."""
    token = tokens[index]
    asked = "before_undo" in token.groups or "ours" in token.groups or token.kind is MARK
    return asked or "glue" in token.senses or _wants(tokens, index)


def _wants(tokens: Sequence[Token], index: int) -> bool:
    """'i need to delete that last fill': it is asked for; 'you need to delete that' is not."""
    wants = "wants_undone" in tokens[index].groups
    return wants and index > 0 and "ours" in tokens[index - 1].groups


def is_misdirected(scene: Scene) -> bool:
    """'sorry wrong person. delete that msg': it was meant for another chat."""
    to_log = "said_to_log" in scene.groups  # 'undo, wrong chat'
    return not to_log and scene.phrase_said("misdirected") is not None


def _says_so(scene: Scene) -> bool:
    """An undo stands alone or says why; with figures of its own it is something else."""
    index, _, _ = next(scene.find("correction", "undo"))
    wrong = _said_wrong(scene) is not None if scene.live else False
    if not wrong and any(
        figure.claimed is None and figure.value >= 1000 for figure in scene.figures
    ):
        return False
    if _throws_away(scene, index + 1):
        return False
    before = scene.tokens[:index]
    talk = [at for at, each in enumerate(before) if "talk" in each.senses]
    if not all("before_undo" in before[at].groups or _wants(before, at) for at in talk):
        return False
    if before and "pronoun" in before[-1].groups and "before_undo" not in before[-1].groups:
        return False  # 'i take that back': one's own words
    slip = any("correction" in each.senses for each in before)  # 'oops wrong truck, delete that'
    allowed = all(
        "glue" in each.senses
        or "correction" in each.senses
        or (slip and not OF_THE_LOG.isdisjoint(each.senses))
        or each.kind is MARK
        or "before_undo" in each.groups
        or _wants(before, at)
        for at, each in enumerate(before)
    )
    strange = sum(1 for other in scene.unknown_words() if other > index)
    behind = scene.tokens[index + 1 :]
    if not wrong and any(each.kind in (NUMBER, TIME) and each.value < 1000 for each in behind):
        return False  # 'scratch that, come at 9'
    ours = any(not OF_THE_LOG.isdisjoint(each.senses) or each.groups & WHY for each in behind)
    ours = ours or scene.phrase_said("typed_unmeant", index + 1) is not None
    everyday = "said_to_log" not in scene.groups
    if everyday and strange and not ours and any("talk" in each.senses for each in behind):
        return False  # 'scratch that, lets do tacos'
    return allowed and strange <= (3 if ours else 1) and not _object_elsewhere(scene, index)


def _names_further(token: Token) -> bool:
    return "ordinal" in token.senses or "entire" in token.groups


def _object_elsewhere(scene: Scene, index: int) -> bool:
    """'scratch that itch', 'ignore that guy': the word behind makes it something else."""
    # 'that last pic', 'that whole weighing'
    behind = [each for each in scene.tokens[index + 1 :] if not _names_further(each)]
    following = behind[0] if behind else None
    if following is None or following.kind is not WORD:
        return False
    if not following.senses:
        return "log_entry" not in following.groups
    if "talk" in following.senses and following.senses["talk"].split()[0] == "other":
        return True
    further = behind[1] if len(behind) > 1 else None
    return (
        "article" in following.groups
        and further is not None
        and further.kind is WORD
        and not further.senses.keys() & {"weigh_cue", "fuel_cue", "odometer", "hitch", "correction"}
    )
