"""Timed notes: lines of text with a time first (`0:42 note`, `1:03 - note`), or a table with a column of times.

A note says when something happened, not when each word was said: its words all last from the note's time until the
next note (at most a minute), unless a table gives an end of its own, or the text is too long for a note.
"""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path
from statistics import median

from miner.errors import InputError
from miner.model.recording import Cue, Word
from miner.readers.clock import CLOCK, clock
from miner.readers.notes_table import Row, looks_like_table, read_table
from miner.readers.reading import Claim, Reading, checked_span, lasting_until_next
from miner.readers.word_times import spread

name = "notes"
endings = (".txt", ".csv", ".tsv", ".text", ".md")

LONGEST = 60.0
"""Seconds that a note without an end lasts at most; the last one lasts as long as its fellows usually do."""

LONG_NOTE = 40
"""Words from which a text counts as speech, whose words follow one another."""

_LINE = re.compile(
    rf"(?:[-*•]\s+)?({CLOCK})(?:\s*(?:-->|-|–|—|to)\s*({CLOCK}))?(?:\s*[-–—:|.)>]+\s+|\s*[–—|]\s*|\s+|$)(.*)"
)
_LIKE_TIME = re.compile(r"(?:[-*•]\s+)?\d{1,4}:\d[\d:.,]*(?=\s|$)")


def sniff(text: str, path: Path) -> Claim:
    """Lines that start with a time, or rows with a column of times."""
    table = looks_like_table(text)
    if table:
        return Claim(0.85, table)
    lines = [line.strip() for line in text.split("\n") if line.strip()]
    if any("-->" in line for line in lines[:20]):
        return Claim(0.0, "it has the arrows of captions")
    timed = sum(1 for line in lines if _LINE.match(line))
    if not timed or (timed < 2 and len(lines) > 3):
        return Claim(0.0, "no lines start with a time, no table has a column of times")
    return Claim(0.8, f"{timed} of {len(lines)} lines start with a time")


def read(text: str, source: str) -> Reading:
    """One cue a note."""
    rows = read_table(text, source) if looks_like_table(text) else _lines(text, source)
    spoken = [row for row in rows if row.text.split()]
    if not spoken:
        raise InputError("no timed note found", where=source, remedy="Start each note with a time, such as 0:42.")
    in_time = sorted(rows, key=lambda row: row.start)
    starts = [row.start for row in in_time]
    gaps = [b - a for a, b in pairwise(starts) if b > a]
    last = min(LONGEST, median(gaps)) if gaps else LONGEST
    spans = lasting_until_next(starts, [*[LONGEST] * (len(starts) - 1), last])
    cues: list[Cue] = []
    for row, (start, end) in zip(in_time, spans, strict=True):
        texts = row.text.split()
        if row.end is not None:
            cues.append(Cue(start, row.end, spread(texts, start, row.end), row.voice))
        elif len(texts) >= LONG_NOTE:
            cues.append(Cue(start, end, spread(texts, start, end), row.voice))
        else:
            cues.append(Cue(start, end, tuple(Word(word, start, end) for word in texts), row.voice))
    return Reading(tuple(cue for cue in cues if cue.words))


def _lines(text: str, source: str) -> list[Row]:
    """Notes of a text; a line without time goes on with the note above, lines before the first are a heading."""
    rows: list[Row] = []
    for number, raw in enumerate(text.split("\n"), 1):
        line, where = raw.strip(), f"{source}:{number}"
        match = _LINE.match(line)
        if match:
            start, end = clock(match[1]) or 0.0, clock(match[2]) if match[2] else None
            if end is not None:
                checked_span(start, end, where)
            rows.append(Row(start, end, match[3]))
        elif _LIKE_TIME.match(line):
            raise InputError(
                f"this time cannot be read: {line[:30]!r}", where=where, remedy="Write it as 0:42 or 1:02:07."
            )
        elif rows and line:
            rows[-1] = Row(rows[-1].start, rows[-1].end, f"{rows[-1].text} {line}")
    return rows
