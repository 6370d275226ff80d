"""A draft with its decisions applied: a pure function of both."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from miner.decisions.changes import fasteners_of
from miner.decisions.decision import Decision
from miner.decisions.items import Items, edge_id, notice_id
from miner.decisions.reassembly import derived, following
from miner.decisions.store import standing
from miner.decisions.structure import arranged
from miner.model.draft import Draft, Notice, Prerequisite, Procedure, Step
from miner.model.finding import Finding
from miner.model.graph import Graph
from miner.model.naming import same_part

_LISTS = ("tools", "supplies")
_MARKS = {"split": "text", "join": "text", "after": "number"}  # the field that a change of structure shows in


def apply(draft: Draft, decisions: Iterable[Decision]) -> Draft:
    """The draft as the editor wants it; its findings are those that are still open.

    Ids of procedures and steps stay, so that every field can still be traced; the second half of a split step gets
    the id of the first with a letter. A changed field is marked in `inferred` with who set it and when.
    """
    decided = standing(decisions)
    if not decided:
        return draft
    items = Items.of(draft)
    gone: dict[str, str | None] = {}
    procedures = tuple(_procedure(one, draft, items, decided, gone) for one in draft.procedures)
    return replace(
        draft,
        procedures=procedures,
        findings=tuple(_placed(one, gone) for one in draft.findings if f"finding:{one.id}" not in decided),
        graph_=_graph(draft.graph_, items, decided),
    )


def settled(draft: Draft, decisions: Iterable[Decision]) -> tuple[tuple[Finding, Decision], ...]:
    """The findings that were decided on, each with its decision, in the order of the draft."""
    decided = standing(decisions)
    return tuple((one, decided[key]) for one in draft.findings if (key := f"finding:{one.id}") in decided)


def _placed(finding: Finding, gone: Mapping[str, str | None]) -> Finding:
    """The finding with its evidence pointing to the steps that are left."""
    if not any(one.step in gone for one in finding.evidence):
        return finding
    evidence = tuple(replace(one, step=gone.get(one.step, one.step) if one.step else None) for one in finding.evidence)
    return replace(finding, evidence=evidence)


def _mark(inferred: Mapping[str, str], fields: Iterable[str], decision: Decision) -> dict[str, str]:
    reason = f"set by the editor {decision.who}, {decision.at[:10]}"
    return {**inferred, **dict.fromkeys(fields, reason)}


def _procedure(
    procedure: Procedure,
    draft: Draft,
    items: Items,
    decided: Mapping[str, Decision],
    gone: dict[str, str | None],
) -> Procedure:
    home = items.key("procedure", procedure.id)
    keyed = [(items.key("step", step.id), step) for step in procedure.steps]
    moved, lost = arranged(keyed, decided)
    gone |= lost
    steps = [(key, _step(step, decided.get(key))) for key, step in moved]
    ids = {key: step.id for key, step in steps}
    for key, step in keyed:  # a reference to a joined step now means the step it became part of
        ids.setdefault(key, lost.get(step.id) or "")
    after = tuple(step for _, step in steps)
    made = replace(
        procedure,
        steps=after,
        notices=_notices(procedure, home, items, decided, ids, lost),
        tools=procedure.tools if after == procedure.steps else _tools(procedure, after),
        install=following(procedure.install, procedure.steps, after),
    )
    decision = decided.get(home)
    return _retitled(made, draft, decision) if decision else made


def _step(step: Step, decision: Decision | None) -> Step:
    if decision is None:
        return step
    fields: dict[str, Any] = {}
    for name, value in decision.changes.items():
        if name == "fasteners":
            fields[name] = fasteners_of(value)
        elif name in _LISTS:
            fields[name] = tuple(value)
        elif name in ("text", "action", "part", "from", "phase", "manner", "condition"):
            fields["from_" if name == "from" else name] = value
    changed = [_MARKS.get(name, name) for name in decision.changes]
    return replace(step, **fields, inferred=_mark(step.inferred, changed, decision)) if changed else step


def _tools(procedure: Procedure, steps: tuple[Step, ...]) -> tuple[str, ...]:
    """The tools named for the whole job stay; those of steps are gathered anew."""
    of_steps = {tool for step in procedure.steps for tool in step.tools}
    general = (tool for tool in procedure.tools if tool not in of_steps)
    return tuple(dict.fromkeys((*general, *(tool for step in steps for tool in step.tools))))


def notice_keys(procedure: Procedure, items: Items, decisions: Iterable[Decision]) -> list[str]:
    """The keys of a mined procedure's notices as they stand after the decisions, in that order."""
    decided = standing(decisions)
    home = items.key("procedure", procedure.id)
    mined = [items.key("notice", notice_id(procedure.id, number)) for number in range(1, len(procedure.notices) + 1)]
    kept = [key for key in mined if key not in decided or not decided[key].changes.get("removed")]
    return [*kept, *(key for key, one in decided.items() if _is_added(one, home))]


