"""What a Matrix account hears, one sync after the other.

This file decides in which order events are handed over and when the place in the rooms' talk
moves on (once everything before it was taken), whose invitations are followed, what is made
good after a gap, and what happens to messages that can't be decrypted yet. What stands in an
event is `reading`'s to say.
"""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Awaitable, Callable, Mapping
from datetime import timedelta
from typing import Any

from nio import (
    AsyncClient,
    Event,
    MatrixRoom,
    MegolmEvent,
    RoomInfo,
    RoomMemberEvent,
    SyncResponse,
)

from bot.messages import Delivered, Host, Letter, Moved, Outcome, Refused
from bot.networks.matrix.keys import RoomKeys
from bot.networks.matrix.memory import Memory, Sealed
from bot.networks.matrix.reading import NAME, Place, event_of, moved_to, refers_to
from bot.networks.matrix.requests import BROKEN, Unsuccessful, checked

WAIT = timedelta(seconds=30)
"""How long the server may hold a sync back while nothing happens."""
SHORTEST_WAIT = 1000
"""Milliseconds, so that what can't be said yet is not tried all the time."""
SYNC_SECONDS = 300.0
JOIN_AGAIN = 60.0
FILTER: dict[str, Any] = {
    "presence": {"types": []},
    "account_data": {"types": []},
    "room": {
        "timeline": {"limit": 20},
        "ephemeral": {"types": []},
        "account_data": {"types": []},
    },
}
PAGE = 100
MOST_MISSED = 10_000
"""Events that are read again after a gap; a room where more was said is no logbook."""
logger = logging.getLogger(__name__)


