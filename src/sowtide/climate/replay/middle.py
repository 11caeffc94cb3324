"""The middle of what the recorded years do to one planting."""

from __future__ import annotations

from collections.abc import Sequence

from sowtide.climate.answers import Chances, Need
from sowtide.climate.growth import UNRIPE_DAYS
from sowtide.climate.medians import NEVER, median
from sowtide.climate.replay.run import Run
from sowtide.values import value


@value
class Middle:
    """Medians over the years, in days from planting; `NEVER` for what most years do not bring."""

    early: int
    late: int
    """First pick at the two ends of the range of days to harvest. [days]"""
    ripe_early: int
    ripe_late: int
    """The same, whether heat has dropped the flowers or not. [days]"""
    hot_end: int
    frost_end: int
    """The day on which heat ends it, and the one on which frost does. [days]"""
    stops: int
    """Days until something ends it in half of the years, a year where nothing does. [days]"""

    @property
    def waited(self) -> int:
        """Days that the late first pick waits for flowers that set fruit. [days]"""
        return 0 if self.late >= NEVER else max(self.late - self.ripe_late, 0)

    def chances(self, runs: Sequence[Run], need: Need) -> Chances:
        """Return the odds over the years and the margins of the middle."""
        late = min(self.late, self.stops)
        frost, heat = self.frost_end, self.hot_end
        return Chances(
            sum([run.worth for run in runs]) / len(runs),
            None if frost >= NEVER else frost - (late + need.before_frost),
            None if heat >= NEVER else heat - (late + need.worthwhile),
            2 * sum([run.too_hot for run in runs]) > len(runs),
            spring_loss=sum([run.spring_frost < NEVER for run in runs]) / len(runs),
        )


def middle_of(runs: Sequence[Run]) -> Middle:
    """Return the medians over some years, one at least."""
    ends = [min(run.frost_end, run.hot_end) for run in runs]
    return Middle(
        early=median([run.early for run in runs]),
        late=median([run.late for run in runs]),
        ripe_early=median([run.ripe_early for run in runs]),
        ripe_late=median([run.ripe_late for run in runs]),
        hot_end=median([run.hot_end for run in runs]),
        frost_end=median([run.frost_end for run in runs]),
        stops=min(median(ends), UNRIPE_DAYS),
    )
