"""What single lines of a garden's file are read as, or refused for: a table of them.

    PYTHONPATH=tests python tests/garden/lines_of_sections.py --update  # then read the difference

A line of ``lines_of_sections.tsv`` is a section, what stands in one of its entries, and what comes
of it: what is made that was not so without it, or after ``!`` each problem with the column, its
code, what it says and what to write instead. Of a new line the first two are written, and the rest
by ``--update``. All stand in one small garden, with the keys that an entry must have and lacks.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Any

from sowtide.diagnostics import Span
from sowtide.garden.crop import Crop
from sowtide.garden.model import Bed, Garden
from sowtide.garden.read import read_garden
from sowtide.reasons import Origin

TABLE = Path(__file__).with_name("lines_of_sections.tsv")

_MUST = {
    "site": "name: Here, latitude: 45, units: metric, frost: {last: 05-10, first: 10-01}",
    "bed": "bed: New, size: 1 x 10",
    "crop": "",
    "wave": "crop: kale, plants: 4, from: 05-20",
    "want": "crop: kale, amount: 1 kg",
    "watch": "look_for: moths, base: 10, total: 500",
}


def _entry(section: str, line: str) -> str:
    """Return an entry with its own keys first, and of those that it must have what it lacks."""
    own = {part.partition(":")[0].strip() for part in line.replace("{", ",").split(",")}
    must = _MUST[section].replace("{last: 05-10, first: 10-01}", "FROST").split(", ")
    more = [each for each in must if each and each.partition(":")[0] not in own]
    joined = ", ".join(each for each in (line, *more) if each)
    return f"{{{joined}}}".replace("FROST", "{last: 05-10, first: 10-01}")


def file_with(section: str, line: str) -> str:
    """Return the garden's file with a line in one of its sections."""
    entry = _entry(section, line)
    crop, _, figures = line.partition(": ") if section == "crop" else ("kale", "", "{}")
    lines = [
        f"site: {entry if section == 'site' else _entry('site', '')}",
        "season: 2026",
        "beds:",
        "  - {bed: Low, size: 1 x 10}",
        "  - {bed: Lower, size: 0.5 x 2, grew: {2025: cabbage family}}",
        "  - {bed: High, size: 1 x 10, taken: 06-01..06-30}",
        *([f"  - {entry}"] if section == "bed" else []),
        "crops:",
        f"  {crop}: {figures}",
        *(["  kale: {}"] if crop.casefold() != "kale" else []),
        "  my kale: {like: kale, variety: Tall}",
        "waves:",
        *([f"  - {entry}"] if section == "wave" else ["  - {crop: kale, plants: 2, from: 05-01}"]),
        *(["want:", f"  - {entry}"] if section == "want" else []),
        *(["watch:", f"  - {entry}"] if section == "watch" else []),
    ]
    return "\n".join([*lines, ""])


def _made(section: str, line: str, garden: Garden) -> Any:
    if section == "site":
        return garden.site
    if section == "crop":
        name = line.partition(":")[0]
        return next(each for each in garden.crops if each.name == " ".join(name.split()))
    of = {
        "bed": garden.beds,
        "wave": garden.entries,
        "want": garden.wants,
        "watch": garden.watches,
    }[section]
    return of[-1]


def said(section: str, line: str) -> str:
    """Return what comes of a line as it stands in the table."""
    reading = read_garden(file_with(section, line).encode(), "garden.yaml")
    problems = [
        f"! {each.span.column} {each.code}: {each.message} -> {each.hint}"
        for each in reading.problems
        if each.span is not None
    ]
    if reading.garden is None:
        return " ".join(problems)
    plain = "kale: {}" if section == "crop" else ""
    before = read_garden(file_with(section, plain).encode(), "garden.yaml").garden
    assert before is not None
    was, now = (
        _made(*each) for each in ((section, plain, before), (section, line, reading.garden))
    )
    changed = [
        f"{name}: {_shown(getattr(now, name))}"
        for name in now.__match_args__
        if _shown(getattr(now, name)) != _shown(getattr(was, name))
    ]
    return " ".join(["; ".join(changed) or "the same", *problems])


def _shown(found: Any) -> str:
    if isinstance(found, Span):
        return str(found.column)
    if isinstance(found, Origin):
        return "" if found.file else str(found.source)
    if isinstance(found, Crop):
        return f"{found.title} ({found.sort.value})"
    if isinstance(found, Bed):
        return found.name
    if isinstance(found, tuple):
        return f"[{', '.join(map(_shown, found))}]"
    if isinstance(found, float):
        return f"{found:.4g}"
    return "" if hasattr(found, "items") else str(found)


def rows() -> list[tuple[str, str, str]]:
    """Return the rows of the table."""
    lines = TABLE.read_text(encoding="utf-8").splitlines()
    parted = [[*line.split("\t"), ""][:3] for line in lines]
    return [(section, line, told) for section, line, told in parted]


if __name__ == "__main__":
    if sys.argv[1:] != ["--update"]:
        sys.exit("usage: python tests/garden/lines_of_sections.py --update")
    made = [f"{section}\t{line}\t{said(section, line)}\n" for section, line, _ in rows()]
    TABLE.write_text("".join(made), encoding="utf-8")
