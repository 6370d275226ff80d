"""Prerequisites: of itself, twice, unknown, incomplete, in a circle.

To add a check to this family: write a function from a `Case` to `Fault`s and list it at the end.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache, partial

from rapidfuzz import fuzz, process

from miner.findings.case import Case, Check, Fault, heading_evidence, prerequisite_evidence, step_evidence
from miner.findings.titles import by_class
from miner.lexicon.lookup import lookup
from miner.model.draft import Prerequisite, Procedure
from miner.model.finding import Suggestion
from miner.model.naming import head_word, part_key, part_words, same_part
from miner.teardown.effects import PARTING

_DIRECT_ONLY = 3  # unmet obligations from which on a recording may be one that lists only the nearest prerequisite
_WORN = re.compile(r"\b(?:wrist ?(?:strap|band)|gloves?|goggles|glasses|mask|visor)\b")  # by a person, not the product
_LYING = frozenset("lie lies stand stands sit sits rest rests hang hangs is are".split())  # how a product is placed
_MISSPELLED = 88.0  # likeness from which on a name counts as a misspelling of a known one


def self_prerequisite(case: Case) -> Iterator[Fault]:
    """A procedure lists its own subject."""
    for procedure in case.draft.procedures:
        for one in procedure.prerequisites:
            if case.teardown.names.same(one.part, procedure.subject) and not _within_work(procedure, one):
                yield Fault(
                    f"The {procedure.subject} is listed as a prerequisite of its own job.",
                    (procedure.id,),
                    (prerequisite_evidence(one), heading_evidence(procedure)),
                    Suggestion(procedure.id, "prerequisites", one.part, None),
                )
                break


def _within_work(procedure: Procedure, one: Prerequisite) -> bool:
    """Whether a prerequisite is told between steps: it belongs to a job that begins there without a heading."""
    return any(step.end < one.start for step in procedure.steps) and any(s.start > one.start for s in procedure.steps)


def repeated_prerequisite(case: Case) -> Iterator[Fault]:
    """A prerequisite is listed twice."""
    for procedure in case.draft.procedures:
        seen: dict[str, Prerequisite] = {}
        told: set[str] = set()
        for one in procedure.prerequisites:
            key = part_key(one.part)
            first = seen.setdefault(key, one)
            if first is not one and key not in told:
                told.add(key)
                yield Fault(
                    f"The {one.part} is listed twice.",
                    (procedure.id,),
                    (prerequisite_evidence(first), prerequisite_evidence(one)),
                    Suggestion(procedure.id, "prerequisites", one.part, None),
                )


def unknown_prerequisite(case: Case) -> Iterator[Fault]:
    """Nothing in the recording takes the part out, and no other name explains it; once for each part."""
    known = _removable(case)
    heads = {head_word(key) for key in known}
    announced = [f" {part_key(procedure.heading.text)} " for procedure in case.draft.procedures]
    found: dict[str, list[tuple[Procedure, Prerequisite]]] = {}
    for procedure in case.draft.procedures:
        for one, removed_by in case.teardown.links[procedure.id]:
            key = part_key(one.part)
            if removed_by or not key or key in known or case.teardown.names.key(one.part) in known:
                continue
            generic = " " not in key and key in heads
            own = case.teardown.names.same(one.part, procedure.subject)
            if (
                not generic
                and not own
                and not _is_no_part(case, one)
                and not any(f" {key} " in text for text in announced)
            ):
                found.setdefault(key, []).append((procedure, one))
    for key, places in found.items():
        if not _explained(case, key, known):
            yield Fault(
                f"The {places[0][1].part} must be out, but nothing in the recording removes it.",
                tuple(dict.fromkeys(procedure.id for procedure, _ in places)),
                tuple(dict.fromkeys(prerequisite_evidence(one) for _, one in places)),
            )


def _is_no_part(case: Case, one: Prerequisite) -> bool:
    """Whether a prerequisite is about the supply or the whole product, which is isolated, or a word for no part at all.

    A single word that the trade does not know and that no other place names is sooner a misread phrase than a part.
    """
    words = part_words(one.part)
    if _WORN.search(one.part.casefold()) or f" no {one.part.casefold()}" in f" {one.text.casefold()}":
        return True
    known = lookup(case.lexicon)
    head = known.head_of(words)
    if head is None:
        return len(words) == 1 or any(word in _LYING or word in known.verb_forms for word in words[1:])
    return head.kind in ("lead", "connector", "fluid", "product", "place")


def _removable(case: Case) -> dict[str, None]:
    """The keys of all parts that some procedure is about or some step takes off, opens or lets go."""
    names, known = case.teardown.names, dict[str, None]()
    for procedure in case.draft.procedures:
        known[names.key(procedure.subject)] = None
        for step in procedure.steps:
            effect, apart = case.teardown.effects.of(step), step.phase in ("remove", "prepare")
            if effect == "detach" or (apart and effect in (*PARTING, "isolate", "move", None)):
                known[names.key(step.part)] = None
            if apart:
                known.update((names.key(group.secures), None) for group in step.fasteners)
    known.pop("", None)
    return known


def _explained(case: Case, key: str, known: dict[str, None]) -> bool:
    if any(same_part(key, other) for other in known):
        return True
    for entry in case.lexicon.synonyms:
        terms = {part_key(term) for term in entry.terms}
        if key in terms and terms & known.keys():
            return True
    if " " in key and any(by_class(key, case.lexicon) == by_class(other, case.lexicon) for other in known):
        return True
    return process.extractOne(key, list(known), scorer=fuzz.ratio, score_cutoff=_MISSPELLED) is not None


def incomplete_prerequisites(case: Case) -> Iterator[Fault]:
    """A listed prerequisite needs a part that is not listed; once for each missing part."""
    found: list[tuple[Procedure, Prerequisite, list[Prerequisite]]] = []
    met = 0
    for procedure in case.draft.procedures:
        missing_before: set[str] = set()
        names = case.teardown.names
        said = cache(partial(_said_before, case, procedure))  # dear, and seldom asked for
        listed = {names.key(one.part) for one in procedure.prerequisites}
        for one, removed_by in case.teardown.links[procedure.id]:
            if not removed_by or removed_by == procedure.id or case.teardown.mutual(removed_by, procedure.id):
                continue
            missing = []
            for needed, needed_by in case.teardown.links[removed_by]:
                key = names.key(needed.part)
                if key in (names.key(one.part), names.key(procedure.subject)) or key in missing_before:
                    continue
                if not needed_by:
                    continue  # reported as unknown where it is required
                if needed_by == removed_by or case.teardown.mutual(needed_by, removed_by):
                    continue
                if key in listed or set(part_words(needed.part)) <= said():
                    met += 1
                else:
                    missing.append(needed)
                    missing_before.add(key)
            if missing:
                found.append((procedure, one, missing))
    unmet = sum(len(missing) for _, _, missing in found)
    if unmet >= _DIRECT_ONLY and met == 0:
        return  # a recording that lists only the nearest part each time, and means the rest
    for procedure, one, missing in found:
        parts = " and the ".join(needed.part for needed in missing)
        other = next(to for listed_one, to in case.teardown.links[procedure.id] if listed_one is one)
        yield Fault(
            f"The {one.part} itself needs the {parts} out, which is not listed for the {procedure.subject}.",
            (procedure.id, *((other,) if other else ())),
            (prerequisite_evidence(one), *(prerequisite_evidence(needed) for needed in missing)),
            Suggestion(procedure.id, "prerequisites", None, missing[0].part) if len(missing) == 1 else None,
        )


def _said_before(case: Case, procedure: Procedure) -> set[str]:
    """The words of everything that is said to be out or done before the steps, and of what the steps take off."""
    spans = [(one.start, one.end) for one in procedure.prerequisites]
    texts = [
        *(cue.quote for cue in case.spoken if any(a <= cue.start < b or cue.start <= a < cue.end for a, b in spans)),
        *(one.text for one in procedure.prerequisites),
        *(one.text for one in procedure.preparations),
        *(step.part or "" for step in procedure.steps if step.phase in ("prepare", "remove")),
    ]
    return {word for text in texts for word in part_words(text)}


def prerequisite_cycle(case: Case) -> Iterator[Fault]:
    """Two or more procedures require each other; once for each circle."""
    told: set[str] = set()
    for procedure in case.draft.procedures:
        if procedure.id in told or procedure.id not in case.teardown.closure[procedure.id]:
            continue
        circle = [
            other.id
            for other in case.draft.procedures
            if other is procedure or case.teardown.mutual(procedure.id, other.id)
        ]
        if len(circle) < 2:
            continue
        told.update(circle)
        evidence = [
            prerequisite_evidence(one)
            for member in circle
            for one, to in case.teardown.links[member]
            if to in circle and to != member
        ]
        parts = " and the ".join(case.procedures[member].subject for member in circle)
        yield Fault(f"The {parts} require each other.", tuple(circle), tuple(evidence))


def hidden_prerequisite(case: Case) -> Iterator[Fault]:
    """Steps of a procedure take off a part that another procedure of the recording is about, unlisted."""
    subjects = {part_key(p.subject): p for p in case.draft.procedures if p.kind in ("remove", "replace")}
    for procedure in case.draft.procedures:
        listed = {part_key(one.part) for one in procedure.prerequisites} | {part_key(procedure.subject)}
        for step in procedure.steps:
            key = part_key(step.part)
            other = subjects.get(key)
            if other is None or key in listed or other is procedure or not case.teardown.effects.takes_out(step):
                continue
            if (
                case.teardown.names.same(step.part, procedure.subject)
                or other.id in case.teardown.closure[procedure.id]
            ):
                continue
            yield Fault(
                f"The {step.part} comes off within this job although it has a procedure of its own; refer to that.",
                (procedure.id, other.id),
                (step_evidence(step), heading_evidence(other)),
            )
            listed.add(key)


CHECKS = (
    Check(
        "self-prerequisite",
        "error",
        "A procedure lists its own subject as a prerequisite.",
        "For the boiler: water tank, top cover and boiler must be out.",
        self_prerequisite,
    ),
    Check(
        "repeated-prerequisite",
        "warning",
        "A prerequisite is listed twice.",
        "Water tank, top cover, side panel and top cover must be out.",
        repeated_prerequisite,
    ),
    Check(
        "unknown-prerequisite",
        "error",
        "No procedure of the recording removes the part, and nothing else explains it.",
        "The back panel must be off, but no procedure takes it off.",
        unknown_prerequisite,
    ),
    Check(
        "incomplete-prerequisites",
        "error",
        "A listed prerequisite itself needs a part that is not listed.",
        "The rear panel needs the top cover off; the top cover needs the hopper out, which is not listed.",
        incomplete_prerequisites,
    ),
    Check(
        "prerequisite-cycle",
        "error",
        "Two or more procedures require each other.",
        "The grind chute needs the grinder motor out, the grinder motor needs the grind chute out.",
        prerequisite_cycle,
    ),
    Check(
        "hidden-prerequisite",
        "remark",
        "A step takes off a part that has a procedure of its own and is not listed as a prerequisite.",
        "The pump job lifts the water tank out although the water tank has its own procedure.",
        hidden_prerequisite,
    ),
)
