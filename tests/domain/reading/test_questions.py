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
if he gains 20 lb what happens to his knees
if i win 100 pounds what should i buy
suppose we lost 20 lb by june
suppose they threw 300 lb of junk on it
how do you secure 2,000 pounds in funding
how would you tie down a 2100 lb tractor
planning a trip from Marlby to Ashcombe next week
hows this week looking for you
hows the week looking for dinner
is this shirt about right you think?
tongue weight look ok to you?
wondering how much cake we've got left
how do i close this window
how do i fix it
how do i fix something
how do i undo what i texted my ex
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
how r u
how much r u
how r the kids
how's ur mum doing
hows work going
how was work
how was the drive down?
how long was the drive
how long have you been driving
who's driving tonight
are you driving or am i
can u drive
can you drive me to the station
whats the time
wat u doing later
when r u coming home
when are you due
when's she due
whens ur birthday
when can i see you
when do we leave
when does it start
when do we need to be there
when do you need it by
when did you get in last night
where did you park the car
where's the truck
where's the truck parked?
where are the keys to the truck
is the truck at home
is the car ok
is the car fixed yet?
is the van free saturday
can i borrow the truck
can i borrow the trailer on saturday
can you bring the trailer
are you bringing the camper
are we taking the camper?
should we take the camper
did you lock the truck
did u fill up
did you fill the truck up
have you fed the dogs
how much was the petrol
how much was petrol today
how much is diesel now
whats diesel at down there
is petrol cheaper there
who paid for fuel
who's paying for petrol
can u lend me 20 for petrol
can you get milk on the way
can you grab fuel on the way
do we need bread
did we win
did we get the house
what did we decide
what did we say about friday
what did u weigh at birth
how much did the baby weigh
how heavy was the baby
how big is the tank for the fish
how many litres is the fish tank
is the fish tank full
is your tank full
is the bus full
is the hotel full?
is the plane full
what is the weight limit for luggage
whats the baggage limit
is my bag over the limit?
was he over the limit
is it over 100 miles
is it more than 50 miles
how many miles away are you
how many miles on foot
how many miles do you run
how far is the hotel
how far is the beach from there
how far along are you
how far did you run today
how far have you got
how long have we been together
how long are we staying
how long does it take
how long to get there
how long till dinner
how long til the game
how long until christmas
how close are we to done
how close are we to the beach
how close is the nearest pub
how did we end up here
how did we do in the quiz
how did we do last night
how are we doing for time
how are we doing for money
how are we doing with the packing
how did the game go
how did the week go for you
how did your week go
how did ur trip go
how was everyones week
hows the week looking for you
what does your week look like
what's on this week
whats happening this week
whats the plan this weekend
what are the plans
any plans?
any plans for the weekend
any news
any luck
any good?
anything good on
anything to eat
anything else?
anything i can do
anything over there?
anyone over 18 here
anyone need anything
anyone got a spare
is anyone home
is there any left
is there anything left
is there much left
is there a lot of traffic
is there a trip planned
what trip
which trip
what trip?
who's on the trip
when's the trip
is the trip still on
how much is the trip
how much does the trip cost
how long is the trip
last trip of the year!
was it a good trip
good trip?
safe trip
sum up your day in one word
sum it up
how does it add up
does it add up?
it doesn't add up, does it
do the math
whats the total
what's the total?
what was the total
how much in total
what's the score
whats the final figure
what figure did they offer
what are the figures for sales
whats your figure
numbers for tonight?
can i get your number
what number are you
whats the number
report back please
weather report?
did you hand in the report
can you send me the report
what did the report say
log in details?
whats the login
log off now?
can you log in
how do i log on to the wifi
what's the password
how do i connect
how do i get in
how do i turn it off
how do i turn off the alarm
how do i open the boot
how do i open the door
how do i start the car
how do i check the oil
how do i check the tires
how do i check the oil in the truck
how do i add oil
how do i fill the washer fluid
how do i add weight to the bar
how do i lose weight
how do i put on weight
how do i change a tire
how do i change a flat
how do i change the oil
how do i fix a flat tire
how do i fix the brakes
how do i hitch the trailer
how do i reverse the trailer
how do i tie this down
how do i tell if its full
how do i tell her the truth
how do i send it
how do i send you the photo
how do i read this
how do i undo this
how do i say this in french
how do i say no
what can i do
what can i bring
what can we do
what can you see
what can you do with a degree in history
what do i say to him
what do i text back
what do i text her
what should i text him
what did you text me
can i text you later
can i text you tomorrow?
can i send you a pic
can i send you something
do you want me to text you
text you later
i'll text you when i get there
send me a pic of the ticket
can you send me a photo of the receipt
did you keep the receipt
do you have the tickets
have you got the ticket
how many tickets
how much was the ticket
last ticket?
is that the last ticket
is this the last one
are the tires ok
are the tyres flat
are the bikes on the rack
is the light on
is the gas on
is the gas off
is the heating on
how much gas is left in the bottle
how much gas do we use a month
whats our gas bill
whats the bill
what's the range of the wifi
in range?
out of range
are you in range
is it in our price range
do u have room
do you have room in the truck
is there room in the truck for me
room for one more in the car?
any room in the camper?
have we got room for the bikes
is there space
what's left to do
what's left on the list
how much is left to pay
how much do we have left to pay on the car
what's the profit margin
wheres the limit
what are my limits
am i allowed
are dogs allowed
what are you allowed
are we permitted to park there
max?
is max coming
what's max doing
where's max
is there a max
gross
thats gross
is it gross?
how gross
whats your gross pay
what do you gross a year
how much do you make gross
what's on the plate
whats the capacity
what size is the tank top
tank top?
which pin
pin please
are you on the scale
on a scale of 1 to 10 how tired are you
did you step on the scale
what's the weight of the parcel
what's your fighting weight
whats the weight of that dog
how much does that dog weigh
how heavy is that box
was it heavy
its so heavy isnt it
heavy rain there?
heavy traffic?
anyone hurt?
say hi to mum
say that again?
say what
say no more
suppose we wait
suppose so
if you want
if only
if we go what time
if i go will you come
if i pay will you drive
if you put it that way
what if i'm late
what if i said no
what if we just stay home
what if we take your car
what if we take the truck and leave the car
what if we leave the camper at home
what happens if it breaks
what happens if i miss it
what happens now
what would you do
what would it take
what would moving to texas be like
would moving help?
would you
adding you now, ok?
moving house would help
moving on saturday, can you help?
putting the kettle on, want one?
putting the kids in the car, would you open the gate?
loading the truck now, are you coming?
can i put the bikes in the truck
can i put my bag in the truck
can we put the dog in the trailer
where should i put the bikes
where do i put this
can we add mum to the group
can we carry it
can you carry more
how much can you lift
how much can i have
how much more to go
how much more time
how many more miles
how many more days
how many days left
how many weeks till xmas
how many months
how many people
how many of us
how many of us in the car
how many seats in the car
how many kids fit in the truck
plan?
plan b?
plan is to leave at 6, ok?
what's the plan stan
is that the plan
planning to stay?
planning on coming?
budget?
what's your budget
is it in budget
estimate?
can you estimate how long
whats the estimate
did they give an estimate
how much is the estimate for the car
what did they charge
what did they charge for the service
is the car in for a service
how much was the service on the car
service was terrible
was the service good
any service there?
no service here, you?
is it due today
whats due today
when's the assignment due
bill due?
when's rent due
anything due tomorrow
anything due for class?
how's the oil
oil?
want chips fried in oil?
refresh the page
refresh my drink would you
remind me to call mum
remind me what his name is
remind me what time
remind me what we said
remind me when it starts
remind me how old he is
jog my memory
jog?
i forgot what you said
i forgot how far it is
i forgot how much it was
i wonder how he is
i wonder what happened
wondering what you're up to
been meaning to ask how you are
been meaning to ask what happened with the car
just curious what time you left
before you go, how much do i owe you
before i forget, what's the wifi
ok so, how far is it
listen, how heavy is the couch
hey, what time is it
bot?
are you a bot
pull up a chair
pull up outside
pull up the blinds would you
bring up the bags would you
can you bring up the laundry
can you bring up the car
show me your truck
show me the truck
show me the new trailer
give me the keys to the truck
give us a lift in the truck?
give me a ring
give me five
give me everything you've got
list?
whats on the list
shopping list?
tell me everything
tell me about your week
tell me about the trip
let me see the truck
let me see
lets see
lets see the car
compare notes?
compare prices
total waste of time
total legend
total up the bill would you
tally ho
can you add up the bill
november?
in june?
see you in june?
june was nice
how's june
hows june doing
is june coming
how did june do
is may ok?
may i come?
may i
march is good for me, you?
april what do you think
is april home
next week ok?
last week was mad
was it last week
when last week
what day last week
"""

ASKED = {
    "help": """
        help
        how do i log a fill
        how do i fix something i sent wrong
        how can i change what i logged
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
        how do I put in a weight
        how do i tell you the odometer
        how should i text you a weigh in
        can i send you a picture of the ticket
        can i text you a photo of a receipt
        how do i change the odo i sent
        what are you able to do
        what can you do for us drawbar
        how do i tell you we unhitched
        how do i delete the last fill
        how do i record trailer tire pressure
        how would I enter axle weights
        show me what you can do
        list commands
        what do i say for a fillup
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
        what kind of mpg we gettin with juniper
        mpg?
        so what's the mpg
        how's the mpg
        mpg lately
        how's the fuel economy holding up
        average mpg for june
        what's our mpg since the new tires
        what did juniper average last tank
        how are we doing on fuel per 100 km
        what's the consumption with the caravan
        how much is she using per 100
        how bad is our mpg with the camper in this wind
        how's the consumption this month
        hows the gas mileage been
        any idea what mpg we got last trip
        fuel consumption for june
        what mileage is the truck getting
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
        when should i grease the bearings
        when's the service due
        is the truck due for service
        when is Juniper due a service
        how long till the next oil change
        how many miles till the next oil change
        when did i last rotate the tires
        are we overdue on anything
        what maintenance is due
        is there anything due before the trip
        when was the oil last changed
        when do the tires need rotating
        is the bearing repack overdue
        when was the last bearing repack
        next service?
    """,
    "ratings": """
        how much can Juniper tow
        what can the truck tow?
        how much can the truck pull
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
        what's the camper's gvwr
        gvwr of the flatdeck
        what's the payload rating on the truck
        payload?
        what's Juniper's payload
        what was our payload again
        how much payload does juniper have
        what's the max tongue weight
        whats the front gawr
        what's the ATM of the caravan
        do you have our gcwr
        which ratings are still missing
        show me the ratings
        what is the hitch rated for
        remind us what the tongue limit is
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
        are we over?
        are we legal
        are we overweight with the camper
        are we too heavy
        are we too heavy on the tongue
        how far under gcwr are we
        are we close to the limit on the rear axle
        is the trailer over its gvwr
        how much room do we have left on the drives
        any axle over?
        is the total under gcwr
        what's our margin on the steer axle
        how much more weight can the camper take
        am i within payload
        is the truck overloaded
        how much more can i load before im over gvwr
    wondering how much payload we've got left
