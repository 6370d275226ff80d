"""Sentences, with the speaker's punctuation and without any."""

from itertools import pairwise

import pytest
from marked import with_gaps
from spoken import clauses_of, known_of, sentences_of

PUNCTUATED = [
    ("Undo the two nuts. Lift the gong off.", 2),
    ("Undo the two nuts! Lift the gong off?", 2),
    ("Undo the no. 2 Phillips screws. Lift the gong off.", 2),
    ("It is 2.5 mm. Lift the gong off.", 2),
    ("Undo the nuts, lift the gong, put it aside.", 1),
    ("Okay. So. Lift the gong off.", 3),
    ("Lift the gong off... and put it aside.", None),
]


@pytest.mark.parametrize(("text", "count"), PUNCTUATED)
def test_punctuated(text, count):
    found = sentences_of(known_of(text))
    assert " ".join(found) == " ".join(known_of(text).lower)
    assert count is None or len(found) == count


UNPUNCTUATED = [
    "okay so the bell frame / next undo the two bolts on the left / then lift the frame off / now unplug the siren lead",
    "first take the hood off / then undo the four screws underneath / and now the drum lifts out",
    "so we're going to take the seat off / undo the bolt at the back / slide the seat forward",
    "undo the three screws / lift the dial off / unplug the two leads / take the plate out",
    "take the reel out / it's held by two clips / so push those in / and then it slides off",
    "loosen the clamp / pull the hose off / now there's a spring behind it / hold on to the spring",
    "right next job is the anchor winch / before this the deck plate has to be out / so undo the four nuts",
    "when it goes back make sure the pawl is up / okay that's the pawl done",
]


OPEN = {
    UNPUNCTUATED[4]: "an explanation, and the instruction that follows from it, stay in one sentence",
    UNPUNCTUATED[5]: "an imperative after a pronoun governed by a preposition",
    UNPUNCTUATED[6]: "a prerequisite that opens with a preposition",
}
_CONTACT = "a clause without a relative or reporting word after the one"


@pytest.mark.parametrize("text", with_gaps(UNPUNCTUATED, OPEN))
def test_unpunctuated(text):
    """Wanted cuts are found; a cut too many inside an utterance is counted, at most one in a text."""
    pieces = [piece.split() for piece in text.split(" / ")]
    wanted, at = set(), 0
    for piece in pieces[:-1]:
        at += len(piece)
        wanted.add(at)
    known = known_of(text.replace(" / ", " "), register="captions")
    found = {s.start for s in known.sentences} - {0}
    assert wanted - found == set(), sentences_of(known)
    assert len(found - wanted) <= 1, sentences_of(known)


CLASSES = [
    # instructions after a noun, where the verb may be a noun and no article helps
    "remove the hood from the kiln / lift off the drum guard / check that the pawl is free",
    "undo the two nuts on the mast / press the new seal into the groove / wear gloves and clean the blade",
    "undo the clamp on the reel / turn the drum upright / look through the sight glass",
    # verbs that hang on a plural noun, on "let", on what may happen
    "pull the reel out until both pawls release the drum / undo the bolt",
    "hold the drum and let the reel unwind a turn / undo the bolt on the left",
    "mind the spring / it can jump out and take your eye / undo the bolt on the mast",
    # lists of parts stay with their verb
    "section three / gong replacement / the hood and the drum must be removed / undo the nut",
    "unplug the siren lead / the reel the mast and the deck plate have to be out / undo the four nuts",
    # titles, signals, the way back, the end of a job
    "procedure two / winch pawl replacement / undo the four nuts / pull the pawl out",
    "lift the drum out of the kiln / caution the drum is heavy / undo the four nuts",
    "slide the reel off the mast / installation is the reverse of removal / that completes the reel",
    "slide the reel off the mast / reverse these steps to install the reel / unplug the siren lead",
    "pull the mast out of the deck / to refit the mast push it into the deck / unplug the siren lead",
    # leads
    "tighten the two nuts on the mast / if the mast rubs loosen the two nuts by a turn",
    "lift the gong off the frame / before starting the hood must be off / undo the four nuts",
    # talk
    "now we're replacing the siren / for this you need the hood off / undo the four nuts",
    "pull the mast out of the deck / it goes back the same way / next up is the winch",
]


@pytest.mark.parametrize("text", CLASSES)
def test_classes(text):
    """Each class of beginning that no punctuation shows, and the places that look like one."""
    pieces = [len(piece.split()) for piece in text.split(" / ")]
    known = known_of(text.replace(" / ", " "), register="captions")
    assert [s.end - s.start for s in known.sentences] == pieces, sentences_of(known)


CLAUSES = [
    "take the reel out / it's held by two clips / so push those in",
    "undo the nut on the mast / they're a tight fit",
    "if the mast rubs / loosen the two nuts by a turn",
    "the edge of the drum is sharp / so wear gloves",
]


@pytest.mark.parametrize("text", CLAUSES)
def test_explanations_begin_clauses(text):
    """What a writer would set off by a comma ends no sentence."""
    pieces = [len(piece.split()) for piece in text.split(" / ")]
    known = known_of(text.replace(" / ", " "), register="captions")
    assert len(known.sentences) == 1, sentences_of(known)
    assert [c.end - c.start for c in known.clauses] == pieces, clauses_of(known)


@pytest.mark.parametrize(
    "text",
    with_gaps([
        "see where it goes into the socket",
        "push the lock to release the cable",
        "the one you took out before",
        "make sure you do not lose the spring",
        "take the left and the right bracket off",
    ], {
        "the one you took out before": _CONTACT,
    }),
)  # fmt: skip
def test_not_cut(text):
    filler = "so now undo the nuts then lift the gong off and put it aside "
    known = known_of(filler + text, register="captions")
    begin = len(filler.split())
    assert [s.start for s in known.sentences if s.start > begin] == []


def test_a_pause_cuts():
    together = known_of("lift the gong off", "the frame stays", register="captions", gap=0.1)
    apart = known_of("lift the gong off", "the frame stays", register="captions", gap=2.0)
    assert len(apart.sentences) == 2
    assert len(together.sentences) <= 2


def test_notes_end_with_their_line():
    known = known_of("hood off", "T15 bit", "lead out", register="notes")
    assert sentences_of(known) == ["hood off", "t15 bit", "lead out"]


def test_no_gaps_and_no_overlap():
    known = known_of("Well. Undo it, then lift. And so on, and so on!", register="spoken")
    edges = [(s.start, s.end) for s in known.sentences]
    assert edges[0][0] == 0
    assert edges[-1][1] == len(known.lower)
    assert all(a[1] == b[0] for a, b in pairwise(edges))


@pytest.mark.xfail(strict=True, reason="a recording without words")
def test_empty():
    known = known_of("")
    assert known.sentences == []
