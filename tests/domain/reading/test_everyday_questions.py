"""Questions in everyday words: only a chat that knows a rig asks them of it."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from domain.quantities import Quantity
from domain.verdicts import CARGO, JUDGED, LAST_FILL, MORE, Question, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road
from tests.domain.reading.listed import lines

ASKED: dict[tuple[str, str | None], str] = {
    ("margin", None): """
        how we looking
        is the rear still inside
        is the rear over
        is our front end still legal
        how are we sitting on weight
        how much are we over by
        how far under are we
        by how much are we over
        did that last load put us over
        are we gonna be over
        how overloaded are we
        where do we stand on weight
        how many lbs over are we on the rear
        can juniper pull the camper
        how much room we got left
        which axle is worst
        which axle has the least left
        how close to max
        hows payload
        what payload do we have left
    """,
    ("weight", CARGO): """
        whats on the trailer
        whats on the trailer now
        what do we have riding on the trailer
    """,
    ("margin", MORE): """
        how many lbs can i add
        how much can I still load
        how much weight can i add
        what can i still put on the camper
        how much more hay can I pile on the flatbed before im over
        how many more bales can I throw on
    """,
    ("margin", JUDGED): """
        can i tow 8000 with this
        could juniper pull 9,500
        is 27,400 over
        is 11,200 lb legal
        am i allowed to tow 9000
        is the hitch good for 10k
        can the ball take 1200 on it
        27,400 over?
        is 26,900 gross too much
    """,
    ("tongue", JUDGED): """
        is 900 on the tongue too much
        is 1,150 too heavy for the tongue
    """,
    ("tongue", None): """
        what should the tongue be
        are we nose heavy
        hows the pin weight
    """,
    ("weight", None): """
        what was she on the steer
        what'd she come in at
        numbers from the last scale
        when was she last on the scale
        show last ticket
        last weight?
    """,
    ("ratings", None): """
        whats the rear axle good for
        what can the tongue carry
        psi for the trailer tires
        what should trailer tires be at
        whats heaviest i can pull
        what size tank do we have
        whats the max on the trailer
    """,
    ("cost", None): """
        where was diesel cheapest
        cheapest fill this month
        what was diesel in june
        dearest fill?
        most we ever paid for a gallon
        what was the best price on diesel this year
    """,
    ("economy", None): """
        what kinda mileage she getting
        any idea what we get towing
        why's the mileage so bad
        what did we get on the way home
        hows the economy towing vs not
        are we getting better mileage than last month
        is juniper drinking more
    """,
    ("range", None): """
        can we make 180 miles
        can i make Mossgate on this tank
        can we get home on a half tank
        how far is 60 gallons gonna get us
        will a quarter tank get me to town
        do i need to stop for fuel before Mossgate
        how far on what we got
        enough to get home?
        how many miles left in her
        will we make it to the next town
    """,
    ("cost", LAST_FILL): "where did we fill last",
    ("plan", None): "cost of a 250 mile tow",
    ("trip", None): "how long was that trip",
    ("period", None): """
        july?
        and june?
        what about june
        last month?
    """,
    ("whatif", None): """
        can i load 500 more
        would moving the load back help
        another 500 in the bed ok?
        could i fit another pallet 900 lb
        what if dad rides along hes 210
        move the quad back 2 ft?
        what happens if i move the honey forward
        does 40 gal of water push us over
    """,
    ("tiedown", None): """
        how many straps do i need
        how do i strap down a mower
        how should we tie down the generator
    """,
    ("upkeep", None): """
        oil change?
        miles since oil change
        how many miles on this oil
    """,
    ("help", None): """
        can i send a pic of the ticket
        can you read photos
        what do i say when i fuel up
    """,
}

TALK = """
how do i tie my hair down
how do i strap a baby in
where do we stand in line
what do i say when i call him
can i make dinner on this
what was the fuel to that fire
can juniper pull weeds
can we get home on half a day
days since school started
is the ball good for 10 more games
would moving the couch back help
what are we getting
air for the bike tires
are we over at moms tonight
how are we looking for sunday
how are we looking on eggs
hows everything
whats on the table
whats in the trailer park
is the back door still locked
when am i due back
when are we due at moms
what do you want from me
what pressure are you under
weights at the gym
how much gas is in the mower
is 5000 too much for the hives
is 1200 ok
was 4200 over asking
is 1500 over budget
what about sunday
what about august for the wedding
this summer?
november?
where was the cheapest motel
who has the cheapest tires
most we ever paid for a hive
did that last kid put you over the edge
which one is worst
any room left
how much room do we have in the cooler
how much more can we take of this rain
how much can we still get done
how long was that movie
what did we get for christmas
what did we get on the quiz
can we make 5 pies
can we do 10 miles on the bikes
can i send you a pic
do you take pictures
when was she last at the vet
hows the tongue
move the couch back 2 ft?
move the hives up front?
what if bob comes hes 80
are we under contract
are we legal to burn brush
got enough to get lunch?
will a full tank of propane last the weekend
do we have to stop before dinner
how many straps do i need to bring
"""


@pytest.mark.parametrize(
    ("text", "topic", "form"),
    [(text, *asked) for asked, block in ASKED.items() for text in lines(block)],
)
def test_everyday_words_ask_a_chat_with_a_rig(
    reads: Reader, text: str, topic: str, form: str | None
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question), verdict
    assert (verdict.topic, verdict.form) == (topic, form)


@pytest.mark.parametrize("text", lines(TALK))
def test_like_words_between_people_stay_talk(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()
    assert reads(text, chat()) == Silent()


@pytest.mark.parametrize(
    "text",
    ["how we looking", "is 27,400 over", "july?", "oil change?", "enough to get home?"],
)
def test_a_chat_without_a_rig_is_not_asked(reads: Reader, text: str) -> None:
    assert reads(text, chat()) == Silent()


def test_a_load_is_held_against_the_limits(reads: Reader) -> None:
    gross = reads("is 27,400 over", on_the_road())
    share = reads("is 12% on the tongue enough", on_the_road())
    assert isinstance(gross, Question)
    assert gross.value == Quantity(27_400, "lb")
    assert isinstance(share, Question)
    assert (share.topic, share.form, share.value) == ("tongue", None, Quantity(12, "%"))


def test_a_month_is_asked_for_while_it_is_nearer_behind_than_ahead(reads: Reader) -> None:
    july = reads("july?", on_the_road())
    assert isinstance(july, Question)
    assert (july.since, july.until) == (date(2026, 7, 1), date(2026, 7, 31))
    assert reads("december?", replace(on_the_road(), sent_at=datetime(2026, 9, 1, tzinfo=UTC))) == (
        Silent()
    )
