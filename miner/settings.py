"""Options of a project, from `miner.toml` or the table `[tool.miner]` of `pyproject.toml`: validated and frozen.

The nearest file at or above the working folder counts; in one folder `miner.toml` goes before `pyproject.toml`.
Options of the command line go before both.
"""

from __future__ import annotations

import difflib
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, fields
from pathlib import Path
from typing import Any

from miner.errors import SettingsError

FAIL_ON = ("error", "warning", "remark", "never")
"""From which severity on findings make a command end with 1."""


@dataclass(frozen=True, slots=True)
class Settings:
    """What a project has set. `ignore` holds check ids, `lexicon` layers (relative to the file that names them)."""

    ignore: tuple[str, ...] = ()
    lexicon: tuple[Path, ...] = ()
    fail_on: str | None = None


def load_settings(folder: Path) -> Settings:
    """The settings that hold in a folder; the defaults where no file sets any.

    Raises:
        SettingsError: a settings file is broken, or has an unknown key or a value of the wrong kind.
    """
    for place in (folder.resolve(), *folder.resolve().parents):
        own = place / "miner.toml"
        if own.is_file():
            return _settings(_read(own), own)
        shared = place / "pyproject.toml"
        if shared.is_file():
            table = _read(shared).get("tool", {}).get("miner")
            if table is not None:
                return _settings(table, shared)
    return Settings()


def _read(path: Path) -> dict[str, Any]:
    try:
        return tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise SettingsError(
            f"cannot read the settings ({reason})", where=str(path), remedy="Correct the file as TOML in UTF-8."
        ) from None


def _settings(table: Mapping[str, Any], path: Path) -> Settings:
    known = [one.name for one in fields(Settings)]
    for key in table:
        if key not in known:
            near = difflib.get_close_matches(key, known, n=1)
            hint = f"Did you mean {near[0]!r}? " if near else ""
            raise SettingsError(
                f"unknown setting {key!r}", where=str(path), remedy=f"{hint}Known are {', '.join(known)}."
            )
    fail_on = table.get("fail_on")
    if fail_on is not None and fail_on not in FAIL_ON:
        raise SettingsError(f"fail_on is {fail_on!r}", where=str(path), remedy=f"Set one of {', '.join(FAIL_ON)}.")
    layers = tuple(path.parent / layer for layer in _texts(table, "lexicon", path))
    return Settings(ignore=_texts(table, "ignore", path), lexicon=layers, fail_on=fail_on)


def _texts(table: Mapping[str, Any], key: str, path: Path) -> tuple[str, ...]:
    value = table.get(key, [])
    if not isinstance(value, list) or not all(isinstance(one, str) for one in value):
        raise SettingsError(f"{key} is no list of texts", where=str(path), remedy=f'Write {key} = ["..."].')
    return tuple(value)
