"""Events as clients may send them, read without a server."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.messages import Deleted, Edited, Message
from bot.networks.matrix.reading import LONGEST_TEXT, Place, event_of, moved_to, refers_to

OURS = "@drawbar:chat.example"
WREN = "@wren:chat.example"
PLACE = Place(
    room="!hives:chat.example", own=OURS, names={WREN: "Wren"}, title="Hives", private=False
)
WHEN = 1_780_000_000_000


def event(content: Any, kind: str = "m.room.message", **more: Any) -> dict[str, Any]:
    return {
        "type": kind,
        "event_id": "$1",
        "sender": WREN,
        "origin_server_ts": WHEN,
        "content": content,
    } | more


def text(body: str, **more: Any) -> dict[str, Any]:
    return {"msgtype": "m.text", "body": body} | more


def test_a_text_is_read_with_its_sender_and_time() -> None:
    assert event_of(event(text("odo 48011")), PLACE) == Message(
        network="matrix",
        chat="!hives:chat.example",
        id="$1",
        author=WREN,
        name="Wren",
        sent_at=datetime.fromtimestamp(WHEN / 1000, UTC),
        text="odo 48011",
        title="Hives",
    )


@pytest.mark.parametrize(
    ("body", "said"),
    [
        # Client-Server API, 'Fallbacks for rich replies': its example, shortened.
        ("> <@alice:example.org> The original body\n\nThe reply", "The reply"),
        ("> <@alice:example.org> first line\n> second line\n\n9,900 not 9,990", "9,900 not 9,990"),
        ("no quotation, steer > 4380", "no quotation, steer > 4380"),
        ("> only a quotation", None),
    ],
)  # fmt: skip
def test_the_quotation_before_a_reply_is_no_part_of_it(body: str, said: str | None) -> None:
    relates = {"m.relates_to": {"m.in_reply_to": {"event_id": "$0"}}}
    read = event_of(event(text(body, **relates)), PLACE)
    if said is None:
        assert read is None
    else:
        assert isinstance(read, Message)
        assert (read.text, read.reply_to) == (said, "$0")


@pytest.mark.parametrize("key", ["1️⃣", "1\u20e3", "1"])
def test_a_keycap_is_the_digit_on_it(key: str) -> None:
    relates = {"rel_type": "m.annotation", "event_id": "$asked", "key": key}
    tap = event({"m.relates_to": relates}, "m.reaction")
    assert refers_to(tap) == "$asked"
    read = event_of(tap, PLACE, event(text("Which?"), sender=OURS, event_id="$asked"))
    assert isinstance(read, Message)
    assert (read.text, read.reply_to) == ("1", "$asked")
    assert event_of(tap, PLACE, event(text("hello"), event_id="$asked")) is None
    assert event_of(tap, PLACE) is None


def test_a_deletion_is_read_from_where_old_and_new_rooms_keep_it() -> None:
    old = event({}, "m.room.redaction", redacts="$0")
    new = event({"redacts": "$0"}, "m.room.redaction")
    for each in (old, new):
        read = event_of(each, PLACE)
        assert isinstance(read, Deleted)
        assert read.id == "$0"


def test_a_plain_picture_has_its_address_and_a_caption_only_beside_a_name() -> None:
    picture = {"msgtype": "m.image", "body": "IMG_1.png", "url": "mxc://chat.example/abc"}
    bare = event_of(event(picture), PLACE)
    assert isinstance(bare, Message)
    assert bare.text == ""
    assert bare.photo is not None
    assert bare.photo.reference == '{"url": "mxc://chat.example/abc"}'
    captioned = event_of(event(picture | {"filename": "IMG_1.png", "body": "31.4 gal"}), PLACE)
    assert isinstance(captioned, Message)
    assert captioned.text == "31.4 gal"
    as_file = picture | {"msgtype": "m.file", "info": {"mimetype": "image/jpeg"}}
    assert isinstance(event_of(event(as_file), PLACE), Message)
    assert event_of(event(picture | {"msgtype": "m.file"}), PLACE) is None


def test_a_very_long_text_is_read_to_its_bound() -> None:
    read = event_of(event(text("9" * 60_000)), PLACE)
    assert isinstance(read, Message)
    assert len(read.text) == LONGEST_TEXT


def test_only_a_state_of_the_room_moves_it() -> None:
    content = {"replacement_room": "!new:chat.example"}
    assert moved_to(event(content, "m.room.tombstone", state_key="")) == "!new:chat.example"
    assert moved_to(event(content, "m.room.tombstone")) is None


NAMES = st.sampled_from(
    ["type", "event_id", "sender", "origin_server_ts", "content", "msgtype", "body", "url", "file",
     "info", "size", "mimetype", "key", "k", "iv", "hashes", "sha256", "filename", "redacts",
     "m.relates_to", "rel_type", "m.in_reply_to", "m.new_content", "is_falling_back",
     "replacement_room", "state_key"]
)  # fmt: skip
VALUES = st.recursive(
    st.none()
    | st.booleans()
    | st.integers()
    | st.floats()
    | st.text(max_size=8)
    | st.sampled_from(
        ["m.room.message", "m.reaction", "m.room.redaction", "m.room.tombstone", "m.text",
         "m.image", "m.replace", "m.annotation", "m.thread", "1️⃣", "image/png", "$1", WREN, OURS]
    ),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(NAMES, inner, max_size=6),
    max_leaves=25,
)  # fmt: skip
EVENTS = st.dictionaries(NAMES, VALUES, max_size=8)


@given(EVENTS, st.none() | EVENTS)
def test_nothing_that_a_client_sends_raises(sent: dict[str, Any], earlier: Any) -> None:
    named = {"event_id": "$2", "sender": WREN} | sent
    for each in (sent, named):
        read = event_of(each, PLACE, earlier)
        assert read is None or isinstance(read, Message | Edited | Deleted)
        assert refers_to(each) is None or isinstance(refers_to(each), str)
        moved_to(each)
