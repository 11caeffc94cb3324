"""What the grower wrote: reading the file, the values made of it, the built-in crops."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from sowtide.garden.read import Reading, read_file, read_garden

__all__ = ["Reading", "read_file", "read_garden"]


def __getattr__(name: str) -> Any:
    """Load the reader when it is first asked for; the values need none of its libraries."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from sowtide.garden import read

    return getattr(read, name)
