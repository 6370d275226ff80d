"""Inch threads as said and written: "quarter twenty", "ten thirty-two screws", `1/4-20`, `#8-32`.

Diameters and threads to the inch are those of the coarse and fine series of ASME B1.1.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from miner.language.numbers import ANY, value_of

INCH_MM = 25.4
"""Millimetres in an inch (exact by the international agreement of 1959)."""

_PITCHES = {
    "#4": (40, 48), "#5": (40, 44), "#6": (32, 40), "#8": (32, 36), "#10": (24, 32), "#12": (24, 28), "1/4": (20, 28),
    "5/16": (18, 24), "3/8": (16, 24), "7/16": (14, 20), "1/2": (13, 20), "5/8": (11, 18), "3/4": (10, 16),
}  # fmt: skip
_SPOKEN = {
    "four": "#4", "five": "#5", "six": "#6", "eight": "#8", "ten": "#10", "twelve": "#12", "quarter": "1/4",
    "quarter inch": "1/4", "five sixteenths": "5/16", "five sixteenth": "5/16", "three eighths": "3/8",
    "three eighth": "3/8", "seven sixteenths": "7/16", "half inch": "1/2", "half": "1/2", "five eighths": "5/8",
    "three quarter": "3/4",
}  # fmt: skip
_SMALL = {"4": "#4", "5": "#5", "6": "#6", "8": "#8", "10": "#10", "12": "#12"}
"""Numbered sizes as captions write them: "8 32 screws"."""
_TENS = {10: "ten", 11: "eleven", 13: "thirteen", 14: "fourteen", 16: "sixteen", 18: "eighteen", 20: "twenty",
         24: "twenty[ -]four", 28: "twenty[ -]eight", 32: "thirty[ -]two", 36: "thirty[ -]six", 40: "forty",
         44: "forty[ -]four", 48: "forty[ -]eight"}  # fmt: skip


def _either(words: Iterator[str]) -> str:
    return "|".join(sorted(words, key=lambda word: (-len(word), word)))


_ON_SCREWS = r"(?=[\s,]*(?:[\w-]+[\s,]+){0,2}?(?:screws?|bolts?|nuts?|studs?|machine)\b)"
_LONG = rf"(?:\s*(?:by|x|×)\s*(?P<long>{ANY})[\s-]*(?:inch(?:es)?\b|\"))?"
_PATTERN = re.compile(
    rf"(?<![\w/.#])(?:(?P<frac>[1357]/(?:16|[248]))\"?[\s-]*(?P<n1>\d\d)(?![\w/.])"
    rf"|#(?P<size>\d\d?)[\s-]+(?P<n2>\d\d)(?![\w/.])"
    rf"|(?:(?P<word>{_either(iter(_SPOKEN))})[ -](?P<n3>{_either(iter(_TENS.values()))}|[1-4]\d)"
    rf"|(?P<small>{_either(iter(_SMALL))})[ -](?P<n4>[2-4]\d))\b(?!\.\d)"
    rf"(?![\s-]*(?:mm|mils?\b|millimet|long|degrees?|inch|minutes?|newton)))" + _LONG
)


def inch_threads(text: str) -> Iterator[tuple[int, int, str, float | None]]:
    """The characters, thread (`1/4-20`) and length in mm, if said, of every inch thread in lower-case text."""
    for match in _PATTERN.finditer(text):
        numbered = f"#{match['size']}" if match["size"] else _SMALL.get(match["small"] or "")
        diameter = match["frac"] or numbered or _SPOKEN[match["word"]]
        pitch = int(match["n1"] or match["n2"] or match["n4"] or value_of(match["n3"].replace("-", " ")))
        if pitch not in _PITCHES.get(diameter, ()) or not (match["frac"] or match["size"] or _is_meant(text, match)):
            continue
        length = round(value_of(match["long"]) * INCH_MM, 2) if match["long"] else None
        yield match.start(), match.end(), f"{diameter}-{pitch}", length


def _is_meant(text: str, match: re.Match[str]) -> bool:
    """Whether spoken numbers are a thread: "quarter twenty" always, "six thirty two" only before the fastener."""
    if match["word"] and match["word"].startswith("quarter"):
        return True
    return re.match(_ON_SCREWS, text[match.end() : match.end() + 40]) is not None
