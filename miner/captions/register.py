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

JOTTED = 1.4
"""Words a second below which timed lines without full stops were jotted, not said; people say two and more."""

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
    if recording.format == "notes" and _is_jotted(recording):
        return "notes"
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


def _is_jotted(recording: Recording) -> bool:
    """Whether lines come slower than anybody speaks, and few end with a full stop."""
    lines = [cue.words for cue in islice(recording.cues, SAMPLE) if cue.words]
    seconds = lines[-1][0].start - lines[0][0].start
    words = sum(map(len, lines[:-1]))
    ended = sum(1 for line in lines if line[-1].text[-1:] in ".?!")
    return 0 < words < JOTTED * seconds and 2 * ended < len(lines)
