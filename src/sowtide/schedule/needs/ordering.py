"""By when something is to be ordered."""

from __future__ import annotations

from datetime import date, timedelta

from sowtide.schedule.season import Season


def last_day_to_order(season: Season, wanted: date) -> date:
    """Return the last day to order what is wanted on a day: today, if that has gone by."""
    return max(wanted - timedelta(weeks=season.garden.site.order_weeks), season.today)
