"""From the file's crops to crops with every number: the grower's, else the built-in one."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from types import MappingProxyType
from typing import Any

from sowtide.garden import library
from sowtide.garden.crop import Crop, Heat, Raised
from sowtide.garden.findings import Findings
from sowtide.garden.frame import Frame
from sowtide.garden.library import LibraryCrop
from sowtide.garden.places import Path
from sowtide.garden.refused import Refused, did_you_mean, quoted
from sowtide.garden.schema import CropKeys, HeatKeys
from sowtide.garden.varieties import base_origins, base_values, worthwhile_of

_REQUIRED = (
    "family",
    "weather",
    "raised",
    "days_to_harvest",
    "counted_from",
    "picking_days",
    "hardiness",
    "in_row",
    "between_rows",
)
_TEMPERATURES = ("soil_min", "soil_max", "warm_limit", "rated_at")
_LONGEST_ONCE = 60


class Crops:
    """The crops that can be named in a file: those of the file, then the built-in ones.

    Parameters
    ----------
    raw
        The file's crops as they stand there.
    frame
        Units and growing year, or None where they are not known.
    findings
        Where problems go.
    """

    __slots__ = (
        "_begun",
        "_built_in",
        "_by_kind",
        "_by_name",
        "_findings",
        "_frame",
        "_labelled",
        "_own",
        "_waiting",
    )

    def __init__(self, raw: Any, frame: Frame | None, findings: Findings) -> None:
        self._frame = frame
        self._findings = findings
        self._own: dict[str, Crop | None] = {}
        self._by_name: dict[str, str] = {}
        self._by_kind: dict[str, str] = {}
        self._built_in: dict[str, Crop | None] = {}
        self._labelled: dict[tuple[str, str], Crop] = {}
        self._waiting: dict[str, Any] = {}
        self._begun: list[str] = []
        if isinstance(raw, dict):
            self._waiting = {key: raw.get(key, {}) for key in findings.tree.keys(("crops",))}
            while self._waiting:
                self._define(next(iter(self._waiting)))
        elif raw is not None:
            findings.at_key(
                ("crops",),
                "not-a-mapping",
                "crops must be made of names and what is to be said of each",
                "write a crop below it, such as bush bean: {days_to_harvest: 50-55}",
            )

    def all(self) -> tuple[Crop, ...]:
        """Return the crops of the file and those asked for, in order of name."""
        known = [*self._own.values(), *self._built_in.values(), *self._labelled.values()]
        crops = [crop for crop in known if crop is not None]
        return tuple(sorted(crops, key=lambda crop: (crop.name.casefold(), crop.variety or "")))

    def find(self, name: str) -> tuple[bool, Crop | None]:
        """Look a crop up by name: whether there is one, and the crop unless it has problems."""
        key = self._by_name.get(name.casefold())
        if key is not None:
            return True, self._own[key]
        if name in self._built_in:
            return True, self._built_in[name]
        found = library.find(name)
        if found is None:
            return False, None
        key = self._by_kind.get(found.name)
        if key is not None:
            return True, self._own[key]
        called = " ".join(name.split())  # a grower's courgette stays a courgette
        self._built_in[name] = self._complete(called, found, CropKeys(), (), {})
        return True, self._built_in[name]

    def variety(self, crop: Crop, variety: str) -> Crop:
        """Return the file's crop of that kind and variety, or the crop with the variety's name."""
        if crop.variety == variety:
            return crop
        for own in self._own.values():
            if own is not None and own.kind == crop.kind and own.variety == variety:
                return own
        key = (crop.name, variety)
        if key not in self._labelled:
            self._labelled[key] = replace(crop, variety=variety)
        return self._labelled[key]

    def near(self, name: str) -> str:
        """Return what to do about a name that is no crop."""
        own = did_you_mean(name, (*self._own, *self._waiting))
        near = (own,) if own else library.near(name)
        if not near:
            whole = [known for known in library.names() if name.casefold() in known.split()]
            near = tuple(whole[:3])
        if near:
            return "did you mean " + " or ".join(f"'{word}'" for word in near) + "?"
        return "define it under crops:, or write a built-in crop such as 'bush bean'"

    def _define(self, key: str) -> None:
        """Read a crop of the file, and before it the one that it is like."""
        item = self._waiting.pop(key)
        path: Path = ("crops", key)
        name = " ".join(key.split())
        built_in = library.find(name)
        twin = self._by_name.get(name.casefold())
        if built_in is not None and twin is None:
            twin = self._by_kind.get(built_in.name)
        if twin is not None:
            line = self._findings.tree.key_span(("crops", twin)).line
            self._findings.at_key(
                path,
                "duplicate-name",
                f"{quoted(name)} is the same crop as {quoted(twin)} in line {line}",
                "give a second variety a name of its own and say what it is like, as in "
                f"late {name}: {{like: {name}}}",
            )
            return
        self._by_name[name.casefold()] = key
        if built_in is not None:
            self._by_kind[built_in.name] = key
        self._own[key] = None
        keys: CropKeys | None = self._findings.validate(CropKeys, item, path)
        if keys is None:
            return
        like: LibraryCrop | Crop | None = built_in
        if keys.like is not None:
            self._begun.append(key)
            like = self._like(key, keys.like)
            self._begun.pop()
            if like is None:
                return
        missing = [name for name in _REQUIRED if getattr(keys, name) is None]
        if like is None and missing:
            self._incomplete(name, missing, path)
            return
        self._own[key] = self._complete(name, like, keys, path, item)

    def _like(self, key: str, wanted: str) -> LibraryCrop | Crop | None:
        """Return the crop another is like: one of the file, else a built-in one.

        None if there is none, or none without problems; that is reported.
        """
        place: Path = ("crops", key, "like")
        built_in = library.find(wanted)
        other = self._own_called(wanted, built_in)
        if other is None or (other == key and built_in is not None):
            if built_in is None:
                self._findings.at_value(
                    place, "unknown-crop", f"there is no crop {quoted(wanted)}", self.near(wanted)
                )
            return built_in
        if other in self._waiting:
            self._define(other)
        if other in self._begun:
            self._findings.at_value(
                place,
                "crop-incomplete",
                "this crop is like itself"
                if other == key
                else f"{quoted(other)} is itself like {quoted(key)}, so neither has numbers",
                "name a built-in crop, such as like: bush bean",
            )
            return None
        return self._own.get(other)

    def _own_called(self, name: str, built_in: LibraryCrop | None) -> str | None:
        """Return the key of the file's own crop of that name, read already or still to be read."""
        known = [*self._own, *self._waiting]
        called = " ".join(name.split()).casefold()
        for key in known:
            if " ".join(key.split()).casefold() == called:
                return key
        for key in known:
            if built_in is not None and library.find(key) is built_in:
                return key
        return None

    def _incomplete(self, name: str, missing: list[str], path: Path) -> None:
        near = library.near(name)
        hint = "add them, or name the crop it is most like, as in like: bush bean"
        if near:
            hint = (
                f"did you mean the built-in '{near[0]}'? If it is another crop, add them, "
                f"or write like: {near[0]}"
            )
        self._findings.at_key(
            path,
            "crop-incomplete",
            f"{quoted(name)} is not built in and lacks {', '.join(missing)}",
            hint,
        )

    def _complete(
        self,
        name: str,
        like: LibraryCrop | Crop | None,
        keys: CropKeys,
        path: Path,
        written: dict[str, Any],
    ) -> Crop | None:
        """Put a crop together, or return None with its problems added."""
        if self._frame is None:
            return None
        before = len(self._findings.problems)
        values = base_values(name, like)
        origins = base_origins(like)
        for field, value in self._converted(keys, written, path, values):
            values[field] = value
            origins[field] = self._findings.origin((*path, field))
        values["worthwhile_days"] = self._worthwhile(keys, values, path)
        self._check_nursery(keys, values, path)
        self._check_temperatures(values, written, path)
        if len(self._findings.problems) > before:
            return None
        return Crop(**values, origins=MappingProxyType(origins))

    def _converted(
        self, keys: CropKeys, written: dict[str, Any], path: Path, base: dict[str, Any]
    ) -> Iterator[tuple[str, Any]]:
        """Yield the grower's own numbers in the units of the model."""
        frame = self._frame
        assert frame is not None
        for field in written:
            value = getattr(keys, field)
            try:
                if field in _TEMPERATURES:
                    value = frame.temperature(value)
                elif field == "heat":
                    value = self._heat(value, (*path, field), base.get("heat"))
                elif field in ("in_row", "between_rows"):
                    value = frame.spacing(value)
                elif field == "yield_per_plant":
                    value = frame.weight(value)
                elif field in ("long_day", "seeds_per_plant"):
                    value = float(value)
                elif field == "like":
                    continue
            except Refused as refused:
                self._findings.refused((*path, field), refused)
                continue
            yield field, value

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
            total = type(keys.units)(
                frame.degree_days(keys.units.low), frame.degree_days(keys.units.high)
            )
            found = replace(found, units=total)
        return replace(found, method=keys.method) if keys.method else found

    def _worthwhile(self, keys: CropKeys, values: dict[str, Any], path: Path) -> int:
        picking: int = values["picking_days"]
        most = _LONGEST_ONCE if picking == 1 else picking
        stated: int | None = values.get("worthwhile_days")
        if stated is not None and stated > most and keys.worthwhile_days is not None:
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
        if keys.hardening_days is None:
            values["hardening_days"] = nursery.low
            return
        self._findings.at_value(
            (*path, "hardening_days"),
            "crop-numbers",
            f"hardening_days: {hardening} is more than the {nursery.low} nursery days",
            f"write at most {nursery.low}: it is the last part of the nursery days",
        )

    def _check_temperatures(
        self, values: dict[str, Any], written: dict[str, Any], path: Path
    ) -> None:
        low, high = values.get("soil_min"), values.get("soil_max")
        if low is None or high is None or low < high:
            return
        name = "soil_min" if "soil_min" in written else "soil_max"
        if name in written:
            self._findings.at_value(
                (*path, name),
                "crop-numbers",
                "soil_min is not below soil_max",
                "seed comes up between the two",
            )
