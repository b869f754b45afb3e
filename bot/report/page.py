"""A report as a page of HTML that holds all it needs: style and pictures are inside it.

This file decides how the value meets its template (`templates/`), which escapes whatever people
texted. How the page looks on a phone and on paper is the style sheet's matter.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Callable
from functools import cache

from jinja2 import Environment, PackageLoader, StrictUndefined

from bot.answers.pictures import Picture
from bot.report.value import Report

PACKAGE, FOLDER = "bot.report", "templates"

Draw = Callable[[Picture], bytes]
"""A picture as PNG."""


def html(report: Report, draw: Draw) -> str:
    """The report as a page, its pictures drawn by `draw`."""

    def data_uri(picture: Picture) -> str:
        return f"data:image/png;base64,{b64encode(draw(picture)).decode('ascii')}"

    environment = _environment()
    environment.filters = {**environment.filters, "data_uri": data_uri}
    return environment.get_template("report.html.jinja").render(report=report)


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader(PACKAGE, FOLDER),
        autoescape=True,
        trim_blocks=True,
        undefined=StrictUndefined,
    )
    environment.globals["zip"] = zip
    environment.filters["data_uri"] = str
    return environment
