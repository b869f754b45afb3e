"""Numbers that are no business of a logbook.

This file decides when a neighbour owns a number: an exit, a room, a telephone, a date, a street,
a receipt's own numbers, eggs. Such a figure is left aside by everything that follows.
"""

from __future__ import annotations

from collections.abc import Sequence

from domain.context import Context
from domain.quantities import VOLUMES, Quantity
from domain.reading.ball_sizes import BALL_SIZE, of_ball_size
from domain.reading.claimed_changes import CHANGE, CHANGES, tells_change
from domain.reading.claimed_dates import (
    TELLS_HOUR,
    YEAR_DIGITS,
    dates_message,
    is_of_date,
    is_year,
    is_year_told,
    tells_hour,
)
from domain.reading.claimed_forms import (
    COUNTED,
    LEAST_ODOMETER,
    LEAST_SIZE,
    dot_joins,
    is_hyphened,
    is_size,
    names_file,
    owner_by_form,
)
from domain.reading.claimed_prices import PAID, price_of_another
from domain.reading.figures import (
    LEAST_LOAD,
    MASS,
    MONEY,
    PRICE,
    SHARE,
    VOLUME,
    Figure,
    follows_odometer,
    token_at,
)
from domain.reading.of_a_body import OF_A_BODY, number_of_a_body
from domain.reading.tokens import BREAK, CENTS, MARK, NUMBER, TENTHS, WORD, Token
from domain.reading.tyre_sizes import TYRE_SIZE, of_tyre_size

LONGEST_SHORT = 3
"""Letters: a full stop behind a longer word ends a sentence, and is no 'No.' or 'Tel.'."""

LONGEST_LINE = 60
"""Tokens: a word that claims its line reaches no farther, so that reading stays linear."""


def find_claim(
    figure: Figure,
    tokens: Sequence[Token],
    context: Context,
    last: Figure | None,
    said: frozenset[str],
    owning: frozenset[str],
) -> None:
    """Find out whether a neighbour owns the number, or an unknown noun is counted by it.

    `last` is the figure before; `said` are the classes of term, the groups and the marks that
    stand in the message, and `owning` those of them that can own a number.
    """
    if figure.claimed is not None:
        return
    start, end = figure.start, figure.end
    before = tokens[start - 1] if start else None
    after = tokens[end] if end < len(tokens) else None
    if not ("numbered_place" in owning and _read_at_place(figure, before, context)):
        owner = owner_by_form(figure, tokens, before, after, said)
        if owner is None and owning:
            owner = _owner(figure, tokens, before, after, last, said, owning)
        if owner is not None:
            figure.claimed = owner
            return
    if after is None:
        return
    noun = _foreign_noun(tokens, end, after)
    if noun is not None and (_is_plural(noun) or not follows_odometer(figure.value, context)):
        if noun == THEM:
            _count_what_was_priced(figure, tokens, last)
            return
        figure.foreign = noun
        if figure.dimension is None and _counts(figure, noun):
            figure.claimed = f"a count of {noun}"


def _read_at_place(figure: Figure, before: Token | None, context: Context) -> bool:
    """'dropped it at the job site 51,704': the odometer's next reading, and no site's number."""
    if before is None or "numbered_place" not in before.groups or figure.dimension is not None:
        return False
    return figure.value >= LEAST_ODOMETER and follows_odometer(figure.value, context)


def _owner(
    figure: Figure,
    tokens: Sequence[Token],
    before: Token | None,
    after: Token | None,
    last: Figure | None,
    said: frozenset[str],
    owning: frozenset[str],
) -> str | None:
    """What of a message's words owns the number; None where it may be the log's."""
    if before is not None and before.raw == "#" and figure.dimension is None:
        return "'#'"
    if not BESIDE.isdisjoint(owning):
        owner = _owner_beside(figure, tokens, before, after, last, owning)
        if owner is not None:
            return owner
    if "/" in owning and figure.start in (0, 2) and dates_message(tokens):
        owner = "a date"
    elif "-" in owning and figure.dimension is None and is_hyphened(tokens, figure.start):
        owner = "a number with letters"
    elif "claims_line" in owning and (
        _claimed_line(tokens, figure) or _on_plate(figure, before, tokens)
    ):
        owner = "a number of its line"
    elif (AROUND if figure.dimension is None else AROUND_MEASURED).isdisjoint(owning):
        return None
    else:
        owner = _owner_around(figure, tokens, last, before, after, said, owning)
    if owner is None or figure.dimension is not None or figure.value < LEAST_LOAD:
        return owner
    if before is not None and "claims_line" in before.groups:
        return owner
    return None if _heads_row(tokens, figure) else owner


