"""How much random data the tests draw, by hypothesis profile.

`default` is for every day, `ci` draws the same examples each time, `fuzz` is `make fuzz`.
"""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

settings.register_profile("default", deadline=None, max_examples=60)
settings.register_profile("ci", deadline=None, max_examples=60, derandomize=True)
settings.register_profile(
    "fuzz", deadline=None, max_examples=2_000, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("ci" if os.environ.get("CI") else "default")
