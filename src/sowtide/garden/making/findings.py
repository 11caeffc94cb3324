"""Collecting the problems of a file, each at its place in it."""

from __future__ import annotations

from typing import Any

from pydantic import BaseModel, ValidationError

from sowtide.diagnostics import Problem, Severity, Span
from sowtide.garden.keys import (
    EXAMPLES,
    NOT_YET,
    BedKeys,
    CropKeys,
    FileKeys,
    FrostKeys,
    HeatKeys,
    NormalsKeys,
    SiteKeys,
    WaveKeys,
    known_keys,
    not_text,
)
from sowtide.garden.making.empties import cut_off, with_empty_keys, without_space
from sowtide.garden.text import Path, Refused, Tree, did_you_mean, quoted
from sowtide.reasons import Origin

# What growers may call a key, and its name here.
_ALSO_CALLED = {
    "start": "from",
    "sow": "from",
    "end": "until",
    "interval": "every",
    "quantity": "plants",
    "number": "plants",
    "spacing": "in_row",
    "row_spacing": "between_rows",
    "days": "days_to_harvest",
    "maturity": "days_to_harvest",
    "year": "season",
    "lat": "latitude",
    "title": "name",
    "garden": "site",
    "plantings": "waves",
}
_SECTIONS: dict[type[BaseModel], str] = {
    SiteKeys: "under site:",
    BedKeys: "in an entry of beds:",
    CropKeys: "in a crop of crops:",
    WaveKeys: "in an entry of waves:",
    FileKeys: "at the left margin",
}


class Findings:
    """The problems found in a tree so far."""

    __slots__ = ("label", "problems", "tree")

    def __init__(self, tree: Tree) -> None:
        self.tree = tree
        self.label = tree.source.label
        self.problems: list[Problem] = list(tree.problems)

    def at_value(self, path: Path, code: str, message: str, hint: str | None) -> None:
        """Add a problem of a value."""
        if not self.tree.is_settled(path):
            self.add(code, message, hint, self.tree.value_span(path))

    def at_key(self, path: Path, code: str, message: str, hint: str | None) -> None:
        """Add a problem of a key, or of a whole section or entry."""
        if not self.tree.is_settled(path):
            self.add(code, message, hint, self.tree.key_span(path))

    def refused(self, path: Path, refused: Refused) -> None:
        """Add the problem of a value that was refused."""
        message = refused.message
        named = self.tree.key_of(path)
        if named is not None:
            message = f"{quoted(named)[1:-1]}: {message}"
        self.at_value(path, refused.code, message, refused.hint)

    def origin(self, path: Path) -> Origin:
        """Return the place of a value as the origin of a number."""
        return Origin(self.label, self.tree.value_span(path).line)

    def validate(self, section: type[BaseModel], raw: Any, path: Path) -> Any:
        """Return the section read by its model, or None with its problems added."""
        if self.tree.empty:
            raw = with_empty_keys(raw, self._place(path), section)
        try:
            return section.__pydantic_validator__.validate_python(raw)
        except ValidationError as error:
            self._invalid(section, error, path)
            return None

    def _place(self, path: Path) -> Any:
        branch, step, complete = self.tree.walk(path)
        if not complete:
            return None
        return self.tree.root if branch is None or step is None else branch.values[step]

    def _is_empty(self, path: Path) -> bool:
        """Say whether nothing is written after a key."""
        return getattr(self._place(path), "value", None) == ""

    def _invalid(self, section: type[BaseModel], error: ValidationError, path: Path) -> None:
        details = error.errors(include_url=False, include_input=True)
        missing = {d["loc"] for d in details if d["type"] == "missing"}
        for detail in details:
            if detail["type"] == "extra_forbidden":
                missing -= self._unknown(section, detail["loc"], path, missing)
        keys = {d["loc"][:-1] for d in details if d["loc"][-1:] == ("[key]",)}
        for detail in details:
            loc = detail["loc"]
            if (loc in keys or loc[:-1] in keys) and loc[-1] != "[key]":
                continue  # one word about a key is enough
            if detail["type"] == "missing":
                if loc in missing:
                    self._missing(path + loc)
            elif detail["type"] == "value_error":
                self._value_refused(path, loc, detail["ctx"]["error"])
            elif detail["type"] == "string_type":
                self.refused(path + loc, not_text(detail["input"]))
            elif detail["type"] != "extra_forbidden":
                self._wrong_shape(detail["type"], path + loc)

    def _value_refused(self, path: Path, loc: Path, refused: Exception) -> None:
        assert isinstance(refused, Refused)
        if loc and loc[-1] == "[key]":
            place = path + loc[:-1]
            name = loc[-3] if len(loc) > 2 else "key"
            message = f"{name}: {refused.message}"
            self.at_key(place, refused.code, message, refused.hint)
            return
        self.refused(path + loc, refused)

    def _unknown(
        self, section: type[BaseModel], loc: Path, path: Path, missing: set[Path]
    ) -> set[Path]:
        """Report an unknown key; return the missing keys that it explains."""
        key = str(loc[-1])
        place = path + loc
        inner = _inner(section, loc)
        if key in NOT_YET.get(inner, ()):
            self.at_key(
                place,
                "not-yet",
                f"{quoted(key)} cannot be used by this version yet",
                "delete it with all that belongs to it",
            )
            return {(*loc[:-1], name) for name in ("last", "first", "frost")}
        empty = self._is_empty(place)
        parts = without_space(key) if empty else None
        if parts is not None:
            name, rest = parts
            span = self.tree.key_span(place)
            column = span.text.find(":", span.column - 1)
            self.add(
                "colon",
                "a space is missing after this colon",
                f"write {name}: {rest}",
                self.tree.source.span(span.line - 1, column),
            )
            return {(*loc[:-1], name)}
        remedy = cut_off(self.tree, place, inner) if empty else None
        if remedy is not None:
            if remedy:
                self.at_key(place, "unknown-key", f"unknown key {quoted(key)}", remedy)
            return set()
        absent = tuple(str(other[-1]) for other in missing if other[:-1] == loc[:-1])
        meant = _meant(key, absent, inner)
        self.at_key(place, "unknown-key", f"unknown key {quoted(key)}", _hint(key, meant, inner))
        return {(*loc[:-1], meant)} if meant else set()

    def _missing(self, path: Path) -> None:
        key = quoted(str(path[-1]))
        _, _, complete = self.tree.walk(path)
        example = EXAMPLES.get(str(path[-1]))
        if complete:
            hint = "write its value after the colon"
            if len(path) == 1 and path != ("season",):
                hint = f"indent what belongs to it; on one line it looks like {example}"
            self.at_key(path, "missing", f"nothing is written after {key}", hint)
            return
        parent = path[:-1]
        where = _owner(parent)
        self.at_key(
            parent,
            "missing",
            f"{key} is missing{where}",
            f"add it, such as {example}" if example else "add it",
        )

    def _wrong_shape(self, kind: str, path: Path) -> None:
        name = next((str(part) for part in reversed(path) if isinstance(part, str)), "the file")
        if isinstance(path[-1] if path else None, int):
            name = f"this entry of {name}"
        if kind == "list_type":
            self.at_value(
                path, "not-a-list", f"{name} must be a list", "begin each entry with '- '"
            )
            return
        self.at_value(
            path,
            "not-a-mapping",
            f"{name} must be made of keys and values",
            "write each as a key, a colon, a space and its value",
        )

    def add(
        self,
        code: str,
        message: str,
        hint: str | None,
        span: Span,
        severity: Severity = Severity.ERROR,
    ) -> None:
        """Add a problem at a place."""
        self.problems.append(Problem(severity, code, message, hint, span))


