"""Cards and lists of crops: whole screens over a small invented table, and every built-in crop."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

import gardens
from printed import card_text, cover_text, crops_text, page
from sowtide.garden.library import Section, table
from sowtide.garden.library import builtin as library
from sowtide.garden.model import Garden
from sowtide.garden.read import read_garden
from sowtide.garden.varieties import built_in_crop, crops_called
from sowtide.report.card import REPORT as CARD
from sowtide.report.card import view as card_view
from sowtide.report.card.figures_view import Figure
from sowtide.report.card.values import said, temperatures
from sowtide.report.card.view import LearnedYield
from sowtide.report.card.words import told as in_words
from sowtide.report.crops import view
from sowtide.units import Units

# An invented table of three crops and a cover crop: nothing in it is advice.
TABLE = """\
moon bean	names	lunar bean	-	practice
moon bean	botanical	Luna edulis	-	crater-1970
moon bean	family	moon family	-	practice
moon bean	weather	warm	-	crater-1970
moon bean	raised	direct	-	practice
moon bean	counted_from	sowing	-	practice
moon bean	days_to_harvest	46-65	days	crater-1970	Tycho 50–60
moon bean	picking_days	18	days	memory
moon bean	pick_gap	3	days	practice
moon bean	pick_when	pods silver	-	practice
moon bean	hardiness	tender	-	tycho-7	killed by frost
moon bean	after_frost	ends	-	practice
moon bean	up_days	11	days	tycho-7	at 68 °F
moon bean	emergence	50: none, 59: 16, 104: 11	days at °F	tycho-7
moon bean	germinates	50: 1, 59: 97, 104: 90	% at °F	tycho-7
moon bean	heat_base	50	°F	tycho-7
moon bean	soil_min	60	°F	crater-1970
moon bean	sow_every	10-14	days	practice
moon bean	in_row	6	in	crater-1970	4–6, the wider
moon bean	between_rows	6	in	crater-1970	4–6, the wider
moon bean	spacing_rows	3-4 x 18-36	in	memory
moon bean	seeds_per_plant	1.25	-	practice
moon bean	germination	85	%	sowtide	estimate
moon bean	yield_per_row	2.3-12	lb/10 ft	tycho-7
moon bean	rotation	3	years	tycho-7
moon bean	chore	sow: cover it with dust	-	practice
moon bean	chore	up +14: thin by earthlight	-	practice
star kale	names	kale of the stars	-	practice
star kale	botanical	Stella viridis	-	crater-1970
star kale	family	star family	-	practice
star kale	weather	cool	-	practice
star kale	raised	trays	-	practice
star kale	counted_from	planting out	-	practice
star kale	nursery_days	28-42	days	memory
star kale	hardening_days	7	days	practice
star kale	days_to_harvest	60	days	memory
star kale	picking_days	1	days	practice
star kale	pick_when	it glows	-	practice
star kale	holding_days	5-14	days	memory
star kale	hardiness	hardy	-	memory
star kale	after_frost	stands	-	practice
star kale	up_days	6	days	memory
star kale	sow_every	once	-	practice
star kale	in_row	12	in	memory
star kale	between_rows	18	in	memory
star kale	seeds_per_plant	2	-	practice
star kale	germination	90	%	memory
star kale	rotation	1	years	sowtide	no interval known
star kale	chore	flower: close the dome	-	practice
star kale	chore	picking +3: wear gloves	-	memory
void rye	names	rye of the void	-	practice
void rye	use	cover crop	-	practice
void rye	botanical	Secale vacuum	-	memory
void rye	family	grass family	-	practice
void rye	sow_after_frost	-42	days	memory
void rye	sow_before_frost	-14	days	memory
void rye	days_to_dig_in	45-70	days	memory
void rye	winter	stands	-	practice
void rye	killed_at	-30	°F	memory
void rye	dig_in_when	knee-high	-	practice
void rye	rest_days	14-28	days	memory
void rye	sowing_rate	3-6	oz/100 ft²	memory
"""
SOURCES = """\
crater-1970	Tables of the Crater, Moon Press, 1970	read by torch
tycho-7	Tycho leaflet 7	read in a copy
practice	Common practice, no source	-
memory	From memory, not looked up	-
sowtide	sowtide's own choice	-
"""


@pytest.fixture
def small(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Put the invented table in the place of the built-in one."""
    rows = [line if line.count("\t") == 5 else f"{line}\t" for line in TABLE.splitlines()]
    head = "crop\tfield\tvalue\tunit\tsource\tnote"
    (tmp_path / "crops.tsv").write_text("\n".join([head, *rows, ""]), encoding="utf-8")
    (tmp_path / "sources.tsv").write_text(f"key\tcitation\ttrust\n{SOURCES}", encoding="utf-8")
    _forget()
    monkeypatch.setattr(table, "_DATA", tmp_path)
    yield
    _forget()


