"""The words around a moment of the recording, for an editor who cannot play it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from hashlib import sha256
from pathlib import Path

from miner.errors import MinerError
from miner.model.draft import Draft, Notice, Preparation, Prerequisite


@dataclass(frozen=True, slots=True)
class Line:
    """Words and their time in seconds: a cue of the transcript, or a passage of the draft."""

    start: float
    end: float
    words: str


@dataclass(frozen=True, slots=True)
class Transcript:
    """The recording's words in order; `complete` where they are the transcript itself and not what the draft kept."""

    lines: tuple[Line, ...]
    complete: bool

    def at(self, time: float) -> int:
        """The number of the line that is spoken at a time, or of the last one before it."""
        return max(0, bisect_right([line.start for line in self.lines], time + 0.01) - 1)

    def around(self, start: float, end: float) -> tuple[str, str]:
        """What is said just before and just after a stretch."""
        first, last = self.at(start), self.at(max(start, end - 0.02))
        before = self.lines[first - 1].words if 0 < first <= len(self.lines) else ""
        after = self.lines[last + 1].words if last + 1 < len(self.lines) else ""
        return before, after


def transcript(draft: Draft, folders: Sequence[Path]) -> Transcript:
    """The transcript that was mined, if it lies unchanged in one of the folders; else the words that the draft kept."""
    name = draft.recording.source
    if name and Path(name).name == name:
        for folder in folders:
            path = folder / name
            if path.is_file() and path.resolve().is_relative_to(folder.resolve()):
                lines = _cues(path, draft.recording.sha256, path.stat().st_mtime_ns)
                if lines:
                    return Transcript(lines, complete=True)
    return Transcript(_passages(draft), complete=False)


@lru_cache(maxsize=16)
def _cues(path: Path, digest: str, stamp: int) -> tuple[Line, ...]:
    """The cues of a transcript; none if it is not the one that was mined. `stamp` makes a changed file be read anew."""
    from miner.readers import read_recording

    try:
        if sha256(path.read_bytes()).hexdigest() != digest:
            return ()
        return tuple(Line(cue.start, cue.end, cue.text) for cue in read_recording(path).cues)
    except (MinerError, OSError):
        return ()


def _passages(draft: Draft) -> tuple[Line, ...]:
    """Everything the draft quotes, in order of time."""
    found: dict[tuple[float, str], Line] = {}

    def add(start: float | None, end: float | None, words: str) -> None:
        if words and start is not None:
            found.setdefault((start, words), Line(start, max(start, end or start), words))

    for procedure in draft.procedures:
        if procedure.heading.spoken:
            add(procedure.heading.start, procedure.heading.end, procedure.heading.text)
        said: list[Prerequisite | Preparation | Notice] = [*procedure.prerequisites, *procedure.preparations]
        for one in (*said, *procedure.notices):
            if one.start > procedure.heading.start or not procedure.heading.spoken:
                add(one.start, one.end, one.text)
        add(procedure.install.start, procedure.install.end, procedure.install.text)
        for step in procedure.steps:
            add(step.start, step.end, step.spoken or step.text)
    return tuple(line for _, line in sorted(found.items()))
