"""What a homeserver's refusals mean, before anybody decides what follows from them.

nio gives an error as a value; here it becomes an exception that says whether waiting helps.
This file does not know what was asked of the server.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import timedelta
from typing import Any, TypeVar

import aiohttp
from nio import AsyncClient, ErrorResponse

Response = TypeVar("Response")
BROKEN = (aiohttp.ClientError, TimeoutError, OSError)
"""What a connection raises."""
LOGGED_OUT = ("M_UNKNOWN_TOKEN", "M_MISSING_TOKEN")
REFUSED = 400
TOO_MANY = 429
SERVER_TROUBLE = 500


class Unsuccessful(Exception):
    """A request that was answered with an error. `wait` is the server's own wish, if any."""

    def __init__(self, answer: Any) -> None:
        transport = answer.transport_response
        self.code = str(getattr(answer, "status_code", None) or "")
        self.status = int(transport.status) if transport is not None else 0
        self.reason = str(getattr(answer, "message", None) or self.code)
        self.wait = _wait(answer)
        self.body: dict[str, Any] = getattr(answer, "body", {})
        super().__init__(f"{self.status} {self.code} {self.reason}".strip())

    @property
    def limited(self) -> bool:
        """Whether it came too soon after others."""
        return self.status == TOO_MANY or self.code == "M_LIMIT_EXCEEDED"

    @property
    def final(self) -> bool:
        """Whether the same request would be refused again."""
        known = bool(self.code) and REFUSED <= self.status < SERVER_TROUBLE
        return known and not self.limited and self.code not in LOGGED_OUT


def checked(answer: Response) -> Response:
    """The answer where it is none of an error; raises Unsuccessful.

    nio looks at the body alone: a proxy's page that says 'bad gateway' passes for an answer
    that has nothing to tell.
    """
    transport = getattr(answer, "transport_response", None)
    if isinstance(answer, ErrorResponse) or (transport is not None and transport.status >= REFUSED):
        raise Unsuccessful(answer)
    return answer


@dataclass(frozen=True, slots=True)
class _Raw:
    """An answer to what nio has no call for, in the shape of nio's."""

    transport_response: aiohttp.ClientResponse
    body: dict[str, Any]

    @property
    def status_code(self) -> str | None:
        return self.body.get("errcode")

    @property
    def message(self) -> str | None:
        return self.body.get("error")

    @property
    def retry_after_ms(self) -> int | None:
        return self.body.get("retry_after_ms")


async def asked(client: AsyncClient, method: str, path: str, body: object) -> dict[str, Any]:
    """The JSON that a server answers to what nio has no call for; raises Unsuccessful."""
    headers = {
        "Authorization": f"Bearer {client.access_token}",
        "Content-Type": "application/json",
    }
    async with await client.send(method, path, json.dumps(body), headers) as response:
        answer = _Raw(response, await client.parse_body(response))
        return checked(answer).body


def _wait(answer: Any) -> timedelta | None:
    if milliseconds := getattr(answer, "retry_after_ms", None):
        return timedelta(milliseconds=int(milliseconds))
    if answer.transport_response is None:
        return None
    # Where the header has taken the place of the field: v1.10, 'Rate limiting'.
    told = answer.transport_response.headers.get("Retry-After", "")
    return timedelta(seconds=int(told)) if told.isdecimal() else None
