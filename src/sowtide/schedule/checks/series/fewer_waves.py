"""A series has fewer waves than its `count`, or its `count` ends it before its `until`."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from sowtide.days import short_day
from sowtide.diagnostics import Severity
from sowtide.schedule.beds import Grown
from sowtide.schedule.checks import Said, SeriesRule
from sowtide.schedule.waves import Conditions, Over, Series


def _check(grown: Grown, conditions: Conditions) -> Iterator[Said]:
    entry, waves = grown.entry, grown.waves
    if entry.count is None or entry.every is None or not waves or grown.over is Over.TOO_MANY:
        return
    last = waves[-1]
    after = grown.series.after(last.planting)
    following = None if after is None else after.day
    if len(waves) < entry.count:
        if following is not None and not _is_over(following, grown.series):
            return  # the journal says which it is without
        end, hint = _end(grown.series, conditions)
        then = "" if following is None else f", on {short_day(following)},"
        yield Said(
            f"{entry.name} has {len(waves)} of the {entry.count} waves asked for: the next{then} "
            f"would come after {end}",
            hint,
            last,
        )
    elif entry.until is not None and following is not None and following <= entry.until:
        yield Said(
            f"{entry.name} ends with {last.planting.id} on "
            f"{short_day(last.planting.planted.day)}, before its `until`, "
            f"{short_day(entry.until)}: that is its `count` of {entry.count}",
            "write a larger `count`, or leave it out",
            last,
        )


def _is_over(following: date, series: Series) -> bool:
    """Say whether a day comes after what ends the series."""
    end = series.entry.until or series.safe_until
    return end is None or following > end


def _end(series: Series, conditions: Conditions) -> tuple[str, str]:
    """Say what the next wave would come after, and what would help."""
    until, safe = series.entry.until, series.safe_until
    if until is not None:
        return f"its `until`, {short_day(until)}", "write a later `until`, or a shorter `every`"
    if safe is not None and safe >= conditions.year.last:
        end = f"the last day of the growing year, {short_day(safe)}"
        return end, "begin earlier, or write a shorter `every`"
    hint = (
        "begin earlier, write a shorter `every`, or name a covered bed; with a day as `until` it "
        "goes on, whatever the odds"
    )
    return "all safe days" if safe is None else f"the last safe day, {short_day(safe)}", hint


RULE = SeriesRule("fewer-waves", Severity.WARNING, _check)
