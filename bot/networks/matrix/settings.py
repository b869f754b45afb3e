"""What Drawbar is told of its Matrix account.

This file decides which settings there are and which of them can't be right together; it knows
neither where they come from nor what is done with them.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from pathlib import Path

from bot.messages import NetworkRefused

USER = re.compile(r"@[^:\s]+:\S+")


@dataclass(frozen=True, slots=True, kw_only=True)
class MatrixSettings:
    """An account on a homeserver, and where its keys are kept.

    `homeserver` is the address that clients use (`https://chat.example`), `user` the full id
    (`@drawbar:chat.example`). Either `password`, or `access_token` and the `device_id` that it
    belongs to. `folder` is Drawbar's alone: the device's keys and its place in the rooms' talk.
    `owners` are those whose invitations are followed before anybody is known. Raises
    NetworkRefused, with a sentence that names the setting.
    """

    homeserver: str
    user: str
    folder: Path
    password: str | None = field(default=None, repr=False)
    access_token: str | None = field(default=None, repr=False)
    device_id: str | None = None
    owners: frozenset[str] = frozenset()
    device_name: str = "Drawbar"

    def __post_init__(self) -> None:
        if not self.homeserver.startswith(("https://", "http://")):
            raise NetworkRefused(
                f"matrix homeserver is '{self.homeserver}', wanted is the address that clients "
                "use, like https://chat.example."
            )
        if not USER.fullmatch(self.user):
            raise NetworkRefused(
                f"matrix user is '{self.user}', wanted is the full id, like @drawbar:chat.example."
            )
        if wrong := sorted(each for each in self.owners if not USER.fullmatch(each)):
            raise NetworkRefused(
                f"matrix owners has '{wrong[0]}', wanted are full ids, like @wren:chat.example."
            )
        if bool(self.access_token) != bool(self.device_id):
            raise NetworkRefused(
                "matrix access_token and device_id belong together: set both, or set password."
            )
        if not (self.password or self.access_token):
            raise NetworkRefused(
                f"matrix password is missing: set it for {self.user}, or set access_token and "
                "device_id."
            )
