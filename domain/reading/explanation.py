"""A reading explained to someone who has not read the code.

This file decides only how the steps of a reading are told: the words and figures that were
found, which label each figure got, what was left aside as talk, what was weighed against what,
and the verdict. It decides nothing about the reading.
"""

from __future__ import annotations

import json
from collections.abc import Set

from domain.reading.figures import Figure
from domain.reading.label import Label
from domain.reading.scene import Scene
from domain.reading.tokens import NUMBER, WORD, Token
from domain.records import verdict_to_record
from domain.verdicts import Ask, Facts, Question, Verdict

TALK = {
    "plan": "a plan or a wish",
    "guess": "a guess",
    "general": "of what is usual, and not of now",
    "negation": "denied",
    "other": "of somebody else or their rig",
    "request": "said to a person",
}


def explanation(scene: Scene, verdict: Verdict, trace: list[str]) -> str:
    """The reading of a message as a few indented lines."""
    lines = [f"message   {scene.text!r}"]
    words = [_word(token) for token in scene.tokens if token.kind is WORD and token.senses]
    if words:
        lines.append("words     " + "; ".join(words))
    unknown = [scene.tokens[index].raw for index in scene.unknown_words()]
    if unknown:
        lines.append("unknown   " + ", ".join(unknown))
    doubted = (
        {quantity.value for quantity in verdict.figures} if isinstance(verdict, Ask) else set()
    )
    lines.extend(_figure(scene, figure, doubted) for figure in scene.figures)
    lines.extend(f"weighed   {line}" for line in trace)
    lines.append(f"verdict   {_verdict(verdict)}")
    return "\n".join(lines)


def _word(token: Token) -> str:
    senses = ", ".join(f"{term_class} {key}" for term_class, key in token.senses.items())
    return f"{token.text} ({senses})"


def _figure(scene: Scene, figure: Figure, doubted: Set[float]) -> str:
    parts = [f"figure    {figure.value:,.10g}"]
    if figure.unit:
        parts.append(figure.unit)
    spoken = " as spoken" if figure.token.kind is NUMBER and figure.token.said.spoken else ""
    parts.append(f"from {scene.words_between(figure.start, figure.end)!r}{spoken}:")
    talk = scene.talk[figure.start]
    if figure.claimed:
        parts.append(f"left aside, it belongs to {figure.claimed}")
    elif talk is not None:
        parts.append(f"left aside, {TALK[talk]}")
    else:
        if isinstance(figure.label, Label):
            label = scene.words_between(figure.label.start, figure.label.end)
            parts.append(f"labelled {label!r},")
        if figure.foreign:
            parts.append(f"counts {figure.foreign!r},")
        if figure.role:
            parts.append(f"taken as {figure.role}")
        else:
            parts.append("in doubt" if figure.value in doubted else "taken for nothing")
    return " ".join(parts)


def _verdict(verdict: Verdict) -> str:
    record = verdict_to_record(verdict)
    told = json.dumps(record, ensure_ascii=False)
    match verdict:
        case Facts(entries):
            return f"{len(entries)} to keep: {told}"
        case Question(topic):
            return f"a question about {topic}: {told}"
        case Ask(about, _, why):
            return f"in doubt about {about} ({why.replace('_', ' ')}): {told}"
        case _:
            return "talk between people; nothing is kept"
