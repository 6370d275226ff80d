"""Jobs that are announced in passing, taken up again after another, or named by a gerund."""

import pytest
from told import draft_of, lines

HOOD = "Removing the hood. Undo the two nuts. Lift the hood off. Refitting is the reverse of removal. "
BODY = " Undo the three bolts. Lift the {0} out. Refitting is the reverse of removal."

SAID = [
    "The subject now is removing the siren.",
    "Next, exchanging the siren.",
    "We turn now to replacing the siren.",
    "Last of all, removing the siren.",
    "The siren, because this one howls.",
    "Then the siren, the brass thing up there, I'll have that out as well.",
    "Siren next.",
    "While that dries, I'll do the siren.",
    "I reckon it's the siren, so that's the next one.",
    "So here's how you take the siren out.",
    "Okay. The siren, which is what wakes the dog.",
    "We'll kick off with the siren.",
    "So the easy one first, the siren.",
    "Now the proper work, the siren.",
    "Okay, so now the siren's coming off.",
    "That siren's worn to nothing, I'll stop and replace it now.",
    "And the last thing, once it is together, is the siren.",
]


@pytest.mark.parametrize("heading", SAID)
def test_a_job_announced_in_passing(heading):
    found = draft_of(HOOD + heading + BODY.format("siren"), register="spoken").procedures
    assert [p.subject for p in found] == ["hood", "siren"]
    assert found[1].heading.spoken


NOT_SAID = [
    "Before removing the siren, wait a minute.",
    "Removing the siren is not needed.",
    "The new siren then stands up by itself.",
    "Quiet as a harp.",
    "I don't do the siren today.",
]


@pytest.mark.parametrize("text", NOT_SAID)
def test_no_job(text):
    found = draft_of(HOOD + text + " Wipe the bench.", register="spoken").procedures
    assert [p.subject for p in found if p.heading.spoken] == ["hood"]


def test_a_job_taken_up_again():
    found = draft_of(
        "Replacing the pump. Undo the two nuts of the pump. Unplug the pump lead. "
        "While I'm in here, I'll do the gauge. Undo the clip, and lift the gauge out. Push the new gauge in. "
        "Right, back to the pump. Lift the pump out. Drop the new pump in, and tighten the two nuts.",
        register="spoken",
    ).procedures
    assert [p.subject for p in found] == ["pump", "gauge"]
    assert "remove: lift pump" in lines(found[0])
    assert found[0].end > found[1].end
    assert found[0].start < found[1].start


def test_notes_taken_up_again():
    notes = ["== pump ==", "2 nuts M6", "lead off", "== gauge ==", "clip off", "gauge out", "new gauge in",
             "== back on pump ==", "pump out", "new pump in"]  # fmt: skip
    found = draft_of(*notes, register="notes").procedures
    assert [p.subject for p in found] == ["pump", "gauge"]
    assert "remove: remove pump" in lines(found[0])


@pytest.mark.parametrize(
    ("form", "heading"),
    [
        ("start {}", "start siren"),
        ("job 1, {}", "job 3, siren"),
        ("job 1, {}", "job 3, siren, hood is off"),
        ("{} ---", "siren ---"),
        ("-- {} --", "-- siren --"),
        ("START ON {}", "START ON SIREN"),
    ],
)
def test_headings_of_notes(form, heading):
    notes = [form.format("hood"), "2 nuts M6", "hood off", "rev to fit", form.format("lamp"), "lamp out", "rev to fit",
             heading, "3x T20 M5x12", "siren out", "rev to fit"]  # fmt: skip
    found = draft_of(*notes, register="notes").procedures
    assert [p.subject for p in found] == ["hood", "lamp", "siren"]


def test_what_stands_behind_a_heading_is_read():
    notes = ["job 1, hood", "hood off", "rev to fit", "job 2, siren, hood is off", "siren out", "rev to fit"]
    found = draft_of(*notes, register="notes").procedures
    assert [q.part for q in found[1].prerequisites] == ["hood"]


def test_a_forgotten_step_is_put_where_it_belongs():
    (job,) = draft_of(
        "Removing the siren. Undo the three bolts. Lift the siren out. "
        "Oh, before that, unplug the siren lead. Refitting is the reverse of removal.",
        register="spoken",
    ).procedures
    assert lines(job) == ["remove: undo bolts | 3 bolt", "remove: unplug siren lead", "remove: lift siren"]
    late = job.steps[1]
    assert late.start > job.steps[2].start
    assert "before that" in late.inferred["order"]


def test_a_forgotten_step_before_one_that_is_named():
    notes = ["SIREN", "undo 3 bolts M6", "siren out", "forgot to say: before the bolts unplug siren lead", "rev to fit"]
    (job,) = draft_of(*notes, register="notes").procedures
    assert [step.action for step in job.steps] == ["unplug", "undo", "remove"]


