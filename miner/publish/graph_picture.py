"""The picture of what must come off before what, as SVG that stands alone or inside a page.

A box is a part, a line runs from what comes off first to what it makes free. Lines that follow from others are left
out (transitive reduction); cycles and self-edges are drawn, heavier, since an editor must see them. Solid lines were
stated, dashed ones follow from the steps.
"""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence
from itertools import pairwise

from miner.model.draft import Draft
from miner.model.graph import Edge, Node
from miner.publish.graph_layout import Box, Layout, Pair, Point, lay_out
from miner.publish.wording import xml_text as escape

_CHARACTER, _LINE, _PADDING = 7.4, 17.0, 14.0  # pixels; the width of a character is a rough mean

_STYLE = """
.teardown{--ink:#22262b;--soft:#5d666f;--face:#fff;--edge:#767f88;--ground:#fff}
@media screen and (prefers-color-scheme:dark){
.teardown{--ink:#e4e2dc;--soft:#a3a9ae;--face:#26292d;--edge:#8b949c;--ground:#1b1d20}}
.teardown .ground{fill:var(--ground)}
.teardown .box{fill:var(--face);stroke:var(--edge);stroke-width:1.2}
.teardown .outside{stroke-dasharray:2 3}
.teardown .line{fill:none;stroke:var(--edge);stroke-width:1.4}
.teardown .implied{stroke-dasharray:6 4}
.teardown .cyclic{stroke:var(--ink);stroke-width:2.8}
.teardown .tip{fill:var(--edge)}.teardown .cyclic-tip{fill:var(--ink)}
.teardown text{font:13px/1.3 "Segoe UI",system-ui,sans-serif;fill:var(--ink)}
.teardown .soft{font-size:12px;fill:var(--soft)}
"""


def write(draft: Draft) -> bytes:
    """The picture as a UTF-8 SVG file."""
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{picture(draft)}\n'.encode()


def picture(draft: Draft) -> str:
    """The picture as an SVG element."""
    nodes = draft.graph_.nodes
    edges = shown_edges(draft)
    labels = {node.id: _label(node) for node in nodes}
    layout = lay_out({name: _size(lines) for name, lines in labels.items()}, [(e.from_, e.to) for e in edges])
    cyclic = dict.fromkeys(_on_cycles([(e.from_, e.to) for e in edges]))
    legend = _legend(edges, nodes, bool(cyclic))
    height = layout.height + _LINE * len(legend) + (10 if legend else 0)
    width = max(layout.width, 420.0)
    body = [
        f'<rect class="ground" width="{width:.1f}" height="{height:.1f}"/>',
        *(_line(edge, layout, (edge.from_, edge.to) in cyclic) for edge in edges),
        *(_box(node, layout.boxes[node.id], labels[node.id]) for node in nodes),
        *(
            f'<text class="soft" x="24" y="{layout.height + _LINE * n:.1f}">{escape(words)}</text>'
            for n, words in enumerate(legend)
        ),
    ]
    return _document(width, height, draft, edges, body)


def shown_edges(draft: Draft) -> tuple[Edge, ...]:
    """The edges of a draft without those that follow from others; cycles and self-edges stay."""
    from miner.teardown.precedence import reduce_edges

    kept = reduce_edges(draft.graph()).edges
    return tuple(edge for edge in draft.graph_.edges if (edge.from_, edge.to) in kept)


def _on_cycles(edges: Sequence[Pair]) -> Iterable[Pair]:
    """The edges that lie on a cycle; a self-edge is one."""
    import networkx

    graph: networkx.DiGraph[str] = networkx.DiGraph(edges)
    group = {name: n for n, part in enumerate(networkx.strongly_connected_components(graph)) for name in part}
    return [edge for edge in edges if group[edge[0]] == group[edge[1]]]


def _label(node: Node) -> list[str]:
    """The part, in lines of at most 20 characters; the last of three says that there was more."""
    return textwrap.wrap(node.part, 20, max_lines=3, placeholder=" \u2026") or [node.id]


def _size(lines: Sequence[str]) -> tuple[float, float]:
    width = max(len(line) for line in lines) * _CHARACTER + 2 * _PADDING
    return round(max(72.0, width), 1), _LINE * len(lines) + 18.0


