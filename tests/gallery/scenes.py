"""Every kind of answer, made by texting, and as each network shows it.

`make gallery` writes the snapshots that the test compares, and, where Chromium is on the machine,
pictures of a phone's screen.
"""

from __future__ import annotations

import asyncio
import html
import re
import shutil
import subprocess
import tempfile
import tomllib
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path

from bot.answers import shared, trouble
from bot.answers.answer import Answer
from bot.answers.language import language_of, speaking
from bot.answers.plain import as_text
from bot.messages import Message
from bot.networks.matrix import dressing
from bot.networks.telegram.rendering import rendered
from bot.settings import settings
from bot.wiring import drawbar
from domain.log import Preferences
from tests.letters import Letters

HERE = Path(__file__).parent
SCENES = {"en": HERE / "scenes.toml", "es": HERE / "scenes.es.toml"}
NETWORK = "gallery"
SATURDAY = datetime(2026, 5, 30, 14, 0, tzinfo=UTC)
CODE = re.compile(r"\b[A-Z2-9]{4}-[A-Z2-9]{4}\b")
LONGEST = 900
"""Characters of an answer: a phone's screen holds no more."""

PHONE = 360
"""CSS pixels: the width of the narrowest common phone."""

TALLEST = 4400
"""Pixels of a sheet of screens."""

COLOURS = 24
"""Colours of a picture that is kept: enough for text, and a quarter of the bytes."""


@dataclass(frozen=True, slots=True)
class Scene:
    """An answer, what it answers, and what that is an example of."""

    name: str
    texted: str
    answer: Answer


ASIDES = {
    "en": (
        ("a stranger", "hello"),
        ("a wrong code", "ABCD-EFGH"),
        ("the owner is let in", "ABCD-EFGH"),
        ("a keeper is let in", "ABCD-EFGH"),
        ("a reader is let in", "ABCD-EFGH"),
        ("a reader tells figures", "odo 48700"),
        ("alone with it, and not understood", "7 of 9?"),
        ("a flood", "odo 48701"),
        ("the disk is full", "odo 48702"),
        ("a chat that is gone", ""),
    ),
    "es": (
        ("un extraño", "hola"),
        ("un código que no es", "ABCD-EFGH"),
        ("entra el dueño", "ABCD-EFGH"),
        ("entra quien escribe", "ABCD-EFGH"),
        ("entra quien lee", "ABCD-EFGH"),
        ("quien lee da cifras", "odómetro 48700"),
        ("a solas, y no se entiende", "¿7 de 9?"),
        ("demasiado de una vez", "odómetro 48701"),
        ("el disco está lleno", "odómetro 48702"),
        ("un chat que ya no está", ""),
    ),
}
"""What each scene without a logbook is called, and what is texted in it, in each language."""


def _asides(preferences: Preferences) -> tuple[Scene, ...]:
    """What is said without a logbook, or of its trouble."""
    answers = (
        shared.stranger_answer(),
        shared.wrong_code_answer(),
        shared.welcome_answer(preferences, keeps=True, empty=True),
        shared.welcome_answer(preferences, keeps=True, empty=False),
        shared.welcome_answer(preferences, keeps=False, empty=False),
        shared.reader_answer(),
        trouble.not_read_answer(),
        trouble.too_many_answer(),
        trouble.not_written_answer(),
        trouble.undelivered_answer("telegram", "-1001", "bot was kicked from the group"),
    )
    return tuple(
        Scene(name, texted, answer)
        for (name, texted), answer in zip(ASIDES[preferences.language], answers, strict=True)
    )


@cache
def scenes(language: str = "en") -> tuple[Scene, ...]:
    """Every scene, in order, answered in a language."""
    told = tomllib.loads(SCENES[language].read_text(encoding="utf-8"))["scene"]
    preferences = Preferences(language=language)
    with speaking(language_of(preferences)):
        asides = _asides(preferences)
    return (*asyncio.run(_texted(told, language)), *asides)


async def _texted(told: Sequence[dict[str, object]], language: str) -> list[Scene]:
    network, found, at = Letters(NETWORK), [], SATURDAY
    with tempfile.TemporaryDirectory() as folder:
        chosen = settings(
            database=str(Path(folder) / "log.db"), time_zone="America/Boise", language=language
        )
        async with drawbar(chosen, [network]) as running:
            for number, each in enumerate(told):
                at += timedelta(minutes=int(str(each.get("after", 1))))
                before = len(network.answers)
                await running.take(_message(str(number), str(each["text"]), at))
                said = network.answers[before:]
                if "name" in each:
                    if len(said) != 1:
                        raise ValueError(f"{each['text']!r} gets {len(said)} answers")
                    found.append(Scene(str(each["name"]), str(each["text"]), said[0]))
    return found


