"""Where sentences and clauses begin in words without punctuation, weighed by a small trained model.

The rules of `unpunctuated` are one voice in it, `boundary_features` tells the others, and how far back the sentence
began is the last. The model is linear and its weights are whole numbers, so that every machine finds the same cuts;
only places that may be cuts are read one by one, from left to right. `tests/bench/train_boundaries.py` makes the
weights (`lexicon/boundaries.json`) and tells from what.
"""

from __future__ import annotations

import base64
import json
import zlib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from miner.language.annotations import Annotations
from miner.language.boundary_features import FEATURES, features, since_verb
from miner.language.discourse import Discourse, after_openers
from miner.language.talk import Cuts, Talk
from miner.resources import boundary_weights

Sums = npt.NDArray[np.int32]

LENGTHS = 24
"""Classes of how far back the sentence began: twelve without a verb since then and twelve with one."""

SHORTEST = 60
"""Tokens of a text below which the rules alone tell: the model has learned from whole recordings, with their pace."""


@dataclass(frozen=True, slots=True)
class BoundaryModel:
    """Weights for "a clause begins here" (first row) and "a sentence does" (second), against "nothing does".

    `vocabulary` numbers the words that are features; `lengths` has a column for each class of `LENGTHS`.
    """

    vocabulary: Mapping[str, int]
    bias: Sums
    lengths: Sums
    weights: Sums


@lru_cache(maxsize=1)
def boundary_model() -> BoundaryModel:
    """The shipped model."""
    data = json.loads(boundary_weights().read_text(encoding="utf-8"))
    packed = zlib.decompress(base64.b64decode("".join(data["weights"])))
    return BoundaryModel(
        {word: number for number, word in enumerate(data["words"], 1)},
        np.array(data["bias"], np.int32),
        np.array(data["lengths"], np.int32),
        np.frombuffer(packed, np.int8).astype(np.int32).reshape(2, FEATURES),
    )


def learned_cuts(known: Annotations, words: Discourse, rules: Cuts, model: BoundaryModel | None = None) -> Cuts:
    """The cuts of a text as a model finds them, knowing those that the rules found; tags must have been set.

    Args:
        known: the text.
        words: the word classes of the lexicon.
        rules: what `unpunctuated_cuts` found.
        model: the shipped one if none is given.
    """
    if len(known.tags) < SHORTEST:
        return rules
    model = model or boundary_model()
    clause, sentence = _weighed(known, words, rules, model)
    since = since_verb(known.tags)
    likely = np.maximum(clause + model.lengths[0].max(), sentence + model.lengths[1].max()) > 0
    clause_by_length, sentence_by_length = model.lengths.tolist()
    cuts, talk, begin = Cuts(), Talk(known.tags, known.lower, words), 0
    _note_verb(talk, 0, cuts)
    for i in np.flatnonzero(likely[1:-1]).tolist():
        at = i + 1
        length = length_class(at - begin, int(since[at]))
        for_sentence = int(sentence[at]) + sentence_by_length[length]
        for_clause = int(clause[at]) + clause_by_length[length]
        if for_sentence > 0 and for_sentence >= for_clause:
            cuts.sentences.append(at)
            begin = at
        elif for_clause > 0:
            cuts.clauses.append(at)
        else:
            continue
        _note_verb(talk, at, cuts)
    return cuts


def length_class(length: int, since: int) -> int:
    """The class of a place so many tokens after the sentence began and so many after the last verb."""
    steps = min(length, 6) if length < 8 else min(7 + (length - 8) // 5, LENGTHS // 2 - 1)
    return steps + (LENGTHS // 2 if since <= length else 0)


def _note_verb(talk: Talk, at: int, cuts: Cuts) -> None:
    """Notes the verb of an instruction that a sentence or clause opens with."""
    core = after_openers(talk.tags, at)
    if core < len(talk.tags) - 3 and talk.instructs(core):
        cuts.verbs.append(core)


def _weighed(known: Annotations, words: Discourse, rules: Cuts, model: BoundaryModel) -> tuple[Sums, Sums]:
    """For each token what speaks for a clause and for a sentence, all but the length."""
    clause, sentence = (np.full(len(known.tags), bias, np.int32) for bias in model.bias)
    for found in features(known, words, rules, model.vocabulary):
        clause += model.weights[0].take(found)
        sentence += model.weights[1].take(found)
    return clause, sentence
