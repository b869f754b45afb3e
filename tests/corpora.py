"""The corpora: messages with what a careful person reads in them, and how they are run.

A corpus is a file of JSON lines in `tests/corpus`: `in` is an input line of the `read`
contract, `out` the verdict expected, `tags` what the message is an example of. This file
decides where they lie and how a case is read in process, by the same code as `drawbar read`.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from bot.read import parsed
from domain.context import Context
from domain.reading import Phrasebook, read
from domain.records import Record, verdict_to_record
from tests.scoring import Score, score

FOLDER = Path(__file__).parent / "corpus"

NOW = datetime(2026, 7, 11, 20, 22, tzinfo=UTC)
"""When a message without `sent_at` was sent."""


@dataclass(frozen=True, slots=True)
class Case:
    """A message as it was texted, what the chat knew, and what should be made of it."""

    text: str
    context: Context
    want: Record
    tags: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Result:
    """A case, the verdict as a record (None where reading failed), and its score."""

    case: Case
    got: Record | None
    score: Score

    def __str__(self) -> str:
        """The outcome, the message and what made it, on one line."""
        return f"{self.score.outcome:7} {self.case.text!r} ({', '.join(self.score.why)})"


def corpora() -> list[str]:
    """The name of every corpus."""
    return sorted(path.stem for path in FOLDER.glob("*.jsonl"))


def cases(name: str) -> list[Case]:
    """Every case of a corpus, in the order of its file."""
    lines = (FOLDER / f"{name}.jsonl").read_text(encoding="utf-8").splitlines()
    return [_case(json.loads(line)) for line in lines if line.strip()]


def _case(record: Record) -> Case:
    text, context = parsed(json.dumps(record["in"]), NOW)
    return Case(text, context, record["out"], tuple(record.get("tags", ())))


def run(case: Case, book: Phrasebook) -> Result:
    """Read a case and score it; whatever is raised is a crash."""
    got: Record | None
    try:
        got = verdict_to_record(read(case.text, case.context, book))
    except Exception as error:  # noqa: BLE001  any failure at all is what is being looked for
        got, why = None, (repr(error),)
        return Result(case, got, Score(score(case.want, got).outcome, why))
    return Result(case, got, score(case.want, got))


def totals(results: Iterable[Result]) -> Counter[str]:
    """How many messages had each outcome."""
    return Counter(result.score.outcome for result in results)
