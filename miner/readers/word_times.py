"""Times for the words inside a cue where a format gives none: in proportion to their characters."""

from __future__ import annotations

from collections.abc import Sequence

from miner.model.recording import Word


def spread(texts: Sequence[str], start: float, end: float) -> tuple[Word, ...]:
    """The words of a cue with times by their share of its characters, a blank counted with each word.

    >>> [(w.text, w.start, w.end) for w in spread(["one", "two"], 0.0, 4.0)]
    [('one', 0.0, 2.0), ('two', 2.0, 4.0)]
    """
    total = sum(map(len, texts)) + len(texts)
    if not total:
        return ()
    span, done, begin = end - start, 0, start
    words: list[Word] = []
    for text in texts:
        done += len(text) + 1
        finish = start + span * done / total if done < total else end
        words.append(Word(text, begin, finish))
        begin = finish
    return tuple(words)


def spread_between(pieces: Sequence[tuple[float, Sequence[str]]], end: float) -> tuple[Word, ...]:
    """Words of pieces that have a start each; a piece lasts until the next begins, the last until `end`."""
    words: list[Word] = []
    for index, (start, texts) in enumerate(pieces):
        finish = pieces[index + 1][0] if index + 1 < len(pieces) else end
        words += spread(texts, start, max(start, finish))
    return tuple(words)
