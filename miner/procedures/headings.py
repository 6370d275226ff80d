"""Headings: utterances that announce a job, found by their form and by what stands around them."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from dataclasses import replace

from miner.language.annotations import Annotations
from miner.lexicon import Lexicon
from miner.model.naming import head_word
from miner.procedures.heading_candidates import heading_candidate
from miner.procedures.heading_forms import Found, heading_forms

ENOUGH = 4.0
"""Points that make a candidate a heading."""
ENOUGH_UNPUNCTUATED = 3.25
"""The same for raw captions, where a name never stands alone in its sentence."""

LOOK_AHEAD = 25
"""Sentences after a heading in which its part should be spoken of again."""

OF_JOB = 2.0
"""Points of a note that says what job it is ("pump replacement"); "pump out" has fewer and is a step."""

_WORK = ("step", "groups", "notice", "reverse")

TWICE_WITHIN = 2
"""Sentences between two halves of one heading ("Okay, the pump. ... So we're replacing the pump.")."""


def find_headings(known: Annotations, lexicon: Lexicon) -> list[Found]:
    """The spoken headings of a recording, in order."""
    forms = heading_forms(lexicon)
    worked_on = _work(known)
    candidates = []
    for at in range(len(known.sentences)):
        candidate = heading_candidate(known, at, forms)
        if candidate is not None:
            candidates.append(replace(candidate, points=candidate.points + _context(known, candidate, worked_on)))
    return _chosen(known, candidates)


def _chosen(known: Annotations, candidates: list[Found]) -> list[Found]:
    """The candidates with enough points; one that says the same part again within a few words strengthens the first."""
    found: list[Found] = []
    enough = ENOUGH_UNPUNCTUATED if known.register == "captions" else ENOUGH
    for i, candidate in enumerate(candidates):
        if found and candidate.first < found[-1].last:
            continue
        left = _left(known, found, candidate) if candidate.resumes else None
        if left is not None:
            found += [replace(candidate, part=left.part)] if left is not found[-1] else []
            continue
        merged = replace(
            candidate,
            resumes=False,
            points=candidate.points + _settled(known, found[-1].last if found else None, candidate.first),
        )
        for other in candidates[i + 1 : i + 4]:
            if other.first - merged.last > TWICE_WITHIN or _works_between(known, merged.last, other):
                break
            if _says_again(known, merged, other) or _names_after(known, merged, other):
                part = other.part if other.kind or len(other.part) > len(merged.part) else merged.part
                merged = replace(merged, last=other.last, end=other.end, part=part, kind=merged.kind or other.kind,
                                 points=max(merged.points, other.points) + 1.0)  # fmt: skip
        if merged.points >= enough:
            found.append(merged)
    return found


def _settled(known: Annotations, since: int | None, at: int) -> float:
    """Points for the job before: told to its end, still open, or hardly begun."""
    if since is None:
        return 0.75
    roles = {s.role for s in known.sentences[since:at]}
    clauses = (
        known.clauses[known.sentences[since].first_clause : known.sentences[at].first_clause] if since < at else []
    )
    effects = {c.deed.effect for c in clauses if c.deed and c.mood in ("imperative", "planned", "narrated", "result")}
    if roles & {"reverse", "closing"} or (effects & {"attach", "fasten", "connect"} and effects & {"detach", "undo"}):
        return 1.0
    return 0.0 if effects & {"detach", "undo", "disconnect", "adjust", "inspect", "open"} else -1.0


def _left(known: Annotations, found: list[Found], candidate: Found) -> Found | None:
    """The job that words like "back to the pump" go back to: the one about the pump, or in which it was spoken of."""
    head = head_word(candidate.part)
    named = next((one for one in reversed(found) if head_word(one.part) == head), None)
    if named is not None or len(found) < 2:
        return named
    edges = [known.sentences[one.first].start for one in found] + [known.sentences[candidate.first].start]
    for one, first, last in reversed(list(zip(found, edges, edges[1:], strict=False))):
        parts = known.phrases_between(first, last, places=False)
        if any(head_word(part.name) == head for part in parts):
            return one
    return None


def _works_between(known: Annotations, last: int, other: Found) -> bool:
    """Whether work is told between two candidates."""
    return any(sentence.role in _WORK for sentence in known.sentences[last : other.first])


def _says_again(known: Annotations, found: Found, other: Found) -> bool:
    """Whether a candidate says the heading before it once more: "The pump. ... So we're replacing the pump."."""
    if head_word(other.part) != head_word(found.part) or min(other.points, found.points) < 1.5:
        return False
    if known.breaks:
        works = any(clause.mood == "result" for clause in known.clauses_of(known.sentences[other.first]))
        return other.points >= OF_JOB and other.first == found.last and not works
    takes_out = other.kind == "remove" and found.kind not in (None, "remove")  # the first step: "taking the pump out"
    return not takes_out and bool(other.kind or found.kind or other.points >= 2.5)


def _names_after(known: Annotations, found: Found, other: Found) -> bool:
    """Whether a short announcement is followed at once by the name of the job."""
    announces = found.end - found.start <= 5 and found.points >= 2.0 and found.kind is None and found.number is None
    marked = "T" in known.tags[found.start : found.end]
    return announces and marked and other.first == found.last and other.points >= ENOUGH and not known.breaks


def _work(known: Annotations) -> dict[str, list[int]]:
    """For the last word of every part spoken of, the sentences where it is."""
    made: dict[str, list[int]] = {}
    for at, sentence in enumerate(known.sentences):
        for phrase in known.phrases_between(sentence.start, sentence.end, places=False):
            if phrase.count is None:
                made.setdefault(head_word(phrase.name), []).append(at)
    for clause in known.clauses:
        names = [clause.object.name] if clause.deed and clause.object else []
        names += [group.secures for group in clause.groups if group.secures]
        for name in names:
            made.setdefault(head_word(name), []).append(clause.sentence)
    for places in made.values():
        places.sort()
    return made


def _context(known: Annotations, found: Found, worked_on: dict[str, list[int]]) -> float:
    """Points from what stands before and after, and from work on the part that follows."""
    points = 0.0
    before = known.sentences[found.first - 1].role if found.first else "start"
    if before in ("closing", "reverse", "start"):
        points += 1.0
    for following in known.sentences[found.last : found.last + 4]:
        if following.role in ("prerequisite", "no-prerequisite"):
            points += 1.5
            break
        if following.role in ("step", "groups", "closing"):
            break
    if found.first:
        gap = known.starts[found.start] - known.ends[found.start - 1]
        points += 0.75 if gap >= 1.2 else 0.25 if gap >= 0.6 else 0.0
    head = head_word(found.part)
    spoken_of = worked_on.get(head, [])
    later = bisect_right(spoken_of, found.last + LOOK_AHEAD) - bisect_left(spoken_of, found.last)
    certain = found.kind is not None and found.points >= 3.0
    points += 1.0 if later > 1 else 0.5 if later else 0.0 if certain else -0.5 if found.kind or found.number else -1.0
    return points
