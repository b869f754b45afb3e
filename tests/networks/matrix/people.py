"""People who text in Matrix rooms, by clients that share nothing with Drawbar's adapter.

`Nio` uses matrix-nio plainly, as its documents show it; `Mautrix` another library on another
implementation of the encryption (libolm). Both tell what they see in a room in the same words.
"""

from __future__ import annotations

import asyncio
import io
import json
from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any, Protocol

import nio
from mautrix.client import Client
from mautrix.client.state_store import MemoryStateStore
from mautrix.crypto import MemoryCryptoStore, OlmMachine
from mautrix.crypto.attachments import decrypt_attachment, encrypt_attachment
from mautrix.types import (
    CrossSigningUsage,
    EventType,
    Filter,
    MediaMessageEventContent,
    MessageType,
    RoomCreatePreset,
    RoomEventFilter,
    RoomFilter,
    SigningKey,
    TOFUSigningKey,
    TrustState,
    UserID,
)

from tests.networks.matrix.homeserver import PASSWORD

PATIENCE = 120.0
MOST_SAID = 500
"""Events that a client asks for at once. By itself a homeserver tells no more than ten of a room,
and people's own clients go back for the others.
"""
ENCRYPTED = {
    "type": "m.room.encryption",
    "state_key": "",
    "content": {"algorithm": "m.megolm.v1.aes-sha2"},
}
Json = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Seen:
    """An event as a person's client shows it, decrypted; `content` is its JSON."""

    id: str
    room: str
    sender: str
    type: str
    content: Json
    session: str = ""
    """The room key that it was encrypted under, where the client tells."""

    @property
    def text(self) -> str:
        """The words, or a reaction's sign."""
        relates = self.content.get("m.relates_to") or {}
        return str(self.content.get("body") or relates.get("key") or "")


@dataclass
class Screen:
    """What a person's client has shown, in order, and someone waiting for more."""

    shown: list[Seen] = field(default_factory=list)
    changed: asyncio.Condition = field(default_factory=asyncio.Condition)

    async def show(self, seen: Seen) -> None:
        async with self.changed:
            if seen.id not in {each.id for each in self.shown}:
                self.shown.append(seen)
            self.changed.notify_all()

    async def wait_for(self, wanted: Callable[[Seen], bool], count: int = 1) -> list[Seen]:
        """The first events that are wanted, as soon as there are as many as `count`."""

        def found() -> list[Seen]:
            return [each for each in self.shown if wanted(each)]

        async with asyncio.timeout(PATIENCE), self.changed:
            await self.changed.wait_for(lambda: len(found()) >= count)
        return found()


class Person(Protocol):
    """Somebody with a client."""

    user: str
    screen: Screen

    async def send(self, room: str, kind: str, content: Json) -> str: ...
    async def create_room(self, *invite: str, encrypted: bool = True) -> str: ...
    async def join(self, room: str) -> None: ...
    async def redact(self, room: str, event: str) -> None: ...
    async def upload(self, picture: bytes) -> Json: ...
    async def leave(self) -> None: ...


async def say(person: Person, room: str, text: str, **more: Any) -> str:
    return await person.send(room, "m.room.message", {"msgtype": "m.text", "body": text, **more})


async def edit(person: Person, room: str, event: str, text: str) -> str:
    new = {"msgtype": "m.text", "body": text}
    return await say(
        person,
        room,
        f"* {text}",
        **{
            "m.new_content": new,
            "m.relates_to": {"rel_type": "m.replace", "event_id": event},
        },
    )


async def react(person: Person, room: str, event: str, key: str) -> str:
    relates = {"rel_type": "m.annotation", "event_id": event, "key": key}
    return await person.send(room, "m.reaction", {"m.relates_to": relates})


def joined(user: str, room: str | None = None) -> Callable[[Seen], bool]:
    """Whether an event says that somebody joined."""
    return lambda seen: (
        seen.sender == user
        and seen.content.get("membership") == "join"
        and room in (None, seen.room)
    )


