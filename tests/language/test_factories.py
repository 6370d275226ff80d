"""The registered spaCy components: what each declares, that it holds, and that any spaCy user can take one."""

from __future__ import annotations

import json
import multiprocessing
import os
import subprocess
import sys
import tomllib
from importlib.metadata import EntryPoint
from pathlib import Path

import pytest
import spacy
from samples import ROOT
from spacy.language import Language
from spacy.tokens import Doc, DocBin

from miner.language.annotations import annotations_of
from miner.language.factories import COMPONENTS

GOLDEN = Path(__file__).with_name("factories.json")
TEXT = "Undo the two 8 mm T10 screws that secure the guard to the housing, with a T10 driver. Then lift it off."


def all_of_them() -> Language:
    nlp = spacy.blank("en")
    for name in COMPONENTS:
        nlp.add_pipe(name)
    return nlp


def declared() -> dict[str, dict[str, object]]:
    return {
        name: {
            "requires": list(meta.requires),
            "assigns": list(meta.assigns),
            "retokenizes": meta.retokenizes,
            "default_config": json.loads(json.dumps(meta.default_config)),
        }
        for name in COMPONENTS
        for meta in [Language.get_factory_meta(name)]
    }


def test_declarations_are_as_recorded():
    """The golden file holds every factory; a change of the contract shows up here."""
    assert declared() == json.loads(GOLDEN.read_text(encoding="utf-8"))


def test_names():
    assert all(name.startswith("miner_") for name in COMPONENTS)
    assert len(set(COMPONENTS)) == len(COMPONENTS)


def test_every_need_is_met_by_an_earlier_component():
    report = all_of_them().analyze_pipes(keys=["requires", "assigns"])
    assert {name: found for name, found in report["problems"].items() if found} == {}


def test_a_missing_component_is_reported():
    nlp = spacy.blank("en")
    nlp.add_pipe("miner_fasteners")
    assert nlp.analyze_pipes()["problems"]["miner_fasteners"]


@pytest.mark.parametrize("name", COMPONENTS)
def test_declares_what_it_gives(name):
    meta = Language.get_factory_meta(name)
    assert meta.assigns
    assert all(Doc.has_extension(field.removeprefix("doc._.")) for field in (*meta.assigns, *meta.requires))


@pytest.mark.parametrize("name", COMPONENTS)
def test_what_it_gives_can_be_read(name):
    doc = all_of_them()(TEXT)
    for field in Language.get_factory_meta(name).assigns:
        assert doc._.get(field.removeprefix("doc._.")) is not None


@pytest.mark.parametrize(
    "name",
    [
        pytest.param(name, marks=pytest.mark.xfail(strict=True, reason="a Doc without tags or without tokens"))
        if name == "miner_utterances"
        else name
        for name in COMPONENTS
    ],
)
def test_a_component_by_itself_does_no_harm(name):
    """On a plain Doc, without those before it, a component finds little but does not fail."""
    nlp = spacy.blank("en")
    nlp.add_pipe(name)
    assert nlp(TEXT).text == TEXT


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Undo the two 8 mm T10 screws.", [("screw", 2, 8.0, "hexalobular", "T10")]),
        ("Undo the two 8mm hex-head bolts.", [("bolt", 2, None, "hex-head", "8 mm")]),
        ("Undo the 12, 5 mm Phillips screws.", [("screw", 12, 5.0, "cross-recess", None)]),
        ("Undo the four M3x8 screws (PH1).", [("screw", 4, 8.0, "cross-recess", "PH1")]),
        ("It's held by two nuts; don't lose them.", [("nut", 2, None, None, None)]),
    ],
)
def test_the_text_of_any_spacy_user(text, wanted):
    """Tokens cut by spaCy's own rules, without times."""
    doc = all_of_them()(text)
    groups = annotations_of(doc).groups
    assert [(g.kind, g.count, g.length_mm, g.drive, g.drive_size) for g in groups] == wanted
    assert [span.text for span in doc.spans["miner_groups"]] == [doc[g.start : g.end].text for g in groups]


def test_empty_text():
    doc = spacy.blank("en")("")
    nlp = spacy.blank("en")
    for name in COMPONENTS[:8]:  # the ninth cuts sentences, see test_utterances.py
        nlp.add_pipe(name)
    for _, component in nlp.pipeline:
        doc = component(doc)
    assert annotations_of(doc).groups == []


def test_runs_twice_with_the_same_result():
    nlp = all_of_them()
    doc = nlp(TEXT)
    first = list(annotations_of(doc).groups)
    for _, component in nlp.pipeline:
        doc = component(doc)
    assert annotations_of(doc).groups == first


def test_configuration_round_trip(tmp_path):
    nlp = all_of_them()
    nlp.to_disk(tmp_path / "nlp")
    again = spacy.load(tmp_path / "nlp")
    assert again.pipe_names == list(COMPONENTS)
    assert annotations_of(again(TEXT)).groups == annotations_of(nlp(TEXT)).groups


