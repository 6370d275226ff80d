"""What a speaker takes back or lets slip: fillers, false starts, self-corrections ("eight, no, sorry, nine")."""

from __future__ import annotations

import re
from bisect import bisect_left

from spacy.tokens import Doc

from miner.language.annotations import Annotations, annotations_of

_CORRECTION = re.compile(
    r"(?:,|-|\.|…)* (?:(?:no|nope|sorry|wait|oops|rather|correction|make that|make it|scratch that|i mean|i meant|i tell a lie|tell a lie|"
    r"what am i saying|hang on|hold on|my mistake|excuse me|er|um|uh|actually)\b[ ,.…-]*)+"
)
_STRONG = re.compile(
    r"\b(?:no|sorry|rather|correction|make that|make it|scratch that|i mean|i meant|lie|what am i saying|my mistake|wait|oops|actually)\b"
)
_FILLER_PHRASES = re.compile(
    r",? ?\b(?:you know|i mean|sort of|kind of|if you like|i guess|i think|i suppose|let's see|let me see)\b,?"
)
RETRACE = 6
"""Tokens before a correction in which its first word may stand again."""


def find_dropped(doc: Doc) -> frozenset[int]:
    """The tokens that the speaker did not mean to say."""
    return dropped_in(annotations_of(doc))


def dropped_in(known: Annotations) -> frozenset[int]:
    """As find_dropped, from annotations; tags, numbers and measures must have been set."""
    dropped = {i for i, tag in enumerate(known.tags) if tag == "f"}
    for match in _FILLER_PHRASES.finditer(known.text):
        start, end = known.tokens_of(match.start(), match.end())
        dropped.update(range(start + (known.lower[start] == " "), end))
    for match in _CORRECTION.finditer(known.text):
        if _STRONG.search(match[0]):
            first = len(match[0]) - len(match[0].lstrip())
            start = known.token_at(match.start() + first)
            _, end = known.tokens_of(match.start(), match.end())
            begin = _taken_back(known, start, end)
            if begin is not None:
                dropped.update(range(begin, end))
    return frozenset(dropped)


def _taken_back(known: Annotations, start: int, end: int) -> int | None:
    """Where the words begin that a correction `start:end` takes back; None if it is no correction."""
    tags, lower = known.tags, known.lower
    if start == 0 or end >= len(tags):
        return None
    last = start - 1
    while last > 0 and tags[last] in ",.-f":
        last -= 1
    if tags[end] == "N" and tags[last] in "NFnH":
        numbers = [number.start for number in known.numbers]
        here = bisect_left(numbers, last + 1) - 1
        if (
            here >= 0
            and last - known.numbers[here].start <= RETRACE
            and "." not in tags[known.numbers[here].start : last]
        ):
            return known.numbers[here].start
    if tags[end] == "Z" and tags[last] in "ZN":
        while last > 0 and tags[last - 1] in "ZN":
            last -= 1
        return last
    for back in range(last, max(last - RETRACE, -1), -1):
        if tags[back] == ".":
            break
        if lower[back] == lower[end] and tags[end] in "DpotNVAnH":
            return back
    if tags[end] == tags[last] and tags[end] in "AnHV" and lower[end] != lower[last]:
        return last
    return None
