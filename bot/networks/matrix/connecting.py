"""Becoming a device of a Matrix account, the same one after every restart.

This file decides which login is used (the kept one, the settings' token, else the password),
when a device's keys are no longer what the server knows of it, and what whoever runs Drawbar
is told where the settings can't be right. It does not listen or send.
"""

from __future__ import annotations

import logging
from pathlib import Path

from nio import AsyncClient, AsyncClientConfig, LoginResponse, WhoamiResponse
from nio.store import SqliteStore

from bot.messages import NetworkRefused
from bot.networks.matrix.keys import Machine
from bot.networks.matrix.memory import Login, Memory
from bot.networks.matrix.requests import LOGGED_OUT, SERVER_TROUBLE, Unsuccessful, checked
from bot.networks.matrix.settings import MatrixSettings

REQUEST_SECONDS = 30.0
logger = logging.getLogger(__name__)


async def connect(settings: MatrixSettings, memory: Memory) -> AsyncClient:
    """A client that is logged in and has its keys; the caller closes it.

    Raises NetworkRefused where the settings can't be right, and Unsuccessful or what a
    connection raises where it may go better later.
    """
    client = AsyncClient(
        settings.homeserver.rstrip("/"),
        settings.user,
        store_path=str(settings.folder),
        # Delivery and the listener have the patience; nio would add its own to it.
        config=AsyncClientConfig(
            max_limit_exceeded=0,
            max_timeouts=0,
            request_timeout=REQUEST_SECONDS,
            store=SqliteStore,
        ),
    )
    try:
        await _log_in(client, settings, memory)
    except Unsuccessful as error:
        await close(client)
        raise ended(error, settings) or _no_server(error, settings) or error from None
    except BaseException:
        await close(client)
        raise
    return client


async def close(client: AsyncClient) -> None:
    """Close the connection and the file of keys."""
    await client.close()
    if client.store is not None:
        client.store.database.close()


def ended(error: Unsuccessful, settings: MatrixSettings) -> NetworkRefused | None:
    """The sentence for whoever runs Drawbar, where an error says that the login has ended."""
    if error.code in LOGGED_OUT:
        return NetworkRefused(
            f"matrix access_token of {settings.user} is no longer valid: make a new one, and set "
            "it with its device_id."
            if settings.access_token
            else f"The homeserver ended the login of {settings.user}: remove the folder "
            f"{settings.folder}, and Drawbar logs in with matrix password as a new device."
        )
    return None


def _no_server(error: Unsuccessful, settings: MatrixSettings) -> NetworkRefused | None:
    if not error.code and error.status < SERVER_TROUBLE:
        return NetworkRefused(
            f"matrix homeserver is '{settings.homeserver}', and no Matrix homeserver answers "
            "there: set the address that clients use."
        )
    return None


async def _log_in(client: AsyncClient, settings: MatrixSettings, memory: Memory) -> None:
    login = _known(settings, memory)
    if login is None:
        login = await _by_password(client, settings)
    else:
        client.restore_login(login.user, login.device, login.token)
    _open(client, memory)
    if not await _is_known_by_these_keys(client):
        if settings.access_token or not settings.password:
            raise NetworkRefused(
                f"matrix device_id {login.device} has other keys than those in {settings.folder}: "
                "make a new access_token, and set it with its device_id."
            )
        logger.warning("the keys of %s are not those in its folder: a new device", login.device)
        client.store.database.close()
        client.store = client.olm = None
        client.device_id, client.access_token = "", ""
        login = await _by_password(client, settings)
        _open(client, memory)
    memory.keep_login(login)


def _known(settings: MatrixSettings, memory: Memory) -> Login | None:
    if settings.access_token and settings.device_id:
        return Login(user=settings.user, device=settings.device_id, token=settings.access_token)
    kept = memory.login()
    if kept is None or kept.user != settings.user:
        logger.warning("no login of %s is kept: a new device", settings.user)
        return None
    return kept


async def _by_password(client: AsyncClient, settings: MatrixSettings) -> Login:
    try:
        response: LoginResponse = checked(
            await client.login(settings.password or "", device_name=settings.device_name)
        )
    except Unsuccessful as error:
        if error.final:
            raise NetworkRefused(
                f"matrix password is not taken for {settings.user} ({error.reason}): set the "
                "account's password, or access_token and device_id."
            ) from None
        raise
    return Login(user=response.user_id, device=response.device_id, token=response.access_token)


def _open(client: AsyncClient, memory: Memory) -> None:
    """Bring our rules to the keys that nio has loaded, and let nobody else read their file."""
    Path(client.store.database_path).chmod(0o600)
    # As durable as nio's own way, at a third of the writes.
    client.store.database.execute_sql("PRAGMA journal_mode=WAL")
    client.olm = Machine(client, memory)


async def _is_known_by_these_keys(client: AsyncClient) -> bool:
    """Whether the server knows the device by the keys that are here, or by none yet."""
    user, device = client.user_id, client.device_id
    who: WhoamiResponse = checked(await client.whoami())
    if (who.user_id, who.device_id or device) != (user, device):
        raise NetworkRefused(
            f"matrix access_token belongs to {who.user_id} (device {who.device_id}), and the "
            f"settings say {user} (device {device}): set those that belong together."
        )
    client.olm.users_for_key_query.add(user)
    known = checked(await client.keys_query()).device_keys.get(user, {}).get(device)
    if known is None:
        # A server that lost them gets them again.
        client.olm.account.shared = False
        return True
    ours: str = client.olm.account.identity_keys["ed25519"]
    return bool(known["keys"].get(f"ed25519:{device}") == ours)
