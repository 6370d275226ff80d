"""Trade verbs and everyday idioms; the particle may stand after the object."""

import pytest
from marked import with_gaps
from spoken import acting, known_of

CASES = [
    ("Remove the bellows.", "remove"),
    ("Take the bellows off.", "remove"),
    ("Take off the bellows.", "remove"),
    ("Take the two long silver bellows clamps off.", "remove"),
    ("Pop the dial off.", "remove"),
    ("Pop off the dial.", "remove"),
    ("Whip the saddle off.", "remove"),
    ("Get the piston out.", "remove"),
    ("Pull the piston out.", "pull"),
    ("Pull out the piston.", "pull"),
    ("Lift the altar stone out.", "lift"),
    ("Slide the drawer out.", "slide"),
    ("Unplug the loom.", "unplug"),
    ("Plug the loom in.", "plug"),
    ("Plug in the loom.", "plug"),
    ("Switch off the kiln.", "switch off"),
    ("Switch the kiln off.", "switch off"),
    ("Turn the kiln off.", "turn off"),
    ("Switch the kiln back on.", "switch on"),
    ("Crack open the shell.", "open"),
    ("Undo the shackle.", "undo"),
    ("Loosen the shackle.", "loosen"),
    ("Slacken the shackle.", "slacken"),
    ("Tighten the shackle.", "tighten"),
    ("Unscrew the finial.", "unscrew"),
    ("Disconnect the drone pipe.", "disconnect"),
    ("Swing the boom out of the way.", "swing"),
    ("Put the bell back.", "put"),
    ("Put the bell back on.", "put"),
    ("Refit the bell.", "refit"),
    ("Clean the nozzle.", "clean"),
    ("Wipe the lens.", "wipe"),
    ("Check the belt tension.", "check"),
    ("Drain the tank.", "drain"),
    ("Pry the badge up.", "pry"),
    ("Prise the badge off.", "prise"),
    ("Lever the badge off.", "lever"),
    ("Cut the ties.", "cut"),
    ("I'm going to take the bell off.", "remove"),
    ("We're taking the bell off.", "remove"),
    ("Then you just pop the bell off.", "remove"),
    ("Let's take the bell off.", "remove"),
    ("You want to take the bell off.", "remove"),
]
_PLUG = "plug in is kept with its particle, ANNOTATION.md drops it"
_PLURAL = "a plural subject with the base form of a verb"
GAPS = {
    "Plug the loom in.": _PLUG,
    "Plug in the loom.": _PLUG,
}


@pytest.mark.parametrize(("text", "verb"), with_gaps(CASES, GAPS))
def test_verb(text, verb):
    assert [c.deed.verb for c in acting(known_of(text))] == [verb]


RESULTS = [
    ("The drum lifts out.", "lift"),
    ("The drum slides off.", "slide"),
    ("The covers slide out.", "slide"),
    ("The two halves pull apart.", "pull"),
    ("The clips release easily.", "release"),
    ("Both tabs unhook.", "unhook"),
    ("The wires unplug.", "unplug"),
]


@pytest.mark.parametrize(("text", "verb"), with_gaps(RESULTS, dict.fromkeys([t for t, _ in RESULTS[3:]], _PLURAL)))
def test_results(text, verb):
    found = acting(known_of(text))
    assert [(c.deed.verb, c.mood) for c in found] == [(verb, "result")]


@pytest.mark.parametrize(
    ("text", "verbs"),
    [
        ("Undo the two bolts, then unplug the siren.", ["undo", "unplug"]),
        ("Lift the mast and slide the step out.", ["lift", "slide"]),
        ("Take the pin out and put the yoke aside.", ["remove", "set aside"]),
        ("Switch off the furnace, open the door and let it cool.", ["switch off", "open"]),
    ],
)
def test_several(text, verbs):
    assert [c.deed.verb for c in acting(known_of(text))][: len(verbs)] == verbs


@pytest.mark.parametrize(
    "text",
    ["The pump is behind the cover.", "Two clips and a lock.", "The release is on the left.", "A good fit matters."],
)
def test_nouns_are_no_deeds(text):
    assert acting(known_of(text)) == []


def test_particle_is_not_taken_across_a_clause():
    known = known_of("Take the ladle and lift the lid off.")
    assert [c.deed.verb for c in acting(known)] == ["take", "lift"]
