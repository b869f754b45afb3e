"""What the words of the records are called in the language of an answer.

The records hold words of their own: places on the rig, gauges, parts, products. This file decides
which of them a language has a word for; in English each is its own. Whatever else is asked for
here (what a person called a load, a point of their own on the walk-round) stays as it is.
"""

from __future__ import annotations

from bot.answers.language import marked, say

LOADS = (
    marked("gross"),
    marked("truck"),
    marked("steer"),
    marked("drive"),
    marked("trailer"),
    marked("tongue"),
    marked("trailer 1"),
    marked("trailer 2"),
    marked("trailer 3"),
    marked("steer left"),
    marked("steer right"),
    marked("drive left"),
    marked("drive right"),
    marked("trailer left"),
    marked("trailer right"),
    marked("trailer 1 left"),
    marked("trailer 1 right"),
    marked("trailer 2 left"),
    marked("trailer 2 right"),
    marked("trailer 3 left"),
    marked("trailer 3 right"),
    marked("trailer weight"),
)
"""What stands on a scale."""

PLACES = (
    marked("front"),
    marked("rear"),
    marked("left"),
    marked("right"),
    marked("left front"),
    marked("right front"),
    marked("left middle"),
    marked("right middle"),
    marked("left rear"),
    marked("right rear"),
    marked("trailer front"),
    marked("trailer rear"),
    marked("trailer left front"),
    marked("trailer right front"),
    marked("trailer left middle"),
    marked("trailer right middle"),
    marked("trailer left rear"),
    marked("trailer right rear"),
)
"""Where on the rig a gauge was read."""

GAUGES = (
    marked("transmission"),
    marked("coolant"),
    marked("oil"),
    marked("exhaust"),
    marked("tyre"),
    marked("hub"),
    marked("ambient"),
    marked("speed"),
    marked("engine speed"),
    marked("grade"),
    marked("wind"),
)

PARTS = (
    marked("hitch"),
    marked("ball mount"),
    marked("ball"),
    marked("coupler"),
    marked("pin box"),
    marked("fifth wheel"),
    marked("chains"),
    marked("truck tyres"),
    marked("trailer tyres"),
)
"""What has a rating besides truck and trailer."""

FIELDS = (
    marked("payload"),
    marked("tow"),
    marked("load"),
    marked("tank"),
    marked("def tank"),
    marked("axles"),
    marked("wheelbase"),
    marked("overhang"),
    marked("coupler to axle"),
    marked("deck"),
    marked("pressure"),
    marked("date code"),
    marked("volume"),
    marked("odometer"),
    marked("distance"),
    marked("unit price"),
    marked("cost"),
    marked("dash economy"),
    marked("full"),
    marked("place"),
    marked("ticket"),
    marked("bars"),
    marked("aboard"),
    marked("item"),
    marked("position"),
    marked("value"),
    marked("state"),
    marked("action"),
    marked("event"),
    marked("product"),
    marked("note"),
    marked("rating"),
    marked("fill"),
    marked("hitched"),
    marked("unhitched"),
    marked("done"),
    marked("fault"),
    marked("photo"),
    marked("tyre load"),
    marked("d value"),
    marked("every"),
    marked("factor"),
    marked("digits"),
    marked("replaced"),
    marked("walk-round"),
)
"""What is stated of things, and how they stand."""

PRODUCTS = (
    marked("diesel"),
    marked("gasoline"),
    marked("e85"),
    marked("propane"),
    marked("def"),
)

MODES = (marked("solo"), marked("all driving"), marked("the trailer"))
"""Ways of driving that are nobody's name for a trailer."""

WANTING = (
    marked("a pass of the truck alone"),
    marked("the truck's curb weight"),
    marked("the number of trailer axles"),
    marked("single"),
    marked("dual"),
    marked("what one rear tyre carries"),
    marked("the GVWR of truck and trailer"),
    marked("a hitched weighing"),
    marked("steer and drive axles"),
    marked("each axle of the truck by itself"),
    marked("the trailer's axles"),
)
"""What a margin wants before it can be judged."""

UNDATED = (marked("not a code"), marked("three digits"), marked("no such week"))
"""Why a tyre's code tells no date."""


def term(word: str) -> str:
    """A word of the records as people say it."""
    return say(word.replace("_", " "))
