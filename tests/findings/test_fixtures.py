"""The checks on drafts that say exactly what the fixtures' gold files say: what a perfect road would give them.

Kinds that rest on observations of the language stage (stutters, mishearings, closings ...) are not looked for here.
"""

import json
from pathlib import Path

import pytest

from miner.findings import check
from miner.lexicon import load_lexicon
from miner.scoring import draft_from_gold
from miner.teardown import build

FIXTURES = Path(__file__).resolve().parents[2] / "fixtures"
OBSERVED = {"stutter", "probable-mishearing", "grammatical-number", "unclear-reference", "closing-mismatch"}
SECONDS = 12.0  # a gold draft knows no times of prerequisites, so that they are those of the heading


def golds(folder):
    return [pytest.param(path, id=path.name.split(".")[0]) for path in sorted((FIXTURES / folder).glob("*.gold.json"))]


def findings_of(gold):
    draft = draft_from_gold(gold, findings=False)
    lexicon = load_lexicon()
    return check(draft, build(draft, lexicon), (), lexicon)


def near(finding, wanted):
    return any(abs(place.start - time) <= SECONDS for place in finding.evidence for time in wanted["at"])


@pytest.mark.parametrize("path", golds("clean"))
def test_recordings_full_of_look_alikes_raise_nothing(path):
    found = findings_of(json.loads(path.read_text(encoding="utf-8")))
    assert [one for one in found if one.severity != "remark"] == []


@pytest.mark.parametrize("path", [*golds("quellwood"), *golds("trades")])
def test_demo_recordings(path):
    gold = json.loads(path.read_text(encoding="utf-8"))
    wanted = [one for one in gold["inconsistencies"] if one["kind"] not in OBSERVED]
    kinds = {one["kind"] for one in wanted} | {"late-caution"}
    found = [one for one in findings_of(gold) if one.severity != "remark" and one.check not in OBSERVED]
    hits = [one for one in wanted if any(other.check == one["kind"] and near(other, one) for other in found)]
    assert len(hits) >= 0.6 * len(wanted)
    assert {one.check for one in found} <= kinds