curious how much payload is left
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
        what do we weigh
        how heavy is the camper
        what's the truck weigh by itself
        what did the trailer axles weigh
        what's our gross
        what was on the drives
        what was the drive axle last time
        what did the flatdeck come in at
        how heavy were we in june
        whats the steer at
        give me our last weights
        remind me what we grossed
        what does the whole rig weigh
        how much is on the drive axle
    """,
    "cost": """
        what's it costing us per km
        what is it costing us a mile
        how much has fuel set us back
        how much have we spent on diesel
        what did the last tank cost
        what's the trip cost us so far
        what has the trip set us back
        how much did we spend on gas last month
        what'd we spend on fuel in june
        what did that tank cost us
        what did fuel cost on the last trip
        fuel spend this month
        how much has the trip cost us
        what's it costing us per mile
        what are we paying per mile
        whats our cost per km
        what's the damage on fuel this month
        how much money went on def
    """,
    "trip": """
        how did the last trip go
        how did the last trip work out
        how did our last trip turn out, all told?
        how'd the last trip go?
        how did our last trip go
        how did the trip go, numbers please
        how'd this haul go
        how did this trip go
        how was the last trip, miles and fuel
        trip so far
        how are we doing on this trip so far
        give me the trip totals
        last trip summary
        sum up this trip
        how's this tow been so far, miles wise
    """,
    "week": """
        how'd we go this week
        how did we go this week?
        how'd this week shake out
        how did this week shape up
        bot, how'd the week turn out
        how did our week pan out
        week
        this week?
        how was the week, miles and fuel
        how did we do this week
        weekly summary please
        show me the week
        can you give me this week's numbers
    hows this week looking
