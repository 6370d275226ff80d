"""`miner lexicon`."""

import json

import pytest
import typer
from typer.testing import CliRunner

from miner.cli.lexicon import lexicon
from miner.errors import LexiconError

APP = typer.Typer()
APP.command()(lexicon)


def _run(*arguments):
    return CliRunner().invoke(APP, list(arguments))


def test_counts_by_table():
    done = _run("--json")
    assert done.exit_code == 0
    told = json.loads(done.stdout)
    assert told["tables"]["head"] >= 600
    assert len(told["version"]) == 64
    assert "action" in _run().stdout


@pytest.mark.parametrize("arguments", [("search", "ribbon cable"), ("ribbon", "cables"), ("--search", "ribbon cable")])
def test_a_term_is_found_in_every_table(arguments):
    lines = _run(*arguments).stdout.splitlines()
    assert lines[0].split()[:3] == ["head", "ribbon", "cable"]
    assert any(line.startswith("synonym") for line in lines)


def test_a_table_is_shown():
    rows = json.loads(_run("--show", "thread_drives", "--json").stdout)
    assert rows[0]["table"] == "thread_drives"
    assert rows[0]["thread"] == "M1.6"


def test_an_unknown_table_is_told_with_the_nearest():
    assert isinstance(_run("--show", "heads").exception, LexiconError)


def test_layers_are_checked(tmp_path):
    good, bad = tmp_path / "good.toml", tmp_path / "bad.toml"
    good.write_text('[[supply]]\nterm = "chalk"\n', encoding="utf-8")
    bad.write_text('[[supply]]\nterms = "chalk"\n', encoding="utf-8")
    assert _run("--check", str(good)).exit_code == 0
    both = _run("--check", str(bad), "--check", str(good))
    assert both.exit_code == 2
    assert "good.toml: valid" in both.stdout
    assert "bad.toml:2" in both.stderr


def test_a_layer_is_searched_too(tmp_path):
    own = tmp_path / "own.toml"
    own.write_text('[[supply]]\nterm = "blue chalk"\n', encoding="utf-8")
    assert "blue chalk" in _run("search", "chalk", "--lexicon", str(own)).stdout
