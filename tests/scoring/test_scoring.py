"""What a score means, in small cases whose answer is plain."""

import copy
import json
from dataclasses import replace

import pytest
from samples import FIXTURES, gold_draft

from miner.errors import InputError
from miner.model.serialise import to_dict
from miner.scoring import score, score_folders
from miner.scoring.report import as_json, detail, tables
from miner.scoring.words import name_key, tokens, word_counts

NAMES = sorted(str(p.relative_to(FIXTURES)).removesuffix(".gold.json") for p in FIXTURES.rglob("*.gold.json"))


def gold(name="quellwood/e2-service-script"):
    return json.loads((FIXTURES / f"{name}.gold.json").read_text(encoding="utf-8"))


def changed(change):
    document = to_dict(gold_draft())
    change(document)
    return score(gold(), document)


@pytest.mark.parametrize("name", NAMES)
def test_the_perfect_draft_scores_one(name):
    card = score(gold(name), to_dict(gold_draft(name)))
    assert card.headline() == 1.0
    assert not card.remarks


def test_an_empty_draft_scores_nothing():
    card = score(gold(), {})
    assert card.headline() == 0.0
    assert card.figures("steps")["recall"] == 0.0
    assert card.figures("steps")["precision"] is None


def test_a_lost_step_is_a_miss_and_takes_its_fasteners_along():
    def lose(document):
        steps = next(p["steps"] for p in document["procedures"] if any(step["fasteners"] for step in p["steps"]))
        del steps[next(n for n, step in enumerate(steps) if step["fasteners"])]

    card = changed(lose)
    assert card.counts["steps", "gold"] - card.counts["steps", "hit"] == 1
    assert card.counts["fasteners", "gold"] > card.counts["fasteners", "hit"]


def test_a_wrong_field_costs_accuracy_only():
    def rename(document):
        document["procedures"][0]["steps"][0]["part"] = "flux capacitor"

    card = changed(rename)
    assert card.headline() == 1.0
    part = card.figures("steps.part")
    assert part["of"] - part["right"] == 1


def test_a_boundary_may_be_three_seconds_off():
    def shift(by):
        def change(document):
            document["procedures"][0]["start"] += by

        return change

    assert changed(shift(3.0)).figures("boundaries")["f1"] == 1.0
    assert changed(shift(3.01)).figures("boundaries")["f1"] < 1.0


def test_findings_match_by_kind_and_time():
    def alarm(document):
        extra = copy.deepcopy(document["findings"][0])
        extra["evidence"] = [{"start": 99999.0, "end": 99999.0, "quote": ""}]
        document["findings"].append(extra)

    card = changed(alarm)
    assert card.counts["findings", "draft"] - card.counts["findings", "hit"] == 1
    assert card.false_alarms_per_hour() == pytest.approx(1 / card.hours)


def test_checks_that_annotators_do_not_look_for_are_no_false_alarms():
    def remark(document):
        document["findings"].append({**document["findings"][0], "check": "long-instruction"})

    assert not changed(remark).remarks


@pytest.mark.parametrize(
    ("one", "other"),
    [("The O-rings", "o ring"), ("batteries", "battery"), ("T-10", "t10"), ("both lenses", "both lens")],
)
def test_names_that_count_as_equal(one, other):
    assert name_key(one) == name_key(other)


def test_words():
    assert tokens("Twenty-two T10s, two point five") == ["22", "t", "10", "s", "2.5"]
    assert word_counts("uh, undo the, you know, two screws") == word_counts("Undo the 2 screws.")
    assert tokens(None) == []


def test_folders(tmp_path):
    golds, drafts = tmp_path / "gold", tmp_path / "drafts"
    golds.mkdir()
    for name in ("a", "b"):
        (golds / f"{name}.gold.json").write_text(json.dumps(gold()), encoding="utf-8")
    with pytest.raises(InputError, match="no gold file"):
        score_folders(golds, drafts)
    (drafts / "a").mkdir(parents=True)
    (drafts / "a" / "draft.json").write_text(gold_draft().to_json(), encoding="utf-8")
    cards, missing = score_folders(golds, drafts)
    assert missing == ("b",)
    assert (cards["a"].headline(), cards["b"].headline()) == (1.0, 0.0)
    assert "= overall" in tables(cards)
    assert "miss" in detail(cards, "b")
    assert json.loads(as_json(cards))["recordings"]["a"]["headline"] == 1.0
    recording = gold_draft().recording
    (drafts / "draft.json").write_text(
        replace(gold_draft(), recording=replace(recording, id="b")).to_json(), encoding="utf-8"
    )
    assert score_folders(golds, drafts)[1] == ()
