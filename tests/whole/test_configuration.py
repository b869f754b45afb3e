"""What `drawbar serve` is told, and what it says of a setting that can't be used."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.configuration import NAMES, SECRETS, configuration, variable
from bot.settings import WrongSetting

TOKEN = "12345:abcdefghijklmnopqrstuvwxyzABCDEFGHI"
MATRIX = {
    "DRAWBAR_MATRIX_HOMESERVER": "https://hive.example",
    "DRAWBAR_MATRIX_USER": "@drawbar:hive.example",
    "DRAWBAR_MATRIX_PASSWORD": "skep",
}
WHOLE = f"""
database = "logbook.db"
units = "metric"
admission = "open"

[telegram]
token = "{TOKEN}"
webhook_url = "https://hive.example/drawbar"
webhook_port = 8080

[matrix]
homeserver = "https://hive.example"
user = "@drawbar:hive.example"
password = "skep"
owners = ["@nora:hive.example", "@ben:hive.example"]
folder = "keys"
"""


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "drawbar.toml"
    path.write_text(WHOLE, encoding="utf-8")
    return path


def test_a_file_can_say_everything(file: Path) -> None:
    told = configuration(file, {})
    assert told.settings.database == "logbook.db"
    assert told.settings.preferences.units == "metric"
    assert told.settings.open_to_all
    assert told.telegram is not None
    assert told.telegram.webhook is not None
    assert (told.telegram.token, told.telegram.webhook.port) == (TOKEN, 8080)
    assert told.matrix is not None
    assert told.matrix.owners == {"@nora:hive.example", "@ben:hive.example"}
    assert told.matrix.folder == Path("keys")


def test_the_environment_comes_before_the_file(file: Path) -> None:
    told = configuration(file, {"DRAWBAR_UNITS": "us", "DRAWBAR_TELEGRAM_WEBHOOK_PORT": "9000"})
    assert told.settings.preferences.units == "us"
    assert told.telegram is not None
    assert told.telegram.webhook is not None
    assert told.telegram.webhook.port == 9000


@pytest.mark.parametrize("network", ["telegram", "matrix"])
def test_one_network_is_enough(network: str) -> None:
    told = configuration(None, MATRIX if network == "matrix" else {"DRAWBAR_TELEGRAM_TOKEN": TOKEN})
    assert (told.telegram is None) == (network == "matrix")
    assert (told.matrix is None) == (network == "telegram")
    assert not told.settings.open_to_all, "nobody is let in unasked"


def test_a_secret_can_lie_in_a_file_of_its_own(tmp_path: Path) -> None:
    (tmp_path / "token").write_text(f"{TOKEN}\n")
    path = tmp_path / "drawbar.toml"
    path.write_text('[telegram]\ntoken_file = "token"\n')
    for told in (
        configuration(path, {}),
        configuration(None, {"DRAWBAR_TELEGRAM_TOKEN_FILE": str(tmp_path / "token")}),
    ):
        assert told.telegram is not None
        assert told.telegram.token == TOKEN


def test_systemd_hands_over_secrets_as_credentials(tmp_path: Path) -> None:
    (tmp_path / "telegram_token").write_text(TOKEN)
    (tmp_path / "matrix_password").write_text("\n")
    told = configuration(None, {"CREDENTIALS_DIRECTORY": str(tmp_path)})
    assert told.telegram is not None
    assert told.telegram.token == TOKEN
    assert told.matrix is None, "an empty credential is none"


@pytest.mark.parametrize(
    ("environment", "sentence"),
    [
        ({}, "There is no network to serve: set DRAWBAR_TELEGRAM_TOKEN"),
        ({"DRAWBAR_TELEGRAM_TOKEN": "abc"}, "set DRAWBAR_TELEGRAM_TOKEN to it"),
        (
            {"DRAWBAR_TELEGRAM_WEBHOOK_PORT": "80"},
            "telegram.token is missing: Telegram needs it. Set DRAWBAR_TELEGRAM_TOKEN to it.",
        ),
        (
            {
                "DRAWBAR_TELEGRAM_TOKEN": TOKEN,
                "DRAWBAR_TELEGRAM_WEBHOOK_URL": "https://hive.example/",
                "DRAWBAR_TELEGRAM_WEBHOOK_PORT": "http",
            },
            "telegram.webhook_port is 'http'; it wants a port's number, as 8443.",
        ),
        (
            {"DRAWBAR_TELEGRAM_TOKEN": TOKEN, "DRAWBAR_TELEGRAM_WEBHOOK_URL": "http://x/"},
            "DRAWBAR_TELEGRAM_WEBHOOK_URL is 'http://x/'; it must be the https:// address",
        ),
        (
            {"DRAWBAR_MATRIX_USER": "@drawbar:hive.example"},
            "matrix.homeserver is missing: Matrix needs it. Set DRAWBAR_MATRIX_HOMESERVER to it.",
        ),
        ({**MATRIX, "DRAWBAR_MATRIX_PASSWORD": ""}, "matrix password is missing"),
        ({**MATRIX, "DRAWBAR_MATRIX_USER": "drawbar"}, "like @drawbar:chat.example"),
        ({**MATRIX, "DRAWBAR_ADMISSION": "maybe"}, "admission is 'maybe'; it wants code or open."),
        ({**MATRIX, "DRAWBAR_UNITS": "stone"}, "it wants us, metric or imperial"),
        (
            {"DRAWBAR_TELEGRAM_TOKEN_FILE": "nowhere"},
            "DRAWBAR_TELEGRAM_TOKEN_FILE names nowhere, which can't be read",
        ),
    ],
)
def test_a_setting_that_cannot_be_used_is_named_in_one_sentence(
    environment: dict[str, str], sentence: str
) -> None:
    with pytest.raises(WrongSetting) as raised:
        configuration(None, environment)
    assert sentence in str(raised.value)
    assert "\n" not in str(raised.value)


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("admision = 'open'", "sets admision, which is no setting. Did you mean admission?"),
        ("[telegram]\ntoken = 5.5", "telegram.token is 5.5; wanted is a text"),
        ("[telegram\n", "is not TOML"),
        ("[signal]\ntoken = 'x'", "sets signal.token, which is no setting."),
    ],
)
def test_a_file_that_cannot_be_used_is_told_in_one_sentence(
    tmp_path: Path, text: str, sentence: str
) -> None:
    path = tmp_path / "drawbar.toml"
    path.write_text(text)
    with pytest.raises(WrongSetting) as raised:
        configuration(path, {})
    assert sentence in str(raised.value)


def test_a_file_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(WrongSetting, match=r"--config .*can't be read"):
        configuration(tmp_path / "none.toml", {})


def test_no_secret_is_shown_by_what_is_told(file: Path) -> None:
    shown = repr(configuration(file, {}))
    assert TOKEN not in shown
    assert "skep" not in shown


def test_every_secret_is_a_setting_and_every_setting_has_its_own_variable() -> None:
    assert set(SECRETS) <= set(NAMES)
    assert len({variable(name) for name in NAMES}) == len(NAMES)
