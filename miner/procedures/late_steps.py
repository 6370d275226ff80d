"""Steps that come to the speaker's mind too late, put where they belong: "oh, before that, unplug the fan lead"."""

from __future__ import annotations

import re
from dataclasses import replace

from miner.language.annotations import Clause
from miner.lexicon import Lexicon
from miner.lexicon.inflection import singular
from miner.lexicon.lookup import lookup
from miner.model.naming import head_word
from miner.procedures.step_found import StepFound

_FREES = ("undo", "detach", "disconnect", "open", "loosen")
_BEFORE = re.compile(
    r"\bbefore (?:you (?:\w+ )?|we (?:\w+ )?|i (?:\w+ )?)?(?:the |that |this |those |these )?(?P<what>[^,.;:]*)"
)


def told_late(lexicon: Lexicon) -> re.Pattern[str]:
    """Words by which a speaker owns up that a step was forgotten."""
    return re.compile("|".join(lookup(lexicon).phrases("told-late")) or "(?!)")


def as_told(clauses: list[Clause]) -> list[Clause]:
    """The clauses of a forgotten step; what "was unscrewed" is work that was done, and the owning-up is cut off."""
    return [_worked(clause) for clause in clauses]


def _worked(clause: Clause) -> Clause:
    deed = clause.deed
    if deed is None or deed.effect not in _FREES or clause.mood not in ("passive", "fragment"):
        return clause
    if clause.mood == "passive":
        return replace(clause, mood="narrated")
    groups = tuple(group for group in clause.groups if group.start > deed.start)
    return replace(clause, mood="imperative", start=deed.start, core=deed.start, groups=groups)


def placed(steps: list[StepFound]) -> list[StepFound]:
    """The steps with each late one before the step that it should have come before, and a note of that."""
    ordered: list[StepFound] = []
    for step in steps:
        earlier = [at for at, one in enumerate(ordered) if one.phase == "remove" and not one.late]
        if not step.late or step.phase != "remove" or not earlier:
            ordered.append(step)
            continue
        named = _named(step.late, [ordered[at] for at in earlier])
        at = earlier[named] if named is not None else earlier[-1]
        step.inferred["order"] = f"told later (“{step.late}”); put before the step that it must come before"
        ordered.insert(at, step)
    return ordered


def _named(said: str, steps: list[StepFound]) -> int | None:
    """Which of the steps the words name ("before the two cap screws"); None if none."""
    match = _BEFORE.search(said)
    for word in match["what"].split() if match else ():
        for at in range(len(steps) - 1, -1, -1):
            if singular(word) in _works_on(steps[at]):
                return at
    return None


def _works_on(step: StepFound) -> set[str]:
    """The last words of what a step works on, in the singular."""
    parts = [name for name in (step.part, *(group.secures for group in step.groups)) if name]
    return {singular(head_word(name)) for name in parts} | {singular(head_word(group.kind)) for group in step.groups}
