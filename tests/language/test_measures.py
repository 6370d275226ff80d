"""Lengths, threads and torques, in every way that people say and write them."""

import pytest
from marked import parse, with_gaps
from spoken import known_of, surface

from miner.language.measures import INCH_MM, find_measures, split_callout

LENGTHS = [
    "Undo the two [8 mm](8) screws from the accordion grille.",
    "Undo the two [8mm](8) screws from the accordion grille.",
    "Undo the two [8-mm](8) screws from the accordion grille.",
    "Undo the two [eight millimetre](8) screws from the accordion grille.",
    "Undo the two [eight millimeter](8) screws from the accordion grille.",
    "Undo the two [eight mil](8) screws from the accordion grille.",
    "Undo the two [8 mil](8) screws from the accordion grille.",
    "They are [twelve millimetres](12) in the hull.",
    "They are [twelve millimetres long](12;long) in the hull.",
    "They are [12 mm long](12;long) in the hull.",
    "They are the M6 ones, [thirty long](30;long), in the hull.",
    "They measure [5 by 16 millimetres](16) in the hull.",
    "They are [2.5 mm](2.5) in the dial.",
    "They are [2,5 mm](2.5) in the dial.",
    "They are [two point five mil](2.5) in the dial.",
    "They are [two and a half millimetres](2.5) in the dial.",
    "The plough bolt is [4 cm](40) and no more.",
    "The plough bolt is [four centimetres long](40;long) and no more.",
    "The flange takes a [half inch](12.7) bolt.",
    "The flange takes a [half-inch](12.7) bolt.",
    "The flange takes a [quarter inch](6.35) bolt.",
    "The flange takes a [three quarter inch](19.05) bolt.",
    "The flange takes a [three-quarter-inch](19.05) bolt.",
    "The flange takes a [1/2 inch](12.7) bolt.",
    'The flange takes a [3/8"](9.52) bolt.',
    "The flange takes a [one inch](25.4) bolt.",
    "The flange takes a [2 inch](50.8) bolt.",
    "The flange takes a [two inch long](50.8;long) bolt.",
    "The flange takes a [1 1/2 inch](38.1) bolt.",
    "The flange takes a [one and a half inch](38.1) bolt.",
    "The flange takes an [inch and a half](38.1) bolt.",
    "The flange takes a [five eighths inch](15.88) bolt.",
    "[Sixteen mill](16) on the top rail, [ten mill](10) below.",
    "Here are the [20 mm](20) ones, not the [25 mm](25) ones.",
]

OPEN_LENGTHS = {
    "The flange takes a [1 1/2 inch](38.1) bolt.": "a whole number with a written fraction",
    "The flange takes an [inch and a half](38.1) bolt.": "the half said after the unit",
    "The flange takes a [five eighths inch](15.88) bolt.": "spoken fractions other than halves and quarters",
}


@pytest.mark.parametrize("example", with_gaps(LENGTHS, OPEN_LENGTHS))
def test_lengths(example):
    marked = parse(example)
    known = known_of(marked.text)
    found = [m for m in known.measures if m.kind == "length"]
    assert [m.length_mm for m in found] == [float(next(iter(mark.facts))) for mark in marked.marks]
    assert [m.long for m in found] == ["long" in mark.facts for mark in marked.marks]
    said = [surface(known, m.start, m.end).removeprefix("a ") for m in found]
    assert said == [mark.surface for mark in marked.marks]


CALL_OUTS = [
    "Two [M3x8](M3;8) screws hold the metronome.",
    "Two [M3 x 8](M3;8) screws hold the metronome.",
    "Two [M3 × 8](M3;8) screws hold the metronome.",
    "Two [M3×8](M3;8) screws hold the metronome.",
    "Two [M3 x 8 mm](M3;8) screws hold the metronome.",
    "Two [M3x8mm](M3;8) screws hold the metronome.",
    "Two [m3 by 8](M3;8) screws hold the metronome.",
    "Two [M three by eight](M3;8) screws hold the metronome.",
    "Two [M-3 by eight millimetre](M3;8) screws hold the metronome.",
    "Two [em three by eight](M3;8) screws hold the metronome.",
    "Two [three by eight millimetre](M3;8) screws hold the metronome.",
    "Two [three by eight](M3;8) screws hold the metronome.",
    "Two [3 by 8](M3;8) screws hold the metronome.",
    "Two [3x8](M3;8) screws hold the metronome.",
    "Two [M2.5x6](M2.5;6) screws hold the metronome.",
    "Two [M2.5 by six](M2.5;6) screws hold the metronome.",
    "Two [M two point five by six](M2.5;6) screws hold the metronome.",
    "Two [M8x1](M8x1) nuts lock the spindle.",
    "Two [M8 x 1](M8x1) nuts lock the spindle.",
    "Two [M8x1.25](M8) nuts lock the spindle.",
    "Two [M10x1.25](M10x1.25) nuts lock the spindle.",
    "Two [M10 by one point two five](M10x1.25) nuts lock the spindle.",
    "Two [M3x0.5x8](M3;8) screws hold the metronome.",
    "Two [M10x1.25x30](M10x1.25;30) bolts hold the harrow.",
    "Two [M10 x 1.25 x 30](M10x1.25;30) bolts hold the harrow.",
    "Four [M6](M6) bolts hold the harrow.",
    "Four [M twelve](M12) bolts hold the harrow.",
    "Four [M12 by sixty](M12;60) bolts hold the harrow.",
    "Four [M16 x 2 x 80](M16;80) bolts hold the harrow.",
    "Four [M5-16](M5;16) bolts hold the harrow.",
]
OPEN_CALL_OUTS = {
    "Two [3x8](M3;8) screws hold the metronome.": "diameter and length written with x but without M",
    "Four [M5-16](M5;16) bolts hold the harrow.": "a hyphen between thread and length",
}


