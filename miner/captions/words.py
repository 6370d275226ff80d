"""Words of a recording as flat lists, and cues built again only where something changed."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import accumulate

from miner.model.recording import Cue, Recording, Word

EDGE = ".,;:!?…\"'()[]{}<>«»“”‘’„-–—♪*_/\\"
"""Characters that cling to a word and are no part of it."""

SENTENCE_END = (".", "?", "!", ";", ":", "…", '."', '?"', '!"', ".”", "?”", "!”", ".)")
"""What a word ends with where a sentence or clause is over."""

LONGEST_GAP = 1.0
"""Seconds of silence between two cues over which a phrase may go on."""


def key(word: str) -> str:
    """A word as it is compared: small letters, nothing clinging to it."""
    return word.casefold().strip(EDGE)


def keys_of(words: Sequence[Word]) -> list[str]:
    """The keys of many words; a mark that stands alone has an empty one."""
    return [word.text.casefold().strip(EDGE) for word in words]


def breaks_of(recording: Recording) -> frozenset[int]:
    """Positions, in the flat list of words, before which a phrase ends: at a pause, and between two notes."""
    found: list[int] = []
    position, before = 0, None
    notes = recording.register == "notes" or recording.format == "notes"
    for cue in recording.cues:
        if before is not None and (notes or cue.start - before.end > LONGEST_GAP or cue.voice != before.voice):
            found.append(position)
        position += len(cue.words)
        before = cue
    return frozenset(found)


def replaced(recording: Recording, changes: Mapping[int, Sequence[Word]]) -> tuple[Cue, ...]:
    """The cues with some words changed; cues without a change are the same objects.

    Args:
        recording: the recording that the positions refer to.
        changes: for a position in the flat list of words, the words that stand there now, or none.
    """
    ends = list(accumulate(len(cue.words) for cue in recording.cues))
    touched: dict[int, dict[int, Sequence[Word]]] = {}
    for position, words in changes.items():
        number = bisect_right(ends, position)
        first = ends[number] - len(recording.cues[number].words)
        touched.setdefault(number, {})[position - first] = words
    cues = list(recording.cues)
    for number, own in touched.items():
        kept = tuple(new for at, word in enumerate(cues[number].words) for new in own.get(at, (word,)))
        cues[number] = replace(cues[number], words=kept)
    return tuple(cue for cue in cues if cue.words)
