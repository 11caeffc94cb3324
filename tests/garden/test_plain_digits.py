"""What is refused of numbers and words, whatever key they stand behind, and what is said to it."""

from __future__ import annotations

import pytest

import gardens
from sowtide.diagnostics import Problem
from sowtide.garden.read import read_garden

SITE = "site: {{name: G, latitude: {latitude}, units: us, frost: {{last: {last}, first: 10-02}}, "
SITE += "sure: {sure}, fall_allowance: {allowance}, colder_by: {degrees}, too_hot: {span}}}\n"
BED = "beds: [{{bed: Long, size: {size}, rest: {number}, grew: {{{season}: squash family}}, "
BED += "cover: {degrees}, taken: {span}}}]\n"
CROP = "crops: {{bush bean: {{days_to_harvest: {range}, picking_days: {number}, in_row: {size_of}, "
CROP += "germination: {sure}, holding_days: {range}, rated_at: {warm}, long_day: {number}}}}}\n"
WAVE = "waves: [{{crop: bush bean, plants: {number}, from: {last}, every: {range}, "
WAVE += "until: {until}, wave_beds: {{{number}: Long}}}}]\n"
GARDEN = SITE + "season: {season}\n" + BED + CROP + WAVE
RIGHT = {
    "latitude": "43.1",
    "last": "05-08",
    "sure": "80%",
    "allowance": "14",
    "degrees": "2",
    "warm": "70",
    "span": "07-01..08-20",
    "season": "2026",
    "size": "4 x 20",
    "size_of": "4",
    "range": "50-60",
    "number": "3",
    "until": "08-20",
}
MANY = "9" * 5_000
ODD = ["²", "4²", "²4", "4²N", "٣", "1٣", "05-0٨", "٠٥-08", "4½", "1e²", "²5.5", "٤ x ٥", "80²%"]
ODD += ["W٣١", "٢٠٢٦-05-08", "1991-²020", "last ²", "14² always", "07-01..08-2٠"]
LONG = [MANY, f"{MANY}.5", f"0.{MANY}", f"-{MANY}", f"{MANY}-{MANY}", f"1-{MANY} d", f"5 to {MANY}"]
LONG += [f"{MANY}%", f"{MANY} days", f"last {MANY}", f"{MANY} x 4", f"4 ft x {MANY} ft", f"{MANY}N"]
LONG += [f"1e{MANY}", f"0x{'f' * 5_000}", f"1_{MANY}", f"W{MANY}", f"{MANY} always", "x" * 5_000]


def problems(**changed: str) -> tuple[Problem, ...]:
    return read_garden(GARDEN.format(**RIGHT | changed).encode(), "garden.yaml").problems


def test_the_garden_is_right_but_for_what_is_changed() -> None:
    assert {each.severity.value for each in problems()} <= {"warning", "note"}


@pytest.mark.parametrize("key", RIGHT)
@pytest.mark.parametrize("written", ODD)
def test_only_the_digits_0_to_9_are_digits(key: str, written: str) -> None:
    assert any(each.severity.value == "error" for each in problems(**{key: f"'{written}'"}))


@pytest.mark.parametrize("key", RIGHT)
def test_a_number_of_thousands_of_digits_is_refused_in_few_words(key: str) -> None:
    for written in LONG:
        found = [
            each for each in problems(**{key: f"'{written}'"}) if each.severity.value == "error"
        ]
        assert found, written[:12]
        for each in found:
            assert len(each.message) < 200, written[:12]
            assert len(each.hint or "") <= 1_000, written[:12]


@pytest.mark.parametrize(
    ("written", "days"),
    [
        ("2 weeks", "14"),
        ("1 week", "7"),
        ("2-3 weeks", "14-21"),
        ("2 to 3 wks", "14-21"),
        ("3wk", "21"),
        ("1 month", "30"),
        ("weekly", "7"),
        ("Fortnight", "14"),
        ("monthly", "30"),
    ],
)
def test_weeks_are_said_in_days(written: str, days: str) -> None:
    for key in ("range", "number"):
        hints = {each.hint for each in problems(**{key: written})}
        assert f"write it in days: {days}" in hints, key


def of_waves(wave: str, crops: str = "") -> Problem:
    head = "site: {name: G, latitude: 43, units: us, frost: {last: 05-08, first: 10-02}}\n"
    bed = "season: 2026\nbeds: [{bed: Long, size: 4 x 20}]\n"
    text = f"{head}{bed}{crops}waves: [{{{wave}, plants: 3, from: 05-20}}]\n"
    (problem,) = read_garden(text.encode(), "garden.yaml").problems
    return problem


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("transplant", "trays"),
        ("transplants", "trays"),
        ("Seedlings", "trays"),
        ("pots", "trays"),
        ("direct-sown", "direct"),
        ("sown direct", "direct"),
    ],
)
def test_other_words_for_how_it_is_raised(written: str, meant: str) -> None:
    assert of_waves(f"crop: lettuce, raised: {written}").hint == f"write {meant}"


