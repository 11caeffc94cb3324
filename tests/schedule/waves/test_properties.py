"""What must hold for every garden, whatever its numbers, on averages or on a table."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace
from datetime import date, timedelta
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

import gardens
from drawn import MIXED, beds, entries
from gardens import below, crop, leaf, text, wave
from sowtide.schedule.season import Season
from sowtide.schedule.waves.stages import Stages
from sowtide.schedule.waves.wave import Judged, Verdict, Wave
from sowtide.season import season_of

SPREAD = 11
VERDICTS = (Verdict.TOO_EARLY, Verdict.TOO_LATE, Verdict.CHANCY, Verdict.SAFE_FROM_FROST)
HARDINESS = ("very tender", "tender", "half-hardy", "hardy", "hardiest")


@dataclass(frozen=True)
class Place:
    """Frost dates: the middle of spring and of autumn, and the days to a table's 10 and 90 %."""

    last: date
    first: date
    table: tuple[int, int] | None = None

    def shifted(self, spring: int, autumn: int) -> Place:
        return replace(
            self,
            last=self.last + timedelta(days=spring),
            first=self.first + timedelta(days=autumn),
        )

    @property
    def frost(self) -> str:
        """As it is written in a file, with its years, so that no day depends on an anchor."""
        if self.table is None:
            return f"{{last: {self.last}, first: {self.first}}}"
        before, after = (timedelta(days=days) for days in self.table)
        last = f"{{10%: {self.last + after}, 50%: {self.last}, 90%: {self.last - before}}}"
        first = f"{{10%: {self.first - before}, 50%: {self.first}, 90%: {self.first + after}}}"
        return f"{{last: {last}, first: {first}}}"


def days_from(first: date, last: date) -> st.SearchStrategy[date]:
    return st.dates(first, last)


places = st.builds(
    Place,
    days_from(date(2026, 4, 1), date(2026, 5, 25)),
    days_from(date(2026, 8, 25), date(2026, 10, 15)),
    st.none() | st.tuples(st.integers(6, 25), st.integers(6, 25)),
)
sures = st.sampled_from(("50%", "67%", "80%", "95%", "0 days", "10 days", "30 days"))
allowances = st.sampled_from(("0", "10", "14", "14 always", "30"))


@st.composite
def crops(draw: st.DrawFn, name: str = "fruit") -> str:
    """Draw a crop that heat does not spoil, all its numbers its own."""
    low = draw(st.integers(20, 90))
    picking = draw(st.integers(1, 50))
    keys = {
        "weather": draw(st.sampled_from(("cool", "warm"))),
        "hardiness": draw(st.sampled_from(HARDINESS)),
        "after_frost": draw(st.sampled_from(("ends", "bring in", "stands"))),
        "days_to_harvest": f"{low}-{low + draw(st.integers(0, 15))}",
        "picking_days": str(picking),
        "worthwhile_days": str(draw(st.integers(1, picking))),
        "up_days": str(draw(st.integers(0, 15))),
        "flower_to_pick": str(draw(st.integers(0, 30))),
    }
    if draw(st.booleans()):
        keys |= {"raised": "trays", "nursery_days": "21-35", "hardening_days": "7"}
        keys["counted_from"] = draw(st.sampled_from(("sowing", "planting out")))
    return crop(name, **keys)


def _of(stages: Stages) -> list[date | None]:
    """Return every date of a wave, in order."""
    picks = stages.first_pick or (None, None)
    dated = [stages.sow, stages.up, stages.ready, stages.too_old, stages.harden_off, stages.plant]
    dated += [stages.flower, *picks, stages.last_pick, stages.pull_out]
    return [None if each is None else each.day for each in dated]


def _all_dates(found: Season) -> list[date | None]:
    """Return every date of a season: of its waves, their ends and limits, and its gaps."""
    days: list[date | None] = []
    for each in found.waves:
        judged = each.judged
        days += [*_of(judged.stages), judged.earliest, judged.last_safe]
        days += [judged.end and judged.end.day, each.bed_free and each.bed_free.day]
    for gap in found.gaps:
        days += [gap.first, gap.last]
    return days


def _moved(days: list[date | None], by: int) -> list[date | None]:
    return [None if day is None else day + timedelta(days=by) for day in days]


