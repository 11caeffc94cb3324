"""What --output writes, and what it leaves alone."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from sowtide.cli import cli
from sowtide.cli.saving import save
from sowtide.diagnostics import Unreadable


def ran(*arguments: str) -> Result:
    return CliRunner().invoke(cli, arguments, catch_exceptions=True)


@pytest.mark.parametrize("form", ["json", "csv", "html"])
def test_what_sowtide_wrote_it_writes_again(tmp_path: Path, form: str) -> None:
    path = tmp_path / f"plan.{form}"
    call = ("plan", "--demo", "--format", form, "--output", str(path))
    first = ran(*call)
    assert (first.exit_code, first.output) == (0, f"Wrote {path}.\n")
    written = path.read_bytes()
    assert written.decode("utf-8") == ran("plan", "--demo", "--format", form).output
    path.write_bytes(written[: len(written) // 2])
    assert ran(*call).exit_code == 0
    assert path.read_bytes() == written
    assert [each.name for each in tmp_path.iterdir()] == [path.name]


@pytest.mark.parametrize("form", ["text", "json", "csv", "html"])
def test_what_another_wrote_is_left_alone_unless_told(tmp_path: Path, form: str) -> None:
    path = tmp_path / "mine"
    path.write_text("my own notes\n", encoding="utf-8")
    call = ("plan", "--demo", "--format", form, "--output", str(path))
    refused = ran(*call)
    assert isinstance(refused.exception, Unreadable)
    assert "--replace" in str(refused.exception)
    assert path.read_text(encoding="utf-8") == "my own notes\n"
    assert ran(*call, "--replace").exit_code == 0
    assert path.read_text(encoding="utf-8") != "my own notes\n"


def test_a_form_that_is_not_the_files_own_is_another_file(tmp_path: Path) -> None:
    path = tmp_path / "plan"
    assert ran("plan", "--demo", "--format", "json", "--output", str(path)).exit_code == 0
    refused = ran("plan", "--demo", "--format", "html", "--output", str(path))
    assert isinstance(refused.exception, Unreadable)


def test_a_link_stays_a_link_and_who_may_read_stays(tmp_path: Path) -> None:
    real, link = tmp_path / "real", tmp_path / "link"
    real.write_bytes(b"mark old")
    real.chmod(0o640)
    link.symlink_to(real)
    save(link, b"mark new", mark=b"mark", replace=False)
    assert link.is_symlink()
    assert real.read_bytes() == b"mark new"
    assert stat.S_IMODE(real.stat().st_mode) == 0o640


@pytest.mark.parametrize("replace", [False, True])
def test_a_folder_is_never_written_over(tmp_path: Path, replace: bool) -> None:
    with pytest.raises(Unreadable, match="is there"):
        save(tmp_path, b"x", mark=b"x", replace=replace)


def test_a_full_disk_leaves_the_old_file_whole(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "plan"
    path.write_bytes(b"mark old")

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("os.fsync", full)
    with pytest.raises(Unreadable, match="no space left on device"):
        save(path, b"mark new", mark=b"mark", replace=False)
    assert path.read_bytes() == b"mark old"
    assert [each.name for each in tmp_path.iterdir()] == ["plan"]


@pytest.mark.parametrize("before", [None, b"mark old"])
def test_a_name_is_on_the_disk_too_when_a_file_is_said_to_be_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, before: bytes | None
) -> None:
    path = tmp_path / "plan"
    if before is not None:
        path.write_bytes(before)
    flushed = []
    monkeypatch.setattr("os.fsync", lambda of: flushed.append(stat.S_ISDIR(os.fstat(of).st_mode)))
    save(path, b"mark new", mark=b"mark", replace=False)
    assert flushed == [False, True]  # what is in it, then the folder that names it
    assert path.read_bytes() == b"mark new"


@pytest.mark.parametrize("found", [4095, 4096, 4097])
def test_who_wrote_a_file_is_seen_at_its_head(tmp_path: Path, found: int) -> None:
    path = tmp_path / "plan"
    path.write_bytes(b"x" * (found - len(b"mark")) + b"mark" + b"x" * 9)
    if found > 4096:
        with pytest.raises(Unreadable, match="--replace writes over it"):
            save(path, b"new", mark=b"mark", replace=False)
    else:
        save(path, b"new", mark=b"mark", replace=False)
    assert (path.read_bytes() == b"new") is (found <= 4096)


def test_without_a_mark_every_file_is_anothers(tmp_path: Path) -> None:
    path = tmp_path / "plan"
    path.write_bytes(b"old")
    with pytest.raises(Unreadable, match="--replace writes over it"):
        save(path, b"new", mark=b"", replace=False)
    assert path.read_bytes() == b"old"


@pytest.mark.parametrize("error", [PermissionError(1, "Operation not permitted"), OSError(95, "x")])
def test_where_a_disk_has_no_links_the_file_is_written_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: OSError
) -> None:
    def refuse(*_: object) -> None:
        raise error

    monkeypatch.setattr("os.link", refuse)
    path = tmp_path / "plan"
    save(path, b"mark new", mark=b"mark", replace=False)
    assert [each.name for each in tmp_path.iterdir()] == ["plan"]
    assert path.read_bytes() == b"mark new"


def test_a_file_that_comes_meanwhile_is_left_alone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "plan"
    link = os.link

    def meanwhile(source: Path, target: Path) -> None:
        path.write_bytes(b"theirs")
        link(source, target)

    monkeypatch.setattr("os.link", meanwhile)
    with pytest.raises(Unreadable, match="is there"):
        save(path, b"mark new", mark=b"mark", replace=False)
    assert [each.read_bytes() for each in tmp_path.iterdir()] == [b"theirs"]


@pytest.mark.parametrize(("asked", "size"), [((), "a4"), (("--paper", "letter"), "letter")])
def test_the_paper_is_the_one_asked_for(asked: tuple[str, ...], size: str) -> None:
    found = ran("calendar", "--demo", "--format", "html", *asked)
    assert f"@page {{ size: {size} landscape" in found.output
