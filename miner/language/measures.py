"""Lengths, threads and torques of fasteners, in every way that people say and write them; results in mm and Nm."""

from __future__ import annotations

import re

from spacy.tokens import Doc

from miner.language.annotations import Annotations, Measure, MeasureKind, annotations_of
from miner.language.inch_threads import INCH_MM, inch_threads
from miner.language.numbers import ANY, value_of
from miner.language.overlaps import without_overlaps

__all__ = ["COARSE_PITCH_MM", "INCH_MM", "MM", "find_measures", "measures_in", "split_callout"]

COARSE_PITCH_MM = {
    1.6: 0.35, 2: 0.4, 2.5: 0.45, 3: 0.5, 3.5: 0.6, 4: 0.7, 5: 0.8, 6: 1.0, 8: 1.25, 10: 1.5, 12: 1.75, 14: 2.0,
    16: 2.0, 18: 2.5, 20: 2.5, 22: 2.5, 24: 3.0, 30: 3.5, 36: 4.0,
}  # fmt: skip
"""Coarse pitch by nominal diameter, mm: ISO 262. A second number up to the pitch is a pitch, above it a length."""

MM = r"(?:mm|mils?|mills?|millimet(?:re|er)s?)\b"
_INCH = r"(?:inch(?:es)?\b|\"|”)"
_HALVES = {"half": 0.5, "quarter": 0.25, "three quarter": 0.75, "three quarters": 0.75, "three-quarter": 0.75}
_LENGTH = re.compile(
    rf"(?<![\w.])(?:(?P<n>{ANY})[\s-]*"
    rf"(?:(?P<mm>{MM})|(?P<cm>cm\b|centimet(?:re|er)s?\b)|(?P<inch>{_INCH}))"
    rf"|(?P<top>\d+)/(?P<low>\d+)[\s-]*{_INCH}|(?:a )?(?P<half>half|three[ -]quarters?|quarter)(?: an?)?[ -]inch\b)"
    rf"(?P<long>[\s-]+(?:long|in length)\b)?"
)
_BEFORE_LONG = re.compile(
    r"(?:,|\b(?:screws?|bolts?|studs?|nuts?|and|all|they're|are|is|it's|that's|about|roughly))\s+"
    rf"(?P<n>{ANY}) $"
)
_LONG = re.compile(r"\blong\b(?=\s*(?:[.,;:]|$)|\s(?:and|so|that|they|which|take|undo|get|out|each|in|on|at|with)\b)")
"""A length whose unit is left out: "M6 bolts, thirty long"."""

_BY_LENGTH = re.compile(rf"\bby (?P<n>{ANY})[\s-]*{MM}(?P<long>\s+long\b)?")
_BEFORE_BY = re.compile(rf"(?<![\w.]){ANY}[\s-]*(?:{MM})?\s$")
"""Diameter by length of a screw without a thread, "5 by 16 millimetres"; the first is told by what stands before."""

_LOOK_BACK = 40
"""Characters before a word in which its number may stand."""

_LEAST_BARE_MM = 5
"""Below it "five long" counts long things."""

_BY = r"\s*(?:x|×|by|times)\s*"
_TIMES = rf"(?:{_BY}(?P<a>{ANY})(?:{_BY}(?P<b>{ANY}))?(?:[\s-]*{MM})?)?"
_CALL_OUT = rf"\b(?:m|em)[\s-]?(?P<d>{ANY}){_TIMES}(?:'?s\b)?(?![\w/])"
_FASTENER_AHEAD = rf"(?=[\s-]*(?:{MM})?[\s,]*(?:screw|bolt|machine|cap|set))"
_NO_LETTER = rf"(?<![\w.])(?P<d2>{ANY}) (?:mm |mil )?by (?P<a2>{ANY}){_FASTENER_AHEAD}(?:[\s-]*{MM})?"
_THREAD = re.compile(f"{_CALL_OUT}|{_NO_LETTER}")

_NEWTON_METRES = r"n\W?m\b|newton[\s-]?met(?:re|er)s?\b|newtons\b|n\W?cm\b"
_FOOT_POUNDS = r"(?:foot[\s-]pounds|ft[\s-]?lbs?)\b"
_TORQUE = re.compile(rf"(?<![\w.])(?P<n>{ANY})[\s-]*(?P<unit>{_NEWTON_METRES}|{_FOOT_POUNDS})")
_FOOT_POUND_NM = 1.355818

