"""An answer as the content of a Matrix message.

This file decides the two forms that every message has: plain text, and the HTML that most
clients show. Figures stand in a preformatted block, because the clients on phones leave tables
out of a message's HTML, and columns in a fixed width read the same everywhere. It does not
know rooms, keys or a server. Form: Client-Server API v1.11, 11.3.1 'm.room.message msgtypes'.
"""

from __future__ import annotations

import json
from html import escape
from typing import Any

from bot.answers.answer import Answer
from bot.answers.narrow import figures
from bot.answers.plain import as_text
from bot.messages import Letter

HTML = "org.matrix.custom.html"
KEPT = "✓"
"""The reaction that says 'kept' on a message that needs no more."""
LARGEST = 44_000
"""Bytes of content. An event may have 65,536, and encrypting makes four bytes of three."""


def content_of(answer: Answer) -> dict[str, Any]:
    """An answer as `m.text`, with HTML where both forms fit into an event."""
    plain = as_text(answer)
    content = {"msgtype": "m.text", "body": plain, "format": HTML, "formatted_body": html(answer)}
    if _size(content) <= LARGEST:
        return content
    while _size({"body": plain}) > LARGEST:
        plain = plain[: len(plain) * 3 // 4] + " …"
    return {"msgtype": "m.text", "body": plain}


def html(answer: Answer) -> str:
    """Headline strong, rows in columns, notes a paragraph each, choices numbered."""
    parts = [f"<p><strong>{_lines(answer.headline)}</strong></p>"]
    if answer.rows:
        columns = "\n".join(figures(answer.rows))
        parts.append(f"<pre><code>{escape(columns)}\n</code></pre>")
    parts += [f"<p>{_lines(note)}</p>" for note in answer.notes]
    if answer.choices:
        items = "".join(f"<li>{_lines(choice)}</li>" for choice in answer.choices)
        parts.append(f"<ol>{items}</ol>")
    return "".join(parts)


def relation(letter: Letter, private: bool) -> dict[str, Any]:
    """What an answer says of the message that it answers: nothing where two are alone."""
    reply = {} if private or not letter.reply_to else {"event_id": letter.reply_to}
    if letter.thread:
        # A client that knows no threads shows it as a reply instead: 11.24.1 'Threading'.
        return {
            "rel_type": "m.thread",
            "event_id": letter.thread,
            "is_falling_back": not reply,
            "m.in_reply_to": reply or {"event_id": letter.reply_to or letter.thread},
        }
    return {"m.in_reply_to": reply} if reply else {}


def reaction(to: str) -> dict[str, Any]:
    """The content of an `m.reaction` that says 'kept'."""
    return {"m.relates_to": {"rel_type": "m.annotation", "event_id": to, "key": KEPT}}


def _lines(text: str) -> str:
    return escape(text).replace("\n", "<br>")


def _size(content: dict[str, Any]) -> int:
    return len(json.dumps(content))