def _forget() -> None:
    from sowtide.garden.library import covers as cover

    caches = (
        table._read,
        table.blocks,
        table.known_names,
        table._sources,
        library._crop,
        cover.cover_crops,
    )
    for cached in caches:
        cached.cache_clear()


def _garden(*crops: str, units: str = "us", waves: str = "") -> Garden:
    text = (
        "site:\n  {name: Mare plot, latitude: 45, frost: {last: 05-10, first: 10-01}, units: "
        f"{units}}}\nseason: 2026\nbeds:\n  - {{bed: Long, size: 4 x 20}}\ncrops:\n"
    )
    return gardens.read(text + "".join(f"  {crop}\n" for crop in crops) + waves)


def _card(name: str, garden: Garden | None = None, width: int = 80) -> list[str]:
    if garden is None:
        found = library.find(name)
        assert found is not None
        return list(card_text([built_in_crop(found)], None, width=width))
    return list(card_text(crops_called(name, garden), garden, width=width))


def _cover(name: str, units: Units | None = None, width: int = 80) -> list[str]:
    return list(cover_text(name, units, width=width))


MOON_BEAN = """\
moon bean
As built in. A figure of your own is better: write it under crops: in your file.
botanical name            Luna edulis                                        [1]
family                    moon family                 common practice, no source
also called               lunar bean                  common practice, no source

TIMING
how it is started         sown direct                 common practice, no source
days to first pick        46–65 days                                         [1]
                            Tycho 50–60
  counted from            sowing                      common practice, no source
from wave to wave         10–14 days                  common practice, no source

FROST
hardiness of the harvest  tender: lost at 32 °F                              [2]
                            killed by frost
after such a frost        it is over                  common practice, no source

WARMTH AND DAYLIGHT
weather it likes          warm                                               [1]
heat units count above    50 °F                                              [2]

SEED AND SOIL
sown for each plant       1.25                        common practice, no source
usual germination         85 %                            sowtide's own estimate
                            estimate
shows after               11 days                                            [2]
                            at 68 °F
soil no colder than       60 °F                                              [1]
soil at, °F                   50    59   104
days to show                none    16    11                                 [2]
seedlings, %                   1    97    90                                 [2]

SPACE
in a bed, in the row      6 in                                               [1]
                            4–6, the wider
in a bed, between rows    6 in                                               [1]
in long rows              3–4 in, rows 18–36 in apart                from memory
same bed again after      3 years                                            [2]

PICKING
ripe when                 pods silver                 common practice, no source
picked for                18 days                                    from memory
  every                   3 days                      common practice, no source
worth it if picked for    14 days                             sowtide's own rule

YIELD
yield of a row            2.3–12 lb/10 ft                                    [2]

CHORES                                                common practice, no source
at sowing                 cover it with dust
14 days after it is up    thin by earthlight

SOURCES
[1] Tables of the Crater, Moon Press, 1970 (read by torch) (crater-1970)
[2] Tycho leaflet 7 (read in a copy) (tycho-7)
"""


@pytest.mark.usefixtures("small")
def test_the_whole_card_of_a_built_in_crop() -> None:
    assert _card("lunar beans") == MOON_BEAN.splitlines()