def _owner_beside(
    figure: Figure,
    tokens: Sequence[Token],
    before: Token | None,
    after: Token | None,
    last: Figure | None,
    owning: frozenset[str],
) -> str | None:
    """What stands right beside the number, and owns it whatever else it is."""
    dimension = figure.dimension
    if "discount" in owning and dimension in (None, MONEY, PRICE) and _is_taken_off(tokens, figure):
        return DISCOUNT
    if after is not None and "discount_noun" in after.groups and dimension in (None, MONEY):
        return DISCOUNT  # 'after the dollar-thirty-two discount', 'used 1,000 points'
    if "off_by" in owning and before is not None and "off_by" in before.groups:
        return "how far off it was"  # 'off by a hundred', 'tires are off by 10 psi'
    tight = "torques" in owning and dimension is None and figure.value <= MOST_TORQUE
    if tight and _is_torque(tokens, figure.start):
        return "a torque"
    if not owning.isdisjoint(CHANGES) and tells_change(figure, tokens, last):
        return CHANGE
    sized = figure.value >= LEAST_SIZE and not owning.isdisjoint(SIGNS_OF_SIZE)
    if sized and is_size(tokens, figure):
        return "a number with letters"
    if "." in owning:
        if dot_joins(tokens, figure.start - 1) or dot_joins(tokens, figure.start + 1):
            return "a version"  # '5.4.15', '127.0.0.1'
        if after is not None and after.raw == "." and names_file(tokens, figure.end):
            return "a number with letters"
    if "/" in owning and of_tyre_size(tokens, figure.start):
        return TYRE_SIZE
    if "/" in owning and "rating_subject" in owning and of_ball_size(tokens, figure.start):
        return BALL_SIZE
    return None


def _owner_around(
    figure: Figure,
    tokens: Sequence[Token],
    last: Figure | None,
    before: Token | None,
    after: Token | None,
    said: frozenset[str],
    owning: frozenset[str],
) -> str | None:
    """What speaks of the number from further away, where no row of loads begins with it."""
    dimension = figure.dimension
    bare = dimension is None
    before_index = figure.start - 1
    while before is not None and (
        before.raw in ("#", ":", ".") or "before_claimed" in before.groups
    ):
        before_index -= 1
        before = token_at(tokens, before_index)
    if bare:
        owner = None
        if before is not None and not OWNING_BEHIND.isdisjoint(owning):
            free = last is None or last.end <= before_index
            owner = _owner_before(figure, tokens, before, free=free)
        if owner is None and not CLAIMING.isdisjoint(owning):
            owner = _owner_said(figure, tokens, before, after, said)
        if owner is not None:
            return owner
    if (
        after is not None
        and "each_one" in after.groups
        and dimension in (None, MONEY)
        and figure.value < LEAST_LOAD
    ):
        behind = token_at(tokens, figure.end + 1)
        if behind is not None and not behind.senses.keys().isdisjoint(COUNTED):
            return None
        if bare and figure.token.decimals == TENTHS and said >= OF_JUGS:
            return None  # 'two jugs of def, 2.5 each'
        return PRICE_OF_EACH
    if bare and not OF_A_BODY.isdisjoint(owning):
        owner = number_of_a_body(tokens, figure, after, said)
        if owner is not None:
            return owner
    if bare and after is not None and "aboard" in owning and _counts_people(figure, after, said):
        return "a count of people"
    if bare and after is not None and "new_thing" in owning and _counts_new(figure, tokens, after):
        return "a count of things"
    if dimension == MASS and _said_again(figure, before, last):
        return "said again in another unit"
    return None


def _owner_before(
    figure: Figure, tokens: Sequence[Token], before: Token, *, free: bool
) -> str | None:
    """What the word before a bare number owns; `free` where it stands behind the last figure."""
    if free and "claim" in before.senses and not _heads_amount(before, figure):
        summed = "tax" in before.groups and _is_in_sum(tokens, figure.start - 1)
        return None if summed else f"'{before.raw}'"
    if "week_word" in before.groups and figure.whole and figure.value <= LAST_WEEK:
        return "a week"  # 'tyres made week 23 of 2019'
    if "in" in before.groups and is_year(figure.value) and len(figure.token.raw) == YEAR_DIGITS:
        return "a year"
    if "transaction" in before.groups and figure.value >= LEAST_OF_MANY:
        return "a transaction"
    return None


