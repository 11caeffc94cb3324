"""From a garden and its year to a season: every entry dated, placed, and looked at for problems."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date, timedelta
from itertools import repeat
from typing import TYPE_CHECKING

from sowtide.days import DateSpan, Half
from sowtide.diagnostics import Problem, in_file_order
from sowtide.garden.model import Garden
from sowtide.progress import Progress, unwatched
from sowtide.schedule.beds import Grown, Placed, place_all
from sowtide.schedule.season import Season
from sowtide.schedule.stays import Room, family_key
from sowtide.schedule.waves import Conditions, Status, Wave, series_of
from sowtide.schedule.work import WorkingDays, lookout_of

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.care import CarePlan, HeatForecast
    from sowtide.schedule.happened import Accounts


def planned(
    garden: Garden,
    conditions: Conditions,
    today: date,
    accounts: Accounts | None = None,
    *,
    checked: bool = True,
    progress: Progress = unwatched,
) -> Season:
    """Date and place everything a garden asks for; `today` moves no date, what happened does.

    Parameters
    ----------
    garden
        What the grower wrote.
    conditions
        The place in its growing year.
    today
        The day it is looked at from.
    accounts
        What happened until then; None without a journal.
    checked
        Whether its problems are looked for; a season that is not has none.
    progress
        Told how far it has come.
    """
    series = tuple(series_of(entry, conditions) for entry in garden.entries)
    room, placed = place_all(series, garden.beds, conditions, accounts, progress=progress)
    if _is_barred_late(room, placed):
        room, placed = place_all(series, garden.beds, conditions, accounts, sick=room.sick)
    waves = tuple(wave for each in placed for wave in _waves(each, today, accounts))
    season = Season(
        garden=garden,
        conditions=conditions,
        room=room,
        today=today,
        waves=waves,
        gaps=tuple(gap for each in placed for gap in each.gaps),
        problems=(),
        lookouts=tuple(lookout_of(watch, conditions.climate) for watch in garden.watches),
        accounts=accounts,
        care=_care(garden, waves, conditions, today, accounts),
    )
    return replace(season, problems=_problems(season, placed)) if checked else season


def _problems(season: Season, placed: tuple[Grown, ...]) -> tuple[Problem, ...]:
    """Return what is wrong with a plan and what the journal tells against it, in file order."""
    from sowtide.schedule.checks import Plan, problems_of

    problems = problems_of(
        Plan(
            garden=season.garden,
            conditions=season.conditions,
            today=season.today,
            entries=tuple(_grown(placed)),
            waves=season.waves,
            lookouts=season.lookouts,
            care=season.care,
        )
    )
    accounts = season.accounts
    if accounts is None:
        return problems
    of_journal = (*_of_journal(placed, accounts), *_barred(placed, season.room, accounts))
    return in_file_order((*problems, *of_journal))


def _waves(of: Grown, today: date, accounts: Accounts | None) -> Iterator[Wave]:
    following = (*of.waves[1:], None)
    return map(_wave, of.waves, following, repeat(today), repeat(accounts))


def _grown(placed: Iterable[Grown]) -> Iterator[Grown]:
    """Yield each series without the waves that were skipped, if any of it is left to look at."""
    for each in placed:
        live = tuple(wave for wave in each.waves if not _is_skipped(wave))
        if live or not each.waves:
            yield replace(each, waves=live)


def _care(
    garden: Garden,
    waves: tuple[Wave, ...],
    conditions: Conditions,
    today: date,
    accounts: Accounts | None,
    forecast: HeatForecast | None = None,
) -> CarePlan | None:
    """Return the care of the waves that stand or are to stand; None where none is asked for."""
    if not garden.care:
        return None
    from sowtide.schedule.care import care_plan

    working = WorkingDays(garden)
    if accounts is not None:
        from sowtide.schedule.work import StillToDo

        waves = StillToDo(accounts, conditions).started(waves)
    last, first = (conditions.climate.frosts.day(half, at=0.0, share=0.5) for half in Half)
    return care_plan(
        garden,
        waves,
        today,
        accounts,
        works=working.__contains__,
        usual_high=conditions.climate.weather.usual_high,
        forecast=forecast,
        frosts=(None if last is None else last.day, None if first is None else first.day),
    )


def with_high(season: Season, first: date, high: float) -> Season:
    """Return a season with its care as a week asks for it of which the grower says how hot it gets.

    Parameters
    ----------
    season
        The season.
    first
        First day of the week; in the week of today the heat is that of the days to come.
    high
        The highest temperature expected in it. [°C]
    """
    if season.care is None:
        return season
    from sowtide.schedule.care import HeatForecast

    last = first + timedelta(days=6)
    begins = season.today if first <= season.today <= last else first
    care = _care(
        season.garden,
        season.waves,
        season.conditions,
        season.today,
        season.accounts,
        HeatForecast(DateSpan(begins, last), high),
    )
    return replace(season, care=care)


def _is_skipped(placed: Placed) -> bool:
    """Say whether a wave takes no room: it was left out, or its seedlings are lost."""
    left_out = placed.account is not None and placed.account.skipped is not None
    return not placed.stands and (left_out or placed.gone is not None)


def _of_journal(placed: tuple[Grown, ...], accounts: Accounts) -> Iterator[Problem]:
    """Yield what the journal tells that the plan has no place for."""
    from sowtide.schedule.happened import crowded, not_asked_for

    for of_series in placed:
        noted = [each for each in of_series.waves if each.account is not None]
        for each in noted:
            assert each.account is not None  # only such were taken
            yield from crowded(each.account, each.planting.entry.raised, each.crowded)
        of_journal = [account for _, account in accounts.of_series(of_series.entry.name)]
        if of_journal:
            numbers = [each.planting.number for each in of_series.waves]
            waves = next(n for n in range(1, len(numbers) + 2) if n not in numbers) - 1
            yield from not_asked_for(of_journal, waves=waves)


def _is_barred_late(room: Room, placed: tuple[Grown, ...]) -> bool:
    """Say whether a wave that was pulled as sick had its turn among those still to be planted.

    It bars its beds only then: what went before it has to be placed again.
    """
    noted = {each.planting.id for of in placed for each in of.waves if each.planting.happened}
    return any(each.wave not in noted for each in room.sick.values())


def _barred(placed: tuple[Grown, ...], room: Room, accounts: Accounts) -> Iterator[Problem]:
    """Yield the beds from which plants were pulled as sick, if any of their family is to come."""
    if not room.sick:
        return
    from sowtide.schedule.happened import barred_beds

    to_come = [
        each.planting
        for of_series in placed
        for each in of_series.waves
        if not each.planting.happened and not _is_skipped(each)
    ]
    for (index, family), sick in room.sick.items():
        bed, account = room.beds[index], accounts.of(sick.wave)
        kin = [
            each
            for each in to_come
            if (each.planted.day >= sick.on or accounts.is_overdue(each.planted.day))
            and family_key(each.entry.crop.family) == family
            and bed in each.beds
        ]
        if kin and account is not None:
            waves = tuple(each.id for each in kin)
            yield barred_beds(account, bed.name, waves, family=kin[0].entry.crop.family)


def _wave(placed: Placed, following: Placed | None, today: date, accounts: Accounts | None) -> Wave:
    planting = placed.planting
    next_planting = None if following is None else following.planting.planted.day
    account = placed.account
    done, status = None, _planned_status(placed, today, accounts)
    if account is not None:
        from sowtide.schedule.happened import done_of, status_of

        done = done_of(account, placed.gone)
        status = status_of(account, placed.gone, planting.entry.raised) or status
    return Wave(
        id=planting.id,
        entry=planting.entry,
        number=planting.number,
        judged=placed.judged,
        stands=placed.stands,
        bed_free=placed.bed_free,
        status=status,
        next_planting=next_planting,
        blocked=placed.blocked,
        overlap=placed.overlap,
        done=done,
        planned=placed.planned,
    )


def _planned_status(placed: Placed, today: date, accounts: Accounts | None) -> Status:
    planted = placed.planting.planted.day
    if not placed.stands:
        return Status.NO_ROOM
    if planted >= today or (accounts is not None and accounts.is_overdue(planted)):
        return Status.PLANNED
    return Status.PAST
