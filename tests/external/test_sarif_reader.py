"""SARIF written here and read by sarif-tools, a reader from another hand."""

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
