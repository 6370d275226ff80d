"""Decisions in SQLite beside the draft: nothing is ever changed or removed, every decision is a new row.

A decision is durable when `save` returns: write-ahead log with `synchronous=FULL`, so the commit is on the disk.
Whoever decides says which version of the item was in view; if another editor was faster, nothing is saved and both
versions are told. Connections are opened for one piece of work and closed, so threads and processes share nothing.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing, contextmanager
from dataclasses import asdict, dataclass, replace
from datetime import UTC, datetime
from pathlib import Path

from miner.decisions.decision import Basis, Decision
from miner.errors import DecisionError

_LAYOUT = 1  # number of the table layout, kept in the file's user_version
_TABLE = """
CREATE TABLE IF NOT EXISTS decision (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  act INTEGER NOT NULL,
  item TEXT NOT NULL,
  version INTEGER NOT NULL,
  state TEXT NOT NULL CHECK (state IN ('accepted', 'corrected', 'dismissed', 'open')),
  changes TEXT NOT NULL,
  reason TEXT NOT NULL,
  basis TEXT NOT NULL,
  who TEXT NOT NULL,
  at TEXT NOT NULL,
  undoes INTEGER,
  UNIQUE (item, version)
)
"""
_COLUMNS = "act, item, version, state, changes, reason, basis, who, at, undoes"
_LATEST = f"SELECT {_COLUMNS}, max(version) FROM decision GROUP BY item ORDER BY act, number"  # noqa: S608  # constants


@dataclass(frozen=True, slots=True)
class Saved:
    """The decisions as stored, under one act number."""

    act: int
    decisions: tuple[Decision, ...]


@dataclass(frozen=True, slots=True)
class Collision:
    """Nothing was saved: `theirs` were saved by someone since the editor looked, `mine` is what was to be saved."""

    mine: tuple[Decision, ...]
    theirs: tuple[Decision, ...]


def store_path(draft: Path) -> Path:
    """Where the decisions on a draft lie: `decisions.sqlite` beside `draft.json`, else named after the file."""
    if draft.is_dir() or draft.name == "draft.json":
        return (draft if draft.is_dir() else draft.parent) / "decisions.sqlite"
    return draft.with_name(f"{draft.stem}.decisions.sqlite")


class DecisionStore:
    """The decisions on one draft; the file is made with the first decision."""

    def __init__(self, path: Path) -> None:
        self.path = path

    def current(self) -> tuple[Decision, ...]:
        """The latest decision on each item, oldest first, also those that were taken back (`open`)."""
        return tuple(self._read(_LATEST))

    def history(self, item: str | None = None) -> tuple[Decision, ...]:
        """Every decision ever made, or those on one item, oldest first."""
        if item is None:
            return tuple(self._read(f"SELECT {_COLUMNS} FROM decision ORDER BY number"))  # noqa: S608  # constants
        return tuple(self._read(f"SELECT {_COLUMNS} FROM decision WHERE item = ? ORDER BY number", (item,)))  # noqa: S608

    def save(self, decisions: Sequence[Decision], *, who: str, undoes: int | None = None) -> Saved | Collision:
        """Store decisions in one act, all or none; each one's `version` is the one that was in view (0 for none)."""
        at = datetime.now(UTC).isoformat(timespec="milliseconds")
        with self._writing() as connection:
            theirs = [found for one in decisions if (found := _newer(connection, one)) is not None]
            if theirs:
                return Collision(tuple(decisions), tuple(theirs))
            act = int(connection.execute("SELECT coalesce(max(act), 0) + 1 FROM decision").fetchone()[0])
            rows = [replace(one, version=one.version + 1, act=act, who=who, at=at, undoes=undoes) for one in decisions]
            connection.executemany(
                f"INSERT INTO decision ({_COLUMNS}) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",  # noqa: S608  # constants
                [_row(one) for one in rows],
            )
        return Saved(act, tuple(rows))

    def undo(self, act: int, *, who: str) -> Saved | Collision:
        """Take one act back: each of its items stands again as before. Collides if one was decided on since.

        Raises:
            DecisionError: there is no such act.
        """
        history = self.history()
        undone = [one for one in history if one.act == act]
        if not undone:
            raise DecisionError("there is no such decision to take back", remedy="Load the page anew.")
        before = {(one.item, one.version): one for one in history}
        restored = []
        for one in undone:
            earlier = before.get((one.item, one.version - 1)) or Decision(one.item, "open", basis=one.basis)
            restored.append(replace(earlier, version=one.version))
        return self.save(restored, who=who, undoes=act)

    def _read(self, query: str, values: tuple[str, ...] = ()) -> Iterator[Decision]:
        if not self.path.exists():
            return
        with self._explained(), closing(self._open()) as connection:
            yield from map(_decision, connection.execute(query, values))

    @contextmanager
    def _writing(self) -> Iterator[sqlite3.Connection]:
        with self._explained(), closing(self._open()) as connection:
            connection.execute("BEGIN IMMEDIATE")
            try:
                yield connection
            except BaseException:
                connection.execute("ROLLBACK")
                raise
            connection.execute("COMMIT")

    def _open(self) -> sqlite3.Connection:
        connection = sqlite3.connect(self.path, timeout=10, isolation_level=None)
        try:
            connection.execute("PRAGMA synchronous = FULL")
            self._prepare(connection)
        except BaseException:
            connection.close()
            raise
        return connection

    def _prepare(self, connection: sqlite3.Connection) -> None:
        """Make the table in a new file; refuse a file with another layout."""
        layout = connection.execute("PRAGMA user_version").fetchone()[0]
        if layout == 0:
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute(_TABLE)
            connection.execute(f"PRAGMA user_version = {_LAYOUT}")
        elif layout != _LAYOUT:
            raise DecisionError(
                f"the decisions were stored by another version of the miner (layout {layout})",
                where=str(self.path),
                remedy="Use that version, or export them there and import them here.",
            )

    @contextmanager
    def _explained(self) -> Iterator[None]:
        try:
            yield
        except sqlite3.Error as error:
            raise DecisionError(
                f"the decisions cannot be read or stored ({error})",
                where=str(self.path),
                remedy="Check that the folder can be written and the file is no other's.",
            ) from None


