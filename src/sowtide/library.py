"""sowtide as a library: load a garden, date its season, and ask what the commands answer.

Every answer is a view: frozen values that say all that a command says, as its fields are named in
its JSON. Nothing is printed, nothing exits, and the day is always handed in.

>>> import sowtide
>>> from datetime import date
>>> season = sowtide.season_from(sowtide.load_demo(), date(2026, 7, 16))
>>> sowtide.week(season).first.week
'2026-W29'
>>> [wave.id for wave in sowtide.plan(season).waves][:2]
['summer-squash-1', 'summer-squash-2']
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sowtide.days import week_start
from sowtide.diagnostics import Problem, has_errors
from sowtide.season import Loaded, load_demo, place_of, season_of
from sowtide.season import load as _load

if TYPE_CHECKING:  # each is loaded where it is asked for
    from sowtide.garden.model import Garden
    from sowtide.report.calendar import CalendarView
    from sowtide.report.fits import FitsView
    from sowtide.report.frost import FrostView
    from sowtide.report.needs import NeedsView
    from sowtide.report.openings import OpeningsView
    from sowtide.report.plan import PlanView
    from sowtide.report.supply import SupplyView
    from sowtide.report.tonight import TonightView
    from sowtide.report.week import WeekView
    from sowtide.report.why import WhyView
    from sowtide.schedule.learning import OwnYields
    from sowtide.schedule.season import Season

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


class NotReadable(Exception):  # noqa: N818 — it says what the file is
    """The garden's file cannot be taken as it is written.

    Parameters
    ----------
    problems
        What is wrong with it, all at once, each with its place.
    """

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("; ".join(each.message for each in self.problems))


def load(path: str | Path) -> Loaded:
    """Read a garden's file, its record and its journal; mistakes are in its `problems`.

    Raises
    ------
    sowtide.diagnostics.Unreadable
        If the file or its journal cannot be opened.
    """
    return _load(Path(path))


def season_from(loaded: Loaded, today: date) -> Season:
    """Return the season of a garden: every wave dated, placed and judged.

    Parameters
    ----------
    loaded
        What was read.
    today
        The day it is looked at from; it moves no date by itself.

    Raises
    ------
    NotReadable
        If there are mistakes in the file.
    """
    return season_of(_readable(loaded), today, loaded.record, loaded.journal)


def _readable(loaded: Loaded) -> Garden:
    if loaded.garden is None:
        raise NotReadable(each for each in loaded.problems if has_errors([each]))
    return loaded.garden


def plan(season: Season, *, by: str = "series") -> PlanView:
    """Return every wave with its beds, its dates and how sure it is.

    >>> from datetime import date
    >>> season = season_from(load_demo(), date(2026, 7, 16))
    >>> first = plan(season).waves[0]
    >>> first.id, first.crop, first.plants, first.beds[0].bed
    ('summer-squash-1', 'summer squash', 4, 'Hoops')
    """
    from sowtide.report.plan import PlanBy, view

    return view(season, by=PlanBy(by))


def week(
    season: Season, of: date | None = None, *, weeks: int = 1, high: float | None = None
) -> WeekView:
    """Return the work of some weeks.

    Parameters
    ----------
    season
        The season.
    of
        A day of the first of them; that from which the season is looked at if left out.
    weeks
        How many. [1]
    high
        The highest temperature expected in the first of them. [°C]
    """
    from sowtide.report.week import view
    from sowtide.schedule.planning import with_high

    first = week_start(of or season.today, starts=season.garden.site.week_starts)
    if high is not None:
        season = with_high(season, first, high)
    return view(season.sheets(first, weeks=weeks), season, high=high)


def calendar(season: Season, loaded: Loaded | None = None) -> CalendarView:
    """Return the season at a glance: beds and waves, frosts, hot weeks, the last days to plant.

    Parameters
    ----------
    season
        The season.
    loaded
        What it was made from: then what its journal tells of yields counts for what is wanted.
    """
    from sowtide.report.calendar import view

    return view(season, None if loaded is None else _own_yields(loaded, season))


def why(season: Season, wave: str) -> WhyView:
    """Return how each date of a wave was counted.

    Raises
    ------
    KeyError
        If there is no wave of that name.
    """
    from sowtide.report.why import view

    for each in season.waves:
        if each.id == wave:
            return view(each, season)
    raise KeyError(wave)


def frost(loaded: Loaded, today: date) -> FrostView:
    """Return the frost odds of a place and how long its season is.

    Raises
    ------
    NotReadable
        If there are mistakes in the file.
    """
    from sowtide.report.frost import view

    return view(place_of(_readable(loaded), today, loaded.record, loaded.journal))


def tonight(
    loaded: Loaded, today: date, low: float, *, sky: str = "not said", cover: float | None = None
) -> TonightView:
    """Return what a night's forecast means for what stands where: what to pick, cover and water.

    Parameters
    ----------
    loaded
        What was read.
    today
        The evening.
    low
        The lowest temperature forecast. [°C]
    sky
        ``clear`` (and calm), ``cloudy`` (or windy), or ``not said``.
    cover
        What the grower's sheets keep off; what is usual if left out. [°C]

    Raises
    ------
    NotReadable
        If there are mistakes in the file.
    ValueError
        If the sky is none of these.

    Examples
    --------
    >>> from datetime import date
    >>> evening = tonight(load_demo(), date(2026, 9, 18), 2.0, sky="clear")
    >>> [wave.wave for bed in evening.beds for wave in bed.waves if wave.action.value == "cover"]
    ['tomato-1']
    """
    from sowtide.report.tonight import view
    from sowtide.schedule.tonight import HOLDS, Forecast, Sky

    forecast = Forecast(low, Sky(sky), HOLDS if cover is None else cover)
    return view(season_from(loaded, today), forecast, loaded.record)


def supply(loaded: Loaded, today: date) -> SupplyView:
    """Return what is picked week by week, against what is wanted: gaps and gluts.

    Raises
    ------
    NotReadable
        If there are mistakes in the file.
    """
    from sowtide.report.supply import view

    season = season_from(loaded, today)
    return view(season, _own_yields(loaded, season))


def _own_yields(loaded: Loaded, season: Season) -> OwnYields | None:
    if loaded.journal is None:
        return None
    from sowtide.schedule.learning import OwnYields

    return OwnYields(season.garden, loaded.journal, season.today)


def needs(season: Season, until: date | None = None) -> NeedsView:
    """Return seed, trays, seedlings and materials still to be got, and by when.

    Parameters
    ----------
    season
        The season.
    until
        The last sowing day that is looked at; all of them if left out.
    """
    from sowtide.report.needs import view

    return view(season, until)


def openings(season: Season, *, weeks: int = 8) -> OpeningsView:
    """Return what space comes free in the next weeks, what fits there, and what to start for it.

    Parameters
    ----------
    season
        The season.
    weeks
        How many. [1]
    """
    from sowtide.report.openings import view
    from sowtide.schedule.openings import OpeningsQuestion, coming_free

    asked = OpeningsQuestion(season.garden.beds, None, weeks)
    return view(coming_free(season, asked), season)


def fits(
    season: Season,
    crop: str,
    *,
    plants: int | None = None,
    bed: str | None = None,
    on: date | None = None,
    seedlings: bool = False,
) -> FitsView:
    """Return whether one more wave of a crop fits before frost, where, and if not, what would.

    Parameters
    ----------
    season
        The season.
    crop
        Its name, as in the file or built in; a crop with varieties is answered for each.
    plants
        How many; as many as its last wave or as fit if left out. [1]
    bed
        The bed asked about, or None for all.
    on
        The planting day asked about; the first possible one if left out.
    seedlings
        Whether seedlings are there, to be planted out at once.

    Raises
    ------
    KeyError
        If there is no crop or no bed of that name.

    Examples
    --------
    >>> from datetime import date
    >>> season = season_from(load_demo(), date(2026, 7, 16))
    >>> fits(season, "radish", plants=60).best.verdict.value
    'safe'
    """
    from sowtide.garden.varieties import crops_called
    from sowtide.report.fits import view
    from sowtide.schedule.fits import Question, answer, best_first

    called = crops_called(crop, season.garden)
    if not called:
        raise KeyError(crop)
    beds = {each.name: each for each in season.garden.beds}
    where = None if bed is None else beds[bed]
    found = [
        answer(season, Question(crop=one, plants=plants, bed=where, on=on, seedlings=seedlings))
        for one in called
    ]
    return view(best_first(found, asked=crop), season, asked=crop)


def written(
    view: Any,
    form: str = "json",
    *,
    paper: str = "a4",
    todos: bool = False,
    revision: int | None = None,
) -> str:
    """Return a view in a form, as the command that says it writes it.

    Parameters
    ----------
    view
        An answer.
    form
        ``json``, or another that its command offers: ``csv``, ``markdown``, ``html``, ``ics``.
    paper
        What ``html`` is to be printed on: ``a4`` or ``letter``.
    todos
        Whether ``ics`` has tasks in place of events.
    revision
        Which revision of an ``ics`` it is; counted from the day it is seen on if left out.

    Raises
    ------
    ValueError
        If it cannot be had in that form or on that paper.

    Examples
    --------
    >>> from datetime import date
    >>> season = season_from(load_demo(), date(2026, 7, 16))
    >>> written(plan(season), "csv").partition(",")[0]
    'id'
    """
    from sowtide.report import REPORTS
    from sowtide.report.choices import FormChoices, Paper
    from sowtide.report.formats.forms import FORMS, offered

    report = next((each for each in REPORTS.values() if each.of is type(view)), None)
    if report is None or form not in FORMS or form not in offered(report):
        raise ValueError(f"{type(view).__name__} cannot be had as {form}")
    return FORMS[form].write(report, view, FormChoices(Paper(paper), todos, revision))
