"""A report: what a command says as a page of blocks and as rows, whatever form it is printed in."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import TYPE_CHECKING, Any

from sowtide.report.blocks import Block
from sowtide.values import value

if TYPE_CHECKING:  # only where a calendar file is asked for
    from sowtide.report.events import SeasonEvents


@value
class Rows:
    """A view as one table."""

    columns: tuple[str, ...]
    """The head."""
    of: Callable[[Any], Iterable[Mapping[str, Any]]]
    """What makes rows of a view, a mapping each."""


@value
class Report:
    """How the view of a command is said."""

    of: type[Any]
    """The class of the view."""
    page: Callable[[Any], Iterable[Block]]
    """What makes blocks of a view."""
    rows: Rows | None = None
    """The view as one table; None where it is none."""
    events: Callable[[Any], SeasonEvents] | None = None
    """What makes events of a view; None where it has no days to put into a calendar."""
    saved: Callable[[Any], str] | None = None
    """What makes the text that is written into a file; None where that is the page."""
