"""The domain stays a function of its arguments, and a network's library stays in its adapter.

Imports between the packages are import-linter's contracts (pyproject.toml, `make contracts`).
Here the syntax tree is walked for what an import alone does not show: files opened, clocks
read, things printed.
"""

from __future__ import annotations

import ast
import dataclasses
import importlib
import pkgutil
from collections.abc import Iterator
from pathlib import Path

import pytest

import bot
import domain

DOMAIN = Path(domain.__file__).parent
BOT = Path(bot.__file__).parent

CALLS = {"open", "print", "input", "breakpoint", "exec", "eval", "__import__"}
"""Built-in names that a pure function has no use for."""

CLOCKS = {"now", "utcnow", "today"}
"""Methods of date and datetime that read the clock."""

FILES = {
    "read_text", "write_text", "read_bytes", "write_bytes", "iterdir", "glob", "rglob", "mkdir",
    "unlink", "touch", "is_file", "is_dir",
}  # fmt: skip
"""Methods of a path that go to the disk."""

MODULES = {
    "aiohttp", "alembic", "asyncio", "bot", "click", "http", "httpx", "importlib", "io", "locale",
    "logging", "multiprocessing", "nio", "os", "pathlib", "platformdirs", "prompt_toolkit",
    "psycopg", "random", "requests", "rich", "secrets", "shutil", "signal", "socket", "sqlalchemy",
    "sqlite3", "subprocess", "sys", "telegram", "tempfile", "threading", "time", "urllib",
    "warnings",
}  # fmt: skip
"""What the domain never imports: the outside, the clock, chance, and the shell's libraries."""

ADAPTERS = {"telegram": "telegram", "nio": "matrix"}
"""A network's library, and the module or package under bot/networks that may import it."""


def sources(package: Path) -> list[Path]:
    return sorted(package.rglob("*.py"))


def imports(tree: ast.AST) -> Iterator[tuple[int, str]]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.lineno, node.module or ""


def impurities(source: str) -> list[tuple[int, str]]:
    """Every use of the outside world in a source text, with its line."""
    tree = ast.parse(source)
    found = [(line, name) for line, name in imports(tree) if name.split(".")[0] in MODULES]
    for node in ast.walk(tree):
        match node:
            case ast.Call(func=ast.Name(id=name)) if name in CALLS:
                found.append((node.lineno, name))
            case ast.Attribute(attr=name) if name in CLOCKS | FILES:
                found.append((node.lineno, name))
    return sorted(found)


@pytest.mark.parametrize(
    ("source", "used"),
    [
        ("open('log.txt')", "open"),
        ("print(gross)", "print"),
        ("input()", "input"),
        ("from datetime import datetime\ndatetime.now()", "now"),
        ("import datetime\ndatetime.datetime.utcnow()", "utcnow"),
        ("from datetime import date\nread = date.today", "today"),
        ("import time\ntime.time()", "time"),
        ("from time import time", "time"),
        ("import os.path", "os.path"),
        ("import sys\nsys.stdin.read()", "sys"),
        ("from pathlib import Path", "pathlib"),
        ("ratings.read_text()", "read_text"),
        ("def margin():\n    import socket", "socket"),
        ("import sqlite3", "sqlite3"),
        ("from sqlalchemy.orm import Session", "sqlalchemy.orm"),
        ("import requests", "requests"),
        ("import random", "random"),
        ("from bot.answers.answer import Answer", "bot.answers.answer"),
    ],
)
def test_the_walk_sees_every_way_out(source: str, used: str) -> None:
    assert used in [name for _, name in impurities(source)]


def test_the_walk_lets_arithmetic_be() -> None:
    assert impurities("from math import ceil\ntiedowns = ceil(24000 / 2 / 3335)") == []


@pytest.mark.parametrize("path", sources(DOMAIN), ids=lambda path: path.stem)
def test_a_module_of_the_domain_touches_nothing_outside(path: Path) -> None:
    assert impurities(path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize("library", ADAPTERS)
def test_a_networks_library_is_imported_in_its_adapter_alone(library: str) -> None:
    home = BOT / "networks" / ADAPTERS[library]
    strays = [
        f"{path.relative_to(BOT)}:{line}"
        for path in sources(BOT)
        for line, name in imports(ast.parse(path.read_text(encoding="utf-8")))
        if name.split(".")[0] == library
        and path != home.with_suffix(".py")
        and home not in path.parents
    ]
    assert strays == []


def records() -> list[type]:
    """Every dataclass of the domain; what the reader drafts on its way is its own."""
    return [
        each
        for found in pkgutil.iter_modules(domain.__path__, "domain.")
        for each in vars(importlib.import_module(found.name)).values()
        if dataclasses.is_dataclass(each) and isinstance(each, type)
        if each.__module__ == found.name
    ]


def test_a_record_of_the_domain_is_never_changed() -> None:
    assert len(records()) > 50
    loose = [
        each
        for each in records()
        if not each.__dataclass_params__.frozen or "__slots__" not in vars(each)  # type: ignore[attr-defined]
    ]
    assert loose == []
