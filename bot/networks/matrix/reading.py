"""Events of a Matrix room, as Drawbar's.

This file decides which of a room's events are a person's message, edit, deletion or choice,
and what stands in them; nothing that a client may have put into an event makes it raise. Pure:
it knows no server, and what must be looked up first is an argument. Forms: Client-Server API
v1.11, 11.3 'Instant messaging', 11.10 'Event replacements', 11.12 'Event annotations and
reactions', 11.24 'Threading'.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from bot.messages import Deleted, Edited, Event, Message, Photo

NAME = "matrix"
LONGEST_TEXT = 20_000
"""Characters of a message that are read. A table may be pasted, a book is not a message."""
TAP = re.compile("([1-9])\ufe0f?\u20e3?")
"""A digit, or a keycap made of one: UTS #51, ED-14c 'emoji keycap sequence'."""
QUOTED = re.compile(r"(?:>[^\n]*(?:\n|$))+\n?")
"""The quotation that older clients put before a reply: 'Fallbacks for rich replies'."""

Json = Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A room as its events are read: its id, who we are, how people and the room are called."""

    room: str
    own: str
    names: Mapping[str, str]
    title: str
    private: bool


def refers_to(event: Json) -> str | None:
    """The id of the event without which this one can't be told: what was edited or tapped."""
    relates = _part(_part(event, "content"), "m.relates_to")
    kind, target = relates.get("rel_type"), relates.get("event_id")
    if not isinstance(target, str):
        return None
    wanted = (event.get("type") == "m.room.message" and kind == "m.replace") or (
        event.get("type") == "m.reaction" and kind == "m.annotation" and _digit(relates)
    )
    return target if wanted else None


def event_of(event: Json, place: Place, earlier: Json | None = None) -> Event | None:
    """What a person did, or None: a notice, our own, or nothing that Drawbar knows.

    `earlier` is the event that `refers_to` named, where it can still be had. An edit by anyone
    but the author is none, and a digit only counts on a message of ours.
    """
    sender, own_id = event.get("sender"), event.get("event_id")
    if not (isinstance(sender, str) and isinstance(own_id, str)) or sender == place.own:
        return None
    match event.get("type"):
        case "m.room.message" if refers_to(event) is not None:
            return _edited(event, place, earlier)
        case "m.room.message":
            return _message(event, _part(event, "content"), place)
        case "m.reaction" if earlier is not None and earlier.get("sender") == place.own:
            return _tapped(event, place, earlier)
        case "m.room.redaction":
            return _deleted(event, place)
        case _:
            return None


def moved_to(event: Json) -> str | None:
    """The room that replaces this one, where the event says so (11.32 'Room upgrades')."""
    to = _part(event, "content").get("replacement_room")
    # Without a state key it is no state: anybody in the room may send that.
    known = event.get("type") == "m.room.tombstone" and event.get("state_key") == ""
    return to if known and isinstance(to, str) and to else None


def _message(event: Json, content: Json, place: Place) -> Message | None:
    photo = _photo(content)
    if photo is None and content.get("msgtype") != "m.text":
        return None
    relates = _part(_part(event, "content"), "m.relates_to")
    reply_to = _part(relates, "m.in_reply_to").get("event_id")
    thread = relates.get("event_id") if relates.get("rel_type") == "m.thread" else None
    text = _text(content, photo is not None)
    if isinstance(reply_to, str):
        text = QUOTED.sub("", text, count=1) if text.startswith(">") else text
    if not text.strip() and photo is None:
        return None
    # In a thread, a reply that only stands in for the thread is none.
    replies = isinstance(reply_to, str) and not (thread and relates.get("is_falling_back"))
    return _sent(
        event,
        place,
        text,
        reply_to=str(reply_to) if replies else None,
        thread=thread,
        photo=photo,
    )