how's the week looking so far
how is this week shaping up
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
        summary
        summary for may
        last month
        how did we do in june
        how did we do last week
        totals since june 1
        can you sum up last month for me
        give me everything from june 1 to june 30
        could you tally up june
        recap last month for us
        show me last month
        totals this year
    """,
    "plan": """
        how much fuel do i need to go 280 miles from saltlick to drybone fork
        how many gallons from saltlick to drybone fork, 280 miles
        how much diesel will it take to get from elk creek to pine bluff, 210 miles
        what should i budget for fuel going from Two Elders to Drybone Fork
        what should we budget for diesel from Two Elders to Drybone Fork
        how much should i set aside for fuel to get to Elko, 200 miles
        how much fuel to get from elk fork to cedar bluff 310 mi
        how much fuel for 300 miles with the camper
        how much will fuel cost to get to Elko, 310 miles
        plan 400 miles
        plan a trip to Elko, 310 miles
        what'll it cost in diesel to tow the camper 500 miles
        how many gallons for 300 miles
        how many fuel stops to Elko, 410 miles
        what would fuel run us to Elko and back, 620 miles
        budget fuel for 400 miles
        how much fuel would a 250 mile tow take
    plan a run from Elk Fork to Cedar Bluff
plan our tow from Marlby to Ashcombe
""",
    "range": """
        how far will the tank take us
        how much farther can i get before she runs dry
        how far can we go before we run out
        before i answer, how far will the tank take us
        how far will this tank take me
        how far til I'm sucking fumes
        how far till we're on fumes
        how many miles till im running on fumes
        how far until the tank's dry
        how far can the tank get us
        how long till we run out of diesel
        how far can we go
        how far can we get
        whats our range
        how many miles left in the tank
        can we make it to Elko, 180 miles
        do we have enough fuel for 200 miles
        will we make it another 90 miles
        how far on this tank
        how long before we need fuel
        how many miles until we need fuel
        how far will whats in the tank get us
        is there enough diesel to get home, 120 miles
    """,
    "tongue": """
        is the nose weight ok on the caravan
        is the tongue weight ok
        how's our tongue weight
        what's our tongue weight
        tongue weight?
        is the tongue heavy enough
        is the tongue weight good
        what percent is on the tongue
        how much is on the tongue
    is the pin weight about right you think?