LAST_WEEK = 53
"""Weeks of a year, as ISO 8601 numbers them and tyres are stamped with."""


def _owner_said(
    figure: Figure,
    tokens: Sequence[Token],
    before: Token | None,
    after: Token | None,
    said: frozenset[str],
) -> str | None:
    """What owns a bare number in a message that has words of such owners."""
    if "claim" in said and _is_what(tokens, figure):
        return "a number of its own"
    if "time" in said and is_of_date(tokens, figure, before, after):
        return "a date"
    if "before_year" in said and is_year_told(tokens, figure):
        return "a year"
    if not said.isdisjoint(STREETS) and _street_follows(tokens, figure.end):
        return "an address"
    if not TELLS_HOUR.isdisjoint(said) and tells_hour(tokens, figure, after):
        return "a time"
    if not said.isdisjoint(PAID):
        return price_of_another(figure, tokens, before, after, said)
    return None


def _is_torque(tokens: Sequence[Token], start: int) -> bool:
    """'replaced the tire, torqued to 110': how tight a nut is, and no pressure."""
    before = tokens[max(0, start - 3) : start]
    nuts = len(before) > 2 and "check_item" in before[1].senses  # 'torqued the lugs to 110'
    before = before if nuts else before[-2:]
    led = before if len(before) < 2 or "glue" in before[-1].senses else before[-1:]
    return any("torques" in token.groups for token in led)


MOST_TORQUE = 1_000
"""Foot-pounds or newton metres: 'lugs torqued 51,266' is an odometer's reading."""

DISCOUNT = "a discount"
PRICE_OF_EACH = "the price of each"

OF_JUGS = frozenset(("container", "product"))
"""What stands in a message where so much is in each of several jugs."""


def _is_taken_off(tokens: Sequence[Token], figure: Figure) -> bool:
    """'FUEL DISCOUNT 4C/L', 'LOYALTY -1.36', 'CHANGE $27.24' on a line of a receipt."""
    index, named = figure.start - 1, False
    while index >= 0 and tokens[index].kind is not BREAK:
        named = named or "discount" in tokens[index].groups
        index -= 1
    return named and index > 0


def _heads_amount(before: Token, figure: Figure) -> bool:
    """'UNIT 3.749', 'VOL 22.6', 'EXT 120.96': with a pump's decimals it is no number of a thing."""
    pumped = figure.token.decimals > 0 and figure.token.raw[0].isdigit()  # and no 'Vol.2'
    return pumped and not before.groups.isdisjoint(HEADS_AMOUNT)


HEADS_AMOUNT = frozenset(("price_word", "cost_word", "volume_word"))


def _is_what(tokens: Sequence[Token], figure: Figure) -> bool:
    """'48211 is the zip', '4471 is our gate code'."""
    behind = tokens[figure.end : figure.end + 3]
    return (
        len(behind) == 3
        and "was" in behind[0].groups
        and "article" in behind[1].groups
        and "claim" in behind[2].senses
    )


SIGNS_OF_SIZE = frozenset("xX×")


def _on_plate(figure: Figure, before: Token | None, tokens: Sequence[Token]) -> bool:
    """'LIC 4T 2291': a letter typed to a number of a licence plate is no unit."""
    unit = tokens[figure.end - 1]
    lettered = unit.kind is WORD and unit.glued and len(unit.raw) == 1 and unit.raw.isupper()
    named = before is not None and "claims_line" in before.groups
    return lettered and named and (figure.dimension == MASS or figure.value < LEAST_VOLUME)


LEAST_VOLUME = 10
"""'REG 17.2L' is regular petrol, 'REG 4L' a plate."""


def _counts_new(figure: Figure, tokens: Sequence[Token], after: Token) -> bool:
    """'put in 3 new windows', 'got 4 new tires': so many things, and no volume."""
    thing = token_at(tokens, figure.end + 1)
    several = figure.whole and 2 <= figure.value < MOST_NEW and "new_thing" in after.groups
    return several and thing is not None and thing.kind is WORD and thing.text.endswith("s")


MOST_NEW = 100
"""Things of one kind that somebody buys at once."""


