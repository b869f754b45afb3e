"""Questions of a few words, known whole; a word more, or another one, leaves them talk."""

from __future__ import annotations

import pytest

from bot.phrasebook import phrasebook
from domain.quantities import Quantity
from domain.reading import read
from domain.reading.short_questions import ASKS
from domain.verdicts import (
    AGE,
    BEST,
    FAULTS,
    HEAVIEST,
    LAST_FILL,
    OF_TRIP,
    READING,
    RULE,
    Facts,
    Question,
    Silent,
)
from tests.domain.reading.chats import Reader, chat, on_the_road
from tests.domain.reading.listed import lines

ASKED: dict[tuple[str, str | None], str] = {
    ("upkeep", FAULTS): """
        what needs fixing
        whats wrong with the rig right now
        whats broke
        anything broke on the flatdeck
        is anything wrong with the truck
        is the marker light fixed yet
        did anyone fix the left turn signal
        has the left rear brake light been replaced already
        are the brakes still acting up
        is the awning latch still broken
        has the breakaway switch been fixed
        is the wiring harness still loose
        did we ever fix the camper's lights
        are the camper lights fixed yet
        is that hub still leaking
        list whats broken on the flatdeck
        whats on the fix list
        open issues on juniper?
        what's still broken on the camper?
        any faults open?
        are there any open faults on the flatdeck
        list the faults pls
        what faults do we have
        which defects are still open
        whats wrong with the camper
        what's broken on the flatdeck
        anything wrong with juniper
        hey what needs fixing on the camper
        any problems with the camper?
        outstanding faults?
        can you tell me what's still not fixed
        show me the open snags
        how many faults are open
    """,
    ("ratings", None): """
        how much can we haul
        what pressures should we be at
        what psi should we run in the camper
        how heavy can i go on the tongue
        what pressure should the trailer tires be
        what do the front tires need to be at
        how much air do the tires take
        limits for the camper
        how much is the hitch good for
        tow limit?
        tongue limit?
        rear axle limit?
        hitch limit?
        steer axle limit?
        payload limit?
        max tow?
        what's our max tow
        max tow weight?
        whats the max tongue weight
        show me all the limits
        list our ratings for the camper
        what's missing?
        whats still missing
        what else is missing for the camper
        what are you missing
        which ratings haven't i given you
        what are all my limits
        show me our limits
        our limits?
        limits for the flatdeck?
        any ratings still missing
        what ratings have you got for the flatdeck
        what limits do you still need
        what ratings do we have so far
        anything missing for juniper?
        what can we tow
        how much can we legally pull
        the most we can tow
        how many gallons does our tank hold
    """,
    ("margin", None): """
        are we still inside on the rear
        are we inside on the drives
        are we ok to tow
        are we legal to tow this
        how far off gross are we
        how far under gvwr are we
        r we good on the rears
        are we ok on the trailer axles
        how close are we to gross
        are the axles ok
        is our payload fine with this load
        over?
        were we over at the last weigh in
        were we over last time
        were we legal when we weighed
        are we safe on weight
        what's our closest rating
        how much payload is spoken for
        can i legally tow this
        over or under?
        can the rear axle take it
        will the steers handle any more
        are the tires ok for this load
        is the hitch strong enough for this trailer
        are the tyres overloaded
        is the ball rated for this weight
        will we pass the weigh station
        can we get past the scales like this
        could we clear the scale house as loaded
        r we legal
        near the tow limit?
        how we doing on payload
        are we maxed
        what can we still haul
        how much more before the rears are maxed
        are we pushing it on the rear axle
        are we under
        we under?
        still under?
        are we still under gvwr
        is the camper under its rating
        are we ok on weight
        are we all legal
        are we over anything
        did we come in over the limit
        is the rear axle ok
        are the steers maxed out
        is anything over
        which axle is the closest to its limit
        where are we closest to the limit
        how many lbs till we max out
        how many more pounds before we're over
        how's the payload looking
        can we carry any more
        can you tell me if we're under
        do we have any payload left
        weights ok?
        under the limit?
    """,
    ("tongue", None): """
        how heavy is the nose?
        how light is the nose
        what's the nose at
        whats the tongue sitting at
        is the nose light
        is the tongue too heavy
        what does the nose weigh
        how much nose have we got
        do we have enough tongue
        how much tongue weight is on the camper
        what's the hitch carrying
        nose heavy?
        what's the ball loaded to
    """,
    ("weight", HEAVIEST): """
        what was our heaviest weighing this year
        show me the heaviest ticket so far
        the heaviest juniper has been
        how heavy have we been at most
        heaviest we've ever been?
        the most we've ever weighed
    """,
    ("weight", None): """
        last scale ticket?
        steer weight last time pls
        our last drive weight?
        camper weight last time
        what's the rig at right now
        what did we weigh last time
        what does the flatdeck weigh empty
        how much did she weigh with the camper on
        what's the front axle at
        how are the rears looking
        how much on the rears
        how many lbs are on the front axle
        how heavy is the back end
        last scale ticket pls
        pull up the last weigh ticket
        how's the weight split front to back
        what's the axle split
    """,
    ("upkeep", AGE): """
        camper tire date code
        how old are the tires
        how old are the camper tires
        are the trailer tyres getting too old
        are our tires past it
        tire age?
    """,
    ("upkeep", None): """
        what needs greasing
        anything due for a service on the camper
        which reminders do we have
        any reminders?
        list the reminders
        what still needs to be torqued
        does anything need repacking
    """,
    ("plan", None): """
        what would a 300 mile trip cost us
        how much is a 250 mile haul with the camper
        whats a 400 km tow cost in diesel
    """,
    ("tiedown", RULE): """
        tie down rules pls
        tiedown rules
        what's the rule on tie downs
        what are the laws for strapping down a load
        rules for securing a load
        how do the tie down rules work
        what does the law say about straps
        any rules about chaining down machinery
        load securement regs
        explain the tie down rules
        strap rules?
    """,
    ("tiedown", None): """
        what do i chain a 14,000 lb excavator with
        what straps for 4000 lb
        how should i strap 3,000 lb of hives
        how should i chain the dozer, it's 16,000 lb
        how do we strap down the splitter at 1,200 lb
        how many tiedowns do i need
        how many ratchet straps should we use
        how much will four 3/8 g70 chains hold
        how much does a 2 inch strap hold
        what's a 5/16 grade 70 chain good for
        what are these straps rated for
        wll of a 2 inch strap?
        working load limit for 3/8 chain
        what can two 4 inch straps hold
        how heavy a load can 4 chains hold down
    """,
    ("margin", "more"): """
        how much more can i put in the truck
        how much more can go in the tray
        how much weight can we still put on
        how many lbs can i still add to the camper
        how much more can the trailer take
        how much can the trailer still carry
        how much weight can we put in the bed
    """,
    ("whatif", None): """
        would 3 more hives at 90 lb each put us over
        would 12 bales at 60 lb each put the camper over gvwr
        room for another 300 lb
        have we got room for another 200 kg in the bed
        if we dump the fresh water, 46 gal, does that get us under
        would the water put us over
        will a full tank of water put us over
        if i move 200 lb back 4 feet
        if we put 300 lb on the tongue
        if we moved 150 lb of hives forward 3 ft
        if i take 200 lb off the camper
        if we put 40 lb on the tongue
        would it help to move the generator over the axles
        is it ok to add 300 lb behind the axle
        ok to put 500 lb in the bed?
        safe to add 300 lb behind the axle?
        is it fine to load 400 lb of feed in the bed
        is it legal to carry 400 lb in the bed
        is it a good idea to put 500 lb on the nose
        are we allowed to put 300 lb up front
        is there any harm in putting 500 lb behind the axle
        and with another 200 lb in the truck?
        will the rears be ok with 350 more
        is there a problem if we put 350 lb on the tongue
        would it be bad to slide 400 lb behind the axles
        will 800 lb of sugar be too much
        would 900 lb in the bed be too heavy
        would 6 more hives put us over
        could another 500 lb put us over
        would 400 kg overload us
        say we leave the 700 lb pallet at home
        what if we left the 600 lb splitter behind
        will adding 300 lbs of honey push us over the limit
        would 2 more pallets put us over
        are 1200 lb too much for the camper
    """,
    ("cost", OF_TRIP): """
        what did the night cost
        what did the night cost us in fuel
        how much did the drive home cost
        what'd that run cost
        what did this trip cost so far
        how much did the whole haul set us back
        what the night cost
        what did last night run us in fuel
        cost of the trip?
        what's the cost of this haul
        hey what did the move cost all in
    """,
    ("cost", LAST_FILL): """
        how many gallons last fill
        how much diesel at the last fill
        when did we fill up last
        where did we last get fuel
        when was the last fuel stop
        how much was the last fill
        what did the last tank cost
        what'd the last fill up run us
        what did we pay for diesel last time
        how much did i spend at the last fuel stop
        what was the last fill
        how much did we pay for the last tank
        what did that last fillup set me back
        show me the last fill
        how much did the latest fill come to
    """,
    ("cost", None): """
        average price we paid
        how much on diesel since the 1st
        how much did we spend on fuel this month
        what did yesterday cost
        what did the weekend cost us
        how much did friday cost in diesel
        what'd today cost
        average price per gallon
        what's our average diesel price per gallon
    """,
    ("range", None): """
        will we make Cobar 260 km
        do we need to fill up before the pass
        how far before we run out
        should we fuel up now or wait
        should i refuel here
        can we skip this fuel stop
        miles left?
        how long till we're out of diesel
        how many miles before juniper runs dry
        how long until we have to fill up
        how low are we on fuel
        how are we doing for diesel
        will we make 200 miles
        would she make another 90 miles
        can we do 150 miles on this tank
        whats left in the fuel tank
        when should i fuel up next
        when should we stop for fuel
        how far could ten gallons take us
        how far does 20 gallons go
        how far will twelve gal get us
        how many miles is 15 gallons good for
        how far can we go on 8 gallons of diesel
        how far will another 6 gallons get the camper
        how far on half a tank
        how far does a quarter tank get us
        how many miles will a full tank get me
        what's our range on 9 gallons
        do we need fuel
        do i need to stop for fuel soon
        should we get diesel before we leave
    """,
    ("distance", READING): """
        whats the odometer
        odo?
        what's the odometer at
        what does the odometer say
        whats the mileage on juniper
        how many miles are on the truck
        how many miles on juniper now
        what's juniper's odometer
        how many miles does the truck have on it
        read me the odo
    """,
    ("distance", OF_TRIP): """
        miles towed so far this trip
        how far have we come since we left
        how many miles since we hitched up
    """,
    ("distance", LAST_FILL): """
        how far since the last fill
        how many miles have we done since the last tank
        how far have we gone since we filled up
        miles since the fill
    """,
    ("distance", None): """
        total towed miles
        how far today
        how far did we go last week
        how far this week
        how far since monday
        miles so far
        how much did we drive in june
        how much have we driven this week
        how much towing have we covered
    """,
    ("economy", BEST): """
        which tank was worst
        what tank was the best
    """,
    ("economy", None): """
        compare last two tanks
        which trailer uses more fuel
        which trailer is thirstier
        how much def did we use this year
        how fast do we go through def
        how's the economy towing
        hows the economy looking on this trip
        is she using more fuel than usual
        are we burning a lot more diesel in the hills
        how is the fuel economy holding up
        whats juniper get empty
        what's she averaging with the camper on
        hows the mileage
        how's our mileage been with the camper
        what did we get on the last tank
        how'd the last tank do
        how much fuel does she burn
        how much diesel do we go through per 100 miles
        how much does juniper drink towing
        what do we average empty
        what's she getting with the flatdeck on
    """,
    ("week", None): """
        send the week
        how was the week
        how was this week
        how was our week
        how's our week looking
        how did our last week go
    """,
    ("trip", None): """
        how much diesel did we burn
        how many gallons did we use
        how was our last trip
        how did that last trip of ours work out
        how'd that trip do
        how did the last haul pan out
        how did our trip add up
        how did the last tow of ours go
        how was the trip fuel wise
        how long did the trip take
        how long was the last trip
        how far was our last haul
        show me the trip
        pull up the last haul
        how long have we been on the road
        when did we hitch up
        gimme the trip numbers
    """,
    ("period", None): """
        how was may
        how was june
        what about may
        may numbers
        last 30 days?
        monthly summary
        the past 2 weeks please
        the last three months totals
        year so far?
        how many trips in june
        how many hauls did we do this month
        year to date summary
        year to date totals
        give me the last 10 days
        show me the past 2 weeks
    """,
    ("help", None): """
        how do i add a trailer
        how do we set up a new truck
        how do i fix a wrong weight
        how do i delete the last fill
        how can i correct a bad odometer reading
    """,
}
"""By topic and form."""

