"""Words by what they do in talk, from the lexicon, as the components that cut sentences and clauses look for them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from miner.lexicon import Lexicon
from miner.lexicon.lookup import Lookup, lookup

_OPENERS = re.compile(r"[TCRfx,\-]*")


_MOVING = ("detach", "move", "undo")
"""Effects of verbs that a particle may follow though they name parts as well: "lift off the lid"."""


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
    held: frozenset[str]
    questions: frozenset[str]
    worked: frozenset[str]
    conditional: frozenset[str]
    holding: frozenset[str]
    numbered: frozenset[str]
    signals: frozenset[str]
    fits: frozenset[str]
    job_nouns: frozenset[str]
    after_back: frozenset[str]
    verbs: frozenset[str]
    certain: frozenset[str]
    part_verbs: frozenset[str]
    compounds: frozenset[str]
    phrasal: frozenset[tuple[str, str]]
    instructing: frozenset[str]
    bare_object: frozenset[str]
    assured: frozenset[str]
    verifying: frozenset[str]
    closing: frozenset[str]
    refitting: frozenset[str]
    leading: frozenset[str]
    before_work: frozenset[str]
    demands: frozenset[str]
    guarding: frozenset[str]
    chances: frozenset[str]
    places: frozenset[str]
    moving: frozenset[str]
    reversal: frozenset[str]
    openers: frozenset[str]


@lru_cache(maxsize=8)
def discourse(lexicon: Lexicon) -> Discourse:
    """The words of a lexicon, collected at the first call for it."""
    index = lookup(lexicon)
    words = index.words
    verbs, certain, part_verbs = _base_forms(index)
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
        held=words("holding_participle"),
        questions=words("question_word"),
        worked=words("worked_participle"),
        conditional=words("conditional"),
        holding=words("holding_verb"),
        numbered=frozenset(index.phrases("numbered")),
        signals=words("signal_word"),
        fits=words("fitting_verb"),
        job_nouns=words("job_noun"),
        after_back=words("after_back"),
        verbs=verbs | words("instruction_verb"),
        certain=certain | words("instruction_verb"),
        part_verbs=part_verbs,
        compounds=frozenset(term for term in index.heads if " " in term),
        phrasal=_phrasal(index),
        instructing=words("instruction_verb"),
        bare_object=words("bare_object_verb"),
        assured=words("assured"),
        verifying=words("verifying_verb"),
        closing=words("closing_verb"),
        refitting=words("refitting_noun"),
        leading=words("leading_conjunction"),
        before_work=words("before_work"),
        demands=words("demand_verb"),
        guarding=words("guarding_verb"),
        chances=words("chance_verb"),
        places=words("place"),
        moving=frozenset(w for w in part_verbs if (f := index.verb_forms.get(w)) and f.action.effect in _MOVING),
        reversal=words("reversal"),
        openers=verbs.union(
            words("instruction_verb"),
            words("signal_word"),
            words("refitting_noun"),
            words("set_opener"),
            index.phrases("numbered"),
        ),
    )


def _base_forms(index: Lookup) -> tuple[frozenset[str], frozenset[str], frozenset[str]]:
    """Base forms of verbs, first words of "switch off" among them; those that are no noun; those that name parts."""
    base = {word: form.action for word, form in index.verb_forms.items() if form.form == "base"}
    firsts = {word for word, idioms in index.idioms.items() if any(idiom.form == "base" for idiom in idioms)}
    verbs = frozenset(word.split()[0] for word in base) | firsts
    named = {term.rsplit(" ", 1)[-1] for names in (index.heads, index.fasteners, index.tools) for term in names}
    certain = frozenset(word for word, action in base.items() if " " not in word and not action.noun) - named
    return verbs, certain, verbs & named


def after_openers(tags: str, at: int) -> int:
    """The first token from `at` that is no marker, conjunction, adverb, filler or sign."""
    match = _OPENERS.match(tags, at)
    return match.end() if match else at


def _phrasal(index: Lookup) -> frozenset[tuple[str, str]]:
    """Verbs with their particle, in the base form: ("lift", "off")."""
    spelled = [phrase.split() for phrase, form in index.verb_forms.items() if form.form == "base"]
    idioms = [(i.first, *i.rest) for found in index.idioms.values() for i in found if i.form == "base"]
    return frozenset((phrase[0], phrase[1]) for phrase in [*spelled, *idioms] if len(phrase) == 2)
