"""Gardens drawn at random: beds, and the waves that are asked for in them."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import strategies as st

from gardens import crop, wave


@st.composite
def beds(draw: st.DrawFn) -> list[str]:
    found = []
    for number in range(draw(st.integers(1, 4))):
        keys = [f"bed: B{number}", f"size: 1 x {draw(st.integers(1, 12))}"]
        if draw(st.booleans()):
            keys.append(f"rest: {draw(st.integers(0, 9))}")
        if draw(st.integers(0, 3)) == 0:
            keys.append(f"cover: {draw(st.integers(1, 5))}")
        if draw(st.integers(0, 3)) == 0:
            first = draw(st.dates(date(2026, 5, 1), date(2026, 9, 1)))
            keys.append(f"taken: {first}..{first + timedelta(days=draw(st.integers(0, 40)))}")
        found.append("{" + ", ".join(keys) + "}")
    return found


@st.composite
def entries(draw: st.DrawFn, names: tuple[str, ...]) -> list[str]:
    found = []
    for number in range(draw(st.integers(1, 6))):
        keys = {
            "name": f"s{number}",
            "plants": str(draw(st.integers(1, 6))),
            "start": str(draw(st.dates(date(2026, 5, 1), date(2026, 8, 15)))),
        }
        if draw(st.booleans()):
            keys |= {"every": str(draw(st.integers(5, 40))), "count": str(draw(st.integers(1, 5)))}
        if draw(st.integers(0, 4)) == 0:
            keys["split"] = "no"
        found.append(wave(draw(st.sampled_from(names)), **keys))
    return found


MIXED = (
    crop("small", days_to_harvest="25", picking_days="5", in_row="50", between_rows="50"),
    crop("middle", days_to_harvest="40-50", picking_days="14"),
    crop("large", days_to_harvest="60", picking_days="20", in_row="150", rotation="3"),
)
