"""What is a question to Drawbar, and what one person asks another.

Both have the same forms: the trade's own words and the chat's own names tell them apart. The
talk is how people text each other by phone, in our own wording.
"""

from __future__ import annotations

import pytest

from domain.context import Context
from domain.quantities import Quantity
from domain.verdicts import Question, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road

DOWN_UNDER = chat(
    units="metric",
    odometer=Quantity(51_200, "km"),
    tank=Quantity(136, "L"),
    fuel="diesel",
    hitched=True,
    truck="Juniper",
    trailers=("caravan",),
)

TALK = """
how do i close this window
how do i fix it
how do i fix the printer?
how do i change the wallpaper
how do i delete this app
how do i delete a photo
how do i edit my profile
how do i undo a merge
how do i get there in my car
how do i fill in this form
how do i put this
how do i log in
how do i log in to netflix?
how do i send money
how do i send a text from the laptop
how do i enter the raffle
how do i add you on insta
how do i tell her
how do i tell mum about the car
how do i make it lighter
how do i use this thing
how do i look
how do i get rid of ants
how do i book a ticket
how do i find out?
how do i change my number
how do we get to yours
how do you work with him
how do u want it
what can you really do
what can you not do
what can you do about it
what can you say
what can you tell me about him
what can you get for 20 bucks
what kind of things do you like
what sort of thing is it
what kind of thing do you want for dinner?
can you explain
can you explain that again?
could you explain why you left
can you help me find a bus
can you help me move on saturday
can you help me with my homework?
can you help me book a ticket
help me find a flight please
help me fill in this form
help me with the dishes
can i help u
can you help
wait, what commands?
run the commands i sent you
which commands did you run?
how am i supposed to remember all that
how am i supposed to get home
can you read this?
can you read me a story
economy is bad
how's the economy
is the economy getting better this year?
is it economy or business
book me an economy flight on friday
any economy seats left?
the economy was better last year
is the economy over?
are you thirsty?
im so thirsty
who's thirsty
is the dog thirsty?
i can't open this mpg file
how do i convert an mpg to avi?
is it an mpg or an avi
memory consumption is at 95%
what is the power consumption of this fridge
is alcohol consumption allowed
how's your water consumption
when i looked i saw it was rotated
when i got up my hand was packed in ice
when he called i was greased up
when we got there the place was packed
when i got home she had packed
i just got my oil changed and the light came on, any idea why?
is it due?
is the rent due?
when is your essay due
when's the baby due
when is the homework due?
anything due for school?
when's your next inspection
has the car passed its inspection?
where's the nearest atm
is there an atm nearby
is there an ATM near here?
what are u doing atm
how are you atm
how much do u have atm
are u busy atm
where r u atm
i'm broke atm, can you pay?
how much can i take from the atm
what drives you
thats what drives me mad
how many drives does your pc have
is the hard drive full?
what's on the drive
did you get the drives
is she a good driver?
are the drivers any good?
who drives?
who drives tomorrow
is the drive long
how was the drive?
hows the drive going
he's over 40
are you over 18?
is she over him yet?
is he over 6 ft
are they over there?
is it over
is it over yet?
is the game over
is school over?
are we over him
over 20 people came, can you believe it
my oven is over 20 years old and still works?
is it under 10 bucks
is it under 20?
does everything look good?
does everything look ok on your side
is everything ok on your end?
does it look right
did everything look correct
how much will it cost
how much will it cost me
how much will this set me back
how much did it cost?
how much does it cost to get in
how much is it
how much was it
how much r u paying
how much did u pay
how much do i owe you
how much money do u have
how much did you spend
how much did we spend on dinner
how much did i spend last night lol
what's the damage?
how much is a ticket
how far is a mile
is it a mile away?
what is the payload of the virus
what's the payload of that rocket?
can you send the payload as json
how are the ratings
how have the ratings been
what are the ratings for that show
did the show get good ratings?
what rating did you give it
can you give me a recap of the show
give me a summary of the book
can you give me a summary of this movie
did you watch the recap
this recap is awful
can you write a summary
is the report due?
this year
last year
next year
this year was hard
how was this year for you
are you coming this year?
how was ur week
how was your week?
how's ur week going
how was the week end
how was your trip
how's the trip going
how was the trip?
how did it go
how did the interview go
how was last week for you
wat time
what time
what time r we leaving
wats the plan
what's the plan
whats the plan for tonight
what's the plan for this week?
r we going over
are we going over tonight
are we ok
are we good
are we good for friday?
are we legal age
are we there yet
are we close
how close are we
how close are you
where r u now
where r u
where are we
where are we at
where are we at with this
where do we stand
where do we stand on the wedding
how far r u
how far are you
how far away are we
how far is it
how far to yours
how long til u get here
how long til we get there
how long till you're here
how long have we got
how many miles is it to yours
how many miles did u run
how many km did you run this week?
how far did you get
how far did we get in the book
when did u last check
when did you last eat
when did we last meet
when is it due
what's the limit
is there a limit
is there room
is there room for one more?
is there room for me in the car
any room left
have you got room for 2
do we have room for the dog
what's left
how much is left
how much time is left
how many are left
how heavy is it
how heavy is your bag
how much do u weigh
what do you weigh
how much does she weigh now
do i weigh too much
are you losing weight
what's her weight
what's my weight
is it heavy
are you heavy
what if it rains
what if we get lost
what if the car breaks down
what if he took the car
what if we took the car
what if we took the train
what if i move to london
what if we move the party to friday
what if i put it on ebay
what happens if we add him
can i add you
can i add my friend
can we take the car
can we take a break
can i take the car tonight
can i put this here
where do i put the keys
where should i put the car
can we carry on
how much can you drink
how many can we take
can you take more
do we need to fill up
do you need gas
do we have gas
do we have enough
have we got enough
have we enough chairs
is there enough room
is that enough
can we make it
can we make it to friday
will you make it tonight
will we make it on time
can you make it by 6
are we gonna make it
did you make it
are you running out of time
did we run out of milk
how much fuel do you have
who needs fuel
how long will it last
how long will it take to get to london
how far will you go
how far would you go for love
how far can you go
what's the range on your tesla
price range?
can you check the range
i need a plan
what's our plan
plan a party
plan for tomorrow
planning a trip to spain
we're planning a trip to rome
estimate how long you'll be
whats the budget
whats our budget
how much is the budget for the party
is the pin 1234
what's the pin
whats your pin
drop me a pin
send me a pin
pin the location
bite your tongue
what's on the tip of your tongue
is my tongue blue?
show me this
show me the photos
show me tomorrow
show me last week's photos
give me a week
give me the week off
give me a month
can you tell me the next train for tonight
tell me what happened last week
what did we do last weekend
what did we do last year
what did you do this week
what are you doing this week
how many weeks
how many weeks left
what week is it
what week are you off
which week
is it this week
next week?
a week?
*week
*mpg
numbers?
what are the numbers
figures
any figures?
are the straps ok
do you have straps
how many chains do you wear
is the load heavy at work
what's your max
what's your max bench
what's the max
plate?
whats your plate number
is your licence plate on
can you grab a plate
what are we allowed to bring
are we allowed in
what am i allowed to eat
are you allowed out
is smoking permitted
what's the capacity of the hall
is he rated
what's it rated on imdb
what's the speed limit
is it a limited edition
how many gallons of paint do we need
how many litres of milk do you want
how's the mileage on your new car
what mileage does your car get
is the mileage high
how was the run
how was your run
how's the haul
what a haul
how was the journey
was the journey ok
how's your journey going
how did your tow go
did the tow truck come
how's the service there
is the service good
is there a service at church
when's the service
what time is the service on sunday
was the service good?
when is maintenance coming to fix the sink
do you need oil
do we have oil
is there oil in the pan
which oil should i buy
is the filter clean
what filter did you use on that pic
can u see me
can u hear me
can u come
can i call u
can we meet
r u free
r u coming over
r u over it
u ok
u there
you home yet
where we meeting
when we meeting
what u doing
what u up to
how u been
how much more
how much more do you want
how much longer
how much further
how many more
how much room do you need
how close is it to the station
how close did we get
"""

