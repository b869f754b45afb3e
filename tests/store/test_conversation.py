"""The path of one message: journal, one transaction, queued reply; on both databases."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor

import pytest
from sqlalchemy import event, func, select
from sqlalchemy.exc import IntegrityError

from bot.conversation import NotHandled
from bot.store import journal, questions
from bot.store.database import Store
from bot.store.tables import ChatRow, LogbookRow, MessageRow, OpenQuestionRow, OutboxRow, Table
from domain.context import Context
from domain.entries import Check, Correction, Fill, Hitch, Note, Odometer, Rating, Weighing
from domain.quantities import Quantity
from domain.verdicts import Ask, Choice, Facts, Question, Verdict
from tests.store.logbooks import (
    HOME,
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

FLATDECK = Rating(subject="trailer", rating="gvwr", value=lb(12000), trailer="Flatdeck")
CAMPER = Rating(subject="trailer", rating="gvwr", value=lb(7600), trailer="camper")
JUNIPER = Rating(subject="truck", rating="gvwr", value=lb(11500), truck="Juniper")
UNDO = Facts((Correction(action="undo"),))


class Bug(Exception):
    """What a reader raises in these tests; none should."""


class Broken(Scripted):
    """A reader that fails on one text."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.text = text

    def __call__(self, text: str, context: Context) -> Verdict:
        if text == self.text:
            raise Bug
        return super().__call__(text, context)


def journalled(store: Store, *texts: str) -> None:
    """Messages that were journalled just before a crash."""
    with store.writing() as unit:
        for number, text in enumerate(texts):
            journal.record(unit, as_told(text, at=number), HOME, START)


def count(store: Store, table: type[Table]) -> int:
    with store.look() as session:
        return session.scalar(select(func.count()).select_from(table)) or 0


def test_a_fact_is_kept_answered_and_marked_in_one_go(store: Store) -> None:
    assert told(store, as_told("odo 48211")) == [True]
    assert standing(store) == [Odometer(odometer=mi(48211))]
    assert replies(store) == ["Odometer 48,211 mi."]
    with store.look() as session:
        assert session.scalar(select(MessageRow.state)) == journal.HANDLED


def test_talk_leaves_nothing_behind(store: Store) -> None:
    assert told(store, as_told("did you feed the dog")) == [False]
    for table in (ChatRow, LogbookRow, MessageRow, OutboxRow):
        assert count(store, table) == 0


def test_a_message_that_comes_twice_has_its_effect_once(store: Store) -> None:
    assert told(store, as_told("odo 48211", id="7"), as_told("odo 48211", id="7")) == [True, False]
    assert len(standing(store)) == 1
    assert len(replies(store)) == 1


def test_the_same_id_in_another_chat_is_another_message(store: Store) -> None:
    messages = (as_told("odo 48211", id="7"), as_told("odo 9000", id="7", chat="orchard"))
    assert told(store, *messages) == [True, True]
    assert standing(store) == [Odometer(odometer=mi(48211))]
    assert standing(store, "orchard") == [Odometer(odometer=mi(9000))]


def test_a_message_that_arrives_many_times_at_once_has_its_effect_once(store: Store) -> None:
    talk = conversation(store)
    with ThreadPoolExecutor(4) as pool:
        done = list(pool.map(talk.receive, [as_told("odo 48211", id="7")] * 8))
    assert done.count(True) == 1
    assert len(standing(store)) == 1


def test_a_crash_between_journal_and_handling_keeps_the_message_for_the_next_start(
    store: Store,
) -> None:
    journalled(store, "odo 48211")
    assert standing(store) == []
    talk = conversation(store)
    assert talk.resume() == 1
    assert talk.resume() == 0
    assert standing(store) == [Odometer(odometer=mi(48211))]
    assert replies(store) == ["Odometer 48,211 mi."]


