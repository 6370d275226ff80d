"""Fillers, false starts and self-corrections."""

import pytest
from marked import with_gaps
from spoken import known_of

from miner.procedures.wording import plain_text


def kept(text: str, register: str = "spoken") -> str:
    known = known_of(text, register=register)
    return " ".join(w for i, w in enumerate(known.lower) if i not in known.dropped and w not in (",", ".", "-"))


@pytest.mark.parametrize(
    ("text", "wanted"),
    with_gaps(
        [
            ("Undo the, um, two screws.", "undo the two screws"),
            ("Undo, uh, the erm shackle.", "undo the shackle"),
            ("Undo three, sorry, four screws.", "undo four screws"),
            ("Undo three, no, four screws.", "undo four screws"),
            ("Undo three screws, no wait, four screws.", "undo four screws"),
            ("Undo three, I mean four screws.", "undo four screws"),
            ("Undo three, make that four screws.", "undo four screws"),
            ("Undo three screws, sorry, four.", "undo four"),
            ("It's a T8, sorry, a T10 bit.", "it's a t10 bit"),
            ("It's the T8, no, T10 bit.", "it's the t10 bit"),
            ("It takes an 8 mm, correction, 10 mm screw.", "it takes an 10 mm screw"),
            ("Lift the left, sorry, the right pontoon.", "lift the right pontoon"),
            ("Lift the left, I mean right pontoon.", "lift the right pontoon"),
            ("Unplug the mast, no, sorry, the boom light.", "unplug the boom light"),
            ("It's sort of hooked under the you know bell.", "it's hooked under the bell"),
        ],
        {},
    ),
)
def test_dropped(text, wanted):
    assert kept(text) == wanted


@pytest.mark.parametrize(
    "text",
    with_gaps(
        [
            "There is no screw behind the dial.",
            "Wait ten minutes, then lift the crucible.",
            "Hold on to the ladder.",
            "Actually lift the left one first.",
            "If there is no gasket, stop.",
            "Make it snug, not tight.",
            "The spring, or rather both springs, come out.",
            "It is the same kind of hinge.",
            "What sort of bearing is it?",
        ],
        {},
    ),
)
def test_nothing_taken_back(text):
    known = known_of(text, register="spoken")
    words = [known.lower[i] for i in sorted(known.dropped)]
    assert [w for w in words if w not in ("actually", "um", ",")] == []


def test_plain_text_leaves_them_out():
    known = known_of("Undo the, um, two, sorry, three screws.", register="spoken")
    assert plain_text(known, 0, len(known.lower)).split()[-2:] == ["three", "screws."]


@pytest.mark.parametrize(
    ("text", "register"),
    [
        ("Open the valve until no steam comes.", "scripted"),
        ("It holds 400 volts. Wait ten minutes.", "scripted"),
        ("tap open till no steam", "notes"),
        ("spin rotor, no wobble", "notes"),
    ],
)
def test_what_only_looks_like_a_correction(text, register):
    assert known_of(text, register=register).dropped == frozenset()