# 28-42 days and the rest of the frame are built in; lines 7-9 are the file's. 12 in are 30.48 cm,
# 24 °F are −4.4 °C; hardy crops go out 28 days before the average last frost unless they say more.
STAR_KALE = """\
star kale
4 figures are from garden.yaml, each marked with its line; what is built in
stands below.
botanical name            Stella viridis                                     [1]
family                    star family                 common practice, no source
also called               kale of the stars           common practice, no source

TIMING
how it is started         raised in trays             common practice, no source
in trays                  28–42 days                                 from memory
hardening off, of these   7 days                      common practice, no source
days to first pick        52–58 days                               garden.yaml:8
                            built in: 60 days, from memory
  counted from            planting out                common practice, no source
from wave to wave         sown or planted once, not in waves
                                                      common practice, no source

FROST
hardiness of the harvest  hardy: lost at -4.4 °C (24 °F)             from memory
after such a frost        it stands, and is picked until the ground freezes
                                                      common practice, no source
plant from                28 days before the average last frost
                                                              sowtide's own rule

WARMTH AND DAYLIGHT
weather it likes          cool                        common practice, no source
heat spoils it above      22 °C, the mean of 15 days               garden.yaml:9
heat units count above    4 °C                                    garden.yaml:11

SEED AND SOIL
sown for each plant       2                           common practice, no source
usual germination         90 %                                       from memory
shows after               6 days                                     from memory
soil no colder than       not known

SPACE
in a bed, in the row      25 cm                                   garden.yaml:10
                            built in: 30 cm (12 in), from memory
in a bed, between rows    45 cm (18 in)                              from memory
same bed again after      1 year                          sowtide's own estimate
                            no interval known

PICKING
ripe when                 it glows                    common practice, no source
picked for                cut or lifted once          common practice, no source
stands without spoiling   5 days in warm weather, 14 in cool         from memory
worth it if picked for    7 days                              sowtide's own rule

YIELD
yield of a row            not known

CHORES
when it flowers           close the dome              common practice, no source
3 days into the picking   wear gloves                                from memory

SOURCES
[1] Tables of the Crater, Moon Press, 1970 (read by torch) (crater-1970)
"""
OWN_KALE = (
    "star kale:",
    "  days_to_harvest: 52-58",
    "  warm_limit: 22",
    "  in_row: 25",
    "  heat: {base: 4}",
)


@pytest.mark.usefixtures("small")
def test_the_whole_card_of_a_crop_that_the_file_changes() -> None:
    assert _card("star kale", _garden(*OWN_KALE, units="metric")) == STAR_KALE.splitlines()


@pytest.mark.usefixtures("small")
def test_a_variety_of_a_wave_changes_no_built_in_crop() -> None:
    garden = _garden(
        "lunar bean: {picking_days: 20}",
        waves="waves:\n  - {crop: star kale, variety: Blue, plants: 3, from: 05-20}\n",
    )
    built_in = view(garden).built_in
    assert [each.name for each in built_in if each.is_changed] == ["moon bean"]


GARDEN_OF_BEANS = """\
crops:
  moon bean: {pick_gap: 4}
site: {name: Mare plot, latitude: 45, units: us, frost: {last: 05-10, first: 10-01}}
season: 2026
beds:
  - {bed: Long, size: 4 x 20}
"""

VOID_RYE = """\
void rye: sown to cover a bed, not to be picked
botanical name            Secale vacuum                              from memory
family                    grass family                common practice, no source
also called               rye of the void             common practice, no source
grown as                  cover crop                  common practice, no source

TIMING
sow from                  42 days before the average last frost      from memory
sow at the latest         14 days after the average first frost      from memory
days to digging in        45–70 days                                 from memory
dig in                    knee-high                   common practice, no source
then wait before sowing   14–28 days                                 from memory

FROST
in winter                 it stands, and grows on in spring
                                                      common practice, no source
killed at                 about -34 °C (-30 °F)                      from memory

SEED AND SOIL
how much seed             9–18 g/m² (3–6 oz/100 ft²)                 from memory
"""


@pytest.mark.usefixtures("small")
def test_the_whole_card_of_a_cover_crop() -> None:
    assert _cover("void rye", Units.METRIC) == VOID_RYE.splitlines()


