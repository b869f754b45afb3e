"""Questions of the road in any form, and requests to take something back.

A message whose every word is understood asks what its words are about, whether it is a question,
an order, a polite request or no sentence at all. Talk of the same words stays talk.
"""

from __future__ import annotations

import pytest

from domain.context import Context
from domain.quantities import Quantity
from domain.records import verdict_to_record
from domain.verdicts import Silent
from tests.domain.reading.chats import Reader, chat, on_the_road

DOWN_UNDER = chat(
    units="metric",
    odometer=Quantity(51_200, "km"),
    tank=Quantity(136, "L"),
    fuel="diesel",
    hitched=True,
    truck="Wattle",
    trailers=("van", "box trailer"),
)

KILOMETRES = (" km", "kms", "kilometre", "litre", "the van", "box trailer", " k's", "clicks")
"""Words by which a question is asked where roads are measured in km."""

ASKED = {
    "economy": """
        mpg pulling the flatdeck please => trailer flatdeck
        average mpg?
        our fuel economy since may => from 2026-05-01
        what sorta mileage are we gettin with the camper => trailer camper
        miles per gallon on the last tank
        how many miles to the gallon is Juniper doing these days => truck Juniper
        would you mind telling me our mpg
        litres per hundred with the van on => trailer van
        fuel use per 100 km towing the box trailer => trailer box trailer
        is the truck burning more diesel with the camper on => trailer camper
        how much better is the mpg without a trailer
        milage last month => from 2026-06-01, to 2026-06-30
        mile age on this tank
        tell me our gas mileage towing
        hows the diesel consumption been this week => from 2026-07-06
        fuel efficiency last tank pls
        how economical is the truck when it's towing
        I'd like to know the mpg for the last fill
        mpg empty vs loaded
        how hard is she drinking fuel with the camper hooked up => trailer camper
        economy with trailer
        Average fuel consumption for June, please. => from 2026-06-01, to 2026-06-30
        lemme get the mpg real quick
        what kinda fuel economy did we get comin home
        What sort of mpg should I tell people we get with the camper on? => trailer camper
        hey whats Juniper averaging on the highway => truck Juniper
        do we do better on fuel without the camper => trailer camper
        mpg since the last oil change
        latest fuel economy figure please
        can you show me gas mileage by trailer
        Would like litres per 100 for the last run
        how many kms are we gettin to the litre
        yo whats the gas mileage been like
        dad wants to know what mpg we're getting
        what did the camper drop our mpg to => trailer camper
        fuel mileage report please
        how's she doing on diesel with the flatdeck behind => trailer flatdeck
        are we getting decent mileage out of this tank
        Give me our average miles per gallon since January => from 2026-01-01
        whats the avg mpg been towin
        Juniper's average mpg so far this month => truck Juniper, from 2026-07-01
        what are we down to on mpg with this load
        can you figure our mpg off the last fill
        is our mileage any better since the tire swap
        hey drawbar what mpg did we pull on that last leg
        economy figures for the van please => trailer van
        litres per 100 k towing?
        So, um, what kind of miles per gallon have we been getting
        miles per gallon, towing the flatdeck => trailer flatdeck
        quick one, what's our mpg with the flatdeck empty => trailer flatdeck
        Juniper mpg last tank? => truck Juniper
        how many miles a gallon did that tank give us
        could u pull up gas mileage for last month => from 2026-06-01, to 2026-06-30
        fuel economy trend since april please => from 2026-04-01
        what does she do to the gallon pulling
        what mileage does the truck get with nothing hooked up
        average mpg for the year to date => from 2026-01-01
        how's our fuel economy holding up with the camper => trailer camper
        mpg over the past two weeks pls => from 2026-06-27
        can you compare our mpg with and without the flatdeck => trailer flatdeck
        how many litres per hundred are we using
        ok so whats the best mpg we've had
        fuel burn per mile towing?
    """,
    "cost": """
        what's each mile costing us in diesel => product diesel
        cost per mile with the camper pls => trailer camper
        fuel spend this month => from 2026-07-01
        total diesel bill since june => product diesel, from 2026-06-01
        diesel costs last week => product diesel, from 2026-06-29, to 2026-07-05
        how much did we shell out on fuel in june => from 2026-06-01, to 2026-06-30
        how much $ have we put into fuel this year => from 2026-01-01
        can you work out what we pay per mile
        price per kilometre when towing the van? => trailer van
        give me a total for fuel
        what have we paid for gas so far this month => product gasoline, from 2026-07-01
        add up the fuel money for the year => from 2026-01-01
        how much has the flatdeck cost us in fuel => trailer flatdeck
        money spent on diesel? => product diesel
        fuel bill for june => from 2026-06-01, to 2026-06-30
        dollars per mile towing
        whats it cost us to tow the camper a mile => trailer camper
        what did that last fill cost
        what'd we spend on DEF last month => product def, from 2026-06-01, to 2026-06-30
        how much are we burning through in fuel money
        so how much did fuel set us back this trip
        average price we paid per gallon
        diesel spend last month please => product diesel, from 2026-06-01, to 2026-06-30
        what's our cost for each mile of towing
        roughly how much a mile does the flatdeck cost us => trailer flatdeck
        how much cash have we burned on fuel since june 15 => from 2026-06-15
        what was the price of our last fill
        fuel dollars this year? => from 2026-01-01
        whats towing the van cost per k => trailer van
        tally up what we spent on diesel this week => product diesel, from 2026-07-06
        how much did we fork out for fuel on that trip
        how much does it cost per mile to run Juniper => truck Juniper
        total fuel cost so far this year pls => from 2026-01-01
        what'd that last tank set me back
        whats our running total on fuel
        per mile cost with the flatdeck? => trailer flatdeck
        cost of fuel for the last trip
        how much have we dropped on diesel so far => product diesel
        what's our cost per mile looking like
        tell me what the camper's costing us a mile => trailer camper
        fuel receipts total for june => from 2026-06-01, to 2026-06-30
        spent on diesel last month? => product diesel, from 2026-06-01, to 2026-06-30
        What did fuel for this trip come to?
        price per mile with the camper hitched => trailer camper
        whats diesel costing us per mile => product diesel
        how much we spent on fuel this month so far => from 2026-07-01
        cost per km towing the box trailer please => trailer box trailer
        the damage for fuel on this trip?
        can you add up all our fuel for June in dollars => from 2026-06-01, to 2026-06-30
        did we spend more on fuel this month => from 2026-07-01
        what do we pay for fuel on an average trip
        what's it cost a mile to haul the flatdeck => trailer flatdeck
        money spent on DEF this year => product def, from 2026-01-01
        fuel cost june 1 to june 15 => from 2026-06-01, to 2026-06-15
        cost per mile this month => from 2026-07-01
        what's diesel run us so far this trip => product diesel
        tell us what the last fill cost
        total spend on fuel with the van => trailer van
        how much are we paying a mile on average
        Fuel expenses, April 1 to June 30 => from 2026-04-01, to 2026-06-30
        sum of fuel costs last month => from 2026-06-01, to 2026-06-30
    """,
    "range": """
        range pls
        what's our range right now
        how far on this tank?
        how many miles we got left in the tank
        how much further til we gotta fuel up
        do we have enough diesel for another 85 miles => distance 85 mi
        can we do a hundred and forty more miles on this tank => distance 140 mi
        will we make it 60 more miles => distance 60 mi
        reckon we can do 380 km before the next servo? => distance 380 km
        will the tank get us two hundred miles => distance 200 mi
        next fuel in 95 miles, will we make it => distance 95 mi
        miles to empty
        miles left in the tank please
        please tell me how far we can go before empty
        how long til we need diesel
        fuel remaining?
        how much diesel's left
        got enough juice for 75 miles? => distance 75 mi
        are we gonna run out of fuel before 120 miles => distance 120 mi
        estimated range towing the camper => trailer camper
        kilometres till empty
        how far can Juniper go with the flatdeck on => truck Juniper, trailer flatdeck
        distance to empty please
        what range have we got with the van on => trailer van
        just give me the range will ya
        is there enough in the tank for 150 miles => distance 150 mi
        when do we need to stop for fuel next
        how much road is left in this tank
        can we get a hundred ten more miles out of it => distance 110 mi
        can Juniper do another 65 miles before a fill => distance 65 mi, truck Juniper
        next station is 88 miles off, can we make it on what's left => distance 88 mi
        how far till the tank's empty
        do i need to fuel up in the next 50 miles => distance 50 mi
        what's left in the tank in miles
        we good for 200 km on this tank? => distance 200 km
        fuel left please
        will the diesel last until Quail Lake, 130 miles => distance 130 mi
        are we ok for another 90 miles => distance 90 mi
        how many more miles before i gotta fill up
        is 120 miles doable on this tank? => distance 120 mi
        can we get home on what's in the tank, it's 75 miles => distance 75 mi
        how far will a full tank take us with the camper => value 100 %, trailer camper
        could you check if we'd make 210 km on the fuel we've got => distance 210 km
        will I need fuel before Birch Hollow, that's 95 miles => distance 95 mi
        got enough diesel to do 140 more miles? => distance 140 mi
        whats my dte
        how long can we keep going on this tank
        remaining range please
        how far can we push it on this tank
        are we gonna make the next 70 miles without a fill => distance 70 mi
        does the tank have another hundred miles in it => distance 100 mi
        fuel range?
        how many km left in the tank mate
        we've got 115 miles to go, do we need to stop for diesel => distance 115 mi
        how long before the tank's dry
        will what's left get us to Quail Lake, 60 miles => distance 60 mi
        enough fuel for 150 km? => distance 150 km
        have we got the range for 130 more miles => distance 130 mi
        how many miles could we squeeze out of what's left
        range with the camper on? => trailer camper
        how far to empty
        when will we run out of diesel
        how much fuel have we got
        is there two hundred miles left in the tank => distance 200 mi
        are we going to make it 55 miles on what's in there => distance 55 mi
        how many miles of diesel do we have left
        can Juniper reach Alder Gap 90 miles out without filling => distance 90 mi, truck Juniper
        how far will this tank carry us
        what's the range on a full tank with the camper => value 100 %, trailer camper
        how soon do we need fuel
        miles to go before we run out
        got 240 km of fuel left? => distance 240 km
        is it possible to drive another 100 miles on this fuel => distance 100 mi
        how much farther can the truck go
    """,
    "distance": """
        how far since the last fill?
        miles since last fill up
        total miles with the flatdeck => trailer flatdeck
        how many miles has Juniper towed this year => truck Juniper, from 2026-01-01
        how far did we drive yesterday => from 2026-07-10, to 2026-07-10
        miles today? => from 2026-07-11, to 2026-07-11
        distance covered since monday => from 2026-07-06
        total kilometres towing the van => trailer van
        how many k's have we done this week => from 2026-07-06
        miles driven in june => from 2026-06-01, to 2026-06-30
        could you tell me how many miles we've put on the camper => trailer camper
        whats the odometer at
        current odo?
        what was our last odometer reading
        how far'd we get today => from 2026-07-11, to 2026-07-11
        how much of this year's mileage was towing => from 2026-01-01
        how far have we hauled the flatdeck since june 12 => trailer flatdeck, from 2026-06-12
        towed miles so far this year => from 2026-01-01
        how many miles did the truck do in may => from 2026-05-01, to 2026-05-31
        total distance this trip?
        miles on the flatdeck this year => trailer flatdeck, from 2026-01-01
        how far did we tow the camper last week => trailer camper, from 2026-06-29, to 2026-07-05
        how many clicks have we done since friday => from 2026-07-10
        just the miles for yesterday => from 2026-07-10, to 2026-07-10
        what did the odometer say last
        how many miles have we done altogether with the camper => trailer camper
        tell me how far we drove on saturday => from 2026-07-04, to 2026-07-04
        how far have we come since the last weigh in
        miles this week? => from 2026-07-06
        kms towed since 1 june => from 2026-06-01
        how many miles did we put on her in june => from 2026-06-01, to 2026-06-30
        distance driven last month, please => from 2026-06-01, to 2026-06-30
        tell me how many miles since we left home
        how far did Juniper go in June => truck Juniper, from 2026-06-01, to 2026-06-30
        total kms for the year => from 2026-01-01
        odometer right now?
        miles with the camper since july 1 => trailer camper, from 2026-07-01
        how many miles is it since the last fuel
        how far have we gone so far today => from 2026-07-11, to 2026-07-11
        miles towed with the flatdeck in June => trailer flatdeck, from 2026-06-01, to 2026-06-30
        what's the total distance since tuesday => from 2026-07-07
        how many miles have gone by since we last filled up
        what does the odometer stand at
        gimme total tow miles
        how many kilometres did the van do last year => trailer van, from 2025-01-01, to 2025-12-31
        how many miles have we hauled the camper total => trailer camper
        miles logged this month => from 2026-07-01
        could you tell me the current odometer reading
        distance since monday? => from 2026-07-06
        how many kms has the box trailer done => trailer box trailer
        how far since we left on friday => from 2026-07-10
    """,
    "trip": """
        trip totals pls
        how'd the last trip go
        how did Juniper do on this trip => truck Juniper
        numbers for the last haul
        sum up the trip please
        How has the trip been so far, fuel wise
        give us the rundown on this tow
        trip report
        last trip numbers please
        can i see the figures for the last trip
        how did the last run go for us
        quick recap of the trip home
        trip breakdown please
        how're we doing this trip on fuel
        stats for this trip
        how'd we make out on that last haul
        can you give me a summary of the last trip
        trip so far?
        what did the last trip look like, miles fuel and money
        how's the trip been for fuel and miles
        last trip's totals please
        summarize this haul for me
        how'd our last haul turn out
        whats the story on this trip, miles and fuel
        trip stats please
        Please total this trip up for me
        give me a rundown of the whole trip
        how's the haul going so far, fuel wise
        numbers on that last trip?
        final totals for the trip
    """,
    "week": """
        weekly numbers please
        how'd the truck do this week
        how's our week looking on fuel
        send me the weekly summary
        this week's totals?
        can we get a rundown of the week
        wrap up the week for me
        how did the camper do this week => trailer camper
        week to date
        week so far
        this week in numbers
        weekly report please
        did we do ok on fuel this week
        could I get this week's numbers
        hows Juniper been doing this week => truck Juniper
        summary of the week so far please
        week summary pretty please
        how many miles and gallons this week
        let's have the numbers for the week
        the week's figures please
        how are we doing for the week on fuel
        week's rundown?
        what does this week look like on fuel and miles
        Weekly roundup please
        show us the week
        this week: miles and cost?
    """,
    "period": """
        june 3 through june 17 numbers => from 2026-06-03, to 2026-06-17
        Report from 2026-05-01 to 2026-05-31 => from 2026-05-01, to 2026-05-31
        totals 6/1 - 6/15 => from 2026-06-01, to 2026-06-15
        how did we do in june => from 2026-06-01, to 2026-06-30
        numbers for may please => from 2026-05-01, to 2026-05-31
        last month's numbers => from 2026-06-01, to 2026-06-30
        summary for the last 30 days => from 2026-06-11
        how'd we do last weekend => from 2026-07-04, to 2026-07-05
        year to date totals => from 2026-01-01
        figures since the first of june => from 2026-06-01
        show everything from june 20th on => from 2026-06-20
        What do the figures look like from 10 June to 24 June => from 2026-06-10, to 2026-06-24
        recap of last month please => from 2026-06-01, to 2026-06-30
        2026-06-01 to 2026-06-10 summary => from 2026-06-01, to 2026-06-10
        stats for the past 2 weeks => from 2026-06-27
        pull the numbers from June 5 through today => from 2026-06-05, to 2026-07-11
        how did the rig do last month => from 2026-06-01, to 2026-06-30
        everything between 2026-06-01 and 2026-06-14 please => from 2026-06-01, to 2026-06-14
        May totals => from 2026-05-01, to 2026-05-31
        fuel and miles for the last two weeks => from 2026-06-27
        monday to thursday figures => from 2026-07-06, to 2026-07-09
        how did the last month go for the truck => from 2026-06-01, to 2026-06-30
        all the numbers from 6/1 through 6/30 => from 2026-06-01, to 2026-06-30
        How did April look for us, fuel and miles => from 2026-04-01, to 2026-04-30
        report for the 3rd to the 17th of june => from 2026-06-03, to 2026-06-17
        what were our totals for may => from 2026-05-01, to 2026-05-31
        numbers since tuesday please => from 2026-07-07
        sum up last month for me => from 2026-06-01, to 2026-06-30
        fuel summary for may 3 through may 19 => from 2026-05-03, to 2026-05-19
        monthly numbers for june pls => from 2026-06-01, to 2026-06-30
        what happened between june 1st and june 9th, numbers wise => from 2026-06-01, to 2026-06-09
        how'd the truck do in june => from 2026-06-01, to 2026-06-30
        show the last 3 weeks => from 2026-06-20
        june 8th to 20th totals => from 2026-06-08, to 2026-06-20
        recap from may 30 on => from 2026-05-30
        how was june, fuel and miles => from 2026-06-01, to 2026-06-30
        give me the stats between 6/10 and 6/25 => from 2026-06-10, to 2026-06-25
        report on the last month please => from 2026-06-01, to 2026-06-30
    """,
    "plan": """
        plan Alder Gap to Quail Lake => from Alder Gap, to Quail Lake
        how much fuel to get the camper to Silver Bend => trailer camper, to Silver Bend
        fuel needed for 540 miles towing the camper => distance 540 mi, trailer camper
        how many gallons for a 300 mile trip => distance 300 mi
        what will it cost us to drive 800 km with the van => distance 800 km, trailer van
        fuel budget for a thousand mile trip => distance 1000 mi
        how much diesel to Birch Hollow and back, 480 miles => distance 480 mi, to Birch Hollow
        can you plan 650 miles with the flatdeck => distance 650 mi, trailer flatdeck
        how many litres will we use over the next 600 km => distance 600 km
        whats a 450 mile haul gonna run us in fuel => distance 450 mi
        plan trip Dunmore to Alder Gap 190 miles => distance 190 mi, from Dunmore, to Alder Gap
        how many times do we need to fuel on a 700 mile run => distance 700 mi
        fuel for 220 miles? => distance 220 mi
        fuel stops for 900 miles? => distance 900 mi
        how much should we set aside for diesel to go 620 miles => distance 620 mi
        we are driving twelve hundred miles next week what will diesel cost => distance 1200 mi
        work out the fuel for a 350 mile tow with the flatdeck => distance 350 mi, trailer flatdeck
        gimme a fuel estimate, 480 miles pulling the camper => distance 480 mi, trailer camper
        how much diesel would 375 miles take with the camper => distance 375 mi, trailer camper
        if we drive 560 km what will we spend => distance 560 km
        going six hundred and forty miles tomorrow, how many gallons is that => distance 640 mi
        fuel plan for 500 miles with the camper => distance 500 mi, trailer camper
        how much will it cost to pull the camper 460 miles => distance 460 mi, trailer camper
        what would a 900 km trip use with the van on => distance 900 km, trailer van
        estimate the fuel bill for 270 miles => distance 270 mi
        planning on four hundred and twenty miles saturday, fuel estimate? => distance 420 mi
        plan 300 miles with the camper => distance 300 mi, trailer camper
        how many times would we fill up going 1200 km with the van => distance 1200 km, trailer van
        plan us a 580 mile haul with the flatdeck => distance 580 mi, trailer flatdeck
        how much fuel should we carry for 260 miles => distance 260 mi
        we have to go 730 miles on sunday, how many stops for diesel => distance 730 mi
        gallons needed to tow the camper 290 miles => distance 290 mi, trailer camper
        Plan: Alder Gap to Dunmore, camper on => trailer camper, from Alder Gap, to Dunmore
    """,
    "upkeep": """
        what maintenance is due
        anything coming due on the truck
        list upcoming service => item service
        when's the oil change due => item oil change
        upcoming maintenance please
        when were the bearings last greased => item bearings
        how many miles until the next oil change => item oil change
        is the camper due for a bearing repack => trailer camper, item bearing repack
        maintenance due?
        show me what's due
        service schedule please => item service
        how long till we need new oil => item oil
        do the tires need rotating yet => item tires need rotating
        what needs doing on the truck
        hows the oil change schedule looking => item oil change
        time for a tire rotation yet? => item tire rotation
        when should we grease the bearings again => item bearings
        any maintenance coming up in the next 500 miles => distance 500 mi
        how soon is the oil change => item oil change
        give me the upkeep list
        has the truck got anything overdue
        whats next for service => item service
        what upkeep have we got coming
        next oil change? => item oil change
        is a service due soon on Juniper => truck Juniper, item service
        what's overdue on the rig
        anything the truck needs done soon
        when's the next service for Juniper => truck Juniper, item service
        when did we last do a tire rotation => item tire rotation
        maintenance list
        what maintenance do we need to do
        oil change due? => item oil change
        is it time for the bearings yet => item bearings
        list everything that's due
        when are the tires due to be rotated => item rotated
    """,
    "help": """
        how does this work exactly
        what kind of stuff can i ask you
        how do i tell you about a fill up
        whats the right way to log a fill
        how does drawbar work
        explain how to use this bot
        what else can you do
        show me the commands
        can you help me log a weighing
        what can i text here
        how do i enter an odometer reading
        list of commands please
        how am i supposed to log fuel
        what can this thing do
        how would I go about logging a weigh ticket
        give me some examples of what to text
        what do I text you after a fill
        how do I tell you the odometer
        What's the format for a fill-up?
        what commands do you have
        how do I get started with this bot
        what sort of messages do you understand
        show me how to log a weight
        how's this bot supposed to work
        how would i send you a scale ticket
        tell me how this works please
        what can I ask drawbar
        which words do you understand
        how do i record a fill
        what are the things I can ask you
        explain how you work drawbar
        how do I text in an axle weight
    """,
}
"""By topic: a question, and behind the arrow what it names."""