def _counts_people(figure: Figure, after: Token, said: frozenset[str]) -> bool:
    """'three of us', '51,300 people'; 'put 5 in the truck' and '30 up' may be of fuel.

    So may '5 aboard', but not where all of it was weighed: '19.8k gross 3 aboard'.
    """
    aboard = after.senses.get("aboard") == "people" and (
        "aboard_or_place" not in after.groups
        or ("aboard_word" in after.groups and "whole" in said and 0 < figure.value <= MOST_ABOARD)
    )
    several = figure.value > 1 and "one_aboard" in after.groups  # 'two adult tickets'
    few = figure.value <= MOST_ABOARD or said.isdisjoint(OF_A_RIG)
    return aboard and figure.whole and few and not several


MOST_ABOARD = 12

OF_A_RIG = frozenset(("weigh_cue", "axle", "axle_noun", "whole", "vehicle", "name", "odometer"))
"""Classes of term beside which people may be told right behind a load or a reading."""


LEAST_OF_MANY = 5000
"""What a receipt's 'TRANS 88123' counts, and no gauge of a transmission shows."""


def _counts(figure: Figure, noun: str) -> bool:
    """'two mares', '31 jars': a small whole number before a plural."""
    return figure.whole and figure.value < 100 and _is_plural(noun)


def _is_plural(noun: str) -> bool:
    """'50,000 years', '100,000 likes'; 'across' and 'plus' count nothing."""
    return len(noun) > 3 and noun[-1] == "s" and noun[-2] not in "su"


def _said_again(figure: Figure, before: Token | None, last: Figure | None) -> bool:
    """'5171 KG (11400 LB)': the same mass in another unit, in brackets."""
    if (
        last is None
        or last.dimension != MASS
        or figure.dimension != MASS
        or last.unit == figure.unit
    ):
        return False
    if before is None or before.raw not in "(/[" or not last.unit or not figure.unit:
        return False
    one = Quantity(last.value, last.unit).amount("kg")
    other = Quantity(figure.value, figure.unit).amount("kg")
    return abs(one - other) <= 0.02 * one


def _claimed_line(tokens: Sequence[Token], figure: Figure) -> bool:
    if figure.dimension not in (None, SHARE, MONEY):
        return False
    index, farthest = figure.start - 1, max(0, figure.start - LONGEST_LINE)
    while index >= farthest and tokens[index].kind is not BREAK:
        if tokens[index].raw in ",;" or "axle" in tokens[index].senses:
            return False
        if tokens[index].raw == "." and index and _ends_sentence(tokens[index - 1]):
            return False  # 'back from the store. 5480 - 7840'
        groups = tokens[index].groups
        if "claims_line" in groups:
            if "tax" in groups and _is_in_sum(tokens, index):
                return False
            taxed = "tax" in groups and not _has_fee(tokens, index)
            return figure.dimension != MONEY or taxed
        if figure.token.decimals >= CENTS and tokens[index].senses.get("unit") in VOLUMES:
            return False  # 'first card 25.6 gal 100.00': what that much came to, or its price
        index -= 1
    return False


def _ends_sentence(word: Token) -> bool:
    """Whether a stop behind a word ends a sentence: 'lol.' and 'off.', and not 'No.' or 'Tel.'."""
    small = word.raw.islower() and "glue" in word.senses and "no_alone" not in word.groups
    return small or len(word.text) > LONGEST_SHORT


def _heads_row(tokens: Sequence[Token], figure: Figure) -> bool:
    """The first of three loads in a row belongs to nobody else."""
    index, found = figure.end, 1
    while index < len(tokens) and found < 3:
        if tokens[index].kind is MARK and tokens[index].raw in "/,-|":
            index += 1
            continue
        if tokens[index].kind is not NUMBER or tokens[index].value < LEAST_LOAD:
            return False
        found += 1
        index += 1
    return found == 3


def _is_in_sum(tokens: Sequence[Token], tax: int) -> bool:
    """'Total inc GST $176.71', 'total incl. vat': the sum is told, and not the tax in it."""
    at = tax - 2 if tokens[tax - 1].raw == "." else tax - 1
    return at > 0 and "with_tax" in tokens[at].groups and "money_total" in tokens[at - 1].groups


def _has_fee(tokens: Sequence[Token], index: int) -> bool:
    """'Fee (inc GST) $33.00' is the fee."""
    while index >= 0 and tokens[index].kind is not BREAK:
        if "fee" in tokens[index].senses or tokens[index].raw == "(":
            return True
        index -= 1
    return False


