"""What holds what: fastener groups, connectors and other joints, each between two parts, and who undoes them.

A *use* is one mention of a joint in one step. Uses are one *joint* if they secure the same part by the same kind of
thing and neither the counterpart nor what is said of count, drive and length tells them apart.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Literal

from miner.lexicon.inflection import plural
from miner.model.draft import Draft, Fastener, Procedure, Step
from miner.model.naming import PartNames, part_key
from miner.teardown.effects import MAKING, Effects

Direction = Literal["undo", "loosen", "make"]
_UNDOING = frozenset({"undo", "loosen", "detach", "open", "disconnect"})
_STUCK = re.compile(r"\b(?:adhesive|glue[ds]?|tape[ds]?)\b")


@dataclass(frozen=True, slots=True)
class Use:
    """One joint as one step speaks of it. `group` is None for a connector or glue; keys are empty where not said."""

    procedure: str
    step: Step
    kind: str
    direction: Direction
    secured: str
    to: str
    group: Fastener | None = None

    @property
    def start(self) -> float:
        """When the step that works on it begins, seconds."""
        return self.step.start

    @property
    def named(self) -> str:
        """The group in the words of a message: "screws of the top cover"."""
        kinds = plural(self.kind)
        return f"{kinds} of the {self.secured}" if self.secured else kinds


@dataclass(frozen=True, slots=True)
class Joint:
    """What holds `secured` to `to`, with every use of it in order of the recording."""

    id: str
    kind: str
    secured: str
    to: str
    uses: tuple[Use, ...]


def find_uses(draft: Draft, names: PartNames, effects: Effects) -> tuple[Use, ...]:
    """Every use of a joint, in order of the recording."""
    return tuple(
        use
        for procedure in draft.procedures
        for step in procedure.steps
        for use in _uses(procedure, step, names, effects)
    )


def _uses(procedure: Procedure, step: Step, names: PartNames, effects: Effects) -> Iterator[Use]:
    effect = effects.of(step)
    held = "" if effects.is_fastener(step.part) else names.key(step.part)
    for group in step.fasteners:
        yield Use(
            procedure.id,
            step,
            part_key(group.kind),
            _direction(step, effect),
            names.key(group.secures) or held,
            names.key(group.to) or names.key(step.from_),
            group,
        )
    if not step.fasteners and held:
        kind = "connector" if effect in ("disconnect", "connect") else "adhesive" if _STUCK.search(step.text) else ""
        if kind:
            yield Use(procedure.id, step, kind, _direction(step, effect), held, names.key(step.from_))


def _direction(step: Step, effect: str | None) -> Direction:
    if effect == "loosen":
        return "loosen"
    if effect in MAKING:
        return "make"
    if effect in _UNDOING:
        return "undo"
    return "make" if step.phase == "install" else "undo"


def compatible(a: Fastener | None, b: Fastener | None) -> bool:
    """Whether nothing said of two groups tells them apart; what is not said tells nothing."""
    if a is None or b is None:
        return a is b
    pairs = [(a.length_mm, b.length_mm), (a.thread, b.thread), (_drive(a), _drive(b)), (a.head, b.head)]
    if a.drive_size is None or b.drive_size is None:
        pairs[2] = (a.drive, b.drive)
    counts = _counts(a), _counts(b)
    return all(x is None or y is None or x == y for x, y in pairs) and (
        not counts[0] or not counts[1] or bool(counts[0] & counts[1])
    )


def _drive(group: Fastener) -> str | None:
    return group.drive_size.casefold() if group.drive_size else None


def _counts(group: Fastener) -> frozenset[int]:
    return frozenset(group.count_alternatives or (() if group.count is None else (group.count,)))


def join(uses: Iterable[Use]) -> tuple[Joint, ...]:
    """The joints that the uses speak of; a use whose secured part is not said is a joint of its own."""
    lists: dict[tuple[str, str], list[list[Use]]] = {}
    for use in uses:
        found = lists.setdefault((use.secured, use.kind), [])
        same = next((joint for joint in found if use.secured and _fits(use, joint[0])), None)
        if same is None:
            found.append([use])
        else:
            same.append(use)
    made = [
        (key, next((use.to for use in joint if use.to), ""), joint) for key, found in lists.items() for joint in found
    ]
    made.sort(key=lambda one: (one[2][0].start, one[2][0].step.id))
    return tuple(
        Joint(f"j{number:03d}", kind, secured, to, tuple(joint))
        for number, ((secured, kind), to, joint) in enumerate(made, 1)
    )


def _fits(use: Use, first: Use) -> bool:
    if use.to and first.to and use.to != first.to:
        return False
    if use.procedure == first.procedure and use.direction == first.direction == "undo":
        return False  # two groups of one job are two groups, however alike
    return compatible(use.group, first.group)
