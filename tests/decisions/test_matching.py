"""Decisions carried over to a re-mined draft."""

from dataclasses import replace

from desks import busy_draft
from samples import small_draft

from miner.decisions.applying import apply
from miner.decisions.decision import Decision
from miner.decisions.items import Items
from miner.decisions.matching import carried, matched
from miner.decisions.opening import Decided
from miner.decisions.store import DecisionStore


def on(draft, sort, name, /, state="corrected", **changes):
    items = Items.of(draft)
    key = items.key(sort, name)
    return Decision(key, state, changes, basis=items.by_key[key].basis, who="Ada", act=1, version=1)


def changed(draft, place, **fields):
    """The draft with fields of one step changed, given by procedure and step number."""
    procedure = draft.procedures[place[0]]
    steps = list(procedure.steps)
    steps[place[1]] = replace(steps[place[1]], **fields)
    procedures = list(draft.procedures)
    procedures[place[0]] = replace(procedure, steps=tuple(steps))
    return replace(draft, procedures=tuple(procedures))


def later(draft, by=30.0, skip=1):
    """The draft as mined from a transcript with something new in front: other ids, other times, the same words."""

    def moved(step, number):
        return replace(step, id=f"x{number}.{step.id}", start=step.start + by, end=step.end + by)

    procedures = tuple(
        replace(p, id=f"q{n}", start=p.start + by, steps=tuple(moved(s, n) for s in p.steps), notices=())
        for n, p in enumerate(draft.procedures[skip:])
    )
    return replace(draft, procedures=procedures)


def test_ids_and_times_may_change():
    draft = busy_draft()
    step = draft.procedures[2].steps[0]
    decisions = [on(draft, "step", step.id, text="New.")]
    new = later(draft)
    found = matched(new, decisions)
    assert (found.holding, found.again) == (tuple(decisions), ())
    assert apply(new, found.holding).procedures[1].steps[0].text == "New."


def test_changed_words_are_to_be_looked_at_again_and_not_applied():
    draft = busy_draft()
    step = draft.procedures[2].steps[0]
    decisions = (on(draft, "step", step.id, text="New."),)
    new = changed(draft, (2, 0), spoken=f"{step.spoken} eight", text=f"{step.text} eight")
    decided = Decided.of(new, decisions)
    assert decided.draft.procedures[2].steps[0].text == f"{step.text} eight"
    (again,) = decided.matched.again
    assert again.item is not None
    assert again.item.id == step.id


def test_a_kept_decision_holds_for_the_new_words(tmp_path):
    draft = busy_draft()
    step = draft.procedures[2].steps[0]
    store = DecisionStore(tmp_path / "d.sqlite")
    store.save([replace(on(draft, "step", step.id, text="New."), version=0)], who="Ada")
    new = changed(draft, (2, 0), spoken=f"{step.spoken} eight")
    (again,) = matched(new, store.current()).again
    store.save(carried(again), who="Bo")
    found = matched(new, store.current())
    assert found.again == ()
    assert apply(new, found.holding).procedures[2].steps[0].text == "New."


def test_what_has_nothing_like_it_is_still_told():
    draft = busy_draft()
    step = draft.procedures[2].steps[0]
    decisions = [on(draft, "step", step.id, text="New.")]
    new = replace(draft, procedures=(), findings=())
    (again,) = matched(new, decisions).again
    assert again.item is None
    assert carried(again) == ()


def test_a_finding_that_is_raised_no_more_is_past():
    draft = busy_draft()
    one = draft.findings[0]
    decisions = [on(draft, "finding", one.id, "dismissed")]
    found = matched(replace(draft, findings=()), decisions)
    assert (found.holding, found.again, len(found.past)) == ((), (), 1)


def test_a_finding_with_new_evidence_is_to_be_looked_at_again():
    draft = busy_draft()
    one = draft.findings[-1]
    decisions = [on(draft, "finding", one.id, "dismissed")]
    evidence = (replace(one.evidence[0], quote=f"{one.evidence[0].quote} really"), *one.evidence[1:])
    new = replace(draft, findings=(replace(one, id="count-mismatch-0123456789", evidence=evidence),))
    (again,) = matched(new, decisions).again
    assert again.item is not None
    assert again.item.id == "count-mismatch-0123456789"


def test_equal_words_are_told_apart():
    draft = small_draft("lift it off")
    procedure = draft.procedures[0]
    steps = tuple(replace(procedure.steps[0], id=f"p01.s0{n}", number=n, start=n * 5.0) for n in range(1, 5))
    draft = replace(draft, procedures=(replace(procedure, steps=steps),))
    items = Items.of(draft)
    assert len({items.key("step", step.id) for step in steps}) == 4


def test_a_move_behind_a_step_that_is_gone_is_told():
    draft = busy_draft()
    procedure = next(p for p in draft.procedures if len(p.steps) >= 3)
    place = draft.procedures.index(procedure)
    key = Items.of(draft).key("step", procedure.steps[1].id)
    decisions = [on(draft, "step", procedure.steps[0].id, after=key)]
    new = changed(draft, (place, 1), spoken="something else entirely")
    found = matched(new, decisions)
    assert found.holding == ()
    assert len(found.again) == 1


def test_an_added_notice_finds_its_step_again():
    draft = busy_draft()
    items = Items.of(draft)
    procedure = draft.procedures[2]
    step = procedure.steps[0]
    changes = {"kind": "warning", "text": "Hot.", "procedure": items.key("procedure", procedure.id)}
    changes["step"] = items.key("step", step.id)
    added = Decision("notice:new-1", "corrected", changes, basis=items.by_key[changes["step"]].basis)
    assert matched(draft, [added]).holding == (added,)
    new = changed(draft, (2, 0), spoken=f"{step.spoken} now")
    (again,) = matched(new, [added]).again
    (kept,) = carried(again)
    made = apply(new, [kept])
    assert made.procedures[2].notices[-1].step == step.id
