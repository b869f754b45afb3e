"""Questions of loads and limits, in the forms in which people put them.

An order, a noun with what belongs to it, a request, a clause that asks, with a mark or without:
where every word is understood and one is the trade's own, the form decides nothing.
"""

from __future__ import annotations

import pytest

from domain.records import verdict_to_record
from domain.verdicts import Question, Silent
from tests.domain.reading.chats import Reader, chat, on_the_road

ASKED = """
front axle weight please|weight field=steer
drive axle weight pls|weight field=drive
trailer axle weight|weight field=trailer
gross weight right now|weight field=gross
current gross please|weight field=gross
our gross weight as of the last ticket|weight field=gross
weights off the last ticket|weight
last axle weights please|weight
i need the steer axle weight|weight field=steer
need our gross real quick|weight field=gross
tell me what the rear axle is carrying|weight field=drive
how much is the rear axle carrying|weight field=drive
how much weight is on the drives|weight field=drive
how much weight is sittin on the steers|weight field=steer
whats sitting on the trailer axles|weight field=trailer
so whats the camper weighin these days|weight trailer=camper
how heavy is the flatdeck loaded up like this|weight trailer=flatdeck
how heavy we runnin|weight
how much does Juniper weigh by herself|weight truck=Juniper
whats juniper weigh empty|weight truck=Juniper
what does the flatdeck way|weight trailer=flatdeck
how much do we way|weight
hey what did the front axle way last time|weight field=steer
can you tell me the last gross weight|weight field=gross
could you read back the axle weights for me|weight
would you mind giving me the axle weights|weight
just give me the gross|weight field=gross
come on drawbar whats our gross|weight field=gross
gimme the trailer axle number|weight field=trailer
show us the last weighing|weight
pull up the axle weights from last time please|weight
i wanna know what the camper weighs|weight trailer=camper
i'd like to see our axle weights|weight
do you remember what we weighed last time|weight
can you remember what the drive axle was last time|weight field=drive
what was our last weight with the camper on|weight trailer=camper
what'd the front axle come out at|weight field=steer
how did the axle weights come out|weight
how'd the weights come out last time|weight
what have we got on the drive axle|weight field=drive
what has the steer axle got on it|weight field=steer
what are we at on the drive axle|weight field=drive
mind telling me the rear axle weight|weight field=drive
axle weights with the flatdeck|weight trailer=flatdeck
the flatdeck's weight please|weight trailer=flatdeck
camper weight|weight trailer=camper
weight of the camper|weight trailer=camper
did the steer axle get lighter|weight field=steer
how do the axle weights compare to the last time|weight
difference between the last two weighings|weight
what's different from the last weighing|weight
how much heavier are we than last time|weight
what does the rig weigh altogether|weight
total weight of truck and trailer please|weight
gross combined right now?|weight field=gross
most recent weighing please|weight
latest scale numbers|weight
any room left on the drive axle|margin field=drive
room left on the rear axle|margin field=drive
payload left on Juniper|margin rating=payload truck=Juniper
how much payload is left|margin rating=payload
remaining payload please|margin rating=payload
capacity left on the flatdeck|margin trailer=flatdeck
margins with the camper on please|margin trailer=camper
margin on the drive axle|margin field=drive
headroom on the trailer axles|margin field=trailer
how close to the limit is the drive axle|margin field=drive
how close are we to maxing out the rear axle|margin field=drive
are we anywhere near our gcwr|margin rating=gcwr
is the flatdeck overweight|margin trailer=flatdeck
is the camper too heavy for Juniper|margin trailer=camper truck=Juniper
are we overweight or are we ok|margin
are we still under gvwr|margin rating=gvwr
are we inside all our ratings|margin
is any axle over|margin
which axle is closest to its limit|margin
what's our tightest limit|margin
where are we tightest|margin
tell me if we're over on anything|margin
can you check if we are over gcwr|margin rating=gcwr
let me know if the drive axle is over|margin field=drive
check whether we're overloaded|margin
would you say we're overloaded|margin
would you say the rear axle is overloaded|margin field=drive
do you reckon we're over on the drives|margin field=drive
how many pounds are left on the steer axle|margin field=steer
how many pounds under gcwr are we|margin rating=gcwr
how many pounds before we hit our gvwr|margin rating=gvwr
is there room on the flatdeck for more weight|margin trailer=flatdeck
how much spare payload have we got|margin rating=payload
am i good on payload|margin rating=payload
we good on the rear axle?|margin field=drive
we legal?|margin
over on the drive axle?|margin field=drive
is the truck axle gonna be over its rating|margin
so are we legal or what|margin
do we have any wiggle room on the rear axle|margin field=drive
whats our margin on gvwr|margin rating=gvwr
whats the margin at on the trailer axles|margin field=trailer
how far off the gcwr are we|margin rating=gcwr
are the trailer axles maxed|margin field=trailer
did we go over on anything last time|margin
were we over on the last ticket|margin
does the flatdeck have anything left|margin trailer=flatdeck
tongue weight percentage|tongue
pin percent please|tongue
percent tongue on the camper|tongue trailer=camper
tongue weight on the flatdeck please|tongue trailer=flatdeck
nose weight now|tongue
is the tongue too light|tongue
is the tongue too heavy with the camper on|margin trailer=camper
do you think we have enough tongue weight|tongue
have we got enough weight on the ball|tongue
have we enough nose weight|tongue
how much tongue have we got|tongue
how much of the trailer is on the tongue|tongue
how much is on the ball|tongue
how much is the camper putting on the hitch|tongue trailer=camper
what share of the camper is on the ball|tongue trailer=camper
what percentage of trailer weight is tongue weight|tongue
how many percent is the tongue|tongue
is 12 percent what our tongue is at|tongue
whats the tung weight|tongue
tell me the tongue weight would you|tongue
can you work out the tongue weight|tongue
i'm curious about the tongue weight|tongue
is our hitch weight in the right range|tongue
how's the tongue on the flatdeck|tongue trailer=flatdeck
hows the nose weight lookin|tongue
what'd the tongue come out to|tongue
whats on the tongue|tongue
did we have enough on the tongue last time|tongue
gvwr of the flatdeck please|ratings rating=gvwr trailer=flatdeck
Juniper's payload rating|ratings rating=payload truck=Juniper
Juniper tow rating|ratings rating=tow truck=Juniper
rear gawr please|ratings rating=gawr_rear
what is the maximum trailer weight that this truck may pull|ratings rating=tow
what is the gawr on the back axle again|ratings rating=gawr_rear
gawr of the front axle please|ratings rating=gawr_front
front axle rating|ratings rating=gawr_front
camper gvwr|ratings rating=gvwr trailer=camper
how much is the hitch rated for|ratings
how much can the hitch hold|ratings
whats the limit on the rear axle|ratings rating=gawr_rear
what's the max for the drive axle|ratings rating=gawr_rear
what ratings have we given you|ratings
which ratings do you still need from me|ratings
show me the ratings for the camper|ratings trailer=camper
can you list the ratings|ratings
could you remind me of our gcwr|ratings rating=gcwr
do you have our gvwr|ratings rating=gvwr
did i ever tell you our gcwr|ratings rating=gcwr
how big a trailer can juniper pull|ratings truck=Juniper
how heavy a trailer can Juniper tow|ratings truck=Juniper
whats the tongue limit on our hitch|ratings rating=tongue
what tires are we rated for|ratings
any ratings missing|ratings
what if i added 300 lb to the bed|whatif value=300lb position=bed
whatif 300 lb in the bed|whatif value=300lb position=bed
what if another 400 lb|whatif value=400lb
would another 250 lb in the bed be too much|whatif value=250lb position=bed
would 500 more pounds on the flatdeck put us over|whatif value=500lb trailer=flatdeck
will an extra 300 lb on the tongue be ok|whatif value=300lb position=tongue
if we loaded a 600 lb tote on the flatdeck would we be over\
|whatif value=600lb item=tote trailer=flatdeck
if i take a 200 lb cooler along are we still under|whatif value=200lb item=cooler
would we still be legal with another 700 lb on|whatif value=700lb
would we go over with 350 lb of feed in the bed|whatif value=350lb item=feed position=bed
can we take another five hundred pounds|whatif value=500lb
can i throw a 150 lb compressor in the bed|whatif value=150lb item=compressor position=bed
can the flatdeck take another 800 lb|whatif value=800lb trailer=flatdeck
could Juniper handle another 300 lb in the bed|whatif value=300lb position=bed truck=Juniper
what would a 400 lb quad in the bed do to the rear axle\
|whatif value=400lb item=quad position=bed field=drive
what would happen to the tongue if we moved the generator behind the axle\
|whatif item=generator position=behind_axle field=tongue
what would happen to the rear axle if we put 300 lb in the bed\
|whatif value=300lb position=bed field=drive
what happens to our tongue weight when we slide the hives back 2 ft\
|whatif item=hives distance=2ft field=tongue
what happens if the water tank is moved 4 ft ahead of the axle\
|whatif item=water_tank distance=4ft position=ahead_of_axle
suppose i bolt a 90 lb toolbox on the tongue, what then\
|whatif value=90lb item=toolbox position=tongue
what happens if we throw on a safe that's nine hundred pounds|whatif value=900lb item=safe
what if we toss in a crate thats 900 lb|whatif value=900lb item=crate
what if we load a piano weighing 640 lb|whatif value=640lb item=piano
thinking of putting a 250 lb generator in the bed, would that put us over\
|whatif value=250lb item=generator position=bed
we're adding 600 lb of sugar over the axles, will we be over\
|whatif value=600lb item=sugar position=over_axles
how would 200 lb in the nose change the tongue weight|whatif value=200lb position=nose field=tongue
how much would the tongue change if i put 100 lb in the nose\
|whatif value=100lb position=nose field=tongue
how would moving the extractor to the nose affect the tongue\
|whatif item=extractor position=nose field=tongue
with another 200 lb in the bed would the rear axle be over\
|whatif value=200lb position=bed field=drive
are we still ok if i put 450 lb in the bed|whatif value=450lb position=bed
will we be over if we load ten more hives at 80 lb each|whatif value=800lb
ok if i add 300 lb to the flatdeck|whatif value=300lb trailer=flatdeck
what if we took 400 lb off the tongue|whatif value=400lb position=tongue
what if i drained the water tank|whatif item=water_tank
how do i tie down the extractor|tiedown item=extractor
how should we strap down the hives|tiedown item=hives
how many straps for the 700 lb extractor|tiedown item=extractor value=700lb
what do i need to strap down a 1200 lb tank|tiedown item=tank value=1200lb
are two straps enough for a 900 lb extractor|tiedown value=900lb item=extractor
2 straps wll 800 lb, a 1,100 lb boat, enough?|tiedown value=1100lb item=boat
are 2 straps of 800 lb enough for a 1,100 lb boat|tiedown value=1100lb item=boat
will 2 straps, 800 lb lashing capacity, hold a 1,100 lb boat|tiedown value=1100lb item=boat
are 3 chains, 4,700 lb wll, enough for a 9,200 lb tractor|tiedown value=9200lb item=tractor
will 3 straps hold 2000 lb of honey|tiedown value=2000lb item=honey
how many chains for a 7,000 lb tractor|tiedown value=7000lb item=tractor
how many tie downs for a 3,000 lb load|tiedown value=3000lb item=load
straps for 1,500 lb of hives|tiedown value=1500lb item=hives
tie downs needed for a 2,400 lb pallet|tiedown value=2400lb item=pallet
what size straps for a 1,800 lb quad|tiedown value=1800lb item=quad
do i need more than 4 straps for 3,500 lb of boxes|tiedown value=3500lb item=boxes
how strong do the straps need to be for 2,000 lb of hives|tiedown value=2000lb item=hives
yo whats the rear axle sittin at|weight field=drive
rear axle right now?|weight field=drive
tell me again what we scaled at|weight
what'd the flatdeck come in at last week|weight trailer=flatdeck
total combined weight last time we crossed the scale|weight
when did we last weigh and what was it|weight
ok drawbar how heavy was the camper|weight trailer=camper
Please report the most recent axle loads.|weight
Drawbar, axle weights please.|weight
give me steer drive and trailer weights|weight
what's each axle carrying|weight
how much do the trailer axles have on them|weight field=trailer
is the steer axle any lighter with the camper on|weight field=steer trailer=camper
lemme see the last weights|weight
whats the whole shebang weigh|weight
how many pounds on the drive axle|weight field=drive
hey can u tell me what our gross was|weight field=gross
any chance you remember our last gross|weight field=gross
remind us how heavy the flatdeck was|weight trailer=flatdeck
Hi, could I get the rear axle load?|weight field=drive
do we still have room on the steers|margin field=steer
rear axle still ok?|margin field=drive
did we bust any ratings|margin
anything over its limit right now|margin
how tight are we on the rear axle|margin field=drive
how far under are we on the drive axle|margin field=drive
how much under gvwr are we|margin rating=gvwr
is there any payload left for another passenger|margin rating=payload
whats left on payload|margin rating=payload
payload remaining|margin rating=payload
amount of room left on the trailer axles|margin field=trailer
so how are we doing against the gcwr|margin rating=gcwr
are all the axles under|margin
do the trailer axles have any room|margin field=trailer
will you tell me if we are over anywhere|margin
were the drives over on that last ticket|margin field=drive
am i overloaded with the flatdeck on|margin trailer=flatdeck
is Juniper over her gvwr|margin rating=gvwr truck=Juniper
how close is the camper to its gvwr|margin rating=gvwr trailer=camper
whats the pin sitting at percentage wise|tongue
tongue weight as a percent of the trailer|tongue
is 10% on the tongue what we have|tongue
are we light on the tongue|tongue
do we need more tongue weight|tongue
hows our tongue looking|tongue
give me the hitch weight percentage please|tongue
how many pounds is the camper pushing down on the ball|tongue trailer=camper
enough tongue?|tongue
can you look up the camper's gvwr for me|ratings rating=gvwr trailer=camper
whats the number on the payload sticker|ratings rating=payload
how much is Juniper allowed to tow|ratings truck=Juniper
what is the rear axle rated for|ratings rating=gawr_rear
max tongue weight for the hitch?|ratings rating=tongue
what gcwr did i give you|ratings rating=gcwr
is the flatdeck's gvwr in there|ratings rating=gvwr trailer=flatdeck
what limits do you know for the camper|ratings trailer=camper
read me the ratings|ratings
what would it do to the tongue if we loaded 300 lb of honey up front\
|whatif value=300lb item=honey field=tongue position=front
if we throw another 250 lb on the flatdeck are we good|whatif value=250lb trailer=flatdeck
would we be too heavy with a 500 lb tote in the bed|whatif value=500lb item=tote position=bed
could we get away with another 400 lb on the flatdeck|whatif value=400lb trailer=flatdeck
do we have room for a 600 lb extractor|whatif value=600lb item=extractor
is there room for another 300 lb on the flatdeck|whatif value=300lb trailer=flatdeck
can we fit 350 lb more in the bed without going over|whatif value=350lb position=bed
will adding 200 lb to the nose overload the tongue|whatif value=200lb position=nose field=tongue
what if the 300 lb generator sat 2 ft behind the axle\
|whatif value=300lb item=generator position=behind_axle distance=2ft
if i shift the hives forward 3 ft what happens to the tongue\
|whatif item=hives distance=3ft field=tongue
what does the drive axle look like with another 300 lb in the bed\
|whatif value=300lb position=bed field=drive
600 lb of sugar in the bed, would we be over?|whatif value=600lb item=sugar position=bed
suppose i take the 120 lb generator out of the bed|whatif value=120lb item=generator position=bed
how many straps would a 1,200 lb extractor take|tiedown value=1200lb item=extractor
how many 3,333 lb straps for a 5,000 lb tractor|tiedown value=5000lb item=tractor
what do we need to secure 2,500 lb of hives|tiedown value=2500lb item=hives
are 4 chains plenty for the 8,000 lb skid steer|tiedown value=8000lb item=skid_steer
back axle number please|weight field=drive
how many pounds were on the steers at the last weigh|weight field=steer
bot what'd we gross on the way out|weight field=gross
i forget, how heavy is the camper|weight trailer=camper
how much are the trailer axles holding up|weight field=trailer
would you remind me what the drives weighed|weight field=drive
gross weight with the flatdeck loaded|weight field=gross trailer=flatdeck
what are the axle weights sitting at now|weight
how much did we weigh going over the scale|weight
could i get our last weights again please|weight
where's our gross at|weight field=gross
Juniper's front axle weight|weight field=steer truck=Juniper
how heavy is this whole rig|weight
what kind of margin do we have on the rear axle|margin field=drive
headroom left on gcwr|margin rating=gcwr
how bad are we over|margin
are we okay on the front axle|margin field=steer
can you see if the trailer axles are over|margin field=trailer
how much more weight can the rear axle handle|margin field=drive
which limit will we hit first|margin
are we pushing the limit on the drives|margin field=drive
do i have payload to spare|margin rating=payload
does Juniper have payload left with the camper on\
|margin rating=payload truck=Juniper trailer=camper
under gvwr?|margin rating=gvwr
what's the tightest axle right now|margin
what percent is riding on the tongue|tongue
is there too little weight on the ball|tongue
hey what's our tongue running right now|tongue
how heavy is the hitch weight|tongue
show me the pin weight percentage|tongue
camper tongue weight|tongue trailer=camper
tongue too light?|tongue
what does the nose weight come to|tongue
how much tongue weight does the flatdeck have|tongue trailer=flatdeck
are we at 10 to 15 percent on the tongue|tongue
what's the gvwr on the camper|ratings rating=gvwr trailer=camper
max payload on Juniper please|ratings rating=payload truck=Juniper
do you know the rear gawr|ratings rating=gawr_rear
how much can juniper pull|ratings truck=Juniper
tell me the gcwr again|ratings rating=gcwr
which ratings are still missing|ratings
give me all the limits you have for the flatdeck|ratings trailer=flatdeck
what happens if i put 250 lb of feed in the nose|whatif value=250lb item=feed position=nose
could we still pull it if i loaded another 900 lb on the flatdeck\
|whatif value=900lb trailer=flatdeck
would it be ok to add 350 lb to the bed|whatif value=350lb position=bed
if i chuck a 180 lb welder in the bed will the rear axle go over\
|whatif value=180lb item=welder position=bed field=drive
what would another thousand pounds of honey do to us|whatif value=1000lb item=honey
can i get away with 400 lb on the tongue box|whatif value=400lb position=tongue_box
say i move the 200 lb generator 5 feet behind the axles\
|whatif value=200lb item=generator distance=5ft position=behind_axles
how do things look if we leave the 300 lb extractor off|whatif value=300lb item=extractor
whatif 500 lb over the axles|whatif value=500lb position=over_axles
how many straps to hold 1,400 lb of hives|tiedown value=1400lb item=hives
is 2 chains enough to tie down a 5,000 lb tractor|tiedown value=5000lb item=tractor
show me what the steers are at|weight field=steer
can we see the gross from saturday|weight field=gross
kindly list the axle weights|weight
how heavy does the flatdeck run|weight trailer=flatdeck
hows the weight split between the axles|weight
what's the front end weigh|weight field=steer
got our gross handy?|weight field=gross
how much farther under gcwr are we with the flatdeck|margin rating=gcwr trailer=flatdeck
tell me if the front axle is maxed|margin field=steer
how many lbs of payload left|margin rating=payload
is there slack on the rear axle|margin field=drive
gvwr headroom please|margin rating=gvwr
are we tongue heavy|tongue
does the camper have enough on the ball|tongue trailer=camper
list gvwr and gcwr|ratings
tire rating on the camper?|ratings trailer=camper
what about another 200 lb on the tongue|whatif value=200lb position=tongue
how about 400 lb more in the bed|whatif value=400lb position=bed
if we drop 300 lb off the flatdeck are we legal|whatif value=300lb trailer=flatdeck
is another 350 lb in the nose ok|whatif value=350lb position=nose
where would 600 lb of sugar ride best on the flatdeck\
|whatif value=600lb item=sugar trailer=flatdeck
how many ratchet straps for an 1,100 lb quad|tiedown value=1100lb item=quad
what grade chain for a 9,000 lb tractor|tiedown value=9000lb item=tractor
"""
"""What is asked | its topic, and what it names; a blank within a name is an underscore."""

