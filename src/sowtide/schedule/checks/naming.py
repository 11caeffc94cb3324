"""How messages name several waves of one entry."""

from __future__ import annotations

from collections.abc import Sequence

from sowtide.schedule.beds import Placed


def named(waves: Sequence[Placed]) -> str:
    """Name waves of one entry by the first and the last of them."""
    first, last = waves[0].planting.id, waves[-1].planting.id
    if len(waves) == 1:
        return first
    return f"{first} {'to' if len(waves) > 2 else 'and'} {last}"
