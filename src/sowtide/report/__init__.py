"""What the commands say: a room for each report, all alike."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:  # loaded with the first report
    from sowtide.report.report import Report

_ROOMS = {
    "week": "week",
    "calendar": "calendar",
    "fits": "fits",
    "fits without a crop": "openings",
    "fits --bed": "into_bed",
    "fits --instead-of": "instead_of",
    "plan": "plan",
    "plan --repack": "repack",
    "plan --labels": "labels",
    "why": "why",
    "supply": "supply",
    "supply --fill": "fill",
    "needs": "needs",
    "did": "did:DUE",
    "did WAVE STAGE": "did",
    "did --list": "did:ENTRIES",
    "did season": "did:YEAR",
    "frost": "frost",
    "frost --tonight": "tonight",
    "check": "check",
    "crops": "crops",
    "crops NAME": "card",
}

NO_TABLE = {
    "fits --instead-of",
    "plan --repack",
    "did WAVE STAGE",
    "check",
}
WITH_EVENTS = {"week", "plan"}
"""Reports that are no table, and those that have days to put into a calendar.

What is offered is known by this without loading them, while a shell completes a line.
"""


class _Reports(Mapping[str, "Report"]):
    """Reports by the commands that print them; a room is loaded when it is asked for."""

    def __getitem__(self, command: str) -> Report:
        room, _, which = _ROOMS[command].partition(":")
        report: Report = getattr(import_module(f"{__name__}.{room}"), which or "REPORT")
        return report

    def __iter__(self) -> Iterator[str]:
        return iter(_ROOMS)

    def __len__(self) -> int:
        return len(_ROOMS)


REPORTS = _Reports()
"""Every report, by the command that prints it and what that was asked: ``plan --repack``."""