class Listener:
    """Hears for one client. `patience` is how long a key may be late before it is said."""

    def __init__(
        self,
        client: AsyncClient,
        memory: Memory,
        keys: RoomKeys,
        host: Host,
        *,
        owners: frozenset[str],
        send: Callable[[Letter], Awaitable[Outcome]],
        clock: Callable[[], float],
        patience: timedelta,
    ) -> None:
        self._client = client
        self._memory = memory
        self._keys = keys
        self._host = host
        self._owners = owners
        self._send = send
        self._clock = clock
        self._patience = patience.total_seconds()
        self.in_rooms = False
        """Whether the rooms that we are in are known."""
        self._settled = True
        """Whether nothing failed of what was due after the last sync."""
        self.joining: set[str] = set()
        """Rooms that we joined and have not heard of since."""
        self.replaced: dict[str, str] = {}
        """Rooms that were upgraded, and by which they were replaced."""

    async def hear(self) -> None:
        """One sync: take what it brings, then move on; raises Unsuccessful and what breaks."""
        client, position = self._client, self._memory.recall("position")
        # nio passes an answer over whose end it knows already; after a failure it comes again.
        client.next_batch = ""
        # For a sync of the full state nio sets no bound of time.
        async with asyncio.timeout(SYNC_SECONDS):
            heard: SyncResponse = checked(
                await client.sync(
                    timeout=self._wait() if self.in_rooms else 0,
                    sync_filter=FILTER,
                    since=position,
                    full_state=not self.in_rooms,
                )
            )
        self.in_rooms = True
        if heard.device_key_count.signed_curve25519 == 0:
            # nio takes none left for none told, and nobody new could write to us.
            client.olm.uploaded_key_count = 0
        for room in heard.rooms.leave:
            client.rooms.pop(room, None)
        self.joining -= set(heard.rooms.join)
        await self._follow_upgrades(heard)
        await self._open()
        # Without a place to go on from, all that was said is from before our time.
        if position is not None:
            for room, info in heard.rooms.join.items():
                for event in await self._said(room, info, position):
                    await self._take(client.rooms[room], event)
        await self._tell()
        await self._note_invitations(heard)
        self._memory.keep("position", heard.next_batch)
        self._settled = False
        await self._keys.settle()
        self._settled = True

    def _wait(self) -> int:
        """Milliseconds; no longer than until it must be said that a message can't be read."""
        if not self._settled:
            return SHORTEST_WAIT
        waits = [
            sealed.since + self._patience - self._clock()
            for _, sealed in self._memory.sealed()
            if not self._memory.was_told(_session(sealed.source))
        ]
        seconds = min([WAIT.total_seconds(), *waits])
        return max(SHORTEST_WAIT, round(seconds * 1000))

    async def _note_invitations(self, heard: SyncResponse) -> None:
        """Keep where somebody whom Drawbar knows asks us to; the rest is left quietly."""
        for room in heard.rooms.invite:
            inviter = self._client.invited_rooms[room].inviter
            if inviter and (inviter in self._owners or await self._host.knows(NAME, inviter)):
                self._memory.keep_asked(room)
            else:
                await _tried(self._client.room_leave(room))

    async def join_where_asked(self) -> None:
        """Join rooms; only a device whose keys are known, lest the first words are not for it."""
        # A room on a server that is away must hold up nothing else: it is tried again later.
        for room in self._memory.asked(self._clock()):
            done = await _tried(self._client.join(room))
            if done:
                self.joining.add(room)
            if done is None:
                self._memory.put_off_asked(room, self._clock() + JOIN_AGAIN)
            else:
                self._memory.drop_asked(room)

    async def _follow_upgrades(self, heard: SyncResponse) -> None:
        """Go where a room was upgraded to, and say so once we are there."""
        for room, info in heard.rooms.join.items():
            for event in (*info.state, *info.timeline.events):
                if to := moved_to(event.source):
                    self.replaced[room] = to
                    if to not in self._client.rooms:
                        self._memory.keep_asked(to)
        for room, to in self.replaced.items():
            done = f"moved {room}"
            if to in self._client.rooms and self._memory.recall(done) != to:
                await self._host.take(Moved(network=NAME, chat=room, to=to))
                self._memory.keep(done, to)

    async def _said(self, room: str, info: RoomInfo, position: str) -> list[Event]:
        """What was said since the position, in order, and nothing from before we were invited."""
        events, complete = self._since_invited(info.timeline.events)
        earlier: list[Event] = []
        token = info.timeline.prev_batch if info.timeline.limited and not complete else None
        while token and len(earlier) < MOST_MISSED:
            page = await self._client.room_messages(room, start=token, end=position, limit=PAGE)
            if not _once(page):
                break
            found, complete = self._since_invited(page.chunk[::-1])
            earlier = [*found, *earlier]
            token = page.end if page.chunk and not complete else None
        return [*earlier, *events]

    def _since_invited(self, events: list[Event]) -> tuple[list[Event], bool]:
        """Those since we were in the room, or asked into it, and whether that is among them."""
        for place in range(len(events) - 1, -1, -1):
            event = events[place]
            if not isinstance(event, RoomMemberEvent) or event.state_key != self._client.user_id:
                continue
            joined = event.membership == "join" and event.prev_membership not in ("join", "invite")
            if joined or event.membership == "invite":
                return events[place + 1 :], True
        return events, False

    async def _take(self, room: MatrixRoom, event: Event) -> None:
        if isinstance(event, MegolmEvent):
            if event.sender != self._client.user_id:
                event.room_id = room.room_id
                sealed = Sealed(room.room_id, event.source, self._clock())
                self._memory.keep_sealed(event.event_id, sealed)
                self._keys.ask(event)
            return
        await self._hand_over(room, event.source)

    async def _hand_over(self, room: MatrixRoom, source: Mapping[str, Any]) -> None:
        place = Place(
            room=room.room_id,
            own=self._client.user_id,
            names={each: user.display_name for each, user in room.users.items()},
            title=room.display_name,
            private=room.joined_count == 2,
        )
        earlier = await self._event(room.room_id, refers_to(source))
        if event := event_of(source, place, earlier):
            await self._host.take(event)

    async def _event(self, room: str, event_id: str | None) -> Mapping[str, Any] | None:
        """An event of the room's past, or None where the server does not show it to us."""
        if event_id is None:
            return None
        response = await self._client.room_get_event(room, event_id)
        if not _once(response):
            return None
        source: Mapping[str, Any] = response.event.source
        return source

    async def _open(self) -> None:
        """Take messages whose key has come."""
        for event_id, sealed in self._memory.sealed():
            event = _megolm(sealed)
            room = self._client.rooms.get(sealed.room)
            source = self._keys.opened(event) if event is not None and room is not None else None
            if source is not None and room is not None:
                await self._hand_over(room, source)
            if source is not None or event is None:
                self._memory.drop_sealed(event_id)

    async def _tell(self) -> None:
        """Say once of each key that did not come that messages under it can't be read."""
        for event_id, sealed in self._memory.sealed():
            session, sender = _session(sealed.source), str(sealed.source.get("sender"))
            late = self._clock() - sealed.since >= self._patience
            if not late or self._memory.was_told(session):
                continue
            told: Outcome = Refused("said to nobody whom we don't know")
            if await self._host.knows(NAME, sender):
                told = await self._send(
                    Letter(
                        chat=sealed.room,
                        answer=await self._host.sealed_answer(NAME, sealed.room),
                        key=f"drawbar-sealed-{session}",
                        reply_to=event_id,
                    )
                )
            if isinstance(told, Delivered | Refused):
                self._memory.keep_told(session, self._clock())


async def _tried(request: Awaitable[object]) -> bool | None:
    """Whether a request went well, or None where it may go better later."""
    try:
        return _once(await request)
    except (Unsuccessful, *BROKEN) as error:
        logger.info("the homeserver can't do it yet: %r", error)
        return None


def _once(response: object) -> bool:
    """Whether it went well; False where it never will, and raises Unsuccessful where it may."""
    try:
        checked(response)
    except Unsuccessful as error:
        if not error.final:
            raise
        logger.info("the homeserver refused: %s", error)
        return False
    return True


def _megolm(sealed: Sealed) -> MegolmEvent | None:
    event = MegolmEvent.from_dict(sealed.source)
    if not isinstance(event, MegolmEvent):
        return None
    event.room_id = sealed.room
    return event


def _session(source: Mapping[str, Any]) -> str:
    return str(source["content"]["session_id"])
