"""The whole stage: order, register, no work where nothing is to be done, the same result twice."""

from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from recordings import recording, text_of
from samples import FIXTURES

from miner.captions import repair
from miner.readers import read_recording

SOURCES = sorted(p for p in FIXTURES.glob("*/*") if not p.name.endswith(".gold.json") and p.suffix != ".toml")


@pytest.mark.parametrize("path", [p for p in SOURCES if p.parent.name == "clean"], ids=lambda path: path.stem)
def test_clean_recordings_are_left_alone(lexicon, path):
    before = read_recording(path)
    found = repair(before, lexicon)
    assert found.repairs == ()
    assert found.cues is before.cues


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: path.stem)
def test_words_stay_in_order_and_none_is_empty(lexicon, path):
    found = repair(read_recording(path), lexicon)
    words = list(found.words())
    assert all(word.text.strip() and word.start <= word.end for word in words)
    assert all(cue.words and cue.start <= cue.words[0].start for cue in found.cues)
    starts = [word.start for word in words]
    assert sum(one > other for one, other in pairwise(starts)) == 0


@pytest.mark.parametrize("path", SOURCES[:8], ids=lambda path: path.stem)
def test_a_second_run_changes_nothing(lexicon, path):
    once = repair(read_recording(path), lexicon)
    twice = repair(once, lexicon)
    assert twice.cues == once.cues


def test_a_given_register_stays(lexicon):
    from dataclasses import replace

    given_register = replace(recording("lift the lid"), register="spoken")
    assert repair(given_register, lexicon).register == "spoken"


# a lambda, since hypothesis lets blank text through `filter(str.split)`; readers give no cue without words
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(st.lists(st.text(max_size=30).filter(lambda text: text.split()), max_size=6))
def test_any_text_is_survived_and_no_word_is_invented(lexicon, texts):
    before = recording(*texts)
    found = repair(before, lexicon)
    if not any(change.kind == "mishearing" for change in found.repairs):
        said = {word.casefold() for word in text_of(before).split()}
        assert {word.casefold() for word in text_of(found).split()} <= said


def test_captions_that_linger_do_not_mix_their_words(lexicon, tmp_path):
    lines = [
        "so undo the two bolts",
        "that hold the gong to the",
        "frame and then lift",
        "the gong straight out of there",
    ]
    file = tmp_path / "gong.srt"
    file.write_text(
        "".join(
            f"{n}\n00:00:{2 * n:02},000 --> 00:00:{2 * n + 4:02},000\n{line}\n\n" for n, line in enumerate(lines, 1)
        )
    )
    found = repair(read_recording(file), lexicon)
    words = list(found.words())
    assert [word.start for word in words] == sorted(word.start for word in words)
    assert " ".join(word.text for word in words) == " ".join(lines)
    assert all(one.words[-1].end <= other.start for one, other in pairwise(found.cues))
    assert found.cues[-1].words[-1].end == 12.0
