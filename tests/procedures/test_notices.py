"""Warnings, cautions and notes: level, words, and the step they guard."""

import pytest
from marked import with_gaps
from told import job

LEVELS = [
    ("Danger! High voltage behind this panel.", "danger"),
    ("Warning: the rotor is sharp.", "warning"),
    ("Caution: the ribbon tears easily.", "caution"),
    ("Note: the nut has a left-hand thread.", "note"),
    ("Be careful, the edge is sharp.", "warning"),
    ("Mind your fingers on the blade.", "warning"),
    ("Watch out, the boiler is still hot.", "warning"),
    ("Careful, the spring can fly out.", "warning"),
    ("Be careful with the ribbon, it tears easily.", "caution"),
    ("Don't bend the ribbon.", "caution"),
    ("Never pull on the wires.", "caution"),
    ("Don't touch the capacitor, it holds a charge.", "warning"),
    ("Make sure the pawl is seated.", "important"),
]


@pytest.mark.parametrize(("text", "kind"), with_gaps(LEVELS, {}))
def test_level(text, kind):
    found = job(f"Section one, gong replacement. Undo the two bolts. {text} Lift the gong out.")
    assert [n.kind for n in found.notices] == [kind]
    assert len(found.steps) == 2


def test_before_the_step_it_guards():
    found = job("Section one, gong replacement. Undo the two bolts. Warning: the gong is heavy. Lift the gong out.")
    assert [n.step for n in found.notices] == ["p01.s02"]


def test_after_the_step_it_should_have_guarded():
    found = job(
        "Section one, gong replacement. Undo the two bolts. Lift the gong out. I should have said, the gong is sharp. Unplug the lead."
    )
    assert [n.step for n in found.notices] in (["p01.s02"], [])


def test_the_words_go_on():
    found = job(
        "Section one, gong replacement. Warning: the boiler is under pressure. Wear goggles. Undo the two bolts."
    )
    (notice,) = found.notices
    assert "goggles" in notice.text
    assert len(found.steps) == 1


def test_before_the_first_step_about_the_job_in_general():
    found = job(
        "Section one, gong replacement. Warning: work on the mains is for licensed electricians. Undo the two bolts."
    )
    assert [n.step for n in found.notices] in ([None], ["p01.s01"])


def test_an_instruction_inside_a_warning_is_no_step():
    found = job(
        "Section one, gong replacement. Undo the two bolts. Be careful not to pull the lead. Lift the gong out."
    )
    assert len(found.steps) == 2
    assert len(found.notices) == 1


@pytest.mark.parametrize(
    ("texts", "register"),
    [
        (["so undo the two bolts", "be careful the edge is really sharp", "then lift the gong out"], "captions"),
        (["2 bolts M6", "!! sharp edge", "gong out"], "notes"),
        (["2 bolts M6", "WARNING: sharp edge", "gong out"], "notes"),
    ],
)  # fmt: skip
def test_other_registers(texts, register):
    head = "GONG" if register == "notes" else "okay so we're replacing the gong"
    found = job(head, *texts, register=register, gap=0.9)
    assert [n.kind for n in found.notices] == ["warning"]
    assert len(found.steps) == 2