TALK = """
        are we over on the guest list
        are we over on time
        are we still inside
        are the kids inside
        are we ok
        are we good to go
        are you ok to tow it
        last 3 fills were at the new place
        how was april fools
        how was the camper
        how far off are we
        how much more can fit in the fridge
        will we make 20 jars
        which tank is best for fish
        do i need gas before work
        are we good on beer
        what straps for the dress
        how should i tie my tie
        can you tow the boat saturday
        can we tow 2 boats
        what needs fixing at grandmas
        whats broke in the kitchen
        whats wrong with you
        how was your week
        how was the party this week
        room for 2 more at the table
        room 212, second floor
        compare last two seasons
        how far is today's game
        how much water did we drink
        last ticket to the game?
        how do you use this grill
        how much air is in the balloons
        are the kids ok
        would a full tank of gas put us over budget
        are we safe
        are we safe here
        were we over there
        were we over last night
        can i legally do this
        can we skip this
        can we skip this step
        should we fill up the pool now
        should we stop now
        how'd that go
        how did the date do
        whats on the list
        whats on the shopping list
        list whats for dinner
        monthly payment
        the monthly meeting
        monthly numbers are in
        how much is the ball
        can i tow this
        is the fridge fixed yet
        are the lights fixed yet
        is the kitchen light still out
        did you fix the brakes
        is the door still stuck
        did anyone fix the tv
        has the roof been fixed
        any reminders to send
        what needs washing
        what needs fixing for dinner
        how old are the kids
        are the bananas too old
        over
        over there?
        is it over?
        can the dog take it
        are the shoes ok for this
        will we pass the exam
        can we get past the dog
        heaviest rain ever
        speed limit?
        credit limit?
        limits?
        i know my limits
        what are the limits on bass
        what are the bag limits
        max?
        what's our max for the bench press
        if i move in with them
        if i put 300 on red
        if i put 20 lb on the shelf
        how much more can the dog take
        would it help to move the couch forward
        how many eggs can i still add to the bowl
        when did we eat last
        where did we last see her
        how far before we stop
        how long till we're out of here
        how long till we leave
        will we make it
        will we make 200 cookies
        can we do 3 miles
        how's the economy
        how's the economy doing
        how's the economy over there
        how is the economy in spain
        which trailer costs more
        which one is cheaper
        how much def jam did we use
        what's the heaviest thing ever
        is she using more sugar than usual
        how was the trip
        how did the last date work out
        how did it work out
        how long did the movie take
        last 30 days were hell
        the last 3 weeks
        year so far has been good
        is it ok to add two eggs
        ok to put 500 in the bank?
        is it a good idea to put on 20 lb
        are we allowed to put dogs up front
        with another 20 lb of potatoes?
        how we doing on milk
        are we pushing it on time
        what can we still eat
        show me all the dresses
        what's she getting for christmas
        when should i stop for milk
        how far is the moon
        how many trips to the dump did he make
        how much on shoes since the 1st
        how do i add a friend
        how should i tie the tie, it's 20 dollars
        how long was the last episode
are we under attack
are we under way
is she under
are we under the tree by the gate
are we over him yet
are we good for dinner
still inside?
what's missing from the salad
what are we missing tonight at the fair
am i missing something
something's missing
anything missing from your bag?
what's wrong with you
whats wrong with dad
what's wrong
any problems?
any problems with the wifi
whats broken now, the dishwasher?
his fault
not my fault
whose fault is it
any issues getting in?
list the reasons
how heavy is your nose
is my nose red
how's the nose
nose?
how much nose is too much
tongue in cheek
what did the night cost you
what did the dress cost
what did yesterday teach us
what did the night bring
how much was the last one
how much was the last ticket
how much was the last round
what did we pay the sitter
how far could ten dollars take us
how far could ten minutes take us
how far did ten people get
do we need milk
do we need gas money for the kids
should we get pizza before we leave
chain rule
the rules of chess
what's the rule on phones
house rules pls
rules for the game
what does the law say about dogs
how many straps does that bag have
how much will this hold
what's a good book
what can we pull off
what can we pull from the freezer
how big is the tank
how much did we drink
how was the last run
when did we leave
can we carry on
can we get more
will 2 lb of flour be too much
would 3 cookies at 2 lb each put us over
would another beer put us over the moon
show me the dress
show me the way
year to date is not my thing
how do i fix a wrong turn
how do i delete the last photo
which one is closest
where are we closest to the beach
how's the weight loss going
the last drive
last drive of the summer
how many pounds left to lose
which axle of evil
weights at 6?
is anything open
under the bridge?
over the hill?
"""


