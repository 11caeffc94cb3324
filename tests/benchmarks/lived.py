"""A journal for any garden: everything planned up to a day was done, and picked every third day."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path

from sowtide.schedule.waves import Wave
from sowtide.season import load, season_of

_DAY = timedelta(days=1)


def journal(garden: Path, today: date, entries: int) -> str:
    """Return a journal of so many entries, filled up with rain.

    Parameters
    ----------
    garden
        The garden's file.
    today
        The day up to which all was done.
    entries
        How many entries. [1]
    """
    read = load(garden).garden
    assert read is not None
    waves = season_of(read, today).waves
    noted = [each for wave in waves if wave.stands for each in _life(wave)]
    noted = sorted(each for each in noted if each[0] < today and each[0] in read.year)
    day, rain = read.year.first, len(noted)
    while rain < entries:
        noted.append((day, "did: rain, amount: 0.2in"))
        day = day + _DAY if day < today - _DAY else read.year.first
        rain += 1
    return "".join(f"- {{on: {on}, {said}}}\n" for on, said in sorted(noted)[:entries])


def _life(wave: Wave) -> Iterator[tuple[date, str]]:
    stages, name = wave.stages, f"wave: {wave.id}"
    sown = "planted out" if wave.from_trays else "sown"
    if wave.from_trays:
        yield stages.sow.day, f"{name}, did: sown"
    for place in wave.stands:
        bed, plants = f"bed: {place.bed.name}", f"plants: {place.plants}"
        yield stages.plant.day, f"{name}, {bed}, did: {sown}, {plants}"
    if stages.up is not None:
        yield stages.up.day, f"{name}, did: up"
    if stages.first_pick is not None and stages.last_pick is not None:
        day = stages.first_pick[1].day
        yield day, f"{name}, did: first picked, amount: 4.5lb"
        while (day := day + 3 * _DAY) <= stages.last_pick.day:
            yield day, f"{name}, did: picked, amount: 2.5lb"
    yield stages.pull_out.day, f"{name}, did: pulled"
