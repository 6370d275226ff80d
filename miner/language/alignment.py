"""Recording -> Doc: tokens with the time of the word they were cut from."""

from __future__ import annotations

import re

from spacy.language import Language
from spacy.tokens import Doc

from miner.language.annotations import KEY, Annotations
from miner.model.recording import Recording

PAUSE = 0.7
"""Seconds of silence between two words that may end an utterance."""

_TOKEN = re.compile(r"\d+(?:[.,]\d+)?|[^\W\d_][^\W_]*(?:['’\-][^\W_]+)*|[^\w\s]+?|_")
_PLAIN = re.compile(r"[^\W\d_]+\Z")


def to_doc(recording: Recording, nlp: Language) -> Doc:
    """A Doc of all words, punctuation cut off, with times, cue breaks (notes only) and pauses in its annotations."""
    tokens: list[str] = []
    spaces: list[bool] = []
    starts: list[float] = []
    ends: list[float] = []
    breaks: list[int] = []
    pauses: list[int] = []
    notes, last = recording.register == "notes", 0.0
    for cue in recording.cues:
        breaks.append(len(tokens))
        for word in cue.words:
            if word.start - last >= PAUSE:
                pauses.append(len(tokens))
            last = word.end
            text = word.text
            parts = [text] if _PLAIN.match(text) else _TOKEN.findall(text)
            for part in parts:
                tokens.append(part)
                spaces.append(False)
                starts.append(word.start)
                ends.append(word.end)
            if parts:
                spaces[-1] = True
    doc = Doc(nlp.vocab, words=tokens, spaces=spaces)
    lower = [token.lower().replace("’", "'") for token in tokens]
    lower = [low if len(low) == len(token) else token for low, token in zip(lower, tokens, strict=True)]
    text = "".join(low + " " if space else low for low, space in zip(lower, spaces, strict=True))
    offsets, at = [], 0
    for token, space in zip(tokens, spaces, strict=True):
        offsets.append(at)
        at += len(token) + space
    doc.user_data[KEY] = Annotations(
        lower, text, offsets, starts, ends,
        breaks=frozenset(breaks) if notes else frozenset(), pauses=frozenset(pauses),
        register=recording.register or "scripted", forms=tokens, cased=doc.text,
    )  # fmt: skip
    return doc