@pytest.mark.parametrize("example", with_gaps(CALL_OUTS, OPEN_CALL_OUTS))
def test_call_outs(example):
    marked = parse(example)
    known = known_of(marked.text)
    found = [m for m in known.measures if m.kind == "thread"]
    wanted = [list(mark.facts) for mark in marked.marks]
    assert [[m.thread] + ([f"{m.length_mm:g}"] if m.length_mm else []) for m in found] == wanted
    assert [surface(known, m.start, m.end) for m in found] == [mark.surface for mark in marked.marks]


TORQUES = [
    "Pull the cylinder head down to [25 Nm](25).",
    "Pull the cylinder head down to [25 N m](25).",
    "Pull the cylinder head down to [25Nm](25).",
    "Pull the cylinder head down to [25 N·m](25).",
    "Pull the cylinder head down to [twenty five newton metres](25).",
    "Pull the cylinder head down to [twenty-five newton meters](25).",
    "Pull the cylinder head down to [forty newtons](40).",
    "The lens ring gets [1.2 Nm](1.2) and no more.",
    "The lens ring gets [one point two newton metres](1.2) and no more.",
    "The lens ring gets [60 Ncm](0.6) and no more.",
    "The lens ring gets [half a newton metre](0.5) and no more.",
    "Go to [thirty foot pounds](40.675) on the wheel.",
    "Go to [30 ft-lb](40.675) on the wheel.",
    "Go to [30 foot-pounds](40.675) on the wheel.",
    "Go to [20 inch pounds](2.26) on the wheel.",
]
OPEN_TORQUES = {
    "The lens ring gets [half a newton metre](0.5) and no more.": "half a unit",
    "Go to [20 inch pounds](2.26) on the wheel.": "inch pounds",
}


@pytest.mark.parametrize("example", with_gaps(TORQUES, OPEN_TORQUES))
def test_torques(example):
    marked = parse(example)
    found = known_of(marked.text).measures
    assert [m.kind for m in found] == ["torque"]
    assert [m.torque_nm for m in found] == pytest.approx(
        [float(next(iter(mark.facts))) for mark in marked.marks], rel=1e-3
    )


@pytest.mark.parametrize(
    "text",
    [
        "The mm scale of the sextant is worn.",
        "Model M is older.",
        "Turn it two times by hand.",
        "There are two by the door of the kiln.",
        "Take the M7 or M13 board out.",  # no thread of ISO 262's first choice
        "A two by four holds the gate.",
    ],
)
def test_silent(text):
    assert known_of(text).measures == []


@pytest.mark.parametrize(
    ("diameter", "first", "second", "wanted"),
    [
        (3, 8, None, ("M3", 8)), (3, 0.5, None, ("M3", None)), (8, 1, None, ("M8x1", None)), (10, 1.25, None, ("M10x1.25", None)),
        (3, 0.5, 8, ("M3", 8)), (10, 1.25, 30, ("M10x1.25", 30)), (2, None, None, ("M2", None)), (1.6, 3, None, ("M1.6", 3)),
    ],
)  # fmt: skip
def test_split_callout(diameter, first, second, wanted):
    assert split_callout(diameter, first, second) == wanted


def test_inch_is_exact():
    assert INCH_MM == 25.4


def test_find_on_plain_text():
    import spacy

    doc = spacy.blank("en")("Undo the 8 mm screws and the M4x12 bolt.")
    assert [(m.thread, m.length_mm) for m in find_measures(doc)] == [(None, 8.0), ("M4", 12.0)]


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Undo the four quarter twenty bolts.", ("1/4-20", None)),
        ("Undo two ten thirty-two screws.", ("#10-32", None)),
        ("They're 1/4-20 by 1 inch.", ("1/4-20", 25.4)),
        ("Undo the #8-32 screws on the loom.", ("#8-32", None)),
        ("Undo the three eighths sixteen bolts.", ("3/8-16", None)),
        ("Undo six thirty two millimetre screws.", (None, 32)),
        ("Take out this quarter 20 bolt.", ("1/4-20", None)),
        ("Run the 8 32 screws into the harp.", ("#8-32", None)),
        ("Turn the dial to 8 32 on the loom.", None),
        ("Run the three M6 by 20s in.", ("M6", 20)),
        ("It fires at ten thirty two in the morning.", None),
    ],
)
def test_inch_threads(text, wanted):
    """Said or written; two numbers make a thread only where the series has it and a fastener follows."""
    found = [(m.thread, m.length_mm) for m in known_of(text).measures]
    assert found == ([wanted] if wanted else [])
