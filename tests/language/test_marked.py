"""The helper itself: it must refuse what would make an example empty."""

import pytest
from marked import parse, with_gaps


def test_text_and_places():
    found = parse("Undo the [two](count=2) [8 mm](length=8; long) [screws](kind).")
    assert found.text == "Undo the two 8 mm screws."
    assert [found.text[mark.start : mark.end] for mark in found.marks] == ["two", "8 mm", "screws"]
    assert [mark.facts for mark in found.marks] == [{"count": "2"}, {"length": "8", "long": ""}, {"kind": ""}]
    assert [mark.surface for mark in found.having("long")] == ["8 mm"]


@pytest.mark.parametrize(
    "example",
    [
        "Undo the two screws.",
        "Undo the [two(count=2) screws.",
        "Undo the [two](count=2 screws.",
        "Undo the [two] (count=2) screws.",
        "Undo the two](count=2) screws.",
        "Undo the [](count=2) screws.",
        "Undo the [two]() screws.",
        "Undo the [two](=2) screws.",
        "Undo the [two](count=2; count=3) screws.",
        "Undo the [two](count=2) [screws.",
    ],
)
def test_refused(example):
    with pytest.raises(ValueError, match="mark"):
        parse(example)


def test_gap_without_a_case():
    assert with_gaps(["a", "b"], {"b": "why"})[0] == "a"
    with pytest.raises(ValueError, match="no case"):
        with_gaps(["a"], {"c": "why"})
