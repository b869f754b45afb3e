"""How much random data the tests draw, by hypothesis profile.

`default` is for every day, `ci` draws the same examples each time, `fuzz` is `make fuzz`, and
`mutation` draws few, the same for every mutant (`make mutate`).
"""

from __future__ import annotations

import os

from hypothesis import HealthCheck, settings

settings.register_profile("default", deadline=None, max_examples=60)
settings.register_profile("ci", deadline=None, max_examples=60, derandomize=True)
settings.register_profile(
    "fuzz", deadline=None, max_examples=2_000, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile("mutation", deadline=None, max_examples=10, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "default")
