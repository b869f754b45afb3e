"""A label: what a run of words such as 'trailer left rear' names.

This file decides what one word adds to what the words before it name, and when it would contradict
them. Which words belong to one label is decided in `labels`.
"""

from __future__ import annotations

from domain.reading.figures import Figure
from domain.reading.tokens import Token

PLACING = frozenset(
    (
        "axle",
        "end",
        "side",
        "corner",
        "ordinal",
        "numbered_axle",
        "vehicle",
        "name",
        "axle_noun",
    )
)
"""Classes of term for a place on the rig, or for a vehicle of it."""

NAMING = PLACING | frozenset(
    (
        "whole",
        "odometer",
        "trip_meter",
        "dash",
        "subject",
        "rating",
        "rating_subject",
        "ticket",
        "fee",
    )
)
"""Classes of term that a label is made of."""


class Label:
    """What a run of words names: a place on the rig, a field, a gauge or a rating.

    It is made by `make_label`.
    """

    __slots__ = (
        "aside",
        "axle",
        "bound",
        "compound",
        "end",
        "end_of",
        "field",
        "name",
        "of_both",
        "ordinal",
        "rating",
        "rating_subject",
        "side",
        "start",
        "subject",
        "to_ordinal",
        "vehicle",
        "wheel",
        "whole",
    )

    aside: bool
    axle: str | None
    bound: Figure | None
    compound: bool
    end: int
    end_of: str | None
    field: str | None
    name: str | None
    of_both: bool
    ordinal: int | None
    rating: str | None
    rating_subject: str | None
    side: str | None
    start: int
    subject: str | None
    to_ordinal: int | None
    vehicle: str | None
    wheel: str | None
    whole: str | None

    @property
    def places(self) -> bool:
        """Whether it names a place on the rig that can carry a load."""
        return bool(
            self.axle
            or self.end_of
            or self.side
            or self.ordinal
            or self.vehicle
            or self.whole
            or self.wheel
        )

    @property
    def places_load(self) -> bool:
        """Whether it names a place that has a load of its own: an axle, a side, a whole."""
        return self.places and not (self.only_vehicle or self.subject)

    @property
    def heads_axles(self) -> bool:
        """Whether it names the front axle of a trailer; more of them may follow."""
        front = self.axle == "steer" or (self.wheel == "axle" and self.end_of == "front")
        return self.vehicle == "trailer" and front

    @property
    def only_ordinal(self) -> bool:
        """Whether it is a bare 'first', which counts anything."""
        return self.ordinal is not None and not (
            self.vehicle or self.axle or self.wheel or self.side or self.end_of or self.subject
        )

    @property
    def only_axles(self) -> bool:
        """Whether it says 'axles', and not of what."""
        named = self.axle or self.end_of or self.side or self.ordinal or self.vehicle
        return self.wheel == "axle" and not named

    @property
    def only_its_axles(self) -> bool:
        """Whether it names the axles of a vehicle, all of them: 'trailer axles', 'tandem van'."""
        return self.wheel == "axle" and self.all_of_vehicle

    @property
    def all_of_vehicle(self) -> bool:
        """Whether it names a vehicle, and no one axle, side or end of it: 'trailer wheels'."""
        part = self.axle or self.end_of or self.side or self.ordinal or self.whole
        return bool(self.vehicle) and not part

    @property
    def only_side(self) -> bool:
        """Whether it names a side, and not of what."""
        return bool(self.side) and not (self.axle or self.end_of or self.vehicle or self.wheel)

    @property
    def only_end(self) -> bool:
        """Whether it names a front or a back, and not of what."""
        return bool(self.end_of) and not (self.axle or self.side or self.vehicle or self.wheel)

    @property
    def only_vehicle(self) -> bool:
        """Whether it names a vehicle and nothing on it."""
        return bool(self.vehicle) and not (
            self.axle
            or self.end_of
            or self.side
            or self.ordinal
            or self.wheel
            or self.subject
            or self.rating
            or self.field
        )


ON_WHEELS = frozenset(("tyre", "hub"))
"""Gauges that each end of an axle has."""

ENDS = {"steer": "front", "drive": "rear"}

PLACES = frozenset(("axle", "end", "whole"))
"""Classes of term for where a load was weighed, or what a limit is of."""