def test_a_message_that_was_journalled_before_a_crash_and_comes_again_has_one_effect(
    store: Store,
) -> None:
    journalled(store, "odo 48211")
    assert told(store, as_told("odo 48211", at=0)) == [False]
    assert conversation(store).resume() == 0
    assert len(standing(store)) == 1


def test_a_message_that_fails_again_does_not_keep_the_others_waiting(store: Store) -> None:
    journalled(store, "odo 1", "odo 2")
    assert conversation(store, Broken("odo 1")).resume() == 1
    assert standing(store) == [Odometer(odometer=mi(2))]
    assert conversation(store).resume() == 1
    assert set(standing(store)) == {Odometer(odometer=mi(1)), Odometer(odometer=mi(2))}


def test_what_the_database_does_not_take_is_the_messages_failure_and_no_others(
    store: Store,
) -> None:
    """As where a row is there already: else it would be tried again for ever, by every worker."""
    journalled(store, "odo 1", "odo 2")

    def refused(*_: object) -> None:
        if reader.contexts:
            event.remove(store.engine, "before_cursor_execute", refused)
            raise IntegrityError("INSERT", None, Exception("the key is there already"))

    reader = Scripted()
    event.listen(store.engine, "before_cursor_execute", refused)
    talk = conversation(store, reader)
    assert talk.resume() == 1
    assert standing(store) == [Odometer(odometer=mi(2))]
    assert talk.resume() == 1
    assert len(standing(store)) == 2


def test_a_message_that_fails_each_time_is_set_aside_and_kept(store: Store) -> None:
    journalled(store, "odo 48211")
    for _ in range(journal.MOST_FAILURES + 1):
        assert conversation(store, Broken("odo 48211")).resume() == 0
    with store.look() as session:
        row = session.scalar(select(MessageRow))
        assert row is not None
        assert (row.state, row.text) == (journal.STUCK, "odo 48211")
        assert row.failures == journal.MOST_FAILURES


def test_nothing_of_a_message_stands_if_its_answer_fails(store: Store) -> None:
    no_such_topic = Scripted({"?": Question(topic="moon"), "both": Facts((FLATDECK,))})
    with pytest.raises(NotHandled):
        told(store, as_told("both"), as_told("?", at=1), reader=no_such_topic)
    assert standing(store) == [FLATDECK]
    assert len(replies(store)) == 1


def test_the_reader_is_told_what_the_chat_knows(store: Store) -> None:
    tank = Rating(
        subject="truck", rating="tank", value=Quantity(34, "gal"), truck="Juniper", note="diesel"
    )
    ask = Ask("odometer", (), "backwards")
    reader = Scripted(
        {
            "rig": Facts((JUNIPER, tank, FLATDECK, CAMPER)),
            "hitched": Facts((Hitch(action="hitched", trailer="camper"),)),
            "odo back": ask,
        }
    )
    lines = ("rig", "hitched", "odo 48011", "odo back", "?")
    told(store, *(as_told(text, at=n) for n, text in enumerate(lines)), reader=reader)
    first, *_, last = reader.contexts
    assert (first.truck, first.trailers, first.hitched, first.asked) == (None, (), None, None)
    assert last == Context(
        sent_at=as_told("", at=4).sent_at,
        time_zone="America/Boise",
        odometer=mi(48011),
        tank=Quantity(34, "gal"),
        fuel="diesel",
        hitched=True,
        truck="Juniper",
        trailers=("Flatdeck", "camper"),
        asked=ask,
        names_by_kind=True,
    )


def test_the_fuel_is_what_the_fills_say_where_the_tank_does_not(store: Store) -> None:
    reader = Scripted({"fill": Facts((Fill(volume=Quantity(30, "gal"), product="diesel"),))})
    told(store, as_told("fill"), as_told("?", at=1), reader=reader)
    assert reader.contexts[-1].fuel == "diesel"


