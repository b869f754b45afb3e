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
anything left to check before we pull out|upkeep item=walk-round
did we check everything on the walk round|upkeep item=walk_round
when is the anode due|upkeep item=anode
when were the tires last rotated|upkeep item=tires_last_rotated
how hevy is the camper|weight trailer=camper
are we legall|margin
are we over any limmits|margin
whats the rear axil weigh|weight field=drive
whats the payloed rating|ratings rating=payload
are the tyrs over there limit|margin item=tyrs
"""

METRIC = """
how many kilos more can we load in the van|margin form=more
what will 800 k's cost us with the van on|plan distance=800km
how much will 720 k's burn|plan distance=720km
what will 650 ks run us|plan distance=650km
"""

SPANISH = """
cuanto mas puedo cargar en la flatdeck|margin trailer=flatdeck form=more
¿cuánto más cabe en la caja?|margin form=more
muéstrame todos los límites que tienes|ratings
¿ya revisamos las cadenas?|upkeep item=cadenas form=done
¿cuándo engrasamos los baleros?|upkeep item=baleros form=done
que falta por revisar|upkeep item=walk-round
"""

TALK = """
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