def _judgements(found: Season) -> list[tuple[Any, ...]]:
    return [
        (
            each.judged.verdict,
            each.judged.ended_by,
            each.judged.margin,
            round(each.judged.odds or 0, 6),
            round(each.judged.expected_picking_days or 0, 6),
            round(each.judged.odds_of_nothing or 0, 6),
            [(stand.bed.name, stand.plants) for stand in each.stands],
        )
        for each in found.waves
    ]


# Shifts


@given(places, crops(), sures, allowances, st.integers(-20, 20), st.integers(9, 40))
def test_shift_both_frosts_and_every_date_shifts(
    place: Place, line: str, sure: str, allowance: str, by: int, every: int
) -> None:
    """Far from the ends of the growing year: from 1 April less 55 days to 15 October and 100."""
    entry = wave(every=str(every), count="5", plants="3")
    here, there = (
        gardens.season(
            text(entry, crops=[line], frost=each.frost, sure=sure, fall_allowance=allowance)
        )
        for each in (place, place.shifted(by, by))
    )
    assert _all_dates(there) == _moved(_all_dates(here), by)
    assert _judgements(there) == _judgements(here)


MIRROR = 184
"""From 1 July to 1 January, in every year: midsummer to midsummer. [days]"""


@given(places, crops(), sures, allowances, st.integers(9, 40))
def test_north_and_south_mirrored_by_184_days_agree(
    place: Place, line: str, sure: str, allowance: str, every: int
) -> None:
    """1 July + 184 days is 1 January in every year, so that the midsummers fall on each other.

    The growing years then overlap but for three days at either end, which no date here reaches;
    all frosts are written with their years, so that no length of February matters.
    """
    entry = wave(every=str(every), count="5", plants="3")
    site = {"sure": sure, "fall_allowance": allowance}
    north = gardens.season(text(entry, crops=[line], frost=place.frost, **site))
    mirrored = place.shifted(MIRROR, MIRROR)
    south = gardens.season(text(entry, crops=[line], frost=mirrored.frost, latitude=-45, **site))
    assert _all_dates(south) == _moved(_all_dates(north), MIRROR)
    assert _judgements(south) == _judgements(north)


def test_north_and_south_agree_on_heat_and_winter() -> None:
    # 10 May, 1 Oct, 1 Jul … 20 Aug, 25 Jun … 20 Jul and 184 days more
    lines = [
        leaf(days_to_harvest="40", picking_days="7"),
        crop("bulb", overwinters="yes", hardiness="hardiest", ready="06-25..07-20"),
    ]
    entries = [wave("leaf", every="15"), wave("bulb", start="2026-10-10")]
    north = gardens.season(text(*entries, crops=lines, too_hot="2026-07-01..2026-08-20"))
    lines[1] = lines[1].replace("06-25..07-20", "12-26..01-20")
    entries[1] = wave("bulb", start="2027-04-12")
    south = gardens.season(
        text(
            *entries,
            crops=lines,
            too_hot="2027-01-01..2027-02-20",
            frost="{last: 2026-11-10, first: 2027-04-03}",
            latitude=-45,
        )
    )
    assert len(north.gaps) == 1
    assert _all_dates(south) == _moved(_all_dates(north), MIRROR)
    assert _judgements(south) == _judgements(north)
    assert gardens.codes(south) == gardens.codes(north)


# One wave alone


def _one(line: str, planted: date, place: Place, **site: str) -> Judged:
    entry = wave(start=str(planted), plants="1")
    return gardens.only(text(entry, crops=[line], frost=place.frost, **site)).judged


def _no_worse(after: Judged, before: Judged) -> None:
    values = (after, before)
    odds, mean, nothing = (
        [getattr(each, name) for each in values]
        for name in ("odds", "expected_picking_days", "odds_of_nothing")
    )
    assert odds[0] >= odds[1] - 1e-9
    assert mean[0] >= mean[1] - 1e-9
    assert nothing[0] <= nothing[1] + 1e-9
    assert VERDICTS.index(after.verdict) >= VERDICTS.index(before.verdict)  # type: ignore[arg-type]


plantings = days_from(date(2026, 4, 1), date(2026, 11, 15))


