"""Drawbar in encrypted rooms of a real homeserver, beside two clients of other make."""

from __future__ import annotations

from bot.answers.answer import Answer, Row
from bot.messages import Delivered, Letter, Message
from tests.networks.matrix.conftest import Served
from tests.networks.matrix.people import Mautrix, Nio, say

WEIGHED = Answer(
    headline="Inside every rating given.",
    rows=(Row("Gross", "21,340 lb"), Row("Drive", "7,060 lb", "60 lb over")),
)


async def test_two_clients_of_other_make_and_drawbar_read_each_other_in_an_encrypted_room(
    drawbar: Served, wren: Nio, theo: Mautrix
) -> None:
    room = await wren.create_room(drawbar.user, theo.user)
    await theo.join(room)
    await wren.screen.wait_for(lambda seen: seen.content.get("membership") == "join", 3)
    first = await say(wren, room, "steer 4380 drive 7060")
    second = await say(theo, room, "trailer 9900")
    events = await drawbar.host.wait_for(2)
    assert [(each.id, each.text, each.private) for each in events if isinstance(each, Message)] == [
        (first, "steer 4380 drive 7060", False),
        (second, "trailer 9900", False),
    ]
    letter = Letter(chat=room, answer=WEIGHED, key="drawbar-1", reply_to=second)
    sent = await drawbar.matrix.send(letter)
    again = await drawbar.matrix.send(letter)
    assert isinstance(sent, Delivered)
    assert again == sent
    for person in (wren, theo):
        (shown,) = await person.screen.wait_for(
            lambda seen: seen.sender == drawbar.user and bool(seen.text)
        )
        assert shown.text.startswith("Inside every rating given.")
        assert shown.id == sent.reference
