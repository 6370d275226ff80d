"""JSON of speech recognisers."""

import json

import pytest

from miner.errors import InputError
from miner.readers import recogniser_json


def cues(data):
    return recogniser_json.read(json.dumps(data), "a.json").cues


def test_segments_with_words():
    words = [
        {"word": " Okay,", "start": 0.5, "end": 0.9, "probability": 0.5},
        {"word": " twenty", "start": 1.0, "end": 1.2, "probability": 0.9},
        {"word": "-five.", "start": 1.2, "end": 1.5, "probability": 0.8},
    ]
    (cue,) = cues(
        {"segments": [{"start": 0.5, "end": 2.0, "text": " Okay, twenty-five.", "words": words, "speaker": "A"}]}
    )
    assert [(w.text, w.start, w.end, w.probability) for w in cue.words] == [
        ("Okay,", 0.5, 0.9, 0.5),
        ("twenty-five.", 1.0, 1.5, 0.8),
    ]
    assert (cue.end, cue.voice) == (2.0, "A")


def test_segments_without_words_and_a_list_at_the_top():
    (cue,) = cues([{"start": 0, "end": 4, "text": "one two"}])
    assert [(w.text, w.start, w.end) for w in cue.words] == [("one", 0.0, 2.0), ("two", 2.0, 4.0)]


def test_words_without_times_get_them_from_their_neighbours():
    words = [{"word": "a", "start": 0, "end": 1}, {"word": "12"}, {"word": "b", "start": 3, "end": 4, "score": 0.7}]
    (cue,) = cues({"segments": [{"start": 0, "end": 4, "text": "a 12 b", "words": words}]})
    assert [(w.text, w.start, w.end) for w in cue.words] == [("a", 0, 1), ("12", 1, 3), ("b", 3, 4)]
    assert cue.words[2].probability == 0.7


def test_a_bare_list_of_words_is_cut_at_pauses_and_sentences():
    words = [("a", 0, 1), ("b.", 1, 2), ("c", 2, 3), ("d", 9, 10)]
    found = cues([{"word": text, "start": start, "end": end} for text, start, end in words])
    assert [cue.text for cue in found] == ["a b.", "c", "d"]


@pytest.mark.parametrize(
    ("data", "what"),
    [
        ({"segments": [{"start": 5, "end": 2, "text": "a"}]}, "segment 0: a cue ends"),
        ({"segments": [{"start": "x", "end": 2, "text": "a"}]}, "segment 0: start is 'x'"),
        ({"segments": [{"text": "a"}]}, "segment 0: a segment has no start"),
        ({"segments": [3]}, "segment 0: a segment is no object"),
        ({"segments": []}, "no segment with words"),
        (
            {"segments": [{"start": 0, "end": 1, "text": "a", "words": [{"word": "a", "start": 3, "end": 1}]}]},
            "word 'a'",
        ),
    ],
)
def test_what_is_wrong_is_said(data, what):
    with pytest.raises(InputError, match=what):
        cues(data)


def test_broken_json_names_the_line():
    with pytest.raises(InputError, match=r"a\.json:2: the JSON is broken"):
        recogniser_json.read('{"segments": [\n{"start": 1,}]}', "a.json")
