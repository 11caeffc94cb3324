"""``sowtide fits CROP``."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import click

from sowtide.cli import shell_names
from sowtide.cli.options import Count, Degrees, SeasonDay, with_season
from sowtide.cli.printing import forms_of, refuse_other_forms, say
from sowtide.cli.waiting import working
from sowtide.cli.waves import find_wave
from sowtide.days import MonthDay
from sowtide.garden import library
from sowtide.garden.bed_names import JOKERS, beds_like, close_beds
from sowtide.garden.crop import Crop, Raised, Sort
from sowtide.garden.model import Bed
from sowtide.garden.text import named
from sowtide.garden.varieties import close_names, crops_called
from sowtide.report import fits, instead_of, into_bed, openings
from sowtide.report.kit import words
from sowtide.schedule.fits import (
    BedQuestion,
    Question,
    answer,
    best_first,
    since_of,
    weigh,
    what_fits,
)
from sowtide.schedule.openings import OpeningsQuestion, coming_free
from sowtide.schedule.season import Season

_WEEKS = 8


@click.command()
@click.argument("crop", metavar="[CROP]", required=False, shell_complete=shell_names.crops)
@click.option("--plants", type=Count(1, 1_000_000), help="How many plants.")
@click.option(
    "--bed",
    metavar="BED",
    shell_complete=shell_names.beds,
    help="In this bed only; without CROP also several, as in 'Hill*'.",
)
@click.option(
    "--weeks", type=Count(1, 53), help="Without CROP: how many weeks to look ahead.  [default: 8]"
)
@click.option("--on", type=SeasonDay(), help="Planted on this day (07-30 or 2026-07-30).")
@click.option("--seedlings", is_flag=True, help="Seedlings are there, to be planted out at once.")
@click.option(
    "--sort",
    type=click.Choice([sort.value for sort in Sort]),
    help="Of this sort, where the days to harvest of several are known.",
)
@click.option(
    "--instead-of",
    "instead_of_",
    metavar="WAVE",
    shell_complete=shell_names.waves,
    help="Weigh keeping this wave against the crop in its place.",
)
@click.option(
    "--cover",
    type=Degrees(0, 30, min_open=True),
    metavar="DEGREES",
    help="Show what a cover buys that keeps off so many degrees.",
)
@forms_of("fits", "fits without a crop", "fits --bed", "fits --instead-of")
@with_season
def command(
    season: Season,
    *,
    crop: str | None,
    plants: int | None,
    bed: str | None,
    weeks: int | None,
    on: date | MonthDay | None,
    seedlings: bool,
    sort: str | None,
    instead_of_: str | None,
    cover: float | None,
    format_: str,
) -> None:
    """Does one more wave of a crop fit before frost?

    Says so in one sentence, then where there is room, from when to when and how sure that is;
    and where nothing fits, what would. Without CROP it lists what space comes free in the
    next weeks, what fits there, and what to start for it now; with --bed BED every crop
    that still fits into that bed.
    """
    day = None if on is None else _in_year(on, season)
    if crop is None:
        if any(each is not None for each in (plants, cover, instead_of_, sort)):
            raise click.UsageError("--plants, --sort, --cover and --instead-of go with a crop.")
        if bed is None or weeks is not None or not JOKERS.isdisjoint(bed):
            if seedlings:
                raise click.UsageError("--seedlings goes with a crop, or with one bed.")
            _coming_free(season, bed, day, weeks=weeks or _WEEKS, format_=format_)
        else:
            _what_fits(BedQuestion(_bed(season, bed), day, seedlings), season, format_=format_)
        return
    if weeks is not None:
        raise click.UsageError("--weeks goes without a crop.")
    where = None if bed is None else _bed(season, bed)
    varieties = _varieties(season, crop, seedlings=seedlings)
    if sort is not None:
        varieties = _of_sort(varieties, Sort(sort))
    buys = None if cover is None else season.garden.site.units.difference(cover)
    asked = Question(
        crop=varieties[0], plants=plants, bed=where, on=day, seedlings=seedlings, cover=buys
    )
    if instead_of_ is not None:
        _weigh(instead_of_, asked, season, format_=format_)
        return
    _one_more([replace(asked, crop=each) for each in varieties], crop, season, format_=format_)


def _one_more(questions: Sequence[Question], crop: str, season: Season, *, format_: str) -> None:
    refuse_other_forms("fits", form=format_, what="fits CROP")
    with working("looking for room"):
        found = [answer(season, question) for question in questions]
    answers = best_first(found, asked=crop)
    say("fits", fits.view(answers, season, asked=crop), format_)


def _coming_free(
    season: Season, bed: str | None, day: date | None, *, weeks: int, format_: str
) -> None:
    beds = season.garden.beds if bed is None else _beds(season, bed)
    question = OpeningsQuestion(beds, day, weeks)
    with working("looking for openings") as progress:
        found = coming_free(season, question, progress=progress)
    say("fits without a crop", openings.view(found, season), format_)


def _beds(season: Season, pattern: str) -> tuple[Bed, ...]:
    """Return the beds whose names a pattern of the shell stands for."""
    found = beds_like(pattern, season.garden)
    if found:
        return found
    if JOKERS.isdisjoint(pattern):
        return (_bed(season, pattern),)
    raise click.UsageError(f"There is no bed like '{pattern}'.{_near(pattern, season)}")


def _what_fits(question: BedQuestion, season: Season, *, format_: str) -> None:
    refuse_other_forms("fits --bed", form=format_, what="fits --bed")
    with working("trying every crop") as progress:
        found = what_fits(season, question, progress=progress)
    say("fits --bed", into_bed.view(found, season), format_)


def _weigh(name: str, question: Question, season: Season, *, format_: str) -> None:
    if question.bed is not None:
        raise click.UsageError("--instead-of looks at the wave's own bed: leave --bed out.")
    if question.cover is not None:
        raise click.UsageError("--instead-of weighs what can be picked: leave --cover out.")
    wave = find_wave(season, name)
    refuse_other_forms("fits --instead-of", form=format_, what="--instead-of")
    if not wave.stands:
        raise click.UsageError(f"'{wave.id}' has no room that it could give up.")
    pulled = wave.stages.pull_out.day
    if since_of(season, wave, question) >= pulled:
        raise click.UsageError(f"'{wave.id}' is pulled out on {pulled} anyway.")
    with working("weighing both"):
        found = weigh(season, wave, question)
    say("fits --instead-of", instead_of.view(found, season), format_)


def _in_year(on: date | MonthDay, season: Season) -> date:
    """Return the day asked about, which the file's growing year must hold."""
    year = season.garden.year
    try:
        day = year.day(on) if isinstance(on, MonthDay) else on
    except ValueError:
        raise click.UsageError(
            f"The growing year {year.season} has no day '{on}'; ask about 02-28 or 03-01."
        ) from None
    if day not in year:
        raise click.UsageError(
            f"{day} lies outside the growing year {year.season} that the file plans; "
            f"set season: {year.holding(day).season} there to ask about it."
        )
    return day