@pytest.mark.parametrize(
    "name", ["asparagus", "Rhubarb", "strawberries", "globe artichoke", "mint"]
)
def test_what_stands_for_years_is_no_misspelt_crop(name: str) -> None:
    hint = of_waves(f"crop: {name}").hint
    assert hint == "it stands for years, and this plans one: close its bed with taken: all year"


def test_ready_days_of_a_crop_that_no_winter_is_for_are_refused() -> None:
    problem = of_waves("crop: lettuce", "crops: {lettuce: {ready: 06-25..07-20}}\n")
    assert (problem.code, problem.message) == (
        "crop-numbers",
        "ready: 'lettuce' does not stand over the winter",
    )


def test_names_in_hints_are_cut_at_sixty_characters() -> None:
    name = "a bed with a long name " * 8
    text = f"""
site: {{name: G, latitude: 43, units: us, frost: {{last: 05-08, first: 10-02}}}}
season: 2026
beds: [{{bed: {name}, size: 4 x 20}}]
waves:
  - {{crop: bush bean, plants: 3, from: 05-20, beds: [{name}s]}}
  - {{crop: bush bean, plants: 3, from: 05-20, name: two, beds: [North]}}
"""
    near, listed = (each.hint or "" for each in read_garden(text.encode(), "garden.yaml").problems)
    assert near == f"did you mean '{name[:57]}...'?"
    assert listed == f"the beds are: {name[:57]}..."


# Chains of crops that are like each other


def chain(length: int, *, last: str, turned: bool) -> str:
    rows = [f"  c{number}: {{like: c{number + 1}}}\n" for number in range(length)]
    rows.append(f"  c{length}: {{like: {last}}}\n")
    return "crops:\n" + "".join(reversed(rows) if turned else rows)


HEAD = """
site: {name: G, latitude: 43, units: us, frost: {last: 05-08, first: 10-02}}
season: 2026
beds: [{bed: Long, size: 4 x 20}]
"""


@pytest.mark.parametrize("turned", [False, True])
def test_a_chain_of_crops_may_be_as_long_as_it_likes(turned: bool) -> None:
    text = HEAD + chain(1_200, last="bush bean", turned=turned)
    garden = read_garden(text.encode(), "garden.yaml").garden
    assert garden is not None
    assert {crop.kind for crop in garden.crops} == {"bush bean"}
    assert len(garden.crops) == 1_201


@pytest.mark.parametrize("turned", [False, True])
def test_a_chain_that_leads_back_into_itself_is_told_once(turned: bool) -> None:
    text = HEAD + chain(1_200, last="c3", turned=turned)
    (problem,) = read_garden(text.encode(), "garden.yaml").problems
    assert problem.code == "crop-incomplete"


# Many mistakes


@pytest.mark.parametrize(
    "rows",
    [
        "".join(f"key{n}: 1\n" for n in range(1_500)),
        "".join(f"k{n}: x #y\n" for n in range(1_500)),
        "waves:\n" + "  - {crop: bush bean, plantz: 3, form: 05-20}\n" * 1_500,
        "waves:\n" + "  - {crop: bsh bn, plants: 3, from: 05-20}\n" * 1_500,
        "waves:\n  - {crop: pea, plants: 3, from: 05-20, beds: [" + "North, " * 1_500 + "]}\n",
        "crops:\n" + "".join(f"  c{n}: {{like: bush baen}}\n" for n in range(1_500)),
    ],
    ids=["unknown keys", "comments", "misspelt keys", "misspelt crops", "misspelt beds", "likes"],
)
def test_of_many_mistakes_the_first_hundred_are_shown_and_the_rest_counted(rows: str) -> None:
    found = read_garden((HEAD + rows).encode(), "garden.yaml").problems
    assert len(found) == 101
    lines = [each.span.line for each in found[:-1] if each.span is not None]
    assert len(lines) == 100
    assert lines == sorted(lines)
    assert (found[-1].code, found[-1].message) == ("more", "and 900 more such problems")


def test_a_hundred_mistakes_are_all_shown() -> None:
    rows = "".join(f"key{number}: 1\n" for number in range(100))
    found = read_garden((HEAD + rows).encode(), "garden.yaml").problems
    assert [each.code for each in found] == ["unknown-key"] * 100


@pytest.mark.parametrize("day", ["2026-0a-05", "20a6-07-05", "2026-07-0b", "0a-05", "07-0b"])
def test_letters_within_a_date_are_no_date(day: str) -> None:
    file = gardens.text(gardens.wave(start=day))
    (found,) = read_garden(file.encode(), "garden.yaml").problems
    assert found.code == "date"