class Nio:
    """A person with a client made of matrix-nio."""

    def __init__(self, url: str, user: str) -> None:
        self.user = user
        self.screen = Screen()
        self.client = nio.AsyncClient(
            url,
            user,
            config=nio.AsyncClientConfig(store=nio.store.SqliteMemoryStore),
        )
        self.requests: list[nio.RoomKeyRequest] = []
        self._syncing: asyncio.Task[None] | None = None

    async def log_in(self) -> Nio:
        await self.client.login(PASSWORD, device_name="nio")
        # nio keeps requests of other people's devices to itself.
        self.client.olm._collect_single_key_share = self._requested
        self.client.add_event_callback(self._show, nio.Event)
        wanted = {"room": {"timeline": {"limit": MOST_SAID}}}
        self._syncing = asyncio.create_task(self.client.sync_forever(2000, wanted, full_state=True))
        await self.client.synced.wait()
        return self

    def _requested(self, request: nio.RoomKeyRequest) -> bool:
        self.requests.append(request)
        return True

    async def _show(self, room: nio.MatrixRoom, event: nio.Event) -> None:
        source = event.source
        await self.screen.show(
            Seen(
                event.event_id,
                room.room_id,
                event.sender,
                source["type"],
                source["content"],
                event.session_id or "",
            )
        )

    async def devices_of(self, user: str, count: int) -> set[str]:
        """Somebody's devices as the homeserver tells them, once there are as many as `count`."""
        async with asyncio.timeout(PATIENCE):
            while True:
                known = (await self._ask("keys/query", {"device_keys": {user: []}}))["device_keys"]
                if len(known[user]) >= count:
                    return set(known[user])

    async def until_signed(self, user: str, device: str) -> None:
        """Until the homeserver has a device signed with the key that its account has now."""
        async with asyncio.timeout(PATIENCE):
            while True:
                told = await self._ask("keys/query", {"device_keys": {user: []}})
                signing = told.get("self_signing_keys", {}).get(user, {}).get("keys", {})
                signed = told["device_keys"][user][device].get("signatures", {}).get(user, {})
                if not signing.keys().isdisjoint(signed):
                    return

    async def until_known(self, user: str, device: str) -> None:
        """Until this client has heard of a device in one of its rooms."""
        async with asyncio.timeout(PATIENCE):
            while device not in {
                each.id for each in self.client.device_store.active_user_devices(user)
            }:
                await self.client.synced.wait()

    async def _ask(self, path: str, body: Json) -> Json:
        """What the homeserver answers, past the client's own accounts."""
        answer = await self.client.send(
            "POST",
            f"/_matrix/client/v3/{path}",
            json.dumps(body),
            {"Authorization": f"Bearer {self.client.access_token}"},
        )
        told: Json = await answer.json()
        return told

    def holds(self, session: str) -> bool:
        """Whether this client was given a room key."""
        return session in {each.id for each in self.client.olm.inbound_group_store}

    async def answer_key_requests(self, user: str) -> None:
        """Give the keys that somebody's device asks for, as a client does that trusts it."""
        olm = self.client.olm
        async with asyncio.timeout(PATIENCE):
            while not self.requests:
                await self.client.synced.wait()
        for request in self.requests:
            device = olm.device_store[user][request.requesting_device_id]
            session = olm.session_store.get(device.curve25519)
            key = olm.inbound_group_store.get(
                request.room_id, request.sender_key, request.session_id
            )
            await self.client.to_device(
                olm._encrypt_forwarding_key(request.room_id, key, session, device)
            )

    async def send(self, room: str, kind: str, content: Json) -> str:
        sent = await self.client.room_send(room, kind, content, ignore_unverified_devices=True)
        return str(sent.event_id)

    async def create_room(self, *invite: str, encrypted: bool = True) -> str:
        made = await self.client.room_create(
            invite=list(invite),
            preset=nio.RoomPreset.private_chat,
            initial_state=[ENCRYPTED] if encrypted else [],
        )
        while made.room_id not in self.client.rooms:
            await self.client.synced.wait()
        return str(made.room_id)

    async def join(self, room: str) -> None:
        await self.client.join(room)
        while room not in self.client.rooms:
            await self.client.synced.wait()

    async def redact(self, room: str, event: str) -> None:
        await self.client.room_redact(room, event)

    async def send_garbage(self, user: str, room: str) -> None:
        """What nobody's client sends: ciphertext that is none, and a text that is no text."""
        olm = self.client.olm
        for device in olm.device_store.active_user_devices(user):
            for kind, body in ((0, "!!"), (0, "AwgAEn"), (1, "%"), (1, "AwgAEn"), (7, "")):
                content = {
                    "algorithm": "m.olm.v1.curve25519-aes-sha2",
                    "sender_key": olm.account.identity_keys["curve25519"],
                    "ciphertext": {device.curve25519: {"type": kind, "body": body}},
                }
                await self.client.to_device(
                    nio.ToDeviceMessage("m.room.encrypted", user, device.id, content)
                )
        for plaintext in (b"\xff\xfe", b"[" * 20_000, b"[]", b'{"content": 1}'):
            if olm.should_share_group_session(room):
                await self.client.share_group_session(room, ignore_unverified_devices=True)
            session = olm.outbound_group_sessions[room]
            content = {
                "algorithm": "m.megolm.v1.aes-sha2",
                "sender_key": olm.account.identity_keys["curve25519"],
                "ciphertext": session._session.encrypt(plaintext).to_base64(),
                "session_id": session.id,
                "device_id": self.client.device_id,
            }
            put = nio.Api.room_send(
                self.client.access_token, room, "m.room.encrypted", content, str(len(plaintext))
            )
            await self.client._send(nio.RoomSendResponse, *put, (room,))

    async def upgrade(self, room: str) -> str:
        """The room that replaces this one from now on."""
        told = await self._ask(f"rooms/{room}/upgrade", {"new_version": "11"})
        to = str(told["replacement_room"])
        while to not in self.client.rooms:
            await self.client.synced.wait()
        return to

    async def upload(self, picture: bytes) -> Json:
        stored, keys = await self.client.upload(
            io.BytesIO(picture), "image/png", "ticket.png", encrypt=True, filesize=len(picture)
        )
        info = {"mimetype": "image/png", "size": len(picture)}
        file = {"url": stored.content_uri, **keys}
        return {"msgtype": "m.image", "body": "ticket.png", "info": info, "file": file}

    async def leave(self) -> None:
        if self._syncing is not None:
            self._syncing.cancel()
        await self.client.close()
        self.client.store.database.close()


