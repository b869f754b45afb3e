"""A person's picture out of the homeserver's store, decrypted, and never more than asked for.

This file decides how much is taken and what is said of a picture that can't be had; it does not
look into pictures. Forms: Client-Server API v1.11, 11.7 'Content repository' and 11.7.1.6
'Sending encrypted attachments'.
"""

from __future__ import annotations

import json
import re
from http import HTTPStatus
from typing import Any
from urllib.parse import quote

from nio import AsyncClient
from nio.crypto.attachments import decrypt_attachment
from nio.exceptions import EncryptionError

from bot.messages import NotFetched
from bot.networks.matrix.requests import BROKEN

ADDRESS = re.compile(r"mxc://([^/\s]+)/([A-Za-z0-9_-]+)")
CHUNK = 64 * 1024
PATHS = ("/_matrix/client/v1/media/download", "/_matrix/media/v3/download")
"""Since v1.11, and what older servers have."""


async def fetch(client: AsyncClient, reference: str, most: int) -> bytes:
    """The picture's bytes; raises NotFetched."""
    told = json.loads(reference)
    address = ADDRESS.fullmatch(str(told.get("url")))
    if address is None:
        raise NotFetched("The picture's address is none of Matrix.")
    size = told.get("size")
    if isinstance(size, int) and size > most:
        raise NotFetched(f"The picture has {size:,} bytes, and {most:,} are taken.")
    server, media = (quote(part, safe="") for part in address.groups())
    try:
        stored = await _download(client, f"{server}/{media}", most)
    except BROKEN as error:
        raise NotFetched(f"The homeserver did not give the picture: {error!r}") from error
    return _decrypted(stored, told) if "key" in told else stored


async def _download(client: AsyncClient, media: str, most: int) -> bytes:
    headers = {"Authorization": f"Bearer {client.access_token}"}
    status = 0
    for path in PATHS:
        async with await client.send("GET", f"{path}/{media}", headers=headers) as response:
            status = response.status
            if status == HTTPStatus.OK:
                if (response.content_length or 0) > most:
                    break
                stored = bytearray()
                async for chunk in response.content.iter_chunked(CHUNK):
                    stored += chunk
                    if len(stored) > most:
                        raise NotFetched(f"The picture has more than {most:,} bytes.")
                return bytes(stored)
    if status == HTTPStatus.OK:
        raise NotFetched(f"The picture has more than {most:,} bytes.")
    raise NotFetched(f"The homeserver does not have the picture ({status}).")


def _decrypted(stored: bytes, told: dict[str, Any]) -> bytes:
    try:
        plain: bytes = decrypt_attachment(
            stored, str(told["key"]), str(told["sha256"]), str(told["iv"])
        )
    except (EncryptionError, ValueError) as error:
        raise NotFetched(f"The picture can't be decrypted: {error}") from error
    return plain