@pytest.mark.usefixtures("small")
def test_the_list_over_a_small_table() -> None:
    garden = _garden(
        "moon bean: {days_to_harvest: 50-55}", "glow: {like: moon bean, variety: Bright}"
    )
    assert list(crops_text(garden, width=80)) == [
        "IN garden.yaml",
        "                days  counted from  started  hardiness  sow every   line",
        "glow 'Bright'  50–55  sowing        direct   tender     10–14 days     8",
        "moon bean      50–55  sowing        direct   tender     10–14 days     7",
        "",
        "BUILT IN  2 crops and 1 cover crop",
        "Days run to the first pick, from sowing or from planting out. * changed in your",
        "file, see above.",
        "                days  counted from  started  hardiness  sow every",
        "moon family",
        "  moon bean *  46–65  sowing        direct   tender     10–14 days",
        "star family",
        "  star kale       60  planting out  trays    hardy      once",
        "",
        "COVER CROPS",
        "Sown to close a space and dug in. Days count from the average last and first",
        "frost.",
        "                sow from  sow until      dig in after  in winter",
        "void rye  42 days before  14 days after  45–70 days    stands",
        "",
        "sowtide crops NAME shows every figure of one with its source.",
    ]


# What the file says


@pytest.mark.usefixtures("small")
def test_a_crop_like_another_says_so_and_does_not_take_its_names() -> None:
    garden = _garden("moon bean: {picking_days: 20}", "glow: {like: moon bean, in_row: 5}")
    card = _card("glow", garden)
    assert card[0] == "glow: like moon bean"
    assert not any("lunar bean" in line for line in card)
    # What it takes from the file's moon bean is marked with that crop's line.
    assert any(re.fullmatch(r"picked for +20 days +garden\.yaml:7", line) for line in card)
    assert any(re.fullmatch(r"in a bed, in the row +5 in +garden\.yaml:8", line) for line in card)


@pytest.mark.usefixtures("small")
def test_a_name_stands_for_all_crops_of_the_file_that_go_by_it() -> None:
    garden = _garden("lunar bean: {picking_days: 20}", "glow: {like: moon bean, in_row: 5}")
    card = _card("moon bean", garden)
    assert [line for line in card if ": built in as" in line or ": like" in line] == [
        "glow: like moon bean",
        "lunar bean: built in as moon bean",
    ]
    assert card.count("SOURCES") == 1


OWN = (
    "comet: {family: comet family, weather: warm, raised: direct, counted_from: sowing, "
    "days_to_harvest: 50, picking_days: 1, hardiness: tender, in_row: 4, between_rows: 8, "
    "yield_per_plant: 2}"
)


@pytest.mark.usefixtures("small")
def test_a_crop_of_the_files_own_says_what_nobody_knows_and_what_is_a_rule() -> None:
    card = _card("comet", _garden(OWN))
    assert card[0] == "comet: wholly the file's own"
    assert card[1:3] == ["10 figures are from garden.yaml, each marked with its line.", card[2]]
    shown = [" ".join(line.split()) for line in card]
    for expected in (
        "from wave to wave not known",
        "soil no colder than not known",
        "ripe when not known",
        "shows after 10 days sowtide's own rule",
        "after such a frost it is over sowtide's own rule",
        "same bed again after 3 years sowtide's own rule",
        "yield of a plant 2 lb garden.yaml:7",
    ):
        assert expected in shown
    assert not any(line.startswith("yield of a row") for line in card)
    assert "SOURCES" not in card


