"""WebVTT times against published rules and a second reader.

Sources: W3C WebVTT, section "Collect a WebVTT timestamp" (github.com/w3c/webvtt, index.bs, commit 92a85cc2); the
table is that algorithm run by hand. Second reader: webvtt-py. For SubRip: pysubs2.
"""

import pytest
import webvtt as second
from hypothesis import given
from hypothesis import strategies as st

from miner.errors import InputError
from miner.readers import subrip, webvtt

LATER = "200:00:00.000"

TABLE = [
    ("00:00.000", 0.0),
    ("01:02.345", 62.345),
    ("00:01:02.345", 62.345),
    ("100:00:00.000", 360000.0),
    ("123:59:59.999", 446399.999),
    ("59:59.999", 3599.999),
    ("1:00:00.000", 3600.0),
]

WRONG = [
    "1:00.000",
    "60:00.000",
    "00:60.000",
    "00:00:60.000",
    "00:01:02,345",
    "00:01:02.34",
    "00:01:02.3456",
    "-00:01.000",
    "00:1:02.000",
]


@pytest.mark.parametrize(("text", "seconds"), TABLE)
def test_the_specification_s_times(text, seconds):
    (cue,) = webvtt.read(f"WEBVTT\n\n{text} --> {LATER}\nword", "a.vtt").cues
    assert cue.start == pytest.approx(seconds, abs=1e-9)


@pytest.mark.parametrize("text", WRONG)
def test_what_the_specification_refuses(text):
    with pytest.raises(InputError, match=r"a\.vtt:3: "):
        webvtt.read(f"WEBVTT\n\n{text} --> {LATER}\nword", "a.vtt")


BLOCK = st.tuples(
    st.sampled_from(["", "12\n", "an identifier\n"]),
    st.integers(0, 4_000_000),
    st.integers(1, 9_000),
    st.lists(
        st.sampled_from(["the cover", "<c.part>four</c> bolts", "12", " ", "<b>M4</b> x 16", "at 3 > 2", "NOTE it"]),
        min_size=1,
        max_size=3,
    ),
)


def stamp(ms: int, mark: str) -> str:
    return f"{ms // 3_600_000:02}:{ms // 60_000 % 60:02}:{ms // 1000 % 60:02}{mark}{ms % 1000:03}"


@given(st.lists(BLOCK, min_size=1, max_size=8))
def test_a_second_reader_finds_the_same_cues(blocks):
    text = "WEBVTT\n\n" + "\n\n".join(
        f"{identifier}{stamp(start, '.')} --> {stamp(start + lasting, '.')}\n" + "\n".join(lines)
        for identifier, start, lasting, lines in blocks
    )
    theirs = [
        (round(caption.start_in_seconds, 3), caption.text.split())
        for caption in second.from_string(text)
        if caption.text.split()
    ]
    try:
        ours = [(int(cue.start), cue.text.split()) for cue in webvtt.read(text, "a.vtt").cues]
    except InputError:
        ours = []
    assert [words for _, words in ours] == [words for _, words in theirs]
    assert [second for second, _ in ours] == [int(second) for second, _ in theirs]


@given(
    st.lists(
        st.tuples(st.integers(0, 4_000_000), st.integers(0, 9_000), st.from_regex(r"[a-z]{1,9}", fullmatch=True)),
        min_size=1,
    )
)
def test_plain_subrip_as_pysubs2_reads_it(cues):
    import pysubs2

    text = "".join(
        f"{number}\n{stamp(start, ',')} --> {stamp(start + lasting, ',')}\n{word}\n\n"
        for number, (start, lasting, word) in enumerate(cues, 1)
    )
    theirs = [(event.start, event.end, event.plaintext) for event in pysubs2.SSAFile.from_string(text, "srt")]
    ours = [(round(c.start * 1000), round(c.end * 1000), c.text) for c in subrip.read(text, "a.srt").cues]
    assert ours == theirs
