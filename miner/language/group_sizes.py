"""Sizes given to a group of fasteners, and two tellings of one group made one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from miner.language.annotations import Group, Measure

WIDTHS_AF = frozenset((5.5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 21, 22, 24, 27, 30, 32))
"""Widths across flats of usual spanners, mm (ISO 272 series, common practice for the rest)."""
_KEYS = frozenset((1.5, 2, 2.5, 3, 4, 5, 6, 8, 10))
"""Usual hexagon keys, mm (ISO 2936): "Allen bolts, six mil"."""
_SHORTEST = 3.0
"""Length below which no screw is told by length, mm: "hex screw, 2.5 mm" (common practice, no source)."""
_CLAMP_AF = frozenset((6, 7, 8))
"""Widths across flats of the screws of worm drive clamps, mm; anything wider is a hose."""

_UNSIZED = frozenset(("clip", "latch", "circlip", "e-clip", "split pin", "cable tie"))
"""Kinds that have neither a drive nor a length."""


def measured(group: Group, measures: Sequence[Measure]) -> Group:
    """The group with its sizes; the first word on each wins. A bare length on a nut or bolt is its spanner size."""
    for measure in measures:
        if group.kind in _UNSIZED and measure.kind != "torque":
            continue
        group = _with_length(_with_drive(group, measure), measure)
    if group.kind == "nut" and group.drive == "hex-socket":  # nobody turns a nut from within
        group = replace(group, drive="hex-head")
    return group


def _with_drive(group: Group, measure: Measure) -> Group:
    """Thread, drive, head and torque, where the measure tells them and the group leaves them open."""
    if measure.thread and not group.thread:
        group = replace(group, thread=measure.thread)
    if measure.drive and (not group.drive or (group.drive == measure.drive and not group.drive_size)):
        group = replace(group, drive=measure.drive, drive_size=measure.drive_size)
    if measure.head and not group.head:
        group = replace(group, head=measure.head)
    if measure.torque_nm is not None and group.torque_nm is None:
        group = replace(group, torque_nm=measure.torque_nm)
    return group


def _with_length(group: Group, measure: Measure) -> Group:
    length = measure.length_mm
    if length is None:
        return group
    if group.length_mm is not None:  # "M8x16 bolts, 13 mm"
        wide = group.kind == "bolt" and not (measure.long or measure.thread or group.drive) and length in WIDTHS_AF
        return replace(group, drive="hex-head", drive_size=f"{length:g} mm") if wide else group
    keyed = group.kind == "bolt" or (group.kind == "screw" and length < _SHORTEST)
    if keyed and group.drive == "hex-socket" and not group.drive_size and length in _KEYS:
        return group if measure.long or measure.thread else replace(group, drive_size=f"{length:g} mm")
    if measure.thread or not (group.kind == "nut" or _is_spanner_size(group, measure)):
        return replace(group, length_mm=length)
    if group.drive in (None, "hex-head") and not group.drive_size:
        return replace(group, drive="hex-head", drive_size=f"{length:g} mm")
    return group


def _is_spanner_size(group: Group, measure: Measure) -> bool:
    if group.kind == "hose clamp":
        return measure.length_mm in _CLAMP_AF
    return group.kind == "bolt" and not measure.long and not group.thread and measure.length_mm in WIDTHS_AF


def merge(first: Group, second: Group) -> Group:
    """One group told in two places: what the first leaves open is taken from the second."""
    same_drive = not first.drive or second.drive in (None, first.drive)
    return replace(
        first,
        count=first.count if first.count is not None or first.alternatives else second.count,
        alternatives=first.alternatives or (second.alternatives if first.count is None else ()),
        length_mm=first.length_mm if first.length_mm is not None else second.length_mm,
        thread=first.thread or second.thread,
        drive=first.drive or second.drive,
        drive_size=first.drive_size or (second.drive_size if same_drive else None),
        head=first.head or second.head,
        captive=first.captive or second.captive,
        torque_nm=first.torque_nm if first.torque_nm is not None else second.torque_nm,
        location=first.location or second.location,
        secures=first.secures or second.secures,
        to=first.to or second.to,
        end=max(first.end, second.end),
    )
