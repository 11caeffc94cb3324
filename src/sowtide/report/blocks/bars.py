"""Shares as bars."""

from __future__ import annotations

from sowtide.values import value


@value
class ShareBar:
    """A share, with what it is of and how it is said. [0–1]"""

    label: str
    said: str
    share: float


@value
class ShareBars:
    """Shares one below the other."""

    bars: tuple[ShareBar, ...]
