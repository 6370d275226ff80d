"""Short recordings for the tests of the caption stage."""

from __future__ import annotations

from miner.model.recording import Cue, Recording
from miner.readers.word_times import spread


def recording(*texts: str, gap: float = 0.0, lasting: float = 2.0, format: str = "srt") -> Recording:
    """One cue a text, each as long as the others, `gap` seconds between them."""
    step = lasting + gap
    cues = tuple(
        Cue(at * step, at * step + lasting, spread(text.split(), at * step, at * step + lasting))
        for at, text in enumerate(texts)
    )
    return Recording("a", "a.srt", format, "0", cues)


def text_of(found: Recording) -> str:
    return " ".join(word.text for word in found.words())
