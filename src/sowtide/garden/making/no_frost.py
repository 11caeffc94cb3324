"""A place that is said to have no frost, and what may stand beside that."""

from __future__ import annotations

from sowtide.garden.keys import NO_FROST, FrostKeys
from sowtide.garden.text import Findings, Path


def check_none(keys: FrostKeys, path: Path, findings: Findings, *, alone: bool) -> None:
    """Check what stands beside `none` in the place of dates: nothing may say otherwise.

    Parameters
    ----------
    keys
        An entry of frost, with `none` for one of its dates or for both.
    path
        Where it stands.
    findings
        Takes what is wrong.
    alone
        Whether it is the only entry.
    """
    none, other = ("last", "first") if keys.last == NO_FROST else ("first", "last")
    if keys.record is not None:
        findings.at_value(
            (*path, none),
            "frost-none",
            f"{none} says that no frost comes, and a record tells of the frosts",
            "delete last and first here, the record has them",
        )
    elif getattr(keys, other) is None:
        findings.at_key(
            (*path, none),
            "frost-none",
            f"{none} says that no frost comes, and {other} is missing beside it",
            "write both: last: none, first: none",
        )
    elif getattr(keys, other) != NO_FROST:
        findings.at_value(
            (*path, other),
            "frost-none",
            f"{none} says that no frost comes, and {other} that one does: it is both or neither",
            "write none",
        )
    elif not alone:
        findings.at_value(
            (*path, none),
            "frost-none",
            "no frost is said to come, and other frosts stand beside it",
            "a place without frost has one entry alone, with its normals",
        )
    elif keys.at is not None:
        findings.at_key(
            (*path, "at"),
            "frost-none",
            "where no frost comes, there is no temperature that it has",
            "delete it; if only hard frosts never come, write the dates of the milder ones",
        )
