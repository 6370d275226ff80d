"""The part a job is about: heading, body and closing weighed."""

import pytest
from marked import with_gaps
from told import job

_HEADING = "a heading is no heading where the part that it names is not worked on"


@pytest.mark.parametrize(
    ("text", "subject", "inferred"),
    with_gaps([
        ("Replacing the siren. Undo the two bolts. Lift the siren out.", "siren", False),
        ("Replacing the wheel. Undo the two bolts. Lift the idler wheel out. That's the idler wheel done.", "idler wheel", False),
        ("Replacing the siren. Undo the two bolts holding the drum. Unplug the drum lead. Lift the drum out of the frame. That's the drum done.", "drum", True),
        ("Undo the two bolts that hold the drum. Lift the drum out. Refit the drum in reverse order.", "drum", False),
    ], {"Replacing the siren. Undo the two bolts holding the drum. Unplug the drum lead. Lift the drum out of the frame. That's the drum done.": _HEADING}),
)  # fmt: skip
def test_subject(text, subject, inferred):
    found = job(text)
    assert found.subject == subject
    assert ("subject" in found.inferred) == inferred


@pytest.mark.xfail(strict=True, reason=_HEADING)
def test_the_title_follows_the_heading():
    found = job("Replacing the siren. Undo the two bolts holding the drum. Lift the drum out. That's the drum done.")
    assert "siren" in found.title.lower()
