"""What counts as work: clauses that tell something to do, and the fastener groups that they work on."""

from __future__ import annotations

import re

from miner.language.annotations import Annotations, Clause, Group
from miner.language.numbers import ANY
from miner.model.naming import part_key

_NO_WORK = frozenset(
    "look see hear watch feel know remember notice say come go listen think be want like mean hope guess wait stop "
    "love hate".split()
)
_FREES = frozenset(("undo", "detach", "disconnect", "loosen"))
_REFLEXIVES = frozenset("myself yourself himself herself itself ourselves yourselves themselves".split())
_PLAIN_PARTS = frozenset(("pin", "stud", "washer", "nail", "threaded rod"))
"""Kinds that hold nothing by themselves: they are the part worked on, or a place."""
_WHERE = frozenset("under underneath behind beside near past above below round around into onto to against".split())
_OUT_OF = frozenset(("out of", "next to", "up to", "clear of", "short of"))
_TIMES = frozenset(("before", "after", "until", "till"))
_WORKS = frozenset(("undo", "loosen", "fasten"))
"""Effects on fasteners, wherever they are named."""
_CONNECTORS = re.compile(
    r"\W*(?:on|of|at) (?:the |its |each |that |this )?(?:[\w-]+ ){0,2}?"
    r"(?:connector|socket|plug|lead|ribbon|header|cable)s?\b"
)
_WAITS = re.compile(r"\b(?:minutes?|seconds?|hours?|a while|a moment|a bit)\b")
_TIME = rf"(?:for|at least|another|about|around|some|up to| )*{ANY} ?(?:full |more )?(?:second|sec|minute|min|hour)s?\b"
_EVENT = r"(?:until|till)\b(?! (?:i|you|we) (?:see|hear))|for (?:the|its?|all|every|any) [^,.]*\b(?:to|has|have)\b"
_WAITS_FOR = re.compile(f"^wait (?:{_TIME}|{_EVENT})")
_UNTIL = re.compile(
    r"\b(?:until|till|til|before|after|when|once|while|where|as far as|so that|because|'cause|cause|if)\b"
)
_PART_OF_GROUP = re.compile(
    rf"\b{ANY} of (?:these|those|them|the {ANY})\b(?=.*\b(?:is|are|has|have|also|holds?)\b)"
    rf"|^\W*(?:and |while |but )*(?:the )?(?:other|remaining|rest)?\s*{ANY} (?:is|are) "
    r"(?:silver|black|longer|shorter|brass|gold\w*|white|red|blue|steel|copper|zinc|long|short)"
)


def is_work(known: Annotations, clause: Clause) -> bool:
    """An instruction has something to work on; "look at that" and "come on" are none."""
    deed = clause.deed
    if deed is not None and deed.verb == "wait" and clause.mood == "imperative":
        return bool(_WAITS_FOR.search(known.words(clause.core, clause.end)))
    if deed is None or deed.verb.split()[0] in _NO_WORK:
        return False
    if known.lower[deed.start] in _NO_WORK and (
        deed.particle is None or deed.effect not in ("detach", "undo", "disconnect")
    ):
        return False
    if deed.end < clause.end and known.lower[deed.end] in _REFLEXIVES:
        return False  # "I cut myself last time"
    if deed.verb in ("keep", "leave", "have") and clause.mood != "imperative":
        return False
    if clause.object or clause.groups or clause.source or clause.objects or clause.tools:
        return True
    if clause.pronoun:
        linked = deed.particle is not None or clause.link in ("and", "then", "so")
        return linked or deed.effect in _FREES or clause.end - clause.core > 2 or bool(known.breaks)
    return deed.effect in ("isolate", "energise", "undo", "clean") or deed.particle is not None or bool(known.breaks)


def is_wait(known: Annotations, clause: Clause) -> bool:
    """Whether a clause only tells to wait: "give it ten minutes", "let it stand for a while"."""
    deed = clause.deed
    if deed is None or deed.verb not in ("give", "wait", "let", "leave", "allow"):
        return False
    return bool(_WAITS.search(known.words(clause.start, clause.end)))


