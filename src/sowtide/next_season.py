"""From a season to the file of the next one: what stood where, what stands on, the same series."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from sowtide.diagnostics import Problem, Severity
from sowtide.garden.crop import Raised, Sort
from sowtide.garden.journal import Journal
from sowtide.garden.model import Entry, Garden
from sowtide.garden.read import read_garden
from sowtide.garden.text import Edits, Tree, as_written
from sowtide.schedule.season import Season
from sowtide.schedule.stays import LONG_STAY
from sowtide.schedule.waves import Status, Wave
from sowtide.season import season_of, with_record
from sowtide.values import value

_DAY = re.compile(r"(\d{4})(-(?:\d\d-\d\d|W\d\d))")
_GONE = (Status.OVER, Status.LOST)
_NAMED = "Rotation leaves no bed for these: all are named, so that they are planted all the same."


@value
class NextFile:
    """The file of the next season."""

    text: str
    """The file."""
    season: int
    stood: int
    """In how many beds something stood this season. [1]"""
    carried: tuple[str, ...]
    """The waves that stand on over the winter."""
    unsaid: tuple[str, ...]
    """Waves that are neither noted nor left out, and so did not stand anywhere."""
    named: tuple[str, ...]
    """Series whose beds are named, because rotation leaves none."""
    problems: tuple[Problem, ...]
    """What is wrong with its plan."""


def next_file(
    tree: Tree, season: Season, folder: Path, *, journal: Journal | None, named_journal: str
) -> NextFile:
    """Return the file of the season that follows on another.

    Parameters
    ----------
    tree
        The file of the season that ends, in which nothing is wrong.
    season
        That season, with its journal.
    folder
        Where both files lie.
    journal
        What happened, in all seasons; None where no journal is kept.
    named_journal
        What the journal's file is called, which both share.
    """
    named: dict[str, None] = {}
    while True:
        made = _written(tree, season, named_journal if journal else None, tuple(named))
        garden, problems = _planned(made, folder, journal)
        found = dict.fromkeys(_closed_by_rotation(garden, problems))
        if not found.keys() - named.keys():
            break
        named |= found
    return NextFile(
        text=made,
        season=garden.year.season,
        stood=len(_grown(season)),
        carried=tuple(wave.id for wave in _carried(season)),
        unsaid=tuple(wave.id for wave in season.waves if wave.stands and not _stood(wave, season)),
        named=tuple(named),
        problems=tuple(each for each in problems if each.severity is Severity.ERROR),
    )


def _written(tree: Tree, season: Season, journal: str | None, named: tuple[str, ...]) -> str:
    edits, garden = Edits(tree), season.garden
    edits.replace(("season",), str(garden.year.season + 1))
    _move_days(edits)
    for number, bed in enumerate(garden.beds):
        families = _grown(season).get(bed.name)
        if families:
            _add_history(edits, tree, number, garden.year.season, families)
    standing = _carried(season)
    dropped = {wave.crop.name for wave in standing}
    for number, entry in enumerate(garden.entries):
        path = ("waves", number)
        before = entry.start is not None and entry.start < garden.year.first
        if before and entry.crop.name in dropped and edits.leave_out(path):
            continue  # the one that takes its place stands already
        if entry.name in named:
            edits.remark(path, _NAMED)
            edits.add_key(path, "beds", _listed([bed.name for bed in garden.beds]))
    taken = {entry.name for entry in garden.entries}
    for wave in standing:
        edits.add_item(("waves",), _standing_on(wave, taken))
    text = edits.text()
    if journal is not None and garden.journal is None:
        text += f"\njournal: {as_written(journal)}   # one for all seasons\n"
    return text + "".join(f"{line}\n" for line in _learned(garden))


def _move_days(edits: Edits) -> None:
    """Move each day that is written with its year to the same day a year later."""
    for path, text in edits.texts():
        if not text or "grew" in path or not re.fullmatch(rf"{_DAY.pattern}(?:\.\..+)?", text):
            continue
        edits.replace(path, _DAY.sub(_year_later, text))


def _year_later(found: re.Match[str]) -> str:
    later, rest = int(found[1]) + 1, found[2]
    return f"{later}{_SHORTER.get(rest, rest)}"


_SHORTER = {"-02-29": "-02-28", "-W53": "-W52"}
"""What the year after one with such a day has in its place."""


def _grown(season: Season) -> dict[str, tuple[str, ...]]:
    """Return the families that stood in each bed long enough to close it, in order of days.

    What stands on does not close its own bed: it counts when it has left.
    """
    found: dict[str, dict[str, None]] = {}
    standing = _carried(season)
    for wave in sorted(season.waves, key=lambda each: each.stages.plant.day):
        stay = wave.stages.pull_out.day - wave.stages.plant.day
        if stay.days < LONG_STAY or wave in standing:
            continue
        for stand in wave.stands if _stood(wave, season) else ():
            found.setdefault(stand.bed.name, {})[wave.crop.family] = None
    return {bed: tuple(families) for bed, families in found.items()}


def _stood(wave: Wave, season: Season) -> bool:
    """Say whether a wave stood in its beds: not one whose day has gone without word of it."""
    if not wave.stands or wave.status is not Status.PLANNED or season.accounts is None:
        return bool(wave.stands)
    return not season.accounts.is_overdue(wave.stages.plant.day)


def _add_history(
    edits: Edits, tree: Tree, number: int, year: int, families: tuple[str, ...]
) -> None:
    written = as_written(families[0]) if len(families) == 1 else _listed(families)
    path = ("beds", number)
    known = tree.at((*path, "grew"))
    if known is None or not getattr(known, "keys", None):
        edits.add_key(path, "grew", f"{{{year}: {written}}}")
    elif str(year) not in known.keys:
        edits.add_first((*path, "grew"), str(year), written)


def _carried(season: Season) -> tuple[Wave, ...]:
    """Return the waves that stand beyond the end of the growing year."""
    last = season.garden.year.last
    return tuple(
        wave
        for wave in season.waves
        if _stood(wave, season) and wave.status not in _GONE and wave.stages.pull_out.day > last
    )


def _standing_on(wave: Wave, taken: set[str]) -> str:
    """Return the entry of a wave that stands on over the winter."""
    name = next(each for each in _names(wave.entry) if each not in taken)
    taken.add(name)
    crop = wave.crop
    keys = {
        "crop": as_written(crop.name),
        "name": as_written(name),
        "variety": None if crop.variety is None else as_written(crop.variety),
        "sort": crop.sort.value if crop.spans_sorts and crop.sort is not Sort.MAIN else None,
        "raised": wave.entry.raised.value if crop.raised is Raised.EITHER else None,
        "plants": str(wave.plants),
        "from": wave.stages.plant.day.isoformat(),
        "beds": _listed(wave.bed_names),
    }
    said = ", ".join(f"{key}: {text}" for key, text in keys.items() if text is not None)
    return f"{{{said}}}   # stands since last season"


def _names(entry: Entry) -> Iterator[str]:
    yield f"{entry.name}-standing"
    for letter in "bcdefghijklmnopqrstuvwxyz":
        yield f"{entry.name}-standing-{letter}"


def _learned(garden: Garden) -> Iterator[str]:
    """Yield remarks with the days that the journal taught."""
    taught = [crop for crop in garden.crops if crop.learned is not None]
    if taught:
        yield ""
        yield "# Learned from pickings of yours, and used while the journal is kept; without it"
        yield "# they belong under crops:"
    for crop in taught:
        assert crop.learned is not None  # only such were taken
        yield (
            f"#   {as_written(crop.title)}: {{days_to_harvest: {crop.days_to_harvest}}}   # "
            f"{crop.learned.pickings} pickings; the packet says {crop.learned.packet}"
        )


def _planned(
    text: str, folder: Path, journal: Journal | None
) -> tuple[Garden, tuple[Problem, ...]]:
    """Return the next season's garden and what is wrong with its plan."""
    loaded = with_record(read_garden(text.encode(), "next season"), folder)
    assert loaded.garden is not None, [problem.message for problem in loaded.problems]
    first = loaded.garden.year.first
    season = season_of(loaded.garden, first, loaded.record, journal)
    return loaded.garden, season.problems


def _closed_by_rotation(garden: Garden, problems: tuple[Problem, ...]) -> Iterator[str]:
    """Yield the series that find no bed for rotation, and name none."""
    entries = {entry.name: entry for entry in garden.entries}
    for each in problems:
        if each.code == "no-room" and "rotation closes" in each.message and each.wave:
            entry = entries[each.wave.rpartition("-")[0]]
            if not entry.beds_named:
                yield entry.name


def _listed(names: tuple[str, ...] | list[str]) -> str:
    return f"[{', '.join(map(as_written, names))}]"