def test_a_lexicon_layer_from_the_configuration(tmp_path):
    layer = tmp_path / "ours.toml"
    layer.write_text('[[fastener]]\nkind = "treenail"\nterms = ["treenail", "trunnel"]\n', encoding="utf-8")
    nlp = spacy.blank("en")
    for name in COMPONENTS:
        nlp.add_pipe(name, config={"lexicon": [str(layer)]})
    assert [(g.kind, g.count) for g in annotations_of(nlp("Drive out the six trunnels.")).groups] == [("treenail", 6)]


SPAWNED = """
import spacy
import miner.language.factories
nlp = spacy.blank("en")
for name in miner.language.factories.COMPONENTS:
    nlp.add_pipe(name)
print([(g.kind, g.count) for g in nlp("Undo the two screws.")._.miner_groups])
"""


def test_extensions_in_a_fresh_process():
    done = subprocess.run([sys.executable, "-c", SPAWNED], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[('screw', 2)]"


def test_extensions_after_unpickling_in_a_spawned_process():
    """A pickled Doc is readable where nothing was imported before: the annotations bring their module along."""
    import pickle

    doc = all_of_them()("Undo the two screws.")
    read = (
        "import pickle, sys; doc = pickle.load(sys.stdin.buffer);"
        "from miner.language.annotations import annotations_of; print(annotations_of(doc).groups[0].count)"
    )
    done = subprocess.run([sys.executable, "-c", read], input=pickle.dumps(doc), capture_output=True, check=True)
    assert done.stdout.strip() == b"2"


_BYTES = "the annotations in doc.user_data cannot be written as bytes"


@pytest.mark.xfail(strict=True, reason=_BYTES)
def test_a_doc_survives_bytes():
    nlp = all_of_them()
    again = Doc(nlp.vocab).from_bytes(nlp(TEXT).to_bytes())
    assert again._.miner_groups == nlp(TEXT)._.miner_groups


@pytest.mark.xfail(strict=True, reason=_BYTES)
def test_a_doc_survives_a_doc_bin():
    nlp = all_of_them()
    stored = DocBin(store_user_data=True, docs=[nlp(TEXT)])
    again = next(iter(DocBin(store_user_data=True).from_bytes(stored.to_bytes()).get_docs(nlp.vocab)))
    assert again._.miner_groups == nlp(TEXT)._.miner_groups


@pytest.mark.slow
@pytest.mark.xfail(strict=True, reason=_BYTES)
@pytest.mark.skipif(multiprocessing.get_start_method(allow_none=True) not in (None, "fork"), reason="tested with fork")
def test_several_processes():
    docs = list(all_of_them().pipe(["Undo the two screws."] * 2, n_process=2))
    assert [doc._.miner_groups[0].count for doc in docs] == [2, 2]


CLASH = """
from spacy.tokens import Doc
Doc.set_extension("miner_groups", default="mine")
import miner.language.factories
"""


@pytest.mark.xfail(strict=True, reason="an attribute of that name that someone else set is passed over in silence")
def test_a_foreign_attribute_of_that_name_is_no_silent_matter():
    done = subprocess.run([sys.executable, "-c", CLASH], capture_output=True, text=True, check=False)
    assert done.returncode != 0
    assert "miner_groups" in done.stderr


def entry_points() -> list[EntryPoint]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    listed = project.get("entry-points", {}).get("spacy_factories", {})
    return [EntryPoint(name, value, "spacy_factories") for name, value in listed.items()]


def test_entry_points_name_every_component():
    assert [point.name for point in entry_points()] == list(COMPONENTS)


@pytest.mark.parametrize("point", entry_points(), ids=lambda point: point.name)
def test_entry_points_load(point):
    """Loading one registers them all, so that `nlp.add_pipe("miner_measures")` works with no import of ours."""
    assert callable(point.load())
    assert Language.has_factory(point.name)


def test_any_spacy_user_finds_them_by_name_alone(tmp_path):
    """As after an installation: entry points on the path, no import of ours."""
    info = tmp_path / "components-0.dist-info"
    info.mkdir()
    (info / "METADATA").write_text("Metadata-Version: 2.1\nName: components\nVersion: 0\n", encoding="utf-8")
    listed = "".join(f"{point.name} = {point.value}\n" for point in entry_points())
    (info / "entry_points.txt").write_text(f"[spacy_factories]\n{listed}", encoding="utf-8")
    code = "import spacy; nlp = spacy.blank('en'); nlp.add_pipe('miner_numbers'); print(len(nlp('two of 8')._.miner_numbers))"
    seen = os.environ | {"PYTHONPATH": os.pathsep.join((str(tmp_path), str(ROOT)))}
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, env=seen)
    assert done.stdout.strip() == "2"
