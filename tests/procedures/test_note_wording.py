"""Telegraphic notes become full sentences that an editor still knows as the notes."""

import pytest
from spoken import known_of, lexicon
from told import draft_of, job

from miner.procedures.drafted_steps import CLOSE, closeness, written_out
from miner.procedures.step_found import step_from

HEADING = "== JOB 1: HARP REPLACEMENT =="


def step_of(note):
    """The step of a note between two others."""
    found = draft_of(HEADING, "pull harp plug", note, "lift harp off stand", register="notes", gap=1.0).procedures
    steps = [step for procedure in found for step in procedure.steps]
    assert len(steps) == 3, [step.text for step in steps]
    return steps[1]


def sentence(note):
    """The wording of a note by itself, whatever the step that it becomes."""
    known = known_of("pull harp plug", note, register="notes", gap=1.0)
    clause = known.clauses[-1]
    assert clause.deed is not None
    return written_out(known, step_from(clause, "remove", None, "", None), f"{note.capitalize()}.", lexicon())


ARTICLES = [
    ("pull loom plug", "Pull the loom plug."),
    ("slide card out of slot 3", "Slide the card out of slot 3."),
    ("unplug 2 pin lead from coil", "Unplug the 2 pin lead from the coil."),
    ("turn drum by hand", "Turn the drum by hand."),
    ("lay press on edge", "Lay the press on edge."),
    ("raise lid at rear", "Raise the lid at the rear."),
    ("smear grease on crank pin", "Smear grease on the crank pin."),
    ("wipe dust off mirror", "Wipe dust off the mirror."),
    ("undo nut w/ 13 mm spanner", "Undo the nut with a 13 mm spanner."),
    ("unplug PSU lead", "Unplug the PSU lead."),
    ("lift both pedals off their pins", "Lift both pedals off their pins."),
    ("run self test, no error on display", "Run the self test, no error on the display."),
]


@pytest.mark.parametrize(("note", "wanted"), ARTICLES)
def test_articles(note, wanted):
    assert step_of(note).text == wanted


GROUPS = [
    ("2x PH2 M4x12, tension board", "Remove the two M4x12 PH2 screws that secure the tension board."),
    ("4x T20 M4x25, hood to lower shell", "Remove the four M4x25 T20 screws that secure the hood to the lower shell."),
    ("1x slotted M5x16, pedal plate -> harp base",
     "Remove the M5x16 slotted screw that secures the pedal plate to the harp base."),
    ("pedal rod - 1x nut 13 mm, to base plate", "Remove the 13 mm nut that secures the pedal rod to the base plate."),
    ("8 screws T20, 10 mm, kiln door to frame",
     "Remove the eight 10 mm T20 screws that secure the kiln door to the frame."),
    ("qty 2 torx 8 M3x6, board -> coil holder",
     "Remove the two M3x6 torx 8 screws that secure the board to the coil holder."),
    ("2 captive T15, shuttle cover", "Loosen the two T15 captive screws that secure the shuttle cover."),
    ("3 or 4x T10 on lamp cover", "Remove the three or four T10 screws on the lamp cover."),
    ("3x - no, 2x hex 4 M5x16, damper to base plate",
     "Remove the two M5x16 hex 4 screws that secure the damper to the base plate."),
    ("refit shuttle cover, 4x PH1 M3x10", "Refit the shuttle cover with four M3x10 PH1 screws."),
    ("loosen 2 captive T20 scr, rear edge of lid", "Loosen the two T20 captive screws at the rear edge of the lid."),
]  # fmt: skip


@pytest.mark.parametrize(("note", "wanted"), GROUPS)
def test_a_group_without_a_verb(note, wanted):
    assert step_of(note).text == wanted


def test_what_was_only_inferred_is_not_said():
    assert step_of("4x T20 M4x25").text == "Remove the four M4x25 T20 screws."


