"""The picture and the files of the graph."""

import io
import itertools
import json
import xml.etree.ElementTree as ET
from dataclasses import replace

import networkx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from samples import HOSTILE, gold_draft, info, small_draft

from miner.model.draft import Draft
from miner.model.graph import Edge, Graph, Node
from miner.publish.graph_files import GRAPH_FORMATS
from miner.publish.graph_layout import lay_out, turned_back
from miner.publish.graph_picture import picture, shown_edges, write

SVG = "{http://www.w3.org/2000/svg}"


def draft_of(*edges, nodes=()):
    names = dict.fromkeys([*nodes, *itertools.chain.from_iterable(edges)])
    made = (Edge(a, b, "stated", 1.0) for a, b in dict.fromkeys(edges))
    return Draft(info(), graph_=Graph(tuple(Node(n, n, "p01") for n in names), tuple(made)))


def test_derived_edges_are_left_out_and_cycles_stay():
    draft = draft_of(("a", "b"), ("b", "c"), ("a", "c"), ("c", "d"), ("d", "c"), ("d", "d"))
    assert [(e.from_, e.to) for e in shown_edges(draft)] == [("a", "b"), ("b", "c"), ("c", "d"), ("d", "c"), ("d", "d")]
    text = picture(draft)
    assert text.count('class="line cyclic"') == 3
    assert "Heavy line" in text


@pytest.mark.parametrize(
    "draft",
    [small_draft(), small_draft(HOSTILE), gold_draft(), draft_of(), draft_of(("a", "a")), draft_of(nodes="xyz")],
)
def test_the_picture_is_sound_xml(draft):
    root = ET.fromstring(write(draft))
    boxes = [one for one in root.iter(f"{SVG}rect") if "box" in one.get("class").split()]
    assert len(boxes) == len(draft.graph_.nodes)
    assert root.find(f"{SVG}title").text
    assert not list(root.iter(f"{SVG}script"))


names = st.sampled_from([f"part {n}" for n in range(12)])


@settings(max_examples=60, deadline=None)
@given(st.lists(st.tuples(names, names), unique=True, max_size=30))
def test_any_graph_is_laid_out_without_overlap(edges):
    sizes = dict.fromkeys(itertools.chain.from_iterable(edges), (120.0, 35.0))
    layout = lay_out(sizes, edges)
    assert layout == lay_out(sizes, edges)
    assert set(layout.lines) == {edge for edge in edges if edge[0] != edge[1]}
    for one, other in itertools.combinations(layout.boxes.values(), 2):
        apart_x = abs(one.x - other.x) >= (one.width + other.width) / 2 - 0.2
        apart_y = abs(one.y - other.y) >= (one.height + other.height) / 2 - 0.2
        assert apart_x or apart_y
    for box in layout.boxes.values():
        assert box.width / 2 <= box.x <= layout.width - box.width / 2
        assert box.height / 2 <= box.y <= layout.height - box.height / 2


@given(st.lists(st.tuples(names, names), unique=True, max_size=40))
def test_turning_edges_ends_all_cycles(edges):
    nodes = dict.fromkeys(itertools.chain.from_iterable(edges))
    back = set(turned_back(nodes, edges))
    assert networkx.is_directed_acyclic_graph(networkx.DiGraph(edge for edge in edges if edge not in back))


def test_an_acyclic_picture_points_down():
    layout = lay_out(dict.fromkeys("abcd", (80.0, 30.0)), [("a", "b"), ("b", "c"), ("a", "d"), ("d", "c")])
    assert layout.boxes["a"].y < layout.boxes["b"].y < layout.boxes["c"].y


def test_graphml_reads_back():
    draft = small_draft('a "quoted" <word>')
    graph = networkx.read_graphml(io.BytesIO(GRAPH_FORMATS["graphml"](draft)))
    assert graph.nodes["tray"]["part"] == 'a "quoted" <word>'
    assert graph.edges["tray", "cover"]["kind"] == "stated"
    assert "5.00:" in graph.edges["tray", "cover"]["evidence"]


def test_dot_quotes_names():
    draft = replace(small_draft(), graph_=Graph((Node("a", 'a "b" \\c', None),), (Edge("a", "a", "implied", 0.5),)))
    text = GRAPH_FORMATS["dot"](draft).decode()
    assert '"a" [label="a \\"b\\" \\\\c"];' in text
    assert '"a" -> "a" [style=dashed];' in text


def test_json_is_the_graph_of_the_draft():
    draft = gold_draft()
    assert json.loads(GRAPH_FORMATS["json"](draft)) == json.loads(draft.to_json())["graph"]
