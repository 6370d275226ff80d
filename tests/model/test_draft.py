"""Drafts in and out, as tables and as a graph."""

import pickle

import pytest
from samples import gold_draft, small_draft

from miner import errors
from miner.errors import InputError, MinerError
from miner.model.draft import Draft
from miner.model.identity import fingerprint, slug
from miner.model.serialise import read_draft


@pytest.mark.parametrize("draft", [small_draft(), gold_draft(), small_draft('quotes " and \\ and \u2028 and é')])
def test_json_gives_the_same_draft_back(draft):
    assert Draft.from_json(draft.to_json()) == draft
    assert Draft.from_json(draft.to_json()).to_json() == draft.to_json()


def test_json_uses_the_names_of_the_contract():
    text = small_draft().to_json()
    assert text.startswith('{\n "schema": "draft/1"')
    for name in ('"from": "frame"', '"graph"', '"from_step"'):
        assert name in text
    assert '"from_"' not in text
    assert '"graph_"' not in text


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"schema": "draft/2"}', '{"schema": "draft/1", "recording": 3}'])
def test_what_is_no_draft_is_told_in_one_line(text):
    with pytest.raises(InputError) as caught:
        Draft.from_json(text)
    assert "draft/1" in str(caught.value)
    assert "\n" not in str(caught.value)


def test_tables_have_their_columns_even_when_empty():
    empty = Draft(small_draft().recording)
    for name in ("procedures", "steps", "fasteners", "prerequisites", "notices", "findings"):
        full = small_draft().to_frame(name)
        assert len(full) > 0
        assert list(empty.to_frame(name).columns) == list(full.columns)


def test_frames_hold_a_row_an_item():
    draft = gold_draft()
    assert len(draft.to_frame("steps")) == sum(len(p.steps) for p in draft.procedures)
    assert draft.to_frame("fasteners")["count"].notna().any()


def test_an_unknown_table_lists_the_known_ones():
    with pytest.raises(KeyError, match="steps"):
        small_draft().to_frame("screws")  # type: ignore[arg-type]


def test_graph_keeps_data():
    graph = small_draft().graph()
    assert graph.nodes["cover"] == {"part": "cover", "procedure": "p01"}
    assert graph.edges["tray", "cover"]["kind"] == "stated"
    assert graph.edges["tray", "cover"]["evidence"][0]["start"] == 5.0


def test_fingerprints_depend_on_words_only():
    assert fingerprint("stutter", ["The, the cover"]) == fingerprint("stutter", ["the THE cover."])
    assert fingerprint("stutter", ["a b"]) != fingerprint("stutter", ["a", "b"])
    assert slug("The O-ring") == "the-o-ring"


@pytest.mark.parametrize(
    "kind", [one for one in vars(errors).values() if isinstance(one, type) and issubclass(one, MinerError)]
)
def test_errors_survive_pickling_and_say_what_to_do(kind):
    error = kind("it is broken.", where="talk.srt:12", remedy="Mend it.")
    again = pickle.loads(pickle.dumps(error))
    assert type(again) is kind
    assert str(again) == str(error) == "talk.srt:12: it is broken. Mend it."


def test_a_folder_of_several_drafts_names_them(tmp_path):
    for name in ("kettle", "stapler"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "draft.json").write_text("{}", encoding="utf-8")
    with pytest.raises(InputError, match="kettle, stapler"):
        read_draft(tmp_path)
