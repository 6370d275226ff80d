"""What a speaker takes back or lets slip: fillers, false starts, self-corrections ("eight, no, sorry, nine")."""

from __future__ import annotations

import re
from bisect import bisect_right
from dataclasses import dataclass
from functools import lru_cache

from miner.language.annotations import Annotations
from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup

_NO_FILLER = re.compile(r"\b(?:same|what|this|that|any|some|other)$")
RETRACE = 6
"""Tokens before a correction in which its first word may stand again."""


@dataclass(frozen=True, slots=True)
class _Patterns:
    """`slip` is a run of words of correction and hesitation; it corrects only where a word of `correction` is in it."""

    slip: re.Pattern[str]
    correction: re.Pattern[str]
    filler: re.Pattern[str]


@lru_cache(maxsize=8)
def _patterns(lexicon: Lexicon) -> _Patterns:
    words = lookup(lexicon).words
    correction, hesitation = words("correction"), words("hesitation")
    return _Patterns(
        slip=re.compile(rf"(?:,|-|\.|…)* (?:{_any(correction | hesitation)}[ ,.…-]*)+"),
        correction=re.compile(rf"\b{_any(correction)}"),
        filler=re.compile(rf",? ?\b{_any(words('filler_phrase'))},?"),
    )


def _any(words: frozenset[str]) -> str:
    """A pattern of any of the words, the longest first."""
    return rf"(?:{'|'.join(re.escape(word) for word in sorted(words, key=lambda word: (-len(word), word)))})\b"


def dropped_in(known: Annotations, lexicon: Lexicon) -> frozenset[int]:
    """The tokens that the speaker did not mean to say; tags, numbers and measures must have been set."""
    patterns, text = _patterns(lexicon), known.text
    dropped = {match.start() for match in re.finditer("f", known.tags)}
    for match in patterns.filler.finditer(text):
        if _NO_FILLER.search(text[: match.start()][-8:]):
            continue  # "the same kind of hinge"
        blanks = len(match[0]) - len(match[0].lstrip())
        start, end = known.tokens_of(match.start() + blanks, match.end())
        dropped.update(range(start, end))
    for match in patterns.slip.finditer(text):
        if patterns.correction.search(match[0]):
            blanks = len(match[0]) - len(match[0].lstrip())
            start = known.token_at(match.start() + blanks)
            if known.tags[start] == "Z":
                continue  # "no. 1 Phillips"
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
    before, word = (
        tags[start if tags[start] in ",.-" else start - 1],
        next((w for w in lower[start:end] if w[0].isalpha()), ""),
    )
    if (word == "no" and (before in "Wp" or (known.breaks and before not in ",-"))) or (
        word == "wait" and before == "."
    ):
        return None  # "open till no steam", "400 volts. Wait ten minutes"
    last = start - 1
    while last > 0 and tags[last] in ",.-f":
        last -= 1
    if tags[end] == "N" and tags[last] in "NFnH":
        number = _number_before(known, last)
        if number is not None:
            return number
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


def _number_before(known: Annotations, last: int) -> int | None:
    """Where the last number up to a token begins, if it is near and in the same sentence."""
    at = bisect_right(known.numbers, last, key=lambda number: number.start) - 1
    if at < 0:
        return None
    start = known.numbers[at].start
    return start if last - start <= RETRACE and "." not in known.tags[start:last] else None
