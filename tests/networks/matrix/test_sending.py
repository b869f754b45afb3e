"""What Drawbar says in rooms of a real homeserver, and who can read it."""

from __future__ import annotations

import asyncio
import shutil
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from struct import pack
from typing import Any

from bot.answers.answer import Answer
from bot.messages import (
    Delivered,
    Drawn,
    Edited,
    Letter,
    Message,
    NotSent,
    Printed,
    Refused,
    Unknown,
)
from tests.networks.matrix.conftest import Served, behind
from tests.networks.matrix.homeserver import Homeserver
from tests.networks.matrix.people import PATIENCE, Mautrix, Nio, Person, edit, say, shared_room
from tests.networks.matrix.wire import Mishap, Wire

WEEK = Answer(headline="This week: 204 miles.")
SENDING = "/send/m.room"
PIXELS = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR" + pack(">II", 320, 200) + b"\x08\2\0\0\0" + bytes(900)


def letter(room: str, key: str, answer: Answer = WEEK, **more: Any) -> Letter:
    return Letter(chat=room, answer=answer, key=key, **more)


async def heard_room(drawbar: Served, wren: Nio, *others: Person) -> str:
    """A shared room that Drawbar has heard of since it joined."""
    room = await shared_room(drawbar, wren, *others)
    await say(wren, room, "hello")
    await drawbar.host.wait_for(1)
    drawbar.host.events.clear()
    return room


async def test_routine_gets_a_reaction_and_an_answer_in_a_group_replies(
    drawbar: Served, wren: Nio, homeserver: Homeserver
) -> None:
    room = await heard_room(drawbar, wren)
    said = await say(wren, room, "odo 48011")
    await drawbar.host.wait_for(1)
    quiet = letter(room, "q", Answer(headline="Kept.", quiet=True), reply_to=said)
    assert isinstance(await drawbar.matrix.send(quiet), Delivered)
    assert await drawbar.matrix.send(replace(quiet, key="q again")) == Delivered()
    (sign,) = await wren.screen.wait_for(lambda seen: seen.type == "m.reaction")
    assert sign.content["m.relates_to"]["event_id"] == said
    await drawbar.matrix.send(letter(room, "1", Answer(headline="Alone"), reply_to=said))
    await wren.client.room_invite(room, homeserver.register(f"wren-guest-{room[1:8].lower()}"))
    await drawbar.matrix.send(
        letter(room, "2", Answer(headline="In a thread"), reply_to=said, thread=said)
    )
    alone, thread = await wren.screen.wait_for(
        lambda seen: seen.sender == drawbar.user and seen.type == "m.room.message", 2
    )
    assert "m.relates_to" not in alone.content
    relates = thread.content["m.relates_to"]
    assert (relates["rel_type"], relates["event_id"]) == ("m.thread", said)


async def test_a_picture_goes_with_its_words_in_one_encrypted_message(
    drawbar: Served, wren: Nio, theo: Mautrix
) -> None:
    room = await heard_room(drawbar, wren, theo)
    drawn = Drawn(png=PIXELS, alt="A week of bars.")
    sent = await drawbar.matrix.send(replace(letter(room, "week"), picture=drawn))
    assert isinstance(sent, Delivered)
    for person in (wren, theo):
        (shown,) = await person.screen.wait_for(lambda seen: seen.id == sent.reference)
        content = shown.content
        assert (content["msgtype"], content["body"]) == ("m.image", WEEK.headline)
        assert content["filename"] == "drawbar.png"
        assert (content["info"]["w"], content["info"]["h"]) == (320, 200)
        assert await theo.read_file(content["file"]) == PIXELS
    over = replace(letter(room, "over", Answer(headline="Over.", urgent=True)), picture=drawn)
    await drawbar.matrix.send(over)
    (warning,) = await wren.screen.wait_for(lambda seen: seen.text == "Over.")
    assert warning.content["msgtype"] == "m.text"


async def test_a_document_goes_with_its_words_and_where_it_cannot_they_say_so(
    drawbar: Served, wren: Nio, theo: Mautrix, wire: Wire
) -> None:
    """Client-Server API v1.11, 11.3.1.5 'm.file'."""
    await behind(wire, drawbar)
    room = await heard_room(drawbar, wren, theo)
    words = Answer(headline="Report: Orchard trip.")
    printed = Printed(pdf=b"%PDF-1.7", name="Orchard trip.pdf")
    sent = await drawbar.matrix.send(replace(letter(room, "trip", words), document=printed))
    assert isinstance(sent, Delivered)
    (shown,) = await theo.screen.wait_for(lambda seen: seen.id == sent.reference)
    content = shown.content
    assert (content["msgtype"], content["body"]) == ("m.file", words.headline)
    assert (content["filename"], content["info"]["mimetype"]) == (printed.name, "application/pdf")
    assert await theo.read_file(content["file"]) == printed.pdf
    wire.mishaps = [Mishap("/upload", 413, {"errcode": "M_TOO_LARGE", "error": "No"})]
    await drawbar.matrix.send(replace(letter(room, "again", words), document=printed))
    (lost,) = await wren.screen.wait_for(lambda seen: "drawbar report FILE" in seen.text)
    assert lost.content["msgtype"] == "m.text"


