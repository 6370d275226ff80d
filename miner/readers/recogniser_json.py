"""The JSON that speech recognisers write: segments with words, each with its own times.

Read: an object with `segments` (or `words`), or a list of segments at the top; a segment with `start`, `end`, `text`
and perhaps `words` and `speaker`; a word with `word` (or `text`), `start`, `end` and `probability` (or `confidence`,
`score`). Words that the recogniser could not align have no times: they get them from their neighbours.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from miner.errors import InputError
from miner.model.recording import Cue, Word
from miner.readers.reading import Claim, Reading, checked_span
from miner.readers.word_times import spread

name = "json"
endings = (".json",)

_OPENING = re.compile(r"\s*(?:\{|\[\s*[\{\]])")
_PROBABILITY = ("probability", "confidence", "score")


def sniff(text: str, path: Path) -> Claim:
    """JSON with the keys `start` and `text` or `word`."""
    if not _OPENING.match(text):
        return Claim(0.0, "it is no JSON object or list of objects")
    if '"start"' in text and ('"text"' in text or '"word"' in text):
        return Claim(1.0, "it is JSON with the keys start and text or word")
    if '"segments"' in text:
        return Claim(0.9, "it is JSON with the key segments")
    return Claim(0.1, "it is JSON, without timed segments in its beginning")


def read(text: str, source: str) -> Reading:
    """One cue a segment."""
    try:
        data = json.loads(text)
    except json.JSONDecodeError as error:
        raise InputError(
            f"the JSON is broken: {error.msg}", where=f"{source}:{error.lineno}", remedy="Export the transcript again."
        ) from None
    segments = _segments(data, source)
    cues = [cue for number, segment in enumerate(segments) if (cue := _cue(segment, f"{source}, segment {number}"))]
    if not cues:
        raise InputError("no segment with words found", where=source, remedy="Check that the recogniser wrote text.")
    title = data.get("title") if isinstance(data, dict) else None
    return Reading(tuple(cues), title=title if isinstance(title, str) else "")


def _segments(data: Any, source: str) -> list[Any]:
    """The segments; a bare list of words is cut into segments at its pauses."""
    found = data
    if isinstance(data, dict):
        found = data.get("segments", data.get("words"))
    if not isinstance(found, list):
        raise InputError(
            "there is no list of segments",
            where=source,
            remedy="The JSON needs a list `segments` with start, end, text.",
        )
    if found and all(isinstance(item, dict) and "word" in item and "words" not in item for item in found):
        return _by_pauses(found)
    return found


def _by_pauses(words: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Segments made from a bare list of words: a new one after half a second of silence or the end of a sentence."""
    segments: list[dict[str, Any]] = []
    last_end: float | None = None
    closed = True
    for word in words:
        start, end = word.get("start"), word.get("end")
        silent = isinstance(start, int | float) and last_end is not None and start - last_end > 0.5
        if closed or silent:
            segments.append({"words": []})
        segments[-1]["words"].append(word)
        closed = str(word["word"]).rstrip().endswith((".", "?", "!"))
        last_end = end if isinstance(end, int | float) else last_end
    return segments


def _cue(segment: Any, where: str) -> Cue | None:
    """The cue of a segment, None if it has no words."""
    if not isinstance(segment, dict):
        raise InputError("a segment is no object", where=where, remedy="Each segment needs start, end and text.")
    items = segment.get("words")
    voice = segment.get("speaker")
    items = [item for item in items if isinstance(item, dict)] if isinstance(items, list) else []
    pieces = _joined(items, where)
    bounds = [piece[1] for piece in pieces] + [piece[2] for piece in pieces]
    known = [bound for bound in bounds if bound is not None]
    texts = str(segment.get("text") or "").split()
    if not pieces and not texts:
        return None
    start = _number(segment, "start", where, default=min(known, default=None))
    end = _number(segment, "end", where, default=max(known, default=None))
    if start is None or end is None:
        raise InputError("a segment has no start or no end", where=where, remedy="Give both in seconds.")
    checked_span(start, end, where)
    words = _aligned(pieces, start, end) if pieces else spread(texts, start, end)
    # Rounding may leave a word a little outside its segment.
    return Cue(min(start, words[0].start), max(end, words[-1].end), words, str(voice) if voice else None)


def _number(item: dict[str, Any], key: str, where: str, default: float | None = None) -> float | None:
    value = item.get(key)
    if value is None:
        return default
    if isinstance(value, bool) or not isinstance(value, int | float) or not 0 <= value < 1e9:
        raise InputError(f"{key} is {value!r}, no time in seconds", where=where, remedy="Give seconds as a number.")
    return float(value)


_Piece = tuple[str, float | None, float | None, float | None]


def _joined(items: list[dict[str, Any]], where: str) -> list[_Piece]:
    """Text, start, end and probability of each word; pieces of one word ("twenty", "-five") are joined.

    Recognisers that cut words put a blank before the first piece of each; without any such blank each item is a word.
    """
    texts = [str(item.get("word", item.get("text", ""))) for item in items]
    cut = any(text.startswith(" ") for text in texts[1:])
    pieces: list[_Piece] = []
    for item, raw in zip(items, texts, strict=True):
        text = raw.strip()
        if not text:
            continue
        start, end = _number(item, "start", where), _number(item, "end", where)
        chance = next((item[key] for key in _PROBABILITY if isinstance(item.get(key), int | float)), None)
        if start is not None and end is not None:
            checked_span(start, end, f"{where}, word {text!r}")
        if pieces and cut and not raw.startswith(" "):
            before, first, last, least = pieces[-1]
            chances = [value for value in (least, chance) if value is not None]
            pieces[-1] = (before + text, first, end if end is not None else last, min(chances, default=None))
        else:
            pieces.append((text, start, end, chance))
    return [piece for text, *rest in pieces for piece in _single(text, *rest)]


def _single(text: str, start: float | None, end: float | None, chance: float | None) -> list[_Piece]:
    """A piece that holds a blank ("thank you") as words of their own."""
    parts = text.split()
    if len(parts) == 1:
        return [(text, start, end, chance)]
    if start is None or end is None:
        return [(part, None, None, chance) for part in parts]
    return [(word.text, word.start, word.end, chance) for word in spread(parts, start, end)]


def _aligned(pieces: list[_Piece], start: float, end: float) -> tuple[Word, ...]:
    """Words in order of time; a run of words without times is spread between its neighbours."""
    words: list[Word] = []
    at = 0
    while at < len(pieces):
        text, begin, finish, chance = pieces[at]
        latest = words[-1].end if words else start
        if begin is not None and finish is not None:
            words.append(Word(text, begin, finish, chance))
            at += 1
            continue
        run = at
        while run < len(pieces) and (pieces[run][1] is None or pieces[run][2] is None):
            run += 1
        following = pieces[run][1] if run < len(pieces) else end
        until = max(latest, end if following is None else following)
        spans = spread([piece[0] for piece in pieces[at:run]], latest, until)
        words += [Word(w.text, w.start, w.end, p[3]) for w, p in zip(spans, pieces[at:run], strict=True)]
        at = run
    return tuple(sorted(words, key=lambda word: word.start))
