"""Where open errors are marked in a publication: at the steps they cite, else in front of their procedure."""

from __future__ import annotations

from miner.model.draft import Draft
from miner.model.finding import Finding
from miner.publish.outline import Section, by_gravity


def open_errors(draft: Draft) -> tuple[Finding, ...]:
    """The errors among a draft's findings, in order of the recording."""
    return by_gravity([one for one in draft.findings if one.severity == "error"])


def marked_in_front(section: Section) -> tuple[Finding, ...]:
    """The errors of a procedure that none of its own steps is cited by."""
    entries = [*(entry for phase in section.work for entry in phase.steps), *section.reassembly, *section.checks]
    cited = {one.id for entry in entries for one in entry.findings}
    return tuple(one for one in section.findings if one.severity == "error" and one.id not in cited)
