"""Recording -> Doc: tokens with the time of the word they were cut from."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field

from spacy.language import Language
from spacy.tokens import Doc

from miner.language.annotations import KEY, Annotations
from miner.model.recording import Recording

PAUSE = 0.35
"""Seconds of silence between two words that may end an utterance."""

_TOKEN = re.compile(
    r"""
      [wW]/o?                                                           # "with", "without" in shorthand
    | [aA]/[fF]\b                                                       # "across flats"
    | \d+(?:[.,]\d+)?                                                   # a number
    | [^\W\d_][^\W_]*(?:-[^\W_]+|['’](?![sS]\b)[^\W_]+)*                # a word, with hyphens and apostrophes
    | ['’][sS]\b                                                        # the "'s" of a possessive
    | [^\w\s]+?                                                         # signs, one by one
    | _
    """,
    re.VERBOSE,
)
_WHOLE = frozenset("it's that's there's here's let's what's who's he's she's this's where's how's".split())
"""Contractions that stay one token."""

_PLAIN = re.compile(r"[^\W\d_]+\Z")


def _pieces(text: str) -> list[str]:
    """A written word cut into tokens: punctuation off, "tray's" in two, "it's" in one."""
    plain = text.lower().replace("’", "'").strip('.,;:!?"()')
    if plain in _WHOLE:
        at = text.lower().replace("’", "'").index(plain)
        pieces = [text[:at], text[at : at + len(plain)], text[at + len(plain) :]]
        return [piece for piece in pieces if piece]
    return _TOKEN.findall(text)


@dataclass(slots=True)
class _Tokens:
    """The tokens of a recording, in parallel lists; `breaks` and `pauses` are positions of tokens."""

    forms: list[str] = field(default_factory=list)
    spaces: list[bool] = field(default_factory=list)
    starts: list[float] = field(default_factory=list)
    ends: list[float] = field(default_factory=list)
    breaks: list[int] = field(default_factory=list)
    pauses: list[int] = field(default_factory=list)


def to_doc(recording: Recording, nlp: Language, abbreviations: Mapping[str, str] | None = None) -> Doc:
    """A Doc of all words, punctuation cut off, with times, cue breaks (notes only) and pauses in its annotations.

    Shorthand of notes is read as the word it stands for where that is one word; the text shown stays as written.
    """
    notes = recording.register == "notes"
    tokens = _tokens(recording, (abbreviations or {}) if notes else {})
    doc = Doc(nlp.vocab, words=tokens.forms, spaces=tokens.spaces)
    lower = [form.lower().replace("’", "'") for form in tokens.forms]
    if notes and abbreviations:
        lower = [_written_out(lower, at, abbreviations) for at in range(len(lower))]
    doc.user_data[KEY] = Annotations(
        lower,
        "".join(word + " " if space else word for word, space in zip(lower, tokens.spaces, strict=True)),
        _offsets(lower, tokens.spaces),
        tokens.starts,
        tokens.ends,
        breaks=frozenset(tokens.breaks) if notes else frozenset(),
        pauses=frozenset(tokens.pauses),
        register=recording.register or "scripted",
        forms=tokens.forms,
        cased=doc.text,
        places=_offsets(tokens.forms, tokens.spaces),
    )
    return doc


def _written_out(lower: list[str], at: int, abbreviations: Mapping[str, str]) -> str:
    """The word that shorthand stands for; "no" is a number only before one."""
    word = lower[at]
    if word == "no" and not "".join(lower[at + 1 : at + 2])[:1].isdigit():
        return word
    return abbreviations.get(word, word)


def _tokens(recording: Recording, abbreviations: Mapping[str, str]) -> _Tokens:
    """The tokens; a full stop after shorthand ("disconn.") is left out, it ends nothing."""
    tokens, last = _Tokens(), 0.0
    forms, spaces, starts, ends = tokens.forms, tokens.spaces, tokens.starts, tokens.ends
    for cue in recording.cues:
        tokens.breaks.append(len(forms))
        for word in cue.words:
            if word.start - last >= PAUSE:
                tokens.pauses.append(len(forms))
            last = word.end
            text = word.text
            pieces = [text] if _PLAIN.match(text) else _pieces(text)
            if pieces[-1] == "." and len(pieces) == 2 and pieces[0].lower() in abbreviations:
                pieces.pop()
            for piece in pieces:
                forms.append(piece)
                spaces.append(False)
                starts.append(word.start)
                ends.append(word.end)
            if spaces:
                spaces[-1] = True
    return tokens


def _offsets(tokens: list[str], spaces: list[bool]) -> list[int]:
    """Where each token begins in the text."""
    offsets, at = [], 0
    for token, space in zip(tokens, spaces, strict=True):
        offsets.append(at)
        at += len(token) + space
    return offsets
