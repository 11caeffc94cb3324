"""What is left unmet against the least that must be, found by OR-tools' CP-SAT.

Four small households here; `python tests/households.py 60` prints sixty of six to ten wants.
"""

from __future__ import annotations

import pytest

from households import drawn, household, least_unmet
from sowtide.schedule.filling import FreeBeds, choose

SMALL = (6, 7, 8, 10)
"""Seeds whose optimum, or a bound near it, is proven in little work."""
WORK = 1
"""CP-SAT's own measure of work, which does not depend on the machine."""


@pytest.mark.parametrize("seed", SMALL)
def test_little_more_is_left_unmet_than_must_be(seed: int) -> None:
    of = drawn(household(seed, wants_of=(3, 4), most_beds=2))
    found = choose(of.options, FreeBeds(of.season), of.lacking, rounds=100).unmet
    least, _ = least_unmet(of, work=WORK)
    assert least - 0.01 <= found <= 1.05 * least + 0.01


def test_more_beds_leave_no_more_unmet() -> None:
    file = household(3, wants_of=(3, 4), most_beds=2)
    more = file.replace("beds:\n", "beds:\n  - {bed: More, size: 1 x 6}\n")
    few, many = (
        choose(of.options, FreeBeds(of.season), of.lacking, rounds=60).unmet
        for of in map(drawn, (file, more))
    )
    assert many < few
