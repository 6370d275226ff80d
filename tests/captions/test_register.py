"""The register of a recording, by its own words."""

import json

import pytest
from recordings import recording
from samples import FIXTURES

from miner.captions import repair
from miner.captions.register import register_of
from miner.readers import read_recording

GOLD = sorted(FIXTURES.glob("*/*.gold.json"))


@pytest.mark.parametrize(
    ("texts", "register"),
    [
        (["Remove the two screws that hold the cover.", "Lift the cover off the base."], "scripted"),
        (["Okay, um, so I'm going to take the cover off.", "I've got two screws here."], "spoken"),
        (["so take the cover off and then", "there is a screw in the middle"], "captions"),
        (["REAR CAP - remove", "2x T10 scr, cap to head", "lift off"], "notes"),
    ],
)
def test_by_example(lexicon, texts, register):
    assert register_of(recording(*texts), lexicon) == register


def test_full_sentences_jotted_down(lexicon, tmp_path):
    notes = tmp_path / "press.csv"
    notes.write_text(
        "time,note\n0:05,Removed the two bolts of the guard\n0:19,Lifted the guard off the bed of the press\n"
        "0:40,Wiped the bed with a rag\n0:55,The guard goes on the other way round\n"
    )
    assert repair(read_recording(notes), lexicon).register == "notes"


def test_nearly_all_fixtures(lexicon):
    """Measured, not claimed: at most one fixture in fifty may differ from its annotator's judgement."""
    wrong = []
    for gold in GOLD:
        source = next(path for path in gold.parent.glob(gold.name.replace(".gold.json", ".*")) if path != gold)
        expected = json.loads(gold.read_text(encoding="utf-8"))["register"]
        if repair(read_recording(source), lexicon).register != expected:
            wrong.append(source.name)
    assert len(wrong) <= max(1, len(GOLD) // 50), wrong
