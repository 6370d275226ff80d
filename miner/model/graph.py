"""The graph of what must come off before what, as stored in a draft."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from miner.model.finding import Evidence


@dataclass(frozen=True, slots=True)
class Node:
    """A part; `procedure` is the id of the procedure that removes it, if the recording has one."""

    id: str
    part: str
    procedure: str | None = None


@dataclass(frozen=True, slots=True)
class Edge:
    """`from_` must be off before `to` can come off: stated as a prerequisite, or implied by a joint."""

    from_: Annotated[str, Field(alias="from")]
    to: str
    kind: Literal["stated", "implied"]
    confidence: float
    evidence: tuple[Evidence, ...] = ()


@dataclass(frozen=True, slots=True)
class Graph:
    """Nodes and edges, both sorted; cycles and self-edges are kept."""

    nodes: tuple[Node, ...] = ()
    edges: tuple[Edge, ...] = ()