AXLE_AT = {end: axle for axle, end in ENDS.items()}
"""The truck's axle at each of its ends."""


def make_label(start: int) -> Label:
    """A label that names nothing yet; a function as `make_token` is."""
    label = Label()
    label.start = start
    label.end = start + 1
    label.axle = label.end_of = label.side = label.ordinal = label.to_ordinal = None
    label.vehicle = label.name = label.whole = label.wheel = label.field = label.subject = None
    label.rating = label.rating_subject = label.bound = None
    label.of_both = label.compound = label.aside = False
    return label


def extend(label: Label, token: Token, *, of: bool = False) -> bool:
    """Add a word to a label; False where it would contradict what the label names.

    `of` says that a small word stands between: 'front axle of the trailer'.
    """
    senses = token.senses
    if "together" in token.groups and (label.wheel or label.vehicle == "truck") and not label.whole:
        return label.vehicle is not None
    if label.rating and "subject" in senses and (of or label.vehicle):
        return True  # 'load index on the trailer tires'
    if of and (label.axle or label.whole or label.rating) and not label.vehicle:
        if "name" in senses:
            label.vehicle, _, label.name = senses["name"].partition(":")
            return True
        if "vehicle" in senses:
            label.vehicle = senses["vehicle"]
            return True
    if "rating" in senses and label.rating is None:
        if label.whole or label.field or label.subject:
            return False
        label.rating = senses["rating"].split()[0]
        return True
    if label.rating == "gawr" and senses.get("axle") in ENDS and not label.end_of:
        label.end_of = ENDS[senses["axle"]]  # 'gawr drive axle'
        return True
    if "axle" in senses:
        if label.axle or label.end_of or label.whole or label.field or label.rating:
            return False
        if label.vehicle == "trailer" and "trucks_axle" in token.groups:
            return False  # 'weighed the camper steer 5,280 drive 7,140'
        label.axle = senses["axle"]
        return True
    if "corner" in senses:
        if label.side or label.end_of or label.axle or label.whole:
            return False
        label.side, label.end_of, *towed = senses["corner"].split("_")
        label.vehicle = "trailer" if towed else label.vehicle
        return True
    if "side" in senses:
        if label.side or label.whole or label.rating:
            return False
        label.side = senses["side"]
        return True
    if "numbered_axle" in senses:
        if label.places or label.field or label.rating:
            return False
        vehicle, _, number = senses["numbered_axle"].rpartition(" ")
        label.vehicle, label.wheel, label.ordinal = vehicle or None, "axle", int(number)
        return True
    if "end" in senses:
        if label.end_of or label.axle or label.whole:
            return False
        label.end_of = senses["end"]
        return True
    if "whole" in senses:
        if label.places or label.field or label.rating:
            return False
        label.whole = senses["whole"]
        return True
    if "name" in senses:
        if label.name or label.whole or (label.vehicle and label.axle):
            return False
        vehicle, _, label.name = senses["name"].partition(":")
        if label.vehicle and label.vehicle != vehicle:
            return False
        label.vehicle = vehicle
        return True
    if senses.get("subject") in ON_WHEELS and label.axle in ENDS and not label.subject:
        label.end_of, label.axle = ENDS[label.axle], None  # 'front axle hubs 118'
    if "subject" in senses:
        if label.subject or label.field or label.rating or label.whole or label.axle:
            return False
        label.subject = senses["subject"].split()[0]
        return True
    if "vehicle" in senses:
        if label.vehicle or label.whole or label.axle or label.field:
            return label.vehicle == senses["vehicle"]
        label.vehicle = senses["vehicle"]
        return True
    if "axle_noun" in senses:
        if label.wheel or label.whole or label.field:
            return False
        label.wheel = senses["axle_noun"]
        return True
    if "ordinal" in senses:
        if label.ordinal or label.whole or label.field or label.axle:
            return False
        key = senses["ordinal"]
        label.ordinal = int(key) if key.isdigit() else None
        return label.ordinal is not None
    for field in ("odometer", "trip_meter", "dash", "ticket", "fee"):
        if field in senses:
            if label.places or label.subject or label.rating or label.whole:
                return False
            label.field = label.field or field
            return label.field == field
    if "rating_subject" in senses:
        if label.rating_subject:
            return False
        label.rating_subject = senses["rating_subject"]
        return True
    return False
