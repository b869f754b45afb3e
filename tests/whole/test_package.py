"""The project as it is installed, and the files that travel with it."""

from __future__ import annotations

import re
import subprocess
import sys
import tomllib
import zipfile
from importlib import metadata
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from bot import shared_data

ROOT = Path(__file__).resolve().parents[2]
LOCKS = sorted(ROOT.glob("requirements*.txt"))


def run(*command: str, cwd: Path) -> str:
    done = subprocess.run(
        command, cwd=cwd, capture_output=True, text=True, stdin=subprocess.DEVNULL, check=False
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_a_wheel_finds_its_shared_data_without_the_checkout(tmp_path: Path) -> None:
    run(
        sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--no-build-isolation",
        "--wheel-dir", str(tmp_path), str(ROOT), cwd=tmp_path,
    )  # fmt: skip
    (wheel,) = tmp_path.glob("drawbar-*.whl")
    installed = tmp_path / "installed"
    zipfile.ZipFile(wheel).extractall(installed)
    found = run(
        sys.executable, "-c", "from bot import shared_data; print(shared_data.shared())",
        cwd=installed,
    )  # fmt: skip
    assert Path(found.strip()) == installed / "bot" / "shared"
    packed = {path.relative_to(installed / "bot/shared") for path in data(installed / "bot/shared")}
    beside = {path.relative_to(ROOT / "shared") for path in data(ROOT / "shared")}
    assert packed == beside
    assert beside


def data(folder: Path) -> list[Path]:
    return sorted(path for path in folder.rglob("*") if path.suffix in {".toml", ".csv", ".jsonl"})


@pytest.mark.parametrize("path", data(ROOT / "shared"), ids=lambda path: path.name)
def test_every_file_of_shared_data_reads(path: Path) -> None:
    read = {
        ".toml": shared_data.read_toml,
        ".csv": shared_data.read_csv,
        ".jsonl": shared_data.read_jsonl,
    }[path.suffix]
    name = path.relative_to(ROOT / "shared").as_posix()
    assert read(name)
    folder = path.parent.relative_to(ROOT / "shared").as_posix()
    if folder != ".":
        assert name in shared_data.names(folder, path.suffix)


def test_data_that_is_not_there_is_named() -> None:
    with pytest.raises(shared_data.NoSuchData, match=r"no shared data 'almanac\.toml'"):
        shared_data.read_toml("almanac.toml")
    with pytest.raises(shared_data.NoSuchData, match="no shared folder 'almanacs'"):
        shared_data.names("almanacs", ".toml")


@pytest.mark.parametrize("lock", LOCKS, ids=lambda path: path.name)
def test_a_lock_pins_every_package_by_hash_and_names_no_host(lock: Path) -> None:
    text = lock.read_text(encoding="utf-8")
    pins = re.findall(
        r"^[a-z0-9][a-z0-9.-]*(?:\[[a-z0-9,-]+\])?==.+(?:\n    --hash=sha256:[0-9a-f]{64}.*)+",
        text,
        re.M,
    )
    assert len(pins) == len(re.findall("==", re.sub(r";.*", "", text)))
    assert not re.search(r"://|--(index|extra-index|find-links|trusted)|@ |file:", text)


def test_the_locks_hold_every_dependency_that_the_project_names() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extras = project["optional-dependencies"]
    wanted = {
        "requirements.txt": project["dependencies"],
        "requirements-serve.txt": [
            *project["dependencies"],
            *extras["photo"],
            *extras["postgres"],
        ],
        "requirements-dev.txt": [*project["dependencies"], *extras["dev"], *extras["postgres"]],
        "requirements-bench.txt": extras["bench"],
    }
    for lock, requirements in wanted.items():
        locked = set(
            re.findall(r"^([a-z0-9.-]+)(?:\[.+\])?==", (ROOT / lock).read_text("utf-8"), re.M)
        )
        named = {re.match(r"[\w.-]+", each)[0].lower().replace("_", "-") for each in requirements}  # type: ignore[index]
        assert named - {"drawbar"} <= locked, lock


def test_every_dependency_is_one_that_the_program_imports() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    modules = {
        "fpdf2": "fpdf",
        "matrix_nio": "nio",
        "pillow": "PIL",
        "python_telegram_bot": "telegram",
    }
    names = [re.split(r"[^\w-]", each)[0].replace("-", "_") for each in project["dependencies"]]
    named = {modules.get(each, each) for each in names}
    sources = "\n".join(
        path.read_text(encoding="utf-8")
        for package in ("bot", "domain")
        for path in (ROOT / package).rglob("*.py")
    )
    imported = set(re.findall(r"^\s*(?:import|from) (\w+)", sources, re.M))
    # tzdata is no module of ours: zoneinfo reads it where the machine has no zones.
    assert named - imported == {"tzdata"}


def test_no_file_names_a_package_host_or_a_path_of_one_machine() -> None:
    tracked = run("git", "ls-files", cwd=ROOT).split()
    # Written so that this line does not find itself.
    forbidden = re.compile(r"[p]ypi\.|[p]ythonhosted|/[r]oot/|/[w]ork/|/opt/[p]ypi")
    named = [
        name
        for name in tracked
        if (path := ROOT / name).suffix not in {".png", ".jpg"}
        and forbidden.search(path.read_text(encoding="utf-8", errors="replace"))
    ]
    assert named == []


def test_a_lock_names_the_extras_that_its_packages_want_of_each_other() -> None:
    """Pip before 23.3 takes `coverage[toml]>=7` for unpinned beside a plain `coverage==7.1`, but
    only once a newer coverage is out: a lock without them works on the day it is made."""
    text = (ROOT / "requirements-dev.txt").read_text(encoding="utf-8")
    pins = [Requirement(line) for line in re.findall(r"^([a-z0-9].+?) *\\$", text, re.M)]
    extras = {canonicalize_name(pin.name): pin.extras for pin in pins}
    installed = [pin for pin in pins if pin.marker is None or pin.marker.evaluate()]
    wanted = {
        (wants.name, extra)
        for pin in installed
        for wants in map(Requirement, metadata.requires(pin.name) or ())
        if wants.marker is None
        or any(wants.marker.evaluate({"extra": e}) for e in ("", *pin.extras))
        for extra in wants.extras
    }
    assert ("coverage", "toml") in wanted
    unnamed = [want for want in wanted if want[1] not in extras[canonicalize_name(want[0])]]
    assert not unnamed
