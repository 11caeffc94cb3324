"""Plan sowings in waves between two frosts.

What the commands answer, a program may ask as well, with nothing printed and no exit: see
`sowtide.library`, whose functions are handed out here. Nothing is loaded before it is asked for.
"""

from __future__ import annotations

TYPE_CHECKING = False
"""True to a checker of types: the module `typing` takes longer than a finger to the interrupt key,
and nothing can be said of an interrupt before `sowtide.__main__` runs."""

if TYPE_CHECKING:
    from typing import Any

    from sowtide.library import (
        NotReadable,
        calendar,
        fits,
        frost,
        load,
        load_demo,
        needs,
        openings,
        plan,
        season_from,
        supply,
        tonight,
        week,
        why,
        written,
    )

__version__ = "0.1.0"

__all__ = [
    "NotReadable",
    "calendar",
    "fits",
    "frost",
    "load",
    "load_demo",
    "needs",
    "openings",
    "plan",
    "season_from",
    "supply",
    "tonight",
    "week",
    "why",
    "written",
]


def __getattr__(name: str) -> Any:
    """Hand out what the library has, and load it only then."""
    if name in __all__:
        from importlib import import_module

        return getattr(import_module("sowtide.library"), name)
    raise AttributeError(f"module 'sowtide' has no attribute {name!r}")
