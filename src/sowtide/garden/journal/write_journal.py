"""The journal held open to be written: one writer at a time, and nothing acknowledged is lost.

An entry is acknowledged once it and its line end are on the disk, in the file that stands under the
journal's name. Until then a crash leaves at most a last line that is cut short, which reading steps
over; the next writer ends that line with a mark before its own. The lock is the system's own
(`flock`): it goes with the process that holds it, however that ends. On Windows a byte far behind
the end of the file is locked instead.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from time import sleep

from sowtide.diagnostics import Span, Unreadable, reason_of
from sowtide.garden.journal.happening import Happening
from sowtide.garden.journal.read_journal import BROKEN_OFF, JournalRead, cut_short, journal_of

HEAD = b"# What happened, one entry a line. sowtide adds lines at the end and changes none.\n"
"""What a new journal begins with."""

_WAIT, _TRIES = 0.005, 2_000
"""How long to wait for another writer between two tries [s], and how often: ten seconds."""

_FLAGS = os.O_RDWR | os.O_APPEND | os.O_CREAT | getattr(os, "O_BINARY", 0)


class Held:
    """A journal that nobody else writes to meanwhile."""

    def __init__(self, path: Path, label: str) -> None:
        self._path, self._label = path, label
        self._file = _locked(path, label)

    def read(self) -> JournalRead:
        """Read it as it stands."""
        return journal_of(self._data(), self._label)

    def placed(self, happenings: Sequence[Happening]) -> tuple[Happening, ...]:
        """Return entries with the places at which they would stand."""
        data = self._data()
        line = data.count(b"\n") + 1 + (not data.endswith(b"\n"))  # behind the head, or a last line
        return tuple(
            replace(
                each,
                span=Span(
                    file=self._label,
                    line=number,
                    column=3,
                    length=len(each.line) - 2,
                    text=each.line,
                ),
            )
            for number, each in enumerate(happenings, line)
        )

    def append(self, happenings: Sequence[Happening]) -> None:
        """Write entries down, all of them or none; when this returns they are on the disk.

        Raises
        ------
        Unreadable
            If they cannot be written; what stood there before stands there still.
        """
        entries = "".join(f"{each.line}\n" for each in happenings).encode()
        while True:
            self._write(entries)
            if _is_at(self._file, self._path):
                return
            # Another program put its own file in the place of this one meanwhile.
            os.close(self._file)
            self._file = _locked(self._path, self._label)

    def close(self) -> None:
        """Let others write."""
        os.close(self._file)

    def _write(self, entries: bytes) -> None:
        before = self._data()
        size, cut = len(before), cut_short(before)
        added = HEAD + entries
        if before:
            ended = before.endswith(b"\n")
            added = (b"" if ended else BROKEN_OFF + b"\n" if cut else b"\n") + entries
        try:
            written = 0
            while written < len(added):
                written += os.write(self._file, added[written:])
            os.fsync(self._file)
            if not before:
                _keep_name(self._path)
        except OSError as error:
            _take_off(self._file, size)
            raise _unwritable(self._label, error) from None

    def _data(self) -> bytes:
        os.lseek(self._file, 0, os.SEEK_SET)
        parts = []
        while part := os.read(self._file, 1 << 20):
            parts.append(part)
        return b"".join(parts)


@contextmanager
def held(path: Path) -> Iterator[Held]:
    """Hold a journal to read it and write to it; a file that is not there is made.

    Raises
    ------
    Unreadable
        If it cannot be opened to be written, or another program holds it for ten seconds.
    """
    journal = Held(path, str(path))
    try:
        yield journal
    finally:
        journal.close()


def _locked(path: Path, label: str) -> int:
    """Open the file under a name and lock it; the one that stands there once it is locked."""
    for _ in range(_TRIES):
        try:
            file = os.open(path, _FLAGS, 0o666)
        except (OSError, ValueError) as error:
            raise _unwritable(label, error) from None
        if _lock(file) and _is_at(file, path):
            return file
        os.close(file)
        sleep(_WAIT)
    raise Unreadable(f"{label} is being written by another program; nothing was written")


def _is_at(file: int, path: Path) -> bool:
    """Say whether an open file is still the one that stands under a name."""
    try:
        return os.path.samestat(os.fstat(file), path.stat())
    except OSError:
        return False


def _take_off(file: int, size: int) -> None:
    """Take what was begun off the end again; where that fails too, reading steps over it."""
    try:
        os.ftruncate(file, size)
        os.fsync(file)
    except OSError:
        return


def _unwritable(label: str, error: OSError | ValueError) -> Unreadable:
    if isinstance(error, IsADirectoryError):
        return Unreadable(f"{label} is a folder, not a file; nothing was written")
    reason = reason_of(error).lower()
    return Unreadable(f"{label} cannot be written: {reason}; nothing was written")


if sys.platform == "win32":
    import msvcrt

    _FAR_BEHIND = 2**31 - 2
    """No journal reaches it: a lock there keeps nobody from reading. [bytes]"""

    def _lock(file: int) -> bool:
        os.lseek(file, _FAR_BEHIND, os.SEEK_SET)
        try:
            msvcrt.locking(file, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        return True

    def _keep_name(path: Path) -> None:
        """Nothing to do: a folder cannot be flushed there."""

else:
    import fcntl

    def _lock(file: int) -> bool:
        try:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        except OSError:  # a file system without locks: append all the same, one write an entry
            return True
        return True

    def _keep_name(path: Path) -> None:
        """See that the new file's name is on the disk too."""
        folder = os.open(path.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)
