"""TTML and IMSC: nesting of times, words in spans, agents."""

import pytest

from miner.errors import InputError
from miner.readers import ttml

NS = (
    'xmlns="http://www.w3.org/ns/ttml" xmlns:ttp="http://www.w3.org/ns/ttml#parameter" '
    'xmlns:ttm="http://www.w3.org/ns/ttml#metadata" xml:lang="en"'
)


def cues(body: str, head: str = "", root: str = ""):
    return ttml.read(f'<?xml version="1.0"?>\n<tt {NS} {root}>{head}<body>{body}</body></tt>', "a.ttml").cues


def test_times_add_up_along_the_containers():
    (cue,) = cues('<div begin="10s"><p begin="1s" end="3s">nuts &amp;<br/>bolts</p></div>')
    assert (cue.start, cue.end, cue.text) == (11.0, 13.0, "nuts & bolts")


def test_a_sequence_starts_each_child_after_the_one_before():
    found = cues('<div timeContainer="seq"><p dur="2s">a</p><p dur="1s">b</p><p begin="1s" dur="1s">c</p></div>')
    assert [(cue.start, cue.end) for cue in found] == [(0, 2), (2, 3), (4, 5)]


def test_spans_give_times_to_words():
    (cue,) = cues('<div><p begin="3s" end="5s"><span begin="0s">one</span> <span begin="1.5s">two</span></p></div>')
    assert [(w.text, w.start, w.end) for w in cue.words] == [("one", 3.0, 4.5), ("two", 4.5, 5.0)]


def test_a_word_goes_on_over_a_style_span():
    (cue,) = cues('<div><p begin="0s" end="1s">M4<span>x</span>16 <span>screw</span>s</p></div>')
    assert cue.text == "M4x16 screws"


def test_end_and_dur_together_and_the_parent_ends_too():
    found = cues('<div end="4s"><p begin="1s" dur="9s" end="3s">a</p><p begin="3s">b</p></div>')
    assert [(cue.start, cue.end) for cue in found] == [(1, 3), (3, 4)]


def test_agents_are_voices():
    head = '<head><metadata><ttm:agent xml:id="s1" type="person"><ttm:name>Ann</ttm:name></ttm:agent></metadata></head>'
    (cue,) = cues('<div><p ttm:agent="s1" begin="0s" end="1s">hi</p></div>', head)
    assert cue.voice == "Ann"


@pytest.mark.parametrize(
    ("body", "what"),
    [
        ('<div><p begin="5s" end="2s">a</p></div>', "before it starts"),
        ('<div><p begin="1.5" end="2s">a</p></div>', "no time"),
        ('<div><p begin="1s">a</p></div>', "never ends"),
        ("<div><p>", "XML is broken"),
        ("", "no cue found"),
    ],
)
def test_what_is_wrong_is_said(body, what):
    with pytest.raises(InputError, match=what):
        cues(body)


def test_entities_are_refused():
    with pytest.raises(InputError, match="entities"):
        ttml.read(f'<!DOCTYPE tt [<!ENTITY a "b">]><tt {NS}><body/></tt>', "a.ttml")
