"""From the file's want list to what is wanted of each crop."""

from __future__ import annotations

from datetime import date
from typing import Any

from sowtide.garden.crop import Crop
from sowtide.garden.keys import SiteKeys, WantKeys, read_list, read_section
from sowtide.garden.library import yield_of
from sowtide.garden.making.crops import Crops
from sowtide.garden.readers import PIECES, Frame, resolve, resolve_span
from sowtide.garden.text import Findings, Path, Refused, quoted
from sowtide.garden.want import Want


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
        key = "in"
        year = self._frame.year
        try:
            if keys.in_ is not None:
                span = resolve_span(keys.in_, year)
                return span.first, span.last
            key = "from"
            first = None if keys.start is None else resolve(keys.start, year, end=False)
            key = "until"
            last = None if keys.until is None else resolve(keys.until, year, end=True)
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
        return first, last

    def _check_unit(self, crop: Crop, unit: str, path: Path) -> None:
        """The amount is of the same kind as what a plant gives: weighed, counted or bunched."""
        if yield_of(crop, unit) is not None:
            return
        known = yield_of(crop)
        wanted = "by weight" if unit == "kg" else f"in {unit}"
        example = "0.5-1" if unit == "kg" else f"2-4 {unit}"
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
