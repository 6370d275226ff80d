"""The draft itself, as `draft/1` JSON."""

from __future__ import annotations

from miner.model.draft import Draft


def write(draft: Draft) -> bytes:
    """The whole draft as UTF-8 JSON."""
    return draft.to_json().encode()