ASKED = {
    "help": """
        help
        how do i log a fill
        how do i log my tire pressures
        how do i enter a weigh ticket
        how do I fix a weight i got wrong
        how do i correct the odometer
        how do i delete an entry
        how do i undo the last entry
        how do I change a reading
        what can i text you
        what can you do?
        so what can you do drawbar
        what can u do for me
        how does this work
        how does this thing work?
        what are the commands
        show me the commands
        what kind of things can i text you
        what sort of things can i log
        how do i tell you about a fill
        can you read a scale ticket
        what am i supposed to text you after a fill
        i never remember what im allowed to text you
        i forgot what i can text you
        remind me how i log a fill
        how do we log the trailer weights
        how to log a weighing
    """,
    "economy": """
        economy
        fuel economy
        whats our economy with the camper
        economy last month
        how thirsty is Juniper
        how thirsty are we
        whats our consumption
        consumption with the flatdeck on
        what's our fuel consumption lately
        mpg on the last tank
        what mpg did we get with the camper
        what are we averaging, mpg
        what are we averaging per gallon
        what are we averaging, litres per 100
        what are we averaging, l per 100
        how many l per 100 are we using
        been meaning to ask what kind of mileage we're getting
        what kinda mileage we getting
        i was wondering what mpg we get with the camper
    """,
    "upkeep": """
        when is the oil change due
        when did we last rotate the tires
        when were the bearings last packed
        are the bearings due
        when do we need to grease the bearings
        is anything due on the truck
        any maintenance due
        what's due
        when we due for an oil change
    """,
    "ratings": """
        what's the atm on the camper
        what's our atm
        whats the ATM again
        remind me what the caravan's ATM is
        camper atm?
        what's the payload
        what's our payload
        what ratings do you have
        refresh my memory on the flatdeck's gvwr
        jog my memory on the gcwr
        remind me of Juniper's gvwr
        what was the gcwr again
    """,
    "margin": """
        are we over our atm
        are we under atm with the camper
        is the drive axle over
        are the drives over
        are we over on the drives
        is everything under its rating
        are we over on everything
        how much more can i put in the camper before we're over
        how much more can she carry before we bust the gvwr
        how much can i load in the camper before i'm over
        how much more can the flatdeck take before it's over gvwr
        how close are we to gvwr
    """,
    "weight": """
        what are the drives at
        what were the drives
        what were the steers last time
        hows the drive axle
        pull up our last weigh
        pull up the last weighing
        can you bring up our last weights
        remind me what the trailer axles came in at
        what did the trailer axles come in at on the last ticket
        what was the gross on the last ticket
        what was the drive on the last ticket
        whats on the steers
    """,
    "cost": """
        what's it costing us per km
        what is it costing us a mile
        how much has fuel set us back
        how much have we spent on diesel
        what did the last tank cost
        what's the trip cost us so far
        what has the trip set us back
    """,
    "trip": """
        how did the last trip go
        how'd the last trip go?
        how did our last trip go
        how did the trip go, numbers please
        how'd this haul go
    """,
    "week": """
        how'd we go this week
        how did we go this week?
        how'd this week shake out
        how did this week shape up
        bot, how'd the week turn out
        how did our week pan out
    """,
    "period": """
        how did we go last month
        how did we do last year
        gimme a summary for june 1 thru june 15 2026
        give me a summary for june 1 through june 15, 2026
        could you total up everything from June 1 2026 through June 15 2026 for me
        total up june for me
        add up everything from june 1 to june 15
        summary of july
        summary for this month
        can you give me a summary of last week
        this month please
        recap of june
    """,
    "plan": """
        how much fuel do i need to go 280 miles from saltlick to drybone fork
        how many gallons from saltlick to drybone fork, 280 miles
        how much diesel will it take to get from elk creek to pine bluff, 210 miles
        what should i budget for fuel going from Two Elders to Drybone Fork
        what should we budget for diesel from Two Elders to Drybone Fork
        how much should i set aside for fuel to get to Elko, 200 miles
        how much fuel to get from elk fork to cedar bluff 310 mi
    """,
    "range": """
        how far will the tank take us
        before i answer, how far will the tank take us
        how far will this tank take me
        how far til I'm sucking fumes
        how far till we're on fumes
        how many miles till im running on fumes
        how far until the tank's dry
        how far can the tank get us
        how long till we run out of diesel
    """,
    "tongue": """
        is the nose weight ok on the caravan
        is the tongue weight ok
        how's our tongue weight
    """,
    "whatif": """
        reckon adding a 90 kg fridge 1.5 m ahead of the trailer axle would upset things?
        would adding a 200 lb toolbox in the bed put us over
        you think adding 300 lb to the tongue box would hurt?
        think moving the 120 lb generator to the bed helps the tongue?
        what if we took the hives off the nose
        what if we move the generator to the nose
        what if I put 200 lb in the bed
        what if we dump the fresh water
        do you reckon putting 150 lb on the roof is ok
    """,
}


