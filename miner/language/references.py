"""Pronouns resolved to the part or group last worked on; what cannot be resolved is observed, not guessed."""

from __future__ import annotations

import re

from miner.language.agreement import evidence
from miner.language.annotations import Annotations, Clause
from miner.lexicon import Lexicon
from miner.model.observation import Observation

_PERSONAL = frozenset(("it", "them", "this", "that", "'em", "em"))
_THAT_ONE = re.compile(
    r"^(?:\w+ ){1,3}?(?P<one>(?:that|this) (?:one|thing)|that from the other(?: one)?|(?:that|this) (?:to|from|off|under|behind|over|into|onto) (?:the other|that|this)(?: one| side)?)\b"
)


def resolve_references(known: Annotations, lexicon: Lexicon) -> None:
    """Gives clauses with a pronoun the object of the clause before them in the same stretch of work."""
    last = None
    before: Clause | None = None
    told = -2
    for at, clause in enumerate(known.clauses):
        if clause.mood == "descriptive" and not clause.deed:
            told = at
        if clause.deed is None:
            continue
        if clause.mood in ("imperative", "planned") and not clause.subordinate:
            unclear = _unclear(known, clause, before)
            if unclear and (told < at - 1 or "other" in unclear):
                candidates = ", ".join(p.name for p in before.objects) if before else ""
                place = evidence(known, clause.start, clause.end)
                known.observations.append(
                    Observation("unclear-reference", (place,), {"pronoun": unclear, "candidates": candidates})
                )
                clause.object = None
                continue
        if clause.object is None and clause.pronoun in _PERSONAL and last is not None:
            clause.object = last
        if clause.object is not None and not clause.object.place:
            last = clause.object
        before = clause


def _unclear(known: Annotations, clause: Clause, before: Clause | None) -> str | None:
    """The words that leave open what is meant: "that one" after two leads, "that from the other one"."""
    match = _THAT_ONE.match(known.words(clause.core, clause.end))
    if not match:
        return None
    if "other" in match["one"] or before is None or len(before.objects) != 1:
        return match["one"]
    only = before.objects[0]
    return match["one"] if only.plural or (only.count or 0) > 1 else None
