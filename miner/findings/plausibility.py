"""Whether a drive, a thread and a length can belong together, from the published tables in the lexicon.

Tolerances, so that real hardware is never called impossible: the tables of two head shapes differ by a size, and
trade sizes lie between the standard ones. A drive size counts as impossible on a thread only when it lies two or
more steps of its own series away from every published one.
"""

from __future__ import annotations

import re
from bisect import bisect_left
from dataclasses import dataclass, field
from functools import lru_cache

from miner.lexicon.loading import Lexicon
from miner.model.draft import Fastener

_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_THREAD = re.compile(r"M(\d+(?:\.\d+)?)$", re.IGNORECASE)
_SCREWS = frozenset({"screw", "bolt", "nut", "machine screw", "cap screw", "set screw", "grub screw"})
# Lengths in threads' diameters: the published ranges of ISO 7045 and ISO 4762 lie between 1.2 and 14; the bounds
# leave room for studs, through bolts and washers measured along.
_LONGEST, _SHORTEST = 30.0, 0.5
_LONGEST_MM = 400.0
# ISO 10664 sizes and the ISO 272 widths across flats of common hexagons: the series along which steps are counted.
_SERIES = {
    "T": (1, 2, 3, 4, 5, 6, 8, 10, 15, 20, 25, 30, 40, 45, 50, 55, 60, 70, 80, 90, 100),
    "PH": (0, 1, 2, 3, 4),
    "PZ": (0, 1, 2, 3, 4),
    "key": (0.7, 0.9, 1.3, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 14, 17, 19, 22, 27),
    "flats": (3.2, 4, 5, 5.5, 7, 8, 10, 13, 16, 18, 21, 24, 30, 36, 46),
}


@dataclass(frozen=True, slots=True)
class Plausibility:
    """Sizes that exist by drive, sizes by thread and by drive, and the threads of the tables."""

    sizes: dict[str, frozenset[str]] = field(default_factory=dict)
    threads: dict[str, tuple[str, ...]] = field(default_factory=dict)
    series: dict[str, str] = field(default_factory=dict)

    @classmethod
    def of(cls, lexicon: Lexicon) -> Plausibility:
        """The tables of a lexicon, made once for each."""
        return _tables(lexicon)

    def objection(self, group: Fastener) -> str | None:
        """Why the group cannot exist, as a sentence; None if it can."""
        return self._unknown_size(group) or self._unfit(group) or self._length(group)

    def _unknown_size(self, group: Fastener) -> str | None:
        known = self.sizes.get(group.drive or "")
        if not group.drive_size or not known or _key(group.drive_size) in known:
            return None
        return f"There is no {group.drive} size {group.drive_size}."

    def _unfit(self, group: Fastener) -> str | None:
        thread = (group.thread or "").upper().replace(" ", "")
        series = self.series.get(group.drive or "", "")
        steps = _SERIES.get(series, ())
        published = [n for size in self.threads.get(thread, ()) if _fits(size, series) and (n := _number(size))]
        published += [
            0.0 for size in self.threads.get(thread, ()) if _key(size) in ("ph0", "pz0") and _fits(size, series)
        ]
        own = _number(group.drive_size or "")
        if not steps or not published or own is None or not _fits(group.drive_size or "", series):
            return None
        low, high = bisect_left(steps, min(published)), bisect_left(steps, max(published))
        place = bisect_left(steps, own)
        on_step = place < len(steps) and steps[place] == own
        too_big, too_small = place - high >= 2 and (on_step or place - high >= 3), low - place >= 2
        if too_big or too_small:
            usual = ", ".join(size for size in self.threads[thread] if _fits(size, series))
            return f"A {group.drive_size} drive does not belong on an {thread} {group.kind}; usual is {usual}."
        return None

    def _length(self, group: Fastener) -> str | None:
        length = group.length_mm
        if length is None or group.kind not in _SCREWS:
            return None
        if length <= 0 or length > _LONGEST_MM:
            return f"A {group.kind} of {length:g} mm is hardly possible."
        thread = _THREAD.match((group.thread or "").replace(" ", ""))
        diameter = float(thread[1]) if thread else None
        if diameter and not _SHORTEST * diameter <= length <= _LONGEST * diameter:
            return f"A length of {length:g} mm does not belong to an {group.thread} {group.kind}."
        return None


@lru_cache(maxsize=4)
def _tables(lexicon: Lexicon) -> Plausibility:
    series = {}
    for drive in lexicon.drives:
        if drive.unit == "mm":
            series[drive.drive] = "flats" if drive.external else "key"
        elif drive.prefix in _SERIES:
            series[drive.drive] = drive.prefix
    return Plausibility(
        {drive.drive: frozenset(map(_key, drive.sizes)) for drive in lexicon.drives if drive.sizes},
        {entry.thread.upper(): entry.sizes for entry in lexicon.thread_drives},
        series,
    )


def _key(size: str) -> str:
    return size.replace(" ", "").casefold()


def _number(size: str) -> float | None:
    found = _NUMBER.search(size)
    return float(found[0]) if found else None


def _fits(size: str, series: str) -> bool:
    """Whether a size is one of a series: `T10` of T, `PH2` of PH, `2.5 mm` of the keys."""
    key = _key(size)
    if series in ("key", "flats"):
        return key.endswith("mm")
    return key.startswith(series.casefold()) if series in ("PH", "PZ") else bool(re.match(r"t\d+h?$", key))
