"""Who writes in these tests, as Telegram tells of them."""

from __future__ import annotations

from typing import Any

WREN: dict[str, Any] = {"id": 11, "is_bot": False, "first_name": "Wren", "last_name": "Ash"}
THEO: dict[str, Any] = {"id": 12, "is_bot": False, "first_name": "Theo"}
OTHER_BOT: dict[str, Any] = {
    "id": 13, "is_bot": True, "first_name": "Other", "username": "other_bot"
}  # fmt: skip
HIVES = -1001
