"""The whole talk as one text, so that words can be found across the cues that cut it, and where they were said."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass

from miner.findings.case import Case
from miner.model.finding import Evidence


@dataclass(frozen=True, slots=True)
class Talk:
    """The words of all cues in lower case, joined by blanks; `starts` are the places where the cues begin."""

    text: str
    starts: tuple[int, ...]
    cues: tuple[Evidence, ...]

    @classmethod
    def of(cls, case: Case) -> Talk:
        """The talk of a recording; empty where no recording is at hand."""
        starts, place = [], 0
        for one in case.spoken:
            starts.append(place)
            place += len(one.quote) + 1
        return cls(" ".join(one.quote.casefold() for one in case.spoken), tuple(starts), case.spoken)

    def cue(self, place: int) -> Evidence:
        """The cue in which a place of the text lies."""
        return self.cues[bisect_right(self.starts, place) - 1]
