"""What `drawbar serve` is told: by its environment, by credentials in files, by a TOML file.

This file decides the names of the settings, which source comes first (the environment, then a
file of its own for a secret, then the TOML file), and what is said of a wrong one: its name, what
was wanted, and how to mend it. It starts nothing.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
from pathlib import Path
from typing import Any

from bot.health import Watched
from bot.messages import NetworkRefused
from bot.networks.matrix.settings import MatrixSettings
from bot.networks.telegram.settings import TelegramSettings, Webhook, check
from bot.settings import Settings, WrongSetting, default_database, settings

PREFIX = "DRAWBAR_"
CREDENTIALS = "CREDENTIALS_DIRECTORY"
"""Where systemd lays the files of LoadCredential= (systemd.exec(5), Credentials)."""

MOST_SECRET = 4096
"""Characters of a secret in a file of its own."""

SECRETS = (
    "database",
    "telegram.token",
    "telegram.webhook_secret",
    "matrix.password",
    "matrix.access_token",
)
NAMES = (
    "database",
    "units",
    "currency",
    "time_zone",
    "language",
    "admission",
    "telegram.token",
    "telegram.webhook_url",
    "telegram.webhook_listen",
    "telegram.webhook_port",
    "telegram.webhook_secret",
    "telegram.api",
    "matrix.homeserver",
    "matrix.user",
    "matrix.password",
    "matrix.access_token",
    "matrix.device_id",
    "matrix.device_name",
    "matrix.owners",
    "matrix.folder",
    "health.listen",
    "health.port",
)
"""Every setting; a name with a dot stands in a table of TOML."""

ADMISSIONS = ("code", "open")
NOTHING_TO_SERVE = (
    "There is no network to serve: set DRAWBAR_TELEGRAM_TOKEN, or DRAWBAR_MATRIX_HOMESERVER,"
    " DRAWBAR_MATRIX_USER and DRAWBAR_MATRIX_PASSWORD, or name a file of settings with --config."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Configuration:
    """What is served: the logbooks' settings, and those of each network that is."""

    settings: Settings
    telegram: TelegramSettings | None
    matrix: MatrixSettings | None
    health: Watched | None


def configuration(file: Path | None, environment: Mapping[str, str]) -> Configuration:
    """What the file and the environment say together; raises WrongSetting."""
    told = {**_from_file(file), **_from_credentials(environment), **_from_environment(environment)}
    try:
        found = Configuration(
            settings=_settings(told),
            telegram=_telegram(told),
            matrix=_matrix(told),
            health=_health(told),
        )
    except NetworkRefused as error:
        raise WrongSetting(str(error)) from error
    if found.telegram is None and found.matrix is None:
        raise WrongSetting(NOTHING_TO_SERVE)
    return found


def variable(name: str) -> str:
    """The environment's name for a setting."""
    return PREFIX + name.replace(".", "_").upper()


def _from_environment(environment: Mapping[str, str]) -> dict[str, str]:
    found = {name: environment[variable(name)] for name in NAMES if environment.get(variable(name))}
    for name in SECRETS:
        path = environment.get(f"{variable(name)}_FILE")
        if path and name not in found:
            found[name] = _secret(Path(path), f"{variable(name)}_FILE")
    return found


def _from_credentials(environment: Mapping[str, str]) -> dict[str, str]:
    folder = environment.get(CREDENTIALS)
    if not folder:
        return {}
    paths = {name: Path(folder) / name.replace(".", "_") for name in SECRETS}
    found = {name: _secret(path, CREDENTIALS) for name, path in paths.items() if path.is_file()}
    # A unit hands over an empty one for each that the operator did not lay down.
    return {name: secret for name, secret in found.items() if secret}


def _secret(path: Path, source: str) -> str:
    try:
        with path.open(encoding="utf-8") as file:
            return file.read(MOST_SECRET).strip()
    except (OSError, UnicodeDecodeError) as error:
        raise WrongSetting(
            f"{source} names {path}, which can't be read ({_reason(error)})."
        ) from error


