"""Steps that come to the speaker's mind too late, put where they belong: "oh, before that, unplug the fan lead"."""

from __future__ import annotations

import re
from dataclasses import replace
from textwrap import shorten

from miner.language.annotations import Clause
from miner.lexicon import Lexicon
from miner.lexicon.inflection import singular
from miner.lexicon.lookup import lookup
from miner.procedures.step_found import StepFound

_FREES = ("undo", "detach", "disconnect", "open", "loosen")
_BEFORE = re.compile(
    r"\bbefore (?:you (?:\w+ )?|we (?:\w+ )?|i (?:\w+ )?)?(?:the |that |this |those |these )?(?P<what>[^,.;:]*)"
)
_QUOTED = 40
"""Characters after the words that own up, in which the step that should have waited may be named."""
_INSTRUCTION = re.compile(r"(?<=\w) (?:you|we|i)(?:'ve| have| need| must| should| ought|$).*")


def told_late(lexicon: Lexicon) -> re.Pattern[str]:
    """Words by which a speaker owns up that a step was forgotten."""
    return re.compile(lookup(lexicon).either("told-late"))


def owning_up(said: str, length: int) -> str:
    """The words that own up, with the work that the step belongs before: "forgot, before you lift the lid".

    Args:
        said: the sentence from those words on.
        length: their characters.
    """
    owned, _, rest = shorten(said, length + _QUOTED, placeholder="").partition(",")
    before = "" if "before" in owned else rest.partition(",")[0].strip(" .:")
    told = f"{owned}, {before}" if before.startswith("before ") else owned.strip(" .:")
    return _INSTRUCTION.sub("", told)


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
    """Which of the steps the words name ("before the two cap screws"), the latest of several; None if none.

    What is named first counts, and a whole name before its last word: "before the bolts unplug the lead".
    """
    match = _BEFORE.search(said)
    words = [singular(word) for word in match["what"].split()] if match else []
    matches = [
        (-start, length, at)
        for at, step in enumerate(steps)
        for name in _works_on(step)
        for length in range(1, len(name) + 1)
        for start in range(len(words))
        if words[start : start + length] == name[-length:]
    ]
    return max(matches)[2] if matches else None


def _works_on(step: StepFound) -> list[list[str]]:
    """The names of what a step works on, as words in the singular."""
    parts = [name for name in (step.part, *(group.secures for group in step.groups)) if name]
    return [[singular(word) for word in name.split()] for name in (*parts, *(group.kind for group in step.groups))]
