"""Gardens drawn by chance, with names short and long, narrow and wide, through every screen."""

from __future__ import annotations

from collections.abc import Iterator
from random import Random

from mutations.mutate import COLUMNS, Case

BEDS = (
    "Hoops",
    "South bed",
    "North by the shed wall",
    "Long 1",
    "B7",
    "床の苗",
    "Kräuterbeet an der Mauer",
)
BEDS += (
    "Bed-with-a-very-long-name-that-has-no-spaces-at-all",
    "X" * 70,
    "a b c d e f g h i j k l m n",
)
SERIES = ("a-series-name-that-is-quite-long-for-a-column", "s", "frühe-möhren", "x" * 60)
CROPS = (
    "bush bean",
    "lettuce",
    "radish",
    "summer squash",
    "tomato",
    "pea",
    "carrot",
    "beet",
    "garlic",
)
CROPS += (
    "kale",
    "broccoli",
    "spinach",
    "Brussels sprouts",
    "Chinese cabbage",
    "leek",
    "winter squash",
)
SCREENS = (
    ("week",),
    ("week", "--by", "work", "--weeks", "2"),
    ("calendar",),
    ("plan",),
    ("plan", "--by", "bed"),
    ("plan", "--repack"),
    ("frost",),
    ("check",),
    ("fits", "CROP"),
    ("fits", "CROP", "--bed", "BED"),
    ("fits", "CROP", "--cover", "4"),
    ("fits", "--bed", "BED"),
    ("why", "WAVE"),
    ("crops", "CROP"),
    ("crops",),
)


def drawn(gardens: int, seed: int, *, screens: int) -> Iterator[Case]:
    """Yield some screens of some gardens, the same ones for the same seed."""
    random = Random(seed)
    for _ in range(gardens):
        south = random.random() < 0.25
        beds = random.sample(BEDS, random.randint(1, 5))
        names = [f"{random.choice(SERIES)}-{n}-w" for n in range(random.randint(1, 9))]
        text = _text(random, beds, names, south=south)
        day = "2027-01-10" if south else random.choice(("2026-04-01", "2026-07-16", "2026-09-20"))
        words = {"CROP": random.choice(CROPS), "BED": random.choice(beds), "WAVE": f"{names[0]}-1"}
        for screen in random.sample(SCREENS, screens):
            command = tuple(words.get(part, part) for part in screen)
            yield Case(text, None, (*command, "--today", day), random.choice(COLUMNS))


def _text(random: Random, beds: list[str], names: list[str], *, south: bool) -> str:
    us = random.random() < 0.5
    spring, autumn = ("10", "04") if south else ("05", "10")
    frost = (
        f"{{last: {spring}-{random.randint(1, 28):02}, first: {autumn}-{random.randint(1, 28):02}}}"
    )
    lines = [
        "site:",
        f"  name: {random.choice(BEDS)}",
        f"  latitude: {'-' if south else ''}{random.randint(30, 60)}.5",
        f"  units: {'us' if us else 'metric'}",
        f"  frost: {'none' if random.random() < 0.2 else frost}",
        f"  week_starts: {random.choice(('monday', 'sunday'))}",
        f"  too_hot: {random.choice(('none', '01-01..02-10' if south else '07-01..08-10'))}",
        "season: 2026",
        "beds:",
    ]
    sizes = ("4 x 20", "3 x 8", "12 x 40") if us else ("1.2 x 6", "1 x 3", "3 x 20")
    for bed in beds:
        cover = f", cover: {random.randint(1, 6)}" if random.random() < 0.3 else ""
        lines.append(
            f"  - {{bed: {bed}, size: {random.choice(sizes)}, rest: {random.randint(0, 5)}{cover}}}"
        )
    lines.append("waves:")
    days = ("earliest", "12-01", "2027-01-10") if south else ("earliest", "06-01", "07-10", "12-01")
    for name in names:
        series = f", every: {random.randint(5, 40)}" if random.random() < 0.6 else ""
        named = f", beds: [{random.choice(beds)}]" if random.random() < 0.4 else ""
        lines.append(
            f"  - {{crop: {random.choice(CROPS)}, name: {name}, plants: {random.randint(1, 40)}, "
            f"from: {random.choice(days)}{series}{named}}}"
        )
    return "\n".join(lines) + "\n"