TALK = """
how heavy is the couch
how much does the baby weigh
the camper weighs a ton lol
tongue in cheek
weight loss update please
any room left on the couch
room left in the freezer
is there room for one more at dinner
we are over it
are we ok
are we still on for sunday
is the camper open
the camper was so nice
camper looks great
Juniper looks great with the new wheels
who has the flatdeck
can you move the camper
can you bring the flatdeck back
is the flatdeck at your place
did you hitch the camper
tell dad the camper is ready
the limit on my card is 500
what if we just stay home
what if we take the camper to the lake
what if we bought a new camper
would you take the kids
would you say we should go
would another 20 minutes be ok
how many straps does my backpack need
how many chains does he wear
gross
gross weight jokes again
that is so gross
steer clear of that guy
the hitch in his step
tongue twisters please
can i add you to the group
can i add two people to the list
put another log on the fire
whatif you are wrong
let me know if you're over at moms
let me know if the camper sells
i need the flatdeck on saturday
need the truck keys
mind telling me where you are
would you mind giving me the keys to Juniper
just give me the keys
come on just tell me
how do we compare
whats different about the new camper
how heavy is your backpack
what was the score last time
are you over it
were we over at your place last time
we weighed the camper yesterday
weighing the flatdeck now
heading to the scale with the camper
at the scale
the scale is closed
camper weight distribution hitch for sale
the rear axle looks fine
rear axle seal is leaking
room on the flatdeck for the couch
how much is the camper
how much is a new flatdeck
how much did the camper cost you
how much for the flatdeck
what does the sticker on your laptop say
would you say the camper is big enough for us
have we got enough beds in the camper
how much of the camper is yours
do you think the camper needs a wash
is the tongue sandwich good
did the dog get heavier
weight watchers on tuesday
ratings for the new show are in
show me the ratings for that movie
what's the most the kids can carry
what if i left the oven on
how should i tie my shoes
best way to secure a babysitter
what do we still need from the store
can Juniper come to the party
check whether the flatdeck is free
the camper is over at the neighbours
is the camper over at your place
camper over there
i need the truck this week
i need the camper this week
we need the camper this weekend
is my nose ok
whats on the ball
is there room near the trailer for my bike
did the camper fit under the bridge
how do i tie down my hair
will i ever weigh under 200 lb
do we have a lighter
ready to hitch the flatdeck
dad is towing the camper now
"""


