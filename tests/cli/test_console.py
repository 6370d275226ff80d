"""Colour and progress go where a person sees them."""

import io

import pytest
from samples import small_draft

from miner.cli.console import is_colourful, painted, printable, progress
from miner.cli.findings_text import report, totals
from miner.model.draft import Draft


class Terminal(io.StringIO):
    def isatty(self):
        return True


@pytest.mark.parametrize(
    ("stream", "environment", "colour"),
    [
        (Terminal(), {}, True),
        (Terminal(), {"NO_COLOR": "1"}, False),
        (Terminal(), {"TERM": "dumb"}, False),
        (io.StringIO(), {}, False),
    ],
)
def test_colour_only_where_it_is_wanted(monkeypatch, stream, environment, colour):
    monkeypatch.delenv("NO_COLOR", raising=False)
    monkeypatch.setenv("TERM", "xterm")
    for name, value in environment.items():
        monkeypatch.setenv(name, value)
    assert is_colourful(stream) is colour


def test_painting():
    assert painted("a", "error", colour=False) == "a"
    assert painted("a", "error", colour=True).endswith("a\x1b[0m")
    assert printable("a\tb\x07") == "a b "


def test_progress_is_silent_off_a_terminal(capsys):
    with progress(3) as shown:
        shown.begin("a")
        shown("reading")
    assert capsys.readouterr() == ("", "")


def test_progress_shows_after_a_second_and_goes_away(monkeypatch):
    screen = Terminal()
    monkeypatch.setattr("sys.stderr", screen)
    monkeypatch.setattr("miner.cli.console._PATIENCE", -1.0)
    with progress(2) as shown:
        shown.begin("talk.srt")
        shown("reading")
    assert "1/2 talk.srt reading" in screen.getvalue()
    assert screen.getvalue().endswith("\r\x1b[K")


@pytest.mark.parametrize("columns", [40, 70, 100, 140])
def test_reports_fit_the_width(columns):
    text = report(small_draft("take the two screws out of the upper rear cover " * 3), columns=columns, colour=False)
    lines = [line for line in text.splitlines() if line.startswith("      ")]
    assert lines
    assert all(len(line) <= columns for line in lines)


def test_nothing_to_decide():
    assert totals(()) == "No findings."
    assert "No findings." in report(Draft(small_draft().recording), columns=80, colour=True)