@given(places, crops(), plantings, sures, allowances, st.integers(1, 40))
def test_a_later_first_frost_is_never_worse(
    place: Place, line: str, planted: date, sure: str, allowance: str, later: int
) -> None:
    # Planted between the two average frosts it gets an allowance from the later one that it did
    # not have: the next test.
    after = place.shifted(0, later)
    assume(allowance == "14 always" or not place.first < planted <= after.first)
    site = {"sure": sure, "fall_allowance": allowance}
    _no_worse(_one(line, planted, after, **site), _one(line, planted, place, **site))


def test_planted_after_the_first_frost_a_later_frost_can_be_worse() -> None:
    # A root of 28 days, hardiest, planted on 2 Oct, the day after the average frost: no allowance,
    # 30 Oct, seven days by 5 Nov, and 20 °F comes on 6 Nov: even odds. With the frost a day
    # later the wave counts as one of before the frost and gets 14 · 28 / 55 = 7.1 days, eight.
    line = crop(
        "fruit", weather="cool", hardiness="hardiest", days_to_harvest="28", picking_days="7"
    )
    place = Place(date(2026, 5, 10), date(2026, 10, 1))
    planted = date(2026, 10, 2)
    before, after = (_one(line, planted, each) for each in (place, place.shifted(0, 1)))
    assert before.odds == pytest.approx(below(0), abs=1e-9)
    assert after.odds == pytest.approx(below(-6 / 11), abs=1e-9)


@given(places, crops(), plantings, sures, allowances, st.integers(1, 15), st.integers(0, 10))
def test_fewer_days_are_never_worse(
    place: Place, line: str, planted: date, sure: str, allowance: str, fewer: int, narrower: int
) -> None:
    start = line.index("days_to_harvest: ") + len("days_to_harvest: ")
    stop = line.index(",", start)
    low, high = (int(part) for part in line[start:stop].split("-"))
    quick_low = low - fewer
    quick_high = max(quick_low, high - fewer - narrower)
    quicker = f"{line[:start]}{quick_low}-{quick_high}{line[stop:]}"
    site = {"sure": sure, "fall_allowance": allowance}
    _no_worse(_one(quicker, planted, place, **site), _one(line, planted, place, **site))


@given(places, crops(), plantings)
def test_surer_is_never_more_often_safe(place: Place, line: str, planted: date) -> None:
    for lesser, greater in (("50%", "80%"), ("80%", "95%"), ("0 days", "10 days")):
        less = _one(line, planted, place, sure=lesser)
        more = _one(line, planted, place, sure=greater)
        assert not (
            more.verdict is Verdict.SAFE_FROM_FROST and less.verdict is not Verdict.SAFE_FROM_FROST
        )
        assert _of(less.stages) == _of(more.stages)


# Counted a second time, in another way


