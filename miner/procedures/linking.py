"""Prerequisites linked to the procedures that remove their parts."""

from __future__ import annotations

from dataclasses import replace

from miner.model.draft import Procedure
from miner.model.naming import part_key


def linked(procedures: tuple[Procedure, ...]) -> tuple[Procedure, ...]:
    """The procedures, each prerequisite pointing to the one whose subject it names, in full or unmistakably short."""
    by_key = {part_key(p.subject): p.id for p in reversed(procedures) if p.subject}

    def remover(part: str) -> str | None:
        key = part_key(part)
        if key in by_key:
            return by_key[key]
        words = set(key.split())
        near = [i for k, i in by_key.items() if set(k.split()) < words or words < set(k.split())]
        return near[0] if len(near) == 1 else None

    return tuple(
        replace(p, prerequisites=tuple(replace(q, procedure=remover(q.part)) for q in p.prerequisites))
        for p in procedures
    )
