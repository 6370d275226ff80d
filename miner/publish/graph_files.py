"""The whole graph for other programs: GraphML, DOT, JSON; every edge, none left out as in the picture."""

from __future__ import annotations

import json
from collections.abc import Callable

from miner.model.draft import Draft
from miner.model.graph import Edge


def graphml(draft: Draft) -> bytes:
    """GraphML, with part and procedure on nodes, kind, confidence and the quoted evidence on edges."""
    import networkx

    made: networkx.DiGraph[str] = networkx.DiGraph()
    for node in draft.graph_.nodes:
        made.add_node(node.id, part=node.part, procedure=node.procedure or "")
    for edge in draft.graph_.edges:
        made.add_edge(edge.from_, edge.to, kind=edge.kind, confidence=edge.confidence, evidence=_quotes(edge))
    lines = networkx.generate_graphml(made, encoding="utf-8")
    return ('<?xml version="1.0" encoding="UTF-8"?>\n' + "\n".join(lines) + "\n").encode()


def dot(draft: Draft) -> bytes:
    """The DOT language of Graphviz; implied edges are dashed."""
    lines = ["digraph teardown {", "  node [shape=box];"]
    lines += [f"  {_quoted(node.id)} [label={_quoted(node.part)}];" for node in draft.graph_.nodes]
    for edge in draft.graph_.edges:
        style = " [style=dashed]" if edge.kind == "implied" else ""
        lines.append(f"  {_quoted(edge.from_)} -> {_quoted(edge.to)}{style};")
    return "\n".join([*lines, "}", ""]).encode()


def graph_json(draft: Draft) -> bytes:
    """Nodes and edges as they stand in `draft.json`."""
    from miner.model.serialise import to_dict

    return (json.dumps(to_dict(draft)["graph"], ensure_ascii=False, indent=1) + "\n").encode()


GRAPH_FORMATS: dict[str, Callable[[Draft], bytes]] = {"graphml": graphml, "dot": dot, "json": graph_json}
"""Writers by format name; the picture is the format `svg` of the registry."""


def _quotes(edge: Edge) -> str:
    return " / ".join(f"{one.start:.2f}: {one.quote}" for one in edge.evidence)


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", " ")
    return f'"{escaped}"'
