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
