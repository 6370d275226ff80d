"""Under which condition the work of a clause is done: "if fitted", "on machines with a heater"."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations, Clause

_VARIANTS = "models?|units?|machines?|versions?|builds?|types?|variants?"
_WHICH = "the|some|older|newer|later|earlier"
_LEADS = re.compile(
    rf"\W*(?P<condition>(?:if|unless|where (?:fitted|present)|(?:on|with|for) (?:{_WHICH} )?(?:{_VARIANTS}))\b.*)"
)
_TRAILS = re.compile(
    r".*?(?P<condition>\b(?:if|where|unless|when) (?:it is |it's |they are |they're |one is |there is |there's )?"
    r"(?:fitted|present|installed|equipped|applicable|provided|there|used|one|any|you have|your"
    r"|the (?:unit|machine|model)) ?.*)"
)


def set_conditions(known: Annotations, conditional: frozenset[str]) -> None:
    """Sets the condition of the clauses that have one; it stands before the work or at its end.

    Args:
        known: the annotations, with clauses.
        conditional: the words that open a condition within the clause of the work ("if it sticks heat it").
    """
    for sentence in known.sentences:
        leading: str | None = None
        for clause in known.clauses_of(sentence):
            words = known.words(clause.core, clause.end)
            opens = _LEADS.match(words)
            if opens and clause.mood in ("fragment", "descriptive", "passive", "result"):
                leading = _plain(opens["condition"])
            else:
                clause.condition = _within(known, clause, conditional) or leading or _trailing(clause, words)


def _within(known: Annotations, clause: Clause, conditional: frozenset[str]) -> str | None:
    lead = range(clause.start, clause.core)
    first = next((at for at in lead if known.lower[at] in conditional), None)
    return None if first is None else _plain(known.words(first, clause.core))


def _trailing(clause: Clause, words: str) -> str | None:
    found = _TRAILS.fullmatch(words) if clause.deed else None
    return _plain(found["condition"]) if found else None


def _plain(words: str) -> str:
    return words.strip(" ,.")
