"""What a gold file or a draft says, as items that can be compared; both kinds of document are read alike.

A gold names a step by its index and a heading by `heading_spoken`, a draft by id and by `heading.spoken`. What is
missing or of the wrong type counts as absent, so that a broken draft scores low and ends nothing.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from miner.scoring.words import name_key, term_key, word_counts

SCORED = frozenset(
    (
        "repeated-heading heading-body-mismatch missing-heading closing-mismatch self-prerequisite "
        "repeated-prerequisite unknown-prerequisite incomplete-prerequisites prerequisite-cycle removed-part-used "
        "fastener-removed-twice count-mismatch count-alternatives grammatical-number drive-mismatch length-mismatch "
        "implausible-fastener name-variant probable-mishearing late-caution missing-caution missing-install stutter "
        "unclear-reference"
    ).split()
)
"""Checks that annotators look for; findings of other checks are neither hits nor false alarms."""

FASTENER_CORE = ("count", "drive_size", "length_mm")
FASTENER_FULL = (*FASTENER_CORE, "count_alternatives", "thread", "drive", "captive", "kind")


@dataclass(eq=False, slots=True)
class Item:
    """One thing said. `home` is the item it stands in, `fields` are compared once it has found its `partner`."""

    text: str
    start: float | None
    end: float | None = None
    home: Item | None = None
    fields: dict[str, Any] = field(default_factory=dict)
    times: tuple[float, ...] = ()
    partner: Item | None = None
    words: Counter[str] = field(init=False)

    def __post_init__(self) -> None:
        self.words = word_counts(self.text)


@dataclass(frozen=True, slots=True)
class Contents:
    """The items of one document, by what they are."""

    procedures: list[Item] = field(default_factory=list)
    boundaries: list[Item] = field(default_factory=list)
    prerequisites: list[Item] = field(default_factory=list)
    steps: list[Item] = field(default_factory=list)
    fasteners: list[Item] = field(default_factory=list)
    notices: list[Item] = field(default_factory=list)
    findings: list[Item] = field(default_factory=list)


def read_contents(document: Mapping[str, Any]) -> Contents:
    """The items of a gold file or a draft, from its parsed JSON."""
    contents = Contents()
    for row in _rows(document, "procedures"):
        _add_procedure(row, contents)
    for row in (*_rows(document, "inconsistencies"), *_rows(document, "findings")):
        _add_finding(row, contents)
    return contents


def figure(value: object, digits: int = 3) -> float | None:
    """A finite number, rounded; None for anything else."""
    if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
        return None
    return round(float(value), digits)


def _figures(values: Iterable[object]) -> tuple[float, ...]:
    return tuple(sorted(number for value in values if (number := figure(value)) is not None))


def _rows(holder: Mapping[str, Any], key: str) -> list[dict[str, Any]]:
    found = holder.get(key)
    return [row for row in found if isinstance(row, dict)] if isinstance(found, list) else []


def _values(holder: Mapping[str, Any], key: str) -> list[Any]:
    found = holder.get(key)
    return found if isinstance(found, list) else []


def _inner(holder: Mapping[str, Any], key: str) -> Mapping[str, Any]:
    found = holder.get(key)
    return found if isinstance(found, dict) else {}


def _text(value: object) -> str:
    return value if isinstance(value, str) else ""


def _add_procedure(row: Mapping[str, Any], contents: Contents) -> None:
    spoken = _inner(row, "heading").get("spoken", row.get("heading_spoken"))
    subject = term_key(row.get("subject"))
    title, start, end = _text(row.get("title")), figure(row.get("start")), figure(row.get("end"))
    procedure = Item(title, start, end)
    procedure.fields = {
        "subject": name_key(subject),
        "subject_head": name_key(subject.split(" of ")[0].rpartition(" ")[2]),
        "kind": term_key(row.get("kind")),
        "install": term_key(_inner(row, "install").get("mode", row.get("install"))),
        "heading_spoken": spoken if isinstance(spoken, bool) else None,
    }
    contents.procedures.append(procedure)
    contents.boundaries.append(Item(title, start, end))
    for one in _values(row, "prerequisites"):
        said = one if isinstance(one, dict) else {"part": one}
        when = figure(said["start"]) if "start" in said else start
        part = said.get("part")
        contents.prerequisites.append(Item(_text(part), when, None, procedure, {"part": name_key(part)}))
    steps = {
        str(step_row.get("id", index)): _add_step(step_row, procedure, contents)
        for index, step_row in enumerate(_rows(row, "steps"))
    }
    for notice_row in _rows(row, "notices"):
        notice = Item(_text(notice_row.get("text")), figure(notice_row.get("start")), figure(notice_row.get("end")))
        guarded = notice_row.get("step")
        # A notice that points to no step of its procedure points to itself, so that it agrees with nothing.
        place = procedure if guarded is None else steps.get(str(guarded), notice)
        notice.fields = {"kind": term_key(notice_row.get("kind")), "step": place}
        contents.notices.append(notice)


def _add_step(row: Mapping[str, Any], procedure: Item, contents: Contents) -> Item:
    start = figure(row.get("start"))
    fields = {
        "action": term_key(row.get("action")),
        "phase": term_key(row.get("phase")),
        "part": name_key(row.get("part")),
        "start": start,
        "from": name_key(row.get("from")),
    }
    step = Item(_text(row.get("text")), start, figure(row.get("end")), procedure, fields)
    contents.steps.append(step)
    for group in _rows(row, "fasteners"):
        said = {key: name_key(group.get(key)) for key in ("kind", "thread", "drive", "drive_size", "secures")}
        values = said | {
            "count": figure(group.get("count")),
            "count_alternatives": _figures(_values(group, "count_alternatives")),
            "length_mm": figure(group.get("length_mm"), 1),
            "captive": group.get("captive") is True or None,
        }
        text = ", ".join(f"{key} {group[key]}" for key in FASTENER_FULL if group.get(key))
        contents.fasteners.append(Item(text, start, None, step, values))
    return step


def _add_finding(row: Mapping[str, Any], contents: Contents) -> None:
    check = term_key(row.get("kind", row.get("check")))
    if check not in SCORED:
        return
    cited = _rows(row, "evidence")
    times = _figures([*_values(row, "at"), *(one.get("start") for one in cited)])
    why = row.get("why") or " / ".join(str(one.get("quote")) for one in cited)
    contents.findings.append(Item(f"{check}: {why}", min(times, default=None), None, None, {"kind": check}, times))
