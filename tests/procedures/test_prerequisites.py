"""What must be out first, split, linked, and told apart from preparations."""

import pytest
from marked import with_gaps
from told import draft_of

CASES = [
    ("The hood must be off first.", ["hood"], 0),
    ("You'll need the hood off for this.", ["hood"], 0),
    ("You'll need the hood and the drum out first.", ["hood", "drum"], 0),
    ("Before you start, remove the hood, the drum and the rear panel.", ["hood", "drum", "rear panel"], 0),
    ("The hood, the drum and the rear panel must already be out.", ["hood", "drum", "rear panel"], 0),
    ("This procedure requires the hood to be removed.", ["hood"], 0),
    ("Prerequisites: hood and drum.", ["hood", "drum"], 0),
    ("Prerequisites are the hood and the drum.", ["hood", "drum"], 0),
    ("First complete hood removal.", ["hood"], 0),
    ("With the hood and drum already removed.", ["hood", "drum"], 0),
    ("We've got the hood and the drum off already.", ["hood", "drum"], 0),
    ("No prerequisites.", [], 0),
    ("Nothing else has to come off.", [], 0),
    ("The hood must be off because it covers the bolts.", ["hood"], 0),
    ("The kiln must be unplugged.", [], 1),
    ("The tank must be empty and the hood off.", ["hood"], 1),
    ("The hood has to be off, and the boiler must be drained.", ["hood"], 1),
]
GAPS = {
    "First complete hood removal.": "a part whose name stands inside a job's name",
    "The hood must be off because it covers the bolts.": "a fastener in the reason makes it no prerequisite",
    "The kiln must be unplugged.": "a state without the word out or off is no prerequisite",
}


@pytest.mark.parametrize(("text", "parts", "preparations"), with_gaps(CASES, GAPS))
def test_parts(text, parts, preparations):
    job = draft_of(f"Replacing the siren. {text} Undo the two nuts. Lift the siren out.").procedures[0]
    assert [q.part for q in job.prerequisites] == parts
    assert len(job.preparations) == preparations
    assert len(job.steps) == 2


@pytest.mark.parametrize(
    ("heading", "required"),
    with_gaps([
        ("hood", "hood"), ("side panels", "side panel"), ("side panel", "side panels"), ("hood", "hood assembly"),
        ("hood assembly", "hood"), ("drip-tray", "drip tray"), ("drip tray", "drip-tray"),
    ], {}),
)  # fmt: skip
def test_linked_to_the_job_that_removes_it(heading, required):
    draft = draft_of(
        f"Removing the {heading}. Undo the two nuts. Lift the {heading} off. "
        f"Replacing the siren. The {required} must be off first. Undo the two bolts. Lift the siren out."
    )
    assert [q.procedure for q in draft.procedures[1].prerequisites] == ["p01"]


def test_not_linked():
    draft = draft_of("Replacing the siren. The hood must be off first. Undo the two bolts. Lift the siren out.")
    assert [(q.part, q.procedure) for q in draft.procedures[0].prerequisites] == [("hood", None)]


def test_said_twice_is_listed_twice():
    draft = draft_of(
        "Replacing the siren. The hood and the drum must be off. You also need the hood off. Undo the two bolts."
    )
    assert [q.part for q in draft.procedures[0].prerequisites] == ["hood", "drum", "hood"]


def test_time_and_words():
    draft = draft_of("Replacing the siren.", "The hood must be off first.", "Undo the two bolts.")
    (required,) = draft.procedures[0].prerequisites
    assert required.start >= 1.4
    assert round(required.end, 3) <= 3.8  # six words of 0.4 s, in milliseconds
    assert "hood" in required.text


@pytest.mark.parametrize(
    ("texts", "register", "parts"),
    [
        (["so the siren", "you'll need the hood and the drum out for this", "undo the two bolts", "lift the siren out"], "captions", ["hood", "drum"]),
        (["so the siren", "you need the hood off first", "undo the two bolts", "lift the siren out"], "captions", ["hood"]),
        (["SIREN", "hood + drum off first", "2 bolts M6", "siren out"], "notes", ["hood", "drum"]),
        (["SIREN", "prereq: hood, drum", "2 bolts M6", "siren out"], "notes", ["hood", "drum"]),
        (["SIREN", "needs hood off", "2 bolts M6", "siren out"], "notes", ["hood"]),
        (["Okay, the siren. Um, for this one you need the hood off, obviously. So, two bolts, out they come. Siren lifts out."], "spoken", ["hood"]),
    ],
)  # fmt: skip
def test_other_registers(texts, register, parts):
    job = draft_of(*texts, register=register, gap=0.9).procedures[0]
    assert [q.part for q in job.prerequisites] == parts
