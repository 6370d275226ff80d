"""How far the noun phrase of a group of fasteners reaches to the left and right of its noun."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations
from miner.lexicon.lookup import Lookup

_SIZES_AFTER = re.compile(r"(?:(?:,|-|x|p|D|o|X|R|O|e|W|E|Q)*Z(?:F(?=[.,CW]|$))?)+")
_TIMES = re.compile(r"x\d+|\d+x")
"""The count after a noun in notes: "clips x2 7 mm"."""
_WITH_A_TOOL = re.compile(r"\b(?:with|using) (?:a|an|the|your|my)\b")
_OF_A_HEAD = re.compile(r"\bheads?\b")
_PUSHES = frozenset("push press snap clip pop tap slide twist stick plug drive clamp screw".split())
_PUSHED = frozenset(("in", "on", "through", "fit", "out"))
"""The words of "push in rivets", "snap on clips"."""
_DEGREES = ("very", "really", "about", "just")


def left_edge(known: Annotations, noun: int, index: Lookup) -> int:
    """Where the noun phrase begins whose noun stands at `noun`."""
    tags, stops, commas = known.tags, known.stops, known.commas
    counted = index.words("count_noun")
    first = noun
    while first > 0 and first not in stops and first not in commas and _belongs(known, first - 1, counted):
        first -= 1
        tag = tags[first]
        if tag == "D" or (tag == "Q" and first > 0 and tags[first - 1] not in "DQNoA"):
            break
    return first


def _belongs(known: Annotations, at: int, counted: frozenset[str]) -> bool:
    """Whether a token goes on with the noun phrase after it.

    Commas do only between sizes, "or" only between numbers, "of" only after a count or an amount.
    """
    tags, word = known.tags, known.lower[at]
    tag, before, after = tags[at], tags[at - 1 : at], tags[at + 1]
    if tag in ",-":
        return before in ("N", "Z") and after in "NZAnHE"
    if tag == "C":
        return before in ("N", "Z") and after in "NZ" and word == "or"
    if tag == "o":
        return at >= 1 and (before in "NQO" or known.lower[at - 1] in counted)
    if tag == "R":
        return word in _DEGREES
    if tag == "O":
        return word == "one" and before in tuple("DQ") and after in "FAHnZE"  # "the one bolt"
    if tag in "pr":
        return at >= 1 and word in _PUSHED and known.lower[at - 1] in _PUSHES and after in "FAEH"
    if word in _PUSHES and known.lower[at + 1] in _PUSHED:
        return True
    if tag in "EG":
        return at < 1 or before in "DNAZQnH"
    return tag in "NZAnHQDF"


def right_edge(known: Annotations, end: int) -> int:
    """Where sizes end that follow the noun: "screws, PH2, 20 mil"; a tool after it is none."""
    stops = known.stops
    counted = end < len(known.lower) and end not in stops and _TIMES.fullmatch(known.lower[end])
    match = _SIZES_AFTER.match(known.tags, end + 1 if counted else end) if end not in stops else None
    if not match:
        return end
    stop = next((at for at in range(end, match.end()) if at in stops), match.end())
    words = known.words(end, stop)
    return end if _WITH_A_TOOL.search(words) and not _OF_A_HEAD.search(words) else stop
