"""The figures that benchmarks measured last, kept beside the page that shows them.

A benchmark notes each figure with its unit and its limit; those of benchmarks that did not run
stay as they were. `make documents` makes the table in deploy/capacity.md from the file.
"""

from __future__ import annotations

import json
import os
import platform
from pathlib import Path
from typing import Any

FILE = Path(__file__).resolve().parents[2] / "deploy" / "figures.json"


class Figures:
    """A file of figures by name."""

    def __init__(self, file: Path = FILE) -> None:
        self._file = file

    def note(self, name: str, value: float, unit: str, limit: str = "") -> None:
        """Keep a figure, rounded to four digits, and on which machine it was measured."""
        kept = read(self._file)
        kept["figures"][name] = {"value": float(f"{value:.4g}"), "unit": unit, "limit": limit}
        kept["figures"] = dict(sorted(kept["figures"].items()))
        kept["machine"] = {
            "cores": os.cpu_count(),
            "processor": platform.machine(),
            "system": platform.system(),
            "python": platform.python_version(),
        }
        self._file.write_text(json.dumps(kept, indent=1) + "\n", encoding="utf-8")


def read(file: Path = FILE) -> dict[str, Any]:
    """What the file holds; nothing yet where there is none."""
    if not file.exists():
        return {"machine": {}, "figures": {}}
    kept: dict[str, Any] = json.loads(file.read_text(encoding="utf-8"))
    return kept


def figures_table(file: Path = FILE) -> str:
    """The machine in a line, and a row for each figure."""
    kept = read(file)
    machine = kept["machine"]
    rows = [
        f"{machine['cores']} cores ({machine['processor']}), {machine['system']}, Python"
        f" {machine['python']}.",
        "",
        "| what | measured | limit |",
        "|---|---|---|",
    ]
    for name, each in kept["figures"].items():
        rows.append(f"| {name} | {_shown(each['value'])} {each['unit']} | {each['limit']} |")
    return "\n".join(rows) + "\n"


def _shown(value: float) -> str:
    return f"{value:,.0f}" if value >= 1000 else f"{value:g}"
