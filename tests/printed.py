"""What a report prints: its page in a terminal, as plain lines, or another form as one text."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from sowtide.garden.crop import Crop
from sowtide.garden.model import Garden
from sowtide.report.blocks import plain
from sowtide.report.choices import USUAL
from sowtide.report.formats.forms import FORMS
from sowtide.report.formats.terminal import rendered
from sowtide.report.report import Report
from sowtide.schedule.fits import Answer, BedAnswer, Weighing
from sowtide.schedule.openings import ComingFree
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Wave
from sowtide.schedule.work import WeekSheet
from sowtide.season import Place
from sowtide.units import Units


def page(report: Report, view: Any, width: int = 80) -> tuple[str, ...]:
    """Return the lines of a page, so many cells wide, without styles."""
    return plain(rendered(report.page(view), width))


def form(report: Report, view: Any, name: str) -> str:
    """Return a view in a form, such as ``json``."""
    return FORMS[name].write(report, view, USUAL)


def why_text(
    wave: Wave, season: Season, width: int = 80, *, years: bool = False
) -> tuple[str, ...]:
    """Return the page of ``why``."""
    from sowtide.report.why import REPORT, view

    return page(REPORT, view(wave, season, by_year=years), width)


def why_json(wave: Wave, season: Season) -> str:
    """Return ``why`` as JSON."""
    from sowtide.report.why import REPORT, view

    return form(REPORT, view(wave, season), "json")


def frost_text(place: Place | Season, width: int = 80) -> tuple[str, ...]:
    """Return the page of ``frost``."""
    from sowtide.report.frost import REPORT, view

    return page(REPORT, view(Place(place.garden, place.climate)), width)


def frost_json(place: Place) -> str:
    """Return ``frost`` as JSON."""
    from sowtide.report.frost import REPORT, view

    return form(REPORT, view(place), "json")


def week_text(
    sheet: WeekSheet, season: Season, width: int = 80, *, by: str = "bed"
) -> tuple[str, ...]:
    """Return the page of ``week``."""
    from sowtide.report.week import REPORT, WeekBy, view

    return page(REPORT, view((sheet,), season, by=WeekBy(by)), width)


def week_form(sheets: Sequence[WeekSheet], season: Season, name: str) -> str:
    """Return ``week`` in a form, such as ``json``."""
    from sowtide.report.week import REPORT, view

    return form(REPORT, view(sheets, season), name)


def plan_text(season: Season, width: int = 80, *, by: str = "series") -> tuple[str, ...]:
    """Return the page of ``plan``."""
    from sowtide.report.plan import REPORT, PlanBy, view

    return page(REPORT, view(season, by=PlanBy(by)), width)


def plan_form(season: Season, name: str) -> str:
    """Return ``plan`` in a form, such as ``json``."""
    from sowtide.report.plan import REPORT, view

    return form(REPORT, view(season), name)


def calendar_text(season: Season, width: int = 80) -> tuple[str, ...]:
    """Return the page of ``calendar``."""
    from sowtide.report.calendar import REPORT, view

    return page(REPORT, view(season), width)


def repack_text(before: Season, after: Season, width: int = 80) -> tuple[str, ...]:
    """Return the page of ``plan --repack``."""
    from sowtide.report.repack import REPORT, view

    return page(REPORT, view(before, after), width)


def fits_text(
    answers: Sequence[Answer], season: Season, width: int = 80, *, asked: str = ""
) -> tuple[str, ...]:
    """Return the page of ``fits CROP``."""
    from sowtide.report.fits import REPORT, view

    return page(REPORT, view(tuple(answers), season, asked=asked), width)


def fits_json(answers: Sequence[Answer], season: Season) -> str:
    """Return ``fits CROP`` as JSON."""
    from sowtide.report.fits import REPORT, view

    return form(REPORT, view(tuple(answers), season), "json")


def into_bed_text(answer: BedAnswer, season: Season, width: int = 80) -> tuple[str, ...]:
    """Return the page of ``fits --bed``."""
    from sowtide.report.into_bed import REPORT, view

    return page(REPORT, view(answer, season), width)


def into_bed_json(answer: BedAnswer, season: Season) -> str:
    """Return ``fits --bed`` as JSON."""
    from sowtide.report.into_bed import REPORT, view

    return form(REPORT, view(answer, season), "json")


def instead_of_text(found: Weighing, season: Season, width: int = 80) -> tuple[str, ...]:
    """Return the page of ``fits --instead-of``."""
    from sowtide.report.instead_of import REPORT, view

    return page(REPORT, view(found, season), width)


def instead_of_json(found: Weighing, season: Season) -> str:
    """Return ``fits --instead-of`` as JSON."""
    from sowtide.report.instead_of import REPORT, view

    return form(REPORT, view(found, season), "json")


def openings_text(found: ComingFree, season: Season, width: int = 80) -> tuple[str, ...]:
    """Return the page of ``fits`` without a crop."""
    from sowtide.report.openings import REPORT, view

    return page(REPORT, view(found, season), width)


def openings_form(found: ComingFree, season: Season, name: str) -> str:
    """Return ``fits`` without a crop in a form, such as ``json``."""
    from sowtide.report.openings import REPORT, view

    return form(REPORT, view(found, season), name)


def crops_text(garden: Garden | None, width: int = 80) -> tuple[str, ...]:
    """Return the page of ``crops``."""
    from sowtide.report.crops import REPORT, view

    return page(REPORT, view(garden), width)


def card_text(crops: Sequence[Crop], garden: Garden | None, width: int = 80) -> tuple[str, ...]:
    """Return the page of ``crops NAME``."""
    from sowtide.report.card import REPORT, view

    return page(REPORT, view(crops, garden), width)


def cover_text(name: str, units: Units | None, width: int = 80) -> tuple[str, ...]:
    """Return the page of ``crops NAME`` for a cover crop."""
    from sowtide.report.card import REPORT, cover_view

    return page(REPORT, cover_view(name, units), width)
