"""Which item of a draft stands for which item of a gold file: one to one, the most alike first."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from miner.scoring.items import FASTENER_CORE, FASTENER_FULL, Item

Likeness = Callable[[Item, Item], float]
Pairs = list[tuple[Item, Item]]


def distance(one: float | None, other: float | None) -> float:
    """Seconds between two times; endless where one is missing."""
    return math.inf if one is None or other is None else round(abs(one - other), 3)


def overlap(gold: Item, draft: Item) -> float:
    """Shared time by covered time of two spans; less than any threshold where a time is missing."""
    if gold.start is None or gold.end is None or draft.start is None or draft.end is None:
        return -math.inf
    covered = max(gold.end, draft.end) - min(gold.start, draft.start)
    return (min(gold.end, draft.end) - max(gold.start, draft.start)) / covered if covered > 0 else 1.0


def wording(gold: Item, draft: Item) -> float:
    """F1 of the words of two texts."""
    total = gold.words.total() + draft.words.total()
    return 2 * (gold.words & draft.words).total() / total if total else 0.0


def nearness(gold: Item, draft: Item) -> float:
    """The smallest distance between the evidence of two findings of one kind, as a negative number."""
    if gold.fields != draft.fields:
        return -math.inf
    return -min((distance(a, b) for a in gold.times for b in draft.times), default=math.inf)


def agreement(*keys: str) -> Likeness:
    """How many of these fields are equal."""

    def count(gold: Item, draft: Item) -> float:
        return sum(bool(gold.fields[key] == draft.fields[key]) for key in keys)

    return count


def start_nearness(gold: Item, draft: Item) -> float:
    """The distance between two starts as a negative number."""
    return -distance(gold.start, draft.start)


RULES: dict[str, tuple[str, Likeness, float]] = {
    "boundaries": ("boundaries", start_nearness, -3.0),
    "procedures": ("procedures", overlap, 0.5),
    "prerequisites": ("prerequisites", agreement("part"), 1),
    "steps": ("steps", wording, 0.6),
    "notices": ("notices", wording, 0.6),
    "fasteners": ("fasteners", agreement(*FASTENER_FULL), len(FASTENER_FULL)),
    "fasteners_core": ("fasteners", agreement(*FASTENER_CORE), len(FASTENER_CORE)),
    "findings": ("findings", nearness, -6.0),
}
"""By metric: the items it compares, how alike two are, and how alike they must be. Homes come before contents."""


def pair(golds: Sequence[Item], drafts: Sequence[Item], likeness: Likeness, least: float) -> Pairs:
    """The pairs, the most alike first; equally alike ones by distance in time, then in the order given.

    Two items can be a pair only if the items that they stand in are one.
    """
    ranked = []
    for i, gold in enumerate(golds):
        for j, draft in enumerate(drafts):
            if gold.home is not (draft.home.partner if draft.home else None):
                continue
            if (alike := likeness(gold, draft)) >= least:
                ranked.append((-alike, distance(gold.start, draft.start), i, j))
    taken_golds: set[int] = set()
    taken_drafts: set[int] = set()
    pairs: Pairs = []
    for *_, i, j in sorted(ranked):
        if i not in taken_golds and j not in taken_drafts:
            taken_golds.add(i)
            taken_drafts.add(j)
            drafts[j].partner = golds[i]
            pairs.append((golds[i], drafts[j]))
    return pairs
