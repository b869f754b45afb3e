"""Questions as they are thumbed and dictated: clipped, indirect, by everyday words.

A block a kind of question, each with talk in like words that stays talk.
"""

from __future__ import annotations

import pytest

from bot.phrasebook import phrasebook
from domain.reading import read
from domain.records import verdict_to_record
from domain.verdicts import Silent
from tests.domain.reading.chats import Reader, on_the_road

ASKED = """
would you be a dear and sum up this trip for us|trip
could you do me a favor and total up june|period from=2026-06-01 to=2026-06-30
how much fuel should we expect to use going from Calder to Port Amity|plan from=Calder to=Port_Amity
how many gallons should we plan on for Elk Fork to Port Amity|plan from=Elk_Fork to=Port_Amity
what sorts of things are you able to do|help
dad wants 2 kno how close the rear axle is 2 its limit|margin field=drive
whats our gross again i forgot what you said|weight field=gross
how much have we got left on the drive axle, cant remember what you told me|margin field=drive
how much more can i load on the flatdeck|margin trailer=flatdeck form=more
how much more stuff can i put in the camper|margin trailer=camper form=more
how much more can we stack on the flatdeck|margin trailer=flatdeck form=more
how much more hay can the flatdeck take|margin trailer=flatdeck form=more
how many more pounds can i throw in the bed|margin form=more
how much more weight can go on the drive axle|margin field=drive form=more
how much more feed can i fit in the bed|margin position=bed form=more
how much can juniper still carry|margin truck=Juniper form=more
how much extra can i stick on the flatdeck|margin trailer=flatdeck form=more
roughly how much more can we get on the flatdeck|margin trailer=flatdeck form=more
what if i load 500 lb more on the flatdeck|whatif trailer=flatdeck
if we add 200 lb to the bed how much is left|whatif position=bed
list every limit you know of|ratings
what are the ratings you have for the camper|ratings trailer=camper
give me all the limits you got|ratings
tell me the ratings you've got on Juniper|ratings truck=Juniper
what is our toe rating|ratings rating=tow
whats the toe capacity|ratings rating=tow
avg mpg w the camper|economy trailer=camper
average cost per mile w the flatdeck|cost trailer=flatdeck
read me all the ratings you hold|ratings
which ratings do you have saved|ratings
send me the limits you have on the flatdeck please|ratings trailer=flatdeck
are the tires under their max|margin item=tires
is the hitch within its rating|margin item=hitch
is the ball anywhere near its limit|margin item=ball
are the trailer tires inside their load range|margin item=tires
is the coupler over its stamped rating|margin item=coupler
is the receiver still under the limit with all this weight|margin item=receiver
are our tires past their load rating|margin item=tires
are the rear tyres over their weight limit|margin item=tyres
what did the last weigh bridge ticket say|weight
what did we weigh at the scale last time|weight
ball park cost for a 900 mile trip towing|plan distance=900mi
rough idea of the fuel for 450 miles|plan distance=450mi
what's 300 miles gonna run us|plan distance=300mi
what would 250 miles set us back in diesel|plan distance=250mi
ballpark on gas for 1,200 miles|plan distance=1200mi
rough guess, fuel for 700 miles|plan distance=700mi
how many gallons you figure for 500 miles|plan distance=500mi
what'll 350 miles with the camper run me|plan distance=350mi
did we check the chains|upkeep item=chains form=done
were the brakes, lights and chains checked|upkeep item=brakes form=done
have we checked the tires yet|upkeep item=tires form=done
did anyone torque the lug nuts|upkeep item=lug_nuts form=done
did we ever grease the bearings this spring|upkeep item=bearings form=done
were the lugs retorqued|upkeep item=lugs form=done
have the bearings been repacked this year|upkeep item=bearings form=done
was the breakaway cable tested|upkeep item=breakaway_cable form=done
did i look at the coupler before we left|upkeep item=coupler form=done
when did we last torque the lug nuts|upkeep item=lug_nuts form=done
who checked the hitch pin|upkeep item=hitch_pin form=done
when was the brake controller last adjusted|upkeep item=brake_controller form=done
how long since the oil change|upkeep item=oil_change form=done
how many miles since we greased the bearings|upkeep item=bearings form=done
what haven't we checked yet|upkeep item=walk-round
what do i still need to check before i go|upkeep item=walk-round
are we under on the tires|margin item=tires
what should i check before towing|upkeep item=walk-round
did i miss anything on the walkaround|upkeep item=walk-round
anything left to check before we pull out|upkeep item=walk-round
did we check everything on the walk round|upkeep item=walk_round
when is the anode due|upkeep item=anode
when were the tires last rotated|upkeep item=tires
when am i due for grease|upkeep item=grease
what psi did we run last time|upkeep field=tyre form=gauge
max trans temp today|upkeep field=transmission form=gauge
hub temps ok?|upkeep field=hub form=gauge
did we log the last fill|cost form=fill
whats not been checked|upkeep item=walk-round
def per 1000 miles|economy product=def
scale weights from Pell|weight
are 4 straps at 3333 enough for 8000|tiedown value=8000lb
how many straps at 8,000 lb|tiedown value=8000lb
last two weighings|weight form=change
whats the tongue pct|tongue
avg price per gal this yr|cost
how hevy is the camper|weight trailer=camper
are we legall|margin
are we over any limmits|margin
whats the rear axil weigh|weight field=drive
whats the payloed rating|ratings rating=payload
are the tyrs over there limit|margin item=tyrs
how many pounds is the flatdeck all up|weight
are we under 20,000 lb|weight value=20000lb
was the drive axle more than 6,000 lb|weight field=drive value=6000lb
are we within 300 lb of the rear axle rating|margin rating=gawr_rear
is juniper less than 400 lb from her gvwr|margin
should we take some weight off to be legal|margin
what would we have to leave to get under gvwr|margin
is the tongue over what the hitch can take|margin
is the tongue between 10 and 15 percent|tongue
is the nose above 12 % on the camper|tongue
is our gas mileage getting worse|economy
has the mpg dropped since the new tires|economy
how many miles did she get off the last tank|economy
how's the fuel burn with the flatdeck on|economy
will we make it home on what we've got, 140 miles to go|range
what if two more adults ride along, are we over|whatif
if another kid comes along, are we still legal|whatif
say uncle ray rides with us, 240 lb|whatif value=240lb
if we drain the water tank how much do we save on the rear axle|whatif
how do i chain down a 4,300 lb dozer|tiedown value=4300lb
any repairs outstanding on the camper|upkeep
anything due next week|upkeep
what's the most we can put on the ball|ratings
what can the front axle carry|ratings rating=gawr_front
what do you have on file for the flatdeck|ratings
how do i phrase a fill up|help
how should i text a scale ticket|help
stupid question but are we over|margin
sorry to bother you but what does the camper weigh|weight
before we go, are we under on everything|margin
do we need to take weight off|margin
do i need to lose some weight to be legal|margin
is the tongue over what the towbar can take|margin
what was the pressure of the rear tyres|upkeep field=tyre item=tyres position=rear form=gauge
what's the tire pressure on the left front|upkeep field=tyre position=left_front form=gauge
what were the trailer tyres at this morning|upkeep field=tyre position=trailer form=gauge
how hot did the trans get on that climb|upkeep field=transmission form=gauge
what did the hubs read at the last stop|upkeep field=hub form=gauge
how hot were the trailer hubs|upkeep
what was the trans temp last time|upkeep
how much air is in the rear tires|upkeep
show me the last tire pressures|upkeep
what egt did we hit|upkeep field=exhaust form=gauge
how high did the egts go|upkeep
whats the oil pressure|upkeep
how warm are the left hubs running|upkeep
what cargo is in the bed|weight position=bed form=cargo
what have we got loaded on the flatdeck|weight
water on board?|weight item=water form=cargo
how much water are we carrying|weight item=water form=cargo
what's loaded|weight
do we have any water in the tanks|weight
list the cargo|weight
what did we load on the flatdeck|weight
what's on the flatdeck right now|weight trailer=flatdeck form=cargo
how much water is in the fresh tank|weight
how heavy is the flatdeck|weight
is 9,640 lb too much for the hitch|margin item=hitch value=9640lb form=judged
are 7,200 lb ok on the rear axle|margin field=drive value=7200lb form=judged
is 1,300 lb too heavy for the ball|margin item=ball value=1300lb form=judged
would 12,400 lb be over for the flatdeck|margin trailer=flatdeck value=12400lb form=judged
is 5,900 fine for the steer axle|margin field=steer value=5900lb
will 3,400 be too much for the bed|margin
is 6,950 lb still legal on the drives|margin
is 10000 pounds ok for the coupler|margin
is 14500 too much for the receiver|margin
are we good for weight|margin
how are we for weight|margin
hows juniper on payload|margin
we ok weight wise?|margin
am i ok to pull out like this, weight wise|margin
whats the worst axle|margin
ok how much payload did we eat up|margin
will we get a ticket at the weigh station|margin
do we pass at the scale house|margin
would a cop write us up at the scale|margin
are we gonna get fined for being overweight|margin
might dot stop us over the axle weights|margin
did the camper come in heavier than last trip|weight
are we any lighter than last time|weight form=change
is the flatdeck heavier than the last weigh in|weight trailer=flatdeck form=change
is she getting thirstier|economy
are we running worse on fuel lately|economy
what did the tank before last come out to|economy
what did that tank average|economy
how much was def this year|cost product=def
so far this year whats fuel set us back|cost
how much has diesel cost us in july|cost
did the marker light get fixed|upkeep form=faults
did the trailer brakes ever get sorted|upkeep
oil due yet?|upkeep item=oil
rego due?|upkeep
how many miles left on the oil|upkeep
how long till the brakes are due|upkeep
how far to the next oil change|upkeep
is a 3,333 lb strap good for a 900 lb quad|tiedown
whats the wll on 3/8 grade 70|tiedown
are 2 chains good for 5,000 lb|tiedown
what's the hitch good for|ratings
whats juniper good for towing|ratings
what is the coupler rated for|ratings
how many tows did we do this summer|period
if the smoker gets moved to the front how does the tongue change|whatif
if the generator is shifted back what happens to the axles|whatif
suppose the hives go to the very back, how does the nose weight change|whatif
if the cooler was put in the bed would we be over|whatif
what does 200 lb on the bumper do to the tongue|whatif value=200lb
what would another 150 lb on the rack do to the rear axle|whatif
how much does 300 lb in the nose do to the pin|whatif
if we leave the water at home what do we weigh|whatif
what if we fill the fresh tank, are we over|whatif
would i be over if i filled the water tank|whatif
are we still legal if we top up the water|whatif
what would draining the fresh tank do|whatif
how much would emptying the grey tank save us on the rear axle|whatif
could we take another 60 gallons of water|whatif value=60gal
can the camper carry 40 gal of water|whatif
where does 300 lb have to go for 12 percent|whatif value=300lb
where should the 400 lb pallet sit to get 13 % tongue|whatif
say i take 3 bags of feed out, 150 lb|whatif value=150lb
what if we leave the generator behind, 180 lb|whatif
if we shift 250 lb to the rear of the camper|whatif
if i move 200 lb toward the nose|whatif
we legal with the flatdeck hooked up|margin trailer=flatdeck
we still within gcwr|margin rating=gcwr
how many more miles till im out of diesel|range
what comes off the tongue if the generator sits over the axles|whatif item=generator field=tongue
if the cooler moved to over the axle what would the tongue lose|whatif item=cooler field=tongue
"""

