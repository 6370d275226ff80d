"""`miner check`: as an editor reads it, silenced by options, settings and decisions."""

import pytest
from cli.test_commands import assert_one_line, run
from samples import small_draft

from miner.cli.findings_text import report
from miner.decisions.decision import Decision
from miner.decisions.store import DecisionStore

TALK = """\
[00:00] Remove the top cover.
[00:03] Remove the three M4 T20 screws that secure the top cover to the frame.
[00:08] Lift the top cover off the frame.
[00:12] To install, place the top cover on the frame.
[00:16] Tighten the four M4 T20 screws that secure the top cover to the frame.
"""


@pytest.fixture
def talk(tmp_path):
    (tmp_path / "talk.txt").write_text(TALK, encoding="utf-8")
    return tmp_path / "talk.txt"


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "draft.json").write_text(small_draft().to_json(), encoding="utf-8")
    return tmp_path / "out"


def test_a_contradiction_is_shown_with_both_sides_abreast(talk):
    code, text, _ = run("check", talk)
    assert code == 1
    assert "p01 Remove the top cover" in text
    assert "ERROR count-mismatch" in text
    row = next(line for line in text.splitlines() if "|" in line)
    assert "0:03" in row
    assert "0:16" in row
    assert "\x1b" not in text


@pytest.mark.parametrize("columns", [40, 60, 80, 120])
@pytest.mark.parametrize("colour", [False, True])
def test_no_line_is_wider_than_the_terminal(columns, colour):
    text = report(small_draft(), columns=columns, colour=colour)
    assert ("\x1b" in text) is colour
    assert all(len(line) <= columns for line in report(small_draft(), columns=columns, colour=False).splitlines())


def test_a_check_is_silenced_by_option_and_settings(talk):
    assert run("check", talk, "--ignore", "count-mismatch")[0] == 0
    for name, text in (
        ("miner.toml", 'ignore = ["count-mismatch"]\n'),
        ("pyproject.toml", '[tool.miner]\nignore = ["count-mismatch"]\n'),
    ):
        (talk.parent / name).write_text(text, encoding="utf-8")
        assert run("check", talk, cwd=talk.parent)[0] == 0
        (talk.parent / name).unlink()
    assert run("check", talk, cwd=talk.parent)[0] == 1


def test_a_dismissed_finding_is_left_out_unless_all_are_asked_for(folder):
    store = DecisionStore(folder / "decisions.sqlite")
    store.save([Decision("finding:count-mismatch-1", "dismissed", reason="two builds")], who="Ada")
    code, text, said = run("check", folder)
    assert code == 0
    assert "count-mismatch" not in text
    assert "1 finding decided on" in said
    code, text, said = run("check", folder, "--all")
    assert (code, said) == (1, "")
    assert "count-mismatch" in text


def test_a_decision_taken_back_lets_the_finding_return(folder):
    store = DecisionStore(folder / "decisions.sqlite")
    saved = store.save([Decision("finding:count-mismatch-1", "dismissed", reason="two builds")], who="Ada")
    store.undo(saved.act, who="Ada")
    assert run("check", folder)[0] == 1


def test_a_finished_draft_is_not_compared_with_a_parts_list(folder):
    (folder / "parts.csv").write_text("name\npump\n", encoding="utf-8")
    code, _, said = run("check", folder, "--parts-list", folder / "parts.csv")
    assert_one_line(code, said)
