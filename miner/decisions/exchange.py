"""Decisions as JSON (`decisions/1`): exported from one page or store, imported into another.

The static page writes the same document, so an editor without a server can send decisions to one who has it.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass, replace
from typing import Literal

from pydantic import TypeAdapter, ValidationError

from miner.decisions.changes import checked
from miner.decisions.decision import Basis, Changes, Decision, State
from miner.decisions.items import Items
from miner.decisions.store import standing
from miner.decisions.suggesting import suggested
from miner.errors import InputError
from miner.model.draft import Draft
from miner.model.serialise import first_fault

_MOST = 20_000  # decisions in one document; a longer one is no editor's work


@dataclass(frozen=True, slots=True)
class Exchanged:
    """One decision as it travels: without the numbers that only mean something in one store."""

    item: str
    state: State
    changes: Changes
    reason: str
    basis: Basis
    who: str
    at: str


@dataclass(frozen=True, slots=True)
class Document:
    """The decisions on one recording."""

    recording: str
    decisions: tuple[Exchanged, ...]
    schema: Literal["decisions/1"] = "decisions/1"


def export(recording: str, decisions: Iterable[Decision]) -> str:
    """The decisions that stand, as JSON text."""
    names = ("item", "state", "changes", "reason", "who", "at")
    rows = [
        {**{name: getattr(one, name) for name in names}, "basis": asdict(one.basis)}
        for one in standing(decisions).values()
    ]
    document = {"schema": "decisions/1", "recording": recording, "decisions": rows}
    return json.dumps(document, ensure_ascii=False, indent=1) + "\n"


def read(text: str, recording: str, *, where: str = "") -> tuple[Decision, ...]:
    """The decisions that a JSON text holds, every one of them checked.

    Raises:
        InputError: the text is no `decisions/1`, or is about another recording.
        DecisionError: a decision changes what cannot be changed.
    """
    try:
        document = TypeAdapter(Document).validate_json(text)
    except ValidationError as error:
        raise InputError(
            f"not a decisions/1 document ({first_fault(error)})",
            where=where,
            remedy="Export the decisions anew from the page.",
        ) from None
    if document.recording != recording:
        raise InputError(
            f"these decisions are about the recording {document.recording[:80]!r}, not {recording!r}",
            where=where,
            remedy="Import them where that recording is.",
        )
    if len(document.decisions) > _MOST:
        raise InputError(f"more than {_MOST} decisions", where=where, remedy="Import them in several files.")
    return tuple(
        Decision(
            row.item, row.state, checked(row.item, row.changes), row.reason, row.basis, row.who, row.at, act=number
        )
        for number, row in enumerate(document.decisions, 1)
    )


def incoming(imported: Iterable[Decision], latest: Mapping[str, Decision]) -> tuple[tuple[Decision, ...], int]:
    """What to save of imported decisions, and how many are passed over since the item is decided on here already."""
    made, passed = [], 0
    for one in imported:
        here = latest.get(one.item)
        if here is not None and here.state != "open":
            passed += (here.state, here.changes, here.reason) != (one.state, one.changes, one.reason)
            continue
        made.append(replace(one, version=here.version if here else 0))
    return tuple(made), passed


def completed(imported: Iterable[Decision], draft: Draft) -> tuple[Decision, ...]:
    """The decisions with the corrections that accepting a suggestion means; the static page only says "accepted"."""
    items = Items.of(draft)
    made = {one.item: one for one in imported}
    suggestions = {f"finding:{one.id}": one.suggestion for one in draft.findings if one.suggestion}
    for one in list(made.values()):
        suggestion = suggestions.get(one.item) if one.state == "accepted" and not one.changes else None
        correction = suggested(suggestion, draft) if suggestion else None
        if correction is None:
            continue
        kind, name, changes = correction
        key = items.key(kind, name)
        made[one.item] = replace(one, changes={"items": [key]})
        earlier = made.get(key) or replace(one, item=key, state="corrected", basis=items.by_key[key].basis)
        made[key] = replace(earlier, changes={**changes, **(earlier.changes if key in made else {})})
    return tuple(made.values())
