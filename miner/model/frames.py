"""The tables of a draft as pandas frames; columns stand in the order of the contract, also when a table is empty."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import fields
from typing import TYPE_CHECKING, Any

from miner.model.draft import Draft, Fastener, FrameName, ListedPart, Notice, Prerequisite, Procedure, Step
from miner.model.finding import Finding

if TYPE_CHECKING:
    import pandas

Row = dict[str, Any]


def _values(item: Any, *leave_out: str) -> Row:
    names = (f.name for f in fields(item) if f.name not in leave_out)
    return {name.rstrip("_"): getattr(item, name) for name in names}


def _procedures(draft: Draft) -> Iterator[Row]:
    for p in draft.procedures:
        yield {
            **_values(p, "heading", "prerequisites", "preparations", "install", "steps", "notices", "inferred"),
            "heading_spoken": p.heading.spoken,
            "install": p.install.mode,
            "steps": len(p.steps),
        }


def _steps(draft: Draft) -> Iterator[Row]:
    for p in draft.procedures:
        for step in p.steps:
            yield {"procedure": p.id, **_values(step, "fasteners", "inferred"), "fasteners": len(step.fasteners)}


def _fasteners(draft: Draft) -> Iterator[Row]:
    for p in draft.procedures:
        for step in p.steps:
            for group in step.fasteners:
                yield {"procedure": p.id, "step": step.id, "phase": step.phase, **_values(group)}


def _prerequisites(draft: Draft) -> Iterator[Row]:
    for p in draft.procedures:
        for one in p.prerequisites:
            yield {"procedure": p.id, **_values(one, "procedure"), "removed_by": one.procedure}


def _notices(draft: Draft) -> Iterator[Row]:
    for p in draft.procedures:
        for notice in p.notices:
            yield {"procedure": p.id, **_values(notice)}


def _findings(draft: Draft) -> Iterator[Row]:
    for finding in draft.findings:
        yield {
            **_values(finding, "evidence", "suggestion"),
            "start": finding.evidence[0].start if finding.evidence else None,
            "evidence": len(finding.evidence),
        }


def _parts(draft: Draft) -> Iterator[Row]:
    for part in draft.parts:
        yield _values(part)


def _names(kind: type, *leave_out: str) -> list[str]:
    return [f.name.rstrip("_") for f in fields(kind) if f.name not in leave_out]


_PROCEDURE_PARTS = ("heading", "prerequisites", "preparations", "install", "steps", "notices", "inferred")
_TABLES: dict[FrameName, tuple[Callable[[Draft], Iterator[Row]], list[str]]] = {
    "procedures": (_procedures, [*_names(Procedure, *_PROCEDURE_PARTS), "heading_spoken", "install", "steps"]),
    "steps": (_steps, ["procedure", *_names(Step, "fasteners", "inferred"), "fasteners"]),
    "fasteners": (_fasteners, ["procedure", "step", "phase", *_names(Fastener)]),
    "prerequisites": (_prerequisites, ["procedure", *_names(Prerequisite, "procedure"), "removed_by"]),
    "notices": (_notices, ["procedure", *_names(Notice)]),
    "findings": (_findings, [*_names(Finding, "evidence", "suggestion"), "start", "evidence"]),
    "parts": (_parts, _names(ListedPart)),
}


def to_frame(draft: Draft, name: FrameName) -> pandas.DataFrame:
    """The named table, a row an item in order of the recording.

    Raises:
        KeyError: there is no table of that name; the message lists those there are.
    """
    import pandas

    if name not in _TABLES:
        raise KeyError(f"no table {name!r}; there are {', '.join(_TABLES)}")
    rows, columns = _TABLES[name]
    return pandas.DataFrame(list(rows(draft)), columns=columns)
