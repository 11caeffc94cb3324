"""From the file's waves to entries: crop, beds and days found, everything decided."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from sowtide.days import DayRange
from sowtide.garden.bed_names import JOKERS, names_like
from sowtide.garden.crop import Crop, Raised
from sowtide.garden.keys import WaveKeys, read_list, read_section
from sowtide.garden.making.crops import Crops
from sowtide.garden.making.series_names import SeriesName, check_names
from sowtide.garden.model import Bed, Entry
from sowtide.garden.readers import Frame, Written, resolve
from sowtide.garden.text import Findings, Path, Refused, did_you_mean, named, quoted
from sowtide.reasons import OURS, Origin

_IN_THE_WAY = frozenset(":;,()[]{}<>\"'`/\\|&*?!$#~^= ‘’“”\u00a0")

MOST_WAVES = 366
"""One entry asks for no more waves."""
MOST_COMPARED = 2_000_000
"""So often patterns are compared with names of beds: 6,000 patterns with 300 beds, in a second."""


class Entries:
    """Resolves a file's entries one after another."""

    __slots__ = (
        "_beds",
        "_compared",
        "_crops",
        "_findings",
        "_frame",
        "_near",
        "_origins",
        "_room",
        "_series",
        "_sets",
        "_usable",
    )

    def __init__(
        self,
        frame: Frame | None,
        beds: dict[str, Bed | None],
        crops: Crops,
        findings: Findings,
    ) -> None:
        self._frame = frame
        self._beds = beds
        self._crops = crops
        self._findings = findings
        self._usable = tuple(bed for bed in beds.values() if bed is not None)
        self._near = {name.casefold(): name for name in beds}
        self._series: list[SeriesName] = []
        self._origins: dict[int, Origin] = {}
        self._room: dict[int, tuple[int, int]] = {}
        self._sets: dict[tuple[str, ...], tuple[Bed, ...]] = {}
        self._compared = 0

    def read(self, raw: Any) -> tuple[Entry, ...]:
        """Return the entries that have no problems; the problems are added."""
        example = "{crop: bush bean, plants: 60, from: earliest}"
        items = read_list(raw, "waves", self._findings, example=example)
        found = [self._entry(item, ("waves", number)) for number, item in enumerate(items)]
        check_names(self._series, self._findings)
        return tuple(entry for entry in found if entry is not None)

    def _entry(self, item: Any, path: Path) -> Entry | None:
        before = len(self._findings.problems)
        keys = read_section(WaveKeys, item, path, self._findings)
        if keys is None:
            self._check_names_of(item, path)
            return None
        crop = self._crop(keys, path)
        beds = (
            self._named_beds(keys.beds, (*path, "beds")) if keys.beds is not None else self._usable
        )
        if crop is None or self._frame is None:
            return None
        entry = self._made(keys, item, path, crop=crop, beds=beds)
        waves = 1 if entry.every is None else keys.count or MOST_WAVES
        self._series.append(SeriesName(entry.name, path, "name" if keys.name else "crop", waves))
        self._check_repeats(keys, item, path)
        self._check_standby(entry, path)
        self._check_number(keys, entry, path)
        self._check_room(entry, beds, path, named=entry.beds_named)
        for _, chosen in entry.wave_beds:
            if chosen:
                self._check_room(entry, chosen, path, named=True)
        return entry if len(self._findings.problems) == before else None

    def _made(
        self,
        keys: WaveKeys,
        item: dict[str, Any],
        path: Path,
        *,
        crop: Crop,
        beds: tuple[Bed, ...],
    ) -> Entry:
        places = self._findings.tree.branch(path)

        def origin(key: str) -> Origin:
            return self._origin(places.line(key)) if key in item else OURS

        return Entry(
            name=keys.name or _series_of(crop.name),
            crop=crop,
            raised=self._raised(keys, crop, path),
            plants=keys.plants,
            start=self._day(keys.start, "from", path),
            every=_every(keys),
            pick_every=keys.pick_every,
            until=self._day(keys.until, "until", path),
            count=keys.count,
            beds=beds,
            beds_named=keys.beds is not None,
            split=keys.split,
            first=keys.first,
            standby=keys.standby,
            overlap=keys.overlap,
            span=self._findings.tree.place(places.values["crop"]),
            start_origin=origin("from"),
            every_origin=origin("every" if keys.pick_every is None else "pick_every"),
            wave_beds=self._wave_beds(keys.wave_beds or {}, path),
        )

    def _origin(self, line: int) -> Origin:
        """Return the origin of what stands in a line; one for all that stands there."""
        found = self._origins.get(line)
        if found is None:
            found = self._origins[line] = Origin(self._findings.label, line)
        return found

    def _check_names_of(self, item: Any, path: Path) -> None:
        """Look up the crop and beds of an entry in which something else is wrong."""
        if not isinstance(item, dict):
            return
        crop, beds = item.get("crop"), item.get("beds")
        if isinstance(crop, str):
            self._crops.named_at(" ".join(crop.split()), (*path, "crop"))
        listed = beds if isinstance(beds, list) else [beds]
        names = [" ".join(bed.split()) for bed in listed if isinstance(bed, str)]
        if len(names) == len(listed):
            self._named_beds(tuple(names), (*path, "beds"))

    def _crop(self, keys: WaveKeys, path: Path) -> Crop | None:
        crop = self._crops.named_at(keys.crop, (*path, "crop"))
        if crop is not None and keys.variety is not None:
            crop = self._crops.variety(crop, keys.variety)
        if crop is None or keys.sort is None:
            return crop
        of_sort = self._crops.of_sort(crop, keys.sort)
        if of_sort is None:
            self._findings.at_value(
                (*path, "sort"),
                "crop-numbers",
                f"sort: the days to harvest of {crop.title} are those of one sort already",
                "delete the sort, or write the days of the variety you grow",
            )
        return of_sort

    def _named_beds(self, names: tuple[str, ...], path: Path) -> tuple[Bed, ...]:
        """Return the beds of names and patterns, each once; many entries may share them."""
        known = self._sets.get(names)
        if known is not None:
            return known
        before = len(self._findings.problems)
        found: dict[str, Bed] = {}
        for number, name in enumerate(names):
            meant = (name,) if name in self._beds else self._named_like(name)
            for each in meant:
                bed = self._beds[each]
                if bed is not None:
                    found[each] = bed
            if not meant:
                self._misnamed(name, (*path, number))
        beds = tuple(found.values())
        if len(self._findings.problems) == before:
            self._sets[names] = beds
        return beds

    def _named_like(self, pattern: str) -> tuple[str, ...]:
        """Return the names a pattern stands for; none once more were compared than a file needs."""
        if JOKERS.isdisjoint(pattern) or self._compared > MOST_COMPARED:
            return ()
        self._compared += len(self._beds)
        return names_like(pattern, self._beds)

    def _misnamed(self, name: str, path: Path) -> None:
        meant = self._near.get(name.casefold())
        if meant is None and not self._findings.many:
            meant = did_you_mean(name, tuple(self._beds))
        pattern = not JOKERS.isdisjoint(name)
        said = f"there is no bed {'like ' if pattern else ''}{quoted(name)}"
        hint = f"did you mean {named(meant)}?" if meant else _list_beds(self._beds)
        if pattern and self._compared > MOST_COMPARED:
            said = f"{quoted(name)} is one pattern too many: no more are compared with the beds"
            hint = "name the beds"
        self._findings.at_value(path, "unknown-bed", said, hint)

    def _wave_beds(
        self, written: Mapping[int, tuple[str, ...]], path: Path
    ) -> tuple[tuple[int, tuple[Bed, ...]], ...]:
        """Return the beds of single waves; none at all where the grower wrote "none"."""
        found: list[tuple[int, tuple[Bed, ...]]] = []
        for number, names in written.items():
            if names == ("none",) and "none" not in self._beds:
                found.append((number, ()))
            else:
                place = (*path, "wave_beds", str(number))
                found.append((number, self._named_beds(names, place)))
        return tuple(found)

    def _raised(self, keys: WaveKeys, crop: Crop, path: Path) -> Raised:
        wanted = keys.raised if keys.raised is not Raised.EITHER else None
        if wanted is not None and crop.raised not in (Raised.EITHER, wanted):
            how = {Raised.TRAYS: "raised in trays", Raised.DIRECT: "sown direct"}
            self._findings.at_value(
                (*path, "raised"),
                "raised",
                f"{quoted(crop.name)} is {how[crop.raised]}, not {how[wanted]}",
                f"leave it out, or write under crops: {crop.name}: {{raised: either"
                + (", nursery_days: 21-35}" if crop.nursery_days is None else "}"),
            )
            return wanted
        found = wanted or crop.raised_unless_said
        if found is Raised.TRAYS and crop.nursery_days is None:
            self._findings.at_value(
                (*path, "raised" if keys.raised else "crop"),
                "crop-incomplete",
                f"{quoted(crop.name)} lacks the nursery_days that raising it in trays takes",
                f"add nursery_days under crops: for {crop.name}, such as nursery_days: 21-35",
            )
        return found

    def _day(self, written: Written | None, key: str, path: Path) -> date | None:
        if written is None or self._frame is None:
            return None
        try:
            return resolve(written, self._frame.year, end=key == "until")
        except Refused as refused:
            self._findings.refused((*path, key), refused)
            return None

    def _check_repeats(self, keys: WaveKeys, item: dict[str, Any], path: Path) -> None:
        if keys.every is not None and keys.pick_every is not None:
            self._findings.at_key(
                (*path, "pick_every"),
                "every",
                "'pick_every' beside 'every': sowings are so many days apart, or pickings",
                "delete one of the two",
            )
        if _every(keys) is not None:
            return
        for key in ("until", "count"):
            if key in item and keys.count != 1:
                self._findings.at_key(
                    (*path, key),
                    "every",
                    f"{quoted(key)} without 'every': this entry is a single wave",
                    "add the days from one wave to the next, such as every: 14",
                )
                return

    def _check_standby(self, entry: Entry, path: Path) -> None:
        if entry.standby and entry.raised is Raised.DIRECT:
            self._findings.at_value(
                (*path, "standby"),
                "standby",
                "seedlings stand by in trays, and this is sown direct",
                "write 0 for none",
            )

    def _check_number(self, keys: WaveKeys, entry: Entry, path: Path) -> None:
        start, until = entry.start, entry.until
        if start is None or until is None:
            return
        if until < start:
            self._findings.at_value(
                (*path, "until"),
                "date-range",
                f"until {until} lies before from {start}",
                "write the later day, with its year if it lies in another one",
            )
            return
        if keys.every is None:
            return
        number = (until - start).days // keys.every.low + 1
        if number > MOST_WAVES and (keys.count is None or keys.count > MOST_WAVES):
            self._findings.at_value(
                (*path, "every"),
                "too-many-waves",
                f"this entry asks for {number} waves",
                f"one entry makes at most {MOST_WAVES}: plant less often, or not for so long",
            )

    def _check_room(self, entry: Entry, beds: tuple[Bed, ...], path: Path, *, named: bool) -> None:
        if not beds or (not named and len(beds) < len(self._beds)):
            return
        most, together = self._room_for(entry.crop.area_per_plant, beds, named=named)
        where = "its beds" if named else "the beds"
        if most == 0:
            self._findings.at_value(
                (*path, "crop"),
                "no-bed-fits",
                f"not one plant of {quoted(entry.crop.name)} fits into any of {where}",
                "name a larger bed, or space it closer under crops:",
            )
            return
        room = together if entry.split else most
        if entry.plants > room:
            one = "" if entry.split else " one of"
            self._findings.at_value(
                (*path, "plants"),
                "too-many-plants",
                f"{entry.plants} plants do not fit into{one} {where} even when empty: "
                f"there is room for {room}",
                "plant fewer, or name more beds"
                if entry.split
                else "plant fewer, or leave out split: no",
            )

    def _room_for(self, area: int, beds: tuple[Bed, ...], *, named: bool) -> tuple[int, int]:
        """Return how many plants go into the largest bed, and into all of them."""
        if not named and area in self._room:
            return self._room[area]
        numbers = [bed.area // area for bed in beds]
        found = (max(numbers), sum(numbers))
        if not named:
            self._room[area] = found
        return found


def _series_of(crop: str) -> str:
    """Return what a crop's series is called: its name, with hyphens for spaces and signs.

    A wave's name is typed in a terminal, so it holds no spaces, quotes, brackets or other signs
    that mean something there.
    """
    parts = "".join(" " if char in _IN_THE_WAY else char for char in crop).split()
    return "-".join(part for part in parts if part != "-") or "-".join(crop.split())


def _every(keys: WaveKeys) -> DayRange | None:
    """Return the days from wave to wave; those between pickings where these are to be even."""
    return keys.every if keys.pick_every is None else DayRange(keys.pick_every, keys.pick_every)


def _list_beds(beds: dict[str, Bed | None]) -> str:
    names = ", ".join(named(bed)[1:-1] for bed in list(beds)[:6])
    return f"the beds are: {names}" + (", ..." if len(beds) > 6 else "") if beds else "add it"
