"""Whatever can be used is documented, and what is documented works."""

import re

import pytest
from samples import ROOT

import miner
from miner.cli import COMMANDS
from miner.findings.registry import CHECKS
from miner.publish.graph_files import GRAPH_FORMATS
from miner.publish.registry import FORMATS
from miner.readers.registry import reader_names
from miner.settings import Settings

README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def rows(first_column):
    """The first cells of the README's table whose first heading is this."""
    table = README.split(f"| {first_column} |", 1)[1].split("\n\n", 1)[0]
    return [line.split("|")[1].strip() for line in table.splitlines()[2:]]


def test_commands():
    named = [re.match(r"`miner (\w+)", row)[1] for row in rows("command")]
    assert sorted(named) == sorted(one.__name__ for one in COMMANDS)


def test_checks():
    assert rows("check") == sorted(one.id for one in CHECKS)
    for one in CHECKS:
        assert f"| {one.id} | {one.meaning} |" in README, "the README says something else than the check"


def test_readers():
    assert sorted(rows("name")) == sorted(reader_names())


def test_formats():
    assert rows("format") == [one.name for one in FORMATS]
    for one in FORMATS:
        assert f"| {one.name} | `{one.file}` |" in README
    for name in GRAPH_FORMATS:
        assert f"`{name}`" in README


def test_settings():
    import dataclasses

    block = re.search(r"```toml\n(.+?)```", README, re.DOTALL)[1]
    assert [line.split(" =")[0] for line in block.splitlines()] == [one.name for one in dataclasses.fields(Settings)]


def test_dependencies_have_a_reason():
    project = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    block = re.search(r"\ndependencies = \[\n(.+?)\n\]", project, re.DOTALL)[1]
    for line in block.splitlines():
        assert "#" in line
        name = re.match(r'\s*"([\w-]+)', line)[1]
        assert f"| {name} |" in DEVELOPERS


def test_linked_and_named_files_exist():
    for text in (README, DEVELOPERS):
        for target in re.findall(r"\]\(([^)#]+)\)", text):
            assert (ROOT / target).exists(), target
        for path in re.findall(r"`((?:miner|tests|shared|lexicon|fixtures)/[\w./-]+)`", text):
            assert (ROOT / path).exists(), path


@pytest.mark.parametrize("text", [README])
def test_python_examples_run(text, monkeypatch):
    monkeypatch.chdir(ROOT)
    for block in re.findall(r"```python\n(.+?)```", text, re.DOTALL):
        exec(compile(block, "README.md", "exec"), {})


def test_public_names_are_told():
    for name in miner.__all__:
        if name not in ("__version__", "Lexicon", "Recording"):
            assert f"miner.{name}" in README or f"`{name}`" in README, name


def test_safety_defers_to_local_codes_and_licensed_practice():
    safety = README.split("## Safety")[1].split("\n## ")[0]
    assert "Local codes" in safety
    assert "licensed practice" in safety
