"""Repeats of scrolling captions removed, so that each word stands once and in the cue in which it was spoken.

A scrolling caption shows the line before once more, above the new one; some programs also put cues of a hundredth of
a second between, that only hold the text. A cue is taken for scrolled if it begins with words that the cue before
ends with, and the cues around do the same: one repeat alone is something that was said twice.
Where a file has word times the readers give carried words no duration, which is proof by itself.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from miner.captions.words import keys_of
from miner.model.recording import Cue, Recording, Repair
from miner.readers.word_times import spread

SURE = 3
"""Equal words from which a repeat counts as a sign of scrolling."""

WINDOW = 4
"""Neighbours on either side that are asked whether they scroll too."""

LASTING = 8.0
"""Seconds between two cues over which a line may stand on the screen and be carried over."""

HOLDING = 0.2
"""Seconds up to which a cue only holds a text, so that it may repeat all of it."""


@dataclass(frozen=True, slots=True)
class _Overlap:
    """How many words a cue carries over, whether they are the whole of the new line before, and how sure that is."""

    words: int = 0
    line: bool = False
    sure: bool = False


_NONE = _Overlap()


def remove_repeats(recording: Recording) -> Recording:
    """The recording without carried words; the same object if its captions do not scroll."""
    overlaps = _overlaps(recording.cues)
    counts = _carried(overlaps)
    total = sum(counts)
    if not total:
        return recording
    cues = [_without(cue, count) if count else cue for cue, count in zip(recording.cues, counts, strict=True)]
    first = next(cue for cue, count in zip(recording.cues, counts, strict=True) if count)
    note = Repair("rolling", first.start, recording.duration, "", "", f"{total} words repeated by scrolling captions")
    kept = tuple(cue for cue in cues if cue is not None)
    return replace(recording, cues=kept, repairs=(*recording.repairs, note))


def _overlaps(cues: Sequence[Cue]) -> list[_Overlap]:
    """For each cue, what it carries over from the cue before."""
    found: list[_Overlap] = []
    line: list[str] = []  # the words that the cue before added
    before: Cue | None = None
    for cue in cues:
        overlap = _overlap(before, cue, line) if before is not None else _NONE
        found.append(overlap)
        if overlap.words < len(cue.words):
            line = keys_of(cue.words[overlap.words :]) if overlap.words else []
        before = cue
    return found


def _overlap(before: Cue, cue: Cue, line: list[str]) -> _Overlap:
    if cue.start - before.end > LASTING:
        return _NONE
    if not cue.words:
        return _NONE
    first = keys_of(cue.words[:1])[0]
    # The usual cue does not begin with a word of the cue before: that is found out without taking it apart.
    if first not in before.text.casefold():
        return _NONE
    old, new = keys_of(before.words), keys_of(cue.words)
    count = _count(old, new, line)
    if not count:
        return _NONE
    carried = count == sum(1 for word in cue.words if word.start == word.end == cue.start)
    whole = old == new and min(cue.end - cue.start, before.end - before.start) > HOLDING
    return _Overlap(count, count in (len(line), len(old)), carried or (count >= SURE and not whole))


def _count(old: list[str], new: list[str], line: list[str]) -> int:
    """Words at the beginning of the new cue that end the old one: its last line if that fits, else as many as fit."""
    if line and new[: len(line)] == line and old[-len(line) :] == line:
        return len(line)
    first = new[0]
    for start, word in enumerate(old):
        if word == first and old[start:] == new[: len(old) - start]:
            return len(old) - start
    return 0


def _carried(overlaps: Sequence[_Overlap]) -> list[int]:
    """How many words to take off each cue: those of overlaps in the company of sure ones."""
    sure = [overlap.sure for overlap in overlaps]
    if not any(sure):
        return [0] * len(overlaps)
    counts: list[int] = []
    for at, overlap in enumerate(overlaps):
        if not overlap.words:
            counts.append(0)
            continue
        low, high = max(1, at - WINDOW), at + WINDOW + 1
        around = sure[low:at] + sure[at + 1 : high]
        share = sum(around) / len(around) if around else 0.0
        scrolls = share >= 0.25 if overlap.sure else overlap.line and share >= 0.4
        counts.append(overlap.words if scrolls else 0)
    return counts


def _without(cue: Cue, count: int) -> Cue | None:
    """The cue without its first words; the rest is timed over the whole cue unless it has times of its own."""
    rest = cue.words[count:]
    if not rest:
        return None
    if cue.words[0].end > cue.words[0].start:
        rest = spread([word.text for word in rest], cue.start, cue.end)
    return replace(cue, words=rest)
