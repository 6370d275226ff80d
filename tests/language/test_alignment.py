"""Recording -> Doc: tokens, their times, breaks of notes, pauses."""

import pytest
import spacy
from spoken import A_WORD, doc_of, known_of, recording

from miner.language.alignment import PAUSE, to_doc
from miner.language.annotations import annotations_of


def test_every_token_has_the_time_of_its_word():
    made = recording("Undo the screws, then", "lift the lens.")
    known = annotations_of(to_doc(made, spacy.blank("en")))
    words = list(made.words())
    times = {round(word.start, 6) for word in words}
    assert len(known.starts) == len(known.ends) == len(known.lower)
    assert {round(t, 6) for t in known.starts} == times
    assert known.starts == sorted(known.starts)
    assert known.starts[known.lower.index("lift")] == pytest.approx(4 * A_WORD + 0.2)


@pytest.mark.parametrize(
    ("text", "tokens"),
    [
        ("Undo it.", ["undo", "it", "."]),
        ("the tray's lid", ["the", "tray", "'s", "lid"]),
        ("it's stuck, isn't it?", ["it's", "stuck", ",", "isn't", "it", "?"]),
        ("don’t pull", ["don't", "pull"]),
        ("8mm M3x8 T10", ["8", "mm", "m3x8", "t10"]),
        ("2.5 mm, 2,5 mm", ["2.5", "mm", ",", "2,5", "mm"]),
        ("hex-head bolts", ["hex-head", "bolts"]),
        ("w/ pliers w/o force", ["w/", "pliers", "w/o", "force"]),
        ("(both)", ["(", "both", ")"]),
        ("left/right", ["left", "/", "right"]),
        ("…", ["…"]),
    ],
)
def test_tokens(text, tokens):
    assert known_of(text).lower == tokens


def test_the_text_is_as_written():
    text = "Undo the TRAY's screws, don't “pull” it—slide it (both)."
    assert doc_of(text).text.strip() == text
    assert known_of(text).cased.strip() == text


@pytest.mark.parametrize("text", ["Étrier İ ǅ ﬁn", "8 × M3 — 10 °C", "螺丝 🙂 ok"])
def test_offsets_agree_with_tokens_in_any_script(text):
    known = known_of(text)
    for i, token in enumerate(known.lower):
        assert known.text[known.offsets[i] :].startswith(token)
        assert known.cased[known.places[i] :].startswith(known.forms[i])
        assert known.token_at(known.offsets[i]) == i


def test_breaks_only_in_notes():
    assert known_of("hood off", "lead out", register="notes").breaks == {0, 2}
    assert known_of("hood off", "lead out", register="scripted").breaks == frozenset()


def test_pauses():
    assert known_of("hood off", "lead out", gap=PAUSE + 0.1).pauses == {2}
    assert known_of("hood off", "lead out", gap=PAUSE / 2).pauses == frozenset()


def test_shorthand_is_read_in_full_and_shown_as_written():
    known = known_of("2 scr out", register="notes")
    assert known.lower[1] in ("screws", "screw")
    assert known.forms[1] == "scr"
    assert known_of("2 scr out", register="scripted").lower[1] == "scr"
