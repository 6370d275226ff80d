"""What is told of a group of fasteners without an action, and to which step it belongs."""

from __future__ import annotations

import re
from dataclasses import replace

from miner.language.annotations import Annotations, Clause, Group
from miner.language.numbers import ANY, value_of
from miner.model.naming import head_word
from miner.procedures.phases import Course
from miner.procedures.step_found import DRIVEN, StepFound, counted_after

_BACK_TO_GROUP = re.compile(
    r"(?:,|and|so|now|again|\s)*(?:those|these|they|they're|it's|that's|those're|these're|them|all|both|it|each|"
    r"five|four|three|two|one|six|that|again)\b"
)
_COUNTED = re.compile(rf"\b({ANY}) of (?:those|them|these|em)\b")
_IDENTIFIES = re.compile(
    r"(?:it's|that's|they're|those're|there's no|(?:it|that|they|those|these|this) (?:is|are)|this is)\b"
)
_EXISTS = re.compile(r"\W*(?:and |now |so |then )*(?:there(?:'s|'re| are| is)|(?:you|we)(?:'ve)? got)\b")
_TAKES_UP = frozenset(("undo", "detach", "loosen", "handle", "attach", "fasten", "open", "move"))
"""Effects of an instruction that can work on a group told before it."""
_WITHIN = 2
"""Sentences between what is told of a group and the instruction that takes it up."""
_LONGEST_NAME = 14
"""Tokens of a clause that tells which part is meant."""


def takes_up(last: Clause, told: list[Group], clause: Clause, groups: list[Group]) -> bool:
    """Whether an instruction works on the groups that wait for one.

    Args:
        last: the clause that told of them last.
        told: the groups that wait.
        clause: the instruction.
        groups: the groups that it names itself.
    """
    deed = clause.deed
    if deed is None or clause.sentence - last.sentence > _WITHIN:
        return False
    unnamed = clause.pronoun is not None or clause.object is None or not told
    meant = unnamed or any(g.kind == t.kind for g in groups for t in told)
    runs = deed.effect == "energise" and clause.pronoun is not None and deed.particle is not None  # "run them out"
    undoes = deed.effect in ("undo", "detach") and clause.sentence == last.sentence
    return ((deed.effect in _TAKES_UP or runs) and meant) or undoes


def tells_more(
    known: Annotations, current: StepFound, clause: Clause, groups: list[Group], course: Course, *, fresh: bool
) -> bool:
    """Whether a clause tells more of the group that the current step works on; `fresh` opens a sentence."""
    last = current.last_group
    if last is None:
        same = not fresh and clause.link != "then" and current.sentence == clause.sentence
        if same and _of_another(known, current, clause, groups):
            return False
        return same and current.effect in ("undo", "detach", "loosen", "handle", "attach")
    if course.state == "install" or any(g.kind != last.kind for g in groups):
        return False
    if last.count is None and not last.alternatives:
        return True  # "take out the screws, there's nine of them"
    if course.reversed or not _BACK_TO_GROUP.match(known.words(clause.start, clause.end)):
        return False
    return last.count is None or groups[0].count in (None, last.count)


def _of_another(known: Annotations, current: StepFound, clause: Clause, groups: list[Group]) -> bool:
    """Whether groups in the same sentence are another part's: "lift the lid off, each post has a circlip on it".

    They are where the clause opens with that part, or tells of screws with a place of their own.
    """
    heads = {head_word(name) for name in (current.part, current.source) if name}
    others = [
        phrase
        for phrase in known.phrases_between(clause.core, clause.end, places=False)
        if head_word(phrase.name) not in heads and known.tags[phrase.end - 1] != "F"
    ]
    first = groups[0]
    if others and others[0].start - clause.core <= 1 and others[0].end <= first.start:
        return True
    placed = [phrase for phrase in others if phrase.start >= first.end and known.tags[phrase.start - 1] in "pD"]
    return bool(placed) and first.kind in DRIVEN and bool(_EXISTS.match(known.words(clause.start, clause.end)))


def tells_enough(known: Annotations, told: Clause, groups: list[Group]) -> bool:
    """Whether groups told without any verb are worked on: counted or sized; in notes alone on their line, or sized."""
    strong = [g for g in groups if g.count or g.alternatives or g.drive or (known.breaks and g.thread)]
    if not known.breaks:
        return bool(strong)
    alone = len(groups) == 1 and told.end - told.start <= groups[0].end - groups[0].start
    sized = [g for g in strong if g.drive or g.thread or g.length_mm or "x" in known.lower[g.start : g.end]]
    return bool(strong if alone else sized)


def take_count(current: StepFound, clause: Clause, words: str) -> bool:
    """Gives the group told last its count ("there's six of those"); False if `words` say none or it has one."""
    last = current.last_group
    if last is None or last.count is not None or last.alternatives:
        return False
    told, counted = counted_after(last, words), _COUNTED.search(words)
    if told is last and not counted:
        return False
    current.add(clause)
    if told is last and counted:
        told = replace(last, count=int(value_of(counted[1])))
    current.groups[-1] = told
    return True


def identifies(known: Annotations, clause: Clause, words: str) -> bool:
    """Whether a clause tells which part is meant: "it's the white plug", "they're on the left"."""
    match = _IDENTIFIES.match(words)
    if not match or clause.end - clause.start > _LONGEST_NAME:
        return False
    after = clause.core + len(match[0].split())
    return after < clause.end and known.tags[after] in "DZNp"
