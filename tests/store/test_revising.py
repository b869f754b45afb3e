"""Edits, deletions and undoing: what follows is right afterwards; on both databases."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from datetime import timedelta

from sqlalchemy import func, select

from bot.messages import Deleted, Edited
from bot.store.database import Store
from bot.store.tables import EntryRow, MessageRow, OpenQuestionRow
from domain.context import Context
from domain.entries import Correction, Entry, Fill, Odometer, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Choice, Facts, Silent, Verdict
from tests.store.logbooks import (
    CHAT,
    START,
    Scripted,
    as_told,
    conversation,
    lb,
    logged,
    mi,
    replies,
    standing,
    told,
)

UNDO = Facts((Correction(action="undo"),))


def edited(text: str, at: float = 0, *, after: float = 1, author: str = "ana") -> Edited:
    """An edit of the message at `at`, made so many minutes after START."""
    message = as_told(text, at=at, author=author)
    return Edited(message=message, id=f"e{after}", at=START + timedelta(minutes=after))


def deleted(at: float = 0, *, after: float = 1) -> Deleted:
    return Deleted(
        network="test",
        chat=CHAT,
        id=f"{CHAT}-{at}",
        author="ana",
        name="Ana",
        at=START + timedelta(minutes=after),
    )


def odometers(*figures: float) -> list[Entry]:
    return [Odometer(odometer=mi(each)) for each in figures]


def test_an_edited_message_says_what_it_says_now(store: Store) -> None:
    talk = conversation(store)
    assert talk.receive(as_told("odo 48211"))
    assert talk.edit(edited("odo 48112"))
    assert standing(store) == odometers(48112)
    assert [each.at for each in logged(store)] == [START]
    assert replies(store)[-1] == "Odometer now 48,112 mi, not 48,211 mi."


def test_an_edit_keeps_the_history(store: Store) -> None:
    talk = conversation(store)
    talk.receive(as_told("odo 48211"))
    talk.edit(edited("odo 48112"))
    with store.look() as session:
        texts = session.scalars(select(MessageRow.text).order_by(MessageRow.id)).all()
        entries = session.scalar(select(func.count()).select_from(EntryRow))
    assert texts == ["odo 48211", "odo 48112"]
    assert entries == 2


def test_talk_that_is_edited_into_the_answer_to_a_doubt_settles_it(store: Store) -> None:
    doubt = Ask("odometer", (Choice("48,300 mi", (Odometer(odometer=mi(48300)),)),))
    talk = conversation(store, Scripted({"odo back": doubt}))
    assert talk.receive(as_told("odo back"))
    assert not talk.receive(as_told("what a day", at=1))
    assert talk.edit(edited("odo 48300", at=1, after=2))
    assert standing(store) == odometers(48300)
    assert talk.edit(edited("odo 48301", at=1, after=3))
    assert standing(store) == odometers(48301)
    assert talk.edit(edited("odo 48302", at=1, after=2.5)) is True
    assert standing(store) == odometers(48301), "a later edit has been heard"
    with store.look() as session:
        assert session.scalars(select(OpenQuestionRow)).all() == []
        assert set(session.scalars(select(MessageRow.state))) == {"handled"}


def test_an_edit_that_comes_twice_has_its_effect_once(store: Store) -> None:
    talk = conversation(store)
    talk.receive(as_told("odo 48211"))
    assert [talk.edit(edited("odo 48112")) for _ in range(2)] == [True, False]
    assert standing(store) == odometers(48112)
    assert len(replies(store)) == 2


def test_an_edit_that_changes_no_figure_is_silent(store: Store) -> None:
    talk = conversation(store)
    talk.receive(as_told("odo 48211"))
    talk.edit(edited("odo 48211.0"))
    assert standing(store) == odometers(48211)
    assert len(replies(store)) == 1


def test_an_edit_of_a_message_that_was_talk_is_a_new_message(store: Store) -> None:
    talk = conversation(store)
    assert not talk.receive(as_told("od 48211"))
    assert talk.edit(edited("odo 48211"))
    assert standing(store) == odometers(48211)
    assert not talk.receive(as_told("od 48211")), "the first text, late, changes nothing"
    assert talk.edit(edited("odo 48112", after=2))
    assert standing(store) == odometers(48112)


def test_an_edit_that_arrives_after_a_later_one_has_no_effect(store: Store) -> None:
    talk = conversation(store)
    talk.receive(as_told("odo 48211"))
    talk.edit(edited("odo 48113", after=2))
    talk.edit(edited("odo 48112", after=1))
    assert standing(store) == odometers(48113)
    talk.edit(edited("odo 48114", after=3))
    assert standing(store) == odometers(48114)


def test_an_edit_into_talk_withdraws_and_leaves_no_words(store: Store) -> None:
    talk = conversation(store)
    talk.receive(as_told("odo 48211"))
    talk.edit(edited("lovely evening"))
    assert standing(store) == []
    assert replies(store)[-1] == "Taken back: odometer 48,211 mi."
    with store.look() as session:
        assert "lovely evening" not in session.scalars(select(MessageRow.text)).all()


def test_a_deleted_message_withdraws_its_entries_once(store: Store) -> None:
    talk = conversation(store)
    talk.receive(as_told("odo 48001", at=0))
    talk.receive(as_told("odo 48211", at=1))
    assert [talk.delete(deleted(at=1, after=2)) for _ in range(2)] == [True, False]
    assert standing(store) == odometers(48001)
    assert replies(store)[2:] == ["Taken back: odometer 48,211 mi."]


def test_a_deletion_of_talk_is_nothing(store: Store) -> None:
    talk = conversation(store)
    assert not talk.delete(deleted())
    assert replies(store) == []


def test_an_edit_that_arrives_after_the_deletion_has_no_effect(store: Store) -> None:
    talk = conversation(store)
    talk.receive(as_told("odo 48211"))
    talk.delete(deleted(after=5))
    talk.edit(edited("odo 48112", after=1))
    assert standing(store) == []


def test_undo_takes_back_an_edit_and_again_what_was_before(store: Store) -> None:
    talk = conversation(store, Scripted({"undo": UNDO}))
    talk.receive(as_told("odo 48001", at=0))
    talk.receive(as_told("odo 48211", at=1))
    talk.edit(edited("odo 48112", at=1, after=2))
    for number, expected in enumerate(([48001, 48211], [48001], [], [])):
        talk.receive(as_told("undo", at=3 + number))
        assert standing(store) == odometers(*expected)


def test_undo_takes_back_a_deletion(store: Store) -> None:
    talk = conversation(store, Scripted({"undo": UNDO}))
    talk.receive(as_told("odo 48211"))
    talk.delete(deleted())
    talk.receive(as_told("undo", at=3))
    assert standing(store) == odometers(48211)
    assert replies(store)[-1] == "Counts again: odometer 48,211 mi."
    talk.receive(as_told("undo", at=4))
    assert standing(store) == []


def test_an_edit_after_an_undone_edit_starts_from_what_stands(store: Store) -> None:
    talk = conversation(store, Scripted({"undo": UNDO}))
    talk.receive(as_told("odo 48211"))
    talk.edit(edited("odo 48112", after=1))
    talk.receive(as_told("undo", at=2))
    talk.edit(edited("odo 48113", after=3))
    assert standing(store) == odometers(48113)


PAIR = Weighing(loads={"steer": lb(5280), "drive": lb(6940)})
STEER = Weighing(loads={"steer": lb(5230), "drive": lb(6940)})
DRIVE = Facts((Correction(action="amend", field="drive", value=lb(6960)),))
BOTH = Weighing(loads={"steer": lb(5230), "drive": lb(6960)})


def weighed() -> Scripted:
    return Scripted({"pair": Facts((PAIR,)), "pair, mended": Facts((STEER,)), "drive": DRIVE})


def test_an_edit_leaves_what_another_corrected_since(store: Store) -> None:
    talk = conversation(store, weighed())
    talk.receive(as_told("pair"))
    talk.receive(as_told("drive", at=1, author="ben"))
    talk.edit(edited("pair, mended", after=2))
    assert standing(store) == [BOTH]
    talk.edit(edited("pair", after=3))
    assert standing(store) == [Weighing(loads={"steer": lb(5280), "drive": lb(6960)})]


def test_an_edit_and_a_correction_at_once_lose_neither(store: Store) -> None:
    talk = conversation(store, weighed())
    talk.receive(as_told("pair"))
    events = [edited("pair, mended", after=2), as_told("drive", at=1, author="ben")]
    with ThreadPoolExecutor(2) as pool:
        assert list(pool.map(talk.take, events)) == [True, True]
    assert standing(store) == [BOTH]


def test_edits_of_two_messages_at_once_lose_neither(store: Store) -> None:
    talk = conversation(store)
    for number in range(6):
        talk.receive(as_told(f"odo {48000 + number}", at=number))
    edits = [
        edited(f"odo {48100 + number}", at=number, after=10 + number, author=author)
        for number, author in zip(range(6), ("ana", "ben") * 3, strict=True)
    ]
    with ThreadPoolExecutor(3) as pool:
        assert all(pool.map(talk.edit, edits))
    assert standing(store) == odometers(*(48100 + number for number in range(6)))


def test_an_edit_of_a_correction_corrects_otherwise(store: Store) -> None:
    mended = {
        f"*{figure}": Facts((Correction(action="amend", field="odometer", value=mi(figure)),))
        for figure in (48211, 48212)
    }
    talk = conversation(store, Scripted({**mended, "undo": UNDO}))
    talk.receive(as_told("odo 47211", at=0))
    talk.receive(as_told("*48211", at=1))
    talk.edit(edited("*48212", at=1, after=2))
    assert standing(store) == odometers(48212)
    talk.receive(as_told("undo", at=3))
    assert standing(store) == odometers(48211)


def test_a_correction_that_is_deleted_corrects_nothing(store: Store) -> None:
    mend = Facts((Correction(action="amend", field="odometer", value=mi(48211)),))
    talk = conversation(store, Scripted({"mend": mend}))
    talk.receive(as_told("odo 47211", at=0))
    talk.receive(as_told("mend", at=1))
    talk.delete(deleted(at=1, after=2))
    assert standing(store) == odometers(47211)
    assert replies(store)[-1] == "Taken back: odometer 48,211 mi."


class Doubting(Scripted):
    """Reads a bare number as the choice that it picks, where one was offered."""

    def __call__(self, text: str, context: Context) -> Verdict:
        if text.isdigit():
            self.contexts.append(context)
            asked = context.asked
            return Facts(asked.choices[int(text) - 1].entries) if asked else Silent()
        return super().__call__(text, context)


def doubting() -> Doubting:
    choices = [Choice(str(each), tuple(odometers(each))) for each in (47910, 49710)]
    return Doubting({"odo back": Ask("odometer", tuple(choices))})


def test_an_edit_of_a_doubtful_message_settles_it(store: Store) -> None:
    talk = conversation(store, doubting())
    talk.receive(as_told("odo back"))
    talk.edit(edited("odo 48910"))
    assert standing(store) == odometers(48910)
    with store.look() as session:
        assert session.scalar(select(func.count()).select_from(OpenQuestionRow)) == 0


def test_an_edit_of_a_doubtful_message_that_was_answered_replaces_the_answer(store: Store) -> None:
    talk = conversation(store, doubting())
    talk.receive(as_told("odo back"))
    talk.receive(as_told("1", at=1))
    assert standing(store) == odometers(47910)
    talk.edit(edited("odo 48910", after=2))
    assert standing(store) == odometers(48910)


def test_an_answer_that_is_edited_picks_otherwise(store: Store) -> None:
    talk = conversation(store, doubting())
    talk.receive(as_told("odo back"))
    talk.receive(as_told("1", at=1))
    talk.edit(edited("2", at=1, after=2))
    assert standing(store) == odometers(49710)
    assert [each.at for each in logged(store)] == [START]


def test_an_edit_is_read_as_of_when_its_message_was_sent(store: Store) -> None:
    reader = Scripted()
    talk = conversation(store, reader)
    for number, figure in enumerate((48001, 48211, 48400)):
        talk.receive(as_told(f"odo {figure}", at=number))
    talk.edit(edited("odo 48112", at=1, after=5))
    assert reader.contexts[-1].odometer == mi(48001), "its own and later readings are set aside"


def test_a_message_that_arrives_late_is_read_as_of_when_it_was_sent(store: Store) -> None:
    reader = Scripted()
    told(store, *(as_told(f"odo {n}", at=n - 48000) for n in (48001, 48400)), reader=reader)
    told(store, as_told("odo 48112", at=112), reader=reader)
    assert reader.contexts[-1].odometer == mi(48001)


def test_an_edit_adds_and_drops_entries(store: Store) -> None:
    fill = Fill(volume=Quantity(31.4, "gal"))
    reader = Scripted(
        {
            "both": Facts((Odometer(odometer=mi(48011)), fill)),
            "one": Facts((Odometer(odometer=mi(48011)),)),
        }
    )
    talk = conversation(store, reader)
    talk.receive(as_told("one"))
    talk.edit(edited("both", after=1))
    assert standing(store) == [Odometer(odometer=mi(48011)), fill]
    talk.edit(edited("one", after=2))
    assert standing(store) == odometers(48011)
