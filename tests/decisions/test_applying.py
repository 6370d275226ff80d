"""A draft with decisions applied."""

from dataclasses import replace

import pytest
from desks import all_golds, busy_draft
from samples import gold_draft, small_draft

from miner.decisions.applying import apply, notice_keys
from miner.decisions.changes import checked, fastener_values
from miner.decisions.decision import Basis, Decision
from miner.decisions.items import Items, edge_id, notice_id, step_id_of, step_key
from miner.decisions.suggesting import suggested
from miner.errors import DecisionError
from miner.model.draft import Draft
from miner.model.finding import Suggestion


def correct(draft, sort, name, /, act=1, **changes):
    key = Items.of(draft).key(sort, name)
    renamed = {field.rstrip("_"): value for field, value in changes.items()}
    return Decision(key, "corrected", checked(key, renamed), who="Ada", at="2026-01-02T03:04:05+00:00", act=act)


@pytest.fixture
def draft():
    return busy_draft()


def texts(draft, procedure=0):
    return [step.text for step in draft.procedures[procedure].steps]


def test_without_decisions_nothing_changes(draft):
    assert apply(draft, ()) is draft
    assert apply(draft, [Decision("finding:x", "open")]) is draft


def test_every_item_has_a_key_of_its_own():
    for one in all_golds():
        items = Items.of(one)
        steps = [step for procedure in one.procedures for step in procedure.steps]
        assert len({items.key("step", step.id) for step in steps}) == len(steps)
        assert len({items.key("procedure", p.id) for p in one.procedures}) == len(one.procedures)


def test_text_counts_and_parts(draft):
    first = draft.procedures[1].steps[0]
    groups = fastener_values((replace(small_draft().procedures[0].steps[0].fasteners[0], count=5),))
    made = apply(
        draft, [correct(draft, "step", first.id, text="New words.", part="lid", from_="base", fasteners=groups)]
    )
    step = made.procedures[1].steps[0]
    assert (step.text, step.part, step.from_, step.fasteners[0].count) == ("New words.", "lid", "base", 5)
    assert step.spoken == first.spoken
    assert step.inferred["text"] == "set by the editor Ada, 2026-01-02"
    assert Draft.from_json(made.to_json()) == made


def test_findings_that_were_decided_on_are_gone(draft):
    one = draft.findings[0]
    made = apply(draft, [Decision(f"finding:{one.id}", "dismissed", reason="no")])
    assert len(made.findings) == len(draft.findings) - 1
    assert one not in made.findings


def test_order_split_join_and_taking_out(draft):
    procedure = next(p for p in draft.procedures if len(p.steps) >= 3)
    place = draft.procedures.index(procedure)
    items = Items.of(draft)
    a, b, c = (step.id for step in procedure.steps[:3])
    before = texts(draft, place)
    moved = apply(draft, [correct(draft, "step", a, after=items.key("step", b))])
    assert texts(moved, place)[:3] == [before[1], before[0], before[2]]
    assert [step.number for step in moved.procedures[place].steps] == list(range(1, len(before) + 1))
    first = apply(draft, [correct(draft, "step", c, after="")])
    assert texts(first, place)[0] == before[2]
    gone = apply(draft, [correct(draft, "step", b, removed=True)])
    assert texts(gone, place) == [before[0], *before[2:]]
    parts = [{"text": "One.", "fasteners": []}, {"text": "Two.", "fasteners": []}]
    halved = apply(draft, [correct(draft, "step", a, split=parts)])
    assert texts(halved, place)[:2] == ["One.", "Two."]
    assert [step.id for step in halved.procedures[place].steps][:2] == [a, f"{a}b"]
    joined = apply(draft, [correct(draft, "step", a, join=items.key("step", b), text="Both.")])
    assert texts(joined, place) == ["Both.", *before[2:]]
    assert joined.procedures[place].steps[0].end >= procedure.steps[1].start
    cited = [side.step for one in joined.findings for side in one.evidence]
    assert b not in cited


def test_a_part_of_a_split_step_can_be_corrected(draft):
    items = Items.of(draft)
    step = draft.procedures[0].steps[0].id
    parts = [{"text": "One.", "fasteners": []}, {"text": "Two.", "fasteners": []}]
    key = f"{items.key('step', step)}/2"
    assert step_id_of(items, key) == f"{step}b"
    assert step_key(items, f"{step}b") == key
    made = apply(draft, [correct(draft, "step", step, split=parts), Decision(key, "corrected", {"action": "lift"})])
    assert made.procedures[0].steps[1].action == "lift"


def test_every_pair_of_joins_ends_without_losing_a_word(draft):
    procedure = next(p for p in draft.procedures if len(p.steps) >= 3)
    items = Items.of(draft)
    keys = [items.key("step", step.id) for step in procedure.steps[:3]]
    circle = [Decision(a, "corrected", {"join": b}) for a, b in zip(keys, [*keys[1:], keys[0]], strict=True)]
    made = apply(draft, circle)
    said = " ".join(step.text for step in made.procedures[draft.procedures.index(procedure)].steps)
    assert all(step.text in said for step in procedure.steps)