STREETS = frozenset(("street", "numbered_road", "street_or_axle"))
"""What must stand in a message for a number in it to be a house's or a road's."""

CLAIMING = frozenset(("claim", "time", "before_year", *TELLS_HOUR, *PAID, *STREETS))
"""What must stand in a message for a bare number in it to be owned from afar."""

BESIDE = (
    CHANGES
    | SIGNS_OF_SIZE
    | frozenset((".", "/", "rating_subject", "discount", "discount_noun", "off_by", "torques"))
)
"""What must stand in a message for a number in it to be owned by what stands beside it."""

OWNING_BEHIND = frozenset(("claim", "week_word", "in", "transaction"))
"""What must stand in a message for a word to own the bare number behind it."""

AROUND_MEASURED = frozenset(("(", "[", "/", "each_one"))
"""What must stand in a message for a number with a unit to be owned by what is further away."""

AROUND = AROUND_MEASURED | CLAIMING | OWNING_BEHIND | OF_A_BODY | {"aboard", "new_thing"}
"""What must stand in it for a bare one to be."""

OWNING = BESIDE | AROUND | {"#", "-", "claims_line", "numbered_place"}
"""What must stand in a message for a number in it to be owned by more than its own form."""


def _street_follows(tokens: Sequence[Token], index: int) -> bool:
    """'212 Mill Lane', '4410 County Rd 18'."""
    near = tokens[index : index + LONGEST_STREET]
    if near and "numbered_road" in near[0].groups:
        return len(near) > 1 and near[1].kind is NUMBER
    for step, token in enumerate(near):
        if token.kind is not WORD or "glue" in token.senses:
            return False
        if "street" in token.senses and step:
            return True
        if "street_or_axle" in token.groups and step and token.raw.istitle():
            return all(tokens[index + k].raw.istitle() for k in range(step))
        if not NO_STREET.isdisjoint(token.senses):
            return False
    return False


NO_STREET = frozenset(("unit", "axle", "vehicle", "whole"))
"""Classes of term that no street is called by."""

LONGEST_STREET = 4
"""Words of a street behind a house's number."""

NOTHING_COUNTED = frozenset(
    ("since", "by_bars", "without_bars", "clause_behind", "costs_one", "cost_word", "price_word")
)
"""Groups of words behind a figure that are no noun: '34 gal since Tuesday', '214 coming down'."""


THEM = "of them"
"""What a figure counts that points at what was named."""


def _count_what_was_priced(figure: Figure, tokens: Sequence[Token], price: Figure | None) -> None:
    """'3.749 a gallon, 26.8 of em': so many of what the price before it is for.

    Behind another noun they are of that: 'diesel 3.99 a gallon. hives, 31 of em'; and those who
    do something are people: '3.99 a gallon, 4 of them were there'.
    """
    behind = token_at(tokens, figure.end + 2)
    if behind is not None and "copula" in behind.senses.get("glue", "").split():
        return
    if price is None or price.dimension != PRICE or not price.unit or figure.dimension is not None:
        return
    between = tokens[price.end : figure.start]
    if any(token.ends_sentence or (token.kind is WORD and not token.groups) for token in between):
        return
    figure.unit, figure.dimension = price.unit.rpartition("/")[2], VOLUME


def _foreign_noun(tokens: Sequence[Token], index: int, after: Token) -> str | None:
    """The unknown noun behind a figure that it counts: '31 jars', '2 gal of milk'."""
    token: Token | None = after
    if "of" in after.groups:
        token = token_at(tokens, index + 1)
        if token is not None and "our" in token.groups:
            return None
        if token is not None and "them" in token.groups:
            return THEM
    if (
        token is not None
        and not token.senses
        and token.kind is WORD
        and token.groups.isdisjoint(NOTHING_COUNTED)
        and token.raw[0].islower()
        and token.text.isalpha()
        and len(token.text) > 1
        and not _begins_clause(tokens, index)
    ):
        return token.text
    return None


def _begins_clause(tokens: Sequence[Token], index: int) -> bool:
    """'31 gal costing 118', 'priced at 3.79': a verb, whose own figure stands behind it."""
    behind = token_at(tokens, index + 1)
    if behind is None or not tokens[index].text.endswith(("ing", "ed")):
        return False
    return behind.kind is NUMBER or "at_alone" in behind.groups