@pytest.mark.parametrize(
    ("text", "topic", "form"),
    [(text, *asked) for asked, block in ASKED.items() for text in lines(block)],
)
def test_what_is_asked_in_a_few_words_is_understood(
    reads: Reader, text: str, topic: str, form: str | None
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question), verdict
    assert (verdict.topic, verdict.form) == (topic, form)


@pytest.mark.parametrize("text", lines(TALK))
def test_talk_in_like_words_stays_talk(reads: Reader, text: str) -> None:
    assert reads(text, on_the_road()) == Silent()
    assert reads(text, chat()) == Silent()


def test_a_question_keeps_what_it_names(reads: Reader) -> None:
    far = reads("how far could ten gallons take us", on_the_road())
    half = reads("how far will half a tank get the camper", on_the_road())
    faults = reads("any faults on the camper?", on_the_road())
    friday = reads("what did friday cost", on_the_road())
    assert isinstance(far, Question)
    assert far.value == Quantity(10, "gal")
    assert isinstance(half, Question)
    assert half.value == Quantity(50, "%")
    assert half.trailer == "camper"
    assert isinstance(faults, Question)
    assert faults.trailer == "camper"
    assert isinstance(friday, Question)
    assert friday.since == friday.until is not None


@pytest.mark.parametrize(
    ("text", "pounds"),
    [
        ("chains are 5/16 g70, four of em. enough for 8200?", 8200),
        ("straps are 2 inch, six of them. plenty for 3000 lb?", 3000),
        ("3/8 grade 70, 4 chains. will they hold 9000 lb?", 9000),
        ("we have 4 straps rated 3333. ok for a 5000 lb tractor?", 5000),
        ("4 chains on her. good for 8,200 lb?", 8200),
        ("Using 2 inch straps, eight of them. Is that enough for a 6,500 lb skid steer?", 6500),
        ("two chains front and two back. ok for 7200?", 7200),
        ("four binders and chains on it. that enough for 11,000 lb?", 11_000),
        ("got 6 straps. would they do for 4,400 lb?", 4400),
        ("just threw four straps over. strong enough for 3,100 lb of hives?", 3100),
        ("will two straps do for the hives, 900 lb", 900),
        ("are three straps enough for the generator at 1,200 lb", 1200),
    ],
)
def test_ties_told_before_are_asked_about(reads: Reader, text: str, pounds: float) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question)
    assert (verdict.topic, verdict.value) == ("tiedown", Quantity(pounds, "lb"))


