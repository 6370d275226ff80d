"""Branches of a recording: what holds only where the product is built one way or the other.

A branch comes from a condition ("if your unit has two leads") or from a count left open ("two or three").
"""

from __future__ import annotations

from miner.model.draft import Fastener, Step


def branch(*steps: Step) -> str | None:
    """The conditions under which all of the steps are done, joined; None if they are always done."""
    conditions = dict.fromkeys(step.condition.strip() for step in steps if step.condition)
    return "; ".join(conditions) or None


def counts(group: Fastener) -> tuple[int, ...]:
    """The counts that a group may have, one a branch; empty if none was said."""
    if group.count_alternatives:
        return group.count_alternatives
    return () if group.count is None else (group.count,)


def exclusive(one: Step, other: Step) -> bool:
    """Whether two steps belong to different branches, so that they never meet in one product."""
    return bool(one.condition) and bool(other.condition) and one.condition != other.condition
