"""Recordings from a few words, annotated by the language stage."""

from __future__ import annotations

from functools import cache

from spacy.tokens import Doc

from miner.language.annotations import Annotations, Clause, annotations_of
from miner.language.pipeline import annotate
from miner.lexicon import Lexicon, load_lexicon
from miner.model.recording import Cue, Recording, Register
from miner.readers.word_times import spread

A_WORD = 0.4
"""Seconds that a word takes."""


@cache
def lexicon() -> Lexicon:
    return load_lexicon()


def recording(*texts: str, register: Register = "scripted", gap: float = 0.2) -> Recording:
    """One cue a text, `gap` seconds between cues; a note or a caption line is a cue of its own."""
    cues: list[Cue] = []
    at = 0.0
    for text in texts:
        words = text.split()
        end = at + A_WORD * len(words)
        cues.append(Cue(at, end, spread(words, at, end)))
        at = end + gap
    return Recording("talk", "talk.srt", "subrip", "0", tuple(cues), register=register)


def doc_of(*texts: str, register: Register = "scripted", gap: float = 0.2) -> Doc:
    return annotate(recording(*texts, register=register, gap=gap), lexicon())


def known_of(*texts: str, register: Register = "scripted", gap: float = 0.2) -> Annotations:
    return annotations_of(doc_of(*texts, register=register, gap=gap))


def sentences_of(known: Annotations) -> list[str]:
    return [known.words(s.start, s.end) for s in known.sentences]


def clauses_of(known: Annotations) -> list[str]:
    return [known.words(c.start, c.end) for c in known.clauses]


def acting(known: Annotations) -> list[Clause]:
    """The clauses that have a trade verb."""
    return [clause for clause in known.clauses if clause.deed]


def surface(known: Annotations, start: int, end: int) -> str:
    """The text of a range of tokens as written."""
    last = end - 1
    return known.cased[known.places[start] : known.places[last] + len(known.forms[last])]
