"""How a part goes back: mode, and the steps derived by reversing."""

import pytest
from marked import with_gaps
from told import draft_of, job, lines

BODY = "Section one, gong replacement. Undo the two bolts. Unplug the lead. Lift the gong out. "
MODES = [
    ("Refitting is the reverse of removal.", "reverse"),
    ("To install, reverse these steps.", "reverse"),
    ("It goes back in the reverse order.", "reverse"),
    ("Installation is the reversal of removal.", "reverse"),
    ("Same thing backwards to put it in.", "reverse"),
    ("Fit the new gong. Plug the lead in. Tighten the two bolts.", "explicit"),
    ("Refitting is the reverse of removal. Tighten the bolts to 25 Nm.", "reverse"),
    ("", "none"),
    ("That's the gong done.", "none"),
]


@pytest.mark.parametrize(("text", "mode"), with_gaps(MODES, {}))
def test_mode(text, mode):
    assert job(BODY + text).install.mode == mode


def test_reversed():
    install = job(BODY + "Refitting is the reverse of removal.").install
    assert [step.from_step for step in install.steps] == ["p01.s03", "p01.s02", "p01.s01"]
    assert [step.part for step in install.steps][:2] == ["gong", "lead"]
    assert [f.count for f in install.steps[2].fasteners] == [2]
    assert all(step.text.endswith(".") and step.text[0].isupper() for step in install.steps)


def test_preparing_is_not_reversed():
    install = job(
        "Section one, gong replacement. Drain the tank. Undo the two bolts. Refitting is the reverse of removal."
    ).install
    assert [step.from_step for step in install.steps] == ["p01.s02"]


def test_one_detail_with_the_reverse():
    found = job(BODY + "Refitting is the reverse of removal. Tighten the two bolts to 25 Nm.")
    assert lines(found)[-1] == "install: tighten bolts | 2 bolt"
    assert found.steps[-1].fasteners[0].torque_nm == 25


def test_checks_afterwards():
    found = job(BODY + "Refitting is the reverse of removal. Finally, check the gong for play.")
    assert found.steps[-1].phase == "after"


def test_supplies():
    found = job(BODY + "To install, put a dab of grease on the spindle and fit the gong.")
    assert next(s.supplies for s in found.steps if s.phase == "install") == ("grease",)


def test_inverse_verbs_say_that_something_goes_back():
    texts = ["Removing the siren.", "Unplug the lead.", "Undo the three screws of the cover.", "Slide the mast out."]
    (made,) = draft_of(*texts, "Lift the siren off.", "Refitting is the reverse of removal.").procedures
    assert [step.text for step in made.install.steps] == [
        "Lower the siren back into place.",
        "Slide the mast back.",
        "Fasten the three screws of the cover.",
        "Plug the lead in again.",
    ]
