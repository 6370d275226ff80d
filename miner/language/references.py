"""Pronouns resolved to the part or group last worked on; what cannot be resolved is observed, not guessed."""

from __future__ import annotations

import re

from miner.language.agreement import evidence
from miner.language.annotations import Annotations, Clause, Phrase
from miner.lexicon import Lexicon
from miner.model.observation import Observation

_PERSONAL = frozenset(("it", "them", "this", "that", "'em", "em"))
_PLURAL = frozenset(("them", "'em", "em"))
_SINGULAR = frozenset(("it", "this", "that"))
_WHICH_ONE = r"(?:that|this) (?:one|thing)|that from the other(?: one)?"
_WHICH_WAY = r"(?:that|this) (?:to|from|off|under|behind|over|into|onto) (?:the other|that|this)(?: one| side)?"
_NEITHER = r"(?:it|them) (?:from|off) (?:this|that)(?: one)?\W+(?:and |then )*(?:(?:from|off) )?the other"
_THAT_ONE = re.compile(rf"^(?:\w+ ){{1,3}}?(?P<one>{_WHICH_ONE}|{_WHICH_WAY}|{_NEITHER})\b")
_NEVER = -2


def resolve_references(known: Annotations, lexicon: Lexicon) -> None:
    """Gives clauses with a pronoun the object of the clause before them in the same stretch of work."""
    last = None
    before: Clause | None = None
    told = grouped = _NEVER  # the last clause that only describes, and the last that tells of several fasteners
    for at, clause in enumerate(known.clauses):
        several = _several(known, known.clauses[at - 1]) if at else ()
        grouped = at if clause.deed is None and any(group.plural for group in clause.groups) else grouped
        if _describes(clause) or (several and clause.mood not in ("imperative", "planned")):
            told = at if clause.mood != "fragment" and not _several(known, clause) else told
            continue
        unclear = _unclear(known, clause, before, among=several)
        if unclear and (told < at - 1 or "other" in unclear):
            candidates = ", ".join(several or _may_be_meant(clause, before))
            said = {"pronoun": unclear, "candidates": candidates}
            place = evidence(known, clause.start, clause.end)
            known.observations.append(Observation("unclear-reference", (place,), said))
            clause.object, clause.unclear = None, True
            continue
        group_meant = clause.pronoun in _PLURAL and 0 <= at - grouped <= 2  # "with six screws, so have them out"
        if clause.object is None and clause.pronoun in _PERSONAL and last is not None and not group_meant:
            clause.object = _agreeing(known, clause.pronoun, last, before)
        if clause.object is not None and not clause.object.place:
            last = clause.object
        before = clause


def _may_be_meant(clause: Clause, before: Clause | None) -> tuple[str, ...]:
    """What the clause before worked on; nobody unplugs fasteners."""
    unplugs = clause.deed is not None and clause.deed.effect == "disconnect"
    if before is None or (unplugs and before.groups):
        return ()
    return tuple(phrase.name for phrase in before.objects)


def _agreeing(known: Annotations, pronoun: str, last: Phrase, before: Clause | None) -> Phrase:
    """What "it" means after a group of fasteners: the part that the group holds ("undo its two bolts, lift it out")."""
    if pronoun not in _SINGULAR or not last.plural or before is None:
        return last
    held = {group.secures for group in before.groups if group.secures}
    parts = [phrase for phrase in known.phrases_between(before.start, before.end) if phrase.name in held]
    return parts[0] if parts and not parts[0].plural else last


def _describes(clause: Clause) -> bool:
    """Whether a clause only tells where something is: "there's a strap", "the wire goes to the hub"."""
    return clause.deed is None or (clause.mood == "result" and clause.deed.effect == "handle")


def _several(known: Annotations, clause: Clause) -> tuple[str, ...]:
    """The names of two parts or more of which a clause tells side by side: "the speaker lead and the button lead"."""
    if clause.mood in ("imperative", "planned", "narrated") or clause.groups:
        return ()
    end = clause.deed.start if clause.deed else clause.end
    phrases = known.phrases_between(clause.start, end, places=False)
    names = tuple(phrase.name for phrase in phrases if not phrase.plural)
    return names if len(names) > 1 and names[0].split()[-1] == names[1].split()[-1] else ()


def _unclear(known: Annotations, clause: Clause, before: Clause | None, *, among: tuple[str, ...]) -> str | None:
    """The words of an instruction that leave open what is meant: "that one" after two leads, "that from the other".

    Args:
        known: the annotations, with clauses.
        clause: the instruction.
        before: the instruction before it.
        among: the parts that were told side by side just before.
    """
    if clause.subordinate or clause.mood not in ("imperative", "planned"):
        return None
    match = _THAT_ONE.match(known.words(clause.core, clause.end))
    if not match:
        return None
    if among or "other" in match["one"] or before is None or len(before.objects) != 1:
        return match["one"]
    only = before.objects[0]
    chosen = match["one"].endswith("one") and before.source is not None  # "lift the valve off the head. Turn that one"
    return match["one"] if chosen or only.plural or (only.count or 0) > 1 else None