AMONG_STRANGERS = """
the officer at the booth wants to know our GCWR|ratings rating=gcwr
my nephew bet me ten bucks, whats our noseweight|tongue
somebody at the gate needs our trailer GAWR|ratings rating=gawr
please fish out the tongue weight for a grumpy inspector|tongue
insurance guy keeps bugging me, need our GVWR|ratings rating=gvwr
before the flag drops tell me our headroom on the rear axle|margin field=drive
nervous nelly here, are we legal on weight?|margin
pin reading from yesterday, whatd we get|tongue
how wretched is the cost per mile with the flatdeck|cost trailer=flatdeck
not to be a pest but how bad is the fuel bill|cost
boss is grumbling, what did we spend on fuel last month|cost
been a rough haul, whats our fuel economy looking like|economy
she feels thirstier somehow. whats our fuel economy been|economy
how many miles have we dragged the camper all told|distance trailer=camper
tally the miles the flatdeck's done behind us, would you|distance trailer=flatdeck
this week's numbers, whenever you get a minute|week
suppose the extractor, 340 lb, went 2 ft ahead of the trailer axle?|whatif item=extractor
what if the mower, about 700 lb, rides over the axles|whatif item=mower value=700lb
what if we put the welder, 400 lb, behind the axle|whatif item=welder
how many straps for the tractor, it weighs 4,200 lb|tiedown item=tractor value=4200lb
are four chains plenty for the skid steer, shes 7,100 lb|tiedown item=skid_steer
how many straps for a 1,400 lb log splitter|tiedown item=log_splitter
"""
"""What is said of rigs alone makes up for words that nobody knows."""

