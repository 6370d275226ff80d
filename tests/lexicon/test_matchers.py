"""spaCy matchers built from the lexicon."""

import spacy

from miner.lexicon import load_lexicon
from miner.lexicon.matchers import hazard_matcher, mishearing_matcher, term_matcher, verb_matcher

NLP = spacy.blank("en")
LEXICON = load_lexicon()


def _found(matcher, text):
    doc = NLP(text)
    return {(NLP.vocab.strings[label], doc[start:end].text) for label, start, end in matcher(doc)}


def test_terms_are_matched_across_hyphens_apostrophes_and_numbers():
    found = _found(
        term_matcher(NLP, LEXICON), "Fit two c'sunk T8 screws, the O-rings and the Control Boards with pliers"
    )
    assert {("screw_head", "c'sunk"), ("fastener", "screws"), ("head", "O-rings"), ("head", "Control Boards"),
            ("tool", "pliers")} <= found  # fmt: skip


def test_verbs_and_idioms_are_labelled_by_the_verb():
    found = _found(verb_matcher(NLP, LEXICON), "it unclipped and we took out the fan")
    assert {("unclip", "unclipped"), ("remove", "took out")} <= found


def test_hazards_and_harmless_look_alikes_are_told_apart():
    found = _found(hazard_matcher(NLP, LEXICON), "the torsion spring and a spring washer")
    assert {("spring", "torsion spring"), ("exempt:spring", "spring washer")} <= found


def test_mishearings_are_labelled_by_what_was_meant():
    assert ("gasket", "gas kit") in _found(mishearing_matcher(NLP, LEXICON), "lift the gas kit off")
