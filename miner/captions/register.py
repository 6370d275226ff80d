"""The way of speaking that a recording shows: scripted, spoken, automatic captions, or notes."""

from __future__ import annotations

from itertools import islice

from miner.captions.words import keys_of
from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup
from miner.model.recording import Recording, Register

SAMPLE = 5000
"""Words that are looked at."""

NOTE_WORDS = 12
"""Words that a note has at most, on average."""

NOTE_ARTICLES = 0.04
"""Share of articles below which a text is in telegram style."""

BARE = 0.02
"""Share of words with punctuation behind them below which a text has none."""

PERSONAL = 0.008
"""Share of first-person words, fillers and turns of talk from which a text was spoken freely."""


def register_of(recording: Recording, lexicon: Lexicon) -> Register:
    """The register, from the text alone, except that files of timed notes need less to count as notes."""
    words = list(islice(recording.words(), SAMPLE))
    if not words:
        return "scripted"
    keys = keys_of(words)
    cues = max(1, len(recording.cues) * len(words) // max(1, sum(len(cue.words) for cue in recording.cues)))
    articles = sum(1 for key in keys if key in ("the", "a", "an")) / len(keys)
    short = len(keys) / cues <= NOTE_WORDS
    if short and articles < NOTE_ARTICLES * (1.5 if recording.format == "notes" else 0.75):
        return "notes"
    marked = sum(1 for word in words if word.text[-1:] in ".,?!;:") / len(words)
    capitals = sum(1 for word in words if word.text[:1].isupper()) / len(words)
    if marked < BARE and capitals < 2 * BARE:
        return "captions"
    terms = lookup(lexicon)
    talk = terms.words("filler") | terms.words("talk")
    personal = sum(1 for key in keys if key in talk) / len(keys)
    return "spoken" if personal >= PERSONAL else "scripted"