@pytest.mark.usefixtures("small")
def test_every_key_of_a_crop_in_the_file_stands_on_its_card() -> None:
    written = {
        "family": ("nova family", "nova family"),
        "weather": ("cool", "cool"),
        "raised": ("either", "sown direct or raised in trays"),
        "nursery_days": ("20-30", "20–30 days"),
        "hardening_days": ("5", "5 days"),
        "days_to_harvest": ("40-44", "40–44 days"),
        "counted_from": ("planting out", "planting out"),
        "picking_days": ("25", "25 days"),
        "pick_gap": ("4", "4 days"),
        "pick_when": ("it hums", "it hums"),
        "worthwhile_days": ("9", "9 days"),
        "hardiness": ("half-hardy", "half-hardy: lost at 28 °F"),
        "after_frost": ("bring in", "bring it in at once"),
        "days_before_frost": ("17", "17 days before the average last frost"),
        "days_after_frost": ("6", "6 days after the last frost"),
        "nights_min": ("52", "52 °F, a mean of 11"),
        "killed_at": ("23", "about 23 °F"),
        "flowers_killed_at": ("27", "27 °F"),
        "up_days": ("9", "9 days"),
        "flower_to_pick": ("12", "12 days"),
        "needs_bees": ("yes", "needed"),
        "soil_min": ("51", "51 °F"),
        "soil_good": ("55", "55 °F"),
        "soil_max": ("91", "91 °F"),
        "warm_limit": ("76", "76 °F, the mean of 15 days"),
        "root": ("yes", "a root, which such heat makes tough"),
        "long_day": ("13.5", "13.5 hours of daylight"),
        "chill_limit": ("49", "49 °F, the mean of a day"),
        "chill_days": ("11", "about 11 days so cold"),
        "fruit_set_high": ("91", "91 °F, a week's mean"),
        "fruit_set_low": ("71", "71 °F, a week's mean"),
        "rated_at": ("66", "66 °F, the mean of a day"),
        "heat": ("{base: 41, upper: 86, units: 900-990, method: sine}", "900–990 °F·d"),
        "sown_as": ("sets", "sets"),
        "in_row": ("5.5", "5.5 in"),
        "between_rows": ("7", "7 in"),
        "seeds_per_plant": ("1.5", "1.5"),
        "germination": ("77%", "77 %"),
        "yield_per_plant": ("0.5", "0.5 lb"),
        "rotation": ("2", "2 years"),
        "overwinters": ("yes", "planted after midsummer it stands to the next season"),
        "ready": ("06-25..07-20", "25 Jun – 20 Jul"),
        "variety": ("Bright", "Bright"),
    }
    from sowtide.garden.keys import CropKeys, known_keys

    assert set(written) | {"like", "holding_days", "sort"} == set(known_keys(CropKeys))
    lines = ["moon bean:", *(f"  {key}: {text}" for key, (text, _) in written.items())]
    card = [" ".join(line.split()) for line in _card("moon bean", _garden(*lines), 200)]
    for number, (key, (_, told)) in enumerate(written.items(), 8):
        ends = f"{told} garden.yaml:{number}"
        assert [line for line in card if line.endswith(ends)], key
    for part in ("41 °F", "86 °F", "sine"):
        assert any(f"{part} garden.yaml:40" in line for line in card), part


@pytest.mark.usefixtures("small")
def test_a_part_of_heat_that_the_file_leaves_alone_stays_built_in() -> None:
    card = _card("moon bean", _garden("moon bean: {heat: {upper: 86}}"))
    shown = [" ".join(line.split()) for line in card]
    assert "heat units count above 50 °F [2]" in shown
    assert "and no more above 86 °F garden.yaml:7" in shown


@pytest.mark.usefixtures("small")
def test_a_file_in_a_folder_is_named_in_full_once() -> None:
    text = GARDEN_OF_BEANS.encode()
    garden = read_garden(text, "plots/north/garden.yaml").garden
    card = _card("moon bean", garden)
    assert "".join(card).count("plots/north") == 1
    assert any(line.endswith("  garden.yaml:2") for line in card)


@pytest.mark.usefixtures("small")
def test_a_crop_that_is_like_a_built_in_one_does_not_change_it() -> None:
    garden = _garden("glow: {like: moon bean, in_row: 5}")
    lines = crops_text(garden, width=80)
    assert not any("*" in line for line in lines)


@pytest.mark.usefixtures("small")
def test_a_crop_raised_either_way_has_the_days_of_a_direct_sowing_too() -> None:
    # 60 days from planting out and half of the 28 in trays: 74, as the plan counts.
    card = _card("star kale", _garden("star kale: {raised: either}"))
    shown = [" ".join(line.split()) for line in card]
    at = shown.index("if sown direct 74 days sowtide's own rule")
    assert shown[at + 1] == "half the days in trays more, an estimate"
    assert not any("if sown direct" in line for line in _card("star kale"))
    sown = _card("star kale", _garden("star kale: {raised: either, counted_from: sowing}"))
    assert not any("if sown direct" in line for line in sown)


