"""What must be out first, split, linked, and told apart from preparations."""

import pytest
from marked import with_gaps
from told import draft_of

from miner.procedures.prerequisites import split_names

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
    ("Pressure's off, and the hood is out already.", ["hood"], 1),
    ("As a rule the hydraulic pressure is off.", [], 1),
    ("Pressure's off, we've no ram on it, so we're fine.", [], 1),
    ("The fuel is off and so is the hood.", ["hood"], 1),
    ("The power supply is already out from the last job.", ["power supply"], 0),
    ("So seat, hood, drum, all out already.", ["seat", "hood", "drum"], 0),
    ("You can't reach the pawl with the hood on.", ["hood"], 0),
    ("There's no getting at it with the rear panel in place.", ["rear panel"], 0),
    ("You'll have done the drum already.", ["drum"], 0),
    ("To get in here the rear panel has to go, and so does the hood.", ["rear panel", "hood"], 0),
    ("You need to have been through the hood job.", ["hood"], 0),
    ("Rear panel removed as per job two.", ["rear panel"], 0),
    ("The kiln must be standing on blocks.", [], 1),
    ("Nothing else has to come off.", [], 0),
    ("The hood must be off because it covers the bolts.", ["hood"], 0),
    ("The kiln must be unplugged.", [], 1),
    ("The tank must be empty and the hood off.", ["hood"], 1),
    ("The hood has to be off, and the boiler must be drained.", ["hood"], 1),
    ("The kiln has to be unplugged and stone cold.", [], 1),
    ("I want it lying on its back and the hood off.", ["hood"], 1),
    ("The power is off, and the hood is off.", ["hood"], 1),
    ("Hood and drum are to be dismounted in advance, and the valve is to be closed.", ["hood", "drum"], 1),
    ("Work starts with the hood off and the mains disconnected.", ["hood"], 1),
    ("The hood and the drum must be absent.", ["hood", "drum"], 0),
    ("The hood and the drum have been set aside.", ["hood", "drum"], 0),
    ("This work is carried out with the hood and drum removed.", ["hood", "drum"], 0),
    ("Access is gained by removing the hood and the drum.", ["hood", "drum"], 0),
    ("What I want out of the way is the hood, the drum and both heddles.", ["hood", "drum", "heddles"], 0),
    ("For that you've had the hood out, the drum out and the rear panel off.", ["hood", "drum", "rear panel"], 0),
    ("Which means the hood is off, obviously, we just did that.", ["hood"], 0),
    ("For that, hood off again, same as before.", ["hood"], 0),
    ("Same again, hood and drum off.", ["hood", "drum"], 0),
    ("You'll want the hood off for that, so I ran it all off last night.", ["hood"], 0),
    ("Out already at this point: hood, drum.", ["hood", "drum"], 0),
    ("Preceding work: hood, drum.", ["hood", "drum"], 0),
    ("Hood, drum, rear panel: all out.", ["hood", "drum", "rear panel"], 0),
    ("We'll need these out of the way: the hood, the drum and the rear panel.", ["hood", "drum", "rear panel"], 0),
    ("Necessary preliminary work: remove the hood and the drum.", ["hood", "drum"], 0),
    ("You'll need the hood off, and the drum as well.", ["hood", "drum"], 0),
    ("The hood has to come down first, and so does the drum.", ["hood", "drum"], 0),
    ("Before you start, make sure the hood and the drum are off.", ["hood", "drum"], 0),
    ("Start from the point at which the hood and the drum are out.", ["hood", "drum"], 0),
    ("Removal of the hood and of the drum is a precondition.", ["hood", "drum"], 0),
    ("You can't get near it till the hood's out of the road.", ["hood"], 0),
    ("I've already whipped the hood off, and the drum.", ["hood", "drum"], 0),
    ("The lever must be down.", [], 1),
    ("The hood's gone brown.", [], 0),
    ("The hood needn't come off.", [], 0),
    ("You don't need anything off for that.", [], 0),
    ("You won't need the hood off for this.", [], 0),
    ("There's no need to have the hood off.", [], 0),
    ("Nothing to take off for that one.", [], 0),
    ("No dismantling is needed.", [], 0),
    ("The hood can stay on.", [], 0),
]
GAPS = {
    "First complete hood removal.": "a part whose name stands inside a job's name",
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


@pytest.mark.parametrize(
    ("text", "parts", "first"),
    [
        ("With the hood off, and the drum still out, you can see a bracket, so unclip the bracket.", ["hood", "drum"], "Unclip the bracket."),
        ("The hood's still off, so, unhook the strap.", ["hood"], "Unhook the strap."),
        ("So that's with the hood off, obviously, unhook the strap.", ["hood"], "Unhook the strap."),
    ],
)  # fmt: skip
def test_before_a_step_in_its_own_sentence(text, parts, first):
    job = draft_of(f"Okay, next we'll replace the siren. {text} Lift the siren out.", register="spoken").procedures[0]
    assert [q.part for q in job.prerequisites] == parts
    assert job.steps[0].text == first


@pytest.mark.parametrize(
    ("heading", "register", "parts"),
    [
        ("Setting up the siren, that's the red one, so that's with the hood off and the rear panel off.", "spoken", ["hood", "rear panel"]),
        ("okay next up the siren obviously your hood's off for this", "captions", ["hood"]),
        ("JOB 3, siren, hood off", "notes", ["hood"]),
    ],
)  # fmt: skip
def test_in_the_sentence_of_the_heading(heading, register, parts):
    job = draft_of(heading, "undo the two bolts", "lift the siren out", register=register, gap=0.9).procedures[0]
    assert [q.part for q in job.prerequisites] == parts


def test_work_behind_it_in_the_sentence_is_kept():
    job = draft_of(
        "okay next we're replacing the siren", "you only need the hood off for this so unplug the fan",
        "lift the siren out", register="captions", gap=0.9,
    ).procedures[0]  # fmt: skip
    assert [q.part for q in job.prerequisites] == ["hood"]
    assert [s.text for s in job.steps] == ["Unplug the fan.", "Lift the siren out."]


def test_a_run_of_names_is_cut_where_the_recording_knows_them():
    names = frozenset(("dust cover", "platter", "battery", "cover", "battery cover"))
    assert split_names("dust cover platter", names) == ["dust cover", "platter"]
    assert split_names("battery cover", names) == ["battery cover"]
    assert split_names("gong", names) == ["gong"]


def test_not_linked():
    draft = draft_of("Replacing the siren. The hood must be off first. Undo the two bolts. Lift the siren out.")
    assert [(q.part, q.procedure) for q in draft.procedures[0].prerequisites] == [("hood", None)]


def test_down_is_out_for_a_part_that_another_job_takes_down():
    draft = draft_of(
        "Removing the ceiling panel. Undo the two nuts. Lower the ceiling panel. "
        "Replacing the siren. That wants the ceiling panel down, and the forks must be down. Undo the two bolts."
    )
    assert [q.part for q in draft.procedures[1].prerequisites] == ["ceiling panel"]


def test_parts_listed_in_the_sentence_before():
    draft = draft_of(
        "okay first up removing the hood", "undo the two nuts", "lift the hood off",
        "okay next we're replacing the siren", "well let's do it so hood", "they're all off already um",
        "undo the two bolts", register="captions", gap=0.9,
    )  # fmt: skip
    assert [q.part for q in draft.procedures[1].prerequisites] == ["hood"]


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
        (["SIREN", "hood + drum off (jobs 1, 2)", "2 bolts M6", "siren out"], "notes", ["hood", "drum"]),
        (["SIREN", "after hood off", "2 bolts M6", "siren out"], "notes", ["hood"]),
        (["SIREN", "hood, drum: gone already", "2 bolts M6", "siren out"], "notes", ["hood", "drum"]),
        (["so the siren", "you need the hood out of there and the drum too", "undo the two bolts", "lift the siren out"], "captions", ["hood", "drum"]),
        (["Okay, the siren. Um, for this one you need the hood off, obviously. So, two bolts, out they come. Siren lifts out."], "spoken", ["hood"]),
    ],
)  # fmt: skip
def test_other_registers(texts, register, parts):
    job = draft_of(*texts, register=register, gap=0.9).procedures[0]
    assert [q.part for q in job.prerequisites] == parts
