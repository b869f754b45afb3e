"""The words on a picture: where they stand, what they say, and how sure that is.

This file decides which way up a picture is, and looks at every word that holds a digit twice, in
two lights, so that a figure which the two looks disagree about is not certain. The recognising
is rapidocr's, with the models that come in its wheel; nothing is ever fetched. What the words
mean, and in which order a person reads them, is decided in `domain.page`.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise
from pathlib import Path
from statistics import median
from typing import Any

import cv2
import numpy as np
import rapidocr
from numpy.typing import NDArray

from bot.photos.opening import Light
from domain.page import Corner, Word

Quad = NDArray[np.float32]
"""Four corners of a word, as it is read: top left, top right, bottom right, bottom left."""

MOST_WORDS = 150
"""Places on one picture; a ticket has some forty."""
TRIED = 6
"""Places that are read both ways up where the picture's way is not plain."""
SPACE = 1.9
"""How many usual steps from letter to letter there are across a space."""
PLAIN = 0.8
"""The share of votes for one way up that settles it."""


class Recogniser:
    """The models, loaded once. Not for two threads at a time."""

    def __init__(self, threads: int = 1) -> None:
        shipped = Path(rapidocr.__file__).parent / "models"
        models = {
            f"{stage.capitalize()}.model_path": str(next(shipped.glob(f"*_{stage}_*.onnx")))
            for stage in ("det", "rec", "cls")
        }
        self._engine: Any = rapidocr.RapidOCR(
            params={
                # A path given is a path used: without one, a missing model would be fetched.
                **models,
                "Global.log_level": "critical",
                "Global.text_score": 0.0,
                "EngineConfig.onnxruntime.intra_op_num_threads": threads,
            }
        )

    def words(self, light: Light) -> tuple[Word, ...]:
        """The words on a picture, in no order."""
        even = evenly_lit(light)
        quads = self._places(even)
        if not quads:
            return ()
        quads = self._the_right_way_up(even, quads)
        words: list[Word] = []
        for quad in quads:
            look = self._look(even, quad)
            if any(character.isdigit() for character in look.text):
                look = look.confirmed_by(self._look(light, grown(quad)))
            if _is_cut_off(quad, light):
                look = look.with_confidence(lambda _: 0.0)
            words.extend(look.words(quad))
        return tuple(words)

    def _places(self, light: Light) -> list[Quad]:
        found = self._engine(colours(light), use_det=True, use_cls=False, use_rec=False)
        boxes = found.boxes if found.boxes is not None else ()
        return [np.asarray(box, dtype=np.float32) for box in boxes][:MOST_WORDS]

    def _the_right_way_up(self, light: Light, quads: Sequence[Quad]) -> list[Quad]:
        """The places with their corners as they are read.

        Long places tell the line along which text runs; then a classifier votes on which end is
        up, and where the votes are split, what is read with more confidence is.
        """
        line = _running_line(quads)
        turned = [_along(quad, line) for quad in quads]
        longest = sorted(turned, key=lambda quad: _width(quad) / _height(quad), reverse=True)
        votes = {"0": 0.0, "180": 0.0}
        for quad in longest[: 2 * TRIED]:
            seen = self._engine(cut(light, quad), use_det=False, use_cls=True, use_rec=False)
            label, score = seen.cls_res[0]
            votes[label] += score
        total = sum(votes.values())
        overturned = votes["180"] > votes["0"]
        if max(votes.values()) < PLAIN * total:
            tried = longest[:TRIED]
            as_it_is = sum(self._look(light, quad).sure for quad in tried)
            other_way = sum(self._look(light, _turned(quad, 2)).sure for quad in tried)
            overturned = other_way > as_it_is
        return [_turned(quad, 2) for quad in turned] if overturned else turned

    def _look(self, light: Light, quad: Quad) -> Look:
        seen = self._engine(
            cut(light, quad), use_det=False, use_cls=False, use_rec=True, return_word_box=True
        )
        if not seen.txts or not seen.txts[0].strip():
            return Look(())
        found = seen.word_results[0]
        columns = iter([column for word in found.word_cols for column in word])
        letters = [
            Letter(letter, next(columns) / found.line_txt_len, confidence)
            for letter, confidence in zip(seen.txts[0], found.confs, strict=True)
            if not letter.isspace()
        ]
        return Look(tuple(_parts(seen.txts[0], letters)))


