"""The bar of a wave in its bed, and what is written behind it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta

from sowtide.climate.answers import EndedBy
from sowtide.report.blocks import ChartBar
from sowtide.report.calendar.view import SeasonWave

END_SIGNS = {
    EndedBy.FROST: "*",
    EndedBy.HEAT: "~",
    EndedBy.SEED: "^",
    EndedBy.TOO_COOL: "_",
}
"""What is written after the bar of a wave that is ended by something; none when picked out."""

_END_WORDS = {
    EndedBy.FROST: "frost",
    EndedBy.HEAT: "heat",
    EndedBy.SEED: "to seed",
    EndedBy.TOO_COOL: "too cool",
    EndedBy.PULLED: "pulled",
    EndedBy.LOST: "lost",
}
"""The same in words, where there is room for one; nothing where it is picked out."""

_A_DAY = timedelta(days=1)


def bar_of(wave: SeasonWave) -> ChartBar:
    """Return the bar of a wave in its bed."""
    picked = None
    if wave.first_pick is not None and wave.last_pick is not None:
        picked = (wave.first_pick, wave.last_pick + _A_DAY)
    ended = END_SIGNS.get(wave.ended_by, "")
    note = _END_WORDS.get(wave.ended_by, "")
    return ChartBar(
        name=wave.id, first=wave.plant, beyond=wave.pull_out, picked=picked, ended=ended, note=note
    )


def picked_bars(wave: SeasonWave) -> Iterator[ChartBar]:
    """Yield its bar, once for each run of days on which there is something to pick."""
    bar = bar_of(wave)
    if len(wave.picked) < 2:
        yield bar
        return
    for each in wave.picked:
        yield replace(bar, picked=(each.from_, each.to + _A_DAY))
