"""Joints, states and the graph."""

from findings.mini_drafts import draft_of

from miner.lexicon import load_lexicon
from miner.teardown import build
from miner.teardown.precedence import cycles, reduce_edges
from miner.teardown.variants import branch, counts, exclusive

COVER = {
    "title": "Remove the top cover",
    "needs": ["water tank"],
    "back": "explicit",
    "steps": [
        "remove top cover {3 screw T20 @ top cover > frame}",
        "unplug earth lead < tab",
        "lift top cover < frame",
        "install:fit top cover",
        "install:tighten top cover {3 screw @ top cover > frame}",
    ],
}
TANK = {"title": "Remove the water tank", "steps": ["lift water tank < machine"]}
PUMP = {"title": "Replace the pump", "needs": ["top cover"], "steps": ["pull hose < pump", "lift pump < frame"]}


def made(*procedures):
    draft = draft_of(procedures)
    return draft, build(draft, load_lexicon())


def test_one_joint_is_undone_and_made():
    _, teardown = made(TANK, COVER)
    screws = next(joint for joint in teardown.joints if joint.kind == "screw")
    assert (screws.secured, screws.to) == ("top cover", "frame")
    assert [use.direction for use in screws.uses] == ["undo", "make"]
    assert [joint.kind for joint in teardown.joints].count("connector") == 1


def test_two_groups_of_one_step_are_two_joints():
    _, teardown = made(
        {"title": "Remove the lid", "steps": ["remove lid {2 screw 8mm @ lid > pan} {4 screw 8mm @ lid > pan}"]}
    )
    assert len(teardown.joints) == 2


def test_the_closure_holds_what_prerequisites_need():
    _, teardown = made(TANK, COVER, PUMP)
    assert list(teardown.closure["p03"]) == ["p02", "p01"]
    assert teardown.before("p01", "p03")
    assert not teardown.mutual("p01", "p03")


def test_a_part_is_out_from_its_step_until_it_is_put_back():
    _, teardown = made(TANK, COVER)
    play = teardown.plays["p02"]
    assert play.out("water tank", 0).procedure == "p02"
    assert [play.out("the top cover", place) is not None for place in range(5)] == [False, False, False, True, False]


def test_stated_and_implied_edges():
    _, teardown = made(TANK, COVER, {**PUMP, "steps": ["lift pump bracket < frame", "lift pump < bracket"]})
    edges = {(edge.from_, edge.to): edge for edge in teardown.graph.edges}
    assert set(edges) == {("water-tank", "top-cover"), ("top-cover", "pump"), ("pump-bracket", "pump")}
    assert edges["top-cover", "pump"].kind == "stated"
    assert edges["pump-bracket", "pump"].kind == "implied"
    assert edges["pump-bracket", "pump"].evidence[0].step == "p03.s01"
    assert {node.id: node.procedure for node in teardown.graph.nodes}["pump-bracket"] is None


def test_cycles_and_self_edges_are_kept():
    draft, teardown = made(
        {"title": "Remove the door", "needs": ["hinge", "door"], "steps": ["lift door < frame"]},
        {"title": "Remove the hinge", "needs": ["door"], "steps": ["lift hinge < frame"]},
    )
    assert teardown.mutual("p01", "p02")
    assert {(edge.from_, edge.to) for edge in teardown.graph.edges} == {
        ("door", "door"),
        ("door", "hinge"),
        ("hinge", "door"),
    }
    from dataclasses import replace

    graph = replace(draft, graph_=teardown.graph).graph()
    assert cycles(graph) == (("door", "hinge"),)
    assert set(reduce_edges(graph).edges) == set(graph.edges)


def test_the_same_input_gives_the_same_graph():
    assert made(TANK, COVER, PUMP)[1].graph == made(TANK, COVER, PUMP)[1].graph


def test_an_empty_draft():
    _, teardown = made()
    assert teardown.joints == ()
    assert teardown.graph.nodes == ()


def test_branches():
    draft, _ = made(
        {
            "title": "Remove the panel",
            "steps": ["lift panel ? if old", "pull panel ? if new", "turn panel {2/3 screw @ panel}"],
        }
    )
    old, new, both = draft.procedures[0].steps
    assert branch(old, both) == "if old"
    assert branch(both) is None
    assert exclusive(old, new)
    assert not exclusive(old, both)
    assert counts(both.fasteners[0]) == (2, 3)
