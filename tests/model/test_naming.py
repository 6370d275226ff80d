"""When two names mean one part."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from miner.model.naming import PartNames, head_word, part_key, same_part, singular


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("Both drip-tray covers", "drip tray cover"),
        ("the new battery packs", "battery pack"),
        ("the lead of the fan motor", "fan motor lead"),
        ("pump assy", "pump"),
        ("the motor's brushes", "motor brush"),
        ("left hinge", "left hinge"),
        ("O-rings", "o ring"),
        ("the unit", "unit"),
        ("mains fuse", "mains fuse"),
        ("two screws", "screw"),
        ("", ""),
        (None, ""),
    ],
)
def test_one_key_for_every_spelling(name, key):
    assert part_key(name) == key


@pytest.mark.parametrize("word", ["lens", "chassis", "glass", "gas", "bus", "axis", "mains", "bellows"])
def test_words_that_only_look_plural_stay(word):
    assert singular(word) == word


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("battery", "battery pack", True),
        ("fan", "suction fan", True),
        ("side brush", "sidebrush", True),
        ("battery", "battery cover", False),
        ("left hinge", "right hinge", False),
        ("pump bracket", "pump", False),
        ("pump", None, False),
    ],
)
def test_shortened_names(one, other, same):
    assert same_part(one, other) is same
    assert same_part(other, one) is same


def test_a_shortened_name_is_resolved_only_where_it_is_unambiguous():
    names = PartNames(["rear cover", "front cover", "water pump", "wheel", "drive wheel", "rear drive wheel"])
    assert names.key("the cover") == "cover"
    assert names.key("pump") == "water pump"
    assert names.key("wheel") == "rear drive wheel"
    assert names.same("the pump", "Water-pumps")
    assert not names.same("front cover", "rear cover")


def test_the_head_is_the_last_word():
    assert head_word("the covers of the front frame") == "cover"


@given(st.text(max_size=40))
def test_a_key_is_its_own_key(name):
    assert part_key(part_key(name)) in (part_key(name), part_key(part_key(part_key(name))))


@given(st.lists(st.sampled_from(["cover", "rear cover", "front cover", "pump", "water pump"]), max_size=6))
def test_resolving_is_stable(names):
    found = PartNames(names)
    assert all(found.key(found.key(name)) == found.key(name) for name in names)
