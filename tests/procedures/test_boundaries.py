"""Where jobs start and end, also without a heading."""

from itertools import pairwise

import pytest
from told import draft_of, lines

HOOD = "Replacing the hood. Undo the two nuts. Lift the hood off. Refitting is the reverse of removal. "


def test_start_and_end():
    draft = draft_of(
        "Hello all.", "Replacing the hood.", "Undo the two nuts. Lift the hood off.", "Thanks for watching."
    )
    (job,) = draft.procedures
    assert job.start == pytest.approx(1.0, abs=0.01)
    assert job.end <= 5.7


def test_without_any_heading():
    (job,) = draft_of("Undo the two nuts on the left. Lift the hood off. Lift the filter out.").procedures
    assert not job.heading.spoken
    assert "title" in job.inferred
    assert len(job.steps) == 3


def test_a_job_after_a_closing_sentence():
    found = draft_of(
        HOOD
        + "That's the hood done. Undo the three bolts. Slide the drum out. Unplug the drum lead. To install, reverse these steps."
    ).procedures
    assert [p.heading.spoken for p in found] == [True, False]
    assert [p.subject for p in found] == ["hood", "drum"]


def test_a_job_after_a_new_prerequisite():
    found = draft_of(
        HOOD
        + "With the hood already removed. Undo the three bolts. Slide the drum out. To install, reverse these steps."
    ).procedures
    assert [p.heading.spoken for p in found] == [True, False]
    assert [q.part for q in found[1].prerequisites] == ["hood"]


FITTED = "Replacing the valve. Turn the tap, and pull the valve out. To fit, push the new valve in, and turn the tap. "


def test_a_job_after_it_was_spelled_out_how_the_part_goes_back():
    found = draft_of(FITTED + "Undo the three bolts that hold the siren to the mast. Lift the siren off.").procedures
    assert [p.subject for p in found] == ["valve", "siren"]
    assert [p.heading.spoken for p in found] == [True, False]


@pytest.mark.parametrize(
    "after",
    [
        "Undo the three bolts that hold the tap. Lift the valve off again.",
        "Push the tap in. Close the lid.",
        "Before you turn it on, also unplug the siren.",
    ],
)
def test_no_job_of_its_own_after_the_fitting(after):
    assert len(draft_of(FITTED + after).procedures) == 1


def test_nothing_at_all():
    assert draft_of("Hello. Nice weather today. Goodbye.").procedures == ()


def test_checks_after_the_reverse_stay_in_the_job():
    (job,) = draft_of(HOOD + "Finally, switch the kiln on and check for leaks.").procedures
    assert [step.phase for step in job.steps][-1] == "after"


def test_jobs_in_order_without_overlap():
    found = draft_of(HOOD + HOOD.replace("hood", "drum") + HOOD.replace("hood", "siren")).procedures
    assert [p.subject for p in found] == ["hood", "drum", "siren"]
    assert all(a.end <= b.start for a, b in pairwise(found))
    assert all(len(lines(p)) == 2 for p in found)
