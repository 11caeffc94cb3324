"""One more wave of an early or a late sort, where the days to harvest of several are known."""

from __future__ import annotations

from datetime import date

import gardens
from sowtide.garden.crop import Crop, Sort
from sowtide.garden.varieties import crops_called
from sowtide.schedule.fits import Question, answer
from sowtide.schedule.fits.answer import Answer
from sowtide.schedule.season import Season

CORN = "{crop: sweet corn, plants: 40, from: 05-20}"
JUNE = date(2026, 6, 15)


def season(*waves: str) -> Season:
    file = gardens.text(*waves, frost="{last: 05-01, first: 10-15}", latitude=41)
    return gardens.season(file, JUNE)


def of_sort(of: Season, name: str, sort: Sort) -> Crop | None:
    return crops_called(name, of.garden)[0].of_sort(sort)


def asked(of: Season, sort: Sort) -> Answer:
    crop = of_sort(of, "sweet corn", sort)
    assert crop is not None
    return answer(of, Question(crop=crop, plants=None, bed=None, on=JUNE, seedlings=False))


def test_an_early_sort_is_ready_by_a_third_of_the_days() -> None:
    # 70 to 100 days: early 70 to 80, main 80 to 90, late 90 to 100; the fall allowance is over all
    of = season()
    picks = []
    for sort in Sort:
        first = asked(of, sort).judged.stages.first_pick
        assert first is not None
        picks.append(first[0].day)
    assert picks == sorted(set(picks))
    lasts = [asked(of, sort).last_safe for sort in Sort]
    assert all(last is not None for last in lasts)
    early, main, late = (last.toordinal() for last in lasts if last is not None)
    assert early - main >= 10
    assert main - late >= 10


def test_as_many_plants_are_asked_for_as_the_crop_has_of_another_sort() -> None:
    assert asked(season(CORN), Sort.EARLY).plants == 40
    early = "{crop: sweet corn, sort: early, plants: 12, from: 05-20, name: first}"
    assert asked(season(CORN, early), Sort.EARLY).plants == 12


def test_a_sort_has_a_name_of_its_own_and_leads_back() -> None:
    of = season()
    early = of_sort(of, "sweet corn", Sort.EARLY)
    assert early is not None
    assert (early.name, early.sortless) == ("sweet corn (early)", "sweet corn")
    late = early.of_sort(Sort.LATE)
    assert late is not None
    assert late.name == "sweet corn (late)"
    assert early.of_sort(Sort.EARLY) is early


def test_what_is_of_one_sort_has_no_other() -> None:
    assert of_sort(season(), "bush bean", Sort.EARLY) is None
