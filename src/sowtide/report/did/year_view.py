"""The year's page as values: every wave of which something is noted, beside the plan."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import Any

from sowtide.climate.answers import EndedBy
from sowtide.garden.journal import PICKINGS, Did, Happening
from sowtide.report.kinds import Quantity, Unsaid
from sowtide.report.kit.judged import day_of
from sowtide.report.kit.setting import Setting, setting_of
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Status, Wave
from sowtide.values import value

_OVER = (Status.OVER, Status.LOST)


@value
class StageView:
    """A day as it went, or is forecast, and as it was planned; None where there is none."""

    on: date | None
    planned: date | None


@value
class NoteView:
    """What was noted of a wave in words."""

    on: date
    did: Did
    note: str


@value
class WaveYear:
    """A wave as it went beside the plan."""

    wave: str
    crop: str
    plants: int
    status: Status
    """Which, and how far it has come."""
    plant: StageView
    first_pick: StageView
    last_pick: StageView
    pull_out: StageView
    """Its days."""
    picked_kg: Quantity | None
    picked_pieces: Quantity | None
    """What was picked, in weight and counted; None where nothing was. [kg], [1]"""
    ended_by: EndedBy | None
    """What ended it; None while it stands."""
    sick: bool
    """Whether it was pulled as sick."""
    notes: tuple[NoteView, ...]
    """What was noted."""


@value
class SeasonView:
    """What ``did season`` says: every wave of which something is noted, in the file's order."""

    season: int
    waves: tuple[WaveYear, ...]
    setting: Unsaid[Setting]


_STAGES = ("plant", "first_pick", "last_pick", "pull_out")
YEAR_COLUMNS = (
    *("wave", "crop", "plants", "status"),
    *(f"{stage}{end}" for stage in _STAGES for end in ("", "_planned")),
    *("picked_kg", "picked_pieces", "ended_by", "sick", "notes"),
)


def view(season: Season, plan: Season) -> SeasonView:
    """Return the year's page."""
    planned = {wave.id: wave for wave in plan.waves}
    waves = []
    for wave in season.waves:
        account = None if season.accounts is None else season.accounts.of(wave.id)
        if account is not None:
            waves.append(_wave_year(wave, planned.get(wave.id), account.happenings))
    number = season.garden.year.season
    return SeasonView(number, tuple(waves), setting_of(season.garden, season.today))


def _wave_year(wave: Wave, plan: Wave | None, noted: Iterable[Happening]) -> WaveYear:
    skipped, happenings = wave.status is Status.SKIPPED, tuple(noted)
    now, then = _days(wave), (None, None, None, None) if plan is None else _days(plan)
    stages = [
        StageView(None if skipped else on, planned) for on, planned in zip(now, then, strict=True)
    ]
    amounts = [each.amount for each in happenings if each.did in PICKINGS and each.amount]
    weights = [each.kilograms for each in amounts if each.kilograms is not None]
    pieces = [float(each.number) for each in amounts if each.kilograms is None]
    return WaveYear(
        wave=wave.id,
        crop=wave.crop.title,
        plants=wave.plants,
        status=wave.status,
        plant=stages[0],
        first_pick=stages[1],
        last_pick=stages[2],
        pull_out=stages[3],
        picked_kg=sum(weights) if weights else None,
        picked_pieces=sum(pieces) if pieces else None,
        ended_by=wave.judged.ended_by if wave.status in _OVER else None,
        sick=any(each.sick for each in happenings),
        notes=tuple(NoteView(e.on, e.did, e.note) for e in happenings if e.note is not None),
    )


def _days(wave: Wave) -> tuple[date | None, ...]:
    stages = wave.stages
    first = None if stages.first_pick is None else stages.first_pick[0].day
    return stages.plant.day, first, day_of(stages.last_pick), stages.pull_out.day


def year_rows(of: SeasonView) -> Iterator[Mapping[str, Any]]:
    """Yield a row for each wave; notes are parted by semicolons."""
    from sowtide.report.formats.json import encoded

    for wave in of.waves:
        row: dict[str, Any] = dict(encoded(wave))
        for stage in _STAGES:
            row |= {stage: row[stage]["on"], f"{stage}_planned": row[stage]["planned"]}
        row["notes"] = "; ".join(each.note for each in wave.notes)
        yield row
