"""A job told as a plan and nothing more: "now we're going to take the lens off", "the pan has to come out"."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations, Clause, Phrase, Sentence
from miner.model.draft import Kind
from miner.procedures.heading_forms import OPENER, Found

_COMES_NEXT = re.compile(
    rf"{OPENER}(?P<part>(?:the|this|our) (?:[a-z\-]+ ){{0,3}}[a-z\-]+) (?:comes|is|'s|goes|are|come) "
    r"(?:up )?(?:next|first|last)\b"
)
_MUST_COME = re.compile(
    r"\b(?:has|have|needs?|wants?|got|gotta|going|gonna|must)\b[^,.]{0,20}\b(?:come|be|go)\b[^,.]{0,8}"
    r"\b(?:out|off|away|removed)\s*$"
)
_JOB_VERBS: dict[str, Kind] = {
    "remove": "remove",
    "replace": "replace",
    "change": "replace",
    "swap": "replace",
    "renew": "replace",
    "exchange": "replace",
    "install": "install",
    "adjust": "adjust",
    "calibrate": "adjust",
    "align": "adjust",
}
_LONGEST = 16
"""Tokens of a sentence that tells a plan and nothing more."""


def planned_job(known: Annotations, at: int, sentence: Sentence, text: str) -> Found | None:
    """The heading that a sentence makes by telling a plan; None if it tells none, or details of the work as well."""
    clauses = known.clauses_of(sentence)
    if _COMES_NEXT.match(text):
        phrases = known.phrases_between(sentence.start, sentence.end, places=False)
        if phrases:
            return Found(at, at + 1, sentence.start, sentence.end, phrases[0].name, None, 3.5, None)
    if any(c.groups or c.tools or c.source or c.measures for c in clauses) or sentence.end - sentence.start > _LONGEST:
        return None
    for clause in clauses:
        part = clause.object
        if part is None or part.place or part.count not in (None, 1):
            continue
        conditioned = (
            sentence.role == "prerequisite" and clause is clauses[0]
        )  # "I'd have it out, and the guard is off"
        last = (clause is clauses[-1] or conditioned) and _ends_with(known, clause, part)
        told = (_ordered(clause) if last and sentence.role == "step" else None) or _let_go(known, clause, last=last)
        if told is not None:
            kind, points = told
            return Found(at, at + 1, sentence.start, sentence.end, part.name, kind, points, None)
    return None


def _ordered(clause: Clause) -> tuple[Kind, float] | None:
    """The job that an instruction names whole ("replace the belt"), with points."""
    if clause.deed is None or clause.mood != "imperative" or len(clause.objects) != 1:
        return None
    kind = _JOB_VERBS.get(clause.deed.verb)
    return (kind, 3.0 if kind == "replace" else 2.5) if kind else None


def _let_go(known: Annotations, clause: Clause, *, last: bool) -> tuple[Kind, float] | None:
    """The removal that a plan or a need tells of, with points; `last` if nothing follows its object."""
    if clause.deed is None or clause.deed.effect != "detach" or clause.pronoun or clause.end - clause.core > 12:
        return None
    passive = clause.mood in ("result", "passive", "fragment")
    must = passive and _MUST_COME.search(known.words(clause.core, clause.end).rstrip(" .,"))
    if not must and not (clause.mood == "planned" and last):
        return None
    stressed = must or known.lower[clause.core] in ("let's", "lets")
    return "remove", 2.75 if stressed else 2.25


def _ends_with(known: Annotations, clause: Clause, part: Phrase) -> bool:
    """Whether nothing follows the object but its particle."""
    return all(known.tags[i] in "r.,RTf" for i in range(part.end, clause.end))
