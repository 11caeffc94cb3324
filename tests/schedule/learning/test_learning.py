"""What pickings teach of a crop's days: against an independent posterior, and in the plan."""

from __future__ import annotations

import json
from datetime import date, timedelta
from math import exp, log
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import gardens
from printed import why_json
from sowtide.days import DayRange
from sowtide.garden.crop import Learned
from sowtide.garden.journal import journal_of
from sowtide.schedule.learning import FAR, NOISE, PRIOR, posterior_of
from sowtide.schedule.learning.observed import crops_of_series, observed_in
from sowtide.schedule.season import Season
from sowtide.season import season_of

TODAY = date(2026, 9, 10)
FILE = gardens.text(
    gardens.wave(plants="1", start="06-01", every="14", count="4"),
    crops=(gardens.crop(days_to_harvest="50-60"),),
    fall_allowance="0",
)


@settings(max_examples=12)  # each is integrated three times
@given(st.lists(st.floats(0.92, 1.08), min_size=1, max_size=6))
def test_it_is_the_posterior_mean_worked_out_another_way(ratios: list[float]) -> None:
    # Prior times likelihood, integrated; none of these lies so far out that it is held.
    from scipy.integrate import quad

    seen = [log(ratio) for ratio in ratios]

    def weight(mean: float) -> float:
        apart = sum(((each - mean) / NOISE) ** 2 for each in seen)
        return exp(-((mean / PRIOR) ** 2 + apart) / 2)

    whole = quad(weight, -1, 1, points=[0.0], epsabs=1e-14)[0]
    mean = quad(lambda at: at * weight(at), -1, 1, points=[0.0], epsabs=1e-14)[0] / whole
    found = posterior_of(ratios)
    assert log(found.factor) == pytest.approx(mean, abs=1e-6)
    second = quad(lambda at: at**2 * weight(at), -1, 1, points=[0.0], epsabs=1e-14)[0] / whole
    assert found.spread == pytest.approx((second - mean**2) ** 0.5, rel=1e-4)


def test_nothing_seen_is_the_packet() -> None:
    assert (posterior_of(()).factor, posterior_of(()).spread) == (1.0, PRIOR)


def test_three_alike_go_three_quarters_of_the_way() -> None:
    # 3 / (3 + 1): prior and noise are alike.
    assert posterior_of([1.1] * 3).factor == pytest.approx(exp(0.75 * log(1.1)))


def test_pickings_at_eleven_tenths_of_the_packet_tend_to_it() -> None:
    chance = Random(7)
    drawn = [1.1 * exp(chance.gauss(0, NOISE)) for _ in range(400)]
    assert posterior_of(drawn).factor == pytest.approx(1.1, abs=0.015)
    few, many = posterior_of(drawn[:5]), posterior_of(drawn)
    assert many.spread < few.spread < PRIOR


@given(st.floats(0.01, 100))
def test_one_outlier_does_not_carry_it(wrong: float) -> None:
    # Of four, three at the packet's days: the fourth counts as a fifth away at most.
    found = posterior_of([1.0, 1.0, 1.0, wrong])
    assert abs(log(found.factor)) <= FAR / (4 + 1) + 1e-12


def lived(*entries: str, today: date = TODAY) -> Season:
    """Return the season of the garden and of a journal."""
    return gardens.lived(FILE, today, *entries)


def picked(season: int, number: int, days: int) -> tuple[str, str]:
    """Return two entries: a wave sown in spring, and picked so many days later."""
    sown = date(season, 5, 18) + timedelta(days=14 * number)
    first = sown + timedelta(days=days)
    name = f"wave: fruit-{number}"
    return f"on: {sown}, {name}, did: sown", f"on: {first}, {name}, did: first picked"


def test_a_series_that_is_gone_was_of_the_crop_that_bears_its_name_not_of_its_varieties() -> None:
    blue = gardens.wave(start="06-01", variety="Blue", name="b")
    garden = gardens.read(gardens.text(blue, gardens.wave(start="06-01", name="a")))
    found = crops_of_series(garden)
    assert {name: crop.variety for name, (_, crop) in found.items()} == {
        "fruit": None,
        "a": None,
        "b": "Blue",
    }
    assert {name for name, (entry, _) in found.items() if entry is not None} == {"a", "b"}


