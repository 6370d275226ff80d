"""Putting back: nothing said of it, or the part never goes in.

To add a check to this family: write a function from a `Case` to `Fault`s and list it at the end.
"""

from __future__ import annotations

from collections.abc import Iterator

from miner.findings.case import Case, Check, Fault, heading_evidence, last_evidence


def missing_install(case: Case) -> Iterator[Fault]:
    """A replacement with no word about putting the part back."""
    for procedure in case.draft.procedures:
        if procedure.kind != "replace" or procedure.install.mode != "none" or not procedure.steps:
            continue
        if any(step.phase == "install" for step in procedure.steps):
            continue
        yield Fault(
            f"Nothing is said about fitting the new {procedure.subject}.",
            (procedure.id,),
            tuple(dict.fromkeys((heading_evidence(procedure), last_evidence(procedure)))),
        )


CHECKS = (
    Check(
        "missing-install",
        "error",
        "A replacement with no word about putting it back.",
        "The flow meter is replaced, and the job ends when the old one is out.",
        missing_install,
    ),
)