def _box(node: Node, box: Box, lines: Sequence[str]) -> str:
    left, top = box.x - box.width / 2, box.y - box.height / 2
    first = box.y - _LINE * (len(lines) - 1) / 2 + 4.5
    words = "".join(
        f'<text x="{box.x:.1f}" y="{first + _LINE * n:.1f}" text-anchor="middle">{escape(line)}</text>'
        for n, line in enumerate(lines)
    )
    kind = "box" if node.procedure else "box outside"
    title = f"{node.part} ({node.procedure})" if node.procedure else f"{node.part} (no procedure of its own)"
    return (
        f"<g><title>{escape(title)}</title>"
        f'<rect class="{kind}" x="{left:.1f}" y="{top:.1f}" width="{box.width:.1f}" height="{box.height:.1f}" rx="3"/>'
        f"{words}</g>"
    )


def _line(edge: Edge, layout: Layout, cyclic: bool) -> str:
    kind = " ".join(("line", *(["implied"] if edge.kind == "implied" else []), *(["cyclic"] if cyclic else [])))
    path = _loop(layout.boxes[edge.from_]) if edge.from_ == edge.to else _curve(_clipped(layout, edge))
    tip = "url(#teardown-cyclic-tip)" if cyclic else "url(#teardown-tip)"
    title = f"{edge.from_} before {edge.to} ({edge.kind})"
    return f'<path class="{kind}" marker-end="{tip}" d="{path}"><title>{escape(title)}</title></path>'


def _clipped(layout: Layout, edge: Edge) -> list[Point]:
    """The points of a line, from the rim of its source to the rim of its target."""
    points = list(layout.lines[edge.from_, edge.to])
    source, target = layout.boxes[edge.from_], layout.boxes[edge.to]
    down = points[1][1] >= points[0][1]
    points[0] = (source.x, source.y + (source.height / 2 if down else -source.height / 2))
    down = points[-1][1] >= points[-2][1]
    points[-1] = (target.x, target.y - (target.height / 2 + 7 if down else -target.height / 2 - 7))
    return points


def _curve(points: Sequence[Point]) -> str:
    """A path that leaves and enters each point upright."""
    made = [f"M{points[0][0]:.1f} {points[0][1]:.1f}"]
    for (x, y), (to_x, to_y) in pairwise(points):
        middle = (y + to_y) / 2
        made.append(f"C{x:.1f} {middle:.1f} {to_x:.1f} {middle:.1f} {to_x:.1f} {to_y:.1f}")
    return "".join(made)


def _loop(box: Box) -> str:
    """A loop at the right side of a box."""
    right, y = box.x + box.width / 2, box.y
    points = ((right, y - 8), (right + 26, y - 22), (right + 26, y + 22), (right + 7, y + 8))
    start, *rest = (f"{a:.1f} {b:.1f}" for a, b in points)
    return f"M{start}C{' '.join(rest)}"


def _legend(edges: Sequence[Edge], nodes: Sequence[Node], cyclic: bool) -> list[str]:
    """The signs that occur in this picture, explained."""
    rows = [
        (any(e.kind == "stated" for e in edges), "Solid line: stated as a prerequisite"),
        (any(e.kind == "implied" for e in edges), "Dashed line: follows from the order of the steps"),
        (cyclic, "Heavy line: part of a cycle, to be looked at"),
        (any(n.procedure is None for n in nodes), "Dotted box: no procedure of this recording removes it"),
        (not nodes, "The recording names no part that must come off before another."),
    ]
    return [words for holds, words in rows if holds]


def _document(width: float, height: float, draft: Draft, edges: Sequence[Edge], body: Iterable[str]) -> str:
    title = f"What comes off before what: {draft.recording.title}"
    sentences = "; ".join(f"{edge.from_} before {edge.to}" for edge in edges) or "no order was found"
    tips = "".join(
        f'<marker id="teardown-{name}" viewBox="0 0 8 8" refX="1" refY="4" markerWidth="7" markerHeight="7" '
        f'markerUnits="userSpaceOnUse" orient="auto"><path class="{name}" d="M0 0L8 4L0 8z"/></marker>'
        for name in ("tip", "cyclic-tip")
    )
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="teardown" viewBox="0 0 {width:.1f} {height:.1f}" '
        f'width="{width:.1f}" height="{height:.1f}" role="img" aria-labelledby="teardown-title teardown-words">'
    )
    return "\n".join(
        (
            head,
            f'<title id="teardown-title">{escape(title)}</title>',
            f'<desc id="teardown-words">{escape(sentences)}</desc>',
            f"<style>{_STYLE}</style>",
            f"<defs>{tips}</defs>",
            *body,
            "</svg>",
        )
    )
