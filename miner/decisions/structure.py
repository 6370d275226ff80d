"""Steps split, joined, moved and taken out, as an editor decided."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from miner.decisions.changes import fasteners_of
from miner.decisions.decision import Decision
from miner.model.draft import Step

Keyed = tuple[str, Step]


def arranged(steps: Sequence[Keyed], decided: Mapping[str, Decision]) -> tuple[list[Keyed], dict[str, str | None]]:
    """The steps of a procedure in their new order and cut, and what became of ids that are gone (None: taken out).

    A reference to a step that is not there any more is passed over; `matching.py` has reported it before.
    """
    gone: dict[str, str | None] = {}
    made: list[Keyed] = []
    for key, step in steps:
        if _changes(decided, key).get("removed"):
            gone[step.id] = None
        else:
            made += _split(key, step, decided)
    for key in _by_act(decided, "after"):
        _move(made, key, str(decided[key].changes["after"]))
    for key in reversed([one for one, _ in made]):
        target = _changes(decided, key).get("join")
        if target:
            gone |= _join(made, key, str(target))
    return [(key, replace(step, number=number)) for number, (key, step) in enumerate(made, 1)], gone


def joined(first: Step, second: Step) -> Step:
    """Two steps as one, in the words of both."""
    return replace(
        first,
        text=f"{first.text} {second.text}",
        spoken=f"{first.spoken} {second.spoken}".strip(),
        start=min(first.start, second.start),
        end=max(first.end, second.end),
        tools=tuple(dict.fromkeys((*first.tools, *second.tools))),
        supplies=tuple(dict.fromkeys((*first.supplies, *second.supplies))),
        fasteners=(*first.fasteners, *second.fasteners),
        confidence=min(first.confidence, second.confidence),
    )


def _changes(decided: Mapping[str, Decision], key: str) -> Mapping[str, object]:
    return decided[key].changes if key in decided else {}


def _by_act(decided: Mapping[str, Decision], field: str) -> list[str]:
    """Keys of steps with that change, in the order in which they were decided."""
    found = [one for one in decided.values() if one.kind == "step" and field in one.changes]
    return [one.item for one in sorted(found, key=lambda one: (one.act, one.item))]


def _split(key: str, step: Step, decided: Mapping[str, Decision]) -> Iterator[Keyed]:
    parts = decided[key].changes.get("split") if key in decided else None
    if not parts:
        yield key, step
        return
    for number, part in enumerate(parts, 1):
        half = replace(step, text=part["text"], fasteners=fasteners_of(part["fasteners"]))
        if number == 1:
            yield key, half
        else:
            letter = chr(ord("a") + number - 1)
            yield f"{key}/{number}", replace(half, id=f"{step.id}{letter}", action=None)


def _place(steps: Sequence[Keyed], key: str) -> int | None:
    return next((index for index, (one, _) in enumerate(steps) if one == key), None)


def _move(steps: list[Keyed], key: str, after: str) -> None:
    place = _place(steps, key)
    if place is None or after == key or (after and _place(steps, after) is None):
        return
    moved = steps.pop(place)
    target = _place(steps, after) if after else -1
    steps.insert((target if target is not None else -1) + 1, moved)


def _join(steps: list[Keyed], key: str, target: str) -> dict[str, str | None]:
    place, other = _place(steps, key), _place(steps, target)
    if place is None or other is None or place == other:
        return {}
    first, second = steps[place][1], steps[other][1]
    steps[place] = (key, joined(first, second))
    del steps[other]
    return {second.id: first.id}
