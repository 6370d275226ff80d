"""Clauses: where they begin, their mood, their object."""

import pytest
from marked import with_gaps
from spoken import clauses_of, known_of

_IF = "a condition without a subject becomes a clause of its own"

CUTS = [
    "Undo the nuts |, then lift the gong off |, and put it aside.",
    "Undo the nuts |and lift the gong off.",
    "Lift the gong, the clapper and the yoke.",
    "The hood, the tray and the drum must be out.",
    "Undo the two nuts and one bolt.",
    "Push the tab in |and the reel slides out.",
    "If fitted, remove the skid plate.",
    "Hold the rotor |and undo the nut.",
]


@pytest.mark.parametrize("example", with_gaps(CUTS, {"If fitted, remove the skid plate.": _IF}))
def test_cuts(example):
    wanted = [" ".join(known_of(p.strip()).lower) for p in example.split("|")]
    assert clauses_of(known_of(example.replace("|", ""))) == wanted


MOODS = [
    ("Remove the yoke.", "imperative"),
    ("Carefully remove the yoke.", "imperative"),
    ("I'm going to remove the yoke.", "planned"),
    ("We'll remove the yoke.", "planned"),
    ("You want to remove the yoke.", "planned"),
    ("You can remove the yoke.", "planned"),
    ("I removed the yoke.", "narrated"),
    ("Removing the yoke.", "narrated"),
    ("The yoke lifts out.", "result"),
    ("The yoke comes off.", "result"),
    ("The yoke is removed.", "narrated"),
    ("The two bolts are removed.", "narrated"),
    ("Don't remove the yoke.", "negative"),
    ("Never lift the yoke.", "negative"),
    ("Do not lift the yoke.", "negative"),
    ("It's a heavy yoke.", "descriptive"),
    ("There are two bolts.", "descriptive"),
    ("Two bolts.", "fragment"),
    ("Yoke off.", "result"),
    ("New yoke in.", "result"),
]


@pytest.mark.parametrize(("text", "mood"), MOODS)
def test_mood(text, mood):
    assert [c.mood for c in known_of(text).clauses] == [mood]


@pytest.mark.xfail(strict=True, reason=_IF)
def test_condition():
    clause = known_of("If fitted, remove the skid plate.").clauses[0]
    assert clause.condition == "if fitted"
    assert clause.deed is not None
    assert clause.deed.verb == "remove"


@pytest.mark.parametrize(
    ("text", "manner"),
    [
        ("Carefully lift the lens out.", "carefully"),
        ("Gently pull the reed.", "gently"),
        ("Lift the lens slowly.", "slowly"),
        ("Lift the lens.", None),
    ],
)  # fmt: skip
def test_manner(text, manner):
    assert known_of(text).clauses[0].manner == manner


@pytest.mark.parametrize(
    ("text", "link"),
    [("Undo it, then lift the lid.", "then"), ("Undo it and lift the lid.", "and"), ("Undo it, lift the lid.", "comma"), ("Undo it, so lift the lid.", "so")],
)  # fmt: skip
def test_link(text, link):
    assert known_of(text).clauses[-1].link == link


def test_tools_and_sizes_belong_to_their_clause():
    known = known_of("Undo the two PH1 screws with a PH1 driver, then lift the lens out with tweezers.")
    first, second = known.clauses
    assert (first.tools, second.tools) == (("ph1 driver",), ("tweezers",))
    assert [g.drive_size for g in first.groups] == ["PH1"]
    assert second.groups == ()