PASSIVE = (
    "Chapter one, removal of the siren. The mains switch is turned to off. The three bolts are slackened. "
    "The siren is then withdrawn from the mast. The gasket is scraped off. The horn is held by two clips. "
    "The horn is swung aside. The new siren is pushed home. The three bolts are to be tightened."
)


def test_a_manual_in_the_passive():
    (job,) = draft_of(PASSIVE).procedures
    assert [step.action for step in job.steps] == [
        "turn off", "slacken", "withdraw", "scrape", "remove", "swing", "seat", "tighten",
    ]  # fmt: skip


def test_what_is_held_is_no_step():
    (job,) = draft_of("Removing the siren. The siren is fixed to the mast. Lift the siren out.").procedures
    assert [step.action for step in job.steps] == ["lift"]


@pytest.mark.parametrize(
    "told",
    [
        "Ah, I forgot, before you lift the siren cover you have to cut the zip tie.",
        "I should have said, before you lift the siren cover off, cut the zip tie.",
    ],
)
def test_a_forgotten_step_before_the_part_of_the_whole_name(told: str):
    texts = ["First job, the siren.", "Undo three bolts.", "Lift the siren cover off.", "Take the siren out.", told]
    (job,) = draft_of(*texts).procedures
    assert [step.action for step in job.steps] == ["undo", "cut", "lift", "remove"]


@pytest.mark.parametrize(
    "text", ["Wait five minutes for the oil to drain.", "Wait until the flywheel has stopped.", "Wait 10 min."]
)
def test_a_wait_of_its_own_is_a_step(text: str):
    (job,) = draft_of("Removing the siren.", text, "Lift the siren off.").procedures
    assert [step.text for step in job.steps] == [text, "Lift the siren off."]


@pytest.mark.parametrize("text", ["Wait a minute.", "Oh wait, the lid.", "Wait for it."])
def test_a_halt_in_talk_is_none(text: str):
    (job,) = draft_of("Removing the siren.", text, "Lift the siren off.").procedures
    assert [step.text for step in job.steps] == ["Lift the siren off."]


def test_a_new_one_fitted_after_an_instruction_names_no_job():
    texts = ["First job, the siren.", "Pull the horn out and wipe it, or fit a new one.", "Lift the siren off."]
    assert [job.subject for job in draft_of(*texts).procedures] == ["siren"]


def test_an_assembly_slid_backwards_is_no_reversal():
    (job,) = draft_of("Removing the horn assembly.", "Undo two bolts.", "Slide the horn assembly backwards.").procedures
    assert [step.action for step in job.steps] == ["undo", "slide"]


@pytest.mark.parametrize("text", ["Install in reverse order.", "Assemble in reverse sequence.", "Refit in reverse."])
def test_a_reverse_order_is_no_part(text: str):
    (job,) = draft_of("Removing the siren.", "Undo two bolts.", "Lift the siren off.", text).procedures
    assert (job.install.mode, len(job.steps)) == ("reverse", 2)


def test_that_before_a_clause_is_no_pronoun():
    (job,) = draft_of("Removing the siren.", "Undo two bolts.", "Check that the horn sits level.").procedures
    assert (job.steps[-1].part, dict(job.steps[-1].inferred)) == ("horn", {})


def test_what_the_speaker_did_to_himself_is_no_work():
    texts = ["Removing the siren.", "I cut myself last time.", "Undo two bolts.", "Lift the siren off."]
    (job,) = draft_of(*texts).procedures
    assert [step.action for step in job.steps] == ["undo", "lift"]


def test_the_end_of_the_script_is_no_step():
    texts = ["Removing the siren.", "Undo two bolts.", "Lift the siren off.", "We've come to the end of this job."]
    (job,) = draft_of(*texts).procedures
    assert len(job.steps) == 2


def test_a_caution_goes_on_with_what_to_keep_away():
    texts = [
        "Removing the siren.",
        "Caution. Acid drips from the horn. Keep it away from the mast.",
        "Lift the siren off.",
    ]
    (job,) = draft_of(*texts).procedures
    assert [step.text for step in job.steps] == ["Lift the siren off."]
    assert job.notices[0].text.endswith("Keep it away from the mast.")


def test_those_fasteners_are_undone_by_the_sentence_that_takes_them_up():
    texts = ["Removing the siren.", "There are four bolts on the clamp. Undo those and lift the clamp away."]
    (job,) = draft_of(*texts, register="spoken").procedures
    assert [step.text for step in job.steps] == [
        "There are four bolts on the clamp. Undo those.",
        "Lift the clamp away.",
    ]


def test_a_check_in_a_sentence_of_its_own_is_a_step():
    told = ["Turn the siren by hand and check that it runs free.", "And check the lamp comes on."]
    (job,) = draft_of(
        "Removing the siren.", "Undo two bolts.", "Lift the siren off.", "Fit the siren.", *told
    ).procedures
    assert [step.text for step in job.steps][-2:] == [
        "Turn the siren by hand and check that it runs free.",
        "Check the lamp comes on.",
    ]
