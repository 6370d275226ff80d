"""Talk goes to stderr, data to stdout; colour only where a person sees it and has not switched it off."""

from __future__ import annotations

import os
import re
import shutil
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from typing import IO

_STYLES = {"strong": "1", "quiet": "2", "error": "1;31", "warning": "1;33", "remark": "1;36"}
_UNPRINTABLE = re.compile(r"[\x00-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")
_PATIENCE = 1.0  # seconds before progress is shown


def say(text: str) -> None:
    """One line for the person, on stderr."""
    print(text, file=sys.stderr)


def show(data: bytes) -> None:
    """Data for the next program, on stdout, byte by byte as given."""
    sys.stdout.flush()
    sys.stdout.buffer.write(data)
    sys.stdout.buffer.flush()


def is_colourful(stream: IO[str]) -> bool:
    """Whether a stream is a terminal that takes colour, and the user wants it (https://no-color.org)."""
    return stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def painted(text: str, style: str, *, colour: bool) -> str:
    """Text in a style: strong, quiet, error, warning or remark."""
    return f"\x1b[{_STYLES[style]}m{text}\x1b[0m" if colour else text


def printable(text: str) -> str:
    """Text of a recording without control characters, which could steer the terminal."""
    return _UNPRINTABLE.sub(" ", text)


def width(stream: IO[str]) -> int:
    """Columns to fill: those of the terminal, else 100."""
    return min(shutil.get_terminal_size((100, 24)).columns, 140) if stream.isatty() else 100


class Progress:
    """Tells on a terminal what is being done, once it takes longer than a second."""

    def __init__(self, total: int) -> None:
        self._total, self._done, self._name = total, 0, ""
        self._began = time.monotonic()
        self._live = sys.stderr.isatty()
        self._shown = False

    def begin(self, name: str) -> None:
        """The next of the things to do."""
        self._done, self._name = self._done + 1, name
        self("")

    def __call__(self, stage: str) -> None:
        """A stage of it begins."""
        if self._live and time.monotonic() - self._began > _PATIENCE:
            filled = round(20 * (self._done - 1) / max(1, self._total))
            bar = f"[{'#' * filled}{'.' * (20 - filled)}] {self._done}/{self._total} " if self._total > 1 else ""
            line = printable(f"{bar}{self._name} {stage}")[: width(sys.stderr) - 1]
            print(f"\r\x1b[K{line}", end="", file=sys.stderr, flush=True)
            self._shown = True

    def clear(self) -> None:
        """Take the line away."""
        if self._shown:
            print("\r\x1b[K", end="", file=sys.stderr, flush=True)
            self._shown = False


@contextmanager
def progress(total: int) -> Iterator[Progress]:
    """Progress over a number of things, gone from the screen afterwards."""
    shown = Progress(total)
    try:
        yield shown
    finally:
        shown.clear()
