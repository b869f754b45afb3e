"""Questions of loads and limits: what weighs how much, what it may, and what is left.

Each topic has one small rule, which looks at the phrases of its topic, at single words, at what
the message names and at how many words nobody knows; the words themselves are data. In which
order the rules are tried is `topics`' to say.
"""

from __future__ import annotations

from domain.reading.asked import LEFT_OF, MOST_NAMED, Asked
from domain.reading.evidence import (
    names_axle,
    names_rating,
    names_rig,
    names_whole,
    speaks_trade,
)
from domain.reading.figures import LENGTH, MASS, SHARE, VOLUME, kilograms
from domain.reading.label import Label
from domain.reading.plain_loads import is_noun_phrase
from domain.reading.scene import Scene
from domain.reading.spots import find_spots, said_length
from domain.reading.talk import PLAN, REQUEST
from domain.reading.tokens import MARK

ASKS_HOW_MUCH = frozenset(("what", "how_much"))
"""Forms of a question that asks for a figure."""

ASKS_LOAD = frozenset(("what", "how", "how_much", "show"))
"""Forms of a question in which a mere axle asks for its load."""

ASKS_WHAT = frozenset(("what", "are_we", "show"))
"""Forms of 'what is'."""

ASKS_RATING = frozenset(("what", "show"))
"""Forms of a question that asks for a rating by an everyday name."""

LONGEST_LIST = 6
"""Words, each counted once, of a request for every rating."""


def asks_tiedown(scene: Scene, asked: Asked) -> bool:
    """Whether a load is to be lashed: how many straps, or how."""
    if "tiedown" not in asked.topics or (asked.other and not speaks_trade(scene)):
        return False
    ties = asked.phrased("tiedown", "ties_down")
    many = (
        ("?" in asked.text and asked.says("lashing"))
        or asked.runs("how_many")
        or asked.says("asks_lashing")
        or ("how" in asked.forms and ties)
        or (not asked.forms and asked.mass is not None)  # 'straps for 1,500 lb of hives'
    )
    if asked.mass is not None or asked.says("lashed"):
        return many
    goods = scene.book.goods
    named = asked.strangers in range(1, MOST_NAMED) or not goods.isdisjoint(asked.words)
    named = named and not asked.says("of_somebody")
    return "how" in asked.forms and ties and asked.ours and named  # and not 'my hair'


def asks_whatif(scene: Scene, asked: Asked) -> bool:
    """Whether a load is supposed to be moved, added or taken off, and not planned to be."""
    if "whatif" not in asked.topics:
        return False
    if asked.within("whatif", "supposed_move") and not asked.says("weighs_move"):
        return False  # 'moving 300 lb of hay tomorrow, ok?'
    if asked.within("whatif", "supposes_load") and asked.strangers > MOST_NAMED:
        return False
    if asked.mass is None:
        if asked.phrased("whatif", "weak_whatif") and _bears_on_tongue(scene):
            return not asked.other and asked.strangers <= MOST_NAMED
        of_others = asked.other and not scene.has("name")
        if of_others or asked.strangers > MOST_NAMED:
            return False
        rated = names_rating(scene) and asked.says("against_rating")
        needs_mass = asked.within("whatif", "whatif_of_mass") and not _of_water(scene)
        if asked.distance is not None or rated or needs_mass or asked.stands("until_over"):
            return False
        if asked.phrased("whatif", "surely_whatif") and asked.stands("takes_load_off"):
            return asked.strangers <= MOST_NAMED  # 'what if we dump the fresh water'
    about_rig = (
        scene.has("thing")
        or any(figure.dimension == LENGTH for figure in scene.figures)
        or any(said_length(scene, spot.start) is not None for spot in find_spots(scene))
        or (scene.has("name") and (asked.mass is not None or bool(asked.forms & LEFT_OF)))
        or names_axle(scene, asked, "axle", "axle_noun")
        or scene.has("whole", "tongue")
        or asked.says("payload")
        or asked.stands("where_loaded")
    )
    supposed = scene.tokens[0].text in asked.book.groups["supposes"] and not asked.other
    people = scene.has("aboard")
    counted = people or (asked.mass is not None and asked.mass.dimension != MASS)
    if supposed and not counted and asked.stands("what_then") and find_spots(scene):
        return True
    if asked.mass is not None and asked.mass.dimension == MASS:
        return about_rig or names_rig(scene) or _loads_more(scene, asked) or bool(find_spots(scene))
    loaded = names_rig(scene) and (asked.mass is not None or asked.stands("onto_rig"))
    return (about_rig or loaded) and not asked.within("whatif", "weak_whatif")


