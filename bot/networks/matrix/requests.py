"""What a homeserver's refusals mean, before anybody decides what follows from them.

nio gives an error as a value; here it becomes an exception that says whether waiting helps.
This file does not know what was asked of the server.
"""

from __future__ import annotations

from datetime import timedelta
from typing import TypeVar

import aiohttp
from nio import ErrorResponse

Response = TypeVar("Response")
BROKEN = (aiohttp.ClientError, TimeoutError, OSError)
"""What a connection raises."""
LOGGED_OUT = ("M_UNKNOWN_TOKEN", "M_MISSING_TOKEN")
TOO_MANY = 429
SERVER_TROUBLE = 500


class Unsuccessful(Exception):
    """A request that was answered with an error. `wait` is the server's own wish, if any."""

    def __init__(self, error: ErrorResponse) -> None:
        transport = error.transport_response
        self.code = str(error.status_code or "")
        self.status = int(transport.status) if transport is not None else 0
        self.reason = str(error.message) if error.message else self.code
        self.wait = _wait(error)
        super().__init__(f"{self.status} {self.code} {self.reason}".strip())

    @property
    def limited(self) -> bool:
        """Whether it came too soon after others."""
        return self.status == TOO_MANY or self.code == "M_LIMIT_EXCEEDED"

    @property
    def final(self) -> bool:
        """Whether the same request would be refused again."""
        known = bool(self.code) and 400 <= self.status < SERVER_TROUBLE
        return known and not self.limited and self.code not in LOGGED_OUT


def checked(response: Response) -> Response:
    """The response where it is none of an error; raises Unsuccessful."""
    if isinstance(response, ErrorResponse):
        raise Unsuccessful(response)
    return response


def _wait(error: ErrorResponse) -> timedelta | None:
    if error.retry_after_ms:
        return timedelta(milliseconds=int(error.retry_after_ms))
    # Where the header has taken the place of the field: v1.10, 'Rate limiting'.
    told = (
        error.transport_response.headers.get("Retry-After", "")
        if (error.transport_response is not None)
        else ""
    )
    return timedelta(seconds=int(told)) if told.isdecimal() else None
