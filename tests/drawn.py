"""Gardens drawn at random: beds, and the waves that are asked for in them."""

from __future__ import annotations

from datetime import date, timedelta
from random import Random

from hypothesis import strategies as st

from gardens import crop, leaf, text, wave


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

COVERED = (
    crop(days_to_harvest="45-55"),
    crop("late", days_to_harvest="90", raised="trays", nursery_days="30-40"),
    leaf(days_to_harvest="40"),
    leaf("cabbage", days_to_harvest="60", rotation="3", raised="either", nursery_days="25-40"),
    crop("winter", overwinters="yes", hardiness="hardiest", ready="06-25..07-20"),
)


def covered_garden(chance: Random) -> str:
    """Draw a garden of a few beds, some covered or in a hollow, that seldom hold all its waves."""
    beds = [
        f"{{bed: B{number}, size: 1 x {chance.randint(4, 12)}"
        + chance.choice(["", ", cover: 3", ", cover: 5", ", colder_by: 2"])
        + "}"
        for number in range(chance.randint(1, 4))
    ]
    most = sum(int(bed.split(" x ")[1].split(",")[0].rstrip("}")) for bed in beds)
    entries = []
    for number in range(chance.randint(1, 4)):
        name = chance.choice(["fruit", "late", "leaf", "winter", "cabbage"])
        start = f"{chance.randint(4, 9):02}-{chance.randint(1, 28):02}"
        keys = {"plants": str(chance.randint(1, min(10, most))), "start": start}
        if chance.random() < 0.5:
            keys |= {"every": str(chance.randint(7, 25)), "count": "4"}
        if chance.random() < 0.6:
            names = sorted({chance.randrange(len(beds)) for _ in range(2)})
            area = sum(int(beds[n].split(" x ")[1].split(",")[0].rstrip("}")) for n in names)
            keys["plants"] = str(min(int(keys["plants"]), area))
            keys["beds"] = "[" + ", ".join(f"B{n}" for n in names) + "]"
        entries.append(wave(name, name=f"w{number}", **keys))
    hot = chance.choice(["none", "07-05..08-10"])
    sure = chance.choice(["80%", "50%", "95%"])
    return text(*entries, crops=COVERED, beds=beds, too_hot=hot, sure=sure)
