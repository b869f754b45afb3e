"""Sheets of paper that are printed on.

The letters are those that Pillow ships: set as they come, set in cells of one width as a till
prints them, or as the dots of a matrix printer.
"""

from __future__ import annotations

from collections.abc import Callable

from PIL import Image, ImageDraw, ImageFont

INK, PAPER = 35, 247

Style = Callable[["Sheet", float, float, str, int], float]


class Sheet:
    """A sheet of paper that is printed on from top to bottom."""

    def __init__(self, width: int, height: int) -> None:
        self.picture = Image.new("L", (width, height), PAPER)
        self.pen = ImageDraw.Draw(self.picture)
        self.width = width

    def left(self, x: float, y: float, text: str, size: int, style: Style | None = None) -> None:
        """Text that begins at x."""
        (style or plain)(self, x, y, text, size)

    def right(self, x: float, y: float, text: str, size: int, style: Style | None = None) -> None:
        """Text that ends at x."""
        style = style or plain
        style(self, x - width_of(text, size, style), y, text, size)

    def middle(self, y: float, text: str, size: int, style: Style | None = None) -> None:
        """Text in the middle of the sheet."""
        style = style or plain
        style(self, (self.width - width_of(text, size, style)) / 2, y, text, size)

    def rule(self, y: float, left: float = 40) -> None:
        """A line across the sheet."""
        self.pen.line((left, y, self.width - left, y), fill=INK, width=2)


def plain(sheet: Sheet, x: float, y: float, text: str, size: int) -> float:
    """Letters as they come."""
    sheet.pen.text((x, y), text, font=ImageFont.load_default(size), fill=INK)
    return width_of(text, size, plain)


def typed(sheet: Sheet, x: float, y: float, text: str, size: int) -> float:
    """Letters in cells of one width, as a till prints them."""
    font, cell = ImageFont.load_default(size), size * 0.66
    for index, letter in enumerate(text):
        sheet.pen.text((x + cell * (index + 0.5), y), letter, font=font, fill=INK, anchor="ma")
    return cell * len(text)


def dotted(sheet: Sheet, x: float, y: float, text: str, size: int) -> float:
    """The dots of a matrix printer: Pillow's small letters, each dot drawn round."""
    font = ImageFont.load_default_imagefont()
    text = f" {text}"  # the first letter of this font may begin left of its place
    _, _, wide, high = font.getbbox(text)
    small = Image.new("1", (int(wide), int(high)))
    ImageDraw.Draw(small).text((0, 0), text, font=font, fill=1)
    pitch = size / 11
    for row in range(small.height):
        for column in range(small.width):
            if small.getpixel((column, row)):
                left, top = x + column * pitch, y + row * pitch
                sheet.pen.ellipse((left, top, left + pitch, top + pitch), fill=INK)
    return small.width * pitch


def width_of(text: str, size: int, style: Style) -> float:
    """How wide a text is in a style."""
    if style is typed:
        return size * 0.66 * len(text)
    if style is dotted:
        return float(ImageFont.load_default_imagefont().getbbox(text)[2]) * size / 11
    return float(ImageFont.load_default(size).getlength(text))
