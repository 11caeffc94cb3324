"""Published figures and common practice, reproduced by files that set exactly what they say."""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pytest

import gardens
import replayed
from gardens import crop, text, wave
from sowtide.climate.frost.depth import FrostDepth
from sowtide.days import Half, iso_week, monday_of
from sowtide.garden.crop import Raised
from sowtide.reasons import OURS, Dated
from sowtide.schedule.fits.answer import Answer
from sowtide.schedule.waves.wave import Verdict
from sowtide.units import celsius

LATE = date(2026, 8, 1)


def _fits(line: str, *, on: date = LATE, seedlings: bool = False, **site: str) -> Answer:
    name = line.split(":")[0]
    site = {"fall_allowance": "14 always", "sure": "0 days"} | site
    return gardens.ask(text(crops=[line], **site), name, on=on, seedlings=seedlings)


def test_nebraska_broccoli() -> None:
    """Nebraska Farmer, column on fall gardening, 1 July 2024.

    First frost 1 October, broccoli 60 days to harvest + 14 days of harvest + 14 days of fall
    factor: plant by 5 July.

    88 days before 1 October. The column counts to the average frost, at which it takes the crop
    to end: tender, and sure of 0 days.
    """
    line = crop(
        "head",
        weather="cool",
        hardiness="tender",
        days_to_harvest="60",
        picking_days="14",
        worthwhile_days="14",
    )
    frost = "{last: 05-01, first: 10-01}"
    found = _fits(line, frost=frost)
    assert found.last_safe == date(2026, 7, 5)
    assert _fits(line, frost=frost, on=date(2026, 7, 5)).verdict is Verdict.SAFE_FROM_FROST
    assert _fits(line, frost=frost, on=date(2026, 7, 6)).verdict is Verdict.TOO_LATE


def test_washington_snow_pea() -> None:
    """Washington State University, Grant-Adams Master Gardeners, 5 October 2018.

    First frost 15 October, snow pea 70 days from seed + 14 for the cool short days; no days of
    harvest are stated.

    15 October − 84 is 23 July, on which the pea would be picked on the day of the frost. Read with
    one day of harvest, which must come before the frost, it is 22 July.
    """
    line = crop(
        "pod",
        weather="cool",
        hardiness="tender",
        days_to_harvest="70",
        picking_days="1",
        worthwhile_days="1",
    )
    found = _fits(line, frost="{last: 05-01, first: 10-15}")
    assert found.last_safe == date(2026, 7, 22)
    assert date(2026, 10, 15) - timedelta(days=84) == date(2026, 7, 23)


VIRGINIA = {"sure": "14 days", "frost": "{last: 04-20, first: 10-15}"}


def test_virginias_formula_for_a_sown_crop() -> None:
    """Virginia Cooperative Extension, Fall Vegetable Gardening (2004).

    Count back from the average first frost the days to harvest + the average harvest period + 14
    days of fall factor + 14 more for a frost-tender crop.

    50 + 21 + 14 + 14 = 99 days before 15 October: 8 July.
    """
    line = crop("pod", days_to_harvest="50", picking_days="21", worthwhile_days="21")
    assert _fits(line, **VIRGINIA).last_safe == date(2026, 7, 8)
    assert date(2026, 10, 15) - timedelta(days=99) == date(2026, 7, 8)


def test_virginias_formula_for_a_crop_that_is_not_tender() -> None:
    """The same without the 14 days for a tender crop: 60 + 7 + 14 = 81 days: 26 July.

    It counts to the average frost whatever the crop stands, so the crop is set to end with it.
    """
    line = crop("pod", weather="cool", days_to_harvest="60", picking_days="7", worthwhile_days="7")
    found = _fits(line, frost=VIRGINIA["frost"], sure="0 days")
    assert found.last_safe == date(2026, 7, 26)


