"""Write into docs/counting.md what each rule of growth does to the calendars: ``--update``.

Each rule is left out in turn, and the rows of the calendars that still agree are counted, as the
tests in ``outside`` count them. It takes minutes: run it where a rule of growth has changed.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from contextlib import ExitStack, suppress
from dataclasses import replace
from pathlib import Path
from unittest.mock import patch

import replayed
from outside import test_cool_summers as cool
from outside import test_last_plantings as fall
from sowtide.garden.crop import Crop, Heat
from sowtide.garden.varieties import built_in_crop
from sowtide.reasons import Origin
from sowtide.schedule.sowing import planting_limits
from sowtide.schedule.waves import windows

PAGE = Path(__file__).parents[1] / "docs" / "counting.md"
HEAD = "| left out | first picks | last days | first days | of countries | far places | by dates |"

Change = Callable[[Crop], Crop]


def straight(crop: Crop) -> Crop:
    """Return a crop that grows in a straight line above its base, as heat that is stated does."""
    heat = Heat(base=crop.heat.base, upper=crop.heat.upper)
    stated = {**crop.origins, "heat": Origin(file="stated", line=1)}
    return replace(crop, heat=heat, origins=stated)


def as_it_is(crop: Crop) -> Crop:
    """Return a crop as it is."""
    return crop


def alike(crop: Crop) -> Crop:
    """Return a crop that what takes its flowers kills in leaf, too."""
    flowers = crop.flowers_killed_at
    return crop if flowers is None else replace(crop, killed_at=flowers, flowers_killed_at=None)


CHANGES: dict[str, Change] = {
    "nothing": as_it_is,
    "the curve: straight heat": straight,
    "autumn light": lambda crop: replace(crop, light=0.0),
    "the limit of short days": as_it_is,
    "mild short days": as_it_is,
    "sorts": lambda crop: replace(crop, sorts=False, days_by_sort=()),
    "the least soil: sown from the good": lambda crop: replace(
        crop, soil_min=crop.soil_good or crop.soil_min
    ),
    "own killing temperatures": lambda crop: replace(crop, killed_at=None),
    "more frost in leaf than in flower": alike,
    "running to seed": lambda crop: replace(crop, runs_to_seed=None),
    "planting times": lambda crop: replace(crop, planted_in=()),
    "heat on roots": lambda crop: replace(
        crop, root=False, warm_limit=None if crop.name == "carrot" else crop.warm_limit
    ),
    "cold nights": lambda crop: replace(crop, nights_min=None),
}


def counts(name: str) -> str:
    """Return a row of the table: how many rows agree without a rule, of how many."""
    change = CHANGES[name]
    built_in = replayed.library.find

    def crop(called: str) -> Crop:
        found = built_in(called)
        assert found is not None
        return change(built_in_crop(found))

    for each in (cool._season, cool._far, fall._last):
        each.cache_clear()
    with ExitStack() as without:
        without.enter_context(patch.object(replayed, "crop", crop))
        without.enter_context(patch.object(fall, "_crop", crop))
        if name == "the limit of short days":
            none = patch.object(windows, "autumn_limit", lambda *_, **__: None)
            without.enter_context(none)
        if name == "mild short days":
            never = patch.object(planting_limits, "are_mild", lambda *_: False)
            without.enter_context(never)
        cells = [f"{good} of {all_}" for good, all_ in map(_count, _groups())]
    return " | ".join(["", name, *cells, ""]).strip()


def _groups() -> list[list[Callable[[], bool]]]:
    """Return a question for each row of each calendar: whether it agrees."""
    near, by_dates = cool.WITHIN, fall.WITHIN
    both = [(each, place) for place in cool.PLACES for each in cool.PICKED]
    lasts = [(each, place) for place in cool.PLACES for each in cool.LAST]
    firsts = [(each, place) for place in cool.PLACES for each in cool.FIRST]
    national = [(each, place) for place, rows in cool.NATIONAL.items() for each in rows]
    far = [(each, day, True) for each in cool.PLANTED for day in each.days]
    far += [(each, day, False) for each in cool.PLANTED for day in each.never]
    return [
        [lambda r=row: abs(cool._apart(*r)) <= near for row in both],
        [lambda r=row: abs(cool._last_apart(*r)) <= near for row in lasts],
        [lambda r=row: abs(cool._first_apart(*r)) <= near for row in firsts],
        [lambda r=row: abs(cool._last_apart(*r)) <= near for row in national],
        [lambda r=row: not cool._off(r[0], r[1], wanted=r[2]) for row in far],
        [lambda r=row: fall._days_apart(r) <= by_dates for row in fall.PUBLISHED],
    ]


def _count(agrees: list[Callable[[], bool]]) -> tuple[int, int]:
    good = 0
    for each in agrees:
        with suppress(IndexError):  # no day is safe at all
            good += each()
    return good, len(agrees)


def table() -> str:
    """Return the whole table."""
    rule = "| --- |" + " --- |" * (HEAD.count("|") - 2)
    return "\n".join([HEAD, rule, *("| " + counts(name).lstrip("| ") for name in CHANGES)])


if __name__ == "__main__":
    found = table()
    sys.stdout.write(f"{found}\n")
    if "--update" in sys.argv:
        text = PAGE.read_text(encoding="utf-8")
        begin = text.index(HEAD)
        end = text.index("\n\n", begin)
        PAGE.write_text(text[:begin] + found + text[end:], encoding="utf-8")
