"""A season planned like another of the same garden is the one that is planned afresh."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

from mutations.mutate import DEMO, FROST, station
from sowtide.garden.journal import Journal, journal_of
from sowtide.schedule.season import Season
from sowtide.season import load, load_demo, season_of

MAY, JULY = date(2026, 5, 20), date(2026, 7, 16)
NOTED = """\
- {on: 2026-05-24, wave: bush-bean-1, bed: South, did: sown, plants: 36}
- {on: 2026-07-08, wave: bush-bean-1, did: first picked, amount: 2lb}
- {on: 2026-07-04, wave: lettuce-5, did: pulled, sick: yes}
"""


def journal() -> Journal:
    found = journal_of(NOTED.encode(), "journal.yaml").journal
    assert found is not None
    return found


def alike(one: Season, other: Season) -> bool:
    return (one.waves, one.gaps, one.problems) == (other.waves, other.gaps, other.problems)


def test_seen_from_another_day_and_with_a_journal() -> None:
    garden = load_demo().garden
    assert garden is not None
    may = season_of(garden, MAY)
    july = season_of(garden, JULY, like=may)
    assert july.conditions is may.conditions
    assert alike(july, season_of(garden, JULY))
    assert not alike(july, may)
    noted = season_of(garden, JULY, None, journal(), like=july)
    assert alike(noted, season_of(garden, JULY, None, journal()))
    assert not alike(noted, july)
    assert alike(season_of(garden, JULY, like=noted), july)


def test_of_another_garden_nothing_is_taken_over() -> None:
    garden = load_demo().garden
    assert garden is not None
    unknown = replace(garden, site=replace(garden.site, two_months=None))
    found = season_of(unknown, JULY, like=season_of(garden, JULY))
    assert alike(found, season_of(unknown, JULY))
    assert not alike(found, season_of(garden, JULY))


def test_days_of_the_season_itself_are_known_up_to_the_day_it_is_looked_at_from(
    tmp_path: Path,
) -> None:
    text = DEMO.read_text(encoding="utf-8").replace(FROST, "{record: station.csv}")
    text = text.replace("season: 2026", "season: 2023").replace("2026-", "2023-")
    (tmp_path / "garden.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "station.csv").write_text(station(), encoding="utf-8")
    loaded = load(tmp_path / "garden.yaml")
    assert loaded.garden is not None
    garden, record = loaded.garden, loaded.record
    may, july = MAY.replace(year=2023), JULY.replace(year=2023)
    before = season_of(garden, may, record)
    later = season_of(garden, july, record, like=before)
    afresh = season_of(garden, july, record)
    assert alike(later, afresh)
    assert [w.judged for w in later.waves] != [w.judged for w in before.waves]
    again = season_of(garden, july, record, like=later)
    assert again.conditions is later.conditions
