"""``sowtide new``."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import date
from pathlib import Path

import click

from sowtide.cli.options import DEFAULT_GARDEN, garden_options, the_day
from sowtide.cli.output import show_text
from sowtide.diagnostics import Unreadable
from sowtide.garden.starter import starter_text
from sowtide.season import demo_text


@click.command()
@garden_options
def command(garden: Path | None, demo: bool, today: date | None) -> None:
    """Write a commented file to start from.

    The file is garden.yaml, or what --garden names; a file that stands there already is left
    alone. With --demo it is a copy of the packaged demo garden.
    """
    path = garden or Path(DEFAULT_GARDEN)
    season = the_day(today=today, demo=False).year
    text = demo_text() if demo else starter_text(season)
    try:
        _write_new(path, text.encode("utf-8"))
    except FileExistsError:
        raise Unreadable(f"{path} is there already and was left alone.") from None
    except (OSError, ValueError) as error:
        reason = (getattr(error, "strerror", None) or str(error)).lower()
        raise Unreadable(f"cannot write {path}: {reason}.") from None
    show_text(f"Wrote {path}. Put your own garden into it, then run 'sowtide week'.")


def _write_new(path: Path, data: bytes) -> None:
    """Write a file that was not there; it has its name only once it is whole and on the disk.

    Raises
    ------
    FileExistsError
        If something has that name by then; it is left alone.
    """
    if os.path.lexists(path):
        raise FileExistsError
    with _written_beside(path, data) as beside:
        try:
            os.link(beside, path)  # unlike renaming, it never replaces a file
        except FileExistsError:
            raise
        except OSError:  # a file system without links: FAT on a card, some network drives
            _write(path, data)
    _keep_name(path.parent)


@contextmanager
def _written_beside(path: Path, data: bytes) -> Iterator[Path]:
    """Write a file of another name in the same folder, and take it away again."""
    beside = path.with_name(f".{os.urandom(8).hex()}.yaml")
    try:
        _write(beside, data)
        yield beside
    finally:
        beside.unlink(missing_ok=True)


def _write(path: Path, data: bytes) -> None:
    """Write a new file through to the disk, or none at all."""
    try:
        with path.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
    except FileExistsError:
        raise
    except BaseException:
        path.unlink(missing_ok=True)
        raise


def _keep_name(folder: Path) -> None:
    """See that a new name is on the disk too, where a system lets a folder be flushed."""
    with suppress(OSError):
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)