def _inner(section: type[BaseModel], loc: Path) -> type[BaseModel]:
    """Return the section that the last step of a path is a key of."""
    if section is SiteKeys and len(loc) > 1:
        return NormalsKeys if "normals" in loc[:-1] else FrostKeys
    if section is CropKeys and len(loc) > 1:
        return HeatKeys
    return section


def _meant(key: str, absent: tuple[str, ...], section: type[BaseModel]) -> str | None:
    """Return the key of a section that an unknown one stands for; one that is absent first."""
    known = known_keys(section)
    meant = _ALSO_CALLED.get(key.lower())
    if meant in known:
        return meant
    if section is FileKeys and any(key in known_keys(other) for other in _SECTIONS):
        return None  # not misspelt but in the wrong column
    near = did_you_mean(key, absent) or did_you_mean(key, known)
    if near is None and absent:
        import difflib

        near = next(iter(difflib.get_close_matches(key.lower(), absent, 1, 0.65)), None)
    if near is None and len(key) > 3:
        called = did_you_mean(key, tuple(n for n, meant in _ALSO_CALLED.items() if meant in known))
        near = _ALSO_CALLED[called] if called else None
    return near


def _hint(key: str, meant: str | None, section: type[BaseModel]) -> str:
    if meant is not None:
        return f"did you mean '{meant}'?"
    for other, where in _SECTIONS.items():
        if other is not section and key in known_keys(other):
            return f"'{key}' belongs {where}; is it indented as far as it should be?"
    return "the keys here are: " + ", ".join(known_keys(section))


def _owner(path: Path) -> str:
    named = next((str(part) for part in reversed(path) if isinstance(part, str)), None)
    if named is None:
        return ""
    if isinstance(path[-1], int):
        return f" from this entry of {named}"
    return f" under {quoted(named)}"