PLANS = [
    (
        "we've got nine hundred miles ahead of us, how much diesel should we figure on",
        "distance 900 mi",
    ),
    (
        "Thinking of going to Quail Lake with the flatdeck, 420 miles. What will the fuel cost?",
        "distance 420 mi, trailer flatdeck, to Quail Lake",
    ),
    (
        "if we head to Birch Hollow that's 260 miles how many fuel stops",
        "distance 260 mi, to Birch Hollow",
    ),
    (
        "estimate fuel from Dunmore to Quail Lake, 310 mi",
        "distance 310 mi, from Dunmore, to Quail Lake",
    ),
    (
        "we're taking the camper to Alder Gap, 275 miles, how much fuel are we gonna burn",
        "distance 275 mi, trailer camper, to Alder Gap",
    ),
    (
        "what'll we burn getting the camper to Alder Gap, 340 miles",
        "distance 340 mi, trailer camper, to Alder Gap",
    ),
    (
        "Trip from Dunmore to Birch Hollow 230 miles, fuel needed?",
        "distance 230 mi, from Dunmore, to Birch Hollow",
    ),
    (
        "what would it run us to haul the flatdeck to Silver Bend, about 280 miles",
        "distance 280 mi, trailer flatdeck, to Silver Bend",
    ),
    (
        "Need a fuel plan: Dunmore to Quail Lake, 410 miles",
        "distance 410 mi, from Dunmore, to Quail Lake",
    ),
    (
        "we leave friday for Alder Gap, 330 miles out. How many tanks is that?",
        "distance 330 mi, to Alder Gap",
    ),
    (
        "how many fill ups on a 1,100 mile trip with the flatdeck",
        "distance 1100 mi, trailer flatdeck",
    ),
    (
        "Dunmore to Alder Gap is 350 miles. How much diesel should we plan for?",
        "distance 350 mi, from Dunmore, to Alder Gap",
    ),
    (
        "heading to Birch Hollow tomorrow, 200 miles each way, how much fuel for the round trip",
        "distance 200 mi, to Birch Hollow",
    ),
    (
        "how many fuel stops between Dunmore and Quail Lake, 610 miles",
        "distance 610 mi, from Dunmore, to Quail Lake",
    ),
    (
        "how much diesel do we need to run the camper 330 miles to Alder Gap",
        "distance 330 mi, trailer camper, to Alder Gap",
    ),
    (
        "if we run over to Silver Bend, 185 miles, what'll the fuel come to",
        "distance 185 mi, to Silver Bend",
    ),
    (
        "how much fuel from Dunmore to Birch Hollow, 150 miles",
        "distance 150 mi, from Dunmore, to Birch Hollow",
    ),
    (
        "what's the fuel going to cost from Dunmore to Quail Lake, 330 miles",
        "distance 330 mi, from Dunmore, to Quail Lake",
    ),
]

