"""Test sentences that carry their own annotation: `Undo the [two](count) [8 mm](length=8) [screws](kind=screw).`

A mark is a surface in square brackets and its facts in round ones, parted by semicolons; a fact is a key, or a key
with a value. The helper refuses marks that are not closed, empty marks, and an example without any mark, so that no
example can pass by saying nothing.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

import pytest

_MARK = re.compile(r"\[(?P<surface>[^\[\]()]*)\]\((?P<facts>[^\[\]()]*)\)")


@dataclass(frozen=True)
class Mark:
    """A marked surface, where it stands in the plain text, and its facts; a key alone has an empty value."""

    surface: str
    start: int
    end: int
    facts: dict[str, str]


@dataclass(frozen=True)
class Marked:
    """A sentence without its marks, and the marks in order."""

    text: str
    marks: tuple[Mark, ...]

    def having(self, key: str) -> list[Mark]:
        """The marks that state a fact of this key."""
        return [mark for mark in self.marks if key in mark.facts]


def parse(example: str) -> Marked:
    """The text and marks of an example.

    Raises:
        ValueError: a mark is not closed or is empty, a key is given twice, or nothing is marked.
    """
    pieces: list[str] = []
    marks: list[Mark] = []
    at = length = 0
    for match in _MARK.finditer(example):
        before = example[at : match.start()]
        _refuse_open(before, example)
        pieces.append(before)
        length += len(before)
        surface = match["surface"]
        if not surface.strip():
            raise ValueError(f"empty mark in: {example}")
        marks.append(Mark(surface, length, length + len(surface), _facts(match["facts"], example)))
        pieces.append(surface)
        length += len(surface)
        at = match.end()
    _refuse_open(example[at:], example)
    if not marks:
        raise ValueError(f"nothing is marked in: {example}")
    return Marked("".join(pieces) + example[at:], tuple(marks))


def _refuse_open(text: str, example: str) -> None:
    if "[" in text or "]" in text:
        raise ValueError(f"a mark is not closed in: {example}")


def _facts(text: str, example: str) -> dict[str, str]:
    facts: dict[str, str] = {}
    for piece in text.split(";"):
        key, _, value = piece.partition("=")
        if not key.strip() or key.strip() in facts:
            raise ValueError(f"a mark without a key, or with one twice, in: {example}")
        facts[key.strip()] = value.strip()
    return facts


def with_gaps(cases: list[Any], gaps: dict[str, str]) -> list[Any]:
    """The cases with those marked that are known to fail, by their text (the first value), with the class of failure.

    Raises:
        ValueError: a gap names no case, so that a renamed case cannot hide one.
    """
    texts = [_text(case) for case in cases]
    unknown = [text for text in gaps if text not in texts]
    if unknown:
        raise ValueError(f"a gap is marked for no case: {unknown}")
    return [
        pytest.param(*_values(case), marks=pytest.mark.xfail(strict=True, reason=gaps[text])) if text in gaps else case
        for case, text in zip(cases, texts, strict=True)
    ]


def _values(case: Any) -> tuple[Any, ...]:
    return case if isinstance(case, tuple) else (case,)


def _text(case: Any) -> str:
    first = _values(case)[0]
    return " / ".join(first) if isinstance(first, (list, tuple)) else str(first)
