"""Placing everything not yet planted afresh, with the whole season in sight.

A plan is filled wave after wave, so that August never moves May; that costs room. Here the
waves not yet planted are packed anew, their days kept, and what comes out is said in the file's own
words: beds for an entry, or for single waves of it. Whatever is said was placed by the rules of
every plan from just these words; so pasting them in gives just this plan.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import chain
from typing import TYPE_CHECKING

from sowtide.garden.model import Bed, Entry, Garden
from sowtide.progress import Progress, part, unwatched
from sowtide.schedule.beds import Placed, place_all
from sowtide.schedule.packing.packer import Packer, SharedOut, area_days_of, beds_of
from sowtide.schedule.planning import planned
from sowtide.schedule.season import Season
from sowtide.schedule.waves import Conditions, Wave, series_of

if TYPE_CHECKING:  # only beside a journal
    from sowtide.schedule.happened import Accounts

_MOST_ROUNDS = 6
"""How often more waves are given their beds before all are. [1]"""

_NO_BED = "none"
"""What the file says for no bed; where a bed is called so, it cannot be said."""


def repacked(season: Season, *, progress: Progress = unwatched) -> Season:
    """Return a season with everything not yet planted placed afresh, to fill the beds best.

    Its entries carry the beds that make it so, or are as they were where nothing better is found;
    the waves planted before its day are as they were. The progress is told how many places of
    those that may be have been looked at.
    """
    best, gained = season.garden.entries, area_days(season.waves)
    packers = [Packer(season, shared) for shared in SharedOut]
    packers = [each for each in packers if each.shared or each is packers[0]]
    for number, packer in enumerate(packers):
        for entries, gain in _said(packer, part(progress, number, len(packers))):
            if gain > gained:
                best, gained = entries, gain
    return planned(
        replace(season.garden, entries=best), season.conditions, season.today, season.accounts
    )


def _said(packer: Packer, progress: Progress) -> Iterator[tuple[tuple[Entry, ...], int]]:
    """Say what is wanted in as few words as will do; yield entries and what comes of them."""
    garden = packer.garden
    wanted = packer.wanted(progress)
    if any(bed.name == _NO_BED for bed in garden.beds):
        wanted = {key: beds for key, beds in wanted.items() if beds}
    if wanted == packer.now:
        return
    # What names its beds goes before what does not: then so must what is planted already.
    wanted |= {key: beds_of(stands) for key, stands in packer.planted.items()}
    now = packer.now | {key: beds_of(stands) for key, stands in packer.planted.items()}
    said = {key for key, beds in wanted.items() if now[key] not in ((), beds)}
    for number in range(_MOST_ROUNDS):
        if number == _MOST_ROUNDS - 1:
            said = set(wanted)
        entries = tuple(
            _with_beds(entry, {n: wanted[s, n] for s, n in said if s == entry.name})
            for entry in garden.entries
        )
        made = _placed(entries, garden, packer.conditions, packer.accounts)
        found = {(p.planting.entry.name, p.planting.number): p.stands for p in made}
        if all(found.get(key) == stands for key, stands in packer.planted.items()):
            yield entries, sum(area_days_of(p.judged, p.planting.entry) for p in made if p.stands)
        strayed = {key for key, beds in wanted.items() if beds_of(found.get(key)) != beds}
        if strayed <= said:
            return
        said |= strayed


def area_days(waves: tuple[Wave, ...]) -> int:
    """Area times days that waves stand in their beds. [µm² days]"""
    return sum(area_days_of(wave.judged, wave.entry) for wave in waves if wave.stands)


def area_days_asked(*plans: tuple[Wave, ...]) -> int:
    """Area times days that waves would stand if all had room where they stand longest. [µm² days]

    Parameters
    ----------
    plans
        Plans of the same waves: under a cover one stands longer than in the open.
    """
    most: dict[str, int] = {}
    for wave in chain(*plans):
        most[wave.id] = max(area_days_of(wave.judged, wave.entry), most.get(wave.id, 0))
    return sum(most.values())


def _placed(
    entries: tuple[Entry, ...],
    garden: Garden,
    conditions: Conditions,
    accounts: Accounts | None,
) -> list[Placed]:
    series = tuple(series_of(entry, conditions) for entry in entries)
    _, placed = place_all(series, garden.beds, conditions, accounts)
    return [each for of_series in placed for each in of_series.waves]


def _with_beds(entry: Entry, said: dict[int, tuple[Bed, ...]]) -> Entry:
    """Return an entry with beds for some of its waves, as plainly as the file can say it."""
    if not said:
        return entry
    single = entry.every is None and entry.start is not None and not entry.wave_beds
    if single and said[1]:
        return replace(entry, beds=said[1], beds_named=True)
    return replace(entry, wave_beds=tuple(sorted((dict(entry.wave_beds) | said).items())))
