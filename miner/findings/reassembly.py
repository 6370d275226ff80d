"""Putting back: nothing said of it, or the part never goes in.

To add a check to this family: write a function from a `Case` to `Fault`s and list it at the end.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from miner.findings.case import Case, Check, Fault, heading_evidence, last_evidence
from miner.lexicon.loading import Lexicon
from miner.lexicon.lookup import lookup
from miner.model.draft import Procedure, Step
from miner.model.naming import part_words
from miner.teardown.effects import MAKING

# A verb, and within a few words what is new: "push on 4 new ones", "fit the new belt".
_NEW = re.compile(r"\b([a-z]+)(?: [a-z0-9]+){0,3} new\b")
_REPLACING = re.compile(r"\b(?:being|is|are|get|getting) (?:replaced|swapped|renewed)\b|\b(?:replac|swapp|renew)ing\b")
# What is new, and where it goes, without a verb: "new lamp in", "slide a charged one in along the rails".
_NEW_IN = re.compile(
    r"\b(?:new|fresh|charged|replacement|spare|reconditioned)\b(?:(?! when | until | yet )[a-z ,'-]){1,40}?"
    r"\b(?:in|on|into|onto|down|goes|round|over)\b"
)
# What is put back in words that the draft may not take for a step: "the plate sits back over the shaft".
_BACK = re.compile(
    r"\b(?:sits?|goes?|go|drops?|slides?|pops?|clips?|comes?) (?:straight |right )?(?:back )?"
    r"(?:on|in|over|round|home|onto|into)\b|\bback (?:on|in|over|onto|into|down)\b|\b(?:in|on) goe?s?\b"
)


def missing_install(case: Case) -> Iterator[Fault]:
    """A replacement with no word about putting the part back."""
    jobs = case.draft.procedures
    for position, procedure in enumerate(jobs):
        following = jobs[position + 1] if position + 1 < len(jobs) else None
        if following and _fits_new(procedure, following):
            continue
        if procedure.install.mode != "none" or not procedure.steps or not _is_replacement(case, procedure):
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


def _is_replacement(case: Case, procedure: Procedure) -> bool:
    """Whether a job replaces its part, by its kind or by what is said before its first step."""
    if procedure.kind != "remove":
        return procedure.kind == "replace"
    first = procedure.steps[0].start
    said = (one.quote for one in case.spoken if procedure.start <= one.start < first)
    return bool(_REPLACING.search(f"{procedure.heading.text} {' '.join(said)}".casefold()))


def _puts_in(case: Case, procedure: Procedure, step: Step) -> bool:
    """Whether a step fits something, also within the sentence that took it off ("pull it off, push a new one on")."""
    if step.phase == "install":
        return True
    names, effects = case.teardown.names, case.teardown.effects
    apart = [one for one in procedure.steps if one.number < step.number and effects.of(one) in ("detach", "undo")]
    back = effects.of(step) in MAKING and any(names.same(step.part, one.part) for one in apart)
    text = step.text.casefold()
    if apart and (_NEW_IN.search(text) or (effects.of(step) == "fasten" and step.fasteners)):
        return True
    fits = back or (bool(apart) and effects.of(step) in MAKING and names.same(step.part, procedure.subject))
    verbs = lookup(case.lexicon).actions
    return fits or any(verb in verbs and verbs[verb].effect in MAKING | {"move"} for verb in _NEW.findall(text))


def _told(case: Case, procedure: Procedure) -> bool:
    """Whether the talk after the first part came off says that something goes back, or that all of it is reversed."""
    first = next((step.start for step in procedure.steps if step.phase == "remove"), procedure.end)
    said = " ".join(one.quote.casefold() for one in case.spoken if first <= one.start <= procedure.end)
    return bool(_BACK.search(said) or _reversal(case.lexicon).search(said))


@lru_cache(maxsize=4)
def _reversal(lexicon: Lexicon) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w)(?:{'|'.join(lookup(lexicon).phrases('reverse')) or '(?!)'})(?!\w)")


CHECKS = (
    Check(
        "missing-install",
        "error",
        "A replacement with no word about putting it back.",
        "The flow meter is replaced, and the job ends when the old one is out.",
        missing_install,
    ),
)
