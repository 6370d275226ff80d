"""Where the boxes and lines of a graph picture stand: layers from top to bottom, positions in pixels.

Each connected part is laid out by grandalf (Sugiyama's method). It is given a graph without cycles: of each cycle
the edges that point back in order of the nodes are turned for the layout and drawn in their own direction.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

Pair = tuple[str, str]
Point = tuple[float, float]

_GAP_X, _GAP_Y, _MARGIN, _WIDEST = 28.0, 56.0, 24.0, 1180.0


@dataclass(frozen=True, slots=True)
class Box:
    """A node: `x`, `y` of its centre, width and height."""

    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class Layout:
    """Boxes by node, the points that each edge passes from its source to its target, the size of the whole."""

    boxes: Mapping[str, Box]
    lines: Mapping[Pair, tuple[Point, ...]]
    width: float
    height: float


def lay_out(sizes: Mapping[str, tuple[float, float]], edges: Sequence[Pair]) -> Layout:
    """The picture of a graph whose nodes have these sizes. Self-edges get no line: they are drawn beside their box."""
    joined = [edge for edge in edges if edge[0] != edge[1]]
    parts = sorted(_connected(sizes, joined), key=lambda names: -len(names))
    boxes: dict[str, Box] = {}
    lines: dict[Pair, tuple[Point, ...]] = {}
    left, top, row_height, width = _MARGIN, _MARGIN, 0.0, 0.0
    for names in parts:
        inside = [edge for edge in joined if edge[0] in names]
        own = _lay_out_part({name: sizes[name] for name in names}, inside)
        if left > _MARGIN and left + own.width > _WIDEST:
            left, top, row_height = _MARGIN, top + row_height + _GAP_Y, 0.0
        for name, box in own.boxes.items():
            boxes[name] = Box(box.x + left, box.y + top, box.width, box.height)
        for edge, points in own.lines.items():
            lines[edge] = tuple((x + left, y + top) for x, y in points)
        left += own.width + _GAP_X
        width, row_height = max(width, left - _GAP_X), max(row_height, own.height)
    return Layout(boxes, lines, width + _MARGIN, top + row_height + _MARGIN)


def _connected(nodes: Iterable[str], edges: Sequence[Pair]) -> list[dict[str, None]]:
    """The connected parts of a graph, each with its nodes in the order given."""
    leader = {name: name for name in nodes}

    def find(name: str) -> str:
        while leader[name] != name:
            leader[name] = leader[leader[name]]
            name = leader[name]
        return name

    for one, other in edges:
        leader[find(one)] = find(other)
    parts: dict[str, dict[str, None]] = {}
    for name in leader:
        parts.setdefault(find(name), {})[name] = None
    return list(parts.values())


def turned_back(nodes: Iterable[str], edges: Sequence[Pair]) -> tuple[Pair, ...]:
    """The edges that a depth-first walk meets as pointing back: without them the graph has no cycle."""
    onward: dict[str, list[str]] = {name: [] for name in nodes}
    for source, target in edges:
        onward[source].append(target)
    found: list[Pair] = []
    done: dict[str, bool] = {}  # False while a node is on the path that is being walked
    for root, first in onward.items():
        path = [] if root in done else [(root, iter(first))]
        done.setdefault(root, False)
        while path:
            name, rest = path[-1]
            following = next(rest, None)
            if following is None:
                done[name] = True
                path.pop()
            elif following not in done:
                done[following] = False
                path.append((following, iter(onward[following])))
            elif not done[following]:
                found.append((name, following))
    return tuple(found)


def _lay_out_part(sizes: Mapping[str, tuple[float, float]], edges: Sequence[Pair]) -> Layout:
    if not edges:
        ((name, (width, height)),) = sizes.items()
        return Layout({name: Box(width / 2, height / 2, width, height)}, {}, width, height)
    from grandalf.graphs import Graph
    from grandalf.layouts import SugiyamaLayout

    from miner.publish.graph_elements import StableEdge, StableVertex

    back = turned_back(sizes, edges)
    downward = dict.fromkeys((edge[1], edge[0]) if edge in back else edge for edge in edges)
    vertices = {name: StableVertex(number, *size) for number, (name, size) in enumerate(sizes.items())}
    links = {pair: StableEdge(n, vertices[pair[0]], vertices[pair[1]]) for n, pair in enumerate(downward)}
    graph = Graph(list(vertices.values()), list(links.values()))
    layout = SugiyamaLayout(graph.C[0])
    layout.xspace, layout.yspace = _GAP_X, _GAP_Y
    layout.init_all(roots=[vertices[name] for name in sizes if not any(name == target for _, target in downward)])
    layout.draw(8)
    return _collect(sizes, edges, vertices, {pair: _bends(layout, link) for pair, link in links.items()})


def _bends(layout: object, link: object) -> tuple[Point, ...]:
    """The points that a line over several layers passes, from the upper end to the lower one."""
    inner = layout.ctrls.get(link, {})  # type: ignore[attr-defined]  # grandalf has no types
    found = [(rank, dummy.view.xy) for rank, dummy in inner.items() if hasattr(dummy, "ctrl")]
    return tuple(xy for _, xy in sorted(found))


def _collect(
    sizes: Mapping[str, tuple[float, float]],
    edges: Sequence[Pair],
    vertices: Mapping[str, object],
    bends: Mapping[Pair, tuple[Point, ...]],
) -> Layout:
    """Grandalf's positions moved to the upper left corner and rounded, so that the bytes are stable."""
    centres: dict[str, Point] = {name: vertex.view.xy for name, vertex in vertices.items()}  # type: ignore[attr-defined]
    left = min([*(centres[n][0] - w / 2 for n, (w, _) in sizes.items()), *(p[0] for b in bends.values() for p in b)])
    top = min(centres[n][1] - h / 2 for n, (_, h) in sizes.items())

    def moved(point: Point) -> Point:
        return round(point[0] - left, 1), round(point[1] - top, 1)

    boxes = {name: Box(*moved(centres[name]), *sizes[name]) for name in sizes}
    lines: dict[Pair, tuple[Point, ...]] = {}
    for source, target in edges:
        straight = (source, target) in bends
        inner = bends[source, target] if straight else bends[target, source][::-1]
        lines[source, target] = tuple(moved(point) for point in (centres[source], *inner, centres[target]))
    right = max([*(b.x + b.width / 2 for b in boxes.values()), *(x for line in lines.values() for x, _ in line)])
    return Layout(boxes, lines, right, max(b.y + b.height / 2 for b in boxes.values()))
