"""The limits of what may be written: a file that is read today is not refused tomorrow.

Each limit stands here a second time, beside the keys that it is of. That reader and schema know
the same ones is held by the tests of the schema.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

import gardens
from sowtide.garden.described import garden_schema, journal_schema
from sowtide.garden.library import CROP_FIELDS
from sowtide.garden.read import read_garden
from tended import garden_with

HOURS = garden_with("name: a, do: spray, on: fruit, label: {hours_before_entry: HOURS}")
_LIMITS = {
    "minimum": "from",
    "exclusiveMinimum": "above",
    "maximum": "to",
    "minItems": "items from",
    "maxItems": "items to",
    "minProperties": "keys from",
}

DEGREES = "from -100 to 150"
LIMITS = {
    "from 1900 to 2200": {"season"},
    "items from 1": {"beds", "frost"},
    "items from 12 items to 12": {"max", "min"},
    "keys from 1": {"last", "first"},
    "from -90 to 90": {"latitude"},
    "from 0 to 99": {"fall_allowance"},
    "from 0 to 30": {"colder_by", "cover"},
    "from 1 to 10000": {"people"},
    "from 0 to 52": {"order_weeks"},
    "from 1 to 1000": {
        *("tray_cells", "nursery_days", "days_to_harvest", "chill_days", "picking_days"),
        *("worthwhile_days", "waves.every"),
    },
    DEGREES: {
        *("warmest_month", "coldest_month", "at", "max", "min", "nights_min", "killed_at"),
        *("flowers_killed_at", "warm_limit", "chill_limit", "fruit_set_high", "fruit_set_low"),
        *("rated_at", "soil_min", "soil_good", "soil_max", "base", "upper"),
    },
    "from 0 to 1000": {
        *("rest", "hardening_days", "days_before_frost", "days_after_frost", "up_days"),
        *("flower_to_pick", "days_before_harvest"),
    },
    "from 1 to 24": {"long_day"},
    "above 0 to 1000": {"seeds_per_plant", "in_row", "between_rows"},
    "from 0 to 20": {"rotation"},
    "from 1 to 365": {"pick_gap", "holding_days"},
    "above 0 to 1000000": {"yield_per_plant", "amount"},
    "from 1 to 20000": {"units", "total"},
    "from 1 to 1000000": {"plants"},
    "from 1 to 366": {"pick_every", "count", "care.every", "in_a_row", "want.every"},
    "from 0 to 1000000": {"standby"},
    "from 0 to 60": {"overlap"},
    "from 0 to 1440": {"minutes", "hours_before_entry"},  # a day of minutes, sixty of hours
    "from 0": {"group"},
    "from 0 to 366": {"most", "days_apart", "not_within"},
    "from 0 to 999": {"hottest"},
}
"""Keys by their limits; of those that several sections have, with the section where they differ."""


def _limits(schema: Any, at: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], str]]:
    """Yield each place of a schema that has limits, with them."""
    if isinstance(schema, list):
        for each in schema:
            yield from _limits(each, at)
    elif isinstance(schema, dict):
        found = " ".join(f"{word} {schema[key]}" for key, word in _LIMITS.items() if key in schema)
        if found:
            yield at, found
        for name, each in schema.items():
            if name in ("properties", "$defs"):
                for key, value in each.items():
                    yield from _limits(value, (*at, key))
            else:
                yield from _limits(each, at)


def _by_limit(schema: Any) -> dict[str, set[str]]:
    found: dict[str, set[str]] = defaultdict(set)
    for at, limit in _limits(schema):
        section, key = at[-2:] if len(at) > 1 else ("", at[-1])
        found[limit].add(f"{section}.{key}" if key == "every" else key)
    return found


def test_the_limits_of_a_garden_file_stay_as_they_are() -> None:
    assert _by_limit(garden_schema()) == LIMITS


def test_the_limits_of_a_journal_stay_as_they_are() -> None:
    assert _by_limit(journal_schema()) == {
        "from 0 to 1000000": {"plants"},
        "from 1900 to 2200": {"season"},
    }


def test_a_name_may_have_two_hundred_characters() -> None:
    lengths = {at[-1]: limit for at, limit in _lengths(garden_schema())}
    assert {*lengths.values()} == {200}
    assert {"name", "crop", "bed", "record", "journal", "pick_when", "help"} <= lengths.keys()


def _lengths(schema: Any, at: tuple[str, ...] = ()) -> Iterator[tuple[tuple[str, ...], int]]:
    if isinstance(schema, list):
        for each in schema:
            yield from _lengths(each, at)
    elif isinstance(schema, dict):
        if "maxLength" in schema:
            yield at, schema["maxLength"]
        for name, each in schema.items():
            yield from _lengths(each, (*at, name))


@pytest.mark.parametrize(
    ("file", "refused"),
    [
        (HOURS.replace("HOURS", "1440"), []),
        (HOURS.replace("HOURS", "1441"), ["out-of-range"]),
        (gardens.text(season=2200), []),
        (gardens.text(season=2201), ["year"]),
    ],
)
def test_what_lies_on_a_limit_is_read(file: str, refused: list[str]) -> None:
    found = read_garden(file.encode(), "garden.yaml").problems
    assert [problem.code for problem in found] == refused


def _needed() -> set[str]:
    """Return the keys that a crop of one's own must have, as their page marks them."""
    page = Path(__file__).parents[2] / "docs" / "garden-file.md"
    rows = re.findall(r"^\| `(\w+)` † \|", page.read_text(encoding="utf-8"), re.MULTILINE)
    return set(rows)


