"""A line between Drawbar and its homeserver that fails when it is told to."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

import aiohttp
from aiohttp import web


@dataclass(frozen=True, slots=True)
class Mishap:
    """What befalls the next request to a path: an answer of its own, or an answer lost."""

    path: str
    status: int = 0
    body: dict[str, Any] | None = None
    arrives: bool = False


@dataclass
class Wire:
    """Passes everything on to the homeserver, but for the mishaps that are due."""

    server: str
    mishaps: list[Mishap] = field(default_factory=list)
    sent: list[str] = field(default_factory=list)
    _runner: web.AppRunner | None = None

    async def start(self) -> str:
        """Start on a port of loopback; the address."""
        app = web.Application(client_max_size=20_000_000)
        app.router.add_route("*", "/{path:.*}", self._pass)
        self._runner = web.AppRunner(app, access_log=None, shutdown_timeout=0.1)
        await self._runner.setup()
        site = web.TCPSite(self._runner, "127.0.0.1", 0)
        await site.start()
        (host, port) = self._runner.addresses[0][:2]
        return f"http://{host}:{port}"

    async def stop(self) -> None:
        if self._runner is not None:
            await self._runner.cleanup()

    async def _pass(self, request: web.Request) -> web.StreamResponse:
        mishap = next((each for each in self.mishaps if re.search(each.path, request.path)), None)
        if mishap is not None:
            self.mishaps.remove(mishap)
        if mishap is not None and not mishap.arrives:
            return self._failed(mishap, request)
        answer = await self._forward(request)
        self.sent.append(request.path)
        return answer if mishap is None else self._failed(mishap, request)

    def _failed(self, mishap: Mishap, request: web.Request) -> web.Response:
        if mishap.status:
            return web.json_response(mishap.body or {}, status=mishap.status)
        if request.transport is not None:
            request.transport.close()
        return web.Response()

    async def _forward(self, request: web.Request) -> web.Response:
        headers = {
            name: value
            for name, value in request.headers.items()
            if name in ("Authorization", "Content-Type")
        }
        async with (
            aiohttp.ClientSession() as session,
            session.request(
                request.method,
                self.server + request.raw_path,
                data=await request.read(),
                headers=headers,
            ) as response,
        ):
            return web.Response(
                body=await response.read(),
                status=response.status,
                content_type=response.content_type,
            )
