"""The part that a job is about: heading, body and closing sentence weighed against each other."""

from __future__ import annotations

from collections import Counter

from miner.model.naming import part_words
from miner.procedures.step_found import StepFound

_WEIGHT = {"detach": 2.0, "undo": 1.0, "disconnect": 0.25, "attach": 1.5, "open": 0.5, "adjust": 2.0, "clean": 0.5}


def decide_subject(
    heading: str, steps: list[StepFound], closing: str | None, reverse: str | None, required: list[str]
) -> tuple[str, bool]:
    """The subject and whether it differs from the heading.

    The heading wins unless none of its head words is worked on in the body and another part clearly is.
    """
    votes: Counter[tuple[str, ...]] = Counter()
    first_name: dict[tuple[str, ...], str] = {}
    for step in steps:
        if step.phase == "prepare":
            continue
        names = [(step.part, _WEIGHT.get(step.effect, 0.25) if not step.groups else 0.0)]
        names += [(group.secures, 1.5) for group in step.groups if group.secures]
        for name, weight in names:
            if name:
                key = part_words(name)
                votes[key] += weight  # type: ignore[assignment]
                first_name.setdefault(key, name)
    for said, weight in ((closing, 2.0), (reverse, 2.0)):
        if said:
            key = part_words(said)
            votes[key] += weight  # type: ignore[assignment]
            first_name.setdefault(key, said)
    needed = {part_words(name) for name in required}
    best = next((key for key, _ in votes.most_common() if key not in needed), None)
    if not heading:
        return (first_name[best] if best else "", False)
    own = part_words(heading)
    touched = any(key[-1] == own[-1] or set(key) & set(own) for key in votes)
    if touched or best is None or votes[best] < 3.0:
        if best and best != own and best[-1] == own[-1] and own[-1:] == own and len(best) > 1 and votes[best] >= 2.0:
            return first_name[best], False  # "the wheel" is the drive wheel
        return heading, False
    return first_name[best], True
