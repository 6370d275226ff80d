"""Decisions as JSON."""

import pytest
from desks import busy_draft

from miner.decisions import exchange
from miner.decisions.applying import apply
from miner.decisions.decision import Basis, Decision
from miner.errors import MinerError


def test_there_and_back():
    given = (
        Decision(
            "step:a",
            "corrected",
            {"text": "\u00fcber"},
            "r",
            Basis("w", 1.0, 2.0, "p"),
            "Ada",
            "2026-01-01T00:00:00+00:00",
        ),
    )
    (back,) = exchange.read(exchange.export("talk", given), "talk")
    assert (back.item, back.changes, back.basis, back.who) == (given[0].item, given[0].changes, given[0].basis, "Ada")


FILE = '[{"item": "file:/etc", "state": "accepted", "changes": {}, "reason": "", "basis": {}, "who": "", "at": ""}]'


@pytest.mark.parametrize(
    "text",
    [
        "",
        "[]",
        "{}",
        '{"schema": "decisions/2", "recording": "talk", "decisions": []}',
        '{"schema": "decisions/1", "recording": "other", "decisions": []}',
        '{"schema": "decisions/1", "recording": "talk", "decisions": [{"item": "step:a"}]}',
        f'{{"schema": "decisions/1", "recording": "talk", "decisions": {FILE}}}',
    ],
)
def test_anything_else_is_refused_in_a_sentence(text):
    with pytest.raises(MinerError):
        exchange.read(text, "talk")


def test_accepting_without_a_server_means_the_correction_too():
    draft = busy_draft()
    finding = next(one for one in draft.findings if one.suggestion)
    given = [Decision(f"finding:{finding.id}", "accepted")]
    made = apply(draft, exchange.completed(given, draft))
    assert any(step.text == finding.suggestion.to for p in made.procedures for step in p.steps)


def test_what_is_decided_here_stays():
    here = Decision("finding:a", "dismissed", reason="here", version=3)
    taken_back = Decision("finding:b", "open", version=2)
    come = [Decision("finding:a", "accepted"), Decision("finding:b", "accepted"), Decision("finding:c", "accepted")]
    new, kept = exchange.incoming(come, {"finding:a": here, "finding:b": taken_back})
    assert [(one.item, one.version) for one in new] == [("finding:b", 2), ("finding:c", 0)]
    assert kept == 1
