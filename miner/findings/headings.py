"""Headings and closings: repeated, missing, or about another part than the job.

To add a check to this family: write a function from a `Case` to `Fault`s and list it at the end.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from miner.findings.bodies import foreign_part
from miner.findings.case import Case, Check, Fault, heading_evidence, step_evidence
from miner.findings.phrasing import phrasing
from miner.findings.titles import heading_part, opposed, related, without_job
from miner.lexicon.lookup import lookup
from miner.model.draft import Procedure, Step
from miner.model.finding import Evidence, Suggestion
from miner.model.naming import part_key, part_words, shortens
from miner.teardown.effects import PARTING

# Words of a job that is over; other closings tell where a part is now.
_DONE = re.compile(
    r"\b(?:done|finished|sorted|completed?|completes|concludes|finishes|ends?|changed|replaced|swapped|renewed|"
    r"exchanged|adjusted|tested|dealt with)\b",
    re.IGNORECASE,
)
_JUST_BEFORE = 5.0  # seconds before a job in which it is announced
_PRONOUNS = frozenset({"it", "this", "that", "them", "these", "both"})
_NO_PARTS = frozenset({"product", "place", "fluid"})  # what no job is about, though it has a name


def repeated_heading(case: Case) -> Iterator[Fault]:
    """The same heading announces two different bodies."""
    firsts: dict[tuple[str, tuple[str, ...]], Procedure] = {}
    for procedure in case.draft.procedures:
        part = heading_part(procedure, case.lexicon)
        if not procedure.heading.spoken or not part:
            continue
        first = firsts.setdefault((procedure.kind, part), procedure)
        about = _about(case, procedure, part, repeated=True)
        if first is not procedure and part_key(first.subject) != part_key(about):
            yield Fault(
                f"One heading announces two jobs: the {first.subject} and the {about}.",
                (first.id, procedure.id),
                (heading_evidence(first), heading_evidence(procedure)),
            )


def _about(case: Case, procedure: Procedure, part: tuple[str, ...], *, repeated: bool) -> str:
    """The part that a job is about: the draft's subject, unless that is only what the heading says."""
    if part_words(procedure.subject) != part:
        return procedure.subject
    return foreign_part(case, procedure, part, repeated=repeated) or procedure.subject


def heading_body_mismatch(case: Case) -> Iterator[Fault]:
    """The heading announces one part, the steps are about another."""
    heads: dict[tuple[str, ...], Procedure] = {}
    for procedure in case.draft.procedures:
        part = heading_part(procedure, case.lexicon)
        first = heads.setdefault(part, procedure)
        if not procedure.heading.spoken or not part or not procedure.steps or not part_words(procedure.subject):
            continue
        about = _about(case, procedure, part, repeated=first is not procedure)
        subject = part_words(about)
        if case.teardown.effects.is_fastener(about):
            continue  # no job is about a cable tie
        if len(part[-1]) == 1 or (len(part) == 1 and lookup(case.lexicon).head_of(part) is None):
            continue  # "job b", "the squeal": no part is announced
        if related(part, subject) and not opposed(part, subject):
            continue
        if _synonyms(case, " ".join(part), " ".join(subject)) or _worked_on(case, procedure, part):
            continue
        if first is not procedure and len(part) == 1 and part != part_words(first.subject):
            continue  # a loose name that fits both parts: only the heading is repeated
        shown = _first_about(procedure, subject)
        yield Fault(
            f"The heading announces the {' '.join(part)}, the steps are about the {about}.",
            (procedure.id,),
            (heading_evidence(procedure), shown) if shown else (heading_evidence(procedure),),
            Suggestion(procedure.id, "title", procedure.title, None),
        )


def _synonyms(case: Case, one: str, other: str) -> bool:
    return any({one, other} <= {part_key(term) for term in entry.terms} for entry in case.lexicon.synonyms)


