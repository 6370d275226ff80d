"""One decision of an editor on one item of a draft."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any, Literal

State = Literal["accepted", "corrected", "dismissed", "open"]
"""`open` takes an earlier decision back; the item stands again as it was mined."""

Changes = dict[str, Any]
"""Fields of an item and what the editor made of them, as JSON values; `changes.py` says which there are."""


@dataclass(frozen=True, slots=True)
class Basis:
    """What the editor had in view: the words the item rests on, their place in seconds, its id in that draft."""

    words: str = ""
    start: float = 0.0
    end: float = 0.0
    id: str = ""


@dataclass(frozen=True, slots=True)
class Decision:
    """What was decided on `item` (its key, see `items.py`).

    `version` counts the decisions on this item, `act` numbers what was saved in one go, `undoes` names the act that
    was taken back. `at` is the time in UTC as ISO 8601 text. The store sets all of these.
    """

    item: str
    state: State
    changes: Changes = field(default_factory=dict)
    reason: str = ""
    basis: Basis = Basis()
    who: str = ""
    at: str = ""
    version: int = 0
    act: int = 0
    undoes: int | None = None

    @property
    def kind(self) -> str:
        """What is decided on: `finding`, `procedure`, `step`, `notice` or `edge`."""
        return self.item.partition(":")[0]
