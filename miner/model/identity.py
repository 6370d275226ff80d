"""Stable ids: the same input gives the same ids, and edits elsewhere in a recording change none of them."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable

_APART = re.compile(r"[^a-z0-9]+")


def slug(text: str) -> str:
    """A name in lower case with hyphens: `The O-ring` gives `the-o-ring`."""
    return _APART.sub("-", text.casefold()).strip("-")


def procedure_id(number: int) -> str:
    """`p03` for the third procedure of a recording."""
    return f"p{number:02d}"


def step_id(procedure: str, number: int) -> str:
    """`p03.s02` for the second step of the third procedure."""
    return f"{procedure}.s{number:02d}"


def fingerprint(check: str, quotes: Iterable[str]) -> str:
    """An id made of the check and the words of its evidence, not of its times or position."""
    words = "\x1f".join(_APART.sub(" ", quote.casefold()).strip() for quote in quotes)
    return f"{check}-{hashlib.sha256(words.encode()).hexdigest()[:10]}"
