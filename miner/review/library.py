"""The drafts below one folder. A page names them by key; no path comes from a request."""

from __future__ import annotations

import threading
from dataclasses import dataclass, field
from hashlib import sha256
from pathlib import Path

from miner.decisions.opening import Decided
from miner.decisions.store import DecisionStore, standing, store_path
from miner.errors import InputError, MinerError
from miner.model.draft import Draft
from miner.model.identity import slug
from miner.model.serialise import read_draft


@dataclass(frozen=True, slots=True)
class Entry:
    """One draft: its key in addresses, its file, and its place below the folder as text."""

    key: str
    path: Path
    place: str

    @property
    def store(self) -> DecisionStore:
        """Its decisions."""
        return DecisionStore(store_path(self.path))


@dataclass(frozen=True, slots=True)
class Row:
    """What the list of drafts shows of one; `problem` where it cannot be read."""

    entry: Entry
    draft: Draft | None
    decided: int = 0
    open_errors: int = 0
    again: int = 0
    latest: str = ""
    problem: str = ""

    @property
    def findings(self) -> int:
        """How many there are."""
        return len(self.draft.findings) if self.draft else 0

    @property
    def to_do(self) -> int:
        """How many wait for a decision."""
        return self.findings - self.decided + self.again

    @property
    def name(self) -> str:
        """The title of the recording, else where the draft lies."""
        return (self.draft.recording.title or self.draft.recording.id) if self.draft else self.entry.place


@dataclass(slots=True)
class Library:
    """Finds and reads drafts; what was read is kept until its file changes."""

    root: Path
    only: Path | None = None
    media: Path | None = None
    _read: dict[Path, tuple[tuple[int, int], Draft]] = field(default_factory=dict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    @classmethod
    def at(cls, place: Path, media: Path | None = None) -> Library:
        """The drafts in a folder and below, or one draft alone.

        Raises:
            InputError: there is no draft.
        """
        if place.is_file():
            found = cls(place.resolve().parent, place.resolve(), media)
        else:
            found = cls(place.resolve(), None, media)
        if not place.exists() or not found.entries():
            raise InputError(
                "there is no draft here", where=str(place), remedy="Make one with `miner draft RECORDING -o OUT`."
            )
        return found

    def entries(self) -> dict[str, Entry]:
        """All drafts by key, in order of their place."""
        paths = [self.only] if self.only else sorted(self.root.rglob("draft.json"))
        inside = (path for path in paths if path.resolve().is_relative_to(self.root) and path.is_file())
        return {entry.key: entry for entry in map(self._entry, inside)}

    def _entry(self, path: Path) -> Entry:
        place = path.parent.relative_to(self.root).as_posix()
        shown = self.root.name if place == "." else place
        mark = sha256(path.relative_to(self.root).as_posix().encode()).hexdigest()[:6]
        return Entry(f"{slug(shown)[:60]}-{mark}", path, shown)

    def draft(self, entry: Entry) -> Draft:
        """The draft of an entry.

        Raises:
            InputError: it cannot be read.
        """
        try:
            found = entry.path.stat()
        except OSError:
            raise InputError("the draft is gone", where=entry.place, remedy="Load the list anew.") from None
        stamp = (found.st_mtime_ns, found.st_size)
        with self._lock:
            kept = self._read.get(entry.path)
        if kept and kept[0] == stamp:
            return kept[1]
        draft = read_draft(entry.path)
        with self._lock:
            self._read[entry.path] = (stamp, draft)
        return draft

    def decided(self, entry: Entry) -> Decided:
        """The draft with its decisions applied."""
        return Decided.of(self.draft(entry), entry.store.current())

    def rows(self) -> list[Row]:
        """What the list shows, those with the most open errors first."""
        rows = [self._row(entry) for entry in self.entries().values()]
        return sorted(rows, key=lambda row: (not row.problem, -row.open_errors, -row.to_do, row.name.casefold()))

    def _row(self, entry: Entry) -> Row:
        try:
            draft = self.draft(entry)
            decisions = entry.store.current()
            again = len(Decided.of(draft, decisions).matched.again) if decisions else 0
        except MinerError as error:
            return Row(entry, None, problem=error.what)
        done = standing(decisions)
        open_ones = [one for one in draft.findings if f"finding:{one.id}" not in done]
        return Row(
            entry,
            draft,
            decided=len(draft.findings) - len(open_ones),
            open_errors=sum(one.severity == "error" for one in open_ones),
            again=again,
            latest=f"{decisions[-1].who}, {decisions[-1].at[:10]}" if decisions else "",
        )
