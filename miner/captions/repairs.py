"""The ordered list of repairs to a transcript. Each takes and returns a recording and adds what it changed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from miner.captions.lingering import end_at_the_next
from miner.captions.mishearings import repair_mishearings
from miner.captions.register import register_of
from miner.captions.rolling import remove_repeats
from miner.captions.stutters import remove_stutters
from miner.lexicon import Lexicon
from miner.model.recording import Recording


def repair(recording: Recording, lexicon: Lexicon) -> Recording:
    """The recording with its transcript repaired, its register set, and `repairs` in order of kind, then of time."""
    recording = end_at_the_next(remove_repeats(recording))  # first: a carried line would look like a stutter
    for step in REPAIRS:
        recording = step(recording, lexicon)
    return recording


def _with_register(recording: Recording, lexicon: Lexicon) -> Recording:
    if recording.register is not None:
        return recording
    return replace(recording, register=register_of(recording, lexicon))


REPAIRS: tuple[Callable[[Recording, Lexicon], Recording], ...] = (
    _with_register,  # before stutters: notes are told from speech, and words of two notes are no stutter
    remove_stutters,  # before mishearings: doubled words hide a context
    repair_mishearings,
)
"""The repairs that need the lexicon, in their order."""
