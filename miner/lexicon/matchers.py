"""spaCy phrase matchers over the terms of a lexicon.

Patterns are made by the tokenizer of the pipeline that will use them ("o-ring" is three tokens there), compared
without case, and added in sorted order, so that a matcher is the same in every run.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING

from miner.lexicon.inflection import noun_forms
from miner.lexicon.loading import Lexicon
from miner.lexicon.lookup import lookup

if TYPE_CHECKING:
    from spacy.language import Language
    from spacy.matcher import PhraseMatcher


def phrase_matcher(nlp: Language, terms: Mapping[str, Iterable[str]]) -> PhraseMatcher:
    """A matcher whose labels are the keys of `terms`, each with its phrases."""
    from spacy.matcher import PhraseMatcher

    matcher = PhraseMatcher(nlp.vocab, attr="LOWER")
    for label in sorted(terms):
        phrases = sorted({phrase.lower() for phrase in terms[label]})
        matcher.add(label, [nlp.tokenizer(phrase) for phrase in phrases])
    return matcher


def term_matcher(nlp: Language, lexicon: Lexicon) -> PhraseMatcher:
    """Parts, fasteners, tools, supplies, drives, heads of screws, in either number; the label is the table."""
    found = lookup(lexicon)
    return phrase_matcher(
        nlp,
        {
            "head": found.heads,
            "fastener": found.fasteners,
            "tool": found.tools,
            "supply": found.supplies,
            "drive": found.drives,
            "screw_head": found.screw_heads,
        },
    )


def verb_matcher(nlp: Language, lexicon: Lexicon) -> PhraseMatcher:
    """All forms of the actions' verbs, labelled by the verb, and idioms spoken in one piece ("took out")."""
    found = lookup(lexicon)
    terms: dict[str, list[str]] = {action.verb: [] for action in lexicon.actions}
    for form, verb in found.verb_forms.items():
        terms[verb.action.verb].append(form)
    for idioms in found.idioms.values():
        for idiom in idioms:
            terms[idiom.action.verb].append(" ".join((idiom.first, *idiom.rest)))
    return phrase_matcher(nlp, terms)


def hazard_matcher(nlp: Language, lexicon: Lexicon) -> PhraseMatcher:
    """The parts that carry a hazard, labelled by its id; `exempt:ID` are the harmless ones that look alike."""
    carrying = {hazard.id: hazard.terms for hazard in lexicon.hazards}
    harmless = {f"exempt:{hazard.id}": hazard.exempt for hazard in lexicon.hazards if hazard.exempt}
    labelled = {**carrying, **harmless}
    return phrase_matcher(nlp, {label: [f for t in terms for f in noun_forms(t)] for label, terms in labelled.items()})


def mishearing_matcher(nlp: Language, lexicon: Lexicon) -> PhraseMatcher:
    """The words of known recogniser errors, labelled by what was meant; the context is for the caller to weigh."""
    terms: dict[str, list[str]] = {}
    for entry in lexicon.mishearings:
        terms.setdefault(entry.meant, []).append(entry.heard)
    return phrase_matcher(nlp, terms)