def test_a_crop_of_ones_own_needs_the_keys_that_the_page_marks_and_no_others() -> None:
    keys = dict(part.split(": ", 1) for part in gardens.crop()[8:-1].split(", "))
    assert _needed() < keys.keys() < CROP_FIELDS.keys()
    for key in keys:
        less = ", ".join(f"{name}: {said}" for name, said in keys.items() if name != key)
        file = gardens.text(crops=(f"fruit: {{{less}}}",))
        found = [each.message for each in read_garden(file.encode(), "garden.yaml").problems]
        lacks = [f"'fruit' is not built in and lacks {key}"]
        assert found == (lacks if key in _needed() else []), key


@pytest.mark.parametrize(
    ("keys", "said"),
    [
        ("base: 10, upper: 30, from: 03-01", []),
        ("base: 66", ["base"]),
        ("base: 10, upper: 66", ["upper"]),
        ("base: 10, from: 02-29", ["from"]),  # there is none in 2026
    ],
)
def test_what_is_wrong_with_a_watch_is_said_at_its_key(keys: str, said: list[str]) -> None:
    line = f"  - {{look_for: moths, total: 100, {keys}}}"
    found = read_garden(f"{gardens.text()}watch:\n{line}\n".encode(), "garden.yaml").problems
    places = [line[each.span.column - 1 :] for each in found if each.span]
    values = [keys.split(f"{key}: ")[1] for key in said]
    assert [place.removesuffix("}") for place in places] == values


@pytest.mark.parametrize(
    ("key", "low", "high"),
    [
        ("germination", "1%", "100%"),
        ("sure", "1%", "99%"),
        ("spare", "0%", "300%"),
        ("last", "1%", "99%"),
    ],
)
def test_a_share_is_within_its_bounds(key: str, low: str, high: str) -> None:
    def is_taken(share: float) -> bool:
        site, crops, frost = {}, "", gardens.FROST
        if key == "germination":
            crops = f"germination: {share}%"
        elif key == "last":
            frost = f"{{last: {{{share}%: 05-10}}, first: 10-01}}"
        else:
            site = {key: f"{share}%"}
        file = gardens.text(crops=(f"bush bean: {{{crops}}}",), frost=frost, **site)
        return not any(each.span for each in read_garden(file.encode(), "garden.yaml").problems)

    least, most = (int(end.rstrip("%")) for end in (low, high))
    assert [is_taken(share) for share in (least, most)] == [True, True]
    assert [is_taken(share) for share in (least - 0.5, most + 0.5)] == [False, False]