@pytest.mark.parametrize(
    "text",
    [
        "my straps broke. ok for 5?",
        "the bag has two straps. good for 20 lb of books?",
        "got two straps on it. enough for a day?",
        "his chains are old. will they hold 9000 lb?",
        "chains on the swing. good for 60 lb?",
        "the dress has straps. ok for 400?",
        "bought new chains. enough money left?",
        "two straps in the shed. want them?",
        "snow chains on. good for tomorrow?",
        "sold the chains for 500. ok?",
    ],
)
def test_straps_and_a_number_are_not_yet_a_question(reads: Reader, text: str) -> None:
    assert not isinstance(reads(text, on_the_road()), Question)


@pytest.mark.parametrize(
    "text",
    [
        "is it ok to move 300 lb ahead of the axle",
        "smart to move 300 lb ahead of the axle",
        "is it a good idea to put 500 lb on the nose",
        "are we allowed to put 300 lb up front",
        "is there any harm in putting 500 lb behind the axle",
        "is carrying 400 lb in the bed legal",
    ],
)
def test_what_is_asked_about_a_load_is_never_cargo(reads: Reader, text: str) -> None:
    assert not isinstance(reads(text, on_the_road()), Facts)


SPANISH: dict[tuple[str, str | None], str] = {
    ("upkeep", FAULTS): """
        ¿hay fallas pendientes?
        ¿ya arreglaron la luz del remolque?
        ¿siguen flojas las tuercas?
        ¿ya están arreglados los frenos?
    """,
    ("upkeep", None): """
        ¿hay recordatorios?
        ¿qué hay que engrasar?
        ¿qué está pendiente?
        ¿toca servicio?
    """,
    ("upkeep", AGE): "¿están viejas las llantas?",
    ("weight", HEAVIEST): """
        ¿cuánto fue lo más que hemos pesado?
        ¿cuál ha sido la pesada más alta?
    """,
    ("ratings", None): """
        ¿qué límites te faltan?
        ¿cuáles son nuestros límites?
        ¿cuánto aguanta la bola?
        ¿cuánto aguanta el eje trasero?
        ¿cuánto puede remolcar?
    """,
    ("margin", None): """
        ¿vamos por debajo del límite?
        ¿vamos bien?
        ¿nos pasamos?
        ¿vamos sobrados de peso?
        vamos justos de peso
        ¿estamos cerca del límite?
        ¿cuánto más podemos cargar?
        ¿cuánto puedo cargar en la caja sin pasarme?
        ¿cuánto nos sobra de carga útil?
        ¿aguantan las llantas esta carga?
        ¿aguanta el enganche lo que llevamos?
        ¿pasamos la báscula así?
        ¿nos pueden multar por el peso?
        ¿qué nos queda?
    """,
    ("weight", None): """
        ¿peso?
        ¿cuánto da el eje delantero?
        ¿cuándo pesamos por última vez?
        ¿cuánto pesa la camioneta sola?
        ¿cuánto pesa todo junto?
    """,
    ("tongue", None): """
        ¿cuánto pesa la punta?
        ¿cuánto pesa la lanza?
        ¿cuánto carga la lanza?
        ¿cuánto peso hay en la bola?
        ¿qué porcentaje va en la lanza?
        ¿hay suficiente peso en la punta?
    """,
    ("margin", "more"): "¿cuánto más aguanta el flatdeck?",
    ("whatif", None): """
        ¿aguanta 500 libras más?
        ¿aguanta otras 300 libras en la caja?
        si pongo 200 kg en la punta
    """,
    ("tiedown", RULE): "reglas de amarre por favor",
    ("tiedown", None): """
        ¿cuánto aguantan 4 cadenas de 3/8 grado 70?
        ¿cuántas correas necesito?
    """,
    ("cost", OF_TRIP): "¿cuánto costó la noche?",
    ("cost", LAST_FILL): """
        ¿cuánto fue la última carga?
        ¿dónde cargamos la última vez?
    """,
    ("cost", None): """
        ¿cuánto llevamos gastado?
        ¿cuánto se nos fue en diésel en junio?
        gasto de diésel este año
    """,
    ("range", None): """
        ¿hasta dónde llegamos con 10 galones?
        ¿hasta dónde llego con medio tanque?
        ¿cuánto podemos andar todavía?
        ¿cuánto falta para cargar?
        ¿cómo vamos de diésel?
        ¿cuándo hay que cargar?
        ¿alcanza para 150 millas más?
    """,
    ("plan", None): """
        ¿cuánto cuesta un viaje de 300 millas?
        ¿cuánto diésel gastamos en 400 millas con la camper?
    """,
    ("distance", READING): "¿cuánto marca el odómetro?",
    ("distance", None): """
        ¿cuánto anduvimos ayer?
        ¿cuánto hemos manejado desde el lunes?
    """,
    ("economy", None): """
        ¿qué remolque gasta más?
        ¿cuánta urea gastamos este mes?
        ¿cuánto gasta?
        ¿cuánto gasta con el flatdeck?
        ¿cuánto consume Juniper vacía?
        ¿cuánto gasta a los cien?
        ¿gasta más que antes?
        ¿cuánto diésel quemamos por milla?
    """,
    ("trip", None): """
        números del viaje
        ¿cuánto duró el último viaje?
        ¿cómo va el viaje hasta ahora?
    """,
    ("period", None): """
        ¿los últimos 30 días?
        los últimos 30 días por favor
    """,
    ("help", None): """
        ¿cómo funciona este bot?
        ¿qué te puedo preguntar?
    """,
}

