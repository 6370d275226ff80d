"""The words that all formats share."""

import pytest

from miner.model.draft import Fastener, Notice
from miner.publish.wording import clock, fastener_words, joint_words, same_words, signal_rank, span, xml_text


@pytest.mark.parametrize(
    ("seconds", "words"),
    [(0, "0:00"), (42.9, "0:42"), (727, "12:07"), (3727.5, "1:02:07"), (86400, "24:00:00"), (-1, "0:00")],
)
def test_clock(seconds, words):
    assert clock(seconds) == words


def test_span():
    assert span(42, 55.5) == "0:42 to 0:55"
    assert span(42.1, 42.8) == "0:42"


@pytest.mark.parametrize(
    ("group", "words"),
    [
        (
            Fastener("screw", 4, thread="M4", length_mm=16, drive="cross-recess", drive_size="PH2"),
            "4 x M4 x 16 screw, PH2",
        ),
        (Fastener("screw", 2, length_mm=2.5, drive_size="T5"), "2 x 2.5 mm screw, T5"),
        (Fastener("bolt", 1, thread="M8", drive="hex-head", drive_size="13 mm"), "1 x M8 bolt, 13 mm hex-head"),
        (Fastener("screw", count_alternatives=(2, 3), drive="slotted"), "2 or 3 x screw, slotted"),
        (Fastener("clip"), "clip (number not said)"),
        (
            Fastener("screw", 3, head="countersunk", captive=True, torque_nm=0.8),
            "3 x screw, countersunk head, captive, 0.8 N m",
        ),
    ],
)
def test_fasteners(group, words):
    assert fastener_words(group) == words


def test_joints():
    assert joint_words(Fastener("screw", secures="cover", to="frame")) == "cover to frame"
    assert joint_words(Fastener("screw", to="frame")) == "to frame"
    assert joint_words(Fastener("screw")) == ""


def test_stronger_notices_come_first():
    kinds = ("note", "caution", "danger", "important", "warning")
    ranked = sorted((Notice(kind, "", 0, 0) for kind in kinds), key=signal_rank)
    assert [one.kind for one in ranked] == ["danger", "warning", "caution", "important", "note"]


def test_xml_text_has_no_forbidden_characters():
    assert xml_text("a\x00b\x1b<\ud800&\"'") == "a b &lt; &amp;&quot;&#x27;"


def test_same_words():
    assert same_words("Take it off.", "take it   OFF")
    assert not same_words("Take it off.", "uh take it off")
