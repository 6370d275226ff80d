"""Forms of nouns and verbs."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from miner.lexicon import load_lexicon
from miner.lexicon.entries import Action
from miner.lexicon.inflection import noun_forms, phrase_forms, plural, singular, verb_forms

LEXICON = load_lexicon()


@pytest.mark.parametrize(
    ("one", "many"),
    [
        ("screw", "screws"),
        ("switch", "switches"),
        ("fuse", "fuses"),
        ("hose", "hoses"),
        ("lens", "lenses"),
        ("bush", "bushes"),
        ("battery", "batteries"),
        ("tray", "trays"),
        ("valve", "valves"),
        ("knife", "knives"),
        ("rubber foot", "rubber feet"),
        ("cable tie", "cable ties"),
        ("chassis", "chassis"),
        ("pliers", "pliers"),
        ("glass", "glasses"),
        ("axis", "axes"),
        ("apparatus", "apparatus"),
        ("box", "boxes"),
        ("psu", "psus"),
        ("bus", "buses"),
        ("gas", "gases"),
        ("antenna", "antennas"),
        ("servo", "servos"),
    ],
)
def test_number_of_nouns(one, many):
    assert plural(one) == many
    assert singular(many) == one
    assert singular(one) == one


@pytest.mark.parametrize(
    ("verb", "third", "past", "progressive"),
    [
        ("unclip", "unclips", "unclipped", "unclipping"),
        ("refit", "refits", "refitted", "refitting"),
        ("fit", "fits", "fitted", "fitting"),
        ("loosen", "loosens", "loosened", "loosening"),
        ("open", "opens", "opened", "opening"),
        ("reopen", "reopens", "reopened", "reopening"),
        ("remove", "removes", "removed", "removing"),
        ("press", "presses", "pressed", "pressing"),
        ("pry", "pries", "pried", "prying"),
        ("unscrew", "unscrews", "unscrewed", "unscrewing"),
        ("tie", "ties", "tied", "tying"),
        ("free", "frees", "freed", "freeing"),
        ("squeeze", "squeezes", "squeezed", "squeezing"),
        ("unhook", "unhooks", "unhooked", "unhooking"),
        ("lift", "lifts", "lifted", "lifting"),
        ("plug in", "plugs in", "plugged in", "plugging in"),
        ("hand tighten", "hand tightens", "hand tightened", "hand tightening"),
        ("level", "levels", "levelled", "levelling"),
        ("fix", "fixes", "fixed", "fixing"),
    ],
)
def test_forms_of_regular_verbs(verb, third, past, progressive):
    forms = verb_forms(Action(verb, "handle"))
    assert [forms[verb], forms[third], forms[past], forms[progressive]] == ["base", "third", "past", "progressive"]


def test_both_spellings_of_level_are_known():
    assert {"leveled", "levelled", "leveling", "levelling"} <= set(verb_forms(Action("level", "adjust")))


def test_irregular_forms_replace_only_their_kind():
    forms = verb_forms(Action("undo", "undo", forms=("undoes", "undid", "undone")))
    assert forms == {
        "undo": "base", "undoes": "third", "undid": "past", "undone": "past", "undoing": "progressive",
    }  # fmt: skip
    assert verb_forms(Action("cut", "detach", forms=("cut", "cutting"))) == {
        "cut": "base", "cuts": "third", "cutting": "progressive",
    }  # fmt: skip


def test_phrases_inflect_their_verb():
    assert phrase_forms("take out", ("took", "taken"))["took out"] == "past"


@given(st.sampled_from(LEXICON.heads))
def test_every_part_comes_back_from_its_plural(head):
    one, *many = noun_forms(head.term, head.plural)
    assert singular(one) == one
    assert not many or head.plural or singular(many[0]) == one


@given(st.sampled_from(LEXICON.actions))
def test_every_verb_has_its_four_kinds_of_form(action):
    forms = verb_forms(action)
    assert next(iter(forms.items())) == (action.verb, "base")
    assert {"third", "progressive"} <= set(forms.values())
    assert "past" in forms.values() or action.verb.split()[0] in action.forms


@given(st.from_regex(r"[a-z]{2,9}", fullmatch=True))
def test_plural_never_equals_singular_for_made_up_words_without_s(word):
    assert plural(word) == plural(word)
    if not word.endswith(("s", "x", "z", "ch", "sh")) and plural(word) == word + "s" and word[-1] not in "aeiou":
        assert singular(word + "s") == word or word.endswith(("i", "u"))
