"""What people do in a room of a real homeserver, and what Drawbar is handed of it."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from bot.answers.answer import Answer
from bot.messages import Deleted, Delivered, Edited, Letter, Message, Moved, MovedTo, NotFetched
from tests.networks.matrix.conftest import Served, behind
from tests.networks.matrix.homeserver import Homeserver
from tests.networks.matrix.people import Mautrix, Nio, Person, edit, joined, react, say, shared_room
from tests.networks.matrix.wire import Mishap, Wire

ASKED = Answer(headline="Which trailer?", choices=("flatdeck", "camper"))
PICTURE = b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 40


async def test_an_edit_a_deletion_a_reply_and_a_thread_are_told_as_they_were_meant(
    drawbar: Served, wren: Nio, theo: Mautrix
) -> None:
    room = await shared_room(drawbar, wren, theo)
    first = await say(theo, room, "reweigh: trailer 10210")
    await edit(theo, room, first, "reweigh: trailer 10120")
    replied = await say(
        wren,
        room,
        f"> <{theo.user}> reweigh: trailer 10210\n\nmake that 10,120",
        **{"m.relates_to": {"m.in_reply_to": {"event_id": first}}},
    )
    threaded = await say(
        wren,
        room,
        "how heavy are we?",
        **{
            "m.relates_to": {
                "rel_type": "m.thread",
                "event_id": first,
                "is_falling_back": True,
                "m.in_reply_to": {"event_id": replied},
            }
        },
    )
    await theo.redact(room, first)
    said, edited, reply, thread, deleted = await drawbar.host.wait_for(5)
    assert isinstance(said, Message)
    assert isinstance(edited, Edited)
    assert (edited.message.id, edited.message.text) == (first, "reweigh: trailer 10120")
    assert edited.message.sent_at == said.sent_at
    assert edited.message.author == theo.user
    assert edited.at >= said.sent_at
    assert isinstance(reply, Message)
    assert (reply.text, reply.reply_to, reply.thread) == ("make that 10,120", first, None)
    assert isinstance(thread, Message)
    assert (thread.id, thread.reply_to, thread.thread) == (threaded, None, first)
    assert isinstance(deleted, Deleted)
    assert (deleted.id, deleted.author) == (first, theo.user)


async def test_a_person_cannot_edit_what_another_said(
    drawbar: Served, wren: Nio, theo: Mautrix
) -> None:
    room = await shared_room(drawbar, wren, theo)
    first = await say(theo, room, "trailer 9900")
    await edit(wren, room, first, "trailer 19900")
    await say(wren, room, "hello")
    events = await drawbar.host.wait_for(2)
    assert [type(each) for each in events] == [Message, Message]


async def test_an_edit_of_something_said_before_drawbar_joined_is_told(
    drawbar: Served, wren: Nio
) -> None:
    room = await wren.create_room(encrypted=False)
    before = await say(wren, room, "odo 48011")
    await wren.client.room_invite(room, drawbar.user)
    await wren.screen.wait_for(joined(drawbar.user))
    await edit(wren, room, before, "odo 48012")
    (edited,) = await drawbar.host.wait_for(1)
    assert isinstance(edited, Edited)
    assert (edited.message.id, edited.message.text) == (before, "odo 48012")


async def test_a_digit_as_a_reaction_on_an_answer_picks_that_choice_and_elsewhere_nothing(
    drawbar: Served, wren: Nio, theo: Mautrix
) -> None:
    room = await shared_room(drawbar, wren, theo)
    said = await say(wren, room, "hitched up")
    await drawbar.host.wait_for(1)
    asked = await drawbar.matrix.send(Letter(chat=room, answer=ASKED, key="ask-1", reply_to=said))
    assert isinstance(asked, Delivered)
    (shown,) = await wren.screen.wait_for(lambda seen: seen.id == asked.reference)
    assert shown.text.endswith("  1  flatdeck\n  2  camper")
    assert "<ol><li>flatdeck</li><li>camper</li></ol>" in shown.content["formatted_body"]
    await react(theo, room, said, "1️⃣")
    await react(theo, room, asked.reference, "👍")
    await react(theo, room, asked.reference, "2️⃣")
    _, picked = await drawbar.host.wait_for(2)
    assert isinstance(picked, Message)
    assert (picked.text, picked.reply_to, picked.author) == ("2", asked.reference, theo.user)


async def test_notices_and_what_drawbar_says_itself_are_not_handed_over(
    drawbar: Served, wren: Nio
) -> None:
    room = await shared_room(drawbar, wren)
    await wren.send(room, "m.room.message", {"msgtype": "m.notice", "body": "odo 1"})
    await drawbar.matrix.send(Letter(chat=room, answer=Answer(headline="odo 2"), key="own-1"))
    await say(wren, room, "odo 3")
    (only,) = await drawbar.host.wait_for(1)
    assert isinstance(only, Message)
    assert (only.text, only.private) == ("odo 3", True)


async def test_an_encrypted_picture_is_fetched_and_never_more_than_is_taken(
    drawbar: Served, wren: Nio, theo: Mautrix
) -> None:
    room = await shared_room(drawbar, wren, theo)
    people: list[Person] = [wren, theo]
    for person in people:
        content = await person.upload(PICTURE)
        captioned = content | {"filename": "t.png", "body": f"ticket of {person.user}"}
        await person.send(room, "m.room.message", captioned)
    for person, said in zip(people, await drawbar.host.wait_for(2), strict=True):
        assert isinstance(said, Message)
        assert said.text == f"ticket of {person.user}"
        assert said.photo is not None
        told = said.photo.reference
        assert await drawbar.matrix.fetch(told, len(PICTURE)) == PICTURE
        for wrong, most in (
            (told, len(PICTURE) - 1),
            (told.replace(f'"size": {len(PICTURE)}', '"size": 1'), len(PICTURE) - 1),
            (told.replace('"sha256": "', '"sha256": "A'), len(PICTURE)),
            (told.replace("mxc://", "https://"), len(PICTURE)),
        ):
            with pytest.raises(NotFetched):
                await drawbar.matrix.fetch(wrong, most)


async def test_what_is_said_between_the_invitation_and_the_joining_is_heard_and_nothing_before(
    drawbar: Served, wren: Nio
) -> None:
    await drawbar.connected()
    await drawbar.stop()
    room = await wren.create_room()
    await say(wren, room, "odo 48010")
    await wren.client.room_invite(room, drawbar.user)
    await wren.screen.wait_for(lambda seen: seen.content.get("membership") == "invite")
    said = await say(wren, room, "odo 48011")
    await drawbar.start()
    (heard,) = await drawbar.host.wait_for(1)
    assert isinstance(heard, Message)
    assert (heard.id, heard.text) == (said, "odo 48011")


async def test_an_invitation_is_followed_from_those_whom_drawbar_knows_alone(
    homeserver: Homeserver, drawbar: Served, wren: Nio
) -> None:
    drawbar.host.known.clear()
    refused = await wren.create_room(drawbar.user)
    await wren.screen.wait_for(
        lambda seen: (
            seen.room == refused
            and seen.sender == drawbar.user
            and seen.content.get("membership") == "leave"
        )
    )
    drawbar.host.known.add(wren.user)
    followed = await wren.create_room(drawbar.user)
    await wren.screen.wait_for(joined(drawbar.user, followed))


async def test_an_upgraded_room_is_followed_to_the_one_that_replaces_it(
    drawbar: Served, wren: Nio
) -> None:
    room = await shared_room(drawbar, wren)
    await say(wren, room, "odo 48011")
    await drawbar.host.wait_for(1)
    # Anybody may send this where it is no state; it must lead nowhere.
    await wren.send(room, "m.room.tombstone", {"body": "", "replacement_room": "!x:chat.example"})
    to = await wren.upgrade(room)
    await wren.client.room_invite(to, drawbar.user)
    _, moved = await drawbar.host.wait_for(2)
    assert moved == Moved(network="matrix", chat=room, to=to)
    await wren.screen.wait_for(joined(drawbar.user, to))
    await say(wren, to, "odo 48012")
    *_, after = await drawbar.host.wait_for(3)
    assert isinstance(after, Message)
    assert (after.chat, after.text) == (to, "odo 48012")
    late = Letter(chat=room, answer=Answer(headline="Late."), key="late")
    assert await drawbar.matrix.send(late) == MovedTo(to)


async def test_everything_said_while_drawbar_was_away_is_told_once_and_in_order(
    drawbar: Served, wren: Nio
) -> None:
    room = await shared_room(drawbar, wren)
    await say(wren, room, "odo 1000")
    await drawbar.host.wait_for(1)
    await drawbar.stop()
    # More than a sync brings at once: the rest is read from the room's past.
    texts = [f"odo {number}" for number in range(1001, 1026)]
    for text in texts:
        await say(wren, room, text)
    await drawbar.start()
    events = await drawbar.host.wait_for(26)
    assert [each.text for each in events if isinstance(each, Message)] == ["odo 1000", *texts]


async def test_a_message_without_its_key_is_asked_for_said_so_once_and_taken_when_it_comes(
    drawbar: Served, wren: Nio
) -> None:
    await drawbar.stop()
    drawbar.patience = timedelta(0)
    await drawbar.start()
    room = await shared_room(drawbar, wren)
    await say(wren, room, "odo 48011")
    await drawbar.host.wait_for(1)
    # The key of the next messages goes to nobody but their sender.
    wren.client.olm.create_outbound_group_session(room)
    wren.client.olm.outbound_group_sessions[room].shared = True
    hidden = [await say(wren, room, "odo 48012"), await say(wren, room, "odo 48013")]
    (told,) = await wren.screen.wait_for(
        lambda seen: seen.sender == drawbar.user and "can't decrypt" in seen.text
    )
    assert told.room == room
    await wren.answer_key_requests(drawbar.user)
    *_, first, second = await drawbar.host.wait_for(3)
    assert isinstance(first, Message)
    assert isinstance(second, Message)
    assert [first.id, second.id] == hidden
    assert [first.text, second.text] == ["odo 48012", "odo 48013"]
    said = [each for each in wren.screen.shown if "can't decrypt" in each.text]
    assert len(said) == 1


async def test_what_is_no_message_at_all_stops_nothing(drawbar: Served, wren: Nio) -> None:
    room = await shared_room(drawbar, wren)
    await wren.send_garbage(drawbar.user, room)
    said = await say(wren, room, "odo 48011")
    (heard,) = await drawbar.host.wait_for(1)
    assert isinstance(heard, Message)
    assert heard.id == said


async def test_an_invitation_that_cannot_be_followed_yet_holds_up_nothing_and_is_tried_again(
    drawbar: Served, wren: Nio, wire: Wire
) -> None:
    await behind(wire, drawbar)
    room = await shared_room(drawbar, wren)
    drawbar.moment += 100
    wire.mishaps = [Mishap("/join/", 502)]
    other = await wren.create_room(drawbar.user)
    await say(wren, room, "odo 48011")
    await drawbar.host.wait_for(1)
    while wire.mishaps:
        await wren.client.synced.wait()
    drawbar.moment += 100
    await say(wren, room, "odo 48012")
    await wren.screen.wait_for(joined(drawbar.user, other))


async def test_the_first_words_in_a_room_reach_a_new_device_that_was_invited_before_it_was_there(
    drawbar: Served, wren: Nio, wire: Wire, tmp_path: Path
) -> None:
    await drawbar.connected()
    await drawbar.stop()
    room = await wren.create_room(drawbar.user)
    drawbar.settings = replace(drawbar.settings, folder=tmp_path / "new")
    wire.mishaps = [Mishap("/keys/upload", 503)]
    await behind(wire, drawbar)
    await wren.screen.wait_for(joined(drawbar.user, room))
    await say(wren, room, "odo 48011")
    await drawbar.host.until_said("odo 48011")