METRIC = """
what have we got on the ball|tongue
fuel use towing?|economy
how many kilos more can we load in the van|margin form=more
what will 800 k's cost us with the van on|plan distance=800km
how much will 720 k's burn|plan distance=720km
how many tonne are we all up|weight
what's the caravan tipping the scales at|weight
what will 650 ks run us|plan distance=650km
how many kilos have we got up our sleeve on the rear axle|margin
"""

SPANISH = """
cuanto mas puedo cargar en la flatdeck|margin trailer=flatdeck form=more
¿cuánto más cabe en la caja?|margin form=more
muéstrame todos los límites que tienes|ratings
¿ya revisamos las cadenas?|upkeep item=cadenas form=done
¿cuándo engrasamos los baleros?|upkeep item=baleros form=done
que falta por revisar|upkeep item=walk-round
¿vamos pasados de algo?|margin
¿qué porcentaje lleva la lanza?|tongue
¿cuál es el peso máximo de la camper?|ratings trailer=camper
¿qué carga llevamos en la caja?|weight form=cargo
¿cuánta agua llevamos?|weight item=water form=cargo
¿cuál era la presión de las llantas traseras?|upkeep field=tyre position=rear form=gauge
¿son demasiadas 9640 libras para el enganche?|margin value=9640lb form=judged
7200 libras están bien en el eje trasero?|margin field=drive form=judged
"""

