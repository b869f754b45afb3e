"""What is texted in the soak: chats of people who tow, and of people who talk to each other.

A chat tells its rig, then a bit of everything as in life: weighings, fills, odometers, trips,
questions, corrections, talk, photos, edits and deletions. Chance is seeded by chat. Every
message's time lies in the week before the run, in order, so that weekly summaries have something
to tell.
"""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import datetime, timedelta

from bot.messages import Deleted, Edited, Event, Message, Photo
from tests.corpora import cases

RIG = (
    "truck Juniper gvwr 11500 gcwr 27000 front axle 5600 rear axle 7000 tank 34 gal diesel",
    "trailer flatdeck gvwr 12000 axles 2x6000",
    "hitch rating 14000, tongue rating 1400",
)
QUESTIONS = (
    "how heavy are we?", "are we over?", "ratings?", "mpg?", "trip?", "margins",
    "how did we do this week?", "how far can we get on this tank?", "what would 400 miles cost?",
    "what if I add 600 lb on the tongue?", "are 4 chains 3/8 grade 70 enough for 9,200 lb?",
)  # fmt: skip
LATEST = 5
"""Messages of a chat that may still be edited or deleted."""

TALK = [each.text for each in cases("chatter")]


class Chat:
    """A chat of one person, or of two in a group; what it tells next."""

    def __init__(self, network: str, number: int, began: datetime) -> None:
        self.network = network
        self.name = f"{network} chat {number}"
        self.private = number % 3 > 0
        self.odometers: list[str] = []
        """Messages that are an odometer reading and nothing else, and stay so."""
        self._chance = random.Random(self.name)
        self._miles = self._chance.randrange(20_000, 90_000)
        self._told: list[Message] = []
        self._count = 0
        self._at = began - timedelta(days=6, hours=12) + timedelta(minutes=number % 60)

    @property
    def has_told(self) -> bool:
        """Whether it has told anything."""
        return self._count > 0

    def next(self) -> Event:
        """The next event; the times of two are a minute and a half apart."""
        self._at += timedelta(seconds=90)
        self._count += 1
        if self._count <= len(RIG):
            return self._message(RIG[self._count - 1])
        kinds = (
            (16, self._odometer), (14, self._weighing), (14, self._fill), (10, self._trip),
            (16, self._question), (5, self._correction), (14, self._talk), (4, self._photo),
            (5, self._edit), (2, self._deletion),
        )  # fmt: skip
        weights, tell = zip(*kinds, strict=True)
        event: Event = self._chance.choices(tell, weights)[0]()
        return event

    def _message(self, text: str, photo: Photo | None = None, *, final: bool = False) -> Message:
        author = "ana" if self.private else self._chance.choice(("ana", "ben"))
        message = Message(
            network=self.network,
            chat=self.name,
            id=f"m{self._count}",
            author=f"{author} of {self.name}",
            name=author.capitalize(),
            sent_at=self._at,
            text=text,
            photo=photo,
            private=self.private,
        )
        if photo is None and not final:
            self._told = [*self._told, message][-LATEST:]
        return message

    def _drive(self) -> int:
        self._miles += self._chance.randrange(3, 30)
        return self._miles

    def _odometer(self) -> Event:
        message = self._message(f"odo {self._drive()}", final=True)
        self.odometers.append(message.id)
        return message

    def _loads(self) -> str:
        steer, drive, trailer = (
            self._chance.randrange(*bounds, 20)
            for bounds in ((4800, 5700), (5800, 7300), (7000, 11500))
        )
        return f"steer {steer} drive {drive} trailer {trailer}"

    def _weighing(self) -> Event:
        return self._message(self._loads())

    def _fill(self) -> Event:
        gallons, price = self._chance.uniform(12, 31), self._chance.uniform(3.4, 4.4)
        full = self._chance.choice((", full", "", ", topped off"))
        return self._message(f"{self._drive()}, {gallons:.1f} gal at {price:.3f}{full}")

    def _trip(self) -> Event:
        told = ("hitched the flatdeck", "dropped the trailer", "lug nuts torqued", "trans 195",
                f"leaving, {self._drive()}", f"arrived, {self._drive()}")  # fmt: skip
        return self._message(self._chance.choice(told))

    def _question(self) -> Event:
        return self._message(self._chance.choice(QUESTIONS))

    def _correction(self) -> Event:
        told = ("undo", f"make that {self._chance.randrange(4800, 5700)}", "1")
        return self._message(self._chance.choice(told))

    def _talk(self) -> Event:
        return self._message(self._chance.choice(TALK))

    def _photo(self) -> Event:
        lines = self._chance.choice((self._loads().replace(" drive", "\ndrive"), ""))
        return self._message(self._chance.choice(("", "unsure")), Photo(reference=lines))

    def _edit(self) -> Event:
        first = self._chance.choice(self._told)
        text = self._chance.choice((self._loads(), self._chance.choice(TALK), first.text + " ok"))
        self._told = [each for each in self._told if each.id != first.id] or self._told
        edited = replace(first, text=text)
        return Edited(message=edited, id=f"e{self._count}", at=self._at)

    def _deletion(self) -> Event:
        first = self._chance.choice(self._told)
        return Deleted(
            network=first.network, chat=first.chat, id=first.id, author=first.author,
            name=first.name, at=self._at,
        )  # fmt: skip