@dataclass(frozen=True, slots=True)
class Letter:
    """A character, how far along its place it stands (0 to 1), and how sure it is."""

    text: str
    along: float
    confidence: float


@dataclass(frozen=True, slots=True)
class Part:
    """Letters that stand together."""

    letters: tuple[Letter, ...]

    @property
    def text(self) -> str:
        """What they say."""
        return "".join(letter.text for letter in self.letters)

    @property
    def confidence(self) -> float:
        """That of the least certain letter."""
        return min(letter.confidence for letter in self.letters)


@dataclass(frozen=True, slots=True)
class Look:
    """What one look at a place made out, from left to right."""

    parts: tuple[Part, ...]

    @property
    def text(self) -> str:
        """What they say, with a space between parts."""
        return " ".join(part.text for part in self.parts)

    @property
    def sure(self) -> float:
        """The mean confidence of its letters."""
        letters = [letter for part in self.parts for letter in part.letters]
        return sum(letter.confidence for letter in letters) / len(letters) if letters else 0.0

    def confirmed_by(self, other: Look) -> Look:
        """The surer of two looks at one place; what they disagree about is uncertain.

        Where both made out the same, whatever the spaces, each letter is as sure as the surer
        look had it.
        """
        surer, less = (self, other) if self.sure >= other.sure else (other, self)
        letters = [letter for part in less.parts for letter in part.letters]
        if surer.text.replace(" ", "") == less.text.replace(" ", ""):
            again = iter(letters)
            return surer.with_confidence(
                lambda letter: max(letter.confidence, next(again).confidence)
            )
        said = {part.text for part in less.parts}
        return Look(
            tuple(
                part
                if part.text in said
                else Part(tuple(replace(letter, confidence=0.0) for letter in part.letters))
                for part in surer.parts
            )
        )

    def with_confidence(self, confidence: Callable[[Letter], float]) -> Look:
        """The same with each letter's confidence anew, from left to right."""
        return Look(
            tuple(
                Part(
                    tuple(replace(letter, confidence=confidence(letter)) for letter in part.letters)
                )
                for part in self.parts
            )
        )

    def words(self, quad: Quad) -> Iterator[Word]:
        """Its parts, each with its own corners inside those of the place."""
        height, width = _height(quad), _width(quad)
        half = min(0.5, 0.3 * height / width)
        for part in self.parts:
            left = max(0.0, part.letters[0].along - half)
            right = min(1.0, part.letters[-1].along + half)
            yield Word(part.text, _between(quad, left, right), part.confidence)


def _parts(text: str, letters: Sequence[Letter]) -> Iterator[Part]:
    """Letters parted where a space was made out, or has room between a letter and a digit."""
    ends = set(accumulate(len(word) for word in text.split()))
    steps = [after.along - before.along for before, after in pairwise(letters)]
    usual = median(steps) if steps else 0.0
    begin = 0
    for index in range(1, len(letters) + 1):
        kinds = {letter.text.isdigit() for letter in letters[index - 1 : index + 1]}
        apart = len(kinds) > 1 and steps[index - 1] > SPACE * usual
        if index in ends or apart:
            yield Part(tuple(letters[begin:index]))
            begin = index


def _between(quad: Quad, left: float, right: float) -> tuple[Corner, Corner, Corner, Corner]:
    def at(start: Quad, end: Quad, share: float) -> Corner:
        x, y = start + (end - start) * share
        return (float(x), float(y))

    top_left, top_right, bottom_right, bottom_left = quad
    return (
        at(top_left, top_right, left),
        at(top_left, top_right, right),
        at(bottom_left, bottom_right, right),
        at(bottom_left, bottom_right, left),
    )


