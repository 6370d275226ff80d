"""Noun phrases that name parts: lexicon heads with their modifiers, and unknown nouns in the places of a part."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from miner.language.annotations import Annotations, Number, Phrase
from miner.lexicon import Lexicon
from miner.lexicon.inflection import singular
from miner.lexicon.lookup import lookup

_BEFORE_NOUNS = r"(?:D|Q|N|A|Z|(?<=[DANZQ])[GE](?=[AnHFZN]))*"
_NOUNS = r"(?:n|H|F|(?<=[nHFA])[GE](?=[nHF])|(?<=[nH])-(?=[nH]))*[nHF]"
_PHRASE = re.compile(_BEFORE_NOUNS + _NOUNS)


@dataclass(frozen=True, slots=True)
class _Nouns:
    """Words by what they add to a name: `idle` ones nothing, `places` a location, `heads` name parts."""

    idle: frozenset[str]
    places: frozenset[str]
    located: frozenset[str]
    heads: frozenset[str]
    amounts: frozenset[str]
    attributes: frozenset[str]


@lru_cache(maxsize=8)
def _nouns(lexicon: Lexicon) -> _Nouns:
    index = lookup(lexicon)
    idle, places = index.words("name_adjective"), index.words("place")
    return _Nouns(
        idle=idle,
        places=places,
        located=places | idle | {"left", "right"},
        heads=frozenset(term.rsplit(" ", 1)[-1] for term in index.heads),
        amounts=index.words("amount"),
        attributes=index.words("counted_attribute"),
    )


def phrases_in(known: Annotations, lexicon: Lexicon) -> list[Phrase]:
    """The noun phrases, in order; tags, numbers and measures must have been set.

    "The lead of the motor" is one phrase named by both nouns; "the bolts of the motor" are fasteners and a part.
    """
    nouns = _nouns(lexicon)
    found = (_phrase(known, start, end, nouns) for start, end in _ranges(known))
    return _join_of([phrase for phrase in found if phrase], known.tags, nouns)


def _ranges(known: Annotations) -> Iterator[tuple[int, int]]:
    """Where noun phrases stand; one that runs over the edge of a note is cut there."""
    edges = known.stops | known.commas
    for match in _PHRASE.finditer(known.tags):
        start, end = match.span()
        if edges:
            for edge in range(start + 1, end):
                if edge in edges:
                    yield start, edge
                    start = edge
        yield start, end


def _phrase(known: Annotations, start: int, end: int, nouns: _Nouns) -> Phrase | None:
    tags, lower, idle = known.tags, known.lower, nouns.idle
    while end > start and tags[end - 1] not in "nHF":
        end -= 1
    head = lower[end - 1]
    plural = singular(head) != head
    kept: list[str] = []
    count = None
    for i in range(start, end):
        tag = tags[i]
        if tag == "N" and not plural and i + 2 < end and tags[end - 1] != "F" and lower[i + 1] in nouns.attributes:
            kept.append(lower[i])  # "the four bolt flange"
        elif tag == "N":
            count = i if count is None else count
        elif tag not in "DQZ" and (kept or lower[i] not in idle or i == end - 1):
            kept.append(lower[i])
    if not kept:
        return None
    place = head in nouns.places and (len(kept) == 1 or nouns.located.issuperset(kept))
    value = None if count is None else _value_at(known.numbers, count)
    return Phrase(start, end, end - 1, " ".join(kept), plural, head in nouns.heads, place, value)


def _value_at(numbers: list[Number], token: int) -> int | None:
    """The value of the first number that a token belongs to."""
    at = bisect_right(numbers, token, key=lambda number: number.start) - 1
    while at > 0 and numbers[at - 1].end > token:
        at -= 1
    return int(numbers[at].value) if at >= 0 and token < numbers[at].end else None


def _join_of(phrases: list[Phrase], tags: str, nouns: _Nouns) -> list[Phrase]:
    """Joins "lead of the motor"; a measure of amount ("pair of pliers", "set of screws") takes the second name."""
    joined: list[Phrase] = []
    for phrase in phrases:
        before = joined[-1] if joined else None
        if before is None or phrase.start != before.end + 1 or tags[before.end] != "o":
            joined.append(phrase)
        elif tags[before.head] == "F" and tags[phrase.start] == "D":
            joined.append(phrase)  # "the bolts of the hopper" are bolts
        elif before.name.rsplit(" ", 1)[-1] in nouns.amounts:
            joined[-1] = replace(phrase, start=before.start, count=before.count)
        else:
            linker = "of the" if tags[phrase.start] == "D" else "of"
            joined[-1] = replace(before, end=phrase.end, name=f"{before.name} {linker} {phrase.name}")
    return joined