@given(
    days_from(date(2026, 4, 1), date(2026, 5, 25)),
    days_from(date(2026, 8, 25), date(2026, 10, 15)),
    plantings,
    st.integers(20, 80),
    st.integers(0, 12),
    st.integers(1, 40),
    st.booleans(),
    st.integers(0, 30),
)
def test_odds_are_those_of_a_plain_recount(
    last: date,
    first: date,
    planted: date,
    low: int,
    width: int,
    picking: int,
    cool: bool,
    allowance: int,
) -> None:
    worth = max(1, picking // 2)
    line = crop(
        weather="cool" if cool else "warm",
        days_to_harvest=f"{low}-{low + width}",
        picking_days=str(picking),
        worthwhile_days=str(worth),
    )
    judged = _one(line, planted, Place(last, first), fall_allowance=str(allowance))

    def pick(days: int) -> date:
        plain = planted + timedelta(days=days)
        ahead = (first - plain).days
        begins = 56 if cool else 28
        share = Fraction(min(max(begins - ahead, 0), 28), 28) * Fraction(min(days, 55), 55)
        fall = int(allowance * share + Fraction(1, 2)) if planted <= first else 0
        lead = min(max((last - planted).days, 0), 30)
        return plain + timedelta(days=fall + int(Fraction(10 * lead, 30) + Fraction(1, 2)))

    def lives(day: date) -> float:
        return 1 - below(((day - first).days + 1) / SPREAD)

    picks = [pick(days) for days in range(low, low + width + 1)]
    stay = [[each + timedelta(days=k) for k in range(picking)] for each in picks]
    killed = 1 - below((planted + timedelta(days=10) - last).days / SPREAD)  # once it is up
    spared = 1 - killed * (killed > 1 / 1024)
    assert judged.odds == pytest.approx(
        spared * sum(lives(days[worth - 1]) for days in stay) / len(picks), abs=1e-9
    )
    assert judged.expected_picking_days == pytest.approx(
        spared * sum(lives(day) for days in stay for day in days) / len(picks), abs=1e-9
    )
    assert judged.odds_of_nothing == pytest.approx(
        1 - spared * sum(lives(day) for day in picks) / len(picks), abs=1e-9
    )
    assert judged.margin == (first - stay[-1][worth - 1]).days - 1


@settings(max_examples=25)
@given(
    places,
    crops(),
    sures,
    allowances,
    st.none() | st.tuples(days_from(date(2026, 5, 20), date(2026, 8, 1)), st.integers(0, 70)),
)
def test_safe_runs_are_the_days_judged_safe_one_by_one(
    place: Place, line: str, sure: str, allowance: str, heat: tuple[date, int] | None
) -> None:
    site = {"sure": sure, "fall_allowance": allowance}
    if heat is not None:
        line = line.replace("up_days", "warm_limit: 24, up_days")
        site["too_hot"] = f"{heat[0]}..{heat[0] + timedelta(days=heat[1])}"
    season = gardens.season(text(crops=[line], frost=place.frost, **site))
    fruit = gardens.crop_called(season, "fruit")
    found = season.conditions.prospects(fruit, fruit.raised)
    for number in range(365):
        day = date(2026, 1, 1) + timedelta(days=number)
        judged = found.judge(gardens.planted(day))
        inside = any(day in window for window in found.windows)
        assert (judged.verdict is Verdict.SAFE_FROM_FROST) == inside, day


# Room


def _reading_fits(file: str) -> bool:
    from sowtide.garden.read import read_garden

    return read_garden(file.encode(), gardens.LABEL).garden is not None


@given(beds(), entries(("small", "middle", "large")))
def test_no_bed_is_over_full_on_any_day(made: list[str], asked: list[str]) -> None:
    file = text(*asked, crops=MIXED, beds=made)
    assume(_reading_fits(file))
    found = gardens.season(file)
    used: dict[tuple[str, date], int] = defaultdict(int)
    for each in found.waves:
        assert sum(stand.plants for stand in each.stands) in (0, each.plants)
        stages = each.stages
        for stand in each.stands:
            standing = (stages.pull_out.day - stages.plant.day).days
            assert standing > 0
            for number in range(standing + stand.bed.rest):
                day = stages.plant.day + timedelta(days=number)
                used[stand.bed.name, day] += stand.plants * each.crop.area_per_plant
                if number < standing:
                    assert not any(day in span for span in stand.bed.taken)
    for bed in found.garden.beds:
        for (name, day), area in used.items():
            assert name != bed.name or area <= bed.size.width * bed.size.length, (name, day)


@given(beds(), entries(("small", "middle", "large")))
def test_a_later_wave_never_moves_an_earlier_one(made: list[str], asked: list[str]) -> None:
    more = text(
        *asked, wave("middle", start="2026-08-16", name="last", plants="2"), crops=MIXED, beds=made
    )
    less = text(*asked, crops=MIXED, beds=made)
    assume(_reading_fits(more) and _reading_fits(less))
    last = date(2026, 8, 16)
    before, after = (
        {
            each.id: (each.stands, _of(each.stages))
            for each in gardens.season(file).waves
            if each.stages.plant.day < last
        }
        for file in (less, more)
    )
    assert after == before


@given(beds(), entries(("small", "middle")), st.integers(1, 6))
def test_the_first_day_with_room_is_found_day_by_day(
    made: list[str], asked: list[str], plants: int
) -> None:
    crowd = [wave("small", start="06-01", plants=str(20 * plants), name="crowd"), *asked]
    file = text(*crowd, *_again(asked), crops=MIXED, beds=made)
    assume(_reading_fits(file))
    found = gardens.season(file)
    last = date(2026, 12, 31)
    for each in found.waves:
        if each.blocked is None:
            continue
        day, opening = each.stages.plant.day, None
        while day < last and opening is None:
            day += timedelta(days=1)
            if _has_room(found, each, day):
                opening = day
        assert opening == (each.blocked.opening and each.blocked.opening.day), each.id


def _again(asked: list[str]) -> list[str]:
    return [each.replace("name: s", "name: again") for each in asked]


def _has_room(found: Season, wave: Wave, day: date) -> bool:
    """Say whether a wave would have room on a day, all others in their places."""
    plants = []
    for bed in wave.entry.beds:
        prospects = found.conditions.prospects(
            wave.crop, wave.entry.raised, colder_by=bed.colder_than_site
        )
        pulled = prospects.judge(gardens.planted(day)).stages.pull_out.day
        number = found.room.number[bed.name]
        free = found.room.free_over(number, first=day.toordinal(), until=pulled.toordinal())
        plants.append(free // wave.crop.area_per_plant)
    return (sum(plants) if wave.entry.split else max(plants)) >= wave.plants


def _placed(found: Season) -> list[bool]:
    """Say in planting order which waves found room."""
    order: list[Wave] = sorted(found.waves, key=lambda each: each.stages.plant.day)
    return [bool(each.stands) for each in order]


ALIKE = (
    crop("quick", days_to_harvest="25", picking_days="5"),
    crop("slow", days_to_harvest="60", picking_days="20"),
)


@given(
    st.lists(st.integers(1, 9), min_size=1, max_size=4),
    st.integers(0, 3),
    st.integers(1, 8),
    entries(("quick", "slow")),
)
def test_with_one_spacing_a_larger_bed_is_never_worse(
    lengths: list[int], which: int, more: int, asked: list[str]
) -> None:
    """The list "placed?", in planting order, never becomes smaller in dictionary order."""
    asked = [each.replace(", split: no", "") for each in asked]
    larger = list(lengths)
    larger[which % len(larger)] += more
    files = [
        text(
            *asked,
            crops=ALIKE,
            beds=[f"{{bed: B{number}, size: 1 x {size}}}" for number, size in enumerate(sizes)],
        )
        for sizes in (lengths, larger)
    ]
    assume(all(_reading_fits(file) for file in files))
    before, after = (_placed(gardens.season(file)) for file in files)
    assert after >= before


def test_with_mixed_spacings_a_larger_bed_can_be_worse() -> None:
    # Six plants of one metre, then five, then two of four. With A of 5 the six go into B (of 8),
    # the five into A; when the six are gone B has its 8 free: two plants of 4. With A of 6 the
    # six go into A, the five into B; when the six are gone there are 6 and 3: one plant of 4.
    crops_ = [
        crop("quick", days_to_harvest="20", picking_days="1"),
        crop("slow", days_to_harvest="90", picking_days="10"),
        crop("wide", days_to_harvest="20", picking_days="1", in_row="400"),
    ]
    asked = [
        wave("quick", start="05-20", plants="6"),
        wave("slow", start="05-21", plants="5"),
        wave("wide", start="07-01", plants="2"),
    ]

    def placed(size: int) -> list[bool]:
        made = [f"{{bed: A, size: 1 x {size}}}", "{bed: B, size: 1 x 8}"]
        return _placed(gardens.season(text(*asked, crops=crops_, beds=made)))

    assert placed(5) == [True, True, True]
    assert placed(6) == [True, True, False]


# Today, and twice the same


@given(beds(), entries(("small", "middle", "large")), days_from(date(2025, 1, 1), date(2028, 1, 1)))
def test_today_moves_no_date_and_the_same_file_gives_the_same_season(
    made: list[str], asked: list[str], today: date
) -> None:
    file = text(*asked, crops=MIXED, beds=made)
    assume(_reading_fits(file))
    garden = gardens.read(file)
    early, late = season_of(garden, gardens.EARLY), season_of(garden, today)
    again = season_of(gardens.read(file), gardens.EARLY)
    assert again.waves == early.waves
    assert again.problems == early.problems
    assert _all_dates(late) == _all_dates(early)
    assert _judgements(late) == _judgements(early)
