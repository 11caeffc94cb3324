"""From the file's want list to what is wanted of each crop."""

from __future__ import annotations

from datetime import date
from typing import Any

from sowtide.days import GrowingYear
from sowtide.garden.crop import Crop
from sowtide.garden.keys import SiteKeys, WantKeys, read_list, read_section
from sowtide.garden.library import KnownYield, yield_of
from sowtide.garden.making.crops import Crops
from sowtide.garden.readers import (
    BUNCHES,
    PIECES,
    Frame,
    kind_of,
    resolve,
    resolve_span,
    with_unit,
)
from sowtide.garden.text import Findings, Path, Refused, quoted
from sowtide.garden.want import Want
from sowtide.units import KILOGRAMS, show_number

_ONE_EACH = ("heads", "bulbs", "roots")
"""What a plant has one of."""
_HALF_A_POUND = KILOGRAMS["lb"] / 2
"""What a bunch weighs, or a plant gives, in examples: common practice, no source. [kg]"""


class Wants:
    """Resolves a file's wants one after another.

    Parameters
    ----------
    frame
        Units and growing year, or None where they are not known.
    crops
        The crops that can be named.
    site
        What the file says of the place; None where it could not be read.
    findings
        Where problems go.
    """

    __slots__ = ("_crops", "_findings", "_frame", "_people")

    def __init__(
        self, frame: Frame | None, crops: Crops, site: SiteKeys | None, findings: Findings
    ) -> None:
        self._frame = frame
        self._crops = crops
        self._findings = findings
        self._people = None if site is None else site.people

    def read(self, raw: Any) -> tuple[Want, ...]:
        """Return the wants that have no problems; the problems are added."""
        example = "{crop: bush bean, amount: 5 lb, every: week}"
        items = read_list(raw, "want", self._findings, example=example)
        found = [self._want(item, ("want", number)) for number, item in enumerate(items)]
        return tuple(each for each in found if each is not None)

    def _want(self, item: Any, path: Path) -> Want | None:
        before = len(self._findings.problems)
        keys = read_section(WantKeys, item, path, self._findings)
        if keys is None:
            return None
        crop = self._crops.named_at(keys.crop, (*path, "crop"))
        self._check_when(keys, path)
        first, last = self._days(keys, path)
        people = self._people_of(keys, path)
        unit = keys.amount.unit or PIECES
        if crop is not None:
            self._check_unit(crop, unit, path)
        if crop is None or self._frame is None or len(self._findings.problems) > before:
            return None
        return Want(
            crop=crop,
            amount=float(keys.amount.low) * people,
            unit=unit,
            every=None if keys.in_ is not None else keys.every or 7,
            first=first,
            last=last,
            is_first=keys.first,
            span=self._findings.tree.value_span((*path, "crop")),
        )

    def _people_of(self, keys: WantKeys, path: Path) -> int:
        if keys.per is None:
            return 1
        if self._people is None:
            self._findings.at_value(
                (*path, "per"),
                "want-people",
                "per: person, and nothing says how many people there are",
                "add people: 4 to site:",
            )
        return self._people or 1

    def _check_when(self, keys: WantKeys, path: Path) -> None:
        """What is wanted once is not wanted again and again."""
        if keys.in_ is None:
            return
        for key, said in (("every", keys.every), ("from", keys.start), ("until", keys.until)):
            if said is not None:
                self._findings.at_key(
                    (*path, key),
                    "want-when",
                    f"{quoted(key)} beside 'in': what is wanted once is wanted in those days",
                    "delete one of the two",
                )

    def _days(self, keys: WantKeys, path: Path) -> tuple[date | None, date | None]:
        if self._frame is None:
            return None, None
        year, first, last, key = self._frame.year, None, None, "in"
        try:
            if keys.in_ is not None:
                span = resolve_span(keys.in_, year)
                first, last = span.first, span.last
            elif keys.start is not None:
                key = "from"
                first = resolve(keys.start, year, end=False)
            if keys.in_ is None and keys.until is not None:
                key = "until"
                last = resolve(keys.until, year, end=True)
        except Refused as refused:
            self._findings.refused((*path, key), refused)
            return None, None
        if first is not None and last is not None and last < first:
            self._findings.at_value(
                (*path, "until"),
                "date-range",
                f"until {last} lies before from {first}",
                "write the later day, with its year if it lies in another one",
            )
        elif last is not None and last < year.first:
            self._other_year((*path, "until" if keys.in_ is None else "in"), last, year)
        elif first is not None and first > GrowingYear(year.season + 1, south=year.south).last:
            self._other_year((*path, "from" if keys.in_ is None else "in"), first, year)
        return first, last

    def _other_year(self, path: Path, day: date, year: GrowingYear) -> None:
        """What is planted in a season is picked in it, or in the next where it stands over."""
        self._findings.at_value(
            path,
            "want-year",
            f"nothing planted in the season of {year.season} is picked on {day}",
            f"write a day of that season, or season: {year.holding(day).season} for the other one",
        )

    def _check_unit(self, crop: Crop, unit: str, path: Path) -> None:
        """The amount is of the same kind as what a plant gives: weighed, counted or bunched."""
        if yield_of(crop, unit) is not None:
            return
        known = yield_of(crop)
        wanted = "by weight" if unit == "kg" else f"in {unit}"
        example = self._example(crop, unit, known)
        if known is None:
            self._findings.at_value(
                (*path, "crop"),
                "want-unit",
                f"nothing is known of what a plant of {quoted(crop.name)} gives",
                f"add under crops: {crop.name}: {{yield_per_plant: {example}}}",
            )
            return
        given = "by weight" if known.gives.is_weight else f"in {known.gives.unit}"
        self._findings.at_value(
            (*path, "amount"),
            "want-unit",
            f"{quoted(crop.name)} is wanted {wanted}, and its yield is known {given}",
            f"write the amount {given}, or add under crops: "
            f"{crop.name}: {{yield_per_plant: {example}}}",
        )

    def _example(self, crop: Crop, unit: str, known: KnownYield | None) -> str:
        """Return what a plant of a crop may give, to be written instead of nothing."""
        if unit != "kg":
            one_each = unit in _ONE_EACH or "leaves" in (crop.pick_when or "")
            return with_unit("1", unit) if one_each and kind_of(unit) == PIECES else f"2-4 {unit}"
        weighed = "kg" if self._frame is None else self._frame.units.weight_unit
        each = _HALF_A_POUND / KILOGRAMS[weighed]
        if known is None or kind_of(known.gives.unit) != BUNCHES:
            return f"{show_number(float(each))}-{show_number(float(2 * each))} {weighed}"
        ends = (show_number(end * float(each), 2) for end in (known.gives.low, known.gives.high))
        return f"{'-'.join(ends)} {weighed}"
