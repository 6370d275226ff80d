"""The fastener schedule: a row a group, in order of the recording, for a spreadsheet or a parts system."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator

from miner.model.draft import Draft, Fastener, Procedure, Step
from miner.publish.wording import clock, fastener_words

COLUMNS = (
    "procedure",
    "title",
    "step",
    "phase",
    "time",
    "fastener",
    "kind",
    "count",
    "count_alternatives",
    "thread",
    "length_mm",
    "drive",
    "drive_size",
    "head",
    "captive",
    "torque_nm",
    "location",
    "secures",
    "to",
    "start",
    "end",
)

_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def write(draft: Draft) -> bytes:
    """The schedule as UTF-8 CSV with a byte order mark, which spreadsheets need to read it as UTF-8."""
    text = io.StringIO()
    table = csv.writer(text, lineterminator="\r\n")
    table.writerow(COLUMNS)
    table.writerows([_cell(value) for value in row] for row in _rows(draft))
    return text.getvalue().encode("utf-8-sig")


def _rows(draft: Draft) -> Iterator[list[object]]:
    for procedure in draft.procedures:
        for step in procedure.steps:
            for group in step.fasteners:
                yield _row(procedure, step, group)


def _row(procedure: Procedure, step: Step, group: Fastener) -> list[object]:
    alternatives = " or ".join(str(one) for one in group.count_alternatives)
    made = {
        "procedure": procedure.id,
        "title": procedure.title,
        "step": step.id,
        "phase": step.phase,
        "time": clock(group.start),
        "fastener": fastener_words(group),
        "count_alternatives": alternatives,
        "captive": "yes" if group.captive else "no",
    }
    return [made[name] if name in made else getattr(group, name) for name in COLUMNS]


def _cell(value: object) -> object:
    """Text that a spreadsheet would run as a formula is shown as text; numbers are written without a needless .0."""
    if isinstance(value, float):
        return f"{value:.3f}".rstrip("0").rstrip(".")
    return f"'{value}" if isinstance(value, str) and value.startswith(_FORMULA) else value
