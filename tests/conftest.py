"""How every test runs: drawn examples are the same on each run, and none is timed."""

from __future__ import annotations

import gc

from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=True, database=None, max_examples=50)
settings.load_profile("steady")

# Ten thousand tests and the seasons that they share stay to the end: looking through them again and
# again for what could go took a sixth of the run.
gc.set_threshold(200_000, 20, 50)


def pytest_collection_finish() -> None:
    """What was collected stays to the end."""
    gc.freeze()