do you reckon the nose weight is heavy enough
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
        what if i put 300 lb on the rear rack
        what if we add 200 lb to the bed
        can i put another 300 lb in the bed
        what happens to the drive axle if i add 400 lb in the bed
        what if we move the generator to the trailer nose
        what happens if i move the hives back 3 ft
        where should i put the 400 lb generator
        what if we left the 300 lb generator at home
        if i take 200 lb out of the bed what happens to the drives
        what if we fill the fresh water tank
        what if i load the quad in the bed, 700 lb
        how much would 200 lb in the bed add to the drive axle
        say we put the bikes on the rear rack, 90 lb
    if I sling another 300 lb in, 4 ft behind the trailer axle, what happens
suppose we tossed the 260 lb smoker on too, would we be ok
if we stuff 400 lb of feed in the nose what does that do to the tongue
what if we move the smoker half a foot back from the coupler
""",
    "distance": """
        how far have we towed
        how many miles have we towed
        how far did we go today
        how many km have we done since monday
    """,
    "tiedown": """
        how many straps for a 3,000 lb tractor
        how many chains do i need for a 9000 lb skid steer
        are 4 straps enough for 6000 lb
    how should I tie down a twenty four hundred pound tractor
how do i strap down a 690 lb quad
how do we secure 3,000 lb of hay
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
    assert len(talk) > 700
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


def test_of_two_kinds_of_upkeep_the_one_is_asked_for_that_was_said_first(reads: Reader) -> None:
    verdict = reads("do the lug nuts need torquing yet?", on_the_road())
    assert isinstance(verdict, Question)
    assert verdict.item == "lug nuts"
