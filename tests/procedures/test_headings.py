"""Headings: which utterances announce a job, its kind and part."""

import pytest
from marked import with_gaps
from told import draft_of

BODY = "Undo the four screws that hold the {0} to the frame. Lift the {0} out. Refitting is the reverse of removal."
SPOKEN = [
    ("Replacing the drum motor.", "drum motor", "replace"),
    ("Drum motor replacement.", "drum motor", "replace"),
    ("Removing the drum motor.", "drum motor", "remove"),
    ("Removal of the drum motor.", "drum motor", "remove"),
    ("Drum motor removal.", "drum motor", "remove"),
    ("How to replace the drum motor.", "drum motor", "replace"),
    ("Section three, replacing the drum motor.", "drum motor", "replace"),
    ("Section 3: drum motor.", "drum motor", None),
    ("Next up, the drum motor.", "drum motor", None),
    ("Next, we replace the drum motor.", "drum motor", "replace"),
    ("Now let's move on to the drum motor.", "drum motor", None),
    ("Okay, the drum motor.", "drum motor", None),
    ("So now we're going to be replacing the drum motor.", "drum motor", "replace"),
    ("The next job is the drum motor.", "drum motor", None),
    ("This section covers the drum motor.", "drum motor", None),
    ("And finally, the drum motor.", "drum motor", None),
    ("Alright, drum motor next.", "drum motor", None),
]
FIRST = "Replacing the hood. Undo the two clips and lift the hood off. Refitting is the reverse of removal. "


@pytest.mark.parametrize(
    ("heading", "part", "kind"),
    with_gaps(
        SPOKEN,
        {
            "So now we're going to be replacing the drum motor.": "the announcement takes the job's verb with it, so the kind is open",
        },
    ),
)
def test_second_heading(heading, part, kind):
    found = draft_of(FIRST + heading + " " + BODY.format(part)).procedures
    assert [p.subject for p in found] == ["hood", part]
    assert found[1].heading.spoken
    assert kind is None or found[1].kind == kind
    assert len(found[1].steps) == 2
    assert len(found[0].steps) in (1, 2)


CAPTIONS = [
    ("next up is the drum motor", "drum motor"),
    ("okay so the drum motor", "drum motor"),
    ("right now the drum motor", "drum motor"),
    ("so next job is replacing the drum motor", "drum motor"),
]


@pytest.mark.parametrize(
    ("heading", "part"),
    with_gaps(CAPTIONS, {}),
)
def test_in_captions(heading, part):
    texts = ["okay first job the hood", "undo the two clips", "and lift the hood off", "it goes back in reverse order", heading,
             f"undo the four screws that hold the {part} to the frame", f"then lift the {part} out"]  # fmt: skip
    found = draft_of(*texts, register="captions", gap=0.9).procedures
    assert [p.subject for p in found] == ["hood", part]


NOTES = [
    (["DRUM MOTOR"], "drum motor"),
    (["Drum motor - replace"], "drum motor"),
    (["repl drum motor"], "drum motor"),
    (["NEXT: DRUM MOTOR"], "drum motor"),
    (["== drum motor =="], "drum motor"),
    (["2) drum motor removal"], "drum motor"),
    (["-- drum motor --"], "drum motor"),
]


@pytest.mark.parametrize(("heading", "part"), NOTES)
def test_in_notes(heading, part):
    notes = ["HOOD", "2 clips", "hood off", "refit rev", *heading, "4x T15 M4x12", "motor out", "refit rev"]
    found = draft_of(*notes, register="notes").procedures
    assert [p.subject for p in found] == ["hood", part]
    assert [len(p.steps) for p in found] == [2, 2]


@pytest.mark.parametrize(
    "text",
    with_gaps([
        "The drum motor is heavy.",
        "Behind it sits the drum motor.",
        "Next, undo the three nuts.",
        "Now unplug the drum motor.",
        "Okay, that's tight.",
        "So this is where the drum motor lives.",
        "Replacing it is easy.",
    ], {}),
)  # fmt: skip
def test_no_heading(text):
    found = draft_of(
        FIRST.replace("Refitting is the reverse of removal. ", "") + text + " Then pull the felt ring out."
    ).procedures
    assert len(found) == 1


def test_a_section_number_is_no_part():
    found = draft_of("Section twelve. Replacing the siren. " + BODY.format("siren")).procedures
    assert [(p.subject, p.kind) for p in found] == [("siren", "replace")]


def test_a_last_check_is_no_heading():
    found = draft_of(
        "Replacing the feed motor. Undo the three screws that secure the motor to the bracket. Lift the motor out. Refitting is the reverse of "
        "removal. Finally, check the feed. Removing the hood. Undo the four clips and lift the hood off."
    ).procedures
    assert [p.subject for p in found] == ["feed motor", "hood"]


def test_the_introduction_belongs_to_no_job():
    found = draft_of(
        "Hello and welcome to the workshop. Today I have a pottery kiln here. Replacing the siren. "
        + BODY.format("siren")
    ).procedures
    assert [p.subject for p in found] == ["siren"]
    assert found[0].heading.text == "Replacing the siren"


FIRST_WORDS = [
    "Replacing the gong.",
    "Gong replacement.",
    "Removing the gong.",
    "How to replace the gong.",
    "Section one, gong replacement.",
    "Today we replace the gong.",
]
_UNNAMED = "a heading is no heading where the part that it names is not named again"


@pytest.mark.parametrize(
    "heading",
    with_gaps(
        FIRST_WORDS,
        {"Today we replace the gong.": _UNNAMED},
    ),
)
def test_first_words_over_a_body_that_does_not_name_the_part_again(heading):
    (job,) = draft_of(heading + " Undo the two bolts. Lift it out. Unplug the lead.").procedures
    assert (job.subject, job.heading.spoken) == ("gong", True)
    assert len(job.steps) == 3


@pytest.mark.parametrize(
    ("text", "title"),
    with_gaps([
        ("Section one, gong replacement.", "Gong replacement"),
        ("Next up, replacing the gong.", "Replacing the gong"),
        ("Okay, so next up is replacing the gong.", "Replacing the gong"),
        ("Okay, first job, replacing the gong.", "Replacing the gong"),
    ], {
        "Okay, first job, replacing the gong.": "the announcing words stay in the title",
        "Okay, so next up is replacing the gong.": "the announcing words stay in the title",
        "Next up, replacing the gong.": "the announcing words stay in the title",
    }),
)  # fmt: skip
def test_title(text, title):
    (job,) = draft_of(text + " Undo the two bolts. Lift the gong out. Refitting is the reverse.").procedures
    assert job.title == title
