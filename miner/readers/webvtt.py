"""WebVTT (.vtt), after the parser of the W3C specification (section "Parsing", github.com/w3c/webvtt).

Followed to the letter where data would be lost otherwise: a block ends at an empty line and not at one of blanks;
hours may have any number of digits; identifiers, NOTE, STYLE and REGION are no text. Not followed where the
specification drops a cue in silence: a timing line that cannot be read is an error with its line. The text of cues
is read by `miner.readers.webvtt_text`.
"""

from __future__ import annotations

import re
from pathlib import Path

from miner.errors import InputError
from miner.model.recording import Cue
from miner.readers.reading import Claim, Reading, checked_span
from miner.readers.webvtt_text import cues_of

name = "vtt"
endings = (".vtt", ".webvtt")

TIMESTAMP = r"(?:(\d+):)?([0-5]\d):([0-5]\d)\.(\d{3})"
"""A timestamp as the specification's parser takes it; hours of any length."""

_TIMING = re.compile(rf"[ \t\f]*{TIMESTAMP}[ \t\f]*-->[ \t\f]*{TIMESTAMP}(?:[ \t\f].*)?")
_SIGNATURE = re.compile(r"WEBVTT(?=[ \t\n]|$)")
_META = re.compile(r"[A-Za-z][\w-]*:\s*\S.*")


def sniff(text: str, path: Path) -> Claim:
    """The signature in the first line."""
    if _SIGNATURE.match(text):
        return Claim(1.0, "it starts with WEBVTT")
    if text[:6].upper() == "WEBVTT":
        return Claim(0.9, "it starts with WEBVTT, wrongly written")
    return Claim(0.0, "it does not start with WEBVTT")


def read(text: str, source: str) -> Reading:
    """The cues of a WebVTT text; a cue of two voices becomes two, one without words is left out."""
    if not _SIGNATURE.match(text):
        raise InputError("the signature is missing", where=f"{source}:1", remedy="The first line must be WEBVTT.")
    lines = text.replace("\0", "\ufffd").split("\n")
    cues: list[Cue] = []
    at, title = _after_header(lines)
    while at < len(lines):
        if not lines[at]:
            at += 1
        elif "-->" not in lines[at] and _is_comment(lines[at]):
            at = _next_empty(lines, at)
        else:
            at = _read_block(lines, at, source, cues)
    if not cues:
        raise InputError("no cue found", where=source, remedy="A cue needs a line like 00:01.000 --> 00:02.000.")
    return Reading(tuple(cues), title=title)


def _after_header(lines: list[str]) -> tuple[int, str]:
    """The line after the header, and the title that the signature's line or a `Title:` line gives."""
    title = lines[0][6:].strip(" \t-")
    at = 1
    while at < len(lines) and lines[at] and "-->" not in lines[at]:
        key, colon, value = lines[at].partition(":")
        if colon and key.strip().lower() == "title":
            title = value.strip()
        at += 1
    return at, "" if _META.fullmatch(title) else title


def _is_comment(line: str) -> bool:
    return line.startswith(("NOTE ", "NOTE\t")) or line.rstrip() in ("NOTE", "STYLE", "REGION")


def _next_empty(lines: list[str], at: int) -> int:
    while at < len(lines) and lines[at]:
        at += 1
    return at


def _read_block(lines: list[str], at: int, source: str, cues: list[Cue]) -> int:
    """Read the block at a line into `cues`; gives the line after it. A block without timing line is skipped."""
    if "-->" not in lines[at]:
        at += 1  # an identifier
        if at >= len(lines) or "-->" not in lines[at]:
            return _next_empty(lines, at)
    start, end = _span(lines[at], f"{source}:{at + 1}")
    first = at = at + 1
    while at < len(lines) and lines[at] and "-->" not in lines[at]:
        at += 1
    last = at
    if at < len(lines) and lines[at] and last - first >= 2 and not lines[last - 2].strip():
        last -= 1  # an identifier behind a separating line that holds blanks
    cues += cues_of(lines[first:last], start, end)
    return at


def _span(line: str, where: str) -> tuple[float, float]:
    match = _TIMING.fullmatch(line)
    if not match:
        raise InputError(
            f"this timing line cannot be read: {line.strip()[:60]!r}",
            where=where,
            remedy="Write it as 00:01.000 --> 00:02.000 or 00:00:01.000 --> 00:00:02.000.",
        )
    parts = match.groups()
    return checked_span(_seconds(*parts[:4]), _seconds(*parts[4:]), where)


def _seconds(hours: str | None, minutes: str, seconds: str, millis: str) -> float:
    return int(hours or 0) * 3600 + int(minutes) * 60 + int(seconds) + int(millis) / 1000
