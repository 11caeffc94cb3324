"""What starting a command loads: each process pays for every module again."""

from __future__ import annotations

import subprocess
import sys

import pytest

LIBRARIES = {"click", "yaml", "pydantic", "rich"}
"""What sowtide rests on; all else that is not the standard library came with one of these."""

GROUP = {"sowtide", "sowtide.cli", "sowtide.cli.group", "sowtide.diagnostics", "sowtide.values"}
# What it takes to read, date and place a garden, by the package's parts.
ENGINE = (
    "garden",
    "climate",
    "schedule",
    "season",
    "days",
    "units",
    "reasons",
    "diagnostics",
    "values",
)
# Report modules that a command needs before it knows what to print, and cli modules of its own.
ALWAYS = {"report", "report.problems", "report.sheet", "report.words", "report.names"}
OPTIONS = {"cli", "cli.group", "cli.options", "cli.output", "cli.progress"}

# Report modules that every form of `crops` prints with.
CROPS = {"crop_fields", "crop_figures", "crop_values", "crop_words", "sources"}

LIBRARIES_ALONE = """
import click, yaml, rich.cells
from pydantic import BaseModel
class One(BaseModel):
    field: int
rich.cells.cell_len("–")
"""
MORE_OF_THE_STANDARD_LIBRARY = {
    "gc",
    "heapq",
    "_heapq",
    "statistics",
    "_statistics",
    "unicodedata",  # where "\N{...}" has yet to be compiled
    "zlib",
}
"""What the common path may load that the libraries do not load by themselves."""


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
    ("command", "more"),
    [
        ("week", {"cli.week"}),
        ("plan", {"cli.plan"}),
        ("check", {"cli.check"}),
        ("fits", {"cli.fits", "cli.waves"}),
        ("why", {"cli.why", "cli.waves"}),
        ("frost", {"cli.frost"}),
        ("crops", {"cli.crops"}),
        ("new", {"cli.new"}),
        (
            "calendar",
            {
                "cli.calendar",
                "report.calendar",
                "report.calendar_bars",
                "report.calendar_last_days",
                "report.calendar_scale",
                "report.calendar_sections",
            },
        ),
    ],
)
def test_a_command_loads_the_engine_and_its_own_modules(command: str, more: set[str]) -> None:
    modules = loaded(f"import sowtide.cli.{command}")
    beside = {name for name in ours(modules) if name.split(".")[0] not in ENGINE}
    assert more <= beside <= ALWAYS | OPTIONS | more
    assert third_party(modules) >= LIBRARIES


@pytest.mark.parametrize(
    ("arguments", "reports"),
    [
        (["week"], {"week", "week_work", "week_picking", "week_problems", "cautions"}),
        (["plan"], {"plan", "plan_judged"}),
        (
            ["plan", "--format", "json"],
            {"machine", "machine_form", "week_problems"},
        ),
        (["check"], {"check"}),
        (["crops"], {"crops", "crop_list", *CROPS}),
        (["crops", "kale"], {"crop_card", "crop_temperatures", *CROPS}),
        (["crops", "--format", "csv"], {"machine_crops", "machine_form", "crop_list", *CROPS}),
        (["frost"], {"frost", "frost_picture"}),
        (["fits", "radish"], {"fits", "fits_answer", "outcome", "table"}),
        (["why", "radish-1"], {"why", "outcome", "sources"}),
    ],
)
def test_a_run_loads_only_the_report_that_it_prints(
    arguments: list[str], reports: set[str]
) -> None:
    modules = loaded(
        "from sowtide.cli import cli\n"
        f"try: cli.main([*{arguments}, '--demo'], standalone_mode=False)\n"
        "except SystemExit: pass"
    )
    printed = {name.removeprefix("report.") for name in ours(modules) if "report." in name}
    expected = {name.removeprefix("report.") for name in ALWAYS}
    assert reports <= printed <= reports | expected


def test_the_common_path_loads_little_that_the_libraries_do_not() -> None:
    modules = loaded(
        "from sowtide.cli import cli; cli.main(['week', '--demo'], standalone_mode=False)"
    )
    more = {name for name in modules - loaded(LIBRARIES_ALONE) if not name.startswith("sowtide")}
    assert third_party(more) == set()
    assert more <= MORE_OF_THE_STANDARD_LIBRARY
