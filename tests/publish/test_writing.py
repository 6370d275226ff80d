"""Outputs are whole or not there."""

from pathlib import Path

import pytest

from miner.errors import SettingsError
from miner.publish.writing import write_file, write_folder


def contents(folder: Path) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def test_a_new_folder(tmp_path):
    write_folder(tmp_path / "a" / "b", {"x": b"1", "sub/y": b"2"})
    assert contents(tmp_path) == {"a/b/x": b"1", "a/b/sub/y": b"2"}
    assert (tmp_path / "a" / "b").stat().st_mode & 0o055 == 0o055 & ~_umask()


def _umask() -> int:
    import os

    mask = os.umask(0)
    os.umask(mask)
    return mask


def test_an_old_folder_keeps_what_is_not_ours(tmp_path):
    (tmp_path / "x").write_bytes(b"old")
    (tmp_path / "mine").write_bytes(b"keep")
    write_folder(tmp_path, {"x": b"new", "z": b"3"})
    assert contents(tmp_path) == {"x": b"new", "mine": b"keep", "z": b"3"}


def test_a_failure_in_the_middle_changes_nothing(tmp_path, monkeypatch):
    (tmp_path / "a").write_bytes(b"old a")
    before, rename = contents(tmp_path), Path.rename

    def fail(self, target):
        if self.name == "c":
            raise OSError(28, "No space left on device")
        return rename(self, target)

    monkeypatch.setattr(Path, "rename", fail)
    with pytest.raises(SettingsError, match="No space left"):
        write_folder(tmp_path, {"a": b"1", "b": b"2", "c": b"3"})
    assert contents(tmp_path) == before


def test_a_failure_leaves_no_new_folder(tmp_path, monkeypatch):
    monkeypatch.setattr(Path, "write_bytes", lambda self, data: (_ for _ in ()).throw(OSError(28, "No space left")))
    with pytest.raises(SettingsError):
        write_folder(tmp_path / "new" / "deep", {"a": b"1"})
    with pytest.raises(SettingsError):
        write_file(tmp_path / "other" / "a.svg", b"1")
    assert list(tmp_path.iterdir()) == []


def test_a_file(tmp_path):
    write_file(tmp_path / "d" / "a.svg", b"1")
    write_file(tmp_path / "d" / "a.svg", b"2")
    assert contents(tmp_path) == {"d/a.svg": b"2"}


def test_the_wrong_kind_of_place_is_told(tmp_path):
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(SettingsError, match="no folder"):
        write_folder(tmp_path / "file", {"a": b""})
    with pytest.raises(SettingsError, match="is a folder"):
        write_file(tmp_path, b"")
    with pytest.raises(SettingsError):
        write_folder(tmp_path / "file" / "below", {"a": b""})
