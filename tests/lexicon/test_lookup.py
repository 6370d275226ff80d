"""Questions to the built-in lexicon."""

import pytest

from miner.lexicon import load_lexicon
from miner.lexicon.lookup import lookup, size_key

LEXICON = load_lexicon()
FOUND = lookup(LEXICON)


@pytest.mark.parametrize(
    ("word", "verb", "form"),
    [
        ("remove", "remove", "base"),
        ("Unclipped", "unclip", "past"),
        ("undid", "undo", "past"),
        ("slid", "slide", "past"),
        ("lifting", "lift", "progressive"),
        ("refits", "refit", "third"),
        ("plugging in", "plug in", "progressive"),
    ],
)
def test_actions_by_form(word, verb, form):
    found = FOUND.action_of_form(word)
    assert (found.action.verb, found.form) == (verb, form)


@pytest.mark.parametrize(
    ("phrase", "verb"),
    [
        ("take out", "remove"),
        ("took off", "remove"),
        ("popping off", "remove"),
        ("comes off", "remove"),
        ("whip out", "remove"),
        ("backing out", "remove"),
        ("crack open", "open"),
        ("lets go", "release"),
        ("put back", "put"),
        ("pop back in", "refit"),
        ("do up", "tighten"),
        ("nipped up", "tighten"),
        ("bolt down", "bolt"),
        ("wipe down", "wipe"),
    ],
)
def test_idioms_give_the_plain_trade_verb(phrase, verb):
    first, *rest = phrase.split()
    assert any(i.rest == tuple(rest) and i.action.verb == verb for i in FOUND.idioms_from(first))


def test_longer_idioms_come_first():
    lengths = [len(idiom.rest) for idiom in FOUND.idioms_from("pop")]
    assert lengths == sorted(lengths, reverse=True)
    assert 2 in lengths


@pytest.mark.parametrize("verb", ["blow out", "flip up", "bend back", "switch off", "switch on", "turn off", "plug in"])
def test_particles_that_change_the_sense_make_verbs_of_their_own(verb):
    assert FOUND.action(verb)


def test_inverse_verbs():
    assert FOUND.inverse("unplug").verb == "plug"
    assert FOUND.inverse("loosen").verb == "tighten"
    assert FOUND.inverse("inspect") is None
    assert FOUND.inverse("no such verb") is None


def test_heads_in_both_numbers_and_at_the_end_of_a_name():
    assert FOUND.head("control boards").term == "control board"
    assert FOUND.head_of("the left Rear cover".split()).term == "rear cover" if FOUND.head("rear cover") else "cover"
    assert FOUND.head_of(["flux", "gate"]) is None
    assert FOUND.unknown_terms(["flux gate", "top cover", "zip ties", "flux gate"]) == ("flux gate",)


@pytest.mark.parametrize(
    ("term", "kind"),
    [("zip ties", "cable tie"), ("jubilee clip", "hose clamp"), ("circlips", "circlip"), ("catches", "latch"),
     ("grub screw", "screw"), ("locknut", "nut"), ("R clip", "clip")],
)  # fmt: skip
def test_fasteners(term, kind):
    assert FOUND.fastener(term).kind == kind


@pytest.mark.parametrize(
    ("spoken", "drive"),
    [("phillips", "cross-recess"), ("cross-head", "cross-recess"), ("pozi", "pozidriv"), ("six-lobe", "hexalobular"),
     ("star bit", "hexalobular"), ("security torx", "hexalobular-tamper"), ("Allen key", "hex-socket"),
     ("straight slot", "slotted"), ("tri wing", "tri-wing"), ("pentalobe", "pentalobular"), ("robertson", "square"),
     ("hex head", "hex-head"), ("snake-eye", "spanner")],
)  # fmt: skip
def test_drives_as_spoken(spoken, drive):
    assert FOUND.drive(spoken).drive == drive


@pytest.mark.parametrize(
    ("size", "drive"),
    [("T8", "hexalobular"), ("t 10", "hexalobular"), ("T10H", "hexalobular-tamper"), ("PH00", "cross-recess"),
     ("PZ2", "pozidriv"), ("2.5 mm", "hex-socket"), ("2,5mm", "hex-socket"), ("13 mm", "hex-head")],
)  # fmt: skip
def test_drives_by_size(size, drive):
    assert FOUND.drive_of_size(size).drive == drive


def test_sizes_that_do_not_exist_have_no_drive():
    assert [FOUND.drive_of_size(size) for size in ("T12", "T22", "PH5", "PZ9", "T0")] == [None] * 5


def test_a_size_in_millimetres_may_be_inside_or_outside():
    assert [drive.drive for drive in FOUND.drives_of_size("8 mm")] == ["hex-socket", "hex-head"]
    assert size_key("8.0 MM") == size_key("8mm")


def test_other_tables():
    assert "PH1" in FOUND.sizes_of_thread("m3")
    assert FOUND.sizes_of_thread("M7") == ()
    assert FOUND.abbreviation("scr.") == "screw"
    assert FOUND.abbreviation("PCB") is None
    assert FOUND.screw_head("c'sunk").head == "countersunk"
    assert FOUND.tool("allen keys").term == "hex key"
    assert FOUND.supply("thread locker").term == "thread lock"
    assert FOUND.hazards_of("torsion springs")[0].id == "spring"
    assert FOUND.words("no such class") == frozenset()
    assert FOUND.phrases("no such role") == ()
    assert "dispersion screen" in FOUND.synonyms_of("shower screens")
