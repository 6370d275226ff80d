"""Sequence: steps told too late, parts never freed or never taken off, two orders that contradict each other.

To add a check to this family: write a function from a `Case` to `Fault`s and list it at the end.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from miner.findings.case import Case, Check, Fault, heading_evidence, step_evidence
from miner.findings.pairs import family
from miner.model.draft import Procedure, Step
from miner.model.naming import part_key, part_words
from miner.teardown.effects import PARTING
from miner.teardown.joints import Use
from miner.teardown.variants import condition

_BACK = re.compile(r"\b(?:back|new|again|same|refit\w*|on)\b", re.IGNORECASE)  # words of putting something back


def late_step(case: Case) -> Iterator[Fault]:
    """A step frees a part that an earlier step has already taken away."""
    for procedure in case.draft.procedures:
        for position, step in enumerate(procedure.steps):
            effect = case.teardown.effects.of(step)
            if "order" in step.inferred and position + 1 < len(procedure.steps):
                yield Fault(
                    "This step was told later than it must be done; the draft puts it where it belongs.",
                    (procedure.id,),
                    (step_evidence(procedure.steps[position + 1]), step_evidence(step)),
                )
                continue
            if step.phase != "remove" or not step.part or condition(step) or _BACK.search(step.text):
                continue
            if effect not in PARTING:
                continue
            freed = [group.secures for group in step.fasteners] or [step.part if effect == "disconnect" else None]
            for part in freed:
                removal = case.teardown.plays[procedure.id].out(part, position)
                index = procedure.steps.index(removal.step) if removal and removal.step else position
                if part and removal and removal.step and index < position - 1:
                    yield Fault(
                        f"The {part} is freed only here, but it has been taken away before; this comes too late.",
                        (procedure.id,),
                        (step_evidence(removal.step), step_evidence(step)),
                    )
                    break


def subject_never_removed(case: Case) -> Iterator[Fault]:
    """No step of a removal or replacement takes its subject off."""
    for procedure in case.draft.procedures:
        words = part_words(procedure.subject)
        if procedure.kind not in ("remove", "replace") or not procedure.steps or not words:
            continue
        for step in procedure.steps:
            text = part_words(step.text)
            if any(word in text for word in words):
                break
            if case.teardown.names.same(step.part, procedure.subject):
                break
        else:
            yield Fault(
                f"No step takes the {procedure.subject} off.",
                (procedure.id,),
                (heading_evidence(procedure), step_evidence(procedure.steps[-1])),
            )


def held_part_removed(case: Case) -> Iterator[Fault]:
    """A part is taken out though fasteners that are put back later were never undone."""
    for procedure in case.draft.procedures:
        uses = case.uses[procedure.id]
        undone = {(use.secured, family(use)) for use in uses if use.direction != "make"}
        back = {(use.secured, family(use)) for use in uses if use.direction == "make"}
        # Taken out under one name and put back under another, or under none.
        loose_kinds = {kind for part, kind in undone if not part or (part, kind) not in back}
        taken = {part_key(step.part): step for step in procedure.steps if case.teardown.effects.takes_out(step)}
        before = {key for done in case.teardown.closure[procedure.id] for key in _undone_in(case, done)}
        for use in uses:
            step = taken.get(use.secured)
            if use.direction != "make" or step is None or use.step.start < step.start or family(use) in loose_kinds:
                continue
            if (use.secured, family(use)) not in undone | before and _plainly_told(use):
                yield Fault(
                    f"The {use.kind}s of the {use.secured} go back in, but no step takes them out.",
                    (procedure.id,),
                    (step_evidence(step), step_evidence(use.step)),
                )
                undone.add((use.secured, family(use)))


def _plainly_told(use: Use) -> bool:
    """Whether the words name the part and several fasteners or their size; "drive in the screw" may be any."""
    group = use.group
    named = set(use.secured.split()) <= set(part_words(use.step.text))
    return named and group is not None and ((group.count or 0) > 1 or bool(group.drive_size or group.length_mm))


def _undone_in(case: Case, procedure: str) -> Iterator[tuple[str, str]]:
    yield from ((use.secured, family(use)) for use in case.uses[procedure] if use.direction != "make")


def order_contradiction(case: Case) -> Iterator[Fault]:
    """Two procedures take the same two parts out in opposite orders."""
    seen: dict[tuple[str, str], tuple[Procedure, Step, Step]] = {}
    for procedure in case.draft.procedures:
        taken = [step for step in procedure.steps if case.teardown.effects.takes_out(step)][:24]
        keys = [part_key(step.part) for step in taken]
        for i, first in enumerate(taken):
            for j in range(i + 1, len(taken)):
                if keys[i] == keys[j] or " " not in keys[i] or " " not in keys[j]:
                    continue
                other = seen.get((keys[j], keys[i]))
                if other and other[0] is not procedure:
                    yield Fault(
                        f"Here the {first.part} comes off before the {taken[j].part}, there after it.",
                        (other[0].id, procedure.id),
                        tuple(map(step_evidence, (*other[1:], first, taken[j]))),
                    )
                seen.setdefault((keys[i], keys[j]), (procedure, first, taken[j]))


CHECKS = (
    Check(
        "late-step",
        "warning",
        "A step is told later than it must be done.",
        "The top cover is lifted away, and then its earth lead is unplugged.",
        late_step,
    ),
    Check(
        "subject-never-removed",
        "warning",
        "No step takes off the part that the procedure is about.",
        "The flow meter job unplugs a lead and opens a hose clamp, and ends.",
        subject_never_removed,
    ),
    Check(
        "held-part-removed",
        "warning",
        "A part is taken out while fasteners hold it that no step undoes.",
        "The drip tray is lifted out, and later its two screws are tightened.",
        held_part_removed,
    ),
    Check(
        "order-contradiction",
        "warning",
        "Two procedures take the same two parts out in opposite orders.",
        "Once the inlet hose comes off before the pump bracket, once after it.",
        order_contradiction,
    ),
)
