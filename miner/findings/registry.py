"""Every check, in the order of the families.

To add a check: write a function from a `Case` to `Fault`s in the module of its family, with evidence from every
side of the contradiction and a message that an editor understands without the code; add a `Check` to the module's
`CHECKS`; add `tests/findings/cases/<id>.toml` with recordings on which it fires and on which it stays silent. A new
family is a module with a `CHECKS` of its own, listed here. Severities: an `error` must be settled before anything is
published, a `warning` should be, a `remark` is advice.
"""

from __future__ import annotations

from miner.findings import (
    counts,
    fasteners,
    headings,
    names,
    notices,
    parts_list,
    prerequisites,
    reassembly,
    sequence,
    states,
    wording,
)
from miner.findings.case import Check

CHECKS: tuple[Check, ...] = (
    *headings.CHECKS,
    *prerequisites.CHECKS,
    *states.CHECKS,
    *sequence.CHECKS,
    *counts.CHECKS,
    *fasteners.CHECKS,
    *names.CHECKS,
    *notices.CHECKS,
    *reassembly.CHECKS,
    *wording.CHECKS,
    *parts_list.CHECKS,
)


def by_id() -> dict[str, Check]:
    """The checks by id."""
    return {check.id: check for check in CHECKS}
