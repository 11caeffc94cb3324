"""The season calendar as one table: what stands where, what is in trays, what is free."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from sowtide.report.calendar.view import CalendarView, SeasonWave

COLUMNS = (
    "part",
    "bed",
    "wave",
    "crop",
    "plants",
    "from",
    "until",
    "first_pick",
    "last_pick",
    "ended_by",
    "odds",
    "area_m2",
)
"""`until` is the day on which it is pulled out, planted out, or planted over."""


def rows(of: CalendarView) -> Iterator[dict[str, Any]]:
    """Yield a row for each wave in each bed, for each one in trays, and for each free space."""
    from sowtide.report.formats.json import encoded

    for wave in of.waves:
        for stand in wave.beds:
            yield {
                **_named("bed", wave),
                "bed": stand.bed,
                "plants": stand.plants,
                "from": wave.plant,
                "until": wave.pull_out,
                "first_pick": wave.first_pick,
                "last_pick": wave.last_pick,
                "ended_by": wave.ended_by,
                "odds": encoded(wave)["odds"],
            }
    for wave in of.waves:
        if wave.from_trays:
            yield _named("trays", wave) | {"from": wave.sow, "until": wave.plant}
    for space in of.free:
        yield {
            "part": "free",
            "bed": space.bed,
            "from": space.from_,
            "until": space.until,
            "area_m2": encoded(space)["area_m2"],
        }


def _named(part: str, wave: SeasonWave) -> dict[str, Any]:
    return {"part": part, "wave": wave.id, "crop": wave.crop}