PAST = [
    ("Removed three bolts holding the treadle", "Remove three bolts holding the treadle."),
    ("Took out the string lever and lifted it off", "Take out the string lever and lift it off."),
    ("Drew the damper rod out of its guide", "Draw the damper rod out of its guide."),
    ("Undid 2 hose clamps on the steam pipe", "Undo the two hose clamps on the steam pipe."),
    ("Slid the reed carefully off its rail", "Slide the reed carefully off its rail."),
]


@pytest.mark.parametrize(("note", "wanted"), PAST)
def test_the_past_becomes_an_instruction(note, wanted):
    assert step_of(note).text == wanted


PARTICLES = [
    ("gong off", "Take the gong off."),
    ("gong out of kiln frame", "Take the gong out of the kiln frame."),
    ("new belt on", "Put the new belt on."),
    ("shuttle cover back on, 3 bolts", "Put the shuttle cover back on with three bolts."),
    ("washer + spacer off", "Take the washer and the spacer off."),
    ("lift chain off sprocket", "Lift the chain off the sprocket."),
]


@pytest.mark.parametrize(("note", "wanted"), PARTICLES)
def test_a_particle_in_place_of_a_verb(note, wanted):
    assert step_of(note).text == wanted


DONE = [
    ("lead unplugged", "Get the lead unplugged."),  # "unplug the lead" keeps too little of the note
    ("mains lead unplugged from wall socket", "Unplug the mains lead from the wall socket."),
    ("hinge pins knocked out of lid", "Knock the hinge pins out of the lid."),
]


@pytest.mark.parametrize(("note", "wanted"), DONE)
def test_what_was_done_becomes_an_instruction(note, wanted):
    assert sentence(note) == wanted


TAILS = [
    ("tap pin out, rubber mallet", "Tap the pin out with a rubber mallet."),
    ("lay press on its side, towel under", "Lay the press on its side, with the towel under."),
    ("press 2 tabs, push switch thru panel", "Press two tabs, push the switch through the panel."),
    ("tighten cap nut 12 Nm", "Tighten the cap nut to 12 Nm."),
    ("pump lever 10x till firm", "Pump the lever ten times till firm."),
]


@pytest.mark.parametrize(("note", "wanted"), TAILS)
def test_what_a_note_adds(note, wanted):
    assert step_of(note).text == wanted


@pytest.mark.parametrize(
    "note", [note for table in (ARTICLES, GROUPS[:8], PAST, PARTICLES, TAILS) for note, _ in table]
)
def test_the_note_stays_recognisable(note):
    step = step_of(note)
    assert closeness(step.text, note) >= CLOSE
    assert step.spoken == note
    assert step.text[0].isupper()
    assert step.text.count(".") - step.text.count("2.5") == 1


def test_a_wording_too_far_from_the_note_is_not_taken():
    assert step_of("reconn lead").text == "Reconn lead."
    assert step_of("chk peg board w/ mirror").text == "Check peg board with mirror."


@pytest.mark.parametrize(
    ("first", "second", "wanted"),
    [
        ("2x M4x12, lid", "two M4x12 lid", 12 / 13),
        ("gong off", "Take the gong off.", 4 / 6),
        ("gong", "harp", 0.0),
        ("", "", 1.0),
    ],
)
def test_closeness(first, second, wanted):
    assert closeness(first, second) == pytest.approx(wanted)


@pytest.mark.parametrize("register", ["scripted", "spoken", "captions"])
def test_speech_is_left_alone(register):
    (step,) = job("Section one, gong replacement.", "Lift gong off frame.", register=register).steps
    assert step.text == "Lift gong off frame."


TITLES = [
    ("== JOB 1: GONG REPLACEMENT ==", "Gong replacement"),
    ("*** GONG OFF", "Remove the gong"),
    ("NEXT: repl gong", "Replace the gong"),
    ("GONG - remove", "Remove the gong"),
    ("JOB 2 gong swap", "Replace the gong"),
]


@pytest.mark.parametrize(("heading", "wanted"), TITLES)
def test_titles(heading, wanted):
    found = draft_of(heading, "pull plug", "lift gong off frame", register="notes", gap=1.0).procedures
    assert [procedure.title for procedure in found] == [wanted]
