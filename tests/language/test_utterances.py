"""Sentences, with the speaker's punctuation and without any."""

from itertools import pairwise

import pytest
from marked import with_gaps
from spoken import known_of, sentences_of

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
