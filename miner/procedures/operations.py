"""Whether two clauses tell one physical operation, and so make one step."""

from __future__ import annotations

from miner.language.annotations import Annotations, Clause, Deed, Group
from miner.model.naming import head_word
from miner.procedures.phases import REMOVES
from miner.procedures.step_found import StepFound

_TOOLING = frozenset("take get grab use hold need find keep give have reach press put slide run insert work".split())
"""Verbs that fetch or apply a tool, before the work that it is for."""
_IT = frozenset(("it", "them", "this", "that", "those", "these", "em", "'em"))
_TAKEN_UP = frozenset(("them", "these", "those", "it", "all"))
_CHECKS = frozenset("check see verify confirm watch listen feel read ensure".split())
_OWN_STEP = frozenset(("inspect", "clean", "energise", "isolate"))
"""Effects that make a step of their own after work of another kind."""


def near(step: StepFound | None, clause: Clause) -> bool:
    """Whether a clause follows on a step, in its sentence or the next."""
    return step is not None and clause.sentence - step.last_sentence <= 1


def fetches(clause: Clause, part: str) -> bool:
    """Whether what a clause acts on is one of its tools."""
    return head_word(part) in {tool.split()[-1] for tool in clause.tools}


def notes_apart(known: Annotations, last: Clause, clause: Clause) -> bool:
    """Whether two clauses are notes of their own, so that only a pronoun can take up what the first told."""
    return bool(known.breaks) and clause.sentence != last.sentence and clause.pronoun not in _TAKEN_UP


def same_operation(known: Annotations, current: StepFound, clause: Clause, groups: list[Group]) -> bool:
    """Whether an instruction goes on with the current step: one movement of one object, or one group.

    Args:
        known: the annotated recording.
        current: the step last begun.
        clause: the instruction, in the same sentence or at the start of the next.
        groups: the groups of fasteners that the clause works on.
    """
    deed = clause.deed
    if deed is None or not near(current, clause) or clause.link not in ("and", "comma", "so", "then"):
        return False
    if known.breaks and not groups and clause.sentence == current.sentence:
        return not (_on_another_part(current, clause) and deed.effect in ("undo", "detach", "disconnect"))
    if _waits_for_object(current, clause):
        return True  # "twist and pull the cap off"
    if groups and not all(g.definite or g.count is None for g in groups):
        return _fetches_tool(current) and bool(current.tools)
    if groups and current.groups:
        last = current.groups[-1]
        return groups[0].definite and all(g.kind == last.kind and g.count in (None, last.count) for g in groups)
    joined = clause.link == "and" and clause.sentence == current.last_sentence
    if deed.verb.split()[0] in _CHECKS and joined and not groups:
        return True  # "turn it by hand and check that it runs free"
    if deed.effect in _OWN_STEP and current.effect != deed.effect and clause.pronoun is None:
        return False
    return _same_object(current, clause, deed)


def _on_another_part(current: StepFound, clause: Clause) -> bool:
    if clause.object is None or current.part is None:
        return False
    return head_word(clause.object.name) != head_word(current.part)


def _waits_for_object(current: StepFound, clause: Clause) -> bool:
    """Whether the current step has no object yet and the clause follows it without a gap."""
    named = current.part is not None or current.groups or current.clause.pronoun
    return not named and clause.link == "and" and current.clause.end == clause.start


def _fetches_tool(current: StepFound) -> bool:
    fetched = current.effect in ("handle", "attach", "move", "detach")
    return current.action in _TOOLING and fetched and not current.groups


def _same_object(current: StepFound, clause: Clause, deed: Deed) -> bool:
    """Whether the clause's object, said or meant, is that of the current step, and the movement is one."""
    if clause.pronoun in _IT:
        fitted = bool(current.groups) and current.effect in ("attach", "fasten") and deed.effect == "fasten"
        return fitted or _one_movement(current.effect, deed.effect)  # "fit the nuts and tighten them"
    if clause.object is None:
        return _one_movement(current.effect, deed.effect) or current.effect == deed.effect
    if _fetches_tool(current) and current.tools and clause.link in ("and", "comma"):
        return True
    same = current.part is not None and head_word(clause.object.name) == head_word(current.part)
    return same and current.effect not in REMOVES - {"detach"}


def _one_movement(first: str, second: str) -> bool:
    """Whether a second verb finishes the movement of the first ("grab it and pull", "tilt it and lift it out")."""
    if first == "handle" or (first == "attach" and second in ("move", "handle")):
        return True
    return first in ("move", "detach", "open", "loosen", "undo") and second in ("detach", "move", "handle", "open")


def lets_go(current: StepFound, clause: Clause) -> bool:
    """Whether what comes away in a clause ("... and the cover comes away") was let go by the current step."""
    if not near(current, clause) or clause.link not in ("and", "so", "comma", "none"):
        return False
    head = head_word(clause.object.name) if clause.object else ""
    secured = {head_word(group.secures) for group in current.groups if group.secures}
    if (current.groups and not current.described) or clause.pronoun:
        return True
    return head in secured | {"", head_word(current.part)}
