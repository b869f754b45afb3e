"""That Drawbar's device is vouched for by its account, as people's clients expect.

Clients warn of a device that its own account did not sign, and more and more of them give it no
keys (Client-Server API v1.11, 11.12.2.4 'Cross-signing'; MSC4153). nio knows no cross-signing:
this file makes the account's two keys once, keeps them beside the login, and signs the device.
It does not verify anybody else.
"""

from __future__ import annotations

import json
import logging
from collections.abc import Mapping
from typing import Any

from nio import Api, AsyncClient
from nio.crypto import OlmAccount

from bot.networks.matrix.memory import Memory
from bot.networks.matrix.requests import Unsuccessful, asked

KEYS = "/_matrix/client/v3/keys"
KEPT = "identity"
UNAUTHORIZED = 401
Json = dict[str, Any]
logger = logging.getLogger(__name__)


async def vouch(client: AsyncClient, memory: Memory, password: str | None) -> None:
    """Have the account sign the device, where it did not yet; raises what may go better later.

    An account whose keys are elsewhere gets new ones where the password is known: it is
    Drawbar's own. A server that knows no such keys is left alone.
    """
    try:
        await _vouch(client, memory, password)
    except Unsuccessful as error:
        if not error.final:
            raise
        logger.warning(
            "Matrix: the device %s is not signed by its account, and people's clients may warn "
            "of it or not write to it: %s",
            client.device_id,
            error,
        )


async def _vouch(client: AsyncClient, memory: Memory, password: str | None) -> None:
    user, device = client.user_id, client.device_id
    master, signing = _keys(memory)
    known = await asked(client, "POST", f"{KEYS}/query", {"device_keys": {user: []}})
    if _public(known.get("self_signing_keys", {}).get(user, {})) != _key(signing):
        await _publish(client, master, signing, password)
    ours: Json = known["device_keys"][user][device]
    name = f"ed25519:{_key(signing)}"
    if name in ours.get("signatures", {}).get(user, {}):
        return
    told = {name: ours[name] for name in ("algorithms", "device_id", "keys", "user_id")}
    signed = _signed(told, user, name, signing)
    answer = await asked(client, "POST", f"{KEYS}/signatures/upload", {user: {device: signed}})
    if answer.get("failures"):
        logger.warning("Matrix: the homeserver did not take the signature of %s", device)


async def _publish(
    client: AsyncClient, master: OlmAccount, signing: OlmAccount, password: str | None
) -> None:
    """Tell the server the account's keys, with the password where it asks for it."""
    user = client.user_id
    first = _signed(
        _cross_key(user, "master", master), user, f"ed25519:{client.device_id}", client.olm.account
    )
    second = _signed(
        _cross_key(user, "self_signing", signing), user, f"ed25519:{_key(master)}", master
    )
    keys: Json = {"master_key": first, "self_signing_key": second}
    address = f"{KEYS}/device_signing/upload"
    try:
        await asked(client, "POST", address, keys)
    except Unsuccessful as error:
        if error.status != UNAUTHORIZED or not password:
            raise
        session = error.body.get("session")
        identifier = {"type": "m.id.user", "user": user}
        keys["auth"] = {
            "type": "m.login.password",
            "identifier": identifier,
            "password": password,
            "session": session,
        }
        await asked(client, "POST", address, keys)


def _keys(memory: Memory) -> tuple[OlmAccount, OlmAccount]:
    """The account's master key and the one that signs its devices; made at the first call.

    Each is the signing key of an Olm account, which is all that nio makes.
    """
    kept = memory.recall(KEPT)
    if kept is not None:
        first, second = (OlmAccount.from_pickle(each.encode()) for each in json.loads(kept))
        return first, second
    made = (OlmAccount(), OlmAccount())
    memory.keep(KEPT, json.dumps([each.pickle().decode() for each in made]))
    return made


def _key(account: OlmAccount) -> str:
    public: str = account.identity_keys["ed25519"]
    return public


def _public(key: Mapping[str, Any]) -> str | None:
    return next(iter(key.get("keys", {}).values()), None)


def _cross_key(user: str, usage: str, account: OlmAccount) -> Json:
    public = _key(account)
    return {"user_id": user, "usage": [usage], "keys": {f"ed25519:{public}": public}}


def _signed(told: Json, user: str, name: str, account: OlmAccount) -> Json:
    signature = account.sign(Api.to_canonical_json(told))
    return told | {"signatures": {user: {name: signature}}}
