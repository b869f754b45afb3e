"""What `deploy/` holds: settings that can be used, units and files that their own tools accept.

The compose file was held against the schema of the Compose Specification by hand; here its parts
are held against each other.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path
from typing import Any

import pytest
import yaml

from bot.configuration import NAMES, SECRETS, configuration, variable

ROOT = Path(__file__).resolve().parents[2]
DEPLOY = ROOT / "deploy"
EXAMPLE = (DEPLOY / "drawbar.example.toml").read_text(encoding="utf-8")
UNITS = sorted(DEPLOY.glob("drawbar*.service")) + sorted(DEPLOY.glob("drawbar*.timer"))
MOST_EXPOSED = 20
"""systemd-analyze security counts to 100, in tenths of its ten; below 20 it calls a unit OK."""


def every_setting(text: str) -> str:
    """The example with what is commented out put in force."""
    return re.sub(r"(?m)^#(?=\[|[a-z_]+ = )", "", text)


def test_the_example_is_what_serve_can_use(tmp_path: Path) -> None:
    (tmp_path / "telegram_token").write_text("12345:abcdefghijklmnopqrstuvwxyzABCDEFGHI")
    (tmp_path / "drawbar.toml").write_text(EXAMPLE)
    told = configuration(tmp_path / "drawbar.toml", {})
    assert told.telegram is not None
    assert told.matrix is None
    assert told.settings.preferences.time_zone == "America/Boise"


def test_the_example_names_every_setting_and_no_other() -> None:
    told = tomllib.loads(every_setting(EXAMPLE))
    named = {
        f"{table}.{key}" if isinstance(value, dict) else table
        for table, value in told.items()
        for key in (value if isinstance(value, dict) else [table])
    }
    as_files = {name.removesuffix("_file") for name in named}
    assert as_files == set(NAMES)
    assert {name.removesuffix("_file") for name in named - set(NAMES)} <= set(SECRETS)


def test_the_page_lists_every_setting_with_its_variable() -> None:
    page = (DEPLOY / "README.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| `(.+?)` \| `(.+?)` \|", page, re.M)
    assert rows == [(name, variable(name)) for name in NAMES]


@pytest.fixture(scope="module")
def units(tmp_path_factory: pytest.TempPathFactory) -> list[Path]:
    """The units, with a program in the place that they name."""
    if not shutil.which("systemd-analyze"):
        pytest.skip("systemd is not on this machine")
    folder = tmp_path_factory.mktemp("units")
    copies = []
    for each in UNITS:
        text = each.read_text(encoding="utf-8")
        text = text.replace("/opt/drawbar/.venv/bin/drawbar", sys.executable)
        text = text.replace("file:/opt/drawbar/deploy/README.md", f"file:{DEPLOY}/README.md")
        copies.append(folder / each.name)
        copies[-1].write_text(text, encoding="utf-8")
    return copies


def test_systemd_accepts_the_units(units: list[Path]) -> None:
    done = subprocess.run(
        ["systemd-analyze", "verify", *map(str, units)], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")


def test_the_service_gives_away_little(units: list[Path]) -> None:
    service = next(each for each in units if each.name == "drawbar.service")
    done = subprocess.run(
        ["systemd-analyze", "security", "--offline=true", f"--threshold={MOST_EXPOSED}", service],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout[-600:]


def test_the_container_file_is_sound() -> None:
    linter = Path(sys.executable).parent / "hadolint"
    done = subprocess.run(
        [linter, DEPLOY / "Containerfile"], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stdout) == (0, "")
    copied = re.findall(r"^COPY (?!--from)(.+) \S+$", (DEPLOY / "Containerfile").read_text(), re.M)
    assert [each for line in copied for each in line.split() if not (ROOT / each).exists()] == []


def test_the_compose_file_fits_together() -> None:
    compose: dict[str, Any] = yaml.safe_load((DEPLOY / "compose.yaml").read_text("utf-8"))
    services = compose["services"].values()
    secrets = [each for service in services for each in service["secrets"]]
    assert sorted(secrets) == sorted(compose["secrets"])
    volumes = [each.partition(":")[0] for service in services for each in service["volumes"]]
    assert sorted(volumes) == sorted(compose["volumes"])
    build = compose["services"]["drawbar"]["build"]
    assert (DEPLOY / build["context"] / build["dockerfile"]).samefile(DEPLOY / "Containerfile")
    told = compose["services"]["drawbar"]["environment"]
    assert set(told) <= {f"{variable(name)}{end}" for name in NAMES for end in ("", "_FILE")}
    files = {value for value in told.values() if value.startswith("/run/secrets/")}
    assert {Path(each).name for each in files} == set(compose["services"]["drawbar"]["secrets"])