def _newer(connection: sqlite3.Connection, mine: Decision) -> Decision | None:
    """The latest decision on an item, if it is not the one that was in view."""
    query = f"SELECT {_COLUMNS} FROM decision WHERE item = ? ORDER BY version DESC LIMIT 1"  # noqa: S608  # constants
    row = connection.execute(query, (mine.item,)).fetchone()
    if row is None:
        return None if mine.version == 0 else replace(mine, state="open", version=0)
    found = _decision(row)
    return None if found.version == mine.version else found


def _row(one: Decision) -> tuple[object, ...]:
    changes = json.dumps(one.changes, ensure_ascii=False, sort_keys=True)
    basis = json.dumps(asdict(one.basis), ensure_ascii=False)
    return (
        one.act, one.item, one.version, one.state, changes, one.reason, basis, one.who, one.at, one.undoes,
    )  # fmt: skip


def _decision(row: Sequence[object]) -> Decision:
    act, item, version, state, changes, reason, basis, who, at, undoes = row[:10]
    return Decision(
        item=str(item),
        state=state,  # type: ignore[arg-type]  # the table's CHECK allows no other
        changes=json.loads(str(changes)),
        reason=str(reason),
        basis=Basis(**json.loads(str(basis))),
        who=str(who),
        at=str(at),
        version=int(str(version)),
        act=int(str(act)),
        undoes=None if undoes is None else int(str(undoes)),
    )


def standing(decisions: Iterable[Decision]) -> dict[str, Decision]:
    """The decisions that hold, by item: the latest of each, without those that were taken back."""
    latest = {one.item: one for one in decisions}
    return {item: one for item, one in latest.items() if one.state != "open"}
