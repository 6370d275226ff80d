"""A transcript as text with a time in brackets before each paragraph: `[12:07] text`, `[1:02:07] text`.

Also read: round brackets, a fraction of seconds, a range (`[0:05 - 0:09]`), a time on a line of its own, several
times on one line, text that goes on over the following lines. Text before the first time is a preamble (a title,
the date) and not part of the recording's words.
"""

from __future__ import annotations

import re
from pathlib import Path

from miner.errors import InputError
from miner.model.recording import Cue
from miner.readers.clock import CLOCK, clock
from miner.readers.reading import Claim, Reading, checked_span, lasting_until_next
from miner.readers.word_times import spread

name = "text"
endings = (".txt", ".text", ".md")

SLOWEST = 1.5
"""Seconds a word and its share of the pauses may take at most, where only the start of a paragraph is known."""

_RANGE = r"\s*(?:-->|->|-|–|—|to|,)\s*"
_MARK = re.compile(rf"[\[(]\s*({CLOCK})(?:{_RANGE}({CLOCK}))?\s*[\])]:?")
_LIKE_MARK = re.compile(r"\s*\[[\d:.,\s]*\d:[\d:.,\s]*\]")


def sniff(text: str, path: Path) -> Claim:
    """Lines that start with a time in brackets."""
    lines = [line.strip() for line in text.split("\n") if line.strip()]
    marked = sum(1 for line in lines if _MARK.match(line))
    if not marked:
        return Claim(0.0, "no line starts with a time in brackets")
    return Claim(0.9, f"{marked} of {len(lines)} lines start with a time in brackets")


def read(text: str, source: str) -> Reading:
    """One cue for each time."""
    paragraphs = _paragraphs(text, source)
    spoken = [paragraph for paragraph in paragraphs if paragraph.texts]
    if not spoken:
        raise InputError("no timed text found", where=source, remedy="Start each paragraph with a time like [12:07].")
    # Empty paragraphs still tell when the one before them ended.
    spans = lasting_until_next([p.start for p in paragraphs], [2 + SLOWEST * len(p.texts) for p in paragraphs])
    ends = {id(p): p.end if p.end is not None else span[1] for p, span in zip(paragraphs, spans, strict=True)}
    return Reading(tuple(Cue(p.start, ends[id(p)], spread(p.texts, p.start, ends[id(p)])) for p in spoken))


class _Paragraph:
    """A time, the end if one is given, and the words that follow."""

    __slots__ = ("end", "start", "texts")

    def __init__(self, start: float, end: float | None) -> None:
        self.start, self.end = start, end
        self.texts: list[str] = []


def _paragraphs(text: str, source: str) -> list[_Paragraph]:
    found: list[_Paragraph] = []
    for number, raw in enumerate(text.split("\n"), 1):
        line = raw.strip()
        if not _MARK.match(line):
            if _LIKE_MARK.match(line):
                raise InputError(
                    f"this time cannot be read: {line[:30]!r}",
                    where=f"{source}:{number}",
                    remedy="Write it as [12:07] or [1:02:07].",
                )
            if found:
                found[-1].texts += line.split()
            continue
        # A line that starts with a time may hold more of them; in other lines a time is something spoken of.
        parts = _MARK.split(line)
        for start, end, words in zip(parts[1::3], parts[2::3], parts[3::3], strict=True):
            found.append(_Paragraph(*_span(start, end, f"{source}:{number}")))
            found[-1].texts += words.split()
    return found


def _span(start: str, end: str | None, where: str) -> tuple[float, float | None]:
    begin = clock(start) or 0.0
    if end is None:
        return begin, None
    return checked_span(begin, clock(end) or 0.0, where)
