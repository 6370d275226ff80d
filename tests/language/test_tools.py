"""Tools and supplies, only where they are put to use."""

import pytest
from marked import with_gaps
from spoken import known_of, lexicon

from miner.language.tools import supplies_of

CASES = [
    ("Undo it with a T10 driver.", ["t10 driver"]),
    ("Undo it using a T10 driver.", ["t10 driver"]),
    ("Using a flat spudger, lift the keys.", ["flat spudger"]),
    ("With a plastic pick, lift the keys.", ["plastic pick"]),
    ("Take the tweezers and lift the hairspring.", ["tweezers"]),
    ("Grab your needle nose pliers and pull the pin.", ["needle nose pliers"]),
    ("Use a pair of pliers on the clamp.", ["pliers"]),
    ("Use circlip pliers on the retaining ring.", ["circlip pliers"]),
    ("Undo it with a 13 mm spanner.", ["13 mm spanner"]),
    ("Undo it with a 3 mm key.", ["3 mm key"]),
    ("Undo the two nuts, eight mil spanner on those.", ["eight mil spanner"]),
    ("Undo the two M4 screws, 2.5 mm hex socket.", []),
    ("Lever the reed out with a wide flat driver.", ["flat driver"]),
    ("Undo it with a screwdriver and a pick.", ["screwdriver", "pick"]),
    ("Undo it with a rubber mallet or a drift.", ["rubber mallet", "drift"]),
    ("Get a putty knife under the veneer.", ["putty knife"]),
    ("Tap it home with the mallet.", ["mallet"]),
    ("You'll need a bearing puller.", ["bearing puller"]),
    ("Undo it by hand.", []),
    ("Lift it with your fingers.", []),
    ("The socket is behind the flue.", []),
    ("Remove the blade.", []),
    ("Remove the knife.", []),
    ("Lift it with care.", []),
    ("Replace it with the new fan.", []),
]
GAPS = {
    "You'll need a bearing puller.": "a tool that is said to be needed",
}


@pytest.mark.parametrize(("text", "tools"), with_gaps(CASES, GAPS))
def test_tools(text, tools):
    assert [t.name for t in known_of(text).tools] == tools


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Put a dab of grease on the spindle.", ("grease",)),
        ("Add a drop of thread lock.", ("thread lock",)),
        ("Smear thermal paste over the die.", ("thermal paste",)),
        ("Lift the lid.", ()),
    ],
)
def test_supplies(text, wanted):
    assert supplies_of(text, lexicon()) == wanted
