"""How every test runs: drawn examples are the same on each run, and none is timed."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=True, database=None, max_examples=60)
settings.load_profile("steady")
