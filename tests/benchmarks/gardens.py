"""Invented gardens of any number of waves, for measuring how the time grows."""

from __future__ import annotations

from collections.abc import Iterator

ROOMY, CROWDED = 6, 9.5
"""Waves for each bed: few of them, or about a sixth, find no room. [1]"""
WAVES_PER_SERIES = 4
CLEMSON = 34.7
"""Latitude of the station whose record is used. [°N]"""

_SITE = """\
site:
  name: Growing garden
  latitude: 42.0
  units: us
  frost: {last: 05-06, first: 10-04}
  too_hot: 07-05..08-10
season: 2026
beds:
"""
# Crop, how it is raised, plants in a wave (a fifth to two fifths of a bed), first planting day.
_CROPS = (
    ("bush bean", "direct", 60, "05-20"),
    ("lettuce", "trays", 60, "04-20"),
    ("radish", "direct", 400, "04-10"),
    ("carrot", "direct", 400, "06-20"),
    ("beet", "direct", 200, "06-10"),
    ("spinach", "direct", 150, "07-20"),
    ("summer squash", "trays", 8, "05-20"),
    ("kale", "trays", 20, "07-01"),
)
_WIDTH, _LENGTH = 2.5, 60  # [ft]


def garden(
    waves: int,
    *,
    per_entry: int = WAVES_PER_SERIES,
    per_bed: float = ROOMY,
    all_named: bool = False,
) -> str:
    """Return a garden's file with so many waves; the beds grow with them.

    Parameters
    ----------
    waves
        How many waves. [1]
    per_entry
        Waves in each entry of the file. [1]
    per_bed
        Waves for each bed. [1]
    all_named
        Whether every entry names four beds; every second one, if not.
    """
    beds = max(int(waves / per_bed), 4)
    entries = _entries(waves // per_entry, per_entry, beds, all_named=all_named)
    return "".join((_SITE, *_beds(beds), "waves:\n", *entries))


def recorded(text: str, record: str, *, latitude: float = CLEMSON) -> str:
    """Return a garden's file with a record in place of its frost dates and hot weeks.

    Parameters
    ----------
    text
        The file, one key of its site a line.
    record
        The record's name.
    latitude
        Where it was kept. [°N]
    """
    site, rest = text.split("\nseason:", 1)
    kept = [
        line
        for line in site.splitlines()
        if not line.lstrip().startswith(("latitude:", "frost:", "too_hot:"))
        and not line.startswith(" " * 4)
    ]
    kept += [f"  latitude: {latitude}", f"  frost: {{record: {record}}}"]
    return "\n".join(kept) + f"\nseason:{rest}"


def _beds(count: int) -> Iterator[str]:
    for number in range(count):
        yield f"  - {{bed: B{number}, size: {_WIDTH} x {_LENGTH}, rest: 1}}\n"


def _entries(count: int, per_entry: int, beds: int, *, all_named: bool) -> Iterator[str]:
    for number in range(count):
        crop, raised, plants, start = _CROPS[number % len(_CROPS)]
        words = [f"name: S{number}", f"crop: {crop}", f"raised: {raised}", f"plants: {plants}"]
        words.append(f"from: {start[:3]}{int(start[3:]) + number // len(_CROPS) % 9:02}")
        if per_entry > 1:
            words += ["every: 7", f"count: {per_entry}"]
        if all_named or number // len(_CROPS) % 2:
            first = number * beds // count
            words.append(f"beds: [{', '.join(f'B{(first + i) % beds}' for i in range(4))}]")
        yield f"  - {{{', '.join(words)}}}\n"
