"""What tells of the beginning of a sentence in words without punctuation, as numbers for `boundary_model`.

Words and tags around a place, how far verbs are from it, the silence before it, and what the rules say of it, alone
and together. Each combination is hashed to a number, so that a whole text takes a few array operations.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

import numpy as np
import numpy.typing as npt

from miner.language.annotations import Annotations
from miner.language.discourse import Discourse
from miner.language.talk import Cuts

Codes = npt.NDArray[np.uint32]
Marked = npt.NDArray[np.bool_]

FEATURES = 1 << 16
"""Numbers that features are hashed to."""

TEMPLATES = tuple(
    tuple(line.split())
    for line in """
    w-3/w-2/w-1/w0/w+1/w+2/w-1 w0/w0 w+1/w-2 w-1/w+1 w+2/w-1 w+1/w-2 w-1 w0/w-1 w0 w+1/w0 w+1 w+2
    t-1 w0/w-1 t0/t-1 w0 t+1/t-2 t-1 w0/w0 t+1 t+2/w0 w+1 t+2/w-1 t0 t+1
    t-3/t-2/t-1/t+1/t+2/t+3/t-1 t0/t-2 t-1 t0/t-1 t0 t+1/t0 t+1 t+2/t-3 t-2 t-1/t-3 t-2 t-1 t0/t-2 t-1 t0 t+1
    t-1 t0 t+1 t+2/t0 t+1 t+2 t+3/t-2 t-1 t0 t+1 t+2
    p/p t0/p t-1/p w0/p r/r/r w0/r t-1 t0/r-1 r r+1/r w-1
    b/f/b f/b t0/f t0/b t-1 t0/f t-1 t0/b p
    """.strip().replace("\n", "/").split("/")
)  # fmt: skip
"""What is looked at together, by letter and distance: w word, t tag, p silence before it, r what the rules say of it,
b tokens back to a verb, f tokens forward to one."""

_EDGE = 4
"""Places added at both ends, so that templates may look over them."""

_RARE = 10_000
"""Words that the model does not know count as their tag, from this number on."""

_MIX = tuple(np.uint32(factor) for factor in (0x9E3779B1, 0x85EBCA6B, 0xC2B2AE35, 0x27D4EB2F, 0x165667B1))
_STIR = np.uint32(0x2545F491)
_VERBAL = np.frombuffer(b"VXSE", np.uint8)
_NEAR = 7
_FAR = 64
"""Tokens at which a verb counts as far away: as a feature, and when asked whether a sentence has one yet."""

_SILENCES = (0.2, 0.35, 0.5, 0.8, 1.3)
"""Seconds between the classes of silence."""

_NO_SILENCE = 9
_HEARD = 0.06
"""Share of silences of more than a third of a second below which the times of a recording tell of none."""


def features(known: Annotations, words: Discourse, rules: Cuts, vocabulary: Mapping[str, int]) -> Iterator[Codes]:
    """For each template the numbers of the features at all tokens."""
    codes = _codes(known, words, rules, vocabulary)
    size = len(known.tags)
    for number, template in enumerate(TEMPLATES, 1):
        mixed = np.full(size, number * 0x61C88647 & 0xFFFFFFFF, np.uint32)
        for place, factor in zip(template, _MIX, strict=False):
            offset = _EDGE + int(place[1:] or 0)
            mixed ^= codes[place[0]][offset : offset + size] * factor
            mixed *= _STIR
        mixed ^= mixed >> np.uint32(15)
        yield mixed & np.uint32(FEATURES - 1)


def since_verb(tags: str) -> Codes:
    """For each token how many tokens back the last verb stands."""
    return _since(_verbs(tags), _FAR)


def _codes(known: Annotations, words: Discourse, rules: Cuts, vocabulary: Mapping[str, int]) -> dict[str, Codes]:
    """What stands at each token as a number, by the letter of the templates, with edges on both sides."""
    size = len(known.tags)
    tags = _bytes(known.tags).astype(np.uint32)
    number_of, verbs = vocabulary.get, words.verbs
    named = np.fromiter((number_of(word, 0) for word in known.lower), np.uint32, size)
    acts = np.fromiter((word in verbs for word in known.lower), np.uint32, size)
    said = np.zeros(size, np.uint32)
    said[np.array(rules.clauses, np.intp)] = 1
    said[np.array(rules.sentences, np.intp)] = 2
    verbal = _verbs(known.tags)
    found = {
        "w": np.where(named > 0, named, _RARE + 2 * tags + acts).astype(np.uint32),
        "t": tags,
        "p": _silences(known),
        "r": said,
        "b": _since(verbal, _NEAR),
        "f": _since(verbal[::-1], _NEAR)[::-1],
    }
    return {letter: np.pad(codes, _EDGE) for letter, codes in found.items()}


def _silences(known: Annotations) -> Codes:
    """The class of silence before each token, or `_NO_SILENCE` throughout where the times tell of none.

    Automatic captions leave no gap between words; there the word before a silence lasts longer than its letters
    need at the pace of the words around it.
    """
    starts, ends = np.asarray(known.starts), np.asarray(known.ends)
    letters = np.fromiter(map(len, known.lower), np.float64, len(starts))[:-1] + 2
    steps = np.diff(starts)
    rates = np.pad(steps / letters, 1, "edge")
    usual = np.median(rates[rates > 0]) if (rates > 0).any() else 0.0
    pace = np.maximum(np.maximum(rates[:-2], rates[2:]), usual)
    silent = np.concatenate(([0.0], np.maximum(starts[1:] - ends[:-1], steps - pace * letters)))
    if np.count_nonzero(silent >= _SILENCES[1]) < _HEARD * len(silent):
        return np.full(len(silent), _NO_SILENCE, np.uint32)
    return np.digitize(silent, _SILENCES).astype(np.uint32)


def _bytes(tags: str) -> npt.NDArray[np.uint8]:
    return np.frombuffer(tags.encode("ascii"), np.uint8)


def _verbs(tags: str) -> Marked:
    return np.isin(_bytes(tags), _VERBAL)


def _since(marked: Marked, most: int) -> Codes:
    """For each token how many tokens back the last marked one before it stands, at most so many."""
    at = np.arange(len(marked))
    last = np.maximum.accumulate(np.where(marked, at, -most))
    return np.minimum(at - np.concatenate(([-most], last[:-1])), most).astype(np.uint32)