TALK = """
are we good on tires or do we need new ones
what should i check before buying a truck
what do we still have to check in the fridge
how much more can i take of this
how much more stuff can you fit in your garage
how much more can he load on his trailer
how much more can they put on my plate
how much more work can we take on this week
show me all the pictures you have
what ratings does your show have
did you see the ratings they got
tell me all the secrets you have
what was the rating you gave the movie
what limits do you have with your kids
are they within their limit
is he over his limit
are the kids near their limit
is your tire in the way
where is a scale near me?
is there a weighbridge around here
where's the nearest scale
any scales nearby
where can i find a scale
is the scale open on sundays
when does the scale close
know of any scales on the way
closest weighbridge?
rough guess of what dinner will run us
what will the party run us
600 miles is a long way
800 miles and the road will run us down
he said 600 miles will run him 200 bucks
ballpark figure for the kitchen?
what will 2 pizzas run us
did we check the mail
did you check the oven
have we checked the weather
did we lock the door
did we change the light in the hall
has anyone checked on grandma
who checked the kids in
did we do the dishes
did anyone check the battery in the clock
how long since you changed the light
did we check everything on the list
what haven't we tried yet
the bags are hevy
is it legall to park here
my tonge hurts
weel see you later
how many pounds is the turkey
are we over 20 people
was the cake more than 5 lb
are we within 300 feet of the beach
do i need to lose weight
should we take some food
has the price gone down
is our wifi getting worse
how many miles did you get on your run
what if two more people come to dinner
if grandma comes along are you ok
say hi to uncle ray, 240 main street
how do i strap on the helmet
any jobs going at the mill
what can the kids take
what's the most we can spend
what do you have on for the party
how should i text her
stupid question but is it over
sorry to bother you but whats the time
do we need to lose weight before summer
rego due in 3 weeks
inspection is due in 2 weeks
rent due in 3 days
remind me to call mom in 2 days
service in 20 minutes
oil change tomorrow at 9
how hot did it get today
can you be a pal and move the trailer
how much should we expect to pay for a hotel in Port Amity
what sort of things can you do in Moab with kids
mom wants 2 kno if ur coming
need 2 straps
what was the pressure like at work
how's the air up there
what's the temp outside
how hot is the oven
what's in the bed
what's on tv
how much water should i drink
do we have any water in the fridge
what did we load the dishwasher with
how hot were the wings
water on board the ship was rough
what's loaded in your gun
what was her blood pressure
how much air is in the balloon
is 20 dollars too much for the hat
is 9 ok for dinner
are 3 pounds of butter enough
is 200 too much for the rear seats
are you ok for weight
is she getting thirsty
is he getting worse
will he get a ticket
will we get a ticket at the museum
are we going to get done by noon
if the party gets moved to the back how does the schedule change
if the kids get put in the back are you ok
what does 20 lb of flour do to a person
if we leave the water running what happens
say we put on 100 lbs by christmas
could we take another 2 gallons of water to grandma
what would draining the tank do to the fish
where do 3 people have to sit
did the dog get fixed
did dinner get sorted
homework due?
how many days left on the rental
how long till the baby is due
what's he good for
rent due yet?
did she come in heavier than last week
remember when we ran out of gas 3 miles from the lake?
we within spitting distance now
"""


