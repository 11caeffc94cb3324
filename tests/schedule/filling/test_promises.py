"""What a fill promises of sixty-four households holds, however little it has searched."""

from __future__ import annotations

from functools import cache
from importlib import import_module

import pytest

import gardens
from households import household
from sowtide.report.fill import FillView, view
from sowtide.schedule.filling import filled
from sowtide.schedule.season import Season
from sowtide.schedule.supply import supply_of

SEEDS = range(64)
FEW = 60
"""Rounds times wants times beds: so few that a plan still has sowings split among beds. [1]"""


@cache
def file_of(seed: int) -> str:
    return household(seed, wants_of=(3, 4), most_beds=3)


@cache
def promised(seed: int) -> FillView:
    before = gardens.season(file_of(seed))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(import_module("sowtide.schedule.filling.filled"), "_ROUNDS", FEW)
        return view(before, filled(before, supply_of(before)))


def pasted(seed: int, *, fewer: int = 0, later: bool = False) -> Season:
    """Paste the lines, the largest with some plants fewer, or under a first frost that is later."""
    found = promised(seed).lines
    texts = [each.text for each in found]
    if fewer:
        plants, number = max((line.plants, number) for number, line in enumerate(found))
        texts[number] = texts[number].replace(f"plants: {plants},", f"plants: {plants - fewer},")
    file = file_of(seed)
    if later:
        assert "first: 10-05" in file
        file = file.replace("first: 10-05", "first: 10-15")
    head, has_waves, rest = file.partition("waves:\n")
    lines = "".join(f"  {text}\n" for text in texts)
    return gardens.season(f"{head}{has_waves or 'waves:'}\n{lines}{rest}".replace("\n\n", "\n"))


@pytest.mark.parametrize("seed", SEEDS)
def test_pasting_the_lines_gives_the_table_that_was_promised(seed: int) -> None:
    got = pasted(seed)
    assert all(wave.stands for wave in got.waves)
    assert len(got.waves) == len(promised(seed).lines)
    found = {each.crop.name: each for each in supply_of(got)}
    for crop in promised(seed).crops:
        weeks = {f"{week.week:%G-W%V}": week.expected for week in found[crop.crop].weeks}
        assert found[crop.crop].unmet == pytest.approx(crop.unmet_after)
        assert {week.week: week.after for week in crop.weeks if week.after} == pytest.approx(
            {week: amount for week, amount in weeks.items() if amount}
        )


def test_some_of_what_is_promised_is_sown_in_several_beds_a_day() -> None:
    split = [
        seed for seed in SEEDS if any(line.series.endswith("-b") for line in promised(seed).lines)
    ]
    assert len(split) >= 8


@pytest.mark.parametrize("seed", SEEDS)
def test_more_plants_never_bring_less_in_any_week(seed: int) -> None:
    many, few = supply_of(pasted(seed)), supply_of(pasted(seed, fewer=1))
    for more, less in zip(many, few, strict=True):
        known = {week.week: week for week in more.weeks}
        for week in less.weeks:
            for amount in ("low", "expected", "high"):
                assert getattr(known[week.week], amount) >= getattr(week, amount) - 1e-9


@pytest.mark.parametrize("seed", SEEDS)
def test_a_later_frost_never_brings_less_in_all(seed: int) -> None:
    early, late = supply_of(pasted(seed)), supply_of(pasted(seed, later=True))
    for one, other in zip(early, late, strict=True):
        brought = [sum(week.expected for week in each.weeks) for each in (one, other)]
        assert brought[1] >= brought[0] - 1e-9