def _message(number: str, text: str, at: datetime) -> Message:
    return Message(
        network=NETWORK,
        chat="hives",
        id=number,
        author="wren",
        name="Wren",
        sent_at=at,
        text=text,
        title="Hives",
    )


def terminal(answer: Answer) -> str:
    """An answer in the terminal."""
    return as_text(answer)


def telegram(answer: Answer) -> str:
    """An answer as Telegram's HTML, its buttons a line each below."""
    parts = rendered(answer)
    buttons = [f"[{label}]" for part in parts for label in part.buttons]
    return "\n".join([*(part.html for part in parts), *buttons])


def matrix(answer: Answer) -> str:
    """An answer as Matrix's HTML, an element a line."""
    return dressing.html(answer).replace("><", ">\n<")


NETWORKS: dict[str, Callable[[Answer], str]] = {
    "terminal": terminal,
    "telegram": telegram,
    "matrix": matrix,
}


APPROVED = (
    *((network, "en") for network in NETWORKS),
    *((network, "es") for network in ("terminal", "telegram")),
)
"""What is looked at: each network, and the other languages where there is most room and least."""


def snapshot(network: str, language: str = "en") -> str:
    """All scenes as one network shows them."""
    shown, found = NETWORKS[network], scenes(language)
    blocks = [f"## {each.name}\n> {each.texted}\n{shown(each.answer)}\n" for each in found]
    return CODE.sub("ABCD-EFGH", "\n".join(blocks))


def path_of(network: str, language: str = "en") -> Path:
    """Where the approved snapshot is."""
    return HERE / f"{network}{'' if language == 'en' else '.' + language}.txt"


STYLE = f"""
body {{ margin: 0; background: #e8e6e1; font: 16px/1.35 "DejaVu Sans", sans-serif;
  columns: {PHONE}px; column-gap: 0; column-fill: auto; height: {TALLEST}px }}
section {{ break-inside: avoid; width: {PHONE}px; box-sizing: border-box; padding: 6px 10px }}
h2 {{ font-size: 11px; color: #666; margin: 0 0 3px; font-weight: normal }}
.them {{ background: #cfe3d4; margin-left: 60px }}
.them, .us {{ border-radius: 10px; padding: 6px 9px; margin-bottom: 4px }}
.us {{ background: #fff; margin-right: 12px }}
.us div {{ white-space: pre-wrap; overflow-wrap: break-word }}
pre {{ margin: 3px 0; font: 13px/1.4 "DejaVu Sans Mono", monospace; white-space: pre-wrap }}
p {{ margin: 4px 0 }}
button {{ display: block; width: 100%; margin: 3px 0; padding: 7px; border: 0; font-size: 15px;
  background: #dde5ee; border-radius: 7px }}
"""


def page(network: str) -> str:
    """A page with each scene as it stands on a phone."""
    sections = "".join(_section(network, each) for each in scenes())
    # The same code each time, so that a picture changes where an answer does.
    shown = CODE.sub("ABCD-EFGH", sections)
    return f"<!doctype html><meta charset=utf-8><style>{STYLE}</style>{shown}"


def _section(network: str, scene: Scene) -> str:
    if network == "telegram":
        parts = rendered(scene.answer)
        said = "".join(f"<div>{part.html}</div>" for part in parts)
        said += "".join(f"<button>{html.escape(each)}</button>" for each in parts[-1].buttons)
    elif network == "matrix":
        said = dressing.html(scene.answer)
    else:
        said = f"<pre>{html.escape(as_text(scene.answer))}</pre>"
    texted = f'<div class="them">{html.escape(scene.texted)}</div>' if scene.texted else ""
    return f'<section><h2>{scene.name}</h2>{texted}<div class="us">{said}</div></section>'


def photograph(network: str, browser: str) -> None:
    """Write a picture of the page."""
    from PIL import Image

    with tempfile.TemporaryDirectory() as folder:
        source = Path(folder) / "page.html"
        shot = Path(folder) / "page.png"
        source.write_text(page(network), encoding="utf-8")
        subprocess.run(
            [
                browser,
                "--headless",
                "--no-sandbox",
                "--hide-scrollbars",
                f"--window-size={PHONE * 4},{TALLEST}",
                f"--screenshot={shot}",
                source.as_uri(),
            ],
            check=True,
            capture_output=True,
        )
        with Image.open(shot) as picture:
            few_colours = picture.convert("RGB").quantize(COLOURS)
            few_colours.save(HERE / f"{network}.png", optimize=True)


def write_all() -> None:
    """Write every snapshot and, with a browser, every picture."""
    browser = shutil.which("chromium") or shutil.which("google-chrome")
    for network, language in APPROVED:
        path_of(network, language).write_text(snapshot(network, language), encoding="utf-8")
        if browser is not None and language == "en":
            photograph(network, browser)


if __name__ == "__main__":
    write_all()