def test_titles_kinds_and_prerequisites(draft):
    known = draft.procedures[0].subject
    made = apply(draft, [correct(draft, "procedure", "p02", title="Another", kind="inspect", prerequisites=[known])])
    procedure = made.procedures[1]
    assert (procedure.title, procedure.kind) == ("Another", "inspect")
    assert [(one.part, one.procedure) for one in procedure.prerequisites] == [(known, "p01")]


def test_the_mode_of_reassembly(draft):
    place = next(n for n, p in enumerate(draft.procedures) if p.install.mode == "reverse")
    made = apply(draft, [correct(draft, "procedure", draft.procedures[place].id, install="none")])
    assert made.procedures[place].install.steps == ()


def test_derived_reassembly_follows_the_removal():
    small = small_draft()
    groups = fastener_values((replace(small.procedures[0].steps[0].fasteners[0], count=3),))
    made = apply(small, [correct(small, "step", "p01.s01", fasteners=groups)])
    assert [one.fasteners[0].count for one in made.procedures[0].install.steps] == [3]
    assert "three screws" in made.procedures[0].install.steps[0].text
    assert apply(small, [correct(small, "step", "p01.s01", removed=True)]).procedures[0].install.steps == ()


def test_notices_moved_taken_out_and_added():
    small = small_draft()
    items = Items.of(small)
    second = items.key("step", "p01.s02")
    moved = apply(small, [correct(small, "notice", notice_id("p01", 1), step=second)])
    assert moved.procedures[0].notices[0].step == "p01.s02"
    whole = apply(small, [correct(small, "notice", notice_id("p01", 1), step=None)])
    assert whole.procedures[0].notices[0].step is None
    gone = [correct(small, "notice", notice_id("p01", 2), removed=True)]
    assert len(apply(small, gone).procedures[0].notices) == 2
    home = items.key("procedure", "p01")
    changes = {"kind": "warning", "text": "Hot.", "procedure": home, "step": second}
    added = [*gone, Decision("notice:new-1", "corrected", changes, basis=Basis("w", 5.0, 6.0))]
    made = apply(small, added)
    assert (made.procedures[0].notices[-1].text, made.procedures[0].notices[-1].step) == ("Hot.", "p01.s02")
    assert len(notice_keys(small.procedures[0], items, added)) == len(made.procedures[0].notices)


def test_edges_confirmed_and_rejected(draft):
    (edge,) = draft.graph_.edges
    confirmed = apply(draft, [correct(draft, "edge", edge_id(edge), verdict="confirmed")])
    assert (confirmed.graph_.edges[0].kind, confirmed.graph_.edges[0].confidence) == ("stated", 1.0)
    assert apply(draft, [correct(draft, "edge", edge_id(edge), verdict="rejected")]).graph_.edges == ()


@pytest.mark.parametrize(
    ("item", "changes"),
    [
        ("step:a", {"colour": "red"}),
        ("step:a", {"text": ""}),
        ("step:a", {"phase": "later"}),
        ("step:a", {"fasteners": [{"count": 2}]}),
        ("step:a", {"split": [{"text": "only one", "fasteners": []}]}),
        ("edge:a", {"verdict": "maybe"}),
        ("draft:a", {}),
    ],
)
def test_what_cannot_be_changed_is_refused(item, changes):
    with pytest.raises(DecisionError):
        checked(item, changes)


@pytest.mark.parametrize(
    ("field", "old", "new", "wanted"),
    [
        ("text", "screws", "bolts", {"text": "Take out the two bolts."}),
        ("text", "crew", "x", None),
        ("part", "cover", "lid", {"part": "lid"}),
        ("colour", "a", "b", None),
    ],
)
def test_suggestions_on_steps(field, old, new, wanted):
    made = suggested(Suggestion("p01.s01", field, old, new), small_draft())
    assert made == (None if wanted is None else ("step", "p01.s01", wanted))


@pytest.mark.parametrize("field", ["count", "fasteners.count"])
def test_a_suggested_count(field):
    made = suggested(Suggestion("p01.s01", field, "2", "3"), small_draft())
    assert made is not None
    assert made[2]["fasteners"][0]["count"] == 3
    assert suggested(Suggestion("p01.s01", field, "7", "3"), small_draft()) is None


def test_suggestions_on_procedures():
    small = small_draft()
    assert suggested(Suggestion("p01", "prerequisites", "tray", None), small) == (
        "procedure",
        "p01",
        {"prerequisites": []},
    )
    added = suggested(Suggestion("p01", "prerequisites", None, "lid"), small)
    assert added == ("procedure", "p01", {"prerequisites": ["tray", "lid"]})
    assert suggested(Suggestion("p01", "title", "x", None), small) is None
    assert suggested(Suggestion("p77", "title", "x", "y"), small) is None


def test_golds_stay_whole_under_decisions():
    one = gold_draft()
    made = apply(one, [correct(one, "step", one.procedures[0].steps[0].id, text="x")])
    assert len(made.procedures) == len(one.procedures)
