"""Replies and taps: what they are about; and questions that wait until the rig stands."""

from __future__ import annotations

from dataclasses import replace

from bot.messages import Photo
from bot.store import outbox
from bot.store.database import Store
from domain.entries import Correction, Observation, Odometer, Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Choice, Facts, Verdict
from tests.store.logbooks import START, Scripted, as_told, lb, mi, replies, standing, told, waiting

FIRST = Weighing(loads={"steer": lb(5280), "drive": lb(6940)})
WHOLE = Weighing(loads={"steer": lb(5280), "drive": lb(6940), "gross": lb(12220)})
SECOND = Weighing(loads={"steer": lb(5200), "drive": lb(6900)})
AGAIN = Facts((Correction(action="amend", value=5230.0),))
UNDO = Facts((Correction(action="undo"),))
LEFT = Odometer(odometer=mi(48011), event="depart")
THERE = Odometer(odometer=mi(48111), event="arrive")
JUNIPER = Rating(subject="truck", rating="gvwr", value=lb(11500), truck="Juniper")
TYRES = tuple(
    Observation(subject="tyre", value=Quantity(65, "psi"), position=position)
    for position in ("left front", "trailer left front")
)
WHICH = Ask(
    "odometer",
    (
        Choice("48,020", (Odometer(odometer=mi(48020)),)),
        Choice("48,200", (Odometer(odometer=mi(48200)),)),
    ),
)


class Asked(Scripted):
    """Knows '1' and '2' as choices of the question that is open."""

    def __call__(self, text: str, context: object) -> Verdict:
        verdict = super().__call__(text, context)  # type: ignore[arg-type]
        asked = self.contexts[-1].asked
        if text in ("1", "2") and asked is not None:
            return Facts(asked.choices[int(text) - 1].entries)
        return verdict


def sent(store: Store, *references: str) -> None:
    """The answers that wait reach their chat, under these ids there."""
    with store.work() as session:
        for reference in references:
            (parcel,) = waiting(session)
            outbox.mark_sent(session, parcel.key, reference)


READER = {"first": Facts((FIRST,)), "second": Facts((SECOND,)), "again": AGAIN, "undo": UNDO}


def test_a_correction_corrects_the_message_that_it_replies_to(store: Store) -> None:
    reader = Scripted(READER)
    told(store, as_told("first", 0, id="a"), as_told("second", 1, id="b"), reader=reader)
    told(store, replace(as_told("again", 2), reply_to="a"), reader=reader)
    steers = [each.loads["steer"].value for each in standing(store) if isinstance(each, Weighing)]
    assert steers == [5230, 5200]


def test_a_reply_to_the_answer_is_about_the_message_that_it_answered(store: Store) -> None:
    reader = Scripted(READER)
    told(store, as_told("first", 0, id="a"), as_told("second", 1, id="b"), reader=reader)
    sent(store, "answer to a", "answer to b")
    told(store, replace(as_told("undo", 2), reply_to="answer to a"), reader=reader)
    assert standing(store) == [SECOND]


def test_a_reply_to_something_that_was_never_kept_is_read_as_any_other(store: Store) -> None:
    reader = Scripted(READER)
    told(store, as_told("first", 0), as_told("second", 1), reader=reader)
    told(store, replace(as_told("undo", 2), reply_to="a joke"), reader=reader)
    assert standing(store) == [FIRST]


def test_a_tap_on_a_question_that_was_settled_changes_nothing(store: Store) -> None:
    other = Ask("odometer", tuple(reversed(WHICH.choices)))
    reader = Asked({"48020 or 48200": WHICH, "48200 or 48020": other})
    told(store, as_told("48020 or 48200", 0, id="a"), reader=reader)
    sent(store, "first question")
    told(store, as_told("48200 or 48020", 1, id="b"), reader=reader)
    sent(store, "second question")
    assert told(store, replace(as_told("1", 2), reply_to="first question"), reader=reader) == [
        False
    ]
    assert standing(store) == []
    told(store, replace(as_told("1", 3), reply_to="second question"), reader=reader)
    assert standing(store) == [Odometer(odometer=mi(48200))]


def test_a_question_waits_while_the_rig_is_on_the_road_and_comes_at_the_next_stop(
    store: Store,
) -> None:
    which = Ask("tyre", tuple(Choice(each.position or "", (each,)) for each in TYRES))
    reader = Asked({"leaving": Facts((LEFT,)), "65 psi": which, "there": Facts((THERE,))})
    told(store, as_told("leaving", 0), as_told("65 psi", 20), reader=reader)
    first, second = replies(store)
    assert first.startswith("Odometer 48,011 mi")
    assert second == "Got it. One thing to ask about that, at the next stop."
    told(store, as_told("there", 60), reader=reader)
    with store.look() as session:
        (parcel,) = waiting(session)
    assert parcel.answer.choices == ("left front", "trailer left front")
    told(store, as_told("1", 61), reader=reader)
    assert TYRES[0] in standing(store)


def test_a_limit_that_may_be_exceeded_is_asked_about_at_once(store: Store) -> None:
    far = Ask("odometer", WHICH.choices, "far_over", (lb(9000), lb(7000)))
    reader = Asked({"leaving": Facts((LEFT,)), "far": far})
    told(store, as_told("leaving", 0), as_told("far", 20), reader=reader)
    assert (
        replies(store)[1]
        == "9,000 lb on the odometer is far beyond its rating, 7,000 lb. Is that right?"
    )


def test_a_nod_is_a_sign_where_others_read_along_and_a_line_where_nobody_does(
    store: Store,
) -> None:
    told(store, as_told("odo 48011", 0), replace(as_told("odo 48012", 1), private=True))
    quiet = []
    with store.work() as session:
        while parcels := waiting(session):
            quiet.append(parcels[0].answer.quiet)
            outbox.mark_sent(session, parcels[0].key)
    assert quiet == [True, False]


def test_a_photo_in_doubt_is_kept_after_one_tap(store: Store) -> None:
    reader = Asked({"STEER 5280\nDRIVE 6940": Facts((FIRST,)), "how heavy": Facts((JUNIPER,))})
    photo = replace(as_told("STEER 5280\nDRIVE 6940", 0), photo=Photo(reference="p1"))
    told(store, photo, reader=reader)
    assert standing(store) == []
    with store.look() as session:
        (parcel,) = waiting(session)
    assert parcel.answer.headline == "Is this what the photo says?"
    assert any("5,280" in note for note in parcel.answer.notes), "shows what was read"
    told(store, as_told("1", 1), reader=reader)
    assert standing(store) == [FIRST]


def test_a_photo_beyond_doubt_is_kept_at_once_and_states_nothing_else(store: Store) -> None:
    whole = replace(WHOLE, at=START)
    reader = Scripted({"ticket": Facts((whole,)), "plate": Facts((JUNIPER,))})
    seen = Photo(reference="p1", sure=True)
    told(
        store,
        replace(as_told("ticket", 0), photo=seen),
        replace(as_told("plate", 1), photo=seen),
        reader=reader,
    )
    assert standing(store) == [whole]
