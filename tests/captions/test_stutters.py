"""Stutters go, doublings that are meant stay."""

import pytest
from recordings import recording, text_of

from miner.captions.stutters import remove_stutters


@pytest.mark.parametrize(
    ("said", "left"),
    [
        ("Lift the the cover off.", "Lift the cover off."),
        ("The the cover", "The cover"),
        ("take the the the cover off", "take the cover off"),
        ("slide it off of of the shaft", "slide it off of the shaft"),
        ("take the take the screws out", "take the screws out"),
        ("Then lift the wheel then lift the wheel and go", "Then lift the wheel and go"),
        ("and take and take the lid to the to the bench", "and take the lid to the bench"),
        ("the, the screw", "the screw"),
        ("and it it comes off", "and it comes off"),
        ("unplug unplug the lead", "unplug the lead"),
        ("i i think so", "i think so"),
        ("undo the two screws that hold the that hold the lid", "undo the two screws that hold the lid"),
    ],
)
def test_stutters_go(lexicon, said, left):
    found = remove_stutters(recording(said), lexicon)
    assert text_of(found) == left
    assert found.repairs
    for repair in found.repairs:
        assert repair.kind == "stutter"
        assert repair.before in said
        assert len(repair.after) < len(repair.before)


@pytest.mark.parametrize(
    "said",
    [
        "it had had no grease",
        "the one that that screw holds",
        "very very tight and really really old",
        "round and round and round it goes",
        "turn it round and round and down",
        "rock it side to side to side",
        "no no leave it",
        "yeah yeah",
        "bye bye",
        "one one two two",
        "count them one, two, two, three",
        "an M4 M4 screw",
        "It's off. It's off.",
        "Off, off it comes",
        "when you lift it it clicks",
        "turn it on on the side",
        "put it in, in small moves",
        "what it is is a clip",
        "two double a a batteries",
        "the clip on the left the left one",
        "no, no, no, stop",
        "the Bora Bora pump",
        "um um the lid",
    ],
)
def test_meant_doublings_stay(lexicon, said):
    before = recording(said)
    assert remove_stutters(before, lexicon) is before


def test_over_a_cue_but_not_over_a_pause_or_two_notes(lexicon):
    assert text_of(remove_stutters(recording("lift the", "the lid"), lexicon)) == "lift the lid"
    for before in (recording("lift the", "the lid", gap=3.0), recording("pull rotor", "rotor out", format="notes")):
        assert remove_stutters(before, lexicon) is before


def test_the_second_copy_keeps_its_times_and_untouched_cues_are_the_same(lexicon):
    before = recording("lift the the lid", "and go")
    found = remove_stutters(before, lexicon)
    assert found.cues[0].words[1].start == before.cues[0].words[2].start
    assert found.cues[1] is before.cues[1]
    assert (found.repairs[0].start, found.repairs[0].end) == (
        before.cues[0].words[1].start,
        before.cues[0].words[2].end,
    )


def test_each_doubled_place_is_one_repair(lexicon):
    found = remove_stutters(recording("the the lid and the the lid"), lexicon)
    assert [repair.before for repair in found.repairs] == ["the the", "the the"]