@pytest.mark.usefixtures("small")
def test_a_crop_that_stands_over_the_winter_has_no_first_day_in_spring() -> None:
    card = _card("star kale", _garden("star kale: {overwinters: yes}"))
    assert not any(line.startswith("plant from") for line in card)
    assert any(line.startswith("plant from") for line in _card("star kale"))


@pytest.mark.usefixtures("small")
def test_a_name_too_long_to_stand_beside_its_figures_has_a_line_of_its_own() -> None:
    garden = _garden("glow: {like: moon bean, variety: Brightest of Bright}", "dim: {like: glow}")
    assert list(crops_text(garden, width=80))[2:5] == [
        "dim                    46–65  sowing        direct   tender     10–14 days     8",
        "glow 'Brightest of Bright'",
        "                       46–65  sowing        direct   tender     10–14 days     7",
    ]
    narrow = list(crops_text(garden, width=60))
    assert narrow[1:4] == [
        "   days  counted from  started  hardiness  sow every   line",
        "dim",
        "  46–65  sowing        direct   tender     10–14 days     8",
    ]


# Units


@pytest.mark.parametrize(
    ("text", "unit", "units", "expected"),
    [
        ("6", "in", None, "6 in"),
        ("6", "in", Units.US, "6 in"),
        ("6", "in", Units.METRIC, "15 cm (6 in)"),  # 15.24
        ("3", "in", Units.METRIC, "7.5 cm (3 in)"),  # 7.62
        ("1", "in", Units.METRIC, "2.5 cm (1 in)"),  # 2.54
        ("3-4 x 18-36", "in", Units.METRIC, "7.5–10 × 45–90 cm (3–4 × 18–36 in)"),
        ("25", "cm", Units.US, "10 in (25 cm)"),  # 9.84
        ("3.5-4", "in", Units.METRIC, "9–10 cm (3.5–4 in)"),  # 8.89 and 10.16: to 1 from 10 on
        ("15.5-16", "in", Units.METRIC, "39–40 cm (15.5–16 in)"),  # 39.37 and 40.64: to 5 from 40
        ("14-16", "cm", Units.US, "5.5–6 in (14–16 cm)"),  # 5.51 and 6.30: to 1 from 6 on
        ("0.5-2", "cm", Units.US, "0.5–1 in (0.5–2 cm)"),  # 0.2 and 0.79: never none at all
        ("60-85", "°F", Units.METRIC, "16–29 °C (60–85 °F)"),  # 15.6 and 29.4
        ("-30", "°F", Units.METRIC, "-34 °C (-30 °F)"),  # -34.4
        ("7", "°C", Units.US, "45 °F (7 °C)"),  # 44.6
        ("7", "°C", Units.METRIC, "7 °C"),
        ("100", "°C·d", Units.US, "180 °F·d (100 °C·d)"),
        ("1539", "°F·d", Units.METRIC, "855 °C·d (1539 °F·d)"),
        ("2.3-12", "lb/10 ft", Units.METRIC, "0.34–1.8 kg/m (2.3–12 lb/10 ft)"),  # 0.342, 1.786
        ("3-6", "oz/100 ft²", Units.METRIC, "9–18 g/m² (3–6 oz/100 ft²)"),  # 9.15, 18.3
        ("890", "seeds/g", Units.US, "25,000 seeds/oz (890 seeds/g)"),  # 25,231
        ("2.5", "kg/m²", Units.US, "51 lb/100 ft² (2.5 kg/m²)"),  # 51.2
        ("12", "ears/10 ft", Units.METRIC, "3.9 ears/m (12 ears/10 ft)"),  # 3.94
        ("12", "ears/10 ft", Units.US, "12 ears/10 ft"),
        ("1", "days", None, "1 day"),
        ("1", "years", None, "1 year"),
        ("1", "heads", None, "1 heads"),
        ("1799-1800", "°F·d", Units.METRIC, "999–1,000 °C·d (1799–1800 °F·d)"),
        ("0", "lb/10 ft", Units.METRIC, "0 kg/m (0 lb/10 ft)"),
        ("-7--5", "°C", Units.US, "19–23 °F (-7–-5 °C)"),
        ("1-2", "days", Units.US, "1–2 days"),
        ("85", "%", Units.METRIC, "85 %"),
        ("cloves", None, Units.METRIC, "cloves"),
    ],
)
def test_values_in_the_gardens_units(
    text: str, unit: str | None, units: Units | None, expected: str
) -> None:
    assert said(text, unit, units) == expected


