"""Whole small recordings to drafts, in all four registers; and what a draft may never do."""

import pytest
from told import draft_of, lines

from miner.model.serialise import to_json

SCRIPTED = (
    "Welcome. This recording shows two jobs on a letterpress.",
    (
        "Replacing the feed motor. Before you start, the hood must be off. Unplug the two motor leads. Undo the three 12 mm T15 "
        "screws that secure the motor to the bracket. Warning: the rotor is sharp. Lift the motor out of the frame. "
        "Refitting is the reverse of removal. Once it is fitted, check the feed."
    ),
    "Removing the hood. Undo the four Phillips screws and lift the hood off. To install, reverse these steps.",
)


def test_scripted():
    draft = draft_of(*SCRIPTED)
    first, second = draft.procedures
    assert (first.subject, first.kind, second.subject, second.kind) == ("feed motor", "replace", "hood", "remove")
    assert [(q.part, q.procedure) for q in first.prerequisites] == [("hood", "p02")]
    assert lines(first)[:3] == [
        "remove: unplug motor leads",
        "remove: undo motor | 3 screw 12 T15",
        "remove: lift motor <- frame",
    ]
    assert [(n.kind, n.step) for n in first.notices] == [("warning", "p01.s03")]
    assert first.install.mode == second.install.mode == "reverse"


def test_the_same_bytes_twice():
    assert to_json(draft_of(*SCRIPTED)) == to_json(draft_of(*SCRIPTED))


@pytest.mark.parametrize("texts", [[""], ["."], ["um uh"], ["?!"], ["8 mm"], ["and"], ["Replacing the gong."], ["T10"]])
@pytest.mark.parametrize("register", ["scripted", "spoken", "captions", "notes"])
def test_odd_input_does_no_harm(texts, register):
    if texts == [""]:
        pytest.xfail("a recording without words")
    draft_of(*texts, register=register)


def test_every_value_is_in_the_words():
    """Nothing is invented: counts, sizes and names of a step stand in its words or in those of the job."""
    for procedure in draft_of(*SCRIPTED).procedures:
        said = " ".join(SCRIPTED).lower()
        for step in procedure.steps:
            assert step.part is None or step.part in said
            assert all(str(f.drive_size).lower() in said for f in step.fasteners if f.drive_size)
            assert all(procedure.start <= s.start <= s.end <= procedure.end for s in procedure.steps)


def test_new_terms():
    draft = draft_of("Replacing the gizmometer. Undo the two bolts. Lift the gizmometer out.")
    assert [term.term for term in draft.new_terms] == ["gizmometer"]
