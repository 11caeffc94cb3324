"""Writers of a journal that are killed, and many at once: is every acknowledged entry there?

    python tests/crashes.py --kills 2000
    python tests/crashes.py --writers 8 --entries 500

A writer that is to be killed puts a few bytes at a time on the disk, so that it is hit in mid-line;
it says each entry's number once that is acknowledged. Nothing is printed where all is
well; the exit status is 1 where something is lost, mixed up or locked.
"""

from __future__ import annotations

import argparse
import os
import random
import signal
import sys
from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory
from time import sleep

from sowtide.diagnostics import Span
from sowtide.garden.journal import Did, Happening, held, journal_of

DAY = date(2026, 7, 18)
_A_FEW = 9
"""Bytes that a writer puts on the disk at a time. [bytes]"""
_LONGEST_LIFE = 0.01
"""How long a writer may live before it is killed. [s]"""


def entry(writer: int, number: int) -> Happening:
    """Return an entry that no other writer makes."""
    note = f"writer {writer}, entry {number}, weighed on the old scales"
    return Happening(DAY, Did.PICKED, Span("", 1), wave="bush-bean-1", note=note)


def _write_on(path: Path, writer: int, said: int) -> None:
    """Write entries until killed, saying the number of each that is acknowledged."""
    write = os.write
    os.write = lambda file, data: write(file, data[:_A_FEW])  # type: ignore[assignment]
    number = 0
    while True:
        with held(path) as journal:
            journal.append([entry(writer, number)])
        write(said, f"{number}\n".encode())
        number += 1


def _killed(path: Path, writer: int, life: float) -> list[str]:
    """Let a writer live so long, and return the notes of the entries that were acknowledged."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            _write_on(path, writer, writing)
        finally:
            os._exit(1)
    os.close(writing)
    sleep(life)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    with os.fdopen(reading, encoding="ascii") as pipe:
        numbers = [int(line) for line in pipe if line.endswith("\n")]
    return [entry(writer, number).note or "" for number in numbers]


def _notes(path: Path) -> list[str]:
    read = journal_of(path.read_bytes(), path.name) if path.exists() else None
    if read is None:
        return []
    if read.journal is None:
        sys.exit(f"the journal cannot be read: {read.problems[0].message}")
    return [each.note or "" for each in read.journal.happenings]


def kill(folder: Path, kills: int, chance: random.Random) -> None:
    """Kill writers one after the other and look for what they were told is kept."""
    path, promised = folder / "journal.yaml", set[str]()
    for writer in range(kills):
        promised |= set(_killed(path, writer, chance.random() * _LONGEST_LIFE))
        found = _notes(path)
        if promised - set(found):
            sys.exit(f"lost: {sorted(promised - set(found))[0]}")
        if len(found) != len(set(found)):
            sys.exit("an entry stands there twice")
        if len(found) > 2_000:  # begin afresh, or reading takes all the time
            path.unlink()
            promised.clear()


def crowd(folder: Path, writers: int, entries: int) -> None:
    """Let several write at once and look for every entry of each, whole and in its order."""
    path, children = folder / "journal.yaml", []
    for writer in range(writers):
        child = os.fork()
        if child == 0:
            status = 1
            try:
                for number in range(entries):
                    with held(path) as journal:
                        journal.append([entry(writer, number)])
                status = 0
            finally:
                os._exit(status)
        children.append(child)
    if any(os.waitpid(child, 0)[1] for child in children):
        sys.exit("a writer failed")
    found = _notes(path)
    for writer in range(writers):
        wanted = [entry(writer, number).note for number in range(entries)]
        if [note for note in found if note.startswith(f"writer {writer},")] != wanted:
            sys.exit(f"not all of writer {writer}'s entries are there in their order")
    if len(found) != writers * entries:
        sys.exit("there is more than was written")


def main() -> None:
    """Run what is asked for."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--kills", type=int, default=0)
    parser.add_argument("--writers", type=int, default=0)
    parser.add_argument("--entries", type=int, default=0)
    asked = parser.parse_args()
    with TemporaryDirectory() as folder:
        kill(Path(folder), asked.kills, random.Random(1))
    with TemporaryDirectory() as folder:
        crowd(Path(folder), asked.writers, asked.entries)


if __name__ == "__main__":
    main()
