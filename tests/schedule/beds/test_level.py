"""How full a bed is over time, against a plain list of its days."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from sowtide.schedule.stays import NEVER, Level

_DAYS = 30
_SPANS = st.tuples(st.integers(0, _DAYS), st.integers(0, _DAYS)).map(sorted)
_ADDED = st.lists(st.tuples(_SPANS, st.sampled_from((1, 2, 5, -1))), max_size=6)


@given(_ADDED, _SPANS, st.integers(-1, 6))
def test_a_level_is_that_of_a_plain_list_of_days(
    added: list[tuple[list[int], int]], looked_at: list[int], area: int
) -> None:
    level, days = Level(), [0] * (2 * _DAYS)
    for (begin, stop), much in added:
        level.add(begin, stop, much)
        for day in range(begin, stop):
            days[day] += much
    assert [level.on(day) for day in range(len(days))] == days
    first, until = looked_at
    assert level.peak(first, until) == max(days[first : max(until, first + 1)])
    changed = [day for day in range(first + 1, until) if days[day] != days[day - 1]]
    steps = level.changes(first, until)
    assert set(changed) <= set(steps)  # a step may lead from a level to the same
    ends = {each for span, _ in added for each in span}
    assert [day for day in sorted(ends) if first < day < until] == list(steps)
    over = next((day for day in range(first, len(days)) if days[day] > area), NEVER)
    under = next((day for day in range(over, len(days)) if days[day] <= area), NEVER)
    assert level.next_above(area, day=first) == (over, NEVER if over == NEVER else under)
