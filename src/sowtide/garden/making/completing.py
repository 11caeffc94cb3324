"""A crop put together: the grower's own figures over those that it is like."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from sowtide.garden.crop import Crop, Heat, Raised
from sowtide.garden.keys import CropKeys, HeatKeys
from sowtide.garden.library import CROP_FIELDS, LibraryCrop
from sowtide.garden.readers import Frame
from sowtide.garden.text import Findings, Path, Refused, quoted
from sowtide.garden.varieties import base_origins, base_values, worthwhile_of
from sowtide.reasons import Origin

_LONGEST_ONCE = 60


class Completing:
    """Puts crops together in the units of the model, and reports figures that do not agree.

    Parameters
    ----------
    frame
        Units and growing year, or None where they are not known: then there are no crops.
    findings
        Where problems go.
    """

    __slots__ = ("_findings", "_frame")

    def __init__(self, frame: Frame | None, findings: Findings) -> None:
        self._frame = frame
        self._findings = findings

    def crop(
        self,
        name: str,
        like: LibraryCrop | Crop | None,
        keys: CropKeys,
        path: Path,
    ) -> Crop | None:
        """Put a crop together, or return None with its problems added."""
        if self._frame is None:
            return None
        before = len(self._findings.problems)
        values = base_values(name, like)
        origins = base_origins(like)
        if path:
            line = self._findings.tree.key_span(path).line
            origins["name"] = Origin(self._findings.label, line)
        for field, value in self._converted(keys, path, values):
            values[field] = value
            origins[field] = self._findings.origin((*path, field))
        if "hardiness" in keys.figures:  # the grower's word goes before the built-in degrees
            for field in {"killed_at", "flowers_killed_at"} - keys.figures.keys():
                values.pop(field, None)
                origins.pop(field, None)
        if "ready" in keys.figures:
            values.pop("ready_about", None)
        values["worthwhile_days"] = self._worthwhile(keys, values, path)
        self._check_nursery(keys, values, path)
        self._check_ready(values, keys, path)
        self._check_temperatures(values, keys.figures, path)
        self._check_sort(values, origins, keys.figures, path)
        if len(self._findings.problems) > before:
            return None
        return Crop(**values, origins=MappingProxyType(origins))

    def _converted(
        self, keys: CropKeys, path: Path, base: dict[str, Any]
    ) -> Iterator[tuple[str, Any]]:
        """Yield the grower's own numbers in the units of the model."""
        frame = self._frame
        assert frame is not None
        for key, found in keys.figures.items():
            if key == "heat":
                yield key, self._heat(found, (*path, key), base.get(key))
                continue
            try:
                yield key, CROP_FIELDS[key].kind.convert(frame, found)
            except Refused as refused:
                self._findings.refused((*path, key), refused)

    def _heat(self, keys: HeatKeys, path: Path, built_in: Heat | None) -> Heat:
        frame = self._frame
        assert frame is not None
        found = built_in or Heat()
        try:
            if keys.base is not None:
                name = "base"
                found = replace(found, base=frame.temperature(keys.base))
            if keys.upper is not None:
                name = "upper"
                found = replace(found, upper=frame.temperature(keys.upper))
        except Refused as refused:
            self._findings.refused((*path, name), refused)
        if found.base is not None and found.upper is not None and found.upper <= found.base:
            self._findings.at_value(
                (*path, "upper" if keys.upper is not None else "base"),
                "crop-numbers",
                "heat: the upper temperature is not above the base",
                "the base is where growth begins, the upper where more warmth adds none",
            )
        if keys.units is not None:
            if keys.method is None or found.base is None:
                self._findings.at_value(
                    (*path, "units"),
                    "crop-numbers",
                    "heat: units are only good with the base and method they were measured with",
                    "add base: and method: (clip, average or sine)",
                )
            total = CROP_FIELDS["heat_units"].kind.convert(frame, keys.units)
            found = replace(found, units=total)
        return replace(found, method=keys.method) if keys.method else found

    def _check_sort(
        self,
        values: dict[str, Any],
        origins: dict[str, Origin],
        written: Mapping[str, Any],
        path: Path,
    ) -> None:
        """One sort is chosen only where the days to harvest are those of all of them."""
        own_days = "days_to_harvest" in origins and origins["days_to_harvest"].file is not None
        spans = values.get("sorts") or values.get("days_by_sort")
        if "sort" in written and (own_days or not spans):
            self._findings.at_value(
                (*path, "sort"),
                "crop-numbers",
                "sort: its days to harvest are those of one sort already",
                "delete the sort, or write the days of the variety you grow",
            )

    def _worthwhile(self, keys: CropKeys, values: dict[str, Any], path: Path) -> int:
        picking: int = values["picking_days"]
        most = _LONGEST_ONCE if picking == 1 else picking
        stated: int | None = values.get("worthwhile_days")
        if stated is not None and stated > most and "worthwhile_days" in keys.figures:
            self._findings.at_value(
                (*path, "worthwhile_days"),
                "crop-numbers",
                f"worthwhile_days: {stated} is more than "
                + ("a crop cut once holds" if picking == 1 else f"the {picking} picking days"),
                f"write at most {most}",
            )
        if stated is not None and stated <= most:
            return stated
        return worthwhile_of(picking)

    def _check_nursery(self, keys: CropKeys, values: dict[str, Any], path: Path) -> None:
        nursery = values.get("nursery_days")
        hardening: int = values.get("hardening_days", 0)
        if nursery is None:
            if values["raised"] is Raised.TRAYS:
                self._findings.at_key(
                    path,
                    "crop-incomplete",
                    f"{quoted(values['name'])} is raised in trays and lacks nursery_days",
                    "add the days from sowing to planting out, such as nursery_days: 21-35",
                )
            return
        if hardening <= nursery.low:
            return
        if "hardening_days" not in keys.figures:
            values["hardening_days"] = nursery.low
            return
        self._findings.at_value(
            (*path, "hardening_days"),
            "crop-numbers",
            f"hardening_days: {hardening} is more than the {nursery.low} nursery days",
            f"write at most {nursery.low}: it is the last part of the nursery days",
        )

    def _check_ready(self, values: dict[str, Any], keys: CropKeys, path: Path) -> None:
        """Days written for the spring are read of crops alone that stand over the winter."""
        if "ready" in keys.figures and not values.get("overwinters"):
            self._findings.at_key(
                (*path, "ready"),
                "crop-numbers",
                f"ready: {quoted(values['name'])} does not stand over the winter",
                "write overwinters: yes if it does, or delete the days",
            )

    def _check_temperatures(
        self, values: dict[str, Any], written: Mapping[str, Any], path: Path
    ) -> None:
        self._check_rating(values, written, path)
        low, high = values.get("soil_min"), values.get("soil_max")
        if low is None or high is None or low < high:
            return
        self._at_either(
            ("soil_min", "soil_max"),
            written,
            path,
            "soil_min is not below soil_max",
            "seed comes up between the two",
        )

    def _check_rating(self, values: dict[str, Any], written: Mapping[str, Any], path: Path) -> None:
        """Growth is counted from the base up: the days to harvest cannot be right below it."""
        rated_at, heat = values.get("rated_at"), values.get("heat")
        if rated_at is None or heat is None or heat.base is None or rated_at > heat.base:
            return
        self._at_either(
            ("rated_at", "heat"),
            written,
            path,
            "rated_at is not above the base of heat",
            "rated_at is the daily mean at which the days to harvest are right",
        )

    def _at_either(
        self,
        names: tuple[str, str],
        written: Mapping[str, Any],
        path: Path,
        message: str,
        hint: str,
    ) -> None:
        """Tell of two numbers that do not go together at the first of them that is written."""
        name = next((each for each in names if each in written), None)
        if name is not None:
            self._findings.at_value((*path, name), "crop-numbers", message, hint)
