"""Ten set-ups that are broken, each named by `drawbar doctor` with what to do."""

from __future__ import annotations

import json
import os
import sqlite3
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from dataclasses import dataclass
from email.utils import formatdate
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path

import pytest
from click.testing import CliRunner

from bot.cli import main
from bot.store.database import open_store

TOKEN = "12345:abcdefghijklmnopqrstuvwxyzABCDEFGHI"


@dataclass
class Far:
    """A server that answers every question as it is told, on 127.0.0.1."""

    port: int
    answer: Callable[[str], tuple[int, object]]
    ahead: float = 0.0

    @property
    def address(self) -> str:
        return f"http://127.0.0.1:{self.port}"


def as_telegram(path: str) -> tuple[int, object]:
    if f"/bot{TOKEN}/getMe" in path:
        return 200, {"ok": True, "result": {"username": "hive_drawbar_bot"}}
    return 401, {"ok": False}


def as_matrix(path: str) -> tuple[int, object] | None:
    return (200, {"versions": ["v1.11"]}) if "_matrix" in path else None


@pytest.fixture
def far() -> Iterator[Far]:
    there = Far(0, as_telegram)

    class Answering(BaseHTTPRequestHandler):
        def do_GET(self) -> None:
            status, body = there.answer(self.path)
            self.send_response_only(status)
            self.send_header("Date", formatdate(time.time() + there.ahead))
            self.end_headers()
            self.wfile.write(json.dumps(body).encode())

        def log_message(self, *_: object) -> None:
            """Nothing."""

    with HTTPServer(("127.0.0.1", 0), Answering) as server:
        there.port = server.server_port
        thread = threading.Thread(target=server.serve_forever)
        thread.start()
        yield there
        server.shutdown()
        thread.join()


@pytest.fixture
def whole(tmp_path: Path, far: Far) -> dict[str, str]:
    """An environment in which all is well."""
    open_store(tmp_path / "logbook.db").close()
    return {
        "DRAWBAR_DATABASE": str(tmp_path / "logbook.db"),
        "DRAWBAR_TELEGRAM_TOKEN": TOKEN,
        "DRAWBAR_TELEGRAM_API": far.address,
    }


def doctor(environment: dict[str, str], *words: str) -> tuple[int, str]:
    kept = {name: None for name in os.environ if name.startswith("DRAWBAR_")}
    done = CliRunner().invoke(main, ["doctor", *words], env={**kept, **environment})
    assert done.exception is None or isinstance(done.exception, SystemExit), done.exc_info
    return done.exit_code, done.output


def faults(environment: dict[str, str], *words: str) -> list[str]:
    code, said = doctor(environment, *words)
    assert code == 1, said
    assert TOKEN not in said
    return [line.removeprefix("FAULT  ") for line in said.splitlines() if line.startswith("FAULT")]


def test_all_is_well(whole: dict[str, str]) -> None:
    code, said = doctor(whole)
    assert code == 0, said
    assert "reached as @hive_drawbar_bot" in said
    assert "sound and up to date" in said


def test_nothing_to_serve(whole: dict[str, str]) -> None:
    (fault,) = faults({"DRAWBAR_DATABASE": whole["DRAWBAR_DATABASE"]})
    assert fault.startswith("settings: There is no network to serve")


def test_a_setting_that_is_misspelt(whole: dict[str, str], tmp_path: Path) -> None:
    file = tmp_path / "drawbar.toml"
    file.write_text("[telegram]\ntokn = 'x'\n")
    (fault,) = faults(whole, "--config", str(file))
    assert "Did you mean telegram.token?" in fault


def test_a_token_that_is_not_accepted(whole: dict[str, str]) -> None:
    (fault,) = faults({**whole, "DRAWBAR_TELEGRAM_TOKEN": "9:zyx"})
    assert fault.startswith("Telegram: the token is not accepted")


def test_a_network_that_is_not_reached(whole: dict[str, str]) -> None:
    (fault,) = faults({**whole, "DRAWBAR_TELEGRAM_API": "http://127.0.0.1:9"})
    assert fault == "Telegram: it can't be reached (ConnectError). See to the network and DNS."