def _worked_on(case: Case, procedure: Procedure, part: tuple[str, ...]) -> bool:
    """Whether some step plainly takes the announced part off, or fits the new one: then the heading is right."""
    key = " ".join(part)
    for step in procedure.steps:
        names = {part_key(step.part), *(part_key(group.secures) for group in step.fasteners)}
        told = part[-1] in part_words(step.text) or bool(_PRONOUNS & set(step.text.casefold().split()))
        short = part[-1] != part_words(procedure.subject)[-1] and any(shortens(part_words(one), part) for one in names)
        if (key in names or short) and told and (case.teardown.effects.of(step) in PARTING or step.phase == "install"):
            return True
    return False


def _first_about(procedure: Procedure, subject: tuple[str, ...]) -> Evidence | None:
    for step in procedure.steps:
        named = {part_words(name) for name in (step.part, *(group.secures for group in step.fasteners)) if name}
        if subject in named:
            return step_evidence(step)
    return step_evidence(procedure.steps[0]) if procedure.steps else None


def missing_heading(case: Case) -> Iterator[Fault]:
    """A job starts and no heading was said; its title is inferred.

    Where the speaker numbers the sections and no number is missing here, no heading is missing either.
    """
    numbers = _section_numbers(case)
    for position, procedure in enumerate(case.draft.procedures):
        if procedure.heading.spoken or not procedure.steps or _counted_through(case, numbers, position):
            continue
        before = case.draft.procedures[max(position - 1, 0) : position]
        if (
            not _is_job(case, procedure)
            or _announced(case, procedure)
            or any(_goes_on(case, b, procedure) for b in before)
        ):
            continue
        yield Fault(
            f"A job starts here without a heading; it is taken for '{procedure.title}'.",
            (procedure.id,),
            (heading_evidence(procedure),),
        )


def _is_job(case: Case, procedure: Procedure) -> bool:
    """Whether a stretch without a heading takes something apart: a strap put on or a weight lifted is no job."""
    apart = [step for step in procedure.steps if step.phase == "remove"]
    subject = part_words(procedure.subject)
    held = any(step.fasteners or step.from_ for step in apart) or lookup(case.lexicon).head_of(subject) is not None
    return bool(subject) and bool(apart) and (held or len(procedure.steps) > 1)


def _announced(case: Case, procedure: Procedure) -> bool:
    """Whether a job is announced right before, in words that the draft did not take for a heading."""
    start = procedure.start
    said = " ".join(one.quote for one in case.spoken if start - _JUST_BEFORE < one.end and one.start < start)
    return phrasing(case.lexicon, "announces").search(said.casefold()) is not None


def _goes_on(case: Case, before: Procedure, procedure: Procedure) -> bool:
    """Whether all that is worked on came apart in the job before: its way back, and no new job."""
    names = case.teardown.names
    worked = [*(step.part for step in before.steps if step.phase == "remove"), before.subject]
    own = [step.part for step in procedure.steps if step.part and not case.teardown.effects.is_fastener(step.part)]
    return bool(own) and all(any(names.same(part, one) or _shares_head(part, one) for one in worked) for part in own)


def _shares_head(one: str, other: str | None) -> bool:
    """Whether one name is the other cut short: "cable" for "flat cable"."""
    a, b = part_words(one), part_words(other) if other else ()
    return bool(a) and bool(b) and a[-1] == b[-1] and (set(a) <= set(b) or set(b) <= set(a))


def _section_numbers(case: Case) -> dict[str, int]:
    found = {}
    for one in case.observed("section-number"):
        if one.detail.get("number", "").isdigit():
            found[one.detail.get("procedure", "")] = int(one.detail["number"])
    return found


def _counted_through(case: Case, numbers: dict[str, int], position: int) -> bool:
    """Whether the numbered sections around a job leave no number for it."""
    ids = [procedure.id for procedure in case.draft.procedures]
    before = next((place for place in range(position - 1, -1, -1) if ids[place] in numbers), None)
    after = next((place for place in range(position + 1, len(ids)) if ids[place] in numbers), None)
    if before is None or after is None:
        return False
    missing = numbers[ids[after]] - numbers[ids[before]] - 1
    return position - before > max(missing, 0)