@pytest.mark.parametrize(("raised", "seen"), [("direct", 66), ("trays", None)])
def test_what_is_raised_in_trays_counts_from_planting_out_alone(
    raised: str, seen: int | None
) -> None:
    crop = gardens.crop(raised="either", nursery_days="20", hardening_days="5")
    file = gardens.text(gardens.wave(start="06-01", raised=raised), crops=(crop,))
    read = journal_of("".join(f"- {{{e}}}\n" for e in picked(2025, 1, 66)).encode(), "journal.yaml")
    assert read.journal is not None
    season = season_of(gardens.read(file), TODAY)
    found = observed_in(season.garden, read.journal, season.conditions, TODAY, fewest=1)
    days = [(each.picked - each.planted).days for _, all_seen in found for each in all_seen]
    assert days == ([] if seen is None else [seen])


def test_two_pickings_teach_nothing_yet() -> None:
    season = lived(*picked(2025, 1, 66), *picked(2025, 2, 66))
    assert season.garden.entries[0].crop.learned is None


def test_three_of_an_earlier_season_move_the_days_of_this_one() -> None:
    # The packet says 50-60, in the middle 55. 66 days are 1.2 times that: 1.2^(3/4) = 1.1465.
    season = lived(*(entry for number in (1, 2, 3) for entry in picked(2025, number, 66)))
    crop = season.garden.entries[0].crop
    assert crop.learned == Learned(pytest.approx(1.2**0.75), 3, DayRange(50, 60))
    assert crop.days_to_harvest == DayRange(57, 69)  # 57.3 and 68.8
    first = season.waves[0].stages.first_pick
    assert first is not None
    assert (first[0].day - season.waves[0].stages.plant.day).days == 57
    said = "days to harvest by 3 pickings of yours (packet 50-60)"
    assert said in first[0].steps[-1].text
    learned = json.loads(why_json(season.waves[0], season))["learned"]
    assert learned == {
        "pickings": 3,
        "factor": 1.147,
        "days_to_harvest": [57, 69],
        "packet": [50, 60],
    }


def test_the_twelve_newest_pickings_teach() -> None:
    # Three of 2022 at half the packet's 55 days, twelve since at 1.2 times: (12 / 0.1²) of (13 /
    # 0.1²) of the way to 1.2.
    old = [entry for number in (1, 2, 3) for entry in picked(2022, number, 28)]
    new = [e for year in (2023, 2024, 2025) for n in (1, 2, 3, 4) for e in picked(year, n, 66)]
    crop = lived(*old, *new).garden.entries[0].crop
    assert crop.learned == Learned(pytest.approx(1.2 ** (12 / 13)), 12, DayRange(50, 60))


@pytest.mark.parametrize(("days", "counts"), [(0, False), (1, True)])
def test_a_picking_on_the_day_of_its_sowing_is_none(days: int, counts: bool) -> None:
    entries = [entry for number in (1, 2) for entry in picked(2025, number, 66)]
    crop = lived(*entries, *picked(2025, 3, days)).garden.entries[0].crop
    assert (crop.learned is not None) is counts


def test_pickings_that_confirm_the_packet_change_nothing() -> None:
    season = lived(*(entry for number in (1, 2, 3) for entry in picked(2025, number, 55)))
    plan = season_of(gardens.read(FILE), TODAY)
    assert [w.stages.pull_out.day for w in season.waves] == [
        w.stages.pull_out.day for w in plan.waves
    ]


def test_what_is_still_to_come_teaches_nothing() -> None:
    entries = [entry for number in (1, 2, 3) for entry in picked(2026, number, 66)]
    assert lived(*entries).garden.entries[0].crop.learned is not None
    assert lived(*entries, today=date(2026, 7, 30)).garden.entries[0].crop.learned is None


def test_a_series_that_is_no_more_teaches_its_crop_by_its_name() -> None:
    entries = [e for n in (1, 2, 3) for e in picked(2024, n, 66)]
    other = FILE.replace("crop: fruit,", "crop: fruit, name: early,")
    season = gardens.lived(other, TODAY, *entries)
    assert season.garden.entries[0].crop.learned is not None


def test_a_garden_may_refuse_to_learn() -> None:
    entries = [entry for number in (1, 2, 3) for entry in picked(2025, number, 66)]
    season = gardens.lived(FILE + "learn: no\n", TODAY, *entries)
    assert season.garden.entries[0].crop.learned is None
