"""Who can read what Drawbar says in an encrypted room, and whose keys Drawbar takes.

This file decides that a device is trusted when it is first seen, that a room's key goes to
every device of every member before anything is said under it, that a member who was given a
key gets it again on another device, and that a key asked for is taken from the device that
made it. The arithmetic is nio's. It does not know what is said.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Callable
from typing import Any

from nio import (
    AsyncClient,
    Event,
    ForwardedRoomKeyEvent,
    MatrixRoom,
    MegolmEvent,
    RoomKeyRequest,
    ToDeviceEvent,
    ToDeviceMessage,
)
from nio.crypto import Olm
from nio.exceptions import EncryptionError, OlmTrustError

from bot.networks.matrix.memory import Memory
from bot.networks.matrix.requests import Unsuccessful, checked

MALFORMED = (AttributeError, LookupError, RecursionError, TypeError, ValueError)
"""What nio and vodozemac raise over content that somebody made up."""
logger = logging.getLogger(__name__)


class Machine(Olm):  # type: ignore[misc]
    """nio's, which by itself gives and takes keys between devices of one account alone."""

    def __init__(self, client: AsyncClient, memory: Memory) -> None:
        super().__init__(client.user_id, client.device_id, client.store)
        self._memory = memory

    def handle_to_device_event(self, event: ToDeviceEvent) -> ToDeviceEvent | None:
        """Nio raises where ciphertext is not formed as it should be, and would at each sync."""
        try:
            return super().handle_to_device_event(event)
        except MALFORMED as error:
            logger.info("Matrix: %s sent a message that is none: %r", event.sender, error)
            return None

    def decrypt_megolm_event(self, event: MegolmEvent, room_id: str | None = None) -> Event:
        """Raises EncryptionError also where what was encrypted is not formed as it should be."""
        try:
            return super().decrypt_megolm_event(event, room_id)
        except MALFORMED as error:
            raise EncryptionError(repr(error)) from error

    def share_keys(self) -> dict[str, Any]:
        """Keys to upload, kept first: a key that only the server has lets nobody in."""
        keys: dict[str, Any] = super().share_keys()
        self.save_account()
        return keys

    def _should_accept_forward(
        self, sender: str, sender_key: str, event: ForwardedRoomKeyEvent
    ) -> bool:
        """Take a key that was asked for from the device that made it, which nobody can better."""
        asked = self.outgoing_key_requests.get(event.session_id)
        made_by = event.source["content"].get("sender_key")
        if asked is not None and asked.room_id == event.room_id and made_by == sender_key:
            return bool(event.algorithm == asked.algorithm)
        return bool(super()._should_accept_forward(sender, sender_key, event))

    def _collect_single_key_share(self, event: RoomKeyRequest) -> bool:
        """Give a key of ours again to whoever was given it, on whichever of their devices asks."""
        ours: str = self.account.identity_keys["curve25519"]
        if event.sender == self.user_id or event.sender_key != ours:
            return bool(super()._collect_single_key_share(event))
        if self._memory.was_given(event.session_id, event.sender):
            self._give_again(event)
        return True

    def _give_again(self, event: RoomKeyRequest) -> None:
        session = self.inbound_group_store.get(event.room_id, event.sender_key, event.session_id)
        try:
            device = self.device_store[event.sender][event.requesting_device_id]
        except KeyError:
            # A device that is new to us: it may ask again once its keys are here.
            self.users_for_key_query.add(event.sender)
            return
        channel = self.session_store.get(device.curve25519)
        if session is not None and channel is not None:
            forward = self._encrypt_forwarding_key(event.room_id, session, channel, device)
            self.outgoing_to_device_messages.append(forward)
        elif session is not None and device not in self.key_request_devices_no_session:
            # nio claims a key of the device, and then brings the request before us again.
            self.key_request_devices_no_session.append(device)
            waiting = self.key_requests_waiting_for_session[(device.user_id, device.device_id)]
            waiting[event.request_id] = event


class _Sealed(ToDeviceMessage):  # type: ignore[misc]
    """Messages to many devices in one request."""

    def as_dict(self) -> dict[str, Any]:
        content: dict[str, Any] = self.content
        return content


class RoomKeys:
    """Sees to it that members can read what is said next, and asks for keys that are missing."""

    def __init__(self, client: AsyncClient, memory: Memory, clock: Callable[[], float]) -> None:
        self._client = client
        self._memory = memory
        self._clock = clock
        self._one_at_a_time = asyncio.Lock()

    async def share(self, room: MatrixRoom) -> None:
        """Give the room's key to each device of each member; raises what `checked` raises.

        nio would count a key as shared though sending it failed, and then nobody could read on.
        """
        async with self._one_at_a_time:
            if not room.members_synced:
                checked(await self._client.joined_members(room.room_id))
            while True:
                if self._client.should_query_keys:
                    checked(await self._client.keys_query())
                if not self._client.olm.should_share_group_session(room.room_id):
                    return
                await self._share(room)

    async def _share(self, room: MatrixRoom) -> None:
        olm = self._client.olm
        members = set(room.users)
        if missing := self._client.get_missing_sessions(room.room_id):
            checked(await self._client.keys_claim(missing))
        # Trust on first use: a family does not compare keys with a logbook, and a device that
        # was refused would leave one of them without answers. A key that changes for a device
        # already seen is refused by nio.
        batches = olm.share_group_session_parallel(
            room.room_id, sorted(members), ignore_unverified_devices=True
        )
        for devices, messages in batches:
            checked(await self._client.to_device(_Sealed("m.room.encrypted", "", "", messages)))
            olm.outbound_group_sessions[room.room_id].users_shared_with.update(devices)
        # Whoever came or went meanwhile decides whether this key may be used.
        session = olm.outbound_group_sessions[room.room_id]
        if members == set(room.users) and not self._client.should_query_keys:
            self._memory.keep_recipients(session.id, members, self._clock())
            session.shared = True
        elif not members <= set(room.users):
            olm.create_outbound_group_session(room.room_id)

    def ask(self, event: MegolmEvent) -> None:
        """Ask the sender's device for a key, once; it leaves with the next messages to devices."""
        olm = self._client.olm
        asked = {getattr(each, "session_id", "") for each in olm.outgoing_to_device_messages}
        if event.session_id not in olm.outgoing_key_requests and event.session_id not in asked:
            olm.outgoing_to_device_messages.append(
                event.as_key_request(
                    event.sender, self._client.device_id, event.session_id, event.device_id
                )
            )

    def opened(self, event: MegolmEvent) -> dict[str, Any] | None:
        """The JSON of a message whose key has come by now, or None."""
        olm = self._client.olm
        if olm.inbound_group_store.get(event.room_id, event.sender_key, event.session_id) is None:
            return None
        try:
            source: dict[str, Any] = self._client.decrypt_event(event).source
        except (EncryptionError, OlmTrustError):
            return None
        return source

    async def settle(self) -> None:
        """Upload, query, claim and send what is due between two syncs."""
        client = self._client
        if client.should_upload_keys:
            checked(await client.keys_upload())
        if client.should_query_keys:
            checked(await client.keys_query())
        if client.should_claim_keys:
            checked(await client.keys_claim(client.get_users_for_key_claiming()))
            await client._collect_key_requests()
        for message in list(client.outgoing_to_device_messages):
            try:
                checked(await client.to_device(message))
            except Unsuccessful as error:
                waiting = client.outgoing_to_device_messages
                if error.final:
                    waiting.remove(message)
                    continue
                # nio may have taken the answer for a good one.
                if message not in waiting:
                    waiting.append(message)
                raise