def closing_mismatch(case: Case) -> Iterator[Fault]:
    """The sentence that closes a job names another part than its heading."""
    known = {part_words(name) for name in _part_names(case)}
    heads = lookup(case.lexicon)
    for one in case.observed("closing"):
        closing = without_job(part_words(one.detail.get("part", "")), case.lexicon)
        procedure = case.procedures.get(one.detail.get("procedure", "")) or case.at(one.evidence[0].start)
        if procedure is None or not closing or _before_the_work(procedure, one.evidence[0].start):
            continue  # what is said before the work is no closing
        if _job_of_its_own(case, procedure, closing) or _worked_before(procedure, closing, one.evidence[0].start):
            continue  # the sentence closes a job that began here without a heading
        own = [part_words(procedure.subject), heading_part(procedure, case.lexicon)]
        if set(closing) <= set(part_words(procedure.heading.text)):
            continue
        if not _DONE.search(one.evidence[0].quote):
            own += [part_words(item.part) for item in procedure.prerequisites]  # "that's the hood back on"
        if any(related(closing, part) and not opposed(closing, part) for part in own if part):
            continue
        head = heads.head_of(closing)
        if closing in known or (head is not None and head.kind not in _NO_PARTS):
            yield Fault(
                f"The heading announces the {procedure.subject}, the closing sentence names the {' '.join(closing)}.",
                (procedure.id,),
                (heading_evidence(procedure), *one.evidence),
            )


def _before_the_work(procedure: Procedure, time: float) -> bool:
    """Whether parts still come off after a moment, and nothing was put back before it."""
    apart = any(step.phase == "remove" and step.start > time for step in procedure.steps)
    back = any(step.phase == "install" and step.start < time for step in procedure.steps)
    reversed_ = procedure.install.start is not None and procedure.install.start < time
    return apart and not back and not reversed_


def _worked_before(procedure: Procedure, part: tuple[str, ...], time: float) -> bool:
    """Whether the job worked on a part before a moment."""
    return any(step.start < time and _works_on(step, part) for step in procedure.steps)


def _works_on(step: Step, part: tuple[str, ...]) -> bool:
    return any(part == part_words(name) for name in (step.part, *(group.secures for group in step.fasteners)) if name)


def _job_of_its_own(case: Case, procedure: Procedure, part: tuple[str, ...]) -> bool:
    """Whether a part is taken off and fitted again after the subject of the procedure had been fitted."""
    fitted = [step.number for step in procedure.steps if step.phase == "install"]
    work = [step for step in procedure.steps if fitted and step.number > fitted[0] and _is_on(step, part)]
    effects = {case.teardown.effects.of(step) for step in work}
    return bool(effects & PARTING) and len(work) > 1


def _is_on(step: Step, part: tuple[str, ...]) -> bool:
    named = (step.part, step.from_, *(group.secures for group in step.fasteners))
    return any(part == part_words(name) for name in named if name)


def _part_names(case: Case) -> Iterator[str]:
    for procedure in case.draft.procedures:
        yield procedure.subject
        yield from (step.part for step in procedure.steps if step.part)


CHECKS = (
    Check(
        "repeated-heading",
        "error",
        "The same heading announces two different bodies.",
        "'Replacing the upper burr' is said for the upper burr and again for the lid switch.",
        repeated_heading,
    ),
    Check(
        "heading-body-mismatch",
        "error",
        "The body is about another part than the heading.",
        "The heading says thermal fuse, every step is about the temperature sensor.",
        heading_body_mismatch,
    ),
    Check(
        "missing-heading",
        "warning",
        "A job starts with no heading.",
        "After the pump the narrator goes on with the flow meter without saying so.",
        missing_heading,
    ),
    Check(
        "closing-mismatch",
        "warning",
        "The closing sentence names another part than the heading.",
        "The steam wand job ends with 'and that's the pump done'.",
        closing_mismatch,
    ),
)
