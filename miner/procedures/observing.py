"""What is noticed while drafting and becomes findings later."""

from __future__ import annotations

from miner.language.agreement import evidence
from miner.language.annotations import Annotations
from miner.model.finding import Evidence
from miner.model.observation import Observation
from miner.model.recording import Recording
from miner.procedures.bodies import Body
from miner.procedures.drafted_steps import ROUND


def observed(known: Annotations, body: Body, procedure: str, closing: str | None) -> list[Observation]:
    """The closing sentence and the section number of a job."""
    made = []
    if body.closing and closing:
        made.append(
            Observation(
                "closing",
                (evidence(known, body.closing.start, body.closing.end),),
                {"part": closing, "procedure": procedure},
            )
        )
    found = body.span.heading
    if found.number is not None:
        made.append(
            Observation(
                "section-number",
                (evidence(known, found.start, found.end),),
                {"number": str(found.number), "procedure": procedure},
            )
        )
    return made


def repairs_observed(recording: Recording) -> list[Observation]:
    """Stutters and mishearings that the caption stage repaired."""
    made = []
    for repair in recording.repairs:
        if repair.kind != "rolling":
            place = Evidence(round(repair.start, ROUND), round(repair.end, ROUND), repair.before)
            detail = {"heard": repair.before, "meant": repair.after, "word": repair.before}
            made.append(Observation(repair.kind, (place,), detail))
    return made
