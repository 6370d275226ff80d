"""The formats that can be read.

To add one: write a module with the four members of `Reader` (module-level names do), let `sniff` tell by which sign
it knows the text, raise `InputError` with `source:line` for what cannot be read, put the module into `READERS`, and
add cases to `tests/readers/` for a plain file, each hazard of the format and a broken line. Format modules do not
import one another. A library that a format needs is imported inside `read`.
"""

from __future__ import annotations

from pathlib import Path
from typing import Protocol

from miner.readers import bracketed_text, recogniser_json, subrip, timed_notes, ttml, webvtt
from miner.readers.reading import Claim, Reading


class Reader(Protocol):
    """One format of timed text."""

    @property
    def name(self) -> str:
        """The name by which a user asks for the format."""

    @property
    def endings(self) -> tuple[str, ...]:
        """File endings that speak for the format when two claim a text equally."""

    def sniff(self, text: str, path: Path) -> Claim:
        """How surely the opening of a text is in this format, and why."""

    def read(self, text: str, source: str) -> Reading:
        """The cues of a text with line ends `\\n`; `source` is the file's name for messages."""


READERS: tuple[Reader, ...] = (webvtt, subrip, ttml, recogniser_json, bracketed_text, timed_notes)


def reader_names() -> tuple[str, ...]:
    """The names of all formats, in the order of the list."""
    return tuple(reader.name for reader in READERS)