TALK_AMONG_STRANGERS = """
did the camper fit under the bridge
wait, what commands
thats how bad the fuel bill is
what a week, love
tell your brother the limit is two beers, are we clear
how was the drive over the ridge with the kittens
how did we do last night
the vicar wants to know, are we bringing cake
what was the score when the Steelers played
"""

AMONG = AMONG_STRANGERS.strip().splitlines()


@pytest.mark.parametrize("text", TALK_AMONG_STRANGERS.strip().splitlines())
def test_strangers_beside_everyday_words_are_talk(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)
    assert isinstance(reads(text, chat()), Silent)


@pytest.mark.parametrize("line", [*ASKED.strip().splitlines(), *AMONG])
def test_a_question_of_loads_is_answered_in_whatever_form(line: str, reads: Reader) -> None:
    text, _, asked = line.partition("|")
    record = verdict_to_record(reads(text, on_the_road()))
    assert record["verdict"] == "question"
    question = record["question"]
    topic, *named = asked.split()
    assert question["topic"] == topic
    for each in named:
        field, _, value = each.partition("=")
        found = question[field]
        if isinstance(found, dict):
            found = f"{found['value']:g}{found['unit']}"
        assert found.replace(" ", "_") == value


@pytest.mark.parametrize("text", TALK.strip().splitlines())
def test_talk_in_the_same_words_is_none(text: str, reads: Reader) -> None:
    assert isinstance(reads(text, on_the_road()), Silent)
    assert isinstance(reads(text, chat()), Silent)


