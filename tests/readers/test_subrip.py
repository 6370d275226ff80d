"""SubRip. Rules: the original program's, as in cnblogs.com/MaxWoods/p/608078.html and the srt-validator package."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from miner.errors import InputError
from miner.readers import subrip


def texts(text: str) -> list[str]:
    return [cue.text for cue in subrip.read(text, "a.srt").cues]


def test_a_last_line_of_digits_is_text():
    assert texts("1\n00:00:01,000 --> 00:00:02,000\nThere are\n12") == ["There are 12"]
    assert texts("1\n00:00:01,000 --> 00:00:02,000\n12\n\n2\n00:00:03,000 --> 00:00:04,000\n7\n") == ["12", "7"]


def test_numbers_missing_or_without_blank_line():
    assert texts("00:00:01,000 --> 00:00:02,000\nthere are\n12\n\n00:00:03,000 --> 00:00:04,000\nb") == [
        "there are 12",
        "b",
    ]
    assert texts("1\n00:00:01,000 --> 00:00:02,000\na\n2\n00:00:03,000 --> 00:00:04,000\nb") == ["a", "b"]
    assert texts("1\n00:00:01,000 --> 00:00:02,000\na\n9\n00:00:03,000 --> 00:00:04,000\nb") == ["a 9", "b"]


def test_blank_lines_inside_and_empty_cues():
    assert texts("1\n00:00:01,000 --> 00:00:02,000\na\n\nb\n\n2\n00:00:03,000 --> 00:00:04,000\n\n") == ["a b"]


def test_dots_coordinates_tags_and_references():
    text = (
        '1\n0:00:01.5 --> 00:00:02.250 X1:1 X2:2 Y1:3 Y2:4\n{\\an8}<i>Nuts</i> &amp; <font color="#f00">bolts</font> <3'
    )
    (cue,) = subrip.read(text, "a.srt").cues
    assert (cue.start, cue.end, cue.text) == (1.5, 2.25, "Nuts & bolts <3")


@pytest.mark.parametrize(
    ("line", "what"),
    [
        ("00:00:05,000 --> 00:00:02,000", "before it starts"),
        ("00:00:05,000 --> 00:00:0x,000", "cannot be read"),
        ("00:61:05,000 --> 00:62:00,000", "cannot be read"),
        ("00:00:05,000 -->", "cannot be read"),
    ],
)
def test_broken_timing_lines_are_named(line, what):
    with pytest.raises(InputError, match=rf"a\.srt:6: .*{what}"):
        subrip.read(f"1\n00:00:01,000 --> 00:00:02,000\na\n\n2\n{line}\nb\n", "a.srt")


def test_an_arrow_in_the_text_is_text():
    assert texts("1\n00:00:01,000 --> 00:00:02,000\nmenu --> settings") == ["menu --> settings"]


WORD = st.text(st.characters(categories=("Lu", "Ll", "Nd")), min_size=1, max_size=8)
CUES = st.lists(
    st.tuples(st.integers(0, 9_000_000), st.integers(0, 60_000), st.lists(WORD, min_size=1, max_size=6)),
    min_size=1,
    max_size=12,
)


@given(CUES)
def test_round_trip(cues):
    def stamp(ms: int) -> str:
        return f"{ms // 3_600_000:02}:{ms // 60_000 % 60:02}:{ms // 1000 % 60:02},{ms % 1000:03}"

    text = "\n".join(
        f"{number}\n{stamp(start)} --> {stamp(start + lasting)}\n{chr(10).join(words)}\n"
        for number, (start, lasting, words) in enumerate(cues, 1)
    )
    found = subrip.read(text, "a.srt").cues
    assert [[word.text for word in cue.words] for cue in found] == [words for _, _, words in cues]
    assert [(round(cue.start * 1000), round(cue.end * 1000)) for cue in found] == [(s, s + d) for s, d, _ in cues]
