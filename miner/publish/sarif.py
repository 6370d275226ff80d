"""Findings as SARIF 2.1.0, the exchange format of analysis tools (OASIS).

A finding is a result, a check a rule. The first piece of evidence is the location, the other sides of the
contradiction are related locations: SARIF wants several locations only where a change is needed at each. A place
in a recording has no line, so the URI carries the time as a W3C media fragment (`talk.srt#t=12.4,18`).
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any, Literal, Protocol
from urllib.parse import quote

from miner.model.draft import Draft
from miner.model.finding import Evidence, Finding, Severity
from miner.publish.wording import clock

Level = Literal["error", "warning", "note"]
LEVELS: dict[Severity, Level] = {"error": "error", "warning": "warning", "remark": "note"}
SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"


class Rule(Protocol):
    """What a check must tell of itself."""

    @property
    def id(self) -> str:
        """The name that findings carry."""

    @property
    def severity(self) -> Severity:
        """How grave its findings are, if they do not say otherwise."""

    @property
    def meaning(self) -> str:
        """One sentence."""

    @property
    def example(self) -> str:
        """One case of it."""

    @property
    def silence(self) -> str:
        """How to silence it."""


def sarif(drafts: Iterable[Draft], rules: Sequence[Rule], version: str) -> bytes:
    """The findings of drafts as one SARIF log; `version` is the miner's."""
    ordered = sorted(rules, key=lambda rule: rule.id)
    places = {rule.id: n for n, rule in enumerate(ordered)}
    driver = {
        "name": "procedure-miner",
        "semanticVersion": version,
        "rules": [
            {
                "id": rule.id,
                "shortDescription": {"text": rule.meaning},
                "help": {"text": f"For example: {rule.example} {rule.silence}"},
                "defaultConfiguration": {"level": LEVELS[rule.severity]},
            }
            for rule in ordered
        ],
    }
    results = [_result(one, draft.recording.source, places) for draft in drafts for one in draft.findings]
    run = {"tool": {"driver": driver}, "columnKind": "unicodeCodePoints", "results": results}
    log = {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}
    return (json.dumps(log, ensure_ascii=False, indent=1) + "\n").encode()


def _result(finding: Finding, source: str, places: dict[str, int]) -> dict[str, Any]:
    made: dict[str, Any] = {"ruleId": finding.check}
    if finding.check in places:
        made["ruleIndex"] = places[finding.check]
    made |= {
        "level": LEVELS[finding.severity],
        "message": {"text": finding.message + (f" Only in one variant: {finding.branch}." if finding.branch else "")},
        "locations": [_location(one, source) for one in finding.evidence[:1]],
        "relatedLocations": [{"id": n, **_location(one, source)} for n, one in enumerate(finding.evidence[1:], 1)],
        "partialFingerprints": {"minerFinding/v1": finding.id},
    }
    properties: dict[str, Any] = {"procedures": list(finding.procedures)}
    if finding.branch:
        properties["branch"] = finding.branch
    if (fix := finding.suggestion) is not None:
        properties["suggestion"] = {"target": fix.target, "field": fix.field, "from": fix.from_, "to": fix.to}
    return {**made, "properties": properties}


def _location(evidence: Evidence, source: str) -> dict[str, Any]:
    made: dict[str, Any] = {
        "physicalLocation": {"artifactLocation": {"uri": quote(source) + _fragment(evidence)}},
        "message": {"text": f"{clock(evidence.start)}: {evidence.quote}"},
    }
    if evidence.step:
        made["logicalLocations"] = [{"fullyQualifiedName": evidence.step, "kind": "member"}]
    return made


def _fragment(evidence: Evidence) -> str:
    """A W3C media fragment: seconds, the end only where it lies after the start."""
    start, end = (f"{value:.2f}".rstrip("0").rstrip(".") for value in (evidence.start, evidence.end))
    return f"#t={start},{end}" if evidence.end > evidence.start else f"#t={start}"