def test_virginias_formula_for_seedlings_of_ones_own() -> None:
    """The same, with the days from seed to transplant.

    21 + 60 + 21 + 14 + 14 = 130 days before 15 October the seed goes into its tray: 7 June, and
    the seedlings out on 28 June.
    """
    line = crop(
        "vine",
        raised="trays",
        nursery_days="21-28",
        counted_from="planting out",
        days_to_harvest="60",
        picking_days="21",
        worthwhile_days="21",
    )
    found = _fits(line, on=date(2026, 6, 28), seedlings=True, **VIRGINIA)
    assert found.last_safe == date(2026, 6, 28)
    sown = found.judged.stages.sow.day
    assert sown == date(2026, 10, 15) - timedelta(days=130) == date(2026, 6, 7)


GEORGETOWN = (
    "{last: {10%: 05-10, 50%: 04-25, 90%: 04-10}, first: {10%: 10-02, 50%: 10-16, 90%: 10-30}}"
)


@pytest.mark.parametrize(
    ("half", "share", "month", "day"),
    [
        (Half.SPRING, 0.10, 5, 10),
        (Half.SPRING, 0.33, 4, 30),
        (Half.SPRING, 0.50, 4, 25),
        (Half.SPRING, 0.67, 4, 20),
        (Half.SPRING, 0.90, 4, 10),
        (Half.AUTUMN, 0.10, 10, 2),
        (Half.AUTUMN, 0.33, 10, 11),
        (Half.AUTUMN, 0.50, 10, 16),
        (Half.AUTUMN, 0.67, 10, 21),
        (Half.AUTUMN, 0.90, 10, 30),
    ],
)
def test_georgetown_delaware(half: Half, share: float, month: int, day: int) -> None:
    """University of Delaware, 32 °F at Georgetown (data published in 1970).

    Given its 10, 50 and 90 % dates, its 33 and 67 % dates come out; spring later than, autumn
    earlier than.
    """
    climate = gardens.season(text(frost=GEORGETOWN)).climate
    found = climate.frosts.day(half, at=0.0, share=share)
    assert found is not None
    assert found.day == date(2026, month, day)
    assert climate.frosts.odds(half, found.day, at=0.0) == pytest.approx(share, abs=0.02)


def test_four_degrees_buy_about_ten_days_in_the_black_hills() -> None:
    """South Dakota State University Extension: 28 °F comes ten days after 32 °F on average.

    Sowtide has three days for each degree, as records have (below), so that it is two days late.
    """
    file = text(frost="{last: 05-15, first: 09-20}").replace("metric", "us")
    climate = gardens.season(file).climate
    mild, hard = (climate.frosts.day(Half.AUTUMN, at=at, share=0.5) for at in (0.0, -20 / 9))
    assert mild is not None
    assert hard is not None
    assert 10 <= (hard.day - mild.day).days <= 12


@pytest.mark.parametrize("half", Half)
def test_a_degree_is_about_three_days_on_three_records(half: Half) -> None:
    """From 32 to 24 °F, the middle of all years: Wageningen, Fulda and Clemson, a tenth each."""
    days = []
    for name in ("wageningen", "fulda", "clemson"):
        years = replayed.years(name)
        mild, hard = (years.frosts(celsius(at)).of(half).quantile(0.5) for at in (32, 24))
        days.append(abs(hard - mild) / 8)
    assert all(2 <= each <= 5.2 for each in days)
    assert 2.5 <= np.mean(days) <= 4.5


def test_winters_are_as_cold_as_their_coldest_month_says() -> None:
    """The share of winters at or under 20 and 10 °F on four records, beside those of two months."""
    for name in ("seattle", "wageningen", "fulda", "clemson"):
        kept = replayed.record(name)
        assert kept.tmax is not None
        lows, highs = np.array(kept.tmin), np.array(kept.tmax)
        days = [kept.first + timedelta(number) for number in range(len(lows))]
        months = np.array([day.month for day in days])
        means = [np.nanmean((lows + highs)[months == month] / 2) for month in range(1, 13)]
        depth = FrostDepth.of_months(warmest=float(max(means)), coldest=float(min(means)))
        winters = np.array([day.year + (day.month >= 7) for day in days])
        coldest = [
            np.nanmin(lows[winters == winter])
            for winter in np.unique(winters)
            if np.isfinite(lows[winters == winter]).sum() > 330
        ]
        assert abs(np.mean(coldest) - depth.mean) <= 2.5, name
        for at in (celsius(20), celsius(10)):
            assert abs(np.mean(np.array(coldest) <= at) - depth.share(at)) <= 0.35, (name, at)