def _from_file(file: Path | None) -> dict[str, str]:
    if file is None:
        return {}
    try:
        table = tomllib.loads(file.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError) as error:
        raise WrongSetting(f"--config {file} can't be read ({_reason(error)}).") from error
    except tomllib.TOMLDecodeError as error:
        raise WrongSetting(f"--config {file} is not TOML: {error}.") from error
    found = dict(_flat(table))
    for name in found:
        secret = name.removesuffix("_file")
        if name not in NAMES and secret not in SECRETS:
            near = get_close_matches(name, NAMES, 1)
            meant = f" Did you mean {near[0]}?" if near else ""
            raise WrongSetting(f"{file} sets {name}, which is no setting.{meant}")
    for name in SECRETS:
        path = found.pop(f"{name}_file", None)
        if path is not None:
            found.setdefault(name, _secret(file.parent / path, f"{name}_file"))
    return found


def _flat(table: Mapping[str, Any], above: str = "") -> Iterator[tuple[str, str]]:
    for key, value in table.items():
        name = f"{above}{key}"
        if isinstance(value, dict) and not above:
            yield from _flat(value, f"{name}.")
        elif isinstance(value, list) and all(isinstance(each, str) for each in value):
            yield name, ",".join(value)
        elif isinstance(value, str | int) and not isinstance(value, bool):
            yield name, str(value)
        else:
            raise WrongSetting(f"{name} is {value!r}; wanted is a text, a whole number or a list.")


def _reason(error: OSError | UnicodeDecodeError) -> str:
    return error.strerror or str(error) if isinstance(error, OSError) else "it is not UTF-8"


def _settings(told: Mapping[str, str]) -> Settings:
    admission = told.get("admission", ADMISSIONS[0])
    if admission not in ADMISSIONS:
        raise WrongSetting(f"admission is {admission!r}; it wants {' or '.join(ADMISSIONS)}.")
    basic = settings(*(told.get(name) for name in NAMES[: NAMES.index("admission")]))
    return replace(basic, open_to_all=admission == "open")


def _telegram(told: Mapping[str, str]) -> TelegramSettings | None:
    if not any(name.startswith("telegram.") for name in told):
        return None
    token = _needed(told, "telegram.token")
    webhook: Webhook | None = None
    if "telegram.webhook_url" in told:
        plain = Webhook(url=told["telegram.webhook_url"])
        webhook = Webhook(
            url=plain.url,
            listen=told.get("telegram.webhook_listen", plain.listen),
            port=_port(told, "telegram.webhook_port", plain.port),
            secret=told.get("telegram.webhook_secret"),
        )
    chosen = TelegramSettings(token=token, webhook=webhook)
    if "telegram.api" in told:
        chosen = replace(chosen, api=told["telegram.api"])
    check(chosen)
    return chosen


def _matrix(told: Mapping[str, str]) -> MatrixSettings | None:
    if not any(name.startswith("matrix.") for name in told):
        return None
    folder = told.get("matrix.folder")
    owners = [each.strip() for each in told.get("matrix.owners", "").split(",")]
    return MatrixSettings(
        homeserver=_needed(told, "matrix.homeserver"),
        user=_needed(told, "matrix.user"),
        folder=Path(folder) if folder else default_database().parent / "matrix",
        password=told.get("matrix.password"),
        access_token=told.get("matrix.access_token"),
        device_id=told.get("matrix.device_id"),
        owners=frozenset(filter(None, owners)),
        device_name=told.get("matrix.device_name", "Drawbar"),
    )


def _needed(told: Mapping[str, str], name: str) -> str:
    value = told.get(name)
    if not value:
        network = name.partition(".")[0].capitalize()
        raise WrongSetting(f"{name} is missing: {network} needs it. Set {variable(name)} to it.")
    return value


def _health(told: Mapping[str, str]) -> Watched | None:
    if "health.port" not in told:
        return None
    plain = Watched(port=_port(told, "health.port", 0))
    return replace(plain, listen=told.get("health.listen", plain.listen))


def _port(told: Mapping[str, str], name: str, otherwise: int) -> int:
    text = told.get(name, str(otherwise))
    try:
        return int(text)
    except ValueError:
        raise WrongSetting(f"{name} is {text!r}; it wants a port's number, as 8443.") from None