def accompanies(known: Annotations, clause: Clause, following: Clause) -> bool:
    """Whether a clause tells what to do meanwhile: "holding the rotor still, undo the nut"."""
    deed = clause.deed
    if deed is None or clause.mood != "narrated" or known.tags[clause.core] != "G" or deed.effect != "handle":
        return False
    follows = following.mood == "imperative" and following.link == "comma"
    return follows and clause.object is not None and not clause.groups


def splits_group(known: Annotations, clause: Clause) -> bool:
    """A remark about some of a group: "five of these are silver", "the other two are longer"."""
    return clause.deed is None and bool(_PART_OF_GROUP.search(known.words(clause.start, clause.end)))


def worked_groups(known: Annotations, clause: Clause, weak: frozenset[str], parts: frozenset[str]) -> list[Group]:
    """The groups that a clause works on: no part of that name, none mentioned in passing.

    Args:
        known: the annotated recording.
        clause: the clause.
        weak: kinds whose nouns name plain parts as often as fasteners ("clip").
        parts: keys of the parts that the recording speaks of as parts.
    """
    words = known.words(clause.core, clause.end)
    match = _UNTIL.search(words)
    until = clause.core + len(words[: match.start()].split()) if match and match.start() > 0 else clause.end
    return [
        g
        for g in clause.groups
        if g.kind not in _PLAIN_PARTS and not _is_place(known, clause, g)
        if (_weak_is_meant(known, clause, g, until, parts) if g.kind in weak else _is_meant(known, g, until))
    ]


def _is_place(known: Annotations, clause: Clause, group: Group) -> bool:
    """Whether a group only tells where or when, or belongs to a connector: "out of the clamp"."""
    at = group.start
    if at and known.lower[at - 1] in _TIMES:
        return True
    if group.kind in ("latch", "clip") and _CONNECTORS.match(known.words(group.end, group.end + 6)):
        return True
    inspects = clause.deed is not None and clause.deed.effect == "inspect"
    if inspects and at > clause.start and (known.tags[at - 1] in "pt" or known.lower[at - 1] in _WHERE):
        return True
    acts = clause.deed is not None and clause.object is not None and clause.object.head != group.end - 1
    if at <= clause.start or not acts or clause.deed is None or clause.deed.effect in _WORKS or clause.tools:
        return False
    if known.lower[at - 1] == "by":  # "pull it by the latch", but not "held by two bolts"
        return clause.mood in ("imperative", "planned", "narrated")
    return known.lower[at - 1] in _WHERE or known.words(max(at - 2, 0), at) in _OUT_OF


def _is_meant(known: Annotations, group: Group, until: int) -> bool:
    counted = group.count is not None and "N" in known.tags[group.start : group.end]
    return group.start <= until or counted


def _weak_is_meant(known: Annotations, clause: Clause, group: Group, until: int, parts: frozenset[str]) -> bool:
    several = bool((group.count and group.count > 1) or group.alternatives)
    if part_key(group.name) in parts and not several:
        return False
    if group.start > until and not several:
        return False
    acted = clause.object is not None and clause.object.head == group.end - 1
    if group.kind == "hose clamp" and (known.tags[clause.core] == "e" or _is_fitted_with(known, clause, group)):
        return True
    before = known.tags[group.start - 1] if group.start else "."
    if not acted and not several and (before in "pto" or clause.object is not None):
        return False
    return acted or several or clause.mood != "descriptive"


def _is_fitted_with(known: Annotations, clause: Clause, group: Group) -> bool:
    """Whether something is fastened with a group: "secure the pipe with the clamp"."""
    with_it = group.start > clause.start and known.lower[group.start - 1] == "with"
    return with_it and clause.deed is not None and clause.deed.effect in ("attach", "fasten")
