"""Write the page of built-in crops from the library: ``python tests/library_page.py``."""

from __future__ import annotations

from pathlib import Path

from sowtide.garden.library import builtin as library

PAGE = Path(__file__).parents[1] / "docs" / "crops.md"

_INTRO = """\
# The built-in crops

What sowtide knows about {count} crops without being told, and where it has it from. Any figure is
replaced by writing your own under `crops:` in the garden file, and a figure from your seed packet
or from your own garden is always the better one.

- Days to harvest are from good weather. Where a range spans early and late sorts, the note says
  so: write the range of the sort you grow.
- Spacings are one convention throughout: beds worked by hand, every plant the same distance from
  its neighbours in all directions. Where a table gives a range, the wider figure is taken.
- Hardiness is that of the part that is picked: very tender 36 °F (2.2 °C), tender 32 °F (0 °C),
  half-hardy 28 °F (−2.2 °C), hardy 24 °F (−4.4 °C), hardiest 20 °F (−6.7 °C). Very tender stands
  for damage, not death.
- `memory`, `practice` and `sowtide` are no publications: an experienced grower's estimate, what
  most growers do, and a choice of ours. Trust them least.
- Soil temperatures are those between which seed comes up. Days to come up (`up_days`) are at a
  soil of 68 °F (20 °C) where they are published.

This page is written from the table that sowtide reads; do not edit it.
"""


def page() -> str:
    """Return the whole page."""
    names = library.names()
    parts = [_INTRO.format(count=len(names))]
    parts.extend(_crop(name) for name in names)
    parts.append(_sources())
    return "\n".join(parts)


def _crop(name: str) -> str:
    rows = library.rows(name)
    others = [row.value for row in rows if row.field == "names"]
    lines = [f"## {name}", ""]
    if others:
        lines += [f"Also: {others[0]}.", ""]
    lines += ["| figure | value | unit | source | note |", "| --- | --- | --- | --- | --- |"]
    lines += [
        f"| `{row.field}` | {row.value.replace('-', '–') if row.unit == 'days' else row.value}"
        f" | {row.unit} | `{row.source}` | {row.note} |"
        for row in rows
        if row.field != "names"
    ]
    return "\n".join([*lines, ""])


def _sources() -> str:
    lines = ["## Sources", "", "| key | source |", "| --- | --- |"]
    lines += [f"| `{key}` | {library.source(key)} |" for key in library.source_keys()]
    return "\n".join([*lines, ""])


if __name__ == "__main__":
    PAGE.parent.mkdir(exist_ok=True)
    PAGE.write_text(page(), encoding="utf-8")
