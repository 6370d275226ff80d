"""Groups in notes that name no fastener: `2x PH2 M4x16` is two screws."""

from __future__ import annotations

from collections.abc import Iterator

from miner.language.annotations import Annotations, Group, Measure
from miner.language.captive import says_captive
from miner.language.group_counts import joined_by_or, said_count
from miner.language.group_sizes import measured
from miner.language.nearby import Nearby

_COUNT_REACH = 4
"""Tokens before the first size in which the count may stand."""


def implied_groups(known: Annotations, nearby: Nearby, taken: set[int]) -> list[Group]:
    """The groups told by sizes alone; those on tokens of `taken` belong to another group."""
    found = (_group(known, nearby, run) for run in _runs(known) if taken.isdisjoint(_tokens(run)))
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


def _group(known: Annotations, nearby: Nearby, run: list[Measure]) -> Group | None:
    """A group of screws where a thread is told, or a count with the size of a drive."""
    if not any(m.kind in ("thread", "drive") and (m.thread or m.drive_size) for m in run):
        return None
    start = run[0].start
    numbers = nearby.numbers(max(start - _COUNT_REACH, 0), start)
    while numbers and not (numbers[-1].times or set(known.tags[numbers[-1].end : start]) <= {"A"}):
        numbers.pop()
    if not numbers:  # "M5 button head x 3"
        numbers = [number for number in nearby.numbers(run[-1].end, run[-1].end + 1) if number.times]
    if not numbers and start and known.lower[start - 1] == "both":
        return measured(Group(start - 1, run[-1].end, "screw", plural=True, count=2, implied=True), run)
    if not numbers:
        if not any(m.thread for m in run):
            return None
        return measured(Group(start, run[-1].end, "screw", plural=False, implied=True), run)
    told = numbers[-2:] if len(numbers) > 1 and joined_by_or(known, *numbers[-2:]) else numbers[-1:]
    count, alternatives = said_count(known, told)
    captive = says_captive(known.words(told[0].start, start))
    first, end = min(told[0].start, start), max(told[-1].end, run[-1].end)
    group = Group(first, end, "screw", count != 1, count, alternatives, captive=captive, implied=True)
    return measured(group, run)
