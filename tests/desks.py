"""Drafts to decide on: one with many findings, one of many steps, and folders that hold them."""

from __future__ import annotations

import json
from dataclasses import replace
from functools import cache

from samples import FIXTURES, gold_draft

from miner.model.draft import Draft, Fastener, Heading, Install, Notice, Procedure, Step
from miner.model.finding import Evidence, Finding, Suggestion
from miner.model.graph import Edge, Graph, Node
from miner.model.identity import fingerprint, procedure_id, step_id


@cache
def busy_draft() -> Draft:
    """A fixture's draft with a finding on each of its first steps besides its own: more than 20 in all."""
    draft = gold_draft("quellwood/e2-service-script")
    steps = [(procedure, step) for procedure in draft.procedures for step in procedure.steps][:20]
    more = tuple(
        Finding(
            fingerprint("count-mismatch", [step.text, str(number)]),
            "count-mismatch",
            "error" if number % 2 else "warning",
            f"Number {number}: two statements about {step.part or 'a part'} disagree.",
            (procedure.id,),
            (
                Evidence(step.start, step.end, step.spoken, step.id),
                Evidence(procedure.start, procedure.heading.end, procedure.heading.text),
            ),
            Suggestion(step.id, "text", step.text, f"{step.text} Corrected {number}.") if number % 4 == 0 else None,
        )
        for number, (procedure, step) in enumerate(steps, 1)
    )
    first, second = draft.procedures[0], draft.procedures[1]
    graph = Graph(
        (Node("a", first.subject, first.id), Node("b", second.subject, second.id)),
        (Edge("a", "b", "implied", 0.6, (Evidence(second.start, second.end, second.heading.text),)),),
    )
    return replace(draft, findings=(*draft.findings, *more), graph_=graph)


def long_draft(steps: int = 500, findings: int = 120) -> Draft:
    """A recording of many steps, 25 a procedure, with findings spread over them."""
    procedures = []
    for number in range(1, steps // 25 + 1):
        name, start = procedure_id(number), number * 300.0
        group = Fastener("screw", 4, (), 16.0, "M4", "cross-recess", "PH2", "pan", start=start, end=start + 5)
        made = tuple(
            Step(
                step_id(name, n), n, "remove", start + n * 10, start + n * 10 + 8,
                f"Remove the four M4 screws that hold bracket {number}-{n} to the frame.",
                f"and then we take out the four M4 screws that hold bracket {number} {n} to the frame",
                "remove", f"bracket {number}-{n}", "frame", ("PH2 driver",), fasteners=(group,),
            )
            for n in range(1, 26)
        )  # fmt: skip
        heading = Heading(f"Replace unit {number}", start, start + 4, spoken=True)
        notices = (Notice("warning", "The edge is sharp.", start + 10, start + 12, made[0].id),)
        procedures.append(
            Procedure(
                name,
                f"Replace unit {number}",
                "replace",
                f"unit {number}",
                heading,
                start,
                start + 290,
                install=Install("reverse", "the other way round", start + 280, start + 284),
                steps=made,
                notices=notices,
            )
        )
    every = [step for procedure in procedures for step in procedure.steps]
    found = tuple(
        Finding(
            fingerprint("count-mismatch", [step.text]), "count-mismatch", "error", f"Counts differ at {step.part}.",
            (step.id[:3],), (Evidence(step.start, step.end, step.spoken, step.id),),
        )
        for step in every[:: max(1, steps // findings)]
    )  # fmt: skip
    info = replace(gold_draft().recording, id="long", title="A long day", duration=steps * 12.0)
    return Draft(info, tuple(procedures), found)


def put(folder, draft):
    """The draft in a folder of its own."""
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "draft.json").write_text(draft.to_json(), encoding="utf-8")
    return folder


def all_golds():
    """Every fixture's draft."""
    from miner.scoring import draft_from_gold

    for path in sorted(FIXTURES.rglob("*.gold.json")):
        yield draft_from_gold(json.loads(path.read_text(encoding="utf-8")))