@pytest.mark.parametrize(
    ("text", "kilos"),
    [
        ("would another 60 kg in the tray put us over", 60),
        ("if I put 80 kg in the tray would we still be under", 80),
        ("can we add another 50 kg to the tray", 50),
    ],
)
def test_a_supposed_load_in_kilograms_is_one(text: str, kilos: int, reads: Reader) -> None:
    record = verdict_to_record(reads(text, on_the_road(units="metric")))
    assert record["question"]["topic"] == "whatif"
    assert record["question"]["value"] == {"value": kilos, "unit": "kg"}
    assert record["question"]["position"] == "tray"


@pytest.mark.parametrize(
    ("text", "item", "position"),
    [
        ("what happens to the tongue if I shove the cooler up to the nose", "cooler", "nose"),
        ("what happens to tongue weight if we drag the quad to the back", "quad", "back"),
        ("what if we lug the generator up to the nose", "generator", "nose"),
        ("what if I scoot the hives back over the axle", "hives", "over axle"),
    ],
)
def test_what_is_moved_by_whatever_strength(
    text: str, item: str, position: str, reads: Reader
) -> None:
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question), verdict
    assert (verdict.topic, verdict.item, verdict.position) == ("whatif", item, position)


@pytest.mark.parametrize("text", ["what if we roll the dice", "what if she drags her feet"])
def test_what_else_is_dragged_is_talk(text: str, reads: Reader) -> None:
    assert reads(text, on_the_road()) == Silent()


def test_what_is_set_aside_is_for_the_way_ahead(reads: Reader) -> None:
    text = "how much diesel money should we set aside to get from Larkfold to Mossgate"
    verdict = reads(text, on_the_road())
    assert isinstance(verdict, Question), verdict
    assert (verdict.topic, verdict.since, verdict.until) == ("plan", "Larkfold", "Mossgate")