def test_where_the_coldest_month_is_mild_no_hard_frost_is_run_on_to() -> None:
    """37° S, January 19 and July 9 °C: no −4 °C comes there (common practice, from memory)."""
    file = text(frost="{last: 09-20, first: 05-20}", latitude=-37)
    mild = file.replace("  units", "  warmest_month: 19\n  coldest_month: 9\n  units")
    for half in Half:
        assert gardens.season(file).climate.frosts.day(half, at=-4.4, share=0.5) is not None
        assert gardens.season(mild).climate.frosts.day(half, at=-4.4, share=0.5) is None
    odds = gardens.season(mild).climate.frosts.odds(Half.AUTUMN, date(2026, 12, 31), at=-4.4)
    assert odds < 0.15


@pytest.mark.parametrize("last", ["04-15", "05-01", "05-25"])
def test_bush_bean_ten_days_before_the_average_last_frost(last: str) -> None:
    """Virginia Cooperative Extension 426-331 (2006): from 10 days before the average last frost.

    At even odds the built-in bean may be sown as long before it as it takes to show.
    """
    file = text(
        wave("bush bean"),
        crops=["bush bean: {}"],
        frost=f"{{last: {last}, first: 10-15}}",
        sure="50%",
    )
    found = gardens.only(file)
    before = date(2026, int(last[:2]), int(last[3:])) - found.stages.plant.day
    assert 8 <= before.days <= 13


@pytest.mark.parametrize(
    ("day", "week"), [(date(2027, 1, 1), "2026-W53"), (date(2024, 12, 30), "2025-W01")]
)
def test_iso_weeks(day: date, week: str) -> None:
    """ISO 8601: the week that holds a year's first Thursday is its first."""
    assert iso_week(day) == week
    assert 0 <= (day - monday_of(week)).days < 7


@pytest.mark.parametrize("built_in", ["summer squash", "cucumber"])
def test_a_vine_set_out_as_seedlings(built_in: str) -> None:
    """Common practice, no source: picked after 45–60 days, wants 60–75 frost-free days.

    A fortnight of picking is among them; waves follow every three to six weeks.
    """
    entry = wave(built_in, raised="trays", start="06-01")
    file = text(entry, crops=[f"{built_in}: {{raised: either}}"], frost=gardens.FROST)
    made = gardens.only(file)
    assert made.stages.first_pick is not None
    early, late = ((each.day - date(2026, 6, 1)).days for each in made.stages.first_pick)
    assert early <= 60
    assert late >= 45
    assert 60 <= late + made.crop.worthwhile_days <= 75
    series = gardens.season(
        text(
            wave(built_in, raised="trays", start="05-25", every="28"),
            crops=[f"{built_in}: {{raised: either}}"],
            frost=gardens.FROST,
        )
    )
    assert len(series.waves) >= 2  # room for more than one wave between the frosts


@pytest.mark.parametrize("built_in", ["summer squash", "cucumber", "pickling cucumber"])
def test_a_vine_set_out_in_a_warm_summer(built_in: str) -> None:
    """Common practice, no source: first picks four to six weeks after plants are set out in warmth.

    One more is worth it with 60 to 75 days ahead in which no frost comes; sure of four years in
    five it may be a few more. On the record of Clemson, South Carolina.
    """
    on = replayed.season(replayed.record("clemson"), latitude=replayed.LATITUDES["clemson"])
    found = replayed.prospects(on, built_in, Raised.TRAYS)
    planted = Dated.on(date(2026, 7, 15), "written", "planted", OURS)
    early, _ = on.climate.waves.outlook(planted, found.need).first_pick
    assert 28 <= (early.day - planted.day).days <= 42
    frost = on.climate.frosts.day(Half.AUTUMN, at=0.0, share=0.5)
    assert frost is not None
    assert 60 <= (frost.day - found.windows[-1].last).days <= 80


