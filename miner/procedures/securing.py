"""What a group of fasteners holds where its own words do not say so: from notes, places, and the steps around it."""

from __future__ import annotations

import re
from dataclasses import replace

from miner.language.annotations import Annotations, Group, Phrase
from miner.model.naming import head_word
from miner.procedures.step_found import SIZED, StepFound, fastener_name
from miner.procedures.taken_up import same_as_before, summed, told_after, told_captive
from miner.procedures.totals import in_all

_THEY_HOLD = re.compile(
    r"(?:they|these|those|it|this|that|which)(?:'re what| are what|'s what)? (?:all |both )?"
    r"(?:holds?|secures?|fastens?|fix(?:es)?|retains?|keeps?|clamps?) "
)
_HOLDS_IT = re.compile(r"\b(?:holds?|holding|secur\w+|keep\w*|its|it's held|it's on)\b(?: it\b)?")
_PLACED = frozenset(("of", "in", "on", "around", "round", "from", "through", "along", "under"))
_NO_PART = frozenset(("plier", "tweezer", "thread", "groove", "joint", "centre", "center", "belly", "end"))
"""Last words of what stands beside fasteners and is held by none."""
_TO = frozenset(("to", "onto", "->", "into", "on"))
_BRACKETS = frozenset(("(", ")"))
_BRACKETED = 4
"""Tokens from a bracket to the part that is named beside it at most."""
_NOTE_BREAK = frozenset((",", "-", ":", "–", ";", "(", ")"))


def secure_groups(known: Annotations, steps: list[StepFound], subject: str) -> None:
    """Fills in what each group secures, and remembers in the step that it was inferred and from what.

    In order: the note's own shorthand ("2x M4, cover to frame"), the part worked on, a place named beside the group
    ("the screws around the cover"), the part that comes away in the next step, the part the job is about.
    """
    for at, step in enumerate(steps):
        if not step.groups:
            continue
        nouns = {head_word(name) for group in step.groups for name in (group.kind, fastener_name(group))}
        after = steps[at + 1] if at + 1 < len(steps) else None
        step.groups = told_after(known, step, after.start if after else len(known.tags))
        step.groups = [_secured(known, group, step, nouns, after, subject) for group in step.groups]
        step.groups = in_all(known, summed(known, told_captive(known, step)), step.end)
        if known.breaks:
            step.groups = [same_as_before(known, group, steps[:at]) for group in step.groups]


def _secured(
    known: Annotations, group: Group, step: StepFound, nouns: set[str], after: StepFound | None, subject: str
) -> Group:
    if group.secures:
        return group
    noted = _noted(known, group, step) if known.breaks else None
    if noted is not None:
        return noted
    if step.part and head_word(step.part) not in nouns:
        return replace(group, secures=step.part)
    held = _told_next(known, step)
    if held:
        return replace(group, secures=held)
    placed = _placed(known, group, step, nouns)
    if placed:
        step.inferred.setdefault("secures", f"the fasteners are said to be at the {placed}")
        return replace(group, secures=placed)
    follows = after is not None and after.part and _comes_off_next(step, after) and group.kind in SIZED
    if after is not None and after.part and follows and head_word(after.part) not in nouns:
        step.inferred.setdefault("secures", f"the {after.part} comes off next")
        return replace(group, secures=after.part)
    if subject and step.phase in ("remove", "install") and head_word(subject) not in nouns:
        if step.part is None and step.clause.pronoun and not (group.implied or known.breaks):
            step.part = fastener_name(group)  # "there are four screws, undo them"
        if _holds_subject(known, group, step, subject):
            step.inferred.setdefault("secures", f"the job is about the {subject}")
            return replace(group, secures=subject)
    return group


def _holds_subject(known: Annotations, group: Group, step: StepFound, subject: str) -> bool:
    """Whether a group of which nothing is said holds the part that the job is about.

    It does where the step names that part or says that they hold "it"; several that are taken out probably do. What
    is tightened, adjusted or clamped may be anything's.
    """
    words = " ".join(known.words(a, b) for a, b in step.ranges)
    if head_word(subject) in {head_word(word) for word in re.findall(r"[\w-]+", words)} or _HOLDS_IT.search(words):
        return True
    return step.phase == "remove" and step.effect in ("undo", "detach") and group.count != 1 and not group.captive


def _told_next(known: Annotations, step: StepFound) -> str | None:
    """What the sentence after the step says that its fasteners hold: "they hold the gong to the frame"."""
    said = _THEY_HOLD.match(known.words(step.end, step.end + 6).lstrip(" .,"))
    if not said:
        return None
    named = known.phrases_between(step.end, step.end + 8, places=False)
    return named[0].name if named else None


def _comes_off_next(step: StepFound, after: StepFound) -> bool:
    return after.phase == step.phase == "remove" and after.effect == "detach" and not after.groups


def _noted(known: Annotations, group: Group, step: StepFound) -> Group | None:
    """What a note's own shorthand says: "4x T20 M4x25, cover to shell", "plate - 3 screws hex 4"."""
    phrases = [p for a, b in step.ranges for p in known.phrases_between(a, b, places=False)]
    outside = [p for p in phrases if p.end <= group.start or p.start >= group.end]
    before = [p for p in outside if p.end <= group.start]
    behind = [p for p in outside if p.start >= group.end]
    joined = bool(behind) and known.lower[behind[0].start - 1] in _TO  # "3 screws, to base"
    apart = bool(behind) and group.end < behind[0].start and known.lower[group.end] in _NOTE_BREAK
    if apart and known.lower[group.end] in _BRACKETS:  # "6 screws (T15) rear panel"
        apart = behind[0].start - group.end <= _BRACKETED
    if apart and not joined:
        return replace(group, secures=behind[0].name, to=group.to or _counterpart(known, behind))
    if before and known.lower[before[-1].end] in _NOTE_BREAK:
        return replace(group, secures=before[0].name, to=group.to or (behind[0].name if apart and joined else None))
    return None


def _counterpart(known: Annotations, phrases: list[Phrase]) -> str | None:
    if len(phrases) > 1 and known.lower[phrases[1].start - 1] in _TO | {">"}:
        return phrases[1].name
    return None


def _placed(known: Annotations, group: Group, step: StepFound, nouns: set[str]) -> str | None:
    """The part beside which the group is said to be."""
    for a, b in step.ranges:
        for phrase in known.phrases_between(a, b, places=False):
            at = phrase.start - 1
            if at < a or head_word(phrase.name) in nouns | _NO_PART or known.tags[phrase.end - 1] == "F":
                continue
            if known.lower[at] in _PLACED and (phrase.start >= group.start or step.clause.start <= a):
                return phrase.name
    return None
