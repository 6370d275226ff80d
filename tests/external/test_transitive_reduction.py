"""The reduction of the picture against worked examples and a second graph library.

Definition and uniqueness: A. V. Aho, M. R. Garey, J. D. Ullman, The transitive reduction of a directed graph, SIAM J.
Comput. 1 (1972), 131-137. The worked examples are our own arithmetic. The second library is rustworkx.
"""

import itertools

import networkx
import pytest
import rustworkx
from hypothesis import given
from hypothesis import strategies as st

from miner.teardown.precedence import reduce_edges

UNIT = {(1, 2), (1, 3), (1, 4), (1, 5), (2, 3), (2, 4), (2, 5), (3, 4), (3, 5)}
DIAMOND = {("a", "b"), ("a", "c"), ("b", "d"), ("c", "d"), ("a", "d")}
FULL = set(itertools.combinations(range(5), 2))
TRIANGLE = {("a", "b"), ("b", "c"), ("c", "a")}

numbers = st.integers(min_value=0, max_value=11)
acyclic = st.sets(st.tuples(numbers, numbers).filter(lambda pair: pair[0] < pair[1]), max_size=40)
any_edges = st.sets(st.tuples(numbers, numbers), max_size=40)


def reduced(edges):
    return set(reduce_edges(networkx.DiGraph(sorted(edges))).edges)


def second_opinion(edges):
    graph = rustworkx.PyDiGraph()
    graph.add_nodes_from(range(12))
    graph.add_edges_from_no_data(sorted(edges))
    made, places = rustworkx.transitive_reduction(graph)
    names = {new: old for old, new in places.items()}
    return {(names[a], names[b]) for a, b in made.edge_list()}


def reachable(edges):
    graph = networkx.DiGraph(list(edges))
    return {(a, b) for a in graph for b in networkx.descendants(graph, a)}


@pytest.mark.parametrize(
    ("edges", "left"),
    [
        (UNIT, {(1, 2), (2, 3), (3, 4), (3, 5)}),
        (DIAMOND, DIAMOND - {("a", "d")}),
        (FULL, {(0, 1), (1, 2), (2, 3), (3, 4)}),
        (set(), set()),
    ],
)
def test_worked_examples(edges, left):
    assert reduced(edges) == left


def test_cycles_are_not_reduced():
    both_ways = TRIANGLE | {(b, a) for a, b in TRIANGLE}
    assert reduced(TRIANGLE) == TRIANGLE
    assert reduced(both_ways) == both_ways
    assert reduced({("a", "a"), ("a", "b")}) == {("a", "a"), ("a", "b")}


@given(acyclic)
def test_acyclic_graphs_as_rustworkx_reduces_them(edges):
    assert reduced(edges) == second_opinion(edges)


@given(any_edges)
def test_nothing_becomes_unreachable(edges):
    left = reduced(edges)
    assert left <= edges
    assert reachable(left) == reachable(edges)


@given(any_edges)
def test_reducing_twice_changes_nothing_and_data_stay(edges):
    graph = networkx.DiGraph()
    graph.add_edges_from((a, b, {"sum": a + b}) for a, b in sorted(edges))
    once = reduce_edges(graph)
    assert set(reduce_edges(once).edges) == set(once.edges)
    assert all(data["sum"] == a + b for a, b, data in once.edges(data=True))
    assert list(once.nodes) == list(graph.nodes)
