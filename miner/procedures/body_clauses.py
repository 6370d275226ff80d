"""Clauses of a sentence told apart: those that warn, those that lead in, those of work before "in reverse"."""

from __future__ import annotations

import re
from dataclasses import replace

from miner.language.annotations import Annotations, Clause, Sentence
from miner.language.roles import RolePatterns
from miner.model.naming import head_word, part_key

NEEDS = re.compile(r"\b(?:need\w*|must|first|already|pre-?req\w*|required?|have|has|with)\b")
"""What makes "motor out" a condition."""

_UNDOES = ("undo", "detach", "disconnect")


def alert_part(
    known: Annotations, sentence: Sentence, clauses: list[Clause], patterns: RolePatterns
) -> tuple[Sentence, list[Clause]]:
    """The part of a sentence that warns, and the clauses of work before it ("it's four screws, don't lean on them")."""
    for i, clause in enumerate(clauses):
        if clause.mood == "negative" or patterns.alert.search(known.words(clause.start, clause.end)):
            before = clauses[:i]
            if any(c.groups or (c.deed and c.deed.effect in _UNDOES) for c in before):
                return replace(sentence, start=clause.start), before
            break
    return sentence, []


def without_lead(known: Annotations, clauses: list[Clause], pattern: re.Pattern[str]) -> list[Clause]:
    """The clauses after "to install," or "once it is in place,"."""
    first = clauses[0]
    if first.mood == "fragment" and len(clauses) > 1:
        return clauses[1:]
    text = known.words(first.start, first.end)
    match = pattern.match(text)
    if match and first.core > first.start and match.end() < len(text):
        return [replace(first, start=first.core), *clauses[1:]]
    return clauses


def work_before(known: Annotations, clauses: list[Clause], pattern: re.Pattern[str]) -> list[Clause]:
    """The clauses of work before the one that says "in reverse"; empty if there are none."""
    at = next((i for i, c in enumerate(clauses) if pattern.search(known.words(c.start, c.end))), 0)
    works = any(
        c.deed and c.mood in ("imperative", "planned", "result") and c.deed.effect in (*_UNDOES, "open")
        for c in clauses[:at]
    )
    return clauses[:at] if works else []


def says_heading_again(clauses: list[Clause], part: str) -> bool:
    """Whether a plan repeats the heading: "so we're taking the carburettor off to clean it" after its name."""
    first = next((c for c in clauses if c.deed), None)
    if first is None or first.deed is None or first.object is None or not part or len(clauses) > 3:
        return False
    plans = first.mood in ("planned", "narrated") and first.deed.effect in ("detach", "attach", "adjust")
    details = first.source or first.tools or any(c.groups for c in clauses)
    return plans and not details and head_word(first.object.name) == head_word(part)


def takes_own_off(clauses: list[Clause], own: str) -> bool:
    """Whether a note tells in a word that the part of the job comes off: "motor out"."""
    clause = clauses[0]
    named = clause.object is not None and bool(own) and head_word(clause.object.name) == head_word(own)
    return named and len(clauses) == 1 and clause.mood == "result"


def takes_off_known(clauses: list[Clause], named: frozenset[str], own: str) -> bool:
    """Whether a job begins by removing parts of other jobs ("Remove the battery pack and the rear cover.").

    Args:
        clauses: of the sentence.
        named: keys of the parts that other jobs of the recording remove or require.
        own: the part of this job.
    """
    clause = clauses[0]
    if clause.deed is None or len(clauses) > 2 or clause.mood not in ("imperative", "planned", "narrated"):
        return False
    if clause.deed.verb not in ("remove", "take", "detach") or clause.source or not clause.objects or clause.tools:
        return False
    if any((g.count or 0) > 1 or g.drive or g.length_mm for g in clause.groups):
        return False
    keys = [part_key(p.name) for p in clause.objects]
    ours = sum(key in named for key in keys)
    return part_key(own) not in keys and (ours == len(keys) or (len(keys) > 2 and ours * 2 > len(keys)))