def _lines(block: str) -> list[str]:
    return block.strip().splitlines()


def _asks(record: dict[str, object], asked: str) -> None:
    """Whether a reading is the question of that topic, with the fields named."""
    assert record["verdict"] == "question", record
    question = record["question"]
    assert isinstance(question, dict)
    topic, *named = asked.split()
    assert question["topic"] == topic
    for each in named:
        field, _, value = each.partition("=")
        found = question[field]
        if isinstance(found, dict):
            found = f"{found['value']:g}{found['unit']}"
        assert found.replace(" ", "_") == value


@pytest.mark.parametrize("line", _lines(ASKED))
def test_it_is_read_in_whatever_words(line: str, reads: Reader) -> None:
    text, _, asked = line.partition("|")
    _asks(verdict_to_record(reads(text, on_the_road())), asked)


@pytest.mark.parametrize("line", _lines(METRIC))
def test_it_is_read_where_roads_are_measured_in_kilometres(line: str, reads: Reader) -> None:
    text, _, asked = line.partition("|")
    _asks(verdict_to_record(reads(text, on_the_road(units="metric"))), asked)


@pytest.mark.parametrize("line", _lines(SPANISH))
def test_it_is_read_in_spanish(line: str) -> None:
    text, _, asked = line.partition("|")
    verdict = read(text, on_the_road(language="es"), phrasebook("es"))
    _asks(verdict_to_record(verdict), asked)


@pytest.mark.parametrize("text", _lines(TALK))
def test_talk_in_like_words_stays_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)
