"""Misheard trade words: repaired where the context supports it, and left alone elsewhere."""

from pathlib import Path

import pytest
from recordings import recording, text_of

from miner.captions.mishearings import repair_mishearings
from miner.captions.sounds import sounds_alike
from miner.lexicon import load_lexicon

LAYER = """
[[mishearing]]
heard = "torquse"
meant = "torx"
before = ["#", "two"]
after = ["screw", "ones", "#"]

[[mishearing]]
heard = "gas kitt"
meant = "gasket"

[[head]]
term = "roller"
modifiers = ["platen"]

[[head]]
term = "resistor"
modifiers = ["bleed"]

[[head]]
term = "cap"
modifiers = ["filter"]

[[head]]
term = "valve"
modifiers = ["solenoid"]

[[head]]
term = "cover"
modifiers = ["lever", "collar"]

[[head]]
term = "fuse"
modifiers = ["thermal"]

[[fastener]]
kind = "circlip"
"""


@pytest.fixture(scope="module")
def lexicon(tmp_path_factory):
    path: Path = tmp_path_factory.mktemp("lexicon") / "layer.toml"
    path.write_text(LAYER, encoding="utf-8")
    return load_lexicon([path])


def repaired(lexicon, *texts: str) -> str:
    return text_of(repair_mishearings(recording(*texts), lexicon))


def test_known_ones_need_their_context(lexicon):
    assert repaired(lexicon, "two torquse screws, T8 torquse and torquse 8") == "two torx screws, T8 torx and torx 8"
    assert repaired(lexicon, "the torquse is high. Screws") == "the torquse is high. Screws"


def test_plural_capital_marks_and_times(lexicon):
    before = recording("Gas kitts, both of them")
    found = repair_mishearings(before, lexicon)
    assert text_of(found) == "Gaskets, both of them"
    assert (found.cues[0].words[0].start, found.cues[0].words[0].end) == (0.0, before.cues[0].words[1].end)
    (repair,) = found.repairs
    assert (repair.kind, repair.before, repair.after) == ("mishearing", "Gas kitts", "Gaskets")


def test_never_over_a_sentence_end(lexicon):
    assert repaired(lexicon, "turn off the gas. Kitt is here") == "turn off the gas. Kitt is here"


def test_what_the_recording_says_elsewhere(lexicon):
    text = "the qualux arm is here", "turn the qualux arm", "the qualus arm comes off"
    assert repaired(lexicon, *text).endswith("the qualux arm comes off")


def test_not_if_the_compound_heard_is_as_frequent(lexicon):
    text = "the qualux arm", "the qualux arm", "the qualus arm", "the qualus arm"
    assert repaired(lexicon, *text) == " ".join(text)


def test_the_lexicon_alone_needs_equal_sound(lexicon):
    assert repaired(lexicon, "fit the bleat resistor") == "fit the bleed resistor"
    for kept in ("fit the feller cap", "fit the liver cover", "fit the louvar cover", "fit the kooler cover"):
        assert repaired(lexicon, kept) == kept


def test_a_misheard_head(lexicon):
    text = "the thermal fuse", "a thermal fuse", "the thermal fyews is gone"
    assert repaired(lexicon, *text).endswith("the thermal fuse is gone") or repaired(lexicon, *text) == " ".join(text)


def test_words_cut_in_two(lexicon):
    assert repaired(lexicon, "unplug the solo noid valve") == "unplug the solenoid valve"
    assert repaired(lexicon, "the sir clip's tight and two sir clips") == "the circlip's tight and two circlips"


@pytest.mark.parametrize(
    "text",
    [
        "the final torques are twenty and thirty",
        "hold a torch and mind you don't break the clips",
        "press the bush in, slide the sleeve in, bear in mind the shaft",
        "which means cable ties, and that means lead",
        "a funny looking pin and a black looking lever",
        "the cylinder had a crack, the group had six screws",
        "bin the old oil and mark the pin with a pen",
        "the door which is on the left, the limit which is set",
        "a cup of tea ten minutes later",
        "the value of the valve, the new trial, the rota",
    ],
)
def test_ordinary_words_in_ordinary_places_stay(lexicon, text):
    assert repaired(lexicon, text) == text


@pytest.mark.parametrize(
    ("heard", "meant"),
    [
        ("a security torques screw", "a security torx screw"),
        ("use the alan key", "use the allen key"),
        ("the front break pads", "the front brake pads"),
        ("a ceiling washer", "a sealing washer"),
        ("undo the hose clump", "undo the hose clamp"),
        ("off comes the fan shrewd", "off comes the fan shroud"),
        ("the temperature censor", "the temperature sensor"),
        ("a drop of threat lock", "a drop of thread lock"),
    ],
)
def test_sounds_of_common_trade_words(lexicon, heard, meant):
    assert repaired(lexicon, heard) == meant


def test_known_words_are_never_taken_for_others(lexicon):
    text = "filter cap, filter cap, filler cap, upper cover, lower cover, paddle, pedal, motor, meter"
    assert repaired(lexicon, text) == text


@pytest.mark.parametrize(
    ("one", "other", "alike"),
    [
        ("bleat", "bleed", True),
        ("ribbing", "ribbon", True),
        ("throttle", "throat", False),
        ("collar", "cooler", False),
        ("lever", "liver", False),
        ("motor", "meter", False),
        ("paddle", "pedal", False),
        ("filler", "filter", False),
    ],
)
def test_sounds(one, other, alike):
    assert sounds_alike(one, other) is alike
