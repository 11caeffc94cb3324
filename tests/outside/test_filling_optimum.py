"""What is left unmet against the least that must be, proven by the solvers of OR-tools.

Four small households whose least is proven here, and three of the sixty of `households.tsv`, which
`python tests/households.py` fills one and all.
"""

from __future__ import annotations

from pathlib import Path
from re import sub

import pytest

import households
from households import bound, drawn, filled_as_always, household, least_unmet, proven, ratio
from sowtide.schedule.filling import FreeBeds, choose

SMALL = (6, 7, 8, 10)
"""Seeds whose optimum, or a bound near it, is proven in little work."""
WORK = 1
"""CP-SAT's own measure of work, which does not depend on the machine."""
HARD = (16, 21, 49)
"""Seeds of households that are far from getting what they want; they are at 1.084, 1.065 and 1.052
times what is proven."""


@pytest.mark.parametrize("seed", SMALL)
def test_little_more_is_left_unmet_than_must_be(seed: int) -> None:
    of = drawn(household(seed, wants_of=(3, 4), most_beds=2))
    found = choose(of.options, FreeBeds(of.season), of.lacking, rounds=lambda _: 100)
    least, _ = least_unmet(of, work=WORK)
    # For no want is anything sown to meet less than a sowing and a bed more cost: 0.015 + 0.04
    # weeks: of household 7, all of which can be met, 0.05 of one and 0.02 of another are left.
    lacks = [sum(max(-week, 0) for week in weeks) for weeks in found.balance]
    beneath = sum(min(lack, 0.055) for lack in lacks)
    assert least - 0.01 <= found.unmet <= 1.05 * least + beneath


@pytest.mark.parametrize("seed", HARD)
def test_hard_households_are_left_with_little_more_than_must_be(seed: int) -> None:
    found, least = filled_as_always(drawn(household(seed))), proven()[seed]
    assert 1 <= ratio(found, least) <= 1.1


@pytest.mark.parametrize("seed", SMALL)
def test_the_bound_of_the_table_is_below_the_optimum_and_near_it(seed: int) -> None:
    of = drawn(household(seed, wants_of=(3, 4), most_beds=2))
    least, is_optimum = least_unmet(of, work=WORK)
    found = choose(of.options, FreeBeds(of.season), of.lacking, rounds=lambda _: 100).unmet
    below = bound(of, seconds=2)
    assert below <= (least if is_optimum else found) + 0.001
    assert below >= 0.9 * least - 0.01


def _unmet(file: str, *, rounds: int) -> float:
    of = drawn(file)
    found = choose(of.options, FreeBeds(of.season), of.lacking, rounds=lambda _: rounds)
    return found.unmet


@pytest.mark.parametrize("seed", range(64, 72))
@pytest.mark.parametrize("size", ["1 x 1", "1 x 6"])
def test_a_bed_more_behind_the_others_leaves_no_more_unmet(seed: int, size: str) -> None:
    # What is found without it is gone on from. Few rounds, so that a search afresh is often worse.
    file = household(seed, wants_of=(3, 4), most_beds=1 + seed % 3)
    more = file.replace("crops:\n", f"  - {{bed: More, size: {size}}}\ncrops:\n", 1)
    few, many = (_unmet(each, rounds=12) for each in (file, more))
    assert many <= few + 1e-6


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("size", ["1 x 1", "1 x 6"])
def test_a_bed_more_in_front_leaves_no_more_unmet(seed: int, size: str) -> None:
    # The best plan cannot leave more; the search is not through with all of them, and whole rows
    # may cost half a hundredth.
    file = household(seed, wants_of=(3, 4), most_beds=2)
    more = file.replace("beds:\n", f"beds:\n  - {{bed: More, size: {size}}}\n")
    few, many = (_unmet(each, rounds=200) for each in (file, more))
    assert many <= 1.005 * few + 1e-6


@pytest.mark.parametrize("seed", range(4))
def test_a_longer_bed_leaves_no_more_unmet(seed: int) -> None:
    # The same as for a bed in front.
    file = household(seed, wants_of=(3, 4), most_beds=2)
    more = sub(
        r"(bed: B0, size: [\d.]+ x )(\d+)", lambda found: f"{found[1]}{int(found[2]) + 1}", file
    )
    assert more != file
    few, many = (_unmet(each, rounds=200) for each in (file, more))
    assert many <= 1.005 * few + 1e-6


def test_the_table_keeps_the_larger_of_what_stood_and_what_is_proven_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    table = tmp_path / "least.tsv"
    table.write_text("# What stood\nseed\tleast\n0\t7.000\n1\t2.000\n", encoding="utf-8")
    monkeypatch.setattr(households, "TABLE", table)
    monkeypatch.setattr(households, "bound", lambda _, *, seconds: seconds)
    households.prove(3, seconds=4.5678)
    # 4.5678 for each: rounded down, as what must be left unmet; the third did not stand there.
    assert proven() == {0: 7.0, 1: 4.567, 2: 4.567}
