"""The commands as a user runs them."""

import json
import os
import subprocess
import sys

import pytest
from samples import SCRIPT, gold_draft, small_draft

from miner.cli import COMMANDS
from miner.decisions import exchange
from miner.decisions.decision import Decision
from miner.decisions.items import Items
from miner.decisions.store import DecisionStore
from miner.publish.publications import PUBLICATIONS
from miner.publish.registry import FORMATS

PUBLISHED = (*PUBLICATIONS, *(one for one in FORMATS if one.name not in ("markdown", "html")))
HEAVY = ("spacy", "pandas", "networkx", "numpy", "pydantic", "jinja2")


def run(*arguments, cwd=None, env=None):
    """A fresh process: code, stdout, stderr."""
    done = subprocess.run(
        [sys.executable, "-m", "miner", *map(str, arguments)],
        capture_output=True, text=True, encoding="utf-8", cwd=cwd, env={**os.environ, **(env or {})}, check=False,
    )  # fmt: skip
    return done.returncode, done.stdout, done.stderr


@pytest.fixture
def folder(tmp_path):
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "draft.json").write_text(small_draft().to_json(), encoding="utf-8")
    return tmp_path


def assert_one_line(code, errors):
    assert code == 2
    assert errors.startswith("miner: ")
    assert errors.count("\n") == 1


