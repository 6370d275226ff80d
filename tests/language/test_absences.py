"""Statements that parts are out, and what only looks like one."""

import pytest
from spoken import known_of

from miner.language.absences import absences, leading

STATED = [
    ("The hood and the drum must be off.", "spoken", [("required", "hood", "drum")]),
    ("Seat and rear panel want to be off.", "spoken", [("required", "seat", "rear panel")]),
    ("You've had the hood out, the drum out and the lid off.", "spoken", [("required", "hood"), ("required", "drum"), ("required", "lid")]),
    ("The hood and the drum are to be removed in advance.", "scripted", [("required", "hood", "drum")]),
    ("The hood and the drum have been set aside.", "scripted", [("required", "hood", "drum")]),
    ("The hood must be absent.", "scripted", [("required", "hood")]),
    ("So seat and hood are off.", "spoken", [("state", "seat", "hood")]),
    ("Hood, drum, lid, all off already.", "spoken", [("bare", "hood", "drum", "lid")]),
    ("As a rule the hood is off.", "spoken", [("state", "hood")]),
    ("Which means the lid is off.", "spoken", [("required", "lid")]),
    ("With the hood off, and the drum, and the lid still out, tip the press.", "spoken", [("lead", "hood"), ("lead", "drum", "lid")]),
    ("The hood and the drum having been removed, slacken the pin.", "scripted", [("lead", "hood", "drum")]),
    ("Once the hood is off, undo the bolts.", "spoken", [("lead", "hood")]),
    ("The hood, the drum and the lid are off at this stage.", "scripted", [("state", "hood", "drum", "lid")]),
    ("For that, hood off again.", "spoken", [("bare", "hood")]),
    ("Lid off, back panel off.", "spoken", [("bare", "lid"), ("bare", "back panel")]),
    ("top + front panel out", "notes", [("bare", "top panel", "front panel")]),
    ("with the hood the drum and the lid all out of the way", "captions", [("lead", "hood", "drum", "lid")]),
    ("I want it stood on its nose and the hood off.", "spoken", [("bare", "hood")]),
    ("You need the hood out of there and the drum too.", "spoken", [("required", "hood"), ("required", "drum")]),
    ("The hood has to come off first, and so does the drum.", "spoken", [("required", "hood"), ("required", "drum")]),
    ("The hood shall have been removed, as shall the drum.", "scripted", [("required", "hood"), ("required", "drum")]),
    ("The hood and the drum are presumed removed.", "scripted", [("required", "hood", "drum")]),
    ("Make sure the hood and the drum are off.", "spoken", [("required", "hood", "drum")]),
    ("This wants the ceiling panel down.", "spoken", [("required", "ceiling panel")]),
    ("Hood, drum and lid, they're all out.", "spoken", [("state", "hood", "drum", "lid")]),
    ("I've left the hood off.", "spoken", [("required", "hood")]),
    ("hood, drum: gone already", "notes", [("bare", "hood", "drum")]),
    ("hood still off from job 2", "notes", [("bare", "hood")]),
]  # fmt: skip

WORK = [
    "Take the hood and the drum off.",
    "Pull the strap off and the lid off.",
    "Pull the pin out of the frame and the lever off the shaft.",
    "Turn the valve off.",
    "The hood is then eased off.",
    "The hood is removed.",
    "Wet it with oil and wring it out.",
    "I ran it all off last night into a bucket.",
    "You don't need the hood off.",
    "The hood isn't off.",
    "All four screws out.",
    "Push the lever down.",
    "Lever down.",
    "The hood's gone brown.",
    "The bearing's gone a bit stiff.",
    "The tray is pulled half out.",
]


@pytest.mark.parametrize(("text", "register", "told"), STATED)
def test_stated(text, register, told):
    known = known_of(text, register=register)
    assert [(a.stated, *a.names) for a in absences(known, 0, len(known.lower))] == told


@pytest.mark.parametrize("text", WORK)
def test_no_statement(text):
    known = known_of(text)
    assert absences(known, 0, len(known.lower)) == []


@pytest.mark.parametrize(
    ("text", "marked"),
    [
        ("The hood is off.", False),
        ("The hood is already off.", True),
        ("The hood is off for this one.", True),
        ("Hood off, obviously.", True),
        ("Same again, hood off.", True),
    ],
)
def test_words_that_fit_only_a_state(text, marked):
    known = known_of(text)
    (absence,) = absences(known, 0, len(known.lower))
    assert absence.marked is marked


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("So that's with the hood off, tip the press.", 1),
        ("Tip the press with the hood off.", 0),
        ("With the hood off, and the drum out, tip the press.", 2),
    ],
)
def test_leading(text, count):
    known = known_of(text)
    assert len(leading(known, 0, len(known.lower))) == count