def _is_added(decision: Decision, home: str) -> bool:
    return decision.kind == "notice" and decision.changes.get("procedure") == home


def _notices(
    procedure: Procedure,
    home: str,
    items: Items,
    decided: Mapping[str, Decision],
    ids: Mapping[str, str],
    lost: Mapping[str, str | None],
) -> tuple[Notice, ...]:
    made: list[Notice] = []
    for number, notice in enumerate(procedure.notices, 1):
        decision = decided.get(items.key("notice", notice_id(procedure.id, number)))
        kept = replace(notice, step=lost.get(notice.step, notice.step)) if notice.step else notice
        if decision is None or not decision.changes.get("removed"):
            made.append(_notice(kept, decision.changes, ids) if decision else kept)
    for decision in decided.values():
        if _is_added(decision, home):
            start, end = decision.basis.start, decision.basis.end
            made.append(_notice(Notice("caution", "", start, end), decision.changes, ids))
    return tuple(made)


def _notice(notice: Notice, changes: Mapping[str, Any], ids: Mapping[str, str]) -> Notice:
    step = (ids.get(changes["step"] or "") or None) if "step" in changes else notice.step
    return replace(notice, kind=changes.get("kind", notice.kind), text=changes.get("text", notice.text), step=step)


def _retitled(procedure: Procedure, draft: Draft, decision: Decision) -> Procedure:
    changes = decision.changes
    fields: dict[str, Any] = {name: changes[name] for name in ("title", "subject", "kind") if name in changes}
    if "install" in changes:
        mode = changes["install"]
        steps = procedure.install.steps if mode == procedure.install.mode else derived(procedure.steps, mode)
        fields["install"] = replace(procedure.install, mode=mode, steps=steps)
    if "prerequisites" in changes:
        fields["prerequisites"] = tuple(_prerequisites(changes["prerequisites"], procedure, draft))
    return replace(procedure, **fields, inferred=_mark(procedure.inferred, changes, decision))


def _prerequisites(parts: Iterable[str], procedure: Procedure, draft: Draft) -> Iterable[Prerequisite]:
    """Prerequisites that were said keep their words and times; one that the editor added has those of the heading."""
    said = list(procedure.prerequisites)
    for part in parts:
        known = next((one for one in said if one.part.casefold() == part.casefold()), None)
        if known is not None:
            said.remove(known)
            yield known
        else:
            remover = next((one.id for one in draft.procedures if same_part(one.subject, part)), None)
            yield Prerequisite(part, part, procedure.heading.start, procedure.heading.end, remover)


def _graph(graph: Graph, items: Items, decided: Mapping[str, Decision]) -> Graph:
    """Confirmed edges count as stated, rejected ones are gone."""
    made = []
    for edge in graph.edges:
        decision = decided.get(items.key("edge", edge_id(edge)))
        verdict = decision.changes.get("verdict") if decision else None
        if verdict == "confirmed":
            made.append(replace(edge, kind="stated", confidence=1.0))
        elif verdict != "rejected":
            made.append(edge)
    return replace(graph, edges=tuple(made))
