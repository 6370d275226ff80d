"""SubRip (.srt): numbered blocks, a timing line, lines of text.

There is no official specification; the rules are those of the original program and of long use (the
block: number, `HH:MM:SS,mmm --> HH:MM:SS,mmm`, text, blank line). Read here and not by a library because libraries
take a last line that is a bare number for the number of a next block and drop it, and give no line for a message.
Accepted beyond the rule: a dot for the comma, hours left out or of any length, coordinates, a missing number, a
missing blank line, blank lines inside a text.
"""

from __future__ import annotations

import html
import re
from pathlib import Path

from miner.errors import InputError
from miner.model.recording import Cue
from miner.readers.reading import Claim, Reading, checked_span
from miner.readers.word_times import spread

name = "srt"
endings = (".srt",)

_TIME = r"(?:(\d+):)?([0-5]?\d):([0-5]?\d)(?:[.,](\d{1,3}))?"
_TIMING = re.compile(rf"\s*{_TIME}\s*-+>\s*{_TIME}(?:\s+\S.*)?\s*")
_TIMING_LINE = re.compile(r"^\s*\d+:[\d:]+[.,]\d+\s*-+>\s*\d+:[\d:]+[.,]\d+", re.MULTILINE)
_LIKE_TIMING = re.compile(r"\s*[-\d:.,\s]*\d\s*-->|\s*-->\s*[\d:.,]*\s*$")
_TAG = re.compile(r"</?(?:[biu]|s|font)(?:\s[^<>]*)?>|\{\\[^{}]*\}", re.IGNORECASE)


def sniff(text: str, path: Path) -> Claim:
    """A timing line, and no WebVTT signature."""
    if text[:6].upper() == "WEBVTT":
        return Claim(0.0, "it starts with WEBVTT")
    if text.lstrip()[:1] in ("<", "{"):
        return Claim(0.0, "it starts with a bracket of another format")
    if _TIMING_LINE.search(text):
        return Claim(0.95, "it has lines of the form 00:00:01,000 --> 00:00:02,000")
    return Claim(0.0, "no line of the form 00:00:01,000 --> 00:00:02,000")


def read(text: str, source: str) -> Reading:
    """The cues of an SRT text; a cue without words is left out."""
    lines = text.split("\n")
    timings = [(index, span) for index, line in enumerate(lines) if (span := _span(line, index, source))]
    if not timings:
        raise InputError(
            "no cue found", where=source, remedy="An SRT file needs lines like 00:00:01,000 --> 00:00:02,000."
        )
    cues: list[Cue] = []
    starts = [_block_start(lines, index) for index, _ in timings] + [len(lines)]
    for position, (index, (start, end)) in enumerate(timings):
        words = _clean(" ".join(lines[index + 1 : max(index + 1, starts[position + 1])])).split()
        if words:
            cues.append(Cue(start, end, spread(words, start, end)))
    return Reading(tuple(cues))


def _span(line: str, index: int, source: str) -> tuple[float, float] | None:
    """The times of a timing line, None for any other line."""
    if "->" not in line:
        return None
    match = _TIMING.fullmatch(line)
    if match:
        parts = match.groups()
        return checked_span(_seconds(*parts[:4]), _seconds(*parts[4:]), f"{source}:{index + 1}")
    if _LIKE_TIMING.match(line):
        raise InputError(
            f"this timing line cannot be read: {line.strip()[:60]!r}",
            where=f"{source}:{index + 1}",
            remedy="Write it as 00:00:01,000 --> 00:00:02,000.",
        )
    return None


def _seconds(hours: str | None, minutes: str, seconds: str, fraction: str | None) -> float:
    # The fraction counts milliseconds by rule; a shorter one is read as a decimal fraction, as its writer meant it.
    whole = int(hours or 0) * 3600 + int(minutes) * 60 + int(seconds)
    return whole + int((fraction or "0").ljust(3, "0")) / 1000


def _block_start(lines: list[str], timing: int) -> int:
    """Where the block of a timing line starts: at its number, if the line above is one.

    A bare number is the block's number only after a blank line, at the top of the file or next to an own number of
    the block above; otherwise it is the last words of the cue above ("There are / 12").
    """
    above = timing - 1
    if above < 0 or not lines[above].strip().isdigit():
        return timing
    if above == 0 or not lines[above - 1].strip():
        return above
    return above if _follows_number(lines, above) else timing


def _follows_number(lines: list[str], at: int) -> bool:
    """Whether the number at a line is one more than the number of the block above."""
    for index in range(at - 1, 0, -1):
        if "-->" in lines[index]:
            before = lines[index - 1].strip()
            return before.isdigit() and int(lines[at]) == int(before) + 1
    return False


def _clean(text: str) -> str:
    if "<" in text or "{" in text:
        text = _TAG.sub("", text)
    return html.unescape(text) if "&" in text else text
