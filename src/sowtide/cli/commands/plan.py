"""``sowtide plan``."""

from __future__ import annotations

import click

from sowtide.cli.narrowing import narrowing_options, only_of, quiet_option
from sowtide.cli.options import Count, with_season
from sowtide.cli.printing import forms_of, refuse_other_forms, say
from sowtide.cli.waiting import working
from sowtide.report.plan import PlanBy, view
from sowtide.schedule.narrowed import narrowed
from sowtide.schedule.season import Season


@click.command()
@click.option(
    "--by",
    type=click.Choice([each.value for each in PlanBy]),
    help="Group the waves by series (the default) or by bed.",
)
@click.option(
    "--repack",
    is_flag=True,
    help="Place everything not yet planted afresh, and print the lines to paste.",
)
@click.option("--labels", is_flag=True, help="Print a label for the stake of each wave.")
@click.option(
    "--weeks",
    type=Count(1, 53),
    help="With --labels: only of what is sown or planted out in so many weeks.",
)
@narrowing_options
@quiet_option
@forms_of("plan")
@with_season
def command(
    season: Season,
    *,
    by: str | None,
    repack: bool,
    labels: bool,
    weeks: int | None,
    format_: str,
    beds: tuple[str, ...],
    crops: tuple[str, ...],
    quiet: bool,
) -> None:
    """Every wave with its beds, its dates and its margin to frost.

    By bed it also says when each bed lies empty, how full all of them are week by
    week, and what would fit into the longest gaps.
    """
    if labels and repack:
        raise click.UsageError("--labels goes without --repack.")
    if weeks is not None and not labels:
        raise click.UsageError("--weeks is for --labels.")
    if repack:
        if by is not None:
            raise click.UsageError("--repack groups no waves: leave --by out.")
        if beds or crops:
            raise click.UsageError("--repack places the whole garden: leave --bed and --crop out.")
        _repack(season, format_)
    else:
        only = only_of(season, beds=beds, crops=crops)
        season = season if only is None else narrowed(season, only)
        if labels:
            _labels(season, format_, by=by, weeks=weeks)
            return
        grouped = PlanBy.SERIES if by is None else PlanBy(by)
        say("plan", view(season, by=grouped, quiet=quiet), format_)


def _labels(season: Season, format_: str, *, by: str | None, weeks: int | None) -> None:
    from sowtide.report.labels import view as on_stakes

    refuse_other_forms("plan --labels", form=format_, what="--labels")
    found = on_stakes(season, by_bed=by == PlanBy.BED.value, weeks=weeks)
    say("plan --labels", found, format_)


def _repack(season: Season, format_: str) -> None:
    from sowtide.report.repack import view as gained
    from sowtide.schedule.packing import repacked

    refuse_other_forms("plan --repack", form=format_, what="--repack")
    with working("packing the beds afresh") as progress:
        after = repacked(season, progress=progress)
    say("plan --repack", gained(season, after), format_)
