"""Findings as SARIF 2.1.0; the requirements are those of the OASIS text."""

import json

from samples import gold_draft, small_draft

from miner.findings.registry import CHECKS
from miner.publish.sarif import sarif


def log(*drafts):
    return json.loads(sarif(drafts, CHECKS, "1.2.3"))


def test_the_frame():
    made = log(small_draft())
    assert made["version"] == "2.1.0"
    driver = made["runs"][0]["tool"]["driver"]
    assert (driver["name"], driver["semanticVersion"]) == ("procedure-miner", "1.2.3")
    ids = [rule["id"] for rule in driver["rules"]]
    assert ids == sorted(set(ids))
    assert all(rule["shortDescription"]["text"] for rule in driver["rules"])


def test_a_result():
    result, remark = log(small_draft())["runs"][0]["results"]
    assert (result["level"], remark["level"]) == ("error", "note")
    assert len(result["locations"]) == 1
    place = result["locations"][0]
    assert place["physicalLocation"]["artifactLocation"]["uri"] == "a%20talk.srt#t=5,9"
    assert place["logicalLocations"][0]["fullyQualifiedName"] == "p01.s01"
    assert [one["id"] for one in result["relatedLocations"]] == [1]
    assert result["partialFingerprints"] == {"minerFinding/v1": "count-mismatch-1"}
    assert result["properties"]["suggestion"] == {"target": "p01.s01", "field": "count", "from": "2", "to": "3"}


def test_rule_indices_point_to_their_rules():
    run = log(gold_draft(), small_draft())["runs"][0]
    for result in run["results"]:
        assert run["tool"]["driver"]["rules"][result["ruleIndex"]]["id"] == result["ruleId"]
        assert result["level"] in ("error", "warning", "note")
        assert result["message"]["text"]
        assert result["locations"]
