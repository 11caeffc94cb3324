"""The replays of all crops on the days of recorded years, each made once."""

from __future__ import annotations

from dataclasses import replace

from sowtide.climate.answers import Need
from sowtide.climate.replay.recorded_days import RecordedDays
from sowtide.climate.replay.run import Replay
from sowtide.garden.site import Site


class Replays:
    """Hands out the replay of a crop."""

    def __init__(self, days: RecordedDays, site: Site) -> None:
        self.days = days
        """The days of the years."""
        self._site = site
        # A need is kept with what is made of it: no other has its id.
        self._replays: dict[int, tuple[Need, Replay]] = {}
        self._bright: dict[int, tuple[Need, Replay]] = {}

    def of(self, need: Need) -> Replay:
        """Return the replay of a crop; its warmth is set."""
        found = self._replays.get(id(need))
        if found is None:
            found = self._replays[id(need)] = (need, self._made(need))
        return found[1]

    def in_full_light(self, need: Need) -> Replay:
        """Return that of the same crop if no want of light held it back."""
        found = self._bright.get(id(need))
        if found is None:
            assert need.warmth is not None
            bright = replace(need, warmth=need.warmth.in_full_light)
            found = self._bright[id(need)] = (need, self._made(bright))
        return found[1]

    def _made(self, need: Need) -> Replay:
        assert need.warmth is not None
        return Replay(
            self.days.years,
            heat=self.days.gathered.of(need.warmth),
            ends=self.days.ends_of(need),
            hot=self._hot_of(need),
            barren=None if need.fruit_set is None else self.days.barren(need.fruit_set),
            need=need,
            through=self.days.through(need),
        )

    def _hot_of(self, need: Need) -> tuple[tuple[int, int] | None, ...]:
        none = (None,) * len(self.days.years.seasons)
        if not need.heat_ends or need.warm_limit is None:
            return none
        if self._site.heat_known and need.minds_written:
            hot = self._site.too_hot
            return self.days.span_in_each(hot) if hot else none
        return self.days.hot_spans(need.warm_limit)
