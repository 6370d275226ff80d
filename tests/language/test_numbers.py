"""Numbers in words and digits, in sentences of many trades."""

import pytest
from marked import parse
from spoken import known_of, surface

from miner.language.numbers import find_numbers, numbers_in, value_of

EXAMPLES = [
    "Undo the [two](2) screws on the tattoo machine frame.",
    "The loom has [twenty-two](22) heddle clips.",
    "The loom has [twenty two](22) heddle clips.",
    "There are [a hundred and five](105) balls in the race.",
    "There are [one hundred](100) rivets along the wing.",
    "Pull [a dozen](12) staples out of the seat pan.",
    "Pull [half a dozen](6) staples out of the seat pan.",
    "Drill down [two and a half](2.5) turns.",
    "Shim it by [point five](0.5) of a millimetre.",
    "Shim it by [zero point two](0.2) of a millimetre.",
    "Shim it by [two point five](2.5) of a millimetre.",
    "Remove [3x](3;times) screws from the organ bellows.",
    "Remove [3 x](3;times) screws from the organ bellows.",
    "Remove [4 off](4;times) screws from the organ bellows.",
    "[Seven](7) bolts go into the [16](16) holes.",
    "A gap of [2,5](2.5) turns.",
    "A gap of [2.5](2.5) turns.",
    "Take [five](5) screws, [three](3) long and [two](2) short, off the sail winch.",
    "[Nineteen](19) spokes on this side and [thirteen](13) on the other.",
    "[Ninety-nine](99) pins.",
    "[Forty](40) cells and [sixty-six](66) straps.",
]


@pytest.mark.parametrize("example", EXAMPLES)
def test_found_with_value_and_place(example):
    marked = parse(example)
    known = known_of(marked.text)
    found = numbers_in(known)
    assert [n.value for n in found] == [float(next(iter(mark.facts))) for mark in marked.marks]
    said = [surface(known, n.start, n.end).removeprefix("a ").removeprefix("A ") for n in found]
    assert said == [mark.surface.removeprefix("a ") for mark in marked.marks]
    assert [n.times for n in found] == ["times" in mark.facts for mark in marked.marks]


@pytest.mark.parametrize(
    "text",
    [
        "Someone often loosens the stone and phone tensioner.",
        "Lift the canteen trolley lid and weight.",
        "Mind the tenon and the attentive foreman.",
        "Model Q7A and board B12 are the same.",
        "Press the freight lever.",
    ],
)
def test_no_number_inside_a_word(text):
    assert numbers_in(known_of(text)) == []


@pytest.mark.parametrize(
    ("text", "value"),
    [("7", 7), ("7.5", 7.5), ("7,5", 7.5), ("seven", 7), ("Forty-Two", 42), ("a thousand", 1000), ("three and a half", 3.5),
     ("point oh five", 0.05), ("one point two five", 1.25), ("dozen", 12), ("half a dozen", 6), ("two hundred and six", 206)],
)  # fmt: skip
def test_value_of(text, value):
    assert value_of(text) == pytest.approx(value)


@pytest.mark.parametrize("text", ["screw", "two screws", "point"])
def test_value_of_what_is_no_number(text):
    with pytest.raises(ValueError):
        value_of(text)


def test_find_is_pure():
    from spacy.lang.en import English

    doc = English()("Undo the two screws and the twelve nuts.")
    assert [n.value for n in find_numbers(doc)] == [2, 12]
    assert find_numbers(doc) == find_numbers(doc)
