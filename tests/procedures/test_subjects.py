"""The part a job is about: heading, body and closing weighed."""

import pytest
from told import job


@pytest.mark.parametrize(
    ("text", "subject", "inferred"),
    [
        ("Replacing the siren. Undo the two bolts. Lift the siren out.", "siren", False),
        ("Replacing the wheel. Undo the two bolts. Lift the idler wheel out. That's the idler wheel done.", "idler wheel", False),
        ("Replacing the siren. Undo the two bolts holding the drum. Unplug the drum lead. Lift the drum out of the frame. That's the drum done.", "drum", True),
        ("Undo the two bolts that hold the drum. Lift the drum out. Refit the drum in reverse order.", "drum", False),
    ],
)  # fmt: skip
def test_subject(text, subject, inferred):
    found = job(text)
    assert found.subject == subject
    assert ("subject" in found.inferred) == inferred


def test_the_title_follows_the_heading():
    found = job("Replacing the siren. Undo the two bolts holding the drum. Lift the drum out. That's the drum done.")
    assert "siren" in found.title.lower()
