"""Of finds that overlap, the one that begins first is kept; of those that begin together, the longest."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

T = TypeVar("T")


def without_overlaps(found: Iterable[tuple[int, int, T]]) -> list[T]:
    """The items of `(start, end, item)` in order, none inside another; ends are exclusive."""
    kept: list[T] = []
    last = -1
    for start, end, item in sorted(found, key=lambda find: (find[0], -find[1])):
        if start >= last:
            kept.append(item)
            last = end
    return kept
