"""What is told of a group of fasteners outside its own words: that it is captive, or the same as before."""

from __future__ import annotations

import re
from bisect import bisect_left
from dataclasses import replace

from miner.language.annotations import Annotations, Group
from miner.language.captive import says_captive
from miner.language.fasteners import measured, merge
from miner.language.numbers import ANY, value_of
from miner.procedures.step_found import DRIVEN, StepFound, counted_after

_AFTER_STEP = 14
"""Tokens after a step in which a sentence on its fasteners may stand."""

_ON_THEM = re.compile(
    r"\W*(?:and |so |but )?(?:they|they're|it|it's|these|those|that|that's|this|you|the \w+ (?:is|are))\b"
)
_EACH_REACH = 6
_EACH = re.compile(r"\b(?:each|either|every|both)\b")
_TOTAL = re.compile(
    rf"\b(?:so|that's|making|makes|which is)(?: that's)? ({ANY})(?: of (?:them|those))?,? "
    r"(?:in all|in total|altogether|all told)\b"
)
_SUM = re.compile(r"\b(?:so|that's|that is|makes?|making|in all|altogether)\b[\s,]*(?:\w+ ){0,2}$")
_ON_DRIVE = re.compile(
    r"(?:the (?:key|spanner|wrench|socket|driver|bit|drive)"
    r"|(?:they|it|these|those|that|this)(?:'re|'s| are| is| takes?| needs?| wants?))\b"
)
_SAME = re.compile(r"\bsame\b")
_HELD_BY = frozenset(("screw", "bolt", "nut", "quarter-turn fastener", "clip"))


def told_captive(known: Annotations, step: StepFound) -> list[Group]:
    """The groups of a step, those captive that its words or the sentence after it call so: "they won't fall out"."""
    groups = step.groups
    if not groups or all(group.captive for group in groups):
        return groups
    found = []
    for at, group in enumerate(groups):
        last = at + 1 == len(groups)
        words = _words_on(known, step, group.start, step.end if last else groups[at + 1].start)
        told = says_captive(words) or (last and says_captive(_after(known, step)))
        found.append(replace(group, captive=True) if told and group.kind in _HELD_BY else group)
    return found


def told_after(known: Annotations, step: StepFound, following: int) -> list[Group]:
    """The groups of a step, the last with the count or drive of the sentence after it: "they take a 3 mm key".

    Args:
        known: the annotated recording.
        step: the step.
        following: the first token of the next step.
    """
    last = step.last_group
    if last is None:
        return step.groups
    start = step.end + (known.tags[step.end : step.end + 1] == ".")
    stop = known.tags.find(".", start, start + _AFTER_STEP)
    if stop < 0 or stop > following:
        return step.groups
    last = counted_after(last, known.words(start, stop))
    if last.drive_size or last.kind not in DRIVEN or not _ON_DRIVE.match(known.words(start, stop)):
        return [*step.groups[:-1], last]
    low = bisect_left(known.measures, start, key=lambda measure: measure.start)
    high = bisect_left(known.measures, stop, key=lambda measure: measure.start)
    return [*step.groups[:-1], measured(last, [m for m in known.measures[low:high] if m.kind == "drive"])]


def summed(known: Annotations, groups: list[Group]) -> list[Group]:
    """The groups with one made of two tellings: "there's a bolt through each end, so that's two bolts"."""
    found: list[Group] = []
    if len(groups) == 1 and groups[0].count:
        return [_in_all(known, groups[0])]
    for group in groups:
        last = found[-1] if found else None
        if last is not None and last.kind == group.kind and last.count == 1 and (group.count or 0) > 1:
            words = known.words(max(last.start - _EACH_REACH, 0), group.start)
            if _EACH.search(words) and _SUM.search(words):
                found[-1] = merge(group, last)
                continue
        found.append(group)
    return found


def _in_all(known: Annotations, group: Group) -> Group:
    """The group with the total that is told after its count on each side: "two each side, so four in all"."""
    words = known.words(group.end, group.end + _AFTER_STEP).split(" .")[0]
    total = _TOTAL.search(words)
    each = _EACH.search(known.words(max(group.start - _EACH_REACH, 0), group.end) + " " + words)
    if not total or not each or value_of(total[1]) <= (group.count or 0):
        return group
    return replace(group, count=int(value_of(total[1])))


def _words_on(known: Annotations, step: StepFound, start: int, end: int) -> str:
    """The words of a step between two tokens."""
    return " ".join(known.words(max(a, start), min(b, end)) for a, b in step.ranges if b > start and a < end)


def _after(known: Annotations, step: StepFound) -> str:
    """The sentence after a step, if it speaks of what was worked on."""
    words = known.words(step.end, step.end + _AFTER_STEP).lstrip(" .,;")
    return words.split(".")[0] if _ON_THEM.match(words) else ""


def same_as_before(known: Annotations, group: Group, earlier: list[StepFound]) -> Group:
    """The group with count and sizes of the one taken out, where notes only say that it is the same.

    One that is counted or sized anew ("same 2 screws") is told in full.
    """
    words = known.words(group.start, group.end)
    if not _SAME.search(words) or set(known.tags[group.start : group.end]) & set("NZ"):
        return group
    removed = [g for step in earlier if step.phase == "remove" for g in step.groups if g.kind == group.kind]
    held = [g for g in removed if g.secures is not None and g.secures == group.secures] or removed
    if len(held) != 1:
        return group
    count = group.count if group.count != 1 else None  # notes say "same scr" of several
    full = merge(replace(group, count=count), held[0])
    return replace(full, captive=group.captive, torque_nm=group.torque_nm, location=group.location, end=group.end)
