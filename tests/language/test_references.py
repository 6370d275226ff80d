"""Pronouns taken for the part last worked on."""

import pytest
from marked import with_gaps
from spoken import acting, known_of

_NUMBER = "it and them do not look at singular and plural"


@pytest.mark.parametrize(
    ("text", "names"),
    with_gaps([
        ("Unlock the hopper. Lift it out.", ["hopper", "hopper"]),
        ("Unlock the hopper and lift it out.", ["hopper", "hopper"]),
        ("Unclip the two covers. Put them aside.", ["covers", "covers"]),
        ("Unlock the hopper. Lift the sieve out. Rinse it.", ["hopper", "sieve", "sieve"]),
        ("Lift it out.", [None]),
        ("Undo the two bolts of the hopper. Lift it out.", ["bolts", "hopper"]),
        ("Lift the hopper. Undo the two bolts. Slide it out.", ["hopper", "bolts", "hopper"]),
        ("Undo the bolts and take them out.", ["bolts", "bolts"]),
        ("Lift the hopper. Take them out.", ["hopper", None]),
        ("Push the hopper to the side. Lift it out.", ["hopper", "hopper"]),
        ("Turn the press on its side. Open it.", ["press", "press"]),
    ], {
        "Lift the hopper. Undo the two bolts. Slide it out.": _NUMBER,
        "Lift the hopper. Take them out.": _NUMBER,
    }),
)  # fmt: skip
def test_it(text, names):
    clauses = acting(known_of(text))
    assert [c.object.name if c.object else None for c in clauses] == names


UNCLEAR = [
    ("The horn wire and the lamp wire go to the hub. Cut that one.", "that one"),
    ("The horn wire and the lamp wire run side by side to the hub. Cut that one, and tape the other one.", "that one"),
    ("Lift the sieve off the hopper. Turn that one over.", "that one"),
    ("Unhook it from this, then from the other.", "it from this , then from the other"),
]


@pytest.mark.parametrize(("text", "words"), UNCLEAR)
def test_what_nobody_could_resolve(text, words):
    (one,) = known_of(text).observations
    assert (one.kind, one.detail["pronoun"]) == ("unclear-reference", words)


@pytest.mark.parametrize(
    "text",
    [
        "There is a strap at the back. Cut that one.",
        "Lift the sieve out. Rinse that one.",
        "The horn wire goes to the hub. Cut that one.",
    ],
)
def test_what_anybody_would(text):
    assert known_of(text).observations == []