def test_a_clock_that_is_off(whole: dict[str, str], far: Far) -> None:
    far.ahead = 3600
    (fault,) = faults(whole)
    assert fault.startswith("clock: this machine's is -3,")


def test_a_homeserver_that_is_something_else(
    whole: dict[str, str], far: Far, tmp_path: Path
) -> None:
    matrix = {
        "DRAWBAR_MATRIX_HOMESERVER": far.address,
        "DRAWBAR_MATRIX_USER": "@drawbar:hive.example",
        "DRAWBAR_MATRIX_PASSWORD": "skep",
        "DRAWBAR_MATRIX_FOLDER": str(tmp_path / "keys"),
    }
    (fault,) = faults({**whole, **matrix})
    assert fault.startswith("Matrix: http://127.0.0.1")
    assert "not as a homeserver does" in fault
    (tmp_path / "keys").mkdir(mode=0o755)
    far.answer = lambda path: as_matrix(path) or as_telegram(path)
    (fault,) = faults({**whole, **matrix})
    assert fault.startswith("Matrix keys: others can read")


def test_a_database_that_is_damaged(whole: dict[str, str]) -> None:
    Path(whole["DRAWBAR_DATABASE"]).write_bytes(b"no database " * 1000)
    (fault,) = faults(whole)
    assert fault.startswith("database: ")
    assert "is damaged (file is not a database). Restore a backup" in fault


def test_a_database_of_something_else(whole: dict[str, str], tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / "honey.db")) as other:
        other.execute("CREATE TABLE jars (weight REAL)")
        other.commit()
    (fault,) = faults({**whole, "DRAWBAR_DATABASE": str(tmp_path / "honey.db")})
    assert "is a database of something else" in fault


def test_a_database_of_a_newer_drawbar(whole: dict[str, str]) -> None:
    with closing(sqlite3.connect(whole["DRAWBAR_DATABASE"])) as newer:
        newer.execute("UPDATE alembic_version SET version_num = '9999'")
        newer.commit()
    (fault,) = faults(whole)
    assert "written by a newer Drawbar" in fault


def test_a_database_server_that_is_not_there(whole: dict[str, str], tmp_path: Path) -> None:
    there = f"postgresql://drawbar@/logbook?host={tmp_path}"
    (fault,) = faults({**whole, "DRAWBAR_DATABASE": there})
    assert "can't be reached" in fault
    assert "See that the server runs" in fault


def test_a_webhooks_port_that_is_taken(whole: dict[str, str], far: Far) -> None:
    hook = {
        "DRAWBAR_TELEGRAM_WEBHOOK_URL": "https://hive.example/drawbar",
        "DRAWBAR_TELEGRAM_WEBHOOK_PORT": str(far.port),
    }
    (fault,) = faults({**whole, **hook})
    assert fault.startswith(f"webhook: 127.0.0.1:{far.port} can't be listened on")


def test_a_file_of_settings_that_everybody_can_read(whole: dict[str, str], tmp_path: Path) -> None:
    file = tmp_path / "drawbar.toml"
    file.write_text(f"[telegram]\ntoken = '{TOKEN}'\n")
    file.chmod(0o644)
    (fault,) = faults(whole, "--config", str(file))
    assert fault.startswith("secrets: others can read")
    file.chmod(0o600)
    assert doctor(whole, "--config", str(file))[0] == 0


def test_a_disk_that_is_all_but_full(
    whole: dict[str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("bot.doctor.LEAST_FREE", 10**18)
    (fault,) = faults(whole)
    assert fault.startswith("disk: ")
    assert "make room for" in fault


def test_looking_changes_nothing(whole: dict[str, str], tmp_path: Path) -> None:
    doctor({**whole, "DRAWBAR_DATABASE": str(tmp_path / "none" / "logbook.db")})
    assert not (tmp_path / "none").exists()
    before = Path(whole["DRAWBAR_DATABASE"]).read_bytes()
    doctor(whole)
    assert Path(whole["DRAWBAR_DATABASE"]).read_bytes() == before
