"""Decisions carried over to a draft that was mined anew.

A decision whose item is found by its key holds as it is: the words it rests on are the same. Where they are not, the
item that is most like it is looked for, and the editor is asked; until then the decision is not applied. A decision on
a finding that is not raised any more is history, nothing to ask about.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from rapidfuzz import fuzz

from miner.decisions.decision import Basis, Decision
from miner.decisions.items import Item, Items, whole
from miner.decisions.store import standing
from miner.model.draft import Draft

LIKE = 55.0  # least likeness of words, 0 to 100, with what place and id add
_NEAR = 8.0  # seconds between two starts that still speak for the same item


@dataclass(frozen=True, slots=True)
class Again:
    """A decision to be looked at again, and the item of this draft that it most likely means, if there is one."""

    decision: Decision
    item: Item | None


@dataclass(frozen=True, slots=True)
class Matched:
    """Decisions that hold, those to be looked at again, and those on findings that are raised no more."""

    holding: tuple[Decision, ...]
    again: tuple[Again, ...]
    past: tuple[Decision, ...]


def matched(draft: Draft, decisions: Iterable[Decision]) -> Matched:
    """Sort the decisions that stand by what this draft makes of them."""
    items = Items.of(draft)
    decided = standing(decisions)
    holding, again, past = [], [], []
    for one in decided.values():
        if all(items.get(key) for key in _needed(one)):
            holding.append(one)
            continue
        item = _most_like(one, items, decided)
        if item is None and one.kind == "finding":
            past.append(one)
        else:
            again.append(Again(one, item))
    return Matched(tuple(holding), tuple(again), tuple(past))


def carried(again: Again) -> tuple[Decision, ...]:
    """What to save when the editor keeps a decision: the same on the item found, and the old one taken back."""
    one, item = again.decision, again.item
    if item is None:
        return ()
    old = replace(one, state="open", changes={}, reason="carried over")
    if one.changes.get("procedure"):  # a notice that the editor added: it keeps its own key and gets a new place
        home = item.key if item.kind == "procedure" else item.home
        step = item.key if item.kind == "step" else None
        changes = {**one.changes, "procedure": home, "step": step}
        return (replace(one, changes=changes, basis=item.basis),)
    part = one.item.partition("/")[2]
    key = f"{item.key}/{part}" if part else item.key
    return (old, replace(one, item=key, version=0, basis=item.basis))


def _needed(one: Decision) -> list[str]:
    """Keys without which a decision cannot be applied."""
    added = one.kind == "notice" and "procedure" in one.changes
    named = [one.changes.get(name) for name in ("procedure", "step", "after", "join")]
    return [*([] if added else [one.item]), *(key for key in named if key)]


def _most_like(one: Decision, items: Items, decided: dict[str, Decision]) -> Item | None:
    if items.get(one.item):  # the item is there, something it refers to is not
        return items.get(one.item)
    added = one.kind == "notice" and "procedure" in one.changes
    kinds = ("step", "procedure") if added else (one.kind,)
    found = [
        (_likeness(one.basis, item), item)
        for item in items.by_key.values()
        if item.kind in kinds and (added or item.key not in decided) and _may_be(one, item)
    ]
    best = max(found, key=lambda pair: pair[0], default=None)
    return best[1] if best and best[0] >= LIKE else None


def _may_be(one: Decision, item: Item) -> bool:
    """Findings must come from the same check, edges join the same parts."""
    if one.kind == "edge":
        return item.id == one.basis.id
    if one.kind == "finding":
        return item.id.rpartition("-")[0] == whole(one.basis.id).rpartition("-")[0]
    return True


def _likeness(basis: Basis, item: Item) -> float:
    """How much an item is like what was decided on: its words first, then its place and its id."""
    words = fuzz.token_sort_ratio(basis.words.casefold(), item.words.casefold())
    near = 10.0 if abs(basis.start - item.start) <= _NEAR else 0.0
    return words + near + (5.0 if basis.id == item.id else 0.0)