def test_help_loads_nothing_heavy():
    code = (
        "import sys\nfrom miner.cli import app\n"
        "try:\n    app(['--help'], prog_name='miner')\nexcept SystemExit:\n    pass\n"
        f"print([name for name in {HEAVY} if name in sys.modules], len(sys.modules))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.splitlines()[-1].startswith("[] ")


@pytest.mark.parametrize("command", [one.__name__ for one in COMMANDS])
def test_every_command_has_help_with_an_example(command):
    code, text, _ = run(command, "--help")
    assert code == 0
    assert f"Example: miner {command}" in " ".join(text.split()) or f"miner {command} " in text


def test_version():
    code, text, _ = run("--version")
    assert code == 0
    assert text.strip()[0].isdigit()


def test_wrong_usage():
    assert run("draft")[0] == 2
    assert run("nonsense")[0] == 2
    assert run("check", "--fail-on", "sometimes", "x")[0] == 2
    assert_one_line(*(run("check")[n] for n in (0, 2)))


def test_draft_writes_all_formats(tmp_path):
    code, out, said = run("draft", SCRIPT, "-o", tmp_path / "out")
    assert (code, out) == (0, "")
    assert sorted(p.name for p in (tmp_path / "out").iterdir()) == sorted(
        one.file for one in FORMATS if one.extra is None
    )
    assert "procedures" in said
    assert len(json.loads((tmp_path / "out" / "draft.json").read_text(encoding="utf-8"))["procedures"]) > 1


def test_draft_prints_without_a_place():
    assert run("draft", SCRIPT)[1].startswith("# ")
    assert json.loads(run("draft", SCRIPT, "--json")[1])["schema"] == "draft/1"


def test_several_recordings_get_a_folder_each_and_a_bad_one_does_not_stop_the_rest(tmp_path):
    (tmp_path / "broken.srt").write_text("nothing timed here", encoding="utf-8")
    twin = tmp_path / SCRIPT.name
    twin.write_bytes(SCRIPT.read_bytes())
    code, _, said = run("draft", SCRIPT, tmp_path / "broken.srt", twin, "-o", tmp_path / "out")
    assert code == 2
    assert "broken.srt" in said
    assert sorted(p.name for p in (tmp_path / "out").iterdir()) == [SCRIPT.stem, f"{SCRIPT.stem}-2"]
    assert_one_line(*(run("draft", SCRIPT, twin)[n] for n in (0, 2)))


@pytest.mark.parametrize("content", [b"", b"\x00\x01\x02\xff", b"no times at all", b"1\n00:00:0x --> what\nhello\n"])
def test_bad_recordings_leave_nothing_behind(tmp_path, content):
    path = tmp_path / "talk.srt"
    path.write_bytes(content)
    code, out, errors = run("draft", path, "-o", tmp_path / "out")
    assert_one_line(code, errors)
    assert out == ""
    assert [p.name for p in tmp_path.iterdir()] == ["talk.srt"]


def test_check_shows_the_sides_beside_one_another(folder):
    code, text, _ = run("check", folder / "out")
    assert code == 1
    assert "ERROR count-mismatch" in text
    line = next(one for one in text.splitlines() if "0:05 to 0:09" in one)
    assert "| 0:10 to 0:12" in line
    assert 'Suggested: In p01.s01, count: write "3" instead of "2".' in text
    assert "1 error, 1 remark" in text
    assert "\x1b" not in text


@pytest.mark.parametrize(("fail_on", "code"), [("error", 1), ("warning", 1), ("remark", 1), ("never", 0)])
def test_fail_on(folder, fail_on, code):
    assert run("check", folder / "out" / "draft.json", "--fail-on", fail_on)[0] == code


def test_ignored_checks_are_left_out(folder):
    code, text, _ = run("check", folder / "out", "--ignore", "count-mismatch")
    assert code == 0
    assert "count-mismatch" not in text
    code, _, errors = run("check", folder / "out", "--ignore", "count-mismatsh")
    assert_one_line(code, errors)
    assert "count-mismatch" in errors


def test_settings_of_the_project_hold(folder):
    (folder / "miner.toml").write_text('ignore = ["count-mismatch"]\nfail_on = "remark"\n', encoding="utf-8")
    code, text, _ = run("check", "out", cwd=folder)
    assert code == 1
    assert "count-mismatch" not in text
    assert run("check", "out", "--fail-on", "error", cwd=folder)[0] == 0


def test_check_for_programs(folder):
    document = json.loads(run("check", folder / "out", "--format", "json")[1])
    assert document["recordings"][0]["findings"][0]["check"] == "count-mismatch"
    assert json.loads(run("check", folder / "out", "--format", "sarif")[1])["version"] == "2.1.0"
    run("check", folder / "out", "-o", folder / "report.txt")
    assert "count-mismatch" in (folder / "report.txt").read_text(encoding="utf-8")


def test_check_lists_all_checks():
    from miner.findings.registry import CHECKS

    code, text, _ = run("check", "--list")
    assert code == 0
    assert [line.split()[0] for line in text.splitlines()] == sorted(one.id for one in CHECKS)


def test_control_characters_do_not_reach_the_terminal(tmp_path):
    (tmp_path / "draft.json").write_text(small_draft("a \x1b[2J b \u202e c").to_json(), encoding="utf-8")
    text = run("check", tmp_path)[1]
    assert "\x1b" not in text
    assert "\u202e" not in text


@pytest.mark.parametrize(("name", "start"), [("svg", "<?xml"), ("graphml", "<?xml"), ("dot", "digraph"), ("json", "{")])
def test_graph(folder, name, start):
    code, text, _ = run("graph", folder / "out", "--format", name)
    assert code == 0
    assert text.startswith(start)


@pytest.mark.parametrize("one", PUBLISHED, ids=lambda one: one.name)
def test_publish_without_decisions(folder, one):
    code, _, said = run("publish", folder / "out", "--to", one.name, "-o", folder / "published")
    assert code == 0
    assert (folder / "published").read_bytes() == one.write(small_draft())
    assert "1 open error" in said


def test_publish_strict_refuses_an_open_error(folder):
    code, text, said = run("publish", folder / "out", "--strict")
    assert (code, text) == (1, "")
    assert "count-mismatch" in said
    assert "not published" in said


def test_publish_applies_decisions(folder):
    store = DecisionStore(folder / "out" / "decisions.sqlite")
    store.save([Decision("finding:count-mismatch-1", "dismissed", reason="two builds")], who="Ada")
    step = Items.of(small_draft()).key("step", "p01.s01")
    store.save([Decision(step, "corrected", {"text": "Take out both screws."})], who="Ada")
    code, text, said = run("publish", folder / "out", "--strict")
    assert (code, said) == (0, "")
    assert "Take out both screws." in text
    assert "Take out the two screws." not in text


def test_publish_takes_exported_decisions(folder):
    decisions = folder / "decisions.json"
    rows = [Decision("finding:count-mismatch-1", "dismissed", reason="two builds")]
    decisions.write_text(exchange.export("talk", rows), encoding="utf-8")
    assert run("publish", folder / "out", "--strict", "--decisions", decisions)[0] == 0
    decisions.write_text(exchange.export("other", rows), encoding="utf-8")
    code, _, said = run("publish", folder / "out", "--decisions", decisions)
    assert_one_line(code, said)


def test_publish_refuses_what_is_no_draft(tmp_path):
    (tmp_path / "draft.json").write_text("{}", encoding="utf-8")
    for arguments in (("publish", tmp_path), ("publish", tmp_path / "nothing"), ("publish", tmp_path, "--to", "pdf")):
        code, _, errors = run(*arguments)
        assert_one_line(code, errors)


def test_score(tmp_path):
    name = "e2-service-script"
    (tmp_path / name).mkdir()
    (tmp_path / name / "draft.json").write_text(gold_draft().to_json(), encoding="utf-8")
    code, text, said = run("score", SCRIPT.parent, tmp_path)
    assert code == 0
    assert f"{name}      1.00" in text.replace("       ", "      ")
    assert "scored as an empty one" in said
    assert json.loads(run("score", SCRIPT.parent, tmp_path, "--json")[1])["recordings"][name]["headline"] == 1.0
    assert_one_line(*(run("score", tmp_path, tmp_path)[n] for n in (0, 2)))


@pytest.mark.skipif(sys.platform == "win32", reason="no such pipes")
def test_a_closed_pipe_is_quiet(folder):
    read, write = os.pipe()
    os.close(read)
    try:
        done = subprocess.run(
            [sys.executable, "-m", "miner", "publish", str(folder / "out"), "--to", "html"],
            stdout=write, stderr=subprocess.PIPE, text=True, check=False,
        )  # fmt: skip
    finally:
        os.close(write)
    assert "Traceback" not in done.stderr
    assert done.stderr == ""