def _bed(season: Season, name: str) -> Bed:
    for bed in season.garden.beds:
        if bed.name.casefold() == name.casefold():
            return bed
    raise click.UsageError(f"There is no bed '{name}'.{_near(name, season)}")


def _near(name: str, season: Season) -> str:
    near = close_beds(name, season.garden)[:1]
    return f" Did you mean {named(near[0])}?" if near else ""


def _varieties(season: Season, name: str, *, seedlings: bool) -> tuple[Crop, ...]:
    varieties = crops_called(name, season.garden)
    if not varieties:
        hint = _no_crop_hint(name, season)
        raise click.UsageError(f"There is no crop '{name}' in the file or built in. {hint}")
    if seedlings and all(variety.raised is Raised.DIRECT for variety in varieties):
        raise click.UsageError(f"'{name}' is sown direct, it has no seedlings to plant out.")
    return varieties


def _no_crop_hint(name: str, season: Season) -> str:
    unplanned = library.why_unplanned(name)
    if unplanned is not None:
        return words.sentence(unplanned)
    near = close_names(name, season.garden)
    return f"Did you mean {named(near[0])}?" if near else "Define it under crops: in the file."


def _of_sort(varieties: tuple[Crop, ...], sort: Sort) -> tuple[Crop, ...]:
    found = [crop.of_sort(sort) for crop in varieties]
    of_sort = {(crop.name, crop.variety): crop for crop in found if crop is not None}
    if not of_sort:
        title = varieties[0].title
        raise click.UsageError(
            f"The days to harvest of {title} are those of one sort: leave --sort out."
        )
    return tuple(of_sort.values())
