"""Transcripts with a time in brackets."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from miner.errors import InputError
from miner.readers import bracketed_text


def cues(text: str):
    return bracketed_text.read(text, "a.txt").cues


def test_paragraphs_continued_lines_and_hours():
    found = cues("Title\n\n[0:07] One. Two.\nThree goes on\n\n[12:07] Four.\n[1:02:07] Five.\n")
    assert [(cue.start, cue.text) for cue in found] == [
        (7.0, "One. Two. Three goes on"),
        (727.0, "Four."),
        (3727.0, "Five."),
    ]


def test_a_paragraph_ends_with_the_next_or_when_its_words_must_be_over():
    first, second = cues("[0:00] one two three four\n[0:03] five")
    assert first.end == 3.0
    assert second.end < 10.0
    assert cues("[0:00] one two\n[9:00] five")[0].end < 10.0


def test_ranges_own_lines_and_several_times_on_a_line():
    found = cues("[0:01 - 0:03] a\n[0:05]\nb\n(0:08.5) c [0:09] d\nat [0:10] e is spoken of\n[0:20 --> 0:21.5] f")
    assert [(cue.start, cue.text) for cue in found] == [
        (1.0, "a"),
        (5.0, "b"),
        (8.5, "c"),
        (9.0, "d at [0:10] e is spoken of"),
        (20.0, "f"),
    ]
    assert (found[0].end, found[-1].end) == (3.0, 21.5)


@pytest.mark.parametrize("line", ["[0:75] b", "[1:2:3:4] b", "[0:09 - 0:05] b"])
def test_broken_times_are_named(line):
    with pytest.raises(InputError, match=r"a\.txt:2: "):
        cues(f"[0:01] a\n{line}")


@given(
    st.lists(st.tuples(st.integers(0, 20_000), st.lists(st.from_regex(r"[a-z]{1,7}[.,]?", fullmatch=True), min_size=1)))
)
def test_round_trip(paragraphs):
    paragraphs = sorted(paragraphs)
    text = "\n\n".join(f"[{s // 3600}:{s // 60 % 60:02}:{s % 60:02}] {' '.join(words)}" for s, words in paragraphs)
    if paragraphs:
        assert [(cue.start, cue.text) for cue in cues(text)] == [(float(s), " ".join(words)) for s, words in paragraphs]
