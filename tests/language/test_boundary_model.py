"""The trained model of sentence beginnings: its file, what it makes of made-up weights, and a text of some length."""

import numpy as np
import pytest
from spoken import known_of

from miner.language.boundary_features import FEATURES, TEMPLATES, features, since_verb
from miner.language.boundary_model import LENGTHS, SHORTEST, BoundaryModel, boundary_model, learned_cuts, length_class
from miner.language.discourse import discourse
from miner.language.talk import Cuts
from miner.language.unpunctuated import unpunctuated_cuts
from miner.lexicon import load_lexicon
from miner.resources import boundary_weights

WORDS = discourse(load_lexicon())
TALK = (
    "okay so the next job is the siren / for this you need the bell frame off / undo the two bolts on the left / "
    "now there's a spring behind it so hold on to that / lift the siren out and unplug the lead / "
    "putting it back is the reverse / next up is the winch / before you start make sure the drum is empty / "
    "so there's four screws holding the drum to the deck plate / take those out and lift the drum off / "
    "that's the winch done / right the last one is the anchor light / unscrew the cap / pull the bulb out / "
    "the new bulb goes in the same way / and that's it from me"
)


def _model(*, bias=(0, 0), weights=None, lengths=None):
    return BoundaryModel(
        {"the": 1},
        np.array(bias, np.int32),
        np.zeros((2, LENGTHS), np.int32) if lengths is None else lengths,
        np.zeros((2, FEATURES), np.int32) if weights is None else weights,
    )


def _talk(gap=0.1):
    known = known_of(TALK.replace(" / ", " "), register="captions", gap=gap)
    return known, unpunctuated_cuts(known, WORDS)


def test_the_shipped_weights_fit_the_features():
    model = boundary_model()
    assert model.weights.shape == (2, FEATURES)
    assert model.lengths.shape == (2, LENGTHS)
    assert list(model.vocabulary.values()) == list(range(1, len(model.vocabulary) + 1))
    assert len(boundary_weights().read_bytes()) < 1_000_000


def test_most_sentences_are_found_and_few_others():
    known, rules = _talk()
    starts, at = set(), 0
    for piece in TALK.split(" / ")[:-1]:
        at += len(piece.split())
        starts.add(at)
    found = set(learned_cuts(known, WORDS, rules).sentences)
    assert len(found & starts) >= 0.8 * len(starts), [known.lower[i] for i in sorted(starts - found)]
    assert len(found - starts) <= 5, [known.lower[i] for i in sorted(found - starts)]


def test_cuts_are_in_order_inside_the_text_and_of_one_kind():
    known, rules = _talk()
    cuts = learned_cuts(known, WORDS, rules)
    for places in (cuts.sentences, cuts.clauses, cuts.verbs):
        assert places == sorted(set(places))
        assert all(0 <= place < len(known.tags) for place in places)
    assert not set(cuts.sentences) & set(cuts.clauses)
    assert learned_cuts(known, WORDS, rules) == cuts


def test_a_short_text_is_left_to_the_rules():
    known = known_of("undo the nuts lift the gong off", register="captions")
    rules = Cuts([3], [], [3])
    assert len(known.tags) < SHORTEST
    assert learned_cuts(known, WORDS, rules, _model(bias=(9, 9))) is rules


def test_weights_decide():
    known, rules = _talk()
    assert learned_cuts(known, WORDS, rules, _model(bias=(-1, -1))).sentences == []
    everywhere = learned_cuts(known, WORDS, rules, _model(bias=(1, 2)))
    assert everywhere.sentences == list(range(1, len(known.tags) - 1))
    assert learned_cuts(known, WORDS, rules, _model(bias=(2, 1))).clauses == everywhere.sentences


def test_a_model_that_trusts_the_rules_repeats_them():
    known, rules = _talk()
    column = list(features(known, WORDS, rules, {}))[TEMPLATES.index(("r",))]
    weights = np.zeros((2, FEATURES), np.int32)
    weights[0, column[rules.clauses]] = 2
    weights[1, column[rules.sentences]] = 2
    cuts = learned_cuts(known, WORDS, rules, _model(bias=(-1, -1), weights=weights))
    assert (cuts.sentences, cuts.clauses) == (
        sorted(set(rules.sentences)),
        sorted({*rules.clauses} - {*rules.sentences}),
    )


def test_the_length_since_the_last_sentence_counts():
    known, rules = _talk()
    lengths = np.full((2, LENGTHS), -1, np.int32)
    lengths[1, [length_class(5, 0), length_class(5, 60)]] = 1
    cuts = learned_cuts(known, WORDS, rules, _model(lengths=lengths))
    assert cuts.sentences == list(range(5, len(known.tags) - 1, 5))


@pytest.mark.parametrize(
    ("length", "since", "wanted"),
    [(0, 9, 0), (3, 9, 3), (7, 9, 6), (8, 9, 7), (500, 501, 11), (3, 2, 15), (500, 1, 23)],
)
def test_classes_of_length(length, since, wanted):
    assert length_class(length, since) == wanted


def test_tokens_since_the_last_verb():
    assert since_verb("DnVDnr").tolist()[3:] == [1, 2, 3]
    assert since_verb("DnV").min() > 60


def _column(known, template):
    return list(features(known, WORDS, Cuts(), {}))[TEMPLATES.index((template,))]


def test_a_word_that_lasts_too_long_counts_as_one_with_a_silence_after_it():
    said = ["undo the two nuts", "lift the gong off", "put it on the bench"] * 4
    apart, stretched = (known_of(*said, register="captions", gap=1.0) for _ in range(2))
    stretched.ends = [*stretched.starts[1:], stretched.ends[-1]]
    assert _column(apart, "p").tolist() == _column(stretched, "p").tolist()
    assert len(set(_column(apart, "p").tolist())) > 1


def test_times_without_silences_tell_of_none():
    assert len(set(_column(known_of(*["undo the nuts", "lift the gong off"] * 4, gap=0.0), "p").tolist())) == 1
