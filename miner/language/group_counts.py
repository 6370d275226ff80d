"""How many fasteners a group has: numbers before and after its noun, articles, "both", "a pair of"."""

from __future__ import annotations

import re
from dataclasses import dataclass

from miner.language.annotations import Annotations, Number
from miner.language.nearby import Nearby

_OR = re.compile(r"(?:or|to|maybe|possibly|perhaps)(?: maybe| possibly| perhaps)?")
_SINGLE = re.compile(r"\b(?:the|a|an|this|that|its|your|single|each|another|every|same)\b")
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
    count, alternatives = _said(known, nearby.numbers(left, first))
    if count is None and not alternatives:
        count, left = _before_of(known, nearby, left)
    if count is None and not alternatives:
        count = _times_after(known, nearby, end)
    words = known.words(left, end)
    if count is None and not alternatives and not plural and (known.breaks or _SINGLE.search(words)):
        count = 1  # notes leave the article out
    if count is None and "both" in words.split():
        count = 2
    if count is None and not alternatives and _COUPLE.search(words):
        count = 2
    if _PAIR.search(words):
        count = 2 * (count or 1)
    return Counted(count, alternatives, left)


def _said(known: Annotations, numbers: list[Number]) -> tuple[int | None, tuple[int, ...]]:
    """The first number, or two of them with "or" between."""
    values = [int(number.value) for number in numbers if number.value == int(number.value)]
    if not values:
        return None, ()
    if len(values) > 1 and _OR.fullmatch(known.words(numbers[0].end, numbers[1].start).strip(" ,")):
        return None, tuple(sorted(set(values[:2])))
    return values[0], ()


def _before_of(known: Annotations, nearby: Nearby, left: int) -> tuple[int | None, int]:
    """A count before "of the", as in "all four of the screws", and where it begins."""
    if left >= 1 and known.tags[left - 1] == "o":
        numbers = nearby.numbers(max(left - 5, 0), left - 1)
        if numbers and numbers[-1].end == left - 1:
            return int(numbers[-1].value), numbers[-1].start
    return None, left


def _times_after(known: Annotations, nearby: Nearby, end: int) -> int | None:
    """The count of "bolts (4x)"."""
    after = next((number for number in nearby.numbers(end, min(end + 3, len(known.tags))) if number.times), None)
    return int(after.value) if after and not known.tags[end : after.start].strip("x") else None
