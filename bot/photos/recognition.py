"""The words on a picture: where they stand, what they say, and how sure that is.

This file decides which way up a picture is, and that every place that holds a digit is looked at
twice, in two lights. The recognising is rapidocr's, with the models that come in its wheel;
nothing is ever fetched. In which order a person reads the words is decided in `domain.page`.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import numpy as np
import rapidocr

from bot.photos.lighting import Light, evenly_lit, in_colours
from bot.photos.looks import Letter, Look, look_of
from bot.photos.places import Place, running_line
from domain.page import Word

MOST_PLACES = 150
"""On one picture; a ticket has some forty."""
VOTING, TRIED = 12, 6
"""Places that vote on the picture's way up, and those read both ways where they disagree."""
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
        words: list[Word] = []
        for place in self._the_right_way_up(even, self._places(even)):
            look = self._look(even, place)
            if any(character.isdigit() for character in look.letters):
                look = look.confirmed_by(self._look(light, place.grown()))
            if place.is_cut_off(light):
                look = look.with_confidence(lambda _: 0.0)
            words.extend(_words(look, place))
        return tuple(words)

    def _places(self, light: Light) -> list[Place]:
        found = self._engine(in_colours(light), use_det=True, use_cls=False, use_rec=False)
        boxes = found.boxes if found.boxes is not None else ()
        return [Place(np.asarray(box, dtype=np.float32)) for box in boxes][:MOST_PLACES]

    def _the_right_way_up(self, light: Light, places: Sequence[Place]) -> list[Place]:
        """The places with their corners as they are read.

        Long places tell the line along which text runs; then a classifier votes on which end is
        up, and where the votes are split, what is read with more confidence is.
        """
        line = running_line(places)
        along = [place.along(line) for place in places]
        longest = sorted(along, key=lambda place: place.width / place.height, reverse=True)
        votes = {"0": 0.0, "180": 0.0}
        for place in longest[:VOTING]:
            piece = in_colours(place.cut_from(light))
            seen = self._engine(piece, use_det=False, use_cls=True, use_rec=False)
            way, confidence = seen.cls_res[0]
            votes[way] += confidence
        overturned = votes["180"] > votes["0"]
        if max(votes.values()) < PLAIN * sum(votes.values()):
            tried = longest[:TRIED]
            as_it_is = sum(self._look(light, place).sure for place in tried)
            other_way = sum(self._look(light, place.turned(2)).sure for place in tried)
            overturned = other_way > as_it_is
        return [place.turned(2) for place in along] if overturned else along

    def _look(self, light: Light, place: Place) -> Look:
        piece = in_colours(place.cut_from(light))
        seen = self._engine(piece, use_det=False, use_cls=False, use_rec=True, return_word_box=True)
        if not seen.txts or not seen.txts[0].strip():
            return Look(())
        text, found = seen.txts[0], seen.word_results[0]
        columns = iter([column for word in found.word_cols for column in word])
        return look_of(
            text,
            [
                Letter(letter, next(columns) / found.line_txt_len, confidence)
                for letter, confidence in zip(text, found.confs, strict=True)
                if not letter.isspace()
            ],
        )


def _words(look: Look, place: Place) -> Iterator[Word]:
    """The parts of a look, each with its own corners inside those of its place."""
    half = 0.3 * place.height / place.width
    for part in look.parts:
        left = max(0.0, part.letters[0].along - half)
        right = min(1.0, part.letters[-1].along + half)
        yield Word(part.text, place.between(left, right), part.confidence)
