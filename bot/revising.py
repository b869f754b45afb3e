"""What an edit or a deletion does to the logbook, and the answer to it.

This file decides how a message that reads otherwise than before takes effect: its old entries
are set aside while it is read, what its author changed is changed, what others corrected since
stays, and what it had corrected elsewhere is put back first. An edit that is overtaken by a
later one has no effect. It does not know how two readings are compared, nor how words are read.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from bot.acts import (
    Desk,
    against_the_rig,
    answer_question,
    answer_to,
    ask_back,
    correct_all,
    settled_all,
    trailer_doubt,
)
from bot.answers import correcting
from bot.answers.answer import Answer, joined
from bot.knowing import Known
from bot.store import journal, logbook, questions, standing, versions
from bot.store.seen import Journalled
from bot.store.tables import MessageRow, VersionRow
from domain.corrections import Amended, Withdrawn
from domain.doubts import picked
from domain.entries import Entry, Fill, Weighing
from domain.log import Logged
from domain.revising import Anew, Line, differences, revised
from domain.verdicts import Ask, Facts, Question, Silent, Verdict

Reread = Callable[[Ask | None], tuple[Known, Verdict]]
"""Reads the desk's message as of now, as an answer to a question where there was one."""


def revise(desk: Desk, version: VersionRow, reread: Reread) -> Answer | None:
    """Let a version of a message take effect; None where there is nothing to say."""
    session = desk.session
    if desk.chat.role == journal.READER or versions.is_overtaken(session, version):
        return None
    _settle_the_first(desk, version.of)
    put_back = _put_back_corrections(desk, version.of)
    lines = versions.lines(session, version.of)
    asked = versions.ask_of(version)
    verdict: Verdict = Silent()
    if version.act != versions.DELETED:
        those_standing = [line.standing.key for line in lines if line.standing]
        with desk.book.set_aside(desk.message, those_standing):
            known, verdict = reread(asked)
            desk = replace(desk, names=known.names)
    verdict = _against_rig(desk, verdict, asked)
    answer = _take_effect(desk, version, lines, verdict, asked)
    if put_back is not None and isinstance(verdict, Silent):
        return joined([put_back, answer] if answer else [put_back])
    return answer


def _settle_the_first(desk: Desk, of: int) -> None:
    """The first version waits no more, and a question that it raised has lost its point."""
    first = desk.session.get_one(MessageRow, of)
    question = desk.chat.question
    raised_by, _ = versions.family(desk.session, of)
    if question is not None and question.message_id in raised_by:
        questions.close(desk.plain, desk.chat)
    first.state = journal.HANDLED


def _put_back_corrections(desk: Desk, of: int) -> Answer | None:
    """What the message had corrected elsewhere says again what it said before."""
    messages, own = versions.family(desk.session, of)
    amended = logbook.amendments(desk.session, messages, own)
    if not amended:
        return None
    known = standing.entries(desk.plain, (*amended, *amended.values()))
    again = tuple(
        desk.book.keep(desk.message, known[was].entry, known[was].at, replaces=key)
        for key, was in amended.items()
    )
    return correcting.withdrawn_answer(Withdrawn(tuple(known[key] for key in amended), again))


def _against_rig(desk: Desk, verdict: Verdict, asked: Ask | None) -> Verdict:
    if not isinstance(verdict, Facts):
        return verdict
    return against_the_rig(desk, verdict.entries, asked) or verdict


def _take_effect(
    desk: Desk, version: VersionRow, lines: tuple[Line, ...], verdict: Verdict, asked: Ask | None
) -> Answer | None:
    entries = verdict.entries if isinstance(verdict, Facts) else ()
    revision = revised(lines, settled_all(desk, entries))
    first = desk.session.get_one(MessageRow, version.of)
    # A choice that was offered is about the doubtful message, and happened then.
    sent = first if asked is not None and picked(entries, asked) else desk.message
    reading: list[versions.Read] = []
    changed: list[tuple[Logged[Entry] | None, Logged[Entry]]] = []
    for each in revision.anew:
        before = each.line.standing if each.line else None
        now = _say(desk, each, sent)
        if now is not None:
            changed.append((before, now))
        key = now.key if now else before.key if before else None
        reading.append(versions.Read(each.read, key))
    gone = [line.standing for line in revision.gone if line.standing]
    desk.book.withdraw(desk.message, [each.key for each in gone])
    versions.note(desk.session, version, reading)
    return _answer(desk, verdict, changed, gone)


def _say(desk: Desk, each: Anew, sent: Journalled | MessageRow) -> Logged[Entry] | None:
    """Keep what an entry says now, in place of what stood for it."""
    if each.says is None:
        return None
    before = each.line.standing if each.line else None
    if before is not None and before.entry.at == each.says.at:
        when = before.at
    else:
        when = logbook.happened_at(each.says, sent.sent_at, desk.preferences)
    replaces = before.key if before else None
    return desk.book.keep(desk.message, each.says, when, replaces)


def _answer(
    desk: Desk,
    verdict: Verdict,
    changed: list[tuple[Logged[Entry] | None, Logged[Entry]]],
    gone: list[Logged[Entry]],
) -> Answer | None:
    answers: list[Answer] = []
    now = [after for _, after in changed]
    field = None if gone or len(changed) != 1 else _one_field(*changed[0])
    if field is not None:
        answers.append(_amended(desk, *changed[0], field))
    elif now:
        answers += [correcting.read_again_answer(gone), answer_to(desk, now)]
    elif gone:
        answers.append(correcting.withdrawn_answer(Withdrawn(tuple(gone))))
    match verdict:
        case Silent():
            # Talk between people leaves no text behind.
            journal.drop_text(desk.plain, desk.message)
        case Question():
            answers.append(answer_question(desk, verdict))
        case Ask():
            answers.append(ask_back(desk, verdict))
        case Facts(entries):
            answers += correct_all(desk, entries)
            doubt = trailer_doubt(desk, now)
            answers += [doubt] if doubt else []
    return joined(answers) if answers else None


def _one_field(before: Logged[Entry] | None, after: Logged[Entry]) -> str | None:
    if before is None:
        return None
    fields = differences(before.entry, after.entry)
    return fields[0] if len(fields) == 1 else None


def _amended(desk: Desk, before: Logged[Entry] | None, after: Logged[Entry], field: str) -> Answer:
    if before is None:
        raise ValueError("nothing was amended")
    amended = Amended(before, after.entry, field)
    follows = answer_to(desk, [after]) if isinstance(after.entry, Weighing | Fill) else None
    return correcting.amended_answer(amended, follows)