TAKEN_BACK = """
cancel the last thing i sent
could you delete the last entry please
can you remove that last entry
please take out the last reading
would you scratch that last one for me
remove the last thing i logged
get rid of my last entry please
undo my last message
can you undo that
pls cancel my last log
i need to delete that last fill
take my last weighing back out
that last fill up was a mistake please remove it
drop the last entry
delete what i just logged
can you get rid of that last reading?
i'd like to remove the last entry
please undo the last thing i entered
ditch that last fill-up
sorry, delete my previous message
please delete the last fill up i sent
can u undo my last entry
scrap the last reading please
remove what i just entered, it was wrong
can you cancel my last entry please
remove that last fill-up, it was a double
undo the last thing please
wipe the last entry
please get rid of the last entry
take back my last message
could you please remove my last fill
delete the last thing i texted
would you please delete my last message
can you take out the last fill
i want to undo my last entry
cancel that last weighing please
"""

TALK = """
plan b to plan a
plan to go to Denver on Friday
planning Mossgate to Leeds by train
how far is it to the beach
how far is your house
the range on that stove is broken
price a mile high pizza
total miles i ran today was 4
total spent on shoes
we spent it all on fuel
fuel is so expensive now
gas costs too much
diesel prices are crazy
come on just tell me
come on just tell me the truth
tell me about your week
how was your week
how'd the game go this week
how'd the kids do this week
how did the dog do on the trip
may 20 to may 28 we are in Spain
from 1 june to 14 june we're away
figures he'd say that
june 3 to june 9 works for me
list whatever you need from the store
list what's coming up on tv
what's coming up this week
how does this toaster work
how does that work
how does the bus work here
how many times do i have to tell you
how many times will we have to stop for the kids
how much food should we figure on
we've got three hours to go, how much coffee should we buy
would you delete that photo of me please
can you remove that last comment
could you please delete that email
cancel the last pizza i ordered
cancel the meeting
delete my number please
cancel the last thing on the list
i need to delete that app
our range of products
miles away from home
miles is coming over
is miles coming today
so miles ahead
miles today lol
a mile to go
two more miles and im done
ninety more minutes
ninety more miles to grandma
can we do 5 more minutes
the last tank top i bought
how are you doing on money
what are my options for dinner
what are the options
what else can you do about it
how do you work from home
how do you do
show me what you got
show me everything
what needs doing at the house
what's due tomorrow in math
is anything due on friday
is the rent due
total bill was 80 bucks
fuel bill came today
what a trip
the trip was great
last trip was better
how was the trip
how was your trip to Spain
trip numbers don't matter
week so far has been awful
this week's been long
weekly shop is done
how'd she do this week
summary of the book please
numbers for the plumber
numbers please
last month's rent
year to date
give me a total
how long til dinner
how long til we get there
how much further
how much longer
how much further is it to your place
are we there yet
do we have enough milk for tomorrow
got enough cash?
will we make it to the movie
will we make it by 6
can you explain how to use this
explain yourself
average
compare the two
empty
miles
service was terrible
service schedule for church
upcoming events
we got good mileage out of that joke
i get great mileage
mpg was awful today
my mpg sucks
our mpg is down
the fuel economy on the rental was great
hows the economy this week
current mood
distance is hard
long distance
costs too much
towing costs a fortune
had to tow the car, cost a fortune
what do we owe you for fuel
whats your mileage
how many miles did you run this week
how many miles did you drive today
how far did you get today
how many miles is your truck at
what range does his truck get
estimate for the roof
plan for saturday
plan dinner for six
plan Anna's party
the plan is Boise to Reno
fuel up and go
fuel for thought
take the last slice out
take the last bus home
get rid of my last beer
undo my last button
drop the last one off at school
remove the last bolt
scratch my last nerve
how long till we get there
how far did we go
how far is it
how much do we owe
is it worth the money
how much is gas there
how much is diesel
what's the price of diesel
we need gas
need gas?
get gas please
get some gas on the way home
how much gas do you have
should we stop for gas?
when do we need to leave
how much money do we have left
how much time is left
how much time do we have left
how many days left
plan on 3 miles
3 miles to go?
is it 3 miles?
can we run 3 miles today
how long is the trip
how many miles is it to Boise?
how far is Boise
how far is it to Boise
how much would it cost to go to Boise
can you get gas on the way home
will you fill the tank
what is the total
total please
best trip ever
how was the drive
how's the drive going
how's work going this week
how is everything going
how are things this week
how much did that cost
how much does it cost to run this
how much is it per day
what does it cost a month
it's a mile down the road
about a mile
half a mile more
a few more miles
miles and miles of road
so many miles
we ran 6 miles this week
ran 5 miles today
5 miles today
i ran a mile
only 20 more miles
10 more miles please
what time is it there
gas is up again
diesel is up
out of gas
we are out of gas
low on gas
running low on diesel
we got diesel
filled the tank
fill it up please
the tank is full
tank is empty
tank empty
empty the tank please
we spent too much
we spent the week at home
spent the day on the road
week off
last week was good
this week is good
next week please
next month
all month long
money is tight this month
money well spent
the money is good
cost me a fortune
the cost of living
the price is right
what a price
oil is due
service please
service was good
the service here is good
how is the service there
is the service good
any service here
no service here
due today
is it due today
what is due today
when is it due
is the report due
what is the plan
whats the plan for today
plan for the week
what's our plan for the weekend
we had a good run
good run today
run it again
home run
make it home safe
we made it
did we make it
will we make it
can we make it by 6
can we make it home by 6
gonna make it
think we can make it
is it far
not far now
how much further is it
how much longer is the drive
go the distance
what's the distance
keep your distance
range of motion
the range is hot
that's out of my range
log on please
tell me about it
tell me how it goes
how do i get there
how do i get to the road
what can i do
what can i get you
what can i bring
what do i need to bring
what do i tell them
what should i tell them
what can i tell you
how does it work
how do i use it
bot or not
are you a bot
is this a bot
what is this bot
delete this
delete it
can you delete it
can you delete that photo
take it back
remove it please
cancel it
cancel the last order
cancel my last order please
forget the last bit
forget what i said
"""


