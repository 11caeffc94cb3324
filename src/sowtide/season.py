"""From a file on disk to a season: the files opened, the climate chosen, and all of it planned."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from os.path import realpath
from pathlib import Path
from typing import TYPE_CHECKING

from sowtide.climate.choose import climate_of
from sowtide.climate.questions import Climate
from sowtide.diagnostics import Problem, Severity, Unreadable, in_file_order
from sowtide.garden.model import Garden
from sowtide.garden.read import Reading, read_file
from sowtide.progress import Progress, unwatched
from sowtide.schedule.planning import planned
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Conditions
from sowtide.values import value

if TYPE_CHECKING:  # most gardens have no record, and many no journal
    from sowtide.climate.frost_record import RecordYears
    from sowtide.garden.journal import Journal

DEMO_TODAY = date(2026, 7, 16)
"""The day the packaged demo garden is looked at from."""

_DEMO = Path(__file__).parent / "demo" / "garden.yaml"
DEMO_LABEL = "demo garden"


@value
class Place:
    """A garden and the climate it lies in, with nothing planted."""

    garden: Garden
    """What the grower wrote."""
    climate: Climate
    """What the place does."""


@value
class Loaded:
    """A garden with what its file names."""

    garden: Garden | None
    """The garden, or None where any of the problems is an error."""
    record: RecordYears | None
    """The place's daily temperatures with the years to use, where the site names a record."""
    problems: tuple[Problem, ...]
    """Everything found, those of the garden's file first."""
    journal: Journal | None = None
    """What happened; None where nothing is noted yet."""


def load(path: Path) -> Loaded:
    """Read a garden's file, the record that it names, and its journal.

    Raises
    ------
    Unreadable
        If the garden's file or its journal cannot be opened.
    """
    loaded = with_record(read_file(path), path.parent)
    journal = journal_path(path, loaded.garden)
    return _with_journal(loaded, journal) if journal.exists() else loaded


def journal_path(path: Path, garden: Garden | None) -> Path:
    """Return where the journal of a garden's file is: beside it, as it says or named after it."""
    if garden is not None and garden.journal is not None:
        return path.with_name(garden.journal)
    return path.with_name("journal.yaml" if path.stem == "garden" else f"{path.stem}-journal.yaml")


def _with_journal(loaded: Loaded, path: Path) -> Loaded:
    from sowtide.garden.journal import read_journal
    from sowtide.schedule.happened import contradictions, is_of

    read, garden = read_journal(path), loaded.garden
    if garden is None:
        return Loaded(None, loaded.record, (*loaded.problems, *read.problems))
    journal = read.journal
    happenings = read.understood if journal is None else journal.happenings
    wrong = contradictions(garden, (each for each in happenings if is_of(each, garden.year)))
    problems = (*loaded.problems, *in_file_order((*read.problems, *wrong)))
    if wrong or journal is None:
        garden = None  # what is half understood is not planned with
    return Loaded(garden, loaded.record, problems, journal=journal)


def load_demo() -> Loaded:
    """Read the packaged demo garden."""
    return with_record(read_file(_DEMO, DEMO_LABEL), _DEMO.parent)


def with_record(reading: Reading, folder: Path) -> Loaded:
    """Read the record of a garden; its name is looked up from the folder of the garden's file."""
    garden = reading.garden
    if garden is None or garden.site.record is None:
        return Loaded(garden, None, reading.problems)
    from sowtide.climate.frost_record import RecordYears
    from sowtide.climate.record import read_record

    named = garden.site.record
    if not Path(realpath(folder / named.path)).is_relative_to(realpath(folder)):
        message = f"{named.path} is a link that leads out of the folder of this file"
        hint = "put the file itself beside this one"
        problem = Problem(
            severity=Severity.ERROR, code="record", message=message, hint=hint, span=named.span
        )
        return Loaded(None, None, (*reading.problems, problem))
    try:
        found = read_record(
            folder / named.path,
            unit=named.unit,
            otherwise=garden.site.units.degree,
            label=named.path,
        )
    except Unreadable as error:
        hint = "write its name as seen from the folder of this file"
        if (folder / named.path).is_dir():
            hint = "write the name of the file in it too, as in folder/station.csv"
        problem = Problem(
            severity=Severity.ERROR, code="record", message=str(error), hint=hint, span=named.span
        )
        return Loaded(None, None, (*reading.problems, problem))
    problems = (*reading.problems, *found.problems)
    if found.record is None:
        return Loaded(None, None, problems)
    year = garden.year
    years = RecordYears(found.record, south=year.south, wanted=named.years, before=year)
    untold = years.untold(named.span)
    if untold is not None:
        return Loaded(None, None, (*problems, untold))
    return Loaded(garden, years, problems)


def demo_text() -> str:
    """Return the packaged demo garden's file as it stands."""
    return _DEMO.read_text(encoding="utf-8")


def place_of(
    garden: Garden,
    today: date,
    record: RecordYears | None = None,
    journal: Journal | None = None,
) -> Place:
    """Return a garden with its climate alone, its crops as the journal teaches them."""
    climate = climate_of(garden.site, garden.year, record, today)
    if journal is not None and garden.learn:
        from sowtide.schedule.learning import taught

        garden = taught(garden, journal, Conditions(climate, garden.site, garden.year), today)
    return Place(garden, climate)


def season_of(
    garden: Garden,
    today: date,
    record: RecordYears | None = None,
    journal: Journal | None = None,
    *,
    checked: bool = True,
    progress: Progress = unwatched,
    like: Season | None = None,
) -> Season:
    """Date and place everything a garden asks for; what happened in the place of what was planned.

    Parameters
    ----------
    garden
        What the grower wrote.
    today
        The day it is looked at from; it moves no date by itself.
    record
        The place's daily temperatures.
    journal
        What happened; entries dated after today count for nothing yet.
    checked
        Whether problems of the plan are looked for; a season that is not has none.
    progress
        Told how far it has come.
    like
        Another season of the same record: where it is of this very garden too, what its crops
        were found to do there is not worked out again.
    """
    conditions = _conditions(garden, today, record, like)
    if journal is None:
        return planned(garden, conditions, today, checked=checked, progress=progress)
    from sowtide.schedule.happened import Accounts, happened_in, noted_before, still_to_come

    if garden.learn:
        from sowtide.schedule.learning import taught

        of_packets, garden = garden, taught(garden, journal, conditions, today)
        if garden is not of_packets:
            conditions = Conditions(conditions.climate, garden.site, garden.year)
    happened = happened_in(journal, garden.year, today)
    earlier = noted_before(journal, garden.year)
    accounts = Accounts(happened.happenings, today, earlier, journal)
    season = planned(garden, conditions, today, accounts, checked=checked, progress=progress)
    if not checked:
        return season
    to_come = still_to_come(happened.to_come, today)
    return replace(season, problems=(*to_come, *season.problems)) if to_come else season


def _conditions(
    garden: Garden, today: date, record: RecordYears | None, like: Season | None
) -> Conditions:
    """Return the place in its growing year, as a season like it has it.

    With a record the days of the season itself are known up to today, and tell of this day alone.
    """
    if like is not None and like.garden is garden and (record is None or like.today == today):
        return like.conditions
    climate = climate_of(garden.site, garden.year, record, today)
    return Conditions(climate, garden.site, garden.year)
