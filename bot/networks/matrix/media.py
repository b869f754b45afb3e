"""Files out of the homeserver's store and into it, encrypted where the room is.

This file decides how much of a person's picture is taken, why one can't be had, and that words
never wait for a picture of ours. It does not look into pictures. Forms: Client-Server API v1.11,
11.7 'Content repository' and 11.7.1.6 'Sending encrypted attachments'.
"""

from __future__ import annotations

import asyncio
import io
import json
import logging
import re
from http import HTTPStatus
from typing import Any
from urllib.parse import quote

from nio import AsyncClient
from nio.crypto.attachments import decrypt_attachment
from nio.exceptions import EncryptionError

from bot.messages import Drawn, NotFetched, Printed
from bot.networks.matrix.requests import BROKEN, Unsuccessful, checked

ADDRESS = re.compile(r"mxc://([^/\s]+)/([A-Za-z0-9_-]+)")
CHUNK = 64 * 1024
PNG, PDF = "image/png", "application/pdf"
FILE = "drawbar.png"
UPLOAD_SECONDS = 20.0
PATHS = ("/_matrix/client/v1/media/download", "/_matrix/media/v3/download")
"""Since v1.11, and what older servers have."""
logger = logging.getLogger(__name__)


async def fetch(client: AsyncClient, reference: str, most: int) -> bytes:
    """The picture's bytes; raises NotFetched."""
    told = json.loads(reference)
    address = ADDRESS.fullmatch(str(told.get("url")))
    if address is None:
        raise NotFetched("gone", "its address is none of Matrix")
    size = told.get("size")
    if isinstance(size, int) and size > most:
        raise NotFetched("too large")
    server, media = (quote(part, safe="") for part in address.groups())
    try:
        stored = await _download(client, f"{server}/{media}", most)
    except BROKEN as error:
        raise NotFetched("out of reach", repr(error)) from error
    return _decrypted(stored, told) if "key" in told else stored


async def store(client: AsyncClient, picture: Drawn, *, encrypted: bool) -> dict[str, Any] | None:
    """Put a picture of ours into the store: its part of an `m.image`, or None where it fails."""
    stored = await _upload(client, picture.png, PNG, FILE, encrypted=encrypted)
    if stored is None:
        return None
    width, height = picture.size
    return {"msgtype": "m.image", **stored, "info": {**stored["info"], "w": width, "h": height}}


async def store_document(
    client: AsyncClient, document: Printed, *, encrypted: bool
) -> dict[str, Any] | None:
    """Put a document into the store: its part of an `m.file`, or None where it fails."""
    stored = await _upload(client, document.pdf, PDF, document.name, encrypted=encrypted)
    return None if stored is None else {"msgtype": "m.file", **stored}


async def _upload(
    client: AsyncClient, data: bytes, kind: str, name: str, *, encrypted: bool
) -> dict[str, Any] | None:
    size = len(data)
    try:
        # nio sets no bound of time to what it uploads.
        async with asyncio.timeout(UPLOAD_SECONDS):
            answer, keys = await client.upload(
                io.BytesIO(data), kind, name, encrypt=encrypted, filesize=size
            )
        address = checked(answer).content_uri
    except (Unsuccessful, *BROKEN) as error:
        logger.warning("Matrix: an answer goes without its %s: %s", kind, error)
        return None
    return {
        "filename": name,
        "info": {"mimetype": kind, "size": size},
        **({"file": {"url": address, **keys}} if encrypted else {"url": address}),
    }


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
                        raise NotFetched("too large")
                return bytes(stored)
    if status == HTTPStatus.OK:
        raise NotFetched("too large")
    raise NotFetched("gone", f"the homeserver says {status}")


def _decrypted(stored: bytes, told: dict[str, Any]) -> bytes:
    try:
        plain: bytes = decrypt_attachment(
            stored, str(told["key"]), str(told["sha256"]), str(told["iv"])
        )
    except (EncryptionError, ValueError) as error:
        raise NotFetched("unreadable", str(error)) from error
    return plain
