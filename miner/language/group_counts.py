"""How many fasteners a group has: numbers before and after its noun, articles, "both", "a pair of"."""

from __future__ import annotations

import re
from dataclasses import dataclass

from miner.language.annotations import Annotations, Number
from miner.language.nearby import Nearby

_OR = re.compile(r"(?:or|to|maybe|possibly|perhaps)(?: maybe| possibly| perhaps)?")
_OF_REACH = 5
"""Tokens before "of the" in which a count may stand."""

_PAIR = re.compile(r"\bpairs? of\b")
_COUPLE = re.compile(r"\bcouple of\b")


@dataclass(frozen=True, slots=True)
class Counted:
    """A count, or the alternatives that the speaker leaves open; `left` is where the words on it begin."""

    count: int | None
    alternatives: tuple[int, ...]
    left: int


def count_of(known: Annotations, nearby: Nearby, left: int, noun: tuple[int, int], *, plural: bool) -> Counted:
    """The count of a group whose noun phrase begins at `left` and whose noun stands at `noun`."""
    first, end = noun
    count, alternatives = said_count(known, nearby.numbers(left, first))
    of_them = _before_of(known, nearby, left)  # "two of the four bolts" are two
    if of_them[0] is not None or of_them[1]:
        count, alternatives, left = of_them
    if count is None and not alternatives:
        count = _times_after(known, nearby, end)
    words = known.words(left, end)
    if count is None and not alternatives and not plural:
        count = 1  # notes, and people in a hurry, leave the article out
    if count is None and "both" in words.split():
        count = 2
    if count is None and not alternatives and _COUPLE.search(words):
        count = 2
    if _PAIR.search(words):
        count = 2 * (count or 1)
    return Counted(count, alternatives, left)


def joined_by_or(known: Annotations, first: Number, second: Number) -> bool:
    """Whether two numbers leave a count open: "two or three", "four, maybe five"."""
    return bool(_OR.fullmatch(known.words(first.end, second.start).strip(" ,")))


def said_count(known: Annotations, numbers: list[Number]) -> tuple[int | None, tuple[int, ...]]:
    """The first number, or two of them with "or" between."""
    values = [int(number.value) for number in numbers if number.value == int(number.value)]
    if not values:
        return None, ()
    if len(values) > 1 and joined_by_or(known, numbers[0], numbers[1]):
        return None, tuple(sorted(set(values[:2])))
    return values[0], ()


def _before_of(known: Annotations, nearby: Nearby, left: int) -> tuple[int | None, tuple[int, ...], int]:
    """A count before "of the", as in "all four of the screws", or "two or three of the", and where it begins."""
    if left >= 1 and known.tags[left - 1] == "o":
        numbers = nearby.numbers(max(left - _OF_REACH, 0), left - 1)
        if numbers and numbers[-1].end == left - 1:
            last = numbers[-1:] if len(numbers) < 2 or not joined_by_or(known, *numbers[-2:]) else numbers[-2:]
            return *said_count(known, last), last[0].start
    return None, (), left


def _times_after(known: Annotations, nearby: Nearby, end: int) -> int | None:
    """The count of "bolts (4x)", or of "bolts (2, 8 mm spanner)"."""
    first = next(iter(nearby.numbers(end, min(end + 2, len(known.tags)))), None)
    bracketed = (
        first is not None and known.lower[end] == "(" and known.lower[first.end : first.end + 1] in ([","], [")"])
    )
    if bracketed and first is not None and first.value == int(first.value):
        return int(first.value)
    after = next((number for number in nearby.numbers(end, min(end + 3, len(known.tags))) if number.times), None)
    return int(after.value) if after and not known.tags[end : after.start].strip("x") else None