@pytest.mark.parametrize(
    "context",
    [chat(), on_the_road(), DOWN_UNDER],
    ids=["a chat on its first day", "Juniper on the road", "Juniper where roads are in km"],
)
def test_what_people_ask_each_other_is_no_question_to_drawbar(
    context: Context, reads: Reader
) -> None:
    talk = TALK.strip().splitlines()
    taken = [text for text in talk if not isinstance(reads(text, context), Silent)]
    assert len(talk) > 300
    assert taken == []


METRIC = (" km", "L per", "l per", "litres", "caravan", "atm", "ATM")
"""Words by which a question is asked where roads are measured in km."""


@pytest.mark.parametrize("topic", ASKED)
def test_a_question_of_the_trade_is_answered(topic: str, reads: Reader) -> None:
    for text in ASKED[topic].strip().splitlines():
        said = text.strip()
        context = DOWN_UNDER if any(word in said for word in METRIC) else on_the_road()
        verdict = reads(said, context)
        assert isinstance(verdict, Question), said
        assert verdict.topic == topic, said


@pytest.mark.parametrize(
    ("text", "origin", "destination"),
    [
        (
            "how much diesel to get from elk fork to cedar bluff, 310 miles",
            "elk fork",
            "cedar bluff",
        ),
        ("how many gallons do we need from Marlby to Ashcombe, 90 mi", "Marlby", "Ashcombe"),
        ("plan trip elk fork to cedar bluff 310 mi", "elk fork", "cedar bluff"),
        (
            "what should we budget for fuel going from Elk Fork to Cedar Bluff",
            "Elk Fork",
            "Cedar Bluff",
        ),
    ],
)
def test_a_plan_names_where_it_starts_and_where_it_goes(
    text: str, origin: str, destination: str, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question)
    assert (verdict.topic, verdict.since, verdict.until) == ("plan", origin, destination)
