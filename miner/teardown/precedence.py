"""What must come off before what: stated by prerequisites, implied by the steps; and its transitive reduction."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from miner.model.draft import Draft, Prerequisite, Procedure
from miner.model.finding import Evidence
from miner.model.graph import Edge, Graph, Node
from miner.model.identity import slug
from miner.model.naming import PartNames
from miner.teardown.effects import Effects

if TYPE_CHECKING:
    import networkx

STATED_CONFIDENCE = 1.0
UNCONFIRMED_CONFIDENCE = 0.7  # a prerequisite that no procedure of the recording removes
IMPLIED_CONFIDENCE = 0.6  # told one after the other: evidence of an order, no proof of it


def build_graph(
    draft: Draft,
    names: PartNames,
    links: dict[str, tuple[tuple[Prerequisite, str | None], ...]],
    effects: Effects,
) -> Graph:
    """The graph of a draft: an edge (a, b) says that a must be off before b comes off.

    Stated edges come from prerequisites. Implied ones come from the steps: what a job takes out before it takes out
    its own subject. Cycles and self-edges are kept. A stated edge outweighs an implied one between the same parts.
    """
    procedures = {procedure.id: procedure for procedure in draft.procedures}
    nodes: dict[str, Node] = {}
    edges: dict[tuple[str, str], list[Edge]] = {}

    def add_node(part: str, procedure: str | None) -> str:
        key = slug(names.key(part))
        if key and (key not in nodes or (procedure and not nodes[key].procedure)):
            nodes[key] = Node(key, part, procedure)
        return key

    def add_edge(edge: Edge) -> None:
        if edge.from_ and edge.to:
            edges.setdefault((edge.from_, edge.to), []).append(edge)

    for procedure in draft.procedures:
        add_node(procedure.subject, procedure.id if procedure.kind in ("remove", "replace") else None)
    for procedure in draft.procedures:
        target = slug(names.key(procedure.subject))
        for one, removed_by in links[procedure.id]:
            part = procedures[removed_by].subject if removed_by else one.part
            source = add_node(part, removed_by)
            sure = STATED_CONFIDENCE if removed_by else UNCONFIRMED_CONFIDENCE
            add_edge(Edge(source, target, "stated", sure, (Evidence(one.start, one.end, one.text),)))
        for part, evidence in _taken_before(procedure, names, effects):
            add_edge(Edge(add_node(part, None), target, "implied", IMPLIED_CONFIDENCE, (evidence,)))
    return Graph(
        tuple(nodes[key] for key in sorted(nodes)),
        tuple(_merged(edges[pair]) for pair in sorted(edges)),
    )


def _taken_before(procedure: Procedure, names: PartNames, effects: Effects) -> Iterable[tuple[str, Evidence]]:
    subject = names.key(procedure.subject)
    taken = [step for step in procedure.steps if effects.takes_out(step)]
    ends = [index for index, step in enumerate(taken) if names.key(step.part) == subject]
    for step in taken[: ends[-1]] if ends else ():
        if step.part and names.key(step.part) != subject:
            yield step.part, Evidence(step.start, step.end, step.spoken or step.text, step.id)


def _merged(edges: list[Edge]) -> Edge:
    stated = [edge for edge in edges if edge.kind == "stated"] or edges
    evidence = tuple(dict.fromkeys(one for edge in stated for one in edge.evidence))
    first = stated[0]
    return Edge(first.from_, first.to, first.kind, max(edge.confidence for edge in stated), evidence)


def cycles(graph: networkx.DiGraph[str]) -> tuple[tuple[str, ...], ...]:
    """The strongly connected components of two or more nodes, each sorted, in order of their first node."""
    import networkx

    found = (tuple(sorted(one)) for one in networkx.strongly_connected_components(graph) if len(one) > 1)
    return tuple(sorted(found))


def reduce_edges(graph: networkx.DiGraph[str]) -> networkx.DiGraph[str]:
    """The graph without the edges that others imply, for the picture.

    In an acyclic graph an edge (u, v) goes exactly when v can also be reached from u by two or more edges: the
    transitive reduction, which is unique [1]_. A graph with cycles has no unique reduction, so its strongly
    connected components are condensed first, and every edge inside a component is kept. Of the parallel edges
    between two components the first in order of (u, v) is drawn and the others are left out. Self-edges stay.

    Parameters
    ----------
    graph : networkx.DiGraph
        Any directed graph; it is not changed.

    Returns
    -------
    networkx.DiGraph
        All nodes, the edges that remain, and the data of both.

    Examples
    --------
    >>> import networkx
    >>> graph = networkx.DiGraph([("a", "b"), ("b", "c"), ("a", "c"), ("c", "c")])
    >>> sorted(reduce_edges(graph).edges)
    [('a', 'b'), ('b', 'c'), ('c', 'c')]

    References
    ----------
    .. [1] A. V. Aho, M. R. Garey, J. D. Ullman, The transitive reduction of a directed graph, SIAM J. Comput. 1
       (1972), 131-137.
    """
    import networkx

    condensed = networkx.condensation(graph)
    component = condensed.graph["mapping"]
    between: dict[tuple[int, int], tuple[str, str]] = {}
    for u, v in sorted(graph.edges):
        between.setdefault((component[u], component[v]), (u, v))
    kept = {between[pair] for pair in networkx.transitive_reduction(condensed).edges}
    reduced: networkx.DiGraph[str] = networkx.DiGraph(**graph.graph)
    reduced.add_nodes_from(graph.nodes(data=True))
    reduced.add_edges_from(
        (u, v, data) for u, v, data in graph.edges(data=True) if component[u] == component[v] or (u, v) in kept
    )
    return reduced
