"""Putting back: nothing said of it, or the part never goes in.

To add a check to this family: write a function from a `Case` to `Fault`s and list it at the end.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from miner.findings.case import Case, Check, Fault, heading_evidence, last_evidence
from miner.findings.phrasing import phrasing
from miner.lexicon.lookup import lookup
from miner.model.draft import Procedure, Step
from miner.model.naming import part_words
from miner.teardown.effects import MAKING

# A verb, and within a few words what is new: "push on 4 new ones", "fit the new belt".
_NEW = re.compile(r"\b([a-z]+)(?: [a-z0-9]+){0,3} new\b")
_REPLACING = re.compile(r"\b(?:being|is|are|get|getting) (?:replaced|swapped|renewed)\b|\b(?:replac|swapp|renew)ing\b")


def missing_install(case: Case) -> Iterator[Fault]:
    """A replacement with no word about putting the part back."""
    jobs = case.draft.procedures
    for position, procedure in enumerate(jobs):
        if any(_fits_new(procedure, one) for one in jobs[position + 1 : position + 2]):
            continue
        if procedure.install.mode != "none" or not procedure.steps or not _is_replacement(case, procedure):
            continue
        if not _is_part(case, procedure) or any(_fitted_in(case, procedure, one) for one in jobs[position + 1 :]):
            continue
        if any(_puts_in(case, procedure, step) for step in procedure.steps) or _told(case, procedure):
            continue
        yield Fault(
            f"Nothing is said about fitting the new {procedure.subject}.",
            (procedure.id,),
            tuple(dict.fromkeys((heading_evidence(procedure), last_evidence(procedure)))),
        )


def _fits_new(procedure: Procedure, following: Procedure) -> bool:
    """Whether the next job is the second half of this one: "now for the fresh battery"."""
    words = [word for word in part_words(following.subject) if word not in ("new", "fresh", "replacement", "spare")]
    fitted = following.install.mode != "none" and len(words) < len(part_words(following.subject))
    return fitted and tuple(words) == part_words(procedure.subject)


def _is_part(case: Case, procedure: Procedure) -> bool:
    """Whether a job is about a part that can be fitted, or about a name that the trade does not know."""
    head = lookup(case.lexicon).head_of(part_words(procedure.subject))
    return head is None or head.kind not in ("fluid", "place", "product")


def _fitted_in(case: Case, procedure: Procedure, later: Procedure) -> bool:
    """Whether a later job fits the part too: the talk broke off and came back to it."""
    names = case.teardown.names
    return any(step.phase == "install" and names.same(step.part, procedure.subject) for step in later.steps)


def _is_replacement(case: Case, procedure: Procedure) -> bool:
    """Whether a job replaces its part, by its kind or by what is said before its first step."""
    if procedure.kind != "remove":
        return procedure.kind == "replace"
    first = procedure.steps[0].start
    said = (one.quote for one in case.said(procedure.start, first) if one.start < first)
    return bool(_REPLACING.search(f"{procedure.heading.text} {' '.join(said)}".casefold()))


def _puts_in(case: Case, procedure: Procedure, step: Step) -> bool:
    """Whether a step fits something, also within the sentence that took it off ("pull it off, push a new one on")."""
    if step.phase == "install":
        return True
    names, effects = case.teardown.names, case.teardown.effects
    apart = [one for one in procedure.steps if one.number < step.number and effects.of(one) in ("detach", "undo")]
    back = effects.of(step) in MAKING and any(names.same(step.part, one.part) for one in apart)
    text = step.text.casefold()
    if apart and (phrasing(case.lexicon, "new-in").search(text) or (effects.of(step) == "fasten" and step.fasteners)):
        return True
    fits = back or (bool(apart) and effects.of(step) in MAKING and names.same(step.part, procedure.subject))
    verbs = lookup(case.lexicon).actions
    return fits or any(verb in verbs and verbs[verb].effect in MAKING | {"move"} for verb in _NEW.findall(text))


def _told(case: Case, procedure: Procedure) -> bool:
    """Whether the talk after the first part came off says that something goes back, or that all of it is reversed."""
    first = next((step.start for step in procedure.steps if step.phase == "remove"), procedure.end)
    said = " ".join(one.quote.casefold() for one in case.said(first, procedure.end))
    return any(phrasing(case.lexicon, role).search(said) for role in ("goes-back", "new-in", "reverse"))


CHECKS = (
    Check(
        "missing-install",
        "error",
        "A replacement with no word about putting it back.",
        "The flow meter is replaced, and the job ends when the old one is out.",
        missing_install,
    ),
)