async def test_words_do_not_wait_for_a_picture_that_the_homeserver_does_not_take(
    drawbar: Served, wren: Nio, wire: Wire
) -> None:
    await behind(wire, drawbar)
    room = await heard_room(drawbar, wren)
    wire.mishaps = [Mishap("/upload", 413, {"errcode": "M_TOO_LARGE", "error": "No"})]
    drawn = Drawn(png=PIXELS, alt="A week of bars.")
    sent = await drawbar.matrix.send(replace(letter(room, "week"), picture=drawn))
    assert isinstance(sent, Delivered)
    (shown,) = await wren.screen.wait_for(lambda seen: seen.text == WEEK.headline)
    assert shown.content["msgtype"] == "m.text"


async def test_after_a_restart_it_is_the_same_device_and_a_repeat_is_shown_once(
    drawbar: Served, wren: Nio
) -> None:
    room = await heard_room(drawbar, wren)
    first = await drawbar.matrix.send(letter(room, "week-1"))
    devices = await wren.devices_of(drawbar.user, 1)
    await drawbar.stop()
    away = await say(wren, room, "odo 48012")
    await drawbar.start()
    (told,) = await drawbar.host.wait_for(1)
    assert isinstance(told, Message)
    assert (told.id, told.text) == (away, "odo 48012")
    assert await drawbar.matrix.send(letter(room, "week-1")) == first
    second = await drawbar.matrix.send(letter(room, "week-2", Answer(headline="Next week.")))
    assert isinstance(second, Delivered)
    await wren.screen.wait_for(lambda seen: seen.text == "Next week.")
    shown = [each for each in wren.screen.shown if each.text == WEEK.headline]
    assert len(shown) == 1
    assert await wren.devices_of(drawbar.user, 1) == devices
    assert len(devices) == 1
    for file in drawbar.settings.folder.iterdir():
        assert file.stat().st_mode & 0o077 == 0, file.name


async def test_without_its_kept_state_drawbar_becomes_a_new_device_that_reads_and_is_read(
    drawbar: Served, wren: Nio
) -> None:
    room = await heard_room(drawbar, wren)
    await drawbar.stop()
    shutil.rmtree(drawbar.settings.folder)
    await drawbar.start()
    for device in await wren.devices_of(drawbar.user, 2):
        await wren.until_known(drawbar.user, device)
    await say(wren, room, "odo 48012")
    (told,) = await drawbar.host.wait_for(1)
    assert isinstance(told, Message)
    assert told.text == "odo 48012"
    assert isinstance(await drawbar.matrix.send(letter(room, "new-1")), Delivered)
    await wren.screen.wait_for(lambda seen: seen.text == WEEK.headline)


async def test_drawbars_device_is_signed_by_its_account_also_when_it_is_a_new_one(
    homeserver: Homeserver, drawbar: Served, wren: Nio, theo: Mautrix
) -> None:
    await drawbar.connected()
    (first,) = await wren.devices_of(drawbar.user, 1)
    await theo.until_trusted(drawbar.user, first)
    assert not await theo.trusts(wren.user, wren.client.device_id)
    await drawbar.stop()
    shutil.rmtree(drawbar.settings.folder)
    await drawbar.start()
    await drawbar.connected()
    (second,) = await wren.devices_of(drawbar.user, 2) - {first}
    # Who looks before the account's new keys are there trusts the old ones ever after.
    await wren.until_signed(drawbar.user, second)
    newcomer = await Mautrix(homeserver.url, homeserver.register("newcomer")).log_in()
    try:
        await newcomer.until_trusted(drawbar.user, second)
    finally:
        await newcomer.leave()


async def test_a_new_device_of_a_member_reads_on_and_gets_what_was_said_before_when_it_asks(
    homeserver: Homeserver, drawbar: Served, theo: Mautrix, wren: Nio
) -> None:
    room = await heard_room(drawbar, wren, theo)
    early = await drawbar.matrix.send(letter(room, "early"))
    assert isinstance(early, Delivered)
    await theo.screen.wait_for(lambda seen: seen.text == WEEK.headline)
    phone = await Mautrix(homeserver.url, theo.user).log_in()
    try:
        await say(phone, room, "odo 48011")
        await drawbar.host.wait_for(1)
        await drawbar.matrix.send(letter(room, "late", Answer(headline="Later.")))
        await phone.screen.wait_for(lambda seen: seen.text == "Later.")
        assert await phone.read_earlier(room, early.reference) == WEEK.headline
    finally:
        await phone.leave()


