"""Answers to the entries that only need a nod: odometer, hitch, gauge, load, note.

This file decides how short a confirmation can be while the texter can still see that the
right figures were kept. It works nothing out.
"""

from __future__ import annotations

from collections.abc import Sequence

from bot.answers.answer import Answer
from bot.answers.brief import at_place, brief, on_the_way
from bot.answers.by_plate import ONLY_A_SCALE
from bot.answers.language import marked, say
from bot.answers.limits import CAUTION
from bot.answers.measures import the_trailer
from bot.answers.words import figure, listed, rounded, sentence
from bot.reference import gauge_table
from domain.entries import Cargo, Hitch, Note, Observation, Odometer
from domain.gauges import hot, soft
from domain.quantities import VOLUMES
from domain.water import mass_of


def odometer_kept(entry: Odometer) -> Answer:
    """An odometer reading was kept."""
    reading = on_the_way(figure(entry.odometer), entry)
    return Answer(headline=say("Odometer {figure}.", figure=reading), quiet=True)


def hitch_kept(entry: Hitch, before: Hitch | None = None) -> Answer:
    """A trailer went on or came off; one that was on `before` and is another counts as off."""
    which = sentence(entry.trailer) if entry.trailer else say("Trailer")
    went_on = entry.action == "hitched"
    done = (
        say("{trailer} hitched", trailer=which) if went_on else say("{trailer} off", trailer=which)
    )
    if entry.place:
        done = at_place(done, entry.place)
    if went_on and before is not None and before.trailer and _is_another(before, entry):
        took_off = say(
            "{hitched}; {trailer} counts as off.",
            hitched=done,
            trailer=the_trailer(before.trailer),
        )
        return Answer(headline=took_off)
    headline = f"{done}." if went_on else say("{unhitched}; running solo.", unhitched=done)
    return Answer(headline=headline, quiet=True)


def _is_another(before: Hitch, now: Hitch) -> bool:
    """Whether another trailer was on, and nobody said that it came off."""
    if before.action != "hitched" or before.trailer is None or now.trailer is None:
        return False
    return before.trailer.casefold() != now.trailer.casefold()


def observations_kept(entries: Sequence[Observation], before: Sequence[Observation] = ()) -> Answer:
    """Gauges were read; what is hot, and which tyre is soft, is said aloud.

    `before` are those read in the day before, to which a single tyre is held.
    """
    told = sentence(listed([brief(entry) for entry in entries]))
    kept = say("{entries}, kept.", entries=told)
    heated, slack = hot(entries, gauge_table()), soft(entries, gauge_table(), before)
    if not (heated or slack):
        return Answer(headline=kept, quiet=True)
    advice = [say(WHEN_HOT.get(each.subject, ENGINE_HOT)) for each in heated]
    advice += [say(SOFT)] if slack else []
    notes = tuple(dict.fromkeys(advice))
    if len(heated) == len(entries):
        readings = listed([brief(entry) for entry in heated])
        return Answer(headline=say("Hot: {readings}; kept.", readings=readings), notes=notes)
    heads = [
        say(words, readings=listed([brief(entry) for entry in found]))
        for words, found in ((HOT, heated), (SLACK, slack))
        if found
    ]
    return Answer(headline=" ".join(heads), notes=(*notes, kept))


HOT, SLACK = marked("Hot: {readings}."), marked("Soft: {readings}.")

SOFT = marked(
    "A quarter below the others or more. Look for a nail or a leaking valve, and set it to the "
    "label's pressure, cold, before you go on."
)
"""What is said of a soft tyre; common practice, no source."""

ENGINE_HOT = marked(
    "Ease off, or stop off the road and let it idle until it comes down. The maker's manual says "
    "what is too hot; a licensed mechanic where it stays so."
)
WHEN_HOT = {
    "hub": marked(
        "Stop well off the road, let it cool and don't touch it. One hotter than the others may "
        "have a failing bearing or a dragging brake: a licensed mechanic before you go on."
    ),
    "tyre": marked(
        "Stop well off the road and let it cool: never let air out of a hot tyre. Check the load "
        "and, once cold, the pressure on the label."
    ),
}
"""What is said where a part is hot, by what it is; common practice, no source."""


def cargo_kept(entries: Sequence[Cargo], over: str = "") -> Answer:
    """Something was loaded; water, which is told by its volume, with what it weighs.

    `over` says that it is too much for the trailer, and comes before what was kept.
    """
    poured = [mass_of(entry.value) for entry in entries if entry.value.unit in VOLUMES]
    masses = [rounded(mass) for mass in poured if mass is not None]
    weighs = (say("Water weighs: {masses}.", masses=listed(masses)),) if masses else ()
    loaded = say("Loaded: {entries}.", entries=listed([brief(entry) for entry in entries]))
    return Answer(
        headline=" ".join(filter(None, (over, loaded))),
        notes=(*weighs, say(ONLY_A_SCALE), *([say(CAUTION)] if over else [])),
        urgent=bool(over),
    )


def note_kept(entry: Note) -> Answer:
    """Words were kept."""
    return Answer(headline=say("Noted: {words}", words=entry.note), quiet=True)
