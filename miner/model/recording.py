"""A timed recording as read, and what the caption stage repaired in it. Times are seconds from its start."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

Register = Literal["scripted", "spoken", "captions", "notes"]


@dataclass(frozen=True, slots=True)
class Word:
    """One word (or number) with the punctuation that clings to it.

    `probability` is the recogniser's own (0 to 1), if the format gives one.
    `start` and `end` are interpolated by characters inside the cue when the format gives no word times.
    """

    text: str
    start: float
    end: float
    probability: float | None = None


@dataclass(frozen=True, slots=True)
class Cue:
    """One timed block: a caption, a recogniser's segment, a paragraph, a note."""

    start: float
    end: float
    words: tuple[Word, ...]
    voice: str | None = None

    @property
    def text(self) -> str:
        """The words of the cue, joined by blanks."""
        return " ".join(word.text for word in self.words)


@dataclass(frozen=True, slots=True)
class Repair:
    """One change to the transcript: the words before and after, and the reason.

    A stutter is only reported where it may matter to an editor; a removed rolling repeat is not listed one by one.
    """

    kind: Literal["rolling", "stutter", "mishearing"]
    start: float
    end: float
    before: str
    after: str
    reason: str


@dataclass(frozen=True, slots=True)
class Recording:
    """A recording with its words in order of time, none of them empty.

    `cues` hold the words as they stand after repair; a repaired word keeps its time, and the words as transcribed
    are found in `repairs`. `source` is the file name, `media` the name of the video or audio if known,
    `sha256` the digest of the file's bytes.
    """

    id: str
    source: str
    format: str
    sha256: str
    cues: tuple[Cue, ...]
    title: str = ""
    product: str = ""
    model: str = ""
    media: str | None = None
    register: Register | None = None
    repairs: tuple[Repair, ...] = ()

    @property
    def duration(self) -> float:
        """Seconds from the start of the recording to the end of the last cue."""
        return max((cue.end for cue in self.cues), default=0.0)

    def words(self) -> Iterator[Word]:
        """All words in order."""
        for cue in self.cues:
            yield from cue.words
