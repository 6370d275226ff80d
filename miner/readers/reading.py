"""What readers exchange: a claim on a text, and what was read from it. Times are seconds."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from miner.errors import InputError

if TYPE_CHECKING:
    from miner.model.recording import Cue


@dataclass(frozen=True, slots=True)
class Claim:
    """How surely a text is in a format (0 not at all, 1 beyond doubt), and by which sign in the text."""

    score: float
    reason: str


@dataclass(frozen=True, slots=True)
class Reading:
    """The cues of a file in the order in which they stand there, and what the file says about itself."""

    cues: tuple[Cue, ...]
    title: str = ""
    media: str | None = None


def checked_span(start: float, end: float, where: str) -> tuple[float, float]:
    """A cue's times, or an error if it ends before it starts."""
    if end < start:
        raise InputError(
            f"a cue ends at {end:.3f} s, before it starts at {start:.3f} s",
            where=where,
            remedy="Correct the two times of this cue.",
        )
    return start, end


def lasting_until_next(starts: Iterable[float], longest: Iterable[float]) -> list[tuple[float, float]]:
    """Spans for texts that have a start only: each lasts until the next later start, at most `longest` seconds.

    >>> lasting_until_next([0.0, 5.0], [60.0, 4.0])
    [(0.0, 5.0), (5.0, 9.0)]
    """
    begins, caps = list(starts), list(longest)
    spans: list[tuple[float, float]] = []
    following: float | None = None
    for begin, cap in zip(reversed(begins), reversed(caps), strict=True):
        later = following is not None and following > begin
        spans.append((begin, min(following, begin + cap) if later and following is not None else begin + cap))
        following = begin
    return spans[::-1]
