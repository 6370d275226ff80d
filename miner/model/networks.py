"""The stored graph as a networkx graph."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING

from miner.model.graph import Graph

if TYPE_CHECKING:
    import networkx


def to_networkx(graph: Graph) -> networkx.DiGraph[str]:
    """A DiGraph whose edges run from what must be off first; data: part, procedure; kind, confidence, evidence."""
    import networkx

    made: networkx.DiGraph[str] = networkx.DiGraph()
    for node in graph.nodes:
        made.add_node(node.id, part=node.part, procedure=node.procedure)
    for edge in graph.edges:
        evidence = [asdict(one) for one in edge.evidence]
        made.add_edge(edge.from_, edge.to, kind=edge.kind, confidence=edge.confidence, evidence=evidence)
    return made
