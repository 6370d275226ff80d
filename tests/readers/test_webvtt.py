"""WebVTT. Source of the rules: W3C WebVTT, github.com/w3c/webvtt, index.bs."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from miner.errors import InputError
from miner.readers import webvtt

HEAD = "WEBVTT\n\n"


def cues(body: str, head: str = HEAD):
    return webvtt.read(head + body, "a.vtt").cues


def test_header_blocks_identifiers_and_settings():
    found = webvtt.read(
        "WEBVTT - Pump talk\nKind: captions\nLanguage: en\n\nSTYLE\n::cue { color: red }\n\nREGION\nid:a\n\n"
        "NOTE\nnot said\n\nNOTE one line\n\nthe first cue\n00:01.000 --> 00:02.000 align:start position:0%\nhello\nthere\n",
        "a.vtt",
    )
    assert [cue.text for cue in found.cues] == ["hello there"]
    assert found.title == "Pump talk"


def test_two_inline_times_on_a_line_are_words_and_not_a_timing_line():
    (cue,) = cues("00:00:01.000 --> 00:00:03.000\nso<00:00:01.500><c> now</c><00:00:02.000><c> then</c>")
    assert [(w.text, w.start, w.end) for w in cue.words] == [("so", 1.0, 1.5), ("now", 1.5, 2.0), ("then", 2.0, 3.0)]


def test_a_line_of_blanks_does_not_end_a_cue():
    (cue,) = cues("00:01.000 --> 00:03.000\n \nso<00:02.000> now\n\n")
    assert [(w.text, w.start) for w in cue.words] == [("so", 1.0), ("now", 2.0)]


def test_a_carried_line_lasts_no_time():
    (cue,) = cues("00:01.000 --> 00:03.000\nthe old line\nso<00:02.000><c> now</c>")
    assert [(w.text, w.start, w.end) for w in cue.words][:4] == [
        ("the", 1.0, 1.0),
        ("old", 1.0, 1.0),
        ("line", 1.0, 1.0),
        ("so", 1.0, 2.0),
    ]


def test_voices_references_ruby_and_tags():
    found = cues(
        "00:01.000 --> 00:03.000\n<v.loud Ann Lee>nuts &amp; <b>bolts</b></v> <v Bo>un<i>plug</i> it &lt;2\n\n"
        "00:04.000 --> 00:05.000\n<ruby>base<rt>reading</rt></ruby>"
    )
    assert [(cue.voice, cue.text) for cue in found] == [
        ("Ann Lee", "nuts & bolts"),
        ("Bo", "unplug it <2"),
        (None, "base"),
    ]
    assert found[0].end <= found[1].start + 1e-9


def test_inline_times_that_run_backwards_are_not_relied_on():
    (cue,) = cues("00:01.000 --> 00:03.000\na<00:02.500> b<00:02.000> c<00:09.000> d")
    assert [w.start for w in cue.words] == sorted(w.start for w in cue.words)
    assert cue.words[-1].end == 3.0


def test_cues_without_blank_line_between():
    assert [cue.text for cue in cues("00:01.000 --> 00:02.000\na\n00:03.000 --> 00:04.000\nb")] == ["a", "b"]
    assert [cue.text for cue in cues("00:01.000 --> 00:02.000\na\n \n2\n00:03.000 --> 00:04.000\nb")] == ["a", "b"]


@pytest.mark.parametrize(
    ("body", "line"),
    [
        ("00:01.000 --> 00:02.000\na\n\n00:05.000 --> 00:04.000\nb", 6),
        ("00:01,000 --> 00:02,000\na", 3),
        ("id\n00:01.000 -->\na", 4),
        ("0:01.000 --> 00:02.00\na", 3),
    ],
)
def test_broken_timing_lines_are_named(body, line):
    with pytest.raises(InputError, match=rf"a\.vtt:{line}: "):
        cues(body)


def test_a_wrong_signature_is_said():
    with pytest.raises(InputError, match="signature"):
        cues("00:01.000 --> 00:02.000\na", head="webvtt\n\n")


WORD = st.text(st.characters(categories=("Lu", "Ll", "Nd"), include_characters="&<>'"), min_size=1, max_size=8)


@given(st.lists(st.lists(WORD, min_size=1, max_size=6), min_size=1, max_size=8))
def test_round_trip_of_words_with_times(spoken):
    def stamp(seconds: int) -> str:
        return f"{seconds // 3600:02}:{seconds // 60 % 60:02}:{seconds % 60:02}.000"

    def escape(word: str) -> str:
        return word.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")

    blocks, clock = [], 0
    for words in spoken:
        timed = " ".join(f"<{stamp(clock + at)}>{escape(word)}" for at, word in enumerate(words))
        blocks.append(f"{stamp(clock)} --> {stamp(clock + len(words))}\n{timed}")
        clock += len(words)
    found = [word for cue in cues("\n\n".join(blocks)) for word in cue.words]
    assert [word.text for word in found] == [word for words in spoken for word in words]
    assert [word.start for word in found] == [float(second) for second in range(clock)]
