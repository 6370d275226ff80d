"""Noun phrases of parts: known heads, unknown nouns after a verb, names without idle words."""

import pytest
from marked import with_gaps
from spoken import acting, known_of

CASES = [
    ("Remove the fan.", "fan"),
    ("Remove the old fan.", "fan"),
    ("Remove the big rusty fan.", "rusty fan"),
    ("Remove the upper fan bracket.", "upper fan bracket"),
    ("Remove the left-hand drive shaft.", "left-hand drive shaft"),
    ("Remove that lovely brass bezel.", "brass bezel"),
    ("Remove your two drawer runners.", "drawer runners"),
    ("Remove the quern stone.", "quern stone"),
    ("Remove the gizmometer.", "gizmometer"),
    ("Remove the organ's wind chest.", "organ's wind chest"),
    ("Remove the lead of the siren.", "lead of the siren"),
    ("Remove the whole carriage assembly.", "carriage assembly"),
    ("Remove the O-ring.", "o-ring"),
    ("Remove the 24 volt relay.", "24 volt relay"),
    ("Remove the drip tray and the funnel.", "drip tray"),
    ("Remove the cooling fan from the kiln.", "cooling fan"),
    ("Remove the second fan.", "fan"),
]
GAPS = {
    "Remove that lovely brass bezel.": "a demonstrative before a word that is marker and adjective",
    "Remove the organ's wind chest.": "a noun spelled like a verb after a possessive",
}


@pytest.mark.parametrize(("text", "name"), with_gaps(CASES, GAPS))
def test_object(text, name):
    clause = acting(known_of(text))[0]
    assert clause.object is not None
    assert clause.object.name == name


@pytest.mark.parametrize(
    ("text", "source"),
    [
        ("Lift the wick out of the lamp.", "lamp"),
        ("Pull the bobbin off the spindle.", "spindle"),
        ("Remove the reed from the chanter.", "chanter"),
        ("Take the hand off of the pinion.", "pinion"),
        ("Slide the tray out from under the press.", None),
        ("Lift the wick out from the left.", None),
        ("Pull the bobbin out to the right.", None),
        ("Move the press away from the edge.", None),
    ],
)
def test_source(text, source):
    clause = acting(known_of(text))[0]
    assert (clause.source.name if clause.source else None) == source


_PAST = "a noun spelled like a past form, after an article"


@pytest.mark.parametrize(
    ("text", "names"),
    with_gaps([
        ("Remove the hood, the latch bar and the drum.", ["hood", "latch bar", "drum"]),
        ("Remove the hood and drum.", ["hood", "drum"]),
        ("Remove the hood, the latch bar and the felt.", ["hood", "latch bar", "felt"]),
        ("Remove the hood and the felt.", ["hood", "felt"]),
        ("Remove the hood and felt.", ["hood", "felt"]),
    ], {
        "Remove the hood, the latch bar and the felt.": _PAST,
        "Remove the hood and the felt.": _PAST,
        "Remove the hood and felt.": _PAST,
    }),
)  # fmt: skip
def test_objects(text, names):
    assert [p.name for p in acting(known_of(text))[0].objects] == names


@pytest.mark.parametrize("text", ["Turn it on its side.", "Work from the left.", "Go to the other end."])
def test_places_are_no_parts(text):
    assert [p.name for p in known_of(text).phrases if not p.place] == []


def test_known_and_plural():
    known = known_of("Remove the fans and the gizmometer.")
    assert [(p.name, p.known, p.plural) for p in known.phrases] == [("fans", True, True), ("gizmometer", False, False)]
