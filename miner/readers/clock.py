"""Times as people and programs write them, in seconds."""

from __future__ import annotations

import re

CLOCK = r"(?:\d{1,3}:[0-5]?\d:[0-5]\d|\d{1,4}:[0-5]\d)(?:[.,]\d{1,6})?"
"""Hours, minutes, seconds or minutes, seconds, with an optional fraction: `1:02:07`, `12:07`, `0:03.5`."""

_CLOCK = re.compile(CLOCK)
_SECONDS = re.compile(r"\d+(?:[.,]\d+)?\s*(?:s|secs?|seconds?)?", re.IGNORECASE)
_UNITS = re.compile(
    r"(?=\d)(?:(\d+)\s*h(?:ours?|rs?)?)?\s*(?:(\d+)\s*m(?:in)?)?\s*(?:(\d+(?:[.,]\d+)?)\s*s(?:ec)?)?", re.IGNORECASE
)


def clock(text: str) -> float | None:
    """Seconds of a time with colons, or None.

    >>> clock("1:02:07"), clock("0:42.5"), clock("0:75")
    (3727.0, 42.5, None)
    """
    if not _CLOCK.fullmatch(text):
        return None
    seconds = 0.0
    for part in text.replace(",", ".").split(":"):
        seconds = seconds * 60 + float(part)
    return seconds


def any_time(text: str) -> float | None:
    """Seconds of a time in any usual writing: with colons, with units, or a bare number of seconds; else None.

    >>> any_time("0:42"), any_time("1m 3s"), any_time("42,5"), any_time("soon")
    (42.0, 63.0, 42.5, None)
    """
    text = text.strip()
    if ":" in text:
        return clock(text)
    if _SECONDS.fullmatch(text):
        return float(re.sub(r"[^\d.,]", "", text).replace(",", "."))
    match = _UNITS.fullmatch(text)
    if not match or not any(match.groups()):
        return None
    hours, minutes, seconds = (float((part or "0").replace(",", ".")) for part in match.groups())
    return hours * 3600 + minutes * 60 + seconds