def cut(light: Light, quad: Quad) -> NDArray[np.uint8]:
    """The piece of a picture inside a place, straight and in colours as the models take it."""
    width, height = max(4, round(_width(quad))), max(4, round(_height(quad)))
    flat = np.array([[0, 0], [width, 0], [width, height], [0, height]], dtype=np.float32)
    piece = cv2.warpPerspective(
        light,
        cv2.getPerspectiveTransform(quad, flat),
        (width, height),
        flags=cv2.INTER_CUBIC,
        borderMode=cv2.BORDER_REPLICATE,
    )
    return colours(piece)


def colours(light: NDArray[Any]) -> NDArray[np.uint8]:
    """Grey as three equal colours."""
    return np.repeat(np.asarray(light, dtype=np.uint8)[:, :, None], 3, axis=2)


def evenly_lit(light: Light) -> Light:
    """A picture with its paper equally bright everywhere: shadows, folds and dusk are gone.

    Each pixel is set against the brightest of its neighbourhood, taken from a copy an eighth as
    large; what is nearly black all around stays so.
    """
    height, width = light.shape
    small = cv2.resize(
        light, (max(1, width // 8), max(1, height // 8)), interpolation=cv2.INTER_AREA
    )
    paper = cv2.GaussianBlur(cv2.dilate(small, np.ones((5, 5), dtype=np.uint8)), (0, 0), 6)
    paper = cv2.resize(paper, (width, height), interpolation=cv2.INTER_LINEAR)
    lit = light.astype(np.float32) / np.maximum(paper, DARKEST) * WHITE
    return np.clip(lit, 0, 255).astype(np.uint8)


DARKEST = 12
"""The paper's light below which a picture is no longer brightened."""
WHITE = 225


def grown(quad: Quad) -> Quad:
    """A place with a little more around it."""
    along = (quad[1] - quad[0]) / max(1.0, _width(quad))
    down = (quad[3] - quad[0]) / max(1.0, _height(quad))
    room = 0.08 * _height(quad)
    steps = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    moved = [
        corner + room * (x * along + y * down) for corner, (x, y) in zip(quad, steps, strict=True)
    ]
    return np.array(moved, dtype=np.float32)


def _is_cut_off(quad: Quad, light: Light) -> bool:
    """Whether a place reaches the edge of the picture: there may have been more of it."""
    height, width = float(light.shape[0]), float(light.shape[1])
    x, y = quad[:, 0], quad[:, 1]
    room = (float(x.min()), float(y.min()), width - float(x.max()), height - float(y.max()))
    return min(room) < EDGE


EDGE = 3
"""Pixels."""


def _turned(quad: Quad, quarters: int) -> Quad:
    """A place whose text begins at another corner."""
    return np.roll(quad, -quarters, axis=0)


def _width(quad: Quad) -> float:
    return float(np.linalg.norm(quad[1] - quad[0]) + np.linalg.norm(quad[2] - quad[3])) / 2


def _height(quad: Quad) -> float:
    return float(np.linalg.norm(quad[3] - quad[0]) + np.linalg.norm(quad[2] - quad[1])) / 2


def _running_line(quads: Sequence[Quad]) -> NDArray[np.float32]:
    """The direction along which most text runs, one way or the other, as a vector of length 1.

    Doubled angles make the two ways of a line one.
    """
    doubled = 0j
    for quad in quads:
        width, height = _width(quad), _height(quad)
        x, y = quad[1] - quad[0] if width > height else quad[3] - quad[0]
        side = complex(float(x), float(y))
        doubled += side * side / max(abs(side), 1.0) * (1 - min(width, height) / max(width, height))
    angle = cmath.phase(doubled) / 2
    return np.array([math.cos(angle), math.sin(angle)], dtype=np.float32)


def _along(quad: Quad, line: NDArray[np.float32]) -> Quad:
    """A place with its first side along a line."""
    ways = [_turned(quad, quarters) for quarters in range(4)]
    return max(ways, key=lambda way: float((way[1] - way[0]) @ line / max(_width(way), 1.0)))
