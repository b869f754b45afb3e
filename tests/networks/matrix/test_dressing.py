"""Answers as Matrix shows them."""

from __future__ import annotations

import json
from html.parser import HTMLParser

from hypothesis import given
from hypothesis import strategies as st

from bot.answers.answer import Answer, Row
from bot.messages import Letter
from bot.networks.matrix.dressing import LARGEST, content_of, html, relation

ALLOWED = {"p", "strong", "pre", "code", "ol", "li", "br"}
"""Of the tags that Client-Server API v1.11, 'm.room.message msgtypes', lets clients keep."""


class Tags(HTMLParser):
    """The tags of a piece of HTML, and its text."""

    def __init__(self, source: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.text = ""
        self.feed(source)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        assert not attrs
        self.tags.append(tag)

    def handle_data(self, data: str) -> None:
        self.text += data


def test_figures_stand_in_columns_between_the_verdict_and_the_notes() -> None:
    answer = Answer(
        headline="Over by 60 lb on the drive axle.",
        rows=(Row("Gross", "21,340 lb"), Row("Drive", "7,060 lb", "60 lb over")),
        notes=("The door label governs.",),
        choices=("right", "wrong"),
    )
    assert html(answer) == (
        "<p><strong>Over by 60 lb on the drive axle.</strong></p>"
        "<pre><code>Gross  21,340 lb\nDrive   7,060 lb  60 lb over\n</code></pre>"
        "<p>The door label governs.</p>"
        "<ol><li>right</li><li>wrong</li></ol>"
    )
    assert content_of(answer)["body"].endswith("  1  right\n  2  wrong")


WORDS = st.text(max_size=40) | st.sampled_from(["<b>", "&lt;", "</code>", '"', "<img src=x>"])


@given(WORDS, st.lists(WORDS, max_size=3), st.lists(WORDS, max_size=3))
def test_no_name_or_place_becomes_a_tag(head: str, notes: list[str], labels: list[str]) -> None:
    answer = Answer(
        headline=head,
        rows=tuple(Row(label, "1") for label in labels),
        notes=tuple(notes),
        choices=tuple(labels),
    )
    assert set(Tags(html(answer)).tags) <= ALLOWED


@given(st.integers(1, 60), st.sampled_from(["x", "é", "😀"]))
def test_however_long_an_answer_is_it_fits_into_an_event(thousands: int, sign: str) -> None:
    content = content_of(Answer(headline=sign * thousands * 1000))
    assert len(json.dumps(content)) <= LARGEST + 200
    assert content["body"]


def test_an_answer_in_a_thread_stays_there_and_one_to_two_people_alone_replies_to_nothing() -> None:
    letter = Letter(chat="!a:b", answer=Answer(headline="-"), key="1", reply_to="$1")
    assert relation(letter, private=True) == {}
    assert relation(letter, private=False) == {"m.in_reply_to": {"event_id": "$1"}}
    threaded = Letter(chat="!a:b", answer=Answer(headline="-"), key="1", reply_to="$1", thread="$0")
    # The form is that of Client-Server API v1.11, 11.24.1.1 'Fallback for unthreaded clients'.
    assert relation(threaded, private=True) == {
        "rel_type": "m.thread",
        "event_id": "$0",
        "is_falling_back": True,
        "m.in_reply_to": {"event_id": "$1"},
    }
