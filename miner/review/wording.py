"""Decisions in words."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import Any

from miner.decisions.changes import fasteners_of
from miner.decisions.decision import Changes, Decision
from miner.publish.wording import fastener_words
from miner.review.forms import LABELS

STATE_WORDS = {"accepted": "Accepted", "corrected": "Corrected", "dismissed": "Dismissed", "open": "Taken back"}
_KEYS = ("join", "after", "step", "procedure")


def phrase(decision: Decision) -> str:
    """What, who and when: `Dismissed by Ada, 25 November 2026, 10:02 UTC`."""
    return f"{STATE_WORDS[decision.state]} by {decision.who or 'nobody'}, {when(decision.at)}"


def when(at: str) -> str:
    """A stored time as people read it."""
    try:
        moment = datetime.fromisoformat(at)
    except ValueError:
        return at
    return f"{moment.day} {moment:%B %Y, %H:%M} UTC"


def change_rows(changes: Changes, name: Callable[[str], str]) -> list[tuple[str, str]]:
    """Each changed field with its new value; `name` says what an item is called."""
    return [(LABELS.get(field, field), _value(field, value, name)) for field, value in changes.items()]


def _value(field: str, value: Any, name: Callable[[str], str]) -> str:
    if field == "fasteners":
        return "; ".join(fastener_words(group) for group in fasteners_of(value)) or "none"
    if field == "split":
        return " | ".join(str(part["text"]) for part in value)
    if field in _KEYS:
        return name(value) if value else ("at the beginning" if field == "after" else "the whole procedure")
    if field == "items":
        return ", ".join(map(name, value))
    if isinstance(value, list):
        return "; ".join(map(str, value)) or "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "nothing" if value is None else str(value)