SPANISH_TALK = """
    vamos bien
    ¿cómo vamos?
    ¿vamos bien de tiempo?
    ¿vamos al cine?
    ¿qué queda de pastel?
    ¿cuánto queda?
    ¿cuánto falta?
    ¿te pasaste?
    nos pasamos de la salida
    nos pasamos de copas
    ¿cuándo toca el partido?
    ¿cuándo te toca trabajar?
    ¿a quién le toca?
    ¿ya se arregló la luz?
    ¿ya arreglaron la tele?
    ¿sigue mal tu mamá?
    ¿cuánto gasta tu hermana?
    ¿cuánto gastamos en el súper?
    ¿cuánto aguanta tu celular?
    ¿cuánto más vas a tardar?
    ¿cuánto cabe?
    ¿cuánto más?
    ¿cómo va el viaje?
    ¿hay que echar sal?
    ¿alcanza para 2 pizzas?
    ¿llegamos a las 5?
    ¿pasamos por ti?
    si pongo la mesa
    ¿ayuda mover el sofá hacia adelante?
    peso pluma
    los últimos 3 días fueron feos
    ¿para qué sirve esto?
"""


@pytest.mark.parametrize(
    ("text", "asked"),
    [(text, asked) for asked, block in SPANISH.items() for text in lines(block)],
)
def test_it_can_be_asked_in_spanish(text: str, asked: tuple[str, str | None]) -> None:
    context = on_the_road(language="es")
    verdict = read(text, context, phrasebook("es"))
    assert isinstance(verdict, Question)
    assert (verdict.topic, verdict.form) == asked


