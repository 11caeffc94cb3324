"""How many are named before the rest is counted: the most that are, and one more."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

import gardens
from printed import page
from sowtide.report import instead_of, into_bed
from sowtide.report.into_bed import REPORT
from sowtide.report.kit.words import some_beds
from sowtide.schedule.fits import BedQuestion, Question, weigh, what_fits
from sowtide.schedule.noting import Unclear, one_of


def test_six_beds_are_named_and_of_seven_the_first_and_the_last() -> None:
    assert some_beds([*"ABCDEF"]) == "A, B, C, D, E and F"
    assert some_beds([*"ABCDEFG"]) == "7 beds, A … G"


def test_of_what_a_word_may_be_six_are_named() -> None:
    for letters, said in (("abcdef", "xa, xb, xc, xd, xe, xf."), ("abcdefg", "xd, xe, xf, ….")):
        with pytest.raises(Unclear) as unclear:
            one_of("x", [f"x{letter}" for letter in letters], "wave")
        assert str(unclear.value).endswith(said)


@pytest.mark.parametrize(
    ("number", "away", "closed"),
    [
        (8, "c6, c7.", "Rotation keeps out: c0, c1, c2, c3, c4, c5, c6, c7."),
        (9, "c6, c7 and 1 more.", "Rotation keeps out 9 crops;"),
    ],
)
def test_eight_crops_are_named_of_a_bed(number: int, away: str, closed: str) -> None:
    of = gardens.season(gardens.text())
    view = into_bed.view(what_fits(of, BedQuestion(of.garden.beds[0], date(2026, 7, 1), False)), of)
    crops = tuple(
        replace(view.crops[0], title=f"c{n}", away_when_planted=True) for n in range(number)
    )
    many = replace(view, crops=crops, closed_by_rotation=tuple(each.title for each in crops))
    text = " ".join(" ".join(page(REPORT, many)).split())
    assert f"Planted while nobody is there: c0, c1, c2, c3, c4, c5, {away}" in text
    assert closed in text


@pytest.mark.parametrize(("number", "more"), [(8, " are"), (9, ", and 1 more are")])
def test_eight_waves_are_named_beside_one_that_is_weighed(number: int, more: str) -> None:
    of = gardens.season(gardens.text(gardens.wave(start="06-01"), crops=(gardens.crop(),)))
    weighed = weigh(of, of.waves[0], Question(of.garden.crops[0], None, None, None, False))
    names = tuple(f"w-{n}" for n in range(number))
    many = replace(instead_of.view(weighed, of), same_crop=names)
    text = " ".join(" ".join(page(instead_of.REPORT, many)).split())
    assert f"w-6 and w-7{more} picked on some of the same days." in text
