"""Recording -> Doc: tokens with the time of the word they were cut from."""

from __future__ import annotations

import re
from collections.abc import Mapping

from spacy.language import Language
from spacy.tokens import Doc

from miner.language.annotations import KEY, Annotations
from miner.model.recording import Recording

PAUSE = 0.7
"""Seconds of silence between two words that may end an utterance."""

_TOKEN = re.compile(
    r"[wW]/o?|[aA]/[fF]\b|\d+(?:[.,]\d+)?|[^\W\d_][^\W_]*(?:-[^\W_]+|['’](?![sS]\b)[^\W_]+)*|['’][sS]\b|[^\w\s]+?|_"
)
_WHOLE = frozenset("it's that's there's here's let's what's who's he's she's this's where's how's".split())
_PLAIN = re.compile(r"[^\W\d_]+\Z")


def _pieces(text: str) -> list[str]:
    """A written word cut into tokens: punctuation off, "tray's" in two, "it's" in one."""
    plain = text.lower().replace("’", "'").strip('.,;:!?"()')
    if plain in _WHOLE:
        at = text.lower().replace("’", "'").index(plain)
        pieces = [text[:at], text[at : at + len(plain)], text[at + len(plain) :]]
        return [piece for piece in pieces if piece]
    return _TOKEN.findall(text)


def to_doc(recording: Recording, nlp: Language, abbreviations: Mapping[str, str] | None = None) -> Doc:
    """A Doc of all words, punctuation cut off, with times, cue breaks (notes only) and pauses in its annotations.

    Shorthand of notes is read as the word it stands for where that is one word; the text shown stays as written.
    """
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
            parts = [text] if _PLAIN.match(text) else _pieces(text)
            for part in parts:
                tokens.append(part)
                spaces.append(False)
                starts.append(word.start)
                ends.append(word.end)
            if parts:
                spaces[-1] = True
    doc = Doc(nlp.vocab, words=tokens, spaces=spaces)
    lower = [token.lower().replace("’", "'") for token in tokens]
    if notes and abbreviations:
        lower = [abbreviations.get(low, low) for low in lower]
    text = "".join(low + " " if space else low for low, space in zip(lower, spaces, strict=True))
    offsets, places = _offsets(lower, spaces), _offsets(tokens, spaces)
    doc.user_data[KEY] = Annotations(
        lower, text, offsets, starts, ends,
        breaks=frozenset(breaks) if notes else frozenset(), pauses=frozenset(pauses),
        register=recording.register or "scripted", forms=tokens, cased=doc.text, places=places,
    )  # fmt: skip
    return doc


def _offsets(tokens: list[str], spaces: list[bool]) -> list[int]:
    """Where each token begins in the text."""
    offsets, at = [], 0
    for token, space in zip(tokens, spaces, strict=True):
        offsets.append(at)
        at += len(token) + space
    return offsets
