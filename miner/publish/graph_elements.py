"""Nodes and edges for grandalf that are told apart by number.

Grandalf keeps them in sets and walks through these; ordinary objects stand there in order of their memory address,
so that one graph could look different from run to run (seen in a test). A hash by number makes the order stable.
"""

from __future__ import annotations

from grandalf.graphs import Edge, Vertex


class View:
    """What grandalf wants to know of a node, and where it writes its centre. Sizes in pixels."""

    def __init__(self, width: float, height: float) -> None:
        self.w, self.h, self.xy = width, height, (0.0, 0.0)


class StableVertex(Vertex):  # type: ignore[misc]  # grandalf has no types
    """A node with its size."""

    def __init__(self, number: int, width: float, height: float) -> None:
        super().__init__(number)
        self.number = number
        self.view = View(width, height)

    def __hash__(self) -> int:
        return self.number


class StableEdge(Edge):  # type: ignore[misc]
    """An edge from an upper to a lower node."""

    def __init__(self, number: int, upper: StableVertex, lower: StableVertex) -> None:
        super().__init__(upper, lower)
        self.number = number

    def __hash__(self) -> int:
        return self.number
