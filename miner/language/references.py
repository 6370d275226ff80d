"""Pronouns resolved to the part or group last worked on; what cannot be resolved is observed, not guessed."""

from __future__ import annotations

from miner.language.annotations import Annotations
from miner.lexicon import Lexicon


def resolve_references(known: Annotations, lexicon: Lexicon) -> None:
    """Gives clauses with a pronoun the object of the clause before them in the same stretch of work."""
    last = None
    for clause in known.clauses:
        if clause.deed is None:
            continue
        if clause.object is None and clause.pronoun in ("it", "them", "this", "that", "'em", "em") and last is not None:
            clause.object = last
        if clause.object is not None and not clause.object.place:
            last = clause.object