async def test_who_left_the_room_is_not_given_the_key_of_what_is_said_after(
    drawbar: Served, wren: Nio, homeserver: Homeserver, tmp_path: Path
) -> None:
    guest = await Nio(homeserver.url, homeserver.register("guest")).log_in()
    try:
        room = await heard_room(drawbar, wren, guest)
        await drawbar.matrix.send(letter(room, "before"))
        (before,) = await guest.screen.wait_for(lambda seen: seen.text == WEEK.headline)
        await guest.client.room_leave(room)
        await wren.screen.wait_for(lambda seen: seen.content.get("membership") == "leave")
        await say(wren, room, "odo 48011")
        await drawbar.host.wait_for(1)
        await drawbar.matrix.send(letter(room, "after", Answer(headline="After.")))
        (after,) = await wren.screen.wait_for(lambda seen: seen.text == "After.")
        assert guest.holds(before.session)
        assert not guest.holds(after.session)
    finally:
        await guest.leave()


async def test_what_a_homeserver_answers_decides_what_becomes_of_an_answer(
    drawbar: Served, wren: Nio, wire: Wire
) -> None:
    await behind(wire, drawbar)
    room = await heard_room(drawbar, wren)
    assert isinstance(await drawbar.matrix.send(letter("!elsewhere:chat.example", "0")), Refused)
    assert isinstance(await drawbar.matrix.send(letter(room, "1")), Delivered)
    limit = {"errcode": "M_LIMIT_EXCEEDED", "error": "Too many", "retry_after_ms": 1500}
    wire.mishaps = [Mishap(SENDING, 429, limit)]
    limited = await drawbar.matrix.send(letter(room, "2", Answer(headline="Two")))
    assert isinstance(limited, NotSent)
    assert limited.retry_after == timedelta(seconds=1.5)
    wire.mishaps = [Mishap(SENDING, 502)]
    assert isinstance(await drawbar.matrix.send(letter(room, "2")), Unknown)
    # The HTTP library itself tries once more on a line that was in use before.
    wire.mishaps = [Mishap(SENDING, arrives=True), Mishap(SENDING, arrives=True)]
    assert isinstance(
        await drawbar.matrix.send(letter(room, "3", Answer(headline="Three"))), Unknown
    )
    repeated = await drawbar.matrix.send(letter(room, "3", Answer(headline="Three")))
    assert isinstance(repeated, Delivered)
    wire.mishaps = [Mishap(SENDING, 403, {"errcode": "M_FORBIDDEN", "error": "No"})]
    assert isinstance(await drawbar.matrix.send(letter(room, "4")), Refused)
    unknown = {"errcode": "M_UNKNOWN_TOKEN", "error": "Who"}
    wire.mishaps = [Mishap(SENDING, 401, unknown)]
    assert isinstance(await drawbar.matrix.send(letter(room, "5")), NotSent)
    await drawbar.matrix.send(letter(room, "6", Answer(headline="Last")))
    await wren.screen.wait_for(lambda seen: seen.text == "Last")
    said = [each.text for each in wren.screen.shown if each.sender == drawbar.user and each.text]
    assert said == [WEEK.headline, "Three", "Last"]


async def test_a_key_that_did_not_get_through_is_given_again_before_anything_is_said(
    drawbar: Served, wren: Nio, wire: Wire
) -> None:
    await behind(wire, drawbar)
    room = await heard_room(drawbar, wren)
    wire.mishaps = [Mishap("/sendToDevice/m.room.encrypted", 503)]
    assert isinstance(await drawbar.matrix.send(letter(room, "1")), NotSent)
    assert isinstance(await drawbar.matrix.send(letter(room, "1")), Delivered)
    await wren.screen.wait_for(lambda seen: seen.text == WEEK.headline)


async def test_before_it_is_connected_nothing_is_sent(drawbar: Served) -> None:
    await drawbar.stop()
    assert isinstance(await drawbar.matrix.send(letter("!a:b", "1")), NotSent)


async def test_a_line_that_fails_while_listening_loses_nothing_and_orders_nothing_anew(
    drawbar: Served, wren: Nio, wire: Wire
) -> None:
    await behind(wire, drawbar)
    room = await heard_room(drawbar, wren)
    wire.mishaps = [Mishap("/sync", 502), Mishap("/event/", 503), Mishap("/keys/query", 500)]
    first = await say(wren, room, "odo 48011")
    await edit(wren, room, first, "odo 48012")
    await say(wren, room, "odo 48013")
    await wren.client.update_device(wren.client.device_id, {"display_name": "phone"})
    async with asyncio.timeout(PATIENCE):
        while wire.mishaps:
            await wren.client.synced.wait()
    await say(wren, room, "odo 48014")
    events = await drawbar.host.until_said("odo 48014")
    # After a failure what was taken comes again, as the same event.
    once = {each.id: each for each in events if isinstance(each, Message | Edited)}.values()
    texts = [each.text if isinstance(each, Message) else each.message.text for each in once]
    assert texts == ["odo 48011", "odo 48012", "odo 48013", "odo 48014"]
