"""Time expressions of TTML2 (section "Time Value Expressions"): clock times and offsets with a metric, in seconds."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from miner.errors import InputError

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_PARAMETER = "{http://www.w3.org/ns/ttml#parameter}"
_CLOCK = re.compile(r"(\d{2,}):([0-5]\d):([0-5]\d)(?:(\.\d+)|:(\d{2,})(?:\.(\d+))?)?")
_OFFSET = re.compile(r"(\d+(?:\.\d+)?)(h|ms|m|s|f|t)")


@dataclass(frozen=True, slots=True)
class Rates:
    """Frames, sub-frames per frame and ticks, as the root element sets them; frames and ticks per second."""

    frames: float = 30.0
    sub_frames: int = 1
    ticks: float = 1.0


def rates_of(root: Element, source: str) -> Rates:
    """The rates of a document; the tick rate defaults to the frame rate if one is given, else to 1 (TTML2)."""
    try:
        given = root.get(_PARAMETER + "frameRate")
        upper, lower = (
            int(part) for part in root.get(_PARAMETER + "frameRateMultiplier", "1 1").replace(":", " ").split()
        )
        frames = float(given or 30) * upper / lower
        sub_frames = int(root.get(_PARAMETER + "subFrameRate", "1"))
        ticks = float(root.get(_PARAMETER + "tickRate") or (frames * sub_frames if given else 1.0))
    except (ValueError, ZeroDivisionError):
        raise InputError(
            "a frame or tick rate of the root element cannot be read", where=source, remedy="Give whole numbers."
        ) from None
    return Rates(frames, sub_frames, ticks or 1.0)


def time_of(expression: str, rates: Rates, where: str) -> float:
    """Seconds of a time expression.

    >>> time_of("00:00:01:12", Rates(frames=25), "")
    1.48

    Raises:
        InputError: if it is no time expression, has no metric, or a frame number that the rate does not reach.
    """
    text = expression.strip()
    if match := _CLOCK.fullmatch(text):
        hours, minutes, seconds, fraction, frames, sub_frames = match.groups()
        whole = int(hours) * 3600 + int(minutes) * 60 + int(seconds)
        if frames is None:
            return whole + float(fraction or 0)
        if int(frames) < rates.frames and int(sub_frames or 0) < max(rates.sub_frames, 1):
            return whole + (int(frames) + int(sub_frames or 0) / rates.sub_frames) / rates.frames
    elif match := _OFFSET.fullmatch(text):
        times, parts = {
            "h": (3600.0, 1.0),
            "m": (60.0, 1.0),
            "s": (1.0, 1.0),
            "ms": (1.0, 1000.0),
            "f": (1.0, rates.frames),
            "t": (1.0, rates.ticks),
        }[match[2]]
        return float(match[1]) * times / parts
    raise InputError(
        f"{expression!r} is no time", where=where, remedy="Write 00:00:01.500 or an offset with its unit, such as 1.5s."
    )