@pytest.mark.parametrize("topic", ASKED)
def test_a_question_is_understood_in_any_form(topic: str, reads: Reader) -> None:
    for line in ASKED[topic].strip().splitlines():
        text, _, named = line.strip().partition(" => ")
        context = DOWN_UNDER if any(word in text for word in KILOMETRES) else on_the_road()
        record = verdict_to_record(reads(text, context))
        assert record["verdict"] == "question", text
        question = record["question"]
        assert question.pop("topic") == topic, text
        told = {key: value for key, value in question.items() if key != "form"}
        assert _in_words(told) == named, text


@pytest.mark.parametrize(("text", "named"), PLANS)
def test_a_plan_is_understood_with_all_that_it_names(text: str, named: str, reads: Reader) -> None:
    question = verdict_to_record(reads(text, on_the_road()))["question"]
    assert question.pop("topic") == "plan"
    assert _in_words(question) == named


def _in_words(named: dict[str, object]) -> str:
    """'distance 140 mi, trailer camper': what a question names, as the lists above write it."""
    parts = []
    for key, value in named.items():
        if isinstance(value, dict):
            value = f"{value['value']:g} {value['unit']}"
        parts.append(f"{key} {value}")
    return ", ".join(parts)


@pytest.mark.parametrize("text", TAKEN_BACK.strip().splitlines())
def test_what_was_sent_last_is_taken_back_however_it_is_asked(text: str, reads: Reader) -> None:
    record = verdict_to_record(reads(text, on_the_road()))
    assert record == {"verdict": "entry", "entries": [{"kind": "correction", "action": "undo"}]}


@pytest.mark.parametrize("context", [chat(), on_the_road(), DOWN_UNDER])
def test_talk_of_the_same_words_stays_talk(context: Context, reads: Reader) -> None:
    talk = TALK.strip().splitlines()
    assert len(talk) > 100
    assert [text for text in talk if not isinstance(reads(text, context), Silent)] == []