@pytest.mark.parametrize("planted", ["07-01", "07-20", "08-05", "08-20", "09-10", "10-01"])
def test_nothing_is_picked_on_or_after_the_killing_frost(planted: str) -> None:
    """Common practice, no source."""
    for hardiness in ("very tender", "tender", "half-hardy", "hardy", "hardiest"):
        line = crop(hardiness=hardiness, picking_days="90", days_to_harvest="40-55")
        made = gardens.only(text(wave(start=planted), crops=[line]))
        assert made.judged.end is not None
        last = made.stages.last_pick
        assert last is None or last.day < made.judged.end.day


def test_equal_gaps_of_sowing_are_not_equal_gaps_of_picking() -> None:
    """ATTRA, Scheduling Vegetable Plantings for Continuous Harvest (2008).

    Peas sown two weeks apart in early spring ripen about one week apart; a few days' difference
    at midsummer becomes weeks in autumn. Without temperatures the allowances give the direction,
    not the amount.
    """
    line = crop("pod", weather="cool", hardiness="hardy", days_to_harvest="60", picking_days="7")

    def picked(planted: str) -> date:
        stages = gardens.only(text(wave("pod", start=planted), crops=[line])).stages
        assert stages.first_pick is not None
        return stages.first_pick[0].day

    assert (picked("05-01") - picked("04-17")).days < 14
    assert (picked("07-15") - picked("07-01")).days > 14


def test_a_crop_of_sixty_five_days_needs_about_eighty_in_autumn() -> None:
    """Virginia Tech, quoted in 2011: a 65-day crop could need closer to 80 days in autumn."""
    line = crop("head", weather="cool", hardiness="hardy", days_to_harvest="65")
    stages = gardens.only(text(wave("head", start="07-10"), crops=[line])).stages
    assert stages.first_pick is not None
    assert (stages.first_pick[0].day - date(2026, 7, 10)).days == pytest.approx(80, abs=2)


# University of Delaware: peas

# No daily record of Delaware is at hand where these tests get their records, and no table of its
# normals. These are the means of Georgetown, Delaware, 1991-2020, in °F, written FROM MEMORY,
# to about 2 °F, before anything was counted with them. They are no published table.
DELAWARE = (
    "{last: 04-25, first: 10-16, normals: {"
    "max: [45, 48, 55, 66, 75, 83, 88, 86, 80, 69, 59, 49], "
    "min: [27, 28, 34, 43, 53, 62, 67, 65, 59, 47, 38, 31]}}"
)
FIRST_READY, LAST_READY = date(2024, 5, 27), date(2024, 6, 3)
"""Of five years, the earliest and the latest."""

NORMALS_FROM_MEMORY = 5
"""What 2 °F more or less in the normals come to: from March to May, 75 days of 2 °F are
150 °F·d, and in late May a day brings about 27 of them (a mean of 67 °F, above 40): five to six
days, of which the lesser is taken. [days]
"""


@pytest.mark.parametrize(
    "heat",
    [
        # The days of the packet (58, North Dakota State University) as warmth: another source. It
        # comes out on 26 May, a day before the earliest of the five years.
        "",
        # The units that the same article gives for the quickest sorts. It comes out on 31 May; this
        # holds the counting of warmth, not the total.
        ", heat: {base: 40, units: 1250, method: average}",
    ],
    ids=["the packet's days", "1,250 units"],
)
def test_delaware_peas(heat: str) -> None:
    """University of Delaware, Weekly Crop Update (E. Ernest), pea heat units.

    The quickest sorts, sown at Georgetown on 15 March, were ready from 27 May to 3 June in 2020 to
    2024. Counted here in an average year from normals that are remembered, not looked up; the
    quickest sorts are the early end of the days to harvest.
    """
    file = text(
        wave(crop="pea", start="03-15"),
        crops=(f"pea: {{picking_days: 14{heat}}}",),
        frost=DELAWARE,
        latitude=38.7,
        season=2024,
    )
    judged = gardens.season(file.replace("metric", "us")).waves[0].judged
    assert judged.stages.first_pick is not None
    ready = judged.stages.first_pick[0].day
    off = timedelta(days=NORMALS_FROM_MEMORY)
    assert FIRST_READY - off <= ready <= LAST_READY + off
