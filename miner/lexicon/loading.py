"""TOML layers to one `Lexicon`.

The shipped files come first, then the user's in the order given. An entry replaces the earlier one with the same key
as a whole; `remove = true` deletes it. What a file may hold is read off the classes in `entries`, so a new field
there is a new key here.
"""

from __future__ import annotations

import hashlib
import re
import tomllib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import MISSING, dataclass, fields
from functools import lru_cache
from pathlib import Path
from typing import Any, Protocol

from miner.errors import LexiconError
from miner.lexicon.entries import (
    TABLES,
    Abbreviation,
    Action,
    Drive,
    FastenerKind,
    Hazard,
    HeadNoun,
    Lengths,
    Mishearing,
    Phrase,
    ScrewHead,
    Supply,
    Synonym,
    ThreadDrives,
    Tool,
    WordClass,
)
from miner.lexicon.values import Check, checks_of
from miner.resources import lexicon_files

KEYS: dict[str, str] = {
    "action": "verb",
    "head": "term",
    "synonym": "terms",
    "fastener": "kind",
    "drive": "drive",
    "screw_head": "head",
    "thread_drives": "thread",
    "lengths": "source",
    "tool": "term",
    "supply": "term",
    "hazard": "id",
    "abbreviation": "short",
    "mishearing": "heard",
    "word_class": "name",
    "phrase": "role",
}
"""The field that tells two entries of a table apart; of a list (synonym) the first item."""


class Layer(Protocol):
    """A lexicon file: a path, or a file inside the installed package."""

    def read_bytes(self) -> bytes:
        """The whole file."""


@dataclass(frozen=True, slots=True, eq=False, repr=False)
class Lexicon:
    """The merged lexicon; two are equal when the files that they were read from are. `version` is their SHA-256."""

    actions: tuple[Action, ...]
    heads: tuple[HeadNoun, ...]
    synonyms: tuple[Synonym, ...]
    fasteners: tuple[FastenerKind, ...]
    drives: tuple[Drive, ...]
    screw_heads: tuple[ScrewHead, ...]
    thread_drives: tuple[ThreadDrives, ...]
    lengths: tuple[Lengths, ...]
    tools: tuple[Tool, ...]
    supplies: tuple[Supply, ...]
    hazards: tuple[Hazard, ...]
    abbreviations: tuple[Abbreviation, ...]
    mishearings: tuple[Mishearing, ...]
    word_classes: tuple[WordClass, ...]
    phrases: tuple[Phrase, ...]
    version: str

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Lexicon) and other.version == self.version

    def __hash__(self) -> int:
        return hash(self.version)

    def __repr__(self) -> str:
        return f"Lexicon({self.version[:12]})"  # its entries would fill pages

    def _repr_pretty_(self, printer: Any, _cycle: bool) -> None:
        printer.text(repr(self))  # notebooks and hypothesis would print the fields of a dataclass

    def table(self, name: str) -> tuple[Any, ...]:
        """The entries of a table by its name in the files: `head`, `thread_drives`."""
        found: tuple[Any, ...] = getattr(self, FIELDS[name])
        return found


FIELDS: dict[str, str] = dict(zip(TABLES, (f.name for f in fields(Lexicon)), strict=False))
"""The field of `Lexicon` that holds a table; both are written in the same order."""

Tables = dict[str, dict[str, Any]]


def load_lexicon(layers: Sequence[Path] = ()) -> Lexicon:
    """The built-in lexicon with the user's layers on top, later ones winning.

    Raises:
        LexiconError: a layer is unreadable, is no TOML, or holds an unknown table, key or a wrong value.
    """
    tables, digests = _built_in()
    return _built_in_lexicon() if not layers else _assemble(*_merged(tables, digests, layers))


@lru_cache(maxsize=1)
def _built_in() -> tuple[Tables, tuple[str, ...]]:
    return _merged({}, (), lexicon_files())


@lru_cache(maxsize=1)
def _built_in_lexicon() -> Lexicon:
    return _assemble(*_built_in())


