"""A draft together with its decisions, from the folder in which both lie."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from miner.decisions.applying import apply, settled
from miner.decisions.decision import Decision
from miner.decisions.items import Items
from miner.decisions.matching import Matched, matched
from miner.decisions.store import DecisionStore, store_path
from miner.model.draft import Draft
from miner.model.finding import Finding
from miner.model.serialise import read_draft


@dataclass(frozen=True, slots=True)
class Decided:
    """A draft as mined (`mined`) and with what was decided on it (`draft`, whose findings are the open ones)."""

    mined: Draft
    draft: Draft
    matched: Matched
    items: Items

    @classmethod
    def of(cls, mined: Draft, decisions: tuple[Decision, ...]) -> Decided:
        """Apply those decisions that hold for this draft."""
        found = matched(mined, decisions)
        return cls(mined, apply(mined, found.holding), found, Items.of(mined))

    @property
    def settled(self) -> tuple[tuple[Finding, Decision], ...]:
        """Findings that were decided on, with the decision."""
        return settled(self.mined, self.matched.holding)

    @property
    def open_errors(self) -> tuple[Finding, ...]:
        """Errors on which nobody has decided."""
        return tuple(one for one in self.draft.findings if one.severity == "error")


def open_decided(path: Path, more: tuple[Decision, ...] = ()) -> Decided:
    """The draft in a file or folder with the decisions beside it; `more` come on top of those stored.

    Raises:
        InputError: there is no draft.
        DecisionError: the decisions cannot be read.
    """
    return Decided.of(read_draft(path), (*DecisionStore(store_path(path)).current(), *more))
