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
    ("It is important that the loom is never run dry.", "important"),
    ("It is noted that two makes of heddle exist.", "note"),
    ("It's a good twenty kilos, that, so use your legs and not your back.", "warning"),
    ("The second the brake is off, it'll run you over.", "warning"),
    ("This thing stores a charge, it'll throw you across the shop.", "warning"),
    ("Let the steam out before you touch that nut, because it'll go straight through your skin.", "warning"),
    ("Take your watch and your rings off, because there's no fuse in here.", "caution"),
    ("That edge is like a razor.", "warning"),
    ("The reeds are as brittle as chalk.", "caution"),
    ("Any strain on the ribbon is to be avoided, since its crimps tear easily.", "caution"),
    ("The lid is 14 kg, so get a helper, and mind your toes.", "warning"),
    ("Slip some goggles on, that latch is under load.", "warning"),
    ("Golden rule: this loom grabs anything that comes near it.", "warning"),
    ("The press bed weighs as much as a small car, so get a mate to help.", "warning"),
    ("Nobody stands under the hook while this is up.", "warning"),
    ("No person shall stand beneath the load.", "warning"),
    ("This is a danger, and I mean it, the counterweight can crush you.", "danger"),
    ("A word of warning, the flywheel keeps turning for a minute.", "warning"),
    ("A quick word of caution, those tabs are forty years old.", "caution"),
    ("Safety notice. Hydraulic oil can penetrate the skin.", "warning"),
    ("Persons with pacemakers shall keep their distance from the magnet.", "warning"),
    ("The work may only be carried out by a qualified electrician.", "warning"),
    ("Contact with the solvent is harmful to the skin.", "warning"),
    ("Failure to relieve the pressure can result in serious injury.", "warning"),
    ("I've seen a lad lose two fingers in this.", "warning"),
    ("This is where people get hurt, so go slow.", "warning"),
    ("It'll come down like a guillotine if you let go.", "warning"),
    ("You're going to want gloves for this.", "warning"),
    ("The reed must not come into contact with oil.", "caution"),
    ("Excessive force will deform the flange.", "caution"),
    ("Only finger tight, or you'll strip the brass.", "caution"),
    ("These little ears are dead easy to snap.", "caution"),
    ("Use only a plastic wedge, as metal scratches the veneer.", "caution"),
    ("If you hear a crack you've gone too far.", "caution"),
    ("That glass costs a week's wages, so don't even breathe on it.", "caution"),
    ("Just so you know, the later ones have a blue plug.", "note"),
    ("Worth knowing, this thread is left-handed.", "note"),
    ("Please observe that the thread is left-handed.", "note"),
    ("For information: there are two makes of pump.", "note"),
]


@pytest.mark.parametrize(("text", "kind"), with_gaps(LEVELS, {}))
def test_level(text, kind):
    found = job(f"Section one, gong replacement. Undo the two bolts. {text} Lift the gong out.")
    assert [n.kind for n in found.notices] == [kind]
    assert len(found.steps) == 2


@pytest.mark.parametrize(
    "text",
    [
        "You don't need anything off for that.",
        "Same way back in, backwards, and don't forget a new gasket.",
        "I always leave that and then I'm holding the gong in one hand.",
        "Nothing else has to come off.",
        "Don't worry about the colour.",
        "There's nobody here today but me.",
        "The hot tap's on the left.",
        "The new one is not as sharp.",
        "No tools are needed for this.",
        "I'd lose my head if it wasn't screwed on.",
        "He's a qualified pilot, you know.",
        "Make sure the hood and the drum are off before you start.",
    ],
)
def test_no_notice(text):
    assert job(f"Section one, gong replacement. {text} Undo the two bolts. Lift the gong out.").notices == ()


def test_hung_on_to_a_step():
    found = job("Section one, gong replacement. Undo the two bolts. Pull the gong off, mind the oil, there's a cupful.")
    assert [n.text for n in found.notices] == ["Mind the oil, there's a cupful."]
    assert [s.text for s in found.steps] == ["Undo the two bolts.", "Pull the gong off."]


def test_work_follows_a_warning_in_its_sentence():
    found = job(
        "Section one, gong replacement. That rim will take the skin off your hand, so use a rag, then unplug the red lead. "
        "Lift the gong out."
    )
    assert len(found.notices) == 1
    assert [s.text for s in found.steps] == ["Unplug the red lead.", "Lift the gong out."]


def test_what_a_signalled_warning_says_to_do_belongs_to_it():
    found = job(
        "Section one, gong replacement. Undo the two bolts. Warning: the pipe holds pressure. "
        "Open the tap and wait until no more steam escapes. Lift the gong out."
    )
    (notice,) = found.notices
    assert "steam" in notice.text
    assert len(found.steps) == 2


def test_a_weight_matters_where_the_part_is_lifted():
    found = job(
        "Section one, gong replacement. Unlock the frame with the key. The gong weighs 20 kg, two people. "
        "Undo the two bolts. Lift the gong out."
    )
    assert [n.step for n in found.notices] == ["p01.s03"]


def test_a_spring_is_met_in_the_first_movement():
    found = job(
        "Section one, gong replacement. Caution: the return spring jumps out. Undo the two bolts. Lift the gong out."
    )
    assert [n.step for n in found.notices] == ["p01.s01"]


def test_a_note_explains_what_was_done():
    found = job("Section one, gong replacement. Unhook the strap. Note: two makes exist. Lift the gong out.")
    assert [n.step for n in found.notices] == ["p01.s01"]


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
        (["2 bolts M6", "gloves! burrs", "gong out"], "notes"),
        (["2 bolts M6", "acid - goggles + apron", "gong out"], "notes"),
        (["2 bolts M6", "pin in lever or arm drops on foot", "gong out"], "notes"),
        (["2 bolts M6", "spring under here, face away", "gong out"], "notes"),
        (["so undo the two bolts", "heads up it's live now so nothing goes near that blade", "then lift the gong out"], "captions"),
    ],
)  # fmt: skip
def test_other_registers(texts, register):
    head = "GONG" if register == "notes" else "okay so we're replacing the gong"
    found = job(head, *texts, register=register, gap=0.9)
    assert [n.kind for n in found.notices] == ["warning"]
    assert len(found.steps) == 2
