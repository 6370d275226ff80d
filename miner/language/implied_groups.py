"""Groups in notes that name no fastener: `2x PH2 M4x16` is two screws."""

from __future__ import annotations

from collections.abc import Iterator

from miner.language.annotations import Annotations, Group, Measure
from miner.language.group_sizes import measured
from miner.language.nearby import Nearby

_COUNT_REACH = 4
"""Tokens before the first size in which the count may stand."""


def implied_groups(known: Annotations, nearby: Nearby, taken: set[int]) -> list[Group]:
    """The groups told by sizes alone; those on tokens of `taken` belong to another group."""
    found = (_group(nearby, run) for run in _runs(known) if taken.isdisjoint(_tokens(run)))
    return [group for group in found if group]


def _tokens(run: list[Measure]) -> Iterator[int]:
    return (token for measure in run for token in range(measure.start, measure.end))


def _runs(known: Annotations) -> Iterator[list[Measure]]:
    """Measures of one note with no more than a token between them."""
    run: list[Measure] = []
    for measure in known.measures:
        if run and (measure.start - run[-1].end > 1 or measure.start in known.breaks):
            yield run
            run = []
        run.append(measure)
    if run:
        yield run


def _group(nearby: Nearby, run: list[Measure]) -> Group | None:
    """A group of screws where a thread is told, or a count with the size of a drive."""
    if not any(m.kind in ("thread", "drive") and (m.thread or m.drive_size) for m in run):
        return None
    start = run[0].start
    numbers = nearby.numbers(max(start - _COUNT_REACH, 0), start)
    number = next((n for n in reversed(numbers) if n.times or n.end == start), None)
    if number is None:
        if not any(m.thread for m in run):
            return None
        return measured(Group(start, run[-1].end, "screw", plural=False, implied=True), run)
    plural, count = number.value != 1, int(number.value)
    return measured(Group(number.start, run[-1].end, "screw", plural, count, implied=True), run)