_Found = tuple[int, int, Measure]


def find_measures(doc: Doc) -> list[Measure]:
    """Lengths, threads and torques of a Doc, in order, none inside another."""
    return measures_in(annotations_of(doc))


def measures_in(known: Annotations) -> list[Measure]:
    """As find_measures, from annotations."""
    text = known.text
    found = [_torque(known, match) for match in _TORQUE.finditer(text)]
    found += [thread for match in _THREAD.finditer(text) if (thread := _thread(known, match))]
    found += [_inch(known, *thread) for thread in inch_threads(text)]
    found += [_length(known, match) for match in _LENGTH.finditer(text)]
    found += [bare for match in _LONG.finditer(text) if (bare := _bare_length(known, match))]
    found += [pair for match in _BY_LENGTH.finditer(text) if (pair := _by_length(known, match))]
    return without_overlaps(found)


def split_callout(diameter: float, first: float | None, second: float | None) -> tuple[str, float | None]:
    """Thread and length of a call-out: `M3 x 8` is a length, `M8 x 1` a pitch, `M3 x 0.5 x 8` both.

    In every published table the shortest length of a thread is greater than its coarse pitch (checked against the
    tables of the package bd-warehouse 0.4.0), so the two cannot be confused.
    """
    pitch = COARSE_PITCH_MM.get(diameter)
    thread = f"M{diameter:g}"
    if second is not None:
        return thread if first == pitch else f"{thread}x{first:g}", second
    if first is not None and pitch is not None and first <= pitch:
        return thread if first == pitch else f"{thread}x{first:g}", None
    return thread, first


def _torque(known: Annotations, match: re.Match[str]) -> _Found:
    unit = match["unit"]
    scale = 0.01 if "cm" in unit else _FOOT_POUND_NM if unit.startswith("f") else 1.0
    return _found(known, match, "torque", torque_nm=round(value_of(match["n"]) * scale, 3))


def _thread(known: Annotations, match: re.Match[str]) -> _Found | None:
    diameter = value_of(match["d"] or match["d2"])
    if diameter not in COARSE_PITCH_MM:
        return None
    first, second = match["a"] or match["a2"], match["b"]
    thread, length = split_callout(diameter, value_of(first) if first else None, value_of(second) if second else None)
    return _found(known, match, "thread", thread=thread, length_mm=length)


def _inch(known: Annotations, start: int, end: int, thread: str, length_mm: float | None) -> _Found:
    return start, end, Measure(*known.tokens_of(start, end), "thread", length_mm=length_mm, thread=thread)


def _length(known: Annotations, match: re.Match[str]) -> _Found:
    return _found(known, match, "length", length_mm=_millimetres(match), long=match["long"] is not None)


def _bare_length(known: Annotations, match: re.Match[str]) -> _Found | None:
    before = _BEFORE_LONG.search(known.text, max(match.start() - _LOOK_BACK, 0), match.start())
    if not before or (length := value_of(before["n"])) < _LEAST_BARE_MM:
        return None
    start, end = before.start("n"), match.end()
    return start, end, Measure(*known.tokens_of(start, end), "length", length_mm=length, long=True)


def _by_length(known: Annotations, match: re.Match[str]) -> _Found | None:
    before = _BEFORE_BY.search(known.text, max(match.start() - _LOOK_BACK, 0), match.start())
    if not before:
        return None
    start, end = before.start(), match.end()
    span = known.tokens_of(start, end)
    return start, end, Measure(*span, "length", length_mm=value_of(match["n"]), long=match["long"] is not None)


def _millimetres(match: re.Match[str]) -> float:
    if match["half"]:
        return round(_HALVES[match["half"].replace("-", " ")] * INCH_MM, 2)
    if match["top"]:
        return round(int(match["top"]) / max(int(match["low"]), 1) * INCH_MM, 2)
    value = value_of(match["n"])
    return round(value * (10 if match["cm"] else INCH_MM if match["inch"] else 1), 2)


def _found(
    known: Annotations,
    match: re.Match[str],
    kind: MeasureKind,
    *,
    length_mm: float | None = None,
    thread: str | None = None,
    torque_nm: float | None = None,
    long: bool = False,
) -> _Found:
    """The measure with the range of characters it was found at."""
    start, end = known.tokens_of(match.start(), match.end())
    measure = Measure(start, end, kind, length_mm=length_mm, thread=thread, torque_nm=torque_nm, long=long)
    return match.start(), match.end(), measure
