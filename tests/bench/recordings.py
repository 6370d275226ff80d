"""The recordings that the benches run on, and a long one made of them.

Two folders of recordings with gold files beside them: `fixtures/` of this repository and, where it is there, the
folder `shared/dev` beside the repository.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import cycle
from pathlib import Path
from typing import Any

from miner.model.recording import Cue, Recording
from miner.readers import read_recording

ROOT = Path(__file__).resolve().parents[2]
FOLDERS = (ROOT / "fixtures", ROOT.parent / "shared" / "dev")
ENDING = ".gold.json"
BETWEEN = 5.0
"""Seconds of silence between two recordings that are put one after the other."""


@dataclass(frozen=True, slots=True)
class Sample:
    """A recording, what a careful annotator wrote of it, and its number of words."""

    name: str
    recording: Recording
    gold: dict[str, Any]
    words: int

    @property
    def register(self) -> str:
        """How it was spoken, as the annotator says."""
        return str(self.gold.get("register", "scripted"))


def samples(folders: Iterable[Path] = FOLDERS) -> list[Sample]:
    """Every recording that has a gold file, by path."""
    return [found for folder in folders for gold in sorted(folder.rglob(f"*{ENDING}")) for found in _beside(gold)]


def long_recording(recordings: Iterable[Recording], words: int, *, seconds: float | None = None) -> Recording:
    """Recordings one after the other, again and again, cut at exactly so many words.

    Args:
        recordings: at least one that has words.
        words: how many the result has.
        seconds: if given, times are stretched so that the result lasts that long.
    """
    cues = tuple(_shifted(cycle(recordings), words))
    made = Recording("long", "long.srt", "subrip", "0" * 64, cues)
    if seconds is None:
        return made
    factor = seconds / made.duration
    return replace(made, cues=tuple(_scaled(cue, 0.0, factor) for cue in cues))


def text_of(recording: Recording) -> str:
    """All that was said."""
    return " ".join(cue.text for cue in recording.cues)


def _beside(gold: Path) -> Iterator[Sample]:
    stem = gold.name.removesuffix(ENDING)
    for path in sorted(gold.parent.glob(f"{stem}.*")):
        if path.name != gold.name and path.suffix != ".toml":
            recording = read_recording(path)
            said = json.loads(gold.read_text(encoding="utf-8"))
            yield Sample(stem, recording, said, sum(1 for _ in recording.words()))


def _shifted(recordings: Iterable[Recording], words: int) -> Iterator[Cue]:
    left, begin = words, 0.0
    for recording in recordings:
        for cue in recording.cues:
            if left <= 0:
                return
            kept = replace(cue, words=cue.words[:left])
            left -= len(kept.words)
            yield _scaled(kept, begin, 1.0)
        begin += recording.duration + BETWEEN


def _scaled(cue: Cue, shift: float, factor: float) -> Cue:
    def moved(seconds: float) -> float:
        return round((seconds + shift) * factor, 3)

    words = tuple(replace(word, start=moved(word.start), end=moved(word.end)) for word in cue.words)
    return replace(cue, start=moved(cue.start), end=moved(cue.end), words=words)
