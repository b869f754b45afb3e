"""Where the shared data lies, and how it is read.

The phrasebook, the reference tables and the demo's scenario are plain TOML, CSV and JSON
lines. In a checkout they stand in `shared/` beside the packages; in an installed wheel they
are packaged inside `bot`. This file is the only one that knows either place. It does not
know what any of the data means.
"""

from __future__ import annotations

import csv
import io
import json
import tomllib
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path
from typing import Any


class NoSuchData(LookupError):
    """The shared data holds nothing under this name; the installation or our code is at fault."""


@cache
def shared() -> Traversable:
    """The folder of shared data, in a wheel or in a checkout; raises NoSuchData."""
    packaged = files("bot") / "shared"
    if packaged.is_dir():
        return packaged
    beside = Path(__file__).resolve().parent.parent / "shared"
    if beside.is_dir():
        return beside
    raise NoSuchData("the shared data is neither inside the package nor beside it")


def names(folder: str, suffix: str) -> tuple[str, ...]:
    """Every file in a folder of the shared data that ends so, as readable names, sorted."""
    under = shared() / folder
    if not under.is_dir():
        raise NoSuchData(f"no shared folder {folder!r}")
    return tuple(
        sorted(f"{folder}/{each.name}" for each in under.iterdir() if each.name.endswith(suffix))
    )


def read_text(name: str) -> str:
    """A file of the shared data, by its path with slashes; raises NoSuchData."""
    source = shared() / name
    if not source.is_file():
        raise NoSuchData(f"no shared data {name!r}")
    return source.read_text(encoding="utf-8")


def read_toml(name: str) -> dict[str, Any]:
    """A TOML file as a dictionary; raises NoSuchData."""
    return tomllib.loads(read_text(name))


def read_csv(name: str) -> list[dict[str, str]]:
    """A CSV file with a header line, a dictionary a row; raises NoSuchData."""
    return list(csv.DictReader(io.StringIO(read_text(name), newline="")))


def read_jsonl(name: str) -> list[dict[str, Any]]:
    """A file of JSON objects, one a line, blank lines left out; raises NoSuchData."""
    return [json.loads(line) for line in read_text(name).splitlines() if line.strip()]
