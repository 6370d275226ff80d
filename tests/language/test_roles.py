"""What a sentence is for."""

import pytest
from marked import with_gaps
from spoken import known_of

CASES = [
    ("Undo the two bolts and lift the yoke off.", "step"),
    ("I'm going to slide the drum out.", "step"),
    ("There are four screws.", "groups"),
    ("Warning: the furnace stays hot for an hour.", "notice"),
    ("Caution, the reeds bend easily.", "notice"),
    ("The tines are sharper than they look.", "notice"),
    ("Ninety litres of air will put a bolt through a wall.", "notice"),
    ("We don't want it starting up with somebody's hand in the loom.", "notice"),
    ("Only hold it by the rim or your fingers'll spoil the mirror.", "notice"),
    ("There's enough charge in there to put you on your back.", "notice"),
    ("That blade has had two of my fingertips.", "notice"),
    ("The flywheel keeps turning for a good minute.", "notice"),
    ("Mains in here is no joke.", "notice"),
    ("Kiln dust is bad for the lungs.", "notice"),
    ("Hold it by the edges and slide it out.", "step"),
    ("You don't want the long one, put the short screw in.", "step"),
    ("You can leave everything on for this one.", "no-prerequisite"),
    ("Danger! High voltage behind this panel.", "notice"),
    ("Note: the pin is left-handed.", "notice"),
    ("Be careful with the glass.", "notice"),
    ("Mind your fingers on the blade.", "notice"),
    ("Don't touch the mirror.", "notice"),
    ("Careful, the edge is sharp.", "notice"),
    ("Watch out for the spring.", "notice"),
    ("Always wear goggles here.", "notice"),
    ("Refitting is the reverse of removal.", "reverse"),
    ("To install, reverse these steps.", "reverse"),
    ("It goes back in the reverse order.", "reverse"),
    ("Put it back together the opposite way.", "reverse"),
    ("Same thing backwards to put it in.", "reverse"),
    ("The hood must be off first.", "prerequisite"),
    ("You'll need the hood and the drum out first.", "prerequisite"),
    ("Before you start, remove the hood.", "prerequisite"),
    ("With the hood already removed.", "prerequisite"),
    ("Prerequisites: hood and drum.", "prerequisite"),
    ("This procedure requires the hood to be removed.", "prerequisite"),
    ("Seat and hood want to be off.", "prerequisite"),
    ("The hood and the drum are off at this stage.", "prerequisite"),
    ("Before the kiln is approached, the hood shall be off, and the tank shall be empty.", "prerequisite"),
    ("The kiln must be unplugged.", "prerequisite"),
    ("Before you start, make sure the hood and the drum are off.", "prerequisite"),
    ("Nothing happens here until the hood is out of the way.", "prerequisite"),
    ("I've already whipped the hood off, and the drum.", "prerequisite"),
    ("Removal of the hood is a precondition.", "prerequisite"),
    ("The hood needn't come off.", "no-prerequisite"),
    ("No need to touch the hood for this one.", "no-prerequisite"),
    ("A word of warning, the kiln holds its heat.", "notice"),
    ("Safety notice: the oil is under pressure.", "notice"),
    ("Worth knowing, the pawl is left-handed.", "notice"),
    ("Grip it by the rim, never the glass, and draw the lens out.", "step"),
    ("Turn the key and watch the loom start by itself.", "step"),
    ("Look into it with the hood off.", "step"),
    ("You don't need anything off for that.", "no-prerequisite"),
    ("Run the tap until nothing comes out.", "step"),
    ("No prerequisites.", "no-prerequisite"),
    ("Nothing else has to come off.", "no-prerequisite"),
    ("That's the yoke done.", "closing"),
    ("And that completes the yoke replacement.", "closing"),
    ("Okay, yoke finished.", "closing"),
    ("It's raining again today.", "aside"),
    ("Lovely old machine, this.", "aside"),
    ("My granddad had one of these.", "aside"),
    ("Make sure the pawl is seated.", "important"),
    ("It is important that the pawl is seated.", "important"),
]
GAPS: dict[str, str] = {}


@pytest.mark.parametrize(("text", "role"), with_gaps(CASES, GAPS))
def test_role(text, role):
    assert known_of(text).sentences[0].role == role  # a label with a colon is a sentence of its own


@pytest.mark.parametrize(
    "text",
    with_gaps([
        "I don't know why they glued the badge.",
        "Lift the hot plate off.",
        "Remove the warning label.",
        "Undo the reverse gear lever.",
        "Take out the first screw.",
        "Remove the safety cover.",
    ], {}),
)  # fmt: skip
def test_plain_steps_with_words_of_other_roles(text):
    assert known_of(text).sentences[0].role in ("step", "aside")
