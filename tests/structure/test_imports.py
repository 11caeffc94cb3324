"""What starting a command loads: each process pays for every module again."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

import sowtide
from structure.code import PACKAGES

LIBRARIES = {"click", "yaml"}
"""What every run rests on; all else that is not the standard library came with one of these."""

GROUP = {"sowtide", "sowtide.cli", "sowtide.cli.group", "sowtide.diagnostics", "sowtide.values"}

ENGINE = {
    "garden",
    "garden.care",
    "garden.keys",
    "garden.making",
    "garden.readers",
    "garden.text",
    "garden.library",
    "climate",
    "climate.average",
    "climate.frost",
    "climate.warmth",
    "schedule",
    "schedule.sowing",
    "schedule.waves",
    "schedule.beds",
    "schedule.stays",
    "schedule.care",
    "schedule.checks",
    "schedule.checks.growth",
    "schedule.checks.room",
    "schedule.checks.season",
    "schedule.checks.series",
    "schedule.checks.tending",
    "schedule.checks.timing",
    "schedule.openings",
    "schedule.work",
}
"""The packages that it takes for a garden with two frost dates and the means of two months."""
EVERY_COMMAND = {
    *("", "cli", "cli.commands"),
    *("report", "report.blocks", "report.kit", "report.formats", "report.formats.terminal"),
}

FITS = {"report.fits", "report.openings", "report.into_bed", "report.instead_of"}

LIBRARIES_ALONE = """
import click, yaml, dataclasses, fractions, pathlib, shutil, statistics
"""
MORE_OF_THE_STANDARD_LIBRARY = {
    "array",  # of temperatures, day by day
    "gc",
    "heapq",
    "_heapq",
    "locale",  # click asks it how this terminal encodes text
    "_locale",
    "unicodedata",  # where "\N{...}" has yet to be compiled
}
"""What the common path may load that the libraries do not load by themselves."""


_PACKAGES = {name.removeprefix("sowtide.") for name in PACKAGES}


def loaded(code: str) -> set[str]:
    """Return the modules that a fresh interpreter has loaded after running some code."""
    code = f"import sys; before = set(sys.modules)\n{code}\nprint(*(set(sys.modules) - before))"
    run = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, encoding="utf-8"
    )
    return set(run.stdout.splitlines()[-1].split())


def third_party(modules: set[str]) -> set[str]:
    tops = {name.split(".")[0] for name in modules}
    return {top for top in tops if top not in sys.stdlib_module_names and top != "sowtide"}


def ours(modules: set[str]) -> set[str]:
    return {name.removeprefix("sowtide.") for name in modules if name.startswith("sowtide.")}


def test_the_group_of_commands_loads_click_and_itself_alone() -> None:
    modules = loaded("import sowtide.cli")
    assert {name for name in modules if name.split(".")[0] == "sowtide"} == GROUP
    assert third_party(modules) == {"click"}


def test_help_loads_no_more_than_the_group() -> None:
    modules = loaded("from sowtide.cli import cli; cli.main(['--help'], standalone_mode=False)")
    assert {name for name in modules if name.split(".")[0] == "sowtide"} == GROUP


@pytest.mark.parametrize(
    ("arguments", "packages"),
    [
        ("week", {"report.week", "report.heat"}),
        ("week --format json", {"report.week", "report.heat"}),
        ("calendar", {"report.calendar", "schedule.supply"}),
        ("plan", {"report.plan"}),
        ("plan --format csv", {"report.plan"}),
        ("plan --repack", {"report.plan", "report.repack", "schedule.packing"}),
        ("fits radish", {"schedule.fits", *FITS}),
        ("why radish-1", {"report.why"}),
        ("frost", {"report.frost"}),
        ("check", {"report.check", "cli.commands.files"}),
        ("crops", {"report.crops", "report.card"}),
        ("crops kale", {"report.crops", "report.card"}),
    ],
)
def test_a_run_loads_the_rooms_that_it_needs_and_no_more(
    arguments: str, packages: set[str]
) -> None:
    modules = loaded(
        "from sowtide.cli import cli\n"
        f"try: cli.main([*{arguments.split()}, '--demo'], standalone_mode=False)\n"
        "except SystemExit: pass"
    )
    rooms = {name if name in _PACKAGES else name.rpartition(".")[0] for name in ours(modules)}
    assert packages <= rooms <= ENGINE | EVERY_COMMAND | packages
    assert third_party(modules) >= LIBRARIES


@pytest.mark.parametrize(
    ("words", "begun", "found", "unneeded"),
    [
        ("why --demo", "kale", "kale-1", ("report.why", "schedule.care")),
        ("did --demo", "qx", "qxzz", ("report.did", "garden.journal", "schedule.noting")),
        ("did --demo kale-1", "thi", "thinned", ("garden.care", "climate.average")),
        ("why --demo --format", "js", "json", ("report.why", "garden.care")),
    ],
)
def test_a_shell_that_completes_a_line_waits_for_no_page(
    words: str, begun: str, found: str, unneeded: tuple[str, ...]
) -> None:
    modules = loaded(
        "from click.shell_completion import ZshComplete\nfrom sowtide.cli import cli\n"
        "complete = ZshComplete(cli, {}, 'sowtide', '_SOWTIDE_COMPLETE')\n"
        f"(only,) = complete.get_completions({words.split()}, {begun!r})\n"
        f"assert only.value == {found!r}, only.value"
    )
    never = ("schedule.checks", "schedule.openings", "report.blocks", *unneeded)
    rooms = {name if name in _PACKAGES else name.rpartition(".")[0] for name in ours(modules)}
    assert rooms.isdisjoint(never)


def test_the_common_path_loads_little_that_the_libraries_do_not() -> None:
    modules = loaded(
        "from sowtide.cli import cli; cli.main(['week', '--demo'], standalone_mode=False)"
    )
    more = {name for name in modules - loaded(LIBRARIES_ALONE) if not name.startswith("sowtide")}
    assert third_party(more) == set()
    assert more <= MORE_OF_THE_STANDARD_LIBRARY


def test_until_an_interrupt_is_caught_next_to_nothing_is_loaded() -> None:
    """`sowtide.__main__` catches it; before that a traceback would be shown."""
    script = "import sys; sys.path.insert(0, {!r}); import sowtide.__main__; print(*sys.modules)"
    root = str(Path(sowtide.__file__).parents[1])
    found = subprocess.run(
        [sys.executable, "-I", "-S", "-c", script.format(root)],
        capture_output=True,
        text=True,
        check=True,
    )
    loaded = set(found.stdout.split())
    assert {each for each in loaded if each.startswith("sowtide")} == {
        "sowtide",
        "sowtide.__main__",
    }
    assert loaded.isdisjoint({"typing", "re", "enum", "dataclasses"})