def _of_water(scene: Scene) -> bool:
    """'what does 40 gal of water do to the tongue': so much of it weighs something, too."""
    return "water" in scene.groups and any(each.dimension == VOLUME for each in scene.figures)


def _bears_on_tongue(scene: Scene) -> bool:
    """'how much comes off the tongue if the generator sits over the axles': where it would go."""
    return scene.has("whole", "tongue") and any(
        not any("whole" in token.senses for token in scene.tokens[spot.start : spot.end])
        for spot in find_spots(scene)
    )


def _loads_more(scene: Scene, asked: Asked) -> bool:
    """'suppose we threw the 340 lb extractor on'; to suppose a weight lost moves no load."""
    moved = (
        scene.has("load_verb")
        or asked.says("moves", "room_word")
        or "margin" in asked.topics
        or asked.stands("affects_us")
    )
    if asked.other or asked.strangers > MOST_NAMED:
        return False
    if not asked.phrased("whatif", "surely_whatif"):
        weighs = asked.mass is not None and kilograms(asked.mass) >= LEAST_SUPPOSED
        return moved and weighs and asked.ours and asked.phrased("whatif", "supposes_more")
    return moved or not asked.within("whatif", "merely_supposes")


LEAST_SUPPOSED = 45.0
"""Kilograms: what is lighter, people also carry about a house."""


def asks_margin(scene: Scene, asked: Asked) -> bool:
    """Whether it is asked what is left of a rating, or whether one is broken."""
    till = "whatif" in asked.topics and asked.says("till_limit")
    left = (till or asked.says("spared")) and names_rating(scene) and _asks_what_is_left(asked)
    if left and not asked.other:
        # 'how much payload do i have left', 'how much more can she carry before we bust the gvwr'
        return asked.strangers <= (2 if till else 1 if asked.ours else 0)
    phrases = asked.topics.get("margin")
    if not phrases or ("tongue" in asked.topics and _asks_of_share(scene, asked)):
        return False  # 'is our pin weight within 15 to 25 percent' asks for its share
    till_over = asked.stands("until_over") and bool(asked.forms & LEFT_OF)
    if till_over and asked.ours and asked.strangers <= 1 and not asked.other:
        return True  # 'how many more pounds can we put on before we're over'
    phrases = phrases - scene.book.groups["beside_limit"] or phrases
    axle = names_axle(scene, asked)
    # 'are we under on the tires'
    on_tyres = asked.ours and scene.has("subject", "tyre") and asked.says("past_or_short")
    placed = (
        axle
        or on_tyres
        or names_rating(scene)
        or (asked.says("rating_word") and asked.ours and asked.strangers == 0)
        or names_axle(scene, asked, "axle_noun")
        or names_whole(scene, asked)
        or names_rig(scene)
        or (scene.has("weigh_cue") and asked.strangers == 0 and asked.mass is None)
        or scene.has("rating_subject")
        or (scene.has("end") and asked.says("axle"))
    )
    if asked.other and not placed:
        return False
    limited = names_rating(scene) or axle
    if asked.stands("over_there") and not limited:
        return False  # 'is the camper over at your place'
    rated = limited or names_rig(scene) or scene.has("rating_subject")
    plain = phrases <= scene.book.groups["limit_word"] and rated
    named = bool(asked.forms & ASKS_RATING) or is_noun_phrase(scene, phrases)
    if plain and named and asked.forms <= ASKS_WHAT and not asked.says("spared"):
        return False  # 'what's the nose weight limit', 'tow limit?': a rating is asked for
    if "tongue" in asked.topics and asked.within("margin", "good_on"):
        return False  # 'is the nose weight ok on the caravan' asks for its share
    sure = phrases & scene.book.groups["surely_margin"]
    if sure:
        over_on = not placed and sure <= scene.book.groups["over_on"]
        if over_on and _ends_strangely(scene):
            return False
        everyday = sure <= scene.book.groups["everyday_margin"]
        if everyday:
            whose = asked.ours or asked.says("any_of")
            which = phrases > sure or "which" in asked.forms
            only_that = whose and which and asked.strangers == 0
            return placed or only_that
        return placed or asked.strangers == 0 or (asked.says("our_rig") and asked.strangers <= 1)
    if asked.within("margin", "beside_limit"):
        known = asked.plain or asked.within("margin", "how_close")
        return limited and known and asked.strangers == 0
    if not asked.phrased("margin", "weak_margin"):
        return False
    if len(phrases) == 1 and asked.phrased("margin", "weakest_margin"):
        if scene.has("rating_cue") and asked.strangers == 0:
            return True
        strict = limited or scene.has("rating_subject") or names_axle(scene, asked, "axle_noun")
        strict = strict or on_tyres
        formed = asked.forms & {"are_we", "how_much", "how_far"}
        vague = phrases <= scene.book.groups["room_word"] and not asked.says("of_room")
        known = asked.strangers <= (2 if strict else 1)
        asks = placed and known and (strict or bool(formed and not vague))
        return asks or _asks_only_that(scene, asked)
    return placed and asked.strangers <= 3


