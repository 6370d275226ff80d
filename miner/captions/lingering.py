"""Captions that stay on the screen while the next one is shown: their words end where the next caption begins."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from miner.model.recording import Cue, Recording, Word

HABIT = 0.3
"""Share of captions that must reach into the next one; fewer are two people who speak at once."""


def end_at_the_next(recording: Recording) -> Recording:
    """The recording with the words of each lingering caption told before the next caption begins.

    Word times that a format does not give are spread over the time that a caption is shown; where captions linger,
    that is longer than it was spoken, and words of two captions would stand in each other's time.
    """
    lingering = sum(_reaches_into(cue, following) for cue, following in pairwise(recording.cues))
    if not lingering or lingering < HABIT * len(recording.cues):
        return recording
    return replace(recording, cues=tuple(_shortened(recording.cues)))


def _reaches_into(cue: Cue, following: Cue) -> bool:
    return bool(cue.words) and cue.start < following.start < cue.words[-1].end


def _shortened(cues: tuple[Cue, ...]) -> Iterator[Cue]:
    for cue, following in pairwise(cues):
        if not _reaches_into(cue, following):
            yield cue
            continue
        rate = (following.start - cue.start) / (cue.words[-1].end - cue.start)
        yield replace(cue, words=tuple(_paced(word, cue.start, rate) for word in cue.words))
    yield cues[-1]


def _paced(word: Word, start: float, rate: float) -> Word:
    return replace(word, start=start + (word.start - start) * rate, end=start + (word.end - start) * rate)
