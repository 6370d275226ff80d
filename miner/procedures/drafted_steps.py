"""Found steps -> the steps of the contract: edited wording, the words as transcribed, fasteners, confidence."""

from __future__ import annotations

from miner.language.annotations import Annotations, Group
from miner.language.tools import supplies_of
from miner.lexicon import Lexicon
from miner.model.draft import Fastener, Step
from miner.model.identity import step_id
from miner.model.naming import head_word
from miner.model.recording import Recording
from miner.procedures.step_found import StepFound
from miner.procedures.wording import edited, imperative_of, part_name, plain_text, spoken_text

ROUND = 3
"""Decimals of times in a draft: milliseconds."""


def drafted_steps(
    recording: Recording, known: Annotations, found: list[StepFound], procedure: str, lexicon: Lexicon
) -> tuple[Step, ...]:
    """The steps of a job as they stand in a draft."""
    made = []
    for number, step in enumerate(found, 1):
        start, end = known.starts[step.start], known.ends[step.end - 1]
        pieces = [plain_text(known, a, b) for a, b in _joined(step.ranges)]
        text = edited(" ".join(pieces))
        text = imperative_of(text, step.action)
        spoken = as_transcribed(recording, spoken_text(known, step.start, step.end), start, end).lstrip(" ,;-–")
        groups = tuple(_fastener(known, g) for g in step.groups)
        part = part_name(step.part) if step.part else next((g.secures for g in groups if g.secures), None)
        if step.groups and part and any(head_word(part) == head_word(g.kind) for g in step.groups):
            said = "secures" not in step.inferred  # the part is the one that they secure only when that was said
            part = (next((g.secures for g in groups if g.secures), None) if said else None) or part
        made.append(
            Step(
                step_id(procedure, number),
                number,
                step.phase,
                round(start, ROUND),
                round(end, ROUND),
                text,
                spoken,
                step.action,
                part,
                part_name(step.source) if step.source else None,
                tuple(step.tools),
                step.manner,
                step.condition,
                groups,
                supplies_of(text, lexicon),
                _confidence(step),
                dict(step.inferred),
            )
        )
    return tuple(made)


def _joined(ranges: list[tuple[int, int]]) -> list[tuple[int, int]]:
    joined: list[tuple[int, int]] = []
    for a, b in ranges:
        if joined and joined[-1][1] == a:
            joined[-1] = (joined[-1][0], b)
        else:
            joined.append((a, b))
    return joined


def as_transcribed(recording: Recording, text: str, start: float, end: float) -> str:
    """The words before any repair."""
    for repair in recording.repairs:
        if repair.kind != "rolling" and start - 0.01 <= repair.start <= end and repair.after and repair.after in text:
            text = text.replace(repair.after, repair.before, 1)
    return text


def _confidence(step: StepFound) -> float:
    """1 for a plain instruction, less where something had to be inferred."""
    score = {"imperative": 1.0, "planned": 0.95, "narrated": 0.85, "result": 0.8}.get(step.clause.mood, 0.6)
    return round(score - 0.1 * len(step.inferred), 2)


def _fastener(known: Annotations, group: Group) -> Fastener:
    return Fastener(
        group.kind, group.count, group.alternatives, group.length_mm, group.thread, group.drive, group.drive_size,
        group.head, group.captive, group.torque_nm, group.location, part_name(group.secures) if group.secures else None,
        part_name(group.to) if group.to else None,
        round(known.starts[group.start], ROUND), round(known.ends[min(group.end, len(known.ends)) - 1], ROUND),
    )  # fmt: skip
