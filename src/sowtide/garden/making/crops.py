"""From the file's crops to crops with every number: the grower's, else the built-in one."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from sowtide.garden import library
from sowtide.garden.crop import Crop, Sort
from sowtide.garden.keys import CropKeys, read_section
from sowtide.garden.library import LibraryCrop
from sowtide.garden.making.completing import Completing
from sowtide.garden.readers import Frame, text
from sowtide.garden.text import Findings, Path, Refused, did_you_mean, named, quoted

_DEFINE = "define it under crops:, or write a built-in crop such as 'bush bean'"


class Crops:
    """The crops that can be named in a file: those of the file, then the built-in ones."""

    __slots__ = (
        "_begun",
        "_built_in",
        "_by_kind",
        "_by_name",
        "_called",
        "_completing",
        "_findings",
        "_kinds",
        "_labelled",
        "_own",
        "_varieties",
        "_waiting",
    )

    def __init__(self, raw: Any, frame: Frame | None, findings: Findings) -> None:
        self._completing = Completing(frame, findings)
        self._findings = findings
        self._own: dict[str, Crop | None] = {}
        self._by_name: dict[str, str] = {}
        self._by_kind: dict[str, str] = {}
        self._built_in: dict[str, Crop | None] = {}
        self._labelled: dict[tuple[str, str], Crop] = {}
        self._waiting: dict[str, Any] = {}
        self._begun: set[str] = set()
        self._called: dict[str, str] = {}
        self._kinds: dict[str, str] = {}
        self._varieties: set[str] = set()
        if isinstance(raw, dict):
            self._waiting = {key: raw.get(key, {}) for key in findings.tree.keys(("crops",))}
            for key in self._waiting:
                self._called.setdefault(" ".join(key.split()).casefold(), key)
                built_in = library.find(key)
                if built_in is not None:
                    self._kinds.setdefault(built_in.name, key)
            while self._waiting:
                self._define_with_models(next(iter(self._waiting)))
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
        key = self._by_name.get(name.casefold()) or self._plural_of(name)
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
        self._built_in[name] = self._completing.crop(called, found, CropKeys(), ())
        return True, self._built_in[name]

    def named_at(self, name: str, path: Path) -> Crop | None:
        """Return the crop that is named at a place of the file; that there is none is reported."""
        known, crop = self.find(name)
        if not known:
            self._findings.at_value(
                path, "unknown-crop", f"there is no crop {quoted(name)}", self.near(name)
            )
        return crop

    def _plural_of(self, name: str) -> str | None:
        """Return the key of the file's crop that a name is the plural of."""
        if not name.casefold().endswith("s"):
            return None
        forms = library.singulars(name)
        return next((key for key in self._own if library.plain(key) in forms), None)

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

    def of_sort(self, crop: Crop, sort: Sort) -> Crop | None:
        """Return a crop of another sort than the file grows as a rule; None where it is of one.

        One object for all entries of the sort.
        """
        found = crop.of_sort(sort)
        if found is None or found is crop:
            return found
        return self._labelled.setdefault((crop.name, sort.value), found)

    def near(self, name: str) -> str:
        """Return what to do about a name that is no crop."""
        if self._findings.many:
            return _DEFINE
        unplanned = library.why_unplanned(name)
        if unplanned is not None:
            return unplanned
        own = did_you_mean(name, (*self._own, *self._waiting))
        near = (own,) if own else library.near(name)
        if not near:
            whole = [known for known in library.names() if name.casefold() in known.split()]
            near = tuple(whole[:3])
        if near:
            return "did you mean " + " or ".join(map(named, near)) + "?"
        return _DEFINE

    def _define_with_models(self, key: str) -> None:
        """Read a crop of the file, and before it those that it is like, the last of them first."""
        chain = {key: None}
        while True:
            item = self._waiting[key]
            wanted = item.get("like") if isinstance(item, dict) else None
            model = self._own_called(wanted, key) if isinstance(wanted, str) else None
            if model not in self._waiting or model in chain:
                break
            key = model
            chain[key] = None
        self._begun = set(chain)
        for each in reversed(chain):
            self._define(each)
            self._begun.discard(each)

    def _define(self, key: str) -> None:
        """Read a crop of the file; the one that it is like has been read.

        One that is like another and goes by a second name of a built-in crop, such as *baby
        carrot*, is a variety: it stands for the built-in crop only while the file has no other.
        """
        item = self._waiting.pop(key)
        path: Path = ("crops", key)
        name = " ".join(key.split())
        try:
            text(name)
        except Refused as refused:
            self._findings.at_key(path, refused.code, refused.message, refused.hint)
        built_in = library.find(name)
        variety = built_in is not None and _says_like(item) and not built_in.is_called(name)
        if not self._take_name(name, key, built_in, variety=variety):
            return
        self._own[key] = None
        keys = read_section(CropKeys, item, path, self._findings)
        if keys is None:
            return
        like: LibraryCrop | Crop | None = built_in
        if keys.like is not None:
            like = self._like(key, keys.like)
            if like is None:
                return
        needed = [field.name for field in library.CROP_FIELDS.values() if field.is_needed]
        missing = [name for name in needed if name not in keys.figures]
        if like is None and missing:
            self._incomplete(name, missing, path)
            return
        self._own[key] = self._completing.crop(name, like, keys, path)

    def _take_name(
        self, name: str, key: str, built_in: LibraryCrop | None, *, variety: bool
    ) -> bool:
        """Let a crop go by its name, unless another of the file does; that is reported."""
        twin = self._by_name.get(name.casefold())
        if built_in is not None and twin is None and not variety:
            twin = self._by_kind.get(built_in.name)
        if twin is not None and twin not in self._varieties:
            line = self._findings.tree.key_span(("crops", twin)).line
            self._findings.at_key(
                ("crops", key),
                "duplicate-name",
                f"{quoted(name)} is the same crop as {quoted(twin)} in line {line}",
                "give a second variety a name of its own and say what it is like, as in "
                f"late {name}: {{like: {name}}}",
            )
            return False
        self._by_name[name.casefold()] = key
        if variety:
            self._varieties.add(key)
        if built_in is not None and not (variety and built_in.name in self._by_kind):
            self._by_kind[built_in.name] = key
        return True

    def _like(self, key: str, wanted: str) -> LibraryCrop | Crop | None:
        """Return the crop another is like: one of the file, else a built-in one.

        None if there is none, or none without problems; that is reported.
        """
        place: Path = ("crops", key, "like")
        built_in = library.find(wanted)
        other = self._own_called(wanted, key)
        if other is None:
            if built_in is None:
                self._findings.at_value(
                    place, "unknown-crop", f"there is no crop {quoted(wanted)}", self.near(wanted)
                )
            return built_in
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

    def _own_called(self, wanted: str, key: str) -> str | None:
        """Return the key of the file's own crop that another is like; None for a built-in one."""
        built_in = library.find(wanted)
        own = self._called.get(" ".join(wanted.split()).casefold())
        if own is None and built_in is not None:
            own = self._kinds.get(built_in.name)
        return None if own == key and built_in is not None else own

    def _incomplete(self, name: str, missing: list[str], path: Path) -> None:
        hint = "add them, or name the crop it is most like, as in like: bush bean"
        near = library.near(name)
        meant = library.find(near[0]) if near else None
        unplanned = library.why_unplanned(name)
        if unplanned is not None:
            hint = unplanned
        elif meant is not None:
            hint = (
                f"did you mean the built-in '{meant.name}'? If it is another crop, add them, "
                f"or write like: {meant.name}"
            )
        self._findings.at_key(
            path,
            "crop-incomplete",
            f"{quoted(name)} is not built in and lacks {', '.join(missing)}",
            hint,
        )


def _says_like(item: Any) -> bool:
    return isinstance(item, dict) and "like" in item
