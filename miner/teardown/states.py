"""Plays each procedure after its prerequisites: which parts are out at which step, and since when.

The closure of a procedure is every procedure whose subject must be out before it, stated directly or by one of
those. Reassembly changes the state back: a part that is put in again is fitted from that step on.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass, field

from miner.model.draft import Draft, Prerequisite, Procedure, Step
from miner.model.naming import PartNames, part_key
from miner.teardown.effects import Effects

_OUT_KINDS = ("remove", "replace")


@dataclass(frozen=True, slots=True)
class Removal:
    """Why a part is out: a prerequisite of the procedure, the procedure that removes it, or a step."""

    part: str
    procedure: str
    prerequisite: Prerequisite | None = None
    step: Step | None = None

    @property
    def start(self) -> float:
        """Where the recording says so, seconds."""
        return self.step.start if self.step else self.prerequisite.start if self.prerequisite else 0.0


@dataclass(frozen=True, slots=True)
class Play:
    """One procedure played: what is out before it starts, and what each step takes out or puts in.

    Keys are those of `part_key`, spelled out as said: a state is only claimed for a part that is plainly named.
    """

    before: dict[str, Removal] = field(default_factory=dict)
    changes: dict[str, tuple[tuple[int, Removal | None], ...]] = field(default_factory=dict)

    def out(self, part: str | None, position: int) -> Removal | None:
        """Why a part is out when the step at `position` (an index into the steps) begins; None if it is fitted."""
        key = part_key(part)
        removal = self.before.get(key)
        for index, change in self.changes.get(key, ()):
            if index >= position:
                break
            removal = change
        return removal


def link(draft: Draft, names: PartNames) -> dict[str, tuple[tuple[Prerequisite, str | None], ...]]:
    """The prerequisites of each procedure with the id of the procedure that removes them, or None.

    A link that the draft already has is kept; another is found by the subject of a procedure that removes parts.
    """
    by_subject: dict[str, str] = {}
    for procedure in sorted(draft.procedures, key=lambda p: p.kind not in _OUT_KINDS):
        by_subject.setdefault(names.key(procedure.subject), procedure.id)
    by_subject.pop("", None)
    known = {procedure.id for procedure in draft.procedures}
    return {
        procedure.id: tuple(
            (one, one.procedure if one.procedure in known else by_subject.get(names.key(one.part)))
            for one in procedure.prerequisites
        )
        for procedure in draft.procedures
    }


def close(links: dict[str, tuple[tuple[Prerequisite, str | None], ...]]) -> dict[str, dict[str, None]]:
    """For each procedure the ids of all that must be done before it, nearest first; itself only in a cycle."""
    direct = {key: tuple(dict.fromkeys(to for _, to in pairs if to)) for key, pairs in links.items()}
    return {key: dict.fromkeys(_reached(key, direct)) for key in direct}


def _reached(key: str, direct: dict[str, tuple[str, ...]]) -> Iterator[str]:
    seen: set[str] = set()
    waiting = deque(direct[key])
    while waiting:
        one = waiting.popleft()
        if one in seen:
            continue
        seen.add(one)
        yield one
        waiting.extend(direct.get(one, ()))


def play(
    procedure: Procedure,
    closure: dict[str, None],
    procedures: dict[str, Procedure],
    effects: Effects,
) -> Play:
    """Plays one procedure after its closure."""
    before: dict[str, Removal] = {}
    for one in procedure.prerequisites:
        before.setdefault(part_key(one.part), Removal(one.part, procedure.id, prerequisite=one))
    reasons = {to: one for one in procedure.prerequisites if (to := one.procedure)}
    for done in closure:
        other = procedures[done]
        if other.kind in _OUT_KINDS and done != procedure.id:
            before.setdefault(part_key(other.subject), Removal(other.subject, done, reasons.get(done)))
    before.pop("", None)
    changes: dict[str, list[tuple[int, Removal | None]]] = {}
    for position, step in enumerate(procedure.steps):
        key = part_key(step.part)
        if key and effects.takes_out(step):
            changes.setdefault(key, []).append((position, Removal(step.part or "", procedure.id, step=step)))
        elif key and _puts_in(step, effects):
            changes.setdefault(key, []).append((position, None))
    return Play(before, {key: tuple(found) for key, found in changes.items()})


def _puts_in(step: Step, effects: Effects) -> bool:
    return step.phase in ("install", "after") or effects.of(step) in ("attach", "fasten", "close")
