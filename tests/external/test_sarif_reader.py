"""SARIF written here and read by sarif-tools, a reader from another hand."""

import subprocess
import sys

import pytest
from samples import FIXTURES, gold_draft
from sarif.loader import load_sarif_file

from miner.findings.registry import CHECKS
from miner.publish.sarif import LEVELS, sarif

NAMES = sorted(str(p.relative_to(FIXTURES)).removesuffix(".gold.json") for p in FIXTURES.rglob("quellwood/*.gold.json"))


@pytest.mark.parametrize("name", NAMES)
def test_it_reads_what_was_written(tmp_path, name):
    draft = gold_draft(name)
    path = tmp_path / "talk.sarif"
    path.write_bytes(sarif([draft], CHECKS, "1.0.0"))
    log = load_sarif_file(str(path))
    assert log.get_distinct_tool_names() == ["procedure-miner"]
    assert log.get_result_count() == len(draft.findings)
    for record, finding in zip(log.get_records(), draft.findings, strict=True):
        assert record["Severity"] == LEVELS[finding.severity]
        assert record["Code"] == finding.check
        assert finding.message in record["Description"]
        assert record["Location"].startswith(draft.recording.source)


def test_it_reads_what_the_command_writes(tmp_path):
    talk = FIXTURES / "seeded" / "count-mismatch-1.srt"
    path = tmp_path / "check.sarif"
    done = subprocess.run(
        [sys.executable, "-m", "miner", "check", str(talk), "--format", "sarif", "-o", str(path)], check=False
    )
    assert done.returncode == 1
    log = load_sarif_file(str(path))
    records = [one for one in log.get_records() if one["Code"] == "count-mismatch"]
    assert [(one["Severity"], one["Location"].partition("#")[0]) for one in records] == [("error", talk.name)]
    assert "compare the two" in records[0]["Description"]
    rules = {one["id"]: one for one in log.runs[0].run_data["tool"]["driver"]["rules"]}
    assert set(rules) == {one.id for one in CHECKS}
    assert "--ignore count-mismatch" in rules["count-mismatch"]["help"]["text"]
