"""Trade verbs and everyday idioms in use: "take the screws out" is `remove`, "plug it in" is `plug in`."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from spacy.tokens import Doc

from miner.language.annotations import Annotations, Deed, annotations_of
from miner.lexicon import Lexicon
from miner.lexicon.lookup import lookup

REACH = 10
"""Tokens between a verb and its particle at most ("take the two long silver screws out")."""


@dataclass(frozen=True, slots=True)
class _Wording:
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


def find_deeds(doc: Doc, lexicon: Lexicon) -> list[Deed]:
    """The trade verbs of a Doc, in order; tags must have been set."""
    return deeds_in(annotations_of(doc), lexicon)


def deeds_in(known: Annotations, lexicon: Lexicon) -> list[Deed]:
    """As find_deeds, from annotations."""
    wordings, lower, tags = _wordings(lexicon), known.lower, known.tags
    found: list[Deed] = []
    taken = -1
    for i, tag in enumerate(tags):
        if tag not in "VSGE" or i < taken:
            continue
        deed = _deed(i, wordings.get(lower[i], ()), lower, tags)
        if deed:
            found.append(deed)
            taken = deed.end
    return found


def _deed(i: int, wordings: tuple[_Wording, ...], lower: list[str], tags: str) -> Deed | None:
    for wording in wordings:
        size = len(wording.rest)
        if not size:
            return Deed(i, i + 1, wording.verb, wording.effect, wording.form)
        end = i + 1 + size
        if tuple(lower[i + 1 : end]) == wording.rest:
            return Deed(i, end, wording.verb, wording.effect, wording.form, end - 1)
        if size == 1:
            apart = _particle(i, wording.rest[0], lower, tags)
            if apart:
                return Deed(i, i + 1, wording.verb, wording.effect, wording.form, apart)
    return None


def _particle(verb: int, particle: str, lower: list[str], tags: str) -> int | None:
    """Where the particle stands after the object, if it does."""
    for j in range(verb + 1, min(verb + REACH, len(tags))):
        tag = tags[j]
        if tag in ".VSWe" or (tag == "p" and lower[j] != particle):
            return None
        if tag in "C," and tags[j + 1 : j + 2] in ("V", "I", "T", "O"):
            return None
        if j > verb + 1 and lower[j] == particle:
            after = tags[j + 1 : j + 2]
            if tag == "r" or after in ("", ".", ",", "C", "T", "W", "R", "I", "f", "-", "p", "r"):
                return j
    return None
