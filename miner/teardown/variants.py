"""Branches of a recording: what holds only where the product is built one way or the other.

A branch comes from a condition ("if your unit has two leads") or from a count left open ("two or three").
"""

from __future__ import annotations

import re

from miner.model.draft import Fastener, Step

_BUILT = r"(?:unit|machine|model|version|product|appliance|device|tool|instrument|build|type|variant|serial number)s?"
# At the head of a sentence: "if your unit has two leads,", "on older machines,", "where the model has a fan,".
_VARIANT = re.compile(
    rf"(?:and |but |now |so )?(?:only )?(?P<said>(?:if|where|when|on|for|with|in) (?:[\w-]+ ){{0,4}}?{_BUILT}\b[^,.]*|"
    r"(?:if|where) (?:you have|you've got|yours (?:has|is)|fitted|there is|there's)\b[^,.]*),",
    re.IGNORECASE,
)


def condition(step: Step) -> str | None:
    """The variant in which a step is done: what the draft says, else the words at the head of its sentence."""
    if step.condition:
        return step.condition.strip()
    found = _VARIANT.match(step.text.strip())
    return found["said"][0].lower() + found["said"][1:] if found else None


def branch(*steps: Step) -> str | None:
    """The conditions under which all of the steps are done, joined; None if they are always done."""
    conditions = dict.fromkeys(said for step in steps if (said := condition(step)))
    return "; ".join(conditions) or None


def counts(group: Fastener) -> tuple[int, ...]:
    """The counts that a group may have, one a branch; empty if none was said."""
    if group.count_alternatives:
        return group.count_alternatives
    return () if group.count is None else (group.count,)


def exclusive(one: Step, other: Step) -> bool:
    """Whether two steps belong to different branches, so that they never meet in one product."""
    here, there = condition(one), condition(other)
    return bool(here) and bool(there) and here != there
