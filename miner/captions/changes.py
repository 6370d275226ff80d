"""What a search for mishearings finds."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Change:
    """Words from `start` up to `end` (positions in the flat list of words) that should read `meant`, and why."""

    start: int
    end: int
    meant: tuple[str, ...]
    reason: str
