"""Logging in at a real homeserver, and what is said where the settings can't be right."""

from __future__ import annotations

import asyncio
import logging
from dataclasses import replace
from pathlib import Path

import pytest

from bot.messages import NetworkRefused
from bot.networks.matrix.network import Matrix
from bot.networks.matrix.settings import MatrixSettings
from tests.networks.matrix.conftest import Household, Served
from tests.networks.matrix.homeserver import Homeserver, free_port
from tests.networks.matrix.people import Nio
from tests.networks.matrix.wire import Mishap, Wire

GOOD = MatrixSettings(
    homeserver="https://chat.example",
    user="@drawbar:chat.example",
    password="clover and thyme",
    folder=Path("keys"),
)


@pytest.mark.parametrize(
    ("change", "named"),
    [
        ({"homeserver": "chat.example"}, "homeserver"),
        ({"user": "drawbar"}, "user"),
        ({"password": None}, "password"),
        ({"access_token": "secret"}, "device_id"),
        ({"device_id": "ABC"}, "access_token"),
        ({"owners": frozenset({"wren"})}, "owners"),
    ],
)
def test_a_setting_that_cannot_be_right_is_named(change: dict[str, object], named: str) -> None:
    with pytest.raises(NetworkRefused, match=named):
        replace(GOOD, **change)  # type: ignore[arg-type]


def test_secrets_are_not_shown_with_the_settings() -> None:
    told = replace(GOOD, access_token="syt_secret", device_id="ABC")
    assert "clover" not in repr(told)
    assert "syt_secret" not in repr(told)
    assert Matrix(told).about() == "Matrix as @drawbar:chat.example at https://chat.example"


async def refusal(settings: MatrixSettings) -> str:
    with pytest.raises(NetworkRefused) as refused:
        async with asyncio.timeout(15):
            await Matrix(settings).run(Household())
    return str(refused.value)


async def test_a_password_a_token_or_an_address_that_is_not_taken_is_named(
    homeserver: Homeserver, drawbar: Served, wren: Nio, tmp_path: Path
) -> None:
    await drawbar.stop()
    fresh = replace(drawbar.settings, folder=tmp_path / "fresh")
    assert "password" in await refusal(replace(fresh, password="wrong"))
    assert "access_token" in await refusal(
        replace(fresh, access_token="syt_wrong", device_id="ABC")
    )
    assert "homeserver" in await refusal(replace(fresh, homeserver=f"{homeserver.url}/elsewhere"))
    others = replace(fresh, access_token=wren.client.access_token, device_id="ABC")
    assert wren.user in await refusal(others)


async def test_a_login_that_was_ended_elsewhere_is_told_with_how_to_mend_it(
    drawbar: Served, homeserver: Homeserver, caplog: pytest.LogCaptureFixture
) -> None:
    caplog.set_level(logging.DEBUG)
    await drawbar.connected()
    await drawbar.stop()
    await drawbar.end_logins()
    assert str(drawbar.settings.folder) in await refusal(drawbar.settings)
    assert "syt_" not in caplog.text
    assert "clover" not in caplog.text


async def test_a_token_and_its_device_do_instead_of_a_password(
    homeserver: Homeserver, drawbar: Served, wren: Nio, tmp_path: Path
) -> None:
    await wren.devices_of(drawbar.user, 1)
    await drawbar.stop()
    token, device = await drawbar.log_in_elsewhere()
    drawbar.settings = replace(
        drawbar.settings,
        password=None,
        access_token=token,
        device_id=device,
        folder=tmp_path / "token",
    )
    await drawbar.start()
    assert device in await wren.devices_of(drawbar.user, 2)
    await drawbar.stop()
    # The device's keys are elsewhere now, and nobody would read what is said with others.
    assert "device_id" in await refusal(replace(drawbar.settings, folder=tmp_path / "other"))


async def test_a_homeserver_that_is_away_is_waited_for(
    homeserver: Homeserver, drawbar: Served
) -> None:
    await drawbar.stop()
    wire = Wire(homeserver.url, [Mishap("/login", 502), Mishap("/whoami", 503)])
    try:
        drawbar.settings = replace(
            drawbar.settings, homeserver=await wire.start(), folder=drawbar.settings.folder / "new"
        )
        await drawbar.start()
        await drawbar.connected()
        assert wire.mishaps == []
    finally:
        await drawbar.stop()
        await wire.stop()


async def test_nothing_answers_where_there_is_no_server_and_it_is_tried_again(
    drawbar: Served, tmp_path: Path
) -> None:
    pauses: list[float] = []

    async def rest(seconds: float) -> None:
        pauses.append(seconds)
        if len(pauses) == 8:
            raise asyncio.CancelledError

    nowhere = replace(
        drawbar.settings,
        homeserver=f"http://127.0.0.1:{free_port()}",
        folder=tmp_path / "nowhere",
    )
    with pytest.raises(asyncio.CancelledError):
        await Matrix(nowhere, rest=rest).run(Household())
    assert pauses == [1, 2, 4, 8, 16, 32, 60, 60]
