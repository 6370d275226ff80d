"""The sentences of one job sorted: prerequisites, notices, steps, how it goes back, how it was closed."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace

from miner.language.annotations import Annotations, Clause, Sentence
from miner.language.roles import RolePatterns, sentence_text
from miner.model.draft import Preparation, Prerequisite
from miner.model.naming import part_key, part_words
from miner.procedures.boundaries import Span
from miner.procedures.notices import Told, extend, goes_on, read_notice
from miner.procedures.phases import LEADS_BACK
from miner.procedures.prerequisites import read_prerequisites
from miner.procedures.step_found import StepFound
from miner.procedures.steps import StepCutter


@dataclass(slots=True)
class Body:
    """What was found in the sentences of one job."""

    span: Span
    steps: list[StepFound] = field(default_factory=list)
    notices: list[Told] = field(default_factory=list)
    prerequisites: list[Prerequisite] = field(default_factory=list)
    preparations: list[Preparation] = field(default_factory=list)
    reverse: Sentence | None = None
    closing: Sentence | None = None
    new_part: bool = False


def read_body(
    known: Annotations, span: Span, patterns: RolePatterns, late: re.Pattern[str], weak: frozenset[str],
    named: frozenset[str], jobs: frozenset[str],
) -> Body:  # fmt: skip
    body = Body(span)
    cutter = StepCutter(known, weak, named)
    told: Told | None = None
    worked = False
    for at in range(span.first, span.last):
        sentence = known.sentences[at]
        clauses = known.clauses_of(sentence)
        role = sentence.role
        if (
            told is not None
            and at > span.first
            and goes_on(known, sentence, told)
            and not (role == "notice" and patterns.signals.match(sentence_text(known, sentence)))
        ):
            extend(known, told, sentence, patterns)
            continue
        if (
            told is not None
            and role == "aside"
            and not told.signalled
            and at + 1 < span.last
            and known.sentences[at + 1].role == "notice"
        ):
            extend(known, told, sentence, patterns)  # the reason, between two halves of a warning
            continue
        told = None
        if role == "notice" and not patterns.signals.match(sentence_text(known, sentence)):
            sentence, before = _alert_part(known, sentence, clauses, patterns)
            if before:
                cutter.sentence(before)
        if role in ("notice", "important") and cutter.steps and patterns.install.match(sentence_text(known, sentence)):
            cutter.course.state = "install"  # "going back on, don't overtighten"
        if role in ("notice", "important"):
            told = read_notice(known, sentence, patterns, late)
            body.notices.append(told)
            cutter.interrupt()
            continue
        if role in ("no-prerequisite", "remark"):
            continue
        if (role == "prerequisite" and not worked) or (
            not worked and _takes_off_known(known, clauses, named, span.heading.part)
        ):
            required = read_prerequisites(known, sentence, jobs=jobs, names=named)
            if required.parts or required.preparations:
                body.prerequisites += required.parts
                body.preparations += required.preparations
                continue
        if not worked and not cutter.steps and at <= span.first + 1 and _says_heading_again(clauses, span.heading.part):
            continue
        if role == "reverse":
            before = _work_before(known, clauses, patterns.reverse)
            if before:
                cutter.sentence(before)
            body.reverse = body.reverse or sentence
            cutter.course.reversed = True
            cutter.interrupt()
            continue
        if role == "closing" and not cutter.steps and re.search(r"\b(?:off|out)\b", sentence_text(known, sentence)):
            required = read_prerequisites(known, sentence, jobs=jobs, names=named)
            if required.parts:
                body.prerequisites += required.parts
                continue
        if role == "closing":
            body.closing = sentence
            continue
        text = sentence_text(known, sentence)
        if patterns.install.match(text) and cutter.steps:
            cutter.course.state = "install"
            clauses = _without_lead(known, clauses, patterns.install)
        elif patterns.after.match(text) and (cutter.steps or body.reverse):
            cutter.course.state = "after"
            clauses = _without_lead(known, clauses, patterns.after)
        cutter.sentence(clauses)
        if cutter.steps and LEADS_BACK.search(text.rstrip(" .,")):
            cutter.course.state = "install"
        worked = worked or any(s.phase == "remove" for s in cutter.steps)
    body.steps = cutter.finish()
    return body


def _alert_part(
    known: Annotations, sentence: Sentence, clauses: list[Clause], patterns: RolePatterns
) -> tuple[Sentence, list[Clause]]:
    """The clauses that warn, and those before them that tell of fasteners or work ("it's four screws, don't lean on them")."""
    for i, clause in enumerate(clauses):
        text = known.words(clause.start, clause.end)
        if clause.mood == "negative" or patterns.alert.search(text):
            before = clauses[:i]
            if any(c.groups or (c.deed and c.deed.effect in ("undo", "detach", "disconnect")) for c in before):
                return replace(sentence, start=clause.start), before
            break
    return sentence, []


def _without_lead(known: Annotations, clauses: list[Clause], pattern: re.Pattern[str]) -> list[Clause]:
    """The clauses after "to install," or "once it is in place,"."""
    first = clauses[0]
    if first.mood == "fragment" and len(clauses) > 1:
        return clauses[1:]
    text = known.words(first.start, first.end)
    match = pattern.match(text)
    if match and first.core > first.start and match.end() < len(text):
        clone = replace(first, start=first.core)
        return [clone, *clauses[1:]]
    return clauses


def _work_before(known: Annotations, clauses: list[Clause], pattern: re.Pattern[str]) -> list[Clause]:
    """The clauses of work before the one that says "in reverse"."""
    at = next((i for i, c in enumerate(clauses) if pattern.search(known.words(c.start, c.end))), 0)
    before = clauses[:at]
    if any(
        c.deed
        and c.mood in ("imperative", "planned", "result")
        and c.deed.effect in ("undo", "detach", "disconnect", "open")
        for c in before
    ):
        return before
    return []


def _says_heading_again(clauses: list[Clause], part: str) -> bool:
    """ "So we're taking the carburettor off to clean it" after "Right, the carburettor"."""
    first = next((c for c in clauses if c.deed), None)
    if (
        first is None
        or first.mood not in ("planned", "narrated")
        or first.deed is None
        or first.deed.effect not in ("detach", "attach", "adjust")
    ):
        return False
    if any(c.groups for c in clauses) or first.source or first.tools or first.object is None or not part:
        return False
    return part_words(first.object.name)[-1] == part_words(part)[-1] and len(clauses) <= 3


def _takes_off_known(known: Annotations, clauses: list[Clause], named: frozenset[str], own: str) -> bool:
    """ "Remove the battery pack and the rear cover." at the start of a job, where other jobs remove those parts."""
    if len(clauses) > 2:
        return False
    clause = clauses[0]
    if (
        clause.deed is None
        or clause.mood not in ("imperative", "planned", "narrated")
        or clause.deed.effect != "detach"
        or (clause.groups and any(g.count for g in clause.groups))
    ):
        return False
    if clause.deed.verb not in ("remove", "take", "detach") or clause.source or not clause.objects or clause.tools:
        return False
    keys = [part_key(p.name) for p in clause.objects]
    known_ones = [key in named for key in keys]
    return part_key(own) not in keys and (all(known_ones) or (len(keys) > 2 and sum(known_ones) * 2 > len(keys)))
