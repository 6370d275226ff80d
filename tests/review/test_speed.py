"""How long an editor waits: printed as measured, with a bound that only a real fault exceeds."""

import time
from dataclasses import replace

from clients import make_client
from desks import busy_draft, long_draft, put

from miner.decisions.decision import Decision
from miner.decisions.store import DecisionStore
from miner.review.library import Library

BOUND = 4.0  # seconds; the aim is one, on a machine with nothing else to do


def timed(client, path):
    began = time.perf_counter()
    answer = client.get(path)
    spent = time.perf_counter() - began
    assert answer.status_code == 200
    print(f"\n{path}: {spent:.3f} s, {len(answer.content) / 1000:.0f} kB")
    return spent


def test_a_recording_of_500_steps(tmp_path):
    draft = long_draft(500)
    folder = put(tmp_path / "out", draft)
    store = DecisionStore(folder / "decisions.sqlite")
    store.save([Decision(f"finding:{one.id}", "dismissed", reason="x") for one in draft.findings[::3]], who="Ada")
    client = make_client(folder)
    client.get("/start?token=once")
    path = f"/r/{next(iter(Library.at(folder).entries()))}"
    assert sum(len(one.steps) for one in draft.procedures) == 500
    assert min(timed(client, path) for _ in range(3)) < BOUND


def test_200_drafts(tmp_path):
    draft = busy_draft()
    for number in range(200):
        title = f"Recording {number}"
        folder = put(tmp_path / "out" / f"{number:03}", replace(draft, recording=replace(draft.recording, title=title)))
        if number % 2:
            store = DecisionStore(folder / "decisions.sqlite")
            store.save([Decision(f"finding:{draft.findings[0].id}", "dismissed", reason="x")], who="Ada")
    client = make_client(tmp_path / "out", follow=False)
    client.get("/start?token=once")
    assert timed(client, "/") < BOUND  # nothing read yet
    assert timed(client, "/") < BOUND
    assert "200 drafts" in client.get("/").text
