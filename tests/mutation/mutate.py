"""Whether a test would notice: the modules of `modules.toml`, spoilt one small change at a time.

Run as `python -m tests.mutation.mutate [MODULE ...]`, which `make mutate` does. Cosmic Ray makes
the changes (an operator, a comparison, a number, a `not`) in a copy of the checkout, and the tests
named for the module are run against each. A mutant that they let pass is shown, with the reason
where `modules.toml` knows it to be equivalent. Fails where fewer than 85 in a hundred are killed.
"""

from __future__ import annotations

import argparse
import compileall
import contextlib
import difflib
import importlib
import os
import re
import shutil
import signal
import sys
import tempfile
import tomllib
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from py_compile import PycInvalidationMode

import pytest
from cosmic_ray.commands import init
from cosmic_ray.mutating import use_mutation
from cosmic_ray.plugins import get_operator
from cosmic_ray.work_db import WorkDB, use_db
from cosmic_ray.work_item import MutationSpec

ROOT = Path(__file__).resolve().parents[2]
MODULES = Path(__file__).with_name("modules.toml")
COPIED = ("bot", "domain", "shared", "tests", "pyproject.toml")

LEAST = 0.85
SECONDS = 60
"""Tests that take longer go round for ever."""

PYTEST = (
    "-q", "-x", "-p", "no:cacheprovider", "--hypothesis-profile=mutation",
    "-p", "pytest_asyncio.plugin", "-p", "_hypothesis_pytestplugin",
    "-W", "ignore::pytest.PytestAssertRewriteWarning",
)  # fmt: skip

SHARED = ("hypothesis", "numpy", "pint", "scipy.stats", "uncertainties", "domain.quantities")
"""What takes long to import and is not mutated: done once, before the runs part."""

POINTLESS = re.compile(
    r"core/(ReplaceBinaryOperator_(BitOr_\w+|\w+_(RShift|LShift|Bit\w+))"
    r"|ReplaceComparisonOperator_(Eq|NotEq|Lt|LtE|Gt|GtE)_(Is|IsNot))$"
)
"""Changes of a type's `|`, to what no float can do, and from being equal to being the same."""


@dataclass(frozen=True, slots=True)
class Module:
    """A module, the tests that hold it, and why its equivalent mutants are.

    A mutant is known by the line as it was and as it became.
    """

    path: str
    tests: tuple[str, ...]
    equivalent: dict[tuple[str, str], str]


def modules() -> dict[str, Module]:
    """Every module that is mutated, by its name."""
    return {
        name: Module(
            told["path"],
            tuple(told["tests"]),
            {(each["was"], each["became"]): each["why"] for each in told.get("equivalent", ())},
        )
        for name, told in tomllib.loads(MODULES.read_text(encoding="utf-8")).items()
    }


@contextlib.contextmanager
def copied() -> Iterator[None]:
    """Work in a copy of the checkout, so that the checkout never holds a mutant.

    It is compiled by content: two mutants of one size, within a second, have the same time.
    """
    with tempfile.TemporaryDirectory() as folder:
        for name in COPIED:
            source, target = ROOT / name, Path(folder) / name
            if source.is_dir():
                shutil.copytree(source, target, ignore=shutil.ignore_patterns("__pycache__"))
            else:
                shutil.copy2(source, target)
        with contextlib.chdir(folder):
            sys.path.insert(0, folder)
            for name in ("bot", "domain"):
                compileall.compile_dir(
                    name, quiet=1, invalidation_mode=PycInvalidationMode.CHECKED_HASH
                )
            yield


def mutants(path: str) -> Sequence[MutationSpec]:
    """Every change of a module that is worth a try, from its first line to its last."""
    with use_db(":memory:", WorkDB.Mode.create) as work:
        init([Path(path)], work, {})
        specs = [spec for item in work.work_items for spec in item.mutations]
    tried = [spec for spec in specs if not POINTLESS.match(spec.operator_name)]
    return sorted(tried, key=lambda spec: (spec.start_pos, spec.operator_name, spec.occurrence))


def run(tests: Sequence[str], *, mutated: bool = True) -> str:
    """Run tests in a process of their own: `survived`, `killed` or `timed out`."""
    child = os.fork()
    if child == 0:
        nothing = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nothing, sys.stdout.fileno())
        os.dup2(nothing, sys.stderr.fileno())
        for name in [name for name in sys.modules if name.partition(".")[0] == "tests"]:
            del sys.modules[name]
        sys.dont_write_bytecode = mutated  # a mutant's would be taken for the module's
        signal.alarm(SECONDS)
        os._exit(pytest.main([*PYTEST, *tests]))
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status) and os.WTERMSIG(status) == signal.SIGALRM:
        return "timed out"
    return "survived" if status == 0 else "killed"


def changed(before: str, after: str) -> tuple[str, str]:
    """The lines in which two sources differ, as they were and as they became."""
    lines = list(difflib.ndiff(before.splitlines(), after.splitlines()))
    was, became = (
        " ".join(line[2:].strip() for line in lines if line.startswith(sign)) for sign in "-+"
    )
    return was, became


def tried(module: Module) -> Counter[str]:
    """How many of a module's mutants came to which end; shows those that nothing noticed."""
    if run(module.tests, mutated=False) != "survived":
        sys.exit(f"{module.path}: its tests fail as it stands")
    ends: Counter[str] = Counter()
    for spec in mutants(module.path):
        operator = get_operator(spec.operator_name)(**spec.operator_args)
        with use_mutation(spec.module_path, operator, spec.occurrence) as (before, after):
            end = run(module.tests)
        if end == "survived":
            was, became = changed(before, after)
            why = module.equivalent.get((was, became), "")
            end = "equivalent" if why else end
            where = f"{module.path}:{spec.start_pos[0]}"
            print(f"\n{where} {end} {why}\n  - {was}\n  + {became}", flush=True)
        ends[end] += 1
    return ends


def main() -> int:
    """Mutate what the command line names, or all; 1 where too much went unnoticed."""
    known = modules()
    command = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    command.add_argument("module", nargs="*", help=f"{', '.join(known)}; all unless named")
    named = command.parse_args().module or known
    if unknown := set(named) - set(known):
        command.error(f"modules.toml knows no {', '.join(sorted(unknown))}")
    os.environ["PYTEST_DISABLE_PLUGIN_AUTOLOAD"] = "1"
    weak = False
    with copied():
        for name in SHARED:
            importlib.import_module(name)
        for name in named:
            ends = tried(known[name])
            score = (ends["killed"] + ends["timed out"]) / ends.total()
            weak |= score < LEAST
            counts = ", ".join(f"{count} {end}" for end, count in ends.most_common())
            told = f"{known[name].path}: {score:.1%} of {ends.total()} mutants ({counts})"
            print(f"\n{told}", flush=True)
    return 1 if weak else 0


if __name__ == "__main__":
    sys.exit(main())
