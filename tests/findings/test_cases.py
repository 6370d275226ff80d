"""Every check against its own cases: recordings on which it fires and recordings on which it stays silent."""

import tomllib
from pathlib import Path

import pytest
from findings.mini_drafts import draft_of, observations_of

from miner.findings import CHECKS, check
from miner.lexicon import load_lexicon
from miner.readers.parts_list import PartsList, PartsRow, read_parts_list
from miner.teardown import build

FOLDER = Path(__file__).parent / "cases"
IDS = [one.id for one in CHECKS]


def cases_of(name):
    return tomllib.loads((FOLDER / f"{name}.toml").read_text(encoding="utf-8"))


def listed(side):
    return [
        pytest.param(name, case, id=f"{name}-{number}")
        for name in IDS
        if (FOLDER / f"{name}.toml").exists()
        for number, case in enumerate(cases_of(name).get(side, ()), 1)
    ]


def run(case, tmp_path):
    draft = draft_of(case["procedures"])
    parts = None
    if "parts_list" in case:
        path = tmp_path / "parts.csv"
        path.write_text(case["parts_list"], encoding="utf-8")
        parts = read_parts_list(path)
    lexicon = load_lexicon()
    seen = observations_of(case.get("observations", ()), draft)
    return check(draft, build(draft, lexicon), seen, lexicon, parts_list=parts)


@pytest.mark.parametrize(("name", "case"), listed("fires"))
def test_fires(name, case, tmp_path):
    found = [one for one in run(case, tmp_path) if one.check == name]
    assert len(found) == case.get("times", 1), found
    quotes = " | ".join(place.quote for one in found for place in one.evidence)
    for words in case.get("quotes", ()):
        assert words in quotes
    if "branch" in case:
        assert found[0].branch == case["branch"]
    for one in found:
        assert one.message
        assert one.evidence
        assert one.id.startswith(f"{name}-")


@pytest.mark.parametrize(("name", "case"), listed("silent"))
def test_stays_silent(name, case, tmp_path):
    assert [one for one in run(case, tmp_path) if one.check == name] == []


@pytest.mark.parametrize("one", CHECKS, ids=IDS)
def test_a_check_is_complete(one):
    cases = cases_of(one.id)
    assert cases["fires"]
    assert cases["silent"]
    assert one.meaning.endswith(".")
    assert one.example.endswith(".")
    assert one.severity in ("error", "warning", "remark")


def test_ids_are_unique_and_have_no_case_too_many():
    assert len(set(IDS)) == len(IDS)
    assert {path.stem for path in FOLDER.glob("*.toml")} == set(IDS)


def test_a_parts_list_finds_shortened_names():
    parts = PartsList.of([PartsRow("drive belt", line=2), PartsRow("main board", line=3)])
    assert parts.find("the belt") == parts.rows[0]
    assert parts.find("fan") is None
