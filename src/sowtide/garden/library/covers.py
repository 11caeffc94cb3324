"""Cover crops: what closes a space when nothing that is picked would still be safe."""

from __future__ import annotations

from functools import cache

from sowtide.days import DayRange
from sowtide.garden.library import builtin as library
from sowtide.garden.library.kinds import days, whole
from sowtide.values import value


@value
class CoverCrop:
    """A crop that is sown to cover the ground and to be dug in."""

    name: str
    """Its canonical name."""
    family: str
    """As growers say it."""
    sow_after_frost: int
    """Days after the average last frost from which it may be sown; negative: before it. [days]"""
    sow_before_frost: int
    """Days before the average first frost by which it must be sown; negative: after it. [days]"""
    days_to_dig_in: DayRange
    """From sowing until it is worth digging in. [days]"""
    winter_kills: bool
    """Whether hard frosts end it, so that it covers the ground dead."""
    dig_in_when: str
    """In a grower's words."""
    rest_days: DayRange
    """From digging in to the next sowing. [days]"""


@cache
def cover_crops() -> tuple[CoverCrop, ...]:
    """Return the built-in cover crops, in order of name."""
    return tuple(_cover(name) for name in library.cover_names())


def _cover(name: str) -> CoverCrop:
    by_field = {row.field: row for row in library.rows(name)}
    return CoverCrop(
        name=name,
        family=by_field["family"].value,
        sow_after_frost=whole(by_field["sow_after_frost"]),
        sow_before_frost=whole(by_field["sow_before_frost"]),
        days_to_dig_in=days(by_field["days_to_dig_in"]),
        winter_kills=by_field["winter"].value == "killed",
        dig_in_when=by_field["dig_in_when"].value,
        rest_days=days(by_field["rest_days"]),
    )
