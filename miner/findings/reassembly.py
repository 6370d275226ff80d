"""Putting back: nothing said of it, or the part never goes in.

To add a check to this family: write a function from a `Case` to `Fault`s and list it at the end.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from miner.findings.case import Case, Check, Fault, heading_evidence, last_evidence
from miner.lexicon.lookup import lookup
from miner.model.draft import Procedure, Step
from miner.teardown.effects import MAKING

# A verb, and within a few words what is new: "push on 4 new ones", "fit the new belt".
_NEW = re.compile(r"\b([a-z]+)(?: [a-z0-9]+){0,3} new\b")


def missing_install(case: Case) -> Iterator[Fault]:
    """A replacement with no word about putting the part back."""
    for procedure in case.draft.procedures:
        if procedure.kind != "replace" or procedure.install.mode != "none" or not procedure.steps:
            continue
        if any(_puts_in(case, procedure, step) for step in procedure.steps):
            continue
        yield Fault(
            f"Nothing is said about fitting the new {procedure.subject}.",
            (procedure.id,),
            tuple(dict.fromkeys((heading_evidence(procedure), last_evidence(procedure)))),
        )


def _puts_in(case: Case, procedure: Procedure, step: Step) -> bool:
    """Whether a step fits something, also within the sentence that took it off ("pull it off, push a new one on")."""
    if step.phase == "install":
        return True
    names, effects = case.teardown.names, case.teardown.effects
    apart = [one for one in procedure.steps if one.number < step.number and effects.of(one) in ("detach", "undo")]
    back = effects.of(step) in MAKING and any(names.same(step.part, one.part) for one in apart)
    fits = back or (bool(apart) and effects.of(step) in MAKING and names.same(step.part, procedure.subject))
    verbs = lookup(case.lexicon).actions
    return fits or any(
        verb in verbs and verbs[verb].effect in MAKING | {"move"} for verb in _NEW.findall(step.text.casefold())
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