class Rooms(MemoryStateStore):
    """mautrix asks its rooms which of them are shared with somebody."""

    async def find_shared_rooms(self, user_id: str) -> list[str]:
        return [room for room, members in self.members.items() if user_id in members]


class Keys(MemoryCryptoStore):
    """Takes an account's key a second time, over which mautrix's own store stumbles."""

    async def put_cross_signing_key(
        self, user_id: UserID, usage: CrossSigningUsage, key: SigningKey
    ) -> None:
        kept = self._cross_signing_keys.setdefault(user_id, {})
        first = kept[usage].first if usage in kept else key
        kept[usage] = TOFUSigningKey(key=key, first=first)


class Mautrix:
    """A person with a client made of mautrix and libolm."""

    def __init__(self, url: str, user: str) -> None:
        self.user = user
        self.screen = Screen()
        rooms: Any = Rooms()
        # Its types tell ids from other text, which a test has no use for.
        self.client: Any = Client(mxid=user, base_url=url, state_store=rooms)
        self._keys = Keys(user, "a pickle key")
        self.client.crypto = OlmMachine(self.client, self._keys, rooms)
        self.client.crypto.share_keys_min_trust = TrustState.UNVERIFIED
        self._synced = asyncio.Event()

    async def log_in(self) -> Mautrix:
        await self.client.login(password=PASSWORD, device_name="mautrix")
        await self.client.crypto.load()
        await self.client.crypto.share_keys()
        for kind in (EventType.ROOM_MESSAGE, EventType.REACTION, EventType.ROOM_MEMBER):
            self.client.add_event_handler(kind, self._show)
        self.resume()
        return self

    async def _show(self, event: Any) -> None:
        content = event.content.serialize() if event.content else {}
        await self.screen.show(
            Seen(event.event_id, event.room_id, event.sender, event.type.t, content)
        )

    async def send(self, room: str, kind: str, content: Json) -> str:
        of = EventType.find(kind, EventType.Class.MESSAGE)
        return str(await self.client.send_message_event(room, of, content))

    async def create_room(self, *invite: str, encrypted: bool = True) -> str:
        return str(
            await self.client.create_room(
                invitees=list(invite),
                preset=RoomCreatePreset.PRIVATE,
                initial_state=[ENCRYPTED] if encrypted else [],
            )
        )

    async def join(self, room: str) -> None:
        await self.client.join_room(room)

    async def redact(self, room: str, event: str) -> None:
        await self.client.redact(room, event)

    async def read_earlier(self, room: str, event_id: str) -> str:
        """The words of a message whose key this device never had: it asks the sender's."""
        event: Any = await self.client.get_event(room, event_id)
        told = event.content
        asked: Any = {event.sender: {told.device_id: None}}
        assert await self.client.crypto.request_room_key(
            room, told.sender_key, told.session_id, asked, PATIENCE
        )
        read: Any = await self.client.crypto.decrypt_megolm_event(event)
        return str(read.content.body)

    async def until_trusted(self, user: str, device: str) -> None:
        """Until somebody's device is signed by their account."""
        async with asyncio.timeout(PATIENCE):
            while not await self.trusts(user, device):
                pass

    async def trusts(self, user: str, device: str) -> bool:
        """Whether somebody's device is signed by their account, as the homeserver has it."""
        crypto = self.client.crypto
        found = (await crypto._fetch_keys([user], include_untracked=True))[user][device]
        return bool(await crypto.resolve_trust(found) >= TrustState.CROSS_SIGNED_TOFU)

    async def read_file(self, file: Json) -> bytes:
        """An encrypted attachment, fetched and decrypted."""
        stored = await self.client.download_media(file["url"])
        return decrypt_attachment(stored, file["key"]["k"], file["hashes"]["sha256"], file["iv"])

    async def upload(self, picture: bytes) -> Json:
        stored, file = encrypt_attachment(picture)
        file.url = await self.client.upload_media(stored, "application/octet-stream", "ticket.png")
        content = MediaMessageEventContent(
            msgtype=MessageType.IMAGE, body="ticket.png", file=file
        ).serialize()
        content["info"] = {"mimetype": "image/png", "size": len(picture)}
        return content

    def pause(self) -> None:
        """Stop looking at the screen, as while the homeserver is away."""
        self.client.stop()

    def resume(self) -> None:
        everything = RoomEventFilter(limit=MOST_SAID)
        self.client.start(Filter(room=RoomFilter(timeline=everything)))

    async def leave(self) -> None:
        self.client.stop()
        await self.client.api.session.close()


class Account(Protocol):
    """Somebody who can be invited."""

    @property
    def user(self) -> str: ...


async def shared_room(drawbar: Account, wren: Nio, *others: Person) -> str:
    """An encrypted room that Drawbar and everybody given has joined."""
    room = await wren.create_room(drawbar.user, *(each.user for each in others))
    for each in others:
        await each.join(room)
    for user in (drawbar.user, *(each.user for each in others)):
        await wren.screen.wait_for(joined(user, room))
    return room
