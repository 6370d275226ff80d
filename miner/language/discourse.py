"""Words by what they do in talk, from the lexicon, as the components that cut sentences and clauses look for them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup

_OPENERS = re.compile(r"[TCRfx,\-]*")


@dataclass(frozen=True, slots=True)
class Discourse:
    """Word classes of one lexicon; what each is for stands beside its words in the lexicon."""

    starters: frozenset[str]
    soft_starters: frozenset[str]
    contractions: frozenset[str]
    items: frozenset[str]
    item_order: frozenset[str]
    reporting: frozenset[str]
    pronouns: frozenset[str]
    separation: frozenset[str]
    stative: frozenset[str]
    conditional: frozenset[str]
    holding: frozenset[str]
    numbered: frozenset[str]
    signals: frozenset[str]
    fits: frozenset[str]
    job_nouns: frozenset[str]
    after_back: frozenset[str]


@lru_cache(maxsize=8)
def discourse(lexicon: Lexicon) -> Discourse:
    """The words of a lexicon, collected at the first call for it."""
    words = lookup(lexicon).words
    return Discourse(
        starters=words("starter"),
        soft_starters=words("soft_starter"),
        contractions=words("contraction"),
        items=words("item"),
        item_order=words("item_order"),
        reporting=words("reporting"),
        pronouns=words("object_pronoun"),
        separation=words("separation"),
        stative=words("stative_verb"),
        conditional=words("conditional"),
        holding=words("holding_verb"),
        numbered=frozenset(lookup(lexicon).phrases("numbered")),
        signals=words("signal_word"),
        fits=words("fitting_verb"),
        job_nouns=words("job_noun"),
        after_back=words("after_back"),
    )


def after_openers(tags: str, at: int) -> int:
    """The first token from `at` that is no marker, conjunction, adverb, filler or sign."""
    match = _OPENERS.match(tags, at)
    return match.end() if match else at
