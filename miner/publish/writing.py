"""Outputs written whole or not at all: first under a temporary name beside, then moved into place."""

from __future__ import annotations

import contextlib
import os
import shutil
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path

from miner.errors import SettingsError


def write_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Put files into a folder, which is made if need be; other files in it stay.

    If anything fails, the folder is as it was before.

    Raises:
        SettingsError: the folder cannot be written; names the reason.
    """
    with _explained(folder):
        if folder.exists() and not folder.is_dir():
            raise OSError(None, "it exists and is no folder")
        beside = folder if folder.exists() else folder.parent
        with _made(beside):
            scratch = Path(tempfile.mkdtemp(prefix=f".{folder.resolve().name}.", dir=beside))
            try:
                _stage(scratch / "new", files)
                if folder.exists():
                    _exchange(folder, scratch, list(files))
                else:
                    (scratch / "new").rename(folder)
            finally:
                shutil.rmtree(scratch, ignore_errors=True)


def write_file(path: Path, data: bytes) -> None:
    """Put one file into place; if anything fails, the file is as it was before.

    Raises:
        SettingsError: the file cannot be written; names the reason.
    """
    with _explained(path):
        if path.is_dir():
            raise OSError(None, "it is a folder")
        with _made(path.parent):
            scratch = path.parent / f".{path.name}.{os.getpid()}"
            try:
                scratch.write_bytes(data)
                scratch.replace(path)
            finally:
                scratch.unlink(missing_ok=True)


@contextlib.contextmanager
def _explained(place: Path) -> Iterator[None]:
    """Turns what the system says into a line for the user."""
    try:
        yield
    except OSError as error:
        reason = error.strerror or str(error)
        raise SettingsError(
            f"cannot write ({reason})", where=str(place), remedy="Name another place with -o, or free this one."
        ) from None


@contextlib.contextmanager
def _made(folder: Path) -> Iterator[None]:
    """Makes a folder with its parents, and takes those that were made away again if the work fails."""
    missing = [one for one in (folder, *folder.parents) if not one.exists()]
    folder.mkdir(parents=True, exist_ok=True)
    try:
        yield
    except BaseException:
        for one in missing:
            with contextlib.suppress(OSError):
                one.rmdir()
        raise


def _stage(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write the files where nobody looks; in a folder of its own, since a temporary one has narrow rights."""
    folder.mkdir()
    for name, data in files.items():
        place = folder / name
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(data)


def _exchange(folder: Path, scratch: Path, names: list[str]) -> None:
    """Move staged files over the old ones; those are kept aside until all have moved, and put back if one cannot."""
    moved: list[str] = []
    try:
        for name in names:
            target, kept = folder / name, scratch / "old" / name
            target.parent.mkdir(parents=True, exist_ok=True)
            kept.parent.mkdir(parents=True, exist_ok=True)
            if target.exists():
                target.rename(kept)
            moved.append(name)
            (scratch / "new" / name).rename(target)
    except BaseException:
        for name in moved:
            _put_back(folder / name, scratch / "old" / name)
        raise


def _put_back(target: Path, kept: Path) -> None:
    if kept.exists():
        kept.replace(target)
    else:
        target.unlink(missing_ok=True)