def test_a_question_stays_open_until_it_is_answered(store: Store) -> None:
    reading = Odometer(odometer=mi(47910))
    reader = Scripted(
        {
            "odo back": Ask("odometer", (Choice("47,910 mi", (reading,)),)),
            "1": Facts((reading,)),
            "done": Facts((Check(item="lug nuts", state="done"),)),
        }
    )
    talk = conversation(store, reader)
    talk.receive(as_told("odo back", at=0))
    assert standing(store) == []
    talk.receive(as_told("done", at=1))
    assert count(store, OpenQuestionRow) == 1
    talk.receive(as_told("1", at=90))
    assert count(store, OpenQuestionRow) == 0
    answered = next(each for each in logged(store) if each.entry == reading)
    assert answered.at == START, "the figure was texted with the question, and happened then"


def test_undo_of_a_doubt_drops_it_and_leaves_what_was_kept_before(store: Store) -> None:
    reader = Scripted({"odo back": Ask("odometer"), "scratch that": UNDO})
    lines = ("odo 48011", "odo back", "scratch that")
    told(store, *(as_told(text, at=n) for n, text in enumerate(lines)), reader=reader)
    assert standing(store) == [Odometer(odometer=mi(48011))]
    assert count(store, OpenQuestionRow) == 0
    assert replies(store)[-1] == "Dropped; nothing was kept."


def test_a_correction_of_a_doubt_does_not_touch_what_was_kept_before(store: Store) -> None:
    mend = Facts((Correction(action="amend", value=48021.0),))
    reader = Scripted({"odo back": Ask("odometer"), "make that 48,021": mend})
    lines = ("odo 48011", "odo back", "make that 48,021")
    told(store, *(as_told(text, at=n) for n, text in enumerate(lines)), reader=reader)
    assert standing(store) == [Odometer(odometer=mi(48011))]
    assert count(store, OpenQuestionRow) == 1
    assert replies(store)[-1].startswith("Nothing is kept of that yet.")


def test_which_figure_a_correction_means_is_asked_and_the_answer_binds(store: Store) -> None:
    pair = Weighing(loads={"trailer_1": lb(5280), "trailer_2": lb(5260)})
    reader = Scripted(
        {"pair": Facts((pair,)), "*5270": Facts((Correction(action="amend", value=5270.0),))}
    )
    told(store, as_told("pair"), as_told("*5270", at=1), reader=reader)
    assert standing(store) == [pair]
    with store.look() as session:
        question = session.scalar(select(OpenQuestionRow))
        assert question is not None
        ask = questions.asked(question)
    assert [each.label for each in ask.choices] == ["trailer 1 5,280 lb", "trailer 2 5,260 lb"]
    reader.verdicts = {"2": Facts(ask.choices[1].entries)}
    told(store, as_told("2", at=2), reader=reader)
    assert standing(store) == [Weighing(loads={"trailer_1": lb(5280), "trailer_2": lb(5270)})]
    assert count(store, OpenQuestionRow) == 0


RIG = Facts((FLATDECK, CAMPER))
HITCHED = Facts((Hitch(action="hitched"), Odometer(odometer=mi(48011), event="depart")))


def test_one_trailer_is_the_one_that_is_on(store: Store) -> None:
    reader = Scripted({"rig": Facts((FLATDECK,)), "hitched": HITCHED})
    told(store, as_told("rig"), as_told("hitched", at=1), reader=reader)
    assert Hitch(action="hitched", trailer="Flatdeck") in standing(store)
    assert count(store, OpenQuestionRow) == 0