def _merged(tables: Tables, digests: tuple[str, ...], layers: Iterable[Layer]) -> tuple[Tables, tuple[str, ...]]:
    merged = {name: dict(tables.get(name, {})) for name in TABLES}
    for layer in layers:
        text = _text(layer)
        _add(merged, text, str(layer))
        digests += (hashlib.sha256(text.encode()).hexdigest(),)
    return merged, digests


def _assemble(tables: Tables, digests: tuple[str, ...]) -> Lexicon:
    found = {FIELDS[name]: tuple(entries.values()) for name, entries in tables.items()}
    return Lexicon(**found, version=hashlib.sha256("\n".join(digests).encode()).hexdigest())


def _text(layer: Layer) -> str:
    try:
        return layer.read_bytes().decode("utf-8-sig").replace("\r\n", "\n")
    except OSError as error:
        reason = error.strerror or str(error)
        raise LexiconError(
            f"cannot be read: {reason}", where=str(layer), remedy="Give the path of a TOML file."
        ) from error
    except UnicodeDecodeError as error:
        raise LexiconError("is not UTF-8 text", where=str(layer), remedy="Save the file as UTF-8.") from error


def _add(merged: Tables, text: str, name: str) -> None:
    try:
        document = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        line = re.search(r"at line (\d+)", str(error))
        place = f"{name}:{line[1]}" if line else name
        raise LexiconError(f"is no TOML: {error}", where=place, remedy="Mend the syntax there.") from error
    for table, rows in document.items():
        if table not in TABLES:
            raise _unknown("table", table, TABLES, name, _line(text, table))
        if not isinstance(rows, list) or not all(isinstance(row, dict) for row in rows):
            raise _wrong(f"`{table}` is not a list of tables", name, _line(text, table), f"Write it as [[{table}]].")
        for row in rows:
            _add_row(merged[table], table, row, text, name)


def _add_row(entries: dict[str, Any], table: str, row: Mapping[str, Any], text: str, name: str) -> None:
    key_field, checks = KEYS[table], checks_of(TABLES[table])
    raw = row.get(key_field)
    key = raw[0] if isinstance(raw, list) and raw else raw
    if not isinstance(key, str) or not key:
        line = min((_line(text, other) for other in row), default=_line(text, table))
        raise _wrong(f"a `{table}` entry has no `{key_field}`", name, line, f"Give each entry its `{key_field}`.")
    if row.get("remove") is True:
        entries.pop(key, None)
        return
    entry = {field: _value(field, value, checks, (text, name, key)) for field, value in row.items()}
    missing = [f.name for f in fields(TABLES[table]) if f.default is MISSING and f.name not in entry]
    if missing:
        raise _wrong(f"`{key}` in `{table}` lacks `{missing[0]}`", name, _line(text, key), f"Add `{missing[0]}` to it.")
    entries[key] = TABLES[table](**entry)


def _value(field: str, value: Any, checks: Mapping[str, Check], place: tuple[str, str, str]) -> Any:
    text, name, key = place
    if field not in checks:
        raise _unknown("key", field, checks, name, _line(text, field, after=key))
    accepted, expected = checks[field](value)
    if expected:
        what = f"`{field}` of `{key}` is {value!r}"
        raise _wrong(what, name, _line(text, field, after=key), f"It must be {expected}.")
    return accepted


def _line(text: str, word: str, *, after: str = "") -> int:
    """The line (from 1) where `word` stands as a key, table or value; searched after the value `after`."""
    start = re.search(rf"=\s*\[?\s*[\"']{re.escape(after)}[\"']", text) if after else None
    line_start = text.rfind("\n", 0, start.start()) + 1 if start else 0
    found = re.search(rf"(?<![\w-])[\"']?{re.escape(word)}[\"']?(?![\w-])", text[line_start:])
    return text.count("\n", 0, line_start + (found.start() if found else 0)) + 1


def _unknown(what: str, found: str, known: Iterable[str], name: str, line: int) -> LexiconError:
    from rapidfuzz import process  # only a mistake needs it

    nearest = process.extractOne(found, sorted(known))[0]
    return LexiconError(f"unknown {what} `{found}`", where=f"{name}:{line}", remedy=f"Did you mean `{nearest}`?")


def _wrong(what: str, name: str, line: int, remedy: str) -> LexiconError:
    return LexiconError(what, where=f"{name}:{line}", remedy=remedy)