def _sent(
    event: Json,
    place: Place,
    text: str,
    *,
    reply_to: str | None,
    thread: object,
    photo: Photo | None = None,
) -> Message:
    """An event as a message with this text; what is no id is no thread."""
    name = _name(event, place)
    return Message(
        network=NAME,
        chat=place.room,
        id=str(event["event_id"]),
        author=str(event["sender"]),
        name=name,
        sent_at=_at(event),
        text=text,
        reply_to=reply_to,
        thread=thread if isinstance(thread, str) else None,
        photo=photo,
        private=place.private,
        title=name if place.private else place.title,
    )


def _edited(event: Json, place: Place, earlier: Json | None) -> Edited | None:
    if earlier is not None and earlier.get("sender") != event.get("sender"):
        return None
    # The message's own time and place are those of the first event, where that can be had.
    first = {**event, "content": {}} if earlier is None else {**earlier, "sender": event["sender"]}
    first["event_id"] = refers_to(event)
    message = _message(first, _part(_part(event, "content"), "m.new_content"), place)
    if message is None:
        return None
    return Edited(message=message, id=str(event["event_id"]), at=_at(event))


def _tapped(event: Json, place: Place, earlier: Json) -> Message | None:
    relates = _part(_part(event, "content"), "m.relates_to")
    above = _part(_part(earlier, "content"), "m.relates_to")
    thread = above.get("event_id") if above.get("rel_type") == "m.thread" else None
    digit = _digit(relates)
    if digit is None:
        return None
    return _sent(event, place, digit, reply_to=refers_to(event), thread=thread)


def _deleted(event: Json, place: Place) -> Deleted | None:
    # Room version 11 moved the field into the content.
    gone = event.get("redacts") or _part(event, "content").get("redacts")
    if not isinstance(gone, str):
        return None
    return Deleted(
        network=NAME,
        chat=place.room,
        id=gone,
        author=str(event["sender"]),
        name=_name(event, place),
        at=_at(event),
    )


def _photo(content: Json) -> Photo | None:
    """A picture, sent as one or as a file, with what is needed to fetch and decrypt it."""
    info, file = _part(content, "info"), _part(content, "file")
    kind = info.get("mimetype")
    pictured = content.get("msgtype") == "m.image" or (
        content.get("msgtype") == "m.file" and isinstance(kind, str) and kind.startswith("image/")
    )
    address = file.get("url") if file else content.get("url")
    if not pictured or not isinstance(address, str):
        return None
    told: dict[str, Any] = {"url": address}
    if isinstance(info.get("size"), int):
        told["size"] = info["size"]
    if file:
        told |= {
            "key": _part(file, "key").get("k"),
            "iv": file.get("iv"),
            "sha256": _part(file, "hashes").get("sha256"),
        }
    return Photo(reference=json.dumps(told, sort_keys=True))


def _text(content: Json, pictured: bool) -> str:
    """The words of a message. Of a picture they are a caption only beside a file's name."""
    body, name = content.get("body"), content.get("filename")
    if not isinstance(body, str) or (pictured and (not isinstance(name, str) or name == body)):
        return ""
    return body[:LONGEST_TEXT]


def _digit(relates: Json) -> str | None:
    key = relates.get("key")
    tap = TAP.fullmatch(key) if isinstance(key, str) else None
    return tap.group(1) if tap else None


def _name(event: Json, place: Place) -> str:
    sender = str(event["sender"])
    return place.names.get(sender) or sender.removeprefix("@").partition(":")[0]


def _at(event: Json) -> datetime:
    told = event.get("origin_server_ts")
    # A server's clock may say anything; what no calendar holds is read as the epoch.
    seconds = told / 1000 if isinstance(told, int) and 0 <= told < LAST_MILLISECOND else 0.0
    return datetime.fromtimestamp(seconds, UTC)


def _part(whole: Json, name: str) -> Json:
    part = whole.get(name)
    return part if isinstance(part, Mapping) else {}


LAST_MILLISECOND = 253_402_300_799_000
