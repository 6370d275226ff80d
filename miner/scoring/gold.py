"""A gold file (an annotated recording) turned into the draft that a perfect miner would make of it."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise
from typing import Any

from miner.model.draft import (
    Draft,
    Fastener,
    Heading,
    Install,
    Notice,
    Preparation,
    Prerequisite,
    Procedure,
    RecordingInfo,
    Step,
)
from miner.model.finding import Evidence, Finding, Severity
from miner.model.identity import fingerprint, procedure_id, step_id
from miner.model.naming import PartNames

Gold = Mapping[str, Any]

_REMARKS = ("stutter", "probable-mishearing", "grammatical-number")


def draft_from_gold(gold: Gold, *, findings: bool = True) -> Draft:
    """The draft that says what a gold file says; without the graph and the derived reassembly.

    Steps and procedures end where the next one starts, since a gold file times only their beginning. With
    `findings` false the draft holds none, as it stands before the checks run.
    """
    name = str(gold.get("id", "gold"))
    names = _names(gold)
    removers = _removers(gold, names)
    procedures = tuple(_procedure(number, one, removers, names) for number, one in enumerate(gold["procedures"], 1))
    return Draft(
        recording=RecordingInfo(
            id=name,
            title=str(gold.get("title") or name),
            product=gold.get("product") or "",
            model=gold.get("model") or "",
            source=f"{name}.gold.json",
            format="gold",
            media=None,
            duration=max((p.end for p in procedures), default=0.0),
            sha256="",
            register=gold.get("register", "scripted"),
        ),
        procedures=procedures,
        findings=_findings(gold, procedures) if findings else (),
    )


def _names(gold: Gold) -> PartNames:
    """All part names of the recording, so that shortened ones are understood."""
    said = [name for one in gold["procedures"] for name in (one["subject"], *one["prerequisites"])]
    return PartNames([*said, *(step.get("part") for one in gold["procedures"] for step in one["steps"])])


def _removers(gold: Gold, names: PartNames) -> dict[str, str]:
    """Key of a part -> id of the first procedure that is about it."""
    found: dict[str, str] = {}
    for number, one in enumerate(gold["procedures"], 1):
        found.setdefault(names.key(one["subject"]), procedure_id(number))
    return found


def _procedure(number: int, gold: Gold, removers: Mapping[str, str], names: PartNames) -> Procedure:
    name, start, end = procedure_id(number), float(gold["start"]), float(gold["end"])
    steps = _steps(name, gold["steps"], end)
    heading_end = min([end, start + 3.0, *(step.start for step in steps if step.start > start)])
    spoken = bool(gold.get("heading_spoken", True))
    prerequisites = (
        Prerequisite(part, part, start, heading_end, removers.get(names.key(part))) for part in gold["prerequisites"]
    )
    preparations = (Preparation(text, start, heading_end) for text in gold.get("preparations", ()))
    return Procedure(
        id=name,
        title=gold["title"],
        kind=gold["kind"],
        subject=gold["subject"],
        heading=Heading(gold["title"], start, heading_end, spoken),
        start=start,
        end=end,
        prerequisites=tuple(prerequisites),
        preparations=tuple(preparations),
        tools=tuple(dict.fromkeys(tool for step in steps for tool in step.tools)),
        install=Install(mode=gold.get("install", "none")),
        steps=steps,
        notices=tuple(_notice(one, steps) for one in gold.get("notices", ())),
        inferred={} if spoken else {"title": "no heading was spoken"},
    )


def _steps(procedure: str, gold: list[Gold], end: float) -> tuple[Step, ...]:
    starts = [float(one["start"]) for one in gold]
    ends = [max(now, later) for now, later in pairwise([*starts, end])]
    return tuple(
        Step(
            id=step_id(procedure, number),
            number=number,
            phase=one["phase"],
            start=start,
            end=stop,
            text=one["text"],
            spoken=one["text"],
            action=one.get("action"),
            part=one.get("part"),
            from_=one.get("from"),
            tools=tuple(one.get("tools", ())),
            fasteners=tuple(_fastener(group, start, stop) for group in one.get("fasteners", ())),
        )
        for number, (one, start, stop) in enumerate(zip(gold, starts, ends, strict=True), 1)
    )


def _fastener(gold: Gold, start: float, end: float) -> Fastener:
    names = ("count", "length_mm", "thread", "drive", "drive_size", "head", "secures", "to")
    said: dict[str, Any] = {name: gold.get(name) for name in names}
    return Fastener(
        kind=gold["kind"],
        **said,
        count_alternatives=tuple(gold.get("count_alternatives") or ()),
        captive=bool(gold.get("captive", False)),
        start=start,
        end=end,
    )


def _notice(gold: Gold, steps: tuple[Step, ...]) -> Notice:
    start, guarded = float(gold["start"]), gold.get("step")
    step = steps[guarded].id if isinstance(guarded, int) and 0 <= guarded < len(steps) else None
    return Notice(gold["kind"], gold["text"], start, start, step)


def _findings(gold: Gold, procedures: tuple[Procedure, ...]) -> tuple[Finding, ...]:
    found = []
    for one in gold.get("inconsistencies", ()):
        check, message = one["kind"], str(one.get("why") or one["kind"])
        evidence = tuple(_evidence(float(time), procedures, message) for time in one["at"])
        involved = tuple(procedure_id(index + 1) for index in one.get("procedures", ()))
        severity: Severity = "remark" if check in _REMARKS else "error"
        name = fingerprint(check, [message, *(f"{one.start:.2f}" for one in evidence)])
        found.append(Finding(name, check, severity, message, involved, evidence))
    return tuple(found)


def _evidence(time: float, procedures: tuple[Procedure, ...], otherwise: str) -> Evidence:
    """The step that is spoken at a time, quoted; where no step is, the reason stands for the words."""
    for procedure in procedures:
        for step in procedure.steps:
            if step.start <= time < step.end:
                return Evidence(time, step.end, step.text, step.id)
    return Evidence(time, time, otherwise)
