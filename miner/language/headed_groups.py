"""Groups of screws told by head, drive or thread alone: "a pair of M5 button heads", "four T15s", "six Phillips"."""

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
_LEAST = 2
"""A drive named in the singular stands for so many screws at least."""
_RECESSES = frozenset(("cross-recess", "pozidriv", "hexalobular", "hexalobular-tamper", "square", "pentalobular"))
"""Drives whose names stand for screws where they are counted: "four Phillips", "six Torx"."""
_TURNERS = frozenset(
    "driver drivers screwdriver screwdrivers bit bits key keys head heads type drive size recess".split()
)


def headed_groups(known: Annotations, nearby: Nearby, index: Lookup, taken: set[int]) -> list[Group]:
    """The groups in order; those on tokens of `taken` belong to another group."""
    return [
        group for size in known.measures if size.start not in taken and (group := _group(known, nearby, size, index))
    ]


def _group(known: Annotations, nearby: Nearby, size: Measure, index: Lookup) -> Group | None:
    """The group that a size names, if it is in the plural and counted or pointed at."""
    end = size.end
    if size.kind not in ("drive", "head", "thread"):
        return None
    plural = _is_plural(known, size)
    if not (plural or _may_be_counted(known, size)):
        return None
    if end < len(known.tags) and end not in known.stops and end not in known.commas and known.tags[end] in _NO_SCREW:
        return None
    edge = left_edge(known, size.start, index)
    counted = count_of(known, nearby, edge, (size.start, end), plural=True)
    said = known.words(counted.left, end)
    if counted.count is None and not counted.alternatives and not _COUNTS.search(said):
        return None
    apart = "," in known.tags[counted.left : size.start]  # "the screws, there are six, T15"
    least = 1 if size.kind == "thread" else _LEAST
    if not plural and (apart or (not counted.alternatives and (counted.count or 0) < least)):
        return None
    right = right_edge(known, end)
    kind = "bolt" if size.drive == "hex-head" else "screw"
    group = Group(
        counted.left, max(right, end), kind, plural=True, count=counted.count, alternatives=counted.alternatives,
        name=_name(known, size), captive=says_captive(said), definite=bool(_COUNTS.search(said)),
    )  # fmt: skip
    return held(measured(group, nearby.measures(edge, right)), end, known, nearby)


def _is_plural(known: Annotations, size: Measure) -> bool:
    """Whether the size stands for several screws; of "t 10s" the tokens are "t", "10" and "s"."""
    last = known.lower[size.end - 1]
    if last == "heads" and size.kind == "drive":  # "two Phillips heads", but not "bolts with 17 mil heads"
        named = size.drive != "hex-head" or known.lower[size.end - 2].startswith("hex")
        return named and size.start > 0 and known.tags[size.start - 1] in "NDA"
    return bool(_PLURAL.fullmatch(last)) or (
        last in ("s", "'s") and size.end - size.start > 1 and (size.drive_size or size.thread) is not None
    )


def _may_be_counted(known: Annotations, size: Measure) -> bool:
    """Whether the name of a drive stands for screws if it is counted: "four Phillips", but not "two Torx bits"."""
    last, end = known.lower[size.end - 1], size.end
    if size.kind == "thread":  # "one M5 x 10 and two M5 x 16 screws"
        return known.tags[end : end + 2] == "CN" and known.lower[end] == "and" and known.tags[end + 2 : end + 3] == "Z"
    return size.drive in _RECESSES and last not in _TURNERS and not known.breaks


def _name(known: Annotations, size: Measure) -> str:
    """What the screws are called: "button heads"; told by their drive alone they are screws."""
    if size.kind == "head":
        return known.words(size.start, size.end)
    return "bolts" if size.drive == "hex-head" else "screws"
