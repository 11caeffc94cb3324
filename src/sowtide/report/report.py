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
    """A view as one table.

    Parameters
    ----------
    columns
        The head.
    of
        What makes rows of a view, a mapping each.
    """

    columns: tuple[str, ...]
    of: Callable[[Any], Iterable[Mapping[str, Any]]]


@value
class Report:
    """How the view of a command is said.

    Parameters
    ----------
    of
        The class of the view.
    page
        What makes blocks of a view.
    rows
        The view as one table; None where it is none.
    events
        What makes events of a view; None where it has no days to put into a calendar.
    saved
        What makes the text that is written into a file; None where that is the page.
    """

    of: type[Any]
    page: Callable[[Any], Iterable[Block]]
    rows: Rows | None = None
    events: Callable[[Any], SeasonEvents] | None = None
    saved: Callable[[Any], str] | None = None
