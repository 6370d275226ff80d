"""The language stage as a spaCy pipeline: blank English plus the components of this package, in order."""

from __future__ import annotations

from functools import lru_cache

import spacy
from spacy.language import Language
from spacy.tokens import Doc

from miner.language.alignment import to_doc
from miner.language.factories import COMPONENTS, Component, register
from miner.lexicon import Lexicon
from miner.model.recording import Recording


@lru_cache(maxsize=4)
def language(lexicon: Lexicon) -> Language:
    """A spaCy pipeline with all components of the miner, reading one lexicon."""
    register()
    nlp = spacy.blank("en")
    nlp.max_length = 50_000_000
    for name in COMPONENTS:
        nlp.add_pipe(name)
    for _, component in nlp.pipeline:
        if isinstance(component, Component):
            component.lexicon, component.spans = lexicon, False
    return nlp


@lru_cache(maxsize=8)
def _shorthand(lexicon: Lexicon) -> dict[str, str]:
    """Abbreviations that stand for one word."""
    return {entry.short.lower().rstrip("."): entry.long for entry in lexicon.abbreviations if " " not in entry.long}


def annotate(recording: Recording, lexicon: Lexicon) -> Doc:
    """The recording as an annotated Doc."""
    nlp = language(lexicon)
    doc = to_doc(recording, nlp, _shorthand(lexicon))
    for _, component in nlp.pipeline:
        doc = component(doc)
    return doc