def _asks_what_is_left(asked: Asked) -> bool:
    """Whether it is asked how much or how far, how close, or whether, and not what is allowed."""
    if asked.forms & LEFT_OF or asked.runs("how_close"):
        return True
    return asked.plain and asked.forms.isdisjoint(ASKS_RATING)


def _ends_strangely(scene: Scene) -> bool:
    """'are we over on the guest list': what it is of, no phrase knows."""
    return len(scene.tokens) - 1 - (scene.tokens[-1].kind is MARK) in scene.unknown


def _asks_of_share(scene: Scene, asked: Asked) -> bool:
    """Whether a share is named, or what is usual: 'within reason'."""
    return any(figure.dimension == SHARE for figure in scene.figures) or asked.says("of_good_sense")


def _asks_only_that(scene: Scene, asked: Asked) -> bool:
    """'are we legal', and nothing behind it."""
    if not asked.phrased("margin", "legal_or_over"):
        return False
    tail, words = scene.book.groups["tail_word"], asked.text.replace("?", " ").split()
    while words and words[-1] in tail:
        words.pop()
    return " ".join(words).endswith(tuple(scene.book.groups["are_we_over"]))


def asks_tongue(scene: Scene, asked: Asked) -> bool:
    """The trailer's tongue, and not the one in a mouth or a pin on a map."""
    if "tongue" not in asked.topics or "ratings" in asked.topics:
        return False
    if asked.phrased("tongue", "surely_tongue_asked"):
        return True
    if not names_rig(scene) and asked.within("tongue", "everyday_tongue"):
        return False  # 'is my nose ok'
    much = "how_much" in asked.forms or asked.says("share_word")
    bears = asked.phrased("tongue", "bears_down") and (much or asked.says("surely_tongue"))
    if asked.strangers == 0 and not asked.other and (bears or names_rig(scene)):
        return True
    ours = asked.ours or asked.says("mass_unit")
    return asked.strangers <= (1 if ours else 0) and asked.says("asks_tongue")


def asks_what_it_may_tow(scene: Scene, asked: Asked) -> bool:
    """'how much can Juniper tow': a rating of the truck, and nothing that is loaded."""
    if not asked.says("can") or asked.says("still_more"):
        return False
    told = [word for word in asked.text.split() if word.isalpha()]
    if not told:
        return False
    truck = scene.has("vehicle", "truck") or bool(scene.named("truck"))
    tows = truck and told[-1] in scene.book.groups["tows"]
    holds = scene.has("rating_subject") and told[-1] in scene.book.groups["holds_load"]
    weighs = asked.forms & ASKS_HOW_MUCH and asked.mass is None and asked.distance is None
    return bool(weighs) and (tows or holds) and asked.strangers == 0 and not asked.other


