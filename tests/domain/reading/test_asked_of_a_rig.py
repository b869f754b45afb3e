"""Questions at the scale, at the pump and on the road, and what people ask each other like them."""

from __future__ import annotations

import pytest

from domain.records import verdict_to_record
from domain.verdicts import Question, Silent
from tests.domain.reading.chats import Reader, on_the_road

ASKED = """
are we good|margin
we good?|margin
how much lighter would we be without the water|whatif
how much heavier would juniper be with a full tank of water|whatif
was that weight better than last time|weight form=change
are the axle weights any better than last trip|weight form=change
how much heavier are we than last time|weight form=change
did moving the pallet help|weight form=change
so what was the mileage on the way up|economy
what kind of mpg did we get over the pass|economy
why is our mpg so low|economy
what's our average towing|economy
best mpg we've had with the camper|economy form=best trailer=camper
worst tank this year|economy form=best
what was the trans temp on the pass|upkeep field=transmission form=gauge
how hot did the trans get over the pass|upkeep field=transmission form=gauge
how's the coolant temp been|upkeep field=coolant form=gauge
any lights out|upkeep form=faults
any marker lights out on the camper?|upkeep form=faults trailer=camper
what's still broke on the camper|upkeep form=faults trailer=camper
is everything checked|upkeep item=walk-round
did we do the walk round|upkeep item=walk-round
i want to know the steer weight|weight field=steer
rear axle weight|weight field=drive
how much does it weigh compared to the sticker|margin
how do our weights stack up against the ratings|margin
what if we fill 60 gallons of fresh water|whatif value=60gal
if we carry 30 gal of water are we still legal|whatif value=30gal
whats 45 gallons of water weigh us|whatif value=45gal
would 500 more on the deck put us over|whatif value=500lb
if two more people get in are we still ok|whatif
can we throw another pallet on|whatif
which side is heavier|weight
which end is carrying more weight|weight
how close to 11,500 are we|weight value=11500lb
are we under 11,500|weight value=11500lb
do the trailer tires hold that much|margin
is the hitch gonna be ok with that|margin
what do i need to move to get the drives legal|margin
how much do we have to take off|margin
what's the drive axle got left|margin field=drive
how much payload am i using|margin rating=payload
how many more pounds can the flatdeck take|margin form=more trailer=flatdeck
is 5,640 on the steer axle over|margin field=steer value=5640lb form=judged
is 7,120 on the drives too much|margin field=drive value=7120lb form=judged
is a 1,240 lb tongue too much|tongue value=1240lb form=judged
could we pull a 9,000 lb trailer|margin value=9000lb rating=tow form=judged
is a 13,000 lb trailer too heavy to tow|margin value=13000lb rating=tow form=judged
how big a trailer can juniper pull|ratings rating=tow
what's the flatdeck good for|ratings trailer=flatdeck
what pressure are the trailer tires supposed to be|ratings rating=pressure
so whats the tongue then|tongue
how much was that fill|cost form=fill
what did i pay per gallon last time|cost form=fill
is 200 bucks enough diesel for 450 miles|plan distance=450mi
do we need fuel before Wells|range
when do i need to fill up again|range
how long have we been driving|trip
chain rules?|tiedown form=rule
be honest are we overloaded|margin
am i going to have a problem at the weigh station with this|margin
if i get pulled into the scale house what are they gonna say|margin
where are we tight|margin
rear axle rating vs what we have on it?|margin rating=gawr_rear
is the payload okay with all four of us in it|margin rating=payload
were we over in October|margin from=2025-10-01
have we gotten heavier since spring|weight form=change
truck only weight?|weight
whats the heaviest we ever were|weight form=heaviest
what did juniper get empty|economy truck=Juniper
average price per gallon this summer|cost
how empty is the tank|range
should i fuel up here or can i wait|range
got 3/8 of a tank, how far is that|range value=37.5%
can we get to Wells on a quarter tank, its 96 miles|range value=25% distance=96mi
how did the trip go numbers wise|trip
whats 300 miles of towing cost|plan distance=300mi
what if i take the generator off|whatif item=generator
what would dumping 40 gallons of grey do for the tongue|whatif value=40gal
suppose grandma and grandpa ride with us thats 350 lb|whatif value=350lb
is it better to put the 200 lb cooler in front of the axle or behind|whatif value=200lb
what if the sugar goes on the flatdeck|whatif item=sugar trailer=flatdeck
what if we load 12 hives at 80 lb each|whatif value=960lb
can we add ten 50 lb bags of sugar|whatif value=500lb
what if we put 6 bags of 50 lb feed in the bed|whatif value=300lb
how many straps for 12 hives at 80 lb each|tiedown value=960lb
what happens if we put 40 gal in the front water tank|whatif value=40gal
what's the law on chains for a backhoe|tiedown form=rule
are the hubs running hot|upkeep field=hub form=gauge
hub temps?|upkeep field=hub form=gauge
tire pressures last time?|upkeep field=tyre form=gauge
tires too old?|upkeep form=age
what numbers do you still need from me|ratings
what psi for the trailer|ratings rating=pressure
are we leagal|margin
how heavy is the flat deck|weight trailer=flatdeck
tell me if anythings over|margin
is there an axle i should worry about|margin
what percent of the payload is used|margin rating=payload
would the camper be legal at 9,500|margin trailer=camper value=9500lb form=judged
give me the weights again|weight
compare the last two tickets|weight form=change
how much weight is on the front vs the back|weight
front to back split|weight
left side weight?|weight
how heavy were we last summer|weight from=2025-06-01
how many miles did we tow last summer|distance from=2025-06-01
how many kilometer we did since monday|distance from=2026-07-06
what did diesel cost us this spring|cost from=2026-03-01
price per gallon last fill|cost form=fill
is there enough to get home, 85 miles|range distance=85mi
will 12 gallons get us 140 miles|range distance=140mi value=12gal
trip to Wells summary|trip
how much to go 410 miles|plan distance=410mi
mileage on the truck?|distance form=reading
what if we put 500 on the deck|whatif value=500lb
600 more in the bed?|whatif value=600lb
what happens with two more people|whatif
would it help to move stuff forward|whatif
8,000 lb excavator how many chains|tiedown value=8000lb
whats the psi on the left rear|upkeep field=tyre form=gauge
what psi did i leave the trailer at|upkeep field=tyre form=gauge
whats the tire pressure supposed to be|ratings rating=pressure
what ratings do i still owe you|ratings
tongue in range?|tongue
anything over?|margin
if the drive axle is 7,150 is that over|margin field=drive value=7150lb form=judged
what if the drive axle was 7,150|margin field=drive value=7150lb form=judged
suppose the gross came in at 27,400 would that be over|margin field=gross value=27400lb form=judged
26,900 ok for gross?|margin value=26900lb form=judged
how many gallons to Wells and back, 96 miles each way|plan distance=96mi
whats the most the flatdeck can gross|ratings trailer=flatdeck
odometer at the last fill|distance form=fill
how much more can the ball take|margin form=more
with 20 gallons left how far|range value=20gal
when do we run out|range
how does this tank compare to the last one|economy
mpg for the last three tanks|economy
fuel used this year|period from=2026-01-01
any repairs needed|upkeep form=faults
when do the tires expire|upkeep form=age
details of the last trip|trip
how do i set a reminder|help
are we under on the rear|margin field=drive
are we still inside on the rear|margin field=drive
are we over on the rear axle|margin field=drive
what are we over on|margin
are we ok to tow|margin
are we still ok on the front|margin field=steer
how are we for gcm|margin rating=gcwr
how's our gvm looking|margin rating=gvwr
what did we average|economy
what have we averaged since june|economy from=2026-06-01
what did we burn in june|period from=2026-06-01 to=2026-06-30
how much did we burn last week|period
can we take the quad too, 680 lb|whatif value=680lb item=quad
could we also bring the genny, it's 210 lb|whatif value=210lb item=genny
can we chuck the digger on the flatdeck, 900 kg|whatif value=900kg item=digger trailer=flatdeck
can we put the quad in the bed, 640 lb|whatif value=640lb item=quad position=bed
how's our tongue looking|tongue
hows the pin looking|tongue
will the quad fit, 680 lb|whatif value=680lb item=quad
how many straps for a 1.75 t mini digger|tiedown value=1.75t
whats still open on the walkround|upkeep item=walk-round
"""

