"""What the journal teaches of a crop's days to harvest, in words."""

from __future__ import annotations

from collections.abc import Iterable

from sowtide.garden.crop import Crop
from sowtide.report.blocks import Line
from sowtide.report.formats.terminal.cells import wrap
from sowtide.units import show_number


def learned_text(crops: Iterable[Crop], *, width: int) -> tuple[Line, ...]:
    """Return a paragraph for each crop of which enough pickings are noted."""
    lines: list[Line] = []
    for crop in crops:
        found = crop.learned
        if found is not None:
            lines += wrap(
                f"Learned from {found.pickings} pickings of yours: {crop.title} takes "
                f"{show_number(found.factor, 2)} times its days here, and is planned with "
                f"{crop.days_to_harvest} days to harvest in place of {found.packet}.",
                width,
            )
    return tuple(lines)
