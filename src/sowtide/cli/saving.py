"""Writing files: whole or not at all, and over nothing that sowtide did not write itself."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from sowtide.diagnostics import Unreadable, reason_of

_HEAD = 4096
"""How much of a file is read to see who wrote it. [bytes]"""


def write_new(path: Path, data: bytes) -> None:
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


def write_over(path: Path, data: bytes) -> None:
    """Write a file in place of what stands there, which is whole until the new one is.

    A link stays one: what it points to is replaced. The new file may be read by whom the old one
    could be read.
    """
    target = path.resolve()
    with _written_beside(target, data) as beside:
        with suppress(OSError):
            beside.chmod(target.stat().st_mode & 0o777)
        beside.replace(target)
    _keep_name(target.parent)


def save(path: Path, data: bytes, *, mark: bytes, replace: bool) -> None:
    """Write what a command says into a file.

    Parameters
    ----------
    path
        The file.
    data
        What is written.
    mark
        What a file holds near its head if sowtide wrote it; such a file is replaced.
    replace
        Whether any other file is replaced too.

    Raises
    ------
    Unreadable
        If another file stands there, or the system refuses.
    """
    try:
        if not os.path.lexists(path):
            write_new(path, data)
        elif path.is_file() and (replace or _bears(path, mark)):
            write_over(path, data)
        else:
            raise FileExistsError
    except FileExistsError:
        hint = "choose another name" if replace else "--replace writes over it"
        raise Unreadable(f"{path} is there, and not from sowtide: {hint}.") from None
    except (OSError, ValueError) as error:
        raise Unreadable(f"cannot write {path}: {reason_of(error).lower()}.") from None


def _bears(path: Path, mark: bytes) -> bool:
    with path.open("rb") as file:
        return bool(mark) and mark in file.read(_HEAD)


@contextmanager
def _written_beside(path: Path, data: bytes) -> Iterator[Path]:
    """Write a file of another name in the same folder, and take it away again."""
    beside = path.with_name(f".{os.urandom(8).hex()}{path.suffix}")
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
