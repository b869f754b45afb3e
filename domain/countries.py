"""What is customary in a country: the share of a trailer that rests on the truck, and its placard.

This file decides which country a logbook's rig is judged as, by the money of the logbook, and
what differs there: the customary tongue and pin shares, and whether a placard on the truck states
a payload. Ratings, and what stands against them, are the same everywhere.

Sources, each as read unless said otherwise. North America and anywhere else: makers' manuals and
extension notes print 10 to 15 %, of a pin 15 to 25 % (common practice). Britain: the National
Caravan Council's Caravan Towing Guide gives 5 to 7 % of the laden weight, and calls more of it
steadier still as far as the outfit permits; no government page that gives a share was found.
The euro countries: StVZO 44(3) of Germany asks for 4 % of the actual weight (it need not be more
than 25 kg). Both: a centre-axle trailer is one that puts no more than 10 % or 1,000 daN on the
coupling (ISO 3833 and Regulation (EU) 2018/858, Annex I; **M** for both). New Zealand: its
transport agency gives 10 % as a rule of thumb (21 December 2020). Australia: about 10 % is printed
by clubs and makers alike. How wide 'about' is, 8 to 15 %, is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from domain.rig import Coupling


@dataclass(frozen=True, slots=True, kw_only=True)
class Custom:
    """A customary share of the trailer's weight, from `low` to `high`; above `most` it is high.

    Between `high` and `most` more is as good or better, as far as the ratings allow.
    """

    low: float
    high: float
    most: float

    @property
    def more_is_steadier(self) -> bool:
        """Whether a share above the customary range is not yet called high."""
        return self.most > self.high


@dataclass(frozen=True, slots=True, kw_only=True)
class Country:
    """What differs where a rig is judged.

    `placard` where a placard on the truck states what people, cargo and tongue may weigh together
    (49 CFR 571.110 S4.3 and Canada's CMVSS 110; elsewhere plates state masses alone; **M**).
    """

    tongue: Custom
    pin: Custom
    placard: bool

    def share_of(self, coupling: Coupling) -> Custom:
        """The customary share of a kind of coupling."""
        return self.pin if coupling == "pin" else self.tongue


PIN = Custom(low=0.15, high=0.25, most=0.25)
ANYWHERE = Country(tongue=Custom(low=0.10, high=0.15, most=0.15), pin=PIN, placard=True)
ABOUT_A_TENTH = Country(tongue=Custom(low=0.08, high=0.15, most=0.15), pin=PIN, placard=False)
COUNTRIES: Mapping[str, Country] = {
    "AUD": ABOUT_A_TENTH,
    "NZD": ABOUT_A_TENTH,
    "GBP": Country(tongue=Custom(low=0.05, high=0.07, most=0.10), pin=PIN, placard=False),
    "EUR": Country(tongue=Custom(low=0.04, high=0.10, most=0.10), pin=PIN, placard=False),
}
"""Countries that differ, by the money that people there think in."""


def country_of(currency: str) -> Country:
    """The country of a logbook with a currency (ISO 4217)."""
    return COUNTRIES.get(currency, ANYWHERE)