TALK = """
are we ok on the beach
how's your tongue
how's the tongue after the dentist
how's the nose
are we ok at the back of the hall
are we good at the front of the line
how are we for milk
how's our atm card
what did we average at bowling
what did she average in math
what did we burn
what did we burn at the barbecue
can we take the dog too
can we take the turkey too, 18 lb
can we bring the telly as well
will the sofa fit
how many straps for a piano
whats still open on the high street
are we good for dinner
are we good for friday
are we good with each other
are we good on milk
are we ok
we good on snacks?
are we good parents
how much is the heifer
how much was that dress
how much lighter would the room be without the curtains
how much lighter is it without the dog
how much less would it be without the tax
was that movie better than last time
is this week better than last
was the soup better than last time
what was the mileage on the used car he's selling
what's the mileage on your rental
what was the temp at the game
what was the temp on the mountain
what's the trans am going for
any lights out in the kitchen
lights out kids
any lights still on upstairs
is everything ok
is everything checked in at the airport
is everything checked off your list
i want to know the score
i want to know the truth
how much does she weigh compared to her brother
how much does it cost compared to the other one
what if we fill 60 gallons of wine
what if we fill 60 balloons
what if we fill the pool
which side is heavier on the scale of justice
which side are you on
which side is the door on
which end is up
wats up
wats for dinner
are we legal guardians
how heavy is the baby
how hevy is your bag
how far since we last talked
how long since you filled up the bird feeder
how many miles since you got that car
can we pull an all nighter
can we pull 20 people in by friday
could we tow your car home
could he tow a 9,000 lb trailer
would 500 more do it for the deposit
would 500 more people fit
is 200 bucks enough for groceries
is 200 enough for 450 people
best tank top ever
worst tank i ever saw
best mileage on earth
how was your mileage plan
best movie this year
did moving the couch help
did moving the meeting help
did taking the pills help
is that ticket better than the last one
how does that ticket compare to the balcony
what does that put us at for the bill
where does that leave us
so where does that leave you
what did it leave on the floor
how big a trailer park is it
what are the kids good for
what pressure are you supposed to feel
what do we have to move to get in
what do we have to do to get home
how much do we have to take off for the sale
how much do you have to lose
did we make it in time
did we make it under the wire
did we come in under budget
are we over 11,500 followers
are we under 40
how close to 500 are we
how close are you to home
do we need fuel for the mower before saturday
when do you need to fill up the punch bowl
how long have we been driving each other crazy
how long have you been driving
how much was that tank of a dog
what did you pay a gallon
what was gas a gallon in 1970
everything checked out of the library
is it all done
is the load of laundry done
weight watchers tonight?
the drive number please
trailer figure painting
steer weights at the fair
how much did your steer weigh
front weights for the tractor
are they balanced on one side
is the load off your mind
is dad lighter on the left side
chain rules in calculus
what if 2 more people come, are we ok on chairs
if three more kids come are we still good for pizza
can i take another bale to grandma
can we fit two more in the car
can i put another log on
any markers out of ink
any bulbs left
which lights are out at the stadium
whats left on the list
what have we got left
whats left on the back burner
how is the back doing
how much has the back left
he's over 11,500
gross
is that gross
are we going to have a problem at the meeting
will there be trouble at the weigh in for the wrestlers
if i get pulled into the office what do i say
where are we meeting
where are we over there or here
are the kids okay with all four of us in it
have we gotten better since spring
have you gotten heavier
did she get heavier
whats the heaviest book we ever read
what did you get empty handed
average price per night this summer
how empty is the fridge
how empty is the house
should i eat here or can i wait
got 3/8 of a pie left
can we get there on a quarter tank of patience
how did the party go numbers wise
whats 300 miles of desert like
what if i take the dog out
what if we leave the kids at home
what if i drop the class
say mike comes at 7
suppose bob rides at 300
is it better to put the milk in front or behind
12 eggs at 80 cents each
what if we buy 12 hives at 80 bucks each
what's the law on fences for a backyard
whats the rule on phones for the kids
are the wings hot
are the tires on sale
is the oil hot
tires?
kids too old?
what numbers do you need for bingo
what else do you need from the store
what air for the bounce house
the deck is flat
a flat deck on the boat house
we have 3/4 tank top left
how much farther can he run
whats it costing per kid
how much is it per mile of fence
anything over there
anything over the weekend
if anything's over let me know
is there an axle in the barn
do any of the kids need attention
what percent of the class passed
how much of the cake is gone
give me the numbers
give me the weights off the bench
tell me the weights you lift
how much is on the front porch
front to back it's 12 feet
left side please
compare the last two movies
difference between the last two seasons
how's the tongue
tongue out of cheek
price of the last ticket
cost of the last supper
is there enough to go around
is there enough cake for 20
do we have enough chairs for 12 people
will 2 gallons of paint cover 400 feet
how much to go to the movies
how much to rent a car
how much to drive to grandmas
mileage on your car
trip to the store
trip to Hawaii numbers
summary of the trip to the moon
this month so far so good
the year so far has been rough
summer so far
what if we put 500 on red
if we put 500 down on the house
600 more to go
another 600 in the bank
what happens with two more kids
what about two more people for dinner
would it help to move forward
would it help to move the meeting forward
20 lb turkey how many hours
8 lb baby how many days
what's the air like in the mountains
what was the pressure on the left tackle
how much pressure did they put on you
what psi does the pressure cooker run at
what's the psi of a nerf ball
what numbers do i need to win
what can you tell me about him
what do you know about love
how hot is it last summer
what did we do last summer
how was last summer
are you coming this summer
last summer was hot
this winter we're going skiing
how far did you run last summer
how much did you spend last summer
are the kids done each way
what's the most the camper crew can eat
any repairs on the house needed
when do the coupons expire
details of the last party
how do i set a trap
how does this cake compare to the last one
with 20 bucks left how far can he go
when do we run over to grandma's
if the drive is 7 hours is that too long
suppose the movie was 27 dollars
"""


@pytest.mark.parametrize("line", ASKED.strip().splitlines())
def test_it_is_asked_of_the_rig(line: str, reads: Reader) -> None:
    text, _, asked = line.partition("|")
    topic, *named = asked.split()
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question), verdict
    assert verdict.topic == topic
    question = verdict_to_record(verdict)["question"]
    assert isinstance(question, dict)
    for field, _, value in (each.partition("=") for each in named):
        found = question[field]
        said = f"{found['value']:g}{found['unit']}" if isinstance(found, dict) else found
        assert said == value


@pytest.mark.parametrize("text", TALK.strip().splitlines())
def test_what_people_ask_each_other_stays_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)
