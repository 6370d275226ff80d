"""Decisions kept in a real SQLite file."""

import sqlite3
import subprocess
import sys
import threading

import pytest

from miner.decisions.decision import Basis, Decision
from miner.decisions.store import Collision, DecisionStore, Saved, standing, store_path
from miner.errors import DecisionError


@pytest.fixture
def store(tmp_path):
    return DecisionStore(tmp_path / "decisions.sqlite")


def dismissed(item="finding:a", version=0, reason="seen"):
    return Decision(item, "dismissed", reason=reason, basis=Basis("words", 1.0, 2.0, "a"), version=version)


def test_nothing_is_stored_before_the_first_decision(store):
    assert store.current() == ()
    assert store.history() == ()
    assert not store.path.exists()


def test_a_decision_comes_back_whole(store):
    given = Decision(
        "step:b", "corrected", {"text": "Größer \u2014 \u20ac", "tools": ["T10"]}, "why", Basis("w", 1, 2, "p01.s01")
    )
    saved = store.save([given], who="Ada")
    assert isinstance(saved, Saved)
    (one,) = DecisionStore(store.path).current()
    assert (one.item, one.state, one.changes, one.reason, one.basis) == (
        given.item, given.state, given.changes, given.reason, given.basis,
    )  # fmt: skip
    assert (one.who, one.version, one.act) == ("Ada", 1, 1)
    assert one.at.endswith("+00:00")


def test_the_second_to_save_is_told_and_nothing_is_stored(store):
    store.save([dismissed()], who="Ada")
    outcome = store.save([dismissed("finding:b"), dismissed(reason="mine")], who="Bo")
    assert isinstance(outcome, Collision)
    assert [one.who for one in outcome.theirs] == ["Ada"]
    assert [one.reason for one in outcome.mine][-1] == "mine"
    assert {one.item for one in store.current()} == {"finding:a"}


def test_one_that_saw_the_latest_version_may_save(store):
    store.save([dismissed()], who="Ada")
    assert isinstance(store.save([dismissed(version=1, reason="anew")], who="Bo"), Saved)
    assert [one.reason for one in store.history("finding:a")] == ["seen", "anew"]


def test_undo_restores_what_was_before(store):
    store.save([dismissed()], who="Ada")
    store.save([Decision("finding:a", "accepted", version=1), Decision("step:b", "corrected", {"text": "x"})], who="Bo")
    undone = store.undo(2, who="Ada")
    assert isinstance(undone, Saved)
    assert set(standing(store.current())) == {"finding:a"}
    assert standing(store.current())["finding:a"].state == "dismissed"
    assert store.history()[-1].undoes == 2
    assert isinstance(store.undo(3, who="Ada"), Saved)  # an undoing can be undone
    assert standing(store.current())["finding:a"].state == "accepted"


def test_undo_collides_with_a_later_decision(store):
    store.save([dismissed()], who="Ada")
    store.save([dismissed(version=1, reason="later")], who="Bo")
    assert isinstance(store.undo(1, who="Ada"), Collision)
    with pytest.raises(DecisionError):
        store.undo(99, who="Ada")


def test_of_many_at_once_exactly_one_wins(store):
    store.save([dismissed("finding:other")], who="Ada")
    outcomes = []

    def work(n):
        outcomes.append(store.save([dismissed(reason=str(n))], who=str(n)))

    threads = [threading.Thread(target=work, args=(n,)) for n in range(8)]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert sum(isinstance(one, Saved) for one in outcomes) == 1
    assert len(outcomes) == 8


def test_two_processes_that_make_the_file_at_once(store):
    code = (
        "import sys; from pathlib import Path\n"
        "from miner.decisions.store import *; from miner.decisions.decision import Decision\n"
        "s = DecisionStore(Path(sys.argv[1]))\n"
        "for n in range(20): s.save([Decision(f'finding:{sys.argv[2]}{n}', 'accepted')], who=sys.argv[2])\n"
    )
    running = [subprocess.Popen([sys.executable, "-c", code, str(store.path), name]) for name in "abc"]
    assert [one.wait(60) for one in running] == [0, 0, 0]
    assert len(store.current()) == 60


def test_the_file_is_in_write_ahead_mode_and_synchronous(store):
    store.save([dismissed()], who="Ada")
    connection = sqlite3.connect(store.path)
    assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    connection.close()


def test_a_foreign_file_is_refused_in_one_sentence(store):
    store.path.write_bytes(b"no database at all, not even nearly" * 40)
    with pytest.raises(DecisionError, match="cannot be read or stored"):
        store.current()
    store.path.unlink()
    connection = sqlite3.connect(store.path)
    connection.execute("PRAGMA user_version = 9")
    connection.close()
    with pytest.raises(DecisionError, match="another version"):
        store.current()


def test_where_decisions_lie(tmp_path):
    assert store_path(tmp_path) == tmp_path / "decisions.sqlite"
    assert store_path(tmp_path / "draft.json") == tmp_path / "decisions.sqlite"
    assert store_path(tmp_path / "a.json") == tmp_path / "a.decisions.sqlite"
