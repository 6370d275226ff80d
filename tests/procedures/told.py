"""Drafts from a few spoken words, without the caption stage and without findings."""

from __future__ import annotations

from spoken import known_of, lexicon, recording

from miner.model.draft import Draft, Procedure, Step
from miner.model.recording import Register
from miner.procedures.drafting import draft_recording


def draft_of(*texts: str, register: Register = "scripted", gap: float = 0.2) -> Draft:
    """The draft of cues of text; in notes each text is a note."""
    made = recording(*texts, register=register, gap=gap)
    return draft_recording(made, known_of(*texts, register=register, gap=gap), lexicon()).draft


def job(*texts: str, register: Register = "scripted", gap: float = 0.2) -> Procedure:
    """The only procedure of a draft."""
    found = draft_of(*texts, register=register, gap=gap).procedures
    assert len(found) == 1, [p.title for p in found]
    return found[0]


def line(step: Step) -> str:
    """A step in one line: `remove: lift gong <- frame | 2 screw T10`."""
    text = f"{step.phase}: {step.action or '-'} {step.part or '-'}"
    if step.from_:
        text += f" <- {step.from_}"
    for group in step.fasteners:
        count = "/".join(map(str, group.count_alternatives)) or group.count or "?"
        size = " ".join(
            str(s) for s in (group.thread, group.length_mm and f"{group.length_mm:g}", group.drive_size) if s
        )
        text += f" | {count} {group.kind}" + (f" {size}" if size else "")
    return text


def lines(procedure: Procedure) -> list[str]:
    return [line(step) for step in procedure.steps]
