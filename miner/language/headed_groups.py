"""Groups of screws told by their heads or drives alone: "a pair of M5 button heads", "the four T15s", "six pozis"."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations, Group, Measure
from miner.language.captive import says_captive
from miner.language.group_counts import count_of
from miner.language.group_extents import left_edge, right_edge
from miner.language.group_holds import held
from miner.language.group_sizes import measured
from miner.language.nearby import Nearby
from miner.lexicon.lookup import Lookup

_PLURAL = re.compile(r"heads|[a-z]*\d+'?s|(?:pozi|posi|torxe|torx'|allen|robertson)'?s|caps")
"""The last word of a drive or head that stands for several screws."""

_COUNTS = re.compile(r"\b(?:the|those|these|both|pairs?|couple|your|my|our|its|their|last|other)\b")
_NO_SCREW = frozenset("FnH")


def headed_groups(known: Annotations, nearby: Nearby, index: Lookup, taken: set[int]) -> list[Group]:
    """The groups in order; those on tokens of `taken` belong to another group."""
    return [
        group for size in known.measures if size.start not in taken and (group := _group(known, nearby, size, index))
    ]


def _group(known: Annotations, nearby: Nearby, size: Measure, index: Lookup) -> Group | None:
    """The group that a size names, if it is in the plural and counted or pointed at."""
    end = size.end
    if size.kind not in ("drive", "head") or not _is_plural(known, size):
        return None
    if end < len(known.tags) and end not in known.stops and end not in known.commas and known.tags[end] in _NO_SCREW:
        return None
    edge = left_edge(known, size.start, index)
    counted = count_of(known, nearby, edge, (size.start, end), plural=True)
    said = known.words(counted.left, end)
    if counted.count is None and not counted.alternatives and not _COUNTS.search(said):
        return None
    right = right_edge(known, end)
    group = Group(
        counted.left, max(right, end), "screw", plural=True, count=counted.count, alternatives=counted.alternatives,
        name=_name(known, size), captive=says_captive(said), definite=bool(_COUNTS.search(said)),
    )  # fmt: skip
    return held(measured(group, nearby.measures(edge, right)), end, known, nearby)


def _is_plural(known: Annotations, size: Measure) -> bool:
    """Whether the size stands for several screws; of "t 10s" the tokens are "t", "10" and "s"."""
    last = known.lower[size.end - 1]
    if last == "heads" and size.kind == "drive":  # "two Phillips heads", but not "bolts with 17 mil heads"
        return size.drive != "hex-head" and size.start > 0 and known.tags[size.start - 1] in "NDA"
    return bool(_PLURAL.fullmatch(last)) or (
        last in ("s", "'s") and size.end - size.start > 1 and size.drive_size is not None
    )


def _name(known: Annotations, size: Measure) -> str:
    """What the screws are called: "button heads"; told by their drive alone they are screws."""
    return known.words(size.start, size.end) if size.kind == "head" else "screws"