def test_a_table_by_temperature_in_either_unit() -> None:
    written = "32: none, 50: 17, 104: 3"
    assert temperatures(written, "days at °F", Units.METRIC) == (
        ("0", "32", "none"),
        ("10", "50", "17"),
        ("40", "104", "3"),
    )
    assert temperatures("10: 17", "days at °C", Units.US) == (("50", "10", "17"),)


@pytest.mark.usefixtures("small")
def test_the_small_table_of_temperatures_has_both_units_in_a_metric_garden() -> None:
    card = _card("moon bean", _garden("moon bean: {picking_days: 9}", units="metric"))
    at = card.index("soil at, °C                   10    15    40")
    assert card[at + 1] == "published, °F                 50    59   104"


def test_a_card_has_the_three_spans_of_days_that_span_all_sorts() -> None:
    # 90 to 120 days: 30 of them parted in three are 10 each
    said = "early 90–100, main 100–110, late 110–120 days"
    for lines, shown in ((), True), (("potato: {days_to_harvest: 95}",), False):
        card = [" ".join(line.split()) for line in _card("potato", _garden(*lines))]
        assert any(said in line for line in card) is shown


def test_a_card_of_sixty_cells_breaks_no_word() -> None:
    card = _card("spinach", _garden(), 60)
    words = {word for line in card for word in line.split()}
    assert "fr" not in words
    assert "frost" in words


@pytest.mark.parametrize(
    ("field", "value", "unit", "units", "said"),
    [
        ("sow_after_frost", "-42", "days", None, "42 days before the average last frost"),
        ("sow_after_frost", "14", "days", None, "14 days after the average last frost"),
        ("sow_after_frost", "0", "days", None, "the day of the average last frost"),
        ("sow_before_frost", "1", "days", None, "1 day before the average first frost"),
        ("sow_before_frost", "-14", "days", None, "14 days after the average first frost"),
        ("hardiness", "very tender", None, Units.US, "very tender: harmed at 36 °F"),
        ("hardiness", "tender", None, Units.METRIC, "tender: lost at 0 °C (32 °F)"),
        ("hardiness", "hardy", None, None, "hardy: lost at 24 °F"),
    ],
)
def test_a_figure_is_said_in_a_growers_words(
    field: str, value: str, unit: str | None, units: Units | None, said: str
) -> None:
    figure = Figure(
        section=Section.CHORES,
        field=field,
        label="",
        value=value,
        unit=unit,
        note=None,
        origin=None,
        built_in=None,
        is_rule=False,
    )
    assert in_words(figure, units).replace("\N{NO-BREAK SPACE}", " ") == said
    assert in_words(replace(figure, value=None), units) == "not known"


@pytest.mark.parametrize(
    ("kg", "pieces", "units", "said"),
    [
        (2.0, None, Units.METRIC, "bears 2 kg by 3 waves that you picked."),
        (2.0, None, Units.US, "bears 4.41 lb by 3 waves that you picked."),  # 0.4536 kg to a pound
        (None, 12.5, Units.US, "bears 12.5 pieces by 3 waves that you picked."),
    ],
)
def test_what_a_plant_bore_is_said_in_its_unit(
    kg: float | None, pieces: float | None, units: Units, said: str
) -> None:
    found = library.find("pea")
    assert found is not None
    borne = LearnedYield(
        crop="pea", variety=None, waves=3, kg_per_plant=kg, pieces_per_plant=pieces, title="pea"
    )
    of = replace(card_view([built_in_crop(found)], None), learned_yields=(borne,), units=units)
    assert f"A plant of pea {said}" in " ".join(page(CARD, of))
