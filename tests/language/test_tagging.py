"""Word classes where one spelling has several; only the letters that a case is about are marked."""

import pytest
from marked import parse, with_gaps
from spoken import known_of

CASES = [
    "[Cover](V) the anvil and lift the [cover](H).",
    "[Clip](V) the reed back and undo the [clip](F).",
    "[Screw](V) it in until the [screw](F) bites.",
    "[Bolt](V) the vice down with two [bolts](F).",
    "[Pin](V) the flap open; the [pin](F) is long.",
    "[Screw](V) in the new tap, then [bolt](V) on the rail.",
    "First, [clip](V) down the lid; the [clip](F) in the lid stays.",
    "The gauge lead and the horn lead [run](V) side by side.",
    "Undo the rail and the horn [post](H).",
    "[Do](V) the four screws up.",
    "[Do](X) you see that?",
    "I'll [have](V) the old felt ring out.",
    "You [have](X) the right tool.",
    "[Swaddle](V) the gauge in felt.",
    "The pins are [swaged](E) flat.",
    "New ones [slide](V) in.",
    "Slide the [coupling](H) back.",
    "[Pump](H). Take it off.",
    "The [pump](H) sits below.",
    "[Drain](V) the vat, then close the [drain](H).",
    "[Lock](V) the wheel, then turn the [lock](H).",
    "[Left](A) bracket, then the [right](A) one.",
    "The [back](A) panel goes [back](r) on.",
    "[Right](T), lift the [right](A) door.",
    "[Now](T) the [next](A) screw.",
    "[That](D) wheel is the one [that](W) squeaks.",
    "Take [it](O) off and put [them](O) aside.",
    "[Don't](J) lift it [before](W) it cools.",
    "The screws [holding](G) the dial are [removed](E).",
    "[I'm](I) [going](X) [to](t) [lift](V) the bell.",
    "It is [slowly](R) turned.",
    "Undo the [8](Z) [mm](Z) [T10](Z) screws.",
    "[Two](N) of [them](O) stay.",
    "Take the plate [out](r) [of](o) the press.",
    "The [clips](F) [release](S) easily.",
    "The rotor [lifts](S) out.",
    "[Unobtainium](n) plate.",
    "Remove the [one](O) on the right.",
]
_PLURAL = "a plural subject with the base form of a verb"
GAPS = {
    "[That](D) wheel is the one [that](W) squeaks.": "that before a verb that the lexicon does not know",
    "The [clips](F) [release](S) easily.": _PLURAL,
}


@pytest.mark.parametrize("example", with_gaps(CASES, GAPS))
def test_tags(example):
    marked = parse(example)
    known = known_of(marked.text)
    assert len(known.tags) == len(known.lower)
    found = [(m.surface, known.tags[known.token_at(m.start)]) for m in marked.marks]
    assert found == [(m.surface, next(iter(m.facts))) for m in marked.marks]


def test_one_letter_a_token_in_any_script():
    known = known_of("Étrier déposé — 3 × écrous, ﬁn. İşte! 螺丝 🙂 x/y")
    assert len(known.tags) == len(known.lower)
