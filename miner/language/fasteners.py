"""Groups of fasteners: how many, of what kind, which size, which drive, what they hold to what."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from miner.language.annotations import Annotations, Group
from miner.language.captive import says_captive
from miner.language.group_counts import count_of
from miner.language.group_extents import left_edge, right_edge
from miner.language.group_holds import held
from miner.language.group_sizes import measured, merge
from miner.language.headed_groups import headed_groups
from miner.language.implied_groups import implied_groups
from miner.language.nearby import Nearby
from miner.lexicon import Lexicon
from miner.lexicon.entries import FastenerKind
from miner.lexicon.inflection import singular
from miner.lexicon.lookup import Lookup, lookup

__all__ = ["groups_in", "measured", "merge"]

_LONGEST_TERM = 3
"""Words in the name of a kind of fastener at most."""

_CAPTIVE_REACH = 8
"""Tokens after the noun in which it may be called captive."""

_VERBAL = frozenset(("fixing", "fastening"))
"""Nouns of fasteners that are verbs after a plural."""

_DEFINITE = re.compile(r"\b(?:the|those|these|same|both|all)\b")


@dataclass(frozen=True, slots=True)
class _Words:
    """`qualifiers` are the words that tell kinds apart and do not belong to the name of a group."""

    index: Lookup
    qualifiers: frozenset[str]


@lru_cache(maxsize=8)
def _words(lexicon: Lexicon) -> _Words:
    qualifiers = (word for kind in lexicon.fasteners for phrase in kind.qualifiers for word in phrase.split())
    return _Words(lookup(lexicon), frozenset(qualifiers))


def groups_in(known: Annotations, lexicon: Lexicon) -> list[Group]:
    """The fastener groups, in order; tags, numbers, measures and phrases must have been set."""
    words, nearby = _words(lexicon), Nearby(known)
    nouns = ((m.start(), _noun_end(known, *m.span())) for m in re.finditer("F+", known.tags))
    found = [group for start, end in nouns if (group := _group(known, nearby, start, end, words))]
    found += headed_groups(known, nearby, words.index, _taken(found))
    if known.register == "notes":
        found += implied_groups(known, nearby, _taken(found))
    found.sort(key=lambda group: group.start)
    return found


def _taken(groups: list[Group]) -> set[int]:
    """The tokens of groups."""
    return {token for group in groups for token in range(group.start, group.end)}


def _noun_end(known: Annotations, start: int, end: int) -> int:
    """Where the noun ends in a run of nouns of fasteners: "screws fixing the plate" has a verb after its plural."""
    for at in range(start, end - 1):
        if known.lower[at + 1] in _VERBAL and known.lower[at] != singular(known.lower[at]):
            return at + 1
    return end


def _group(known: Annotations, nearby: Nearby, start: int, end: int, words: _Words) -> Group | None:
    """The group whose noun stands at `start:end`, unless the noun is the first part of a compound."""
    noun = _noun(known.lower, end, words.index)
    if noun is None:
        return None
    kind, first = noun
    plural = known.lower[end - 1] != singular(known.lower[end - 1])
    if not plural and _qualifies_next(known, end):
        return None
    edge, right = left_edge(known, first, words.index), right_edge(known, end)
    counted = count_of(known, nearby, edge, (first, end), plural=plural)
    left = counted.left
    said = known.words(left, end)
    if known.lower[end - 1].startswith("turn") and not (
        plural and _DEFINITE.search(known.words(max(first - 2, 0), first))
    ):
        return None  # "two quarter turns" are a movement
    group = Group(
        left, max(right, end), kind.kind, plural, counted.count, counted.alternatives,
        name=_name(known, left, end, words.qualifiers),
        captive="captive" in said or _is_captive(known, end),
        definite=bool(_DEFINITE.search(said)),
    )  # fmt: skip
    named = [size for size in nearby.measures(first, end) if size.kind in ("head", "drive")]  # "cap screws"
    sizes = nearby.measures(edge, first) + named + nearby.measures(end, right)
    return held(measured(group, sizes), end, known, nearby)


def _noun(lower: list[str], end: int, index: Lookup) -> tuple[FastenerKind, int] | None:
    """The kind of the noun that ends at `end` (the longest term), and where it starts."""
    for first in range(max(end - _LONGEST_TERM, 0), end):
        kind = index.fasteners.get(" ".join(lower[first:end]))
        if kind:
            return kind, first
    return None


def _qualifies_next(known: Annotations, end: int) -> bool:
    """Whether the noun only tells which part is meant: "the clip cover", but not "the screw head"."""
    if end >= len(known.tags) or end in known.stops:
        return False
    return known.tags[end] in "nH" and known.lower[end] not in ("head", "heads")


def _name(known: Annotations, left: int, end: int, qualifiers: frozenset[str]) -> str:
    lower, tags = known.lower, known.tags
    return " ".join(lower[i] for i in range(left, end) if tags[i] in "nHFAEG" and lower[i] not in qualifiers)


def _is_captive(known: Annotations, end: int) -> bool:
    """Whether the words after the noun say that the fasteners stay in their part."""
    after = known.words(end, min(end + _CAPTIVE_REACH, len(known.lower)))
    return says_captive(after.split(".")[0])
