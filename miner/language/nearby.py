"""The numbers, measures and phrases that begin in a range of tokens, found by bisection."""

from __future__ import annotations

from bisect import bisect_left

from miner.language.annotations import Annotations, Measure, Number, Phrase


class Nearby:
    """Indexes of one Doc; what the speaker took back is left out."""

    __slots__ = ("_known", "_measures", "_numbers", "_phrases")

    def __init__(self, known: Annotations) -> None:
        self._known = known
        self._numbers = [number.start for number in known.numbers]
        self._measures = [measure.start for measure in known.measures]
        self._phrases = [phrase.start for phrase in known.phrases]

    def numbers(self, start: int, end: int) -> list[Number]:
        """The numbers that still count something."""
        known = self._known
        found = known.numbers[bisect_left(self._numbers, start) : bisect_left(self._numbers, end)]
        return [n for n in found if n.start not in known.dropped and known.tags[n.start] == "N"]

    def measures(self, start: int, end: int) -> list[Measure]:
        """The sizes."""
        known = self._known
        found = known.measures[bisect_left(self._measures, start) : bisect_left(self._measures, end)]
        return [m for m in found if m.start not in known.dropped]

    def phrases(self, start: int, end: int) -> list[Phrase]:
        """The noun phrases."""
        return self._known.phrases[bisect_left(self._phrases, start) : bisect_left(self._phrases, end)]
