"""What accepting a suggested correction changes, as the changes of one item."""

from __future__ import annotations

import re
from dataclasses import asdict, fields, replace

from miner.decisions.changes import fastener_values
from miner.decisions.decision import Changes
from miner.model.draft import Draft, Fastener, Procedure, Step
from miner.model.finding import Suggestion

_FASTENER_FIELDS = frozenset(one.name for one in fields(Fastener)) - {"start", "end"}
_STEP_WORDS = ("action", "part", "from", "phase", "manner", "condition")


def suggested(suggestion: Suggestion, draft: Draft) -> tuple[str, str, Changes] | None:
    """Kind and id of the item that a suggestion corrects, and the changes; None where an editor must find the words."""
    for procedure in draft.procedures:
        if procedure.id == suggestion.target:
            made = _of_procedure(suggestion, procedure)
            return ("procedure", procedure.id, made) if made else None
        for step in procedure.steps:
            if step.id == suggestion.target:
                made = _of_step(suggestion, step)
                return ("step", step.id, made) if made else None
    return None


def _of_procedure(one: Suggestion, procedure: Procedure) -> Changes | None:
    if one.field in ("title", "subject", "kind") and one.to:
        return {one.field: one.to}
    if one.field != "prerequisites":
        return None
    parts = [prerequisite.part for prerequisite in procedure.prerequisites]
    if one.from_ in parts:
        place = len(parts) - 1 - parts[::-1].index(one.from_)  # of two equal ones the first was said first and stays
        parts[place : place + 1] = [one.to] if one.to else []
    elif one.to:
        parts.append(one.to)
    else:
        return None
    return {"prerequisites": parts}


def _of_step(one: Suggestion, step: Step) -> Changes | None:
    if one.field == "text" and one.to:
        return _reworded(step.text, one.from_ or "", one.to)
    if one.field in _STEP_WORDS and one.to:
        return {one.field: one.to}
    if one.field == "tools" and one.to:
        return {"tools": [one.to if tool == one.from_ else tool for tool in step.tools] or [one.to]}
    name = one.field.rpartition(".")[2]
    if name in _FASTENER_FIELDS:
        return _of_fasteners(one, name, step.fasteners)
    return None


def _reworded(text: str, old: str, new: str) -> Changes | None:
    if not old or text == old:
        return {"text": new}
    found = re.search(rf"(?<!\w){re.escape(old)}(?!\w)", text, re.IGNORECASE)
    return {"text": text[: found.start()] + new + text[found.end() :]} if found else None


def _of_fasteners(one: Suggestion, name: str, groups: tuple[Fastener, ...]) -> Changes | None:
    """The one group that has the value to be corrected; none where several have it."""
    having = [n for n, group in enumerate(groups) if _same(asdict(group)[name], one.from_)]
    if len(having) != 1:
        return None
    value: object = one.to
    if name == "count" and one.to is not None:
        value = int(one.to) if one.to.isdigit() else None
    elif name in ("length_mm", "torque_nm") and one.to is not None:
        value = _number(one.to)
    if value is None and one.to is not None:
        return None
    corrected = {name: value, **({"count_alternatives": ()} if name == "count" else {})}
    changed = [replace(g, **corrected) if n == having[0] else g for n, g in enumerate(groups)]  # type: ignore[arg-type]
    return {"fasteners": fastener_values(tuple(changed))}


def _same(value: object, text: str | None) -> bool:
    if value is None or text is None:
        return value is None and text is None
    return str(value) == text or (isinstance(value, float) and _number(text) == value)


def _number(text: str) -> float | None:
    try:
        return float(text.split(maxsplit=1)[0])
    except (ValueError, IndexError):
        return None