def test_which_of_several_trailers_is_on_is_asked_once_and_the_answer_binds(store: Store) -> None:
    camper = Hitch(action="hitched", trailer="camper")
    reader = Scripted({"rig": RIG, "hitched": HITCHED, "camper": Facts((camper,))})
    told(store, as_told("rig"), as_told("hitched", at=1), reader=reader)
    with store.look() as session:
        body = session.scalars(select(OutboxRow.body).order_by(OutboxRow.id.desc())).first()
    assert body is not None
    assert body["choices"] == ["Flatdeck", "camper"]
    assert body["headline"].endswith("Which trailer is on?")
    told(store, as_told("camper", at=9), reader=reader)
    on = [each for each in logged(store) if isinstance(each.entry, Hitch)]
    assert [(each.entry, each.at) for each in on] == [(camper, as_told("", at=1).sent_at)]
    assert count(store, OpenQuestionRow) == 0


def test_names_keep_the_spelling_in_which_they_were_first_told(store: Store) -> None:
    reader = Scripted(
        {"rig": RIG, "hitched": Facts((Hitch(action="hitched", trailer="flatdeck"),))}
    )
    told(store, as_told("rig"), as_told("hitched", at=1), reader=reader)
    assert Hitch(action="hitched", trailer="Flatdeck") in standing(store)


def test_a_correction_replaces_and_undo_brings_back_and_undo_again_takes_the_one_before(
    store: Store,
) -> None:
    mend = Correction(action="amend", field="odometer", value=mi(48211))
    reader = Scripted({"make that 48,211": Facts((mend,)), "undo": UNDO})
    talk = conversation(store, reader)
    steps = [
        ("odo 48001", [48001]),
        ("odo 48211", [48001, 48211]),
        ("odo 47211", [48001, 48211, 47211]),
    ]
    for number, (text, _) in enumerate(steps):
        talk.receive(as_told(text, at=number))
    mended = [48001, 48211, 48211]
    for number, (text, expected) in enumerate(
        [
            ("make that 48,211", mended),
            ("undo", [48001, 48211, 47211]),
            ("undo", [48001, 48211]),
            ("undo", [48001]),
            ("undo", []),
            ("undo", []),
        ],
        start=len(steps),
    ):
        talk.receive(as_told(text, at=number))
        assert standing(store) == [Odometer(odometer=mi(each)) for each in expected]
    assert replies(store)[-6:] == [
        "Odometer now 48,211 mi, not 47,211 mi.",
        "Taken back: odometer 48,211 mi.",
        "Taken back: odometer 47,211 mi.",
        "Taken back: odometer 48,211 mi.",
        "Taken back: odometer 48,001 mi.",
        "Nothing is left to take back.",
    ]


def test_two_people_who_correct_at_once_lose_neither(store: Store) -> None:
    entry = Fill(volume=Quantity(34.1, "gal"), odometer=mi(47211))
    volume = Correction(action="amend", field="volume", value=Quantity(31.4, "gal"))
    odometer = Correction(action="amend", field="odometer", value=mi(48211))
    reader = Scripted({"fill": Facts((entry,)), "vol": Facts((volume,)), "odo": Facts((odometer,))})
    talk = conversation(store, reader)
    talk.receive(as_told("fill"))
    both = [as_told("vol", at=1, author="ana"), as_told("odo", at=2, author="ben")]
    with ThreadPoolExecutor(2) as pool:
        assert list(pool.map(talk.receive, both)) == [True, True]
    assert standing(store) == [Fill(volume=Quantity(31.4, "gal"), odometer=mi(48211))]


def test_who_sent_an_entry_is_known_by_name(store: Store) -> None:
    told(store, as_told("odo 48011", at=0), as_told("odo 48012", at=1, author="ben"))
    assert [each.by for each in logged(store)] == ["Ana", "Ben"]


def test_a_message_read_as_meant_for_the_log_and_then_as_talk_leaves_no_text(store: Store) -> None:
    class Wavering(Scripted):
        def __call__(self, text: str, context: Context) -> Verdict:
            self.verdicts = {} if self.contexts else {text: Facts((Note(note=text),))}
            return super().__call__(text, context)

    told(store, as_told("lovely evening"), reader=Wavering())
    with store.look() as session:
        assert session.scalar(select(MessageRow.text)) == ""
    assert replies(store) == []
