"""Trade verbs and everyday idioms in use: "take the screws out" is `remove`, "plug it in" is `plug in`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from miner.language.annotations import Annotations, Deed
from miner.language.tag_table import tag_table
from miner.lexicon import Lexicon
from miner.lexicon.inflection import base_of
from miner.lexicon.lookup import lookup

REACH = 10
"""Tokens between a verb and its particle at most ("take the two long silver screws out")."""

_VERB = re.compile("[VSGE]")
_AFTER_PARTICLE = frozenset(("", *".,CTWRIf-pr"))
"""What stands after a preposition that is a particle; "" is the end of the text."""


@dataclass(frozen=True, slots=True)
class _Wording:
    """A wording of an action: the words after its first one, and what a deed takes from it."""

    rest: tuple[str, ...]
    verb: str
    effect: str
    form: str


@lru_cache(maxsize=8)
def _wordings(lexicon: Lexicon) -> dict[str, tuple[_Wording, ...]]:
    """Every wording by its first word, the longest first; single verbs have no rest."""
    index = lookup(lexicon)
    made: dict[str, list[_Wording]] = {}
    for text, form in index.verb_forms.items():
        first, *rest = text.split()
        made.setdefault(first, []).append(_Wording(tuple(rest), form.action.verb, form.action.effect, form.form))
    for first, idioms in index.idioms.items():
        for idiom in idioms:
            made.setdefault(first, []).append(_Wording(idiom.rest, idiom.action.verb, idiom.action.effect, idiom.form))
    return {first: tuple(sorted(found, key=lambda w: (-len(w.rest), w.rest, w.verb))) for first, found in made.items()}


def deeds_in(known: Annotations, lexicon: Lexicon) -> list[Deed]:
    """The trade verbs, in order; tags must have been set."""
    wordings, lower, tags = _wordings(lexicon), known.lower, known.tags
    listed = tag_table(lexicon).tags
    edges = known.stops | known.commas
    found: list[Deed] = []
    taken = -1
    for match in _VERB.finditer(tags):
        at = match.start()
        deed = _deed(at, wordings.get(lower[at], ()), known, edges) if at >= taken else None
        if deed is None and at >= taken and lower[at] not in listed:
            past = tags[at] == "E"
            base = base_of(lower[at]) if known.breaks or past else lower[at]
            deed = Deed(at, at + 1, base, "handle", "past" if past else "base")  # a verb by its place alone
        if deed:
            found.append(deed)
            taken = deed.end
    return found


def _deed(at: int, wordings: tuple[_Wording, ...], known: Annotations, edges: frozenset[int]) -> Deed | None:
    lower = known.lower
    for wording in wordings:
        size = len(wording.rest)
        if not size:
            return Deed(at, at + 1, wording.verb, wording.effect, wording.form)
        end = at + 1 + size
        if tuple(lower[at + 1 : end]) == wording.rest:
            return Deed(at, end, wording.verb, wording.effect, wording.form, end - 1)
        if size == 1:
            apart = _particle(at, wording.rest[0], known, edges)
            if apart:
                return Deed(at, at + 1, wording.verb, wording.effect, wording.form, apart)
    return None


def _particle(verb: int, particle: str, known: Annotations, edges: frozenset[int]) -> int | None:
    """Where the particle stands after the object, if it does; `edges` are sentences that begin without a sign."""
    lower, tags = known.lower, known.tags
    for at in range(verb + 1, min(verb + REACH, len(tags))):
        tag = tags[at]
        if tag in ".VSWe" or at in edges or (tag == "p" and lower[at] != particle):
            return None
        if tag in "C," and tags[at + 1 : at + 2] in ("V", "I", "T", "O"):
            return None
        if at > verb + 1 and lower[at] == particle and (tag == "r" or tags[at + 1 : at + 2] in _AFTER_PARTICLE):
            return at
    return None