def asks_ratings(scene: Scene, asked: Asked) -> bool:
    """Whether the limits themselves are asked for."""
    if "ratings" not in asked.topics:
        return False
    placed = names_axle(scene, asked) or scene.has("whole", "tongue")
    if not asked.phrased("ratings", "surely_ratings"):
        named = placed or (names_rating(scene) and asked.strangers == 0)  # 'our max tow'
        return named and (asked.ours or asked.plain) and asked.phrased("ratings", "max")
    listed = asked.phrased("ratings", "lists_ratings") and "how" not in asked.forms
    short = len(asked.words) <= LONGEST_LIST or asked.stands("asks_drawbar")
    short = short or asked.stands("held_by_drawbar")
    if listed and asked.strangers == 0 and short:
        return True
    if asked.within("ratings", "everyday_rating"):
        # a payload is also a message's, and atm a cash machine or 'at the moment'
        owned = asked.stands("rating_owned") and not asked.forms.isdisjoint(ASKS_RATING)
        known = asked.strangers <= (1 if asked.ours else 0) and not asked.other
        ours = (owned or not asked.forms) and known and names_rating(scene)
        return ours or names_rig(scene)
    if any(label.rating and label.bound and _is_planned(scene, label) for label in scene.labels):
        return False  # 'if we ever buy the bigger one it'd be 9,900 gvwr, thoughts?'
    if not asked.within("ratings", "weak_ratings"):
        return True
    return (
        speaks_trade(scene)
        or names_rig(scene)
        or placed
        or scene.has("rating_subject")
        or scene.has("subject", "tyre")
    )


def _is_planned(scene: Scene, label: Label) -> bool:
    return scene.talk[label.start] in (PLAN, REQUEST)


def asks_weight(scene: Scene, asked: Asked) -> bool:
    """Whether a load is asked for that the log has."""
    if "weight" not in asked.topics or (asked.other and not names_rig(scene)):
        return False
    if not asked.forms and not scene.labels and scene.figures:
        return False  # 'meet at the scale at 10?'
    if asked.stands("weighs_ahead") and not asked.says("asks_amount"):
        return False  # 'are we weighing tomorrow': people plan it
    asks_load = bool(asked.forms & ASKS_LOAD) or asked.says("of_weight")
    asks_load = asks_load or is_noun_phrase(scene)  # 'rear axle right now?'
    axles = scene.book.groups["surely_axle"] | scene.book.groups["axle_alone"]
    if asked.topics["weight"] <= axles and (asked.strangers or not asks_load):
        return False
    if asked.within("weight", "axle_or_word"):
        named = asked.stands("drives_named") and not asked.forms.isdisjoint(ASKS_LOAD)
        return named and asked.strangers == 0  # and not 'who drives'
    if asked.within("weight", "scale_word"):
        if asked.says("points_at_a_thing") and not asked.ours:
            return False  # 'what sort of scale is this'
        if asked.stands("near_by") or (asked.says("open_word") and not asked.ours):
            return False  # 'where is a scale near me': no map is known
    gross = names_rig(scene) or asked.stands("gross_named")
    if asked.within("weight", "gross_word") and not gross:
        return False  # 'is it gross'
    rig = (
        names_rig(scene)
        or names_axle(scene, asked, "axle", "axle_noun")
        or scene.has("whole", "gross")
        or asked.phrased("weight", "surely_weight")
    )
    named = asked.ours or names_rig(scene) or names_axle(scene, asked, "axle", "axle_noun")
    if asked.strangers > 2 or (asked.strangers and not (rig and named)):
        return False
    ours = asked.says("our_rig")
    if asked.says("heavy"):
        return rig or ours or asked.says("were")
    return rig or ours or asked.plain
