"""The text of WebVTT cues: tags away, references resolved, inline times and voices kept."""

from __future__ import annotations

import html
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import groupby

from miner.model.recording import Cue, Word
from miner.readers.word_times import spread, spread_between

_TAG = re.compile(r"<([^>]*)>?")
_STAMP = re.compile(r"(?:(\d+):)?([0-5]\d):([0-5]\d)\.(\d{3})")


@dataclass(slots=True)
class _Pieces:
    """Words gathered so far: pieces with their start, and the voice of each word."""

    pieces: list[tuple[float, list[str]]]
    voices: list[str | None] = field(default_factory=list)
    voice: str | None = None
    open_word: bool = False  # the text so far ends inside a word

    def add(self, text: str) -> None:
        """Add text; its first word continues the last one if no blank lies between."""
        words = text.split()
        if not words:
            self.open_word = self.open_word and not text
            return
        if self.open_word and not text[0].isspace():
            holder = next(texts for _, texts in reversed(self.pieces) if texts)
            holder[-1] += words.pop(0)
        self.pieces[-1][1].extend(words)
        self.voices += [self.voice] * len(words)
        self.open_word = not text[-1].isspace()


def cues_of(lines: Sequence[str], start: float, end: float) -> list[Cue]:
    """The cues of one payload: one for each stretch of one voice, none if there are no words.

    Lines above the first line with inline times are what a scrolling caption carried over: they were there when the
    cue began, so their words last no time (`start == end`), which tells `captions.rolling` that they are not new.
    """
    if "<" not in (payload := " ".join(lines)):
        texts = (html.unescape(payload) if "&" in payload else payload).split()
        return [Cue(start, end, spread(texts, start, end))] if texts else []
    gathered = _gather(lines, start, end)
    words = spread_between(gathered.pieces, end)
    if not words:
        return []
    if len(set(gathered.voices)) == 1:
        return [Cue(start, end, words, gathered.voices[0])]
    return _by_voice(words, gathered.voices, start, end)


def _gather(lines: Sequence[str], start: float, end: float) -> _Pieces:
    gathered = _Pieces([(start, [])])
    hidden = 0  # depth of ruby text, a reading aid and no speech
    stamped = [any(_STAMP.fullmatch(tag) for tag in _TAG.findall(line)) for line in lines]
    first_stamped = stamped.index(True) if True in stamped else 0
    for number, line in enumerate(lines):
        if number and number == first_stamped:
            gathered.pieces.append((start, []))
        gathered.add(" ")
        for index, part in enumerate(_TAG.split(line)):
            if index % 2 == 0:
                if not hidden:
                    gathered.add(html.unescape(part))
            elif stamp := _STAMP.fullmatch(part):
                _start_piece(gathered, stamp, end)
            elif part.startswith("v") and part[1:2] in (" ", "\t", ".", ""):
                gathered.voice = html.unescape(part.partition(" ")[2]).strip() or None
            elif part == "/v":
                gathered.voice = None
            elif part in ("rt", "/rt"):
                hidden = 1 if part == "rt" else 0
    return gathered


def _start_piece(gathered: _Pieces, stamp: re.Match[str], end: float) -> None:
    """Begin a piece at an inline time; one that runs backwards or past the cue is no time to rely on."""
    hours, minutes, seconds, millis = stamp.groups()
    at = int(hours or 0) * 3600 + int(minutes) * 60 + int(seconds) + int(millis) / 1000
    if gathered.pieces[-1][0] <= at <= end:
        gathered.pieces.append((at, []))


def _by_voice(words: Sequence[Word], voices: Sequence[str | None], start: float, end: float) -> list[Cue]:
    cues: list[Cue] = []
    for voice, pairs in groupby(zip(words, voices, strict=True), key=lambda pair: pair[1]):
        own = tuple(word for word, _ in pairs)
        cues.append(Cue(cues[-1].end if cues else start, own[-1].end, own, voice))
    return cues
