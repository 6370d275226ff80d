"""Timed notes as lines and as tables."""

from pathlib import Path

import pytest

from miner.errors import InputError
from miner.readers import timed_notes


def notes(text: str):
    return [(cue.start, cue.end, cue.text) for cue in timed_notes.read(text, "a.txt").cues]


@pytest.mark.parametrize(
    "text",
    [
        "0:42 lid off\n1:03 - pull fan\n1:20: end",
        "- 0:42 lid off\n* 1:03 – pull fan\n1:20 | end",
        "Bench notes, unit 2\n\n00:00:42 lid off\n00:01:03\tpull\n fan\n00:01:20 end\n",
        "time,note\n0:42,lid off\n1:03,pull fan\n1:20,end\n",
        "note\ttimecode\nlid off\t42\npull fan\t63\nend\t80",
        '"0:42";"lid off"\n"1:03";"pull fan"\n"1:20";"end"',
        "start_ms,who,text\n42000,A,lid off\n63000,A,pull fan\n80000,B,end",
        "cam|42s|lid off\ncam|1m03s|pull fan\ncam|1m20s|end",
    ],
)
def test_writings_of_the_same_notes(text):
    assert timed_notes.sniff(text, Path("a.txt")).score > 0
    assert notes(text) == [
        (42.0, 63.0, "lid off"),
        (63.0, 80.0, "pull fan"),
        (80.0, 99.0, "end"),
    ]  # the last as long as the median


def test_a_note_lasts_a_minute_at_most_and_all_its_words_with_it():
    (first, _) = timed_notes.read("0:10 lid off\n5:00 end", "a.txt").cues
    assert [(word.start, word.end) for word in first.words] == [(10.0, 70.0)] * 2


def test_end_and_duration_columns():
    assert notes("start,end,comment\n0:42,0:50,lid off\n1:03,1:05,end") == [
        (42.0, 50.0, "lid off"),
        (63.0, 65.0, "end"),
    ]
    assert notes("time,duration,comment\n42,8,lid off\n63,2,end") == [(42.0, 50.0, "lid off"), (63.0, 65.0, "end")]


def test_cells_with_commas_quotes_and_line_ends():
    assert notes('time,note\n0:42,"lid, ""top"" one,\noff"\n1:00,end')[0][2] == 'lid, "top" one, off'


def test_marks_of_a_note_stay():
    assert notes("0:10 - !! hot\n0:20 - 2x M4")[0][2] == "!! hot"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("0:42 a\n0:99 b", 2),
        ("time,note\n0:42,a\nsoon,b", 3),
        ("time,note\n0:42,a\n,b", 3),
        ("0:42 - 0:30 a\n0:50 b", 1),
    ],
)
def test_broken_times_are_named(text, line):
    with pytest.raises(InputError, match=rf"a\.txt:{line}: "):
        notes(text)


def test_prose_is_no_table():
    assert timed_notes.sniff("First, take it, then\nput it, there, now\n", Path("a.txt")).score == 0