@pytest.mark.parametrize("text", lines(SPANISH_TALK))
def test_talk_in_spanish_stays_talk(text: str) -> None:
    assert read(text, on_the_road(language="es"), phrasebook("es")) == Silent()


@pytest.mark.parametrize("text", ["over?", "over or under?"])
def test_a_chat_that_knows_no_rig_is_not_asked_of_one(reads: Reader, text: str) -> None:
    assert reads(text, chat()) == Silent()


@pytest.mark.parametrize("text", ["are we good", "we good?", "any lights out"])
def test_what_only_a_rig_makes_a_question_waits_for_one(reads: Reader, text: str) -> None:
    assert isinstance(reads(text, chat()), Silent)
    assert isinstance(reads(text, on_the_road()), Question)


@pytest.mark.parametrize("text", ["¿vamos bien?", "¿nos pasamos?", "¿cuánto gasta?"])
def test_nor_is_it_in_spanish(text: str) -> None:
    assert read(text, chat(language="es"), phrasebook("es")) == Silent()


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_table_of_patterns_asks_something(language: str) -> None:
    short = phrasebook(language).short
    assert short is not None
    asked = [each.name for each in short.patterns if not each.ways & short.marked]
    assert asked == [name for name in ASKS if name in asked]
    assert {each.name for each in short.patterns} == ASKS.keys()
